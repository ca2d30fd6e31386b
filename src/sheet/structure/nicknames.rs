//! Names in a column of their own before the steps: "puddles      cross L over R, point R".

use super::wording::{doing, head_like};
use super::{Kind, Label, Line, Reading, Token, W, marks};
use crate::sheet::labels::ordinal;

/// How many tokens a name in a column has at most.
const LONGEST: usize = 5;

/// How far the lines below may begin from the column of the steps that they go on with.
const NEAR: usize = 2;

/// One past the name before a wide gap.
fn name_cell(l: &Line) -> Option<usize> {
    let t = &l.tokens;
    let to = (l.first + 1..t.len().min(l.first + LONGEST + 1)).find(|k| t[*k].gap == 2)?;
    let plain = |t: &Token| matches!(t.kind, Kind::W(_) | Kind::Name(_) | Kind::Unknown);
    (l.told.is_none() && t[l.first..to].iter().all(plain)).then_some(to)
}

impl Reading<'_> {
    /// Labels the lines of such a page by their names, where nothing else divides it.
    pub(super) fn named_rows(&mut self) {
        let named = |l: &Line| {
            let to = name_cell(l).filter(|_| !head_like(self.text, &l.tokens))?;
            doing(&l.tokens[to..]).then_some(to)
        };
        let found: Vec<(usize, usize)> =
            self.lines.iter().enumerate().filter_map(|(i, l)| Some((i, named(l)?))).collect();
        // "first bit    vine R, touch L" is such a name as well.
        let labelled = |f: fn(&Label) -> bool| {
            let other = |i: usize| !found.iter().any(|(k, _)| *k == i);
            self.labels.iter().enumerate().any(|(i, l)| l.as_ref().is_some_and(f) && other(i))
        };
        if labelled(|l| l.certain) {
            return;
        }
        let numbered = labelled(|l| l.number.is_some());
        // What stands further in goes on with the steps of a name above.
        let column = found.iter().map(|(i, _)| self.lines[*i].indent).max().unwrap_or(0);
        let full = self.lines.iter().filter(|l| l.stepful() && l.indent <= column).count();
        let rows = if !numbered && found.len() >= 3 && found.len() * 3 >= full * 2 {
            found
        } else {
            self.counted_rows()
        };
        for (i, to) in rows {
            let line = &self.lines[i];
            // "TAG    4 counts: ..." is no section.
            let beside = |t: &Token| matches!(t.kind, Kind::W(W::Tag | W::Restart | W::Note | W::Option));
            if line.tokens[line.first..to].iter().any(beside) {
                continue;
            }
            let number = ordinal(&line.tokens[line.first]).filter(|n| *n <= 16);
            let label = Label { to, number, range: None, certain: true, letter: None, part: false };
            self.labels[i] = Some(label);
        }
    }

    /// "top     1   R forward, sweep L" above "        2&  L cross, R side": names before the first counts of sections.
    fn counted_rows(&self) -> Vec<(usize, usize)> {
        let counts = |l: &Line, from: usize| {
            let m = l.leading_at(self.text, from)?;
            doing(&l.tokens[m.to.min(l.tokens.len())..]).then(|| m.first())
        };
        let named = |l: &Line| {
            let to = name_cell(l).filter(|to| !doing(&l.tokens[l.first..*to]))?;
            Some((to, counts(l, to)?))
        };
        let rows: Vec<(usize, usize, i32)> = self
            .lines
            .iter()
            .enumerate()
            .filter_map(|(i, l)| named(l).map(|(to, first)| (i, to, first)))
            .collect();
        let below = |i: usize| {
            self.next_full(i).is_some_and(|j| {
                let line = &self.lines[j];
                line.indent > self.lines[i].indent && counts(line, line.first).is_some_and(|n| n > 1)
            })
        };
        let all = rows.len() >= 2 && rows.iter().all(|(i, _, first)| *first == 1 && below(*i));
        if all { rows.into_iter().map(|(i, to, _)| (i, to)).collect() } else { Vec::new() }
    }

    /// Whether a line goes on in the column of the steps behind the name, or the count, above it.
    pub(super) fn in_column(&self, i: usize, below: usize) -> bool {
        let line = &self.lines[i];
        let Some(label) = self.labels[i].as_ref().filter(|l| l.letter.is_none()) else { return false };
        let to = label.to;
        let Some(first) = line.tokens.get(to).filter(|t| t.gap == 2 && to > line.first) else { return false };
        let start = line.span.start as usize;
        let column = self.text[start..first.span.start as usize].chars().count();
        let foot = |t: &&Token| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF));
        let feet = line.tokens[to..].iter().filter(foot).count();
        let named = line.tokens[to..].iter().any(|t| matches!(t.kind, Kind::Name(_)));
        let told = match (label.number, label.range) {
            (None, None) => feet + usize::from(named) >= 1,
            (_, Some(_)) => feet >= 2,
            // "1  TOE STRUTS" only names what stands below it.
            _ => false,
        };
        let next = &self.lines[below];
        let counted = || marks(self.text, next, next.first, true).iter().any(|p| !p.total);
        told && next.indent + NEAR >= column && !self.lead[below] && !(self.behind[below] && counted())
    }
}
