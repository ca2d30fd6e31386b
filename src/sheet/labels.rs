//! Labels of sections: `Section 2:`, `S1`, `[9-16]`, `B.`, `(iv)`, `-- one --`, `2nd 8 ..`, `Counts 9 to 16:`.

use super::classes;
use super::counts::{counts_behind, mark};
use super::lines::{Line, packed};
use super::ranges::{any_range, letter_range, range, range_in_words, told_range};
use super::vocabulary::W;
use super::words::{Kind, Token};
use crate::text::{Among, among, is_among, lower};

/// What stands at the beginning of a heading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Label {
    /// One past its last token.
    pub to: usize,
    /// The section's number, where it has one.
    pub number: Option<u32>,
    /// First and last count, where it gives them.
    pub range: Option<(i32, i32)>,
    /// A word such as "section" or a range leaves no doubt; a bare number or letter may be something else.
    pub certain: bool,
    /// The letter of a part, as in "Part A".
    pub letter: Option<char>,
    /// Whether the word "part" was used.
    pub part: bool,
}

/// A Roman numeral.
pub(super) fn roman(word: &str) -> Option<u32> {
    const NUMBERS: [&str; 16] = [
        "i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii", "xiii", "xiv", "xv", "xvi",
    ];
    if word.len() > 4 || !word.starts_with(['i', 'v', 'x', 'I', 'V', 'X']) {
        return None;
    }
    NUMBERS.iter().position(|n| n.eq_ignore_ascii_case(word)).and_then(|n| u32::try_from(n + 1).ok())
}

/// The number of an ordinal; the last one counts as 99.
pub(super) fn ordinal(t: &Token) -> Option<u32> {
    let Kind::W(w) = t.kind else { return None };
    if w == W::Last { Some(99) } else { classes::ordinal(w) }
}

/// The same for a word that places an eight as well: "the opening eight", "the closing eight".
pub(super) fn placed(text: &str, t: &Token) -> Option<u32> {
    ordinal(t).or_else(|| match t.span.of(text) {
        word if is_among(word, among!["opening", "initial"]) => Some(1),
        word if is_among(word, among!["closing", "concluding"]) => Some(99),
        _ => None,
    })
}

pub(super) fn cardinal(text: &str, t: &Token) -> Option<u32> {
    match t.kind {
        Kind::Number(n) => Some(n),
        Kind::W(w) => match w {
            W::The if t.span.of(text).eq_ignore_ascii_case("one") => Some(1),
            _ => classes::cardinal(w).or_else(|| roman(t.span.of(text))),
        },
        _ => roman(t.span.of(text)).or_else(|| spelled(t.span.of(text))),
    }
}

/// Numbers that only headings have, and those of neighbours' languages.
fn spelled(word: &str) -> Option<u32> {
    const WORDS: &[(&str, u32)] = &[
        ("thirteen", 13),
        ("fourteen", 14),
        ("fifteen", 15),
        ("uno", 1),
        ("dos", 2),
        ("tres", 3),
        ("cuatro", 4),
        ("eins", 1),
        ("zwei", 2),
        ("drei", 3),
        ("vier", 4),
        ("deux", 2),
        ("trois", 3),
        ("quatre", 4),
        ("een", 1),
        ("twee", 2),
        ("drie", 3),
    ];
    WORDS.iter().find(|(w, _)| w.eq_ignore_ascii_case(word)).map(|(_, n)| *n)
}

/// One past a title between two equal signs at the beginning of a line that goes on with steps.
fn framed_title(t: &[Token], first: usize) -> Option<usize> {
    let Kind::Sign(sign @ ('*' | '=' | '~' | '_' | '-' | '#')) = t.get(first.checked_sub(1)?)?.kind else {
        return None;
    };
    let close =
        (first + 1..t.len().min(first + 9)).find(|i| t[*i].sign(sign) && (t[*i].gap > 0 || sign != '-'))?;
    let title = &t[first..close];
    let plain =
        |t: &Token| !matches!(t.kind, Kind::Number(_) | Kind::Clock(_) | Kind::Sign('(' | ')' | '.' | ','));
    let apart = t.get(close + 1).is_some_and(|t| t.gap == 2);
    (apart && title.iter().all(plain)).then_some(close + 1)
}

