//! Clauses: where one ends, what its words are, and what it costs to pass over them.

use super::costs;
use crate::floor::Heading;
use crate::sheet::classes::{all_again, ordinal};
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, acts};
use crate::text::{Among, among, begins_with, is_among};

/// The end of the clause that token `i` stands in.
pub(super) fn clause_end(t: &[Token], i: usize, limit: usize) -> usize {
    let mut j = i;
    while j < limit {
        match t[j].kind {
            Kind::Sign(
                ',' | ';' | ':' | '(' | ')' | '[' | ']' | '!' | '\n' | '?' | '{' | '}' | '=' | '<' | '>'
                | '~' | '"' | '*',
            ) => break,
            Kind::Sign('.') if !abbreviation(t, j, limit) => break,
            Kind::Sign('-') if t[j].gap > 0 || t.get(j + 1).is_none_or(|n| n.gap > 0) => break,
            Kind::Sign('-') if j > i && next_foot(t, j) => break,
            Kind::Sign('/') if t[j].gap > 0 => break,
            _ if j > i && t[j].gap == 2 && (foot_column(t, j, limit) || next_cell(t, i, j)) => break,
            _ => j += 1,
        }
    }
    j
}

/// "RF side-LF together-RF side": a dash without blanks before the foot that goes on.
fn next_foot(t: &[Token], dash: usize) -> bool {
    let word = |k: usize| matches!(t.get(k).map(|t| t.kind), Some(Kind::W(_) | Kind::Name(_)));
    let foot = |k: usize, sure: bool| match t.get(k).map(|t| t.kind) {
        Some(Kind::W(W::RF | W::LF)) => true,
        Some(Kind::W(W::R | W::L)) => !sure,
        _ => false,
    };
    if !word(dash - 1) || foot_word(t[dash - 1].kind) {
        return false;
    }
    // "-RF side", "-R side", "-1/4 L LF forward"
    let turned = matches!(t.get(dash + 1).map(|t| t.kind), Some(Kind::Fraction(_)))
        && foot(dash + 2, false)
        && foot(dash + 3, true);
    let goes_on = foot(dash + 1, false) && word(dash + 2) && !foot(dash + 2, false) && t[dash + 2].gap == 1;
    foot(dash + 1, true) && word(dash + 2) && !foot(dash + 2, false) || goes_on || turned
}

/// Whether a column of a table holds nothing but feet: "R L", "L -".
fn foot_column(t: &[Token], from: usize, limit: usize) -> bool {
    let mut feet = 0;
    for (k, token) in t[from..limit].iter().enumerate() {
        match token.kind {
            _ if k > 0 && token.gap == 2 => break,
            kind if foot_word(kind) => feet += 1,
            Kind::Sign('-' | ',' | '/') | Kind::W(W::And) => {}
            _ => return false,
        }
    }
    feet > 0
}

/// "L kick | L back", "touch L | L side": a wide gap before the foot of another step, behind a whole one.
fn next_cell(t: &[Token], from: usize, at: usize) -> bool {
    let step = |k: Kind| matches!(k, Kind::W(w) if acts(w)) || goes(k) && k != Kind::W(W::To);
    foot_word(t[at].kind)
        && t.get(at + 1).is_some_and(|n| n.gap == 1 && step(n.kind))
        && t[from..at].iter().any(|t| foot_word(t.kind))
        && (step(t[at - 1].kind) || foot_word(t[at - 1].kind) && at > from + 1 && step(t[at - 2].kind))
}

/// Whether a short word stands as it is, so that a full stop behind it ends a sentence: "next.", "kick."
fn whole_word(t: &Token) -> bool {
    let Kind::W(w) = t.kind else { return false };
    let four = matches!(
        w,
        W::Beside
            | W::Kick
            | W::Turn
            | W::Lock
            | W::Drag
            | W::Rock
            | W::Ball
            | W::Knee
            | W::Half
            | W::Full
            | W::Both
            | W::Feet
            | W::Foot
            | W::Then
            | W::Same
    );
    four && t.span.range().len() == 4
}

