//! A turn of another direction or size than all later clock marks say.

use super::clocks::{Slip, pair, region, slips, turning};
use super::edits;
use super::finding::Severity;
use super::subject::{Danced, Draft, Place, Subject};
use crate::floor::Turn;
use crate::read::Trouble;

pub(super) const NAME: &str = "turn-differs";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for part in 0..s.dance().parts.len() {
        for slip in slips(s, part) {
            let Slip::Turn { before, marks, lack, open: false } = slip else { continue };
            let Some(first) = marks.first() else { continue };
            let Some((said, got)) = pair(first) else { continue };
            let moves = s.moves(part);
            let from = before.map(|t| t.span.end);
            let here = turning(&moves, from, first.span.start);
            let unread = s.unread_between(from.unwrap_or(0), first.span.start);
            let severity = if unread { Severity::Note } else { Severity::Warning };
            let (span, place) = match here.last() {
                Some((_, d)) => (d.m.span, Place { part, section: d.section, at: Some(d.m.at) }),
                None => (first.span, Place::of_trouble(first)),
            };
            let and = if marks.len() > 1 { " and all later marks agree with it" } else { "" };
            let mut draft = s
                .at(NAME, severity, span, place)
                .says(format!(
                    "“{}”: the turns lead to {got}, the sheet says {said}{and}; the turn has another direction or size than was meant, or one is missing.",
                    s.quote(span)
                ))
                .with(first.span, &format!("the sheet says {said} here"));
            offers(s, &mut draft, part, before, first, lack);
            // The marks may be wrong after all.
            let all = marks.iter().filter_map(|m| edits::clock_like(s.text, m.span, pair(m)?.1)).collect();
            draft.offer(40, false, format!("write {got} and change all later clocks"), all);
            out.push(draft);
        }
    }
}

/// Mends of the turns between two marks.
pub(super) fn offers(
    s: &Subject<'_>,
    draft: &mut Draft,
    part: usize,
    before: Option<&Trouble>,
    mark: &Trouble,
    lack: Turn,
) {
    let moves = s.moves(part);
    let from =
        before.or_else(|| s.reading.clocks.iter().rfind(|t| t.part == part && t.span.end <= mark.span.start));
    let mut here = turning(&moves, from.map(|t| t.span.end), mark.span.start);
    here.reverse();
    for (n, (i, d)) in here.iter().take(6).enumerate() {
        let place = Place { part, section: d.section, at: Some(d.m.at) };
        let words = region(&moves, *i);
        let n = u32::try_from(n).unwrap_or(9);
        if (-2 * d.m.turn.0 - lack.0).rem_euclid(48) == 0 {
            let side = if d.m.turn.0 > 0 { "left" } else { "right" };
            // The other way explains the very difference, which a slip in a clock would do by chance only.
            let cost = (6 + n).saturating_add_signed(-4 * with_neighbours(&moves, *i));
            for edits in edits::other_turn(s.text, words) {
                draft.offer_at(place, cost, format!("turn {side} on count {}", d.m.at), edits);
            }
        }
        let sign = if d.m.turn.0 > 0 { 1 } else { -1 };
        let mut size = (d.m.turn.0 + lack.0) * sign;
        if size <= 0 {
            size += 48;
        }
        for edits in edits::other_size(s.text, words, size) {
            let shown = Turn(size * sign);
            draft.offer_at(place, 16 + n, format!("turn {shown} on count {}", d.m.at), edits);
        }
    }
}

/// How much better a turn the other way would go on with the turns right before and after it: a rolling turn keeps
/// its direction.
fn with_neighbours(moves: &[Danced<'_>], i: usize) -> i32 {
    let own = moves[i].m.turn.0.signum();
    let near = [i.checked_sub(1), Some(i + 1)].into_iter().flatten();
    near.filter_map(|k| moves.get(k)).map(|d| -own * d.m.turn.0.signum()).sum()
}
