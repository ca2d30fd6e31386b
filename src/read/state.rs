//! Where a reading stands between two words, and how it came there.

use crate::dance::{Broken, Foot, Weight};
use crate::figures::{Step, WeightSaid};
use crate::floor::{Heading, Turn};
use crate::text::Span;
use crate::time::Ticks;

/// What the last action was, as far as the next one depends on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Last {
    /// Nothing yet.
    Nothing,
    /// A step.
    Step(Foot),
    /// A rock, press, lunge, grind or sway: a recover may follow.
    Rock(Foot),
    /// A toe or heel placed without weight: a drop may follow.
    Placed(Foot),
    /// Another gesture.
    Gesture(Foot),
    /// Both feet or the body.
    Shared,
    /// A hip bump that leaves the weight between the feet.
    Bump(Foot),
}

impl Last {
    pub(super) fn foot(self) -> Option<Foot> {
        match self {
            Self::Step(f) | Self::Rock(f) | Self::Placed(f) | Self::Gesture(f) | Self::Bump(f) => Some(f),
            Self::Nothing | Self::Shared => None,
        }
    }
}

/// A point of the lattice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct State {
    pub weight: Weight,
    pub facing: Heading,
    /// The next whole position of the section, in ticks.
    pub t: i32,
    /// The next written position of the chunk.
    pub k: u8,
    pub last: Last,
    /// The sign & stands before the next action.
    pub half: bool,
    /// Where the chunk began, in ticks.
    pub t0: i32,
}

/// One action with its time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Placed {
    pub at: Ticks,
    pub step: Step,
    pub before: Weight,
    pub after: Weight,
    pub broken: Option<Broken>,
    pub span: Span,
    /// A second step on the same position.
    pub crowded: bool,
}

/// What a node adds besides actions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Mark {
    None,
    /// A figure by name and its lead.
    Figure(u16, Option<Foot>, Turn),
    /// A figure of the sheet's own.
    Own(u16, Foot, Turn),
    /// A name that only labels.
    Label(u16, Option<Foot>),
    /// A name that labels and gives the turn.
    LabelTurning(u16, Option<Foot>, Turn),
    /// The clock is said to be one thing and is another.
    Clock {
        said: Heading,
        got: Heading,
    },
    /// The clock agrees.
    ClockHeld {
        said: Heading,
    },
    /// Words passed over.
    Unread,
    /// Written positions of the chunk without an action, from this one on.
    Empty(u8),
    /// A number of counts that the steps do not fill.
    Total {
        said: u32,
        got: i32,
    },
    /// A turn between steps.
    Turning(Turn),
    /// A remark that changes the last action.
    Weight(WeightSaid),
    /// A remark that the weight is elsewhere.
    WeightMiss(WeightSaid),
    /// Something danced again; whether on the other foot.
    Repeated {
        mirrored: bool,
        said: bool,
    },
    /// An order of feet that is not that of the steps.
    FeetMiss,
    /// The end of a section.
    Section,
}

/// A step of the path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Node {
    pub prev: u32,
    /// Actions: a range of the arena of [`Placed`].
    pub from: u32,
    pub n: u32,
    pub mark: Mark,
    pub span: Span,
    pub section: u16,
    pub chunk: u16,
    /// The position before this node's actions.
    pub t: i32,
    /// Whether a sentence or line begins here.
    pub opens: bool,
}

/// A state with its cost and its way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Entry {
    pub state: State,
    pub cost: u32,
    pub node: u32,
}

/// Everything that was tried; the best way is read back through [`Node::prev`].
#[derive(Debug, Default)]
pub(super) struct Arena {
    pub nodes: Vec<Node>,
    pub placed: Vec<Placed>,
}

impl Arena {
    pub(super) fn actions(&self, node: &Node) -> &[Placed] {
        &self.placed[node.from as usize..(node.from + node.n) as usize]
    }

    /// The nodes from the last one back to the first.
    pub(super) fn back(&self, node: u32) -> impl Iterator<Item = &Node> {
        let mut at = Some(node);
        core::iter::from_fn(move || {
            let node = &self.nodes[at? as usize];
            at = (node.prev != u32::MAX).then_some(node.prev);
            Some(node)
        })
    }
}

impl State {
    /// All that tells states apart, in one number.
    pub(super) fn key(&self) -> u64 {
        let weight = match self.weight {
            Weight::On(Foot::Left) => 0,
            Weight::On(Foot::Right) => 1,
            Weight::Both => 2,
        };
        let side = |f: Foot| u64::from(f == Foot::Right);
        let last = match self.last {
            Last::Nothing => 0,
            Last::Shared => 1,
            Last::Step(f) => 2 + side(f),
            Last::Rock(f) => 4 + side(f),
            Last::Placed(f) => 6 + side(f),
            Last::Gesture(f) => 8 + side(f),
            Last::Bump(f) => 10 + side(f),
        };
        #[allow(clippy::cast_sign_loss, reason = "the low bits tell states of one layer apart")]
        let time = (self.t as u64 & 0xff_ffff) << 24;
        #[allow(clippy::cast_sign_loss, reason = "units are 0 to 47")]
        let facing = self.facing.units() as u64;
        weight | last << 2 | facing << 6 | u64::from(self.k) << 12 | u64::from(self.half) << 20 | time
    }
}
