//! Words that tell what a line or a stretch of it is about.

use super::super::counts::counts_behind;
use super::{Kind, Line, Span, Token, Topic, W, acts};
use crate::sheet::labels::section_word;
use crate::sheet::mentions::section_word as counted_section;
use crate::sheet::numbers::ordinal;
use crate::text::{Among, among, lower};

/// Whether tokens say something to do: a verb, a figure, a place, a repeat.
pub(super) fn doing(t: &[Token]) -> bool {
    once_more(t)
        || t.iter().any(|t| match t.kind {
            Kind::Name(_) | Kind::Feet | Kind::Fraction(_) => true,
            Kind::W(w) => {
                acts(w)
                    || matches!(
                        w,
                        W::Same
                            | W::Repeat
                            | W::Side
                            | W::Forward
                            | W::Back
                            | W::Behind
                            | W::Across
                            | W::Heel
                            | W::Toe
                            | W::R
                            | W::L
                            | W::RF
                            | W::LF
                            | W::Out
                            | W::In
                            | W::Beside
                            | W::Home
                            | W::Knee
                            | W::Hip
                            | W::Other
                            | W::Again
                    )
            }
            _ => false,
        })
}

/// "Once more", "one more time", "do it a second time"; "the 2nd time" tells a place.
pub(super) fn once_more(t: &[Token]) -> bool {
    let second = |k: usize| t[k].is(W::Second) && k > 1 && t[k - 1].is(W::The) && !t[k - 2].is(W::On);
    t.windows(2).enumerate().any(|(k, w)| {
        w[0].is(W::Once) && w[1].is(W::More) || w[1].is(W::Times) && (w[0].is(W::More) || second(k))
    })
}

/// Whether words stand in brackets as a whole.
pub(super) fn bracketed(t: &[Token]) -> bool {
    t.first().is_some_and(|t| t.sign('(')) && t.last().is_some_and(|t| t.sign(')'))
}

pub(super) fn has(t: &[Token], w: W) -> bool {
    t.iter().any(|t| t.is(w))
}

/// "Section", "set", "block": a word that labels a section.
pub(super) fn section_named(text: &str, t: &Token) -> bool {
    t.is(W::Section) || t.span.is_among(text, among!["set", "block", "sektion", "seccion", "section:"])
}

pub(super) fn starts_lower(text: &str, line: &Line) -> bool {
    line.span
        .of(text)
        .trim_start_matches(|c: char| !c.is_alphanumeric())
        .chars()
        .next()
        .is_some_and(char::is_lowercase)
}

/// Whether a line goes on with the one before: that one ends amid its words, or this one begins with the clock of its
/// last step.
pub(super) fn goes_on(text: &str, before: &Line, line: &Line) -> bool {
    let open = before.span.of(text).trim_end().ends_with([',', ';']);
    let clock = line.tokens.first().is_some_and(|t| t.sign('('))
        && line.tokens.iter().skip(1).take(3).any(|t| matches!(t.kind, Kind::Clock(_)) || t.is(W::OClock));
    open || clock
}

/// "Start again", "begin over": outright.
pub(super) fn begins_again(text: &str, t: &[Token]) -> bool {
    t.windows(2).any(|w| {
        let word = lower(w[0].span.of(text));
        let over = w[1].is(W::Again) || w[1].span.of(text).eq_ignore_ascii_case("over");
        over && (word.starts_with("start") || word.starts_with("begin"))
    })
}

/// "Start again from the top", "go back to the beginning", "break off".
pub(super) fn from_the_top(text: &str, t: &[Token]) -> bool {
    let is = |t: &Token, word: &str| t.span.of(text).eq_ignore_ascii_case(word);
    let begins = |t: &Token, word: &str| {
        t.span.of(text).get(..word.len()).is_some_and(|w| w.eq_ignore_ascii_case(word))
    };
    // "Over the left shoulder" begins nothing.
    let over = || {
        t.windows(2).any(|w| {
            is(&w[1], "over") && (begins(&w[0], "start") || begins(&w[0], "begin") || is(&w[0], "go"))
        })
    };
    let again = has(t, W::Again) || t.iter().any(|t| is(t, "top") || is(t, "beginning")) || over();
    let start = |t: &Token| begins(t, "start") || begins(t, "begin") || is(t, "go") || is(t, "back");
    // "Break off"; "set off" and "off you go" begin the dance.
    let broken = || t.windows(2).any(|w| is(&w[1], "off") && begins(&w[0], "br"));
    let back_to =
        || t.windows(2).any(|w| w[0].is(W::Back) && w[1].is(W::To)) && t.iter().any(|t| t.is(W::Make));
    again && t.iter().any(start) || broken() || back_to()
}

