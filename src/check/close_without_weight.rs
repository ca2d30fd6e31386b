//! A foot closes, crosses or stomps and cannot have taken the weight, because it acts next.

use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::dance::{Action, Effect, Who};
use crate::figures::weight_remark;

pub(super) const NAME: &str = "close-without-weight";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for part in 0..s.dance().parts.len() {
        for d in s.moves(part) {
            let m = d.m;
            let Who::One(foot) = m.who else { continue };
            if m.effect != Effect::Free || !matches!(m.action, Action::Step | Action::Stomp) {
                continue;
            }
            let t = edits::words(s.text, m.span);
            let up = t.iter().any(|t| t.is(crate::sheet::vocabulary::W::Up));
            if up || (0..t.len()).any(|i| weight_remark(&t, i, t.len()).is_some()) {
                continue;
            }
            let place = Place { part, section: d.section, at: Some(m.at) };
            let mut draft = s.at(NAME, Severity::Note, m.span, place).says(format!(
                "“{}” cannot take the weight on count {}, because the {} foot acts next; it is read as a touch, and the word touch would say so.",
                s.quote(m.span),
                m.at,
                foot.word()
            ));
            for edits in edits::to_touch(s.text, m.span) {
                draft.offer(10, true, "say touch".to_string(), edits);
            }
            out.push(draft);
        }
    }
}
