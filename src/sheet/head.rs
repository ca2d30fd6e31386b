//! The head of a sheet: fields in any order and wording.

use super::classes::cardinal;
use super::lines::Line;
use super::vocabulary::W;
use super::words::{Kind, Token};
use crate::dance::Foot;
use crate::letters::Letters as _;
use crate::text::{Span, among, begins_with, is_among, lower, mentions};

/// What the head says; everything may be missing.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SheetHead {
    /// The title's words.
    pub title: Span,
    /// Counts of one repetition.
    pub counts: Option<(u32, Span)>,
    /// Walls.
    pub walls: Option<(u32, Span)>,
    /// The level's name in lower case.
    pub level: String,
    /// The foot that begins.
    pub lead: Option<(Foot, Span)>,
    /// Whether it is a waltz.
    pub waltz: bool,
    /// Beats a minute.
    pub tempo: Option<u32>,
    /// Counts of music before the first step.
    pub intro: Option<u32>,
    /// Author's words.
    pub author: Span,
    /// The music's words.
    pub music: Span,
    /// Whether the dance has parts in an order of their own.
    pub phrased: bool,
}

/// The number that begins at a token, in digits or words, and how many tokens it takes.
pub(super) fn number(t: &[Token], i: usize) -> Option<(u32, usize)> {
    let unit = |w: W| cardinal(w).filter(|n| *n <= 9);
    match t.get(i)?.kind {
        Kind::Number(n) => Some((n, 1)),
        Kind::W(w) => {
            let ten = match w {
                W::Twenty => 20,
                W::Thirty => 30,
                W::Forty => 40,
                W::Fifty => 50,
                W::Sixty => 60,
                W::Seventy => 70,
                W::Eighty => 80,
                _ => return cardinal(w).map(|n| (n, 1)),
            };
            let mut n = 1;
            if t.get(i + 1).is_some_and(|t| t.sign('-')) {
                n = 2;
            }
            match t.get(i + n).map(|t| t.kind) {
                Some(Kind::W(w)) if unit(w).is_some() => Some((ten + unit(w).unwrap_or(0), n + 1)),
                _ => Some((ten, 1)),
            }
        }
        _ => None,
    }
}

/// Whether a full stop or a comma is one of a row of dots, or parts the digits of "112,5".
fn inside(t: &[Token], i: usize) -> bool {
    if !matches!(t[i].kind, Kind::Sign('.' | ',')) {
        return false;
    }
    let dot = |t: &Token| t.sign('.');
    let row = t.get(i + 1).is_some_and(|n| dot(n) && n.gap == 0) || t[i].gap == 0 && i > 0 && dot(&t[i - 1]);
    row || decimal(t, i)
}

/// Whether a full stop or a comma stands between the digits of one number.
fn decimal(t: &[Token], i: usize) -> bool {
    let digits = |t: &Token| matches!(t.kind, Kind::Number(_));
    t[i].gap == 0
        && i > 0
        && digits(&t[i - 1])
        && matches!(t[i - 1].kind, Kind::Number(40..))
        && t.get(i + 1).is_some_and(|n| digits(n) && n.gap == 0 && n.span.range().len() <= 2)
}

/// Stretches of a line between separators.
fn clauses(t: &[Token]) -> Vec<&[Token]> {
    let mut out = Vec::new();
    let mut from = 0;
    // "Walls    4": a label and its number in cells of their own.
    let labelled =
        t.len() == 2 && (t[0].is(W::Wall) || t[0].is(W::Count)) && matches!(t[1].kind, Kind::Number(_));
    if labelled {
        return vec![t];
    }
    for (i, token) in t.iter().enumerate() {
        let cut = matches!(token.kind, Kind::Sign(',' | ';' | '.' | '•' | '*' | '(' | ')' | '>'))
            && !inside(t, i)
            || (matches!(token.kind, Kind::Sign('/' | '-')) && token.gap > 0)
            || (token.gap == 2 && i > from && !t[i - 1].sign(':') && !matches!(token.kind, Kind::Sign(_)));
        if cut {
            if i > from {
                out.push(&t[from..i]);
            }
            from = if matches!(token.kind, Kind::Sign(_)) { i + 1 } else { i };
        }
    }
    if from < t.len() {
        out.push(&t[from..]);
    }
    out
}

