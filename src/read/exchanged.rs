//! Which steps of a section a restart changes, and what is danced for them.
//!
//! The clauses about it (`otherwise`) tell the new steps; where they are danced is told by a count, by the steps that are
//! left out, or is the end.

use super::otherwise::{Piece, Way, counts_only, does, foot, of_dance, pieces, weighs};
use super::trouble::Labelled;
use crate::dance::{Effect, Move, Section};
use crate::figures::lexicon;
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, acts, tokens};
use crate::sheet::{Mark, counts_told, mark, rows, value};
use crate::text::among;
use crate::time::Ticks;

/// What a sheet says is danced instead: the positions and the words.
pub(super) struct Change {
    pub ticks: Vec<Ticks>,
    pub chunks: Vec<(Vec<Ticks>, Vec<Token>)>,
    /// Whether the counts are those of the section.
    pub local: bool,
}

/// What the words about a restart say is danced otherwise.
pub(super) fn exchanged(
    text: &str,
    t: &[Token],
    section: &Section,
    labels: &[Labelled],
    danced: u32,
    after: u32,
) -> Option<Change> {
    let pieces = pieces(text, t);
    let words = |p: &Piece| &t[p.from..p.to];
    let says = |p: &Piece| (does(words(p)) || weighs(words(p))) && !of_dance(text, words(p));
    let new = |p: &&Piece| p.way == Way::New && says(p);
    let marked = pieces.iter().find(|p| p.marked);
    // "Take the weight on L" where the foot had only touched.
    let lifted = || {
        section
            .moves
            .iter()
            .rfind(|m| m.at.count() <= i32::try_from(danced).unwrap_or(0))
            .is_some_and(|m| m.effect == Effect::Free)
    };
    if marked.is_none()
        && let Some(change) = goes_on(text, t, &pieces, after)
    {
        return Some(change);
    }
    let marked = marked.or_else(|| pieces.iter().find(|p| weighs(words(p)) && new(p) && lifted()))?;
    // What is danced stands in the same sentence, or in the one behind it.
    let tells = marked.way == Way::New || says(marked) || marked.from == marked.to;
    let sentence = (marked.sentence..=marked.sentence + usize::from(tells))
        .find(|n| pieces.iter().any(|p| p.sentence == *n && new(&p)))?;
    let bracketed = |p: &Piece| p.from > 0 && matches!(t[p.from - 1].kind, Kind::Sign('(' | '['));
    let told = |p: &&Piece| p.sentence == sentence && new(p) && !bracketed(p);
    let outside = pieces.iter().any(|p| told(&p));
    let mut fresh: Vec<Piece> = Vec::new();
    for (k, p) in pieces.iter().enumerate().filter(|(_, p)| p.sentence == sentence) {
        let counts = p.way == Way::New && counts_only(text, words(p));
        // "Stomp right (15), hold (16)"; but "touch right (7&8 = rock, recover, touch)" says it again.
        // The same for how it is done: "stomp right (no weight), hold".
        let remark = p.way == Way::New && words(p).iter().any(|t| t.is(W::Weight));
        let behind = (counts || remark) && fresh.last().is_some_and(|l| l.to + 1 >= p.from) && bracketed(p);
        // "With 15, 16 step left, touch right"
        let before = counts && pieces.get(k + 1).is_some_and(|p| told(&p));
        let begun = fresh.iter().any(|p| does(words(p)));
        if begun && (t[p.from - 1].sign(':') || outside && p.way == Way::Old && bracketed(p)) {
            break;
        }
        // "Just walk R, L", "3 R back, 4 L home"
        let counted = || mark(text, t, p.from, p.to).is_some() && words(p).iter().any(foot);
        let more = fresh.last().is_some_and(|l| l.to + 1 == p.from)
            && (words(p).iter().all(foot) || counted() && !of_dance(text, words(p)));
        if behind || before || more || told(&p) || !outside && new(&p) {
            fresh.push(*p);
        }
    }
    let old: Vec<&Piece> =
        pieces.iter().filter(|p| p.way == Way::Old && p.sentence == marked.sentence).collect();
    let new = joined(t, &fresh);
    let (danced, after) = (i32::try_from(danced).ok()?, i32::try_from(after).ok()?);
    // Counts of their own.
    let told = rows(text, &new);
    let own: Vec<Ticks> = told.iter().flat_map(|(ticks, _)| ticks.iter().copied()).collect();
    if own.len() >= 2 && told.iter().all(|(_, words)| does(words)) {
        return Some(Change { ticks: own, chunks: told, local: false });
    }
    // A count stands in the clause that tells the change rather than beside it.
    let about = |p: &&Piece| p.sentence == marked.sentence && p.way != Way::Kept;
    let by_count = |m: bool| {
        let of = pieces.iter().filter(about).filter(|p| p.marked == m).copied();
        of.into_iter().find_map(|p| told_counts(text, t, p, danced, after))
    };
    let by_count = by_count(true).or_else(|| by_count(false));
    let steps = stepped(&new);
    let n = number(&steps);
    let by_name =
        || old.iter().find_map(|p| named(text, words(p), section, labels, u32::try_from(danced).ok()?));
    let at_end = || (danced - n + 1..=danced).map(Ticks::of_count).collect::<Vec<_>>();
    let local = by_count.is_none();
    let ticks = by_count.or_else(by_name).unwrap_or_else(at_end);
    let chunks = led(text, &steps, &ticks);
    let own: Vec<Ticks> = chunks.iter().flat_map(|(t, _)| t.iter().copied()).collect();
    // "Dance to count 6, then instead of the sailor: 7 touch, 8 hold"
    let ticks = if own.iter().any(|t| ticks.contains(t)) { ticks } else { own };
    let end = ticks.last().copied()?;
    let more = chunks.iter().flat_map(|(t, _)| t).filter(|t| **t > end).copied();
    let ticks = ticks.iter().copied().chain(more).collect();
    Some(Change { ticks, chunks, local })
}

