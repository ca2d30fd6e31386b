//! Counts in sentences: `on one`, `(1-2)`, `on counts three and four`, `three-and-four`, `that's five, six`.

use super::counts::{half_sign, mark, named_half, sub_sign};
use super::labels::ordinal;
use super::vocabulary::W;
use super::words::{Kind, Token};
use crate::text::{among, lower};

/// A count mark among the words of a sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Spoken {
    /// First token of all that belongs to it: "on", "counts", the bracket.
    pub from: usize,
    /// One past the last.
    pub to: usize,
    /// Whether it stands in brackets.
    pub bracketed: bool,
    /// Whether it is a half-count alone.
    pub half: bool,
    /// The positions as tokens of the usual manner, with "and" kept where it may be a half-count.
    marks: Vec<Token>,
    /// Whether an "and" between its numbers may only join them.
    loose: bool,
    first: i32,
    last: i32,
}

impl Spoken {
    /// The mark as it leads a line. "On three and four" are two counts, unless three things are done on them; where the
    /// writer has the sign for half-counts, the word only joins.
    pub(super) fn tokens(&self, text: &str, words: &[Token], signs: bool) -> Vec<Token> {
        // "..., the weight stays on the right" tells of no other step.
        let said = words.split(|t| t.sign(',')).take_while(|c| !c.iter().any(|t| t.is(W::Weight)));
        let words = &words[..said.map(|c| c.len() + 1).sum::<usize>().min(words.len())];
        let three = || {
            let feet =
                words.iter().filter(|t| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF))).count();
            // "half a turn" belongs to the pivot before it.
            let share =
                |k: usize| {
                    words[..k].iter().rev().take(2).any(|t| {
                        matches!(t.kind, Kind::Fraction(_) | Kind::W(W::Quarter | W::Half | W::Full))
                    })
                };
            let verbs = (0..words.len())
                .filter(|k| matches!(words[*k].kind, Kind::W(w) if super::words::acts(w) && !(w == W::Turn && share(*k))))
                .count();
            let clauses = words.iter().filter(|t| t.sign(',')).count() + 1;
            let told = words.split(|t| t.sign(',')).filter(|c| super::chunks::says(c)).count();
            feet >= 3 && (verbs != 2 || clauses >= 3)
                || verbs >= 3
                || told == 3
                || words.iter().any(|t| matches!(t.kind, Kind::Name(_)))
        };
        // "On 5, 6, 7 and 8": the word ends a list, unless more is done than there are numbers.
        let listed = || {
            let number = |t: &Token| matches!(t.kind, Kind::Number(_));
            let numbers = self.marks.iter().filter(|t| number(t)).count();
            let row = self.marks.windows(2).any(|w| number(&w[0]) && (number(&w[1]) || w[1].sign(',')));
            let feet = |t: &&Token| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF));
            let verbs =
                words.iter().filter(|t| matches!(t.kind, Kind::W(w) if super::words::acts(w))).count();
            let clauses = words.iter().filter(|t| t.sign(',')).count() + 1;
            let few = words.iter().filter(feet).count() <= numbers || verbs >= 3 && clauses <= numbers;
            numbers >= 3 && row && few
        };
        if self.loose && (signs && !self.signed(text) || !three() || listed()) {
            return self.marks.iter().filter(|t| !t.is(W::And)).copied().collect();
        }
        self.marks.clone()
    }

    /// How many positions it has.
    pub(super) fn counts(&self, text: &str) -> usize {
        mark(text, &self.marks, 0, self.marks.len()).map_or(1, |m| m.ticks.len())
    }

    /// "Walk forward right, left, right and kick on 4": as many steps before a count as there are counts since the last
    /// one, so that it is the last of a range.
    pub(super) fn since(&self, last: Option<&Self>, steps: usize) -> Option<Vec<Token>> {
        let begin = self.begin(last);
        if self.half || self.first != self.last || begin < 1 || begin + 2 > self.first {
            return None;
        }
        let fits = usize::try_from(self.first - begin + 1) == Ok(steps);
        if fits { self.range(begin, self.first) } else { None }
    }

    /// The counts behind the last mark up to this single one, where there are several.
    pub(super) fn up_to(&self, last: Option<&Self>) -> Option<Vec<Token>> {
        let begin = self.begin(last);
        let several = !self.half && self.first == self.last && begin >= 1 && begin < self.first;
        if several { self.range(begin, self.first) } else { None }
    }

    /// The counts between the last mark and this one, where there are any.
    pub(super) fn gap_before(&self, last: Option<&Self>) -> Option<Vec<Token>> {
        let begin = self.begin(last);
        let gap = !self.half && begin >= 1 && (1..8).contains(&(self.first - begin));
        if gap { self.range(begin, self.first - 1) } else { None }
    }

    /// The count behind the last mark, or the first one of its eight.
    fn begin(&self, last: Option<&Self>) -> i32 {
        last.map_or(self.first - (self.first - 1).rem_euclid(8), |l| l.last + 1)
    }

    /// The tokens of a range.
    fn range(&self, from: i32, to: i32) -> Option<Vec<Token>> {
        let span = self.marks.first()?.span;
        let number = |n: i32, gap| {
            let kind = Kind::Number(u32::try_from(n).unwrap_or(0));
            Token { kind, span, gap }
        };
        let dash = Token { kind: Kind::Sign('-'), span, gap: 0 };
        Some(if from < to { vec![number(from, 1), dash, number(to, 0)] } else { vec![number(to, 1)] })
    }

    /// Whether a half-count of it is written with a sign.
    pub(super) fn signed(&self, text: &str) -> bool {
        self.marks.iter().any(|t| half_sign(text, t))
    }
}

