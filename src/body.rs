//! The dancer's body: lengths and limits, as shares of the stature.
//!
//! The shares are those of Drillis and Contini (1966, Body Segment Parameters, TR 1166.03) as printed in
//! Winter, Biomechanics and Motor Control of Human Movement (4th ed. 2009, fig. 4.1). They are population
//! means; every length can be set by itself.

/// Lengths of a body, all in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Body {
    /// Height of the person.
    pub stature: f64,
    /// From heel to toe: 0.152 of the stature.
    pub foot_length: f64,
    /// Across the ball of the foot: 0.055 of the stature.
    pub foot_breadth: f64,
    /// Height of the knee: 0.285 of the stature.
    pub knee_height: f64,
    /// Height of the hip joint, taken as the length of the leg: 0.530 of the stature.
    pub leg_length: f64,
    /// Across the hips: 0.191 of the stature.
    pub hip_breadth: f64,
    /// From the heel to the ball as a share of the foot's length: about 0.73 (from memory, army survey ratios).
    pub ball_share: f64,
    /// How far one hip turns the leg outward, in degrees: 41.8 on average (Kouyoumdjian and others 2012,
    /// Orthop. Traumatol. Surg. Res. 98:17-23, 120 adults lying prone).
    pub turn_out: f64,
    /// How far one hip turns the leg inward, in degrees: 35.2 on average (same source).
    pub turn_in: f64,
}

impl Body {
    /// The mean body of a stature in metres.
    #[must_use]
    pub fn of_stature(stature: f64) -> Self {
        Self {
            stature,
            foot_length: 0.152 * stature,
            foot_breadth: 0.055 * stature,
            knee_height: 0.285 * stature,
            leg_length: 0.530 * stature,
            hip_breadth: 0.191 * stature,
            ball_share: 0.73,
            turn_out: 41.8,
            turn_in: 35.2,
        }
    }

    /// From the ball of the foot back to the heel, in metres.
    #[must_use]
    pub fn ball_to_heel(&self) -> f64 {
        self.foot_length * self.ball_share
    }

    /// From the ball of the foot forward to the toe, in metres.
    #[must_use]
    pub fn ball_to_toe(&self) -> f64 {
        self.foot_length * (1.0 - self.ball_share)
    }

    /// From ball to ball of feet that stand apart: as far as the shoulders are broad, 0.259 of the stature where
    /// the hips have their usual breadth (same source), and with the hips in the same measure.
    #[must_use]
    pub fn feet_apart(&self) -> f64 {
        self.hip_breadth * (0.259 / 0.191)
    }

    /// The longest comfortable step: 0.41 of the stature, the step of normal walking (pedometer convention,
    /// from memory; Öberg, Karsznia and Öberg 1993, J. Rehabil. Res. Dev. 30:210-223 for normal walking).
    #[must_use]
    pub fn comfortable_step(&self) -> f64 {
        0.41 * self.stature
    }

    /// A long step begins here: 0.55 of the stature, a choice of this project.
    #[must_use]
    pub fn long_step(&self) -> f64 {
        0.55 * self.stature
    }

    /// No step is longer: straight legs that open to a right angle, 0.75 of the stature where they have their
    /// usual length. The right angle is a choice of this project.
    #[must_use]
    pub fn longest_step(&self) -> f64 {
        core::f64::consts::SQRT_2 * self.leg_length
    }
}

impl Default for Body {
    /// A person of 1.70 m.
    fn default() -> Self {
        Self::of_stature(1.70)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // B8 and B9: worked by hand from the shares of Drillis and Contini.
    #[test]
    fn lengths_follow_the_stature() {
        let b = Body::default();
        for (got, want) in [
            (b.foot_length, 0.2584),
            (b.foot_breadth, 0.0935),
            (b.knee_height, 0.4845),
            (b.leg_length, 0.9010),
            (b.hip_breadth, 0.3247),
            // B7: across the shoulders, 0.259 of the stature.
            (b.feet_apart(), 0.4403),
            (Body::of_stature(1.55).foot_length, 0.2356),
            (Body::of_stature(1.85).foot_length, 0.2812),
        ] {
            assert!((got - want).abs() < 1e-4, "{got} is not {want}");
        }
    }
}
