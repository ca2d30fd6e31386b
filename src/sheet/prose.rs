//! Prose: paragraphs of sentences that tell the counts in their midst, put into lines of a count mark and its words.
//!
//! "Rock right to the side and recover, one, two", "on 3 we step back", "the RF crosses on 1 over the LF": a count
//! may stand before its words, behind them or among them. Where the words of one count end and those of the next
//! begin is found for a whole paragraph at once: cuts fall at ends of sentences rather than at commas, and each count
//! wants something to do.

use super::chunks::{restates, says, told_end, turns};
use super::counts::mark;
use super::explained::explained;
use super::labels::{Label, label};
use super::lines::{Line, line_of};
use super::numbers::value;
use super::spoken::{Spoken, first_spoken, spoken};
use super::table::Told;
use super::unwrap::hangs;
use super::vocabulary::{Vocabulary, W};
use super::words::{Kind, Token, acts, tokens};
use crate::text::{Span, among};
use crate::time::Ticks;

/// Lines of a block shorter than this were ended on purpose.
const NARROW: usize = 50;
/// How many places for a cut are tried at each end of a gap between counts.
const NEAR: usize = 12;
/// How far a break may lie before the widest line of its block.
const SLACK: usize = 10;

/// The lines of a text whose paragraphs tell their counts; nothing where none does.
pub(super) fn prose(text: &str, vocabulary: &Vocabulary) -> Option<Vec<Line>> {
    let mut out = Vec::new();
    let mut found = false;
    let mut gap = true;
    let mut all = Vec::new();
    for range in paragraphs(text) {
        let span = Span::new(range.0, range.1);
        let t = explained(text, tokens(text, range.0..range.1, vocabulary));
        let line = line_of(text, span, t, gap);
        gap = line.empty();
        all.push(line);
    }
    let habits = Habits {
        numbered: numbered(text, &all),
        signs: all.iter().any(|l| spoken(text, &l.tokens).iter().any(|m| m.signed(text))),
    };
    for line in all {
        match told(text, &line, habits) {
            Some(lines) => {
                found = true;
                out.extend(lines);
            }
            None => out.push(line),
        }
    }
    found.then_some(out)
}

/// What the writer of paragraphs does in all of them.
#[derive(Debug, Clone, Copy)]
struct Habits {
    /// Numbers them.
    numbered: bool,
    /// Writes half-counts with a sign, so that "and" between counts only joins.
    signs: bool,
}

/// Whether paragraphs that tell their counts are numbered from 1 on: "1. SIDE TOUCHES. Step right ... - 1, 2, 3, 4."
fn numbered(text: &str, lines: &[Line]) -> bool {
    let mut numbers = lines.iter().filter_map(|l| {
        let label = label(text, l).filter(|l| !l.certain && l.range.is_none())?;
        let counts = spoken(text, l.tokens.get(label.to..)?);
        (counts.len() >= 2).then_some(label.number?)
    });
    let mut n = 0;
    numbers.all(|number| {
        n += 1;
        number == n
    }) && n >= 2
}

/// The counts that a sentence tells, each with its words.
#[must_use]
pub fn rows(text: &str, t: &[Token]) -> Vec<(Vec<Ticks>, Vec<Token>)> {
    let marks = spoken(text, t);
    let mut at = 0;
    let mut out = Vec::new();
    for (k, (m, cut)) in marks.iter().zip(cuts(text, t, &marks)).enumerate() {
        let ahead = &t[at..m.from];
        // Behind the last mark in brackets nothing more is danced.
        let ends = k + 1 == marks.len() && m.bracketed && says(ahead);
        let mut words = said(ahead, true);
        if !ends {
            words.extend(said(&t[m.to..cut], false));
        }
        let tokens = m.tokens(text, &words, false);
        if let Some(mark) = mark(text, &tokens, 0, tokens.len()) {
            out.push((mark.ticks, words));
        }
        at = cut;
    }
    out
}

/// The first counts that a sentence tells: where they begin and end among its tokens, and the positions.
#[must_use]
pub fn counts_told(text: &str, t: &[Token]) -> Option<(usize, usize, Vec<Ticks>)> {
    let first = first_spoken(text, t)?;
    let tokens = first.tokens(text, &[], false);
    let mark = mark(text, &tokens, 0, tokens.len())?;
    Some((first.from, first.to, mark.ticks))
}

