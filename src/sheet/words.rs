//! Characters to words: what a writer typed, whatever the dashes, quotes and fractions look like.

use super::glued;
use super::vocabulary::{Vocabulary, W, Word};
use crate::floor::Heading;
use crate::text::{Among, Span, among, is_among};

pub use super::classes::acts;

/// What a token is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A word of the grammar.
    W(W),
    /// A word that only names of figures have.
    Name(Word),
    /// A word that nobody knows.
    Unknown,
    /// A whole number.
    Number(u32),
    /// A share of a turn in 1/48.
    Fraction(i32),
    /// A clock such as 3:00.
    Clock(Heading),
    /// An order of feet such as RLR; the letters stand in the text.
    Feet,
    /// `x2`, `2x`, `× 3`.
    Times(u32),
    /// Any other sign; dashes are `-`, quotes `"`.
    Sign(char),
}

/// A word or sign with its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Token {
    /// What it is.
    pub kind: Kind,
    /// Where it stands.
    pub span: Span,
    /// Space before it: 0 none, 1 a blank, 2 a wide gap, tab or bar.
    pub gap: u8,
}

impl Token {
    /// Whether it is this word of the grammar.
    #[inline]
    #[must_use]
    pub fn is(&self, w: W) -> bool {
        matches!(self.kind, Kind::W(own) if own == w)
    }

    /// Whether it is this sign.
    #[inline]
    #[must_use]
    pub fn sign(&self, c: char) -> bool {
        matches!(self.kind, Kind::Sign(own) if own == c)
    }
}

/// Named characters of HTML that occur in sheets copied from a page.
const ENTITIES: &[(&str, char)] = &[
    ("&amp;", '&'),
    ("&#38;", '&'),
    ("&nbsp;", ' '),
    ("&#160;", ' '),
    ("&frac12;", '½'),
    ("&#189;", '½'),
    ("&frac14;", '¼'),
    ("&#188;", '¼'),
    ("&frac34;", '¾'),
    ("&#190;", '¾'),
    ("&ndash;", '-'),
    ("&mdash;", '-'),
    ("&#8211;", '-'),
    ("&#8212;", '-'),
    ("&rsquo;", '\''),
    ("&lsquo;", '\''),
    ("&#8217;", '\''),
    ("&#39;", '\''),
    ("&quot;", '"'),
    ("&ldquo;", '"'),
    ("&rdquo;", '"'),
    ("&deg;", '°'),
    ("&bull;", '*'),
    ("&eacute;", 'e'),
    ("&lt;", '<'),
    ("&gt;", '>'),
    ("&times;", '×'),
];

/// The character that begins at `at`, plain and in lower case, and its length in bytes.
fn plain(text: &str, at: usize) -> Option<(char, usize)> {
    let rest = &text[at..];
    let c = rest.chars().next()?;
    if c == '&' && rest.as_bytes().get(1).is_some_and(|b| b.is_ascii_alphabetic() || *b == b'#') {
        for (name, c) in ENTITIES {
            if rest.len() >= name.len() && rest.as_bytes()[..name.len()].eq_ignore_ascii_case(name.as_bytes())
            {
                return Some((*c, name.len()));
            }
        }
    }
    let len = c.len_utf8();
    let c = match c {
        '‐' | '‑' | '‒' | '–' | '—' | '―' | '−' | '﹣' | '－' => '-',
        '‘' | '’' | '‚' | '‛' | '´' | '`' | 'ʼ' => '\'',
        '“' | '”' | '„' | '«' | '»' | '″' => '"',
        '•' | '·' | '▪' | '●' | '◦' | '‣' | '■' | '►' | '▶' | '★' | '☆' => '*',
        '\u{a0}' | '\u{2002}'..='\u{200a}' | '\u{202f}' | '\u{3000}' | '\u{200b}' | '\u{feff}' => ' ',
        'é' | 'è' | 'ê' | 'É' => 'e',
        'à' | 'á' | 'â' | 'ä' => 'a',
        'ö' | 'ó' | 'ô' => 'o',
        'ü' | 'ú' => 'u',
        'ç' => 'c',
        'ñ' => 'n',
        'º' | '˚' => '°',
        '│' | '┃' | '║' | '¦' => '|',
        '、' => ',',
        '。' => '.',
        '〜' | '∼' => '~',
        '【' | '〔' => '[',
        '】' | '〕' => ']',
        '⁄' | '∕' => '/',
        '→' | '⇒' => '>',
        // The wide forms that keyboards of eastern Asia give.
        '！'..='～' => {
            char::from_u32(u32::from(c) - u32::from('！') + u32::from('!')).unwrap_or(c).to_ascii_lowercase()
        }
        c if c.is_ascii_uppercase() => c.to_ascii_lowercase(),
        c => c,
    };
    Some((c, len))
}

