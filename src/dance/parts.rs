//! The parts of a dance, their sections, and the figures named in them.

use super::{Foot, Move, Weight};
use crate::floor::{Heading, Turn};
use crate::text::Span;

/// A figure that the sheet names, or that its steps make.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FigureUse {
    /// The figure's name in the lexicon.
    pub name: String,
    /// The foot that leads it.
    pub lead: Option<Foot>,
    /// Its turn as danced.
    pub turn: Turn,
    /// The words that name it, or those of its steps.
    pub span: Span,
    /// Whether the writer named it; otherwise it was recognised in the steps.
    pub named: bool,
}

/// Some counts of a dance, mostly eight.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Heading as written, without its numbering; may be empty.
    pub name: String,
    /// Counts that it fills.
    pub counts: u32,
    /// What is danced, in order of time.
    pub moves: Vec<Move>,
    /// Figures in order.
    pub figures: Vec<FigureUse>,
    /// All its text.
    pub span: Span,
    /// Facing at its first count in the first repetition.
    pub facing_start: Heading,
    /// Facing at its end in the first repetition.
    pub facing_end: Heading,
    /// Weight at its beginning.
    pub weight_start: Weight,
    /// Weight at its end.
    pub weight_end: Weight,
}

/// What a part is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PartKind {
    /// The dance itself, or a part of a phrased one.
    Main,
    /// Extra counts at the end or in the middle of a repetition.
    Tag,
    /// The last steps of all.
    Ending,
}

/// A run of sections danced as one.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// `main`, `A`, `tag 1`, `ending`.
    pub name: String,
    /// What for.
    pub kind: PartKind,
    /// Its sections.
    pub sections: Vec<Section>,
}

impl Part {
    /// Counts of all sections.
    #[must_use]
    pub fn counts(&self) -> u32 {
        self.sections.iter().map(|s| s.counts).sum()
    }

    /// Sum of all turns.
    #[must_use]
    pub fn turn(&self) -> Turn {
        self.sections.iter().flat_map(|s| &s.moves).fold(Turn::NONE, |t, m| t + m.turn)
    }
}
