//! Text in, a [`Sheet`] out: head fields, parts, sections, count marks and the words beside them, each with its
//! place in the text.
//!
//! Nothing fails here and nothing is lost: what does not look like a step or a field is kept as a note. This
//! room knows words; it knows nothing of weight, of the floor or of which foot is free.

mod ahead;
mod beside;
mod chunks;
pub mod classes;
mod columns;
mod counts;
mod explained;
mod glued;
mod head;
mod hours;
mod key;
mod labels;
mod leaders;
mod lines;
mod marks;
mod marks_amid;
mod marks_behind;
mod marks_bracketed;
mod marks_settled;
mod mentions;
mod multiples;
mod numbers;
mod numerals;
mod own;
mod pairs;
pub mod pointing;
mod prose;
mod ranges;
mod spoken;
mod structure;
mod table;
mod timed;
mod typos;
mod unwrap;
pub mod vocabulary;
pub mod words;

pub use counts::{Mark, mark};
pub use head::SheetHead;
pub use mentions::{Mention, Topic};
pub(crate) use numbers::ordinal;
pub use numbers::value;
pub use prose::{counts_amid, counts_told, rows};
pub use structure::{Layout, parse, parse_as};
pub(crate) use structure::{headed, parse_kept};
pub use typos::Typo;

use crate::dance::PartKind;
use crate::floor::Heading;
use crate::text::Span;
use crate::time::Ticks;
use words::Token;

/// When the steps of a chunk fall.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Slots {
    /// At these positions of the section.
    At {
        /// Rising; count 1 of the section is tick 24.
        ticks: Vec<Ticks>,
        /// Written as a range such as `1-4`, so that half-counts are not spelled out.
        range: bool,
    },
    /// So many counts altogether.
    Total(u32),
    /// Nothing is said.
    Free,
}

/// Words of steps that share a count mark.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chunk {
    /// When they fall.
    pub slots: Slots,
    /// The count mark's words, empty where there is none.
    pub mark: Span,
    /// First token in the section's tokens.
    pub from: usize,
    /// One past the last token.
    pub to: usize,
}

/// A section as written.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SectionText {
    /// Its number as labelled.
    pub number: Option<u32>,
    /// The heading's words without the label.
    pub name: Span,
    /// The heading's tokens, read as steps where nothing else is written.
    pub heading: Vec<Token>,
    /// Counts that the heading gives.
    pub counts: Option<(u32, Span)>,
    /// The first count that the heading's range gives.
    pub first: Option<i32>,
    /// Everything that belongs to it.
    pub span: Span,
    /// Tokens of its step lines.
    pub tokens: Vec<Token>,
    /// Its chunks in order.
    pub chunks: Vec<Chunk>,
    /// Counts in the sheet's numbering minus counts of the section.
    pub base: i32,
    /// Whether its first count is danced at the end of the section before, as in "8&1".
    pub carried: bool,
    /// "Repeat section 1": the words stand for a whole section.
    pub notes: Vec<Span>,
}

/// A part as written.
#[derive(Debug, Clone, PartialEq)]
pub struct PartText {
    /// What for.
    pub kind: PartKind,
    /// `main`, `A`, `tag 1`, `ending`.
    pub name: String,
    /// Its sections.
    pub sections: Vec<SectionText>,
    /// Whether the writer divided it into sections.
    pub divided: bool,
    /// What is said about when it is danced (tags and endings).
    pub mention: Option<Mention>,
    /// Where one faces when it is danced for the first time, as far as it is said.
    pub facing: Option<Heading>,
    /// All its text.
    pub span: Span,
}

/// A figure that the sheet itself defines.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnFigure {
    /// The words of its name in lower case, without left and right.
    pub name: Vec<String>,
    /// Where it is defined.
    pub span: Span,
    /// Its steps.
    pub section: SectionText,
}

/// A whole sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Head fields.
    pub head: SheetHead,
    /// The dance, its tags, its ending.
    pub parts: Vec<PartText>,
    /// What is said about tags, restarts and endings.
    pub mentions: Vec<Mention>,
    /// Names of parts in the order of the song.
    pub sequence: Vec<String>,
    /// Figures of the sheet's own.
    pub own: Vec<OwnFigure>,
    /// Words taken for others.
    pub typos: Vec<Typo>,
    /// Lines that are remarks.
    pub notes: Vec<Span>,
    /// How many words for something to do stand in no section.
    pub left_out: u32,
}
