//! The search for the cheapest reading of a part.
//!
//! The words of a part form a lattice: each token is a point, each candidate reading an edge to a later point. A
//! state says where the weight is, how far the counts are filled and which way the dancer faces. At each point
//! only the cheapest way into each state is kept, and only the best of these, so the work grows with the length
//! of the words and with nothing else.

use arrayvec::ArrayVec;

use super::candidates::{Edge, Meaning, Own, TurnSaid, edges};
use super::costs;
use super::layers::{Layers, Place};
use super::phrases::Repeat;
use super::place::Rows;
use super::state::{Arena, Entry, Last, Mark, Node, Placed, State};
use crate::dance::{Effect, Foot, Weight, Who};
use crate::figures::{Lexicon, Step, WeightSaid, lexicon};
use crate::floor::{Heading, Turn};
use crate::order::Ordered as _;
use crate::sheet::words::{Kind, Token};
use crate::sheet::{SectionText, Slots};
use crate::text::{Span, lower};
use crate::time::{Metre, Ticks};

/// How many readings back a range of counts or a section is looked for that is to be danced again.
const FAR_BACK: usize = 2000;
/// How many sections back.
const SECTIONS_BACK: usize = 64;

/// How a part begins.
#[derive(Debug, Clone)]
pub(super) struct Start {
    /// Where the weight may be, with what each costs.
    pub weights: Vec<(Weight, u32)>,
    /// The facing, as the clock marks count it.
    pub facing: Heading,
    pub metre: Metre,
    /// Counts that each section should have, where nothing else says so.
    pub expected: Option<u32>,
    /// Whether sections were divided by the writer.
    pub divided: bool,
}

pub(super) struct Search<'a> {
    pub(super) text: &'a str,
    pub(super) lexicon: &'static Lexicon,
    pub(super) arena: Arena,
    sections: &'a [SectionText],
    section: usize,
    chunk: usize,
    slots: Option<&'a [Ticks]>,
    total: Option<u32>,
    pub(super) range: bool,
    own: &'a [Own],
    expected: Option<u32>,
    /// Layers of the chunk at hand, by token.
    layers: Layers,
    opens: bool,
    /// Rows of steps at hand, kept so that they need no new memory each time.
    pub(super) rows: Rows,
    /// Transitions tried: the measure of work.
    pub(super) work: u64,
}

/// What a repeat may be about: the end of a row of actions.
struct Groups {
    placed: Vec<Placed>,
    groups: Vec<Group>,
}

/// The actions from one on.
struct Group {
    from: usize,
    /// The tick of its first count.
    start: i32,
    counts: u32,
    cost: u32,
}

/// The way that the search found.
#[derive(Debug)]
pub(super) struct Way {
    /// From the first node to the last.
    pub nodes: Vec<Node>,
    pub placed: Vec<Placed>,
    /// What it costs.
    pub cost: u32,
    pub work: u64,
}

/// Finds the cheapest reading of some sections.
pub(super) fn search(text: &str, sections: &[SectionText], start: &Start, own: &[Own]) -> Way {
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
        layers: Layers::default(),
        opens: true,
        rows: Rows::default(),
        work: 0,
    };
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
    let mut here: Vec<Entry> = start
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
    let mut buffer = Vec::new();
    for (i, section) in sections.iter().enumerate() {
        s.section = i;
        s.expected = section.counts.map(|(n, _)| n).or(start.expected);
        for entry in &mut here {
            entry.state.t = 24;
        }
        for chunk in 0..section.chunks.len() {
            s.chunk = chunk;
            here = s.chunk(section, here, &mut buffer);
        }
        here = s.end_section(section, here, start);
    }
    here.in_order_by_key(|e| e.cost);
    let cost = here.first().map_or(0, |e| e.cost);
    let mut nodes: Vec<Node> =
        here.first().map(|e| s.arena.back(e.node).copied().collect()).unwrap_or_default();
    nodes.reverse();
    Way { nodes, placed: s.arena.placed, cost, work: s.work }
}

impl<'a> Search<'a> {
    pub(super) fn slots(&self) -> Option<&'a [Ticks]> {
        self.slots
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

