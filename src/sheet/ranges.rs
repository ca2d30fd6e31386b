//! Ranges of counts at the head of a section: `1-8`, "one to six", "counts 9 to 16".

use super::counts::MOST;
use super::labels::{cardinal, roman};
use super::vocabulary::W;
use super::words::{Kind, Token};
use crate::text::lower;

/// `1-8`, `9 to 16`, `1>8` at this token.
pub(super) fn range(t: &[Token], at: usize) -> Option<(i32, i32, usize)> {
    any_range(t, at).filter(|(a, ..)| a % 2 == 1)
}

/// The same from any count on: `[10-17]`, where a section ends with 8&1.
pub(super) fn any_range(t: &[Token], at: usize) -> Option<(i32, i32, usize)> {
    let Kind::Number(a) = t.get(at)?.kind else { return None };
    let joined = matches!(t.get(at + 1)?.kind, Kind::Sign('-' | '>' | '~') | Kind::W(W::To));
    let Kind::Number(b @ ..=MOST) = t.get(at + 2)?.kind else { return None };
    let (a, b) = (i32::try_from(a).ok()?, i32::try_from(b).ok()?);
    (joined && a >= 1 && b >= a + 3 && b - a < 200).then_some((a, b, at + 3))
}

/// "one to six", "thirteen to eighteen": the same in words.
pub(super) fn range_in_words(text: &str, t: &[Token], at: usize) -> Option<(i32, i32, usize)> {
    let (a, len) = spoken_number(text, t, at)?;
    if !t.get(at + len)?.is(W::To) {
        return None;
    }
    let (b, more) = spoken_number(text, t, at + len + 1)?;
    (b >= a + 5 && b - a < 16 && a % 2 == 1).then_some((a, b, at + len + 1 + more))
}

/// A number in words, and how many they are.
pub(super) fn spoken_number(text: &str, t: &[Token], at: usize) -> Option<(i32, usize)> {
    let first = t.get(at)?;
    let teens = ["seventeen", "eighteen", "nineteen"];
    let word = lower(first.span.of(text));
    if let Some(n) = teens.iter().position(|w| word == *w) {
        return Some((17 + i32::try_from(n).ok()?, 1));
    }
    if let Some((n, len)) = super::head::number(t, at)
        && !matches!(first.kind, Kind::Number(_))
    {
        return Some((i32::try_from(n).ok()?, len));
    }
    let n = cardinal(text, first).filter(|_| roman(&word).is_none())?;
    Some((i32::try_from(n).ok()?, 1))
}

/// The counts in brackets behind a few words that say nothing to do: ", the odd four (33 to 36)".
pub(super) fn told_range(t: &[Token], from: usize) -> Option<((i32, i32), usize)> {
    for k in from..t.len().min(from + 8) {
        match t[k].kind {
            Kind::Sign('(' | '[') => {
                let (a, b, end) = range(t, k + 1)?;
                let closed = t.get(end).is_some_and(|t| matches!(t.kind, Kind::Sign(')' | ']')));
                let over = t.get(end + 1).is_none_or(|t| matches!(t.kind, Kind::Sign('.' | ':' | '-')));
                return (closed && over && k > from).then_some(((a, b), end + 1));
            }
            Kind::Name(_) | Kind::Feet | Kind::Fraction(_) | Kind::Sign('.' | ':') => return None,
            Kind::W(w) if super::words::acts(w) || matches!(w, W::R | W::L | W::RF | W::LF) => return None,
            _ => {}
        }
    }
    None
}

/// The counts behind the letter of a part, "(1-8)", " 9-16", ": counts 1-8", and one past them.
pub(super) fn letter_range(t: &[Token], from: usize) -> Option<((i32, i32), usize)> {
    let sign = |t: &Token| matches!(t.kind, Kind::Sign('(' | '[' | ':' | '-' | ',' | '.'));
    let signs = t.get(from..)?.iter().take_while(|t| sign(t)).count();
    let at = from + signs + usize::from(t.get(from + signs).is_some_and(|t| t.is(W::Count)));
    let (a, b, to) = range(t, at)?;
    (signs <= 2 && b - a >= 5).then_some(((a, b), to))
}