/// "Repeat from 1", "loop from the top", "repeat from the beginning facing 6:00": the dance is over.
pub(super) fn starts_over(text: &str, t: &[Token]) -> bool {
    let first = t.iter().position(|t| !matches!(t.kind, Kind::Sign(_)));
    let Some(at) = first.filter(|i| t[*i].is(W::Repeat) || t[*i].span.of(text).eq_ignore_ascii_case("loop"))
    else {
        return false;
    };
    let rest = &t[at + 1..];
    let top = |t: &Token| t.span.is_among(text, among!["1", "top", "beginning", "start", "one", "go"]);
    let from = rest.iter().take(3).position(|t| t.is(W::From));
    from.is_some_and(|k| rest[k + 1..].iter().take(3).any(top)) && !t.iter().any(|t| t.is(W::Wall))
}

/// Lines of the head: a number of counts or walls, music, level, author.
pub(super) fn head_like(_text: &str, t: &[Token]) -> bool {
    let wall = t
        .windows(2)
        .any(|w| matches!(w[0].kind, Kind::Number(_) | Kind::W(W::Two | W::Four)) && w[1].is(W::Wall));
    // "Counts 1 to 8. Step right" is a heading.
    let range = t.get(1).is_some_and(|t| matches!(t.kind, Kind::Number(_)))
        && t.get(2).is_some_and(|t| t.is(W::To) || t.sign('-'))
        && t.get(3).is_some_and(|t| matches!(t.kind, Kind::Number(_)));
    // "Only four, because the song is short" stands beside steps.
    let aside = t.windows(2).any(|w| w[0].is(W::The) && w[1].is(W::Music))
        && t.iter().filter(|t| matches!(t.kind, Kind::W(w) if acts(w))).count() >= 3
        && !t.iter().any(|t| t.sign('"'));
    // A name that speaks in a chat, "Author Q: First eight: rock forward (1), recover (2) ...", tells no author.
    let spoken = t.iter().take(6).any(|t| t.sign(':'))
        && t.iter().filter(|t| matches!(t.kind, Kind::W(w) if acts(w))).count() >= 3;
    wall && (has(t, W::Count)
        || t.iter()
            .any(|t| matches!(t.kind, Kind::W(W::Beginner | W::Improver | W::Intermediate | W::Advanced))))
        || has(t, W::Music) && !aside
        || has(t, W::Choreographer) && !spoken
        || has(t, W::Intro)
        || has(t, W::Bpm)
        || has(t, W::Level)
        || t.first().is_some_and(|t| t.is(W::Count) || t.is(W::Wall)) && !range
}

/// A line between two dashes, stars or the like: "— touch & clap —".
pub(super) fn framed(line: &Line) -> bool {
    let t = &line.tokens;
    let (Some(first), Some(last)) = (t.first(), t.last()) else { return false };
    // "*a) Toe struts, rocking chair*", "_Vine right_": a line that is emphasised as a whole.
    let emphasis = matches!(first.kind, Kind::Sign('*' | '_'))
        && first.kind == last.kind
        && t.len() >= 3
        && t.get(1).is_some_and(|t| t.gap == 0)
        && last.gap == 0
        && t[1..t.len() - 1].iter().all(|t| t.kind != first.kind || t.gap == 0);
    if emphasis {
        return true;
    }
    matches!(first.kind, Kind::Sign('-' | '*' | '=' | '~' | '_' | '#' | '+'))
        && first.kind == last.kind
        && t.len() >= 3
        && last.gap > 0
        && !t.iter().any(|t| matches!(t.kind, Kind::Number(_)))
}

/// "Let her clap twice in place of the stomps" is an option.
fn instead(text: &str, t: &[Token]) -> bool {
    let word = |k: usize, w: &str| t.get(k).is_some_and(|t| t.span.of(text).eq_ignore_ascii_case(w));
    (0..t.len()).any(|k| {
        word(k, "in") && word(k + 1, "place") && word(k + 2, "of") || word(k, "instead") && word(k + 1, "of")
    })
}

