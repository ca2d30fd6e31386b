//! Tables: rows and columns in whatever order, put into the order of a step line.
//!
//! A table goes in as it stands (bars, tabs, wide gaps, commas, or a page's cells one under the other) and comes out
//! as lines whose words keep their places in the text but stand in the order that step lines have: the counts, the
//! foot, what it does and where, how far the body turns, and where it then looks. What is only called out, and
//! running numbers of rows, are left out. Text that is no table is not touched.

mod abreast;
mod bare;
mod blocks;
mod cells;
mod feet;
mod grid;
mod heads;
mod lengthwise;
mod loose;
mod pairs;
mod roles;
mod rows;
mod stacked;
mod steps;

use core::ops::Range;

use super::counts::Mark;
use super::labels::Label;
use super::lines::Line;
use super::vocabulary::Vocabulary;

/// What a table says of a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Told {
    /// Steps that fall on these counts.
    Steps(Mark),
    /// The heading of a section.
    Heading(Option<Label>),
    /// Steps that go on with those before; counts may stand among them.
    Words,
    /// What is said besides.
    Aside,
    /// Nothing that is danced: the heads of the columns, or words that are only called.
    Left,
}

/// A stretch of the text that is a table.
#[derive(Debug)]
pub(super) struct Table {
    /// Its bytes, from the first line to the end of the last.
    pub range: Range<usize>,
    /// What it says, line by line.
    pub lines: Vec<Line>,
}

/// The text with its lines.
#[derive(Clone, Copy)]
struct Page<'p> {
    text: &'p str,
    /// The bytes of each line as written.
    raw: &'p [Range<usize>],
    vocabulary: &'p Vocabulary,
}

impl<'p> Page<'p> {
    fn of(&self, i: usize) -> &'p str {
        &self.text[self.raw[i].clone()]
    }
}

/// The tables of a text, in order.
pub(super) fn tables(text: &str, raw: &[Range<usize>], vocabulary: &Vocabulary) -> Vec<Table> {
    let page = Page { text, raw, vocabulary };
    let mut out = Vec::new();
    let mut i = 0;
    while i < raw.len() {
        let cuts = grid::cuts(page, i);
        let found = pairs::read(page, i)
            .or_else(|| stacked::read(page, i))
            .or_else(|| lengthwise::read(page, i, &cuts))
            .or_else(|| abreast::read(page, i))
            .or_else(|| blocks::read(page, i, &cuts))
            .or_else(|| grid::read(page, i, &cuts))
            .or_else(|| bare::read(page, i, &cuts))
            .or_else(|| bare::counts_behind(page, i, &cuts))
            .or_else(|| loose::read(page, i));
        match found {
            Some((lines, end)) if end > i => {
                out.push(Table { range: raw[i].start..raw[end - 1].end, lines });
                i = end;
            }
            _ => i += 1,
        }
    }
    out
}
