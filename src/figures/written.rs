//! One step as somebody wrote it, before anything is filled in.

use crate::dance::{Action, Effect, Foot, Place, Reach, TurnWhen};
use crate::sheet::classes::{cardinal, ordinal};
use crate::sheet::vocabulary::W;

/// A turn as written: either half may be missing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct WrittenTurn {
    /// Size in 1/48 of a turn.
    pub size: Option<i32>,
    /// Direction.
    pub to: Option<Foot>,
}

/// The end of a foot that is named.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FootPart {
    /// The heel.
    Heel,
    /// The toe.
    Toe,
    /// The ball.
    Ball,
}

/// A step, a turn or a gesture in a writer's words.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Written {
    /// The foot that moves, where it is named.
    pub foot: Option<Foot>,
    /// Both feet.
    pub both: bool,
    /// The verb, where there is one.
    pub action: Option<Action>,
    /// The part of the foot.
    pub part: Option<FootPart>,
    /// Where to.
    pub place: Option<Place>,
    /// "To the right", "hips left".
    pub side: Option<Foot>,
    /// The foot beside, before or behind which it goes.
    pub beside: Option<Foot>,
    /// "Onto the left": the foot that has the weight afterwards.
    pub onto: Option<Foot>,
    /// Long or small.
    pub reach: Reach,
    /// The turn.
    pub turn: Option<WrittenTurn>,
    /// Whether it is written before the step or after it.
    pub turn_when: TurnWhen,
    /// Counts that it takes, where they are said.
    pub lasts: Option<u32>,
    /// "Stomp up".
    pub up: bool,
    /// Written as something done at the same time: "sweeping", "with a clap".
    pub joined: bool,
    /// The verb "close" or "together" without a plain verb of stepping.
    pub closing: bool,
    /// One past the last token.
    pub end: usize,
    /// Words inside that nobody knows.
    pub skipped: u32,
}

impl Written {
    /// Whether it says only a turn.
    #[must_use]
    pub fn only_turn(&self) -> bool {
        self.turn.is_some() && self.action.is_none() && self.place.is_none() && self.part.is_none()
    }

    /// Whether it says only a foot.
    #[must_use]
    pub fn only_foot(&self) -> bool {
        self.turn.is_none()
            && self.action.is_none()
            && self.place.is_none()
            && self.part.is_none()
            && (self.foot.is_some() || self.both)
    }
}

/// The action that a verb stands for.
#[must_use]
pub fn verb(w: W) -> Option<Action> {
    Some(match w {
        W::Step | W::Walk | W::Run | W::Leap | W::Close => Action::Step,
        W::Rock => Action::Rock,
        W::Recover => Action::Recover,
        W::Press => Action::Press,
        W::Lunge => Action::Lunge,
        W::Sway => Action::Sway,
        W::Stomp => Action::Stomp,
        W::Drop => Action::Drop,
        W::Grind => Action::Grind,
        W::Skate => Action::Skate,
        W::Slide => Action::Slide,
        W::Shift => Action::Shift,
        W::Touch => Action::Touch,
        W::Point => Action::Point,
        W::Dig => Action::Heel,
        W::Kick => Action::Kick,
        W::Flick => Action::Flick,
        W::Hook => Action::Hook,
        W::Hitch => Action::Hitch,
        W::Brush => Action::Brush,
        W::Scuff => Action::Scuff,
        W::Drag => Action::Drag,
        W::Sweep => Action::Sweep,
        W::Fan => Action::Fan,
        W::Pop => Action::KneePop,
        W::Split => Action::Split,
        W::Swivel => Action::Swivel,
        W::Bounce => Action::Bounce,
        W::Bump => Action::Bump,
        W::Roll => Action::Roll,
        W::Jump => Action::Jump,
        W::Hop => Action::Hop,
        W::Scoot => Action::Scoot,
        W::Spin => Action::Spin,
        W::Spiral => Action::Spiral,
        W::Unwind => Action::Unwind,
        W::Pivot => Action::Pivot,
        W::Paddle => Action::Paddle,
        W::Applejack => Action::Applejack,
        W::Swivet => Action::Swivet,
        W::Shimmy | W::Dip => Action::Body,
        W::Hold => Action::Hold,
        W::Clap => Action::Clap,
        _ => return None,
    })
}

/// The number that a word stands for.
#[must_use]
pub fn number_word(w: W) -> Option<u32> {
    match w {
        W::Once => Some(1),
        W::Twice => Some(2),
        W::Thrice => Some(3),
        // The share of a turn.
        W::Eighth => None,
        _ => cardinal(w).or_else(|| ordinal(w)),
    }
}

/// The share of a turn that a word stands for, in 1/48.
#[must_use]
pub fn turn_word(w: W) -> Option<i32> {
    Some(match w {
        W::Quarter => 12,
        W::Half => 24,
        W::ThreeQuarter => 36,
        W::Full => 48,
        W::Eighth => 6,
        _ => return None,
    })
}

