//! When things happen.

use std::collections::BTreeSet;

use super::measure::{Family, Measure, Reading, Scored};
use super::syncopation::{gap_variability, metric_complexity, note_to_beat, syncopated, weights};
use super::track::{Event, Stretch, Track, silent_counts};
use crate::dance::Action;

pub(super) const MEASURES: &[Measure] = &[
    Measure {
        name: "halves",
        family: Family::Rhythm,
        unit: "in 8 counts",
        range: "0 to 8",
        says: "Actions on half-counts (&) in eight counts. All notches count alike, so that a step more is worth \
               more than any turn or way that no longer goes against the one before it.",
        source: "a definition of this project; a shuffle is fast without being syncopated, so density is a \
                 measure of its own",
        scored: Some(Scored::straight(0.0, 2.0)),
        take: |track| {
            let is = |e: &Event| e.acts() && matches!(e.what.at.within(), 7..=13);
            Reading::rate(track, track.places(is))
        },
    },
    Measure {
        name: "quarters",
        family: Family::Rhythm,
        unit: "in 8 counts",
        range: "0 to 4",
        says: "Actions on quarter positions (e and a) in eight counts.",
        source: "a definition of this project",
        scored: Some(Scored::above(0.0, 1.0)),
        take: |track| {
            let is = |e: &Event| e.acts() && matches!(e.what.at.within(), 1..7 | 14..);
            Reading::rate(track, track.places(is))
        },
    },
    Measure {
        name: "syncopation",
        family: Family::Rhythm,
        unit: "in 8 counts",
        range: "0 to 6",
        says: "Syncopation of the weight changes after Longuet-Higgins and Lee in the variant of the strongest \
               rest for each note, on a grid of half-counts, the dance repeated without end, in eight counts.",
        source: "Longuet-Higgins and Lee 1984, Music Perception 1:424-441; Fitch and Rosenfeld 2007, Music \
                 Perception 25:43-58: more of it is harder to play and to remember",
        scored: Some(Scored::above(0.0, 1.0)),
        take: syncopation,
    },
    Measure {
        name: "metric_complexity",
        family: Family::Rhythm,
        unit: "weights",
        range: "0 to 15",
        says: "How much weaker the half-counts with weight changes are than the strongest that as many could \
               stand on, mean over sections. Only reported: adding a step can lower it.",
        source: "Toussaint 2002, BRIDGES; weights after Longuet-Higgins and Lee 1984",
        scored: None,
        take: |track| {
            let phrase = weights(track.metre);
            let weight = |slot: usize| phrase[slot % phrase.len()];
            Reading::whole(mean_of_sections(track, |notes| f64::from(metric_complexity(notes, weight))))
        },
    },
    Measure {
        name: "note_to_beat",
        family: Family::Rhythm,
        unit: "beats",
        range: "0 to 4",
        says: "Weighted distance of weight changes from the beat, mean over sections. Only reported: adding a \
               step can lower it.",
        source: "Gómez, Melvin, Rappaport and Toussaint 2005, BRIDGES (WNBD)",
        scored: None,
        take: |track| Reading::whole(mean_of_sections(track, |notes| note_to_beat(notes, 2))),
    },
    Measure {
        name: "gap_variability",
        family: Family::Rhythm,
        unit: "nPVI",
        range: "0 to 100",
        says: "How much gaps between weight changes vary, 0 for even ones, mean over sections. Only reported: \
               adding a step can lower it.",
        source: "nPVI; Toussaint 2013, The Geometry of Musical Rhythm",
        scored: None,
        take: |track| Reading::whole(mean_of_sections(track, |notes| gap_variability(notes, true))),
    },
    Measure {
        name: "holds",
        family: Family::Rhythm,
        unit: "in 8 counts",
        range: "0 to 3",
        says: "Counts with a hold or nothing at all in eight counts. Only reported: teachers disagree whether \
               a hold is a rest or a trap.",
        source: "a definition of this project",
        scored: None,
        take: holds,
    },
    Measure {
        name: "rhythm_changes",
        family: Family::Rhythm,
        unit: "changes",
        range: "0 to 7",
        says: "Sections whose rhythm of weight changes is another than that of the section before. Only \
               reported: adding a step can make two sections alike.",
        source: "a definition of this project",
        scored: None,
        take: |track| {
            let rhythms: Vec<Vec<bool>> = track.sections.iter().map(|s| section_notes(track, *s)).collect();
            let changes = rhythms.windows(2).filter(|pair| pair[0] != pair[1]).count();
            Reading::whole(f64::from(u32::try_from(changes).unwrap_or(u32::MAX)))
        },
    },
];

/// Slots of the whole dance that hold a weight change, two to the count. What is on a quarter or a third goes
/// to the half-count of its count, so that nothing is weaker than that.
fn notes(track: &Track) -> Vec<bool> {
    let slots = track.counts as usize * 2;
    let mut notes = vec![false; slots];
    for event in track.events.iter().filter(|e| e.changes_weight()) {
        let slot = event.tick.div_euclid(24) * 2 + i32::from(!event.on_count());
        let all = i32::try_from(slots).unwrap_or(i32::MAX).max(1);
        if let Some(note) = usize::try_from(slot.rem_euclid(all)).ok().and_then(|slot| notes.get_mut(slot)) {
            *note = true;
        }
    }
    notes
}

fn syncopation(track: &Track) -> Reading {
    let notes = notes(track);
    let phrase = weights(track.metre);
    let own: Vec<i32> = track
        .sections
        .iter()
        .flat_map(|s| (0..s.counts as usize * 2).map(|slot| phrase[slot % phrase.len()]))
        .collect();
    let found = syncopated(&notes, |slot| own.get(slot).copied().unwrap_or(0), true);
    let place = |(slot, by): (usize, i32)| (u32::try_from(slot / 2).unwrap_or(u32::MAX), f64::from(by));
    Reading::rate(track, found.into_iter().map(place).collect())
}

fn section_notes(track: &Track, section: Stretch) -> Vec<bool> {
    let first = i32::try_from(section.before).unwrap_or(i32::MAX / 64) * 24;
    let from = track.events.partition_point(|e| e.tick < first);
    let mut notes = vec![false; section.counts as usize * 2];
    for event in track.events[from..].iter().take_while(|e| e.count < section.before + section.counts) {
        let slot = (event.tick - first).div_euclid(24) * 2 + i32::from(!event.on_count());
        if let (true, Some(note)) =
            (event.changes_weight(), usize::try_from(slot).ok().and_then(|s| notes.get_mut(s)))
        {
            *note = true;
        }
    }
    notes
}

fn mean_of_sections(track: &Track, of: impl Fn(&[bool]) -> f64) -> f64 {
    let sum: f64 = track.sections.iter().map(|s| of(&section_notes(track, *s))).sum();
    sum / f64::from(u32::try_from(track.sections.len().max(1)).unwrap_or(u32::MAX))
}

fn holds(track: &Track) -> Reading {
    let mut found = BTreeSet::new();
    let mut busy = BTreeSet::new();
    for event in &track.events {
        if event.what.action == Action::Hold {
            found.insert(event.count);
        } else if event.on_count() {
            busy.insert(event.count);
        }
    }
    for (section, stretch) in track.dance.main_sections().zip(&track.sections) {
        found.extend(silent_counts(&section.moves, stretch.counts).into_iter().map(|c| c + stretch.before));
    }
    let places = found.difference(&busy).map(|count| (*count, 1.0)).collect();
    Reading::rate(track, places)
}