fn abbreviation(t: &[Token], j: usize, limit: usize) -> bool {
    j > 0
        && !whole_word(&t[j - 1])
        && t[j].gap == 0
        && t[j - 1].span.range().len() <= 4
        && j + 1 < limit
        && t[j + 1].gap <= 1
        && !matches!(t[j + 1].kind, Kind::Sign(_))
        && matches!(t[j - 1].kind, Kind::W(_))
        // "Rt. fwd", "Lt. side" are cut words, "R." ends a clause.
        && (matches!(t[j - 1].kind, Kind::W(W::R | W::L)) && t[j - 1].span.range().len() == 2
            || !matches!(
            t[j - 1].kind,
            Kind::W(
                W::R | W::L
                    | W::RF
                    | W::LF
                    | W::Hold
                    | W::Side
                    | W::Heel
                    | W::Toe
                    | W::Step
                    | W::Clap
                    | W::Home
                    | W::Walk
                    | W::Back
                    | W::Out
                    | W::In
                    | W::It
                    | W::On
                    | W::Up
                    | W::Down
                    | W::Knee
                    | W::Turn
                    | W::Kick
                    | W::Both
                    | W::Same
            )
        ))
}

pub(super) fn sentence_end(t: &[Token], i: usize, limit: usize) -> usize {
    (i..limit)
        .find(|j| matches!(t[*j].kind, Kind::Sign('.' | '\n' | '!' | '?')) && !abbreviation(t, *j, limit))
        .unwrap_or(limit)
}

pub(super) fn foot_word(k: Kind) -> bool {
    matches!(k, Kind::W(W::R | W::L | W::RF | W::LF | W::Feet | W::Both))
}

/// Words of the way that a step goes.
pub(super) fn goes(k: Kind) -> bool {
    matches!(
        k,
        Kind::W(
            W::Forward
                | W::Back
                | W::Side
                | W::Behind
                | W::Across
                | W::Beside
                | W::Diagonal
                | W::Home
                | W::To
        )
    )
}

/// Words of chat.
const CHAT: &Among = among![
    "i",
    "if",
    "see",
    "can",
    "free",
    "look",
    "will",
    "ready",
    "please",
    "people",
    "nobody",
    "should",
    "looking",
    "because",
    "remember",
    "everybody",
];

