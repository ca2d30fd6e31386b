//! How a dance is spread over its paper: one scale for all its sections, and cuts only where a plan would be
//! too crowded to read or too large for the paper.

use super::marks::{self, Mark};
use super::mats::Mat;
use super::plan::{Bounds, Plan};
use super::scene::Scene;
use super::tile::Ink;

/// Units of the paper to a metre at most: a foot of 26 cm is then 49 units long.
const LARGEST: f64 = 190.0;

/// Below this a plan is rather cut, or given the breadth of the whole paper.
const SMALL: f64 = 128.0;

/// Room for labels around the prints, both sides together, and the tallest plan.
const ASIDE: f64 = 128.0;
const ABOVE: f64 = 70.0;
const TALLEST: f64 = 600.0;

/// Prints and ways that lie on each other, past which two plans are clearer than one.
const MUCH: usize = 3;

/// The sections of a dance with the plans of each, all on one scale.
#[derive(Debug)]
pub(super) struct Spread<'d> {
    /// Units of the paper to a metre.
    pub(super) scale: f64,
    /// For each section the pieces that it is drawn in, mostly one.
    pub(super) pieces: Vec<Vec<Scene<'d>>>,
}

impl<'d> Spread<'d> {
    /// Spreads scenes over paper of a breadth; a wide plan may take all of `widest`.
    pub(super) fn of(scenes: &[Scene<'d>], ink: &Ink<'_>, breadth: f64, widest: f64) -> Self {
        let mut scale = LARGEST;
        let mut pieces = Vec::with_capacity(scenes.len());
        for scene in scenes {
            let mut cuts = Vec::new();
            cut(scene.clone(), ink, widest, &mut cuts);
            for (_, size) in &cuts {
                let fits = fits(*size, breadth);
                scale = scale.min(if fits < SMALL { fits.max(self::fits(*size, widest)) } else { fits });
            }
            pieces.push(cuts.into_iter().map(|(piece, _)| piece).collect());
        }
        Self { scale: scale.max(8.0), pieces }
    }
}

/// Cuts a scene until each piece can be read, in the middle or where a figure begins near it.
fn cut<'d>(scene: Scene<'d>, ink: &Ink<'_>, widest: f64, out: &mut Vec<(Scene<'d>, (f64, f64))>) {
    let counts = scene.last.saturating_sub(scene.first) + 1;
    let marks = marks::marks(&scene, ink.body);
    let bounds = bounds(&scene, &marks, ink);
    let size = (bounds.size().x, bounds.size().y);
    let halves = scene.cut(middle(&scene));
    let crowding = |scene: &Scene<'_>, marks: &[Mark]| marks::crowding(scene, marks, ink.body);
    let all = if counts > 5 { crowding(&scene, &marks) } else { 0 };
    // What lies on itself in either half as well is not made clearer by a cut.
    let crowded = all > MUCH && {
        let parted = halves.iter().map(|half| crowding(half, &marks::marks(half, ink.body)));
        parted.sum::<usize>() * 3 <= all * 2
    };
    if counts < 4 || !(crowded || marks.len() > 16 || counts > 16 || fits(size, widest) < SMALL) {
        out.push((scene, size));
        return;
    }
    for half in halves {
        cut(half, ink, widest, out);
    }
}

/// The count after which a scene is best cut: near its middle, where one figure ends and the next begins.
fn middle(scene: &Scene<'_>) -> u32 {
    let counts = scene.last.saturating_sub(scene.first) + 1;
    let half = scene.first + counts.div_ceil(2) - 1;
    let parts = |after: u32| {
        let limit = (super::scene::whole(after) + 1) * 24;
        let at = scene.steps.partition_point(|s| s.at.0 < limit);
        let figure = |i: usize| scene.steps.get(i).and_then(|s| s.what.figure);
        at == 0 || at == scene.steps.len() || figure(at) != figure(at - 1) || figure(at).is_none()
    };
    [half, half + 1, half.saturating_sub(1)]
        .into_iter()
        .filter(|after| (scene.first..scene.last).contains(after))
        .find(|after| parts(*after))
        .unwrap_or(half)
}

/// The floor that prints and mats take, turned so that the top of the drawing is up.
pub(super) fn bounds(scene: &Scene<'_>, marks: &[Mark], ink: &Ink<'_>) -> Bounds {
    let up = ink.view.up(scene);
    let mats = [Mat::under(&scene.start, ink.body), Mat::under(&scene.end, ink.body)];
    let prints = marks.iter().map(Mark::drawn).flat_map(|f| [f.heel(ink.body), f.tip(ink.body)]);
    Bounds::of(mats.iter().flat_map(Mat::points).chain(prints).map(|p| Plan::turned(p, up)))
}

/// The largest scale at which a piece of floor fits on paper of a breadth.
fn fits((x, y): (f64, f64), breadth: f64) -> f64 {
    ((breadth - ASIDE) / x.max(0.1)).min((TALLEST - ABOVE) / y.max(0.1)).min(LARGEST)
}
