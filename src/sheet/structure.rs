//! Lines to parts and sections.
//!
//! First every line gets a role from what stands in it and around it, then the lines are put together in order.

use super::chunks::{add, marks};
use super::head::SheetHead;
use super::labels::{Label, label};
use super::lines::{Line, lines};
use super::mentions::{Mention, Topic, mention};
use super::own::{Definition, definitions};
use super::typos::mend;
use super::vocabulary::{Vocabulary, W};
use super::words::{Kind, Token, acts};
use super::{OwnFigure, PartText, SectionText, Sheet, Slots};
use crate::dance::PartKind;
use crate::text::Span;

/// What a line is for.
#[derive(Debug, Clone, PartialEq)]
enum Role {
    Blank,
    Head,
    /// A heading; the label may be missing.
    Heading(Option<Label>),
    /// Steps from this token on; the flag says that the line goes on from the one before.
    Steps(usize, bool),
    /// Speaks of a tag, a restart or an ending.
    Extra(Topic),
    Note,
    Sequence,
    /// Defines a figure of the sheet's own.
    Own,
}

/// What kind of sheet it is, by its lines.
#[derive(Debug, Clone, Copy, Default)]
struct Manner {
    /// Lines with counts before the words.
    leading: usize,
    /// Lines with counts behind the words.
    behind: usize,
    /// Numbered lines `1.` that are counts, not sections.
    numbers_are_counts: bool,
    /// Numbered lines that only list what runs on through the dance.
    numbers_are_bullets: bool,
}

impl Manner {
    fn counted(self) -> bool {
        self.leading + self.behind >= 3
    }
}

struct Reading<'t> {
    text: &'t str,
    lines: Vec<Line>,
    labels: Vec<Option<Label>>,
    lead: Vec<bool>,
    behind: Vec<bool>,
    manner: Manner,
    own: Vec<Definition>,
}

/// Whether tokens say something to do: a verb, a figure, a place, a repeat.
fn doing(t: &[Token]) -> bool {
    t.iter().any(|t| match t.kind {
        Kind::Name(_) | Kind::Feet | Kind::Fraction(_) => true,
        Kind::W(w) => {
            acts(w)
                || matches!(
                    w,
                    W::Same
                        | W::Repeat
                        | W::Side
                        | W::Forward
                        | W::Back
                        | W::Behind
                        | W::Across
                        | W::Heel
                        | W::Toe
                        | W::R
                        | W::L
                        | W::RF
                        | W::LF
                        | W::Out
                        | W::In
                        | W::Beside
                        | W::Home
                        | W::Knee
                        | W::Hip
                        | W::Again
                )
        }
        _ => false,
    })
}

fn has(t: &[Token], w: W) -> bool {
    t.iter().any(|t| t.is(w))
}

/// Reads the structure of a sheet.
#[must_use]
pub fn parse(text: &str, vocabulary: &Vocabulary) -> Sheet {
    let mut lines = lines(text, vocabulary);
    let mut typos = Vec::new();
    for line in &mut lines {
        // Titles and letters are full of words that are no steps.
        if line.verbs >= 1 {
            mend(text, &mut line.tokens, vocabulary, &mut typos);
        }
    }
    let labels: Vec<Option<Label>> = lines.iter().map(|l| label(text, l)).collect();
    let mut reading = Reading {
        text,
        lead: vec![false; lines.len()],
        behind: vec![false; lines.len()],
        labels,
        lines,
        manner: Manner::default(),
        own: Vec::new(),
    };
    reading.own = definitions(text, &reading.lines);
    reading.survey();
    let roles = reading.roles();
    let mut sheet = reading.build(&roles);
    typos.retain(|t| {
        sheet.parts.iter().flat_map(|p| &p.sections).any(|s| s.tokens.iter().any(|k| k.span == t.span))
    });
    sheet.typos = typos;
    sheet
}

