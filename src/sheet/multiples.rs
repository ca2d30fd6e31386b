//! What is said once of several steps: how often, as in "4x paddle: right forward, quarter left", and how each of
//! them turns, as in "RF, LF, RF, LF, 1/4 L each".

use super::Chunk;
use super::mentions::value;
use super::vocabulary::W;
use super::words::{Kind, Token, acts};
use crate::text::{Span, is_among};

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

fn is_each(text: &str, t: &Token) -> bool {
    is_among(t.span.of(text), &["each", "every"])
}

/// "1/4 L each", "turning 1/8 R each step": the turn that each step of a row makes.
fn each(text: &str, c: &[Token]) -> Option<[Token; 2]> {
    let is_each = |t: &Token| is_each(text, t);
    let turn =
        c.iter().find(|t| matches!(t.kind, Kind::Fraction(_) | Kind::W(W::Quarter | W::Half | W::Eighth)))?;
    let side = c.iter().find(|t| matches!(t.kind, Kind::W(W::R | W::L)))?;
    let small = |t: &Token| {
        matches!(
            t.kind,
            Kind::W(W::Turn | W::Make | W::The | W::Times | W::Step | W::Count | W::On | W::With)
        )
    };
    let said = c.iter().any(is_each);
    let only = c.iter().all(|t| t == turn || t == side || is_each(t) || small(t));
    (said && only).then_some([*turn, *side])
}

/// Puts a turn that is said of each step of the last chunk before every one of its steps.
pub(super) fn spread(text: &str, tokens: &mut Vec<Token>, chunk: &mut Chunk) {
    let row = &tokens[chunk.from..chunk.to];
    if !row.iter().any(|t| is_each(text, t)) {
        return;
    }
    let parts = |t: &Token| matches!(t.kind, Kind::Sign(',' | ':' | ';' | '(' | ')' | '[' | ']' | '\n'));
    let ends: Vec<usize> = (0..row.len()).filter(|i| parts(&row[*i])).chain([row.len()]).collect();
    let mut out: Vec<Token> = Vec::with_capacity(row.len() + 12);
    let Some((at, turn)) = ends.iter().enumerate().find_map(|(k, end)| {
        let from = k.checked_sub(1).map_or(0, |k| ends[k] + 1);
        each(text, &row[from..*end]).map(|turn| ((from, *end), turn))
    }) else {
        return;
    };
    let mut from = 0;
    let mut steps = 0;
    for end in ends {
        let c = &row[from..end];
        let foot = c.iter().position(|t| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF)));
        let named = row.get(end).is_some_and(|t| t.sign(':'));
        if (from, end) == at {
        } else if let Some(foot) = foot.filter(|_| !named) {
            steps += 1;
            out.extend_from_slice(&c[..foot]);
            out.extend(turn);
            // A foot by itself is a step.
            if !c.iter().any(|t| matches!(t.kind, Kind::W(w) if acts(w) || super::chunks::says(&[*t]))) {
                out.push(Token { kind: Kind::W(W::Step), span: c[foot].span, gap: 1 });
            }
            out.extend_from_slice(&c[foot..]);
        } else {
            out.extend_from_slice(c);
        }
        out.extend(row.get(end));
        from = end + 1;
    }
    if steps >= 2 {
        tokens.truncate(chunk.from);
        tokens.append(&mut out);
        chunk.to = tokens.len();
    }
}
