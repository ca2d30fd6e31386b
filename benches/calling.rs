//! How long it takes to plan a song, and how far the search for phrases looks: `cargo xtask bench`.
#![allow(clippy::print_stdout, reason = "a benchmark shows its numbers")]

use std::hint::black_box;
use std::time::Instant;

use halfcount::call::{self, CallOptions, CaptionOptions, ClickOptions, Length, Moment};

const DANCE: &str = include_str!("../www/demo/ropewalk-reckoning.txt");

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
    let report = halfcount::report(DANCE, &halfcount::Options::default()).expect("a short sheet");
    let dance = &report.dance;
    let mut options = CallOptions::default();
    options.length = Some(Length::Time(Moment::of_millis(240_000)));
    let song = call::song(dance, &options);
    let calls = call::calls(dance, &song);
    assert!(calls.len() > 50, "the song is called");
    println!("a song of four minutes, {} counts, {} calls:", song.end(), calls.len());
    println!("  timeline  {:>8.1} us", median(|| drop(black_box(call::song(dance, &options)))));
    println!("  calls     {:>8.1} us", median(|| drop(black_box(call::calls(dance, &song)))));
    println!(
        "  page      {:>8.1} us",
        median(|| drop(black_box(call::page(dance, &song, &calls, &options))))
    );
    let captions = CaptionOptions::default();
    println!(
        "  captions  {:>8.1} us",
        median(|| drop(black_box(call::captions(dance, &song, &calls, &captions))))
    );
    let clicks = ClickOptions::default();
    println!(
        "  clicks    {:>8.1} us",
        median(|| drop(black_box(call::click(dance, &song, &calls, &clicks))))
    );
    println!("  lesson    {:>8.1} us", median(|| drop(black_box(call::lesson(dance)))));
    let phrases = [32, 44, 32, 20, 64, 28, 48, 32];
    assert_eq!(phrases.iter().sum::<u32>(), 300);
    let found = call::fit(dance, &phrases).expect("a dance of one part");
    assert_eq!(found.fits.last().map(|f| f.missed), Some(0));
    println!("phrases of 300 counts: {} states visited", found.states);
    println!("  search    {:>8.1} us", median(|| drop(black_box(call::fit(dance, &phrases)))));
}
