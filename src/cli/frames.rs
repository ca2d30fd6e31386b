//! `halfcount frames`: both feet at every half-count, or on another grid.

use clap::{Args, ValueEnum};
use halfcount::motion::{self, FrameRow};
use serde::Serialize;

use super::body::BodyArgs;
use super::out::Out;
use super::{Ending, Failure, SheetArgs, sheets};

/// Where both feet and the weight are at every half-count of one repetition
#[derive(Debug, Args)]
#[command(after_help = "\
x and y are metres from where the dance begins, x toward 3:00 and y toward 12:00, of the ball of the foot;
facing and toe are degrees clockwise from 12:00. The first row is the position before the first step. Each of
several sheets has a table of its own, with an empty line between them.

Examples:
  halfcount frames harbour-lights.txt --out feet.csv
  halfcount frames --per-count 8 --walls 4 --format json harbour-lights.txt")]
pub(crate) struct FramesArgs {
    #[command(flatten)]
    input: SheetArgs,
    /// How to write the rows
    #[arg(long, value_enum, default_value = "csv")]
    format: Format,
    /// Rows for each count: 1, 2, 3, 4, 6, 8, 12 or 24
    #[arg(long, value_name = "N", default_value_t = 2, value_parser = grid)]
    per_count: u32,
    /// Repetitions of the dance, 1 to 64
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..=64))]
    walls: u32,
    #[command(flatten)]
    body: BodyArgs,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// A table with a header line
    Csv,
    /// One object a sheet, a line each
    Json,
}

/// Ticks are whole, so a grid must divide the 24 of a count.
fn grid(word: &str) -> Result<u32, String> {
    let number = word.parse::<u32>().ok().filter(|n| (1..=24).contains(n) && 24 % n == 0);
    number.ok_or_else(|| "use 1, 2, 3, 4, 6, 8, 12 or 24".to_owned())
}

/// One sheet in `--format json`.
#[derive(Debug, Serialize)]
struct SheetJson<'a> {
    file: &'a str,
    frames: Vec<FrameRow>,
}

/// Carries the command out.
pub(crate) fn run(args: &FramesArgs) -> Result<Ending, Failure> {
    let given = &args.input.sheets;
    let mut out = Out::open(&args.input.out, given)?;
    let options = halfcount::Options::default();
    let body = args.body.body();
    let work = |sheet: &sheets::Sheet| {
        let report = halfcount::report(&sheet.text, &options).map_err(|error| error.to_string())?;
        let motion = motion::simulate(&report.dance, &body, args.walls);
        let frames = motion.frames(args.per_count);
        match args.format {
            Format::Csv => Ok(motion::csv(&frames)),
            Format::Json => {
                let line = serde_json::to_string(&SheetJson { file: &sheet.name, frames });
                line.map(|line| line + "\n").map_err(|error| error.to_string())
            }
        }
    };
    let mut first = true;
    let all_read = sheets::each(given, work, |answer| {
        if args.format == Format::Csv && !first {
            out.put("\n")?;
        }
        first = false;
        out.put(&answer)
    })?;
    out.close()?;
    Ok(if all_read { Ending::Sound } else { Ending::Wrong })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn grids_divide_a_count() {
        assert_eq!(grid("8"), Ok(8));
        for bad in ["0", "5", "25", "two", "-1"] {
            assert!(grid(bad).is_err(), "{bad}");
        }
    }
}
