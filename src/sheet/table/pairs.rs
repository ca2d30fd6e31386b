//! Facts of the head that a page gave cell by cell, each name and each value on a line of its own.

use super::Page;
use crate::letters::Letters as _;
use crate::sheet::lines::{Line, line_of};
use crate::sheet::words::tokens;
use crate::text::Span;

/// Names of facts of a head.
const NAMES: &[&str] = &[
    "title",
    "dance",
    "name",
    "choreographer",
    "choreographers",
    "choreography",
    "choreo",
    "choreographed by",
    "count",
    "counts",
    "wall",
    "walls",
    "level",
    "music",
    "song",
    "track",
    "start",
    "starts",
    "begin",
    "begins",
    "intro",
    "steps by",
    "by",
    "author",
    "tempo",
    "bpm",
    "style",
    "date",
    "difficulty",
    "lead-in",
    "dance by",
    "written by",
    "type",
    "rhythm",
    "titel",
    "tanz",
    "dans",
    "musik",
    "muziek",
    "musique",
    "música",
    "niveau",
    "nivel",
    "tags",
    "restarts",
    "tag",
    "restart",
    "sequence",
    "phrasing",
];

fn name(words: &str) -> bool {
    let words = words.trim().trim_end_matches(':').trim_end();
    !words.is_empty() && words.len() <= 20 && NAMES.contains(&words.small().as_str())
}

/// The pairs that begin in line `i`: each as one line.
pub(super) fn read(page: Page<'_>, i: usize) -> Option<(Vec<Line>, usize)> {
    let mut out = Vec::new();
    let mut at = i;
    while at + 1 < page.raw.len() && name(page.of(at)) {
        let value = page.of(at + 1);
        if value.trim().is_empty() || name(value) {
            break;
        }
        let (a, b) = (page.raw[at].clone(), page.raw[at + 1].clone());
        let span = Span::new(a.start, b.end);
        let mut t = tokens(page.text, a, page.vocabulary);
        t.extend(tokens(page.text, b, page.vocabulary));
        out.push(line_of(page.text, span, t, out.is_empty()));
        at += 2;
    }
    (out.len() >= 3).then_some((out, at))
}
