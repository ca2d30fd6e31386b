//! Step lines to chunks: which words belong to which counts.

use super::counts::{Mark, lone, mark, sub_sign};
use super::lines::Line;
use super::vocabulary::W;
use super::words::{Kind, Token};
use super::{Chunk, SectionText, Slots};
use crate::floor::Heading;
use crate::text::{Span, lower};
use crate::time::Ticks;

/// A count mark inside a line, with the side on which its words stand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Placed {
    pub mark: Mark,
    /// The words stand before it.
    pub behind: bool,
    /// It gives a number of counts, not positions.
    pub total: bool,
}

/// Signs that writers use to lead the eye to counts at the end of a line.
fn fill(t: &Token) -> bool {
    matches!(t.kind, Kind::Sign('-' | '.' | '=' | '_' | '*' | '>' | ':'))
}

/// All count marks of a line from token `from` on.
pub(super) fn marks(text: &str, line: &Line, from: usize, style_behind: bool) -> Vec<Placed> {
    marks_after(text, line, from, style_behind, None)
}

/// The same for a line that goes on from one whose last count is known.
fn marks_after(text: &str, line: &Line, from: usize, style_behind: bool, after: Option<i32>) -> Vec<Placed> {
    let t = &line.tokens;
    let mut out: Vec<Placed> = Vec::new();
    let mut i = from;
    let mut last: Option<i32> = after;
    if let Some(m) = line.leading_at(text, from)
        && (from == line.first
            || m.ticks.len() >= 2 && t.get(from).is_some_and(|t| t.gap == 2)
            || from > 1 && t[from - 1].sign('>') && matches!(t[from - 2].kind, Kind::Number(_)))
        && m.to < t.len()
    {
        last = Some(m.last());
        i = m.to;
        out.push(Placed { mark: m, behind: false, total: false });
    }
    let led = !out.is_empty() || after.is_some();
    let led_by_mark = !out.is_empty();
    // Counts in pairs, such as 12 and 34, where a line has several of them.
    let pairs = t.iter().filter(|t| matches!(t.kind, Kind::Number(12 | 34 | 56 | 78))).count() >= 2;
    while i < t.len() {
        let token = &t[i];
        if matches!(token.kind, Kind::Sign('(' | '[' | '{')) {
            if let Some(placed) = bracketed(text, t, i) {
                i = placed.mark.to;
                if !placed.total {
                    last = Some(placed.mark.last());
                }
                out.push(placed);
                continue;
            }
        } else if led
            && (matches!(token.kind, Kind::Number(_))
                || (sub_sign(text, token).is_some()
                    && t.get(i + 1).is_some_and(|n| matches!(n.kind, Kind::Number(_)))))
            && i > 0
            && (matches!(t[i - 1].kind, Kind::Sign('.' | ';' | ',' | '/' | ')' | '*')) || token.gap == 2)
            && let Some(m) = mark(text, t, i, t.len())
            && Some(m.first()) == last.map(|l| l + 1)
            && t.get(m.to).is_some_and(|n| n.gap > 0 || matches!(n.kind, Kind::Sign(':' | '-' | '.' | ')')))
            && !t
                .get(m.to)
                .is_some_and(|n| matches!(n.kind, Kind::W(W::Count | W::Wall | W::Times) | Kind::Sign('/')))
        {
            last = Some(m.last());
            let mut to = m.to;
            while t.get(to).is_some_and(|t| matches!(t.kind, Kind::Sign(':' | '.' | '-' | ')'))) {
                to += 1;
            }
            i = to;
            out.push(Placed { mark: Mark { to, ..m }, behind: false, total: false });
            continue;
        } else if led
            && token.is(W::And)
            && token.gap == 2
            && i > since(&out, from)
            && t.get(i + 1).is_some_and(|n| n.gap == 1)
            && let Some(l) = last
        {
            // "| & R side | 3 L cross": a cell of its own.
            let mark =
                Mark { ticks: vec![Ticks(l * 24 + 12)], range: false, from: i, to: i + 1, span: token.span };
            out.push(Placed { mark, behind: false, total: false });
        } else if let Some(p) = spoken_half(text, t, i, last) {
            let since = out.last().map_or(from, |p| p.mark.to);
            let behind = words_between(t, since, i)
                && !matches!(t.get(p.to).map(|n| n.kind), Some(Kind::W(w)) if acts(w));
            i = p.to;
            out.push(Placed { mark: p, behind, total: false });
            continue;
        } else if !led_by_mark && let Some(p) = behind_words(text, t, i, since(&out, from), last, pairs) {
            last = Some(p.mark.last().max(last.unwrap_or(0)));
            i = p.mark.to;
            out.push(p);
            continue;
        } else if token.is(W::On)
            && t.get(i + 1).is_some_and(|n| matches!(n.kind, Kind::Number(_)))
            && let Some(m) = mark(text, t, i + 1, t.len()).map(|m| whole_counts(text, t, m))
            && !t.get(m.to).is_some_and(|n| matches!(n.kind, Kind::W(W::OClock | W::Wall | W::Count)))
            && last.is_none_or(|l| m.first() == l + 1 || m.first() == 1)
        {
            // "on 3 step left": the words follow; "left shuffle on 1&2": they stand before.
            let since = out.last().map_or(from, |p| p.mark.to);
            let behind = words_between(t, since, i)
                && !matches!(t.get(m.to).map(|n| n.kind), Some(Kind::W(w)) if acts(w));
            last = Some(m.last());
            i = m.to;
            out.push(Placed { mark: Mark { from: m.from - 1, ..m }, behind, total: false });
            continue;
        }
        i += 1;
    }
    if let Some(placed) = trailing(text, t, from, led, style_behind)
        && out.last().is_none_or(|p| p.mark.to <= placed.mark.from)
    {
        out.push(placed);
    }
    settle(&mut out, led);
    out
}

