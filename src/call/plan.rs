//! A lesson plan: what to know first, in which order to teach, and where people will go wrong.

use std::fmt::Write as _;

use super::traps::{alike, joins, touches};
use super::words;
use crate::dance::{Dance, Foot, Move, PartKind, Section};
use crate::figures::{Figure, lexicon};
use crate::letters::Letters as _;

/// One kind of figure and how a dance uses it.
struct Needed {
    name: String,
    known: Option<&'static Figure>,
    times: u32,
    right: u32,
    left: u32,
}

/// The sections of the dance with what they are called.
pub(super) fn sections(dance: &Dance) -> Vec<(String, &Section)> {
    let mains: Vec<_> = dance.parts.iter().filter(|p| p.kind == PartKind::Main).collect();
    let several = mains.len() > 1;
    let mut out = Vec::new();
    for part in mains {
        for (i, section) in part.sections.iter().enumerate() {
            let label = if several { format!("{}{}", part.name, i + 1) } else { (i + 1).to_string() };
            out.push((label, section));
        }
    }
    out
}

/// The plan of a lesson for one dance.
#[must_use]
pub fn lesson(dance: &Dance) -> String {
    let title = if dance.head.title.is_empty() { "A dance without a title" } else { &dance.head.title };
    let mut out = format!("{title}: lesson plan\n");
    out.push_str(&figures(dance));
    let sections = sections(dance);
    out.push_str(&order(&sections));
    out.push_str(&joined(&sections));
    out.push_str(&wrong(dance, &sections));
    out.push_str(
        "\nBefore you begin: warm up gently, clear the floor, and offer an easier step to whoever wants one. The rules\n\
         of the hall and what is right for this class are yours to judge; pains and dizziness are for a doctor.\n",
    );
    out
}

fn needed(dance: &Dance) -> Vec<Needed> {
    let mut out: Vec<Needed> = Vec::new();
    for used in dance.parts.iter().flat_map(|p| &p.sections).flat_map(|s| &s.figures) {
        let index = out.iter().position(|n| n.name == used.name).unwrap_or_else(|| {
            let known = lexicon().figures.iter().find(|f| f.name == used.name);
            out.push(Needed { name: used.name.clone(), known, times: 0, right: 0, left: 0 });
            out.len() - 1
        });
        let entry = &mut out[index];
        entry.times += 1;
        match used.lead {
            Some(Foot::Right) => entry.right += 1,
            Some(Foot::Left) => entry.left += 1,
            None => {}
        }
    }
    out
}

fn figures(dance: &Dance) -> String {
    let needed = needed(dance);
    let mut out = String::from("\nKNOW FIRST\n");
    if needed.is_empty() {
        out.push_str("  no figure by name; the steps are taught one by one\n");
    }
    for n in &needed {
        let times = match n.times {
            1 => "once".to_owned(),
            2 => "twice".to_owned(),
            times => format!("{times} times"),
        };
        let side = match (n.right, n.left) {
            (0, 0) => "",
            (_, 0) => ", led by the right",
            (0, _) => ", led by the left",
            _ => ", to both sides: teach one, then its mirror image",
        };
        let steps = n.known.map_or(String::new(), |f| format!("\n    {}", rhythm(f)));
        let level = n.known.map_or("of this sheet's own", |f| f.level);
        let _ = writeln!(out, "  {} ({level}), {times}{side}{steps}", n.name);
    }
    out
}

/// The words of a figure on its counts: `1 side, 2 behind, 3 side, 4 touch`.
fn rhythm(figure: &Figure) -> String {
    let calls: Vec<&str> = figure.call.split(',').map(str::trim).collect();
    if calls.len() != figure.steps.len() {
        return figure.call.to_owned();
    }
    let piece = |(step, call): (&crate::figures::Step, &&str)| {
        let count =
            if step.at.sign().is_empty() { step.at.count().to_string() } else { step.at.sign().to_owned() };
        // A turn that the word does not tell stands beside it.
        let turns = step.turn.0 != 0
            && !["quarter", "half", "eighth", "turn", "spi", "unwind"].iter().any(|t| call.contains(t));
        if turns { format!("{count} {call} ({})", words::turn(step.turn)) } else { format!("{count} {call}") }
    };
    figure.steps.iter().zip(&calls).map(piece).collect::<Vec<_>>().join(", ")
}

/// Whether two rows of moves are the same, or mirror images of each other.
pub(super) fn same(a: &[Move], b: &[Move], mirror: bool) -> bool {
    a.len() == b.len() && a.iter().zip(b).all(|(x, y)| same_move(x, y, mirror))
}

pub(super) fn same_move(x: &Move, y: &Move, mirror: bool) -> bool {
    let (who, place, turn) =
        if mirror { (y.who.mirrored(), y.place.mirrored(), -y.turn) } else { (y.who, y.place, y.turn) };
    x.at == y.at
        && x.action == y.action
        && x.effect == y.effect
        && x.who == who
        && x.place == place
        && x.turn == turn
}

/// How much there is to learn in a section: moves, half-counts, and turns most of all.
fn load(section: &Section) -> u32 {
    let weigh = |m: &Move| {
        let turn = m.turn.0.abs();
        1 + u32::from(m.at.within() != 0) + 3 * u32::from(turn != 0) + u32::from(turn >= 24)
    };
    section.moves.iter().map(weigh).sum()
}

