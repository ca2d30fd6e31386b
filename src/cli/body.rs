//! The dancer's body, as the commands that ask for it take it.

use clap::Args;
use halfcount::body::Body;

/// The body that dances: what follows from its height, and lengths of its own.
#[derive(Debug, Args)]
#[command(next_help_heading = "Body of the dancer")]
pub(crate) struct BodyArgs {
    /// Height in centimetres: all lengths below follow from it where they are not given
    #[arg(long, value_name = "CM", default_value_t = 170, value_parser = clap::value_parser!(u16).range(100..=230))]
    stature: u16,
    /// From heel to toe in centimetres, 10 to 40
    #[arg(long, value_name = "CM", value_parser = |word: &str| within(word, 10.0, 40.0))]
    foot_length: Option<f64>,
    /// Across the ball of the foot in centimetres, 3 to 20
    #[arg(long, value_name = "CM", value_parser = |word: &str| within(word, 3.0, 20.0))]
    foot_breadth: Option<f64>,
    /// Across the hips in centimetres, 15 to 60: feet that step apart stand wider on broad hips
    #[arg(long, value_name = "CM", value_parser = |word: &str| within(word, 15.0, 60.0))]
    hip_breadth: Option<f64>,
    /// From the floor to the hip joint in centimetres, 40 to 140: no step is longer than the legs allow
    #[arg(long, value_name = "CM", value_parser = |word: &str| within(word, 40.0, 140.0))]
    leg_length: Option<f64>,
    /// How far one hip turns the leg outward, 0 to 90 degrees
    #[arg(long, value_name = "DEGREES", value_parser = |word: &str| within(word, 0.0, 90.0))]
    turn_out: Option<f64>,
    /// How far one hip turns the leg inward, 0 to 90 degrees
    #[arg(long, value_name = "DEGREES", value_parser = |word: &str| within(word, 0.0, 90.0))]
    turn_in: Option<f64>,
}

impl BodyArgs {
    /// The body asked for, in metres.
    pub(crate) fn body(&self) -> Body {
        let mut body = Body::of_stature(f64::from(self.stature) / 100.0);
        let lengths = [
            (&mut body.foot_length, self.foot_length),
            (&mut body.foot_breadth, self.foot_breadth),
            (&mut body.hip_breadth, self.hip_breadth),
            (&mut body.leg_length, self.leg_length),
        ];
        for (length, given) in lengths {
            *length = given.map_or(*length, |cm| cm / 100.0);
        }
        body.turn_out = self.turn_out.unwrap_or(body.turn_out);
        body.turn_in = self.turn_in.unwrap_or(body.turn_in);
        body
    }
}

/// A number from `low` to `high`, or a sentence that says so.
fn within(word: &str, low: f64, high: f64) -> Result<f64, String> {
    let number = word.parse::<f64>().ok().filter(|n| (low..=high).contains(n));
    number.ok_or_else(|| format!("use a number from {low} to {high}"))
}
