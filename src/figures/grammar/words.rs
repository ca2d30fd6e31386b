//! What each word of the vocabulary does to the step that is being read.

use super::{
    Action, Foot, FootPart, Kind, Place, Reach, Scan, TurnWhen, W, Waiting, foot_token, number_word, side_of,
    verb,
};

impl Scan<'_> {
    /// How many words tell the way behind a step that keeps the weight: "going right", "travelling to the left".
    fn way_ahead(&self) -> Option<usize> {
        let keeps = matches!(
            self.w.action,
            Some(Action::Touch | Action::Brush | Action::Scuff | Action::Kick | Action::Hitch | Action::Clap)
        );
        let word = self.tokens[self.i].span.of(self.text);
        let goes =
            ["going", "moving", "travelling", "traveling"].iter().any(|w| word.eq_ignore_ascii_case(w));
        let to = 1 + usize::from(self.peek_w(1) == Some(W::To));
        let the = to + usize::from(self.peek_w(to) == Some(W::The));
        let side = self.peek_w(the).and_then(side_of).is_some();
        (keeps && goes && side && self.ends_after(the + 1)).then_some(the + 1)
    }

    pub(super) fn word(&mut self, w: W) -> bool {
        if let Some(foot) = side_of(w) {
            return self.side(foot);
        }
        match w {
            W::RF => self.certain_foot(Foot::Right, 1),
            W::LF => self.certain_foot(Foot::Left, 1),
            W::Foot | W::Feet | W::Leg => {
                // "bring the foot home": the one that was spoken of.
                let spoken_of =
                    w == W::Foot && !self.started() && self.i > 0 && self.tokens[self.i - 1].is(W::The);
                self.spoken_of |= spoken_of;
                if self.w.both || self.w.foot.is_some() || spoken_of {
                    self.pass()
                } else {
                    w == W::Feet && self.both()
                }
            }
            W::Both => self.both(),
            // "on the half beat" is a time, no turn.
            W::Eighth | W::Half if self.peek_w(1) == Some(W::Count) => false,
            W::Quarter | W::Half | W::ThreeQuarter | W::Full | W::Eighth => self.turn_in_words(w),
            W::Three if self.peek_w(1) == Some(W::Quarter) => self.turn_size(36, 2),
            W::Turn => self.turn_word(),
            // "swing round a quarter": the dancer turns, no leg sweeps.
            W::Sweep if !self.started() && self.peek_w(1) == Some(W::Around) && self.turn_ahead(2) => {
                self.i += 1;
                self.pass()
            }
            // "Swing your hips to the right" is a sway.
            W::Sweep if !self.started() && self.hips_ahead() => self.verb(W::Sway, Action::Sway),
            W::Other if self.turn_ahead(1) => self.other_share(),
            W::Clockwise => self.turn_to(Foot::Right, 1),
            W::Anticlockwise => self.turn_to(Foot::Left, 1),
            W::Forward | W::Back => self.straight(w),
            W::Side => self.sideways(),
            W::Diagonal => self.diagonal(),
            W::Cross => self.cross(),
            W::Across => self.across(),
            W::Front => self.front(),
            W::Third if matches!(self.w.place, Some(Place::Behind)) => {
                self.w.place = Some(Place::Third);
                self.accept(1)
            }
            W::Behind => self.placed(Place::Behind, Waiting::Relation),
            W::Lock => self.lock(),
            W::Close | W::Make if !self.started() && self.heels_ahead(w) => true,
            W::Beside | W::Together => self.together(w),
            W::Close => self.close(),
            // "place ball of R forward"
            W::Place
                if !self.started()
                    && self.peek_w(1).is_some_and(|w| {
                        matches!(w, W::Ball | W::Toe | W::Heel | W::R | W::L | W::RF | W::LF | W::The)
                    }) =>
            {
                self.pass()
            }
            W::Home => self.placed(Place::Home, Waiting::Nothing),
            W::Place => self.placed(Place::InPlace, Waiting::Nothing),
            // "You come out facing the front" is about the end of a turn.
            W::Out if !self.started() && self.comes() => false,
            // "Right heel out in front": the second word says where.
            W::Out
                if self.w.part.is_some()
                    && (self.peek_w(1) == Some(W::In) && self.peek_w(2) == Some(W::Front)
                        || self.peek_w(1) == Some(W::Forward)) =>
            {
                self.pass()
            }
            W::Out => self.out(Place::Out),
            W::In => self.inward(),
            W::Up => self.up(),
            W::Down => self.down(),
            W::Heel => self.part(FootPart::Heel),
            W::Toe => self.part(FootPart::Toe),
            W::Ball => self.ball(),
            W::Knee | W::Hip | W::Hand | W::Body => self.body(w),
            W::Long | W::Small => {
                self.w.reach = if w == W::Long { Reach::Long } else { Reach::Small };
                if self.started() { self.accept(1) } else { self.pass() }
            }
            // "Hook it in front of the right": what it does it to is told, so that the foot that follows stands.
            W::It
                if self.w.action.is_some()
                    && self.w.place.is_none()
                    && self.w.foot.is_none()
                    && !matches!(self.tokens[self.i - 1].kind, Kind::W(W::Walk | W::Run)) =>
            {
                self.taking.side_is_other = true;
                self.pass()
            }
            // "next to it": the foot that stands.
            W::It if matches!(self.waiting, Waiting::To | Waiting::Relation) && self.w.place.is_some() => {
                self.waiting = Waiting::Nothing;
                self.accept(1)
            }
            W::It => {
                self.spoken_of |= self.w.foot.is_none() && self.w.place.is_none();
                self.pass()
            }
            // "lift RF slowly", "raise the left leg": a foot in the air; "lift both heels" is another thing.
            W::Lift if !self.started() && self.foot_ahead() => self.verb(W::Hitch, Action::Hitch),
            W::Slightly | W::Low | W::Slow | W::Quick | W::The | W::Of | W::Single => self.pass(),
            W::Make | W::Take if !self.started() && self.puts_down() => {
                self.i += 1;
                self.verb(W::Drop, Action::Drop)
            }
            W::Then | W::Make | W::Take if !self.started() => self.pass(),
            // "the left goes forward", "put it home"
            W::Make | W::Take
                if (self.w.only_foot()
                    || self.w.part.is_some() && self.w.action.is_none() && self.w.place.is_none())
                    && !self.turn_ahead(1) =>
            {
                self.pass()
            }
            // "Side, together, side, touch going right": the way of all of them, not the foot that touches.
            W::Make if let Some(n) = self.way_ahead() => self.accept(n),
            W::Make if self.participle() || self.peek_w(1) == Some(W::The) || self.turn_ahead(1) => {
                // "Step forward making a quarter turn"; but "turn a quarter right bringing right beside left".
                if self.w.turn.is_none() {
                    self.w.turn_when = TurnWhen::After;
                }
                self.pass()
            }
            // "heel forward and grind"
            W::And
                if self.w.part == Some(FootPart::Heel)
                    && self.w.action.is_none()
                    && self.peek_w(1) == Some(W::Grind) =>
            {
                self.w.action = Some(Action::Grind);
                self.accept(2)
            }
            W::And if !self.started() => {
                self.w.joined = true;
                self.pass()
            }
            // "forward and out": the second word only refines the first.
            // "Together and forward", "back and forward" are two steps.
            W::And
                if self.w.place.is_some()
                    && !matches!(self.w.place, Some(Place::Close | Place::Forward | Place::Back) if self.straight_ahead(1))
                    && self.ends_after(2)
                    && matches!(
                        self.peek_w(1),
                        Some(
                            W::Out
                                | W::In
                                | W::Across
                                | W::Forward
                                | W::Back
                                | W::Side
                                | W::Diagonal
                                | W::Slightly
                                | W::Down
                                | W::Up
                        )
                    ) =>
            {
                self.accept(2)
            }
            W::With if !self.started() => {
                self.w.joined = true;
                self.pass()
            }
            W::With
                if (self.w.action.is_some() || self.w.place.is_some())
                    && self.w.foot.is_none()
                    && (self.peek(1).is_some_and(foot_token)
                        || self.peek_w(1) == Some(W::The) && self.peek(2).is_some_and(foot_token)) =>
            {
                self.waiting = Waiting::On;
                self.pass()
            }
            // "at the side of the left foot"
            W::At | W::To | W::By if self.started() && self.side_of_ahead() => {
                let the = usize::from(self.peek_w(1) == Some(W::The));
                self.i += 1 + the;
                self.placed(Place::Close, Waiting::Relation)
            }
            W::To => {
                self.waiting = Waiting::To;
                self.pass()
            }
            W::On => {
                self.waiting = Waiting::On;
                self.pass()
            }
            W::From if self.started() => {
                self.from = true;
                self.pass()
            }
            W::At if self.started() && self.side_ahead() => {
                self.waiting = Waiting::To;
                self.pass()
            }
            // "Turn with it a quarter to the left": the step before goes round.
            W::By | W::With | W::While
                if self.w.turn.is_some_and(|t| t.size.is_none())
                    && self.peek_w(1) == Some(W::It)
                    && self.turn_ahead(2) =>
            {
                self.i += 2;
                true
            }
            W::For | W::By | W::At if self.started() => self.lasting(),
            W::Two | W::Three | W::Four | W::Six if self.started() && self.peek_w(1) == Some(W::Count) => {
                self.w.lasts = number_word(w);
                self.accept(2)
            }
            W::Around | W::Away | W::Off if self.started() => self.pass(),
            _ => match verb(w) {
                Some(action) => self.verb(w, action),
                None => false,
            },
        }
    }
}
