//! How hard a dance is: a [`Dance`], its [`Motion`] and a tempo in, a [`Score`] out.
//!
//! Some forty measures are taken, each in its own unit. Those that never fall when something is added (a turn,
//! a step on a half-count, tempo, a tag, a restart) enter the score: each adds points for what it is above a
//! floor, each further notch less than the one before, and no weight is below zero. The rest is only reported. The room knows no words (but for [`easier`],
//! which puts a sheet's easier options in place) and no drawing; it gives spans, and who has the text may quote
//! them.
//!
//! The weights come from few and invented labels (`calibration` in the repository has the record), so every
//! answer calls itself provisional.

pub mod aim;
mod amount;
mod balance;
mod dictionary;
mod easier;
#[cfg(feature = "serde")]
mod form;
mod measure;
mod memory;
pub mod number;
mod pace;
mod profile;
mod reach;
mod rhythm;
mod score;
pub mod sequence;
pub mod syncopation;
mod track;
mod traps;
mod turning;
mod variants;
mod weights;

use crate::body::Body;
use crate::check::{Finding, Unread};
use crate::dance::Dance;
use crate::motion::Motion;
use crate::order::Ordered as _;
use crate::text::Span;
use crate::time::Metre;

pub use dictionary::{Column, columns};
pub use easier::{Choice, Easier, choices, easier};
#[cfg(feature = "serde")]
pub use form::{Number, ScoreForm, form};
pub use measure::{Family, Measure, Reading, Scored, measure, measures};
pub use profile::Stretch;
pub use score::{Chance, Share, Taken};
pub use weights::{LEVELS, Weights, WeightsError};

use score::{chances, level, shares, taken, total, within};
use track::Track;

/// What the score cannot see, for everyone who reads it.
pub const BLIND: &[&str] = &[
    "the music: its phrasing, how plain its beat is, whether it swings",
    "style, arms, hips, and how large or finished the steps are to be",
    "floor, shoes, room and how full it is",
    "the dancers: what they know already, their age, balance and joints",
    "how well the sheet is written and the dance is taught",
];

/// How to score.
#[derive(Debug, Clone, PartialEq, Default)]
#[non_exhaustive]
pub struct ScoreOptions {
    /// Beats a minute, instead of what the sheet says.
    pub tempo: Option<u32>,
    /// Weights, levels and margin.
    pub weights: Weights,
    /// Words of steps that could not be read. Where there are any, or counts on which nothing is written, the
    /// score is bounds and no number.
    pub unread: Vec<Span>,
    /// Whether to leave out what only a reader of the account needs: other tempos and choices.
    pub brief: bool,
    /// The body that dances the easier options, as the one of the motion that is scored.
    pub body: Body,
}

/// Rules whose finding says that steps are missing: what is danced there is not known.
const MISSING: [&str; 2] = ["count-missing", "count-without-step"];

/// Places where a sheet's steps are not known, for [`ScoreOptions::unread`]: words that were not understood, and
/// counts that a finding says are missing. In order and each once.
#[must_use]
pub fn unread(findings: &[Finding], unread: &[Unread]) -> Vec<Span> {
    let missing = findings.iter().filter(|f| MISSING.contains(&f.rule)).map(|f| f.span);
    let mut found: Vec<Span> = unread.iter().map(|u| u.span).chain(missing).collect();
    found.in_order_by_key(|s| (s.start, s.end));
    found.dedup();
    found
}

/// The score of the same dance danced otherwise.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum Other {
    /// At another tempo, in beats a minute.
    Tempo(u32),
    /// Without its tags and restarts.
    NoTagsOrRestarts,
    /// Stepped on the whole counts only.
    WholeCountsOnly,
    /// With turns of a half and more left out.
    NoBigTurns,
}

impl Other {
    /// In a few words.
    #[must_use]
    pub fn title(&self) -> String {
        match self {
            Self::Tempo(tempo) => format!("at {tempo} beats a minute"),
            Self::NoTagsOrRestarts => "without tags and restarts".to_owned(),
            Self::WholeCountsOnly => "with steps on the whole counts only".to_owned(),
            Self::NoBigTurns => "without turns of a half and more".to_owned(),
        }
    }
}

/// How hard a dance is.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Score {
    /// The name of the weights.
    pub weights: String,
    /// The name of the levels' scale.
    pub scale: String,
    /// Beats a minute that it holds for.
    pub tempo: u32,
    /// Whether the sheet or the caller gave the tempo; otherwise it is [`default_tempo`].
    pub tempo_given: bool,
    /// 0 to 100; `None` where part of the sheet could not be read.
    pub total: Option<f64>,
    /// The lower end of its range.
    pub low: f64,
    /// The upper end of its range.
    pub high: f64,
    /// Why there are bounds and no number, in a sentence.
    pub bounds: Option<String>,
    /// The level, where the scale has any and there is a number.
    pub level: Option<&'static str>,
    /// The chances of all levels.
    pub chances: Vec<Chance>,
    /// What each family of measures adds.
    pub shares: Vec<Share>,
    /// All measures.
    pub measures: Vec<Taken>,
    /// Points of each count of one repetition.
    pub profile: Vec<f64>,
    /// Points that are in no single place: length, memory, tags.
    pub unplaced: f64,
    /// The hardest eight counts.
    pub hardest: Option<Stretch>,
    /// The same dance danced otherwise, each with its score.
    pub others: Vec<(Other, f64)>,
}

