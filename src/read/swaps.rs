//! Steps that a restart changes by their names: "the kick ball step becomes a kick ball touch", "instead of the stomp
//! we touch", "replace the coaster with a rock".

use super::trouble::Labelled;
use crate::dance::{Move, Section};
use crate::letters::Letters as _;
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, acts};
use crate::text::lower;
use crate::time::Ticks;

/// The positions of the steps that are named as changed, and the words of what is danced then.
pub(super) fn swapped(
    text: &str,
    t: &[Token],
    section: &Section,
    labels: &[Labelled],
    danced: u32,
) -> Option<(Vec<Ticks>, Vec<Token>)> {
    (0..t.len()).find_map(|k| {
        let (old, new) = sides(text, t, k)?;
        let ticks = named(text, old, section, labels, danced)?;
        Some((ticks, new.to_vec()))
    })
}

fn does(t: &[Token]) -> bool {
    t.iter().any(|t| matches!(t.kind, Kind::Name(_)) || matches!(t.kind, Kind::W(w) if acts(w)))
}

fn stop(t: &Token) -> bool {
    matches!(t.kind, Kind::Sign('.' | ',' | ':' | ';' | '!' | '?' | '(' | ')' | '\n'))
}

/// What was danced and what is danced instead, around a word of change.
fn sides<'t>(text: &str, t: &'t [Token], k: usize) -> Option<(&'t [Token], &'t [Token])> {
    let word = |at: usize| t.get(at).map(|t| lower(t.span.of(text)));
    let is = |at: usize, words: &[&str]| word(at).is_some_and(|w| words.contains(&w.as_str()));
    let from = t[..k].iter().rposition(stop).map_or(0, |at| at + 1);
    let until = |from: usize| {
        from + t[from.min(t.len())..]
            .iter()
            .take_while(|t| !stop(t) && !t.is(W::Restart) && !t.is(W::Again))
            .count()
    };
    // New steps may go on behind a comma: "with step left forward, touch right".
    let steps = |from: usize| {
        let mut to = until(from);
        while t.get(to).is_some_and(|t| t.sign(','))
            && to + 1 < until(to + 1)
            && does(&t[to + 1..until(to + 1)])
        {
            to = until(to + 1);
        }
        to
    };
    let handed = |from: usize, words: &[&str]| (from..until(from)).find(|at| is(*at, words));
    let (old, new) = if is(k, &["becomes", "become"]) {
        (from..k, k + 1..steps(k + 1))
    } else if is(k + 1, &["into", "to"]) && k > from && is(k, &["turns", "turn", "changes", "change"])
        || is(k + 1, &["by", "with"]) && is(k, &["replaced"])
    {
        (from..k, k + 2..steps(k + 2))
    } else if is(k, &["replace", "swap", "change", "exchange", "turn", "make"]) {
        let to = handed(k + 1, &["with", "for", "to", "into", "by"])?;
        (k + 1..to, to + 1..steps(to + 1))
    } else if is(k, &["instead"]) && is(k + 1, &["of"]) {
        let end = until(k + 2);
        // "Touch instead of the stomp", "instead of the stomp, touch", "instead of the stomp we touch"
        if does(&t[from..k]) {
            (k + 2..end, from..k)
        } else if let Some(we) = handed(k + 2, &["we", "you", "just", "do", "it's", "there's"]) {
            (k + 2..we, we + 1..end)
        } else {
            (k + 2..end, end + 1..until(end + 1))
        }
    } else {
        return None;
    };
    let (old, new) = (t.get(old)?, t.get(new)?);
    (!old.is_empty() && does(new)).then_some((old, new))
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
    let plain = |t: &&Token| {
        matches!(t.kind, Kind::Name(_))
            || matches!(t.kind, Kind::W(w) if acts(w) || matches!(w, W::R | W::L | W::Heel | W::Toe | W::Change))
    };
    let words: Vec<String> = old.iter().filter(plain).map(|t| singular(t.span.of(text))).collect();
    let last = old.iter().any(|t| t.is(W::Last));
    let only_step = words.iter().all(|w| w == "step");
    if last && only_step {
        return moves.last().map(|m| vec![m.at]);
    }
    if words.is_empty() || only_step {
        return None;
    }
    let all = |s: &str| {
        let said: Vec<String> = s.split(|c: char| !c.is_alphanumeric()).map(singular).collect();
        words.iter().all(|w| said.contains(w))
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

fn singular(word: &str) -> String {
    let word = word.small();
    match word.strip_suffix('s') {
        Some(one) if one.len() > 2 && !one.ends_with('s') => one.to_string(),
        _ => word,
    }
}