    fn chunk(
        &mut self,
        section: &'a SectionText,
        mut here: Vec<Entry>,
        buffer: &mut Vec<Edge>,
    ) -> Vec<Entry> {
        let chunk = &section.chunks[self.chunk];
        let n = chunk.to - chunk.from;
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
        self.layers.reset(chunk.from, n);
        for e in &here {
            self.layers.offer(chunk.from, *e);
        }
        let mut layer = here;
        for i in chunk.from..chunk.to {
            if self.layers.is_empty(i) {
                continue;
            }
            self.layers.take(i, &mut layer);
            self.opens =
                i == chunk.from || matches!(section.tokens[i - 1].kind, Kind::Sign('.' | '\n' | ';' | ':'));
            edges(self.text, &section.tokens, i, chunk.to, self.lexicon, self.own, buffer);
            for edge in buffer.iter() {
                for entry in &layer {
                    // No reading gets cheaper on its way.
                    if entry.cost + edge.cost > self.layers.limit(edge.to) {
                        break;
                    }
                    self.follow(entry, edge, &section.tokens);
                }
            }
        }
        self.layers.take(chunk.to, &mut layer);
        self.close(layer, chunk.mark)
    }

    fn follow(&mut self, entry: &Entry, edge: &Edge, tokens: &[Token]) {
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
            Meaning::Event(event) => self.event(entry, event, edge.cost, edge.span, edge.to),
            Meaning::Figure(named) => self.figure(entry, named, edge.cost, edge.span, edge.to),
            Meaning::Own(n, lead) => {
                let lead = lead.unwrap_or(match s.weight {
                    Weight::On(f) => f.other(),
                    Weight::Both => Foot::Right,
                });
                let own = &self.own[*n];
                let steps: Vec<Step> =
                    own.steps.iter().map(|st| if lead == Foot::Left { st.mirrored() } else { *st }).collect();
                let sum = steps.iter().fold(Turn::NONE, |t, st| t + st.turn);
                self.row(entry, &steps, own.counts, edge.cost, edge.span, &Mark::Own(*n, lead, sum), edge.to);
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
            Meaning::Weight(said) => self.weight(entry, *said, edge),
            Meaning::Feet(feet) => self.feet(entry, feet, edge),
            Meaning::Repeat(r) => self.repeat(entry, r, edge, tokens),
        }
    }

    /// Whether the last step was read as a touch only because the foot acts next: it has weight after all.
    fn lightened(&self, entry: &Entry) -> bool {
        let last = self.arena.back(entry.node).find(|n| n.n > 0).and_then(|n| self.arena.actions(n).last());
        last.is_some_and(|p| p.step.action == crate::dance::Action::Step && p.step.effect == Effect::Free)
    }

