//! Count marks: `1-2`, `3&4`, `5 6&`, `(1&2 3&4)`, `1e&a2`, `&7-8`, `5–8`.

use super::vocabulary::W;
use super::words::{Kind, Token};
use crate::text::{Span, among};
use crate::time::Ticks;

/// Positions that a writer gave, in the sheet's own numbering.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mark {
    /// Every position, rising: count 3 is tick 72, the half-count after it 84.
    pub ticks: Vec<Ticks>,
    /// Whether it was written as a range such as `1-4`.
    pub range: bool,
    /// First token.
    pub from: usize,
    /// One past the last token.
    pub to: usize,
    /// The words.
    pub span: Span,
}

impl Mark {
    /// First whole count that it touches; a leading half-count belongs to the count after it.
    #[must_use]
    pub fn first(&self) -> i32 {
        self.ticks.iter().find(|t| t.within() == 0).or(self.ticks.first()).map_or(0, |t| t.count())
    }

    /// Last whole count that it touches.
    #[must_use]
    pub fn last(&self) -> i32 {
        self.ticks.last().map_or(0, |t| t.count())
    }
}

/// The highest count that a section has: a higher number is about something else, and numbers of counts stay small
/// enough to be multiplied.
pub(super) const MOST: u32 = 999;

/// The longest range that is a count mark; longer ones are numbers about something else.
const LONGEST_RANGE: i32 = 64;

/// Parts of a beat that were written after one whole count.
fn sub_ticks(signs: &[char]) -> Vec<i32> {
    let rolling = signs.contains(&'&') && signs.contains(&'a') && !signs.contains(&'e');
    signs
        .iter()
        .map(|s| match (s, rolling) {
            ('e', _) => 6,
            ('&', false) => 12,
            ('&', true) => 8,
            ('a', true) => 16,
            _ => 18,
        })
        .collect()
}

/// Where the part of a beat lies among the others.
fn place(sign: char) -> u8 {
    match sign {
        'e' => 0,
        '&' => 1,
        _ => 2,
    }
}

/// Whether a half-count is written with a sign.
pub(super) fn half_sign(text: &str, t: &Token) -> bool {
    t.is(W::And) && matches!(t.span.of(text), "&" | "+")
}

/// Whether the word "and" stands between two counts in a row whose half-counts have a sign.
fn joining(text: &str, tokens: &[Token], from: usize, i: usize) -> bool {
    let sign = tokens[i].span.of(text);
    let word = tokens[i].gap > 0 && !sign.starts_with(['&', '+']);
    let number = tokens.get(i + 1).is_some_and(|t| matches!(t.kind, Kind::Number(_)) && (t.gap > 0 || !word));
    let around = || tokens[from..i].iter().chain(tokens.get(i + 2));
    let and = |t: &Token| t.is(W::And) && t.span.of(text) == "&";
    let signed = if word { around().any(|t| half_sign(text, t)) } else { sign == "+" && around().any(and) };
    number && signed
}

/// Whether a number is the count behind another one.
fn counts_on(t: &Token, last: i32) -> bool {
    matches!(t.kind, Kind::Number(n) if i64::from(n) == i64::from(last) + 1)
}

pub(super) fn sub_sign(text: &str, t: &Token) -> Option<char> {
    let word = t.span.of(text);
    match t.kind {
        // "N.B. ..."
        Kind::W(W::And) if word == "N" => None,
        Kind::W(W::And) => Some('&'),
        Kind::W(_) | Kind::Unknown | Kind::Name(_) => match word {
            "e" | "E" => Some('e'),
            "a" | "A" | "ah" | "uh" => Some('a'),
            _ => None,
        },
        _ => None,
    }
}