/// How many counts stand in the midst of words: "1 and 2", "7 8", "on 3".
#[must_use]
pub fn counts_amid(t: &[Token]) -> usize {
    let number = |k: usize| t.get(k).and_then(value).filter(|n| (1..=8).contains(n));
    let amid = |k: usize| {
        let Some(n) = number(k) else { return false };
        let joined = t.get(k + 1).is_some_and(|t| t.is(W::And) || t.sign('-'));
        let next = k + 1 + usize::from(joined);
        let row = number(next) == Some(n + 1) && matches!(t[next].kind, Kind::Number(_));
        let on = k > 0 && t[k - 1].is(W::On);
        row || on && !t.get(k + 1).is_some_and(|t| matches!(t.kind, Kind::W(W::OClock | W::Wall)))
    };
    (0..t.len()).filter(|k| amid(*k)).count()
}

/// Blocks of lines, each where a line ends only because the next word would have gone past the widest.
fn paragraphs(text: &str) -> Vec<(usize, usize)> {
    let mut raw = Vec::new();
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        let end = at + line.trim_end_matches(['\n', '\r']).len();
        raw.push((at, end));
        at += line.len();
    }
    let of = |r: (usize, usize)| text[r.0..r.1].trim_end();
    let mut out: Vec<(usize, usize)> = Vec::new();
    let mut i = 0;
    while i < raw.len() {
        let mut end = i + 1;
        while end < raw.len() && !of(raw[end - 1]).trim().is_empty() && !of(raw[end]).trim().is_empty() {
            end += 1;
        }
        let width = |r: (usize, usize)| of(r).chars().count();
        let widest = raw[i..end].iter().map(|r| width(*r)).max().unwrap_or(0);
        // Where most lines begin with a count, each is one by itself.
        let counted = raw[i..end].iter().filter(|r| begins(of(**r))).count();
        let listed = end - i >= 2 && counted * 2 > end - i;
        let mut from = i;
        for k in i..end {
            let next = (k + 1 < end).then(|| of(raw[k + 1]));
            let first = next.and_then(|n| n.split_whitespace().next()).map_or(0, |w| w.chars().count());
            let full = widest >= NARROW && width(raw[k]) + 1 + first + SLACK > widest;
            let indent = |l: &str| l.len() - l.trim_start().len();
            let moved = next.is_some_and(|n| indent(n) > indent(of(raw[k])) && k > from);
            let moved = moved
                || next.is_some_and(|n| {
                    k == from && indent(n) > indent(of(raw[k])) && begins_new(of(raw[k]), n)
                });
            if next.is_none()
                || moved
                || !full
                || listed
                || of(raw[k]).ends_with(':') && !counts_before_colon(of(raw[k]))
                || next.is_some_and(|n| another(of(raw[k]), n))
                || next.is_some_and(ends_marked) && ends_marked(of(raw[k]))
            {
                out.push((raw[from].0, raw[k].1));
                from = k + 1;
            }
        }
        i = end;
    }
    out
}

/// Whether a line further in begins a sentence of its own under one that is not ended.
fn begins_new(before: &str, line: &str) -> bool {
    line.trim_start().starts_with(char::is_uppercase) && !before.trim_end().ends_with([',', '-', ';'])
}

/// Whether a line ends with counts and a colon, whose words come in the next: "... left foot. Counts 3&4:".
fn counts_before_colon(line: &str) -> bool {
    line.trim_end_matches(':').ends_with(|c: char| c.is_ascii_digit())
}

/// Whether a line begins something else: with a capital letter behind one that ends amid its words.
fn another(before: &str, line: &str) -> bool {
    let first = line.split_whitespace().next().unwrap_or("").trim_matches(|c: char| !c.is_alphabetic());
    let foot = ["right", "left", "r", "l"].iter().any(|w| first.eq_ignore_ascii_case(w));
    begins_new(before, line) && before.ends_with(char::is_alphabetic) && !foot && !hangs(before)
}

/// Whether a line begins with a number, a bullet or a rule.
fn begins(line: &str) -> bool {
    let line = line.trim_start();
    line.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '&' | '-' | '*' | '•' | '|' | '#'))
}

