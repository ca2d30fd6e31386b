//! Weight that does not go where feet go.

use super::measure::{Family, Measure, Reading, Scored};
use crate::dance::{Effect, Who};

pub(super) const MEASURES: &[Measure] = &[
    Measure {
        name: "weightless",
        family: Family::Traps,
        unit: "in 8 counts",
        range: "0 to 4",
        says: "Touches, points, kicks, stomps up and all else that a free foot does without taking weight, in \
               eight counts.",
        source: "a definition of this project",
        scored: Some(Scored::above(0.0, 2.0)),
        take: |track| Reading::rate(track, track.places(|e| e.what.effect == Effect::Free)),
    },
    Measure {
        name: "same_foot_again",
        family: Family::Traps,
        unit: "in 8 counts",
        range: "0 to 4",
        says: "Steps of a foot that has just touched or the like without taking weight, in eight counts.",
        source: "a definition of this project",
        scored: Some(Scored::above(0.0, 2.0)),
        take: |track| {
            let (mut places, mut touched) = (Vec::new(), None);
            for event in &track.events {
                match (event.what.effect, event.what.who) {
                    (Effect::Free, Who::One(foot)) => touched = Some(foot),
                    (Effect::Takes, Who::One(foot)) => {
                        if touched == Some(foot) {
                            places.push((event.count, 1.0));
                        }
                        touched = None;
                    }
                    (Effect::Takes | Effect::Shares, _) => touched = None,
                    _ => {}
                }
            }
            Reading::rate(track, places)
        },
    },
];
