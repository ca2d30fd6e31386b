//! What the teacher says and when: in full at first, less each time, warnings a section ahead.

use std::collections::BTreeMap;

use super::say;
use super::timeline::{Song, Stretch, What, ticks};
use super::walk::{Danced, danced, eights};
use super::words;
use crate::dance::{Action, Dance, FigureUse, Move, Who};
use crate::floor::Turn;
use crate::order::Ordered as _;
use crate::time::Ticks;

/// What a call is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CallKind {
    /// A restart, a tag or the ending is near.
    Warning,
    /// A figure, or the first step of several.
    Figure,
    /// One step of a figure.
    Step,
    /// A count, said on its beat.
    Count,
}

/// Words and when they are said.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Call {
    /// When they begin, in ticks of the music.
    pub start: Ticks,
    /// When they are over.
    pub end: Ticks,
    /// The step that they are for; a count lands as it is said.
    pub lands: Ticks,
    /// The words.
    pub words: String,
    /// What they are about.
    pub kind: CallKind,
    /// Index into [`Song::stretches`]; `None` for the counts before the first step.
    pub stretch: Option<usize>,
    /// The section of the part that the step is in, from 1.
    pub section: usize,
}

/// Silence between a call and its step: a sixth of a count.
const BEFORE: i32 = 4;

/// Counts before its step at which a call may begin.
const LONGEST: i32 = 4;

/// Words that should be said.
struct Wish {
    lands: i32,
    /// The latest end.
    end: i32,
    /// The same in full and shorter.
    forms: Vec<String>,
    /// The first of them that is worth more than the words of a step before it.
    least: usize,
    kind: CallKind,
    stretch: Option<usize>,
    section: usize,
}

/// All calls of a song, in order of time. No two overlap; those of a figure or a step end before it falls.
#[must_use]
pub fn calls(dance: &Dance, song: &Song) -> Vec<Call> {
    let mut wishes = count_in(song);
    let mut danced_before: BTreeMap<usize, u32> = BTreeMap::new();
    for (index, stretch) in song.stretches.iter().enumerate() {
        let times = danced_before.entry(stretch.part).or_default();
        if stretch.from == 0 {
            *times += 1;
        }
        stretch_wishes(dance, song, index, *times, &mut wishes);
        warnings(dance, song, index, &mut wishes);
    }
    place(song, wishes)
}

/// The last counts before the first step.
fn count_in(song: &Song) -> Vec<Wish> {
    let section = song.metre.section();
    let counted = song.metre.beats().min(song.intro);
    let wish = |back: u32| {
        let lands = ticks(song.intro - back).0;
        let word = words::number(section - back + 1);
        Wish {
            lands,
            end: lands,
            forms: vec![word],
            least: 0,
            kind: CallKind::Count,
            stretch: None,
            section: 0,
        }
    };
    (1..=counted).rev().map(wish).collect()
}

/// Some moves that are called together.
struct Group<'a> {
    figure: Option<&'a FigureUse>,
    moves: Vec<Danced<'a>>,
}

/// Moves by figure; what belongs to none stands alone, all of one moment together.
fn groups<'a>(moves: &[Danced<'a>]) -> Vec<Group<'a>> {
    let mut out: Vec<Group<'a>> = Vec::new();
    for d in moves {
        let figure = d.step.figure.and_then(|i| d.eight.section.figures.get(usize::from(i)));
        let joins = out.last().is_some_and(|g| {
            let same = |a: &FigureUse, b: &FigureUse| core::ptr::eq(a, b);
            match (g.figure, figure) {
                (Some(a), Some(b)) => same(a, b),
                (None, None) => g.moves.first().is_some_and(|first| first.at == d.at),
                // A clap on the last step of a figure goes with it.
                (Some(_), None) => g.moves.last().is_some_and(|last| last.at == d.at),
                (None, Some(_)) => false,
            }
        });
        match out.last_mut() {
            Some(group) if joins => group.moves.push(*d),
            _ => out.push(Group { figure, moves: vec![*d] }),
        }
    }
    out
}

/// The move of a moment that is worth a word: feet before hands, both before a hold.
fn chief<'a>(moves: &[Danced<'a>]) -> Option<&'a Move> {
    let rank = |m: &Move| match (m.who, m.action) {
        (_, Action::Hold) => 2,
        (Who::Nobody, _) => 1,
        _ => 0,
    };
    moves.iter().map(|d| d.step).min_by_key(|m| rank(m))
}

