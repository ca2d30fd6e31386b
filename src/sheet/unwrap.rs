//! Paragraphs that were broken into lines of a certain width, put together again.
//!
//! A page or a mail breaks a paragraph where the next word would not have fitted. Such a break says nothing, while
//! the end of a line that a writer chose parts steps. Widths tell the two apart.

use core::ops::Range;

/// Lines shorter than this are ended on purpose.
const NARROW: usize = 60;
/// Two lines alone are a paragraph only where the first is as long as this.
const PAIR: usize = 66;
/// Lines shorter than this are no sentences.
const SHORT: usize = 45;
/// How far a break may lie before the widest line of its paragraph, for words that a writer broke by hand.
const SLACK: usize = 8;

/// The bytes of each line, where lines that only were too long for the page are one.
pub(super) fn lines(text: &str, raw: &[Range<usize>]) -> Vec<Range<usize>> {
    let sentences = sentences(text, raw);
    let mut out: Vec<Range<usize>> = Vec::with_capacity(raw.len());
    let mut i = 0;
    while i < raw.len() {
        let mut end = hanging(text, raw, i);
        if end > i + 1 {
            out.push(raw[i].start..raw[end - 1].end);
            i = end;
            continue;
        }
        // "... 4 cross right, 5 quarter turn right" above "and left back, 6 together": a row of counts goes on, too.
        let row = |end: usize| {
            let next = raw.get(end).map_or("", |r| &text[r.clone()]);
            counted_row(&text[raw[i].clone()]) && ended_amid(&text[raw[end - 1].clone()]) && small(next)
        };
        while row(end) {
            end += 1;
        }
        if end > i + 1 {
            out.push(raw[i].start..raw[end - 1].end);
            i = end;
            continue;
        }
        if begins(&text[raw[i].clone()]) {
            while end < raw.len() && goes_on(&text[raw[end - 1].clone()], &text[raw[end].clone()]) {
                end += 1;
            }
        }
        // What follows must not go on with the same sentence in another layout.
        let over = raw.get(end).is_none_or(|r| !text[r.clone()].starts_with(char::is_lowercase));
        if over {
            paragraphs(text, &raw[i..end], sentences, &mut out);
        } else {
            out.extend(raw[i..end].iter().cloned());
        }
        i = end;
    }
    out
}

/// Whether whoever wrote it begins with capital letters: no block of lines begins with a small one.
fn sentences(text: &str, raw: &[Range<usize>]) -> bool {
    let blank = |k: usize| text[raw[k].clone()].trim().is_empty();
    let first = |k: usize| !blank(k) && (k == 0 || blank(k - 1));
    !(0..raw.len()).any(|k| first(k) && text[raw[k].clone()].trim_start().starts_with(char::is_lowercase))
}

/// The bytes of each line as written.
pub(super) fn raw(text: &str) -> Vec<Range<usize>> {
    let bytes = text.as_bytes();
    let mut out = Vec::new();
    let mut at = 0;
    while at <= text.len() {
        let end = bytes[at..].iter().position(|b| matches!(b, b'\n' | b'\r')).map_or(text.len(), |n| at + n);
        out.push(at..end);
        if end >= text.len() {
            break;
        }
        at = if bytes[end] == b'\r' && bytes.get(end + 1) == Some(&b'\n') { end + 2 } else { end + 1 };
    }
    out
}

fn width(line: &str) -> usize {
    line.trim_end().chars().count()
}

/// Words with which a line of its own begins in a sheet without capitals.
const LABELS: &[&str] = &[
    "restart:",
    "tag:",
    "tags:",
    "restarts:",
    "ending:",
    "intro:",
    "note:",
    "notes:",
    "option:",
    "song:",
    "music:",
    "track:",
    "level:",
    "walls:",
    "wall:",
    "start:",
    "starts:",
    "lead:",
    "steps:",
    "choreo:",
    "section:",
    "part:",
];

/// Whether a line has columns, dots that lead the eye, or a rule.
fn laid_out(line: &str) -> bool {
    let bytes = line.as_bytes();
    bytes.iter().enumerate().any(|(i, b)| match b {
        b'\t' | b'|' | b'=' => true,
        b' ' | b'-' => bytes.get(i + 1) == Some(b),
        b'.' => bytes[i..].starts_with(b"..."),
        _ => false,
    })
}

