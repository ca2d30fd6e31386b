//! Figures that a sheet defines for itself: "Harbour step: 1 step R forward, 2 touch L behind".

use super::labels::label;
use super::lines::Line;
use super::vocabulary::W;
use super::words::{Kind, Token, acts};
use crate::letters::Letters as _;
use crate::text::Span;

/// A definition: its name's words, and where its steps stand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Definition {
    /// Words of the name in lower case, without left and right.
    pub name: Vec<String>,
    /// Line of the name and one past the last line of its steps.
    pub lines: (usize, usize),
    /// First token of the steps in the first line.
    pub from: usize,
    /// The words of the name.
    pub span: Span,
}

fn side(t: &Token) -> bool {
    matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF))
}

fn does(t: &Token) -> bool {
    matches!(t.kind, Kind::Name(_)) || matches!(t.kind, Kind::W(w) if acts(w))
}

/// The name in front of a colon, with the token behind it.
fn named(text: &str, line: &Line) -> Option<(Vec<String>, usize, Span)> {
    let t = &line.tokens;
    let colon = (line.first..t.len().min(line.first + 7)).find(|i| t[*i].sign(':') || t[*i].sign('='))?;
    let words = &t[line.first..colon];
    let unknown = words.iter().any(|t| t.kind == Kind::Unknown);
    let plain = words
        .iter()
        .all(|t| !matches!(t.kind, Kind::Number(_) | Kind::Clock(_) | Kind::Sign(',' | '.' | '(' | ')')));
    let steps = &t[colon + 1..];
    let verbs = steps.iter().filter(|t| does(t)).count();
    // "Eight number one:" heads a section.
    let heads = || label(text, line).is_some_and(|l| l.certain && l.number.is_some() && l.to > colon);
    if !unknown || !plain || verbs < 2 || heads() {
        return None;
    }
    let name: Vec<String> = words
        .iter()
        .filter(|t| !side(t) && !t.is(W::The) && !matches!(t.kind, Kind::Sign(_)))
        .map(|t| t.span.of(text).small())
        .collect();
    let span = words.first()?.span.join(words.last()?.span);
    (!name.is_empty()).then_some((name, colon + 1, span))
}

/// The name in a line of its own, "Harbour step" or "Harbour step (8 counts)", above counts that begin at 1.
fn headed(text: &str, lines: &[Line], i: usize) -> Option<(Vec<String>, usize, Span)> {
    let line = &lines[i];
    let t = &line.tokens;
    let end = (line.first..t.len()).find(|k| matches!(t[*k].kind, Kind::Sign('(' | '['))).unwrap_or(t.len());
    let words = t.get(line.first..end).filter(|w| (1..=4).contains(&w.len()))?;
    let plain = words.iter().all(|t| matches!(t.kind, Kind::Unknown | Kind::W(_) | Kind::Name(_)));
    let counts = t[end..].iter().all(|t| matches!(t.kind, Kind::Sign(_) | Kind::Number(_)) || t.is(W::Count));
    let below = lines.get(i + 1)?.leading(text).is_some_and(|m| m.first() == 1);
    if !plain || !counts || !below || !words.iter().any(|t| t.kind == Kind::Unknown) {
        return None;
    }
    let name: Vec<String> =
        words.iter().filter(|t| !side(t) && !t.is(W::The)).map(|t| t.span.of(text).small()).collect();
    // Later it fills counts by itself.
    let alone = |l: &Line| {
        l.leading(text).is_some_and(|m| {
            let rest = &l.tokens[m.to..];
            contains(text, rest, &name) && rest.iter().filter(|t| !side(t)).count() <= name.len() + 2
        })
    };
    let again = lines.iter().skip(i + 1).any(alone);
    (again && !name.is_empty()).then(|| (name, t.len(), words[0].span.join(words[words.len() - 1].span)))
}

