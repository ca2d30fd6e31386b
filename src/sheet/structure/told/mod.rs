//! What a passage tells of the extras of a dance, whatever its sentences look like.
//!
//! The tokens are read from left to right as phrases: a repetition, a place in the dance, where one looks, where the
//! dance goes on, and steps. Each sentence with its phrases speaks of a tag or of a restart, or goes on with the one
//! before; the sentences together make the events. A passage in which a number or a wall is left over is not
//! understood, and is read line by line instead.

mod events;
mod onward;
mod phrases;
mod places;
mod plain;
mod steps;
mod unit;
mod walls;

use super::{Kind, Line, Token, Topic, W};
use crate::floor::Heading;
use crate::text::{Among, Span, among, is_among};
use onward::Onward;
use phrases::Words;

pub(super) use events::{Event, Steps, events};
pub(super) use plain::plain;

/// Where a repetition is broken off or interrupted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Place {
    /// Behind so many counts.
    Counts(u32),
    /// Behind the count of this number, which may be that of a section.
    Count(u32),
    /// Behind this section.
    Section(u32),
    /// So many counts before its end.
    Left(u32),
    /// So many sections before its end.
    SectionsLeft(u32),
}

/// A phrase.
#[derive(Debug, Clone, PartialEq)]
enum Item {
    /// Repetitions, and whether what is told comes when they are over.
    Walls(Vec<u32>, bool),
    Place(Place),
    /// Where one looks; as the repetition begins, where the flag says so.
    Face(Heading, Span, bool),
    /// A number of counts; the flag says that the dance does not have them.
    Length(u32, bool),
    Tag,
    Restart,
    /// "Not a restart"
    No,
    Onward(Onward),
    Same,
    /// A word about the weight outside steps.
    Weight,
    /// Tokens of steps, and whether they only point at a step of the dance or explain one.
    Steps(Vec<Token>, bool),
    /// The lengths of all repetitions: those behind which a tag comes, and those that are broken off after so many
    /// counts.
    Order(Vec<u32>, Vec<(u32, u32)>),
    /// A line of the sheet with steps behind their counts; the flag says that it goes on with the one above.
    Line(usize, bool),
    /// The end of a sentence.
    Stop,
}

/// Words that tell of what may be, of other ways to dance, or of what stands for something else.
const OTHERWISE: &Among = among![
    "if",
    "unless",
    "instead",
    "option",
    "optional",
    "replacing",
    "becomes",
    "become",
    "except",
    "swap",
    "easier",
    "alternatively",
];

