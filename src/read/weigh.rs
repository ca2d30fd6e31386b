//! The rules of weight as far as the search asks for them: what a step does, and what it costs.

use super::costs;
use super::meaning::Event;
use super::state::{Last, State};
use crate::dance::{Action, Broken, Effect, Foot, Place, Weight, Who};
use crate::figures::Step;

/// Changes an action to what the state makes of it: a heel drop of the standing foot is a bounce.
pub(super) fn adjusted(s: &State, event: &Event, effect: Effect, who: Who) -> (Effect, Who, u32) {
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
pub(super) fn weigh(s: &State, step: &Step) -> (Weight, Option<Broken>, u32) {
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
            (after, None, 20)
        }
        (Action::Pivot, Who::One(f)) if s.last != Last::Step(f.other()) => (after, None, 5),
        (Action::Unwind, Who::One(f)) if step.effect == Effect::Takes && s.last.foot() == Some(f) => {
            (after, None, 4)
        }
        _ => (after, None, 0),
    }
}

/// What the next action has to know of a step.
pub(super) fn last_of(step: &Step, after: Weight, old: Last) -> Last {
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
        (Action::Toe | Action::Heel | Action::Touch | Action::Point | Action::Fan, Who::One(f)) => {
            Last::Placed(f)
        }
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
