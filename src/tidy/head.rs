//! The head of a tidy sheet, and what else the old head said.

use crate::dance::{Dance, PartKind, Weight};
use crate::letters::Letters as _;
use crate::sheet::Sheet;
use crate::text::Span;
use crate::time::Metre;

/// Prints the head fields, each in a line of its own.
pub(super) fn print(out: &mut Vec<String>, dance: &Dance) {
    let head = &dance.head;
    if !head.title.is_empty() {
        out.push(head.title.clone());
    }
    let walls = if head.walls == 1 { "wall" } else { "walls" };
    let mut line = format!("{} counts, {} {walls}", head.counts, head.walls);
    if !head.level.is_empty() {
        line.push_str(", ");
        line.push_str(&head.level);
    }
    out.push(line);
    let main: Vec<&str> =
        dance.parts.iter().filter(|p| p.kind == PartKind::Main).map(|p| p.name.as_str()).collect();
    if main.len() > 1 {
        out.push(format!("Phrased in parts {}", main.join(", ")));
    }
    if head.metre == Metre::Three {
        out.push("Waltz time".into());
    }
    match dance.start {
        Weight::On(foot) => out.push(format!("Begin with the weight on the {} foot", foot.word())),
        Weight::Both => {}
    }
    if let Some(n) = head.tempo {
        out.push(format!("Tempo: {n} bpm"));
    }
    if let Some(n) = head.intro {
        out.push(format!("Intro: {n} counts"));
    }
    if !head.author.is_empty() {
        out.push(format!("Choreographer: {}", plain(&head.author)));
    }
    if !head.music.is_empty() {
        out.push(format!("Music: {}", plain(&head.music)));
    }
}

/// A section's name without the counts that the heading says already.
pub(super) fn section_name(name: &str) -> String {
    let mut name = plain(name);
    // "8 counts: ..."
    if let Some((counts, rest)) = name.split_once(" counts")
        && counts.chars().all(|c| c.is_ascii_digit())
    {
        name = rest.trim_start_matches([':', ' ']).to_string();
    }
    // "9-16 Vine", said already by the label.
    let range = name
        .trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '-' | '–' | '(' | '[' | ')' | ']'));
    if name.len() - range.len() >= 3 && range.starts_with([' ', ':', '.']) {
        name = range.trim_start_matches([' ', ':', '.', '-']).to_string();
    }
    for open in ["(", "["] {
        // "(8 counts)", "(1-8)"
        if let Some(at) = name.rfind(open)
            && name[at..].chars().all(|c| !c.is_alphabetic() || "counts".contains(c.to_ascii_lowercase()))
            && name[at..].chars().any(|c| c.is_ascii_digit())
        {
            name.truncate(at);
        }
    }
    name.trim_end_matches([' ', '-', ':', ',', '.', '(', '[', '|']).to_string()
}

/// Words without ornaments around them and without the word that we put before a remark.
pub(super) fn plain(words: &str) -> String {
    let ornament =
        |c: char| c.is_whitespace() || matches!(c, '*' | '~' | '_' | '=' | '#' | '|' | '•' | '>' | '<');
    let mut out = words.trim_matches(ornament).trim_start_matches(['-', '–', '—', ' ']);
    while let Some(rest) = out.strip_prefix("Note:") {
        out = rest.trim_start();
    }
    out.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Words of the head that only say what the fields say.
const FIELD_WORDS: &[&str] = &[
    "a",
    "an",
    "and",
    "the",
    "of",
    "on",
    "in",
    "for",
    "with",
    "to",
    "by",
    "at",
    "is",
    "it",
    "we",
    "dance",
    "title",
    "name",
    "count",
    "counts",
    "ct",
    "cts",
    "wall",
    "walls",
    "one",
    "two",
    "four",
    "level",
    "grade",
    "absolute",
    "beginner",
    "beginners",
    "high",
    "low",
    "easy",
    "improver",
    "intermediate",
    "advanced",
    "plus",
    "phrased",
    "intro",
    "start",
    "starts",
    "starting",
    "begin",
    "begins",
    "lead",
    "leads",
    "music",
    "song",
    "track",
    "tune",
    "choreographed",
    "choreographer",
    "choreographers",
    "choreo",
    "author",
    "steps",
    "devised",
    "tempo",
    "bpm",
    "beats",
    "beat",
    "minute",
    "length",
    "weight",
    "foot",
    "feet",
    "right",
    "left",
    "r",
    "l",
    "rf",
    "lf",
    "part",
    "parts",
    "b",
    "c",
    "d",
    "wait",
    "first",
    "no",
    "tag",
    "tags",
    "restart",
    "restarts",
    "waltz",
    "time",
    "count-in",
    "lead-in",
    "after",
    "line",
];

/// Lines of the head that say more than the fields.
pub(super) fn leftover(text: &str, sheet: &Sheet, body: u32) -> Vec<String> {
    let h = &sheet.head;
    let mut taken: Vec<Span> = vec![h.title, h.author, h.music];
    taken.extend(sheet.mentions.iter().map(|m| m.span));
    taken.extend(sheet.notes.iter().copied());
    let mut out = Vec::new();
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        let start = at;
        at += line.len();
        if u32::try_from(start).is_ok_and(|s| s >= body) {
            break;
        }
        let mut rest = 0;
        let mut i = 0;
        for word in line.split(|c: char| !(c.is_alphanumeric() || c == '-' || c == '\'')) {
            let here = u32::try_from(start + i).unwrap_or(u32::MAX);
            i += word.len();
            i += line.get(i..).and_then(|l| l.chars().next()).map_or(0, char::len_utf8);
            let inside = taken.iter().any(|s| s.start <= here && here < s.end);
            let known = FIELD_WORDS.contains(&word.small().as_str());
            if !inside && !known && word.chars().any(char::is_alphabetic) {
                rest += 1;
            }
        }
        // The order of the parts is printed by itself.
        let letters = |w: &&str| match w.as_bytes() {
            [one] => matches!(one, b'A'..=b'F'),
            more => more.iter().all(|b| matches!(b, b'A'..=b'C')),
        };
        let order =
            line.split(|c: char| !c.is_alphanumeric()).filter(letters).map(str::len).sum::<usize>() >= 3;
        // A field that is printed anyway, though another line of the head told it first.
        let field = [("Music: ", h.music), ("Choreographer: ", h.author)].iter().any(|(label, words)| {
            let words = plain(words.of(text));
            let said = plain(line);
            !words.is_empty() && said.strip_prefix(label).is_some_and(|rest| rest.starts_with(&words))
        });
        if rest > 1 && !order && !field {
            out.push(plain(line));
        }
    }
    out
}
