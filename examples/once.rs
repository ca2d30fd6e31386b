//! Reads, simulates and checks one sheet a number of times, for counting instructions:
//! `once SHEET TIMES [html]`.
#![allow(clippy::print_stdout, reason = "an example shows what it found")]

use halfcount::{Options, body::Body, motion::simulate, report};

fn main() {
    let mut args = std::env::args().skip(1);
    let path = args.next().unwrap_or_default();
    let times: usize = args.next().and_then(|n| n.parse().ok()).unwrap_or(1);
    let markdown = args.next().is_some_and(|a| a == "html");
    let text = std::fs::read_to_string(path).unwrap_or_default();
    let mut seen = 0;
    for _ in 0..times {
        seen += if markdown {
            let mut out = String::with_capacity(text.len() * 3 / 2);
            pulldown_cmark::html::push_html(&mut out, pulldown_cmark::Parser::new(&text));
            out.len()
        } else {
            report(&text, &Options::default())
                .map_or(0, |r| simulate(&r.dance, &Body::default(), 1).moments.len() + r.findings.len())
        };
    }
    println!("{seen}");
}
