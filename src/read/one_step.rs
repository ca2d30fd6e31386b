//! One step of a figure told behind its name: "vine left, last step 1/4 left", "(quarter on the third step)", "jazz box,
//! last step L forward". The words change that step; they are no step by themselves.

use super::around::{side, turn_size};
use super::clauses::clause_end;
use super::figure_words::named;
use super::meaning::Named;
use super::meaning::TurnSaid;
use super::{around::Around, several::names_steps};
use crate::dance::{Effect, Foot, Place, Who};
use crate::figures::{Figure, Step};
use crate::floor::Turn;
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token};
use crate::sheet::{ordinal, value};
use crate::text::among;

/// Which step of a figure words speak of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Which {
    Last,
    Count(u32),
}

/// What words tell of one step of the figure before them, and where they end.
#[derive(Debug, Clone, Copy)]
pub(super) struct OneStep {
    which: Which,
    turn: Option<i32>,
    side: Option<Foot>,
    place: Option<Place>,
    pub(super) to: usize,
}

/// "the last step", "step three", "the 3rd one", "count 3"; what stands there is told to the words before or behind.
fn which(text: &str, c: &[Token]) -> Option<(Which, usize, usize)> {
    let noun = |t: &Token| {
        matches!(t.kind, Kind::W(W::Step | W::Count)) || t.span.is_among(text, among!["one", "ones"])
    };
    let said = |t: &Token| match t.kind {
        Kind::W(W::Last) => Some(Which::Last),
        _ => value(t).filter(|n| (1..=8).contains(n)).map(Which::Count),
    };
    (0..c.len()).find_map(|k| {
        let w = said(&c[k])?;
        let bare = w == Which::Last && c.len() > k + 1 && !noun(&c[k + 1]);
        if (w == Which::Last || ordinal(&c[k])) && c.get(k + 1).is_some_and(noun) {
            Some((w, k, k + 2))
        } else if k > 0 && matches!(c[k - 1].kind, Kind::W(W::Step | W::Count)) && !ordinal(&c[k]) && !bare {
            Some((w, k - 1, k + 1))
        } else {
            None
        }
    })
}

/// Reads what is told of one step behind token `end`.
pub(super) fn one_step(text: &str, t: &[Token], end: usize, limit: usize) -> Option<OneStep> {
    let joins = |t: &&Token| {
        matches!(t.kind, Kind::Sign(',' | '-' | '(') | Kind::W(W::And | W::With))
            || t.span.is_among(text, among!["where", "whose", "but"])
    };
    let mut from = end + t[end.min(limit)..limit].iter().take(2).take_while(joins).count();
    let opens = t[end.min(limit)..from].iter().any(|t| t.sign('('));
    // "vine L (LRL, last one 1/4 left)"
    if opens
        && t.get(from).is_some_and(|t| t.kind == Kind::Feet)
        && t.get(from + 1).is_some_and(|t| t.sign(','))
    {
        from += 2;
    }
    let to = clause_end(t, from, limit).max(from);
    let c = &t[from..to];
    let (which, a, b) = which(text, c)?;
    let mut out = OneStep { which, turn: None, side: None, place: None, to };
    for token in c[..a].iter().chain(&c[b..]) {
        match token.kind {
            Kind::W(W::R | W::L | W::RF | W::LF) => out.side = out.side.or(side(token.kind)),
            Kind::Fraction(_) | Kind::W(W::Quarter | W::Half | W::Eighth) if out.turn.is_none() => {
                out.turn = turn_size(token);
            }
            Kind::W(W::Forward) => out.place = Some(Place::Forward),
            Kind::W(W::Back) => out.place = Some(Place::Back),
            Kind::W(W::Together | W::Close | W::Beside) => out.place = Some(Place::Close),
            Kind::W(
                W::The
                | W::On
                | W::At
                | W::In
                | W::To
                | W::With
                | W::Make
                | W::Of
                | W::Turn
                | W::Step
                | W::While
                | W::Foot
                | W::It
                | W::Take
                | W::End,
            )
            | Kind::Sign('=') => {}
            _ if token.span.is_among(text, among!["turned", "falls", "comes"]) => {}
            _ => return None,
        }
    }
    if opens {
        t.get(to).filter(|t| t.sign(')'))?;
        out.to += 1;
    }
    // "jazz box, last step L forward, not together"
    let not = t.get(out.to + 1).is_some_and(|t| t.is(W::No)) && t[out.to].sign(',');
    if not {
        let clause = clause_end(t, out.to + 1, limit);
        if !names_steps(&t[out.to + 2..clause.max(out.to + 2)]) {
            out.to = clause;
        }
    }
    Some(out)
}

/// The figure with what is told of its step; nothing where it has no such step or another foot takes it.
pub(super) fn with_step(id: u16, figure: &'static Figure, around: Around, told: OneStep) -> Option<Named> {
    let takes = |s: &Step| s.effect == Effect::Takes && s.at.within() == 0;
    let at = match told.which {
        Which::Last => figure.steps.iter().rposition(takes)?,
        Which::Count(n) => {
            figure.steps.iter().position(|s| takes(s) && u32::try_from(s.at.count()) == Ok(n))?
        }
    };
    let Who::One(who) = figure.steps[at].who else { return None };
    let mut out = named(id, figure, around);
    if told.turn.is_none() && told.place.is_none() {
        // "turning a quarter left into the third step"
        out.turn_on = at + 1;
        return (around.size.is_some() && figure.turn() == Turn::NONE).then_some(out);
    }
    if let Some(size) = told.turn {
        if figure.turn() != Turn::NONE && figure.turn_on != at + 1 {
            return None;
        }
        let to = told.side.or(around.to).or(out.lead)?;
        out.turn = TurnSaid::Known(Turn(if to == Foot::Right { size } else { -size }));
        out.turn_on = at + 1;
        return Some(out);
    }
    // Figures are written for the lead with the right foot.
    if let Some(foot) = told.side {
        let lead = if foot == who { Foot::Right } else { Foot::Left };
        if out.lead.is_some_and(|l| l != lead) {
            return None;
        }
        out.lead = Some(lead);
    }
    out.steps.to_mut()[at].place = told.place?;
    Some(out)
}
