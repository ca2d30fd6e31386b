//! The name of a dance with its facts, at the top of a drawing of all of it.

use crate::dance::Dance;

use super::labels::lines;
use super::name;
use super::svg::{Anchor, Svg};
use super::tile::Tile;

/// Size of the name, and of the facts below it.
const NAME: f64 = 20.0;
const FACTS: f64 = 12.0;

/// Name and facts on paper of a breadth.
pub(super) fn tile(dance: &Dance, breadth: f64) -> Tile {
    let mut svg = Svg::default();
    let mut y = 2.0;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "letters on a line are few")]
    let letters = |size: f64| (breadth / (size * 0.6)) as usize;
    for line in lines(name(dance), letters(NAME)).iter().take(3) {
        y += NAME * 1.15;
        svg.open("text").class("hc-title").num("x", 8.0).num("y", y).num("font-size", NAME);
        svg.attr("font-weight", "bold").words(line).end();
    }
    let facts = facts(dance);
    for line in lines(&facts.join(", "), letters(FACTS)).iter().take(3) {
        y += FACTS * 1.35;
        svg.text("hc-facts", (8.0, y), FACTS, Anchor::Start, line);
    }
    Tile { w: breadth, h: y + 2.0, inner: svg.finish(), name: name(dance).into() }
}

/// Counts, walls, level and first foot of a dance, in words.
pub(super) fn facts(dance: &Dance) -> Vec<String> {
    let h = &dance.head;
    let mut facts = vec![format!("{} counts", h.counts)];
    facts.push(if h.walls == 1 { "1 wall".into() } else { format!("{} walls", h.walls) });
    if !h.level.is_empty() {
        facts.push(h.level.clone());
    }
    if let Some(foot) = h.start_foot {
        facts.push(format!("starts with the {} foot", foot.word()));
    }
    facts
}
