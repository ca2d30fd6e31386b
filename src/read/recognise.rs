//! Figures of the lexicon found in steps that are written out.
//!
//! The lexicon's steps are put into a tree once: each edge is the time since the step before, the foot, the kind
//! of action and the place. From every move of a section the tree is followed as far as the moves go along, on
//! the right foot and mirrored, so that the work is a small number for each move. Of the figures found, those are
//! kept that cover the most steps with the fewest figures.

use std::sync::OnceLock;

use super::trouble::Labelled;
use crate::dance::{Action, Effect, FigureUse, Foot, Move, Place, Section, Who};
use crate::figures::{Lead, lexicon};
use crate::floor::Turn;
use crate::order::Ordered as _;
use crate::time::{Metre, Ticks};

/// A figure that some moves make.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Recognised {
    /// Index into the lexicon.
    pub figure: u16,
    /// The foot that leads it, where one does.
    pub lead: Option<Foot>,
    /// The turn as danced.
    pub turn: Turn,
    /// How far the moves are from the lexicon's steps; 0 is the figure itself.
    pub distance: u32,
}

impl Recognised {
    /// The figure's name in the lexicon.
    #[must_use]
    pub fn name(&self) -> &'static str {
        lexicon().figures[usize::from(self.figure)].name
    }
}

/// The figure that these moves make, all of them and nothing else; the nearest one where several do.
#[must_use]
pub fn recognise(moves: &[Move], metre: Metre) -> Option<Recognised> {
    let whole = stream(moves);
    let mut found = Vec::new();
    follow(&whole, 0, metre, None, &mut found);
    let all = whole.iter().rposition(|m| !m.decoration).map_or(0, |i| i + 1);
    found.iter().filter(|f| f.to >= all).map(|f| f.what).min_by_key(|f| (f.distance, f.figure))
}

/// One move as far as the search looks at it.
#[derive(Debug, Clone, Copy)]
struct Beat {
    at: Ticks,
    step: Sign,
    turn: Turn,
    /// Index of the move.
    index: usize,
    /// Done at the moment of another move, so that a figure may do without it.
    decoration: bool,
    /// First of those written in its line.
    opens: bool,
}

/// What a move and a step of the lexicon have in common.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Sign {
    who: Who,
    /// The kind of its action.
    kind: u8,
    action: Action,
    place: Place,
    /// The group of its place.
    group: u8,
    effect: Effect,
}

impl Sign {
    fn of(who: Who, action: Action, place: Place, effect: Effect) -> Self {
        Self { who, kind: kind(action), action, place, group: group(place), effect }
    }

    fn mirrored(self) -> Self {
        Self::of(self.who.mirrored(), self.action, self.place.mirrored(), self.effect)
    }

    /// A number for what must be the same in a move and in a step of the lexicon.
    fn number(self) -> usize {
        let who = match self.who {
            Who::One(Foot::Left) => 0,
            Who::One(Foot::Right) => 1,
            Who::Both => 2,
            Who::Nobody => 3,
        };
        let effect = match self.effect {
            Effect::Takes => 0,
            Effect::Shares => 1,
            Effect::Free => 2,
            Effect::Keeps => 3,
            Effect::None => 4,
        };
        (usize::from(self.kind) * 5 + effect) * 4 + who
    }

    /// What changes nothing on the floor: a hold, a clap.
    fn still(self) -> bool {
        self.who == Who::Nobody && matches!(self.action, Action::Hold | Action::Clap)
    }
}

/// Actions that writers exchange for each other without another figure coming of it.
fn kind(action: Action) -> u8 {
    use Action as A;
    match action {
        A::Step
        | A::Ball
        | A::Rock
        | A::Press
        | A::Lunge
        | A::Slide
        | A::Skate
        | A::Sway
        | A::Recover
        | A::Shift
        | A::Stomp
        | A::Pivot
        | A::Paddle => 0,
        A::Touch | A::Toe | A::Point => 1,
        A::Brush | A::Scuff => 2,
        other => 3 + other as u8,
    }
}

/// How far apart two actions of one kind are.
fn action_distance(a: Action, b: Action) -> u32 {
    use Action as A;
    let plain = |x: A| matches!(x, A::Step | A::Ball | A::Rock | A::Recover | A::Shift);
    if a == b {
        0
    } else if plain(a) && plain(b) || kind(a) == 1 {
        1
    } else {
        2
    }
}

