//! The weight stands on a heel or on the ball of one foot for long.

use super::strain::{find, round};
use super::subject::{Draft, Subject};
use crate::motion::limits::StrainKind;

pub(super) const NAME: &str = "support-too-long";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    find(
        s,
        NAME,
        StrainKind::SupportTooLong,
        |x| {
            format!(
                "From count {} on the weight stands on the {} of {} for {} seconds; {}.",
                x.m.at,
                if s.motion().moments.get(x.strain.moment).is_some_and(|m| {
                    x.strain.foot.is_some_and(|f| m.stance.foot(f).sole == crate::motion::Sole::Heel)
                }) {
                    "heel"
                } else {
                    "ball"
                },
                x.foot(),
                round(x.strain.amount),
                x.verdict(
                    "say when the foot may come down",
                    "nobody stands so long, so let the foot come down"
                )
            )
        },
        out,
    );
}
