//! What is danced: the moves that all later rooms read.
//!
//! A [`Dance`] is complete by construction. Every [`Move`] has its time, foot, place, turn, the weight before
//! and after it, and the span of the words that made it; a move that breaks a rule of weight says which. So
//! the rooms below neither guess nor check again.

use crate::floor::{Heading, Turn};
use crate::text::Span;
use crate::time::{Metre, Ticks};

/// One of the two feet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub enum Foot {
    /// The left foot.
    Left,
    /// The right foot.
    Right,
}

impl Foot {
    /// The other foot.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }

    /// `L` or `R`.
    #[must_use]
    pub const fn letter(self) -> &'static str {
        match self {
            Self::Left => "L",
            Self::Right => "R",
        }
    }

    /// `left` or `right`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
        }
    }
}

/// What makes a move: a foot, both, or only the body.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Who {
    /// One foot.
    One(Foot),
    /// Both feet at once.
    Both,
    /// Body or hands; no foot moves.
    Nobody,
}

impl Who {
    /// Left for right.
    #[must_use]
    pub const fn mirrored(self) -> Self {
        match self {
            Self::One(foot) => Self::One(foot.other()),
            other => other,
        }
    }
}

/// Where the weight is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Weight {
    /// On one foot; the other one is free.
    On(Foot),
    /// Shared by both; either may go next.
    Both,
}

impl Weight {
    /// Whether this foot may act.
    #[must_use]
    pub fn frees(self, foot: Foot) -> bool {
        self != Self::On(foot)
    }

    /// `L`, `R` or `B`.
    #[must_use]
    pub const fn letter(self) -> &'static str {
        match self {
            Self::On(foot) => foot.letter(),
            Self::Both => "B",
        }
    }

    /// Left for right.
    #[must_use]
    pub const fn mirrored(self) -> Self {
        match self {
            Self::On(foot) => Self::On(foot.other()),
            Self::Both => Self::Both,
        }
    }
}

macro_rules! words {
    ($(#[$meta:meta])* $name:ident { $($(#[$m:meta])* $variant:ident = $word:literal,)* }) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum $name { $($(#[$m])* $variant,)* }

        impl $name {
            /// Every value, in order.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];

            /// The word for it in the language of figures.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $(Self::$variant => $word,)* }
            }

            /// The value that a word of the language of figures stands for.
            #[must_use]
            pub fn from_word(word: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|v| v.word() == word)
            }
        }
    };
}

words! {
    /// What the foot or the body does.
    Action {
        /// A plain step: the weight goes onto the foot.
        Step = "step",
        /// A step with the intention of going back.
        Rock = "rock",
        /// The weight goes back to the foot that did not move.
        Recover = "recover",
        /// A quick step on the ball of the foot.
        Ball = "ball",
        /// The ball pushed into the floor, knee bent.
        Press = "press",
        /// A long step on a bent knee.
        Lunge = "lunge",
        /// The hips go onto that side, with a step or without.
        Sway = "sway",
        /// The whole foot set down hard.
        Stomp = "stomp",
        /// The second half of a strut: heel or toe comes down and takes the weight.
        Drop = "drop",
        /// The heel set forward with weight, the toe fanning outward.
        Grind = "grind",
        /// A sliding step on the diagonal.
        Skate = "skate",
        /// The foot drawn along the floor to its place.
        Slide = "slide",
        /// Nothing moves but the weight.
        Shift = "shift",
        /// After a step, a turn on both balls onto the foot that did not step.
        Pivot = "pivot",
        /// The foot that did not step pushes round.
        Paddle = "paddle",
        /// Placed lightly, without weight.
        Touch = "touch",
        /// Placed with the toe, without weight.
        Toe = "toe",
        /// The leg stretched, the toe on the floor.
        Point = "point",
        /// The heel set on the floor, toe up.
        Heel = "heel",
        /// A low swing from the knee.
        Kick = "kick",
        /// A kick back with a bent knee.
        Flick = "flick",
        /// Lifted and crossed before or behind the other shin.
        Hook = "hook",
        /// The knee lifted.
        Hitch = "hitch",
        /// The ball strokes the floor in passing.
        Brush = "brush",
        /// The heel strikes the floor in passing.
        Scuff = "scuff",
        /// Drawn slowly toward the standing foot.
        Drag = "drag",
        /// An arc on the floor.
        Sweep = "sweep",
        /// Toe or heel swings out and back, the other end stays.
        Fan = "fan",
        /// The knee pushed forward, the heel lifting.
        KneePop = "kneepop",
        /// Heels lifted and dropped.
        Bounce = "bounce",
        /// Hips pushed to a side.
        Bump = "bump",
        /// Hips drawn in a circle.
        Roll = "roll",
        /// Both feet leave the floor and land together.
        Jump = "jump",
        /// Heels or toes turned to a side.
        Swivel = "swivel",
        /// Heels or toes apart and together.
        Split = "split",
        /// On one heel and the other ball, the feet form a V.
        Applejack = "apple",
        /// On one heel and the other ball, both feet point to one side.
        Swivet = "swivet",
        /// Takes off from and lands on the same foot.
        Hop = "hop",
        /// The standing foot slides along.
        Scoot = "scoot",
        /// A turn on one foot, the other beside it.
        Spin = "spin",
        /// A turn on the foot just stepped on, the other leg winding round.
        Spiral = "spiral",
        /// A turn on the ball, the weight kept.
        Turn = "turn",
        /// The legs untwist from a crossing.
        Unwind = "unwind",
        /// A wave through the body, shoulders, arms.
        Body = "body",
        /// Hips without change of weight.
        Hips = "hips",
        /// Hands: clap, snap, slap.
        Clap = "clap",
        /// Nothing for a while.
        Hold = "hold",
    }
}

