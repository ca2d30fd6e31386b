//! What a foot or the body does and where to, in the words of the language of figures.

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
