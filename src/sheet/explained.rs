//! "A coaster step on 1&2, that is right foot back, ...": words that say that a figure's steps follow, put as a colon.

use super::counts::mark;
use super::vocabulary::W;
use super::words::{Kind, Token, acts};
use crate::text::{Among, among};

/// The tokens of a paragraph, with a colon for each such row of words behind a figure and its counts.
#[must_use]
pub(super) fn explained(text: &str, t: Vec<Token>) -> Vec<Token> {
    let found: Vec<(usize, usize)> =
        (1..t.len()).filter_map(|k| meaning(text, &t, k).map(|to| (k, to))).collect();
    if found.is_empty() {
        return t;
    }
    let mut out = Vec::with_capacity(t.len());
    let mut at = 0;
    for (k, to) in found {
        out.extend_from_slice(&t[at..k]);
        out.push(Token { kind: Kind::Sign(':'), ..t[k] });
        at = to;
    }
    out.extend_from_slice(&t[at..]);
    out
}

/// How far back a sentence is looked at, in tokens.
const SENTENCE: usize = 64;

/// Where the words end that begin at the comma `k` and say that steps follow.
fn meaning(text: &str, t: &[Token], k: usize) -> Option<usize> {
    if !matches!(t[k].kind, Kind::Sign(',' | ';' | '-')) {
        return None;
    }
    // The figure stands before its counts, in the same sentence.
    let bracketed = matches!(t[k - 1].kind, Kind::Sign(')'));
    // "on 1, 2 &, that is ..."
    let half = t[k - 1].is(W::And) && k > 1 && matches!(t[k - 2].kind, Kind::Number(_));
    if !bracketed && !half && !matches!(t[k - 1].kind, Kind::Number(_)) {
        return None;
    }
    // Commas among the counts, as in "1, 2 &", end no sentence.
    let ends = |i: &usize| match t[*i].kind {
        Kind::Sign(',') => i.checked_sub(1).is_none_or(|b| !matches!(t[b].kind, Kind::Number(_))),
        Kind::Sign('.' | ';' | ':') => true,
        _ => false,
    };
    let begin = k.saturating_sub(SENTENCE);
    let stop = (begin..k).rev().find(ends);
    if !names(&t[stop.map_or(begin, |s| s + 1)..k]) {
        return None;
    }
    let is = |k: usize, words: &Among| t.get(k).is_some_and(|t| t.span.is_among(text, words));
    let said = if is(k + 1, among!["that", "which", "this"]) && is(k + 2, among!["is", "means"]) {
        k + 3
    } else if is(k + 1, among!["that's", "that’s", "ie", "i.e", "meaning", "namely", "so", "being"]) {
        k + 2
    } else if is(k + 1, among!["i"]) && is(k + 2, among!["."]) && is(k + 3, among!["e"]) {
        k + 4
    } else if bracketed && spelled(text, t, k) {
        return Some(k + 1);
    } else {
        return None;
    };
    let to = said + usize::from(is(said, among!["."]));
    let to = to + usize::from(is(to, among![","]));
    t.get(to..)?.iter().take(3).any(steps).then_some(to)
}

/// Whether words name a figure: "coaster", "kick ball change", "lock step".
fn names(t: &[Token]) -> bool {
    let verb = |t: &Token| matches!(t.kind, Kind::W(w) if acts(w));
    t.iter().any(|t| matches!(t.kind, Kind::Name(_))) || t.windows(2).any(|w| verb(&w[0]) && verb(&w[1]))
}

fn steps(t: &Token) -> bool {
    matches!(t.kind, Kind::W(w) if acts(w) || matches!(w, W::R | W::L | W::RF | W::LF))
}

/// "Dorothy left (3-4&), left forward, right behind, left forward.": whether the rest of the sentence has no counts of
/// its own and a step for each of those before the comma, where the next counts follow on them.
fn spelled(text: &str, t: &[Token], k: usize) -> bool {
    let Some(open) = t[..k].iter().rposition(|t| matches!(t.kind, Kind::Sign('('))) else { return false };
    let Some(own) = mark(text, t, open + 1, k - 1).filter(|m| m.to == k - 1) else {
        return false;
    };
    let end =
        (k + 1..t.len()).find(|k| matches!(t[*k].kind, Kind::Sign('.' | '!' | '\n'))).unwrap_or(t.len());
    let words = &t[k + 1..end];
    if words.iter().any(|t| matches!(t.kind, Kind::Number(_) | Kind::Sign('(' | '[' | ':'))) {
        return false;
    }
    let told = words.split(|t| t.sign(',')).filter(|c| c.iter().any(steps)).count();
    let bracket = (end..t.len()).find(|k| t[*k].sign('('));
    let next = bracket.and_then(|open| mark(text, t, open + 1, t.len()));
    let follows = next.map_or(own.last() % 8 == 0, |m| m.first() == own.last() + 1);
    told == own.ticks.len() && follows
}
