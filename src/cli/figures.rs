//! `halfcount figures`: the lexicon, or one figure of it with its steps.

use std::fmt::Write as _;

use clap::{Args, ValueEnum};
use halfcount::dance::Weight;
use halfcount::figures::{Figure, Shown, lexicon};

use super::out::Out;
use super::{Ending, Failure, OutArgs};

/// The figures that are known, or one of them with its steps
#[derive(Debug, Args)]
#[command(after_help = "\
Figures are shown as led by the right foot; led by the left, each is its own mirror image.

Examples:
  halfcount figures
  halfcount figures \"jazz box\"
  halfcount figures --format json --out figures.json")]
pub(crate) struct FiguresArgs {
    /// A figure by its name or one of its other names
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
    /// A line for each figure, or all about one
    Text,
    /// An array of figures, or one object
    Json,
}

/// Carries the command out.
pub(crate) fn run(args: &FiguresArgs) -> Result<Ending, Failure> {
    let mut out = Out::open(&args.out, &[])?;
    let wanted = args.name.join(" ");
    let all = &lexicon().figures;
    match (args.format, wanted.is_empty()) {
        (Format::Text, true) => {
            let width = all.iter().map(|f| f.name.chars().count()).max().unwrap_or(0);
            for figure in all {
                out.put(&line(&Shown::of(figure), width))?;
            }
        }
        (Format::Json, true) => {
            let lines: Result<Vec<String>, Failure> = all.iter().map(|f| json(&Shown::of(f))).collect();
            out.put(&format!("[\n{}\n]\n", lines?.join(",\n")))?;
        }
        (Format::Text, false) => out.put(&page(&Shown::of(named(&wanted)?)))?,
        (Format::Json, false) => out.put(&format!("{}\n", json(&Shown::of(named(&wanted)?))?))?,
    }
    out.close()?;
    Ok(Ending::Sound)
}

fn json(entry: &Shown) -> Result<String, Failure> {
    serde_json::to_string(entry).map_err(|error| Failure::Call(error.to_string()))
}

/// The figure of a name, or a sentence with the names that come near.
fn named(wanted: &str) -> Result<&'static Figure, Failure> {
    let lexicon = lexicon();
    if let Some((_, figure)) = lexicon.find(wanted) {
        return Ok(figure);
    }
    let near = lexicon.near(wanted);
    let hint = match near.as_slice() {
        [] => "halfcount figures lists all of them".to_owned(),
        near => format!("near it are: {}", near.join("; ")),
    };
    Err(Failure::Call(format!("no figure is called {wanted}; {hint}")))
}

/// One line of the list.
fn line(entry: &Shown, width: usize) -> String {
    let counts = counts(entry.counts);
    format!("{:<width$}  {counts:>9}  {:<24}  {}\n", entry.name, entry.rhythm, entry.level)
}

/// All about one figure.
fn page(entry: &Shown) -> String {
    let mut page = format!("{}\n", entry.name);
    let mut row = |label: &str, text: &str| {
        if !text.is_empty() {
            // Writing to a string never fails.
            let _ = writeln!(page, "  {label:<7} {text}");
        }
    };
    row("also", &entry.also.join("; "));
    row("lead", entry.lead);
    row("level", entry.level);
    row("counts", &format!("{} ({})", entry.counts, entry.rhythm));
    row("before", &format!("weight {}", weight(entry.weight_start)));
    let width = entry.steps.iter().map(|s| s.step.chars().count()).max().unwrap_or(0);
    for (index, step) in entry.steps.iter().enumerate() {
        let turn = if step.turn_falls_here { ", a turn falls here" } else { "" };
        let text = format!("{:<3} {:<width$}  weight {}{turn}", step.count, step.step, weight(step.weight));
        row(if index == 0 { "steps" } else { "" }, &text);
    }
    row("turn", &entry.turn);
    row("calls", entry.calls);
    row("source", entry.source);
    page
}

fn weight(letter: &str) -> &'static str {
    if letter == Weight::Both.letter() {
        "on both"
    } else if letter == "L" {
        "on L"
    } else {
        "on R"
    }
}

fn counts(counts: u32) -> String {
    format!("{counts} count{}", if counts == 1 { "" } else { "s" })
}
