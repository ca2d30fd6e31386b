//! What happens between the poses: strokes of the feet, the body and the weight, and how they are read at any
//! moment.
//!
//! A stroke leads from one rest to the next. Between strokes nothing moves, so the whole motion is continuous
//! by construction: a stroke begins where the one before it ended.

use crate::body::Body;
use crate::floor::Point;

use super::pose::{FootPose, Sole, direction};

/// Something that changes from `from` to `to`, in ticks of the dance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stroke<T> {
    pub(super) from: i32,
    pub(super) to: i32,
    pub(super) start: T,
    pub(super) end: T,
}

impl<T> Stroke<T> {
    /// How much of the stroke is over, 0 to 1.
    pub(super) fn progress(&self, tick: f64) -> f64 {
        if tick >= f64::from(self.to) {
            return 1.0;
        }
        ((tick - f64::from(self.from)) / f64::from(self.to - self.from)).max(0.0)
    }
}

/// A foot at rest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Rest {
    pub(super) ball: Point,
    /// In 1/48 of a turn, not brought back to one turn.
    pub(super) toe: f64,
    pub(super) sole: Sole,
}

impl Rest {
    pub(super) fn posed(self, share: f64) -> FootPose {
        FootPose { ball: self.ball, toe: self.toe, sole: self.sole, share, lift: resting_lift(self.sole) }
    }
}

/// How a foot gets from one rest to the next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Way {
    /// The ball stays; the toe may turn. Shows the sole meanwhile.
    OnBall(Sole),
    /// The heel stays and the toe turns about it.
    OnHeel,
    /// Through the air and down again; `bend` is the widest departure from the straight line.
    Lifted {
        /// Sideways departure half-way.
        bend: Point,
        /// What strokes the floor half-way.
        passing: Sole,
        /// What comes down first.
        landing: Sole,
    },
    /// Along the floor.
    Drawn {
        /// Sideways departure half-way.
        bend: Point,
        /// What slides.
        sole: Sole,
    },
}

/// Share of a lifted stroke after which the foot is down and begins to take the weight.
pub(super) const LANDED: f64 = 0.75;

/// From 0 to 1 with rest at both ends.
pub(super) fn eased(u: f64) -> f64 {
    u * u * (3.0 - 2.0 * u)
}

/// A foot in the air at rest is about a hand above the floor.
fn resting_lift(sole: Sole) -> f64 {
    if sole.is_down() { 0.0 } else { 0.12 }
}

/// The point of a bent line: straight from `start` to `end`, carried off by `bend` half-way.
pub(super) fn bent(start: Point, end: Point, bend: Point, share: f64) -> Point {
    start.toward(end, share) + bend * (4.0 * share * (1.0 - share))
}

/// The foot at a moment of its stroke.
pub(super) fn foot_at(stroke: &Stroke<Rest>, way: Way, tick: f64, share: f64, body: &Body) -> FootPose {
    let u = stroke.progress(tick);
    let (a, b) = (stroke.start, stroke.end);
    if u >= 1.0 {
        return b.posed(share);
    }
    if u <= 0.0 {
        return a.posed(share);
    }
    let toe = a.toe + (b.toe - a.toe) * eased(u);
    match way {
        Way::OnBall(sole) => {
            let lift = resting_lift(a.sole) + (resting_lift(b.sole) - resting_lift(a.sole)) * eased(u);
            FootPose { ball: a.ball.toward(b.ball, eased(u)), toe, sole, share, lift }
        }
        Way::OnHeel => {
            let heel = a.ball - direction(a.toe) * body.ball_to_heel();
            let ball = heel + direction(toe) * body.ball_to_heel();
            FootPose { ball, toe, sole: Sole::Heel, share, lift: 0.0 }
        }
        Way::Drawn { bend, sole } => {
            FootPose { ball: bent(a.ball, b.ball, bend, eased(u)), toe, sole, share, lift: 0.0 }
        }
        Way::Lifted { bend, passing, landing } => {
            let reach = if b.sole.is_down() { LANDED } else { 1.0 };
            let travel = (u / reach).min(1.0);
            let ball = bent(a.ball, b.ball, bend, eased(travel));
            let toe = a.toe + (b.toe - a.toe) * eased(travel);
            let strokes = passing.is_down() && (0.35..0.65).contains(&travel);
            let sole = match () {
                () if travel >= 1.0 => landing,
                () if strokes => passing,
                () => Sole::Air,
            };
            let (low, high) = (resting_lift(a.sole), resting_lift(b.sole));
            let arch = if passing.is_down() { 0.0 } else { 0.05 * 4.0 * travel * (1.0 - travel) };
            let lift = if strokes { 0.0 } else { low + (high - low) * eased(travel) + arch };
            FootPose { ball, toe, sole, share, lift }
        }
    }
}

/// What a moving foot has to keep clear of: the standing foot as it turns on its ball.
#[derive(Debug, Clone, Copy)]
pub(super) struct Obstacle {
    pub(super) start: Rest,
    pub(super) end: Rest,
}

/// Which way round the standing foot a moving one is led: to the side of the first of these vectors that does
/// not lie along the straight line, whatever that line would do. Without a first one it is the nearer way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Round {
    pub(super) first: Option<Point>,
    pub(super) else_toward: [Point; 2],
}