/// Places that are much the same have one number.
const fn group(place: Place) -> u8 {
    use Place as P;
    match place {
        P::Forward | P::DiagonalForward => 0,
        P::Back | P::DiagonalBack => 1,
        P::Side | P::Out => 2,
        P::Cross | P::LockFront | P::DiagonalAcross => 3,
        P::Behind | P::LockBehind | P::Third => 4,
        P::Close | P::InPlace | P::Home | P::In => 5,
        other => 10 + other as u8,
    }
}

/// How far apart the places of two signs are; nothing where they make another figure.
fn place_distance(sign: Sign, other: Sign) -> Option<u32> {
    use Place as P;
    let (action, a, b) = (sign.action, sign.place, other.place);
    if a == b {
        return Some(0);
    }
    let (x, y) = (sign.group, other.group);
    if x == y {
        return Some(1);
    }
    // Where a leg in the air points to, and how far a drawn foot comes, is said loosely.
    let loose = matches!(
        action,
        Action::Kick
            | Action::Flick
            | Action::Hook
            | Action::Hitch
            | Action::Brush
            | Action::Scuff
            | Action::Drag
            | Action::Sweep
            | Action::Drop
            | Action::Recover
            | Action::Pivot
            | Action::Paddle
    );
    if loose {
        return Some(1);
    }
    let diagonal = |p: P| matches!(p, P::DiagonalForward | P::DiagonalBack);
    match (x.min(y), x.max(y)) {
        // To the side or to the diagonal, at the end of a sailor for one.
        (0 | 1, 2) if diagonal(a) || diagonal(b) => Some(2),
        // A last step to the side that stays where it is.
        (2, 5) => Some(2),
        _ => None,
    }
}

/// A step that a figure goes on with.
#[derive(Debug, Clone, Copy)]
struct Next {
    key: Option<u32>,
    sign: Sign,
    to: u32,
}

/// The time since the step before and what must be the same in a move, in one number.
fn key(gap: i32, sign: Sign) -> Option<u32> {
    Some(u32::from(u16::try_from(gap).ok()?) << 16 | u32::try_from(sign.number()).ok()?)
}

#[derive(Debug, Default)]
struct Node {
    next: Vec<Next>,
    /// Figures that end here.
    ends: Vec<u16>,
}

/// The lexicon as a tree of steps.
struct Tree {
    nodes: Vec<Node>,
    /// The first steps of all figures, by what must be the same in a move.
    first: Vec<Vec<Next>>,
    /// Whether a figure is danced to threes only, by its number.
    waltz: Vec<bool>,
}

fn tree() -> &'static Tree {
    static TREE: OnceLock<Tree> = OnceLock::new();
    TREE.get_or_init(|| {
        let mut nodes = vec![Node::default()];
        for (id, figure) in lexicon().figures.iter().enumerate() {
            let (mut at, mut before, mut length) = (0_usize, None, 0);
            for s in &figure.steps {
                let sign = Sign::of(s.who, s.action, s.place, s.effect);
                if sign.still() {
                    continue;
                }
                let gap = before.map_or(0, |b: Ticks| s.at.0 - b.0);
                before = Some(s.at);
                length += 1;
                let key = key(gap, sign);
                let known = nodes[at].next.iter().find(|n| n.key == key && n.sign == sign);
                at = if let Some(next) = known {
                    next.to as usize
                } else {
                    let to = nodes.len();
                    nodes.push(Node::default());
                    nodes[at].next.push(Next { key, sign, to: u32::try_from(to).unwrap_or(0) });
                    to
                };
            }
            // A single step is called by its verb.
            if length >= 2 {
                nodes[at].ends.push(u16::try_from(id).unwrap_or(u16::MAX));
            }
        }
        let mut first: Vec<Vec<Next>> = Vec::new();
        for next in &nodes[0].next {
            let at = next.sign.number();
            if at >= first.len() {
                first.resize_with(at + 1, Vec::new);
            }
            first[at].push(*next);
        }
        let threes = |name: &str| ["altz", "winkle", "Balance"].iter().any(|w| name.contains(w));
        let waltz = lexicon().figures.iter().map(|f| threes(f.name)).collect();
        Tree { nodes, first, waltz }
    })
}

