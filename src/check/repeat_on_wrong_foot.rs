//! Something is said to be repeated on a foot that has the weight.

use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::dance::{Effect, Foot, Weight, Who};
use crate::read::TroubleKind;
use crate::sheet::vocabulary::W;
use crate::text::Edit;

pub(super) const NAME: &str = "repeat-on-wrong-foot";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for t in s.troubles(|k| matches!(k, TroubleKind::Repeat { .. })) {
        let moves = s.moves(t.part);
        let first = moves.iter().position(|d| d.m.span == t.span && d.m.broken.is_some());
        let Some(j) = first else { continue };
        let Weight::On(foot) = moves[j].m.before else { continue };
        let place = Place { part: t.part, section: moves[j].section, at: Some(moves[j].m.at) };
        let mut draft = s.at(NAME, Severity::Error, t.span, place).says(format!(
            "“{}” would begin with the {} foot, which has the weight after the steps before it; repeat on the same foot, or end the steps before it with a touch.",
            s.quote(t.span),
            foot.word()
        ));
        for edits in other_lead(s.text, t.span, foot.other()) {
            draft.offer(12, false, format!("repeat with the {} foot", foot.other().word()), edits);
        }
        if let Some(i) = (0..j).rev().find(|i| moves[*i].m.effect == Effect::Takes) {
            let at = Place { part: t.part, section: moves[i].section, at: Some(moves[i].m.at) };
            draft = draft.with(moves[i].m.span, "the last step before the repeat");
            for edits in edits::to_touch(s.text, moves[i].m.span) {
                draft.offer_at(
                    at,
                    16,
                    format!("touch instead of stepping on count {}", moves[i].m.at),
                    edits,
                );
            }
        }
        if let Some(d) = moves[..j].last()
            && d.m.effect == Effect::Free
            && let Who::One(other) = d.m.who
        {
            for edits in edits::to_step(s.text, d.m.span, other) {
                draft.offer(16, false, format!("step on count {}", d.m.at), edits);
            }
        }
        out.push(draft);
    }
}

/// Words that give a repeat the other lead.
fn other_lead(text: &str, span: crate::text::Span, lead: Foot) -> Vec<Vec<Edit>> {
    let t = edits::words(text, span);
    let mut out = edits::other_foot(text, span);
    if let Some(o) = t.iter().find(|t| t.is(W::Other)) {
        out.insert(0, vec![Edit { span: o.span, text: edits::like(o.span.of(text), "same") }]);
    }
    if let Some(o) = t.iter().find(|t| t.is(W::Same)) {
        out.push(vec![Edit { span: o.span, text: edits::like(o.span.of(text), "other") }]);
    }
    if let (Some(a), Some(b)) = (t.first(), t.last())
        && a.is(W::Repeat)
        && t.len() > 1
    {
        let all = a.span.join(b.span);
        out.push(vec![Edit {
            span: all,
            text: format!("{} starting with {}", a.span.of(text), lead.letter()),
        }]);
    }
    out
}