/// The number in a circle: ①, ❷, ➂.
fn circled(c: char) -> Option<u32> {
    if c.is_ascii() {
        return None;
    }
    let rows = [('①', 20), ('❶', 10), ('➀', 10), ('➊', 10)];
    rows.iter().find_map(|(first, n)| {
        let k = u32::from(c).checked_sub(u32::from(*first))?;
        (k < *n).then_some(k + 1)
    })
}

fn vulgar(c: char) -> Option<i32> {
    Some(match c {
        '½' => 24,
        '¼' => 12,
        '¾' => 36,
        '⅛' => 6,
        '⅜' => 18,
        '⅝' => 30,
        '⅞' => 42,
        '⅓' => 16,
        '⅔' => 32,
        '⅙' => 8,
        _ => return None,
    })
}

struct Reader<'t> {
    text: &'t str,
    at: usize,
    end: usize,
}

impl Reader<'_> {
    #[inline]
    fn peek(&self) -> Option<(char, usize)> {
        if self.at >= self.end {
            return None;
        }
        match self.text.as_bytes().get(self.at) {
            Some(b) if b.is_ascii() && !matches!(b, b'&' | b'`') => {
                Some((char::from(b.to_ascii_lowercase()), 1))
            }
            _ => plain(self.text, self.at),
        }
    }

    /// Takes letters and apostrophes.
    fn letters(&mut self, out: &mut String) {
        let from = self.at;
        let plain = |b: &u8| b.is_ascii_alphabetic() || *b == b'\'';
        self.at += self.text.as_bytes()[from..self.end].iter().take_while(|b| plain(b)).count();
        out.push_str(&self.text[from..self.at]);
        out.make_ascii_lowercase();
        // Letters with accents and named characters are rare.
        let next = self.text.as_bytes()[self.at..self.end].first();
        if next.is_some_and(|b| !b.is_ascii() || matches!(b, b'&' | b'`')) {
            self.take_while(out, |c| c.is_alphabetic() || c == '\'');
        }
    }

    fn take_while(&mut self, out: &mut String, ok: impl Fn(char) -> bool) {
        while let Some((c, len)) = self.peek() {
            if !ok(c) {
                break;
            }
            out.push(c);
            self.at += len;
        }
    }

    fn number(&mut self) -> Option<u32> {
        let mut n: Option<u32> = None;
        while let Some((c, len)) = self.peek() {
            let Some(d) = c.to_digit(10) else { break };
            n = Some(n.unwrap_or(0).saturating_mul(10).saturating_add(d).min(1_000_000_000));
            self.at += len;
        }
        n
    }
}

