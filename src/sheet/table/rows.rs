//! The rows of a table as lines.

use core::ops::Range;

use super::cells::{Cell, unwritten};
use super::feet::feet;
use super::heads::Role;
use super::steps::{Said, hold, words};
use super::{Page, Told};
use crate::dance::Foot;
use crate::sheet::counts::Mark;
use crate::sheet::labels::{Label, label};
use crate::sheet::lines::{Line, line_of};
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, tokens};
use crate::text::Span;
use crate::time::Ticks;

/// What stands between the first and the last line of a table.
#[derive(Debug, Clone)]
pub(super) enum Item {
    /// Cells by their columns, and the line that they stand in.
    Row(Vec<Cell>, Range<usize>),
    /// A line that is not cut into cells.
    Other(Range<usize>),
    /// An empty line or a rule.
    Gap,
}

impl Item {
    pub(super) fn cells(&self) -> Option<&[Cell]> {
        match self {
            Item::Row(cells, _) => Some(cells),
            _ => None,
        }
    }
}

/// The rows with what is known of all of them.
struct Rows<'p> {
    page: Page<'p>,
    items: Vec<Item>,
    roles: &'p [Role],
    /// The counts of each item, in the sheet's numbering.
    marks: Vec<Option<Mark>>,
}

/// The counts of each row; a lone part of a beat gets its place from the rows around it.
pub(super) fn marks(text: &str, items: &[Item], roles: &[Role]) -> Vec<Option<Mark>> {
    let Some(column) = roles.iter().position(|r| *r == Role::Count) else { return Vec::new() };
    let mut out: Vec<Option<Mark>> =
        items.iter().map(|i| i.cells().and_then(|cells| count(text, cells, column))).collect();
    let mut last: Option<i32> = None;
    for i in 0..out.len() {
        let lone = |m: &Option<Mark>| {
            m.as_ref().filter(|m| m.ticks.len() == 1 && m.ticks[0].0 < 0).map(|m| m.ticks[0].0)
        };
        let Some(before) = lone(&out[i]) else {
            last = out[i].as_ref().map(Mark::last).or(last);
            continue;
        };
        let next =
            out[i + 1..].iter().flatten().find(|m| m.ticks[0].0 > 0 || m.ticks.len() > 1).map(Mark::first);
        let count = match (last, next) {
            (Some(l), Some(n)) if n > l => l + 1,
            (_, Some(n)) => n,
            (Some(l), None) => l + 1,
            (None, None) => continue,
        };
        // Three to the beat: "1", "&", "a".
        let neighbour = |k: usize| out.get(k).and_then(lone);
        let rolling = match before {
            -12 => neighbour(i + 1) == Some(-6) && (i == 0 || neighbour(i - 1) != Some(-18)),
            -6 => i > 0 && out[i - 1].as_ref().is_some_and(|m| m.ticks[0].within() == 8),
            _ => false,
        };
        let before = match (before, rolling) {
            (-12, true) => -16,
            (-6, true) => -8,
            _ => before,
        };
        if let Some(m) = &mut out[i] {
            m.ticks[0] = Ticks(count * 24 + before);
        }
    }
    out
}

/// The counts of a row, unless a letter stands alone in it: then it names a section.
fn count(text: &str, cells: &[Cell], column: usize) -> Option<Mark> {
    let cell = cells.get(column)?.numbers(text);
    let alone = cells.iter().enumerate().all(|(k, c)| k == column || c.tokens.is_empty());
    cell.counts(text).filter(|m| !(alone && m.ticks[0].0 < 0 && !cell.tokens.iter().any(|t| t.is(W::And))))
}

/// The lines of a table from its items and the roles of its columns.
pub(super) fn lines(page: Page<'_>, items: Vec<Item>, roles: &[Role]) -> Vec<Line> {
    let marks = marks(page.text, &items, roles);
    let mut rows = Rows { page, items, roles, marks };
    rows.ditto();
    rows.join_wrapped();
    rows.extend_figures();
    rows.build()
}

