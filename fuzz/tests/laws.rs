//! A short run of each law: all texts to begin with, and some spoilt ones, the same each time.

use fuzz::chance::Chance;
use fuzz::change::changed;
use fuzz::shrink::shrunk;
use fuzz::{Law, corpus, laws, tried};

/// Spoilt texts for each law: seconds, not minutes.
const TEXTS: usize = 150;

/// Trying a law keeps panics quiet; that of the test itself is to be heard.
fn say_again() {
    drop(std::panic::take_hook());
}

#[track_caller]
fn hold(name: &str) {
    let law: &Law = laws::law(name).expect("a law");
    let begin = if law.of_figures { corpus::figures() } else { corpus::sheets() };
    assert!(begin.len() > 50, "there is something to begin with");
    let corpus = if law.of_figures { begin.clone() } else { corpus::folder("fuzz/corpus") };
    for (file, text) in &corpus {
        if let Err(sentence) = tried(law, text) {
            say_again();
            panic!("{file} breaks the law of {name}: {sentence}");
        }
    }
    let mut chance = Chance::new(20);
    for _ in 0..TEXTS {
        let (one, other) = (chance.below(begin.len()), chance.below(begin.len()));
        let text = changed(&begin[one].1, &begin[other].1, &mut chance);
        if text.len() > 3000 {
            continue;
        }
        if let Err(sentence) = tried(law, &text) {
            let short = shrunk(law, &text, &sentence);
            say_again();
            panic!("broken law of {name}: {sentence}\nput this into fuzz/corpus and mend it: {short:?}");
        }
    }
}

#[test]
fn sheets_are_parsed_lawfully() {
    hold("sheet");
}

#[test]
fn the_whole_way_is_lawful() {
    hold("whole");
}

#[test]
fn figures_are_read_lawfully() {
    hold("figures");
}

#[test]
fn tidying_is_lawful() {
    hold("tidy");
}

#[test]
fn mends_are_lawful() {
    hold("mends");
}
