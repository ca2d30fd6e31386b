//! Small typing errors and private abbreviations: a word one edit away from a single known word, or the beginning of
//! a single one, is taken for it, and told.

use super::glued::parted;
use super::lines::weigh;
use super::vocabulary::{Vocabulary, W, Word};
use super::words::{Kind, Token, known};
use crate::text::{Span, lower};

/// A word that was taken for another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Typo {
    /// The word as typed.
    pub span: Span,
    /// The word that it was taken for.
    pub meant: String,
}

/// Words of everyday English that are one edit away from a word of the trade and are no slips.
const EVERYDAY: &[&str] = &[
    "light", "night", "might", "fight", "sight", "eight", "tough", "couch", "gross", "paint", "print",
    "joint", "plate", "slice", "sleep", "steep", "crush", "clock", "black", "block", "stack", "train",
    "trail", "state", "stand", "sound", "found", "would", "could", "should", "white", "write", "quite",
    "quiet", "smell", "until", "table", "later", "water", "waste", "house", "mouse", "horse", "clothes",
    "other", "every", "never", "there", "their", "these", "those", "where", "which", "about", "again",
    "after", "often", "class", "glass", "grass", "floor", "wheel", "steel", "sweet", "sheet", "sheets",
    "meets", "fresh", "stage", "start", "stuff", "stick", "trick", "click", "thick", "quick", "brick",
    "trace", "space", "grace", "peace", "please", "place", "places", "faces", "false", "cause", "pause",
    "lower", "power", "tower", "cover", "hover", "round", "bound", "pound", "hound", "mound", "wound",
    "party", "parts", "carts", "harts", "salt", "shall", "small", "shell", "shift", "shirt", "short",
    "store", "story", "stomp", "swamp", "stop", "shop", "chop", "drop", "crop", "strip", "stride", "strike",
    "stroke", "string", "spring", "bring", "thing", "think", "drink", "front", "fronts", "point", "order",
    "older", "elder", "holder", "harbour", "happy", "heavy", "heart", "hearts", "hotel", "motel", "centre",
    "center", "cheer", "chair", "chairs", "hairs", "stairs", "tides", "rides", "wides", "slides", "brides",
    "bridge", "ridge", "fridge", "apple", "butter", "came", "cent", "chain", "char", "fall", "flat", "free",
    "grin", "inter", "invert", "trans", "trip", "twin", "broad", "mash", "like", "dancer", "dancers",
    "began", "begun",
];

/// The length of the longest word that is cut.
const LONGEST: usize = 12;

/// Words that a line of steps cuts so short, or so oddly, that their letters alone do not tell them from others.
const PRIVATE: &[(&str, &str)] = &[
    ("char", "charleston"),
    ("chas", "chasse"),
    ("coa", "coaster"),
    ("cos", "coaster"),
    ("dor", "dorothy"),
    ("gvn", "grapevine"),
    ("mam", "mambo"),
    ("mont", "monterey"),
    ("monty", "monterey"),
    ("pad", "paddle"),
    ("sai", "sailor"),
    ("sci", "scissor"),
    ("tri", "triple"),
    ("trip", "triple"),
    ("wiz", "wizard"),
    ("wv", "weave"),
];

/// Takes unknown words from one token on for the known ones that they are one edit away from, or that they are short
/// for; whether there were any.
pub(super) fn mend(
    text: &str,
    tokens: &mut Vec<Token>,
    from: usize,
    vocabulary: &Vocabulary,
    typos: &mut Vec<Typo>,
) -> bool {
    let mut mended = false;
    let mut i = from;
    while i < tokens.len() {
        let token = &mut tokens[i];
        i += 1;
        if token.kind != Kind::Unknown {
            continue;
        }
        let word = lower(token.span.of(text));
        if let Some((_, long)) = PRIVATE.iter().find(|(short, _)| *short == word.as_str()) {
            token.kind = known(long, vocabulary);
        } else if let Some(parts) = parted(text, token, vocabulary) {
            tokens.splice(i - 1..i, parts);
            i += 1;
        } else if word.len() < 4 || word.len() > 14 || !word.is_ascii() || EVERYDAY.contains(&word.as_str()) {
            continue;
        } else if let Some((meant, spelling)) = cut(&word, vocabulary).or_else(|| nearest(&word, vocabulary))
        {
            token.kind = meant;
            typos.push(Typo { span: token.span, meant: spelling });
        } else {
            continue;
        }
        mended = true;
    }
    mended
}

