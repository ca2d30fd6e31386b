//! Faults put into a sound sheet: each kind a list of places where one change of the text makes a dance that
//! cannot be danced as written, or a number that is not true.

use super::song;
use halfcount::Report;
use halfcount::dance::{Effect, Foot, Move, PartKind, Who};
use halfcount::figures::lexicon;
use halfcount::sheet::{self, Chunk, PartText, SectionText, Sheet, Slots};
use halfcount::text::{Edit, Span};

/// A way to spoil a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Kind {
    FootSwapped,
    CountDropped,
    CountDoubled,
    HalfLost,
    StepForTouch,
    TouchForStep,
    Clock,
    Direction,
    Walls,
    Total,
    RepeatLead,
    RestartMoved,
    TagMoved,
    Facing,
}

impl Kind {
    pub(crate) const ALL: &[Self] = &[
        Self::FootSwapped,
        Self::CountDropped,
        Self::CountDoubled,
        Self::HalfLost,
        Self::StepForTouch,
        Self::TouchForStep,
        Self::Clock,
        Self::Direction,
        Self::Walls,
        Self::Total,
        Self::RepeatLead,
        Self::RestartMoved,
        Self::TagMoved,
        Self::Facing,
    ];

    pub(crate) const fn words(self) -> &'static str {
        match self {
            Self::FootSwapped => "foot swapped",
            Self::CountDropped => "counts left out",
            Self::CountDoubled => "counts given twice",
            Self::HalfLost => "& lost",
            Self::StepForTouch => "step for touch",
            Self::TouchForStep => "touch for step",
            Self::Clock => "clock falsified",
            Self::Direction => "turn the other way",
            Self::Walls => "walls falsified",
            Self::Total => "total falsified",
            Self::RepeatLead => "lead of a repeat",
            Self::RestartMoved => "restart moved",
            Self::TagMoved => "tag moved",
            Self::Facing => "facing falsified",
        }
    }
}

/// One fault at its place.
#[derive(Debug, Clone)]
pub(crate) struct Fault {
    /// What makes it.
    pub edits: Vec<Edit>,
    /// Section from 1; none where the whole dance is meant.
    pub section: Option<u32>,
    /// First and last count in the section; none where no count is meant.
    pub count: Option<(i32, i32)>,
    /// Words are gone that no mend can bring back.
    pub words_lost: bool,
    /// What was changed, for a person.
    pub told: String,
}

struct Ground<'a> {
    text: &'a str,
    report: &'a Report,
    sheet: Sheet,
}

/// All places for one kind of fault in a sound sheet.
pub(crate) fn seeded(kind: Kind, text: &str, report: &Report) -> Vec<Fault> {
    let ground = Ground { text, report, sheet: sheet::parse(text, &lexicon().vocabulary) };
    match kind {
        Kind::FootSwapped => ground.feet(),
        Kind::CountDropped => ground.dropped(),
        Kind::CountDoubled => ground.doubled(),
        Kind::HalfLost => ground.halves(),
        Kind::StepForTouch => ground.touches(),
        Kind::TouchForStep => ground.steps(),
        Kind::Clock => ground.clocks(),
        Kind::Direction => ground.directions(),
        Kind::Walls => ground.number(ground.sheet.head.walls, |n| if n == 4 { 2 } else { 4 }),
        Kind::Total => ground.number(ground.sheet.head.counts, |n| n + 8),
        Kind::RepeatLead => ground.repeats(),
        Kind::RestartMoved => ground.restarts(),
        Kind::TagMoved => song::tags_moved(text, report),
        Kind::Facing => song::facings(text, report),
    }
}