/// The positions that words about a change tell: "for 7&8", "on the last two counts", "count 4 of section 4".
fn told_counts(text: &str, t: &[Token], piece: Piece, danced: i32, after: i32) -> Option<Vec<Ticks>> {
    let last = (piece.from..piece.to)
        .find(|k| t[*k].is(W::Last) && t[*k + 1..piece.to].iter().take(2).any(|t| t.is(W::Count)));
    if let Some(k) = last {
        let n = t.get(k + 1).and_then(value).and_then(|n| i32::try_from(n).ok()).unwrap_or(1);
        return Some((danced - n + 1..=danced).map(Ticks::of_count).collect());
    }
    let figures = (piece.from..piece.to).find_map(|k| {
        let led = k == piece.from
            || matches!(t[k - 1].kind, Kind::W(W::For | W::On | W::Count | W::The | W::With | W::At));
        if !led || section_number(text, t, k) || told_reach(text, t, k) || k > 0 && t[k - 1].is(W::After) {
            return None;
        }
        let m = mark(text, t, k, piece.to).filter(|m| m.ticks[0].0 > 0)?;
        let goes_on = m.first() == after + 1 && m.last() <= after + 4;
        let over = m.last() > danced && m.last() > after && !goes_on;
        let other = t
            .get(m.to)
            .is_some_and(|t| matches!(t.kind, Kind::W(W::OClock | W::Wall | W::Section | W::Count)));
        (!over && !other).then_some(m.ticks)
    });
    // "But on seven and eight there is no shuffle"
    let words = || {
        let (from, _, ticks) = counts_told(text, &t[piece.from..piece.to])?;
        let led = matches!(t[piece.from + from].kind, Kind::W(W::On | W::Count));
        (led && piece.marked && ticks.last()?.count() <= danced.max(after)).then_some(ticks)
    };
    figures.or_else(words)
}