/// What it costs to pass over a stretch: much where it says which foot does what, little where it only chats.
pub(super) fn explicitness(text: &str, t: &[Token]) -> u32 {
    // "no touch", "don't kick" says what is not danced.
    if t.first().is_some_and(|t| t.is(W::No)) {
        return costs::SKIP_PLAIN;
    }
    // "both crosses in front", "all points to the side" tell how steps go that are told elsewhere.
    let steps = |t: &Token| matches!(t.kind, Kind::W(w) if acts(w)) && t.span.of(text).ends_with(['s', 'S']);
    if t.first().is_some_and(|t| t.span.is_among(text, among!["both", "all"])) && t.get(1).is_some_and(steps)
    {
        return costs::SKIP_PLAIN;
    }
    // "And all that once more" is danced.
    if all_again(text, t) {
        return costs::SKIP_VAGUE;
    }
    // "so the quarter goes back to the left" tells what came of it.
    let is = |t: &Token, word: &str| {
        t.span.range().len() == word.len() && t.span.of(text).eq_ignore_ascii_case(word)
    };
    if t.first().is_some_and(|t| is(t, "so"))
        && !t.iter().any(|t| matches!(t.kind, Kind::W(w) if acts(w) && w != W::Turn))
    {
        return costs::SKIP_PLAIN;
    }
    // "the right foot is free to walk off again" tells how one stands.
    let free = t.iter().position(|t| is(t, "free"));
    let after = t.first().is_some_and(|t| t.is(W::After));
    if free.is_some_and(|k| after || !t[..k].iter().any(|t| matches!(t.kind, Kind::W(w) if acts(w)))) {
        return costs::SKIP_PLAIN;
    }
    // "Then from the top with the right strut" tells that the dance begins again.
    let top = |t: &Token| is(t, "top") || is(t, "beginning");
    if t.windows(3).any(|w| w[0].is(W::From) && w[1].is(W::The) && top(&w[2])) {
        return costs::SKIP_PLAIN;
    }
    // "Then from the struts" tells where the dance goes on.
    let small =
        |t: &&Token| !matches!(t.kind, Kind::Sign(_) | Kind::W(W::Then | W::And | W::Make | W::Again));
    let foot = t.iter().any(|t| foot_word(t.kind));
    if !foot && t.iter().find(small).is_some_and(|t| t.is(W::From)) {
        return costs::SKIP_PLAIN;
    }
    let (mut remarked, mut verb, mut place, mut foot) = (false, false, false, false);
    let (mut turn, mut size, mut weight) = (false, false, false);
    let (mut words, mut unknown, mut small) = (0, 0, 0);
    for token in t {
        match token.kind {
            Kind::Sign(_) => continue,
            Kind::Name(_) => verb = true,
            Kind::Fraction(_) => size = true,
            Kind::Unknown => unknown += 1,
            Kind::W(w) => {
                verb |= acts(w) && !matches!(w, W::Turn | W::Hold);
                foot |= foot_word(token.kind);
                match w {
                    W::Side
                    | W::Forward
                    | W::Back
                    | W::Behind
                    | W::Across
                    | W::Beside
                    | W::Heel
                    | W::Toe
                    | W::Home
                    | W::Out
                    | W::In
                    | W::Hold => place = true,
                    W::Turn => turn = true,
                    W::Quarter | W::Half | W::Full => size = true,
                    W::Weight | W::WeightOnL | W::WeightOnR => weight = true,
                    W::The | W::It | W::Make | W::While | W::No | W::Keep | W::At | W::For | W::Or => {
                        small += 1;
                    }
                    _ => {}
                }
            }
            _ => {}
        }
        words += 1;
        remarked = remarked || token.span.is_among(text, CHAT);
    }
    let chat = remarked || unknown * 3 >= words || (unknown + small) * 2 >= words;
    // A clock or a turn that is passed over, so that the facings agree, costs as much as a clock that differs.
    let clock = t.iter().any(|t| matches!(t.kind, Kind::Clock(_)));
    let facing = if clock { costs::CLOCK + 8 } else { 0 };
    // "Vine left, touch, vine left": a gesture is danced even where the foot of the next step is then not free.
    let gesture = |t: &Token| {
        matches!(
            t.kind,
            Kind::W(W::Touch | W::Point | W::Kick | W::Dig | W::Hitch | W::Brush | W::Scuff | W::Recover)
        )
    };
    let bare = words == 1 && !remarked && t.iter().any(gesture);
    let cost = match (verb, foot, place) {
        (true, true, _) | (false, true, true) if !chat => costs::SKIP_EXPLICIT,
        (_, true, _) if weight && !chat => costs::SKIP_EXPLICIT,
        (true, true, _) | (false, true, true) => costs::SKIP_CHAT,
        (true, false, _) if bare => costs::SKIP_GESTURE,
        (true, false, _) if !chat => costs::SKIP_VAGUE,
        (false, false, true) if !chat => costs::SKIP_VAGUE - 8,
        (true, false, _) | (false, false, true) => costs::SKIP_VAGUE / 3,
        _ if turn && size && !chat => costs::CLOCK + 8,
        _ if turn && size => costs::SKIP_VAGUE,
        _ if turn => costs::SKIP_VAGUE / 3,
        _ => costs::SKIP_PLAIN,
    };
    cost.max(facing)
}

/// What one token costs to pass over by itself.
pub(super) fn pass_cost(k: Kind) -> u32 {
    match k {
        Kind::Sign(_) => 0,
        Kind::W(w) => match w {
            W::The
            | W::Then
            | W::Of
            | W::It
            | W::Make
            | W::And
            | W::With
            | W::To
            | W::On
            | W::At
            | W::By
            | W::For
            | W::While
            | W::Slightly
            | W::Low
            | W::Or
            | W::Slow
            | W::Quick => 1,
            // A verb that leaves the weight where it is, passed over, would leave a step: the same as another foot.
            W::Touch | W::Point | W::Kick | W::Dig | W::Hitch | W::Brush | W::Scuff => costs::FOOT_BENT,
            _ if acts(w) || w == W::Repeat => 120,
            W::R | W::L | W::RF | W::LF => costs::FOOT_BENT,
            W::Forward | W::Back | W::Side | W::Behind | W::Across | W::Beside | W::Heel | W::Toe => 110,
            _ => 12,
        },
        Kind::Name(_) => 120,
        Kind::Unknown => costs::UNKNOWN,
        Kind::Fraction(_) | Kind::Feet => 60,
        Kind::Number(_) | Kind::Times(_) => 14,
        Kind::Clock(_) => costs::CLOCK + 8,
    }
}

