//! How fast.

use super::measure::{Family, Measure, Reading, Scored};
use super::track::{Event, Track};

/// The window of a peak: two counts.
const TWO_COUNTS: i32 = 48;

pub(super) const MEASURES: &[Measure] = &[
    Measure {
        name: "tempo",
        family: Family::Pace,
        unit: "beats a minute",
        range: "60 to 200",
        says: "The tempo that the measures in seconds were taken at. Only reported: the other measures of pace \
               carry it into the score.",
        source: "the sheet, the caller, or a stated default",
        scored: None,
        take: |track| Reading::whole(track.tempo),
    },
    Measure {
        name: "tempo_given",
        family: Family::Pace,
        unit: "1 or 0",
        range: "0 to 1",
        says: "1 where the sheet or the caller gives the tempo, 0 where the default was used. Only reported.",
        source: "the sheet",
        scored: None,
        take: |track| Reading::whole(if track.tempo_given { 1.0 } else { 0.0 }),
    },
    Measure {
        name: "changes_mean",
        family: Family::Pace,
        unit: "a second",
        range: "1 to 3",
        says: "Weight changes a second, on average over one repetition.",
        source: "walking is 1.8 to 2.1 steps a second: Öberg, Karsznia and Öberg 1993, J. Rehabil. Res. Dev. \
                 30:210-223 (from memory)",
        scored: Some(Scored::above(1.0, 0.5)),
        take: |track| mean(track, Event::changes_weight),
    },
    Measure {
        name: "changes_peak",
        family: Family::Pace,
        unit: "a second",
        range: "1 to 5",
        says: "Weight changes a second in the two counts that have most of them, tags and endings included.",
        source: "a definition of this project",
        scored: Some(Scored::above(1.5, 1.0)),
        take: |track| peak(track, Event::changes_weight),
    },
    Measure {
        name: "actions_mean",
        family: Family::Pace,
        unit: "a second",
        range: "1 to 4",
        says: "Actions a second on average: steps, touches, kicks, bumps, claps, all but holds. Only reported, \
               because steps and touches are in the score by themselves.",
        source: "a definition of this project",
        scored: None,
        take: |track| mean(track, Event::acts),
    },
    Measure {
        name: "actions_peak",
        family: Family::Pace,
        unit: "a second",
        range: "1 to 6",
        says: "Actions a second in the two counts that have most of them. Only reported, as their mean.",
        source: "a definition of this project",
        scored: None,
        take: |track| peak(track, Event::acts),
    },
];

fn mean<'a>(track: &Track<'a>, is: impl Fn(&Event<'a>) -> bool) -> Reading {
    let places = track.places(is);
    let sum: f64 = places.iter().map(|p| p.1).sum();
    Reading { value: sum / f64::from(track.counts.max(1)) * track.counts_a_second(), places }
}

fn peak<'a>(track: &Track<'a>, is: impl Fn(&Event<'a>) -> bool) -> Reading {
    let (sum, places) = track.peak(TWO_COUNTS, |e| if is(e) { 1.0 } else { 0.0 });
    Reading { value: sum / 2.0 * track.counts_a_second(), places }
}
