//! The fixed JSON form of a reading: its own types, filled from ours, so that a change inside never moves it.
//!
//! A report enters, an object whose fields stand in the published order leaves. What the fields mean is said
//! once, at the fields; drawing and difficulty are unknown here.

use crate::body::Body;
use crate::check::{Fix, Unread};
use crate::dance::{Dance, Effect, FigureUse, Move, Part, PartKind, Section, TagUse, Weight, Who};
use crate::motion::{floor_need, simulate, simulate_song};
use crate::order::Ordered as _;
use crate::report::Report;
use crate::text::LineIndex;
use crate::time::Ticks;

macro_rules! contract {
    ($($(#[$meta:meta])* struct $name:ident { $($(#[$field_meta:meta])* $field:ident: $type:ty,)* })*) => {$(
        $(#[$meta])*
        #[derive(Debug, Clone, PartialEq, Eq)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize))]
        #[non_exhaustive]
        pub struct $name { $($(#[$field_meta])* pub $field: $type,)* }
    )*};
}

contract! {
    /// All that is said about one sheet.
    struct Trace {
        /// The sheet's name as given.
        file: String,
        /// Title as written.
        title: String,
        /// Counts of one repetition.
        counts: u32,
        /// Walls.
        walls: u32,
        /// Level in lower case.
        level: String,
        /// The foot that acts first, `R` or `L`; none where no foot acts at all.
        start_foot: Option<&'static str>,
        /// Beats in a bar.
        beats_per_bar: u32,
        /// Sections of one repetition in order.
        sections: Vec<SectionTrace>,
        /// Tags in order of the song, one entry a wall.
        tags: Vec<TagTrace>,
        /// Restarts in order of the song.
        restarts: Vec<RestartTrace>,
        /// Figures in order, by name, leading foot and turn.
        figures: Vec<String>,
        /// Findings in order of their place in the text.
        findings: Vec<FindingTrace>,
        /// Words of step lines that were not understood.
        unread: Vec<UnreadTrace>,
        /// The floor that the dance needs.
        floor: FloorTrace,
    }

    /// A section of the dance.
    struct SectionTrace {
        /// Its counts.
        counts: u32,
        /// Its count positions: `1R 2L 3- &R 4L`.
        trace: String,
        /// Clock at its end in the first repetition.
        facing_end: String,
        /// Weight at its end: `R`, `L` or `B`.
        weight_end: &'static str,
    }

    /// A tag at its place in the song.
    struct TagTrace {
        /// The repetition after which, or inside which, it is danced.
        after_wall: u32,
        /// Its counts.
        counts: u32,
        /// Its count positions.
        trace: String,
        /// Clock in the room when it starts.
        facing: Option<String>,
        /// Clock in the room when it ends.
        facing_end: Option<String>,
        /// Weight when it ends.
        weight_end: Option<&'static str>,
    }

    /// A repetition that is broken off.
    struct RestartTrace {
        /// The repetition.
        wall: u32,
        /// Counts danced before the dance starts again.
        after_counts: u32,
        /// Clock in the room when the dance starts again.
        facing: Option<String>,
        /// The last section as then danced, where the restart changes its steps.
        #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
        changed_trace: Option<String>,
    }

    /// Something about the sheet that a dancer should know.
    struct FindingTrace {
        /// The rule's name.
        rule: &'static str,
        /// `error`, `warning` or `note`.
        severity: &'static str,
        /// `main`, or the name of the tag or ending.
        part: String,
        /// Section from 1.
        section: Option<u32>,
        /// Count within the section, the number written out: `3&`.
        count: Option<String>,
        /// Line from 1.
        line: u32,
        /// Column from 1, in characters.
        column: u32,
        /// First byte.
        start: u32,
        /// One past the last byte.
        end: u32,
        /// A sentence for a dance teacher.
        message: String,
        /// Mends, the cheapest first.
        fixes: Vec<FixTrace>,
    }

    /// A proven mend.
    struct FixTrace {
        /// What it does.
        title: String,
        /// `sure` or `choice`.
        sureness: &'static str,
        /// Edits, sorted and apart from each other.
        edits: Vec<EditTrace>,
    }

    /// One change of the text.
    struct EditTrace {
        /// First byte replaced.
        start: u32,
        /// One past the last byte replaced.
        end: u32,
        /// The new words.
        text: String,
    }

    /// The floor that a dance needs, in centimetres, seen by a dancer who faces 12:00: a body of 1.70 m with steps
    /// of usual lengths.
    struct FloorTrace {
        /// From left to right, one repetition with feet and shoulders.
        width_cm: i32,
        /// From back to front.
        depth_cm: i32,
        /// How far one repetition moves the dancer to the right, negative to the left.
        right_cm: i32,
        /// How far one repetition moves the dancer forward, negative back.
        forward_cm: i32,
        /// The same for the song, with its walls, tags and restarts.
        song_right_cm: i32,
        /// The same for the song.
        song_forward_cm: i32,
        /// How far from the start the dancer ever gets in the song.
        farthest_cm: i32,
        /// Repetitions of the song.
        song_walls: u32,
        /// Neighbours whose centres are nearer meet, even in unison.
        beside_cm: i32,
        /// The same for rows.
        behind_cm: i32,
    }

    /// Words that were not understood.
    struct UnreadTrace {
        /// Line from 1.
        line: u32,
        /// Column from 1, in characters.
        column: u32,
        /// The words.
        text: String,
    }
}

/// The fixed form of a report about `text`, which came from `file`.
#[must_use]
pub fn trace(report: &Report, text: &str, file: &str) -> Trace {
    let dance = &report.dance;
    Trace {
        file: file.to_owned(),
        title: dance.head.title.clone(),
        counts: dance.head.counts,
        walls: dance.head.walls,
        level: dance.head.level.clone(),
        start_foot: dance.head.start_foot.map(crate::dance::Foot::letter),
        beats_per_bar: dance.head.metre.beats(),
        sections: dance.main_sections().map(section).collect(),
        tags: tags(dance),
        restarts: restarts(dance),
        figures: dance.main_sections().flat_map(|s| &s.figures).map(figure).collect(),
        findings: findings(report, text),
        unread: unread(&report.unread, text),
        floor: floor(dance, &report.body),
    }
}

fn floor(dance: &Dance, body: &Body) -> FloorTrace {
    let need = floor_need(dance, &simulate(dance, body, 1), &simulate_song(dance, body));
    #[allow(
        clippy::cast_possible_truncation,
        reason = "a megabyte of steps stays within an i32 of centimetres"
    )]
    let cm = |metres: f64| (metres * 100.0).round() as i32;
    FloorTrace {
        width_cm: cm(need.high.x - need.low.x),
        depth_cm: cm(need.high.y - need.low.y),
        right_cm: cm(need.travel.x),
        forward_cm: cm(need.travel.y),
        song_right_cm: cm(need.drift.x),
        song_forward_cm: cm(need.drift.y),
        farthest_cm: cm(need.farthest),
        song_walls: need.walls,
        beside_cm: cm(need.beside),
        behind_cm: cm(need.behind),
    }
}

/// The findings of a report in the fixed form.
#[must_use]
pub fn findings(report: &Report, text: &str) -> Vec<FindingTrace> {
    let lines = LineIndex::new(text);
    let one = |f: &crate::check::Finding| {
        let (line, column) = lines.place(text, f.span.start);
        FindingTrace {
            rule: f.rule,
            severity: f.severity.word(),
            part: f.part.clone(),
            section: f.section,
            count: f.at.map(|at| at.to_string()),
            line,
            column,
            start: f.span.start,
            end: f.span.end,
            message: f.message.clone(),
            fixes: f.fixes.iter().map(fix).collect(),
        }
    };
    report.findings.iter().map(one).collect()
}

/// Words that were not understood, in the fixed form.
#[must_use]
pub fn unread(unread: &[Unread], text: &str) -> Vec<UnreadTrace> {
    let lines = LineIndex::new(text);
    let one = |u: &Unread| {
        let (line, column) = lines.place(text, u.span.start);
        UnreadTrace { line, column, text: u.span.of(text).to_owned() }
    };
    unread.iter().map(one).collect()
}

/// The count positions of some moves within so many counts: `1R 2L 3- &R 4L`.
///
/// What takes weight wins over everything else at its position; two feet that both take it there give two
/// entries, and a weight shared at last gives one; a whole count without anything is written `-`.
#[must_use]
pub fn positions(moves: &[Move], counts: u32) -> String {
    write_positions(moves.iter().map(|m| (m.at, m)), counts)
}

fn write_positions<'a>(moves: impl Iterator<Item = (Ticks, &'a Move)>, counts: u32) -> String {
    // A position is a count and its sign, so thirds and quarters that are written alike fall together.
    let mut entries: Vec<(i32, u8, &'static str, Option<&'static str>)> = moves
        .map(|(at, m)| (at.count(), rank(at.sign()), at.sign(), letter(m)))
        .chain((1..=i32::try_from(counts).unwrap_or(0)).map(|count| (count, 0, "", None)))
        .collect();
    entries.in_order_by_key(|e| (e.0, e.1));
    let mut out = String::with_capacity(entries.len() * 3);
    for same in entries.chunk_by(|a, b| (a.0, a.1) == (b.0, b.1)) {
        let (count, _, sign, _) = same[0];
        let mut letters: Vec<&str> = same.iter().filter_map(|e| e.3).collect();
        if letters.is_empty() {
            letters.push("-");
        }
        // A step with a bump of the hips on its moment shares the weight.
        if letters.len() > 1 && letters.last() == Some(&Weight::Both.letter()) {
            letters = vec![Weight::Both.letter()];
        }
        for letter in letters {
            if !out.is_empty() {
                out.push(' ');
            }
            if sign.is_empty() {
                out.push_str(&count.to_string());
            } else {
                out.push_str(sign);
            }
            out.push_str(letter);
        }
    }
    out
}

fn rank(sign: &str) -> u8 {
    match sign {
        "" => 0,
        "e" => 1,
        "&" => 2,
        _ => 3,
    }
}

fn letter(m: &Move) -> Option<&'static str> {
    match (m.effect, m.who) {
        (Effect::Takes, Who::One(foot)) => Some(foot.letter()),
        (Effect::Takes, _) => Some(m.after.letter()),
        (Effect::Shares, _) => Some(Weight::Both.letter()),
        _ => None,
    }
}

