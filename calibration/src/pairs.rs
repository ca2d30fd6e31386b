//! Strengths from judgements "which of two is harder" (Bradley and Terry 1952, Biometrika 39:324-345).
//!
//! Each dance has a strength; the chance that one is judged harder than another is the logistic of the
//! difference. A normal prior of standard deviation 3 keeps dances that win or lose every time at finite
//! strengths, and joins groups that were never compared with each other.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use halfcount::difficulty::number::{decimal, logistic};

use super::agreement::{Scale, alpha};
use super::stats::real;

/// One over the variance of the prior.
const PRIOR: f64 = 1.0 / 9.0;

/// A judgement: the first dance is harder than the second.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Judgement {
    harder: usize,
    easier: usize,
    rater: String,
}

/// All judgements of a file.
#[derive(Debug, Default)]
pub(crate) struct Judgements {
    /// Names of the dances, sorted.
    pub(crate) dances: Vec<String>,
    /// The judgements in order.
    pub(crate) all: Vec<Judgement>,
}

impl Judgements {
    /// Reads a table with the header line `harder,easier,rater`, between commas or tabs; the rater may be left
    /// out.
    pub(crate) fn parse(text: &str) -> Result<Self, String> {
        let mut rows = Vec::new();
        for (index, line) in text.lines().enumerate() {
            let cells: Vec<&str> = line.split([',', '\t']).map(str::trim).collect();
            if line.trim().is_empty() || line.starts_with('#') || cells.first() == Some(&"harder") {
                continue;
            }
            let [harder, easier, rest @ ..] = cells.as_slice() else {
                return Err(format!("line {}: a harder and an easier dance are needed", index + 1));
            };
            if harder == easier || harder.is_empty() || easier.is_empty() {
                return Err(format!("line {}: two different dances are needed", index + 1));
            }
            rows.push((*harder, *easier, rest.first().copied().unwrap_or_default()));
        }
        let mut dances: Vec<String> =
            rows.iter().flat_map(|row| [row.0.to_owned(), row.1.to_owned()]).collect();
        dances.sort();
        dances.dedup();
        let place = |name: &str| dances.binary_search_by(|d| d.as_str().cmp(name)).unwrap_or(0);
        let judgement = |(harder, easier, rater): (&str, &str, &str)| Judgement {
            harder: place(harder),
            easier: place(easier),
            rater: rater.to_owned(),
        };
        let all = rows.into_iter().map(judgement).collect();
        Ok(Self { dances, all })
    }
}

/// Strengths and their standard errors, by Newton's method; strengths add up to zero.
pub(crate) fn strengths(judgements: &Judgements) -> Vec<(f64, f64)> {
    let n = judgements.dances.len();
    let mut strength = vec![0.0; n];
    let mut inverse = Vec::new();
    for _ in 0..60 {
        let mut slope: Vec<f64> = strength.iter().map(|s| -PRIOR * s).collect();
        let mut curve = vec![vec![0.0; n]; n];
        (0..n).for_each(|i| curve[i][i] = PRIOR);
        for j in &judgements.all {
            let chance = logistic(strength[j.harder] - strength[j.easier]);
            slope[j.harder] += 1.0 - chance;
            slope[j.easier] -= 1.0 - chance;
            let bend = chance * (1.0 - chance);
            curve[j.harder][j.harder] += bend;
            curve[j.easier][j.easier] += bend;
            curve[j.harder][j.easier] -= bend;
            curve[j.easier][j.harder] -= bend;
        }
        inverse = inverted(curve);
        let step: Vec<f64> =
            inverse.iter().map(|row| row.iter().zip(&slope).map(|(a, b)| a * b).sum()).collect();
        let mut moved = 0.0_f64;
        for (s, by) in strength.iter_mut().zip(&step) {
            let by = f64::clamp(*by, -1.0, 1.0);
            *s += by;
            moved = moved.max(by.abs());
        }
        if moved < 1e-12 {
            break;
        }
    }
    let middle = strength.iter().sum::<f64>() / real(n.max(1));
    let error = |i: usize| inverse.get(i).map_or(0.0, |row| f64::max(row[i], 0.0).sqrt());
    strength.iter().enumerate().map(|(i, s)| (s - middle, error(i))).collect()
}

/// The inverse of a matrix that is symmetric and positive, by elimination.
fn inverted(mut a: Vec<Vec<f64>>) -> Vec<Vec<f64>> {
    let n = a.len();
    let mut out: Vec<Vec<f64>> =
        (0..n).map(|i| (0..n).map(|j| if i == j { 1.0 } else { 0.0 }).collect()).collect();
    for i in 0..n {
        let by = a[i][i];
        for j in 0..n {
            a[i][j] /= by;
            out[i][j] /= by;
        }
        let (row, inverse_row) = (a[i].clone(), out[i].clone());
        for k in (0..n).filter(|k| *k != i) {
            let factor = a[k][i];
            for j in 0..n {
                a[k][j] -= factor * row[j];
                out[k][j] -= factor * inverse_row[j];
            }
        }
    }
    out
}

