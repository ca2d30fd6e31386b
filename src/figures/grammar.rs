//! The grammar of one written step, the same for the lexicon and for a sheet.
//!
//! It reads from a token on as far as the words belong to one action, and says what they say outright.
//! Nothing is filled in here: which foot is free, how long a step lasts and where a turn leads is for the
//! reader to find out.

use super::written::{FootPart, Written, WrittenTurn, number_word, turn_word, verb};
use crate::dance::{Action, Foot, Place, Reach, TurnWhen};
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token};

/// How to take words that can be taken in more than one way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Taking {
    /// "Step right": the direction, not the foot.
    pub side_is_direction: bool,
    /// "Side touch": the bare direction is a step of its own.
    pub direction_is_step: bool,
    /// "Behind right": the foot that is stepped behind, not the one that steps.
    pub side_is_other: bool,
    /// "R 1/4 turn": the direction of the turn, not the foot.
    pub side_is_turn: bool,
    /// "RF beside LF touch": the verb stands at the end.
    pub verb_last: bool,
}

/// The last preposition, waiting for what it belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Waiting {
    Nothing,
    To,
    On,
    Relation,
    Turn,
}

impl Taking {
    /// Whether both take something otherwise than the plain way.
    #[must_use]
    pub fn meets(self, other: Self) -> bool {
        self.side_is_direction && other.side_is_direction
            || self.direction_is_step && other.direction_is_step
            || self.side_is_other && other.side_is_other
            || self.side_is_turn && other.side_is_turn
            || self.verb_last && other.verb_last
    }
}

struct Scan<'a> {
    text: &'a str,
    tokens: &'a [Token],
    i: usize,
    limit: usize,
    taking: Taking,
    /// What could have been taken otherwise.
    met: Taking,
    w: Written,
    waiting: Waiting,
    from: bool,
    seen_turn_last: bool,
    tentative: u32,
    bare_place: bool,
}

fn side_of(w: W) -> Option<Foot> {
    match w {
        W::R => Some(Foot::Right),
        W::L => Some(Foot::Left),
        _ => None,
    }
}

/// Reads one written step that begins at token `from`; `limit` is the end of the clause.
#[must_use]
pub fn written(text: &str, tokens: &[Token], from: usize, limit: usize, taking: Taking) -> Option<Written> {
    written_met(text, tokens, from, limit, taking).0
}

/// The same, and which takings would have read something else: all others give the same step.
#[must_use]
pub fn written_met(
    text: &str,
    tokens: &[Token],
    from: usize,
    limit: usize,
    taking: Taking,
) -> (Option<Written>, Taking) {
    let mut s = Scan {
        text,
        tokens,
        i: from,
        limit,
        taking,
        met: Taking::default(),
        w: Written::default(),
        waiting: Waiting::Nothing,
        from: false,
        seen_turn_last: false,
        tentative: 0,
        bare_place: false,
    };
    s.w.end = from;
    while s.i < s.limit && s.token() {}
    let met = s.met;
    (s.finish(from), met)
}

