//! Small typing errors: a word one edit away from a single known word is taken for it, and told.

use super::vocabulary::{Vocabulary, W, Word};
use super::words::{Kind, Token};
use crate::text::Span;

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
    "bridge", "ridge", "fridge",
];

/// Takes unknown words for the known ones that they are one edit away from.
pub(super) fn mend(text: &str, tokens: &mut [Token], vocabulary: &Vocabulary, typos: &mut Vec<Typo>) {
    for token in tokens {
        if token.kind != Kind::Unknown {
            continue;
        }
        let word = token.span.of(text).to_lowercase();
        if word.len() < 4 || word.len() > 14 || !word.is_ascii() || EVERYDAY.contains(&word.as_str()) {
            continue;
        }
        if let Some((meant, spelling)) = nearest(&word, vocabulary) {
            token.kind = meant;
            typos.push(Typo { span: token.span, meant: spelling });
        }
    }
}

/// The one word at a distance of one edit, if there is just one.
fn nearest(word: &str, vocabulary: &Vocabulary) -> Option<(Kind, String)> {
    let mut found: Option<(Word, String)> = None;
    for (spelling, w) in vocabulary.spellings() {
        // A short word must have lost a letter to be a slip.
        if spelling.len() < 5 || spelling.len().abs_diff(word.len()) > 1 {
            continue;
        }
        if strsim::osa_distance(spelling, word) != 1 {
            continue;
        }
        match &found {
            Some((other, _)) if *other != w => return None,
            Some(_) => {}
            None => found = Some((w, spelling.to_string())),
        }
    }
    let (w, spelling) = found?;
    let kind =
        vocabulary.get(&spelling).and_then(|(_, grammar)| grammar).map_or(Kind::Name(w), |g: W| Kind::W(g));
    Some((kind, spelling))
}