impl Reading<'_> {
    /// Finds out how the writer gives counts.
    fn survey(&mut self) {
        let mut numbered: Vec<u32> = Vec::new();
        for (i, line) in self.lines.iter().enumerate() {
            if let Some(l) = &self.labels[i]
                && !l.certain
                && let Some(n) = l.number
                && matches!(line.tokens.get(line.first).map(|t| t.kind), Some(Kind::Number(_)))
            {
                numbered.push(n);
            }
        }
        self.letters();
        // Numbers that begin again, or that run past eight, are counts.
        let resets = numbered.windows(2).filter(|w| w[1] <= w[0]).count();
        self.manner.numbers_are_counts =
            resets >= 1 && numbered.len() >= 8 || numbered.iter().any(|n| *n > 12) || numbered.len() > 12;
        // Where sections are labelled by a word, bare numbers are counts.
        let labelled = self.labels.iter().zip(&self.lines).filter(|(l, line)| {
            l.as_ref().is_some_and(|l| l.certain && l.number.is_some())
                && line.tokens.get(line.first).is_some_and(|t| section_named(self.text, t))
        });
        let numerals = self.labels.iter().flatten().filter(|l| l.certain && l.number.is_some()).count();
        self.manner.numbers_are_counts |= labelled.count() >= 1 || numerals >= 3;
        for (i, line) in self.lines.iter().enumerate() {
            if line.empty() {
                continue;
            }
            let numbered_section = self.labels[i]
                .as_ref()
                .is_some_and(|l| l.range.is_none() && (l.certain || !self.manner.numbers_are_counts));
            if !numbered_section && let Some(m) = line.leading(self.text) {
                let rest = &line.tokens[m.to.min(line.tokens.len())..];
                let whole = self.labels[i].as_ref().is_some_and(|l| l.range.is_some());
                if doing(rest) && !whole && !head_like(self.text, rest) {
                    self.lead[i] = true;
                    self.manner.leading += 1;
                }
            }
        }
        self.manner.numbers_are_bullets = self.bullets();
        for d in &self.own {
            for i in d.lines.0..d.lines.1 {
                self.lead[i] = false;
            }
        }
        let leading = self.manner.leading;
        for (i, line) in self.lines.iter().enumerate() {
            if line.empty() || self.lead[i] || self.defines(i) {
                continue;
            }
            let from = self.labels[i].as_ref().map_or(line.first, |l| l.to);
            let m = marks(self.text, line, from, leading < 3);
            if m.iter().any(|p| p.behind)
                && !head_like(self.text, &line.tokens)
                && line.verbs + u32::from(doing(&line.tokens)) >= 1
                && line.step_words * 5 >= line.words * 2
            {
                self.behind[i] = true;
                self.manner.behind += 1;
            }
        }
    }

    /// Lines that begin with A, B, C ... in order are labelled so, even without a sign behind the letter.
    fn letters(&mut self) {
        let lettered: Vec<(usize, char)> = self
            .lines
            .iter()
            .enumerate()
            .filter_map(|(i, l)| {
                let t = l.tokens.get(l.first)?;
                let word = t.span.of(self.text);
                let c = word.chars().next().filter(|c| word.len() == 1 && ('A'..='H').contains(c))?;
                (l.tokens.get(l.first + 1)?.gap > 0).then_some((i, c))
            })
            .collect();
        let rising = lettered.len() >= 3
            && lettered.iter().enumerate().all(|(n, (_, c))| usize::from(*c as u8 - b'A') == n);
        if rising {
            for (i, c) in lettered {
                let to = self.lines[i].first + 1;
                self.labels[i].get_or_insert(Label {
                    to,
                    number: None,
                    range: None,
                    certain: true,
                    letter: Some(c),
                    part: false,
                });
            }
        }
    }

    /// Whether the numbered lines have counts behind them that run on from line to line, a few to each.
    fn bullets(&self) -> bool {
        let mut last = 0;
        let mut lines = 0;
        for (i, line) in self.lines.iter().enumerate() {
            let Some(l) = self.labels[i].as_ref().filter(|l| !l.certain) else { continue };
            let m = marks(self.text, line, l.to, true);
            let Some(p) = m.iter().find(|p| p.behind && !p.total) else { continue };
            if last > 0 && (p.mark.first() <= last || p.mark.last() - p.mark.first() >= 6) {
                return false;
            }
            last = p.mark.last();
            lines += 1;
        }
        lines >= 3 && last > 8
    }

    /// Whether a line belongs to the definition of a figure.
    fn defines(&self, i: usize) -> bool {
        self.own.iter().any(|d| (d.lines.0..d.lines.1).contains(&i))
    }

    fn keyword(&self, i: usize) -> Option<Topic> {
        let line = &self.lines[i];
        let from =
            self.labels[i].as_ref().filter(|l| l.certain).map_or(line.first, |l| l.to.min(line.tokens.len()));
        let t = &line.tokens;
        let early = &t[from.min(t.len())..(from + 4).min(t.len())];
        if early.iter().take(3).any(|t| t.is(W::Tag)) && !has(early, W::No) {
            return Some(Topic::Tag);
        }
        if early.iter().take(3).any(|t| t.is(W::Restart)) && !has(early, W::No) {
            return Some(Topic::Restart);
        }
        let first = early.first()?;
        let word = first.span.of(self.text).to_lowercase();
        if (first.is(W::End) || word == "final" || word == "fin")
            && t.get(from + 1).is_some_and(|t| {
                t.sign(':')
                    || t.sign('(')
                    || t.sign(',')
                    || t.sign('-')
                    || t.is(W::Wall)
                    || t.sign('.')
                    || t.is(W::Option)
            })
            || (first.is(W::End) && line.tokens.len() <= from + 2)
        {
            return Some(Topic::Ending);
        }
        if self.labels[i].as_ref().is_some_and(|l| l.certain) {
            return None;
        }
        if has(t, W::No) && (has(t, W::Tag) || has(t, W::Restart)) && !has(t, W::Wall) {
            return None;
        }
        let wall = has(t, W::Wall)
            || t.iter().any(|t| matches!(t.span.of(self.text).to_lowercase().as_str(), "round" | "time"))
            || t.windows(2).any(|w| {
                w[0].span.of(self.text).eq_ignore_ascii_case("w")
                    && matches!(w[1].kind, Kind::Number(_))
                    && w[1].gap == 0
            });
        if wall && (has(t, W::Tag) && !self.lead[i]) {
            return Some(Topic::Tag);
        }
        if wall && (has(t, W::Restart) || from_the_top(self.text, t)) && !self.lead[i] && !self.behind[i] {
            return Some(Topic::Restart);
        }
        // "EXTRA BIT (6) at the end of walls 2 and 4"
        if has(t, W::Wall)
            && has(t, W::End)
            && !self.lead[i]
            && t.iter()
                .any(|t| matches!(t.span.of(self.text).to_lowercase().as_str(), "extra" | "add" | "added"))
        {
            return Some(Topic::Tag);
        }
        if (has(t, W::Restart) || has(t, W::Tag)) && !self.lead[i] && !self.behind[i] {
            // A bare mark in the body: "*** RESTART ***".
            let topic = if has(t, W::Tag) { Topic::Tag } else { Topic::Restart };
            return Some(topic);
        }
        None
    }

    fn next_full(&self, i: usize) -> Option<usize> {
        (i + 1..self.lines.len()).find(|j| !self.lines[*j].empty())
    }

    fn steps_line(&self, i: usize) -> bool {
        self.lead[i] || self.behind[i]
    }

    /// Whether this line's label and the lines after it make it a heading.
    fn headed(&self, i: usize) -> bool {
        let Some(l) = &self.labels[i] else { return false };
        let line = &self.lines[i];
        if l.range.is_some() {
            return true;
        }
        if !l.certain && (self.manner.numbers_are_counts || self.manner.numbers_are_bullets || self.lead[i]) {
            return false;
        }
        let _ = line;
        true
    }

    fn first_body(&self) -> usize {
        let n = self.lines.len();
        for i in 0..n {
            let line = &self.lines[i];
            if line.empty() || self.defines(i) {
                continue;
            }
            if self.steps_line(i) {
                // A heading without a label may stand right above.
                return self.heading_above(i).unwrap_or(i);
            }
            if self.headed(i) && i > 0 && !head_like(self.text, &line.tokens) {
                let near = self.next_full(i).is_some_and(|j| {
                    self.steps_line(j) || self.lines[j].stepful() || self.lines[i].stepful()
                });
                if near {
                    return i;
                }
            }
            if !self.manner.counted()
                && i > 0
                && line.stepful()
                && line.verbs >= 2
                && !head_like(self.text, &line.tokens)
            {
                return self.heading_above(i).unwrap_or(i);
            }
        }
        n
    }

    fn heading_above(&self, i: usize) -> Option<usize> {
        let above = i
            .checked_sub(1)
            .filter(|j| !self.lines[*j].empty())
            .or_else(|| i.checked_sub(2).filter(|j| !self.lines[*j].empty() && self.lines[i - 1].empty()))?;
        let line = &self.lines[above];
        let direct = above + 1 == i;
        let plain = !head_like(self.text, &line.tokens) && self.keyword(above).is_none() && above > 0;
        if plain && (self.headed(above) || (direct && line.after_gap && (line.stepful() || line.words <= 6)))
        {
            Some(above)
        } else {
            None
        }
    }

    fn roles(&self) -> Vec<Role> {
        let body = self.first_body();
        let mut out: Vec<Role> = Vec::with_capacity(self.lines.len());
        let mut extra: Option<Topic> = None;
        for i in 0..self.lines.len() {
            let line = &self.lines[i];
            let role = if line.empty() {
                Role::Blank
            } else if self.defines(i) {
                Role::Own
            } else if i < body {
                match self.keyword(i) {
                    _ if sequence_line(self.text, &line.tokens) => Role::Sequence,
                    Some(topic) if has(&line.tokens, W::Wall) || has(&line.tokens, W::After) => {
                        Role::Extra(topic)
                    }
                    _ => Role::Head,
                }
            } else {
                {
                    let above = out.last().cloned().unwrap_or(Role::Blank);
                    let last = out
                        .iter()
                        .rev()
                        .find(|r| !matches!(r, Role::Blank | Role::Note))
                        .cloned()
                        .unwrap_or(Role::Blank);
                    self.body_role(i, &above, &last, extra)
                }
            };
            match &role {
                Role::Extra(topic) => extra = Some(*topic),
                Role::Heading(_) => extra = None,
                Role::Blank | Role::Steps(..) | Role::Note => {}
                _ => {}
            }
            out.push(role);
        }
        out
    }

    fn body_role(&self, i: usize, above: &Role, last: &Role, extra: Option<Topic>) -> Role {
        let line = &self.lines[i];
        let t = &line.tokens;
        if let Some(topic) = self.keyword(i)
            && !self.lead[i]
        {
            return Role::Extra(topic);
        }
        if sequence_line(self.text, t) {
            return Role::Sequence;
        }
        if self.lead[i] {
            if self.range_heading(i) {
                return Role::Heading(self.labels[i].clone());
            }
            return Role::Steps(line.first, false);
        }
        if self.headed(i) {
            return Role::Heading(self.labels[i].clone());
        }
        if remark_line(self.text, line) && !self.behind[i] {
            return Role::Note;
        }
        let next = self.next_full(i);
        let above_steps = matches!(above, Role::Steps(..));
        if self.behind[i] && self.total_heading(i, next) {
            return Role::Heading(self.labels[i].clone());
        }
        if self.behind[i] {
            let open = above_steps && !self.behind[i - 1] && !self.lead[i - 1];
            let lower = starts_lower(self.text, line);
            let joins = above_steps && lower || open && line.indent > self.lines[i - 1].indent;
            let from = if self.manner.numbers_are_bullets {
                self.labels[i].as_ref().map_or(line.first, |l| l.to)
            } else {
                line.first
            };
            return Role::Steps(from, joins);
        }
        let next_steps = next.is_some_and(|j| self.steps_line(j));
        if self.manner.counted() {
            // A line without counts among counted ones.
            let next_joins = next == Some(i + 1)
                && self.behind[i + 1]
                && (self.lines[i + 1].indent > line.indent || starts_lower(self.text, &self.lines[i + 1]));
            if next_joins && (line.stepful() || !line.after_gap) {
                if self.manner.numbers_are_bullets
                    && let Some(l) = &self.labels[i]
                {
                    return Role::Steps(l.to, false);
                }
                let open = above_steps && !self.steps_line(i - 1) && !line.after_gap;
                return Role::Steps(line.first, open && starts_lower(self.text, line));
            }
            if above_steps
                && !line.after_gap
                && (line.indent > self.lines[i - 1].indent
                    || starts_lower(self.text, line)
                    || self.lines[i - 1].bullet && !line.bullet)
                && doing(t)
                && line.step_words * 3 >= line.words
            {
                return Role::Steps(line.first, true);
            }
            if extra == Some(Topic::Tag) && line.stepful() && !has(t, W::Wall) {
                return Role::Steps(line.first, false);
            }
            let short = line.words <= 14;
            if matches!(last, Role::Heading(_)) && line.stepful() && !line.capitals {
                // Right under a heading: the steps themselves, or more of the heading.
                let more = next_steps && self.manner.leading >= self.manner.behind;
                return if more { Role::Note } else { Role::Steps(line.first, false) };
            }
            let next_like =
                next.is_some_and(|j| (self.steps_line(j) || self.plain_steps(j)) && !self.range_heading(j));
            let apart = line.after_gap || line.capitals || (line.stepful() && !above_steps);
            let labelled = self.labels.iter().flatten().filter(|l| l.certain).count() >= 2;
            if next_like
                && short
                && apart
                && !labelled
                && (extra.is_none() || line.after_gap && self.manner.leading > 0)
            {
                return Role::Heading(None);
            }
            if self.plain_steps(i) {
                return Role::Steps(line.first, false);
            }
            return Role::Note;
        }
        if line.stepful()
            && !(line.capitals && next.is_some_and(|j| self.lines[j].stepful() && !self.lines[j].capitals))
        {
            let joins = above_steps
                && !line.after_gap
                && line.indent > self.lines[i - 1].indent
                && starts_lower(self.text, line);
            return Role::Steps(line.first, joins);
        }
        if next.is_some_and(|j| self.lines[j].stepful() || self.steps_line(j))
            && line.words <= 8
            && (line.after_gap || line.capitals)
        {
            return Role::Heading(None);
        }
        Role::Note
    }

    /// "WALKS (8)" above the lines that make up the eight counts.
    fn total_heading(&self, i: usize, next: Option<usize>) -> bool {
        let line = &self.lines[i];
        let m = marks(self.text, line, line.first, true);
        let only = m.len() == 1 && m[0].total && m[0].mark.to >= line.tokens.len();
        let feet =
            line.tokens.iter().any(|t| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF)) || t.sign(','));
        let below = next.is_some_and(|j| {
            j == i + 1 && !self.lines[j].capitals && (self.behind[j] || self.lines[j].stepful())
        });
        only && below
            && !line.bullet
            && (line.capitals || (!feet && line.words <= 4 && self.lines[i + 1].bullet))
    }

    /// A line of steps without counts, in a sheet whose other counts stand behind the words.
    fn plain_steps(&self, i: usize) -> bool {
        let line = &self.lines[i];
        line.stepful()
            && line.verbs >= 2
            && !has(&line.tokens, W::Wall)
            && (line.bullet || self.manner.behind > self.manner.leading)
    }

    /// "1-8 Side, behind, chasse" above lines with the counts 1-2, 3&4 is a heading.
    fn range_heading(&self, i: usize) -> bool {
        let Some(m) = self.lines[i].leading(self.text) else { return false };
        if !m.range || m.ticks.len() < 6 {
            return false;
        }
        let Some(j) = self.next_full(i) else { return false };
        if self.behind[j] {
            // "1-8 TOE STRUTS" above "right toe forward (1), ..."
            let inner = marks(self.text, &self.lines[j], self.lines[j].first, true);
            return inner
                .first()
                .is_some_and(|p| !p.total && p.mark.first() == m.first() && p.mark.last() < m.last());
        }
        let Some(next) = self.lines[j].leading(self.text).filter(|_| self.lead[j]) else { return false };
        next.first() == m.first() && next.last() < m.last()
            || (next.first() == 1 && next.last() < m.last() - m.first() + 1)
    }
}

