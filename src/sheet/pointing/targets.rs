//! What words may point at: sections by their numbers, counts, the section before.

use super::super::classes::{LIKE, cardinal};
use super::super::labels::{placed, roman, section_word};
use super::super::vocabulary::W;
use super::super::words::Kind;
use super::{Target, Words};
use crate::text::among;

/// The highest count and the highest number of a section that words may point at.
pub(super) const MOST: u32 = 199;

/// The number of what is last.
const LAST: u32 = 99;

impl Words<'_> {
    /// The number behind a sign or word that joins it to the number before: "1 - 8", "1 to 8", "steps 1 through 8".
    pub(super) fn joined(&self, k: usize) -> Option<u32> {
        let joins = matches!(self.t.get(k)?.kind, Kind::Sign('-' | '~' | '>') | Kind::W(W::To))
            || self.among(k, among!["through", "thru", "till", "bis", "a", "tot"]);
        let before = matches!(self.t.get(k.checked_sub(1)?)?.kind, Kind::Number(_));
        match self.t.get(k + 1)?.kind {
            Kind::Number(n) if joins && before && n <= MOST => Some(n),
            _ => None,
        }
    }

    fn number(&self, k: usize) -> Option<u32> {
        let t = self.t.get(k)?;
        match t.kind {
            Kind::Number(n) => Some(n).filter(|n| *n <= MOST),
            Kind::W(W::The) if self.among(k, among!["one"]) => Some(1),
            Kind::W(w) => cardinal(w).or_else(|| numeral(self.word(k))),
            _ => numeral(self.word(k)),
        }
    }

    /// The section that words name, and one past them: "section 1", "S1", "the first eight", "sections 1 and 2".
    fn section(&self, k: usize) -> Option<((u32, u32), usize)> {
        let t = self.t.get(k)?;
        if let Some(n) = placed(self.text, t).filter(|n| *n < LAST) {
            // "The first two sections"
            let several = self.number(k + 1).filter(|m| n == 1 && *m <= 8);
            let sections = self.is(k + 2, W::Section) || self.is(k + 2, W::Set);
            if let Some(m) = several.filter(|_| sections) {
                return Some(((1, m), k + 3));
            }
            let named =
                section_word(self.text, self.t.get(k + 1)?) || matches!(self.t[k + 1].kind, Kind::Number(8));
            let counted = usize::from(self.is(k + 2, W::Count));
            return named.then_some(((n, n), k + 2 + counted));
        }
        let letter = self.among(k, among!["s"]) && self.t.get(k + 1).is_some_and(|t| t.gap == 0);
        if !section_word(self.text, t) && !letter || matches!(t.kind, Kind::W(W::Eight)) {
            return None;
        }
        let mut at = k + 1;
        while self.t.get(at).is_some_and(|t| matches!(t.kind, Kind::Sign('.' | '#')))
            || self.among(at, among!["number", "no", "nr", "the"])
        {
            at += 1;
        }
        let a = self.number(at).or_else(|| placed(self.text, self.t.get(at)?))?;
        let b = self.joined(at + 1).or_else(|| {
            let and = self.is(at + 1, W::And) || self.t.get(at + 1).is_some_and(|t| t.sign('+'));
            self.number(at + 2).filter(|b| and && *b == a + 1)
        });
        // "S1 & S2"
        if b.is_none()
            && self.is(at + 1, W::And)
            && let Some(((b, c), to)) = self.section(at + 2)
            && b == a + 1
        {
            return Some(((a, c), to));
        }
        Some(match b {
            Some(b) if b > a && b < a + 8 => ((a, b), at + 3),
            _ => ((a, a), at + 1),
        })
    }

    /// Counts that words name, and one past them: "counts 1-8", "steps 1 through 4", "9-16".
    pub(super) fn counts(&self, k: usize) -> Option<((i32, i32), usize)> {
        let open = self.t.get(k).is_some_and(|t| matches!(t.kind, Kind::Sign('(' | '[')));
        let named = self.is(k, W::Count) || self.is(k, W::Step) && self.among(k, among!["steps", "step"]);
        let at = k + usize::from(named || open);
        let Kind::Number(a) = self.t.get(at)?.kind else { return None };
        let b = self
            .joined(at + 1)
            .or_else(|| self.number(at + 2).filter(|_| named && self.is(at + 1, W::And)))?;
        let closed = self.t.get(at + 3).is_some_and(|t| matches!(t.kind, Kind::Sign(')' | ']')));
        if open && !closed {
            return None;
        }
        let range = (i32::try_from(a).ok()?, i32::try_from(b).ok()?);
        (a >= 1 && b > a).then_some((range, at + 3 + usize::from(open)))
    }

    /// So many counts from one end: "the first 16 counts", "the last four counts of section 2".
    fn end_counts(&self, k: usize) -> Option<((i32, i32), usize)> {
        if !self.is(k + 2, W::Count) {
            return None;
        }
        let end = placed(self.text, self.t.get(k)?)?;
        let n = i32::try_from(self.number(k + 1).filter(|n| *n >= 2)?).ok()?;
        match end {
            1 => Some(((1, n), k + 3)),
            LAST => Some(((-n, -1), k + 3)),
            _ => None,
        }
    }

    /// The section right before, and one past its words: "the previous section", "the section above", "the last 8".
    fn before(&self, k: usize) -> Option<usize> {
        let noun =
            |k: usize| self.t.get(k).is_some_and(|t| section_word(self.text, t) || t.kind == Kind::Number(8));
        if self.among(k, among!["previous", "preceding", "last", "above"]) && noun(k + 1) {
            return Some(k + 2 + usize::from(self.is(k + 2, W::Count)));
        }
        let behind = self.is(k, W::Section) && self.among(k + 1, among!["above", "before"]);
        (behind && noun(k)).then_some(k + 2)
    }

    /// What words from a token on point at, and one past them.
    pub(super) fn target(&self, k: usize) -> Option<(Target, usize)> {
        match self.t.get(k)?.kind {
            Kind::Sign('(' | '[') | Kind::Number(_) | Kind::W(_) | Kind::Name(_) | Kind::Unknown => {}
            _ => return None,
        }
        let section_of = |k: usize| {
            let small = |k: &usize| {
                self.t.get(*k).is_some_and(|t| {
                    matches!(t.kind, Kind::W(W::Of | W::From | W::In | W::The))
                        && !self.among(*k, among!["one"])
                })
            };
            let n = (k..k + 3).take_while(small).count();
            if n == 0 { None } else { self.section(k + n) }
        };
        if let Some(to) = self.before(k)
            && section_of(to).is_none()
        {
            return Some((Target::default(), to));
        }
        let range = self.counts(k).or_else(|| self.end_counts(k));
        if let Some((range, to)) = range {
            return Some(match section_of(to) {
                Some((sections, end)) => (Target { sections: Some(sections), range: Some(range) }, end),
                None => (Target { sections: None, range: Some(range) }, to),
            });
        }
        let (sections, to) = self.section(k)?;
        // "Section 1 counts 1-4", "S1 (1-4)", and "section 1, 1-4" with nothing else behind it
        let comma = self.t.get(to).is_some_and(|t| t.sign(','));
        let behind = self.counts(to + usize::from(comma)).filter(|(_, end)| {
            !comma || self.t.get(*end).is_none_or(|t| matches!(t.kind, Kind::Sign(')' | '.')))
        });
        Some(match behind {
            Some((range, end)) => (Target { sections: Some(sections), range: Some(range) }, end),
            None => (Target { sections: Some(sections), range: None }, to),
        })
    }

    /// The section that a bare number behind "as" or "=" names: "same as 2", "= no. 1".
    pub(super) fn bare_number(&self, k: usize, at: usize) -> Option<(Target, usize)> {
        let likens = self.among(k, LIKE) || self.t[k].sign('=');
        let noun = (k + 1..at).all(|k| {
            self.among(k, among!["no", "nr", "number"]) || matches!(self.t[k].kind, Kind::Sign('.' | '#'))
        });
        let Kind::Number(n @ 1..=16) = self.t.get(at)?.kind else { return None };
        let over =
            self.t.get(at + 1).is_none_or(|t| matches!(t.kind, Kind::Sign(',' | '.' | ';' | '(' | ')')))
                || self.among(at + 1, among!["but", "with", "on"]);
        let sections = Some((n, n)).filter(|_| over && likens && noun);
        sections.map(|sections| (Target { sections: Some(sections), range: None }, at + 1))
    }
}

/// A Roman numeral in capitals.
fn numeral(word: &str) -> Option<u32> {
    roman(word).filter(|_| word.bytes().all(|b| b.is_ascii_uppercase()))
}
