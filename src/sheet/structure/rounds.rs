//! Counts that begin again inside of a section: bars that make a section together, and rows that count from one each.

use super::{Build, PartKind, Reading, SectionText, Slots};
use crate::text::lower;

/// Counts of the longest bar.
const BAR: i32 = 4;

/// The whole counts of a chunk: the first and the last.
fn counts(slots: &Slots) -> Option<(i32, i32)> {
    let Slots::At { ticks, .. } = slots else { return None };
    let first = ticks.iter().find(|t| t.0 > 0)?;
    Some(((first.0 + 23).div_euclid(24), ticks.last()?.count()))
}

/// The lengths of the rows of a section that count from one, in order.
fn rows(section: &SectionText) -> Vec<i32> {
    let mut out: Vec<i32> = Vec::new();
    for (first, last) in section.chunks.iter().filter_map(|c| counts(&c.slots)) {
        match out.last_mut() {
            Some(row) if first > *row => *row = last,
            Some(_) if first != 1 => return Vec::new(),
            _ => out.push(last),
        }
    }
    out
}

impl Reading<'_> {
    /// Whether the second bars of a waltz are counted on, 4-5-6: bars that begin at one again are a slip then.
    pub(super) fn counts_on(&self) -> bool {
        self.lines.iter().any(|l| l.led(self.text).is_some_and(|m| m.first() == 4))
    }
}

impl Build<'_, '_> {
    /// "Bar 1", "Bar 2": two bars of four counts make a section of eight.
    pub(super) fn bars(&mut self) {
        let text = self.r.text;
        let bar = |s: &SectionText| {
            let mut marks = s.chunks.iter().filter_map(|c| counts(&c.slots));
            let first = marks.next();
            let last = marks.next_back().or(first);
            let length = first.zip(last).map_or(0, |(a, b)| b.1 - a.0 + 1);
            let named = lower(s.span.of(text).trim_start_matches(|c: char| !c.is_alphanumeric()));
            named.starts_with("bar") && (1..=BAR).contains(&length)
        };
        for part in self.parts.iter_mut().filter(|p| p.kind == PartKind::Main) {
            let paired = |w: &[SectionText]| match (w[0].number, w.get(1).and_then(|s| s.number)) {
                (Some(a), Some(b)) => a % 2 == 1 && b == a + 1,
                _ => false,
            };
            let all = &part.sections;
            if all.len() < 4 || !all.iter().all(bar) || !all.chunks(2).all(paired) {
                continue;
            }
            let mut merged: Vec<SectionText> = Vec::with_capacity(all.len() / 2);
            for (n, section) in core::mem::take(&mut part.sections).into_iter().enumerate() {
                match merged.last_mut() {
                    Some(first) if n % 2 == 1 => join(first, section),
                    _ => merged.push(section),
                }
            }
            for (n, section) in merged.iter_mut().enumerate() {
                section.number = u32::try_from(n + 1).ok();
            }
            part.sections = merged;
        }
    }

    /// "(1-3) ... (4-6) ... (1-3) ... (4-6)": rows that count from one each, where together they fill the section.
    pub(super) fn rounds(&mut self) {
        let head = self.head.counts.map(|(n, _)| n);
        for part in self.parts.iter_mut().filter(|p| p.kind == PartKind::Main) {
            let n = u32::try_from(part.sections.len()).unwrap_or(1).max(1);
            let each = head.filter(|c| c % n == 0).map(|c| c / n);
            // It is the writer's habit in most sections, or a slip in one.
            let anew = part.sections.iter().filter(|s| rows(s).len() >= 2).count();
            if anew * 2 <= part.sections.len() {
                continue;
            }
            for section in &mut part.sections {
                let rows = rows(section);
                let sum = u32::try_from(rows.iter().sum::<i32>()).unwrap_or(0);
                let said = section.counts.map(|(n, _)| n).or(each);
                if rows.len() < 2 || said != Some(sum) {
                    continue;
                }
                let (mut before, mut last) = (0, 0);
                for chunk in &mut section.chunks {
                    let Some((first, end)) = counts(&chunk.slots) else { continue };
                    if first <= last {
                        before += last;
                    }
                    last = end;
                    if let Slots::At { ticks, .. } = &mut chunk.slots {
                        ticks.iter_mut().for_each(|t| t.0 += before * 24);
                    }
                }
            }
        }
    }
}

/// Puts the words of a section behind those of another.
fn join(first: &mut SectionText, mut second: SectionText) {
    let by = first.tokens.len();
    first.tokens.append(&mut second.tokens);
    for mut chunk in second.chunks {
        chunk.from += by;
        chunk.to += by;
        first.chunks.push(chunk);
    }
    first.notes.append(&mut second.notes);
    first.span = first.span.join(second.span);
    first.counts = None;
}
