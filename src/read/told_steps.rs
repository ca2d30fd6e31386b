//! Words behind the name of a figure that tell its steps again: how it ends, or each of them.

use super::around::{Around, side};
use super::clauses::clause_end;
use super::figure_words::named;
use super::meaning::{Meaning, Named};
use crate::dance::{Action, Effect, Foot, Place, Who};
use crate::figures::Figure;
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, acts};
use crate::text::among;

/// How the clause behind a figure closes it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Closing {
    /// The foot, where it is told.
    foot: Option<Foot>,
}

/// A next clause that tells how a figure ends: ", close with L", ", cross left over".
pub(super) fn closing_next(text: &str, t: &[Token], end: usize, limit: usize) -> Option<Closing> {
    let end = end
        + t[end.min(limit)..limit]
            .iter()
            .take_while(|t| matches!(t.kind, Kind::W(W::Foot | W::Side)))
            .count();
    let comma = t.get(end).filter(|_| end < limit)?;
    // "jazz box with L forward", "jazz box stepping left forward", "jazz box ending with left forward"
    let led =
        matches!(comma.kind, Kind::W(W::With | W::End)) || comma.is(W::Step) && comma.span.range().len() == 8;
    if !led && !matches!(comma.kind, Kind::Sign(',' | '-') | Kind::W(W::And)) {
        return None;
    }
    let from = if led { end } else { end + 1 };
    let words = &t[from..clause_end(t, from, limit).max(from)];
    // "at the end", "on 4" and "instead of together" say no more.
    let tail = words
        .iter()
        .position(|t| matches!(t.kind, Kind::W(W::At | W::On)) || t.span.is_among(text, among!["instead"]));
    let words = &words[..tail.unwrap_or(words.len())];
    // "L forward" tells the last step as well, where it names the foot.
    let says_no_more = |t: &&Token| {
        matches!(t.kind, Kind::W(W::The | W::Then | W::With | W::End | W::Step | W::Foot | W::Last))
            || t.span.is_among(text, among!["only", "but"])
    };
    let footed = words.iter().any(|t| side(t.kind).is_some())
        && words.iter().filter(|t| !says_no_more(t)).count() == 2;
    let closes = |t: &&Token| {
        matches!(t.kind, Kind::W(W::Close | W::Together | W::Cross)) || footed && t.is(W::Forward)
    };
    let verb = words.iter().take(if footed { 6 } else { 3 }).position(|t| closes(&t))?;
    let small = |t: &Token| {
        let foot = side(t.kind).is_some();
        foot || t.is(W::And) || says_no_more(&t) && (footed || !matches!(t.kind, Kind::W(W::Step)))
    };
    if !words[..verb].iter().all(small) {
        return None;
    }
    Some(Closing { foot: words.iter().find_map(|t| side(t.kind)) })
}

/// The foot that crosses in a figure, told behind its name: ", R over L", "(left in front)", "(R crosses)", "with R
/// over", and where that ends.
pub(super) fn crosser_told(t: &[Token], end: usize, limit: usize) -> Option<(Foot, usize)> {
    let sign = t.get(end).filter(|_| end + 2 < limit)?;
    let bracket = sign.sign('(');
    let with = sign.is(W::With);
    if !bracket && !with && !sign.sign(',') {
        return None;
    }
    let to = clause_end(t, end + 1, limit);
    let to = (end + 1..to).find(|k| with && t[*k].is(W::And)).unwrap_or(to);
    let words = &t[end + 1..to.max(end + 1)];
    let foot = side(words.first()?.kind)?;
    let way =
        |t: &Token| matches!(t.kind, Kind::W(W::Across | W::Behind | W::Front)) || bracket && t.is(W::Cross);
    let small = |t: &Token| {
        matches!(t.kind, Kind::W(W::Foot | W::In | W::Of | W::The | W::Cross | W::Make))
            || side(t.kind).is_some_and(|f| f != foot)
    };
    let told = words[1..].iter().any(way) && words[1..].iter().all(|t| way(t) || small(t));
    let closed = t.get(to).is_some_and(|t| t.sign(')'));
    (told && (!bracket || closed)).then_some((foot, to + usize::from(bracket)))
}