impl Rows<'_> {
    fn next_mark(&self, i: usize) -> Option<&Mark> {
        self.marks[i + 1..].iter().flatten().next()
    }

    fn last_mark(&self, i: usize) -> Option<&Mark> {
        self.marks[..i].iter().rev().flatten().next()
    }

    /// Whether the rows below begin a section: none stand above, or the counts begin again.
    fn fresh(&self, i: usize) -> bool {
        match (self.last_mark(i), self.next_mark(i)) {
            (_, None) => false,
            (None, Some(_)) => true,
            (Some(l), Some(n)) => n.first() <= l.last(),
        }
    }

    /// Whether the counts run on from above.
    fn runs_on(&self, i: usize) -> bool {
        matches!((self.last_mark(i), self.next_mark(i)), (Some(l), Some(n)) if n.first() == l.last() + 1)
    }

    fn all(&self, i: usize) -> Vec<Token> {
        match &self.items[i] {
            Item::Row(cells, _) => cells.iter().flat_map(|c| c.tokens.iter().copied()).collect(),
            Item::Other(range) => tokens(self.page.text, range.clone(), self.page.vocabulary),
            Item::Gap => Vec::new(),
        }
    }

    fn of(&self, i: usize, role: Role) -> impl Iterator<Item = &Cell> {
        let cells = self.items[i].cells().unwrap_or_default();
        cells.iter().zip(self.roles).filter(move |(_, r)| **r == role).map(|(c, _)| c)
    }

    fn filled(&self, i: usize, role: Role) -> bool {
        self.of(i, role).any(|c| !c.empty())
    }

    /// A cell with nothing but a ditto mark says what the cell above says.
    fn ditto(&mut self) {
        let mut above: Option<usize> = None;
        for i in 0..self.items.len() {
            if self.marks[i].is_none() {
                continue;
            }
            let copies: Vec<(usize, Vec<Token>)> = match (above, &self.items[i]) {
                (Some(a), Item::Row(cells, _)) => cells
                    .iter()
                    .enumerate()
                    .filter(|(_, c)| {
                        matches!(
                            self.page.text[c.range.clone()].trim_matches([' ', '-']),
                            "\"" | "''" | "〃" | "”" | "“" | "ditto" | "do." | "idem" | "″" | ",,"
                        )
                    })
                    .filter_map(|(k, _)| {
                        self.items[a].cells().and_then(|c| c.get(k)).map(|c| (k, c.tokens.clone()))
                    })
                    .collect(),
                _ => Vec::new(),
            };
            if let Item::Row(cells, _) = &mut self.items[i] {
                for (k, t) in copies {
                    cells[k].tokens = t;
                }
            }
            above = Some(i);
        }
    }

    /// Rows without counts that go on with the words of the row above become part of it.
    fn join_wrapped(&mut self) {
        let mut above: Option<usize> = None;
        for i in 0..self.items.len() {
            let Item::Row(cells, _) = &self.items[i] else {
                if matches!(self.items[i], Item::Other(_)) {
                    above = None;
                }
                continue;
            };
            if self.marks[i].is_some() {
                above = Some(i);
                continue;
            }
            let Some(a) = above else { continue };
            let does = |r: &Role| matches!(r, Role::Action | Role::Place | Role::Of(_) | Role::Turn);
            let words: Vec<(usize, &Cell)> = cells.iter().enumerate().filter(|(_, c)| !c.empty()).collect();
            let Some((_, first)) = words.iter().find(|(k, _)| self.roles.get(*k).is_some_and(does)) else {
                continue;
            };
            let start = self.page.text[first.range.clone()].chars().next();
            let open = start.is_some_and(|c| c.is_lowercase() || matches!(c, '(' | ','));
            let all = self.all(i);
            let tells = all.iter().any(|t| t.is(W::Tag) || t.is(W::Restart) || t.is(W::Wall));
            let direct = i == a + 1;
            if tells || !direct || !(open || !self.fresh(i) && !self.heads(i)) {
                continue;
            }
            let new: Vec<(usize, Vec<Token>, bool)> =
                words.iter().map(|(k, c)| (*k, c.tokens.clone(), open)).collect();
            if let Item::Row(cells, _) = &mut self.items[a] {
                for (k, mut t, open) in new {
                    let Some(cell) = cells.get_mut(k) else { continue };
                    if let Some(first) = t.first_mut() {
                        first.gap = 1;
                        // Words that begin anew are a clause of their own, others go on.
                        if !cell.tokens.is_empty() {
                            let parts = if open { '\n' } else { ',' };
                            cell.tokens.push(unwritten(Kind::Sign(parts), cell.range.end));
                        }
                    }
                    cell.tokens.extend(t);
                }
            }
            self.items[i] = Item::Gap;
        }
    }

    /// A count beside empty cells belongs to the figure above it where that lasts longer than its counts.
    fn extend_figures(&mut self) {
        let mut above: Option<usize> = None;
        for i in 0..self.items.len() {
            let Some(m) = &self.marks[i] else {
                if !matches!(self.items[i], Item::Gap) {
                    above = None;
                }
                continue;
            };
            let m = m.clone();
            let said = [Role::Action, Role::Place, Role::Of(Foot::Left), Role::Of(Foot::Right), Role::Turn];
            let empty = !said.iter().any(|r| self.filled(i, *r)) && !self.filled(i, Role::Cue);
            let figure = above.is_some_and(|a| {
                self.of(a, Role::Action).any(|c| c.tokens.iter().any(|t| matches!(t.kind, Kind::Name(_))))
            });
            if let (true, true, Some(a)) = (empty, figure, above) {
                if let Some(before) = &mut self.marks[a] {
                    before.ticks.extend(
                        m.ticks
                            .iter()
                            .filter(|t| Some(*t) > before.ticks.last())
                            .copied()
                            .collect::<Vec<_>>(),
                    );
                }
                self.marks[i] = None;
                self.items[i] = Item::Gap;
            } else {
                above = Some(i);
            }
        }
    }

    /// Whether an item without steps is the heading of what stands below.
    fn heads(&self, i: usize) -> bool {
        let text = self.page.text;
        let t = self.all(i);
        let plain = line_of(text, Span::default(), t.clone(), true);
        if t.iter().any(|t| t.is(W::Tag) || t.is(W::Restart)) {
            return false;
        }
        if label(text, &plain).is_some_and(|l| l.certain) {
            return self.next_mark(i).is_some();
        }
        let words = t.iter().filter(|t| !matches!(t.kind, Kind::Sign(_))).count();
        let first = self.first_word(i);
        let quoted = first.starts_with(['"', '“', '„', '(']);
        let loud = first.starts_with("**")
            || first.chars().any(char::is_alphabetic)
                && !first.chars().any(char::is_lowercase)
                && first.len() > 2;
        let next = (i + 1..self.items.len()).find(|k| !matches!(self.items[*k], Item::Gap));
        let below = next.is_some_and(|k| self.marks[k].is_some())
            && !t.iter().any(|t| matches!(t.kind, Kind::W(W::Again | W::Repeat)));
        let gap = i == 0 || matches!(self.items[i - 1], Item::Gap);
        below
            && !quoted
            && words <= 16
            && words > 0
            && (self.fresh(i) || self.runs_on(i) && (loud || gap && matches!(self.items[i], Item::Other(_))))
    }

    fn first_word(&self, i: usize) -> &str {
        let range = match &self.items[i] {
            Item::Row(cells, _) => cells.iter().find(|c| !c.empty()).map(|c| c.range.clone()),
            Item::Other(range) => Some(range.clone()),
            Item::Gap => None,
        };
        self.page.text[range.unwrap_or_default()].trim()
    }

    /// "1-8 | VINES" above the rows of these counts.
    fn range_heading(&self, i: usize) -> Option<Label> {
        let m = self.marks[i].as_ref()?;
        let next = self.next_mark(i)?;
        let whole = m.range && m.ticks.len() >= 6;
        let long = m.last() - m.first() + 1;
        let covers = next.last() - next.first() + 1 < long
            && (next.first() >= m.first() && next.last() <= m.last() || next.last() <= long);
        (whole && covers).then(|| Label {
            to: 0,
            number: None,
            range: Some((m.first(), m.last())),
            certain: true,
            letter: None,
            part: false,
        })
    }

    /// Whether the gaps part the rows into sections of running counts, where no heading does.
    fn parted(&self) -> bool {
        let mut groups: Vec<(i32, i32)> = Vec::new();
        let mut open = false;
        for (i, item) in self.items.iter().enumerate() {
            match (item, &self.marks[i]) {
                (Item::Gap, _) => open = false,
                (_, Some(m)) => {
                    match groups.last_mut().filter(|_| open) {
                        Some(g) => g.1 = g.1.max(m.last()),
                        None => groups.push((m.first(), m.last())),
                    }
                    open = true;
                }
                (Item::Row(cells, _), None) if cells.iter().all(Cell::empty) => open = false,
                _ => return false,
            }
        }
        groups.len() >= 2
            && groups.windows(2).all(|w| w[1].0 == w[0].1 + 1)
            && groups.iter().all(|g| g.1 - g.0 >= 5)
    }

    fn build(&self) -> Vec<Line> {
        let mut out = Vec::new();
        let mut gap = true;
        let mut section = String::new();
        let parted = self.parted();
        let mut seen = false;
        for (i, item) in self.items.iter().enumerate() {
            let made = match item {
                Item::Gap => {
                    gap = true;
                    continue;
                }
                Item::Other(range) => {
                    let span = Span::new(range.start, range.end);
                    let mut l = line_of(self.page.text, span, self.all(i), gap);
                    if self.heads(i) {
                        l.told = Some(Told::Heading(label(self.page.text, &l)));
                    }
                    l
                }
                Item::Row(cells, range) => {
                    let span = Span::new(range.start, range.end);
                    // Behind a rule the counts go back: a section begins, even where its first row is lost.
                    let back = self.marks[i].as_ref().is_some_and(|m| {
                        m.first() > 1 && self.last_mark(i).is_some_and(|l| m.first() <= l.last())
                    });
                    if (parted && self.marks[i].is_some() || back) && gap && seen {
                        out.push(self.heading(Vec::new(), None, Span::new(range.start, range.start)));
                    }
                    if let Some(l) = self.section(i, &mut section) {
                        out.push(l);
                    }
                    if let Some(l) = self.range_heading(i) {
                        let label =
                            Some(Label { to: self.of(i, Role::Count).map(|c| c.tokens.len()).sum(), ..l });
                        let count: Vec<Token> =
                            self.of(i, Role::Count).flat_map(|c| c.tokens.clone()).collect();
                        let rest = cells.iter().zip(self.roles).filter(|(_, r)| **r != Role::Count);
                        let mut t = count;
                        t.extend(rest.flat_map(|(c, _)| c.tokens.iter().copied()));
                        self.heading(t, label, span)
                    } else if let Some(m) = &self.marks[i] {
                        seen = true;
                        let steps = self.steps(i, m, span, gap);
                        if let Some(l) = self.told_beside(i, span) {
                            out.push(steps);
                            l
                        } else {
                            steps
                        }
                    } else {
                        self.other(i, span, gap)
                    }
                }
            };
            gap = false;
            out.push(made);
        }
        out
    }

    fn heading(&self, t: Vec<Token>, label: Option<Label>, span: Span) -> Line {
        let mut l = line_of(self.page.text, span, t, true);
        l.told = Some(Told::Heading(label));
        l
    }

    /// A heading where the column of the sections begins another one.
    fn section(&self, i: usize, last: &mut String) -> Option<Line> {
        // "1  heel & heel" in the column of the calls numbers the section that begins there.
        let numbered = |c: &&Cell| matches!(c.tokens.as_slice(), [n, next, ..] if matches!(n.kind, Kind::Number(1..=32)) && next.gap == 2);
        if !self.roles.contains(&Role::Section)
            && let Some(cell) = self.of(i, Role::Cue).find(numbered)
        {
            let at = cell.range.start;
            let t = vec![unwritten(Kind::W(W::Section), at), cell.tokens[0]];
            let span = cell.tokens[0].span;
            let label = label(self.page.text, &line_of(self.page.text, span, t.clone(), true));
            return Some(self.heading(t, label, span));
        }
        let cell = self.of(i, Role::Section).find(|c| !c.empty())?;
        let said = &self.page.text[cell.range.clone()];
        if said == last {
            return None;
        }
        *last = said.to_string();
        let at = cell.range.start;
        // "Tag" there begins what stands behind the dance.
        if cell.tokens.iter().any(|t| t.is(W::Tag)) {
            let span = Span::new(at, cell.range.end);
            return Some(line_of(self.page.text, span, cell.tokens.clone(), true));
        }
        let mut t = Vec::new();
        let letter = said.len() == 1 && said.starts_with(|c: char| c.is_ascii_uppercase());
        if letter {
            t.push(unwritten(Kind::W(W::Set), at));
        } else if cell.tokens.iter().any(|t| matches!(t.kind, Kind::Number(_)))
            && !cell.tokens.iter().any(|t| t.is(W::Section))
        {
            t.push(unwritten(Kind::W(W::Section), at));
        }
        t.extend(cell.tokens.iter().copied());
        let span = Span::new(cell.range.start, cell.range.end);
        let plain = line_of(self.page.text, span, t.clone(), true);
        let label = label(self.page.text, &plain);
        Some(self.heading(t, label, span))
    }

    /// A row without counts: a heading, words about a tag or restart, or nothing that is danced.
    fn other(&self, i: usize, span: Span, gap: bool) -> Line {
        let text = self.page.text;
        let mut l = line_of(text, span, self.all(i), gap);
        if self.heads(i) {
            l.told = Some(Told::Heading(label(text, &l)));
            return l;
        }
        let tells = l.tokens.iter().any(|t| t.is(W::Tag) || t.is(W::Restart));
        if !tells {
            l.told = Some(Told::Left);
        }
        l
    }

    /// Words about a restart or a tag in a column of remarks.
    fn told_beside(&self, i: usize, span: Span) -> Option<Line> {
        let tells = |c: &&Cell| {
            c.tokens.iter().any(|t| t.is(W::Restart) || t.is(W::Tag)) && !c.tokens.iter().any(|t| t.is(W::No))
        };
        let cell = self.of(i, Role::Cue).chain(self.of(i, Role::Left)).find(tells)?;
        Some(line_of(self.page.text, span, cell.tokens.clone(), false))
    }

    fn steps(&self, i: usize, m: &Mark, span: Span, gap: bool) -> Line {
        let text = self.page.text;
        let mut t: Vec<Token> = self.of(i, Role::Count).flat_map(|c| c.tokens.clone()).collect();
        let at = t.last().map_or(span.start, |t| t.span.end) as usize;
        t.push(unwritten(Kind::Sign(':'), at));
        let to = t.len();
        let mut said = Said::default();
        let mut facing: Option<Token> = None;
        for (cell, role) in self.items[i].cells().unwrap_or_default().iter().zip(self.roles) {
            if cell.tokens.is_empty() {
                continue;
            }
            match role {
                Role::Foot => said.feet.extend(feet(text, &cell.tokens)),
                Role::Of(foot) => self.of_foot(*foot, cell, &mut said.action),
                Role::Action if !cell.empty() => said.action.extend(cell.tokens.iter().copied()),
                Role::Place if !cell.empty() => {
                    // "Left, 3:00" tells the way of the steps, and where they lead.
                    let clock = |t: &&Token| matches!(t.kind, Kind::Clock(_));
                    facing = facing.or(cell.tokens.iter().find(clock).copied());
                    said.place.extend(cell.tokens.iter().filter(|t| !clock(t)).copied());
                    while said.place.last().is_some_and(|t| t.sign(',')) {
                        said.place.pop();
                    }
                }
                Role::Turn => {
                    let (turn, clock, on) = turn(text, cell, m);
                    said.turn.extend(turn);
                    said.turn_at = on;
                    facing = facing.or(clock);
                }
                Role::Facing => {
                    if let Some(h) = cell.clock() {
                        let span = Span::new(cell.range.start, cell.range.end);
                        facing = Some(Token { kind: Kind::Clock(h), span, gap: 2 });
                    }
                }
                _ => {}
            }
        }
        let counted = m.clone();
        let both = self.of(i, Role::Foot).any(|c| c.tokens.iter().any(|t| t.is(W::Both)));
        let mut steps = words(said, &counted.ticks, at);
        if steps.is_empty() {
            steps.push(hold(at));
        }
        if both && !steps.iter().any(|t| t.is(W::Both) || t.is(W::Feet)) {
            t.extend(self.of(i, Role::Foot).flat_map(|c| c.tokens.iter().filter(|t| t.is(W::Both)).copied()));
        }
        t.extend(steps);
        t.extend(facing.map(|f| Token { gap: 2, ..f }));
        let mut l = line_of(text, span, t, gap);
        l.first = 0;
        l.told = Some(Told::Steps(Mark { from: 0, to, ..counted }));
        l
    }

    /// What one foot does, with the foot before it; "hold | hold" is one hold.
    fn of_foot(&self, foot: Foot, cell: &Cell, action: &mut Vec<Token>) {
        if cell.empty() {
            return;
        }
        let text = self.page.text;
        let same = action.len() > 1
            && action[1..].iter().map(|t| t.span.of(text)).eq(cell.tokens.iter().map(|t| t.span.of(text)));
        if same {
            return;
        }
        if !action.is_empty() {
            action.push(unwritten(Kind::Sign(','), cell.range.start));
        }
        let kind = Kind::W(match foot {
            Foot::Right => W::RF,
            Foot::Left => W::LF,
        });
        action.push(unwritten(kind, cell.range.start));
        action.extend(cell.tokens.iter().copied());
    }
}

