//! Tags, restarts and endings, and the words about them.

use super::notes::chat;
use super::order::{order, sequence_told};
use super::wording::{acts_at, inline_start, split_topics};
use super::{
    Build, Kind, Line, Mention, PartKind, PartText, Role, SectionText, Slots, Span, Token, Topic, W, add,
    mention,
};
use crate::letters::Letters as _;

impl Build<'_, '_> {
    /// A step line that also speaks of a restart or tag: the words about it are told apart.
    pub(super) fn cut_mention(&self, i: usize, from: usize) -> (Line, Option<(Topic, Vec<Token>)>) {
        let line = &self.r.lines[i];
        let Some(at) = line
            .tokens
            .iter()
            .enumerate()
            .skip(from)
            .position(|(_, t)| t.is(W::Restart) || t.is(W::Tag))
            .map(|p| p + from)
        else {
            return (line.clone(), None);
        };
        let topic = if line.tokens[at].is(W::Tag) { Topic::Tag } else { Topic::Restart };
        // Back to the bracket, star or wide gap that opens the remark.
        let mut start = at;
        for k in (from..at).rev() {
            let t = &line.tokens[k];
            if matches!(
                t.kind,
                Kind::Sign('(' | '[' | '*' | '<' | '^' | '#' | '>' | '.' | ';' | ',' | '-' | '!')
            ) {
                start = k;
                if k > 0
                    && matches!(line.tokens[k - 1].kind, Kind::Sign('*' | '<' | '(' | '^' | '#' | '>' | '-'))
                {
                    continue;
                }
                break;
            }
            start = k;
            if t.gap == 2 || acts_at(&line.tokens, k) {
                if acts_at(&line.tokens, k) {
                    start = k + 1;
                }
                break;
            }
        }
        let mut rest = line.clone();
        let said = line.tokens[start..].to_vec();
        rest.tokens.truncate(start);
        (rest, Some((topic, said)))
    }

    pub(super) fn start_extra(&mut self, i: usize, topic: Topic, roles: &[Role]) {
        self.finish_extra();
        let line = &self.r.lines[i];
        // "Tag: end W5, 4c, R rocking chair" tells its steps in the head, too.
        let early = line.tokens.iter().skip(line.first).take(2).any(|t| t.is(W::Tag));
        let named = line.tokens.iter().any(|t| t.is(W::Wall));
        let whole = topic == Topic::Tag
            && early
            && named
            && self.here.is_none()
            && inline_start(self.r.text, &line.tokens).is_some();
        if self.here.is_none()
            && !whole
            && roles[i + 1..]
                .iter()
                .find(|r| !matches!(r, Role::Note))
                .is_none_or(|r| !matches!(r, Role::Steps(..)))
        {
            // In the head a tag or restart is mostly spoken of; a tag may be told whole.
            for (topic, t) in split_topics(self.r.text, about(&line.tokens), topic) {
                if topic == Topic::Tag && told_whole(self.r.text, &t) {
                    self.extra = Some((topic, t, line.span));
                    self.finish_extra();
                } else {
                    self.mention(topic, &t, line.span, None);
                }
            }
            return;
        }
        // "*** Restart here" between the step lines: it is about the count just read.
        self.in_tag = false;
        let t = split_topics(self.r.text, about(&line.tokens), topic);
        for (k, (topic, t)) in t.iter().enumerate() {
            let span = t.first().map_or(line.span, |f| f.span).join(t.last().map_or(line.span, |l| l.span));
            if k > 0 {
                self.finish_extra();
            }
            self.extra = Some((*topic, t.clone(), span));
        }
        if whole {
            self.finish_extra();
        }
    }

    pub(super) fn finish_extra(&mut self) {
        self.changing = false;
        let Some((topic, t, span)) = self.extra.take() else { return };
        if self.in_tag {
            return;
        }
        if topic != Topic::Restart
            && let Some(at) = inline_start(self.r.text, &t)
        {
            let (said, steps) = t.split_at(at);
            let mut said = said.to_vec();
            let mut steps = steps.to_vec();
            chat::leave_steps(self.r.text, &mut steps, 0);
            said.extend(placed_behind(self.r.text, &mut steps));
            if let Some(length) = announced(&steps) {
                said.extend(steps.drain(length));
            }
            let rest = Line::of(span, steps);
            let saved = self.here;
            self.open_tag(topic, &said, span);
            if let Some((p, s)) = self.here {
                add(self.r.text, &mut self.parts[p].sections[s], &rest, 0, true, false);
            }
            self.here = saved;
            self.in_tag = false;
            return;
        }
        let placed = self.here.filter(|(_, s)| *s != usize::MAX);
        self.mention(topic, &t, span, placed);
    }

    pub(super) fn open_tag(&mut self, topic: Topic, t: &[Token], span: Span) {
        let m = mention(self.r.text, t, topic);
        let kind = if topic == Topic::Ending { PartKind::Ending } else { PartKind::Tag };
        self.open_part(kind, m, span);
    }

