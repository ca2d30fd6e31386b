//! Phrases that are no steps themselves: orders of feet, and repeats.

use super::clauses::clause_end;
use crate::dance::Foot;
use crate::figures::number_word;
use crate::sheet::classes::{all_again, lettered, likens, names_section, ordinal};
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, acts};
use crate::text::{Among, among, begins_with, is_among, lower};

/// What it costs that "2x" before a figure is said of what stands before it.
const AHEAD: u32 = 16;

/// The highest count that can be said again.
const MOST: u32 = 999;

/// "Twice", "same on the other foot", "repeat 1-4 on the left".
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Repeat {
    /// How often altogether, where it is said.
    pub times: Option<u32>,
    /// Mirrored, where it is said.
    pub mirrored: bool,
    /// The same feet, where it is said.
    pub same: bool,
    /// The foot that leads, where it is said.
    pub lead: Option<Foot>,
    /// Counts of the sheet that are repeated.
    pub range: Option<(i32, i32)>,
    /// The first and the last section that is repeated, from 1; the counts are theirs.
    pub sections: Option<(u32, u32)>,
    /// So many counts.
    pub counts: Option<u32>,
    /// Written right behind the words that it repeats.
    pub suffix: bool,
    /// Whether the step before it names its foot: "stomp R twice".
    pub foot: bool,
    /// Whether its last counts may be danced otherwise.
    pub otherwise: bool,
    /// The last count that is danced as it was, where it is said; below zero, how many at the end are not.
    pub until: Option<i32>,
}

/// The number of an ordinal.
fn nth(t: &Token) -> Option<u32> {
    if let Kind::W(w) = t.kind { ordinal(w) } else { None }
}

fn side(k: Kind) -> Option<Foot> {
    match k {
        Kind::W(W::R | W::RF) => Some(Foot::Right),
        Kind::W(W::L | W::LF) => Some(Foot::Left),
        _ => None,
    }
}

/// "Each way", "to both sides", "in either direction", with the ending that both have: "each way with a touch".
fn each_way(text: &str, t: &[Token], i: usize, clause: usize) -> Option<usize> {
    let word = |k: usize| t.get(k).filter(|_| k < clause).map(|t| t.span.of(text));
    let mut k = i;
    k += usize::from(matches!(t[k].kind, Kind::W(W::To | W::In | W::On)));
    if !is_among(word(k)?, among!["each", "both", "either"]) {
        return None;
    }
    if !is_among(word(k + 1)?.trim_end_matches(['s', 'S']), among!["side", "way", "direction"]) {
        return None;
    }
    k += 2;
    // A comma may stand before the ending.
    let from = k + usize::from(t.get(k).is_some_and(|t| t.sign(',')));
    let ending = t.get(from).is_some_and(|t| t.is(W::With)) && {
        let at = from + 1 + usize::from(t.get(from + 1).is_some_and(|t| t.is(W::The)));
        let closed = t.get(at + 1).is_none_or(|t| matches!(t.kind, Kind::Sign(_)));
        closed
            && matches!(
                t.get(at).map(|t| t.kind),
                Some(Kind::W(W::Touch | W::Brush | W::Scuff | W::Clap | W::Hitch))
            )
    };
    let at = from + 1 + usize::from(t.get(from + 1).is_some_and(|t| t.is(W::The)));
    Some(if ending { at + 1 } else { k })
}

/// A share of a turn.
fn part_of_turn(k: Kind) -> bool {
    matches!(k, Kind::Fraction(_) | Kind::W(W::Quarter | W::Half | W::Eighth))
}

