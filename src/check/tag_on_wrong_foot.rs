//! A tag begins with the foot that has the weight, or leaves it on the foot that goes on.

use super::finding::Severity;
use super::flow::{clashes, danced, end_offers};
use super::subject::{Draft, Place, Subject};

pub(super) const NAME: &str = "tag-on-wrong-foot";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for c in clashes(s) {
        if let Some(tag) = c.to.tag.and_then(|t| s.dance().tags.get(t)) {
            let place = Place { part: c.to.part, section: c.first.section, at: Some(c.first.m.at) };
            let mut draft = s
                .at(NAME, Severity::Error, c.first.m.span, place)
                .says(format!(
                    "The tag after wall {} begins with the {} foot (“{}”), and the weight is on that foot then; begin the tag with the other foot, or change the last step before it.",
                    tag.wall,
                    c.foot.word(),
                    s.quote(c.first.m.span)
                ))
                .with(tag.span, "the tag");
            for edits in super::edits::other_foot(s.text, c.first.m.span) {
                draft.offer(14, false, format!("use the {} foot", c.foot.other().word()), edits);
            }
            out.push(draft);
        } else if let Some(tag) = c.from.tag.and_then(|t| s.dance().tags.get(t)) {
            let moves = danced(s, c.from);
            let Some(last) = moves.iter().rev().find(|d| d.m.takes().is_some()).or(moves.last()) else {
                continue;
            };
            let place = Place { part: c.from.part, section: last.section, at: Some(last.m.at) };
            let unread = s.unread_step_between(last.m.span.end, last.m.span.end + 120);
            let severity = if unread { Severity::Note } else { Severity::Error };
            let mut draft = s
                .at(NAME, severity, last.m.span, place)
                .says(format!(
                    "The tag after wall {} leaves the weight on the {} foot (“{}”), and the dance goes on with that foot (“{}”); end the tag with a touch, or with one more step.",
                    tag.wall,
                    c.foot.word(),
                    s.quote(last.m.span),
                    s.quote(c.first.m.span)
                ))
                .with(c.first.m.span, "the dance goes on here");
            end_offers(s, &mut draft, c.from, c.foot);
            out.push(draft);
        }
    }
}
