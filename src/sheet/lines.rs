//! Lines: what stands at their beginning and end, and how much of them is about steps.

use core::cell::OnceCell;

use super::ahead;
use super::columns::Columns;
use super::counts::{Mark, lone, mark};
use super::explained::explained;
use super::hours::hours;
use super::leaders;
use super::pairs::{pack, pair_numbers};
use super::spoken::leading;
use super::table::{Told, tables};
use super::timed::{chat, chat_prefix, hour_prefix, planned};
use super::vocabulary::{Vocabulary, W};
use super::words::{Kind, Token, acts, tokens};
use crate::text::{Span, among};

/// One line of the sheet with its tokens.
#[derive(Debug, Clone)]
pub struct Line {
    /// The whole line without its end.
    pub span: Span,
    /// Its tokens; columns that only repeat in call words are left out.
    pub tokens: Vec<Token>,
    /// Blanks before the first sign, a tab counting as four.
    pub indent: usize,
    /// Whether an empty line or a rule comes before it.
    pub after_gap: bool,
    /// Whether it begins with a bullet.
    pub bullet: bool,
    /// Whether the letters are all capitals.
    pub capitals: bool,
    /// Verbs, places, names of figures and the like.
    pub step_words: u32,
    /// Verbs and names of figures only.
    pub verbs: u32,
    /// Steps whose verb goes without saying: "left forward, right beside".
    pub bare_steps: u32,
    /// All words.
    pub words: u32,
    /// First token after bullets and decoration.
    pub first: usize,
    /// Whether the sheet writes pairs of counts in one: `12&`, `34`.
    pub packed: bool,
    /// What the table that it comes from says of it.
    pub(super) told: Option<Told>,
    /// Its leading count mark, once it was looked for.
    pub(super) led: OnceCell<Option<Mark>>,
}

impl Line {
    /// Words from anywhere as a line of their own.
    pub(super) fn of(span: Span, tokens: Vec<Token>) -> Self {
        Self {
            span,
            tokens,
            indent: 0,
            after_gap: false,
            bullet: false,
            capitals: false,
            step_words: 0,
            verbs: 0,
            bare_steps: 0,
            words: 0,
            first: 0,
            packed: false,
            told: None,
            led: OnceCell::new(),
        }
    }

    /// Counts its words and those of steps.
    pub(super) fn weigh(&mut self) {
        (self.step_words, self.verbs, self.words) = (0, 0, 0);
        let bare = |w: &&[Token]| bare_step(w[0].kind, w[1].kind) || turns(w[0].kind, w[1].kind);
        let bare = self.tokens.windows(2).filter(bare).count();
        self.bare_steps = u32::try_from(bare).unwrap_or(u32::MAX);
        // "Waltz forward, waltz back"
        let waltz = |w: &[Token]| w[0].is(W::Waltz) && matches!(w[1].kind, Kind::W(W::Forward | W::Back));
        let waltzes = self.tokens.windows(2).filter(|w| waltz(w)).count();
        self.verbs = u32::try_from(waltzes).unwrap_or(0);
        for token in &self.tokens {
            match token.kind {
                Kind::W(
                    W::The
                    | W::To
                    | W::Of
                    | W::On
                    | W::From
                    | W::For
                    | W::With
                    | W::Then
                    | W::At
                    | W::By
                    | W::It
                    | W::Count
                    | W::Two
                    | W::While,
                ) => {}
                Kind::W(_) | Kind::Name(_) | Kind::Unknown | Kind::Feet | Kind::Fraction(_) => {
                    self.words += 1;
                    let (step, verb) = weigh(token.kind);
                    self.step_words += u32::from(step);
                    self.verbs += u32::from(verb);
                }
                _ => {}
            }
        }
    }

    /// Whether it has no words at all.
    #[must_use]
    pub fn empty(&self) -> bool {
        self.tokens.iter().all(|t| matches!(t.kind, Kind::Sign(_)))
    }

    /// Whether enough of it speaks of steps.
    #[must_use]
    pub fn stepful(&self) -> bool {
        (self.verbs >= 1 || self.bare_steps >= 2) && self.step_words * 2 >= self.words
    }

    /// A count mark at its beginning, unless what follows shows that the number counts something else.
    #[must_use]
    pub fn leading(&self, text: &str) -> Option<Mark> {
        self.leading_at(text, self.first)
    }

