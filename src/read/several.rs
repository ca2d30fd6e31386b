//! Words that say how often a step is danced, or how one stands after it.

use super::clauses::{clause_end, foot_word, goes, leads_with};
use super::manner::circle;
use crate::dance::{Action, Foot, Place};
use crate::figures::Written;
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, acts};
use crate::text::{among, begins_with};

/// The foot that lands first, told behind a comma: "..., landing right then left".
pub(super) fn landing(text: &str, t: &[Token], clause: usize, limit: usize) -> Option<(usize, Foot)> {
    let at = clause + 1;
    if at + 1 >= limit || !matches!(t[clause].kind, Kind::Sign(',' | '(')) {
        return None;
    }
    let said = begins_with(t[at].span.of(text), "land");
    let at = at + usize::from(said);
    let foot = match t[at].kind {
        Kind::W(W::R | W::RF) => Foot::Right,
        Kind::W(W::L | W::LF) => Foot::Left,
        _ => return None,
    };
    said.then_some((at + 1, foot))
}

/// The number of walks that stands behind them, and where it ends.
pub(super) fn times_behind(
    text: &str,
    t: &[Token],
    i: usize,
    w: &Written,
    clause: usize,
    limit: usize,
) -> Option<(u32, usize)> {
    let walks = w.action == Some(Action::Step) && t[i..w.end].iter().any(|t| t.is(W::Walk) || t.is(W::Run));
    if !walks {
        return None;
    }
    if let Some(n @ 2..=8) = w.lasts {
        return Some((n, w.end));
    }
    // "Walk one full circle to the left in eight steps"
    let round = circle(text, t, i + 1, clause);
    let joins =
        |k: &usize| t.get(*k).is_some_and(|t| matches!(t.kind, Kind::W(W::In | W::With) | Kind::Sign(',')));
    let behind = round.map(|to| to + usize::from(joins(&to)));
    let (end, clause) = behind.map_or((w.end, clause), |to| (to, clause_end(t, to, limit)));
    let n = match t.get(end).filter(|_| end < clause)?.kind {
        Kind::Number(n) => n,
        Kind::W(word) if !matches!(word, W::Twice | W::Thrice) => crate::figures::number_word(word)?,
        _ => return None,
    };
    let steps = t
        .get(end + 1)
        .filter(|_| end + 1 < clause)
        .is_some_and(|t| matches!(t.kind, Kind::W(W::Step | W::Times)));
    let to = end + 1 + usize::from(steps);
    // "3 steps R, L, R": the order of the feet may follow at once.
    let order = to < clause && (foot_word(t[to].kind) || t[to].kind == Kind::Feet);
    let led = leads_with(text, t, to, clause).is_some();
    let goes_round = to < clause && circle(text, t, to, clause).is_some();
    ((2..=8).contains(&n) && (to == clause || order || led || goes_round)).then_some((n, to))
}

/// "Walk forward" as all of a clause, where no feet follow that would say how many walks they are.
pub(super) fn walks_on(text: &str, t: &[Token], i: usize, w: &Written, clause: usize, limit: usize) -> bool {
    let walks = w.action == Some(Action::Step) && t[i..w.end].iter().any(|t| t.is(W::Walk) || t.is(W::Run));
    let straight = matches!(w.place, Some(Place::Forward | Place::Back));
    let next = t.get(clause + 1).filter(|_| clause + 1 < limit);
    let feet = next.is_some_and(|t| foot_word(t.kind) || t.kind == Kind::Feet);
    let ends = w.end == clause || leads_with(text, t, w.end, clause).is_some();
    walks && straight && w.foot.is_none() && w.lasts.is_none() && w.turn.is_none() && ends && !feet
}

