//! A stated clock that the turns do not reach, while later marks agree again.

use super::clocks::{Slip, pair, slips};
use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Place, Subject};

pub(super) const NAME: &str = "clock-differs";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for part in 0..s.dance().parts.len() {
        for slip in slips(s, part) {
            let (marks, open) = match slip {
                Slip::Mark(marks) => (marks, false),
                Slip::Turn { marks, open: true, .. } => (marks, true),
                Slip::Turn { .. } => continue,
            };
            let Some(first) = marks.first() else { continue };
            let Some((said, got)) = pair(first) else { continue };
            let from = first.span.start.saturating_sub(400);
            let severity = if s.unread_turn_between(from.max(line_start(s, first.span.start)), first.span.end)
            {
                Severity::Note
            } else {
                Severity::Warning
            };
            let place = Place::of_trouble(first);
            let message = if open {
                format!(
                    "The sheet says {said} here and the turns lead to {got}; correct the clock, or the turn before it."
                )
            } else {
                format!(
                    "The sheet says {said} here and the turns lead to {got}, as the marks around it confirm; correct the clock."
                )
            };
            let mut draft = s.at(NAME, severity, first.span, place).says(message);
            let mut all = Vec::new();
            for m in &marks {
                if let Some((_, got)) = pair(m)
                    && let Some(edit) = edits::clock_like(s.text, m.span, got)
                {
                    all.push(edit);
                }
                if m.span != first.span {
                    draft = draft.with(m.span, "this mark is off by the same amount");
                }
            }
            let held = s.reading.clocks_held > 0;
            draft.offer(8, held && !open, format!("write {got}"), all);
            if open {
                super::turn_differs::offers(
                    s,
                    &mut draft,
                    part,
                    None,
                    first,
                    super::clocks::small(said.units() - got.units()),
                );
            }
            out.push(draft);
        }
    }
}

fn line_start(s: &Subject<'_>, byte: u32) -> u32 {
    let before = s.text.get(..byte as usize).unwrap_or("");
    u32::try_from(before.rfind('\n').map_or(0, |n| n + 1)).unwrap_or(0)
}
