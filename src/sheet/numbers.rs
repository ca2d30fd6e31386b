//! Numbers in digits, words, letters and numerals, and lists of them.

use super::classes::{self, cardinal};
use super::vocabulary::W;
use super::words::{Kind, Token};
use crate::text::among;

/// The number that a token stands for.
#[must_use]
pub fn value(t: &Token) -> Option<u32> {
    match t.kind {
        Kind::Number(n) => Some(n),
        Kind::W(w) => cardinal(w).or_else(|| classes::ordinal(w)),
        _ => None,
    }
}

/// Whether a token is an ordinal.
pub(crate) fn ordinal(t: &Token) -> bool {
    matches!(t.kind, Kind::W(w) if classes::ordinal(w).is_some())
}

/// "3° wall", "3. wall", "3e wall": a number with the ending of an ordinal, before token `end`.
pub(super) fn glued_ordinal(text: &str, t: &[Token], end: usize) -> Option<u32> {
    let (number, ending) = (t.get(end.checked_sub(2)?)?, t.get(end - 1)?);
    let Kind::Number(n @ 1..=64) = number.kind else { return None };
    let signed = matches!(ending.kind, Kind::Sign('°' | '.' | 'ª'));
    let ends = among![
        "e", "er", "re", "ere", "eme", "ème", "Ème", "de", "ste", "te", "ter", "a", "ª", "th", "st", "nd",
        "rd"
    ];
    (ending.gap == 0 && (signed || ending.span.is_among(text, ends))).then_some(n)
}

/// Numbers in a list that starts at `i`: `2, 5 and 6`, `2 & 4`, `2 + 4`.
pub(super) fn list(text: &str, t: &[Token], mut i: usize, out: &mut Vec<u32>) -> usize {
    let mut end = i;
    while let Some(token) = t.get(i) {
        if let Some(n) = value(token)
            && (1..=64).contains(&n)
            // "S2 7&8": numbers with nothing between them are no list.
            && (out.is_empty() || end < i)
            && !(ordinal(token)
                && matches!(t.get(i + 1).map(|t| t.kind), Some(Kind::Number(_) | Kind::W(W::Eight))))
        {
            let next = t.get(i + 1);
            // "both times 12 o'clock" tells no wall.
            if next.is_some_and(|t| {
                t.is(W::OClock) || (super::counts::counts_behind(text, t) || t.sign('°')) && !out.is_empty()
            }) {
                break;
            }
            out.push(n);
            end = i + 1;
        } else {
            match token.kind {
                Kind::W(W::And | W::Or | W::Again | W::The) => {}
                // "of the first wall and of the third"
                Kind::W(W::Of) if i > 0 && t[i - 1].is(W::And) => {}
                // "wall 3: #1-#2" goes on with sections.
                Kind::Sign(':') if t.get(i + 1).is_some_and(|t| t.sign('#')) => break,
                Kind::Sign(',' | '/' | '#' | ';' | ':') => {}
                Kind::W(W::Wall) => {}
                _ => break,
            }
        }
        i += 1;
    }
    end
}

/// A number written as a digit, a word, a letter (A is 1) or a Roman numeral.
pub(super) fn numeral(text: &str, t: &Token) -> Option<u32> {
    if let Some(n) = value(t) {
        return Some(n);
    }
    let word = t.span.of(text);
    if word.eq_ignore_ascii_case("one") {
        return Some(1);
    }
    const ROMAN: [&str; 12] = ["i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii"];
    if let Some(n) = ROMAN.iter().position(|r| word.eq_ignore_ascii_case(r)) {
        return u32::try_from(n + 1).ok();
    }
    if word.len() == 1 {
        let c = word.chars().next()?;
        if ('A'..='K').contains(&c) {
            return Some(u32::from(c) - u32::from('A') + 1);
        }
    }
    None
}

pub(super) fn last_of_list(text: &str, t: &[Token], i: usize) -> u32 {
    let mut all = Vec::new();
    list(text, t, i, &mut all);
    all.into_iter().max().unwrap_or(0)
}

/// "counts 1 to 16", "1-16 counts": the last one counts.
pub(super) fn last_of_range(t: &[Token], i: usize) -> u32 {
    let n = value(&t[i]).unwrap_or(0);
    if t.get(i + 1).is_some_and(|t| t.sign('-') || t.is(W::To))
        && let Some(m) = t.get(i + 2).and_then(value)
        && m > n
    {
        return m;
    }
    n
}