/// Whether a line may be the first of a paragraph.
fn begins(line: &str) -> bool {
    let words = line.trim();
    width(line) >= NARROW - SLACK && !words.starts_with(|c: char| c.is_ascii_digit()) && !laid_out(words)
}

/// Whether a line is a row of steps each led by its count: "1 cross left, 2 point right, 3 hold. 4 cross right".
fn counted_row(line: &str) -> bool {
    let count = |w: &str| w.len() <= 2 && w.bytes().all(|b| b.is_ascii_digit());
    width(line) >= NARROW
        && line.starts_with(|c: char| c.is_ascii_digit())
        && line.split(' ').filter(|w| !w.is_empty()).filter(|w| count(w)).count() >= 3
        && !laid_out(line)
}

/// Whether a line that fills the page does not end a sentence.
fn ended_amid(line: &str) -> bool {
    width(line) >= NARROW && !line.trim_end().ends_with(['.', ':', '!', '?', ';', ')'])
}

/// Whether a line ends in a word that cannot end a sentence, so that the next line goes on with it.
pub(super) fn hangs(line: &str) -> bool {
    const WORDS: &[&str] = &[
        "a", "an", "the", "to", "on", "at", "of", "in", "onto", "into", "with", "from", "for", "by", "and",
        "or", "your", "its", "our", "my", "this", "that", "which", "over", "toward", "towards", "is", "are",
        "&",
    ];
    let last = line.trim_end().rsplit(' ').next().unwrap_or("");
    WORDS.iter().any(|w| last.eq_ignore_ascii_case(w))
}

/// Whether a line ends in a word that its number comes behind: "dance sections / 1 and 2".
fn counted(line: &str) -> bool {
    const WORDS: &[&str] =
        &["section", "sections", "count", "counts", "wall", "walls", "part", "parts", "bars", "after"];
    let mut words = line.trim_end().rsplit(' ');
    let last = words.next().unwrap_or("");
    // "4 counts" has its number.
    let number = words.next().is_some_and(|w| w.ends_with(|c: char| c.is_ascii_digit()));
    !number && WORDS.iter().any(|w| last.eq_ignore_ascii_case(w))
}

/// Words with which no line of steps begins: the sentence goes on with them.
fn small(line: &str) -> bool {
    const WORDS: &[&str] = &[
        "you", "we", "and", "then", "that", "which", "the", "a", "an", "your", "now", "so", "but", "or",
        "before", "after", "while", "until", "when", "where", "as", "from", "with", "of", "for", "at",
        "facing", "restart", "start", "begin", "is", "are", "will",
    ];
    let first = line.split_whitespace().next().unwrap_or("");
    WORDS.contains(&first)
}

/// Whether a line that begins with a number goes on with a sentence: "begin again at / 6 o'clock".
fn number_goes_on(before: &str, line: &str) -> bool {
    let mut words = line.split_whitespace();
    let digits = words.next().is_some_and(|w| w.starts_with(|c: char| c.is_ascii_digit()));
    let second = words.next().unwrap_or("");
    // "5 6 Step right forward ... (12:00)" is a row of steps.
    let row = second.starts_with(|c: char| c.is_ascii_digit() || c.is_uppercase());
    let said = second.starts_with(char::is_lowercase) || second == "&" || line.contains(':') && !row;
    digits && said && (hangs(before) && width(before) >= NARROW || counted(before) && width(before) >= SHORT)
}

/// "(3&4) Rock": counts in brackets before a capital letter begin a row of steps.
fn row(line: &str) -> bool {
    let Some((counts, rest)) =
        line.trim_start().strip_prefix(['(', '[']).and_then(|l| l.split_once([')', ']']))
    else {
        return false;
    };
    let count = |c: char| c.is_ascii_digit() || matches!(c, '&' | '+' | '-' | '–' | ',' | ' ' | 'a');
    counts.starts_with(|c: char| c.is_ascii_digit() || c == '&')
        && counts.chars().all(count)
        && rest.starts_with(' ')
        && rest.trim_start().starts_with(char::is_uppercase)
}