/// The phrases of a line, or nothing where a number or a wall is left over.
fn items(text: &str, line: &Line, out: &mut Vec<Item>) -> Option<()> {
    let t = &line.tokens[..];
    if let Some(order) = order(text, t) {
        out.extend([order, Item::Stop]);
        return Some(());
    }
    let mut words = Words { text, t, since: 0, named: out.iter().any(|i| matches!(i, Item::Walls(..))) };
    let mut k = line.first;
    // "1. Wall 3", "(2) ..." number what is told.
    if matches!(t.get(k).map(|t| t.kind), Some(Kind::Number(1..=9)))
        && words.sign(k + 1, &['.', ')'])
        && t.get(k + 2).is_some_and(|t| t.gap > 0)
        && words.walls(k).is_none()
    {
        k += 2;
    }
    // "Counts: 1, 2, 3, 4" tells when steps fall that stand elsewhere.
    if t.get(k).is_some_and(|t| t.is(W::Count)) && words.sign(k + 1, &[':']) {
        return Some(());
    }
    // "T: end of wall 2", "R: wall 5": short for a tag and a restart.
    if words.sign(k + 1, &[':']) && t.get(k).is_some_and(|t| matches!(t.span.of(text), "T" | "R")) {
        out.push(if t[k].is(W::R) { Item::Restart } else { Item::Tag });
        k += 2;
    }
    let mut starting = false;
    // Whether a repetition was the last that was named, apart from where one looks.
    let mut listing = false;
    let mut told = out.len();
    while k < t.len() {
        let token = &t[k];
        if out.len() != told {
            words.named |= out[told..].iter().any(|i| matches!(i, Item::Walls(..)));
            words.since = k;
            told = out.len();
        }
        if matches!(token.kind, Kind::Sign('.' | '!' | '?' | ';' | '\n')) {
            if !words.shortened(k) {
                out.push(Item::Stop);
                starting = false;
                listing &= token.sign(';');
            }
            k += 1;
            continue;
        }
        // "Walls 2 and 5, facing 6 and 3"
        let hour = k > 1
            && matches!(t[k - 1].kind, Kind::Number(3 | 6 | 9 | 12))
            && matches!(out.last(), Some(Item::Face(..)));
        if hour
            && (words.is(k, among!["and", "&"]) || words.sign(k, &[',', '/']))
            && let Some(Kind::Number(n @ (3 | 6 | 9 | 12))) = t.get(k + 1).map(|t| t.kind)
            && !words.counted(k + 2)
        {
            out.push(Item::Face(Heading::new(i32::try_from(n * 4).unwrap_or(0)), t[k + 1].span, false));
            k += 2;
            continue;
        }
        if listing && let Some((walls, to)) = words.another(k) {
            out.push(Item::Walls(walls.walls, walls.over));
            k = to;
            continue;
        }
        if let Some((h, to)) = words.facing(k) {
            let span = token.span.join(t[to - 1].span);
            // "It starts at the back (6:00)" says it twice.
            let twice =
                k > 0 && words.sign(k - 1, &['(']) && matches!(out.last(), Some(Item::Face(_, _, true)));
            out.push(Item::Face(h, span, starting || twice));
            starting = false;
            k = to;
            continue;
        }
        if let Some(to) = words.each(k) {
            k = to;
            continue;
        }
        if let Some((onward, to)) = words.onward(k) {
            // "Before you begin walls 3 and 6" places what is told.
            let before = matches!(onward, Onward::On(Some(_))) && words.before(k);
            if !before {
                // "It does not start from the top"
                if onward != Onward::Again || !words.negated(k) {
                    out.push(Item::Onward(onward));
                }
                listing = false;
                k = to;
                continue;
            }
        }
        // "... puts you back at 3:00 for wall 4"
        let next = k > 0
            && words.is(k - 1, among!["for", "into"])
            && out.iter().any(|i| matches!(i, Item::Steps(_, false) | Item::Line(..)));
        if let Some((walls, to)) = words.walls(k).filter(|_| next) {
            out.push(Item::Onward(Onward::On(walls.walls.first().copied())));
            k = to;
            continue;
        }
        if let Some((walls, to)) = words.walls(k) {
            out.push(Item::Walls(walls.walls, walls.over));
            listing = true;
            starting = false;
            k = to;
            continue;
        }
        // "Then section 3", "now do section 3 and the rest": where the dance goes on behind what is added.
        let added = || out.iter().any(|i| matches!(i, Item::Steps(_, false) | Item::Line(..)));
        if let Some((_, to)) = words.next_section(k).filter(|_| added()) {
            out.push(Item::Onward(Onward::On(None)));
            k = to;
            continue;
        }
        if let Some((place, to)) = words.left_out(k).or_else(|| words.place(k)) {
            out.push(Item::Place(place));
            listing = false;
            k = to;
            continue;
        }
        if let Some((n, extra, to)) = words.length(k) {
            out.push(Item::Length(n, extra || words.added(k, to)));
            listing = false;
            k = to;
            continue;
        }
        if token.is(W::Tag) || token.is(W::Restart) {
            let no = k > 0 && (t[k - 1].is(W::No) || k > 1 && t[k - 2].is(W::No));
            let item = if token.is(W::Tag) { Item::Tag } else { Item::Restart };
            out.push(if no { Item::No } else { item });
            // "Tag 2", "restart 1:"
            let named = matches!(t.get(k + 1).map(|t| t.kind), Some(Kind::Number(1..=9)))
                && !words.counted(k + 2)
                && (words.sign(k + 2, &[':', '(', '-', '.', ')']) || t.len() == k + 2);
            k += 1 + usize::from(named);
            // "TAG (4)"
            if let Some(Kind::Number(n)) = t.get(k + 1).map(|t| t.kind)
                && token.is(W::Tag)
                && words.sign(k, &['('])
                && words.sign(k + 2, &[')'])
            {
                out.push(Item::Length(n, false));
                k += 3;
            }
            // "Restart from section 1", "restart at count 1"
            if token.is(W::Restart)
                && words.is(k, among!["from", "at", "with"])
                && let Some(to) = words.beginning(k + 1)
            {
                k = to;
            }
            continue;
        }
        if let Some((tokens, noted, to)) = steps::run(&words, k, out) {
            // "The dance continues with the cross points"
            let noted = noted || matches!(out.last(), Some(Item::Onward(Onward::On(_))));
            out.push(Item::Steps(tokens, noted));
            listing = false;
            k = to;
            continue;
        }
        if words.same(k) {
            out.push(Item::Same);
            k += 1;
            continue;
        }
        if token.is(W::Weight) {
            out.push(Item::Weight);
        }
        // What is left out but a section or counts changes steps.
        let leaves = words.is(k, among!["leave", "leaves", "leaving"])
            && (k + 1..k + 6).any(|j| words.is(j, among!["out"]));
        if (leaves || words.is(k, among!["omit", "omits", "skip", "omitting"]))
            && words.left_out(k + 1).is_none()
        {
            return None;
        }
        starting |= words.begins(k);
        if words.sign(k, &[')']) || token.sign(':') && k > 0 && !words.begins(k - 1) {
            starting = false;
        }
        // "2 restarts", "one tag"
        if let Some((_, to)) = words.cardinal(k) {
            let of = t.get(to).is_some_and(|t| matches!(t.kind, Kind::W(W::Restart | W::Tag | W::Times)));
            // "Two things to watch for"
            if !of && matches!(token.kind, Kind::Number(_)) {
                return None;
            }
        }
        k += 1;
    }
    out.push(Item::Stop);
    Some(())
}

