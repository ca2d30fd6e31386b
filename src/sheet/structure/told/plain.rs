//! Steps as they are told in sentences, without the words that only explain them.

use super::super::{Kind, Token, W};
use super::steps::{foot, verb};
use crate::text::among;

/// Puts counts in brackets behind their steps, "(1) sway right, (2) sway left".
fn counts_behind(t: &mut Vec<Token>) {
    let mark = |k: usize| match t.get(k..k + 3) {
        Some([open, n, close]) => open.sign('(') && matches!(n.kind, Kind::Number(_)) && close.sign(')'),
        _ => false,
    };
    let starts: Vec<usize> = (0..t.len()).filter(|k| mark(*k)).collect();
    if starts.first() != Some(&0) || starts.len() < 2 {
        return;
    }
    let mut out = Vec::with_capacity(t.len());
    for (n, from) in starts.iter().enumerate() {
        let end = starts.get(n + 1).copied().unwrap_or(t.len());
        let steps = &t[from + 3..end];
        let words = steps.iter().rposition(|t| !matches!(t.kind, Kind::Sign(',' | ';'))).map_or(0, |k| k + 1);
        out.extend_from_slice(&steps[..words]);
        out.extend_from_slice(&t[*from..from + 3]);
        out.extend_from_slice(&steps[words..]);
    }
    *t = out;
}

/// Leaves out of steps what only explains them.
pub(in crate::sheet::structure) fn plain(text: &str, t: &mut Vec<Token>) {
    counts_behind(t);
    // "Rock fwd R/recover L/coaster step": slashes between steps.
    let slashes = t.iter().filter(|t| t.sign('/')).count();
    for k in 1..t.len() {
        let number = matches!(t[k - 1].kind, Kind::Number(_))
            || t.get(k + 1).is_some_and(|t| matches!(t.kind, Kind::Number(_)));
        if slashes >= 2 && t[k].sign('/') && !number {
            t[k].kind = Kind::Sign(',');
        }
    }
    // "2 x 1/2 pivot"
    for k in (1..t.len()).rev() {
        if let Kind::Number(n @ 2..=8) = t[k - 1].kind
            && t[k].span.of(text).eq_ignore_ascii_case("x")
        {
            t[k - 1].kind = Kind::Times(n);
            t.remove(k);
        }
    }
    // "Walk all the way round"
    if let Some(k) =
        (2..t.len()).find(|k| t[*k].is(W::Around) && t[*k - 1].span.is_among(text, among!["way"]))
    {
        let said = |t: &Token| t.is(W::The) || t.span.is_among(text, among!["all", "whole", "way"]);
        let from = t[..k].iter().rposition(|t| !said(t)).map_or(0, |k| k + 1);
        t.drain(from..k);
    }
    // "Rocking chair + pivot"
    for token in t.iter_mut().filter(|t| t.is(W::And) && t.gap > 0 && t.span.of(text) == "+") {
        token.kind = Kind::Sign(',');
    }
    // "Right and left, then right and left once more": written out.
    let more = t.len().checked_sub(2).filter(|k| t[*k].is(W::Once) && t[*k + 1].is(W::More));
    if let Some(k) = more.filter(|k| *k > 0 && foot(&t[*k - 1])) {
        t.truncate(k);
    }
    // "Rocking chair, 2x pivot 1/2 L": how often stands behind the step.
    if let Some(k) = (0..t.len()).find(|k| {
        matches!(t[*k].kind, Kind::Times(2..))
            && (*k == 0 || t[*k - 1].sign(','))
            && t.get(k + 1).is_some_and(|t| !t.sign(','))
    }) {
        let end = (k..t.len()).find(|j| matches!(t[*j].kind, Kind::Sign(',' | '('))).unwrap_or(t.len());
        t[k..end].rotate_left(1);
    }
    // "Pivot 1/2 L (R fwd)", "rocking chair (RF starts, fwd first)"
    let mut k = 1;
    while k < t.len() {
        let close = (k..t.len()).find(|j| matches!(t[*j].kind, Kind::Sign(')' | ']')));
        if let (Kind::Sign('(' | '['), Some(close)) = (t[k].kind, close) {
            let inner = &t[k + 1..close];
            let way = inner.iter().any(|t| matches!(t.kind, Kind::W(W::Forward | W::Back | W::Side)));
            let told =
                inner.iter().any(|t| verb(t) || t.is(W::Weight) || matches!(t.kind, Kind::Fraction(_)));
            if way && !told && inner.iter().filter(|t| foot(t)).count() <= 1 {
                t.drain(k..=close);
                continue;
            }
        }
        k += 1;
    }
    // "Rocking chair with the right foot, forward and back"
    let clauses: Vec<&[Token]> = t.split(|t| t.sign(',')).collect();
    let named = |c: &[Token]| c.iter().any(|t| matches!(t.kind, Kind::Name(_)));
    let way = |c: &[Token]| {
        !c.is_empty()
            && c.iter().all(|t| matches!(t.kind, Kind::W(W::Forward | W::Back | W::And | W::Then | W::First)))
    };
    let each = |c: &[Token]| {
        let weighs = c.iter().any(|t| t.is(W::Weight));
        !weighs
            && c.windows(2)
                .any(|w| w[0].span.is_among(text, among!["each", "both", "every"]) && w[1].is(W::Times))
            || c.windows(2).any(|w| {
                w[0].is(W::Weight)
                    && w[1].span.is_among(text, among!["each", "both", "on"])
                    && c.len() <= 4
                    && !c.iter().any(foot)
            })
    };
    // "Both steps out to the side", "the first sway with a little step of the right foot"
    let both = |c: &[Token]| {
        let one = c.first().is_some_and(|t| t.is(W::The))
            && c.get(1).is_some_and(|t| matches!(t.kind, Kind::W(W::First | W::Second | W::Last)))
            && c.iter().any(|t| t.is(W::With));
        one || c.first().is_some_and(|t| t.is(W::Both)) && !c.iter().any(foot)
    };
    let explains = |k: usize| {
        named(clauses[k - 1]) && way(clauses[k])
            || each(clauses[k])
            || both(clauses[k]) && k + 1 == clauses.len()
    };
    if let Some(k) = (1..clauses.len()).find(|k| explains(*k)) {
        let from: usize = clauses[..k].iter().map(|c| c.len() + 1).sum();
        let len = clauses[k].len();
        let to = (from + len).min(t.len());
        t.drain(from - 1..to);
    }
}
