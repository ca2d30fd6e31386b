//! Feet, and where the weight is.

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
