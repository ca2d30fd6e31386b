//! The data dictionary: every column of the table, from the measures themselves.

use super::measure::{Measure, measures};
use super::weights::{LEVELS, Weights};

/// One column of the table.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Column {
    /// Its name.
    pub name: &'static str,
    /// What it is about.
    pub family: &'static str,
    /// Its unit.
    pub unit: &'static str,
    /// Usual values.
    pub range: String,
    /// What it is.
    pub says: &'static str,
    /// Where it comes from.
    pub source: &'static str,
    /// Up to here it costs nothing; `None` where it is only reported.
    pub floor: Option<f64>,
    /// So much more is one notch.
    pub notch: Option<f64>,
    /// How notches count: `line`, all alike, or `root`, each further one less.
    pub curve: Option<&'static str>,
    /// Points for each step of that curve.
    pub weight: Option<f64>,
}

/// The five columns that every table begins with.
const HEAD: [(&str, &str, &str, &str); 5] = [
    ("file", "text", "any", "The sheet's name as given."),
    ("score", "points", "0 to 100", "The score; empty where part of the sheet could not be read."),
    ("level", "name", "", "The level on the named scale; empty where there is no score or no scale."),
    ("low", "points", "0 to 100", "The lower end of the score's range, or its lower bound."),
    ("high", "points", "0 to 100", "The upper end of the score's range, or its upper bound."),
];

/// Every column of the table in order, with these weights.
#[must_use]
pub fn columns(weights: &Weights) -> Vec<Column> {
    let head = HEAD.iter().map(|(name, unit, range, says)| Column {
        name,
        family: "score",
        unit,
        range: if *name == "level" { LEVELS.join(", ") } else { (*range).to_owned() },
        says,
        source: "",
        floor: None,
        notch: None,
        curve: None,
        weight: None,
    });
    let column = |(measure, weight): (&'static Measure, &f64)| Column {
        name: measure.name,
        family: measure.family.word(),
        unit: measure.unit,
        range: measure.range.to_owned(),
        says: measure.says,
        source: measure.source,
        floor: measure.scored.map(|s| s.floor),
        notch: measure.scored.map(|s| s.notch),
        curve: measure.scored.map(|s| s.curve()),
        weight: measure.scored.map(|_| *weight),
    };
    head.chain(measures().zip(&weights.points).map(column)).collect()
}
