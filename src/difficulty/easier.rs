//! Easier options that a sheet states, read in place of the steps that they replace.
//!
//! This file alone in the room knows words. "Easier option: counts 1-2 walk forward R, L instead of the full
//! turn" becomes a text in which these words stand where counts 1 and 2 stood; that text is read like any other.
//! What cannot be put in place so is still named, without a score.

use super::ScoreOptions;
use crate::dance::Dance;
use crate::letters::Letters as _;
use crate::motion::simulate;
use crate::order::Ordered as _;
use crate::read::{TroubleKind, understood};
use crate::sheet::{SectionText, Sheet, Slots};
use crate::text::Span;

/// More options than this are no options of a dance.
const MOST: usize = 8;

/// An easier option of a sheet.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Easier {
    /// Its words.
    pub words: Span,
    /// The dance with it, where it could be put in place and read.
    pub dance: Option<Dance>,
}

/// The easier options of a sheet in order.
#[must_use]
pub fn easier(text: &str) -> Vec<Easier> {
    let mut options: Vec<Span> =
        lines(text).filter(|line| offers(line.of(text))).map(|l| words(text, l)).collect();
    options.truncate(MOST);
    if options.is_empty() {
        return Vec::new();
    }
    let (sheet, whole) = understood(text);
    let unread = |reading: &crate::read::Reading| {
        reading.troubles.iter().filter(|t| t.kind == TroubleKind::Unread).count()
    };
    let counts = |dance: &Dance| dance.main_sections().map(|s| s.counts).collect::<Vec<_>>();
    let with = |option: Span| {
        let changed = in_place(text, &sheet, option)?;
        let found = understood(&changed).1;
        let same = counts(&found.dance) == counts(&whole.dance) && unread(&found) <= unread(&whole);
        same.then_some(found.dance)
    };
    options.into_iter().map(|words| Easier { words, dance: with(words) }).collect()
}

/// Every line with its place.
fn lines(text: &str) -> impl Iterator<Item = Span> + '_ {
    let mut start = 0;
    text.split_inclusive('\n').map(move |line| {
        let span = Span { start, end: start + size(line.trim_end().len()) };
        start += size(line.len());
        span
    })
}

fn size(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

/// An easier option of a sheet with the score that the dance has with it.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Choice {
    /// Its words.
    pub words: String,
    /// The score with it, where it could be read.
    pub score: Option<f64>,
}

/// The easier options of a sheet in order, each scored at a tempo in beats a minute.
#[must_use]
pub fn choices(text: &str, options: &ScoreOptions, tempo: u32) -> Vec<Choice> {
    let mut options = options.clone();
    options.tempo = Some(tempo);
    options.brief = true;
    let one = |found: Easier| {
        let words: Vec<&str> = found.words.of(text).split_whitespace().collect();
        let score = found.dance.and_then(|dance| {
            let motion = simulate(&dance, &options.body, 1);
            super::score(&dance, &motion, &options).total
        });
        Choice { words: words.join(" "), score }
    };
    easier(text).into_iter().map(one).collect()
}

/// Whether a line offers something easier.
fn offers(line: &str) -> bool {
    let low = line.small();
    let has = |words: &[&str]| words.iter().any(|w| low.contains(w));
    let option = has(&["option", "alternative", "version", "variation", "instead", "easier:"]);
    let easier = has(&["easier", "easy option", "easy alternative", "easy version", "simpler", "gentler"]);
    let no_turn = has(&["option", "alternative"])
        && has(&[
            "without turn",
            "without the turn",
            "without a turn",
            "no turn",
            "non-turning",
            "non turning",
        ]);
    let harder = has(&["harder", "advanced option"]);
    (option && easier || no_turn) && !harder
}

/// The words of the option within its line, without brackets around them.
fn words(text: &str, line: Span) -> Span {
    let whole = line.of(text);
    let low = whole.small();
    // Lower case may have another length in other scripts; then the whole line is meant.
    let from = if low.len() == whole.len() {
        let marks =
            ["easier", "easy", "simpler", "gentler", "option", "alternative", "non-turning", "non turning"];
        marks.iter().filter_map(|m| low.find(m)).min().unwrap_or(0)
    } else {
        0
    };
    let end = whole.trim_end_matches([')', ']', '.', ' ']).len().max(from);
    Span { start: line.start + size(from), end: line.start + size(end) }
}

