//! A section, or a line with a number of counts, is shorter or longer than it says, or than its neighbours.

use super::finding::Severity;
use super::subject::{Draft, Place, Subject, written_counts};
use crate::dance::{Action, Move, PartKind, Section};
use crate::read::TroubleKind;
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token};
use crate::sheet::{SectionText, Slots};
use crate::text::{Edit, Span};
use crate::time::Ticks;

pub(super) const NAME: &str = "wrong-length";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    said(s, out);
    slow(s, out);
    headings(s, out);
    neighbours(s, out);
}

/// Numbers of counts that the steps do not fill.
fn said(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for t in s.troubles(|k| matches!(k, TroubleKind::Total { .. })) {
        let TroubleKind::Total { said, got, section } = t.kind else { continue };
        let mut span = t.span;
        if section
            && let Some((_, words)) =
                s.part_text(t.part).and_then(|p| p.sections.get(t.section)).and_then(|x| x.counts)
        {
            span = words;
        }
        let unread = s.unread_between(t.span.start, t.span.end);
        let severity = if unread { Severity::Note } else { Severity::Warning };
        let what = if section { "This section" } else { "These steps" };
        let verb = if section { "is" } else { "are" };
        let place = Place::of_trouble(t);
        let message = format!(
            "{what} {verb} said to fill {said} counts and {} {got} as written; add what is missing, or change the number.",
            if section { "fills" } else { "fill" }
        );
        let mut draft = s.at(NAME, severity, span, place).says(message);
        if let Some(edit) = number_edit(s.text, span, said, u32::try_from(got).unwrap_or(0)) {
            draft.offer(20, false, format!("write {got} counts"), vec![edit]);
        }
        out.push(draft);
    }
}

/// A number of counts that only fits when one of several plain steps takes two: a step or a hold was left out.
fn slow(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for (p, part) in s.dance().parts.iter().enumerate() {
        let Some(text) = s.part_text(p) else { continue };
        for (i, (section, t)) in part.sections.iter().zip(&text.sections).enumerate() {
            let end = Ticks::of_count(i32::try_from(section.counts).unwrap_or(0) + 1);
            for (k, chunk) in t.chunks.iter().enumerate() {
                let Slots::Total(said) = chunk.slots else { continue };
                let words = t.tokens.get(chunk.from..chunk.to).unwrap_or(&[]);
                let all = words.iter().fold(chunk.mark, |all, t| all.join(t.span));
                let end = if k + 1 < t.chunks.len() { None } else { Some(end) };
                let Some(at) = long_step(section, all, words, end) else { continue };
                if s.unread_between(all.start, all.end) {
                    continue;
                }
                let got = said.saturating_sub(1);
                let message = format!(
                    "These steps are said to fill {said} counts and fill {got} as written; add what is missing, or change the number."
                );
                let place = s.place(p, i, Some(at));
                let mut draft = s.at(NAME, Severity::Warning, chunk.mark, place).says(message);
                if let Some(edit) = number_edit(s.text, chunk.mark, said, got) {
                    draft.offer(20, false, format!("write {got} counts"), vec![edit]);
                }
                out.push(draft);
            }
        }
    }
}

/// Where one plain step of at least three actions lasts two counts and all others one, though no word says so.
fn long_step(section: &Section, all: Span, words: &[Token], end: Option<Ticks>) -> Option<Ticks> {
    let tells = |t: &Token| matches!(t.kind, Kind::W(W::Slow | W::For | W::Count | W::Hold | W::Long));
    if words.iter().any(tells) {
        return None;
    }
    let mut moves: Vec<&Move> = section.moves.iter().filter(|m| all.contains(m.span)).collect();
    moves.dedup_by_key(|m| m.at);
    let last = moves.last().filter(|_| moves.len() >= 3)?;
    let next = section.moves.iter().map(|m| m.at).find(|at| *at > last.at);
    let ends = moves.iter().skip(1).map(|m| m.at).chain(end.or(next));
    let lasts: Vec<i32> = moves.iter().zip(ends).map(|(m, end)| end.0 - m.at.0).collect();
    let only = lasts.iter().position(|l| *l == 48)?;
    let rest = lasts.iter().filter(|l| **l == 24).count() + 1 == moves.len();
    let plain = moves[only].action == Action::Step && moves[only].takes().is_some();
    (rest && plain).then_some(moves[only].at)
}

fn number_edit(text: &str, span: Span, old: u32, new: u32) -> Option<Edit> {
    let words = super::edits::words(text, span);
    let t = words.iter().find(|t| t.kind == Kind::Number(old))?;
    Some(Edit { span: t.span, text: super::edits::number_like(t.span.of(text), new) })
}

/// Whether every step of a section has its counts.
fn counted(t: &SectionText) -> bool {
    !t.chunks.is_empty() && t.chunks.iter().all(|c| matches!(c.slots, Slots::At { .. }))
}

