//! What is danced besides when a repetition is over, told in ordinary words: "when wall four is finished there are six
//! counts of balance", and the stretch of the dance that a tag dances again.

use super::super::counts::counts_behind;
use super::super::mentions::{section_word, wall_word};
use super::super::numbers::{numeral, ordinal, value};
use super::wording::{from_the_top, has, inline_start, once_more};
use super::{Build, Chunk, Kind, PartKind, SectionText, Slots, Span, Token, Topic, W};
use crate::text::among;
use crate::time::Ticks;

/// Words that a place in the song may hold besides its number.
fn small(t: &Token) -> bool {
    value(t).is_some()
        || matches!(
            t.kind,
            Kind::W(W::The | W::Of | W::And | W::Or | W::After | W::End | W::At) | Kind::Sign(',')
        )
}

/// Whether token `k` is a repetition with its number: "wall 3", "the fourth time".
fn repetition(text: &str, t: &[Token], k: usize) -> bool {
    wall_word(text, &t[k])
        && (value(&t[k - usize::from(k > 0)]).is_some() || t.get(k + 1).is_some_and(|t| value(t).is_some()))
}

/// Where the words end that place something behind a repetition: "after wall 3", "at the end of the second wall",
/// "between walls 3 and 4", "when wall four is finished".
fn behind_repetition(text: &str, t: &[Token]) -> Option<usize> {
    let wall_from = |k: usize| {
        let end = t.len().min(k + 9);
        let at = (k..end).find(|j| wall_word(text, &t[*j]))?;
        (t[k..at].iter().all(small) && repetition(text, t, at)).then_some(at + 1)
    };
    let finished = |k: usize| {
        t[k..t.len().min(k + 3)].iter().any(|t| {
            t.is(W::End) || t.span.is_among(text, among!["done", "over", "finished", "complete", "completed"])
        })
    };
    (0..t.len()).find_map(|k| match t[k].kind {
        Kind::W(W::After | W::End) => wall_from(k + 1),
        Kind::Unknown if t[k].span.of(text).eq_ignore_ascii_case("between") => wall_from(k + 1),
        Kind::W(W::While | W::Once) => {
            let at = wall_from(k + 1)?;
            let at = at + usize::from(t.get(at).is_some_and(|t| value(t).is_some()));
            finished(at).then_some(at)
        }
        _ => None,
    })
}

/// Counts that are spoken of for themselves, "a breath of four counts", not as those of the dance: "after 16 counts".
fn spare(text: &str, t: &[Token]) -> bool {
    let of_dance = |t: &Token| {
        matches!(t.kind, Kind::W(W::After | W::Make | W::First | W::Last | W::To | W::Up | W::Repeat))
    };
    (1..t.len())
        .any(|k| counts_behind(text, &t[k]) && value(&t[k - 1]).is_some() && !(k > 1 && of_dance(&t[k - 2])))
        || t.iter().any(|t| t.span.is_among(text, among!["extra", "spare", "additional", "added", "add"]))
}

/// Whether a line tells of steps that are danced when a repetition is over.
pub(super) fn told(text: &str, t: &[Token]) -> bool {
    let Some(at) = behind_repetition(text, t) else { return false };
    if stretch(text, t).is_some() {
        return true;
    }
    let steps = inline_start(text, t).is_some_and(|k| k >= at);
    let again = has(t, W::Restart) || from_the_top(text, &t[at..]);
    steps && (!again || spare(text, t))
}

/// A stretch of the dance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Stretch {
    /// Counts of the whole dance, from and to.
    Counts(i32, i32),
    /// So many of its first counts.
    First(i32),
    /// So many of its last counts.
    Last(i32),
    /// Sections, from and to, from 1.
    Sections(usize, usize),
    /// So many of its last sections.
    LastSections(usize),
}

/// The stretch that token `i` begins to name, and one past its words.
fn named(text: &str, t: &[Token], i: usize) -> Option<(Stretch, usize)> {
    let number =
        |k: usize| t.get(k).filter(|t| !ordinal(t)).and_then(value).and_then(|n| i32::try_from(n).ok());
    let unit = |k: usize| t.get(k).is_some_and(|t| counts_behind(text, t));
    let section = |k: usize| t.get(k).is_some_and(|t| section_word(text, t));
    let last = t[i].is(W::Last);
    if last || t[i].is(W::First) {
        // "The last section", "the first part"; but "the last eight".
        if section(i + 1) && value(&t[i + 1]).is_none() {
            return Some((if last { Stretch::LastSections(1) } else { Stretch::Sections(1, 1) }, i + 2));
        }
        let n = number(i + 1).filter(|n| (1..=64).contains(n))?;
        if section(i + 2) {
            let n = usize::try_from(n).ok()?;
            return Some((if last { Stretch::LastSections(n) } else { Stretch::Sections(1, n) }, i + 3));
        }
        let to = i + 2 + usize::from(unit(i + 2));
        return (to > i + 2 || n >= 4)
            .then_some((if last { Stretch::Last(n) } else { Stretch::First(n) }, to));
    }
    // "Counts 25-32", "1 to 8"
    let from = i + usize::from(unit(i));
    if let (Some(a), Some(b)) = (number(from), number(from + 2))
        && t[from + 1..from + 2].iter().all(|t| t.sign('-') || t.is(W::To))
        && a < b
    {
        let to = from + 3;
        return Some((Stretch::Counts(a, b), to + usize::from(unit(to))));
    }
    if ordinal(&t[i]) && section(i + 1) {
        let n = value(&t[i]).and_then(|n| usize::try_from(n).ok())?;
        return Some((Stretch::Sections(n, n), i + 2));
    }
    if section(i) {
        let numeral =
            |k: usize| t.get(k).and_then(|t| numeral(text, t)).and_then(|n| usize::try_from(n).ok());
        let a = numeral(i + 1)?;
        let joined =
            t.get(i + 2).is_some_and(|t| matches!(t.kind, Kind::Sign('-' | '&') | Kind::W(W::And | W::To)));
        let b = numeral(i + 3).filter(|b| joined && *b > a);
        return Some((Stretch::Sections(a, b.unwrap_or(a)), if b.is_some() { i + 4 } else { i + 2 }));
    }
    None
}

