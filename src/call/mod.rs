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
