//! The way that the search found, as sections of moves.

use super::Reading;
use super::candidates::Own;
use super::lattice::{Start, Way};
use super::state::{Mark, Placed};
use crate::dance::{Action, Effect, FigureUse, Foot, Move, Section, TurnWhen, Weight, Who};
use crate::figures::{WeightSaid, lexicon};
use crate::floor::{Heading, Turn};
use crate::order::Ordered as _;
use crate::sheet::{SectionText, Slots};
use crate::text::Span;
use crate::time::{Metre, Ticks};

/// What was odd about the cheapest reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TroubleKind {
    /// Two steps on one position.
    TwoOnOne,
    /// Written positions without an action.
    Empty(Vec<Ticks>),
    /// A number of counts that the steps do not fill.
    Total {
        /// Counts said.
        said: u32,
        /// Counts danced.
        got: i32,
        /// Whether the whole section is meant, not one line of it.
        section: bool,
    },
    /// A clock mark that the turns do not reach.
    Clock {
        /// The clock in the sheet.
        said: Heading,
        /// The facing by the turns.
        got: Heading,
    },
    /// A clock mark that the turns do reach; these stand in [`Reading::clocks`] only.
    ClockHeld {
        /// The clock in the sheet.
        said: Heading,
    },
    /// A remark puts the weight where it is not.
    WeightElsewhere {
        /// The foot that is said to have it.
        said: Foot,
    },
    /// An order of feet that is not that of the steps.
    FeetOrder,
    /// Something repeated on the other foot that the weight does not allow.
    Repeat {
        /// Whether it was repeated mirrored.
        mirrored: bool,
    },
    /// A restart is said to come after other counts than elsewhere in the sheet.
    Restart {
        /// The wall.
        wall: u32,
        /// Counts said.
        said: u32,
        /// Counts by the other place.
        other: u32,
        /// The other place.
        elsewhere: Span,
    },
    /// Words of a step line that were passed over.
    Unread,
}

/// Something odd, with its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Trouble {
    /// What.
    pub kind: TroubleKind,
    /// The words.
    pub span: Span,
    /// Index of the part.
    pub part: usize,
    /// Index of the section.
    pub section: usize,
    /// Position within the section.
    pub at: Option<Ticks>,
}

/// A name that labels the steps beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Labelled {
    /// Index into the lexicon.
    pub figure: u16,
    /// The lead that the name says.
    pub lead: Option<Foot>,
    /// The words.
    pub span: Span,
    /// Index of the part.
    pub part: usize,
    /// Index of the section.
    pub section: usize,
    /// Moves of the section that it labels: first and one past the last.
    pub moves: (usize, usize),
}

struct Builder {
    sections: Vec<Section>,
    facing: Heading,
    weight: Weight,
    pending: Turn,
    /// Section and chunk of the words of the pending turn.
    pending_in: (usize, u16),
    /// A name waiting for the moves of its chunk, with the chunk.
    label: Option<(Labelled, u16)>,
}

