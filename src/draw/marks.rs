//! The prints of one drawing, gathered from its steps: one print for each place that a foot takes.
//!
//! A foot that comes to the same place in the same way again has one print with all its counts. Prints that
//! would hide each other are set a little apart, the one without weight outward.

use core::fmt::Write as _;

use crate::body::Body;
use crate::dance::Foot;
use crate::floor::{Point, Turn};
use crate::motion::{FootPose, direction};

use super::footprint::Load;
use super::scene::{Scene, Step, Walked};

/// A print and the steps that made it.
#[derive(Debug, Clone)]
pub(super) struct Mark {
    pub(super) foot: Foot,
    pub(super) pose: FootPose,
    pub(super) load: Load,
    /// Indices into [`Scene::steps`].
    pub(super) steps: Vec<usize>,
    /// Its counts and its letter: `3&R`, `2,6L`.
    pub(super) label: String,
    /// How far the body turns on it.
    pub(super) turn: Turn,
    /// Facing before the turn, in 1/48 of a turn.
    pub(super) from_facing: f64,
    /// How far it is drawn from where it is.
    pub(super) shift: Point,
}

impl Mark {
    /// Where the ball is drawn.
    pub(super) fn drawn(&self) -> FootPose {
        FootPose { ball: self.pose.ball + self.shift, ..self.pose }
    }
}

/// How near two prints of one foot are, that count as one place.
const SAME_PLACE: f64 = 0.035;

fn toes_differ(a: f64, b: f64) -> f64 {
    let d = (a - b).abs() % 48.0;
    d.min(48.0 - d)
}

/// A step's prints joined to those before it.
pub(super) fn marks(scene: &Scene<'_>, body: &Body) -> Vec<Mark> {
    let mut out: Vec<Mark> = Vec::new();
    for (index, step) in scene.steps.iter().enumerate() {
        let turner = turner(step);
        for walked in &step.feet {
            let load = Load::of(walked.to.sole, walked.to.share);
            let turn = if turner == Some(walked.foot) { step.what.turn } else { Turn::NONE };
            let same = out.iter_mut().find(|m| {
                m.foot == walked.foot
                    && m.load == load
                    && m.pose.sole == walked.to.sole
                    && (m.pose.ball - walked.to.ball).length() < SAME_PLACE
                    && toes_differ(m.pose.toe, walked.to.toe) < 1.5
                    && step.what.turn == Turn::NONE
            });
            if let Some(mark) = same {
                mark.steps.push(index);
                continue;
            }
            out.push(Mark {
                foot: walked.foot,
                pose: walked.to,
                load,
                steps: vec![index],
                label: String::new(),
                turn,
                from_facing: step.before.facing,
                shift: Point::ORIGIN,
            });
        }
    }
    for mark in &mut out {
        let mut counts = String::new();
        let mut last = None;
        for step in mark.steps.iter().filter_map(|i| scene.steps.get(*i)) {
            if last != Some(step.at) {
                let sign = if last.is_some() { "," } else { "" };
                let _ = write!(counts, "{sign}{}", step.at);
            }
            last = Some(step.at);
        }
        mark.label = counts + mark.foot.letter();
    }
    set_apart(&mut out, body);
    out
}

/// The foot beside which the turn of a step is told: the one that carries more, of two alike the left one.
fn turner(step: &Step<'_>) -> Option<Foot> {
    let most = step.feet.iter().map(|w| w.to.share).fold(0.0, f64::max);
    step.feet.iter().find(|w| w.to.share >= most).map(|w| w.foot)
}

/// Moves prints sideways that would lie on an earlier one so that neither could be told.
fn set_apart(marks: &mut [Mark], body: &Body) {
    for i in 1..marks.len() {
        let (before, rest) = marks.split_at_mut(i);
        let Some(mark) = rest.first_mut() else { continue };
        for _ in 0..3 {
            let covered = before.iter_mut().find(|m| hides(m, mark, body));
            let Some(other) = covered else { break };
            // The print without weight gives way; of two alike the later one does.
            let moved = if mark.load >= other.load { &mut *mark } else { other };
            let outward = if moved.foot == Foot::Left { -12.0 } else { 12.0 };
            moved.shift = moved.shift + direction(moved.pose.toe + outward) * (body.foot_breadth * 0.6);
        }
    }
}

