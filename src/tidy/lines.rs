//! A section in lines: one for each figure, or for each group of counts where the steps make no figure.

use super::words::words;
use crate::dance::{Action, Effect, Foot, Move, Place, Reach, Section, TurnWhen, Weight, Who};
use crate::figures::lexicon;
use crate::floor::{Heading, Turn};
use crate::order::Ordered as _;
use crate::text::Span;
use crate::time::{Metre, Ticks};

/// The longest run of counts in one line.
const LONGEST: i32 = 4;

/// Everything that falls on one position.
struct Position {
    at: Ticks,
    moves: Vec<Move>,
    figure: Option<u16>,
}

/// One line of steps.
pub(super) struct StepLine {
    /// Its count mark.
    pub mark: String,
    /// Figure and steps.
    pub words: String,
    /// Its last position.
    pub last: Ticks,
    /// First byte in the old text of what stands in it.
    pub start: u32,
}

/// A whole count on which nothing is written.
fn hold(at: Ticks, weight: Weight) -> Move {
    Move {
        at,
        lasts: Ticks::COUNT,
        who: Who::Nobody,
        action: Action::Hold,
        place: Place::Still,
        reach: Reach::Usual,
        turn: Turn::NONE,
        turn_when: TurnWhen::Before,
        effect: Effect::None,
        before: weight,
        after: weight,
        broken: None,
        span: Span::default(),
        figure: None,
    }
}

fn positions(section: &Section) -> Vec<Position> {
    let mut out: Vec<Position> = Vec::new();
    for m in &section.moves {
        match out.last_mut() {
            // A second step on one position stands in a line of its own, as somebody wrote it.
            Some(p)
                if p.at == m.at && !(m.takes().is_some() && p.moves.iter().any(|m| m.takes().is_some())) =>
            {
                p.moves.push(m.clone());
            }
            _ => out.push(Position { at: m.at, moves: vec![m.clone()], figure: m.figure }),
        }
    }
    for count in 1..=i32::try_from(section.counts.min(1024)).unwrap_or(0) {
        let at = Ticks::of_count(count);
        let i = out.partition_point(|p| p.at < at);
        if out.get(i).is_none_or(|p| p.at != at) {
            let (weight, figure) = match i.checked_sub(1) {
                Some(b) => (out[b].moves.last().map_or(Weight::Both, |m| m.after), out[b].figure),
                None => (section.weight_start, None),
            };
            out.insert(i, Position { at, moves: vec![hold(at, weight)], figure });
        }
    }
    // A hold after a figure stands in its line.
    for i in 1..out.len() {
        let still = out[i].moves.iter().all(|m| m.who == Who::Nobody);
        if still && out[i].figure.is_none() {
            out[i].figure = out[i - 1].figure;
        }
    }
    out
}

/// The count mark of some positions: `1-2`, `3&4`, `5 6&`.
fn mark(at: &[Ticks]) -> String {
    let whole = at.iter().all(|t| t.within() == 0);
    if let [first, .., last] = at
        && whole
    {
        return format!("{}-{}", first.count(), last.count());
    }
    let mut out = String::new();
    for (i, t) in at.iter().enumerate() {
        if t.within() == 0 {
            if i > 0 && at[i - 1].within() == 0 {
                out.push(' ');
            }
            out.push_str(&t.count().to_string());
        } else {
            // Thirds of a count are written & and a together.
            out.push_str(match t.within() {
                1..=6 => "e",
                7..=13 => "&",
                _ => "a",
            });
        }
    }
    out
}

/// Whether a position opens a new line after the one before it.
fn opens(before: &Position, p: &Position, first: Ticks, metre: Metre) -> bool {
    let size = if metre == Metre::Three { 3 } else { 2 };
    let group = |t: Ticks| (t.count() - 1).max(0) / size;
    // A half-count alone stands with the count before it.
    if p.figure.is_none() && p.at.within() > 0 && (1..24).contains(&(p.at.0 - before.at.0)) {
        return false;
    }
    if before.figure != p.figure || before.at == p.at {
        return true;
    }
    if p.figure.is_some() {
        // Long figures are divided where a whole count begins.
        let long = if metre == Metre::Three { 3 } else { LONGEST };
        return p.at.within() == 0 && (p.at.0 + 23) / 24 - (first.0 + 23) / 24 >= long;
    }
    group(before.at) != group(p.at)
}

/// The words for a figure's name before its steps, where they read as that figure.
fn name(section: &Section, figure: Option<u16>) -> Option<String> {
    let used = section.figures.get(usize::from(figure?))?;
    if used.name.contains([',', '(']) {
        return None;
    }
    let known = lexicon().find(&used.name).is_some_and(|(_, f)| f.name == used.name);
    if !known {
        return None;
    }
    let mut chars = used.name.chars();
    let first = chars.next()?;
    let lead = match used.lead {
        Some(Foot::Right) => "Right ",
        Some(Foot::Left) => "Left ",
        None => "",
    };
    // A letter that names the figure, as in K-step, stays a capital.
    let rest = chars.as_str();
    let plain = !lead.is_empty() && !rest.starts_with('-');
    let first = if plain { crate::letters::small(first).to_string() } else { first.to_string() };
    Some(format!("{lead}{first}{rest}"))
}

