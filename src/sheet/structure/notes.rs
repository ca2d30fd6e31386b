//! A teacher's notes: sections under nicknames, steps told in sentences, hardly a count but the length of a row.
//!
//! Nothing but the page divides such a sheet: the sign, number or place that its headings share. Every way of
//! heading that a page may have is tried, and the one whose sections fit the length of the dance divides it. What is
//! said between the steps is told apart sentence by sentence.

mod brackets;
pub(super) mod chat;
mod shapes;

use super::order::sequence_line;
use super::wording::{inline_start, starts_lower};
use super::{Kind, Label, Line, Reading, Span, Token, Told, Topic, W, definitions, label};
use crate::sheet::explained::explained;
use crate::sheet::lines::line_of;
use crate::sheet::pairs::pack;
use crate::sheet::vocabulary::Vocabulary;
use crate::sheet::words::tokens;
use crate::sheet::{own, unwrap};
use shapes::Cut;

/// Sheets with more lines that begin with counts tell them in another manner.
const MOST_COUNTED: usize = 2;

/// Lines shorter than this are ended on purpose.
const NARROW: usize = 50;

/// The page as it stands.
struct Page<'t> {
    text: &'t str,
    reading: Reading<'t>,
    /// Lines that speak of tags, restarts and endings, and those that go on with them.
    extra: Vec<Option<Topic>>,
    /// The line behind the paragraphs of the head.
    body: usize,
}

/// The lines of a text of this manner, with what each is for; nothing where it is none.
pub(super) fn lines(text: &str, vocabulary: &Vocabulary) -> Option<Vec<Line>> {
    let mut all: Vec<Line> = Vec::new();
    let mut gap = true;
    for range in unwrap::raw(text) {
        let t = explained(text, tokens(text, range.clone(), vocabulary));
        let line = line_of(text, Span::new(range.start, range.end), t, gap);
        gap = line.empty();
        all.push(line);
    }
    pack(text, &mut all);
    let counts =
        |l: &&Line| l.leading(text).is_some_and(|m| m.ticks.len() >= 2) && !l.tokens[l.first].sign('(');
    let counted = all.iter().filter(counts).filter(|l| l.step_words > 0).count();
    // Among such lines counts before words that nobody knows are counts all the same.
    let counted = if counted == MOST_COUNTED { all.iter().filter(counts).count() } else { counted };
    if counted > MOST_COUNTED || all.iter().any(|l| sequence_line(text, &l.tokens)) {
        return None;
    }
    let labels: Vec<Option<Label>> = all.iter().map(|l| label(text, l)).collect();
    let mut reading = Reading::new(text, all, labels);
    reading.own = definitions(text, &reading.lines);
    let n = reading.lines.len();
    let mut page = Page { text, reading, extra: vec![None; n], body: 0 };
    page.find_extras();
    page.body = page.find_body();
    let cuts = page.division()?;
    Some(page.put(&cuts))
}

