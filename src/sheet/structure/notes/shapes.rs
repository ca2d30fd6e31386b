//! How the headings of a page look, and which look divides it into the sections of its dance.

use super::{Kind, Page, Token, W, chat};
use crate::sheet::SheetHead;
use crate::sheet::numbers::numeral;
use crate::sheet::structure::wording::{doing, has, head_like};

/// What the headings of a page have in common.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Shape {
    /// "1 - Lock and brush", "ii. Criss cross", "C / Points".
    Number,
    /// "[Kick off]".
    Bracket,
    /// "# Climbing", "* Engine: ...".
    Sign(char),
    /// "KETTLE ON: ...".
    Colon,
    /// "GARDEN PATH".
    Capitals,
    /// The first line of a paragraph.
    Top,
    /// A line above others that stand further in.
    Outdent,
    /// A paragraph without a heading.
    Block,
}

/// A heading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Cut {
    pub line: usize,
    /// The tokens of its name.
    pub name: (usize, usize),
    /// The first token of its steps.
    pub from: usize,
}

/// The longest name of a section in words.
const LONGEST_NAME: usize = 8;

fn foot(t: &Token) -> bool {
    matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF) | Kind::Feet)
}

/// One past the last of the signs at a token.
fn over_signs(t: &[Token], from: usize) -> usize {
    let sign = |t: &&Token| matches!(t.kind, Kind::Sign(c) if !matches!(c, '(' | '['));
    from + t[from.min(t.len())..].iter().take_while(sign).count()
}

/// The end of a name that begins at a token: before the colon, the length in brackets, dots, or at the line's end.
fn name_end(t: &[Token], from: usize) -> Option<(usize, usize)> {
    let end = (from..t.len()).find(|k| match t[*k].kind {
        Kind::Sign(':' | '(' | '[' | '=') => true,
        Kind::Sign('-' | '/') => t[*k].gap > 0,
        Kind::Sign('.' | '!' | '?') => true,
        _ => false,
    });
    let end = end.unwrap_or(t.len());
    let words = t[from..end].iter().filter(|t| !matches!(t.kind, Kind::Sign(_))).count();
    let plain = !t[from..end].iter().any(foot) && words <= LONGEST_NAME && words > 0;
    if !plain {
        return None;
    }
    // "Engine (8): heel struts": the length belongs to the heading.
    let mut to = end;
    if t.get(end).is_some_and(|t| matches!(t.kind, Kind::Sign('(' | '['))) {
        let close = (end + 1..t.len().min(end + 5)).find(|k| matches!(t[*k].kind, Kind::Sign(')' | ']')))?;
        if !t[end + 1..close].iter().all(|t| matches!(t.kind, Kind::Number(_)) || t.is(W::Count)) {
            return None;
        }
        to = close + 1;
    }
    Some((to, over_signs(t, to)))
}

