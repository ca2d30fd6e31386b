//! Where repetitions start against the phrases of the music, and which restarts and tags bring them together.
//!
//! The search is exact. A state is a count of the music at which a repetition starts and the number of changes
//! made so far; what is kept for it is the best way there, in order: fewest phrases missed, then the smoothest
//! places, then the fewest counts cut or added. All three add up along the way and nothing that follows
//! depends on how a state was reached, so keeping only the best loses nothing. A state that misses no fewer
//! phrases than one with fewer changes at the same count is dropped, because no song that goes on from it can
//! be better than the same song from there.

use super::timeline::{Song, What};
use super::walk::{danced, outcome};
use crate::dance::{Dance, Effect, Foot, Move, PartKind, Weight, Who};
use crate::floor::{Heading, Turn};

/// Where a repetition starts in the music.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct Start {
    /// The repetition, from 1.
    pub wall: u32,
    /// The phrase, from 1; one more than there are where the music has no phrase left.
    pub phrase: usize,
    /// Counts into the phrase.
    pub into: u32,
}

/// Why no restart can be made at a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refused {
    /// The foot that begins the dance carries the weight.
    Foot(Foot),
    /// The dance would go on to a wall that is none of its own.
    Wall(Heading),
}

/// A change of the plain order of repetitions.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Change {
    /// The dance begins again after so many counts of a repetition.
    Restart {
        /// The repetition, from 1.
        wall: u32,
        /// Counts danced.
        after: u32,
    },
    /// Counts are added after a repetition, or after what is danced of it.
    Tag {
        /// The repetition, from 1.
        wall: u32,
        /// Counts added.
        counts: u32,
    },
}

/// One way to bring dance and music together.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Fit {
    /// The changes in order of the song; none is the plain dance.
    pub changes: Vec<Change>,
    /// Phrases that begin while no repetition does, of all but the first.
    pub missed: u32,
    /// How rough the places are: 0 for each at a section's end, 1 at a bar's end, 2 elsewhere, 3 inside of a
    /// figure; 1 for a tag that is no whole bar.
    pub rough: u32,
    /// Counts of the dance left out and counts of new steps added.
    pub counts: u32,
}

/// What the search found.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Fitting {
    /// Ways to fit, fewest changes first; each misses fewer phrases than the one before it.
    pub fits: Vec<Fit>,
    /// Ends of sections at which no restart can be made, in counts of the dance, and why.
    pub refused: Vec<(u32, Refused)>,
    /// States that the search visited.
    pub states: usize,
}

/// Where each repetition starts against the phrases, which begin with the first step.
#[must_use]
pub fn starts(song: &Song, phrases: &[u32]) -> Vec<Start> {
    let first = |s: &&super::timeline::Stretch| s.what == What::Dance && s.from == 0;
    let mut wall = 0;
    let mut out = Vec::new();
    for stretch in song.stretches.iter().filter(first) {
        // Of a dance in several parts, the first one starts the repetition.
        if stretch.wall == wall {
            continue;
        }
        wall = stretch.wall;
        let (mut phrase, mut into) = (1, stretch.start - song.intro);
        for length in phrases {
            if into < *length {
                break;
            }
            into -= length;
            phrase += 1;
        }
        out.push(Start { wall, phrase, into });
    }
    out
}

/// Searches for the fewest restarts and tags after which every phrase of the music begins with a repetition.
/// `None` for a dance whose parts have an order of their own, and for one without steps.
#[must_use]
pub fn fit(dance: &Dance, phrases: &[u32]) -> Option<Fitting> {
    if !dance.sequence.is_empty() {
        return None;
    }
    let grid = Grid::of(dance)?;
    let (fits, states) = search(&grid.pieces(), phrases);
    Some(Fitting { fits, refused: grid.refused, states })
}