    /// Opens the part of a tag or an ending.
    pub(super) fn open_part(&mut self, kind: PartKind, mut m: Mention, span: Span) {
        let n = self.parts.iter().filter(|p| p.kind == PartKind::Tag).count() + 1;
        let name = if kind == PartKind::Ending {
            "ending".to_string()
        } else {
            format!("tag {}", m.number.map_or(n, |k| k as usize))
        };
        m.placed = self
            .here
            .filter(|(p, s)| *s != usize::MAX && self.parts[*p].kind == PartKind::Main)
            .map(|(p, s)| (p, s, self.last_count));
        let counts = m.length.map(|n| (n, span));
        self.mentions.push(m.clone());
        self.parts.push(PartText {
            kind,
            name,
            sections: vec![SectionText { counts, span, ..SectionText::default() }],
            divided: true,
            mention: Some(m),
            facing: None,
            span,
        });
        self.here = Some((self.parts.len() - 1, 0));
        self.in_tag = true;
        self.last_count = 0;
    }

    pub(super) fn mention(&mut self, topic: Topic, t: &[Token], span: Span, placed: Option<(usize, usize)>) {
        let mut m = mention(self.r.text, t, topic);
        m.span = span;
        m.placed = placed
            .filter(|(p, _)| self.parts[*p].kind == PartKind::Main)
            .map(|(p, s)| (p, s, self.last_count));
        self.mentions.push(m);
    }

    /// "Restart after the kettle": sections that are called by their names.
    pub(super) fn nicknames(&mut self) {
        let Some(main) = self.parts.iter().find(|p| p.kind == PartKind::Main) else { return };
        let text = self.r.text;
        let names: Vec<Vec<String>> = main.sections.iter().map(|s| nickname(text, &s.heading)).collect();
        for m in &mut self.mentions {
            if m.topic == Topic::Restart && m.after_counts.is_none() && m.after_section.is_none() {
                m.after_section = names.iter().enumerate().rev().find_map(|(n, name)| {
                    let before = called(text, &m.tokens, name, &names)?;
                    u32::try_from(n + usize::from(!before)).ok()
                });
            }
        }
    }

    /// The order of the parts that a sentence tells, where no line gives it.
    pub(super) fn sequence_in(&mut self, line: &Line) {
        if self.phrased
            && self.sequence.is_empty()
            && let Some(run) = sequence_told(self.r.text, &line.tokens)
        {
            self.sequence(run);
        }
    }

    pub(super) fn sequence(&mut self, tokens: &[Token]) {
        let order = order(self.text(), tokens);
        self.sequence.extend(order);
    }

    /// Numbers that run on through the dance become numbers of their section.
    pub(super) fn bases(&mut self) {
        for part in &mut self.parts {
            let mut sum = 0;
            // Whether the section before ended with a step on the first count of this one, as 8&1 does.
            let mut over = false;
            for section in &mut part.sections {
                let firsts: Vec<i32> = section
                    .chunks
                    .iter()
                    .filter_map(|c| match &c.slots {
                        Slots::At { ticks, .. } => {
                            ticks.iter().find(|t| t.0 > 0).map(|t| (t.0 + 23).div_euclid(24))
                        }
                        _ => None,
                    })
                    .collect();
                // Figures before the first mark have counts of their own.
                let before = section.chunks.iter().map_while(|c| match c.slots {
                    Slots::Total(n) => i32::try_from(n).ok(),
                    _ => None,
                });
                let before: i32 = before.sum();
                let first = firsts.iter().copied().min().map(|f| f - before);
                let last = section
                    .chunks
                    .iter()
                    .filter_map(|c| match &c.slots {
                        Slots::At { ticks, .. } => ticks.last().map(|t| t.count()),
                        _ => None,
                    })
                    .max();
                section.base = match (first, section.first) {
                    (Some(f), Some(s)) if s > 1 && f >= s => s - 1,
                    (Some(f), _) if f > 1 && f - 1 == sum => sum,
                    (Some(f), _) if f > 1 && sum > 0 && (f - 1 - sum).abs() <= 2 => sum,
                    (Some(2), Some(s)) if over && s % 2 == 0 => 1,
                    (Some(f), _) if f > 8 || f > 1 && part.kind == PartKind::Ending => f - 1,
                    _ => 0,
                };
                section.carried = over && first == Some(2) && section.base == 0;
                over = last.is_some_and(|l| l % 8 == 1 && l > 1);
                if section.base > 0 {
                    let shift = section.base * 24;
                    for c in &mut section.chunks {
                        if let Slots::At { ticks, .. } = &mut c.slots {
                            for t in ticks.iter_mut() {
                                t.0 -= shift;
                            }
                        }
                    }
                }
                let own = section.counts.map_or(0, |(n, _)| i32::try_from(n).unwrap_or(0));
                sum = if section.base > 0 || (section.base == 0 && sum == 0) {
                    last.map_or(section.base + own, |l| l.max(section.base + own))
                } else {
                    sum + last.unwrap_or(own).max(own)
                };
            }
        }
    }
}