fn stream(moves: &[Move]) -> Vec<Beat> {
    let mut out: Vec<Beat> = Vec::with_capacity(moves.len());
    for (index, m) in moves.iter().enumerate() {
        let step = Sign::of(m.who, m.action, m.place, m.effect);
        if step.still() {
            continue;
        }
        let same = out.last().is_some_and(|b| b.at == m.at);
        let decoration = same && matches!(m.effect, Effect::Free | Effect::None | Effect::Keeps);
        out.push(Beat { at: m.at, step, turn: m.turn, index, decoration, opens: index == 0 });
    }
    out
}

/// A figure found from one beat to another.
#[derive(Debug, Clone, Copy)]
struct Found {
    from: usize,
    to: usize,
    steps: u32,
    what: Recognised,
}

/// Where the search stands.
#[derive(Clone, Copy)]
struct Walk {
    node: usize,
    beat: usize,
    before: Option<Ticks>,
    distance: u32,
    steps: u32,
    /// Beats that it went past, by how far behind the first they are.
    past: u64,
}

impl Walk {
    /// The turns of the beats that it took.
    fn turns<'b>(&self, beats: &'b [Beat], from: usize, mirrored: bool) -> impl Iterator<Item = Turn> + 'b {
        let past = self.past;
        let taken = beats[from..self.beat]
            .iter()
            .enumerate()
            .filter(move |(n, _)| *n >= FARTHEST || past >> n & 1 == 0);
        taken.map(move |(_, b)| if mirrored { -b.turn } else { b.turn })
    }
}

/// The most steps that a figure of the lexicon has; longer ways are not followed.
const DEEPEST: u32 = 24;

/// How far behind its first beat a figure may leave out another one.
const FARTHEST: usize = 60;

/// All figures that begin at a beat.
fn follow(beats: &[Beat], from: usize, metre: Metre, end: Option<Ticks>, found: &mut Vec<Found>) {
    let tree = tree();
    let mut open: Vec<Walk> = Vec::with_capacity(8);
    for mirrored in [false, true] {
        open.clear();
        open.push(Walk { node: 0, beat: from, before: None, distance: 0, steps: 0, past: 0 });
        while let Some(w) = open.pop() {
            for id in &tree.nodes[w.node].ends {
                if let Some(what) = ended(*id, &w, mirrored, metre, beats, from, end) {
                    found.push(Found { from, to: w.beat, steps: w.steps, what });
                }
            }
            let Some(beat) = beats.get(w.beat).filter(|_| w.steps < DEEPEST) else { continue };
            if beat.decoration && w.steps > 0 && w.beat - from < FARTHEST {
                open.push(Walk { beat: w.beat + 1, past: w.past | 1 << (w.beat - from), ..w });
            }
            let step = if mirrored { beat.step.mirrored() } else { beat.step };
            let key = key(w.before.map_or(0, |b| beat.at.0 - b.0), step);
            if key.is_none() {
                continue;
            }
            let next = match w.node {
                0 => tree.first.get(step.number()).map_or(&[][..], Vec::as_slice),
                node => &tree.nodes[node].next,
            };
            for Next { sign, to, .. } in next.iter().filter(|n| n.key == key) {
                let Some(place) = place_distance(*sign, step) else { continue };
                // Where the weight goes back to is no place for the foot to go.
                let back = |s: &Sign| matches!(s.action, Action::Recover | Action::Shift | Action::Pivot);
                let stays = |s: &Sign| matches!(s.place, Place::InPlace | Place::Home);
                if back(sign) != back(&step) && !(stays(sign) && stays(&step)) {
                    continue;
                }
                let distance = w.distance + place + action_distance(sign.action, step.action);
                if distance > 2 + w.steps / 4 {
                    continue;
                }
                open.push(Walk {
                    node: *to as usize,
                    beat: w.beat + 1,
                    before: Some(beat.at),
                    distance,
                    steps: w.steps + 1,
                    past: w.past,
                });
            }
        }
    }
}