/// A number in figures or words, not an ordinal one.
fn value(text: &str, t: &Token) -> Option<u32> {
    if t.is(W::The) && t.span.of(text).eq_ignore_ascii_case("one") {
        return Some(1);
    }
    super::numbers::value(t).filter(|n| (1..=128).contains(n) && ordinal(t).is_none())
}

fn beat(text: &str, t: &Token) -> bool {
    t.is(W::Count) || t.span.is_among(text, among!["beat", "beats", "beat,", "times", "tempo"])
}

/// A row of counts from a token on: its tokens in the usual manner, its first and last count, where it ends, and
/// whether an "and" in it may only join.
fn row(text: &str, t: &[Token], from: usize) -> Option<(Vec<Token>, i32, i32, usize, bool)> {
    let digits = matches!(t.get(from)?.kind, Kind::Number(_)) || sub_sign(text, &t[from]) == Some('&');
    if digits && t[from].span.of(text).starts_with(|c: char| c.is_ascii_digit() || c == '&' || c == '+') {
        let m = mark(text, t, from, t.len())?;
        if m.ticks[0].0 < 0 {
            return None;
        }
        let row = &t[m.from..m.to];
        let loose = row.iter().any(|t| t.span.of(text).eq_ignore_ascii_case("and") && t.gap > 0)
            && !row.iter().any(|t| half_sign(text, t));
        let mut marks = t[m.from..m.to].to_vec();
        marks[0].gap = 1;
        return Some((marks, m.first(), m.last(), m.to, loose));
    }
    let number = |n: u32, t: &Token, gap: u8| Token { kind: Kind::Number(n), span: t.span, gap };
    let mut n = value(text, t.get(from)?)?;
    let first = n;
    let mut marks = vec![number(n, &t[from], 1)];
    let mut loose = false;
    let mut i = from + 1;
    loop {
        // "three-and-four", "three, four", "three and four", "one to four", "five - six"
        let mut k = i;
        let (mut and, mut dash, mut to) = (false, false, false);
        while let Some(x) = t.get(k) {
            match x.kind {
                Kind::Sign(',') if k == i => {}
                Kind::Sign('-') => dash = true,
                Kind::W(W::And) if !and => and = true,
                Kind::W(W::To) if !to => to = true,
                _ => break,
            }
            k += 1;
        }
        let next = t.get(k).and_then(|x| value(text, x));
        let Some(next) = next.filter(|x| k > i || *x == n + 1) else { break };
        // A full sentence may go on with "two quarter turns"; only the next number goes on with the row.
        if to && next > n + 1 && next - n < 32 {
            marks.push(Token { kind: Kind::Sign('-'), span: t[k].span, gap: 0 });
            marks.push(number(next, &t[k], 0));
        } else if next == n + 1 {
            if and {
                loose |= !dash;
                let at = (i..k).find(|x| t[*x].is(W::And)).unwrap_or(i);
                marks.push(Token { kind: Kind::W(W::And), span: t[at].span, gap: 0 });
                marks.push(number(next, &t[k], 0));
            } else {
                marks.push(number(next, &t[k], 1));
            }
        } else {
            break;
        }
        n = next;
        i = k + 1;
    }
    Some((marks, i32::try_from(first).ok()?, i32::try_from(n).ok()?, i, loose))
}

