//! The whole song: what is danced when, on which wall, until the music ends.

use super::walk::{danced, outcome};
use super::{CallOptions, Length};
use crate::call::tempo::{Moment, Tempo};
use crate::dance::{Dance, EndingUse, Part, PartKind, Run, Weight};
use crate::difficulty::default_tempo;
use crate::floor::Heading;
use crate::time::{Metre, Ticks};

/// Repetitions that a song holds at most.
const MOST: usize = 2000;

/// Counts that a song holds at most: an hour and a half at 200 beats a minute.
pub const LONGEST_SONG: u32 = 20_000;

/// Where a number comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// The caller said it.
    Caller,
    /// The sheet says it.
    Sheet,
    /// Nobody says it; a usual value stands in.
    Usual,
}

/// What a stretch of the song is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum What {
    /// The dance, or some of it.
    Dance,
    /// A tag or bridge.
    Tag,
    /// The last steps of all.
    Ending,
}

/// One stretch of the song.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Stretch {
    /// What it is.
    pub what: What,
    /// The repetition, from 1.
    pub wall: u32,
    /// Index into [`Dance::parts`].
    pub part: usize,
    /// First count of the part that is danced, from 0.
    pub from: u32,
    /// One past the last count danced.
    pub to: u32,
    /// First count in the music, from 0; the intro has those before it.
    pub start: u32,
    /// The restart that breaks it off, as an index into [`Dance::restarts`].
    pub restart: Option<usize>,
    /// Whether the music ends before its last count.
    pub cut: bool,
    /// Facing when it starts.
    pub facing: Heading,
    /// Facing when it ends.
    pub facing_end: Heading,
    /// Weight when it starts.
    pub weight: Weight,
    /// Weight when it ends.
    pub weight_end: Weight,
}

impl Stretch {
    /// Counts danced.
    #[must_use]
    pub fn counts(&self) -> u32 {
        self.to - self.from
    }

    /// The count of the music just after it.
    #[must_use]
    pub fn end(&self) -> u32 {
        self.start + self.counts()
    }
}

/// The whole song.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Song {
    /// How fast.
    pub tempo: Tempo,
    /// Who says so.
    pub tempo_from: Source,
    /// Counts before the first step.
    pub intro: u32,
    /// Who says so.
    pub intro_from: Source,
    /// Beats in a bar.
    pub metre: Metre,
    /// What is danced, in order.
    pub stretches: Vec<Stretch>,
    /// All counts of the music, where its length is known.
    pub counts: Option<u32>,
    /// The dance is over before the music is, because the sheet gives an order of parts that ends.
    pub danced_out: bool,
}

impl Song {
    /// The count of the music just after the last step.
    #[must_use]
    pub fn end(&self) -> u32 {
        self.stretches.last().map_or(self.intro, Stretch::end)
    }

    /// When a tick of the music falls; tick 0 is its first count.
    #[must_use]
    pub fn moment(&self, at: Ticks) -> Moment {
        self.tempo.moment(at)
    }

    /// When a count of the music falls, from 0.
    #[must_use]
    pub fn moment_of(&self, count: u32) -> Moment {
        self.moment(ticks(count))
    }

    /// Whether the last step faces the front.
    #[must_use]
    pub fn ends_in_front(&self) -> bool {
        self.stretches.last().is_none_or(|last| last.facing_end == Heading::FRONT)
    }
}

/// A count of the music, from 0, in ticks.
pub(super) fn ticks(count: u32) -> Ticks {
    Ticks::of_count(i32::try_from(count).unwrap_or(i32::MAX / 24))
}

/// Lays a dance over its music.
#[must_use]
pub fn song(dance: &Dance, options: &CallOptions) -> Song {
    let (tempo, tempo_from) = match (&options.tempo, dance.head.tempo) {
        (Some(tempo), _) => (tempo.clone(), Source::Caller),
        (None, Some(bpm)) => (Tempo::steady(bpm), Source::Sheet),
        (None, None) => (Tempo::steady(default_tempo(dance.head.metre)), Source::Usual),
    };
    let (intro, intro_from) = match (options.intro, dance.head.intro) {
        (Some(intro), _) => (intro, Source::Caller),
        (None, Some(intro)) => (intro, Source::Sheet),
        (None, None) => (dance.head.metre.section(), Source::Usual),
    };
    let intro = intro.min(LONGEST_SONG);
    let counts = match options.length {
        Some(Length::Counts(counts)) => Some(counts),
        Some(Length::Time(time)) => u32::try_from(tempo.tick(time).count()).ok(),
        None if options.phrases.is_empty() => None,
        None => Some(options.phrases.iter().fold(intro, |sum, n| sum.saturating_add(*n))),
    };
    let counts = counts.map(|counts| counts.clamp(intro, intro.saturating_add(LONGEST_SONG)));
    let mut song = Song {
        tempo,
        tempo_from,
        intro,
        intro_from,
        metre: dance.head.metre,
        stretches: Vec::new(),
        counts,
        danced_out: false,
    };
    lay(dance, &mut song);
    song
}

/// How many repetitions to show where nobody knows how long the music is: every wall once, and past the last
/// tag and restart.
fn usual_walls(dance: &Dance) -> u32 {
    if !dance.sequence.is_empty() {
        return u32::try_from(dance.sequence.len()).unwrap_or(u32::MAX);
    }
    let said = dance.tags.iter().map(|t| t.wall).chain(dance.restarts.iter().map(|r| r.wall)).max();
    dance.head.walls.clamp(1, 8).max(said.map_or(1, |wall| wall.saturating_add(1)).min(64))
}

