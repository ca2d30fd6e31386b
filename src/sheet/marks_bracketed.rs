//! Count marks in brackets behind their words.

use super::counts::{Mark, counts_behind, lone, mark, named_half, sub_sign};
use super::marks::{Placed, whole_counts};
use super::vocabulary::W;
use super::words::{Kind, Token};
use crate::text::among;
use crate::time::Ticks;

/// "L forward, drag R to it (2 beats)": how long a slow step lasts, not what it and the steps before it fill.
fn slow_lasts(t: &[Token], open: usize) -> bool {
    let short =
        t.get(open + 1).is_some_and(|t| matches!(t.kind, Kind::Number(2 | 3) | Kind::W(W::Two | W::Three)));
    let counts = t.get(open + 2).is_some_and(|t| t.is(W::Count));
    let clause = t[..open].iter().rev().take_while(|t| !matches!(t.kind, Kind::Sign(_)));
    let slow = |t: &Token| matches!(t.kind, Kind::W(W::Slow | W::Drag | W::Sweep));
    let (mut len, mut slowly) = (0, false);
    for t in clause {
        len += 1;
        slowly |= slow(t);
    }
    let joined = t[..open - len].last().is_some_and(|t| matches!(t.kind, Kind::Sign(',' | '/' | ';' | '.')));
    short && counts && slowly && joined
}

/// `(1-2)`, `[3]`, `(8 counts)`, `(1&2 3&4)`, `(4)`, and `(12&)` among such pairs.
pub(super) fn bracketed(text: &str, t: &[Token], open: usize, pairs: bool) -> Option<Placed> {
    if slow_lasts(t, open) {
        return None;
    }
    let mut from = open + 1;
    // "(counts 5-6)", "(rhythm 1, 2, 3&4)"
    let word = |t: &Token| t.is(W::Count) || t.span.is_among(text, among!["rhythm", "timing", "counted"]);
    let said = t.get(from).is_some_and(word);
    if said {
        from += 1;
    }
    let closes = |at: usize| t.get(at).is_some_and(|t| matches!(t.kind, Kind::Sign(')' | ']' | '}')));
    // "(& before 5)", "(the & after 4)"
    let the = from + usize::from(t.get(from).is_some_and(|t| t.is(W::The)));
    if let Some((to, Some(before))) = named_half(text, t, the)
        && closes(to)
    {
        let ticks = vec![Ticks(before * 24 + 12)];
        let mark = Mark { ticks, range: false, from: open, to: to + 1, span: t[the].span };
        return Some(Placed { mark, behind: true, total: false });
    }
    if let Some(sign) = t.get(from).and_then(|t| sub_sign(text, t))
        && closes(from + 1)
    {
        return Some(Placed {
            mark: Mark { from: open, to: from + 2, ..lone(t, from, sign) },
            behind: true,
            total: false,
        });
    }
    // "(four)", "(eight counts)"
    if let Some((n, len)) = super::head::number(t, from)
        && matches!(t[from].kind, Kind::W(_))
        && matches!(n, 2 | 3 | 4 | 6 | 8 | 12 | 16)
    {
        let to = from + len + usize::from(t.get(from + len).is_some_and(|t| t.is(W::Count)));
        if closes(to) {
            let ticks = vec![Ticks::of_count(i32::try_from(n).unwrap_or(0))];
            let mark = Mark { ticks, range: false, from: open, to: to + 1, span: t[from].span };
            return Some(Placed { mark, behind: true, total: true });
        }
    }
    let packed = if pairs { super::lines::packed(text, t, from, true) } else { None };
    let m = packed.or_else(|| mark(text, t, from, t.len()))?;
    let m = if said { whole_counts(text, t, m) } else { m };
    let mut to = m.to;
    let counted = t.get(to).is_some_and(|t| counts_behind(text, t));
    if counted {
        to += 1;
    }
    if matches!(t.get(to)?.kind, Kind::Sign(',' | ';')) && !counted {
        // "(3, now 6:00)": what follows the count is said after the step.
        let close = (to..t.len().min(to + 16)).find(|k| matches!(t[*k].kind, Kind::Sign(')' | ']')))?;
        let clock = t[to..close].iter().any(|t| matches!(t.kind, Kind::Clock(_)) || t.is(W::OClock));
        // "(1&2&, feet come back on the &s)": nothing else has such counts, and what follows them explains.
        let parts = m.ticks.len() >= 2 && m.ticks.iter().any(|t| t.within() != 0);
        let to = if clock { to + 1 } else { close + 1 };
        return (clock || parts).then_some(Placed {
            mark: Mark { from: open, to, ..m },
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
