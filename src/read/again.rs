//! What is danced again: orders of feet, and repeats of steps, counts and sections.

use arrayvec::ArrayVec;

use super::costs;
use super::lattice::Search;
use super::meaning::Edge;
use super::phrases::Repeat;
use super::state::{Entry, Mark, Node, Placed};
use crate::dance::{Action, Effect, Foot, Weight, Who};
use crate::figures::Step;
use crate::floor::Turn;
use crate::text::{Among, Span, among, is_among};
use crate::time::Ticks;

/// How many readings back a range of counts or a section is looked for that is to be danced again.
const FAR_BACK: usize = 2000;

/// Words for one side.
const SIDES: &Among = among!["r", "l", "right", "left"];

/// What a repeat may be about: a part of a row of actions.
pub(super) struct Groups {
    pub placed: Vec<Placed>,
    pub groups: Vec<Group>,
}

/// The actions from one to another.
pub(super) struct Group {
    pub from: usize,
    pub to: usize,
    /// The tick of its first count.
    pub start: i32,
    pub counts: u32,
    pub cost: u32,
}

impl Search<'_> {
    /// An order of feet: either it says again what the steps say, or it repeats the last step for each foot.
    pub(super) fn feet(&mut self, entry: &Entry, feet: &[Foot], edge: &Edge) {
        let s = entry.state;
        let mut annotation = None;
        let mut unit: Option<(u32, Option<u16>)> = None;
        let mut steps = core::mem::take(&mut self.rows.unit);
        steps.clear();
        let mut unit_span = None;
        let mut numbered = false;
        for node in self.arena.back(entry.node) {
            if usize::from(node.section) != self.section {
                break;
            }
            if node.n > 0 {
                let placed = self.arena.actions(node);
                let order = placed.iter().filter_map(|p| match (p.step.action, p.step.who, p.step.effect) {
                    (Action::Bump, ..) => Some(bumped(p.step.place)),
                    (_, Who::One(f), Effect::Takes) => Some(f),
                    _ => None,
                });
                let several = order.clone().count() > 1;
                let said = feet.iter().copied();
                // "Walk forward three steps, R, L, R": each step is a reading of its own with the same words.
                let row = self.rowed(entry, node.span);
                numbered = row.len() >= 2;
                let same = row.as_slice() == feet
                    || feet.len() > 1
                        && (self.bracketed(edge.span) || self.footless(entry, feet.len()))
                        && self.trodden(entry, feet)
                    || several && (order.clone().eq(said.clone()) || order.skip(1).eq(said));
                // A single foot says again which one stepped, not another.
                let against = match feet {
                    [foot] => placed.iter().rev().find_map(|p| match (p.step.action, p.step.who) {
                        (Action::Bump, _) => Some(bumped(p.step.place) != *foot),
                        (_, Who::One(f)) => Some(f != *foot),
                        _ => None,
                    }),
                    _ => None,
                };
                let before = self.slots.is_some() && usize::from(node.chunk) != self.chunk;
                // "Walk back L R L" goes on from the foot of its first step: the others step, too.
                let one = matches!(placed, [p] if p.step.effect == Effect::Takes);
                let goes_on = one && self.side_before(node.span, edge.span);
                annotation = Some(if same {
                    0
                } else if goes_on {
                    costs::NOT_FREE * 2
                } else if before {
                    // It tells which feet are to come.
                    1
                } else if against == Some(true) {
                    costs::NOT_FREE + 12
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
                unit_span = (!matches!(node.mark, Mark::Repeated { .. })).then_some(node.span);
                break;
            }
            if matches!(node.mark, Mark::Label(..) | Mark::LabelTurning(..)) {
                annotation = Some(0);
                break;
            }
        }
        // An order of several feet beside a walk is walked, or it is wrong.
        let walk = |span: Span| {
            let mut words = span.of(self.text).split(|c: char| !c.is_alphabetic());
            words.any(|w| is_among(w, among!["walk", "walks", "march"]))
        };
        let walked = feet.len() > 1 && unit_span.is_some_and(walk);
        // Before any step it tells which feet are to come; an item of a list without counts rather steps: "R, L, R triple".
        let item = self.slots.is_none() && self.text[edge.span.end as usize..].trim_start().starts_with(',');
        self.push(
            entry,
            s,
            edge.cost + annotation.unwrap_or(if item { costs::SKIP_FOOT } else { 1 }),
            &[],
            if annotation == Some(30) || annotation == Some(16) && walked {
                Mark::FeetMiss
            } else {
                Mark::None
            },
            edge.span,
            edge.to,
        );
        let Some((counts, figure)) = unit else {
            self.rows.unit = steps;
            return;
        };
        // "Four sways, right, left, right, left": what only says again what was danced is hardly danced once more.
        let edge = &Edge { cost: edge.cost + if numbered { 12 } else { 0 }, ..edge.clone() };
        self.stepped(entry, feet, edge, &steps, counts, figure, unit_span);
        self.rows.unit = steps;
    }

    /// Whether the words of a step end in a side right before these.
    fn side_before(&self, step: Span, here: Span) -> bool {
        let last = step.of(self.text).rsplit(|c: char| !c.is_alphabetic()).find(|w| !w.is_empty());
        step.end <= here.start
            && self.text[step.end as usize..here.start as usize].trim().is_empty()
            && last.is_some_and(|w| is_among(w, SIDES))
    }

    /// Whether words stand at the beginning of a bracket.
    fn bracketed(&self, span: Span) -> bool {
        self.text[..span.start as usize].trim_end().ends_with(['(', '['])
    }

    /// Whether the last steps that took weight were on these feet: "walk, walk, walk, kick (R L R)".
    fn trodden(&self, entry: &Entry, feet: &[Foot]) -> bool {
        let nodes = self.arena.back(entry.node).take(3 * feet.len()).filter(|n| n.n > 0);
        let steps = nodes.flat_map(|n| self.arena.actions(n).iter().rev());
        let took = steps.filter_map(|p| match (p.step.who, p.step.effect) {
            (Who::One(f), Effect::Takes) => Some(f),
            _ => None,
        });
        took.take(feet.len()).eq(feet.iter().rev().copied())
    }

    /// Whether each of the last steps was told by its verb alone: "walk, walk, R L".
    fn footless(&self, entry: &Entry, n: usize) -> bool {
        let mut nodes = self.arena.back(entry.node).filter(|n| n.n > 0).take(n);
        nodes.all(|n| n.n == 1 && !n.span.of(self.text).contains(char::is_whitespace))
    }

    /// The feet of the steps that the same words made, where they made several.
    fn rowed(&self, entry: &Entry, span: Span) -> ArrayVec<Foot, 8> {
        let mut out: ArrayVec<Foot, 8> = ArrayVec::new();
        let nodes = self.arena.back(entry.node).filter(|n| n.n > 0).take_while(|n| n.span == span);
        for node in nodes {
            for p in self.arena.actions(node).iter().rev() {
                if let (Who::One(f), Effect::Takes) = (p.step.who, p.step.effect)
                    && !out.is_full()
                {
                    out.push(f);
                }
            }
        }
        out.reverse();
        if out.len() < 2 { ArrayVec::new() } else { out }
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
        let unsided =
            |span: Span| !span.of(self.text).split(|c: char| !c.is_alphabetic()).any(|w| is_among(w, SIDES));
        let bare = figure.is_none() && unit_span.is_some_and(unsided);
        // So does that of "walk RLR" and "back LRL".
        let walks = bare
            && feet.len() > 1
            && matches!(steps, [one] if one.effect == Effect::Takes)
            && first.is_some();
        if walks && first != feet.first().copied() {
            return;
        }
        let feet = if walks || bare && first.is_none() { &feet[1..] } else { feet };
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
                        .map(|st| if first.is_none() { bump_to(st, *foot) } else { st })
                        .map(|st| swayed(st, e.state.weight)),
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
    pub(super) fn repeat(&mut self, entry: &Entry, r: &Repeat, edge: &Edge) {
        let s = entry.state;
        let Groups { placed, groups } = self.groups(entry, r);
        let mut group: Vec<Step> = Vec::with_capacity(placed.len());
        for Group { from, to, start, counts, cost } in groups {
            if self.most(entry, edge.to).is_none_or(|most| edge.cost + cost > most) {
                continue;
            }
            group.clear();
            group.extend(placed[from..to].iter().map(|p| Step { at: Ticks(p.at.0 - start + 24), ..p.step }));
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
                        && first.effect != Effect::Keeps
                        && first.action != Action::Bump;
                    let mirrored = if said { mirrored } else { flip };
                    // "Stomp R twice" stomps the foot that it names.
                    let named = group.len() == 1 && first.action == Action::Stomp && r.foot;
                    let other = if flip && named { costs::WITHOUT_WEIGHT + 10 } else { u32::from(flip) * 4 };
                    let mut this = core::mem::take(&mut self.rows.steps);
                    this.clear();
                    this.extend(group.iter().map(|st| if mirrored { st.mirrored() } else { *st }));
                    let mark = Mark::Repeated { mirrored, said };
                    self.row(e, &this, counts, other + n, edge.span, &mark, edge.to);
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
        if let Some(sections) = r.sections {
            let back: Vec<&Node> = self.arena.back(entry.node).take(FAR_BACK).collect();
            return self.pointed(entry, &back, sections, r);
        }
        if let Some((a, b)) = r.range {
            let mut placed: Vec<Placed> = Vec::new();
            // Looked for in the dance behind it, but not in all of a text that holds a hundred dances.
            let nodes: Vec<&Node> = self.arena.back(entry.node).take(FAR_BACK).collect();
            let own_range = self.sections[self.section].base == 0
                && nodes
                    .iter()
                    .filter(|x| usize::from(x.section) == self.section)
                    .flat_map(|x| self.arena.actions(x))
                    .any(|p| (a..=b).contains(&((p.at.0 + 23).div_euclid(24))));
            let mut before = 0;
            for (n, section) in self.sections.iter().enumerate().take(self.section + 1) {
                let end = nodes
                    .iter()
                    .filter(|x| usize::from(x.section) == n)
                    .flat_map(|x| self.arena.actions(x))
                    .map(|p| p.at.count())
                    .max()
                    .unwrap_or(0);
                let own = section.counts.map_or(end, |(c, _)| i32::try_from(c).unwrap_or(end)).max(end);
                let base = if section.base > 0 { section.base } else { before };
                let mut turn = Turn::NONE;
                for x in nodes.iter().rev().filter(|x| usize::from(x.section) == n) {
                    turn += loose_turn(x);
                    for p in self.arena.actions(x) {
                        let turned = core::mem::take(&mut turn);
                        let global = (p.at.0 + 23).div_euclid(24) + base;
                        let local = (p.at.0 + 23).div_euclid(24);
                        // "Repeat 1-2" means counts of this section, unless the numbers run on.
                        if own_range && n != self.section {
                            continue;
                        }
                        let here = n == self.section && (b <= 8 || section.base == 0 && b <= 12);
                        if (a..=b).contains(if here { &local } else { &global }) {
                            let shift = if n == self.section && b <= 8 { 0 } else { base * 24 };
                            let step = Step { turn: p.step.turn + turned, ..p.step };
                            placed.push(Placed { at: Ticks(p.at.0 + shift), step, ..*p });
                        }
                    }
                }
                before += own;
            }
            if let Some(first) = placed.first() {
                let near = (first.at.0 + 23).div_euclid(24);
                let start = if (near - a).abs() <= 1 { a * 24 } else { near * 24 };
                let counts = u32::try_from(b - a + 1).unwrap_or(1);
                groups.push(Group { from: 0, to: placed.len(), start, counts, cost: 0 });
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
                if matches!(node.mark, Mark::Turning(_)) {
                    nodes.push(node);
                }
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
            groups.push(Group {
                from: length,
                to: 0,
                start,
                counts: u32::try_from(counts).unwrap_or(1),
                cost,
            });
        }
        for group in &mut groups {
            group.from = length - group.from;
            group.to = length;
        }
        // "The same again", "all of that on the other foot" as a section of its own: the section before it.
        if nodes.is_empty() && !r.suffix && self.section > 0 {
            return self.section_before(entry, want);
        }
        let mut turn = Turn::NONE;
        let mut placed: Vec<Placed> = Vec::with_capacity(length);
        for node in nodes.iter().rev() {
            turn += loose_turn(node);
            for p in self.arena.actions(node) {
                let turned = core::mem::take(&mut turn);
                placed.push(Placed { step: Step { turn: p.step.turn + turned, ..p.step }, ..*p });
            }
        }
        if let Some(last) = placed.last_mut() {
            last.step.turn += turn;
        }
        Groups { placed, groups }
    }
}

/// A turn that is written between two steps belongs to the second.
pub(super) fn loose_turn(node: &Node) -> Turn {
    match node.mark {
        Mark::Turning(turn) => turn,
        _ => Turn::NONE,
    }
}

/// A sway onto the other foot takes the weight, also where the one before it only pushed the hip.
fn swayed(step: Step, weight: Weight) -> Step {
    match step.who {
        Who::One(f) if step.action == Action::Sway && weight != Weight::On(f) => {
            Step { effect: Effect::Takes, ..step }
        }
        _ => step,
    }
}

impl Search<'_> {
    /// The whole section before this one, to be danced again.
    fn section_before(&self, entry: &Entry, want: Option<u32>) -> Groups {
        let of = self.section - 1;
        let nodes: Vec<&Node> = self
            .arena
            .back(entry.node)
            .take(FAR_BACK)
            .take_while(|n| usize::from(n.section) >= of)
            .filter(|n| usize::from(n.section) == of)
            .collect();
        let placed: Vec<Placed> = nodes.iter().rev().flat_map(|n| self.arena.actions(n)).copied().collect();
        let danced = placed.iter().map(|p| p.at.count()).max().unwrap_or(0);
        let said = self.sections[of].counts.and_then(|(n, _)| i32::try_from(n).ok()).unwrap_or(0);
        // A hold at its end may last past its tick.
        let counts = u32::try_from(danced.max(said)).unwrap_or(1).next_multiple_of(2);
        let cost = if want.is_none_or(|w| w == counts) { 2 } else { 20 };
        let groups = if placed.is_empty() {
            Vec::new()
        } else {
            vec![Group { from: 0, to: placed.len(), start: 24, counts, cost }]
        };
        Groups { placed, groups }
    }
}

/// The side of a bump.
fn bumped(place: crate::dance::Place) -> Foot {
    if place == crate::dance::Place::Left { Foot::Left } else { Foot::Right }
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