fn has(t: &[Token], w: W) -> bool {
    t.iter().any(|t| t.is(w))
}

fn word<'t>(text: &'t str, t: &Token) -> &'t str {
    t.span.of(text)
}

/// The letter of a part of a phrased dance.
fn part_letter(text: &str, t: &Token) -> bool {
    let w = word(text, t);
    w.len() == 1 && w.bytes().all(|b| matches!(b, b'A'..=b'F'))
}

/// "Eight counts to every letter" is the length of a section.
fn each(text: &str, t: &Token) -> bool {
    is_among(word(text, t), among!["every", "each", "per", "apiece"])
}

fn starting(text: &str, t: &Token) -> bool {
    // "Beginner" is a level.
    if t.is(W::Beginner) {
        return false;
    }
    let w = lower(word(text, t));
    w.starts_with("start")
        || w.starts_with("begin")
        || w.starts_with("lead")
        || w.starts_with("commenc")
        || w == "wait"
        || w == "let"
        || w == "listen"
        || w == "goes"
        || w == "begins"
        || w == "beginn"
        || w == "dancing"
}

/// "I come in at 12 counts", "we come in after 16": how long the music plays first.
fn comes_in(text: &str, t: &[Token]) -> bool {
    t.windows(2).any(|w| {
        let comes = lower(word(text, &w[0]));
        w[1].is(W::In) && matches!(comes.as_str(), "come" | "comes" | "coming" | "came")
    })
}

/// Whether a line tells a number of walls, or the level.
fn beside_walls(t: &[Token]) -> bool {
    (0..t.len()).any(|k| {
        let walls = number(t, k).is_some_and(|(n, len)| {
            let joined = usize::from(t.get(k + len).is_some_and(|t| t.sign('-')));
            n <= 8 && t.get(k + len + joined).is_some_and(|t| t.is(W::Wall))
        });
        walls || matches!(t[k].kind, Kind::W(W::Beginner | W::Improver | W::Intermediate | W::Advanced))
    })
}

impl SheetHead {
    /// Takes in what one line says.
    pub fn line(&mut self, text: &str, line: &Line) {
        let t = &line.tokens;
        self.pair(text, t);
        self.sum_of_parts(text, t);
        self.listed_parts(text, t);
        let whole = clauses(t);
        for c in whole {
            self.clause(text, c, t);
        }
        self.named(text, line);
        if has(t, W::Waltz) || mentions(line.span.of(text), "valse") || mentions(line.span.of(text), "walzer")
        {
            self.waltz = true;
        }
        for (i, token) in t.iter().enumerate() {
            if token.kind == Kind::Fraction(36)
                && word(text, token) == "3/4"
                && !t.get(i + 1).is_some_and(|t| matches!(t.kind, Kind::W(W::Turn | W::R | W::L)))
            {
                self.waltz = true;
            }
        }
        if mentions(line.span.of(text), "phrased") {
            self.phrased = true;
        }
    }

    /// "There is a part A, which has 32 counts, and a part B, which has 16, so there are 48": the last is the whole.
    fn sum_of_parts(&mut self, text: &str, t: &[Token]) {
        let part = |k: &usize| t[*k].is(W::Set) && t.get(k + 1).is_some_and(|t| part_letter(text, t));
        let Some(first) = (0..t.len()).find(part).filter(|k| (k + 1..t.len()).any(|k| part(&k))) else {
            return;
        };
        let mut numbers: Vec<(u32, Span)> = Vec::new();
        let mut sum = 0;
        for k in first..t.len() {
            let Some((n @ 8..=256, len)) = number(t, k) else { continue };
            let span = t[k].span.join(t[k + len - 1].span);
            if numbers.len() >= 2 && n == sum {
                self.counts.get_or_insert((n, span));
                return;
            }
            sum += n;
            numbers.push((n, span));
        }
    }

