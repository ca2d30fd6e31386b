//! What is told by pointing at another section, or at some of its counts.

use super::again::{Group, Groups, loose_turn};
use super::lattice::Search;
use super::meaning::{Edge, Meaning};
use super::phrases::Repeat;
use super::state::{Entry, Node, Placed};

use crate::figures::Step;
use crate::floor::Turn;
use crate::sheet::pointing::points;
use crate::sheet::words::Kind;
use crate::sheet::{Chunk, SectionText, Slots};
use crate::time::Ticks;

/// What each clause costs that tells once more what is pointed at; steps that are written out are rather read.
const TOLD: u32 = 3;

/// What they cost altogether at most: less than one step of which the foot is not free.
const TOLD_ALL: u32 = 24;

/// A section has hardly more counts than this.
const LONG: i32 = 12;

/// How many counts may be danced otherwise at the end of what is pointed at.
const OTHERWISE: [i32; 3] = [1, 2, 4];

/// The readings of a chunk whose words point at steps elsewhere.
pub(super) fn edges(text: &str, section: &SectionText, chunk: usize, known: usize, out: &mut Vec<Edge>) {
    let t = &section.tokens;
    let (from, to) = (section.chunks[chunk].from, section.chunks[chunk].to);
    let Some(mut p) = points(text, t, from, to) else { return };
    if p.target.sections.is_none() && p.target.range.is_none_or(|(a, _)| a < 0) {
        return;
    }
    // "Same as section 1, except" above "7-8 ...": up to the counts that are told.
    let first = |c: &Chunk| match &c.slots {
        Slots::At { ticks, .. } => ticks.first().map(|t| (t.0 + 23).div_euclid(24)),
        _ => None,
    };
    let free = matches!(section.chunks[chunk].slots, Slots::Free);
    let next = section.chunks.get(chunk + 1).and_then(first).filter(|n| *n > 1 && free);
    if let Some(n) = next.filter(|_| p.target.range.is_none()) {
        (p.changed, p.until) = (true, Some(n - 1));
    }
    let more = section.chunks.len() > 1;
    let begin = (from..to).find(|k| !matches!(t[*k].kind, Kind::Sign(_))).unwrap_or(from);
    let span = t[begin].span.join(t[p.to.max(begin + 1) - 1].span);
    let edge = |to: usize, cost: u32, meaning: Meaning| Edge { to, cost, meaning, span };
    let repeat = Repeat {
        times: None,
        mirrored: p.mirrored,
        same: p.same && !p.mirrored && p.lead.is_none(),
        lead: p.lead,
        range: p.target.range,
        sections: p.target.sections,
        counts: None,
        suffix: false,
        foot: false,
        otherwise: p.changed,
        until: p.until,
    };
    // What one clause of them says by itself is less than all of them say.
    let mut own = out.split_off(known);
    own.retain(|e| !matches!(e.meaning, Meaning::Repeat(_)));
    out.append(&mut own);
    if p.to > from {
        out.push(edge(p.to, (1 + p.told * TOLD).min(TOLD_ALL), Meaning::Repeat(repeat)));
    }
    // The steps are written out behind it.
    let opens = |k: usize| matches!(t[k].kind, Kind::Sign(':' | '.' | '-' | '(' | '\n' | ';' | '='));
    if p.told > 1 && p.telling > from && p.telling < to && opens(p.telling - 1) {
        out.push(edge(p.telling, 2, Meaning::Skip));
    }
    if more && p.target.range.is_none() && !p.changed {
        out.push(edge(to, 4 + (p.told * TOLD).min(TOLD_ALL), Meaning::Skip));
    }
}

/// Whether the words of a section point at more than one: it is longer than others.
pub(super) fn several(text: &str, section: &SectionText) -> bool {
    let [chunk] = section.chunks.as_slice() else { return false };
    points(text, &section.tokens, chunk.from, chunk.to).is_some_and(|p| {
        let long = p.target.range.is_some_and(|(a, b)| b - a >= LONG);
        long || p.target.sections.is_some_and(|(a, b)| p.target.range.is_none() && b > a)
    })
}

