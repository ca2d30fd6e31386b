//! `halfcount trace`: one JSON object a sheet, a line each.

use clap::Args;

use super::body::BodyArgs;
use super::out::Out;
use super::{Ending, Failure, SheetArgs, sheets};

/// What a sheet says, count by count: one JSON object a sheet, a line each
#[derive(Debug, Args)]
#[command(after_help = "\
In the trace, 1R says that on count 1 the right foot takes the whole weight, 4- an action without a change of
weight or a hold, &L the half-count after the count before it, e and a the quarters, B weight on both feet.

Examples:
  halfcount trace harbour-lights.txt
  halfcount trace sheets/ --out traces.jsonl")]
pub(crate) struct TraceArgs {
    #[command(flatten)]
    input: SheetArgs,
    #[command(flatten)]
    body: BodyArgs,
}

/// Carries the command out.
pub(crate) fn run(args: &TraceArgs) -> Result<Ending, Failure> {
    let given = &args.input.sheets;
    let mut out = Out::open(&args.input.out, given)?;
    let mut options = halfcount::Options::default();
    options.body = args.body.body();
    let work = |sheet: &sheets::Sheet| {
        let report = halfcount::report(&sheet.text, &options).map_err(|error| error.to_string())?;
        let traced = halfcount::trace::trace(&report, &sheet.text, &sheet.name);
        serde_json::to_string(&traced).map_err(|error| error.to_string())
    };
    let all_read = sheets::each(given, work, |line| out.put(&format!("{line}\n")))?;
    out.close()?;
    Ok(if all_read { Ending::Sound } else { Ending::Wrong })
}
