//! A dance laid out for measuring: its moves on one line of time, and the bare pattern of its whole counts.
//!
//! The pattern leaves out feet, turns and half-counts on purpose. What is measured on it is the same for a
//! dance and its mirror image, and stays as it is when a turn or a half-count step is added, so that no such
//! addition can make a dance look easier to remember.

use std::collections::BTreeMap;

use crate::dance::{Action, Dance, Effect, Foot, Move, PartKind, Place, Who};
use crate::motion::Motion;
use crate::order::Ordered as _;
use crate::time::{Metre, Ticks};

/// Counts of one section that are looked at. No section of a dance is nearly as long.
pub(super) const LONGEST_SECTION: u32 = 4096;

/// A move on the line of time.
#[derive(Debug, Clone, Copy)]
pub(super) struct Event<'a> {
    /// Ticks from the first count; negative for a half-count before it.
    pub(super) tick: i32,
    /// The count it belongs to, from 0; a half-count before the first count of a section belongs to that.
    pub(super) count: u32,
    /// The move.
    pub(super) what: &'a Move,
}

impl Event<'_> {
    /// Whether it is on a whole count.
    pub(super) fn on_count(&self) -> bool {
        self.what.at.within() == 0
    }

    /// Whether it puts weight anywhere.
    pub(super) fn changes_weight(&self) -> bool {
        matches!(self.what.effect, Effect::Takes | Effect::Shares)
    }

    /// Whether anything is done at all.
    pub(super) fn acts(&self) -> bool {
        self.what.action != Action::Hold
    }
}

/// One section on the line of time.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stretch {
    /// Counts before it.
    pub(super) before: u32,
    /// Its counts.
    pub(super) counts: u32,
}

/// Two counts (in a waltz three) as one thing to remember.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pattern {
    /// Same number, same steps on either foot.
    pub(super) kind: u32,
    /// The foot that acts first in it.
    pub(super) lead: Option<Foot>,
}

/// A dance laid out for measuring.
#[derive(Debug)]
pub(super) struct Track<'a> {
    pub(super) dance: &'a Dance,
    pub(super) motion: &'a Motion,
    /// Beats a minute.
    pub(super) tempo: f64,
    /// Whether the sheet or the caller gave the tempo.
    pub(super) tempo_given: bool,
    /// Counts of one repetition.
    pub(super) counts: u32,
    pub(super) metre: Metre,
    pub(super) sections: Vec<Stretch>,
    /// Moves of one repetition in order of time.
    pub(super) events: Vec<Event<'a>>,
    /// Moves of each tag and ending, on a line of time of their own.
    pub(super) extras: Vec<Vec<Event<'a>>>,
    /// What is done on each whole count, as a number.
    pub(super) skeleton: Vec<u32>,
    /// The skeleton in pieces of two counts, in a waltz of three.
    pub(super) patterns: Vec<Pattern>,
}

impl<'a> Track<'a> {
    pub(super) fn new(dance: &'a Dance, motion: &'a Motion, tempo: f64, tempo_given: bool) -> Self {
        let metre = dance.head.metre;
        let (mut events, mut sections, mut counts) = (Vec::new(), Vec::new(), 0_u32);
        for section in dance.main_sections() {
            let own = section.counts.min(LONGEST_SECTION);
            lay(&mut events, &section.moves, counts, own);
            sections.push(Stretch { before: counts, counts: own });
            counts = counts.saturating_add(own);
        }
        events.in_order_by_key(|e| e.tick);
        let extra = |part: &'a crate::dance::Part| {
            let (mut events, mut counts) = (Vec::new(), 0_u32);
            for section in &part.sections {
                lay(&mut events, &section.moves, counts, section.counts);
                counts = counts.saturating_add(section.counts.min(LONGEST_SECTION));
            }
            events.in_order_by_key(|e| e.tick);
            events
        };
        let extras = dance.parts.iter().filter(|p| p.kind != PartKind::Main).map(extra).collect();
        let skeleton = skeleton(&events, counts);
        let patterns = patterns(&events, &sections, &skeleton, metre);
        Self {
            dance,
            motion,
            tempo,
            tempo_given,
            counts,
            metre,
            sections,
            events,
            extras,
            skeleton,
            patterns,
        }
    }

    /// Counts a second.
    pub(super) fn counts_a_second(&self) -> f64 {
        self.tempo / 60.0
    }

    /// Every count on which an event of some kind happens, as often as it happens.
    pub(super) fn places(&self, is: impl Fn(&Event<'a>) -> bool) -> Vec<(u32, f64)> {
        self.events.iter().filter(|e| is(e)).map(|e| (e.count, 1.0)).collect()
    }

    /// The greatest sum of what events weigh within so many ticks, anywhere in the dance (also where one
    /// repetition meets the next), in a tag or in an ending; and the counts of one repetition where it is.
    pub(super) fn peak(&self, window: i32, weigh: impl Fn(&Event<'a>) -> f64) -> (f64, Vec<(u32, f64)>) {
        let length = i32::try_from(self.counts).unwrap_or(i32::MAX / 64) * 24;
        let (mut best, mut places) = (0.0, Vec::new());
        for (index, first) in self.events.iter().enumerate() {
            let mut sum = 0.0;
            let end = first.tick + window;
            let again = self.events.iter().map(|e| (e.tick + length, e));
            let all = self.events[index..].iter().map(|e| (e.tick, e)).chain(again);
            let inside = all.take_while(|(tick, _)| *tick < end).map(|(_, e)| e);
            let mut here = Vec::new();
            for event in inside.take(self.events.len()) {
                let weight = weigh(event);
                if weight > 0.0 {
                    sum += weight;
                    here.push((event.count, weight));
                }
            }
            if sum > best {
                (best, places) = (sum, here);
            }
        }
        for events in &self.extras {
            for (index, first) in events.iter().enumerate() {
                let inside = events[index..].iter().take_while(|e| e.tick < first.tick + window);
                let sum = inside.map(&weigh).sum();
                if sum > best {
                    (best, places) = (sum, Vec::new());
                }
            }
        }
        (best, places)
    }
}

fn lay<'a>(events: &mut Vec<Event<'a>>, moves: &'a [Move], before: u32, counts: u32) {
    let shift = i32::try_from(before).unwrap_or(i32::MAX / 64) * 24 - 24;
    for what in moves {
        let own = u32::try_from(what.at.count().max(1) - 1).unwrap_or(0).min(counts.saturating_sub(1));
        events.push(Event { tick: what.at.0.saturating_add(shift), count: before + own, what });
    }
}