/// Whether a word is the letter of a list: "b.", "c)".
fn lettered(word: &str) -> bool {
    matches!(word.as_bytes(), [b'a'..=b'h', b'.' | b')'])
}

/// Whether a line may go on from the one before: plain words from its edge on, no mark, label or bullet.
fn goes_on(before: &str, line: &str) -> bool {
    let words = line.trim_end();
    let first = words.split_whitespace().next().unwrap_or("");
    let counts = first.get(..5).is_some_and(|w| w.eq_ignore_ascii_case("count"))
        && words
            .split_whitespace()
            .nth(1)
            .is_some_and(|w| w.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '(' | '&' | '+')));
    (number_goes_on(before, words) || unclosed(before) && words.starts_with(|c: char| c.is_ascii_digit()))
        && !laid_out(words)
        || !row(words)
            && words.starts_with(|c: char| {
                c.is_alphabetic() || matches!(c, '"' | '\'' | '“' | '(' | '¼' | '½' | '¾')
            })
            && !lettered(first)
            && (!first.ends_with(':')
                || first.starts_with(char::is_lowercase)
                    && before.trim_end().ends_with(char::is_alphabetic)
                    && (!LABELS.contains(&first) || hangs(before)))
            // "... touch right on" above "count 8 and start again"
            && (!counts || first.starts_with(char::is_lowercase) && hangs(before) && width(before) >= NARROW)
            && !laid_out(words)
}

/// Whether a line opens a bracket that it does not close.
fn unclosed(line: &str) -> bool {
    width(line) >= NARROW - SLACK && line.rfind('(').is_some_and(|at| !line[at..].contains(')'))
}

/// Whether a line begins with the rest of some counts in brackets.
fn closes(line: &str) -> bool {
    let count = |c: char| c.is_ascii_digit() || matches!(c, '&' | '-' | ',' | ' ');
    line.find(')').is_some_and(|at| {
        at > 0 && (line[..at].chars().all(count) || matches!(&line[..at], "count" | "counts"))
    })
}

/// Whether a number or a clock stands apart at the end of a line: the row before it is over.
fn closed(line: &str) -> bool {
    let words = line.trim_end().trim_end_matches([')', ']']);
    // "... 4 counts"
    let counted = ["counts", "count", "cts"].iter().find_map(|w| words.strip_suffix(w));
    if counted
        .is_some_and(|rest| rest.trim_end().ends_with(|c: char| c.is_ascii_digit()) && rest.contains(".."))
    {
        return true;
    }
    let rest = words.trim_end_matches(|c: char| c.is_ascii_digit() || c == ':');
    rest.len() < words.len() && rest.trim_end_matches(['(', '[']).ends_with("  ")
}

/// Words with which a teacher speaks to the reader below a row of steps.
const ASIDES: &[&str] = &[
    "say", "tell", "remind", "remember", "shout", "watch", "mind", "careful", "ask", "don't", "dont", "no",
    "nb", "ps",
];

/// Whether a line begins with a word to the reader.
fn aside(line: &str) -> bool {
    let first = line.trim_start().split(|c: char| !(c.is_alphabetic() || c == '\'')).next().unwrap_or("");
    ASIDES.iter().any(|w| first.eq_ignore_ascii_case(w))
}

/// One past the last line that hangs under a long one, further in and in the middle of its sentence.
fn hanging(text: &str, raw: &[Range<usize>], i: usize) -> usize {
    let of = |k: usize| &text[raw[k].clone()];
    let indent = |line: &str| line.chars().take_while(|c| *c == ' ').count();
    let mut end = i + 1;
    // "(counts 1 and" above "2)": what a bracket opens goes on until it closes.
    if end < raw.len() && indent(of(end)) > indent(of(i)) && unclosed(of(i)) && closes(of(end)) {
        return end + 1;
    }
    if width(of(i)) < PAIR || of(i).contains(['\t', '|']) || of(i).contains("...") || of(i).contains("--") {
        return end;
    }
    while end < raw.len() {
        let (before, next) = (of(end - 1).trim_end(), of(end).trim());
        let open =
            next.starts_with(char::is_lowercase) || !before.ends_with(['.', ':', '!', '?', ')', ';', ']']);
        let words = next.starts_with(char::is_alphabetic) && !laid_out(next);
        let full = end == i + 1 || width(of(end - 1)) + SLACK > width(of(i));
        if indent(of(end)) < indent(of(i)) + 4 || !open || !words || !full || closed(before) || aside(next) {
            break;
        }
        end += 1;
    }
    end
}

