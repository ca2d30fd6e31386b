//! What one sentence tells, and how sentences about the same thing go together.

use super::events::{Event, Steps};
use super::onward::Onward;
use super::{Item, Place, Topic};
use crate::floor::Heading;
use crate::sheet::structure::{Kind, Token, W};
use crate::text::Span;

/// What is told so far of one tag or restart, or in one sentence.
#[derive(Debug, Clone, Default)]
pub(super) struct Unit {
    pub topic: Option<Topic>,
    pub tag: bool,
    pub restart: bool,
    no: bool,
    again: bool,
    same: bool,
    weight: bool,
    extra: bool,
    /// The wall with which the dance goes on.
    next: Option<u32>,
    pub walls: Vec<u32>,
    counts: Option<u32>,
    section: Option<u32>,
    left: (u32, u32),
    facings: Vec<(Heading, Span)>,
    length: Option<u32>,
    steps: Vec<Steps>,
    noted: Vec<Token>,
    /// Whether what is noted may be danced otherwise.
    changed: bool,
    then_restart: bool,
    /// Whether it comes when a repetition is over.
    over: bool,
    /// Whether the dance goes on behind its steps.
    onward: bool,
    /// Whether its steps are all told.
    closed: bool,
    /// Whether a tag or extra counts are spoken of.
    named: bool,
    /// Whether the dance begins again, or is broken off.
    restarts: bool,
}

impl Unit {
    fn placed(&self) -> bool {
        self.counts.is_some() || self.section.is_some() || self.left != (0, 0)
    }

    fn turns(&self) -> bool {
        self.steps.iter().any(|s| match s {
            Steps::Words(t) => t.iter().any(|t| {
                matches!(t.kind, Kind::Fraction(_))
                    || matches!(
                        t.kind,
                        Kind::W(
                            W::Turn
                                | W::Pivot
                                | W::Half
                                | W::Quarter
                                | W::Full
                                | W::Unwind
                                | W::Spin
                                | W::Paddle
                                | W::Roll
                        )
                    )
            }),
            Steps::Line(..) => true,
        })
    }

    /// What a sentence by itself speaks of.
    fn settle(&mut self) -> Option<()> {
        let restarts = (self.restart || self.again || self.left != (0, 0)) && !self.no;
        // "At the end of wall 4 put in one more part 1": where a repetition is over, no section is the last one danced.
        if restarts && self.over && self.section.is_some() && !self.restart && self.steps.is_empty() {
            return None;
        }
        self.restarts = restarts;
        self.named = self.tag || self.extra;
        self.closed = !self.steps.is_empty() && (restarts || self.onward);
        // Brackets may hold steps that are changed.
        if restarts && !self.named && self.steps.is_empty() && self.changed {
            return None;
        }
        if !self.steps.is_empty() || self.tag || self.extra {
            // The steps that a restart changes are told in sentences of another kind.
            if self.restart && !self.no && !self.tag && !self.extra {
                return None;
            }
            self.topic = Some(Topic::Tag);
            // "At the end of wall 3 dance 8 counts"
            if self.over && self.named && self.section.is_none() && self.length.is_none() {
                self.length = self.counts.take();
            }
            // "Wall 4, 16 counts, stomp R, stomp L": counts of the dance.
            if !self.over && !self.tag && !self.extra && !self.placed() && !self.walls.is_empty() {
                self.counts = self.length.take();
            }
            self.then_restart = restarts && self.placed() && !self.steps.is_empty();
        } else if restarts {
            self.topic = Some(Topic::Restart);
        }
        Some(())
    }

    pub(super) fn empty(&self) -> bool {
        self.walls.is_empty() && !self.placed() && self.steps.is_empty()
    }

