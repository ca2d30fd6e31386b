//! Findings as a person reads them: the sentence, the words of the sheet underlined, and the mends.

use std::borrow::Cow;
use std::ops::Range;

use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Level, Patch, Renderer, Snippet, normalize_untrusted_str};
use halfcount::check::{Finding, Fix, Severity};
use halfcount::text::Span;

/// All findings of a sheet in order, an empty line after each; nothing for a sheet without findings.
pub(crate) fn findings(name: &str, text: &str, findings: &[Finding], colours: bool) -> String {
    let renderer = if colours {
        Renderer::styled().hyperlink(false).decor_style(DecorStyle::Unicode)
    } else {
        Renderer::plain()
    };
    let name = if name == "-" { "standard input" } else { name };
    let mut out = String::new();
    for finding in findings {
        out.push_str(&one(name, text, finding, &renderer));
        out.push_str("\n\n");
    }
    out
}

fn one(name: &str, text: &str, finding: &Finding, renderer: &Renderer) -> String {
    let level = match finding.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
        Severity::Note => Level::NOTE,
    };
    let spans = finding.related.iter().map(|r| r.span).fold(finding.span, Span::join);
    let window = Window::about(text, spans);
    let primary = AnnotationKind::Primary.span(window.range(finding.span)).label(place(finding));
    let related =
        finding.related.iter().map(|r| AnnotationKind::Context.span(window.range(r.span)).label(&*r.label));
    let snippet = Snippet::source(window.text())
        .line_start(window.line)
        .path(name)
        .annotation(primary)
        .annotations(related);
    let mut groups = vec![level.primary_title(&*finding.message).id(finding.rule).element(snippet)];

    let windows: Vec<(Window<'_>, &Fix)> = finding.fixes.iter().map(|fix| (of_fix(text, fix), fix)).collect();
    for (window, fix) in &windows {
        let title = format!("{} ({})", fix.title, fix.sureness.word());
        let patches = fix.edits.iter().map(|e| Patch::new(window.range(e.span), &*e.text));
        let snippet = Snippet::source(window.text()).line_start(window.line).path(name).patches(patches);
        let level = Level::HELP.with_name(Some("mend"));
        groups.push(level.secondary_title(normalize_untrusted_str(&title)).element(snippet));
    }
    renderer.render(&groups)
}

fn of_fix<'a>(text: &'a str, fix: &Fix) -> Window<'a> {
    let first = fix.edits.first().map(|e| e.span).unwrap_or_default();
    let last = fix.edits.last().map_or(first, |e| e.span);
    Window::about(text, Span { start: first.start, end: last.end.max(first.start) })
}

/// Where in the dance: `section 3, count 7&`, or the name of the tag.
fn place(finding: &Finding) -> String {
    let mut words = Vec::new();
    if finding.part != "main" && !finding.part.is_empty() {
        words.push(finding.part.clone());
    }
    words.extend(finding.section.map(|section| format!("section {section}")));
    words.extend(finding.at.map(|at| format!("count {at}")));
    words.join(", ")
}

/// The lines about a finding. A long sheet is not looked through again for each of its findings.
struct Window<'a> {
    text: &'a str,
    start: usize,
    line: usize,
}

impl<'a> Window<'a> {
    fn about(text: &'a str, span: Span) -> Self {
        let from = border(text, span.start as usize);
        let to = border(text, (span.end as usize).max(from));
        let start = text[..from].rfind(['\n', '\r']).map_or(0, |at| at + 1);
        let end = text[to..].find(['\n', '\r']).map_or(text.len(), |at| to + at);
        let lines = halfcount::text::LineIndex::new(&text[..start]);
        let (line, _) = lines.place(&text[..start], Span::new(start, start).start);
        Self { text: &text[start..end], start, line: line as usize }
    }

    /// The lines with line ends of one kind and the same length.
    fn text(&self) -> Cow<'a, str> {
        let lone = |(at, _): (usize, &str)| !self.text[at + 1..].starts_with('\n');
        if self.text.match_indices('\r').any(lone) {
            Cow::Owned(self.text.replace("\r\n", " \n").replace('\r', "\n"))
        } else {
            Cow::Borrowed(self.text)
        }
    }

    fn range(&self, span: Span) -> Range<usize> {
        let inside = |byte: u32| border(self.text, (byte as usize).saturating_sub(self.start));
        let start = inside(span.start);
        start..inside(span.end).max(start)
    }
}

/// The nearest border between characters at or before a byte.
fn border(text: &str, byte: usize) -> usize {
    let mut at = byte.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

#[cfg(test)]
mod tests {
    use super::*;
    use halfcount::check::{Related, Sureness};
    use halfcount::text::Edit;
    use halfcount::time::Ticks;

    fn span(text: &str, words: &str) -> Span {
        let at = text.find(words).expect("the words stand in the text");
        Span::new(at, at + words.len())
    }

    fn finding(text: &str, words: &str) -> Finding {
        Finding {
            rule: "weight-not-free",
            severity: Severity::Error,
            span: span(text, words),
            part: "main".into(),
            section: Some(1),
            at: Some(Ticks(84)),
            message: "The right foot has the weight already.".into(),
            related: Vec::new(),
            fixes: Vec::new(),
        }
    }

    #[test]
    fn the_words_are_underlined_and_the_mend_is_shown() {
        let text = "Lamp at the Quay\r\n\r\n1-2 Step R ½ fwd, step L\r\n3& Step R, step R\r\n";
        let mut found = finding(text, "step R");
        found.related.push(Related { span: span(text, "Step R,"), label: "it stepped here".into() });
        let edits = vec![Edit { span: found.span, text: "step L".into() }];
        found.fixes.push(Fix { title: "step on the left foot".into(), sureness: Sureness::Choice, edits });
        let shown = findings("lamp.txt", text, &[found], false);
        for part in [
            "error[weight-not-free]: The right foot has the weight already.",
            "lamp.txt:4:12",
            "4 | 3& Step R, step R",
            "^^^^^^ section 1, count 3&",
            "it stepped here",
            "mend: step on the left foot (choice)",
            "3& Step R, step L",
        ] {
            assert!(shown.contains(part), "{part} is missing in\n{shown}");
        }
        assert!(!shown.contains('\u{1b}'), "no colours were asked for");
    }

    #[test]
    fn odd_places_and_line_ends_do_no_harm() {
        for text in ["1 step R", "1 step R\r2 touch\r", "é½", "\u{feff}1 💃 R\n", "x\n\n\n"] {
            for start in 0..=text.len() + 1 {
                for end in start..=text.len() + 1 {
                    let mut found = finding("x", "x");
                    found.span = Span::new(start, end);
                    let edits = vec![Edit { span: found.span, text: "y\nz".into() }];
                    found.fixes.push(Fix { title: "mend".into(), sureness: Sureness::Sure, edits });
                    assert!(findings("-", text, &[found], true).contains("standard input"));
                }
            }
        }
    }

    #[test]
    fn a_lone_carriage_return_ends_a_line() {
        let text = "Lamp\r1 step R\r2 step R";
        let shown = findings("lamp.txt", text, &[finding(text, "2 step R")], false);
        assert!(shown.contains("lamp.txt:3:1"), "{shown}");
    }
}