/// Options, styling and notes change nothing.
pub(super) fn remark_line(text: &str, line: &Line) -> bool {
    let Some(first) = line.tokens.get(line.first) else { return false };
    // "^ this one stays light" points at the line above.
    if line.tokens.iter().take(line.first + 1).any(|t| t.sign('^')) {
        return true;
    }
    let first = if matches!(first.kind, Kind::Sign(_)) {
        line.tokens.get(line.first + 1).unwrap_or(first)
    } else {
        first
    };
    let word = lower(first.span.of(text));
    matches!(
        word.as_str(),
        "mind"
            | "beware"
            | "attention"
            | "careful"
            | "watch"
            | "please"
            | "caution"
            | "careful:"
            | "those"
            | "anyone"
            | "anybody"
            | "whoever"
            | "people"
            | "if"
            | "ask"
            | "ask:"
    ) || taught(text, &line.tokens[line.first.min(line.tokens.len())..])
        || instead(text, &line.tokens)
        || each_section(text, &line.tokens[line.first.min(line.tokens.len())..])
        || aside(text, line)
        || matches!(
            first.kind,
            Kind::W(W::Option | W::Note | W::Enjoy | W::Music | W::Choreographer | W::Level)
        )
}

/// "Teach: step lock AND", "Cue: heel, heel": a word for how the row above is taught or called, and a colon.
fn taught(text: &str, t: &[Token]) -> bool {
    const WORDS: &Among = among![
        "teach",
        "teaching",
        "teacher",
        "cue",
        "cues",
        "call",
        "calls",
        "say",
        "saying",
        "shout",
        "think",
        "hint",
        "hints",
        "tip",
        "tips",
        "memo",
        "reminder",
        "remind",
        "focus",
        "problem",
        "mistake",
        "danger",
        "safety",
        "beginners",
        "story",
        "image",
        "comment",
        "remark",
    ];
    let [word, colon, ..] = t else { return false };
    colon.sign(':') && word.span.is_among(text, WORDS)
}

/// "Each line is 6 counts: 1 2 3, 4 5 6." tells of all of them.
fn each_section(text: &str, t: &[Token]) -> bool {
    let each = |t: &Token| t.span.is_among(text, among!["each", "every", "all"]);
    let section =
        |t: &Token| section_word(text, t) || t.span.is_among(text, among!["lines", "rows", "sections"]);
    let t = &t[t.iter().take_while(|t| matches!(t.kind, Kind::Sign(_))).count()..];
    t.first().is_some_and(each)
        && t.iter().skip(1).take(3).any(section)
        && (has(t, W::Count) || t.iter().any(|t| t.kind == Kind::Number(1)))
        && !t.iter().any(|t| matches!(t.kind, Kind::Name(_)) || matches!(t.kind, Kind::W(w) if acts(w)))
}

/// "(Giddy ones: side, behind, side.)", "Non-turners: run forward": a line that begins with the people who may do it,
/// in brackets where they may be anyone.
fn aside(text: &str, line: &Line) -> bool {
    let t = &line.tokens[line.first.min(line.tokens.len())..];
    let closed = t.iter().rev().take(2).any(|t| t.sign(')'));
    let head = t.iter().position(|t| t.sign(':')).map_or(0, |k| k.min(6));
    let no = |t: &Token| t.is(W::No) || t.span.is_among(text, among!["non", "without", "instead"]);
    let turner = |t: &Token| {
        t.is(W::Turn) || t.span.is_among(text, among!["turner", "turners", "spinner", "spinners"])
    };
    if t[..head].windows(2).any(|w| no(&w[0]) && turner(&w[1]))
        || t[..head].windows(3).any(|w| no(&w[0]) && w[1].sign('-') && turner(&w[2]))
    {
        return true;
    }
    let Some(colon) = t.iter().position(|t| t.sign(':')) else { return false };
    let said = |t: &Token| {
        !matches!(t.kind, Kind::Name(_) | Kind::Number(_)) && !matches!(t.kind, Kind::W(w) if acts(w))
    };
    let people = |t: &Token| {
        t.span.is_among(
            text,
            among!["ones", "people", "dancers", "folk", "folks", "those", "anyone", "beginners"],
        )
    };
    t.first().is_some_and(|t| t.sign('('))
        && closed
        && t[..colon].iter().all(said)
        && t[..colon].iter().any(people)
}

/// Whether a wall is spoken of, not only their number: "32 counts, 2 walls, 1 tag".
pub(super) fn names_wall(t: &[Token]) -> bool {
    let number = |t: &Token| matches!(t.kind, Kind::Number(1 | 2 | 4));
    (0..t.len()).any(|k| {
        let how_many = k > 0
            && number(&t[k - 1])
            && !t.get(k + 1).is_some_and(|t| matches!(t.kind, Kind::Number(_)))
            && !(k > 1 && matches!(t[k - 2].kind, Kind::W(W::On | W::After | W::Of | W::And | W::The)));
        t[k].is(W::Wall) && !how_many
    })
}

