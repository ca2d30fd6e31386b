//! A song on the floor without a record: only where each of its stretches begins.
//!
//! Most sections of a repetition begin as they did in one before it, turned and moved as a whole, and are danced
//! alike; their spots are carried over instead of being danced again.

use crate::body::Body;
use crate::dance::{Dance, Foot};
use crate::floor::{Heading, Point, Turn};

use super::dancer::{Dancer, waiting};
use super::play::{Event, Playlist, Stretch};

/// Moves after a stretch that may still change how it is danced.
const AHEAD: usize = 16;

/// Points nearer than this, in metres, are the same: far above rounding, far below what a foot can tell.
const SAME: f64 = 1e-9;

/// A stretch of the song, with its moves.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Leg {
    /// Several only where moves of different stretches are mixed.
    stretches: core::ops::Range<usize>,
    events: core::ops::Range<usize>,
}

/// The spots and facings of a song's stretches, and the spot at its end.
pub(super) fn stroll(
    dance: &Dance,
    body: &Body,
    list: Playlist<'_>,
    facing: Heading,
) -> (Vec<Stretch>, Point) {
    let Playlist { mut stretches, events, .. } = list;
    let mut dancer = waiting(dance, body, facing, false);
    let legs = legs(&stretches, &events);
    // The dancer at the beginning of each leg.
    let mut starts: Vec<Dancer<'_>> = Vec::with_capacity(legs.len() + 1);
    for (n, leg) in legs.iter().enumerate() {
        starts.push(dancer.clone());
        // The same section is mostly found in the repetition before.
        let known = (0..n).rev().find(|k| {
            alike(&stretches, &legs, *k, n)
                && Carried::between(&starts[*k], &dancer).holds(&starts[*k], &dancer)
        });
        let Some(k) = known else {
            let mut begun = leg.stretches.start;
            for i in leg.events.clone() {
                let e = &events[i];
                dancer.begin(&mut stretches, &mut begun, e.stretch + 1);
                dancer.note_figure(e);
                dancer.act(e.what, &events[i + 1..]);
                dancer.settle(e);
            }
            dancer.begin(&mut stretches, &mut begun, leg.stretches.end);
            continue;
        };
        let carried = Carried::between(&starts[k], &dancer);
        let later = leg.stretches.start - legs[k].stretches.start;
        for (from, to) in legs[k].stretches.clone().zip(leg.stretches.clone()) {
            let (spot, facing) = (stretches[from].spot, stretches[from].facing);
            (stretches[to].spot, stretches[to].facing) = (carried.point(spot), facing + carried.turn.0);
        }
        dancer = carried.dancer(&starts[k + 1], later);
    }
    (stretches, dancer.present_spot())
}

/// The legs of a song; one for all of it where moves of different stretches are mixed.
fn legs(stretches: &[Stretch], events: &[Event<'_>]) -> Vec<Leg> {
    let whole = vec![Leg { stretches: 0..stretches.len(), events: 0..events.len() }];
    if !events.is_sorted_by_key(|e| e.stretch) {
        return whole;
    }
    let mut event = 0;
    let leg = |n: usize| {
        let from = event;
        event += events[from..].iter().take_while(|e| e.stretch == n).count();
        Leg { stretches: n..n + 1, events: from..event }
    };
    (0..stretches.len()).map(leg).collect()
}

/// Whether two legs are the same steps, and what comes behind them as far as it matters.
fn alike(stretches: &[Stretch], legs: &[Leg], a: usize, b: usize) -> bool {
    // Most are other sections.
    let section = |leg: &Leg| stretches.get(leg.stretches.start).map(|s| (s.section, s.part));
    if section(&legs[a]) != section(&legs[b]) {
        return false;
    }
    let mut ahead = 0;
    for (n, (x, y)) in legs[a..].iter().zip(&legs[b..]).enumerate() {
        let what = |s: &Stretch| (s.section, s.part, s.changed, s.skipped, s.counts);
        let (x, y) = (&stretches[x.stretches.clone()], &stretches[y.stretches.clone()]);
        if !x.iter().map(what).eq(y.iter().map(what)) {
            return false;
        }
        if n > 0 {
            ahead += legs[b + n].events.len();
            if ahead >= AHEAD {
                return true;
            }
        }
    }
    false
}

/// How one dancer stands compared with another: turned and moved.
struct Carried {
    from: Point,
    to: Point,
    turn: Turn,
}

impl Carried {
    fn between(a: &Dancer<'_>, b: &Dancer<'_>) -> Self {
        Self { from: a.foot(Foot::Left).ball, to: b.foot(Foot::Left).ball, turn: Turn(b.facing - a.facing) }
    }

    fn point(&self, p: Point) -> Point {
        (p - self.from).turned(self.turn) + self.to
    }

    /// Whether all that matters of one dancer comes to that of the other.
    fn holds(&self, a: &Dancer<'_>, b: &Dancer<'_>) -> bool {
        let near = |p: Point, q: Point| (p - q).length() < SAME;
        let feet = [Foot::Left, Foot::Right].into_iter().all(|foot| {
            let (x, y) = (a.foot(foot), b.foot(foot));
            near(self.point(x.ball), y.ball)
                && x.toe - a.facing == y.toe - b.facing
                && (x.sole, x.last) == (y.sole, y.last)
                && near(x.skew, y.skew)
                && (x.lead - y.lead).abs() < SAME
        });
        feet && (a.weight, a.unwound) == (b.weight, b.unwound)
            && near(self.point(a.home), b.home)
            && a.figure.is_some() == b.figure.is_some()
            && near(self.point(a.figure_home), b.figure_home)
    }

    /// A dancer carried over, `later` stretches on.
    fn dancer<'b>(&self, d: &Dancer<'b>, later: usize) -> Dancer<'b> {
        let mut d = d.clone();
        for foot in [Foot::Left, Foot::Right] {
            let f = d.foot_mut(foot);
            f.ball = self.point(f.ball);
            f.toe += self.turn.0;
        }
        d.facing += self.turn.0;
        d.home = self.point(d.home);
        d.figure_home = self.point(d.figure_home);
        d.figure = d.figure.map(|(stretch, figure)| (stretch + later, figure));
        d
    }
}
