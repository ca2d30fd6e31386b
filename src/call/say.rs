//! How long words take to say.

use super::tempo::Moment;
use crate::letters::Letters as _;

/// A syllable called over music, in milliseconds. Fluent speech has four to six syllables a second (common
/// knowledge of phonetics); a caller has five and a half.
const SYLLABLE: u64 = 180;

/// The shortest time between two words that are to be told apart, in milliseconds.
const PAUSE: u64 = 30;

/// How long some words take.
pub(super) fn length(words: &str) -> Moment {
    let spoken = words.split(|c: char| !c.is_alphanumeric() && c != '\'').filter(|w| !w.is_empty());
    let syllables: u64 = spoken.map(syllables).sum();
    Moment::of_millis(syllables.max(1) * SYLLABLE + PAUSE)
}

/// Syllables of an English word, by its groups of vowels.
fn syllables(word: &str) -> u64 {
    if word.bytes().all(|b| b.is_ascii_digit()) {
        return match word.parse::<u32>() {
            Ok(7 | 13..=19 | 20 | 30 | 40 | 50 | 60 | 80 | 90) => 2,
            Ok(11 | 70) => 3,
            Ok(0..=12) => 1,
            Ok(21..=99) => 3,
            _ => 4,
        };
    }
    let word = word.small();
    let vowel = |c: char| "aeiouyéè".contains(c);
    let letters: Vec<char> = word.chars().collect();
    let mut groups = 0;
    let mut inside = false;
    for c in &letters {
        let now = vowel(*c);
        groups += u64::from(now && !inside);
        inside = now;
    }
    // A last e is silent, but for "-le" after a consonant and for words with no other vowel.
    let n = letters.len();
    let silent = word.ends_with('e')
        && n >= 2
        && !vowel(letters[n - 2])
        && !(word.ends_with("le") && n >= 3 && !vowel(letters[n - 3]));
    // "sides", "shuffles": the e before a last s is silent but after s, c, z, x, sh, ch, g.
    let plural =
        word.ends_with("es") && n >= 3 && !vowel(letters[n - 3]) && !"sczxhgl".contains(letters[n - 3]);
    // Words of the trade that the rule gets wrong.
    match word.as_str() {
        "sidestep" | "homebase" | "somewhere" => 2,
        _ if groups > 1 && (silent || plural) => groups - 1,
        _ => groups.max(1),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn syllables_of_the_trade() {
        for (word, n) in [
            ("vine", 1),
            ("shuffle", 2),
            ("grapevine", 3),
            ("together", 3),
            ("behind", 2),
            ("side", 1),
            ("quarter", 2),
            ("three", 1),
            ("seven", 2),
            ("coaster", 2),
            ("jazz", 1),
            ("sides", 1),
            ("twist", 1),
        ] {
            // The rule need not be perfect; it must not be short, lest words run into their step.
            assert!(syllables(word) >= n && syllables(word) <= n + 1, "{word} {}", syllables(word));
        }
        assert_eq!(length("vine right"), Moment::of_millis(390));
    }
}
