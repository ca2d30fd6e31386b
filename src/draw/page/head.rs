//! What stands before the sections of a hand-out: title, facts, tags and restarts, figures to know first, floor.

use crate::dance::{Dance, PartKind};
use crate::draw::heading::facts;
use crate::figures::lexicon;
use crate::floor::Point;
use crate::motion::{FloorNeed, Motion, floor_need};

use super::super::name;
use super::super::svg::{escape, number};
use super::element;

/// Title and facts of a dance.
pub(super) fn head(out: &mut String, dance: &Dance) {
    let h = &dance.head;
    element(out, "h1", name(dance));
    out.push_str("<ul class=\"facts\">\n");
    let mut facts = facts(dance);
    if let Some(tempo) = h.tempo {
        facts.push(format!("{tempo} beats a minute"));
    }
    if let Some(intro) = h.intro {
        facts.push(format!("{intro} counts of music before the first step"));
    }
    for (label, words) in [("by", &h.author), ("Music:", &h.music)] {
        let words = words.trim();
        if !words.is_empty() {
            facts.push(format!("{label} {words}"));
        }
    }
    for fact in facts {
        element(out, "li", &fact);
    }
    out.push_str("</ul>\n");
    song(out, dance);
}

/// Tags and restarts, in the order of the song.
fn song(out: &mut String, dance: &Dance) {
    for (index, part) in dance.parts.iter().enumerate() {
        let mut whens: Vec<String> = Vec::new();
        for tag in dance.tags.iter().filter(|t| t.part == index) {
            whens.push(match tag.after_counts {
                Some(counts) => format!("in wall {} after {counts} counts", tag.wall),
                None => format!("after wall {}", tag.wall),
            });
        }
        if !whens.is_empty() {
            let name = if part.kind == PartKind::Ending { "Ending" } else { &part.name };
            let words = format!("{}, {} counts: {}.", capital(name), part.counts(), whens.join(", "));
            element(out, "p", &words);
        }
    }
    for restart in &dance.restarts {
        let changed = if restart.changed.is_some() { " with changed steps, see below" } else { "" };
        let words =
            format!("Restart in wall {} after {} counts{changed}.", restart.wall, restart.after_counts);
        element(out, "p", &words);
    }
}

/// With a capital letter.
pub(in crate::draw) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(|c| crate::letters::capital(c).to_string()).unwrap_or_default();
    first + letters.as_str()
}

/// The figures that a class must know, each once, with what is called for it.
pub(super) fn know_first(out: &mut String, dance: &Dance) {
    let mut seen: Vec<&str> = Vec::new();
    let uses = dance.parts.iter().flat_map(|p| &p.sections).flat_map(|s| &s.figures);
    for figure in uses {
        if !seen.contains(&figure.name.as_str()) {
            seen.push(&figure.name);
        }
    }
    if seen.is_empty() {
        return;
    }
    out.push_str("<div class=\"figures-box\">\n");
    element(out, "h2", "Figures to know first");
    out.push_str("<ul class=\"figures\">\n");
    for name in seen {
        out.push_str("<li><b>");
        escape(out, name);
        out.push_str("</b>");
        if let Some((_, figure)) = lexicon().find(name)
            && !figure.call.is_empty()
        {
            out.push_str(": ");
            escape(out, figure.call);
        }
        out.push_str("</li>\n");
    }
    out.push_str("</ul>\n</div>\n");
}

/// The floor that a dance needs, in words; `one` is once through it, `song` the whole song.
pub(super) fn floor(out: &mut String, dance: &Dance, one: &Motion, song: &Motion) {
    if one.moments.is_empty() {
        return;
    }
    let need = floor_need(dance, one, song);
    out.push_str("<div class=\"floor\">\n");
    element(out, "h2", "The floor it needs");
    let room = format!(
        "Once through it the feet of a dancer of {} take {} across and {} from front to back, {}.",
        metres(one.body.stature),
        metres(need.high.x - need.low.x),
        metres(need.high.y - need.low.y),
        match way(need.travel) {
            Some(way) => format!("and end {way} of where they began"),
            None => "and end where they began".to_owned(),
        }
    );
    element(out, "p", &format!("{room} {}", over_the_song(&need)));
    let words = format!(
        "From the middle of one dancer to that of the next leave more than {} beside you and {} before and \
         behind you; nearer ones meet even in unison.",
        metres(need.beside),
        metres(need.behind)
    );
    element(out, "p", &words);
    out.push_str("</div>\n");
}

/// Where the class goes in the song.
fn over_the_song(need: &FloorNeed) -> String {
    let walls = if need.walls == 1 { "1 time".to_owned() } else { format!("{} times", need.walls) };
    let ends = match way(need.drift) {
        Some(way) => format!("ends {way} of where it began"),
        None => "ends where it began".to_owned(),
    };
    format!(
        "After {walls} through, the class {ends} and never gets farther than {} away.",
        metres(need.farthest)
    )
}

/// `1.2 m to the right and 0.8 m ahead`, for what is at least a foot's length.
fn way(travel: Point) -> Option<String> {
    let mut ways = Vec::new();
    for (size, more, less) in [(travel.x, "to the right", "to the left"), (travel.y, "ahead", "behind")] {
        if size.abs() >= 0.26 {
            ways.push(format!("{} {}", metres(size.abs()), if size > 0.0 { more } else { less }));
        }
    }
    (!ways.is_empty()).then(|| ways.join(" and "))
}

/// Metres with one decimal at most: feet are not placed more exactly than that.
fn metres(value: f64) -> String {
    let mut out = String::new();
    number(&mut out, (value * 10.0).round() / 10.0);
    out + " m"
}
