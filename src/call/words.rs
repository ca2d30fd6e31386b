//! The words for figures, steps, turns, walls and counts.

use crate::dance::{Action, FigureUse, Foot, Move, Place, Who};
use crate::figures::{Figure, lexicon};
use crate::floor::{Heading, Turn};
use crate::letters::Letters as _;

/// `quarter right`, `half left`, `full turn right`; nothing for no turn.
pub(super) fn turn(turn: Turn) -> String {
    let side = if turn.0 > 0 { "right" } else { "left" };
    let size = match turn.0.abs() {
        0 => return String::new(),
        6 => "eighth".to_owned(),
        12 => "quarter".to_owned(),
        16 => "third".to_owned(),
        18 => "three-eighths".to_owned(),
        24 => "half".to_owned(),
        36 => "three-quarter".to_owned(),
        48 => "full turn".to_owned(),
        60 => "turn and a quarter".to_owned(),
        72 => "turn and a half".to_owned(),
        96 => "two turns".to_owned(),
        _ => turn.to_string().trim_end_matches([' ', 'R', 'L']).to_owned(),
    };
    format!("{size} {side}")
}

/// How a wall is called: the front and the back by name, the sides by the clock.
pub(super) fn wall(facing: Heading) -> String {
    match facing.units() {
        0 => "front wall".to_owned(),
        24 => "back wall".to_owned(),
        12 => "three o'clock".to_owned(),
        36 => "nine o'clock".to_owned(),
        6 | 18 | 30 | 42 => "corner".to_owned(),
        _ => facing.to_string(),
    }
}

/// A small number in letters.
pub(super) fn number(n: u32) -> String {
    const WORDS: [&str; 17] = [
        "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
        "twelve", "thirteen", "fourteen", "fifteen", "sixteen",
    ];
    let word = usize::try_from(n).ok().and_then(|n| WORDS.get(n));
    word.map_or_else(|| n.to_string(), |word| (*word).to_owned())
}

/// The figure of the lexicon that a use names.
pub(super) fn known(figure: &FigureUse) -> Option<&'static Figure> {
    lexicon().figures.iter().find(|f| f.name == figure.name)
}

/// The words of a name that say its turn; the turn as danced is said instead.
fn says_turn(word: &str) -> bool {
    matches!(
        word,
        "turn" | "turns" | "turning" | "quarter" | "half" | "1/4" | "1/2" | "3/4" | "1/8" | "3/8" | "1"
    )
}

/// A name without its turn and without a remark about which way round it goes.
fn bare(name: &str, turned: bool) -> String {
    let name = name.small().replace(" & ", " and ");
    // All of a waltz is waltz.
    let name = name.strip_prefix("waltz ").unwrap_or(&name);
    let mut pieces: Vec<String> = Vec::new();
    // A tail that only tells one form from another in the lexicon is not called.
    let mere = |p: &&str| {
        matches!(*p, "side" | "forward" | "back" | "together" | "hold" | "step first") || p.contains(" lead")
    };
    let two = name.matches(", ").count() == 1;
    for (_, piece) in name.split(", ").enumerate().filter(|(i, p)| *i == 0 || !(two && mere(p))) {
        let words = piece.split_whitespace().filter(|w| !(turned && says_turn(w)));
        let words: Vec<&str> = words.collect();
        if !words.is_empty() {
            pieces.push(words.join(" "));
        }
    }
    pieces.join(", ")
}

/// The first part of a name: "grapevine" of "grapevine with touch", "weave" of "weave of six".
fn first(name: &str) -> &str {
    [", ", " with ", " of ", " in place", " three"]
        .iter()
        .fold(name, |name, cut| name.split(cut).next().unwrap_or(name))
}

