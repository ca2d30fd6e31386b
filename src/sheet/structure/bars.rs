//! Bars by their numbers, "Bar 1", "measure 2", each with its three or four counts: two of them are a section, or all
//! that stand under a heading.

use super::manner::in_three;
use super::{Kind, Label, Reading, Token, W};
use crate::text::{Span, among, is_among};

/// Words that a heading over bars has at most, where nothing else marks it as one.
const NAME: u32 = 5;

impl Reading<'_> {
    /// Puts counts for the numbers of bars, and makes sections of them.
    pub(super) fn bars(&mut self) {
        let mut bars: Vec<usize> = (0..self.lines.len()).filter(|i| self.bar_number(*i).is_some()).collect();
        // Those of a tag begin at one again.
        let again = bars.iter().skip(1).position(|i| self.bar_number(*i) == Some(1));
        let tag = bars.split_off(again.map_or(bars.len(), |k| k + 1));
        let rising = |bars: &[usize]| bars.iter().zip(1..).all(|(i, n)| self.bar_number(*i) == Some(n));
        if bars.len() < 4 || !rising(&bars) || !rising(&tag) {
            return;
        }
        let beats = self.beats(bars.len());
        let heads = self.heads_over(&bars);
        if heads.len() < 2 {
            let counted =
                self.lines[bars[0]..=bars[bars.len() - 1]].iter().any(|l| l.led(self.text).is_some());
            if beats != Some(3) || bars.len() % 2 == 1 || counted {
                return;
            }
            self.manner.bars = true;
            for (k, i) in bars.drain(..).enumerate() {
                let Some(label) = &mut self.labels[i] else { continue };
                if k % 2 == 0 {
                    label.number = u32::try_from(k / 2 + 1).ok();
                } else {
                    let to = label.to;
                    self.lines[i].begin(to);
                    self.labels[i] = None;
                }
            }
        } else {
            for i in &heads {
                let to = self.lines[*i].first;
                let named =
                    || Label { to, number: None, range: None, certain: true, letter: None, part: false };
                self.labels[*i].get_or_insert_with(named);
            }
        }
        let (mut done, mut before) = (0, 0);
        for i in bars.into_iter().chain(tag) {
            let one = self.bar_number(i) == Some(1);
            let Some(label) = self.labels[i].take() else { continue };
            if one || heads.iter().any(|h| (before..i).contains(h)) {
                done = 0;
            }
            self.counts_of_bar(i, label.to, beats.map(|n| (done + 1, done + n)));
            done += beats.unwrap_or(0);
            before = i;
        }
    }

    /// The number of the bar that a line begins with.
    fn bar_number(&self, i: usize) -> Option<u32> {
        let first = self.lines[i].tokens.get(self.lines[i].first)?;
        let number = self.labels[i].as_ref().filter(|l| l.range.is_none())?.number?;
        is_among(first.span.of(self.text), among!["bar", "measure"]).then_some(number)
    }

    /// How long so many bars are each, by the counts of the head or the metre.
    fn beats(&self, bars: usize) -> Option<u32> {
        let told = |n: &u32| {
            let counts = u32::try_from(bars).ok().map(|bars| Kind::Number(bars * n));
            let count = |t: &[Token]| t.iter().find(|t| !t.sign('-')).is_some_and(|t| t.is(W::Count));
            self.lines.iter().any(|l| {
                let t = &l.tokens;
                (0..t.len()).any(|k| Some(t[k].kind) == counts && count(&t[k + 1..]))
            })
        };
        [3, 4].into_iter().find(told).or_else(|| in_three(self.text, &self.lines).then_some(3))
    }

    /// Headings of their own between bars: "Bars 1 and 2: twinkles" above "bar 1 | 1 cross ...", or a name by itself
    /// over as many bars as the others have.
    fn heads_over(&self, bars: &[usize]) -> Vec<usize> {
        let over = |i: &usize| {
            let bar = |i: &usize| bars.binary_search(i).is_ok();
            !self.lines[*i].empty() && !bar(i) && self.next_full(*i).is_some_and(|j| bar(&j))
        };
        let above: Vec<usize> = (0..bars[bars.len() - 1]).filter(over).collect();
        let plain = |i: &usize| {
            let word =
                |t: &Token| matches!(t.kind, Kind::W(_) | Kind::Name(_) | Kind::Unknown | Kind::Sign(','));
            self.lines[*i].words <= NAME && self.lines[*i].tokens.iter().all(word)
        };
        let size = bars.len() / above.len().max(1);
        let even = (0..).zip(&above).all(|(n, h)| bars.partition_point(|b| b < h) == n * size);
        let named = even && above.iter().all(plain);
        let labelled = |i: &usize| self.labels[*i].as_ref().is_some_and(|l| l.certain);
        above.into_iter().filter(|i| named || labelled(i)).collect()
    }

    /// Puts the counts of a bar in place of its number, where it is not counted by itself.
    fn counts_of_bar(&mut self, i: usize, to: usize, counts: Option<(u32, u32)>) {
        let line = &mut self.lines[i];
        let to = to + line.tokens[to..].iter().take_while(|t| t.sign('|')).count();
        let (Some((a, b)), None) = (counts, line.leading_at(self.text, to)) else {
            line.begin(to);
            return;
        };
        let (word, number) = (line.tokens[line.first], line.tokens[to - 1]);
        let middle = Span { start: word.span.end, end: word.span.end };
        let counts = [
            Token { kind: Kind::Number(a), ..word },
            Token { kind: Kind::Sign('-'), span: middle, gap: 0 },
            Token { kind: Kind::Number(b), gap: 0, ..number },
        ];
        if let Some(step) = line.tokens.get_mut(to) {
            step.gap = step.gap.max(1);
        }
        line.tokens.splice(line.first..to, counts);
        line.begin(line.first);
    }
}

#[cfg(test)]
mod tests {
    use crate::figures::lexicon;
    use crate::sheet::structure::parse;

    /// How many chunks each section has.
    fn sections(bars: [&str; 4], over: [&str; 2], counts: u32) -> Vec<usize> {
        let [a, b, c, d] = bars;
        let text = format!(
            "Lantern\n{counts} counts\n\n{}\n{a} L forward, R beside L, L in place\n{b} R back, hold, hold\n{}\n\
             {c} L across R, R side, L in place\n{d} R back, L beside R, R forward\n",
            over[0], over[1]
        );
        let sheet = parse(&text, &lexicon().vocabulary);
        sheet.parts.iter().flat_map(|p| &p.sections).map(|s| s.chunks.len()).collect()
    }

    #[test]
    fn bars_stand_under_headings() {
        let bars = ["Bar 1:", "Bar 2:", "Bar 3:", "Bar 4:"];
        assert_eq!(sections(bars, ["Section 1. Basics", "Section 2. Twinkles"], 12), [2, 2]);
        assert_eq!(sections(bars, ["BARS 1-2", "BARS 3-4"], 12), [2, 2]);
        assert_eq!(sections(bars, ["Basics", "Half turn"], 12), [2, 2]);
        let measures = ["Measure 1 ", "Measure 2 ", "Measure 3 ", "Measure 4 "];
        assert_eq!(sections(measures, ["PART ONE", "PART TWO"], 16), [2, 2]);
    }
}
