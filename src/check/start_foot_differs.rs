//! The foot that the head gives for the beginning is not the one of the first step.

use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Subject};
use crate::dance::Weight;

pub(super) const NAME: &str = "start-foot-differs";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    let Some((said, span)) = s.sheet.head.lead else { return };
    let moves = s.moves(0);
    let first = moves.iter().find(|d| matches!(d.m.who, crate::dance::Who::One(_)));
    let (Some(first), Some(foot)) = (first, s.dance().head.start_foot) else { return };
    if foot == said || first.m.effect == crate::dance::Effect::Keeps {
        return;
    }
    let severity =
        if s.unread_between(span.end, first.m.span.start) { Severity::Note } else { Severity::Warning };
    let mut draft = Subject::whole(NAME, severity, span)
        .says(format!(
            "The head lets the dance begin with the {} foot and the first step is “{}”, with the {} foot; correct one of the two.",
            said.word(),
            s.quote(first.m.span),
            foot.word()
        ))
        .with(first.m.span, "the first step");
    // The end of the dance frees the foot that it is to begin with.
    let end = s.dance().parts.first().and_then(|p| p.sections.last()).map(|x| x.weight_end);
    let sure = end == Some(Weight::On(foot.other()));
    for edits in edits::other_foot(s.text, span).into_iter().take(1) {
        draft.offer(8, sure, format!("begin with the {} foot", foot.word()), edits);
    }
    for edits in edits::other_foot(s.text, first.m.span) {
        draft.offer(14, false, format!("step with the {} foot first", said.word()), edits);
    }
    out.push(draft);
}