/// Makes sections of moves from the way; also gives the weight at the end.
pub(super) fn built(
    text: &str,
    texts: &[SectionText],
    way: &Way,
    start: &Start,
    part: usize,
    own: &[Own],
    reading: &mut Reading,
) -> (Vec<Section>, Weight) {
    let first =
        way.nodes.iter().find(|n| n.n > 0).map_or(start.weights[0].0, |n| way.placed[n.from as usize].before);
    reading.work += way.work;
    let mut b = Builder {
        sections: Vec::new(),
        facing: start.facing,
        weight: first,
        pending: Turn::NONE,
        pending_in: (0, 0),
        label: None,
    };
    for t in texts {
        b.sections.push(Section {
            name: name(text, t),
            counts: 0,
            moves: Vec::new(),
            figures: Vec::new(),
            span: t.span,
            facing_start: Heading::FRONT,
            facing_end: Heading::FRONT,
            weight_start: Weight::Both,
            weight_end: Weight::Both,
        });
    }
    for node in &way.nodes {
        let section = usize::from(node.section).min(texts.len().saturating_sub(1));
        if b.sections.is_empty() {
            break;
        }
        if b.label.as_ref().is_some_and(|(l, chunk)| l.section != section || *chunk != node.chunk) {
            b.end_label(reading);
        }
        if b.pending != Turn::NONE && b.pending_in != (section, node.chunk) {
            b.settle_turn();
        }
        b.mark(node, texts, section, part, reading);
        let placed = &way.placed[node.from as usize..(node.from + node.n) as usize];
        let figure = match &node.mark {
            Mark::Figure(id, lead, turn) => {
                let f = &lexicon().figures[usize::from(*id)];
                let s = &mut b.sections[section];
                s.figures.push(FigureUse {
                    name: f.name.into(),
                    lead: *lead,
                    turn: *turn,
                    span: node.span,
                    named: true,
                });
                u16::try_from(s.figures.len() - 1).ok()
            }
            Mark::Own(n, lead, turn) => {
                let s = &mut b.sections[section];
                let name = own.get(usize::from(*n)).map_or(String::new(), |o| o.name.join(" "));
                s.figures.push(FigureUse {
                    name,
                    lead: Some(*lead),
                    turn: *turn,
                    span: node.span,
                    named: true,
                });
                u16::try_from(s.figures.len() - 1).ok()
            }
            _ => None,
        };
        for p in placed {
            b.place(p, section, figure, part, reading);
        }
        if let Mark::Repeated { mirrored, said } = node.mark
            && said
            && placed.first().is_some_and(|p| p.broken.is_some())
        {
            reading.troubles.push(Trouble {
                kind: TroubleKind::Repeat { mirrored },
                span: node.span,
                part,
                section,
                at: placed.first().map(|p| p.at),
            });
        }
    }
    b.end_label(reading);
    b.finish(texts, start, first);
    let weight = b.weight;
    (b.sections, weight)
}

fn name(text: &str, t: &SectionText) -> String {
    t.name.of(text).trim_matches(|c: char| !c.is_alphanumeric() && c != ')').trim().to_string()
}

impl Builder {
    fn end_label(&mut self, reading: &mut Reading) {
        if let Some((mut label, _)) = self.label.take() {
            label.moves.1 = self.sections[label.section].moves.len();
            if label.moves.1 > label.moves.0 {
                let f = &lexicon().figures[usize::from(label.figure)];
                self.sections[label.section].figures.push(FigureUse {
                    name: f.name.into(),
                    lead: label.lead,
                    turn: Turn::NONE,
                    span: label.span,
                    named: true,
                });
                reading.labels.push(label);
            }
        }
    }

