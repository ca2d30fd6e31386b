//! Reads and checks 1, 10 and 100 sheets, and prints the ratio to pulldown-cmark's parse-to-HTML of the same
//! bytes in the same run. Ratios and growth are printed for a person to judge; nothing fails on a slow machine.
#![allow(clippy::print_stdout, reason = "a benchmark is read from standard output")]

use std::fs;
use std::hint::black_box;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

/// Each measure is the best of this many rounds: noise of a shared machine only ever adds time.
const ROUNDS: u32 = 7;
/// A round goes on at least this long, so that the clock's grain does not matter.
const ROUND: Duration = Duration::from_millis(60);

fn main() {
    let started = Instant::now();
    let sheets = sheets();
    assert!(!sheets.is_empty(), "there are sheets in tests/sheets");
    read(&sheets[..1]);
    println!("first call, lexicon included: {:.2} ms", started.elapsed().as_secs_f64() * 1e3);
    println!(
        "{:>6} {:>9} {:>12} {:>12} {:>8} {:>12}",
        "sheets", "bytes", "halfcount", "to HTML", "ratio", "a sheet"
    );

    for count in [1, 10, 100] {
        let some: Vec<String> = sheets.iter().cycle().take(count).cloned().collect();
        let bytes: usize = some.iter().map(String::len).sum();
        let ours = best(|| read(&some));
        let theirs = best(|| html(&some));
        let ratio = ours.as_secs_f64() / theirs.as_secs_f64();
        let each = ours / u32::try_from(count).unwrap_or(1);
        println!(
            "{count:>6} {bytes:>9} {:>9.1} µs {:>9.1} µs {ratio:>8.2} {:>9.1} µs",
            micros(ours),
            micros(theirs),
            micros(each)
        );
    }

    // Dances of 48 and 64 counts in three hands, each by itself.
    println!("\n{:>12} {:>9} {:>12} {:>12} {:>8}", "sheet", "bytes", "halfcount", "to HTML", "ratio");
    for name in ["terse-03", "prose-06", "form-06"] {
        let text = fs::read_to_string(folder().join(name).with_extension("txt")).unwrap_or_default();
        assert!(!text.is_empty(), "{name} is among the sheets of the tests");
        let one = std::slice::from_ref(&text);
        let (ours, theirs) = (best(|| read(one)), best(|| html(one)));
        println!(
            "{name:>12} {:>9} {:>9.1} µs {:>9.1} µs {:>8.2}",
            text.len(),
            micros(ours),
            micros(theirs),
            ours.as_secs_f64() / theirs.as_secs_f64()
        );
    }

    // Growth within one text: the same sheet over and over, up to the length that is still read.
    let one = &sheets[0];
    let times = (halfcount::LONGEST / (one.len() + 2)).min(100);
    let long = vec![one.as_str(); times].join("\n\n");
    let (short, long) =
        (best(|| read(std::slice::from_ref(one))), best(|| read(std::slice::from_ref(&long))));
    println!("{times} times the text takes {:.1} times the time", long.as_secs_f64() / short.as_secs_f64());
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sheets")
}

/// The sheets of the tests in a fixed order.
fn sheets() -> Vec<String> {
    let entries = fs::read_dir(folder()).into_iter().flatten().flatten();
    let mut paths: Vec<_> =
        entries.map(|e| e.path()).filter(|p| p.extension().is_some_and(|e| e == "txt")).collect();
    paths.sort();
    paths.iter().filter_map(|path| fs::read_to_string(path).ok()).collect()
}

/// Our work: read, simulate and check. The answer is looked at, so that nothing is left out.
fn read(sheets: &[String]) -> usize {
    let options = halfcount::Options::default();
    let body = halfcount::body::Body::default();
    let one = |text: &String| match halfcount::report(black_box(text), &options) {
        Ok(report) => {
            let motion = halfcount::motion::simulate(&report.dance, &body, 1);
            motion.moments.len() + report.findings.len()
        }
        Err(error) => panic!("a sheet of the tests was refused: {error}"),
    };
    black_box(sheets.iter().map(one).sum())
}

/// The measure: the same bytes as Markdown to HTML.
fn html(sheets: &[String]) -> usize {
    let one = |text: &String| {
        let mut out = String::with_capacity(text.len() * 3 / 2);
        pulldown_cmark::html::push_html(&mut out, pulldown_cmark::Parser::new(black_box(text)));
        out.len()
    };
    black_box(sheets.iter().map(one).sum())
}

fn best(mut work: impl FnMut() -> usize) -> Duration {
    let answer = work();
    let mut best = Duration::MAX;
    for _ in 0..ROUNDS {
        let (started, mut runs) = (Instant::now(), 0);
        while started.elapsed() < ROUND {
            assert_eq!(work(), answer, "the same text gives the same answer");
            runs += 1;
        }
        best = best.min(started.elapsed() / runs);
    }
    best
}

fn micros(time: Duration) -> f64 {
    time.as_secs_f64() * 1e6
}
