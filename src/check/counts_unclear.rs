//! Counts that fit their steps in so many places badly that the way of counting itself was hardly understood.

use super::count_missing;
use super::count_twice;
use super::count_without_step;
use super::finding::{Finding, Related, Severity};
use super::silences_nothing::{self, remarks};
use super::subject::{Draft, Subject};
use super::two_on_one_count;
use super::wrong_length;
use crate::order::Ordered as _;

pub(super) const NAME: &str = "counts-unclear";

/// What is said where counts and steps do not fit each other.
const OF_COUNTS: [&str; 5] = [
    count_missing::NAME,
    count_twice::NAME,
    count_without_step::NAME,
    two_on_one_count::NAME,
    wrong_length::NAME,
];

/// In so many lines a writer hardly slips. A choice of this project.
const LINES: usize = 3;

/// What all rules found is gathered after the mends are known, by [`gather`].
pub(super) fn run(_: &Subject<'_>, _: &mut Vec<Draft>) {}

/// Says once that the counts are not understood, and makes notes of what follows from that.
pub(super) fn gather(s: &Subject<'_>, allow: &[String], found: &mut Vec<Finding>) {
    let loud = |f: &Finding| f.severity > Severity::Note;
    let mut places: Vec<&Finding> = found.iter().filter(|f| loud(f) && OF_COUNTS.contains(&f.rule)).collect();
    places.in_order_by_key(|f| f.span.start);
    // The places that stand in lines of their own.
    let apart = |a: &Finding, b: &Finding| s.text[b.span.range().start..a.span.range().start].contains('\n');
    places.dedup_by(|a, b| !apart(a, b));
    if places.len() < LINES {
        return;
    }
    if let Some(remark) = remarks(s.text).iter().find(|r| r.rule == NAME) {
        found.retain(|f| f.rule != silences_nothing::NAME || f.span != remark.span);
        return;
    }
    if allow.iter().any(|a| a == NAME) {
        return;
    }
    let label = || "here as well".to_string();
    let related = places[1..].iter().map(|f| Related { span: f.span, label: label() }).collect();
    let first = Finding {
        rule: NAME,
        severity: Severity::Warning,
        message: format!(
            "The counts do not fit the steps here and in {} other lines, so perhaps this way of counting is not \
             understood; write the counts before their steps, as in 1-2, 3&4, or go through the notes one by one.",
            places.len() - 1
        ),
        related,
        fixes: Vec::new(),
        ..places[0].clone()
    };
    for f in found.iter_mut() {
        f.severity = Severity::Note;
        // A mend of one place would only break the whole up again.
        f.fixes.clear();
    }
    let at = found.iter().position(|f| (f.span, f.rule) > (first.span, NAME)).unwrap_or(found.len());
    found.insert(at, first);
}
