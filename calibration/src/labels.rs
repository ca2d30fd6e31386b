//! The labelled sheets and what is measured on them.

use std::fs;
use std::path::Path;

use halfcount::body::Body;
use halfcount::difficulty::{self, LEVELS, ScoreOptions, Taken, measures};
use halfcount::motion;

use super::fit::{Case, NAME};

/// A labelled sheet.
#[derive(Debug, Clone)]
pub(crate) struct Labelled {
    /// Its file's name.
    pub(crate) file: String,
    /// The level as its writer names it.
    pub(crate) named: String,
    /// The level of the blind readings, from 1; `None` for a sheet with a planted fault.
    pub(crate) level: Option<f64>,
    /// All its measures.
    pub(crate) measures: Vec<Taken>,
    /// Pieces that could not be read.
    pub(crate) unread: usize,
    /// What the fit knows of it.
    pub(crate) case: Case,
}

impl Labelled {
    /// The value of a measure.
    pub(crate) fn value(&self, name: &str) -> f64 {
        self.measures.iter().find(|m| m.name == name).map_or(0.0, |m| m.value)
    }
}

/// All labelled sheets of a table (file, author, named, mark, level), read from a folder.
pub(crate) fn labelled(table: &Path, folder: &Path) -> Result<Vec<Labelled>, String> {
    let text = fs::read_to_string(table).map_err(|error| format!("{}: {error}", table.display()))?;
    text.lines().skip(1).filter(|line| !line.trim().is_empty()).map(|line| one(line, folder)).collect()
}

fn one(line: &str, folder: &Path) -> Result<Labelled, String> {
    let cells: Vec<&str> = line.split('\t').collect();
    let [file, author, named, mark, level] = cells.as_slice() else {
        return Err(format!("{line}: five cells are needed"));
    };
    let path = folder.join(file);
    let text = fs::read_to_string(&path).map_err(|error| format!("{}: {error}", path.display()))?;
    let (measures, unread) = measured(&text)?;
    let scored = measures.iter().filter_map(|m| m.steps).collect();
    // A name such as "high beginner" or "beginner-plus" is that of the level within it, the higher one of two.
    let plain = LEVELS.iter().position(|l| l == named).or(LEVELS.iter().rposition(|l| named.contains(l)));
    let rank = plain.map_or(0, |p| p + 1);
    let mark: Option<f64> = mark.parse().ok();
    Ok(Labelled {
        file: (*file).to_owned(),
        named: (*named).to_owned(),
        level: level.parse().ok(),
        measures,
        unread,
        case: Case {
            author: (*author).to_owned(),
            notches: scored,
            mark: mark.unwrap_or(0.0),
            named: super::stats::real(rank),
            trust: if mark.is_some() { 1.0 } else { NAME },
        },
    })
}

/// The measures of a sheet, and how many pieces of it could not be read.
pub(crate) fn measured(text: &str) -> Result<(Vec<Taken>, usize), String> {
    let report = halfcount::report(text, &halfcount::Options::default()).map_err(|e| e.to_string())?;
    let motion = motion::simulate(&report.dance, &Body::default(), 1);
    let mut options = ScoreOptions::default();
    options.brief = true;
    Ok((difficulty::score(&report.dance, &motion, &options).measures, report.unread.len()))
}

/// Names of the measures that enter the score, with their notch.
pub(crate) fn scored() -> Vec<(&'static str, f64)> {
    measures().filter_map(|m| m.scored.map(|s| (m.name, s.notch))).collect()
}
