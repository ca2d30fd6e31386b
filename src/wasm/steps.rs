//! The moves of a dance in the order in which they are danced, each with its place in the text: what a page
//! needs to tie the words of a sheet to the feet on the floor.
//!
//! Times are ticks of the same song that `frames` plays for the same number of walls, so that a step and the
//! row of its tick belong together.

use serde::Serialize;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

use super::given::{self, Given};
use super::units::Units;
use super::{file, plain, report};
use crate::Report;
use crate::call::{self, CallKind, CallOptions};
use crate::dance::{Action, Dance, FigureUse, Foot, Move, PartKind, Section, Who};
use crate::draw;
use crate::figures::{Lexicon, lexicon};
use crate::floor::{Heading, Turn};
use crate::motion::{Motion, Stretch, simulate};

#[derive(Serialize)]
struct Walked<'a> {
    file: &'a str,
    title: &'a str,
    author: &'a str,
    music: &'a str,
    level: &'a str,
    counts: u32,
    walls: u32,
    beats_per_bar: u32,
    tempo: Option<u32>,
    intro: Option<u32>,
    start_foot: Option<&'static str>,
    foot_length: f64,
    foot_breadth: f64,
    ball_share: f64,
    total: u32,
    stretches: Vec<Stretched<'a>>,
    steps: Vec<Stepped>,
    runs: Vec<Ran<'a>>,
    calls: Vec<Called>,
}

#[derive(Serialize)]
struct Stretched<'a> {
    wall: u32,
    part: &'a str,
    kind: &'static str,
    section: u32,
    name: &'a str,
    before: u32,
    skipped: u32,
    counts: u32,
    facing: String,
    facing_end: String,
    changed: bool,
    start: u32,
    end: u32,
    figures: Vec<Named<'a>>,
}

#[derive(Serialize)]
#[expect(clippy::struct_field_names, reason = "the names of the package")]
struct Named<'a> {
    name: &'a str,
    lead: Option<&'static str>,
    turn: String,
    calls: &'static str,
    level: &'static str,
    named: bool,
    start: u32,
    end: u32,
}

#[derive(Serialize)]
struct Stepped {
    tick: i32,
    begins: i32,
    stretch: usize,
    count: String,
    who: &'static str,
    action: &'static str,
    place: &'static str,
    reach: &'static str,
    turn: String,
    turn_degrees: f64,
    facing: String,
    effect: char,
    before: &'static str,
    after: &'static str,
    broken: bool,
    figure: Option<u16>,
    start: u32,
    end: u32,
    words: String,
    said: String,
    weight: &'static str,
    sentence: String,
}

#[derive(Serialize)]
struct Called {
    starts: i32,
    lands: i32,
    words: String,
    kind: &'static str,
}

#[derive(Serialize)]
struct Ran<'a> {
    wall: u32,
    part: &'a str,
    kind: &'static str,
    from: u32,
    to: u32,
    counts: u32,
    restart: bool,
    facing: String,
    facing_end: String,
}

const fn kind(kind: PartKind) -> &'static str {
    match kind {
        PartKind::Main => "main",
        PartKind::Tag => "tag",
        PartKind::Ending => "ending",
    }
}

/// A heading that may have gone round several times.
fn heading(units: f64) -> Heading {
    #[allow(clippy::cast_possible_truncation, reason = "a dance turns far less than an i32 holds")]
    Heading::new(units.round().clamp(-1e9, 1e9) as i32)
}

fn words(turn: Turn) -> String {
    if turn == Turn::NONE { String::new() } else { turn.to_string() }
}

/// The section that a stretch dances.
fn section<'d>(report: &'d Report, stretch: &Stretch) -> Option<&'d Section> {
    let dance = &report.dance;
    let changed = stretch.changed.and_then(|r| dance.restarts.get(r)).and_then(|r| r.changed.as_ref());
    changed.or_else(|| dance.parts.get(stretch.part).and_then(|p| p.sections.get(stretch.section)))
}

fn named<'a>(used: &'a FigureUse, lexicon: &Lexicon, units: &Units<'_>) -> Named<'a> {
    let known = lexicon.find(&used.name);
    Named {
        name: &used.name,
        lead: used.lead.map(Foot::word),
        turn: words(used.turn),
        calls: known.map_or("", |(_, f)| f.call),
        level: known.map_or("", |(_, f)| f.level),
        named: used.named,
        start: units.at(used.span.start),
        end: units.at(used.span.end),
    }
}

