//! Counts are given twice, or go back.

use super::counting::{Step, steps};
use super::finding::Severity;
use super::subject::{Draft, Subject};
use crate::time::Ticks;

pub(super) const NAME: &str = "count-twice";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for Step { part, section, before, mark, expected, first, last, next, .. } in steps(s) {
        if first >= expected {
            continue;
        }
        let place = s.place(part, section, Some(Ticks::of_count(first)));
        let severity =
            if s.unread_between(before.start, mark.end) { Severity::Note } else { Severity::Warning };
        let mut draft = s
            .at(NAME, severity, mark, place)
            .says(format!(
                "“{}” comes after “{}”, so counts are given twice; number these steps on from the line before.",
                s.quote(mark),
                s.quote(before)
            ))
            .with(before, "the counts before it");
        let shift = expected - first;
        let sure = next == Some(last + shift + 1);
        let edits = super::counting::renumbered(s.text, mark, shift);
        draft.offer(10, sure, format!("count “{}”", crate::text::apply_to(s.text, mark, &edits)), edits);
        out.push(draft);
    }
}