/// New steps with their counts: "7 step left forward, 8 touch right" leads each with its own.
fn led(text: &str, steps: &[Token], ticks: &[Ticks]) -> Vec<(Vec<Ticks>, Vec<Token>)> {
    let opens = |k: usize| k == 0 || matches!(steps[k - 1].kind, Kind::Sign(_) | Kind::W(W::And | W::Count));
    let mut out = vec![(ticks.to_vec(), Vec::new())];
    let mut k = 0;
    while k < steps.len() {
        let last = out.last().and_then(|(t, _): &(Vec<Ticks>, Vec<Token>)| t.last()).map_or(0, |t| t.count());
        let fits = |m: &Mark| {
            let next = m.first() == last + 1 && steps.get(m.to).is_some_and(|t| t.gap > 0);
            let foot = steps.get(m.to).is_some_and(foot);
            (foot || does(&steps[m.to..])) && (m.ticks.iter().all(|t| ticks.contains(t)) || next)
        };
        if opens(k)
            && let Some(m) = mark(text, steps, k, steps.len()).filter(fits)
        {
            // "31, 32 R behind, L side": a list of counts leads its steps.
            match out.last_mut() {
                Some((ticks, words)) if words.iter().all(|t| matches!(t.kind, Kind::Sign(_))) && k > 0 => {
                    ticks.extend(m.ticks);
                }
                _ => out.push((m.ticks, Vec::new())),
            }
            k = m.to;
            continue;
        }
        out.last_mut().into_iter().for_each(|(_, words)| words.push(steps[k]));
        k += 1;
    }
    out.retain(|(_, words)| does(words) || words.iter().any(foot));
    out.iter_mut().for_each(|(ticks, words)| whole(ticks, words));
    out
}

/// "Instead of the shuffle on 7&8, step left forward, touch right": as many steps as there are whole counts need no half
/// ones.
fn whole(ticks: &mut Vec<Ticks>, words: &[Token]) {
    let plain = |t: &&Ticks| t.within() == 0;
    let steps = number(words);
    if steps > 1 && i32::try_from(ticks.iter().filter(plain).count()) == Ok(steps) {
        ticks.retain(|t| t.within() == 0);
    }
}

/// The words of some pieces; the comma between two keeps their steps apart.
fn joined(t: &[Token], pieces: &[Piece]) -> Vec<Token> {
    let mut out = Vec::new();
    for p in pieces {
        if !out.is_empty() {
            out.extend(t.get(p.from - 1).copied());
        }
        out.extend_from_slice(&t[p.from..p.to]);
        out.extend(t.get(p.to).filter(|t| matches!(t.kind, Kind::Sign(')' | ']'))).copied());
    }
    out
}

/// How many steps words tell.
fn number(steps: &[Token]) -> i32 {
    let parts = steps.split(|t| matches!(t.kind, Kind::Sign(',') | Kind::W(W::And)));
    parts.filter(|c| does(c)).count().try_into().unwrap_or(1).max(1)
}

/// "Get to count 14, step left forward, touch right and start again": the steps that are danced before the restart.
fn goes_on(text: &str, t: &[Token], pieces: &[Piece], after: u32) -> Option<Change> {
    // "Dance 14 counts, step R back": no dance is left off there but to go on.
    let odd =
        |k: usize, n: u32| n == after && !n.is_multiple_of(4) && t.get(k + 1).is_some_and(|t| t.is(W::Count));
    let reach = |p: &Piece| {
        let mut at = p.from..p.to;
        let k = at.find(|k| {
            value(&t[*k]).is_some_and(|n| n <= after && n > 1 && (told_reach(text, t, *k) || odd(*k, n)))
        })?;
        (!does(&t[p.from..k])).then_some((p.sentence, (k + 2).min(p.to)))
    };
    let (sentence, from) = pieces.iter().find_map(reach)?;
    let on: Vec<Piece> = pieces
        .iter()
        .filter(|p| p.sentence == sentence && p.to > from)
        .map(|p| Piece { from: p.from.max(from), ..*p })
        .filter(|p| does(&t[p.from..p.to]) && !of_dance(text, &t[p.from..p.to]))
        .collect();
    let steps = joined(t, &on);
    let first = i32::try_from(after).ok()? + 1;
    // "Step left forward on 7, touch right beside left on 8"
    let chunks = rows(text, &steps);
    let told: Vec<Ticks> = chunks.iter().flat_map(|(t, _)| t.iter().copied()).collect();
    if !told.is_empty() && chunks.iter().all(|(_, words)| does(words)) {
        return Some(Change { ticks: told, chunks, local: false });
    }
    let ticks: Vec<Ticks> = (first..first + number(&steps)).map(Ticks::of_count).collect();
    (!on.is_empty() && ticks.len() <= 4).then(|| Change {
        chunks: vec![(ticks.clone(), steps)],
        ticks,
        local: false,
    })
}