/// An order of feet: `R, L, R`, `R-L-R`, `RLR`, `right left right`. A single foot is no order.
pub(super) fn feet_list(text: &str, t: &[Token], i: usize, limit: usize) -> Option<(Vec<Foot>, usize)> {
    if t[i].kind == Kind::Feet {
        let feet = t[i]
            .span
            .of(text)
            .chars()
            .map(|c| if c.eq_ignore_ascii_case(&'r') { Foot::Right } else { Foot::Left })
            .collect();
        return Some((feet, i + 1));
    }
    let mut feet = Vec::new();
    let mut j = i;
    let mut end = i;
    while j < limit {
        if let Some(foot) = side(t[j].kind) {
            // "right foot, left foot, right foot"
            let noun = t.get(j + 1).is_some_and(|t| t.is(W::Foot));
            let closed = j + 2 >= limit
                || t.get(j + 2).is_some_and(|t| matches!(t.kind, Kind::Sign(',') | Kind::W(W::And)));
            if noun && closed && j + 1 < limit {
                feet.push(foot);
                end = j + 2;
                j += 2;
                continue;
            }
            // "R heel", "L forward" begin a step.
            let next = t.get(j + 1).filter(|_| j + 1 < limit).map(|t| t.kind);
            // In a table the feet have a column of their own.
            let column = t.get(j + 1).is_some_and(|t| t.gap == 2) && j > i;
            let alone = match next {
                None => true,
                Some(_) if column => true,
                Some(Kind::Sign(_)) => true,
                // "walk R L R kick L": the kick has a foot of its own.
                Some(Kind::W(w))
                    if acts(w)
                        && !feet.is_empty()
                        && t.get(j + 2)
                            .filter(|_| j + 2 < limit)
                            .is_some_and(|t| side(t.kind).is_some_and(|f| f != foot)) =>
                {
                    true
                }
                Some(Kind::W(w)) => {
                    matches!(w, W::R | W::L | W::RF | W::LF | W::And | W::Then)
                        || !(acts(w)
                            || matches!(
                                w,
                                W::Forward
                                    | W::Back
                                    | W::Side
                                    | W::Behind
                                    | W::Across
                                    | W::Beside
                                    | W::Heel
                                    | W::Toe
                                    | W::Foot
                                    | W::Diagonal
                                    | W::Home
                                    | W::Out
                                    | W::In
                                    | W::Place
                                    | W::Knee
                                    | W::Shoulder
                            ))
                }
                Some(Kind::Clock(_)) => true,
                Some(_) => false,
            };
            if !alone {
                break;
            }
            feet.push(foot);
            end = j + 1;
            j += 1;
        } else if matches!(t[j].kind, Kind::Sign(',' | '-' | '/') | Kind::W(W::And | W::Then)) && j > i
            || t[j].is(W::To)
                && j > i
                && matches!(t[j - 1].kind, Kind::Sign(',' | '-') | Kind::W(W::And | W::Then))
            || t[j].is(W::The) && j > i && t[j - 1].is(W::To)
        {
            // "to the R, to the L, to the R"
            j += 1;
        } else {
            break;
        }
    }
    (feet.len() >= 2).then_some((feet, end))
}

/// An order of feet before a gesture without a foot of its own, whose last foot may walk as well: "walk R L R kick".
pub(super) fn feet_then_gesture(
    text: &str,
    t: &[Token],
    i: usize,
    limit: usize,
) -> Option<(Vec<Foot>, usize)> {
    let glued = |k: usize| k > 0 && side(t[k - 1].kind).is_some();
    let (mut feet, to) = match feet_list(text, t, i, limit) {
        Some(list) => list,
        None if glued(i) => (vec![side(t.get(i)?.kind)?], i + 1),
        None => return None,
    };
    let gesture = t.get(to + 1).filter(|_| to + 1 < limit).is_some_and(|t| {
        matches!(
            t.kind,
            Kind::W(W::Kick | W::Touch | W::Brush | W::Scuff | W::Hitch | W::Flick | W::Hook | W::Clap)
        )
    });
    let ends =
        to + 2 >= limit || t.get(to + 2).is_none_or(|t| matches!(t.kind, Kind::Sign(_) | Kind::W(W::And)));
    if !(glued(to) && gesture && ends) {
        return None;
    }
    feet.push(side(t.get(to)?.kind)?);
    Some((feet, to + 1))
}

/// Whether a clause only says how what is repeated differs: "but mirrored", "with left", "starting left".
fn only_differs(text: &str, c: &[Token]) -> bool {
    let mut said = false;
    let small = |t: &Token| {
        matches!(
            t.kind,
            Kind::Sign(_) | Kind::W(W::With | W::The | W::On | W::To | W::Foot | W::Feet | W::Side | W::Make)
        ) || t.span.is_among(text, among!["but", "only", "just", "starting", "leading"])
    };
    c.iter().all(|t| {
        let says = matches!(t.kind, Kind::W(W::Other | W::Footwork | W::Same)) || side(t.kind).is_some();
        said |= says;
        says || small(t)
    }) && said
}