/// Where the words of the next mark begin.
fn since(out: &[Placed], from: usize) -> usize {
    out.last().map_or(from, |p| p.mark.to)
}

/// `on "and"`, `on the "and"`: the half-count behind the last count.
fn spoken_half(text: &str, t: &[Token], i: usize, last: Option<i32>) -> Option<Mark> {
    let last = last?;
    if !t[i].is(W::On) {
        return None;
    }
    let quote = |k: usize| t.get(k).is_some_and(|t| matches!(t.kind, Kind::Sign('"' | '\'')));
    let mut to = i + 1;
    if t.get(to).is_some_and(|t| t.is(W::The)) {
        to += 1;
    }
    let quoted = quote(to);
    to += usize::from(quoted);
    let and = t.get(to)?;
    if !and.is(W::And) || !quoted && to == i + 1 && and.span.of(text).len() > 1 {
        return None;
    }
    to += 1;
    to += usize::from(quoted && quote(to));
    Some(Mark { ticks: vec![Ticks(last * 24 + 12)], range: false, from: i, to, span: and.span })
}

/// A count mark right behind its words and before the end of a clause, without brackets: `coaster R 7&8.`
fn behind_words(
    text: &str,
    t: &[Token],
    i: usize,
    since: usize,
    last: Option<i32>,
    pairs: bool,
) -> Option<Placed> {
    let number = matches!(t[i].kind, Kind::Number(_));
    let half = t[i].is(W::And) && t[i].gap > 0;
    if i <= since || !(number || half) {
        return None;
    }
    // "in 1&2", "that's 1-2&3-4", "on 3 4", "- 12"
    let mut from = i;
    while from > since
        && (matches!(t[from - 1].kind, Kind::W(W::In | W::On) | Kind::Sign('-'))
            || lower(t[from - 1].span.of(text)).starts_with("that"))
    {
        from -= 1;
    }
    let before = t.get(from.checked_sub(1)?)?;
    let spoken = from < i && t[from..i].iter().any(|t| !matches!(t.kind, Kind::Sign(_)));
    let word = match before.kind {
        Kind::Name(_) | Kind::Feet | Kind::Fraction(_) => true,
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
                )
        }
        Kind::Sign(',' | ')' | '"') => spoken,
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
            || n.sign('-') && n.gap > 0
            || n.is(W::Then)
    });
    let after_last = last.is_none_or(|l| m.ticks[0].0 > l * 24);
    let several = m.ticks.len() >= 2;
    let written = exact || m.ticks.iter().any(|t| t.within() != 0) || m.range || spoken || number_dash(t, &m);
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

/// Whether a mark is written with a dash, as 1-2 is.
fn number_dash(t: &[Token], m: &Mark) -> bool {
    t[m.from..m.to].iter().any(|t| t.sign('-'))
}

