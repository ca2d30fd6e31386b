//! What must be remembered.

use std::collections::{BTreeMap, BTreeSet};

use super::measure::{Family, Measure, Reading, Scored};
use super::sequence::{entropy, lz76, tally};
use super::track::Track;
use crate::dance::PartKind;

pub(super) const MEASURES: &[Measure] = &[
    Measure {
        name: "lz76",
        family: Family::Memory,
        unit: "parts",
        range: "3 to 30",
        says: "Parts of the exhaustive history (LZ76) of what is done on the whole counts, on either foot and \
               without regard to turns.",
        source: "Lempel and Ziv 1976, IEEE Trans. Inf. Theory 22:75-81. One measure among several: alone it \
                 foretells judged complexity badly (Shmulevich and Povel 2000, J. New Music Res. 29:61-69)",
        scored: Some(Scored::above(8.0, 6.0)),
        take: |track| Reading::whole(f64::from(lz76(&track.skeleton))),
    },
    Measure {
        name: "entropy",
        family: Family::Memory,
        unit: "bits",
        range: "0 to 4.5",
        says: "Shannon's entropy of the patterns of two counts (in a waltz three). Only reported: patterns and \
               lz76 carry it into the score.",
        source: "Shannon 1948",
        scored: None,
        take: |track| {
            let kinds = tally(track.patterns.iter().map(|p| p.kind));
            Reading::whole(entropy(kinds.into_values().map(f64::from)))
        },
    },
    Measure {
        name: "alike_starts",
        family: Family::Memory,
        unit: "sections",
        range: "0 to 3",
        says: "Sections whose first half is that of an earlier section and whose second half is another.",
        source: "a definition of this project",
        scored: Some(Scored::above(0.0, 1.0)),
        take: |track| Reading::whole(f64::from(alike_starts(track))),
    },
    Measure {
        name: "walls",
        family: Family::Memory,
        unit: "walls",
        range: "1 to 4",
        says: "Walls that one repetition after the other begins at, from the turns. Only reported: one turn more \
               can make a dance of four walls one of a single wall, and no easier.",
        source: "the order of the turn: 48 / gcd(48, turn) in 1/48 turns",
        scored: None,
        take: |track| {
            let turn: i64 = track.events.iter().map(|e| i64::from(e.what.turn.0)).sum();
            let (mut a, mut b) = (48, turn.unsigned_abs() % 48);
            while b != 0 {
                (a, b) = (b, a % b);
            }
            Reading::whole(f64::from(u32::try_from(48 / a).unwrap_or(1)))
        },
    },
    Measure {
        name: "tags",
        family: Family::Memory,
        unit: "tags",
        range: "0 to 4",
        says: "Places in the song where a tag or bridge is danced.",
        source: "levels of the trade allow tags from one level on",
        scored: Some(Scored::above(0.0, 1.0)),
        take: |track| {
            let tag = |part: usize| track.dance.parts.get(part).is_some_and(|p| p.kind == PartKind::Tag);
            Reading::whole(number(track.dance.tags.iter().filter(|t| tag(t.part)).count()))
        },
    },
    Measure {
        name: "restarts",
        family: Family::Memory,
        unit: "restarts",
        range: "0 to 4",
        says: "Repetitions that are broken off.",
        source: "levels of the trade allow restarts from one level on",
        scored: Some(Scored::above(0.0, 1.0)),
        take: |track| Reading::whole(number(track.dance.restarts.len())),
    },
    Measure {
        name: "phrased_parts",
        family: Family::Memory,
        unit: "parts",
        range: "1 to 4",
        says: "Main parts; more than one in a phrased dance.",
        source: "a definition of this project",
        scored: Some(Scored::above(1.0, 1.0)),
        take: |track| {
            let parts = track.dance.parts.iter().filter(|p| p.kind == PartKind::Main);
            Reading::whole(number(parts.count()))
        },
    },
];

fn number(n: usize) -> f64 {
    f64::from(u32::try_from(n).unwrap_or(u32::MAX))
}

fn alike_starts(track: &Track) -> u32 {
    let mut known: BTreeMap<&[u32], BTreeSet<&[u32]>> = BTreeMap::new();
    let mut found = 0;
    for section in track.sections.iter().filter(|s| s.counts >= 4) {
        let own = &track.skeleton[section.before as usize..(section.before + section.counts) as usize];
        let (first, second) = own.split_at(own.len() / 2);
        let ends = known.entry(first).or_default();
        if !ends.is_empty() && !ends.contains(second) {
            found += 1;
        }
        ends.insert(second);
    }
    found
}
