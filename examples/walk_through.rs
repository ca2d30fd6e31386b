//! Prints sheets count by count: `cargo run --example walk_through -- SHEET...`.
#![allow(clippy::print_stdout, reason = "an example shows its answer")]

use std::{env, fs, io};

fn main() -> io::Result<()> {
    for file in env::args().skip(1) {
        let text = fs::read_to_string(&file)?;
        let report = halfcount::report(&text, &halfcount::Options::default()).map_err(io::Error::other)?;
        let traced = halfcount::trace::trace(&report, &text, &file);
        println!("{}: {} counts, {} walls, {}", traced.title, traced.counts, traced.walls, traced.level);
        for (index, section) in traced.sections.iter().enumerate() {
            println!("  section {}  {:<44} facing {}", index + 1, section.trace, section.facing_end);
        }
        for restart in &traced.restarts {
            let facing = restart.facing.as_deref().unwrap_or("an unknown wall");
            println!(
                "  restart on wall {} after {} counts, facing {facing}",
                restart.wall, restart.after_counts
            );
        }
        for tag in &traced.tags {
            let facing = tag.facing.as_deref().unwrap_or("an unknown wall");
            println!("  tag after wall {}  {}, facing {facing}", tag.after_wall, tag.trace);
        }
    }
    Ok(())
}
