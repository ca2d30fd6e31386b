//! What a sheet says of tags, restarts and endings: on which walls, after how many counts, facing where.

use super::beside::{
    again_near, bare_section, before_wall, begins, beside_walls, between, from_again, in_all, joins, negated,
    numbered_section, of_steps, reaches, replaced, roman_sign, waited, wall_begins, wall_named,
};
use super::numbers::{glued_ordinal, last_of_list, last_of_range, list, numeral, ordinal, value};
use super::vocabulary::W;
use super::words::{Kind, Token};
use crate::floor::Heading;
use crate::text::{Span, among, begins_with, lower};

/// What is spoken of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Topic {
    /// Extra counts.
    Tag,
    /// The repetition is broken off.
    Restart,
    /// The last steps.
    Ending,
}

/// One place in the text that speaks of a tag, a restart or an ending.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mention {
    /// What of.
    pub topic: Topic,
    /// Repetitions, from 1.
    pub walls: Vec<u32>,
    /// Counts danced before it, as the text says.
    pub after_counts: Option<u32>,
    /// The last section danced before it, from 1, as the text says.
    pub after_section: Option<u32>,
    /// Facings stated, in order; those said of the beginning of the wall are left out.
    pub facings: Vec<(Heading, Span)>,
    /// Where a step line carries the mention: part, section and the tick reached.
    pub placed: Option<(usize, usize, i32)>,
    /// Whether a tag is followed by a restart.
    pub then_restart: bool,
    /// How long a tag is, where it is said.
    pub length: Option<u32>,
    /// The number of the tag, as in "Tag 2".
    pub number: Option<u32>,
    /// The tokens, for steps that a restart changes.
    pub tokens: Vec<Token>,
    /// The words.
    pub span: Span,
}

impl Mention {
    /// An empty mention.
    #[must_use]
    pub fn new(topic: Topic, span: Span) -> Self {
        Self {
            topic,
            walls: Vec::new(),
            after_counts: None,
            after_section: None,
            facings: Vec::new(),
            placed: None,
            then_restart: false,
            length: None,
            number: None,
            tokens: Vec::new(),
            span,
        }
    }
}

pub(super) fn wall_word(text: &str, t: &Token) -> bool {
    t.is(W::Wall)
        || t.span.is_among(
            text,
            among![
                "round",
                "rounds",
                "time",
                "times",
                "w",
                "repetition",
                "rep",
                "reps",
                "pass",
                "go",
                "wand",
                "mur",
                "muur",
                "pared",
                "parete",
                "væg",
                "vÆg",
                "runde",
                "through",
            ],
        )
}

/// "When you have done it five times": what stands before the number says that the dance was danced.
fn gone_through(text: &str, t: &[Token], number: usize) -> bool {
    let is = |t: &Token| {
        t.span.is_among(text, among!["done", "danced", "gone", "been", "through", "round", "completed"])
    };
    let small = |t: &&Token| t.is(W::It) || t.is(W::The) || t.span.is_among(text, among!["dance", "all"]);
    t[..number].iter().rev().find(|t| !small(t)).is_some_and(is)
}

/// "Do ONE and TWO": the number of a section in capitals among small letters.
fn shouted(text: &str, t: &[Token], i: usize) -> bool {
    let word = |t: &Token| t.span.of(text);
    let capital = |w: &str| w.len() > 1 && w.bytes().all(|b| b.is_ascii_uppercase());
    let small = |t: &Token| word(t).bytes().any(|b| b.is_ascii_lowercase());
    let led = i > 0
        && (matches!(t[i - 1].kind, Kind::W(W::And | W::After | W::Make | W::To)) || t[i - 1].sign(','));
    let other =
        t.get(i + 1).is_some_and(|t| matches!(t.kind, Kind::W(W::Count | W::Wall | W::Tag | W::Restart)));
    led && !other && capital(word(&t[i])) && t[..i].iter().rev().take(3).any(small)
}

/// A word from which on the changed steps of a restart are told.
fn danced_otherwise(text: &str, t: &[Token], i: usize) -> bool {
    let word = lower(t[i].span.of(text));
    t[i].is(W::Change)
        || matches!(word.as_str(), "instead" | "replace" | "replacing" | "swap" | "becomes" | "omit")
        || word.starts_with("leav") && t.get(i + 1).is_some_and(|t| t.is(W::Out))
}

