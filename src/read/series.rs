//! Hips that go one way and the other, so many times: "hip bumps x4", "bump hips R L R L", "two bumps to the left".
//! By itself the name is a figure of its own rhythm; where the words count the movements, each has one count. So has each
//! touch of switches, "heel switches R L R", with the closing of its foot behind it.

use std::borrow::Cow;

use super::around::{Around, side};
use super::figure_words::named;
use super::meaning::Named;
use crate::dance::{Action, Effect, Foot, Place, Who};
use crate::figures::{Figure, Lexicon, Step, number_word};
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token};
use crate::time::Ticks;

/// Whether a figure is nothing but hips that are bumped or swayed.
fn swings(figure: &Figure) -> bool {
    figure.steps.iter().all(|s| matches!(s.action, Action::Bump | Action::Sway))
}

/// Whether a figure is a foot that touches and closes, and the other one.
fn switches(figure: &Figure) -> bool {
    let [one, closes, other, again] = &*figure.steps else { return false };
    let close = |s: &Step| s.place == Place::Close && s.effect == Effect::Takes && s.at.within() != 0;
    close(closes) && close(again) && one.effect != Effect::Takes && other.effect != Effect::Takes
}

/// A row of such movements as a figure; `lead` where the words name the side of them all.
fn danced(id: u16, figure: &'static Figure, lead: Option<Foot>, row: Vec<Step>) -> Named {
    let counts = crate::figures::counts(&row);
    Named { lead, steps: Cow::Owned(row), counts, ..named(id, figure, Around::default()) }
}

/// "Four hip bumps", "two bumps to the left": so many instead of so many times the figure.
pub(super) fn several(n: u32, one: &Named, lexicon: &'static Lexicon) -> Option<Named> {
    let figure = &lexicon.figures[usize::from(one.figure)];
    if !swings(figure) {
        return None;
    }
    // "Four hip bumps R L R L" tells them one by one.
    if matches!(&one.steps, Cow::Owned(row) if u32::try_from(row.len()) == Ok(n)) {
        return Some(one.clone());
    }
    Some(danced(one.figure, figure, one.lead, row(figure, &sides(n, one.lead))))
}

/// The movements that are counted behind a name which ends before `j`, each with where the words about them end.
pub(super) fn told(
    text: &str,
    t: &[Token],
    j: usize,
    limit: usize,
    id: u16,
    lead: Option<Foot>,
    lexicon: &'static Lexicon,
) -> Vec<(usize, Named)> {
    let figure = &lexicon.figures[usize::from(id)];
    let closes = switches(figure);
    if !closes && !swings(figure) {
        return Vec::new();
    }
    let from = j + usize::from(t.get(j).is_some_and(|t| matches!(t.kind, Kind::Sign(':' | ',' | '-'))));
    let found = times(t, from).filter(|(_, len)| from + len <= limit);
    if let Some((n, len)) = found.filter(|_| !closes) {
        return vec![(from + len, danced(id, figure, lead, row(figure, &sides(n, lead))))];
    }
    let mut feet = Vec::new();
    let mut end = from;
    while end < limit {
        match t[end].kind {
            Kind::Feet => feet.extend(t[end].span.of(text).chars().filter_map(|c| match c {
                'R' | 'r' => Some(Foot::Right),
                'L' | 'l' => Some(Foot::Left),
                _ => None,
            })),
            Kind::Sign(',' | '/') if !feet.is_empty() && end + 1 < limit && goes_on(&t[end + 1]) => {}
            kind => match side(kind) {
                Some(f) => feet.push(f),
                None => break,
            },
        }
        end += 1;
    }
    if feet.len() < 3 || lead.is_some() {
        return Vec::new();
    }
    let rows = if closes {
        let row = switched(figure, &feet);
        vec![row[..row.len() - 1].to_vec(), row]
    } else {
        vec![row(figure, &feet)]
    };
    rows.into_iter().map(|row| (end, danced(id, figure, Some(Foot::Right), row))).collect()
}

/// A touch of each of these feet on a count, which closes on the half-count behind it.
fn switched(figure: &Figure, feet: &[Foot]) -> Vec<Step> {
    let steps = |(k, foot): (usize, &Foot)| {
        let pair = if k % 2 == 0 { &figure.steps[..2] } else { &figure.steps[2..] };
        let at = Ticks(24 * i32::try_from(k / 2 * 2).unwrap_or(0));
        let foot = *foot;
        pair.iter().map(move |s| {
            let step = if s.who == Who::One(foot) { *s } else { s.mirrored() };
            Step { at: at + s.at, ..step }
        })
    };
    feet.iter().enumerate().flat_map(steps).collect()
}

fn goes_on(t: &Token) -> bool {
    t.kind == Kind::Feet || side(t.kind).is_some()
}

/// "x4", "4 times", "four times".
fn times(t: &[Token], at: usize) -> Option<(u32, usize)> {
    let named = t.get(at + 1).is_some_and(|t| t.is(W::Times));
    let (n, len) = match t.get(at)?.kind {
        Kind::Times(n) => (n, 1),
        Kind::Number(n) if named => (n, 2),
        Kind::W(w) if named => (number_word(w)?, 2),
        _ => return None,
    };
    (2..=16).contains(&n).then_some((n, len))
}

/// So many movements to the side that is said, else to either side in turn; as the right foot leads them.
fn sides(n: u32, lead: Option<Foot>) -> Vec<Foot> {
    (0..n).map(|k| if k % 2 == 0 || lead.is_some() { Foot::Right } else { Foot::Left }).collect()
}

/// One movement a count, to these sides; the last one takes the weight, where any does.
fn row(figure: &Figure, sides: &[Foot]) -> Vec<Step> {
    let last = sides.len().saturating_sub(1);
    let step = |(k, side): (usize, &Foot)| {
        let ends = |s: &&Step| (s.effect == Effect::Takes) == (k == last);
        let pattern = figure.steps.iter().find(ends).or(figure.steps.first())?;
        // What is written for the right side stands mirrored for the left one.
        let own = match pattern.who {
            Who::One(f) => f,
            _ if pattern.place == pattern.place.mirrored() => *side,
            _ if pattern.place == Place::Left => Foot::Left,
            _ => Foot::Right,
        };
        let step = if own == *side { *pattern } else { pattern.mirrored() };
        Some(Step { at: Ticks(24 * i32::try_from(k + 1).ok()?), ..step })
    };
    sides.iter().enumerate().filter_map(step).collect()
}
