//! A count or an & is written and nothing is danced on it.

use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::dance::Action;
use crate::read::TroubleKind;
use crate::sheet::Slots;
use crate::sheet::vocabulary::W;
use crate::sheet::words::Kind;
use crate::text::{Edit, Span};
use crate::time::Ticks;

pub(super) const NAME: &str = "count-without-step";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for t in s.troubles(|k| matches!(k, TroubleKind::Empty(_))) {
        let TroubleKind::Empty(ticks) = &t.kind else { continue };
        let Some(first) = ticks.first() else { continue };
        let chunk = chunk_of(s, t.span);
        if chunk.is_some_and(|c| !c.of(s.text).chars().any(char::is_alphabetic)) {
            // "drag [2], [3]": the action before it goes on.
            continue;
        }
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
            // A step that names the foot with the weight is taken for a remark, and its count stays empty.
            for edits in edits::each_other_foot(s.text, words) {
                draft.offer(10, false, "name the other foot".to_string(), edits);
            }
            let end = words.of(s.text).trim_end_matches(|c: char| !c.is_alphanumeric() && c != ')').len();
            let end = words.start as usize + end;
            for text in [", hold", " hold"] {
                let edit = Edit { span: Span::new(end, end), text: text.to_string() };
                draft.offer(14, false, format!("hold on {counts} {list}"), vec![edit]);
            }
        }
        out.push(draft);
    }
    passed(s, out);
}

/// Counts with an & on one of which nothing falls, although the steps are spread over all of them.
fn passed(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for part in 0..s.dance().parts.len() {
        let Some(text) = s.part_text(part) else { continue };
        let moves = s.moves(part);
        for (i, section) in text.sections.iter().enumerate() {
            for c in &section.chunks {
                let Slots::At { ticks, range: false } = &c.slots else { continue };
                // "7 and 8" may be two counts.
                let halves = ticks.iter().any(|t| t.within() != 0) && c.mark.of(s.text).contains(['&', '+']);
                let words = section.tokens.get(c.from..c.to).unwrap_or(&[]);
                let words =
                    words.iter().filter(|t| !t.sign('\n')).fold(Span::default(), |all, t| all.join(t.span));
                if !halves || ticks.len() < 3 || c.mark.is_empty() || s.unread_between(words.start, words.end)
                {
                    continue;
                }
                if out.iter().any(|d| d.finding.rule == NAME && d.finding.span == c.mark) {
                    continue;
                }
                let here: Vec<_> = moves.iter().filter(|d| words.contains(d.m.span)).collect();
                let whole = |t: &Ticks| here.iter().any(|d| s.place(part, i, Some(*t)).at == Some(d.m.at));
                let missing: Vec<&Ticks> = ticks.iter().filter(|t| !whole(t)).collect();
                let [only] = missing[..] else { continue };
                let before = here.iter().rev().find(|d| d.m.span.end <= words.end).map(|d| d.m.action);
                let lasts = before.is_none_or(|a| {
                    !matches!(
                        a,
                        Action::Step | Action::Rock | Action::Recover | Action::Touch | Action::Stomp
                    )
                });
                if lasts || here.len() + 1 != ticks.len() {
                    continue;
                }
                let place = s.place(part, i, Some(*only));
                let mut draft = s.at(NAME, Severity::Warning, c.mark, place).says(format!(
                    "The counts “{}” are more than the steps beside them: nothing is danced on {only}; take the & out, or write the missing step.",
                    s.quote(c.mark)
                ));
                for edits in without_half(s.text, c.mark) {
                    let title = format!("count “{}”", crate::text::apply_to(s.text, c.mark, &edits));
                    draft.offer(12, false, title, edits);
                }
                out.push(draft);
            }
        }
    }
}

/// The words of the chunk that a count mark belongs to.
fn chunk_of(s: &Subject<'_>, mark: Span) -> Option<Span> {
    for section in s.sheet.parts.iter().flat_map(|p| &p.sections) {
        let own = section.chunks.iter().find(|c| c.mark == mark && !mark.is_empty());
        if let Some(words) = own.and_then(|c| section.tokens.get(c.from..c.to)) {
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
