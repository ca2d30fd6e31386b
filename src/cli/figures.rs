//! `halfcount figures`: the lexicon, or one figure of it with its steps.

use std::fmt::Write as _;
use std::path::PathBuf;

use clap::{Args, ValueEnum};
use serde::Serialize;

use super::out::Out;
use super::{Ending, Failure, OutArgs};

/// The figures that are known, or one of them with its steps
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  halfcount figures
  halfcount figures \"jazz box\"
  halfcount figures --format json --out figures.json")]
pub(crate) struct FiguresArgs {
    /// A figure by name or synonym; several words need no quotation marks
    #[arg(value_name = "NAME")]
    name: Vec<String>,
    /// How to write the figures
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
    #[command(flatten)]
    out: OutArgs,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// Sentences
    Text,
    /// An array with an object for each figure
    Json,
}

/// A figure as it is shown.
#[derive(Debug, Serialize)]
struct Entry {
    name: String,
    synonyms: Vec<String>,
    family: String,
    level: String,
    lead: String,
    counts: u32,
    rhythm: String,
    steps: Vec<String>,
    calls: Vec<String>,
    source: String,
}

/// Carries the command out.
pub(crate) fn run(args: &FiguresArgs) -> Result<Ending, Failure> {
    let no_sheets: [PathBuf; 0] = [];
    let mut out = Out::open(&args.out, &no_sheets)?;
    let wanted = args.name.join(" ");
    let found = if wanted.is_empty() { all() } else { named(&wanted)? };
    match args.format {
        Format::Json => {
            let rows: Result<Vec<String>, _> = found.iter().map(serde_json::to_string).collect();
            let rows = rows.map_err(|error| Failure::Call(error.to_string()))?;
            out.put(&format!("[\n{}\n]\n", rows.join(",\n")))?;
        }
        Format::Text if wanted.is_empty() => {
            for entry in &found {
                out.put(&line(entry))?;
            }
        }
        Format::Text => {
            for entry in &found {
                out.put(&page(entry))?;
            }
        }
    }
    out.close()?;
    Ok(Ending::Sound)
}

/// The whole lexicon.
fn all() -> Vec<Entry> {
    Vec::new()
}

/// The figures of this name, or a sentence with the names that come near.
fn named(wanted: &str) -> Result<Vec<Entry>, Failure> {
    let folded = wanted.to_lowercase().replace('-', " ");
    let same = |name: &String| name.to_lowercase().replace('-', " ") == folded;
    let found: Vec<Entry> = all()
        .into_iter()
        .filter(|e| same(&e.name) || e.synonyms.iter().any(same))
        .collect();
    if !found.is_empty() {
        return Ok(found);
    }
    let known = all();
    let names = known
        .iter()
        .flat_map(|e| std::iter::once(&e.name).chain(&e.synonyms));
    let near: Vec<String> = names
        .filter(|n| n.to_lowercase().contains(&folded))
        .take(5)
        .cloned()
        .collect();
    let near = if near.is_empty() {
        String::new()
    } else {
        format!("; near it are: {}", near.join(", "))
    };
    Err(Failure::Call(format!("no figure is called {wanted}{near}")))
}

/// One line of the list.
fn line(entry: &Entry) -> String {
    let mut line = format!("{} ({}, {})", entry.name, many(entry.counts), entry.rhythm);
    if !entry.synonyms.is_empty() {
        line.push_str(", also ");
        line.push_str(&entry.synonyms.join(", "));
    }
    line.push('\n');
    line
}

/// All about one figure.
fn page(entry: &Entry) -> String {
    let mut page = format!("{}\n", entry.name);
    let mut row = |label: &str, text: &str| {
        if !text.is_empty() {
            // Writing to a string never fails.
            let _ = writeln!(page, "  {label:<8} {text}");
        }
    };
    row("also", &entry.synonyms.join(", "));
    row("family", &entry.family);
    row("level", &entry.level);
    row("lead", &entry.lead);
    row("counts", &format!("{} ({})", entry.counts, entry.rhythm));
    for (index, step) in entry.steps.iter().enumerate() {
        row(if index == 0 { "steps" } else { "" }, step);
    }
    row("calls", &entry.calls.join(", "));
    row("source", &entry.source);
    page
}

fn many(counts: u32) -> String {
    format!("{counts} count{}", if counts == 1 { "" } else { "s" })
}
