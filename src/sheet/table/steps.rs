//! The words of a row in the order of a step line: foot, action, place, turn.

use super::cells::unwritten;
use super::feet::{Named, leads, names};
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, acts};
use crate::time::Ticks;

/// What the cells of a row say of its steps.
#[derive(Debug, Default)]
pub(super) struct Said {
    pub feet: Vec<Named>,
    pub action: Vec<Token>,
    pub place: Vec<Token>,
    pub turn: Vec<Token>,
    /// The count of the row on which the turn falls, where the cell says so.
    pub turn_at: Option<Ticks>,
}

/// A stretch of the action's words between commas.
struct Clause {
    words: Vec<Token>,
    /// The sign that ends it.
    end: Option<Token>,
    /// How many steps it is: "3 walks".
    steps: usize,
}

fn number(t: &Token) -> Option<usize> {
    match t.kind {
        Kind::Number(n @ 2..=8) => usize::try_from(n).ok(),
        Kind::W(W::Two) => Some(2),
        Kind::W(W::Three) => Some(3),
        Kind::W(W::Four) => Some(4),
        _ => None,
    }
}

fn verb(t: &Token) -> bool {
    matches!(t.kind, Kind::Name(_)) || matches!(t.kind, Kind::W(w) if acts(w))
}

/// A word that says where a foot goes.
fn way(t: &Token) -> bool {
    matches!(
        t.kind,
        Kind::W(
            W::Forward
                | W::Back
                | W::Side
                | W::Beside
                | W::Across
                | W::Behind
                | W::Diagonal
                | W::Place
                | W::Together
        )
    )
}

/// A verb that turns the body by itself.
fn turns(t: &Token) -> bool {
    matches!(
        t.kind,
        Kind::W(W::Pivot | W::Turn | W::Unwind | W::Paddle | W::Spin | W::Spiral | W::Recover | W::Roll)
            | Kind::Name(_)
    )
}

/// The words before a colon that name what the clauses behind it are, and the clauses.
fn clauses(t: &[Token]) -> (Vec<Token>, Vec<Clause>) {
    let colon = t.iter().position(|t| t.sign(':')).filter(|c| {
        let after = &t[c + 1..];
        *c > 0 && after.iter().any(|t| t.sign(',')) && t[..*c].iter().any(verb)
    });
    let (title, rest) = t.split_at(colon.map_or(0, |c| c + 1));
    let mut out: Vec<Clause> = Vec::new();
    let mut words: Vec<Token> = Vec::new();
    let mut depth = 0;
    for (i, token) in rest.iter().enumerate() {
        match token.kind {
            Kind::Sign('(' | '[') => depth += 1,
            Kind::Sign(')' | ']') => depth -= 1,
            _ => {}
        }
        let parts = matches!(token.kind, Kind::Sign(',' | ';') | Kind::W(W::Then))
            || token.sign('/') && token.gap > 0
            || token.is(W::And) && rest[i + 1..].first().is_some_and(verb) && words.iter().any(verb);
        if parts && depth <= 0 && !words.is_empty() {
            out.push(clause(core::mem::take(&mut words), Some(*token)));
        } else {
            words.push(*token);
        }
    }
    if !words.is_empty() {
        out.push(clause(words, None));
    }
    (title.to_vec(), out)
}

fn clause(words: Vec<Token>, end: Option<Token>) -> Clause {
    let many = words.first().and_then(number).filter(|_| words.get(1).is_some_and(verb));
    let times = words.iter().find_map(|t| match t.kind {
        Kind::Times(n @ 2..=8) => usize::try_from(n).ok(),
        Kind::W(W::Twice) => Some(2),
        _ => None,
    });
    Clause { steps: many.or(times).unwrap_or(1), words, end }
}

