//! Time in whole ticks, 24 to the count, so that halves, thirds and quarters are all exact.

use core::fmt;
use core::ops::{Add, AddAssign, Sub};

/// A point of time or a length of time in ticks, 24 to a count.
///
/// Inside a section, count 1 is tick 24, the half-count after it tick 36, and a leading half-count before
/// count 1 is tick 12.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Ticks(pub i32);

impl Ticks {
    /// One count.
    pub const COUNT: Self = Self(24);
    /// Half a count, written `&`.
    pub const HALF: Self = Self(12);

    /// The tick of a whole count.
    #[must_use]
    pub const fn of_count(count: i32) -> Self {
        Self(count.saturating_mul(24))
    }

    /// The whole count that this tick belongs to.
    #[must_use]
    pub const fn count(self) -> i32 {
        self.0.div_euclid(24)
    }

    /// Ticks past that whole count, 0 to 23.
    #[must_use]
    pub const fn within(self) -> i32 {
        self.0.rem_euclid(24)
    }

    /// The written sign of the position within its count: empty on the count, else `e`, `&` or `a`.
    /// A third of the beat is written `&` (first third) or `a` (second third).
    #[must_use]
    pub const fn sign(self) -> &'static str {
        match self.within() {
            0 => "",
            1..=6 => "e",
            7..=13 => "&",
            _ => "a",
        }
    }
}

impl Add for Ticks {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl AddAssign for Ticks {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl Sub for Ticks {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Ticks {
    /// A running count as dancers write it: `12`, `12&`, `12e`, `12a`, from 1 to 100,000.
    #[must_use]
    pub fn of_words(word: &str) -> Option<Self> {
        let digits = word.trim_end_matches(|c: char| !c.is_ascii_digit());
        let count = digits.parse::<i32>().ok().filter(|n| (1..=100_000).contains(n))?;
        let part = match word.get(digits.len()..)? {
            "" => 0,
            "e" => 6,
            "&" => 12,
            "a" => 18,
            _ => return None,
        };
        Some(Self(count * 24 + part))
    }
}

/// Written out in full: `3`, `3&`, `3e`, `3a`.
impl fmt::Display for Ticks {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.count(), self.sign())
    }
}

/// Beats in a bar: 4 for almost all dances, 3 for a waltz.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub enum Metre {
    /// Four beats, sections of eight counts.
    #[default]
    Four,
    /// Three beats, sections of six counts.
    Three,
}

impl Metre {
    /// Beats in a bar.
    #[must_use]
    pub const fn beats(self) -> u32 {
        match self {
            Self::Four => 4,
            Self::Three => 3,
        }
    }

    /// Counts in a usual section (common practice: 8, in waltz 6).
    #[must_use]
    pub const fn section(self) -> u32 {
        2 * self.beats()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_counts_are_exact() {
        assert_eq!(Ticks(36).to_string(), "1&");
        assert_eq!(Ticks(72).to_string(), "3");
        assert_eq!(Ticks(12).to_string(), "0&");
        assert_eq!((Ticks::of_count(4) + Ticks::HALF).to_string(), "4&");
        assert_eq!(Ticks(24 + 18).to_string(), "1a");
    }
}
