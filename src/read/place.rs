//! Puts one written action on its count, in every way that the words allow.

use arrayvec::ArrayVec;

use super::costs;
use super::lattice::Search;
use super::meaning::{Actor, Event, TurnSaid};
use super::state::{Entry, Last, Mark, Node, Placed, State};
use super::weigh::{adjusted, last_of, weigh};
use crate::dance::{Action, Broken, Effect, Foot, Place, Weight, Who};
use crate::figures::Step;
use crate::floor::Turn;
use crate::text::{Span, lower};
use crate::time::Ticks;

/// A position that an action may take: when, the state after it, what it costs, and whether it shares.
#[derive(Debug, Clone, Copy)]
struct Spot {
    at: i32,
    t: i32,
    k: u8,
    cost: u32,
    shares: bool,
}

/// What an action may be, whenever it falls.
#[derive(Debug, Clone, Copy)]
pub(super) struct Variant {
    cost: u32,
    /// What it costs besides, unless it only styles another step.
    weight_cost: u32,
    step: Step,
    /// Who acts; the step of a bump says the side instead.
    who: Who,
    effect: Effect,
    after: Weight,
    broken: Option<Broken>,
    last: Last,
}

fn gesture(action: Action) -> bool {
    matches!(
        action,
        Action::Sweep
            | Action::Drag
            | Action::Clap
            | Action::Hitch
            | Action::Hook
            | Action::Flick
            | Action::Body
            | Action::Hips
            | Action::Bump
            | Action::KneePop
            | Action::Turn
            | Action::Swivel
            | Action::Spin
            | Action::Spiral
            | Action::Fan
            | Action::Roll
            | Action::Grind
            | Action::Brush
            | Action::Scuff
            | Action::Kick
            | Action::Hold
            | Action::Scoot
            | Action::Hop
            | Action::Sway
            | Action::Unwind
    )
}

/// Actions that style the step on whose moment they are done.
fn styles(action: Action) -> bool {
    matches!(
        action,
        Action::Swivel
            | Action::Fan
            | Action::Split
            | Action::Bounce
            | Action::Grind
            | Action::Roll
            | Action::KneePop
    )
}

/// Actions that may go on over several counts without a word.
fn lasting(action: Action) -> bool {
    matches!(
        action,
        Action::Drag
            | Action::Sweep
            | Action::Hold
            | Action::Body
            | Action::Roll
            | Action::Unwind
            | Action::Sway
            | Action::Bounce
            | Action::Slide
            | Action::Spin
            | Action::Spiral
    )
}

