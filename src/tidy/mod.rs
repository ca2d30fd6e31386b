//! A sheet in one clean manner: head fields, sections with headings and counts, one line a figure or a group of
//! counts, the clock where a section ends, tags and restarts in one form, remarks kept as notes.
//!
//! Text enters, text leaves, and both read as the same dance: what is printed is read again before it is given,
//! and where a figure's name would change the reading, the steps stand alone. This room knows no rule of dance
//! of its own.
//!
//! ```
//! let sheet = "Quayside Two\nCount: 4 Wall: 1\n1-2 Step R fwd, tch L bes R\n3-4 Step L back, tch R bes L\n";
//! let tidy = halfcount::tidy::tidy(sheet, &halfcount::tidy::TidyOptions::default()).expect("a short sheet");
//! assert!(tidy.contains("step right forward, touch left beside right"));
//! ```

mod head;
mod lines;
mod mirror;
mod words;

use std::collections::BTreeSet;

use crate::dance::{Dance, Part, PartKind};
use crate::figures::lexicon;
use crate::floor::Heading;
use crate::read::{Reading, TroubleKind, read};
use crate::report::{Error, LONGEST, Report};
use crate::sheet::{self, Sheet};
use crate::text::Span;
use crate::time::Ticks;
use crate::trace::{Trace, trace};

pub use mirror::mirrored;

/// How to print.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
#[non_exhaustive]
pub struct TidyOptions {
    /// On the other foot: left for right, and the clock with it.
    pub mirror: bool,
}

/// The sheet in our own manner; it reads as the same dance, or as the mirrored one.
///
/// # Errors
///
/// Only a text longer than [`LONGEST`] is refused.
pub fn tidy(text: &str, options: &TidyOptions) -> Result<String, Error> {
    if text.len() > LONGEST {
        return Err(Error::TooLong { bytes: text.len() });
    }
    let sheet = sheet::parse(text, &lexicon().vocabulary);
    let reading = read(text, &sheet);
    let dance = if options.mirror { mirrored(&reading.dance) } else { reading.dance.clone() };
    let mut done = settled(text, &sheet, &reading, &dance, options.mirror);
    // What is printed is printed again until nothing changes, so that tidying twice is tidying once.
    for _ in 0..ROUNDS {
        if !done.sound {
            break;
        }
        let again = settled(&done.text, &done.sheet, &done.reading, &done.reading.dance, false);
        if again.text == done.text || !again.sound {
            break;
        }
        done = again;
    }
    Ok(done.text)
}

/// How often a text is printed again at most.
const ROUNDS: usize = 3;

/// A printed text and what it reads as.
struct Done {
    text: String,
    sheet: Sheet,
    reading: Reading,
    /// Whether it reads as the dance that was printed.
    sound: bool,
}

impl Done {
    fn new(text: String, wanted: &Trace) -> Self {
        let sheet = sheet::parse(&text, &lexicon().vocabulary);
        let reading = read(&text, &sheet);
        let sound = same(wanted, &traced(&reading.dance));
        Self { text, sheet, reading, sound }
    }
}

/// The text of a dance.
fn settled(text: &str, sheet: &Sheet, reading: &Reading, dance: &Dance, mirror: bool) -> Done {
    let wanted = traced(dance);
    let mut first = None;
    // Names of figures and words passed over are left out where they would change the reading.
    for (named, passed) in [(true, true), (false, true), (true, false), (false, false)] {
        let mut print = Print { text, sheet, reading, dance, named, passed, mirror, silent: BTreeSet::new() };
        let mut done = Done::new(print.all(), &wanted);
        if named {
            print.silent = misnamed(dance, &done.reading.dance);
            if !print.silent.is_empty() {
                done = Done::new(print.all(), &wanted);
            }
        }
        if done.sound {
            return done;
        }
        first.get_or_insert(done);
    }
    first.unwrap_or_else(|| Done::new(text.to_owned(), &wanted))
}

