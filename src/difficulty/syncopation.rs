//! Measures of a rhythm on a grid of half-counts.
//!
//! A rhythm is a row of slots, each with a note or without. Weights of the slots follow from halving the
//! phrase (Longuet-Higgins and Lee 1984, Music Perception 1:424-441): 0 for its first slot, one less for each
//! halving until the slot begins a piece. A phrase of six counts, as in a waltz, is halved into bars, each bar
//! cut into three counts and each count halved.

use crate::order::Ordered as _;
use crate::time::Metre;

/// The weights of the slots of one phrase, eight counts or in a waltz six, two slots to the count.
#[must_use]
pub const fn weights(metre: Metre) -> &'static [i32] {
    match metre {
        Metre::Four => &[0, -4, -3, -4, -2, -4, -3, -4, -1, -4, -3, -4, -2, -4, -3, -4],
        Metre::Three => &[0, -3, -2, -3, -2, -3, -1, -3, -2, -3, -2, -3],
    }
}

/// Syncopation of Longuet-Higgins and Lee in the variant "strongest rest for each note": a note is as
/// syncopated as the strongest slot is stronger that lies silent between it and the next note.
///
/// Gives each syncopated note's slot and by how much. With `repeats`, the phrase goes on without end and the
/// last note may be syncopated against the silent beginning; otherwise nothing comes after it.
///
/// The score uses this variant because a note added on the weakest slots can never lower it: what the note
/// before loses, the new one has.
#[must_use]
pub fn syncopated(notes: &[bool], weight: impl Fn(usize) -> i32, repeats: bool) -> Vec<(usize, i32)> {
    let found: Vec<usize> = (0..notes.len()).filter(|i| notes[*i]).collect();
    let mut out = Vec::new();
    for (index, &note) in found.iter().enumerate() {
        let next = match found.get(index + 1) {
            Some(next) => *next,
            None if repeats => notes.len() + found[0],
            None => notes.len(),
        };
        let strongest = (note + 1..next).map(|slot| weight(slot % notes.len())).max();
        if let Some(by) = strongest.map(|rest| rest - weight(note)).filter(|by| *by > 0) {
            out.push((note, by));
        }
    }
    out
}

/// The same measure in the variant "rests of the pulse tree": the phrase is halved until a piece is one note
/// followed by silence, or all silence; each silent piece counts against the note before it.
#[must_use]
pub fn by_pulse_tree(notes: &[bool]) -> i32 {
    let size = notes.len();
    if !size.is_power_of_two() {
        return 0;
    }
    let weight = |slot: usize| -> i32 {
        if slot == 0 {
            return 0;
        }
        let halvings = size.trailing_zeros() - slot.trailing_zeros();
        -i32::try_from(halvings).unwrap_or(0)
    };
    // Pieces in order of time: a stack instead of recursion.
    let mut pieces = vec![(0, size)];
    let (mut note, mut sum) = (None, 0);
    while let Some((from, length)) = pieces.pop() {
        let inside = notes[from..from + length].iter().filter(|n| **n).count();
        if inside == 0 {
            if let Some(before) = note {
                sum += (weight(from) - weight(before)).max(0);
            }
        } else if length == 1 {
            note = Some(from);
        } else {
            pieces.push((from + length / 2, length / 2));
            pieces.push((from, length / 2));
        }
    }
    sum
}

/// Toussaint's metric complexity: how much weaker the slots with notes are than the strongest slots that as many
/// notes could stand on (Toussaint 2002, A mathematical analysis of African, Brazilian and Cuban clave rhythms).
#[must_use]
pub fn metric_complexity(notes: &[bool], weight: impl Fn(usize) -> i32) -> i32 {
    let mut all: Vec<i32> = (0..notes.len()).map(&weight).collect();
    all.in_order_by(|a, b| b.cmp(a));
    let found: Vec<i32> = (0..notes.len()).filter(|slot| notes[*slot]).map(weight).collect();
    all.iter().take(found.len()).sum::<i32>() - found.iter().sum::<i32>()
}

/// Toussaint's off-beatness: notes on slots that no even division of the cycle reaches (of sixteen: the odd
/// ones; of twelve: 1, 5, 7 and 11).
#[must_use]
pub fn off_beatness(notes: &[bool]) -> u32 {
    let common = |mut a: usize, mut b: usize| {
        while b != 0 {
            (a, b) = (b, a % b);
        }
        a
    };
    let off = notes.iter().enumerate().filter(|(slot, note)| **note && common(*slot, notes.len()) == 1);
    u32::try_from(off.count()).unwrap_or(u32::MAX)
}

/// Keith's measure in Toussaint's reading: notes that lie on no multiple of the greatest power of two that fits
/// into the gap after them, the rhythm repeating.
#[must_use]
pub fn keith(notes: &[bool]) -> u32 {
    let found: Vec<usize> = (0..notes.len()).filter(|i| notes[*i]).collect();
    let off = found.iter().enumerate().filter(|(index, note)| {
        let next = found.get(index + 1).copied().unwrap_or(notes.len() + found[0]);
        let gap = next - **note;
        **note % (1 << gap.ilog2()) != 0
    });
    u32::try_from(off.count()).unwrap_or(u32::MAX)
}

