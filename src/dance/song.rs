//! How parts follow each other in the song: tags, restarts, the ending, and the runs of the whole.

use super::{Foot, Part, PartKind, Section, Weight};
use crate::floor::Heading;
use crate::text::Span;
use crate::time::Metre;

/// A tag, bridge or ending at its place in the song.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TagUse {
    /// Index into [`Dance::parts`].
    pub part: usize,
    /// The repetition it belongs to, from 1.
    pub wall: u32,
    /// Counts of that repetition danced before it; `None` for all of them.
    pub after_counts: Option<u32>,
    /// Whether the dance begins again after it, instead of going on.
    pub then_restart: bool,
    /// Facing stated in the sheet.
    pub stated: Option<(Heading, Span)>,
    /// The words about it.
    pub span: Span,
}

/// Where the last steps of all come in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EndingUse {
    /// Index into [`Dance::parts`].
    pub part: usize,
    /// The repetition it belongs to, from 1; `None` for the last one, whichever the music makes that.
    pub wall: Option<u32>,
    /// Counts of that repetition danced before it; `None` for all of them.
    pub after_counts: Option<u32>,
    /// The first facing that the sheet states for it: that of the repetition it belongs to.
    pub stated: Option<Heading>,
    /// The words about it.
    pub span: Span,
}

/// A repetition that is broken off.
#[derive(Debug, Clone, PartialEq)]
pub struct Restart {
    /// The repetition, from 1.
    pub wall: u32,
    /// Counts danced before the dance begins again.
    pub after_counts: u32,
    /// The last section as danced then, where the restart changes its steps.
    pub changed: Option<Section>,
    /// Facing stated in the sheet.
    pub stated: Option<(Heading, Span)>,
    /// The words about it.
    pub span: Span,
}

/// One stretch of the song: a part, or some of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// The repetition, from 1.
    pub wall: u32,
    /// Index into [`Dance::parts`].
    pub part: usize,
    /// First count danced, from 0.
    pub from: u32,
    /// One past the last count danced.
    pub to: u32,
    /// Index into [`Dance::restarts`] where this run is broken off.
    pub restart: Option<usize>,
    /// Index into [`Dance::tags`] where this run is a tag.
    pub tag: Option<usize>,
    /// Facing in the room when it starts.
    pub facing: Heading,
    /// Weight when it starts.
    pub weight: Weight,
    /// Facing in the room when it ends.
    pub facing_end: Heading,
    /// Weight when it ends.
    pub weight_end: Weight,
}

/// What the head of the sheet says, or what follows from the steps where it is silent.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Head {
    /// Title as written.
    pub title: String,
    /// Counts of one repetition.
    pub counts: u32,
    /// Walls.
    pub walls: u32,
    /// Level in lower case as written, empty where none is.
    pub level: String,
    /// The foot that acts first.
    pub start_foot: Option<Foot>,
    /// Beats in a bar.
    pub metre: Metre,
    /// Beats a minute.
    pub tempo: Option<u32>,
    /// Counts of music before the first step.
    pub intro: Option<u32>,
    /// Who made the dance, as written.
    pub author: String,
    /// The music, as written.
    pub music: String,
}

/// A whole dance.
#[derive(Debug, Clone, PartialEq)]
pub struct Dance {
    /// Head fields.
    pub head: Head,
    /// The dance itself first, then tags and the ending. A phrased dance has several main parts.
    pub parts: Vec<Part>,
    /// Order of the main parts by index, where the sheet gives one (phrased dances).
    pub sequence: Vec<usize>,
    /// Tags in order of the song.
    pub tags: Vec<TagUse>,
    /// Restarts in order of the song.
    pub restarts: Vec<Restart>,
    /// The last steps of all, where the sheet gives them.
    pub ending: Option<EndingUse>,
    /// Weight before the first step.
    pub start: Weight,
    /// The song as far as its tags and restarts reach, at least eight repetitions.
    pub runs: Vec<Run>,
}

impl Dance {
    /// The sections of one repetition in order (of all main parts, where there are several).
    pub fn main_sections(&self) -> impl Iterator<Item = &Section> {
        self.parts.iter().filter(|p| p.kind == PartKind::Main).flat_map(|p| &p.sections)
    }
}
