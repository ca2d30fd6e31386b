//! Written steps as ways to read on from a word.

use super::costs;
use super::meaning::{Actor, Effects, Event, Meaning, TurnSaid};
use crate::dance::{Action, Effect, Foot, Place};
use crate::figures::{FootPart, Written, usual_effect};
use crate::sheet::vocabulary::W;

/// The edges of one written step; `side` says that a side in it was taken for the direction, `ahead` is the verb
/// of the next clause.
pub(super) fn step_edges(
    w: &Written,
    side: bool,
    penalty: u32,
    ahead: Option<W>,
    push: &mut dyn FnMut(usize, u32, Meaning),
) {
    if w.only_foot() {
        if let Some(foot) = w.foot {
            push(w.end, penalty, Meaning::Feet(vec![foot]));
        }
        return;
    }
    let turn = TurnSaid::of(w);
    if w.only_turn() {
        if turn == TurnSaid::None {
            return;
        }
        push(w.end, penalty + 2, Meaning::Turning(turn));
        if matches!(turn, TurnSaid::To(_)) {
            return;
        }
        // On a count of its own: a pivot onto the other foot, or a turn on the spot.
        let foot = w.onto.or(w.foot);
        let pivot = Event { lasts: w.lasts, ..pivot(foot, turn) };
        // "Full turn left L, R, L" goes round in steps; nobody pivots so far with both feet on the floor.
        let whole = w.turn.and_then(|t| t.size).is_some_and(|n| n >= 48) && !w.both;
        push(w.end, penalty + if whole { 24 } else { 5 }, Meaning::Event(pivot.clone()));
        // "Turn half left on balls of both feet" untwists.
        push(
            w.end,
            penalty + if w.both { 8 } else { 30 },
            Meaning::Event(Event {
                actor: Actor::Free,
                action: Action::Turn,
                effects: few![(Effect::Keeps, 0)],
                ..pivot
            }),
        );
        return;
    }
    if w.both && w.action.is_none() && w.part.is_none() {
        // "forward both" says nothing that one could dance.
        return;
    }
    let Some((action, place)) = w.meaning() else { return };
    let crossed = action == Action::Step && matches!(place, Place::Cross | Place::Behind);
    let effects = if crossed && ahead == Some(W::Unwind) {
        few![(Effect::Shares, 0), (Effect::Takes, 6)]
    } else if action == Action::Stomp && matches!(ahead, Some(W::Drop | W::Bounce)) {
        few![(Effect::Free, 0), (Effect::Takes, 4)]
    } else {
        effects(w, action, place)
    };
    let actor = if w.both {
        Actor::Both
    } else if matches!(action, Action::Clap | Action::Hold | Action::Body | Action::Hips) {
        Actor::Nobody
    } else if let Some(foot) = w.foot.or(w.onto) {
        Actor::Said(foot)
    } else if action == Action::Sway && w.side.is_some() {
        Actor::Said(w.side.unwrap_or(Foot::Right))
    } else if matches!(
        action,
        Action::Swivel
            | Action::Split
            | Action::Bounce
            | Action::Applejack
            | Action::Swivet
            | Action::Jump
            | Action::Roll
    ) || (action == Action::Bump && w.foot.is_none())
    {
        Actor::Both
    } else if let Some(other) = w.beside {
        Actor::Implied(other.other())
    } else {
        Actor::Free
    };
    // "Roll a full turn" goes round on the feet, not in the hips.
    let rolls = action == Action::Roll && w.turn.and_then(|t| t.size).is_some_and(|n| n >= 36);
    let penalty = penalty + if rolls { 60 } else { 0 };
    let event = Event {
        actor,
        action,
        place,
        reach: w.reach,
        turn,
        turn_when: w.turn_when,
        effects,
        lasts: w.lasts,
        joined: w.joined,
        bare: w.action.is_none() && w.foot.is_none() && w.part.is_none(),
        side: w.side,
        perhaps_foot: side,
    };
    if action == Action::Step && matches!(w.part, Some(FootPart::Toe | FootPart::Heel)) {
        // "Step on R toe, lower heel" is a strut.
        let toe = Event { action: Action::Toe, effects: few![(Effect::Free, 0)], ..event.clone() };
        push(w.end, penalty + 4, Meaning::Event(toe));
    }
    if matches!(action, Action::Heel | Action::Toe) && w.place.is_none() && w.foot.is_none() {
        // "toe, heel": the second half of a strut.
        let drop = Event {
            action: Action::Drop,
            place: Place::InPlace,
            effects: few![(Effect::Takes, 0)],
            ..event.clone()
        };
        push(w.end, penalty + 1, Meaning::Event(drop));
        push(w.end, penalty + 4, Meaning::Event(event));
        return;
    }
    if w.action.is_none() && w.place == Some(Place::Back) && w.foot.is_some() {
        // "back onto L" after a rock gives the weight back.
        let recover = Event { action: Action::Recover, place: Place::InPlace, ..event.clone() };
        push(w.end, penalty + 7, Meaning::Event(recover));
    }
    push(w.end, penalty + 1, Meaning::Event(event));
}

/// A turn on a count of its own, onto the other foot.
pub(super) fn pivot(foot: Option<Foot>, turn: TurnSaid) -> Event {
    let actor = foot.map_or(Actor::Free, Actor::Said);
    Event { turn, ..Event::taking(actor, Action::Pivot, Place::InPlace) }
}

/// What the action may do to the weight, the likeliest first.
fn effects(w: &Written, action: Action, place: Place) -> Effects {
    let usual = usual_effect(action);
    match action {
        Action::Stomp if w.up => few![(Effect::Free, 0)],
        Action::Stomp => few![(Effect::Takes, 0), (Effect::Free, costs::WITHOUT_WEIGHT - 5)],
        Action::Slide => few![(Effect::Takes, 2), (Effect::Free, 0)],
        Action::Step if w.closing && place == Place::Close => {
            few![(Effect::Takes, 0), (Effect::Free, costs::WITHOUT_WEIGHT)]
        }
        Action::Step if w.action.is_none() && matches!(place, Place::Cross | Place::Behind) => {
            few![(Effect::Takes, 0), (Effect::Free, costs::WITHOUT_WEIGHT + 15)]
        }
        Action::Bump => few![(Effect::Shares, 0), (Effect::Takes, 3)],
        Action::Ball => few![(Effect::Takes, 0), (Effect::Free, 14)],
        Action::Sweep if matches!(place, Place::Behind | Place::Cross) => {
            few![(Effect::Free, 0), (Effect::Takes, 6)]
        }
        Action::Unwind => few![(Effect::Takes, 0), (Effect::Keeps, 8)],
        Action::Roll => few![(Effect::Keeps, 0), (Effect::Takes, 6)],
        _ => few![(usual, 0)],
    }
}
