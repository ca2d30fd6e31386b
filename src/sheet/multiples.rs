//! "4x paddle: right forward, quarter left": how often, said before the steps.

use super::Chunk;
use super::mentions::value;
use super::vocabulary::W;
use super::words::{Kind, Token, acts};
use crate::text::Span;

/// How often, and where the words about it end: "4x paddle:", "Twice:", "Do this three times:".
fn said(t: &[Token]) -> Option<(u32, Span, usize)> {
    let mut at = t.iter().position(|t| !matches!(t.kind, Kind::Sign(_)))?;
    while matches!(t.get(at)?.kind, Kind::W(W::Make | W::The | W::It)) {
        at += 1;
    }
    let times = |k: usize| t.get(k).is_some_and(|t| t.is(W::Times));
    let (n, len) = match t.get(at)?.kind {
        Kind::Times(n) => (n, 1),
        Kind::W(W::Twice) => (2, 1),
        Kind::W(W::Thrice) => (3, 1),
        Kind::Number(n) if times(at + 1) => (n, 2),
        Kind::W(w) if times(at + 1) => (value(&t[at]).filter(|_| w != W::The)?, 2),
        _ => return None,
    };
    let colon = (at + len..t.len().min(at + len + 5)).find(|k| t[*k].sign(':'))?;
    let words =
        t[at + len..colon].iter().all(|t| matches!(t.kind, Kind::W(_) | Kind::Name(_) | Kind::Unknown));
    let verbs = |t: &[Token]| {
        t.iter().any(|t| {
            matches!(t.kind, Kind::Name(_))
                || matches!(t.kind, Kind::W(w) if acts(w) || matches!(w, W::Side | W::Forward | W::Back))
        })
    };
    ((2..=16).contains(&n) && words && verbs(&t[colon + 1..])).then_some((n, t[at].span, colon + 1))
}

/// Puts what was said before the steps of the last chunk behind them, where "x4" usually stands.
pub(super) fn behind(tokens: &mut Vec<Token>, chunk: &mut Chunk) {
    let Some((n, span, len)) = said(&tokens[chunk.from..chunk.to]) else { return };
    tokens.drain(chunk.from..chunk.from + len);
    chunk.to -= len;
    tokens.insert(chunk.to, Token { kind: Kind::Times(n), span, gap: 1 });
    chunk.to += 1;
}
