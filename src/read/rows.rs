//! Puts rows of steps that have a rhythm of their own on their counts: figures and repeats.

use arrayvec::ArrayVec;

use super::costs;
use super::lattice::Search;
use super::meaning::{Named, TurnSaid};
use super::place::floor;
use super::state::{Entry, Last, Mark, Placed, State};
use super::weigh::{last_of, weigh};
use crate::dance::{Action, Effect, Foot, Weight, Who};
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
    /// Forms of the figure of the edge at hand, with their steps.
    pub(super) figures: Vec<Form>,
    pub(super) figures_placed: Vec<Placed>,
}

/// What a row of steps does, wherever they fall.
#[derive(Debug, Clone, Copy)]
pub(super) struct Weighed {
    cost: u32,
    weight: Weight,
    last: Last,
    turn: Turn,
}

/// One way to dance a figure.
#[derive(Debug, Clone, Copy)]
pub(super) struct Form {
    weighed: Weighed,
    /// What its lead and its turn cost.
    more: u32,
    mark: Mark,
    /// Its steps among those of all forms.
    range: (usize, usize),
}

impl Search<'_> {
    /// Places a figure led by each foot that the words allow; `shared` where it is that of the edge at hand.
    pub(super) fn figure(
        &mut self,
        entry: &Entry,
        named: &Named,
        cost: u32,
        span: Span,
        to: usize,
        shared: bool,
    ) {
        let kept = (self.rows.figures.len(), self.rows.figures_placed.len());
        for n in self.forms_of(&entry.state, named, span, shared) {
            let Form { weighed, more, mark, range } = self.rows.figures[n];
            let cost = cost + more + weighed.cost;
            if self.most(entry, to).is_none_or(|most| cost > most) {
                continue;
            }
            let mut rows = core::mem::take(&mut self.rows);
            rows.placed.clear();
            rows.placed.extend_from_slice(&rows.figures_placed[range.0..range.1]);
            self.lay(entry, &mut rows, weighed, named.counts, cost, span, &mark, to);
            self.rows = rows;
        }
        if !shared {
            self.rows.figures.truncate(kept.0);
            self.rows.figures_placed.truncate(kept.1);
        }
    }

    /// The forms of a figure for a dancer with this weight behind this last action; for all readings of an edge
    /// worked out once.
    fn forms_of(&mut self, s: &State, named: &Named, span: Span, shared: bool) -> core::ops::Range<usize> {
        let key = (s.weight, s.last);
        if shared && let Some((_, range)) = self.shared.iter().find(|(k, _)| *k == key) {
            return range.clone();
        }
        let from = self.rows.figures.len();
        let own_start = self.lexicon.figures[usize::from(named.figure)].start;
        // A figure that both feet begin leads with neither.
        let first = named.steps.iter().find(|st| st.who != Who::Nobody).and_then(|st| match st.who {
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
        let mut steps = core::mem::take(&mut self.rows.steps);
        for (lead, lead_cost) in leads {
            let mirrored = lead == Foot::Left;
            for (turn, turn_cost) in figure_turns(named, lead) {
                steps.clear();
                steps.extend(named.steps.iter().map(|st| if mirrored { st.mirrored() } else { *st }));
                if let Some(turn) = turn {
                    put_turn(&mut steps, named.turn_on, turn);
                }
                let sum = steps.iter().fold(Turn::NONE, |t, st| t + st.turn);
                let mark = Mark::Figure(named.figure, Some(lead), sum);
                let turn_cost = turn_cost + against(&steps);
                let Some(weighed) = weighed(s, &steps, span, &mut self.rows.figures_placed) else { continue };
                let to = self.rows.figures_placed.len();
                let range = (to - steps.len(), to);
                self.rows.figures.push(Form { weighed, more: lead_cost + turn_cost, mark, range });
            }
        }
        self.rows.steps = steps;
        let range = from..self.rows.figures.len();
        if shared {
            self.shared.push((key, range.clone()));
        }
        range
    }

    /// Places a row of steps that have a rhythm of their own.
    #[allow(clippy::too_many_arguments, reason = "all that an entry of the search is made of")]
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
        let mut rows = core::mem::take(&mut self.rows);
        rows.placed.clear();
        if let Some(weighed) = weighed(&entry.state, steps, span, &mut rows.placed) {
            let cost = cost + weighed.cost;
            if self.most(entry, to).is_some_and(|most| cost <= most) {
                self.lay(entry, &mut rows, weighed, counts, cost, span, mark, to);
            }
        }
        self.rows = rows;
    }

    /// Places the row at hand, which was weighed.
    #[allow(clippy::too_many_arguments, reason = "all that an entry of the search is made of")]
    fn lay(
        &mut self,
        entry: &Entry,
        rows: &mut Rows,
        weighed: Weighed,
        counts: u32,
        cost: u32,
        span: Span,
        mark: &Mark,
        to: usize,
    ) {
        let s = entry.state;
        let Rows { placed, ats, .. } = rows;
        let Some(first) = placed.first().map(|p| p.step) else { return };
        let length = i32::try_from(counts).unwrap_or(1) * 24;
        let facing = s.facing.turned(weighed.turn);
        let Weighed { weight, last, .. } = weighed;
        let state = |t: i32, k: u8| State { t, k, half: false, t0: s.t0, weight, last, facing };
        let Some(slots) = self.slots() else {
            // In free time the figure keeps its own rhythm.
            let lead_in = first.at.0 < 24;
            let start = s.t - if s.half && !lead_in { 12 } else { 0 };
            for p in placed.iter_mut() {
                p.at = Ticks(start + p.step.at.0 - 24);
            }
            let end = if s.half && !lead_in { floor(start + length + 12) } else { start + length };
            self.push(entry, state(end, s.k), cost, placed, *mark, span, to);
            return;
        };
        let k = usize::from(s.k);
        if k >= slots.len() {
            // Nothing left: all on the last position.
            if k > 0 && placed.len() == 1 {
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
            return;
        }
        // Exactly in rhythm.
        let base = slots[k].0 - first.at.0;
        let mut exact = true;
        let mut off = 0;
        ats.clear();
        ats.extend(placed.iter().map(|p| {
            let want = base + p.step.at.0;
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
        for (i, p) in placed.iter().enumerate() {
            if p.step.at.0 != at {
                at = p.step.at.0;
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
    }
}

/// Puts the steps of a row behind `placed`, weighed but on no counts yet; weight is the same wherever they fall.
fn weighed(s: &State, steps: &[Step], span: Span, placed: &mut Vec<Placed>) -> Option<Weighed> {
    let first = steps.first()?;
    let mut cost = u32::from(matches!(s.last, Last::Bump(_)) && first.action != Action::Bump) * 5;
    let mut turn = Turn::NONE;
    let mut w = *s;
    for step in steps {
        let (after, broken, c) = weigh(&w, step);
        cost += c;
        let at = Ticks::COUNT;
        placed.push(Placed { at, step: *step, before: w.weight, after, broken, span, crowded: false });
        w.last = last_of(step, after, w.last);
        w.weight = after;
        turn += step.turn;
    }
    Some(Weighed { cost, weight: w.weight, last: w.last, turn })
}

fn clip(k: usize) -> u8 {
    u8::try_from(k).unwrap_or(u8::MAX)
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

/// What it costs that a figure pivots toward the foot that stepped, which no body does.
fn against(steps: &[Step]) -> u32 {
    let wrong = |w: &[Step]| {
        w[1].action == Action::Pivot
            && w[0].effect == Effect::Takes
            && match w[1].who {
                Who::One(Foot::Right) => w[1].turn.0 < 0,
                Who::One(Foot::Left) => w[1].turn.0 > 0,
                _ => false,
            }
    };
    if steps.windows(2).any(wrong) { costs::AGAINST } else { 0 }
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
