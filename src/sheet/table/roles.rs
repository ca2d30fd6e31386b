//! What each column is for: by the words over it, and by what stands in it.

use super::cells::{Cell, Content};
use super::feet::foot;
use super::heads::{Role, said};
use crate::sheet::words::Kind;

/// How often each kind of content stands in a column.
#[derive(Debug, Clone, Default)]
struct Tally {
    full: usize,
    counts: usize,
    feet: usize,
    clocks: usize,
    turns: usize,
    places: usize,
    steps: usize,
    quoted: usize,
    words: usize,
    /// Words of the cells that are full, altogether.
    length: usize,
    /// Cells with one word that means a foot where the column is one of feet.
    abroad: usize,
    /// Whether its counts go on by steps of one and begin again, as counts do.
    rising: bool,
    /// Whether some count is a range or a part of a beat.
    written: bool,
}

impl Tally {
    fn of(text: &str, rows: &[&[Cell]], column: usize, numbers: bool) -> Self {
        let mut t = Self::default();
        let mut last: Option<i32> = None;
        let (mut on, mut off) = (0, 0);
        for cell in rows.iter().filter_map(|r| r.get(column)) {
            let cell = &if numbers { cell.numbers(text) } else { cell.clone() };
            let content = cell.content(text);
            if content == Content::Nothing {
                continue;
            }
            t.full += 1;
            t.length += cell.tokens.len();
            t.abroad += usize::from(cell.tokens.len() == 1 && foot(text, &cell.tokens[0]).is_some());
            match content {
                Content::Count => {
                    t.counts += 1;
                    // A bare number may be an hour as well.
                    t.clocks += usize::from(
                        matches!(cell.tokens.as_slice(), [n] if matches!(n.kind, Kind::Number(3 | 6 | 9 | 12))),
                    );
                    if let Some(m) = cell.counts(text) {
                        t.written |= m.ticks.len() > 1 || m.ticks[0].0 < 0;
                        if m.ticks[0].0 > 0 {
                            if last.is_none_or(|l| m.first() == l + 1) || m.first() == 1 {
                                on += 1;
                            } else {
                                off += 1;
                            }
                        }
                        if m.ticks[0].0 > 0 {
                            last = Some(m.last());
                        }
                    }
                }
                Content::Feet => t.feet += 1,
                Content::Clock => t.clocks += 1,
                Content::Turn => t.turns += 1,
                Content::Place => t.places += 1,
                Content::Steps => t.steps += 1,
                Content::Quoted => t.quoted += 1,
                Content::Words | Content::Nothing => t.words += 1,
            }
        }
        t.rising = on >= 2 && on >= off * 3;
        t
    }

    fn mostly(&self, n: usize) -> bool {
        n > 0 && n * 2 >= self.full
    }
}

/// What the columns are for; nothing where they are no columns of steps.
pub(super) fn roles(text: &str, heads: Option<&[Cell]>, rows: &[&[Cell]]) -> Option<Vec<Role>> {
    let width = rows.iter().map(|r| r.len()).max()?.max(heads.map_or(0, <[Cell]>::len));
    let named: Vec<Option<Role>> =
        (0..width).map(|i| heads.and_then(|h| h.get(i)).and_then(|c| said(&text[c.range.clone()]))).collect();
    let tallies: Vec<Tally> =
        (0..width).map(|i| Tally::of(text, rows, i, named[i] == Some(Role::Count))).collect();
    let mut out: Vec<Option<Role>> = (0..width).map(|i| agreed(named[i], &tallies[i])).collect();
    count_column(&mut out, &tallies, &named);
    for i in 0..width {
        if out[i].is_none() {
            out[i] = by_content(&tallies[i]);
        }
    }
    one_action(&mut out, &tallies);
    let out: Vec<Role> = out.into_iter().map(|r| r.unwrap_or(Role::Left)).collect();
    let count = out.iter().filter(|r| **r == Role::Count).count() == 1;
    let does = out.iter().any(|r| matches!(r, Role::Action | Role::Of(_) | Role::Place));
    (count && does).then_some(out)
}

