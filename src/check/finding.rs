//! What a finding is.

use crate::text::{Edit, Span};
use crate::time::Ticks;

/// How bad it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Worth knowing; nothing is wrong.
    Note,
    /// Most likely a slip.
    Warning,
    /// Cannot be danced as written.
    Error,
}

impl Severity {
    /// `note`, `warning` or `error`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Error => "error",
        }
    }
}

/// How sure a fix is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Sureness {
    /// Something else in the sheet says so, and it may be applied with others at once.
    Sure,
    /// Only the author can know.
    Choice,
}

impl Sureness {
    /// `sure` or `choice`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Sure => "sure",
            Self::Choice => "choice",
        }
    }
}

/// A change of the text that removes a finding and adds none; proven before it is offered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fix {
    /// What it does, in a few words.
    pub title: String,
    /// How sure it is.
    pub sureness: Sureness,
    /// Edits, sorted and apart from each other.
    pub edits: Vec<Edit>,
}

/// Another place in the sheet that has to do with a finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Related {
    /// Where.
    pub span: Span,
    /// Why.
    pub label: String,
}

/// Something about the sheet that a dancer should know.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// The rule's name, kebab-case and stable.
    pub rule: &'static str,
    /// How bad it is.
    pub severity: Severity,
    /// The words that it is about.
    pub span: Span,
    /// `main`, or the name of the tag or ending.
    pub part: String,
    /// Section from 1, where it has one.
    pub section: Option<u32>,
    /// Position within the section, where it has one.
    pub at: Option<Ticks>,
    /// A sentence for a dance teacher.
    pub message: String,
    /// Other places.
    pub related: Vec<Related>,
    /// Mends, the cheapest first.
    pub fixes: Vec<Fix>,
}

/// Words of a step line that were not understood.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Unread {
    /// Where they stand.
    pub span: Span,
}
