//! A key of the writer's own letters, "f = forward, s = side, x = cross", and the words that are put together from
//! them: "Rf", "Lxb".

use super::lines::Line;
use super::vocabulary::{Vocabulary, W};
use super::words::{Kind, Token};
use crate::letters::Letters as _;
use crate::text::Span;

/// Letters and what they stand for.
type Key = Vec<(String, Vec<Kind>)>;

/// So many letters make a key; fewer may stand together by chance.
const FEWEST: usize = 4;

/// Whether a word can be the meaning of a letter.
fn meant(kind: Kind) -> bool {
    super::lines::weigh(kind).0 || matches!(kind, Kind::W(W::Diagonal | W::Weight | W::Clap))
}

/// The pairs of a line: a word of one or two letters, an equal sign, one to three words of steps.
fn pairs(text: &str, line: &Line, out: &mut Key) {
    let t = &line.tokens;
    for k in 1..t.len() {
        if !t[k].sign('=') {
            continue;
        }
        let short = t[k - 1].span.of(text).small();
        let letters = (1..=2).contains(&short.len()) && short.bytes().all(|b| b.is_ascii_lowercase());
        let begins = k < 2 || matches!(t[k - 2].kind, Kind::Sign(_)) || t[k - 1].gap > 0;
        if !letters || !begins {
            continue;
        }
        let words: Vec<Kind> =
            t[k + 1..].iter().take(3).map(|t| t.kind).take_while(|kind| meant(*kind)).collect();
        // "f = forward s = side": the next letter is no word of this one.
        let next = t.get(k + 1 + words.len()).is_some_and(|t| t.sign('='));
        let words = &words[..words.len().saturating_sub(usize::from(next))];
        if !words.is_empty() && !out.iter().any(|(known, _)| *known == short) {
            out.push((short, words.to_vec()));
        }
    }
}

/// The kinds of a word put together from letters of the key behind that of a foot.
fn composed(word: &str, key: &Key) -> Option<Vec<(usize, Vec<Kind>)>> {
    let foot = match word.as_bytes().first()? {
        b'r' => W::R,
        b'l' => W::L,
        _ => return None,
    };
    let mut out = vec![(1, vec![Kind::W(foot)])];
    let mut at = 1;
    while at < word.len() {
        let fits = |(letters, _): &&(String, Vec<Kind>)| word[at..].starts_with(letters.as_str());
        let (letters, kinds) = key.iter().filter(fits).max_by_key(|(letters, _)| letters.len())?;
        if matches!(letters.as_str(), "r" | "l") {
            return None;
        }
        at += letters.len();
        out.push((letters.len(), kinds.clone()));
    }
    (out.len() > 1).then_some(out)
}

/// Reads the letters of a key wherever they stand, where a sheet has one.
pub(super) fn apply(text: &str, lines: &mut [Line], vocabulary: &Vocabulary) {
    let mut key = Key::new();
    for line in lines.iter() {
        pairs(text, line, &mut key);
    }
    if key.len() < FEWEST {
        return;
    }
    for line in lines.iter_mut() {
        if line.tokens.iter().any(|t| t.sign('=')) {
            continue;
        }
        let mut out: Vec<Token> = Vec::with_capacity(line.tokens.len());
        for token in &line.tokens {
            let word = token.span.of(text).small();
            let own = (1..=6).contains(&word.len()) && word.bytes().all(|b| b.is_ascii_lowercase());
            let known = key
                .iter()
                .find(|(letters, _)| *letters == word)
                .map(|(_, kinds)| vec![(word.len(), kinds.clone())]);
            let said = known.or_else(|| composed(&word, &key)).filter(|_| own);
            let Some(said) =
                said.filter(|_| word.len() == 1 || word.len() < 4 || vocabulary.get(&word).is_none())
            else {
                out.push(*token);
                continue;
            };
            let mut at = token.span.start as usize;
            for (len, kinds) in said {
                for (n, kind) in kinds.into_iter().enumerate() {
                    let gap = if at == token.span.start as usize && n == 0 { token.gap } else { 1 };
                    out.push(Token { kind, span: Span::new(at, at + len), gap });
                }
                at += len;
            }
        }
        line.tokens = out;
        line.weigh();
    }
}