    /// "64 (A 32 - B 16 - C 16)", "A - 16 counts / B - 24 counts": the parts make up the whole.
    fn listed_parts(&mut self, text: &str, t: &[Token]) {
        let joins = |t: &Token| {
            matches!(
                t.kind,
                Kind::Sign('-' | '=' | ':' | '(' | ',' | '.') | Kind::W(W::Of | W::Count | W::With)
            ) || is_among(word(text, t), among!["has", "is"])
        };
        let mut sum = 0;
        let mut next = b'A';
        let mut span: Option<Span> = None;
        for k in 0..t.len() {
            if word(text, &t[k]).as_bytes() != [next] {
                continue;
            }
            let at = k + 1 + t[k + 1..].iter().take(2).take_while(|t| joins(t)).count();
            let Some((n @ 4..=128, len)) = number(t, at) else { continue };
            sum += n;
            next += 1;
            let own = t[k].span.join(t[at + len - 1].span);
            span = Some(span.map_or(own, |s| s.join(own)));
        }
        if next >= b'C'
            && let Some(span) = span
        {
            self.counts.get_or_insert((sum, span));
        }
    }

    /// "Walls / counts: 4 / 16"
    fn pair(&mut self, text: &str, t: &[Token]) {
        // "48 / 4", "32/4/improver"
        for k in 0..t.len().saturating_sub(2) {
            if let (Kind::Number(counts @ 16..=128), Kind::Number(walls @ (1 | 2 | 4))) =
                (t[k].kind, t[k + 2].kind)
                && t[k + 1].sign('/')
                && counts % 4 == 0
                && t.get(k + 3).is_none_or(|t| t.sign('/') || t.sign('-') || t.gap > 0)
            {
                self.counts.get_or_insert((counts, t[k].span));
                self.walls.get_or_insert((walls, t[k + 2].span));
            }
        }
        let w = t.iter().position(|t| t.is(W::Wall));
        let c = t.iter().position(|t| t.is(W::Count));
        let (Some(w), Some(c)) = (w, c) else { return };
        if w.abs_diff(c) != 2 || !t[w.min(c) + 1].sign('/') && !t[w.min(c) + 1].is(W::And) {
            return;
        }
        let numbers: Vec<(u32, Span)> = t[w.max(c) + 1..]
            .iter()
            .filter_map(|t| match t.kind {
                Kind::Number(n) => Some((n, t.span)),
                _ => None,
            })
            .collect();
        let _ = text;
        if numbers.len() == 2 {
            let (walls, counts) = if w < c { (numbers[0], numbers[1]) } else { (numbers[1], numbers[0]) };
            self.walls.get_or_insert(walls);
            self.counts.get_or_insert(counts);
        }
    }

