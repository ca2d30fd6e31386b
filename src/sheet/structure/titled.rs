//! Headings in capitals that begin with the number of their section: "2 MONTEREY 1/2, JAZZ BOX" above "1,2  R point ...".

use super::{Kind, Label, Reading};

impl Reading<'_> {
    /// The number before a title in capitals.
    fn title(&self, i: usize) -> Option<u32> {
        let line = &self.lines[i];
        let Some(Kind::Number(n @ 1..=16)) = line.tokens.get(line.first).map(|t| t.kind) else { return None };
        let rest =
            line.tokens.get(line.first + 1..).filter(|rest| rest.first().is_some_and(|t| t.gap > 0))?;
        let words: Vec<&str> = rest.iter().map(|t| t.span.of(self.text)).collect();
        let letters = || words.iter().flat_map(|w| w.chars()).filter(|c| c.is_alphabetic());
        // The "x" of "x2" may stay small.
        let small = letters().filter(|c| c.is_lowercase() && *c != 'x').count();
        (small == 0 && letters().count() >= 4).then_some(n)
    }

    /// Labels the titles whose numbers rise from 1 on, each above a line that counts from 1.
    pub(super) fn titled(&mut self) {
        let mut found: Vec<usize> = Vec::new();
        for i in 0..self.lines.len() {
            let Some(n) = self.title(i) else { continue };
            let below = self.lines[i + 1..].iter().find(|l| !l.empty());
            let counted = below.and_then(|l| l.led(self.text)).is_some_and(|m| m.first() == 1);
            if counted && usize::try_from(n) == Ok(found.len() + 1) {
                found.push(i);
            }
        }
        if found.len() < 3 {
            return;
        }
        for (k, i) in found.into_iter().enumerate() {
            let to = self.lines[i].first + 1;
            let number = u32::try_from(k + 1).ok();
            self.labels[i] =
                Some(Label { to, number, range: None, certain: true, letter: None, part: false });
        }
    }
}
