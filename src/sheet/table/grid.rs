//! Tables with a row of heads: cut by bars, tabs, semicolons, commas or wide gaps.

use core::ops::Range;

use super::cells::Cell;
use super::heads::header;
use super::roles::roles;
use super::rows::{Item, lines, marks};
use super::{Page, Told};
use crate::sheet::lines::{Line, line_of};
use crate::text::Span;

/// What stands between the cells of a row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Bar {
    /// Strokes; the flag says that one stands before the first cell, too.
    Pipe(bool),
    Tab,
    /// Tabs that were typed until the columns stood right.
    Tabs,
    /// A sign between cells that may stand in quotation marks.
    Sign(char),
    /// A sign with a blank behind it, and before it unless it is a colon.
    Spaced(char),
    /// Blanks: the columns begin at these characters of the line.
    Wide(Vec<usize>),
}

/// So many lines that are no rows may stand between two rows.
pub(super) const APART: usize = 8;

/// Strokes between cells, as keyboards and box drawings have them.
const STROKES: [char; 5] = ['|', '│', '┃', '║', '｜'];

fn trimmed(text: &str, range: Range<usize>) -> Range<usize> {
    let words = &text[range.clone()];
    let from = range.start + (words.len() - words.trim_start().len());
    from..(from + words.trim().len()).max(from)
}

/// Where a sign stands in a line.
fn at_signs(text: &str, range: Range<usize>, bar: char) -> impl Iterator<Item = usize> {
    // The first byte of a sign beyond ASCII may be that of another one.
    let mut first = [0; 4];
    let first = bar.encode_utf8(&mut first).as_bytes()[0];
    let bytes = text.as_bytes()[range.clone()].iter().enumerate();
    let found = bytes.filter(move |(_, b)| **b == first).map(move |(i, _)| range.start + i);
    found.filter(move |i| bar.is_ascii() || text[*i..].starts_with(bar))
}

/// The bytes of a line between signs; a doubled sign in quotation marks is no border.
fn cut(text: &str, range: Range<usize>, bar: char, quotes: bool) -> Vec<Range<usize>> {
    let mut out = Vec::with_capacity(8);
    let mut at = range.start;
    let quotes = quotes && text[range.clone()].contains('"');
    let (mut inside, mut seen) = (false, range.start);
    for i in at_signs(text, range.clone(), bar) {
        if quotes {
            inside ^= text[seen..i].matches('"').count() % 2 == 1;
            seen = i;
        }
        if !inside {
            out.push(at..i);
            at = i + bar.len_utf8();
        }
    }
    out.push(at..range.end);
    out
}

/// The bytes of a line between strokes of any kind.
fn by_strokes(text: &str, range: Range<usize>) -> Vec<Range<usize>> {
    if text[range.clone()].is_ascii() {
        return cut(text, range, '|', false);
    }
    let mut out = Vec::with_capacity(8);
    let mut at = range.start;
    for (i, stroke) in text[range.clone()].match_indices(STROKES) {
        out.push(at..range.start + i);
        at = range.start + i + stroke.len();
    }
    out.push(at..range.end);
    out
}

/// The bytes of a line between signs that have blanks around them.
fn spaced(text: &str, range: Range<usize>, bar: char) -> Vec<Range<usize>> {
    let mut out = Vec::with_capacity(4);
    let mut at = range.start;
    for i in at_signs(text, range.clone(), bar) {
        let end = i + bar.len_utf8();
        let before = bar == ':' || text[at..i].ends_with([' ', '\u{a0}']);
        let behind = end == range.end || text[end..].starts_with([' ', '\u{a0}']);
        if before && behind {
            out.push(at..i);
            at = end;
        }
    }
    out.push(at..range.end);
    out
}

fn blank(c: char) -> bool {
    matches!(c, ' ' | '\u{a0}' | '\u{3000}')
}

/// Whether a line may have two blanks side by side.
pub(super) fn gapped(line: &str) -> bool {
    let (mut before, mut plain) = (false, true);
    for b in line.bytes() {
        if b == b' ' && before {
            return true;
        }
        before = b == b' ';
        plain &= b.is_ascii();
    }
    !plain
}

/// The first stretch of a line up to two blanks.
pub(super) fn first_piece(text: &str, range: Range<usize>) -> Option<Range<usize>> {
    let words = &text[range.clone()];
    let rest = words.trim_start_matches(blank);
    let from = range.start + (words.len() - rest.len());
    let (mut end, mut blanks) = (0, 0);
    for (i, c) in rest.char_indices() {
        if blank(c) {
            blanks += 1;
            if blanks >= 2 {
                break;
            }
        } else {
            (end, blanks) = (i + c.len_utf8(), 0);
        }
    }
    (end > 0).then_some(from..from + end)
}

/// Stretches of a line between two blanks or more, with the character at which each begins.
pub(super) fn pieces(text: &str, range: Range<usize>) -> Vec<(usize, Range<usize>)> {
    let mut out: Vec<(usize, Range<usize>)> = Vec::new();
    let mut blanks = 2;
    for (column, (i, c)) in text[range.clone()].char_indices().enumerate() {
        let at = range.start + i;
        if blank(c) {
            blanks += 1;
            continue;
        }
        let end = at + c.len_utf8();
        match out.last_mut().filter(|_| blanks < 2) {
            Some((_, r)) => r.end = end,
            None => out.push((column, at..end)),
        }
        blanks = 0;
    }
    out
}