/// The shortest other name that lies inside this one: "vine" in "grapevine", "coaster" in "coaster step".
fn shortest<'a>(figure: Option<&'a Figure>, name: &'a str) -> &'a str {
    let also = figure.into_iter().flat_map(|f| f.also.iter().copied());
    let plain = |n: &&str| n.chars().all(|c| c.is_ascii_lowercase() || c == ' ' || c == '-');
    let inside = also.filter(plain).filter(|n| name.contains(n) && n.len() > 2);
    // A shorter name of the same figure must not leave out a word that tells it from another one.
    let whole = inside.filter(|n| {
        let rest = name.replace(n, "");
        matches!(rest.trim(), "" | "step" | "grape" | "1/4" | "1/2")
    });
    whole.min_by_key(|n| n.len()).unwrap_or(name)
}

/// What to call a figure, in full first, then shorter; and which of these must be said even where that costs
/// the words of a step before it.
pub(super) fn figure(used: &FigureUse, first_move: Option<&Move>) -> (Vec<String>, usize) {
    let known = known(used);
    let turned = used.turn != Turn::NONE;
    let full = bare(&used.name, turned);
    let full = if full.is_empty() { used.name.small() } else { full };
    let short = shortest(known, first(&full)).to_owned();
    let sideways = first_move.is_some_and(|m| m.place == Place::Side || m.place == Place::Out);
    // Where nothing else fits, the first step says what it is.
    let opening = first_move.map(step);
    let sided = |name: &str| match used.lead {
        // A name with a side or a way of its own, or of two actions in a row, is called as it is.
        _ if [",", "right", "left", "walk", " forward", " back"].iter().any(|w| name.contains(w)) => {
            name.to_owned()
        }
        Some(foot) if sideways => format!("{name} {}", foot.word()),
        Some(foot) => format!("{} {name}", foot.word()),
        None => name.to_owned(),
    };
    let long = full.len() > 24 || full.contains(" with ") || full.contains(" of ");
    let mut forms = Vec::new();
    let least = if turned {
        let brief = if short.contains("pivot") { "pivot" } else { short.as_str() };
        let turn = turn(used.turn);
        if !long && !full.contains(", ") {
            forms.push(format!("{full}, {turn}"));
        }
        forms.push(format!("{brief}, {turn}"));
        forms.push(turn);
        forms.dedup();
        forms.len() - 2
    } else {
        if !long {
            forms.push(sided(&full));
        }
        forms.push(sided(&short));
        forms.push(short);
        forms.dedup();
        // Which way it travels is half of the call.
        forms.len().saturating_sub(if sideways { 2 } else { 1 })
    };
    forms.extend(opening);
    forms.dedup();
    (forms, least)
}

/// The words of a figure's steps after the first, where the lexicon has one for each of them.
pub(super) fn steps(used: &FigureUse, moves: &[&Move]) -> Option<Vec<String>> {
    let figure = known(used)?;
    let calls: Vec<&str> = figure.call.split(',').map(str::trim).collect();
    if calls.len() != moves.len() {
        return None;
    }
    let word = |(call, m): (&&str, &&Move)| {
        // The turn as danced may fall elsewhere than where the lexicon has it.
        let turns = ["quarter", "half", "eighth", "turn", "three-quarter", "spin", "unwind", "spiral"];
        if m.turn == Turn::NONE && turns[..3].contains(call) {
            return step(m);
        }
        if m.turn != Turn::NONE && !turns.iter().any(|t| call.contains(t)) {
            return size(m.turn);
        }
        (*call).to_owned()
    };
    Some(calls.iter().zip(moves).map(word).collect())
}

/// The size of a turn alone, for a step in the middle of a figure.
fn size(t: Turn) -> String {
    let words = turn(t);
    words.strip_suffix(" right").or(words.strip_suffix(" left")).map_or(words.clone(), str::to_owned)
}

