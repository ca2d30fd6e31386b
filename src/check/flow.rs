//! Where one stretch of the song meets the next: whether its first foot is free.

use super::edits;
use super::subject::{Danced, Draft, Place, Subject};
use crate::dance::{Action, Effect, Foot, PartKind, Place as Spot, Run, Weight, Who};

/// A meeting where the foot that is to begin carries the weight.
#[derive(Debug)]
pub(super) struct Clash<'a> {
    pub from: &'a Run,
    pub to: &'a Run,
    /// The foot that begins.
    pub foot: Foot,
    /// The move that it begins with.
    pub first: Danced<'a>,
}

/// Moves of a run.
pub(super) fn danced<'a>(s: &Subject<'a>, run: &Run) -> Vec<Danced<'a>> {
    each(s, run).collect()
}

/// The moves of a run one after the other.
fn each<'a>(s: &Subject<'a>, run: &Run) -> impl Iterator<Item = Danced<'a>> + use<'a> {
    let sections = s.dance().parts.get(run.part).map_or(&[][..], |p| &p.sections[..]);
    let (from, to) = (run.from, run.to);
    let mut sum = 0;
    sections.iter().enumerate().flat_map(move |(section, of)| {
        let before = sum;
        sum += of.counts;
        of.moves.iter().map(move |m| Danced { section, m }).filter(move |d| {
            // The count from 1 to which the position belongs.
            let n = before + u32::try_from(d.m.at.count().max(1)).unwrap_or(1);
            n > from && n <= to
        })
    })
}

/// All meetings that clash; the same meeting of the same stretches only once.
pub(super) fn clashes<'a>(s: &Subject<'a>) -> Vec<Clash<'a>> {
    let runs = &s.dance().runs;
    let mut out: Vec<Clash<'a>> = Vec::new();
    for pair in runs.windows(2) {
        let (from, to) = (&pair[0], &pair[1]);
        // Where hips share the weight first, either foot may go on.
        let acts = |d: &Danced<'_>| {
            d.m.effect != Effect::None && (matches!(d.m.who, Who::One(_)) || d.m.effect == Effect::Shares)
        };
        let first = each(s, to).find(acts);
        let Some(first) = first else { continue };
        let Who::One(foot) = first.m.who else { continue };
        let wrong = match (from.weight_end, first.m.effect) {
            (Weight::Both, _) => false,
            (Weight::On(f), Effect::Keeps) => f != foot,
            (Weight::On(f), _) => f == foot,
        };
        let kind = |r: &Run| (r.part, r.from, r.to, r.restart, r.tag.map(|t| s.dance().tags[t].part));
        let known = out.iter().any(|c| kind(c.from) == kind(from) && kind(c.to) == kind(to));
        // Hips are bumped between the feet: the weight goes where the next step needs it.
        let bumps = || {
            each(s, from)
                .filter(|d| d.m.after != d.m.before)
                .last()
                .is_some_and(|d| d.m.action == Action::Bump)
        };
        if wrong && !known && !bumps() {
            out.push(Clash { from, to, foot, first });
        }
    }
    out
}

/// Mends at the end of a stretch: its last step a touch, its last touch or hold a step.
pub(super) fn end_offers(s: &Subject<'_>, draft: &mut Draft, run: &Run, loaded: Foot) {
    let moves = danced(s, run);
    let Some(i) = moves.iter().rposition(|d| d.m.after != d.m.before || d.m.takes().is_some()) else {
        return;
    };
    let place = |d: &Danced<'_>| Place { part: run.part, section: d.section, at: Some(d.m.at) };
    for d in &moves[i + 1..] {
        let other = d.m.who == Who::One(loaded.other()) && d.m.effect == Effect::Free;
        let hold = matches!(d.m.action, Action::Hold | Action::Clap);
        if other || hold {
            for edits in edits::to_step(s.text, d.m.span, loaded.other()) {
                let title = format!("step on the {} foot on count {}", loaded.other().word(), d.m.at);
                draft.offer_at(place(d), if other { 10 } else { 14 }, title, edits);
            }
        }
    }
    let last = &moves[i];
    if last.m.takes() == Some(loaded) {
        let near = matches!(last.m.place, Spot::Close | Spot::InPlace | Spot::Home);
        let weighted = edits::to_touch_weighted(s.text, last.m.span);
        for edits in weighted.into_iter().chain(edits::to_touch(s.text, last.m.span)) {
            let title = format!("touch instead of stepping on count {}", last.m.at);
            draft.offer_at(place(last), if near { 11 } else { 20 }, title, edits);
        }
    }
}

/// Whether a run is a plain repetition or part of the dance.
pub(super) fn main_run(s: &Subject<'_>, run: &Run) -> bool {
    s.dance().parts.get(run.part).is_some_and(|p| p.kind == PartKind::Main)
}
