//! What stands ahead of the first count of a line: a name and a colon, or a word that only joins.

use super::chunks::says;
use super::counts::{Mark, half_sign, mark};
use super::lines::{Line, line_of};
use super::vocabulary::W;
use super::words::{Kind, Token, acts};
use crate::text::{among, is_among};

/// The longest name that stands ahead of counts, in tokens.
const LONGEST: usize = 12;

/// How many lines are asked which words are cut.
const CUT: usize = 8;

/// Puts the first count of a line before the name that stands ahead of it: "Jazz box: 1 cross R over L, 2 step L back"
/// is counted, and called a jazz box.
pub(super) fn names(text: &str, lines: &mut [Line]) {
    for line in lines {
        if line.told.is_some() {
            continue;
        }
        let Some((colon, m)) = named(text, &line.tokens, line.first) else { continue };
        let mut t = line.tokens[..line.first].to_vec();
        t.extend_from_slice(&line.tokens[m.from..m.to]);
        t.extend_from_slice(&line.tokens[line.first..=colon]);
        t.extend_from_slice(&line.tokens[m.to..]);
        let first = line.first;
        t[first].gap = 1;
        if let Some(name) = t.get_mut(first + m.to - m.from) {
            name.gap = 1;
        }
        *line =
            Line { indent: line.indent, bullet: line.bullet, ..line_of(text, line.span, t, line.after_gap) };
    }
}

/// Takes counts between angles, "<1&2> R shuffle", for counts in brackets.
pub(super) fn angles(text: &str, lines: &mut [Line]) {
    for line in lines.iter_mut().filter(|l| l.told.is_none()) {
        let t = &mut line.tokens;
        for k in 0..t.len() {
            let close = t[k].sign('<').then(|| mark(text, t, k + 1, t.len()).map(|m| m.to)).flatten();
            if let Some(to) = close.filter(|to| t.get(*to).is_some_and(|t| t.sign('>'))) {
                (t[k].kind, t[to].kind) = (Kind::Sign('['), Kind::Sign(']'));
                line.first = line.first.min(k);
            }
        }
    }
}

/// Leaves out the full stops of cut words, "Lf. forward, Rf. beside Lf., wait": a word whose stop has a comma behind it
/// is one wherever it stands.
pub(super) fn cut_words(text: &str, lines: &mut [Line]) {
    let stop = |t: &[Token], k: usize| {
        k > 0 && t[k].sign('.') && t[k].gap == 0 && matches!(t[k - 1].kind, Kind::W(_) | Kind::Name(_))
    };
    let mut cut: Vec<&str> = Vec::new();
    for t in lines.iter().map(|l| &l.tokens) {
        let commas = (1..t.len()).filter(|k| t[*k].sign(',') && t[*k].gap == 0 && stop(t, k - 1));
        cut.extend(commas.map(|k| t[k - 2].span.of(text)).take(1));
        if cut.len() >= CUT {
            break;
        }
    }
    if cut.len() < 2 {
        return;
    }
    for line in lines {
        let t = &line.tokens;
        // A sentence ends where the next one begins, and at the end of the line.
        let on = |k: usize| {
            t.get(k + 1).is_some_and(|t| t.gap < 2 && !t.span.of(text).starts_with(char::is_uppercase))
        };
        let of = |k: usize| cut.iter().any(|w| w.eq_ignore_ascii_case(t[k - 1].span.of(text)));
        let stops: Vec<usize> =
            (line.first + 1..t.len()).filter(|k| stop(t, *k) && on(*k) && of(*k)).collect();
        for k in stops.into_iter().rev() {
            line.tokens.remove(k);
        }
        line.begin(line.first);
    }
}

/// Takes the sign between whole counts for one that joins them, where half-counts have another, "1+2 side rock" beside
/// "3&4 behind, side, cross", and where just two steps stand beside them.
pub(super) fn joined(text: &str, lines: &mut [Line]) {
    let between = |w: &[Token], sign: &str| {
        let number = |t: &Token| matches!(t.kind, Kind::Number(_));
        number(&w[0]) && w[1].is(W::And) && w[1].gap == 0 && w[1].span.of(text) == sign && number(&w[2])
    };
    let uses = |l: &Line, sign: &str| l.tokens.windows(3).any(|w| between(w, sign));
    if !lines.iter().any(|l| uses(l, "+")) {
        return;
    }
    // A block of lines is of one hand.
    let mut signed = vec![false; lines.len()];
    let mut from = 0;
    for i in 0..=lines.len() {
        if lines.get(i).is_none_or(Line::empty) {
            let found = lines[from..i].iter().any(|l| uses(l, "&"));
            signed[from..i].fill(found);
            from = (i + 1).min(lines.len());
        }
    }
    for (line, signed) in lines.iter_mut().zip(signed) {
        // "5+6 rock left back, recover right": two steps on two counts.
        let two = || {
            let words = &line.tokens[line.first.min(line.tokens.len())..];
            let dashed = words.windows(2).any(|w| w[0].sign('-') && w[0].gap > 0 && w[1].gap > 0);
            !dashed && super::chunks::turns(words) == 2
        };
        if line.told.is_some() || !(signed || two()) {
            continue;
        }
        let joins: Vec<usize> = (1..line.tokens.len())
            .filter(|k| line.tokens.get(k - 1..k + 2).is_some_and(|w| between(w, "+")))
            .collect();
        for k in joins {
            line.tokens[k].kind = Kind::Sign('-');
        }
    }
}

