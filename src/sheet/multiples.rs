//! What is said once of several steps: how often, as in "4x paddle: right forward, quarter left", and how each of
//! them turns, as in "RF, LF, RF, LF, 1/4 L each".

use super::Chunk;
use super::numbers::value;
use super::vocabulary::W;
use super::words::{Kind, Token, acts};
use crate::text::{Span, among};

/// What is to be danced several times: how often, where that is said, and the words that it is said of.
struct Multiple {
    times: u32,
    span: Span,
    /// Where the words about the number begin and end.
    told: (usize, usize),
    /// Behind the last word of the steps.
    end: usize,
}

/// Whether "x" stands here as "times", before a bracket or the name of a figure: "2 x (...)", "2 x R Monterey 1/2 R".
pub(super) fn crosses(text: &str, t: &[Token], at: usize) -> bool {
    let sign = |t: &Token| t.sign('*') || t.span.is_among(text, among!["x", "\u{d7}"]);
    if !t.get(at).is_some_and(sign) {
        return false;
    }
    let clause =
        t[at + 1..].iter().take(6).take_while(|t| !matches!(t.kind, Kind::Sign(',' | ';' | '.' | '\n')));
    let over = |t: &Token| matches!(t.kind, Kind::W(W::Across | W::Front | W::Behind));
    let named = clause.clone().any(|t| matches!(t.kind, Kind::Name(_))) && !clause.clone().any(over);
    named || t.get(at + 1).is_some_and(|t| matches!(t.kind, Kind::Sign('(' | '[')))
}

/// How often, and how many words that takes: "4x", "Twice", "three times", "2 x".
fn number(text: &str, t: &[Token], at: usize) -> Option<(u32, usize)> {
    let times = |k: usize| t.get(k).is_some_and(|t| t.is(W::Times));
    let crossed = |k: usize| crosses(text, t, k);
    match t.get(at)?.kind {
        Kind::Times(n) => Some((n, 1)),
        Kind::W(W::Twice) => Some((2, 1)),
        Kind::W(W::Thrice) => Some((3, 1)),
        Kind::Number(n) if times(at + 1) || crossed(at + 1) => Some((n, 2)),
        Kind::W(w) if times(at + 1) => Some((value(&t[at]).filter(|_| w != W::The)?, 2)),
        _ => None,
    }
}

/// "4x paddle: ...", "Do this twice: ..." and "2x (...)", told where words begin: at `from` or behind a sign.
fn said(text: &str, t: &[Token], from: usize) -> Option<Multiple> {
    let mut at = from + t[from..].iter().position(|t| !matches!(t.kind, Kind::Sign(_)))?;
    while matches!(t.get(at)?.kind, Kind::W(W::Make | W::The | W::It | W::Then | W::And)) {
        at += 1;
    }
    let (times, len) = number(text, t, at)?;
    let verbs = |t: &[Token]| {
        t.iter().any(|t| {
            matches!(t.kind, Kind::Name(_))
                || matches!(t.kind, Kind::W(w) if acts(w) || matches!(w, W::Side | W::Forward | W::Back))
        })
    };
    let opens = t.get(at + len).filter(|t| matches!(t.kind, Kind::Sign('(' | '[')));
    let (told, end) = if opens.is_some() {
        let closes = |t: &Token| matches!(t.kind, Kind::Sign(')' | ']'));
        (at + len, at + len + t[at + len..].iter().position(closes)? + 1)
    } else if matches!(t[at].kind, Kind::Number(_)) && crosses(text, t, at + 1) {
        let stops = |t: &Token| matches!(t.kind, Kind::Sign(',' | ';' | '.' | '(' | '\n'));
        (at + len, t[at + len..].iter().position(stops).map_or(t.len(), |k| at + len + k))
    } else {
        let colon = (at + len..t.len().min(at + len + 5)).find(|k| t[*k].sign(':'))?;
        let words =
            t[at + len..colon].iter().all(|t| matches!(t.kind, Kind::W(_) | Kind::Name(_) | Kind::Unknown));
        let stops = |t: &Token| matches!(t.kind, Kind::Sign(';' | '.' | '\n'));
        let end = t[colon..].iter().position(stops).map_or(t.len(), |k| colon + k);
        (words.then_some(colon + 1)?, end)
    };
    ((2..=16).contains(&times) && verbs(&t[told..end])).then_some(Multiple {
        times,
        span: t[at].span,
        told: (at, told),
        end,
    })
}

