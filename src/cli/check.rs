//! `halfcount check`: what cannot be danced as written, in words, JSON or SARIF.

use clap::{Args, ValueEnum};
use halfcount::check::{Finding, Severity, Sureness};
use halfcount::trace::{FindingTrace, UnreadTrace};
use serde::Serialize;

use super::body::BodyArgs;
use super::out::Out;
use super::{Ending, Failure, SheetArgs, sarif, sheets, text, write};

/// What cannot be danced as written, with the words of the sheet underlined and how to mend them
#[derive(Debug, Args)]
#[command(after_help = "\
An error cannot be danced as written, a warning is most likely a slip, a note is worth knowing. A mend marked
sure follows from something else in the sheet; between those marked choice only the author can decide. Every
mend was read again before it is offered.

Examples:
  halfcount check harbour-lights.txt
  halfcount check --allow weight-not-free sheets/
  halfcount check --fix --write harbour-lights.txt
  halfcount check --format sarif sheets/ --out findings.sarif
  cat harbour-lights.txt | halfcount check -

A remark in the sheet such as (allow weight-not-free) keeps a rule quiet: in a line with other words for that line,
on a line of its own for the whole sheet.

Exit status: 0 nothing above a note; 1 errors or warnings; 2 the call itself was wrong.")]
pub(crate) struct CheckArgs {
    #[command(flatten)]
    input: SheetArgs,
    /// How to write the findings
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
    /// Say nothing about RULE; may be given again for more rules
    #[arg(long, value_name = "RULE", value_parser = rule)]
    allow: Vec<String>,
    /// Make the mends that are sure and check what comes of them; nothing is written without --write
    #[arg(long)]
    fix: bool,
    /// Write the mended sheets; the old text stays beside each as NAME.before
    #[arg(long, requires = "fix")]
    write: bool,
    #[command(flatten)]
    body: BodyArgs,
}

/// The name of a rule, or what is wrong with it.
fn rule(name: &str) -> Result<String, String> {
    let names: Vec<&str> = halfcount::check::rules().iter().map(|r| r.name).collect();
    if names.contains(&name) {
        return Ok(name.to_owned());
    }
    let near = names
        .iter()
        .filter(|n| strsim::osa_distance(n, name) <= 3)
        .min_by_key(|n| strsim::osa_distance(n, name));
    Err(match near {
        Some(near) => format!("no rule has this name; {near} is meant, perhaps"),
        None => format!("no rule has this name; there are {}", names.join(", ")),
    })
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// Sentences, with the words of the sheet underlined
    Text,
    /// An array with an object for each sheet
    Json,
    /// SARIF 2.1.0, for editors and build servers
    Sarif,
}

/// What is kept of a sheet once it is checked.
#[derive(Debug)]
struct Checked {
    /// The mended sheet, to be written once it is its turn.
    mended: Option<(String, halfcount::Mended)>,
    /// The answer in the format asked for, as far as it concerns this sheet alone.
    answer: Answer,
    sum: Sum,
}

#[derive(Debug)]
enum Answer {
    Written(String),
    Sarif(sarif::Sheet),
}

/// One sheet in `--format json`.
#[derive(Debug, Serialize)]
struct SheetJson<'a> {
    file: &'a str,
    title: &'a str,
    errors: usize,
    warnings: usize,
    notes: usize,
    findings: Vec<FindingTrace>,
    unread: Vec<UnreadTrace>,
}

/// How many of each.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
struct Sum {
    sheets: usize,
    errors: usize,
    warnings: usize,
    notes: usize,
    sure: usize,
    choice: usize,
}

impl Sum {
    fn of(findings: &[Finding]) -> Self {
        let severe = |severity| findings.iter().filter(|f| f.severity == severity).count();
        // Of several mends for one finding only one can be made, so a finding counts once.
        let best =
            |s| findings.iter().filter(|f| f.fixes.iter().map(|x| x.sureness).min() == Some(s)).count();
        Self {
            sheets: 1,
            errors: severe(Severity::Error),
            warnings: severe(Severity::Warning),
            notes: severe(Severity::Note),
            sure: best(Sureness::Sure),
            choice: best(Sureness::Choice),
        }
    }

    fn add(&mut self, other: Self) {
        self.sheets += other.sheets;
        self.errors += other.errors;
        self.warnings += other.warnings;
        self.notes += other.notes;
        self.sure += other.sure;
        self.choice += other.choice;
    }