/// Cuts a stretch of the text into tokens.
#[must_use]
pub fn tokens(text: &str, range: core::ops::Range<usize>, vocabulary: &Vocabulary) -> Vec<Token> {
    let mut r = Reader { text, at: range.start, end: range.end };
    let mut out: Vec<Token> = Vec::with_capacity((range.end - range.start) / 4 + 2);
    let mut gap = 2;
    let mut word = String::with_capacity(16);
    let bytes = text.as_bytes();
    loop {
        // Most of a text is letters and single blanks.
        if r.at < r.end && bytes[r.at] == b' ' {
            gap = if gap >= 1 { 2 } else { 1 };
            r.at += 1;
            continue;
        }
        let Some((c, len)) = r.peek() else { break };
        let start = r.at;
        if c == '\t' || c == '|' {
            gap = 2;
            r.at += len;
            continue;
        }
        if c.is_whitespace() {
            gap = if gap >= 1 { 2 } else { 1 };
            r.at += len;
            continue;
        }
        let kind = if c.is_ascii_alphabetic() {
            word.clear();
            r.letters(&mut word);
            classify(&mut r, &mut word, vocabulary)
        } else if let Some(n) = circled(c) {
            r.at += len;
            // By itself it is the number of a section; in a row of them it is a count.
            let mut row = text[range.clone()].chars().filter_map(circled);
            if row.next().map(|n| n + 1) != row.next() {
                out.push(Token { kind: Kind::Sign('#'), span: Span::new(start, start), gap });
                gap = 0;
            }
            Kind::Number(n)
        } else if c.is_ascii_digit() {
            number(&mut r, &mut out)
        } else if let Some(units) = vulgar(c) {
            r.at += len;
            mixed(&mut out, units, gap)
        } else if c == '×' {
            r.at += len;
            times(&mut r, start).unwrap_or(Kind::Sign('x'))
        } else if c.is_alphabetic() {
            word.clear();
            r.letters(&mut word);
            classify(&mut r, &mut word, vocabulary)
        } else {
            r.at += len;
            // The corner of a box is no word: "+-----+".
            let ruled = c == '+' && matches!(r.peek(), Some(('-' | '=', _)))
                || c == '+' && gap == 0 && out.last().is_some_and(|t| t.sign('-') || t.sign('='));
            match c {
                '&' => Kind::W(W::And),
                '+' if !ruled => Kind::W(W::And),
                '§' => Kind::W(W::Section),
                // "1^ SECTION": an ordinal, where the keyboard has no other sign for it.
                '^' if gap == 0 && matches!(out.last(), Some(Token { kind: Kind::Number(_), .. })) => {
                    Kind::Sign('°')
                }
                c => Kind::Sign(c),
            }
        };
        // "Pivot 180 L", "90 R jazz box": degrees, though nothing says so.
        if matches!(kind, Kind::W(W::R | W::L | W::Turn))
            && let Some(last) = out.last_mut()
            && let Kind::Number(n @ (90 | 180 | 270 | 360)) = last.kind
        {
            last.kind = Kind::Fraction(i32::try_from(n * 48 / 360).unwrap_or(0));
        }
        // "x/sh", "x/b": the stroke only parts the letters.
        if c == '/'
            && out.last().is_some_and(|t| t.is(W::Cross) && matches!(t.span.of(text), "x" | "X"))
            && gap == 0
            && matches!(r.peek(), Some((c, _)) if c.is_alphabetic())
        {
            continue;
        }
        // "xsh": a cross and what goes across.
        if kind == Kind::Unknown
            && word.starts_with('x')
            && word.len() == r.at - start
            && let Some((at, second)) = glued::crossed(&word, vocabulary)
        {
            out.push(Token { kind: Kind::W(W::Cross), span: Span::new(start, start + at), gap });
            out.push(Token { kind: second, span: Span::new(start + at, r.at), gap: 0 });
            gap = 0;
            continue;
        }
        if let Some(last) = out.last_mut()
            && gap == 1
            && stands_still(last.span.of(text), &text[start..r.at])
        {
            *last =
                Token { kind: Kind::W(W::Hold), span: Span::new(last.span.start as usize, r.at), ..*last };
            gap = 0;
            continue;
        }
        // "1     1/4 L" in columns is a count and a turn.
        let kind = match kind {
            Kind::Fraction(units) if units > 48 && gap == 2 => Kind::Fraction((units - 1) % 48 + 1),
            kind => kind,
        };
        // "On the eighth" is a count, "an eighth" and "the eighth of a turn" a share of one.
        let at_count = |out: &[Token]| matches!(out, [.., on, the] if on.is(W::On) && the.span.of(text).eq_ignore_ascii_case("the"));
        let kind = if kind == Kind::W(W::Eighth) && at_count(&out) { Kind::W(W::EighthTh) } else { kind };
        // "piv ½L →9", "^9": an arrow leads to an hour, and "1→8" counts.
        let leads = |out: &[Token]| match out {
            [.., before, arrow] => {
                arrow.span.of(text).starts_with(['→', '^']) && !matches!(before.kind, Kind::Number(_))
            }
            _ => false,
        };
        let kind = match kind {
            Kind::Number(n @ (3 | 6 | 9 | 12)) if leads(&out) => {
                Kind::Clock(Heading::new(i32::try_from(n * 4).unwrap_or(0)))
            }
            kind => kind,
        };
        // "Do it over", "do that over with the left"
        let done = |out: &[Token]| {
            matches!(out, [.., make, it] if make.is(W::Make)
                && (it.is(W::It) || it.span.is_among(text, among!["that", "this", "all"])))
        };
        let over = kind == Kind::W(W::Across) && is_among(&text[start..r.at], among!["over"]) && done(&out);
        let kind = if over { Kind::W(W::Again) } else { kind };
        // A mixed number such as 1 1/4 has swallowed the token before it.
        let (start, gap_here) = match (&kind, out.last()) {
            (Kind::Fraction(units), Some(last)) if *units > 48 && matches!(last.kind, Kind::Number(_)) => {
                let last = *last;
                out.pop();
                (last.span.start as usize, last.gap)
            }
            _ => (start, gap),
        };
        out.push(Token { kind, span: Span::new(start, r.at), gap: gap_here });
        gap = 0;
    }
    multiples(text, &mut out);
    turns_round(text, &mut out);
    out
}

