//! The number of walls in the head does not fit the net turn.

use super::clocks::{pair, region};
use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::dance::{PartKind, Run};
use crate::floor::Turn;
use crate::order::Ordered as _;
use crate::read::{TroubleKind, walls};
use crate::sheet::vocabulary::W;
use crate::sheet::words::Kind;
use crate::text::{Edit, Span};

pub(super) const NAME: &str = "walls-differ";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    let Some((said, span)) = s.sheet.head.walls else { return };
    let dance = s.dance();
    let main: Vec<usize> =
        (0..dance.parts.len()).filter(|p| dance.parts[*p].kind == PartKind::Main).collect();
    if !dance.sequence.is_empty() {
        return phrased(s, said, span, out);
    }
    let [part] = main[..] else { return };
    let net = dance.parts[part].turn();
    let got = walls(net.0);
    if got == said || got == 0 {
        return;
    }
    let end = dance.parts[part].sections.last().map_or(crate::floor::Heading::FRONT, |x| x.facing_end);
    // A turn that was not understood may be the one that is missing.
    let unread = s.troubles(|k| *k == TroubleKind::Unread).iter().any(|t| turns(s, t.span));
    // Where the last clock agrees with the turns, none is missing.
    let last = s.reading.clocks.iter().rfind(|t| t.part == part);
    let agrees = last.is_some_and(|t| {
        let after: i32 =
            s.moves(part).iter().filter(|d| d.m.span.start > t.span.end).map(|d| d.m.turn.0).sum();
        pair(t).is_some_and(|(said, got)| said == got) && after == 0
    });
    let severity = if unread && !agrees { Severity::Note } else { Severity::Warning };
    let mut draft = Subject::whole(NAME, severity, span).says(format!(
        "The head says {} and the dance ends facing {end}, which makes {}; correct the walls, or a turn.",
        many(said),
        many(got)
    ));
    let words = span.of(s.text);
    let number = edits::words(s.text, span).first().map_or(words, |t| t.span.of(s.text));
    let number_span = edits::words(s.text, span).first().map_or(span, |t| t.span);
    let edit = Edit { span: number_span, text: edits::number_like(number, got) };
    draft.offer(8, agrees, format!("write {}", many(got)), vec![edit]);
    // A turn behind the last clock that holds may go the wrong way.
    let held = s.reading.clocks.iter().rfind(|t| t.part == part && pair(t).is_some_and(|(a, b)| a == b));
    other_turns(s, &mut draft, part, net, said, held.map_or(0, |t| t.span.end));
    out.push(draft);
}

/// Turns that would make the stated walls if they went the other way.
fn other_turns(s: &Subject<'_>, draft: &mut Draft, part: usize, net: Turn, said: u32, from: u32) {
    let moves = s.moves(part);
    for (i, d) in moves.iter().enumerate().filter(|(_, d)| d.m.turn.0 != 0 && d.m.span.start >= from).take(12)
    {
        let place = Place { part, section: d.section, at: Some(d.m.at) };
        if walls(net.0 - 2 * d.m.turn.0) == said {
            let side = if d.m.turn.0 > 0 { "left" } else { "right" };
            if let Some(edits) = edits::other_turn(s.text, region(&moves, i)).into_iter().next() {
                draft.offer_at(place, 30, format!("turn {side} on {}", s.say(place)), edits);
            }
        }
    }
}

/// A phrased dance has as many walls as its parts begin at. Some count those of the first part only, or of a whole
/// sequence that comes back to the front.
fn phrased(s: &Subject<'_>, said: u32, span: Span, out: &mut Vec<Draft>) {
    let dance = s.dance();
    let facings = |wanted: &dyn Fn(&Run) -> bool| -> u32 {
        let starts = dance.runs.iter().filter(|r| r.tag.is_none() && wanted(r)).map(|r| r.facing.units());
        let mut starts: Vec<i32> = starts.collect();
        starts.in_order();
        starts.dedup();
        u32::try_from(starts.len()).unwrap_or(0)
    };
    let main = |r: &Run| dance.parts.get(r.part).is_some_and(|p| p.kind == PartKind::Main);
    let all = facings(&main);
    let each = (0..dance.parts.len()).map(|part| facings(&|r: &Run| r.part == part));
    let possible: Vec<u32> = each.chain([all]).collect();
    let unread = s.troubles(|k| *k == TroubleKind::Unread);
    if all == 0 || possible.contains(&said) || unread.iter().any(|t| turns(s, t.span)) {
        return;
    }
    let mut draft = Subject::whole(NAME, Severity::Warning, span).says(format!(
        "The head says {} and the parts of the dance begin at {}; correct the walls, or a turn.",
        many(said),
        many(all)
    ));
    if let Some(t) = edits::words(s.text, span).first() {
        let edit = Edit { span: t.span, text: edits::number_like(t.span.of(s.text), all) };
        draft.offer(8, false, format!("write {}", many(all)), vec![edit]);
    }
    out.push(draft);
}

fn many(n: u32) -> String {
    if n == 1 { "1 wall".to_string() } else { format!("{n} walls") }
}

/// Whether words speak of a turn.
fn turns(s: &Subject<'_>, span: Span) -> bool {
    edits::words(s.text, span).iter().any(|t| {
        matches!(t.kind, Kind::Fraction(_) | Kind::W(W::Turn | W::Pivot | W::Quarter | W::Half | W::Unwind))
    })
}