/// "Rock step L fwd (recover on R)": the foot that takes the weight back, told in brackets behind a figure that ends
/// so, and where they close.
pub(super) fn recover_told(t: &[Token], end: usize, limit: usize) -> Option<(Option<Foot>, usize)> {
    let to = clause_end(t, end + 1, limit);
    if !t.get(end).filter(|_| end < limit)?.sign('(') || !t.get(to)?.sign(')') {
        return None;
    }
    let words = &t[end + 1..to];
    let small = |t: &Token| {
        matches!(t.kind, Kind::W(W::Recover | W::Back | W::Weight | W::On | W::To | W::The | W::Foot))
            || side(t.kind).is_some()
    };
    let says = words.iter().any(|t| t.is(W::Recover)) && words.iter().all(small);
    says.then(|| (words.iter().find_map(|t| side(t.kind)), to + 1))
}

/// Words behind a figure that touch, scuff or hitch with the foot of its last step instead: "jazz box, touch L", "jazz
/// box 1/4 R scuff L".
pub(super) fn freed_next(t: &[Token], end: usize, limit: usize) -> Option<Closing> {
    let joins = |t: &&Token| matches!(t.kind, Kind::Sign(',' | '-') | Kind::W(W::And | W::Then));
    let at = end + t[end.min(limit)..limit].iter().take_while(joins).count();
    let words = &t[at.min(limit)..clause_end(t, at, limit).max(at.min(limit))];
    let verb = words.iter().take(2).find(|t| side(t.kind).is_none())?;
    let frees = matches!(
        verb.kind,
        Kind::W(W::Touch | W::Brush | W::Scuff | W::Hitch | W::Kick | W::Hook | W::Flick | W::Point)
    );
    frees.then(|| Closing { foot: words.iter().take(2).find_map(|t| side(t.kind)) })
}

/// "Jazz box 1/4 right, close with L": the clause behind the name tells its last step, so the name stands for the rest.
pub(super) fn told_end(
    id: u16,
    figure: &'static Figure,
    after: Around,
    closing: Closing,
    cost: u32,
    push: &mut impl FnMut(Meaning, u32),
) {
    let Some(last) = figure.steps.last() else { return };
    let Who::One(who) = last.who else { return };
    if last.effect != Effect::Takes || last.at.within() != 0 || figure.steps.len() < 4 {
        return;
    }
    // Figures are written for the lead with the right foot.
    let lead = closing.foot.map(|f| if f == who { Foot::Right } else { Foot::Left });
    if lead.is_some() && after.lead.is_some() && after.lead != lead && after.size.is_none() {
        return;
    }
    let after = Around { lead: lead.or(after.lead), to: after.to.or(after.size.and(after.lead)), ..after };
    let mut named = named(id, figure, after);
    named.steps.to_mut().pop();
    named.counts = crate::figures::counts(&named.steps);
    push(Meaning::Figure(named), cost);
}

/// "A grapevine to the left, left to the side, right behind, left to the side, and touch": whether the words behind a
/// name tell all its steps with their feet and places, so that the name is only what they are called.
pub(super) fn spells(t: &[Token], from: usize, limit: usize, named: &Named) -> bool {
    let steps = &named.steps;
    if steps.len() < 3 {
        return false;
    }
    let stop = |t: &Token| matches!(t.kind, Kind::Sign('.' | '\n' | ';' | '(' | '[' | ':'));
    let end = (from..limit).find(|k| stop(&t[*k])).unwrap_or(limit);
    let mut clauses = t[from.min(end)..end]
        .split(|t| matches!(t.kind, Kind::Sign(',')) || t.is(W::And))
        .filter(|c| c.iter().any(|t| side(t.kind).is_some() || matches!(t.kind, Kind::W(w) if acts(w))));
    let mut lead = named.lead;
    steps.iter().all(|step| {
        let Some(clause) = clauses.next() else { return false };
        let (Some(told), Who::One(who)) = (clause.iter().find_map(|t| side(t.kind)), step.who) else {
            return false;
        };
        // Figures are written for the lead with the right foot.
        let this = if told == who { Foot::Right } else { Foot::Left };
        let says = |words: &[W]| clause.iter().any(|t| matches!(t.kind, Kind::W(w) if words.contains(&w)));
        let turns = says(&[W::Quarter, W::Half, W::Turn])
            || clause.iter().any(|t| matches!(t.kind, Kind::Fraction(_)));
        let placed = match (step.action, step.place) {
            (Action::Rock, _) => says(&[W::Rock]),
            (_, Place::Side) => says(&[W::Side]),
            (_, Place::Behind) => says(&[W::Behind]),
            (_, Place::Cross) => says(&[W::Cross, W::Across, W::Front]),
            (_, Place::Forward) => says(&[W::Forward, W::Front]),
            (_, Place::Back) => says(&[W::Back]),
            _ => true,
        };
        *lead.get_or_insert(this) == this && (placed || turns)
    })
}

