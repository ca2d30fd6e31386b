//! The steps of a section in words beside its plan: count, foot and what it does.
//!
//! A box has the letter of the foot: solid for the right foot, open for the left one, its line drawn through
//! where the foot takes the weight and dashed where it does not.

use super::labels::lines;
use super::ruler;
use super::scene::Scene;
use super::sentences;
use super::svg::{Anchor, Svg};
use super::tile::{Ink, tag};

/// The narrowest column of steps.
pub(super) const NARROWEST: f64 = 132.0;

/// The widest column that the eye follows.
const WIDEST: f64 = 240.0;

/// Size of the words, height of a line, and where the words begin.
const WORDS: f64 = 11.0;
const LINE: f64 = 14.0;
const INDENT: f64 = 45.0;

/// One step as listed.
struct Entry {
    index: usize,
    count: String,
    lines: Vec<String>,
}

impl Entry {
    fn height(&self) -> f64 {
        LINE * f64::from(u32::try_from(self.lines.len()).unwrap_or(1)) + 3.5
    }
}

/// How a list falls into columns.
struct Columns {
    entries: Vec<Entry>,
    /// One past the last entry of each.
    ends: Vec<usize>,
    /// Breadth of each.
    share: f64,
    height: f64,
}

impl Columns {
    /// As few as keep the list within a height, as far as there is room for more.
    fn of(scene: &Scene<'_>, w: f64, limit: f64) -> Self {
        let mut columns = 1;
        loop {
            let count = f64::from(u32::try_from(columns).unwrap_or(1));
            let entries = entries(scene, (w / count).min(WIDEST));
            let (ends, height) = split(&entries, columns);
            let more = columns < 4 && w / (count + 1.0) >= NARROWEST + 20.0;
            if height <= limit || !more {
                return Self { entries, ends, share: (w / count).min(WIDEST), height };
            }
            columns += 1;
        }
    }
}

fn entries(scene: &Scene<'_>, share: f64) -> Vec<Entry> {
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "letters on a line are few")]
    let letters = ((share - INDENT) / (WORDS * 0.52)).max(8.0) as usize;
    let said = sentences::sentences(scene);
    let entry = |(index, s): (usize, sentences::Sentence)| {
        let mut words = lines(&s.words, letters);
        if words.is_empty() {
            words.push(String::new());
        }
        Entry { index, count: s.count, lines: words }
    };
    said.into_iter().enumerate().map(entry).collect()
}

/// How the entries fall into columns: the last index of each column, and the height.
fn split(entries: &[Entry], columns: usize) -> (Vec<usize>, f64) {
    let all: f64 = entries.iter().map(Entry::height).sum();
    let count = f64::from(u32::try_from(columns.max(1)).unwrap_or(1));
    let (mut ends, mut tallest, mut here) = (Vec::new(), 0.0_f64, 0.0);
    for (i, entry) in entries.iter().enumerate() {
        if here > 0.0 && here + entry.height() * 0.5 > all / count && ends.len() + 1 < columns {
            ends.push(i);
            here = 0.0;
        }
        here += entry.height();
        tallest = tallest.max(here);
    }
    ends.push(entries.len());
    (ends, tallest)
}

/// The height of the list at a breadth, with a height that it should keep.
pub(super) fn height(scene: &Scene<'_>, w: f64, limit: f64) -> f64 {
    Columns::of(scene, w, limit).height + 4.0
}

/// Draws the list and gives its height.
pub(super) fn draw(
    svg: &mut Svg,
    scene: &Scene<'_>,
    ink: &Ink<'_>,
    at: (f64, f64),
    (w, limit): (f64, f64),
) -> f64 {
    let Columns { entries, ends, share, height } = Columns::of(scene, w, limit);
    let (mut x, mut y, mut column) = (at.0, at.1, 0);
    for (i, entry) in entries.iter().enumerate() {
        if ends.get(column).is_some_and(|end| i >= *end) {
            column += 1;
            (x, y) = (x + share, at.1);
        }
        let Some(step) = scene.steps.get(entry.index) else { continue };
        svg.open("g").class("hc-line");
        tag(svg, scene, &entry.count, step.what.span, ink);
        svg.open("text")
            .class("hc-count")
            .num("x", x + 22.0)
            .num("y", y + 12.0)
            .num("font-size", WORDS + 0.5);
        svg.attr("text-anchor", "end").attr("font-weight", "bold").words(&entry.count).end();
        ruler::action(svg, step.what, (x + 33.5, y + 8.0), 7.0);
        for (n, line) in (0..).zip(&entry.lines) {
            svg.text("hc-words", (x + INDENT, y + 12.0 + f64::from(n) * LINE), WORDS, Anchor::Start, line);
        }
        svg.end();
        y += entry.height();
    }
    height + 4.0
}
