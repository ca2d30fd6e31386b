//! Tags, restarts and endings: what is danced, on which walls, after how many counts.

use super::Reading;
use super::build::built;
use super::lattice::search;
use super::meaning::Own;
use super::plan::{runs, stretch};
use super::start::Start;
use super::trouble::{Trouble, TroubleKind};
use crate::dance::{Move, Part, PartKind, Restart, Section, TagUse, Weight};
use crate::floor::Heading;
use crate::order::Ordered as _;
use crate::sheet::{Mention, Sheet, Topic};
use crate::text::Span;
use crate::time::Metre;

/// Tags whose own beginnings are worked out with all tags before them.
const TAGS: usize = 64;

/// Counts of the main part up to and including a section, and up to a place in the text.
fn counts_to(reading: &Reading, section: usize) -> u32 {
    reading.dance.parts.first().map_or(0, |p| p.sections.iter().take(section).map(|s| s.counts).sum())
}

/// After how many counts a mention says that something happens.
pub(super) fn after(reading: &Reading, m: &Mention) -> Option<u32> {
    let total = reading.dance.parts.first().map_or(0, Part::counts);
    if let Some(n) = m.after_counts.filter(|n| *n <= total && *n > 0) {
        // "To count 4 of section 2" counts in that section.
        let within = m.after_section.and_then(|s| s.checked_sub(1)).map(|s| s as usize);
        let own = within.and_then(|s| reading.dance.parts.first()?.sections.get(s).map(|s| s.counts));
        return Some(match (within, own) {
            (Some(s), Some(own)) if n <= own => counts_to(reading, s) + n,
            _ => n,
        });
    }
    if let Some(s) = m.after_section {
        return Some(counts_to(reading, s as usize));
    }
    None
}

/// After how many counts the place in the text stands.
fn placed(reading: &Reading, sheet: &Sheet, m: &Mention) -> Option<u32> {
    let (part, section, last) = m.placed?;
    if part != 0 {
        return None;
    }
    let text = sheet.parts.first()?.sections.get(section)?;
    if !sheet.parts[0].divided {
        return u32::try_from(last).ok().filter(|n| *n > 0);
    }
    let before = counts_to(reading, section);
    let local = u32::try_from(last - text.base).ok()?;
    let own = reading.dance.parts.first()?.sections.get(section)?.counts;
    Some(before + if last <= 0 { own } else { local.min(own) })
}

/// Reads tags, restarts and endings, and plays the song through.
pub(super) fn extras(text: &str, sheet: &Sheet, metre: Metre, own: &[Own], reading: &mut Reading) {
    restarts(text, sheet, reading);
    for i in 0..reading.dance.restarts.len() {
        let (wall, after) = (reading.dance.restarts[i].wall, reading.dance.restarts[i].after_counts);
        let said = sheet.mentions.iter().filter(|m| m.topic == Topic::Restart && m.walls.contains(&wall));
        let changed =
            said.filter_map(|m| super::changes::changed(text, &m.tokens, after, metre, own, reading)).last();
        let restart = &mut reading.dance.restarts[i];
        restart.after_counts = changed.as_ref().map_or(after, |c| c.1);
        restart.changed = changed.map(|c| c.0);
        // "Dance to count 16 (brush R)" only says what is danced there anyway.
        let same = restart.changed.as_ref().is_some_and(|c| {
            reading.dance.parts.first().is_some_and(|p| p.sections.iter().any(|s| danced_alike(s, c)))
        });
        if same && restart.after_counts == after {
            restart.changed = None;
        }
    }
    differing(reading, sheet);
    reading.dance.runs = runs(&reading.dance);
    tags(text, sheet, metre, own, reading);
    reading.dance.runs = runs(&reading.dance);
}

/// Whether two sections have the same steps.
fn danced_alike(a: &Section, b: &Section) -> bool {
    let step = |m: &Move| (m.at, m.who, m.action, m.place, m.after, m.turn);
    a.moves.len() == b.moves.len() && a.moves.iter().zip(&b.moves).all(|(a, b)| step(a) == step(b))
}

/// The last section whose heading a mention names in so many words: "we only do BOIL IT and POUR IT".
fn named(text: &str, reading: &Reading, m: &Mention) -> Option<u32> {
    let words = |s: &str| -> Vec<String> {
        let plain = s.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty());
        plain.map(str::to_lowercase).collect()
    };
    let said = words(m.span.of(text));
    let sections = &reading.dance.parts.first()?.sections;
    let names = |name: &str| {
        let name = words(name);
        let long = name.iter().map(String::len).sum::<usize>() >= 5 && name.len() <= 4;
        long && said.windows(name.len()).any(|w| w == name)
    };
    let last = sections.iter().rposition(|s| names(&s.name))?;
    u32::try_from(last + 1).ok().filter(|n| (*n as usize) < sections.len())
}

fn facing_of(m: &Mention, k: usize, n: usize) -> Option<(Heading, Span)> {
    // With several walls and as many facings each has its own; one facing is for all.
    if m.facings.len() == n {
        m.facings.get(k).copied()
    } else if n == 1 {
        m.facings.last().copied()
    } else if m.facings.len() == 1 {
        m.facings.first().copied()
    } else {
        None
    }
}

