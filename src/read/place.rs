//! Puts actions on their counts: one written action, or a row of them with a rhythm of their own.

use arrayvec::ArrayVec;

use super::candidates::{Actor, Event, Named, TurnSaid};
use super::costs;
use super::lattice::Search;
use super::state::{Entry, Last, Mark, Placed, State};
use crate::dance::{Action, Broken, Effect, Foot, Place, Weight, Who};
use crate::figures::Step;
use crate::floor::Turn;
use crate::text::Span;
use crate::time::Ticks;

/// Rows of steps at hand, kept so that they need no new memory each time.
#[derive(Debug, Default)]
pub(super) struct Rows {
    pub(super) steps: Vec<Step>,
    /// What an order of feet is about.
    pub(super) unit: Vec<Step>,
    /// Readings of a row that is danced several times over.
    pub(super) entries: Vec<Entry>,
    placed: Vec<Placed>,
    ats: Vec<i32>,
}

/// A position that an action may take: when, the state after it, what it costs, and whether it shares.
#[derive(Debug, Clone, Copy)]
struct Spot {
    at: i32,
    t: i32,
    k: u8,
    cost: u32,
    shares: bool,
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
            out.push(Spot { at, t: end, k: s.k, cost: 0, shares: false });
            if event.lasts.is_none() && !s.half && self.filling() {
                let slow = if quiet { costs::SLOW_GESTURE + 4 } else { costs::SLOW + 8 };
                out.push(Spot { at, t: at + 48, k: s.k, cost: slow, shares: false });
                if quiet {
                    out.push(Spot { at, t: at + 72, k: s.k, cost: slow * 2, shares: false });
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
        self.arena
            .back(entry.node)
            .take(12)
            .flat_map(|n| self.arena.actions(n))
            .any(|p| p.at.0 == at && matches!(p.step.effect, Effect::Takes | Effect::Shares))
    }

    /// The last action before a reading.
    fn last_action(&self, entry: &Entry) -> Option<Action> {
        let node = self.arena.back(entry.node).find(|n| n.n > 0)?;
        self.arena.actions(node).last().map(|p| p.step.action)
    }

    /// Whether both the spot's other action and this one take weight, and what sharing costs.
    fn sharing(&self, other_takes: bool, event: &Event, effect: Effect) -> (u32, bool) {
        let takes = matches!(effect, Effect::Takes | Effect::Shares) && event.action != Action::Bump;
        if event.joined && !takes {
            return (costs::JOINED, false);
        }
        if takes && other_takes {
            return (costs::TWO_ON_ONE, true);
        }
        if takes {
            return (costs::STEP_ON_GESTURE, false);
        }
        if effect == Effect::Free && other_takes && event.action == Action::Step {
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
                match s.weight {
                    Weight::On(f) => few![(Who::One(if keeps { f } else { f.other() }), 0)],
                    Weight::Both if keeps => few![(Who::Both, 0)],
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
                let first = stepping.unwrap_or(Foot::Right);
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
        let s = entry.state;
        if event.bare
            && matches!(event.place, Place::In | Place::Out)
            && let Last::Placed(f) = s.last
        {
            // "toe out, in, out": the touch goes on.
            let touch = Event {
                actor: Actor::Said(f),
                action: Action::Touch,
                effects: few![(Effect::Free, 0)],
                bare: false,
                ..event.clone()
            };
            self.event(entry, &touch, cost, span, to);
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
        let spots = self.spots(&s, event);
        let mut taken = None;
        for (effect, effect_cost) in &event.effects {
            let cost = cost + effect_cost;
            if self.most(entry, to).is_none_or(|most| cost > most) {
                continue;
            }
            for (who, who_cost) in Self::actors(&s, event, *effect) {
                let effect = *effect;
                let (effect, who, extra) = adjusted(&s, event, effect, who);
                // "Step L forward" with the right foot bends what is said, and "rock L to side" would go across.
                let sideways =
                    matches!(event.place, Place::Side | Place::DiagonalForward | Place::DiagonalBack);
                let across = event.actor == Actor::Free
                    && (sideways || event.perhaps_foot)
                    && event.action != Action::Grind
                    && event.side.is_some_and(|side| who == Who::One(side.other()))
                    && matches!(effect, Effect::Takes | Effect::Free);
                let extra = extra + if across { costs::FOOT_BENT } else { 0 };
                let cost = cost + who_cost + extra;
                let mut weighed = None;
                for (turn, turn_cost) in Self::turns(event, who, &s) {
                    let cost = cost + turn_cost;
                    if self.most(entry, to).is_none_or(|most| cost > most) {
                        continue;
                    }
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
                    let as_step = *weighed.get_or_insert_with(|| {
                        let (after, broken, weight_cost) = weigh(&s, &step);
                        (after, broken, weight_cost, last_of(&step, after, s.last))
                    });
                    let facing = s.facing.turned(turn);
                    for spot in &spots {
                        // Styling on the moment of a step moves no weight.
                        let styling = spot.shares && styles(event.action);
                        let ((after, broken, weight_cost, last), effect) = if styling {
                            ((s.weight, None, 0, s.last), Effect::None)
                        } else {
                            (as_step, effect)
                        };
                        let mut cost = cost + weight_cost + spot.cost;
                        if self.most(entry, to).is_none_or(|most| cost > most) {
                            continue;
                        }
                        let mut crowded = false;
                        if spot.shares {
                            let taken = *taken.get_or_insert_with(|| self.taken(entry, spot.at));
                            let (share, both) = self.sharing(taken, event, effect);
                            cost += share;
                            // "Kick R, step R beside L" on one count: one foot cannot do both at once.
                            let twice = effect == Effect::Takes
                                && matches!(s.last, Last::Placed(f) | Last::Gesture(f) if who == Who::One(f))
                                && self.last_action(entry).is_some_and(|a| {
                                    matches!(a, Action::Kick | Action::Touch | Action::Heel | Action::Point)
                                });
                            crowded = both || twice;
                        }
                        let state = State {
                            weight: after,
                            facing,
                            t: spot.t,
                            k: spot.k,
                            last,
                            half: false,
                            t0: s.t0,
                        };
                        let Some(place) = self.place(entry, &state, cost, to) else { continue };
                        let step = Step { effect, ..step };
                        let at = Ticks(spot.at);
                        let placed = Placed { at, step, before: s.weight, after, broken, span, crowded };
                        self.put(place, entry, state, cost, &[placed], Mark::None, span, to);
                    }
                }
            }
        }
    }

    /// Places a figure led by each foot that the words allow.
    pub(super) fn figure(&mut self, entry: &Entry, named: &Named, cost: u32, span: Span, to: usize) {
        let s = entry.state;
        let own_start = self.lexicon.figures[usize::from(named.figure)].start;
        let first = named.steps.iter().find_map(|st| match st.who {
            Who::One(f) => Some(f),
            _ => None,
        });
        let rightwards = first.unwrap_or(Foot::Right);
        let leads: ArrayVec<(Foot, u32), 2> = match (named.lead, s.weight) {
            (Some(f), _) => few![(f, 0)],
            (None, Weight::On(f)) => {
                let free = if named.steps.first().is_some_and(|st| st.effect == Effect::Keeps)
                    && own_start != Weight::Both
                {
                    f
                } else {
                    f.other()
                };
                // Figures are written for the lead with the right foot.
                few![(if first.is_none() || rightwards == Foot::Right { free } else { free.other() }, 0)]
            }
            (None, Weight::Both) => few![(Foot::Right, 0), (Foot::Left, costs::OTHER_LEAD)],
        };
        for (lead, lead_cost) in leads {
            let mirrored = lead == Foot::Left;
            for (turn, turn_cost) in figure_turns(named, lead) {
                let cost = cost + lead_cost + turn_cost;
                if self.most(entry, to).is_none_or(|most| cost > most) {
                    continue;
                }
                let mut steps = core::mem::take(&mut self.rows.steps);
                steps.clear();
                steps.extend(named.steps.iter().map(|st| if mirrored { st.mirrored() } else { *st }));
                if let Some(turn) = turn {
                    put_turn(&mut steps, named.turn_on, turn);
                }
                let sum = steps.iter().fold(Turn::NONE, |t, st| t + st.turn);
                let mark = Mark::Figure(named.figure, Some(lead), sum);
                self.row(entry, &steps, named.counts, cost, span, &mark, to);
                self.rows.steps = steps;
            }
        }
    }

    /// Places a row of steps that have a rhythm of their own.
    #[allow(clippy::too_many_arguments, reason = "all that a row of steps is made of")]
    pub(super) fn row(
        &mut self,
        entry: &Entry,
        steps: &[Step],
        counts: u32,
        cost: u32,
        span: Span,
        mark: &Mark,
        to: usize,
    ) {
        let Some(first) = steps.first() else { return };
        let s = entry.state;
        let length = i32::try_from(counts).unwrap_or(1) * 24;
        // Weight is the same wherever the steps fall.
        let mut weight_cost = 0;
        let mut w = s;
        let mut rows = core::mem::take(&mut self.rows);
        let Rows { placed, ats, .. } = &mut rows;
        placed.clear();
        for step in steps {
            let (after, broken, c) = weigh(&w, step);
            weight_cost += c;
            let at = Ticks::COUNT;
            placed.push(Placed { at, step: *step, before: w.weight, after, broken, span, crowded: false });
            w.last = last_of(step, after, w.last);
            w.weight = after;
            w.facing = w.facing.turned(step.turn);
        }
        let state = |t: i32, k: u8| State { t, k, half: false, t0: s.t0, ..w };
        let bump = u32::from(matches!(s.last, Last::Bump(_))) * 5;
        let cost = cost + weight_cost + bump;
        if self.most(entry, to).is_none_or(|most| cost > most) {
            self.rows = rows;
            return;
        }
        let Some(slots) = self.slots() else {
            // In free time the figure keeps its own rhythm.
            let lead_in = first.at.0 < 24;
            let start = s.t - if s.half && !lead_in { 12 } else { 0 };
            for p in placed.iter_mut() {
                p.at = Ticks(start + p.step.at.0 - 24);
            }
            let end = if s.half && !lead_in { floor(start + length + 12) } else { start + length };
            self.push(entry, state(end, s.k), cost, placed, *mark, span, to);
            self.rows = rows;
            return;
        };
        let k = usize::from(s.k);
        if k >= slots.len() {
            // Nothing left: all on the last position.
            if k > 0 && steps.len() == 1 {
                let at = slots[k - 1].0;
                let takes = matches!(first.effect, Effect::Takes | Effect::Shares);
                placed[0].at = Ticks(at);
                placed[0].crowded = takes;
                self.push(
                    entry,
                    state(s.t, s.k),
                    cost + if takes { costs::TWO_ON_ONE } else { costs::SHARED_TOUCH },
                    placed,
                    *mark,
                    span,
                    to,
                );
            }
            self.rows = rows;
            return;
        }
        // Exactly in rhythm.
        let base = slots[k].0 - first.at.0;
        let mut exact = true;
        let mut off = 0;
        ats.clear();
        ats.extend(steps.iter().map(|st| {
            let want = base + st.at.0;
            if !slots[k..].iter().any(|x| x.0 == want) {
                if self.range && want % 24 != 0 && want < slots[slots.len() - 1].0 {
                    off = 2;
                } else {
                    exact = false;
                }
            }
            want
        }));
        let whole = base + 24;
        let end = whole + length;
        if exact {
            let mut next = k;
            while next < slots.len() && slots[next].0 <= *ats.last().unwrap_or(&0) {
                next += 1;
            }
            for (p, at) in placed.iter_mut().zip(&*ats) {
                p.at = Ticks(*at);
            }
            let used: u32 = slots[k..next]
                .iter()
                .filter(|x| !ats.contains(&x.0))
                .map(|x| if x.within() == 0 { 2 } else { costs::EMPTY_HALF })
                .sum();
            self.push(
                entry,
                state(floor(ats[ats.len() - 1]) + 24, clip(next)),
                cost + off + used,
                placed,
                *mark,
                span,
                to,
            );
            // The rest of the figure's own counts may pass in silence.
            let mut later = next;
            while later < slots.len() && slots[later].0 < end {
                later += 1;
            }
            if later > next {
                self.push(entry, state(end, clip(later)), cost + off + used + 3, placed, *mark, span, to);
            }
        }
        // In rhythm, but the half-counts are not written: "3 4 shuffle forward".
        let last = ats.last().copied().unwrap_or(0);
        let written = |at: i32| slots[k..].iter().any(|x| x.0 == at);
        let whole_counts = slots.iter().all(|x| x.within() == 0);
        if !exact
            && whole_counts
            && !self.range
            && written(last)
            && ats.iter().all(|at| written(*at) || at.rem_euclid(24) == 12 && *at < last && *at > slots[k].0)
        {
            let mut next = k;
            while next < slots.len() && slots[next].0 <= last {
                next += 1;
            }
            for (p, at) in placed.iter_mut().zip(&*ats) {
                p.at = Ticks(*at);
                p.crowded = at.rem_euclid(24) != 0;
            }
            let next_state = state(floor(last) + 24, clip(next));
            self.push(entry, next_state, cost + costs::HALF_LOST, placed, *mark, span, to);
            for p in placed.iter_mut() {
                p.crowded = false;
            }
        }
        // One after the other, whatever the rhythm.
        let mut groups = 0;
        let mut at = i32::MIN;
        let mut fits = true;
        let mut same = exact;
        for (i, st) in steps.iter().enumerate() {
            if st.at.0 != at {
                at = st.at.0;
                groups += 1;
            }
            if let Some(x) = slots.get(k + groups - 1) {
                same &= ats[i] == x.0;
                ats[i] = x.0;
            } else {
                fits = false;
                break;
            }
        }
        if fits && !same {
            for (p, at) in placed.iter_mut().zip(&*ats) {
                p.at = Ticks(*at);
            }
            let t = floor(ats[ats.len() - 1]) + 24;
            self.push(entry, state(t, clip(k + groups)), cost + costs::OTHER_RHYTHM, placed, *mark, span, to);
        }
        self.rows = rows;
    }
}

fn clip(k: usize) -> u8 {
    u8::try_from(k).unwrap_or(u8::MAX)
}

fn floor(t: i32) -> i32 {
    t.div_euclid(24) * 24
}

/// The turns that a figure may make: none to change, or this one instead of its own.
fn figure_turns(named: &Named, lead: Foot) -> ArrayVec<(Option<Turn>, u32), 4> {
    let own = named.steps.iter().fold(0, |t, s| t + s.turn.0) * if lead == Foot::Left { -1 } else { 1 };
    let toward = |size: i32, f: Foot| Turn(if f == Foot::Right { size } else { -size });
    match named.turn {
        TurnSaid::None => few![(None, 0)],
        TurnSaid::Known(t) => few![(Some(t), 0)],
        TurnSaid::To(f) if own != 0 => few![(Some(toward(own.abs(), f)), 0)],
        // How far is left to a clock: half, quarter, or none.
        TurnSaid::To(f) => few![(Some(toward(24, f)), 8), (Some(toward(12, f)), 9), (None, 6)],
        TurnSaid::Size(size) => {
            let usual = match own {
                0 => lead,
                o if o > 0 => Foot::Right,
                _ => Foot::Left,
            };
            few![(Some(toward(size, usual)), 0), (Some(toward(size, usual.other())), costs::OTHER_WAY)]
        }
    }
}

/// Puts a turn on a row of steps: where the steps turn already, or on the step that the lexicon names.
fn put_turn(steps: &mut [Step], on: usize, turn: Turn) {
    let first = steps.iter().position(|s| s.turn.0 != 0);
    let turning = steps.iter().filter(|s| s.turn.0 != 0).count();
    let sum: i32 = steps.iter().map(|s| s.turn.0).sum();
    if sum == turn.0 {
        return;
    }
    for step in steps.iter_mut() {
        step.turn = Turn::NONE;
    }
    let at = first.unwrap_or_else(|| on.max(1) - 1).min(steps.len() - 1);
    // A large turn is shared by two steps.
    if turn.0.abs() >= 24 && steps.len() >= 2 && turning != 1 {
        let half = Turn(turn.0 / 2);
        let at = at.min(steps.len() - 2);
        steps[at].turn = half;
        steps[at + 1].turn = Turn(turn.0 - half.0);
    } else {
        steps[at].turn = turn;
    }
}

/// Changes an action to what the state makes of it: a heel drop of the standing foot is a bounce.
fn adjusted(s: &State, event: &Event, effect: Effect, who: Who) -> (Effect, Who, u32) {
    match (event.action, who) {
        // A toe was put down just now: it is its heel that comes down.
        (Action::Drop, Who::One(f)) if s.last == Last::Placed(f.other()) => (effect, who, 0),
        (Action::Drop, Who::One(f)) if s.weight == Weight::On(f) => (Effect::Keeps, who, 4),
        (Action::Drop, Who::Both) => (Effect::Keeps, who, 0),
        (Action::Bounce, Who::One(f)) if s.weight.frees(f) => (Effect::Free, who, 0),
        (Action::Swivel | Action::Split | Action::Bounce | Action::Applejack | Action::Swivet, Who::Both) => {
            (Effect::Shares, who, 0)
        }
        (Action::Swivel, Who::One(f)) if s.weight.frees(f) => (Effect::Free, who, 0),
        (Action::Turn | Action::Spin | Action::Spiral | Action::Hop | Action::Scoot, Who::One(f))
            if s.weight.frees(f) && s.weight != Weight::Both =>
        {
            (effect, Who::One(f.other()), 8)
        }
        (Action::Step | Action::Stomp, Who::Both) => (Effect::Shares, who, 0),
        // A sway onto the foot that has the weight is a push of the hip.
        (Action::Sway, Who::One(f)) if s.weight == Weight::On(f) => (Effect::Keeps, who, 2),
        (Action::Pivot, Who::One(f)) if s.weight == Weight::On(f) => (effect, who, 0),
        _ => (effect, who, 0),
    }
}

/// The weight after a step, the rule that it breaks, and what that costs.
fn weigh(s: &State, step: &Step) -> (Weight, Option<Broken>, u32) {
    // A knee pops on the foot without weight: popping the standing knee moves the weight.
    if step.action == Action::KneePop
        && let Who::One(f) = step.who
    {
        return (Weight::On(f.other()), None, u32::from(s.weight == Weight::On(f)) * 3);
    }
    let (after, allowed) = step.weigh(s.weight);
    if !allowed {
        return (after, Some(Broken::NotFree), costs::NOT_FREE);
    }
    match (step.action, step.who) {
        (Action::Recover, Who::One(_)) if !matches!(s.last, Last::Rock(_) | Last::Nothing) => {
            (after, None, costs::NO_ROCK)
        }
        (Action::Drop, Who::One(f)) if step.effect == Effect::Takes && s.last != Last::Placed(f) => {
            (after, None, 12)
        }
        (Action::Pivot, Who::One(f)) if s.last != Last::Step(f.other()) => (after, None, 5),
        (Action::Unwind, Who::One(f)) if step.effect == Effect::Takes && s.last.foot() == Some(f) => {
            (after, None, 4)
        }
        _ => (after, None, 0),
    }
}

fn last_of(step: &Step, after: Weight, old: Last) -> Last {
    match (step.action, step.who) {
        (Action::Hold | Action::Clap | Action::Body | Action::Hips, _) => old,
        (Action::Bump, Who::One(_)) if step.effect == Effect::Takes => match step.who {
            Who::One(f) => Last::Step(f),
            _ => old,
        },
        (Action::Bump, _) if after == Weight::Both => {
            Last::Bump(if step.place == Place::Left { Foot::Left } else { Foot::Right })
        }
        (Action::Rock | Action::Press | Action::Lunge | Action::Grind | Action::Sway, Who::One(f)) => {
            Last::Rock(f)
        }
        (Action::Toe | Action::Heel | Action::Touch | Action::Point, Who::One(f)) => Last::Placed(f),
        (Action::Ball, Who::One(f)) if step.effect == Effect::Free => Last::Placed(f),
        (_, Who::One(f)) if step.effect == Effect::Takes => Last::Step(f),
        (_, Who::One(f)) if step.effect == Effect::Free => Last::Gesture(f),
        (_, Who::One(f)) => {
            if step.effect == Effect::Shares {
                Last::Step(f)
            } else {
                old
            }
        }
        (_, Who::Both) => Last::Shared,
        (_, Who::Nobody) => old,
    }
}