    fn mark(
        &mut self,
        node: &super::state::Node,
        texts: &[SectionText],
        section: usize,
        part: usize,
        reading: &mut Reading,
    ) {
        let span = node.span;
        let at = self.sections[section].moves.last().map(|m| m.at);
        let facing = self.facing;
        let mut trouble = |kind: TroubleKind, at: Option<Ticks>| {
            reading.troubles.push(Trouble { kind, span, part, section, at });
        };
        match &node.mark {
            // By the turns alone: the search may have gone on from the facing that a mark states.
            Mark::Clock { said, .. } if *said != facing => {
                trouble(TroubleKind::Clock { said: *said, got: facing }, at);
            }
            Mark::Clock { said, .. } | Mark::ClockHeld { said } if *said == facing => {
                trouble(TroubleKind::ClockHeld { said: *said }, at);
                reading.clocks_held += 1;
            }
            Mark::ClockHeld { said } => trouble(TroubleKind::Clock { said: *said, got: facing }, at),
            Mark::Unread => trouble(TroubleKind::Unread, at),
            Mark::Empty(k) => {
                let slots = match texts[section].chunks.get(usize::from(node.chunk)).map(|c| &c.slots) {
                    Some(Slots::At { ticks, .. }) => ticks.get(usize::from(*k)..).unwrap_or(&[]),
                    _ => &[],
                };
                trouble(TroubleKind::Empty(slots.to_vec()), slots.first().copied());
            }
            Mark::Total { said, got } => {
                let whole = node.span == self.sections[section].span;
                trouble(TroubleKind::Total { said: *said, got: *got, section: whole }, at);
            }
            Mark::WeightMiss(WeightSaid::On(f)) => trouble(TroubleKind::WeightElsewhere { said: *f }, at),
            Mark::FeetMiss => trouble(TroubleKind::FeetOrder, at),
            Mark::Turning(turn) => {
                self.facing = self.facing.turned(*turn);
                self.pending += *turn;
                self.pending_in = (section, node.chunk);
            }
            Mark::Weight(said) => self.remark(*said, section),
            Mark::Label(figure, lead) | Mark::LabelTurning(figure, lead, _) => {
                if let Mark::LabelTurning(_, _, turn) = &node.mark {
                    self.facing = self.facing.turned(*turn);
                    self.pending += *turn;
                    self.pending_in = (section, node.chunk);
                }
                let from = self.sections[section].moves.len();
                let label =
                    Labelled { figure: *figure, lead: *lead, span, part, section, moves: (from, from) };
                self.end_label(reading);
                self.label = Some((label, node.chunk));
            }
            _ => {}
        }
    }

    /// A turn written behind the last step of a line belongs to that step.
    fn settle_turn(&mut self) {
        let pending = core::mem::take(&mut self.pending);
        let last = self.sections[..=self.pending_in.0].iter_mut().rev().find_map(|s| s.moves.last_mut());
        match last {
            Some(m) => m.turn += pending,
            None => self.pending = pending,
        }
    }

    /// A remark about the weight changes the last move.
    fn remark(&mut self, said: WeightSaid, section: usize) {
        let after = match said {
            WeightSaid::On(f) => Some(Weight::On(f)),
            WeightSaid::Both => Some(Weight::Both),
            _ => None,
        };
        let Some(m) = self.sections[section].moves.last_mut() else { return };
        match said {
            WeightSaid::On(f) => {
                if m.who == Who::One(f) || m.who == Who::Both {
                    m.who = Who::One(f);
                    m.effect = Effect::Takes;
                } else if m.who == Who::One(f.other()) && m.effect == Effect::Takes {
                    m.effect = Effect::Free;
                    if m.action == Action::Step {
                        m.action = Action::Touch;
                    }
                }
            }
            WeightSaid::Both => m.effect = Effect::Shares,
            WeightSaid::Taken => m.effect = Effect::Takes,
            WeightSaid::NotTaken => {
                m.effect = Effect::Free;
                if m.action == Action::Step {
                    m.action = Action::Touch;
                }
            }
            WeightSaid::Kept => {}
        }
        m.after = match (after, said, m.who) {
            (Some(w), ..) => w,
            (None, WeightSaid::Taken, Who::One(f)) => Weight::On(f),
            (None, WeightSaid::NotTaken, Who::One(f)) => Weight::On(f.other()),
            _ => m.after,
        };
        self.weight = m.after;
    }

    fn place(&mut self, p: &Placed, section: usize, figure: Option<u16>, part: usize, reading: &mut Reading) {
        if p.crowded {
            reading.troubles.push(Trouble {
                kind: TroubleKind::TwoOnOne,
                span: p.span,
                part,
                section,
                at: Some(p.at),
            });
        }
        let pending = core::mem::take(&mut self.pending);
        self.facing = self.facing.turned(p.step.turn);
        self.weight = p.after;
        self.sections[section].moves.push(Move {
            at: p.at,
            lasts: Ticks::COUNT,
            who: p.step.who,
            action: p.step.action,
            place: p.step.place,
            reach: p.step.reach,
            turn: p.step.turn + pending,
            turn_when: if pending == Turn::NONE { p.step.turn_when } else { TurnWhen::Before },
            effect: p.step.effect,
            before: p.before,
            after: p.after,
            broken: p.broken,
            span: p.span,
            figure,
        });
    }

