//! Two steps on one moment: mostly an & that was lost.

use super::edits;
use super::finding::Severity;
use super::subject::{Danced, Draft, Place, Subject};
use crate::dance::{Effect, Who};
use crate::read::TroubleKind;
use crate::sheet::words::Kind;
use crate::text::{Edit, Span};

pub(super) const NAME: &str = "two-on-one-count";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    let mut last: Option<(usize, usize, Option<crate::time::Ticks>)> = None;
    for t in s.troubles(|k| *k == TroubleKind::TwoOnOne) {
        if last == Some((t.part, t.section, t.at)) {
            continue;
        }
        last = Some((t.part, t.section, t.at));
        let count = t.at.map_or(String::new(), |at| at.to_string());
        let mark = s.mark_at(t.span.start);
        let counted = mark.map_or(String::new(), |(m, _)| format!(" (“{}”)", s.quote(m)));
        let between = t.at.is_some_and(|at| at.within() != 0)
            && mark.is_some_and(|(_, ticks)| !ticks.contains(&t.at.unwrap_or_default()));
        let message = if between {
            format!(
                "“{}” has a step on {count}, and its counts do not{counted}; an & is missing in the counts.",
                s.quote(t.span)
            )
        } else {
            format!(
                "“{}” falls on count {count} together with the step before it{counted}, and two steps cannot share a moment; an & is missing in the counts, or there is a step too many.",
                s.quote(t.span)
            )
        };
        let mut draft = s.at(NAME, Severity::Error, t.span, Place::of_trouble(t)).says(message);
        if let Some((mark, _)) = mark {
            draft = draft.with(mark, "the counts of these steps");
            for (cost, edits) in halves(s.text, mark) {
                draft.offer(
                    cost,
                    false,
                    format!("count “{}”", crate::text::apply_to(s.text, mark, &edits)),
                    edits,
                );
            }
        }
        // A touch cut in two was meant as one step.
        let moves = s.moves(t.part);
        let there = |d: &&Danced<'_>| d.section == t.section && d.m.span.end <= t.span.start;
        if let Some(d) = moves.iter().rfind(there)
            && let (Who::One(foot), Effect::Free) = (d.m.who, d.m.effect)
            && t.at == Some(d.m.at)
        {
            for edits in edits::to_step(s.text, d.m.span, foot) {
                draft.offer(8, false, format!("step instead of “{}”", s.quote(d.m.span)), edits);
            }
        }
        out.push(draft);
    }
    marked(s, out);
}

/// Steps of two count marks that name the same moment.
fn marked(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for part in 0..s.dance().parts.len() {
        let moves = s.moves(part);
        for pair in moves.windows(2) {
            let (a, b) = (&pair[0], &pair[1]);
            let same = a.section == b.section && a.m.at == b.m.at;
            if !same || a.m.takes().is_none() || b.m.takes().is_none() || a.m.span == b.m.span {
                continue;
            }
            let (first, second) = if a.m.span < b.m.span { (a, b) } else { (b, a) };
            let marks = (s.mark_at(first.m.span.start), s.mark_at(second.m.span.start));
            let (Some((before, _)), Some((mark, ticks))) = marks else { continue };
            let told = |d: &Draft| d.finding.rule == NAME && d.finding.span == second.m.span;
            if before == mark || ticks.len() != 1 || out.iter().any(told) {
                continue;
            }
            let place = Place { part, section: second.section, at: Some(second.m.at) };
            let mut draft = s
                .at(NAME, Severity::Error, second.m.span, place)
                .says(format!(
                    "“{}” is counted “{}” as the step before it, and two steps cannot share a moment; count one of them on the next count, or on the &.",
                    s.quote(second.m.span),
                    s.quote(mark)
                ))
                .with(before, "the counts of the step before it");
            let numbers = edits::words(s.text, mark);
            let half = numbers.iter().find(|t| matches!(t.kind, Kind::Number(_)));
            draft.offer(
                8,
                false,
                "count it on the next count".to_string(),
                super::counting::renumbered(s, mark, 0, 1),
            );
            if let Some(t) = half {
                let edit = Edit { span: t.span, text: "&".to_string() };
                draft.offer(9, false, "count it on the &".to_string(), vec![edit]);
            }
            out.push(draft);
        }
    }
}

/// Ways to put an & into a count mark; between its last two numbers first.
pub(super) fn halves(text: &str, mark: Span) -> Vec<(u32, Vec<Edit>)> {
    let t = edits::words(text, mark);
    let mut out = Vec::new();
    for i in (0..t.len()).rev() {
        if !matches!(t[i].kind, Kind::Number(_) | Kind::Fraction(_)) {
            continue;
        }
        if let Kind::Fraction(_) = t[i].kind {
            let word = t[i].span.of(text);
            out.push((5, vec![Edit { span: t[i].span, text: word.replace('/', "&") }]));
            continue;
        }
        let before = (0..i).rev().find(|k| matches!(t[*k].kind, Kind::Number(_)));
        if let Some(k) = before {
            let gap = Span { start: t[k].span.end, end: t[i].span.start };
            if !gap.of(text).contains('&') {
                out.push((
                    5 + u32::try_from(t.len() - i).unwrap_or(9),
                    vec![Edit { span: gap, text: "&".into() }],
                ));
            }
        }
        let end = Span { start: t[i].span.end, end: t[i].span.end };
        if i + 1 == t.len() {
            out.push((30, vec![Edit { span: end, text: "&".into() }]));
        }
        if i == 0 {
            let start = Span { start: t[i].span.start, end: t[i].span.start };
            out.push((32, vec![Edit { span: start, text: "&".into() }]));
        }
    }
    out
}
