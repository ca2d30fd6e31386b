//! Step lines to chunks: which words belong to which counts.

use super::counts::{Mark, half_sign};
use super::lines::Line;
use super::marks::{Placed, marks_after, over};
use super::multiples::{behind, one_way, spread};
use super::vocabulary::W;
use super::words::{Kind, Token, acts};
use super::{Chunk, SectionText, Slots};
use crate::floor::Heading;
use crate::text::Span;
use crate::time::Ticks;

/// Counts without a number before a mark behind its words: "walk R, walk L, shuffle R 3&4".
/// Figures before such a mark keep their own rhythm: they get a number of counts.
fn fill_gaps(text: &str, section: &SectionText, t: &[Token], from: usize, placed: &mut Vec<Placed>) {
    let mut next = match section.chunks.last().map(|c| &c.slots) {
        None => {
            // Where the dance counts on, a section begins with the count of its heading.
            let runs_on = |n: &i32| placed.iter().find(|p| !p.total).is_some_and(|p| p.mark.first() >= *n);
            Some(section.first.filter(runs_on).unwrap_or(1))
        }
        Some(Slots::At { ticks, .. }) => ticks.last().map(|t| t.count() + 1),
        Some(_) => None,
    };
    let mut at = from;
    let mut parted: Vec<(usize, Placed)> = Vec::new();
    // Who marks plain counts, too, has left one out where there is a gap.
    let tricky = placed.iter().all(|p| p.mark.ticks.iter().any(|t| t.within() != 0));
    for (index, p) in placed.iter_mut().enumerate() {
        if p.total || !p.behind {
            next = None;
            at = p.mark.to;
            continue;
        }
        let first = p.mark.first();
        // "& left beside right, right to the side (7)": the sign tells a half-count of its own.
        let words = &t[at.min(p.mark.from)..p.mark.from];
        let lead = words.iter().take_while(|t| matches!(t.kind, Kind::Sign(',' | ';' | '.'))).count();
        if let [only] = p.mark.ticks[..]
            && next == Some(first)
            && only.within() == 0
            && words.get(lead).is_some_and(|t| half_sign(text, t))
            && words[lead + 1..].split(|t| t.sign(',')).filter(|c| says(c)).count() == 2
        {
            p.mark.ticks.insert(0, Ticks(only.0 - 12));
        }
        // "LF together & RF side 7", "ball right and step left 6": two steps of two feet on one count.
        if let [only] = p.mark.ticks[..]
            && next == Some(first)
            && only.within() == 0
            && two_feet(&words[lead.min(words.len())..])
        {
            p.mark.ticks.insert(0, Ticks(only.0 - 12));
        }
        // "Step back R, drag L over counts 5, 6": what lasts so long is the last of them.
        if (over(text, &t[p.mark.from])
            || next.is_some_and(|n| lasts(&t[at.min(p.mark.from)..p.mark.from], first - n, &p.mark)))
            && let Some(cut) = t[at..p.mark.from].iter().rposition(|t| t.sign(',')).map(|k| at + k)
            && says(&t[at..cut])
        {
            let clauses = t[at..cut].split(|t| t.sign(',')).filter(|c| says(c)).count();
            let before = i32::try_from(clauses).unwrap_or(0);
            if before < first {
                let ticks = (first - before..first).map(Ticks::of_count).collect();
                let mark = Mark { ticks, range: false, from: cut, to: cut, span: Span::default() };
                parted.push((index, Placed { mark, behind: true, total: false }));
            }
        } else if let Some(expected) = next
            && let [only] = p.mark.ticks[..]
            && only.within() == 0
            && first - expected >= 2
            && first <= 8
        {
            let words = &t[at.min(p.mark.from)..p.mark.from];
            let stop =
                words.iter().rposition(|t| t.sign('.')).filter(|k| says(&words[..*k]) && says(&words[*k..]));
            if let Some(stop) = stop {
                // "... that is a jazz box. Then touch the heel (5)": the sentence before has the counts before.
                let ticks = (expected..first).map(Ticks::of_count).collect();
                let (from, span) = (at + stop, Span::default());
                let mark = Mark { ticks, range: true, from, to: from, span };
                parted.push((index, Placed { mark, behind: true, total: false }));
            } else if usize::try_from(first - expected + 1) == Ok(turns(words)) {
                // "Walk forward right, left and right, and kick on count four"
                p.mark.ticks = (expected..=first).map(Ticks::of_count).collect();
            }
        } else if let Some(expected) = next
            && p.mark.ticks.len() >= 2
            && (1..=8).contains(&(first - expected))
            && (expected > 1 || first <= 8)
        {
            let words = &t[at.min(p.mark.from)..p.mark.from];
            let parts = || words.split(|t| parting_sign(t, tricky)).filter(|c| says(c));
            // "Coaster" and "behind-side-cross" fill three counts by themselves.
            let clauses = parts().count();
            // A clause for each count that has no mark.
            let told = usize::try_from(first - expected).is_ok_and(|gap| clauses == gap + 1);
            let figure = parts().next_back().is_some_and(|c| {
                let joined =
                    |k: usize| c[k].sign('-') && c[k].gap == 0 && c.get(k + 1).is_some_and(|t| t.gap == 0);
                let step = |t: &&Token| t.is(W::Change) || says(core::slice::from_ref(*t));
                let steps = c.iter().filter(step).count();
                c.iter().any(|t| matches!(t.kind, Kind::Name(_)))
                    || (0..c.len()).any(joined)
                    || tricky && told && steps >= p.mark.ticks.len()
            });
            // Where the words of the mark itself begin.
            let own = words.iter().rposition(|t| parting_sign(t, true) || t.sign('/'));
            let before = own
                .map(|k| &words[..k])
                .filter(|w| figure && w.iter().any(|t| matches!(t.kind, Kind::Name(_))) && says(w));
            if let Some(before) = before {
                let cut = at + before.len();
                let counts = Ticks::of_count(first - expected);
                let span = Span::new(t[cut].span.start as usize, t[cut].span.start as usize);
                let mark = Mark { ticks: vec![counts], range: false, from: cut, to: cut, span };
                parted.push((index, Placed { mark, behind: true, total: true }));
            } else if clauses > p.mark.ticks.len() || clauses >= 2 && figure {
                let mut ticks: Vec<Ticks> = (expected..first).map(Ticks::of_count).collect();
                ticks.append(&mut p.mark.ticks);
                p.mark.ticks = ticks;
            }
        }
        next = Some(p.mark.last() + 1);
        at = p.mark.to;
    }
    for (index, part) in parted.into_iter().rev() {
        placed.insert(index, part);
    }
}

