//! How much there is.

use std::collections::BTreeSet;

use super::measure::{Family, Measure, Reading, Scored};
use super::number::log2;
use super::track::Track;

pub(super) const MEASURES: &[Measure] = &[
    Measure {
        name: "counts",
        family: Family::Amount,
        unit: "counts",
        range: "16 to 96",
        says: "Counts of one repetition, all main parts together; it enters the score as length.",
        source: "the trade's own measure of a dance's size",
        scored: None,
        take: |track| Reading::whole(f64::from(track.counts)),
    },
    Measure {
        name: "length",
        family: Family::Amount,
        unit: "doublings",
        range: "0 to 3",
        says: "How often a dance of sixteen counts must be doubled to be so long; 0 for shorter ones.",
        source: "levels of the trade allow 24, 32, 48 and 64 counts, which are steps of a ratio",
        scored: Some(Scored::above(0.0, 1.0)),
        take: |track| Reading::whole(log2(f64::from(track.counts.max(16)) / 16.0)),
    },
    Measure {
        name: "figures",
        family: Family::Amount,
        unit: "figures",
        range: "0 to 20",
        says: "Different figures that the sheet names or the reader recognises. Only reported, because the same \
               dance written out step by step would have another number.",
        source: "chunks rather than raw steps are what is learnt: Verwey 2001, Acta Psychol. 106:69-95",
        scored: None,
        take: |track| {
            let sections = track.dance.main_sections().flat_map(|s| &s.figures);
            let names: BTreeSet<&str> = sections.map(|f| f.name.as_str()).collect();
            Reading::whole(real(names.len()))
        },
    },
    Measure {
        name: "patterns",
        family: Family::Amount,
        unit: "patterns",
        range: "2 to 24",
        says: "Different patterns of two counts (in a waltz three) on the whole counts, on either foot and \
               without regard to turns.",
        source: "count distinct chunks: Verwey, Abrahamse and de Kleine 2010, Front. Psychol. 1:32",
        scored: Some(Scored::above(5.0, 5.0)),
        take: |track| {
            let kinds: BTreeSet<u32> = track.patterns.iter().map(|p| p.kind).collect();
            Reading::whole(real(kinds.len()))
        },
    },
    Measure {
        name: "joins",
        family: Family::Amount,
        unit: "joins",
        range: "1 to 24",
        says: "Different pairs of patterns of which one follows the other, also from the end to the beginning.",
        source: "chunks stay whole and joining them is the work: Verwey 2001, Acta Psychol. 106:69-95",
        scored: Some(Scored::above(6.0, 6.0)),
        take: |track| {
            let next = track.patterns.iter().cycle().skip(1);
            let pairs = track.patterns.iter().zip(next).map(|(a, b)| (a.kind, b.kind));
            let joins: BTreeSet<(u32, u32)> = pairs.filter(|(a, b)| a != b).collect();
            Reading::whole(real(joins.len()))
        },
    },
    Measure {
        name: "share_repeated",
        family: Family::Amount,
        unit: "share",
        range: "0 to 0.8",
        says: "Share of patterns that were danced before on the same foot. Only reported: patterns and joins \
               carry it into the score.",
        source: "a definition of this project",
        scored: None,
        take: |track| Reading::whole(seen_before(track).0),
    },
    Measure {
        name: "share_mirrored",
        family: Family::Amount,
        unit: "share",
        range: "0 to 0.5",
        says: "Share of patterns that were danced before on the other foot only. Only reported: patterns and \
               joins carry it into the score.",
        source: "a definition of this project",
        scored: None,
        take: |track| Reading::whole(seen_before(track).1),
    },
];

/// Shares of patterns that came before on the same foot, and on the other foot only.
fn seen_before(track: &Track) -> (f64, f64) {
    let (mut same, mut other) = (0.0, 0.0);
    let (mut exact, mut kinds) = (BTreeSet::new(), BTreeSet::new());
    for pattern in &track.patterns {
        if exact.contains(&(pattern.kind, pattern.lead)) {
            same += 1.0;
        } else if kinds.contains(&pattern.kind) {
            other += 1.0;
        }
        exact.insert((pattern.kind, pattern.lead));
        kinds.insert(pattern.kind);
    }
    let all = real(track.patterns.len().max(1));
    (same / all, other / all)
}

#[allow(clippy::cast_precision_loss, reason = "patterns are few")]
fn real(n: usize) -> f64 {
    n as f64
}
