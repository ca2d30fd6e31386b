//! Places in a text: byte spans, lines and columns, and edits.
//!
//! Everything inside the crate counts bytes of UTF-8. Lines and columns (from 1, in characters) and UTF-16
//! offsets (for editors in a browser) are worked out only where a result leaves the crate.

use crate::letters::Letters as _;
use crate::order::Ordered as _;

/// A stretch of the sheet's text, in bytes; `start` is included, `end` is not.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Span {
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// A span from byte offsets; offsets beyond 4 GiB are cut off, and no sheet is longer than 1 MiB.
    #[must_use]
    pub fn new(start: usize, end: usize) -> Self {
        let cut = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        Self { start: cut(start), end: cut(end.max(start)) }
    }

    /// The smallest span that holds both.
    #[must_use]
    pub fn join(self, other: Self) -> Self {
        if self.is_empty() {
            return other;
        }
        if other.is_empty() {
            return self;
        }
        Self { start: self.start.min(other.start), end: self.end.max(other.end) }
    }

    /// The words that the span covers, empty where it does not lie on character borders.
    #[inline]
    #[must_use]
    pub fn of(self, text: &str) -> &str {
        text.get(self.range()).unwrap_or("")
    }

    /// Whether the word that it covers is one of these, however its plain letters are written.
    #[inline]
    #[must_use]
    pub fn is_among(self, text: &str, words: &Among) -> bool {
        text.as_bytes().get(self.range()).is_some_and(|word| words.has(word))
    }

    /// The span as a range of bytes.
    #[inline]
    #[must_use]
    pub fn range(self) -> core::ops::Range<usize> {
        self.start as usize..self.end as usize
    }

    /// Whether nothing is covered.
    #[must_use]
    pub fn is_empty(self) -> bool {
        self.start >= self.end
    }

    /// Whether `other` lies wholly inside.
    #[must_use]
    pub fn contains(self, other: Self) -> bool {
        self.start <= other.start && other.end <= self.end
    }
}

/// One change of a text: what stands in `span` becomes `text`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edit {
    /// What is replaced; empty where something is put in.
    pub span: Span,
    /// The new words.
    pub text: String,
}

/// The text with all edits made at once. Edits that overlap an earlier one, or that do not lie on character
/// borders, are left out.
#[must_use]
pub fn apply(text: &str, edits: &[Edit]) -> String {
    let mut sorted: Vec<&Edit> = edits.iter().collect();
    sorted.in_order_by_key(|e| e.span);
    let mut out = String::with_capacity(text.len() + 16);
    let mut at = 0;
    for edit in sorted {
        let range = edit.span.range();
        if range.start < at || text.get(range.clone()).is_none() {
            continue;
        }
        out.push_str(&text[at..range.start]);
        out.push_str(&edit.text);
        at = range.end;
    }
    out.push_str(&text[at..]);
    out
}

/// What stands in `span` once the edits inside it are made.
#[must_use]
pub fn apply_to(text: &str, span: Span, edits: &[Edit]) -> String {
    let inside = edits.iter().filter(|e| span.contains(e.span));
    let moved: Vec<Edit> = inside
        .map(|e| Edit {
            span: Span { start: e.span.start - span.start, end: e.span.end - span.start },
            text: e.text.clone(),
        })
        .collect();
    apply(span.of(text), &moved)
}

/// A word in small letters, without a heap where it is as short as words are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lower(Letters);

#[derive(Debug, Clone, PartialEq, Eq)]
enum Letters {
    Few(arrayvec::ArrayString<24>),
    Many(String),
}

/// The word in small letters.
#[must_use]
pub fn lower(word: &str) -> Lower {
    let mut few = arrayvec::ArrayString::new();
    if word.is_ascii() && few.try_push_str(word).is_ok() {
        few.make_ascii_lowercase();
        return Lower(Letters::Few(few));
    }
    Lower(Letters::Many(word.small()))
}

impl Lower {
    /// The word.
    #[must_use]
    pub fn as_str(&self) -> &str {
        match &self.0 {
            Letters::Few(word) => word,
            Letters::Many(word) => word,
        }
    }
}

impl core::ops::Deref for Lower {
    type Target = str;

    fn deref(&self) -> &str {
        self.as_str()
    }
}

impl PartialEq<&str> for Lower {
    fn eq(&self, other: &&str) -> bool {
        self.as_str() == *other
    }
}

impl PartialEq<String> for Lower {
    fn eq(&self, other: &String) -> bool {
        self.as_str() == other
    }
}

/// A list of words that tells of most other words at a glance that they are not in it; the macro `among` makes it.
#[derive(Debug)]
pub struct Among {
    /// One behind the other, each with the end of a line: a reference to each of them would weigh more than its letters.
    words: &'static str,
    /// The glances of all its words.
    glances: u64,
}