/// "Section", "set", "block": a word that labels a section.
fn section_named(text: &str, t: &Token) -> bool {
    t.is(W::Section)
        || matches!(
            t.span.of(text).to_lowercase().as_str(),
            "set" | "block" | "sektion" | "seccion" | "section:"
        )
}

fn starts_lower(text: &str, line: &Line) -> bool {
    line.span
        .of(text)
        .trim_start_matches(|c: char| !c.is_alphanumeric())
        .chars()
        .next()
        .is_some_and(char::is_lowercase)
}

/// "Start again from the top", "go back to the beginning", "break off".
fn from_the_top(text: &str, t: &[Token]) -> bool {
    let again = has(t, W::Again)
        || t.iter()
            .any(|t| matches!(t.span.of(text).to_lowercase().as_str(), "top" | "beginning" | "off" | "over"));
    let start = t.iter().any(|t| {
        let w = t.span.of(text).to_lowercase();
        w.starts_with("start") || w.starts_with("begin") || w == "go" || w == "back" || w == "break"
    });
    let back_to = t.windows(2).any(|w| w[0].is(W::Back) && w[1].is(W::To)) && t.iter().any(|t| t.is(W::Make));
    (again && start) || back_to
}

/// Lines of the head: a number of counts or walls, music, level, author.
fn head_like(_text: &str, t: &[Token]) -> bool {
    let wall = t
        .windows(2)
        .any(|w| matches!(w[0].kind, Kind::Number(_) | Kind::W(W::Two | W::Four)) && w[1].is(W::Wall));
    wall && (has(t, W::Count)
        || t.iter()
            .any(|t| matches!(t.kind, Kind::W(W::Beginner | W::Improver | W::Intermediate | W::Advanced))))
        || has(t, W::Music)
        || has(t, W::Choreographer)
        || has(t, W::Intro)
        || has(t, W::Bpm)
        || has(t, W::Level)
        || t.first().is_some_and(|t| t.is(W::Count) || t.is(W::Wall))
}