/// "L fwd, drag R to it (2-3)": what lasts over the counts is the last of as many clauses as there are counts before.
fn lasts(words: &[Token], gap: i32, m: &Mark) -> bool {
    let parts = || words.split(|t| t.sign(',')).filter(|c| says(c));
    let told = usize::try_from(gap).is_ok_and(|gap| gap > 0 && parts().count() == gap + 1);
    let long =
        |t: &Token| matches!(t.kind, Kind::W(W::Drag | W::Sweep | W::Hold | W::Slide | W::Roll | W::Sway));
    told && m.ticks.len() >= 2 && parts().next_back().is_some_and(|c| c.iter().any(long))
}

/// Whether words are a step of one foot and a step of the other, joined by a single word.
fn two_feet(words: &[Token]) -> bool {
    let foot = |c: &[Token]| {
        let mut feet = c.iter().filter_map(|t| match t.kind {
            Kind::W(W::R | W::RF) => Some(true),
            Kind::W(W::L | W::LF) => Some(false),
            _ => None,
        });
        feet.next()
    };
    let does = |t: &Token| match t.kind {
        Kind::W(w) => {
            matches!(w, W::Step | W::Ball | W::Close | W::Together | W::Cross | W::Side | W::Recover)
        }
        _ => false,
    };
    let mut clauses = words.split(|t| t.is(W::And));
    let (Some(a), Some(b), None) = (clauses.next(), clauses.next(), clauses.next()) else { return false };
    let sign = |t: &Token| matches!(t.kind, Kind::Sign(_));
    let step = |c: &[Token]| c.iter().any(does) && c.len() <= 4 && !c.iter().any(sign);
    step(a) && step(b) && foot(a).is_some() && foot(b).is_some() && foot(a) != foot(b)
}