    /// Fills in what follows from the whole: lengths, counts, facings, weights.
    fn finish(&mut self, texts: &[SectionText], start: &Start, first: Weight) {
        // A turn written after the last step belongs to it.
        let pending = core::mem::take(&mut self.pending);
        if pending != Turn::NONE
            && let Some(m) = self.sections.iter_mut().rev().find_map(|s| s.moves.last_mut())
        {
            m.turn += pending;
        }
        let (mut weight, mut facing) = (first, start.facing);
        for (s, t) in self.sections.iter_mut().zip(texts) {
            s.moves.in_order_by_key(|m| m.at);
            let written = t
                .chunks
                .iter()
                .filter_map(|c| match &c.slots {
                    Slots::At { ticks, .. } => ticks.last().map(|x| x.count()),
                    _ => None,
                })
                .max()
                .unwrap_or(0);
            let danced = s.moves.iter().map(|m| m.at.count()).max().unwrap_or(0);
            let got = u32::try_from(written.max(danced)).unwrap_or(0);
            s.counts = match t.counts {
                Some((n, _)) if n >= got => n,
                _ => got,
            };
            let open = t.chunks.iter().any(|c| !matches!(c.slots, Slots::At { .. }));
            if open && t.counts.is_none() {
                // A hold or drag at the end may last past its tick.
                let bar = start.metre.beats();
                let full = got.div_ceil(bar) * bar;
                if start.divided && full > got && full - got <= 1 {
                    s.counts = full;
                }
            }
            settle_bumps(&mut s.moves);
            settle_lengths(&mut s.moves, s.counts);
            s.weight_start = weight;
            s.facing_start = facing;
            if let Some(m) = s.moves.last() {
                weight = m.after;
            }
            facing = s.moves.iter().fold(facing, |h, m| h.turned(m.turn));
            s.weight_end = weight;
            s.facing_end = facing;
        }
        self.weight = weight;
        self.facing = facing;
    }
}

/// The last of some hip bumps leaves the weight on its side, unless the next step needs that foot.
fn settle_bumps(moves: &mut [Move]) {
    for i in 1..moves.len() {
        let same = moves[i].at == moves[i - 1].at && moves[i - 1].effect == Effect::Takes;
        if moves[i].action != Action::Bump || moves[i].effect != Effect::Shares || !same {
            continue;
        }
        if moves.get(i + 1).is_some_and(|m| m.action == Action::Bump) {
            // "Step to the side bumping hips right, right, left": the weight is between the feet at once.
            moves[i - 1].effect = Effect::Shares;
            moves[i - 1].after = Weight::Both;
            moves[i].before = Weight::Both;
        } else {
            // "Step to the side with the hip" is a step with some style.
            moves[i].effect = Effect::None;
            moves[i].after = moves[i - 1].after;
            moves[i].before = moves[i - 1].after;
        }
    }
    for i in 0..moves.len() {
        if moves[i].action != Action::Bump || moves[i].effect != Effect::Shares {
            continue;
        }
        let side = if moves[i].place == crate::dance::Place::Left { Foot::Left } else { Foot::Right };
        let next = moves.get(i + 1);
        let ends = next.is_none_or(|m| m.action != Action::Bump);
        let needed = next.is_some_and(|m| m.who == Who::One(side));
        if ends && !needed {
            moves[i].who = Who::One(side);
            moves[i].effect = Effect::Takes;
            moves[i].after = Weight::On(side);
            if let Some(m) = moves.get_mut(i + 1) {
                m.before = Weight::On(side);
            }
        }
    }
}

