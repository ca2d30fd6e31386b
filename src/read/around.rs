//! What stands around the name of a figure: its lead, its turn and its ending.

use super::clauses::clause_end;
use crate::dance::{Action, Foot, Place};
use crate::figures::{usual_place, verb};
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token};
use crate::text::{among, lower};

pub(super) fn side(k: Kind) -> Option<Foot> {
    match k {
        Kind::W(W::R | W::RF) => Some(Foot::Right),
        Kind::W(W::L | W::LF) => Some(Foot::Left),
        _ => None,
    }
}

/// What stands around a name.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Around {
    pub(super) lead: Option<Foot>,
    pub(super) size: Option<i32>,
    pub(super) to: Option<Foot>,
    pub(super) toward: Option<Foot>,
    pub(super) ending: Option<(Action, Place)>,
}

pub(super) fn turn_size(t: &Token) -> Option<i32> {
    match t.kind {
        Kind::Fraction(units) => Some(units),
        Kind::W(w) => crate::figures::turn_word(w),
        _ => None,
    }
}

/// Reads what follows a name: "with 1/4 turn L and brush R", "turning 1/2", "to the right", "on R".
pub(super) fn modifiers(
    text: &str,
    t: &[Token],
    from: usize,
    clause: usize,
    limit: usize,
    mut a: Around,
) -> (Around, usize) {
    let mut j = from;
    let mut end = from;
    let mut last_turn =
        from > 0 && (matches!(t[from - 1].kind, Kind::Fraction(_)) || t[from - 1].is(W::Turn));
    let mut with = false;
    let mut clause = clause;
    while j < limit {
        // "shuffle R L R turning 1/2 left", "triple step (R, L, R) making a half turn left"
        if a.size.is_none()
            && a.to.is_none()
            && let Some((lead, to)) = feet_then_turn(text, t, j, limit)
            && a.lead.is_none_or(|l| l == lead)
        {
            a.lead = Some(lead);
            j = to;
            clause = clause_end(t, to, limit);
            last_turn = true;
            continue;
        }
        // "vine left, but turn a quarter left on the third step"
        if j == clause
            && a.size.is_none()
            && let Some(to) = turn_told(text, t, j, limit)
        {
            j = to;
            clause = clause_end(t, to, limit);
            last_turn = true;
            continue;
        }
        // "vine left (4 counts, 1/4 turn left on the third step)", "vine right (with a touch)"
        if j == clause && t.get(j).is_some_and(|t| t.sign('(')) && only_modifies(t, j + 1, limit) {
            j += 1;
            clause = clause_end(t, j, limit);
            continue;
        }
        // "vine right for four, closing with a touch of the left"
        if j == clause
            && a.ending.is_none()
            && t.get(j).is_some_and(|t| t.sign(','))
            && t.get(j + 1).is_some_and(|t| {
                matches!(t.kind, Kind::W(W::Close | W::End)) && t.span.of(text).ends_with("ing")
            })
            && t.get(j + 2).filter(|_| j + 2 < limit).is_some_and(|t| t.is(W::With))
        {
            j += 2;
            clause = clause_end(t, j, limit);
            continue;
        }
        if j >= clause {
            break;
        }
        // "full turn right on L, R": the order of the feet is told by itself.
        if !with
            && j > from
            && matches!(t[j].kind, Kind::W(W::On | W::With))
            && super::phrases::feet_list(text, t, (j + 1).min(limit - 1), limit).is_some()
        {
            break;
        }
        let token = &t[j];
        // "with the last step turned 1/4 left"
        if with && let Some(to) = step_named(t, j, clause.min(limit)) {
            j = to;
            continue;
        }
        // "vine L with 1/4 L on the third step and a brush"
        if let Some(to) = on_step(t, j, clause.min(limit)) {
            j = to;
            end = to;
            continue;
        }
        match token.kind {
            Kind::Fraction(_) if a.size.is_none() => {
                a.size = turn_size(token);
                last_turn = true;
                end = j + 1;
            }
            Kind::Number(n)
                if t.get(j + 1).is_some_and(|t| t.sign('°') || t.is(W::Degrees)) && a.size.is_none() =>
            {
                a.size = Some(i32::try_from(n.min(2880)).unwrap_or(0) * 48 / 360);
                last_turn = true;
                j += 1;
                end = j + 1;
            }
            Kind::W(w) => match w {
                W::R | W::L | W::RF | W::LF => {
                    let foot = side(token.kind);
                    let next = t.get(j + 1).filter(|_| j + 1 < clause).map(|t| t.kind);
                    // "coaster R back" goes on with a written step.
                    if matches!(next, Some(Kind::W(W::Heel | W::Toe))) {
                        break;
                    }
                    let shoulder = matches!(next, Some(Kind::W(W::Shoulder)));
                    let direction =
                        j > 0 && (t[j - 1].is(W::To) || (t[j - 1].is(W::The) && j > 1 && t[j - 2].is(W::To)));
                    let over = j > from && matches!(t[j - 1].kind, Kind::W(W::Across | W::Behind | W::Front));
                    if (shoulder || last_turn && a.size.is_some()) && a.to.is_none() {
                        a.to = foot;
                    } else if over && a.lead.is_some() && a.lead != foot {
                        // "cross shuffle R over L": the foot that is crossed.
                    } else if with && a.ending.is_some() {
                        // "brush R": the foot of the ending.
                    } else if direction && a.lead.is_some() {
                        a.toward = foot;
                    } else if a.lead.is_none() {
                        a.lead = foot;
                    } else if a.lead == foot || a.toward.is_none() && direction {
                        a.toward = foot;
                    } else {
                        break;
                    }
                    last_turn = false;
                    end = j + 1;
                    if shoulder {
                        j += 1;
                        end = j + 1;
                    }
                }
                W::Quarter | W::Half | W::ThreeQuarter | W::Eighth | W::Full if a.size.is_none() => {
                    a.size = turn_size(token);
                    last_turn = true;
                    end = j + 1;
                }
                W::Clockwise => {
                    a.to = Some(Foot::Right);
                    end = j + 1;
                }
                W::Anticlockwise => {
                    a.to = Some(Foot::Left);
                    end = j + 1;
                }
                W::Turn => {
                    last_turn = true;
                    end = j + 1;
                }
                // "cross rock R behind L"
                W::Behind
                    if a.lead.is_some()
                        && t.get(j + 1)
                            .filter(|_| j + 1 < clause)
                            .and_then(|t| side(t.kind))
                            .is_some_and(|f| a.lead != Some(f)) => {}
                W::With => with = true,
                // "with a touch of the left", "with a touch from the left on the fourth"
                W::From | W::Of if with && a.ending.is_some() => {}
                // "vine right for four counts"
                W::For if counted(t, j, clause.min(limit)).is_some() => {
                    end = counted(t, j, clause.min(limit)).unwrap_or(j + 1);
                    j = end;
                    continue;
                }
                W::And if with || a.ending.is_none() => {
                    // "with 1/4 turn and brush"; a plain "and" goes on with another step.
                    if !with {
                        break;
                    }
                }
                W::To
                | W::The
                | W::On
                | W::Across
                | W::Make
                | W::In
                | W::Place
                | W::Of
                | W::Foot
                | W::Around
                | W::Low
                | W::Small
                | W::Long
                | W::Slow
                | W::Quick
                | W::Single
                | W::Step
                | W::Syncopated
                | W::Forward
                    if !(matches!(w, W::Forward | W::Step) && a.lead.is_some() && j == from)
                        || w == W::Forward =>
                {
                    if w == W::Step && j > 0 && !lower(token.span.of(text)).ends_with("ing") {
                        break;
                    }
                    if w == W::Step {
                        // "stepping R, L, R": the order of the feet follows.
                        end = j + 1;
                        break;
                    }
                    if w == W::Forward {
                        end = j + 1;
                    }
                }
                _ if with && a.ending.is_none() => {
                    let Some(e) = ending(w) else { break };
                    a.ending = Some(e);
                    end = j + 1;
                }
                W::Clap | W::Side if with => end = j + 1,
                // "chasse to the right side"
                W::Side if j > from && side(t[j - 1].kind).is_some() => end = j + 1,
                _ => break,
            },
            Kind::Sign('-' | '\'') if token.gap == 0 => {}
            Kind::Unknown if with => {}
            // "(4 counts with a touch)"
            Kind::Number(_) if t.get(j + 1).filter(|_| j + 1 < clause).is_some_and(|t| t.is(W::Count)) => {
                j += 1;
            }
            // "turning another half"
            Kind::Unknown if last_turn && t.get(j + 1).filter(|_| j + 1 < clause).is_some_and(is_size) => {}
            _ => break,
        }
        j += 1;
    }
    (a, end)
}