/// The one word that begins so: "shuf", "coas", "togeth".
fn cut(word: &str, vocabulary: &Vocabulary) -> Option<(Kind, String)> {
    let step = |w: Word, grammar: Option<W>| weigh(grammar.map_or(Kind::Name(w), Kind::W)).0;
    let first = *word.as_bytes().first()?;
    let longer = (word.len() + 1..=LONGEST).flat_map(|n| vocabulary.alike(n, first, None));
    let mut found: Option<(Word, Option<W>, &str)> = None;
    for (spelling, w, grammar) in longer.filter(|(s, ..)| s.starts_with(word)) {
        if !step(w, grammar) {
            return None;
        }
        match found {
            // "Shuffling" and "shuffles" are forms of the same.
            Some((before, _, short)) if before != w => {
                if !spelling.starts_with(short.strip_suffix('e').unwrap_or(short)) {
                    return None;
                }
            }
            Some(_) => {}
            None => found = Some((w, grammar, spelling)),
        }
    }
    let (w, grammar, spelling) = found?;
    Some((grammar.map_or(Kind::Name(w), Kind::W), spelling.to_string()))
}

/// The one word at a distance of one edit, if there is just one.
fn nearest(word: &str, vocabulary: &Vocabulary) -> Option<(Kind, String)> {
    let mut found: Option<(Word, Option<W>, &str)> = None;
    // A short word must have lost a letter to be a slip.
    let lengths = (word.len() - 1).max(5)..=word.len() + 1;
    // One edit leaves the first letter or the last alone.
    let (first, last) = (*word.as_bytes().first()?, word.as_bytes().last().copied());
    for (spelling, w, grammar) in lengths.flat_map(|n| vocabulary.alike(n, first, last)) {
        if !one_edit(spelling.as_bytes(), word.as_bytes()) {
            continue;
        }
        match found {
            Some((other, ..)) if other != w => return None,
            // Of several spellings the first of the alphabet.
            Some((.., before)) if before < spelling => {}
            _ => found = Some((w, grammar, spelling)),
        }
    }
    let (w, grammar, spelling) = found?;
    Some((grammar.map_or(Kind::Name(w), Kind::W), spelling.to_string()))
}

/// Whether one letter was put in, left out or changed, or two beside each other exchanged.
fn one_edit(a: &[u8], b: &[u8]) -> bool {
    let (long, short) = if a.len() >= b.len() { (a, b) } else { (b, a) };
    if long.len() - short.len() > 1 || (long[0] != short[0] && long.last() != short.last()) {
        return false;
    }
    let Some(i) = (0..short.len()).find(|i| long[*i] != short[*i]) else { return long.len() > short.len() };
    if long.len() > short.len() {
        return long[i + 1..] == short[i..];
    }
    long[i + 1..] == short[i + 1..]
        || i + 1 < long.len()
            && long[i] == short[i + 1]
            && long[i + 1] == short[i]
            && long[i + 2..] == short[i + 2..]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_edit_is_one_letter() {
        for (a, b, one) in [
            ("shuffle", "shufle", true),
            ("shuffle", "shufflee", true),
            ("coaster", "coastre", true),
            ("coaster", "xoaster", true),
            ("coaster", "coaster", false),
            ("coaster", "caoster", true),
            ("coaster", "ocaster", true),
            ("coaster", "cosater", true),
            ("sailor", "salior", true),
            ("sailor", "tailors", false),
            ("sailor", "silro", false),
        ] {
            assert_eq!(one_edit(a.as_bytes(), b.as_bytes()), one, "{a} {b}");
        }
    }
}
