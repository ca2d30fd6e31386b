//! A restart is said to come after other counts than its mark stands at.

use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Subject};
use crate::read::TroubleKind;
use crate::sheet::words::Kind;
use crate::text::Edit;

pub(super) const NAME: &str = "restart-counts-differ";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    let section = s.dance().head.metre.section();
    for t in s.troubles(|k| matches!(k, TroubleKind::Restart { .. })) {
        let TroubleKind::Restart { wall, said, other, elsewhere } = t.kind else { continue };
        let mut draft = Subject::whole(NAME, Severity::Warning, t.span).says(format!(
            "The restart on wall {wall} is said to come after {said} counts, and by another place of the sheet it comes after {other}; correct the one that is wrong."
        ));
        if elsewhere != t.span {
            draft = draft.with(elsewhere, "here it says otherwise");
        }
        // Restarts stand at the ends of sections far more often than inside them.
        let sure = other % section == 0 && said % section != 0;
        for word in edits::words(s.text, t.span).iter().filter(|w| w.kind == Kind::Number(said)).take(2) {
            let text = edits::number_like(word.span.of(s.text), other);
            let edit = Edit { span: word.span, text };
            draft.offer(6, sure, format!("restart after {other} counts"), vec![edit]);
        }
        out.push(draft);
    }
}
