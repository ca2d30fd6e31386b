//! The writer of SVG: elements, attributes and numbers, and nothing that a browser would have to measure.
//!
//! Numbers have two decimals at most, no trailing zeros and no minus before a zero, so that the same drawing
//! has the same bytes everywhere. Looks are presentation attributes, which any style sheet of a page overrides.

use core::fmt::Write as _;

/// An SVG text in the making.
#[derive(Debug, Default)]
pub(super) struct Svg {
    out: String,
    open: Vec<&'static str>,
    in_tag: bool,
}

impl Svg {
    /// Begins an element; attributes may follow.
    pub(super) fn open(&mut self, tag: &'static str) -> &mut Self {
        self.finish_tag();
        self.out.push('<');
        self.out.push_str(tag);
        self.open.push(tag);
        self.in_tag = true;
        self
    }

    fn finish_tag(&mut self) {
        if core::mem::take(&mut self.in_tag) {
            self.out.push('>');
        }
    }

    /// An attribute of the element just begun.
    pub(super) fn attr(&mut self, name: &str, value: &str) -> &mut Self {
        if self.in_tag {
            self.out.push(' ');
            self.out.push_str(name);
            self.out.push_str("=\"");
            escape(&mut self.out, value);
            self.out.push('"');
        }
        self
    }

    /// An attribute that is a number.
    pub(super) fn num(&mut self, name: &str, value: f64) -> &mut Self {
        let mut text = String::new();
        number(&mut text, value);
        self.attr(name, &text)
    }

    /// An attribute that is a whole number.
    pub(super) fn whole(&mut self, name: &str, value: u32) -> &mut Self {
        let mut text = String::new();
        let _ = write!(text, "{value}");
        self.attr(name, &text)
    }

    /// The class of a kind of thing.
    pub(super) fn class(&mut self, name: &str) -> &mut Self {
        self.attr("class", name)
    }

    /// A line of this breadth in the colour of the text, nothing inside.
    pub(super) fn line(&mut self, breadth: f64) -> &mut Self {
        self.attr("fill", "none").attr("stroke", "currentColor").num("stroke-width", breadth)
    }

    /// Ends the element begun last.
    pub(super) fn end(&mut self) -> &mut Self {
        if let Some(tag) = self.open.pop() {
            if core::mem::take(&mut self.in_tag) {
                self.out.push_str("/>");
            } else {
                self.out.push_str("</");
                self.out.push_str(tag);
                self.out.push('>');
            }
        }
        self
    }

    /// Words inside the element.
    pub(super) fn words(&mut self, words: &str) -> &mut Self {
        self.finish_tag();
        escape(&mut self.out, words);
        self
    }

    /// A line feed between elements, for people who read the file.
    pub(super) fn feed(&mut self) -> &mut Self {
        self.finish_tag();
        self.out.push('\n');
        self
    }

    /// Markup made by another writer.
    pub(super) fn raw(&mut self, markup: &str) -> &mut Self {
        self.finish_tag();
        self.out.push_str(markup);
        self
    }

    /// A text of its own, its baseline at a point.
    pub(super) fn text(&mut self, class: &str, at: (f64, f64), size: f64, anchor: Anchor, words: &str) {
        self.open("text").class(class).num("x", at.0).num("y", at.1).num("font-size", size);
        if anchor != Anchor::Start {
            self.attr("text-anchor", anchor.word());
        }
        self.words(words).end();
    }

    /// The finished text.
    pub(super) fn finish(mut self) -> String {
        while !self.open.is_empty() {
            self.end();
        }
        self.out
    }
}

/// Which point of a text stands at its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

impl Anchor {
    const fn word(self) -> &'static str {
        match self {
            Self::Start => "start",
            Self::Middle => "middle",
            Self::End => "end",
        }
    }
}

/// The data of a `path`: letters of commands and points.
#[derive(Debug, Default)]
pub(super) struct Data(pub(super) String);

impl Data {
    /// A command with its numbers.
    pub(super) fn to(&mut self, command: char, numbers: &[f64]) -> &mut Self {
        self.0.push(command);
        for (i, n) in numbers.iter().enumerate() {
            let from = self.0.len();
            number(&mut self.0, *n);
            if i > 0 && !self.0[from..].starts_with('-') {
                self.0.insert(from, ' ');
            }
        }
        self
    }

    /// Closes the figure.
    pub(super) fn close(&mut self) -> &mut Self {
        self.0.push('Z');
        self
    }
}

/// Writes a number.
pub(super) fn number(out: &mut String, value: f64) {
    // A coordinate beyond a million is a fault elsewhere and stays finite here.
    let value = if value.is_finite() { value.clamp(-1e6, 1e6) } else { 0.0 };
    #[allow(clippy::cast_possible_truncation, reason = "clamped to a hundred million hundredths")]
    let hundredths = (value * 100.0).round() as i64;
    if hundredths < 0 {
        out.push('-');
    }
    let size = hundredths.unsigned_abs();
    let _ = write!(out, "{}", size / 100);
    match size % 100 {
        0 => {}
        rest if rest % 10 == 0 => {
            let _ = write!(out, ".{}", rest / 10);
        }
        rest => {
            let _ = write!(out, ".{rest:02}");
        }
    }
}

/// Writes words so that they are words in markup, in an attribute and beside one.
pub(super) fn escape(out: &mut String, words: &str) {
    for c in words.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\n' | '\t' => out.push(' '),
            // XML has no other control characters, not even escaped, and these two are no characters.
            c if c.is_control() || c == '\u{fffe}' || c == '\u{ffff}' => {}
            c => out.push(c),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short() {
        for (value, want) in [
            (0.0, "0"),
            (-0.001, "0"),
            (1.5, "1.5"),
            (-2.004, "-2"),
            (0.05, "0.05"),
            (12.349, "12.35"),
            (f64::NAN, "0"),
            (-0.25, "-0.25"),
        ] {
            let mut out = String::new();
            number(&mut out, value);
            assert_eq!(out, want);
        }
    }

    #[test]
    fn elements_nest_and_words_are_escaped() {
        let mut svg = Svg::default();
        svg.open("g").class("a\"b").open("circle").num("r", 2.0).end();
        svg.text("t", (1.0, 2.0), 9.0, Anchor::Middle, "3& < 4\u{0}");
        let text = svg.finish();
        assert_eq!(
            text,
            "<g class=\"a&quot;b\"><circle r=\"2\"/><text class=\"t\" x=\"1\" y=\"2\" font-size=\"9\" \
             text-anchor=\"middle\">3&amp; &lt; 4</text></g>"
        );
    }

    #[test]
    fn paths_need_few_spaces() {
        let mut data = Data::default();
        data.to('M', &[1.0, -2.5]).to('l', &[-1.0, 2.0]).close();
        assert_eq!(data.0, "M1-2.5l-1 2Z");
    }
}