/// "Then the L one", "now the left one", "and the other one as well": what was danced, led by the foot that is named.
fn other_one(text: &str, c: &[Token]) -> bool {
    let mut named = false;
    let small = c.iter().all(|t| {
        named |= side(t.kind).is_some() || t.is(W::Other);
        side(t.kind).is_some()
            || matches!(
                t.kind,
                Kind::Sign(_)
                    | Kind::W(
                        W::Then
                            | W::And
                            | W::The
                            | W::Other
                            | W::With
                            | W::Make
                            | W::On
                            | W::To
                            | W::For
                            | W::Foot
                    )
            )
            || t.span.is_among(text, among!["now", "one", "ones", "as", "well", "too", "also"])
    });
    let said = |words: &Among| c.iter().any(|t| t.span.is_among(text, words));
    named && small && said(among!["one", "ones", "too", "well", "also"])
}

/// Whether a foot is named in the words before a token, back to the sign before them; "beside L" names none.
fn names_foot(t: &[Token], i: usize) -> bool {
    let words = t[..i].iter().rposition(|t| matches!(t.kind, Kind::Sign(_))).map_or(0, |k| k + 1)..i;
    let places = |k: usize| {
        k > words.start
            && matches!(t[k - 1].kind, Kind::W(W::Beside | W::Across | W::Behind | W::To | W::The))
    };
    words.clone().any(|k| side(t[k].kind).is_some() && !places(k))
}