/// A place without regard to sides; most are named from the moving foot anyway.
fn sideless(place: Place) -> Place {
    match place {
        Place::Left => Place::Right,
        Place::HeelsLeft => Place::HeelsRight,
        Place::ToesLeft => Place::ToesRight,
        other => other,
    }
}

/// What is done on each whole count by any foot, as numbers in order of appearance. Nothing done is 0.
fn skeleton(events: &[Event], counts: u32) -> Vec<u32> {
    let mut done: Vec<Vec<(u8, u8)>> = vec![Vec::new(); counts as usize];
    for event in events.iter().filter(|e| e.on_count() && e.what.who != Who::Nobody && e.acts()) {
        if let Some(here) = done.get_mut(event.count as usize) {
            here.push((event.what.action as u8, sideless(event.what.place) as u8));
        }
    }
    let mut known = BTreeMap::from([(Vec::new(), 0)]);
    let mut number = |mut here: Vec<(u8, u8)>| {
        here.in_order();
        let next = u32::try_from(known.len()).unwrap_or(u32::MAX);
        *known.entry(here).or_insert(next)
    };
    done.into_iter().map(&mut number).collect()
}

fn patterns(events: &[Event], sections: &[Stretch], skeleton: &[u32], metre: Metre) -> Vec<Pattern> {
    let size = match metre {
        Metre::Four => 2,
        Metre::Three => 3,
    };
    // The first foot on each whole count.
    let mut leads: Vec<Option<Foot>> = vec![None; skeleton.len()];
    for event in events.iter().filter(|e| e.on_count()) {
        if let (Who::One(foot), Some(lead)) = (event.what.who, leads.get_mut(event.count as usize)) {
            lead.get_or_insert(foot);
        }
    }
    let mut known: BTreeMap<&[u32], u32> = BTreeMap::new();
    let mut found = Vec::new();
    for section in sections {
        let (from, to) = (section.before as usize, (section.before + section.counts) as usize);
        let (counts, leads) = (&skeleton[from..to], &leads[from..to]);
        for (counts, leads) in counts.chunks(size).zip(leads.chunks(size)) {
            let next = u32::try_from(known.len()).unwrap_or(u32::MAX);
            let kind = *known.entry(counts).or_insert(next);
            found.push(Pattern { kind, lead: leads.iter().flatten().next().copied() });
        }
    }
    found
}

/// Whole counts of a section on which nothing is written and over which nothing lasts, from 0.
pub(super) fn silent_counts(moves: &[Move], counts: u32) -> Vec<u32> {
    let counts = counts.min(LONGEST_SECTION);
    let mut covered = vec![false; counts as usize];
    for m in moves {
        let end = Ticks(m.at.0.saturating_add(m.lasts.0.max(1)).saturating_sub(1));
        let (from, to) = (m.at.count().max(1) - 1, end.count());
        let range = usize::try_from(from).unwrap_or(0)..usize::try_from(to).unwrap_or(0);
        covered.iter_mut().take(range.end).skip(range.start).for_each(|c| *c = true);
    }
    (0..counts).zip(covered).filter(|(_, covered)| !covered).map(|(count, _)| count).collect()
}
