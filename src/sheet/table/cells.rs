//! A cell, and what stands in it.

use core::ops::Range;

use super::Page;
use crate::floor::Heading;
use crate::sheet::counts::{Mark, mark, sub_sign};
use crate::sheet::lines::packed;
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, acts, tokens};
use crate::text::Span;
use crate::time::Ticks;

/// A cell with its words.
#[derive(Debug, Clone)]
pub(super) struct Cell {
    /// Its bytes, without the blanks around it.
    pub range: Range<usize>,
    /// Its words.
    pub tokens: Vec<Token>,
}

/// What kind of thing stands in a cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Content {
    Nothing,
    Count,
    Feet,
    Clock,
    Turn,
    /// Places only.
    Place,
    /// A verb or the name of a figure.
    Steps,
    /// Words in quotation marks.
    Quoted,
    Words,
}

impl Cell {
    /// The cell in these bytes.
    pub(super) fn new(page: Page<'_>, range: Range<usize>) -> Self {
        let words = &page.text[range.clone()];
        let from = range.start + (words.len() - words.trim_start().len());
        let range = from..(from + words.trim().len()).max(from);
        let mut tokens = tokens(page.text, range.clone(), page.vocabulary);
        broken_lines(page.text, &mut tokens);
        Self { range, tokens }
    }

    /// The counts of the cell in these bytes. Most words show with their first letters that they are none.
    pub(super) fn counts_of(page: Page<'_>, range: Range<usize>) -> Option<Mark> {
        if !perhaps_counts(&page.text[range.clone()]) {
            return None;
        }
        Cell::new(page, range).counts(page.text)
    }

    /// Whether these bytes are counts that begin with the first.
    pub(super) fn begins(page: Page<'_>, range: &Range<usize>) -> bool {
        let words = &page.text[range.clone()];
        let one = |b: u8| b == b'1' || !b.is_ascii();
        words.bytes().any(one) && Cell::counts_of(page, range.clone()).is_some_and(|m| m.first() == 1)
    }

    /// The cell as it reads in a column of counts: "one", "three and" are numbers there.
    pub(super) fn numbers(&self, text: &str) -> Self {
        let mut cell = self.clone();
        for t in &mut cell.tokens {
            if let Some(n) = spelled(text, t) {
                t.kind = Kind::Number(n);
            }
        }
        cell
    }

    /// Whether nothing is said in it: blanks or a dash.
    pub(super) fn empty(&self) -> bool {
        self.tokens.iter().all(|t| matches!(t.kind, Kind::Sign(_)))
    }

    /// The counts in a cell that holds nothing else. A lone part of a beat lies before count 0.
    pub(super) fn counts(&self, text: &str) -> Option<Mark> {
        let t = &self.tokens;
        let sign = |t: &Token| matches!(t.kind, Kind::Sign(_));
        let mut from = t.iter().take_while(|t| sign(t)).count();
        if t.get(from).is_some_and(|t| t.is(W::Count)) {
            from += 1;
        }
        let lone = t.get(from).and_then(|t| sub_sign(text, t));
        let m = packed(text, t, from, false).or_else(|| mark(text, t, from, t.len())).or_else(|| {
            let before = match lone? {
                'e' => -18,
                '&' => -12,
                _ => -6,
            };
            Some(Mark { ticks: vec![Ticks(before)], range: false, from, to: from + 1, span: t[from].span })
        })?;
        t[m.to..].iter().all(|t| sign(t) || t.is(W::Count)).then_some(m)
    }

    /// The facing in a cell of a column of facings.
    pub(super) fn clock(&self) -> Option<Heading> {
        self.tokens.iter().find_map(|t| match t.kind {
            Kind::Clock(h) => Some(h),
            Kind::Number(n @ 1..=12) => Some(Heading::new(i32::try_from(n * 4).unwrap_or(0))),
            Kind::W(W::Front | W::Home) => Some(Heading::new(0)),
            Kind::W(W::Back | W::Behind) => Some(Heading::new(24)),
            _ => None,
        })
    }