/// Options, styling and notes change nothing.
fn remark_line(text: &str, line: &Line) -> bool {
    let Some(first) = line.tokens.get(line.first) else { return false };
    let first = if matches!(first.kind, Kind::Sign(_)) {
        line.tokens.get(line.first + 1).unwrap_or(first)
    } else {
        first
    };
    let word = first.span.of(text).to_lowercase();
    matches!(
        word.as_str(),
        "mind" | "beware" | "attention" | "careful" | "watch" | "please" | "caution" | "careful:"
    ) || matches!(
        first.kind,
        Kind::W(W::Option | W::Note | W::Enjoy | W::Music | W::Choreographer | W::Level)
    )
}

/// "Sequence: A A B, A A B, Tag, A, B B".
fn sequence_line(text: &str, t: &[Token]) -> bool {
    let letters = t
        .iter()
        .filter(|t| {
            let w = t.span.of(text);
            w.len() == 1 && w.chars().all(|c| ('A'..='F').contains(&c))
                || (w.len() > 2 && w.chars().all(|c| ('A'..='C').contains(&c)))
        })
        .count();
    let other = t.iter().filter(|t| !matches!(t.kind, Kind::Sign(_))).count();
    letters >= 3 && letters * 2 >= other
        || (letters >= 1
            && t.iter().any(|t| {
                t.span.of(text).to_lowercase().starts_with("sequence")
                    || t.span.of(text).to_lowercase() == "order"
            })
            && letters * 3 >= other)
}

