//! What a reading keeps for the next one of nearly the same text: a mend changes a few words, and what stands
//! before them is searched once.

use core::cell::OnceCell;

use super::lattice::Way;
use super::meaning::Own;
use super::start::Start;
use super::state::Entry;
use crate::sheet::SectionText;

/// Where the search stood before a section, or behind the last one.
#[derive(Debug)]
pub(super) struct Stop {
    /// Sections before it.
    pub sections: usize,
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
    /// The search that looks at everything, once a changed text asks for more than the first one found.
    pub wide: OnceCell<(Way, Vec<Stop>)>,
}

/// The first sections of a part as they were searched in a text like the one at hand.
#[derive(Debug, Clone, Copy)]
pub(super) struct Before<'k> {
    pub part: &'k KeptPart,
    pub text: &'k str,
    /// So many sections are the same.
    pub sections: usize,
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
    ) -> Option<Before<'_>> {
        let kept =
            self.parts.get(part).filter(|p| p.bound >= bound && p.start == *start && self.own == own)?;
        let alike = self.text.bytes().zip(text.bytes()).take_while(|(a, b)| a == b).count();
        let same = |(a, b): &(&SectionText, &SectionText)| {
            a == b && a.tokens.iter().all(|t| t.span.end as usize <= alike)
        };
        let n = kept.sections.iter().zip(sections).take_while(same).count();
        (n > 0).then_some(Before { part: kept, text: self.text, sections: n })
    }
}
