//! Where the foot goes.

use super::{Action, FootPart, Kind, Place, Scan, W, Waiting, foot_token, side_of};

impl Scan<'_> {
    /// Puts a place that stands by itself; false where the step has one already.
    pub(super) fn placed(&mut self, place: Place, then: Waiting) -> bool {
        if self.from {
            self.from = false;
            return self.pass();
        }
        let to = self.waiting == Waiting::To;
        if matches!(self.w.place, Some(Place::LockBehind | Place::LockFront))
            && matches!(place, Place::Behind | Place::Cross | Place::Forward)
        {
            self.waiting = then;
            return self.accept(1);
        }
        // "in in", "home home" are two steps; letters may stand for something else.
        let again = |t: &[crate::sheet::words::Token]| t[0].kind == t[1].kind && t[1].span.range().len() > 1;
        if self.bare_place
            && self.w.place == Some(place)
            && self.i > 0
            && again(&self.tokens[self.i - 1..=self.i])
        {
            return false;
        }
        if let Some(old) = self.w.place
            && old != place
        {
            // "back to centre", "forward across": the later word is nearer to the point.
            let refines = to
                || matches!(place, Place::Home | Place::InPlace)
                || (matches!(place, Place::Behind | Place::Cross)
                    && matches!(old, Place::Back | Place::Forward | Place::Cross))
                || (old == Place::Cross && place == Place::Behind)
                // "bring it in next to L"
                || (old == Place::In && place == Place::Close);
            let crossed = old == Place::Cross && place == Place::Behind || old == Place::In;
            if !refines || (self.bare_place && !crossed) {
                return false;
            }
        }
        self.w.place = Some(place);
        self.bare_place |= self.w.action.is_none() && self.w.part.is_none();
        self.waiting = then;
        self.seen_turn_last = false;
        self.accept(1)
    }

    /// Whether the way home is all that is said, or the weight behind it: "back home with your weight".
    fn ends_home(&self, n: usize) -> bool {
        self.ends_after(n) || matches!(self.peek_w(n), Some(W::With | W::Take | W::Beside))
    }

    /// Whether the clause before puts a foot out without the weight.
    fn put_out(&self) -> bool {
        let before = self.tokens[..self.i].iter().rev().take(7);
        let mut clauses = before.take_while(|t| !matches!(t.kind, Kind::Sign('.' | ';' | '\n')));
        clauses.any(|t| matches!(t.kind, Kind::W(W::Heel | W::Toe | W::Touch | W::Point | W::Dig | W::Kick)))
    }

    pub(super) fn straight(&mut self, w: W) -> bool {
        let (straight, diagonal) = match w {
            W::Forward => (Place::Forward, Place::DiagonalForward),
            _ => (Place::Back, Place::DiagonalBack),
        };
        if self.from {
            self.from = false;
            return self.pass();
        }
        if self.waiting == Waiting::Relation && self.peek_w(1) == Some(W::Of) {
            return self.pass();
        }
        // "back to the middle", "back in place", "forward to the centre"
        if self.w.place.is_none()
            && self.w.action != Some(Action::Rock)
            && matches!(self.peek_w(1), Some(W::To | W::In))
        {
            let the = usize::from(self.peek_w(2) == Some(W::The));
            if matches!(self.peek_w(2 + the), Some(W::Home | W::Place))
                && !self.tokens[self.i + 2 + the].span.is_empty()
            {
                self.w.place = Some(Place::Home);
                self.bare_place |= self.w.action.is_none() && self.w.part.is_none();
                return self.accept(3 + the);
            }
        }
        // "R heel forward, back together": what was put out comes home.
        if w == W::Back
            && self.w.place.is_none()
            && self.w.action.is_none()
            && self.peek_w(1) == Some(W::Together)
            && self.put_out()
        {
            self.w.place = Some(Place::Close);
            self.w.closing = true;
            return self.accept(2);
        }
        // "The right foot comes back home"
        if w == W::Back && self.w.place.is_none() && self.peek_w(1) == Some(W::Home) && self.ends_home(2) {
            self.w.place = Some(Place::Home);
            self.bare_place |= self.w.action.is_none() && self.w.part.is_none();
            return self.accept(2);
        }
        match self.w.place {
            None => {}
            Some(Place::DiagonalForward | Place::DiagonalBack) => {
                self.w.place = Some(diagonal);
                return self.accept(1);
            }
            // "cross step forward", "slightly forward" says how, not where.
            Some(Place::Cross | Place::Side | Place::Behind | Place::LockBehind | Place::Out)
                if self.i > 0 && matches!(self.tokens[self.i - 1].kind, Kind::W(W::Slightly | W::Step)) =>
            {
                return self.accept(1);
            }
            Some(_) if self.w.action == Some(Action::Sweep) => {}
            Some(_) => return false,
        }
        if self.w.action.is_none() && self.w.part.is_none() && self.peek_w(1) == Some(W::Diagonal) {
            self.w.place = Some(diagonal);
            self.bare_place = true;
            return self.accept(2);
        }
        self.w.place = Some(straight);
        self.bare_place |= self.w.action.is_none() && self.w.part.is_none();
        self.waiting = Waiting::Nothing;
        self.seen_turn_last = false;
        self.accept(1)
    }

    /// Whether "forward" or "back" stands so many tokens on.
    pub(super) fn straight_ahead(&self, n: usize) -> bool {
        matches!(self.peek_w(n), Some(W::Forward | W::Back))
    }

    pub(super) fn sideways(&mut self) -> bool {
        if matches!(self.w.place, Some(Place::DiagonalForward | Place::DiagonalBack)) {
            return self.pass();
        }
        self.placed(Place::Side, Waiting::Nothing)
    }

    pub(super) fn diagonal(&mut self) -> bool {
        let place = match self.w.place {
            Some(Place::Back | Place::DiagonalBack) => Place::DiagonalBack,
            None | Some(Place::Forward | Place::DiagonalForward | Place::Side) => Place::DiagonalForward,
            Some(_) => return self.pass(),
        };
        self.w.place = Some(place);
        self.bare_place |= self.w.action.is_none() && self.w.part.is_none();
        self.waiting = Waiting::Nothing;
        self.seen_turn_last = false;
        self.accept(1)
    }

    pub(super) fn cross(&mut self) -> bool {
        if self.participle() && self.w.action.is_some() {
            self.w.place = Some(Place::Cross);
            self.waiting = Waiting::Relation;
            return self.accept(1);
        }
        if self.w.action.is_some() && self.w.place.is_some() {
            return false;
        }
        self.placed(Place::Cross, Waiting::Relation)
    }

    pub(super) fn across(&mut self) -> bool {
        if self.tokens[self.i].span.of(self.text).eq_ignore_ascii_case("over") {
            if side_of(self.peek_w(1).unwrap_or(W::The)).is_some() && self.peek_w(2) == Some(W::Shoulder) {
                self.waiting = Waiting::Turn;
                return self.pass();
            }
            if self.peek_w(1) == Some(W::The) && self.peek_w(3) == Some(W::Shoulder) {
                self.waiting = Waiting::Turn;
                return self.pass();
            }
            if self.started() && self.lasting() {
                return true;
            }
            // "over 2 beats" is no way to go.
            if matches!(self.peek(1).map(|t| t.kind), Some(Kind::Number(_)))
                && self.peek_w(2) == Some(W::Count)
            {
                return false;
            }
        }
        if self.w.place == Some(Place::Cross) {
            self.waiting = Waiting::Relation;
            return self.accept(1);
        }
        self.placed(Place::Cross, Waiting::Relation)
    }

    pub(super) fn front(&mut self) -> bool {
        if self.from {
            self.from = false;
            return self.pass();
        }
        if self.w.action == Some(Action::Sweep) {
            self.w.place = Some(Place::Forward);
            return self.accept(1);
        }
        // "in front of L" crosses, "in front" alone is forward.
        let related = self.peek_w(1) == Some(W::Of)
            || self.peek(1).is_some_and(foot_token)
            || self.w.place == Some(Place::Cross);
        self.placed(if related { Place::Cross } else { Place::Forward }, Waiting::Relation)
    }

    pub(super) fn lock(&mut self) -> bool {
        if self.w.action.is_some_and(|a| a != Action::Step && a != Action::Rock) || self.w.place.is_some() {
            return false;
        }
        let ahead = (1..6).map_while(|n| self.peek(n)).find_map(|t| match t.kind {
            Kind::W(W::Across | W::Front) => Some(Place::LockFront),
            Kind::W(W::Behind) => Some(Place::LockBehind),
            _ => None,
        });
        self.w.place = Some(ahead.unwrap_or(Place::LockBehind));
        self.w.action.get_or_insert(Action::Step);
        self.waiting = Waiting::Relation;
        self.accept(1);
        // The word "behind" or "across" that belongs to the lock.
        true
    }

    pub(super) fn together(&mut self, w: W) -> bool {
        // "We go sideways next": an order of things, where no foot is said to stand there.
        let next = self.tokens[self.i].span.of(self.text).eq_ignore_ascii_case("next");
        if next && !self.started() && self.peek_w(1) != Some(W::To) {
            return false;
        }
        if matches!(self.w.place, Some(Place::Forward | Place::Back)) && w == W::Beside {
            self.waiting = Waiting::Relation;
            return self.accept(1);
        }
        // "bring the right foot home beside the left", "back in place next to it": one place, told twice
        if matches!(self.w.place, Some(Place::Home | Place::InPlace)) && w == W::Beside {
            self.w.place = Some(Place::Close);
            self.waiting = Waiting::Relation;
            return self.accept(1);
        }
        if self.w.part.is_some() && self.w.both {
            self.w.place = Some(Place::In);
            return self.accept(1);
        }
        if self.w.place == Some(Place::Close) {
            self.waiting = Waiting::Relation;
            return self.accept(1);
        }
        // "R heel together, L heel together": the heel is out and comes home; "toe together" may be a touch.
        let out = self.w.action.is_none() && self.w.place.is_none() && w == W::Together;
        if out && (self.w.part == Some(FootPart::Heel) || self.w.part.is_some() && self.direction_is_step()) {
            return false;
        }
        let no_verb = self.w.action.is_none() && self.w.part.is_none();
        if self.placed(Place::Close, Waiting::Relation) {
            self.w.closing |= no_verb;
            if w == W::Beside && self.i < self.limit && self.peek_w(0) == Some(W::To) {
                self.i += 1;
            }
            return true;
        }
        false
    }

    /// "Open the two heels", "close both heels": a split.
    pub(super) fn heels_ahead(&mut self, w: W) -> bool {
        let text = self.text;
        let opens =
            w == W::Make && self.tokens[self.i].span.of(text).to_ascii_lowercase().starts_with("open");
        if !opens && w != W::Close {
            return false;
        }
        let mut n = 1;
        while matches!(self.peek_w(n), Some(W::The | W::Two | W::Both)) {
            n += 1;
        }
        let part = match self.peek_w(n) {
            Some(W::Heel) => FootPart::Heel,
            Some(W::Toe) => FootPart::Toe,
            _ => return false,
        };
        if !self.peek(n).is_some_and(|t| t.span.of(text).ends_with(['s', 'S'])) {
            return false;
        }
        self.w.part = Some(part);
        self.w.both = true;
        self.w.place = Some(if opens { Place::Out } else { Place::In });
        self.accept(n + 1)
    }

    pub(super) fn close(&mut self) -> bool {
        if self.w.action.is_some() || self.w.place.is_some() {
            // "right foot to the left one close": the verb stands at the end.
            if self.w.action.is_none() && self.w.place == Some(Place::Close) && self.w.beside.is_some() {
                self.w.closing = true;
                return self.accept(1);
            }
            if self.participle() && self.w.action == Some(Action::Step) && self.w.place.is_none() {
                self.w.place = Some(Place::Close);
                self.waiting = Waiting::Relation;
                return self.accept(1);
            }
            return false;
        }
        self.w.place = Some(Place::Close);
        self.w.closing = true;
        self.bare_place = true;
        self.waiting = Waiting::Relation;
        self.seen_turn_last = false;
        self.accept(1)
    }

    pub(super) fn out(&mut self, place: Place) -> bool {
        if self.w.part.is_some() && (self.w.both || self.w.action.is_none()) {
            self.w.place = Some(place);
            return self.accept(1);
        }
        if self.w.place == Some(Place::Side) {
            return self.pass();
        }
        let out = self.placed(place, Waiting::Nothing);
        // "Right out forward" as in a V step.
        let slants = out && matches!(self.peek_w(0), Some(W::Forward | W::Back));
        if slants && place == Place::Out { self.accept(1) } else { out }
    }

    pub(super) fn inward(&mut self) -> bool {
        match self.peek_w(1) {
            Some(W::Place | W::Home) => self.pass(),
            Some(W::Front) => self.pass(),
            Some(W::Back) if self.peek_w(2) == Some(W::Of) => {
                self.i += 2;
                self.placed(Place::Behind, Waiting::Relation)
            }
            Some(W::The) => self.pass(),
            // "half turn in left": on that side.
            Some(w) if self.seen_turn_last && side_of(w).is_some() => self.pass(),
            _ => self.out(Place::In),
        }
    }

    pub(super) fn up(&mut self) -> bool {
        if self.w.action == Some(Action::Body) {
            self.w.place = Some(Place::Up);
            return self.accept(1);
        }
        if self.w.action == Some(Action::Stomp) {
            self.w.up = true;
            return self.accept(1);
        }
        if self.started() { self.pass() } else { false }
    }

    pub(super) fn down(&mut self) -> bool {
        if self.w.action == Some(Action::Body) {
            self.w.place = Some(Place::Down);
            return self.accept(1);
        }
        match (self.w.part, self.w.action) {
            (Some(_), None) => {
                self.w.action = Some(Action::Drop);
                self.accept(1)
            }
            (None, None) if self.peek_w(1).is_some_and(|w| matches!(w, W::Heel | W::Toe)) => {
                self.w.action = Some(Action::Drop);
                self.accept(1)
            }
            // "put it down beside the left"
            _ if !self.started() && self.spoken_of => self.pass(),
            _ if self.started() => {
                if self.w.action.is_none() {
                    return self.placed(Place::InPlace, Waiting::Nothing);
                }
                self.pass()
            }
            _ => false,
        }
    }
}
