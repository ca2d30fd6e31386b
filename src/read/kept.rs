//! What a reading keeps for the next one of nearly the same text: a mend changes a few words, and what stands
//! before them is searched once.

use super::candidates::Own;
use super::lattice::{Start, Way};
use super::state::Entry;
use crate::sheet::SectionText;

/// Where the search stood before a section, or behind the last one.
#[derive(Debug)]
pub(super) struct Stop {
    pub here: Vec<Entry>,
    /// So many nodes and actions had been tried.
    pub nodes: usize,
    pub placed: usize,
    pub work: u64,
}

/// The search of one part.
#[derive(Debug)]
pub(super) struct KeptPart {
    pub sections: Vec<SectionText>,
    pub start: Start,
    /// What a reading might cost at most.
    pub bound: u32,
    pub way: Way,
    pub stops: Vec<Stop>,
}

/// The searches of the parts of a dance.
#[derive(Debug, Default)]
pub(crate) struct Kept<'t> {
    pub(super) text: &'t str,
    pub(super) own: Vec<Own>,
    pub(super) parts: Vec<KeptPart>,
}

impl Kept<'_> {
    /// The part of this number as it was searched, and how many of its first sections are the same.
    pub(super) fn same(
        &self,
        part: usize,
        text: &str,
        sections: &[SectionText],
        start: &Start,
        own: &[Own],
        bound: u32,
    ) -> Option<(&KeptPart, usize)> {
        let kept =
            self.parts.get(part).filter(|p| p.bound >= bound && p.start == *start && self.own == own)?;
        let alike = self.text.bytes().zip(text.bytes()).take_while(|(a, b)| a == b).count();
        let same = |(a, b): &(&SectionText, &SectionText)| {
            a == b && a.tokens.iter().all(|t| t.span.end as usize <= alike)
        };
        let n = kept.sections.iter().zip(sections).take_while(same).count();
        (n > 0).then_some((kept, n))
    }
}
