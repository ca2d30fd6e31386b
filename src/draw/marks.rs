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
use super::plan::Plan;
use super::scene::{Scene, Walked};

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
        for walked in &step.feet {
            let load = Load::of(walked.to.sole, walked.to.share);
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
                turn: step.what.turn,
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

/// The path of a foot as it is drawn: start, a point to bend toward, end; `None` where the foot stays.
pub(super) fn path(walked: &Walked, plan: &Plan) -> Option<[(f64, f64); 3]> {
    let (a, b) = (walked.from.ball, walked.to.ball);
    if (b - a).length() < 0.05 {
        return None;
    }
    // The curve goes through the point half-way: that is where its control point is half as far again.
    let bend = walked.half.ball * 2.0 - a.toward(b, 0.5);
    // Where the middle of the movement is not the middle of the path, only its bend to the side counts.
    let chord = b - a;
    let length = chord.length();
    let across = Point::new(-chord.y / length, chord.x / length);
    let off = bend - a;
    let side = off.x * across.x + off.y * across.y;
    let control = a.toward(b, 0.5) + across * side;
    Some([plan.at(a), plan.at(control), plan.at(b)])
}