words! {
    /// Where a foot goes, read in the facing that the dancer has after the turn of the move.
    Place {
        /// Straight ahead.
        Forward = "fwd",
        /// Straight back.
        Back = "back",
        /// To the foot's own side.
        Side = "side",
        /// The forward diagonal of the foot's own side.
        DiagonalForward = "diagF",
        /// The backward diagonal of the foot's own side.
        DiagonalBack = "diagB",
        /// The forward diagonal of the other side.
        DiagonalAcross = "diagFx",
        /// In front of the standing foot and past it.
        Cross = "cross",
        /// Behind the standing foot and past it.
        Behind = "behind",
        /// Crossed tightly behind.
        LockBehind = "lockB",
        /// Crossed tightly in front.
        LockFront = "lockF",
        /// The hollow of the foot at the heel of the other.
        Third = "third",
        /// Beside the other foot.
        Close = "close",
        /// Where the foot already is.
        InPlace = "place",
        /// The spot under the body where the figure began.
        Home = "home",
        /// Away from the body to the foot's own side.
        Out = "out",
        /// Back under the body.
        In = "in",
        /// To the dancer's right, for hips.
        Right = "R",
        /// To the dancer's left, for hips.
        Left = "L",
        /// In a circle, for hips.
        Circle = "circle",
        /// Upward.
        Up = "up",
        /// Downward.
        Down = "down",
        /// Nothing moves.
        Still = "still",
        /// Hands.
        Hands = "hands",
        /// Heels away from each other, or the one heel outward.
        HeelsOut = "heels-out",
        /// Heels toward each other, or the one heel inward.
        HeelsIn = "heels-in",
        /// Heels to the right.
        HeelsRight = "heels-R",
        /// Heels to the left.
        HeelsLeft = "heels-L",
        /// Heels back to the middle.
        HeelsCentre = "heels-C",
        /// Toes away from each other, or the one toe outward.
        ToesOut = "toes-out",
        /// Toes toward each other, or the one toe inward.
        ToesIn = "toes-in",
        /// Toes to the right.
        ToesRight = "toes-R",
        /// Toes to the left.
        ToesLeft = "toes-L",
        /// Toes back to the middle.
        ToesCentre = "toes-C",
    }
}

impl Place {
    /// Left for right. Places named from the moving foot stay as they are.
    #[must_use]
    pub const fn mirrored(self) -> Self {
        match self {
            Self::Right => Self::Left,
            Self::Left => Self::Right,
            Self::HeelsRight => Self::HeelsLeft,
            Self::HeelsLeft => Self::HeelsRight,
            Self::ToesRight => Self::ToesLeft,
            Self::ToesLeft => Self::ToesRight,
            other => other,
        }
    }
}

/// What a move does to the weight.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Effect {
    /// The foot has all the weight afterwards (`+`).
    Takes,
    /// The foot is free and stays free (`.`).
    Free,
    /// The weight is shared afterwards (`=`).
    Shares,
    /// The weight stays where it is, and what carries it does the move (`*`).
    Keeps,
    /// Body or hands only (`-`).
    None,
}

impl Effect {
    /// The sign in the language of figures.
    #[must_use]
    pub const fn sign(self) -> char {
        match self {
            Self::Takes => '+',
            Self::Free => '.',
            Self::Shares => '=',
            Self::Keeps => '*',
            Self::None => '-',
        }
    }
}

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

/// A figure that the sheet names, or that its steps make.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FigureUse {
    /// The figure's name in the lexicon.
    pub name: String,
    /// The foot that leads it.
    pub lead: Option<Foot>,
    /// Its turn as danced.
    pub turn: Turn,
    /// The words that name it, or those of its steps.
    pub span: Span,
    /// Whether the writer named it; otherwise it was recognised in the steps.
    pub named: bool,
}

/// Some counts of a dance, mostly eight.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Heading as written, without its numbering; may be empty.
    pub name: String,
    /// Counts that it fills.
    pub counts: u32,
    /// What is danced, in order of time.
    pub moves: Vec<Move>,
    /// Figures in order.
    pub figures: Vec<FigureUse>,
    /// All its text.
    pub span: Span,
    /// Facing at its first count in the first repetition.
    pub facing_start: Heading,
    /// Facing at its end in the first repetition.
    pub facing_end: Heading,
    /// Weight at its beginning.
    pub weight_start: Weight,
    /// Weight at its end.
    pub weight_end: Weight,
}

