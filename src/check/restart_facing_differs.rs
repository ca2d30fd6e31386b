//! The facing stated for a restart is not the one that the dance has then.

use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Subject};
use crate::sheet::words::Kind;
use crate::text::Edit;

pub(super) const NAME: &str = "restart-facing-differs";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    let dance = s.dance();
    for (i, r) in dance.restarts.iter().enumerate() {
        let Some((said, span)) = r.stated else { continue };
        let Some(run) = dance.runs.iter().find(|x| x.restart == Some(i)) else { continue };
        // "On wall 3 (facing 6:00)" is often said of the wall's beginning.
        if run.facing_end == said || run.facing == said {
            continue;
        }
        let severity =
            if s.unread_between(r.span.start, r.span.end) { Severity::Note } else { Severity::Warning };
        let mut draft = Subject::whole(NAME, severity, span).says(format!(
            "The restart on wall {} is said to face {said}; wall {} begins at {} and after {} counts the dancers face {}; correct the clock, the wall or the count.",
            r.wall, r.wall, run.facing, r.after_counts, run.facing_end
        ));
        if let Some(edit) = edits::clock_like(s.text, span, run.facing_end) {
            draft.offer(8, false, format!("write {}", run.facing_end), vec![edit]);
        }
        // Another wall on which the same count faces as stated.
        let turn = run.facing_end.units() - run.facing.units();
        let walls: Vec<u32> = dance
            .runs
            .iter()
            .filter(|x| x.tag.is_none() && x.from == 0 && x.wall != r.wall)
            .filter(|x| (x.facing.units() + turn - said.units()).rem_euclid(48) == 0)
            .map(|x| x.wall)
            .collect();
        let near = walls.iter().min_by_key(|w| w.abs_diff(r.wall));
        if let Some(wall) = near {
            let words = edits::words(s.text, r.span);
            if let Some(t) = words.iter().find(|t| t.kind == Kind::Number(r.wall)) {
                let edit = Edit { span: t.span, text: wall.to_string() };
                draft.offer(18, false, format!("restart on wall {wall}"), vec![edit]);
            }
        }
        out.push(draft);
    }
}
