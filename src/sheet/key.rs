//! A key of the writer's own letters, "f = forward, s = side, x = cross", and the words that are put together from
//! them: "Rf", "Lxb".

use super::lines::Line;
use super::table::Told;
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

/// Whether a stroke stands between two feet: "L/R".
fn stroke(t: &[Token], k: usize) -> bool {
    let foot = |t: &Token| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF));
    k > 0
        && t[k].sign('/')
        && t[k].gap == 0
        && foot(&t[k - 1])
        && t.get(k + 1).is_some_and(|next| foot(next) && next.gap == 0 && next.kind != t[k - 1].kind)
}

/// "L/R = L across R", "R/L = right over left": where a sheet says so, a stroke between two feet is a cross.
fn crossed(lines: &mut [Line]) {
    let says = |line: &Line| {
        let t = &line.tokens;
        (1..t.len().saturating_sub(3)).any(|k| {
            t[k + 2].sign('=')
                && stroke(t, k)
                && t[k + 3..].iter().take(3).any(|t| matches!(t.kind, Kind::W(W::Across | W::Front)))
        })
    };
    if !lines.iter().any(says) {
        return;
    }
    for line in lines {
        for k in 1..line.tokens.len() {
            if stroke(&line.tokens, k) {
                line.tokens[k].kind = Kind::W(W::Across);
            }
        }
        line.weigh();
    }
}

/// How many feet of a line are joined to what they do by a full stop, where it is a manner of writing.
const STOPPED: usize = 2;

/// "r.side l.tog r.side l.tap": a full stop between a foot and what it does parts nothing.
fn stopped(line: &mut Line) {
    let t = &line.tokens;
    let stop = |k: &usize| {
        let k = *k;
        k > 0
            && t[k].sign('.')
            && t[k].gap == 0
            && matches!(t[k - 1].kind, Kind::W(W::R | W::L | W::RF | W::LF))
            && (k < 2 || t[k - 1].gap > 0 || matches!(t[k - 2].kind, Kind::Fraction(_) | Kind::Sign(_)))
            && t.get(k + 1).is_some_and(|next| next.gap == 0 && super::lines::weigh(next.kind).0)
    };
    let found: Vec<usize> = (0..t.len()).filter(stop).collect();
    if found.len() < STOPPED {
        return;
    }
    for k in found.into_iter().rev() {
        // Each foot begins a clause, and so does a turn glued to it.
        let from = k - 1 - usize::from(k > 1 && line.tokens[k - 1].gap == 0);
        let mut stop = line.tokens.remove(k);
        line.tokens[k].gap = 1;
        stop.gap = line.tokens[from].gap;
        stop.kind = Kind::Sign(',');
        stop.span = Span::new(line.tokens[from].span.start as usize, line.tokens[from].span.start as usize);
        line.tokens[from].gap = 1;
        line.tokens.insert(from, stop);
    }
    // "l.tap+hip"
    for k in 1..line.tokens.len() {
        let hip = line.tokens[k].is(W::Hip) && line.tokens[k].gap == 0;
        if hip && line.tokens[k - 1].is(W::And) && line.tokens[k - 1].gap == 0 {
            line.tokens[k - 1].kind = Kind::W(W::With);
        }
    }
    line.weigh();
}

/// Reads the letters of a key wherever they stand, where a sheet has one, and signs that join feet to what they do.
pub(super) fn apply(text: &str, lines: &mut [Line], vocabulary: &Vocabulary) {
    lines.iter_mut().for_each(stopped);
    crossed(lines);
    let mut key = Key::new();
    for line in lines.iter_mut() {
        let known = key.len();
        pairs(text, line, &mut key);
        // A line that explains so many tells nothing to dance.
        if key.len() >= known + FEWEST {
            line.told.get_or_insert(Told::Aside);
        }
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
