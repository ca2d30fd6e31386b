//! The record of a whole dance: strokes of both feet, the facing, the weight and the centre of mass.

use crate::body::Body;
use crate::dance::Foot;
use crate::floor::Point;

use super::path::{LANDED, Rest, Stroke, Way, current, eased, foot_at};
use super::pose::Stance;

/// A stroke of a foot and its way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct FootStroke {
    pub(super) stroke: Stroke<Rest>,
    pub(super) way: Way,
}

impl AsRef<Stroke<Rest>> for FootStroke {
    fn as_ref(&self) -> &Stroke<Rest> {
        &self.stroke
    }
}

/// Everything that moves, each in strokes of its own.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Tape {
    pub(super) left: Vec<FootStroke>,
    pub(super) right: Vec<FootStroke>,
    facing: Vec<Stroke<f64>>,
    /// Share of the weight on the left foot.
    share: Vec<Stroke<f64>>,
    centre: Vec<Stroke<Point>>,
}

/// Joins a stroke to those before it: it takes the place of one that ends on the same tick, and cuts short one
/// that would still be under way.
fn join<T: Copy>(strokes: &mut Vec<Stroke<T>>, mut new: Stroke<T>) {
    if let Some(last) = strokes.last_mut() {
        if new.from >= new.to || last.to == new.to || last.from >= new.from {
            last.end = new.end;
            last.to = last.to.max(new.to);
            return;
        }
        last.to = last.to.min(new.from);
        new.start = last.end;
    }
    strokes.push(new);
}

impl Tape {
    pub(super) fn new(left: Rest, right: Rest, facing: f64, share: f64, centre: Point) -> Self {
        let rest = |at: Rest| {
            vec![FootStroke {
                stroke: Stroke { from: -1, to: 0, start: at, end: at },
                way: Way::OnBall(at.sole),
            }]
        };
        let value = |v: f64| vec![Stroke { from: -1, to: 0, start: v, end: v }];
        Self {
            left: rest(left),
            right: rest(right),
            facing: value(facing),
            share: value(share),
            centre: vec![Stroke { from: -1, to: 0, start: centre, end: centre }],
        }
    }

    pub(super) fn foot(&mut self, foot: Foot, from: i32, to: i32, end: Rest, way: Way) {
        let strokes = match foot {
            Foot::Left => &mut self.left,
            Foot::Right => &mut self.right,
        };
        let Some(last) = strokes.last_mut() else { return };
        if from >= to || last.stroke.to == to || last.stroke.from >= from {
            last.stroke.end = end;
            last.stroke.to = last.stroke.to.max(to);
            if !matches!(way, Way::OnBall(_)) {
                last.way = way;
            }
            return;
        }
        last.stroke.to = last.stroke.to.min(from);
        let start = last.stroke.end;
        strokes.push(FootStroke { stroke: Stroke { from, to, start, end }, way });
    }

    pub(super) fn turn(&mut self, from: i32, to: i32, end: f64) {
        join(&mut self.facing, Stroke { from, to, start: end, end });
    }

    pub(super) fn weigh(&mut self, from: i32, to: i32, share: f64, centre: Point) {
        join(&mut self.share, Stroke { from, to, start: share, end: share });
        join(&mut self.centre, Stroke { from, to, start: centre, end: centre });
    }

    /// The body at any moment, in ticks.
    pub(super) fn at(&self, tick: f64, body: &Body) -> Option<Stance> {
        let share = current(&self.share, tick).map(|s| {
            // A stepping foot takes the weight only once it is down.
            let landed = ((s.progress(tick) - LANDED) / (1.0 - LANDED)).max(0.0);
            s.start + (s.end - s.start) * landed
        })?;
        let centre = current(&self.centre, tick).map(|s| s.start.toward(s.end, eased(s.progress(tick))))?;
        let facing =
            current(&self.facing, tick).map(|s| s.start + (s.end - s.start) * eased(s.progress(tick)))?;
        let left = current::<Rest, _>(&self.left, tick)?;
        let right = current::<Rest, _>(&self.right, tick)?;
        Some(Stance {
            left: foot_at(&left.stroke, left.way, tick, share, body),
            right: foot_at(&right.stroke, right.way, tick, 1.0 - share, body),
            facing,
            centre,
        })
    }
}