fn section(section: &Section) -> SectionTrace {
    SectionTrace {
        counts: section.counts,
        trace: positions(&section.moves, section.counts),
        facing_end: section.facing_end.to_string(),
        weight_end: section.weight_end.letter(),
    }
}

/// A part's positions as if all its sections were one.
fn part(part: &Part) -> String {
    let mut before = 0;
    let mut all = Vec::new();
    for section in &part.sections {
        let shift = Ticks::of_count(before);
        all.extend(section.moves.iter().map(|m| (m.at + shift, m)));
        before = before.saturating_add(i32::try_from(section.counts).unwrap_or(i32::MAX));
    }
    write_positions(all.into_iter(), part.counts())
}

fn tags(dance: &Dance) -> Vec<TagTrace> {
    let one = |(index, tag): (usize, &TagUse)| {
        let danced = dance.parts.get(tag.part).filter(|p| p.kind == PartKind::Tag)?;
        let run = dance.runs.iter().find(|r| r.tag == Some(index));
        Some(TagTrace {
            after_wall: tag.wall,
            counts: danced.counts(),
            trace: part(danced),
            facing: run.map(|r| r.facing.to_string()),
            facing_end: run.map(|r| r.facing_end.to_string()),
            weight_end: run.map(|r| r.weight_end.letter()),
        })
    };
    dance.tags.iter().enumerate().filter_map(one).collect()
}

