//! Rank correlations, intervals and pairs in order.

/// Middle ranks from 1; equal values share the mean of their ranks.
pub(crate) fn ranks(values: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_by(|a, b| values[*a].total_cmp(&values[*b]));
    let mut ranks = vec![0.0; values.len()];
    let mut from = 0;
    while from < order.len() {
        let same = order[from..].iter().take_while(|i| values[**i].total_cmp(&values[order[from]]).is_eq());
        let to = from + same.count();
        let middle = real(from + 1 + to) / 2.0;
        order[from..to].iter().for_each(|i| ranks[*i] = middle);
        from = to;
    }
    ranks
}

pub(crate) fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / real(values.len().max(1))
}

/// Pearson's correlation.
pub(crate) fn pearson(a: &[f64], b: &[f64]) -> f64 {
    let (ma, mb) = (mean(a), mean(b));
    let (mut ab, mut aa, mut bb) = (0.0, 0.0, 0.0);
    for (x, y) in a.iter().zip(b) {
        ab += (x - ma) * (y - mb);
        aa += (x - ma) * (x - ma);
        bb += (y - mb) * (y - mb);
    }
    if aa > 0.0 && bb > 0.0 { ab / (aa * bb).sqrt() } else { 0.0 }
}

/// Spearman's rank correlation.
pub(crate) fn spearman(a: &[f64], b: &[f64]) -> f64 {
    pearson(&ranks(a), &ranks(b))
}

/// Pairs of a comparison: in the same order, in the other order, tied in the first only, in the second only.
struct Pairs {
    same: f64,
    other: f64,
    tied_a: f64,
    tied_b: f64,
}

fn pairs(a: &[f64], b: &[f64]) -> Pairs {
    let mut pairs = Pairs { same: 0.0, other: 0.0, tied_a: 0.0, tied_b: 0.0 };
    for i in 0..a.len() {
        for j in 0..i {
            let (x, y) = (a[i].total_cmp(&a[j]), b[i].total_cmp(&b[j]));
            match (x.is_eq(), y.is_eq()) {
                (false, false) if x == y => pairs.same += 1.0,
                (false, false) => pairs.other += 1.0,
                (true, false) => pairs.tied_a += 1.0,
                (false, true) => pairs.tied_b += 1.0,
                (true, true) => {}
            }
        }
    }
    pairs
}

/// Kendall's tau-b. With few levels it cannot reach 1 however good a score is.
pub(crate) fn tau_b(a: &[f64], b: &[f64]) -> f64 {
    let p = pairs(a, b);
    let below = (p.same + p.other + p.tied_a) * (p.same + p.other + p.tied_b);
    if below > 0.0 { (p.same - p.other) / below.sqrt() } else { 0.0 }
}

/// Stuart's tau-c, which reaches 1 for a perfect score against levels that are equally frequent.
pub(crate) fn tau_c(a: &[f64], b: &[f64]) -> f64 {
    let p = pairs(a, b);
    let kinds = |values: &[f64]| {
        let mut sorted = values.to_vec();
        sorted.sort_by(f64::total_cmp);
        sorted.dedup_by(|x, y| x.total_cmp(y).is_eq());
        sorted.len()
    };
    let (n, m) = (real(a.len()), real(kinds(a).min(kinds(b))));
    if m > 1.0 { 2.0 * (p.same - p.other) * m / (n * n * (m - 1.0)) } else { 0.0 }
}

/// Pairs with different labels that the scores put in the same order, and all of them. Only pairs whose labels
/// are `gap` apart are looked at, or all where there is none. Equal scores are half in order.
pub(crate) fn in_order(labels: &[f64], scores: &[f64], gap: Option<f64>) -> (f64, f64) {
    let (mut right, mut all) = (0.0, 0.0);
    for i in 0..labels.len() {
        for j in 0..labels.len() {
            let apart = labels[i] - labels[j];
            if apart > 0.0 && gap.is_none_or(|gap| (apart - gap).abs() < 1e-9) {
                all += 1.0;
                right += if scores[i] > scores[j] {
                    1.0
                } else if scores[i] < scores[j] {
                    0.0
                } else {
                    0.5
                };
            }
        }
    }
    (right, all)
}

