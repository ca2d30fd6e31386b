//! A sheet in one clean manner: head fields, sections with headings and counts, one line a figure or a group of
//! counts, the clock where a section ends, tags and restarts in one form, remarks kept as notes.
//!
//! Text enters, text leaves, and both read as the same dance: what is printed is read again before it is given,
//! and where a figure's name would change the reading, the steps stand alone. This room knows no rule of dance
//! of its own.
//!
//! ```
//! let sheet = "Quayside Two\nCount: 4 Wall: 1\n1-2 Step R fwd, tch L bes R\n3-4 Step L back, tch R bes L\n";
//! let tidy = halfcount::tidy::tidy(sheet, &halfcount::tidy::TidyOptions::default()).expect("a short sheet");
//! assert!(tidy.contains("Step right forward, touch left beside right"));
//! ```

mod head;
mod lines;
mod mirror;
mod print;
mod words;

use std::collections::BTreeSet;

use crate::body::Body;
use crate::check::hidden;
use crate::dance::Dance;
use crate::read::Reading;
use crate::report::{Error, LONGEST, Report};
use crate::sheet::Sheet;
use crate::trace::{Trace, trace};

pub use mirror::mirrored;
use print::Print;

/// How to print.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
#[non_exhaustive]
pub struct TidyOptions {
    /// On the other foot: left for right, and the clock with it.
    pub mirror: bool,
}

/// The sheet in our own manner; it reads as the same dance, or as the mirrored one. A sheet that our words cannot
/// say comes back as it was written.
///
/// # Errors
///
/// A text longer than [`LONGEST`], and a dance that our words cannot say on the other foot.
pub fn tidy(text: &str, options: &TidyOptions) -> Result<String, Error> {
    if text.len() > LONGEST {
        return Err(Error::TooLong { bytes: text.len() });
    }
    let (sheet, reading) = understood(text);
    let dance = if options.mirror { mirrored(&reading.dance) } else { reading.dance.clone() };
    let mut done = settled(text, &sheet, &reading, &dance, options.mirror);
    // A word less about how far a foot goes is no other dance.
    if !done.sound && (beyond_words(&dance) || !alike(&traced(&dance), &traced(&done.reading.dance))) {
        return if options.mirror { Err(Error::Unsayable) } else { Ok(text.to_owned()) };
    }
    // What is printed is printed again until nothing changes, so that tidying twice is tidying once.
    let mut seen: Vec<String> = Vec::new();
    for _ in 0..ROUNDS {
        let again = settled(&done.text, &done.sheet, &done.reading, &done.reading.dance, false);
        let lost = !again.sound && !alike(&traced(&done.reading.dance), &traced(&again.reading.dance));
        if again.text == done.text || lost {
            break;
        }
        seen.push(core::mem::replace(&mut done, again).text);
        if let Some(first) = seen.iter().position(|t| *t == done.text) {
            // Two ways to say it that lead to each other: always the same one of them.
            return Ok(seen.drain(first..).min().unwrap_or(done.text));
        }
    }
    Ok(done.text)
}

/// Whether a step turns further than words for it are read alike: more than twice round, which nobody dances.
fn beyond_words(dance: &Dance) -> bool {
    let moves = dance.parts.iter().flat_map(|p| &p.sections).flat_map(|s| &s.moves);
    moves.into_iter().any(|m| m.turn.0.abs() > 96)
}

/// A text as it is read: without the remarks that keep a rule quiet.
fn understood(text: &str) -> (Sheet, Reading) {
    let plain = hidden(text);
    crate::read::understood(&plain)
}

/// How often a text is printed again at most.
const ROUNDS: usize = 3;

/// A printed text and what it reads as.
struct Done {
    text: String,
    sheet: Sheet,
    reading: Reading,
    /// Whether it reads as the dance that was printed.
    sound: bool,
}

impl Done {
    fn new(text: String, wanted: &Trace) -> Self {
        let (sheet, reading) = understood(&text);
        let sound = same(wanted, &traced(&reading.dance));
        Self { text, sheet, reading, sound }
    }
}

/// The text of a dance.
fn settled(text: &str, sheet: &Sheet, reading: &Reading, dance: &Dance, mirror: bool) -> Done {
    let wanted = traced(dance);
    let mut first = None;
    // Names of figures and words passed over are left out where they would change the reading.
    for (named, passed) in [(true, true), (false, true), (true, false), (false, false)] {
        let mut print = Print { text, sheet, reading, dance, named, passed, mirror, silent: BTreeSet::new() };
        let mut done = Done::new(print.all(), &wanted);
        if named {
            print.silent = misnamed(dance, &done.reading.dance);
            if !print.silent.is_empty() {
                done = Done::new(print.all(), &wanted);
            }
        }
        if done.sound {
            return done;
        }
        first.get_or_insert(done);
    }
    first.unwrap_or_else(|| Done::new(text.to_owned(), &wanted))
}

/// Figures whose printed names read as something else: part, section and figure.
fn misnamed(dance: &Dance, again: &Dance) -> BTreeSet<(usize, usize, u16)> {
    let mut out = BTreeSet::new();
    for (p, part) in dance.parts.iter().enumerate() {
        for (s, section) in part.sections.iter().enumerate() {
            let other = again.parts.get(p).and_then(|p| p.sections.get(s));
            for m in &section.moves {
                let Some(id) = m.figure else { continue };
                let own = section.figures.get(usize::from(id));
                let read = other
                    .and_then(|o| Some((o, o.moves.iter().find(|x| x.at == m.at && x.who == m.who)?.figure?)))
                    .and_then(|(o, f)| o.figures.get(usize::from(f)));
                if own.map(|f| &f.name) != read.map(|f| &f.name) {
                    out.insert((p, s, id));
                }
            }
        }
    }
    out
}

fn traced(dance: &Dance) -> Trace {
    let report =
        Report { dance: dance.clone(), findings: Vec::new(), unread: Vec::new(), body: Body::default() };
    trace(&report, "", "")
}

/// Whether two traces say the same of feet, facings, head, tags and restarts.
fn same(a: &Trace, b: &Trace) -> bool {
    let plain = |t: &Trace| Trace { figures: Vec::new(), ..t.clone() };
    plain(a) == plain(b)
}

/// The same without the floor that the dance needs.
fn alike(a: &Trace, b: &Trace) -> bool {
    let plain = |t: &Trace| Trace { figures: Vec::new(), floor: a.floor.clone(), ..t.clone() };
    plain(a) == plain(b)
}
