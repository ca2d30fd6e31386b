//! Numbers in brackets: how long a row of steps is, or where one looks behind it.

use super::shapes::Cut;
use super::{Kind, Page, Token, W};
use crate::floor::Heading;

/// A lone number in brackets.
#[derive(Debug, Clone, Copy)]
struct Number {
    /// Its line and token.
    at: (usize, usize),
    /// The section.
    section: usize,
    n: u32,
}

/// What lone numbers in brackets stand for, where that is another number or an hour.
#[derive(Debug, Default)]
pub(super) struct Ends {
    instead: Vec<((usize, usize), Kind)>,
}

/// The number that stands alone in the brackets that open at a token.
fn lone(t: &[Token], i: usize) -> Option<(u32, usize)> {
    if !matches!(t.get(i)?.kind, Kind::Sign('(' | '[')) {
        return None;
    }
    let Kind::Number(n) = t.get(i + 1)?.kind else { return None };
    let counted = usize::from(t.get(i + 2).is_some_and(|t| t.is(W::Count)));
    let close = i + 2 + counted;
    matches!(t.get(close)?.kind, Kind::Sign(')' | ']')).then_some((n, close + 1))
}

/// Whether tokens are nothing but a number in brackets.
pub(super) fn only(t: &[Token]) -> bool {
    let from = t.iter().position(|t| matches!(t.kind, Kind::Sign('(' | '['))).unwrap_or(0);
    lone(t, from).is_some_and(|(_, to)| t[to..].iter().all(|t| matches!(t.kind, Kind::Sign(_))))
        && t[..from].iter().all(|t| matches!(t.kind, Kind::Sign(_)))
}

/// The numbers in brackets among words that are left out.
pub(super) fn totals(t: &[Token]) -> Vec<Token> {
    let found = (0..t.len()).find_map(|i| lone(t, i).map(|(_, to)| (i, to)));
    found.map_or_else(Vec::new, |(i, to)| t[i..to].to_vec())
}

/// Finds out what the numbers in brackets behind the steps of some sections are.
pub(super) fn ends(page: &Page<'_>, cuts: &[Cut]) -> Ends {
    let mut numbers = Vec::new();
    for (section, cut) in cuts.iter().enumerate() {
        let end = cuts.get(section + 1).map_or(page.extra.len(), |c| c.line);
        for i in (cut.line..end).filter(|i| page.extra[*i].is_none()) {
            let t = &page.line(i).tokens;
            let from = if i == cut.line { cut.from } else { 0 };
            for k in from..t.len() {
                if let Some((n, _)) = lone(t, k) {
                    numbers.push(Number { at: (i, k + 1), section, n });
                }
            }
        }
    }
    let counts = page.counts();
    let per = counts.map(|c| c / u32::try_from(cuts.len()).unwrap_or(1));
    let mut ends = Ends::default();
    // Where one looks changes from row to row, and how long a row is hardly does.
    let hours = numbers.iter().all(|x| matches!(x.n, 3 | 6 | 9 | 12));
    let several = numbers.iter().any(|x| x.n != numbers[0].n);
    if hours && (several || per.is_some_and(|p| numbers.iter().all(|x| x.n != p))) {
        let hour = |n: u32| Kind::Clock(Heading::new(i32::try_from(n * 4).unwrap_or(0)));
        ends.instead = numbers.iter().map(|x| (x.at, hour(x.n))).collect();
        return ends;
    }
    // "(4) ... (8)": the last number tells the length of the whole row, not of its second half.
    for section in 0..cuts.len() {
        let own: Vec<&Number> = numbers.iter().filter(|x| x.section == section).collect();
        let rising = own.len() >= 2 && own.windows(2).all(|w| w[1].n > w[0].n);
        let sum: u32 = own.iter().map(|x| x.n).sum();
        let last = own.last().map_or(0, |x| x.n);
        if rising && per.map_or(last.is_multiple_of(8), |p| last == p && sum != p) {
            ends.instead.extend(own.windows(2).map(|w| (w[1].at, Kind::Number(w[1].n - w[0].n))));
        }
    }
    ends
}

impl Ends {
    /// Puts what the numbers of a line stand for in their places.
    pub(super) fn put(&self, line: usize, t: &mut [Token]) {
        for ((i, k), kind) in &self.instead {
            if *i == line {
                t[*k].kind = *kind;
            }
        }
    }
}