/// Puts a hold for the dash that is all that stands beside a count, between lines that are counted on: "2 -".
pub(super) fn rests(text: &str, lines: &mut [Line]) {
    let idle = |l: &Line| match l.tokens.get(l.first..) {
        Some([Token { kind: Kind::Number(n), .. }, rest @ ..]) => {
            let dash =
                !rest.is_empty() && rest.iter().all(|t| matches!(t.kind, Kind::Sign('-' | '~' | '.' | '_')));
            dash.then(|| i32::try_from(*n).unwrap_or(0)).filter(|_| l.told.is_none())
        }
        _ => None,
    };
    let found: Vec<usize> = (1..lines.len())
        .filter(|i| {
            let Some(n) = idle(&lines[*i]) else { return false };
            lines[*i - 1].leading(text).is_some_and(|m| m.last() == n - 1)
        })
        .collect();
    for i in found {
        let line = &lines[i];
        let mut t = line.tokens.clone();
        let at = line.first + 1;
        t.truncate(at + 1);
        t[at] = Token { kind: Kind::W(W::Hold), gap: 1, ..t[at] };
        lines[i] = Line { indent: line.indent, ..line_of(text, line.span, t, line.after_gap) };
    }
}

/// The colon behind the name that a line begins with, and the count behind it where the line counts on from there.
fn named(text: &str, t: &[Token], first: usize) -> Option<(usize, Mark)> {
    let colon = (first + 1..t.len().min(first + LONGEST)).find(|k| t[*k].sign(':'))?;
    let name = &t[first..colon];
    let word = |t: &Token| match t.kind {
        Kind::Name(_) | Kind::Fraction(_) | Kind::Sign('-' | '/') => true,
        Kind::W(w) => {
            acts(w)
                || says(core::slice::from_ref(t))
                || matches!(
                    w,
                    W::R | W::L
                        | W::And
                        | W::Then
                        | W::The
                        | W::With
                        | W::To
                        | W::Turn
                        | W::Quarter
                        | W::Half
                        | W::Quick
                        | W::Slow
                        | W::Change
                        | W::Heel
                        | W::Toe
                        | W::Foot
                        | W::Syncopated
                )
        }
        _ => false,
    };
    let tells = |t: &Token| matches!(t.kind, Kind::Name(_) | Kind::W(W::Quick | W::Slow | W::Then));
    if !name.iter().all(word) || !(name.iter().any(tells) || says(name)) {
        return None;
    }
    let at = colon + 1;
    if !matches!(t.get(at)?.kind, Kind::Number(_) | Kind::W(W::And)) {
        return None;
    }
    let m = mark(text, t, at, t.len())?;
    let step = |k: usize| match t.get(k).map(|t| t.kind) {
        Some(Kind::Name(_)) => true,
        Some(Kind::W(w)) => {
            acts(w) || says(core::slice::from_ref(&t[k])) || matches!(w, W::R | W::L | W::RF | W::LF | W::The)
        }
        Some(Kind::Fraction(_)) => m.ticks.len() >= 2,
        _ => false,
    };
    // "3 steps and a touch" tells how many.
    let many = t.get(m.to).is_some_and(|t| {
        let word = t.span.of(text);
        word.ends_with(['s', 'S']) && !word.ends_with("ss") && !word.ends_with("SS")
    });
    let next = u32::try_from(m.last() + 1).unwrap_or(0);
    let counts_on = || {
        (m.to + 1..t.len()).any(|k| {
            let number =
                matches!(t[k].kind, Kind::Number(n) if if m.ticks[0].0 < 0 { n > 1 } else { n == next });
            number && step(k + 1)
        })
    };
    let several = m.ticks.len() >= 2 && m.ticks[0].0 >= 0;
    let counted = step(m.to) && t[m.to].gap > 0 && (several || !many && counts_on());
    counted.then_some((colon, m))
}

/// How many words ahead of a line's first count only join it to the line before: "and 7&8 left shuffle", "then 5-6 rock".
pub(super) fn joins(text: &str, t: &[Token], from: usize) -> usize {
    let Some(first) = t.get(from) else { return 0 };
    let word = first.span.of(text);
    let number = t.get(from + 1).is_some_and(|t| matches!(t.kind, Kind::Number(_)) && t.gap > 0);
    let then = first.is(W::Then) || is_among(word, among!["next", "finally", "lastly"]);
    // Where half-counts have their sign, the word is none.
    let and = first.is(W::And)
        && is_among(word, among!["and"])
        && mark(text, t, from + 1, t.len())
            .is_some_and(|m| t[m.from..m.to].iter().any(|t| half_sign(text, t)));
    // "then 2 quarter pivots" tells how many.
    let size =
        t.get(from + 2).is_some_and(|t| matches!(t.kind, Kind::Fraction(_) | Kind::W(W::Quarter | W::Half)));
    let many = size && t.get(from + 3).is_some_and(|t| t.span.of(text).ends_with(['s', 'S']));
    usize::from(number && (then || and) && !many)
}

