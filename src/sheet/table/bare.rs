//! Tables without a row of heads: the columns are known by what stands in them.

use core::ops::Range;

use super::Page;
use super::cells::Cell;
use super::grid::{APART, Bar, Cut, first_piece, gapped, items, pieces, rule};
use super::heads::Role;
use super::roles::roles;
use super::rows::{Item, lines, marks};
use crate::sheet::lines::Line;
use crate::sheet::words::Kind;

/// So many rows make a table without heads.
const ROWS: usize = 4;

/// The table whose first row stands in line `i`, which may be cut in these ways.
pub(super) fn read(page: Page<'_>, i: usize, cuts: &[Cut]) -> Option<(Vec<Line>, usize)> {
    // Most lines begin with no count and are no rows.
    let words = page.of(i).trim_start();
    let row = words.starts_with(|c: char| c.is_ascii_digit()) || words.contains(['|', '\t', '│', '；']);
    if !row {
        return None;
    }
    let other = cuts.iter().filter(|c| !matches!(c.bar, Bar::Wide(_)));
    other.map(|c| (&c.bar, &c.cells)).find_map(|(bar, first)| cut_by(page, i, bar, first)).or_else(|| {
        let columns = match stretches(cuts) {
            Some(cut) => cut.cells.len(),
            None if gapped(page.of(i)) => pieces(page.text, page.raw[i].clone()).len(),
            None => 0,
        };
        if columns < 3 {
            return None;
        }
        let bar = wide(page, i)?;
        cut_by(page, i, &bar, &bar.cut(page.text, page.raw[i].clone()))
    })
}

/// The line cut by its wide gaps, where it has some.
fn stretches(cuts: &[Cut]) -> Option<&Cut> {
    cuts.iter().find(|c| matches!(c.bar, Bar::Wide(_)))
}

fn cut_by(page: Page<'_>, i: usize, bar: &Bar, first: &[Range<usize>]) -> Option<(Vec<Line>, usize)> {
    let one = |r: &Range<usize>| page.text[r.clone()].contains('1') && Cell::begins(page, r);
    if first.len() < 3 || !first.iter().any(one) {
        return None;
    }
    if !enough(page, i, bar, first.len()) {
        return None;
    }
    let (mut items, at) = items(page, i, bar);
    let rows: Vec<&[Cell]> =
        items.iter().filter_map(Item::cells).filter(|c| c.len() == first.len()).collect();
    if rows.len() < ROWS {
        return None;
    }
    let roles = roles(page.text, None, &rows)?;
    // Two columns are a line with its counts before it; feet of their own make a table.
    if !roles.iter().any(|r| matches!(r, Role::Foot)) {
        return None;
    }
    let counts = marks(page.text, &items, &roles);
    let last = counts.iter().rposition(Option::is_some)?;
    if counts.iter().flatten().count() < ROWS || counts[0].is_none() {
        return None;
    }
    items.truncate(last + 1);
    Some((lines(page, items, &roles), at[last] + 1))
}

/// Whether there are enough lines from `i` on of so many cells, before any of them is read.
fn enough(page: Page<'_>, i: usize, bar: &Bar, width: usize) -> bool {
    let (mut rows, mut others) = (0, 0);
    for k in (i..page.raw.len()).filter(|k| !page.of(*k).trim().is_empty() && !rule(page.of(*k))) {
        if bar.cuts(page.of(k)) {
            rows += usize::from(bar.cut(page.text, page.raw[k].clone()).len() == width);
            others = 0;
        } else {
            others += 1;
        }
        if rows >= ROWS || others > APART {
            break;
        }
    }
    rows >= ROWS
}

/// Steps with a column of counts behind them: every row has its counts at the same place of the line.
pub(super) fn counts_behind(page: Page<'_>, i: usize, cuts: &[Cut]) -> Option<(Vec<Line>, usize)> {
    let last = stretches(cuts).and_then(|c| c.cells.last());
    if last.is_some_and(|r| Cell::counts_of(page, r.clone()).is_none()) {
        return None;
    }
    let row = |k: usize| -> Option<(usize, Cell, Cell)> {
        if !gapped(page.of(k)) {
            return None;
        }
        let range = page.raw[k].clone();
        let parts = pieces(page.text, range.clone());
        let (column, last) = parts.last().filter(|_| parts.len() >= 2)?;
        Cell::counts_of(page, last.clone())?;
        let count = Cell::new(page, last.clone());
        let steps = Cell::new(page, range.start..last.start);
        (!steps.empty()).then_some((*column, steps, count))
    };
    // Count 1 stands in the first row, behind a wide gap.
    if !page.of(i).contains('1') {
        return None;
    }
    let (column, steps, count) = row(i)?;
    // A count before the words says when, too.
    if count.counts(page.text)?.first() != 1
        || steps.tokens.first().is_some_and(|t| matches!(t.kind, Kind::Number(_)))
    {
        return None;
    }
    let (mut items, mut at) = (Vec::new(), Vec::new());
    let mut rows = 0;
    let mut last = 0;
    for k in i..page.raw.len() {
        let range = page.raw[k].clone();
        if page.of(k).trim().is_empty() || rule(page.of(k)) {
            items.push(Item::Gap);
        } else if let Some((_, steps, count)) = row(k).filter(|r| r.0 == column) {
            items.push(Item::Row(vec![steps, count], range));
            rows += 1;
            last = items.len();
        } else if matches!(items.last(), Some(Item::Gap)) {
            items.push(Item::Other(range));
        } else {
            // A line in the midst of the rows without counts: what it belongs to is not for the columns to say.
            break;
        }
        at.push(k);
    }
    items.truncate(last);
    (rows >= ROWS && last > 0).then(|| (lines(page, items, &[Role::Action, Role::Count]), at[last - 1] + 1))
}

/// The columns of lines that begin with counts and are parted by wide gaps.
fn wide(page: Page<'_>, i: usize) -> Option<Bar> {
    let count = |k: usize| {
        let first = first_piece(page.text, page.raw[k].clone());
        first.filter(|r| r.len() <= 9).is_some_and(|r| Cell::counts_of(page, r).is_some())
    };
    if !count(i) {
        return None;
    }
    // Characters of the line that are blank in all rows.
    let mut full = [false; 128];
    let mut rows = 0;
    let mut others = 0;
    for k in i..page.raw.len() {
        if !count(k) {
            others += usize::from(!page.of(k).trim().is_empty());
            if others > 8 {
                break;
            }
            continue;
        }
        others = 0;
        rows += 1;
        let line = &page.text[page.raw[k].clone()];
        if line.contains('\t') {
            return None;
        }
        let long = line.trim_end().chars().count();
        for (column, c) in line.chars().take(long).enumerate() {
            if let Some(f) = full.get_mut(column) {
                *f |= c != ' ';
            }
        }
    }
    if rows < ROWS {
        return None;
    }
    let mut starts = Vec::new();
    let mut blanks = 2;
    for (column, f) in full.iter().enumerate() {
        if *f {
            if blanks >= 2 {
                starts.push(column);
            }
            blanks = 0;
        } else {
            blanks += 1;
        }
    }
    (starts.len() >= 3).then_some(Bar::Wide(starts))
}
