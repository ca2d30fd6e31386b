//! Puts the lines together in order: parts, sections, chunks.

use super::super::counts::MOST;
use super::super::marks::{Placed, reached};
use super::heard::counted_on;
use super::manner::in_three;
use super::named::{
    announced_end, bars_named, bracket_end, first_faces, part_faces, quoted_end, tells_steps,
};
use super::notes::{chat, defining};
use super::restarted::counted;
use super::wording::{bracketed, changes, doing, has, head_like, inline_start, newline};
use super::{
    Build, Kind, Label, Line, OwnFigure, PartKind, PartText, Reading, Role, SectionText, Sheet, SheetHead,
    Slots, Span, Topic, W, add, marks, mentions,
};

impl Reading<'_> {
    pub(super) fn build(&self, roles: &[Role]) -> Sheet {
        let mut b = Build {
            r: self,
            parts: vec![PartText {
                kind: PartKind::Main,
                name: "main".into(),
                sections: Vec::new(),
                divided: false,
                mention: None,
                facing: None,
                span: Span::default(),
            }],
            mentions: Vec::new(),
            notes: Vec::new(),
            own: Vec::new(),
            sequence: Vec::new(),
            head: SheetHead::default(),
            here: None,
            extra: None,
            in_tag: false,
            last_count: 0,
            phrased: roles.contains(&Role::Sequence) || mentions(self.text, "phrased"),
            signs: Vec::new(),
            bars: if in_three(self.text, &self.lines) && !self.counts_on() { 2 } else { 0 },
            changing: false,
        };
        let phrased = b.phrased;
        b.title(roles);
        b.definitions();
        for (i, role) in roles.iter().enumerate() {
            b.line(i, role, roles, phrased);
        }
        b.finish_extra();
        b.fill_head(roles);
        b.footnotes();
        b.bars();
        b.rounds();
        b.rhythm(roles);
        b.titles();
        b.bases();
        b.nicknames();
        b.replays();
        Sheet {
            head: b.head,
            parts: b.parts,
            mentions: b.mentions,
            sequence: b.sequence,
            own: b.own,
            typos: Vec::new(),
            notes: b.notes,
            left_out: 0,
        }
    }
}

impl Build<'_, '_> {
    pub(super) fn text(&self) -> &str {
        self.r.text
    }

    pub(super) fn definitions(&mut self) {
        for d in &self.r.own {
            let mut section = SectionText { span: d.span, ..SectionText::default() };
            for i in d.lines.0..d.lines.1 {
                let line = &self.r.lines[i];
                let from = if i == d.lines.0 { d.from } else { line.first };
                let said = line.tokens.get(from..).unwrap_or_default();
                let mut rest = line.clone();
                rest.first = 0;
                // "A left rung rocks on the left foot" only tells of it.
                rest.tokens = defining(self.r.text, said, &d.name);
                if !rest.empty() {
                    add(self.r.text, &mut section, &rest, 0, false, i > d.lines.0);
                }
            }
            self.own.push(OwnFigure { name: d.name.clone(), span: d.span, section });
        }
    }

    pub(super) fn title(&mut self, roles: &[Role]) {
        for (i, line) in self.r.lines.iter().enumerate() {
            if line.tokens.iter().all(|t| matches!(t.kind, Kind::Sign(_))) {
                continue;
            }
            if roles[i] == Role::Head {
                let t = &line.tokens;
                let last = t
                    .iter()
                    .rposition(|t| !matches!(t.kind, Kind::Sign('*' | '~' | '_' | '=' | '-' | '#' | '"')))
                    .unwrap_or(t.len() - 1);
                self.head.title = t[line.first.min(last)].span.join(t[last].span);
            }
            break;
        }
    }