    /// The same for a line that stays as it is; [`Line::begin`] forgets what was found.
    pub(super) fn led(&self, text: &str) -> Option<&Mark> {
        self.led.get_or_init(|| self.leading(text)).as_ref()
    }

    /// Lets it begin with another token.
    pub(super) fn begin(&mut self, first: usize) {
        self.first = first;
        self.led = OnceCell::new();
    }

    /// The same from another token on, behind a label.
    #[must_use]
    pub fn leading_at(&self, text: &str, first: usize) -> Option<Mark> {
        match &self.told {
            Some(Told::Steps(m)) if first == self.first => return Some(m.clone()),
            Some(Told::Heading(_) | Told::Words | Told::Aside | Told::Left) => return None,
            _ => {}
        }
        let mut from = first;
        let t = &self.tokens;
        let open = t.get(from).is_some_and(|t| matches!(t.kind, Kind::Sign('(' | '[' | '{')));
        if open {
            from += 1;
        }
        // "12:00 1-8 Vine": where one faces, before the counts.
        if !open
            && matches!(t.get(from).map(|t| t.kind), Some(Kind::Clock(_)))
            && t.get(from + 1).is_some_and(|t| matches!(t.kind, Kind::Number(_)) && t.gap > 0)
        {
            from += 1;
        }
        // "Counts 9, 10:" and "On 1 and 2".
        let said = t.get(from).is_some_and(|t| t.is(W::Count) || t.is(W::On));
        if said && !open {
            from += 1 + usize::from(t[from].is(W::On) && t.get(from + 1).is_some_and(|t| t.is(W::Count)));
        }
        if !open && !said {
            from += ahead::joins(text, t, from);
        }
        if ahead::half_opens(text, t, from) {
            return Some(Mark { from: first, to: from + 1, ..lone(t, from, '&') });
        }
        let pairs = || self.packed || pair_numbers(t) >= 2;
        // "&34" is such a pair, too.
        let digits = from + usize::from(t.get(from).is_some_and(|t| t.is(W::And)));
        let pair = matches!(t.get(digits).map(|t| t.kind), Some(Kind::Number(12..))) && pairs();
        let mut m = packed(text, t, from, pair).or_else(|| mark(text, t, from, t.len()))?;
        if said {
            m = super::marks::whole_counts(text, t, m);
        }
        // "1&2 34 5&6 78 L SAILOR . ...": the counts of all steps stand before the first.
        while let Some(more) = t
            .get(m.to)
            .filter(|t| t.gap == 1 && matches!(t.kind, Kind::Number(_)) && pairs())
            .and(packed(text, t, m.to, true).or_else(|| mark(text, t, m.to, t.len())))
            && more.first() == m.last() + 1
        {
            m.ticks.extend(more.ticks);
            m.to = more.to;
            m.span = m.span.join(more.span);
        }
        let mut to = m.to;
        let next = t.get(to)?;
        // "+6 after wall 3: ..." adds counts to the dance.
        let added = m.ticks.iter().filter(|t| t.within() == 0).count() == 1 && next.is(W::After);
        if added && t[to + 1..].iter().take(4).any(|t| t.is(W::Wall)) {
            return None;
        }
        // "6 o'clock, back wall" says where one looks.
        if next.is(W::OClock) && m.ticks.len() == 1 {
            return None;
        }
        // "1/2 turn right" is no pair of counts.
        if m.ticks.len() == 1 && m.first() > 1 && !open && !said && told_how_many(text, t, to) {
            return None;
        }
        let fraction = matches!(t.get(m.from).map(|t| t.kind), Some(Kind::Fraction(_)));
        if fraction
            && matches!(
                next.kind,
                Kind::W(W::Turn | W::R | W::L | W::Pivot | W::Paddle | W::Clockwise | W::Anticlockwise)
                    | Kind::Name(_)
            )
        {
            return None;
        }
        if open {
            if !matches!(next.kind, Kind::Sign(')' | ']' | '}')) {
                return None;
            }
            to += 1;
        } else {
            match next.kind {
                Kind::W(
                    W::Count
                    | W::Wall
                    | W::Tag
                    | W::Restart
                    | W::Bpm
                    | W::Section
                    | W::Times
                    | W::Degrees
                    | W::OClock,
                ) => return None,
                Kind::Sign('x' | '°' | '%' | '\'') => return None,
                // "16 in, start on the right"
                Kind::W(W::In)
                    if m.ticks.len() == 1
                        && m.first() > 8
                        && t.get(to + 1)
                            .is_none_or(|t| matches!(t.kind, Kind::Sign(',' | '.' | ';' | '/'))) =>
                {
                    return None;
                }
                Kind::Sign('/') => return None,
                // "4 extra counts after wall 2"
                _ if next.span.is_among(text, among!["extra", "more", "spare", "additional"])
                    && t.get(to + 1).is_some_and(|t| t.is(W::Count)) =>
                {
                    return None;
                }
                _ => {}
            }
            // "1st", "2x" and the like are other tokens; a number glued to letters is no count.
            if next.gap == 0 && matches!(next.kind, Kind::W(_) | Kind::Unknown | Kind::Name(_)) {
                return None;
            }
        }
        while t.get(to).is_some_and(|t| {
            matches!(t.kind, Kind::Sign(':' | '.' | '-' | '=' | ')' | ']' | ';' | ',' | '>' | '*' | '_'))
        }) {
            to += 1;
        }
        Some(Mark { from: first, to, ..m })
    }
}

