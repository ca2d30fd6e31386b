//! An order of feet, such as RLR, that is not that of the steps.

use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::read::TroubleKind;
use crate::sheet::vocabulary::W;
use crate::sheet::words::Kind;
use crate::text::Edit;

pub(super) const NAME: &str = "feet-differ";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for t in s.troubles(|k| *k == TroubleKind::FeetOrder) {
        let moves = s.moves(t.part);
        let before = moves.iter().rev().find(|d| d.m.span.end <= t.span.start);
        let Some(step) = before else { continue };
        let mut draft = s.at(NAME, Severity::Warning, t.span, Place::of_trouble(t)).says(format!(
            "“{}” is not the order of feet of “{}”; one of the two is on the wrong foot.",
            s.quote(t.span),
            s.quote(step.m.span)
        ));
        draft = draft.with(step.m.span, "the steps that it is about");
        for edits in edits::other_foot(s.text, step.m.span) {
            draft.offer(15, false, "lead with the other foot".to_string(), edits);
        }
        draft.offer(12, false, "write the feet the other way round".to_string(), swapped(s.text, t.span));
        out.push(draft);
    }
}

fn swapped(text: &str, span: crate::text::Span) -> Vec<Edit> {
    let mut out = Vec::new();
    for t in edits::words(text, span) {
        match t.kind {
            Kind::Feet => {
                let letters: String = t
                    .span
                    .of(text)
                    .chars()
                    .map(|c| match c {
                        'R' => 'L',
                        'L' => 'R',
                        'r' => 'l',
                        'l' => 'r',
                        c => c,
                    })
                    .collect();
                out.push(Edit { span: t.span, text: letters });
            }
            Kind::W(W::R | W::L | W::RF | W::LF) => {
                if let Some(edits) = edits::other_foot(text, t.span).into_iter().next() {
                    out.extend(edits);
                }
            }
            _ => {}
        }
    }
    out
}
