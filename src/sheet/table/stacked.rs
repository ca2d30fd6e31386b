//! Tables of a page whose cells were copied one under the other: the heads of the columns, each on a line of its own,
//! then the cells row by row.

use core::ops::Range;

use super::cells::{Cell, Content};
use super::grid::rule;
use super::heads::{Role, exactly};
use super::roles::roles;
use super::rows::{Item, lines, marks};
use super::{Page, Told};
use crate::sheet::labels::label;
use crate::sheet::lines::{Line, line_of};
use crate::sheet::vocabulary::W;
use crate::text::Span;

/// A line that may be a cell is no longer than this.
const LONGEST: usize = 100;

/// The lines of the heads, from line `i` on.
fn heads(page: Page<'_>, i: usize) -> Option<Vec<usize>> {
    let mut out: Vec<usize> = Vec::new();
    let mut roles: Vec<Role> = Vec::new();
    for k in i..page.raw.len().min(i + 20) {
        let words = page.of(k).trim();
        if words.is_empty() && !out.is_empty() {
            continue;
        }
        let Some(role) = exactly(words).filter(|_| words.len() <= 40) else { break };
        out.push(k);
        roles.push(role);
    }
    let does = roles.iter().any(|r| matches!(r, Role::Action | Role::Of(_) | Role::Place));
    (out.len() >= 3 && roles.contains(&Role::Count) && does).then_some(out)
}

struct Stack<'p> {
    page: Page<'p>,
    /// The full lines below the heads, each with whether an empty one stands before it.
    full: Vec<(usize, bool)>,
    width: usize,
    /// The column of the counts.
    count: usize,
    /// What the heads say.
    roles: Vec<Option<Role>>,
}

impl Stack<'_> {
    fn cell(&self, n: usize) -> Option<Cell> {
        let (k, _) = self.full.get(n)?;
        let range = self.page.raw[*k].clone();
        (range.len() <= LONGEST).then(|| Cell::new(self.page, range))
    }

    fn count(&self, n: usize) -> Option<crate::sheet::counts::Mark> {
        self.cell(n)?.counts(self.page.text)
    }

    /// Whether a line stands between rows: the label of a section, words about a tag.
    fn between(&self, n: usize) -> bool {
        let Some((k, _)) = self.full.get(n) else { return true };
        let Some(cell) = self.cell(n) else { return true };
        let l = line_of(self.page.text, Span::default(), cell.tokens.clone(), true);
        cell.tokens.iter().take(3).any(|t| t.is(W::Tag) || t.is(W::Restart))
            || label(self.page.text, &l).is_some_and(|l| l.certain)
            || rule(self.page.of(*k))
    }

    /// The number of lines of the row that begins at `n`: as many as there are heads, or fewer where cells are missing
    /// and the next row shows it.
    fn row(&self, n: usize, last: Option<i32>) -> Option<usize> {
        let goes_on = |at: usize, last: i32| {
            let next = self.count(at + self.count)?;
            let first = next.ticks[0].0;
            Some(
                first < 0
                    || next.first() == last + 1
                    || next.first() == 1
                    || next.first() == last && first > last * 24,
            )
        };
        let fits = |size: usize, column: usize| -> bool {
            let Some(m) = self.count(n + column) else { return false };
            if column >= size || (0..size).any(|k| k != column && self.between(n + k)) {
                return false;
            }
            let starts = m.ticks[0].0 < 0
                || last.is_none_or(|l| m.first() == l + 1 || m.first() == 1 || m.first() == l);
            let lone = m.ticks[0].0 < 0;
            let end = if lone { last.unwrap_or(m.last()) } else { m.last() };
            starts
                && (n + size >= self.full.len()
                    || self.between(n + size)
                    || goes_on(n + size, end).unwrap_or(false))
        };
        let found = (2..=self.width).rev().find(|size| {
            // Missing cells may stand before the counts or behind them.
            fits(*size, self.count)
                || *size < self.width && self.count + 1 == self.width && fits(*size, size - 1)
        });
        found.or_else(|| self.last_row(n, last))
    }

    /// The row at `n` where no other comes behind it: up to the next empty line, or as long as the heads are.
    fn last_row(&self, n: usize, last: Option<i32>) -> Option<usize> {
        let m = self.count(n + self.count)?;
        let next = m.ticks[0].0 < 0 || last.is_some_and(|l| m.first() == l + 1);
        let more = (n + self.count + 1..self.full.len().min(n + 3 * self.width))
            .any(|k| self.count(k).is_some_and(|c| c.first() == m.last() + 1 || c.first() == 1));
        if !next || more || (1..self.width).any(|k| self.between(n + k)) {
            return None;
        }
        (2..self.width).find(|size| self.full[n + size].1 && !self.full[n + 1].1).or(Some(self.width))
    }

    /// The cells of a row by their columns: by their order, and where some are missing by what stands in them.
    fn cells(&self, n: usize, size: usize) -> Vec<Cell> {
        let given: Vec<Cell> = (n..n + size).filter_map(|k| self.cell(k)).collect();
        if size == self.width {
            return given;
        }
        let end = given.last().map_or(0, |c| c.range.end);
        let mut out: Vec<Cell> = vec![Cell { range: end..end, tokens: Vec::new() }; self.width];
        let mut column = 0;
        let mut left = given.len();
        for cell in given {
            left -= 1;
            let most = self.width - left;
            let best = (column..most.max(column + 1).min(self.width))
                .max_by_key(|c| (suits(self.roles[*c], cell.content(self.page.text)), self.width - c))
                .unwrap_or(self.width - 1);
            column = (best + 1).min(self.width);
            out[best] = cell;
            if column >= self.width {
                break;
            }
        }
        out
    }
}

