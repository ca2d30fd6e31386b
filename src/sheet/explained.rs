//! "A coaster step on 1&2, that is right foot back, ...": words that say that a figure's steps follow, put as a colon.

use super::vocabulary::W;
use super::words::{Kind, Token, acts};
use crate::text::lower;

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

/// Where the words end that begin at the comma `k` and say that steps follow.
fn meaning(text: &str, t: &[Token], k: usize) -> Option<usize> {
    if !matches!(t[k].kind, Kind::Sign(',' | ';' | '-')) {
        return None;
    }
    let is = |k: usize, words: &[&str]| t.get(k).is_some_and(|t| words.contains(&&*lower(t.span.of(text))));
    let said = if is(k + 1, &["that", "which"]) && is(k + 2, &["is", "means"]) {
        k + 3
    } else if is(k + 1, &["that's", "that’s", "ie", "i.e", "meaning", "namely"]) {
        k + 2
    } else if is(k + 1, &["i"]) && is(k + 2, &["."]) && is(k + 3, &["e"]) {
        k + 4
    } else {
        return None;
    };
    let to = said + usize::from(is(said, &["."]));
    let to = to + usize::from(is(to, &[","]));
    // The figure stands before its counts, in the same sentence.
    let counted = matches!(t[k - 1].kind, Kind::Number(_) | Kind::Sign(')'));
    let stop = t[..k].iter().rposition(|t| matches!(t.kind, Kind::Sign('.' | ',' | ';' | ':')));
    let named = t[stop.map_or(0, |s| s + 1)..k].iter().any(|t| matches!(t.kind, Kind::Name(_)));
    let steps = t
        .get(to..)?
        .iter()
        .take(3)
        .any(|t| matches!(t.kind, Kind::W(w) if acts(w) || matches!(w, W::R | W::L | W::RF | W::LF)));
    (counted && named && steps).then_some(to)
}