    /// A remark about the weight changes the last action, or agrees, or is at odds with it.
    fn weight(&mut self, entry: &Entry, said: WeightSaid, edge: &Edge) {
        let s = entry.state;
        let foot = s.last.foot();
        let (weight, cost, mark) = match said {
            WeightSaid::On(f) => match s.weight {
                Weight::On(w) if w == f => (s.weight, 0, Mark::None),
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
                    let step = shift(f);
                    let event = super::candidates::Event {
                        actor: super::candidates::Actor::Said(f),
                        action: step.action,
                        place: step.place,
                        reach: step.reach,
                        turn: TurnSaid::None,
                        turn_when: step.turn_when,
                        effects: few![(Effect::Takes, 0)],
                        lasts: None,
                        joined: false,
                        bare: false,
                        side: None,
                        perhaps_foot: false,
                    };
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

    /// An order of feet: either it says again what the steps say, or it repeats the last step for each foot.
    fn feet(&mut self, entry: &Entry, feet: &[Foot], edge: &Edge) {
        let s = entry.state;
        let mut annotation = None;
        let mut unit: Option<(u32, Option<u16>)> = None;
        let mut steps = core::mem::take(&mut self.rows.unit);
        steps.clear();
        let mut unit_span = None;
        for node in self.arena.back(entry.node) {
            if usize::from(node.section) != self.section {
                break;
            }
            if node.n > 0 {
                let placed = self.arena.actions(node);
                let order = placed.iter().filter_map(|p| match (p.step.who, p.step.effect) {
                    (Who::One(f), Effect::Takes) => Some(f),
                    _ => None,
                });
                let several = order.clone().count() > 1;
                let said = feet.iter().copied();
                let same = several && (order.clone().eq(said.clone()) || order.skip(1).eq(said));
                annotation = Some(if same {
                    0
                } else if node.n > 1 && several {
                    30
                } else {
                    16
                });
                let base = (placed[0].at.0 + 23).div_euclid(24) * 24 - 24;
                steps.extend(placed.iter().map(|p| Step { at: Ticks(p.at.0 - base), ..p.step }));
                let figure = match node.mark {
                    Mark::Figure(id, ..) => Some(id),
                    _ => None,
                };
                let counts = figure.map_or_else(
                    || crate::figures::counts(&steps),
                    |id| self.lexicon.figures[usize::from(id)].counts().max(crate::figures::counts(&steps)),
                );
                unit = Some((counts, figure));
                unit_span = Some(node.span);
                break;
            }
            if matches!(node.mark, Mark::Label(..) | Mark::LabelTurning(..)) {
                annotation = Some(0);
                break;
            }
        }
        // Before any step it tells which feet are to come.
        self.push(
            entry,
            s,
            edge.cost + annotation.unwrap_or(1),
            &[],
            if annotation == Some(30) { Mark::FeetMiss } else { Mark::None },
            edge.span,
            edge.to,
        );
        let Some((counts, figure)) = unit else {
            self.rows.unit = steps;
            return;
        };
        self.stepped(entry, feet, edge, &steps, counts, figure, unit_span);
        self.rows.unit = steps;
    }

    /// Dances a step or figure once for each foot of an order.
    #[allow(clippy::too_many_arguments, reason = "all that an entry of the search is made of")]
    fn stepped(
        &mut self,
        entry: &Entry,
        feet: &[Foot],
        edge: &Edge,
        steps: &[Step],
        counts: u32,
        figure: Option<u16>,
        unit_span: Option<Span>,
    ) {
        let first = steps.iter().find_map(|st| match st.who {
            Who::One(f) => Some(f),
            _ => None,
        });
        // "Bump hips RRLL": the order gives the sides, the first bump's too.
        let unsided = |span: Span| {
            !span
                .of(self.text)
                .split(|c: char| !c.is_alphabetic())
                .any(|w| matches!(lower(w).as_str(), "r" | "l" | "right" | "left"))
        };
        let bumps = first.is_none() && figure.is_none() && unit_span.is_some_and(unsided);
        let feet = if bumps { &feet[1..] } else { feet };
        // One step or figure for each foot named.
        let mut entries = core::mem::take(&mut self.rows.entries);
        entries.clear();
        entries.push(*entry);
        let keep = edge.to;
        for foot in feet {
            let saved = self.layers.put_aside(keep);
            for e in &entries {
                let mirrored = first.is_some_and(|f| f != *foot);
                let mut row = core::mem::take(&mut self.rows.steps);
                row.clear();
                row.extend(
                    steps
                        .iter()
                        .map(|st| {
                            let st =
                                Step { turn: if figure.is_some() { st.turn } else { Turn::NONE }, ..*st };
                            if mirrored { st.mirrored() } else { st }
                        })
                        .map(|st| if first.is_none() { bump_to(st, *foot) } else { st }),
                );
                let sum = row.iter().fold(Turn::NONE, |t, st| t + st.turn);
                let mark = figure.map_or(Mark::None, |id| Mark::Figure(id, Some(*foot), sum));
                self.row(e, &row, counts, 1, edge.span, &mark, edge.to);
                self.rows.steps = row;
            }
            self.layers.take(keep, &mut entries);
            self.layers.put_back(keep, saved);
            if entries.is_empty() {
                break;
            }
            entries.truncate(6);
        }
        for e in &entries {
            self.layers.offer(keep, Entry { cost: e.cost + edge.cost, ..*e });
        }
        self.rows.entries = entries;
    }

    /// Says again what was danced before.
    fn repeat(&mut self, entry: &Entry, r: &Repeat, edge: &Edge, _tokens: &[Token]) {
        let s = entry.state;
        let Groups { placed, groups } = self.groups(entry, r);
        let mut group: Vec<Step> = Vec::with_capacity(placed.len());
        for Group { from, start, counts, cost } in groups {
            if self.most(entry, edge.to).is_none_or(|most| edge.cost + cost > most) {
                continue;
            }
            group.clear();
            group.extend(placed[from..].iter().map(|p| Step { at: Ticks(p.at.0 - start + 24), ..p.step }));
            let Some(first) = group.first() else { continue };
            let led = match first.who {
                Who::One(f) => Some(f),
                _ => group.iter().find_map(|st| match st.who {
                    Who::One(f) => Some(f),
                    _ => None,
                }),
            };
            let free = led.is_none_or(|f| {
                if first.effect == Effect::Keeps { s.weight == Weight::On(f) } else { s.weight.frees(f) }
            });
            let mirrored = match r.lead {
                Some(lead) if !r.suffix => led.is_some_and(|f| f != lead),
                _ if r.mirrored => true,
                _ if r.same => false,
                _ => !free,
            };
            let said = r.mirrored || r.same || r.lead.is_some();
            let times = r.times.map_or(1, |n| n.saturating_sub(1));
            let mut entries = core::mem::take(&mut self.rows.entries);
            entries.clear();
            entries.push(*entry);
            let keep = edge.to;
            for n in 0..times {
                let saved = self.layers.put_aside(keep);
                for e in &entries {
                    // Mirrored each time in turn where the weight asks for it.
                    let flip = !said
                        && !e.state.weight.frees(led.unwrap_or(Foot::Right))
                        && led.is_some()
                        && first.effect != Effect::Keeps;
                    let mirrored = if said { mirrored } else { flip };
                    let mut this = core::mem::take(&mut self.rows.steps);
                    this.clear();
                    this.extend(group.iter().map(|st| if mirrored { st.mirrored() } else { *st }));
                    let mark = Mark::Repeated { mirrored, said };
                    self.row(e, &this, counts, u32::from(flip && !said) * 4 + n, edge.span, &mark, edge.to);
                    self.rows.steps = this;
                }
                self.layers.take(keep, &mut entries);
                self.layers.put_back(keep, saved);
                entries.truncate(6);
            }
            for e in &entries {
                self.layers.offer(keep, Entry { cost: e.cost + edge.cost + cost, ..*e });
            }
            self.rows.entries = entries;
        }
        self.push(entry, s, edge.cost + costs::SKIP_VAGUE + 10, &[], Mark::Unread, edge.span, edge.to);
    }

    /// What a repeat may be about: rows of steps with their length in counts, and what each reading costs.
    fn groups(&self, entry: &Entry, r: &Repeat) -> Groups {
        let mut groups = Vec::new();
        let t = entry.state.t;
        if r.section.is_some() || r.range.is_some() {
            let mut placed: Vec<Placed> = Vec::new();
            let mut length = 0;
            // Looked for in the dance behind it, but not in all of a text that holds a hundred dances.
            let nodes: Vec<&Node> = self.arena.back(entry.node).take(FAR_BACK).collect();
            let far = self.section.saturating_sub(SECTIONS_BACK);
            let mut before = 0;
            for (n, section) in self.sections.iter().enumerate().take(self.section + 1) {
                if n < far {
                    before += section.counts.map_or(8, |(c, _)| i32::try_from(c).unwrap_or(8));
                    continue;
                }
                let end = nodes
                    .iter()
                    .filter(|x| usize::from(x.section) == n)
                    .flat_map(|x| self.arena.actions(x))
                    .map(|p| p.at.count())
                    .max()
                    .unwrap_or(0);
                let own = section.counts.map_or(end, |(c, _)| i32::try_from(c).unwrap_or(end)).max(end);
                let base = if section.base > 0 { section.base } else { before };
                for x in nodes.iter().rev().filter(|x| usize::from(x.section) == n) {
                    for p in self.arena.actions(x) {
                        let global = (p.at.0 + 23).div_euclid(24) + base;
                        let local = (p.at.0 + 23).div_euclid(24);
                        let inside = match (r.range, r.section) {
                            (_, Some(k)) => k as usize == section.number.map_or(n + 1, |x| x as usize),
                            (Some((a, b)), _) => {
                                if n == self.section && b <= 8
                                    || section.base == 0 && b <= 12 && n == self.section
                                {
                                    (a..=b).contains(&local) && n == self.section
                                } else {
                                    (a..=b).contains(&global)
                                }
                            }
                            _ => false,
                        };
                        if inside {
                            let shift = if n == self.section && r.range.is_some_and(|(_, b)| b <= 8) {
                                0
                            } else {
                                base * 24
                            };
                            placed.push(Placed { at: Ticks(p.at.0 + shift), ..*p });
                        }
                    }
                }
                if r.section.is_some_and(|k| k as usize == section.number.map_or(n + 1, |x| x as usize)) {
                    length = own;
                }
                before += own;
            }
            if let Some(first) = placed.first() {
                let start = r.range.map_or((first.at.0 + 23).div_euclid(24) * 24, |(a, _)| {
                    let near = (first.at.0 + 23).div_euclid(24);
                    if (near - a).abs() <= 1 { a * 24 } else { near * 24 }
                });
                let counts = r.range.map_or(length, |(a, b)| b - a + 1);
                groups.push(Group { from: 0, start, counts: u32::try_from(counts).unwrap_or(1), cost: 0 });
            }
            return Groups { placed, groups };
        }
        // Back from here, node by node.
        let mut nodes: Vec<&Node> = Vec::new();
        let mut units = 0;
        let mut length = 0;
        let mut last = None;
        let want = r.counts.or_else(|| {
            self.slots.filter(|s| entry.state.k == 0 && !s.is_empty()).map(|s| {
                u32::try_from(s[s.len() - 1].count() - (s[0].0 + 23).div_euclid(24) + 1).unwrap_or(0)
            })
        });
        for node in self.arena.back(entry.node) {
            if usize::from(node.section) != self.section || units > 24 || matches!(node.mark, Mark::Section) {
                break;
            }
            if node.n == 0 {
                continue;
            }
            units += 1;
            nodes.push(node);
            let front = self.arena.actions(node);
            length += front.len();
            last = last.or(front.last());
            let start = (front[0].at.0 + 23).div_euclid(24) * 24;
            let now = if self.slots.is_some() { last.map_or(t, |p| p.at.count() * 24 + 24) } else { t };
            let counts = (now - start) / 24;
            if counts <= 0 {
                continue;
            }
            let here = usize::from(node.chunk) == self.chunk;
            let cost = if want.is_some_and(|w| i64::from(w) == i64::from(counts)) {
                0
            } else if want.is_some() && !r.suffix {
                20
            } else if r.suffix && units == 1 {
                2
            } else if node.opens {
                3
            } else if r.suffix {
                5 + units.min(6)
            } else {
                // A clause about doing it again means all of it.
                90
            };
            let cost = if here || want.is_some() { cost } else { cost + 6 };
            // Counted from the end, for now.
            groups.push(Group { from: length, start, counts: u32::try_from(counts).unwrap_or(1), cost });
        }
        for group in &mut groups {
            group.from = length - group.from;
        }
        let placed = nodes.iter().rev().flat_map(|n| self.arena.actions(n)).copied().collect();
        Groups { placed, groups }
    }

    /// The end of a chunk: positions that were left, counts that do not add up.
    fn close(&mut self, layer: Vec<Entry>, mark_span: Span) -> Vec<Entry> {
        let mut out: Vec<Entry> = Vec::with_capacity(layer.len() + 1);
        let slots = self.slots;
        let total = self.total;
        self.layers.reset(0, 0);
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
            self.push(&entry, s, cost, &[], mark, mark_span, 0);
        }
        self.layers.take(0, &mut out);
        out
    }

    fn end_section(&mut self, section: &SectionText, here: Vec<Entry>, start: &Start) -> Vec<Entry> {
        let open = section.chunks.iter().any(|c| !matches!(c.slots, Slots::At { .. }));
        self.layers.reset(0, 0);
        let usual = i32::try_from(start.metre.section()).unwrap_or(8);
        let bar = i32::try_from(start.metre.beats()).unwrap_or(4);
        for entry in here {
            let got = (entry.state.t - 24) / 24;
            let mut cost = 0;
            let mut mark = Mark::Section;
            let said_something = section.tokens.iter().any(|t| !matches!(t.kind, Kind::Sign(_)));
            if open && got == 0 && said_something {
                cost += 2 * costs::TOTAL;
            }
            if open && got > 0 {
                if let Some((said, _)) = section.counts {
                    let said_counts = i32::try_from(said).unwrap_or(0);
                    if said_counts != got {
                        cost = costs::TOTAL * got.abs_diff(said_counts);
                        mark = Mark::Total { said, got };
                    }
                } else if start.divided {
                    if let Some(n) = start.expected
                        && i32::try_from(n).unwrap_or(0) != got
                    {
                        cost += 16 + 4 * got.abs_diff(i32::try_from(n).unwrap_or(0)).min(6);
                    }
                    if got % usual != 0 {
                        cost += costs::ODD_LENGTH;
                    }
                    if got % bar != 0 {
                        cost += costs::ODD_LENGTH;
                    }
                } else {
                    // Blocks between empty lines are mostly sections.
                    if got % usual != 0 {
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

fn shift(f: Foot) -> Step {
    Step {
        at: Ticks::COUNT,
        who: Who::One(f),
        action: crate::dance::Action::Recover,
        place: crate::dance::Place::InPlace,
        reach: crate::dance::Reach::Usual,
        turn: Turn::NONE,
        turn_when: crate::dance::TurnWhen::Before,
        effect: Effect::Takes,
    }
}

/// A movement of both feet or of the hips, to the side that is named.
fn bump_to(step: Step, foot: Foot) -> Step {
    use crate::dance::Place;
    let left = foot == Foot::Left;
    let place = match step.place {
        Place::HeelsRight | Place::HeelsLeft | Place::HeelsCentre => {
            if left {
                Place::HeelsLeft
            } else {
                Place::HeelsRight
            }
        }
        Place::ToesRight | Place::ToesLeft | Place::ToesCentre => {
            if left {
                Place::ToesLeft
            } else {
                Place::ToesRight
            }
        }
        Place::Right | Place::Left => {
            if left {
                Place::Left
            } else {
                Place::Right
            }
        }
        other => other,
    };
    Step { place, ..step }
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
