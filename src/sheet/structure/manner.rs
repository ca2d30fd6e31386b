//! How the writer gives counts, and what numbers before lines mean.

use super::order::order_lines;
use super::wording::{bracketed, doing, head_like, section_named};
use super::{Kind, Label, Line, Reading, Token, Told, W, cardinal, marks, roman};
use crate::sheet::classes::likens;
use crate::sheet::pointing::{Target, points};
use crate::text::lower;

/// Whether the sheet says that its bars have three counts: "waltz", "3/4".
pub(super) fn in_three(text: &str, lines: &[Line]) -> bool {
    let turns = |t: &Token| matches!(t.kind, Kind::W(W::Turn | W::R | W::L));
    let metre = |t: &[Token], k: usize| {
        t[k].kind == Kind::Fraction(36)
            && t[k].span.of(text) == "3/4"
            && !t.get(k + 1).is_some_and(turns)
            && !t[..k].iter().any(turns)
    };
    lines.iter().any(|l| {
        let t = &l.tokens;
        t.iter().any(|t| t.is(W::Waltz)) || l.verbs == 0 && (0..t.len()).any(|k| metre(t, k))
    })
}

impl Reading<'_> {
    /// "[1] BASICS" above "1, 2&  Step R ..." and so on: where counts stand bare under them, numbers in brackets that
    /// run from one are those of sections.
    fn bracketed(&mut self) {
        let mut found: Vec<usize> = Vec::new();
        for (i, line) in self.lines.iter().enumerate() {
            let bracket =
                line.tokens.get(line.first).is_some_and(|t| matches!(t.kind, Kind::Sign('(' | '[')));
            let number = self.labels[i].as_ref().filter(|l| !l.certain && bracket).and_then(|l| l.number);
            let Some(n) = number else { continue };
            let counts = self.next_full(i).filter(|j| {
                let below = &self.lines[*j];
                matches!(below.tokens.get(below.first).map(|t| t.kind), Some(Kind::Number(_)))
                    && below.led(self.text).is_some_and(|m| u32::try_from(m.first()) != Ok(n + 1))
            });
            if counts.is_none() || u32::try_from(found.len() + 1) != Ok(n) {
                return;
            }
            found.push(i);
        }
        if found.len() < 2 {
            return;
        }
        for i in found {
            if let Some(l) = &mut self.labels[i] {
                l.certain = true;
            }
        }
    }

    /// Finds out how the writer gives counts.
    pub(super) fn survey(&mut self) {
        self.order = order_lines(self.text, &self.lines);
        self.bars();
        self.pointing_labels();
        self.whole_rows();
        self.row_hours();
        self.row_sums();
        self.rows_of_four();
        let mut numbered: Vec<u32> = Vec::new();
        for (i, line) in self.lines.iter().enumerate() {
            if let Some(l) = &self.labels[i]
                && !l.certain
                && let Some(n) = l.number
                && matches!(line.tokens.get(line.first).map(|t| t.kind), Some(Kind::Number(_)))
            {
                numbered.push(n);
            }
        }
        self.letters();
        self.numerals();
        self.titled();
        self.named_rows();
        self.parts();
        self.counted_words();
        self.line_numbers();
        self.bracketed();
        self.row_totals();
        // Numbers that begin again, or that run past eight, are counts.
        let resets = numbered.windows(2).filter(|w| w[1] <= w[0]).count();
        self.manner.numbers_are_counts =
            resets >= 1 && numbered.len() >= 8 || numbered.iter().any(|n| *n > 12) || numbered.len() > 12;
        // Numbers that only rise, before lines that each hold several steps, number the lines.
        let rises = numbered.len() >= 6 && numbered.windows(2).all(|w| w[1] == w[0] + 1);
        let several = |l: &Line| l.tokens.iter().filter(|t| t.sign(',') || t.sign(';')).count() >= 2;
        let full = self.labels.iter().zip(&self.lines).filter(|(l, line)| {
            l.as_ref().is_some_and(|l| !l.certain && l.number.is_some()) && several(line)
        });
        let under = self.labels.iter().flatten().any(|l| l.certain);
        let rows = under && rises && full.count() * 2 > numbered.len();
        // Where sections are labelled by a word, bare numbers are counts.
        let labelled = self.labels.iter().zip(&self.lines).filter(|(l, line)| {
            l.as_ref().is_some_and(|l| l.certain && l.number.is_some())
                && line.tokens.get(line.first).is_some_and(|t| section_named(self.text, t))
        });
        // "R1  w2 starts 6, ends at 32" is the sign of a restart, no label.
        let numeral = |i: &usize| {
            self.labels[*i].as_ref().is_some_and(|l| l.certain && l.number.is_some())
                && self.keyword(*i).is_none()
        };
        let numerals = (0..self.lines.len()).filter(numeral).count();
        let ranges = self.labels.iter().flatten().filter(|l| l.certain && l.range.is_some()).count();
        self.manner.numbers_are_counts |= labelled.count() >= 1 || numerals >= 3 || ranges >= 2;
        // "1  Step R back" above "2&3 Step L behind" is a count.
        self.manner.numbers_are_counts |= (0..self.lines.len()).any(|i| {
            let own = |l: &&Label| self.lines[i].leading_at(self.text, l.to).is_some();
            let plain = self.labels[i].as_ref().filter(|l| !l.certain && l.range.is_none() && !own(l));
            let Some(n) = plain.and_then(|l| l.number) else { return false };
            // "4  Kick L" below "1-3  Walk R, L, R", too.
            let above = (0..i).rev().find(|j| !self.lines[*j].empty());
            let after = above.and_then(|j| self.lines[j].led(self.text)).is_some_and(|m| {
                m.ticks.len() >= 2 && m.ticks.len() <= 4 && u32::try_from(m.last() + 1) == Ok(n) && n < 8
            });
            after
                || self
                    .next_full(i)
                    .and_then(|j| self.lines[j].led(self.text))
                    .is_some_and(|m| m.ticks.len() >= 2 && !m.range && u32::try_from(m.first()) == Ok(n + 1))
        });
        self.manner.numbers_are_counts &= !rows;
        for (i, line) in self.lines.iter().enumerate() {
            if let Some(Told::Steps(_)) = line.told {
                self.lead[i] = true;
                self.manner.leading += 1;
                continue;
            }
            if line.empty() || line.told.is_some() {
                continue;
            }
            let numbered_section = self.labels[i]
                .as_ref()
                .is_some_and(|l| l.range.is_none() && (l.certain || !self.manner.numbers_are_counts));
            if !numbered_section && let Some(m) = line.led(self.text) {
                let rest = &line.tokens[m.to.min(line.tokens.len())..];
                let whole = self.labels[i].as_ref().is_some_and(|l| l.range.is_some());
                // "Counts 1-8 again" points at these counts.
                let named = line.tokens[line.first].is(W::Count)
                    && matches!(line.tokens[m.to - 1].kind, Kind::Number(_));
                let pointer = points(self.text, rest, 0, rest.len());
                let again = named && pointer.as_ref().is_some_and(|p| p.target == Target::default());
                let said = doing(rest) || likens(self.text, rest) || pointer.is_some();
                if said && !again && !whole && !head_like(self.text, rest) {
                    self.lead[i] = true;
                    self.manner.leading += 1;
                }
            }
        }
        self.manner.numbers_are_bullets = rows || self.bullets();
        for d in &self.own {
            for i in d.lines.0..d.lines.1 {
                self.lead[i] = false;
            }
        }
        let leading = self.manner.leading;
        for (i, line) in self.lines.iter().enumerate() {
            if line.empty() || self.lead[i] || line.told.is_some() || self.defines(i) {
                continue;
            }
            let from = self.labels[i].as_ref().map_or(line.first, |l| l.to);
            let m = marks(self.text, line, from, leading < 3);
            // "^ R heel on 3 stays light" points at the line above.
            if line.tokens[0].sign('^') {
                continue;
            }
            if m.iter().any(|p| p.behind)
                && !head_like(self.text, &line.tokens)
                && line.verbs + u32::from(doing(&line.tokens)) >= 1
                && (line.step_words * 5 >= line.words * 2
                    || line.words <= 5 && line.tokens.iter().any(|t| t.is(W::Again)))
            {
                self.behind[i] = true;
                self.manner.behind += 1;
            }
        }
    }

    /// Lines that begin with A, B, C ... or a), b), c), "a. Hooks" ... in order are labelled so, even without a sign behind a capital.
    pub(super) fn letters(&mut self) {
        let mut lettered: Vec<(usize, char, usize)> = self
            .lines
            .iter()
            .enumerate()
            .filter_map(|(i, l)| {
                let t = l.tokens.get(l.first)?;
                let word = t.span.of(self.text);
                let c = word.chars().next().filter(|c| word.len() == 1 && ('A'..='H').contains(c))?;
                (l.tokens.get(l.first + 1)?.gap > 0).then_some((i, c, 1))
            })
            .collect();
        // "a)", "b)", "c)", where nothing but parts is named; each part may begin with a).
        let section = |l: &Label| l.certain && !(l.part && l.letter.is_some());
        let small = lettered.is_empty();
        if small && !self.labels.iter().flatten().any(section) {
            let small = |(i, l): (usize, &Line)| {
                let word = l.tokens.get(l.first)?.span.of(self.text);
                let c = word.chars().next().filter(|c| word.len() == 1 && ('a'..='h').contains(c))?;
                let sign = l.tokens.get(l.first + 1)?;
                let parts = sign.sign(')')
                    || (sign.sign('.') || sign.sign(':')) && l.tokens.get(l.first + 2)?.gap > 0;
                parts.then_some((i, c.to_ascii_uppercase(), 2))
            };
            lettered = self.lines.iter().enumerate().filter_map(small).collect();
        }
        let after = |n: usize, c: char| match n.checked_sub(1).map(|n| lettered[n].1) {
            Some(before) => c as u8 == before as u8 + 1 || small && c == 'A' && before > 'A',
            None => c == 'A',
        };
        let rising = lettered.len() >= 3 && lettered.iter().enumerate().all(|(n, (_, c, _))| after(n, *c));
        if rising {
            for (i, c, len) in lettered {
                let to = self.lines[i].first + len;
                self.labels[i].get_or_insert(Label {
                    to,
                    number: small.then(|| u32::from(c) - u32::from('A') + 1),
                    range: None,
                    certain: true,
                    letter: (!small).then_some(c),
                    part: false,
                });
            }
        }
    }

    /// Lines that begin with i, ii, iii ... in order are labelled so, even in small letters.
    fn numerals(&mut self) {
        let mut numbered: Vec<(usize, u32, usize)> = Vec::new();
        for (i, l) in self.lines.iter().enumerate() {
            let Some(n) = l.tokens.get(l.first).and_then(|t| roman(t.span.of(self.text))) else { continue };
            let Some(next) = l.tokens.get(l.first + 1) else { continue };
            let sign = matches!(next.kind, Kind::Sign(')' | '.' | ':' | '-' | '='));
            let after = numbered.last().map_or(0, |(_, n, _)| *n) + 1;
            // The longest of them may fill its column.
            if sign || next.gap == 2 || next.gap == 1 && n == after && n > 3 {
                if n != after {
                    return;
                }
                numbered.push((i, n, l.first + 1 + usize::from(sign)));
            }
        }
        if numbered.len() < 3 {
            return;
        }
        for (i, n, to) in numbered {
            if !self.labels[i].as_ref().is_some_and(|l| l.certain) {
                let number = Some(n);
                let label = Label { to, number, range: None, certain: true, letter: None, part: false };
                self.labels[i] = Some(label);
            }
        }
    }

    /// "A", "B 16 counts" by themselves in a line are parts, where the song's order names them.
    fn parts(&mut self) {
        let orders: Vec<usize> = (0..self.lines.len()).filter(|i| self.order[*i]).collect();
        let named = |letter: char| {
            let words = orders.iter().flat_map(|i| &self.lines[*i].tokens).map(|t| t.span.of(self.text));
            let mut orders = words.filter(|w| w.bytes().all(|b| b.is_ascii_uppercase()));
            // The tag has a letter of its own.
            orders.any(|w| if letter == 'T' { w == "T" } else { w.contains(letter) })
        };
        let mut found = Vec::new();
        for (i, line) in self.lines.iter().enumerate().skip(1) {
            let Some(first) = line.tokens.get(line.first) else { continue };
            let word = first.span.of(self.text);
            let Some(letter) =
                word.chars().next().filter(|c| word.len() == 1 && ('A'..='F').contains(c) || word == "T")
            else {
                continue;
            };
            let rest = &line.tokens[line.first + 1..];
            let counts = |t: &Token| matches!(t.kind, Kind::Sign(_) | Kind::Number(_)) || t.is(W::Count);
            // "B (always danced facing 12:00)"
            let signs =
                rest.iter().take_while(|t| matches!(t.kind, Kind::Sign('.' | '-' | '=' | '*'))).count();
            let whole = rest.iter().all(counts) || bracketed(&rest[signs..]);
            if self.labels[i].is_none() && whole && !orders.contains(&i) && named(letter) {
                found.push((i, letter, line.first + 1));
            }
        }
        for (i, letter, to) in found {
            let label =
                Label { to, number: None, range: None, certain: true, letter: Some(letter), part: true };
            self.labels[i] = Some(label);
        }
    }

    /// "(1-4) Walk ..." above "(5-6) Rock ..." is a row of steps: no section has four counts where the next line counts on.
    fn rows_of_four(&mut self) {
        let rows: Vec<usize> = (0..self.lines.len())
            .filter(|i| {
                let line = &self.lines[*i];
                // "Section 3 (17-20)" says outright that it is one.
                let Some(l) = self.labels[*i].as_ref().filter(|l| l.number.is_none()) else { return false };
                let Some((a, b)) = l.range.filter(|(a, b)| b - a < 5) else { return false };
                let first = |j: usize| self.lines[j].led(self.text).map(|m| (m.first(), m.last()));
                let below = self.next_full(*i).and_then(first).is_some_and(|(first, _)| first == b + 1);
                let above = (0..*i).rev().find(|j| !self.lines[*j].empty()).and_then(first);
                doing(&line.tokens[l.to.min(line.tokens.len())..])
                    && (below || above.is_some_and(|(_, last)| last == a - 1))
            })
            .collect();
        for i in rows {
            self.labels[i] = None;
        }
    }

    /// Lines that begin with one word and a number that rises from one to the next are labelled so, whatever the word:
    /// "Lot one: ...", "Lot two: ...".
    fn counted_words(&mut self) {
        let numbered: Vec<(usize, u32)> = (0..self.lines.len())
            .filter_map(|i| {
                let line = &self.lines[i];
                let t = line.tokens.get(line.first..)?;
                let closed = matches!(t.get(2)?.kind, Kind::Sign(':' | '.' | '-' | ')' | ','));
                let word = t[0].kind == Kind::Unknown && closed && self.labels[i].is_none();
                word.then(|| cardinal(self.text, &t[1])).flatten().map(|n| (i, n))
            })
            .collect();
        let word = |i: usize| lower(self.lines[i].tokens[self.lines[i].first].span.of(self.text));
        let rising = numbered.len() >= 3
            && numbered
                .iter()
                .enumerate()
                .all(|(k, (i, n))| u32::try_from(k + 1) == Ok(*n) && word(*i) == word(numbered[0].0));
        if rising {
            for (i, n) in numbered {
                let to = self.lines[i].first + 3;
                let made =
                    Label { to, number: Some(n), range: None, certain: true, letter: None, part: false };
                self.labels[i] = Some(made);
            }
        }
    }

    /// "1 side R, L behind, R chasse, cross rock L, recover, L chasse" above "2 step R, ...": numbers that rise from line
    /// to line before more steps than a count can hold number the sections, where nothing else does.
    fn line_numbers(&mut self) {
        if self.labels.iter().flatten().any(|l| l.certain || l.number.is_some()) {
            return;
        }
        let led = |i: &usize| {
            let line = &self.lines[*i];
            let number = line.tokens.get(line.first).map(|t| t.kind);
            let rest = line.tokens.get(line.first + 1..).unwrap_or_default();
            let counts = line.led(self.text).is_some_and(|m| m.ticks.len() >= 2);
            let numbered = matches!(number, Some(Kind::Number(_))) && line.told.is_none();
            numbered
                && !counts
                && rest.first().is_some_and(|t| t.gap > 0)
                && doing(rest)
                && !head_like(self.text, rest)
        };
        let found: Vec<usize> = (0..self.lines.len()).filter(led).collect();
        let rises = found.iter().enumerate().all(|(k, i)| {
            let line = &self.lines[*i];
            u32::try_from(k + 1).is_ok_and(|n| line.tokens[line.first].kind == Kind::Number(n))
        });
        let full = found.iter().filter(|i| {
            let clauses = self.lines[**i].tokens.split(|t| t.sign(','));
            clauses.filter(|c| doing(c)).count() >= 4
        });
        if found.len() < 2 || !rises || full.count() * 2 < found.len() {
            return;
        }
        for (k, i) in found.into_iter().enumerate() {
            let number = u32::try_from(k + 1).ok();
            let to = self.lines[i].first + 1;
            self.labels[i] =
                Some(Label { to, number, range: None, certain: true, letter: None, part: false });
        }
    }

    /// Whether the numbered lines have counts behind them that run on from line to line, a few to each.
    pub(super) fn bullets(&self) -> bool {
        let mut last = 0;
        let mut lines = 0;
        for (i, line) in self.lines.iter().enumerate() {
            let Some(l) = self.labels[i].as_ref().filter(|l| !l.certain) else { continue };
            let m = marks(self.text, line, l.to, true);
            let Some(p) = m.iter().find(|p| p.behind && !p.total) else { continue };
            if last > 0 && (p.mark.first() <= last || p.mark.last() - p.mark.first() >= 6) {
                return false;
            }
            last = p.mark.last();
            lines += 1;
        }
        lines >= 3 && last > 8
    }
}
