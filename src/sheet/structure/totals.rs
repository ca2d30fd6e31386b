//! Rows led by how far the dance has come at their end ("8 ...", "16 ...", "24 ...") or by how long they are
//! ("6 ...", "6 ...", "6 ...").

use super::roles::range_label;
use super::wording::{doing, head_like};
use super::{Kind, Label, Reading, Token, W};
use crate::sheet::counts::Mark;
use crate::sheet::pointing::points;

/// A row with the number before it.
struct Led {
    line: usize,
    n: u32,
    /// The first token behind the number.
    to: usize,
}

/// Counts that a row of steps may have.
const LENGTHS: [u32; 6] = [4, 6, 8, 12, 16, 32];

/// How many clauses of steps a row needs that stands for so many counts.
const CLAUSES: usize = 2;

impl Reading<'_> {
    /// Labels the rows of a page whose numbers are such, where they are all that divides it.
    pub(super) fn row_totals(&mut self) {
        let found: Vec<Led> = (0..self.lines.len()).filter_map(|i| self.led_by_total(i)).collect();
        let Some(rows) = (0..found.len().min(2)).map(|k| &found[k..]).find(|rows| fit(rows)) else { return };
        let full = rows.iter().filter(|r| clauses(&self.lines[r.line].tokens[r.to..]) >= CLAUSES).count();
        if full * 2 < rows.len() {
            return;
        }
        let mine = |i: usize| rows.iter().any(|r| r.line == i);
        let other = |i: usize| {
            let label = self.labels[i]
                .as_ref()
                .is_some_and(|l| l.certain && (l.number.is_some() || l.range.is_some()));
            let line = &self.lines[i];
            let counts = line.led(self.text).is_some_and(|m| m.ticks.len() >= 2) && doing(&line.tokens);
            !mine(i) && (label && i > rows[0].line || counts && !line.tokens[line.first].sign('('))
        };
        if (0..self.lines.len()).any(other) {
            return;
        }
        let made: Vec<(usize, Label)> = rows
            .iter()
            .zip(1..)
            .map(|(row, k)| {
                let step = i32::try_from(rows[0].n).unwrap_or(8);
                let range = Some((step * (k - 1) + 1, step * k));
                let number = u32::try_from(k).ok();
                (row.line, Label { to: row.to, number, range, certain: true, letter: None, part: false })
            })
            .collect();
        // Two rows of four counts are a section.
        let halves = rows[0].n == 4 && made.len().is_multiple_of(2);
        for (k, (i, mut label)) in made.into_iter().enumerate() {
            if halves && k % 2 == 1 {
                self.goes_on[i] = Some(label.to);
                self.labels[i] = None;
                continue;
            }
            if halves {
                label.number = u32::try_from(k / 2 + 1).ok();
                label.range = label.range.map(|(a, b)| (a, b + 4));
            }
            self.labels[i] = Some(label);
        }
    }

    /// Labels rows that each tell a whole section behind its counts, "1 to 8 ...", "9 to 16 ...", where one of them points
    /// at another: "17 to 24 the same as 1 to 8 with the left foot".
    pub(super) fn whole_rows(&mut self) {
        let found: Vec<(usize, Mark)> =
            (0..self.lines.len()).filter_map(|i| Some((i, self.lines[i].leading(self.text)?))).collect();
        let length = found.first().map_or(0, |(_, m)| m.last());
        let whole = |(k, (_, m)): (i32, &(usize, Mark))| {
            m.range && m.first() == k * length + 1 && m.last() == (k + 1) * length
        };
        if found.len() < 3 || length < 6 || !(0..).zip(&found).all(whole) {
            return;
        }
        let points_at = |(i, m): &(usize, Mark)| {
            let t = &self.lines[*i].tokens;
            m.first() > 1 && points(self.text, t, m.to, t.len()).is_some()
        };
        if found.iter().any(points_at) {
            for (i, m) in found {
                self.labels[i] = Some(range_label(&m));
            }
        }
    }

    /// Makes lengths of numbers behind rows that say how far the dance has come: "...   8", "...   16", "... (24)".
    pub(super) fn row_sums(&mut self) {
        let found: Vec<Led> = (0..self.lines.len()).filter_map(|i| self.ended_by_total(i)).collect();
        let rising = fit(&found) && found.windows(2).all(|w| w[0].n < w[1].n);
        if rising {
            for row in &found {
                self.lines[row.line].tokens[row.to].kind = Kind::Number(found[0].n);
            }
        }
    }

    /// The number that stands alone behind a row of steps, and its token.
    fn ended_by_total(&self, i: usize) -> Option<Led> {
        let line = &self.lines[i];
        let t = &line.tokens;
        let behind = |t: &&Token| t.is(W::Count) || matches!(t.kind, Kind::Sign(')' | ']' | '.'));
        let to = (t.len() - t.iter().rev().take_while(behind).count())
            .checked_sub(1)
            .filter(|k| *k > line.first)?;
        let Kind::Number(n) = t[to].kind else { return None };
        let open = matches!(t[to - 1].kind, Kind::Sign('(' | '[' | '=' | '>' | '.'));
        let apart = open || t[to].gap == 2 && !matches!(t[to - 1].kind, Kind::Number(_));
        let counted = t[line.first..to].iter().any(|t| matches!(t.kind, Kind::Number(_)));
        let row = apart && !counted && line.told.is_none() && !head_like(self.text, t);
        (row && clauses(&t[line.first..to]) >= CLAUSES).then_some(Led { line: i, n, to })
    }

    /// The number before a row of steps: "8   side R, ...", "[16] ...", "to 24: ...".
    fn led_by_total(&self, i: usize) -> Option<Led> {
        let line = &self.lines[i];
        let t = &line.tokens;
        let mut at = line.first;
        let open = t.get(at).is_some_and(|t| matches!(t.kind, Kind::Sign('(' | '[' | '{')));
        let to = t.get(at).is_some_and(|t| t.is(W::To));
        at += usize::from(open || to);
        let Kind::Number(n) = t.get(at)?.kind else { return None };
        at += 1;
        at += usize::from(t.get(at).is_some_and(|t| t.is(W::Count)));
        let over =
            |t: &Token| matches!(t.kind, Kind::Sign(')' | ']' | '}' | ':' | '-' | '=' | '>' | '|' | '.'));
        let signs = t[at..].iter().take_while(|t| over(t)).count();
        let rest = t.get(at + signs..)?;
        let apart = if open { signs > 0 } else { signs > 0 || rest.first()?.gap == 2 };
        let told = line.told.is_none() && !self.order[i] && apart;
        (told && clauses(rest) >= 1 && !head_like(self.text, rest) && !speaks_of_wall(rest)).then_some(Led {
            line: i,
            n,
            to: at + signs,
        })
    }
}

/// Whether words speak of a wall before they tell a step: "4 wall line dance"; "R fwd, hold   <-- w3 restart" does not.
fn speaks_of_wall(t: &[Token]) -> bool {
    t.iter().position(|t| t.is(W::Wall)).is_some_and(|k| clauses(&t[..k]) < CLAUSES)
}

/// Whether the numbers of rows say how far the dance has come, or how long each of them is.
fn fit(rows: &[Led]) -> bool {
    let [first, .., _] = rows else { return false };
    let rises = rows.iter().zip(1..).all(|(r, k)| r.n == first.n * k);
    let same = rows.iter().all(|r| r.n == first.n);
    LENGTHS.contains(&first.n) && (rises || same && rows.len() >= 3)
}

/// How many clauses of a line tell steps.
fn clauses(t: &[Token]) -> usize {
    t.split(|t| matches!(t.kind, Kind::Sign(',' | '.' | ';')) || t.sign('/') && t.gap > 0)
        .filter(|c| doing(c))
        .count()
}
