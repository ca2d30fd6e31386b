//! A pivot turns toward the foot that stepped, where it can only turn away from it.

use super::clocks::region;
use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::dance::{Action, Foot, Place as Spot, Who};
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token};
use crate::text::Span;

pub(super) const NAME: &str = "pivot-wrong-way";

/// Whether the words behind "pivot" give this side; one that is left out follows from the foot.
fn says_way(s: &Subject<'_>, span: Span, side: Foot) -> bool {
    let words = edits::words(s.text, span);
    let turns = |t: &Token| {
        matches!(t.kind, Kind::Fraction(_) | Kind::W(W::Pivot | W::Turn | W::Half | W::Quarter | W::Paddle))
    };
    let pivot = words.iter().position(|t| t.is(W::Pivot));
    let Some(at) = pivot.or_else(|| words.iter().position(turns)) else { return false };
    // "1/4 turn onto L" names the foot that takes the weight.
    let onto = words[at..].iter().position(|t| matches!(t.kind, Kind::W(W::On | W::Weight | W::With)));
    let words = &words[..onto.map_or(words.len(), |n| at + n)];
    let wanted = if side == Foot::Right { [W::R, W::Clockwise] } else { [W::L, W::Anticlockwise] };
    words[at..].iter().any(|t| wanted.iter().any(|w| t.is(*w)))
}

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for part in 0..s.dance().parts.len() {
        let moves = s.moves(part);
        for i in 1..moves.len() {
            let (step, m) = (moves[i - 1].m, moves[i].m);
            let (Action::Pivot, Who::One(foot)) = (m.action, m.who) else { continue };
            let stepped = step.takes() == Some(foot.other())
                && matches!(step.place, Spot::Forward | Spot::DiagonalForward)
                && step.turn.0 == 0;
            let said = says_way(s, m.span, foot.other());
            let away = if foot == Foot::Right { m.turn.0 > 0 } else { m.turn.0 < 0 };
            if !stepped || !said || away || m.turn.0 % 48 == 0 {
                continue;
            }
            let place = Place { part, section: moves[i].section, at: Some(m.at) };
            let (to, from) = (foot.word(), foot.other().word());
            let mut draft = s
                .at(NAME, Severity::Warning, m.span, place)
                .says(format!(
                    "“{}”: with the {from} foot in front a pivot turns to the {to}, away from the foot that stepped; turn {to}, or keep the weight on the {from} foot.",
                    s.quote(m.span)
                ))
                .with(step.span, "the step that it turns on");
            for edits in edits::other_turn(s.text, region(&moves, i)) {
                draft.offer(8, false, format!("pivot to the {to}"), edits);
            }
            out.push(draft);
        }
    }
}
