//! A dance on the other foot: left for right in the moves, in the facings and in the words beside them.

use crate::dance::{Dance, Section};
use crate::floor::{Heading, Turn};
use crate::letters::Letters as _;

fn facing(h: Heading) -> Heading {
    Heading::new(-h.units())
}

fn section(s: &mut Section) {
    for m in &mut s.moves {
        m.who = m.who.mirrored();
        m.place = m.place.mirrored();
        m.turn = -m.turn;
        m.before = m.before.mirrored();
        m.after = m.after.mirrored();
    }
    for f in &mut s.figures {
        f.lead = f.lead.map(crate::dance::Foot::other);
        f.turn = -f.turn;
    }
    s.name = words(&s.name);
    s.facing_start = facing(s.facing_start);
    s.facing_end = facing(s.facing_end);
    s.weight_start = s.weight_start.mirrored();
    s.weight_end = s.weight_end.mirrored();
}

/// The dance on the other foot.
#[must_use]
pub fn mirrored(dance: &Dance) -> Dance {
    let mut d = dance.clone();
    d.parts.iter_mut().flat_map(|p| &mut p.sections).for_each(section);
    for t in &mut d.tags {
        t.stated = t.stated.map(|(h, span)| (facing(h), span));
    }
    for r in &mut d.restarts {
        r.stated = r.stated.map(|(h, span)| (facing(h), span));
        if let Some(s) = &mut r.changed {
            section(s);
        }
    }
    if let Some(ending) = &mut d.ending {
        ending.stated = ending.stated.map(facing);
    }
    for run in &mut d.runs {
        run.facing = facing(run.facing);
        run.facing_end = facing(run.facing_end);
        run.weight = run.weight.mirrored();
        run.weight_end = run.weight_end.mirrored();
    }
    d.start = d.start.mirrored();
    d.head.start_foot = d.head.start_foot.map(crate::dance::Foot::other);
    d
}

/// A clock said on the other foot.
pub(super) fn clock(h: Heading) -> Heading {
    let _: Turn = Turn::NONE;
    facing(h)
}

/// Left for right in a heading or a remark, and the clock with it.
pub(super) fn words(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while !rest.is_empty() {
        let letter = rest.starts_with(char::is_alphanumeric);
        let end = rest
            .char_indices()
            .find(|(i, c)| {
                let within = c.is_alphanumeric() || (letter && *c == ':' && digit_after(rest, *i));
                within != letter
            })
            .map_or(rest.len(), |(i, _)| i);
        let (word, after) = rest.split_at(end);
        out.push_str(&if letter { swap(word, after) } else { word.to_string() });
        rest = after;
    }
    out
}

fn digit_after(text: &str, at: usize) -> bool {
    let bytes = text.as_bytes();
    at > 0 && bytes[at - 1].is_ascii_digit() && bytes.get(at + 1).is_some_and(u8::is_ascii_digit)
}

fn swap(word: &str, after: &str) -> String {
    if let Ok(h) = word.parse::<Heading>() {
        return facing(h).to_string();
    }
    // "Right away" and the like speak of no side.
    let next = after.trim_start().split(|c: char| !c.is_alphabetic()).next().unwrap_or("");
    let no_side = ["away", "now", "through", "after", "before", "into"].contains(&next);
    let swapped = match word.small().as_str() {
        "right" if !no_side => "left",
        "left" => "right",
        "r" => "l",
        "l" => "r",
        "rf" => "lf",
        "lf" => "rf",
        _ => return word.to_string(),
    };
    if word.chars().all(char::is_uppercase) {
        swapped.capital()
    } else if word.starts_with(char::is_uppercase) {
        let mut chars = swapped.chars();
        chars.next().map(|c| c.to_ascii_uppercase()).into_iter().chain(chars).collect()
    } else {
        swapped.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::words;

    #[track_caller]
    fn check(text: &str, expected: &str) {
        assert_eq!(words(text), expected);
        assert_eq!(words(expected), text, "twice is once back");
    }

    #[test]
    fn words_change_sides() {
        check("VINE RIGHT, 1/4 TURN LEFT", "VINE LEFT, 1/4 TURN RIGHT");
        check("Right sailor (9:00)", "Left sailor (3:00)");
        check("RF fwd, L in place", "LF fwd, R in place");
        check("look at 1:30 now", "look at 10:30 now");
        check("it goes right away", "it goes right away");
    }
}