/// "Kick ball step L: kick L, ball of L, step R forward": where words end that tell each step of a figure with the foot
/// that it has, so that its name gives the rhythm.
pub(super) fn spelled_out(t: &[Token], from: usize, limit: usize, named: &Named) -> Option<usize> {
    let steps = &named.steps;
    let stop = |t: &Token| matches!(t.kind, Kind::Sign('.' | '\n' | ';' | '(' | ')' | '[' | ']'));
    let end = (from..limit).find(|k| stop(&t[*k])).unwrap_or(limit);
    // "Roll R full: RF 1/4 R, LF 1/2 R, RF 1/4 R": feet and turns without a word of where they go.
    let turns = |c: &[Token]| c.iter().any(|t| matches!(t.kind, Kind::Fraction(_)));
    let goes = |c: &[Token]| c.iter().any(|t| matches!(t.kind, Kind::W(W::Forward | W::Back)));
    let rolls = || t[from..end].split(|t| t.sign(',')).all(|c| turns(c) && !goes(c));
    if steps.iter().all(|s| s.at.within() == 0) && !rolls() {
        return None;
    }
    let clauses = t[from..end].split(|t| matches!(t.kind, Kind::Sign(',' | '-')));
    let mut at = steps.iter();
    let mut lead = named.lead;
    for clause in clauses {
        let step = at.next()?;
        let told = clause.iter().find_map(|t| side(t.kind));
        if let (Some(told), Who::One(who)) = (told, step.who) {
            // Figures are written for the lead with the right foot.
            let this = if told == who { Foot::Right } else { Foot::Left };
            if *lead.get_or_insert(this) != this {
                return None;
            }
        }
        if !clause.iter().any(|t| matches!(t.kind, Kind::W(w) if acts(w)) || matches!(t.kind, Kind::W(_))) {
            return None;
        }
    }
    at.next().is_none().then_some(end)
}

/// "Jazz box right over left back right side left forward": where the words end that tell each step of a figure again
/// with its foot and its place, whatever parts them, and the lead that they give; the last step may go elsewhere.
pub(super) fn retold(t: &[Token], from: usize, limit: usize, named: &Named) -> Option<(usize, Foot, Place)> {
    let steps = &named.steps;
    if steps.len() < 3 {
        return None;
    }
    let joins = |t: &Token| {
        matches!(
            t.kind,
            Kind::Sign(',' | '-' | '/' | '\n')
                | Kind::W(W::And | W::Then | W::Step | W::The | W::To | W::Foot | W::It)
        )
    };
    let mut at = from;
    let mut lead = named.lead;
    let mut place = Place::InPlace;
    for (k, step) in steps.iter().enumerate() {
        let Who::One(who) = step.who else { return None };
        // A foot and a place, in either order: "right over left", "back left", "cross R over L".
        let (mut foot, mut found) = (None, None);
        while at < limit && (foot.is_none() || found.is_none()) {
            let token = &t[at];
            if let Some(f) = side(token.kind).filter(|_| foot.is_none()) {
                foot = Some(f);
            } else if let Some(p) = place_word(token).filter(|_| found.is_none()) {
                found = Some(p);
            } else if !joins(token) {
                return None;
            }
            at += 1;
        }
        let (foot, to) = (foot?, found?);
        if to == Place::Cross {
            // "over left", "over the left foot"
            while t.get(at).is_some_and(|t| at < limit && matches!(t.kind, Kind::W(W::Across | W::The))) {
                at += 1;
            }
            // "right over left back" goes on with the left foot.
            let other = t.get(at).is_some_and(|t| at < limit && side(t.kind) == Some(foot.other()));
            let next = t.get(at + 1).is_some_and(|t| at + 1 < limit && place_word(t).is_some());
            at += usize::from(other && !next);
        }
        let this = if foot == who { Foot::Right } else { Foot::Left };
        let fits = to == step.place || k + 1 == steps.len();
        if *lead.get_or_insert(this) != this || !fits {
            return None;
        }
        place = to;
    }
    Some((at, lead?, place))
}

/// Where a step goes, in one word.
fn place_word(t: &Token) -> Option<Place> {
    Some(match t.kind {
        Kind::W(W::Across | W::Cross) => Place::Cross,
        Kind::W(W::Forward) => Place::Forward,
        Kind::W(W::Back) => Place::Back,
        Kind::W(W::Side) => Place::Side,
        Kind::W(W::Behind) => Place::Behind,
        Kind::W(W::Together | W::Close | W::Beside) => Place::Close,
        _ => return None,
    })
}