/// What an action does to the weight unless something else is said.
#[must_use]
pub fn usual_effect(action: Action) -> Effect {
    use Action as A;
    match action {
        A::Step
        | A::Rock
        | A::Recover
        | A::Ball
        | A::Press
        | A::Lunge
        | A::Sway
        | A::Stomp
        | A::Drop
        | A::Grind
        | A::Skate
        | A::Slide
        | A::Shift
        | A::Pivot
        | A::Paddle => Effect::Takes,
        A::Touch
        | A::Toe
        | A::Point
        | A::Heel
        | A::Kick
        | A::Flick
        | A::Hook
        | A::Hitch
        | A::Brush
        | A::Scuff
        | A::Drag
        | A::Sweep
        | A::Fan
        | A::KneePop => Effect::Free,
        A::Jump | A::Bump => Effect::Shares,
        A::Bounce
        | A::Roll
        | A::Swivel
        | A::Split
        | A::Applejack
        | A::Swivet
        | A::Hop
        | A::Scoot
        | A::Spin
        | A::Spiral
        | A::Turn
        | A::Unwind => Effect::Keeps,
        A::Body | A::Hips | A::Clap | A::Hold => Effect::None,
    }
}

/// Where an action goes when no place is written (figures: touch beside, point to the side, heel forward).
#[must_use]
pub fn usual_place(action: Action) -> Place {
    use Action as A;
    match action {
        A::Step
        | A::Rock
        | A::Press
        | A::Heel
        | A::Kick
        | A::Brush
        | A::Scuff
        | A::Sweep
        | A::Grind
        | A::Toe
        | A::Hips => Place::Forward,
        A::Ball | A::Touch | A::Drag | A::Slide => Place::Close,
        A::Lunge | A::Point => Place::Side,
        A::Skate => Place::DiagonalForward,
        A::Flick => Place::Back,
        A::Hook => Place::Cross,
        A::Hitch | A::Body => Place::Up,
        A::KneePop => Place::In,
        A::Roll => Place::Circle,
        A::Clap => Place::Hands,
        A::Hold => Place::Still,
        A::Bump => Place::Right,
        A::Fan => Place::ToesOut,
        A::Swivel | A::Applejack | A::Swivet => Place::HeelsRight,
        A::Split => Place::HeelsOut,
        A::Recover
        | A::Sway
        | A::Stomp
        | A::Drop
        | A::Shift
        | A::Pivot
        | A::Paddle
        | A::Bounce
        | A::Jump
        | A::Hop
        | A::Scoot
        | A::Spin
        | A::Spiral
        | A::Turn
        | A::Unwind => Place::InPlace,
    }
}

impl Written {
    /// The action and the place that the words mean, with what they leave out filled in.
    #[must_use]
    pub fn meaning(&self) -> Option<(Action, Place)> {
        let mut action = match self.action {
            Some(a) => a,
            None if self.place.is_some() => Action::Step,
            None if self.only_turn() => Action::Turn,
            None => return None,
        };
        if action == Action::Bump && matches!(self.place, Some(Place::Forward | Place::Back)) {
            action = Action::Hips;
        }
        let ends = |heels: Place, toes: Place| if self.part == Some(FootPart::Toe) { toes } else { heels };
        let place = match action {
            Action::Swivel | Action::Split | Action::Fan | Action::Applejack | Action::Swivet => {
                let toes_first =
                    matches!(action, Action::Fan | Action::Applejack | Action::Swivet) && self.part.is_none();
                let ends = |h, t| if toes_first { t } else { ends(h, t) };
                match (self.place, self.side) {
                    (Some(Place::Out), _) => ends(Place::HeelsOut, Place::ToesOut),
                    (Some(Place::In | Place::Close), _) => ends(Place::HeelsIn, Place::ToesIn),
                    (Some(Place::Home | Place::InPlace), _) => ends(Place::HeelsCentre, Place::ToesCentre),
                    (_, Some(Foot::Left)) => ends(Place::HeelsLeft, Place::ToesLeft),
                    (_, Some(Foot::Right)) => ends(Place::HeelsRight, Place::ToesRight),
                    _ if action == Action::Split || action == Action::Fan => {
                        ends(Place::HeelsOut, Place::ToesOut)
                    }
                    _ => ends(Place::HeelsRight, Place::ToesRight),
                }
            }
            Action::Bump => match self.side.or(self.foot) {
                Some(Foot::Left) => Place::Left,
                _ => Place::Right,
            },
            Action::Body if self.place == Some(Place::InPlace) => Place::Down,
            Action::Kick if self.place == Some(Place::Cross) => Place::DiagonalAcross,
            _ => match (self.place, self.side) {
                (Some(Place::Side), Some(side)) if self.foot.is_some_and(|f| f != side) => Place::Cross,
                (Some(Place::DiagonalForward), Some(side)) if self.foot.is_some_and(|f| f != side) => {
                    Place::DiagonalAcross
                }
                (Some(place), _) => place,
                (None, _) => usual_place(action),
            },
        };
        Some((action, place))
    }
}