/// The words of a cell of turns, the clock beside them, and the count on which the turn falls.
fn turn(text: &str, cell: &Cell, m: &Mark) -> (Vec<Token>, Option<Token>, Option<Ticks>) {
    let mut out: Vec<Token> = Vec::new();
    let mut clock = None;
    let mut on = None;
    let t = &cell.tokens;
    if t.iter().any(|t| t.is(W::No)) && !t.iter().any(|t| matches!(t.kind, Kind::Fraction(_))) {
        return (out, None, None);
    }
    let mut i = 0;
    while i < t.len() {
        match t[i].kind {
            Kind::Clock(_) => clock = Some(t[i]),
            Kind::Sign('(' | ')' | '[' | ']' | ',' | '-' | '>' | '=')
            | Kind::W(W::To | W::Face | W::OClock | W::The) => {}
            Kind::W(W::On | W::At) => {
                let mut k = i + 1;
                while t
                    .get(k)
                    .is_some_and(|t| t.is(W::Count) || t.is(W::The) || matches!(t.kind, Kind::Sign('"')))
                {
                    k += 1;
                }
                match t.get(k).map(|t| t.kind) {
                    Some(Kind::Number(n)) => {
                        on = Some(Ticks::of_count(i32::try_from(n).unwrap_or(0)));
                        // "On 3&"
                        if t.get(k + 1).is_some_and(|t| t.is(W::And)) {
                            on = on.map(|t| Ticks(t.0 + 12));
                            k += 1;
                        }
                    }
                    Some(Kind::W(W::And)) => on = m.ticks.iter().find(|t| t.within() != 0).copied(),
                    _ => {}
                }
                i = if on.is_some() { k } else { i };
            }
            // "* wall 5" beside a step is the sign of what happens there.
            Kind::W(W::Wall) if t.get(i + 1).is_some_and(|t| matches!(t.kind, Kind::Number(_))) => i += 1,
            Kind::Number(n @ 1..=12) if !t.get(i + 1).is_some_and(|t| t.is(W::Degrees) || t.sign('°')) => {
                let h = crate::floor::Heading::new(i32::try_from(n * 4).unwrap_or(0));
                clock = Some(Token { kind: Kind::Clock(h), ..t[i] });
            }
            _ => out.push(t[i]),
        }
        i += 1;
    }
    let _ = text;
    let amount = out.iter().any(|t| {
        matches!(
            t.kind,
            Kind::Fraction(_)
                | Kind::Number(_)
                | Kind::W(
                    W::Quarter
                        | W::Half
                        | W::Full
                        | W::ThreeQuarter
                        | W::Eighth
                        | W::Third
                        | W::Degrees
                        | W::Two
                )
        )
    });
    if !amount {
        out.clear();
    }
    (out, clock, on)
}
