//! The floor that a dance needs: its box, how far it travels, and how near a neighbour may stand.

use crate::body::Body;
use crate::dance::Dance;
use crate::floor::{Heading, Point, Turn};

use super::play::{Extent, Playlist};
use super::pose::direction;
use super::stroll::stroll;
use super::{Motion, Stance, Stretch};

/// The floor that a dance needs, in metres, seen by a dancer who faces the wall that the dance begins with: x
/// to the right, y ahead.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct FloorNeed {
    /// The nearest left corner that the feet of one repetition reach, from the starting spot.
    pub low: Point,
    /// The farthest right corner.
    pub high: Point,
    /// From the spot at the start to the spot at the end of one repetition.
    pub travel: Point,
    /// How far one repetition turns the dancer.
    pub turn: Turn,
    /// From the spot at the start of the song to the spot at its end, with its walls, tags and restarts.
    pub drift: Point,
    /// How far from the starting spot the body ever gets in the song.
    pub farthest: f64,
    /// Repetitions that the song was followed for.
    pub walls: u32,
    /// Neighbours to the side who stand nearer than this, centre to centre, meet even in unison.
    pub beside: f64,
    /// The same for rows behind each other.
    pub behind: f64,
}

/// Measures one repetition and the whole song.
#[must_use]
pub fn floor_need(dance: &Dance, one: &Motion, song: &Motion) -> FloorNeed {
    let body = &one.body;
    let mut box_of = Corners::around(&one.start, body);
    let (mut beside, mut behind) = (0.0_f64, 0.0_f64);
    for m in &one.moments {
        let half = one.at(f64::from(m.begins.0 + m.tick.0) / 2.0);
        for s in [&half, &m.stance] {
            let here = Corners::around(s, body);
            beside = beside.max(here.high.x - here.low.x);
            behind = behind.max(here.high.y - here.low.y);
            box_of = box_of.joined(&here);
        }
    }
    let turn = Turn(one.facing);
    // A dance that turns its rows into files needs the same room both ways.
    if turn.0.rem_euclid(24) != 0 {
        beside = beside.max(behind);
        behind = beside;
    }
    let Roam { drift, farthest, walls } = Roam::of(dance, &song.stretches, song.spot);
    let at_start = one.stretches.first().map_or(Point::ORIGIN, |s| s.spot);
    FloorNeed {
        low: box_of.low - at_start,
        high: box_of.high - at_start,
        travel: one.travel(),
        turn,
        drift,
        farthest,
        walls,
        beside,
        behind,
    }
}

/// How far a song takes the dancer, in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Roam {
    /// As [`FloorNeed::drift`].
    pub drift: Point,
    /// As [`FloorNeed::farthest`].
    pub farthest: f64,
    /// As [`FloorNeed::walls`].
    pub walls: u32,
}

/// How far the whole song takes the dancer. Dances it without a record of how the feet get where they go.
#[must_use]
pub fn roam(dance: &Dance, body: &Body) -> Roam {
    let facing = dance.runs.first().map_or(Heading::FRONT, |r| r.facing);
    let (stretches, spot) = stroll(dance, body, Playlist::of(dance, Extent::Spots), facing);
    Roam::of(dance, &stretches, spot)
}

impl Roam {
    fn of(dance: &Dance, stretches: &[Stretch], end: Point) -> Self {
        let from = stretches.first().map_or(Point::ORIGIN, |s| s.spot);
        let spots = stretches.iter().map(|s| s.spot).chain([end]);
        let facing = dance.runs.first().map_or(0, |r| r.facing.units());
        Self {
            drift: (end - from).turned(Turn(-facing)),
            farthest: spots.map(|p| (p - from).length()).fold(0.0, f64::max),
            walls: stretches.iter().map(|s| s.wall).max().unwrap_or(1),
        }
    }
}

impl Motion {
    /// From the spot at the start to the spot at the end.
    #[must_use]
    pub fn travel(&self) -> Point {
        self.spot - self.stretches.first().map_or(Point::ORIGIN, |s| s.spot)
    }
}

/// The corners of a box along the walls.
#[derive(Debug, Clone, Copy)]
struct Corners {
    low: Point,
    high: Point,
}

impl Corners {
    /// Around both feet and the shoulders of a body: 0.259 of the stature across (Drillis and Contini 1966).
    fn around(s: &Stance, body: &Body) -> Self {
        let shoulders = direction(s.facing + 12.0) * (0.259 * body.stature / 2.0);
        let middle = s.left.ball.toward(s.right.ball, 0.5);
        let mut corners = Self { low: middle, high: middle };
        let breadth = body.foot_breadth / 2.0;
        for foot in [&s.left, &s.right] {
            for p in [foot.heel(body), foot.ball, foot.tip(body)] {
                corners.reach(p + Point::new(breadth, breadth));
                corners.reach(p - Point::new(breadth, breadth));
            }
        }
        corners.reach(s.centre + shoulders);
        corners.reach(s.centre - shoulders);
        corners
    }

    fn reach(&mut self, p: Point) {
        self.low = Point::new(self.low.x.min(p.x), self.low.y.min(p.y));
        self.high = Point::new(self.high.x.max(p.x), self.high.y.max(p.y));
    }

    fn joined(mut self, other: &Self) -> Self {
        self.reach(other.low);
        self.reach(other.high);
        self
    }
}