/// Counts without a number before a mark behind its words: "walk R, walk L, shuffle R 3&4".
fn fill_gaps(section: &SectionText, t: &[Token], from: usize, placed: &mut [Placed]) {
    let mut next = match section.chunks.last().map(|c| &c.slots) {
        None => Some(1),
        Some(Slots::At { ticks, .. }) => ticks.last().map(|t| t.count() + 1),
        Some(_) => None,
    };
    let mut at = from;
    for p in placed.iter_mut() {
        if p.total || !p.behind {
            next = None;
            at = p.mark.to;
            continue;
        }
        let first = p.mark.first();
        if let Some(expected) = next
            && p.mark.ticks.len() >= 2
            && (1..=8).contains(&(first - expected))
            && (expected > 1 || first <= 8)
        {
            let words = &t[at.min(p.mark.from)..p.mark.from];
            let parts = || words.split(|t| matches!(t.kind, Kind::Sign(',' | '.' | ';'))).filter(|c| says(c));
            // "Coaster" fills three counts by itself.
            let figure =
                parts().next_back().is_some_and(|c| c.iter().any(|t| matches!(t.kind, Kind::Name(_))));
            let clauses = parts().count();
            if clauses > p.mark.ticks.len() || clauses >= 2 && figure {
                let mut ticks: Vec<Ticks> = (expected..first).map(Ticks::of_count).collect();
                ticks.append(&mut p.mark.ticks);
                p.mark.ticks = ticks;
            }
        }
        next = Some(p.mark.last() + 1);
        at = p.mark.to;
    }
}

/// Whether words tell something to do.
fn says(t: &[Token]) -> bool {
    t.iter().any(|t| match t.kind {
        Kind::Name(_) => true,
        Kind::W(w) => acts(w) || matches!(w, W::Side | W::Forward | W::Back | W::Behind | W::Across),
        _ => false,
    })
}

/// "Counts 9 and 10" are two counts; nothing happens between them.
pub(super) fn whole_counts(text: &str, t: &[Token], mut m: Mark) -> Mark {
    if t[m.from..m.to].iter().any(|t| t.is(W::And) && t.span.of(text).eq_ignore_ascii_case("and")) {
        m.ticks.retain(|t| t.within() == 0);
    }
    m
}

fn acts(w: W) -> bool {
    crate::sheet::words::acts(w)
}

/// Whether a verb or a name stands between two tokens, after the last full stop or colon.
fn words_between(t: &[Token], from: usize, to: usize) -> bool {
    let start = t[from..to]
        .iter()
        .rposition(|t| matches!(t.kind, Kind::Sign('.' | ':' | ';')))
        .map_or(from, |n| from + n + 1);
    t[start..to].iter().any(|t| matches!(t.kind, Kind::Name(_)) || matches!(t.kind, Kind::W(w) if acts(w)))
}

/// `(1-2)`, `[3]`, `(8 counts)`, `(1&2 3&4)`, `(4)`.
fn bracketed(text: &str, t: &[Token], open: usize) -> Option<Placed> {
    let mut from = open + 1;
    let said = t.get(from).is_some_and(|t| t.is(W::Count));
    if said {
        from += 1;
    }
    let closes = |at: usize| t.get(at).is_some_and(|t| matches!(t.kind, Kind::Sign(')' | ']' | '}')));
    if let Some(sign) = t.get(from).and_then(|t| sub_sign(text, t))
        && closes(from + 1)
    {
        return Some(Placed {
            mark: Mark { from: open, to: from + 2, ..lone(t, from, sign) },
            behind: true,
            total: false,
        });
    }
    let m = mark(text, t, from, t.len())?;
    let mut to = m.to;
    let counted = t.get(to).is_some_and(|t| t.is(W::Count));
    if counted {
        to += 1;
    }
    if t.get(to)?.sign(',') && !counted {
        // "(3, now 6:00)": what follows the count is said after the step.
        let close = (to..t.len().min(to + 6)).find(|k| matches!(t[*k].kind, Kind::Sign(')' | ']')))?;
        let words = t[to..close].iter().any(|t| matches!(t.kind, Kind::Clock(_)));
        return words.then(|| Placed {
            mark: Mark { from: open, to: to + 1, ..m },
            behind: true,
            total: false,
        });
    }
    if !matches!(t.get(to)?.kind, Kind::Sign(')' | ']' | '}')) {
        return None;
    }
    to += 1;
    let total = counted && m.ticks.len() == 1;
    Some(Placed { mark: Mark { from: open, to, ..m }, behind: true, total })
}