/// Whether a clause has steps of its own, not only a remark on the one before: "weight on right", "with a clap".
fn own(c: &Clause) -> bool {
    let first = c.words.iter().find(|t| !matches!(t.kind, Kind::Sign(_) | Kind::W(W::The)));
    !first.is_some_and(|t| {
        matches!(
            t.kind,
            Kind::W(W::Weight | W::With | W::No | W::Take | W::Keep | W::On | W::To | W::Face | W::End)
                | Kind::Clock(_)
        )
    })
}

/// One past the last word of a clause that is not in brackets.
fn core_end(words: &[Token]) -> usize {
    words.iter().position(|t| matches!(t.kind, Kind::Sign('(' | '['))).unwrap_or(words.len())
}

fn insert(words: &mut Vec<Token>, at: usize, new: &[Token]) {
    words.splice(
        at..at,
        new.iter().enumerate().map(|(i, t)| Token { gap: if i == 0 { 1 } else { t.gap }, ..*t }),
    );
}

/// The words of a row whose counts are these.
pub(super) fn words(said: Said, ticks: &[Ticks], at: usize) -> Vec<Token> {
    let Said { feet, mut action, mut place, turn, turn_at } = said;
    if action.is_empty() {
        action = core::mem::take(&mut place);
    }
    turns_out_of_brackets(&mut action);
    let (title, mut clauses) = clauses(&action);
    if clauses.is_empty() {
        if turn.is_empty() {
            return if feet.iter().any(|f| f.foot.is_some()) { single(&feet) } else { Vec::new() };
        }
        clauses.push(clause(Vec::new(), None));
    }
    // "Step R forward, touch L beside R" leaves nothing for the column of ways to say.
    let told = |c: &Clause| c.words.iter().any(way);
    let foot = |t: &Token| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF));
    let known = told(&clauses[0])
        && (clauses[0].words.iter().any(foot) || !place.iter().any(foot))
        && place
            .iter()
            .all(|t| way(t) || foot(t) || matches!(t.kind, Kind::Sign(_) | Kind::W(W::To | W::The)));
    if !place.is_empty() && !known {
        let at = core_end(&clauses[0].words);
        insert(&mut clauses[0].words, at, &place);
    }
    // Which clauses are steps, and the first step of each.
    let mut firsts: Vec<(usize, usize)> = Vec::new();
    let mut steps = 0;
    for (i, c) in clauses.iter().enumerate() {
        if own(c) {
            firsts.push((i, steps));
            steps += c.steps;
        }
    }
    if !turn.is_empty() {
        put_turn(&mut clauses, &firsts, &turn, turn_at, ticks);
    }
    put_feet(&mut clauses, &firsts, steps, &feet, ticks.len());
    let mut out = title;
    for c in clauses {
        out.extend(c.words);
        out.extend(c.end);
    }
    if let Some(first) = out.first_mut() {
        first.gap = 1;
    }
    let _ = at;
    out
}

/// "Step forward (1/4 L)" tells a turn, no remark.
fn turns_out_of_brackets(t: &mut Vec<Token>) {
    let mut from = 0;
    while let Some(open) = (from..t.len()).find(|i| matches!(t[*i].kind, Kind::Sign('(' | '['))) {
        let Some(close) = (open..t.len()).find(|i| matches!(t[*i].kind, Kind::Sign(')' | ']'))) else {
            return;
        };
        let inner = &t[open + 1..close];
        let amount = |t: &Token| {
            matches!(t.kind, Kind::Fraction(_) | Kind::W(W::Quarter | W::Half | W::Full | W::ThreeQuarter))
        };
        let small = |t: &Token| {
            matches!(
                t.kind,
                Kind::W(W::R | W::L | W::Turn | W::To | W::The | W::Clockwise | W::Anticlockwise)
            )
        };
        if inner.iter().any(amount) && inner.iter().all(|t| amount(t) || small(t)) {
            t.remove(close);
            t.remove(open);
            from = close - 1;
        } else {
            from = close;
        }
    }
}

fn single(feet: &[Named]) -> Vec<Token> {
    feet.iter().filter(|f| f.foot.is_some()).map(|f| f.token).collect()
}

