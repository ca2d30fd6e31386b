//! A word that is one letter away from a word of the trade.

use super::finding::Severity;
use super::subject::{Draft, Subject};
use crate::figures::lexicon;
use crate::sheet::words::Kind;
use crate::text::Edit;

pub(super) const NAME: &str = "misspelt";

/// Shorter words have too many neighbours.
const SHORTEST: usize = 5;

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    let mut seen: Vec<String> = Vec::new();
    for part in 0..s.dance().parts.len() {
        let Some(text) = s.part_text(part) else { continue };
        for (i, section) in text.sections.iter().enumerate() {
            for t in section.tokens.iter().filter(|t| t.kind == Kind::Unknown) {
                let word = t.span.of(s.text).to_lowercase();
                if word.chars().count() < SHORTEST || seen.contains(&word) || seen.len() > 20 {
                    continue;
                }
                let Some(known) = neighbour(&word) else { continue };
                seen.push(word.clone());
                let mut draft = s.at(NAME, Severity::Note, t.span, s.place(part, i, None)).says(format!(
                    "“{}” is no word of the trade; “{known}” may be meant.",
                    t.span.of(s.text)
                ));
                let text = super::edits::like(t.span.of(s.text), known);
                draft.offer(10, false, format!("write “{text}”"), vec![Edit { span: t.span, text }]);
                out.push(draft);
            }
        }
    }
}

/// The one known word that is a single edit away: a letter more, less, other, or two letters exchanged.
fn neighbour(word: &str) -> Option<&'static str> {
    let mut found: Option<(&'static str, crate::sheet::vocabulary::Word)> = None;
    for (spelling, w) in lexicon().vocabulary.spellings() {
        if spelling.len() < SHORTEST - 1 || !near(word, spelling) {
            continue;
        }
        match found {
            Some((_, other)) if other != w => return None,
            Some(_) => {}
            None => found = Some((spelling, w)),
        }
    }
    found.map(|(s, _)| s)
}

/// Whether two words differ by one edit.
fn near(a: &str, b: &str) -> bool {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().collect(), b.chars().collect());
    if a.len().abs_diff(b.len()) > 1 || a == b {
        return false;
    }
    let same = a.iter().zip(&b).take_while(|(x, y)| x == y).count();
    let (ra, rb) = (&a[same..], &b[same..]);
    if ra.len() > rb.len() {
        ra[1..] == *rb
    } else if ra.len() < rb.len() {
        *ra == rb[1..]
    } else {
        ra[1..] == rb[1..] || (ra.len() >= 2 && ra[0] == rb[1] && ra[1] == rb[0] && ra[2..] == rb[2..])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_edit_away() {
        assert_eq!(neighbour("shufle"), Some("shuffle"));
        assert_eq!(neighbour("touhc"), Some("touch"));
        assert_eq!(neighbour("saltmarsh"), None);
        assert!(!near("touch", "touch"));
    }
}
