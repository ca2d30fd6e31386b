//! What is said between the steps: sentences that tell a dancer what to do, and those that only talk.

use super::{Kind, Token, W, sign_at};
use crate::floor::Heading;
use crate::letters::Letters as _;
use crate::sheet::beside::wall_named;
use crate::sheet::classes::all_again;
use crate::sheet::lines::line_of;
use crate::sheet::own::Definition;
use crate::sheet::structure::wording::{doing, has};
use crate::sheet::words::acts;
use crate::text::{Among, Span, among, lower};

/// Words with which people talk of what may happen, and to whom.
const CONDITIONS: &Among = among![
    "if",
    "because",
    "since",
    "everybody",
    "everyone",
    "somebody",
    "someone",
    "nobody",
    "anybody",
    "people",
    "please",
    "remember",
    "remind",
    "tell",
    "say",
    "shout",
    "warn",
    "don't",
    "dont",
    "who",
    "whoever",
    "those",
    "i",
    "me",
    "i'm",
    "i've",
    "they",
    "they're",
    "you've",
    "you'll",
    "you'd",
    "otherwise",
    "unless",
    "until",
    "instead",
    "rather",
    "though",
    "although",
];

/// Whether a sentence talks of what may happen, or to people.
pub(super) fn conditional(text: &str, t: &[Token]) -> bool {
    let mut words = t.iter().filter(|t| matches!(t.kind, Kind::W(_) | Kind::Name(_) | Kind::Unknown));
    words.any(|t| t.span.is_among(text, CONDITIONS))
}

/// Whether a sentence says what something is: "that's three counts", "the holds are for snapping".
fn explains(text: &str, t: &[Token]) -> bool {
    let mut words = t.iter().filter(|t| !matches!(t.kind, Kind::Sign(_)));
    let Some(first) = words.next() else { return false };
    let first = lower(first.span.of(text));
    if matches!(
        first.as_str(),
        "that's" | "thats" | "it's" | "there's" | "these" | "here's" | "they" | "there"
    ) {
        return true;
    }
    let verb = |t: &&Token| {
        t.span.is_among(
            text,
            among![
                "is", "are", "was", "were", "had", "has", "have", "comes", "come", "means", "should", "can",
                "must", "will"
            ],
        )
    };
    // "Both stomps take weight", "R heel stays light"
    let bears = |at: usize| {
        t[at].span.is_among(
            text,
            among![
                "take", "takes", "stay", "stays", "keep", "keeps", "carry", "carries", "have", "has", "get",
                "gets",
            ],
        ) && t.get(at + 1).is_some_and(|t| {
            t.is(W::No)
                || t.is(W::Weight)
                || t.span.is_among(text, among!["light", "empty", "free", "the", "your", "all"])
        })
    };
    let does = |t: &Token| matches!(t.kind, Kind::W(w) if acts(w));
    if (1..t.len().min(8)).any(|at| {
        bears(at)
            && (t[at..].iter().any(|t| t.is(W::Weight)) || !t[at..].iter().any(does))
            && !t[..at].iter().any(|t| t.sign(','))
    }) {
        return true;
    }
    // "Last year this had a sailor in it": nothing past is to be danced.
    let past = |t: &Token| t.span.is_among(text, among!["was", "were", "had", "used"]);
    if t.iter().take(7).take_while(|t| !matches!(t.kind, Kind::Sign(_))).any(past) {
        return true;
    }
    let subject = matches!(
        first.as_str(),
        "the" | "that" | "this" | "your" | "all" | "every" | "each" | "both" | "it" | "no"
    );
    let at = t.iter().take(8).position(|t| verb(&t));
    // "The right is free, step on it" still says what to do behind the comma.
    at.is_some_and(|at| at > 0 && (subject || at <= 2) && !t[..at].iter().any(|t| t.sign(',') || t.sign(':')))
}

/// "K step, small, clap as you please": what is said to people behind a comma leaves the steps before it steps.
fn opens_with_steps(text: &str, t: &[Token]) -> bool {
    let Some(comma) = t.iter().position(|t| t.sign(',')) else { return false };
    let clause = &t[..comma];
    let foot = |t: &Token| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF));
    let verb = |t: &Token| matches!(t.kind, Kind::W(w) if acts(w));
    let told = clause.iter().any(|t| matches!(t.kind, Kind::Name(_)))
        || clause.iter().any(foot) && clause.iter().any(verb);
    told && !conditional(text, clause)
}