/// "Pull round 1/4 left", "swing round a quarter": a turn in other words.
fn turns_round(text: &str, out: &mut [Token]) {
    let size = |t: &Token| matches!(t.kind, Kind::Fraction(_) | Kind::W(W::Quarter | W::Half | W::Full));
    for k in 0..out.len().saturating_sub(1) {
        // "The whole time" is no turn.
        if out[k].is(W::Full) && out[k + 1].span.is_among(text, among!["time", "way", "dance", "section"]) {
            out[k].kind = Kind::Unknown;
        }
        if k + 2 >= out.len() {
            break;
        }
        let verb = matches!(out[k].kind, Kind::W(W::Drag | W::Sweep)) && out[k + 1].is(W::Around);
        if verb && out[k + 2..].iter().take(2).any(size) {
            out[k].kind = Kind::W(W::Turn);
        }
    }
}

/// "2 x kick ball change": how often, where "x" is no cross because a figure or a verb without a foot follows it.
fn multiples(text: &str, out: &mut Vec<Token>) {
    let x = |t: &Token| t.gap == 1 && matches!(t.span.of(text), "x" | "X");
    let follows = |t: &Token| {
        let verb = matches!(t.kind, Kind::W(W::Kick | W::Sway | W::Walk | W::Paddle | W::Pivot));
        t.gap == 1 && (verb || matches!(t.kind, Kind::Name(_)))
    };
    let found: Vec<usize> = (0..out.len().saturating_sub(2))
        .filter(|k| matches!(out[*k].kind, Kind::Number(2..=8)) && x(&out[*k + 1]) && follows(&out[*k + 2]))
        .collect();
    if found.is_empty() {
        return;
    }
    let mut at = found.iter().copied().peekable();
    for k in &found {
        if let Kind::Number(n) = out[*k].kind {
            out[*k] =
                Token { kind: Kind::Times(n), span: out[*k].span.join(out[*k + 1].span), gap: out[*k].gap };
        }
    }
    let mut k = 0;
    out.retain(|_| {
        let gone = at.next_if(|f| f + 1 == k).is_some();
        k += 1;
        !gone
    });
}

/// "Stay there", "standing still", "do nothing", "don't move": a hold in so many words.
fn stands_still(before: &str, word: &str) -> bool {
    // Most words say nothing of the kind.
    let still = among![
        "put",
        "still",
        "motionless",
        "frozen",
        "there",
        "nothing",
        "move",
        "moving",
        "movement",
        "moves",
        "happens"
    ];
    if !is_among(word, still) {
        return false;
    }
    let among = |a: &Among, b: &Among| is_among(before, a) && is_among(word, b);
    let stands = || is_among(before, among!["stay", "stays", "staying", "stand", "stands", "standing"]);
    let keeps = || is_among(before, among!["keep", "keeps", "keeping", "remain"]);
    is_among(word, among!["put", "still", "motionless", "frozen"]) && (stands() || keeps())
        || is_among(word, among!["there"]) && stands()
        || among(among!["do", "does", "doing"], among!["nothing"])
        || among(
            among!["don't", "dont", "not", "without", "no"],
            among!["move", "moving", "movement", "moves"],
        )
        || among(among!["nothing"], among!["happens", "moves"])
}

