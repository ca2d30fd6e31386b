//! The way that the search found, as sections of moves.

use super::Reading;
use super::lattice::Way;
use super::meaning::Own;
use super::settle::{settle_bumps, settle_lengths};
use super::start::Start;
use super::state::{Mark, Placed};
use super::trouble::{Labelled, Trouble, TroubleKind};
use crate::dance::{Action, Effect, FigureUse, Move, Section, TurnWhen, Weight, Who};
use crate::figures::{WeightSaid, lexicon};
use crate::floor::{Heading, Turn};
use crate::order::Ordered as _;
use crate::sheet::{SectionText, Slots};
use crate::text::{among, is_among};
use crate::time::Ticks;

struct Builder {
    sections: Vec<Section>,
    /// Where the words of each section end, in ticks.
    ends: Vec<i32>,
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
    let first = way
        .nodes
        .iter()
        .find(|n| n.n > 0)
        .map_or(start.weights[0].0, |n| way.arena.placed[n.from as usize].before);
    reading.work += way.work;
    let mut b = Builder {
        sections: Vec::new(),
        ends: vec![0; texts.len()],
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
        let placed = way.arena.actions(node);
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
    b.finish(text, texts, start, first);
    let weight = b.weight;
    (b.sections, weight)
}

fn name(text: &str, t: &SectionText) -> String {
    let name = t.name.of(text).trim_matches(|c: char| !c.is_alphanumeric() && c != ')').trim();
    // "Part 3 (K-step)" stands in brackets as a whole.
    let stray = name.matches(')').count() > name.matches('(').count();
    name.strip_suffix(')').filter(|_| stray).unwrap_or(name).to_string()
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
            Mark::Section => self.ends[section] = node.t,
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
    fn finish(&mut self, text: &str, texts: &[SectionText], start: &Start, first: Weight) {
        // A turn written after the last step belongs to it.
        let pending = core::mem::take(&mut self.pending);
        if pending != Turn::NONE
            && let Some(m) = self.sections.iter_mut().rev().find_map(|s| s.moves.last_mut())
        {
            m.turn += pending;
        }
        let (mut weight, mut facing) = (first, start.facing);
        for ((s, t), end) in self.sections.iter_mut().zip(texts).zip(&self.ends) {
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
                // "Hold for four counts" is all of a tag.
                let held = u32::try_from(end / 24 - 1).unwrap_or(0);
                let last = s.moves.iter().max_by_key(|m| m.at).map(|m| m.action);
                // "Sway right for 3" lasts as long as it says.
                let told = s.moves.last().is_some_and(|m| {
                    let mut words = m.span.of(text).split(|c: char| !c.is_alphanumeric());
                    words.any(|w| {
                        w.parse::<u32>().is_ok()
                            || is_among(w, among!["two", "three", "four", "six", "eight"])
                    })
                });
                if (!start.divided && last == Some(Action::Hold) || told) && held > got {
                    s.counts = held;
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
