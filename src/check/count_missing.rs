//! Counts are left out between two lines.

use super::counting::{Step, steps};
use super::finding::Severity;
use super::subject::{Draft, Subject};
use crate::text::{Edit, Span};
use crate::time::Ticks;

pub(super) const NAME: &str = "count-missing";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for Step { part, section, base, before, mark, expected, first, last, next } in steps(s) {
        if first <= expected {
            continue;
        }
        let gap = if first - expected == 1 {
            format!("count {}", expected + base)
        } else {
            format!("counts {} to {}", expected + base, first - 1 + base)
        };
        let place = s.place(part, section, Some(Ticks::of_count(expected)));
        let severity =
            if s.unread_between(before.start, mark.end) { Severity::Note } else { Severity::Warning };
        let mut draft = s
            .at(NAME, severity, mark, place)
            .says(format!(
                "After “{}” comes “{}”: nothing is written for {gap}; write the missing steps, or correct the counts.",
                s.quote(before),
                s.quote(mark)
            ))
            .with(before, "the counts before it");
        let shift = expected - first;
        let sure = next == Some(last + shift + 1);
        if next.is_none_or(|n| n == last + shift + 1) {
            let edits = super::counting::renumbered(s.text, mark, shift);
            draft.offer(10, sure, format!("count “{}”", crate::text::apply_to(s.text, mark, &edits)), edits);
        }
        let line = s.text.get(..mark.start as usize).and_then(|b| b.rfind('\n')).map_or(0, |n| n + 1);
        let own = s.text.get(line..mark.start as usize).unwrap_or("");
        if own.chars().all(|c| c.is_whitespace() || matches!(c, '(' | '[' | '*' | '-' | '•')) {
            let (a, b) = (expected + base, first - 1 + base);
            let counts = if a == b { a.to_string() } else { format!("{a}-{b}") };
            let edit = Edit { span: Span::new(line, line), text: format!("{own}{counts} Hold\n") };
            draft.offer(20, false, format!("hold on {gap}"), vec![edit]);
        }
        out.push(draft);
    }
}
