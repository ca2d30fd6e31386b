//! Words that only lead to what is danced, or tell once more what was: where they end.

use super::clauses::foot_word;
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, acts};
use crate::text::{Among, among};

/// "Slide L up and lock it behind R", "bring the foot in and step on it": the first words only lead to what is done with
/// it, which begins where this says; "cross-lock" is a lock.
pub(super) fn leads_to(t: &[Token], i: usize, clause: usize) -> Option<usize> {
    let glued = |k: usize| t.get(k).is_some_and(|t| k < clause && t.gap == 0);
    if t[i].is(W::Cross) && glued(i + 1) && t[i + 1].sign('-') && glued(i + 2) && t[i + 2].is(W::Lock) {
        return Some(i + 2);
    }
    if !matches!(t[i].kind, Kind::W(W::Drag | W::Slide | W::Make | W::Lift | W::Sweep)) {
        return None;
    }
    let and = (i + 1..clause.min(i + 7)).find(|k| t[*k].is(W::And))?;
    let foot = t[i..and].iter().any(|t| foot_word(t.kind));
    let does =
        |t: &Token| matches!(t.kind, Kind::W(w) if acts(w) || matches!(w, W::Lock | W::Close | W::Place));
    let it = t.get(and + 2).is_some_and(|t| and + 2 < clause && t.is(W::It));
    (foot && it && does(&t[and + 1])).then_some(and + 1)
}

/// Whether another clock is told behind one before anything is danced.
pub(super) fn passed(t: &[Token], i: usize, limit: usize) -> bool {
    let dances = |t: &Token| match t.kind {
        Kind::Name(_) | Kind::Feet => true,
        Kind::W(w) => acts(w) || foot_word(t.kind),
        _ => false,
    };
    t[i + 1..limit.max(i + 1)]
        .iter()
        .take(9)
        .take_while(|t| !dances(t))
        .any(|t| matches!(t.kind, Kind::Clock(_)))
}

/// "R forward, half pivot left. Again! R forward, half pivot left": a word that says so before the same steps are written
/// once more; where they begin.
pub(super) fn written_again(text: &str, t: &[Token], i: usize, limit: usize) -> Option<usize> {
    let again = t[i].is(W::Again) || t[i].is(W::Repeat) || t[i].is(W::Same);
    let begins = i == 0 || matches!(t[i - 1].kind, Kind::Sign(_) | Kind::W(W::Then | W::And));
    let to = i
        + 1
        + usize::from(t.get(i + 1).is_some_and(|t| matches!(t.kind, Kind::Sign('!' | ':' | '-' | ','))));
    let same = |a: &[Token], b: &[Token]| {
        a.iter()
            .zip(b)
            .all(|(a, b)| a.kind == b.kind && a.span.of(text).eq_ignore_ascii_case(b.span.of(text)))
    };
    // Three words in a row are no accident.
    let steps = t.get(to..to + 3).filter(|_| again && begins && to + 3 <= limit)?;
    t[..i].windows(3).any(|w| same(w, steps)).then_some(to)
}

/// "Coaster triple", "left sailor step (triple)": what else a figure of three steps in two counts is called; where the
/// word ends.
pub(super) fn called_triple(text: &str, t: &[Token], i: usize, limit: usize) -> Option<usize> {
    let is = |k: usize, words: &Among| t.get(k).is_some_and(|t| t.span.is_among(text, words));
    let at = if t[i].sign('(') { i + 1 } else { i };
    let name = i.checked_sub(if i > 1 && t[i - 1].is(W::Step) { 2 } else { 1 })?;
    let three = is(
        name,
        among!["coaster", "sailor", "shuffle", "shuf", "chasse", "chass\u{e9}", "mambo", "lock", "samba"],
    );
    let ends = at + 1 >= limit || matches!(t[at + 1].kind, Kind::Sign(_) | Kind::W(W::And));
    (three && at < limit && is(at, among!["triple"]) && ends).then_some(2 * at + 1 - i)
}
