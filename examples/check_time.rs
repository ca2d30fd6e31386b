//! How long one check of a sheet takes on this machine: `cargo run --release --example check_time -- SHEET`.
//!
//! It answers with microseconds, those of the quickest of many runs, so that the package can be held against it on a
//! machine that does other things besides.
#![allow(clippy::print_stdout, reason = "an example for the terminal")]

use std::hint::black_box;
use std::time::{Duration, Instant};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let path = std::env::args().nth(1).ok_or("give a sheet")?;
    let text = std::fs::read_to_string(path)?;
    let options = halfcount::Options::default();
    let started = Instant::now();
    black_box(halfcount::report(&text, &options)?);
    let first = started.elapsed();
    let mut quickest = first;
    let end = Instant::now() + Duration::from_secs(2);
    while Instant::now() < end {
        let started = Instant::now();
        black_box(halfcount::report(black_box(&text), &options)?);
        quickest = quickest.min(started.elapsed());
    }
    println!("{{\"first\":{},\"check\":{}}}", first.as_micros(), quickest.as_micros());
    Ok(())
}
