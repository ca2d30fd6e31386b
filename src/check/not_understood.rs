//! Words of a step line that were passed over.

use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::read::TroubleKind;

pub(super) const NAME: &str = "not-understood";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for t in s.troubles(|k| *k == TroubleKind::Unread) {
        let draft = s.at(NAME, Severity::Note, t.span, Place::of_trouble(t)).says(format!(
            "“{}” was not understood and is left out; say it with a foot, a step and a place, if it is danced.",
            s.quote(t.span)
        ));
        out.push(draft);
    }
}