/// What writers call a section in words that mean nothing else in a sheet.
const PIECES: &Among = among!["bit", "chunk", "movement", "paragraph", "passage", "piece", "stage", "stanza"];

/// What writers call a section in words that may mean something else, and in other languages.
const SECTIONS: &Among = among![
    "set",
    "sets",
    "block",
    "blok",
    "section:",
    "seccion",
    "sektion",
    "sektie",
    "sezione",
    "sekt",
    "teil",
    "deel",
    "del",
    "bloc",
    "bloque",
    "group",
    "eight",
    "eights",
    "bar",
    "bars",
    "measure",
    "line",
    "page",
    "row",
    "figure",
    "round",
    "chorus",
    "abschnitt",
    "pattern",
    "runde",
    "parte",
    "partie",
    "czesc",
    "osmica",
];

/// Whether a word is a piece, in the singular or the plural.
pub(super) fn piece_word(word: &str) -> bool {
    is_among(word.strip_suffix('s').unwrap_or(word), PIECES)
}

pub(super) fn section_word(text: &str, t: &Token) -> bool {
    let word = t.span.of(text);
    t.is(W::Section) || t.is(W::Set) || is_among(word, SECTIONS) || is_among(word, PIECES)
}

/// "For the first 8 counts", "for the 8 counts after", "in the third eight": the number, and where it ends.
fn spoken(text: &str, t: &[Token], i: usize) -> Option<(Option<u32>, usize)> {
    if !matches!(t.get(i)?.kind, Kind::W(W::For | W::In | W::On)) || !t.get(i + 1)?.is(W::The) {
        return None;
    }
    let mut at = i + 2;
    let mut number = None;
    let said = t.get(at)?;
    let word = lower(said.span.of(text));
    if placed(text, said).is_some() || said.is(W::Beside) || matches!(word.as_str(), "following" | "second") {
        number = placed(text, said);
        at += 1;
    }
    let eight = matches!(t.get(at)?.kind, Kind::Number(6 | 8 | 12 | 16) | Kind::W(W::Eight | W::Six));
    // "For the fourth piece"; a round or a chorus is a repetition.
    let piece = || {
        let repetition = t[at].span.is_among(text, among!["round", "chorus"]);
        number.is_some() && section_word(text, &t[at]) && !repetition
    };
    if !eight && !piece() {
        return None;
    }
    at += 1;
    let counted = t.get(at).is_some_and(|t| t.is(W::Count));
    at += usize::from(counted);
    at += usize::from(t.get(at).is_some_and(|t| t.is(W::After)));
    // "For the eight of us" is no label.
    let over = t.get(at).is_none_or(|t| matches!(t.kind, Kind::Sign(',' | ':' | '.')));
    if over || counted {
        return Some((number, at));
    }
    // "In the third eight we rock forward and recover ..."
    let verbs = t[at..].iter().filter(|t| matches!(t.kind, Kind::W(w) if super::words::acts(w)));
    if number.is_some() && verbs.take(2).count() == 2 {
        return Some((number, at));
    }
    // "In the third eight we travel."
    let stop = (at..t.len().min(at + 6)).find(|k| t[*k].sign('.'))?;
    number.map(|_| (number, stop))
}

/// Whether counts of the sheet are swung, `1a2`, so that `a7` is no label.
fn swung(text: &str) -> bool {
    text.as_bytes().windows(3).any(|w| w[0].is_ascii_digit() && w[1] == b'a' && w[2] == w[0] + 1)
}

