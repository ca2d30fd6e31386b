//! A sheet in, a dance out: who steps when, on which foot, where to.
//!
//! People leave things out and write the same step in twenty ways, so words have more than one possible reading.
//! This room does not guess clause by clause: it looks for the cheapest reading of a whole part (see
//! `lattice.rs`), where obeying a word costs nothing and ignoring it, breaking a rule of weight or missing a
//! stated clock costs much. What a writer says outright is never bent: if the text says that the right foot steps
//! twice, that is the reading, and it is marked as broken. Knows nothing of metres.

/// A few values in place, without a heap.
macro_rules! few {
    ($($item:expr),* $(,)?) => {{
        #[allow(unused_mut, reason = "there may be none")]
        let mut few = arrayvec::ArrayVec::new();
        $(few.push($item);)*
        few
    }};
}

mod again;
mod apart;
mod around;
mod best;
mod build;
mod candidates;
mod changes;
mod clauses;
mod close;
mod costs;
mod ending;
mod exchanged;
mod extras;
mod figure_words;
mod fitting;
mod headings;
mod kept;
mod known;
mod lattice;
mod layers;
mod lead_ins;
mod manner;
mod meaning;
mod omitted;
mod one_step;
mod otherwise;
mod phrases;
mod place;
mod plan;
mod pointed;
mod recognise;
mod remarks;
mod rows;
mod series;
mod settle;
mod several;
mod start;
mod state;
mod switches;
mod told_steps;
mod trouble;
mod weigh;
mod wordings;

pub use best::{LAYOUTS, strain, understood};
pub(crate) use best::{understood_again, understood_first};
pub(crate) use kept::Kept;
pub use recognise::{Recognised, recognise};
pub use trouble::{Labelled, Trouble, TroubleKind};

use core::cell::OnceCell;

use crate::dance::{Dance, Foot, Head, Part, PartKind, Weight, Who};
use crate::figures::Step;
use crate::floor::Heading;
use crate::sheet::words::Kind;
use crate::sheet::{SectionText, Sheet, Slots};
use crate::time::Metre;
use build::built;
use kept::KeptPart;
use lattice::{search, search_on};
use meaning::Own;
use start::Start;

/// What came of reading a sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The dance, complete whatever the sheet is.
    pub dance: Dance,
    /// What was odd on the cheapest way.
    pub troubles: Vec<Trouble>,
    /// Names that only label the steps beside them: figure, part, section and the words.
    pub labels: Vec<Labelled>,
    /// Every clock mark of the step lines in order: [`TroubleKind::Clock`] or [`TroubleKind::ClockHeld`].
    pub clocks: Vec<Trouble>,
    /// How many clock marks the turns do reach.
    pub clocks_held: usize,
    /// What the cheapest way through the parts of the dance costs: the less, the more the words say themselves.
    pub cost: u32,
    /// Steps of the search: the measure of work.
    pub work: u64,
    /// Whether no other manner of reading the sheet troubles less than the usual one, line by line.
    pub unrivalled: bool,
}

/// Reads the dance of a sheet.
#[must_use]
pub fn read(text: &str, sheet: &Sheet) -> Reading {
    read_again(text, sheet, u32::MAX, &Kept::default(), None)
}

