//! Finding figures by the words of their names.

use core::hash::{BuildHasherDefault, Hasher};
use std::collections::HashMap;
use std::sync::OnceLock;

use arrayvec::ArrayVec;

use super::entry::{Figure, entries};
use super::step::{Known, steps_known};
use crate::order::Ordered as _;
use crate::sheet::vocabulary::{Vocabulary, W, Word};
use crate::sheet::words::{Kind, Token, tokens};
use crate::text::lower;

/// A file of the lexicon with its name; outside tests it goes without what only they read (`build.rs`).
#[cfg(test)]
macro_rules! family {
    ($name:literal) => {
        ($name, include_str!(concat!("lexicon/", $name)))
    };
}
#[cfg(not(test))]
macro_rules! family {
    ($name:literal) => {
        ($name, include_str!(concat!(env!("OUT_DIR"), "/", $name)))
    };
}

/// The families of the lexicon, each a file.
const FILES: &[(&str, &str)] = &[
    family!("vines.figures"),
    family!("jazz-boxes.figures"),
    family!("coasters.figures"),
    family!("sailors.figures"),
    family!("triples.figures"),
    family!("walks.figures"),
    family!("rocks.figures"),
    family!("ball-figures.figures"),
    family!("struts-heels-toes.figures"),
    family!("touches-points.figures"),
    family!("boxes-scissors.figures"),
    family!("turns.figures"),
    family!("night-club.figures"),
    family!("waltz.figures"),
    family!("samba.figures"),
    family!("novelty.figures"),
];

/// Names by the numbers of their words.
type Names = HashMap<Vec<Word>, Vec<Hit>, BuildHasherDefault<Few>>;

/// A quick hash for a few small numbers.
#[derive(Debug, Default)]
struct Few(u64);

impl Hasher for Few {
    fn finish(&self) -> u64 {
        self.0 ^ (self.0 >> 32)
    }

    fn write(&mut self, bytes: &[u8]) {
        for b in bytes {
            self.write_u64(u64::from(*b));
        }
    }

    fn write_u16(&mut self, n: u16) {
        self.write_u64(u64::from(n));
    }

    fn write_usize(&mut self, n: usize) {
        self.write_u64(n as u64);
    }

    fn write_u64(&mut self, n: u64) {
        self.0 = (self.0.rotate_left(5) ^ n).wrapping_mul(0x517c_c1b7_2722_0a95);
    }
}

/// How a name leads to a figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hit {
    /// Index into [`Lexicon::figures`].
    pub figure: u16,
    /// Whether the name more often means another figure.
    pub unlikely: bool,
    /// The turn that the name itself states, in 1/48, if it does.
    pub turn: Option<i32>,
}

/// Every figure, with the index of their names.
#[derive(Debug)]
pub struct Lexicon {
    /// The figures in the order of the files.
    pub figures: Vec<Figure>,
    /// All words, those of the grammar and those of the names.
    pub vocabulary: Vocabulary,
    /// Names by their words; names with a noun of their own are found in any order of words.
    ordered: Names,
    sorted: Names,
    /// Whether a word stands in any name, by its number; the last twenty are the numbers below 20.
    occurs: Vec<bool>,
    longest: usize,
}

/// Words that carry no meaning in a name.
fn silent(w: W) -> bool {
    matches!(w, W::The | W::Of | W::With | W::On | W::Single)
}

/// The words of a name or of a phrase that count, and the share of a turn in it.
fn key(text: &str, t: &[Token]) -> Option<(Vec<Word>, Option<i32>)> {
    let mut words = Vec::new();
    let mut turn = None;
    for token in t {
        match token.kind {
            Kind::W(W::R | W::L | W::RF | W::LF) => {}
            Kind::W(W::Quarter) => turn = Some(12),
            Kind::W(W::Half) => turn = Some(24),
            Kind::W(W::ThreeQuarter) => turn = Some(36),
            Kind::W(w) if silent(w) => {}
            Kind::W(w) => words.push(w.word()),
            Kind::Name(w) => words.push(w),
            Kind::Fraction(units) => turn = Some(units),
            Kind::Number(n) if n < 20 => words.push(Word(u16::MAX - u16::try_from(n).unwrap_or(0))),
            Kind::Sign('-' | '\'') => {}
            _ => return None,
        }
    }
    let _ = text;
    // "A-step" is no name for every step.
    if words.is_empty() || words == [W::Step.word()] || words == [W::Turn.word()] {
        return None;
    }
    Some((plain(words), turn))
}

/// Leaves out "step" and "turn" beside a noun: a coaster and a coaster step are the same.
fn plain(mut words: Vec<Word>) -> Vec<Word> {
    if words.iter().any(|w| noun(*w)) {
        words.retain(|w| *w != W::Step.word());
    }
    words
}

/// Words that a name may go without where it has a noun of its own.
fn unsaid(w: Word) -> bool {
    w == W::Step.word() || w == W::Turn.word()
}

