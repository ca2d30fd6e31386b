//! What a body can do: steps too long, feet on each other, legs wound round each other, hips turned too far,
//! turns too fast, and a heel or a ball carrying the weight too long.
//!
//! Each strain is a measure with two bounds: past the first it is demanding, past the second it cannot be done.
//! Bounds that no source gives are choices of this project and say so; they are wide, because people differ.

use crate::body::Body;
use crate::dance::{Action, Dance, Foot, Place};
use crate::floor::{Point, Turn};

use super::pose::direction;
use super::{FootPose, Moment, Motion, Sole, Stance};

/// What is strained.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum StrainKind {
    /// The feet stand farther apart than legs like to open; in metres.
    StepTooLong,
    /// The feet stand on each other; how far they overlap, in metres.
    FeetOverlap,
    /// The legs are wound round each other; in degrees past standing side by side.
    LegsCrossed,
    /// A foot is turned farther than the hip turns; in degrees from where the body faces.
    HipsTurned,
    /// The body turns faster than a dancer does; in degrees a second.
    TurnTooFast,
    /// The weight stands on a heel or a ball for long; in seconds, or in counts where no tempo is known.
    SupportTooLong,
}

impl StrainKind {
    /// Every kind, in order.
    pub const ALL: [Self; 6] = [
        Self::StepTooLong,
        Self::FeetOverlap,
        Self::LegsCrossed,
        Self::HipsTurned,
        Self::TurnTooFast,
        Self::SupportTooLong,
    ];
}

/// How bad a strain is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Grade {
    /// Possible, and hard for many.
    Demanding,
    /// Not with this body.
    Impossible,
}

/// A place where a dance strains the body.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Strain {
    /// What is strained.
    pub kind: StrainKind,
    /// How badly.
    pub grade: Grade,
    /// Index into [`Motion::moments`].
    pub moment: usize,
    /// The foot that it is about, where it is one.
    pub foot: Option<Foot>,
    /// How much, in the unit of the kind.
    pub amount: f64,
    /// The bound that it passes.
    pub bound: f64,
}

/// Degrees that legs are wound before it is noted: the foot has gone right round the other one and stands on
/// its far side. A choice of this project.
const WOUND: f64 = 195.0;
/// Degrees from which legs count as crossed: the foot is well past the other one.
const CROSSED: f64 = 110.0;
/// Degrees past which legs cannot be wound: the free foot would have to pass through the standing leg. A choice
/// of this project.
const TANGLED: f64 = 285.0;
/// Spread of people's hips around the mean, in degrees (Kouyoumdjian and others 2012). Half of it below the mean
/// about a third of people are at their end; three times it above the mean hardly anyone is not.
const SPREAD: f64 = 10.0;
/// Degrees a second past which a turn is demanding: half a turn a count at 120 beats a minute. A choice of this
/// project; an easy turn has 90 (Berg balance scale, item "turn 360 degrees").
const FAST: f64 = 400.0;
/// Degrees a second past which no turn of a line dance goes: three turns a second. A choice of this project.
const TOO_FAST: f64 = 1080.0;
/// Seconds on one heel or ball that are demanding, and that nobody keeps dancing. Choices of this project.
const LONG: f64 = 3.0;
const TOO_LONG: f64 = 12.0;