    /// What stands in it.
    pub(super) fn content(&self, text: &str) -> Content {
        if self.empty() {
            return Content::Nothing;
        }
        let t = &self.tokens;
        if t.first().is_some_and(|t| matches!(t.kind, Kind::Sign('"' | '\'')))
            && t.last().is_some_and(|t| matches!(t.kind, Kind::Sign('"' | '\'')))
        {
            return Content::Quoted;
        }
        if self.counts(text).is_some() {
            return Content::Count;
        }
        let words = || t.iter().filter(|t| !matches!(t.kind, Kind::Sign(_)));
        let small = |t: &Token| {
            matches!(
                t.kind,
                Kind::W(
                    W::The | W::To | W::On | W::Of | W::And | W::Foot | W::Feet | W::Both | W::At | W::From
                )
            )
        };
        let side = |t: &Token| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF) | Kind::Feet);
        if words().all(|t| side(t) || small(t)) && words().any(|t| side(t) || t.is(W::Both)) {
            return Content::Feet;
        }
        let clock = |t: &Token| matches!(t.kind, Kind::Clock(_) | Kind::Number(1..=12));
        if words().any(clock)
            && words()
                .all(|t| clock(t) || small(t) || matches!(t.kind, Kind::W(W::Face | W::OClock | W::Wall)))
        {
            return Content::Clock;
        }
        let does = words().any(|t| match t.kind {
            Kind::Name(_) => true,
            Kind::W(w) => acts(w) && !matches!(w, W::Turn | W::Spin | W::Roll),
            _ => false,
        });
        let amount = |t: &Token| {
            matches!(
                t.kind,
                Kind::Fraction(_)
                    | Kind::W(W::Quarter | W::Half | W::Full | W::ThreeQuarter | W::Eighth | W::Degrees)
            )
        };
        if !does && words().any(amount) {
            return Content::Turn;
        }
        if does {
            return Content::Steps;
        }
        let place = |t: &Token| {
            matches!(
                t.kind,
                Kind::W(
                    W::Forward
                        | W::Back
                        | W::Side
                        | W::Diagonal
                        | W::Across
                        | W::Front
                        | W::Behind
                        | W::Beside
                        | W::Place
                        | W::Home
                        | W::Out
                        | W::In
                        | W::Around
                )
            )
        };
        let all = words().all(|t| place(t) || side(t) || small(t) || matches!(t.kind, Kind::W(_)));
        if all && words().any(place) { Content::Place } else { Content::Words }
    }
}

/// Whether words may be counts: "count", "beat", "and", "e", "ah" and words like "to" begin with few letters.
fn perhaps_counts(words: &str) -> bool {
    let (mut amid, mut any) = (false, false);
    for b in words.bytes() {
        if !b.is_ascii() || b == b'&' {
            return true;
        }
        let letter = b.is_ascii_alphabetic();
        if letter && !amid && !matches!(b | 32, b'a' | b'b' | b'c' | b'e' | b'h' | b'i' | b'n' | b't' | b'u')
        {
            return false;
        }
        amid = letter || amid && b == b'\'';
        any |= letter || b.is_ascii_digit() || b == b'+';
    }
    any
}

fn spelled(text: &str, t: &Token) -> Option<u32> {
    Some(match t.kind {
        Kind::W(W::Two) => 2,
        Kind::W(W::Three) => 3,
        Kind::W(W::Four) => 4,
        Kind::W(W::Five) => 5,
        Kind::W(W::Six) => 6,
        Kind::W(W::Seven) => 7,
        Kind::W(W::Eight) => 8,
        Kind::W(W::The) if t.span.of(text).eq_ignore_ascii_case("one") => 1,
        _ => return None,
    })
}

/// `<br>` breaks a line within a cell, which parts clauses.
fn broken_lines(text: &str, t: &mut Vec<Token>) {
    let mut i = 0;
    while i + 2 < t.len() {
        let word = t[i + 1].span.of(text).eq_ignore_ascii_case("br");
        if t[i].sign('<') && word {
            let end = i + 2 + usize::from(t[i + 2].sign('/'));
            if t.get(end).is_some_and(|t| t.sign('>')) {
                t.splice(i..=end, [Token { kind: Kind::Sign(','), gap: 0, ..t[i] }]);
            }
        }
        i += 1;
    }
}

/// A word that the table says without writing it.
pub(super) fn unwritten(kind: Kind, at: usize) -> Token {
    Token { kind, span: Span::new(at, at), gap: 1 }
}
