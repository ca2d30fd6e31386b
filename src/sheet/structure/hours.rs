//! Numbers that stand apart behind rows of steps and are hours: "side R, chasse L 1/4 L     9", "... L coaster -> 3".

use super::manner::in_three;
use super::wording::doing;
use super::{Kind, Reading};
use crate::floor::Heading;

impl Reading<'_> {
    /// Makes clocks of such numbers, where they change from row to row as only hours do.
    pub(super) fn row_hours(&mut self) {
        let found: Vec<(usize, usize, u32)> =
            (0..self.lines.len()).filter_map(|i| self.behind_row(i)).collect();
        let Some((.., first)) = found.first().copied() else { return };
        // A single number stands beside the only row that ends another way than it began.
        let single =
            found.len() == 1 && self.lines.iter().filter(|l| l.stepful()).count() >= 3 && first != 12;
        let hours = found.iter().all(|(.., n)| matches!(n, 3 | 6 | 9 | 12));
        let several = found.iter().any(|(.., n)| *n != first);
        // How far the dance has come rises from row to row by one length, and that of a bar is three.
        let total = !single && found.iter().zip(1..).all(|((.., n), k)| *n == first * k)
            || in_three(self.text, &self.lines) && !(single && matches!(first, 3 | 9));
        if !hours || !(several || single) || total {
            return;
        }
        for (i, k, n) in found {
            self.lines[i].tokens[k].kind = Kind::Clock(Heading::new(i32::try_from(n * 4).unwrap_or(0)));
        }
    }

    /// The number that stands apart behind a row, before a remark in brackets: its line, its token and what it is.
    fn behind_row(&self, i: usize) -> Option<(usize, usize, u32)> {
        let line = &self.lines[i];
        let t = &line.tokens;
        let mut end = t.len();
        if t.last()?.sign(')') {
            end = t.iter().rposition(|t| t.sign('('))?;
        }
        end -= t[..end].iter().rev().take_while(|t| matches!(t.kind, Kind::Sign('.' | '!' | ';'))).count();
        let k = end.checked_sub(1).filter(|k| *k > line.first)?;
        let Kind::Number(n) = t[k].kind else { return None };
        let led = matches!(t[k - 1].kind, Kind::Sign('>' | '='));
        let apart = led || t[k].gap == 2 && !matches!(t[k - 1].kind, Kind::Number(_) | Kind::Sign(_));
        (apart && line.step_words > 0 && doing(&t[line.first..k])).then_some((i, k, n))
    }
}
