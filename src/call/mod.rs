//! The whole dance to music: when each step falls, what to call, what to hear.
//!
//! A [`Dance`] and [`CallOptions`] in; out come a [`Song`] (what is danced when), the [`Call`]s of a teacher, a
//! page to call from, captions, a click track, how the dance fits the phrases of the music, and a lesson plan.
//! Ticks become seconds in one place, [`Tempo`]. This room knows nothing of sheets and metres.

mod calls;
mod captions;
mod click;
mod fit;
mod plan;
mod say;
mod tempo;
mod text;
mod timeline;
mod traps;
mod walk;
mod words;

pub use calls::{Call, CallKind, calls};
pub use captions::{CaptionOptions, captions, timestamp};
pub use click::{ClickOptions, click, variable_length};
pub use fit::{Change, Fit, Fitting, Refusal, Refused, Start, fit, starts};
pub use plan::lesson;
pub use tempo::{Moment, TEMPI, Tempo, TempoError};
pub use text::page;
pub use timeline::{LONGEST_SONG, Song, Source, Stretch, What, song};

/// How long the music is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Length {
    /// In counts, intro included.
    Counts(u32),
    /// In time, intro included.
    Time(Moment),
}

impl Length {
    /// A length as people write it: `3:30` or seconds, or `416c` for counts, [`LONGEST_SONG`] at most.
    #[must_use]
    pub fn of_words(word: &str) -> Option<Self> {
        match word.strip_suffix('c') {
            Some(counts) => {
                counts.parse::<u32>().ok().filter(|n| (1..=LONGEST_SONG).contains(n)).map(Self::Counts)
            }
            None => Moment::of_words(word).map(Self::Time),
        }
    }
}

/// Milliseconds before or, with a minus, after something: `2.5`, `-30`, `1:02`.
#[must_use]
pub fn offset_of_words(word: &str) -> Option<i64> {
    let (sign, rest) = word.strip_prefix('-').map_or((1, word), |rest| (-1, rest));
    i64::try_from(Moment::of_words(rest)?.millis()).ok().map(|n| n * sign)
}

/// From where the teacher is seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum View {
    /// In front with the back to the class: the same feet, the same walls.
    #[default]
    Same,
    /// Facing the class, as its mirror image.
    Facing,
}

/// What is known of the music, and how the teacher stands.
#[derive(Debug, Clone, PartialEq, Default)]
#[non_exhaustive]
pub struct CallOptions {
    /// The tempo, instead of what the sheet says.
    pub tempo: Option<Tempo>,
    /// Counts before the first step, instead of what the sheet says.
    pub intro: Option<u32>,
    /// How long the music is.
    pub length: Option<Length>,
    /// The phrases of the music after the intro, in counts.
    pub phrases: Vec<u32>,
    /// From where the teacher is seen.
    pub view: View,
}

#[cfg(doc)]
use crate::dance::Dance;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_and_offsets_are_read_as_people_write_them() {
        assert_eq!(Length::of_words("416c"), Some(Length::Counts(416)));
        assert_eq!(Length::of_words("3:30"), Some(Length::Time(Moment::of_millis(210_000))));
        assert_eq!(Length::of_words("0c"), None);
        assert_eq!(offset_of_words("-30"), Some(-30_000));
    }
}
