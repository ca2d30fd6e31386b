//! The commands, their arguments and how a call ends.
//!
//! Each command has a file of its own with its arguments and one function that carries it out. To add one:
//! write that file, name it in [`Command`], and give it an arm in [`carry_out`].

mod body;
mod call;
mod check;
mod draw;
mod figures;
mod frames;
mod out;
mod sarif;
mod score;
mod sheets;
mod text;
mod tidy;
mod trace;
mod write;
mod wrong;

use std::ffi::OsString;
use std::io::{self, Write as _};
use std::path::PathBuf;
use std::process::ExitCode;

use clap::{Args, Parser, Subcommand};

/// The whole call.
#[derive(Debug, Parser)]
#[command(
    name = "halfcount",
    version,
    about = "Reads line dance step sheets and says where each foot and the weight are, and what cannot be danced",
    after_help = "\
A SHEET is a text file, or - for standard input; a folder means all sheets under it (*.txt, *.md, *.text).

Examples:
  halfcount check harbour-lights.txt
  halfcount check --format json sheets/
  halfcount trace sheets/ --out traces.jsonl
  halfcount frames --per-count 4 harbour-lights.txt
  halfcount tidy --mirror harbour-lights.txt
  halfcount call --bpm 104 harbour-lights.txt
  halfcount figures \"jazz box\"

Exit status: 0 nothing above a note; 1 errors or warnings (only check); 2 the call itself was wrong."
)]
struct Call {
    #[command(subcommand)]
    command: Command,
}

/// What is asked for.
#[derive(Debug, Subcommand)]
enum Command {
    Check(check::CheckArgs),
    Trace(trace::TraceArgs),
    Frames(frames::FramesArgs),
    Draw(draw::DrawArgs),
    Tidy(tidy::TidyArgs),
    Score(score::ScoreArgs),
    Call(call::CallArgs),
    Figures(figures::FiguresArgs),
}

/// Arguments of every command that reads sheets.
#[derive(Debug, Args)]
struct SheetArgs {
    /// Sheets: files, - for standard input, or folders for all sheets under them
    #[arg(required = true, value_name = "SHEET")]
    sheets: Vec<PathBuf>,
    #[command(flatten)]
    out: OutArgs,
}

/// Where the answer goes.
#[derive(Debug, Args)]
struct OutArgs {
    /// Write the answer to FILE instead of standard output
    #[arg(long = "out", value_name = "FILE")]
    file: Option<PathBuf>,
}

/// How a call that was carried out ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ending {
    /// Nothing above a note.
    Sound,
    /// Findings above a note.
    Found,
    /// Something could not be read; standard error says what.
    Wrong,
}

/// Why a call was not carried out to its end.
#[derive(Debug)]
enum Failure {
    /// The call was wrong; the sentence says how.
    Call(String),
    /// Whoever read the answer has stopped reading, as `head` does. That is no fault.
    Unheard,
}

impl From<io::Error> for Failure {
    fn from(error: io::Error) -> Self {
        match error.kind() {
            io::ErrorKind::BrokenPipe => Self::Unheard,
            _ => Self::Call(format!("the answer could not be written: {}", wrong::plain(&error))),
        }
    }
}

/// Carries a call out and gives its exit status.
pub(crate) fn run(words: impl Iterator<Item = OsString>) -> ExitCode {
    let call = match Call::try_parse_from(words) {
        Ok(call) => call,
        Err(error) if !error.use_stderr() => {
            // A closed pipe while help is printed is no fault either.
            let _ = write!(io::stdout(), "{error}");
            return ExitCode::SUCCESS;
        }
        Err(error) => {
            say(&wrong::call(&error));
            return ExitCode::from(2);
        }
    };
    match carry_out(&call.command) {
        Ok(Ending::Sound) | Err(Failure::Unheard) => ExitCode::SUCCESS,
        Ok(Ending::Found) => ExitCode::from(1),
        Ok(Ending::Wrong) => ExitCode::from(2),
        Err(Failure::Call(sentence)) => {
            say(&sentence);
            ExitCode::from(2)
        }
    }
}

fn carry_out(command: &Command) -> Result<Ending, Failure> {
    match command {
        Command::Check(args) => check::run(args),
        Command::Trace(args) => trace::run(args),
        Command::Frames(args) => frames::run(args),
        Command::Draw(args) => draw::run(args),
        Command::Tidy(args) => tidy::run(args),
        Command::Score(args) => score::run(args),
        Command::Call(args) => call::run(args),
        Command::Figures(args) => figures::run(args),
    }
}

/// One line on standard error.
fn say(sentence: &str) {
    // Nobody is left to be told when standard error itself is closed.
    let _ = writeln!(io::stderr(), "halfcount: {sentence}");
}
