//! Which moves are danced when: the order of a song, or of one repetition.

use crate::dance::{Dance, Move, PartKind, Section};
use crate::floor::Point;
use crate::order::Ordered as _;

/// A section as danced at its place in the song.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Stretch {
    /// The repetition, from 1.
    pub wall: u32,
    /// Index into [`Dance::runs`], where the song's order was played.
    pub run: Option<usize>,
    /// Index into [`Dance::parts`].
    pub part: usize,
    /// Index into the part's sections.
    pub section: usize,
    /// Index into [`Dance::restarts`] whose changed section is danced here.
    pub changed: Option<usize>,
    /// Name of the part.
    pub name: String,
    /// Counts of the song before it.
    pub before: u32,
    /// Counts of the section that are left out at its beginning.
    pub skipped: u32,
    /// Counts danced.
    pub counts: u32,
    /// The body's spot on the floor when it begins: the point under a body whose feet stand together.
    pub spot: Point,
    /// Facing when it begins, in 1/48 of a turn, not brought back to one turn.
    pub facing: i32,
}

impl Stretch {
    /// The section's moves.
    pub fn moves<'d>(&self, dance: &'d Dance) -> &'d [Move] {
        let changed = self.changed.and_then(|r| dance.restarts.get(r)).and_then(|r| r.changed.as_ref());
        let section =
            changed.or_else(|| dance.parts.get(self.part).and_then(|p| p.sections.get(self.section)));
        section.map_or(&[], |s| s.moves.as_slice())
    }
}

/// A move at its tick of the song.
#[derive(Debug, Clone, Copy)]
pub(super) struct Event<'d> {
    pub(super) tick: i32,
    pub(super) stretch: usize,
    pub(super) index: usize,
    pub(super) what: &'d Move,
}

/// The stretches and all their moves in order of time.
#[derive(Debug, Default)]
pub(super) struct Playlist<'d> {
    pub(super) stretches: Vec<Stretch>,
    pub(super) events: Vec<Event<'d>>,
    pub(super) counts: u32,
    /// Whether stretches tell the names of their parts.
    named: bool,
}

/// How much of a dance is danced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Extent {
    /// So many repetitions; a single one leaves tags and restarts out.
    Walls(u32),
    /// All that the dance's runs tell.
    Song,
    /// The same for somebody who asks for spots, not for names.
    Spots,
}

impl<'d> Playlist<'d> {
    pub(super) fn of(dance: &'d Dance, extent: Extent) -> Self {
        let mut list = Self { named: extent != Extent::Spots, ..Self::default() };
        let walls = match extent {
            Extent::Walls(walls) => walls,
            Extent::Song | Extent::Spots => dance.runs.iter().map(|r| r.wall).max().unwrap_or(1),
        };
        let mut danced = 0;
        if walls > 1 || !matches!(extent, Extent::Walls(_)) {
            for (index, run) in dance.runs.iter().enumerate().filter(|(_, r)| r.wall <= walls) {
                danced = danced.max(run.wall);
                let changed =
                    run.restart.filter(|r| dance.restarts.get(*r).is_some_and(|r| r.changed.is_some()));
                list.part(dance, run.part, run.wall, (run.from, run.to), Some(index), changed);
            }
        }
        for wall in danced + 1..=walls {
            for (part, p) in dance.parts.iter().enumerate().filter(|(_, p)| p.kind == PartKind::Main) {
                list.part(dance, part, wall, (0, p.counts()), None, None);
            }
        }
        list.events.in_order_by_key(|e| e.tick);
        list
    }

    /// Adds counts `from` to `to` of a part, the last section replaced where a restart changes it.
    fn part(
        &mut self,
        dance: &'d Dance,
        part: usize,
        wall: u32,
        (from, to): (u32, u32),
        run: Option<usize>,
        changed: Option<usize>,
    ) {
        let Some(p) = dance.parts.get(part) else { return };
        let mut base = 0;
        for (number, section) in p.sections.iter().enumerate() {
            let end = base + section.counts;
            let (first, last) = (from.max(base), to.min(end));
            if first < last {
                let other = changed.filter(|_| to <= end);
                let replaced: Option<&Section> =
                    other.and_then(|r| dance.restarts.get(r)).and_then(|r| r.changed.as_ref());
                let stretch = self.stretches.len();
                self.stretches.push(Stretch {
                    wall,
                    run,
                    part,
                    section: number,
                    changed: other,
                    name: if self.named { p.name.clone() } else { String::new() },
                    before: self.counts,
                    skipped: first - base,
                    counts: last - first,
                    spot: Point::ORIGIN,
                    facing: 0,
                });
                self.moves(replaced.unwrap_or(section), stretch);
                self.counts += last - first;
            }
            base = end;
        }
    }

    fn moves(&mut self, section: &'d Section, stretch: usize) {
        let Some(s) = self.stretches.last() else { return };
        let whole = |n: u32| i32::try_from(n).unwrap_or(i32::MAX / 64);
        let (skipped, counts) = (whole(s.skipped), whole(s.counts));
        let shift = (whole(s.before) - skipped) * 24;
        for (index, what) in section.moves.iter().enumerate() {
            // What comes before count 1 of a section belongs to that count.
            let count = what.at.count().max(1);
            if count > skipped && count <= skipped + counts {
                self.events.push(Event { tick: what.at.0 + shift, stretch, index, what });
            }
        }
    }
}
