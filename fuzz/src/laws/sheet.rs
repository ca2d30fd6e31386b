//! The parser of sheets: places, order, work.

use halfcount::figures::lexicon;
use halfcount::sheet::{SectionText, Slots, parse};
use halfcount::text::Span;

use super::must;

/// Steps of the search for a byte of text at most, and for the shortest text. A row of readings stands behind
/// each word, so the bound is not small; what counts is that it does not grow with the text.
const WORK_A_BYTE: u64 = 4000;

pub(super) fn holds(text: &str) -> Result<(), String> {
    let plain = halfcount::check::hidden(text);
    must(plain.len() == text.len(), || format!("hidden: {} bytes became {}", text.len(), plain.len()))?;
    let sheet = parse(&plain, &lexicon().vocabulary);
    let inside = |what: &str, span: Span| {
        must(span.start <= span.end && text.get(span.range()).is_some(), || {
            format!("span of {what}: {span:?} is no place in the text")
        })
    };
    let h = &sheet.head;
    for (what, span) in [("title", h.title), ("author", h.author), ("music", h.music)] {
        inside(what, span)?;
    }
    for note in &sheet.notes {
        inside("note", *note)?;
    }
    for typo in &sheet.typos {
        inside("typo", typo.span)?;
    }
    for mention in &sheet.mentions {
        inside("mention", mention.span)?;
    }
    let of_parts = sheet.parts.iter().flat_map(|p| &p.sections);
    for part in &sheet.parts {
        inside("part", part.span)?;
    }
    for s in of_parts.chain(sheet.own.iter().map(|o| &o.section)) {
        inside("section", s.span)?;
        section(s, &inside)?;
    }
    must(sheet == parse(&plain, &lexicon().vocabulary), || {
        "parse: a second look gives another sheet".to_owned()
    })?;
    let reading = halfcount::read::read(&plain, &sheet);
    let most = (text.len() as u64 + 100) * WORK_A_BYTE;
    must(reading.work <= most, || format!("work: {} steps for {} bytes", reading.work, text.len()))?;
    for trouble in &reading.troubles {
        inside("trouble", trouble.span)?;
    }
    let moves = reading.dance.parts.iter().flat_map(|p| &p.sections).flat_map(|s| &s.moves);
    for m in moves {
        inside("move", m.span)?;
    }
    Ok(())
}

fn section(s: &SectionText, inside: &impl Fn(&str, Span) -> Result<(), String>) -> Result<(), String> {
    inside("name", s.name)?;
    for token in s.heading.iter().chain(&s.tokens) {
        inside("token", token.span)?;
    }
    let mut reached = 0;
    for chunk in &s.chunks {
        inside("mark", chunk.mark)?;
        must(chunk.from <= chunk.to && chunk.to <= s.tokens.len(), || {
            format!("chunk: {} to {} of {} tokens", chunk.from, chunk.to, s.tokens.len())
        })?;
        must(chunk.from >= reached, || format!("chunk: begins at {} before {reached}", chunk.from))?;
        reached = chunk.to;
        if let Slots::At { ticks, .. } = &chunk.slots {
            must(ticks.is_sorted(), || format!("slots: {ticks:?} do not rise"))?;
        }
    }
    Ok(())
}