/// How far the path of a foot has to bend so as not to pass through the standing foot.
pub(super) fn bend_round(start: Rest, end: Rest, obstacle: &Obstacle, round: Round, body: &Body) -> Point {
    let chord = end.ball - start.ball;
    let length = chord.length();
    if length < 1e-6 {
        return Point::ORIGIN;
    }
    let across = Point::new(-chord.y / length, chord.x / length);
    // Away from the middle of the standing foot as it is half-way through.
    let away = start.ball - middle(obstacle.start, body).toward(middle(obstacle.end, body), 0.5);
    let [second, third] = round.else_toward;
    let side = [round.first.unwrap_or(away), second, third]
        .into_iter()
        .map(|v| across.x * v.x + across.y * v.y)
        .find(|along| along.abs() > 1e-9)
        .map_or(1.0, |along| if along < 0.0 { -1.0 } else { 1.0 });
    if clears(start, end, obstacle, body) {
        return across * side * 0.0;
    }
    // On the wanted side first, and on the other one only where that would mean a wide detour.
    let passing = passing(start, end, obstacle, body);
    let (wanted, other) = (detour(&passing, across * side, body), across * -side);
    wanted.or_else(|| detour(&passing, other, body)).unwrap_or(across * (side * WIDEST))
}

/// Whether the straight line stays clear of the standing foot for certain, without a look at each moment.
fn clears(start: Rest, end: Rest, obstacle: &Obstacle, body: &Body) -> bool {
    let reach = to_middle(body).abs();
    let (centre, margin) = if obstacle.start.ball != obstacle.end.ball {
        return false;
    } else if turns(obstacle.start, obstacle.end) {
        // Its middle goes round its ball.
        (obstacle.start.ball, reach)
    } else {
        (middle(obstacle.start, body), 0.0)
    };
    let far = |from: Point, to: Point, clear: f64| {
        let (way, out) = (to - from, centre - from);
        let share = (way.x * out.x + way.y * out.y) / (way.x * way.x + way.y * way.y);
        let gap = from.toward(to, share.clamp(0.0, 1.0)) - centre;
        gap.x * gap.x + gap.y * gap.y > clear * clear
    };
    // A hair more than what is asked for, so that rounding decides nothing.
    let clear = 1.2 * body.foot_breadth + margin + 1e-6;
    if turns(start, end) {
        return far(start.ball, end.ball, clear + reach);
    }
    let ahead = direction(start.toe) * to_middle(body);
    far(start.ball, end.ball, clear) && far(start.ball + ahead, end.ball + ahead, clear)
}

/// Whether the toe turns from one rest to the next.
#[allow(clippy::float_cmp, reason = "a foot that does not turn keeps its very number")]
fn turns(start: Rest, end: Rest) -> bool {
    start.toe != end.toe
}

/// The widest detour, in metres.
const WIDEST: f64 = 0.6;

/// Both feet at one moment of a stroke, but for the bend of the moving one's path.
#[derive(Debug, Clone, Copy)]
struct Passing {
    /// The middle of the standing foot.
    centre: Point,
    /// The ball of the moving foot on the straight line.
    ball: Point,
    /// From its ball to its middle.
    to_middle: Point,
    /// How much of the bend shows.
    bulge: f64,
}

impl Passing {
    /// From the middle of the standing foot to the ball or the middle of the moving one, whichever is nearer.
    fn gap(&self, bend: Point) -> f64 {
        let ball = self.ball + bend * self.bulge;
        (ball - self.centre).length().min((ball + self.to_middle - self.centre).length())
    }
}

/// Moments of a stroke that are looked at, besides its beginning.
const MOMENTS: usize = 24;

/// The feet from the beginning of a stroke to its end.
fn passing(start: Rest, end: Rest, obstacle: &Obstacle, body: &Body) -> [Passing; MOMENTS + 1] {
    let length = to_middle(body);
    // What does not turn needs its direction only once.
    let vector = |from: f64, to: f64| {
        #[allow(clippy::float_cmp, reason = "a foot that does not turn keeps its very number")]
        let still = (from == to).then(|| direction(from) * length);
        move |share: f64| still.unwrap_or_else(|| direction(from + (to - from) * share) * length)
    };
    let (standing, moving) = (vector(obstacle.start.toe, obstacle.end.toe), vector(start.toe, end.toe));
    core::array::from_fn(|i| {
        let share = f64::from(u32::try_from(i).unwrap_or(0)) / 24.0;
        Passing {
            centre: obstacle.start.ball.toward(obstacle.end.ball, share) + standing(share),
            ball: start.ball.toward(end.ball, share),
            to_middle: moving(share),
            bulge: 4.0 * share * (1.0 - share),
        }
    })
}

fn detour(passing: &[Passing; MOMENTS + 1], way: Point, body: &Body) -> Option<Point> {
    let ends = passing[0].gap(Point::ORIGIN).min(passing[MOMENTS].gap(Point::ORIGIN));
    let clear = (1.2 * body.foot_breadth).min(0.9 * ends);
    (0..=30).map(|step| way * (WIDEST / 30.0 * f64::from(step))).find(|bend| {
        // Neither end bends.
        passing[1..MOMENTS].iter().all(|p| p.gap(*bend) >= clear)
    })
}

/// From the ball of a foot to its middle.
fn to_middle(body: &Body) -> f64 {
    (body.ball_to_toe() - body.ball_to_heel()) / 2.0
}

fn middle(foot: Rest, body: &Body) -> Point {
    foot.ball + direction(foot.toe) * to_middle(body)
}

/// The last stroke that has begun at a tick; the first one where none has.
pub(super) fn current<T, S: AsRef<Stroke<T>>>(strokes: &[S], tick: f64) -> Option<&S> {
    let begun = strokes.partition_point(|s| f64::from(s.as_ref().from) <= tick);
    strokes.get(begun.saturating_sub(1))
}

impl<T> AsRef<Stroke<T>> for Stroke<T> {
    fn as_ref(&self) -> &Self {
        self
    }
}
