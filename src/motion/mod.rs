//! Where the feet are: a [`Dance`] and a [`Body`] in, a [`Motion`] out.
//!
//! The room knows no words and no findings. It plays the moves one after the other on an even floor, keeps the
//! points still that a dancer keeps still (the ball in a pivot, the heel in a toe fan, the toe when a heel
//! drops), and remembers enough to tell the pose at any moment between two counts.
//!
//! A pose is reached on its tick. A plain step sets out half a count earlier, so at the half-count before it
//! the feet still stand; what is drawn out (drags, sweeps, unwinds, spins) uses all its time.

mod acts;
mod contact;
mod dancer;
mod floor_need;
pub mod frames;
pub mod limits;
mod paces;
mod path;
mod play;
mod pose;
mod stroll;
mod tape;

use crate::body::Body;
use crate::dance::Dance;
use crate::floor::{Heading, Point, Turn};
use crate::time::Ticks;

pub use floor_need::{FloorNeed, Roam, floor_need, roam};
pub use frames::{FrameRow, csv};
pub use play::Stretch;
pub use pose::{FootPose, Sole, Stance, degrees, direction};

use play::{Extent, Playlist};
use tape::Tape;

/// The pose that one move leads to.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Moment {
    /// When it is reached, in ticks of the song: its first count is tick 24.
    pub tick: Ticks,
    /// When the movement toward it begins.
    pub begins: Ticks,
    /// Index into [`Motion::stretches`].
    pub stretch: usize,
    /// Index of the move in its section.
    pub index: usize,
    /// How far the move turns the body.
    pub turn: Turn,
    /// The pose.
    pub stance: Stance,
}

/// A dance on the floor.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Motion {
    /// The body that dances.
    pub body: Body,
    /// The pose before the first step.
    pub start: Stance,
    /// The pose that each move leads to, in order of time.
    pub moments: Vec<Moment>,
    /// The sections in the order in which they are danced.
    pub stretches: Vec<Stretch>,
    /// Counts danced.
    pub counts: u32,
    /// The body's spot at the end.
    pub spot: Point,
    /// Facing at the end, in 1/48 of a turn, not brought back to one turn.
    pub facing: i32,
    tape: Tape,
}

impl Motion {
    /// The body at any moment, in ticks of the song, whole or not.
    #[must_use]
    pub fn at(&self, tick: f64) -> Stance {
        self.tape.at(tick, &self.body).unwrap_or(self.start)
    }

    /// The pose at the end.
    #[must_use]
    pub fn end(&self) -> Stance {
        self.moments.last().map_or(self.start, |m| m.stance)
    }

    /// The stretch that a count of the song belongs to.
    #[must_use]
    pub fn stretch_of(&self, count: u32) -> Option<&Stretch> {
        let after = self.stretches.partition_point(|s| s.before < count.max(1));
        self.stretches.get(after.saturating_sub(1))
    }
}

/// Dances so many repetitions from the front wall. One repetition is the main sections in order; more of them
/// follow the song with its tags and restarts.
#[must_use]
pub fn simulate(dance: &Dance, body: &Body, walls: u32) -> Motion {
    simulate_facing(dance, body, walls, Heading::FRONT)
}

/// Dances one repetition for somebody who asks for the pose of each move, not for what lies between two of them.
pub(crate) fn poses(dance: &Dance, body: &Body) -> Motion {
    dancer::play(dance, body, Playlist::of(dance, Extent::Walls(1)), Heading::FRONT, false)
}

/// Dances so many repetitions from any wall.
#[must_use]
pub fn simulate_facing(dance: &Dance, body: &Body, walls: u32, facing: Heading) -> Motion {
    dancer::play(dance, body, Playlist::of(dance, Extent::Walls(walls)), facing, true)
}

/// Dances the whole song as far as the dance's runs tell it.
#[must_use]
pub fn simulate_song(dance: &Dance, body: &Body) -> Motion {
    let facing = dance.runs.first().map_or(Heading::FRONT, |r| r.facing);
    dancer::play(dance, body, Playlist::of(dance, Extent::Song), facing, true)
}