/// "32, 32, Tag, 32, 24 (Restart), 32": the lengths of all repetitions, one after the other.
fn order(text: &str, t: &[Token]) -> Option<Item> {
    let number = |t: &Token| if let Kind::Number(n @ 8..=128) = t.kind { Some(n) } else { None };
    let full = t.iter().filter_map(number).max()?;
    let (mut wall, mut tags, mut restarts) = (0, Vec::new(), Vec::new());
    for token in t {
        match token.kind {
            Kind::Number(_) => {
                let n = number(token)?;
                wall += 1;
                if n < full {
                    restarts.push((wall, n));
                }
            }
            Kind::W(W::Tag) => tags.push(wall),
            Kind::W(W::Restart | W::Wall | W::Then | W::To | W::The | W::End | W::Make | W::And)
            | Kind::Sign(_) => {}
            _ if token
                .span
                .is_among(text, among!["order", "phrasing", "structure", "until", "till", "counts"]) => {}
            _ => return None,
        }
    }
    (wall >= 3 && !(tags.is_empty() && restarts.is_empty()) && !tags.contains(&0))
        .then_some(Item::Order(tags, restarts))
}

impl Words<'_> {
    /// Whether a full stop only shortens a word or a number: "no. 2", "sec. 3", "Cont. sec 3".
    fn shortened(&self, k: usize) -> bool {
        const SHORT: &Among = among![
            "no", "nr", "cont", "sec", "sect", "s", "wt", "incl", "rep", "reps", "fcg", "approx", "num",
            "ct", "cts", "c", "fwd", "bk", "tog", "seq", "w", "i", "e", "eg", "ie", "g",
        ];
        self.sign(k, &['.'])
            && k > 0
            && self.t[k].gap == 0
            && (self.is(k - 1, SHORT) && self.t.get(k + 1).is_some()
                || matches!(self.t[k - 1].kind, Kind::Number(_))
                    && self.t.get(k + 1).is_some_and(|t| t.gap == 0))
    }

    fn negated(&self, k: usize) -> bool {
        (k.saturating_sub(2)..k).any(|j| self.t[j].is(W::No))
    }

    fn counted(&self, k: usize) -> bool {
        self.t.get(k).is_some_and(|t| t.is(W::Count))
    }

    /// "Before (you begin) wall 3"
    fn before(&self, k: usize) -> bool {
        (k.saturating_sub(3)..k).any(|j| self.is(j, among!["before"]))
            && !self.is(k, among!["going", "carrying", "continuing", "go"])
    }

    /// "Add 4 counts", "there are 4 counts", "4 counts to fill": counts that the dance does not have.
    fn added(&self, from: usize, to: usize) -> bool {
        (from.saturating_sub(3)..from).any(|k| {
            self.is(
                k,
                among!["add", "adds", "adding", "added", "extra", "additional", "spare", "bonus", "plus"],
            )
        }) || (to..to + 3).any(|k| self.is(k, among!["fill", "spare", "extra", "longer", "add"]))
    }

    /// "Do the same", "exactly the same again", "repeat it".
    fn same(&self, k: usize) -> bool {
        self.t[k].is(W::Same)
            || self.t[k].is(W::Repeat)
                && (k + 1..k + 4).any(|j| self.is(j, among!["it", "tag", "this", "them"]))
    }
}