impl Page<'_> {
    /// The counts that the head gives.
    pub(super) fn counts(&self) -> Option<u32> {
        self.head().counts.map(|(n, _)| n)
    }

    fn head(&self) -> SheetHead {
        let mut head = SheetHead::default();
        for line in self.reading.lines.iter().take(12) {
            if head.counts.is_none() || !head.waltz {
                head.line(self.text, line);
            }
        }
        head
    }

    /// The headings that divide the page best.
    pub(super) fn division(&self) -> Option<Vec<Cut>> {
        let signs = ['#', '*', '-', '>', '=', '~', '+', '_', '<', '"'];
        let mut shapes = vec![Shape::Number, Shape::Bracket];
        shapes.extend(signs.map(Shape::Sign));
        shapes.extend([Shape::Colon, Shape::Capitals, Shape::Top, Shape::Outdent, Shape::Block]);
        let head = self.head();
        let mut best: Option<(u32, Vec<Cut>)> = None;
        for shape in shapes {
            let cuts = self.cuts(shape);
            let Some(score) = self.score(&cuts, &head) else { continue };
            if best.as_ref().is_none_or(|b| score > b.0) {
                best = Some((score, cuts));
            }
        }
        best.map(|b| b.1)
    }

    /// The headings of a shape that have steps below or behind them.
    fn cuts(&self, shape: Shape) -> Vec<Cut> {
        let mut found: Vec<Cut> = Vec::new();
        let mut number = 0;
        for i in 0..self.reading.lines.len() {
            let line = self.line(i);
            if line.empty() || self.reading.defines(i) || self.extra[i].is_some() {
                continue;
            }
            let cut = match shape {
                Shape::Number => self.numbered(i, number + 1),
                _ => self.cut(shape, i),
            };
            if let Some(cut) = cut {
                number += 1;
                found.push(cut);
            }
        }
        // What has no steps is the head of the sheet, or chat.
        let body = self.body;
        let mut out: Vec<Cut> = Vec::new();
        for (k, cut) in found.iter().enumerate() {
            let end = found.get(k + 1).map_or(self.reading.lines.len(), |c| c.line);
            let danced = (cut.line..end).any(|i| self.steps_in(i, if i == cut.line { cut.from } else { 0 }));
            if danced && cut.line >= body {
                out.push(cut.clone());
            }
        }
        out
    }

    /// The line behind the paragraphs of the head.
    pub(super) fn find_body(&self) -> usize {
        let lines = &self.reading.lines;
        let mut at = 0;
        let mut body = 0;
        while at < lines.len() {
            let end = (at + 1..lines.len())
                .find(|k| lines[*k].after_gap && !lines[*k].empty())
                .unwrap_or(lines.len());
            let head = (at..end).any(|k| head_like(self.text, &lines[k].tokens) && !lines[k].stepful());
            let steps = (at..end).filter(|k| self.steps_in(*k, 0) && lines[*k].verbs >= 2).count();
            if head && steps <= 1 {
                // The head and the first steps may stand in one paragraph.
                let last = (at..end).rev().find(|k| head_like(self.text, &lines[*k].tokens)).unwrap_or(at);
                body = last + 1;
            } else if steps > 0 {
                break;
            }
            at = end;
        }
        body
    }

    fn numbered(&self, i: usize, next: u32) -> Option<Cut> {
        let line = self.line(i);
        let t = &line.tokens;
        let mut at = line.first;
        // "No. 1", "Number 1", "Section 1", "Part A"
        let word = t.get(at)?;
        if matches!(word.kind, Kind::W(W::Section | W::Set | W::Step | W::No) | Kind::Unknown)
            && t.get(at + 1).is_some_and(|t| numeral(self.text, t).is_some() || t.sign('.'))
            && word.span.range().len() > 1
            && numeral(self.text, word).is_none()
        {
            at = over_signs(t, at + 1);
        }
        let letter = u8::try_from(next).ok().filter(|n| *n <= 26).map(|n| char::from(b'A' + n - 1));
        let said = t.get(at)?;
        let same = numeral(self.text, said) == Some(next)
            || said.span.range().len() == 1 && said.span.of(self.text).chars().next() == letter;
        if !same {
            return None;
        }
        let behind = over_signs(t, at + 1);
        let apart = behind > at + 1 || t.get(at + 1).is_none_or(|t| t.gap == 2) || at > line.first;
        if !apart {
            return None;
        }
        let rest = t.get(behind..).unwrap_or_default();
        // "ii) The same again." names nothing.
        let again = has(rest, W::Same) || has(rest, W::Repeat) || has(rest, W::Other) && has(rest, W::Foot);
        let named = name_end(t, behind).filter(|_| !again).filter(|(_, from)| {
            *from >= t.len() && !rest.is_empty()
                || t[*from - 1].sign(':')
                || self.next_in(i) && *from >= t.len()
        });
        match named {
            // "3. Toe strut" may be a step as well as a name: where nothing stands below it, it is danced.
            Some((_, from)) if from >= t.len() && !self.under(i) => {
                Some(Cut { line: i, name: (behind, behind), from: behind })
            }
            Some((to, from)) => Some(Cut { line: i, name: (behind, to), from }),
            None => Some(Cut { line: i, name: (behind, behind), from: behind }),
        }
    }

    /// Whether a line stands right below, in the same paragraph.
    fn under(&self, i: usize) -> bool {
        self.reading.lines.get(i + 1).is_some_and(|l| !l.empty())
    }

    /// Whether the next line stands further in.
    fn next_in(&self, i: usize) -> bool {
        self.reading.lines.get(i + 1).is_some_and(|l| !l.empty() && l.indent > self.line(i).indent)
    }

    fn cut(&self, shape: Shape, i: usize) -> Option<Cut> {
        let line = self.line(i);
        let t = &line.tokens;
        let whole = |(to, from): (usize, usize), begin: usize| Cut { line: i, name: (begin, to), from };
        match shape {
            Shape::Bracket => {
                let open = t.iter().position(|t| matches!(t.kind, Kind::Sign('[' | '(' | '{' | '<')))?;
                let close = (open + 1..t.len().min(open + 12))
                    .find(|k| matches!(t[*k].kind, Kind::Sign(']' | ')' | '}' | '>')))?;
                let name = &t[open + 1..close];
                let words =
                    name.iter().any(|t| !matches!(t.kind, Kind::Sign(_) | Kind::Number(_) | Kind::Clock(_)));
                (open == line.first.min(open)
                    && words
                    && t[..open].iter().all(|t| matches!(t.kind, Kind::Sign(_))))
                .then(|| Cut { line: i, name: (open + 1, close), from: over_signs(t, close + 1) })
            }
            Shape::Sign(sign) => {
                let begin = over_signs(t, 0);
                if begin == 0 || !t[0].sign(sign) {
                    return None;
                }
                // "== HEELS ==" closes with its sign.
                let last = t.iter().rposition(|x| !x.sign(sign)).map_or(begin, |k| k + 1);
                if last < t.len() && last > begin {
                    return Some(Cut { line: i, name: (begin, last), from: t.len() });
                }
                let (to, from) = name_end(t, begin)?;
                let titled = from >= t.len() && self.under(i) || t[from - 1].sign(':');
                titled.then(|| whole((to, from), begin))
            }
            Shape::Colon => {
                let (to, from) = name_end(t, line.first)?;
                (line.first == 0
                    && from > to
                    && from > 0
                    && t[to..from].iter().any(|t| t.sign(':') || t.sign('='))
                    && !head_like(self.text, t))
                .then(|| whole((to, from), line.first))
            }
            Shape::Capitals => {
                let over = self.under(i) && !self.line(i + 1).capitals;
                let (to, from) = name_end(t, line.first)?;
                (line.capitals && over && from >= t.len()).then(|| whole((to, from), line.first))
            }
            Shape::Top if line.after_gap && self.under(i) => self.title(i),
            Shape::Outdent if self.next_in(i) => self.title(i),
            Shape::Block if line.after_gap => {
                Some(Cut { line: i, name: (line.first, line.first), from: line.first })
            }
            _ => None,
        }
    }

    /// A line that only names what stands below it.
    fn title(&self, i: usize) -> Option<Cut> {
        let line = self.line(i);
        let t = &line.tokens;
        let (to, from) = name_end(t, line.first)?;
        let rest = &t[from..];
        // "The quarter turns (6) ... this is where people fall over"
        let chats = !doing(rest) || !chat::danced(self.text, rest, &self.reading.own);
        let title = !has(&t[line.first..to], W::Same)
            && !has(&t[line.first..to], W::Repeat)
            && !t[line.first..to].iter().any(|t| t.sign(','));
        (title && chats).then_some(Cut { line: i, name: (line.first, to), from: t.len() })
    }

    /// How well headings divide the page; nothing where they do not.
    fn score(&self, cuts: &[Cut], head: &SheetHead) -> Option<u32> {
        let n = u32::try_from(cuts.len()).ok()?;
        if n == 0 {
            return None;
        }
        let unit = if head.waltz { 6 } else { 8 };
        let fit: u32 = match head.counts {
            Some((c, _)) if c.div_ceil(unit) == n => 1000,
            Some((c, _)) if c % n == 0 && (c / n) % unit == 0 => 700,
            Some((c, _)) if c % n == 0 && (c / n) % (unit / 2) == 0 => 400,
            Some(_) => 100,
            None if n >= 2 => 300,
            None => 100,
        };
        let missed = (self.body..cuts[0].line)
            .filter(|i| !self.reading.defines(*i) && self.line(*i).verbs >= 2 && self.steps_in(*i, 0))
            .count();
        Some(fit.saturating_sub(150 * u32::try_from(missed).unwrap_or(u32::MAX).min(8)))
    }
}