/// What a paragraph says of walls, tags and restarts, without the sentences before it that only go on with the dance.
fn about(t: &[Token]) -> &[Token] {
    let speaks =
        |t: &Token| matches!(t.kind, Kind::W(W::Wall | W::Restart | W::Tag | W::Times | W::End | W::Last));
    let mut from = 0;
    // "The 3. wall" does not end a sentence.
    let stops = |k: usize| {
        matches!(t[k].kind, Kind::Sign('.' | '!' | '?'))
            && (k == 0 || !matches!(t[k - 1].kind, Kind::Number(_)))
    };
    while let Some(k) = (from..t.len()).position(stops) {
        let rest = &t[from + k + 1..];
        if t[from..from + k].iter().any(speaks) || !rest.iter().any(|t| t.is(W::Wall)) {
            break;
        }
        from += k + 1;
    }
    &t[from..]
}

/// "One V-step, 4 counts. Right foot out, ...": the tokens of a length that stands in a sentence before the one which
/// tells the steps.
fn announced(t: &[Token]) -> Option<core::ops::Range<usize>> {
    let stop = t.iter().position(|t| t.sign('.'))?;
    let count = t[..stop].iter().position(|t| t.is(W::Count)).filter(|k| *k > 1)?;
    let number = super::super::numbers::value(&t[count - 1]).is_some();
    let apart = matches!(t[count - 2].kind, Kind::Sign(',' | '(' | '-'));
    let told =
        t[stop..].iter().filter(|t| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF))).count() >= 2;
    (number && apart && told && count + 1 == stop).then_some(count - 2..count + 1)
}

/// Takes the sentences behind the steps of a tag that only tell its walls: "You'll need it at the end of wall 4."
fn placed_behind(text: &str, steps: &mut Vec<Token>) -> Vec<Token> {
    let all = chat::sentences(text, steps);
    let place = |s: &&&[Token]| s.iter().any(|t| t.is(W::Wall)) && !(0..s.len()).any(|k| acts_at(s, k));
    let behind = all.iter().skip(1).rev().take_while(place).map(|s| s.len()).sum::<usize>();
    steps.split_off(steps.len() - behind)
}

/// Whether words about a tag tell its steps, each with its foot.
fn told_whole(text: &str, t: &[Token]) -> bool {
    inline_start(text, t).is_some_and(|at| {
        let rest = &t[at..];
        let feet = rest.iter().filter(|t| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF))).count();
        feet >= 2 && (0..rest.len()).any(|k| acts_at(rest, k) || rest[k].is(W::Hip))
    })
}

/// The words of a section's name, as it is called elsewhere.
fn nickname(text: &str, heading: &[Token]) -> Vec<String> {
    let end = heading.iter().position(|t| matches!(t.kind, Kind::Sign(':' | '(' | '[' | '.')));
    // "BOIL IT     kettle, x2": a wide gap ends the name.
    let gap = (1..heading.len()).find(|k| heading[*k].gap == 2);
    let end = end.into_iter().chain(gap).min();
    let words = heading[..end.unwrap_or(heading.len())].iter();
    words
        .filter(|t| !matches!(t.kind, Kind::Sign(_)) && !t.is(W::The))
        .map(|t| t.span.of(text).small())
        .collect()
}

/// Whether a section is called by its name as the last one danced, or (true) as the first one left out.
fn called(text: &str, t: &[Token], name: &[String], names: &[Vec<String>]) -> Option<bool> {
    if name.is_empty() {
        return None;
    }
    let words: Vec<&Token> = t.iter().filter(|t| !matches!(t.kind, Kind::Sign(_)) && !t.is(W::The)).collect();
    let at = words
        .windows(name.len())
        .position(|w| w.iter().zip(name).all(|(t, n)| t.span.of(text).small() == *n))?;
    // "Only do the kettle, the lid and the spout": the first of the list tells how.
    let list = |at: usize| {
        let to = at - usize::from(words[at - 1].is(W::And));
        let is = |name: &&Vec<String>| {
            let from = to.checked_sub(name.len()).filter(|_| !name.is_empty());
            from.is_some_and(|from| {
                words[from..to].iter().zip(*name).all(|(t, n)| t.span.of(text).small() == *n)
            })
        };
        names.iter().find(is).map(|name| to - name.len())
    };
    let at =
        core::iter::successors(Some(at).filter(|at| *at > 0), |at| list(*at).filter(|at| *at > 0)).last()?;
    let led = words.get(at.checked_sub(1)?)?;
    if led.is(W::Before) {
        return Some(true);
    }
    let word = led.span.of(text).small();
    let until = matches!(led.kind, Kind::W(W::After | W::Of | W::To | W::With | W::End | W::While))
        || matches!(
            word.as_str(),
            "until"
                | "till"
                | "through"
                | "including"
                | "far"
                | "finish"
                | "finished"
                | "only"
                | "do"
                | "dance"
        );
    until.then_some(false)
}
