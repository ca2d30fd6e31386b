//! Shows how a sheet is understood: its parts and chunks, and the moves made of them.
//!
//! `cargo run --example reading -- SHEET [LAYOUT]`; with a layout such as `Notes` as that layout reads it.

use halfcount::dance::Who;
use halfcount::figures::lexicon;
use halfcount::{Options, read, report, sheet};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let path = std::env::args().nth(1).ok_or("give the path of a sheet")?;
    let text = std::fs::read_to_string(path)?;
    let layout = std::env::args().nth(2);
    let named =
        read::LAYOUTS.into_iter().find(|l| layout.as_ref().is_some_and(|name| format!("{l:?}") == *name));
    let as_told = named.and_then(|l| sheet::parse_as(&text, &lexicon().vocabulary, l));
    let (s, understood) = match as_told {
        Some(s) => {
            let reading = read::read(&text, &s);
            (s, reading)
        }
        None => read::understood(&text),
    };
    let out = &mut std::io::stdout().lock();
    use std::io::Write;
    writeln!(out, "{:#?}", s.head)?;
    for part in &s.parts {
        writeln!(out, "PART {} {:?} divided {}", part.name, part.kind, part.divided)?;
        for section in &part.sections {
            writeln!(
                out,
                "  SECTION {:?} `{}` counts {:?} base {}",
                section.number,
                section.name.of(&text),
                section.counts.map(|c| c.0),
                section.base
            )?;
            for c in &section.chunks {
                let words: Vec<&str> =
                    section.tokens[c.from..c.to].iter().map(|t| t.span.of(&text)).collect();
                let slots = match &c.slots {
                    sheet::Slots::At { ticks, .. } => {
                        ticks.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ")
                    }
                    sheet::Slots::Total(n) => format!("total {n}"),
                    sheet::Slots::Free => "free".into(),
                };
                writeln!(out, "    [{slots}] {}", words.join(" "))?;
            }
        }
    }
    for m in &s.mentions {
        writeln!(
            out,
            "MENTION {:?} walls {:?} after {:?} section {:?} placed {:?} facings {:?} restart {}: {:?}",
            m.topic,
            m.walls,
            m.after_counts,
            m.after_section,
            m.placed,
            m.facings.iter().map(|f| f.0.to_string()).collect::<Vec<_>>(),
            m.then_restart,
            m.span.of(&text)
        )?;
    }
    for n in &s.notes {
        writeln!(out, "NOTE {:?}", n.of(&text))?;
    }
    let r = report(&text, &Options::default())?;
    for part in &understood.dance.parts {
        for (i, section) in part.sections.iter().enumerate() {
            writeln!(
                out,
                "{} {}: {} counts, to {} weight {}",
                part.name,
                i + 1,
                section.counts,
                section.facing_end,
                section.weight_end.letter()
            )?;
            for m in &section.moves {
                let who = match m.who {
                    Who::One(f) => f.letter(),
                    Who::Both => "B",
                    Who::Nobody => "-",
                };
                let figure = m
                    .figure
                    .and_then(|f| section.figures.get(usize::from(f)))
                    .map_or("", |f| f.name.as_str());
                writeln!(
                    out,
                    "   {:>4} {who} {} {} {} {} {} `{}` {figure}",
                    m.at.to_string(),
                    m.action.word(),
                    m.place.word(),
                    m.effect.sign(),
                    m.turn,
                    if m.broken.is_some() { "BROKEN" } else { "" },
                    m.span.of(&text)
                )?;
            }
        }
    }
    for u in &r.unread {
        writeln!(out, "UNREAD {:?}", u.span.of(&text))?;
    }
    for f in &r.findings {
        writeln!(
            out,
            "{} {} {:?} {:?}: {}",
            f.severity.word(),
            f.rule,
            f.section,
            f.at.map(|t| t.to_string()),
            f.message
        )?;
    }
    Ok(())
}