/// Whether a line ends with counts in brackets, as lines do that are one for each row of counts.
fn ends_marked(line: &str) -> bool {
    let line = line.trim_end().trim_end_matches(['.', ';', ',']);
    let Some(open) = line.rfind('(') else { return false };
    line.ends_with(')')
        && line[open + 1..line.len() - 1].chars().all(|c| c.is_ascii_digit() || " &-,a".contains(c))
}

/// Whether a sign ends a sentence.
fn stops(t: &Token) -> bool {
    matches!(t.kind, Kind::Sign('.' | '!' | '?' | '\n'))
}

/// A paragraph as lines of a count mark and its words; nothing where it is none.
fn told(text: &str, line: &Line, habits: Habits) -> Option<Vec<Line>> {
    let t = &line.tokens;
    // What is said about tags and restarts is read as a whole.
    let early = &t[..t.len().min(6)];
    if early.iter().any(|t| matches!(t.kind, Kind::W(W::Restart | W::Tag | W::Music))) {
        return None;
    }
    let (mut heading, mut from) = (None, line.first);
    let listed = |l: &Label| habits.numbered && l.number.is_some() && l.range.is_none();
    if let Some(l) = label(text, line).filter(|l| l.certain || listed(l)) {
        from = l.to.min(t.len());
        heading = Some(l);
    }
    let end = |from: usize| (from..t.len()).find(|k| stops(&t[*k])).map_or(t.len(), |k| k + 1);
    let stop = end(from);
    if let Some(range) =
        range_named(&t[from..stop]).filter(|_| heading.as_ref().is_none_or(|l| l.range.is_none()))
    {
        // "And so to 41-48.", "With 9-16 we undo it.": the first sentence names the counts of the paragraph.
        let (a, b) = (from + range.0, from + range.1);
        let others = spoken(text, &t[from..stop]).len() > 1;
        if spoken(text, &t[stop..]).len() >= 2 && !others {
            let label =
                Label { to: stop, number: None, range: None, certain: true, letter: None, part: false };
            return Some(put(text, line, Some((label, t[a..b].to_vec())), stop, habits.signs));
        }
    }
    if heading.is_some() && spoken(text, &t[from..stop]).is_empty() && from < stop {
        from = stop;
    }
    let verbs = t[from..]
        .iter()
        .filter(|t| matches!(t.kind, Kind::Name(_)) || matches!(t.kind, Kind::W(w) if acts(w)))
        .count();
    let marks = spoken(text, &t[from..]).len();
    // One mark is enough where the sentence before it tells the counts before.
    let after_sentence = || {
        let t = &t[from..];
        spoken(text, t).first().is_some_and(|m| earlier(t, 0, m, t.len(), None).is_some())
    };
    if marks < 2 && !(marks == 1 && after_sentence()) || verbs == 0 && marks < 3 {
        return None;
    }
    let heading = heading.map(|l| {
        let words = t[..l.to.min(t.len())].to_vec();
        (l, words)
    });
    Some(put(text, line, heading, from, habits.signs))
}

/// The tokens of a range such as 9-16 in a sentence that names what it is about.
fn range_named(t: &[Token]) -> Option<(usize, usize)> {
    (0..t.len().saturating_sub(2)).find_map(|k| {
        let (Kind::Number(a), Kind::Number(b)) = (t[k].kind, t[k + 2].kind) else { return None };
        let joined = t[k + 1].sign('-') || t[k + 1].is(W::To);
        let open = k > 0 && matches!(t[k - 1].kind, Kind::Sign('(' | '['));
        (joined && !open && b > a + 4 && a % 2 == 1 && b - a < 32).then_some((k, k + 3))
    })
}

