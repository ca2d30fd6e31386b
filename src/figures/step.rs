//! A step of a figure: everything about it is known.

use super::grammar::{Taking, written};
use super::remark::{WeightSaid, weight_remark};
use super::written::{Written, usual_effect};
use crate::dance::{Action, Effect, Foot, Place, Reach, TurnWhen, Weight, Who};
use crate::floor::Turn;
use crate::sheet::vocabulary::Vocabulary;
use crate::sheet::words::tokens;
use crate::time::Ticks;

/// One action of a figure, for the lead with the right foot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Step {
    /// When: the figure's first count is tick 24.
    pub at: Ticks,
    /// Which foot.
    pub who: Who,
    /// What.
    pub action: Action,
    /// Where to.
    pub place: Place,
    /// How far.
    pub reach: Reach,
    /// How the body turns.
    pub turn: Turn,
    /// When it turns.
    pub turn_when: TurnWhen,
    /// What happens to the weight.
    pub effect: Effect,
}

impl Step {
    /// The same step on the other foot.
    #[must_use]
    pub fn mirrored(mut self) -> Self {
        self.who = self.who.mirrored();
        self.place = self.place.mirrored();
        self.turn = -self.turn;
        self
    }

    /// Weight after this step, and whether the rules of weight allow it (figures, rule of weight 1 to 8).
    #[must_use]
    pub fn weigh(&self, before: Weight) -> (Weight, bool) {
        match (self.effect, self.who) {
            (Effect::Takes, Who::One(foot)) => (Weight::On(foot), before.frees(foot)),
            (Effect::Takes | Effect::Shares, Who::Both) => (Weight::Both, true),
            (Effect::Shares, Who::One(foot)) => (Weight::Both, before.frees(foot) || before == Weight::Both),
            (Effect::Free, Who::One(foot)) => match before {
                Weight::Both => (Weight::On(foot.other()), true),
                on @ Weight::On(_) => (on, on.frees(foot)),
            },
            (Effect::Keeps, Who::One(foot)) => match before {
                Weight::Both => (Weight::Both, true),
                on @ Weight::On(_) => (on, !on.frees(foot)),
            },
            (_, _) => (before, true),
        }
    }
}

/// The turn that words say outright, clockwise positive; `None` where size or direction is missing.
#[must_use]
pub fn said_turn(w: &Written) -> Option<Turn> {
    let t = w.turn?;
    let size = t.size?;
    Some(Turn(match t.to? {
        Foot::Right => size,
        Foot::Left => -size,
    }))
}

/// The highest count of a figure: numbers of counts stay small enough to be multiplied.
const MOST: i32 = 999;

/// Reads the steps of a lexicon entry: `1 R step side, & L step together, 2 R step side`.
///
/// # Errors
/// The piece that could not be read.
pub fn steps<'t>(text: &'t str, vocabulary: &Vocabulary) -> Result<Vec<Step>, &'t str> {
    steps_known(text, vocabulary, &mut Known::new())
}

/// Steps that were read already, by their words: the same few stand in most entries.
#[derive(Debug)]
pub(super) struct Known {
    words: Vocabulary,
    steps: Vec<Option<Step>>,
}

impl Known {
    pub(super) fn new() -> Self {
        Self { words: Vocabulary::empty(), steps: Vec::new() }
    }
}

/// Reads the steps of one entry of many.
pub(super) fn steps_known<'t>(
    text: &'t str,
    vocabulary: &Vocabulary,
    known: &mut Known,
) -> Result<Vec<Step>, &'t str> {
    let mut out: Vec<Step> =
        Vec::with_capacity(text.bytes().filter(|b| matches!(b, b',' | b';')).count() + 1);
    let mut count = 0;
    for piece in text.split([',', ';']) {
        let piece = piece.trim();
        let (label, rest) = piece.split_once(' ').ok_or(piece)?;
        let at = match label {
            "&" => Ticks(count * 24 + 12),
            "a" => Ticks(count * 24 + 18),
            "e" => Ticks(count * 24 + 6),
            number => {
                count = number.parse().ok().filter(|n| (0..=MOST).contains(n)).ok_or(piece)?;
                Ticks::of_count(count)
            }
        };
        let i = usize::from(known.words.learn(rest).0 - Vocabulary::FIRST_OWN);
        if i >= known.steps.len() {
            known.steps.push(step(rest, vocabulary));
        }
        let step = known.steps.get(i).copied().flatten().ok_or(piece)?;
        out.push(Step { at, ..step });
    }
    Ok(out)
}

/// A step on count 1.
fn step(text: &str, vocabulary: &Vocabulary) -> Option<Step> {
    let (words, remark) = text.split_once('(').unwrap_or((text, ""));
    let t = tokens(words, 0..words.len(), vocabulary);
    let w = written(words, &t, 0, t.len(), Taking::default())?;
    if w.end != t.len() {
        return None;
    }
    let (action, place) = w.meaning()?;
    let who = if w.both {
        Who::Both
    } else if let Some(foot) = w.foot {
        Who::One(foot)
    } else if matches!(action, Action::Bump | Action::Roll) {
        Who::Both
    } else {
        Who::Nobody
    };
    let mut effect = usual_effect(action);
    if !remark.is_empty() {
        let r = tokens(remark, 0..remark.len().saturating_sub(1), vocabulary);
        effect = match (remark, weight_remark(&r, 0, r.len())) {
            ("shared)", _) | (_, Some((WeightSaid::Both, _))) => Effect::Shares,
            ("kept)", _) | (_, Some((WeightSaid::Kept, _))) => Effect::Keeps,
            (_, Some((WeightSaid::NotTaken, _))) => Effect::Free,
            (_, Some((WeightSaid::Taken | WeightSaid::On(_), _))) => Effect::Takes,
            _ => return None,
        };
    }
    // Weight that is shared is shared by both feet, named or not.
    let who = if who == Who::Nobody && effect == Effect::Shares { Who::Both } else { who };
    let turn = if w.turn.is_some() { said_turn(&w)? } else { Turn::NONE };
    let at = Ticks::COUNT;
    Some(Step { at, who, action, place, reach: w.reach, turn, turn_when: TurnWhen::Before, effect })
}

/// The length of a row of steps in counts, from count 1 to the last count that it touches.
#[must_use]
pub fn counts(steps: &[Step]) -> u32 {
    steps.iter().map(|s| s.at.count()).max().and_then(|n| u32::try_from(n.max(1)).ok()).unwrap_or(0)
}
