//! A remark puts the weight on a foot that does not have it.

use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::dance::Action;
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
    for part in 0..s.dance().parts.len() {
        let moves = s.moves(part);
        for (i, d) in moves.iter().enumerate().skip(1) {
            let before = s.text.get(..d.m.span.start as usize).unwrap_or("").trim_end();
            let remark = before.ends_with(['(', '[']);
            // A remark in brackets right after a step says where the weight is; it moves nothing by itself.
            let last = moves[i - 1].m;
            let Some(said) = d.m.takes().filter(|f| remark && last.takes() == Some(f.other())) else {
                continue;
            };
            if d.m.action != Action::Shift {
                continue;
            }
            let place = Place { part, section: d.section, at: Some(d.m.at) };
            let mut draft = s.at(NAME, Severity::Warning, d.m.span, place).says(format!(
                "“{}” says that the weight is on the {} foot, and “{}” leaves it on the {} foot; correct the remark or the step before it.",
                s.quote(d.m.span),
                said.word(),
                s.quote(last.span),
                said.other().word()
            ));
            for edits in edits::other_foot(s.text, d.m.span).into_iter().take(1) {
                draft.offer(12, false, format!("weight on the {} foot", said.other().word()), edits);
            }
            out.push(draft);
        }
    }
}
