//! The option `body`: the dancer whose feet and legs are meant.

use super::error::Refusal;
use super::given::{Given, wrong};
use crate::body::Body;

/// What can be said of a body: lengths in metres, turns of a hip in degrees, each within its bounds.
const KNOWN: [&str; 7] =
    ["stature", "footLength", "footBreadth", "hipBreadth", "legLength", "turnOut", "turnIn"];

/// The body asked for: the usual one of its stature, but for what is said outright.
pub(super) fn body(given: &Given) -> Result<Body, Refusal> {
    let Some(given) = given.object("body", &KNOWN)? else { return Ok(Body::default()) };
    let within = |name: &str, low: f64, high: f64, words: &str| -> Result<Option<f64>, Refusal> {
        let number = given.real(name, words)?;
        if number.is_some_and(|n| !(low..=high).contains(&n)) { Err(wrong(name, words)) } else { Ok(number) }
    };
    let stature = within("stature", 1.0, 2.3, "a number of metres from 1 to 2.3")?;
    let mut body = stature.map_or_else(Body::default, Body::of_stature);
    let lengths = [
        ("footLength", &mut body.foot_length, 0.1, 0.4, "a number of metres from 0.1 to 0.4"),
        ("footBreadth", &mut body.foot_breadth, 0.03, 0.2, "a number of metres from 0.03 to 0.2"),
        ("hipBreadth", &mut body.hip_breadth, 0.15, 0.6, "a number of metres from 0.15 to 0.6"),
        ("legLength", &mut body.leg_length, 0.4, 1.4, "a number of metres from 0.4 to 1.4"),
        ("turnOut", &mut body.turn_out, 0.0, 90.0, "a number of degrees from 0 to 90"),
        ("turnIn", &mut body.turn_in, 0.0, 90.0, "a number of degrees from 0 to 90"),
    ];
    for (name, length, low, high, words) in lengths {
        *length = within(name, low, high, words)?.unwrap_or(*length);
    }
    Ok(body)
}
