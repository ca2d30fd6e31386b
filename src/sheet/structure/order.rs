//! The order in which the parts are danced: `A A B, tag, A`, in one line, in several, or in a sentence.

use super::{Kind, Line, Token, W};
use crate::sheet::numbers::value;
use crate::text::{among, lower};

/// The letters of parts that a word is made of: `A`, `AAB`.
fn letters<'t>(text: &'t str, t: &Token) -> Option<&'t str> {
    let w = &text.as_bytes()[t.span.range()];
    (!w.is_empty() && w.iter().all(|b| (b'A'..=b'F').contains(b))).then(|| t.span.of(text))
}

/// Whether a token names the tag, by its letter too: "A B A B T A".
pub(super) fn tag(text: &str, t: &Token) -> bool {
    t.is(W::Tag) || t.span.of(text) == "T"
}

/// Whether a token only joins the parts of an order, or says how often or how far one is danced.
fn joins(text: &str, t: &Token) -> bool {
    match t.kind {
        Kind::Times(_) | Kind::Number(_) | Kind::Fraction(_) => true,
        Kind::Sign(sign) => {
            matches!(sign, ',' | ';' | '-' | '/' | '>' | '+' | '|' | '(' | ')' | '[' | ']' | '*' | '\n')
        }
        Kind::W(w) => matches!(
            w,
            W::And
                | W::Then
                | W::Tag
                | W::Set
                | W::Again
                | W::The
                | W::Once
                | W::Twice
                | W::Times
                | W::More
                | W::Two
                | W::Three
                | W::Four
                | W::Half
                | W::Count
        ),
        _ => tag(text, t) || t.span.is_among(text, among!["another", "only", "short", "last", "part"]),
    }
}

/// The parts that an order names, one after the other, as often as it says: "A x2, B, tag 1, two times C".
pub(super) fn order(text: &str, t: &[Token]) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    let first = t.iter().position(|t| letters(text, t).is_some()).unwrap_or(t.len());
    let colon = t[..first].iter().rposition(|t| t.sign(':')).map_or(0, |k| k + 1);
    // How often the part is danced that comes next, and how many names the last one put into the order.
    let mut times = 1;
    let mut last = 0;
    let mut k = colon;
    while k < t.len() {
        let named = letters(text, &t[k]);
        // "Two times B", "A twice", "A x2"
        let (often, len) = match t[k].kind {
            Kind::Times(n @ 2..=9) => (n, 1),
            Kind::W(W::Twice) => (2, 1),
            _ => match value(&t[k]) {
                Some(n @ 2..=9) if t.get(k + 1).is_some_and(|t| t.is(W::Times)) => (n, 2),
                _ => (1, 1),
            },
        };
        if tag(text, &t[k]) {
            let number = match t.get(k + 1).map(|t| t.kind) {
                Some(Kind::Number(n @ 1..=9)) if !t.get(k + 2).is_some_and(|t| t.is(W::Count)) => Some(n),
                _ => None,
            };
            out.push(number.map_or_else(|| "tag".to_string(), |n| format!("tag {n}")));
            (times, last) = (1, 0);
            k += usize::from(number.is_some());
        } else if let Some(named) = named {
            for _ in 0..times {
                out.extend(named.chars().map(|c| c.to_string()));
            }
            last = if times == 1 { named.len() } else { 0 };
            times = 1;
        } else if often > 1 && last > 0 {
            let again = out[out.len() - last..].to_vec();
            for _ in 1..often {
                out.extend_from_slice(&again);
            }
            last = 0;
        } else if often > 1 {
            times = often;
        } else if !matches!(t[k].kind, Kind::Sign('(' | '[')) && !t[k].is(W::Set) {
            last = 0;
        }
        k += len;
    }
    out
}

/// Whether a line is nothing but an order: "A A B C", "Tag", "Verse: A B (x2)".
fn bare(text: &str, line: &Line) -> bool {
    let t = &line.tokens[line.first.min(line.tokens.len())..];
    let colon = t.iter().take(4).position(|t| t.sign(':'));
    let lead = colon.filter(|k| t[..*k].iter().all(|t| letters(text, t).is_none())).map_or(0, |k| k + 1);
    let parts = &t[lead..];
    !parts.is_empty()
        && parts.iter().any(|t| letters(text, t).is_some() || tag(text, t))
        && parts.iter().all(|t| letters(text, t).is_some() || joins(text, t))
}

/// Whether a line announces an order below it: "The parts come in this order:", "SEQUENCE".
fn announces(text: &str, line: &Line) -> bool {
    let over = line.tokens.last().is_some_and(|t| t.sign(':')) || line.words <= 3;
    let named = |t: &Token| {
        let word = lower(t.span.of(text));
        word.starts_with("sequence") || word.starts_with("order") || word.starts_with("phras")
    };
    over && line.tokens.iter().any(named) && line.tokens.iter().all(|t| letters(text, t).is_none())
}

/// "Sequence: A A B, A A B, Tag, A, B B".
fn alone(text: &str, t: &[Token]) -> bool {
    let group = |w: &str| w.len() > 1 && w.bytes().all(|b| b <= b'D');
    let letter = |t: &&Token| letters(text, t).is_some_and(|w| w.len() == 1 || group(w));
    let count = t.iter().filter(letter).count();
    if count == 0 {
        return false;
    }
    // "Phrased in parts A, B, C" names the parts and gives no order.
    if t.iter().take(3).any(|t| t.span.of(text).eq_ignore_ascii_case("phrased")) {
        return false;
    }
    let other = t.iter().filter(|t| !matches!(t.kind, Kind::Sign(_))).count();
    count >= 3 && count * 2 >= other
        || t.iter().any(|t| {
            let word = lower(t.span.of(text));
            word.starts_with("sequence") || word == "order"
        }) && count * 3 >= other
}

