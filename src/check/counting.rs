//! Count marks one after the other.

use super::edits;
use super::subject::Subject;
use crate::sheet::words::Kind;
use crate::sheet::{Chunk, SectionText, Slots};
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
    /// Steps without counts of their own may fill what is missing.
    pub open: bool,
}

/// Every place where counts do not run on.
pub(super) fn steps(s: &Subject<'_>) -> Vec<Step> {
    let mut out = Vec::new();
    let usual = i32::try_from(s.dance().head.metre.section()).unwrap_or(8);
    for part in 0..s.dance().parts.len() {
        let Some(text) = s.part_text(part) else { continue };
        for (section, t) in text.sections.iter().enumerate() {
            // First and last whole count of each mark; a leading half-count belongs to the count after it.
            let mut marks: Vec<(Span, i32, i32)> = Vec::new();
            let mut open = false;
            for (k, c) in t.chunks.iter().enumerate() {
                let Slots::At { ticks, .. } = &c.slots else {
                    match again(t, k) {
                        Some(n) => marks.push((c.mark, n, n)),
                        None => open = true,
                    }
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
            let end = t.counts.and_then(|(n, _)| i32::try_from(n).ok()).unwrap_or(usual);
            let mut reached: Option<(Span, i32)> = None;
            let mut outer = (0, 0);
            for (k, (mark, first, last)) in marks.iter().enumerate() {
                // "1-3 step forward (1), sweep (2-3)" counts the same steps once more, and after a whole section
                // another may begin without a heading.
                let within =
                    outer.0 <= *first && *last <= outer.1 && (*first, *last) != outer && outer.0 < outer.1;
                let anew = *first == 1 && reached.is_some_and(|(_, l)| l > 1 && l % usual == 0);
                if within || anew {
                    if anew {
                        reached = Some((*mark, *last));
                        outer = (*first, *last);
                    }
                    continue;
                }
                outer = (*first, *last);
                let expected = reached.map_or(1 + i32::from(t.carried), |(_, l)| l + 1);
                let next = marks.get(k + 1).map(|m| m.1);
                // What would come next, if this mark followed the one before it.
                let then = last + expected - first + 1;
                let follows = next.map_or(then == end + 1, |n| n == then);
                let on_the_half = reached.is_some_and(|(_, l)| l == *first && first == last) && !follows;
                let mut last_danced = *last;
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
                        next,
                        open,
                    });
                    if *first < expected && follows {
                        // One slip of the pen: what comes next is right.
                        last_danced = then - 1;
                    }
                }
                reached = Some((*mark, last_danced));
            }
        }
    }
    out
}

/// The count that a number in the middle of counts gives once more, where it looks like a number of counts:
/// "forward (1), left (2), right (2), left (4)".
fn again(t: &SectionText, k: usize) -> Option<i32> {
    let Slots::Total(n) = t.chunks[k].slots else { return None };
    let n = i32::try_from(n).ok()? - t.base;
    let single = |c: &Chunk| match &c.slots {
        Slots::At { ticks, .. } if ticks.len() == 1 => Some(ticks[0].count()),
        _ => None,
    };
    let before = t.chunks[..k].last().and_then(single)?;
    let after = t.chunks.get(k + 1).and_then(single)?;
    (before == n && after == n + 2).then_some(n)
}

/// A count mark with all its numbers moved.
pub(super) fn renumbered(s: &Subject<'_>, mark: Span, base: i32, shift: i32) -> Vec<Edit> {
    let (text, mut out) = (s.text, Vec::new());
    let own: Vec<u32> = s
        .mark_at(mark.start)
        .map(|(_, ticks)| ticks.iter().filter_map(|t| u32::try_from(t.count() + base).ok()).collect())
        .unwrap_or_default();
    for t in edits::words(text, mark) {
        match t.kind {
            // "123", "56&": every digit is a count.
            Kind::Number(n) if n > 12 && !own.contains(&n) => {
                let word = t.span.of(text);
                let digit =
                    |c: char| i32::try_from(c.to_digit(10)?).ok().map(|d| (d + shift).max(1).to_string());
                if let Some(text) = word.chars().map(digit).collect::<Option<String>>() {
                    out.push(Edit { span: t.span, text });
                }
            }
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

/// A line of its own before that of a count mark, in the manner of that line: other counts, other words.
pub(super) fn line_before(s: &Subject<'_>, mark: Span, counts: &str, words: &str) -> Option<Edit> {
    let at = mark.start as usize;
    let from = s.text.get(..at)?.rfind('\n').map_or(0, |n| n + 1);
    let to = at + s.text.get(at..)?.find('\n')?;
    let line = Span::new(from, to);
    let inside = |x: Span| line.contains(x) && !x.is_empty();
    let sections = s.sheet.parts.iter().flat_map(|p| &p.sections);
    let marks = |x: &&crate::sheet::SectionText| x.chunks.iter().filter(|c| inside(c.mark)).count();
    let section = sections.into_iter().find(|x| x.chunks.iter().any(|c| c.mark == mark))?;
    if marks(&section) != 1 {
        return None;
    }
    let chunk = section.chunks.iter().find(|c| c.mark == mark)?;
    let own = section.tokens.get(chunk.from..chunk.to)?.iter().map(|t| t.span);
    let own = own.filter(|x| inside(*x) && !x.of(s.text).trim().is_empty()).reduce(Span::join)?;
    let (first, last) =
        if own.start < mark.start { ((own, words), (mark, counts)) } else { ((mark, counts), (own, words)) };
    if first.0.end > last.0.start {
        return None;
    }
    let cut = |a: usize, b: usize| s.text.get(a..b).unwrap_or("");
    let text = format!(
        "{}{}{}{}{}\n",
        cut(from, first.0.start as usize),
        first.1,
        cut(first.0.end as usize, last.0.start as usize),
        last.1,
        cut(last.0.end as usize, to)
    );
    Some(Edit { span: Span::new(from, from), text })
}

/// Words with counts of their own before those of a count mark, in the same line.
pub(super) fn words_before(s: &Subject<'_>, mark: Span, counts: &str, words: &str) -> Option<Edit> {
    let sections = s.sheet.parts.iter().flat_map(|p| &p.sections);
    let section = sections.into_iter().find(|x| x.chunks.iter().any(|c| c.mark == mark))?;
    let chunk = section.chunks.iter().find(|c| c.mark == mark)?;
    let own = section.tokens.get(chunk.from..chunk.to)?.iter().map(|t| t.span);
    let own = own.filter(|x| !x.of(s.text).trim().is_empty()).reduce(Span::join)?;
    if own.start < mark.start {
        let before = s.text.get(..own.start as usize)?.trim_end();
        let sign = if before.ends_with(',') { "," } else { "." };
        let text = format!("{words} ({counts}){sign} ");
        return Some(Edit { span: Span::new(own.start as usize, own.start as usize), text });
    }
    let before = s.text.get(..mark.start as usize)?;
    let open = before.ends_with('(');
    let at = before.len() - usize::from(open);
    let text = if open { format!("({counts}) {words}, ") } else { format!("{counts} {words}. ") };
    Some(Edit { span: Span::new(at, at), text })
}
