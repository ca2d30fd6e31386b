//! Counts are given twice, or go back.

use super::counting::{Step, steps};
use super::finding::Severity;
use super::subject::{Draft, Subject, written_counts};
use crate::sheet::SectionText;
use crate::text::Span;
use crate::time::Ticks;

pub(super) const NAME: &str = "count-twice";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for Step { part, section, base, before, mark, expected, first, last, next, .. } in steps(s) {
        if first >= expected {
            continue;
        }
        let place = s.place(part, section, Some(Ticks::of_count(first)));
        let mut draft = s
            .at(NAME, Severity::Warning, mark, place)
            .says(format!(
                "“{}” comes after “{}”, so counts are given twice; number these steps on from the line before.",
                s.quote(mark),
                s.quote(before)
            ))
            .with(before, "the counts before it");
        let shift = expected - first;
        let sure = next == Some(last + shift + 1);
        let edits = super::counting::renumbered(s, mark, base, shift);
        draft.offer(10, sure, format!("count “{}”", crate::text::apply_to(s.text, mark, &edits)), edits);
        out.push(draft);
    }
    halves(s, out);
}

/// Two halves of a section that both count from 1: the second begins no section of its own, for nothing names it.
fn halves(s: &Subject<'_>, out: &mut Vec<Draft>) {
    let usual = i32::try_from(s.dance().head.metre.section()).unwrap_or(8);
    for part in 0..s.dance().parts.len() {
        let Some(text) = s.part_text(part).filter(|p| p.divided) else { continue };
        for (i, pair) in text.sections.windows(2).enumerate() {
            let (a, b) = (&pair[0], &pair[1]);
            let (Some(first), Some(second)) = (written_counts(a), written_counts(b)) else { continue };
            let named = b.number.is_some() || b.counts.is_some() || !b.name.is_empty() || b.base > 0;
            // Another sheet may count all its sections so.
            let others = text.sections.iter().filter(|x| written_counts(x) == Some(usual)).count();
            if named || first + second != usual || a.base > 0 || others == 0 {
                continue;
            }
            let marks = |x: &SectionText| -> Vec<Span> {
                x.chunks.iter().map(|c| c.mark).filter(|m| !m.is_empty()).collect()
            };
            let (before, own) = (marks(a), marks(b));
            let (Some(before), Some(mark)) = (before.last(), own.first()) else { continue };
            let place = s.place(part, i, Some(Ticks::COUNT));
            let mut draft = s
                .at(NAME, Severity::Warning, *mark, place)
                .says(format!(
                    "“{}” comes after “{}”, so counts are given twice; number these steps on from the line before.",
                    s.quote(*mark),
                    s.quote(*before)
                ))
                .with(*before, "the counts before it");
            let edits: Vec<_> =
                own.iter().flat_map(|m| super::counting::renumbered(s, *m, 0, first)).collect();
            let title = format!("count on from {}", first + 1);
            draft.offer(10, true, title, edits);
            out.push(draft);
        }
    }
}
