//! Ways to spoil a text: by lines, by words, by letters, with words that mean much and with hostile signs.

use crate::chance::Chance;

/// Numbers that readers stumble over.
const NUMBERS: &[&str] = &[
    "0",
    "1",
    "2",
    "3",
    "4",
    "5",
    "6",
    "7",
    "8",
    "9",
    "12",
    "16",
    "32",
    "48",
    "64",
    "99",
    "100",
    "1000",
    "65535",
    "65536",
    "999999999",
    "2147483647",
    "2147483648",
    "4294967295",
    "4294967296",
    "99999999999999999999",
    "1/0",
    "0/1",
    "1/1000000",
    "1000000/4",
    "-1",
    "007",
    "1&2",
    "1-8",
    "8-1",
    "1-999999999",
    "1&2&3&4&5&6&7&8",
    "1.5",
    "½",
    "¾",
    "⅜",
    "12:00",
    "3:00",
    "10:30",
    "13:00",
    "99:99",
    "0:00",
    "360°",
    "1e9",
];

/// Words that steer the reading.
const WORDS: &[&str] = &[
    "tag",
    "restart",
    "ending",
    "repeat",
    "bridge",
    "section",
    "part A",
    "part B",
    "wall",
    "walls",
    "count",
    "counts",
    "start again",
    "after",
    "during",
    "facing",
    "intro",
    "option",
    "or",
    "x2",
    "x999",
    "times",
    "hold",
    "&",
    "e",
    "a",
    "R",
    "L",
    "both",
    "weight on left",
    "(weight on R)",
    "no weight",
    "turn",
    "pivot",
    "1/2",
    "1/4 L",
    "full turn",
    "unwind",
    "vine",
    "coaster",
    "sailor",
    "shuffle",
    "jazz box",
    "rock",
    "recover",
    "step",
    "touch",
    "cross",
    "behind",
    "side",
    "together",
    "mambo",
    "heel",
    "toe",
    "kick",
    "hitch",
    "(allow walls-differ)",
    "(allow",
    "mirror",
    "same",
    "above",
    "swivel",
    "monterey",
    "jump",
    "stomp",
    "stomp up",
    "bump",
    "sway",
    "Harbour step:",
    "=",
    "A B A B",
    "A16",
    "sequence:",
];

/// Signs and bits of markup that nobody means on a sheet.
const SIGNS: &[&str] = &[
    "\0",
    "\u{feff}",
    "\u{200f}",
    "\u{202e}",
    "\u{301}",
    "\u{1f57a}",
    "\u{a0}",
    "\u{2028}",
    "\t",
    "\r",
    "\r\n",
    "\n\n\n",
    "|",
    "||",
    "(((((",
    ")))))",
    "[",
    "]",
    "{",
    "}",
    "\"",
    "'",
    "’",
    "–",
    "—",
    "…",
    ",",
    ";",
    ":",
    "::",
    ".",
    "/",
    "\\",
    "<script>alert(1)</script>",
    "&lt;b&gt;",
    "&amp;",
    "&#0;",
    "]]>",
    "--> ",
    "<!--",
    "\" onload=\"x",
    "NOTE ",
    "+",
    "*",
    "#",
    "%",
    "é",
    "ß",
    "ı",
    "ﬀ",
    "\u{fffe}",
    "𝟙",
    "１",
    "٣",
    "Ⅳ",
    "²",
];

/// A text changed in one to six places, with words and lines of another.
#[must_use]
pub fn changed(text: &str, other: &str, chance: &mut Chance) -> String {
    let mut out = text.to_owned();
    for _ in 0..=chance.below(6) {
        out = once(&out, other, chance);
    }
    out
}

fn once(text: &str, other: &str, chance: &mut Chance) -> String {
    match chance.below(16) {
        0..=3 => lines(text, other, chance),
        4..=10 => words(text, other, chance),
        11 => cut(text, chance),
        12 => insert(text, chance, SIGNS),
        13 => insert(text, chance, NUMBERS),
        14 => insert(text, chance, WORDS),
        _ => letters(text, chance),
    }
}