/// A number, a fraction, a clock, `2x`, an ordinal.
fn number(r: &mut Reader<'_>, out: &mut [Token]) -> Kind {
    let n = r.number().unwrap_or(0);
    let save = r.at;
    match r.peek() {
        Some(('/', len)) => {
            r.at += len;
            if let Some(d) = r.number()
                && d > 1
                && 48 % d == 0
                && n > 0
                && n <= d
                && !matches!(r.peek(), Some(('/', _)))
            {
                let units = i32::try_from(n * 48 / d).unwrap_or(0);
                return mixed(out, units, 1);
            }
            r.at = save;
        }
        Some((':' | '.' | 'h', len)) if (1..=12).contains(&n) => {
            r.at += len;
            let digits = r.at;
            if let Some(minutes) = r.number()
                && r.at - digits == 2
                && minutes < 60
                && !matches!(r.peek(), Some((c, _)) if c.is_ascii_digit())
            {
                // Nobody faces 7:15: it is a time of the day, or how long a song lasts.
                if minutes % 30 != 0 {
                    return Kind::Unknown;
                }
                let units = i32::try_from(n * 4 + minutes / 15).unwrap_or(0);
                return Kind::Clock(Heading::new(units));
            }
            r.at = save;
        }
        Some((c, len)) if vulgar(c).is_some() => {
            r.at += len;
            let part = vulgar(c).unwrap_or(0);
            return Kind::Fraction(48 * i32::try_from(n.min(9)).unwrap_or(0) + part);
        }
        _ => {}
    }
    // Letters glued to the number: 2x, 6h, 3rd.
    let mut tail = String::new();
    r.take_while(&mut tail, char::is_alphabetic);
    match tail.as_str() {
        "x" if n <= 64 && !matches!(r.peek(), Some((c, _)) if c.is_ascii_digit()) => return Kind::Times(n),
        "h" | "uhr" if (1..=12).contains(&n) => {
            return Kind::Clock(Heading::new(i32::try_from(n * 4).unwrap_or(0)));
        }
        "st" | "nd" | "rd" | "th" => {
            let w = [
                W::First,
                W::Second,
                W::ThirdTh,
                W::Fourth,
                W::Fifth,
                W::Sixth,
                W::Seventh,
                W::EighthTh,
                W::Ninth,
                W::Tenth,
            ];
            if let Some(w) = n.checked_sub(1).and_then(|i| w.get(i as usize)) {
                return Kind::W(*w);
            }
        }
        _ => {}
    }
    r.at = save;
    Kind::Number(n)
}

/// A fraction, together with a whole number before it: 1 1/4.
fn mixed(out: &mut [Token], units: i32, gap: u8) -> Kind {
    if gap <= 1
        && let Some(last) = out.last()
        && let Kind::Number(n @ 1..=3) = last.kind
        && last.gap > 0
        && out.len() > 1
        && !out[out.len() - 2].sign('-')
    {
        return Kind::Fraction(48 * i32::try_from(n).unwrap_or(0) + units);
    }
    Kind::Fraction(units)
}

/// The hour after a full stop and blanks, as far as it is one.
fn hour_behind(r: &mut Reader<'_>) -> Option<Heading> {
    let save = r.at;
    let mut blank = String::new();
    r.take_while(&mut blank, |c| c == ' ' || c == '.');
    match r.number() {
        Some(n @ 1..=12) if blank.len() <= 2 => Some(Heading::new(i32::try_from(n * 4).unwrap_or(0))),
        _ => {
            r.at = save;
            None
        }
    }
}

fn times(r: &mut Reader<'_>, start: usize) -> Option<Kind> {
    let save = r.at;
    let mut blank = String::new();
    r.take_while(&mut blank, |c| c == ' ');
    match r.number() {
        // "sd, bhd, sd, x 1-4": a cross, and its counts; "2 x 1/2 pivot".
        Some(_) if !blank.is_empty() && matches!(r.peek(), Some(('-' | '&' | '/', _))) => {
            r.at = save;
            None
        }
        Some(n @ 1..=64) if blank.len() <= 1 && r.at > start => Some(Kind::Times(n)),
        _ => {
            r.at = save;
            None
        }
    }
}

