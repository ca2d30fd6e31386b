//! Counted lines below words about a restart: what is danced then in place of the last counts.

use super::wording::newline;
use super::{Build, Chunk, Line, SectionText, Slots, Topic};

impl Build<'_, '_> {
    /// Whether the counts of a line below words about a restart are neither the next ones nor the first of a section: "7
    /// step R back" behind whole sections, "15 step R back" after 14 counts.
    pub(super) fn counts_elsewhere(&self, line: &Line, after: Option<u32>) -> bool {
        let Some(first) = line.led(self.r.text).map(super::super::counts::Mark::first) else { return false };
        let reached = after.and_then(|n| i32::try_from(n).ok()).is_some_and(|n| first <= n + 1);
        first > 1
            && first != self.last_count + 1
            && (first <= self.last_count || reached)
            && self.whole_eight()
    }

    /// Gives a line with such counts to the words about a restart right above it.
    pub(super) fn changes_restart(&mut self, i: usize) -> bool {
        let line = &self.r.lines[i];
        let Some(m) = self.mentions.last().filter(|m| m.topic == Topic::Restart) else { return false };
        let between = self.r.text.get(m.span.end as usize..line.span.start as usize).unwrap_or("x");
        let right_above = between.trim().is_empty() && between.matches('\n').count() < 2;
        // Behind the first of such lines the counts go on.
        let on = m.tokens.iter().any(|t| t.sign('\n')) && line.led(self.r.text).is_some();
        if !right_above || !(on || self.counts_elsewhere(line, m.after_counts)) {
            return false;
        }
        let more = newline(line);
        if let Some(m) = self.mentions.last_mut() {
            m.tokens.push(more);
            m.tokens.extend_from_slice(&line.tokens);
            m.span = m.span.join(line.span);
        }
        true
    }
}

/// How many counts the marks of a section span.
pub(super) fn counted(s: &SectionText) -> i32 {
    let at = |c: &Chunk| if let Slots::At { ticks, .. } = &c.slots { ticks.clone() } else { Vec::new() };
    let ticks: Vec<_> = s.chunks.iter().flat_map(at).collect();
    ticks.last().map_or(0, |t| t.count()) - ticks.first().map_or(0, |t| t.count()) + 1
}
