//! How well sheets are read and faults are found: `cargo xtask accuracy [--every] [FOLDER...]`.
//!
//! Each folder holds sheets (`.txt`) with what they truly say beside them (`.json`).

#[path = "../tests/measure/mod.rs"]
mod measure;

use std::io::Write;
use std::path::PathBuf;

fn main() -> std::io::Result<()> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let every = words.iter().any(|w| w == "--every");
    let mut folders: Vec<PathBuf> =
        words.iter().filter(|w| !w.starts_with("--")).map(PathBuf::from).collect();
    if folders.is_empty() {
        folders.push(measure::own());
    }
    let measured = measure::measure(&folders);
    std::io::stdout().lock().write_all(measure::print(&measured, every).as_bytes())
}