/// Words of names in shorthand, where more is left out than the vowels.
const SHORT: [(&str, &str); 11] = [
    ("str", "strut"),
    ("sh", "shuffle"),
    ("shuf", "shuffle"),
    ("shf", "shuffle"),
    ("bas", "basic"),
    ("twk", "twinkle"),
    ("chs", "chasse"),
    ("cst", "coaster"),
    ("gv", "grapevine"),
    ("gvine", "grapevine"),
    ("mbo", "mambo"),
];

/// More words than any name has.
const LONGEST: usize = 24;

/// Where it is noted whether a word occurs: numbers stand before all words.
fn occurrence(w: Word) -> usize {
    let number = usize::from(u16::MAX - w.0);
    if number < 20 { number } else { usize::from(w.0) + 20 }
}

/// Whether a word only occurs in names of figures, so that the order of the others does not matter.
fn noun(w: Word) -> bool {
    w.0 >= Vocabulary::FIRST_OWN && w.0 < u16::MAX - 20
}

impl Lexicon {
    fn load() -> Self {
        let mut figures = Vec::with_capacity(280);
        for (_, text) in FILES {
            // A mistake in an entry is found by the tests of the lexicon, which name it.
            figures.extend(entries(text).unwrap_or_default());
        }
        // Words of names are learnt first, so that both names and sheets are cut into the same tokens; plurals
        // come after all others and stand for their singulars.
        let mut vocabulary = Vocabulary::new();
        let mut plurals = Vec::new();
        for figure in &figures {
            for name in [figure.name].iter().chain(&figure.also).chain(&figure.maybe) {
                for word in name.split(|c: char| !c.is_alphabetic() && c != '\'') {
                    if word.ends_with(['s', 'S']) {
                        plurals.push(word);
                    } else {
                        learn(&mut vocabulary, word);
                    }
                }
            }
        }
        for word in plurals {
            learn(&mut vocabulary, word);
        }
        vocabulary.bone();
        for (short, word) in SHORT {
            if let (Some((w, None)), None) = (vocabulary.get(word), vocabulary.get(short)) {
                vocabulary.alias(short, w);
            }
        }
        let mut known = Known::new();
        for figure in &mut figures {
            figure.steps = steps_known(figure.steps_text, &vocabulary, &mut known).unwrap_or_default();
        }
        let mut lexicon = Self {
            figures,
            vocabulary,
            ordered: Names::default(),
            sorted: Names::default(),
            occurs: Vec::new(),
            longest: 0,
        };
        lexicon.index();
        lexicon
    }

    fn index(&mut self) {
        let mut names = Vec::new();
        for (i, figure) in self.figures.iter().enumerate() {
            let id = u16::try_from(i).unwrap_or(u16::MAX);
            names.push((figure.name, id, false));
            names.extend(figure.also.iter().map(|n| (*n, id, false)));
            names.extend(figure.maybe.iter().map(|n| (*n, id, true)));
        }
        for (name, figure, unlikely) in names {
            // Names that list their steps with commas are read as steps, not as names.
            if name.bytes().any(|b| b == b',') {
                continue;
            }
            let name = name.bytes().position(|b| b == b'(').map_or(name, |end| &name[..end]);
            let t = tokens(name, 0..name.len(), &self.vocabulary);
            let Some((words, turn)) = key(name, &t) else { continue };
            let hit = Hit { figure, unlikely, turn };
            self.longest = self.longest.max(words.len());
            for w in &words {
                let i = occurrence(*w);
                if i >= self.occurs.len() {
                    self.occurs.resize(i + 1, false);
                }
                self.occurs[i] = true;
            }
            if words.iter().any(|w| noun(*w)) {
                let mut words = words;
                words.in_order();
                push(&mut self.sorted, words, hit);
            } else {
                push(&mut self.ordered, words, hit);
            }
        }
    }

    /// The figures that these words name, the likely ones first. Sides and shares of a turn are left out of
    /// `words` by the caller.
    #[must_use]
    pub fn named(&self, words: &[Word]) -> &[Hit] {
        if words.len() > self.longest + 1 {
            return &[];
        }
        if words.iter().any(|w| noun(*w)) {
            let mut sorted: ArrayVec<Word, LONGEST> = ArrayVec::new();
            for w in words.iter().filter(|w| **w != W::Step.word()) {
                if sorted.try_push(*w).is_err() {
                    return &[];
                }
            }
            sorted.in_order();
            if let Some(hits) = self.sorted.get(&sorted[..]) {
                return hits;
            }
            // "Turning" beside a name that has no such form is the turn that is written with it.
            sorted.retain(|w| *w != W::Turn.word());
            return self.sorted.get(&sorted[..]).map_or(&[], Vec::as_slice);
        }
        self.ordered.get(words).map_or(&[], Vec::as_slice)
    }

    /// Whether any name has this word, or may have it.
    #[must_use]
    pub fn in_names(&self, word: Word) -> bool {
        unsaid(word) || self.occurs.get(occurrence(word)).copied().unwrap_or(false)
    }

    /// The most words that a name has.
    #[must_use]
    pub fn longest(&self) -> usize {
        self.longest
    }

