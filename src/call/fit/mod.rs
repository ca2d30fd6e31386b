//! Where repetitions start against the phrases of the music, and which restarts and tags bring them together.
//!
//! [`Places`](places::Places) says where a repetition, or a part of a phrased dance, may be broken off;
//! [`search`](search::search) finds the least of such changes, exactly.

mod places;
mod search;

use super::timeline::{Song, What};
use crate::dance::{Dance, Foot, PartKind};
use crate::floor::Heading;
use places::{Places, between_walls, first_act, net};
use search::search;

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

/// An end of a section at which no restart can be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct Refusal {
    /// Index into [`Dance::parts`] of the part of a phrased dance; `None` where the parts are one dance.
    pub part: Option<usize>,
    /// Counts danced of the repetition, or of the part.
    pub after: u32,
    /// Why not.
    pub why: Refused,
}

/// A change of the plain order of repetitions.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Change {
    /// The dance begins again after so many counts of a repetition; a phrased one goes on with its next part.
    Restart {
        /// The repetition, or the part in order of the song, from 1.
        wall: u32,
        /// Counts danced.
        after: u32,
    },
    /// Counts are added after a repetition, or after what is danced of it.
    Tag {
        /// The repetition, or the part in order of the song, from 1.
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
    /// Ends of sections at which no restart can be made, and why.
    pub refused: Vec<Refusal>,
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

/// Searches for the fewest restarts and tags after which every phrase of the music begins with a repetition, or
/// with a part of a phrased dance, whose order stays as it is. `None` for a dance without steps.
#[must_use]
pub fn fit(dance: &Dance, phrases: &[u32]) -> Option<Fitting> {
    let mains = (0..dance.parts.len()).filter(|i| dance.parts[*i].kind == PartKind::Main);
    let phrased = !dance.sequence.is_empty();
    // What is danced as a whole before the next thing begins.
    let turns: Vec<Vec<usize>> = if phrased {
        dance.sequence.iter().filter(|p| **p < dance.parts.len()).map(|p| vec![*p]).collect()
    } else {
        vec![mains.collect()]
    };
    let unit = between_walls(turns.iter().map(|parts| net(dance, parts)));
    let mut ways = Vec::new();
    let mut refused: Vec<Refusal> = Vec::new();
    for (i, parts) in turns.iter().enumerate() {
        let next = turns[(i + 1) % turns.len()].first()?;
        let places = Places::of(dance, parts, first_act(dance, *next)?, unit);
        ways.push(places.pieces());
        for (after, why) in places.refused {
            let refusal = Refusal { part: if phrased { parts.first().copied() } else { None }, after, why };
            if !refused.contains(&refusal) {
                refused.push(refusal);
            }
        }
    }
    let (fits, states) = search(&ways, phrases);
    Some(Fitting { fits, refused, states })
}

#[cfg(test)]
mod tests;