/// Counts written without anything between them: `123`, `456`, and `12&` where nothing else fits.
pub(super) fn packed(text: &str, t: &[Token], from: usize, pairs: bool) -> Option<Mark> {
    // "&34": the half-count before them.
    let led = t.get(from).is_some_and(|t| t.is(W::And)) && t.get(from + 1).is_some_and(|t| t.gap == 0);
    let at = from + usize::from(led);
    let token = t.get(at)?;
    let Kind::Number(_) = token.kind else { return None };
    if token.span.range().len() < 2 {
        return None;
    }
    let digits: Vec<i32> = token
        .span
        .of(text)
        .chars()
        .filter_map(|c| c.to_digit(10))
        .filter_map(|d| i32::try_from(d).ok())
        .collect();
    let consecutive = digits.windows(2).all(|w| w[1] == w[0] + 1);
    let half = t.get(at + 1).is_some_and(|t| t.is(W::And) && t.gap == 0);
    let enough = digits.len() >= 3 || (digits.len() == 2 && pairs && digits[0] % 2 == 1);
    if !consecutive || !enough {
        return None;
    }
    let mut ticks: Vec<_> = digits.iter().map(|d| crate::time::Ticks::of_count(*d)).collect();
    if led {
        ticks.insert(0, crate::time::Ticks(digits[0] * 24 - 12));
    }
    let mut to = at + 1;
    if half {
        ticks.push(crate::time::Ticks(digits[digits.len() - 1] * 24 + 12));
        to += 1;
        // "12&3&4": single counts go on.
        let mut last = digits[digits.len() - 1];
        while let Some(Kind::Number(n)) = t.get(to).filter(|t| t.gap == 0).map(|t| t.kind)
            && i32::try_from(n) == Ok(last + 1)
        {
            last += 1;
            ticks.push(crate::time::Ticks::of_count(last));
            to += 1;
            if t.get(to).is_some_and(|t| t.is(W::And) && t.gap == 0) {
                ticks.push(crate::time::Ticks(last * 24 + 12));
                to += 1;
            }
        }
    }
    Some(Mark { ticks, range: false, from, to, span: t[from].span.join(t[to - 1].span) })
}

/// Whether a word is about steps, and whether it is a verb or a figure's name.
pub(super) fn weigh(kind: Kind) -> (bool, bool) {
    match kind {
        Kind::Name(_) => (true, true),
        Kind::Fraction(_) | Kind::Feet => (true, false),
        Kind::W(w) => match w {
            w if acts(w) || w == W::Repeat => (true, true),
            W::R
            | W::L
            | W::RF
            | W::LF
            | W::Foot
            | W::Feet
            | W::Forward
            | W::Back
            | W::Side
            | W::Diagonal
            | W::Across
            | W::Behind
            | W::Front
            | W::Around
            | W::Beside
            | W::Home
            | W::Place
            | W::Out
            | W::In
            | W::Heel
            | W::Toe
            | W::Knee
            | W::Hip
            | W::Quarter
            | W::Half
            | W::Full
            | W::Weight
            | W::And
            | W::Same
            | W::Twice
            | W::Syncopated => (true, false),
            _ => (false, false),
        },
        _ => (false, false),
    }
}