/// Reads a count mark that begins at token `from`; at most up to token `end`.
#[must_use]
pub fn mark(text: &str, tokens: &[Token], from: usize, end: usize) -> Option<Mark> {
    let mut ticks: Vec<Ticks> = Vec::new();
    let mut signs: Vec<char> = Vec::new();
    let mut last: Option<i32> = None;
    let mut range = false;
    let mut pending_range = false;
    let mut i = from;
    let mut to = from;
    let flush = |ticks: &mut Vec<Ticks>, last: Option<i32>, signs: &mut Vec<char>, next: Option<i32>| {
        if signs.is_empty() {
            return true;
        }
        let Some(base) = last.or_else(|| next.map(|n| n - 1)) else { return false };
        for off in sub_ticks(signs) {
            ticks.push(Ticks(base * 24 + off));
        }
        signs.clear();
        true
    };
    while i < end {
        let t = &tokens[i];
        match t.kind {
            Kind::Number(n) => {
                if n == 0 || n > MOST {
                    break;
                }
                let mut n = i32::try_from(n).unwrap_or(i32::MAX);
                // "8&1": the last step falls on the first count of what follows.
                if n == 1
                    && !signs.is_empty()
                    && last.is_some_and(|l| l == 8 || l == 6 || l == 4 || l % 8 == 0)
                {
                    n = last.unwrap_or(0) + 1;
                }
                if let Some(l) = last {
                    let jump = n - l;
                    // "2 5": two numbers that do not follow each other are no mark.
                    if !(1..=LONGEST_RANGE).contains(&jump) || (jump > 1 && !pending_range) {
                        break;
                    }
                    flush(&mut ticks, last, &mut signs, Some(n));
                    if pending_range && jump > 1 {
                        ticks.extend((l + 1..n).map(Ticks::of_count));
                        range = true;
                    }
                } else if !flush(&mut ticks, None, &mut signs, Some(n)) {
                    break;
                }
                ticks.push(Ticks::of_count(n));
                last = Some(n);
                pending_range = false;
                to = i + 1;
            }
            // "1/2" for two counts, where a fraction of a turn makes no sense is for the caller to say.
            Kind::Fraction(_) if ticks.is_empty() && signs.is_empty() => {
                let word = t.span.of(text);
                let Some((a, b)) = word.split_once('/') else { break };
                let (Ok(a), Ok(b)) = (a.trim().parse::<i32>(), b.trim().parse::<i32>()) else { break };
                if b != a + 1 {
                    break;
                }
                ticks.push(Ticks::of_count(a));
                ticks.push(Ticks::of_count(b));
                last = Some(b);
                to = i + 1;
            }
            Kind::Sign('-' | '>' | '~') if last.is_some() && t.gap <= 1 => {
                if !matches!(tokens.get(i + 1).map(|t| t.kind), Some(Kind::Number(_)))
                    || tokens[i + 1].gap > 1
                {
                    // "&-7" and "1-&" also occur.
                    let sub = tokens.get(i + 1).and_then(|t| sub_sign(text, t));
                    if sub.is_none() || tokens[i + 1].gap > 0 {
                        break;
                    }
                }
                pending_range = true;
            }
            Kind::Sign('-') if last.is_none() && !signs.is_empty() && t.gap == 0 => {}
            Kind::W(_) | Kind::Unknown
                if last.is_some()
                    && t.gap <= 1
                    && matches!(tokens.get(i + 1).map(|t| t.kind), Some(Kind::Number(_)))
                    && to_word(text, t) =>
            {
                pending_range = true;
            }
            // "1&2 and 3&4", "1&2+3&4": where half-counts have their sign, the other one only joins.
            Kind::W(W::And) if last.is_some() && joining(text, tokens, from, i) => {}
            Kind::Sign(',' | '.' | '/')
                if last.is_some() && i + 1 < end && t.gap == 0 && follows(text, tokens, i + 1, last) => {}
            // "1 . 2 &": a full stop between blanks only parts the counts.
            Kind::Sign('.')
                if last.is_some()
                    && t.gap == 1
                    && tokens
                        .get(i + 1)
                        .is_some_and(|n| n.gap == 1 && last.is_some_and(|l| counts_on(n, l))) => {}
            // "1. - 2.": a dash behind the full stop of the first count.
            Kind::Sign('.')
                if last.is_some()
                    && tokens.get(i + 1).is_some_and(|t| t.sign('-'))
                    && tokens.get(i + 2).is_some_and(|n| last.is_some_and(|l| counts_on(n, l))) => {}
            // "&, 7 - step left beside, step right"
            Kind::Sign(',' | '/')
                if last.is_none()
                    && signs.len() == 1
                    && t.gap == 0
                    && matches!(tokens.get(i + 1).map(|t| t.kind), Some(Kind::Number(2..))) => {}
            _ => {
                let Some(sign) = sub_sign(text, t) else { break };
                // A word "and" or "a" that begins a sentence is no count.
                let alone = t.span.of(text);
                let next_number = matches!(tokens.get(i + 1).map(|t| t.kind), Some(Kind::Number(_)));
                let glued = t.gap == 0;
                let next_sub = tokens.get(i + 1).is_some_and(|t| sub_sign(text, t).is_some());
                let next_dash = tokens.get(i + 1).is_some_and(|n| n.sign('-') && n.gap == 0);
                let ends = i + 1 >= end
                    || matches!(
                        tokens[i + 1].kind,
                        Kind::Sign(')' | ']' | ':' | '.' | ',' | '*' | '_' | '-' | '=' | '/')
                    );
                let wide = tokens.get(i + 1).is_some_and(|t| t.gap == 2);
                let is_sign = matches!(alone, "&" | "+") || alone.starts_with('&');
                if sign != '&' && last.is_none() && !(next_number && matches!(alone, "a" | "e")) {
                    break;
                }
                if !(glued || next_number || next_sub || next_dash || ends || wide || is_sign) {
                    break;
                }
                if matches!(alone, "and" | "n" | "a" | "e")
                    && !(next_number || glued || next_sub || ends || wide)
                {
                    break;
                }
                // The parts of a beat come in the order of the beat; what stands out of it is no count.
                if signs.last().is_some_and(|before| place(*before) > place(sign)) || signs.len() >= 3 {
                    break;
                }
                signs.push(sign);
                to = i + 1;
            }
        }
        i += 1;
    }
    if last.is_none() {
        // A lone "&" needs its count from the place where it stands.
        if signs.len() == 1 && signs[0] == '&' && to == from + 1 {
            return Some(lone(tokens, from, '&'));
        }
        return None;
    }
    flush(&mut ticks, last, &mut signs, None);
    let span = tokens[from].span.join(tokens[to - 1].span);
    Some(Mark { ticks, range, from, to, span })
}