impl Ground<'_> {
    fn fault(&self, span: Span, new: &str, section: Option<u32>, count: Option<(i32, i32)>) -> Fault {
        Fault {
            edits: vec![Edit { span, text: new.to_string() }],
            section,
            count,
            words_lost: false,
            told: format!("\"{}\" to \"{}\"", span.of(self.text).trim(), new.trim()),
        }
    }

    /// Moves of the dance itself whose words stand at one place only, with their section and the move after them.
    fn moves(&self) -> Vec<(u32, &Move, Option<&Move>)> {
        let mut out: Vec<(u32, &Move, Option<&Move>)> = Vec::new();
        let parts = self.report.dance.parts.iter().filter(|p| p.kind == PartKind::Main);
        let sections: Vec<_> = parts.flat_map(|p| &p.sections).collect();
        let all: Vec<(u32, &Move)> =
            (1..).zip(&sections).flat_map(|(n, s)| s.moves.iter().map(move |m| (n, m))).collect();
        for (i, (n, m)) in all.iter().enumerate() {
            let once = all.iter().filter(|(_, o)| o.span == m.span).count() == 1;
            if once && m.span.end > m.span.start && m.figure_named_alone(self.text) {
                out.push((*n, m, all.get(i + 1).map(|(_, m)| *m)));
            }
        }
        out
    }

    fn feet(&self) -> Vec<Fault> {
        let mut out = Vec::new();
        for (section, m, _) in self.moves() {
            let Who::One(foot) = m.who else { continue };
            if m.effect != Effect::Takes {
                continue;
            }
            // The first word of a side, where no other stands beside it: then it is the foot.
            let words = words(self.text, m.span);
            let sides: Vec<&(Span, &str)> = words.iter().filter(|(_, w)| side(w).is_some()).collect();
            let [(span, word)] = sides[..] else { continue };
            // "To the right" is where it goes, whichever foot it is.
            let at = words.iter().position(|(s, _)| s == span).unwrap_or(0);
            let direction = at > 0 && matches!(words[at - 1].1.to_lowercase().as_str(), "to" | "the" | "at");
            let of_foot = words.get(at + 1).is_some_and(|(_, w)| {
                ["foot", "heel", "toe", "ball"].iter().any(|x| w.to_lowercase().starts_with(x))
            });
            let to_side = words.get(at + 1).is_some_and(|(_, w)| w.eq_ignore_ascii_case("side"));
            let turning = words.iter().any(|(_, w)| turns(w));
            if side(word) != Some(foot) || turning || to_side || (direction && !of_foot) {
                continue;
            }
            out.push(self.fault(*span, &swap(word), Some(section), Some(near(m))));
        }
        out
    }

    fn steps(&self) -> Vec<Fault> {
        self.verbs("step", "touch", |m| m.effect == Effect::Takes, false)
    }

    fn touches(&self) -> Vec<Fault> {
        self.verbs("touch", "step", |m| m.effect == Effect::Free, true)
    }

    /// One verb for the other, where the foot that moves next shows that it is wrong.
    fn verbs(&self, from: &str, to: &str, fits: impl Fn(&Move) -> bool, again: bool) -> Vec<Fault> {
        let mut out = Vec::new();
        for (section, m, next) in self.moves() {
            let (Who::One(foot), Some(next)) = (m.who, next) else { continue };
            let Who::One(next_foot) = next.who else { continue };
            if !fits(m) || (next_foot == foot) != again || next.at == m.at {
                continue;
            }
            // A pivot or recover goes with the step before it.
            let plain = matches!(next.action.word(), "step" | "touch" | "heel" | "rock" | "kick" | "point");
            let Some((span, word)) =
                words(self.text, m.span).into_iter().find(|(_, w)| w.eq_ignore_ascii_case(from))
            else {
                continue;
            };
            if plain {
                out.push(self.fault(span, &like(word, to), Some(section), Some(near(m))));
            }
        }
        out
    }

    /// Chunks with counts of the main part, each with its section.
    fn chunks(&self) -> Vec<(u32, &SectionText, &Chunk)> {
        let parts: Vec<&PartText> = self.sheet.parts.iter().filter(|p| p.kind == PartKind::Main).collect();
        let [part] = parts[..] else { return Vec::new() };
        if !part.divided {
            return Vec::new();
        }
        let sections = (1..).zip(&part.sections);
        sections
            .flat_map(|(n, s)| s.chunks.iter().map(move |c| (n, s, c)))
            .filter(|(_, _, c)| matches!(c.slots, Slots::At { .. }) && c.mark.end > c.mark.start)
            .collect()
    }

    /// A whole line with its counts is gone.
    fn dropped(&self) -> Vec<Fault> {
        let mut out = Vec::new();
        for (section, s, c) in self.chunks() {
            let (line, alone) = self.line_of(c.mark, s);
            let last = s.chunks.last().is_some_and(|l| l == c);
            if alone && !last && s.chunks.len() > 1 {
                let mut fault = self.fault(line, "", Some(section), over(&[c]));
                fault.words_lost = true;
                out.push(fault);
            }
        }
        out
    }

    /// The line of a mark, and whether only this mark stands in it.
    fn line_of(&self, mark: Span, s: &SectionText) -> (Span, bool) {
        let at = mark.start as usize;
        let start = self.text[..at].rfind('\n').map_or(0, |n| n + 1);
        let end = self.text[at..].find('\n').map_or(self.text.len(), |n| at + n + 1);
        let line = Span::new(start, end);
        let inside = |c: &&Chunk| c.mark.start >= line.start && c.mark.start < line.end;
        let clock = line.of(self.text).contains(':') || line.of(self.text).contains('9');
        (line, s.chunks.iter().filter(inside).count() == 1 && !clock)
    }

    /// A line has the counts of the line before it.
    fn doubled(&self) -> Vec<Fault> {
        let mut out = Vec::new();
        for pair in self.chunks().windows(2) {
            let ((a, _, x), (b, _, y)) = (pair[0], pair[1]);
            let (Slots::At { ticks: x_at, .. }, Slots::At { ticks: y_at, .. }) = (&x.slots, &y.slots) else {
                continue;
            };
            let (old, new) = (y.mark.of(self.text), x.mark.of(self.text));
            if a == b && x_at.len() == y_at.len() && x_at.last() < y_at.first() && old != new {
                out.push(self.fault(y.mark, new, Some(a), over(&[x, y])));
            }
        }
        out
    }

    /// The & between two counts is gone.
    fn halves(&self) -> Vec<Fault> {
        let mut out = Vec::new();
        for (section, _, c) in self.chunks() {
            let mark = c.mark.of(self.text);
            if mark.matches('&').count() == 1
                && !mark.starts_with('&')
                && !mark.ends_with('&')
                && !mark.contains(';')
            {
                let new = mark.replace(" & ", " ").replace('&', " ");
                out.push(self.fault(c.mark, &new, Some(section), over(&[c])));
            }
        }
        out
    }

    /// Clocks such as 3:00 in the sections of the dance.
    fn clocks(&self) -> Vec<Fault> {
        let mut out = Vec::new();
        let sections = self.sections();
        let mut at = 0;
        while let Some(found) = self.text[at..].find(":00") {
            let end = at + found + 3;
            let start = self.text[..at + found].rfind(|c: char| !c.is_ascii_digit()).map_or(0, |n| n + 1);
            let section = sections.iter().find(|(_, s)| s.start as usize <= start && end <= s.end as usize);
            if let Some((n, _)) = section
                && let Ok(hour) = self.text[start..at + found].parse::<u32>()
            {
                let new = format!("{}:00", (hour + 2) % 12 + 1);
                out.push(self.fault(Span::new(start, end), &new, Some(*n), None));
            }
            at = end;
        }
        out
    }

    /// Where the sections of the dance stand, by the words of their moves.
    fn sections(&self) -> Vec<(u32, Span)> {
        let parts: Vec<&PartText> = self.sheet.parts.iter().filter(|p| p.kind == PartKind::Main).collect();
        let [part] = parts[..] else { return Vec::new() };
        if !part.divided {
            return Vec::new();
        }
        let of = |s: &SectionText| s.tokens.iter().map(|t| t.span).reduce(Span::join);
        (1..).zip(&part.sections).filter_map(|(n, s)| Some((n, of(s)?))).collect()
    }

    /// "Turn left" for "turn right", where a clock or the walls tell.
    fn directions(&self) -> Vec<Fault> {
        let mut out = Vec::new();
        for (section, m, _) in self.moves() {
            if m.turn.0.rem_euclid(24) == 0 {
                continue;
            }
            let words = words(self.text, m.span);
            let sides: Vec<&(Span, &str)> = words.iter().filter(|(_, w)| side(w).is_some()).collect();
            // The side right behind the share of a turn.
            let at = words.iter().position(|(_, w)| turns(w));
            let next = at
                .and_then(|i| words[i + 1..].iter().find(|(_, w)| !turns(w) && !matches!(*w, "to" | "the")));
            let Some((span, word)) = next.filter(|x| sides.contains(x)) else { continue };
            out.push(self.fault(*span, &swap(word), Some(section), Some(near(m))));
        }
        out
    }

    fn number(&self, at: Option<(u32, Span)>, new: impl Fn(u32) -> u32) -> Vec<Fault> {
        let Some((n, span)) = at else { return Vec::new() };
        if span.of(self.text).parse::<u32>() != Ok(n) {
            return Vec::new();
        }
        vec![self.fault(span, &new(n).to_string(), None, None)]
    }

    /// "The same foot" for "the other foot".
    fn repeats(&self) -> Vec<Fault> {
        let mut out = Vec::new();
        let lower = self.text.to_lowercase();
        if lower.len() != self.text.len() {
            return out;
        }
        for (from, to) in [("other foot", "same foot"), ("opposite foot", "same foot")] {
            let mut at = 0;
            while let Some(found) = lower[at..].find(from) {
                let (start, end) = (at + found, at + found + from.len());
                let section = self
                    .sections()
                    .into_iter()
                    .find(|(_, s)| s.start as usize <= start && end <= s.end as usize);
                if let Some((n, _)) = section {
                    out.push(self.fault(Span::new(start, end), to, Some(n), None));
                }
                at = end;
            }
        }
        out
    }

    /// Other counts before a restart, where the weight is then on the wrong foot.
    fn restarts(&self) -> Vec<Fault> {
        let mut out = Vec::new();
        let dance = &self.report.dance;
        for r in &dance.restarts {
            let number = r.after_counts.to_string();
            let words = words(self.text, r.span);
            let counted =
                words.windows(2).find(|w| w[0].1 == number && w[1].1.to_lowercase().starts_with("count"));
            let Some(pair) = counted else { continue };
            for new in (1..r.after_counts).rev().take(8) {
                let mut before = 0;
                let mut weight = dance.start;
                for s in dance.main_sections() {
                    let fits = |m: &&Move| i64::from(m.at.count()) + i64::from(before) <= i64::from(new);
                    if let Some(m) = s.moves.iter().rfind(fits) {
                        weight = m.after;
                    }
                    before += s.counts;
                }
                if weight != dance.start {
                    out.push(self.fault(pair[0].0, &new.to_string(), None, None));
                    break;
                }
            }
        }
        out
    }
}

