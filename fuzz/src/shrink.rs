//! Makes a text that breaks a law as short as it can be made by leaving out lines, then words, then letters.

use crate::{Law, tried};

/// How many texts are tried at most.
const TRIES: usize = 600;

/// The shortest text found that breaks the law in the same way.
#[must_use]
pub fn shrunk(law: &Law, text: &str, broken: &str) -> String {
    let mut now = text.to_owned();
    let mut tries = TRIES;
    for split in [lines as fn(&str) -> Vec<String>, words, letters] {
        let mut size = split(&now).len().div_ceil(2).max(1);
        loop {
            let pieces = split(&now);
            let mut at = 0;
            let mut shorter = false;
            while at < pieces.len() && tries > 0 && !shorter {
                let end = (at + size).min(pieces.len());
                let less = [&pieces[..at], &pieces[end..]].concat().concat();
                tries -= 1;
                if tried(law, &less).is_err_and(|e| kind(&e) == kind(broken)) {
                    now = less;
                    shorter = true;
                }
                at = end;
            }
            if tries == 0 || (!shorter && size == 1) {
                break;
            }
            if !shorter {
                size = size.div_ceil(2);
            }
        }
    }
    now
}

/// What stays the same of a sentence when the text is another: what stands before the first colon, or the place
/// of a panic.
#[must_use]
pub fn kind(broken: &str) -> &str {
    let end = broken.find(": ").unwrap_or(broken.len());
    &broken[..end]
}

fn lines(text: &str) -> Vec<String> {
    text.split_inclusive('\n').map(str::to_owned).collect()
}

fn words(text: &str) -> Vec<String> {
    text.split_inclusive(char::is_whitespace).map(str::to_owned).collect()
}

fn letters(text: &str) -> Vec<String> {
    text.chars().map(String::from).collect()
}
