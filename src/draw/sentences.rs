//! The same content as the drawing, in sentences: for screen readers, and for the list beside a panel.

use core::fmt::Write as _;

use crate::dance::{Action, Effect, Foot, Move, Place, TurnWhen, Weight, Who};
use crate::floor::{Heading, Turn};
use crate::text::Span;
use crate::time::Ticks;

use super::scene::Scene;

/// What happens at one moment, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[non_exhaustive]
pub struct Sentence {
    /// The count within the section: `3&`.
    pub count: String,
    /// The step in few words: `step R forward`.
    pub words: String,
    /// The whole sentence, with the weight after it.
    pub sentence: String,
    /// First byte of the sheet's words that it comes from.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

/// How feet are named.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Naming {
    Letters,
    Words,
}

impl Naming {
    const fn foot(self, foot: Foot) -> &'static str {
        match (self, foot) {
            (Self::Letters, _) => foot.letter(),
            (Self::Words, Foot::Left) => "the left foot",
            (Self::Words, Foot::Right) => "the right foot",
        }
    }
}

/// One move in words, for all who tell of it.
pub(crate) struct Told {
    /// In few words, feet as letters: `step R forward`.
    pub(crate) words: String,
    /// In whole words: `step the right foot forward`.
    pub(crate) said: String,
    /// Where the weight is then: `weight on the right foot`; empty where that is no matter.
    pub(crate) weight: &'static str,
}

/// Puts a move into words; `facing` is where the body faces after it.
pub(crate) fn told(what: &Move, facing: f64) -> Told {
    let facing = heading(facing);
    Told {
        words: phrase(what, facing, Naming::Letters),
        said: phrase(what, facing, Naming::Words),
        weight: weight(what),
    }
}

/// The whole sentence of a move at a position in its section.
pub(crate) fn sentence(told: &Told, at: Ticks) -> String {
    let between = if told.weight.is_empty() { "" } else { "; " };
    format!("Count {}: {}{between}{}.", said(at), told.said, told.weight)
}

/// All steps of a scene, in order.
pub(super) fn sentences(scene: &Scene<'_>) -> Vec<Sentence> {
    scene
        .steps
        .iter()
        .map(|step| {
            let Span { start, end } = step.what.span;
            let told = told(step.what, step.after.facing);
            let sentence = sentence(&told, step.at);
            Sentence { count: step.at.to_string(), words: told.words, sentence, start, end }
        })
        .collect()
}

/// The heading of a facing that may have gone round several times.
pub(super) fn heading(facing: f64) -> Heading {
    #[allow(clippy::cast_possible_truncation, reason = "clamped to what an i32 holds")]
    Heading::new(facing.round().clamp(-1e9, 1e9) as i32)
}

/// A count as it is said: `3 and`.
fn said(at: Ticks) -> String {
    let mut text = String::new();
    let _ = write!(text, "{}", at.count());
    match at.sign() {
        "" => {}
        "&" => text.push_str(" and"),
        sign => {
            text.push(' ');
            text.push_str(sign);
        }
    }
    text
}

/// A turn as it is said: `1/4 right`, `a full turn left`.
pub(super) fn turning(turn: Turn) -> String {
    let way = if turn.0 > 0 { "right" } else { "left" };
    if turn.0.unsigned_abs() == 48 {
        format!("a full turn {way}")
    } else {
        let written = turn.to_string();
        let size = written.trim_end_matches([' ', 'R', 'L']);
        format!("{size} {way}")
    }
}

fn weight(m: &Move) -> &'static str {
    match (m.effect, m.after) {
        (Effect::Takes | Effect::Keeps, Weight::On(Foot::Left)) => "weight on the left foot",
        (Effect::Takes | Effect::Keeps, Weight::On(Foot::Right)) => "weight on the right foot",
        (Effect::Shares, _) | (Effect::Takes | Effect::Keeps, Weight::Both) => "weight on both feet",
        (Effect::Free, Weight::On(Foot::Left)) => "the weight stays on the left foot",
        (Effect::Free, Weight::On(Foot::Right)) => "the weight stays on the right foot",
        (Effect::Free, Weight::Both) => "the weight stays on both feet",
        (Effect::None, _) => "",
    }
}

/// One move in words.
fn phrase(m: &Move, facing: Heading, naming: Naming) -> String {
    let who = match m.who {
        Who::One(foot) => naming.foot(foot),
        Who::Both => "both feet",
        Who::Nobody => "",
    };
    let mut out = String::new();
    let turn = if m.turn == Turn::NONE {
        String::new()
    } else {
        match naming {
            Naming::Letters => turning(m.turn),
            Naming::Words => format!("{} to face {facing}", turning(m.turn)),
        }
    };
    if let Some(verb) = turns_itself(m.action) {
        // The turn is the movement.
        out.push_str(verb);
        if !turn.is_empty() {
            out.push(' ');
            out.push_str(&turn);
        }
        let onto = match (m.who, m.effect) {
            (Who::One(_), Effect::Takes) => " onto ",
            (Who::One(_), _) => " on ",
            _ => "",
        };
        out.push_str(onto);
        if !onto.is_empty() {
            out.push_str(who);
        }
        return out;
    }
    if !turn.is_empty() && m.turn_when == TurnWhen::Before {
        let _ = write!(out, "turn {turn} and ");
    }
    movement(&mut out, m, who, naming);
    if !turn.is_empty() && m.turn_when == TurnWhen::After {
        let _ = write!(out, ", then turn {turn}");
    }
    out
}

const fn turns_itself(action: Action) -> Option<&'static str> {
    Some(match action {
        Action::Pivot => "pivot",
        Action::Paddle => "paddle",
        Action::Spin => "spin",
        Action::Spiral => "spiral",
        Action::Turn => "turn",
        Action::Unwind => "unwind",
        _ => return None,
    })
}