/// Each move lasts until the next moment on which something begins.
fn settle_lengths(moves: &mut [Move], counts: u32) {
    let end = Ticks::of_count(i32::try_from(counts).unwrap_or(0) + 1);
    for i in 0..moves.len() {
        let at = moves[i].at;
        let next = moves[i + 1..].iter().map(|m| m.at).find(|t| *t > at).unwrap_or(end);
        moves[i].lasts = Ticks((next - at).0.max(1));
    }
}

/// Divides a part that its writer did not divide: every eight counts, in waltz every six.
pub(super) fn divided(
    sections: Vec<Section>,
    metre: Metre,
    troubles: &mut [Trouble],
    part: usize,
) -> Vec<Section> {
    let size = i32::try_from(metre.section()).unwrap_or(8);
    let mut out: Vec<Section> = Vec::new();
    let mut before = 0;
    for (index, s) in sections.into_iter().enumerate() {
        let total = i32::try_from(s.counts).unwrap_or(0);
        for t in troubles.iter_mut().filter(|t| t.part == part && t.section == index) {
            let at = t.at.map_or(1, |a| (a.0 + 23).div_euclid(24)) + before;
            t.section = usize::try_from((at - 1).max(0) / size).unwrap_or(0) + (1 << 20);
            t.at = t.at.map(|a| Ticks(a.0 + (before - (at - 1).max(0) / size * size) * 24));
        }
        for m in s.moves {
            let at = m.at.0 + before * 24;
            let whole = (at + 23).div_euclid(24).max(1);
            let k = usize::try_from((whole - 1) / size).unwrap_or(0);
            while out.len() <= k {
                out.push(Section {
                    moves: Vec::new(),
                    figures: Vec::new(),
                    name: String::new(),
                    counts: 0,
                    span: m.span,
                    ..s_like(s_fields(s.facing_start, s.weight_start))
                });
            }
            let shift = i32::try_from(k).unwrap_or(0) * size * 24;
            let figure = m.figure.and_then(|f| {
                let used = s.figures.get(usize::from(f))?.clone();
                let list = &mut out[k].figures;
                let at = list.iter().position(|x| *x == used).unwrap_or_else(|| {
                    list.push(used);
                    list.len() - 1
                });
                u16::try_from(at).ok()
            });
            out[k].span = out[k].span.join(m.span);
            out[k].moves.push(Move { at: Ticks(at - shift), figure, ..m });
        }
        before += total;
    }
    for t in troubles.iter_mut().filter(|t| t.part == part && t.section >= 1 << 20) {
        t.section -= 1 << 20;
    }
    let n = i32::try_from(out.len()).unwrap_or(0);
    let mut state: Option<(Weight, Heading)> = None;
    for (k, s) in out.iter_mut().enumerate() {
        let last = i32::try_from(k).unwrap_or(0) == n - 1;
        s.counts = u32::try_from(if last { before - (n - 1) * size } else { size }).unwrap_or(0);
        let (weight, facing) = state.unwrap_or((s.weight_start, s.facing_start));
        s.weight_start = weight;
        s.facing_start = facing;
        s.weight_end = s.moves.last().map_or(weight, |m| m.after);
        s.facing_end = s.moves.iter().fold(facing, |h, m| h.turned(m.turn));
        state = Some((s.weight_end, s.facing_end));
        let counts = s.counts;
        settle_lengths(&mut s.moves, counts);
    }
    out
}

fn s_fields(facing: Heading, weight: Weight) -> (Heading, Weight) {
    (facing, weight)
}

fn s_like((facing, weight): (Heading, Weight)) -> Section {
    Section {
        name: String::new(),
        counts: 0,
        moves: Vec::new(),
        figures: Vec::new(),
        span: Span::default(),
        facing_start: facing,
        facing_end: facing,
        weight_start: weight,
        weight_end: weight,
    }
}
