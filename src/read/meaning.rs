//! What words may mean: the actions, figures and remarks that an edge of the lattice stands for.

use std::borrow::Cow;

use arrayvec::ArrayVec;

use super::phrases::Repeat;
use crate::dance::{Action, Effect, Foot, Place, Reach, TurnWhen};
use crate::figures::{Step, WeightSaid, Written, said_turn};
use crate::floor::{Heading, Turn};
use crate::text::Span;

/// Who acts, as far as the words say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Actor {
    /// This foot.
    Said(Foot),
    /// This foot, because it goes beside or across the other.
    Implied(Foot),
    /// Whichever foot is free.
    Free,
    /// Both feet.
    Both,
    /// No foot.
    Nobody,
}

/// A turn as far as the words say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum TurnSaid {
    /// None is written.
    None,
    /// Size and direction.
    Known(Turn),
    /// A size in 1/48 without direction.
    Size(i32),
    /// A direction without size.
    To(Foot),
}

impl TurnSaid {
    pub(super) fn of(w: &Written) -> Self {
        match (said_turn(w), w.turn) {
            (Some(t), _) => Self::Known(t),
            (None, Some(t)) => match (t.size, t.to) {
                (Some(size), _) => Self::Size(size),
                (None, Some(foot)) => Self::To(foot),
                (None, None) => Self::None,
            },
            (None, None) => Self::None,
        }
    }
}

/// What an action may do to the weight, with what each costs.
pub(super) type Effects = ArrayVec<(Effect, u32), 4>;

/// One written action.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Event {
    pub actor: Actor,
    pub action: Action,
    pub place: Place,
    pub reach: Reach,
    pub turn: TurnSaid,
    pub turn_when: TurnWhen,
    pub effects: Effects,
    pub lasts: Option<u32>,
    pub joined: bool,
    /// Only a place was written, no verb: "in", "out".
    pub bare: bool,
    /// The direction named, for hips and sways.
    pub side: Option<Foot>,
    /// The direction may as well be the foot: "step right forward".
    pub perhaps_foot: bool,
}

impl Event {
    /// A step of the usual reach that takes the weight and is said with nothing else.
    pub(super) fn taking(actor: Actor, action: Action, place: Place) -> Self {
        let mut effects = Effects::new();
        effects.push((Effect::Takes, 0));
        Self {
            actor,
            action,
            place,
            reach: Reach::Usual,
            turn: TurnSaid::None,
            turn_when: TurnWhen::Before,
            effects,
            lasts: None,
            joined: false,
            bare: false,
            side: None,
            perhaps_foot: false,
        }
    }
}

/// A figure by its name.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Named {
    pub figure: u16,
    pub lead: Option<Foot>,
    pub turn: TurnSaid,
    /// Its steps led by the right foot, with the endings that the words give it.
    pub steps: Cow<'static, [Step]>,
    pub counts: u32,
    pub turn_on: usize,
    /// Facing away, as in a half-turn shuffle to the other side, is danced too.
    pub own_turn: bool,
}

/// What an edge means.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Meaning {
    /// Nothing; the words are passed over.
    Skip,
    /// Words that are passed over although they speak of steps.
    Unread,
    /// A label for the steps that follow.
    Label(u16, Option<Foot>, TurnSaid),
    Event(Event),
    /// A turn that belongs to the step before or after it.
    Turning(TurnSaid),
    Figure(Named),
    /// A figure of the sheet's own: index, lead.
    Own(usize, Option<Foot>),
    Weight(WeightSaid),
    Clock(Heading),
    /// An order of feet.
    Feet(Vec<Foot>),
    /// Words that tell a step again which the figure before them has: the foot and where it goes.
    Tells(Foot, Place),
    Repeat(Repeat),
    /// "Turn to face the back wall".
    TurnTo(Heading),
    /// The sign &.
    Half,
    /// "Two jazz boxes", "four walks": the same so many times.
    Several(u32, Box<Meaning>),
}

/// One way to read the words from a token on.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Edge {
    pub to: usize,
    pub cost: u32,
    pub meaning: Meaning,
    pub span: Span,
}

/// A figure that the sheet defines, led by the right foot.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Own {
    /// Words of its name.
    pub name: Vec<String>,
    pub steps: Vec<Step>,
    pub counts: u32,
}