/// A part of a beat without its count: the ticks say how far it lies before the next count, below zero.
#[must_use]
pub(super) fn lone(tokens: &[Token], at: usize, sign: char) -> Mark {
    let before = match sign {
        'e' => -18,
        '&' => -12,
        _ => -6,
    };
    Mark { ticks: vec![Ticks(before)], range: false, from: at, to: at + 1, span: tokens[at].span }
}

/// "The "and" after 6", "& before 7", "the & count", "and of 6": a half-count named by itself, from its sign on. Where
/// it ends, and the count before it where that is told.
#[must_use]
pub(super) fn named_half(text: &str, t: &[Token], from: usize) -> Option<(usize, Option<i32>)> {
    let quote = |k: usize| t.get(k).is_some_and(|t| matches!(t.kind, Kind::Sign('"' | '\'')));
    let quoted = usize::from(quote(from));
    if !t.get(from + quoted)?.is(W::And) {
        return None;
    }
    let mut to = from + quoted + 1;
    to += usize::from(quoted == 1 && quote(to));
    // "the & count"
    to += usize::from(t.get(to).is_some_and(|t| t.is(W::Count)));
    let number = |k: usize| {
        let one = t.get(k)?.span.of(text).eq_ignore_ascii_case("one");
        let n = if one { Some(1) } else { super::numbers::value(&t[k]) };
        n.filter(|n| (1..=MOST).contains(n)).and_then(|n| i32::try_from(n).ok())
    };
    let Some(word) = t.get(to) else { return Some((to, None)) };
    let at = to + 1 + usize::from(t.get(to + 1).is_some_and(|t| t.is(W::Count)));
    let before = match word.kind {
        Kind::W(W::Before) => number(at).map(|n| n - 1),
        Kind::W(W::After | W::Of) => number(at),
        _ if word.span.is_among(text, among!["between"]) => number(at),
        _ => None,
    };
    let Some(n) = before else { return Some((to, None)) };
    to = at + 1;
    // "between 6 and 7"
    if t.get(to).is_some_and(|t| t.is(W::And)) && number(to + 1) == Some(n + 1) {
        to += 2;
    }
    Some((to, Some(n)))
}

