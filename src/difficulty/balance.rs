//! Standing on little.

use super::measure::{Family, Measure, Reading, Scored};
use super::track::{Event, Track};
use crate::dance::{Action, Effect, Place};
use crate::motion::Sole;

pub(super) const MEASURES: &[Measure] = &[
    Measure {
        name: "one_foot_longest",
        family: Family::Balance,
        unit: "seconds",
        range: "0 to 3",
        says: "The longest time with a foot in the air. Only reported: a faster tempo makes it shorter and no \
               dance easier.",
        source: "standing on one leg as in balance tests; time from the simulation of both feet",
        scored: None,
        take: |track| Reading::whole(one_foot_longest(track)),
    },
    Measure {
        name: "crossings",
        family: Family::Balance,
        unit: "in 8 counts",
        range: "0 to 4",
        says: "Steps across, behind or locked in eight counts.",
        source: "crossed feet leave a narrow base; a definition of this project",
        scored: Some(Scored::above(0.0, 1.0)),
        take: |track| {
            let crossed = [Place::Cross, Place::Behind, Place::LockBehind, Place::LockFront];
            let is = |e: &Event| e.changes_weight() && crossed.contains(&e.what.place);
            Reading::rate(track, track.places(is))
        },
    },
    Measure {
        name: "small_support",
        family: Family::Balance,
        unit: "in 8 counts",
        range: "0 to 3",
        says: "Weight taken on a heel or a ball, or on both feet's heels and toes, in eight counts: ball, press, \
               grind, swivel, split, applejack, swivet.",
        source: "a definition of this project",
        scored: Some(Scored::above(0.0, 1.0)),
        take: |track| {
            let small = |action| {
                matches!(
                    action,
                    Action::Ball
                        | Action::Press
                        | Action::Grind
                        | Action::Swivel
                        | Action::Split
                        | Action::Applejack
                        | Action::Swivet
                )
            };
            Reading::rate(track, track.places(|e| small(e.what.action)))
        },
    },
    Measure {
        name: "lifts",
        family: Family::Balance,
        unit: "in 8 counts",
        range: "0 to 3",
        says: "Hooks, hitches, kicks, flicks, sweeps, hops and scoots in eight counts.",
        source: "a definition of this project",
        scored: Some(Scored::above(0.0, 1.0)),
        take: |track| {
            let lifted = |action| {
                matches!(
                    action,
                    Action::Hook
                        | Action::Hitch
                        | Action::Kick
                        | Action::Flick
                        | Action::Sweep
                        | Action::Hop
                        | Action::Scoot
                        | Action::Spiral
                )
            };
            let is = |e: &Event| e.what.effect != Effect::None && lifted(e.what.action);
            Reading::rate(track, track.places(is))
        },
    },
];

/// Seconds of the longest time with a foot in the air.
fn one_foot_longest(track: &Track) -> f64 {
    let (mut longest, mut since) = (0, None);
    let end = i32::try_from(track.motion.counts).unwrap_or(i32::MAX / 64) * 24 + 24;
    for moment in &track.motion.moments {
        let in_air = moment.stance.left.sole == Sole::Air || moment.stance.right.sole == Sole::Air;
        let tick = moment.tick.0;
        if let Some(from) = since {
            longest = longest.max(tick - from);
        }
        since = if in_air { since.or(Some(tick)) } else { None };
    }
    if let Some(from) = since {
        longest = longest.max(end - from);
    }
    f64::from(longest) / 24.0 / track.counts_a_second()
}
