//! What a measure is: its name, unit, range and source, and how it is taken.

use super::track::Track;

/// What a measure is about. The score is shown in these parts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub enum Family {
    /// How much there is.
    Amount,
    /// How fast.
    Pace,
    /// When.
    Rhythm,
    /// Turning.
    Turning,
    /// Standing on little.
    Balance,
    /// How far and where to.
    Reach,
    /// Weight that does not go where feet go.
    Traps,
    /// What must be remembered.
    Memory,
}

impl Family {
    /// Every family, in order.
    pub const ALL: [Self; 8] = [
        Self::Amount,
        Self::Pace,
        Self::Rhythm,
        Self::Turning,
        Self::Balance,
        Self::Reach,
        Self::Traps,
        Self::Memory,
    ];

    /// One word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Amount => "amount",
            Self::Pace => "pace",
            Self::Rhythm => "rhythm",
            Self::Turning => "turning",
            Self::Balance => "balance",
            Self::Reach => "reach",
            Self::Traps => "traps",
            Self::Memory => "memory",
        }
    }
}

/// What a measure says about one dance.
#[derive(Debug, Clone, PartialEq, Default)]
#[non_exhaustive]
pub struct Reading {
    /// The value in the measure's unit.
    pub value: f64,
    /// Where it comes from: counts of one repetition from 0, and how much of it. Empty where it is in no place.
    pub places: Vec<(u32, f64)>,
}

impl Reading {
    /// A value that has no place in the dance.
    pub(super) fn whole(value: f64) -> Self {
        Self { value, places: Vec::new() }
    }

    /// What happens so often in eight counts, from the counts on which it happens.
    pub(super) fn rate(track: &Track, places: Vec<(u32, f64)>) -> Self {
        let sum: f64 = places.iter().map(|p| p.1).sum();
        Self { value: sum * 8.0 / f64::from(track.counts.max(1)), places }
    }
}

/// A measure of difficulty.
#[derive(Debug, Clone, Copy)]
#[non_exhaustive]
pub struct Measure {
    /// Its name, also the column of the table.
    pub name: &'static str,
    /// What it is about.
    pub family: Family,
    /// Its unit.
    pub unit: &'static str,
    /// The least and the greatest value that is usual, in words.
    pub range: &'static str,
    /// What it is, in one sentence.
    pub says: &'static str,
    /// Where it comes from.
    pub source: &'static str,
    /// How it enters the score; `None` for what is only reported, and `says` tells why.
    pub scored: Option<Scored>,
    /// Takes it.
    pub(super) take: fn(&Track) -> Reading,
}

/// How a measure enters the score: its weight times [`Scored::steps`] of its value.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Scored {
    /// Up to here it costs nothing.
    pub floor: f64,
    /// So much more is one notch.
    pub notch: f64,
    /// Whether every notch counts alike; otherwise each further one counts less than the one before.
    pub straight: bool,
}

impl Scored {
    /// From the floor upward in notches of this size, each further one counting less.
    pub(super) const fn above(floor: f64, notch: f64) -> Self {
        Self { floor, notch, straight: false }
    }

    /// From the floor upward in notches of this size that all count alike.
    pub(super) const fn straight(floor: f64, notch: f64) -> Self {
        Self { floor, notch, straight: true }
    }

    /// What a value counts. With `n` notches above the floor, whole or not: `n` where all count alike, else
    /// 2 (sqrt(1 + n) - 1), which begins like `n` and is 2 at three notches, 4 at eight. The fourth crossing
    /// in eight counts is less of a trouble than the first.
    #[must_use]
    pub fn steps(&self, value: f64) -> f64 {
        let notches = ((value - self.floor) / self.notch).max(0.0);
        if self.straight { notches } else { 2.0 * ((1.0 + notches).sqrt() - 1.0) }
    }

    /// `line` or `root`: the shape of [`Scored::steps`].
    #[must_use]
    pub const fn curve(&self) -> &'static str {
        if self.straight { "line" } else { "root" }
    }
}

/// All measures in the order of the table.
pub fn measures() -> impl Iterator<Item = &'static Measure> {
    let families: [&[Measure]; 8] = [
        super::amount::MEASURES,
        super::pace::MEASURES,
        super::rhythm::MEASURES,
        super::turning::MEASURES,
        super::balance::MEASURES,
        super::reach::MEASURES,
        super::traps::MEASURES,
        super::memory::MEASURES,
    ];
    families.into_iter().flatten()
}

/// The measure of a name.
#[must_use]
pub fn measure(name: &str) -> Option<&'static Measure> {
    measures().find(|m| m.name == name)
}