/// How many steps words tell one by one, with a foot or a verb each.
pub(super) fn turns(words: &[Token]) -> usize {
    let parts = words.split(|t| parting_sign(t, false) || matches!(t.kind, Kind::W(W::And | W::Then)));
    let foot = |t: &Token| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF));
    parts.filter(|c| says(c) || c.iter().any(foot)).count()
}

/// A sign between steps; a stroke, where it may be one, only with a blank before it.
fn parting_sign(t: &Token, stroke: bool) -> bool {
    matches!(t.kind, Kind::Sign(',' | '.' | ';')) || stroke && t.sign('/') && t.gap > 0
}

/// Whether words tell something to do.
pub(super) fn says(t: &[Token]) -> bool {
    t.iter().any(|t| match t.kind {
        Kind::Name(_) => true,
        Kind::W(w) => acts(w) || matches!(w, W::Side | W::Forward | W::Back | W::Behind | W::Across),
        _ => false,
    })
}

/// Turns a bare number in brackets into a clock, for lines whose counts stand elsewhere; from one token on.
pub(super) fn clocks(t: &mut [Token], from: usize) {
    for i in from..t.len() {
        // "nine o'clock"
        if let Kind::W(w) = t[i].kind
            && w != W::The
            && t.get(i + 1).is_some_and(|t| t.is(W::OClock))
            && let Some(n @ 1..=12) = super::numbers::value(&t[i])
        {
            t[i].kind = Kind::Clock(Heading::new(i32::try_from(n * 4).unwrap_or(0)));
            continue;
        }
        let Kind::Number(n) = t[i].kind else { continue };
        let closed = i > 0
            && matches!(t[i - 1].kind, Kind::Sign('(' | '[' | '{' | '<'))
            && t.get(i + 1).is_some_and(|t| matches!(t.kind, Kind::Sign(')' | ']' | '}' | '>')));
        let said = t.get(i + 1).is_some_and(|t| t.is(W::OClock));
        let faced = i > 0 && t[i - 1].is(W::Face);
        // "coaster L 7&8 = 9"
        let told = i > 0
            && matches!(t[i - 1].kind, Kind::Sign('=' | '>'))
            && n % 3 == 0
            && t.get(i + 1).is_none_or(|t| matches!(t.kind, Kind::Sign(';' | ')' | ']' | '.' | '\n')));
        // "(3)" is an hour, "(2)" is none.
        let closed = closed && n % 3 == 0;
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
    // Hours among words that this line does not change are known.
    let known = section.chunks.last().map_or(0, |c| c.from).min(section.tokens.len().saturating_sub(1));
    let mut placed = marks_after(text, line, from, style_behind, after);
    let mut t = &line.tokens[..];
    if sums_up(section, &placed, t) {
        let sum = placed.pop().map_or(t.len(), |p| if p.mark.to >= t.len() { p.mark.from } else { t.len() });
        t = &t[..sum];
    }
    fill_gaps(text, section, t, from, &mut placed);
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
            // "& R side, L cross (&3)" tells the half-count twice; "& cross left, side right (&5,6)" steps on it.
            let twice = || {
                let whole = p.mark.ticks.iter().filter(|t| t.within() == 0).count();
                p.mark.ticks.len() < 3 || turns(&t[at + 1..p.mark.from]) != whole
            };
            if t.get(at).is_some_and(|t| t.is(W::And)) && p.mark.ticks[0].within() == 12 && twice() {
                at += 1;
            } else if k > 0 {
                let cut = tail(t, at, p.mark.from, placed[k - 1].mark.ticks.len());
                append(text, section, line, &t[at..cut]);
                at = cut;
            }
            let open = section.chunks.last().is_some_and(|c| c.slots == Slots::Free);
            if k > 0 || !joins || !open {
                push_open(text, section);
            }
            append(text, section, line, &t[at..p.mark.from]);
            close(section, p);
            at = p.mark.to;
        }
        let rest = &t[at..];
        if rest.iter().any(|t| !matches!(t.kind, Kind::Sign(_))) {
            let told = rest[0].is(W::While) || rest[0].sign(':');
            let full = placed.last().is_some_and(|p| p.mark.last() % 8 == 0);
            let new =
                if placed.is_empty() { !joins } else { (speaks(rest) || !full && goes_on(rest)) && !told };
            if new || section.chunks.is_empty() {
                push_open(text, section);
            }
            append(text, section, line, rest);
        }
    } else {
        let mut at = from;
        let first = placed[0].mark.from;
        // "The first eight goes forward and back. On 1 ...": nothing is danced before the first count.
        let title = section.chunks.is_empty() && placed[0].mark.first() == section.first.unwrap_or(1);
        if first > at && !placed[0].behind && !title {
            if section.chunks.is_empty() {
                push_open(text, section);
            }
            append(text, section, line, &t[at..first]);
        }
        rest_of_range(&mut placed);
        let inner = placed.iter().any(|p| p.behind);
        let (first, rest) = (&placed[0], &placed[1..]);
        let within = rest.first().is_some_and(|p| p.mark.first() == first.mark.first())
            && rest.iter().all(|p| p.behind && p.mark.last() <= first.mark.last());
        // "&3-4 Step L beside R (&), step R forward (3), ..."
        let half = first.mark.ticks[0].within() != 0
            && rest.first().is_some_and(|p| p.behind && p.mark.ticks.len() == 1 && p.mark.ticks[0].0 < 0);
        let whole = inner && !first.behind && (first.mark.range || within || half);
        for (k, p) in placed.iter().enumerate() {
            if whole && k == 0 {
                // "1-4 Side (1), behind (2), ...": the marks inside are exact.
                at = p.mark.to;
                continue;
            }
            if p.behind && k > 0 && placed[k - 1].behind {
                let cut = tail(t, at, p.mark.from, placed[k - 1].mark.ticks.len());
                append(text, section, line, &t[at..cut]);
                at = cut;
            }
            push_open(text, section);
            if p.behind {
                append(text, section, line, &t[at.max(from).min(p.mark.from)..p.mark.from]);
                at = p.mark.to;
            } else {
                let end = placed.get(k + 1).map_or(t.len(), |n| {
                    if n.behind { parting(t, p.mark.to, n.mark.from) } else { n.mark.from }
                });
                append(text, section, line, &t[p.mark.to..end]);
                at = end;
            }
            close(section, p);
        }
        if at < t.len() {
            append(text, section, line, &t[at..]);
        }
    }
    if let Some(chunk) = section.chunks.last_mut() {
        behind(text, &mut section.tokens, chunk);
        spread(text, &mut section.tokens, chunk);
        one_way(&mut section.tokens, chunk);
    }
    clocks(&mut section.tokens, known);
}

