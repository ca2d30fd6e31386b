//! Counts on lines of their own, with the cells of their rows below them and no heads above.

use super::Page;
use super::cells::Cell;
use super::heads::Role;
use super::roles::roles;
use super::rows::{Item, lines};
use crate::sheet::counts::{Mark, mark};
use crate::sheet::lines::Line;

/// So many rows show that it is a table.
const ROWS: usize = 4;
/// A row has no more cells than this below its counts.
const CELLS: usize = 5;

/// The table whose first count is line `i`.
pub(super) fn read(page: Page<'_>, i: usize) -> Option<(Vec<Line>, usize)> {
    count(page, i).filter(|m| m.first() == 1 && m.ticks[0].0 > 0)?;
    let mut rows: Vec<(usize, usize)> = Vec::new();
    let mut last: Option<i32> = None;
    let mut at = i;
    while at < page.raw.len() {
        let Some(m) = count(page, at) else { break };
        let lone = m.ticks[0].0 < 0;
        if !lone && !last.is_none_or(|l| m.first() == l + 1 || m.first() == 1) {
            break;
        }
        // Up to the next count; empty lines count for nothing.
        let next = (at + 1..page.raw.len().min(at + 2 * CELLS + 2)).find(|k| {
            count(page, *k).is_some_and(|n| {
                let here = if lone { last.unwrap_or(0) } else { m.last() };
                n.ticks[0].0 < 0 || n.first() == here + 1 || n.first() == 1
            })
        });
        let Some(next) = next else {
            rows.push((at, at + 1));
            break;
        };
        rows.push((at, next));
        if !lone {
            last = Some(m.last());
        }
        at = next;
    }
    if rows.len() < ROWS {
        return None;
    }
    let cells = |from: usize, to: usize| -> Vec<Cell> {
        (from..to)
            .filter(|k| !page.of(*k).trim().is_empty())
            .map(|k| Cell::new(page, page.raw[k].clone()))
            .collect()
    };
    // The last row is as long as the others.
    let (first, second) = (rows[0], rows[1]);
    let width = cells(first.0, first.1).len().max(cells(second.0, second.1).len());
    if let Some(row) = rows.last_mut() {
        let full = (row.0..page.raw.len()).take_while(|k| !page.of(*k).trim().is_empty());
        row.1 = full.take(width).last().map_or(row.1, |k| k + 1);
    }
    let all: Vec<Vec<Cell>> = rows.iter().map(|(a, b)| cells(*a, *b)).collect();
    // Lines with counts of their own are no cells.
    let counted = |c: &Cell| mark(page.text, &c.tokens, 0, c.tokens.len()).is_some();
    if all.iter().any(|r| r.len() < 2 || r.len() > CELLS + 1 || r[1..].iter().any(counted)) {
        return None;
    }
    let spans = rows.iter().map(|(a, b)| page.raw[*a].start..page.raw[*b - 1].end);
    let even = all.iter().all(|r| r.len() == width);
    let by_column = even.then(|| {
        let rows: Vec<&[Cell]> = all.iter().map(Vec::as_slice).collect();
        roles(page.text, None, &rows)
    });
    let end = rows.last()?.1;
    if let Some(Some(roles)) = by_column.filter(|r| r.as_ref().is_some_and(|r| r[0] == Role::Count)) {
        let items = all.into_iter().zip(spans).map(|(c, s)| Item::Row(c, s)).collect();
        return Some((lines(page, items, &roles), end));
    }
    let items = all
        .into_iter()
        .zip(spans)
        .map(|(mut c, s)| {
            let rest = c.split_off(1);
            let range = rest[0].range.start..rest[rest.len() - 1].range.end;
            c.push(Cell { range, tokens: rest.into_iter().flat_map(|c| c.tokens).collect() });
            Item::Row(c, s)
        })
        .collect();
    Some((lines(page, items, &[Role::Count, Role::Action]), end))
}

/// The counts of a line that holds nothing else.
fn count(page: Page<'_>, k: usize) -> Option<Mark> {
    let words = page.of(k).trim();
    if words.is_empty()
        || words.len() > 9
        || !words.contains(|c: char| c.is_ascii_digit() || matches!(c, '&' | 'a' | 'e' | '+'))
    {
        return None;
    }
    Cell::counts_of(page, page.raw[k].clone())
}
