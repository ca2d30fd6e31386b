//! How long frames and drawings take, as a share of reading the sheet: `cargo xtask bench`.
#![allow(clippy::print_stdout, reason = "a benchmark shows its numbers")]

use std::hint::black_box;
use std::time::Instant;

use halfcount::body::Body;
use halfcount::draw::{self, DrawOptions, Paper};
use halfcount::motion::simulate;

/// A dance of 64 counts with a tag.
const SHEET: &str = include_str!("../tests/sheets/form-06.txt");

/// The median time of a piece of work in microseconds.
fn median(mut work: impl FnMut()) -> f64 {
    let mut times: Vec<f64> = (0..101)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed().as_secs_f64() * 1e6
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[50]
}

fn main() {
    let read = || halfcount::report(SHEET, &halfcount::Options::default()).expect("a short sheet");
    let report = read();
    let dance = &report.dance;
    let (body, options) = (Body::default(), DrawOptions::default());
    let panels = draw::panels(dance, SHEET, &options);
    assert_eq!(dance.head.counts, 64, "the sheet has 64 counts");
    assert!(panels.len() >= 8, "each section has its panel");
    let reading = median(|| drop(black_box(read())));
    println!("a sheet of 64 counts, read and checked in {reading:.1} us:");
    let share =
        |what: &str, time: f64| println!("  {what:<18}{time:>9.1} us, {:.3} of reading", time / reading);
    share("motion and frames", median(|| drop(black_box(simulate(dance, &body, 1).frames(2)))));
    share("panels", median(|| drop(black_box(draw::panels(dance, SHEET, &options)))));
    share("strips", median(|| drop(black_box(draw::strips(dance, SHEET, &options)))));
    share("hand-out", median(|| drop(black_box(draw::page(dance, SHEET, Paper::A4, &options)))));
    let mut sizes: Vec<usize> = panels.iter().map(|p| p.svg.len()).collect();
    sizes.sort_unstable();
    let (least, middle, most) = (sizes[0], sizes[sizes.len() / 2], sizes[sizes.len() - 1]);
    println!("  SVG of a section   {least} to {most} bytes, median {middle}");
}