/// The same for a text like one that was read before; what is to serve the next such reading goes into `keep`. A
/// reading that costs more than `bound` is broken off, with a cost of `u32::MAX`.
pub(crate) fn read_again<'t>(
    text: &'t str,
    sheet: &Sheet,
    bound: u32,
    before: &Kept<'_>,
    mut keep: Option<&mut Kept<'t>>,
) -> Reading {
    let metre = metre(sheet);
    let mut reading = Reading {
        dance: Dance {
            head: Head::default(),
            parts: Vec::new(),
            sequence: Vec::new(),
            tags: Vec::new(),
            restarts: Vec::new(),
            ending: None,
            start: Weight::On(Foot::Left),
            runs: Vec::new(),
        },
        troubles: Vec::new(),
        labels: Vec::new(),
        clocks: Vec::new(),
        clocks_held: 0,
        cost: 0,
        work: 0,
        unrivalled: true,
    };
    let own = own_figures(text, sheet, metre, &mut reading);
    let mut weights = beginnings(sheet);
    // The dance itself, or each part of a phrased one.
    let main: Vec<_> = sheet.parts.iter().filter(|p| p.kind == PartKind::Main).collect();
    for part in &main {
        let sections: Vec<SectionText> = part.sections.iter().map(with_heading).collect();
        let counts = if main.len() == 1 { sheet.head.counts.map(|(n, _)| n) } else { None };
        let start = Start {
            weights: weights.clone(),
            facing: part.facing.unwrap_or(Heading::FRONT),
            metre,
            expected: expected(&sections, counts, part.divided, metre),
            divided: part.divided,
            even: counts == u32::try_from(sections.len()).ok().map(|n| n * metre.section()),
            short: false,
        };
        let look = |start: Start| {
            let same = before.same(reading.dance.parts.len(), text, &sections, &start, &own, bound);
            let mut stops = keep.as_ref().map(|_| Vec::new());
            let way = search_on(text, &sections, &start, &own, bound, same, stops.as_mut());
            (start, way, stops)
        };
        // Its clocks tell how a part is danced for the first time, or as if it began at the front.
        let told = sections.iter().flat_map(|s| &s.tokens).any(|t| matches!(t.kind, Kind::Clock(_)));
        let first = first_facing(sheet, &reading.dance, &part.name).filter(|f| *f != start.facing);
        let first = first.map(|facing| Start { facing, ..start.clone() });
        let (start, way, stops) = match first {
            // Without clocks nothing speaks against the order of the parts.
            Some(first) if !told && part.facing.is_none() => look(first),
            Some(first) if told => {
                let (usual, first) = (look(start), look(first));
                if first.1.cost < usual.1.cost { first } else { usual }
            }
            _ => look(start),
        };
        reading.cost = reading.cost.saturating_add(way.cost);
        if reading.cost > bound {
            reading.cost = u32::MAX;
            return reading;
        }
        let index = reading.dance.parts.len();
        let (mut done, end) = built(text, &sections, &way, &start, index, &own, &mut reading);
        settle::carried(&mut done, &part.sections, &mut reading, index);
        if !part.divided {
            done = settle::divided(text, done, metre, &mut reading.troubles, reading.dance.parts.len());
        }
        if reading.dance.parts.is_empty() {
            reading.dance.start = done.first().map_or(Weight::On(Foot::Left), |s| s.weight_start);
        }
        // The next part is danced after this one, or after itself.
        weights = vec![(end, 0), (Weight::On(Foot::Left), 8), (Weight::On(Foot::Right), 14)];
        reading.dance.parts.push(Part { name: part.name.clone(), kind: PartKind::Main, sections: done });
        if let (Some(keep), Some(stops)) = (&mut keep, stops) {
            keep.parts.push(KeptPart { sections, start, bound, way, stops, wide: OnceCell::new() });
        }
    }
    fill_head(text, sheet, metre, &mut reading.dance);
    extras::extras(text, sheet, metre, &own, &mut reading);
    ending::ending(text, sheet, metre, &own, &mut reading);
    let clock = |t: &&Trouble| matches!(t.kind, TroubleKind::Clock { .. } | TroubleKind::ClockHeld { .. });
    reading.clocks = reading.troubles.iter().filter(clock).cloned().collect();
    reading.troubles.retain(|t| !matches!(t.kind, TroubleKind::ClockHeld { .. }));
    figures(text, sheet, metre, &mut reading);
    if let Some(keep) = keep {
        keep.text = text;
        keep.own = own;
    }
    reading
}

/// Names what the steps make where the writer did not.
fn figures(text: &str, sheet: &Sheet, metre: Metre, reading: &mut Reading) {
    let Reading { dance, labels, .. } = reading;
    let divided: Vec<bool> =
        sheet.parts.iter().filter(|p| p.kind == PartKind::Main).map(|p| p.divided).collect();
    for (p, part) in dance.parts.iter_mut().enumerate() {
        // Where the writer did not divide a part, names are found by its moves from first to last.
        let whole = part.kind == PartKind::Main && divided.get(p) == Some(&false);
        let mut before = 0;
        for (s, section) in part.sections.iter_mut().enumerate() {
            let n = section.moves.len();
            let own: Vec<Labelled> = labels
                .iter()
                .filter(|l| l.part == p && (whole || l.section == s))
                .filter(|l| !whole || (l.moves.0 >= before && l.moves.0 < before + n))
                .map(|l| {
                    let shift = if whole { before } else { 0 };
                    Labelled { moves: (l.moves.0 - shift, (l.moves.1 - shift).min(n)), ..l.clone() }
                })
                .collect();
            recognise::fill(text, section, &own, metre);
            before += n;
        }
    }
}

/// The figures that the sheet defines, led by the right foot.
fn own_figures(text: &str, sheet: &Sheet, metre: Metre, reading: &mut Reading) -> Vec<Own> {
    let mut out = Vec::new();
    for figure in &sheet.own {
        let sections = [figure.section.clone()];
        let weights = vec![(Weight::On(Foot::Left), 0), (Weight::On(Foot::Right), 2)];
        let start = Start::beside(weights, Heading::FRONT, metre);
        let way = search(text, &sections, &start, &[]);
        let (sections, _) = built(text, &sections, &way, &start, 0, &[], reading);
        reading.troubles.clear();
        reading.labels.clear();
        let Some(section) = sections.first() else { continue };
        let steps: Vec<Step> = section
            .moves
            .iter()
            .map(|m| Step {
                at: m.at,
                who: m.who,
                action: m.action,
                place: m.place,
                reach: m.reach,
                turn: m.turn,
                turn_when: m.turn_when,
                effect: m.effect,
            })
            .collect();
        let left = steps.iter().find_map(|s| match s.who {
            Who::One(f) => Some(f),
            _ => None,
        }) == Some(Foot::Left);
        let steps = if left { steps.into_iter().map(Step::mirrored).collect() } else { steps };
        out.push(Own { name: figure.name.clone(), steps, counts: section.counts });
    }
    out
}