/// What to call a step that belongs to no figure, without its foot.
pub(super) fn step(m: &Move) -> String {
    let place = match m.place {
        Place::Forward => "forward",
        Place::Back => "back",
        Place::Side => "side",
        Place::DiagonalForward | Place::DiagonalBack => "diagonal",
        Place::Cross | Place::DiagonalAcross => "cross",
        Place::Behind => "behind",
        Place::LockBehind | Place::LockFront => "lock",
        Place::Close => "together",
        Place::Home => "home",
        Place::Out => "out",
        Place::In => "in",
        Place::HeelsIn | Place::HeelsOut | Place::HeelsLeft | Place::HeelsRight | Place::HeelsCentre => {
            "heels"
        }
        Place::ToesIn | Place::ToesOut | Place::ToesLeft | Place::ToesRight | Place::ToesCentre => "toes",
        _ => "",
    };
    let word = match m.action {
        Action::Step if m.turn != Turn::NONE => return turn(m.turn),
        Action::Step | Action::Skate | Action::Slide if !place.is_empty() => return place.to_owned(),
        Action::KneePop => "knee",
        Action::Bump | Action::Hips => "hip",
        Action::Body | Action::Roll => "roll",
        Action::Applejack => "applejack",
        Action::Shift => "weight",
        other => other.word(),
    };
    if m.turn != Turn::NONE {
        return match m.action {
            Action::Turn => turn(m.turn),
            _ => format!("{word} {}", turn(m.turn)),
        };
    }
    word.to_owned()
}

/// The same with its foot: `right forward`.
pub(super) fn step_with_foot(m: &Move) -> String {
    let words = step(m);
    match m.who {
        // What follows from the step before needs no foot.
        _ if matches!(m.action, Action::Recover | Action::Pivot | Action::Drop | Action::Paddle) => words,
        _ if m.turn != Turn::NONE => words,
        Who::One(foot) => format!("{} {words}", foot.word()),
        _ => words,
    }
}

/// The same words for the mirror image.
pub(super) fn mirrored(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    let mut word = String::new();
    let flush = |word: &mut String, out: &mut String| {
        match word.as_str() {
            "left" => out.push_str(Foot::Right.word()),
            "right" => out.push_str(Foot::Left.word()),
            other => out.push_str(other),
        }
        word.clear();
    };
    for c in words.chars() {
        if c.is_alphabetic() {
            word.push(c);
        } else {
            flush(&mut word, &mut out);
            out.push(c);
        }
    }
    flush(&mut word, &mut out);
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::Span;

    #[track_caller]
    fn named(name: &str, lead: Foot, t: i32, place: Place, expected: &[&str]) {
        let used = FigureUse {
            name: name.into(),
            lead: Some(lead),
            turn: Turn(t),
            span: Span::default(),
            named: true,
        };
        let first = crate::dance::Move {
            at: crate::time::Ticks::COUNT,
            lasts: crate::time::Ticks::COUNT,
            who: Who::One(lead),
            action: Action::Step,
            place,
            reach: crate::dance::Reach::Usual,
            turn: Turn::NONE,
            turn_when: crate::dance::TurnWhen::Before,
            effect: crate::dance::Effect::Takes,
            before: crate::dance::Weight::Both,
            after: crate::dance::Weight::On(lead),
            broken: None,
            span: Span::default(),
            figure: Some(0),
        };
        assert_eq!(figure(&used, Some(&first)).0, expected, "{name}");
    }

    #[test]
    fn figures_have_long_and_short_calls() {
        named("Grapevine with touch", Foot::Right, 0, Place::Side, &["vine right", "vine", "side"]);
        named(
            "Coaster step",
            Foot::Left,
            0,
            Place::Back,
            &["left coaster step", "left coaster", "coaster", "back"],
        );
        named(
            "Jazz box 1/4 turn",
            Foot::Right,
            12,
            Place::Cross,
            &["jazz box, quarter right", "quarter right", "cross"],
        );
        named(
            "Rocking chair",
            Foot::Right,
            0,
            Place::Forward,
            &["right rocking chair", "rocking chair", "forward"],
        );
        named("Walk, walk", Foot::Right, 0, Place::Forward, &["walk, walk", "walk", "forward"]);
    }

    #[test]
    fn turns_and_walls_are_said_as_the_trade_says_them() {
        assert_eq!(turn(Turn(12)), "quarter right");
        assert_eq!(turn(Turn(-24)), "half left");
        assert_eq!(turn(Turn(-4)), "1/12 left");
        assert_eq!(wall(Heading::new(24)), "back wall");
        assert_eq!(mirrored("vine right, behind"), "vine left, behind");
    }
}