/// Whether one print would cover most of another.
fn hides(a: &Mark, b: &Mark, body: &Body) -> bool {
    let gap = |x: Point, y: Point| (x - y).length();
    let (p, q) = (a.drawn(), b.drawn());
    let near = 0.5 * body.foot_breadth;
    gap(p.ball, q.ball) < near && gap(p.heel(body), q.heel(body)) < 2.0 * near
}

/// How many pairs of prints lie on each other. A foot that turns on the spot makes a fan, which stays legible.
fn overlaps(marks: &[Mark], body: &Body) -> usize {
    let near = 0.75 * body.foot_breadth;
    let axes: Vec<[Point; 2]> = marks.iter().map(|m| [m.drawn().heel(body), m.drawn().tip(body)]).collect();
    let fan = |a: &Mark, b: &Mark| {
        let still = (a.pose.ball - b.pose.ball).length() < SAME_PLACE
            || (a.pose.heel(body) - b.pose.heel(body)).length() < SAME_PLACE;
        a.foot == b.foot && still && toes_differ(a.pose.toe, b.pose.toe) < 8.0
    };
    let mut found = 0;
    for (i, a) in marks.iter().enumerate() {
        for (j, _) in marks.iter().enumerate().skip(i + 1).filter(|(_, b)| !fan(a, b)) {
            let [heel, tip] = axes[j];
            let mut points = (0..=6).map(|step| heel.toward(tip, f64::from(step) / 6.0));
            found += usize::from(points.any(|p| from_line(p, axes[i][0], axes[i][1]) < near));
        }
    }
    found
}

/// How hard a plan is to read: prints that lie on each other, and ways that run over prints.
pub(super) fn crowding(scene: &Scene<'_>, marks: &[Mark], body: &Body) -> usize {
    let axes: Vec<[Point; 2]> = marks.iter().map(|m| [m.drawn().heel(body), m.drawn().tip(body)]).collect();
    let over = |way: &&Track| {
        let mut points = (2..=8).map(|i| way.at(f64::from(i) / 10.0));
        points.any(|p| axes.iter().any(|[a, b]| from_line(p, *a, *b) < 0.45 * body.foot_breadth))
    };
    overlaps(marks, body) + tracks(scene, marks, body).iter().filter(over).count()
}

/// How far a point is from the straight line between two others.
pub(super) fn from_line(p: Point, a: Point, b: Point) -> f64 {
    let (along, to) = (b - a, p - a);
    let square = along.x * along.x + along.y * along.y;
    let share = if square < 1e-12 { 0.0 } else { (to.x * along.x + to.y * along.y) / square };
    (p - a.toward(b, share.clamp(0.0, 1.0))).length()
}

/// The way of a foot between two prints as they are drawn.
#[derive(Debug, Clone, Copy)]
pub(super) struct Track {
    pub(super) foot: Foot,
    /// Where it leaves the print behind it, the point toward which it bends, where it meets the next print.
    pub(super) curve: [Point; 3],
}

/// The ways of all feet, in order, bent round the prints and the ways that they would run over.
pub(super) fn tracks(scene: &Scene<'_>, marks: &[Mark], body: &Body) -> Vec<Track> {
    let mut last = [scene.start.left, scene.start.right];
    let mut out: Vec<Track> = Vec::new();
    let prints: Vec<FootPose> = marks.iter().map(Mark::drawn).collect();
    for (index, step) in scene.steps.iter().enumerate() {
        for walked in &step.feet {
            let mark = marks.iter().find(|m| m.foot == walked.foot && m.steps.contains(&index));
            let to = mark.map_or(walked.to, Mark::drawn);
            let from = core::mem::replace(&mut last[usize::from(walked.foot == Foot::Right)], to);
            let Some(way) = Way::of(walked, from, to) else { continue };
            let others =
                |f: &&FootPose| (f.ball - from.ball).length() > 0.01 && (f.ball - to.ball).length() > 0.01;
            let around: Vec<[Point; 2]> =
                prints.iter().filter(others).map(|f| [f.heel(body), f.tip(body)]).collect();
            out.extend(way.clearest(&around, &out, body));
        }
    }
    out
}

