//! The last section before a restart as it is danced then: "replace count 16 with a touch", "swap 7&8 for 7 step R forward,
//! 8 step L together".

use super::Reading;
use super::build::built;
use super::exchanged::{Change, exchanged};
use super::fitting::fitting;
use super::lattice::search;
use super::meaning::Own;
use super::omitted::{LeftOut, ended, left_out, without};
use super::start::Start;
use crate::dance::{Move, Section, Weight};
use crate::sheet::words::Token;
use crate::sheet::{Chunk, SectionText, Slots};
use crate::text::Span;
use crate::time::{Metre, Ticks};

/// The last section before a restart as it is danced then, where the words about it change its steps, and the counts
/// that are danced before the restart with them.
pub(super) fn changed(
    text: &str,
    tokens: &[Token],
    after: u32,
    metre: Metre,
    own: &[Own],
    reading: &mut Reading,
) -> Option<(Section, u32)> {
    let (section, before) = section_at(reading, after)?;
    let what = left_out(text, tokens);
    // "Count 8 is a drag without weight, leave out the &": without its half-count the change says it all.
    if let Some(what) = what.filter(|w| !matches!(w, LeftOut::Half)) {
        return Some((without(section, after - before, what)?, after));
    }
    let own_labels = |l: &&super::trouble::Labelled| {
        let sections = reading.dance.parts.first().map(|p| &p.sections);
        l.part == 0 && sections.and_then(|s| s.get(l.section)).is_some_and(|s| s.span == section.span)
    };
    let labels: Vec<_> = reading.labels.iter().filter(own_labels).cloned().collect();
    let mut dance = |change: Change| danced(text, &change, &section, (before, after), metre, own, reading);
    let told = exchanged(text, tokens, &section, &labels, after - before, after);
    let told = match told {
        Some(change) => dance(change),
        None => what.and_then(|what| Some((without(section.clone(), after - before, what)?, after))),
    };
    let start = reading.dance.start;
    let sound = |s: &Section| {
        s.moves.iter().all(|m| m.broken.is_none()) && s.moves.windows(2).all(|m| m[0].at < m[1].at)
    };
    let frees = |c: &(Section, u32)| c.0.weight_end == start && sound(&c.0);
    if told.as_ref().is_some_and(frees)
        || told.is_none() && weight_at(&section, after - before) == start && after.is_multiple_of(4)
    {
        return told;
    }
    // Whatever steps the words tell, where the dance can begin again with them.
    let mut dance = |change: Change| danced(text, &change, &section, (before, after), metre, own, reading);
    let found = fitting(text, tokens, after - before, after).into_iter().find_map(|c| dance(c).filter(frees));
    found.or(told)
}

/// Where the weight is after so many counts of a section.
fn weight_at(section: &Section, counts: u32) -> Weight {
    let counts = i32::try_from(counts).unwrap_or(i32::MAX);
    section.moves.iter().rfind(|m| m.at.count() <= counts).map_or(section.weight_start, |m| m.after)
}

/// A section with some of its steps changed, and the counts that are danced before the restart with them; `counts` are
/// those before the section, and those said.
fn danced(
    text: &str,
    change: &Change,
    section: &Section,
    (before, after): (u32, u32),
    metre: Metre,
    own: &[Own],
    reading: &mut Reading,
) -> Option<(Section, u32)> {
    let start_count = i32::try_from(before).ok()?;
    let counts = i32::try_from(section.counts).ok()?;
    let last = change.ticks.last()?.count();
    // Counts of the whole dance, or of the section.
    let shift = if change.local {
        0
    } else if last > counts || (last > start_count && start_count > 0 && last == i32::try_from(after).ok()?) {
        start_count
    } else {
        0
    };
    let local = |t: &Ticks| Ticks(t.0 - shift * 24);
    let ticks: Vec<Ticks> = change.ticks.iter().map(local).collect();
    let first = *ticks.first()?;
    let end = *ticks.last()?;
    let (kept, rest): (Vec<Move>, Vec<Move>) = section.moves.iter().cloned().partition(|m| m.at < first);
    let tail: Vec<Move> = rest.into_iter().filter(|m| m.at > end && m.at.count() > end.count()).collect();
    let weight = kept.last().map_or(section.weight_start, |m| m.after);
    let facing = kept.iter().fold(section.facing_start, |h, m| h.turned(m.turn));
    let mut words = SectionText { span: section.span, ..SectionText::default() };
    for (t, w) in &change.chunks {
        let from = words.tokens.len();
        words.tokens.extend_from_slice(w);
        let slots = Slots::At { ticks: t.iter().map(local).collect(), range: false };
        words.chunks.push(Chunk { slots, mark: Span::default(), from, to: words.tokens.len() });
    }
    let start = Start::beside(vec![(weight, 0)], facing, metre);
    let texts = [words];
    let way = search(text, &texts, &start, own);
    // What is odd about a change is odd about its words only.
    let troubles = reading.troubles.len();
    let labels = reading.labels.len();
    let (mut new, _) = built(text, &texts, &way, &start, 0, own, reading);
    reading.troubles.truncate(troubles);
    reading.labels.truncate(labels);
    let new = new.pop()?;
    if new.moves.is_empty() {
        return None;
    }
    let mut out = section.clone();
    out.moves = kept;
    out.moves.extend(new.moves.into_iter().map(|m| Move { figure: None, ..m }));
    out.moves.extend(tail);
    // "Dance up to count 14, then stomp (15), hold (16)": the new steps are danced before the restart.
    let told = change.chunks.iter().filter_map(|(t, _)| t.last()).map(|t| local(t).count()).max();
    let told = told.and_then(|n| u32::try_from(n).ok()).filter(|n| *n <= section.counts);
    let after = after.max(before + told.unwrap_or(0));
    // Only what is danced before the restart.
    let danced = i32::try_from(after.saturating_sub(before)).unwrap_or(i32::MAX);
    out.moves.retain(|m| m.at.count() <= danced);
    ended(&mut out);
    Some((out, after))
}

/// The section in which so many counts end, and the counts before it.
fn section_at(reading: &Reading, after: u32) -> Option<(Section, u32)> {
    let mut before = 0;
    for s in &reading.dance.parts.first()?.sections {
        if before + s.counts >= after {
            return Some((s.clone(), before));
        }
        before += s.counts;
    }
    None
}
