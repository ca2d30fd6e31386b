//! Sections that stand side by side, each under its own label, with lines that bring their own counts.

use core::ops::Range;

use super::{Page, Told};
use crate::sheet::labels::{Label, label};
use crate::sheet::lines::{Line, line_of};
use crate::sheet::words::tokens;
use crate::text::Span;

/// Blanks that part two columns.
const GAP: &str = "  ";
/// How far the words of a column may stand from where its label begins.
const SHIFT: usize = 3;

/// The sections whose labels stand side by side in line `i`, and the line behind their last.
pub(super) fn read(page: Page<'_>, i: usize) -> Option<(Vec<Line>, usize)> {
    let head = page.of(i);
    if !head.trim().contains(GAP) && !head.contains('|') {
        return None;
    }
    let labels = cells(head);
    if labels.len() < 2 || labels.len() > 4 {
        return None;
    }
    let start = page.raw[i].start;
    let shift = |c: &Range<usize>| start + c.start..start + c.end;
    let (mut heads, mut told): (Vec<Line>, Vec<Label>) = (Vec::new(), Vec::new());
    for cell in &labels {
        let head = line(page, &shift(cell), true);
        let label = label(page.text, &head).filter(|l| l.certain)?;
        if told.last().is_some_and(|before| !follow(before, &label)) {
            return None;
        }
        heads.push(head);
        told.push(label);
    }
    let mut columns: Vec<Vec<Range<usize>>> = vec![Vec::new(); labels.len()];
    let mut end = i + 1;
    for k in i + 1..page.raw.len() {
        let words = page.of(k);
        // A rule below the labels, or an empty line after some rows.
        if words.chars().all(|c| c.is_whitespace() || matches!(c, '-' | '=' | '_' | '|' | '+')) {
            if words.trim().is_empty() && end > i + 1 {
                break;
            }
            continue;
        }
        let row = if head.contains('|') {
            let cells = barred(words);
            (cells.len() == labels.len()).then_some(cells)
        } else {
            let starts: Vec<usize> = labels.iter().map(|c| head[..c.start].chars().count()).collect();
            cut(words, &starts)
        };
        let Some(row) = row else { break };
        for (column, cell) in columns.iter_mut().zip(row) {
            if !words[cell.clone()].trim().is_empty() {
                column.push(page.raw[k].start + cell.start..page.raw[k].start + cell.end);
            }
        }
        end = k + 1;
    }
    // The first line of each tells a count.
    let counted = |c: &Vec<Range<usize>>| {
        c.len() >= 2 && line(page, &c[0], true).leading(page.text).is_some_and(|m| m.ticks.len() >= 2)
    };
    if !columns.iter().all(counted) {
        return None;
    }
    let mut out = Vec::new();
    for ((mut head, label), rows) in heads.into_iter().zip(told).zip(columns) {
        head.told = Some(Told::Heading(Some(label)));
        out.push(head);
        out.extend(rows.iter().map(|r| line(page, r, false)));
    }
    Some((out, end))
}

/// The words of a line in its bytes.
fn line(page: Page<'_>, range: &Range<usize>, gap: bool) -> Line {
    let words = &page.text[range.clone()];
    let from = range.start + (words.len() - words.trim_start().len());
    let to = (range.start + words.trim_end().len()).max(from);
    line_of(page.text, Span::new(from, to), tokens(page.text, from..to, page.vocabulary), gap)
}

/// Whether one label counts on from another: by numbers, by counts or by letters.
fn follow(a: &Label, b: &Label) -> bool {
    let next = |a: char, b: char| u32::from(b) == u32::from(a) + 1;
    match (a.number, b.number, a.range, b.range, a.letter, b.letter) {
        (Some(a), Some(b), ..) => b == a + 1,
        (_, _, Some((_, a)), Some((b, _)), ..) => b == a + 1 || b == 1,
        (_, _, _, _, Some(a), Some(b)) => next(a, b),
        _ => false,
    }
}

/// The cells of a line of labels.
fn cells(line: &str) -> Vec<Range<usize>> {
    if line.contains('|') {
        return barred(line);
    }
    let mut out = Vec::new();
    let mut at = 0;
    for part in line.split(GAP) {
        let end = at + part.len();
        if !part.trim().is_empty() {
            out.push(at + (part.len() - part.trim_start().len())..end);
        }
        at = end + GAP.len();
    }
    out
}

/// The cells between bars; a bar at the edge of a line parts nothing.
fn barred(line: &str) -> Vec<Range<usize>> {
    let from = line.len() - line.trim_start().trim_start_matches('|').len();
    let to = line.trim_end().trim_end_matches('|').len().max(from);
    let mut out = Vec::new();
    let mut at = from;
    for part in line[from..to].split('|') {
        out.push(at..at + part.len());
        at += part.len() + 1;
    }
    out
}

/// A line cut near these places, counted in characters; nothing where words run across one.
fn cut(line: &str, starts: &[usize]) -> Option<Vec<Range<usize>>> {
    let bytes: Vec<usize> = line.char_indices().map(|(b, _)| b).chain([line.len()]).collect();
    let blank = |k: usize| bytes.get(k..k + 2).is_none_or(|b| line[b[0]..b[1]].trim().is_empty());
    let mut out = Vec::new();
    let mut from = 0;
    for start in &starts[1..] {
        let near = (0..=SHIFT).flat_map(|d| [start.saturating_sub(d), start + d]);
        // The line is over, or two blanks end here.
        let at = near
            .filter(|k| *k >= 2)
            .find(|k| *k >= bytes.len() || blank(k - 1) && blank(k - 2) && !blank(*k))
            .or_else(|| (bytes.len() - 1 <= *start).then_some(*start))?;
        let at = bytes.get(at).copied().unwrap_or(line.len());
        out.push(from..at);
        from = at;
    }
    out.push(from..line.len());
    Some(out)
}