/// Whether a token says that the number before it is one of counts: "16 counts", "16c".
pub(super) fn counts_behind(text: &str, t: &Token) -> bool {
    t.is(W::Count) || t.gap == 0 && matches!(t.span.of(text), "c" | "C")
}

/// "1 to 4", and the same word in other languages whose speakers write English sheets.
fn to_word(text: &str, t: &Token) -> bool {
    t.is(W::To)
        || matches!(t.span.of(text), "à" | "À")
        || t.span
            .is_among(text, among!["bis", "til", "tot", "till", "thru", "through", "al", "hasta", "until"])
}

/// Whether the next token goes on with the same row of counts.
fn follows(text: &str, tokens: &[Token], i: usize, last: Option<i32>) -> bool {
    if matches!(tokens[i].kind, Kind::Number(_)) {
        return counts_on(&tokens[i], last.unwrap_or(0));
    }
    // "3.&.4."
    let next = i + 1 + usize::from(tokens.get(i + 1).is_some_and(|t| t.sign('.') && t.gap == 0));
    sub_sign(text, &tokens[i]) == Some('&')
        && matches!(tokens.get(next).map(|t| t.kind), Some(Kind::Number(_)))
}

#[cfg(test)]
mod tests {
    use super::super::vocabulary::Vocabulary;
    use super::super::words::tokens;
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: &str) {
        let t = tokens(text, 0..text.len(), &Vocabulary::new());
        let m = mark(text, &t, 0, t.len());
        let got = m.map_or(String::from("none"), |m| {
            m.ticks.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ")
        });
        assert_eq!(got, expected, "{text}");
    }

    #[test]
    fn every_form_of_the_trade() {
        check("1-2 Walk", "1 2");
        check("1, 2 Walk", "1 2");
        check("1 2 Walk", "1 2");
        check("1.2. Walk", "1 2");
        check("1-4 Vine", "1 2 3 4");
        check("5–8 Vine", "5 6 7 8");
        check("5~8 Vine", "5 6 7 8");
        check("５～８ Vine", "5 6 7 8");
        check("01-04 Vine", "1 2 3 4");
        check("3&4", "3 3& 4");
        check("3 & 4", "3 3& 4");
        check("3+4", "3 3& 4");
        check("3 and 4", "3 3& 4");
        check("3n4", "3 3& 4");
        check("&3", "2& 3");
        check("&3-4", "2& 3 4");
        check("1&2&", "1 1& 2 2&");
        check("1 & 2 &", "1 1& 2 2&");
        check("1a2", "1 1a 2");
        check("1 a 2", "1 1a 2");
        check("1ah2", "1 1a 2");
        check("1e&a2", "1 1e 1& 1a 2");
        check("1-2&", "1 2 2&");
        check("1,2&3", "1 2 2& 3");
        check("5 6&", "5 6 6&");
        check("1&2 3&4", "1 1& 2 3 3& 4");
        check("1-2-3", "1 2 3");
        check("33&34&", "33 33& 34 34&");
        check("walk", "none");
        check("1 and turn", "1");
        check("4 & rock", "4 4&");
        check("1&e2", "1 1&");
        check("8&1", "8 8& 9");
        check("6-7-8&1", "6 7 8 8& 9");
        check("1. - 2. Rock", "1 2");
        check("1 . 2 & ... Rock", "1 2 2&");
        check("&,7,8 Together", "6& 7 8");
        check("&, 7 - Together", "6& 7");
        check("5&6+7&8 Shuffles", "5 5& 6 7 7& 8");
        check("1-999999999", "1");
        check("999999999", "none");
    }
}
