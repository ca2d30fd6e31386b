//! Which foot is meant, and whether "left" is a foot, a direction or a way to turn.

use super::{Action, Foot, Kind, Place, Scan, W, Waiting, side_of, verb};

impl Scan<'_> {
    pub(super) fn side(&mut self, foot: Foot) -> bool {
        // "right foot", "right heel"
        let next = self.peek_w(1);
        if matches!(next, Some(W::Foot | W::Leg)) {
            return self.certain_foot(foot, 2);
        }
        if self.waiting == Waiting::Turn
            || (self.seen_turn_last && self.w.turn.is_some_and(|t| t.to.is_none()))
        {
            return self.turn_to(foot, 1);
        }
        if matches!(next, Some(W::Shoulder)) {
            return self.turn_to(foot, 2);
        }
        if self.next_begins(1) {
            return false;
        }
        // "grind toes left to right"
        if self.w.action == Some(Action::Grind)
            && self.peek_w(1) == Some(W::To)
            && self.peek_w(2).and_then(side_of).is_some()
        {
            return self.accept(3);
        }
        let waiting = self.waiting;
        match waiting {
            Waiting::To => {
                self.waiting = Waiting::Nothing;
                // "to the left one": the other foot.
                let other = self.peek(1).is_some_and(|t| t.span.of(self.text).eq_ignore_ascii_case("one"));
                if matches!(next, Some(W::Heel | W::Toe)) || other {
                    self.w.beside = Some(foot);
                    self.w.place.get_or_insert(Place::Close);
                    return self.accept(2);
                }
                if self.w.turn.is_some_and(|t| t.to.is_none())
                    && self.w.place.is_none()
                    && self.w.action.is_none()
                {
                    return self.turn_to(foot, 1);
                }
                return self.direction(foot);
            }
            Waiting::Relation
                if self.w.foot.is_some()
                    || self.spoken_of
                    || !self.related_ahead() && self.side_is_other() =>
            {
                self.waiting = Waiting::Nothing;
                self.w.beside = Some(foot);
                return self.accept(1);
            }
            Waiting::On => {
                self.waiting = Waiting::Nothing;
                if self.w.only_turn() {
                    self.w.onto = Some(foot);
                    return self.accept(1);
                }
                if self.w.foot.is_none() {
                    self.w.foot = Some(foot);
                    return self.accept(1);
                }
                if self.w.foot == Some(foot) {
                    return self.accept(1);
                }
                return false;
            }
            _ => {}
        }
        if self.w.foot.is_none() && self.turn_ahead(1) && self.side_is_turn() {
            return self.turn_to(foot, 1);
        }
        if matches!(
            self.w.action,
            Some(
                Action::Bump
                    | Action::Roll
                    | Action::Hips
                    | Action::Swivel
                    | Action::Applejack
                    | Action::Swivet
            )
        ) || (self.w.part.is_some() && self.w.both)
        {
            if self.w.side.is_some() {
                return false;
            }
            self.w.side = Some(foot);
            return self.accept(1);
        }
        if self.w.foot.is_none() && !self.w.both {
            if matches!(next, Some(W::Side | W::Diagonal)) && self.w.action.is_some() {
                // "step right side" is foot and direction in one.
                return self.direction(foot);
            }
            // The weight is recovered onto a foot, to no side; "cross right over left" names both feet.
            let foot_only =
                self.w.action == Some(Action::Recover) || self.feet_follow() || self.related_ahead();
            if self.w.action.is_some() && !foot_only && self.side_is_direction() {
                return self.direction(foot);
            }
            // "Cross the right toe over the left": the toe is that of the foot that crosses.
            if self.waiting == Waiting::Relation && matches!(next, Some(W::Heel | W::Toe)) {
                self.waiting = Waiting::Nothing;
            }
            self.w.foot = Some(foot);
            return self.accept(1);
        }
        // "RF step diagonally right forward"
        let aslant = self.i > 0 && self.tokens[self.i - 1].is(W::Diagonal);
        if aslant && self.w.side.is_none() && self.straight_ahead(1) {
            self.w.side = Some(foot);
            return self.accept(1);
        }
        if matches!(next, Some(W::Side | W::Diagonal)) {
            // "L back R side" may be two steps.
            if self.w.place.is_some()
                && (!matches!(self.w.place, Some(Place::Forward | Place::Back)) || self.foot_begins())
            {
                return false;
            }
            return self.direction(foot);
        }
        // "step R R": foot and direction.
        if self.w.foot == Some(foot)
            && self.w.place.is_none()
            && self.w.action.is_some()
            && self.w.side.is_none()
        {
            return self.direction(foot);
        }
        if self.turn_pending() {
            return self.turn_to(foot, 1);
        }
        false
    }

    /// Whether the next words tell where the foot at hand goes by the other one: "over left", "behind the left".
    fn related_ahead(&self) -> bool {
        let the = usize::from(self.peek_w(2) == Some(W::The));
        matches!(self.peek_w(1), Some(W::Across | W::Behind | W::Beside))
            && self.peek_w(2 + the).and_then(side_of).is_some()
    }

    /// Whether the next words are a foot or a leg as a whole, not its heel or toe.
    pub(super) fn foot_ahead(&self) -> bool {
        let the = usize::from(self.peek_w(1) == Some(W::The));
        let foot = |w: W| matches!(w, W::R | W::L | W::RF | W::LF);
        self.peek_w(1 + the).is_some_and(foot)
            && !matches!(self.peek_w(2 + the), Some(W::Heel | W::Toe | W::Hand | W::Hip | W::Shoulder))
    }

    /// Whether the side at hand stands in a row of sides, which are feet: "walk back R L R" goes to no side.
    fn feet_follow(&self) -> bool {
        let side = |n: usize| self.peek_w(n).and_then(side_of).is_some();
        side(1) && (side(2) || self.peek(2).is_none())
    }

    /// Whether the foot at this token, so many tokens long, begins another step: "hold L forward", "L together R side".
    fn next_begins(&mut self, n: usize) -> bool {
        let idle = matches!(self.w.action, Some(Action::Hold | Action::Clap));
        let whole = self.waiting == Waiting::Relation && self.w.foot.is_some() && self.w.place.is_some();
        let goes = |w: W| {
            matches!(w, W::Forward | W::Back | W::Side | W::Behind | W::Together | W::Cross | W::Diagonal)
                || verb(w).is_some()
        };
        (idle || whole) && self.peek_w(n).is_some_and(goes) && (idle || self.foot_begins())
    }

    /// A turn whose direction is still missing and that is not closed off by other words.
    pub(super) fn turn_pending(&self) -> bool {
        self.w.turn.is_some_and(|t| t.to.is_none()) && self.seen_turn_last
    }

    pub(super) fn direction(&mut self, foot: Foot) -> bool {
        self.w.side = Some(foot);
        let mut n = 1;
        let mut place = Place::Side;
        while let Some(w) = self.peek_w(n) {
            match w {
                W::Side => n += 1,
                W::Diagonal => {
                    place = match self.w.place {
                        Some(Place::Back | Place::DiagonalBack) => Place::DiagonalBack,
                        _ => Place::DiagonalForward,
                    };
                    n += 1;
                }
                W::Forward | W::Front if self.peek_w(n + 1) == Some(W::Diagonal) => {
                    place = Place::DiagonalForward;
                    n += 2;
                }
                W::Back if self.peek_w(n + 1) == Some(W::Diagonal) => {
                    place = Place::DiagonalBack;
                    n += 2;
                }
                _ => break,
            }
        }
        if self.w.place.is_none() || place != Place::Side {
            self.w.place = Some(place);
        }
        self.bare_place |= self.w.action.is_none();
        self.seen_turn_last = false;
        self.accept(n)
    }

    pub(super) fn certain_foot(&mut self, foot: Foot, n: usize) -> bool {
        if self.next_begins(n) {
            return false;
        }
        let related = self.waiting == Waiting::Relation
            || (self.waiting == Waiting::To && self.w.foot.is_some() && self.w.foot != Some(foot));
        if related && (self.w.foot.is_some() || self.spoken_of || self.side_is_other()) {
            self.waiting = Waiting::Nothing;
            self.w.beside = Some(foot);
            return self.accept(n);
        }
        if self.waiting == Waiting::On && self.w.only_turn() {
            self.waiting = Waiting::Nothing;
            self.w.onto = Some(foot);
            return self.accept(n);
        }
        self.waiting = Waiting::Nothing;
        if self.w.foot.is_none() && !self.w.both {
            self.w.foot = Some(foot);
            self.seen_turn_last = false;
            return self.accept(n);
        }
        if self.w.foot == Some(foot) && self.w.place.is_none() {
            return self.accept(n);
        }
        false
    }

    pub(super) fn both(&mut self) -> bool {
        if self.w.foot.is_some() {
            return false;
        }
        if self.w.only_turn() && self.waiting == Waiting::On && self.peek_w(1) == Some(W::Ball) {
            // "half turn left on both balls"
            self.i += 1;
            self.w.both = true;
            return self.ball();
        }
        self.w.both = true;
        self.waiting = Waiting::Nothing;
        self.accept(1)
    }

    /// "at the side of"
    pub(super) fn side_of_ahead(&self) -> bool {
        let n = 1 + usize::from(self.peek_w(1) == Some(W::The));
        self.peek_w(n) == Some(W::Side) && self.peek_w(n + 1) == Some(W::Of)
    }

    /// Whether the word before says that something comes about.
    pub(super) fn comes(&self) -> bool {
        let before = self.i.checked_sub(1).map(|i| self.tokens[i].span.of(self.text));
        before.is_some_and(|w| {
            matches!(&*w.to_ascii_lowercase(), "come" | "comes" | "coming" | "work" | "works")
        })
    }

    /// "at the right", "at left"
    pub(super) fn side_ahead(&self) -> bool {
        let n = 1 + usize::from(self.peek_w(1) == Some(W::The));
        self.peek_w(n).and_then(side_of).is_some()
    }

    pub(super) fn turn_ahead(&self, n: usize) -> bool {
        let skip = usize::from(self.peek_w(n) == Some(W::The));
        matches!(self.peek(n + skip).map(|t| t.kind), Some(Kind::Fraction(_)))
            || matches!(
                self.peek_w(n + skip),
                Some(W::Quarter | W::Half | W::Full | W::Turn | W::ThreeQuarter | W::Eighth)
            )
    }
}
