//! The exact search for the fewest changes.
//!
//! A state is a count of the music at which something begins, what begins there, and the number of changes made
//! so far. What is kept for it is the best way there, in order: fewest phrases missed, then the smoothest
//! places, then the fewest counts cut or added. All three add up along the way and nothing that follows
//! depends on how a state was reached, so keeping only the best loses nothing. A state that misses no fewer
//! phrases than one with fewer changes at the same count is dropped, because no song that goes on from it can
//! be better than the same song from there.

use super::{Change, Fit};

/// What is compared, in this order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(super) struct Value {
    /// Phrases that begin while nothing else does.
    pub missed: u32,
    /// How rough the places are.
    pub rough: u32,
    /// Counts cut or added.
    pub counts: u32,
}

impl Value {
    pub(super) fn plus(self, other: Self) -> Self {
        Self {
            missed: self.missed.saturating_add(other.missed),
            rough: self.rough.saturating_add(other.rough),
            counts: self.counts.saturating_add(other.counts),
        }
    }
}

/// One repetition, or one part of a phrased dance, as it may be danced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Piece {
    /// Counts danced.
    pub length: u32,
    /// Where it is broken off.
    pub cut: Option<u32>,
    /// Counts added at its end.
    pub tag: Option<u32>,
    /// What it costs.
    pub value: Value,
}

impl Piece {
    pub(super) fn changes(&self) -> usize {
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

/// The best ways to each number of changes, at one count.
type Row = Vec<Option<Reached>>;

/// Counts of the music that the search goes through at most.
const LONGEST: u32 = crate::call::LONGEST_SONG;
/// Changes of a song at most.
const MOST: usize = 24;

/// Borders between phrases, counted from the first step, and the end of the last phrase.
fn borders(phrases: &[u32]) -> (Vec<u32>, u32) {
    let mut borders = Vec::new();
    let mut end = 0_u32;
    for length in phrases {
        end = end.saturating_add(*length);
        borders.push(end);
    }
    borders.pop();
    borders.retain(|b| *b > 0 && *b < end);
    borders.dedup();
    (borders, end)
}

/// The best ways for each number of changes, and the number of states visited. `turns` holds the ways to dance
/// what comes first, second and so on; after the last one it goes on from the first.
pub(super) fn search(turns: &[Vec<Piece>], phrases: &[u32]) -> (Vec<Fit>, usize) {
    let (borders, end) = borders(phrases);
    if end > LONGEST || turns.is_empty() {
        return (Vec::new(), 0);
    }
    // Each phrase needs two changes at most, a restart and a tag.
    let most = (borders.len() * 2).min(MOST);
    let missed = |from: u32, to: u32| {
        let [first, end] = [borders.partition_point(|b| *b <= from), borders.partition_point(|b| *b < to)];
        u32::try_from(end.saturating_sub(first)).unwrap_or(u32::MAX)
    };
    let size = usize::try_from(end).unwrap_or(0);
    let mut best: Vec<Vec<Row>> = vec![vec![vec![None; most + 1]; size + 1]; turns.len()];
    let mut states = 0;
    best[0][0][0] = Some(Reached { value: Value::default(), from: None });
    for at in 0..size {
        for (turn, pieces) in turns.iter().enumerate() {
            let next = (turn + 1) % turns.len();
            let mut fewest = u32::MAX;
            for changes in 0..=most {
                let Some(here) = best[turn][at][changes] else { continue };
                if here.value.missed >= fewest {
                    continue;
                }
                fewest = here.value.missed;
                states += 1;
                let from = u32::try_from(at).unwrap_or(u32::MAX);
                for piece in pieces {
                    let to = from.saturating_add(piece.length);
                    let then = changes + piece.changes();
                    // A change at the end of the music or after it changes nothing.
                    if piece.length == 0 || then > most || (to >= end && piece.changes() > 0) {
                        continue;
                    }
                    let stop = to.min(end);
                    let value = here
                        .value
                        .plus(piece.value)
                        .plus(Value { missed: missed(from, stop), ..Value::default() });
                    let slot = &mut best[next][usize::try_from(stop).unwrap_or(0)][then];
                    if slot.is_none_or(|old| value < old.value) {
                        *slot = Some(Reached { value, from: Some((from, changes, *piece)) });
                    }
                }
            }
        }
    }
    let mut fits: Vec<Fit> = Vec::new();
    for changes in 0..=most {
        let ends = (0..turns.len()).filter_map(|turn| best[turn][size][changes].map(|r| (r.value, turn)));
        let Some((value, turn)) = ends.min() else { continue };
        if fits.last().is_none_or(|last| value.missed < last.missed) {
            fits.push(told(&best, turn, size, changes));
        }
    }
    (fits, states)
}

/// Follows the way back to the beginning.
fn told(best: &[Vec<Row>], turn: usize, at: usize, changes: usize) -> Fit {
    let mut pieces = Vec::new();
    let (mut turn, mut at, mut left) = (turn, at, changes);
    let mut value = None;
    while let Some(reached) = best[turn][at][left] {
        value.get_or_insert(reached.value);
        let Some((before, changes, piece)) = reached.from else { break };
        pieces.push(piece);
        turn = (turn + best.len() - 1) % best.len();
        (at, left) = (usize::try_from(before).unwrap_or(0), changes);
    }
    pieces.reverse();
    let mut changes = Vec::new();
    for (wall, piece) in (1..).zip(&pieces) {
        changes.extend(piece.cut.map(|after| Change::Restart { wall, after }));
        changes.extend(piece.tag.map(|counts| Change::Tag { wall, counts }));
    }
    let Value { missed, rough, counts } = value.unwrap_or_default();
    Fit { changes, missed, rough, counts }
}