/// The stretch of the dance that words tell to dance once more, and where it is named: "repeat the last 8 counts",
/// "section 4 one more time". "Begin again with section 1" tells where the dance goes on.
fn stretch(text: &str, t: &[Token]) -> Option<(Stretch, usize, usize)> {
    let parts = |t: &Token| matches!(t.kind, Kind::Sign('.' | ':' | ';' | '\n'));
    (0..t.len()).find_map(|i| {
        let (what, to) = named(text, t, i)?;
        let from = t[..i].iter().rposition(parts).map_or(0, |k| k + 1).max(i.saturating_sub(4));
        let repeated = t[from..i].iter().any(|t| t.is(W::Repeat));
        let rest = &t[to.min(t.len())..t.len().min(to + 5)];
        let rest = &rest[..rest.iter().position(parts).unwrap_or(rest.len())];
        let near = &rest[..rest.len().min(2)];
        let onwards =
            t[from..i].iter().any(|t| matches!(t.kind, Kind::W(W::From | W::With | W::Again | W::After)));
        let again = near.iter().any(|t| t.is(W::Again)) || once_more(rest);
        (repeated || again && !onwards).then_some((what, i, to))
    })
}

impl Build<'_, '_> {
    /// Gives tags that only name a stretch of the dance the steps of that stretch.
    pub(super) fn replays(&mut self) {
        let text = self.r.text;
        let of_part = |m: &&super::Mention| self.parts.iter().any(|p| p.mention.as_ref() == Some(*m));
        let loose: Vec<_> =
            self.mentions.iter().filter(|m| m.topic == Topic::Tag && !of_part(m)).cloned().collect();
        for m in loose {
            let Some((what, from, to)) = stretch(text, &m.tokens) else { continue };
            let Some(sections) = self.stretched(what) else { continue };
            let said: Vec<Token> = m.tokens[..from].iter().chain(&m.tokens[to..]).copied().collect();
            self.mentions.retain(|x| *x != m);
            self.here = None;
            self.open_tag(Topic::Tag, &said, m.span);
            if let Some(part) = self.parts.last_mut() {
                part.sections = sections;
            }
        }
        self.in_tag = false;
    }

    /// The sections of a stretch of the dance, as they are written.
    fn stretched(&self, what: Stretch) -> Option<Vec<SectionText>> {
        let main = self.parts.iter().find(|p| p.kind == PartKind::Main)?;
        let all = &main.sections;
        let whole =
            |from: usize, to: usize| Some(all.get(from.checked_sub(1)?..to)?.iter().map(again).collect());
        let lengths: Vec<i32> = all.iter().map(|s| length(s).unwrap_or(8)).collect();
        let total: i32 = lengths.iter().sum();
        let (first, last) = match what {
            Stretch::Sections(a, b) => return whole(a, b),
            Stretch::LastSections(n) => return whole((all.len() + 1).checked_sub(n)?, all.len()),
            Stretch::Counts(a, b) => (a, b),
            Stretch::First(n) => (1, n),
            Stretch::Last(n) => (total - n + 1, total),
        };
        let mut out = Vec::new();
        let mut before = 0;
        for (section, length) in all.iter().zip(lengths) {
            let (a, b) = ((first - before).max(1), (last - before).min(length));
            before += length;
            if a == 1 && b == length {
                out.push(again(section));
            } else if a <= b {
                out.push(cut(section, a, b)?);
            }
        }
        (first >= 1 && last <= total && !out.is_empty()).then_some(out)
    }
}

/// How many counts a section has, as far as it is written.
pub(super) fn length(section: &SectionText) -> Option<i32> {
    let told = section.counts.and_then(|(n, _)| i32::try_from(n).ok());
    told.or_else(|| {
        section.chunks.iter().try_fold(0, |sum, c| match &c.slots {
            Slots::At { ticks, .. } => Some(ticks.last().map_or(sum, |t| t.count()).max(sum)),
            Slots::Total(n) => i32::try_from(*n).ok().map(|n| sum + n),
            Slots::Free => None,
        })
    })
}

/// A section as it is danced at another place of the song, where its clocks do not hold.
fn again(section: &SectionText) -> SectionText {
    let mut out = section.clone();
    for t in out.tokens.iter_mut().chain(&mut out.heading) {
        if matches!(t.kind, Kind::Clock(_)) {
            t.kind = Kind::Sign(',');
        }
    }
    out
}

/// Counts `first` to `last` of a section, where its chunks part there.
fn cut(section: &SectionText, first: i32, last: i32) -> Option<SectionText> {
    let mut out = again(section);
    out.chunks = Vec::new();
    for chunk in &section.chunks {
        let Slots::At { ticks, range } = &chunk.slots else { return None };
        let inside = |t: &Ticks| (first * 24 - 23..=last * 24 + 23).contains(&t.0);
        if ticks.iter().all(inside) {
            let ticks = ticks.iter().map(|t| Ticks(t.0 - (first - 1) * 24)).collect();
            out.chunks.push(Chunk { slots: Slots::At { ticks, range: *range }, ..chunk.clone() });
        } else if ticks.iter().any(inside) {
            return None;
        }
    }
    let counts = u32::try_from(last - first + 1).ok()?;
    out.counts = Some((counts, section.counts.map_or(Span::default(), |(_, span)| span)));
    Some(out)
}
