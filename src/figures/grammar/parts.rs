//! Which part of the foot or the body acts, and what it does.

use super::{Action, FootPart, Scan, TurnWhen, W, Waiting, WrittenTurn, ends_in};

impl Scan<'_> {
    pub(super) fn part(&mut self, part: FootPart) -> bool {
        if self.waiting == Waiting::Relation || (self.waiting == Waiting::To && self.w.place.is_some()) {
            self.waiting = Waiting::Nothing;
            return self.pass();
        }
        if self.w.part.is_some() && self.w.part != Some(part) {
            return false;
        }
        if self.w.part == Some(part) && self.w.action.is_none() {
            return false;
        }
        if self.w.action.is_none() && self.w.place.is_some() && self.direction_is_step() {
            return false;
        }
        if matches!(self.w.action, Some(Action::Hold | Action::Clap | Action::Recover)) {
            return false;
        }
        let plural = ends_in(self.tokens[self.i].span.of(self.text), b"s");
        if plural
            && self.w.foot.is_none()
            && self.w.action.is_none_or(|a| {
                matches!(a, Action::Split | Action::Swivel | Action::Bounce | Action::Fan | Action::Drop)
            })
        {
            self.w.both = true;
        }
        self.w.part = Some(part);
        self.seen_turn_last = false;
        self.waiting = Waiting::Nothing;
        self.accept(1)
    }

    /// Whether the hips are what the verb moves.
    pub(super) fn hips_ahead(&self) -> bool {
        let the = usize::from(matches!(self.peek_w(1), Some(W::The | W::Both)));
        self.peek_w(1 + the) == Some(W::Hip)
    }

    /// "Put down the heel", "set down R toe".
    pub(super) fn puts_down(&self) -> bool {
        let small = |k: &usize| {
            matches!(self.peek_w(*k), Some(W::The | W::R | W::L | W::RF | W::LF | W::Foot | W::Both))
        };
        self.peek_w(1) == Some(W::Down)
            && (2..6).find(|k| !small(k)).is_some_and(|k| matches!(self.peek_w(k), Some(W::Heel | W::Toe)))
    }

    pub(super) fn ball(&mut self) -> bool {
        if self.w.only_turn() && self.waiting == Waiting::On {
            // "on ball of left": where the turn is made.
            self.i += 1;
            while self.i < self.limit
                && matches!(
                    self.peek_w(0),
                    Some(W::Of | W::The | W::R | W::L | W::Foot | W::RF | W::LF | W::Both | W::Feet)
                )
            {
                self.w.both |= matches!(self.peek_w(0), Some(W::Both | W::Feet));
                self.i += 1;
            }
            self.w.end = self.i;
            self.waiting = Waiting::Nothing;
            return true;
        }
        if self
            .w
            .action
            .is_none_or(|a| matches!(a, Action::Step | Action::Rock | Action::Press | Action::Touch))
            && self.w.part.is_none()
        {
            if self.w.place.is_some() && self.w.action.is_none() {
                return false;
            }
            if self.w.action == Some(Action::Step)
                && self.waiting == Waiting::Nothing
                && self.w.place.is_some()
            {
                return false;
            }
            self.w.part = Some(FootPart::Ball);
            self.waiting = Waiting::On;
            return self.accept(1);
        }
        false
    }

    pub(super) fn body(&mut self, w: W) -> bool {
        match (w, self.w.action) {
            (
                _,
                Some(
                    Action::Bump
                    | Action::Roll
                    | Action::Clap
                    | Action::Hitch
                    | Action::KneePop
                    | Action::Body
                    | Action::Hook
                    | Action::Kick,
                ),
            ) => self.accept(1),
            // "step left with the hip to the left": one hip styles the step that it goes with.
            (W::Hip, None)
                if !self.started()
                    && self.w.joined
                    && self.tokens[self.i].span.of(self.text).eq_ignore_ascii_case("hip")
                    && !matches!(self.peek_w(1), Some(W::Roll | W::Bump | W::Sway)) =>
            {
                self.w.action = Some(Action::Hips);
                self.accept(1)
            }
            (W::Hip, None) if !self.started() => {
                self.w.action = Some(Action::Bump);
                self.accept(1);
                // "hip roll", "hip bump": the verb that follows names it better.
                match self.peek_w(0) {
                    Some(W::Roll) => {
                        self.w.action = Some(Action::Roll);
                        self.accept(1)
                    }
                    Some(W::Bump) => self.accept(1),
                    Some(W::Sway | W::Sweep) => {
                        self.w.action = Some(Action::Sway);
                        self.accept(1)
                    }
                    _ => true,
                }
            }
            (W::Hip, Some(Action::Sway)) => self.pass(),
            (W::Knee, None) if self.w.place.is_none() => {
                self.w.action = Some(Action::KneePop);
                self.accept(1);
                if self.peek_w(0) == Some(W::Pop) { self.accept(1) } else { true }
            }
            (W::Hand | W::Body, None) if !self.started() => {
                self.w.action = Some(Action::Body);
                self.accept(1);
                if self.peek_w(0) == Some(W::Roll) { self.accept(1) } else { true }
            }
            _ => false,
        }
    }

    pub(super) fn verb(&mut self, w: W, action: Action) -> bool {
        if self.w.action.is_some() {
            // "touch step" and the like are two steps; a slap of the hands with a step is joined.
            return false;
        }
        if self.w.place.is_some() && self.w.part.is_none() {
            let combines = matches!(
                action,
                Action::Rock
                    | Action::Touch
                    | Action::Point
                    | Action::Step
                    | Action::Stomp
                    | Action::Kick
                    | Action::Press
                    | Action::Lunge
                    | Action::Slide
                    | Action::Sway
                    | Action::Heel
                    | Action::Flick
                    | Action::Hook
                    | Action::Brush
                    | Action::Hop
                    | Action::Jump
                    | Action::Skate
                    | Action::Drag
                    | Action::Scuff
                    | Action::Hitch
                    | Action::Sweep
            );
            let plain_step = w == W::Step || w == W::Walk;
            // "RF beside LF touch", "left toe to the left point": the verb at the end.
            let last = self.w.foot.is_some() && self.ends_after(1) && combines && self.verb_last();
            if last {
                self.w.closing = false;
                self.bare_place = false;
                self.w.action = Some(action);
                return self.accept(1);
            }
            if !combines
                || self.direction_is_step()
                || (self.w.foot.is_some()
                    && !plain_step
                    && self.waiting == Waiting::Nothing
                    && !self.bare_place)
            {
                return false;
            }
            if self.w.closing && !plain_step {
                return false;
            }
            if self.w.beside.is_some() {
                return false;
            }
        }
        if self.w.part.is_some()
            && !matches!(
                action,
                Action::Touch
                    | Action::Heel
                    | Action::Step
                    | Action::Fan
                    | Action::Swivel
                    | Action::Split
                    | Action::Bounce
                    | Action::Drop
                    | Action::Grind
                    | Action::Rock
                    | Action::Point
                    | Action::Press
            )
        {
            return false;
        }
        if self.w.only_turn()
            && self.w.turn_when == TurnWhen::Before
            && matches!(action, Action::Hold | Action::Clap)
        {
            return false;
        }
        if !self.started() && self.participle() && !matches!(action, Action::Step) {
            self.w.joined = true;
        }
        if action == Action::Heel {
            self.w.part.get_or_insert(FootPart::Heel);
            if self.w.part != Some(FootPart::Heel) {
                self.w.action = Some(Action::Touch);
                return self.accept(1);
            }
        }
        self.w.closing = false;
        self.bare_place = false;
        self.w.action = Some(action);
        self.seen_turn_last =
            matches!(action, Action::Pivot | Action::Spin | Action::Spiral | Action::Unwind | Action::Paddle);
        if self.seen_turn_last {
            self.w.turn.get_or_insert(WrittenTurn::default());
        }
        self.accept(1)
    }
}
