//! Counts are left out between two lines.

use super::clocks::{pair, small};
use super::counting::{Step, steps};
use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::dance::{Action, Foot, PartKind, Weight};
use crate::floor::Turn;
use crate::read::Trouble;
use crate::text::{Edit, Span};
use crate::time::Ticks;

pub(super) const NAME: &str = "count-missing";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for Step { part, section, base, before, mark, expected, first, last, next, open } in steps(s) {
        if first <= expected || open {
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
        // The count before it may stand there a second time, taken for something else.
        if first - expected == 1 {
            let between = Span { start: before.end, end: mark.start };
            for t in edits::words(s.text, between)
                .iter()
                .filter(|t| t.span.of(s.text) == (expected - 1 + base).to_string())
            {
                let edit = Edit { span: t.span, text: (expected + base).to_string() };
                draft.offer(6, false, format!("count “{}”", expected + base), vec![edit]);
            }
        }
        let (a, b) = (expected + base, first - 1 + base);
        let counts = if a == b { a.to_string() } else { format!("{a}-{b}") };
        let filled = |words: &str| -> Vec<Edit> {
            let line = super::counting::line_before(s, mark, &counts, words);
            line.or_else(|| super::counting::words_before(s, mark, &counts, words)).into_iter().collect()
        };
        draft.offer(20, false, format!("hold on {gap}"), filled("Hold"));
        // A line that is gone often took the weight with it, and a turn.
        let lack = lack(s, place, mark);
        for (n, feet) in fillings(s, place, b > a).iter().enumerate() {
            let steps = steps_of(feet, lack, b - a + 1);
            let named: Vec<&str> = feet.iter().map(|f| f.word()).collect();
            let mut title = format!("step in place with the {} foot", named.join(" and the "));
            if let Some(turn) = lack {
                title.push_str(&format!(", turning {turn}"));
            }
            let cost = 21 + u32::try_from(n).unwrap_or(9);
            draft.offer(cost, false, format!("{title} on {gap}"), filled(&steps));
        }
        out.push(draft);
    }
}

/// Steps in place that may have been there, the likeliest first: one step or two.
fn fillings(s: &Subject<'_>, place: Place, two: bool) -> Vec<Vec<Foot>> {
    let first = match (starts(s, place), s.sheet.head.lead) {
        (true, Some((lead, _))) => Some(lead),
        _ => free_foot(s, place),
    };
    let Some(foot) = first else { return Vec::new() };
    let mut out = vec![vec![foot]];
    if two {
        out.push(vec![foot, foot.other()]);
        out.push(vec![foot.other(), foot]);
    }
    out.push(vec![foot.other()]);
    out
}

/// The steps in words, as any sheet writes them.
fn steps_of(feet: &[Foot], turn: Option<Turn>, counts: i32) -> String {
    let mut words = String::new();
    for (i, foot) in feet.iter().enumerate() {
        match turn.filter(|_| i == 0) {
            Some(turn) => words.push_str(&format!("Turn {turn} stepping {} in place", foot.letter())),
            None if i == 0 => words.push_str(&format!("Step {} in place", foot.letter())),
            None => words.push_str(&format!(", step {} in place", foot.letter())),
        }
    }
    if i32::try_from(feet.len()).is_ok_and(|n| n < counts) {
        words.push_str(", hold");
    }
    words
}

/// The turn that the steps that are left lack: by the next clock, else by the walls.
fn lack(s: &Subject<'_>, place: Place, mark: Span) -> Option<Turn> {
    let next = s.reading.clocks.iter().find(|t| t.part == place.part && t.span.start >= mark.start);
    let before = s.reading.clocks.iter().rfind(|t| t.part == place.part && t.span.end <= mark.start);
    let off = |t: &Trouble| pair(t).map(|(said, got)| said.units() - got.units());
    if let Some(now) = next.and_then(off) {
        let lack = small(now - before.and_then(off).unwrap_or(0));
        return Some(lack).filter(|t| t.0 != 0);
    }
    let (said, _) = s.sheet.head.walls?;
    let part = s.dance().parts.get(place.part).filter(|p| p.kind == PartKind::Main)?;
    let net = part.turn().0;
    if !s.dance().sequence.is_empty() || crate::read::walls(net) == said {
        return None;
    }
    [24, 12, -12].into_iter().find(|t| crate::read::walls(net + t) == said).map(Turn)
}

/// Whether a place is the first of the dance.
fn starts(s: &Subject<'_>, place: Place) -> bool {
    let before = |m: &crate::dance::Move| place.at.is_some_and(|at| m.at < at) && m.action != Action::Hold;
    let first = place.section == 0 && place.part == 0;
    first && !s.moves(0).iter().any(|d| d.section == 0 && before(d.m))
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