pub(super) fn acts_at(t: &[Token], k: usize) -> bool {
    matches!(t[k].kind, Kind::W(w) if acts(w)) || matches!(t[k].kind, Kind::Name(_))
}

pub(super) fn newline(line: &Line) -> Token {
    let start = line.span.start as usize;
    Token { kind: Kind::Sign('\n'), span: Span::new(start, start), gap: 2 }
}

/// A line that speaks first of a tag and then of a restart, each with walls of its own.
pub(super) fn split_topics(text: &str, t: &[Token], topic: Topic) -> Vec<(Topic, Vec<Token>)> {
    let t = &t[..ending_named(text, t).unwrap_or(t.len())];
    let other = if topic == Topic::Tag { W::Restart } else { W::Tag };
    // "... a rocking chair. On wall 4 dance 16 counts, then start again": the next sentence is about a restart.
    let stops = |k: &usize| {
        matches!(t[*k].kind, Kind::Sign('.' | ';' | '!')) && t.get(k + 1).is_some_and(|t| t.gap > 0)
    };
    let restarts = |k: &usize| {
        has(&t[..*k], W::Wall) && !starts_again(text, &t[..*k]) && starts_again(text, &t[k + 1..])
    };
    if topic == Topic::Tag
        && let Some(k) = (1..t.len()).filter(stops).find(restarts)
    {
        let (tag, rest) = t.split_at(k);
        return core::iter::once((topic, tag.to_vec()))
            .chain(split_topics(text, &rest[1..], Topic::Restart))
            .collect();
    }
    for i in 1..t.len() {
        // "One tag: ...", "and there is a tag": the sentence begins before the word.
        let small = |t: &Token| {
            matches!(t.kind, Kind::Number(_) | Kind::Unknown | Kind::W(W::The | W::And | W::Two | W::First))
        };
        let cell = t[i].gap == 2;
        let start = if cell { i } else { i - t[..i].iter().rev().take(4).take_while(|t| small(t)).count() };
        let apart = t[i].gap == 2
            || matches!(t[i - 1].kind, Kind::Sign(_))
            || (start > 0 && matches!(t[start - 1].kind, Kind::Sign('.' | ';' | '!')))
            || (start > 0 && start < i && matches!(t[start - 1].kind, Kind::Sign(',' | '/' | '+' | '&')));
        let walls = |t: &[Token]| has(t, W::Wall);
        if t[i].is(other) && apart && walls(&t[i..]) && walls(&t[..i]) {
            let second = if topic == Topic::Tag { Topic::Restart } else { Topic::Tag };
            let (first, rest) = t.split_at(start.max(1));
            let rest = each_wall(text, rest).into_iter().map(|t| (second, t));
            return core::iter::once((topic, first.to_vec())).chain(rest).collect();
        }
    }
    each_wall(text, t).into_iter().map(|t| (topic, t)).collect()
}

/// Whether the first sentence says on which wall the dance begins again: "on wall 4 dance 16 counts and start again".
fn starts_again(text: &str, t: &[Token]) -> bool {
    let end = t.iter().position(|t| matches!(t.kind, Kind::Sign('.' | '!'))).unwrap_or(t.len());
    let t = &t[..end];
    let begins = |k: usize| {
        t[k].span.is_among(text, among!["start", "begin", "starting", "beginning"])
            && t.get(k + 1)
                .is_some_and(|t| t.is(W::Again) || t.is(W::From) || t.span.is_among(text, among!["over"]))
    };
    has(t, W::Wall) && (has(t, W::Restart) || (0..t.len()).any(begins))
}

/// "Restarts W2 and W5. Ending W8", "restart W3, ending on W9": where the words about an ending begin.
fn ending_named(text: &str, t: &[Token]) -> Option<usize> {
    // "TAG (end W2, end W5)": ends of walls, said in one word.
    let again = |k: usize| {
        let word = lower(t[k].span.of(text));
        t[..k].iter().any(|t| t.is(W::End) && lower(t.span.of(text)) == word)
    };
    (2..t.len()).find(|k| {
        let next = t.get(k + 1).is_some_and(|t| t.is(W::Wall) || t.is(W::On) || t.sign(':'));
        t[*k].is(W::End)
            && next
            && matches!(t[k - 1].kind, Kind::Sign('.' | ';' | '|' | ','))
            && has(&t[..*k], W::Wall)
            && !again(*k)
    })
}

