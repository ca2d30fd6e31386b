//! What a remark about the weight does to a reading.

use super::costs;
use super::lattice::Search;
use super::meaning::{Actor, Edge, Event};
use super::state::{Entry, Last, Mark, State};
use crate::dance::{Action, Effect, Place, Weight};
use crate::figures::WeightSaid;

impl Search<'_> {
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
