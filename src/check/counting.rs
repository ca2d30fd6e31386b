//! Count marks one after the other.

use super::edits;
use super::subject::Subject;
use crate::sheet::Slots;
use crate::sheet::words::Kind;
use crate::text::{Edit, Span};

/// A count mark that does not follow the one before it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Step {
    pub part: usize,
    pub section: usize,
    /// Counts of the sheet's numbering minus counts of the section.
    pub base: i32,
    pub before: Span,
    pub mark: Span,
    /// The count that should come.
    pub expected: i32,
    /// The first count that does come.
    pub first: i32,
    pub last: i32,
    /// The first count of the mark after it.
    pub next: Option<i32>,
}

/// Every place where counts do not run on.
pub(super) fn steps(s: &Subject<'_>) -> Vec<Step> {
    let mut out = Vec::new();
    for part in 0..s.dance().parts.len() {
        let Some(text) = s.part_text(part) else { continue };
        for (section, t) in text.sections.iter().enumerate() {
            // First and last whole count of each mark; a leading half-count belongs to the count after it.
            let mut marks: Vec<(Span, i32, i32)> = Vec::new();
            let mut open = false;
            for c in &t.chunks {
                let Slots::At { ticks, .. } = &c.slots else {
                    open = true;
                    continue;
                };
                let (Some(a), Some(b)) = (ticks.first(), ticks.last()) else { continue };
                let leading = ticks.len() == 1 && a.within() != 0;
                if leading || c.mark.is_empty() {
                    open |= c.mark.is_empty();
                    continue;
                }
                marks.push((c.mark, (a.0 + 23).div_euclid(24), b.count()));
            }
            if open {
                // Steps without counts of their own may fill any gap.
                continue;
            }
            let mut reached: Option<(Span, i32)> = None;
            for (k, (mark, first, last)) in marks.iter().enumerate() {
                let expected = reached.map_or(1, |(_, l)| l + 1);
                let on_the_half = reached.is_some_and(|(_, l)| l == *first && first == last);
                if *first != expected && !on_the_half && (reached.is_some() || *first > 1) {
                    out.push(Step {
                        part,
                        section,
                        base: t.base,
                        before: reached.map_or(t.name, |(m, _)| m),
                        mark: *mark,
                        expected,
                        first: *first,
                        last: *last,
                        next: marks.get(k + 1).map(|m| m.1),
                    });
                }
                reached = Some((*mark, *last));
            }
        }
    }
    out
}

/// A count mark with all its numbers moved.
pub(super) fn renumbered(text: &str, mark: Span, shift: i32) -> Vec<Edit> {
    let mut out = Vec::new();
    for t in edits::words(text, mark) {
        match t.kind {
            Kind::Number(n) => {
                let Ok(n) = i32::try_from(n) else { continue };
                out.push(Edit { span: t.span, text: (n + shift).max(1).to_string() });
            }
            Kind::Fraction(_) => {
                let word = t.span.of(text);
                let Some((a, b)) = word.split_once('/') else { continue };
                if let (Ok(a), Ok(b)) = (a.parse::<i32>(), b.parse::<i32>()) {
                    out.push(Edit { span: t.span, text: format!("{}/{}", a + shift, b + shift) });
                }
            }
            _ => {}
        }
    }
    out
}