/// The lines of a paragraph: its heading, then one for each count mark.
fn put(text: &str, line: &Line, heading: Option<(Label, Vec<Token>)>, from: usize, signs: bool) -> Vec<Line> {
    let t = &line.tokens;
    let mut out = Vec::new();
    let mut gap = line.after_gap;
    let mut push = |t: Vec<Token>, gap: bool, told: Option<Told>| {
        if let Some(span) = t.iter().map(|t| t.span).reduce(Span::join) {
            out.push(Line { told, ..line_of(text, span, t, gap) });
        }
    };
    if let Some((label, _)) = heading.as_ref().filter(|(l, _)| !l.certain) {
        // A mere number, which heads a section because such paragraphs are numbered.
        let label = Label { certain: true, ..label.clone() };
        push(t[..from].to_vec(), gap, Some(Told::Heading(Some(label))));
        gap = false;
    } else if let Some((label, mut words)) = heading {
        if label.range.is_none() && matches!(words.first().map(|t| t.kind), Some(Kind::Number(_))) {
            let (a, b) = (words[0].span, words[words.len() - 1].span);
            words.insert(
                0,
                Token { kind: Kind::Sign('['), span: Span::new(a.start as usize, a.start as usize), gap: 0 },
            );
            words.push(Token {
                kind: Kind::Sign(']'),
                span: Span::new(b.end as usize, b.end as usize),
                gap: 0,
            });
        }
        push(words, gap, None);
        gap = false;
    }
    let rest = &t[from..];
    let marks = spoken(text, rest);
    let signs = signs || marks.iter().any(|m| m.signed(text));
    let cuts = cuts(text, rest, &marks);
    let mut at = 0;
    let mut last = None;
    for (mark, cut) in marks.iter().zip(cuts) {
        if let Some((range, end)) = earlier(rest, at, mark, cut, last) {
            let mut all = range;
            all.extend(said(&rest[at..end], false));
            push(all, gap, None);
            gap = false;
            at = end;
        }
        let mut words = said(&rest[at..mark.from], true);
        // "The vine ends with a touch on 4": a figure takes the counts up to the one that is told.
        let named = words.iter().any(|t| matches!(t.kind, Kind::Name(_)));
        let figure = || if named { mark.up_to(last) } else { None };
        let since = mark.since(last, turns(&words)).or_else(figure);
        last = Some(mark);
        // "Count 1: big step right": the sign hands over to the words of the count.
        let hands = |t: &&Token| matches!(t.kind, Kind::Sign(':' | ',' | '-' | '='));
        let signs_only = words.iter().all(|t| matches!(t.kind, Kind::Sign(_)));
        let lead = if signs_only { rest[mark.to..cut].iter().take_while(hands).count() } else { 0 };
        words.extend(said(&rest[mark.to + lead..cut], false));
        if let Some(rest) = rests(text, mark, &words) {
            words = vec![rest];
        }
        let mut all = since.unwrap_or_else(|| mark.tokens(text, &words, signs));
        if let Some(first) = words.first_mut() {
            first.gap = if mark.half { 2 } else { 1 };
        }
        let again = again_only(text, &words);
        all.extend(words);
        let counted = if again { super::counts::mark(text, &all, 0, all.len()) } else { None };
        push(all, gap, counted.map(Told::Steps));
        gap = false;
        at = cut;
    }
    out
}

/// "And on 7&8 one more": words that only dance the step before once more.
fn again_only(text: &str, words: &[Token]) -> bool {
    let one = |t: &Token| t.span.is_among(text, among!["one", "another"]);
    let again =
        |t: &Token| matches!(t.kind, Kind::W(W::Again | W::More | W::Same | W::Repeat | W::Twice | W::Once));
    let small = |t: &Token| {
        matches!(t.kind, Kind::Sign(_) | Kind::W(W::And | W::Then | W::The | W::Make | W::It | W::Times))
    };
    words.iter().any(again) && words.iter().all(|t| again(t) || small(t) || one(t))
}

/// "Stand on 4", "on 2 you smile": a few words of nothing to do on a count of its own are a rest.
fn rests(text: &str, mark: &Spoken, words: &[Token]) -> Option<Token> {
    let said = || words.iter().filter(|t| !matches!(t.kind, Kind::Sign(_)));
    let idle = |t: &Token| {
        matches!(t.kind, Kind::Unknown) || matches!(t.kind, Kind::W(w) if !matters(t) && idle_word(w))
    };
    let few = (1..=6).contains(&said().count());
    let told = said().any(|t| t.kind == Kind::Unknown || t.is(W::Keep));
    let span = said().map(|t| t.span).reduce(Span::join)?;
    (mark.counts(text) == 1 && !mark.half && few && told && said().all(idle)).then_some(Token {
        kind: Kind::W(W::Hold),
        span,
        gap: 1,
    })
}

/// Words that may stand around a rest.
fn idle_word(w: W) -> bool {
    matches!(
        w,
        W::The
            | W::It
            | W::And
            | W::Then
            | W::With
            | W::On
            | W::Of
            | W::To
            | W::Keep
            | W::No
            | W::For
            | W::At
    )
}