/// A section and where it stands in the dance.
struct Stretch<'a> {
    nodes: Vec<&'a Node>,
    /// Counts before it.
    before: i32,
    counts: i32,
}

impl Search<'_> {
    /// The steps of the sections that a repeat names, or of some of their counts.
    pub(super) fn pointed(&self, entry: &Entry, back: &[&Node], (a, b): (u32, u32), r: &Repeat) -> Groups {
        let mut found: Vec<Stretch> = Vec::new();
        let mut before = 0;
        for (n, section) in self.sections.iter().enumerate().take(self.section) {
            let nodes: Vec<&Node> =
                back.iter().rev().copied().filter(|x| usize::from(x.section) == n).collect();
            let danced =
                nodes.iter().flat_map(|x| self.arena.actions(x)).map(|p| p.at.count()).max().unwrap_or(0);
            let counts =
                section.counts.map_or(danced, |(c, _)| i32::try_from(c).unwrap_or(danced)).max(danced);
            let number = section.number.unwrap_or_else(|| u32::try_from(n + 1).unwrap_or(u32::MAX));
            if (a..=b).contains(&number) {
                found.push(Stretch { nodes, before, counts });
            }
            before += counts;
        }
        let (Some(first), Some(last)) = (found.first(), found.last()) else {
            return Groups { placed: Vec::new(), groups: Vec::new() };
        };
        let (start, end) = (first.before, last.before + last.counts);
        // Its counts may be numbered from its beginning or from that of the dance.
        let (from, to) = match r.range {
            Some((a, b)) if a < 0 => (end + 1 + a, end + 1 + b),
            Some((a, b)) if start + b <= end => (start + a, start + b),
            Some((a, b)) if a > start && b <= end => (a, b),
            Some(_) => return Groups { placed: Vec::new(), groups: Vec::new() },
            // "7&8 as in section 1" are these counts of it.
            None => match self.slots.and_then(|s| Some((s.first()?, s.last()?))) {
                Some((a, b)) if b.count() <= end - start && entry.state.k == 0 => {
                    (start + (a.0 + 23).div_euclid(24), start + b.count())
                }
                _ => (start + 1, end),
            },
        };
        let mut placed: Vec<Placed> = Vec::new();
        for s in &found {
            let mut turn = Turn::NONE;
            for node in &s.nodes {
                turn += loose_turn(node);
                for p in self.arena.actions(node) {
                    let turned = core::mem::take(&mut turn);
                    let count = (p.at.0 + 23).div_euclid(24) + s.before;
                    if (from..=to).contains(&count) {
                        let step = Step { turn: p.step.turn + turned, ..p.step };
                        placed.push(Placed { at: Ticks(p.at.0 + s.before * 24), step, ..*p });
                    }
                }
            }
            if let Some(last) = placed.last_mut() {
                last.step.turn += turn;
            }
        }
        if placed.is_empty() {
            return Groups { placed, groups: Vec::new() };
        }
        let whole = to - from + 1;
        let said =
            r.until.map(|n| if n < 0 { -n } else { to - (start + n) }).filter(|n| (0..whole).contains(n));
        let ends =
            core::iter::once(0).chain(OTHERWISE).take(if r.otherwise { OTHERWISE.len() + 1 } else { 1 });
        let groups = ends
            .filter(|n| *n < whole && said.is_none())
            .chain(said)
            .map(|n| Group {
                from: 0,
                to: placed.partition_point(|p| (p.at.0 + 23).div_euclid(24) <= to - n),
                start: from * 24,
                counts: u32::try_from(whole - n).unwrap_or(1),
                cost: u32::try_from(n).unwrap_or(0),
            })
            .filter(|g| g.to > 0)
            .collect();
        Groups { placed, groups }
    }
}
