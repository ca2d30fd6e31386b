//! The search for the cheapest reading of a part.
//!
//! The words of a part form a lattice: each token is a point, each candidate reading an edge to a later point. A
//! state says where the weight is, how far the counts are filled and which way the dancer faces. At each point
//! only the cheapest way into each state is kept, and only the best of these, so the work grows with the length
//! of the words and with nothing else.

use arrayvec::ArrayVec;

use super::candidates::edges;
use super::costs;
use super::kept::{Before, KeptPart, Stop};
use super::known::Known;
use super::layers::{BEAM, Layers, MARGIN, Place};
use super::meaning::{Edge, Meaning, Own, TurnSaid};
use super::place::Variant;
use super::pointed;
use super::rows::Rows;
use super::start::Start;
use super::state::{Arena, Entry, Last, Mark, Node, Placed, State};
use super::wordings::pivot;
use crate::dance::{Effect, Foot, Weight};
use crate::figures::{Lexicon, Step, lexicon};
use crate::floor::Turn;
use crate::order::Ordered as _;
use crate::sheet::words::{Kind, Token};
use crate::sheet::{SectionText, Slots};
use crate::text::Span;
use crate::time::Ticks;

/// How much more than a reading that leads further one may cost at first.
const NEAR: u32 = 60;

/// What the words of a chunk may cost so that no dearer way through them is looked for.
const EASE: u32 = 40;

/// The margin of the first search. Where all words are read with ease, nothing comes of a way that explains so much.
const NARROW: u32 = 28;

/// What the words of a chunk may cost in the first search.
const PLAIN: u32 = 12;

/// What the end of a section may cost in it: a length that is not as expected costs more.
const WHOLE: u32 = 5;

pub(super) struct Search<'a> {
    pub(super) text: &'a str,
    pub(super) lexicon: &'static Lexicon,
    pub(super) arena: Arena,
    pub(super) sections: &'a [SectionText],
    pub(super) section: usize,
    pub(super) chunk: usize,
    pub(super) slots: Option<&'a [Ticks]>,
    pub(super) total: Option<u32>,
    pub(super) range: bool,
    own: &'a [Own],
    pub(super) expected: Option<u32>,
    known: &'a mut Known,
    /// Layers of the chunk at hand, by token.
    pub(super) layers: Layers,
    pub(super) opens: bool,
    /// Rows of steps at hand, kept so that they need no new memory each time.
    pub(super) rows: Rows,
    /// What the action of the edge at hand may be, by weight and last action.
    pub(super) variants: Vec<Variant>,
    pub(super) shared: Vec<((Weight, Last), core::ops::Range<usize>)>,
    /// Transitions tried: the measure of work.
    pub(super) work: u64,
    /// Whether this is the first search, which ends where words are not read with ease.
    narrow: bool,
}

/// The way that the search found.
#[derive(Debug)]
pub(super) struct Way {
    /// From the first node to the last.
    pub nodes: Vec<Node>,
    /// All that was tried.
    pub arena: Arena,
    /// What it costs.
    pub cost: u32,
    pub work: u64,
    /// Whether the first search found it.
    pub narrow: bool,
}

/// Finds the cheapest reading of some sections.
pub(super) fn search(text: &str, sections: &[SectionText], start: &Start, own: &[Own]) -> Way {
    search_on(text, sections, start, own, u32::MAX, None, None)
}

/// The same, going on behind the first sections where they were searched before; notes where it stood between
/// sections in `stops`. Gives up, with a cost of `u32::MAX`, where every reading costs more than `bound`.
pub(super) fn search_on(
    text: &str,
    sections: &[SectionText],
    start: &Start,
    own: &[Own],
    bound: u32,
    before: Option<Before<'_>>,
    mut stops: Option<&mut Vec<Stop>>,
) -> Way {
    let known = &mut Known::of(sections);
    let Some(before) = before else {
        let first = search_in(text, sections, start, own, bound, known, None, stops.as_deref_mut(), true);
        if first.cost < u32::MAX {
            return first;
        }
        if let Some(stops) = &mut stops {
            stops.clear();
        }
        let second = search_in(text, sections, start, own, bound, known, None, stops, false);
        return Way { work: second.work + first.work, ..second };
    };
    let Before { part, sections: n, .. } = before;
    let here = part.stops.get(n).map(|stop| (&part.way, stop));
    if !part.way.narrow {
        return search_in(text, sections, start, own, bound, known, here, stops, false);
    }
    let first = search_in(text, sections, start, own, bound, known, here, None, true);
    if first.cost < u32::MAX {
        return first;
    }
    let (way, wide) = part.wide.get_or_init(|| {
        let (mut stops, known) = (Vec::new(), &mut Known::of(&part.sections));
        let KeptPart { sections, start, bound, .. } = part;
        let text = before.text;
        let way = search_in(text, sections, start, own, *bound, known, None, Some(&mut stops), false);
        (way, stops)
    });
    let here = wide.get(n).map(|stop| (way, stop));
    search_in(text, sections, start, own, bound, known, here, stops, false)
}