/// "1-3 Big step L to side, drag R (2-3)": the words before those with the last counts of a range have the first ones.
fn rest_of_range(placed: &mut [Placed]) {
    let [lead, last] = placed else { return };
    let (all, end) = (&lead.mark.ticks, &last.mark.ticks);
    if !lead.behind && lead.mark.range && last.behind && end.len() < all.len() && all.ends_with(end) {
        let left = all.len() - end.len();
        lead.mark.ticks.truncate(left);
        lead.mark.range = left > 1;
    }
}

/// Whether the last mark of a line only sums up the counts of all sections so far: "(5-8)  [16]".
fn sums_up(section: &SectionText, placed: &[Placed], t: &[Token]) -> bool {
    let [before @ .., last] = placed else { return false };
    let sum = section.number.and_then(|n| i32::try_from(n.checked_mul(8)?).ok()).filter(|n| *n > 8);
    last.behind
        && last.mark.ticks.len() == 1
        && sum == Some(last.mark.first())
        && before.iter().all(|p| p.mark.last() <= 8)
        && !says(&t[last.mark.to..])
}

/// Where words that only go on with the step before a mark end: "cross left over right on 3 while the right sweeps
/// round. Cross right over left on 4".
fn tail(t: &[Token], from: usize, to: usize, counts: usize) -> usize {
    if from >= to {
        return from;
    }
    // "Dorothy right (1-2&): step, lock, step. Dorothy left (3-4&): ..."
    if t[from].sign(':') {
        return told_end(t, from + 1, to, counts).unwrap_or(from);
    }
    if restates(t, from) {
        let ends = |i: &usize| matches!(t[*i].kind, Kind::Sign(_)) || t[*i].is(W::And);
        let fits = |i: &usize| says(&t[from..*i]) && says(&t[*i..to]);
        return (from + 1..to).filter(ends).find(fits).unwrap_or(from);
    }
    // "Walk forward on 1, 2 and 3 with right, left, right, and kick the left foot on 4"
    if t[from].is(W::With)
        && let Some(feet) = feet_end(t, from + 1, to)
    {
        return feet;
    }
    let while_on = t[from].is(W::While);
    if !while_on && !matches!(t[from].kind, Kind::W(W::And | W::With)) {
        return from;
    }
    let ends = |i: &usize| {
        matches!(t[*i].kind, Kind::Sign('.' | ';')) || while_on && matches!(t[*i].kind, Kind::Sign(','))
    };
    let fits = |i: &usize| says(&t[from..*i]) && says(&t[*i..to]);
    (from + 1..to).filter(ends).find(fits).unwrap_or(from)
}

