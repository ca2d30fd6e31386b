//! Turning.

use super::measure::{Family, Measure, Reading, Scored};
use super::track::Event;
use crate::dance::{Action, Effect, Place, Weight};

/// Quarter turns in a unit of 1/48 turn.
const QUARTER: f64 = 12.0;

pub(super) const MEASURES: &[Measure] = &[
    Measure {
        name: "turn_total",
        family: Family::Turning,
        unit: "quarter turns in 8 counts",
        range: "0 to 8",
        says: "All turns to either side added up, in quarter turns in eight counts.",
        source: "turning is a thing of its own beside walking and standing: Shubert and others 2006, J. Geriatr. \
                 Phys. Ther. 29(1)",
        scored: Some(Scored::above(0.0, 1.5)),
        take: |track| {
            let turned = |e: &Event| (e.count, amount(e) / QUARTER);
            let places = track.events.iter().map(turned).filter(|p| p.1 > 0.0).collect();
            Reading::rate(track, places)
        },
    },
    Measure {
        name: "turn_peak",
        family: Family::Turning,
        unit: "degrees a second",
        range: "0 to 720",
        says: "The fastest turning within any one count, tags and endings included. A turn that lasts over \
               several counts (unwind, spin) is spread over them.",
        source: "90 degrees a second is the full mark of the Berg Balance Scale's turn (Berg and others 1989), \
                 and up to there it costs nothing",
        scored: Some(Scored::above(90.0, 180.0)),
        take: |track| {
            let (sum, places) = track.peak(24, spread);
            Reading { value: 7.5 * sum * track.counts_a_second(), places }
        },
    },
    Measure {
        name: "turn_reversals",
        family: Family::Turning,
        unit: "in 8 counts",
        range: "0 to 3",
        says: "Turns to the other side than the turn before, in eight counts.",
        source: "a definition of this project",
        scored: Some(Scored::above(0.0, 4.0)),
        take: |track| {
            let turns: Vec<&Event> = track.events.iter().filter(|e| e.what.turn.0 != 0).collect();
            let other = |pair: &&[&Event]| (pair[0].what.turn.0 > 0) != (pair[1].what.turn.0 > 0);
            let places = turns.windows(2).filter(other).map(|pair| (pair[1].count, 1.0)).collect();
            Reading::rate(track, places)
        },
    },
    Measure {
        name: "turns_on_one_foot",
        family: Family::Turning,
        unit: "in 8 counts",
        range: "0 to 3",
        says: "Half turns and greater ones on one foot in eight counts: spins, spirals and steps for which the \
               standing foot turns the body; pivots and unwinds have both feet down.",
        source: "a definition of this project",
        scored: Some(Scored::above(0.0, 0.5)),
        take: |track| Reading::rate(track, track.places(on_one_foot)),
    },
    Measure {
        name: "turns_going_back",
        family: Family::Turning,
        unit: "in 8 counts",
        range: "0 to 2",
        says: "Turns of any size with a step back or behind in eight counts.",
        source: "a definition of this project",
        scored: Some(Scored::above(0.0, 0.5)),
        take: |track| {
            let back = [Place::Back, Place::DiagonalBack, Place::Behind, Place::LockBehind];
            let is = |e: &Event| {
                e.what.turn.0 != 0 && e.what.effect == Effect::Takes && back.contains(&e.what.place)
            };
            Reading::rate(track, track.places(is))
        },
    },
];

/// Size of a turn in 1/48 turn.
fn amount(event: &Event) -> f64 {
    f64::from(event.what.turn.0.unsigned_abs())
}

/// What of a turn falls into one count, in 1/48 turn.
fn spread(event: &Event) -> f64 {
    let drawn_out =
        matches!(event.what.action, Action::Unwind | Action::Spin | Action::Spiral | Action::Turn);
    let lasts = event.what.lasts.0.max(24);
    if drawn_out { amount(event) * 24.0 / f64::from(lasts) } else { amount(event) }
}

fn on_one_foot(event: &Event) -> bool {
    let both_down = [Action::Pivot, Action::Paddle, Action::Unwind, Action::Swivel, Action::Bounce];
    event.what.turn.0.unsigned_abs() >= 24
        && event.what.before != Weight::Both
        && !both_down.contains(&event.what.action)
}