/// A section that is the copy or the mirror image of an earlier one is taught right after it.
fn order(sections: &[(String, &Section)]) -> String {
    let mut out = String::from("\nTEACH IN THIS ORDER\n");
    let mut done = vec![false; sections.len()];
    let heaviest = sections.iter().map(|(_, s)| load(s)).max().unwrap_or(0);
    let alone = sections.iter().filter(|(_, s)| load(s) == heaviest).count() == 1;
    let mut taught: Vec<String> = Vec::new();
    for i in 0..sections.len() {
        if done[i] {
            continue;
        }
        done[i] = true;
        let (label, section) = &sections[i];
        let name = if section.name.is_empty() { cue(section) } else { section.name.small() };
        let hard = if sections.len() > 1 && alone && load(section) == heaviest {
            "; the fullest: slowly, without music first"
        } else {
            ""
        };
        let _ = writeln!(out, "  section {label}: {name}{hard}");
        let inside = halves(section);
        if let Some(words) = inside {
            let _ = writeln!(out, "    {words}");
        }
        taught.push(label.clone());
        for (j, (other, twin)) in sections.iter().enumerate().skip(i + 1) {
            let how = if same(&section.moves, &twin.moves, false) {
                "the same again"
            } else if same(&section.moves, &twin.moves, true) {
                "its mirror image"
            } else {
                continue;
            };
            if !done[j] && !section.moves.is_empty() {
                done[j] = true;
                let _ = writeln!(out, "    with it section {other}: {how}");
                taught.push(other.clone());
            }
        }
        if taught.len() > 1 && taught.len() < sections.len() {
            let _ = writeln!(out, "    {}", joining(&taught, sections));
        }
    }
    if sections.len() > 1 {
        out.push_str("  then all of it, first to counts, then to music\n");
    }
    out
}

/// What is danced together once the next section is known.
fn joining(taught: &[String], sections: &[(String, &Section)]) -> String {
    let from_start = taught.iter().zip(sections).all(|(label, (other, _))| label == other);
    match (from_start, taught.last()) {
        (true, Some(last)) => format!("then from the start to the end of {last}"),
        _ => format!("then each of {} again", taught.join(", ")),
    }
}

/// The calls of a section without a heading.
fn cue(section: &Section) -> String {
    let mut names: Vec<String> = Vec::new();
    for used in &section.figures {
        let first = section
            .moves
            .iter()
            .find(|m| m.figure.is_some_and(|i| section.figures.get(usize::from(i)) == Some(used)));
        names.extend(words::figure(used, first).0.into_iter().next());
    }
    if names.is_empty() {
        let steps: Vec<String> = section.moves.iter().take(4).map(words::step_with_foot).collect();
        return steps.join(", ");
    }
    names.join("; ")
}

/// Whether the second half of a section repeats or mirrors the first.
fn halves(section: &Section) -> Option<&'static str> {
    let half = i32::try_from(section.counts / 2).ok()?;
    if section.counts < 4 || !section.counts.is_multiple_of(2) {
        return None;
    }
    let shift = crate::time::Ticks::of_count(half);
    let border = shift + crate::time::Ticks::COUNT;
    let first: Vec<Move> = section.moves.iter().filter(|m| m.at < border).cloned().collect();
    let mut second: Vec<Move> = section.moves.iter().filter(|m| m.at >= border).cloned().collect();
    for m in &mut second {
        m.at = m.at - shift;
    }
    if first.is_empty() {
        None
    } else if same(&first, &second, false) {
        Some("its second half is its first again")
    } else if same(&first, &second, true) {
        Some("its second half is the mirror image of its first")
    } else {
        None
    }
}

fn joined(sections: &[(String, &Section)]) -> String {
    let joins = joins(sections);
    if joins.is_empty() {
        return String::new();
    }
    let mut out = String::from("\nJOINS, THE HARDEST FIRST\n");
    let mut flowing = 0;
    for join in &joins {
        if join.why.is_empty() {
            flowing += 1;
        } else {
            let _ = writeln!(out, "  {} into {}: {}", join.from, join.to, join.why.join("; "));
        }
    }
    match flowing {
        0 => {}
        n if n == joins.len() => out.push_str("  all of them flow\n"),
        _ => out.push_str("  the others flow\n"),
    }
    out
}

fn wrong(dance: &Dance, sections: &[(String, &Section)]) -> String {
    let mut out = String::from("\nWHERE PEOPLE GO WRONG\n");
    let mut any = false;
    for (label, section) in sections {
        let counts = touches(section);
        if !counts.is_empty() {
            any = true;
            let list: Vec<String> =
                counts.iter().map(|(at, foot, what)| format!("{at} ({} {what})", foot.word())).collect();
            let _ = writeln!(
                out,
                "  section {label}: no weight on {}; the same foot steps next",
                list.join(", ")
            );
        }
    }
    for (a, b, counts, at) in alike(sections) {
        any = true;
        let _ =
            writeln!(out, "  sections {a} and {b} begin alike for {counts} counts and part on count {at}");
    }
    for restart in &dance.restarts {
        any = true;
        let changed = if restart.changed.is_some() { ", with changed steps before it" } else { "" };
        let _ = writeln!(
            out,
            "  restart on wall {} after {} counts{changed}",
            restart.wall, restart.after_counts
        );
    }
    for tag in &dance.tags {
        any = true;
        let counts = dance.parts.get(tag.part).map_or(0, crate::dance::Part::counts);
        let place = tag.after_counts.map_or_else(
            || format!("after wall {}", tag.wall),
            |after| format!("on wall {} after {after} counts", tag.wall),
        );
        let _ = writeln!(out, "  tag of {counts} counts {place}");
    }
    if !any {
        out.push_str("  nothing stands out on paper\n");
    }
    out
}