/// The cells of a line by the columns at which they begin.
fn by_columns(text: &str, range: Range<usize>, starts: &[usize]) -> Vec<Range<usize>> {
    let parts = pieces(text, range.clone());
    let mut out: Vec<Range<usize>> = vec![range.end..range.end; starts.len()];
    // Cells may stand a little beside their heads, not nearer to another one.
    let own = parts.iter().zip(starts).enumerate().skip(1).all(|(k, ((at, _), start))| {
        at * 2 > start + starts[k - 1] && starts.get(k + 1).is_none_or(|next| at * 2 < start + next)
    });
    if parts.len() == starts.len() && parts.len() > 1 && own {
        for (o, (_, r)) in out.iter_mut().zip(parts) {
            *o = r;
        }
        return out;
    }
    for (column, part) in parts {
        // A cell that fills its column has only one blank behind it.
        let mut rest = part;
        let mut column = column;
        loop {
            let k = starts.iter().rposition(|s| *s <= column + 1).unwrap_or(0);
            let border = starts.get(k + 1).and_then(|next| {
                let ahead = next.checked_sub(column)?;
                let words = &text[rest.clone()];
                let at = words.char_indices().nth(ahead)?.0;
                (ahead > 0 && words[..at].ends_with(' ')).then_some((at, *next))
            });
            let here = match border {
                Some((at, _)) => trimmed(text, rest.start..rest.start + at),
                None => rest.clone(),
            };
            out[k] = if out[k].is_empty() { here } else { out[k].start..here.end };
            let Some((at, next)) = border else { break };
            rest = rest.start + at..rest.end;
            column = next;
        }
    }
    out
}

impl Bar {
    /// The cells of a line.
    pub(super) fn cells(&self, page: Page<'_>, range: Range<usize>) -> Vec<Cell> {
        self.cut(page.text, range).into_iter().map(|r| Cell::new(page, r)).collect()
    }

    /// The bytes of the cells of a line: what they are is often enough to know that it is no row.
    pub(super) fn cut(&self, text: &str, range: Range<usize>) -> Vec<Range<usize>> {
        match self {
            Bar::Pipe(before) => {
                let words = text[range.clone()].trim();
                let mut parts = by_strokes(text, range);
                if *before && words.starts_with(STROKES) {
                    parts.remove(0);
                }
                if words.ends_with(STROKES) && parts.len() > 1 {
                    parts.pop();
                }
                parts
            }
            Bar::Tab => cut(text, range, '\t', false),
            Bar::Tabs => {
                let mut parts = cut(text, range, '\t', false);
                let first = parts.first().cloned();
                parts.retain(|r| !text[r.clone()].trim().is_empty() || Some(r) == first.as_ref());
                parts
            }
            Bar::Sign(c) => cut(text, range, *c, true)
                .into_iter()
                .map(|r| {
                    let r = trimmed(text, r);
                    let words = &text[r.clone()];
                    let quoted = words.len() > 2 && words.starts_with('"') && words.ends_with('"');
                    // Cells with commas in them must be quoted; so may be any others.
                    if quoted { r.start + 1..r.end - 1 } else { r }
                })
                .collect(),
            Bar::Spaced(c) => spaced(text, range, *c),
            Bar::Wide(starts) => by_columns(text, range, starts),
        }
    }

    /// Whether a line is cut by it at all.
    pub(super) fn cuts(&self, words: &str) -> bool {
        match self {
            Bar::Pipe(_) => words.contains(STROKES),
            Bar::Tab | Bar::Tabs => words.trim_matches(' ').contains('\t'),
            Bar::Sign(c) => words.contains(*c),
            Bar::Spaced(c) => words.contains(*c),
            Bar::Wide(_) => words.starts_with("    ") || words.trim().contains("  "),
        }
    }
}

/// Whether a line holds only the strokes of a rule.
pub(super) fn rule(words: &str) -> bool {
    let words = words.trim();
    words.len() >= 3
        && words.contains(['-', '=', '_', '─', '━', '═', '~', '*'])
        && words.chars().all(|c| {
            matches!(c, '-' | '=' | '+' | '|' | '｜' | '_' | ':' | '*' | '~' | ' ' | '\t' | ',' | ';')
                || ('\u{2500}'..='\u{257f}').contains(&c)
        })
}

/// Signs that may stand between cells with blanks around them.
const SPACED: [char; 8] = ['/', '-', '–', '—', '·', '•', ':', '>'];

