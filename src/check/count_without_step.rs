//! A count or an & is written and nothing is danced on it.

use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::read::TroubleKind;
use crate::sheet::vocabulary::W;
use crate::sheet::words::Kind;
use crate::text::{Edit, Span};

pub(super) const NAME: &str = "count-without-step";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for t in s.troubles(|k| matches!(k, TroubleKind::Empty(_))) {
        let TroubleKind::Empty(ticks) = &t.kind else { continue };
        let Some(first) = ticks.first() else { continue };
        let chunk = chunk_of(s, t.span);
        let words = chunk.unwrap_or(t.span);
        let unread = s.unread_between(words.start, words.end);
        let severity = if unread { Severity::Note } else { Severity::Warning };
        let half = ticks.iter().all(|t| t.within() != 0);
        let list: Vec<String> = ticks.iter().map(ToString::to_string).collect();
        let counts = if list.len() == 1 { "count" } else { "counts" };
        let list = list.join(", ");
        let message = if half {
            format!(
                "The counts “{}” name {list}, and no step is left for it; take the & out, or write the missing step.",
                s.quote(t.span)
            )
        } else {
            format!(
                "The counts “{}” are more than the steps beside them: nothing is danced on {counts} {list}; write the missing step, or a hold.",
                s.quote(t.span)
            )
        };
        let place = Place { at: Some(*first), ..Place::of_trouble(t) };
        let mut draft = s.at(NAME, severity, t.span, place).says(message);
        if half {
            for edits in without_half(s.text, t.span) {
                let title = format!("count “{}”", crate::text::apply_to(s.text, t.span, &edits));
                draft.offer(12, false, title, edits);
            }
        } else if let Some(words) = chunk {
            let end = words.of(s.text).trim_end_matches(|c: char| !c.is_alphanumeric() && c != ')').len();
            let end = words.start as usize + end;
            for text in [", hold", " hold"] {
                let edit = Edit { span: Span::new(end, end), text: text.to_string() };
                draft.offer(14, false, format!("hold on {counts} {list}"), vec![edit]);
            }
        }
        out.push(draft);
    }
}

/// The words of the chunk that a count mark belongs to.
fn chunk_of(s: &Subject<'_>, mark: Span) -> Option<Span> {
    for section in s.sheet.parts.iter().flat_map(|p| &p.sections) {
        for c in section.chunks.iter().filter(|c| c.mark == mark && !mark.is_empty()) {
            let words = section.tokens.get(c.from..c.to)?;
            let words = words.iter().filter(|t| !t.sign('\n'));
            return Some(words.fold(Span::default(), |all, t| all.join(t.span)));
        }
    }
    None
}

fn without_half(text: &str, mark: Span) -> Vec<Vec<Edit>> {
    let t = edits::words(text, mark);
    let mut out = Vec::new();
    for (i, token) in t.iter().enumerate() {
        if !token.is(W::And) {
            continue;
        }
        let between = i > 0 && i + 1 < t.len() && matches!(t[i + 1].kind, Kind::Number(_));
        let from = if i > 0 { t[i - 1].span.end } else { token.span.start };
        let to = if between { t[i + 1].span.start } else { token.span.end };
        let new = if between { "-" } else { "" };
        out.push(vec![Edit { span: Span { start: from, end: to }, text: new.to_string() }]);
    }
    out.reverse();
    out
}
