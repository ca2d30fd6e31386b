//! How much of a sequence is new: the parts of its exhaustive history, and its entropy.

use std::collections::BTreeMap;

use super::number::log2;

/// Symbols that are looked at; past this the time would grow with the square of a hostile text.
const LONGEST: usize = 2048;

/// The number of parts of the exhaustive history (Lempel and Ziv 1976, IEEE Trans. Inf. Theory 22:75-81,
/// known as LZ76): each part is the shortest stretch that is not yet a stretch of all before its last symbol.
///
/// This is not the dictionary count of the same authors' later work, which gives other numbers. Only the first
/// 2,048 symbols are looked at.
#[must_use]
pub fn lz76<T: PartialEq>(sequence: &[T]) -> u32 {
    let sequence = &sequence[..sequence.len().min(LONGEST)];
    let (mut parts, mut start) = (0, 0);
    while start < sequence.len() {
        // The longest copy of what comes next that begins earlier; it may run into itself.
        let longest = (0..start)
            .map(|from| sequence[from..].iter().zip(&sequence[start..]).take_while(|(a, b)| a == b).count())
            .max()
            .unwrap_or(0);
        start += longest + 1;
        parts += 1;
    }
    parts
}

/// Shannon's entropy in bits of how often each thing occurs.
pub fn entropy(counts: impl IntoIterator<Item = f64>) -> f64 {
    let counts: Vec<f64> = counts.into_iter().filter(|c| *c > 0.0).collect();
    let all: f64 = counts.iter().sum();
    counts.iter().map(|c| -(c / all) * log2(c / all)).sum::<f64>() + 0.0
}

/// How often each value occurs, in the order of the values.
pub(super) fn tally<T: Ord>(values: impl Iterator<Item = T>) -> BTreeMap<T, u32> {
    let mut found = BTreeMap::new();
    for value in values {
        *found.entry(value).or_insert(0) += 1;
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    // C1 to C10: the worked strings of Lempel and Ziv (1976, p. 76) and of public test tables, each recomputed
    // from the definition.
    #[test]
    fn parts_of_the_exhaustive_history() {
        let hello = "HELLO WORLD! HELLO WORLD! HELLO WORLD! HELLO WORLD!";
        for (text, parts) in [
            ("0001101001000101", 6),
            ("1001111011000010", 6),
            ("01011010001101110010", 7),
            ("1111111", 2),
            ("0001", 2),
            ("010", 3),
            ("1", 1),
            ("", 0),
            ("101001010010111110", 5),
            ("111011111001111011111001", 6),
            ("ABCABCABCABCABCABC", 4),
            (hello, 11),
            ("0101010101010101", 3),
            ("0000000000000000", 2),
        ] {
            assert_eq!(lz76(text.as_bytes()), parts, "{text}");
        }
    }

    // E1 to E8: Shannon's entropy, by hand and from the sources named in the reference (Cover and Thomas's
    // eight horses; a course of the University of Washington).
    #[test]
    fn entropies() {
        let horses = [0.5, 0.25, 0.125, 0.0625, 0.015_625, 0.015_625, 0.015_625, 0.015_625];
        let cases: [(&[f64], f64, f64); 8] = [
            (&[0.5, 0.25, 0.125, 0.125], 1.75, 1e-9),
            (&horses, 2.0, 1e-9),
            (&[0.125, 0.25, 0.625], 1.2988, 5e-5),
            (&[1.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0], 1.5850, 5e-5),
            (&[1.0], 0.0, 1e-9),
            (&[1.0, 1.0, 1.0, 1.0, 1.0, 1.0], 2.584_962_500_721_156, 1e-9),
            (&[2.0, 1.0, 1.0], 1.5, 1e-9),
            (&[0.9, 0.1], 0.468_996, 1e-6),
        ];
        for (counts, want, near) in cases {
            let got = entropy(counts.iter().copied());
            assert!((got - want).abs() <= near, "{counts:?}: {got} is not {want}");
        }
    }
}