/// Figures whose printed names read as something else: part, section and figure.
fn misnamed(dance: &Dance, again: &Dance) -> BTreeSet<(usize, usize, u16)> {
    let mut out = BTreeSet::new();
    for (p, part) in dance.parts.iter().enumerate() {
        for (s, section) in part.sections.iter().enumerate() {
            let other = again.parts.get(p).and_then(|p| p.sections.get(s));
            for m in &section.moves {
                let Some(id) = m.figure else { continue };
                let own = section.figures.get(usize::from(id));
                let read = other
                    .and_then(|o| Some((o, o.moves.iter().find(|x| x.at == m.at && x.who == m.who)?.figure?)))
                    .and_then(|(o, f)| o.figures.get(usize::from(f)));
                if own.map(|f| &f.name) != read.map(|f| &f.name) {
                    out.insert((p, s, id));
                }
            }
        }
    }
    out
}

fn traced(dance: &Dance) -> Trace {
    let report = Report { dance: dance.clone(), findings: Vec::new(), unread: Vec::new() };
    trace(&report, "", "")
}

/// Whether two traces say the same of feet, facings, head, tags and restarts.
fn same(a: &Trace, b: &Trace) -> bool {
    let plain = |t: &Trace| Trace { figures: Vec::new(), ..t.clone() };
    plain(a) == plain(b)
}

/// All that is needed to print.
struct Print<'a> {
    text: &'a str,
    sheet: &'a Sheet,
    reading: &'a Reading,
    /// The dance as printed, perhaps mirrored.
    dance: &'a Dance,
    named: bool,
    passed: bool,
    mirror: bool,
    /// Figures that are not named: part, section and figure.
    silent: BTreeSet<(usize, usize, u16)>,
}

/// A remark with its place in the old text.
struct Note {
    start: u32,
    words: String,
}

impl Print<'_> {
    fn all(&self) -> String {
        let mut notes = self.notes();
        notes.reverse();
        let mut out = Vec::new();
        head::print(&mut out, self.dance);
        // Remarks at the head stand under it.
        let body = self.body_start();
        let mut said = head::leftover(self.text, self.sheet, body);
        said.extend(flush(&mut notes, body));
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
            out.extend(passed.filter_map(|t| note(self.text, t.span)));
        }
        out.sort_by_key(|n| n.start);
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
                out.push("ENDING".into());
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
            for (start, line) in lines::print(&lines, &clocks) {
                if start != u32::MAX {
                    out.extend(flush(notes, start).iter().map(|n| self.note(n)));
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
        out.sort_by_key(|c| c.0);
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
        let mut out = part.name.to_uppercase();
        out.push_str(&format!(" ({counts} counts)"));
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
                Some(n) if k == 0 => out.push_str(&format!("after count {n} of wall {}", t.wall)),
                _ if k == 0 => out.push_str(&format!("after wall {}", t.wall)),
                _ => out.push_str(&format!("wall {}", t.wall)),
            }
            if let Some((h, _)) = t.stated {
                out.push_str(&format!(" ({h})"));
            }
        }
        if uses.iter().any(|t| t.then_restart) {
            out.push_str(", then restart");
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
                line.push_str(&format!(" ({h})"));
            }
            if r.changed.is_some() {
                // Steps that change are said in the writer's own words.
                let own = r.span.of(self.text).lines().map(str::trim).collect::<Vec<_>>().join(" ");
                line = self.said(&own);
            }
            out.push(line);
        }
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
        for m in self.sheet.mentions.iter().filter(|m| m.topic == sheet::Topic::Ending) {
            if !spans.iter().any(|s| s.start <= m.span.start && m.span.end <= s.end) {
                spans.push(m.span);
            }
        }
        spans.sort_by_key(|s| s.start);
        for span in spans {
            out.push(String::new());
            let words = span.of(self.text).lines().map(str::trim).filter(|l| !l.is_empty());
            out.extend(words.map(|l| self.said(l)));
        }
    }
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