/// Every strain of a motion, in order of time.
///
/// `tempo` is in beats a minute; without one, what depends on it is measured in counts of half a second.
#[must_use]
pub fn strains(dance: &Dance, motion: &Motion, tempo: Option<u32>) -> Vec<Strain> {
    let mut out = Vec::new();
    let second = 24.0 * f64::from(tempo.filter(|t| (40..=260).contains(t)).unwrap_or(120)) / 60.0;
    let mut winding = Winding::of(&motion.start);
    let mut before = motion.start;
    let mut stood = Stood::default();
    // What breaks the rules of weight stands somewhere else than the dancer would, and has its own finding.
    let broken: Vec<bool> =
        motion.stretches.iter().map(|s| s.moves(dance).iter().any(|m| m.broken.is_some())).collect();
    for (i, m) in motion.moments.iter().enumerate() {
        let ignored = broken.get(m.stretch).copied().unwrap_or_default();
        let mut put = |kind, foot, amount: f64, demanding: f64, impossible: f64| {
            let (grade, bound) = match () {
                () if amount > impossible => (Grade::Impossible, impossible),
                () if amount > demanding => (Grade::Demanding, demanding),
                () => return,
            };
            if ignored {
                return;
            }
            out.push(Strain { kind, grade, moment: i, foot, amount, bound });
        };
        let body = &motion.body;
        let s = &m.stance;
        #[allow(clippy::float_cmp, reason = "a foot that rests keeps its very numbers")]
        let moved = |foot: Foot| {
            s.foot(foot).ball != before.foot(foot).ball || s.foot(foot).toe != before.foot(foot).toe
        };
        let feet = [Foot::Left, Foot::Right];
        if feet.into_iter().any(moved) {
            let apart = (s.left.ball - s.right.ball).length();
            if s.left.sole.is_down() && s.right.sole.is_down() {
                let overlap = body.foot_breadth - between(&s.left, &s.right, body);
                // A third of a foot on the other one is trodden on; less is a matter of how neatly one stands.
                let breadth = body.foot_breadth;
                // Toes that swing together stop when they meet.
                let swings = m.what(dance, motion).is_some_and(|w| {
                    matches!(w.action, Action::Fan | Action::Swivel | Action::Split | Action::Applejack)
                });
                if !swings {
                    put(StrainKind::StepTooLong, None, apart, body.comfortable_step(), body.longest_step());
                }
                // "Step R beside L turning 1/4 L": the other foot turns along before it stands again.
                let turns =
                    m.what(dance, motion).is_some_and(|w| w.place == Place::Close && w.turn != Turn::NONE);
                let most = if swings || turns { f64::INFINITY } else { 0.7 * breadth };
                put(StrainKind::FeetOverlap, None, overlap, 0.34 * breadth, most);
            }
        }
        let was = winding.units;
        let action = m.what(dance, motion).map(|w| w.action);
        let planted = action.is_some_and(keeps_both_down)
            && feet.into_iter().all(|f| (s.foot(f).ball - before.foot(f).ball).length() < 0.02);
        winding.follow(&before, s, planted);
        let wound = winding.units.abs() * 7.5;
        let changes_over = was.min(winding.units) * 7.5 < -CROSSED && was.max(winding.units) * 7.5 > CROSSED;
        let in_a_hurry = i > 0 && m.tick.0 - motion.moments[i - 1].tick.0 <= 12;
        if action == Some(Action::Unwind) && m.turn.0 != 0 {
            // Whoever unwinds far lets the free foot come along; only the wrong way is none.
            let wound = (was - f64::from(m.turn.0)).abs() * 7.5;
            put(StrainKind::LegsCrossed, None, wound, TANGLED, TANGLED);
        } else if m.turn.0 != 0 && planted {
            put(StrainKind::LegsCrossed, None, wound, WOUND, TANGLED);
        } else if changes_over && in_a_hurry {
            put(StrainKind::LegsCrossed, None, (was - winding.units).abs() * 7.5, WOUND, f64::INFINITY);
        }
        for foot in feet.into_iter().filter(|f| moved(*f) && s.foot(*f).sole.is_down()) {
            let out_turned = turned_out(s, foot) * 7.5;
            let (amount, mean) =
                if out_turned >= 0.0 { (out_turned, body.turn_out) } else { (-out_turned, body.turn_in) };
            put(StrainKind::HipsTurned, Some(foot), amount, mean - SPREAD / 2.0, mean + 3.0 * SPREAD);
        }
        // A turn has the time since the action before it, and what follows until the next one where it lasts.
        let since = i.checked_sub(1).and_then(|k| motion.moments.get(k)).map_or(0, |p| p.tick.0);
        let next = motion.moments[i + 1..].iter().map(|n| n.tick.0).find(|t| *t > m.tick.0);
        let lasts = m.what(dance, motion).map_or(24, |w| w.lasts.0);
        let room = (m.tick.0 - since).clamp(6, 96).max(lasts.min(next.map_or(lasts, |n| n - m.tick.0)));
        if m.turn.0 != 0 {
            let speed = f64::from(m.turn.0.unsigned_abs()) * 7.5 / f64::from(room) * second;
            put(StrainKind::TurnTooFast, None, speed, FAST, TOO_FAST);
        }
        stood.follow(s, m.tick.0);
        if let Some((foot, ticks)) = stood.ends(next.unwrap_or(m.tick.0 + lasts.min(48))) {
            put(StrainKind::SupportTooLong, Some(foot), f64::from(ticks) / second, LONG, TOO_LONG);
        }
        before = *s;
    }
    out
}

impl Moment {
    /// The move that leads here.
    pub(super) fn what<'d>(&self, dance: &'d Dance, motion: &Motion) -> Option<&'d crate::dance::Move> {
        motion.stretches.get(self.stretch)?.moves(dance).get(self.index)
    }
}

/// Whether an action turns the body with both feet on the floor. A step that comes back to its place does not:
/// its foot was in the air.
const fn keeps_both_down(action: Action) -> bool {
    matches!(
        action,
        Action::Pivot | Action::Unwind | Action::Recover | Action::Shift | Action::Sway | Action::Bounce
    )
}