    /// The figure of a name as a person types it, and its number in [`Lexicon::figures`].
    #[must_use]
    pub fn find(&self, name: &str) -> Option<(usize, &Figure)> {
        let exact = |n: &str| n.eq_ignore_ascii_case(name.trim());
        if let Some(i) = self
            .figures
            .iter()
            .position(|f| exact(f.name))
            .or_else(|| self.figures.iter().position(|f| f.also.iter().any(|n| exact(n))))
        {
            return Some((i, &self.figures[i]));
        }
        let t = tokens(name, 0..name.len(), &self.vocabulary);
        let t: Vec<Token> =
            t.into_iter().filter(|t| !matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF))).collect();
        let (words, turn) = key(name, &t)?;
        let hits = self.named(&words);
        let hit = hits
            .iter()
            .find(|h| !h.unlikely && h.turn == turn)
            .or_else(|| hits.iter().find(|h| h.turn == turn))
            .or_else(|| hits.first())?;
        let i = usize::from(hit.figure);
        Some((i, &self.figures[i]))
    }
}

/// Learns a word of a name.
fn learn(vocabulary: &mut Vocabulary, word: &str) {
    let word = lower(word);
    let plain;
    let word = if word.is_ascii() {
        word.as_str()
    } else {
        plain = word.replace('é', "e");
        &plain
    };
    let short = word.len() <= 1 && !matches!(word, "k" | "v");
    if short || vocabulary.get(word).is_some() {
        return;
    }
    let singular =
        word.strip_suffix("es").into_iter().chain(word.strip_suffix('s')).find_map(|s| vocabulary.get(s));
    match singular {
        Some((w, None)) => vocabulary.alias(word, w),
        _ => {
            vocabulary.learn(word);
        }
    }
}

fn push(map: &mut Names, words: Vec<Word>, hit: Hit) {
    let hits = map.entry(words).or_default();
    if !hits.iter().any(|h| h.figure == hit.figure && h.turn == hit.turn) {
        hits.push(hit);
        hits.in_order_by_key(|h| h.unlikely);
    }
}

/// The lexicon, loaded once.
pub fn lexicon() -> &'static Lexicon {
    static LEXICON: OnceLock<Lexicon> = OnceLock::new();
    LEXICON.get_or_init(Lexicon::load)
}

/// The counting words of a phrase, for [`Lexicon::named`]: sides are skipped, and the share of a turn is
/// told apart.
#[must_use]
pub fn name_word(token: &Token) -> NamePart {
    match token.kind {
        Kind::W(W::R | W::L | W::RF | W::LF) => NamePart::Side,
        Kind::W(W::Quarter | W::Half | W::ThreeQuarter | W::Eighth) | Kind::Fraction(_) => NamePart::Turn,
        Kind::W(w) if silent(w) => NamePart::Silent,
        Kind::W(w) => NamePart::Word(w.word()),
        Kind::Name(w) => NamePart::Word(w),
        Kind::Number(n) if n < 20 => NamePart::Word(Word(u16::MAX - u16::try_from(n).unwrap_or(0))),
        // A full stop inside a clause is that of a word cut short: "Rt. toe strut".
        Kind::Sign('-' | '\'' | '.') if token.gap == 0 => NamePart::Silent,
        _ => NamePart::Stop,
    }
}

/// What a token is in the name of a figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NamePart {
    /// A word that counts.
    Word(Word),
    /// Left or right.
    Side,
    /// A share of a turn.
    Turn,
    /// A word without meaning here.
    Silent,
    /// Cannot stand in a name.
    Stop,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_file_is_read_without_a_mistake() {
        let l = lexicon();
        for (name, text) in FILES {
            if let Err(m) = entries(text) {
                panic!("{name}, line {}: {}", m.line, m.what);
            }
        }
        for f in &l.figures {
            let steps = super::super::steps(f.steps_text, &l.vocabulary);
            assert_eq!(steps.as_ref(), Ok(&f.steps), "{}", f.name);
            assert!(!f.steps.is_empty(), "{}", f.name);
        }
        assert_eq!(l.figures.len(), 265);
    }

    #[test]
    fn every_entry_gives_what_it_says() {
        for f in &lexicon().figures {
            let (weight, allowed) = f.weigh();
            assert!(allowed, "{}: a step is not allowed", f.name);
            let weight = match weight.letter() {
                "B" => "both",
                letter => letter,
            };
            let gives = format!("{} counts, weight on {weight}, turn {}/48", f.counts(), f.turn().0);
            assert_eq!(f.gives, gives, "{}", f.name);
        }
    }

    #[test]
    fn every_phrase_reads_as_its_entry() {
        for f in &lexicon().figures {
            if let Some(phrase) = f.reads {
                assert_eq!(lexicon().find(phrase).map(|(_, g)| g.name), Some(f.name), "{phrase}");
            }
            if let Some(phrase) = f.reads_not {
                assert_ne!(lexicon().find(phrase).map(|(_, g)| g.name), Some(f.name), "{phrase}");
            }
        }
    }
}
