//! Single numbers in brackets: positions, numbers of counts, or clocks.

use super::marks::{Placed, reached};
use super::words::{Kind, Token};

/// Decides which single numbers in brackets are positions, numbers of counts, or clocks.
pub(super) fn settle(t: &[Token], out: &mut Vec<Placed>, led: bool) {
    if out.is_empty() {
        return;
    }
    let single = |p: &Placed| p.behind && p.mark.ticks.len() == 1 && p.mark.ticks[0].within() == 0;
    if led {
        // After a leading mark a lone number in brackets is a clock, unless several count on.
        let first = out.iter().find(|p| p.behind).map(|p| p.mark.first());
        // "1-2 RF side (1), LF together (2)": each count of the line stands once more behind its step.
        let inside = out.iter().filter(|p| p.behind && out[0].mark.ticks.contains(&p.mark.ticks[0])).count();
        let spelled = inside >= 2 && inside == out.iter().filter(|p| p.behind).count();
        let counts_on = (out[0].mark.range || spelled) && first == Some(out[0].mark.first());
        let parts = out.iter().any(|p| p.behind && p.mark.ticks.iter().any(|t| t.within() != 0));
        if !counts_on && !parts && out.iter().filter(|p| p.behind).all(single) {
            out.retain(|p| !p.behind);
        }
        return;
    }
    // "kick ball change R (1&2), stp R, pvt 1/2 L (6), stp R, pvt 1/4 L (3)": where all counts have a rhythm of their
    // own, each hour stands behind a turn.
    let hour = |p: &Placed| {
        single(p)
            && matches!(p.mark.first(), 3 | 6 | 9 | 12)
            && t[..p.mark.from].iter().rev().take(3).any(|t| matches!(t.kind, Kind::Fraction(_)))
    };
    if out.iter().filter(|p| hour(p)).count() >= 2
        && out.iter().filter(|p| single(p)).all(hour)
        && out.iter().any(|p| p.mark.ticks.iter().any(|t| t.within() != 0))
    {
        out.retain(|p| !hour(p));
        return;
    }
    // "(1-4) ... (5-8)          [24]", "(8)          [40]": how far the dance has come stands apart at the line's end.
    if let [.., before, last] = out.as_slice()
        && single(last)
        && t[last.mark.from].gap == 2
        && last.mark.to == t.len()
        && last.mark.first() % 2 == 0
        && last.mark.first() >= before.mark.last()
        && (before.total || before.mark.ticks.len() > 1 || single(before) && before.mark.first() % 4 == 0)
        && last.mark.first() != before.mark.last() + 1
    {
        out.pop();
    }
    // "(27) [9] scuff R (28)": a bracket right behind a count that does not count on is a clock.
    let mut i = 1;
    while i < out.len() {
        let (before, here) = (&out[i - 1], &out[i]);
        let next = out.get(i + 1).map(|p| p.mark.first());
        let hour =
            single(here) && (1..=12).contains(&here.mark.first()) && here.mark.to - here.mark.from <= 3;
        let odd = here.mark.first() != before.mark.last() + 1 || next == Some(here.mark.first());
        if hour && odd && !before.total && here.mark.from == before.mark.to && here.mark.first() % 3 == 0 {
            out.remove(i);
        } else {
            i += 1;
        }
    }
    // "(7), rec L (8) (12)": a last number that jumps to an hour is a clock.
    if let [others @ .., last] = out.as_slice()
        && let (Some(before), Some(end)) = (others.last(), reached(others))
        && single(last)
        && last.mark.to - last.mark.from <= 3
        && (last.mark.first() > end + 1
            || last.mark.first() <= end && end >= 4
            || last.mark.from == before.mark.to && end % 4 == 0)
        && !before.total
        && matches!(last.mark.first(), 3 | 6 | 9 | 12)
    {
        out.pop();
    }
    // "pivot 1/2 R [9]   1,2": an hour within a line whose counts stand at its end.
    let hours = out.iter().filter(|p| single(p) && p.mark.ticks[0].0 > 0).count();
    if hours == 1
        && out.last().is_some_and(|p| p.behind && p.mark.ticks.len() >= 2)
        && let Some(k) = out.iter().position(single)
        && matches!(out[k].mark.first(), 3 | 6 | 9 | 12)
        && k + 2 == out.len()
    {
        out.remove(k);
        return;
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