/// Whether a line begins with "and" for the half-count behind the line before: "and left beside right, 7 right to the
/// side" counts on from the step that it tells first.
pub(super) fn half_opens(text: &str, t: &[Token], from: usize) -> bool {
    let foot = |k: usize| matches!(t.get(k).map(|t| t.kind), Some(Kind::W(W::R | W::L | W::RF | W::LF)));
    let the = |k: usize| k + usize::from(t.get(k).is_some_and(|t| t.is(W::The)));
    let step = |k: usize| foot(the(k)) || matches!(t.get(k).map(|t| t.kind), Some(Kind::W(w)) if acts(w));
    let opens = t.get(from).is_some_and(|t| t.span.is_among(text, among!["and"])) && step(from + 1);
    let number = |t: &Token| matches!(t.kind, Kind::Number(_));
    opens
        && t.iter().skip(from + 1).position(number).is_some_and(|n| {
            let k = from + 1 + n;
            matches!(t[k].kind, Kind::Number(2..=8)) && t[k - 1].sign(',') && step(k + 1)
        })
}

#[cfg(test)]
mod tests {
    use super::super::lines::lines;
    use super::super::vocabulary::Vocabulary;
    use super::super::words::tokens;
    use super::*;
    use crate::figures::lexicon;

    #[track_caller]
    fn check(text: &str, expected: Option<&str>) {
        let t = tokens(text, 0..text.len(), &lexicon().vocabulary);
        let found = named(text, &t, 0).map(|(_, m)| t[m.from].span.join(t[m.to - 1].span).of(text));
        assert_eq!(found, expected, "{text}");
    }

    #[test]
    fn a_name_stands_ahead_of_counts() {
        check("Jazz box: 1 cross R over L, 2 step L back, 3 side, 4 forward", Some("1"));
        check("L vine 1/4 & brush: 5 L side, 6 R behind, 7 L forward, 8 brush R", Some("5"));
        check("Then quick: & close L to R, 7 R to right side, 8 touch", Some("&"));
        check("Coaster: 7&8 L back, R together, L forward", Some("7&8"));
        check("Vine R: 3 steps and a touch", None);
        check("Pivot: 1/2 turn left", None);
        check("Section two: 1 step, 2 touch", None);
    }

    #[test]
    fn a_plus_joins_two_steps() {
        let counts = |text: &str| {
            let t = tokens(text, 0..text.len(), &lexicon().vocabulary);
            let mut lines = [line_of(text, crate::text::Span::new(0, text.len()), t, false)];
            joined(text, &mut lines);
            lines[0].leading(text).map_or(0, |m| m.ticks.len())
        };
        assert_eq!(counts("5+6 Rock left back, recover right"), 2);
        assert_eq!(counts("3+4 Shuffle back right"), 3);
        assert_eq!(counts("1+2 side rock, 3&4 behind, side, cross"), 2);
        assert_eq!(counts("7+8 Step left - right beside left - 1/4 left and step forward left"), 3);
    }

    #[test]
    fn a_comma_behind_its_stop_tells_a_cut_word() {
        let stops = |below: &str| {
            let text = format!("Lf. beside Rf., wait\nRf. beside Lf., wait\n{below}");
            let mut found = lines(&text, &lexicon().vocabulary);
            let signs = found.pop().map(|l| l.tokens.iter().filter(|t| t.sign('.')).count());
            signs.unwrap_or_default()
        };
        assert_eq!(stops("Lf. forward, Rf. beside Lf., Lf. in place"), 0);
        assert_eq!(stops("on the Lf. Rf. forward"), 1, "a sentence begins");
        assert_eq!(stops("step back. touch Rf. to the side"), 1, "no comma behind it anywhere");
    }

    #[test]
    fn words_join_lines() {
        let joins = |text: &str| {
            let t = tokens(text, 0..text.len(), &Vocabulary::new());
            (joins(text, &t, 0), half_opens(text, &t, 0))
        };
        assert_eq!(joins("and 7&8 L shuffle"), (1, false));
        assert_eq!(joins("then 5-6 rock L"), (1, false));
        assert_eq!(joins("then 2 quarter pivots"), (0, false), "how many");
        assert_eq!(joins("and 3 cross L"), (0, false), "a half-count and a count");
        assert_eq!(joins("and left next to right, 7 right to the side"), (0, true));
        assert_eq!(joins("and left next to right"), (0, false));
    }
}