/// A name in quotes or in a question, above the line of its steps: `First learn this, our "teapot":`, "What is a
/// rung?"
fn asked(text: &str, line: &Line) -> Option<(Vec<String>, usize, Span)> {
    let t = &line.tokens;
    let quotes: Vec<usize> = (0..t.len()).filter(|i| t[*i].sign('"')).collect();
    let ends = |i: usize| matches!(t.get(i).map(|t| t.kind), Some(Kind::Sign(':' | '=' | '?')));
    let (from, to, over) = match quotes[..] {
        // What is quoted is the name of the music, unless a colon or a verb hands over to steps.
        [open, close, ..] if ends(close + 1) || t.get(close + 1).is_some_and(|t| is(text, t)) => {
            (open + 1, close, close + 2)
        }
        _ if let Some(at) = taught(text, t) => (at, at + 1, t.len()),
        _ => {
            let question = t.iter().position(|t| t.sign('?')).filter(|at| *at + 1 >= t.len())?;
            let verb = t[..question].iter().position(|t| is(text, t) || text_is(text, t, "what's"))?;
            (verb + 1, question, question + 1)
        }
    };
    let words: Vec<&Token> = t[from..to].iter().filter(|t| !t.is(W::The) && !side(t)).collect();
    let plain = words.iter().all(|t| matches!(t.kind, Kind::Unknown | Kind::W(_) | Kind::Name(_)));
    if words.is_empty() || words.len() > 4 || !plain || !words.iter().any(|t| t.kind == Kind::Unknown) {
        return None;
    }
    let name = words.iter().map(|t| t.span.of(text).small()).collect();
    Some((name, over, words[0].span.join(words[words.len() - 1].span)))
}

/// "First learn my KETTLE, it has 4 counts:": the word in capitals in a line that hands over to the steps below it.
fn taught(text: &str, t: &[Token]) -> Option<usize> {
    let capitals = |t: &Token| {
        let word = t.span.of(text);
        t.kind == Kind::Unknown && word.len() >= 3 && word.bytes().all(|b| b.is_ascii_uppercase())
    };
    let at = (1..t.len()).find(|k| capitals(&t[*k]) && t[k - 1].is(W::The))?;
    let one = t.iter().filter(|t| capitals(t)).count() == 1;
    (one && t.last().is_some_and(|t| t.sign(':'))).then_some(at)
}

fn text_is(text: &str, t: &Token, word: &str) -> bool {
    t.span.of(text).eq_ignore_ascii_case(word)
}

fn is(text: &str, t: &Token) -> bool {
    text_is(text, t, "is") || text_is(text, t, "means")
}

/// Whether the words of a name stand in a row of tokens, left and right apart; "after the kettle" only tells when.
pub(super) fn contains(text: &str, t: &[Token], name: &[String]) -> bool {
    let plain = |t: &&Token| !side(t) && !t.is(W::The) && !matches!(t.kind, Kind::Sign(_));
    let words: Vec<&Token> = t.iter().filter(plain).collect();
    let named = |w: &[&Token]| w.iter().zip(name).all(|(t, n)| t.span.of(text).small() == *n);
    let when = |at: usize| {
        at > 0
            && (matches!(words[at - 1].kind, Kind::W(W::After | W::Before | W::From | W::At))
                || text_is(text, words[at - 1], "until"))
    };
    words.windows(name.len()).enumerate().any(|(at, w)| named(w) && !when(at))
}

/// The definitions of a sheet: names that nobody else knows, with steps behind a colon, used again later.
pub(super) fn definitions(text: &str, lines: &[Line]) -> Vec<Definition> {
    let mut out: Vec<Definition> = Vec::new();
    for (i, line) in lines.iter().enumerate() {
        let headed = headed(text, lines, i);
        let led = headed.is_some();
        let below = || lines.get(i + 1).is_some_and(|l| !l.empty() && l.verbs >= 2);
        let acting =
            |from: usize| line.tokens[from.min(line.tokens.len())..].iter().filter(|t| does(t)).count() >= 2;
        let asked = asked(text, line).filter(|(_, from, _)| acting(*from) || below());
        let Some((name, from, span)) = asked.or_else(|| named(text, line)).or(headed) else { continue };
        let again = lines
            .iter()
            .skip(i + 1)
            .any(|l| contains(text, &l.tokens, &name) && named(text, l).is_none_or(|(n, ..)| n != name));
        if !again || out.iter().any(|d| d.name == name) {
            continue;
        }
        let mut end = i + 1;
        while end < lines.len()
            && !lines[end].empty()
            && !lines[end].after_gap
            && lines[end].verbs > 0
            && !lines[end].tokens.iter().take(7).any(|t| t.sign(':'))
            && lines[end].leading(text).is_some() == led
        {
            end += 1;
        }
        out.push(Definition { name, lines: (i, end), from, span });
    }
    out
}