/// A clause that only tells how long a step lasts, "it needs two counts", "for the two beats that remain": how long,
/// and where it ends.
fn duration(text: &str, t: &[Token], from: usize, limit: usize) -> Option<(u32, usize)> {
    let end = clause_end(t, from, limit);
    let words = t.get(from..end).filter(|w| (3..=9).contains(&w.len()))?;
    let takes = |t: &Token| {
        t.span
            .is_among(text, among!["takes", "needs", "lasts", "uses", "fills", "taking", "using", "filling"])
    };
    let leads = words[0].is(W::For) || words[..2].iter().any(takes);
    let at = words.iter().position(|t| t.is(W::Count))?;
    let n = match words[at.checked_sub(1)?].kind {
        Kind::Number(n) => n,
        Kind::W(w) => crate::figures::number_word(w)?,
        _ => return None,
    };
    let moves = |t: &Token| foot_word(t.kind) || matches!(t.kind, Kind::W(w) if acts(w));
    (leads && (2..=8).contains(&n) && !words.iter().any(moves)).then_some((n, end))
}

/// How long a step lasts, told in a clause behind it, and where that ends.
pub(super) fn lasts_behind(
    text: &str,
    t: &[Token],
    clause: usize,
    limit: usize,
    w: &Written,
) -> Option<(u32, usize)> {
    let sign = t.get(clause).filter(|_| clause + 1 < limit)?;
    let from = t[..clause].iter().rposition(|t| matches!(t.kind, Kind::Sign(_))).map_or(0, |k| k + 1);
    let slow = matches!(w.action, Some(Action::Drag | Action::Slide | Action::Sweep | Action::Hitch))
        || t[from..clause].iter().any(|t| t.is(W::Slow));
    let bracket = (slow && sign.sign('(')).then(|| bracketed(t, clause + 1, limit)).flatten();
    bracket.or_else(|| {
        matches!(sign.kind, Kind::Sign(',' | '-' | '(')).then(|| duration(text, t, clause + 1, limit))?
    })
}

/// "(2 beats)", "(over two counts)", "(3 beats, no weight)" behind what is done slowly; longer ones are sums of several
/// steps.
fn bracketed(t: &[Token], from: usize, limit: usize) -> Option<(u32, usize)> {
    let over = usize::from(matches!(t.get(from)?.kind, Kind::W(W::Across | W::For)));
    let n = match t.get(from + over)?.kind {
        Kind::Number(n) => n,
        Kind::W(w) => crate::figures::number_word(w)?,
        _ => return None,
    };
    let counts = t.get(from + over + 1)?.is(W::Count);
    let close = (from..limit.min(from + 8)).find(|k| t[*k].sign(')'))?;
    let remark = |t: &Token| {
        matches!(t.kind, Kind::Unknown | Kind::Sign(',') | Kind::W(W::No | W::Weight | W::Touch | W::Slow))
    };
    let rest = t[from + over + 2..close.max(from + over + 2)].iter().all(remark);
    (counts && rest && (2..=3).contains(&n)).then_some((n, close + 1))
}

/// The same told before it: "and, for the two beats that remain of the bar, kick the left foot".
pub(super) fn lasts_ahead(text: &str, t: &[Token], i: usize) -> Option<u32> {
    let comma = i.checked_sub(1).filter(|k| t[*k].sign(','))?;
    let from = t[..comma].iter().rposition(|t| matches!(t.kind, Kind::Sign(_))).map_or(0, |k| k + 1);
    let led = from < 2 || !t[from - 1].sign(',') || matches!(t[from - 2].kind, Kind::W(W::And | W::Then));
    (led && t[from].is(W::For)).then(|| duration(text, t, from, i)).flatten().map(|(n, _)| n)
}

/// Whether a stomp stands a few words before, in the same sentence.
pub(super) fn stomps_before(t: &[Token], i: usize) -> bool {
    t[i.saturating_sub(10)..i]
        .iter()
        .rev()
        .take_while(|t| !matches!(t.kind, Kind::Sign('.' | '\n' | ';')))
        .any(|t| t.is(W::Stomp))
}