/// The counts in words that lead a line up to a colon or a dash, in the usual manner, and where they end: "Three and
/// four:", "and - ".
pub(super) fn leading(text: &str, t: &[Token], first: usize) -> Option<(Vec<Token>, usize)> {
    if matches!(t.get(first)?.kind, Kind::Number(_)) {
        return None;
    }
    let hands_over = |k: usize| t.get(k).is_some_and(|t| t.sign(':') || t.sign('-') && t.gap > 0);
    // "And eight:" is the half-count before it and the count.
    let and = usize::from(t[first].is(W::And));
    if and > 0 && hands_over(first + 1) {
        return Some((vec![t[first]], first + 1));
    }
    let (mut marks, from, last, to, loose) = row(text, t, first + and)?;
    if !hands_over(to) || last > 8 {
        return None;
    }
    if and > 0 {
        marks[0].gap = 0;
        marks.insert(0, Token { gap: 1, ..t[first] });
    }
    let said = Spoken { from: first, to, bracketed: false, half: false, marks, loose, first: from, last };
    Some((said.tokens(text, &t[to + 1..], false), to))
}

/// Whether a sign parts clauses.
fn parts(t: Option<&Token>) -> bool {
    t.is_none_or(|t| match t.kind {
        Kind::Sign(c) => matches!(c, '.' | ',' | ';' | ':' | '!' | '?' | '\n' | ')' | '(' | '"' | '*'),
        _ => false,
    } || t.sign('-') && t.gap > 0)
}

/// Whether a word behind counts tells of them: "... is a shuffle", "... you rock", "... we walk".
fn told_of(text: &str, t: &Token) -> bool {
    t.span.is_among(text, among!["is", "are", "it's", "you", "we", "i", "he", "she", "they", "makes", "make"])
        || matches!(t.kind, Kind::Name(_))
}

/// Whether what follows a number shows that it counts something else.
fn counts_else(t: Option<&Token>) -> bool {
    t.is_some_and(|t| {
        matches!(
            t.kind,
            Kind::W(
                W::Count
                    | W::Wall
                    | W::OClock
                    | W::Times
                    | W::Bpm
                    | W::Section
                    | W::Degrees
                    | W::Turn
                    | W::Quarter
                    | W::Half
                    | W::Tag
                    | W::Restart
                    | W::Eight
            ) | Kind::Fraction(_)
                | Kind::Sign('%' | '°' | 'x' | '/')
        )
    })
}

/// Whether the count before this one, or the one after it, is told behind the same word.
fn told_for(text: &str, t: &[Token], i: usize, n: i32) -> bool {
    const FAR: usize = 40;
    let told = |k: usize| if t[k].is(W::For) { row(text, t, k + 1) } else { None };
    let before = (i.saturating_sub(FAR)..i).rev().filter_map(told).any(|row| row.2 == n - 1);
    before || (i + 1..t.len().min(i + FAR)).filter_map(told).any(|row| row.1 == n + 1)
}

/// "Then 3 walks": a number of steps.
fn several_of(text: &str, t: &[Token], to: usize) -> bool {
    let word =
        |t: &Token| matches!(t.kind, Kind::W(_) | Kind::Name(_)) && t.span.of(text).ends_with(['s', 'S']);
    t[to.min(t.len())..].iter().take(3).take_while(|t| !matches!(t.kind, Kind::Sign(_))).any(word)
}

/// "Count one of the next wall", "1 of the following eight": a count of what comes behind.
fn of_next(text: &str, t: &[Token], to: usize) -> bool {
    t.get(to).is_some_and(|t| t.is(W::Of))
        && t[to + 1..].iter().take(2).any(|t| t.span.is_among(text, among!["next", "following"]))
}

/// "Do counts 1 to 4 again", "repeat counts 1 to 4": the counts of what is danced once more.
fn said_again(t: &[Token], from: usize, to: usize) -> bool {
    let before = t[..from].iter().rev().take(4).take_while(|t| !matches!(t.kind, Kind::Sign(_)));
    let behind = t[to..].iter().take(2).take_while(|t| !matches!(t.kind, Kind::Sign(_)));
    before.clone().any(|t| matches!(t.kind, Kind::W(W::Repeat | W::Same)))
        || before.chain(behind).any(|t| t.is(W::Again))
}

/// The first count of a sentence, whatever its number.
pub(super) fn first_spoken(text: &str, t: &[Token]) -> Option<Spoken> {
    (0..t.len()).find_map(|i| one(text, t, i, None))
}

