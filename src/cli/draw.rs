//! `halfcount draw`: footprints.

use clap::{Args, ValueEnum};
use halfcount::draw::{self, DrawOptions, View};

use super::out::Out;
use super::{Ending, Failure, SheetArgs, sheets};

/// Footprints on a plan of the floor
#[derive(Debug, Args)]
pub(crate) struct DrawArgs {
    #[command(flatten)]
    input: SheetArgs,
    /// What stands at the top of the plan
    #[arg(long, value_enum, default_value = "room")]
    view: Side,
    /// Panels beside each other
    #[arg(long, value_name = "N", default_value_t = 2, value_parser = clap::value_parser!(u8).range(1..=8))]
    columns: u8,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Side {
    /// 12:00, the wall that the dance begins with
    Room,
    /// The wall that the dancer faces when the section begins
    Dancer,
    /// 6:00, as a teacher in front sees the class
    Teacher,
}

/// Carries the command out.
pub(crate) fn run(args: &DrawArgs) -> Result<Ending, Failure> {
    let given = &args.input.sheets;
    let mut out = Out::open(&args.input.out, given)?;
    let options = halfcount::Options::default();
    let mut how = DrawOptions::default();
    how.columns = usize::from(args.columns);
    how.view = match args.view {
        Side::Room => View::Room,
        Side::Dancer => View::Dancer,
        Side::Teacher => View::Teacher,
    };
    let work = |sheet: &sheets::Sheet| {
        let report = halfcount::report(&sheet.text, &options).map_err(|error| error.to_string())?;
        Ok(draw::sheet(&report.dance, &sheet.text, &how))
    };
    let all_read = sheets::each(given, work, |answer| out.put(&answer))?;
    out.close()?;
    Ok(if all_read { Ending::Sound } else { Ending::Wrong })
}
