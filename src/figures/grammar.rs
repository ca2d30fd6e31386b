//! The grammar of one written step, the same for the lexicon and for a sheet.
//!
//! It reads from a token on as far as the words belong to one action, and says what they say outright.
//! Nothing is filled in here: which foot is free, how long a step lasts and where a turn leads is for the
//! reader to find out.

mod feet;
mod parts;
mod places;
mod turns;
mod words;

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
    /// "L together R side": the foot behind a place is that of the next step.
    pub foot_begins: bool,
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
            || self.foot_begins && other.foot_begins
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
    /// "Bring it back beside the left": the foot that moves is the one that was spoken of.
    spoken_of: bool,
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
        spoken_of: false,
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

    fn foot_begins(&mut self) -> bool {
        self.met.foot_begins = true;
        self.taking.foot_begins
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
                        let before = self.tokens[self.i - 1];
                        let cut =
                            matches!(before.kind, Kind::W(W::R | W::L)) && before.span.range().len() == 2;
                        n.gap <= 1
                            && n.span.of(self.text).starts_with(|c: char| c.is_lowercase())
                            && (cut || !matches!(n.kind, Kind::W(w) if verb(w).is_some()))
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
