//! Texts to begin with: the sheets of the tests, the demo dances, the figures of the lexicon and the texts that
//! once broke a law or come near to it.

use std::fs;
use std::path::{Path, PathBuf};

/// The project's folder.
#[must_use]
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().map(Path::to_path_buf).unwrap_or_default()
}

/// Texts of a folder with their names, in the order of these.
#[must_use]
pub fn folder(name: &str) -> Vec<(String, String)> {
    let mut out = Vec::new();
    for entry in fs::read_dir(root().join(name)).into_iter().flatten().flatten() {
        let path = entry.path();
        if path.extension().is_some_and(|e| e == "txt")
            && let Ok(bytes) = fs::read(&path)
        {
            let name = entry.file_name().to_string_lossy().into_owned();
            out.push((name, String::from_utf8_lossy(&bytes).into_owned()));
        }
    }
    out.sort();
    out
}

/// Every sheet with its name, those of the corpus last.
#[must_use]
pub fn sheets() -> Vec<(String, String)> {
    ["tests/sheets", "www/demo", "fuzz/corpus"].iter().flat_map(|name| folder(name)).collect()
}

/// The steps of all figures as the lexicon writes them, and names of figures.
#[must_use]
pub fn figures() -> Vec<(String, String)> {
    let all = &halfcount::figures::lexicon().figures;
    let steps = all.iter().map(|f| (f.name.to_owned(), f.steps_text.to_owned()));
    let corpus = folder("fuzz/corpus/figures");
    steps.chain(corpus).collect()
}