/// The new steps; where only the weight is told, a step on its foot.
fn stepped(new: &[Token]) -> Vec<Token> {
    if !weighs(new) {
        return new.to_vec();
    }
    let step =
        new.iter().find(|t| t.is(W::Weight) || t.is(W::Down)).map(|t| Token { kind: Kind::W(W::Step), ..*t });
    step.into_iter().chain(new.iter().find(|t| foot(t)).copied()).collect()
}

/// The positions of the last steps of a section that these words name.
fn named(
    text: &str,
    old: &[Token],
    section: &Section,
    labels: &[Labelled],
    danced: u32,
) -> Option<Vec<Ticks>> {
    let danced = i32::try_from(danced).ok()?;
    let moves: Vec<&Move> = section.moves.iter().filter(|m| m.at.count() <= danced).collect();
    let words: Vec<Kind> = old.iter().filter_map(telling).collect();
    let last = old.iter().any(|t| t.is(W::Last));
    let only_step = words.iter().all(|w| *w == Kind::W(W::Step));
    if last && only_step {
        return moves.last().map(|m| vec![m.at]);
    }
    if words.is_empty() || only_step {
        return None;
    }
    let all = |s: &str| {
        let said = tokens(s, 0..s.len(), &lexicon().vocabulary);
        words.iter().all(|w| said.iter().any(|t| telling(t) == Some(*w)))
    };
    // A name above steps that are told one by one.
    let label = labels.iter().rev().find(|l| all(l.span.of(text)));
    if let Some(l) = label {
        let of = section.moves.get(l.moves.0..l.moves.1).filter(|m| !m.is_empty())?;
        return Some(of.iter().filter(|m| m.at.count() <= danced).map(|m| m.at).collect());
    }
    let says = |m: &Move| {
        let figure = m.figure.and_then(|f| section.figures.get(usize::from(f)));
        all(m.span.of(text)) || figure.is_some_and(|f| all(&f.name))
    };
    let end = moves.iter().rposition(|m| says(m))?;
    let same = |m: &Move| m.span == moves[end].span && says(m);
    let begin = end - moves[..end].iter().rev().take_while(|m| same(m)).count();
    Some(moves[begin..=end].iter().map(|m| m.at).collect())
}

/// A word by which a step is known again, whatever its form.
fn telling(t: &Token) -> Option<Kind> {
    match t.kind {
        Kind::W(W::R | W::RF) => Some(Kind::W(W::R)),
        Kind::W(W::L | W::LF) => Some(Kind::W(W::L)),
        Kind::W(w) if acts(w) || matches!(w, W::Heel | W::Toe | W::Change) => Some(t.kind),
        Kind::Name(_) => Some(t.kind),
        _ => None,
    }
}

/// "Dance to count 6 and then ...", "up to count 4": how far one dances, not what is danced otherwise.
fn told_reach(text: &str, t: &[Token], at: usize) -> bool {
    let Some(k) = at.checked_sub(1).filter(|k| t[*k].is(W::Count)).and_then(|k| k.checked_sub(1)) else {
        return false;
    };
    matches!(t[k].kind, Kind::W(W::To | W::Up | W::While))
        || t[k].span.is_among(text, among!["until", "till", "through"])
}

/// Whether the number at a token is that of a section: "S2 7&8".
fn section_number(text: &str, t: &[Token], at: usize) -> bool {
    let before = at.checked_sub(1).map(|k| &t[k]);
    matches!(t[at].kind, Kind::Number(_))
        && before.is_some_and(|b| {
            b.is(W::Section)
                || b.is(W::Set)
                || b.span.of(text).eq_ignore_ascii_case("line")
                || b.span.of(text).eq_ignore_ascii_case("s") && t[at].gap == 0
        })
}
