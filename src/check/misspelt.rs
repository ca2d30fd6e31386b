//! A word that is one letter away from a word of the trade and was taken for it.

use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::text::Edit;

pub(super) const NAME: &str = "misspelt";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    let mut seen: Vec<&str> = Vec::new();
    for typo in &s.sheet.typos {
        let word = typo.span.of(s.text);
        if seen.contains(&word) {
            continue;
        }
        seen.push(word);
        let mut draft = match place(s, typo.span.start) {
            Some(place) => s.at(NAME, Severity::Note, typo.span, place),
            None => Subject::whole(NAME, Severity::Note, typo.span),
        };
        draft = draft.says(format!("“{word}” is taken for “{}”; write it so, if that is meant.", typo.meant));
        let text = super::edits::like(word, &typo.meant);
        draft.offer(10, true, format!("write “{text}”"), vec![Edit { span: typo.span, text }]);
        out.push(draft);
    }
}

/// The section whose words hold a place of the text.
fn place(s: &Subject<'_>, byte: u32) -> Option<Place> {
    for part in 0..s.dance().parts.len() {
        let Some(text) = s.part_text(part) else { continue };
        for (i, section) in text.sections.iter().enumerate() {
            if section.tokens.iter().any(|t| t.span.start == byte) {
                return Some(s.place(part, i, None));
            }
        }
    }
    None
}
