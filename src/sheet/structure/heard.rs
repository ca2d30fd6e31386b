//! Passages about tags and restarts that are understood as a whole, and what they add to the sheet.

use super::added::length;
use super::told::{self, Event, Steps};
use super::{Build, Chunk, Kind, Line, PartKind, Reading, Role, SectionText, Slots, Token, Topic, W, add};
use crate::sheet::mentions::Mention;
use crate::text::Span;
use crate::time::Ticks;

/// A passage has no more lines.
const LINES: usize = 16;

impl Reading<'_> {
    /// For each line, whether no section begins in it or below it.
    pub(super) fn tail(&self) -> Vec<bool> {
        let n = self.lines.len();
        let mut out = vec![true; n];
        let mut rest = true;
        let mut to = n;
        // Paragraph by paragraph, the last one first.
        while to > 0 {
            let from = (0..to).rev().find(|i| *i == 0 || self.lines[*i].after_gap).unwrap_or(0);
            let about = (from..to).find(|i| !self.lead[*i] && told::opens(self.text, &self.lines[*i]));
            let steps =
                |i: usize| self.steps_line(i) || self.lines[i].stepful() || self.lines[i].told.is_some();
            let closed = (from..to).rev().find(|i| steps(*i) && about.is_none_or(|a| *i < a));
            for i in (from..to).rev() {
                rest &= closed != Some(i);
                out[i] = rest;
            }
            to = from;
        }
        out
    }

    /// The passage that begins with line `i`, where all of it is understood, and one past its last line.
    pub(super) fn heard(&self, i: usize, tail: bool) -> Option<(Vec<Event>, usize)> {
        let line = &self.lines[i];
        let plain = |j: usize| {
            let line = &self.lines[j];
            let headed = || {
                self.labels[j].as_ref().is_some_and(|l| l.certain)
                    && self.headed(j)
                    && !told::opens(self.text, line)
            };
            line.told.is_none() && !self.defines(j) && !headed()
        };
        if !tail || !plain(i) || self.lead[i] || line.empty() || !told::opens(self.text, line) {
            return None;
        }
        let opening = line.after_gap
            || i == 0
            || !told::opens(self.text, &self.lines[i - 1])
            || self.keyword(i).is_some();
        // "END", and below it what is danced then.
        let mut above = (0..i).rev().take(LINES).take_while(|j| !self.lines[*j + 1].after_gap);
        if above.any(|j| self.keyword(j) == Some(Topic::Ending)) {
            return None;
        }
        if !opening || self.order.iter().any(|o| *o) || self.keyword(i) == Some(Topic::Ending) {
            return None;
        }
        let end = (i + 1..self.lines.len().min(i + LINES))
            .find(|j| self.lines[*j].after_gap || !plain(*j))
            .unwrap_or(self.lines.len().min(i + LINES));
        // An ending changes nothing of the walls before it.
        let ending = |j: usize| told::ends(self.text, &self.lines[j].tokens);
        let named = |j: &usize| {
            let t = &self.lines[*j].tokens;
            t.iter().any(|t| t.is(W::Tag) || t.is(W::Restart))
        };
        if ending(i) {
            return (!named(&i)).then(|| (Vec::new(), (i + 1..end).find(named).unwrap_or(end)));
        }
        let end = (i + 1..end).find(|j| ending(*j)).unwrap_or(end);
        // "(1) Sway right, (2) sway left" is read as a sentence.
        let rows = |j: usize| {
            let t = &self.lines[j].tokens[self.lines[j].first..];
            let mark =
                |w: &[Token]| w[0].sign('(') && matches!(w[1].kind, Kind::Number(1..=2)) && w[2].sign(')');
            t.get(..3).is_some_and(mark) && t.windows(3).filter(|w| mark(w)).count() >= 2
        };
        let led = |j: usize| self.steps_line(j) && !rows(j) && !told::opens(self.text, &self.lines[j]);
        let first = (i + 1..end).find(|j| led(*j)).unwrap_or(end);
        let try_to = |end: usize| {
            let open = self.next_full(end - 1).is_some_and(|j| self.steps_line(j) || self.lines[j].stepful());
            let lines: &[Line] = &self.lines[i..end];
            told::events(self.text, lines, i, led, open).map(|events| (events, end))
        };
        try_to(end).or_else(|| if first < end { try_to(first) } else { None })
    }
}