fn restarts(text: &str, sheet: &Sheet, reading: &mut Reading) {
    let all: Vec<&Mention> = sheet.mentions.iter().filter(|m| m.topic == Topic::Restart).collect();
    let marks: Vec<u32> = all.iter().filter_map(|m| placed_in_body(reading, sheet, m)).collect();
    for m in &all {
        for (k, wall) in m.walls.iter().enumerate() {
            let here = placed_in_body(reading, sheet, m);
            let known = here.is_some() && m.after_counts.is_none() || m.after_section.is_some();
            let name = if known { None } else { named(text, reading, m) };
            let counts = match name {
                Some(_) => after(reading, &Mention { after_section: name, ..(*m).clone() }),
                None => after(reading, m),
            };
            let found = reading.dance.restarts.iter().position(|r| r.wall == *wall);
            let stated = facing_of(m, k, m.walls.len());
            if let Some(i) = found {
                let r = &mut reading.dance.restarts[i];
                if r.after_counts == 0 {
                    r.after_counts = counts.or(here).unwrap_or(0);
                }
                if r.stated.is_none() {
                    r.stated = stated;
                }
                if counts.is_some() && stated.is_some() {
                    r.span = m.span;
                }
                continue;
            }
            reading.dance.restarts.push(Restart {
                wall: *wall,
                after_counts: counts.or(here).unwrap_or(0),
                changed: None,
                stated,
                span: m.span,
            });
        }
    }
    let total = reading.dance.parts.first().map_or(0, Part::counts);
    for r in &mut reading.dance.restarts {
        if r.after_counts == 0 {
            r.after_counts = marks.first().copied().unwrap_or(0);
        }
    }
    reading.dance.restarts.retain(|r| r.after_counts > 0 && r.after_counts < total && r.wall <= 64);
    reading.dance.restarts.in_order_by_key(|r| r.wall);
}

/// Restarts that stand at one place of the sheet and are said to come after other counts at another.
fn differing(reading: &mut Reading, sheet: &Sheet) {
    let all: Vec<&Mention> = sheet.mentions.iter().filter(|m| m.topic == Topic::Restart).collect();
    let mut found = Vec::new();
    let total = reading.dance.parts.first().map_or(0, Part::counts);
    let size = reading.dance.head.metre.section();
    for m in &all {
        let (Some(said), Some(wall)) = (m.after_counts, m.walls.first()) else { continue };
        // "Sections 1 and 2, then from count 1 again" counts in a section.
        let own = after(reading, m).unwrap_or(said);
        // "32 counts, 2 walls, restart on wall 3" counts the dance, "change counts 7-8" a section.
        if own != said || said >= total {
            continue;
        }
        let of_section = |n: u32| said <= size && n > size;
        let section = m.after_section.map(|n| counts_to(reading, n as usize));
        // "After 24 counts (sections 1 to 3)" says it twice in one breath.
        // "The first two sections and the third as far as count 6: 24 counts" goes on behind its sections.
        let goes_on = |n: u32| n < said && said - n <= size;
        let twice = section.filter(|n| *n != said && !goes_on(*n)).map(|n| (n, m.span));
        let elsewhere = || {
            let others = all.iter().filter(|o| o.span != m.span && o.walls.contains(wall));
            others.into_iter().find_map(|o| {
                let n = match (o.after_counts, o.after_section) {
                    (None, None) => placed_in_body(reading, sheet, o),
                    _ => after(reading, o),
                };
                n.filter(|n| *n != own && *n > 0).map(|n| (n, o.span))
            })
        };
        // "Dance 14, then 7 touch, 8 hold" comes to the 16 counts behind which the mark stands.
        let restart = reading.dance.restarts.iter().find(|r| r.wall == *wall);
        let danced = restart.filter(|r| r.changed.is_some()).map(|r| r.after_counts);
        if let Some((other, span)) = twice.or_else(elsewhere)
            && danced != Some(other)
            && m.walls.len() == 1
            && !of_section(other)
        {
            let kind = TroubleKind::Restart { wall: *wall, said, other, elsewhere: span };
            found.push(Trouble { kind, span: m.span, part: 0, section: 0, at: None });
        }
    }
    reading.troubles.extend(found);
}

/// The place of a mark between the step lines; words at the foot of the sheet are no mark.
fn placed_in_body(reading: &Reading, sheet: &Sheet, m: &Mention) -> Option<u32> {
    let n = placed(reading, sheet, m)?;
    let total = reading.dance.parts.first().map_or(0, Part::counts);
    (n < total).then_some(n)
}