    fn clause(&mut self, text: &str, c: &[Token], line: &[Token]) {
        // "32 counts and it goes to four walls" tells how long the dance is.
        let lead_in = c.iter().any(|t| starting(text, t)) && !beside_walls(c)
            || has(c, W::Intro)
            || has(c, W::After)
            || has(c, W::Before)
            || has(c, W::Restart)
            || has(c, W::Tag)
            || has(c, W::Hold)
            || comes_in(text, c)
            || (has(line, W::Intro) && has(line, W::Music));
        // "24, two walls, beginner": a number by itself beside the walls or the level.
        if let Some((n @ 12..=128, len)) = number(c, 0)
            && len == c.len()
            && (n % 8 == 0 || n % 6 == 0)
            && beside_walls(line)
            && !(has(line, W::Restart) || has(line, W::Tag) || has(line, W::Intro))
        {
            self.counts.get_or_insert((n, c[0].span.join(c[len - 1].span)));
        }
        for i in 0..c.len() {
            if let Some((n, len)) = number(c, i) {
                if i > 1 && decimal(c, i - 1) {
                    continue;
                }
                let mut j = i + len;
                if c.get(j).is_some() && decimal(c, j) {
                    j += 2;
                }
                if c.get(j).is_some_and(|t| t.sign('-')) {
                    j += 1;
                }
                let minute = c[j.min(c.len())..].iter().take(4).any(|t| begins_with(word(text, t), "min"));
                let next = c.get(j);
                let after_label = i > 0 && {
                    let mut k = i;
                    while k > 0 && matches!(c[k - 1].kind, Kind::Sign(_)) {
                        k -= 1;
                    }
                    let walls = k > 1 && c[k - 2].is(W::Wall);
                    k > 0 && c[k - 1].is(W::Count) && !walls && (k < i || c[i].gap == 2)
                };
                // "counts 32, walls 4"
                let after_label = after_label || i == 1 && c[0].is(W::Count) && c.len() == 1 + len && n >= 8;
                let span = c[i].span.join(c[i + len - 1].span);
                if next.is_some_and(|t| t.is(W::Bpm))
                    || minute
                    || (i > 0 && n >= 40 && c[..i].iter().any(|t| t.is(W::Bpm)))
                {
                    // "112,5" is nearer to 113.
                    let up =
                        j > i + len && c.get(j - 1).is_some_and(|t| word(text, t).starts_with(|d| d >= '5'));
                    self.tempo.get_or_insert(n + u32::from(up && decimal(c, j - 2)));
                } else if next.is_some_and(|t| t.is(W::Count))
                    || after_label
                    || next.is_some_and(|t| word(text, t).eq_ignore_ascii_case("c") && t.gap == 0)
                    || (next.is_some_and(|t| t.is(W::Waltz)) && c.get(j + 1).is_some_and(|t| t.is(W::Count)))
                {
                    let in_follows =
                        c.get(j + 1).is_some_and(|t| t.is(W::In) && c.get(j + 2).is_none_or(|t| t.gap > 0))
                            && !c.get(j + 2).is_some_and(|t| {
                                matches!(t.kind, Kind::W(W::Two | W::Four) | Kind::Number(_))
                            });
                    // "Count: 4" is a short dance; "A of 32 counts" is one of its parts.
                    let least = if after_label { 2 } else { 8 };
                    let of_part = c[..i].iter().rev().take(2).any(|t| part_letter(text, t))
                        || c[..i].iter().rev().take(4).any(|t| each(text, t))
                        || c[j.min(c.len())..].iter().take(4).any(|t| each(text, t));
                    if !of_part && !lead_in && !in_follows && (least..=256).contains(&n) {
                        self.counts.get_or_insert((n, span));
                    } else if n >= 4 && !of_part {
                        self.intro.get_or_insert(n);
                    }
                } else if next
                    .is_some_and(|t| t.is(W::Wall) || (word(text, t).eq_ignore_ascii_case("w") && t.gap == 0))
                    && n <= 8
                    && !has(c, W::After)
                    && !has(c, W::Tag)
                    && !has(c, W::Restart)
                    && !has(c, W::End)
                {
                    self.walls.get_or_insert((n, span));
                }
            }
            if word(text, &c[i]).eq_ignore_ascii_case("one") && c.get(i + 1).is_some_and(|t| t.is(W::Wall)) {
                self.walls.get_or_insert((1, c[i].span));
            }
            // "Wall: 2", "Walls ....... 4", "Wall count: 4"
            if c[i].is(W::Wall) && !has(c, W::After) && !has(c, W::Restart) && !has(c, W::Tag) {
                let mut j = i + 1 + usize::from(c.get(i + 1).is_some_and(|t| t.is(W::Count)));
                let mut sign = false;
                while c.get(j).is_some_and(|t| matches!(t.kind, Kind::Sign(_))) {
                    sign = true;
                    j += 1;
                }
                if let Some((n, _)) = number(c, j)
                    && (sign || c[j].gap == 2 || i == 0 && c.len() == j + 1 && c[j].gap > 0)
                    && n <= 8
                    && !c.get(j + 1).is_some_and(|t| t.is(W::Wall))
                {
                    self.walls.get_or_insert((n, c[j].span));
                }
            }
        }
        self.level(text, c);
        self.lead_foot(text, c);
    }