/// Where whole sentences before a mark tell the counts that no mark tells: "Next, left vine. At count 7 turn a quarter",
/// "The jazz box goes over, back, side, forward. Then kick on 5": those counts, and where their sentences end.
fn earlier(
    t: &[Token],
    at: usize,
    mark: &Spoken,
    cut: usize,
    last: Option<&Spoken>,
) -> Option<(Vec<Token>, usize)> {
    let stop = (at..mark.from).rev().find(|k| stops(&t[*k]))?;
    let steps = |t: &[Token]| {
        let foot = |t: &Token| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF));
        says(t) && (t.iter().any(foot) || t.iter().any(|t| matches!(t.kind, Kind::Name(_))))
    };
    let own = tells(&t[stop + 1..mark.from]) || tells(&t[mark.to..cut]);
    let range = mark.gap_before(last)?;
    (own && steps(&t[at..stop])).then_some((range, stop + 1))
}

/// The words of a count without sentences that only chat. The sentence next to the mark stays.
fn said(t: &[Token], before: bool) -> Vec<Token> {
    let mut out = Vec::with_capacity(t.len());
    let mut at = 0;
    while at < t.len() {
        let end = (at..t.len()).find(|k| stops(&t[*k])).map_or(t.len(), |k| k + 1);
        let beside = if before { end == t.len() && !stops(&t[end - 1]) } else { at == 0 };
        let sentence = &t[at..end];
        let steps = sentence.iter().filter(|t| matters(t)).count();
        let words =
            sentence.iter().filter(|t| matches!(t.kind, Kind::W(_) | Kind::Name(_) | Kind::Unknown)).count();
        let clock = sentence.iter().any(|t| matches!(t.kind, Kind::Clock(_)) || t.is(W::OClock));
        if beside || clock || says(sentence) && steps * 5 >= words * 2 {
            out.extend_from_slice(sentence);
        }
        at = end;
    }
    out
}

fn matters(t: &Token) -> bool {
    match t.kind {
        Kind::Name(_) | Kind::Fraction(_) | Kind::Feet => true,
        Kind::W(w) => {
            acts(w)
                || matches!(
                    w,
                    W::R | W::L
                        | W::RF
                        | W::LF
                        | W::Foot
                        | W::Forward
                        | W::Back
                        | W::Side
                        | W::Behind
                        | W::Across
                        | W::Beside
                        | W::Home
                        | W::Place
                        | W::Quarter
                        | W::Half
                        | W::Full
                        | W::Weight
                        | W::Toe
                        | W::Heel
                        | W::Diagonal
                        | W::Out
                        | W::In
                )
        }
        _ => false,
    }
}

/// What it costs to cut words before a token.
fn cut_cost(t: &[Token], p: usize, after_mark: bool, before_mark: bool) -> u32 {
    let sign = p.checked_sub(1).map(|k| t[k].kind);
    let joint = t.get(p).is_some_and(|t| matches!(t.kind, Kind::W(W::And | W::Then)));
    // "walk left, right, left" is one row of feet.
    let foot = |k: usize| t.get(k).is_some_and(|t| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF)));
    let row = foot(p) && t.get(p + 1).is_none_or(|t| matches!(t.kind, Kind::Sign(_)));
    match sign {
        Some(Kind::Sign(',')) if row && !after_mark && !before_mark && p > 1 && foot(p - 2) => 8,
        Some(Kind::Sign('.' | '!' | '?' | '\n')) if !after_mark => 0,
        Some(Kind::Sign(';')) if !after_mark => 1,
        Some(Kind::Sign(':')) if !after_mark => 2,
        Some(Kind::Sign(',' | ')' | '-')) if !after_mark => 3,
        _ if joint => 4,
        // "right on 1 (hold 2)"
        _ if t.get(p).is_some_and(|t| t.sign('(')) => 3,
        _ if t.get(p).is_none() => 0,
        _ if after_mark || before_mark => 12,
        _ => 16,
    }
}

/// Whether the signs around a mark say that its words follow ("... left. 3-4 Rock", "3-4: rock") or stand before it
/// ("... left (3-4).").
fn leads(t: &[Token], mark: &Spoken) -> Option<bool> {
    let before = mark.from.checked_sub(1).map(|k| &t[k]);
    let behind = t.get(mark.to);
    if behind.is_some_and(|t| t.sign(':')) {
        return Some(true);
    }
    let opens = before.is_none_or(|t| stops(t) || matches!(t.kind, Kind::Sign(':' | ';')));
    let closes = behind.is_none_or(|t| stops(t) || matches!(t.kind, Kind::Sign(',' | ';')));
    (opens != closes).then_some(opens)
}

