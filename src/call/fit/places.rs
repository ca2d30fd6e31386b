//! Where a dance, or a part of one, may be broken off, and what may be added to it.

use super::Refused;
use super::search::{Piece, Value};
use crate::call::walk::{danced, outcome};
use crate::dance::{Dance, Effect, Foot, Move, Weight, Who};
use crate::floor::{Heading, Turn};

/// The places of some parts danced in a row.
pub(super) struct Places {
    /// Counts of all of them.
    pub length: u32,
    /// Counts after which it may be broken off, and how rough that is.
    pub cuts: Vec<(u32, u32)>,
    /// Counts that may be added at the end, and how rough that is.
    pub tags: Vec<(u32, u32)>,
    /// Ends of sections at which it may not be broken off, and why.
    pub refused: Vec<(u32, Refused)>,
}

/// A foot may begin if it is free, or, for a move of the foot that stands, if it stands.
fn may_begin(weight: Weight, first: &Move) -> Option<Foot> {
    let Who::One(foot) = first.who else { return None };
    let wrong = match (weight, first.effect) {
        (Weight::Both, _) => false,
        (Weight::On(on), Effect::Keeps) => on != foot,
        (Weight::On(on), _) => on == foot,
    };
    wrong.then_some(foot)
}

/// The first move of a foot in a part.
pub(super) fn first_act(dance: &Dance, part: usize) -> Option<&Move> {
    let acts = |m: &&Move| matches!(m.who, Who::One(_)) && m.effect != Effect::None;
    dance.parts.get(part)?.sections.iter().flat_map(|s| &s.moves).find(acts)
}

/// What some parts turn in all, danced in a row.
pub(super) fn net(dance: &Dance, parts: &[usize]) -> Turn {
    let mut turn = Turn::NONE;
    for part in parts {
        let counts = dance.parts.get(*part).map_or(0, crate::dance::Part::counts);
        turn += outcome(&danced(dance, *part, 0, counts, None), dance.start).0;
    }
    turn
}

/// The least turn between two of the walls that turns lead to, in 1/48 turns.
pub(super) fn between_walls(turns: impl Iterator<Item = Turn>) -> i32 {
    turns.fold(48, |unit, turn| {
        let (mut a, mut b) = (unit, turn.0.rem_euclid(48));
        while b != 0 {
            (a, b) = (b, a % b);
        }
        a
    })
}

impl Places {
    /// The places of `parts`, after which a part begins with `first`; `unit` is the least turn between walls.
    pub(super) fn of(dance: &Dance, parts: &[usize], first: &Move, unit: i32) -> Self {
        // Each move with its count, whole parts in a row.
        let mut moves = Vec::new();
        let mut ends = Vec::new();
        let mut before = 0;
        for part in parts {
            let Some(counts) = dance.parts.get(*part).map(crate::dance::Part::counts) else { continue };
            for d in danced(dance, *part, 0, counts, None) {
                let own = u32::try_from(d.at.count().max(0)).unwrap_or(0).max(d.eight.before);
                moves.push((before + own, *part, d));
            }
            for section in &dance.parts[*part].sections {
                before += section.counts;
                ends.push(before);
            }
        }
        let length = before;
        let start = moves.first().map_or(dance.start, |(_, _, d)| d.step.before);
        let beats = dance.head.metre.beats();
        let (mut cuts, mut refused) = (Vec::new(), Vec::new());
        for after in 1..length {
            let done: Vec<_> = moves.iter().filter(|(count, _, _)| *count < after).collect();
            let rest = moves.iter().find(|(count, _, _)| *count >= after);
            let turn = done.iter().fold(Turn::NONE, |turn, (_, _, d)| turn + d.step.turn);
            let weight = done.last().map_or(start, |(_, _, d)| d.step.after);
            let section_end = ends.contains(&after);
            let why = may_begin(weight, first).map(Refused::Foot).or_else(|| {
                let facing = Heading::FRONT.turned(turn);
                (turn.0.rem_euclid(unit) != 0).then_some(Refused::Wall(facing))
            });
            if let Some(why) = why {
                if section_end {
                    refused.push((after, why));
                }
                continue;
            }
            // A figure goes on where the moves on both sides belong to the same one.
            let inside = match (done.last(), rest) {
                (Some((_, a, x)), Some((_, b, y))) => {
                    a == b
                        && x.eight.number == y.eight.number
                        && x.step.figure.is_some()
                        && x.step.figure == y.step.figure
                }
                _ => false,
            };
            let rough = match () {
                () if section_end => 0,
                () if inside => 3,
                () if after % beats == 0 => 1,
                () => 2,
            };
            cuts.push((after, rough));
        }
        let tags =
            if beats == 3 { vec![(3, 0), (6, 0), (12, 0)] } else { vec![(2, 1), (4, 0), (8, 0), (16, 0)] };
        Self { length, cuts, tags, refused }
    }

    /// Every way to dance it.
    pub(super) fn pieces(&self) -> Vec<Piece> {
        let whole = Piece { length: self.length, cut: None, tag: None, value: Value::default() };
        let mut out = vec![whole];
        let cut = |(after, rough): &(u32, u32)| Piece {
            length: *after,
            cut: Some(*after),
            tag: None,
            value: Value { missed: 0, rough: *rough, counts: self.length - after },
        };
        out.extend(self.cuts.iter().map(cut));
        for (counts, rough) in &self.tags {
            let tagged = |p: &Piece| Piece {
                length: p.length + counts,
                cut: p.cut,
                tag: Some(*counts),
                value: Value { missed: 0, rough: p.value.rough + rough, counts: p.value.counts + counts },
            };
            let bare: Vec<Piece> = out.iter().filter(|p| p.tag.is_none()).map(tagged).collect();
            out.extend(bare);
        }
        out
    }
}
