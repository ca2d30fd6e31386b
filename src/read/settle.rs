//! What follows for the moves of a section from all of them: lengths, the weight after hip bumps, and the division
//! of a part that its writer did not divide.

use super::Reading;
use super::trouble::Trouble;
use crate::dance::{Action, Effect, Foot, Move, Section, Weight, Who};
use crate::floor::Heading;
use crate::sheet::SectionText;
use crate::text::Span;
use crate::time::{Metre, Ticks};

/// The last of some hip bumps leaves the weight on its side, unless the next step needs that foot.
pub(super) fn settle_bumps(moves: &mut [Move]) {
    for i in 1..moves.len() {
        let same = moves[i].at == moves[i - 1].at && moves[i - 1].effect == Effect::Takes;
        if moves[i].action != Action::Bump || moves[i].effect != Effect::Shares || !same {
            continue;
        }
        // "Step right bumping hips right, bump hips left" goes from foot to foot like sways.
        let other = |m: &Move| m.action == Action::Bump && m.place != moves[i].place;
        let swings =
            moves.get(i + 1).is_some_and(other) && moves.get(i + 2).is_none_or(|m| m.action != Action::Bump);
        if !swings && moves.get(i + 1).is_some_and(|m| m.action == Action::Bump) {
            // "Step to the side bumping hips right, right, left": the weight is between the feet at once.
            moves[i - 1].effect = Effect::Shares;
            moves[i - 1].after = Weight::Both;
            moves[i].before = Weight::Both;
        } else {
            // "Step to the side with the hip" is a step with some style.
            moves[i].effect = Effect::None;
            moves[i].after = moves[i - 1].after;
            moves[i].before = moves[i - 1].after;
        }
    }
    for i in 0..moves.len() {
        if moves[i].action != Action::Bump || moves[i].effect != Effect::Shares {
            continue;
        }
        let side = if moves[i].place == crate::dance::Place::Left { Foot::Left } else { Foot::Right };
        let next = moves.get(i + 1);
        let ends = next.is_none_or(|m| m.action != Action::Bump);
        let needed = next.is_some_and(|m| m.who == Who::One(side));
        if ends && !needed {
            moves[i].who = Who::One(side);
            moves[i].effect = Effect::Takes;
            moves[i].after = Weight::On(side);
            if let Some(m) = moves.get_mut(i + 1) {
                m.before = Weight::On(side);
            }
        }
    }
}

/// Each move lasts until the next moment on which something begins.
pub(super) fn settle_lengths(moves: &mut [Move], counts: u32) {
    let end = Ticks::of_count(i32::try_from(counts).unwrap_or(0) + 1);
    for i in 0..moves.len() {
        let at = moves[i].at;
        let next = moves[i + 1..].iter().map(|m| m.at).find(|t| *t > at).unwrap_or(end);
        moves[i].lasts = Ticks((next - at).0.max(1));
    }
}

/// The last step of "8&1" is danced on the first count of the section behind it, which goes on with 2.
pub(super) fn carried(sections: &mut [Section], texts: &[SectionText], reading: &mut Reading, part: usize) {
    for k in 1..sections.len().min(texts.len()) {
        let (before, rest) = sections.split_at_mut(k);
        let (before, here) = (&mut before[k - 1], &mut rest[0]);
        let over = Ticks::of_count(i32::try_from(before.counts).unwrap_or(0));
        let free = here.moves.first().is_none_or(|m| m.at >= Ticks::of_count(2));
        let from = before.moves.iter().position(|m| m.at >= over).unwrap_or(before.moves.len());
        let moved = before.moves.len() - from;
        if !texts[k].carried || !free || before.counts < 2 || moved == 0 {
            continue;
        }
        before.counts -= 1;
        let shift = over.0 - Ticks::COUNT.0;
        let tail = before.moves.split_off(from);
        here.moves
            .splice(0..0, tail.into_iter().map(|m| Move { at: Ticks(m.at.0 - shift), figure: None, ..m }));
        for s in [before, here] {
            s.weight_end = s.moves.last().map_or(s.weight_end, |m| m.after);
            s.facing_end = s.moves.iter().fold(s.facing_start, |h, m| h.turned(m.turn));
            settle_lengths(&mut s.moves, s.counts);
        }
        let (facing, weight) = (sections[k - 1].facing_end, sections[k - 1].weight_end);
        sections[k].facing_start = facing;
        sections[k].weight_start = weight;
        sections[k].facing_end = sections[k].moves.iter().fold(facing, |h, m| h.turned(m.turn));
        for t in reading.troubles.iter_mut().filter(|t| t.part == part && t.section == k - 1) {
            if let Some(at) = t.at.filter(|at| *at >= over) {
                t.section = k;
                t.at = Some(Ticks(at.0 - shift));
            }
        }
        for l in reading.labels.iter_mut().filter(|l| l.part == part) {
            if l.section == k {
                l.moves = (l.moves.0 + moved, l.moves.1 + moved);
            } else if l.section == k - 1 {
                l.moves = (l.moves.0.min(from), l.moves.1.min(from));
            }
        }
    }
}

