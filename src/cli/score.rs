//! `halfcount score`: how hard a dance is, of what the number is made, and how sure it is.

mod account;
mod table;

use std::fs;
use std::path::PathBuf;

use clap::{Args, ValueEnum};
use halfcount::difficulty::{self, Choice, Score, ScoreOptions, Weights};
use halfcount::motion;

use super::body::BodyArgs;
use super::out::Out;
use super::{Ending, Failure, OutArgs, sheets, wrong};

/// How hard a dance is, of what the number is made, and how sure it is
#[derive(Debug, Args)]
#[command(after_help = "\
The score adds up from measures with the printed weights, 0 to 100. Its weights come from few and invented
labels, so it is provisional: use it to compare and to argue, not to rule. Where part of a sheet could not be
read there are bounds and no number. In the table, every measure has a column; --dictionary explains them.

Examples:
  halfcount score harbour-lights.txt
  halfcount score --explain --bpm 104 harbour-lights.txt
  halfcount score --format csv sheets/ --out scores.csv
  halfcount score --dictionary --format csv")]
pub(crate) struct ScoreArgs {
    /// Sheets: files, - for standard input, or folders for all sheets under them
    #[arg(required_unless_present_any = ["dictionary", "schema"], value_name = "SHEET")]
    sheets: Vec<PathBuf>,
    #[command(flatten)]
    out: OutArgs,
    /// How to write the score
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
    /// Beats a minute, instead of what the sheet says, 20 to 400
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(20..=400))]
    bpm: Option<u32>,
    /// Weights and levels of your own, in the form of the file that comes with halfcount
    #[arg(long, value_name = "FILE")]
    weights: Option<PathBuf>,
    /// The full account: every measure, weight and count
    #[arg(long)]
    explain: bool,
    /// The data dictionary: every column of the table with unit, range and source
    #[arg(long)]
    dictionary: bool,
    /// The schema of the JSON form
    #[arg(long, conflicts_with = "dictionary")]
    schema: bool,
    #[command(flatten)]
    body: BodyArgs,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// A short account for a teacher
    Text,
    /// One object a sheet, a line each
    Json,
    /// A row a sheet, a column a measure
    Csv,
}

/// The published schema of the JSON form.
const SCHEMA: &str = include_str!("score/score.schema.json");

/// A sheet, its score and what must be known of its text.
pub(super) struct Scored<'a> {
    /// Its name as given.
    file: &'a str,
    /// Its text.
    text: &'a str,
    /// Title as written.
    title: &'a str,
    /// Counts of each section, to tell the place of a count.
    sections: Vec<u32>,
    /// The score.
    score: &'a Score,
    /// The easier options that the sheet states, and the score with each.
    easier: &'a [Choice],
    /// The weights used.
    weights: &'a Weights,
}

/// Carries the command out.
pub(crate) fn run(args: &ScoreArgs) -> Result<Ending, Failure> {
    let mut out = Out::open(&args.out, &args.sheets)?;
    let weights = match &args.weights {
        None => Weights::default(),
        Some(file) => {
            let say = |why: String| Failure::Call(format!("{}: {why}", file.display()));
            let text = fs::read_to_string(file).map_err(|error| say(wrong::plain(&error)))?;
            Weights::parse(&text).map_err(|error| say(error.to_string()))?
        }
    };
    if args.schema || args.dictionary {
        let page = if args.schema { SCHEMA.to_owned() } else { table::dictionary(args.format, &weights)? };
        out.put(&page)?;
        out.close()?;
        return Ok(Ending::Sound);
    }
    let work = |sheet: &sheets::Sheet| one(args, &weights, sheet);
    if args.format == Format::Csv {
        out.put(&table::header())?;
    }
    let mut first = true;
    let all_read = sheets::each(&args.sheets, work, |answer| {
        if args.format == Format::Text && !first {
            out.put("\n")?;
        }
        first = false;
        out.put(&answer)
    })?;
    out.close()?;
    Ok(if all_read { Ending::Sound } else { Ending::Wrong })
}

/// The answer for one sheet.
fn one(args: &ScoreArgs, weights: &Weights, sheet: &sheets::Sheet) -> Result<String, String> {
    let mut options = ScoreOptions::default();
    options.body = args.body.body();
    let mut reading = halfcount::Options::default();
    reading.body = options.body;
    let report = halfcount::report(&sheet.text, &reading).map_err(|error| error.to_string())?;
    let motion = motion::simulate(&report.dance, &options.body, 1);
    options.tempo = args.bpm;
    options.weights.clone_from(weights);
    options.unread = difficulty::unread(&report.findings, &report.unread);
    options.brief = args.format == Format::Csv;
    let score = difficulty::score(&report.dance, &motion, &options);
    if args.format == Format::Csv {
        return Ok(table::row(&sheet.name, &score));
    }
    let easier = difficulty::choices(&sheet.text, &options, score.tempo);
    if args.format == Format::Json {
        let form = difficulty::form(&score, &easier, &sheet.text, &report.dance.head.title, &sheet.name);
        return serde_json::to_string(&form).map(|line| line + "\n").map_err(|error| error.to_string());
    }
    let scored = Scored {
        file: &sheet.name,
        text: &sheet.text,
        title: &report.dance.head.title,
        sections: report.dance.main_sections().map(|s| s.counts).collect(),
        score: &score,
        easier: &easier,
        weights,
    };
    Ok(account::account(&scored, args.explain))
}
