//! Numbers that look random and are the same in each run with the same seed.

/// A source of such numbers: SplitMix64 (Steele, Lea and Flood 2014).
#[derive(Debug, Clone)]
pub struct Chance(u64);

impl Chance {
    /// A source with a seed.
    #[must_use]
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next number.
    pub fn number(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number below `end`, 0 where that is 0.
    pub fn below(&mut self, end: usize) -> usize {
        let end = end.max(1) as u64;
        usize::try_from(self.number() % end).unwrap_or(0)
    }

    /// One of some things, if there are any.
    pub fn one<'a, T>(&mut self, things: &'a [T]) -> Option<&'a T> {
        things.get(self.below(things.len()))
    }
}
