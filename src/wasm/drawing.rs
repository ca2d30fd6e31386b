//! Drawings: their options, and their sentences with places in UTF-16.

use serde::Serialize;

use super::body;
use super::error::Refusal;
use super::given::{Given, wrong};
use super::units::Units;
use crate::Report;
use crate::draw::{self, DrawOptions, Paper, Picture, View};
use crate::time::Ticks;

/// The options that all drawings share.
pub(super) fn options(given: &Given) -> Result<DrawOptions, Refusal> {
    let view = match given.word("view", &["room", "dancer", "teacher"])? {
        Some(1) => View::Dancer,
        Some(2) => View::Teacher,
        _ => View::Room,
    };
    let mut how = DrawOptions { view, body: body::body(given)?, ..DrawOptions::default() };
    let columns = given.number("columns", |n| (1..=8).contains(&n), "a whole number from 1 to 8")?;
    how.columns = usize::try_from(columns.unwrap_or(2)).unwrap_or(2);
    let width = given.number("width", |n| (1..=20_000).contains(&n), "a whole number from 1 to 20000")?;
    how.width = width.map(f64::from);
    how.prefix = given.string("prefix")?.unwrap_or_default();
    Ok(how)
}

/// One drawing: of all sections, of one moment, or as a page to print.
pub(super) fn draw(text: &str, report: &Report, given: &Given, how: &DrawOptions) -> Result<String, Refusal> {
    let dance = &report.dance;
    if let Some(word) = given.string("count")? {
        let words = "a running count such as \"12\" or \"12&\" that the dance reaches";
        let picture = Ticks::of_words(&word).and_then(|at| draw::moment(dance, text, at, how));
        return picture.map(|p| p.svg).ok_or_else(|| wrong("count", words));
    }
    Ok(match given.word("page", &["a4", "letter"])? {
        Some(0) => draw::page(dance, text, Paper::A4, how),
        Some(_) => draw::page(dance, text, Paper::Letter, how),
        None if given.flag("strip")? => draw::strip_sheet(dance, text, how),
        None => draw::sheet(dance, text, how),
    })
}

#[derive(Serialize)]
pub(super) struct Drawn {
    title: String,
    part: String,
    section: u32,
    svg: String,
    sentences: Vec<Said>,
}

#[derive(Serialize)]
struct Said {
    count: String,
    words: String,
    sentence: String,
    start: u32,
    end: u32,
}

/// A drawing for each section.
pub(super) fn sections(text: &str, report: &Report, strip: bool, how: &DrawOptions) -> Vec<Drawn> {
    let units = Units::new(text);
    let drawings = if strip { draw::strips } else { draw::panels };
    let drawn = |picture: Picture| Drawn {
        title: picture.title,
        part: picture.part,
        section: picture.section,
        svg: picture.svg,
        sentences: picture
            .sentences
            .into_iter()
            .map(|s| Said {
                count: s.count,
                words: s.words,
                sentence: s.sentence,
                start: units.at(s.start),
                end: units.at(s.end),
            })
            .collect(),
    };
    drawings(&report.dance, text, how).into_iter().map(drawn).collect()
}
