//! What the rules look at: a sheet with its reading, and the places in it.

use core::cell::OnceCell;

use super::finding::{Finding, Related, Severity};
use super::mend::Candidate;
use crate::body::Body;
use crate::dance::{Dance, Move, Part, PartKind};
use crate::motion::limits::{Strain, strains};
use crate::motion::{Motion, poses};
use crate::read::{Reading, Trouble, TroubleKind};
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, acts};
use crate::sheet::{PartText, Sheet, Slots};
use crate::text::{Edit, Span};
use crate::time::Ticks;

/// A sheet as it was read.
#[derive(Debug, Clone, Copy)]
pub(super) struct Subject<'a> {
    pub text: &'a str,
    pub sheet: &'a Sheet,
    pub reading: &'a Reading,
    /// One repetition on the floor, danced when a rule first asks.
    pub floor: &'a Floor,
}

/// One repetition on the floor, and what strains the body in it.
#[derive(Debug)]
pub(super) struct Floor {
    body: Body,
    motion: OnceCell<Motion>,
    strains: OnceCell<Vec<Strain>>,
}

impl Floor {
    /// Danced by a body, once it is asked for.
    pub(super) fn of(body: &Body) -> Self {
        Self { body: *body, motion: OnceCell::new(), strains: OnceCell::new() }
    }
}

/// A finding with the mends that are worth a try, not proven yet.
#[derive(Debug)]
pub(super) struct Draft {
    pub finding: Finding,
    pub candidates: Vec<Candidate>,
}

/// A place in a dance: indices of part and section, and the position within the section.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Place {
    pub part: usize,
    pub section: usize,
    pub at: Option<Ticks>,
}

impl Place {
    pub(super) fn of_trouble(t: &Trouble) -> Self {
        Self { part: t.part, section: t.section, at: t.at }
    }
}

/// A move with its place.
#[derive(Debug, Clone, Copy)]
pub(super) struct Danced<'a> {
    pub section: usize,
    pub m: &'a Move,
}

