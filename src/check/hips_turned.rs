//! A foot is turned farther than the hip turns.

use super::strain::{find, round};
use super::subject::{Draft, Subject};
use crate::motion::limits::StrainKind;

pub(super) const NAME: &str = "hips-turned";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    find(
        s,
        NAME,
        StrainKind::HipsTurned,
        |x| {
            format!(
                "On count {} {} points {} degrees away from where the body faces; {}.",
                x.m.at,
                x.foot(),
                round(x.strain.amount),
                x.verdict(
                    "about a third of people turn their hips less, so let the body turn with it",
                    "hips do not turn so far, so the body has to turn with it",
                )
            )
        },
        out,
    );
}