/// What the words over a column say, as far as its cells agree.
fn agreed(named: Option<Role>, t: &Tally) -> Option<Role> {
    let named = named?;
    if t.full == 0 {
        return Some(named);
    }
    Some(match named {
        Role::Count if t.mostly(t.counts) => Role::Count,
        Role::Count if t.steps > 0 || t.words > 0 => return None,
        Role::Count => Role::Left,
        Role::Foot if t.mostly(t.feet.max(t.abroad)) => Role::Foot,
        Role::Foot => return None,
        // "Which way", "turn to" and "wall" may stand over any of these.
        Role::Place | Role::Turn | Role::Facing => {
            if t.turns > 0 && named != Role::Place || t.mostly(t.turns) {
                Role::Turn
            } else if t.mostly(t.clocks) {
                Role::Facing
            } else if t.steps > t.places && t.mostly(t.steps) {
                Role::Action
            } else if named == Role::Place && t.mostly(t.feet) && !t.mostly(t.places) {
                Role::Place
            } else if t.places + t.words > t.turns {
                if named == Role::Facing { Role::Facing } else { Role::Place }
            } else {
                named
            }
        }
        Role::Action if t.mostly(t.counts) && t.rising => return None,
        Role::Action if t.mostly(t.feet) => Role::Foot,
        Role::Of(_) if t.mostly(t.counts) => return None,
        Role::Section if t.mostly(t.steps) => Role::Action,
        other => other,
    })
}

/// The one column of counts: as its head says, else the one whose numbers go on as counts do.
fn count_column(out: &mut [Option<Role>], tallies: &[Tally], named: &[Option<Role>]) {
    let fits = |i: usize| tallies[i].mostly(tallies[i].counts) && tallies[i].full >= 2;
    let said: Vec<usize> = (0..out.len()).filter(|i| out[*i] == Some(Role::Count)).collect();
    if let Some((first, rest)) = said.split_first() {
        // Two columns of counts: counts run on in one and begin again in the other.
        let best = rest
            .iter()
            .copied()
            .fold(*first, |b, i| if tallies[i].written && !tallies[b].written { i } else { b });
        for i in said {
            if i != best {
                out[i] = Some(Role::Left);
            }
        }
        return;
    }
    let free = |i: usize| {
        named[i].is_none()
            || matches!(named[i], Some(Role::Left | Role::Section | Role::Action | Role::Of(_)))
    };
    let best = (0..out.len()).filter(|i| free(*i) && fits(*i) && tallies[*i].rising).reduce(|b, i| {
        let better = tallies[i].written && !tallies[b].written
            || tallies[i].full > tallies[b].full && tallies[i].written >= tallies[b].written;
        if better { i } else { b }
    });
    if let Some(best) = best {
        out[best] = Some(Role::Count);
        for i in 0..out.len() {
            if i != best && named[i] == Some(Role::Left) && tallies[i].full < tallies[best].full {
                out[i] = Some(Role::Section);
            }
        }
    }
}

fn by_content(t: &Tally) -> Option<Role> {
    if t.full == 0 {
        return None;
    }
    Some(if t.mostly(t.quoted) {
        Role::Cue
    } else if t.mostly(t.feet) {
        Role::Foot
    } else if t.mostly(t.clocks) {
        Role::Facing
    } else if t.mostly(t.counts) {
        Role::Left
    } else if t.mostly(t.turns) {
        Role::Turn
    } else if t.mostly(t.steps) || t.steps > 0 && t.mostly(t.steps + t.places + t.feet) {
        Role::Action
    } else if t.mostly(t.places + t.feet) {
        Role::Place
    } else {
        Role::Cue
    })
}

/// Of several columns of steps one tells the steps; what the others hold is where to, or only names them.
fn one_action(out: &mut [Option<Role>], tallies: &[Tally]) {
    let actions: Vec<usize> = (0..out.len()).filter(|i| out[*i] == Some(Role::Action)).collect();
    if actions.is_empty() {
        // Without a column of its own the steps may stand under the places or the calls.
        let any = |role: Role| {
            (0..out.len()).find(|i| out[*i] == Some(role) && tallies[*i].mostly(tallies[*i].steps))
        };
        if let Some(i) = any(Role::Place).or_else(|| any(Role::Turn)).or_else(|| any(Role::Cue))
            && !out.iter().any(|r| matches!(r, Some(Role::Of(_))))
        {
            out[i] = Some(Role::Action);
        }
        return;
    }
    let length = |i: usize| tallies[i].length * 100 / tallies[i].full.max(1);
    let Some(best) = actions.iter().copied().reduce(|b, i| {
        let (sb, si) = (tallies[b].mostly(tallies[b].steps), tallies[i].mostly(tallies[i].steps));
        if si && !sb || si == sb && length(i) > length(b) { i } else { b }
    }) else {
        return;
    };
    for i in actions {
        if i != best {
            let place = tallies[i].places * 2 > tallies[i].full;
            out[i] = Some(if place && !out.contains(&Some(Role::Place)) { Role::Place } else { Role::Cue });
        }
    }
}
