//! What each line is for.

use super::keywords::nth_time;
use super::notes::chat;
use super::unmarked::dances;
use super::wording::{
    doing, framed, goes_on, has, head_like, names_wall, remark_line, starts_lower, starts_over,
};
use super::{Kind, Label, Reading, Role, Token, Told, Topic, W, acts, marks};
use crate::sheet::classes::likens;
use crate::sheet::counts::Mark;
use crate::sheet::numbers::value;
use crate::sheet::pointing::points;
use crate::text::among;

impl Reading<'_> {
    /// Whether a line belongs to the definition of a figure.
    pub(super) fn defines(&self, i: usize) -> bool {
        self.own.iter().any(|d| (d.lines.0..d.lines.1).contains(&i))
    }

    pub(super) fn next_full(&self, i: usize) -> Option<usize> {
        (i + 1..self.lines.len()).find(|j| !self.lines[*j].empty())
    }

    pub(super) fn steps_line(&self, i: usize) -> bool {
        self.lead[i] || self.behind[i]
    }

    /// Whether this line's label and the lines after it make it a heading.
    pub(super) fn headed(&self, i: usize) -> bool {
        let Some(l) = &self.labels[i] else { return false };
        let line = &self.lines[i];
        if l.range.is_some() {
            return true;
        }
        if !l.certain && (self.manner.numbers_are_counts || self.manner.numbers_are_bullets || self.lead[i]) {
            return false;
        }
        // "H." under a letter is a name, not a part.
        let below = || {
            (i + 1..self.lines.len()).any(|j| self.steps_line(j) || self.lines[j].stepful())
                || doing(&line.tokens[l.to.min(line.tokens.len())..])
        };
        l.letter.is_none() || l.part || below()
    }

    pub(super) fn first_body(&self) -> usize {
        let n = self.lines.len();
        // Notes are divided before they come here.
        if self.lines.iter().any(|l| matches!(l.told, Some(Told::Words))) {
            return self.lines.iter().position(|l| l.told.is_some()).unwrap_or(n);
        }
        if self.only_headed {
            let labelled = |i: &usize| {
                self.labels[*i].as_ref().is_some_and(|l| l.certain)
                    && self.headed(*i)
                    && *i > 0
                    && self.keyword(*i).is_none()
                    && !head_like(self.text, &self.lines[*i].tokens)
                    && self.next_full(*i).is_some_and(|j| self.steps_line(j) || self.lines[j].stepful())
            };
            if let Some(i) = (0..n).find(labelled) {
                return i;
            }
        }
        for i in 0..n {
            let line = &self.lines[i];
            if matches!(line.told, Some(Told::Heading(_))) {
                return i;
            }
            if line.empty() || self.defines(i) {
                continue;
            }
            // Counts behind words among lines led by counts: the head explains a rhythm.
            if self.lead[i] || self.behind[i] && self.manner.behind * 4 >= self.manner.leading {
                // A heading without a label may stand right above.
                return self.heading_above(i).unwrap_or(i);
            }
            if self.headed(i) && i > 0 && !head_like(self.text, &line.tokens) {
                let near = self.next_full(i).is_some_and(|j| {
                    let part = self.labels[i].as_ref().is_some_and(|l| l.part && l.letter.is_some());
                    self.steps_line(j)
                        || self.lines[j].stepful()
                        || self.lines[i].stepful()
                        || part && self.headed(j)
                });
                if near {
                    return i;
                }
            }
            if !self.manner.counted()
                && i > 0
                && line.stepful()
                && line.verbs + line.bare_steps >= 2
                && !head_like(self.text, &line.tokens)
            {
                return self.heading_above(i).unwrap_or(i);
            }
        }
        n
    }

    pub(super) fn heading_above(&self, i: usize) -> Option<usize> {
        let above = i
            .checked_sub(1)
            .filter(|j| !self.lines[*j].empty())
            .or_else(|| i.checked_sub(2).filter(|j| !self.lines[*j].empty() && self.lines[i - 1].empty()))?;
        let line = &self.lines[above];
        let direct = above + 1 == i;
        let plain = !head_like(self.text, &line.tokens) && self.keyword(above).is_none() && above > 0;
        if plain && (self.headed(above) || (direct && line.after_gap && (line.stepful() || line.words <= 6)))
        {
            Some(above)
        } else {
            None
        }
    }

    pub(super) fn roles(&self) -> Vec<Role> {
        let body = self.first_body();
        let mut out: Vec<Role> = Vec::with_capacity(self.lines.len());
        let mut extra: Option<Topic> = None;
        let tail = self.tail();
        let mut heard = 0;
        for (i, line) in self.lines.iter().enumerate() {
            if i < heard {
                out.push(Role::Heard);
                continue;
            }
            if i == body {
                // What the head says of tags is not open any more.
                extra = None;
            }
            if let Some((events, end)) = self.heard(i, i >= body && tail[i]) {
                extra = events.last().filter(|e| e.steps.is_empty()).map(|e| e.topic);
                out.push(Role::Told(events));
                heard = end;
                continue;
            }
            let role = if let Some(told) = &line.told {
                match told {
                    Told::Steps(_) => Role::Steps(line.first, false),
                    Told::Heading(label) => Role::Heading(label.clone()),
                    Told::Words => Role::Steps(line.first, true),
                    Told::Aside => Role::Note,
                    Told::Left => Role::Blank,
                }
            } else if line.empty() {
                Role::Blank
            } else if self.defines(i) {
                Role::Own
            } else if i < body {
                match self.keyword(i) {
                    _ if self.order[i] => Role::Sequence,
                    None if self.tag_steps(i, &out) => Role::Steps(line.first, false),
                    Some(topic)
                        if names_wall(&line.tokens)
                            || has(&line.tokens, W::After)
                            || nth_time(&line.tokens) =>
                    {
                        Role::Extra(topic)
                    }
                    _ => Role::Head,
                }
            } else if self.late_head(i, &out) {
                Role::Head
            } else {
                {
                    // What the head says of tags has no steps behind it.
                    if i == body {
                        extra = None;
                    }
                    let above = out.last().cloned().unwrap_or(Role::Blank);
                    let last = out
                        .iter()
                        .rev()
                        .find(|r| !matches!(r, Role::Blank | Role::Note))
                        .cloned()
                        .unwrap_or(Role::Blank);
                    self.body_role(i, &above, &last, extra)
                }
            };
            match &role {
                Role::Extra(topic) => extra = Some(*topic),
                Role::Heading(_) => extra = None,
                Role::Blank | Role::Steps(..) | Role::Note => {}
                _ => {}
            }
            out.push(role);
        }
        out
    }

    /// Whether a line of the head tells the steps of the tag that the line above speaks of.
    fn tag_steps(&self, i: usize, out: &[Role]) -> bool {
        let line = &self.lines[i];
        let mut above = out.iter().rev().skip_while(|r| matches!(r, Role::Steps(..)));
        let under = matches!(above.next(), Some(Role::Extra(Topic::Tag))) && !line.after_gap;
        let t = &line.tokens[line.first..];
        under
            && !head_like(self.text, t)
            && chat::sentences(self.text, t).first().is_some_and(|s| {
                let waits =
                    |t: &Token| t.span.is_among(self.text, among!["wait", "waits", "begins", "starts"]);
                chat::danced(self.text, s, &self.own)
                    && !s.iter().any(waits)
                    && s.iter().any(|t| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF)))
                    && (line.bare_steps >= 2
                        || s.iter().any(|t| {
                            matches!(t.kind, Kind::Name(_) | Kind::W(W::Hip))
                                || matches!(t.kind, Kind::W(w) if acts(w))
                        }))
            })
    }

    /// Whether a line behind a tag that opens the page is of the head: "Now the dance. 24, two walls, beginner".
    fn late_head(&self, i: usize, out: &[Role]) -> bool {
        let line = &self.lines[i];
        let tag = out.iter().position(|r| matches!(r, Role::Extra(Topic::Tag)));
        let begun = |r: &Role| matches!(r, Role::Heading(_) | Role::Own);
        // Steps above belong to the tag only as long as no gap parts them from it.
        let apart =
            |from: usize| (from + 1..i).any(|k| self.lines[k].after_gap && matches!(out[k], Role::Steps(..)));
        tag.is_some_and(|from| !apart(from) && !out[..from].iter().any(|r| matches!(r, Role::Steps(..))))
            && !out.iter().any(begun)
            && head_like(self.text, &line.tokens)
            && !line.stepful()
            && self.keyword(i).is_none()
            && !self.steps_line(i)
    }

    pub(super) fn body_role(&self, i: usize, above: &Role, last: &Role, extra: Option<Topic>) -> Role {
        let line = &self.lines[i];
        let t = &line.tokens;
        if self.order[i] {
            return Role::Sequence;
        }
        if let Some(from) = self.goes_on[i] {
            return Role::Steps(from, false);
        }
        if let Some(joins) = self.told_elsewhere(i, above, last) {
            return Role::Steps(line.first, joins);
        }
        if let Some(topic) = self.keyword(i)
            && !self.lead[i]
        {
            return Role::Extra(topic);
        }
        if extra.is_none() && self.optional(i) {
            return Role::Note;
        }
        // "TAG: sway R, L, R, L" and below it "after wall 2 at the back", "after wall 5".
        let opens = t.get(line.first).is_some_and(|t| t.is(W::After) || t.is(W::At));
        let does = t.iter().any(|t| matches!(t.kind, Kind::Name(_) | Kind::W(W::R | W::L | W::RF | W::LF)));
        // "W2 facing 6, W5 facing 9" says no more than where.
        let walls = t.get(line.first).is_some_and(|t| t.is(W::Wall)) && only_walls(self.text, t);
        if extra == Some(Topic::Tag) && (opens || walls) && has(t, W::Wall) && !does && !self.lead[i] {
            return Role::Extra(Topic::Tag);
        }
        if !self.lead[i] && self.tag_steps(i, core::slice::from_ref(above)) {
            return Role::Steps(line.first, false);
        }
        if self.lead[i] {
            if self.range_heading(i) {
                return Role::Heading(self.labels[i].clone());
            }
            let under = |label: &Label| match last {
                // Behind another such section, not under a heading of its own.
                Role::Heading(Some(l)) => {
                    l.range.is_none_or(|(_, b)| label.range.is_none_or(|(a, _)| a <= b))
                }
                Role::Heading(None) => true,
                _ => false,
            };
            if let Some(label) = self.range_inline(i)
                && !under(&label)
            {
                return Role::Heading(Some(label));
            }
            return Role::Steps(line.first, false);
        }
        // "Tag, when wall 2 is over:" and below it "T:  L side, drag R"
        if let Some(label) = self.labels[i].as_ref().filter(|l| l.letter == Some('T') && l.number.is_none())
            && matches!(above, Role::Extra(Topic::Tag))
        {
            return Role::Steps(label.to, false);
        }
        if self.headed(i) {
            return Role::Heading(self.labels[i].clone());
        }
        let steps_next = || self.next_full(i).is_some_and(|j| self.steps_line(j) || self.lines[j].stepful());
        if framed(line) && !self.behind[i] && steps_next() {
            return Role::Heading(None);
        }
        if self.decorated(i) && steps_next() {
            return Role::Heading(None);
        }
        // "kbc = kick ball change" explains a word.
        let glossary = t.len() > line.first + 2
            && (t[line.first + 1].sign('=')
                || t[line.first + 1].is(W::Across) && t.get(line.first + 3).is_some_and(|t| t.sign('=')))
            && !matches!(t[line.first].kind, Kind::Number(_));
        if starts_over(self.text, t) {
            return Role::Note;
        }
        if (remark_line(self.text, line) || glossary) && !self.behind[i] {
            return Role::Note;
        }
        // "Exactly as the first section" under a heading is all of it.
        if matches!(above, Role::Heading(_)) && !self.behind[i] && likens(self.text, &t[line.first..]) {
            return Role::Steps(line.first, false);
        }
        let next = self.next_full(i);
        let above_steps = matches!(above, Role::Steps(..));
        // "Both stomps take weight" below the steps only talks of them, and so does "last year this was a sailor in [32]".
        let row = i > 0 && matches!(above, Role::Heading(Some(_))) && line.indent > self.lines[i - 1].indent;
        let beside = !line.capitals && ((above_steps || row) && !line.after_gap || line.stepful());
        let lone = || !self.behind[i] || marks(self.text, line, line.first, true).iter().all(|p| p.total);
        if beside
            && doing(t)
            && !has(t, W::Again)
            && chat::talks(self.text, &t[line.first..], &self.own)
            && lone()
        {
            return Role::Note;
        }
        if self.total_heading(i, next) {
            return Role::Heading(self.labels[i].clone());
        }
        if self.behind[i] {
            // The steps of a row may begin beside its name: "Turn   side R, touch L," above "   step R, stomp L    8".
            let named = i > 0 && matches!(above, Role::Heading(_)) && self.in_column(i - 1, i);
            let open = (above_steps || named) && !self.behind[i - 1] && !self.lead[i - 1];
            let lower = starts_lower(self.text, line);
            let joins = above_steps && lower || open && line.indent > self.lines[i - 1].indent;
            let from = if self.manner.numbers_are_bullets {
                self.labels[i].as_ref().map_or(line.first, |l| l.to)
            } else {
                line.first
            };
            return Role::Steps(from, joins);
        }
        let next_steps = next.is_some_and(|j| self.steps_line(j));
        if self.manner.counted() {
            // A line without counts among counted ones.
            let next_joins = next == Some(i + 1)
                && self.behind[i + 1]
                && (self.lines[i + 1].indent > line.indent || starts_lower(self.text, &self.lines[i + 1]));
            if next_joins && (line.stepful() || !line.after_gap) {
                if self.manner.numbers_are_bullets
                    && let Some(l) = &self.labels[i]
                {
                    return Role::Steps(l.to, false);
                }
                let open = above_steps && !self.steps_line(i - 1) && !line.after_gap;
                return Role::Steps(line.first, open && starts_lower(self.text, line));
            }
            if above_steps
                && !line.after_gap
                && (line.indent > self.lines[i - 1].indent
                    || starts_lower(self.text, line) && !line.bullet
                    || goes_on(self.text, &self.lines[i - 1], line)
                    || self.lines[i - 1].bullet && !line.bullet)
                && doing(t)
                && line.step_words * 3 >= line.words
            {
                return Role::Steps(line.first, true);
            }
            // "Hip sways R, L, R, L" above the counts of a tag only names them.
            let named =
                next.filter(|j| self.lead[*j] && !above_steps).and_then(|j| self.lines[j].led(self.text));
            // Apart from what is said of a restart, the next section has its heading.
            let told = extra.is_some_and(|topic| topic != Topic::Restart || !line.after_gap);
            if told && named.is_some_and(|m| m.first() == 1) {
                return Role::Note;
            }
            if matches!(extra, Some(Topic::Tag | Topic::Ending)) && line.stepful() && !has(t, W::Wall) {
                return Role::Steps(line.first, false);
            }
            let short = line.words <= 14;
            let capitals = line.capitals && !self.all_in_capitals(i);
            if matches!(last, Role::Heading(_)) && line.stepful() && !capitals
                || above_steps && line.capitals && line.stepful() && !capitals && !line.after_gap
            {
                // Right under a heading: the steps themselves, or more of the heading.
                let more = next_steps
                    && self.manner.leading >= self.manner.behind
                    && !self.counts_from_here(i, next);
                return if more { Role::Note } else { Role::Steps(line.first, false) };
            }
            let pointed = || next.is_some_and(|j| j == i + 1 && self.pointer(j).is_some());
            let next_like = next
                .is_some_and(|j| (self.steps_line(j) || self.plain_steps(j)) && !self.range_heading(j))
                || short && line.after_gap && pointed();
            let apart = line.after_gap || line.capitals || (line.stepful() && !above_steps);
            let labelled = self.labels.iter().flatten().filter(|l| l.certain).count() >= 2;
            if next_like
                && short
                && apart
                && !labelled
                && (extra.is_none() || line.after_gap && self.manner.leading > 0)
            {
                return Role::Heading(None);
            }
            // A row below another one without counts: "R side rock, recover L" above "L side rock, recover R".
            let row = above_steps && !line.after_gap && !self.steps_line(i - 1);
            if self.plain_steps(i) || row && !capitals && dances(line) {
                return Role::Steps(line.first, false);
            }
            return Role::Note;
        }
        if line.stepful()
            && !(line.capitals && next.is_some_and(|j| self.lines[j].stepful() && !self.lines[j].capitals))
        {
            let joins = above_steps
                && !line.after_gap
                && line.indent > self.lines[i - 1].indent
                && starts_lower(self.text, line);
            let bullet = self.labels[i].as_ref().filter(|_| self.manner.numbers_are_bullets);
            return Role::Steps(bullet.map_or(line.first, |l| l.to), joins);
        }
        // "The crab to the left: all of 4th 8 on the other foot"
        if (above_steps || matches!(last, Role::Heading(_))) && chat::says_again(self.text, &t[line.first..])
        {
            return Role::Steps(line.first, false);
        }
        // "Do those two again, R then L."
        let again = t[line.first..].iter().take(6).position(|t| t.is(W::Again));
        if above_steps && t[line.first].is(W::Make) && again.is_some() && !has(t, W::Wall) {
            return Role::Steps(line.first, false);
        }
        if next.is_some_and(|j| self.lines[j].stepful() || self.steps_line(j))
            && line.words <= 8
            && (line.after_gap || line.capitals)
        {
            return Role::Heading(None);
        }
        Role::Note
    }

    /// Whether all that stands under the heading above is in capitals and has no counts: then it is no name of what
    /// stands below, but the steps.
    fn all_in_capitals(&self, i: usize) -> bool {
        // A section has few lines.
        const FAR: usize = 16;
        let from = (i.saturating_sub(FAR)..i).rev().find(|k| self.headed(*k)).map_or(i, |k| k + 1);
        let end = self.lines.len().min(i + FAR);
        let to = (i..end).find(|k| self.headed(*k)).unwrap_or(end);
        let mut full = self.lines[from..to].iter().filter(|l| !l.empty());
        let counted = (from..to).any(|k| self.steps_line(k));
        !counted && full.all(|l| l.capitals && l.stepful())
    }

    /// "Heel R, together, heel L, together" above "5-8 ...": only the first counts are not written. Where the counts
    /// run on from the section before, nothing is missing.
    fn counts_from_here(&self, i: usize, next: Option<usize>) -> bool {
        let begins = |j: usize| self.lines[j].led(self.text).map(Mark::first);
        let ends = (0..i).rev().find_map(|j| self.lines[j].led(self.text)).map(Mark::last);
        let first = next.and_then(begins);
        first.is_some_and(|n| n > 1 && ends.is_none_or(|last| n != last + 1 && n <= last))
    }

    /// ">> the box", "== HEELS": short lines behind a gap that begin with a sign which no line of steps begins with.
    pub(super) fn decorated(&self, i: usize) -> bool {
        let lead = |i: usize| {
            let line = &self.lines[i];
            let signs = &line.tokens[..line.first.min(line.tokens.len())];
            match signs {
                [a, b, ..] if a.kind == b.kind => Some(a.kind),
                _ => None,
            }
        };
        let title = |i: usize| {
            let line = &self.lines[i];
            line.after_gap && line.words <= 7 && !self.behind[i] && !self.lead[i]
        };
        let Some(sign) = lead(i).filter(|_| title(i)) else { return false };
        let mut same = (0..self.lines.len()).filter(|k| lead(*k) == Some(sign));
        same.clone().count() >= 2 && same.all(title)
    }

    /// "WALKS (8)" above the lines that make up the eight counts.
    pub(super) fn total_heading(&self, i: usize, next: Option<usize>) -> bool {
        let line = &self.lines[i];
        let m = marks(self.text, line, line.first, true);
        let [m] = m.as_slice() else { return false };
        if !m.total || m.mark.to < line.tokens.len() {
            return false;
        }
        let name = &line.tokens[..m.mark.from];
        let feet = name.iter().any(|t| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF)) || t.sign(','));
        let below = next.is_some_and(|j| {
            j == i + 1 && !self.lines[j].capitals && (self.behind[j] || self.lines[j].stepful())
        });
        // "Walks, coaster step (8 counts)" above "1-2 Walk ...": what a line counts before its words is in no total.
        let first = next.and_then(|j| {
            let below = marks(self.text, &self.lines[j], self.lines[j].first, true);
            below.into_iter().find(|p| !p.total).map(|p| p.mark)
        });
        let begins = |f: Mark| f.first() % 8 == 1 && f.last() < m.mark.last() + f.first() - 1;
        if line.after_gap && first.is_some_and(begins) {
            return true;
        }
        below
            && !line.bullet
            && (line.capitals
                || (!feet
                    && line.words <= 5
                    && (self.lines[i + 1].bullet || self.lines[i + 1].indent > line.indent)))
    }

    /// A line of steps without counts, in a sheet whose other counts stand behind the words.
    pub(super) fn plain_steps(&self, i: usize) -> bool {
        let line = &self.lines[i];
        line.stepful()
            && line.verbs >= 2
            && !has(&line.tokens, W::Wall)
            && (line.bullet || self.manner.behind > self.manner.leading)
            && !chat::talks(self.text, &line.tokens, &self.own)
    }

    /// "9-16 Botafogo: RF cross LF [1a2] ..." is a section in one line, with counts of its own behind the words.
    fn range_inline(&self, i: usize) -> Option<Label> {
        let m = self.lines[i].led(self.text).filter(|m| m.range && m.ticks.len() >= 6)?;
        let near = |j: usize| {
            let other = self.lines.get(j).and_then(|l| l.led(self.text));
            let joins = |n: &Mark| n.first() == m.last() + 1 || n.last() == m.first() - 1;
            other.is_some_and(joins) && self.range_told(j).is_some()
        };
        // "17-24 Same as 1-8" goes on behind the first section.
        let rest = &self.lines[i].tokens[m.to.min(self.lines[i].tokens.len())..];
        if m.first() > 8 && m.first() % 8 == 1 && points(self.text, rest, 0, rest.len()).is_some() {
            return Some(range_label(m));
        }
        // Beside such a section one without counts of its own is one, too.
        self.range_told(i).or_else(|| {
            let beside = (i.saturating_sub(RANGES_NEAR)..=i + RANGES_NEAR).any(|j| j != i && near(j));
            beside.then(|| range_label(m))
        })
    }

    /// The label of such a section whose words have counts behind them.
    fn range_told(&self, i: usize) -> Option<Label> {
        let line = &self.lines[i];
        let m = line.led(self.text)?;
        if !m.range || m.ticks.len() < 6 {
            return None;
        }
        let mut rest = line.clone();
        rest.first = m.to;
        let inner = marks(self.text, &rest, m.to, true);
        let first = inner.iter().find(|p| p.behind && !p.total)?;
        let begins = first.mark.first() == m.first() || first.mark.first() == 1;
        (inner.len() >= 2 && begins && first.mark.ticks.len() < m.ticks.len()).then(|| range_label(m))
    }

    /// "1-8 Side, behind, chasse" above lines with the counts 1-2, 3&4 is a heading.
    pub(super) fn range_heading(&self, i: usize) -> bool {
        let Some(m) = self.lines[i].led(self.text) else { return false };
        if !m.range || m.ticks.len() < 6 {
            return false;
        }
        let Some(j) = self.next_full(i) else { return false };
        if self.behind[j] {
            // "1-8 TOE STRUTS" above "right toe forward (1), ..."
            let inner = marks(self.text, &self.lines[j], self.lines[j].first, true);
            let length = m.last() - m.first() + 1;
            return inner.first().is_some_and(|p| {
                !p.total
                    && (p.mark.first() == m.first() && p.mark.last() < m.last()
                        || p.mark.first() == 1 && p.mark.last() < length)
            });
        }
        let Some(next) = self.lines[j].led(self.text).filter(|_| self.lead[j]) else { return false };
        next.first() == m.first() && next.last() < m.last()
            || (next.first() == 1 && next.last() < m.last() - m.first() + 1)
    }
}

/// How many lines apart sections may stand that are labelled by their counts.
const RANGES_NEAR: usize = 3;

/// A label that gives the counts of a mark.
pub(super) fn range_label(m: &Mark) -> Label {
    let range = Some((m.first(), m.last()));
    Label { to: m.to, number: None, range, certain: true, letter: None, part: false }
}

/// Whether words tell nothing but walls by their numbers, and where one looks at their ends.
fn only_walls(text: &str, t: &[Token]) -> bool {
    let said = |k: usize| {
        let t = &t[k];
        value(t).is_some()
            || matches!(
                t.kind,
                Kind::Clock(_)
                    | Kind::Sign(_)
                    | Kind::W(
                        W::Wall
                            | W::Face
                            | W::At
                            | W::The
                            | W::And
                            | W::OClock
                            | W::Front
                            | W::Back
                            | W::Home
                    )
            )
            || t.span.is_among(text, among!["looking", "once", "both"])
    };
    (0..t.len()).all(said) && (1..t.len()).any(|k| t[k - 1].is(W::Wall) && value(&t[k]).is_some())
}