/// "Swing the arms and bend the knees": what hands, arms and shoulders do is no step. Where such words end.
pub(super) fn styling(t: &[Token], i: usize, clause: usize) -> Option<usize> {
    let Kind::W(verb) = t[i].kind else { return None };
    // Claps have their counts; one turns over a shoulder.
    if !acts(verb) && verb != W::Lift || matches!(verb, W::Clap | W::Hold | W::Turn | W::Pivot | W::Shimmy) {
        return None;
    }
    let small = |t: &Token| foot_word(t.kind) || matches!(t.kind, Kind::W(W::The | W::Both) | Kind::Unknown);
    let words = t[i + 1..clause].iter().take(3).take_while(|t| small(t)).count();
    let at = i + 1 + words;
    let body = t.get(at).filter(|_| at < clause)?;
    if !matches!(body.kind, Kind::W(W::Hand | W::Shoulder)) {
        return None;
    }
    // "swing the arms and step left" goes on with a step.
    let next = |k: &usize| {
        matches!(t[*k].kind, Kind::W(W::And | W::While))
            && t[*k + 1..clause].iter().any(|t| foot_word(t.kind))
    };
    Some((at + 1..clause).find(next).unwrap_or(clause))
}

/// "Let the sway run out for two counts": without a foot it goes on with the step before. Where such words end.
pub(super) fn lets(text: &str, t: &[Token], i: usize, clause: usize) -> Option<usize> {
    let opens = i == 0 || matches!(t[i - 1].kind, Kind::Sign(_) | Kind::W(W::And | W::Then));
    let said = &t[i..clause.max(i)];
    let lets = opens && said.len() > 2 && said[0].span.of(text).eq_ignore_ascii_case("let");
    (lets && !said.iter().any(|t| foot_word(t.kind))).then_some(clause)
}

/// How many figures are told right before an order of feet, which lead them one after the other: "Four shuffles: R, L,
/// R, L".
pub(super) fn led_in_turn(text: &str, t: &[Token], i: usize) -> Option<usize> {
    /// Words between the figures and the feet: "forward, in 8".
    const FAR: usize = 8;
    if !matches!(t.get(i.checked_sub(1)?)?.kind, Kind::Sign(_)) {
        return None;
    }
    let from = i.saturating_sub(FAR);
    let name = (from..i).rev().find(|k| matches!(t[*k].kind, Kind::Name(_)))?;
    let plain = !t[name..i].iter().any(|t| foot_word(t.kind) || t.kind == Kind::Feet);
    let number = |k: usize| match t[k].kind {
        Kind::Number(n) | Kind::Times(n) => usize::try_from(n).ok(),
        Kind::W(w) => crate::figures::number_word(w).and_then(|n| usize::try_from(n).ok()),
        _ => None,
    };
    let told = (name.saturating_sub(2)..name).find_map(number)?;
    (plain && super::several::plural(text, &t[name])).then_some(told)
}

/// Whether a sentence dances something once more before a token, with a change: "like line one, but turn ..."
fn changes(text: &str, t: &[Token], i: usize) -> bool {
    let stop = |t: &Token| matches!(t.kind, Kind::Sign('.' | '\n' | ';'));
    let from = t[..i].iter().rposition(stop).map_or(0, |k| k + 1);
    let Some(but) = t[from..i].iter().position(|t| t.span.is_among(text, among!["but", "only", "except"]))
    else {
        return false;
    };
    let before = &t[from..from + but];
    before.iter().any(|t| {
        matches!(t.kind, Kind::W(W::Repeat | W::Same | W::Again))
            || t.span.is_among(text, among!["like", "as"])
    })
}

/// "..., but turn a quarter as the left foot goes forward": when it is done in what is danced once more. Where it ends.
pub(super) fn changed_when(text: &str, t: &[Token], i: usize, clause: usize) -> Option<usize> {
    (t[i].is(W::While) && changes(text, t, i)).then_some(clause)
}

/// "..., but finish with a touch": the last step of what is danced once more takes no weight. Where it ends.
pub(super) fn changed_end(text: &str, t: &[Token], i: usize, clause: usize) -> Option<usize> {
    let with = t.get(i + 1).filter(|_| i + 1 < clause)?.is(W::With);
    let touch = t[i + 1..clause].iter().take(4).any(|t| t.is(W::Touch));
    (t[i].is(W::End) && with && touch && changes(text, t, i)).then_some(clause)
}

