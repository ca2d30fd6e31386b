//! The same dance danced otherwise: what the teacher may choose, and what unread words may hide.

use super::track::silent_counts;
use crate::dance::{Action, Dance, Effect, Foot, Move, Part, PartKind, Place, Reach, TurnWhen, Weight, Who};
use crate::floor::Turn;
use crate::order::Ordered as _;
use crate::text::Span;
use crate::time::Ticks;

/// The main parts' moves, to change them.
fn change(dance: &Dance, mut how: impl FnMut(&mut Vec<Move>)) -> Dance {
    let mut changed = dance.clone();
    for part in changed.parts.iter_mut().filter(|p| p.kind == PartKind::Main) {
        part.sections.iter_mut().for_each(|s| how(&mut s.moves));
    }
    changed
}

/// Without tags and restarts, or `None` where there are none.
pub(super) fn without_tags_and_restarts(dance: &Dance) -> Option<Dance> {
    if dance.tags.is_empty() && dance.restarts.is_empty() {
        return None;
    }
    let mut changed = dance.clone();
    changed.tags.clear();
    changed.restarts.clear();
    changed.parts.retain(|p| p.kind == PartKind::Main);
    Some(changed)
}

/// Without what is between the counts, or `None` where nothing is.
pub(super) fn only_whole_counts(dance: &Dance) -> Option<Dance> {
    let between = |m: &Move| m.at.within() != 0;
    let any = dance.main_sections().flat_map(|s| &s.moves).any(between);
    any.then(|| change(dance, |moves| moves.retain(|m| !between(m))))
}

/// Without turns of a half and more, or `None` where there are none.
pub(super) fn without_big_turns(dance: &Dance) -> Option<Dance> {
    let big = |m: &Move| m.turn.0.unsigned_abs() >= 24;
    let any = dance.main_sections().flat_map(|s| &s.moves).any(big);
    any.then(|| change(dance, |moves| moves.iter_mut().filter(|m| big(m)).for_each(|m| m.turn = Turn::NONE)))
}

/// Counts of the main parts and the tags on which nothing is written and over which nothing lasts.
pub(super) fn silent(dance: &Dance) -> usize {
    let sections = dance.parts.iter().flat_map(|p| &p.sections);
    sections.map(|s| silent_counts(&s.moves, s.counts).len()).sum()
}

/// Each count that nothing is known of, and a place for each piece of unread text, filled with two steps and a
/// quarter turn. What comes out is at least as hard as what could be read.
pub(super) fn filled(dance: &Dance, unread: &[Span]) -> Dance {
    let mut changed = dance.clone();
    for part in &mut changed.parts {
        fill(part, unread);
    }
    changed
}

fn fill(part: &mut Part, unread: &[Span]) {
    for section in &mut part.sections {
        let inside = |s: &&Span| s.start >= section.span.start && s.end <= section.span.end;
        let pieces = unread.iter().filter(inside).count();
        let silent = silent_counts(&section.moves, section.counts);
        for count in &silent {
            section.moves.push(step(tick(*count), Turn::NONE));
            section.moves.push(step(tick(*count) + Ticks::HALF, Turn::QUARTER));
        }
        // A piece without a count of its own hides two counts at most, as phrases of sheets go.
        let more = u32::try_from(pieces.saturating_sub(silent.len())).unwrap_or(u32::MAX);
        for count in 0..section.counts.min(more.saturating_mul(2)).min(64) {
            section.moves.push(step(tick(count) + Ticks(6), Turn::NONE));
            section.moves.push(step(tick(count) + Ticks::HALF, Turn::QUARTER));
        }
        section.moves.in_order_by_key(|m| m.at);
    }
}

/// The tick of a count from 0.
fn tick(count: u32) -> Ticks {
    Ticks::of_count(i32::try_from(count + 1).unwrap_or(i32::MAX / 64))
}

fn step(at: Ticks, turn: Turn) -> Move {
    Move {
        at,
        lasts: Ticks::HALF,
        who: Who::One(Foot::Right),
        action: Action::Step,
        place: Place::Side,
        reach: Reach::Usual,
        turn,
        turn_when: TurnWhen::Before,
        effect: Effect::Takes,
        before: Weight::On(Foot::Left),
        after: Weight::On(Foot::Right),
        broken: None,
        span: Span::default(),
        figure: None,
    }
}
