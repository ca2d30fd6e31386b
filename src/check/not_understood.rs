//! Words of a step line that were passed over.

use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::read::{Trouble, TroubleKind};
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token};

pub(super) const NAME: &str = "not-understood";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for t in s.troubles(|k| *k == TroubleKind::Unread) {
        let words = edits::words(s.text, t.span);
        let feet = |t: &Token| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF));
        if !words.is_empty() && words.iter().all(feet) {
            out.push(foot(s, t));
            continue;
        }
        let draft = s.at(NAME, Severity::Note, t.span, Place::of_trouble(t)).says(format!(
            "“{}” was not understood and is left out; say it with a foot, a step and a place, if it is danced.",
            s.quote(t.span)
        ));
        out.push(draft);
    }
}

/// A foot that is named and cannot be the one that acts.
fn foot(s: &Subject<'_>, t: &Trouble) -> Draft {
    let mut draft = s.at(NAME, Severity::Warning, t.span, Place::of_trouble(t)).says(format!(
        "“{}” names a foot, and the steps beside it do not go on it; correct the foot, or the steps.",
        s.quote(t.span)
    ));
    for edits in edits::other_foot(s.text, t.span) {
        draft.offer(8, false, "name the other foot".to_string(), edits);
    }
    draft
}
