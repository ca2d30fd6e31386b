//! Two words of shorthand that are written as one: `xsh`, `sdrk`, `Vstep`, `pivL`.

use super::lines::weigh;
use super::vocabulary::{Vocabulary, W};
use super::words::{Kind, Token, known};
use crate::text::Span;

/// Where a word that begins with an x for a cross goes on, and with what: "xsh", "xbhd", "xrk".
pub(super) fn crossed(word: &str, vocabulary: &Vocabulary) -> Option<(usize, Kind)> {
    let rest = word.strip_prefix('x').filter(|rest| rest.len() >= 2)?;
    let kind = match rest {
        // "In front" and "in back", where a foot crosses.
        "if" | "fr" => Kind::W(W::Front),
        "ib" => Kind::W(W::Behind),
        _ => known(rest, vocabulary),
    };
    weigh(kind).0.then_some((1, kind))
}

/// The two words that one is glued from, both of them of steps.
pub(super) fn parted(text: &str, token: &Token, vocabulary: &Vocabulary) -> Option<[Token; 2]> {
    let word = token.span.of(text);
    if !word.is_ascii() || !(3..=14).contains(&word.len()) {
        return None;
    }
    let small = word.to_ascii_lowercase();
    let both = |at: usize| {
        let (a, b) = small.split_at(at);
        let side = |s: &str| matches!(s, "r" | "l");
        // "Rfwd" and "pivL": the capital of a foot stands out from small letters.
        let capital = |i: usize, rest: &str| {
            word.as_bytes()[i].is_ascii_uppercase() && rest.bytes().all(|b| b.is_ascii_lowercase())
        };
        let fits = match (side(a), side(b)) {
            (true, false) => b.len() >= 2 && capital(0, &word[1..]),
            (false, true) => a.len() >= 2 && capital(at, &word[1..at]),
            (false, false) => b.len() >= 2 && (a.len() >= 2 || matches!(a, "v" | "k") && b.starts_with("st")),
            (true, true) => false,
        };
        if !fits {
            return None;
        }
        let (first, second) = (known(a, vocabulary), known(b, vocabulary));
        let steps = part(a, first) && part(b, second) || a.len() == 1 && second == Kind::W(W::Step);
        (steps && (weigh(first).1 || weigh(second).1 || side(a))).then_some((at, first, second))
    };
    let (at, first, second) = (1..small.len()).find_map(both)?;
    let (start, end) = (token.span.start as usize, token.span.end as usize);
    Some([
        Token { kind: first, span: Span::new(start, start + at), gap: token.gap },
        Token { kind: second, span: Span::new(start + at, end), gap: 0 },
    ])
}

/// Whether a word may be a part of a longer one. "Stand", "inch" and "shout" are no two steps.
fn part(word: &str, kind: Kind) -> bool {
    match kind {
        Kind::W(W::And | W::In | W::Out | W::Place | W::Home | W::Close) => false,
        // What is danced again is no step.
        Kind::W(W::Repeat | W::Same | W::Again | W::Twice | W::More | W::Other | W::Times) => false,
        Kind::Name(_) => word.len() >= 5 || matches!(word, "sh" | "shf" | "shuf" | "jazz" | "box" | "vine"),
        _ => weigh(kind).0 && !matches!(word, "st" | "over"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::lexicon;
    use crate::sheet::words::tokens;

    #[track_caller]
    fn check(word: &str, expected: &str) {
        let v = &lexicon().vocabulary;
        let t = tokens(word, 0..word.len(), v);
        let parts = match t[..] {
            [token] if token.kind == Kind::Unknown => parted(word, &token, v).map_or(t, Vec::from),
            _ => t,
        };
        let parts: Vec<_> = parts.iter().map(|t| t.span.of(word)).collect();
        assert_eq!(parts.join(" "), expected, "{word}");
    }

    #[test]
    fn shorthand_glues_words_of_steps_and_no_others() {
        check("xsh", "x sh");
        check("xshuf", "x shuf");
        check("xbhd", "x bhd");
        check("xib", "x ib");
        check("sdrk", "sd rk");
        check("rkfwd", "rk fwd");
        check("lksh", "lk sh");
        check("Vstep", "V step");
        check("pivL", "piv L");
        check("Rfwd", "R fwd");
        check("jazzbox", "jazz box");
        check("rollingvine", "rolling vine");
        check("sandy", "sandy");
        check("stand", "stand");
        check("shout", "shout");
        check("events", "events");
        check("strip", "strip");
        check("extra", "extra");
        check("insider", "insider");
        check("Lagoon", "Lagoon");
        check("xylophone", "xylophone");
    }
}