/// Where the steps of a figure end that are told behind a colon: with their sentence, or with a step for each of its
/// counts where the next figure stands in the same sentence.
pub(super) fn told_end(t: &[Token], from: usize, to: usize, counts: usize) -> Option<usize> {
    let stop = (from..to).find(|k| matches!(t[*k].kind, Kind::Sign('.' | ';' | '\n')));
    if stop.is_some() {
        return stop;
    }
    let does = |t: &Token| {
        says(core::slice::from_ref(t)) || matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF | W::Place))
    };
    let ends = |k: &usize| t[*k].sign(',') || t[*k].is(W::And) && !t[*k - 1].sign(',');
    let (mut at, mut told) = (from, 0);
    for k in (from..to).filter(ends) {
        told += usize::from(t[at..k].iter().any(does));
        if told == counts && says(&t[k..to]) {
            return Some(k);
        }
        at = k;
    }
    None
}

/// "Sway left on 2, stepping the left foot to the side, ...": words behind a mark that tell how its step was done.
pub(super) fn restates(t: &[Token], from: usize) -> bool {
    let long = |t: &Token| t.span.range().len() == "stepping".len();
    t[from].sign(',') && t.get(from + 1).is_some_and(|t| t.is(W::Step) && long(t))
}

/// Where an order of feet ends that goes on with another step: "right, left, right, and kick".
fn feet_end(t: &[Token], from: usize, to: usize) -> Option<usize> {
    let foot = |t: &Token| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF));
    let joins = |t: &Token| t.sign(',') || matches!(t.kind, Kind::W(W::And | W::Then | W::The));
    let end = (from..to).find(|k| !foot(&t[*k]) && !joins(&t[*k]))?;
    let last = (from..end).rev().find(|k| foot(&t[*k]))?;
    let feet = t[from..=last].iter().filter(|t| foot(t)).count();
    (feet >= 2 && last + 1 < end && says(&t[end..to])).then_some(last + 1)
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
fn append(text: &str, section: &mut SectionText, line: &Line, t: &[Token]) {
    let start = line.span.start as usize;
    let before = section.tokens.last();
    // "Hold", "recover" and "step together" need no foot from the next line.
    let whole = |w: W| matches!(w, W::Hold | W::Clap | W::Recover | W::Together);
    // "..., drop" at a line's end, with "left toe" on the next, is one clause.
    let dropped = before.is_some_and(|last| matches!(last.kind, Kind::W(w) if acts(w) && !whole(w)))
        && line.indent > 0
        && t.first().is_some_and(|t| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF | W::The)));
    // So is "... and step right" with "to the side" on the next.
    let placed = before
        .is_some_and(|last| matches!(last.kind, Kind::W(W::R | W::L | W::RF | W::LF | W::Foot | W::Step)))
        && t.first().is_some_and(|t| {
            matches!(
                t.kind,
                Kind::W(
                    W::To
                        | W::Forward
                        | W::Back
                        | W::Behind
                        | W::Across
                        | W::Beside
                        | W::Side
                        | W::Foot
                        | W::In
                )
            ) && t.span.of(text).starts_with(char::is_lowercase)
        });
    // Short lines were ended on purpose.
    let long = before.is_some_and(|last| {
        let end = last.span.end as usize;
        text[..end].rfind('\n').map_or(end, |at| end - at - 1) >= 50
    });
    let wrapped = dropped || placed && long;
    // The words of a table stand in another order than they were written.
    let apart = line.told.is_some() || section.tokens.last().is_none_or(|t| (t.span.end as usize) <= start);
    if !wrapped && apart {
        section.tokens.push(Token { kind: Kind::Sign('\n'), span: Span::new(start, start), gap: 2 });
    }
    // "Both heels: swivel right, centre" tells of what part of the body the steps are.
    let part = |t: &Token| matches!(t.kind, Kind::W(W::Heel | W::Toe | W::Knee | W::Hip));
    let lead = t.iter().take_while(|t| matches!(t.kind, Kind::Sign('.' | ',' | ';' | '-'))).count();
    let subject = t.iter().take(lead + 4).position(|t| t.sign(':')).filter(|k| {
        let words = &t[lead..*k];
        words.last().is_some_and(|t| part(t) && t.span.of(text).ends_with(['s', 'S']))
            && words.iter().all(|t| part(t) || matches!(t.kind, Kind::W(W::Both | W::The)))
    });
    if let Some(k) = subject {
        section.tokens.extend_from_slice(&t[..k]);
        section.tokens.extend_from_slice(&t[k + 1..]);
    } else {
        section.tokens.extend_from_slice(t);
    }
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

/// Whether the sentence behind a count mark tells steps of its own: "... (3&4). Rock back on the left, recover on the
/// right."
fn goes_on(t: &[Token]) -> bool {
    let verb = |t: &Token| matches!(t.kind, Kind::Name(_)) || matches!(t.kind, Kind::W(w) if acts(w));
    t[0].sign('.')
        && t.get(1).is_some_and(|t| verb(t) || side(t))
        && t.split(|t| matches!(t.kind, Kind::Sign(',' | '.' | ';')) || t.is(W::And))
            .filter(|c| says(c))
            .count()
            >= 2
}

fn side(t: &Token) -> bool {
    matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF | W::Heel | W::Toe | W::Quarter | W::Half))
}

fn push_open(text: &str, section: &mut SectionText) {
    if let Some(chunk) = section.chunks.last_mut() {
        behind(text, &mut section.tokens, chunk);
    }
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
