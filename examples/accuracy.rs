//! How well sheets are read and faults are found: `cargo xtask accuracy [--every] [--keep=FOLDER] [FOLDER...]`.
//!
//! Each folder holds sheets (`.txt`) with what they truly say beside them (`.json`). `--keep` writes each altered
//! sheet whose fault was missed, named after its number in the list of `--every`.

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
    if let Some(folder) = words.iter().find_map(|w| w.strip_prefix("--keep=")) {
        for (n, missed) in measured.missed.iter().enumerate() {
            std::fs::write(PathBuf::from(folder).join(format!("{n:03}.txt")), &missed.text)?;
        }
    }
    std::io::stdout().lock().write_all(measure::print(&measured, every).as_bytes())
}