/// "Wall 2 after 32 counts, wall 5 after 16 counts": each wall with counts of its own.
fn each_wall(text: &str, t: &[Token]) -> Vec<Vec<Token>> {
    let number = |i: usize| matches!(t.get(i).map(|t| t.kind), Some(Kind::Number(_)));
    let whole = |from: usize, to: usize| {
        let wall = (from..to).any(|i| t[i].is(W::Wall) && (number(i + 1) || i > from && ordinal(&t[i - 1])));
        let counts = (from..to).any(|i| (t[i].is(W::After) || t[i].sign('@')) && number(i + 1))
            || (from + 1..to).any(|i| counts_behind(text, &t[i]) && number(i - 1));
        // "w2 after S1, w5 after S2"
        let led = |i: usize| i > from && (t[i - 1].is(W::After) || t[i - 1].sign('@'));
        let section = (from..to).any(|i| counted_section(text, &t[i]) && number(i + 1) && led(i));
        wall && (counts || section)
    };
    let mut out = Vec::new();
    let mut from = 0;
    for i in 1..t.len() {
        let parts = matches!(t[i].kind, Kind::Sign(',' | ';' | '.' | '/' | '\n') | Kind::W(W::And));
        if parts && whole(from, i) && whole(i + 1, t.len()) {
            out.push(t[from..i].to_vec());
            from = i + 1;
        }
    }
    out.push(t[from..].to_vec());
    out
}

/// Where steps without a verb begin that stand right before a step: "R side, touch".
fn steps_before(t: &[Token], at: usize) -> usize {
    let mut at = at;
    while at > 1 && t[at - 1].sign(',') {
        let parts = |t: &Token| matches!(t.kind, Kind::Sign(':' | '.' | ')' | '-' | ',' | '\n' | '>' | '('));
        let from = t[..at - 1].iter().rposition(parts).map_or(0, |k| k + 1);
        let way = |t: &Token| {
            matches!(
                t.kind,
                Kind::W(
                    W::R | W::L
                        | W::RF
                        | W::LF
                        | W::Side
                        | W::Forward
                        | W::Back
                        | W::Behind
                        | W::Out
                        | W::In
                        | W::To
                        | W::The
                )
            )
        };
        let clause = &t[from..at - 1];
        let told = clause.iter().any(|t| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF)));
        if from == 0 || clause.len() < 2 || !told || !clause.iter().all(way) {
            break;
        }
        at = from;
    }
    at
}

/// Where the counts of steps begin that stand before them: "1,2,3,4 sway".
fn counts_before(t: &[Token], at: usize) -> usize {
    let number = |k: usize| matches!(t.get(k).map(|t| t.kind), Some(Kind::Number(_)));
    let mut at = at;
    while at >= 2 && number(at) && number(at - 2) && matches!(t[at - 1].kind, Kind::Sign(',' | '-')) {
        at -= 2;
    }
    at
}

/// Whether words about a restart end in those for what is danced instead, and the counts go on below.
pub(super) fn changes(text: &str, t: &[Token]) -> bool {
    let says = |t: &Token| {
        t.is(W::Change)
            || t.span
                .is_among(text, among!["become", "becomes", "instead", "replace", "replaced", "replacing"])
    };
    let last = t.iter().rev().find(|t| !t.sign('\n'));
    let in_place = |w: &[Token]| w[0].is(W::In) && w[1].is(W::Place) && w[2].is(W::Of);
    (t.iter().any(says) || t.windows(3).any(in_place))
        && last.is_some_and(|t| t.sign(':') || says(t) || matches!(t.kind, Kind::W(W::With | W::To | W::By)))
}

