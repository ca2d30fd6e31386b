//! Counts that end a line: behind dots, dashes or a wide gap, or in words.

use super::counts::{Mark, mark};
use super::marks::{Placed, fill, over, whole_counts};
use super::vocabulary::W;
use super::words::{Kind, Token, acts};
use crate::text::begins_with;
use crate::time::Ticks;

/// Counts at the end of a line: after dots or dashes, after a wide gap, or "four" and "thats eight".
pub(super) fn trailing(
    text: &str,
    t: &[Token],
    from: usize,
    led: bool,
    style_behind: bool,
) -> Option<Placed> {
    if led || t.is_empty() {
        return None;
    }
    let mut end = t.len();
    while end > from && matches!(t[end - 1].kind, Kind::Sign('.' | '|' | ';' | ',' | '*')) {
        end -= 1;
    }
    // "... 5 6 7 8   now 9:00"
    let tail = end;
    while end > from
        && (matches!(t[end - 1].kind, Kind::Clock(_) | Kind::Sign('(' | ')' | '[' | ']' | '=' | '>'))
            || t[end - 1].is(W::Face)
            || t[end - 1].is(W::To) && t.get(end).is_some_and(|t| matches!(t.kind, Kind::Clock(_)))
            || t[end - 1].is(W::The) && t[end - 1].span.of(text).eq_ignore_ascii_case("now"))
    {
        end -= 1;
    }
    if !t[end..tail].iter().any(|t| matches!(t.kind, Kind::Clock(_))) || t.get(end).is_some_and(|t| t.gap < 2)
    {
        end = tail;
    }
    if end == tail
        && let Some(open) = remark_behind(text, t, from, end)
    {
        end = open;
    }
    let over = if end == tail { t.len() } else { end };
    // "(8 counts)" and the like are found as brackets.
    for start in (from.max(1)..end).rev().take(14) {
        let token = &t[start];
        if !matches!(token.kind, Kind::Number(_) | Kind::W(W::And | W::Count) | Kind::Fraction(_)) {
            continue;
        }
        let before = &t[start - 1];
        let run = fill(before) && start >= from + 2 && fill(&t[start - 2]);
        let word = matches!(before.kind, Kind::Name(_))
            || matches!(before.kind, Kind::W(w) if acts(w) || matches!(w, W::R | W::L | W::RF | W::LF | W::Forward | W::Back | W::Side | W::Together | W::Beside | W::Half | W::Across | W::Behind));
        // "..., counts 1-2", "That is 1, 2."
        let said = start >= from + 2
            && before.span.of(text) == "is"
            && t[start - 2].span.of(text).eq_ignore_ascii_case("that");
        // "Back rock (L, recover R), 5-6": several counts that end a line behind a comma.
        let told = (token.is(W::Count) || exact(t, start, end))
            && matches!(before.kind, Kind::Sign(',' | '.'))
            || said;
        // ", 7&8" behind 5&6 goes on with it.
        let wider = before.sign(',')
            && (start.saturating_sub(5).max(from)..start).any(|k| {
                matches!(t[k].kind, Kind::Number(_)) && mark(text, t, k, end).is_some_and(|m| m.to == end)
            });
        if wider {
            continue;
        }
        let opens = run
            || told
            || word && exact(t, start, end)
            || fill(before) && before.gap > 0
            || before.sign('/') && before.gap > 0 && token.gap > 0
            || token.gap == 2
            || matches!(before.kind, Kind::Sign(':' | '=' | '>'));
        if !opens {
            continue;
        }
        let at = if token.is(W::Count) { start + 1 } else { start };
        // "1 2 | 3 4": the cells of the counts go on to the left.
        let cell = t[start].gap == 2
            && matches!(before.kind, Kind::Number(_))
            && mark(text, t, start - 1, end).is_some_and(|m| m.to == end)
            && (from + 1..start)
                .any(|k| t[k].gap == 2 && mark(text, t, k, end).is_some_and(|m| m.to == end && !m.range));
        // "1 - 2": a dash with blanks joins two counts as well.
        let dashed = before.sign('-')
            && start >= from + 2
            && matches!(t[start - 2].kind, Kind::Number(_))
            && mark(text, t, start - 2, end).is_some_and(|m| m.to == end);
        if cell || dashed {
            continue;
        }
        if let Some(m) = mark(text, t, at, end).map(|m| if at > start { whole_counts(text, t, m) } else { m })
        {
            let mut to = m.to;
            let counted = t.get(to).is_some_and(|t| t.is(W::Count)) && to + 1 == end;
            if counted {
                to += 1;
            }
            if to == end {
                let total = counted && m.ticks.len() == 1;
                let mut first = start - if said { 2 } else { 0 };
                while first > from && (fill(&t[first - 1]) || t[first - 1].sign('/')) {
                    first -= 1;
                }
                return Some(Placed { mark: Mark { from: first, to: over, ..m }, behind: true, total });
            }
        }
    }
    if style_behind && end > from {
        // "..., four", "thats eight"
        let last = &t[end - 1];
        if let Some((n, 1)) = super::head::number(t, end - 1)
            && matches!(n, 2 | 3 | 4 | 6 | 8 | 12 | 16)
            && end >= from + 3
            && (matches!(t[end - 2].kind, Kind::Sign(',' | '-' | '='))
                || begins_with(t[end - 2].span.of(text), "that"))
        {
            let ticks = vec![Ticks::of_count(i32::try_from(n).unwrap_or(0))];
            let mark = Mark { ticks, range: false, from: end - 2, to: t.len(), span: last.span };
            return Some(Placed { mark, behind: true, total: true });
        }
    }
    None
}

