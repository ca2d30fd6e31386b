//! A step sets the feet farther apart than legs like to open.

use super::strain::{find, metres};
use super::subject::{Draft, Subject};
use crate::motion::limits::StrainKind;

pub(super) const NAME: &str = "step-too-long";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    find(
        s,
        NAME,
        StrainKind::StepTooLong,
        |x| {
            format!(
                "On count {} the feet stand {} apart; for a person of 1.70 m {}.",
                x.m.at,
                metres(x.strain.amount),
                x.verdict(
                    "a comfortable step has 0.70 m, so let the class take it smaller",
                    "no step is longer than 1.28 m, so write a smaller one",
                )
            )
        },
        out,
    );
}