    pub(super) fn fill_head(&mut self, roles: &[Role]) {
        // A paragraph above the steps may speak of restarts and of everything else.
        let body = roles.iter().position(|r| matches!(r, Role::Heading(_) | Role::Steps(..))).unwrap_or(0);
        for (i, role) in roles.iter().enumerate() {
            let line = &self.r.lines[i];
            // "Part A .... 32 counts" is not the whole dance.
            let of_part = line.tokens.get(line.first).is_some_and(|t| t.is(W::Set))
                && line.tokens.get(line.first + 1).is_some_and(|t| t.span.range().len() == 1);
            let all = matches!(role, Role::Extra(_)) && i < body && head_like(self.r.text, &line.tokens);
            if matches!(role, Role::Head) && !of_part || all {
                self.head.line(self.r.text, line);
            }
        }
        // A waltz may be named only in its sections.
        let waltz = self.r.lines.iter().any(|l| has(&l.tokens, W::Waltz));
        if waltz && self.head.counts.is_none_or(|(n, _)| n % 8 != 0 && n % 3 == 0) {
            self.head.waltz = true;
        }
        // What the head leaves out may stand in a remark or in what is said of restarts.
        // "The same starting on the left" is about steps; "3 o'clock again, weight on R" about a place in the dance.
        let again = |i: &usize| {
            let t = &self.r.lines[*i].tokens;
            let there = t.iter().any(|t| matches!(t.kind, Kind::Clock(_)) || t.is(W::OClock));
            has(t, W::Same) || has(t, W::Repeat) || there && has(t, W::Weight)
        };
        let later: Vec<usize> =
            (0..roles.len()).filter(|i| matches!(roles[*i], Role::Note) && !again(i)).collect();
        for i in later {
            let known = self.head.counts.is_some();
            if !known || self.head.walls.is_none() || self.head.lead.is_none() {
                self.head.line(self.r.text, &self.r.lines[i]);
            }
        }
    }

    pub(super) fn line(&mut self, i: usize, role: &Role, roles: &[Role], phrased: bool) {
        let line = &self.r.lines[i];
        match role {
            Role::Blank => {}
            Role::Head => {
                // What the head tells of a tag is over.
                if self.in_tag && !line.empty() {
                    self.finish_extra();
                    self.in_tag = false;
                    self.here = None;
                }
                self.sequence_in(line);
            }
            Role::Note => {
                self.sequence_in(line);
                // "kbc = kick ball change" is no word about a tag.
                let glossary = line.tokens.get(line.first + 1).is_some_and(|t| t.sign('='));
                if let Some((_, t, span)) = &mut self.extra
                    && !line.after_gap
                    && !glossary
                    && !speaks_of_else(line)
                {
                    t.push(newline(line));
                    t.extend_from_slice(&line.tokens);
                    *span = span.join(line.span);
                } else {
                    if let Some((name, facing)) = part_faces(self.r.text, &line.tokens)
                        && let Some(part) = self.parts.iter_mut().find(|p| p.name == name)
                    {
                        part.facing.get_or_insert(facing);
                    }
                    self.notes.push(line.span);
                }
            }
            Role::Told(events) => {
                self.sequence_in(line);
                self.heard(i, events, roles);
            }
            Role::Heard => self.sequence_in(line),
            Role::Sequence => self.sequence(&line.tokens),
            Role::Own => {}
            Role::Extra(topic) => {
                self.sequence_in(line);
                self.start_extra(i, *topic, roles);
            }
            Role::Heading(l) => {
                let inline = self.inline_steps(i, l.as_ref(), roles);
                self.finish_extra();
                self.heading(line, l.as_ref(), phrased, inline);
                if inline && let Some((p, n)) = self.here.filter(|(_, n)| *n != usize::MAX) {
                    self.parts[p].sections[n].counts = None;
                }
                if inline {
                    let from = l.as_ref().map_or(line.first, |l| l.to);
                    self.steps(i, self.names_end(line, from), false);
                }
            }
            Role::Steps(from, joins) => self.steps(i, *from, *joins),
        }
    }

    /// Where the steps begin behind names in capitals: "WHISK R+L, BOTAFOGO: RF side", "HOOKS. R heel forward"; and
    /// behind a remark in brackets: "(only 4, the song is short)".
    fn names_end(&self, line: &Line, from: usize) -> usize {
        let t = &line.tokens;
        let from = quoted_end(t, from).unwrap_or(from);
        let from = bracket_end(t, from).unwrap_or(from);
        let from = announced_end(self.r.text, t, from).unwrap_or(from);
        let ends = |i: &usize| {
            matches!(t[*i].kind, Kind::Sign(':' | '.')) || t[*i].sign('-') && t[*i].gap > 0 && *i > from
        };
        let Some(colon) = (from..t.len().min(from + 24)).find(ends) else { return from };
        let words = &t[from..colon];
        let capitals = words.iter().all(|t| !t.span.of(self.r.text).contains(char::is_lowercase));
        let rest = t[colon + 1..].iter().any(|t| t.span.of(self.r.text).contains(char::is_lowercase));
        if capitals && rest && words.iter().any(|t| t.span.range().len() > 2) { colon + 1 } else { from }
    }