fn stretch_wishes(dance: &Dance, song: &Song, index: usize, times: u32, wishes: &mut Vec<Wish>) {
    let stretch = &song.stretches[index];
    let moves = danced(dance, stretch.part, stretch.from, stretch.to, stretch.restart);
    // From a tick of the part to one of the music.
    let shift = ticks(stretch.start).0 - ticks(stretch.from).0;
    let mut section = 0;
    let mut first = true;
    for group in groups(&moves) {
        let Some(lead) = group.moves.first() else { continue };
        let opens = lead.eight.number != section;
        section = lead.eight.number;
        let lands = lead.at.0 + shift;
        let (mut forms, mut least) = if let Some(figure) = group.figure {
            words::figure(figure, Some(lead.step))
        } else {
            let forms = loose(&group, times);
            let least = forms.len().saturating_sub(1);
            (forms, least)
        };
        let turns = group.moves.iter().any(|d| d.step.turn != Turn::NONE);
        let said = match times {
            1 => true,
            2 => group.figure.is_some() || opens || lead.at.within() == 0,
            _ => opens || first || turns,
        };
        if first {
            (forms, least) = opening(song, index, &forms, least);
        } else if times > 2 && least > 0 {
            // The class knows the dance by now.
            forms.remove(0);
            least = least.saturating_sub(1);
        }
        first = false;
        let kind = if group.figure.is_some() || opens { CallKind::Figure } else { CallKind::Step };
        if said {
            let end = lands - BEFORE;
            wishes.push(Wish { lands, end, forms, least, kind, stretch: Some(index), section });
        }
        if times == 1 {
            rest(&group, shift, index, wishes);
        }
    }
    if times == 1 {
        counts(stretch, index, &moves, wishes);
    }
}

/// Words for steps that belong to no figure.
fn loose(group: &Group<'_>, times: u32) -> Vec<String> {
    let Some(m) = chief(&group.moves) else { return Vec::new() };
    let mut forms = vec![words::step(m)];
    if times == 1 {
        forms.insert(0, words::step_with_foot(m));
    }
    forms.dedup();
    forms
}

/// The words for the steps of a figure after its first.
fn rest(group: &Group<'_>, shift: i32, stretch: usize, wishes: &mut Vec<Wish>) {
    let Some(figure) = group.figure else { return };
    let own: Vec<Danced<'_>> = group.moves.iter().filter(|d| d.step.figure.is_some()).copied().collect();
    let steps: Vec<&Move> = own.iter().map(|d| d.step).collect();
    let said = words::steps(figure, &steps);
    let mut last = own.first().map(|d| d.at);
    for (i, d) in own.iter().enumerate().skip(1) {
        if last == Some(d.at) {
            continue;
        }
        last = Some(d.at);
        let word = said.as_ref().map_or_else(|| words::step(d.step), |said| said[i].clone());
        let lands = d.at.0 + shift;
        let section = d.eight.number;
        let end = lands - BEFORE;
        wishes.push(Wish {
            lands,
            end,
            forms: vec![word],
            least: 0,
            kind: CallKind::Step,
            stretch: Some(stretch),
            section,
        });
    }
}

/// What a stretch begins with: that it is a restart or a tag, and which wall it is.
fn opening(song: &Song, index: usize, forms: &[String], least: usize) -> (Vec<String>, usize) {
    let stretch = &song.stretches[index];
    let before = index.checked_sub(1).and_then(|i| song.stretches.get(i));
    let what = match stretch.what {
        What::Tag => "tag",
        What::Ending => "ending",
        What::Dance if before.is_some_and(|b| b.restart.is_some()) => "restart",
        What::Dance => "",
    };
    let begins = stretch.what == What::Dance && stretch.from == 0;
    let new_wall = begins && stretch.facing != facing_before(song, index);
    let wall = if new_wall { words::wall(stretch.facing) } else { String::new() };
    if what.is_empty() && wall.is_empty() {
        return (forms.to_vec(), least);
    }
    let join = |pieces: &[&str]| {
        let said: Vec<&str> = pieces.iter().filter(|p| !p.is_empty()).copied().collect();
        said.join(", ")
    };
    let all = forms.first().map_or("", String::as_str);
    let some = forms.get(least).map_or("", String::as_str);
    let mut out = vec![join(&[what, &wall, all]), join(&[what, &wall, some])];
    if !what.is_empty() {
        out.push(join(&[what, some]));
    }
    out.dedup();
    let least = out.len() - 1;
    out.push(if what.is_empty() { some.to_owned() } else { what.to_owned() });
    out.dedup();
    (out, least)
}

/// Which wall was begun on before.
fn facing_before(song: &Song, index: usize) -> crate::floor::Heading {
    let earlier = song.stretches[..index].iter().rev().find(|s| s.what == What::Dance && s.from == 0);
    earlier.map_or(crate::floor::Heading::FRONT, |s| s.facing)
}

