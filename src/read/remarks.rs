//! What a remark about the weight does to a reading.

use super::around::side;
use super::costs;
use super::lattice::Search;
use super::meaning::{Actor, Edge, Event};
use super::several::plural;
use super::state::{Entry, Last, Mark, State};
use crate::dance::{Action, Effect, Foot, Place, Weight, Who};
use crate::figures::WeightSaid;
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, acts};
use crate::text::among;

/// "Bring it back and step on it", "bring R in and stand on it": the foot that came in takes the weight there.
pub(super) fn stood_on(text: &str, t: &[Token], i: usize, clause: usize) -> Option<usize> {
    let at = i + usize::from(t[i].is(W::And) || t[i].is(W::Then));
    let on = |k: usize| {
        t.get(k).filter(|_| k < clause).is_some_and(|t| t.is(W::On) || t.span.is_among(text, among!["onto"]))
    };
    let stands = t.get(at).is_some_and(|t| t.is(W::Step) || t.span.is_among(text, among!["stand"]));
    let it = t.get(at + 2).filter(|_| at + 2 < clause).is_some_and(|t| t.is(W::It));
    (at > i && stands && on(at + 1) && it && at + 3 >= clause).then_some(at + 3)
}

/// Whether words say that the weight goes over with each movement: "changing weight each time", "shift your weight".
pub(super) fn shifts_weight(t: &[Token]) -> bool {
    let near = |k: usize| t[k + 1..].iter().take(3).any(|t| t.is(W::Weight));
    (0..t.len()).any(|k| matches!(t[k].kind, Kind::W(W::Change | W::Shift)) && near(k))
}

/// "Click your fingers on the touch", "clap on every hold", "touch each time": when something is done, not another step.
pub(super) fn says_when(text: &str, t: &[Token], i: usize, clause: usize) -> bool {
    let c = &t[i..clause.max(i)];
    let each = |t: &Token| t.span.is_among(text, among!["each", "every"]);
    let foot = |t: &Token| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF));
    let does = |t: &Token| matches!(t.kind, Kind::W(w) if acts(w) && w != W::Ball && w != W::Turn);
    // "K step, starts R diagonal forward" tells which foot leads.
    let leads = |t: &Token| {
        t.span.is_among(text, among!["starts", "starting", "begins", "beginning", "leads", "leading"])
    };
    let behind = i > 0 && matches!(t[i - 1].kind, Kind::Sign(',' | '(' | '-'));
    // "Walk round in a circle, R L R L, a quarter turn with each step" tells how it comes round.
    let last = |k: usize| c.len().checked_sub(k).map(|at| &c[at]);
    let step = last(1).is_some_and(|t| t.is(W::Step)) && last(2).is_some_and(each);
    let sentence =
        t[..i].iter().rev().take(24).take_while(|t| !matches!(t.kind, Kind::Sign('.' | ';' | '\n')));
    let rounds = || sentence.clone().any(|t| matches!(t.kind, Kind::W(W::Roll | W::Around)));
    match c {
        _ if behind && step && c.len() <= 9 && !c.iter().any(|t| t.is(W::Foot)) && rounds() => true,
        [first, rest @ ..] if behind && leads(first) => {
            rest.len() <= 5 && rest.iter().any(foot) && !rest.iter().any(does)
        }
        // "two pivots, stepping forward on R each time" tells how each of them goes.
        _ if behind && c.len() <= 14 && each_time(text, c) && !shifts_weight(c) => true,
        // "stomps with weight", "each stomp takes the weight" tells of steps that were told before.
        [rest @ .., weight] if weight.is(W::Weight) && rest.len() <= 6 => {
            let (first, many) = match rest {
                [the, verb, ..] if each(the) => (verb, true),
                [the, verb, ..] if the.is(W::The) || the.is(W::Both) => (verb, the.is(W::Both)),
                [verb, ..] => (verb, false),
                [] => return false,
            };
            does(first) && (many || plural(text, first)) && !rest.iter().any(foot)
        }
        [on, the, verb] if on.is(W::On) => (the.is(W::The) || each(the)) && does(verb),
        [verb, rest @ ..] if does(verb) && !c.iter().any(foot) => {
            rest.len() <= 5 && rest.windows(2).any(|w| each(&w[0]) && (w[1].is(W::Times) || does(&w[1])))
        }
        _ => false,
    }
}

/// "..., closing the right beside the left", "..., locking L behind R on the &": a clause that may tell a step of the
/// figure before it again; its foot, where it goes, and where the clause ends.
pub(super) fn telling(text: &str, t: &[Token], i: usize, clause: usize) -> Option<(Foot, Place, usize)> {
    let behind = i > 0 && matches!(t[i - 1].kind, Kind::Sign(',' | '(' | '-'));
    let place = match t[i].kind {
        Kind::W(W::Close | W::Together) => Place::Close,
        Kind::W(W::Lock) => Place::LockBehind,
        Kind::W(W::Cross) if t[i..clause].iter().any(|t| t.is(W::Behind)) => Place::Behind,
        Kind::W(W::Cross) => Place::Cross,
        _ => return None,
    };
    let foot = t[i..clause].iter().find_map(|t| side(t.kind))?;
    let word = t[i].span.of(text).as_bytes();
    let ing = word.len() > 3 && word[word.len() - 3..].eq_ignore_ascii_case(b"ing");
    (behind && ing).then_some((foot, place, clause))
}