    /// Takes in what a sentence adds; `None` where they contradict each other.
    pub(super) fn join(&mut self, u: Unit) -> Option<()> {
        let facts = !u.walls.is_empty() || u.same || !self.turns();
        if facts && (self.steps.is_empty() || self.facings.is_empty() || u.same || !u.walls.is_empty()) {
            self.facings.extend(u.facings);
        }
        for wall in &u.walls {
            if !self.walls.contains(wall) {
                self.walls.push(*wall);
            }
        }
        if !self.placed() {
            (self.counts, self.section, self.left) = (u.counts, u.section, u.left);
        } else if self.steps.is_empty() {
            if self.section.is_none() {
                self.section = u.section;
            }
            if self.counts.is_none() {
                self.counts = u.counts;
            }
            if u.counts.is_some_and(|n| self.counts != Some(n)) {
                return None;
            }
        }
        self.length = self.length.or(u.length);
        self.next = self.next.or(u.next);
        // "The same 4 sways" names the steps again.
        // Behind the word that the dance goes on, a sentence only talks of its manner.
        let over = self.closed && u.walls.is_empty() && !u.named;
        if !((u.same || over) && !self.steps.is_empty()) {
            self.steps.extend(u.steps);
        }
        if self.noted.is_empty() {
            self.noted = u.noted;
        }
        self.closed |= !self.steps.is_empty() && (u.restarts || u.onward);
        self.topic = self.topic.or(u.topic);
        self.then_restart |= u.then_restart || u.restarts && self.topic == Some(Topic::Tag) && self.placed();
        self.over |= u.over;
        self.named |= u.named;
        self.onward |= u.onward;
        self.weight |= u.weight;
        self.restarts |= u.restarts;
        Some(())
    }

    /// Whether a sentence tells of another tag or restart than the one so far.
    pub(super) fn apart(&self, u: &Unit) -> bool {
        let placed = |u: &Unit| !u.walls.is_empty() && u.placed();
        match (self.topic, u.topic) {
            (_, None) => placed(u) && !u.same && (!self.steps.is_empty() || placed(self)),
            (None, Some(_)) => placed(self) && !u.walls.is_empty() && !(self.same || u.same),
            (Some(a), Some(b)) if a != b => a != Topic::Tag || u.restart || !u.empty(),
            (Some(Topic::Restart), _) => placed(self) && placed(u),
            _ => {
                let whole = |u: &Unit| !u.walls.is_empty() && !u.steps.is_empty();
                whole(self) && whole(u) && !u.same
            }
        }
    }

    /// The tag or the restart, nothing where it is only announced; `open` tells that steps of a tag may stand below.
    pub(super) fn finished(mut self, open: bool) -> Option<Vec<Event>> {
        if self.topic == Some(Topic::Tag) && self.walls.is_empty() {
            self.walls.extend(self.next.filter(|n| *n > 1).map(|n| n - 1));
        }
        // Steps that are told of a wall as those of a tag are not, or that end in a restart, change the dance.
        let bare = !self.named && (!self.over && !self.placed() || self.placed() && self.restarts);
        if self.topic == Some(Topic::Tag) && bare {
            return None;
        }
        let Some(topic) = self.topic else {
            return self.walls.is_empty().then(Vec::new);
        };
        if topic == Topic::Tag && self.steps.is_empty() && !self.noted.is_empty() && !open {
            self.steps.push(Steps::Words(core::mem::take(&mut self.noted)));
        }
        // "Take the weight on L on count 16"
        if topic == Topic::Restart && self.weight {
            return None;
        }
        // "Dance the first three blocks (28 counts)" says it twice.
        if topic == Topic::Restart && self.section.is_some() && self.counts.is_none() {
            self.counts = self.length.filter(|n| *n >= 8);
        }
        if topic == Topic::Restart && !self.placed() {
            self.counts = self.length;
        }
        let whole = match topic {
            Topic::Restart => self.placed(),
            _ => !self.steps.is_empty() || open,
        };
        if self.walls.is_empty() || !whole {
            // "There are a tag and a restart" only announces them.
            return self.empty().then(Vec::new);
        }
        if self.walls.len() == 1 {
            self.facings.dedup_by_key(|f| f.0);
        }
        Some(vec![Event {
            topic,
            walls: self.walls,
            counts: self.counts,
            section: self.section,
            left: self.left,
            facings: self.facings,
            length: self.length.filter(|_| topic == Topic::Tag),
            then_restart: self.then_restart && topic == Topic::Tag,
            steps: named_above(self.steps),
        }])
    }
}

