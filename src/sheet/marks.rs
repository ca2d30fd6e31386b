//! Count marks in a line: which they are, and on which side their words stand.

use super::counts::{Mark, mark, named_half, sub_sign};
use super::lines::Line;
use super::marks_amid::{half_amid, half_before, opened_by_half, running};
use super::marks_behind::{behind_words, trailing};
use super::marks_bracketed::bracketed;
use super::marks_settled::settle;
use super::vocabulary::W;
use super::words::{Kind, Token, acts};
use crate::text::among;
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
pub(super) fn fill(t: &Token) -> bool {
    matches!(t.kind, Kind::Sign('-' | '.' | '=' | '_' | '*' | '>' | ':'))
}

/// All count marks of a line from token `from` on.
pub(super) fn marks(text: &str, line: &Line, from: usize, style_behind: bool) -> Vec<Placed> {
    marks_after(text, line, from, style_behind, None)
}

/// The same for a line that goes on from one whose last count is known.
pub(super) fn marks_after(
    text: &str,
    line: &Line,
    from: usize,
    style_behind: bool,
    after: Option<i32>,
) -> Vec<Placed> {
    let t = &line.tokens;
    if after.is_none()
        && let Some(run) = running(text, t, from)
    {
        return run;
    }
    let mut out: Vec<Placed> = Vec::new();
    let mut i = from;
    let mut last: Option<i32> = after;
    if let Some(m) = line.leading_at(text, from)
        && !(from > line.first && turn_of_title(text, t, &m))
        && (from == line.first
            || runs_on(text, t, &m)
            || in_column(t, &m)
            || m.ticks.len() >= 2
                && t.get(from).is_some_and(|n| {
                    let signed = from == line.first + 2 && t[from - 1].sign(':');
                    n.gap == 2 || n.gap == 1 && (signed || !(m.range && m.ticks.len() >= 6))
                })
            || from > 1 && t[from - 1].sign('>') && matches!(t[from - 2].kind, Kind::Number(_)))
        && m.to < t.len()
    {
        last = Some(m.last());
        i = m.to;
        out.push(Placed { mark: m, behind: false, total: false });
    }
    if out.is_empty()
        && let Some(m) = told_length(t, from)
    {
        i = m.to;
        out.push(Placed { mark: m, behind: false, total: true });
    }
    let led = !out.is_empty() || after.is_some();
    let led_by_mark = !out.is_empty();
    // Counts in pairs, such as 12 and 34, where a line has several of them.
    let pairs = line.packed || super::pairs::pair_numbers(t) >= 2;
    while i < t.len() {
        let token = &t[i];
        // Most words begin no mark, whatever stands around them.
        let begins = match token.kind {
            Kind::Number(_) | Kind::Sign('(' | '[' | '{') | Kind::W(W::And | W::On) => true,
            Kind::W(_) | Kind::Name(_) | Kind::Unknown => {
                matches!(t.get(i + 1).map(|n| n.kind), Some(Kind::Number(_)))
            }
            _ => false,
        };
        if !begins {
            i += 1;
            continue;
        }
        if matches!(token.kind, Kind::Sign('(' | '[' | '{')) {
            if let Some(placed) = bracketed(text, t, i, pairs) {
                // "[12]" behind other counts is no pair of them.
                if t[i + 1].kind == Kind::Number(12) && placed.mark.ticks.len() == 2 && last.is_some() {
                    i = placed.mark.to;
                    continue;
                }
                // "12 L fwd, pivot R (6) / 3&4 shuffle": behind a leading count a number that does not count on is an
                // hour; so is "(3)" behind 5-6.
                let lone = placed.mark.ticks.len() == 1 && placed.mark.to == i + 3;
                let hour = lone && matches!(placed.mark.first(), 3 | 6 | 9 | 12);
                let leading = out.iter().rev().find(|p| !p.behind);
                let own = leading.is_none_or(|p| p.mark.ticks.contains(&placed.mark.ticks[0]));
                // "(3) | 3&4 shuffle": the next count mark begins with that number.
                let to = placed.mark.to;
                let again = || {
                    super::lines::packed(text, t, to, pairs)
                        .or_else(|| mark(text, t, to, t.len()))
                        .is_some_and(|m| m.ticks.len() >= 2 && m.first() == placed.mark.first())
                };
                // "3&4 R fwd, pivot 1/2 L, R fwd (3) / 5,6 ...": behind all of its steps it is where they lead.
                // So it is before a wide gap and the counts of the next.
                let ends = t.get(to).is_some_and(|t| {
                    t.sign('/') && t.gap > 0 || t.gap == 2 && matches!(t.kind, Kind::Number(_))
                }) && leading.is_some_and(|p| placed.mark.first() < p.mark.last())
                    && out.last().is_some_and(|p| !p.behind);
                let odd = !own && last.is_some_and(|l| placed.mark.first() != l + 1 || again());
                if hour && (ends || odd) {
                    i = placed.mark.to;
                    continue;
                }
                i = placed.mark.to;
                // A lone "&" or "a" leaves the count where it was.
                if !placed.total && placed.mark.ticks[0].0 > 0 {
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
            && (matches!(t[i - 1].kind, Kind::Sign('.' | ';' | ',' | '/' | ')' | '*'))
                || token.gap == 2
                || next_step(t, i)
                || next_row(text, t, i))
            && !(joined_by_word(text, t, i))
            && let Some(m) = super::lines::packed(text, t, i, pairs).or_else(|| mark(text, t, i, t.len()))
            && (Some(m.first()) == last.map(|l| l + 1) || opened_by_half(&out) && m.first() > 1)
            && t.get(m.to)
                .is_some_and(|n| n.gap > 0 || matches!(n.kind, Kind::Sign(':' | '-' | '.' | ')' | '*')))
            && !t
                .get(m.to)
                .is_some_and(|n| matches!(n.kind, Kind::W(W::Count | W::Wall | W::Times) | Kind::Sign('/')))
        {
            last = Some(m.last());
            let m = only_joined(t, m);
            let mut to = m.to;
            while t.get(to).is_some_and(|t| matches!(t.kind, Kind::Sign(':' | '.' | '-' | ')' | '*'))) {
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
        } else if led
            && token.is(W::And)
            && i > since(&out, from)
            && t.get(i + 1).is_some_and(|n| n.sign(':'))
            && matches!(t[i - 1].kind, Kind::Sign('.' | ';' | ','))
            && let Some(l) = last
        {
            // "Two: rock left behind. And: recover."
            let ticks = vec![Ticks(l * 24 + 12)];
            let mark = Mark { ticks, range: false, from: i, to: i + 2, span: token.span };
            i = mark.to;
            out.push(Placed { mark, behind: false, total: false });
            continue;
        } else if led && let Some(tick) = half_before(text, t, i, last) {
            // "5,6 right side, hold; & left together; 7 right side"
            let mark = Mark { ticks: vec![tick], range: false, from: i, to: i + 1, span: token.span };
            out.push(Placed { mark, behind: false, total: false });
        } else if let Some(tick) = half_amid(text, t, i, &out) {
            // "1 heel R forward, & step R beside L, 2 heel L forward"
            let mark = Mark { ticks: vec![tick], range: false, from: i, to: i + 1, span: token.span };
            out.push(Placed { mark, behind: false, total: false });
        } else if !led_by_mark && let Some(m) = dotted_length(t, i, since(&out, from)) {
            i = m.to;
            out.push(Placed { mark: m, behind: true, total: true });
            continue;
        } else if let Some(p) = spoken_half(text, t, i, last) {
            // "1&2& Heel switches R, L (bringing L back on &)": the counts of the line are told, and a bracket explains.
            let told = led_by_mark && out[0].mark.ticks.contains(&p.ticks[0]);
            let inside = t[..i].iter().rev().find(|t| matches!(t.kind, Kind::Sign('(' | ')')));
            if told && inside.is_some_and(|t| t.sign('(')) {
                i = p.to;
                continue;
            }
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
            // "... left forward and on 6 you turn half"
            let joins =
                i > since && matches!(t[i - 1].kind, Kind::W(W::And | W::Then) | Kind::Sign(',' | ';' | '.'));
            let rest = &t[m.to..];
            let clause = rest.iter().position(|t| matches!(t.kind, Kind::Sign(_))).unwrap_or(rest.len());
            let follows = words_between(t, m.to, m.to + clause);
            let leads = joins && follows;
            // "Walk right, left on 5 and 6, right, left on 7 and 8": the feet alone go on.
            let feet = || {
                t[since..i].iter().any(|t| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF))) && !follows
            };
            let behind = !leads
                && (words_between(t, since, i) || feet())
                && !matches!(t.get(m.to).map(|n| n.kind), Some(Kind::W(w)) if acts(w));
            last = Some(m.last());
            i = m.to;
            out.push(Placed { mark: Mark { from: m.from - 1, ..m }, behind, total: false });
            continue;
        }
        i += 1;
    }
    // "[1 2] R forward, hold [3 4] L forward, hold": where such marks lead, each leads its words.
    let open = t.get(from).filter(|_| led_by_mark).map(|t| t.kind);
    if let Some(Kind::Sign('(' | '[' | '{')) = open
        && out.len() >= 2
        && out[1..].iter().all(|p| open == Some(t[p.mark.from].kind) && p.mark.to < t.len())
        && counts_through(&out)
    {
        out.iter_mut().for_each(|p| p.behind = false);
    }
    // "5-8 Kick R, step R beside L & step L in place, twice: 5&6, 7&8": the range with its half-counts.
    if let [first] = out.as_slice()
        && first.mark.range
        && let Some(exact) = trailing(text, t, first.mark.to, false, false)
        && exact.mark.ticks.iter().any(|t| t.within() != 0)
        && (exact.mark.first(), exact.mark.last()) == (first.mark.first(), first.mark.last())
    {
        out.push(exact);
        return out;
    }
    if let Some(placed) = trailing(text, t, from, led, style_behind)
        && out.last().is_none_or(|p| p.mark.to <= placed.mark.from)
    {
        out.push(placed);
    }
    // "25-32: R heel, home, ..., clap (6)": the counts of the row are told, and a lone number is an hour.
    if let [only] = out.as_slice()
        && only.behind
        && matches!(only.mark.ticks[..], [tick] if tick.within() == 0)
        && row_length(t, from).is_some_and(|n| n != only.mark.first())
        && matches!(only.mark.first(), 3 | 6 | 9 | 12)
    {
        out.clear();
    }
    settle(t, &mut out, led);
    out
}

/// The last count of some marks; a lone "&" leaves it where it was.
pub(super) fn reached(marks: &[Placed]) -> Option<i32> {
    marks.iter().rev().find(|p| p.mark.ticks[0].0 > 0).map(|p| p.mark.last())
}

/// Whether each mark counts on from the one before it, or is a part of a beat behind it.
fn counts_through(out: &[Placed]) -> bool {
    let mut last = out[0].mark.last();
    out[1..].iter().all(|p| {
        let part = p.mark.ticks[0].0 < 0;
        let on = p.mark.first() == last + 1;
        last = if part { last } else { p.mark.last() };
        part || on
    })
}

/// "5,6,7 vine left & 8 scuff": a sign with blanks before a count that has one step only joins.
fn only_joined(t: &[Token], mut m: Mark) -> Mark {
    let apart = t[m.from].is(W::And) && t[m.from].gap > 0 && t.get(m.from + 1).is_some_and(|t| t.gap > 0);
    let number = |t: &Token| matches!(t.kind, Kind::Number(_));
    let end = t[m.to..].iter().position(number).map_or(t.len(), |n| m.to + n);
    if apart && m.ticks.len() == 2 && super::chunks::turns(&t[m.to..end]) == 1 {
        m.ticks.remove(0);
    }
    m
}

/// How many counts the range before this token has: "25-32: ".
fn row_length(t: &[Token], from: usize) -> Option<i32> {
    let signs = t[..from.min(t.len())].iter().rev().take_while(|t| matches!(t.kind, Kind::Sign(_))).count();
    let [.., first, dash, last] = &t[..from.min(t.len()) - signs] else { return None };
    let (Kind::Number(a), Kind::Number(b)) = (first.kind, last.kind) else { return None };
    let length = i32::try_from(b.checked_sub(a)? + 1).ok()?;
    dash.sign('-').then_some(length)
}

/// "Do 4: vine R, touch L", "for 8 counts: ...": the length of what follows.
fn told_length(t: &[Token], from: usize) -> Option<Mark> {
    if !matches!(t.get(from)?.kind, Kind::W(W::Make | W::For)) {
        return None;
    }
    let n = super::numbers::value(t.get(from + 1)?).filter(|n| matches!(n, 2..=16))?;
    let to = from + 2 + usize::from(t.get(from + 2).is_some_and(|t| t.is(W::Count)));
    let ticks = vec![Ticks::of_count(i32::try_from(n).unwrap_or(0))];
    t.get(to)?.sign(':').then(|| Mark { ticks, range: false, from, to: to + 1, span: t[from + 1].span })
}

/// "[37-42] 1/2 BACK, BACK": behind a label a fraction is a turn, unless the line goes on with counts so written.
fn turn_of_title(text: &str, t: &[Token], m: &Mark) -> bool {
    let fraction = |k: usize| matches!(t[k].kind, Kind::Fraction(_));
    let counts = |t: &Token| matches!(t.span.of(text), "5/6" | "7/8");
    fraction(m.from) && m.ticks.len() == 2 && !t[m.to..].iter().any(counts)
}

/// "A  1 LF fwd  2 RF point side": a count behind a label, where the next one follows in the same line.
fn runs_on(text: &str, t: &[Token], m: &Mark) -> bool {
    let next = u32::try_from(m.last() + 1).unwrap_or(0);
    let leads =
        |i: usize| i > 0 && (next_step(t, i) || t[i].gap == 2 || m.ticks.len() >= 2 && next_row(text, t, i));
    m.first() == 1
        && t.get(m.from).is_some_and(|first| first.gap > 0)
        && (m.to + 1..t.len()).any(|i| t[i].kind == Kind::Number(next) && leads(i))
}

/// ", and 8 & rock right": where half-counts have a sign, the word before a count only joins.
fn joined_by_word(text: &str, t: &[Token], i: usize) -> bool {
    let word = |t: &Token| t.is(W::And) && t.span.of(text).starts_with(char::is_alphabetic);
    word(&t[i]) && t[i].gap > 0 && t.iter().any(|t| t.is(W::And) && !word(t))
}

/// "top     1    R forward", "III   1 RF side": the first count in a column of its own behind a name or a label.
fn in_column(t: &[Token], m: &Mark) -> bool {
    let step = |k: Kind| matches!(k, Kind::W(w) if matches!(w, W::RF | W::LF | W::R | W::L) || acts(w) && w != W::Turn);
    m.first() == 1
        && t[m.from].gap == 2
        && t.get(m.to).is_some_and(|n| n.gap == 2 || n.gap > 0 && m.ticks.len() == 1 && step(n.kind))
}

/// Whether a bare number stands before the foot or the verb of a step: "1 LF fwd 2 RF point side 3 hold".
fn next_step(t: &[Token], i: usize) -> bool {
    let foot = |w: W| matches!(w, W::RF | W::LF | W::R | W::L);
    let Some((Kind::W(next), 1)) = t.get(i + 1).map(|t| (t.kind, t.gap)) else { return false };
    // "L fwd 45 L, lock R behind": an angle.
    let way = |t: &Token| matches!(t.kind, Kind::W(W::Forward | W::Back | W::Diagonal));
    let idle = t.get(i + 2).is_none_or(|t| matches!(t.kind, Kind::Sign(_)));
    if t[i].kind == Kind::Number(45) && way(&t[i - 1]) && foot(next) && idle {
        return false;
    }
    let leads = acts(next) && next != W::Turn || foot(next);
    leads
        && match t[i - 1].kind {
            Kind::W(W::On | W::Count | W::For | W::Wall) => false,
            // "hold 4 counts", "drag 2 3"; but "hold 4 RF back" counts on.
            Kind::W(W::Drag | W::Sweep | W::Hold) => foot(next),
            Kind::W(_) | Kind::Name(_) => true,
            _ => false,
        }
}

/// Whether several counts, and the words of a step behind them, follow those of another: "pivot 1/4 L 3&4 R shuffle".
fn next_row(text: &str, t: &[Token], i: usize) -> bool {
    let before = match t[i - 1].kind {
        Kind::W(w) => !matches!(
            w,
            W::On
                | W::Count
                | W::For
                | W::Wall
                | W::Repeat
                | W::Drag
                | W::Sweep
                | W::Slide
                | W::Same
                | W::While
        ),
        Kind::Name(_) => true,
        _ => false,
    };
    // "left forward hold 5 6 right to the side" counts on, "hold 5 6" lasts.
    let held = t[i - 1].is(W::Hold);
    let goes_on = |t: &Token| matches!(t.kind, Kind::W(W::RF | W::LF | W::R | W::L));
    before
        && mark(text, t, i, t.len()).is_some_and(|m| {
            let next = t.get(m.to).filter(|n| n.gap > 0).map(|n| n.kind);
            m.ticks.len() >= 2
                && matches!(next, Some(Kind::W(_) | Kind::Name(_) | Kind::Fraction(_)))
                && (!held || t.get(m.to).is_some_and(goes_on))
        })
}

/// "... 4 counts. Now at the back": the length behind dots, before another sentence.
fn dotted_length(t: &[Token], i: usize, since: usize) -> Option<Mark> {
    let Kind::Number(n @ 2..=16) = t[i].kind else { return None };
    let dots = t[since..i].iter().rev().take_while(|t| fill(t)).count();
    let counted = t.get(i + 1).is_some_and(|t| t.is(W::Count));
    let ends = t.get(i + 2).is_some_and(|t| matches!(t.kind, Kind::Sign('.' | ',' | ';' | '/')));
    let ticks = vec![Ticks::of_count(i32::try_from(n).unwrap_or(0))];
    (dots >= 2 && counted && ends && i - dots > since).then(|| Mark {
        ticks,
        range: false,
        from: i - dots,
        to: i + 2,
        span: t[i].span,
    })
}

/// Where the words of the next mark begin.
fn since(out: &[Placed], from: usize) -> usize {
    out.last().map_or(from, |p| p.mark.to)
}

/// `on "and"`, `on the "and"`, `on the following "and"`: the half-count behind the last count.
fn spoken_half(text: &str, t: &[Token], i: usize, last: Option<i32>) -> Option<Mark> {
    if !t[i].is(W::On) {
        return None;
    }
    let mut from = i + 1;
    if t.get(from).is_some_and(|t| t.is(W::The)) {
        from += 1;
    }
    // `on the following "and"`
    let next = |t: &Token| t.span.is_among(text, among!["following", "next"]);
    from += usize::from(t.get(from).is_some_and(next));
    let (to, before) = named_half(text, t, from)?;
    let bare = from == i + 1 && to == from + 1;
    if bare && t[from].span.of(text).len() > 1 {
        return None;
    }
    // Where no count stands before it in the line, it lies behind the last one of the line before.
    let tick = before.or(last).map_or(Ticks(-12), |n| Ticks(n * 24 + 12));
    if last.is_none() && before.is_none() && to == from + 1 {
        return None;
    }
    let ticks = vec![tick];
    Some(Mark { ticks, range: false, from: i, to, span: t[from].span })
}

/// "Over counts 5, 6": the step before lasts so long.
pub(super) fn over(text: &str, t: &Token) -> bool {
    t.is(W::Across) && t.span.of(text).eq_ignore_ascii_case("over")
}

/// "Counts 9 and 10" are two counts; nothing happens between them.
pub(super) fn whole_counts(text: &str, t: &[Token], mut m: Mark) -> Mark {
    let joined = t[m.from..m.to].iter().any(|t| t.is(W::And) && t.span.of(text).eq_ignore_ascii_case("and"));
    if joined && m.ticks.iter().any(|t| t.within() == 0) {
        m.ticks.retain(|t| t.within() == 0);
    }
    m
}

/// Whether words of a step stand between two tokens, after the last full stop or colon.
fn words_between(t: &[Token], from: usize, to: usize) -> bool {
    let start = t[from..to]
        .iter()
        .rposition(|t| matches!(t.kind, Kind::Sign('.' | ':' | ';')))
        .map_or(from, |n| from + n + 1);
    t[start..to].iter().any(|t| match t.kind {
        Kind::Name(_) => true,
        Kind::W(w) => {
            acts(w)
                || matches!(
                    w,
                    W::Forward | W::Back | W::Side | W::Behind | W::Across | W::Beside | W::Heel | W::Toe
                )
        }
        _ => false,
    })
}

#[cfg(test)]
mod tests {
    use super::super::lines::line_of;
    use super::super::words::tokens;
    use super::*;
    use crate::figures::lexicon;
    use crate::text::Span;

    /// Each mark of a line with the side on which its words stand.
    #[track_caller]
    fn check(text: &str, expected: &str) {
        let t = tokens(text, 0..text.len(), &lexicon().vocabulary);
        let line = line_of(text, Span::new(0, text.len()), t, false);
        let side = |p: &Placed| if p.behind { "<" } else { ">" };
        let ticks = |p: &Placed| p.mark.ticks.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ");
        let found: Vec<_> =
            marks(text, &line, 0, false).iter().map(|p| format!("{}{}", ticks(p), side(p))).collect();
        assert_eq!(found.join(", "), expected, "{text}");
    }

    #[test]
    fn a_line_is_counted_through() {
        check(
            "rock right and recover 1 2 shuffle back right left right 3 & 4 rock left 5",
            "1 2<, 3 3& 4<, 5<",
        );
        check("1 2 right forward hold 3 4 left forward hold 5 6 right side", "1 2>, 3 4>, 5 6>");
        check("1 heel R & step R beside L 2 heel L 3 heel R 4 hold", "1>, 1&>, 2>, 3>, 4>");
        check("1...step right forward 2...hold 3...step left forward 4...hold", "1>, 2>, 3>, 4>");
        check("vine right 3 steps 4 touch left", "");
    }

    #[test]
    fn half_counts_have_their_sign() {
        check("1 heel R forward, & step R beside L, 2 heel L forward", "1>, 1&>, 2>");
        check("5,6 right side, hold; & left together; 7 right side", "5 6>, 6&>, 7>");
        check("Step R beside L (& before 5), cross L over R (5), R side (6)", "4&<, 5<, 6<");
        check("Rock back (L, recover R), 5-6", "5 6<");
    }
}
