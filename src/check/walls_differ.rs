//! The number of walls in the head does not fit the net turn.

use super::clocks::{pair, region};
use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::dance::PartKind;
use crate::floor::Turn;
use crate::read::{TroubleKind, walls};
use crate::sheet::vocabulary::W;
use crate::sheet::words::Kind;
use crate::text::Edit;

pub(super) const NAME: &str = "walls-differ";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    let Some((said, span)) = s.sheet.head.walls else { return };
    let dance = s.dance();
    let main: Vec<usize> =
        (0..dance.parts.len()).filter(|p| dance.parts[*p].kind == PartKind::Main).collect();
    let [part] = main[..] else { return };
    if !dance.sequence.is_empty() {
        return;
    }
    let net = dance.parts[part].turn();
    let got = walls(net.0);
    if got == said || got == 0 {
        return;
    }
    let end = dance.parts[part].sections.last().map_or(crate::floor::Heading::FRONT, |x| x.facing_end);
    // A turn that was not understood may be the one that is missing.
    let unread = s.troubles(|k| *k == TroubleKind::Unread).iter().any(|t| {
        edits::words(s.text, t.span).iter().any(|t| {
            matches!(
                t.kind,
                Kind::Fraction(_) | Kind::W(W::Turn | W::Pivot | W::Quarter | W::Half | W::Unwind)
            )
        })
    });
    let severity = if unread { Severity::Note } else { Severity::Warning };
    let many = |n: u32| if n == 1 { "1 wall".to_string() } else { format!("{n} walls") };
    let mut draft = Subject::whole(NAME, severity, span).says(format!(
        "The head says {} and the dance ends facing {end}, which makes {}; correct the walls, or a turn.",
        many(said),
        many(got)
    ));
    let words = span.of(s.text);
    let number = edits::words(s.text, span).first().map_or(words, |t| t.span.of(s.text));
    let number_span = edits::words(s.text, span).first().map_or(span, |t| t.span);
    let last = s.reading.clocks.iter().rfind(|t| t.part == part);
    let agrees = last.is_some_and(|t| {
        let after: i32 =
            s.moves(part).iter().filter(|d| d.m.span.start > t.span.end).map(|d| d.m.turn.0).sum();
        pair(t).is_some_and(|(said, got)| said == got) && after == 0
    });
    let edit = Edit { span: number_span, text: edits::number_like(number, got) };
    draft.offer(8, agrees, format!("write {}", many(got)), vec![edit]);
    if s.reading.clocks_held == 0 {
        other_turns(s, &mut draft, part, net, said);
    }
    out.push(draft);
}

/// Turns that would make the stated walls if they went the other way.
fn other_turns(s: &Subject<'_>, draft: &mut Draft, part: usize, net: Turn, said: u32) {
    let moves = s.moves(part);
    for (i, d) in moves.iter().enumerate().filter(|(_, d)| d.m.turn.0 != 0).take(12) {
        let place = Place { part, section: d.section, at: Some(d.m.at) };
        if walls(net.0 - 2 * d.m.turn.0) == said {
            let side = if d.m.turn.0 > 0 { "left" } else { "right" };
            if let Some(edits) = edits::other_turn(s.text, region(&moves, i)).into_iter().next() {
                draft.offer_at(place, 30, format!("turn {side} on {}", s.say(place)), edits);
            }
        }
    }
}
