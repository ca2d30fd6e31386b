//! What kinds of words there are: those that act, and those that number.

use super::labels::section_word;
use super::vocabulary::W;
use super::words::{Kind, Token};
use crate::text::{Among, among, begins_with};

/// Whether a word of the grammar is a verb of dancing.
#[must_use]
pub fn acts(w: W) -> bool {
    matches!(
        w,
        W::Step
            | W::Walk
            | W::Run
            | W::Rock
            | W::Recover
            | W::Press
            | W::Lunge
            | W::Sway
            | W::Stomp
            | W::Drop
            | W::Grind
            | W::Skate
            | W::Slide
            | W::Ball
            | W::Close
            | W::Touch
            | W::Point
            | W::Dig
            | W::Kick
            | W::Flick
            | W::Hook
            | W::Hitch
            | W::Brush
            | W::Scuff
            | W::Drag
            | W::Sweep
            | W::Fan
            | W::Pop
            | W::Split
            | W::Swivel
            | W::Applejack
            | W::Swivet
            | W::Bounce
            | W::Bump
            | W::Roll
            | W::Jump
            | W::Hop
            | W::Scoot
            | W::Shimmy
            | W::Hold
            | W::Clap
            | W::Pivot
            | W::Spin
            | W::Spiral
            | W::Unwind
            | W::Paddle
            | W::Cross
            | W::Lock
            | W::Together
            | W::Turn
            | W::Leap
    )
}

/// The number that an ordinal stands for: `first`, `10th`. An eighth may be a share of a turn as well.
#[must_use]
pub fn ordinal(w: W) -> Option<u32> {
    Some(match w {
        W::First => 1,
        W::Second => 2,
        W::ThirdTh | W::Third => 3,
        W::Fourth => 4,
        W::Fifth => 5,
        W::Sixth => 6,
        W::Seventh => 7,
        W::EighthTh | W::Eighth => 8,
        W::Ninth => 9,
        W::Tenth => 10,
        _ => return None,
    })
}

/// The number that a word such as `four` or `thirty-two` stands for.
#[must_use]
pub fn cardinal(w: W) -> Option<u32> {
    Some(match w {
        W::Two => 2,
        W::Three => 3,
        W::Four => 4,
        W::Five => 5,
        W::Six => 6,
        W::Seven => 7,
        W::Eight => 8,
        W::Nine => 9,
        W::Ten => 10,
        W::Eleven => 11,
        W::Twelve => 12,
        W::Sixteen => 16,
        W::TwentyFour => 24,
        W::ThirtyTwo => 32,
        W::FortyEight => 48,
        W::SixtyFour => 64,
        _ => return None,
    })
}

/// The section that a capital letter behind "as" or "like" names, from 1.
#[must_use]
pub fn lettered(text: &str, c: &[Token], k: usize) -> Option<u32> {
    if k + 1 != c.len() {
        return None;
    }
    let before = c.get(k.checked_sub(1)?)?;
    match c[k].span.of(text).as_bytes() {
        [letter @ b'A'..=b'K'] if before.span.is_among(text, among!["as", "like"]) => {
            Some(u32::from(letter - b'A') + 1)
        }
        _ => None,
    }
}

/// The section that words name, "line one", "first eight", from 1.
#[must_use]
pub fn names_section(text: &str, c: &[Token], k: usize) -> Option<u32> {
    let (a, b) = (c.get(k)?, c.get(k + 1)?);
    let number = |t: &Token| match t.kind {
        Kind::Number(n) => Some(n),
        Kind::W(W::The) if t.span.of(text).eq_ignore_ascii_case("one") => Some(1),
        Kind::W(w) => cardinal(w),
        _ => None,
    };
    let nth = |t: &Token| if let Kind::W(w) = t.kind { ordinal(w) } else { None };
    let numbered = a.span.is_among(text, among!["number", "nr"]) && matches!(b.kind, Kind::Number(_));
    if numbered || section_word(text, a) { number(b) } else { nth(a).filter(|_| section_word(text, b)) }
}

/// Words that liken what is danced to something else.
pub(super) const LIKE: &Among = among!["like", "as", "wie", "comme", "como", "come"];

/// Whether a clause begins with "like" or "as" and counts or a section: "are exactly as the first eight".
#[must_use]
pub fn likens(text: &str, c: &[Token]) -> bool {
    let small = |t: &&Token| t.span.is_among(text, among!["is", "are", "exactly", "just", "goes", "again"]);
    let c = &c[c.iter().take_while(small).count()..];
    let Some(first) = c.first() else { return false };
    if !first.span.is_among(text, LIKE) {
        return false;
    }
    let named = c.get(1).is_some_and(|t| t.is(W::Count) || t.is(W::Section) || t.is(W::Set) || t.sign('#'));
    let the = 1 + usize::from(c.get(1).is_some_and(|t| t.is(W::The) && names_section(text, c, 1).is_none()));
    named
        || names_section(text, c, the).is_some()
        || c.len() == 2 && lettered(text, c, 1).is_some()
        || c.len() > 3 && matches!(c[1].kind, Kind::Number(_)) && !matches!(c[2].kind, Kind::W(W::Count))
}

/// Whether a clause says only that all is danced again, and on which foot: "the whole lot again", "all of that again
/// but left first".
#[must_use]
pub fn all_again(text: &str, c: &[Token]) -> bool {
    let is = |t: &Token, words: &Among| t.span.is_among(text, words);
    let first = c.iter().find(|t| !matches!(t.kind, Kind::Sign(_)));
    if first.is_none_or(|t| ["start", "begin"].iter().any(|w| begins_with(t.span.of(text), w))) {
        return false;
    }
    let whole = |t: &Token| {
        is(t, among!["all", "lot", "everything", "thing", "that", "this", "these", "those", "it", "them"])
    };
    let (mut again, mut all, mut sided) = (false, false, false);
    let small = c.iter().all(|t| {
        // "Do all four again"
        if all && matches!(t.kind, Kind::W(w) if cardinal(w).is_some()) {
            return true;
        }
        all |= whole(t);
        match t.kind {
            Kind::W(W::Again | W::More) => again = true,
            Kind::W(W::R | W::L | W::RF | W::LF | W::Other | W::Footwork) => sided = true,
            Kind::Sign(_)
            | Kind::W(
                W::The
                | W::It
                | W::Make
                | W::And
                | W::Then
                | W::Full
                | W::Of
                | W::With
                | W::On
                | W::To
                | W::Foot
                | W::Side
                | W::First
                | W::Once
                | W::Times,
            ) => {}
            _ => return whole(t) || is(t, among!["but", "only", "now", "whole"]),
        }
        true
    });
    // "All that on the left" says so without the word.
    let sided_all = all && sided && c.iter().any(|t| matches!(t.kind, Kind::W(W::On | W::To | W::With)));
    let led = sided_all && first.is_some_and(|t| is(t, among!["all", "everything", "the", "whole"]));
    // "To the left again" is a step.
    small && (again && (all || !sided) || led)
}
