//! "R heel & L heel &": the sign itself closes the foot that touched.

use super::lattice::Search;
use super::meaning::{Actor, Edge, Event};
use super::state::{Entry, Last, State};
use crate::dance::{Action, Place};

/// What a sign costs that stands for a step.
const SIGN_STEPS: u32 = 9;

impl Search<'_> {
    /// On a half-count, the foot that touched before the sign steps beside the other.
    pub(super) fn switch(&mut self, entry: &Entry, edge: &Edge) {
        let s = entry.state;
        let sign = edge.span.of(self.text).contains(['&', '+']);
        let half = self.slots().map_or(sign && !s.half && s.t > s.t0, |slots| {
            slots.get(usize::from(s.k)).is_some_and(|t| t.within() != 0)
        });
        let (Last::Placed(foot) | Last::Gesture(foot)) = s.last else { return };
        let touched = self.last_step(entry).is_some_and(|st| {
            matches!(st.action, Action::Heel | Action::Toe | Action::Touch | Action::Point)
        });
        if !half || !touched {
            return;
        }
        let close = Event::taking(Actor::Said(foot), Action::Step, Place::Close);
        // Where nobody tells counts, the sign itself is the half-count.
        let free = self.slots().is_none();
        let entry = Entry { state: State { half: free, ..s }, ..*entry };
        self.event(&entry, &close, edge.cost + SIGN_STEPS, edge.span, edge.to);
    }
}
