//! A step sets the feet farther apart than legs like to open.

use super::strain::{find, metres};
use super::subject::{Draft, Subject};
use crate::motion::limits::StrainKind;

pub(super) const NAME: &str = "step-too-long";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    let body = &s.motion().body;
    let easy = format!(
        "a comfortable step has {}, so let the class take it smaller",
        metres(body.comfortable_step())
    );
    let hard = format!("no step is longer than {}, so write a smaller one", metres(body.longest_step()));
    find(
        s,
        NAME,
        StrainKind::StepTooLong,
        |x| {
            format!(
                "On count {} the feet stand {} apart; for a person of {} {}.",
                x.m.at,
                metres(x.strain.amount),
                metres(body.stature),
                x.verdict(&easy, &hard)
            )
        },
        out,
    );
}
