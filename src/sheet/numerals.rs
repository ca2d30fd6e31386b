//! Numerals of sections among words: under sections I to V "do II again" points at the second of them, and "part V" is
//! no V step.

use super::labels::section_word;
use super::lines::Line;
use super::vocabulary::W;
use super::words::{Kind, Token};
use crate::text::Span;

/// Numerals that nobody takes for another word, once they stand over sections.
const NUMERALS: &[&str] = &["II", "III", "IV", "V", "VI", "VII", "VIII"];

/// Makes known which numerals are those of sections.
pub(super) fn numerals(text: &str, lines: &mut [Line]) {
    let numeral = |t: &Token| NUMERALS.contains(&t.span.of(text));
    if !lines.iter().any(|l| l.tokens.iter().any(numeral)) {
        return;
    }
    let labelled = |l: &Line, number: &str| {
        let t = l.tokens.get(l.first..).unwrap_or_default();
        let sign = t.get(1).is_some_and(|t| matches!(t.kind, Kind::Sign('.' | ')' | ':' | '-')));
        t.first().is_some_and(|t| t.span.of(text) == number) && sign
    };
    let numbered = ["II", "III"].iter().all(|n| lines.iter().any(|l| labelled(l, n)));
    for line in lines {
        for k in (1..line.tokens.len()).rev() {
            let t = line.tokens[k];
            let named = section_word(text, &line.tokens[k - 1]);
            let read = named || numbered && t.span.of(text) != "V";
            if !numeral(&t) || k <= line.first || !read {
                continue;
            }
            line.tokens[k].kind = Kind::Unknown;
            if !named {
                let span = Span { end: t.span.start, ..t.span };
                line.tokens.insert(k, Token { kind: Kind::W(W::Section), span, gap: t.gap });
                line.tokens[k + 1].gap = 1;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::sheet::lines::lines;
    use crate::sheet::vocabulary::{Vocabulary, W};

    #[test]
    fn a_numeral_of_a_section_points_at_it() {
        let text = "I. Walks\n1-8 walk\nII. Vines\n1-8 vine\nIII. V step\n1-4 V\n\nrepeat II";
        let lines = lines(text, &Vocabulary::new());
        let sections = |words: &str| {
            let of = lines.iter().find(|l| l.span.of(text) == words).expect("a line");
            of.tokens.iter().filter(|t| t.is(W::Section)).count()
        };
        assert_eq!([sections("repeat II"), sections("1-4 V")], [1, 0]);
    }
}