/// "Walk forward, beginning with the right foot", "starting right", "right foot first": which foot leads the steps that
/// were told. Where it ends.
pub(super) fn leads_with(text: &str, t: &[Token], i: usize, clause: usize) -> Option<usize> {
    let behind = i > 1 && matches!(t[i - 1].kind, Kind::Sign(',' | '(') | Kind::W(_));
    let words = t.get(i..clause).filter(|w| behind && (2..=5).contains(&w.len()))?;
    let word = words[0].span.of(text);
    let begins = || ["start", "begin", "lead", "commenc"].iter().any(|w| begins_with(word, w));
    let from = words[0].is(W::From) && words[words.len() - 1].is(W::Foot);
    let led = words[0].is(W::Make) && begins() || from;
    let first = foot_word(words[0].kind) && words[words.len() - 1].is(W::First);
    let feet = words.iter().filter(|t| foot_word(t.kind)).count();
    let small = |t: &Token| {
        foot_word(t.kind)
            || matches!(
                t.kind,
                Kind::W(W::With | W::On | W::From | W::The | W::Foot | W::First | W::Cross | W::Across)
            )
    };
    ((led || first) && feet == 1 && words[1..].iter().all(small)).then_some(clause)
}

/// "Ready for the grapevine", "waiting to walk off again": what comes afterwards is not danced now. Where it ends.
pub(super) fn awaits(text: &str, t: &[Token], i: usize, clause: usize) -> Option<usize> {
    let waits = t[i].span.is_among(text, among!["ready", "waiting", "prepared", "poised", "set"]);
    let next = t.get(i + 1).filter(|_| i + 1 < clause)?;
    (waits && matches!(next.kind, Kind::W(W::For | W::To))).then(|| {
        let joins = |k: &usize| t[*k].is(W::And) && t[*k + 1..clause].iter().any(|t| foot_word(t.kind));
        (i + 1..clause).find(joins).unwrap_or(clause)
    })
}

/// "Sway to the left, stepping the left foot to the side" tells how the same foot did the step before. Where it ends.
pub(super) fn restated(text: &str, t: &[Token], i: usize, clause: usize) -> Option<usize> {
    let comma = i.checked_sub(1).filter(|k| t[*k].sign(','))?;
    let ing = t[i].span.of(text).ends_with("ing");
    if !(ing && matches!(t[i].kind, Kind::W(W::Step | W::Take | W::Make))) {
        return None;
    }
    let from = t[..comma].iter().rposition(|t| matches!(t.kind, Kind::Sign(_))).map_or(0, |k| k + 1);
    let before = &t[from..comma];
    let steps = |t: &Token| {
        matches!(
            t.kind,
            Kind::W(W::Sway | W::Walk | W::Rock | W::Lunge | W::Press | W::Skate | W::Stomp | W::Run)
        )
    };
    let side = |t: &&Token| foot_word(t.kind) && !matches!(t.kind, Kind::W(W::Both | W::Feet));
    let (was, is) = (before.iter().rev().find(side)?, t[i..clause].iter().find(side)?);
    let left = |t: &Token| matches!(t.kind, Kind::W(W::L | W::LF));
    (before.iter().any(steps) && left(was) == left(is)).then_some(clause)
}

/// "A coaster step takes us back, together and forward" tells what the figure is that was named. Where it ends.
pub(super) fn explains(text: &str, t: &[Token], i: usize, limit: usize) -> Option<usize> {
    let named = i.checked_sub(1).map(|k| t[k].kind);
    let named = matches!(named, Some(Kind::Name(_))) || i > 1 && matches!(t[i - 2].kind, Kind::Name(_));
    let verb = matches!(t[i].kind, Kind::W(W::Take | W::Make));
    if !(named && verb) {
        return None;
    }
    let whom = t.get(i + 1).filter(|_| i + 1 < limit)?.span.of(text);
    let whom = ["us", "you", "me", "them", "everybody"].iter().any(|w| whom.eq_ignore_ascii_case(w));
    whom.then(|| sentence_end(t, i, limit))
}

/// "Turn to face the back wall", "turning round to face 9 o'clock": where the dancer looks then, and where it ends.
pub(super) fn turn_to_face(text: &str, t: &[Token], i: usize, limit: usize) -> Option<(Heading, usize)> {
    let is = |k: usize, w: W| k < limit && t.get(k).is_some_and(|t| t.is(w));
    if !is(i, W::Turn) {
        return None;
    }
    let mut k = i + 1 + usize::from(is(i + 1, W::Around));
    k += usize::from(is(k, W::To));
    if !is(k, W::Face) {
        return None;
    }
    k += 1 + usize::from(is(k + 1, W::The));
    let heading = match t.get(k).filter(|_| k < limit)?.kind {
        Kind::Clock(h) => return Some((h, k + 1 + usize::from(is(k + 1, W::OClock)))),
        Kind::Number(n @ 1..=12) if is(k + 1, W::OClock) => Heading::new(i32::try_from(n * 4).ok()?),
        Kind::W(W::Back) if is(k + 1, W::Wall) => Heading::new(24),
        Kind::W(W::Front | W::Home) if is(k + 1, W::Wall) => Heading::FRONT,
        _ if t[k].span.of(text).eq_ignore_ascii_case("original") && is(k + 1, W::Wall) => Heading::FRONT,
        _ => return None,
    };
    Some((heading, k + 2))
}

