//! How far feet go, from a body's lengths.
//!
//! The way of counting is by the body's spot, the point on the floor between two feet that stand together.
//! Forward and back move the spot by one length, side, cross and behind by another one, diagonals by a third.
//! So a box closes exactly, a weave goes straight to the side in even steps, and the foot that crosses lands
//! before or behind the line without taking the body off it.

use crate::body::Body;
use crate::dance::{Action, Foot, Place, Reach};
use crate::floor::Point;

/// Lengths of the dancer's steps, in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Paces {
    /// From ball to ball of feet that stand together: a little more than one and a half feet's breadth, which
    /// leaves a hand between them.
    pub(super) together: f64,
    /// From ball to ball of feet that stand apart: as far as the shoulders are broad.
    pub(super) apart: f64,
    /// How far a step to the side, across or behind takes the body.
    pub(super) side: f64,
    /// How far a step forward or back takes the body: a quarter of the stature, well inside the 0.41 of
    /// walking, because dancers in lines take smaller steps.
    pub(super) ahead: f64,
    /// How far a diagonal step takes the body in either direction.
    pub(super) diagonal: f64,
    /// How far before or behind the line a crossing foot lands.
    pub(super) crossing: f64,
    /// Sideways and lengthwise offset of a locked foot: beside the other's outer edge, half a foot away.
    pub(super) lock: Point,
}

impl Paces {
    pub(super) fn of(body: &Body) -> Self {
        let together = 1.6 * body.foot_breadth;
        let apart = body.feet_apart();
        let ahead = 0.25 * body.stature;
        Self {
            together,
            apart,
            side: apart - together,
            ahead,
            diagonal: ahead * core::f64::consts::FRAC_1_SQRT_2,
            crossing: 0.8 * body.foot_length,
            lock: Point::new(1.1 * body.foot_breadth, 0.45 * body.foot_length),
        }
    }
}

/// +1 for the right foot, -1 for the left one: where its own side is.
pub(super) const fn own_side(foot: Foot) -> f64 {
    match foot {
        Foot::Left => -1.0,
        Foot::Right => 1.0,
    }
}

/// How much of a full step an action reaches.
pub(super) fn share_of_step(action: Action, reach: Reach) -> f64 {
    let by_reach = match reach {
        Reach::Small => 0.6,
        Reach::Usual => 1.0,
        Reach::Long => 1.5,
    };
    let by_action = match action {
        Action::Lunge => 1.3,
        Action::Point => 1.1,
        Action::Rock | Action::Press | Action::Touch | Action::Toe | Action::Heel | Action::Grind => 0.8,
        Action::Sweep => 0.7,
        Action::Kick | Action::Flick | Action::Jump => 0.6,
        Action::Brush | Action::Scuff | Action::Hop => 0.4,
        Action::Hook | Action::Scoot => 0.3,
        _ => 1.0,
    };
    by_reach * by_action
}

/// What a placing needs to know, all in the dancer's own frame (x to the right, y ahead) seen from the spot
/// on which the body stands.
#[derive(Debug, Clone, Copy)]
pub(super) struct Situation {
    /// The foot that moves.
    pub(super) foot: Foot,
    /// Where it is.
    pub(super) from: Point,
    /// Where the other foot is.
    pub(super) other: Point,
    /// The other foot's heel.
    pub(super) other_heel: Point,
    /// The spot where the figure began.
    pub(super) home: Point,
    /// How much of a full step.
    pub(super) share: f64,
    /// How far a cross leads the body forward, because the next step goes back by as much.
    pub(super) lead: f64,
    /// Whether the other foot has just opened the legs on its diagonal and this one answers it.
    pub(super) opens: bool,
}

/// Where a foot lands: the point, the body's new spot, and how far the toe turns outward (1/48 of a turn).
#[derive(Debug, Clone, Copy)]
pub(super) struct Landing {
    pub(super) at: Point,
    pub(super) spot: Point,
    pub(super) toe_out: i32,
}

/// Where a foot lands that goes to a place; `None` where the place is none of the floor's.
pub(super) fn landing(paces: &Paces, place: Place, s: &Situation) -> Option<Landing> {
    let own = own_side(s.foot);
    let track = Point::new(own * paces.together / 2.0, 0.0);
    let (ahead, side, diagonal) = (paces.ahead * s.share, paces.side * s.share, paces.diagonal * s.share);
    let to = |spot: Point| Landing { at: spot + track, spot, toe_out: 0 };
    let crossing = |spot: Point, y: f64| Landing { at: spot + Point::new(0.0, y), spot, toe_out: 0 };
    let opening = |y: f64| Landing {
        at: s.home + Point::new(own * (paces.together / 2.0 + diagonal), y),
        spot: s.home + Point::new(0.0, y),
        toe_out: 0,
    };
    Some(match place {
        Place::Forward => to(Point::new(0.0, ahead)),
        Place::Back if s.lead > 0.0 => to(Point::new(0.0, -s.lead)),
        Place::Back => to(Point::new(0.0, -ahead)),
        Place::Side => to(Point::new(own * side, 0.0)),
        Place::Right | Place::Left => {
            let way = if place == Place::Right { 1.0 } else { -1.0 };
            let there = if way * own > 0.0 { Place::Side } else { Place::Cross };
            return landing(paces, there, s);
        }
        Place::DiagonalForward if s.opens => opening(diagonal),
        Place::DiagonalBack if s.opens => opening(-diagonal),
        Place::DiagonalForward => to(Point::new(own * diagonal, diagonal)),
        Place::DiagonalBack => to(Point::new(own * diagonal, -diagonal)),
        Place::DiagonalAcross => {
            crossing(Point::new(-own * diagonal, diagonal), paces.crossing * s.share / 2.0)
        }
        // A foot that crosses before one that has crossed already must land before that one.
        Place::Cross => {
            crossing(Point::new(-own * side, s.other.y.max(0.0) + s.lead), paces.crossing * s.share.max(0.8))
        }
        Place::Behind => {
            crossing(Point::new(-own * side, s.other.y.min(0.0)), -paces.crossing * s.share.max(0.8))
        }
        Place::LockBehind | Place::LockFront => {
            let y = if place == Place::LockFront { paces.lock.y } else { -paces.lock.y };
            Landing { at: s.other + Point::new(-own * paces.lock.x, y), spot: Point::ORIGIN, toe_out: 0 }
        }
        Place::Third => {
            // The hollow lies half a breadth behind the other's heel, the foot turned out by 5/48.
            let at = s.other_heel + Point::new(own * 0.3, -0.6) * (paces.together / 1.6);
            Landing { at, spot: Point::ORIGIN, toe_out: 5 }
        }
        Place::Close => {
            let at = s.other + Point::new(own * paces.together, 0.0);
            Landing { at, spot: at - track, toe_out: 0 }
        }
        // Home after a turn on the other foot: it lies under that foot now, so the step closes beside it.
        Place::Home if (to(s.home).at - s.other).length() < 0.8 * paces.together => {
            return landing(paces, Place::Close, s);
        }
        Place::Home => to(s.home),
        Place::In => to(Point::ORIGIN),
        Place::Out => {
            Landing { at: Point::new(own * paces.apart / 2.0, 0.0), spot: Point::ORIGIN, toe_out: 0 }
        }
        Place::InPlace => Landing { at: s.from, spot: s.from - track, toe_out: 0 },
        _ => return None,
    })
}