impl<'a> Subject<'a> {
    pub(super) fn dance(&self) -> &'a Dance {
        &self.reading.dance
    }

    /// One repetition as danced by the body that was asked for.
    pub(super) fn motion(&self) -> &'a Motion {
        self.floor.motion.get_or_init(|| poses(self.dance(), &self.floor.body))
    }

    /// What strains the body in it.
    pub(super) fn strains(&self) -> &'a [Strain] {
        self.floor.strains.get_or_init(|| strains(self.dance(), self.motion(), self.dance().head.tempo))
    }

    /// The words of a span on one line, shortened where they are long.
    pub(super) fn quote(&self, span: Span) -> String {
        let between = |c: char| c.is_whitespace() || c.is_control();
        let words: Vec<&str> = span.of(self.text).split(between).filter(|w| !w.is_empty()).collect();
        let whole = words.join(" ");
        if whole.chars().count() <= 60 {
            return whole;
        }
        let mut cut: String = whole.chars().take(56).collect();
        if let Some(end) = cut.rfind(' ') {
            cut.truncate(end);
        }
        cut.push_str(" ...");
        cut
    }

    /// All moves of a part in order.
    pub(super) fn moves(&self, part: usize) -> Vec<Danced<'a>> {
        let sections = self.dance().parts.get(part).map_or(&[][..], |p| &p.sections[..]);
        let of = |(section, s): (usize, &'a crate::dance::Section)| {
            s.moves.iter().map(move |m| Danced { section, m })
        };
        sections.iter().enumerate().flat_map(of).collect()
    }

    /// The sheet's own text of a part of the dance.
    pub(super) fn part_text(&self, part: usize) -> Option<&'a PartText> {
        let wanted = self.dance().parts.get(part)?;
        let same = self.sheet.parts.iter().filter(|p| p.kind == wanted.kind);
        let before = self.dance().parts[..part].iter().filter(|p| p.kind == wanted.kind).count();
        let tag = |p: &&PartText| p.kind != PartKind::Tag || p.mention.is_some();
        same.filter(tag).nth(before)
    }

    /// Where a position of a section of the sheet stands in the dance, which divides undivided parts itself.
    pub(super) fn place(&self, part: usize, section: usize, at: Option<Ticks>) -> Place {
        let divided = self.part_text(part).is_none_or(|p| p.divided) || self.is_extra(part);
        if divided {
            return Place { part, section, at };
        }
        let before: i32 =
            self.part_text(part).map_or(0, |p| p.sections.iter().take(section).map(length).sum());
        let size = i32::try_from(self.dance().head.metre.section()).unwrap_or(8);
        let Some(at) = at else { return Place { part, section, at } };
        let whole = ((at.0 + 23).div_euclid(24) + before).max(1);
        let k = (whole - 1) / size;
        Place {
            part,
            section: usize::try_from(k).unwrap_or(0),
            at: Some(Ticks(at.0 + (before - k * size) * 24)),
        }
    }

    fn is_extra(&self, part: usize) -> bool {
        self.dance().parts.get(part).is_some_and(|p| p.kind != PartKind::Main)
    }

    /// The number of a section as a dancer counts it: sections of the dance run on through its parts.
    pub(super) fn number(&self, place: Place) -> u32 {
        let parts = &self.dance().parts;
        let before: usize = if self.is_extra(place.part) {
            0
        } else {
            let main = |p: &&Part| p.kind == PartKind::Main;
            parts.iter().take(place.part).filter(main).map(|p| p.sections.len()).sum()
        };
        u32::try_from(before + place.section + 1).unwrap_or(u32::MAX)
    }

    /// "count 5 of section 3", "count 2 of the tag".
    pub(super) fn say(&self, place: Place) -> String {
        let section = match self.dance().parts.get(place.part) {
            Some(p) if p.kind != PartKind::Main => {
                if p.kind == PartKind::Tag {
                    "the tag".to_string()
                } else {
                    "the ending".to_string()
                }
            }
            _ => format!("section {}", self.number(place)),
        };
        match place.at {
            Some(at) => format!("count {at} of {section}"),
            None => section,
        }
    }

    /// The name of the part that a finding is about.
    pub(super) fn part_name(&self, part: usize) -> String {
        self.dance().parts.get(part).map_or_else(|| "main".to_string(), |p| p.name.clone())
    }

    /// A finding at a place.
    pub(super) fn at(&self, rule: &'static str, severity: Severity, span: Span, place: Place) -> Draft {
        Draft {
            finding: Finding {
                rule,
                severity,
                span,
                part: self.part_name(place.part),
                section: Some(self.number(place)),
                at: place.at,
                message: String::new(),
                related: Vec::new(),
                fixes: Vec::new(),
            },
            candidates: Vec::new(),
        }
    }

    /// A finding about the head of the sheet or the dance as a whole.
    pub(super) fn whole(rule: &'static str, severity: Severity, span: Span) -> Draft {
        Draft {
            finding: Finding {
                rule,
                severity,
                span,
                part: "main".to_string(),
                section: None,
                at: None,
                message: String::new(),
                related: Vec::new(),
                fixes: Vec::new(),
            },
            candidates: Vec::new(),
        }
    }

    /// Whether words that were not understood stand between two places of the text.
    pub(super) fn unread_between(&self, from: u32, to: u32) -> bool {
        self.reading
            .troubles
            .iter()
            .any(|t| t.kind == TroubleKind::Unread && t.span.start < to && t.span.end > from)
    }

    /// Whether words that were not understood between two places may hold a turn: "then come the turns" says none.
    pub(super) fn unread_turn_between(&self, from: u32, to: u32) -> bool {
        let between = |t: &&Trouble| t.kind == TroubleKind::Unread && t.span.start < to && t.span.end > from;
        self.reading.troubles.iter().filter(between).any(|t| {
            let words = super::edits::words(self.text, t.span);
            let any = |wanted: fn(Kind) -> bool| words.iter().any(|t| wanted(t.kind));
            let side = any(|k| matches!(k, Kind::W(W::R | W::L)));
            let turns = any(|k| match k {
                Kind::Name(_) | Kind::Fraction(_) => true,
                Kind::W(w) => matches!(
                    w,
                    W::Quarter
                        | W::Half
                        | W::ThreeQuarter
                        | W::Full
                        | W::Eighth
                        | W::Pivot
                        | W::Unwind
                        | W::Spin
                        | W::Spiral
                        | W::Roll
                        | W::Paddle
                        | W::Clockwise
                        | W::Anticlockwise
                ),
                _ => false,
            });
            turns || side && any(|k| k == Kind::W(W::Turn))
        })
    }

    /// Whether words that were not understood between two places may well have moved the weight: a step in them has a
    /// verb and a foot, or the name of a figure.
    pub(super) fn unread_step_between(&self, from: u32, to: u32) -> bool {
        let between = |t: &&Trouble| t.kind == TroubleKind::Unread && t.span.start < to && t.span.end > from;
        self.reading.troubles.iter().filter(between).any(|t| {
            let words = super::edits::words(self.text, t.span);
            let any = |wanted: fn(Kind) -> bool| words.iter().any(|t| wanted(t.kind));
            let verb = any(|k| matches!(k, Kind::W(w) if acts(w)));
            let foot = any(|k| matches!(k, Kind::W(W::R | W::L | W::RF | W::LF | W::Feet | W::Both)));
            any(|k| matches!(k, Kind::Name(_))) || verb && foot
        })
    }

    /// Troubles of one kind.
    pub(super) fn troubles(&self, wanted: impl Fn(&TroubleKind) -> bool) -> Vec<&'a Trouble> {
        self.reading.troubles.iter().filter(|t| wanted(&t.kind)).collect()
    }

    /// The words that share a count mark with a place of the text.
    pub(super) fn chunk_at(&self, byte: u32) -> Option<Span> {
        let sections = self.sheet.parts.iter().flat_map(|p| &p.sections);
        let chunks =
            sections.flat_map(|s| s.chunks.iter().map(move |c| s.tokens.get(c.from..c.to).unwrap_or(&[])));
        let spans = chunks.filter_map(|words| words.iter().map(|t| t.span).reduce(Span::join));
        spans.into_iter().find(|span| span.start <= byte && byte < span.end)
    }

    /// The count mark of the chunk that holds a place of the text, with its positions in the section.
    pub(super) fn mark_at(&self, byte: u32) -> Option<(Span, &'a [Ticks])> {
        let sections = self.sheet.parts.iter().flat_map(|p| &p.sections);
        for s in sections {
            for c in &s.chunks {
                let Slots::At { ticks, .. } = &c.slots else { continue };
                let words = s.tokens.get(c.from..c.to).unwrap_or(&[]);
                let span = words.iter().fold(c.mark, |all, t| all.join(t.span));
                if span.start <= byte && byte < span.end && !c.mark.is_empty() {
                    return Some((c.mark, ticks));
                }
            }
        }
        None
    }
}

