//! `halfcount call`: what the teacher says and when, captions, a click track, a lesson plan.

use clap::{Args, ValueEnum};
use halfcount::call::{self, CallOptions, CaptionOptions, ClickOptions, Length, Moment, Tempo, View};

use super::out::Out;
use super::{Ending, Failure, SheetArgs, sheets};

/// What the teacher says and when, captions, a click track, or a lesson plan
#[derive(Debug, Args)]
#[command(after_help = "\
Words are timed to end before their step falls: in full the first time, fewer later; restarts and tags are
warned of a section ahead. Tempo and intro come from the sheet where it gives them.

Examples:
  halfcount call --bpm 104 harbour-lights.txt
  halfcount call --length 3:30 --phrases \"32 64 32 16 64 32\" harbour-lights.txt
  halfcount call --bpm 104,112@129 --format midi --out clicks.mid harbour-lights.txt
  halfcount call --format webvtt --offset 2.5 --out captions.vtt harbour-lights.txt
  halfcount call --view facing harbour-lights.txt
  halfcount call --plan harbour-lights.txt")]
pub(crate) struct CallArgs {
    #[command(flatten)]
    input: SheetArgs,
    /// How to write the calls
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
    /// A lesson plan instead: figures to know, order of teaching, where people go wrong
    #[arg(long, conflicts_with = "format")]
    plan: bool,
    /// Beats a minute, 20 to 400; changes at counts of the music: 104,112@129
    #[arg(long, value_name = "N", value_parser = tempo)]
    bpm: Option<Tempo>,
    /// Counts of music before the first step
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(0..=1000))]
    intro: Option<u32>,
    /// How long the music is, from its first count: 3:30, or 416c for counts
    #[arg(long, value_name = "TIME", value_parser = length)]
    length: Option<Length>,
    /// The phrases of the music after the intro, in counts: "32 64 32 16 64 32"
    #[arg(long, value_name = "COUNTS", value_parser = phrases)]
    phrases: Option<Phrases>,
    /// How you stand: with your back to the class, or facing it as its mirror image
    #[arg(long, value_enum, default_value = "same")]
    view: ViewArg,
    /// Captions: seconds of video before the music begins, negative where the video begins later
    #[arg(long, value_name = "SECONDS", value_parser = offset, allow_hyphen_values = true)]
    offset: Option<i64>,
    /// Captions: from this time of the video on
    #[arg(long, value_name = "TIME", value_parser = time)]
    from: Option<Moment>,
    /// Captions: up to this time of the video
    #[arg(long, value_name = "TIME", value_parser = time)]
    to: Option<Moment>,
    /// Captions: the calls alone, without the counts
    #[arg(long)]
    no_counts: bool,
    /// Clicks: how many counts before the first step are heard, instead of the whole intro
    #[arg(long, value_name = "N")]
    count_in: Option<u32>,
    /// Clicks: without the calls as lyrics
    #[arg(long)]
    no_lyrics: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// A page to call from
    Text,
    /// Captions for a practice video
    Webvtt,
    /// A click track
    Midi,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum ViewArg {
    /// Your back to the class
    Same,
    /// Facing the class
    Facing,
}

/// Phrases in counts.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Phrases(Vec<u32>);

fn tempo(word: &str) -> Result<Tempo, String> {
    word.parse::<Tempo>().map_err(|error| error.to_string())
}

fn time(word: &str) -> Result<Moment, String> {
    Moment::of_words(word).ok_or_else(|| "give a time as 3:30 or in seconds".to_owned())
}

fn offset(word: &str) -> Result<i64, String> {
    call::offset_of_words(word).ok_or_else(|| "give seconds as 2.5, or a time as 1:02".to_owned())
}

fn length(word: &str) -> Result<Length, String> {
    let wrong = "give a time as 3:30 or in seconds, or counts as 416c, 20000 at most";
    Length::of_words(word).ok_or_else(|| wrong.to_owned())
}

fn phrases(word: &str) -> Result<Phrases, String> {
    let pieces = word.split([' ', ',']).filter(|p| !p.is_empty());
    let numbers: Option<Vec<u32>> =
        pieces.map(|p| p.parse().ok().filter(|n| (1..=1000).contains(n))).collect();
    let numbers = numbers.filter(|n| !n.is_empty() && n.iter().sum::<u32>() <= call::LONGEST_SONG);
    numbers.map(Phrases).ok_or_else(|| "give counts from 1 to 1000, as \"32 64 32 16\"".to_owned())
}

/// What is said to a call for the captions or clicks of several sheets.
const ONE: &str = "captions and clicks are made of one sheet at a time";

/// Carries the command out.
pub(crate) fn run(args: &CallArgs) -> Result<Ending, Failure> {
    let given = &args.input.sheets;
    let mut out = Out::open(&args.input.out, given)?;
    if args.format == Format::Midi && out.is_terminal() {
        return Err(Failure::Call(
            "a MIDI file is not for the eye; give it a name with --out FILE".to_owned(),
        ));
    }
    let options = halfcount::Options::default();
    let work = |sheet: &sheets::Sheet| {
        let report = halfcount::report(&sheet.text, &options).map_err(|error| error.to_string())?;
        Ok(one(args, &report.dance))
    };
    // Pages follow each other; captions and clicks of two songs cannot, so nothing is written before it is sure
    // that there is one.
    let single = args.format != Format::Text;
    let mut answers = 0;
    let mut held = Vec::new();
    let all_read = sheets::each(given, work, |answer| {
        answers += 1;
        if single {
            held = answer;
            return if answers == 1 { Ok(()) } else { Err(Failure::Call(ONE.to_owned())) };
        }
        if answers > 1 {
            out.put("\n")?;
        }
        out.put_bytes(&answer)
    })?;
    if answers == 1 && single {
        out.put_bytes(&held)?;
    }
    out.close()?;
    Ok(if all_read { Ending::Sound } else { Ending::Wrong })
}

/// The answer for one dance.
fn one(args: &CallArgs, dance: &halfcount::dance::Dance) -> Vec<u8> {
    if args.plan {
        return call::lesson(dance).into_bytes();
    }
    let mut options = CallOptions::default();
    options.tempo.clone_from(&args.bpm);
    options.intro = args.intro;
    options.length = args.length;
    options.phrases = args.phrases.as_ref().map_or(Vec::new(), |p| p.0.clone());
    options.view = match args.view {
        ViewArg::Same => View::Same,
        ViewArg::Facing => View::Facing,
    };
    let song = call::song(dance, &options);
    let calls = call::calls(dance, &song);
    match args.format {
        Format::Text => call::page(dance, &song, &calls, &options).into_bytes(),
        Format::Webvtt => {
            let mut captions = CaptionOptions::default();
            captions.offset = args.offset.unwrap_or(0);
            captions.from = args.from;
            captions.to = args.to;
            captions.no_counts = args.no_counts;
            call::captions(dance, &song, &calls, &captions).into_bytes()
        }
        Format::Midi => {
            let mut clicks = ClickOptions::default();
            clicks.count_in = args.count_in;
            clicks.no_lyrics = args.no_lyrics;
            call::click(dance, &song, &calls, &clicks)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn phrases_are_counts_in_a_row() {
        assert_eq!(phrases("32 64, 16"), Ok(Phrases(vec![32, 64, 16])));
        for bad in ["", "0", "32 x", "1001"] {
            assert!(phrases(bad).is_err(), "{bad}");
        }
    }
}
