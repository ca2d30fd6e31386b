//! Weights from labels: least squares, every weight above zero, drawn toward equal weights.
//!
//! With so few labels, weights left free would fit their noise. So each notch of each measure is first taken to
//! be worth the same, and the labels may move a weight away from that only as far as they pay for it.

use super::stats::{mean, real};

/// One labelled dance.
#[derive(Debug, Clone)]
pub(crate) struct Case {
    /// Who is left out together.
    pub(crate) author: String,
    /// Notches of each scored measure.
    pub(crate) notches: Vec<f64>,
    /// The mark, 0 to 100. Without a mark of its own, [`told`] gives it the mean of its named level.
    pub(crate) mark: f64,
    /// The level that its writer names, from 1.
    pub(crate) named: f64,
    /// How much the label counts: 1 for a mark, [`NAME`] for a named level alone.
    pub(crate) trust: f64,
}

/// What a level's name counts beside a mark.
pub(crate) const NAME: f64 = 0.25;

/// The cases with the mean mark of their named level where they have none of their own. Only the given cases
/// are looked at, so nothing leaks from those left out.
pub(crate) fn told(cases: &[Case]) -> Vec<Case> {
    let marked = |level: f64| -> Vec<f64> {
        let same = cases.iter().filter(|c| c.trust >= 1.0 && (c.named - level).abs() < 0.1);
        same.map(|c| c.mark).collect()
    };
    let mut told: Vec<Case> = cases.to_vec();
    for case in told.iter_mut().filter(|c| c.trust < 1.0) {
        let marks = marked(case.named);
        case.mark = mean(&marks);
        if marks.is_empty() {
            case.trust = 0.0;
        }
    }
    told
}

/// No weight is below this share of the equal one: so few labels cannot say that a measure does not matter.
pub(crate) const LEAST: f64 = 0.1;

/// What holds between weights whatever the labels say.
#[derive(Debug, Clone)]
pub(crate) struct Shape {
    /// Place of the weight of actions on half-counts, and its notch.
    pub(crate) half: (usize, f64),
    /// Places and notches of weights that are together worth less than it. A step put between two others sends
    /// all that follows to the other side; a turn and a step may then no longer go against the one before, and
    /// the dance must not become easier by that.
    pub(crate) held: [(usize, f64); 2],
}

impl Shape {
    /// Keeps one weight to the shape, given all others.
    fn hold_one(&self, weights: &mut [f64], place: usize) {
        // A hair is kept for the three decimals that weights are written with.
        let hair = 0.004;
        let worth = |weights: &[f64], (at, notch): (usize, f64)| weights[at] / notch;
        let [a, b] = self.held;
        if place == self.half.0 {
            let least = worth(weights, a) + worth(weights, b) + hair;
            weights[place] = weights[place].max(least * self.half.1);
        }
        for (own, other) in [(a, b), (b, a)] {
            if place == own.0 {
                let most = worth(weights, self.half) - worth(weights, other) - hair;
                weights[place] = weights[place].min(most * own.1).max(0.0);
            }
        }
    }
}

/// Penalties that are tried: how much one label's squared point weighs against a squared point of a weight.
pub(crate) const PENALTIES: [f64; 9] = [0.3, 1.0, 3.0, 10.0, 30.0, 100.0, 300.0, 1000.0, 3000.0];

/// The worth of a notch where all are worth the same.
pub(crate) fn equal(cases: &[Case]) -> f64 {
    let (mut up, mut down) = (0.0, 0.0);
    for case in cases {
        let sum: f64 = case.notches.iter().sum();
        up += case.trust * sum * case.mark;
        down += case.trust * sum * sum;
    }
    if down > 0.0 { up / down } else { 0.0 }
}

/// Weights for a penalty, by turns over the weights until none moves.
pub(crate) fn weights(cases: &[Case], penalty: f64, shape: Option<&Shape>) -> Vec<f64> {
    let start = equal(cases);
    let size = cases.first().map_or(0, |c| c.notches.len());
    let mut weights = vec![start; size];
    let mut rest: Vec<f64> = cases.iter().map(|c| c.mark - predicted(&weights, &c.notches)).collect();
    for _ in 0..20_000 {
        let mut moved = 0.0_f64;
        for k in 0..size {
            let (mut up, mut down) = (penalty * (start - weights[k]), penalty);
            for (case, rest) in cases.iter().zip(&rest) {
                up += case.trust * case.notches[k] * rest;
                down += case.trust * case.notches[k] * case.notches[k];
            }
            let before = weights[k];
            weights[k] = (before + up / down).max(LEAST * start);
            if let Some(shape) = shape {
                shape.hold_one(&mut weights, k);
            }
            let by = weights[k] - before;
            for (case, rest) in cases.iter().zip(&mut rest) {
                *rest -= by * case.notches[k];
            }
            moved = moved.max(by.abs());
        }
        if moved < 1e-7 {
            break;
        }
    }
    weights
}

