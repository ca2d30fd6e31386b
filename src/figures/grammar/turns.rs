//! Sizes and directions of turns, and numbers that are neither.

use super::{
    Action, Foot, Kind, Place, Scan, Token, TurnWhen, W, Waiting, WrittenTurn, number_word, side_of,
    turn_word,
};

/// How many tokens before "the other quarter" the first one may stand.
const FAR: usize = 24;

impl Scan<'_> {
    pub(super) fn turn_size(&mut self, units: i32, n: usize) -> bool {
        if self.w.turn.is_some_and(|t| t.size.is_some()) || self.still() {
            return false;
        }
        // "R fwd 1/2 pivot L": the share is that of the pivot.
        let moved = self.w.place.is_some() || self.w.action.is_some_and(|a| a != Action::Pivot);
        if moved && matches!(self.peek_w(n), Some(W::Pivot | W::Paddle | W::Unwind)) {
            return false;
        }
        // A side word just before the fraction and nothing else said: "L 1/4 turn".
        if self.w.action.is_some() || self.w.place.is_some() || self.w.part.is_some() {
            self.w.turn_when = TurnWhen::After;
        }
        let turn = self.w.turn.get_or_insert(WrittenTurn::default());
        turn.size = Some(units);
        self.seen_turn_last = true;
        self.waiting = Waiting::Nothing;
        self.accept(n)
    }

    pub(super) fn turn_in_words(&mut self, w: W) -> bool {
        let units = turn_word(w).unwrap_or(0);
        // "a full and a quarter turn", "half circle" are rare; "half" alone is a share of a turn.
        let n = match (w, self.peek_w(1), self.peek_w(2)) {
            (W::Three, Some(W::Quarter), _) => 2,
            _ => 1,
        };
        self.turn_size(units, n)
    }

    /// Whether it is something during which nobody turns: "hold turn a quarter left" are two things.
    fn still(&self) -> bool {
        matches!(self.w.action, Some(Action::Hold | Action::Clap))
    }

    pub(super) fn turn_word(&mut self) -> bool {
        if self.still() {
            return false;
        }
        if self.w.turn.is_none() {
            if self.w.action.is_some() || self.w.place.is_some() {
                if !self.participle() && !self.turn_ahead(1) && self.w.action != Some(Action::Pivot) {
                    return false;
                }
                // "step turn 1/4": two counts, not a turning step.
                if !self.participle() && self.w.action == Some(Action::Step) && self.w.place.is_none() {
                    return false;
                }
                self.w.turn_when = TurnWhen::After;
            }
            self.w.turn = Some(WrittenTurn::default());
        } else if !self.seen_turn_last {
            return false;
        }
        self.seen_turn_last = true;
        self.accept(1)
    }

    /// "Turning the other quarter" goes on the way of the turn before it.
    pub(super) fn other_share(&mut self) -> bool {
        let before = &self.tokens[self.i.saturating_sub(FAR)..self.i];
        let turns = |t: &Token| {
            matches!(t.kind, Kind::Fraction(_) | Kind::W(W::Turn | W::Quarter | W::Half | W::Eighth))
        };
        let way = (1..before.len()).rev().find_map(|k| {
            let Kind::W(w) = before[k].kind else { return None };
            side_of(w).filter(|_| before[k.saturating_sub(3)..k].iter().any(turns))
        });
        if let Some(foot) = way {
            self.w.turn.get_or_insert(WrittenTurn::default()).to = Some(foot);
        }
        self.pass()
    }

    pub(super) fn turn_to(&mut self, foot: Foot, n: usize) -> bool {
        if self.w.turn.is_some_and(|t| t.to.is_some()) {
            return false;
        }
        let turn = self.w.turn.get_or_insert(WrittenTurn::default());
        turn.to = Some(foot);
        // A size may still follow: "turn left 1/4".
        self.seen_turn_last = turn.size.is_none();
        self.waiting = Waiting::Nothing;
        // "1/8 L turn"
        let over = !self.seen_turn_last && self.peek_w(n) == Some(W::Turn);
        self.accept(n + usize::from(over))
    }

    pub(super) fn number(&mut self, n: u32) -> bool {
        let degrees = self.peek(1).is_some_and(|t| t.sign('°')) || self.peek_w(1) == Some(W::Degrees);
        if degrees {
            if n == 45 && !matches!(self.w.action, Some(Action::Pivot)) && !self.seen_turn_last {
                let place = if self.w.place == Some(Place::Back) {
                    Place::DiagonalBack
                } else {
                    Place::DiagonalForward
                };
                self.w.place = Some(place);
                return self.accept(2);
            }
            return self.turn_size(i32::try_from(n.min(2880)).unwrap_or(0) * 48 / 360, 2);
        }
        if n == 45 && self.started() {
            self.w.place = Some(Place::DiagonalForward);
            return self.accept(1);
        }
        if self.started() && self.peek_w(1) == Some(W::Count) {
            self.w.lasts = Some(n);
            return self.accept(2);
        }
        if (2..=8).contains(&n)
            && self.w.lasts.is_none()
            && matches!(
                self.w.action,
                Some(
                    Action::Drag | Action::Sweep | Action::Hold | Action::Slide | Action::Body | Action::Roll
                )
            )
        {
            // "drag 2 3": the movement goes on over these counts.
            let mut k = 1;
            while matches!(self.peek(k).map(|t| t.kind), Some(Kind::Number(m)) if m == n + u32::try_from(k).unwrap_or(0))
            {
                k += 1;
            }
            self.w.lasts = u32::try_from(k).ok();
            return self.accept(k);
        }
        false
    }

    /// "For two counts", "over 2 counts".
    pub(super) fn lasting(&mut self) -> bool {
        // "over counts 5, 6", "on counts 7-8"
        if self.peek_w(1) == Some(W::Count)
            && let Some(Kind::Number(a)) = self.peek(2).map(|t| t.kind)
            && self.peek(3).is_some_and(|t| matches!(t.kind, Kind::Sign('-' | ',')) || t.is(W::And))
            && let Some(Kind::Number(b)) = self.peek(4).map(|t| t.kind)
            && b == a + 1
        {
            self.w.lasts = Some(2);
            return self.accept(5);
        }
        // "for the last two beats"
        let the = usize::from(self.peek_w(1) == Some(W::The));
        let last = the + usize::from(self.peek_w(1 + the) == Some(W::Last));
        let n = match self.peek(1 + last).map(|t| t.kind) {
            Some(Kind::Number(n)) => Some(n),
            Some(Kind::W(w)) => number_word(w),
            _ => None,
        };
        if let Some(n) = n
            && self.peek_w(2 + last) == Some(W::Count)
        {
            self.w.lasts = Some(n);
            return self.accept(3 + last);
        }
        // "drag the left in for two"
        if let Some(n) = n
            && last == 0
            && self.tokens[self.i].is(W::For)
            && self.ends_after(2)
        {
            self.w.lasts = Some(n);
            return self.accept(2);
        }
        false
    }
}
