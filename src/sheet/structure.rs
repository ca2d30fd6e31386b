//! Lines to parts and sections.
//!
//! First every line gets a role from what stands in it and around it, then the lines are put together in order.

mod added;
mod bars;
mod build;
mod extra_titles;
mod extras;
mod heard;
mod hours;
mod keywords;
mod manner;
mod named;
mod nicknames;
mod notes;
mod optional;
mod order;
mod pointed;
mod restarted;
mod rhythm;
mod roles;
mod rounds;
mod signs;
mod titled;
mod titles;
mod told;
mod totals;
mod unmarked;
mod wording;

use super::chunks::add;
use super::glued::parted;
use super::head::SheetHead;
use super::key::apply as key;
use super::labels::{Label, cardinal, label, roman};
use super::lines::{Line, lines};
use super::marks::marks;
use super::mentions::{Mention, Topic, mention};
use super::own::{Definition, definitions};
use super::prose::prose;
use super::table::Told;
use super::typos::{Typo, mend};
use super::vocabulary::{Vocabulary, W};
use super::words::{Kind, Token, acts};
use super::{Chunk, OwnFigure, PartText, SectionText, Sheet, Slots};
use crate::dance::PartKind;
use crate::text::{Span, mentions};

/// What a line is for.
#[derive(Debug, Clone, PartialEq)]
enum Role {
    Blank,
    Head,
    /// A heading; the label may be missing.
    Heading(Option<Label>),
    /// Steps from this token on; the flag says that the line goes on from the one before.
    Steps(usize, bool),
    /// Speaks of a tag, a restart or an ending.
    Extra(Topic),
    /// Begins a passage about tags and restarts that is understood as a whole.
    Told(Vec<told::Event>),
    /// Goes on with such a passage.
    Heard,
    Note,
    Sequence,
    /// Defines a figure of the sheet's own.
    Own,
}

/// Manners that are read by putting their lines into the usual one first: a count mark, then its words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Layout {
    /// Paragraphs of sentences that tell the counts in their midst.
    Prose,
    /// The steps begin under the first heading with a label, and what stands above it is the head.
    Headed,
    /// Sections under nicknames, with steps in sentences and hardly a count.
    Notes,
}

/// What kind of sheet it is, by its lines.
#[derive(Debug, Clone, Copy, Default)]
struct Manner {
    /// Lines with counts before the words.
    leading: usize,
    /// Lines with counts behind the words.
    behind: usize,
    /// Numbered lines `1.` that are counts, not sections.
    numbers_are_counts: bool,
    /// Numbered lines that only list what runs on through the dance.
    numbers_are_bullets: bool,
    /// Lines that hold a bar each, two of them a section.
    bars: bool,
}

impl Manner {
    fn counted(self) -> bool {
        self.leading + self.behind >= 3
    }
}

struct Reading<'t> {
    text: &'t str,
    lines: Vec<Line>,
    labels: Vec<Option<Label>>,
    lead: Vec<bool>,
    behind: Vec<bool>,
    manner: Manner,
    own: Vec<Definition>,
    /// Whether nothing above the first labelled heading is a step.
    only_headed: bool,
    /// Lines that give the order of the parts.
    order: Vec<bool>,
    /// Where the steps begin of lines that go on with the section above, behind the sum of its counts.
    goes_on: Vec<Option<usize>>,
}

impl<'t> Reading<'t> {
    /// Lines of which nothing is known but their labels.
    fn new(text: &'t str, lines: Vec<Line>, labels: Vec<Option<Label>>) -> Self {
        Self {
            text,
            lead: vec![false; lines.len()],
            behind: vec![false; lines.len()],
            order: vec![false; lines.len()],
            goes_on: vec![None; lines.len()],
            labels,
            lines,
            manner: Manner::default(),
            own: Vec::new(),
            only_headed: false,
        }
    }
}

/// The sheet as far as it is put together.
struct Build<'r, 't> {
    r: &'r Reading<'t>,
    parts: Vec<PartText>,
    mentions: Vec<Mention>,
    notes: Vec<Span>,
    own: Vec<OwnFigure>,
    sequence: Vec<String>,
    head: SheetHead,
    /// The section that step lines go to: part and section.
    here: Option<(usize, usize)>,
    /// Words of the tag or ending whose steps come next.
    extra: Option<(Topic, Vec<Token>, Span)>,
    /// Section of a tag that is open.
    in_tag: bool,
    /// The last count read, in the sheet's numbering.
    last_count: i32,
    /// Whether parts are danced in an order of their own.
    phrased: bool,
    /// Signs at step lines that a footnote takes up: part, section and the last count before them.
    signs: Vec<(String, (usize, usize, i32))>,
    /// How many bars of three counts a section has, where each bar may be counted from one.
    bars: i32,
    /// Whether the lines below the words about a restart tell the steps that it changes.
    changing: bool,
}

