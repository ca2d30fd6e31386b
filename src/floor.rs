//! The floor: points in metres, turns and facings in 1/48 of a turn, the clock.
//!
//! x points to 3:00, y to 12:00, clockwise is positive. Sines come from a table, because the platform's own
//! differ in the last bit between native code and WebAssembly.

use core::fmt;
use core::ops::{Add, AddAssign, Mul, Neg, Sub};
use core::str::FromStr;

/// A turn in 1/48 of a whole turn, clockwise positive: a quarter right is 12, a half left is -24.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Turn(pub i32);

impl Turn {
    /// No turn.
    pub const NONE: Self = Self(0);
    /// A quarter to the right.
    pub const QUARTER: Self = Self(12);
    /// A half turn.
    pub const HALF: Self = Self(24);
    /// A whole turn to the right.
    pub const FULL: Self = Self(48);
}

impl Add for Turn {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}
impl AddAssign for Turn {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}
impl Neg for Turn {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}
impl Mul<i32> for Turn {
    type Output = Self;
    fn mul(self, times: i32) -> Self {
        Self(self.0.saturating_mul(times))
    }
}

/// Written as dancers do: `1/4 R`, `1/2 L`, `5/8 R`, `1 R`, `1 1/4 L`; nothing for no turn.
impl fmt::Display for Turn {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0 == 0 {
            return Ok(());
        }
        let size = self.0.unsigned_abs();
        let (whole, rest) = (size / 48, size % 48);
        if whole > 0 {
            write!(f, "{whole} ")?;
        }
        if rest > 0 {
            let (mut a, mut b) = (rest, 48);
            while b != 0 {
                (a, b) = (b, a % b);
            }
            write!(f, "{}/{} ", rest / a, 48 / a)?;
        }
        f.write_str(if self.0 > 0 { "R" } else { "L" })
    }
}

/// A direction in the room in 1/48 of a turn, 0 to 47, clockwise from 12:00.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Heading(u8);

/// sin(2 pi k / 48) for k = 0 to 12.
const SINES: [f64; 13] = [
    0.0,
    0.130_526_192_220_051_6,
    0.258_819_045_102_520_74,
    0.382_683_432_365_089_8,
    0.5,
    0.608_761_429_008_720_7,
    core::f64::consts::FRAC_1_SQRT_2,
    0.793_353_340_291_235_2,
    0.866_025_403_784_438_6,
    0.923_879_532_511_286_7,
    0.965_925_826_289_068_3,
    0.991_444_861_373_810_4,
    1.0,
];

impl Heading {
    /// The wall faced at the start, 12:00.
    pub const FRONT: Self = Self(0);

    /// The heading of so many 48ths, any whole number.
    #[must_use]
    pub const fn new(units: i32) -> Self {
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "the remainder is 0 to 47"
        )]
        Self(units.rem_euclid(48) as u8)
    }

    /// 0 to 47.
    #[must_use]
    pub const fn units(self) -> i32 {
        self.0 as i32
    }

    /// The heading after a turn.
    #[must_use]
    pub const fn turned(self, turn: Turn) -> Self {
        Self::new(self.0 as i32 + turn.0 % 48)
    }

    /// The smallest turn that leads from here to there, -23 to 24.
    #[must_use]
    pub const fn turn_to(self, to: Self) -> Turn {
        let d = (to.0 as i32 - self.0 as i32).rem_euclid(48);
        Turn(if d > 24 { d - 48 } else { d })
    }

    /// Degrees clockwise from 12:00, 0 to 352.5.
    #[must_use]
    pub fn degrees(self) -> f64 {
        f64::from(self.0) * 7.5
    }

    /// The unit vector of this direction.
    #[must_use]
    pub fn vector(self) -> Point {
        VECTORS.get(usize::from(self.0)).copied().unwrap_or(Point::ORIGIN)
    }
}

/// The unit vectors of all headings.
static VECTORS: [Point; 48] = {
    let mut vectors = [Point::ORIGIN; 48];
    let mut units = 0;
    while units < 48 {
        vectors[units] = Point { x: sine(units), y: sine((units + 12) % 48) };
        units += 1;
    }
    vectors
};

/// The sine of 0 to 47 of 48 shares of a turn.
const fn sine(units: usize) -> f64 {
    let quarter = units % 12;
    match units / 12 {
        0 => SINES[quarter],
        1 => SINES[12 - quarter],
        2 => -SINES[quarter],
        _ => -SINES[12 - quarter],
    }
}

/// The clock: `12:00`, `1:30`, `9:00`.
impl fmt::Display for Heading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let minutes = u32::from(self.0) * 15;
        let hour = minutes / 60;
        write!(f, "{}:{:02}", if hour == 0 { 12 } else { hour }, minutes % 60)
    }
}

