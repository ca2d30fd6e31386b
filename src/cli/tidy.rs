//! `halfcount tidy`: the sheet in one clean manner.

use clap::Args;
use halfcount::tidy::{TidyOptions, tidy};

use super::out::Out;
use super::{Ending, Failure, SheetArgs, sheets};

/// The sheet written in one clean manner, reading to the same steps
#[derive(Debug, Args)]
#[command(after_help = "\
Head fields and remarks are kept; each line holds a figure or a group of counts, and the clock stands where a
section ends. Several sheets follow each other with a line of dashes between them.

Examples:
  halfcount tidy harbour-lights.txt
  halfcount tidy --mirror harbour-lights.txt --out other-foot.txt")]
pub(crate) struct TidyArgs {
    /// On the other foot: left for right, and the clock with it
    #[arg(long)]
    mirror: bool,
    #[command(flatten)]
    input: SheetArgs,
}

/// Carries the command out.
pub(crate) fn run(args: &TidyArgs) -> Result<Ending, Failure> {
    let given = &args.input.sheets;
    let mut out = Out::open(&args.input.out, given)?;
    let mut options = TidyOptions::default();
    options.mirror = args.mirror;
    let work = |sheet: &sheets::Sheet| tidy(&sheet.text, &options).map_err(|error| error.to_string());
    let mut first = true;
    let all_read = sheets::each(given, work, |text| {
        if !core::mem::take(&mut first) {
            out.put("\n----\n\n")?;
        }
        out.put(&text)
    })?;
    out.close()?;
    Ok(if all_read { Ending::Sound } else { Ending::Wrong })
}