/// Counts that a section of the sheet fills, by its heading or its count marks.
pub(super) fn length(s: &crate::sheet::SectionText) -> i32 {
    let written = written_counts(s).unwrap_or(0);
    s.counts.map_or(written, |(n, _)| i32::try_from(n).unwrap_or(0).max(written))
}

/// The last count that the marks of a section name.
pub(super) fn written_counts(s: &crate::sheet::SectionText) -> Option<i32> {
    let last = |c: &crate::sheet::Chunk| match &c.slots {
        Slots::At { ticks, .. } => ticks.last().map(|t| t.count()),
        _ => None,
    };
    s.chunks.iter().filter_map(last).max()
}

impl Draft {
    /// The sentence for a dance teacher.
    pub(super) fn says(mut self, message: String) -> Self {
        self.finding.message = message;
        self
    }

    /// Another place that has to do with it.
    pub(super) fn with(mut self, span: Span, label: &str) -> Self {
        if !span.is_empty() {
            self.finding.related.push(Related { span, label: label.to_string() });
        }
        self
    }

    /// A mend to try.
    pub(super) fn offer(&mut self, cost: u32, sure: bool, title: String, edits: Vec<Edit>) {
        self.candidates.push(Candidate { cost, sure, title, edits, place: None });
    }

    /// A mend to try that shows the fault at another place.
    pub(super) fn offer_at(&mut self, place: Place, cost: u32, title: String, edits: Vec<Edit>) {
        self.candidates.push(Candidate { cost, sure: false, title, edits, place: Some(place) });
    }
}
