//! The end of the dance leaves the weight on the foot that begins it again.

use super::finding::Severity;
use super::flow::{clashes, danced, end_offers, main_run};
use super::subject::{Draft, Place, Subject};

pub(super) const NAME: &str = "end-on-wrong-foot";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for c in clashes(s) {
        if !main_run(s, c.from) || c.from.restart.is_some() || !main_run(s, c.to) || c.to.from > 0 {
            continue;
        }
        let moves = danced(s, c.from);
        let Some(last) = moves.iter().rev().find(|d| d.m.takes().is_some()).or(moves.last()) else {
            continue;
        };
        let place = Place { part: c.from.part, section: last.section, at: Some(last.m.at) };
        let name = |part: usize| {
            let n = s.dance().parts[part].name.clone();
            if n == "main" { "the dance".to_string() } else { format!("part {n}") }
        };
        let unread = s.unread_step_between(last.m.span.end, last.m.span.end + 200);
        let severity = if unread { Severity::Note } else { Severity::Error };
        let mut draft = s
            .at(NAME, severity, last.m.span, place)
            .says(format!(
                "After “{}” the weight is on the {} foot, and {} begins with that foot (“{}”); end with a touch, or with the other foot.",
                s.quote(last.m.span),
                c.foot.word(),
                name(c.to.part),
                s.quote(c.first.m.span)
            ))
            .with(c.first.m.span, "it goes on here");
        end_offers(s, &mut draft, c.from, c.foot);
        out.push(draft);
    }
}
