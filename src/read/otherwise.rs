//! The clauses in which the changed steps of a restart are told: "they must not touch there, they step L beside R",
//! "the last touch becomes a step", "instead of the shuffle step forward and touch". Each tells what is danced, or what
//! is left out for it.

use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, acts};
use crate::sheet::{Mark, mark};
use crate::text::{Among, among};

/// What a piece of a clause tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    /// What is danced.
    New,
    /// What is danced otherwise, and not here.
    Old,
    /// That something is danced as ever.
    Kept,
}

/// A piece of a clause.
#[derive(Debug, Clone, Copy)]
pub(super) struct Piece {
    pub from: usize,
    pub to: usize,
    pub way: Way,
    /// Which sentence.
    pub sentence: usize,
    /// Whether its clause says outright that something is danced otherwise.
    pub marked: bool,
}

pub(super) fn foot(t: &Token) -> bool {
    matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF))
}

/// Whether words say something to do: an action, or a foot and where it goes.
pub(super) fn does(t: &[Token]) -> bool {
    let named = t.iter().any(foot);
    t.iter().any(|t| match t.kind {
        Kind::Name(_) => true,
        Kind::W(W::Forward | W::Back | W::Side | W::Beside | W::Together | W::Behind | W::Across) => named,
        Kind::W(w) => acts(w) && !matches!(w, W::Turn | W::Face),
        _ => false,
    })
}

/// Whether words say where the weight goes, and nothing else: "weight on L", "put the left foot down".
pub(super) fn weighs(t: &[Token]) -> bool {
    let down = || t.iter().any(|t| t.is(W::Take)) && t.iter().any(|t| t.is(W::Down));
    (t.iter().any(|t| t.is(W::Weight)) || down()) && !does(t)
}

pub(super) fn word_is(text: &str, t: &[Token], k: usize, words: &Among) -> bool {
    t.get(k).is_some_and(|t| t.span.is_among(text, words))
}

/// Whether words are counts and nothing else: "counts 7-8", "2".
pub(super) fn counts_only(text: &str, t: &[Token]) -> bool {
    let at = t
        .iter()
        .position(|t| !matches!(t.kind, Kind::W(W::Count | W::The | W::With | W::On | W::For)))
        .unwrap_or(t.len());
    mark(text, t, at, t.len()).is_some_and(|m| m.to == t.len())
}

/// Whether a piece speaks of the dance as a whole: how much of it is danced, where it begins again.
pub(super) fn of_dance(text: &str, t: &[Token]) -> bool {
    let told = |w: W| t.iter().any(|t| t.is(w));
    let begins =
        (0..t.len()).any(|k| word_is(text, t, k, among!["begin", "start", "begins", "starts", "starting"]));
    begins
        || told(W::Wall)
        || told(W::Restart)
        || told(W::Again)
        || told(W::Face)
        || told(W::Times)
        || t.iter().all(|t| {
            let part = matches!(t.kind, Kind::W(W::Make | W::Count | W::The | W::Step | W::Section | W::Set));
            part || matches!(t.kind, Kind::Number(_) | Kind::Sign(_))
        }) && t.iter().any(|t| matches!(t.kind, Kind::Number(_)))
}

/// The pieces of all clauses.
pub(super) fn pieces(text: &str, t: &[Token]) -> Vec<Piece> {
    let mut out = Vec::new();
    let mut sentence = 0;
    let mut from = 0;
    let all = t;
    for k in 0..=t.len() {
        let stops = t.get(k).is_none_or(|t| {
            matches!(t.kind, Kind::Sign('.' | '!' | '?' | ';' | '\n' | '(' | ')' | '[' | ']' | ',' | ':'))
                || t.sign('-') && t.gap > 0
                || t.is(W::Then) && !(k > 0 && word_is(text, all, k - 1, among!["is", "are"]))
        });
        let turns = word_is(text, t, k, among!["but", "otherwise", "because", "so"]);
        if !stops && !turns {
            continue;
        }
        // "Restart after section 2 (7-8: step forward, touch)": counts that are told anew.
        let anew = |m: Mark| m.ticks.len() >= 2 && m.to == k;
        if t.get(k).is_some_and(|t| t.sign(':') || t.is(W::Then)) && mark(text, t, from, k).is_some_and(anew)
        {
            out.push(Piece { from, to: k, way: Way::Old, sentence, marked: true });
        } else {
            clause(text, t, from..k, sentence, &mut out);
        }
        sentence +=
            usize::from(t.get(k).is_some_and(|t| matches!(t.kind, Kind::Sign('.' | '!' | '?' | '\n'))));
        from = k + 1;
        // "Otherwise the wrong foot is free" only says why.
        if word_is(text, t, k, among!["otherwise", "because"]) {
            let end = t[k..].iter().position(|t| t.sign('.')).map_or(t.len(), |n| k + n);
            out.push(Piece { from, to: end, way: Way::Kept, sentence, marked: false });
            from = end;
        }
    }
    out
}