/// Whether a sentence tells what to dance.
pub(in crate::sheet::structure) fn danced(text: &str, t: &[Token], own: &[Definition]) -> bool {
    let Some(span) = t.iter().map(|t| t.span).reduce(Span::join) else { return false };
    let line = line_of(text, span, t.to_vec(), false);
    if line.empty() || conditional(text, t) && !opens_with_steps(text, t) || explains(text, t) {
        return false;
    }
    let first = t.iter().find(|t| !matches!(t.kind, Kind::Sign(_)));
    if first.is_some_and(|t| matches!(t.kind, Kind::W(W::Option | W::Note | W::Or | W::Enjoy | W::Music))) {
        return false;
    }
    let named = |d: &Definition| {
        let words: Vec<String> = t.iter().map(|t| t.span.of(text).small()).collect();
        words.windows(d.name.len()).any(|w| w == d.name)
    };
    if own.iter().any(named) {
        return true;
    }
    let again = has(t, W::Repeat)
        || has(t, W::Same)
        || has(t, W::Twice)
        || t.iter().any(|t| matches!(t.kind, Kind::Times(_)))
        || has(t, W::Other) && (has(t, W::Foot) || has(t, W::Side))
        || has(t, W::Again) && line.words <= 4 && !has(t, W::Make) && !has(t, W::Off)
        || all_again(text, t);
    again && line.words <= 12 || doing(t) && line.step_words * 2 >= line.words
}

/// The sentences of a line; what stands in brackets belongs to the sentence around it.
pub(in crate::sheet::structure) fn sentences<'t>(text: &str, t: &'t [Token]) -> Vec<&'t [Token]> {
    let mut out = Vec::new();
    let (mut from, mut depth) = (0, 0_u32);
    for i in 0..t.len() {
        match t[i].kind {
            Kind::Sign('(' | '[') => depth += 1,
            Kind::Sign(')' | ']') => depth = depth.saturating_sub(1),
            Kind::Sign('.' | '!' | '?') if depth == 0 && !short(text, t, i) => {
                out.push(&t[from..=i]);
                from = i + 1;
            }
            // "... 3:00", "-> back wall"
            Kind::Sign('-' | '>' | '~') if depth == 0 && t[i].gap > 0 && i > from => {
                out.push(&t[from..i]);
                from = i;
            }
            _ => {}
        }
    }
    if from < t.len() {
        out.push(&t[from..]);
    }
    out
}

/// Words that people shorten with a full stop.
const SHORTENED: &Among = among![
    "fwd", "fw", "bk", "bck", "bwd", "tog", "rec", "diag", "beh", "bes", "sd", "ft", "ct", "cts", "tch",
    "sh",
];

/// Whether a full stop only shortens a word: "fwd. left".
fn short(text: &str, t: &[Token], i: usize) -> bool {
    t[i].sign('.')
        && t[i].gap == 0
        && i > 0
        && t[i - 1].span.is_among(text, SHORTENED)
        && t.get(i + 1).is_some_and(|t| {
            t.gap == 1
                && matches!(t.kind, Kind::W(_) | Kind::Name(_))
                && t.span.of(text).starts_with(char::is_lowercase)
        })
}

/// The facing that a sentence tells, where it tells one of now.
fn facing(text: &str, t: &[Token]) -> Option<Token> {
    let mut found = None;
    let mut i = 0;
    while i < t.len() {
        let hour = matches!(t[i].kind, Kind::Number(1..=12)) && t.get(i + 1).is_some_and(|t| t.is(W::OClock));
        let (clock, to) = match (t[i].kind, wall_named(text, t, i)) {
            (Kind::Clock(h), _) => (h, i + 1),
            (Kind::Number(n), _) if hour => (Heading::new(i32::try_from(n * 4).unwrap_or(0)), i + 2),
            (_, Some(found)) => found,
            _ => {
                i += 1;
                continue;
            }
        };
        if found.is_some() {
            return None;
        }
        found = Some(Token { kind: Kind::Clock(clock), span: t[i].span.join(t[to - 1].span), gap: 1 });
        i = to;
    }
    let other = t.iter().any(|t| {
        t.is(W::After)
            || t.is(W::Before)
            || t.is(W::No)
            || t.is(W::Times)
            || t.span.is_among(text, among!["was", "were", "other", "until", "second", "third", "next"])
    }) || t.windows(2).any(|w| w[0].is(W::Wall) && matches!(w[1].kind, Kind::Number(_)));
    let then = t.iter().any(|t| t.span.is_among(text, among!["if", "unless"]));
    found.filter(|_| !other && !then)
}