/// The number before words that may stand for several steps: "two", "4".
pub(super) fn several(t: &[Token], i: usize, clause: usize) -> Option<u32> {
    let n = match t[i].kind {
        Kind::Number(n) => n,
        Kind::Times(n) => n,
        Kind::W(w) if !matches!(w, W::Twice | W::Thrice | W::Second | W::ThirdTh | W::Third) => {
            crate::figures::number_word(w)?
        }
        _ => return None,
    };
    ((2..=8).contains(&n) && i + 1 < clause && !matches!(t[i + 1].kind, Kind::Sign(_))).then_some(n)
}

/// Whether a step or a name stands in the plural: "walks", "boxes", "sailors".
pub(super) fn plural(text: &str, t: &Token) -> bool {
    let acting = match t.kind {
        Kind::Name(_) => true,
        // "Two kick-ball-changes", "two pivot halves": names of figures end in these words, too.
        Kind::W(w) => acts(w) || matches!(w, W::Turn | W::Change | W::Half | W::Grind),
        _ => false,
    };
    let word = t.span.of(text).as_bytes();
    let ends = |n: usize| word.len().checked_sub(n).map(|at| word[at].to_ascii_lowercase());
    acting && ends(1) == Some(b's') && ends(2) != Some(b's')
}

/// Whether a verb by itself is one step that takes the weight.
pub(super) fn weighty(k: Kind) -> bool {
    matches!(k, Kind::W(W::Step | W::Walk | W::Run | W::Sway | W::Stomp | W::Skate))
}

/// "on ball of left" in front of a turn: where it ends.
pub(super) fn standing(t: &[Token], i: usize, clause: usize) -> Option<usize> {
    let mut j = i + 1;
    let mut ball = false;
    while j < clause {
        match t[j].kind {
            Kind::W(W::Ball) => ball = true,
            Kind::W(W::The | W::Of | W::Both | W::Feet | W::Foot | W::R | W::L | W::RF | W::LF) => {}
            Kind::W(W::Make | W::Turn | W::Quarter | W::Half | W::Full) | Kind::Fraction(_) if ball => {
                return Some(j);
            }
            _ => return None,
        }
        j += 1;
    }
    None
}

/// Whether steps stand here, told with their feet or as a row of verbs.
pub(super) fn names_steps(t: &[Token]) -> bool {
    let verb = || t.iter().any(|t| matches!(t.kind, Kind::W(w) if acts(w)));
    // "left forward, right beside"
    let bare = || t.windows(2).any(|w| foot_word(w[0].kind) && goes(w[1].kind));
    let several = t.iter().filter(|t| matches!(t.kind, Kind::W(w) if acts(w))).count() >= 3;
    several || t.iter().any(|t| foot_word(t.kind)) && (verb() || bare())
}

/// Whether words behind a step of a foot say that it takes no weight: "twice, without putting weight on it", "(no
/// weight)", "weight stays on the left".
pub(super) fn weightless(text: &str, t: &[Token], foot: Option<Foot>) -> bool {
    let side = |t: &Token| match t.kind {
        Kind::W(W::R | W::RF) => Some(Foot::Right),
        Kind::W(W::L | W::LF) => Some(Foot::Left),
        _ => None,
    };
    // What is told of the weight stands before the next step.
    let over = |k: usize| match t[k].kind {
        Kind::Name(_) | Kind::Number(_) | Kind::Sign('.' | ';' | '\n') => true,
        Kind::Sign(',') => !t.get(k + 1).is_some_and(|t| {
            matches!(t.kind, Kind::W(W::Weight | W::No | W::Keep | W::With))
                || t.span.is_among(text, among!["so", "but", "while"])
        }),
        Kind::W(w) => acts(w),
        _ => false,
    };
    let words = &t[..(0..t.len()).find(|k| over(*k)).unwrap_or(t.len())];
    let no = words.iter().position(|t| t.is(W::No));
    if no.is_some_and(|k| words[k..].iter().take(4).any(|t| t.is(W::Weight))) {
        return true;
    }
    let Some(weight) = words.iter().position(|t| t.is(W::Weight)) else { return false };
    let on = words[weight..].iter().take(5).find_map(side);
    on.is_some() && foot.is_some() && on != foot
}