/// The pieces of one clause.
fn clause(text: &str, t: &[Token], range: core::ops::Range<usize>, sentence: usize, out: &mut Vec<Piece>) {
    let t = &t[..range.end];
    let mut from = range.start;
    let mut way = Way::New;
    let mut marked = range.clone().any(|k| {
        word_is(text, t, k, among!["instead"])
            || word_is(text, t, k, among!["only"]) && does(&t[range.clone()])
    });
    let first = out.len();
    let mut k = from;
    let mut swapping = false;
    let mut push = |from: usize, to: usize, way: Way, marked: bool| {
        // "Step change: ..." has nothing but its mark.
        if from < to || marked && to == t.len() {
            out.push(Piece { from, to, way, sentence, marked });
        }
    };
    while k < t.len() {
        if t[k].is(W::Keep) && !does(&t[from..k]) {
            push(from, t.len(), Way::Kept, false);
            return;
        }
        if let Some(n) = rather(text, t, k) {
            marked = true;
            // "The touch is not danced" tells what is left out before the word.
            let passive = k > from && word_is(text, t, k - 1, among!["is", "are"]);
            push(from, k, if passive { Way::Old } else { way }, marked);
            (from, way) = (k + n, Way::Old);
        } else if let Some(n) =
            becomes(text, t, k).filter(|_| does(&t[from..k]) || counts_only(text, &t[from..k]))
        {
            marked = true;
            push(from, k, Way::Old, marked);
            (from, way) = (k + n, Way::New);
        } else if t[k].is(W::End) && t.get(k + 1).is_some_and(|t| t.is(W::With)) && does(&t[k + 2..]) {
            marked = true;
            push(from, k, way, marked);
            (from, way) = (k + 2, Way::New);
        } else if word_is(
            text,
            t,
            k,
            among!["replace", "replacing", "swap", "change", "changing", "exchange", "substitute", "make"],
        ) {
            marked |= !word_is(text, t, k, among!["make"]);
            // "With a step change" is a heading.
            if !(k > from && t[k - 1].is(W::Step)) {
                push(from, k, way, marked);
            }
            (from, way) = (k + 1, Way::Old);
            swapping = true;
        } else if way == Way::Old && does(&t[from..k]) && begins_steps(text, t, from, k) {
            push(from, k, way, marked);
            (from, way) = (k, Way::New);
            k += 1;
            continue;
        } else if way == Way::Old
            && (swapping
                && (word_is(text, t, k, among!["with", "for", "by", "to", "into", "a", "an"]) && k > from)
                || word_is(text, t, k, among!["we", "you", "they", "just", "do"]))
            && (does(&t[k..]) || counts_only(text, &t[k + 1..]))
        {
            marked = true;
            push(from, k, way, marked);
            (from, way) = (k + 1, Way::New);
        } else {
            k += 1;
            continue;
        }
        k = from;
    }
    push(from, t.len(), way, marked);
    if marked {
        out[first..].iter_mut().for_each(|p| p.marked = true);
    }
}

/// How many tokens at `k` hand over from what is danced to what is left out.
fn rather(text: &str, t: &[Token], k: usize) -> Option<usize> {
    let two = word_is(text, t, k, among!["instead"]) && t.get(k + 1).is_some_and(|t| t.is(W::Of))
        || word_is(text, t, k, among!["rather"]) && word_is(text, t, k + 1, among!["than"])
        || word_is(text, t, k, among!["leave", "leaving"]) && t.get(k + 1).is_some_and(|t| t.is(W::Out));
    let three = t[k].is(W::In)
        && t.get(k + 1).is_some_and(|t| t.is(W::Place))
        && t.get(k + 2).is_some_and(|t| t.is(W::Of));
    // "No weight", "no tags"
    let other = |t: &Token| matches!(t.kind, Kind::W(W::Weight | W::Tag | W::Restart | W::Turn));
    let one = t[k].is(W::No) && !word_is(text, t, k, among!["any"]) && !t[k + 1..].iter().take(2).any(other)
        || word_is(text, t, k, among!["omit", "omitting", "skip", "skipping"]);
    [(three, 3), (two, 2), (one, 1)].iter().find(|(is, _)| *is).map(|(_, n)| *n)
}

/// How many tokens at `k` hand over from what is left out to what is danced: "becomes", "is then", "has to be", "=".
fn becomes(text: &str, t: &[Token], k: usize) -> Option<usize> {
    if word_is(text, t, k, among!["becomes", "become"]) || t[k].sign('=') || t[k].sign('>') {
        return Some(1);
    }
    let is = |k: usize| word_is(text, t, k, among!["is", "are", "be"]);
    let then = |k: usize| word_is(text, t, k, among!["then", "now", "here", "instead"]);
    if is(k) && then(k + 1) || word_is(text, t, k, among!["must", "should", "will"]) && is(k + 1) {
        return Some(2);
    }
    if word_is(text, t, k, among!["turns", "changes", "changed", "turned"])
        && word_is(text, t, k + 1, among!["into", "to"])
    {
        return Some(2);
    }
    (word_is(text, t, k, among!["has", "have"]) && word_is(text, t, k + 1, among!["to"]) && is(k + 2))
        .then_some(3)
}

/// "Instead of the shuffle on 7&8 step right ...", "in place of the pivot stomp right": whether new steps begin behind
/// the old ones, though no word hands over.
fn begins_steps(text: &str, t: &[Token], from: usize, k: usize) -> bool {
    let foot = |k: usize| t.get(k).is_some_and(foot);
    let orders = matches!(t[k].kind, Kind::W(w) if acts(w))
        && (foot(k + 1) || t.get(k + 1).is_some_and(|t| t.is(W::The)) && foot(k + 2));
    let counted = || {
        (from..k).any(|i| {
            matches!(t[i].kind, Kind::W(W::On | W::For | W::At | W::Count))
                && mark(text, t, i + 1, t.len()).is_some_and(|m| m.to == k)
        })
    };
    orders && (t[from].is(W::The) || counted())
}