/// Counts at the end of a line: after dots or dashes, after a wide gap, or "four" and "thats eight".
fn trailing(text: &str, t: &[Token], from: usize, led: bool, style_behind: bool) -> Option<Placed> {
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
            || t[end - 1].is(W::The) && t[end - 1].span.of(text).eq_ignore_ascii_case("now"))
    {
        end -= 1;
    }
    if !t[end..tail].iter().any(|t| matches!(t.kind, Kind::Clock(_))) || t.get(end).is_some_and(|t| t.gap < 2)
    {
        end = tail;
    }
    let over = if end == tail { t.len() } else { end };
    // "(8 counts)" and the like are found as brackets.
    for start in (from.max(1)..end).rev().take(14) {
        let token = &t[start];
        let before = &t[start - 1];
        let run = fill(before) && start >= from + 2 && fill(&t[start - 2]);
        let word = matches!(before.kind, Kind::Name(_))
            || matches!(before.kind, Kind::W(w) if acts(w) || matches!(w, W::R | W::L | W::RF | W::LF | W::Forward | W::Back | W::Side | W::Together | W::Beside | W::Half | W::Across | W::Behind));
        let opens = run
            || word && exact(t, start, end)
            || fill(before) && before.gap > 0
            || token.gap == 2
            || matches!(before.kind, Kind::Sign(':' | '=' | '>'));
        if !opens || !matches!(token.kind, Kind::Number(_) | Kind::W(W::And | W::Count) | Kind::Fraction(_)) {
            continue;
        }
        let at = if token.is(W::Count) { start + 1 } else { start };
        if let Some(m) = mark(text, t, at, end) {
            let mut to = m.to;
            let counted = t.get(to).is_some_and(|t| t.is(W::Count)) && to + 1 == end;
            if counted {
                to += 1;
            }
            if to == end {
                let total = counted && m.ticks.len() == 1;
                let mut first = start;
                while first > from && fill(&t[first - 1]) {
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
                || lower(t[end - 2].span.of(text)).starts_with("that"))
        {
            let ticks = vec![Ticks::of_count(i32::try_from(n).unwrap_or(0))];
            let mark = Mark { ticks, range: false, from: end - 2, to: t.len(), span: last.span };
            return Some(Placed { mark, behind: true, total: true });
        }
    }
    None
}

/// Whether a count mark of several counts, such as `3&4` or `1-2`, ends a line without a sign before it.
fn exact(t: &[Token], start: usize, end: usize) -> bool {
    let whole = |t: &Token| matches!(t.kind, Kind::Number(_)) || t.is(W::And) || t.sign('-');
    end - start >= 3
        && matches!(t[start].kind, Kind::Number(_))
        && t[start + 1..end].iter().all(|t| whole(t) && t.gap == 0)
        && !t[..start].iter().any(|t| t.is(W::Repeat))
}

/// Decides which single numbers in brackets are positions, numbers of counts, or clocks.
fn settle(out: &mut Vec<Placed>, led: bool) {
    if out.is_empty() {
        return;
    }
    let single = |p: &Placed| p.behind && p.mark.ticks.len() == 1 && p.mark.ticks[0].within() == 0;
    if led {
        // After a leading mark a lone number in brackets is a clock, unless several count on.
        let first = out.iter().find(|p| p.behind).map(|p| p.mark.first());
        let counts_on = out[0].mark.range && first == Some(out[0].mark.first());
        let parts = out.iter().any(|p| p.behind && p.mark.ticks.iter().any(|t| t.within() != 0));
        if !counts_on && !parts && out.iter().filter(|p| p.behind).all(single) {
            out.retain(|p| !p.behind);
        }
        return;
    }
    // "(7), rec L (8) (12)": a last number that jumps to an hour is a clock.
    if let [.., before, last] = out.as_slice()
        && single(last)
        && last.mark.to - last.mark.from <= 3
        && (last.mark.first() > before.mark.last() + 1
            || last.mark.from == before.mark.to && before.mark.last() % 4 == 0)
        && !before.total
        && matches!(last.mark.first(), 3 | 6 | 9 | 12)
    {
        out.pop();
    }
    let numbers: Vec<i32> =
        out.iter().filter(|p| !p.total && p.mark.ticks[0].0 > 0).map(|p| p.mark.first()).collect();
    let rising = numbers.len() > 1 && numbers.windows(2).all(|w| w[1] > w[0] && w[1] - w[0] <= 2);
    let singles = out.iter().filter(|p| single(p)).count();
    let parts = out.iter().any(|p| p.mark.ticks[0].within() != 0);
    if !rising && !parts {
        for p in out.iter_mut() {
            // "(4)" by itself is a number of counts; "(1)" begins a row of positions.
            if p.behind
                && !p.total
                && p.mark.ticks.len() == 1
                && p.mark.ticks[0].within() == 0
                && p.mark.first() > 1
            {
                p.total = singles == 1 && numbers.len() == 1
                    || numbers.windows(2).any(|w| w[1] <= w[0])
                    || numbers.len() == 1;
            }
        }
    }
}

/// Turns a bare number in brackets into a clock, for lines whose counts stand elsewhere.
pub(super) fn clocks(t: &mut [Token]) {
    for i in 0..t.len() {
        let Kind::Number(n) = t[i].kind else { continue };
        let closed = i > 0
            && matches!(t[i - 1].kind, Kind::Sign('(' | '['))
            && t.get(i + 1).is_some_and(|t| matches!(t.kind, Kind::Sign(')' | ']')));
        let said = t.get(i + 1).is_some_and(|t| t.is(W::OClock));
        let faced = i > 0 && t[i - 1].is(W::Face);
        // "coaster L 7&8 = 9"
        let told = i > 0
            && matches!(t[i - 1].kind, Kind::Sign('=' | '>'))
            && n % 3 == 0
            && t.get(i + 1).is_none_or(|t| matches!(t.kind, Kind::Sign(';' | ')' | ']' | '.' | '\n')));
        if (closed || said || faced || told) && (1..=12).contains(&n) {
            t[i].kind = Kind::Clock(Heading::new(i32::try_from(n * 4).unwrap_or(0)));
        }
    }
}

/// Adds the words of a step line to a section. `joins` says that the line goes on from the one before.
pub(super) fn add(
    text: &str,
    section: &mut SectionText,
    line: &Line,
    from: usize,
    style_behind: bool,
    joins: bool,
) {
    // A line that goes on may go on with the counts, too: "... side, 4 kick L".
    let after = section.chunks.last().filter(|_| joins).and_then(|c| match &c.slots {
        Slots::At { ticks, .. } if !style_behind => ticks.last().map(|t| t.count()),
        _ => None,
    });
    let mut placed = marks_after(text, line, from, style_behind, after);
    let t = &line.tokens;
    fill_gaps(section, t, from, &mut placed);
    section.span = section.span.join(line.span);
    let joins = joins && !section.chunks.is_empty();
    if placed.iter().all(|p| p.behind) {
        let mut at = from;
        for (k, p) in placed.iter().enumerate() {
            let words = t[at..p.mark.from].iter().any(|t| !matches!(t.kind, Kind::Sign(_)));
            if !words && k > 0 && !p.total && extend(section, p) {
                at = p.mark.to;
                continue;
            }
            let open = section.chunks.last().is_some_and(|c| c.slots == Slots::Free);
            if k > 0 || !joins || !open {
                push_open(section);
            }
            append(section, line, &t[at..p.mark.from]);
            close(section, p);
            at = p.mark.to;
        }
        let rest = &t[at..];
        if rest.iter().any(|t| !matches!(t.kind, Kind::Sign(_))) {
            let new = if placed.is_empty() { !joins } else { speaks(rest) };
            if new || section.chunks.is_empty() {
                push_open(section);
            }
            append(section, line, rest);
        }
    } else {
        let mut at = from;
        let first = placed[0].mark.from;
        if first > at {
            if section.chunks.is_empty() {
                push_open(section);
            }
            append(section, line, &t[at..first]);
        }
        let inner = placed.iter().any(|p| p.behind);
        let (first, rest) = (&placed[0], &placed[1..]);
        let within = rest.first().is_some_and(|p| p.mark.first() == first.mark.first())
            && rest.iter().all(|p| p.behind && p.mark.last() <= first.mark.last());
        let whole = inner && !first.behind && (first.mark.range || within);
        for (k, p) in placed.iter().enumerate() {
            if whole && k == 0 {
                // "1-4 Side (1), behind (2), ...": the marks inside are exact.
                at = p.mark.to;
                continue;
            }
            push_open(section);
            if p.behind {
                append(section, line, &t[at.max(from).min(p.mark.from)..p.mark.from]);
                at = p.mark.to;
            } else {
                let end = placed.get(k + 1).map_or(t.len(), |n| {
                    if n.behind { parting(t, p.mark.to, n.mark.from) } else { n.mark.from }
                });
                append(section, line, &t[p.mark.to..end]);
                at = end;
            }
            close(section, p);
        }
        if at < t.len() {
            append(section, line, &t[at..]);
        }
    }
    clocks(&mut section.tokens);
}

/// Where the words of a mark before them end and those of a mark behind them begin: "on the and pivot right; step
/// left forward on 7". Nowhere, where only the second has words.
fn parting(t: &[Token], from: usize, to: usize) -> usize {
    let cuts = |strong: bool| {
        (from + 1..to)
            .rev()
            .find(|i| matches!(t[*i].kind, Kind::Sign('.' | ';')) || !strong && t[*i].sign(','))
    };
    let fits = |i: &usize| says(&t[from..*i]) && says(&t[*i..to]);
    cuts(true).filter(fits).or_else(|| cuts(false).filter(fits)).map_or(from, |i| i + 1)
}

/// "drag R [2], [3]": a mark without words of its own belongs to the words before it.
fn extend(section: &mut SectionText, p: &Placed) -> bool {
    let Some(Slots::At { ticks, .. }) = section.chunks.last_mut().map(|c| &mut c.slots) else { return false };
    let last = ticks.last().copied().unwrap_or_default();
    ticks.extend(p.mark.ticks.iter().filter(|t| **t > last));
    true
}

/// Puts tokens at the end of the last chunk; a line's end parts clauses.
fn append(section: &mut SectionText, line: &Line, t: &[Token]) {
    let start = line.span.start as usize;
    // "..., drop" at a line's end, with "left toe" on the next, is one clause.
    let wrapped = section.tokens.last().is_some_and(|last| matches!(last.kind, Kind::W(w) if acts(w)))
        && line.indent > 0
        && t.first().is_some_and(|t| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF | W::The)));
    if !wrapped && section.tokens.last().is_none_or(|t| (t.span.end as usize) <= start) {
        section.tokens.push(Token { kind: Kind::Sign('\n'), span: Span::new(start, start), gap: 2 });
    }
    section.tokens.extend_from_slice(t);
    let to = section.tokens.len();
    if let Some(chunk) = section.chunks.last_mut() {
        chunk.to = to;
    }
}