fn restarts(dance: &Dance) -> Vec<RestartTrace> {
    let one = |(index, restart): (usize, &crate::dance::Restart)| {
        let broken_off = dance.runs.iter().position(|r| r.restart == Some(index));
        // A tag may stand between the break and the new beginning.
        let again = broken_off.and_then(|at| {
            let next = dance.runs[at + 1..].iter().find(|r| r.tag.is_none());
            next.map(|r| r.facing).or(Some(dance.runs[at].facing_end))
        });
        RestartTrace {
            wall: restart.wall,
            after_counts: restart.after_counts,
            facing: again.map(|f| f.to_string()),
            changed_trace: restart.changed.as_ref().map(|s| positions(&s.moves, s.counts)),
        }
    };
    dance.restarts.iter().enumerate().map(one).collect()
}

fn figure(figure: &FigureUse) -> String {
    let mut name = figure.name.clone();
    if let Some(lead) = figure.lead {
        name.push(' ');
        name.push_str(lead.word());
    }
    let turn = figure.turn.to_string();
    if let Some((size, side)) = turn.rsplit_once(' ') {
        name.push(' ');
        name.push_str(size);
        name.push_str(if side == "R" { " right" } else { " left" });
    }
    name
}

fn fix(fix: &Fix) -> FixTrace {
    let edits = fix.edits.iter();
    FixTrace {
        title: fix.title.clone(),
        sureness: fix.sureness.word(),
        edits: edits
            .map(|e| EditTrace { start: e.span.start, end: e.span.end, text: e.text.clone() })
            .collect(),
    }
}

#[cfg(test)]
mod tests;
