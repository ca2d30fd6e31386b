//! The facing stated for a tag is not the one that the dance has then.

use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Subject};
use crate::sheet::words::Kind;
use crate::text::Edit;

pub(super) const NAME: &str = "tag-facing-differs";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    let dance = s.dance();
    for (i, tag) in dance.tags.iter().enumerate() {
        let Some((said, span)) = tag.stated else { continue };
        let Some(run) = dance.runs.iter().find(|x| x.tag == Some(i)) else { continue };
        if run.facing == said || run.facing_end == said {
            continue;
        }
        let severity =
            if s.unread_between(tag.span.start, tag.span.end) { Severity::Note } else { Severity::Warning };
        let mut draft = Subject::whole(NAME, severity, span).says(format!(
            "The tag after wall {} is said to face {said} and the dancers face {} then; correct the clock or the wall.",
            tag.wall, run.facing
        ));
        if let Some(edit) = edits::clock_like(s.text, span, run.facing) {
            draft.offer(8, false, format!("write {}", run.facing), vec![edit]);
        }
        let walls =
            dance.runs.iter().filter(|x| x.tag.is_none() && x.facing_end == said && x.wall != tag.wall);
        let near = walls.map(|x| x.wall).min_by_key(|w| w.abs_diff(tag.wall));
        if let Some(wall) = near {
            let words = edits::words(s.text, tag.span);
            if let Some(t) = words.iter().find(|t| t.kind == Kind::Number(tag.wall)) {
                let edit = Edit { span: t.span, text: wall.to_string() };
                draft.offer(18, false, format!("after wall {wall}"), vec![edit]);
            }
        }
        out.push(draft);
    }
}