/// Puts lines together where each ends only because the next word would have gone past the widest.
fn paragraphs(text: &str, lines: &[Range<usize>], sentences: bool, out: &mut Vec<Range<usize>>) {
    let of = |i: usize| &text[lines[i].clone()];
    let widest = if lines.len() > 1 { (0..lines.len()).map(|i| width(of(i))).max().unwrap_or(0) } else { 0 };
    let full = |i: usize| {
        let next = of(i + 1).split_whitespace().next().map_or(0, |w| w.chars().count());
        widest >= NARROW && width(of(i)) + 1 + next + SLACK > widest
    };
    // A paragraph goes on mostly in the middle of a sentence.
    let open = |i: usize| {
        let (before, next) = (of(i).trim_end(), of(i + 1));
        next.starts_with(char::is_lowercase)
            || next.starts_with("(count")
            || next.starts_with('(') && !before.ends_with(['.', ')', '!', '?', ';'])
    };
    // The middle of a sentence, whatever the widths: nobody ends a line of steps with "the".
    let middle = |i: usize| {
        let (before, next) = (of(i).trim_end(), of(i + 1));
        width(before) >= NARROW
            && (next.starts_with(char::is_lowercase) && (hangs(before) || before.ends_with(','))
                || before.ends_with(|c: char| c.is_ascii_digit()) && next.starts_with("count")
                || number_goes_on(before, next))
    };
    let sure = |i: usize| {
        let (before, next) = (of(i).trim_end(), of(i + 1));
        let amid = sentences
            && !before.ends_with(['.', ':', '!', '?', ';'])
            && (small(next) || next.starts_with("(count"));
        let count =
            unclosed(before) && (next.starts_with(|c: char| c.is_ascii_digit()) || next.starts_with("count"));
        width(before) >= SHORT && (amid || count || number_goes_on(before, next))
    };
    let mut from = 0;
    for i in 0..lines.len() {
        let goes = i + 1 < lines.len()
            && (full(i) || middle(i) || sure(i))
            && !closed(of(i))
            // Amid a paragraph a colon stands where the line happened to end.
            && (!of(i).trim_end().ends_with(':')
                || of(i).trim_end().trim_end_matches(':').ends_with(|c: char| c.is_ascii_digit())
                || (i > from || of(i).contains(". ")) && of(i + 1).starts_with(char::is_lowercase))
            && (open(i) || !of(i + 1).starts_with('('));
        if goes {
            continue;
        }
        let opens = (from..i).filter(|k| open(*k) || sure(*k)).count();
        let certain = (from..i).all(sure);
        let long = i - from >= 2 || width(of(from)) >= PAIR || certain;
        let last = i + 1 == lines.len() || certain;
        if i > from && opens * 2 >= i - from && long && last {
            out.push(lines[from].start..lines[i].end);
        } else {
            out.extend(lines[from..=i].iter().cloned());
        }
        from = i + 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cut(text: &str) -> Vec<&str> {
        lines(text, &raw(text)).into_iter().map(|r| &text[r]).collect()
    }

    #[test]
    fn a_broken_paragraph_is_one_line() {
        let text = "Step to the right on the right foot, bring the left foot next to it,\n\
                    step to the right again and touch the left next to it.\n\
                    \n\
                    1-2 Walk\n\
                    3-4 Walk";
        let cut = cut(text);
        assert_eq!(cut.len(), 4, "{cut:?}");
        assert!(cut[0].ends_with("next to it."));
    }

    #[test]
    fn lines_that_a_writer_ended_stay_apart() {
        let text = "Step right to the right side, cross left behind right, touch it.\n\
                    Step left to the left side, cross right behind left, touch it.\n\
                    Rock right forward, recover.\n\
                    Rock right back, recover onto left, stomp, stomp and clap, clap.";
        assert_eq!(cut(text).len(), 4);
    }
}
