//! What numbers, walls and clocks beside a tag or a restart stand for, by the words around them.

use super::mentions::wall_word;
use super::numbers::{ordinal, value};
use super::vocabulary::W;
use super::words::{Kind, Token};
use crate::floor::Heading;
use crate::text::{among, begins_with, lower};

/// "Wait for 32 counts and begin ...", "Start on the right foot, 32 counts in.": the number at a token is the length
/// of the intro.
pub(super) fn waited(text: &str, t: &[Token], i: usize) -> bool {
    let waits = |t: &Token| t.span.is_among(text, among!["wait", "waits", "waiting"]);
    let ends = |t: &Token| matches!(t.kind, Kind::Sign('.' | '!' | '\n'));
    let sentence = t[..i].iter().rev().take_while(|t| !ends(t));
    let enters = t.get(i + 2).is_some_and(|t| t.is(W::In))
        && t.get(i + 3).is_none_or(|t| matches!(t.kind, Kind::Sign(_)))
        && sentence.clone().any(|t| begins(text, t))
        && !sentence.clone().any(|t| matches!(t.kind, Kind::W(W::Restart | W::Again)) || wall_word(text, t));
    enters || t[i.saturating_sub(3)..i].iter().any(waits)
}

/// "32 counts - 2 walls - restart on wall 3", "4 walls / 32 counts": the number at a token is the length of the dance.
pub(super) fn beside_walls(t: &[Token], i: usize) -> bool {
    let walls = |k: usize| {
        matches!(t.get(k).and_then(value), Some(1 | 2 | 4))
            && !ordinal(&t[k])
            && t.get(k + 1).is_some_and(|t| t.is(W::Wall))
            && t.get(k + 2).is_none_or(|t| matches!(t.kind, Kind::Sign(_)) || t.gap == 2)
    };
    let signs = |t: &&Token| matches!(t.kind, Kind::Sign(_));
    let behind = t.get(i + 2..).unwrap_or_default().iter().take_while(signs).count();
    let before = t[..i].iter().rev().take_while(signs).count();
    walls(i + 2 + behind)
        || i.checked_sub(before + 2).is_some_and(|k| (before > 0 || t[i].gap == 2) && walls(k))
}

/// "Wall 3 (starts facing 12:00)": the clock at a token is that at which the repetition begins.
pub(super) fn wall_begins(text: &str, t: &[Token], i: usize) -> bool {
    let small = |t: &&Token| matches!(t.kind, Kind::W(W::Face | W::At | W::On | W::The | W::It | W::To));
    let begins =
        |t: &Token| t.span.is_among(text, among!["starts", "begins", "started", "began", "commences"]);
    let passed = t[..i].iter().rev().take(4).take_while(small).count();
    let Some(k) = i.checked_sub(passed + 1) else { return false };
    begins(&t[k]) || t[k].sign(':') && passed == 0 && k > 0 && begins(&t[k - 1])
}

/// "#1-#4 then top": a number behind its sign, unless it is that of a wall or of one of several restarts.
pub(super) fn numbered_section(text: &str, t: &[Token], i: usize) -> bool {
    let of = |t: &Token| wall_word(text, t) || matches!(t.kind, Kind::W(W::Restart | W::Tag));
    // "#2 Wall 4 starts at 6:00" begins with the sign of the note.
    let note = t.get(i + 1).is_some_and(|t| wall_word(text, t));
    t[i - 1].sign('#') && t[i].gap == 0 && !note && !(i > 1 && of(&t[i - 2]))
}

/// "Before wall 5", "before you start the fifth wall": what comes before a wall is danced after the one before it.
pub(super) fn before_wall(text: &str, t: &[Token]) -> bool {
    let small = |t: &Token| {
        value(t).is_some()
            || matches!(t.kind, Kind::W(W::The | W::Make | W::It))
            || t.span.is_among(text, among!["you", "we", "going", "on", "into"])
    };
    t.iter().rev().take(5).find(|t| !small(t)).is_some_and(|t| t.is(W::Before))
}

/// "Change count 8", "instead of counts 7&8": counts before token `k` are those of steps that are danced otherwise.
pub(super) fn replaced(text: &str, t: &[Token], k: usize) -> bool {
    let Some(before) = k.checked_sub(1).map(|k| &t[k]) else { return false };
    let word = |t: &Token| lower(t.span.of(text));
    let of = before.is(W::Of) && k > 1 && (word(&t[k - 2]) == "instead" || t[k - 2].is(W::Place));
    of || before.is(W::Change) || word(before).starts_with("replac") || word(before) == "swap"
}

/// "As far as count 6", "up to count 4": how far a section is danced.
pub(super) fn reaches(text: &str, t: &[Token], i: usize) -> bool {
    let far = t[i.min(t.len())..].iter().take(4).position(|t| t.is(W::Count));
    far.is_some_and(|k| {
        k > 0
            && t[i..i + k].iter().all(|t| {
                matches!(t.kind, Kind::W(W::While | W::To | W::Up | W::Down | W::Section | W::Set))
                    || t.span.is_among(text, among!["far", "until", "till"])
            })
    })
}

/// Whether a word says that something starts.
pub(super) fn begins(text: &str, t: &Token) -> bool {
    let word = lower(t.span.of(text));
    match t.kind {
        Kind::W(W::Make) => word.starts_with("start") || word.starts_with("begin") || word == "commence",
        Kind::Unknown => matches!(word.as_str(), "begun" | "began" | "started" | "begins"),
        _ => false,
    }
}

