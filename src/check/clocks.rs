//! Clock marks held against the turns: which are wrong by themselves, and where a turn must be wrong.

use super::subject::{Danced, Subject};
use crate::dance::PartKind;
use crate::floor::{Heading, Turn};
use crate::read::{Trouble, TroubleKind};
use crate::text::Span;

/// One slip.
#[derive(Debug)]
pub(super) enum Slip<'a> {
    /// These marks are off and later ones agree again.
    Mark(Vec<&'a Trouble>),
    /// From this mark on everything is off by the same amount.
    Turn {
        /// The last mark that agrees.
        before: Option<&'a Trouble>,
        /// The first that does not, and those after it.
        marks: Vec<&'a Trouble>,
        /// What the turns lack.
        lack: Turn,
        /// Nothing after it says whether the mark or the turn is wrong.
        open: bool,
    },
}

pub(super) fn pair(t: &Trouble) -> Option<(Heading, Heading)> {
    match t.kind {
        TroubleKind::Clock { said, got } => Some((said, got)),
        TroubleKind::ClockHeld { said } => Some((said, said)),
        _ => None,
    }
}

fn off(t: &Trouble) -> i32 {
    pair(t).map_or(0, |(said, got)| (said.units() - got.units()).rem_euclid(48))
}

/// A turn between a half left and a half right.
pub(super) fn small(units: i32) -> Turn {
    let u = units.rem_euclid(48);
    Turn(if u > 24 { u - 48 } else { u })
}

/// The slips of a part, in order.
pub(super) fn slips<'a>(s: &Subject<'a>, part: usize) -> Vec<Slip<'a>> {
    let marks: Vec<&Trouble> = s.reading.clocks.iter().filter(|t| t.part == part).collect();
    let mut runs: Vec<(i32, Vec<&Trouble>)> = Vec::new();
    for m in marks {
        match runs.last_mut() {
            Some((d, list)) if *d == off(m) => list.push(m),
            _ => runs.push((off(m), vec![m])),
        }
    }
    let mut out = Vec::new();
    let mut level = 0;
    let mut before: Option<&Trouble> = None;
    for k in 0..runs.len() {
        let (d, list) = &runs[k];
        if *d == level {
            before = list.last().copied();
            continue;
        }
        let next = runs.get(k + 1);
        let comes_back = next.is_some_and(|(n, _)| *n == level);
        let alone = next.is_none() && list.len() == 1;
        if comes_back && list.len() <= 3 {
            out.push(Slip::Mark(list.clone()));
            continue;
        }
        if alone && !walls_want(s, part, small(d - level)) {
            out.push(Slip::Turn { before, marks: list.clone(), lack: small(d - level), open: true });
            continue;
        }
        out.push(Slip::Turn { before, marks: list.clone(), lack: small(d - level), open: false });
        level = *d;
        before = list.last().copied();
    }
    out
}

/// Whether the stated walls ask for this change of the net turn.
fn walls_want(s: &Subject<'_>, part: usize, lack: Turn) -> bool {
    let Some((walls, _)) = s.sheet.head.walls else { return false };
    let dance = s.dance();
    let p = &dance.parts[part];
    if p.kind != PartKind::Main || !dance.sequence.is_empty() {
        return false;
    }
    let net = p.turn();
    crate::read::walls(net.0) != walls && crate::read::walls((net + lack).0) == walls
}

/// Moves that turn between two places of the text.
pub(super) fn turning<'m, 'a>(
    moves: &'m [Danced<'a>],
    from: Option<u32>,
    to: u32,
) -> Vec<(usize, &'m Danced<'a>)> {
    let inside =
        |d: &Danced<'_>| d.m.turn.0 != 0 && d.m.span.start < to && from.is_none_or(|f| d.m.span.start >= f);
    moves.iter().enumerate().filter(|(_, d)| inside(d)).collect()
}

/// The words around a move in which its turn may be written: from the end of the move before it.
pub(super) fn region(moves: &[Danced<'_>], i: usize) -> Span {
    let own = moves[i].m.span;
    let before = moves[..i].iter().rev().map(|d| d.m.span).find(|x| *x != own && x.end <= own.start);
    let after = moves[i + 1..].iter().map(|d| d.m.span).find(|x| *x != own && x.start >= own.end);
    let start = before.map_or(own.start, |b| if own.start - b.end < 60 { b.end } else { own.start });
    let end = after.map_or(own.end, |a| if a.start - own.end < 40 { a.start } else { own.end });
    Span { start, end }
}