struct Build<'r, 't> {
    r: &'r Reading<'t>,
    parts: Vec<PartText>,
    mentions: Vec<Mention>,
    notes: Vec<Span>,
    own: Vec<OwnFigure>,
    sequence: Vec<String>,
    head: SheetHead,
    /// The section that step lines go to: part and section.
    here: Option<(usize, usize)>,
    /// Words of the tag or ending whose steps come next.
    extra: Option<(Topic, Vec<Token>, Span)>,
    /// Section of a tag that is open.
    in_tag: bool,
    /// The last count read, in the sheet's numbering.
    last_count: i32,
}

impl Reading<'_> {
    fn build(&self, roles: &[Role]) -> Sheet {
        let mut b = Build {
            r: self,
            parts: vec![PartText {
                kind: PartKind::Main,
                name: "main".into(),
                sections: Vec::new(),
                divided: false,
                mention: None,
                span: Span::default(),
            }],
            mentions: Vec::new(),
            notes: Vec::new(),
            own: Vec::new(),
            sequence: Vec::new(),
            head: SheetHead::default(),
            here: None,
            extra: None,
            in_tag: false,
            last_count: 0,
        };
        let phrased = roles.contains(&Role::Sequence)
            || self.lines.iter().any(|l| l.span.of(self.text).to_lowercase().contains("phrased"));
        b.title(roles);
        b.definitions();
        for (i, role) in roles.iter().enumerate() {
            b.line(i, role, roles, phrased);
        }
        b.finish_extra();
        b.fill_head(roles);
        b.bases();
        Sheet {
            head: b.head,
            parts: b.parts,
            mentions: b.mentions,
            sequence: b.sequence,
            own: b.own,
            typos: Vec::new(),
            notes: b.notes,
        }
    }
}

impl Build<'_, '_> {
    fn text(&self) -> &str {
        self.r.text
    }

    fn definitions(&mut self) {
        for d in &self.r.own {
            let mut section = SectionText { span: d.span, ..SectionText::default() };
            for i in d.lines.0..d.lines.1 {
                let line = &self.r.lines[i];
                let from = if i == d.lines.0 { d.from } else { line.first };
                let mut rest = line.clone();
                rest.first = from;
                add(self.r.text, &mut section, &rest, from, false, i > d.lines.0);
            }
            self.own.push(OwnFigure { name: d.name.clone(), span: d.span, section });
        }
    }

    fn title(&mut self, roles: &[Role]) {
        for (i, line) in self.r.lines.iter().enumerate() {
            if line.tokens.iter().all(|t| matches!(t.kind, Kind::Sign(_))) {
                continue;
            }
            if roles[i] == Role::Head {
                let t = &line.tokens;
                let last = t
                    .iter()
                    .rposition(|t| !matches!(t.kind, Kind::Sign('*' | '~' | '_' | '=' | '-' | '#' | '"')))
                    .unwrap_or(t.len() - 1);
                self.head.title = t[line.first.min(last)].span.join(t[last].span);
            }
            break;
        }
    }

    fn fill_head(&mut self, roles: &[Role]) {
        for (i, role) in roles.iter().enumerate() {
            let line = &self.r.lines[i];
            // "Part A .... 32 counts" is not the whole dance.
            let of_part = line.tokens.get(line.first).is_some_and(|t| t.is(W::Set))
                && line.tokens.get(line.first + 1).is_some_and(|t| t.span.range().len() == 1);
            if matches!(role, Role::Head) && !of_part {
                self.head.line(self.r.text, line);
            }
        }
        // A waltz may be named only in its sections.
        let waltz = self.r.lines.iter().any(|l| has(&l.tokens, W::Waltz));
        if waltz && self.head.counts.is_none_or(|(n, _)| n % 8 != 0 && n % 3 == 0) {
            self.head.waltz = true;
        }
        // What the head leaves out may stand in a remark or in what is said of restarts.
        let later: Vec<usize> = (0..roles.len()).filter(|i| matches!(roles[*i], Role::Note)).collect();
        for i in later {
            let known = self.head.counts.is_some();
            if !known || self.head.walls.is_none() || self.head.lead.is_none() {
                self.head.line(self.r.text, &self.r.lines[i]);
            }
        }
    }

    fn line(&mut self, i: usize, role: &Role, roles: &[Role], phrased: bool) {
        let line = &self.r.lines[i];
        match role {
            Role::Blank => {}
            Role::Head => {}
            Role::Note => {
                if let Some((_, t, span)) = &mut self.extra
                    && !line.after_gap
                {
                    t.push(newline(line));
                    t.extend_from_slice(&line.tokens);
                    *span = span.join(line.span);
                } else {
                    self.notes.push(line.span);
                }
            }
            Role::Sequence => self.sequence(line),
            Role::Own => {}
            Role::Extra(topic) => self.start_extra(i, *topic, roles),
            Role::Heading(l) => {
                let inline = self.inline_steps(i, l.as_ref(), roles);
                self.finish_extra();
                self.heading(line, l.as_ref(), phrased, inline);
                if inline && let Some((p, n)) = self.here.filter(|(_, n)| *n != usize::MAX) {
                    self.parts[p].sections[n].counts = None;
                }
                if inline {
                    let from = l.as_ref().map_or(line.first, |l| l.to);
                    self.steps(i, from, false);
                }
            }
            Role::Steps(from, joins) => self.steps(i, *from, *joins),
        }
    }