/// "...... 1 2 (back wall)": where a remark behind counts begins that end a row of dots.
fn remark_behind(text: &str, t: &[Token], from: usize, end: usize) -> Option<usize> {
    let closes = t.get(end.checked_sub(1)?)?.sign(')');
    let open = t[..end].iter().rposition(|t| t.sign('(')).filter(|k| closes && *k > from)?;
    let inside = &t[open + 1..end];
    let dots = t[from..open].iter().rposition(fill).map(|k| from + k + 1)?;
    let counted = mark(text, t, dots, open).is_some_and(|m| m.to == open);
    let says = |t: &Token| matches!(t.kind, Kind::Number(_)) || matches!(t.kind, Kind::W(w) if acts(w));
    (counted && !inside.iter().any(says)).then_some(open)
}

/// Whether a count mark of several counts, such as `3&4` or `1-2`, ends a line without a sign before it.
pub(super) fn exact(t: &[Token], start: usize, end: usize) -> bool {
    let whole = |t: &Token| matches!(t.kind, Kind::Number(_)) || t.is(W::And) || t.sign('-');
    end - start >= 3
        && matches!(t[start].kind, Kind::Number(_))
        && t[start + 1..end].iter().all(|t| whole(t) && t.gap == 0)
        && !t[..start].iter().any(|t| t.is(W::Repeat))
}

/// A count mark right behind its words and before the end of a clause, without brackets: `coaster R 7&8.`
pub(super) fn behind_words(
    text: &str,
    t: &[Token],
    i: usize,
    since: usize,
    last: Option<i32>,
    pairs: bool,
) -> Option<Placed> {
    let number = matches!(t[i].kind, Kind::Number(_));
    // "L heel & (5&6&)": the bracket tells when.
    let half = t[i].is(W::And) && t[i].gap > 0 && !t.get(i + 1).is_some_and(|t| t.sign('(') || t.sign('['));
    if i <= since || !(number || half) {
        return None;
    }
    // "in 1&2", "that's 1-2&3-4", "on 3 4", "- 12", "over counts 5, 6"
    let mut from = i;
    while from > since
        && (matches!(t[from - 1].kind, Kind::W(W::In | W::On | W::Count) | Kind::Sign('-'))
            || from < i && over(text, &t[from - 1])
            || begins_with(t[from - 1].span.of(text), "that"))
    {
        from -= 1;
    }
    let before = t.get(from.checked_sub(1)?)?;
    let spoken = from < i && t[from..i].iter().any(|t| !matches!(t.kind, Kind::Sign(_)));
    let word = match before.kind {
        Kind::Name(_) | Kind::Feet | Kind::Fraction(_) => true,
        // "R heel & L heel & in 1&2&"
        Kind::W(W::And) => spoken,
        Kind::W(w) => {
            acts(w)
                || matches!(
                    w,
                    W::R | W::L
                        | W::RF
                        | W::LF
                        | W::Forward
                        | W::Back
                        | W::Side
                        | W::Behind
                        | W::Across
                        | W::Beside
                        | W::Home
                        | W::Half
                        | W::Quarter
                        | W::In
                        | W::Out
                        | W::Heel
                        | W::Toe
                        | W::Twice
                        | W::More
                        | W::Again
                )
        }
        // "pivot half left (right forward) 1-2, half shuffle left 3&4"
        Kind::Sign(')') if parts_count(t, i) => true,
        Kind::Sign(',' | ')' | '"') => spoken,
        // "12 / 34 / 56 / 78"
        Kind::Sign('/') => pairs && before.gap > 0 && from > since,
        _ => false,
    };
    if from < since || !word || t[since..from].iter().any(|t| t.is(W::Repeat) || t.is(W::Wall)) {
        return None;
    }
    let packed = if pairs { super::lines::packed(text, t, i, true) } else { None };
    let exact = packed.is_some();
    let m = packed.or_else(|| mark(text, t, i, t.len()))?;
    let ends = t.get(m.to).is_none_or(|n| {
        n.gap == 2
            || matches!(n.kind, Kind::Sign(',' | ';' | '.' | '=' | ':' | '!' | '[' | '>' | '('))
            || matches!(n.kind, Kind::Sign('-' | '/')) && n.gap > 0
            || n.is(W::Then)
    });
    let after_last = last.is_none_or(|l| m.ticks[0].0 > l * 24);
    let several = m.ticks.len() >= 2;
    // "R whisk 5a6 | L fwd, piv 1/4R 7 8": they count on from the mark before.
    let on = several && last.is_some_and(|l| m.first() == l + 1);
    let written =
        exact || on || m.ticks.iter().any(|t| t.within() != 0) || m.range || spoken || number_dash(t, &m);
    let single = last.is_some() && (m.ticks[0].0 < 0 || Some(m.first()) == last.map(|l| l + 1));
    let fits = ends && (several && written && after_last || !several && single && since > 0);
    fits.then(|| {
        let mark = match last {
            // A lone "&" lies behind the last count.
            Some(l) if m.ticks[0].0 < 0 => {
                Mark { ticks: vec![Ticks(l * 24 + 24 + m.ticks[0].0)], from, to: m.to, ..m }
            }
            _ => Mark { from, ..m },
        };
        Placed { mark, behind: true, total: false }
    })
}

/// Whether several counts without blanks begin at a token: 1-2, 3&4.
fn parts_count(t: &[Token], i: usize) -> bool {
    let joined = t.get(i + 1).is_some_and(|t| t.gap == 0 && (t.sign('-') || t.is(W::And)));
    joined && t.get(i + 2).is_some_and(|t| t.gap == 0 && matches!(t.kind, Kind::Number(_)))
}

/// Whether a mark is written with a dash, as 1-2 is.
fn number_dash(t: &[Token], m: &Mark) -> bool {
    t[m.from..m.to].iter().any(|t| t.sign('-'))
}
