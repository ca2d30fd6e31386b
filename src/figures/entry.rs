//! The lexicon's text: one entry a paragraph, one field a line.
//!
//! ```text
//! figure Coaster step
//! also back coaster; coaster
//! lead either
//! level beginner
//! from weight on L
//! steps 1 R step back, & L step together, 2 R step forward
//! turn on 1
//! call back, together, forward
//! source ...
//! gives 2 counts, weight on R, turn 0/48
//! reads coaster step
//! reads-not forward coaster
//! ```

use super::step::{Step, counts};
use crate::dance::{Foot, Weight};
use crate::floor::Turn;

/// With which foot a figure is met.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lead {
    /// Either foot.
    Either,
    /// Mostly the right.
    UsuallyRight,
    /// Mostly the left.
    UsuallyLeft,
    /// Both feet together.
    Both,
}

impl Lead {
    /// As written in the lexicon.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Either => "either",
            Self::UsuallyRight => "usually R",
            Self::UsuallyLeft => "usually L",
            Self::Both => "both feet",
        }
    }
}

/// One figure of the lexicon, led by the right foot; the left-led form is its mirror image.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figure {
    /// Its name.
    pub name: &'static str,
    /// Other names.
    pub also: Vec<&'static str>,
    /// Names that more often mean another figure.
    pub maybe: Vec<&'static str>,
    /// Which foot leads.
    pub lead: Lead,
    /// The level at which it is usually taught.
    pub level: &'static str,
    /// Where the weight is before it.
    pub start: Weight,
    /// Its steps.
    pub steps: Vec<Step>,
    /// Its steps as written in the lexicon.
    pub steps_text: &'static str,
    /// The step, from 1, on which a turn falls that a writer adds.
    pub turn_on: usize,
    /// What a teacher calls, one word or two for each step.
    pub call: &'static str,
    /// Where the facts come from.
    pub source: &'static str,
    /// What it must give: counts, weight after it, net turn.
    pub gives: &'static str,
    /// A phrase that must read as it.
    pub reads: Option<&'static str>,
    /// A phrase that must not.
    pub reads_not: Option<&'static str>,
}

impl Figure {
    /// Counts from its first to its last.
    #[must_use]
    pub fn counts(&self) -> u32 {
        counts(&self.steps)
    }

    /// Sum of its turns, led by the right foot.
    #[must_use]
    pub fn turn(&self) -> Turn {
        self.steps.iter().fold(Turn::NONE, |t, s| t + s.turn)
    }

    /// Weight after it, led by the right foot, and whether every step was allowed.
    #[must_use]
    pub fn weigh(&self) -> (Weight, bool) {
        self.steps.iter().fold((self.start, true), |(w, ok), s| {
            let (after, allowed) = s.weigh(w);
            (after, ok && allowed)
        })
    }

    /// The foot that acts first, in the right-led form.
    #[must_use]
    pub fn first_foot(&self) -> Option<Foot> {
        self.steps.iter().find_map(|s| match s.who {
            crate::dance::Who::One(foot) => Some(foot),
            _ => None,
        })
    }
}

/// A mistake in the lexicon.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mistake {
    /// The line, from 1.
    pub line: usize,
    /// What is wrong.
    pub what: String,
}

/// The name of a field and its value.
fn field(line: &str) -> Option<(&str, &str)> {
    let (name, value) = line.split_once(' ')?;
    let named = !name.is_empty() && name.bytes().all(|b| b.is_ascii_lowercase() || b == b'-');
    named.then(|| (name, value.trim_start()))
}

fn list(text: &'static str) -> Vec<&'static str> {
    text.split(';').map(str::trim).filter(|s| !s.is_empty()).collect()
}

/// Reads one file of the lexicon; the steps are only text until all words of the names are known.
///
/// # Errors
/// The first mistake, with its line.
pub(super) fn entries(text: &'static str) -> Result<Vec<Figure>, Mistake> {
    let mut out: Vec<Figure> = Vec::new();
    for (i, line) in text.split('\n').enumerate() {
        let line = line.trim();
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        let wrong = |what: &str| Mistake { line: i + 1, what: format!("{what}: {line}") };
        let (key, value) = field(line).ok_or_else(|| wrong("a line is a field name and its value"))?;
        if key == "figure" {
            out.push(Figure {
                name: value,
                also: Vec::new(),
                maybe: Vec::new(),
                lead: Lead::Either,
                level: "",
                start: Weight::On(Foot::Left),
                steps: Vec::new(),
                steps_text: "",
                turn_on: 0,
                call: "",
                source: "",
                gives: "",
                reads: None,
                reads_not: None,
            });
            continue;
        }
        let figure = out.last_mut().ok_or_else(|| wrong("an entry begins with `figure`"))?;
        match key {
            "also" => figure.also = list(value),
            "maybe" => figure.maybe = list(value),
            "lead" => {
                figure.lead = match value {
                    "usually R" => Lead::UsuallyRight,
                    "usually L" => Lead::UsuallyLeft,
                    "both feet" => Lead::Both,
                    "either" | "any" => Lead::Either,
                    _ => return Err(wrong("no such lead")),
                }
            }
            "level" => figure.level = value,
            "from" => {
                figure.start = match value {
                    "weight on L" => Weight::On(Foot::Left),
                    "weight on R" => Weight::On(Foot::Right),
                    "weight on both" => Weight::Both,
                    _ => return Err(wrong("no such weight")),
                }
            }
            "steps" => figure.steps_text = value,
            "turn" => {
                figure.turn_on = value
                    .strip_prefix("on ")
                    .and_then(|n| n.parse().ok())
                    .ok_or_else(|| wrong("a turn is `turn on 3`"))?;
            }
            "call" => figure.call = value,
            "source" => figure.source = value,
            "gives" => figure.gives = value,
            "reads" => figure.reads = Some(value),
            "reads-not" => figure.reads_not = Some(value),
            _ => return Err(wrong("no such field")),
        }
    }
    Ok(out)
}
