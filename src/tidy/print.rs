//! The parts of a tidy sheet in their order, and the remarks at their places between them.

use core::fmt::Write as _;
use std::collections::BTreeSet;

use super::{head, lines, mirror};
use crate::check::hidden;
use crate::dance::{Dance, Part, PartKind, Section};
use crate::floor::Heading;
use crate::letters::Letters as _;
use crate::order::Ordered as _;
use crate::read::{Reading, TroubleKind};
use crate::sheet::{Sheet, Topic};
use crate::text::Span;
use crate::time::Ticks;

/// All that is needed to print.
pub(super) struct Print<'a> {
    pub text: &'a str,
    pub sheet: &'a Sheet,
    pub reading: &'a Reading,
    /// The dance as printed, perhaps mirrored.
    pub dance: &'a Dance,
    pub named: bool,
    pub passed: bool,
    pub mirror: bool,
    /// Figures that are not named: part, section and figure.
    pub silent: BTreeSet<(usize, usize, u16)>,
}

/// A remark that keeps a rule quiet, for its line or for the whole sheet.
struct Quiet {
    start: u32,
    words: String,
    whole: bool,
}

/// A remark with its place in the old text.
struct Note {
    start: u32,
    words: String,
}

impl Print<'_> {
    /// The whole sheet.
    pub(super) fn all(&self) -> String {
        let mut notes = self.notes();
        notes.reverse();
        let mut out = Vec::new();
        head::print(&mut out, self.dance);
        // Remarks that keep a rule quiet for the whole sheet stand in a line of their own.
        let quiet = self.quiet();
        if quiet.iter().any(|q| q.whole) {
            out.push(String::new());
            out.extend(quiet.iter().filter(|q| q.whole).map(|q| q.words.clone()));
        }
        // Remarks at the head stand under it.
        let body = self.body_start();
        let mut said = head::leftover(self.text, self.sheet, body);
        said.extend(flush(&mut notes, body));
        // What keeps a rule quiet stands above.
        said.retain(|n| !quiet.iter().any(|q| q.whole && n.trim().eq_ignore_ascii_case(q.words.trim())));
        if !said.is_empty() {
            out.push(String::new());
            out.extend(said.iter().map(|n| self.note(n)));
        }
        for (index, part) in self.dance.parts.iter().enumerate() {
            self.part(&mut out, &mut notes, index, part);
        }
        if !self.dance.sequence.is_empty() {
            out.push(String::new());
            out.push(format!("Sequence: {}", self.sheet.sequence.join(", ")));
        }
        self.restarts(&mut out);
        self.endings(&mut out);
        if !notes.is_empty() {
            out.push(String::new());
            let rest = flush(&mut notes, u32::MAX);
            out.extend(rest.iter().map(|n| self.note(n)));
        }
        let mut text = out.join("\n");
        text.push('\n');
        text
    }

    /// The remarks that keep a rule quiet.
    fn quiet(&self) -> Vec<Quiet> {
        let plain = hidden(self.text);
        let mut out: Vec<Quiet> = Vec::new();
        let mut at = 0;
        for (line, plain) in self.text.split_inclusive('\n').zip(plain.split_inclusive('\n')) {
            let differs = |i: &usize| line.as_bytes().get(*i) != plain.as_bytes().get(*i);
            let first = (0..line.len()).find(differs);
            let last = (0..line.len()).rfind(differs);
            if let (Some(first), Some(last)) = (first, last)
                && let Some(words) = line.get(first..=last)
            {
                let whole = !plain.chars().any(char::is_alphanumeric);
                let start = u32::try_from(at + first).unwrap_or(u32::MAX);
                out.push(Quiet { start, words: words.to_string(), whole });
            }
            at += line.len();
        }
        out
    }

    fn said(&self, words: &str) -> String {
        if self.mirror { mirror::words(words) } else { words.to_string() }
    }

    fn note(&self, words: &str) -> String {
        format!("Note: {}", self.said(words))
    }

    fn notes(&self) -> Vec<Note> {
        let mut out: Vec<Note> = self.sheet.notes.iter().filter_map(|s| note(self.text, *s)).collect();
        if self.passed {
            let passed = self.reading.troubles.iter().filter(|t| t.kind == TroubleKind::Unread);
            // A word or two passed over within a step is no remark.
            let said = passed.filter_map(|t| note(self.text, t.span));
            out.extend(said.filter(|n| n.words.split_whitespace().count() > 2));
        }
        out.in_order_by_key(|n| n.start);
        out
    }

    fn body_start(&self) -> u32 {
        let parts = self.sheet.parts.iter().filter(|p| p.kind == PartKind::Main);
        let sections = parts.flat_map(|p| &p.sections).map(|s| s.span);
        sections.filter(|s| *s != Span::default()).map(|s| s.start).min().unwrap_or(u32::MAX)
    }

    fn part(&self, out: &mut Vec<String>, notes: &mut Vec<Note>, index: usize, part: &Part) {
        let phrased = self.dance.parts.iter().filter(|p| p.kind == PartKind::Main).count() > 1;
        match part.kind {
            PartKind::Main if phrased => {
                out.push(String::new());
                out.push(format!("PART {}", part.name));
            }
            PartKind::Main => {}
            PartKind::Tag => {
                out.push(String::new());
                out.push(self.tag_heading(index, part));
            }
            PartKind::Ending => {
                out.push(String::new());
                out.push(self.ending_heading());
            }
        }
        let mut before = 0;
        for (number, section) in part.sections.iter().enumerate() {
            let lines = lines::lines(section, self.dance.head.metre, &|figure| {
                self.named && !self.silent.contains(&(index, number, figure))
            });
            if part.kind == PartKind::Main {
                let start = lines.iter().map(|l| l.start).min().unwrap_or(0);
                let above = flush(notes, start.min(section.span.start));
                if !above.is_empty() {
                    out.push(String::new());
                    out.extend(above.iter().map(|n| self.note(n)));
                }
                let first = before + 1;
                before += section.counts;
                out.push(String::new());
                // A range that is short or begins on an even count is not seen as one.
                let mut heading = if section.counts >= 4 && first % 2 == 1 {
                    format!("SECTION {} ({first}-{before})", number + 1)
                } else if section.counts == 0 {
                    format!("SECTION {}", number + 1)
                } else {
                    format!("SECTION {}, {} counts", number + 1, section.counts)
                };
                let name = head::section_name(&section.name);
                if !name.is_empty() && !self.inline(index, number, &lines) {
                    heading.push_str(": ");
                    heading.push_str(&name);
                }
                out.push(heading);
            }
            let clocks = self.clocks(index, number);
            let printed = lines::print(&lines, &clocks);
            for (k, (start, line)) in printed.iter().enumerate() {
                if *start != u32::MAX {
                    out.extend(flush(notes, *start).iter().map(|n| self.note(n)));
                }
                let next = printed.get(k + 1).map_or(section.span.end, |(next, _)| *next);
                let mut line = line.clone();
                for q in self.quiet().iter().filter(|q| !q.whole && q.start >= *start && q.start < next) {
                    line.push(' ');
                    line.push_str(&q.words);
                }
                out.push(line);
            }
        }
    }

    /// Whether the steps stand in the heading itself, so that it names nothing.
    fn inline(&self, part: usize, section: usize, lines: &[lines::StepLine]) -> bool {
        let Some(section) = self.reading.dance.parts.get(part).and_then(|p| p.sections.get(section)) else {
            return false;
        };
        let from = section.span.start as usize;
        let name = section.name.trim();
        let at = self.text.get(from..).and_then(|t| t.find(name)).map(|at| at + from);
        let start = lines.iter().map(|l| l.start as usize).min();
        at.zip(start).is_some_and(|(at, start)| !name.is_empty() && at <= start && start < at + name.len())
    }

    /// The clocks of a section: where the writer said another one than the turns reach, his own stays.
    fn clocks(&self, part: usize, section: usize) -> Vec<(Ticks, Heading)> {
        let s = &self.dance.parts[part].sections[section];
        let end = Ticks(i32::MAX);
        let mut out: Vec<(Ticks, Heading)> = Vec::new();
        for t in &self.reading.troubles {
            if let TroubleKind::Clock { said, .. } = t.kind
                && t.part == part
                && t.section == section
            {
                let last = s.moves.last().map(|m| m.at);
                let at = if t.at == last { end } else { t.at.unwrap_or(end) };
                let said = if self.mirror { mirror::clock(said) } else { said };
                out.push((at, said));
            }
        }
        out.in_order_by_key(|c| c.0);
        if out.last().is_none_or(|c| c.0 != end) {
            out.push((end, s.facing_end));
        }
        // The end is wherever the last line ends.
        let last = s.moves.last().map_or(Ticks::of_count(1), |m| m.at);
        let last = last.max(Ticks::of_count(i32::try_from(s.counts).unwrap_or(1)));
        out.iter().map(|(at, h)| ((*at).min(last), *h)).collect()
    }

    fn tag_heading(&self, index: usize, part: &Part) -> String {
        let counts = part.counts();
        let mut out = part.name.capital();
        add(&mut out, format_args!(" ({counts} counts)"));
        let uses: Vec<_> = self.dance.tags.iter().filter(|t| t.part == index).collect();
        for (k, t) in uses.iter().enumerate() {
            out.push_str(if k == 0 {
                " "
            } else if k + 1 == uses.len() {
                " and "
            } else {
                ", "
            });
            match t.after_counts {
                Some(n) if k == 0 => add(&mut out, format_args!("after count {n} of wall {}", t.wall)),
                _ if k == 0 => add(&mut out, format_args!("after wall {}", t.wall)),
                _ => add(&mut out, format_args!("wall {}", t.wall)),
            }
            if let Some((h, _)) = t.stated {
                add(&mut out, format_args!(" ({h})"));
            }
        }
        if uses.iter().any(|t| t.then_restart) {
            out.push_str(", then restart");
        }
        out
    }

    fn ending_heading(&self) -> String {
        let Some(ending) = &self.dance.ending else { return "ENDING".to_owned() };
        let wall = ending.wall.map_or_else(|| "the last wall".to_owned(), |wall| format!("wall {wall}"));
        let mut out = match ending.after_counts {
            Some(n) => format!("ENDING: on {wall} after {n} counts"),
            None => format!("ENDING: after {wall}"),
        };
        if let Some(clock) = ending.stated {
            add(&mut out, format_args!(" ({clock})"));
        }
        out
    }

    fn restarts(&self, out: &mut Vec<String>) {
        if !self.dance.restarts.is_empty() {
            out.push(String::new());
        }
        for r in &self.dance.restarts {
            let mut line = format!("RESTART on wall {} after {} counts", r.wall, r.after_counts);
            if let Some((h, _)) = r.stated {
                add(&mut line, format_args!(" ({h})"));
            }
            if let Some(changed) = &r.changed
                && let Some((section, before)) = self.section_before(r.after_counts)
            {
                if lines::without_half(section, changed, r.after_counts - before) {
                    line.push_str(": leave out the last &");
                } else if let Some((old, new)) = lines::changed(section, changed) {
                    add(&mut line, format_args!(": replace {old} with {new}"));
                }
            }
            out.push(line);
        }
    }

    /// The section in which so many counts end, and the counts before it.
    fn section_before(&self, counts: u32) -> Option<(&Section, u32)> {
        let mut end = 0;
        let section = self.dance.parts.first()?.sections.iter().find(|s| {
            end += s.counts;
            end >= counts
        })?;
        Some((section, end - section.counts))
    }

    /// Endings that are spoken of and not danced in any repetition stay as they are.
    fn endings(&self, out: &mut Vec<String>) {
        if self.dance.parts.iter().any(|p| p.kind == PartKind::Ending) {
            return;
        }
        let mut spans: Vec<Span> = Vec::new();
        for p in self.sheet.parts.iter().filter(|p| p.kind == PartKind::Ending) {
            let own = p.sections.iter().flat_map(|s| &s.tokens).map(|t| t.span);
            spans.push(own.fold(p.span, Span::join));
        }
        for m in self.sheet.mentions.iter().filter(|m| m.topic == Topic::Ending) {
            if !spans.iter().any(|s| s.start <= m.span.start && m.span.end <= s.end) {
                spans.push(m.span);
            }
        }
        spans.in_order_by_key(|s| s.start);
        for span in spans {
            out.push(String::new());
            let words = span.of(self.text).lines().map(str::trim).filter(|l| !l.is_empty());
            out.extend(words.map(|l| self.said(l)));
        }
    }
}

/// Adds formatted words.
fn add(out: &mut String, words: core::fmt::Arguments<'_>) {
    // Writing into a string does not fail.
    let _ = out.write_fmt(words);
}

/// The words of a remark without its ornaments.
fn note(text: &str, span: Span) -> Option<Note> {
    let words = head::plain(span.of(text));
    (!words.is_empty()).then_some(Note { start: span.start, words })
}

/// Takes the notes that stand before a place.
fn flush(notes: &mut Vec<Note>, before: u32) -> Vec<String> {
    let mut out = Vec::new();
    while notes.last().is_some_and(|n| n.start < before || before == u32::MAX) {
        out.extend(notes.pop().map(|n| n.words));
    }
    out
}
