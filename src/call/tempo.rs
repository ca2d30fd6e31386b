//! Ticks become seconds here and nowhere else.

use core::fmt;
use core::str::FromStr;

use crate::time::Ticks;

/// Picoseconds in a second. Beats a minute in thousandths give tick lengths that are nearly whole in them.
const SECOND: u64 = 1_000_000_000_000;

/// Length of a tick in picoseconds, times the tempo in thousandths of a beat a minute:
/// 60 s / 24 ticks * 1000.
const TICK: u64 = 2500 * SECOND;

/// A point of time or a length of time in whole picoseconds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Moment(pub u64);

impl Moment {
    /// The moment after so many whole milliseconds.
    #[must_use]
    pub const fn of_millis(millis: u64) -> Self {
        Self(millis.saturating_mul(SECOND / 1000))
    }

    /// Seconds.
    #[must_use]
    #[allow(clippy::cast_precision_loss, reason = "a song of an hour is exact to a picosecond")]
    pub fn seconds(self) -> f64 {
        self.0 as f64 / SECOND as f64
    }

    /// Whole milliseconds; halves are rounded up.
    #[must_use]
    pub const fn millis(self) -> u64 {
        let unit = SECOND / 1000;
        self.0 / unit + (self.0 % unit >= unit / 2) as u64
    }
}

impl Moment {
    /// A time as people write it, with three decimals at most: `3:30`, `1:02:03.5`, or `210` seconds.
    #[must_use]
    pub fn of_words(word: &str) -> Option<Self> {
        let mut sum = 0_u64;
        let pieces: Vec<&str> = word.split(':').collect();
        if pieces.len() > 3 {
            return None;
        }
        for (i, piece) in pieces.iter().enumerate() {
            let last = i + 1 == pieces.len();
            let (whole, rest) =
                if last { piece.split_once('.').unwrap_or((piece, "")) } else { (*piece, "") };
            let digits = |s: &str| s.len() <= 6 && s.bytes().all(|b| b.is_ascii_digit());
            if whole.is_empty() || !digits(whole) || !digits(rest) || rest.len() > 3 {
                return None;
            }
            let value: u64 = whole.parse().ok()?;
            if i > 0 && value > 59 {
                return None;
            }
            sum = sum * 60 + value * 1000;
            let place = [0, 100, 10, 1].get(rest.len()).copied().unwrap_or(0);
            sum += rest.parse::<u64>().unwrap_or(0) * place;
        }
        Some(Self::of_millis(sum))
    }
}

/// Minutes, seconds and tenths, halves rounded up: `0:09.2`.
impl fmt::Display for Moment {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let unit = SECOND / 10;
        let tenths = self.0 / unit + u64::from(self.0 % unit >= unit / 2);
        write!(f, "{}:{:02}.{}", tenths / 600, tenths / 10 % 60, tenths % 10)
    }
}

/// From one count of the music on, so fast.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Change {
    /// First count, from 0.
    from: u32,
    /// Thousandths of a beat a minute.
    milli: u32,
    /// When that count begins.
    start: Moment,
}

/// How fast the music is, from its first count to its last.
///
/// Written as beats a minute, with changes at counts of the music from 1: `104`, `98.5`, `104, 112@129`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tempo {
    changes: Vec<Change>,
}

/// Slowest and fastest tempo that is taken, in beats a minute.
pub const TEMPI: core::ops::RangeInclusive<u32> = 20..=400;

/// The last count at which a tempo may change.
const LAST: u32 = 100_000;

impl Tempo {
    /// The same tempo throughout, brought into [`TEMPI`].
    #[must_use]
    pub fn steady(bpm: u32) -> Self {
        let milli = bpm.clamp(*TEMPI.start(), *TEMPI.end()) * 1000;
        Self { changes: vec![Change { from: 0, milli, start: Moment(0) }] }
    }

    /// Puts a change at the end; counts must rise.
    fn push(&mut self, from: u32, milli: u32) -> Result<(), TempoError> {
        if self.changes.last().is_some_and(|last| from <= last.from) {
            return Err(TempoError::Order(from + 1));
        }
        let start = self.moment(Ticks::of_count(i32::try_from(from).unwrap_or(i32::MAX)));
        self.changes.push(Change { from, milli, start });
        Ok(())
    }