/// All counts of a paragraph in order.
pub(super) fn spoken(text: &str, t: &[Token]) -> Vec<Spoken> {
    let mut out: Vec<Spoken> = Vec::new();
    let mut i = 0;
    while i < t.len() {
        let last = out.last().map(|s| s.last);
        match one(text, t, i, last).filter(|s| !of_next(text, t, s.to)) {
            // Behind counts in brackets the sign only joins.
            Some(found)
                if found.half
                    && !found.bracketed
                    && out.last().is_some_and(|s| s.bracketed)
                    && t[i].is(W::And) =>
            {
                i = found.to;
            }
            Some(found) => {
                i = found.to;
                out.push(found);
            }
            None => i += 1,
        }
    }
    // Counts rise; a number that jumps is about something else, unless the paragraph begins again.
    let mut kept: Vec<Spoken> = Vec::new();
    for s in out {
        let fits = match kept.last() {
            None => true,
            Some(p) if s.half => p.last > 0,
            Some(p) => {
                s.first > p.last && s.first <= p.last + 4
                    || s.first == p.last && s.half
                    || s.first == 1 && p.last >= 3
            }
        };
        if fits {
            kept.push(s);
        }
    }
    kept
}

/// The count mark that begins at a token.
fn one(text: &str, t: &[Token], i: usize, last: Option<i32>) -> Option<Spoken> {
    let made = |row: (Vec<Token>, i32, i32, usize, bool), from: usize, to: usize, bracketed: bool| Spoken {
        from,
        to,
        bracketed,
        half: false,
        marks: row.0,
        loose: row.4,
        first: row.1,
        last: row.2,
    };
    let half = |at: usize, from: usize, to: usize, bracketed: bool| {
        let l = last?;
        let marks = vec![Token { kind: Kind::W(W::And), span: t[at].span, gap: 1 }];
        Some(Spoken { from, to, bracketed, half: true, marks, loose: false, first: l, last: l })
    };
    if matches!(t[i].kind, Kind::Sign('(' | '[')) {
        let mut k = i + 1;
        while t.get(k).is_some_and(|t| t.is(W::On) || t.is(W::For) || beat(text, t)) {
            k += 1;
        }
        let the = k + usize::from(t.get(k).is_some_and(|t| t.is(W::The)));
        if let Some((to, _)) = named_half(text, t, the)
            && t.get(to).is_some_and(|t| matches!(t.kind, Kind::Sign(')' | ']')))
        {
            return half(the, i, to + 1, true);
        }
        let row = row(text, t, k)?;
        let to = row.3;
        return match t.get(to).map(|t| t.kind) {
            Some(Kind::Sign(')' | ']')) => Some(made(row, i, to + 1, true)),
            // "(1 & 2: rock right, recover left, close right)"
            Some(Kind::Sign(':')) => Some(made(row, i, to + 1, false)),
            // "(3, now 6:00)": what follows the count is said after the step.
            Some(Kind::Sign(',' | ';')) => {
                let close =
                    (to..t.len().min(to + 9)).find(|k| matches!(t[*k].kind, Kind::Sign(')' | ']')))?;
                t[to..close]
                    .iter()
                    .any(|t| matches!(t.kind, Kind::Clock(_)) || t.is(W::OClock))
                    .then(|| made(row, i, to + 1, true))
            }
            _ => None,
        };
    }
    // "on one", "on counts three and four", "counts 5 and 6", "for 7, 8", "on the fifth count", "on the half-beat"
    let mut k = i;
    let preposition = matches!(t[i].kind, Kind::W(W::On | W::For | W::At | W::With))
        || t[i].is(W::In)
        || t[i].is(W::Across) && t[i].span.of(text).eq_ignore_ascii_case("over");
    k += usize::from(preposition);
    let the = t.get(k).is_some_and(|t| t.span.of(text).eq_ignore_ascii_case("the"));
    k += usize::from(the);
    if preposition
        && the
        && t.get(k + 1).is_some_and(|t| beat(text, t))
        && let Some(n) = t.get(k).and_then(ordinal).filter(|n| *n < 99)
    {
        let marks = vec![Token { kind: Kind::Number(n), span: t[k].span, gap: 1 }];
        let n = i32::try_from(n).ok()?;
        return Some(made((marks, n, n, k + 2, false), i, k + 2, false));
    }
    // "The first two counts are a rock", "for the next four counts"
    let nth =
        |t: &Token| t.is(W::First) || t.span.is_among(text, among!["next", "following", "last", "final"]);
    if t.get(k).is_some_and(nth)
        && t.get(k + 2).is_some_and(|t| beat(text, t))
        && let Some(n) = t.get(k + 1).and_then(|t| value(text, t)).filter(|n| (2..=4).contains(n))
        && let Ok(first) = u32::try_from(last.unwrap_or(0) + 1)
        && t[k].is(W::First) == last.is_none()
    {
        let (at, to) = (t[k + 1].span, first + n - 1);
        let number = |n: u32, gap| Token { kind: Kind::Number(n), span: at, gap };
        let marks = vec![number(first, 1), Token { kind: Kind::Sign('-'), span: at, gap: 0 }, number(to, 0)];
        let (first, to) = (i32::try_from(first).ok()?, i32::try_from(to).ok()?);
        return Some(made((marks, first, to, k + 3, false), i, k + 3, false));
    }
    // "Step right on the first count and hold the second"
    if t[i].is(W::The)
        && i > 0
        && t[i - 1].is(W::Hold)
        && let Some(n) = t.get(i + 1).and_then(ordinal).and_then(|n| i32::try_from(n).ok())
        && last == Some(n - 1)
        && parts(t.get(i + 2))
    {
        let marks = vec![Token { kind: Kind::Number(u32::try_from(n).ok()?), span: t[i + 1].span, gap: 1 }];
        return Some(made((marks, n, n, i + 2, false), i, i + 2, false));
    }
    // "... on the first beat, ... on the second, ... on the third and ... on the fourth"
    if t[i].is(W::On)
        && the
        && let Some(n) = t.get(k).and_then(ordinal).and_then(|n| i32::try_from(n).ok())
        && last == Some(n - 1)
        && (parts(t.get(k + 1)) || t[k + 1].is(W::And) || t[k + 1].is(W::Then))
    {
        let marks = vec![Token { kind: Kind::Number(u32::try_from(n).ok()?), span: t[k].span, gap: 1 }];
        return Some(made((marks, n, n, k + 1, false), i, k + 1, false));
    }
    // "bring it home on &"
    let sign = |t: &Token| t.is(W::And) && !t.span.of(text).starts_with(char::is_alphabetic);
    if t[i].is(W::On)
        && t.get(i + 1).is_some_and(sign)
        && !t.get(i + 2).is_some_and(|t| matches!(t.kind, Kind::Number(_)))
    {
        let to = named_half(text, t, i + 1).map_or(i + 2, |half| half.0);
        return half(i + 1, i, to, false);
    }
    if preposition && t[i].is(W::On) && (the || t.get(k).is_some_and(|t| t.sign('"'))) {
        if let Some((to, _)) = named_half(text, t, k) {
            return half(k, i, to, false);
        }
        let quote = usize::from(t.get(k).is_some_and(|t| t.sign('"')));
        let at = k + quote;
        // "on the half-beat", "on the half count"
        if t.get(at).is_some_and(|t| t.is(W::Half)) {
            let dash = usize::from(t.get(at + 1).is_some_and(|t| t.sign('-')));
            if t.get(at + 1 + dash).is_some_and(|t| beat(text, t)) {
                return half(at, i, at + 2 + dash, false);
            }
        }
        if the {
            return None;
        }
    }
    let counted = t.get(k).is_some_and(|t| beat(text, t));
    k += usize::from(counted);
    if k > i && (counted || matches!(t[i].kind, Kind::W(W::On | W::For | W::Across))) {
        // "Rock right for 5 and recover left for 6": the word joins steps, not counts.
        let joins = t[i].is(W::For)
            && t.get(k + 1).is_some_and(|t| t.is(W::And) && t.span.of(text).starts_with(char::is_alphabetic))
            && t.get(k + 2).is_some_and(|t| value(text, t).is_none());
        let row = row(text, if joins { &t[..=k] } else { t }, k)?;
        let to = row.3;
        let goes_on = last.is_none_or(|l| row.1 > l && row.1 <= l + 4) || row.1 == 1;
        let n = row.0.len();
        let bare = !counted && !t[i].is(W::On);
        if counted && !preposition && said_again(t, i, to) {
            return None;
        }
        // "On count 8 turn a quarter": behind the word count no number is of turns.
        let about_else = counts_else(t.get(to)) || !goes_on;
        // "Hold for six" behind five is a count; "hold for two" lasts so long.
        let held = i > 0 && t[i - 1].is(W::Hold) && t[i].is(W::For);
        let next = || {
            let ahead = t[to..t.len().min(to + 12)].iter();
            ahead.filter_map(|t| value(text, t)).any(|n| i64::from(n) == i64::from(row.1) + 1)
        };
        let ends = parts(t.get(to)) || t[to].is(W::And);
        let held = held && last == Some(row.1 - 1) && ends && (row.1 >= 5 || next());
        // "Right foot to the side for one, left foot behind for two"
        let told = t[i].is(W::For) && (joins || parts(t.get(to))) && told_for(text, t, i, row.1);
        if !counted && about_else || bare && n < 2 && !held && !told {
            return None;
        }
        let mut row = row;
        row.4 |= counted && row.0.iter().any(|t| t.is(W::And) && t.gap > 0);
        return Some(made(row, i, to, false));
    }
    if k > i {
        return None;
    }
    let before = i.checked_sub(1).map(|k| &t[k]);
    // "3 rock right, & recover left, 4 cross"
    let sign = t[i].is(W::And) && !t[i].span.of(text).starts_with(char::is_alphabetic);
    if sign
        && before.is_some()
        && parts(before)
        && t.get(i + 1).is_some_and(|t| matches!(t.kind, Kind::W(_) | Kind::Name(_) | Kind::Fraction(_)))
    {
        return half(i, i, i + 1, false);
    }
    // "A turning section, this one."
    if before.is_some_and(|t| t.span.is_among(text, among!["this", "that", "which", "the", "each", "every"]))
        && t[i].span.of(text).eq_ignore_ascii_case("one")
        && !t.get(i + 1).is_some_and(|t| t.sign(',') || t.sign('-'))
    {
        return None;
    }
    let row = row(text, t, i)?;
    let to = row.3;
    let goes_on = last.map_or(row.1 == 1 || row.1 % 4 == 1, |l| row.1 == l + 1 || row.1 == 1 && l >= 3);
    let figures = t[i].span.of(text).starts_with(|c: char| c.is_ascii_digit() || c == '&');
    let that = |t: Option<&Token>| {
        t.is_some_and(|t| {
            let word = lower(t.span.of(text));
            word.starts_with("that") || word == "which" || word == "this"
        })
    };
    // "That is 1, 2."
    let is = before.is_some_and(|t| t.span.of(text) == "is") && that(i.checked_sub(2).map(|k| &t[k]));
    // "Then 3 rock right", where it goes on with the counts.
    let then = figures
        && last.is_some()
        && before.is_some_and(|t| matches!(t.kind, Kind::W(W::Then | W::And)))
        && (i < 2 || parts(t.get(i - 2)) || row.1 == last.unwrap_or(0) + 1)
        && !several_of(text, t, to);
    let (opens, closes) = (parts(before) || that(before) || is || then, parts(t.get(to)));
    let numbers = row.0.iter().filter(|t| matches!(t.kind, Kind::Number(_))).count();
    // "Three-and-four is a shuffle", "so 1 2 is right forward": several counts in a row are told of as such.
    let row_told = numbers >= 2 && t.get(to).is_some_and(|t| told_of(text, t));
    // "Rock right, hold 2": the count on which one waits.
    let held = before.is_some_and(|t| t.is(W::Hold)) && last == Some(row.1 - 1) && closes;
    // "... half left then 3 and 4 you shuffle"
    let on = figures && numbers >= 2 && last == Some(row.1 - 1);
    let whole = if figures {
        opens && (row.0.len() >= 2 || last.is_some() || closes || row.1 == 1)
            || closes && row.0.len() >= 2
            || on
            || row_told
            || held
    } else {
        opens && (closes || row_told)
    };
    // "5 half a turn left": one turn, whatever the number.
    let share = t.get(to).is_some_and(|t| matches!(t.kind, Kind::W(W::Half | W::Quarter)))
        && t.get(to + 1).is_some_and(|t| t.is(W::The));
    // "7 8 half turn right": behind several counts no number is of turns.
    let turns = numbers >= 2
        && t.get(to)
            .is_some_and(|t| matches!(t.kind, Kind::W(W::Turn | W::Quarter | W::Half) | Kind::Fraction(_)));
    if !goes_on || !whole || counts_else(t.get(to)) && !share && !turns {
        return None;
    }
    // "that's one, two"
    let from = i - if is { 2 } else { usize::from(that(before)) };
    Some(made(row, from, to, false))
}

#[cfg(test)]
mod tests;