/// The 95 % interval of a rank correlation: Fisher's z with the variance (1 + r^2 / 2) / (n - 3) of Bonett and
/// Wright (2000, from memory).
pub(crate) fn interval(r: f64, n: usize) -> (f64, f64) {
    use halfcount::difficulty::number::{exp, ln};
    if n < 4 || r.abs() >= 1.0 {
        return (-1.0, 1.0);
    }
    let z = 0.5 * ln((1.0 + r) / (1.0 - r));
    let half = 1.959_963_985 * ((1.0 + r * r / 2.0) / real(n - 3)).sqrt();
    let back = |z: f64| 1.0 - 2.0 / (exp(2.0 * z) + 1.0);
    (back(z - half), back(z + half))
}

/// A middle interval of 95 % from drawing the items anew so many times, with a generator of its own that always
/// begins alike.
pub(crate) fn drawn_anew(n: usize, times: usize, of: impl Fn(&[usize]) -> f64) -> (f64, f64) {
    let mut state = 0x9e37_79b9_7f4a_7c15_u64;
    let mut next = || {
        // xorshift64 of Marsaglia (2003).
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        state >> 11
    };
    let mut found: Vec<f64> = (0..times)
        .map(|_| {
            let drawn: Vec<usize> = (0..n)
                .map(|_| usize::try_from(next() % u64::try_from(n).unwrap_or(1)).unwrap_or(0))
                .collect();
            of(&drawn)
        })
        .collect();
    found.sort_by(f64::total_cmp);
    let at = |share: usize| found[(times * share / 1000).min(times - 1)];
    (at(25), at(975))
}

#[allow(clippy::cast_precision_loss, reason = "items are few")]
pub(crate) fn real(n: usize) -> f64 {
    n as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn near(got: f64, want: f64, by: f64) {
        assert!((got - want).abs() <= by, "{got} is not {want}");
    }

    const IQ: [f64; 10] = [106.0, 86.0, 100.0, 101.0, 99.0, 103.0, 97.0, 113.0, 112.0, 110.0];
    const HOURS: [f64; 10] = [7.0, 0.0, 27.0, 50.0, 28.0, 29.0, 20.0, 12.0, 6.0, 17.0];

    // K1 to K6: the example of the encyclopaedia article on Spearman's coefficient, the examples of scipy's
    // documentation, and values run with scipy 1.17.1.
    #[test]
    fn rank_correlations() {
        let squares: f64 = ranks(&IQ).iter().zip(ranks(&HOURS)).map(|(a, b)| (a - b) * (a - b)).sum();
        near(squares, 194.0, 0.0);
        near(spearman(&IQ, &HOURS), -29.0 / 165.0, 1e-12);
        near(tau_b(&IQ, &HOURS), -1.0 / 9.0, 1e-12);
        let (a, b) = ([12.0, 2.0, 1.0, 12.0, 2.0], [1.0, 4.0, 7.0, 1.0, 0.0]);
        near(tau_b(&a, &b), -0.471_404_520_8, 1e-9);
        near(tau_c(&a, &b), -0.48, 1e-12);
        near(spearman(&[1.0, 2.0, 3.0, 4.0, 5.0], &[5.0, 6.0, 7.0, 8.0, 7.0]), 0.820_782_681_7, 1e-9);
        let (a, b) = ([1.0, 2.0, 3.0, 4.0, 5.0], [3.0, 4.0, 1.0, 2.0, 5.0]);
        near(tau_b(&a, &b), 0.2, 1e-12);
        near(spearman(&a, &b), 0.2, 1e-12);
    }

    // K9: by hand and run. With five levels tau-b stays below 0.9 for a perfect score.
    #[test]
    fn a_perfect_score_against_five_levels() {
        let scores: Vec<f64> = (0..200).map(f64::from).collect();
        let levels: Vec<f64> = (0..200).map(|i| f64::from(i / 40)).collect();
        near(tau_b(&scores, &levels), 0.896_672, 1e-6);
        near(tau_c(&scores, &levels), 1.0, 1e-12);
        near(spearman(&scores, &levels), 0.979_808, 1e-6);
    }

    // K10: by hand from the formula.
    #[test]
    fn intervals() {
        for (r, n, low, high) in
            [(0.85, 100, 0.771, 0.903), (0.85, 300, 0.809, 0.883), (0.90, 200, 0.863, 0.927)]
        {
            let got = interval(r, n);
            near(got.0, low, 0.001);
            near(got.1, high, 0.001);
        }
    }

    // K11: by hand.
    #[test]
    fn pairs_with_different_labels() {
        assert_eq!(in_order(&[1.0, 2.0, 2.0, 3.0], &[1.0, 3.0, 2.0, 4.0], None), (5.0, 5.0));
    }
}
