//! Headings that are danced: "4  L forward, pivot 1/2 R, L shuffle" above a line with the other half of the section.
//!
//! A heading mostly names what stands below it. Where that does not fill its section, the steps that the heading tells
//! may be those that are missing.

use super::Reading;
use super::clauses::foot_word;
use crate::dance::{PartKind, Section};
use crate::sheet::words::{Kind, Token, acts};
use crate::sheet::{Chunk, SectionText, Sheet, Slots};
use crate::text::Span;
use crate::time::Ticks;

/// The sheet with the headings of its short sections among their steps; nothing where no section is short.
pub(super) fn danced(sheet: &Sheet, reading: &Reading) -> Option<Sheet> {
    let mut out = sheet.clone();
    let usual = reading.dance.head.metre.section();
    let mut changed = false;
    let main = out.parts.iter_mut().filter(|p| p.kind == PartKind::Main);
    for (part, read) in main.zip(&reading.dance.parts) {
        if part.sections.len() != read.sections.len() {
            continue;
        }
        for (section, read) in part.sections.iter_mut().zip(&read.sections) {
            // "Four shuffles, in 8" above their feet needs none of its own.
            let tells = steps(&section.heading, !read.moves.is_empty());
            if !tells || section.chunks.is_empty() || told(section) {
                continue;
            }
            let asked = section.counts.map_or(usual, |(n, _)| n);
            let late = read.moves.first().is_some_and(|m| m.at.count() > 1);
            if !(read.counts < asked || late || thin(read)) {
                // Where one heading only names what stands below it, the others do, too.
                return None;
            }
            changed |= put(section);
        }
    }
    changed.then_some(out)
}

/// Whether the words of the heading are among the steps already.
fn told(section: &SectionText) -> bool {
    let last = section.heading.iter().rfind(|t| matches!(t.kind, Kind::W(_) | Kind::Name(_)));
    last.is_some_and(|last| section.tokens.iter().any(|t| t.span == last.span))
}

/// Whether something happens on half of the counts at most: the steps were stretched to fill the section.
fn thin(section: &Section) -> bool {
    let mut counts: Vec<i32> = section.moves.iter().map(|m| m.at.count()).collect();
    counts.dedup();
    counts.len() * 2 <= section.counts as usize
}

/// Whether words tell a step or a figure, with its foot where that is asked for.
fn steps(t: &[Token], footed: bool) -> bool {
    let does = |t: &Token| matches!(t.kind, Kind::Name(_)) || matches!(t.kind, Kind::W(w) if acts(w));
    (!footed || t.iter().any(|t| foot_word(t.kind))) && t.iter().any(does)
}

/// Puts the words of a heading before those below it.
fn put(section: &mut SectionText) -> bool {
    let first = section.chunks.iter().find_map(|c| match &c.slots {
        Slots::At { ticks, .. } => ticks.first().map(|t| t.count() + i32::from(t.within() > 0)),
        _ => None,
    });
    let slots = match first {
        Some(1) => return false,
        Some(n) => Slots::At { ticks: (1..n).map(Ticks::of_count).collect(), range: true },
        None => Slots::Free,
    };
    let shift = section.heading.len();
    section.tokens.splice(0..0, section.heading.iter().copied());
    for c in &mut section.chunks {
        c.from += shift;
        c.to += shift;
    }
    section.chunks.insert(0, Chunk { slots, mark: Span::default(), from: 0, to: shift });
    true
}