/// The text with an option in the place of the counts that it names; `None` where it names none, or where they
/// are not written apart from others.
fn in_place(text: &str, sheet: &Sheet, option: Span) -> Option<String> {
    let words = option.of(text);
    let (mark, from, to, rest) = counts(words)?;
    let sections = sheet.parts.iter().flat_map(|p| &p.sections);
    let section = sections.filter(|s| s.span.start <= option.start).max_by_key(|s| s.span.start)?;
    let outside = |span: Span| span.end <= option.start || span.start >= option.end;
    let (mut gone, mut first) = (Vec::new(), None);
    for chunk in &section.chunks {
        let span = chunk_span(section, chunk.from, chunk.to, chunk.mark)?;
        let Slots::At { ticks, range } = &chunk.slots else { continue };
        let (Some(begin), Some(end)) = (ticks.first(), ticks.last()) else { continue };
        let end = if *range { end.0 / 24 * 24 + 23 } else { end.0 };
        let shift = section.base * 24;
        let inside = |tick: i32| (from..to).contains(&tick) || (from..to).contains(&(tick + shift));
        match (inside(begin.0), inside(end)) {
            (true, true) if outside(span) => {
                first.get_or_insert(span.start);
                gone.push(span);
            }
            (false, false) => {}
            // Written together with other counts.
            _ if outside(span) => return None,
            _ => {}
        }
    }
    let first = first?;
    let steps = until(rest, &[" instead", " in place of", " rather than", " in lieu", ". ", ";"]);
    let steps = steps.trim_start_matches(|c: char| !c.is_alphanumeric()).trim_end();
    let steps = ["without turning", "without the turn", "without turn", "no turn", "just", "walk instead"]
        .iter()
        .find_map(|w| steps.strip_prefix(w))
        .unwrap_or(steps);
    let steps = steps.trim_start_matches(|c: char| !c.is_alphanumeric());
    if steps.is_empty() {
        return None;
    }
    // The option's own line goes, so that it is not read a second time.
    let line = lines(text).find(|line| line.start <= option.start && option.start <= line.end)?;
    let before_it = Span { start: line.start, end: option.start };
    let from = if before_it.of(text).trim_matches(|c: char| !c.is_alphanumeric()).is_empty() {
        line.start
    } else {
        option.start
    };
    gone.push(Span { start: from, end: line.end });
    gone.in_order_by_key(|s| s.start);
    let (mut changed, mut at) = (String::with_capacity(text.len()), 0);
    for span in gone {
        let (start, end) = (span.start as usize, span.end as usize);
        changed.push_str(text.get(at..start.max(at))?);
        if span.start == first {
            changed.push_str(mark);
            changed.push_str("   ");
            changed.push_str(steps);
        }
        at = end.max(at);
    }
    changed.push_str(text.get(at..)?);
    Some(changed)
}

/// All the words of a chunk with its count mark.
fn chunk_span(section: &SectionText, from: usize, to: usize, mark: Span) -> Option<Span> {
    let tokens = section.tokens.get(from..to)?;
    let (first, last) = (tokens.first()?, tokens.last()?);
    let start = if mark.end > mark.start { mark.start.min(first.span.start) } else { first.span.start };
    Some(Span { start, end: last.span.end })
}

/// The first count or range of counts in some words: how it is written, its ticks from and up to, the words
/// after it.
fn counts(words: &str) -> Option<(&str, i32, i32, &str)> {
    let bytes = words.as_bytes();
    let start = (0..bytes.len()).find(|i| {
        bytes[*i].is_ascii_digit()
            && bytes.get(i + 1).is_none_or(|b| *b != b'/')
            && (*i == 0 || !matches!(bytes[i - 1], b'/' | b'0'..=b'9'))
    })?;
    let part = |c: char| c.is_ascii_digit() || matches!(c, '-' | '–' | '&' | ',');
    let end = words[start..].find(|c: char| !part(c)).map_or(words.len(), |n| start + n);
    let mark = words[start..end].trim_end_matches(['-', '–', ',']);
    let numbers: Vec<i32> = mark
        .split(|c: char| !c.is_ascii_digit())
        .filter_map(|n| n.parse().ok())
        .filter(|n| *n < 1000)
        .collect();
    let (first, last) = (*numbers.first()?, *numbers.last()?);
    (first > 0 && last >= first).then(|| (mark, first * 24, (last + 1) * 24, &words[start + mark.len()..]))
}

fn until<'a>(words: &'a str, ends: &[&str]) -> &'a str {
    let end = ends.iter().filter_map(|end| words.find(end)).min();
    end.map_or(words, |end| &words[..end])
}

#[cfg(test)]
mod tests {
    use super::*;

    const SHEET: &str = "EASY TIDE\nCount: 8  Wall: 2\n\n\
        1-2   Turn 1/2 left stepping R back, turn 1/2 left stepping L forward\n\
        3&4   Shuffle forward R, L, R\n\
        5-6   Rock L forward, recover weight to R\n\
        7&8   Shuffle back L, R, L\n";

    #[track_caller]
    fn turn_with(option: &str) -> Option<i32> {
        let text = format!("{SHEET}{option}\n");
        let found = easier(&text);
        assert_eq!(found.len(), 1, "{option}");
        let dance = found[0].dance.as_ref()?;
        Some(dance.main_sections().flat_map(|s| &s.moves).map(|m| m.turn.0.abs()).sum())
    }

    #[test]
    fn options_take_the_place_of_their_counts() {
        assert_eq!(
            turn_with("Easier option: counts 1-2 walk forward R, L instead of the full turn."),
            Some(0)
        );
        assert_eq!(turn_with("(Option: 1-2 without turn, walk forward R, L. Same feet.)"), Some(0));
        assert_eq!(turn_with("Easy option for 1-2: walk R, walk L"), Some(0));
    }

    #[test]
    fn what_cannot_be_put_in_place_is_only_named() {
        assert_eq!(turn_with("Easier option: leave out the claps"), None);
        assert_eq!(turn_with("Easier option: 2-3 walk R, L"), None);
    }

    #[test]
    fn other_options_are_left_alone() {
        for line in
            ["Option: clap on 8", "There is one easy restart.", "Harder option: 1-2 spin, easier said"]
        {
            assert!(easier(&format!("{SHEET}{line}\n")).is_empty(), "{line}");
        }
    }
}
