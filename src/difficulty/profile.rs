//! Where in the dance the points come from.

use super::score::Taken;
use super::track::Track;
use crate::order::Ordered as _;
use crate::text::Span;

/// Some counts of a dance and the words that make them.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Stretch {
    /// The first count, from 1.
    pub from: u32,
    /// The last count.
    pub to: u32,
    /// Points of these counts.
    pub points: f64,
    /// The words, in order and apart from each other.
    pub words: Vec<Span>,
}

/// Points of each count of one repetition. What a measure adds is shared out over the counts it comes from, so
/// that these and what is in no place add up to all points.
pub(super) fn profile(taken: &[Taken], counts: u32) -> Vec<f64> {
    let mut profile = vec![0.0; counts as usize];
    for measure in taken.iter().filter(|t| t.points > 0.0) {
        let all: f64 = measure.places.iter().map(|p| p.1).sum();
        for (count, amount) in &measure.places {
            if let Some(here) = profile.get_mut(*count as usize) {
                *here += measure.points * amount / all;
            }
        }
    }
    profile
}

/// The eight counts in a row that have most points, the earlier ones where two have as many.
pub(super) fn hardest(track: &Track, profile: &[f64]) -> Option<Stretch> {
    let size = profile.len().min(8);
    if size == 0 {
        return None;
    }
    let mut best = (0, f64::NEG_INFINITY);
    for (from, window) in profile.windows(size).enumerate() {
        let sum = window.iter().sum::<f64>();
        // A hair more is none: sums of the same numbers differ in their last digits.
        if sum > best.1 + 1e-9 {
            best = (from, sum);
        }
    }
    let (from, to) = (best.0, best.0 + size);
    let inside = |count: u32| (from..to).contains(&(count as usize));
    let mut spans: Vec<Span> = track.events.iter().filter(|e| inside(e.count)).map(|e| e.what.span).collect();
    spans.retain(|s| s.end > s.start);
    spans.in_order_by_key(|s| (s.start, s.end));
    let mut words: Vec<Span> = Vec::new();
    for span in spans {
        match words.last_mut() {
            Some(last) if span.start <= last.end => last.end = last.end.max(span.end),
            _ => words.push(span),
        }
    }
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    Some(Stretch { from: count(from) + 1, to: count(to), points: best.1, words })
}