/// All lines of a section. `named` says which figures have their names before their steps.
pub(super) fn lines(section: &Section, metre: Metre, named: &dyn Fn(u16) -> bool) -> Vec<StepLine> {
    let all = positions(section);
    let mut out: Vec<StepLine> = Vec::new();
    let mut from = 0;
    let mut raised = [true, true];
    let mut told = None;
    while from < all.len() {
        let mut to = from + 1;
        while to < all.len() && !opens(&all[to - 1], &all[to], all[from].at, metre) {
            to += 1;
        }
        // A half-count right before the next line's first count stays where its steps are.
        let mut steps: Vec<String> = Vec::new();
        let mut start = u32::MAX;
        for p in &all[from..to] {
            for (k, m) in p.moves.iter().enumerate() {
                if m.span != Span::default() {
                    start = start.min(m.span.start);
                }
                // One hold is enough on one position.
                if k > 0 && m.action == Action::Hold {
                    continue;
                }
                let heel = match m.who {
                    Who::One(foot) => raised[foot as usize],
                    _ => true,
                };
                let joined = k > 0 && m.effect != Effect::Takes;
                let said = words(m, joined, heel);
                match steps.last_mut() {
                    Some(last) if joined => {
                        last.push(' ');
                        last.push_str(&said);
                    }
                    _ => steps.push(said),
                }
                if let Who::One(foot) = m.who {
                    raised[foot as usize] = m.action != Action::Heel;
                }
            }
        }
        let at: Vec<Ticks> = all[from..to].iter().map(|p| p.at).collect();
        let mut line = String::new();
        let figure = all[from].figure;
        let whole = all[from..to].iter().all(|p| p.figure == figure);
        if figure.is_some_and(named)
            && whole
            && figure != told
            && let Some(name) = name(section, figure)
        {
            line.push_str(&name);
            line.push_str(": ");
        }
        told = figure;
        let steps = steps.join(", ");
        if line.is_empty() {
            let mut chars = steps.chars();
            line.extend(chars.next().map(|c| c.to_ascii_uppercase()));
            line.push_str(chars.as_str());
        } else {
            line.push_str(&steps);
        }
        out.push(StepLine { mark: mark(&at), words: line, last: at[at.len() - 1], start });
        from = to;
    }
    out
}

/// Whether two moves are danced alike.
fn alike(a: &Move, b: &Move) -> bool {
    (a.at, a.who, a.action, a.place, a.turn, a.effect) == (b.at, b.who, b.action, b.place, b.turn, b.effect)
}

/// Whether what a restart changes is only that the steps behind the last whole one of its counts are left out.
pub(super) fn without_half(section: &Section, changed: &Section, counts: u32) -> bool {
    let last = Ticks::of_count(i32::try_from(counts).unwrap_or(i32::MAX / 24));
    let kept: Vec<&Move> = section.moves.iter().filter(|m| m.at <= last).collect();
    let same = kept.len() == changed.moves.len() && kept.iter().zip(&changed.moves).all(|(a, b)| alike(a, b));
    same && section.moves.iter().any(|m| m.at > last && m.at.count() == last.count())
}

/// What a changed section does instead of its own steps: the count mark of what is replaced, and the new steps.
pub(super) fn changed(own: &Section, changed: &Section) -> Option<(String, String)> {
    let lost = own.moves.iter().filter(|m| !changed.moves.iter().any(|c| alike(m, c)));
    let won = changed.moves.iter().filter(|m| !own.moves.iter().any(|c| alike(m, c)));
    let at: Vec<Ticks> = lost.chain(won).map(|m| m.at).collect();
    let (first, last) = (*at.iter().min()?, *at.iter().max()?);
    let inside = |m: &&Move| m.at >= first && m.at <= last;
    let mut ticks: Vec<Ticks> = own.moves.iter().chain(&changed.moves).filter(inside).map(|m| m.at).collect();
    ticks.in_order();
    ticks.dedup();
    let new: Vec<&Move> = changed.moves.iter().filter(inside).collect();
    let of_count = |group: &[&Move]| {
        let mut at: Vec<Ticks> = group.iter().map(|m| m.at).collect();
        at.dedup();
        let said: Vec<String> = group.iter().map(|m| words(m, false, true)).collect();
        format!("{} {}", mark(&at), said.join(", "))
    };
    let new: Vec<String> = new.chunk_by(|a, b| a.at.count() == b.at.count()).map(of_count).collect();
    Some((mark(&ticks), new.join(", ")))
}

/// Lines as text, the words in one column, a clock at the end of the last one.
pub(super) fn print(lines: &[StepLine], clocks: &[(Ticks, Heading)]) -> Vec<(u32, String)> {
    let mut out = Vec::with_capacity(lines.len());
    let mut given = 0;
    for line in lines {
        let mut text = format!("{:<7} {}", line.mark, line.words);
        let due = clocks[given..].iter().take_while(|(at, _)| *at <= line.last).count();
        if due > 0 {
            given += due;
            text.push_str(" (");
            text.push_str(&clocks[given - 1].1.to_string());
            text.push(')');
        }
        out.push((line.start, text));
    }
    out
}