/// How far a toe is turned outward from the facing, in 1/48 of a turn.
fn turned_out(s: &Stance, foot: Foot) -> f64 {
    let d = s.foot(foot).toe - s.facing;
    let d = d - (d / 48.0).round() * 48.0;
    if foot == Foot::Left { -d } else { d }
}

/// The distance between the middle lines of two feet, each from heel to tip less half a breadth at both ends.
fn between(a: &FootPose, b: &FootPose, body: &Body) -> f64 {
    let ends = |f: &FootPose| {
        let along = direction(f.toe) * (body.foot_breadth / 2.0);
        (f.heel(body) + along, f.tip(body) - along)
    };
    let ((a0, a1), (b0, b1)) = (ends(a), ends(b));
    let cross = |u: Point, v: Point| u.x * v.y - u.y * v.x;
    let side = |p: Point, q: Point, r: Point| cross(q - p, r - p);
    let (s1, s2) = (side(a0, a1, b0), side(a0, a1, b1));
    let (s3, s4) = (side(b0, b1, a0), side(b0, b1, a1));
    if s1 * s2 < 0.0 && s3 * s4 < 0.0 {
        return 0.0;
    }
    let to_line = |p: Point, q: Point, r: Point| {
        let (v, w) = (q - p, r - p);
        let t = ((w.x * v.x + w.y * v.y) / (v.x * v.x + v.y * v.y).max(1e-12)).clamp(0.0, 1.0);
        (r - p.toward(q, t)).length()
    };
    to_line(a0, a1, b0).min(to_line(a0, a1, b1)).min(to_line(b0, b1, a0)).min(to_line(b0, b1, a1))
}

/// How far the right leg has gone round the left one, seen by the dancer: 0 where it stands to the right,
/// followed without a gap, so that crossed is told from uncrossed and wound from unwound.
#[derive(Debug, Clone, Copy)]
struct Winding {
    units: f64,
}

impl Winding {
    fn of(s: &Stance) -> Self {
        Self { units: Self::bearing_in(s) }
    }

    /// Where the right foot is from the left one, in 1/48 of a turn from the dancer's right, -24 to 24.
    fn bearing_in(s: &Stance) -> f64 {
        let v = s.seen(s.right.ball - s.left.ball);
        bearing(v) - 12.0
    }

    /// Where a foot was set down anew it came the short way, so the legs are wound half round at most; while
    /// both feet keep their places, a turn of the body winds or unwinds them.
    fn follow(&mut self, before: &Stance, after: &Stance, planted: bool) {
        let lifted = !before.left.sole.is_down() || !before.right.sole.is_down();
        if planted && !lifted {
            self.units += before.facing - after.facing;
        } else {
            let now = Self::bearing_in(after);
            self.units = now - (now / 48.0).round() * 48.0;
        }
    }
}

/// The direction of a vector in 1/48 of a turn clockwise from ahead, -24 to 24.
fn bearing(v: Point) -> f64 {
    let (x, y) = (v.x.abs(), v.y.abs());
    let (low, high) = (x.min(y), x.max(y));
    if high <= 0.0 {
        return 12.0;
    }
    // Abramowitz and Stegun, Handbook of Mathematical Functions, 4.4.49: to within 0.00002 rad.
    let (t, s) = (low / high, (low / high) * (low / high));
    let angle = t * (0.999_866 + s * (-0.330_299_5 + s * (0.180_141 + s * (-0.085_133 + s * 0.020_835_1))));
    let units = angle * 24.0 / core::f64::consts::PI;
    let from_ahead = if x <= y { units } else { 12.0 - units };
    let folded = if v.y < 0.0 { 24.0 - from_ahead } else { from_ahead };
    if v.x < 0.0 { -folded } else { folded }
}

/// Since when the weight stands on a heel or a ball alone.
#[derive(Debug, Default)]
struct Stood {
    since: Option<(Foot, Sole, i32)>,
}

impl Stood {
    fn follow(&mut self, s: &Stance, tick: i32) {
        let on = [Foot::Left, Foot::Right].into_iter().find(|f| {
            s.foot(*f).share > 0.9 && matches!(s.foot(*f).sole, Sole::Heel | Sole::Ball | Sole::Toe)
        });
        self.since = on.map(|foot| {
            let sole = s.foot(foot).sole;
            match self.since {
                Some((f, was, from)) if f == foot && was == sole => (foot, sole, from),
                _ => (foot, sole, tick),
            }
        });
    }

    /// How long it stands until the next action.
    fn ends(&self, next: i32) -> Option<(Foot, i32)> {
        self.since.map(|(foot, _, from)| (foot, next - from))
    }
}
