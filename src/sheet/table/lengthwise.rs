//! Tables that lie on their side: the counts run from left to right, and what is done stands under them.

use core::ops::Range;

use super::Page;
use super::cells::Cell;
use super::grid::{Cut, rule};
use super::heads::{Role, said};
use super::roles::roles;
use super::rows::{Item, lines};
use crate::sheet::lines::{Line, weigh};

/// The table whose row of counts is line `i`, which may be cut in these ways.
pub(super) fn read(page: Page<'_>, i: usize, cuts: &[Cut]) -> Option<(Vec<Line>, usize)> {
    let counts = |r: &Range<usize>| {
        page.text[r.clone()].trim().is_empty() || Cell::counts_of(page, r.clone()).is_some()
    };
    let row = |c: &&Cut| {
        c.cells.len() >= 4
            && c.cells[1..].iter().all(counts)
            && said(page.text[c.cells[0].clone()].trim()) == Some(Role::Count)
    };
    let Some(cut) = cuts.iter().find(row) else { return across(page, i, cuts) };
    let bar = &cut.bar;
    let mut block: Vec<(usize, Vec<Cell>)> = vec![(i, bar.cells(page, page.raw[i].clone()))];
    let mut k = i + 1;
    while k < page.raw.len() {
        let words = page.of(k);
        if rule(words) {
            k += 1;
            continue;
        }
        if words.trim().is_empty() || !bar.cuts(words) {
            break;
        }
        let cells = bar.cells(page, page.raw[k].clone());
        if head(page, &cells).is_none_or(|r| r == Role::Count) {
            break;
        }
        block.push((k, cells));
        k += 1;
    }
    let end = block.last()?.0 + 1;
    let width = block[0].1.len();
    let none = |at: usize| Cell { range: at..at, tokens: Vec::new() };
    let column = |c: usize| -> Vec<Cell> {
        block
            .iter()
            .map(|(k, cells)| cells.get(c).cloned().unwrap_or_else(|| none(page.raw[*k].end)))
            .collect()
    };
    let heads = column(0);
    let columns: Vec<Vec<Cell>> = (1..width).map(column).collect();
    let rows: Vec<&[Cell]> = columns.iter().map(Vec::as_slice).collect();
    let roles = roles(page.text, Some(&heads), &rows)?;
    let items = columns
        .iter()
        .map(|c| Item::Row(c.clone(), c[0].range.start..c[0].range.end.max(c[0].range.start)))
        .collect();
    Some((lines(page, items, &roles), end))
}

/// Counts over columns without a name, and a section in each row below them.
fn across(page: Page<'_>, i: usize, cuts: &[Cut]) -> Option<(Vec<Line>, usize)> {
    let counted = |cells: &[Range<usize>]| {
        cells.len() >= 4
            && Cell::begins(page, &cells[0])
            && cells.iter().all(|r| Cell::counts_of(page, r.clone()).is_some())
    };
    let cut = cuts.iter().find(|c| counted(&c.cells))?;
    let counts = cut.bar.cells(page, page.raw[i].clone());
    let mut items = Vec::new();
    let mut k = i + 1;
    while k < page.raw.len() {
        let words = page.of(k);
        if rule(words) {
            k += 1;
            continue;
        }
        let cells = cut.bar.cells(page, page.raw[k].clone());
        let steps = cells.iter().filter(|c| c.tokens.iter().any(|t| weigh(t.kind).0)).count();
        if words.trim().is_empty() || cells.len() != counts.len() || steps * 2 < cells.len() {
            break;
        }
        for (count, cell) in counts.iter().zip(&cells) {
            items.push(Item::Row(vec![count.clone(), cell.clone()], cell.range.clone()));
        }
        k += 1;
    }
    (!items.is_empty()).then(|| (lines(page, items, &[Role::Count, Role::Action]), k))
}

fn head(page: Page<'_>, cells: &[Cell]) -> Option<Role> {
    cells.first().and_then(|c| said(&page.text[c.range.clone()]))
}