/// Whether a figure is complete at the end of a way, with its turns.
fn ended(
    id: u16,
    w: &Walk,
    mirrored: bool,
    metre: Metre,
    beats: &[Beat],
    from: usize,
    end: Option<Ticks>,
) -> Option<Recognised> {
    let figure = &lexicon().figures[usize::from(id)];
    // A rock at the end belongs to its recover.
    let rocks = |a: Action| matches!(a, Action::Rock | Action::Press | Action::Lunge);
    let last = beats[from..w.beat].iter().rfind(|b| !b.decoration).map(|b| b.step.action);
    if last.is_some_and(rocks) && !figure.steps.last().is_some_and(|s| rocks(s.action)) {
        return None;
    }
    if tree().waltz.get(usize::from(id)).is_some_and(|w| *w) && metre != Metre::Three {
        return None;
    }
    // A hold at the end belongs to the figure and must have its time.
    if figure.steps.last().is_some_and(|s| s.action == Action::Hold) {
        let room = Ticks::of_count(i32::try_from(figure.counts()).unwrap_or(0));
        let next = beats.get(w.beat).map(|b| b.at).or(end);
        if next.is_some_and(|n| n < beats[from].at + room) {
            return None;
        }
    }
    let still =
        |s: &crate::figures::Step| s.who == Who::Nobody && matches!(s.action, Action::Hold | Action::Clap);
    // The longer a figure, the more may be said loosely.
    if w.distance > 1 + w.steps / 3 {
        return None;
    }
    let mut own = figure.steps.iter().filter(|s| !still(s)).map(|s| s.turn);
    let turns = || w.turns(beats, from, mirrored);
    let sum = turns().fold(Turn::NONE, |a, b| a + b);
    let turning = if own.clone().eq(turns()) {
        0
    } else if own.all(|t| t == Turn::NONE) {
        let usual = turns().enumerate().all(|(i, t)| t == Turn::NONE || i + 1 == figure.turn_on);
        if usual { 2 } else { 3 }
    } else if figure.turn() == sum && sum != Turn::NONE {
        1
    } else {
        return None;
    };
    let lead = match (figure.lead, mirrored) {
        (Lead::Both, _) => None,
        (_, false) => Some(Foot::Right),
        (_, true) => Some(Foot::Left),
    };
    // What is done with both feet is its own mirror image as far as no side is in it.
    if mirrored && beats[from..w.beat].iter().all(|b| b.step.who == Who::Both && b.step == b.step.mirrored())
    {
        return None;
    }
    Some(Recognised {
        figure: id,
        lead,
        turn: if mirrored { -sum } else { sum },
        distance: w.distance + turning,
    })
}

/// The figures that cover the most of some moves, in order: first move, one past the last, figure.
fn cover(text: &str, moves: &[Move], metre: Metre, end: Ticks) -> Vec<(usize, usize, Recognised)> {
    let mut beats = stream(moves);
    for i in 1..beats.len() {
        let (a, b) = (moves[beats[i - 1].index].span, moves[beats[i].index].span);
        // What is repeated has the words of what it repeats.
        beats[i].opens = b.start < a.start
            || text.get(a.start as usize..b.start as usize).is_some_and(|between| between.contains('\n'));
    }
    let mut best: Vec<(u32, Option<Found>)> = vec![(0, None); beats.len() + 1];
    let mut found = Vec::new();
    for i in (0..beats.len()).rev() {
        best[i] = (best[i + 1].0, None);
        if beats[i].decoration {
            continue;
        }
        found.clear();
        follow(&beats, i, metre, Some(end), &mut found);
        // Longest first; a figure seldom begins on an even count.
        let odd = u32::from(beats[i].at.within() == 0 && beats[i].at.count() % 2 == 1);
        found.in_order_by_key(|f| (f.what.distance, f.what.figure, f.to));
        for f in found.drain(..) {
            // A writer seldom begins a figure within one line and ends it within the next.
            let torn = beats[f.from + 1..f.to].iter().any(|b| b.opens)
                && !(beats[f.from].opens && beats.get(f.to).is_none_or(|b| b.opens));
            let size = if torn { f.steps.saturating_sub(2) } else { f.steps };
            let worth = (size * size * 8 + odd * size * 2).saturating_sub(f.what.distance * 3);
            let all = best[f.to].0 + worth;
            if all > best[i].0 {
                best[i] = (all, Some(f));
            }
        }
    }
    let mut out = Vec::new();
    let mut i = 0;
    while i < beats.len() {
        if let Some(f) = best[i].1 {
            out.push((beats[f.from].index, beats[f.to - 1].index + 1, f.what));
            i = f.to;
        } else {
            i += 1;
        }
    }
    out
}