/// What the foot does and where it goes.
fn movement(out: &mut String, m: &Move, who: &str, naming: Naming) {
    let place = place(m, naming);
    let (verb, after) = match m.action {
        Action::Step if m.effect == Effect::Free => ("touch", ""),
        Action::Step => ("step", ""),
        Action::Rock => ("rock", ""),
        Action::Recover => {
            let _ = write!(out, "recover onto {who}");
            return;
        }
        Action::Ball => ("step the ball of", ""),
        Action::Press => ("press the ball of", ""),
        Action::Lunge => ("lunge", ""),
        Action::Sway => ("sway onto", ""),
        Action::Stomp if m.effect == Effect::Free => ("stomp up", ""),
        Action::Stomp => ("stomp", ""),
        Action::Drop => ("drop", " flat"),
        Action::Grind => ("grind the heel of", ", the toe fanning out"),
        Action::Skate => ("skate", ""),
        Action::Slide => ("slide", ""),
        Action::Shift => {
            let _ = write!(out, "shift the weight onto {who}");
            return;
        }
        Action::Touch => ("touch", ""),
        Action::Toe => ("touch the toe of", ""),
        Action::Point => ("point", ""),
        Action::Heel => ("touch the heel of", ""),
        Action::Kick => ("kick", ""),
        Action::Flick => ("flick", ""),
        Action::Hook => ("hook", ""),
        Action::Hitch => {
            let knee = match m.who {
                Who::One(foot) => foot.word(),
                _ => "",
            };
            let _ = if naming == Naming::Words {
                write!(out, "lift the {knee} knee")
            } else {
                write!(out, "hitch {who}")
            };
            return;
        }
        Action::Brush => ("brush", ""),
        Action::Scuff => ("scuff the heel of", ""),
        Action::Drag => ("drag", ""),
        Action::Sweep => ("sweep", ""),
        Action::Fan => ("fan", ""),
        Action::KneePop => ("pop the knee of", ""),
        Action::Bounce => ("bounce the heel of", ""),
        Action::Jump => ("jump", ""),
        Action::Swivel => ("swivel", ""),
        Action::Split => ("split", ""),
        Action::Applejack => ("make an applejack with", ""),
        Action::Swivet => ("make a swivet with", ""),
        Action::Hop => ("hop on", ""),
        Action::Scoot => ("scoot on", ""),
        Action::Bump => return hips(out, "bump the hips", &place),
        Action::Roll => return hips(out, "roll the hips", &place),
        Action::Hips => return hips(out, "move the hips", &place),
        Action::Body => ("move the body", ""),
        Action::Clap => ("clap", ""),
        Action::Hold => ("hold", ""),
        Action::Pivot | Action::Paddle | Action::Spin | Action::Spiral | Action::Turn | Action::Unwind => {
            ("turn", "")
        }
    };
    out.push_str(verb);
    let body_only = matches!(m.action, Action::Body | Action::Clap | Action::Hold);
    for part in [if body_only { "" } else { who }, if body_only { "" } else { &place }] {
        if !part.is_empty() {
            out.push(' ');
            out.push_str(part);
        }
    }
    out.push_str(after);
}

fn hips(out: &mut String, verb: &str, place: &str) {
    out.push_str(verb);
    if !place.is_empty() {
        out.push(' ');
        out.push_str(place);
    }
}

fn place(m: &Move, naming: Naming) -> String {
    let (own, other) = match m.who {
        Who::One(foot) => (foot.word(), naming.foot(foot.other())),
        Who::Both | Who::Nobody => ("", "the other"),
    };
    let fixed = match m.place {
        Place::Forward => "forward",
        Place::Back => "back",
        Place::Side if own.is_empty() || naming == Naming::Letters => "to the side",
        Place::Side => return format!("to the {own} side"),
        Place::DiagonalForward if own.is_empty() => "diagonally forward",
        Place::DiagonalForward => return format!("diagonally forward {own}"),
        Place::DiagonalBack if own.is_empty() => "diagonally back",
        Place::DiagonalBack => return format!("diagonally back {own}"),
        Place::DiagonalAcross => return format!("diagonally forward across {other}"),
        Place::Cross => return format!("across {other}"),
        Place::Behind => return format!("behind {other}"),
        Place::LockBehind => return format!("locked behind {other}"),
        Place::LockFront => return format!("locked before {other}"),
        Place::Third => return format!("to the heel of {other}"),
        Place::Close if own.is_empty() => "together",
        Place::Close => return format!("beside {other}"),
        Place::InPlace => "in place",
        Place::Home => "home",
        Place::Out => "out",
        Place::In => "in",
        Place::Right => "to the right",
        Place::Left => "to the left",
        Place::Circle => "in a circle",
        Place::Up => "up",
        Place::Down => "down",
        Place::Still | Place::Hands => "",
        Place::HeelsOut => "with the heel out",
        Place::HeelsIn => "with the heel in",
        Place::HeelsRight => "with the heel to the right",
        Place::HeelsLeft => "with the heel to the left",
        Place::HeelsCentre => "with the heel to the middle",
        Place::ToesOut => "with the toe out",
        Place::ToesIn => "with the toe in",
        Place::ToesRight => "with the toe to the right",
        Place::ToesLeft => "with the toe to the left",
        Place::ToesCentre => "with the toe to the middle",
    };
    if own.is_empty() {
        fixed.replace("the heel", "the heels").replace("the toe", "the toes")
    } else {
        fixed.into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn turns_are_said() {
        for (units, want) in
            [(12, "1/4 right"), (-24, "1/2 left"), (48, "a full turn right"), (60, "1 1/4 right")]
        {
            assert_eq!(turning(Turn(units)), want);
        }
    }
}