impl Search<'_> {
    /// The positions at which one action may fall.
    fn spots(&self, s: &State, event: &Event) -> ArrayVec<Spot, 8> {
        let mut out = ArrayVec::new();
        let lasts = i32::try_from(event.lasts.unwrap_or(1)).unwrap_or(1).clamp(1, 32);
        let quiet = lasting(event.action);
        if let Some(slots) = self.slots() {
            let k = usize::from(s.k);
            if s.half && self.range && k > 0 && k <= slots.len() {
                // "1-4 rock & cross": the half-count is not in the range.
                let at = slots[k - 1].0 + 12;
                out.push(Spot { at, t: s.t, k: s.k, cost: 4, shares: false });
            }
            if k < slots.len() {
                let at = slots[k].0;
                let mut next = k + 1;
                let mut cost = 0;
                let end = at + lasts * 24;
                while event.lasts.is_some() && next < slots.len() && slots[next].0 < end {
                    next += 1;
                }
                for extra in 0..4 {
                    // The weight comes over when the feet are untwisted.
                    let at = if event.action == Action::Unwind { slots[next - 1].0 } else { at };
                    let to = u8::try_from(next).unwrap_or(u8::MAX);
                    out.push(Spot { at, t: floor(at) + 24, k: to, cost, shares: false });
                    if next >= slots.len() || slots[next].within() != 0 || event.lasts.is_some() {
                        break;
                    }
                    cost += if quiet { costs::SLOW_GESTURE } else { costs::SLOW };
                    next += 1;
                    let _ = extra;
                }
            }
            if k > 0 {
                let at = slots[k - 1].0;
                out.push(Spot { at, t: s.t, k: s.k, cost: 0, shares: true });
            }
        } else {
            let at = if s.half { s.t - 12 } else { s.t };
            let end = if s.half { s.t } else { at + lasts * 24 };
            // "Hold, ball, side": a ball step alone comes quickly before the next count.
            let quick = event.action == Action::Ball && !s.half && s.t > s.t0 && event.lasts.is_none();
            if quick {
                out.push(Spot { at: s.t - 12, t: s.t, k: s.k, cost: 0, shares: false });
            }
            let cost = if quick { costs::WHOLE_BALL } else { 0 };
            out.push(Spot { at, t: end, k: s.k, cost, shares: false });
            if event.lasts.is_none() && !s.half && self.filling() {
                let slow = if quiet { costs::SLOW_GESTURE + 4 } else { costs::SLOW + 8 };
                out.push(Spot { at, t: at + 48, k: s.k, cost: slow, shares: false });
                if quiet {
                    // Two drags a count longer each are likelier than one that lasts two counts longer.
                    out.push(Spot { at, t: at + 72, k: s.k, cost: slow * 2 + 1, shares: false });
                }
            }
            if s.t > s.t0 {
                out.push(Spot { at: s.t - 24, t: s.t, k: s.k, cost: 0, shares: true });
            }
        }
        out
    }

    /// Whether one of the last actions takes weight at this moment.
    fn taken(&self, entry: &Entry, at: i32) -> bool {
        let here = |n: &&Node| usize::from(n.section) == self.section;
        let nodes = self.arena.back(entry.node).take(12).take_while(here).map(|n| self.arena.actions(n));
        // Actions stand in the order of time, so nothing behind an earlier one is of this moment.
        let late = |placed: &&[Placed]| placed.last().is_none_or(|p| p.at.0 >= at);
        let takes = |p: &Placed| matches!(p.step.effect, Effect::Takes | Effect::Shares);
        nodes.take_while(late).flatten().any(|p| p.at.0 == at && takes(p))
    }

    /// The last action before a reading.
    fn last_action(&self, entry: &Entry) -> Option<Action> {
        self.last_step(entry).map(|step| step.action)
    }

    /// The same with all that is known of it.
    pub(super) fn last_step(&self, entry: &Entry) -> Option<Step> {
        let node = self.arena.back(entry.node).find(|n| n.n > 0)?;
        self.arena.actions(node).last().map(|p| p.step)
    }

    /// Whether both the spot's other action and this one take weight, and what sharing costs.
    fn sharing(&self, mut other_takes: impl FnMut() -> bool, event: &Event, effect: Effect) -> (u32, bool) {
        let takes = matches!(effect, Effect::Takes | Effect::Shares) && event.action != Action::Bump;
        if event.joined && !takes {
            return (costs::JOINED, false);
        }
        if takes && other_takes() {
            return (costs::TWO_ON_ONE, true);
        }
        if takes {
            return (costs::STEP_ON_GESTURE, false);
        }
        if effect == Effect::Free && event.action == Action::Step && other_takes() {
            // A step read without weight is a step all the same.
            return (costs::TWO_ON_ONE, true);
        }
        match effect {
            Effect::None => (if event.action == Action::Hold { 40 } else { 3 }, false),
            _ if gesture(event.action) => (
                if self.slots().is_some() { costs::SHARED_GESTURE } else { costs::SHARED_GESTURE + 12 },
                false,
            ),
            _ => (costs::SHARED_TOUCH, false),
        }
    }

    /// The feet that may act, with what each costs.
    fn actors(s: &State, event: &Event, effect: Effect) -> ArrayVec<(Who, u32), 2> {
        let keeps = effect == Effect::Keeps;
        match event.actor {
            Actor::Said(f) => few![(Who::One(f), 0)],
            Actor::Implied(f) => {
                if s.weight.frees(f) || keeps {
                    few![(Who::One(f), 0)]
                } else {
                    few![(Who::One(f), 0), (Who::One(f.other()), costs::NOT_FREE * 7 / 10)]
                }
            }
            Actor::Both => few![(Who::Both, 0)],
            Actor::Nobody => few![(Who::Nobody, 0)],
            Actor::Free => {
                if event.action == Action::Drop
                    && let Last::Placed(f) = s.last
                {
                    return few![(Who::One(f), 0)];
                }
                // "Dig R heel forward and grind": the foot on its heel grinds.
                if event.action == Action::Grind
                    && let Last::Placed(f) = s.last
                {
                    return few![(Who::One(f), 0)];
                }
                match s.weight {
                    Weight::On(f) => few![(Who::One(if keeps { f } else { f.other() }), 0)],
                    Weight::Both if keeps => few![(Who::Both, 0)],
                    // Untwisted from a cross in front, the foot behind it has the weight.
                    Weight::Both if event.action == Action::Unwind && s.last.foot().is_some() => {
                        let front = s.last.foot().unwrap_or(Foot::Right);
                        few![(Who::One(front.other()), 0), (Who::One(front), costs::OTHER_LEAD)]
                    }
                    Weight::Both => {
                        few![(Who::One(Foot::Right), 0), (Who::One(Foot::Left), costs::OTHER_LEAD)]
                    }
                }
            }
        }
    }

    /// The turns that the words allow for a single action.
    fn turns(event: &Event, who: Who, s: &State) -> ArrayVec<(Turn, u32), 4> {
        let stepping = match (event.action, who) {
            // A pivot turns away from the foot that stepped, toward the foot that takes the weight.
            (Action::Pivot | Action::Paddle, Who::One(f)) => Some(f),
            (Action::Spiral, Who::One(f)) => Some(f.other()),
            // Untwisting goes away from the foot in front.
            (Action::Unwind, _) => s.last.foot().map(Foot::other),
            (_, Who::One(f)) => Some(f),
            _ => None,
        };
        let toward = |size: i32, f: Foot| Turn(if f == Foot::Right { size } else { -size });
        match event.turn {
            TurnSaid::Known(t) => few![(t, 0)],
            TurnSaid::Size(size) => {
                // Who steps back with a turn turns away from the foot that steps.
                let back = event.place == Place::Back && event.turn_when == crate::dance::TurnWhen::Before;
                let first = stepping.map_or(Foot::Right, |f| if back { f.other() } else { f });
                let both = if size % 48 == 0 { 3 } else { costs::OTHER_WAY };
                few![(toward(size, first), 0), (toward(size, first.other()), both)]
            }
            TurnSaid::To(f) => {
                let size = if matches!(event.action, Action::Pivot | Action::Unwind) { 24 } else { 12 };
                few![(toward(size, f), 3), (toward(if size == 24 { 12 } else { 24 }, f), 12)]
            }
            TurnSaid::None => {
                match event.action {
                    Action::Pivot => stepping
                        .map_or(few![(Turn::NONE, 30)], |f| few![(toward(24, f), 4), (toward(12, f), 14)]),
                    Action::Paddle => stepping
                        .map_or(few![(Turn::NONE, 10)], |f| few![(toward(12, f), 2), (toward(6, f), 8)]),
                    Action::Unwind => {
                        stepping.map_or(few![(Turn::NONE, 10)], |f| few![(toward(24, f), 2), (Turn::NONE, 9)])
                    }
                    Action::Spiral | Action::Spin => {
                        stepping.map_or(few![(Turn::NONE, 10)], |f| few![(toward(48, f), 2)])
                    }
                    _ => few![(Turn::NONE, 0)],
                }
            }
        }
    }

    /// Places one written action in every way that the words allow.
    pub(super) fn event(&mut self, entry: &Entry, event: &Event, cost: u32, span: Span, to: usize) {
        self.event_of(entry, event, cost, span, to, false);
    }

    /// The same; `shared` where the action is that of the edge at hand.
    #[allow(clippy::too_many_arguments, reason = "all that an entry of the search is made of")]
    pub(super) fn event_of(
        &mut self,
        entry: &Entry,
        event: &Event,
        cost: u32,
        span: Span,
        to: usize,
        shared: bool,
    ) {
        let s = entry.state;
        if event.bare
            && matches!(event.place, Place::In | Place::Out)
            && let Last::Placed(f) = s.last
        {
            // "toe out, in, out": the touch goes on.
            // A fan, too: "toe fan out, in, out, in".
            let fan = self.last_action(entry) == Some(Action::Fan);
            let (action, place) = match (fan, event.place) {
                (false, place) => (Action::Touch, place),
                (true, Place::In) => (Action::Fan, Place::ToesIn),
                (true, _) => (Action::Fan, Place::ToesOut),
            };
            let touch = Event {
                actor: Actor::Said(f),
                action,
                place,
                effects: few![(Effect::Free, 0)],
                bare: false,
                ..event.clone()
            };
            self.event(entry, &touch, cost, span, to);
        }
        if event.bare && s.last == Last::Shared && event.place == Place::Out {
            // "heels in, out": both feet go on.
            let out = Event {
                actor: Actor::Both,
                action: Action::Split,
                place: Place::HeelsOut,
                effects: few![(Effect::Keeps, 0)],
                bare: false,
                ..event.clone()
            };
            self.event(entry, &out, cost, span, to);
        }
        if event.bare
            && s.last == Last::Shared
            && matches!(event.place, Place::Home | Place::InPlace | Place::In | Place::Close)
        {
            // "swivel heels right, centre": both feet go on.
            let centre = Event {
                actor: Actor::Both,
                action: Action::Swivel,
                place: Place::HeelsCentre,
                effects: few![(Effect::Keeps, 0)],
                bare: false,
                ..event.clone()
            };
            self.event(entry, &centre, cost, span, to);
        }
        if event.bare
            && s.last == Last::Shared
            && event.place == Place::Side
            && let Some(side) = event.side
            && self.last_action(entry) == Some(Action::Swivel)
        {
            // "swivel heels to the right, to the left": both feet go on.
            let place = if side == Foot::Left { Place::HeelsLeft } else { Place::HeelsRight };
            let swivel = Event {
                actor: Actor::Both,
                action: Action::Swivel,
                place,
                effects: few![(Effect::Keeps, 0)],
                bare: false,
                ..event.clone()
            };
            self.event(entry, &swivel, cost, span, to);
        }
        let mut cost = cost;
        if event.action == Action::Bump
            && let Some(side) = event.side
            && self.last_action(entry) == Some(Action::Sway)
            && !lower(span.of(self.text)).contains("bump")
        {
            // "sway hips right, hips left": the sways go on.
            let sway = Event {
                actor: Actor::Said(side),
                action: Action::Sway,
                place: Place::Side,
                effects: few![(Effect::Takes, 0)],
                ..event.clone()
            };
            self.event(entry, &sway, cost, span, to);
            cost += 6;
        }
        let cost = if event.bare && s.last == Last::Shared { cost + 8 } else { cost };
        let cost = cost
            + if event.bare
                && matches!(event.place, Place::In | Place::Out)
                && matches!(s.last, Last::Placed(_))
            {
                6
            } else {
                0
            };
        let bump_cost = u32::from(matches!(s.last, Last::Bump(_)) && event.action != Action::Bump) * 5;
        let cost = cost + bump_cost;
        let Some(most) = self.most(entry, to).filter(|most| cost <= *most) else { return };
        let spots = self.spots(&s, event);
        let mut taken = None;
        let kept = self.variants.len();
        let range = self.variants_of(&s, event, shared);
        for n in range {
            let v = self.variants[n];
            let cost = cost + v.cost;
            if cost > most {
                continue;
            }
            let facing = s.facing.turned(v.step.turn);
            for spot in &spots {
                // Styling on the moment of a step moves no weight.
                let styling = spot.shares && styles(event.action);
                let (after, broken, weight_cost, last, effect) = if styling {
                    (s.weight, None, 0, s.last, Effect::None)
                } else {
                    (v.after, v.broken, v.weight_cost, v.last, v.effect)
                };
                let mut cost = cost + weight_cost + spot.cost;
                if cost > most {
                    continue;
                }
                let mut crowded = false;
                if spot.shares {
                    // A second step on one moment is never cheaper than this.
                    let stepping =
                        matches!(effect, Effect::Takes | Effect::Shares) && event.action != Action::Bump;
                    let least = if stepping { costs::STEP_ON_GESTURE } else { 0 };
                    if self.most(entry, to).is_none_or(|most| cost + least > most) {
                        continue;
                    }
                    let taken = || *taken.get_or_insert_with(|| self.taken(entry, spot.at));
                    let (share, both) = self.sharing(taken, event, effect);
                    cost += share;
                    // "Kick R, step R beside L" on one count: one foot cannot do both at once.
                    let twice = effect == Effect::Takes
                        && matches!(s.last, Last::Placed(f) | Last::Gesture(f) if v.who == Who::One(f))
                        && self.last_action(entry).is_some_and(|a| {
                            matches!(a, Action::Kick | Action::Touch | Action::Heel | Action::Point)
                        });
                    crowded = both || twice;
                }
                let state =
                    State { weight: after, facing, t: spot.t, k: spot.k, last, half: false, t0: s.t0 };
                let Some(place) = self.place(entry, &state, cost, to) else { continue };
                // "Step R heel forward and grind": the foot that has just come down grinds.
                let grinds = styling && event.action == Action::Grind && event.actor == Actor::Free;
                let who = s.last.foot().filter(|_| grinds).map_or(v.step.who, Who::One);
                let step = Step { who, effect, ..v.step };
                let at = Ticks(spot.at);
                let placed = Placed { at, step, before: s.weight, after, broken, span, crowded };
                self.put(place, entry, state, cost, &[placed], Mark::None, span, to);
            }
        }
        if !shared {
            self.variants.truncate(kept);
        }
    }

    /// What an action may be for a dancer with this weight behind this last action; for all readings of an edge
    /// worked out once.
    fn variants_of(&mut self, s: &State, event: &Event, shared: bool) -> core::ops::Range<usize> {
        let key = (s.weight, s.last);
        if shared && let Some((_, range)) = self.shared.iter().find(|(k, _)| *k == key) {
            return range.clone();
        }
        let from = self.variants.len();
        for (effect, effect_cost) in &event.effects {
            for (who, who_cost) in Self::actors(s, event, *effect) {
                let (effect, who, extra) = adjusted(s, event, *effect, who);
                // "Step L forward" with the right foot bends what is said, and "rock L to side" would go across.
                let sideways =
                    matches!(event.place, Place::Side | Place::DiagonalForward | Place::DiagonalBack);
                let across = event.actor == Actor::Free
                    && (sideways || event.perhaps_foot)
                    && event.action != Action::Grind
                    && event.side.is_some_and(|side| who == Who::One(side.other()))
                    && matches!(effect, Effect::Takes | Effect::Free);
                let extra = extra + if across { costs::FOOT_BENT } else { 0 };
                let mut weighed = None;
                for (turn, turn_cost) in Self::turns(event, who, s) {
                    let mut place = event.place;
                    if event.action == Action::Bump && event.side.is_none() {
                        place = Place::Right;
                    }
                    let step = Step {
                        at: Ticks::COUNT,
                        who,
                        action: event.action,
                        place,
                        reach: event.reach,
                        turn,
                        turn_when: event.turn_when,
                        effect,
                    };
                    let step = if event.action == Action::Bump && effect == Effect::Takes {
                        let side = event.side.or(match who {
                            Who::One(f) => Some(f),
                            _ => None,
                        });
                        match side {
                            Some(f) => Step { who: Who::One(f), ..step },
                            None => continue,
                        }
                    } else {
                        step
                    };
                    // The turn does not matter to the weight.
                    let (after, broken, weight_cost, last) = *weighed.get_or_insert_with(|| {
                        let (after, broken, weight_cost) = weigh(s, &step);
                        (after, broken, weight_cost, last_of(&step, after, s.last))
                    });
                    let cost = effect_cost + who_cost + extra + turn_cost;
                    self.variants.push(Variant { cost, weight_cost, step, who, effect, after, broken, last });
                }
            }
        }
        let range = from..self.variants.len();
        if shared {
            self.shared.push((key, range.clone()));
        }
        range
    }
}

/// The whole count that a position belongs to.
pub(super) fn floor(t: i32) -> i32 {
    t.div_euclid(24) * 24
}