/// What the judgements say, as a page.
pub(crate) fn page(judgements: &Judgements, scores: impl Fn(&str) -> Option<f64>) -> String {
    let found = strengths(judgements);
    let mut order: Vec<usize> = (0..found.len()).collect();
    order.sort_by(|a, b| found[*b].0.total_cmp(&found[*a].0).then(a.cmp(b)));
    let mut page = String::from("strength  error  harder  easier  score  dance\n");
    let (mut ours, mut theirs) = (Vec::new(), Vec::new());
    for i in order {
        let name = &judgements.dances[i];
        let harder = judgements.all.iter().filter(|j| j.harder == i).count();
        let easier = judgements.all.iter().filter(|j| j.easier == i).count();
        let score = scores(name);
        if let Some(score) = score {
            ours.push(score);
            theirs.push(found[i].0);
        }
        let shown = score.map_or_else(|| "-".to_owned(), |s| decimal(s, 1));
        let (strength, error) = (decimal(found[i].0, 2), decimal(found[i].1, 2));
        let _ = writeln!(page, "{strength:>8}  {error:>5}  {harder:>6}  {easier:>6}  {shown:>5}  {name}");
    }
    let told = judgements.all.iter().filter(|j| found[j.harder].0 > found[j.easier].0).count();
    let _ = writeln!(page, "\n{told} of {} judgements go with the order of strengths.", judgements.all.len());
    if let Some(alpha) = raters_agree(judgements) {
        let _ = writeln!(
            page,
            "Krippendorff's alpha of the raters on the same pairs (nominal): {}.",
            decimal(alpha, 3)
        );
    }
    if ours.len() > 3 {
        let r = super::stats::spearman(&ours, &theirs);
        let (low, high) = super::stats::interval(r, ours.len());
        let [r, low, high] = [r, low, high].map(|v| decimal(v, 3));
        let _ = writeln!(
            page,
            "Spearman of score and strength over {} dances: {r} ({low} to {high}).",
            ours.len()
        );
    }
    page
}

/// Agreement of raters that judged the same pairs: the rating of a pair is whether its first dance is harder.
fn raters_agree(judgements: &Judgements) -> Option<f64> {
    let mut pairs: BTreeMap<(usize, usize), usize> = BTreeMap::new();
    let mut raters: BTreeMap<&str, usize> = BTreeMap::new();
    for j in judgements.all.iter().filter(|j| !j.rater.is_empty()) {
        let (next, rows) = (pairs.len(), raters.len());
        pairs.entry((j.harder.min(j.easier), j.harder.max(j.easier))).or_insert(next);
        raters.entry(&j.rater).or_insert(rows);
    }
    if raters.len() < 2 {
        return None;
    }
    let mut ratings = vec![vec![None; pairs.len()]; raters.len()];
    for j in judgements.all.iter().filter(|j| !j.rater.is_empty()) {
        let pair = pairs[&(j.harder.min(j.easier), j.harder.max(j.easier))];
        ratings[raters[j.rater.as_str()]][pair] = Some(if j.harder < j.easier { 1.0 } else { 2.0 });
    }
    Some(alpha(&ratings, Scale::Nominal))
}

#[cfg(test)]
mod tests {
    use super::*;

    // Two dances, one judged harder three times of four: without a prior the difference is ln 3. With it the
    // slope is zero where 3 (1 - p) - p = d / 18 for the difference d, worked by bisection.
    #[test]
    fn strengths_follow_the_judgements() {
        let text = "harder,easier,rater\na,b,x\na,b,y\na,b,z\nb,a,w\n";
        let found = strengths(&Judgements::parse(text).expect("a good table"));
        let d = found[0].0 - found[1].0;
        assert!((found[0].0 + found[1].0).abs() < 1e-12);
        let p = logistic(d);
        assert!((3.0 * (1.0 - p) - p - d / 18.0).abs() < 1e-9);
        assert!(d > 0.9 && d < 1.0986, "{d}");
    }

    #[test]
    fn a_dance_that_always_wins_has_a_finite_strength() {
        let found = strengths(&Judgements::parse("a\tb\nb\tc\na\tc\n").expect("a good table"));
        assert!(found[0].0 > found[1].0 && found[1].0 > found[2].0 && found[0].0 < 6.0);
    }

    #[test]
    fn a_table_that_cannot_be_meant_is_refused() {
        assert!(Judgements::parse("a,a").is_err() && Judgements::parse("a").is_err());
    }
}