/// Divides a part that its writer did not divide: every eight counts, in waltz every six.
pub(super) fn divided(
    text: &str,
    sections: Vec<Section>,
    metre: Metre,
    troubles: &mut [Trouble],
    part: usize,
) -> Vec<Section> {
    let size = i32::try_from(metre.section()).unwrap_or(8);
    let mut out: Vec<Section> = Vec::new();
    let mut before = 0;
    for (index, s) in sections.into_iter().enumerate() {
        let total = i32::try_from(s.counts).unwrap_or(0);
        for t in troubles.iter_mut().filter(|t| t.part == part && t.section == index) {
            let at = t.at.map_or(1, |a| (a.0 + 23).div_euclid(24)) + before;
            t.section = usize::try_from((at - 1).max(0) / size).unwrap_or(0) + (1 << 20);
            t.at = t.at.map(|a| Ticks(a.0 + (before - (at - 1).max(0) / size * size) * 24));
        }
        let starts: Vec<_> = s.moves.iter().map(|m| m.span.start as usize).collect();
        let parted = |i: usize| {
            starts
                .get(i)
                .is_none_or(|to| text.get(starts[i - 1]..*to).is_none_or(|words| words.contains('\n')))
        };
        for (i, m) in s.moves.into_iter().enumerate() {
            let at = m.at.0 + before * 24;
            // A half-count belongs to the count behind it; the last one of a line to the count before it.
            let last = i > 0 && !parted(i) && parted(i + 1);
            let whole = (at + if last { 0 } else { 23 }).div_euclid(24).max(1);
            let k = usize::try_from((whole - 1) / size).unwrap_or(0);
            while out.len() <= k {
                out.push(Section {
                    moves: Vec::new(),
                    figures: Vec::new(),
                    name: String::new(),
                    counts: 0,
                    span: m.span,
                    ..s_like(s_fields(s.facing_start, s.weight_start))
                });
            }
            let shift = i32::try_from(k).unwrap_or(0) * size * 24;
            let figure = m.figure.and_then(|f| {
                let used = s.figures.get(usize::from(f))?.clone();
                let list = &mut out[k].figures;
                let at = list.iter().position(|x| *x == used).unwrap_or_else(|| {
                    list.push(used);
                    list.len() - 1
                });
                u16::try_from(at).ok()
            });
            out[k].span = out[k].span.join(m.span);
            out[k].moves.push(Move { at: Ticks(at - shift), figure, ..m });
        }
        before += total;
    }
    for t in troubles.iter_mut().filter(|t| t.part == part && t.section >= 1 << 20) {
        t.section -= 1 << 20;
    }
    let n = i32::try_from(out.len()).unwrap_or(0);
    let mut state: Option<(Weight, Heading)> = None;
    for (k, s) in out.iter_mut().enumerate() {
        let last = i32::try_from(k).unwrap_or(0) == n - 1;
        s.counts = u32::try_from(if last { before - (n - 1) * size } else { size }).unwrap_or(0);
        let (weight, facing) = state.unwrap_or((s.weight_start, s.facing_start));
        s.weight_start = weight;
        s.facing_start = facing;
        s.weight_end = s.moves.last().map_or(weight, |m| m.after);
        s.facing_end = s.moves.iter().fold(facing, |h, m| h.turned(m.turn));
        state = Some((s.weight_end, s.facing_end));
        let counts = s.counts;
        settle_lengths(&mut s.moves, counts);
    }
    out
}

fn s_fields(facing: Heading, weight: Weight) -> (Heading, Weight) {
    (facing, weight)
}

fn s_like((facing, weight): (Heading, Weight)) -> Section {
    Section {
        name: String::new(),
        counts: 0,
        moves: Vec::new(),
        figures: Vec::new(),
        span: Span::default(),
        facing_start: facing,
        facing_end: facing,
        weight_start: weight,
        weight_end: weight,
    }
}
