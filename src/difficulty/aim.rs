//! Indices of difficulty for aiming and choosing, in bits.
//!
//! The forms are Fitts's (1954, J. Exp. Psychol. 47:381-391) and Hick's (1952, Q. J. Exp. Psychol. 4:11-26).
//! Times for a bit were found for hands and screens; for feet only the forms are used, never those times.

use super::number::log2;

/// Fitts's own form for a way and a target's width: log2(2 A / W).
#[must_use]
pub fn fitts(way: f64, width: f64) -> f64 {
    log2(2.0 * way / width)
}

/// The form that is never below zero (MacKenzie): log2(A / W + 1).
#[must_use]
pub fn aim(way: f64, width: f64) -> f64 {
    log2(way / width + 1.0)
}

/// The choice among so many equally likely things: log2(n).
#[must_use]
pub fn choice(things: u32) -> f64 {
    log2(f64::from(things.max(1)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn near(got: f64, want: f64) {
        assert!((got - want).abs() < 1e-6, "{got} is not {want}");
    }

    // F1, F2 and F4: worked by hand from the formulas.
    #[test]
    fn bits_of_aiming_and_choosing() {
        for (way, width, bits) in
            [(16.0, 0.25, 7.0), (16.0, 2.0, 4.0), (8.0, 0.5, 5.0), (4.0, 1.0, 3.0), (2.0, 2.0, 1.0)]
        {
            near(fitts(way, width), bits);
        }
        near(aim(16.0, 2.0), 3.169_925);
        near(aim(0.30, 0.10), 2.0);
        near(fitts(0.30, 0.10), 2.584_963);
        for (things, bits, or_none) in [(1, 0.0, 1.0), (2, 1.0, 1.585), (4, 2.0, 2.322), (8, 3.0, 3.170)] {
            near(choice(things), bits);
            assert!((choice(things + 1) - or_none).abs() < 5e-4);
        }
    }
}
