//! The song: which part is danced on which wall, how far, facing where.

use crate::dance::{Dance, PartKind, Run, Section, Weight};
use crate::floor::{Heading, Turn};
use crate::order::Ordered as _;
use crate::time::Ticks;

/// Repetitions that are always played through.
const REPETITIONS: u32 = 8;

/// Turn and weight after a stretch of a part: counts `from` (from 0) to `to`.
pub(super) fn stretch(
    sections: &[Section],
    changed: Option<&Section>,
    from: u32,
    to: u32,
    weight: Weight,
) -> (Turn, Weight) {
    let mut before = 0;
    let mut turn = Turn::NONE;
    let mut w = weight;
    for (i, s) in sections.iter().enumerate() {
        let end = before + s.counts;
        let last = end >= to || i + 1 == sections.len();
        let s = if last { changed.unwrap_or(s) } else { s };
        for m in &s.moves {
            let at = count_of(m.at) + i64::from(before);
            if at >= i64::from(from) && at < i64::from(to) {
                turn += m.turn;
                w = m.after;
            }
        }
        before = end;
        if last && before >= to {
            break;
        }
    }
    (turn, w)
}

/// The count from 0 that a position belongs to; a leading half-count belongs to the count after it.
fn count_of(at: Ticks) -> i64 {
    i64::from((at.count() - 1).max(0))
}

/// Plays the dance through.
pub(super) fn runs(dance: &Dance) -> Vec<Run> {
    let mains: Vec<usize> =
        (0..dance.parts.len()).filter(|i| dance.parts[*i].kind == PartKind::Main).collect();
    let mut out = Vec::new();
    let (mut facing, mut weight) = (Heading::FRONT, dance.start);
    let last = dance
        .tags
        .iter()
        .map(|t| t.wall)
        .chain(dance.restarts.iter().map(|r| r.wall))
        .max()
        .unwrap_or(0)
        .min(64);
    let walls = if dance.sequence.is_empty() {
        REPETITIONS.max(last + 1)
    } else {
        u32::try_from(dance.sequence.len()).unwrap_or(64).min(64)
    };
    for wall in 1..=walls {
        let parts: Vec<usize> =
            if dance.sequence.is_empty() { mains.clone() } else { vec![dance.sequence[(wall - 1) as usize]] };
        'parts: for part in parts {
            let total = dance.parts[part].counts();
            let restart = dance.restarts.iter().position(|r| r.wall == wall && r.after_counts <= total);
            let end = restart.map_or(total, |i| dance.restarts[i].after_counts);
            let mut from = 0;
            let mut go =
                |from: u32, to: u32, restart: Option<usize>, facing: &mut Heading, weight: &mut Weight| {
                    let changed = restart.and_then(|i| dance.restarts[i].changed.as_ref());
                    let (turn, after) = stretch(&dance.parts[part].sections, changed, from, to, *weight);
                    let run = Run {
                        wall,
                        part,
                        from,
                        to,
                        restart,
                        tag: None,
                        facing: *facing,
                        weight: *weight,
                        facing_end: facing.turned(turn),
                        weight_end: after,
                    };
                    *facing = run.facing_end;
                    *weight = run.weight_end;
                    out.push(run);
                };
            let mut tags: Vec<(u32, usize)> = dance
                .tags
                .iter()
                .enumerate()
                .filter(|(_, t)| t.wall == wall)
                .map(|(i, t)| (t.after_counts.unwrap_or(end), i))
                .collect();
            tags.in_order();
            let mut broken = false;
            let mut tag_runs = Vec::new();
            for (at, i) in tags {
                if at > from {
                    go(from, at.min(end), if at >= end { restart } else { None }, &mut facing, &mut weight);
                    from = at;
                }
                let tag = &dance.tags[i];
                let p = &dance.parts[tag.part];
                let (turn, after) = stretch(&p.sections, None, 0, p.counts(), weight);
                tag_runs.push(Run {
                    wall,
                    part: tag.part,
                    from: 0,
                    to: p.counts(),
                    restart: None,
                    tag: Some(i),
                    facing,
                    weight,
                    facing_end: facing.turned(turn),
                    weight_end: after,
                });
                facing = facing.turned(turn);
                weight = after;
                broken |= tag.then_restart;
                if broken {
                    break;
                }
            }
            if !broken && from < end {
                // What is left of the repetition after a tag in its middle, or all of it.
                go(from, end, restart, &mut facing, &mut weight);
            }
            insert_tags(&mut out, tag_runs);
            if broken || restart.is_some() {
                break 'parts;
            }
        }
    }
    out
}

/// Puts the tags of a wall behind the run that leads to them.
fn insert_tags(out: &mut Vec<Run>, tags: Vec<Run>) {
    for tag in tags {
        let at = out.iter().rposition(|r| {
            r.wall == tag.wall
                && r.facing_end == tag.facing
                && r.weight_end == tag.weight
                && r.from < r.to
                && r.tag.is_none()
        });
        let at = at.map_or(out.len(), |i| {
            let mut j = i + 1;
            while out.get(j).is_some_and(|r| r.tag.is_some()) {
                j += 1;
            }
            j
        });
        out.insert(at.min(out.len()), tag);
    }
}