fn lay(dance: &Dance, song: &mut Song) {
    // The ending closes the music, so it needs its counts there.
    let room = dance.ending.as_ref().map_or(0, |e| dance.parts.get(e.part).map_or(0, Part::counts));
    let usual = usual_walls(dance);
    let last_wall = match &dance.ending {
        Some(EndingUse { wall: Some(wall), .. }) => (*wall).min(64),
        Some(EndingUse { stated: Some(clock), .. }) => dance
            .runs
            .iter()
            .find(|r| r.wall >= usual && r.from == 0 && r.tag.is_none() && r.facing == *clock)
            .map_or(usual, |r| r.wall),
        // The repetition that the ending breaks off comes behind those that show every wall.
        Some(EndingUse { after_counts: Some(_), .. }) => usual + 1,
        _ => usual,
    };
    let ends = dance.ending.as_ref().and_then(|e| e.wall).unwrap_or(u32::MAX);
    let over = |song: &Song, wall: u32| match song.counts {
        Some(counts) => song.end() + room >= counts || wall > ends,
        None => wall > last_wall,
    };
    let mut run = 0;
    let mut repeat: Vec<Run> = Vec::new();
    while song.stretches.len() < MOST && song.end() < LONGEST_SONG * 2 {
        let next = match dance.runs.get(run) {
            Some(next) => next.clone(),
            None if !dance.sequence.is_empty() || dance.runs.is_empty() => {
                song.danced_out = song.counts.is_some_and(|counts| song.end() + room < counts);
                break;
            }
            // Past what the sheet speaks of, the plain dance goes on.
            None => {
                if repeat.is_empty() {
                    let wall = song.stretches.last().map_or(1, |s| s.wall + 1);
                    repeat = plain(dance, wall);
                    if repeat.iter().all(|r| r.from == r.to) {
                        break;
                    }
                }
                repeat.remove(0)
            }
        };
        run += 1;
        if over(song, next.wall) {
            break;
        }
        let breaks = ending_breaks(dance, song, &next, room, last_wall);
        let next = breaks.map_or_else(|| next.clone(), |to| Run { to, restart: None, ..next.clone() });
        let limit = song.counts.map(|counts| counts.saturating_sub(room));
        push(dance, song, &next, limit);
        if breaks.is_some() {
            song.danced_out = song.counts.is_some_and(|counts| song.end() + room < counts);
            break;
        }
    }
    if let Some(ending) = &dance.ending {
        let wall = song.stretches.last().map_or(1, |s| s.wall);
        let next = Run { wall, part: ending.part, from: 0, to: room, ..empty_run() };
        push(dance, song, &next, song.counts);
    }
}

/// The count of a run at which the ending breaks it off, if it is this one.
fn ending_breaks(dance: &Dance, song: &Song, run: &Run, room: u32, last_wall: u32) -> Option<u32> {
    let ending = dance.ending.as_ref().filter(|_| run.tag.is_none())?;
    let at = ending.after_counts.filter(|at| run.from < *at && *at <= run.to)?;
    let last = match (ending.wall, song.counts) {
        (Some(wall), _) => run.wall == wall,
        (None, None) => run.wall == last_wall,
        // The last repetition is the one after which the ending would come too late.
        (None, Some(counts)) => song.end() + (run.to - run.from) + at + room > counts,
    };
    last.then_some(at)
}

fn empty_run() -> Run {
    Run {
        wall: 0,
        part: 0,
        from: 0,
        to: 0,
        restart: None,
        tag: None,
        facing: Heading::FRONT,
        weight: Weight::Both,
        facing_end: Heading::FRONT,
        weight_end: Weight::Both,
    }
}

/// One more repetition without tags and restarts.
fn plain(dance: &Dance, wall: u32) -> Vec<Run> {
    let mains = dance.parts.iter().enumerate().filter(|(_, p)| p.kind == PartKind::Main);
    mains.map(|(part, p)| Run { wall, part, to: p.counts(), ..empty_run() }).collect()
}

/// Puts a stretch at the end, as far as the music goes.
fn push(dance: &Dance, song: &mut Song, run: &Run, limit: Option<u32>) {
    let start = song.end();
    let whole = run.to.saturating_sub(run.from);
    let counts = limit.map_or(whole, |limit| whole.min(limit.saturating_sub(start)));
    if counts == 0 {
        return;
    }
    let before = song.stretches.last();
    let facing = before.map_or(Heading::FRONT, |s| s.facing_end);
    let weight = before.map_or(dance.start, |s| s.weight_end);
    let to = run.from + counts;
    let cut = counts < whole;
    // Steps changed for a restart are danced only where it is reached.
    let restart = run.restart.filter(|_| !cut);
    let (turn, weight_end) = outcome(&danced(dance, run.part, run.from, to, restart), weight);
    let what = match dance.parts.get(run.part).map(|p| p.kind) {
        Some(PartKind::Ending) => What::Ending,
        Some(PartKind::Tag) => What::Tag,
        _ => What::Dance,
    };
    song.stretches.push(Stretch {
        what,
        wall: run.wall,
        part: run.part,
        from: run.from,
        to,
        start,
        restart,
        cut,
        facing,
        facing_end: facing.turned(turn),
        weight,
        weight_end,
    });
}
