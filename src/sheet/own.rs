//! Figures that a sheet defines for itself: "Harbour step: 1 step R forward, 2 touch L behind".

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
    let verbs = steps
        .iter()
        .filter(|t| matches!(t.kind, Kind::Name(_)) || matches!(t.kind, Kind::W(w) if acts(w)))
        .count();
    if !unknown || !plain || verbs < 2 {
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

/// Whether the words of a name stand in a row of tokens, left and right apart.
fn contains(text: &str, t: &[Token], name: &[String]) -> bool {
    let words: Vec<String> = t
        .iter()
        .filter(|t| !side(t) && !t.is(W::The) && !matches!(t.kind, Kind::Sign(_)))
        .map(|t| t.span.of(text).small())
        .collect();
    words.windows(name.len()).any(|w| w == name)
}

/// The definitions of a sheet: names that nobody else knows, with steps behind a colon, used again later.
pub(super) fn definitions(text: &str, lines: &[Line]) -> Vec<Definition> {
    let mut out: Vec<Definition> = Vec::new();
    for (i, line) in lines.iter().enumerate() {
        let headed = headed(text, lines, i);
        let led = headed.is_some();
        let Some((name, from, span)) = named(text, line).or(headed) else { continue };
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
