//! How far feet go and how sharply the body changes its way.

use super::aim::aim;
use super::measure::{Family, Measure, Reading, Scored};
use super::track::{Event, Track};
use crate::dance::{Action, Effect, Foot, Move, Place, Reach, Who};
use crate::floor::Point;

pub(super) const MEASURES: &[Measure] = &[
    Measure {
        name: "step_mean",
        family: Family::Reach,
        unit: "statures",
        range: "0.1 to 0.3",
        says: "Mean way of a stepping foot over the dancer's height. Only reported: a turn may shorten a way.",
        source: "the simulation of both feet; normal walking is about 0.41 (from memory)",
        scored: None,
        take: |track| Reading::whole(mean(ways(track).into_iter())),
    },
    Measure {
        name: "step_longest",
        family: Family::Reach,
        unit: "statures",
        range: "0.2 to 0.7",
        says: "The longest way of a stepping foot over the dancer's height. Only reported, as their mean.",
        source: "the simulation of both feet; 0.35 is within reach of young and older women: Hsiao-Wecksler and \
                 Robinovitch 2007, Clin. Biomech. 22:574-580",
        scored: None,
        take: |track| Reading::whole(ways(track).into_iter().fold(0.0, f64::max)),
    },
    Measure {
        name: "aim",
        family: Family::Reach,
        unit: "bits",
        range: "0.5 to 2",
        says: "Mean index of difficulty of the steps, log2(A / W + 1), with A the foot's way and W its length. \
               Only reported: the form is known for hands, and a turn may shorten a way.",
        source: "Fitts 1954, J. Exp. Psychol. 47:381-391, in MacKenzie's form",
        scored: None,
        take: |track| {
            let body = &track.motion.body;
            let width = body.foot_length / body.stature;
            Reading::whole(mean(ways(track).into_iter().map(|way| aim(way, width))))
        },
    },
    Measure {
        name: "long_steps",
        family: Family::Reach,
        unit: "in 8 counts",
        range: "0 to 2",
        says: "Steps called long or large, and lunges, in eight counts.",
        source: "a definition of this project",
        scored: Some(Scored::above(0.0, 0.5)),
        take: |track| {
            let is = |e: &Event| {
                e.changes_weight() && (e.what.reach == Reach::Long || e.what.action == Action::Lunge)
            };
            Reading::rate(track, track.places(is))
        },
    },
    Measure {
        name: "sharp_changes",
        family: Family::Reach,
        unit: "in 8 counts",
        range: "0 to 4",
        says: "Steps on whole counts that go back the way of the step before, by more than 135 degrees as the \
               dancer sees it, in eight counts.",
        source: "a definition of this project",
        scored: Some(Scored::above(0.0, 4.0)),
        take: |track| {
            let steps = track.events.iter().filter(|e| e.on_count());
            let ways: Vec<(u32, Point)> =
                steps.filter_map(|e| direction(e.what).map(|d| (e.count, d))).collect();
            let sharp = |pair: &&[(u32, Point)]| {
                let (a, b) = (pair[0].1, pair[1].1);
                a.x * b.x + a.y * b.y < -core::f64::consts::FRAC_1_SQRT_2
            };
            let places = ways.windows(2).filter(sharp).map(|pair| (pair[1].0, 1.0)).collect();
            Reading::rate(track, places)
        },
    },
];

/// Where a step leads the body as the dancer sees it, x to the right and y ahead, of length one.
fn direction(step: &Move) -> Option<Point> {
    let Who::One(foot) = step.who else { return None };
    if step.effect != Effect::Takes {
        return None;
    }
    let own = if foot == Foot::Right { 1.0 } else { -1.0 };
    let half = core::f64::consts::FRAC_1_SQRT_2;
    Some(match step.place {
        Place::Forward => Point::new(0.0, 1.0),
        Place::Back => Point::new(0.0, -1.0),
        Place::Side | Place::Out => Point::new(own, 0.0),
        Place::Cross | Place::Behind => Point::new(-own, 0.0),
        Place::DiagonalForward => Point::new(own * half, half),
        Place::DiagonalBack => Point::new(own * half, -half),
        Place::DiagonalAcross => Point::new(-own * half, half),
        _ => return None,
    })
}

/// How far the foot goes in each step of one repetition, over the stature.
fn ways(track: &Track) -> Vec<f64> {
    let motion = track.motion;
    let mut before = motion.start;
    let mut found = Vec::new();
    for moment in &motion.moments {
        let moves = motion.stretches.get(moment.stretch).map_or(&[][..], |s| s.moves(track.dance));
        if let Some(step) = moves.get(moment.index)
            && let Some(foot) = step.takes()
        {
            let way = (moment.stance.foot(foot).ball - before.foot(foot).ball).length();
            // A recover moves no foot.
            if way > 0.01 {
                found.push(way / motion.body.stature);
            }
        }
        before = moment.stance;
    }
    found
}

fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let (mut sum, mut n) = (0.0, 0.0);
    for value in values {
        sum += value;
        n += 1.0;
    }
    if n > 0.0 { sum / n } else { 0.0 }
}