/// Whether a line may open a passage: it names a repetition by its number, or begins with a tag or a restart.
pub(super) fn opens(text: &str, line: &Line) -> bool {
    let t = &line.tokens[..];
    let words = Words { text, t, since: 0, named: false };
    let early = t.iter().skip(line.first).take(5).any(|t| t.is(W::Tag) || t.is(W::Restart));
    let more = |k: usize| words.length(k).is_some_and(|(_, extra, to)| extra || words.added(k, to));
    early || order(text, t).is_some() || (line.first..t.len()).any(|k| words.walls(k).is_some() || more(k))
}

/// Whether words name repetitions of the dance that are over then.
pub(super) fn when_over(text: &str, t: &[Token]) -> bool {
    let words = Words { text, t, since: 0, named: false };
    (0..t.len()).any(|k| words.walls(k).is_some_and(|(walls, _)| walls.over))
}

/// Whether words are about the end of the song: the last wall, the music that is over, a finish.
pub(super) fn ends(text: &str, t: &[Token]) -> bool {
    const SONG: &Among = among!["song", "track", "music", "dance", "tune"];
    let words = Words { text, t, since: 0, named: false };
    let within =
        |k: usize| matches!(t.get(k).map(|t| t.kind), Some(Kind::W(W::Wall | W::Section | W::Of | W::Count)));
    (0..t.len()).any(|k| {
        let (last, end) = (t[k].is(W::Last), t[k].is(W::End));
        // "The last wall", "the last time through", "the last one!"
        let wall = last
            && (t.get(k + 1).is_some_and(|t| t.is(W::Wall))
                || words.is(k + 1, among!["time", "round", "one", "repetition"]));
        // "The music ends", "the track is over", "the dance finishes in wall 9", "dance over"
        let over = |j: usize| {
            words.is(j, among!["ends", "finishes", "fades", "stops", "over", "out", "finished", "end"])
        };
        let song = words.is(k, SONG)
            && (over(k + 1) || words.is(k + 1, among!["is", "runs", "will"]) && over(k + 2));
        // "End of the dance"
        let of = end
            && t.get(k + 1).is_some_and(|t| t.is(W::Of))
            && (words.is(k + 2, SONG) || words.is(k + 3, SONG));
        // "For the ending", "the big finish", "to finish at the front", "finishing pose"
        let led = k == 0
            || words.is(k - 1, among!["the", "to", "big", "grand", "an", "for", "a"])
            || words.sign(k - 1, &['*', '-', '>', ':', '(']);
        let noun = words.is(k, among!["ending", "finish", "finale", "finishing"]) && led && !within(k + 1);
        wall || song || of || noun
    })
}

/// Whether a passage speaks of other ways to dance.
fn otherwise(text: &str, t: &[Token]) -> bool {
    let place = |w: &[Token]| w[0].is(W::In) && w[1].is(W::Place) && w[2].is(W::Of);
    let word = |k: usize| t[k].span.of(text);
    // "As if nothing had happened"
    let likened = |k: usize| k > 0 && is_among(word(k), among!["if"]) && is_among(word(k - 1), among!["as"]);
    t.windows(3).any(place) || (0..t.len()).any(|k| is_among(word(k), OTHERWISE) && !likened(k))
}