/// Whether the words of a move say one step only.
trait Alone {
    fn figure_named_alone(&self, text: &str) -> bool;
}

impl Alone for Move {
    fn figure_named_alone(&self, text: &str) -> bool {
        self.span.of(text).len() < 80 && !self.span.of(text).contains('\n')
    }
}

/// The count of a move, or the one next to it, where a wrong foot shows.
fn near(m: &Move) -> (i32, i32) {
    (m.at.count() - 1, m.at.count() + 1)
}

/// The counts of some chunks.
fn over(chunks: &[&Chunk]) -> Option<(i32, i32)> {
    let ticks = chunks.iter().flat_map(|c| match &c.slots {
        Slots::At { ticks, .. } => ticks.as_slice(),
        _ => &[],
    });
    let counts: Vec<i32> = ticks.map(|t| t.count()).collect();
    Some((*counts.iter().min()?, *counts.iter().max()?))
}

fn words(text: &str, span: Span) -> Vec<(Span, &str)> {
    let mut out = Vec::new();
    let (mut from, range) = (None, span.range());
    for i in range.clone() {
        let inside = text.as_bytes()[i].is_ascii_alphanumeric()
            || text.as_bytes()[i] == b'/'
            || !text.as_bytes()[i].is_ascii();
        match (inside, from) {
            (true, None) => from = Some(i),
            (false, Some(start)) => {
                out.push((Span::new(start, i), &text[start..i]));
                from = None;
            }
            _ => {}
        }
    }
    if let Some(start) = from {
        out.push((Span::new(start, range.end), &text[start..range.end]));
    }
    out
}

fn side(word: &str) -> Option<Foot> {
    match word.to_lowercase().as_str() {
        "right" | "r" | "rf" => Some(Foot::Right),
        "left" | "l" | "lf" => Some(Foot::Left),
        _ => None,
    }
}

fn turns(word: &str) -> bool {
    let w = word.to_lowercase();
    w.contains('/')
        || w.contains(['¼', '½', '¾'])
        || matches!(w.as_str(), "quarter" | "half" | "turn" | "turning" | "pivot" | "full" | "eighth")
}

/// The other side, with the same capitals.
fn swap(word: &str) -> String {
    let other = match word.to_lowercase().as_str() {
        "right" => "left",
        "left" => "right",
        "r" => "l",
        "l" => "r",
        "rf" => "lf",
        _ => "rf",
    };
    like(word, other)
}

/// A word with the capitals of another.
fn like(model: &str, word: &str) -> String {
    let upper = |c: char| c.is_uppercase();
    if model.chars().all(|c| upper(c) || !c.is_alphabetic()) {
        word.to_uppercase()
    } else if model.starts_with(upper) {
        word[..1].to_uppercase() + &word[1..]
    } else {
        word.to_string()
    }
}
