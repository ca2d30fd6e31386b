//! What is danced: the moves that all later rooms read.
//!
//! A [`Dance`] is complete by construction. Every [`Move`] has its time, foot, place, turn, the weight before
//! and after it, and the span of the words that made it; a move that breaks a rule of weight says which. So
//! the rooms below neither guess nor check again.

mod acts;
mod feet;
mod parts;
mod song;

use crate::floor::Turn;
use crate::text::Span;
use crate::time::Ticks;

pub use acts::{Action, Place};
pub use feet::{Effect, Foot, Weight, Who};
pub use parts::{FigureUse, Part, PartKind, Section};
pub use song::{Dance, EndingUse, Head, Restart, Run, TagUse};

/// How far a step reaches.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, PartialOrd, Ord)]
pub enum Reach {
    /// A small step.
    Small,
    /// As usual.
    #[default]
    Usual,
    /// A long step.
    Long,
}

/// Whether the body turns before the foot is placed or afterwards on the placed foot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum TurnWhen {
    /// The usual: the place is read in the new facing.
    #[default]
    Before,
    /// The foot is placed in the old facing, then the body turns on it.
    After,
}

/// How a move breaks the rules of weight, if it does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Broken {
    /// The foot carries all the weight already and is to step or touch.
    NotFree,
    /// A recover, drop or pivot without the step it belongs to.
    NothingBefore,
}

/// One action at one moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Move {
    /// When, within its section: count 1 is tick 24.
    pub at: Ticks,
    /// How long until the next action of the same line begins, at least a tick.
    pub lasts: Ticks,
    /// Which foot.
    pub who: Who,
    /// What it does.
    pub action: Action,
    /// Where to.
    pub place: Place,
    /// How far.
    pub reach: Reach,
    /// How much the body turns.
    pub turn: Turn,
    /// Before the foot is placed or after.
    pub turn_when: TurnWhen,
    /// What happens to the weight.
    pub effect: Effect,
    /// Weight before it.
    pub before: Weight,
    /// Weight after it.
    pub after: Weight,
    /// The rule of weight that it breaks.
    pub broken: Option<Broken>,
    /// The words that made it.
    pub span: Span,
    /// Which of the section's [`FigureUse`]s it belongs to.
    pub figure: Option<u16>,
}

impl Move {
    /// The foot that has the whole weight because of this move.
    #[must_use]
    pub fn takes(&self) -> Option<Foot> {
        match (self.effect, self.who) {
            (Effect::Takes, Who::One(foot)) => Some(foot),
            _ => None,
        }
    }
}