/// "At the end of wall 3 stomp R, stomp L", "after the 3rd wall do stomp R, ...": the verb right behind a wall.
fn behind_wall(text: &str, t: &[Token], i: usize) -> bool {
    let verb = |k: usize| matches!(t.get(k).map(|t| t.kind), Some(Kind::W(w)) if acts(w) && w != W::Repeat || w == W::Hip);
    // "Do stomp R", "do a right rocking chair"
    let small = |t: &&Token| matches!(t.kind, Kind::W(W::The | W::R | W::L | W::More));
    let danced = || {
        let what = i + 1 + t[i + 1..].iter().take_while(small).count();
        verb(what) || matches!(t.get(what).map(|t| t.kind), Some(Kind::Name(_)))
    };
    let does = t[i].is(W::Make) && t[i].span.of(text).eq_ignore_ascii_case("do") && danced();
    let number = |k: usize| super::super::numbers::value(&t[k]).is_some();
    let listed = |k: &usize| number(*k) || matches!(t[*k].kind, Kind::Sign(',' | '+') | Kind::W(W::And));
    let before = (0..i).rev().find(|k| !listed(k));
    let wall = t[i - 1].is(W::Wall) && i > 1 && ordinal(&t[i - 2])
        || number(i - 1) && before.is_some_and(|k| t[k].is(W::Wall));
    wall && (verb(i) || does)
}

/// "The tag is sway right, sway left": what a tag is or has, right behind the verb.
fn said_to_be(text: &str, t: &[Token], i: usize) -> bool {
    let verb = t[i - 1].span.is_among(text, among!["is", "has", "goes"]);
    let told = || !t[i..].iter().take_while(|t| !t.sign('.')).any(|t| t.is(W::Wall));
    // "The tag after walls 2 and 5 is ..."
    let walled =
        || has(&t[..i], W::Tag) && has(&t[..i], W::Wall) && super::super::numbers::value(&t[i - 2]).is_some();
    verb && i > 1 && (t[i - 2].is(W::Tag) || walled()) && told()
}

/// Where the steps begin in the words about a tag: after a colon, a bracket or a full stop.
pub(super) fn inline_start(text: &str, t: &[Token]) -> Option<usize> {
    for i in 1..t.len() {
        let sign = matches!(t[i - 1].kind, Kind::Sign(':' | '.' | ')' | '-' | ',' | '\n' | '>'));
        // "... after wall 5 facing 6:00" above "R out, L out, ..."
        let foot = |t: &Token| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF));
        let faced = matches!(t[i - 1].kind, Kind::Clock(_)) && foot(&t[i]);
        if !sign && !faced && !behind_wall(text, t, i) && !said_to_be(text, t, i) {
            continue;
        }
        let mut end = i;
        // "Facing the back: sway L" tells where before the colon.
        while end < t.len()
            && !(t[end].sign('.') || t[end].sign(':') && end > i || t[end].sign(',') && end >= i + 2)
        {
            end += 1;
        }
        let clause = &t[i..end];
        let steps = clause.iter().filter(|t| matches!(t.kind, Kind::Name(_) | Kind::Feet | Kind::Fraction(_)) || matches!(t.kind, Kind::W(w) if acts(w) || matches!(w, W::R | W::L | W::RF | W::LF | W::Forward | W::Back | W::Side | W::Behind | W::Beside | W::Heel | W::Toe | W::Hip | W::Knee | W::Out | W::In | W::And))).count();
        let small = |t: &Token| {
            matches!(
                t.kind,
                Kind::Sign(_)
                    | Kind::Number(_)
                    | Kind::Times(_)
                    | Kind::W(
                        W::With
                            | W::Weight
                            | W::To
                            | W::The
                            | W::On
                            | W::Of
                            | W::Then
                            | W::Foot
                            | W::Times
                            | W::For
                            | W::Count
                    )
            ) || super::super::numbers::value(t).is_some()
        };
        let words = clause.iter().filter(|t| !small(t) && !counts_behind(text, t)).count();
        // "Hips R, L" has no other verb.
        let hips = clause.first().is_some_and(|t| t.is(W::Hip))
            && clause.iter().any(|t| matches!(t.kind, Kind::W(W::R | W::L)));
        let verbs = clause
            .iter()
            .filter(|t| matches!(t.kind, Kind::Name(_)) || matches!(t.kind, Kind::W(w) if acts(w)))
            .count()
            + usize::from(hips);
        let structure = clause.iter().any(|t| {
            matches!(t.kind, Kind::W(W::Wall | W::Restart | W::Tag))
                || t.span.of(text).eq_ignore_ascii_case("top")
        });
        // "R out (1), L out (2)" behind a colon
        let bare = (t[i - 1].sign(':') || faced)
            && clause.iter().any(|t| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF)))
            && clause.iter().any(|t| {
                matches!(
                    t.kind,
                    Kind::W(W::Out | W::In | W::Forward | W::Back | W::Side | W::Behind | W::Together)
                )
            });
        if (verbs >= 1 || bare) && steps * 5 >= words * 3 && !structure {
            return Some(counts_before(t, steps_before(t, i)));
        }
    }
    None
}