/// Whether what follows a count mark is steps again, not a remark.
fn speaks(t: &[Token]) -> bool {
    let verb = |t: &Token| matches!(t.kind, Kind::Name(_)) || matches!(t.kind, Kind::W(w) if acts(w));
    let stopped = matches!(t.first().map(|t| t.kind), Some(Kind::Sign('.' | '!' | '?')));
    let words = || t.iter().filter(|t| matches!(t.kind, Kind::W(_) | Kind::Name(_) | Kind::Unknown));
    let steps = words().filter(|t| verb(t) || says(core::slice::from_ref(*t)) || side(t)).count();
    t.iter().any(verb) && (!stopped || steps * 3 >= words().count() * 2)
}

fn side(t: &Token) -> bool {
    matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF | W::Heel | W::Toe | W::Quarter | W::Half))
}

fn push_open(section: &mut SectionText) {
    let from = section.tokens.len();
    section.chunks.push(Chunk { slots: Slots::Free, mark: Span::default(), from, to: from });
}

fn close(section: &mut SectionText, p: &Placed) {
    // "(7)" by itself after counts up to 6 is a position.
    let before = section.chunks.iter().rev().skip(1).find_map(|c| match &c.slots {
        Slots::At { ticks, .. } => ticks.last().map(|t| t.count()),
        _ => None,
    });
    let total = p.total && before.is_none_or(|b| p.mark.first() != b + 1);
    let to = section.tokens.len();
    let mut ticks = p.mark.ticks.clone();
    if let [only] = ticks.as_mut_slice()
        && only.0 < 0
    {
        // A lone "&" or "a" stands after the count before it.
        let before = section.chunks.iter().rev().skip(1).find_map(|c| match &c.slots {
            Slots::At { ticks, .. } => ticks.last().map(|t| t.count()),
            _ => None,
        });
        only.0 += (before.unwrap_or(0) + 1) * 24;
    }
    if let Some(chunk) = section.chunks.last_mut() {
        chunk.to = to;
        chunk.mark = p.mark.span;
        chunk.slots = if total {
            Slots::Total(u32::try_from(p.mark.last()).unwrap_or(0))
        } else {
            Slots::At { ticks, range: p.mark.range }
        };
    }
}
