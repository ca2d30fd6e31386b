//! A turn is faster than many can dance.

use super::strain::{find, round};
use super::subject::{Draft, Subject};
use crate::motion::limits::StrainKind;

pub(super) const NAME: &str = "turn-too-fast";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    find(
        s,
        NAME,
        StrainKind::TurnTooFast,
        |x| {
            let tempo = match s.dance().head.tempo.filter(|t| (40..=260).contains(t)) {
                Some(tempo) => format!("At {tempo} beats a minute"),
                None => "At a common 120 beats a minute".to_owned(),
            };
            format!(
                "{tempo} the turn on count {} goes round at {} degrees a second; {}.",
                x.m.at,
                round(x.strain.amount),
                x.verdict(
                    "offer the class a smaller one or steps without the turn",
                    "nobody dances that, so give it more counts",
                )
            )
        },
        out,
    );
}