/// The way of one foot by itself; `None` where the foot stays.
pub(super) fn track(walked: &Walked, body: &Body) -> Option<Track> {
    let way = Way::of(walked, walked.from, walked.to)?;
    way.bent(way.bulge, body)
}

/// A way before it is known how far it bends.
struct Way {
    foot: Foot,
    from: FootPose,
    to: FootPose,
    /// At a right angle to it, to its left.
    across: Point,
    /// How far the foot itself is led to that side half-way.
    bulge: f64,
}

impl Way {
    fn of(walked: &Walked, from: FootPose, to: FootPose) -> Option<Self> {
        let chord = to.ball - from.ball;
        let length = chord.length();
        if (walked.to.ball - walked.from.ball).length() < 0.05 || length < 0.02 {
            return None;
        }
        let across = Point::new(-chord.y / length, chord.x / length);
        // Where the middle of the movement is not the middle of the path, only its bend to the side counts.
        let off = walked.half.ball - walked.from.ball.toward(walked.to.ball, 0.5);
        let bulge = off.x * across.x + off.y * across.y;
        Some(Self { foot: walked.foot, from, to, across, bulge })
    }

    /// The way with a bulge, without what runs over its own prints.
    fn bent(&self, bulge: f64, body: &Body) -> Option<Track> {
        let (a, b) = (self.from.ball, self.to.ball);
        // A curve goes through the point half-way to its control point.
        let control = a.toward(b, 0.5) + self.across * (2.0 * bulge);
        let at = |t: f64| a.toward(control, t).toward(control.toward(b, t), t);
        let clear = 0.62 * body.foot_breadth;
        let over = |foot: &FootPose, t: f64| from_line(at(t), foot.heel(body), foot.tip(body)) < clear;
        let share = |i: i32| f64::from(i) / 32.0;
        let first = (0..=32).find(|i| !over(&self.from, share(*i)))?;
        let last = (first..=32).rev().find(|i| !over(&self.to, share(*i)))?;
        let (t, u) = (share(first), share(last));
        let (start, end) = (at(t), at(u));
        if (end - start).length() < 0.01 {
            return None;
        }
        // The point toward which the piece between two moments of a curve bends.
        let bend = a.toward(control, t).toward(control.toward(b, t), u);
        Some(Track { foot: self.foot, curve: [start, bend, end] })
    }

    /// The bend on which it runs over least: as the foot is led, or farther round to either side, but never to
    /// the other side of a foot that it is led round.
    fn clearest(&self, prints: &[[Point; 2]], ways: &[Track], body: &Body) -> Option<Track> {
        let length = (self.to.ball - self.from.ball).length();
        let mut best: Option<(f64, Track)> = None;
        for step in 0..=18 {
            let side = if step % 2 == 0 { 1.0 } else { -1.0 };
            let more = side * 0.035 * f64::from((step + 1) / 2);
            if self.bulge.abs() > 0.05 && more * self.bulge < 0.0 || more.abs() > 0.7 * length + 0.05 {
                continue;
            }
            let Some(track) = self.bent(self.bulge + more, body) else { continue };
            let mut cost = more.abs() * 6.0;
            for i in 1..10 {
                let p = track.at(f64::from(i) / 10.0);
                let over = prints.iter().any(|[a, b]| from_line(p, *a, *b) < 0.6 * body.foot_breadth);
                let along =
                    ways.iter().any(|w| (0..=8).any(|j| (w.at(f64::from(j) / 8.0) - p).length() < 0.035));
                cost += if over { 0.5 } else { 0.0 } + if along { 0.3 } else { 0.0 };
            }
            if best.is_none_or(|(least, _)| cost < least - 1e-9) {
                best = Some((cost, track));
            }
        }
        best.map(|(_, track)| track)
    }
}

impl Track {
    /// A point of it, from 0 to 1.
    pub(super) fn at(&self, t: f64) -> Point {
        let [a, c, b] = self.curve;
        a.toward(c, t).toward(c.toward(b, t), t)
    }
}