/// Whether a bracket behind a figure holds only how long it is, its ending or its turn.
fn only_modifies(t: &[Token], from: usize, limit: usize) -> bool {
    let counts = matches!(t.get(from).map(|t| t.kind), Some(Kind::Number(2..=8)))
        && t.get(from + 1).is_some_and(|t| t.is(W::Count));
    let at = from + if counts { 2 } else { 0 };
    let at = at + usize::from(counts && t.get(at).is_some_and(|t| t.sign(',')));
    let Some(close) = (at..limit).find(|k| t[*k].sign(')')) else { return false };
    let placed = || is_size(&t[at]) && (at..close).any(|k| on_step(t, k, close).is_some());
    at < close
        && (t[at].is(W::With) || placed())
        && !t[at..close].iter().any(|t| matches!(t.kind, Kind::Name(_) | Kind::Sign(':')))
}

/// A share of a turn.
fn is_size(t: &Token) -> bool {
    matches!(
        t.kind,
        Kind::Fraction(_) | Kind::W(W::Quarter | W::Half | W::ThreeQuarter | W::Eighth | W::Full)
    )
}

/// An order of three feet or more in turn behind a figure, before words that say how it turns: the first foot, and where
/// those words begin.
pub(super) fn feet_then_turn(text: &str, t: &[Token], from: usize, limit: usize) -> Option<(Foot, usize)> {
    let sign = |k: usize, signs: &[char]| {
        t.get(k).filter(|_| k < limit).is_some_and(|t| matches!(t.kind, Kind::Sign(c) if signs.contains(&c)))
    };
    let mut k = from + usize::from(sign(from, &[',', '(', '-', ':']));
    k += usize::from(t.get(k).is_some_and(|t| matches!(t.kind, Kind::W(W::With | W::On))));
    let mut feet = Vec::new();
    if t.get(k).filter(|_| k < limit).is_some_and(|t| t.kind == Kind::Feet) {
        let foot = |c: char| if c.eq_ignore_ascii_case(&'r') { Foot::Right } else { Foot::Left };
        feet.extend(t[k].span.of(text).chars().map(foot));
        k += 1;
    } else {
        while k < limit {
            if let Some(foot) = side(t[k].kind) {
                feet.push(foot);
                k += 1;
            } else if !feet.is_empty()
                && (sign(k, &[',', '-', '/']) || t[k].is(W::And))
                && t.get(k + 1).filter(|_| k + 1 < limit).is_some_and(|t| side(t.kind).is_some())
            {
                k += 1;
            } else {
                break;
            }
        }
    }
    if feet.len() < 3 || feet.windows(2).any(|w| w[0] == w[1]) {
        return None;
    }
    k += usize::from(sign(k, &[')']));
    k += usize::from(sign(k, &[',', '-']));
    let small = |t: &Token| matches!(t.kind, Kind::W(W::While | W::And | W::The | W::With | W::It | W::Make));
    let to = k + t[k.min(limit)..limit].iter().take(3).take_while(|t| small(t)).count();
    let turns = t.get(to).filter(|_| to < limit)?;
    let size = |k: usize| t.get(k).filter(|_| k < limit).is_some_and(is_size);
    let turned = turns.is(W::Turn) && (to + 1..to + 4).any(size) || is_size(turns);
    // "A quarter turn each step" is no turn of the whole.
    let each = t[to..clause_end(t, to, limit)]
        .windows(2)
        .any(|w| w[0].span.is_among(text, among!["each", "every"]) && w[1].is(W::Step));
    (turned && !each).then_some((feet[0], to))
}