fn tags(text: &str, sheet: &Sheet, metre: Metre, own: &[Own], reading: &mut Reading) {
    let loose: Vec<&Mention> = sheet
        .mentions
        .iter()
        .filter(|m| m.topic == Topic::Tag && !sheet.parts.iter().any(|p| p.mention.as_ref() == Some(*m)))
        .collect();
    let total = reading.dance.parts.first().map_or(0, Part::counts);
    let parts: Vec<_> = sheet.parts.iter().filter(|p| p.kind == PartKind::Tag).collect();
    for part in &parts {
        let Some(m) = &part.mention else { continue };
        let index = reading.dance.parts.len();
        let mut walls = m.walls.clone();
        let mut at = after(reading, m).filter(|n| *n < total);
        let mut then_restart = m.then_restart;
        for l in &loose {
            let same = parts.len() == 1 || l.number.is_none() || l.number == m.number;
            if same {
                if m.walls.is_empty() {
                    for wall in &l.walls {
                        if !walls.contains(wall) {
                            walls.push(*wall);
                        }
                    }
                }
                if at.is_none() {
                    at = after(reading, l)
                        .filter(|n| *n < total)
                        .or_else(|| placed_in_body(reading, sheet, l));
                }
                then_restart |= l.then_restart;
            }
        }
        // "The first time at the back" counts the tags, not the parts of the song before them.
        let told = in_sequence(sheet, &part.name);
        if !told.is_empty() {
            walls = told;
        }
        if walls.is_empty() {
            walls.push(1);
        }
        let first = walls.iter().copied().min().unwrap_or(1);
        let (facing, weight) = reached(reading, first, at);
        let stated = facing_of(m, walls.iter().position(|w| *w == first).unwrap_or(0), walls.len());
        let weights = vec![(weight, 0), (other(weight), 30), (Weight::Both, 45)];
        let facing = stated.map_or(facing, |(h, _)| h);
        let mut start = Start { expected: m.length, ..Start::beside(weights, facing, metre) };
        let (troubles, labels) = (reading.troubles.len(), reading.labels.len());
        let mut look = |start: &Start| {
            let way = search(text, &part.sections, start, own);
            reading.troubles.truncate(troubles);
            reading.labels.truncate(labels);
            built(text, &part.sections, &way, start, index, own, reading).0
        };
        let mut sections = look(&start);
        // A tag in a waltz has whole bars: what is slow in it fills them.
        let counts: u32 = sections.iter().map(|s| s.counts).sum();
        if metre == Metre::Three
            && start.expected.is_none()
            && !counts.is_multiple_of(3)
            && sections.len() == 1
        {
            start.expected = Some(counts.next_multiple_of(3));
            sections = look(&start);
        }
        reading.dance.parts.push(Part { name: part.name.clone(), kind: PartKind::Tag, sections });
        for wall in &walls {
            if let (true, Some(at)) = (then_restart, at)
                && !reading.dance.restarts.iter().any(|r| r.wall == *wall)
            {
                // A tag in the middle with a restart behind it breaks the repetition off there.
                reading.dance.restarts.push(Restart {
                    wall: *wall,
                    after_counts: at,
                    changed: None,
                    stated: None,
                    span: m.span,
                });
            }
        }
        reading.dance.restarts.in_order_by_key(|r| r.wall);
        for (k, wall) in walls.iter().enumerate() {
            reading.dance.tags.push(TagUse {
                part: index,
                wall: *wall,
                after_counts: at,
                then_restart: then_restart && at.is_some(),
                stated: facing_of(m, k, walls.len()),
                span: m.span,
            });
        }
        reading.dance.tags.in_order_by_key(|t| t.wall);
        // A song has a few tags; where a text has hundreds, the later ones begin as if the earlier were not there.
        if reading.dance.tags.len() <= TAGS {
            reading.dance.runs = runs(&reading.dance);
        }
    }
}

/// Behind which parts of the song's order a tag stands: "A A B, Tag, A".
fn in_sequence(sheet: &Sheet, name: &str) -> Vec<u32> {
    let tag = |s: &str| s == name || s == "tag";
    let mut before = 0;
    let mut out = Vec::new();
    for s in &sheet.sequence {
        if tag(s) {
            out.push(before);
        } else if sheet.parts.iter().any(|p| p.kind == PartKind::Main && p.name == *s) {
            before += 1;
        }
    }
    out.retain(|n| *n > 0);
    out
}

pub(super) fn other(w: Weight) -> Weight {
    match w {
        Weight::On(f) => Weight::On(f.other()),
        Weight::Both => Weight::On(crate::dance::Foot::Left),
    }
}

/// Facing and weight at the end of a repetition, or after so many counts of it.
pub(super) fn reached(reading: &Reading, wall: u32, at: Option<u32>) -> (Heading, Weight) {
    let dance = &reading.dance;
    let Some(run) = dance.runs.iter().rfind(|r| r.wall == wall && r.tag.is_none()) else {
        return (Heading::FRONT, dance.start);
    };
    match at {
        Some(n) => {
            let first = dance.runs.iter().find(|r| r.wall == wall && r.tag.is_none()).unwrap_or(run);
            let (turn, weight) = stretch(&dance.parts[first.part].sections, None, 0, n, first.weight);
            (first.facing.turned(turn), weight)
        }
        None => (run.facing_end, run.weight_end),
    }
}