/// A text that is no clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NotAClock;

impl fmt::Display for NotAClock {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("not a clock such as 3:00 or 10:30")
    }
}

impl FromStr for Heading {
    type Err = NotAClock;
    fn from_str(s: &str) -> Result<Self, NotAClock> {
        let (hour, minute) = s.split_once(':').ok_or(NotAClock)?;
        let hour: i32 = hour.parse().map_err(|_| NotAClock)?;
        let minute: i32 = minute.parse().map_err(|_| NotAClock)?;
        if !(1..=12).contains(&hour) || !(0..60).contains(&minute) || minute % 15 != 0 {
            return Err(NotAClock);
        }
        Ok(Self::new(hour * 4 + minute / 15))
    }
}

/// A point or a vector on the floor, in metres.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Point {
    /// Toward 3:00.
    pub x: f64,
    /// Toward 12:00.
    pub y: f64,
}

impl Point {
    /// The place where the dance begins.
    pub const ORIGIN: Self = Self { x: 0.0, y: 0.0 };

    /// A point from its parts.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// Turned clockwise about the origin.
    #[must_use]
    pub fn turned(self, turn: Turn) -> Self {
        let Self { x: s, y: c } = Heading::new(turn.0).vector();
        Self { x: self.x * c + self.y * s, y: self.y * c - self.x * s }
    }

    /// Turned clockwise about another point.
    #[must_use]
    pub fn turned_about(self, centre: Self, turn: Turn) -> Self {
        (self - centre).turned(turn) + centre
    }

    /// A vector in a dancer's own frame (x to the right, y ahead) as seen in the room.
    #[must_use]
    pub fn facing(self, heading: Heading) -> Self {
        self.turned(Turn(heading.units()))
    }

    /// Length of the vector, in metres.
    #[must_use]
    pub fn length(self) -> f64 {
        (self.x * self.x + self.y * self.y).sqrt()
    }

    /// The point a share of the way to another: 0 is here, 1 is there.
    #[must_use]
    pub fn toward(self, other: Self, share: f64) -> Self {
        self + (other - self) * share
    }
}

impl Add for Point {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { x: self.x + other.x, y: self.y + other.y }
    }
}
impl Sub for Point {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self { x: self.x - other.x, y: self.y - other.y }
    }
}
impl Mul<f64> for Point {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self { x: self.x * factor, y: self.y * factor }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Identities G1, G2, G10 to G13 and G16: worked by hand from the definition of the frame
    // (x to 3:00, y to 12:00, clockwise positive, 48 units to a turn).
    fn near(a: Point, x: f64, y: f64) {
        assert!((a.x - x).abs() < 1e-9 && (a.y - y).abs() < 1e-9, "{a:?} is not ({x}, {y})");
    }

    #[test]
    fn headings_point_where_the_clock_says() {
        near(Heading::new(0).vector(), 0.0, 1.0);
        near(Heading::new(12).vector(), 1.0, 0.0);
        near(Heading::new(24).vector(), 0.0, -1.0);
        near(Heading::new(36).vector(), -1.0, 0.0);
        for (units, clock) in
            [(0, "12:00"), (4, "1:00"), (6, "1:30"), (8, "2:00"), (18, "4:30"), (42, "10:30")]
        {
            assert_eq!(Heading::new(units).to_string(), clock);
            assert_eq!(clock.parse(), Ok(Heading::new(units)));
        }
    }

    #[test]
    fn points_turn_clockwise() {
        let centre = Point::new(0.1, 0.0);
        near(Point::new(0.0, 0.5).turned_about(centre, Turn(12)), 0.6, 0.1);
        near(Point::new(0.0, 0.5).turned_about(centre, Turn(24)), 0.2, -0.5);
        near(Point::new(0.0, 0.5).turned_about(centre, Turn(-12)), -0.4, -0.1);
        near(
            Point::new(1.0, 0.0).turned(Turn(6)),
            core::f64::consts::FRAC_1_SQRT_2,
            -core::f64::consts::FRAC_1_SQRT_2,
        );
    }

    #[test]
    fn turns_never_drift() {
        let mut h = Heading::FRONT;
        for _ in 0..1_000_000 {
            h = h.turned(Turn(7)).turned(Turn(-7));
        }
        assert_eq!(h, Heading::FRONT);
        assert_eq!(Heading::new(7 + 44 - 13), Heading::new(38));
        assert_eq!(Turn(-24).to_string(), "1/2 L");
        assert_eq!(Turn(60).to_string(), "1 1/4 R");
    }
}