/// ", but turn a quarter left on the third step": a clause that only says where in the figure before it one turns.
/// Where its words begin.
fn turn_told(text: &str, t: &[Token], comma: usize, limit: usize) -> Option<usize> {
    if !matches!(t.get(comma).filter(|_| comma < limit)?.kind, Kind::Sign(',' | '-')) {
        return None;
    }
    let small = |t: &Token| {
        matches!(t.kind, Kind::W(W::While | W::And | W::The | W::With | W::Make | W::Then))
            || t.span.is_among(text, among!["but", "only", "this"])
    };
    let from = comma + 1;
    let to = from + t[from..limit].iter().take(3).take_while(|t| small(t)).count();
    let end = clause_end(t, to, limit);
    let words = t.get(to..end)?;
    let first = words.first()?;
    let turns = first.is(W::Turn) || is_size(first);
    let sized = words.iter().take(4).any(is_size);
    let placed = (to..end).any(|k| on_step(t, k, end).is_some());
    // "vine left, 1/4 left, scuff": between the figure and its ending.
    let only = words
        .iter()
        .all(|t| is_size(t) || side(t.kind).is_some() || matches!(t.kind, Kind::W(W::Turn | W::To | W::The)));
    let ends = only && super::figure_words::ending_next(text, t, end, limit);
    (turns && sized && (placed || ends)).then_some(to)
}

