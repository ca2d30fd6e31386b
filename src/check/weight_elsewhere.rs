//! A remark puts the weight on a foot that does not have it.

use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::read::TroubleKind;

pub(super) const NAME: &str = "weight-elsewhere";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for t in s.troubles(|k| matches!(k, TroubleKind::WeightElsewhere { .. })) {
        let TroubleKind::WeightElsewhere { said } = t.kind else { continue };
        let mut draft = s.at(NAME, Severity::Warning, t.span, Place::of_trouble(t)).says(format!(
            "“{}” says that the weight is on the {} foot, and the steps leave it on the {} foot; correct the remark or the step before it.",
            s.quote(t.span),
            said.word(),
            said.other().word()
        ));
        for edits in edits::other_foot(s.text, t.span).into_iter().take(1) {
            draft.offer(12, false, format!("weight on the {} foot", said.other().word()), edits);
        }
        out.push(draft);
    }
}