/// Counts on which nothing is written, and those for which no word was found room.
fn counts(stretch: &Stretch, index: usize, moves: &[Danced<'_>], wishes: &mut Vec<Wish>) {
    for count in stretch.from..stretch.to {
        let at = ticks(count);
        let nothing = !moves.iter().any(|d| d.at.count() == at.count());
        let eight = moves.iter().rev().find(|d| d.eight.before <= count).map(|d| d.eight);
        let (number, before) = eight.map_or((1, 0), |e| (e.number, e.before));
        let lands = ticks(stretch.start + count - stretch.from).0;
        // A caller counts in eights, however long a section is.
        let word = words::number((count - before) % 8 + 1);
        let held = moves.iter().any(|d| d.at <= at && d.at + d.step.lasts > at + Ticks::COUNT && d.at < at);
        if nothing && !(held && count == stretch.from) {
            wishes.push(Wish {
                lands,
                end: lands,
                forms: vec![word],
                least: 0,
                kind: CallKind::Count,
                stretch: Some(index),
                section: number,
            });
        }
    }
}

/// Says a section ahead that a restart, a tag or the ending comes.
fn warnings(dance: &Dance, song: &Song, index: usize, wishes: &mut Vec<Wish>) {
    let stretch = &song.stretches[index];
    let next = song.stretches.get(index + 1);
    let what = match next.map(|n| n.what) {
        _ if stretch.cut => return,
        Some(What::Dance) if stretch.restart.is_some() => "restart",
        Some(What::Tag) if stretch.what == What::Dance => "the tag",
        Some(What::Ending) if stretch.what != What::Ending => "the ending",
        _ => return,
    };
    let Some(last) = eights(dance, stretch.part, stretch.to, stretch.restart).last().copied() else { return };
    let begins = last.before.max(stretch.from);
    let left = words::number(stretch.to - begins);
    let lands = ticks(stretch.start + begins - stretch.from).0;
    let forms = vec![format!("{left} more, then {what}"), format!("{left}, then {what}"), what.to_owned()];
    // Two counts are left for what is called there anyway.
    let end = lands - 2 * Ticks::COUNT.0;
    let end = if end < 2 * Ticks::COUNT.0 { lands - BEFORE } else { end };
    wishes.push(Wish {
        lands,
        end,
        forms,
        least: 0,
        kind: CallKind::Warning,
        stretch: Some(index),
        section: last.number,
    });
}

/// Gives each wish its words: first what must be said, then the steps, then figures in full where there is
/// still room, and counts last.
fn place(song: &Song, mut wishes: Vec<Wish>) -> Vec<Call> {
    wishes.in_order_by_key(|w| (w.kind, w.lands));
    let mut taken: BTreeMap<i32, Call> = BTreeMap::new();
    // Where each wish was placed, and with which of its forms.
    let mut placed: Vec<Option<(i32, usize)>> = Vec::new();
    for wish in wishes.iter().filter(|w| w.kind != CallKind::Count) {
        placed.push(put(song, wish, wish.least..wish.forms.len(), &mut taken));
    }
    for (wish, placed) in wishes.iter().zip(&placed) {
        let Some((start, form)) = *placed else {
            put(song, wish, 0..wish.least, &mut taken);
            continue;
        };
        let Some(call) = taken.remove(&start) else { continue };
        if put(song, wish, 0..form, &mut taken).is_none() {
            taken.insert(start, call);
        }
    }
    for wish in wishes.iter().filter(|w| w.kind == CallKind::Count) {
        put(song, wish, 0..1, &mut taken);
    }
    taken.into_values().collect()
}

/// Puts the first of some forms for which there is room in its place.
fn put(
    song: &Song,
    wish: &Wish,
    forms: core::ops::Range<usize>,
    taken: &mut BTreeMap<i32, Call>,
) -> Option<(i32, usize)> {
    for form in forms {
        let words = wish.forms.get(form).filter(|words| !words.is_empty())?;
        let length = song.tempo.lasting(Ticks(wish.lands), say::length(words)).0;
        let (start, end) = match wish.kind {
            CallKind::Count => (wish.lands, wish.lands.saturating_add(length.min(Ticks::COUNT.0 - 1))),
            _ => (wish.end.saturating_sub(length), wish.end),
        };
        let before = taken.range(..end).next_back();
        let free = start >= 0 && before.is_none_or(|(_, call)| call.end.0 <= start);
        // What is said long before its step is no help.
        let near = wish.lands - start <= LONGEST * Ticks::COUNT.0 || wish.kind == CallKind::Warning;
        if free && near {
            let call = Call {
                start: Ticks(start),
                end: Ticks(end),
                lands: Ticks(wish.lands),
                words: words.clone(),
                kind: wish.kind,
                stretch: wish.stretch,
                section: wish.section,
            };
            taken.insert(start, call);
            return Some((start, form));
        }
    }
    None
}
