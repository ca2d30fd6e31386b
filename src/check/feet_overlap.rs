//! Two feet would stand on each other.

use super::strain::{find, round};
use super::subject::{Draft, Subject};
use crate::motion::limits::StrainKind;

pub(super) const NAME: &str = "feet-overlap";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    find(
        s,
        NAME,
        StrainKind::FeetOverlap,
        |x| {
            format!(
                "On count {} the feet overlap by {} cm; {}.",
                x.m.at,
                round(x.strain.amount * 100.0),
                x.verdict(
                    "leave a little room between them",
                    "one foot stands on the other, so one has to go elsewhere"
                )
            )
        },
        out,
    );
}