/// The wall that words name, "back wall", "facing the front", "at the back": the heading, and where they end.
pub(super) fn wall_named(text: &str, t: &[Token], i: usize) -> Option<(Heading, usize)> {
    let front = match t[i].kind {
        Kind::W(W::Back) => false,
        Kind::W(W::Front) => true,
        // "Back to the middle" is a place between the feet.
        Kind::W(W::Home) if lower(t[i].span.of(text)) == "home" => true,
        _ => return None,
    };
    let heading = if front { Heading::FRONT } else { Heading::new(24) };
    // "Both times a front or back wall" names none.
    if t.get(i + 1).is_some_and(|t| t.is(W::Or)) || i > 0 && t[i - 1].is(W::Or) {
        return None;
    }
    if t.get(i + 1).is_some_and(|t| t.is(W::Wall)) {
        return Some((heading, i + 2));
    }
    let mut before = t[..i].iter().rev().filter(|t| !t.span.is_empty());
    let the = before.next().is_some_and(|t| t.span.of(text).eq_ignore_ascii_case("the"));
    let led = before.next().is_some_and(|t| {
        matches!(t.kind, Kind::W(W::Face | W::At))
            || t.is(W::To) && t.span.of(text).eq_ignore_ascii_case("to")
            || begins_with(t.span.of(text), "look")
    });
    let ends = t.get(i + 1).is_none_or(|t| matches!(t.kind, Kind::Sign(_) | Kind::W(W::And | W::Again)));
    (the && led && ends).then_some((heading, i + 1))
}

/// What may stand between the numbers of walls: "the 2nd and after the 4th".
pub(super) fn joins(t: &[Token], j: usize) -> bool {
    matches!(t[j].kind, Kind::W(W::And | W::The | W::Or) | Kind::Sign(','))
        || matches!(t[j].kind, Kind::W(W::After | W::In | W::On | W::At | W::Again))
            && j > 0
            && matches!(t[j - 1].kind, Kind::W(W::And | W::Again))
}

/// "Between walls 3 and 4": whether the walls whose numbers begin at `from` stand around a place.
pub(super) fn between(text: &str, t: &[Token], from: usize) -> bool {
    t[from.saturating_sub(3)..from].iter().any(|t| t.span.of(text).eq_ignore_ascii_case("between"))
}

/// "After 2": what is too short for counts is a section, and so is a number on a key.
pub(super) fn bare_section(text: &str, t: &[Token], i: usize, n: u32) -> bool {
    let key = text[t[i].span.end as usize..].trim_start_matches('\u{fe0f}').starts_with('\u{20e3}');
    let ends = t.get(i + 1).is_none_or(|t| matches!(t.kind, Kind::Sign(',' | '.' | ';' | ')' | '-' | '!')));
    t[i - 1].is(W::After) && !ordinal(&t[i]) && (key || n < 4 && ends)
}

/// "(counts 1-4)", "counts 7&8": the counts of a few steps, no place in the dance.
pub(super) fn of_steps(text: &str, t: &[Token], i: usize) -> bool {
    if i > 1 && t[i - 2].sign('(') {
        return true;
    }
    let half = t.get(i + 1).is_some_and(|t| t.is(W::And) && t.gap == 0 && t.span.of(text) == "&");
    half && t.get(i + 2).is_some_and(|t| t.gap == 0 && matches!(t.kind, Kind::Number(_)))
}

/// "20 counts in all", "twenty counts altogether": what is said behind a number that adds up all that is danced.
pub(super) fn in_all(text: &str, t: &[Token], i: usize) -> bool {
    let word = |k: usize| t.get(k).map(|t| lower(t.span.of(text)));
    match word(i).as_deref() {
        Some("altogether" | "overall") => true,
        Some("in") => matches!(word(i + 1).as_deref(), Some("all" | "total")),
        _ => false,
    }
}

/// Whether the words just before say "again": "start again facing 6:00".
pub(super) fn again_near(t: &[Token], i: usize) -> bool {
    t[i.saturating_sub(6)..i].iter().any(|t| t.is(W::Again) || t.is(W::Face))
}

/// "begin again with S1", "from the top of part A": where the dance goes on, not where it is broken off.
pub(super) fn from_again(text: &str, t: &[Token], i: usize) -> bool {
    let led = i > 0 && matches!(t[i - 1].kind, Kind::W(W::With | W::From | W::To | W::At));
    let begins = |t: &Token| {
        t.is(W::Again)
            || t.is(W::Restart)
            || t.is(W::Make) && t.span.is_among(text, among!["start", "begin", "starting", "beginning"])
    };
    led && t[i.saturating_sub(4)..i].iter().any(begins)
}

pub(super) fn negated(t: &[Token], i: usize) -> bool {
    t[i.saturating_sub(2)..i].iter().any(|t| t.is(W::No))
}

pub(super) fn roman_sign(text: &str, t: &[Token], i: usize) -> bool {
    let word = t[i].span.of(text);
    !word.is_empty() && word.chars().all(|c| matches!(c, 'i' | 'v' | 'x' | 'I' | 'V' | 'X'))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::lexicon;
    use crate::sheet::words::tokens;

    #[track_caller]
    fn check(text: &str, expected: Option<Heading>) {
        let t = tokens(text, 0..text.len(), &lexicon().vocabulary);
        let named = (0..t.len()).find_map(|i| wall_named(text, &t, i).map(|(h, _)| h));
        assert_eq!(named, expected, "{text}");
    }

    #[test]
    fn a_place_between_the_feet_is_no_wall() {
        check("you are back at the front", Some(Heading::FRONT));
        check("then you look to the home wall", Some(Heading::FRONT));
        check("facing the back", Some(Heading::new(24)));
        check("R back to the middle, L next to it", None);
        check("right back to the centre", None);
    }
}
