//! `halfcount draw`: footprints.

use clap::{Args, ValueEnum};
use halfcount::draw::{self, DrawOptions, Paper, View};
use halfcount::time::Ticks;

use super::out::Out;
use super::{Ending, Failure, SheetArgs, sheets};

/// Footprints on a plan of the floor
#[derive(Debug, Args)]
pub(crate) struct DrawArgs {
    #[command(flatten)]
    input: SheetArgs,
    /// A page to print (HTML): head, figures to know first, all sections, cautions
    #[arg(long, value_enum, value_name = "PAPER", conflicts_with_all = ["strip", "count"])]
    page: Option<Sheet>,
    /// What stands at the top of the plan
    #[arg(long, value_enum, default_value = "room")]
    view: Side,
    /// Only one moment, by the running count of the dance: 12, or 12& for the half-count after it
    #[arg(long, value_name = "N", value_parser = running, conflicts_with = "strip")]
    count: Option<Ticks>,
    /// Small drawings, one for each count and each half-count on which something is done
    #[arg(long)]
    strip: bool,
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

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Sheet {
    /// 210 by 297 mm
    A4,
    /// 8.5 by 11 inches
    Letter,
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
        let dance = &report.dance;
        if let Some(at) = args.count {
            return match draw::moment(dance, &sheet.text, at, &how) {
                Some(picture) => Ok(picture.svg),
                None => Err(format!("there is no count {at}; the dance has {} counts", dance.head.counts)),
            };
        }
        if let Some(sheet_size) = args.page {
            let paper = match sheet_size {
                Sheet::A4 => Paper::A4,
                Sheet::Letter => Paper::Letter,
            };
            return Ok(draw::page(dance, &sheet.text, paper, &how));
        }
        if args.strip {
            return Ok(draw::strip_sheet(dance, &sheet.text, &how));
        }
        Ok(draw::sheet(dance, &sheet.text, &how))
    };
    let all_read = sheets::each(given, work, |answer| out.put(&answer))?;
    out.close()?;
    Ok(if all_read { Ending::Sound } else { Ending::Wrong })
}

/// A running count: a number from 1 and the sign of a part of a count.
fn running(word: &str) -> Result<Ticks, String> {
    let wrong = "use a count such as 12, or 12& for the half-count after it";
    Ticks::of_words(word).ok_or_else(|| wrong.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_are_written_as_dancers_do() {
        assert_eq!(running("12&"), Ok(Ticks(300)));
        assert_eq!(running("1"), Ok(Ticks(24)));
        for bad in ["", "&", "0", "3x", "-2", "4&&"] {
            assert!(running(bad).is_err(), "{bad}");
        }
    }
}
