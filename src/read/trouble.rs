//! What was odd on the cheapest way, and names that only label.

use crate::dance::Foot;
use crate::floor::Heading;
use crate::text::Span;
use crate::time::Ticks;

/// What was odd about the cheapest reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TroubleKind {
    /// Two steps on one position.
    TwoOnOne,
    /// Written positions without an action.
    Empty(Vec<Ticks>),
    /// A number of counts that the steps do not fill.
    Total {
        /// Counts said.
        said: u32,
        /// Counts danced.
        got: i32,
        /// Whether the whole section is meant, not one line of it.
        section: bool,
    },
    /// A clock mark that the turns do not reach.
    Clock {
        /// The clock in the sheet.
        said: Heading,
        /// The facing by the turns.
        got: Heading,
    },
    /// A clock mark that the turns do reach; these stand in [`Reading::clocks`](super::Reading::clocks) only.
    ClockHeld {
        /// The clock in the sheet.
        said: Heading,
    },
    /// A remark puts the weight where it is not.
    WeightElsewhere {
        /// The foot that is said to have it.
        said: Foot,
    },
    /// An order of feet that is not that of the steps.
    FeetOrder,
    /// Something repeated on the other foot that the weight does not allow.
    Repeat {
        /// Whether it was repeated mirrored.
        mirrored: bool,
    },
    /// A restart is said to come after other counts than elsewhere in the sheet.
    Restart {
        /// The wall.
        wall: u32,
        /// Counts said.
        said: u32,
        /// Counts by the other place.
        other: u32,
        /// The other place.
        elsewhere: Span,
    },
    /// Words of a step line that were passed over.
    Unread,
}

/// Something odd, with its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Trouble {
    /// What.
    pub kind: TroubleKind,
    /// The words.
    pub span: Span,
    /// Index of the part.
    pub part: usize,
    /// Index of the section.
    pub section: usize,
    /// Position within the section.
    pub at: Option<Ticks>,
}

/// A name that labels the steps beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Labelled {
    /// Index into the lexicon.
    pub figure: u16,
    /// The lead that the name says.
    pub lead: Option<Foot>,
    /// The words.
    pub span: Span,
    /// Index of the part.
    pub part: usize,
    /// Index of the section.
    pub section: usize,
    /// Moves of the section that it labels: first and one past the last.
    pub moves: (usize, usize),
}
