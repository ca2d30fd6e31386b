//! `halfcount draw`: footprints.

use clap::{Args, ValueEnum};
use halfcount::dance::Dance;
use halfcount::draw::{self, DrawOptions, Paper, View};
use halfcount::time::Ticks;

use super::body::BodyArgs;
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
    #[command(flatten)]
    body: BodyArgs,
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
    how.body = args.body.body();
    how.view = match args.view {
        Side::Room => View::Room,
        Side::Dancer => View::Dancer,
        Side::Teacher => View::Teacher,
    };
    let work = |sheet: &sheets::Sheet| {
        let report = halfcount::report(&sheet.text, &options).map_err(|error| error.to_string())?;
        // A moment that the dance does not reach is the fault of the sheet, told with its name.
        if let Some(at) = args.count
            && draw::moment(&report.dance, &sheet.text, at, &how).is_none()
        {
            let counts = report.dance.head.counts;
            return Err(format!("there is no count {at}; the dance has {counts} counts"));
        }
        Ok((report.dance, sheet.text.clone()))
    };
    let mut dances = Vec::new();
    let all_read = sheets::each(given, work, |answer| {
        dances.push(answer);
        Ok(())
    })?;
    if !dances.is_empty() {
        out.put(&one_file(&dances, args, &how))?;
    }
    out.close()?;
    Ok(if all_read { Ending::Sound } else { Ending::Wrong })
}

/// All dances in one document, however many they are.
fn one_file(dances: &[(Dance, String)], args: &DrawArgs, how: &DrawOptions) -> String {
    if let Some(size) = args.page {
        let paper = match size {
            Sheet::A4 => Paper::A4,
            Sheet::Letter => Paper::Letter,
        };
        let all: Vec<(&Dance, &str)> = dances.iter().map(|(dance, text)| (dance, text.as_str())).collect();
        return draw::pages(&all, paper, how);
    }
    let drawing = |(i, (dance, text)): (usize, &(Dance, String))| {
        let mut how = how.clone();
        if dances.len() > 1 {
            how.prefix = format!("{}-", i + 1);
        }
        match args.count {
            Some(at) => draw::moment(dance, text, at, &how).map(|picture| picture.svg).unwrap_or_default(),
            None if args.strip => draw::strip_sheet(dance, text, &how),
            None => draw::sheet(dance, text, &how),
        }
    };
    let drawings: Vec<String> = dances.iter().enumerate().map(drawing).collect();
    draw::below_each_other(&drawings, "all-")
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
