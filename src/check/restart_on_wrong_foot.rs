//! A restart comes when the weight is on the foot that begins the dance.

use super::edits;
use super::finding::Severity;
use super::flow::{clashes, danced, end_offers};
use super::subject::{Draft, Place, Subject};
use crate::letters::Letters as _;
use crate::order::Ordered as _;
use crate::sheet::words::Kind;
use crate::sheet::{Mention, Topic};
use crate::text::Edit;

pub(super) const NAME: &str = "restart-on-wrong-foot";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for c in clashes(s) {
        let Some(restart) = c.from.restart.and_then(|r| s.dance().restarts.get(r)) else { continue };
        if c.to.tag.is_some() {
            continue;
        }
        let moves = danced(s, c.from);
        let Some(last) = moves.iter().rev().find(|d| d.m.takes().is_some()).or(moves.last()) else {
            continue;
        };
        let place = Place { part: c.from.part, section: last.section, at: Some(last.m.at) };
        // Words about a change that was not read may well free the foot.
        let unclear =
            s.unread_step_between(restart.span.start, restart.span.end) || speaks_of_change(s, restart.wall);
        let severity = if unclear && restart.changed.is_none() { Severity::Note } else { Severity::Error };
        let mut draft = s
            .at(NAME, severity, restart.span, place)
            .says(format!(
                "The restart on wall {} after {} counts leaves the weight on the {} foot (“{}”), and the dance begins with that foot; change the last step before the restart, or restart elsewhere.",
                restart.wall,
                restart.after_counts,
                c.foot.word(),
                s.quote(last.m.span)
            ))
            .with(last.m.span, "the last step before the restart")
            .with(c.first.m.span, "the dance begins here");
        changed_step(s, &mut draft, restart.span, last.m.at.to_string().as_str());
        other_counts(s, &mut draft, restart.span, restart.after_counts, c.foot);
        end_offers(s, &mut draft, c.from, c.foot);
        out.push(draft);
    }
}

/// Whether the sheet says that steps are changed for a restart.
fn speaks_of_change(s: &Subject<'_>, wall: u32) -> bool {
    const WORDS: &[&str] = &[
        "chang",
        "instead",
        "swap",
        "replac",
        "substitut",
        "but on",
        "adjust",
        "modif",
        "leave out",
        "in place of",
        "where you",
        " but ",
    ];
    let about = |m: &&Mention| m.topic == Topic::Restart && m.walls.contains(&wall);
    let notes = s.sheet.mentions.iter().filter(about).map(|m| m.span);
    notes.into_iter().any(|span| {
        let words = span.of(s.text).small();
        let none = ["no step change", "no change", "without change", "unchanged"];
        WORDS.iter().any(|w| words.contains(w)) && !none.iter().any(|w| words.contains(w))
    })
}

/// Words that change the last step for this restart.
fn changed_step(s: &Subject<'_>, draft: &mut Draft, span: crate::text::Span, count: &str) {
    let words = span.of(s.text).trim_end();
    let end = words.trim_end_matches(['.', '!', ')', ']', '*', '-', '_', ' ']).len();
    let end = span.start as usize + end;
    for text in [
        format!(", changing count {count} to a touch"),
        format!(" (change count {count} to a touch)"),
        format!(". Change count {count} to a touch"),
    ] {
        let edit = Edit { span: crate::text::Span::new(end, end), text };
        draft.offer(9, false, format!("touch on count {count} before this restart"), vec![edit]);
    }
}

/// Ends of sections at which the foot is free.
fn other_counts(
    s: &Subject<'_>,
    draft: &mut Draft,
    span: crate::text::Span,
    counts: u32,
    foot: crate::dance::Foot,
) {
    let Some(part) = s.dance().parts.first() else { return };
    let mut sum = 0;
    let mut ends = Vec::new();
    // A restart inside a section is the rarer one, and a number the likelier slip.
    let mut inside = true;
    for section in &part.sections {
        sum += section.counts;
        inside &= sum != counts;
        if section.weight_end.frees(foot) && sum != counts && sum < part.counts() {
            ends.push(sum);
        }
    }
    ends.in_order_by_key(|n| (n.abs_diff(counts), core::cmp::Reverse(*n)));
    for n in ends.into_iter().take(2) {
        let words = edits::words(s.text, span);
        for t in words.iter().filter(|t| t.kind == Kind::Number(counts)).take(1) {
            let edit = Edit { span: t.span, text: n.to_string() };
            let cost = if inside { 8 } else { 25 };
            draft.offer(cost, false, format!("restart after {n} counts"), vec![edit]);
        }
    }
}
