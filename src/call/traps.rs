//! Joins and traps of a dance, as far as they show on paper.

use super::plan::same_move;
use crate::dance::{Action, Effect, Foot, Move, Place, Section, Who};
use crate::order::Ordered as _;
use crate::time::Ticks;

/// The way from one section into the next.
pub(super) struct Join {
    pub from: String,
    pub to: String,
    pub why: Vec<String>,
    hard: u32,
}

/// The last move of feet, and the first.
fn feet(section: &Section) -> impl DoubleEndedIterator<Item = &Move> {
    section.moves.iter().filter(|m| matches!(m.who, Who::One(_)) && m.effect != Effect::None)
}

/// All joins, the one back to the beginning too, the hardest first.
pub(super) fn joins(sections: &[(String, &Section)]) -> Vec<Join> {
    let mut out = Vec::new();
    for (i, (from, a)) in sections.iter().enumerate() {
        let Some((to, b)) = sections.get((i + 1) % sections.len()) else { continue };
        let (Some(last), Some(first)) = (feet(a).next_back(), feet(b).next()) else { continue };
        let mut why = Vec::new();
        let mut hard = 0;
        let mut add = |points: u32, words: String| {
            hard += points;
            why.push(words);
        };
        if let (Who::One(foot), Effect::Free, Effect::Takes) = (last.who, last.effect, first.effect)
            && first.who == last.who
        {
            add(
                3,
                format!(
                    "the {} foot has done a {} without weight and now steps",
                    foot.word(),
                    last.action.word()
                ),
            );
        }
        if last.turn.0 != 0 {
            add(2, "out of a turn".to_owned());
        }
        if first.turn.0 != 0 {
            add(3, "straight into a turn".to_owned());
        }
        if last.at.within() != 0 || first.at.within() != 0 {
            add(2, "over a half-count".to_owned());
        }
        if against(last.place, first.place) {
            add(1, "the way goes back on itself".to_owned());
        }
        if last.effect == Effect::Takes && last.lasts > Ticks::COUNT && last.action != Action::Hold {
            add(1, "after a wait".to_owned());
        }
        let to = if i + 1 == sections.len() { format!("{to} on the next wall") } else { to.clone() };
        out.push(Join { from: from.clone(), to, why, hard });
    }
    out.in_order_by_key(|join| core::cmp::Reverse(join.hard));
    out
}

fn against(a: Place, b: Place) -> bool {
    matches!((a, b), (Place::Forward, Place::Back) | (Place::Back, Place::Forward))
}

/// Where a foot touches or kicks without weight and the same foot steps next: count, foot, what it does.
pub(super) fn touches(section: &Section) -> Vec<(Ticks, Foot, &'static str)> {
    let moves: Vec<&Move> = feet(section).collect();
    let mut out = Vec::new();
    for pair in moves.windows(2) {
        let close = matches!(pair[0].place, Place::Close | Place::InPlace | Place::Home | Place::In);
        // A touch beside the other foot looks like a step; a kick does not.
        let like_a_step =
            matches!(pair[0].action, Action::Touch | Action::Toe | Action::Heel | Action::Stomp);
        if let Who::One(foot) = pair[0].who
            && pair[0].who == pair[1].who
            && pair[0].effect == Effect::Free
            && pair[1].effect == Effect::Takes
            && close
            && like_a_step
        {
            out.push((pair[0].at, foot, pair[0].action.word()));
        }
    }
    if let Some(last) = moves.last()
        && let Who::One(foot) = last.who
        && last.effect == Effect::Free
        && matches!(last.action, Action::Touch | Action::Toe | Action::Heel | Action::Stomp)
        && matches!(last.place, Place::Close | Place::InPlace | Place::Home | Place::In)
    {
        out.push((last.at, foot, last.action.word()));
    }
    out
}

/// Pairs of sections that begin alike for half of their counts or more and end otherwise: their labels, counts
/// alike, and the count on which they part.
pub(super) fn alike<'a>(sections: &'a [(String, &Section)]) -> Vec<(&'a str, &'a str, i32, Ticks)> {
    let mut out = Vec::new();
    for (i, (a, x)) in sections.iter().enumerate() {
        for (b, y) in sections.iter().skip(i + 1) {
            let both = x.moves.iter().zip(&y.moves);
            let shared = both.clone().take_while(|(m, n)| same_move(m, n, false)).count();
            if shared == x.moves.len() && shared == y.moves.len() {
                continue;
            }
            let ends = [x, y].map(|s| s.moves.get(shared).map(|m| m.at));
            let Some(at) = ends.into_iter().flatten().min() else { continue };
            let counts = at.count() - 1;
            let half = i32::try_from(x.counts.min(y.counts) / 2).unwrap_or(i32::MAX);
            if shared > 0 && counts >= half.max(2) {
                out.push((a.as_str(), b.as_str(), counts, at));
            }
        }
    }
    out
}