/// "How it goes: A, A, tag 1, B twice, tag 2, A": an order alone or behind a colon, in which a part comes again.
fn with_tags(text: &str, t: &[Token]) -> bool {
    let Some(first) = t.iter().position(|t| letters(text, t).is_some()) else { return false };
    let run = &t[t[..first].iter().rposition(|t| t.sign(':')).map_or(0, |k| k + 1)..];
    let lengths = run.windows(2).any(|w| matches!(w[0].kind, Kind::Number(_)) && w[1].is(W::Count));
    let parts = order(text, run);
    let again = parts.iter().enumerate().any(|(k, p)| p.len() == 1 && parts[..k].contains(p));
    let whole = run.iter().all(|t| letters(text, t).is_some() || joins(text, t) || t.sign('.'));
    whole && again && !lengths && parts.iter().filter(|p| p.len() == 1).count() >= 3
}

/// Whether a line gives the order of the parts by itself.
pub(super) fn sequence_line(text: &str, t: &[Token]) -> bool {
    alone(text, t) || with_tags(text, t)
}

/// Which lines give the order of the parts: a line that is one by itself, and those below it or below words that
/// announce it.
pub(super) fn order_lines(text: &str, lines: &[Line]) -> Vec<bool> {
    let mut out: Vec<bool> = lines.iter().map(|l| sequence_line(text, &l.tokens)).collect();
    // Whether the order is open, and how many lines it has below the one that opens it.
    let mut open = None;
    for i in 0..lines.len() {
        if lines[i].empty() {
            // A gap may stand below the words that announce it.
            open = open.filter(|(announced, below)| *announced && *below == 0);
            continue;
        }
        if out[i] {
            open = Some((open.is_some_and(|(announced, _)| announced), 1));
            continue;
        }
        if announces(text, &lines[i]) {
            open = Some((true, 0));
            continue;
        }
        let Some((announced, below)) = open else { continue };
        let names = order(text, &lines[i].tokens[lines[i].first..]).len();
        // "A" by itself above steps is a heading.
        let next = lines.get(i + 1).is_some_and(|l| bare(text, l));
        let last = below >= 2 && lines.get(i + 1).is_none_or(Line::empty);
        if bare(text, &lines[i]) && (names >= 2 || next || last) {
            out[i] = true;
            open = Some((announced, below + 1));
        } else {
            open = None;
        }
    }
    out
}

/// The order of the parts in the midst of a sentence, "you dance them in this order: A, B, A, B": its tokens.
pub(super) fn sequence_told<'t>(text: &str, t: &'t [Token]) -> Option<&'t [Token]> {
    let letter = |t: &Token| letters(text, t).is_some_and(|w| w.len() == 1 || w.len() > 2);
    let mut from = 0;
    while let Some(first) = (from..t.len()).find(|k| letter(&t[*k])) {
        let run = t[first..].iter().take_while(|t| letter(t) || joins(text, t)).count();
        let run = &t[first..first + run];
        let parts = order(text, run);
        let names = || parts.iter().filter(|p| p.len() == 1);
        let several = names().any(|p| names().next() != Some(p));
        // "A 32, B 16, C 16, D 8" tells how long they are.
        let lengths = run.iter().any(|t| matches!(t.kind, Kind::Number(_)))
            && (1..parts.len()).all(|k| !parts[..k].contains(&parts[k]));
        if names().count() >= 4 && several && !lengths {
            return Some(run);
        }
        from = first + run.len();
    }
    None
}

#[cfg(test)]
mod tests {
    use super::super::super::vocabulary::Vocabulary;
    use super::super::super::words::tokens;
    use super::*;

    #[track_caller]
    fn check(words: &str, expected: &str) {
        let t = tokens(words, 0..words.len(), &Vocabulary::new());
        assert_eq!(order(words, &t).join(" "), expected, "{words:?}");
        assert!(sequence_line(words, &t) || sequence_told(words, &t).is_some(), "{words:?}");
    }

    #[test]
    fn parts_are_danced_as_often_as_the_order_says() {
        check("Sequence: A A B, tag, A B", "A A B tag A B");
        check("How it goes: A, A, tag 1, B, A, tag 2, B, B", "A A tag 1 B A tag 2 B B");
        check("Dance sequence: AAB, AAB, Tag, CB", "A A B A A B tag C B");
        check("Order: A x2 - B - A (x2) - B", "A A B A A B");
        check("Sequence: A twice, B, then A twice and B", "A A B A A B");
        check(
            "It goes: A, then B, A again, B again, then the tag, then C, and two times B",
            "A B A B tag C B B",
        );
        check("A - B - C - A(16) - B - C - C", "A B C A B C C");
        check("SEQ  A - B - A - B - T - A - A - B", "A B A B tag A A B");
        check("A B T A B T2 A", "A B tag A B tag 2 A");
        check("part A, part A, part B, tag, part A, part B twice", "A A B tag A B B");
    }
}