impl Build<'_, '_> {
    /// Adds what a passage tells.
    pub(super) fn heard(&mut self, i: usize, events: &[Event], roles: &[Role]) {
        self.finish_extra();
        let last = (i + 1..roles.len()).take_while(|j| roles[*j] == Role::Heard).last().unwrap_or(i);
        let span = self.r.lines[i].span.join(self.r.lines[last].span);
        if events.is_empty() {
            self.notes.push(span);
        }
        for event in events {
            let mut m = Mention::new(event.topic, span);
            m.walls.clone_from(&event.walls);
            m.facings.clone_from(&event.facings);
            m.after_counts = event.counts;
            m.after_section = event.section;
            m.length = event.length;
            m.then_restart = event.then_restart;
            self.leave_out(event.left, &mut m);
            if event.topic == Topic::Tag {
                self.heard_tag(event, m, span);
            } else {
                self.mentions.push(m);
            }
        }
    }

    /// Counts and sections that are left out at the end of the dance.
    fn leave_out(&self, (counts, sections): (u32, u32), m: &mut Mention) {
        let Some(main) = self.parts.iter().find(|p| p.kind == PartKind::Main) else { return };
        if counts > 0 {
            let total: i32 = main.sections.iter().map(|s| length(s).unwrap_or(8)).sum();
            m.after_counts = u32::try_from(total).ok().and_then(|n| n.checked_sub(counts));
        }
        if sections > 0 {
            m.after_section = u32::try_from(main.sections.len()).ok().and_then(|n| n.checked_sub(sections));
        }
    }

    fn heard_tag(&mut self, event: &Event, m: Mention, span: Span) {
        let saved = self.here;
        self.open_part(PartKind::Tag, m, span);
        let Some((p, s)) = self.here else { return };
        for steps in &event.steps {
            match steps {
                Steps::Words(t) => {
                    let rest = Line::of(span, t.clone());
                    add(self.r.text, &mut self.parts[p].sections[s], &rest, 0, true, false);
                }
                Steps::Line(i, joins) => {
                    let line = &self.r.lines[*i];
                    let behind = self.r.manner.behind >= self.r.manner.leading;
                    let mut words = line.tokens.get(line.first..).unwrap_or_default().to_vec();
                    told::plain(self.r.text, &mut words);
                    let mut line = line.clone();
                    line.tokens.truncate(line.first);
                    line.tokens.extend(words);
                    let section = &mut self.parts[p].sections[s];
                    let old = section.chunks.len();
                    add(self.r.text, section, &line, line.first, behind, *joins);
                    let last = |c: &Chunk| match &c.slots {
                        Slots::At { ticks, .. } => ticks.last().map(|t| t.count()),
                        _ => None,
                    };
                    let done = section.chunks[..old].last().and_then(last).unwrap_or(0);
                    counted_on(section, old, done);
                }
            }
        }
        if !event.steps.is_empty() {
            self.here = saved;
            self.in_tag = false;
        }
    }
}

/// Counts of a tag that begin again go on behind those before them: "1-4 ..." above "1-4 ...".
pub(super) fn counted_on(section: &mut SectionText, old: usize, done: i32) {
    let ticks = |c: &Chunk| if let Slots::At { ticks, .. } = &c.slots { ticks.clone() } else { Vec::new() };
    let first = section.chunks[old..].iter().flat_map(ticks).find(|t| t.0 > 0).map_or(0, Ticks::count);
    let shift = done + 1 - first;
    if first < 1 || shift < 1 || done < 1 {
        return;
    }
    for c in &mut section.chunks[old..] {
        if let Slots::At { ticks, .. } = &mut c.slots {
            ticks.iter_mut().for_each(|t| t.0 += shift * 24);
        }
    }
}