/// The tempo that stands in where a sheet gives none: 112 beats a minute, the middle of what is usual in four
/// beats (country cha-cha 96 to 118, social cha-cha 112 to 120, west coast swing 112 to 128), and 90 in a waltz
/// (84 to 90 and 76 to 98). Sources: recommended tempi of the National Dance Council of America and of Hollywood
/// Ballroom, Washington (2012).
#[must_use]
pub const fn default_tempo(metre: Metre) -> u32 {
    match metre {
        Metre::Four => 112,
        Metre::Three => 90,
    }
}

/// Scores a dance. The motion is that of one repetition.
#[must_use]
pub fn score(dance: &Dance, motion: &Motion, options: &ScoreOptions) -> Score {
    let given = options.tempo.or(dance.head.tempo).map(|t| t.clamp(20, 400));
    let tempo = given.unwrap_or(default_tempo(dance.head.metre));
    let weights = &options.weights;
    let track = Track::new(dance, motion, f64::from(tempo), given.is_some());
    let measures = taken(&track, weights);
    let all: f64 = measures.iter().map(|t| t.points).sum();
    let total = within(all);
    let profile = profile::profile(&measures, track.counts);
    let placed: f64 = profile.iter().sum();
    let (bounds, low, high) = range(dance, motion, options, &track, total);
    let known = bounds.is_none();
    Score {
        weights: weights.version.clone(),
        scale: if weights.borders.is_some() { weights.scale.clone() } else { String::new() },
        tempo,
        tempo_given: given.is_some(),
        total: known.then_some(total),
        low,
        high,
        bounds,
        level: level(total, weights).filter(|_| known),
        chances: if known { chances(total, weights) } else { Vec::new() },
        shares: shares(&measures),
        hardest: profile::hardest(&track, &profile),
        unplaced: (all - placed).max(0.0),
        profile,
        others: if options.brief { Vec::new() } else { others(dance, motion, options, tempo) },
        measures,
    }
}

/// The range of a score, and the sentence where it is bounds and no number.
fn range(
    dance: &Dance,
    motion: &Motion,
    options: &ScoreOptions,
    track: &Track,
    read: f64,
) -> (Option<String>, f64, f64) {
    let weights = &options.weights;
    let margin = weights.margin;
    if !track.events.iter().any(track::Event::acts) {
        let sentence = "No step of this sheet could be read, so it may be as easy or as hard as any.";
        return (Some(sentence.to_owned()), 0.0, 100.0);
    }
    let at = |dance: &Dance, tempo: f64| total(&Track::new(dance, motion, tempo, true), weights);
    let (low, high) = if track.tempo_given {
        (read, read)
    } else {
        // Without a tempo the range holds a sixth more and less of the default.
        (at(dance, track.tempo * 5.0 / 6.0), at(dance, track.tempo * 7.0 / 6.0))
    };
    let pieces = options.unread.len();
    let silent = variants::silent(dance);
    if pieces == 0 && silent == 0 {
        return (None, within(low - margin), within(high + margin));
    }
    let filled = variants::filled(dance, &options.unread);
    let tempo = if track.tempo_given { track.tempo } else { track.tempo * 7.0 / 6.0 };
    let most = at(&filled, tempo).max(high);
    let many = |n: usize, one: &str| format!("{n} {one}{}", if n == 1 { "" } else { "s" });
    let what = match (pieces, silent) {
        (_, 0) => format!("{} of this sheet could not be read", many(pieces, "piece")),
        (0, _) => format!("Nothing could be read for {}", many(silent, "count")),
        _ => format!(
            "{} of this sheet could not be read and {} stay empty",
            many(pieces, "piece"),
            many(silent, "count")
        ),
    };
    let sentence = format!(
        "{what}, so there is no score but bounds: what was read alone, and the same with two steps and a quarter \
         turn more on every count that may be missing."
    );
    (Some(sentence), within(low - margin), within(most + margin))
}

/// The score at two other tempos and with what a teacher may choose.
fn others(dance: &Dance, motion: &Motion, options: &ScoreOptions, tempo: u32) -> Vec<(Other, f64)> {
    let at = |dance: &Dance, tempo: u32| {
        total(&Track::new(dance, motion, f64::from(tempo), true), &options.weights)
    };
    let mut found = Vec::new();
    for other in [(tempo * 17 + 10) / 20, (tempo * 23 + 10) / 20] {
        found.push((Other::Tempo(other), at(dance, other)));
    }
    let changed = [
        (Other::NoTagsOrRestarts, variants::without_tags_and_restarts(dance)),
        (Other::WholeCountsOnly, variants::only_whole_counts(dance)),
        (Other::NoBigTurns, variants::without_big_turns(dance)),
    ];
    for (other, dance) in changed {
        found.extend(dance.map(|dance| (other, at(&dance, tempo))));
    }
    found
}
