//! What the teacher says and when: its options, in the words of the command line.

use js_sys::Uint8Array;
use wasm_bindgen::JsValue;

use super::error::Refusal;
use super::given::{Given, wrong};
use crate::call::{self, CallOptions, CaptionOptions, ClickOptions, Length, Moment, Tempo, View};
use crate::dance::Dance;

/// The names of its options.
pub(super) const KNOWN: &[&str] = &[
    "format", "plan", "bpm", "intro", "length", "phrases", "view", "offset", "from", "to", "noCounts",
    "countIn", "noLyrics",
];

const COUNTS: &str = "a whole number of counts";
const TIME: &str = "a time as 3:30 or in seconds";

/// What is asked for.
pub(super) struct How {
    format: usize,
    plan: bool,
    options: CallOptions,
    captions: CaptionOptions,
    clicks: ClickOptions,
}

impl How {
    /// Reads the options of a call.
    pub(super) fn read(given: &Given) -> Result<Self, Refusal> {
        let mut how = Self {
            format: given.word("format", &["text", "webvtt", "midi"])?.unwrap_or(0),
            plan: given.flag("plan")?,
            options: CallOptions::default(),
            captions: CaptionOptions::default(),
            clicks: ClickOptions::default(),
        };
        let tempo = "beats a minute, 20 to 400, with changes at counts if need be: \"104,112@129\"";
        how.options.tempo = parsed(given, "bpm", tempo, |word| word.parse::<Tempo>().ok())?;
        how.options.intro = given.number("intro", |n| n <= 1000, COUNTS)?;
        let length = "a time as 3:30 or in seconds, or counts as 416c";
        how.options.length = parsed(given, "length", length, Length::of_words)?;
        how.options.phrases = given.numbers("phrases", |n| (1..=1000).contains(&n), "an array of counts")?;
        if how.options.phrases.iter().sum::<u32>() > call::LONGEST_SONG {
            return Err(wrong("phrases", "no longer than a song"));
        }
        how.options.view = match given.word("view", &["same", "facing"])? {
            Some(1) => View::Facing,
            _ => View::Same,
        };
        how.captions.offset = parsed(given, "offset", TIME, call::offset_of_words)?.unwrap_or(0);
        how.captions.from = parsed(given, "from", TIME, Moment::of_words)?;
        how.captions.to = parsed(given, "to", TIME, Moment::of_words)?;
        how.captions.no_counts = given.flag("noCounts")?;
        how.clicks.count_in = given.number("countIn", |n| n <= 1000, COUNTS)?;
        how.clicks.no_lyrics = given.flag("noLyrics")?;
        Ok(how)
    }

    /// A string, or bytes.
    pub(super) fn answer(&self, dance: &Dance) -> JsValue {
        if self.plan {
            return call::lesson(dance).into();
        }
        let song = call::song(dance, &self.options);
        let calls = call::calls(dance, &song);
        match self.format {
            0 => call::page(dance, &song, &calls, &self.options).into(),
            1 => call::captions(dance, &song, &calls, &self.captions).into(),
            _ => Uint8Array::from(&*call::click(dance, &song, &calls, &self.clicks)).into(),
        }
    }
}

/// An option that is written in words, or as a number.
fn parsed<T>(
    given: &Given,
    name: &str,
    words: &str,
    read: impl Fn(&str) -> Option<T>,
) -> Result<Option<T>, Refusal> {
    let Some(word) = given.written(name, words)? else { return Ok(None) };
    read(&word).map(Some).ok_or_else(|| wrong(name, words))
}
