//! The plan of the floor: which metres are where on the paper, seen from which side.

use crate::floor::{Heading, Point, Turn};
use crate::motion::degrees;

use super::scene::Scene;

/// What stands at the top of a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum View {
    /// 12:00, the wall that the dance begins with.
    #[default]
    Room,
    /// The wall that the dancer faces when the section begins.
    Dancer,
    /// 6:00: the floor as a teacher sees it who stands in front and looks at the class.
    Teacher,
}

impl View {
    /// The heading at the top, in 1/48 of a turn.
    pub(super) fn up(self, scene: &Scene<'_>) -> i32 {
        match self {
            Self::Room => 0,
            Self::Teacher => 24,
            Self::Dancer => scene.stretch.facing.rem_euclid(48),
        }
    }
}

/// A rectangle of the paper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Rect {
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) w: f64,
    pub(super) h: f64,
}

impl Rect {
    pub(super) const fn new(x: f64, y: f64, w: f64, h: f64) -> Self {
        Self { x, y, w, h }
    }

    /// Of this size about a point.
    pub(super) fn about(at: (f64, f64), w: f64, h: f64) -> Self {
        Self { x: at.0 - w / 2.0, y: at.1 - h / 2.0, w, h }
    }

    pub(super) fn middle(&self) -> (f64, f64) {
        (self.x + self.w / 2.0, self.y + self.h / 2.0)
    }

    /// The area that two have in common.
    pub(super) fn common(&self, other: &Self) -> f64 {
        let w = (self.x + self.w).min(other.x + other.w) - self.x.max(other.x);
        let h = (self.y + self.h).min(other.y + other.h) - self.y.max(other.y);
        if w > 0.0 && h > 0.0 { w * h } else { 0.0 }
    }

    /// The smallest rectangle around two.
    pub(super) fn joined(&self, other: &Self) -> Self {
        let (x, y) = (self.x.min(other.x), self.y.min(other.y));
        let right = (self.x + self.w).max(other.x + other.w);
        let foot = (self.y + self.h).max(other.y + other.h);
        Self::new(x, y, right - x, foot - y)
    }

    pub(super) fn holds(&self, other: &Self) -> bool {
        other.x >= self.x
            && other.y >= self.y
            && other.x + other.w <= self.x + self.w
            && other.y + other.h <= self.y + self.h
    }

    /// The nearest point of the edge or the inside to a point.
    pub(super) fn nearest(&self, to: (f64, f64)) -> (f64, f64) {
        (to.0.clamp(self.x, self.x + self.w), to.1.clamp(self.y, self.y + self.h))
    }
}

/// The smallest box around points of the floor.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bounds {
    pub(super) low: Point,
    pub(super) high: Point,
}

impl Bounds {
    pub(super) fn of(points: impl IntoIterator<Item = Point>) -> Self {
        let mut points = points.into_iter();
        let first = points.next().unwrap_or(Point::ORIGIN);
        points.fold(Self { low: first, high: first }, |b, p| Self {
            low: Point::new(b.low.x.min(p.x), b.low.y.min(p.y)),
            high: Point::new(b.high.x.max(p.x), b.high.y.max(p.y)),
        })
    }

    pub(super) fn middle(&self) -> Point {
        self.low.toward(self.high, 0.5)
    }

    pub(super) fn size(&self) -> Point {
        self.high - self.low
    }
}

/// A plan of a piece of the floor.
#[derive(Debug, Clone, Copy)]
pub(super) struct Plan {
    /// Units of the paper to a metre.
    pub(super) scale: f64,
    /// The heading at the top, in 1/48 of a turn.
    pub(super) up: i32,
    /// The point of the floor, turned so that `up` is at the top, that stands in the middle.
    pub(super) origin: Point,
    /// The paper of the plan.
    pub(super) frame: Rect,
}

impl Plan {
    /// A point of the room turned so that `up` is at the top.
    pub(super) fn turned(point: Point, up: i32) -> Point {
        point.turned(Turn(-up))
    }

    /// Where a point of the floor is on the paper.
    pub(super) fn at(&self, point: Point) -> (f64, f64) {
        let p = Self::turned(point, self.up) - self.origin;
        let (x, y) = self.frame.middle();
        (x + p.x * self.scale, y - p.y * self.scale)
    }

    /// The plan with another piece of its paper as frame, whose corner is moved to a place.
    pub(super) fn reframed(&self, frame: Rect, corner: (f64, f64)) -> Self {
        let (x, y) = self.frame.middle();
        let (u, v) = frame.middle();
        let shift = Point::new((u - x) / self.scale, (y - v) / self.scale);
        let frame = Rect::new(corner.0, corner.1, frame.w, frame.h);
        Self { origin: self.origin + shift, frame, ..*self }
    }

    /// A heading of the room in degrees clockwise from the top of the paper.
    pub(super) fn angle(&self, heading: f64) -> f64 {
        degrees(heading - f64::from(self.up))
    }

    /// The unit vector on the paper of an hour of the clock, whole or half.
    pub(super) fn ray(&self, heading: i32) -> (f64, f64) {
        let v = Heading::new(heading - self.up).vector();
        (v.x, -v.y)
    }

    /// The point where a ray from the middle leaves the frame.
    pub(super) fn rim(&self, heading: i32) -> (f64, f64) {
        let (dx, dy) = self.ray(heading);
        let reach = |half: f64, d: f64| if d.abs() < 1e-9 { f64::INFINITY } else { half / d.abs() };
        let t = reach(self.frame.w / 2.0, dx).min(reach(self.frame.h / 2.0, dy));
        let (x, y) = self.frame.middle();
        (x + dx * t, y + dy * t)
    }
}