/// Lines that only name the steps that stand below with their counts are left out.
fn named_above(steps: Vec<Steps>) -> Vec<Steps> {
    let line = steps.iter().position(|s| matches!(s, Steps::Line(..)));
    match line {
        Some(at) if at > 0 => steps[at..].to_vec(),
        _ => steps,
    }
}

/// One sentence.
pub(super) fn unit(items: &[Item]) -> Option<Vec<Unit>> {
    let mut all: Vec<Unit> = Vec::new();
    let mut u = Unit::default();
    for (k, item) in items.iter().enumerate() {
        match item {
            Item::Walls(walls, over) => {
                // "Wall 3 after 16 counts and wall 6 after 16 counts"
                let place = |i: &Item| matches!(i, Item::Place(_) | Item::Length(..));
                if !u.walls.is_empty()
                    && (u.placed() || u.length.is_some())
                    && items[k..].iter().any(place)
                    && u.steps.is_empty()
                {
                    let next = Unit { restart: u.restart, again: u.again, tag: u.tag, ..Unit::default() };
                    all.push(core::mem::replace(&mut u, next));
                }
                u.over |= over;
                u.walls.extend(walls.iter().filter(|n| !u.walls.contains(n)).copied().collect::<Vec<_>>());
            }
            Item::Place(place) => {
                // A section behind the steps is the one that comes next.
                if u.steps.is_empty() || !u.placed() {
                    match place {
                        Place::Counts(n) | Place::Count(n) if u.counts.is_none() => u.counts = Some(*n),
                        Place::Counts(n) | Place::Count(n) if u.counts != Some(*n) => return None,
                        Place::Section(n) => u.section = Some(u.section.map_or(*n, |m| m.max(*n))),
                        Place::Left(n) => u.left.0 = *n,
                        Place::SectionsLeft(n) => u.left.1 = *n,
                        _ => {}
                    }
                }
            }
            Item::Face(h, span, begins) => {
                if !begins && !(u.turns()) {
                    u.facings.push((*h, *span));
                }
            }
            Item::Length(n, extra) => {
                u.length = u.length.or(Some(*n));
                u.extra |= *extra;
            }
            Item::Tag => u.tag = true,
            Item::Restart => u.restart = true,
            Item::No => u.no = true,
            Item::Onward(Onward::Again) => u.again = true,
            Item::Onward(Onward::On(wall)) => {
                u.next = u.next.or(*wall);
                u.onward |= !u.steps.is_empty();
            }
            Item::Same => u.same = true,
            Item::Weight => u.weight = true,
            Item::Steps(t, false) => u.steps.push(Steps::Words(t.clone())),
            Item::Steps(t, true) => {
                let foot = |t: &Token| matches!(t.kind, Kind::Feet | Kind::W(W::R | W::L | W::RF | W::LF));
                u.changed |= u.placed() && t.iter().any(foot);
                u.noted.clone_from(t);
            }
            Item::Line(i, joins) => u.steps.push(Steps::Line(*i, *joins)),
            Item::Order(..) | Item::Stop => {}
        }
    }
    all.push(u);
    // "Wall 3 after 16 and wall 6 after 16, then restart": the word belongs to all of them.
    let (restart, again) = (all.iter().any(|u| u.restart), all.iter().any(|u| u.again));
    let many = all.len() > 1;
    for u in &mut all {
        u.restart |= many && restart;
        u.again |= many && again;
        u.settle()?;
    }
    Some(all)
}
