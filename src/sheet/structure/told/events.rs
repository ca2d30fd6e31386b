//! Phrases to sentences, and sentences to tags and restarts.

use super::unit::{Unit, unit};
use super::{Item, Topic, items, otherwise};
use crate::floor::Heading;
use crate::sheet::lines::Line;
use crate::sheet::structure::wording::starts_lower;
use crate::sheet::structure::{Kind, Token, W};
use crate::text::Span;

/// Steps of a tag.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::sheet::structure) enum Steps {
    /// Told in a sentence.
    Words(Vec<Token>),
    /// A line of the sheet with counts of its own; the flag says that it goes on with the one above.
    Line(usize, bool),
}

/// One tag or one restart, whole.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::sheet::structure) struct Event {
    pub topic: Topic,
    pub walls: Vec<u32>,
    pub counts: Option<u32>,
    pub section: Option<u32>,
    /// Counts and sections that are left out at the end of the dance.
    pub left: (u32, u32),
    pub facings: Vec<(Heading, Span)>,
    pub length: Option<u32>,
    pub then_restart: bool,
    pub steps: Vec<Steps>,
}

impl Event {
    fn restart(wall: u32, counts: u32) -> Self {
        Self {
            topic: Topic::Restart,
            walls: vec![wall],
            counts: Some(counts),
            section: None,
            left: (0, 0),
            facings: Vec::new(),
            length: None,
            then_restart: false,
            steps: Vec::new(),
        }
    }
}

/// Cuts a sentence that tells of a tag and of a restart, each with walls of its own.
fn apart(items: &[Item]) -> Vec<&[Item]> {
    let topic = |i: &Item| match i {
        Item::Tag => Some(Topic::Tag),
        Item::Restart => Some(Topic::Restart),
        _ => None,
    };
    let walls = |i: &[Item]| i.iter().any(|i| matches!(i, Item::Walls(..)));
    let Some(first) = items.iter().position(|i| topic(i).is_some()) else { return vec![items] };
    let Some(second) = items.iter().position(|i| topic(i).is_some() && topic(i) != topic(&items[first]))
    else {
        return vec![items];
    };
    let cut = if walls(&items[..first]) {
        items[first..second].iter().rposition(|i| matches!(i, Item::Walls(..))).map(|k| k + first)
    } else {
        (walls(&items[..second]) && walls(&items[second..])).then_some(second)
    };
    match cut {
        Some(at) => vec![&items[..at], &items[at..]],
        None => vec![items],
    }
}

/// Whether line `k` goes on with the sentence of the one above.
fn goes_on(text: &str, lines: &[Line], k: usize) -> bool {
    let (Some(above), Some(line)) = (k.checked_sub(1).and_then(|k| lines.get(k)), lines.get(k)) else {
        return false;
    };
    let ended =
        above.tokens.last().is_some_and(|t| matches!(t.kind, Kind::Sign('.' | '!' | '?' | ':' | ';')));
    let anew = line.tokens.first().is_some_and(|t| {
        matches!(
            t.kind,
            Kind::W(W::Wall | W::Restart | W::Tag | W::After | W::End | W::Count)
                | Kind::Sign(_)
                | Kind::Number(_)
        )
    });
    !ended && !anew && starts_lower(text, line)
}

/// The tags and restarts that lines tell; nothing where something in them is not understood.
///
/// A line that `led` by counts holds steps. `open` tells that steps of the last tag may stand below the lines.
pub(in crate::sheet::structure) fn events(
    text: &str,
    lines: &[Line],
    from: usize,
    led: impl Fn(usize) -> bool,
    open: bool,
) -> Option<Vec<Event>> {
    let mut all = Vec::new();
    let mut k = 0;
    while let Some(line) = lines.get(k) {
        if otherwise(text, &line.tokens) {
            return None;
        }
        if led(from + k) {
            all.extend([Item::Stop, Item::Line(from + k, false), Item::Stop]);
            k += 1;
            while goes_on(text, lines, k) && lines[k].step_words > 0 {
                all.extend([Item::Line(from + k, true), Item::Stop]);
                k += 1;
            }
            continue;
        }
        // A sentence may run on over several lines.
        let mut whole = line.clone();
        k += 1;
        while goes_on(text, lines, k) {
            whole.tokens.extend_from_slice(&lines[k].tokens);
            k += 1;
        }
        items(text, &whole, &mut all)?;
    }
    let mut out: Vec<Event> = Vec::new();
    let mut now: Option<Unit> = None;
    let tagged =
        all.iter().find_map(|i| if let Item::Order(tags, _) = i { Some(tags.clone()) } else { None });
    let mut flush = |unit: Option<Unit>, open: bool| -> Option<()> {
        if let Some(mut unit) = unit {
            if unit.topic == Some(Topic::Tag) && unit.walls.is_empty() {
                unit.walls.extend(tagged.iter().flatten());
            }
            out.extend(unit.finished(open)?);
        }
        Some(())
    };
    let mut order = None;
    for sentence in all.split(|i| *i == Item::Stop) {
        if let [Item::Order(tags, restarts)] = sentence {
            order = Some((tags, restarts));
            continue;
        }
        for part in apart(sentence) {
            for u in unit(part)? {
                if u.tag && u.restart && u.empty() {
                    continue;
                }
                let Some(cur) = &mut now else {
                    now = Some(u);
                    continue;
                };
                if cur.apart(&u) {
                    let unit = now.replace(u);
                    flush(unit, false)?;
                } else {
                    cur.join(u)?;
                }
            }
        }
    }
    flush(now, open)?;
    for (wall, counts) in order.iter().flat_map(|o| o.1) {
        if !out.iter().any(|e| e.topic == Topic::Restart && e.walls.contains(wall)) {
            out.push(Event::restart(*wall, *counts));
        }
    }
    (!out.is_empty()).then_some(out)
}