    /// Whether a labelled line holds the steps themselves, not only their names.
    fn inline_steps(&self, i: usize, l: Option<&Label>, roles: &[Role]) -> bool {
        let Some(l) = l else { return false };
        let line = &self.r.lines[i];
        let rest = &line.tokens[l.to.min(line.tokens.len())..];
        if !doing(rest) {
            return false;
        }
        let next = (i + 1..roles.len()).find(|j| !matches!(roles[*j], Role::Blank | Role::Note));
        let alone = next.is_none_or(|j| !matches!(roles[j], Role::Steps(..)));
        if alone {
            return true;
        }
        let own = marks(self.r.text, line, l.to, false);
        if own.first().is_some_and(|p| !p.behind) {
            return true;
        }
        let (Some(own), Some(j)) = (own.last(), next) else { return false };
        if own.behind && own.total {
            // A number of counts is the heading's where the lines below make it up.
            let below: i32 = (j..roles.len())
                .take_while(|k| matches!(roles[*k], Role::Steps(..) | Role::Note))
                .flat_map(|k| marks(self.r.text, &self.r.lines[k], self.r.lines[k].first, true))
                .map(|p| if p.total { p.mark.last() } else { 0 })
                .sum();
            return below > 0
                && (below != own.mark.last() || own.mark.last() < 6)
                && line.stepful()
                && !line.capitals;
        }
        if !own.behind {
            return false;
        }
        let from = self.r.lines[j].first;
        let after = marks(self.r.text, &self.r.lines[j], from, false);
        after.first().is_some_and(|p| p.mark.first() == own.mark.last() + 1)
    }

    fn heading(&mut self, line: &Line, l: Option<&Label>, phrased: bool, inline: bool) {
        let from = l.map_or(line.first, |l| l.to.min(line.tokens.len()));
        self.in_tag = false;
        if let Some(l) = l
            && phrased
            && l.letter.is_some()
            && (l.part || l.number.is_none())
        {
            let name = l.letter.unwrap_or('A').to_ascii_uppercase().to_string();
            let fresh = self.parts.len() == 1 && self.parts[0].sections.is_empty();
            if fresh {
                self.parts[0].name = name;
            } else if self.parts.iter().all(|p| p.name != name) {
                self.parts.push(PartText {
                    kind: PartKind::Main,
                    name,
                    sections: Vec::new(),
                    divided: false,
                    mention: None,
                    span: line.span,
                });
            }
            let part = self.parts.iter().rposition(|p| p.kind == PartKind::Main).unwrap_or(0);
            self.here = None;
            self.last_count = 0;
            if doing(&line.tokens[from..]) || inline {
                self.open(part, line, Some(l), from);
            } else {
                self.here = Some((part, usize::MAX));
            }
            return;
        }
        let part = match self.here {
            Some((p, _)) if self.parts[p].kind == PartKind::Main => p,
            _ => self.parts.iter().rposition(|p| p.kind == PartKind::Main).unwrap_or(0),
        };
        self.parts[part].divided = true;
        self.open(part, line, l, from);
    }

    fn open(&mut self, part: usize, line: &Line, l: Option<&Label>, from: usize) {
        let t = &line.tokens;
        let name = t.get(from).map_or(Span::default(), |f| f.span.join(t[t.len() - 1].span));
        let mut section =
            SectionText { number: l.and_then(|l| l.number), name, span: line.span, ..SectionText::default() };
        section.heading = t[from.min(t.len())..].to_vec();
        if let Some((a, b)) = l.and_then(|l| l.range) {
            section.first = Some(a);
            section.counts = Some((u32::try_from(b - a + 1).unwrap_or(0), line.span));
        }
        for (k, token) in t.iter().enumerate().skip(from) {
            if let Kind::Number(n) = token.kind {
                if t.get(k + 1).is_some_and(|t| t.is(W::Count)) && section.counts.is_none() && n >= 2 {
                    section.counts = Some((n, token.span));
                }
                let closes =
                    t.get(k + 1).is_some_and(|t| matches!(t.kind, Kind::Sign(')' | ']'))) && k + 2 >= t.len();
                if closes
                    && k > 0
                    && matches!(t[k - 1].kind, Kind::Sign('(' | '['))
                    && n >= 4
                    && section.counts.is_none()
                {
                    section.counts = Some((n, token.span));
                }
                // "(1-8)" or "1-8" inside the heading
                if let (Some(Kind::Sign('-')), Some(Kind::Number(m))) =
                    (t.get(k + 1).map(|t| t.kind), t.get(k + 2).map(|t| t.kind))
                    && m > n + 2
                    && n % 2 == 1
                    && section.counts.is_none()
                {
                    section.counts = Some((m - n + 1, token.span.join(t[k + 2].span)));
                    section.first = i32::try_from(n).ok();
                }
            }
        }
        if self.parts[part].sections.is_empty() {
            self.parts[part].divided = true;
        }
        self.parts[part].sections.push(section);
        self.here = Some((part, self.parts[part].sections.len() - 1));
    }

