//! From measures to points, a score, its range and the chances of the levels.

use super::measure::{Family, Measure, Reading, measures};
use super::number::{logistic, rounded};
use super::track::Track;
use super::weights::{LEVELS, Weights};

/// A measure of a dance and what it adds to the score.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Taken {
    /// The measure's name.
    pub name: &'static str,
    /// What it is about.
    pub family: Family,
    /// Its unit.
    pub unit: &'static str,
    /// The value, six decimals at most.
    pub value: f64,
    /// What its value counts, see [`super::Scored::steps`]; `None` where it is only reported.
    pub steps: Option<f64>,
    /// Points for each step.
    pub weight: f64,
    /// Points that it adds.
    pub points: f64,
    /// Where it comes from: counts from 0 and how much of it.
    pub places: Vec<(u32, f64)>,
}

/// What a family of measures adds to the score.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Share {
    /// The family.
    pub family: Family,
    /// Its points.
    pub points: f64,
    /// Its share of all points, 0 to 1.
    pub share: f64,
}

/// How likely each level is.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Chance {
    /// The level's name.
    pub level: &'static str,
    /// 0 to 1; all five add up to 1.
    pub chance: f64,
}

fn take(track: &Track, measure: &Measure, weight: f64) -> Taken {
    let Reading { value, places } = (measure.take)(track);
    let value = rounded(if value.is_finite() { value } else { 0.0 }, 6);
    let steps = measure.scored.map(|scored| scored.steps(value));
    Taken {
        name: measure.name,
        family: measure.family,
        unit: measure.unit,
        value,
        steps,
        weight,
        points: weight * steps.unwrap_or(0.0),
        places,
    }
}

/// Every measure of a dance.
pub(super) fn taken(track: &Track, weights: &Weights) -> Vec<Taken> {
    measures().zip(&weights.points).map(|(measure, weight)| take(track, measure, *weight)).collect()
}

/// The score alone, from the measures that enter it.
pub(super) fn total(track: &Track, weights: &Weights) -> f64 {
    let scored = measures().zip(&weights.points).filter(|(_, weight)| **weight > 0.0);
    within(scored.map(|(measure, weight)| take(track, measure, *weight).points).sum())
}

/// Points brought into the scale of the score, 0 to 100, two decimals at most.
pub(super) fn within(points: f64) -> f64 {
    rounded(points.clamp(0.0, 100.0), 2)
}

/// Points by family.
pub(super) fn shares(taken: &[Taken]) -> Vec<Share> {
    let all: f64 = taken.iter().map(|t| t.points).sum();
    let share = |family: Family| {
        let points: f64 = taken.iter().filter(|t| t.family == family).map(|t| t.points).sum();
        Share { family, points, share: if all > 0.0 { points / all } else { 0.0 } }
    };
    Family::ALL.into_iter().map(share).collect()
}

/// The chances of the five levels at a score: an ordinal model with one slope, so that a higher score never
/// makes a lower level likelier than before in comparison with a higher one.
pub(super) fn chances(score: f64, weights: &Weights) -> Vec<Chance> {
    let Some(borders) = weights.borders else { return Vec::new() };
    let at_least = |border: f64| logistic((score - border) / weights.spread);
    let upper = borders.map(at_least);
    let from = [1.0, upper[0], upper[1], upper[2], upper[3]];
    let above = [upper[0], upper[1], upper[2], upper[3], 0.0];
    let chance = |(index, level): (usize, &&'static str)| Chance {
        level,
        chance: rounded((from[index] - above[index]).max(0.0), 6),
    };
    LEVELS.iter().enumerate().map(chance).collect()
}

/// The level of a score: the highest one whose border it reaches.
pub(super) fn level(score: f64, weights: &Weights) -> Option<&'static str> {
    let borders = weights.borders?;
    Some(LEVELS[borders.iter().filter(|border| score >= **border).count()])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn chances_add_up_and_rise_with_the_score() {
        let weights = Weights::default();
        let mut before = 0.0;
        for score in 0..=100 {
            let chances = chances(f64::from(score), &weights);
            let sum: f64 = chances.iter().map(|c| c.chance).sum();
            assert!((sum - 1.0).abs() < 1e-5, "{score}: {sum}");
            let mean: f64 = chances.iter().zip(1..).map(|(c, rank)| c.chance * f64::from(rank)).sum();
            assert!(mean >= before - 1e-5, "{score}: {mean} after {before}");
            before = mean;
        }
        assert_eq!(level(0.0, &weights), Some("absolute beginner"));
        assert_eq!(level(100.0, &weights), Some("advanced"));
    }
}
