//! What is known of a piece of the dance before its words are read.

use crate::dance::Weight;
use crate::floor::Heading;
use crate::time::Metre;

/// How a part begins.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Start {
    /// Where the weight may be, with what each costs.
    pub weights: Vec<(Weight, u32)>,
    /// The facing, as the clock marks count it.
    pub facing: Heading,
    pub metre: Metre,
    /// Counts that each section should have, where nothing else says so.
    pub expected: Option<u32>,
    /// Whether sections were divided by the writer.
    pub divided: bool,
    /// Whether the counts of the head make every section as long as sections usually are.
    pub even: bool,
    /// Whether a few bars are as usual as a whole section: tags, endings, changed steps.
    pub short: bool,
}

impl Start {
    /// A piece beside the dance: a tag, an ending, changed steps.
    pub(super) fn beside(weights: Vec<(Weight, u32)>, facing: Heading, metre: Metre) -> Self {
        Self { weights, facing, metre, expected: None, divided: false, even: false, short: true }
    }
}
