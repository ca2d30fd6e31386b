//! Krippendorff's alpha: how far several raters agree, with ratings missing.
//!
//! Krippendorff 2011, Computing Krippendorff's Alpha-Reliability. Used for a study with real raters.

use super::stats::real;

/// What a difference between two ratings means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(not(test), allow(dead_code, reason = "a study may need any of them"))]
pub(crate) enum Scale {
    /// Only the same or not the same.
    Nominal,
    /// Ranks.
    Ordinal,
    /// Differences.
    Interval,
    /// Shares.
    Ratio,
}

/// Alpha of ratings, a row a rater, `None` where a rater gave none. 1 is full agreement, 0 that of chance.
pub(crate) fn alpha(ratings: &[Vec<Option<f64>>], scale: Scale) -> f64 {
    let units = ratings.iter().map(Vec::len).max().unwrap_or(0);
    let of_unit = |unit: usize| -> Vec<f64> {
        ratings.iter().filter_map(|row| row.get(unit).copied().flatten()).collect()
    };
    let paired: Vec<Vec<f64>> = (0..units).map(of_unit).filter(|values| values.len() > 1).collect();
    let mut values: Vec<f64> = paired.iter().flatten().copied().collect();
    let all = real(values.len());
    values.sort_by(f64::total_cmp);
    values.dedup_by(|a, b| a.total_cmp(b).is_eq());
    let frequency =
        |value: f64| real(paired.iter().flatten().filter(|v| v.total_cmp(&value).is_eq()).count());
    let often: Vec<f64> = values.iter().map(|v| frequency(*v)).collect();
    let place = |value: f64| values.iter().position(|v| v.total_cmp(&value).is_eq()).unwrap_or(0);
    let apart = |a: f64, b: f64| -> f64 {
        let (i, j) = (place(a).min(place(b)), place(a).max(place(b)));
        if i == j {
            return 0.0;
        }
        let by = match scale {
            Scale::Nominal => 1.0,
            Scale::Ordinal => often[i..=j].iter().sum::<f64>() - f64::midpoint(often[i], often[j]),
            Scale::Interval => a - b,
            Scale::Ratio => (a - b) / (a + b),
        };
        by * by
    };
    let mut observed = 0.0;
    for unit in &paired {
        for (i, a) in unit.iter().enumerate() {
            for (j, b) in unit.iter().enumerate() {
                if i != j {
                    observed += apart(*a, *b) / real(unit.len() - 1);
                }
            }
        }
    }
    let mut expected = 0.0;
    for (i, a) in values.iter().enumerate() {
        for (j, b) in values.iter().enumerate() {
            expected += often[i] * often[j] * apart(*a, *b);
        }
    }
    if expected > 0.0 { 1.0 - (all - 1.0) * observed / expected } else { 1.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(rows: &[&str]) -> Vec<Vec<Option<f64>>> {
        rows.iter().map(|row| row.chars().map(|c| c.to_digit(10).map(f64::from)).collect()).collect()
    }

    // K7 and K8: the example of the encyclopaedia article and of Krippendorff 2011, run with the package
    // krippendorff 0.9.0.
    #[test]
    fn published_examples() {
        let three = rows(&["*****34121133*3", "1*213343*******", "**21344*21133*4"]);
        let four = rows(&["123321412***", "1233224125*3", "*3332342251*", "12332441251*"]);
        for (ratings, scale, want) in [
            (&three, Scale::Nominal, 0.691_358),
            (&three, Scale::Interval, 0.810_845),
            (&three, Scale::Ordinal, 0.806_721),
            (&four, Scale::Nominal, 0.743_421),
            (&four, Scale::Ordinal, 0.815_388),
            (&four, Scale::Interval, 0.849_107),
            (&four, Scale::Ratio, 0.797_403),
        ] {
            let got = alpha(ratings, scale);
            assert!((got - want).abs() < 1e-6, "{scale:?}: {got} is not {want}");
        }
    }
}