/// Where a dance may be cut, and what may be added to it.
struct Grid {
    length: u32,
    cuts: Vec<(u32, u32)>,
    tags: Vec<(u32, u32)>,
    refused: Vec<(u32, Refused)>,
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

impl Grid {
    fn of(dance: &Dance) -> Option<Self> {
        let mains: Vec<usize> =
            (0..dance.parts.len()).filter(|i| dance.parts[*i].kind == PartKind::Main).collect();
        let length: u32 = mains.iter().map(|i| dance.parts[*i].counts()).sum();
        // Each move with its count, whole parts in a row.
        let mut moves = Vec::new();
        let mut ends = Vec::new();
        let mut before = 0;
        for part in &mains {
            let counts = dance.parts[*part].counts();
            for d in danced(dance, *part, 0, counts, None) {
                let own = u32::try_from(d.at.count().max(0)).unwrap_or(0).max(d.eight.before);
                moves.push((before + own, *part, d));
            }
            for section in &dance.parts[*part].sections {
                before += section.counts;
                ends.push(before);
            }
        }
        let acts = |m: &&Move| matches!(m.who, Who::One(_)) && m.effect != Effect::None;
        let first = moves.iter().map(|(_, _, d)| d.step).find(acts)?;
        let all: Vec<_> = moves.iter().map(|(_, _, d)| *d).collect();
        let net = outcome(&all, dance.start).0;
        let beats = dance.head.metre.beats();
        let (mut cuts, mut refused) = (Vec::new(), Vec::new());
        for after in 1..length {
            let done: Vec<_> = moves.iter().filter(|(count, _, _)| *count < after).collect();
            let rest = moves.iter().find(|(count, _, _)| *count >= after);
            let turn = done.iter().fold(Turn::NONE, |turn, (_, _, d)| turn + d.step.turn);
            let weight = done.last().map_or(dance.start, |(_, _, d)| d.step.after);
            let section_end = ends.contains(&after);
            let why = may_begin(weight, first).map(Refused::Foot).or_else(|| {
                let facing = Heading::FRONT.turned(turn);
                (!own_wall(net, turn)).then_some(Refused::Wall(facing))
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
        Some(Self { length, cuts, tags, refused })
    }

    /// Every way to dance one repetition.
    fn pieces(&self) -> Vec<Piece> {
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

/// Whether a turn leads to one of the walls that repetitions begin on.
fn own_wall(net: Turn, turn: Turn) -> bool {
    let (mut a, mut b) = (48, net.0.rem_euclid(48));
    while b != 0 {
        (a, b) = (b, a % b);
    }
    turn.0.rem_euclid(a) == 0
}

/// What is compared, in this order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
struct Value {
    missed: u32,
    rough: u32,
    counts: u32,
}

impl Value {
    fn plus(self, other: Self) -> Self {
        Self {
            missed: self.missed.saturating_add(other.missed),
            rough: self.rough.saturating_add(other.rough),
            counts: self.counts.saturating_add(other.counts),
        }
    }
}

/// One repetition as it may be danced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Piece {
    length: u32,
    cut: Option<u32>,
    tag: Option<u32>,
    value: Value,
}

impl Piece {
    fn changes(&self) -> usize {
        usize::from(self.cut.is_some()) + usize::from(self.tag.is_some())
    }
}

/// A state on the best way to it.
#[derive(Debug, Clone, Copy)]
struct Reached {
    value: Value,
    /// Count and changes of the state before it, and what was danced between.
    from: Option<(u32, usize, Piece)>,
}

/// Counts of the music that the search goes through at most.
const LONGEST: u32 = super::LONGEST_SONG;
/// Changes of a song at most.
const MOST: usize = 24;

/// The best ways for each number of changes, and the number of states visited.
fn search(pieces: &[Piece], phrases: &[u32]) -> (Vec<Fit>, usize) {
    let mut borders = Vec::new();
    let mut end = 0_u32;
    for length in phrases {
        end = end.saturating_add(*length);
        borders.push(end);
    }
    borders.pop();
    borders.retain(|b| *b > 0 && *b < end);
    borders.dedup();
    if end > LONGEST {
        return (Vec::new(), 0);
    }
    // Each phrase needs two changes at most, a restart and a tag.
    let most = (borders.len() * 2).min(MOST);
    let missed = |from: u32, to: u32| {
        let [first, end] = [borders.partition_point(|b| *b <= from), borders.partition_point(|b| *b < to)];
        u32::try_from(end.saturating_sub(first)).unwrap_or(u32::MAX)
    };
    let size = usize::try_from(end).unwrap_or(0);
    let mut best: Vec<Vec<Option<Reached>>> = vec![vec![None; most + 1]; size + 1];
    let mut states = 0;
    if let Some(start) = best.first_mut() {
        start[0] = Some(Reached { value: Value::default(), from: None });
    }
    for at in 0..end {
        let mut fewest = u32::MAX;
        for changes in 0..=most {
            let index = usize::try_from(at).unwrap_or(0);
            let Some(here) = best[index][changes] else { continue };
            if here.value.missed >= fewest {
                continue;
            }
            fewest = here.value.missed;
            states += 1;
            for piece in pieces {
                let to = at.saturating_add(piece.length);
                let then = changes + piece.changes();
                // A change at the end of the music or after it changes nothing.
                if piece.length == 0 || then > most || (to >= end && piece.changes() > 0) {
                    continue;
                }
                let stop = to.min(end);
                let value =
                    here.value.plus(piece.value).plus(Value { missed: missed(at, stop), ..Value::default() });
                let slot = &mut best[usize::try_from(stop).unwrap_or(0)][then];
                if slot.is_none_or(|old| value < old.value) {
                    *slot = Some(Reached { value, from: Some((at, changes, *piece)) });
                }
            }
        }
    }
    let mut fits: Vec<Fit> = Vec::new();
    for changes in 0..=most {
        let Some(reached) = best[size][changes] else { continue };
        if fits.last().is_none_or(|last| reached.value.missed < last.missed) {
            fits.push(told(&best, reached));
        }
    }
    (fits, states)
}

/// Follows the way back to the beginning.
fn told(best: &[Vec<Option<Reached>>], last: Reached) -> Fit {
    let mut pieces = Vec::new();
    let mut now = last;
    while let Some((at, changes, piece)) = now.from {
        pieces.push(piece);
        let before = usize::try_from(at).ok().and_then(|i| best.get(i)).and_then(|row| row.get(changes));
        match before {
            Some(Some(reached)) => now = *reached,
            _ => break,
        }
    }
    pieces.reverse();
    let mut changes = Vec::new();
    for (wall, piece) in (1..).zip(&pieces) {
        changes.extend(piece.cut.map(|after| Change::Restart { wall, after }));
        changes.extend(piece.tag.map(|counts| Change::Tag { wall, counts }));
    }
    let Value { missed, rough, counts } = last.value;
    Fit { changes, missed, rough, counts }
}

#[cfg(test)]
#[path = "fit_tests.rs"]
mod tests;
