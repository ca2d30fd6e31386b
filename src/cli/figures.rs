//! `halfcount figures`: the lexicon, or one figure of it with its steps.

use std::fmt::Write as _;

use clap::{Args, ValueEnum};
use halfcount::dance::Weight;
use halfcount::figures::{Figure, Lead, lexicon};
use serde::Serialize;

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

/// A figure as it is shown.
#[derive(Debug, Serialize)]
struct Entry {
    name: &'static str,
    also: Vec<&'static str>,
    lead: &'static str,
    level: &'static str,
    counts: u32,
    rhythm: String,
    weight_start: &'static str,
    steps: Vec<StepEntry>,
    weight_end: &'static str,
    turn: String,
    calls: &'static str,
    source: &'static str,
}

/// One step of a figure.
#[derive(Debug, Serialize)]
struct StepEntry {
    count: String,
    step: &'static str,
    weight: &'static str,
    turn_falls_here: bool,
}

impl Entry {
    fn of(figure: &'static Figure) -> Self {
        let mut weight = figure.start;
        let pieces = figure.steps_text.split([',', ';']).map(str::trim);
        let step = |(index, (step, piece)): (usize, (&halfcount::figures::Step, &'static str))| {
            weight = step.weigh(weight).0;
            StepEntry {
                // What stands before count 1 is a mere "and" to a dancer.
                count: step.at.to_string().trim_start_matches('0').to_owned(),
                step: piece.split_once(' ').map_or(piece, |(_, words)| words),
                weight: weight.letter(),
                turn_falls_here: index + 1 == figure.turn_on,
            }
        };
        Self {
            name: figure.name,
            also: figure.also.clone(),
            lead: match figure.lead {
                Lead::Either => "either foot",
                Lead::UsuallyRight => "mostly the right foot",
                Lead::UsuallyLeft => "mostly the left foot",
                Lead::Both => "both feet",
            },
            level: figure.level,
            counts: figure.counts(),
            rhythm: rhythm(figure),
            weight_start: figure.start.letter(),
            steps: figure.steps.iter().zip(pieces).enumerate().map(step).collect(),
            weight_end: figure.weigh().0.letter(),
            turn: figure.turn().to_string(),
            calls: figure.call,
            source: figure.source,
        }
    }
}

/// The counts on which something is done, as teachers write them: `1&2 3 4`.
fn rhythm(figure: &Figure) -> String {
    let mut rhythm = String::new();
    let mut before = None;
    for step in &figure.steps {
        if before == Some(step.at) {
            continue;
        }
        let sign = step.at.sign();
        // A half-count joins its neighbours; whole counts stand apart.
        let joined = !sign.is_empty() || rhythm.ends_with(['e', '&', 'a']);
        if !rhythm.is_empty() && !joined {
            rhythm.push(' ');
        }
        if sign.is_empty() {
            rhythm.push_str(&step.at.count().to_string());
        } else {
            rhythm.push_str(sign);
        }
        before = Some(step.at);
    }
    rhythm
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
                out.put(&line(&Entry::of(figure), width))?;
            }
        }
        (Format::Json, true) => {
            let lines: Result<Vec<String>, Failure> = all.iter().map(|f| json(&Entry::of(f))).collect();
            out.put(&format!("[\n{}\n]\n", lines?.join(",\n")))?;
        }
        (Format::Text, false) => out.put(&page(&Entry::of(named(&wanted)?)))?,
        (Format::Json, false) => out.put(&format!("{}\n", json(&Entry::of(named(&wanted)?))?))?,
    }
    out.close()?;
    Ok(Ending::Sound)
}

fn json(entry: &Entry) -> Result<String, Failure> {
    serde_json::to_string(entry).map_err(|error| Failure::Call(error.to_string()))
}

/// The figure of a name, or a sentence with the names that come near.
fn named(wanted: &str) -> Result<&'static Figure, Failure> {
    let lexicon = lexicon();
    if let Some((_, figure)) = lexicon.find(wanted) {
        return Ok(figure);
    }
    let folded = wanted.to_lowercase();
    let names = lexicon.figures.iter().flat_map(|f| std::iter::once(f.name).chain(f.also.iter().copied()));
    let mut near: Vec<(f64, &str)> = names
        .map(|name| {
            let other = name.to_lowercase();
            let inside = if other.contains(&folded) { 1.0 } else { 0.0 };
            (inside + strsim::jaro_winkler(&folded, &other), name)
        })
        .filter(|(likeness, _)| *likeness > 0.85)
        .collect();
    near.sort_by(|a, b| b.0.total_cmp(&a.0));
    near.dedup_by_key(|n| n.1);
    let near: Vec<&str> = near.iter().take(4).map(|n| n.1).collect();
    let hint = match near.as_slice() {
        [] => "halfcount figures lists all of them".to_owned(),
        near => format!("near it are: {}", near.join("; ")),
    };
    Err(Failure::Call(format!("no figure is called {wanted}; {hint}")))
}

/// One line of the list.
fn line(entry: &Entry, width: usize) -> String {
    let counts = counts(entry.counts);
    format!("{:<width$}  {counts:>9}  {:<24}  {}\n", entry.name, entry.rhythm, entry.level)
}

/// All about one figure.
fn page(entry: &Entry) -> String {
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