/// The tokens of a line that are danced, or tell where one looks; `over` where the steps are at their end.
pub(super) fn steps(text: &str, t: &[Token], own: &[Definition], over: bool) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(t.len());
    for sentence in sentences(text, t) {
        let bare = without_asides(text, sentence, own);
        let plain: Vec<Token> = bare.iter().copied().filter(|t| !matches!(t.kind, Kind::Clock(_))).collect();
        let total = bare.len() <= 4 && super::brackets::only(&bare);
        if !over && (total || danced(text, &plain, own)) {
            out.extend(walls(text, &bare));
        } else if let Some(clock) = facing(text, sentence) {
            out.push(sign_at(clock.span.start as usize));
            out.push(clock);
        } else if !over {
            // The length of a row may stand behind chat.
            out.extend(super::brackets::totals(sentence));
        }
    }
    out
}

/// A sentence of steps with the names of walls as clocks.
fn walls(text: &str, t: &[Token]) -> Vec<Token> {
    let mut out = Vec::with_capacity(t.len());
    let mut i = 0;
    while i < t.len() {
        if let Some((heading, to)) = wall_named(text, t, i) {
            out.push(Token { kind: Kind::Clock(heading), span: t[i].span.join(t[to - 1].span), gap: 1 });
            i = to;
        } else {
            out.push(t[i]);
            i += 1;
        }
    }
    out
}

/// A sentence without brackets that only chat; of those that tell a facing, the facing stays.
fn without_asides(text: &str, t: &[Token], own: &[Definition]) -> Vec<Token> {
    let mut out = Vec::with_capacity(t.len());
    let mut i = 0;
    while i < t.len() {
        let close = matches!(t[i].kind, Kind::Sign('(' | '['))
            .then(|| (i + 1..t.len()).find(|k| matches!(t[*k].kind, Kind::Sign(')' | ']'))))
            .flatten();
        let Some(close) = close else {
            out.push(t[i]);
            i += 1;
            continue;
        };
        let inner = &t[i + 1..close];
        let words = inner.iter().any(|t| {
            matches!(t.kind, Kind::W(w) if w != W::And && w != W::Count)
                || matches!(t.kind, Kind::Name(_) | Kind::Unknown)
        });
        let told = sentences(text, inner).iter().any(|s| danced(text, s, own));
        if !words || told {
            out.extend_from_slice(&t[i..=close]);
        } else if let Some(clock) = facing(text, inner) {
            out.extend([t[i], clock, t[close]]);
        }
        i = close + 1;
    }
    out
}

/// Whether a line between steps only talks: nothing in it tells what to dance.
pub(in crate::sheet::structure) fn talks(text: &str, t: &[Token], own: &[Definition]) -> bool {
    !sentences(text, t).iter().any(|s| danced(text, s, own))
}

/// Whether a line only says what of the dance is danced again: "all of 4th 8 on the other foot".
pub(in crate::sheet::structure) fn says_again(text: &str, t: &[Token]) -> bool {
    let other = has(t, W::Other) && (has(t, W::Foot) || has(t, W::Side) || has(t, W::Footwork));
    (other || has(t, W::Same) && !has(t, W::Wall)) && !talks(text, t, &[])
}

/// Takes the sentences out of a line of steps without counts that only explain them: "... Drags are empty."
pub(in crate::sheet::structure) fn leave_steps(text: &str, t: &mut Vec<Token>, from: usize) {
    let all = sentences(text, t.get(from..).unwrap_or_default());
    let kept = |s: &[Token]| {
        let place = |t: &Token| {
            matches!(t.kind, Kind::Clock(_) | Kind::Number(_)) || t.is(W::Weight) || t.is(W::OClock)
        };
        let talks = explains(text, s) || conditional(text, s) && !opens_with_steps(text, s);
        !talks || s.iter().any(place)
    };
    if all.len() < 2 || all.iter().skip(1).all(|s| kept(s)) {
        return;
    }
    let rest: Vec<Token> = all
        .iter()
        .enumerate()
        .filter(|(k, s)| *k == 0 || kept(s))
        .flat_map(|(_, s)| s.iter().copied())
        .collect();
    t.truncate(from);
    t.extend(rest);
}