/// What a part is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PartKind {
    /// The dance itself, or a part of a phrased one.
    Main,
    /// Extra counts at the end or in the middle of a repetition.
    Tag,
    /// The last steps of all.
    Ending,
}

/// A run of sections danced as one.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// `main`, `A`, `tag 1`, `ending`.
    pub name: String,
    /// What for.
    pub kind: PartKind,
    /// Its sections.
    pub sections: Vec<Section>,
}

impl Part {
    /// Counts of all sections.
    #[must_use]
    pub fn counts(&self) -> u32 {
        self.sections.iter().map(|s| s.counts).sum()
    }

    /// Sum of all turns.
    #[must_use]
    pub fn turn(&self) -> Turn {
        self.sections.iter().flat_map(|s| &s.moves).fold(Turn::NONE, |t, m| t + m.turn)
    }
}

/// A tag, bridge or ending at its place in the song.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TagUse {
    /// Index into [`Dance::parts`].
    pub part: usize,
    /// The repetition it belongs to, from 1.
    pub wall: u32,
    /// Counts of that repetition danced before it; `None` for all of them.
    pub after_counts: Option<u32>,
    /// Whether the dance begins again after it, instead of going on.
    pub then_restart: bool,
    /// Facing stated in the sheet.
    pub stated: Option<(Heading, Span)>,
    /// The words about it.
    pub span: Span,
}

/// Where the last steps of all come in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EndingUse {
    /// Index into [`Dance::parts`].
    pub part: usize,
    /// The repetition it belongs to, from 1; `None` for the last one, whichever the music makes that.
    pub wall: Option<u32>,
    /// Counts of that repetition danced before it; `None` for all of them.
    pub after_counts: Option<u32>,
    /// The first facing that the sheet states for it: that of the repetition it belongs to.
    pub stated: Option<Heading>,
    /// The words about it.
    pub span: Span,
}

/// A repetition that is broken off.
#[derive(Debug, Clone, PartialEq)]
pub struct Restart {
    /// The repetition, from 1.
    pub wall: u32,
    /// Counts danced before the dance begins again.
    pub after_counts: u32,
    /// The last section as danced then, where the restart changes its steps.
    pub changed: Option<Section>,
    /// Facing stated in the sheet.
    pub stated: Option<(Heading, Span)>,
    /// The words about it.
    pub span: Span,
}

/// One stretch of the song: a part, or some of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// The repetition, from 1.
    pub wall: u32,
    /// Index into [`Dance::parts`].
    pub part: usize,
    /// First count danced, from 0.
    pub from: u32,
    /// One past the last count danced.
    pub to: u32,
    /// Index into [`Dance::restarts`] where this run is broken off.
    pub restart: Option<usize>,
    /// Index into [`Dance::tags`] where this run is a tag.
    pub tag: Option<usize>,
    /// Facing in the room when it starts.
    pub facing: Heading,
    /// Weight when it starts.
    pub weight: Weight,
    /// Facing in the room when it ends.
    pub facing_end: Heading,
    /// Weight when it ends.
    pub weight_end: Weight,
}

/// What the head of the sheet says, or what follows from the steps where it is silent.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Head {
    /// Title as written.
    pub title: String,
    /// Counts of one repetition.
    pub counts: u32,
    /// Walls.
    pub walls: u32,
    /// Level in lower case as written, empty where none is.
    pub level: String,
    /// The foot that acts first.
    pub start_foot: Option<Foot>,
    /// Beats in a bar.
    pub metre: Metre,
    /// Beats a minute.
    pub tempo: Option<u32>,
    /// Counts of music before the first step.
    pub intro: Option<u32>,
    /// Who made the dance, as written.
    pub author: String,
    /// The music, as written.
    pub music: String,
}

/// A whole dance.
#[derive(Debug, Clone, PartialEq)]
pub struct Dance {
    /// Head fields.
    pub head: Head,
    /// The dance itself first, then tags and the ending. A phrased dance has several main parts.
    pub parts: Vec<Part>,
    /// Order of the main parts by index, where the sheet gives one (phrased dances).
    pub sequence: Vec<usize>,
    /// Tags in order of the song.
    pub tags: Vec<TagUse>,
    /// Restarts in order of the song.
    pub restarts: Vec<Restart>,
    /// The last steps of all, where the sheet gives them.
    pub ending: Option<EndingUse>,
    /// Weight before the first step.
    pub start: Weight,
    /// The song as far as its tags and restarts reach, at least eight repetitions.
    pub runs: Vec<Run>,
}

impl Dance {
    /// The sections of one repetition in order (of all main parts, where there are several).
    pub fn main_sections(&self) -> impl Iterator<Item = &Section> {
        self.parts.iter().filter(|p| p.kind == PartKind::Main).flat_map(|p| &p.sections)
    }
}
