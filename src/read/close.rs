//! The end of a chunk and of a section: what was left out, and counts that do not add up.

use super::costs;
use super::lattice::Search;
use super::layers::MARGIN;
use super::start::Start;
use super::state::{Entry, Last, Mark, State};
use crate::dance::Weight;
use crate::figures::WeightSaid;
use crate::sheet::words::Kind;
use crate::sheet::{SectionText, Slots};
use crate::text::Span;

impl Search<'_> {
    /// The end of a chunk: positions that were left, counts that do not add up.
    pub(super) fn close(&mut self, layer: Vec<Entry>, mark_span: Span) -> Vec<Entry> {
        let mut out: Vec<Entry> = Vec::with_capacity(layer.len() + 1);
        let slots = self.slots;
        let total = self.total;
        self.layers.reset(0, 0, MARGIN);
        for entry in layer {
            let mut s = entry.state;
            s.half = false;
            let mut cost = 0;
            let mut mark = Mark::None;
            if let Some(slots) = slots {
                let left = slots.get(usize::from(s.k)..).unwrap_or(&[]);
                if !left.is_empty() {
                    cost += left
                        .iter()
                        .map(|t| if t.within() == 0 { costs::EMPTY_COUNT } else { costs::EMPTY_HALF })
                        .sum::<u32>();
                    mark = Mark::Empty(s.k);
                }
                s.k = 0;
                if let Some(last) = slots.last() {
                    s.t = last.count() * 24 + 24;
                }
            } else if let Some(said) = total {
                let got = (s.t - s.t0) / 24;
                let said_counts = i32::try_from(said).unwrap_or(0);
                if got != said_counts {
                    cost += costs::TOTAL * got.abs_diff(said_counts) + 10;
                    mark = Mark::Total { said, got };
                    s.t = s.t0 + said_counts * 24;
                }
            }
            if let (Last::Bump(f), Weight::Both, Mark::None) = (s.last, s.weight, mark) {
                // After bumps the weight is on the side of the last, unless more of them follow.
                let on = State { weight: Weight::On(f), last: Last::Step(f), ..s };
                self.push(&entry, on, cost + 1, &[], Mark::Weight(WeightSaid::On(f)), mark_span, 0);
            }
            self.push(&entry, s, cost, &[], mark, mark_span, 0);
        }
        self.layers.take(0, &mut out);
        out
    }

    pub(super) fn end_section(
        &mut self,
        section: &SectionText,
        here: Vec<Entry>,
        start: &Start,
    ) -> Vec<Entry> {
        let open = section.chunks.iter().any(|c| !matches!(c.slots, Slots::At { .. }));
        self.layers.reset(0, 0, MARGIN);
        let usual = i32::try_from(start.metre.section()).unwrap_or(8);
        let bar = i32::try_from(start.metre.beats()).unwrap_or(4);
        for entry in here {
            let got = (entry.state.t - 24) / 24;
            let mut cost = 0;
            let mut mark = Mark::Section;
            let said_something = section.tokens.iter().any(|t| !matches!(t.kind, Kind::Sign(_)));
            if matches!((entry.state.last, entry.state.weight), (Last::Bump(_), Weight::Both)) {
                cost += 5;
            }
            if open && got == 0 && said_something {
                cost += 2 * costs::TOTAL;
            }
            if open && got > 0 {
                if let Some((said, _)) = section.counts {
                    let said_counts = i32::try_from(said).unwrap_or(0);
                    if said_counts != got {
                        cost = costs::TOTAL * got.abs_diff(said_counts).min(999);
                        mark = Mark::Total { said, got };
                    }
                } else if start.divided {
                    if let Some(n) = self.expected
                        && i32::try_from(n).unwrap_or(0) != got
                    {
                        let off = got.abs_diff(i32::try_from(n).unwrap_or(0));
                        cost += 16 + if start.even { costs::UNEVEN * off.min(8) } else { 4 * off.min(6) };
                    }
                    if got % usual != 0 {
                        cost += costs::ODD_LENGTH;
                    }
                    if got % bar != 0 {
                        cost += costs::ODD_LENGTH;
                    }
                } else {
                    // Blocks between empty lines are mostly sections.
                    if got % usual != 0 && !start.short {
                        cost += costs::ODD_LENGTH / 2;
                    }
                    if got % bar != 0 {
                        cost += costs::ODD_LENGTH;
                    }
                }
            }
            let state = State { t: 24, k: 0, half: false, t0: 24, ..entry.state };
            self.push(&entry, state, cost, &[], mark, section.span, 0);
        }
        let mut out = Vec::new();
        self.layers.take(0, &mut out);
        out
    }
}
