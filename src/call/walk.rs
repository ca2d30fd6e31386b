//! The moves of one stretch of the song, in order of time.

use crate::dance::{Dance, Move, Section, Weight};
use crate::floor::Turn;
use crate::time::Ticks;

/// A section as it is danced in one stretch.
#[derive(Debug, Clone, Copy)]
pub(super) struct Eight<'a> {
    /// The section.
    pub section: &'a Section,
    /// Its number in its part, from 1.
    pub number: usize,
    /// Counts of the part before it.
    pub before: u32,
}

/// A move in a stretch.
#[derive(Debug, Clone, Copy)]
pub(super) struct Danced<'a> {
    /// When, from the first count of the part, which is tick 0.
    pub at: Ticks,
    /// Where in its part.
    pub eight: Eight<'a>,
    /// The move.
    pub step: &'a Move,
}

fn of_counts(counts: u32) -> Ticks {
    Ticks::of_count(i32::try_from(counts).unwrap_or(i32::MAX / 24))
}

/// The sections of a part, of which the last one danced may be changed for a restart.
pub(super) fn eights(dance: &Dance, part: usize, to: u32, restart: Option<usize>) -> Vec<Eight<'_>> {
    let sections = dance.parts.get(part).map_or(&[][..], |p| &p.sections);
    let changed = restart.and_then(|i| dance.restarts.get(i)).and_then(|r| r.changed.as_ref());
    let mut out = Vec::new();
    let mut before = 0;
    for (i, section) in sections.iter().enumerate() {
        if before >= to {
            break;
        }
        let last = before + section.counts >= to || i + 1 == sections.len();
        let section = if last { changed.unwrap_or(section) } else { section };
        out.push(Eight { section, number: i + 1, before });
        before += section.counts;
    }
    out
}

/// The moves between two counts of a part. A move before count 1 of a section, as `&1` begins, belongs to it.
pub(super) fn danced(
    dance: &Dance,
    part: usize,
    from: u32,
    to: u32,
    restart: Option<usize>,
) -> Vec<Danced<'_>> {
    let mut out = Vec::new();
    for eight in eights(dance, part, to, restart) {
        for step in &eight.section.moves {
            let own = u32::try_from((step.at.count() - 1).max(0)).unwrap_or(0);
            let count = eight.before + own;
            if count >= from && count < to {
                let at = of_counts(eight.before) + step.at - Ticks::COUNT;
                out.push(Danced { at, eight, step });
            }
        }
    }
    out
}

/// Turn and weight after a row of moves.
pub(super) fn outcome(moves: &[Danced<'_>], weight: Weight) -> (Turn, Weight) {
    moves.iter().fold((Turn::NONE, weight), |(turn, _), d| (turn + d.step.turn, d.step.after))
}