/// One search: the first one, which gives up where words are not read with ease, or the one that looks at everything.
#[allow(clippy::too_many_arguments, reason = "all that a search depends on")]
fn search_in<'a>(
    text: &'a str,
    sections: &'a [SectionText],
    start: &Start,
    own: &'a [Own],
    bound: u32,
    known: &'a mut Known,
    before: Option<(&Way, &Stop)>,
    mut stops: Option<&mut Vec<Stop>>,
    narrow: bool,
) -> Way {
    let mut s = Search {
        text,
        lexicon: lexicon(),
        arena: Arena::default(),
        sections,
        section: 0,
        chunk: 0,
        slots: None,
        total: None,
        range: false,
        own,
        expected: None,
        known,
        layers: Layers::within(bound, if narrow { NARROW } else { MARGIN }),
        opens: true,
        rows: Rows::default(),
        variants: Vec::new(),
        shared: Vec::new(),
        work: 0,
        narrow,
    };
    let mut here: Vec<Entry>;
    let mut done = 0;
    if let Some((way, stop)) = before {
        let Arena { nodes, placed } = &way.arena;
        s.arena = Arena { nodes: nodes[..stop.nodes].to_vec(), placed: placed[..stop.placed].to_vec() };
        s.work = stop.work;
        here = stop.here.clone();
        done = stop.sections;
    } else {
        // About as much as a sheet takes.
        let words: usize = sections.iter().map(|t| t.tokens.len()).sum();
        s.arena.nodes.reserve(words.min(1 << 12) * 8);
        s.arena.placed.reserve(words.min(1 << 12) * 8);
        s.arena.nodes.push(Node {
            prev: u32::MAX,
            from: 0,
            n: 0,
            mark: Mark::None,
            span: Span::default(),
            section: 0,
            chunk: 0,
            t: 24,
            opens: true,
        });
        here = start
            .weights
            .iter()
            .map(|(weight, cost)| Entry {
                state: State {
                    weight: *weight,
                    facing: start.facing,
                    t: 24,
                    k: 0,
                    last: Last::Nothing,
                    half: false,
                    t0: 24,
                },
                cost: *cost,
                node: 0,
            })
            .collect();
    }
    for (i, section) in sections.iter().enumerate().skip(done) {
        s.note(&mut stops, &here);
        s.section = i;
        let usual = || start.expected.filter(|_| !pointed::several(text, section));
        s.expected = section.counts.map(|(n, _)| n).or_else(usual);
        for entry in &mut here {
            entry.state.t = 24;
        }
        for chunk in 0..section.chunks.len() {
            let before = least(&here);
            s.chunk = chunk;
            here = s.chunk(section, here);
            if narrow && least(&here) > before.saturating_add(PLAIN) {
                return s.given_up();
            }
        }
        let before = least(&here);
        here = s.end_section(section, here, start);
        if narrow && least(&here) > before.saturating_add(WHOLE) {
            return s.given_up();
        }
        if here.is_empty() && bound < u32::MAX {
            break;
        }
    }
    s.note(&mut stops, &here);
    here.in_order_by_key(|e| e.cost);
    let nowhere = if bound < u32::MAX { u32::MAX } else { 0 };
    let cost = here.first().map_or(nowhere, |e| e.cost);
    let mut nodes: Vec<Node> =
        here.first().map(|e| s.arena.back(e.node).copied().collect()).unwrap_or_default();
    nodes.reverse();
    Way { nodes, arena: s.arena, cost, work: s.work, narrow }
}

/// What the best of some readings costs.
fn least(here: &[Entry]) -> u32 {
    here.iter().map(|e| e.cost).min().unwrap_or(u32::MAX)
}

