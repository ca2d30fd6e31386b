//! Which part of a foot is on the floor.

use crate::body::Body;
use crate::dance::{Action, Move, Place};
use crate::floor::Point;

use super::pose::{FootPose, Sole};

/// The sole on which an action ends, `None` where the foot keeps the one it has.
pub(super) fn sole_after(m: &Move) -> Option<Sole> {
    let loads = m.takes().is_some() || m.effect == crate::dance::Effect::Shares;
    Some(match m.action {
        Action::Step | Action::Rock | Action::Recover | Action::Lunge | Action::Sway | Action::Stomp => {
            match m.place {
                // figures.md 2.1: a lock is on the ball, everything else on the whole foot.
                Place::LockBehind | Place::LockFront => Sole::Ball,
                _ => Sole::Flat,
            }
        }
        Action::Drop | Action::Skate | Action::Slide | Action::Shift | Action::Pivot | Action::Bounce => {
            Sole::Flat
        }
        Action::Paddle if loads => Sole::Flat,
        Action::Paddle | Action::Ball | Action::Press => Sole::Ball,
        Action::Grind | Action::Heel => Sole::Heel,
        Action::Touch | Action::Toe | Action::Point if loads => Sole::Ball,
        Action::Touch | Action::Toe | Action::Point | Action::Drag | Action::Sweep => Sole::Toe,
        Action::Kick | Action::Flick | Action::Hook | Action::Hitch | Action::Brush | Action::Scuff => {
            Sole::Air
        }
        Action::KneePop => Sole::Ball,
        Action::Jump | Action::Hop => Sole::Flat,
        _ => return None,
    })
}

/// The part of the floor strokes in passing, where it is more than nothing.
pub(super) const fn sole_in_passing(action: Action) -> Sole {
    match action {
        Action::Brush => Sole::Ball,
        Action::Scuff => Sole::Heel,
        _ => Sole::Air,
    }
}

/// The point over which the body stands when this foot carries it.
pub(super) fn support(foot: &FootPose, body: &Body) -> Point {
    match foot.sole {
        Sole::Flat | Sole::Edge | Sole::Air => foot.middle(body),
        Sole::Ball | Sole::Toe => foot.ball,
        Sole::Heel => foot.heel(body),
    }
}

/// The stretch of the foot that touches the floor, from back to front.
#[allow(dead_code)]
pub(super) fn print(foot: &FootPose, body: &Body) -> Option<(Point, Point)> {
    match foot.sole {
        Sole::Flat | Sole::Edge => Some((foot.heel(body), foot.tip(body))),
        Sole::Ball => Some((foot.ball, foot.tip(body))),
        Sole::Toe => Some((foot.tip(body), foot.tip(body))),
        Sole::Heel => Some((foot.heel(body), foot.heel(body))),
        Sole::Air => None,
    }
}
