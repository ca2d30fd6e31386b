//! Count marks that no sign parts from the words of a line, and half-counts among them.

use super::counts::{Mark, half_sign, mark};
use super::marks::Placed;
use super::vocabulary::W;
use super::words::{Kind, Token, acts};
use crate::time::Ticks;

/// The marks of a line that is counted through without a sign between steps and counts, each mark going on from the
/// one before: "rock right forward and recover 1 2 shuffle back right left right 3 & 4" has its counts behind the words,
/// "1 2 right forward hold 3 4 left forward hold" before them.
pub(super) fn running(text: &str, t: &[Token], from: usize) -> Option<Vec<Placed>> {
    // "heel R 1, close R &, heel L 2": a comma right behind a count ends its words.
    let comma = |t: &Token| matches!(t.kind, Kind::Sign(',' | ';'));
    let counts = |t: &Token| matches!(t.kind, Kind::Number(_)) || half_sign(text, t);
    let ends = |k: usize| comma(&t[k]) && k > from && counts(&t[k - 1]);
    let number = |t: &Token| matches!(t.kind, Kind::Number(_));
    // "R fwd 5, half pivot L 6 (back wall), L shuffle, L-R-L 7&8": remarks and more words before the counts.
    let loose = |k: usize| match t[k].kind {
        Kind::Sign(',' | '(') => true,
        Kind::Sign(')') => t[from..k].iter().rposition(|t| t.sign('(')).is_some_and(|open| {
            let inside = &t[from + open..k];
            !inside.iter().any(number) && !inside.iter().any(|t| matches!(t.kind, Kind::W(w) if acts(w)))
        }),
        Kind::Sign(':') => !t[from..k].iter().any(number),
        _ => false,
    };
    let sign = |k: &usize| match t[*k].kind {
        Kind::Sign('-' | '\'' | '/' | '.') => false,
        Kind::Sign(_) => !ends(*k),
        _ => false,
    };
    let signed = (from..t.len()).filter(sign).count();
    let ended = (from..t.len()).filter(|k| ends(*k)).count();
    // "right, left, right on 5, 6 and 7": the last word of a list only joins, and is no half-count.
    let listed =
        t[from..].windows(4).any(|w| comma(&w[0]) && number(&w[1]) && w[2].is(W::And) && number(&w[3]));
    if signed > 0 && (ended < 3 || listed || !(from..t.len()).filter(sign).all(loose)) {
        return None;
    }
    let mut found: Vec<Mark> = Vec::new();
    let mut i = from;
    while i < t.len() {
        let next = found.last().map(|m: &Mark| m.last() + 1);
        let begins = matches!(t[i].kind, Kind::Number(_)) || half_sign(text, &t[i]);
        let fits = |m: &Mark| {
            let positions = m.ticks[0].0 > 0 && next.map_or(matches!(m.first(), 1 | 5), |n| m.first() == n);
            let ends = t.get(m.to).is_none_or(|n| n.gap > 0 || n.sign('.') || comma(n));
            let of_else = t.get(m.to).is_some_and(|t| {
                matches!(t.kind, Kind::W(W::Count | W::Wall | W::Times | W::OClock | W::Degrees))
            });
            positions && ends && !of_else
        };
        let half = next.filter(|_| half_sign(text, &t[i]) && t.get(i + 1).is_some_and(comma));
        if let Some(n) = half {
            let ticks = vec![Ticks(n * 24 - 12)];
            found.push(Mark { ticks, range: false, from: i, to: i + 2, span: t[i].span });
            i += 2;
            continue;
        }
        match mark(text, t, i, t.len()).filter(|m| begins && fits(m)) {
            Some(m) => {
                i = m.to + t[m.to..].iter().take_while(|t| t.sign('.') || comma(t)).count();
                found.push(Mark { to: i, ..m });
            }
            // A number that does not count on is about something else.
            None if matches!(t[i].kind, Kind::Number(_)) => return None,
            None => i += 1,
        }
    }
    let (first, last) = (found.first()?, found.last()?);
    let led = first.from == from;
    // Only a remark in brackets may follow.
    let behind = last.to == t.len() || t[last.to].sign('(') && signed > 0;
    if signed > 0 && !behind {
        return None;
    }
    // Few marks are enough where they make up half a section.
    let half =
        found.len() >= 2 && last.last() % 4 == 0 && found.iter().map(|m| m.ticks.len()).sum::<usize>() >= 4;
    if !(found.len() >= 3 || half) || led == behind || last.last() < 4 {
        return None;
    }
    // Each has words of its own.
    let words = |a: usize, b: usize| t[a..b].iter().any(|t| matches!(t.kind, Kind::W(_) | Kind::Name(_)));
    let own = |k: usize| {
        if behind {
            words(if k == 0 { from } else { found[k - 1].to }, found[k].from)
        } else {
            words(found[k].to, found.get(k + 1).map_or(t.len(), |m| m.from))
        }
    };
    if !(0..found.len()).all(own) {
        return None;
    }
    let on = |k: usize| k > from && matches!(t[k - 1].kind, Kind::W(W::On | W::Count));
    let begin = |m: &Mark| m.from - usize::from(behind && on(m.from));
    let mut out: Vec<Placed> = Vec::with_capacity(found.len());
    for m in found {
        let from = begin(&m);
        let placed = Placed { mark: Mark { from, ..m }, behind, total: false };
        if let Some(before) = out.last()
            && !behind
        {
            // "1 heel R forward & step R beside L 2 heel L forward"
            let halves: Vec<_> = (before.mark.to + 1..placed.mark.from)
                .filter_map(|k| Some((k, half_amid(text, t, k, &out)?)))
                .take(1)
                .collect();
            for (k, tick) in halves {
                let mark = Mark { ticks: vec![tick], range: false, from: k, to: k + 1, span: t[k].span };
                out.push(Placed { mark, behind: false, total: false });
            }
        }
        out.push(placed);
    }
    Some(out)
}