    /// Whether a labelled line holds the steps themselves, not only their names.
    pub(super) fn inline_steps(&self, i: usize, l: Option<&Label>, roles: &[Role]) -> bool {
        let Some(l) = l else { return false };
        let line = &self.r.lines[i];
        let rest = &line.tokens[l.to.min(line.tokens.len())..];
        // "Part A (turns a quarter each time)" tells of its sections.
        let aside = l.part && bracketed(rest);
        if !doing(rest) || aside || l.letter.is_some() && !tells_steps(rest) {
            return false;
        }
        let next = (i + 1..roles.len()).find(|j| !matches!(roles[*j], Role::Blank | Role::Note));
        let alone = next.is_none_or(|j| !matches!(roles[j], Role::Steps(..)));
        if alone || self.r.manner.bars {
            return true;
        }
        // "A.  (12)  1-3  left forward": behind the length of the section.
        let from = bracket_end(&line.tokens, l.to).unwrap_or(l.to);
        let own = marks(self.r.text, line, from, false);
        if own.first().is_some_and(|p| !p.behind) {
            return true;
        }
        // The counts of a whole section behind its words: no heading has so many.
        let behind = |p: &Placed| p.behind && !p.total;
        if own.len() >= 3
            && own.iter().all(behind)
            && own[0].mark.first() == 1
            && own.last().is_some_and(|p| p.mark.last() >= 6)
        {
            return true;
        }
        if next.is_some_and(|j| self.r.in_column(i, j) || self.r.goes_on[j].is_some()) {
            return true;
        }
        // "First six counts. Left forward, right beside, left in place." above more of the like.
        let feet = rest.iter().filter(|t| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF))).count();
        let sentence = rest.last().is_some_and(|t| t.sign('.')) && !line.capitals;
        let names = rest.iter().any(|t| matches!(t.kind, Kind::Name(_)));
        if own.is_empty()
            && sentence
            && (feet >= 3 || feet == 2 && !names && !self.r.manner.counted())
            && next.is_some_and(|j| {
                marks(self.r.text, &self.r.lines[j], self.r.lines[j].first, false).is_empty()
            })
        {
            return true;
        }
        let end = reached(&own);
        let (Some(own), Some(j)) = (own.last(), next) else { return false };
        let below = marks(self.r.text, &self.r.lines[j], self.r.lines[j].first, false);
        if own.behind && !own.total && feet >= 2 && below.is_empty() && !line.capitals {
            return true;
        }
        if own.behind && own.total {
            // A number of counts is the heading's where the lines below make it up.
            let below: i32 = (j..roles.len())
                .take_while(|k| matches!(roles[*k], Role::Steps(..) | Role::Note))
                .flat_map(|k| marks(self.r.text, &self.r.lines[k], self.r.lines[k].first, true))
                .map(|p| if p.total { p.mark.last() } else { 0 })
                .sum();
            return below > 0
                && (below != own.mark.last() || own.mark.last() < 6)
                && line.stepful()
                && !line.capitals;
        }
        if !own.behind {
            return false;
        }
        let from = self.r.lines[j].first;
        let after = marks(self.r.text, &self.r.lines[j], from, false);
        // "shuffle (3&4)" above "rock, recover, shuffle (7&8)" leaves out the marks of the plain counts.
        after.first().zip(end).is_some_and(|(p, end)| (1..=4).contains(&(p.mark.first() - end)))
    }

    pub(super) fn heading(&mut self, line: &Line, l: Option<&Label>, phrased: bool, inline: bool) {
        let from = l.map_or(line.first, |l| l.to.min(line.tokens.len()));
        self.in_tag = false;
        if let Some(l) = l
            && phrased
            && l.letter.is_some()
            && (l.part || l.number.is_none() || l.range.is_some())
        {
            let name = l.letter.unwrap_or('A').to_ascii_uppercase().to_string();
            let fresh = self.parts.len() == 1 && self.parts[0].sections.is_empty();
            if fresh {
                self.parts[0].name = name;
            } else if self.parts.iter().all(|p| p.name != name) {
                self.parts.push(PartText {
                    kind: PartKind::Main,
                    name,
                    sections: Vec::new(),
                    divided: false,
                    mention: None,
                    facing: None,
                    span: line.span,
                });
            }
            let part = self.parts.iter().rposition(|p| p.kind == PartKind::Main).unwrap_or(0);
            if part > 0
                && let Some(facing) = first_faces(self.r.text, &line.tokens)
            {
                self.parts[part].facing.get_or_insert(facing);
            }
            self.here = None;
            self.last_count = 0;
            let rest = &line.tokens[from..];
            if tells_steps(rest) && !bracketed(rest) || inline || l.range.is_some() {
                self.open(part, line, Some(l), from);
            } else {
                self.here = Some((part, usize::MAX));
            }
            return;
        }
        // "A4" and then "B1": another part, where no line says so.
        if let Some(l) = l
            && phrased
            && l.number.is_some()
            && let Some(letter) = l.letter
        {
            let name = letter.to_ascii_uppercase().to_string();
            let known = self.parts.iter().any(|p| p.kind == PartKind::Main && p.name == name);
            if !known && self.parts.len() == 1 && self.parts[0].sections.is_empty() {
                self.parts[0].name = name;
            } else if !known && self.parts[0].name != "main" {
                self.parts.push(PartText {
                    kind: PartKind::Main,
                    name,
                    sections: Vec::new(),
                    divided: true,
                    mention: None,
                    facing: None,
                    span: line.span,
                });
                self.here = Some((self.parts.len() - 1, usize::MAX));
                self.last_count = 0;
            }
        }
        let part = match self.here {
            Some((p, _)) if self.parts[p].kind == PartKind::Main => p,
            _ => self.parts.iter().rposition(|p| p.kind == PartKind::Main).unwrap_or(0),
        };
        self.parts[part].divided = true;
        self.headed_twice(part, l);
        self.open(part, line, l, from);
    }

    /// "Section 2" and below it "S2: side, behind, ...": two headings of one section, whose first has nothing under it.
    fn headed_twice(&mut self, part: usize, l: Option<&Label>) {
        let number = l.filter(|l| l.range.is_none()).and_then(|l| l.number);
        let sections = &mut self.parts[part].sections;
        let empty = |s: &SectionText| s.chunks.is_empty() && s.number.is_some() && s.number == number;
        let open = self.here == sections.len().checked_sub(1).map(|n| (part, n));
        if open && sections.last().is_some_and(empty) {
            sections.pop();
        }
    }

    pub(super) fn open(&mut self, part: usize, line: &Line, l: Option<&Label>, from: usize) {
        let t = &line.tokens;
        if self.bars > 0 {
            self.bars = bars_named(self.text(), t, line.first).unwrap_or(2);
        }
        let name = t.get(from).map_or(Span::default(), |f| f.span.join(t[t.len() - 1].span));
        let mut section =
            SectionText { number: l.and_then(|l| l.number), name, span: line.span, ..SectionText::default() };
        section.heading = t[from.min(t.len())..].to_vec();
        if let Some((a, b)) = l.and_then(|l| l.range) {
            section.first = Some(a);
            section.counts = Some((u32::try_from(b - a + 1).unwrap_or(0), line.span));
        }
        for (k, token) in t.iter().enumerate().skip(from) {
            if let Kind::Number(n @ ..=MOST) = token.kind {
                if t.get(k + 1).is_some_and(|t| t.is(W::Count)) && section.counts.is_none() && n >= 2 {
                    section.counts = Some((n, token.span));
                }
                let closes =
                    t.get(k + 1).is_some_and(|t| matches!(t.kind, Kind::Sign(')' | ']'))) && k + 2 >= t.len();
                if closes
                    && k > 0
                    && matches!(t[k - 1].kind, Kind::Sign('(' | '['))
                    && n >= 4
                    && section.counts.is_none()
                {
                    section.counts = Some((n, token.span));
                }
                // "(1-8)" or "1-8" inside the heading
                if let (Some(Kind::Sign('-')), Some(Kind::Number(m @ ..=MOST))) =
                    (t.get(k + 1).map(|t| t.kind), t.get(k + 2).map(|t| t.kind))
                    && m > n + 2
                    && n % 2 == 1
                    && section.counts.is_none()
                {
                    section.counts = Some((m - n + 1, token.span.join(t[k + 2].span)));
                    section.first = i32::try_from(n).ok();
                }
            }
        }
        // "Block 1 - basics and twinkles ............ 12"
        if let [.., a, b, last] = &t[from.min(t.len())..]
            && let Kind::Number(n @ 4..=MOST) = last.kind
            && matches!(a.kind, Kind::Sign('.' | '-' | '_' | '='))
            && a.kind == b.kind
            && section.counts.is_none()
        {
            section.counts = Some((n, last.span));
        }
        if self.parts[part].sections.is_empty() {
            self.parts[part].divided = true;
        }
        self.parts[part].sections.push(section);
        self.here = Some((part, self.parts[part].sections.len() - 1));
    }

    /// Whether the open section has its eight counts, or as many as the one before it.
    pub(super) fn whole_eight(&self) -> bool {
        let Some((p, s)) = self.here.filter(|(_, s)| *s != usize::MAX) else { return false };
        let sections = &self.parts[p].sections;
        let danced = counted(&sections[s]);
        let said = sections[s].counts.map_or(0, |(n, _)| i32::try_from(n).unwrap_or(0));
        said <= danced && (danced == 8 || s > 0 && danced >= 6 && danced == counted(&sections[s - 1]))
    }

    pub(super) fn steps(&mut self, i: usize, mut from: usize, joins: bool) {
        let line = &self.r.lines[i];
        // "Tag after wall 2: sway R, L, R, L (1-4)" has its steps; what comes in the next line is something else.
        let whole = |t: &[super::Token]| {
            inline_start(self.r.text, t).is_some_and(|at| {
                let rest = &t[at..];
                rest.iter().filter(|t| matches!(t.kind, Kind::W(w) if super::acts(w))).count() >= 1
                    && rest.iter().any(|t| matches!(t.kind, Kind::Number(_)))
            })
        };
        let told = |(topic, t, _): &(Topic, Vec<super::Token>, Span)| {
            whole(t) && !(*topic == Topic::Restart && changes(self.r.text, t))
        };
        if !joins && self.extra.as_ref().is_some_and(told) && !self.in_tag && !self.changing {
            self.finish_extra();
        }
        if self.extra.is_some() && !self.in_tag {
            let (topic, mut t, span) = self.extra.take().unwrap_or((Topic::Tag, Vec::new(), line.span));
            let more = self.changing && !line.after_gap;
            let counted = || self.counts_elsewhere(line, None) && !line.after_gap;
            if topic == Topic::Restart && self.r.lead[i] && (more || changes(self.r.text, &t) || counted()) {
                // "7-8 of the second section become:" above the counts with what is danced then.
                if self.changing {
                    let start = line.span.start as usize;
                    t.push(super::Token { kind: Kind::Sign(','), span: Span::new(start, start), gap: 1 });
                } else if !changes(self.r.text, &t) {
                    t.push(newline(line));
                }
                self.changing = true;
                t.extend_from_slice(&line.tokens);
                self.extra = Some((topic, t, span.join(line.span)));
                return;
            }
            if topic == Topic::Restart {
                self.mention(topic, &t, span, None);
            } else {
                // "After wall 4: stomp R, clap": the wall stands before the steps.
                let said = line.tokens.get(from..).unwrap_or_default();
                if said.iter().any(|x| x.is(W::Wall))
                    && let Some(at) = inline_start(self.r.text, said)
                {
                    t.extend_from_slice(&said[..at]);
                    from += at;
                }
                self.open_tag(topic, &t, span);
            }
        }
        if self.r.lead[i] && !self.in_tag && self.changes_restart(i) {
            return;
        }
        let first = line.led(self.r.text).filter(|_| self.r.lead[i]).map(|m| (m.first(), m.last()));
        let behind = self.r.manner.behind >= self.r.manner.leading;
        // "To finish, on 1 step forward": a paragraph whose counts begin again.
        let prose = || {
            let m = marks(self.r.text, line, from, behind);
            let begins = |n: i32| n == 1 || n == self.last_count + 1 && self.whole_eight();
            m.iter().find(|p| !p.total).is_some_and(|p| begins(p.mark.first()) && p.mark.from > from)
                && (m.len() >= 2 || m[0].mark.ticks.len() >= 2)
        };
        // A whole section in a line, its counts behind the words.
        let whole = || {
            let m = marks(self.r.text, line, from, behind);
            // "vine R touch L (1-4) vine L brush R (5-8)"
            let counted = m.iter().all(|p| p.behind && !p.total);
            let on = m.windows(2).all(|w| w[1].mark.first() == w[0].mark.last() + 1);
            let last = m.last().map_or(0, |p| p.mark.last());
            // Two bars of a waltz may be half a section.
            let fills = if m.len() == 1 { last >= 6 } else { last == 8 && self.last_count == 8 };
            counted && on && fills && m.first().is_some_and(|p| p.mark.first() == 1)
        };
        let fresh = first.is_none()
            && (!joins && line.after_gap && self.last_count >= 4 && prose()
                || self.last_count >= 6 && whole());
        // Lines in small letters go on with each other, unless each has counts from 1 to 8.
        let joins = joins && !fresh;
        let (part, section) = match self.here {
            Some((p, s)) if s != usize::MAX => (p, s),
            Some((p, _)) => {
                self.parts[p].sections.push(SectionText { span: line.span, ..SectionText::default() });
                (p, self.parts[p].sections.len() - 1)
            }
            None => {
                self.parts[0].sections.push(SectionText { span: line.span, ..SectionText::default() });
                (0, self.parts[0].sections.len() - 1)
            }
        };
        self.here = Some((part, section));
        // Counts that begin again begin a section, where no heading says so.
        let bar = |a: i32| a == 1 && self.last_count % 3 == 0 && self.last_count < 3 * self.bars;
        let anew = |a: i32| a == 1 && self.last_count >= 4 && !bar(a) || a == 2 && self.last_count == 9;
        let again = (first.is_some_and(|(a, _)| anew(a)) || fresh)
            && !self.parts[part].sections[section].chunks.is_empty();
        let block = !self.r.manner.counted()
            && line.after_gap
            && !self.in_tag
            && !self.parts[part].divided
            && !self.parts[part].sections[section].chunks.is_empty();
        let (part, section) = if (again && self.parts[part].kind == PartKind::Main) || block {
            self.parts[part].sections.push(SectionText { span: line.span, ..SectionText::default() });
            if again {
                self.parts[part].divided = true;
            }
            (part, self.parts[part].sections.len() - 1)
        } else {
            (part, section)
        };
        self.here = Some((part, section));
        let (mut line_steps, said) = self.cut_mention(i, from);
        if !self.r.steps_line(i) && line.told.is_none() {
            chat::leave_steps(self.r.text, &mut line_steps.tokens, from);
        }
        let chunks = &mut self.parts[part].sections[section].chunks;
        // Each bar of three is counted from one: the second one goes on.
        let done = self.last_count;
        let bar = first.is_some_and(|(a, b)| a == 1 && b <= 3)
            && done > 0
            && done % 3 == 0
            && done < 3 * self.bars
            && !chunks.is_empty();
        let old = chunks.len();
        add(self.r.text, &mut self.parts[part].sections[section], &line_steps, from, behind, joins);
        let chunks = &mut self.parts[part].sections[section].chunks;
        if bar {
            for c in &mut chunks[old..] {
                if let Slots::At { ticks, .. } = &mut c.slots {
                    ticks.iter_mut().for_each(|t| t.0 += done * 24);
                }
            }
        }
        if self.parts[part].kind == PartKind::Tag {
            counted_on(&mut self.parts[part].sections[section], old, done);
        }
        let chunks = &self.parts[part].sections[section].chunks;
        let last = match chunks.last().map(|c| &c.slots) {
            Some(Slots::At { ticks, .. }) => ticks.last().map(|t| t.count()),
            _ => None,
        };
        self.last_count = match first {
            // Only bars are counted step by step and begin again so soon.
            Some((_, b)) if self.bars == 0 => b,
            Some((_, b)) => last.map_or(b, |l| l.max(b)),
            None => last.unwrap_or(self.last_count),
        };
        if said.is_none() {
            self.keep_sign(&line_steps, from, (part, section));
        }
        if let Some((topic, t)) = said {
            let span = t.first().map_or(line.span, |f| f.span).join(t.last().map_or(line.span, |l| l.span));
            self.mention(topic, &t, span, Some((part, section)));
        }
    }
}

/// "Homework: the Monterey": a word and a colon begin something else than the tag or the restart above.
fn speaks_of_else(line: &Line) -> bool {
    let t = &line.tokens[line.first.min(line.tokens.len())..];
    let colon = t.iter().take(4).position(|t| t.sign(':'));
    let word = |t: &super::Token| matches!(t.kind, Kind::Unknown | Kind::W(W::Note | W::Music | W::Option));
    colon.is_some_and(|k| k > 0 && t[..k].iter().all(word)) && !has(t, W::Wall) && !has(t, W::Restart)
}