/// A repeat that begins at token `i`: what it says, where it ends and what it costs.
pub(super) fn repeat_at(
    text: &str,
    t: &[Token],
    i: usize,
    clause: usize,
    limit: usize,
) -> Option<(Repeat, usize, u32)> {
    let mut r = Repeat {
        times: None,
        mirrored: false,
        same: false,
        lead: None,
        range: None,
        sections: None,
        counts: None,
        suffix: false,
        foot: false,
        otherwise: false,
        until: None,
    };
    let token = &t[i];
    // "x2", "twice", "2 times" right behind the words.
    let (times, len) = match token.kind {
        Kind::Times(n) => (Some(n), 1),
        Kind::W(W::Twice) => (Some(2), 1),
        Kind::W(W::Thrice) => (Some(3), 1),
        Kind::Number(n) if t.get(i + 1).is_some_and(|t| t.is(W::Times)) => (Some(n), 2),
        Kind::W(w)
            if number_word(w).is_some()
                && t.get(i + 1).is_some_and(|t| t.is(W::Of))
                && t.get(i + 2).is_some_and(|t| t.is(W::It) || t.is(W::The)) =>
        {
            (number_word(w), 3)
        }
        Kind::W(w) if number_word(w).is_some() && t.get(i + 1).is_some_and(|t| t.is(W::Times)) => {
            (number_word(w), 2)
        }
        _ => (None, 0),
    };
    // "kick ball change, and another one"
    if token.kind == Kind::Unknown && token.span.of(text).eq_ignore_ascii_case("another") {
        let one = t.get(i + 1).is_some_and(|t| t.span.of(text).eq_ignore_ascii_case("one"));
        if i + 1 + usize::from(one) >= clause {
            r.times = Some(2);
            r.suffix = true;
            return Some((r, i + 1 + usize::from(one), 0));
        }
    }
    // "a grapevine each way"
    if let Some(end) = each_way(text, t, i, clause) {
        r.times = Some(2);
        r.mirrored = true;
        r.suffix = true;
        return Some((r, end, 0));
    }
    if let Some(n) = times
        && (1..=32).contains(&n)
    {
        r.times = Some(n);
        r.suffix = true;
        r.foot = names_foot(t, i);
        // "2x R kick ball change": at the beginning of a clause it is said of what follows.
        let begins = i == 0 || matches!(t[i - 1].kind, Kind::Sign(c) if c != ')');
        let follows = i + len < clause && matches!(token.kind, Kind::Times(_));
        return Some((r, i + len, if begins && follows { AHEAD } else { 0 }));
    }
    let opens =
        i == 0 || matches!(t[i - 1].kind, Kind::Sign(_)) || t[i - 1].is(W::And) || t[i - 1].is(W::Then);
    if !opens {
        return None;
    }
    // A whole clause about doing it again.
    let mut end = clause.max(i + 1).min(limit);
    // "repeat 1-8, starting left" and "again, on the other foot" go on over a comma.
    if end < limit && matches!(t[end].kind, Kind::Sign(',')) {
        let next = clause_end(t, end + 1, limit);
        let rest = &t[end + 1..next];
        if next > end + 1
            && (rest.iter().any(|t| t.is(W::Other) || t.is(W::Footwork)) || only_differs(text, rest))
        {
            end = next;
        }
    }
    // "Repeat the first eight with a quarter turn left": the turn is told of what is danced again.
    let turned = |k: &usize| t[*k].is(W::With) && t[*k + 1..end].iter().take(3).any(|t| part_of_turn(t.kind));
    if let Some(with) = (i + 1..end).find(turned) {
        end = with;
    }
    let c = &t[i..end];
    // Most clauses have no word that could say so.
    let word = |t: &Token| {
        matches!(
            t.kind,
            Kind::Times(_) | Kind::W(W::Repeat | W::Same | W::Again | W::More | W::Twice | W::Other)
        )
    };
    let one = other_one(text, c);
    let all = all_again(text, c);
    if !c.iter().any(word) && !likens(text, c) && !one && !all {
        return None;
    }
    let mut repeats = one || all;
    let mut verbs = 0;
    // "Tell them twice" is chat.
    let chat = |k: usize| {
        let known =
            ["all", "lot", "everything", "thing", "things", "another", "these", "those", "there", "each"];
        c[..k].iter().any(|t| {
            t.kind == Kind::Unknown && !known.iter().any(|w| t.span.of(text).eq_ignore_ascii_case(w))
        })
    };
    // "Do these struts once more": the name only says what.
    let named_before = matches!(c[0].kind, Kind::W(W::Make | W::Repeat))
        && c.iter().skip(1).take(2).any(|t| {
            ["the", "these", "those", "both"].iter().any(|w| t.span.of(text).eq_ignore_ascii_case(w))
        });
    let mut k = 0;
    while k < c.len() {
        // "Like line one", "as the first eight"
        if !matches!(c[k].kind, Kind::W(W::Section | W::Set))
            && let Some(n) = names_section(text, c, k)
        {
            repeats |= k > 0 && likens(text, c);
            r.sections = Some((n, n));
            k += 2;
            continue;
        }
        match c[k].kind {
            Kind::W(W::Repeat | W::Same) => repeats = true,
            // "Like 1-4, but mirrored", "as 9-12"
            _ if k == 0 && likens(text, c) => repeats = true,
            Kind::W(W::Again) => {
                // "Start again from the beginning" ends what is danced.
                let top = c.iter().enumerate().any(|(at, t)| {
                    let word = lower(t.span.of(text));
                    // "Starting with the left" tells how.
                    let how = c.get(at + 1).is_some_and(|t| !t.is(W::Again) && !t.is(W::From));
                    (word.starts_with("start") || word.starts_with("begin"))
                        && !(how && word.ends_with("ing"))
                });
                if top {
                    k += 1;
                    continue;
                }
                // "All that again", "the whole lot again"
                repeats |= all_again(text, c)
                    || r.sections.is_some()
                    || k == 0
                    || c.iter().any(|t| t.is(W::Count) || t.is(W::Section) || t.is(W::Set) || t.is(W::Make));
            }
            // "Once more", "one more"
            Kind::W(W::More) => {
                let one = |t: &Token| t.is(W::Once) || t.span.of(text).eq_ignore_ascii_case("one");
                repeats |= c.get(k.wrapping_sub(1)).is_some_and(one);
            }
            // "Do that a second time", "one more time"
            Kind::W(W::Times) if k > 0 && matches!(c[k - 1].kind, Kind::W(W::Second | W::More)) => {
                repeats |= !chat(k);
            }
            Kind::W(W::Twice) => {
                repeats |= !chat(k);
                r.times = Some(2);
            }
            Kind::Times(n) => {
                repeats = true;
                r.times = Some(n);
            }
            // "turning the other quarter" is about a turn.
            Kind::W(W::Other) if c.get(k + 1).is_some_and(|t| part_of_turn(t.kind)) => {}
            Kind::W(W::Other) => {
                r.mirrored = true;
                repeats |= c.iter().any(|t| t.is(W::Foot) || t.is(W::Side) || t.is(W::Footwork))
                    || begins_with(c[k].span.of(text), "mirror");
            }
            Kind::Number(n) => {
                let a = i32::try_from(n).unwrap_or(0);
                // "5&6", "counts 5 and 6"; not "section 1 and 2".
                let both = |t: &Token| t.is(W::And) && (t.gap == 0 || k > 0 && c[k - 1].is(W::Count));
                let joined = c
                    .get(k + 1)
                    .is_some_and(|t| matches!(t.kind, Kind::Sign('-' | '~') | Kind::W(W::To)) || both(t));
                if joined && let Some(Kind::Number(b)) = c.get(k + 2).map(|t| t.kind) {
                    if n > MOST || b > MOST {
                        // Nothing has so many counts: it is about something else.
                        return None;
                    }
                    r.range = Some((a, i32::try_from(b).unwrap_or(0)));
                    k += 2;
                } else if k > 0
                    && (c[k].gap == 0 && (c[k - 1].span.range().len() == 1 || c[k - 1].sign('#'))
                        || c[k - 1].is(W::Section)
                        || c[k - 1].is(W::Set)
                        || c[k - 1].sign('#')
                        || c[k - 1].span.is_among(text, among!["s", "number", "nr", "no"]))
                {
                    r.sections = Some((n, n));
                } else if k > 0
                    && k <= 2
                    && c[k - 1].span.is_among(text, among!["as", "like"])
                    && c.get(k + 1).is_none_or(|t| t.sign(','))
                {
                    // "Same as 1, other foot"
                    r.sections = Some((n, n));
                } else if matches!(n, 6 | 8) && k > 0 && nth(&c[k - 1]).is_some() {
                    // "All of 2nd 8", "the first 8 again"
                    r.sections = nth(&c[k - 1]).map(|n| (n, n));
                } else if n <= MOST && c.get(k + 1).is_some_and(|t| t.is(W::Count)) {
                    r.counts = Some(n);
                } else if n == 8 {
                    r.counts = Some(8);
                }
            }
            Kind::W(w) if k > 0 && (c[k - 1].is(W::Section) || c[k - 1].is(W::Set)) => {
                let one = (c[k].span.of(text).eq_ignore_ascii_case("one")).then_some(1);
                r.sections = one.or_else(|| number_word(w)).map(|n| (n, n)).or(r.sections);
            }
            Kind::W(w) if number_word(w).is_some() && c.get(k + 1).is_some_and(|t| t.is(W::Count)) => {
                r.counts = number_word(w);
            }
            // "the same as part three"
            Kind::W(w)
                if number_word(w).is_some() && k > 0 && (c[k - 1].is(W::Section) || c[k - 1].is(W::Set)) =>
            {
                r.sections = number_word(w).map(|n| (n, n));
            }
            Kind::W(W::The)
                if c[k].span.of(text).eq_ignore_ascii_case("one")
                    && k > 0
                    && (c[k - 1].is(W::Section) || c[k - 1].is(W::Set)) =>
            {
                r.sections = Some((1, 1));
            }
            // "Same as A", "like E"
            _ if k > 0 && lettered(text, c, k).is_some() => r.sections = lettered(text, c, k).map(|n| (n, n)),
            Kind::W(W::R | W::L | W::RF | W::LF) => r.lead = side(c[k].kind),
            Kind::Name(_) if named_before => {}
            Kind::Name(_) => verbs += 1,
            Kind::W(w) if acts(w) && !matches!(w, W::Step | W::Turn) => verbs += 1,
            _ => {}
        }
        k += 1;
    }
    if !repeats || verbs > 0 {
        return None;
    }
    r.same = !r.mirrored
        && c.iter().any(|t| t.is(W::Same))
        && c.iter().any(|t| t.is(W::Foot) || t.is(W::Feet))
        && r.lead.is_none();
    Some((r, end, 1))
}