/// The weighted note-to-beat distance of a phrase that repeats, a beat every `beat` slots (Gómez, Melvin,
/// Rappaport and Toussaint 2005, BRIDGES): a note counts 0 on a beat; else, with `d` the distance to the nearer
/// beat in beats, 2/d where the next note comes after the next beat and before the one after that, and else
/// 1/d. The mean over all notes. That a note up to the second beat counts once follows from the published value
/// for the soukous rhythm; code that gives 22/5 for it counts twice.
#[must_use]
pub fn note_to_beat(notes: &[bool], beat: usize) -> f64 {
    let found: Vec<usize> = (0..notes.len()).filter(|i| notes[*i]).collect();
    let mut sum = 0.0;
    for (index, &note) in found.iter().enumerate() {
        let within = note % beat;
        if within == 0 {
            continue;
        }
        let end = found.get(index + 1).copied().unwrap_or(notes.len() + found[0]);
        let (next, second) = (note - within + beat, note - within + 2 * beat);
        let ratio = real(beat) / real(within.min(beat - within));
        sum += if end > next && end < second { 2.0 * ratio } else { ratio };
    }
    if found.is_empty() { 0.0 } else { sum / real(found.len()) }
}

/// Variability of the gaps between notes of a phrase that repeats, 0 for even ones (nPVI; Toussaint 2013, The
/// Geometry of Musical Rhythm).
#[must_use]
pub fn gap_variability(notes: &[bool], repeats: bool) -> f64 {
    let found: Vec<usize> = (0..notes.len()).filter(|i| notes[*i]).collect();
    let mut gaps: Vec<f64> = found.windows(2).map(|w| real(w[1] - w[0])).collect();
    if let (true, Some(first), Some(last)) = (repeats, found.first(), found.last()) {
        gaps.push(real(notes.len() + first - last));
    }
    if gaps.len() < 2 {
        return 0.0;
    }
    let terms = gaps.windows(2).map(|w| (w[0] - w[1]).abs() / f64::midpoint(w[0], w[1]));
    100.0 * terms.sum::<f64>() / real(gaps.len() - 1)
}

#[allow(clippy::cast_precision_loss, reason = "slots are few")]
fn real(n: usize) -> f64 {
    n as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bits(text: &str) -> Vec<bool> {
        text.chars().map(|c| c == '1').collect()
    }

    fn strongest(text: &str, repeats: bool) -> i32 {
        let found = syncopated(&bits(text), |slot| weights(Metre::Four)[slot], repeats);
        found.iter().map(|n| n.1).sum()
    }

    // S1 to S6: the clave rhythms. Strongest rest: by hand; pulse tree: by hand and as run with the published
    // toolkit of Song, Pearce and Harte, as is metric complexity; off-beatness, Keith and note-to-beat distance: Gómez and others 2005, figure 8;
    // variability: Toussaint 2013, figure 17.13.
    #[test]
    fn the_clave_rhythms() {
        for (name, text, tree, rest, complexity, off, keiths, distance, gaps) in [
            ("shiko", "1000101000101000", 2, 2, 2, 0, 1, 6.0 / 5.0, 66.7),
            ("son", "1001001000101000", 4, 4, 4, 1, 2, 14.0 / 5.0, 40.5),
            ("rumba", "1001000100101000", 6, 5, 5, 2, 2, 18.0 / 5.0, 41.0),
            ("soukous", "1001001000110000", 6, 6, 6, 2, 3, 18.0 / 5.0, 70.5),
            ("gahu", "1001001000100010", 5, 5, 5, 1, 3, 18.0 / 5.0, 23.8),
            ("bossa nova", "1001001000100100", 6, 6, 6, 2, 3, 4.0, 14.3),
        ] {
            let notes = bits(text);
            assert_eq!(by_pulse_tree(&notes), tree, "{name}");
            assert_eq!(strongest(text, false), rest, "{name}");
            assert_eq!(metric_complexity(&notes, |s| weights(Metre::Four)[s]), complexity, "{name}");
            assert_eq!(off_beatness(&notes), off, "{name}");
            assert_eq!(keith(&notes), keiths, "{name}");
            let got = note_to_beat(&notes, 4);
            assert!((got - distance).abs() < 1e-12, "{name}: {got} is not {distance}");
            let got = gap_variability(&notes, true);
            assert!((got - gaps).abs() <= 0.05, "{name}: {got} is not {gaps}");
        }
    }

    // S10 to S15: by hand from the definition.
    #[test]
    fn fast_is_not_syncopated() {
        for (text, alone, endless) in [
            ("1010101010101010", 0, 0),
            ("1110111011101110", 0, 0),
            ("1010111010101110", 0, 0),
            ("1010100010101000", 0, 0),
            ("0101010101010101", 11, 15),
            ("0010101010101010", 0, 3),
        ] {
            assert_eq!((strongest(text, false), strongest(text, true)), (alone, endless), "{text}");
        }
    }

    #[test]
    fn a_note_on_a_half_count_never_lowers_it() {
        for pattern in 0..1_u32 << 16 {
            let notes: Vec<bool> = (0..16).map(|slot| pattern >> slot & 1 == 1).collect();
            let sum = |notes: &[bool]| -> i32 {
                syncopated(notes, |s| weights(Metre::Four)[s], true).iter().map(|n| n.1).sum()
            };
            // One odd slot a pattern, each in its turn.
            let slot = 1 + 2 * (pattern as usize % 8);
            let mut more = notes.clone();
            more[slot] = true;
            assert!(sum(&more) >= sum(&notes), "{pattern:016b} and slot {slot}");
        }
    }
}