fn lines(text: &str, other: &str, chance: &mut Chance) -> String {
    let mut all: Vec<&str> = text.split('\n').collect();
    let theirs: Vec<&str> = other.split('\n').collect();
    let at = chance.below(all.len());
    let there = chance.below(all.len());
    match chance.below(8) {
        0 => drop(all.remove(at)),
        1 => all.insert(there, all[at]),
        2 => all.swap(at, there),
        3 => all.insert(at, chance.one(&theirs).copied().unwrap_or_default()),
        4 => all.insert(at, ""),
        5 => {
            // A stretch of the other sheet in the place of one of this.
            let from = chance.below(theirs.len());
            let to = (from + 1 + chance.below(12)).min(theirs.len());
            let end = (at + chance.below(12)).min(all.len());
            all.splice(at..end, theirs[from..to].iter().copied());
        }
        6 => {
            // The same stretch several times over.
            let end = (at + 1 + chance.below(6)).min(all.len());
            let stretch = all[at..end].repeat(1 + chance.below(3));
            all.splice(at..at, stretch);
        }
        _ => {
            let joined = all[at..(at + 2).min(all.len())].join(" ");
            let end = (at + 2).min(all.len());
            let mut out = all[..at].join("\n");
            out.push('\n');
            out.push_str(&joined);
            out.push('\n');
            out.push_str(&all[end..].join("\n"));
            return out;
        }
    }
    all.join("\n")
}

/// Stretches of letters and digits, and single signs, with what stands between.
fn pieces(text: &str) -> Vec<&str> {
    let mut out = Vec::new();
    let mut from = 0;
    let mut before = None;
    for (at, c) in text.char_indices() {
        let kind = if c.is_alphabetic() {
            0
        } else if c.is_numeric() || c == '/' || c == ':' {
            1
        } else if c == ' ' {
            2
        } else {
            3
        };
        if before.is_some_and(|b| b != kind || kind == 3) {
            out.push(&text[from..at]);
            from = at;
        }
        before = Some(kind);
    }
    out.push(&text[from..]);
    out
}

fn words(text: &str, other: &str, chance: &mut Chance) -> String {
    let mut all = pieces(text);
    let at = chance.below(all.len());
    // Not a blank, if the next is a word.
    let at = if all[at].trim().is_empty() { (at + 1).min(all.len() - 1) } else { at };
    let there = chance.below(all.len());
    match chance.below(9) {
        0 => drop(all.remove(at)),
        1 => all.insert(at, all[at]),
        2 => all.swap(at, there),
        3 => all[at] = chance.one(WORDS).copied().unwrap_or_default(),
        4 => all[at] = chance.one(NUMBERS).copied().unwrap_or_default(),
        5 | 6 => {
            let theirs = pieces(other);
            let taken = chance.one(&theirs).copied().unwrap_or_default().to_owned();
            let mut own: Vec<String> = all.iter().map(|p| (*p).to_owned()).collect();
            own[at] = taken;
            return own.concat();
        }
        7 => all[at] = all[there],
        _ => {
            // Another side, foot or direction, as a writer slips.
            const PAIRS: &[(&str, &str)] = &[
                ("R", "L"),
                ("L", "R"),
                ("right", "left"),
                ("left", "right"),
                ("forward", "back"),
                ("back", "forward"),
                ("step", "touch"),
                ("touch", "step"),
                ("1/4", "1/2"),
                ("1/2", "1/4"),
            ];
            let found = (at..all.len()).chain(0..at).find_map(|i| {
                PAIRS.iter().find(|(a, _)| a.eq_ignore_ascii_case(all[i])).map(|(_, b)| (i, *b))
            });
            if let Some((i, word)) = found {
                all[i] = word;
            }
        }
    }
    all.concat()
}

/// The nearest border of a character at or before a byte.
fn border(text: &str, mut at: usize) -> usize {
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

fn cut(text: &str, chance: &mut Chance) -> String {
    let a = border(text, chance.below(text.len() + 1));
    let b = border(text, chance.below(text.len() + 1));
    match chance.below(3) {
        0 => text[..a].to_owned(),
        1 => text[a..].to_owned(),
        _ => format!("{}{}", &text[..a.min(b)], &text[a.max(b)..]),
    }
}

fn insert(text: &str, chance: &mut Chance, things: &[&str]) -> String {
    let at = border(text, chance.below(text.len() + 1));
    let thing = chance.one(things).copied().unwrap_or_default();
    let space = if chance.below(2) == 0 { " " } else { "" };
    format!("{}{space}{thing}{space}{}", &text[..at], &text[at..])
}

fn letters(text: &str, chance: &mut Chance) -> String {
    let mut all: Vec<char> = text.chars().collect();
    if all.is_empty() {
        return String::from("1 step R");
    }
    let at = chance.below(all.len());
    match chance.below(5) {
        0 => drop(all.remove(at)),
        1 => all.insert(at, all[at]),
        2 if at + 1 < all.len() => all.swap(at, at + 1),
        3 => all[at] = all[at].to_uppercase().next().unwrap_or('X'),
        _ => all[at] = char::from(b' ' + u8::try_from(chance.below(95)).unwrap_or(0)),
    }
    all.into_iter().collect()
}
