//! Faults in what a sheet says of the song: the wall of a tag, the facing of a tag or restart.

use halfcount::Report;
use halfcount::floor::Heading;
use halfcount::text::{Edit, Span};

use super::faults::Fault;

fn fault(text: &str, span: Span, new: String) -> Fault {
    let told = format!("\"{}\" to \"{new}\"", span.of(text).trim());
    Fault { edits: vec![Edit { span, text: new }], section: None, count: None, words_lost: false, told }
}

/// A number that stands alone in a stretch of a text.
fn number(text: &str, within: Span, n: u32) -> Option<Span> {
    let wanted = n.to_string();
    let words = within.of(text);
    let alone = |at: usize| {
        let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit() || matches!(c, ':' | '/'));
        let behind = &words[at + wanted.len()..];
        // "TAG (4 counts)" gives its length.
        let length = behind.trim_start_matches([' ', '-']).to_lowercase();
        let length = length.starts_with("count") || length.starts_with('c') || length.starts_with("beat");
        !digit(words[..at].chars().next_back()) && !digit(behind.chars().next()) && !length
    };
    let at = words.match_indices(&wanted).map(|(at, _)| at).find(|at| alone(*at))?;
    let start = within.start as usize + at;
    Some(Span::new(start, start + wanted.len()))
}

/// A tag on the wall after its own, where its facing is stated and tells.
pub(crate) fn tags_moved(text: &str, report: &Report) -> Vec<Fault> {
    let dance = &report.dance;
    let told = dance.tags.iter().filter(|t| {
        let there = dance.runs.iter().find(|r| r.tag.is_none() && r.wall == t.wall + 1);
        t.stated.is_some_and(|(said, _)| there.is_some_and(|r| r.facing_end != said))
    });
    told.filter_map(|t| Some(fault(text, number(text, t.span, t.wall)?, (t.wall + 1).to_string()))).collect()
}

/// A clock of a tag or restart, a quarter of a turn away.
pub(crate) fn facings(text: &str, report: &Report) -> Vec<Fault> {
    let dance = &report.dance;
    let stated = dance.tags.iter().map(|t| t.stated).chain(dance.restarts.iter().map(|r| r.stated));
    let mut out = Vec::new();
    for (said, span) in stated.flatten() {
        let other = Heading::new(said.units() + 12);
        let (old, new) = (said.to_string(), other.to_string());
        let faces = |h: Heading| dance.runs.iter().any(|r| r.facing == h && r.restart.is_some());
        let Some(at) = span.of(text).find(&old).filter(|_| !faces(other)) else { continue };
        let start = span.start as usize + at;
        out.push(fault(text, Span::new(start, start + old.len()), new));
    }
    out
}
