//! A foot closes, crosses or stomps and cannot have taken the weight, because it acts next.

use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::dance::{Action, Effect, Place as Spot, Who};
use crate::figures::weight_remark;
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token};
use crate::text::Span;

pub(super) const NAME: &str = "close-without-weight";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for part in 0..s.dance().parts.len() {
        let moves = s.moves(part);
        for (i, d) in moves.iter().enumerate() {
            let m = d.m;
            let Who::One(foot) = m.who else { continue };
            let tip = matches!(m.action, Action::Toe | Action::Heel | Action::Touch);
            if m.effect != Effect::Free || !tip && !matches!(m.action, Action::Step | Action::Stomp) {
                continue;
            }
            // "Step right toe back" is the first half of a strut, or a slip where that foot steps again.
            let next = moves[i + 1..].iter().map(|d| d.m).find(|n| matches!(n.who, Who::One(_)));
            let again =
                next.is_some_and(|n| n.takes() == Some(foot) && n.action != Action::Drop && n.span != m.span);
            if tip && !(again && part_steps(s, m.span)) {
                continue;
            }
            let t = edits::words(s.text, m.span);
            let up = t.iter().any(|t| t.is(W::Up));
            if up || (0..t.len()).any(|i| weight_remark(&t, i, t.len()).is_some()) {
                continue;
            }
            let place = Place { part, section: d.section, at: Some(m.at) };
            let span = said(s, m.span);
            let stepped = edits::words(s.text, span).iter().any(|t| t.is(W::Step) || t.is(W::Walk));
            // Nobody says cross for a touch, and who writes touch elsewhere does not leave it out here.
            let crossed = matches!(m.place, Spot::Cross | Spot::Behind)
                && m.action == Action::Step
                && names_foot(&t)
                && moves.get(i + 1).is_none_or(|n| n.m.at != m.at);
            let careful = m.action == Action::Step && names_foot(&t) && touches(s);
            let (severity, then) = if crossed || careful && !stepped {
                (
                    Severity::Warning,
                    "and the words do not say that it only touches; write touch, or correct the foot",
                )
            } else if stepped {
                (
                    Severity::Warning,
                    "and the words say that it steps; write touch, or correct the foot that acts next",
                )
            } else {
                (Severity::Note, "it is read as a touch, and the word touch would say so")
            };
            let between = if severity == Severity::Warning { ", " } else { "; " };
            let mut draft = s.at(NAME, severity, span, place).says(format!(
                "“{}” cannot take the weight on count {}, because the {} foot acts next{between}{then}.",
                s.quote(span),
                m.at,
                foot.word()
            ));
            for edits in edits::to_touch(s.text, span) {
                draft.offer(10, severity == Severity::Note, "say touch".to_string(), edits);
            }
            if severity == Severity::Warning {
                for (cost, d) in [(8, d), (9, &moves[(i + 1).min(moves.len() - 1)])] {
                    let at = Place { part, section: d.section, at: Some(d.m.at) };
                    for edits in edits::other_foot(s.text, d.m.span) {
                        let title = format!("use the {} foot on count {}", foot.other().word(), d.m.at);
                        draft.offer_at(at, cost, title, edits);
                    }
                }
            }
            out.push(draft);
        }
    }
}

/// Whether words name the foot that acts: "over right" and "beside left" name the other.
fn names_foot(t: &[Token]) -> bool {
    let side = |i: &usize| matches!(t[*i].kind, Kind::W(W::R | W::L | W::RF | W::LF));
    let relation = |t: &Token| {
        matches!(
            t.kind,
            Kind::W(W::Across | W::Behind | W::Front | W::Beside | W::Together | W::Of | W::To | W::The)
        )
    };
    (0..t.len()).filter(side).any(|i| i == 0 || !relation(&t[i - 1]))
}

/// Whether the sheet says touch where a foot closes without the weight.
fn touches(s: &Subject<'_>) -> bool {
    (0..s.dance().parts.len()).any(|part| {
        s.moves(part).iter().any(|d| {
            d.m.action == Action::Touch
                && d.m.place == Spot::Close
                && edits::words(s.text, d.m.span).iter().any(|t| t.is(W::Touch))
        })
    })
}

/// Whether words say that a toe or heel steps.
fn part_steps(s: &Subject<'_>, span: Span) -> bool {
    let t = edits::words(s.text, said(s, span));
    let any = |wanted: &[W]| t.iter().any(|t| wanted.iter().any(|w| t.is(*w)));
    any(&[W::Step]) && any(&[W::Heel, W::Toe]) && !any(&[W::Touch, W::Point, W::Dig, W::Ball])
}

/// The words of a move with the verb right before them, which the reading may have passed over.
fn said(s: &Subject<'_>, span: Span) -> Span {
    let from = s.text.get(..span.start as usize).unwrap_or("");
    let from = from.rfind([',', '.', ';', ':', '(', ')', '|', '\n']).map_or(0, |n| n + 1);
    let before = Span::new(from, span.start as usize);
    match edits::words(s.text, before).last() {
        Some(t) if t.is(W::Step) || t.is(W::Walk) => t.span.join(span),
        _ => span,
    }
}
