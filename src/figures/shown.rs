//! A figure as it is shown to people and programs: its steps with the weight after each.

use super::entry::{Figure, Lead};
use super::lookup::Lexicon;
use crate::letters::Letters as _;
use crate::order::Ordered as _;

macro_rules! shown {
    ($($(#[$meta:meta])* struct $name:ident { $($(#[$field_meta:meta])* $field:ident: $type:ty,)* })*) => {$(
        $(#[$meta])*
        #[derive(Debug, Clone, PartialEq, Eq)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize))]
        #[non_exhaustive]
        pub struct $name { $($(#[$field_meta])* pub $field: $type,)* }
    )*};
}

shown! {
    /// A figure as it is shown, led by the right foot.
    struct Shown {
        /// Its name.
        name: &'static str,
        /// Other names.
        also: Vec<&'static str>,
        /// With which foot it is met.
        lead: &'static str,
        /// The level at which it is usually taught.
        level: &'static str,
        /// Counts that it takes.
        counts: u32,
        /// The counts on which something is done, as teachers write them: `1&2 3 4`.
        rhythm: String,
        /// Weight before it: `R`, `L` or `B`.
        weight_start: &'static str,
        /// Its steps.
        steps: Vec<ShownStep>,
        /// Weight after it.
        weight_end: &'static str,
        /// Its net turn.
        turn: String,
        /// What a teacher calls.
        calls: &'static str,
        /// Where the facts come from.
        source: &'static str,
    }

    /// One step of a figure.
    struct ShownStep {
        /// Its count: `1`, `1&`, `&`.
        count: String,
        /// What is done.
        step: &'static str,
        /// Weight after it.
        weight: &'static str,
        /// Whether a turn that a writer adds falls here.
        turn_falls_here: bool,
    }
}

impl Shown {
    /// A figure of the lexicon.
    #[must_use]
    pub fn of(figure: &Figure) -> Self {
        let mut weight = figure.start;
        let pieces = figure.steps_text.split([',', ';']).map(str::trim);
        let step = |(index, (step, piece)): (usize, (&super::Step, &'static str))| {
            weight = step.weigh(weight).0;
            ShownStep {
                // What stands before count 1 is a mere "and" to a dancer.
                count: step.at.to_string().trim_start_matches('0').to_owned(),
                step: piece.split_once(' ').map_or(piece, |(_, words)| words),
                weight: weight.letter(),
                turn_falls_here: index + 1 == figure.turn_on,
            }
        };
        Self {
            name: figure.name,
            also: figure.also.clone(),
            lead: match figure.lead {
                Lead::Either => "either foot",
                Lead::UsuallyRight => "mostly the right foot",
                Lead::UsuallyLeft => "mostly the left foot",
                Lead::Both => "both feet",
            },
            level: figure.level,
            counts: figure.counts(),
            rhythm: rhythm(figure),
            weight_start: figure.start.letter(),
            steps: figure.steps.iter().zip(pieces).enumerate().map(step).collect(),
            weight_end: figure.weigh().0.letter(),
            turn: figure.turn().to_string(),
            calls: figure.call,
            source: figure.source,
        }
    }
}

/// The counts on which something is done, as teachers write them: `1&2 3 4`.
fn rhythm(figure: &Figure) -> String {
    let mut rhythm = String::new();
    let mut before = None;
    for step in &figure.steps {
        if before == Some(step.at) {
            continue;
        }
        let sign = step.at.sign();
        // A half-count joins its neighbours; whole counts stand apart.
        let joined = !sign.is_empty() || rhythm.ends_with(['e', '&', 'a']);
        if !rhythm.is_empty() && !joined {
            rhythm.push(' ');
        }
        if sign.is_empty() {
            rhythm.push_str(&step.at.count().to_string());
        } else {
            rhythm.push_str(sign);
        }
        before = Some(step.at);
    }
    rhythm
}

impl Lexicon {
    /// Names of figures that come near a name that is not known, the nearest first, four at most.
    #[must_use]
    pub fn near(&self, wanted: &str) -> Vec<&'static str> {
        let folded = wanted.small();
        let names = self.figures.iter().flat_map(|f| core::iter::once(f.name).chain(f.also.iter().copied()));
        let mut near: Vec<(f64, &'static str)> = names
            .map(|name| {
                let other = name.small();
                let inside = if other.contains(&folded) { 1.0 } else { 0.0 };
                (inside + strsim::jaro_winkler(&folded, &other), name)
            })
            .filter(|(likeness, _)| *likeness > 0.85)
            .collect();
        near.in_order_by(|a, b| b.0.total_cmp(&a.0));
        near.dedup_by_key(|n| n.1);
        near.iter().take(4).map(|n| n.1).collect()
    }
}