/// One past the last move of a named figure that begins where its name stands, where it goes on beyond its count.
fn reached(section: &Section, label: &Labelled, own: core::ops::Range<usize>, metre: Metre) -> Option<usize> {
    let free = section.moves[own.end..].iter().take_while(|m| m.figure.is_none()).count();
    let beats = stream(&section.moves[own.start..own.end + free]);
    let mut found = Vec::new();
    if beats.is_empty() {
        return None;
    }
    follow(&beats, 0, metre, None, &mut found);
    let same = found.iter().filter(|f| f.what.figure == label.figure).map(|f| f.to).max()?;
    let to = own.start + beats.get(same.checked_sub(1)?)?.index + 1;
    (to > own.end).then_some(to)
}

/// Finds figures in the moves of a section that belong to none yet, and puts all of them in order.
/// `labels` are the names in this section that stand beside written-out steps.
pub(super) fn fill(text: &str, section: &mut Section, labels: &[Labelled], metre: Metre) {
    // A part that was divided afterwards has lost the names without moves of their own.
    for label in labels {
        if !section.figures.iter().any(|f| f.span == label.span && f.named) {
            let Some(name) = lexicon().figures.get(usize::from(label.figure)).map(|f| f.name.into()) else {
                continue;
            };
            let (lead, turn) = (label.lead, Turn::NONE);
            section.figures.push(FigureUse { name, lead, turn, span: label.span, named: true });
        }
    }
    let names = section.figures.len();
    // Moves beside a name belong to it.
    for label in labels {
        let used = section.figures.iter().position(|f| f.span == label.span && f.named);
        let at = used.and_then(|u| u16::try_from(u).ok());
        let range = label.moves.0.min(section.moves.len())..label.moves.1.min(section.moves.len());
        // Where each step has a count of its own, the figure goes on behind the first of them.
        let to = reached(section, label, range.clone(), metre).unwrap_or(range.end);
        let range = range.start..to;
        for m in &mut section.moves[range] {
            if m.figure.is_none() {
                m.figure = at;
            }
        }
        if let Some(f) = used.and_then(|u| section.figures.get_mut(u)) {
            let own = section.moves.iter().filter(|m| m.figure == at);
            f.turn = own.clone().fold(Turn::NONE, |t, m| t + m.turn);
            if f.lead.is_none() {
                f.lead = own.clone().find_map(|m| match m.who {
                    Who::One(foot) => Some(foot),
                    _ => None,
                });
            }
        }
    }
    let mut from = 0;
    while from < section.moves.len() {
        if section.moves[from].figure.is_some() {
            from += 1;
            continue;
        }
        let run = section.moves[from..].iter().take_while(|m| m.figure.is_none()).count();
        let to = from + run;
        let end = section
            .moves
            .get(to)
            .map_or(Ticks::of_count(i32::try_from(section.counts).unwrap_or(0) + 1), |m| m.at);
        for (a, b, what) in cover(text, &section.moves[from..to], metre, end) {
            let used = u16::try_from(section.figures.len()).unwrap_or(u16::MAX);
            let own = &mut section.moves[from + a..from + b];
            let span = own.iter().map(|m| m.span).reduce(crate::text::Span::join).unwrap_or_default();
            for m in own.iter_mut() {
                m.figure = Some(used);
            }
            section.figures.push(FigureUse {
                name: what.name().into(),
                lead: what.lead,
                turn: what.turn,
                span,
                named: false,
            });
        }
        from = to;
    }
    sort(section, names);
}

/// Puts the figures in the order of their first moves.
fn sort(section: &mut Section, names: usize) {
    let mut order: Vec<(usize, usize)> = Vec::with_capacity(section.figures.len());
    let mut last = 0;
    for used in 0..section.figures.len() {
        let first = section.moves.iter().position(|m| m.figure.is_some_and(|f| usize::from(f) == used));
        // A name without moves stays behind the one before it.
        last = first.unwrap_or(if used < names { last } else { usize::MAX });
        order.push((last, used));
    }
    order.in_order();
    let old = core::mem::take(&mut section.figures);
    section.figures = order.iter().map(|(_, used)| old[*used].clone()).collect();
    for m in &mut section.moves {
        m.figure = m
            .figure
            .and_then(|f| order.iter().position(|(_, used)| *used == usize::from(f)))
            .and_then(|f| u16::try_from(f).ok());
    }
}