/// Where the weight may be before the first step.
fn beginnings(sheet: &Sheet) -> Vec<(Weight, u32)> {
    match sheet.head.lead {
        Some((lead, _)) => vec![(Weight::On(lead.other()), 0), (Weight::On(lead), 40), (Weight::Both, 60)],
        None => vec![(Weight::On(Foot::Left), 0), (Weight::On(Foot::Right), 5), (Weight::Both, 30)],
    }
}

/// Waltz, where the head says so and the counts do not speak against it.
fn metre(sheet: &Sheet) -> Metre {
    let mut lengths = Vec::new();
    for section in sheet.parts.iter().filter(|p| p.kind == PartKind::Main).flat_map(|p| &p.sections) {
        let last = section
            .chunks
            .iter()
            .filter_map(|c| match &c.slots {
                Slots::At { ticks, .. } => ticks.last().map(|t| t.count()),
                _ => None,
            })
            .max();
        if let Some(n) = section.counts.and_then(|(n, _)| i32::try_from(n).ok()).or(last) {
            lengths.push(n);
        }
    }
    let threes = lengths.iter().filter(|n| **n % 3 == 0 && **n % 8 != 0 || **n == 24 || **n == 48).count();
    let eights = lengths.iter().filter(|n| **n % 8 == 0 && **n % 3 != 0).count();
    let by_head = sheet.head.waltz && eights <= threes;
    let all = lengths.len() >= 2 && threes == lengths.len() && lengths.iter().all(|n| *n % 6 == 0);
    if by_head || all { Metre::Three } else { Metre::Four }
}

/// A section without step lines is read from its heading.
fn with_heading(section: &SectionText) -> SectionText {
    let mut s = section.clone();
    if s.chunks.is_empty() && !s.heading.is_empty() {
        s.tokens = s.heading.clone();
        s.chunks = vec![crate::sheet::Chunk {
            slots: Slots::Free,
            mark: crate::text::Span::default(),
            from: 0,
            to: s.tokens.len(),
        }];
    }
    s
}

/// Where one faces when a part is danced for the first time: behind the parts before it in the song's order.
fn first_facing(sheet: &Sheet, dance: &Dance, name: &str) -> Option<Heading> {
    let at = sheet.sequence.iter().position(|n| n == name)?;
    sheet.sequence[..at].iter().filter(|n| !n.starts_with("tag")).try_fold(
        Heading::FRONT,
        |facing, before| {
            let part = dance.parts.iter().find(|p| p.name == *before)?;
            Some(facing.turned(part.turn()))
        },
    )
}

/// Counts that every section should have.
fn expected(sections: &[SectionText], counts: Option<u32>, divided: bool, metre: Metre) -> Option<u32> {
    if !divided || sections.is_empty() {
        return None;
    }
    let n = u32::try_from(sections.len()).ok()?;
    match counts {
        Some(c) if c % n == 0 && c / n % metre.beats() == 0 => Some(c / n),
        _ => Some(metre.section()),
    }
}

fn fill_head(text: &str, sheet: &Sheet, metre: Metre, dance: &mut Dance) {
    let head = &sheet.head;
    let sum: u32 = dance.parts.iter().map(Part::counts).sum();
    let turn = dance.parts.iter().fold(crate::floor::Turn::NONE, |t, p| t + p.turn());
    let first = dance
        .main_sections()
        .flat_map(|s| &s.moves)
        .find_map(|m| match m.who {
            Who::One(foot) => Some(foot),
            _ => None,
        })
        .or(head.lead.map(|(f, _)| f));
    dance.head = Head {
        title: head.title.of(text).trim().to_string(),
        counts: head.counts.map_or(sum, |(n, _)| n),
        walls: head.walls.map_or_else(|| walls(turn.0), |(n, _)| n),
        level: head.level.clone(),
        start_foot: first,
        metre,
        tempo: head.tempo,
        intro: head.intro,
        author: head.author.of(text).trim().to_string(),
        music: head.music.of(text).trim().to_string(),
    };
    if !sheet.sequence.is_empty() {
        dance.sequence = sheet
            .sequence
            .iter()
            .filter_map(|name| dance.parts.iter().position(|p| p.kind == PartKind::Main && p.name == *name))
            .collect();
    }
}

/// The number of walls of a net turn: the smallest number of repetitions that comes back to the front.
#[must_use]
pub fn walls(turn: i32) -> u32 {
    let (mut a, mut b) = (48, turn.rem_euclid(48));
    while b != 0 {
        (a, b) = (b, a % b);
    }
    u32::try_from(48 / a).unwrap_or(1)
}
