//! What a drawing shows: the steps of one stretch of the dance with the feet before and after each.

use crate::dance::{Action, Dance, Foot, Move, Part, PartKind, Section, Who};
use crate::motion::{FootPose, Motion, Stance, Stretch};
use crate::time::Ticks;

/// How one foot moves in a step.
#[derive(Debug, Clone, Copy)]
pub(super) struct Walked {
    pub(super) foot: Foot,
    pub(super) from: FootPose,
    /// Half-way, for the bend of the path.
    pub(super) half: FootPose,
    pub(super) to: FootPose,
}

/// One move as drawn.
#[derive(Debug, Clone)]
pub(super) struct Step<'d> {
    pub(super) what: &'d Move,
    /// Position in the section: count 1 is tick 24.
    pub(super) at: Ticks,
    /// Feet that act, none for a hold or a clap.
    pub(super) feet: Vec<Walked>,
    /// The body before it.
    pub(super) before: Stance,
    /// The body after it.
    pub(super) after: Stance,
}

/// A section as drawn.
#[derive(Debug, Clone)]
pub(super) struct Scene<'d> {
    pub(super) part: &'d Part,
    pub(super) section: &'d Section,
    pub(super) stretch: &'d Stretch,
    /// The section's number as a dancer counts it.
    pub(super) number: u32,
    /// The first count drawn.
    pub(super) first: u32,
    /// The last count drawn.
    pub(super) last: u32,
    pub(super) start: Stance,
    pub(super) steps: Vec<Step<'d>>,
    pub(super) end: Stance,
}

impl<'d> Scene<'d> {
    /// One stretch of a motion.
    pub(super) fn of(dance: &'d Dance, motion: &'d Motion, index: usize) -> Option<Self> {
        let stretch = motion.stretches.get(index)?;
        let part = dance.parts.get(stretch.part)?;
        let changed = stretch.changed.and_then(|r| dance.restarts.get(r)).and_then(|r| r.changed.as_ref());
        let section = changed.or_else(|| part.sections.get(stretch.section))?;
        let moves = stretch.moves(dance);
        let first = motion.moments.partition_point(|m| m.stretch < index);
        let start = match first.checked_sub(1) {
            Some(last) => motion.moments.get(last).map_or(motion.start, |m| m.stance),
            None => motion.start,
        };
        let shift = (whole(stretch.before) - whole(stretch.skipped)) * 24;
        let mut before = start;
        let mut steps = Vec::new();
        for m in motion.moments[first..].iter().take_while(|m| m.stretch == index) {
            let Some(what) = moves.get(m.index) else { continue };
            let half = motion.at(f64::from(m.begins.0 + m.tick.0) / 2.0);
            let acting: &[Foot] = match what.who {
                Who::One(Foot::Left) => &[Foot::Left],
                Who::One(Foot::Right) => &[Foot::Right],
                Who::Both => &[Foot::Left, Foot::Right],
                Who::Nobody => &[],
            };
            let idle = matches!(what.action, Action::Hold | Action::Clap | Action::Body);
            let feet = acting.iter().filter(|_| !idle).map(|foot| Walked {
                foot: *foot,
                from: *before.foot(*foot),
                half: *half.foot(*foot),
                to: *m.stance.foot(*foot),
            });
            let feet = feet.collect();
            steps.push(Step { what, at: Ticks(m.tick.0 - shift), feet, before, after: m.stance });
            before = m.stance;
        }
        let ahead = dance.parts.iter().take(stretch.part).filter(|p| p.kind == PartKind::Main);
        let ahead: usize =
            if part.kind == PartKind::Main { ahead.map(|p| p.sections.len()).sum() } else { 0 };
        let number = u32::try_from(ahead + stretch.section + 1).unwrap_or(u32::MAX);
        let (first, last) = (stretch.skipped + 1, stretch.skipped + stretch.counts);
        Some(Self { part, section, stretch, number, first, last, start, steps, end: before })
    }

    /// `Section 3`, `Tag 1`, `Ending`.
    pub(super) fn heading(&self) -> String {
        let name = match self.part.kind {
            PartKind::Main => return format!("Section {}{}", self.number, self.aside()),
            PartKind::Tag | PartKind::Ending => &self.part.name,
        };
        let of = if self.part.sections.len() > 1 {
            format!(", {}", self.stretch.section + 1)
        } else {
            String::new()
        };
        format!("{}{of}", super::page::capital(name))
    }

    /// What sets a section apart from the same one elsewhere.
    fn aside(&self) -> String {
        match self.stretch.changed {
            Some(_) => format!(" as danced in wall {}", self.stretch.wall),
            None => String::new(),
        }
    }

    /// Counts that are danced, as written: `Counts 1 to 8`.
    pub(super) fn counts(&self) -> String {
        let (from, to) = (self.first, self.last);
        if from >= to { format!("Count {to}") } else { format!("Counts {from} to {to}") }
    }

    /// The scene cut in two after a count of the section.
    pub(super) fn cut(&self, after: u32) -> [Self; 2] {
        let limit = (whole(after) + 1) * 24;
        let at = self.steps.partition_point(|s| s.at.0 < limit);
        let mut one = self.clone();
        let mut two = Self { steps: Vec::new(), ..self.clone() };
        two.steps = one.steps.split_off(at);
        two.start = one.steps.last().map_or(self.start, |s| s.after);
        one.end = two.start;
        (one.last, two.first) = (after, after + 1);
        [one, two]
    }
}

/// A number of counts as a signed number.
pub(super) fn whole(counts: u32) -> i32 {
    i32::try_from(counts).unwrap_or(i32::MAX / 64)
}
