//! Tables with several sections side by side, and tables with a row for each section and a column for each count.

use super::cells::{Cell, unwritten};
use super::grid::{Bar, Cut, rule};
use super::heads::{Role, said};
use super::rows::{Item, lines};
use super::{Page, Told};
use crate::sheet::labels::label;
use crate::sheet::lines::{Line, line_of};
use crate::sheet::vocabulary::W;
use crate::sheet::words::Kind;
use crate::text::Span;

/// A row of counts has at least so many.
const COUNTS: usize = 4;

/// The table whose heads stand in line `i`, which may be cut in these ways.
pub(super) fn read(page: Page<'_>, i: usize, cuts: &[Cut]) -> Option<(Vec<Line>, usize)> {
    cuts.iter().filter(|c| c.cells.len() >= 3).find_map(|Cut { bar, cells: cut }| {
        // Words alone tell most lines from both kinds: count 1 comes first in a row of counts.
        let beside = said(page.text[cut[0].clone()].trim()) == Some(Role::Count);
        let across = page.text[cut[1].clone()].contains('1') && Cell::begins(page, &cut[1]);
        if !beside && !across {
            return None;
        }
        let heads: Vec<Cell> = cut.iter().map(|r| Cell::new(page, r.clone())).collect();
        let beside = beside && heads[1..].iter().all(|c| labelled(page, c));
        let counts = heads[1..].iter().filter(|c| c.counts(page.text).is_some()).count();
        let across = across
            && heads[0].counts(page.text).is_none()
            && counts >= COUNTS
            && heads[1..]
                .iter()
                .all(|c| c.tokens.is_empty() || c.counts(page.text).is_some() || beyond(page, c).is_some());
        if beside {
            side_by_side(page, i, bar, &heads)
        } else if across {
            a_row_each(page, i, bar, &heads)
        } else {
            None
        }
    })
}

/// What a column is for that holds no count: where one looks at the end of the row, or what is no step.
fn beyond(page: Page<'_>, head: &Cell) -> Option<Role> {
    let role = said(page.text[head.range.clone()].trim());
    role.filter(|r| matches!(r, Role::Facing | Role::Cue | Role::Section | Role::Left))
}

fn labelled(page: Page<'_>, c: &Cell) -> bool {
    let l = line_of(page.text, Span::default(), c.tokens.clone(), true);
    label(page.text, &l).is_some_and(|l| l.certain)
}

/// The heading that a cell is; a bare number is the number of a section.
fn heading(page: Page<'_>, c: &Cell) -> Line {
    let mut t = c.tokens.clone();
    if matches!(t.first().map(|t| t.kind), Some(Kind::Number(_))) && t.len() == 1 {
        t.insert(0, unwritten(Kind::W(W::Section), c.range.start));
    }
    let span = Span::new(c.range.start, c.range.end);
    let mut l = line_of(page.text, span, t, true);
    l.told = Some(Told::Heading(label(page.text, &l)));
    l
}

/// The rows of cells below line `i`, and the line behind the last.
fn below(page: Page<'_>, i: usize, bar: &Bar) -> (Vec<Vec<Cell>>, usize) {
    let mut out = Vec::new();
    let mut end = i + 1;
    for k in i + 1..page.raw.len() {
        let words = page.of(k);
        if rule(words) {
            continue;
        }
        if words.trim().is_empty() || !bar.cuts(words) {
            break;
        }
        out.push(bar.cells(page, page.raw[k].clone()));
        end = k + 1;
    }
    (out, end)
}

fn row(count: &Cell, steps: &Cell) -> Item {
    let none = Cell { range: steps.range.end..steps.range.end, tokens: Vec::new() };
    Item::Row(vec![count.clone(), steps.clone(), none], steps.range.clone())
}

/// What each cell of such a row is.
const ROW: &[Role] = &[Role::Count, Role::Action, Role::Facing];

/// One column of counts, and a column for each section.
fn side_by_side(page: Page<'_>, i: usize, bar: &Bar, heads: &[Cell]) -> Option<(Vec<Line>, usize)> {
    let (rows, end) = below(page, i, bar);
    let counted: Vec<&Vec<Cell>> =
        rows.iter().filter(|r| r.first().is_some_and(|c| c.counts(page.text).is_some())).collect();
    if counted.len() < 2 {
        return None;
    }
    let mut out = Vec::new();
    for (k, head) in heads.iter().enumerate().skip(1) {
        let items: Vec<Item> = counted
            .iter()
            .filter_map(|r| r.get(k).filter(|c| !c.tokens.is_empty()).map(|c| row(&r[0], c)))
            .collect();
        out.push(heading(page, head));
        out.extend(lines(page, items, ROW));
    }
    Some((out, end))
}

/// A row for each section, and a column for each count.
fn a_row_each(page: Page<'_>, i: usize, bar: &Bar, heads: &[Cell]) -> Option<(Vec<Line>, usize)> {
    let (rows, end) = below(page, i, bar);
    // "Foot", "step" and "turn" before the rows are a table that lies on its side.
    let roles = rows.iter().filter_map(|r| r.first().and_then(|c| said(&page.text[c.range.clone()])));
    if rows.is_empty() || roles.clone().any(|r| matches!(r, Role::Foot | Role::Action | Role::Of(_))) {
        return None;
    }
    let mut out = Vec::new();
    for r in &rows {
        let mut items: Vec<Item> = heads
            .iter()
            .zip(r)
            .skip(1)
            .filter(|(h, c)| h.counts(page.text).is_some() && !c.tokens.is_empty())
            .map(|(h, c)| row(h, c))
            .collect();
        let faces = heads.iter().zip(r).skip(1).find(|(h, _)| beyond(page, h) == Some(Role::Facing));
        let Some(Item::Row(cells, _)) = items.last_mut() else { continue };
        if let Some((_, faces)) = faces {
            cells[2] = faces.clone();
        }
        out.push(heading(page, &r[0]));
        out.extend(lines(page, items, ROW));
    }
    (!out.is_empty()).then_some((out, end))
}
