//! Whether what was written out is sound, and holds no markup but ours, whatever a title says.

use roxmltree::{Document, ParsingOptions};

/// Elements of our drawings.
const DRAWN: &[&str] = &[
    "svg", "title", "desc", "defs", "g", "path", "line", "rect", "circle", "ellipse", "polygon", "polyline",
    "text", "tspan", "use", "pattern", "marker", "clipPath", "symbol", "mask",
];

/// Elements of the hand-out beside those.
const PRINTED: &[&str] = &[
    "!DOCTYPE", "html", "head", "meta", "style", "body", "h1", "h2", "h3", "ul", "li", "p", "b", "i", "div",
    "section",
];

/// A drawing: well-formed, nothing but shapes and words, no act on an event, no address outside.
pub(crate) fn svg(text: &str) -> Result<(), String> {
    let options = ParsingOptions { nodes_limit: u32::MAX, ..ParsingOptions::default() };
    let document = Document::parse_with_options(text, options).map_err(|error| format!("svg: {error}"))?;
    for node in document.descendants().filter(roxmltree::Node::is_element) {
        let name = node.tag_name().name();
        if !DRAWN.contains(&name) {
            return Err(format!("svg element: {name}"));
        }
        for attribute in node.attributes() {
            let (name, value) = (attribute.name(), attribute.value());
            let outside = name == "href" && !value.starts_with('#');
            let number = value.contains("NaN") || value.contains("inf");
            if name.starts_with("on") || outside || (number && name != "class" && !name.starts_with("aria")) {
                return Err(format!("svg attribute: {name}={value}"));
            }
        }
    }
    Ok(())
}

/// A hand-out: every `<` begins an element of ours.
pub(crate) fn page(text: &str) -> Result<(), String> {
    for after in text.split('<').skip(1) {
        let name: String =
            after.trim_start_matches('/').chars().take_while(|c| c.is_alphanumeric() || *c == '!').collect();
        if !DRAWN.contains(&name.as_str()) && !PRINTED.contains(&name.as_str()) {
            return Err(format!("page element: {name:?}"));
        }
        let Some((tag, _)) = after.split_once('>') else {
            return Err(format!("page tag: no end of {name}"));
        };
        let acts = tag.split('"').step_by(2).any(|outside| {
            outside.split_whitespace().any(|word| word.to_lowercase().starts_with("on") && word.contains('='))
        });
        if acts || tag.matches('"').count() % 2 == 1 {
            return Err(format!("page tag: {tag}"));
        }
    }
    Ok(())
}

/// Captions after W3C WebVTT: blocks of a name, a line of times that rise, and one line of words.
pub(crate) fn captions(text: &str) -> Result<(), String> {
    let mut blocks = text.strip_suffix("\n\n").unwrap_or(text).split("\n\n");
    if blocks.next() != Some("WEBVTT") {
        return Err("captions: no header".to_owned());
    }
    for block in blocks {
        let lines: Vec<&str> = block.split('\n').collect();
        if lines[0].starts_with("NOTE ") {
            if lines.len() != 1 || block.contains("-->") {
                return Err(format!("captions note: {block}"));
            }
            continue;
        }
        let [id, times, words] = lines[..] else { return Err(format!("captions block: {block}")) };
        let sound = times.split(" --> ").count() == 2 && !id.contains("-->") && !words.contains("-->");
        let inner = words.split('<').skip(1).all(|after| {
            after
                .split_once('>')
                .is_some_and(|(time, _)| time.chars().all(|c| c.is_ascii_digit() || ":.".contains(c)))
        });
        if !sound || !inner || words.contains('\r') {
            return Err(format!("captions cue: {block}"));
        }
    }
    Ok(())
}
