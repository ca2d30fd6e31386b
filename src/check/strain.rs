//! From strains of the body to findings: where they stand in the sheet, and how bad they are.

use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::dance::Move;
use crate::motion::limits::{Grade, Strain, StrainKind};

/// A strain with the move that makes it.
pub(super) struct Strained<'a> {
    pub strain: Strain,
    pub m: &'a Move,
}

impl Strained<'_> {
    /// `the left foot`, `a foot`.
    pub(super) fn foot(&self) -> String {
        self.strain.foot.map_or_else(|| "a foot".into(), |f| format!("the {} foot", f.word()))
    }

    /// What it asks for: more than most, or more than anybody.
    pub(super) fn verdict(&self, demanding: &str, impossible: &str) -> String {
        if self.strain.grade == Grade::Impossible { impossible.into() } else { demanding.into() }
    }
}

/// The strains of a kind; what is demanding is worth a note, what is impossible an error.
pub(super) fn find(
    s: &Subject<'_>,
    rule: &'static str,
    kind: StrainKind,
    say: impl Fn(&Strained<'_>) -> String,
    out: &mut Vec<Draft>,
) {
    let motion = s.motion();
    for strain in s.strains().iter().copied() {
        if strain.kind != kind {
            continue;
        }
        let Some(moment) = motion.moments.get(strain.moment) else { continue };
        let Some(stretch) = motion.stretches.get(moment.stretch) else { continue };
        let Some(m) = stretch.moves(s.dance()).get(moment.index) else { continue };
        let place = Place { part: stretch.part, section: stretch.section, at: Some(m.at) };
        let severity = match strain.grade {
            Grade::Demanding => Severity::Note,
            Grade::Impossible => Severity::Error,
        };
        let strained = Strained { strain, m };
        out.push(s.at(rule, severity, m.span, place).says(say(&strained)));
    }
}

/// Metres with two decimals.
pub(super) fn metres(value: f64) -> String {
    let cm = round(value * 100.0);
    format!("{}.{:02} m", cm / 100, cm % 100)
}

/// A measure as a whole number.
pub(super) fn round(value: f64) -> u32 {
    // Measures of one dance are far below what a u32 holds.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped")]
    let whole = value.clamp(0.0, 1e6).round() as u32;
    whole
}