/// Whether words tell something to do, with "bring the right foot beside it" as well.
fn tells(t: &[Token]) -> bool {
    let foot = |t: &Token| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF));
    let way = |t: &Token| matches!(t.kind, Kind::W(W::Beside | W::Home | W::Place | W::Out | W::In));
    // "The same again", "and once more"
    let again = |t: &Token| matches!(t.kind, Kind::W(W::Repeat | W::Same | W::Again | W::Twice));
    says(t) || t.iter().any(foot) && t.iter().any(way) || t.len() < 8 && t.iter().any(again)
}

/// Where the words of each mark end, so that the whole paragraph fits best.
fn cuts(text: &str, t: &[Token], marks: &[Spoken]) -> Vec<usize> {
    // For each mark the ways to end its words: where, the least cost so far, and the way before.
    let mut layers: Vec<Vec<(usize, u32, usize, bool)>> = vec![vec![(0, 0, 0, false)]];
    for (i, mark) in marks.iter().enumerate() {
        let to = marks.get(i + 1).map_or(t.len(), |m| m.from);
        let last = i + 1 == marks.len();
        let side = leads(t, mark);
        let places: Vec<usize> = if last {
            vec![t.len()]
        } else {
            (mark.to..=to)
                .filter(|p| {
                    let sign = |t: &Token| matches!(t.kind, Kind::Sign(c) if c != '(');
                    *p == mark.to && !t.get(*p).is_some_and(sign)
                        || *p == to
                        || *p > mark.to
                            && matches!(
                                t[*p - 1].kind,
                                Kind::Sign('.' | '!' | '?' | ';' | ':' | ',' | ')' | '-' | '\n')
                            )
                        || matches!(t[*p].kind, Kind::W(W::And | W::Then))
                })
                .collect()
        };
        // A cut lies near one of its two counts; what is far from both is chat.
        let places = if places.len() > 2 * NEAR {
            [&places[..NEAR], &places[places.len() - NEAR..]].concat()
        } else {
            places
        };
        let mut layer = Vec::new();
        for p in places {
            let cut = if last { 0 } else { cut_cost(t, p, p == mark.to, p == to) };
            let mut best: Option<(u32, usize, bool)> = None;
            for (k, before) in layers[i].iter().enumerate() {
                let (ahead, behind) = (&t[before.0..mark.from], &t[mark.to..p]);
                let (led, follows) = (tells(behind), tells(ahead));
                // "Coaster step on 3 & 4: back, together, forward": a name, and its steps.
                let named = side == Some(true) && led && follows && behind[0].sign(':');
                // As many steps as it has counts, where another figure stands in the same sentence.
                let (from, counts) = (mark.to + 1, mark.counts(text));
                let whole = || told_end(t, from, to, counts).is_none_or(|end| p.abs_diff(end) <= 1);
                let explained = named && (p == to || whole()) || led && follows && restates(t, mark.to);
                let own = match (led, follows) {
                    (false, false) => 10,
                    (true, true) if !explained => 2,
                    _ => 0,
                };
                // "Sway left on 2, stepping left to the side, and sway right on 3"
                let own = own + 3 * u32::from(p == mark.to + 1 && restates(t, mark.to));
                let change = u32::from(i > 0 && follows != before.3);
                let against = match side {
                    Some(true) if follows && !explained => 8,
                    Some(false) if led && !explained => 8,
                    _ => 0,
                };
                let cost = before.1 + cut + own + change + against;
                if best.is_none_or(|b| cost < b.0) {
                    best = Some((cost, k, follows));
                }
            }
            if let Some((cost, k, follows)) = best {
                layer.push((p, cost, k, follows));
            }
        }
        layers.push(layer);
    }
    let mut out = vec![0; marks.len()];
    let mut at = 0;
    for i in (0..marks.len()).rev() {
        let layer = &layers[i + 1];
        if i + 1 == marks.len() {
            at = 0;
        }
        out[i] = layer[at].0;
        at = layer[at].2;
    }
    out
}