/// Puts the words of the turn to the step on which it falls.
fn put_turn(
    clauses: &mut [Clause],
    firsts: &[(usize, usize)],
    turn: &[Token],
    turn_at: Option<Ticks>,
    ticks: &[Ticks],
) {
    let said = turn_at
        .and_then(|at| ticks.iter().position(|t| *t == at))
        .and_then(|k| firsts.iter().rev().find(|(_, first)| *first <= k).map(|(i, _)| *i));
    let turning = || clauses.iter().position(|c| c.words.iter().any(turns));
    let k = said.or_else(turning).unwrap_or(if firsts.len() == 1 { firsts[0].0 } else { clauses.len() - 1 });
    let c = &mut clauses[k];
    let behind = c.words.iter().any(turns) || said.is_none() && firsts.len() > 1;
    // A step on a turn is taken in the new facing: the turn comes first.
    let at = if behind { core_end(&c.words) } else { 0 };
    insert(&mut c.words, at, turn);
}

/// Puts the feet of their column to the steps.
fn put_feet(clauses: &mut [Clause], firsts: &[(usize, usize)], steps: usize, feet: &[Named], counts: usize) {
    let named: Vec<Named> = feet.iter().filter(|f| f.foot.is_some()).copied().collect();
    let Some(first) = named.first() else { return };
    if feet.len() == 1 {
        let words = &mut clauses[firsts.first().map_or(0, |f| f.0)].words;
        let still = words.iter().find(|t| verb(t)).is_some_and(|t| t.is(W::Hold) || t.is(W::Clap));
        if !still && leads(words) != first.foot {
            before(words, &[first.token]);
        }
        let _ = counts;
        return;
    }
    if steps == feet.len() {
        for (i, k) in firsts {
            let c = &mut clauses[*i];
            let own: Vec<Named> =
                feet[*k..*k + c.steps].iter().filter(|f| f.foot.is_some()).copied().collect();
            match own.as_slice() {
                [] => {}
                [one] => {
                    let still =
                        c.words.iter().find(|t| verb(t)).is_some_and(|t| t.is(W::Hold) || t.is(W::Clap));
                    if !still && !one.foot.is_some_and(|f| names(&c.words, f)) {
                        before(&mut c.words, &[one.token]);
                    }
                }
                several => behind(&mut c.words, several),
            }
        }
        return;
    }
    if let [(only, _)] = firsts {
        let words = &mut clauses[*only].words;
        if !words.iter().any(|t| matches!(t.kind, Kind::Feet)) && leads(words).is_none() {
            behind(words, &named);
        }
        return;
    }
    // The cells do not fit each other; the first foot begins in any case.
    if let Some((i, _)) = firsts.first() {
        let words = &mut clauses[*i].words;
        if leads(words).is_none() && !first.foot.is_some_and(|f| names(words, f)) {
            before(words, &[first.token]);
        }
    }
}

/// Puts a foot before the words of a step, behind a turn that comes first.
fn before(words: &mut Vec<Token>, foot: &[Token]) {
    let mut at = 0;
    while words.get(at).is_some_and(|t| {
        matches!(
            t.kind,
            Kind::Fraction(_)
                | Kind::W(
                    W::Quarter
                        | W::Half
                        | W::Full
                        | W::Turn
                        | W::ThreeQuarter
                        | W::Clockwise
                        | W::Anticlockwise
                )
        ) || at > 0 && matches!(t.kind, Kind::W(W::R | W::L | W::To | W::The))
    }) {
        at += 1;
    }
    if at == words.len() {
        at = 0;
    }
    insert(words, at, foot);
}

/// Puts an order of feet behind the words of a figure: "shuffle forward R L R".
fn behind(words: &mut Vec<Token>, feet: &[Named]) {
    let at = core_end(words);
    let tokens: Vec<Token> = feet.iter().map(|f| f.token).collect();
    insert(words, at, &tokens);
}

/// A hold, where a count stands beside nothing.
pub(super) fn hold(at: usize) -> Token {
    unwritten(Kind::W(W::Hold), at)
}
