//! How a body stands at one moment: both feet, their soles, the facing and the centre of mass.
//!
//! A foot is the place of its ball and the direction of its toe; heel and tip follow from the foot's length.
//! Directions are in 1/48 of a turn and not brought back to one turn, so that a whole turn is told from none.

use crate::body::Body;
use crate::dance::Foot;
use crate::floor::{Heading, Point};

/// Which part of a foot is on the floor.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "lowercase"))]
pub enum Sole {
    /// The whole foot.
    Flat,
    /// The ball, the heel lifted.
    Ball,
    /// The heel, the toe lifted.
    Heel,
    /// The tip of the toe.
    Toe,
    /// The inner or outer edge.
    Edge,
    /// Nothing: the foot is in the air.
    Air,
}

impl Sole {
    /// `flat`, `ball`, `heel`, `toe`, `edge` or `air`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Flat => "flat",
            Self::Ball => "ball",
            Self::Heel => "heel",
            Self::Toe => "toe",
            Self::Edge => "edge",
            Self::Air => "air",
        }
    }

    /// Whether the foot touches the floor.
    #[must_use]
    pub const fn is_down(self) -> bool {
        !matches!(self, Self::Air)
    }
}

/// The unit vector of a direction in 1/48 of a turn, whole or not.
///
/// Whole ones come from the floor's table. What is between is a rotation by at most half of 1/48 of a turn,
/// for which the first terms of the two series are exact to the last digits of an `f64`.
#[must_use]
pub fn direction(units: f64) -> Point {
    // Feet at rest stand in whole directions.
    #[allow(clippy::cast_possible_truncation, reason = "directions grow by the turns of one dance only")]
    let whole = units as i32;
    #[allow(clippy::float_cmp, reason = "only what is whole to the last bit comes from the table as it is")]
    if f64::from(whole) == units {
        let v = Heading::new(whole).vector();
        // Zeros have the sign that the rotation below gives them.
        return Point::new(v.x + v.y * 0.0, v.y - v.x * 0.0);
    }
    let nearest = units.round();
    let rest = units - nearest;
    #[allow(clippy::cast_possible_truncation, reason = "directions grow by the turns of one dance only")]
    let whole = Heading::new(nearest as i32).vector();
    let angle = rest * (core::f64::consts::PI / 24.0);
    let square = angle * angle;
    let sin = angle * (1.0 - square / 6.0 * (1.0 - square / 20.0 * (1.0 - square / 42.0)));
    let cos = 1.0 - square / 2.0 * (1.0 - square / 12.0 * (1.0 - square / 30.0));
    Point::new(whole.x * cos + whole.y * sin, whole.y * cos - whole.x * sin)
}

/// A direction in degrees clockwise from 12:00, from 0 up to 360.
#[must_use]
pub fn degrees(units: f64) -> f64 {
    let turned = (units / 48.0).floor() * 48.0;
    (units - turned) * 7.5
}

/// One foot at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct FootPose {
    /// The ball of the foot, seen from above.
    pub ball: Point,
    /// Where the toe points, in 1/48 of a turn clockwise from 12:00, not brought back to one turn.
    pub toe: f64,
    /// What is on the floor.
    pub sole: Sole,
    /// Share of the weight, 0 to 1.
    pub share: f64,
    /// How high the foot is, in metres above the floor.
    pub lift: f64,
}

impl FootPose {
    /// The point `share` of the foot's length ahead of the ball, negative for behind it.
    fn along(&self, metres: f64) -> Point {
        self.ball + direction(self.toe) * metres
    }

    /// The back end of the foot.
    #[must_use]
    pub fn heel(&self, body: &Body) -> Point {
        self.along(-body.ball_to_heel())
    }

    /// The front end of the foot.
    #[must_use]
    pub fn tip(&self, body: &Body) -> Point {
        self.along(body.ball_to_toe())
    }

    /// Half-way from heel to tip.
    #[must_use]
    pub fn middle(&self, body: &Body) -> Point {
        self.along((body.ball_to_toe() - body.ball_to_heel()) / 2.0)
    }

    /// Degrees clockwise from 12:00 of the toe.
    #[must_use]
    pub fn degrees(&self) -> f64 {
        degrees(self.toe)
    }
}

/// A whole body at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Stance {
    /// The left foot.
    pub left: FootPose,
    /// The right foot.
    pub right: FootPose,
    /// Where the body faces, in 1/48 of a turn clockwise from 12:00, not brought back to one turn.
    pub facing: f64,
    /// The centre of mass, seen from above.
    pub centre: Point,
}

impl Stance {
    /// One of the feet.
    #[must_use]
    pub const fn foot(&self, foot: Foot) -> &FootPose {
        match foot {
            Foot::Left => &self.left,
            Foot::Right => &self.right,
        }
    }

    /// One of the feet, to change it.
    pub const fn foot_mut(&mut self, foot: Foot) -> &mut FootPose {
        match foot {
            Foot::Left => &mut self.left,
            Foot::Right => &mut self.right,
        }
    }

    /// A vector of the room as the dancer sees it: x to the right, y ahead.
    #[must_use]
    pub fn seen(&self, vector: Point) -> Point {
        let ahead = direction(self.facing);
        Point::new(vector.x * ahead.y - vector.y * ahead.x, vector.x * ahead.x + vector.y * ahead.y)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(a: Point, x: f64, y: f64) {
        assert!((a.x - x).abs() < 1e-9 && (a.y - y).abs() < 1e-9, "{a:?} is not ({x}, {y})");
    }

    // G14 and G15: a foot 0.26 m long, ball at 0.73 of the length from the heel, ball at (0.1, 0); worked by
    // hand from the definition of the pose.
    #[test]
    fn heel_and_tip_follow_from_ball_and_toe() {
        let body = Body { foot_length: 0.26, ..Body::default() };
        let mut foot =
            FootPose { ball: Point::new(0.1, 0.0), toe: 0.0, sole: Sole::Flat, share: 1.0, lift: 0.0 };
        near(foot.heel(&body), 0.1, -0.1898);
        near(foot.tip(&body), 0.1, 0.0702);
        foot.toe += 12.0;
        near(foot.ball, 0.1, 0.0);
        near(foot.heel(&body), -0.0898, 0.0);
        near(foot.tip(&body), 0.1702, 0.0);
    }

    #[test]
    fn directions_between_the_table_are_of_length_one_and_mirror() {
        for i in -480..480 {
            let units = f64::from(i) / 7.0;
            let (a, b) = (direction(units), direction(-units));
            assert!((a.length() - 1.0).abs() < 1e-14);
            assert!(a.x + b.x == 0.0 && a.y - b.y == 0.0, "{units} does not mirror exactly");
        }
        near(direction(3.0), Heading::new(3).vector().x, Heading::new(3).vector().y);
    }

    #[test]
    fn degrees_stay_within_a_turn() {
        for (units, want) in [(0.0, 0.0), (12.0, 90.0), (-12.0, 270.0), (48.0, 0.0), (61.0, 97.5)] {
            assert!((degrees(units) - want).abs() < 1e-12);
        }
    }
}