/// Reads what a stretch of tokens says about one topic.
#[must_use]
pub(super) fn mention(text: &str, t: &[Token], topic: Topic) -> Mention {
    let span =
        t.first().map_or(Span::default(), |f| f.span).join(t.last().map_or(Span::default(), |l| l.span));
    let mut m = Mention::new(topic, span);
    m.tokens = t.to_vec();
    let mut i = 0;
    let mut starting = false;
    let mut after = false;
    // What is told behind the place of an ending is about its steps.
    let mut first = None;
    let mut changed = false;
    // "The first four counts of III (20 counts in all)"
    let mut sum = None;
    while i < t.len() {
        // What is danced otherwise is told behind the place of a restart, with counts of its own.
        changed |= topic == Topic::Restart
            && (m.after_counts.is_some() || m.after_section.is_some())
            && danced_otherwise(text, t, i);
        if topic == Topic::Ending {
            first = first.or(m.after_counts);
        }
        let token = &t[i];
        let word = lower(token.span.of(text));
        match token.kind {
            _ if begins(text, token) => {
                starting |= !t.get(i + 1).is_some_and(|t| t.is(W::Again));
            }
            Kind::W(W::Face) => starting = false,
            Kind::Sign('.' | '!' | '\n') => {
                starting = false;
                changed = false;
            }
            Kind::Sign(';' | ')') => starting = false,
            // "You end on the wall you began on: 3 o'clock"; but "(starts: 6:00)".
            Kind::Sign(':') if i > 0 && !begins(text, &t[i - 1]) => starting = false,
            // "(6:00 start)", "W3 (starts 6:00)"
            Kind::Clock(_)
                if topic == Topic::Restart
                    && (t.get(i + 1).is_some_and(|t| begins_with(t.span.of(text), "start"))
                        || wall_begins(text, t, i)) => {}
            Kind::Clock(h) => {
                if starting && topic == Topic::Restart && !again_near(t, i) {
                    starting = false;
                } else {
                    m.facings.push((h, token.span));
                }
            }
            Kind::W(W::After) => after = true,
            Kind::W(W::Restart) if topic == Topic::Tag => m.then_restart = !negated(t, i),
            _ => {}
        }
        // "6 o'clock", "facing 6", "at 3": a bare number after a word of facing.
        if let Kind::Number(n @ 1..=12) = token.kind {
            let said = t.get(i + 1).is_some_and(|t| t.is(W::OClock))
                || (i > 0
                    && (t[i - 1].is(W::Face) || (t[i - 1].is(W::The) && i > 1 && t[i - 2].is(W::Face))))
                || (i > 1
                    && (t[i - 1].is(W::At) || t[i - 1].sign('@') && (starting || m.after_counts.is_some()))
                    && n % 3 == 0
                    && !t.get(i + 1).is_some_and(|t| t.is(W::Count)));
            if said {
                let h = Heading::new(i32::try_from(n * 4).unwrap_or(0));
                let first = starting && !again_near(t, i) || wall_begins(text, t, i);
                if first && topic == Topic::Restart {
                    starting = false;
                } else {
                    m.facings.push((h, token.span));
                }
                i += 1;
                continue;
            }
        }
        // "the back wall", "at the front"
        if let Some((h, to)) = wall_named(text, t, i) {
            let first = starting && !again_near(t, i) || wall_begins(text, t, i);
            if first && topic == Topic::Restart {
                starting = false;
            } else if topic != Topic::Ending {
                m.facings.push((h, token.span.join(t[to - 1].span)));
            }
            i = to;
            continue;
        }
        // "Section 4 once more, then wall 4 begins", "between walls 3 and 4" tell what comes behind a tag.
        let behind = topic == Topic::Tag
            && !m.walls.is_empty()
            && t[i.saturating_sub(2)..i].iter().any(|t| t.is(W::Then));
        // "The first time you look at 3 o'clock" counts the tags where the walls are named.
        let again = matches!(word.as_str(), "time" | "times") && !m.walls.is_empty();
        if wall_word(text, token) && !again && !behind {
            // "wall 3", "walls 2 and 5"
            let next = topic == Topic::Tag && before_wall(text, &t[..i]);
            let mut found = Vec::new();
            let mut from = i + 1;
            while t
                .get(from)
                .is_some_and(|t| t.sign('#') || t.sign(':') || t.sign('(') || (t.sign('-') && t.gap == 0))
            {
                from += 1;
            }
            // "The 3. wall (9 o'clock)" tells an hour.
            let hour = t.get(from + 1).is_some_and(|t| t.is(W::OClock));
            if !hour
                && t.get(from)
                    .is_some_and(|t| matches!(t.kind, Kind::Number(_)) || (value(t).is_some() && !ordinal(t)))
            {
                let end = list(text, t, from, &mut found);
                i = end.max(i + 1);
            } else {
                // "the 2nd and the 5th round", "third time through"
                let mut j = i;
                while j > 0 {
                    if let Some(n) = glued_ordinal(text, t, j) {
                        found.push(n);
                        j -= 2;
                        continue;
                    }
                    j -= 1;
                    let told = j > 0
                        && (t[j - 1].is(W::After) || t[j - 1].is(W::Make) || gone_through(text, t, j))
                        && value(&t[j]).is_some();
                    if ordinal(&t[j]) || told {
                        found.push(value(&t[j]).unwrap_or(0));
                    } else if !joins(t, j) {
                        break;
                    }
                }
                found.reverse();
                i += 1;
                // "of the first wall and of the third", "... and again at the end of the fifth you face the back"
                let mut j = i;
                let small = [W::And, W::Of, W::The, W::After, W::Again, W::At, W::End];
                while t.get(j).is_some_and(|t| small.iter().any(|w| t.is(*w))) {
                    j += 1;
                }
                let ends = |t: &Token| {
                    matches!(t.kind, Kind::Sign(_) | Kind::Unknown)
                        || t.span.is_among(text, among!["you", "we", "they"])
                };
                if j > i
                    && t[i].is(W::And)
                    && let Some(last) = t.get(j).filter(|t| ordinal(t))
                    && t.get(j + 1).is_none_or(ends)
                {
                    found.push(value(last).unwrap_or(0));
                    i = j + 1;
                }
            }
            if i > 0 && between(text, t, from) {
                found.truncate(1);
            }
            // "Restart W3 ... W4 from [3]" tells how the next one begins.
            if topic == Topic::Restart && !m.walls.is_empty() && t.get(i).is_some_and(|t| t.is(W::From)) {
                found.clear();
            }
            for n in found {
                let n = n - u32::from(next && n > 1);
                if n > 0 && !m.walls.contains(&n) {
                    m.walls.push(n);
                }
            }
            continue;
        }
        // "after ii"
        if i > 0
            && t[i - 1].is(W::After)
            && topic != Topic::Tag
            && roman_sign(text, t, i)
            && t.get(i + 1).is_none_or(|t| matches!(t.kind, Kind::Sign(_)))
        {
            m.after_section = numeral(text, token);
        }
        // "Eights #1 and #2" are sections.
        let numbered = section_word(text, token) && t.get(i + 1).is_some_and(|t| t.sign('#'));
        if let Some(n) = value(token).filter(|_| !numbered) {
            // "after twenty-four counts"
            let tens = i > 1 && t[i - 1].sign('-') && t[i - 1].gap == 0;
            let n = if tens { super::head::number(t, i - 2).map_or(n, |(whole, _)| whole) } else { n };
            // "16c" is short for 16 counts.
            let counted = t.get(i + 1).is_some_and(|t| super::counts::counts_behind(text, t));
            // "Intro 16c | 1 restart (W4)", "32 COUNTS  2 WALLS"
            let intro = i > 0
                && (t[i - 1].is(W::Intro) || t[i - 1].sign(':') && i > 1 && t[i - 2].is(W::Intro))
                || t.get(i + 2).is_some_and(|t| t.is(W::Intro))
                || waited(text, t, i);
            // "Walk R, walk L instead (two counts)"
            let aside = m.after_counts.is_some() && i > 0 && matches!(t[i - 1].kind, Kind::Sign('(' | '['));
            if counted && topic == Topic::Restart && in_all(text, t, i + 2) {
                sum = Some(n);
            }
            let last = i > 0 && t[i - 1].is(W::Last);
            let counted = counted && !intro && !aside && !last && !changed && !beside_walls(t, i);
            // "After b (16)", "do A and B only (16)"
            let lone = i > 0
                && matches!(t[i - 1].kind, Kind::Sign('(' | '['))
                && t.get(i + 1).is_some_and(|t| matches!(t.kind, Kind::Sign(')' | ']')));
            let counted = counted
                || lone && n > 12 && n % 4 == 0 && m.after_counts.is_none() && topic == Topic::Restart;
            // "Stop after number 32", where steps are numbered.
            let numbered = topic == Topic::Restart
                && i > 0
                && n >= 4
                && t[i - 1].span.of(text).eq_ignore_ascii_case("number")
                && matches!(token.kind, Kind::Number(_));
            let count_before = numbered
                || !changed
                    && i > 0
                    && t[i - 1].is(W::Count)
                    && !(i > 1 && matches!(t[i - 2].kind, Kind::Number(_)));
            let section_before = i > 0
                && (section_word(text, &t[i - 1]) && !from_again(text, t, i - 1)
                    || topic == Topic::Restart && numbered_section(text, t, i));
            if topic == Topic::Restart && i > 0 && m.after_section.is_none() && bare_section(text, t, i, n) {
                m.after_section = Some(n);
            } else if topic == Topic::Restart && !changed && shouted(text, t, i) {
                m.after_section = Some(n.max(m.after_section.unwrap_or(0)));
            } else if count_before && m.after_counts.is_some() && of_steps(text, t, i) {
                // "leave the turn out of the sailor step (counts 7&8)"
            } else if section_before && !ordinal(token) {
                m.after_section = Some(last_of_list(text, t, i));
            } else if topic == Topic::Tag
                && counted
                && m.length.is_none()
                && !(i > 0 && t[i - 1].is(W::After))
            {
                m.length = Some(n);
            } else if count_before
                && i > 1
                && (n == 1 && topic == Topic::Restart && last_of_range(t, i) <= 1
                    || t[i - 2].is(W::From)
                    || replaced(text, t, i - 1))
            {
                // "begin again from count 1", "go back to count 1", "change count 8 to a touch"
            } else if i > 0 && t[i - 1].is(W::First) && t.get(i + 1).is_some_and(|t| section_word(text, t)) {
                // "only the first 4 sections"
                m.after_section = Some(n);
            } else if (counted || count_before) && n > 0 && topic != Topic::Tag {
                m.after_counts = Some(last_of_range(t, i).max(n));
            } else if topic == Topic::Tag && (count_before || (counted && after)) && !ordinal(token)
                || i > 0
                    && (t[i - 1].is(W::After) || t[i - 1].sign('@'))
                    && !ordinal(token)
                    && topic != Topic::Tag
                    && n >= 4
            {
                m.after_counts = Some(n);
            } else if i > 0
                && topic != Topic::Tag
                && n >= 4
                && !ordinal(token)
                && (begins_with(t[i - 1].span.of(text), "danc")
                    || m.after_counts.is_none()
                        && (t[i - 1].span.of(text).eq_ignore_ascii_case("do") || t[i - 1].is(W::First))
                        && !t.get(i + 1).is_some_and(|t| t.is(W::OClock)))
            {
                // "dance 16", "do 16", "do the first 10"
                m.after_counts = Some(n);
            } else if ordinal(token) && topic != Topic::Tag && reaches(text, t, i + 1) {
                // "the third as far as count 6"
                m.after_section = Some(n);
            } else if ordinal(token)
                && topic != Topic::Tag
                && t.get(i + 1).is_some_and(|t| {
                    section_word(text, t) || t.is(W::Eight) || matches!(t.kind, Kind::Number(8 | 6))
                })
                && !(i > 0 && from_again(text, t, i - usize::from(t[i - 1].is(W::The))))
            {
                m.after_section = Some(n);
                i += 1;
            }
        } else if section_word(text, token)
            && i > 0
            && t[i - 1].is(W::In)
            && m.after_counts.is_some()
            && topic == Topic::Restart
        {
            // "Dance 28 counts only. In row 4 keep the rock": what is danced there otherwise.
            i += 2;
            continue;
        } else if section_word(text, token)
            && !from_again(text, t, i)
            && let sign = usize::from(t.get(i + 1).is_some_and(|t| t.sign('#')))
            && let Some(n) = t.get(i + 1 + sign).and_then(|t| numeral(text, t))
        {
            i += sign;
            // "leave out sections 3 and 4"
            let left_out = t[i.saturating_sub(2)..i].iter().any(|t| {
                let word = lower(t.span.of(text));
                matches!(word.as_str(), "out" | "skip" | "omit" | "miss" | "skipping" | "omitting")
                    || t.is(W::No)
            });
            if left_out && n > 1 {
                m.after_section = Some(n - 1);
                i += 2 + t[i + 2..]
                    .iter()
                    .take_while(|t| {
                        numeral(text, t).is_some()
                            || matches!(t.kind, Kind::W(W::And | W::To) | Kind::Sign(',' | '-'))
                    })
                    .count();
                continue;
            }
            m.after_section = Some(n.max(m.after_section.unwrap_or(0)));
            // "sections one and two", "sets 1 and 2", "A to C"; not "S2 7&8".
            let mut j = i + 2;
            while let Some(next) = t.get(j) {
                // "Section 2 (7-8: ...)" goes on with counts.
                let opens = next.sign('(') && numeral(text, &t[j - 1]).is_some();
                if opens || t.get(j + 1).is_some_and(|t| t.is(W::Count)) {
                    break;
                }
                if let Some(n) = numeral(text, next) {
                    if j == i + 2 {
                        break;
                    }
                    m.after_section = Some(n.max(m.after_section.unwrap_or(0)));
                } else if !(matches!(
                    next.kind,
                    Kind::W(W::And | W::To) | Kind::Sign(',' | '-' | '(' | ')' | '#')
                ) || section_word(text, next)
                    && t.get(j + 1).is_some_and(|t| numeral(text, t).is_some()))
                {
                    break;
                }
                j += 1;
            }
            i = j;
            continue;
        } else if topic == Topic::Restart
            && m.after_section.is_none()
            && i > 0
            && (t[i - 1].is(W::Make)
                || t[i - 1].is(W::And)
                || t[i - 1].is(W::To)
                || t[i - 1].sign('(')
                || listed(t, i))
        {
            // "Dance A and B", "dance (i) to (iv)"; not "leave out C and D"
            let letter = word.len() == 1
                && token.span.of(text).chars().all(|c| c.is_ascii_uppercase() && c != 'R' && c != 'L');
            let out = t[i.saturating_sub(3)..i].iter().any(|t| t.is(W::Out));
            if (letter && !out || roman_sign(text, t, i))
                && let Some(n) = numeral(text, token)
            {
                let mut last = n;
                let mut j = i + 1;
                while let Some(next) = t.get(j) {
                    if t.get(j + 1).is_some_and(|t| t.is(W::Count)) {
                        break;
                    }
                    if let Some(n) = numeral(text, next) {
                        last = last.max(n);
                    } else if !matches!(
                        next.kind,
                        Kind::W(W::And | W::To) | Kind::Sign(',' | '-' | '(' | ')')
                    ) {
                        break;
                    }
                    j += 1;
                }
                m.after_section = Some(last);
                i = j;
                continue;
            }
        }
        // "Tag 2"
        if token.is(W::Tag)
            && let Some(Kind::Number(n)) = t.get(i + 1).map(|t| t.kind)
            && n < 10
            && !t.get(i + 2).is_some_and(|t| t.is(W::Count))
        {
            m.number = Some(n);
        }
        i += 1;
    }
    m.after_counts = first.or(m.after_counts);
    if sum.is_some() {
        m.after_counts = sum;
        m.after_section = None;
    }
    m
}

/// "Wall 4: A, B, C, then restart", "restart after C": a letter between signs or words that list sections.
fn listed(t: &[Token], i: usize) -> bool {
    let led = matches!(
        t[i - 1].kind,
        Kind::Sign(':' | ',' | '-' | '=') | Kind::W(W::After | W::On | W::End | W::Of)
    );
    let ends = t.get(i + 1).is_none_or(|t| {
        matches!(t.kind, Kind::Sign(_) | Kind::W(W::And | W::To | W::Then | W::Restart | W::On | W::Face))
    });
    led && ends && t[i].span.range().len() == 1
}

pub(super) fn section_word(text: &str, t: &Token) -> bool {
    let word = lower(t.span.of(text));
    t.is(W::Section)
        || t.is(W::Set)
        || matches!(
            word.as_str(),
            "set"
                | "sets"
                | "s"
                | "p"
                | "block"
                | "blocks"
                | "blok"
                | "eights"
                | "eight"
                | "line"
                | "lines"
                | "group"
                | "groups"
                | "row"
                | "rows"
                | "page"
                | "pages"
        )
        || super::labels::piece_word(&word)
}