impl Among {
    /// The list of these words, each with the end of a line behind it.
    #[must_use]
    pub const fn of(words: &'static str) -> Self {
        let (mut glances, mut rest, mut to) = (0, words.as_bytes(), 0);
        while to < rest.len() {
            if rest[to] == b'\n' {
                let (word, behind) = rest.split_at(to);
                glances |= glance(word);
                (rest, to) = (behind.split_at(1).1, 0);
            } else {
                to += 1;
            }
        }
        Self { words, glances }
    }

    #[inline]
    fn has(&self, word: &[u8]) -> bool {
        self.glances & glance(word) != 0
            && self.words.lines().any(|w| word.eq_ignore_ascii_case(w.as_bytes()))
    }
}

/// One of 64 bits, by how long a word is and by its first and its last letter, small or capital.
#[inline]
const fn glance(word: &[u8]) -> u64 {
    let [first, ..] = word else { return 1 };
    let (first, last) = (*first | 32, word[word.len() - 1] | 32);
    let sum = first as usize + last as usize * 7 + word.len() * 21;
    1 << ((sum ^ sum >> 6) & 63)
}

/// A list of words, made when the program is: `among!["wall", "walls"]`.
macro_rules! among {
    ($($word:literal),+ $(,)?) => {
        const { &$crate::text::Among::of(concat!($($word, "\n"),+)) }
    };
}
pub(crate) use among;

/// Whether a word is one of these, however its plain letters are written.
#[inline]
#[must_use]
pub fn is_among(word: &str, words: &Among) -> bool {
    words.has(word.as_bytes())
}

/// Whether a word begins with these plain letters, however they are written.
#[inline]
#[must_use]
pub fn begins_with(word: &str, letters: &str) -> bool {
    let first = |w: &str| w.as_bytes().first().map(u8::to_ascii_lowercase);
    first(word) == first(letters)
        && word.as_bytes().get(..letters.len()).is_some_and(|w| w.eq_ignore_ascii_case(letters.as_bytes()))
}

/// Whether a word of plain small letters stands anywhere in a text, however it is written there.
#[must_use]
pub fn mentions(text: &str, word: &str) -> bool {
    let Some(first) = word.bytes().next() else { return true };
    text.as_bytes().windows(word.len()).any(|w| w[0] | 32 == first && w.eq_ignore_ascii_case(word.as_bytes()))
}

/// Finds the line and column of a byte.
#[derive(Debug, Clone)]
pub struct LineIndex {
    starts: Vec<u32>,
}

impl LineIndex {
    /// Notes where each line of `text` begins. A line ends with a line feed, a carriage return or both.
    #[must_use]
    pub fn new(text: &str) -> Self {
        let bytes = text.as_bytes();
        let mut starts = vec![0];
        for (i, b) in bytes.iter().enumerate() {
            let ends = *b == b'\n' || (*b == b'\r' && bytes.get(i + 1) != Some(&b'\n'));
            if ends {
                starts.push(Span::new(i + 1, i + 1).start);
            }
        }
        Self { starts }
    }

    /// Line and column of a byte, both from 1, the column in characters.
    #[must_use]
    pub fn place(&self, text: &str, byte: u32) -> (u32, u32) {
        let line = self.starts.partition_point(|s| *s <= byte).max(1);
        let start = self.starts[line - 1] as usize;
        let mut end = (byte as usize).min(text.len());
        while !text.is_char_boundary(end) {
            end -= 1;
        }
        let column = text[start.min(end)..end].chars().count() + 1;
        (Span::new(line, line).start, Span::new(column, column).start)
    }
}

/// The offset in UTF-16 units of a byte, for editors that count so.
#[must_use]
pub fn utf16(text: &str, byte: u32) -> u32 {
    let mut end = (byte as usize).min(text.len());
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    let units: usize = text[..end].chars().map(char::len_utf16).sum();
    Span::new(units, units).start
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_and_columns_count_characters() {
        let text = "é½\r\nab\ncd";
        let index = LineIndex::new(text);
        assert_eq!(index.place(text, 0), (1, 1));
        assert_eq!(index.place(text, 2), (1, 2));
        assert_eq!(index.place(text, 6), (2, 1));
        assert_eq!(index.place(text, 10), (3, 2));
    }

    #[test]
    fn utf16_counts_surrogate_pairs() {
        let text = "a💃b";
        assert_eq!(utf16(text, 5), 3);
        assert_eq!(utf16(text, 6), 4);
    }

    #[test]
    fn edits_are_made_by_position() {
        let edits = [
            Edit { span: Span::new(4, 5), text: "L".into() },
            Edit { span: Span::new(0, 3), text: "touch".into() },
        ];
        assert_eq!(apply("hop R", &edits), "touch L");
    }
}