/// Puts what was said before steps of the last chunk behind them, where "x4" usually stands.
pub(super) fn behind(text: &str, tokens: &mut Vec<Token>, chunk: &mut Chunk) {
    let mut from = chunk.from;
    while from < chunk.to {
        if let Some(m) = said(text, &tokens[..chunk.to], from) {
            tokens.insert(m.end, Token { kind: Kind::Times(m.times), span: m.span, gap: 1 });
            tokens.drain(m.told.0..m.told.1);
            chunk.to -= m.told.1 - m.told.0;
            chunk.to += 1;
            from = m.end - (m.told.1 - m.told.0) + 1;
        } else {
            let next = |t: &Token| matches!(t.kind, Kind::Sign(',' | ';' | '.' | '/' | '|' | '>' | '\n'));
            from = tokens[from..chunk.to].iter().position(next).map_or(chunk.to, |k| from + k + 1);
        }
    }
}

fn is_each(text: &str, t: &Token) -> bool {
    t.span.is_among(text, among!["each", "every"])
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

fn share(t: &Token) -> bool {
    matches!(t.kind, Kind::Fraction(_) | Kind::W(W::Quarter | W::Half))
}

/// The way that is told beside a share of a turn.
fn way_of(t: &[Token], k: usize) -> Option<Token> {
    let way = |t: &&Token| matches!(t.kind, Kind::W(W::R | W::L));
    let small = |t: &&Token| matches!(t.kind, Kind::W(W::Turn | W::To | W::The));
    let after = k + 1 + t[k + 1..].iter().take_while(small).count();
    let before = t[..k].iter().rev().find(|t| !small(t)).filter(way);
    t.get(after).filter(way).or(before).copied()
}

/// "Jazz box 1/4 left (cross L, back R 1/4, side L)": a turn told again without its way goes the way of the name.
pub(super) fn one_way(tokens: &mut Vec<Token>, chunk: &mut Chunk) {
    let row = &tokens[chunk.from..chunk.to];
    let Some(open) = row.iter().position(|t| matches!(t.kind, Kind::Sign('(' | '[' | ':'))) else { return };
    let mut told = (0..open).filter(|k| share(&row[*k])).filter_map(|k| way_of(&row[..open], k));
    let Some(way) = told.next().filter(|way| told.all(|t| t.kind == way.kind)) else { return };
    let plain =
        |t: &Token| matches!(t.kind, Kind::W(w) if acts(w) || super::chunks::says(core::slice::from_ref(t)));
    let shut = row[open..]
        .iter()
        .position(|t| matches!(t.kind, Kind::Sign(')' | ']' | '.')))
        .unwrap_or(row.len() - open);
    let bare: Vec<usize> = (open..open + shut)
        .filter(|k| {
            let from = row[..*k].iter().rposition(|t| matches!(t.kind, Kind::Sign(_))).map_or(0, |k| k + 1);
            let ends = row.get(*k + 1).is_none_or(|t| matches!(t.kind, Kind::Sign(_)));
            ends && share(&row[*k]) && row[from..*k].iter().any(plain)
        })
        .collect();
    for k in bare.into_iter().rev() {
        let at = chunk.from + k;
        let span = tokens[at].span;
        tokens.insert(at + 1, Token { kind: way.kind, span, gap: 1 });
        chunk.to += 1;
    }
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