fn stepped(what: &Move, moment: &crate::motion::Moment, units: &Units<'_>) -> Stepped {
    let told = draw::told(what, moment.stance.facing);
    Stepped {
        sentence: draw::sentence(&told, what.at),
        tick: moment.tick.0,
        begins: moment.begins.0,
        stretch: moment.stretch,
        count: what.at.to_string(),
        who: match what.who {
            Who::One(foot) => foot.letter(),
            Who::Both => "B",
            Who::Nobody => "",
        },
        action: Action::word(what.action),
        place: what.place.word(),
        reach: match what.reach {
            crate::dance::Reach::Small => "small",
            crate::dance::Reach::Usual => "",
            crate::dance::Reach::Long => "long",
        },
        turn: words(what.turn),
        turn_degrees: f64::from(what.turn.0) * 7.5,
        facing: heading(moment.stance.facing).to_string(),
        effect: what.effect.sign(),
        before: what.before.letter(),
        after: what.after.letter(),
        broken: what.broken.is_some(),
        figure: what.figure,
        start: units.at(what.span.start),
        end: units.at(what.span.end),
        words: told.words,
        said: told.said,
        weight: told.weight,
    }
}

/// What the teacher says, in ticks of the dance instead of the music: count 1 is tick 24.
fn called(dance: &Dance, total: u32) -> Vec<Called> {
    let song = call::song(dance, &CallOptions::default());
    let shift = i32::try_from(song.intro).unwrap_or(0) * 24 - 24;
    let last = i32::try_from(total).unwrap_or(i32::MAX / 24) * 24;
    let kind = |kind| match kind {
        CallKind::Warning => "warning",
        CallKind::Figure => "figure",
        CallKind::Step => "step",
        CallKind::Count => "count",
    };
    call::calls(dance, &song)
        .into_iter()
        .filter(|c| c.stretch.is_some())
        .map(|c| Called {
            starts: c.start.0 - shift,
            lands: c.lands.0 - shift,
            words: c.words,
            kind: kind(c.kind),
        })
        .filter(|c| c.starts <= last)
        .collect()
}

fn walked<'a>(report: &'a Report, motion: &'a Motion, text: &str, file: &'a str) -> Walked<'a> {
    let (dance, units, lexicon) = (&report.dance, Units::new(text), lexicon());
    let facing_at = |count: u32| heading(motion.at(f64::from(count) * 24.0 + 12.0).facing).to_string();
    let stretches = motion.stretches.iter().map(|s| {
        let danced = section(report, s);
        Stretched {
            wall: s.wall,
            part: &s.name,
            kind: dance.parts.get(s.part).map_or("main", |p| kind(p.kind)),
            section: u32::try_from(s.section + 1).unwrap_or(u32::MAX),
            name: danced.map_or("", |d| d.name.as_str()),
            before: s.before,
            skipped: s.skipped,
            counts: s.counts,
            facing: heading(f64::from(s.facing)).to_string(),
            facing_end: facing_at(s.before + s.counts),
            changed: s.changed.is_some(),
            start: danced.map_or(0, |d| units.at(d.span.start)),
            end: danced.map_or(0, |d| units.at(d.span.end)),
            figures: danced
                .map_or(Vec::new(), |d| d.figures.iter().map(|f| named(f, lexicon, &units)).collect()),
        }
    });
    let steps = motion.moments.iter().filter_map(|moment| {
        let stretch = motion.stretches.get(moment.stretch)?;
        Some(stepped(stretch.moves(dance).get(moment.index)?, moment, &units))
    });
    let runs = dance.runs.iter().map(|run| {
        let part = dance.parts.get(run.part);
        Ran {
            wall: run.wall,
            part: part.map_or("", |p| p.name.as_str()),
            kind: part.map_or("main", |p| kind(p.kind)),
            from: run.from,
            to: run.to,
            counts: run.to.saturating_sub(run.from),
            restart: run.restart.is_some(),
            facing: run.facing.to_string(),
            facing_end: run.facing_end.to_string(),
        }
    });
    let head = &dance.head;
    Walked {
        file,
        title: &head.title,
        author: &head.author,
        music: &head.music,
        level: &head.level,
        counts: head.counts,
        walls: head.walls,
        beats_per_bar: head.metre.beats(),
        tempo: head.tempo,
        intro: head.intro,
        start_foot: head.start_foot.map(Foot::letter),
        foot_length: motion.body.foot_length,
        foot_breadth: motion.body.foot_breadth,
        ball_share: motion.body.ball_share,
        total: motion.counts,
        stretches: stretches.collect(),
        steps: steps.collect(),
        runs: runs.collect(),
        calls: called(dance, motion.counts),
    }
}

/// The moves in the order of the song, with the sections and figures they belong to.
#[wasm_bindgen(skip_typescript)]
#[allow(unreachable_pub, reason = "JavaScript reaches it")]
pub fn steps(text: &JsValue, options: &JsValue) -> Result<JsValue, JsValue> {
    let text = given::text(text)?;
    let given = Given::read(options, &["file", "walls", "body"])?;
    let file = file(&given)?;
    let walls = given.number("walls", |n| (1..=64).contains(&n), "a whole number from 1 to 64")?;
    let report = report(&text, &given)?;
    let motion = simulate(&report.dance, &report.body, walls.unwrap_or(1));
    Ok(plain(&walked(&report, &motion, &text, &file))?)
}