/// "stepping forward on R each time", "... both times and ending with the weight on L"
fn each_time(text: &str, c: &[Token]) -> bool {
    let all = |t: &Token| t.span.is_among(text, among!["each", "every", "both"]);
    let Some(k) = c.windows(2).position(|w| all(&w[0]) && w[1].is(W::Times)) else { return false };
    let weighs = |t: &Token| {
        matches!(t.kind, Kind::W(W::And | W::End | W::With | W::Weight | W::On | W::The | W::Foot))
            || side(t.kind).is_some()
    };
    k > 0 && k <= 8 && c[k + 2..].iter().all(weighs)
}

impl Search<'_> {
    /// Passes over words that tell a step again, where the last moves have it.
    pub(super) fn tells(&mut self, entry: &Entry, foot: Foot, place: Place, edge: &Edge) {
        let same = |p: &super::state::Placed| {
            p.step.who == Who::One(foot) && p.step.effect == Effect::Takes && p.step.place == place
        };
        let found = self
            .arena
            .back(entry.node)
            .take_while(|n| usize::from(n.section) == self.section)
            .filter(|n| n.n > 0)
            .take(3)
            .any(|n| n.n > 1 && self.arena.actions(n).iter().any(same));
        if found {
            self.push(entry, entry.state, edge.cost, &[], Mark::None, edge.span, edge.to);
        }
    }

    /// A remark about the weight changes the last action, or agrees, or is at odds with it.
    pub(super) fn weight(&mut self, entry: &Entry, said: WeightSaid, edge: &Edge) {
        let s = entry.state;
        let foot = s.last.foot();
        let (weight, cost, mark) = match said {
            WeightSaid::On(f) => match s.weight {
                // Told behind a drop or a bounce, it came with it.
                Weight::On(w) if w == f => {
                    let kept = self.last_step(entry).is_some_and(|st| {
                        st.effect == Effect::Keeps && st.action == crate::dance::Action::Drop
                    });
                    (s.weight, if kept { costs::OTHER_RHYTHM } else { 0 }, Mark::None)
                }
                Weight::Both => (Weight::On(f), 0, Mark::Weight(said)),
                Weight::On(_) if foot == Some(f) => {
                    let lightened = self.lightened(entry);
                    (Weight::On(f), if lightened { 160 } else { 2 }, Mark::Weight(said))
                }
                Weight::On(_) if foot == Some(f.other()) && matches!(s.last, Last::Step(_)) => {
                    (Weight::On(f), 30, Mark::Weight(said))
                }
                // "weight back on L": the weight moves by itself.
                Weight::On(_) => {
                    let event = Event::taking(Actor::Said(f), Action::Recover, Place::InPlace);
                    self.event(entry, &event, edge.cost + 2, edge.span, edge.to);
                    (s.weight, 160, Mark::WeightMiss(said))
                }
            },
            WeightSaid::Both => {
                (Weight::Both, 0, if s.weight == Weight::Both { Mark::None } else { Mark::Weight(said) })
            }
            WeightSaid::Taken => match foot {
                Some(f) if s.weight != Weight::On(f) => {
                    (Weight::On(f), if self.lightened(entry) { 160 } else { 0 }, Mark::Weight(said))
                }
                // A drop said to take the weight did not have it before.
                Some(_) if self.last_step(entry).is_some_and(|st| st.effect == Effect::Keeps) => {
                    (s.weight, costs::OTHER_RHYTHM, Mark::None)
                }
                _ => (s.weight, 0, Mark::None),
            },
            WeightSaid::NotTaken => match foot {
                Some(f) if s.weight == Weight::On(f) && matches!(s.last, Last::Step(_) | Last::Rock(_)) => {
                    (Weight::On(f.other()), 0, Mark::Weight(said))
                }
                _ => (s.weight, 0, Mark::None),
            },
            WeightSaid::Kept => (s.weight, 0, Mark::None),
        };
        if let WeightSaid::On(f) = said
            && matches!(s.last, Last::Rock(_))
            && s.weight == Weight::On(f.other())
        {
            // "weight back on LF" after a rock is the recover, written above.
            return;
        }
        let last = match (mark, foot) {
            (Mark::Weight(WeightSaid::NotTaken), Some(f)) => Last::Gesture(f),
            (Mark::Weight(_), Some(f)) if weight == Weight::On(f) => Last::Step(f),
            _ => s.last,
        };
        self.push(entry, State { weight, last, ..s }, edge.cost + cost, &[], mark, edge.span, edge.to);
    }
}
