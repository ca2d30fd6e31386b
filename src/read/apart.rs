//! Feet by themselves, figures of the sheet's own, brackets, and what only tells again.

use super::clauses::{explicitness, foot_word, goes};
use super::costs;
use super::meaning::{Edge, Meaning, Own};
use super::phrases::feet_list;
use crate::dance::Foot;
use crate::figures::weight_remark;
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, acts};
use crate::text::lower;

/// A clause that is nothing but a foot, or feet in turn: how many, the first of them, and where they end.
pub(super) fn bare_feet(
    text: &str,
    t: &[Token],
    i: usize,
    clause: usize,
    limit: usize,
) -> Option<(u32, Option<Foot>, usize)> {
    let side = |k: Kind| match k {
        Kind::W(W::R | W::RF) => Some(Foot::Right),
        Kind::W(W::L | W::LF) => Some(Foot::Left),
        _ => None,
    };
    if let Some((feet, to)) = feet_list(text, t, i, limit) {
        let turns = feet.windows(2).all(|w| w[0] != w[1]);
        let ends = to >= limit || matches!(t[to].kind, Kind::Sign(_) | Kind::W(W::And));
        return (turns && ends && feet.len() <= 8).then_some((u32::try_from(feet.len()).ok()?, None, to));
    }
    (clause == i + 1).then(|| side(t[i].kind)).flatten().map(|f| (1, Some(f), i + 1))
}

/// "L lock step forward": where all words of a clause are the name of a figure, none of them is a step by itself.
pub(super) fn whole_names(t: &[Token], clause: usize, out: &mut [Edge]) {
    let whole =
        |e: &Edge| e.to == clause && matches!(&e.meaning, Meaning::Figure(_)) && e.cost < costs::LABEL;
    if !out.iter().any(whole) {
        return;
    }
    for e in out {
        let verb = e.to < clause && matches!(t[e.to].kind, Kind::W(w) if acts(w) && w != W::Turn);
        if verb && matches!(e.meaning, Meaning::Event(_)) {
            e.cost += costs::LABEL;
        }
    }
}

/// "Step R back" is one step: cut in two, another foot would go back.
pub(super) fn cut_in_two(t: &[Token], i: usize) -> bool {
    let near = t[i].is(W::Together) && i > 1 && matches!(t[i - 2].kind, Kind::W(W::Touch | W::Point));
    (goes(t[i].kind) || near)
        && i > 1
        && foot_word(t[i - 1].kind)
        && matches!(t[i - 2].kind, Kind::W(w) if acts(w))
}

/// "Close L fwd R", "touch L side L": a place with a foot of its own behind it begins another step.
pub(super) fn place_led(t: &[Token], i: usize, clause: usize) -> bool {
    let foot = |k: usize| t.get(k).filter(|_| k < clause).is_some_and(|t| foot_word(t.kind));
    let ends = t.get(i + 2).filter(|_| i + 2 < clause).is_none_or(
        |t| matches!(t.kind, Kind::W(w) if (acts(w) || w == W::And) && !goes(t.kind) && w != W::Turn),
    );
    matches!(t[i].kind, Kind::W(W::Forward | W::Back | W::Side))
        && i > 1
        && foot(i - 1)
        && foot(i + 1)
        && ends
}

/// "Monterey, twice. Point, turn, point, together.": steps without a foot behind a sentence that names their figure.
pub(super) fn told_again(t: &[Token], i: usize, end: usize) -> bool {
    let stops = |t: &Token| matches!(t.kind, Kind::Sign('.' | '\n' | '!' | '?'));
    let from = t[..i.saturating_sub(1)].iter().rposition(stops).map_or(0, |k| k + 1);
    let before = &t[from..i];
    let names = before
        .iter()
        .any(|t| matches!(t.kind, Kind::Name(_) | Kind::Times(_) | Kind::W(W::Twice | W::Change)));
    let listed = t[i..end].iter().filter(|t| t.sign(',')).count() >= 2;
    let bare =
        t[i..end].iter().all(|t| !foot_word(t.kind) && !matches!(t.kind, Kind::Clock(_) | Kind::Name(_)));
    names && listed && bare
}

/// The name of a sheet's own figure at a token: its lead and where it ends.
pub(super) fn own_at(
    text: &str,
    t: &[Token],
    i: usize,
    clause: usize,
    own: &Own,
) -> Option<(Option<Foot>, usize)> {
    let mut lead = None;
    let mut n = 0;
    let mut end = None;
    for (j, token) in t.iter().enumerate().take(clause).skip(i) {
        match token.kind {
            Kind::W(W::R | W::RF) if lead.is_none() => lead = Some(Foot::Right),
            Kind::W(W::L | W::LF) if lead.is_none() => lead = Some(Foot::Left),
            Kind::W(W::The | W::To) | Kind::Sign('-') => continue,
            _ if n < own.name.len() && lower(token.span.of(text)) == own.name[n] => {
                n += 1;
            }
            _ => break,
        }
        if n == own.name.len() {
            end = Some(j + 1);
        }
    }
    end.map(|to| (lead, to))
}

/// A remark in brackets may be passed over more easily than one in the line.
pub(super) fn bracket(
    text: &str,
    t: &[Token],
    i: usize,
    limit: usize,
    push: &mut dyn FnMut(usize, u32, Meaning),
) {
    let close = (i + 1..limit).find(|j| matches!(t[*j].kind, Kind::Sign(')' | ']')));
    let Some(close) = close else { return };
    let inner = &t[i + 1..close];
    let option = inner.iter().any(|t| t.is(W::Option) || t.is(W::Or));
    let before = t[..i].iter().rev().take_while(|t| !matches!(t.kind, Kind::Sign(_)));
    let named = before.take(6).any(|t| matches!(t.kind, Kind::Name(_)));
    let cost = match explicitness(text, inner) {
        _ if option => 0,
        // "Toe strut left (toe, heel)" tells what the name says.
        _ if named && !inner.iter().any(|t| foot_word(t.kind)) => 2,
        costs::SKIP_EXPLICIT => 36,
        costs::SKIP_PLAIN => 2,
        _ => 14,
    };
    // Clocks and remarks about the weight are worth reading.
    // "Your weight arrives when the heel comes down" tells how it is done.
    let told = |k: usize| {
        weight_remark(t, k, close)
            .is_some_and(|(_, to)| !t[k..close].iter().any(|t| t.is(W::While)) || to >= close)
    };
    let weight = (i + 1..close).any(|k| t[k].is(W::Weight)) && (i + 1..close).any(told);
    if weight || inner.iter().any(|t| matches!(t.kind, Kind::Clock(_))) {
        push(close + 1, cost + costs::CLOCK + 8, Meaning::Unread);
    } else {
        push(close + 1, cost, Meaning::Skip);
    }
}
