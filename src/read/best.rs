//! Which of several readings of a sheet troubles least.
//!
//! Most sheets give a count mark and its words, line by line. Where that reading leaves much to explain, the same
//! text is put into that manner from another one (see [`Layout`]) and read again: a sheet proves its layout itself,
//! because its counts, its feet and its clocks only fit each other when it is read as it was meant.

use super::{Reading, TroubleKind, read, walls};
use crate::dance::Weight;
use crate::figures::lexicon;
use crate::sheet::{Layout, Sheet, parse, parse_as};

/// A reading that troubles no more than this is not questioned.
const BEARABLE: u32 = 60;

/// Every layout that a text is tried in.
const LAYOUTS: [Layout; 1] = [Layout::Prose];

/// Reads a text in the usual manner, or, where that troubles, in the one that troubles least.
#[must_use]
pub fn understood(text: &str) -> (Sheet, Reading) {
    let vocabulary = &lexicon().vocabulary;
    let sheet = parse(text, vocabulary);
    let reading = read(text, &sheet);
    // What the head says in one layout holds against every other: a reading that loses it is not the better one.
    let said = (sheet.head.counts.map(|(n, _)| n), sheet.head.walls.map(|(n, _)| n));
    let mut least = strain(&sheet, &reading, said);
    let mut best = (sheet, reading);
    if least <= BEARABLE {
        return best;
    }
    for layout in LAYOUTS {
        let Some(sheet) = parse_as(text, vocabulary, layout) else { continue };
        let reading = read(text, &sheet);
        // A layout that does not see how many walls are said only troubles less because it is told less.
        let lost = 120 * u32::from(best.0.head.walls.is_some() && sheet.head.walls.is_none());
        let strain = strain(&sheet, &reading, said) + lost;
        if strain < least {
            least = strain;
            best = (sheet, reading);
        }
    }
    best
}

/// How much of a reading does not fit: what its cheapest way costs, and what the head and the sections say against it.
#[must_use]
pub(super) fn strain(sheet: &Sheet, reading: &Reading, said: (Option<u32>, Option<u32>)) -> u32 {
    let dance = &reading.dance;
    let sections: Vec<_> = dance.main_sections().collect();
    if sections.iter().all(|s| s.moves.is_empty()) {
        return u32::MAX / 2;
    }
    let mut sum = reading.cost;
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX / 4096).min(4096);
    // A section that says how long it is, or a dance that says it, and is not.
    let total: u32 = sections.iter().map(|s| s.counts).sum();
    if sheet.head.counts.map(|(n, _)| n).or(said.0).is_some_and(|n| n != total) {
        sum += 400;
    }
    let beats = dance.head.metre.beats();
    sum += 60 * count(sections.iter().filter(|s| s.counts % beats != 0).count());
    sum += 80 * count(sections.iter().filter(|s| s.moves.is_empty()).count());
    // Words of the first counts were lost on the way.
    let late = |s: &&crate::dance::Section| s.moves.first().is_some_and(|m| m.at.count() > 1);
    sum += 60 * count(dance.parts.iter().flat_map(|p| &p.sections).filter(late).count());
    if dance.sequence.is_empty() {
        let turn = dance.parts.iter().fold(crate::floor::Turn::NONE, |t, p| t + p.turn());
        if sheet.head.walls.map(|(n, _)| n).or(said.1).is_some_and(|n| n != walls(turn.0)) {
            sum += 120;
        }
        let end = sections.last().map(|s| s.weight_end);
        if matches!((end, dance.start), (Some(Weight::On(a)), Weight::On(b)) if a != b) {
            sum += 60;
        }
    }
    for t in &reading.troubles {
        sum += match &t.kind {
            TroubleKind::TwoOnOne => 60,
            TroubleKind::Empty(at) => 20 * count(at.len()),
            TroubleKind::Total { .. } | TroubleKind::FeetOrder | TroubleKind::Repeat { .. } => 60,
            TroubleKind::Clock { .. } | TroubleKind::WeightElsewhere { .. } => 40,
            TroubleKind::ClockHeld { .. } | TroubleKind::Restart { .. } => 0,
            TroubleKind::Unread => 6,
        };
    }
    sum
}