/// The score of some notches.
pub(crate) fn predicted(weights: &[f64], notches: &[f64]) -> f64 {
    weights.iter().zip(notches).map(|(w, n)| w * n).sum()
}

/// Authors in order of appearance.
pub(crate) fn authors(cases: &[Case]) -> Vec<&str> {
    let mut found: Vec<&str> = Vec::new();
    for case in cases {
        if !found.contains(&case.author.as_str()) {
            found.push(&case.author);
        }
    }
    found
}

fn others(cases: &[Case], author: &str) -> Vec<Case> {
    cases.iter().filter(|c| c.author != author).cloned().collect()
}

/// The mean absolute error of a penalty where each author's dances are foretold from all others', and its
/// standard error.
fn error_left_out(cases: &[Case], penalty: f64, shape: Option<&Shape>) -> (f64, f64) {
    let mut errors = Vec::new();
    for author in authors(cases) {
        let own = cases.iter().filter(|c| c.author == author && c.trust >= 1.0);
        if own.clone().next().is_none() {
            continue;
        }
        let others = told(&others(cases, author));
        let found = weights(&others, penalty, shape);
        errors.extend(own.map(|c| (c.mark - predicted(&found, &c.notches).clamp(0.0, 100.0)).abs()));
    }
    let middle = mean(&errors);
    let squares: Vec<f64> = errors.iter().map(|e| (e - middle) * (e - middle)).collect();
    (middle, (mean(&squares) / real(errors.len().max(1))).sqrt())
}

/// The greatest penalty whose error, each author left out in turn, is within one standard error of the best.
pub(crate) fn penalty(cases: &[Case], shape: Option<&Shape>) -> f64 {
    let found: Vec<(f64, f64)> = PENALTIES.iter().map(|p| error_left_out(cases, *p, shape)).collect();
    let best = found.iter().copied().fold((f64::INFINITY, 0.0), |a, b| if b.0 < a.0 { b } else { a });
    let good = PENALTIES.iter().zip(&found).rfind(|(_, error)| error.0 <= best.0 + best.1);
    good.map_or(PENALTIES[0], |(penalty, _)| *penalty)
}

/// What each case would be given by the others: its author left out, the penalty chosen again without them.
pub(crate) fn left_out(cases: &[Case], shape: Option<&Shape>) -> Vec<f64> {
    let mut found = vec![0.0; cases.len()];
    for author in authors(cases) {
        let others = others(cases, author);
        let weights = weights(&told(&others), penalty(&others, shape), shape);
        for (case, found) in cases.iter().zip(&mut found).filter(|(c, _)| c.author == author) {
            *found = predicted(&weights, &case.notches).clamp(0.0, 100.0);
        }
    }
    found
}

/// What each case would be given by a rising line through one plain number of the others.
pub(crate) fn line_left_out(cases: &[Case], plain: &[f64]) -> Vec<f64> {
    let mut found = vec![0.0; cases.len()];
    for author in authors(cases) {
        let (mut x, mut y) = (Vec::new(), Vec::new());
        for (case, plain) in cases.iter().zip(plain).filter(|(c, _)| c.author != author && c.trust >= 1.0) {
            x.push(*plain);
            y.push(case.mark);
        }
        let (mx, my) = (mean(&x), mean(&y));
        let up: f64 = x.iter().zip(&y).map(|(x, y)| (x - mx) * (y - my)).sum();
        let down: f64 = x.iter().map(|x| (x - mx) * (x - mx)).sum();
        let slope = if down > 0.0 { (up / down).max(0.0) } else { 0.0 };
        for ((case, plain), found) in cases.iter().zip(plain).zip(&mut found) {
            if case.author == author {
                *found = (my + slope * (plain - mx)).clamp(0.0, 100.0);
            }
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn case(author: &str, notches: &[f64], mark: f64) -> Case {
        Case { author: author.to_owned(), notches: notches.to_vec(), mark, named: 1.0, trust: 1.0 }
    }

    #[test]
    fn no_weight_falls_below_its_least() {
        let cases = [case("a", &[1.0, 0.0], 3.0), case("b", &[0.0, 1.0], -2.0), case("c", &[2.0, 1.0], 6.0)];
        let found = weights(&cases, 1e-6, None);
        let least = LEAST * equal(&cases);
        assert!(found[0] > 2.0 && (found[1] - least).abs() < 1e-12 && least > 0.0, "{found:?}");
    }

    #[test]
    fn a_heavy_penalty_keeps_them_equal() {
        let cases = [case("a", &[1.0, 0.0], 3.0), case("b", &[0.0, 1.0], 1.0)];
        let found = weights(&cases, 1e9, None);
        assert!((found[0] - 2.0).abs() < 1e-6 && (found[1] - 2.0).abs() < 1e-6, "{found:?}");
    }
}
