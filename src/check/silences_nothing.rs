//! Remarks in the sheet that keep a rule quiet: `(allow walls-differ)`.
//!
//! In a line with other words the remark speaks for that line; on a line of its own for the whole sheet. The
//! reader never sees it, so that "weight not free" is no word about the weight.

use std::borrow::Cow;

use super::finding::{Finding, Severity};
use super::rules;
use super::subject::{Draft, Subject};
use crate::letters::Letters as _;
use crate::text::Span;

pub(super) const NAME: &str = "silences-nothing";

/// A remark.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Remark {
    /// The rule.
    pub rule: &'static str,
    /// The words, brackets included.
    pub span: Span,
    /// The line that it speaks for; `None` for the whole sheet.
    pub line: Option<Span>,
}

/// All remarks of a text.
pub(super) fn remarks(text: &str) -> Vec<Remark> {
    let mut out = Vec::new();
    // Hardly any sheet has a remark.
    if !text.as_bytes().windows(5).any(|w| w[4] | 0x20 == b'w' && w.eq_ignore_ascii_case(b"allow")) {
        return out;
    }
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        let body = line.trim_end_matches(['\n', '\r']);
        if body.is_ascii() || body.small().len() == body.len() {
            in_line(body, at, &mut out);
        }
        at += line.len();
    }
    out
}

fn in_line(line: &str, start: usize, out: &mut Vec<Remark>) {
    let lower = line.to_ascii_lowercase();
    let mut from = 0;
    let first = out.len();
    while let Some(found) = lower[from..].find("allow") {
        let begin = from + found;
        let mut end = begin + "allow".len();
        from = end;
        let apart = lower[..begin].chars().next_back().is_none_or(|c| !c.is_alphanumeric());
        if !apart {
            continue;
        }
        let mut names = Vec::new();
        loop {
            let rest = &lower[end..];
            let gap = rest.len() - rest.trim_start_matches([' ', ',', '\t', ':']).len();
            let rest = &rest[gap..];
            let and = if names.is_empty() { 0 } else { rest.strip_prefix("and ").map_or(0, |_| 4) };
            let Some(name) = named(&rest[and..]) else { break };
            names.push(name);
            end += gap + and + name.len();
        }
        if names.is_empty() {
            continue;
        }
        from = end;
        let open = lower[..begin].trim_end().ends_with(['(', '[']);
        let close = lower[end..].trim_start().starts_with([')', ']']);
        let (a, b) = if open && close {
            let a = lower[..begin].trim_end().len() - 1;
            (a, end + (lower[end..].len() - lower[end..].trim_start().len()) + 1)
        } else {
            (begin, end)
        };
        for rule in names {
            out.push(Remark {
                rule,
                span: Span::new(start + a, start + b),
                line: Some(Span::new(start, start + line.len())),
            });
        }
    }
    // Nothing else on the line: the whole sheet is meant.
    let mut rest = line.to_string();
    for r in out[first..].iter().rev() {
        let range = r.span.start as usize - start..r.span.end as usize - start;
        rest.replace_range(range.clone(), &" ".repeat(range.len()));
    }
    if !rest.chars().any(char::is_alphanumeric) {
        for r in &mut out[first..] {
            r.line = None;
        }
    }
}

/// The rule whose name begins a text, written with hyphens or blanks.
fn named(rest: &str) -> Option<&'static str> {
    let same = |name: &str| {
        rest.len() >= name.len()
            && rest.is_char_boundary(name.len())
            && rest[..name.len()].bytes().zip(name.bytes()).all(|(a, b)| a == b || (a == b' ' && b == b'-'))
            && rest[name.len()..].chars().next().is_none_or(|c| !c.is_alphanumeric() && c != '-')
    };
    rules().iter().map(|r| r.name).find(|name| same(name))
}

/// The text without its remarks, every other byte at its place.
#[must_use]
pub fn hidden(text: &str) -> Cow<'_, str> {
    let remarks = remarks(text);
    if remarks.is_empty() {
        return Cow::Borrowed(text);
    }
    let mut out = text.to_string();
    for r in remarks {
        let range = r.span.range();
        out.replace_range(range.clone(), &" ".repeat(range.len()));
    }
    Cow::Owned(out)
}

/// Takes out what a remark or an option allows, and tells of remarks that allow nothing.
pub(super) fn silence(text: &str, drafts: &mut Vec<Draft>, allow: &[String]) {
    let remarks = remarks(text);
    let mut used = vec![false; remarks.len()];
    drafts.retain(|d| {
        let mut quiet = allow.iter().any(|a| a == d.finding.rule);
        for (r, used) in remarks.iter().zip(&mut used) {
            if r.rule == d.finding.rule && speaks_for(r, &d.finding) {
                *used = true;
                quiet = true;
            }
        }
        !quiet
    });
    for (r, used) in remarks.iter().zip(used) {
        if used || allow.iter().any(|a| a == NAME) {
            continue;
        }
        let mut draft = Subject::whole(NAME, Severity::Note, r.span).says(format!(
            "“{}” keeps nothing quiet, because nothing is found there; it can go.",
            r.span.of(text)
        ));
        let edit = crate::text::Edit { span: r.span, text: String::new() };
        draft.offer(1, true, "take the remark out".to_string(), vec![edit]);
        drafts.push(draft);
    }
}

fn speaks_for(r: &Remark, f: &Finding) -> bool {
    let Some(line) = r.line else { return true };
    let overlaps = |s: Span| s.start <= line.end && s.end >= line.start;
    overlaps(f.span) || f.related.iter().any(|x| overlaps(x.span))
}

/// Remarks are looked at after all rules, by [`silence`].
pub(super) fn run(_: &Subject<'_>, _: &mut Vec<Draft>) {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn remarks_speak_for_a_line_or_the_sheet() {
        let text = "1-2 R step (allow weight-not-free)\nAllow walls differ and total-differs\nallow me\n";
        let found: Vec<_> = remarks(text).into_iter().map(|r| (r.rule, r.line.is_some())).collect();
        assert_eq!(found, [("weight-not-free", true), ("walls-differ", false), ("total-differs", false)]);
        let hidden = hidden(text);
        assert_eq!(hidden.len(), text.len());
        assert!(hidden.starts_with("1-2 R step          "));
        assert!(hidden.ends_with("allow me\n"));
    }
}
