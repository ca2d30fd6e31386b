//! The readings of words, each worked out once: a chunk that is not read with ease is searched several times.

use core::ops::Range;

use super::meaning::Edge;
use crate::sheet::SectionText;

/// So many readings are kept at most.
const MANY: usize = 1 << 14;

/// What stands at a token.
#[derive(Debug, Clone)]
struct At {
    /// The chunk that it was asked for, counted from 1.
    chunk: usize,
    edges: Range<usize>,
}

/// The readings of the tokens of some sections, as far as they were asked for.
#[derive(Debug)]
pub(super) struct Known {
    pub edges: Vec<Edge>,
    at: Vec<At>,
    /// The number of tokens before each section.
    before: Vec<usize>,
}

impl Known {
    /// Nothing yet.
    pub(super) fn of(sections: &[SectionText]) -> Self {
        let mut sum = 0;
        let before = sections.iter().map(|s| {
            sum += s.tokens.len();
            sum - s.tokens.len()
        });
        let before = before.collect();
        let at = vec![At { chunk: 0, edges: 0..0 }; sum];
        // About as many as words have.
        Self { edges: Vec::with_capacity(sum.min(MANY) * 4), at, before }
    }

    /// Where the readings of a token in a chunk of a section stand; `add` works them out.
    pub(super) fn at(
        &mut self,
        section: usize,
        chunk: usize,
        token: usize,
        add: impl FnOnce(&mut Vec<Edge>),
    ) -> Range<usize> {
        if self.edges.len() > MANY {
            self.edges.clear();
            self.at.iter_mut().for_each(|at| at.chunk = 0);
        }
        let at = &mut self.at[self.before[section] + token];
        if at.chunk != chunk + 1 {
            let from = self.edges.len();
            add(&mut self.edges);
            *at = At { chunk: chunk + 1, edges: from..self.edges.len() };
        }
        at.edges.clone()
    }
}
