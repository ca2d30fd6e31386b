//! Counts are left out between two lines.

use super::counting::{Step, steps};
use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::dance::{Foot, Weight};
use crate::time::Ticks;

pub(super) const NAME: &str = "count-missing";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for Step { part, section, base, before, mark, expected, first, last, next } in steps(s) {
        if first <= expected {
            continue;
        }
        let gap = if first - expected == 1 {
            format!("count {}", expected + base)
        } else {
            format!("counts {} to {}", expected + base, first - 1 + base)
        };
        let place = s.place(part, section, Some(Ticks::of_count(expected)));
        let mut draft = s
            .at(NAME, Severity::Warning, mark, place)
            .says(format!(
                "After “{}” comes “{}”: nothing is written for {gap}; write the missing steps, or correct the counts.",
                s.quote(before),
                s.quote(mark)
            ))
            .with(before, "the counts before it");
        let shift = expected - first;
        let sure = next == Some(last + shift + 1);
        if next.is_none_or(|n| n == last + shift + 1) {
            let edits = super::counting::renumbered(s, mark, base, shift);
            draft.offer(10, sure, format!("count “{}”", crate::text::apply_to(s.text, mark, &edits)), edits);
        }
        let (a, b) = (expected + base, first - 1 + base);
        let counts = if a == b { a.to_string() } else { format!("{a}-{b}") };
        let hold = super::counting::line_before(s, mark, &counts, "Hold");
        draft.offer(20, false, format!("hold on {gap}"), hold.into_iter().collect());
        // A line that is gone often took the weight with it.
        if let Some(foot) = free_foot(s, place) {
            let (title, words) = (
                format!("step in place with the {} foot on {gap}", foot.word()),
                format!("Step {} in place", foot.letter()),
            );
            let words = if a == b { words } else { format!("{words}, hold") };
            let step = super::counting::line_before(s, mark, &counts, &words);
            draft.offer(21, false, title, step.into_iter().collect());
        }
        out.push(draft);
    }
}

/// The foot that is free where the steps go on.
fn free_foot(s: &Subject<'_>, place: Place) -> Option<Foot> {
    let at = |section: usize, at: Option<Ticks>| (section, at.map_or(0, |t| t.0));
    let moves = s.moves(place.part);
    let next = moves.iter().find(|d| at(d.section, Some(d.m.at)) >= at(place.section, place.at))?;
    match next.m.before {
        Weight::On(foot) => Some(foot.other()),
        Weight::Both => None,
    }
}