/// Whether a line begins with a half-count that is told without its number.
pub(super) fn opened_by_half(out: &[Placed]) -> bool {
    matches!(out, [p] if !p.behind && matches!(p.mark.ticks[..], [t] if t.0 < 0))
}

/// A sign for a half-count between other signs, whose one step stands right before the next count.
pub(super) fn half_before(text: &str, t: &[Token], i: usize, last: Option<i32>) -> Option<Ticks> {
    let last = last?;
    let parts = |t: &Token| matches!(t.kind, Kind::Sign(',' | ';')) || t.sign('-') && t.gap > 0;
    if !half_sign(text, &t[i]) || !parts(t.get(i.checked_sub(1)?)?) {
        return None;
    }
    let end = (i + 1..t.len()).find(|k| parts(&t[*k]))?;
    let number = t.get(end + 1).map(|t| t.kind);
    let counts_on = matches!(number, Some(Kind::Number(n)) if i64::from(n) == i64::from(last) + 1);
    let one = super::chunks::says(&t[i + 1..end])
        && !t[i + 1..end].iter().any(|t| matches!(t.kind, Kind::Number(_)));
    (counts_on && one).then_some(Ticks(last * 24 + 12))
}

/// A sign for a half-count behind the words of a single count, before the words of a step: one count holds one step.
pub(super) fn half_amid(text: &str, t: &[Token], i: usize, out: &[Placed]) -> Option<Ticks> {
    let before = out.last().filter(|p| !p.behind && !p.total)?;
    // "5 6 right side hold & left together 7": behind a word that ends its counts.
    let ended = i > 0 && matches!(t[i - 1].kind, Kind::W(W::Hold | W::Clap | W::Twice));
    let count = match before.mark.ticks[..] {
        [count] => count,
        [_, last] if ended => last,
        _ => return None,
    };
    let parted = i > 0 && matches!(t[i - 1].kind, Kind::Sign(',' | ';' | '.'));
    let sign = half_sign(text, &t[i]);
    let foot = |k: Kind| matches!(k, Kind::W(W::R | W::L | W::RF | W::LF));
    // Without a comma before it, it stands before a step with its foot.
    let step = |k: usize| match t.get(k).filter(|t| t.gap > 0).map(|t| t.kind) {
        Some(Kind::W(W::Step | W::Close | W::Cross | W::Together | W::Recover)) if !parted => {
            t.get(k + 1).is_some_and(|t| foot(t.kind))
        }
        Some(Kind::W(w)) if ended && foot(Kind::W(w)) => true,
        // "& L to the side", "& R back to place"
        Some(Kind::W(w)) if !parted && foot(Kind::W(w)) => t.get(k + 1).is_some_and(|t| {
            super::chunks::says(core::slice::from_ref(t))
                || matches!(t.kind, Kind::W(W::To | W::Home | W::Beside | W::Together | W::In | W::Close))
        }),
        Some(Kind::Name(_)) => parted,
        Some(Kind::W(w)) => parted && (acts(w) || foot(Kind::W(w))),
        _ => false,
    };
    let next = step(i + 1);
    let words = &t[before.mark.to.min(i)..i];
    let told = || super::chunks::says(words) || words.iter().any(|t| foot(t.kind));
    (sign && next && count.0 > 0 && told() && count.within() == 0).then(|| Ticks(count.0 + 12))
}