impl Page<'_> {
    fn line(&self, i: usize) -> &Line {
        &self.reading.lines[i]
    }

    /// Finds the lines that speak of a tag, a restart or an ending, with the rest of their paragraphs.
    fn find_extras(&mut self) {
        let mut open: Option<Topic> = None;
        for i in 0..self.extra.len() {
            let line = self.line(i);
            if line.empty() || line.after_gap {
                open = None;
            }
            let said = self.reading.keyword(i).filter(|_| self.mentions(i));
            let goes_on = open.filter(|topic| {
                *topic != Topic::Restart || !line.stepful() || chat::conditional(self.text, &line.tokens)
            });
            open = said.or(goes_on);
            self.extra[i] = open;
        }
    }

    /// Whether a line is about a tag or a restart, not a line of steps with a word about it.
    fn mentions(&self, i: usize) -> bool {
        let line = self.line(i);
        let early = line.tokens.iter().skip(line.first).take(4);
        let mut early = early.filter(|t| t.is(W::Tag) || t.is(W::Restart) || t.is(W::End) || t.is(W::Wall));
        early.next().is_some() || !line.stepful()
    }

    /// The lines as they are read: the head as it stands, then headings, steps, and what is said besides.
    fn put(&self, cuts: &[Cut]) -> Vec<Line> {
        let mut out: Vec<Line> = self.reading.lines[..cuts[0].line].to_vec();
        let ends = brackets::ends(self, cuts);
        for (k, cut) in cuts.iter().enumerate() {
            let end = cuts.get(k + 1).map_or(self.extra.len(), |c| c.line);
            self.heading(cut, &mut out);
            let mut i = cut.line;
            // Behind what is said of a tag nothing goes on with the steps, unless another line stands beside it.
            let mut over = false;
            while i < end {
                let from = if i == cut.line { cut.from } else { self.line(i).first };
                if self.extra[i].is_some() && i > cut.line {
                    i = self.extra(i, end, &mut out);
                    over = true;
                    continue;
                }
                over &= !self.line(i).after_gap || k + 1 == cuts.len();
                let before = i > cut.line && self.goes_on(i);
                if !before && !self.reading.defines(i) {
                    self.words((i, end), from, over || self.coda(cuts, k, i), &ends, &mut out);
                }
                i += 1;
            }
        }
        out
    }

    /// Whether a line is in a paragraph behind the steps of the last section.
    fn coda(&self, cuts: &[Cut], k: usize, i: usize) -> bool {
        if k + 1 < cuts.len() {
            return false;
        }
        let from = cuts[k].line;
        let top = (from + 1..=i).rev().find(|j| self.line(*j).after_gap && !self.line(*j).empty());
        top.is_some_and(|top| (from..top).any(|j| self.steps_in(j, if j == from { cuts[k].from } else { 0 })))
    }

    /// Whether a line has steps from a token on.
    fn steps_in(&self, i: usize, from: usize) -> bool {
        let t = self.line(i).tokens.get(from..).unwrap_or_default();
        self.extra[i].is_none()
            && chat::sentences(self.text, t).iter().any(|s| chat::danced(self.text, s, &self.reading.own))
    }

    fn heading(&self, cut: &Cut, out: &mut Vec<Line>) {
        let line = self.line(cut.line);
        let t = line.tokens[cut.name.0..cut.name.1].to_vec();
        let start = t.first().map_or(line.span.start, |t| t.span.start) as usize;
        let end = t.last().map_or(start, |t| t.span.end as usize);
        let mut heading = line_of(self.text, Span::new(start, end), t, line.after_gap);
        heading.told = Some(Told::Heading(None));
        out.push(heading);
    }

    /// Whether a line goes on in the middle of a sentence whose line was too long for the page.
    fn goes_on(&self, i: usize) -> bool {
        let (before, line) = (self.line(i - 1), self.line(i));
        // "... 4 counts" ends a row, whatever comes below.
        let ended = |t: &Token| matches!(t.kind, Kind::Sign(_) | Kind::W(W::Count));
        let open = before.tokens.last().is_some_and(|t| !ended(t));
        let wide = before.span.of(self.text).trim_end().chars().count() >= NARROW;
        open && wide
            && !line.after_gap
            && self.extra[i].is_none()
            && starts_lower(self.text, line)
            && line.first == 0
            && !line.tokens.iter().take(4).any(|t| t.sign(':'))
    }

    /// Puts the words of a line as steps, without what only chats.
    fn words(
        &self,
        (i, end): (usize, usize),
        from: usize,
        over: bool,
        ends: &brackets::Ends,
        out: &mut Vec<Line>,
    ) {
        let line = self.line(i);
        let mut t = line.tokens.clone();
        ends.put(i, &mut t);
        for more in i + 1..end {
            if !self.goes_on(more) {
                break;
            }
            let mut rest = self.line(more).tokens.clone();
            ends.put(more, &mut rest);
            t.extend(rest);
        }
        let said = t.get(from..).unwrap_or_default();
        let kept = chat::steps(self.text, said, &self.reading.own, over);
        let Some(span) = kept.iter().map(|t| t.span).reduce(Span::join) else {
            if said.iter().any(|t| !matches!(t.kind, Kind::Sign(_))) {
                let mut aside = line_of(self.text, line.span, said.to_vec(), line.after_gap);
                aside.told = Some(Told::Aside);
                out.push(aside);
            }
            return;
        };
        let mut words = line_of(self.text, span, kept, line.after_gap);
        words.indent = line.indent;
        words.packed = line.packed;
        words.told = Some(Told::Words);
        out.push(words);
    }

    /// Puts a paragraph about a tag or a restart, what is said of it before its steps; gives the next line.
    fn extra(&self, i: usize, end: usize, out: &mut Vec<Line>) -> usize {
        let mut line = self.line(i).clone();
        let mut next = i + 1;
        while next < end && self.extra[next].is_some() && self.reading.keyword(next).is_none() {
            let more = self.line(next);
            line.tokens.push(sign_at(more.span.start as usize));
            line.tokens.extend_from_slice(&more.tokens);
            line.span = line.span.join(more.span);
            next += 1;
        }
        let mut steps = Vec::new();
        if self.extra[i] != Some(Topic::Restart) {
            let (said, danced) = self.told_apart(&line.tokens);
            line = line_of(self.text, line.span, said, line.after_gap);
            steps = danced;
        }
        out.push(line);
        if let Some(span) = steps.iter().map(|t| t.span).reduce(Span::join) {
            let mut words = line_of(self.text, span, steps, false);
            words.told = Some(Told::Words);
            out.push(words);
        }
        next
    }

    /// What is said of a tag, and its steps.
    fn told_apart(&self, t: &[Token]) -> (Vec<Token>, Vec<Token>) {
        let (mut said, mut steps): (Vec<Token>, Vec<Token>) = (Vec::new(), Vec::new());
        for (n, sentence) in
            t.split_inclusive(|t| t.sign('\n')).flat_map(|t| chat::sentences(self.text, t)).enumerate()
        {
            let about = sentence.iter().any(|t| {
                matches!(t.kind, Kind::W(W::Wall | W::Tag | W::Restart | W::OClock | W::End) | Kind::Clock(_))
            });
            if about || n == 0 {
                let at = inline_start(self.text, sentence).unwrap_or(sentence.len());
                said.extend_from_slice(&sentence[..at]);
                steps.extend_from_slice(&sentence[at..]);
            } else if chat::danced(self.text, sentence, &self.reading.own) {
                steps.extend_from_slice(sentence);
            } else {
                said.extend_from_slice(sentence);
            }
        }
        (said, steps)
    }
}

/// The words of a definition that tell the steps of its figure.
pub(super) fn defining(text: &str, t: &[Token], name: &[String]) -> Vec<Token> {
    let tells = |s: &&[Token]| !own::contains(text, s, name) && chat::danced(text, s, &[]);
    let all = chat::sentences(text, t);
    if all.len() < 2 {
        return t.to_vec();
    }
    all.into_iter().filter(tells).flatten().copied().collect()
}

/// A line's end as a token.
fn sign_at(at: usize) -> Token {
    Token { kind: Kind::Sign('\n'), span: Span::new(at, at), gap: 2 }
}