impl Scan<'_> {
    fn peek(&self, ahead: usize) -> Option<&Token> {
        let j = self.i + ahead;
        if j < self.limit { self.tokens.get(j) } else { None }
    }

    fn peek_w(&self, ahead: usize) -> Option<W> {
        match self.peek(ahead)?.kind {
            Kind::W(w) => Some(w),
            _ => None,
        }
    }

    fn accept(&mut self, n: usize) -> bool {
        self.i += n;
        self.w.end = self.i;
        self.w.skipped += self.tentative;
        self.tentative = 0;
        true
    }

    /// Steps over a word that says nothing, without taking it in yet.
    fn pass(&mut self) -> bool {
        self.i += 1;
        true
    }

    fn started(&self) -> bool {
        let w = &self.w;
        w.action.is_some()
            || w.place.is_some()
            || w.part.is_some()
            || w.turn.is_some()
            || w.foot.is_some()
            || w.both
    }

    /// Whether the clause ends so many tokens on.
    fn ends_after(&self, n: usize) -> bool {
        self.peek(n)
            .is_none_or(|t| matches!(t.kind, Kind::Sign(_) | Kind::Clock(_) | Kind::W(W::And | W::Then)))
    }

    fn participle(&self) -> bool {
        ends_in(self.tokens[self.i].span.of(self.text), b"ing")
    }

    fn side_is_direction(&mut self) -> bool {
        self.met.side_is_direction = true;
        self.taking.side_is_direction
    }

    fn direction_is_step(&mut self) -> bool {
        self.met.direction_is_step = true;
        self.taking.direction_is_step
    }

    fn side_is_other(&mut self) -> bool {
        self.met.side_is_other = true;
        self.taking.side_is_other
    }

    fn side_is_turn(&mut self) -> bool {
        self.met.side_is_turn = true;
        self.taking.side_is_turn
    }

    fn verb_last(&mut self) -> bool {
        self.met.verb_last = true;
        self.taking.verb_last
    }

    /// Takes the next token; false where the step ends before it.
    fn token(&mut self) -> bool {
        let t = self.tokens[self.i];
        match t.kind {
            Kind::W(w) => self.word(w),
            Kind::Fraction(units) => self.turn_size(units, 1),
            Kind::Number(n) => self.number(n),
            // A hyphen inside "cross-rock" or "half-turn".
            Kind::Sign('-') if t.gap == 0 && self.peek(1).is_some_and(|n| n.gap == 0) && self.started() => {
                self.pass()
            }
            // "rock/step": two words for one thing.
            Kind::Sign('/')
                if t.gap == 0
                    && self.w.action.is_some()
                    && self.peek_w(1).is_some_and(|w| verb(w).is_some()) =>
            {
                self.i += 2;
                true
            }
            Kind::Sign('\'' | '"' | '*' | '_') => self.pass(),
            // The full stop of an abbreviation: "fwd. R", "R. heel".
            Kind::Sign('.')
                if t.gap == 0
                    && self.started()
                    && self.i > 0
                    && self.tokens[self.i - 1].span.range().len() <= 4
                    && self.peek(1).is_some_and(|n| {
                        n.gap <= 1
                            && n.span.of(self.text).starts_with(|c: char| c.is_lowercase())
                            && !matches!(n.kind, Kind::W(w) if verb(w).is_some())
                    }) =>
            {
                self.pass()
            }
            // "K R fwd": a kick in shorthand.
            Kind::Name(_)
                if !self.started()
                    && t.span.of(self.text).eq_ignore_ascii_case("k")
                    && self.peek(1).is_some_and(|n| foot_token(n) || n.is(W::Forward)) =>
            {
                self.verb(W::Kick, Action::Kick)
            }
            Kind::Unknown if self.started() && self.tentative < 2 => {
                self.tentative += 1;
                self.pass()
            }
            _ => false,
        }
    }

    fn word(&mut self, w: W) -> bool {
        if let Some(foot) = side_of(w) {
            return self.side(foot);
        }
        match w {
            W::RF => self.certain_foot(Foot::Right, 1),
            W::LF => self.certain_foot(Foot::Left, 1),
            W::Foot | W::Feet | W::Leg => {
                if self.w.both || self.w.foot.is_some() {
                    self.pass()
                } else {
                    w == W::Feet && self.both()
                }
            }
            W::Both => self.both(),
            W::Eighth if self.peek_w(1) == Some(W::Count) => false,
            W::Quarter | W::Half | W::ThreeQuarter | W::Full | W::Eighth => self.turn_in_words(w),
            W::Three if self.peek_w(1) == Some(W::Quarter) => self.turn_size(36, 2),
            W::Turn => self.turn_word(),
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
            W::Slightly | W::Low | W::Slow | W::Quick | W::The | W::It | W::Of | W::Single => self.pass(),
            W::Then | W::Make if !self.started() => self.pass(),
            W::Make if self.participle() || self.peek_w(1) == Some(W::The) || self.turn_ahead(1) => {
                self.w.turn_when = TurnWhen::After;
                self.pass()
            }
            W::And if !self.started() => {
                self.w.joined = true;
                self.pass()
            }
            // "forward and out": the second word only refines the first.
            W::And
                if self.w.place.is_some()
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
                if self.w.action.is_some()
                    && self.w.foot.is_none()
                    && self.peek(1).is_some_and(foot_token) =>
            {
                self.waiting = Waiting::On;
                self.pass()
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

    fn side(&mut self, foot: Foot) -> bool {
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
        let waiting = self.waiting;
        match waiting {
            Waiting::To => {
                self.waiting = Waiting::Nothing;
                if matches!(next, Some(W::Heel | W::Toe)) {
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
            Waiting::Relation if self.w.foot.is_some() || self.side_is_other() => {
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
        if matches!(self.w.action, Some(Action::Bump | Action::Roll | Action::Hips | Action::Swivel))
            || (self.w.part.is_some() && self.w.both)
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
            if self.w.action.is_some() && self.side_is_direction() {
                return self.direction(foot);
            }
            self.w.foot = Some(foot);
            return self.accept(1);
        }
        if matches!(next, Some(W::Side | W::Diagonal)) {
            if self.w.place.is_some() && !matches!(self.w.place, Some(Place::Forward | Place::Back)) {
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

    /// A turn whose direction is still missing and that is not closed off by other words.
    fn turn_pending(&self) -> bool {
        self.w.turn.is_some_and(|t| t.to.is_none()) && self.seen_turn_last
    }

    fn direction(&mut self, foot: Foot) -> bool {
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

    fn certain_foot(&mut self, foot: Foot, n: usize) -> bool {
        let related = self.waiting == Waiting::Relation
            || (self.waiting == Waiting::To && self.w.foot.is_some() && self.w.foot != Some(foot));
        if related && (self.w.foot.is_some() || self.side_is_other()) {
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

    fn both(&mut self) -> bool {
        if self.w.foot.is_some() {
            return false;
        }
        self.w.both = true;
        self.waiting = Waiting::Nothing;
        self.accept(1)
    }

    /// "at the right", "at left"
    fn side_ahead(&self) -> bool {
        let n = 1 + usize::from(self.peek_w(1) == Some(W::The));
        self.peek_w(n).and_then(side_of).is_some()
    }

    fn turn_ahead(&self, n: usize) -> bool {
        let skip = usize::from(self.peek_w(n) == Some(W::The));
        matches!(self.peek(n + skip).map(|t| t.kind), Some(Kind::Fraction(_)))
            || matches!(
                self.peek_w(n + skip),
                Some(W::Quarter | W::Half | W::Full | W::Turn | W::ThreeQuarter | W::Eighth)
            )
    }

    fn turn_size(&mut self, units: i32, n: usize) -> bool {
        if self.w.turn.is_some_and(|t| t.size.is_some()) {
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

    fn turn_in_words(&mut self, w: W) -> bool {
        let units = turn_word(w).unwrap_or(0);
        // "a full and a quarter turn", "half circle" are rare; "half" alone is a share of a turn.
        let n = match (w, self.peek_w(1), self.peek_w(2)) {
            (W::Three, Some(W::Quarter), _) => 2,
            _ => 1,
        };
        self.turn_size(units, n)
    }

    fn turn_word(&mut self) -> bool {
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

    fn turn_to(&mut self, foot: Foot, n: usize) -> bool {
        if self.w.turn.is_some_and(|t| t.to.is_some()) {
            return false;
        }
        let turn = self.w.turn.get_or_insert(WrittenTurn::default());
        turn.to = Some(foot);
        // A size may still follow: "turn left 1/4".
        self.seen_turn_last = turn.size.is_none();
        self.waiting = Waiting::Nothing;
        self.accept(n)
    }

    fn number(&mut self, n: u32) -> bool {
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
        if self.started() && self.peek_w(1) == Some(W::Count) {
            self.w.lasts = Some(n);
            return self.accept(2);
        }
        false
    }

    /// "For two counts", "over 2 counts".
    fn lasting(&mut self) -> bool {
        let n = match self.peek(1).map(|t| t.kind) {
            Some(Kind::Number(n)) => Some(n),
            Some(Kind::W(w)) => number_word(w),
            _ => None,
        };
        if let Some(n) = n
            && self.peek_w(2) == Some(W::Count)
        {
            self.w.lasts = Some(n);
            return self.accept(3);
        }
        false
    }

    /// Puts a place that stands by itself; false where the step has one already.
    fn placed(&mut self, place: Place, then: Waiting) -> bool {
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
        if let Some(old) = self.w.place
            && old != place
        {
            // "back to centre", "forward across": the later word is nearer to the point.
            let refines = to
                || matches!(place, Place::Home | Place::InPlace)
                || (matches!(place, Place::Behind | Place::Cross)
                    && matches!(old, Place::Back | Place::Forward | Place::Cross))
                || (old == Place::Cross && place == Place::Behind);
            let crossed = old == Place::Cross && place == Place::Behind;
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

    fn straight(&mut self, w: W) -> bool {
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

    fn sideways(&mut self) -> bool {
        if matches!(self.w.place, Some(Place::DiagonalForward | Place::DiagonalBack)) {
            return self.pass();
        }
        self.placed(Place::Side, Waiting::Nothing)
    }

    fn diagonal(&mut self) -> bool {
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

    fn cross(&mut self) -> bool {
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

    fn across(&mut self) -> bool {
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
        }
        if self.w.place == Some(Place::Cross) {
            self.waiting = Waiting::Relation;
            return self.pass();
        }
        self.placed(Place::Cross, Waiting::Relation)
    }

    fn front(&mut self) -> bool {
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

    fn lock(&mut self) -> bool {
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

    fn together(&mut self, w: W) -> bool {
        if matches!(self.w.place, Some(Place::Forward | Place::Back)) && w == W::Beside {
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

    fn close(&mut self) -> bool {
        if self.w.action.is_some() || self.w.place.is_some() {
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

    fn out(&mut self, place: Place) -> bool {
        if self.w.part.is_some() && (self.w.both || self.w.action.is_none()) {
            self.w.place = Some(place);
            return self.accept(1);
        }
        if self.w.place == Some(Place::Side) {
            return self.pass();
        }
        self.placed(place, Waiting::Nothing)
    }

    fn inward(&mut self) -> bool {
        match self.peek_w(1) {
            Some(W::Place | W::Home) => self.pass(),
            Some(W::Front) => self.pass(),
            Some(W::Back) if self.peek_w(2) == Some(W::Of) => {
                self.i += 2;
                self.placed(Place::Behind, Waiting::Relation)
            }
            Some(W::The) => self.pass(),
            _ => self.out(Place::In),
        }
    }

    fn up(&mut self) -> bool {
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

    fn down(&mut self) -> bool {
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
            _ if self.started() => {
                if self.w.action.is_none() {
                    return self.placed(Place::InPlace, Waiting::Nothing);
                }
                self.pass()
            }
            _ => false,
        }
    }

    fn part(&mut self, part: FootPart) -> bool {
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

    fn ball(&mut self) -> bool {
        if self.w.only_turn() && self.waiting == Waiting::On {
            // "on ball of left": where the turn is made.
            self.i += 1;
            while self.i < self.limit
                && matches!(
                    self.peek_w(0),
                    Some(W::Of | W::The | W::R | W::L | W::Foot | W::RF | W::LF | W::Both | W::Feet)
                )
            {
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

    fn body(&mut self, w: W) -> bool {
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
                    Some(W::Sway) => {
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

    fn verb(&mut self, w: W, action: Action) -> bool {
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

    fn finish(mut self, from: usize) -> Option<Written> {
        let w = &mut self.w;
        if w.end == from
            || !(w.action.is_some()
                || w.place.is_some()
                || w.part.is_some()
                || w.turn.is_some()
                || w.foot.is_some()
                || w.both)
        {
            return None;
        }
        if w.turn == Some(WrittenTurn::default()) && w.action.is_none() && w.place.is_none() {
            // "turn" alone means nothing without a size or a direction.
            w.turn = Some(WrittenTurn { size: None, to: None });
        }
        if w.action.is_none() {
            w.action = match w.part {
                Some(FootPart::Heel) if w.both => {
                    Some(if matches!(w.place, Some(Place::Out | Place::In | Place::Close)) {
                        Action::Split
                    } else {
                        Action::Swivel
                    })
                }
                Some(FootPart::Toe) if w.both => {
                    Some(if matches!(w.place, Some(Place::Out | Place::In | Place::Close)) {
                        Action::Split
                    } else {
                        Action::Swivel
                    })
                }
                Some(FootPart::Heel) => Some(Action::Heel),
                Some(FootPart::Toe) => Some(Action::Toe),
                Some(FootPart::Ball) => Some(Action::Ball),
                None => None,
            };
        } else if w.action == Some(Action::Touch) && w.part == Some(FootPart::Heel) {
            w.action = Some(Action::Heel);
        } else if w.action == Some(Action::Step) && w.part == Some(FootPart::Ball) {
            w.action = Some(Action::Ball);
        }
        Some(self.w)
    }
}

/// Whether a word ends in these small letters, however it is written.
fn ends_in(word: &str, end: &[u8]) -> bool {
    let word = word.as_bytes();
    word.len() >= end.len() && word[word.len() - end.len()..].eq_ignore_ascii_case(end)
}

fn foot_token(t: &Token) -> bool {
    matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF))
}