/// The ways in which a line may be cut, likeliest first.
fn bars(page: Page<'_>, i: usize) -> Vec<Bar> {
    let words = page.of(i);
    // One look at the bytes tells what the line cannot be cut by.
    let mut count = [0_u8; 128];
    for b in words.bytes() {
        let n = &mut count[usize::from(b & 127)];
        *n = n.saturating_add(u8::from(b < 128));
    }
    let ascii = words.is_ascii();
    let often = |c: &char| match u8::try_from(*c) {
        Ok(b) if b < 128 => count[usize::from(b)] >= 2,
        _ => !ascii && words.matches(*c).nth(1).is_some(),
    };
    let mut out = Vec::new();
    if count[usize::from(b'|')] > 0 || !ascii && words.contains(STROKES) {
        out.push(Bar::Pipe(words.trim_start().starts_with(STROKES)));
    }
    if count[usize::from(b'\t')] > 0 && words.trim().contains('\t') {
        out.push(if words.trim().contains("\t\t") { Bar::Tabs } else { Bar::Tab });
    }
    if !out.is_empty() {
        return out;
    }
    if gapped(words) {
        let parts = pieces(page.text, page.raw[i].clone());
        if parts.len() >= 2 {
            out.push(Bar::Wide(parts.iter().map(|p| p.0).collect()));
        }
    }
    out.extend([';', ','].into_iter().filter(often).map(Bar::Sign));
    out.extend(SPACED.into_iter().filter(often).map(Bar::Spaced));
    out
}

/// A line as one kind of bar cuts it.
pub(super) struct Cut {
    pub bar: Bar,
    /// The bytes of the cells.
    pub cells: Vec<Range<usize>>,
}

/// The ways in which a line may be cut into two cells or more, likeliest first.
pub(super) fn cuts(page: Page<'_>, i: usize) -> Vec<Cut> {
    let mut out = Vec::new();
    for bar in bars(page, i) {
        let range = page.raw[i].clone();
        // The columns of a line by itself begin where its own stretches do.
        let cells = match &bar {
            Bar::Wide(_) => pieces(page.text, range).into_iter().map(|p| p.1).collect(),
            _ => bar.cut(page.text, range),
        };
        if cells.len() >= 2 {
            out.push(Cut { bar, cells });
        }
    }
    out
}

/// The items below line `i`, as far as rows may reach.
pub(super) fn items(page: Page<'_>, i: usize, bar: &Bar) -> (Vec<Item>, Vec<usize>) {
    let mut out = Vec::new();
    let mut at = Vec::new();
    let mut others = 0;
    for k in i..page.raw.len() {
        let words = page.of(k);
        let range = page.raw[k].clone();
        if words.trim().is_empty() || rule(words) {
            out.push(Item::Gap);
            at.push(k);
            continue;
        }
        let item = if bar.cuts(words) {
            let cells = bar.cut(page.text, range.clone());
            // Another row of heads begins another table.
            if k > i && header(page, &cells) {
                break;
            }
            others = 0;
            Item::Row(cells.into_iter().map(|r| Cell::new(page, r)).collect(), range)
        } else {
            others += 1;
            Item::Other(range)
        };
        if others > APART {
            break;
        }
        out.push(item);
        at.push(k);
    }
    (out, at)
}

/// The table whose heads stand in line `i`, which may be cut in these ways: its lines, and the line behind it.
pub(super) fn read(page: Page<'_>, i: usize, cuts: &[Cut]) -> Option<(Vec<Line>, usize)> {
    let bar = &cuts.iter().find(|c| header(page, &c.cells))?.bar;
    let heads = bar.cells(page, page.raw[i].clone());
    let (mut items, at) = items(page, i + 1, bar);
    for item in &mut items {
        if let Item::Row(cells, _) = item {
            fit(cells, heads.len(), bar);
        }
    }
    let rows: Vec<&[Cell]> = items
        .iter()
        .filter_map(Item::cells)
        .filter(|c| c.iter().filter(|c| !c.empty()).count() > 1)
        .collect();
    let roles = roles(page.text, Some(&heads), &rows)?;
    let counts = marks(page.text, &items, &roles);
    let last = counts.iter().rposition(Option::is_some)?;
    let found: Vec<_> = counts.iter().flatten().collect();
    if found.len() < 2 && found.first().is_none_or(|m| m.first() != 1) {
        return None;
    }
    // What stands right below in the same columns still belongs to it.
    let mut end = last + 1;
    while matches!(items.get(end), Some(Item::Row(..))) && matches!(bar, Bar::Pipe(_) | Bar::Tab) {
        end += 1;
    }
    items.truncate(end);
    let mut head = line_of(page.text, Span::new(page.raw[i].start, page.raw[i].end), Vec::new(), true);
    head.told = Some(Told::Left);
    let mut out = vec![head];
    out.extend(lines(page, items, &roles));
    Some((out, at[end - 1] + 1))
}

/// A row with more cells than heads has the sign of the columns in its last cell.
fn fit(cells: &mut Vec<Cell>, width: usize, bar: &Bar) {
    if cells.len() > width && *bar != Bar::Tabs {
        let extra: Vec<Cell> = cells.drain(width..).collect();
        if let Some(last) = cells.last_mut() {
            for c in extra.into_iter().filter(|c| !c.empty()) {
                last.range.end = last.range.end.max(c.range.end);
                last.tokens.extend(c.tokens);
            }
        }
    }
}
