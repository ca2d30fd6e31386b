//! Legs are wound round each other so that they must be uncrossed before they can go on.

use super::strain::{find, round};
use super::subject::{Draft, Subject};
use crate::motion::limits::StrainKind;

pub(super) const NAME: &str = "legs-crossed";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    find(
        s,
        NAME,
        StrainKind::LegsCrossed,
        |x| {
            format!(
                "On count {} the legs are wound {} degrees round each other; {}.",
                x.m.at,
                round(x.strain.amount),
                x.verdict(
                    "the free leg has to come out the long way round",
                    "nothing is left but to fall or to turn back, so turn the other way",
                )
            )
        },
        out,
    );
}