    /// When a tick of the music falls; tick 0 is its first count. Exact to half a picosecond for each change.
    #[must_use]
    pub fn moment(&self, at: Ticks) -> Moment {
        let ticks = u64::try_from(at.0.max(0)).unwrap_or(0);
        let change = self.in_force(ticks);
        let inside = ticks - u64::from(change.from) * 24;
        let milli = u64::from(change.milli);
        // At most 2^31 ticks of 2.5e15: more than 64 bits hold.
        let length = (u128::from(inside) * u128::from(TICK) + u128::from(milli / 2)) / u128::from(milli);
        Moment(change.start.0.saturating_add(u64::try_from(length).unwrap_or(u64::MAX)))
    }

    fn in_force(&self, ticks: u64) -> Change {
        let reached = |change: &&Change| u64::from(change.from) * 24 <= ticks;
        let change = self.changes.iter().rev().find(reached).or(self.changes.first()).copied();
        change.unwrap_or(Change { from: 0, milli: 120_000, start: Moment(0) })
    }

    /// The last tick that falls at a moment or before it.
    #[must_use]
    pub fn tick(&self, moment: Moment) -> Ticks {
        let (mut low, mut high) = (0, i32::MAX / 2);
        while low < high {
            let middle = low + (high - low + 1) / 2;
            if self.moment(Ticks(middle)) <= moment {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        Ticks(low)
    }

    /// How many ticks a length of time takes at the tempo of a tick, rounded up.
    #[must_use]
    pub fn lasting(&self, at: Ticks, length: Moment) -> Ticks {
        let milli = u128::from(self.in_force(u64::try_from(at.0.max(0)).unwrap_or(0)).milli);
        let ticks = (u128::from(length.0) * milli).div_ceil(u128::from(TICK));
        Ticks(i32::try_from(ticks).unwrap_or(i32::MAX))
    }

    /// Each change: its count from 0, and microseconds a count, halves rounded up.
    pub fn changes(&self) -> impl Iterator<Item = (u32, u32)> {
        self.changes.iter().map(|change| (change.from, micros(change.milli)))
    }

    /// Beats a minute of the beginning, as written.
    #[must_use]
    pub fn first(&self) -> String {
        bpm(self.in_force(0).milli)
    }
}

/// Microseconds a count, halves rounded up.
fn micros(milli: u32) -> u32 {
    let (minute, milli) = (60_000_000_000_u64, u64::from(milli.max(1)));
    u32::try_from((minute + milli / 2) / milli).unwrap_or(u32::MAX)
}

fn bpm(milli: u32) -> String {
    let (whole, rest) = (milli / 1000, milli % 1000);
    if rest == 0 {
        return whole.to_string();
    }
    format!("{whole}.{rest:03}").trim_end_matches('0').to_owned()
}

impl fmt::Display for Tempo {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, change) in self.changes.iter().enumerate() {
            if i > 0 {
                f.write_str(", ")?;
            }
            f.write_str(&bpm(change.milli))?;
            if change.from > 0 {
                write!(f, "@{}", change.from + 1)?;
            }
        }
        Ok(())
    }
}

/// A text that is no tempo.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum TempoError {
    /// A piece that is no number of beats a minute, or outside of [`TEMPI`].
    Beats(String),
    /// A piece that is no count of the music.
    Count(String),
    /// A count that does not come after the one before it.
    Order(u32),
}

impl fmt::Display for TempoError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Beats(piece) => write!(f, "“{piece}” is no tempo; give 20 to 400 beats a minute"),
            Self::Count(piece) => {
                write!(f, "“{piece}” is no count of the music; write a change as 112@129, counts from 2 on")
            }
            Self::Order(count) => write!(f, "the change at count {count} must come after the one before it"),
        }
    }
}

impl core::error::Error for TempoError {}

impl FromStr for Tempo {
    type Err = TempoError;

    fn from_str(text: &str) -> Result<Self, TempoError> {
        let mut tempo = Self { changes: Vec::new() };
        for (i, piece) in text.split(',').map(str::trim).enumerate() {
            let (beats, count) = match piece.split_once('@') {
                Some((beats, count)) => (beats.trim(), Some(count.trim())),
                None => (piece, None),
            };
            let milli = thousandths(beats).ok_or_else(|| TempoError::Beats(beats.to_owned()))?;
            let wrong = || TempoError::Count(count.unwrap_or(piece).to_owned());
            let from = match count {
                None if i == 0 => 0,
                None => return Err(wrong()),
                Some(count) => {
                    count.parse::<u32>().ok().filter(|n| *n <= LAST && *n > 0).ok_or_else(wrong)? - 1
                }
            };
            if i == 0 && from > 0 {
                return Err(wrong());
            }
            tempo.push(from, milli)?;
        }
        Ok(tempo)
    }
}