/// A turn without a verb: "1/2 L".
fn turns(size: Kind, side: Kind) -> bool {
    matches!(size, Kind::Fraction(_)) && matches!(side, Kind::W(W::R | W::L))
}

/// A foot and where it goes, without a verb: "left forward", "left heel", "left home".
fn bare_step(foot: Kind, place: Kind) -> bool {
    matches!(foot, Kind::W(W::R | W::L | W::RF | W::LF))
        && matches!(
            place,
            Kind::W(
                W::Forward
                    | W::Back
                    | W::Side
                    | W::Beside
                    | W::Behind
                    | W::Across
                    | W::Together
                    | W::In
                    | W::Out
                    | W::Home
                    | W::Heel
                    | W::Toe
            )
        )
}

/// Cuts the text into lines.
#[must_use]
pub(super) fn lines(text: &str, vocabulary: &Vocabulary) -> Vec<Line> {
    let mut out: Vec<Line> = Vec::new();
    let mut columns = Columns::default();
    let mut gap = true;
    let chat = chat(text);
    let planned = !chat && planned(text);
    let raw = super::unwrap::raw(text);
    let mut tables =
        if chat || planned { Vec::new() } else { tables(text, &raw, vocabulary) }.into_iter().peekable();
    let mut done = 0;
    for range in super::unwrap::lines(text, &raw) {
        if range.start < done {
            continue;
        }
        if let Some(table) = tables.next_if(|t| t.range.start <= range.start) {
            done = table.range.end;
            out.extend(table.lines);
            gap = false;
            continue;
        }
        let end = tables.peek().map_or(range.end, |t| range.end.min(t.range.start));
        let at = range.start;
        let span = Span::new(at, end);
        let raw = &text[at..end];
        let mut t = Vec::new();
        let said = match (chat, planned) {
            (true, _) => chat_prefix(raw).unwrap_or(0),
            (_, true) => hour_prefix(raw).map_or(0, |(_, to)| to),
            _ => 0,
        };
        for cell in columns.cells(raw) {
            let from = at + cell.range.start.max(said).min(cell.range.end);
            let before = t.len();
            // A column of its own says which foot, or which section.
            let said = match cell.foot {
                Some(crate::dance::Foot::Right) => Some(W::RF),
                Some(crate::dance::Foot::Left) => Some(W::LF),
                None => cell.part.then_some(W::Section),
            };
            if let Some(w) = said {
                t.push(Token { kind: Kind::W(w), span: Span::new(from, from), gap: 2 });
            }
            t.extend(tokens(text, from..at + cell.range.end, vocabulary));
            if cell.facing {
                for token in &mut t[before..] {
                    if let Kind::Number(n @ 1..=12) = token.kind {
                        token.kind =
                            Kind::Clock(crate::floor::Heading::new(i32::try_from(n * 4).unwrap_or(0)));
                    }
                }
            }
        }
        leaders::faces_behind(&mut t);
        let line = line_of(text, span, explained(text, t), gap);
        gap = line.empty();
        out.push(line);
    }
    out.extend(tables.flat_map(|t| t.lines));
    spelled(text, &mut out);
    pack(text, &mut out);
    leaders::leaders(&mut out);
    hours(text, &mut out);
    ahead::cut_words(text, &mut out);
    ahead::joined(text, &mut out);
    ahead::names(text, &mut out);
    ahead::rests(text, &mut out);
    ahead::angles(text, &mut out);
    super::numerals::numerals(text, &mut out);
    out
}