impl<'a> Search<'a> {
    pub(super) fn slots(&self) -> Option<&'a [Ticks]> {
        self.slots
    }

    /// No way.
    fn given_up(self) -> Way {
        Way { nodes: Vec::new(), arena: self.arena, cost: u32::MAX, work: self.work, narrow: self.narrow }
    }

    /// Notes where the search stands.
    fn note(&self, stops: &mut Option<&mut Vec<Stop>>, here: &[Entry]) {
        if let Some(stops) = stops {
            stops.push(Stop {
                sections: stops.len(),
                here: here.to_vec(),
                nodes: self.arena.nodes.len(),
                placed: self.arena.placed.len(),
                work: self.work,
            });
        }
    }

    /// Whether steps may be stretched to fill a number of counts.
    pub(super) fn filling(&self) -> bool {
        self.total.is_some() || self.expected.is_some()
    }

    /// Adds a reading that leads to token `to`.
    #[allow(clippy::too_many_arguments, reason = "all that an entry of the search is made of")]
    pub(super) fn push(
        &mut self,
        entry: &Entry,
        state: State,
        cost: u32,
        placed: &[Placed],
        mark: Mark,
        span: Span,
        to: usize,
    ) {
        if let Some(place) = self.place(entry, &state, cost, to) {
            self.put(place, entry, state, cost, placed, mark, span, to);
        }
    }

    /// The place that a reading would have at token `to`.
    pub(super) fn place(&mut self, entry: &Entry, state: &State, cost: u32, to: usize) -> Option<Place> {
        self.work += 1;
        self.layers.place(to, state, entry.cost + cost)
    }

    /// What a step from a reading may cost at most to be kept at token `to`.
    #[inline]
    pub(super) fn most(&self, entry: &Entry, to: usize) -> Option<u32> {
        self.layers.limit(to).checked_sub(entry.cost)
    }

    /// Puts a reading at its place.
    #[allow(clippy::too_many_arguments, reason = "all that an entry of the search is made of")]
    pub(super) fn put(
        &mut self,
        place: Place,
        entry: &Entry,
        state: State,
        cost: u32,
        placed: &[Placed],
        mark: Mark,
        span: Span,
        to: usize,
    ) {
        let node = if placed.is_empty() && mark == Mark::None {
            entry.node
        } else {
            let from = u32::try_from(self.arena.placed.len()).unwrap_or(u32::MAX);
            self.arena.placed.extend_from_slice(placed);
            self.arena.nodes.push(Node {
                prev: entry.node,
                from,
                n: u32::try_from(placed.len()).unwrap_or(0),
                mark,
                span,
                section: u16::try_from(self.section).unwrap_or(u16::MAX),
                chunk: u16::try_from(self.chunk).unwrap_or(u16::MAX),
                t: entry.state.t,
                opens: self.opens,
            });
            u32::try_from(self.arena.nodes.len() - 1).unwrap_or(0)
        };
        self.layers.put(to, place, Entry { state, cost: entry.cost + cost, node });
    }

    fn chunk(&mut self, section: &'a SectionText, mut here: Vec<Entry>) -> Vec<Entry> {
        let chunk = &section.chunks[self.chunk];
        self.range = false;
        self.total = None;
        self.slots = None;
        match &chunk.slots {
            Slots::At { ticks, range } => {
                self.slots = Some(ticks);
                self.range = *range;
            }
            Slots::Total(n) => self.total = Some(*n),
            Slots::Free => {}
        }
        for e in &mut here {
            e.state.k = 0;
            e.state.half = false;
            if let Some(first) = self.slots.and_then(|s| s.first()) {
                e.state.t = (first.0 + 23).div_euclid(24) * 24;
            }
            e.state.t0 = e.state.t;
        }
        if self.narrow {
            return self.within(section, &here, NARROW);
        }
        let best = here.iter().map(|e| e.cost).min().unwrap_or(0);
        // Most words are read with ease, and then nothing comes of ways that begin with much to explain.
        let easy = self.within(section, &here, NEAR);
        if easy.iter().map(|e| e.cost).min().is_some_and(|cost| cost <= best + EASE) {
            return easy;
        }
        self.within(section, &here, MARGIN)
    }

    /// The readings of a chunk, without those that cost `ahead` more than one that leads further.
    fn within(&mut self, section: &'a SectionText, here: &[Entry], ahead: u32) -> Vec<Entry> {
        let chunk = &section.chunks[self.chunk];
        let plain = least(here).saturating_add(PLAIN);
        self.layers.reset(chunk.from, chunk.to - chunk.from, ahead);
        for e in here {
            self.layers.offer(chunk.from, *e);
        }
        let mut layer = Vec::with_capacity(BEAM);
        // The words of a table stand in another order than in the text: first and last do not hold the others.
        let words = &section.tokens[chunk.from..chunk.to];
        let unwritten = |t: &Token| t.span.is_empty() && !matches!(t.kind, Kind::Sign(_));
        let moved =
            words.windows(2).any(|w| w[1].span.start < w[0].span.start) || words.iter().any(unwritten);
        for i in chunk.from..chunk.to {
            if self.layers.is_empty(i) {
                continue;
            }
            self.layers.take(i, &mut layer);
            // The first search need not go on to the end of words that are not read with ease.
            if self.narrow && least(&layer) > plain && !self.layers.goes_on(i, plain) {
                return Vec::new();
            }
            self.opens =
                i == chunk.from || matches!(section.tokens[i - 1].kind, Kind::Sign('.' | '\n' | ';' | ':'));
            let at = self.known.at(self.section, self.chunk, i, |out| {
                let known = out.len();
                edges(self.text, &section.tokens, i, chunk.to, self.lexicon, self.own, out);
                if i == chunk.from {
                    pointed::edges(self.text, section, self.chunk, known, out);
                }
                for edge in out[known..].iter_mut().filter(|_| moved) {
                    edge.span = section.tokens[i..edge.to].iter().fold(edge.span, |all, t| all.join(t.span));
                }
            });
            let known = core::mem::take(&mut self.known.edges);
            for edge in &known[at] {
                self.variants.clear();
                self.rows.figures.clear();
                self.rows.figures_placed.clear();
                self.shared.clear();
                for entry in &layer {
                    // No reading gets cheaper on its way.
                    if entry.cost + edge.cost > self.layers.limit(edge.to) {
                        break;
                    }
                    self.follow(entry, edge, true);
                }
            }
            self.known.edges = known;
        }
        self.layers.take(chunk.to, &mut layer);
        self.close(layer, chunk.mark)
    }

    /// Follows an edge; `shared` where it is the one at hand, for whose readings some work is done once.
    fn follow(&mut self, entry: &Entry, edge: &Edge, shared: bool) {
        let s = entry.state;
        match &edge.meaning {
            Meaning::Skip => self.push(entry, s, edge.cost, &[], Mark::None, edge.span, edge.to),
            Meaning::Unread => self.push(entry, s, edge.cost, &[], Mark::Unread, edge.span, edge.to),
            Meaning::Label(figure, lead, turn) => {
                let mark = Mark::Label(*figure, *lead);
                self.push(
                    entry,
                    s,
                    edge.cost + u32::from(*turn != TurnSaid::None) * 3,
                    &[],
                    mark,
                    edge.span,
                    edge.to,
                );
                // The turn of the name, where the steps behind it say none.
                for (turn, cost) in loose_turns(*turn, lead.unwrap_or(Foot::Right)) {
                    let state = State { facing: s.facing.turned(turn), ..s };
                    self.push(
                        entry,
                        state,
                        edge.cost + cost,
                        &[],
                        Mark::LabelTurning(*figure, *lead, turn),
                        edge.span,
                        edge.to,
                    );
                }
            }
            Meaning::Half => {
                self.switch(entry, edge);
                if self.slots.is_none() || self.range {
                    self.push(
                        entry,
                        State { half: true, ..s },
                        edge.cost,
                        &[],
                        Mark::None,
                        edge.span,
                        edge.to,
                    );
                }
            }
            Meaning::Event(event) => self.event_of(entry, event, edge.cost, edge.span, edge.to, shared),
            Meaning::Figure(named) => self.figure(entry, named, edge.cost, edge.span, edge.to, shared),
            Meaning::Own(n, lead) => {
                let lead = lead.unwrap_or(match s.weight {
                    Weight::On(f) => f.other(),
                    Weight::Both => Foot::Right,
                });
                let own = &self.own[*n];
                let steps: Vec<Step> =
                    own.steps.iter().map(|st| if lead == Foot::Left { st.mirrored() } else { *st }).collect();
                let sum = steps.iter().fold(Turn::NONE, |t, st| t + st.turn);
                self.row(
                    entry,
                    &steps,
                    own.counts,
                    edge.cost,
                    edge.span,
                    &Mark::Own(u16::try_from(*n).unwrap_or(u16::MAX), lead, sum),
                    edge.to,
                );
            }
            Meaning::TurnTo(heading) => {
                // The shorter way; half a turn goes either way.
                let said = match (heading.units() - s.facing.units()).rem_euclid(48) {
                    0 => TurnSaid::None,
                    24 => TurnSaid::Size(24),
                    n @ 1..24 => TurnSaid::Known(Turn(n)),
                    n => TurnSaid::Known(Turn(n - 48)),
                };
                let turning = Edge { cost: edge.cost + 2, meaning: Meaning::Turning(said), ..edge.clone() };
                self.follow(entry, &turning, false);
                if said != TurnSaid::None {
                    self.event(entry, &pivot(None, said), edge.cost + 5, edge.span, edge.to);
                }
            }
            Meaning::Turning(said) => {
                let free = match s.weight {
                    Weight::On(f) => f.other(),
                    Weight::Both => Foot::Right,
                };
                for (turn, cost) in loose_turns(*said, free) {
                    let state = State { facing: s.facing.turned(turn), ..s };
                    self.push(entry, state, edge.cost + cost, &[], Mark::Turning(turn), edge.span, edge.to);
                }
            }
            Meaning::Clock(said) => {
                let (cost, mark) = if *said == s.facing {
                    (0, Mark::ClockHeld { said: *said })
                } else {
                    (costs::CLOCK, Mark::Clock { said: *said, got: s.facing })
                };
                if cost > 0 {
                    // A turn was written wrong and all later marks agree with this one: that is one slip.
                    let state = State { facing: *said, ..s };
                    let more = cost + costs::CLOCK_KEPT;
                    self.push(entry, state, edge.cost + more, &[], mark, edge.span, edge.to);
                }
                self.push(entry, s, edge.cost + cost, &[], mark, edge.span, edge.to);
            }
            Meaning::Several(n, each) => {
                let mut entries = vec![*entry];
                let mut edge = Edge { meaning: (**each).clone(), ..edge.clone() };
                for k in 0..*n {
                    let saved = self.layers.put_aside(edge.to);
                    for e in &entries {
                        // "Two shuffles": the second begins with whichever foot is free.
                        let other = |lead: &Foot| k > 0 && !e.state.weight.frees(*lead);
                        match &mut edge.meaning {
                            Meaning::Figure(named) if named.lead.as_ref().is_some_and(other) => {
                                let named = super::meaning::Named { lead: None, ..named.clone() };
                                self.figure(e, &named, edge.cost, edge.span, edge.to, false);
                            }
                            _ => self.follow(e, &edge, false),
                        }
                    }
                    self.layers.take(edge.to, &mut entries);
                    self.layers.put_back(edge.to, saved);
                    entries.truncate(6);
                    edge.cost = 0;
                }
                for e in entries {
                    self.layers.offer(edge.to, e);
                }
            }
            Meaning::Weight(said) => self.weight(entry, *said, edge),
            Meaning::Feet(feet) => self.feet(entry, feet, edge),
            Meaning::Tells(foot, place) => self.tells(entry, *foot, *place, edge),
            Meaning::Repeat(r) => self.repeat(entry, r, edge),
        }
    }

    /// Whether the last step was read as a touch only because the foot acts next: it has weight after all.
    pub(super) fn lightened(&self, entry: &Entry) -> bool {
        let last = self.arena.back(entry.node).find(|n| n.n > 0).and_then(|n| self.arena.actions(n).last());
        last.is_some_and(|p| p.step.action == crate::dance::Action::Step && p.step.effect == Effect::Free)
    }
}

fn loose_turns(said: TurnSaid, free: Foot) -> ArrayVec<(Turn, u32), 4> {
    let toward = |size: i32, f: Foot| Turn(if f == Foot::Right { size } else { -size });
    match said {
        TurnSaid::None => few![],
        TurnSaid::Known(t) => few![(t, 0)],
        TurnSaid::Size(size) => few![(toward(size, free), 1), (toward(size, free.other()), 3)],
        // A direction alone says how a turn named elsewhere goes, unless a clock asks for more.
        TurnSaid::To(f) => few![(Turn::NONE, 2), (toward(12, f), 14), (toward(24, f), 18)],
    }
}