/// `98.5` as 98500.
fn thousandths(text: &str) -> Option<u32> {
    let (whole, rest) = text.split_once('.').unwrap_or((text, ""));
    let digits = |s: &str| s.bytes().all(|b| b.is_ascii_digit());
    if whole.is_empty() || whole.len() > 3 || rest.len() > 3 || !digits(whole) || !digits(rest) {
        return None;
    }
    let mut milli = whole.parse::<u32>().ok()? * 1000;
    if !rest.is_empty() {
        milli += format!("{rest:0<3}").parse::<u32>().ok()?;
    }
    (TEMPI.start() * 1000..=TEMPI.end() * 1000).contains(&milli).then_some(milli)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(tempo: &str, ticks: i32) -> f64 {
        tempo.parse::<Tempo>().expect("a tempo").moment(Ticks(ticks)).seconds()
    }

    #[track_caller]
    fn near(a: f64, b: f64, within: f64) {
        assert!((a - b).abs() <= within, "{a} is not {b}");
    }

    #[test]
    fn times_are_read_as_people_write_them() {
        for (word, ms) in
            [("3:30", 210_000), ("210", 210_000), ("0:09.2", 9_200), ("1:00:00", 3_600_000), ("1.05", 1050)]
        {
            assert_eq!(Moment::of_words(word), Some(Moment::of_millis(ms)), "{word}");
        }
        for bad in ["", "3:75", "-1", "1:2:3:4", "x", "1.2345", "9999999"] {
            assert_eq!(Moment::of_words(bad), None, "{bad}");
        }
    }

    #[test]
    fn counts_become_seconds() {
        // Bars and beats a minute are exact: check value T21, worked out by hand.
        near(at("120", 32 * 24), 16.0, 1e-9);
        near(at("96", 64 * 24), 40.0, 1e-9);
        near(at("180", 48 * 24), 16.0, 1e-9);
        near(at("120", 1), 0.5 / 24.0, 1e-9);
        // D33: 18 counts at 110.
        near(at("110", 18 * 24), 18.0 * 60.0 / 110.0, 1e-9);
    }

    #[test]
    fn changes_add_up_to_the_exact_fraction() {
        // Four minutes with a change every 32 counts, against the sum of fractions.
        let tempi = [103, 107, 109, 113, 127, 131, 137, 97, 101, 89, 83, 79, 73];
        let mut words = tempi[0].to_string();
        let mut exact = 0.0;
        for (i, bpm) in tempi.iter().enumerate() {
            if i > 0 {
                words = format!("{words}, {bpm}@{}", i * 32 + 1);
            }
            exact += 32.0 * 60.0 / f64::from(*bpm);
        }
        near(at(&words, 13 * 32 * 24), exact, 1e-9);
        assert_eq!(words.parse::<Tempo>().expect("a tempo").to_string(), words);
    }

    #[test]
    fn halves_of_a_millisecond_are_rounded_up() {
        // V11: 468.75, 937.5, 2343.75 and 2812.5 ms.
        let tempo = Tempo::steady(128);
        let millis = [1, 2, 5, 6].map(|count| tempo.moment(Ticks::of_count(count)).millis());
        assert_eq!(millis, [469, 938, 2344, 2813]);
    }

    #[test]
    fn a_moment_leads_back_to_its_tick() {
        for words in ["104", "98.5, 112@17, 40@18"] {
            let tempo: Tempo = words.parse().expect("a tempo");
            for tick in [0, 1, 383, 384, 385, 407, 408, 409, 9000] {
                assert_eq!(tempo.tick(tempo.moment(Ticks(tick))), Ticks(tick), "{words} {tick}");
            }
        }
        assert_eq!(Tempo::steady(120).lasting(Ticks(0), Moment::of_millis(500)), Ticks(24));
        assert_eq!(Tempo::steady(120).lasting(Ticks(0), Moment::of_millis(501)), Ticks(25));
    }

    #[test]
    fn what_is_no_tempo_is_refused() {
        for bad in [
            "",
            "fast",
            "19",
            "401",
            "1e3",
            "-5",
            "104,112",
            "104@9",
            "104,112@0",
            "100,90@8,80@8",
            "96.1234",
        ] {
            assert!(bad.parse::<Tempo>().is_err(), "{bad}");
        }
        assert_eq!("98.50".parse::<Tempo>().expect("a tempo").first(), "98.5");
    }

    #[test]
    fn microseconds_a_count_are_those_of_the_published_table() {
        // M2 of the check values.
        let table =
            [(120, 500_000), (100, 600_000), (96, 625_000), (60, 1_000_000), (128, 468_750), (110, 545_455)];
        for (bpm, micros) in table {
            assert_eq!(Tempo::steady(bpm).changes().next(), Some((0, micros)));
        }
    }
}