/// Puts figures for the counts in words that lead the lines of a sheet, and the sentences within them: "One, two:",
/// "Seven and eight:", "one - step right. two - touch left".
fn spelled(text: &str, lines: &mut [Line]) {
    let led = |l: &Line| if l.told.is_some() { None } else { leading(text, &l.tokens, l.first) };
    if lines.iter().filter(|l| led(l).is_some()).take(4).count() < 4 {
        return;
    }
    // Over lines of steps, "One: Basics" and "Two: Twinkles" are headings: no count has its line to itself there.
    let full = || lines.iter().filter(|l| !l.empty());
    if !full().zip(full().skip(1)).any(|(above, below)| led(above).is_some() && led(below).is_some()) {
        return;
    }
    for line in lines {
        if led(line).is_none() {
            continue;
        }
        let t = &line.tokens;
        let begins = |k: usize| {
            k == line.first || k > line.first && matches!(t[k - 1].kind, Kind::Sign('.' | ';' | ')'))
        };
        let mut out = Vec::with_capacity(t.len());
        let mut k = 0;
        while k < t.len() {
            if let Some((marks, to)) = begins(k).then(|| leading(text, t, k)).flatten() {
                out.extend(marks);
                k = to;
            } else {
                out.push(t[k]);
                k += 1;
            }
        }
        line.tokens = out;
    }
}

/// "4 toe struts back", "4 heel struts forward (8)": a number of figures, or of steps where a bracket tells the counts
/// that they take.
fn told_how_many(text: &str, t: &[Token], from: usize) -> bool {
    // A count in a column of its own tells when.
    if t.get(from).is_some_and(|t| t.gap == 2) {
        return false;
    }
    if super::multiples::crosses(text, t, from) {
        return true;
    }
    let plural = |t: &Token| {
        (matches!(t.kind, Kind::Name(_)) || matches!(t.kind, Kind::W(w) if super::words::acts(w)))
            && t.span.of(text).ends_with(['s', 'S'])
    };
    let total = || {
        (from..t.len()).any(|i| {
            matches!(t[i].kind, Kind::Sign('(' | '['))
                && matches!(t.get(i + 1).map(|t| t.kind), Some(Kind::Number(2 | 4 | 8 | 16)))
                && t.get(i + 2).is_some_and(|t| matches!(t.kind, Kind::Sign(')' | ']')) || t.is(W::Count))
        })
    };
    // "4 toe struts back": no single count holds figures.
    let ends =
        |t: &Token| matches!(t.kind, Kind::W(_) | Kind::Name(_)) && t.span.of(text).ends_with(['s', 'S']);
    let near = &t[from..t.len().min(from + 4)];
    let named = near.iter().position(|t| matches!(t.kind, Kind::Name(_)));
    if named.is_some_and(|k| k < 3 && near[k..].iter().take(2).any(ends)) {
        return true;
    }
    t[from..t.len().min(from + 3)].iter().any(plural) && total() || feet_of(text, t, from, plural)
}

/// "4 sways R L R L", "4 hip sways (R, L, R, L)": whether as many feet follow as the number before the word says.
fn feet_of(text: &str, t: &[Token], from: usize, plural: impl Fn(&Token) -> bool) -> bool {
    let Some(Kind::Number(n)) = from.checked_sub(1).map(|k| t[k].kind) else { return false };
    let Some(noun) = t[from..].iter().take(2).position(plural) else { return false };
    let feet = t[from + noun + 1..].iter().take_while(|t| {
        matches!(
            t.kind,
            Kind::Feet | Kind::Sign(':' | ',' | '-' | '(' | ')') | Kind::W(W::R | W::L | W::RF | W::LF)
        )
    });
    let told: usize = feet
        .map(|t| match t.kind {
            Kind::Feet => t.span.of(text).len(),
            Kind::W(_) => 1,
            _ => 0,
        })
        .sum();
    u32::try_from(told) == Ok(n)
}

/// A line of these tokens.
pub(super) fn line_of(text: &str, span: Span, t: Vec<Token>, after_gap: bool) -> Line {
    let raw = span.of(text);
    let indent = raw.chars().take_while(|c| c.is_whitespace()).map(|c| if c == '\t' { 4 } else { 1 }).sum();
    let mut first = 0;
    let mut bullet = false;
    while let Some(token) = t.get(first) {
        match token.kind {
            Kind::Sign(c) if !matches!(c, '(' | '[' | '{' | '°') => {
                bullet |= matches!(token.kind, Kind::Sign('*' | '-' | '>'));
                first += 1;
            }
            _ => break,
        }
    }
    let letters = || raw.chars().filter(|c| c.is_alphabetic());
    let capitals = letters().all(|c| !c.is_lowercase()) && letters().count() > 2;
    let mut line = Line { indent, after_gap, bullet, capitals, first, ..Line::of(span, t) };
    line.weigh();
    line
}