    fn steps(&mut self, i: usize, mut from: usize, joins: bool) {
        let line = &self.r.lines[i];
        if self.extra.is_some() && !self.in_tag {
            let (topic, mut t, span) = self.extra.take().unwrap_or((Topic::Tag, Vec::new(), line.span));
            if topic == Topic::Restart {
                self.mention(topic, &t, span, None);
            } else {
                // "After wall 4: stomp R, clap": the wall stands before the steps.
                let said = line.tokens.get(from..).unwrap_or_default();
                if said.iter().any(|x| x.is(W::Wall))
                    && let Some(at) = inline_start(self.r.text, said)
                {
                    t.extend_from_slice(&said[..at]);
                    from += at;
                }
                self.open_tag(topic, &t, span);
            }
        }
        let first = line.leading(self.r.text).filter(|_| self.r.lead[i]).map(|m| (m.first(), m.last()));
        let behind = self.r.manner.behind >= self.r.manner.leading;
        let (part, section) = match self.here {
            Some((p, s)) if s != usize::MAX => (p, s),
            Some((p, _)) => {
                self.parts[p].sections.push(SectionText { span: line.span, ..SectionText::default() });
                (p, self.parts[p].sections.len() - 1)
            }
            None => {
                self.parts[0].sections.push(SectionText { span: line.span, ..SectionText::default() });
                (0, self.parts[0].sections.len() - 1)
            }
        };
        self.here = Some((part, section));
        // Counts that begin again begin a section, where no heading says so.
        let again = first.is_some_and(|(a, _)| a == 1 && self.last_count >= 4)
            && !self.parts[part].sections[section].chunks.is_empty();
        let block = !self.r.manner.counted()
            && line.after_gap
            && !self.in_tag
            && !self.parts[part].divided
            && !self.parts[part].sections[section].chunks.is_empty();
        let (part, section) = if (again && self.parts[part].kind == PartKind::Main) || block {
            self.parts[part].sections.push(SectionText { span: line.span, ..SectionText::default() });
            if again {
                self.parts[part].divided = true;
            }
            (part, self.parts[part].sections.len() - 1)
        } else {
            (part, section)
        };
        self.here = Some((part, section));
        let (line_steps, said) = self.cut_mention(i, from);
        add(self.r.text, &mut self.parts[part].sections[section], &line_steps, from, behind, joins);
        if let Some((_, b)) = first {
            self.last_count = b;
        } else if let Some(Slots::At { ticks, .. }) =
            self.parts[part].sections[section].chunks.last().map(|c| c.slots.clone())
        {
            self.last_count = ticks.last().map_or(0, |t| t.count());
        }
        if let Some((topic, t)) = said {
            let span = t.first().map_or(line.span, |f| f.span).join(t.last().map_or(line.span, |l| l.span));
            self.mention(topic, &t, span, Some((part, section)));
        }
    }

    /// A step line that also speaks of a restart or tag: the words about it are told apart.
    fn cut_mention(&self, i: usize, from: usize) -> (Line, Option<(Topic, Vec<Token>)>) {
        let line = &self.r.lines[i];
        let Some(at) = line
            .tokens
            .iter()
            .enumerate()
            .skip(from)
            .position(|(_, t)| t.is(W::Restart) || t.is(W::Tag))
            .map(|p| p + from)
        else {
            return (line.clone(), None);
        };
        let topic = if line.tokens[at].is(W::Tag) { Topic::Tag } else { Topic::Restart };
        // Back to the bracket, star or wide gap that opens the remark.
        let mut start = at;
        for k in (from..at).rev() {
            let t = &line.tokens[k];
            if matches!(
                t.kind,
                Kind::Sign('(' | '[' | '*' | '<' | '^' | '#' | '>' | '.' | ';' | ',' | '-' | '!')
            ) {
                start = k;
                if k > 0
                    && matches!(line.tokens[k - 1].kind, Kind::Sign('*' | '<' | '(' | '^' | '#' | '>' | '-'))
                {
                    continue;
                }
                break;
            }
            start = k;
            if t.gap == 2 || acts_at(&line.tokens, k) {
                if acts_at(&line.tokens, k) {
                    start = k + 1;
                }
                break;
            }
        }
        let mut rest = line.clone();
        let said = line.tokens[start..].to_vec();
        rest.tokens.truncate(start);
        (rest, Some((topic, said)))
    }

    fn start_extra(&mut self, i: usize, topic: Topic, roles: &[Role]) {
        self.finish_extra();
        let line = &self.r.lines[i];
        if self.here.is_none()
            && roles[i + 1..]
                .iter()
                .find(|r| !matches!(r, Role::Note))
                .is_none_or(|r| !matches!(r, Role::Steps(..)))
        {
            // In the head a tag or restart is only spoken of.
            for (topic, t) in split_topics(&line.tokens, topic) {
                self.mention(topic, &t, line.span, None);
            }
            return;
        }
        // "*** Restart here" between the step lines: it is about the count just read.
        self.in_tag = false;
        let t = split_topics(&line.tokens, topic);
        for (k, (topic, t)) in t.iter().enumerate() {
            let span = t.first().map_or(line.span, |f| f.span).join(t.last().map_or(line.span, |l| l.span));
            if k > 0 {
                self.finish_extra();
            }
            self.extra = Some((*topic, t.clone(), span));
        }
    }

    fn finish_extra(&mut self) {
        let Some((topic, t, span)) = self.extra.take() else { return };
        if self.in_tag {
            return;
        }
        if topic == Topic::Tag
            && let Some(at) = inline_start(self.r.text, &t)
        {
            let (said, steps) = t.split_at(at);
            let rest = Line {
                span,
                tokens: steps.to_vec(),
                indent: 0,
                after_gap: false,
                bullet: false,
                capitals: false,
                step_words: 0,
                verbs: 0,
                words: 0,
                first: 0,
                packed: false,
            };
            let saved = self.here;
            self.open_tag(topic, said, span);
            if let Some((p, s)) = self.here {
                add(self.r.text, &mut self.parts[p].sections[s], &rest, 0, true, false);
            }
            self.here = saved;
            self.in_tag = false;
            return;
        }
        let placed = self.here.filter(|(_, s)| *s != usize::MAX);
        self.mention(topic, &t, span, placed);
    }