    fn level(&mut self, text: &str, c: &[Token]) {
        if !self.level.is_empty() {
            return;
        }
        let Some(at) = c.iter().position(|t| {
            matches!(t.kind, Kind::W(W::Beginner | W::Improver | W::Intermediate | W::Advanced))
        }) else {
            return;
        };
        let mut from = at;
        while from > 0
            && is_among(
                word(text, &c[from - 1]),
                among![
                    "absolute", "high", "low", "easy", "ultra", "true", "upper", "lower", "phrased", "plus",
                    "super", "basic", "first"
                ],
            )
        {
            from -= 1;
        }
        let mut to = at + 1;
        while c.get(to).is_some_and(|t| {
            is_among(word(text, t), among!["plus", "+", "/", "-", "improver", "intermediate", "beginner"])
        }) {
            to += 1;
        }
        let span = c[from].span.join(c[to - 1].span);
        let words = span.of(text).small();
        self.level = words
            .trim_end_matches(|c: char| !c.is_alphanumeric() && c != '+')
            .replace("beginners", "beginner");
    }

    fn lead_foot(&mut self, text: &str, c: &[Token]) {
        if self.lead.is_some() {
            return;
        }
        let sides: Vec<(Foot, Span)> = c
            .iter()
            .filter_map(|t| match t.kind {
                Kind::W(W::R | W::RF) => Some((Foot::Right, t.span)),
                Kind::W(W::L | W::LF) => Some((Foot::Left, t.span)),
                _ => None,
            })
            .collect();
        let [(side, span)] = sides[..] else { return };
        if has(c, W::Restart) || has(c, W::Tag) || has(c, W::Wall) {
            return;
        }
        if has(c, W::Weight) || c.iter().any(|t| t.is(W::WeightOnL) || t.is(W::WeightOnR)) {
            self.lead = Some((side.other(), span));
            return;
        }
        let says = c.iter().any(|t| {
            t.is(W::First)
                || starting(text, t)
                || word(text, t).eq_ignore_ascii_case("free")
                || word(text, t).eq_ignore_ascii_case("initial")
        });
        let only = c.iter().all(|t| {
            matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF | W::Foot | W::The) | Kind::Sign(_))
        }) && has(c, W::Foot);
        if says || only {
            self.lead = Some((side, span));
        }
    }

    /// "Title: ...", "Choreographer: ...", "Music: ..."
    fn named(&mut self, text: &str, line: &Line) {
        let t = &line.tokens[line.first.min(line.tokens.len())..];
        let Some(first) = t.first() else { return };
        let value = |from: usize| {
            let mut j = from;
            while t.get(j).is_some_and(|t| matches!(t.kind, Kind::Sign(':' | '.' | '-' | '='))) {
                j += 1;
            }
            t.get(j).map_or(Span::default(), |f| f.span.join(t[t.len() - 1].span))
        };
        let label = lower(word(text, first));
        let separated = t.get(1).is_some_and(|t| matches!(t.kind, Kind::Sign(':' | '.')) || t.gap == 2);
        // "Dance: 32 counts, 4 walls" tells what dance it is, not its name.
        let told = t.iter().any(|t| t.is(W::Count) || t.is(W::Wall));
        if separated
            && !told
            && matches!(label.as_str(), "title" | "dance" | "name" | "titel" | "tanz" | "dans")
        {
            self.title = value(1);
        }
        if first.is(W::Choreographer) || label == "by" {
            let by = usize::from(t.get(1).is_some_and(|t| t.is(W::By)));
            if self.author.is_empty() {
                self.author = value(1 + by);
            }
        }
        if (first.is(W::Music) && separated) && self.music.is_empty() {
            self.music = value(1);
        }
    }
}