    /// The last line of the answer in words.
    fn line(self) -> String {
        let many = |n: usize, word: &str| format!("{n} {word}{}", if n == 1 { "" } else { "s" });
        let mut line = format!("{} read: ", many(self.sheets, "sheet"));
        if self.errors + self.warnings + self.notes == 0 {
            line.push_str("nothing to mend.");
            return line;
        }
        let found = [(self.errors, "error"), (self.warnings, "warning"), (self.notes, "note")];
        let found: Vec<String> = found.iter().filter(|f| f.0 > 0).map(|f| many(f.0, f.1)).collect();
        line.push_str(&found.join(", "));
        if self.sure + self.choice > 0 {
            let mends = [(self.sure, "surely"), (self.choice, "by choice")];
            let mends: Vec<String> =
                mends.iter().filter(|m| m.0 > 0).map(|m| format!("{} {}", m.0, m.1)).collect();
            line.push_str("; can be mended: ");
            line.push_str(&mends.join(", "));
        }
        line.push('.');
        line
    }
}

/// Carries the command out.
pub(crate) fn run(args: &CheckArgs) -> Result<Ending, Failure> {
    let given = &args.input.sheets;
    let mut out = Out::open(&args.input.out, given)?;
    let colours = out.colours();
    let mut options = halfcount::Options::default();
    options.allow.clone_from(&args.allow);
    options.body = args.body.body();
    if args.write && given.iter().any(|path| path.as_os_str() == "-") {
        return Err(Failure::Call("standard input has no file to write to; leave --write out".to_owned()));
    }
    let work = |sheet: &sheets::Sheet| {
        let mended = if args.fix {
            let mended = halfcount::mended(&sheet.text, &options).map_err(|error| error.to_string())?;
            (!mended.done.is_empty()).then(|| (sheet.name.clone(), mended))
        } else {
            None
        };
        // What is said is about the text as it is after the mends.
        let text = mended.as_ref().map_or(&sheet.text, |(_, m)| &m.text);
        let sheet = &sheets::Sheet::of(&sheet.name, text);
        let report = halfcount::report(&sheet.text, &options).map_err(|error| error.to_string())?;
        let sum = Sum::of(&report.findings);
        let answer = match args.format {
            Format::Text => {
                Answer::Written(text::findings(&sheet.name, &sheet.text, &report.findings, colours))
            }
            Format::Sarif => Answer::Sarif(sarif::sheet(&sheet.name, &sheet.text, &report.findings)),
            Format::Json => {
                let json = SheetJson {
                    file: &sheet.name,
                    title: &report.dance.head.title,
                    errors: sum.errors,
                    warnings: sum.warnings,
                    notes: sum.notes,
                    findings: halfcount::trace::findings(&report, &sheet.text),
                    unread: halfcount::trace::unread(&report.unread, &sheet.text),
                };
                Answer::Written(serde_json::to_string(&json).map_err(|error| error.to_string())?)
            }
        };
        Ok(Checked { mended, answer, sum })
    };

    let mut sum = Sum::default();
    let mut log = Vec::new();
    let all_read = sheets::each(given, work, |checked| {
        let first = sum.sheets == 0;
        sum.add(checked.sum);
        if let Some((name, mended)) = checked.mended {
            if args.write {
                write::replace(&name, &mended.text)?;
            }
            for (rule, title) in &mended.done {
                let how = if args.write { "mended" } else { "would be mended" };
                super::say(&format!("{name}: {how}: {title} ({rule})"));
            }
        }
        match checked.answer {
            Answer::Sarif(sheet) => log.push(sheet),
            Answer::Written(answer) if args.format == Format::Json => {
                out.put(if first { "[\n" } else { ",\n" })?;
                out.put(&answer)?;
            }
            Answer::Written(answer) => out.put(&answer)?,
        }
        Ok(())
    })?;
    match args.format {
        Format::Text if sum.sheets > 0 => out.put(&format!("{}\n", sum.line()))?,
        Format::Text => {}
        Format::Json if sum.sheets > 0 => out.put("\n]\n")?,
        Format::Json => out.put("[]\n")?,
        Format::Sarif => out.put(&sarif::log(&log, all_read))?,
    }
    out.close()?;
    Ok(if !all_read {
        Ending::Wrong
    } else if sum.errors + sum.warnings > 0 {
        Ending::Found
    } else {
        Ending::Sound
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sum_counts_in_words() {
        let mut sum = Sum { sheets: 1, ..Sum::default() };
        assert_eq!(sum.line(), "1 sheet read: nothing to mend.");
        sum.add(Sum { sheets: 1, errors: 1, warnings: 2, sure: 1, choice: 2, ..Sum::default() });
        assert_eq!(sum.line(), "2 sheets read: 1 error, 2 warnings; can be mended: 1 surely, 2 by choice.");
    }
}