/// Lines whose words are known, slips of the pen mended: enough to read them in another layout.
#[derive(Debug)]
pub(crate) struct Lines {
    lines: Vec<Line>,
    typos: Vec<Typo>,
}

/// Reads the structure of a sheet, each line for what it looks like.
#[must_use]
pub fn parse(text: &str, vocabulary: &Vocabulary) -> Sheet {
    parse_kept(text, vocabulary).0
}

/// The same, and its lines for [`headed`].
pub(crate) fn parse_kept(text: &str, vocabulary: &Vocabulary) -> (Sheet, Lines) {
    put_together(text, known(text, lines(text, vocabulary), vocabulary), false)
}

/// Reads lines as [`Layout::Headed`].
pub(crate) fn headed(text: &str, lines: Lines) -> Sheet {
    put_together(text, lines, true).0
}

/// Reads the structure of a sheet as one of a certain manner; nothing where it has nothing of that manner.
#[must_use]
pub fn parse_as(text: &str, vocabulary: &Vocabulary, manner: Layout) -> Option<Sheet> {
    let lines = match manner {
        Layout::Prose => prose(text, vocabulary)?,
        Layout::Headed => lines(text, vocabulary),
        Layout::Notes => notes::lines(text, vocabulary)?,
    };
    Some(put_together(text, known(text, lines, vocabulary), manner == Layout::Headed).0)
}

/// Makes known what private letters and mistyped words mean.
fn known(text: &str, mut lines: Vec<Line>, vocabulary: &Vocabulary) -> Lines {
    let mut typos = Vec::new();
    key(text, &mut lines, vocabulary);
    for line in &mut lines {
        // Titles and letters are full of words that are no steps.
        let steps = |line: &Line| {
            line.step_words >= 1
                || line
                    .tokens
                    .iter()
                    .any(|t| t.kind == Kind::Unknown && parted(text, t, vocabulary).is_some())
        };
        // "B2 1-4 R monty 1/2R": counts behind a label.
        let counted = |line: &Line| {
            line.leading(text).is_some()
                || label(text, line).is_some_and(|l| l.certain && line.leading_at(text, l.to).is_some())
        };
        if line.verbs >= 1 || steps(line) && counted(line) {
            let from = nickname(&line.tokens, line.first);
            if mend(text, &mut line.tokens, from, vocabulary, &mut typos) {
                line.weigh();
            }
        }
    }
    Lines { lines, typos }
}

/// Where the words begin that may be mistyped: "lights off: step R forward" has a name of its own before the colon.
fn nickname(t: &[Token], first: usize) -> usize {
    let does = |t: &Token| match t.kind {
        Kind::Name(_) | Kind::Number(_) | Kind::Sign(',') => true,
        Kind::W(w) => acts(w) || matches!(w, W::R | W::L | W::RF | W::LF),
        _ => false,
    };
    let colon = t.iter().take(first + 6).position(|t| t.sign(':'));
    colon.filter(|k| *k > first && !t[first..*k].iter().any(does)).unwrap_or(0)
}

/// Lines to a sheet.
fn put_together(text: &str, Lines { mut lines, typos }: Lines, headed: bool) -> (Sheet, Lines) {
    extra_titles::known(text, &mut lines);
    let labels: Vec<Option<Label>> = lines
        .iter()
        .map(|l| match &l.told {
            Some(Told::Heading(label)) => label.clone(),
            Some(_) => None,
            None => label(text, l),
        })
        .collect();
    let mut reading = Reading::new(text, lines, labels);
    reading.only_headed = headed;
    reading.own = definitions(text, &reading.lines);
    reading.survey();
    let mut roles = reading.roles();
    reading.unmarked(&mut roles);
    let mut sheet = reading.build(&roles);
    let told = |l: &&Line| l.told != Some(Told::Aside);
    let verbs: u32 = reading.lines.iter().filter(told).map(|l| l.verbs).sum();
    let placed = sheet.parts.iter().flat_map(|p| &p.sections).flat_map(|s| &s.tokens);
    let placed =
        placed.filter(|t| matches!(t.kind, Kind::Name(_)) || matches!(t.kind, Kind::W(w) if acts(w)));
    sheet.left_out = verbs.saturating_sub(u32::try_from(placed.count()).unwrap_or(u32::MAX));
    let sections = || sheet.parts.iter().flat_map(|p| &p.sections);
    let read = |t: &&Typo| sections().any(|s| s.tokens.iter().any(|k| k.span == t.span));
    sheet.typos = typos.iter().filter(read).cloned().collect();
    (sheet, Lines { lines: reading.lines, typos })
}
