//! Sections that are told by pointing at others: "Same as section 1" under the heading "Section 3".

use super::{Kind, Reading, Role, Token, W};
use crate::sheet::pointing::{Pointer, differs, points};

impl Reading<'_> {
    /// What a line points at, as far as that is not the section itself.
    pub(super) fn pointer(&self, i: usize) -> Option<Pointer> {
        let line = &self.lines[i];
        points(self.text, &line.tokens, line.first, line.tokens.len())
    }

    /// The full line above a line.
    fn full_above(&self, i: usize) -> Option<usize> {
        (0..i).rev().find(|j| !self.lines[*j].empty())
    }

    /// Takes the labels from lines that only point at a section: "S1, other foot" under "Section 2".
    pub(super) fn pointing_labels(&mut self) {
        let (mut seen, mut begun) = (0, 0);
        for i in 0..self.lines.len() {
            let Some(l) = self.labels[i].as_ref() else {
                // Under titles only the counts tell how many sections there are.
                begun += u32::from(self.lines[i].led(self.text).is_some_and(|m| m.first() == 1));
                seen = seen.max(begun);
                continue;
            };
            if l.letter.is_some() {
                // Each part has sections of its own.
                (seen, begun) = (l.number.unwrap_or(0), 0);
                continue;
            }
            let (number, more) = (l.number, l.to < self.lines[i].tokens.len());
            // "Counts 1-8 again"
            let earlier = number.map_or(l.range.is_some() && more, |n| n <= seen);
            if l.certain && earlier && self.names_other(i, number, more) {
                self.labels[i] = None;
            } else {
                seen = number.map_or(seen + 1, |n| n.max(seen));
            }
        }
    }

    /// Whether a line labelled so points at a section instead of being the heading of one.
    fn names_other(&self, i: usize, number: Option<u32>, more: bool) -> bool {
        let Some(above) = self.full_above(i) else { return false };
        let line = &self.lines[above];
        let headed = if let Some(l) = &self.labels[above] {
            // A heading that has nothing below it.
            let less = l.number.is_none_or(|m| number.is_none_or(|n| n <= m));
            less && only_names(&line.tokens[l.to.min(line.tokens.len())..])
        } else {
            let said = more || self.lines[i].tokens[..self.lines[i].first].iter().any(|t| t.sign('='));
            said && number.is_some() && line.after_gap && line.words <= 6 && only_names(&line.tokens)
        };
        headed && self.pointer(i).is_some()
    }

    /// Whether a line under a heading stands for steps that are written elsewhere, and whether it goes on with such a
    /// line.
    pub(super) fn told_elsewhere(&self, i: usize, above: &Role, last: &Role) -> Option<bool> {
        if self.lead[i] || self.labels[i].is_some() && self.headed(i) {
            return None;
        }
        let line = &self.lines[i];
        // "Repeat 1-4 to the left" goes on where the eight counts are not full yet.
        let open = || {
            let m = self.lines[i - 1].led(self.text).filter(|_| self.lead[i - 1]);
            m.is_some_and(|m| m.last() % 8 != 0)
        };
        if matches!(above, Role::Steps(..)) && !line.after_gap && i > 0 && open() {
            let p = self.pointer(i)?;
            return (p.target.sections.is_none() && p.told == 0 && !p.changed).then_some(false);
        }
        if matches!(above, Role::Steps(..)) && !line.after_gap && i > 0 && !self.lead[i - 1] {
            let goes_on = self.pointer(i - 1).is_some() && differs(self.text, &line.tokens, line.first);
            return goes_on.then_some(true);
        }
        let Role::Heading(label) = last else { return None };
        let p = self.pointer(i)?;
        // "In section 2 we ..." under that heading tells of itself.
        let own = label.as_ref().and_then(|l| l.number);
        if p.target.sections.is_some_and(|(a, b)| own.is_some_and(|n| (a..=b).contains(&n))) {
            return None;
        }
        // Where the steps are written below from count 1 on, nothing is danced here.
        let below = self.next_full(i).filter(|j| self.lead[*j]).and_then(|j| self.lines[j].led(self.text));
        let first = label.as_ref().and_then(|l| l.range).map_or(1, |(a, _)| a);
        let written = below.is_some_and(|m| m.first() == 1 || m.first() == first);
        (!written).then_some(false)
    }
}

/// Whether the words of a heading only name what is danced: "VINES AND ROCKS".
fn only_names(t: &[Token]) -> bool {
    let tells =
        |t: &Token| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF) | Kind::Feet | Kind::Fraction(_));
    !t.iter().any(tells)
}