/// How well what stands in a cell suits a column.
fn suits(role: Option<Role>, content: Content) -> u8 {
    match (role, content) {
        (Some(Role::Count), Content::Count)
        | (Some(Role::Foot), Content::Feet)
        | (Some(Role::Turn), Content::Turn)
        | (Some(Role::Facing), Content::Clock)
        | (Some(Role::Place), Content::Place)
        | (Some(Role::Action | Role::Of(_)), Content::Steps)
        | (Some(Role::Cue), Content::Quoted) => 3,
        (Some(Role::Facing), Content::Count) | (Some(Role::Place), Content::Feet | Content::Turn) => 2,
        (
            Some(Role::Action | Role::Cue | Role::Place | Role::Of(_)),
            Content::Words | Content::Steps | Content::Place,
        ) => 1,
        _ => 0,
    }
}

/// The table whose heads begin in line `i`.
pub(super) fn read(page: Page<'_>, i: usize) -> Option<(Vec<Line>, usize)> {
    let heads = heads(page, i)?;
    let head_cells: Vec<Cell> = heads.iter().map(|k| Cell::new(page, page.raw[*k].clone())).collect();
    let said: Vec<Option<Role>> = head_cells.iter().map(|c| exactly(&page.text[c.range.clone()])).collect();
    let below = heads.last()? + 1;
    let mut full = Vec::new();
    let mut gap = true;
    for k in below..page.raw.len() {
        if page.of(k).trim().is_empty() {
            gap = true;
            continue;
        }
        full.push((k, gap));
        gap = false;
    }
    let stack = Stack {
        page,
        full,
        width: heads.len(),
        count: said.iter().position(|r| *r == Some(Role::Count))?,
        roles: said,
    };
    let (items, at) = stack_items(&stack);
    let rows: Vec<&[Cell]> = items.iter().filter_map(Item::cells).collect();
    if rows.len() < 4 {
        return None;
    }
    let roles = roles(page.text, Some(&head_cells), &rows)?;
    let last = marks(page.text, &items, &roles).iter().rposition(Option::is_some)?;
    let end = at[last] + 1;
    let mut head =
        line_of(page.text, Span::new(page.raw[i].start, page.raw[below - 1].end), Vec::new(), true);
    head.told = Some(Told::Left);
    let mut out = vec![head];
    out.extend(lines(page, items.into_iter().take(last + 1).collect(), &roles));
    Some((out, end))
}

/// The rows and what stands between them, each with its last line.
fn stack_items(s: &Stack<'_>) -> (Vec<Item>, Vec<usize>) {
    let (mut items, mut at) = (Vec::new(), Vec::new());
    let mut n = 0;
    let mut last = None;
    let mut others = 0;
    while n < s.full.len() && others <= 12 {
        if let Some(size) = s.row(n, last) {
            let cells = s.cells(n, size);
            if let Some(m) = cells[s.count].counts(s.page.text).filter(|m| m.ticks[0].0 > 0) {
                last = Some(m.last());
            }
            let (a, b) = (s.full[n].0, s.full[n + size - 1].0);
            let range: Range<usize> = s.page.raw[a].start..s.page.raw[b].end;
            items.push(Item::Row(cells, range));
            at.push(b);
            n += size;
            others = 0;
            continue;
        }
        let (k, gap) = s.full[n];
        if gap && !items.is_empty() {
            items.push(Item::Gap);
            at.push(k);
        }
        items.push(Item::Other(s.page.raw[k].clone()));
        at.push(k);
        others += 1;
        n += 1;
        last = None;
    }
    (items, at)
}