/// A word, an order of feet, or `x2`.
fn classify(r: &mut Reader<'_>, word: &mut String, vocabulary: &Vocabulary) -> Kind {
    if word.len() > 3 {
        return known(word, vocabulary);
    }
    if word == "x" {
        let start = r.at;
        if let Some(kind) = times(r, start) {
            return kind;
        }
    }
    // "W3" is short for wall 3.
    if word == "w" && matches!(r.peek(), Some((c, _)) if c.is_ascii_digit()) {
        return Kind::W(W::Wall);
    }
    // "kl. 6" is how the north of Europe writes an hour, "ore 6" how its south does.
    if matches!(word.as_str(), "kl" | "klo" | "ore")
        && let Some(hour) = hour_behind(r)
    {
        return Kind::Clock(hour);
    }
    // "R/S", "R/start" are short for restart; "re-start" is cut by its hyphen.
    if matches!(word.as_str(), "r" | "re")
        && let Some(rest) = r.text.get(r.at..).and_then(|s| s.strip_prefix(['/', '-']))
    {
        let len = rest.find(|c: char| !c.is_alphanumeric() && c != '/').unwrap_or(rest.len());
        let stroke = r.text[r.at..].starts_with('/');
        let starts = is_among(&rest[..len], among!["start", "starts", "starting"]);
        if starts && (stroke || word == "re") || stroke && matches!(&rest[..len], "S" | "st") {
            r.at += 1 + len;
            return Kind::W(W::Restart);
        }
    }
    // "w/" and "w/o" keep their stroke.
    if word == "w"
        && let Some(('/', len)) = r.peek()
    {
        r.at += len;
        if matches!(r.peek(), Some(('o', _))) && !r.text[r.at..].starts_with("one") {
            let save = r.at;
            let mut tail = String::new();
            r.take_while(&mut tail, char::is_alphabetic);
            if tail == "o" || tail == "out" {
                return Kind::W(W::No);
            }
            r.at = save;
        }
        return Kind::W(W::With);
    }
    known(word, vocabulary)
}

/// A word by its letters.
pub(super) fn known(word: &str, vocabulary: &Vocabulary) -> Kind {
    let trimmed = if word.ends_with('\'') { word.trim_end_matches('\'') } else { word };
    let found = vocabulary
        .get(trimmed)
        .or_else(|| trimmed.strip_suffix("'s").and_then(|_| vocabulary.get(trimmed.trim_end_matches("'s"))));
    if let Some((w, grammar)) = found {
        return grammar.map_or(Kind::Name(w), Kind::W);
    }
    if (2..=8).contains(&trimmed.len()) && trimmed.bytes().all(|b| b == b'r' || b == b'l') {
        return Kind::Feet;
    }
    // A plural or a participle of a known name: sailors, coasters, shuffling.
    for end in ["s", "es", "ing", "ed"] {
        if let Some(stem) = trimmed.strip_suffix(end)
            && stem.len() > 2
        {
            let with_e = || vocabulary.get(&format!("{stem}e"));
            if let Some((w, grammar)) = vocabulary.get(stem).or_else(with_e) {
                return grammar.map_or(Kind::Name(w), Kind::W);
            }
        }
    }
    match vocabulary.boned(trimmed) {
        Some((w, grammar)) => grammar.map_or(Kind::Name(w), Kind::W),
        None => Kind::Unknown,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kinds(text: &str) -> Vec<Kind> {
        tokens(text, 0..text.len(), &Vocabulary::new()).iter().map(|t| t.kind).collect()
    }

    #[test]
    fn fractions_and_clocks_in_all_hands() {
        assert_eq!(kinds("1/4 ¼ 3/4"), [Kind::Fraction(12), Kind::Fraction(12), Kind::Fraction(36)]);
        assert_eq!(kinds("turn 1 1/4")[1], Kind::Fraction(60));
        assert_eq!(kinds("2nd   1   1/4 L")[1..3], [Kind::Number(1), Kind::Fraction(12)]);
        assert_eq!(kinds("turn 1¼")[1], Kind::Fraction(60));
        assert_eq!(
            kinds("3:00 10.30 6h"),
            [Kind::Clock(Heading::new(12)), Kind::Clock(Heading::new(42)), Kind::Clock(Heading::new(24))]
        );
    }

    #[test]
    fn feet_times_and_signs() {
        assert_eq!(kinds("RLR x2 2x"), [Kind::Feet, Kind::Times(2), Kind::Times(2)]);
        assert_eq!(
            kinds("w/ touch – hold"),
            [Kind::W(W::With), Kind::W(W::Touch), Kind::Sign('-'), Kind::W(W::Hold)]
        );
        assert_eq!(kinds("R &amp; L")[1], Kind::W(W::And));
        assert_eq!(kinds("W3"), [Kind::W(W::Wall), Kind::Number(3)]);
        assert_eq!(
            kinds("② Ｒ、Ｌ")[..4],
            [Kind::Sign('#'), Kind::Number(2), Kind::W(W::R), Kind::Sign(',')]
        );
        assert_eq!(kinds("① R ② L")[..2], [Kind::Number(1), Kind::W(W::R)]);
    }
}