/// The label of a line, if it has one.
#[must_use]
pub(super) fn label(text: &str, line: &Line) -> Option<Label> {
    let t = &line.tokens;
    let mut i = line.first;
    let open = t.get(i).is_some_and(|t| matches!(t.kind, Kind::Sign('(' | '[' | '{')));
    if open {
        i += 1;
    }
    if t.get(i).is_some_and(|t| t.span.of(text).eq_ignore_ascii_case("the"))
        && t.get(i + 1).and_then(|t| placed(text, t)).is_some()
    {
        i += 1;
    }
    // "OK first eight", "and now the last eight"
    let lead = |k: usize| {
        t.get(k).is_some_and(|t| {
            matches!(t.kind, Kind::W(W::And | W::Then))
                || t.span.is_among(
                    text,
                    among![
                        "ok", "okay", "now", "so", "next", "the", "well", "in", "what", "happens", "teach",
                        "learn", "add", "show"
                    ],
                )
        })
    };
    let led = (i..i + 5).take_while(|k| lead(*k)).count();
    // "Teach block A", "now section 2"
    let named = |k: usize| {
        t.get(k).is_some_and(|t| section_word(text, t))
            && t.get(k + 1).is_some_and(|t| {
                matches!(t.kind, Kind::Number(_)) || matches!(t.span.of(text).as_bytes(), [b'A'..=b'H'])
            })
    };
    if led > 0
        && (t.get(i + led).and_then(|t| placed(text, t)).is_some()
            && t.get(i + led + 1).is_some_and(|t| section_word(text, t))
            || named(i + led))
    {
        i += led;
    }
    let first = t.get(i)?;
    let close = |mut to: usize| {
        while t.get(to).is_some_and(|t| {
            matches!(
                t.kind,
                Kind::Sign(
                    ':' | '.' | '-' | '=' | ')' | ']' | '}' | ';' | ',' | '*' | '_' | '>' | '~' | '/' | '#'
                )
            )
        }) {
            to += 1;
        }
        to
    };
    let made = |to: usize, number, range, certain| {
        Some(Label { to: close(to), number, range, certain, letter: None, part: false })
    };

    // "The next 8 counts are rocks and walks."
    let next = |k: usize| t.get(k).is_some_and(|t| t.span.is_among(text, among!["next", "following"]));
    if line.after_gap
        && first.is(W::The)
        && next(i + 1)
        && matches!(t.get(i + 2).map(|t| t.kind), Some(Kind::Number(6 | 8) | Kind::W(W::Eight | W::Six)))
    {
        let counted = t.get(i + 3).is_some_and(|t| t.is(W::Count));
        return made(i + 3 + usize::from(counted), None, None, true);
    }
    // "For the next 8 counts,", "In the third eight we travel."
    if let Some((number, to)) = spoken(text, t, i) {
        return made(to, number, None, true);
    }
    // "Counts 9 to 16:", "Count 1-8", "Steps 1-8:"
    if (first.is(W::Count) || first.span.of(text).eq_ignore_ascii_case("steps"))
        && let Some((a, b, to)) = range(t, i + 1)
        && b - a >= 5
    {
        return made(to, None, Some((a, b)), true);
    }
    // "[9-16]", "(1-8)", "1-8" alone or before a heading.
    if let Some((a, b, to)) = if open { any_range(t, i) } else { range(t, i) } {
        let closed = t.get(to).is_some_and(|t| matches!(t.kind, Kind::Sign(')' | ']')));
        // "(1-4) Walk ... (5-6) Rock ...": rows of one paragraph.
        let next = u32::try_from(b + 1).map(Kind::Number);
        let row = |w: &[Token]| matches!(w[0].kind, Kind::Sign('(' | '[')) && Ok(w[1].kind) == next;
        if open && b - a < 5 && t[to..].windows(2).any(row) {
            return None;
        }
        if (open && closed) || to >= t.len() {
            return made(to, None, Some((a, b)), true);
        }
        return None;
    }
    // "[one to eight]"
    if let Some((a, b, to)) = range_in_words(text, t, i)
        && (open && t.get(to).is_some_and(|t| matches!(t.kind, Kind::Sign(')' | ']'))) || to >= t.len())
    {
        return made(to, None, Some((a, b)), true);
    }
    // "Section 1", "S1", "Set 2", "Part B", "Sec. 3", "BLOK 1", "Section one"
    let lone_eight =
        first.is(W::Eight) && t.get(i + 1).is_none_or(|t| matches!(t.kind, Kind::Sign(c) if c != '#'));
    if section_word(text, first) && !matches!(first.kind, Kind::Number(_)) && !lone_eight {
        let mut to = i + 1;
        while t.get(to).is_some_and(|t| {
            matches!(t.kind, Kind::Sign('.' | '#' | ':' | '-')) && t.gap == 0 || t.sign('#') && t.gap == 1
        }) {
            to += 1;
        }
        // "Paragraph the First"
        if t.get(to).is_some_and(|t| t.span.of(text).eq_ignore_ascii_case("the"))
            && t.get(to + 1).and_then(ordinal).is_some()
        {
            to += 1;
        }
        // "Eight number two", "Section no. 3"
        if t.get(to).is_some_and(|t| t.span.is_among(text, among!["number", "no", "nr", "num"]))
            && to == i + 1
        {
            to += 1 + usize::from(t.get(to + 1).is_some_and(|t| t.sign('.')));
        }
        let next = t.get(to)?;
        if let Some(n) = cardinal(text, next).or_else(|| ordinal(next)) {
            let mut to = to + 1;
            // "Bars 1 and 2", "Bars 1-2"
            if t.get(to).is_some_and(|t| t.is(W::And) || t.sign('-') || t.is(W::To))
                && t.get(to + 1).and_then(|t| cardinal(text, t)) == Some(n + 1)
            {
                to += 2;
            }
            // "Section 1 (1-8)", "Section 1: counts 1-8"
            let mut j = close(to);
            if t.get(j).is_some_and(|t| matches!(t.kind, Kind::Sign('(' | '['))) {
                j += 1;
            }
            if t.get(j).is_some_and(|t| t.is(W::Count)) {
                j += 1;
            }
            let mut found = None;
            // "Paragraph the Fifth, the odd four (33 to 36)."
            if let Some((range, end)) = told_range(t, to) {
                return made(end, Some(n), Some(range), true);
            }
            // A number from a column of its own has the counts of its first line beside it.
            // "row 1   1-4 R side ...   5-8 L side ...": the first half of it.
            let goes_on = |end: usize, b: i32| {
                let next = u32::try_from(b + 1).map(Kind::Number);
                t[end..].iter().any(|t| Ok(t.kind) == next)
            };
            if !first.span.is_empty()
                && let Some((a, b, end)) = range(t, j)
                && !goes_on(end, b)
            {
                found = Some((a, b));
                to = end;
            } else if let Some((a, b, end)) = range_in_words(text, t, j)
                && t.get(end).is_none_or(|t| matches!(t.kind, Kind::Sign(_)))
            {
                found = Some((a, b));
                to = end;
            }
            return made(to, Some(n), found, true);
        }
        let word = next.span.of(text);
        if word.len() == 1 && word.chars().all(|c| c.is_ascii_uppercase()) {
            return Some(Label {
                to: close(to + 1),
                number: None,
                range: None,
                certain: true,
                letter: word.chars().next(),
                part: first.is(W::Set),
            });
        }
        return None;
    }
    let word = first.span.of(text);
    // "A(1-8)", "B 9-16:", "C [1-8]"
    if let Some(letter) = word.chars().next().filter(|c| word.len() == 1 && ('A'..='F').contains(c))
        && let Some((range, to)) = letter_range(t, i + 1)
    {
        let to = close(to);
        return Some(Label {
            to,
            number: None,
            range: Some(range),
            certain: true,
            letter: Some(letter),
            part: false,
        });
    }
    // "S1", "A1": a letter glued to a number.
    if word.chars().count() == 1
        && word.chars().all(char::is_alphabetic)
        && let Some(Kind::Number(n)) = t.get(i + 1).map(|t| t.kind)
        && (t[i + 1].gap == 0 || word.eq_ignore_ascii_case("s"))
        && n < 40
        && !word.eq_ignore_ascii_case("w")
        && !t.get(i + 2).is_some_and(|t| t.is(W::And) && t.gap == 0)
        && !matches!(word, "a" | "e" if mark(text, t, i, t.len()).is_some_and(|m| m.ticks.len() >= 3 || swung(text)))
    {
        let letter = word.chars().next().filter(|c| !c.eq_ignore_ascii_case(&'s'));
        return Some(Label {
            to: close(i + 2),
            number: Some(n),
            range: None,
            certain: true,
            letter,
            part: false,
        });
    }
    // "2nd 8", "First eight", "last 8", "third section"
    if let Some(n) = placed(text, first)
        && let Some(next) = t.get(i + 1)
        && (section_word(text, next)
            || next.is(W::Eight)
            || matches!(next.kind, Kind::Number(6 | 8 | 12 | 16))
            || n == 99 && matches!(next.kind, Kind::Number(4))
            || matches!(next.kind, Kind::W(W::Six | W::Twelve | W::Sixteen))
            || matches!(next.kind, Kind::W(W::Set)))
    {
        let extra = usize::from(t.get(i + 2).is_some_and(|t| t.is(W::Count)));
        return made(i + 2 + extra, Some(n), None, true);
    }
    // "next 8", "then 8:"
    if (next(i) || first.is(W::Then))
        && t.get(i + 1).is_some_and(|t| t.is(W::Eight) || matches!(t.kind, Kind::Number(4 | 6 | 8)))
        && t.get(i + 2).is_none_or(|t| t.is(W::Count) || t.sign(':'))
        && t.len() <= i + 4
    {
        return made(i + 2 + usize::from(t.get(i + 2).is_some_and(|t| t.is(W::Count))), None, None, true);
    }
    // "first half: side touches"
    if let Some(n) = ordinal(first).filter(|n| *n <= 2)
        && t.get(i + 1).is_some_and(|t| t.is(W::Half))
        && t.get(i + 2).is_none_or(|t| matches!(t.kind, Kind::Sign(':' | '-' | '.' | '(')))
    {
        return made(i + 2, Some(n), None, true);
    }
    // "1ª parte", "2e partie"
    if let Kind::Number(n @ 1..=24) = first.kind
        && t.get(i + 1).is_some_and(|t| {
            t.gap == 0 && (t.sign('°') || matches!(t.span.of(text), "ª" | "a" | "e" | "er" | "."))
        })
        && t.get(i + 2).is_some_and(|t| section_word(text, t) && !t.is(W::Eight))
    {
        return made(i + 3, Some(n), None, true);
    }
    // "TWO", "THREE, the diamond"
    let capital = word.len() > 1 && word.chars().all(char::is_uppercase);
    let apart =
        t.get(i + 1).is_none_or(|t| matches!(t.kind, Kind::Sign(',' | ':' | '.' | '-' | ')' | ']' | '(')));
    if let Some(n) = cardinal(text, first)
        && !matches!(first.kind, Kind::Number(_))
        && roman(word).is_none()
        && apart
        && (capital || t.len() <= i + 2)
    {
        return made(i + 1, Some(n), None, true);
    }
    // "(i)", "IV.", "3)", "2:", "B."
    let end_sign = t.get(i + 1).map(|t| t.kind);
    // "P.S. Bring water": a letter glued to the full stop of another one is an abbreviation.
    let initials = matches!(end_sign, Some(Kind::Sign('.')))
        && word.chars().count() == 1
        && t.get(i + 2).is_some_and(|t| {
            let next = t.span.of(text);
            t.gap == 0 && next.chars().all(char::is_alphabetic) && roman(next).is_none()
        });
    // "K-step" is a figure.
    let joined = matches!(end_sign, Some(Kind::Sign('-')))
        && t[i + 1].gap == 0
        && t.get(i + 2).is_some_and(|t| t.gap == 0 && t.span.of(text).starts_with(char::is_alphabetic))
        && !matches!(first.kind, Kind::Number(_));
    let closed =
        matches!(end_sign, Some(Kind::Sign(')' | '.' | ':' | ']' | '-' | '}'))) && !initials && !joined;
    // "A.1", "B-2", "A.III": a part and the number of its section.
    let numbered = t.get(i + 2).filter(|_| matches!(end_sign, Some(Kind::Sign('.' | '-' | '/'))));
    if word.len() == 1
        && word.chars().all(|c| ('A'..='F').contains(&c))
        && t.get(i + 1).is_some_and(|t| t.gap == 0)
        && let Some(n) = numbered.filter(|t| t.gap == 0).and_then(|t| match t.kind {
            Kind::Number(n) => Some(n),
            _ => roman(t.span.of(text)),
        })
        && n < 20
        && t.get(i + 3).is_none_or(|t| t.gap > 0 || matches!(t.kind, Kind::Sign(':' | '.' | ')' | ']')))
    {
        return Some(Label {
            to: close(i + 3),
            number: Some(n),
            range: None,
            certain: true,
            letter: word.chars().next(),
            part: false,
        });
    }
    // "<1>", and "-1-", "=1=", "~1~" before a wide gap.
    let framed = i > 0
        && match t[i - 1].kind {
            Kind::Sign('<') => matches!(end_sign, Some(Kind::Sign('>'))),
            Kind::Sign('-' | '=' | '~' | '*' | '/') => {
                let counted = |t: &Token| t.kind == Kind::Number(1) && t.gap > 0;
                let next = t.get(close(i + 1));
                end_sign == Some(t[i - 1].kind) && next.is_none_or(|t| t.gap == 2 || counted(t))
            }
            _ => false,
        };
    if let Kind::Number(n) = first.kind
        && n < 40
        && framed
    {
        return made(i + 1, Some(n), None, true);
    }
    let wide = t.get(i + 1).is_some_and(|t| t.gap == 2) || i + 1 >= t.len();
    if let Some(n) = roman(word)
        && (closed || wide)
        && (word.chars().all(char::is_uppercase) || open)
    {
        return made(i + 1, Some(n), None, true);
    }
    if let Kind::Number(n) = first.kind
        && i > 0
        && t[i - 1].sign('#')
        && first.gap == 0
    {
        return made(i + 1, Some(n), None, true);
    }
    // "1.2. Skate R, skate L" gives counts.
    let row = matches!(end_sign, Some(Kind::Sign('.' | ',' | '/')))
        && t.get(i + 2).is_some_and(|t| t.gap == 0 && (matches!(t.kind, Kind::Number(_)) || t.is(W::And)));
    // "One: step right" beside others of its kind is a count.
    if let Kind::Number(n) = first.kind
        && n < 40
        && first.span.of(text).starts_with(|c: char| c.is_ascii_digit() || !c.is_ascii())
        && !row
        && packed(text, t, i, line.packed).is_none()
        && (closed || (wide && i + 1 < t.len()))
        && !matches!(end_sign, Some(Kind::Sign('-')))
    {
        return made(i + 1, Some(n), None, false);
    }
    let capital = word.len() == 1 && word.chars().all(|c| c.is_ascii_uppercase() && !matches!(c, 'R' | 'L'));
    if capital && closed {
        return Some(Label {
            to: close(i + 1),
            number: None,
            range: None,
            certain: true,
            letter: word.chars().next(),
            part: false,
        });
    }
    // "A (16 counts)", "A (16)"
    if capital
        && t.get(i + 1).is_some_and(|t| matches!(t.kind, Kind::Sign('(' | '[')))
        && matches!(t.get(i + 2).map(|t| t.kind), Some(Kind::Number(4..=96)))
        && t.get(i + 3).is_some_and(|t| counts_behind(text, t) || matches!(t.kind, Kind::Sign(')' | ']')))
    {
        return Some(Label {
            to: i + 1,
            number: None,
            range: None,
            certain: true,
            letter: word.chars().next(),
            part: false,
        });
    }
    // "* Struts & chair *  Toe strut R", "== BOX ==  Side R"
    if let Some(to) = framed_title(t, line.first) {
        return made(to, None, None, true);
    }
    // "2 --------------"
    let ruled = |t: &[Token]| {
        t.len() >= 3 && t.iter().all(|t| matches!(t.kind, Kind::Sign('-' | '=' | '_' | '*' | '.' | '~')))
    };
    if let Kind::Number(n) = first.kind
        && n < 40
        && ruled(&t[i + 1..])
    {
        return made(i + 1, Some(n), None, true);
    }
    // "-- one --"
    if line.first > 0
        && t.len() <= line.first + 4
        && let Some(n) = cardinal(text, first)
        && !matches!(first.kind, Kind::Number(_))
        && matches!(t.last().map(|t| t.kind), Some(Kind::Sign(_)))
    {
        return made(i + 1, Some(n), None, true);
    }
    None
}