    fn open_tag(&mut self, topic: Topic, t: &[Token], span: Span) {
        let m = mention(self.r.text, t, topic);
        let kind = if topic == Topic::Ending { PartKind::Ending } else { PartKind::Tag };
        let n = self.parts.iter().filter(|p| p.kind == PartKind::Tag).count() + 1;
        let name = if kind == PartKind::Ending {
            "ending".to_string()
        } else {
            format!("tag {}", m.number.map_or(n, |k| k as usize))
        };
        let mut m = m;
        m.placed = self
            .here
            .filter(|(p, s)| *s != usize::MAX && self.parts[*p].kind == PartKind::Main)
            .map(|(p, s)| (p, s, self.last_count));
        let counts = m.length.map(|n| (n, span));
        self.mentions.push(m.clone());
        self.parts.push(PartText {
            kind,
            name,
            sections: vec![SectionText { span, counts, ..SectionText::default() }],
            divided: true,
            mention: Some(m),
            span,
        });
        self.here = Some((self.parts.len() - 1, 0));
        self.in_tag = true;
        self.last_count = 0;
    }

    fn mention(&mut self, topic: Topic, t: &[Token], span: Span, placed: Option<(usize, usize)>) {
        let mut m = mention(self.r.text, t, topic);
        m.span = span;
        m.placed = placed
            .filter(|(p, _)| self.parts[*p].kind == PartKind::Main)
            .map(|(p, s)| (p, s, self.last_count));
        self.mentions.push(m);
    }

    fn sequence(&mut self, line: &Line) {
        for t in &line.tokens {
            let w = t.span.of(self.text());
            if t.is(W::Tag) {
                self.sequence.push("tag".into());
            } else if w.chars().all(|c| ('A'..='F').contains(&c)) {
                let names: Vec<String> = w.chars().map(|c| c.to_string()).collect();
                self.sequence.extend(names);
            }
        }
    }

    /// Numbers that run on through the dance become numbers of their section.
    fn bases(&mut self) {
        for part in &mut self.parts {
            let mut sum = 0;
            for section in &mut part.sections {
                let firsts: Vec<i32> = section
                    .chunks
                    .iter()
                    .filter_map(|c| match &c.slots {
                        Slots::At { ticks, .. } => {
                            ticks.iter().find(|t| t.0 > 0).map(|t| (t.0 + 23).div_euclid(24))
                        }
                        _ => None,
                    })
                    .collect();
                let first = firsts.iter().copied().min();
                let last = section
                    .chunks
                    .iter()
                    .filter_map(|c| match &c.slots {
                        Slots::At { ticks, .. } => ticks.last().map(|t| t.count()),
                        _ => None,
                    })
                    .max();
                section.base = match (first, section.first) {
                    (Some(f), Some(s)) if s > 1 && f >= s => s - 1,
                    (Some(f), _) if f > 1 && f - 1 == sum => sum,
                    (Some(f), _) if f > 1 && sum > 0 && (f - 1 - sum).abs() <= 2 => sum,
                    (Some(f), _) if f > 8 => f - 1,
                    _ => 0,
                };
                if section.base > 0 {
                    let shift = section.base * 24;
                    for c in &mut section.chunks {
                        if let Slots::At { ticks, .. } = &mut c.slots {
                            for t in ticks.iter_mut() {
                                t.0 -= shift;
                            }
                        }
                    }
                }
                let own = section.counts.map_or(0, |(n, _)| i32::try_from(n).unwrap_or(0));
                sum = if section.base > 0 || (section.base == 0 && sum == 0) {
                    last.map_or(section.base + own, |l| l.max(section.base + own))
                } else {
                    sum + last.unwrap_or(own).max(own)
                };
            }
        }
    }
}

fn acts_at(t: &[Token], k: usize) -> bool {
    matches!(t[k].kind, Kind::W(w) if acts(w)) || matches!(t[k].kind, Kind::Name(_))
}

fn newline(line: &Line) -> Token {
    let start = line.span.start as usize;
    Token { kind: Kind::Sign('\n'), span: Span::new(start, start), gap: 2 }
}

/// A line that speaks first of a tag and then of a restart, each with walls of its own.
fn split_topics(t: &[Token], topic: Topic) -> Vec<(Topic, Vec<Token>)> {
    let other = if topic == Topic::Tag { W::Restart } else { W::Tag };
    for i in 1..t.len() {
        let apart = t[i].gap == 2 || matches!(t[i - 1].kind, Kind::Sign(_));
        if t[i].is(other) && apart && has(&t[i..], W::Wall) && has(&t[..i], W::Wall) {
            let second = if topic == Topic::Tag { Topic::Restart } else { Topic::Tag };
            return vec![(topic, t[..i].to_vec()), (second, t[i..].to_vec())];
        }
    }
    vec![(topic, t.to_vec())]
}

/// Where the steps begin in the words about a tag: after a colon, a bracket or a full stop.
fn inline_start(text: &str, t: &[Token]) -> Option<usize> {
    for i in 1..t.len() {
        if !matches!(t[i - 1].kind, Kind::Sign(':' | '.' | ')' | '-' | ',' | '\n')) {
            continue;
        }
        let mut end = i;
        while end < t.len() && !(t[end].sign('.') || t[end].sign(',') && end >= i + 2) {
            end += 1;
        }
        let clause = &t[i..end];
        let steps = clause.iter().filter(|t| matches!(t.kind, Kind::Name(_) | Kind::Feet | Kind::Fraction(_)) || matches!(t.kind, Kind::W(w) if acts(w) || matches!(w, W::R | W::L | W::RF | W::LF | W::Forward | W::Back | W::Side | W::Behind | W::Beside | W::Heel | W::Toe | W::And))).count();
        let words = clause.iter().filter(|t| !matches!(t.kind, Kind::Sign(_) | Kind::Number(_))).count();
        let verbs = clause
            .iter()
            .filter(|t| matches!(t.kind, Kind::Name(_)) || matches!(t.kind, Kind::W(w) if acts(w)))
            .count();
        let structure = clause.iter().any(|t| {
            matches!(t.kind, Kind::W(W::Wall | W::Restart | W::Tag))
                || t.span.of(text).eq_ignore_ascii_case("top")
        });
        if verbs >= 1 && steps * 5 >= words * 3 && !structure {
            return Some(i);
        }
    }
    None
}