/// "Begin again at 6 o'clock with the big step", "start over": the dance goes on from its beginning. Where it ends.
pub(super) fn starts_again(text: &str, t: &[Token], i: usize, limit: usize) -> Option<usize> {
    let word = |k: usize| t.get(k).filter(|_| k < limit).map(|t| t.span.of(text));
    if !word(i).is_some_and(|w| begins_with(w, "start") || begins_with(w, "begin")) {
        return None;
    }
    let near = t.get(i + 1..limit.min(i + 4)).unwrap_or(&[]);
    let again = (i + 1..i + 4).filter_map(word).any(|w| is_among(w, among!["again", "over", "anew"]));
    (again && !near.iter().any(|t| matches!(t.kind, Kind::Sign(_)))).then(|| sentence_end(t, i, limit))
}

/// "On the half beat", "on the third step" say when, where the counts or the order say it, too.
pub(super) fn half_beat(t: &[Token], i: usize, limit: usize) -> Option<usize> {
    let is = |k: usize, w: W| k < limit && t.get(k).is_some_and(|t| t.is(w));
    let the = i + 1 + usize::from(is(i + 1, W::The));
    let half = is(the, W::Half) && is(the + 1, W::Count);
    let ordinal = the > i + 1
        && t.get(the).is_some_and(|t| matches!(t.kind, Kind::W(w) if w == W::Last || ordinal(w).is_some()))
        && (is(the + 1, W::Step) || is(the + 1, W::Count));
    (is(i, W::On) && (half || ordinal)).then_some(the + 2)
}

/// "Turning shuffle (R L R, ends going back)": how one stands behind a step that was told. Where it ends.
pub(super) fn ends_so(t: &[Token], i: usize, clause: usize) -> Option<usize> {
    let behind = i > 0 && matches!(t[i - 1].kind, Kind::Sign(',' | '(' | ';'));
    let words = &t[i + 1..clause.max(i + 1)];
    let so = words.first().is_some_and(|t| matches!(t.kind, Kind::W(W::Make | W::Face)));
    (behind && t[i].is(W::End) && so && !words.iter().any(|t| foot_word(t.kind))).then_some(clause)
}

/// "Rolling turn in 3 steps", "four shuffles, in 8": how many steps or counts that has which was named. Where it ends.
pub(super) fn in_steps(t: &[Token], i: usize, limit: usize) -> Option<usize> {
    let is = |k: usize, w: W| k < limit && t.get(k).is_some_and(|t| t.is(w));
    let number = t.get(i + 1).is_some_and(|t| match t.kind {
        Kind::Number(n) => n <= 8,
        Kind::W(w) => crate::figures::number_word(w).is_some(),
        _ => false,
    });
    // "Walk a full circle in four steps" walks them.
    let clause = t[..i].iter().rev().take_while(|t| !matches!(t.kind, Kind::Sign(_)));
    let named =
        clause.clone().count() > 0 && !clause.clone().any(|t| matches!(t.kind, Kind::W(W::Walk | W::Run)));
    if named && is(i, W::In) && number && is(i + 2, W::Step) {
        return Some(i + 3);
    }
    let ends =
        t.get(i + 2).filter(|_| i + 2 < limit).is_none_or(|t| matches!(t.kind, Kind::Sign('.' | '\n')));
    let apart = i > 1 && t[i - 1].sign(',') && !matches!(t[i - 2].kind, Kind::Sign(_));
    (apart && is(i, W::In) && number && ends).then_some(i + 2)
}

/// "Cross shuffle, right over left": which foot leads the figure that was named just before.
pub(super) fn leads_over(t: &[Token], i: usize, clause: usize) -> Option<usize> {
    let behind = i >= 2 && t[i - 1].sign(',') && matches!(t[i - 2].kind, Kind::Name(_));
    let whole = clause == i + 3 && foot_word(t[i].kind) && foot_word(t[i + 2].kind);
    (behind && whole && matches!(t[i + 1].kind, Kind::W(W::Across | W::Behind))).then_some(clause)
}