/// "the last step", "the third step", "step three": where words end that name a step of the figure.
fn step_named(t: &[Token], at: usize, limit: usize) -> Option<usize> {
    let the = at + usize::from(t[at].is(W::The));
    let is = |k: usize, f: &dyn Fn(&Token) -> bool| t.get(k).filter(|_| k < limit).is_some_and(f);
    let ordinal = |t: &Token| matches!(t.kind, Kind::W(W::Third | W::ThirdTh | W::Last));
    let number = |t: &Token| matches!(t.kind, Kind::Number(3) | Kind::W(W::Three | W::Third));
    let step = |t: &Token| t.is(W::Step) || t.is(W::Count);
    let named = is(the, &ordinal) && is(the + 1, &step) || is(the, &step) && is(the + 1, &number);
    named.then_some(the + 2)
}

/// "for four counts", "for 4": how long a figure lasts, and where these words end.
fn counted(t: &[Token], at: usize, limit: usize) -> Option<usize> {
    let four = t.get(at + 1).filter(|_| at + 1 < limit)?;
    let number =
        matches!(four.kind, Kind::Number(2..=8) | Kind::W(W::Two | W::Three | W::Four | W::Six | W::Eight));
    let counts = t.get(at + 2).filter(|_| at + 2 < limit).is_some_and(|t| t.is(W::Count));
    number.then_some(at + 2 + usize::from(counts))
}

/// "on the third step", "on count 3", "at the end": where a figure turns, and where these words end.
fn on_step(t: &[Token], at: usize, limit: usize) -> Option<usize> {
    if !matches!(t[at].kind, Kind::W(W::On | W::At)) {
        return None;
    }
    let mut i = at + 1;
    while i < limit && t[i].is(W::The) {
        i += 1;
    }
    let step = |k: usize| t.get(k).filter(|_| k < limit).is_some_and(|t| t.is(W::Step) || t.is(W::Count));
    let number = |k: usize| {
        t.get(k).filter(|_| k < limit).is_some_and(|t| {
            matches!(
                t.kind,
                Kind::Number(1..=8)
                    | Kind::W(W::First | W::Second | W::Third | W::ThirdTh | W::Fourth | W::Last)
            )
        })
    };
    if number(i) && step(i + 1) || step(i) && number(i + 1) {
        return Some(i + 2);
    }
    // "with a quarter left on the third"
    let last = t
        .get(i)
        .is_some_and(|t| matches!(t.kind, Kind::W(W::Third | W::ThirdTh | W::Fourth | W::Last | W::End)));
    if i < limit && i > at + 1 && last {
        return Some(i + 1);
    }
    // "with a quarter left on 7"
    let plain = t[at].is(W::On) && t.get(i).is_some_and(|t| matches!(t.kind, Kind::Number(1..=8)));
    let ends = t.get(i + 1).is_none_or(|t| matches!(t.kind, Kind::Sign(_) | Kind::W(W::And)));
    (i < limit && plain && (i + 1 == limit || ends)).then_some(i + 1)
}

/// The ending that a word after "with" gives a figure.
fn ending(w: W) -> Option<(Action, Place)> {
    Some(match w {
        W::Cross => (Action::Step, Place::Cross),
        W::Together | W::Close => (Action::Step, Place::Close),
        W::Heel => (Action::Heel, Place::Forward),
        W::Toe => (Action::Toe, Place::Forward),
        W::Step => (Action::Step, Place::Forward),
        _ => {
            let action = verb(w)?;
            if matches!(
                action,
                Action::Clap
                    | Action::Turn
                    | Action::Pivot
                    | Action::Bump
                    | Action::Roll
                    | Action::Body
                    | Action::Sway
            ) {
                return None;
            }
            (action, usual_place(action))
        }
    })
}