/// Count marks against the heading.
fn headings(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for part in 0..s.dance().parts.len() {
        let Some(text) = s.part_text(part) else { continue };
        for (i, t) in text.sections.iter().enumerate() {
            let (Some((n, span)), true) = (t.counts, counted(t)) else { continue };
            let (Some(got), Ok(said)) = (written_counts(t), i32::try_from(n)) else { continue };
            // "8&1" ends on the first count of the next section.
            let over = got == said + 1 && text.sections.get(i + 1).is_some_and(|next| next.carried);
            if got == said || over {
                continue;
            }
            let place = s.place(part, i, Some(Ticks::of_count(got.min(said) + 1)));
            let severity =
                if s.unread_between(t.span.start, t.span.end) { Severity::Note } else { Severity::Warning };
            let short = got < said;
            let mark = t.chunks.last().map_or(span, |c| c.mark);
            let message = if short {
                format!(
                    "The heading gives {said} counts and the steps end on count {got}; write what is danced on the rest, or a hold, or change the heading."
                )
            } else {
                format!(
                    "The heading gives {said} counts and the steps go on to count {got}; change the heading or the counts."
                )
            };
            let mut draft = s.at(NAME, severity, mark, place).says(message).with(span, "the heading says so");
            if short {
                for edits in hold_line(s.text, t, got, said) {
                    draft.offer(12, false, format!("hold on counts {} to {said}", got + 1), edits);
                }
            }
            if let Some(edit) = number_edit(s.text, span, n, u32::try_from(got).unwrap_or(0)) {
                draft.offer(20, false, format!("write {got} counts in the heading"), vec![edit]);
            }
            out.push(draft);
        }
    }
}

/// A line with a hold after the last line of a section, in the manner of that line.
fn hold_line(text: &str, t: &SectionText, got: i32, said: i32) -> Vec<Vec<Edit>> {
    let Some(last) = t.chunks.last() else { return Vec::new() };
    let words = t.tokens.get(last.from..last.to).unwrap_or(&[]);
    let words: Vec<_> = words.iter().filter(|t| !t.sign('\n')).collect();
    let all = words.iter().fold(last.mark, |all, t| all.join(t.span));
    let (from, to) = (got + 1 + t.base, said + t.base);
    let counts = if from == to { from.to_string() } else { format!("{from}-{to}") };
    let end = all.end as usize;
    let rest = text.get(end..).unwrap_or("");
    let stop = end + rest.find(['\n', '\r']).unwrap_or(rest.len());
    let line = text.get(..all.start as usize).and_then(|b| b.rfind('\n')).map_or(0, |n| n + 1);
    let blank: String =
        text.get(line..).unwrap_or("").chars().take_while(|c| matches!(c, ' ' | '\t')).collect();
    let behind = words.first().is_some_and(|w| w.span.start < last.mark.start);
    let new = if behind { format!("\n{blank}Hold ({counts})") } else { format!("\n{blank}{counts} Hold") };
    vec![vec![Edit { span: Span::new(stop, stop), text: new }]]
}

/// One section of another length than all others, where no heading says so.
fn neighbours(s: &Subject<'_>, out: &mut Vec<Draft>) {
    let main: Vec<usize> =
        (0..s.dance().parts.len()).filter(|p| s.dance().parts[*p].kind == PartKind::Main).collect();
    let [part] = main[..] else { return };
    let Some(text) = s.part_text(part) else { return };
    let sections = &s.dance().parts[part].sections;
    if !text.divided || text.sections.len() != sections.len() || sections.len() < 3 {
        return;
    }
    let usual = s.dance().head.metre.section();
    let sum: u32 = sections.iter().map(|x| x.counts).sum();
    let total = s.sheet.head.counts.map(|(n, _)| n);
    if total == Some(sum) {
        return;
    }
    let odd: Vec<usize> = (0..sections.len()).filter(|i| sections[*i].counts != usual).collect();
    let [i] = odd[..] else { return };
    let (t, got) = (&text.sections[i], sections[i].counts);
    let all = usual * u32::try_from(sections.len()).unwrap_or(0);
    let bar = s.dance().head.metre.beats();
    if t.counts.is_some() || !(total == Some(all) || (total.is_none() && got % bar != 0)) {
        return;
    }
    let (got, usual) = (i32::try_from(got).unwrap_or(0), i32::try_from(usual).unwrap_or(8));
    let severity =
        if s.unread_between(t.span.start, t.span.end) { Severity::Note } else { Severity::Warning };
    let place = s.place(part, i, Some(Ticks::of_count(got.min(usual) + i32::from(got < usual))));
    let span = t.chunks.last().map(|c| c.mark).filter(|m| !m.is_empty()).unwrap_or(t.span);
    let mut draft = s.at(NAME, severity, span, place).says(format!(
        "Section {} has {got} counts and every other section {usual}; {}.",
        i + 1,
        if got < usual { "write the missing steps, or a hold" } else { "one or more steps are too many" }
    ));
    if got < usual {
        for edits in hold_line(s.text, t, got, usual) {
            draft.offer(12, false, format!("hold on counts {} to {usual}", got + 1), edits);
        }
    }
    out.push(draft);
}
