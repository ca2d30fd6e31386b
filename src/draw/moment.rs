//! One moment of the dance: both feet as they stand, where they came from, and what is done in words.

use crate::body::Body;
use crate::dance::Foot;
use crate::floor::{Point, Turn};
use crate::motion::{Stance, direction};
use crate::order::Ordered as _;
use crate::text::Span;
use crate::time::Ticks;

use super::floorplan;
use super::footprint::{Load, Prints};
use super::labels;
use super::marks;
use super::plan::{Bounds, Plan, Rect};
use super::scene::{Scene, Step, whole};
use super::sentences::{self, heading};
use super::signs::{arrow, dial, path, place, turn_words};
use super::svg::{Anchor, Svg};
use super::tile::{Ink, Tile, tag};

/// What happens on one tick.
#[derive(Debug, Clone, Copy)]
pub(super) struct Moment<'s, 'd> {
    pub(super) scene: &'s Scene<'d>,
    /// Position in the section.
    pub(super) at: Ticks,
    pub(super) before: Stance,
    pub(super) after: Stance,
    pub(super) steps: &'s [Step<'d>],
    /// Index of the first of these steps in the scene.
    first: usize,
}

/// The moments of a scene: every count, and between counts every moment on which something is done.
pub(super) fn moments<'s, 'd>(scene: &'s Scene<'d>) -> Vec<Moment<'s, 'd>> {
    let mut ticks: Vec<i32> = (scene.first..=scene.last).map(|c| whole(c) * 24).collect();
    ticks.extend(scene.steps.iter().map(|s| s.at.0));
    ticks.in_order();
    ticks.dedup();
    ticks.into_iter().map(|tick| moment(scene, Ticks(tick))).collect()
}

/// The moment at a position of the section.
pub(super) fn moment<'s, 'd>(scene: &'s Scene<'d>, at: Ticks) -> Moment<'s, 'd> {
    let from = scene.steps.partition_point(|s| s.at < at);
    let to = scene.steps.partition_point(|s| s.at <= at);
    let before = from.checked_sub(1).and_then(|i| scene.steps.get(i)).map_or(scene.start, |s| s.after);
    let steps = scene.steps.get(from..to).unwrap_or_default();
    Moment { scene, at, before, after: steps.last().map_or(before, |s| s.after), steps, first: from }
}

impl Moment<'_, '_> {
    /// What is done, in few words.
    fn words(&self) -> String {
        let said = sentences::sentences(self.scene);
        let mine = said.iter().skip(self.first).take(self.steps.len());
        let words: Vec<&str> = mine.map(|s| s.words.as_str()).collect();
        if words.is_empty() { "hold".into() } else { words.join(", ") }
    }

    /// What is done, in whole sentences.
    pub(super) fn sentences(&self) -> Vec<sentences::Sentence> {
        let mut said = sentences::sentences(self.scene);
        said.drain(..self.first.min(said.len()));
        said.truncate(self.steps.len());
        said
    }

    fn span(&self) -> Span {
        self.steps.iter().map(|s| s.what.span).reduce(Span::join).unwrap_or(self.scene.section.span)
    }

    fn bounds(&self, body: &Body, up: i32) -> Bounds {
        let ends = |s: &Stance| [s.left.heel(body), s.left.tip(body), s.right.heel(body), s.right.tip(body)];
        let points = ends(&self.before).into_iter().chain(ends(&self.after)).chain([nose(&self.after)]);
        Bounds::of(points.map(|p| Plan::turned(p, up)))
    }
}

/// The point ahead of the body that shows its facing.
fn nose(s: &Stance) -> Point {
    s.left.ball.toward(s.right.ball, 0.5) + direction(s.facing) * 0.24
}

/// A moment as a tile of its own: the count above, the words below.
pub(super) fn tile(m: &Moment<'_, '_>, ink: &Ink<'_>, width: f64, with_clock: bool) -> Tile {
    let mut svg = Svg::default();
    let large = width > 200.0;
    let (size, letters) = if large { (14.0, 35) } else { (11.0, 24) };
    let edge = if with_clock { 22.0 } else { 3.0 };
    let top = if large { 24.0 } else { 18.0 } + if with_clock { 14.0 } else { 0.0 };
    let side = width - 2.0 * edge;
    let frame = Rect::new(edge, top, side, side * if large { 0.8 } else { 0.92 });
    svg.open("g").class("hc-step");
    tag(&mut svg, m.scene, &m.at.to_string(), m.span(), ink);
    hit(&mut svg, width, frame);
    svg.open("text").class("hc-count").num("x", edge).num("y", if large { 18.0 } else { 14.0 });
    svg.num("font-size", size * 1.3).attr("font-weight", "bold").words(&m.at.to_string()).end();
    let facing = format!("faces {}", heading(m.after.facing));
    let right = (width - edge, if large { 18.0 } else { 14.0 });
    svg.text("hc-facing", right, size, Anchor::End, &facing);
    plan(&mut svg, m, ink, frame, with_clock);
    let mut y = frame.y + frame.h + if with_clock { 16.0 } else { 2.0 };
    let words = m.words();
    let written = labels::lines(&words, letters);
    for line in written.iter().take(4) {
        y += size * 1.25;
        svg.text("hc-words", (edge, y), size, Anchor::Start, line);
    }
    svg.end();
    let section = m.scene.heading();
    let of = section.chars().map(crate::letters::small).collect::<String>();
    Tile { w: width, h: y + 6.0, inner: svg.finish(), name: format!("Count {} of {of}", m.at) }
}

fn hit(svg: &mut Svg, width: f64, frame: Rect) {
    svg.open("rect").class("hc-hit").num("width", width).num("height", frame.y + frame.h);
    svg.attr("fill", "none").attr("pointer-events", "all").end();
}

fn plan(svg: &mut Svg, m: &Moment<'_, '_>, ink: &Ink<'_>, frame: Rect, with_clock: bool) {
    let up = ink.view.up(m.scene);
    let bounds = m.bounds(ink.body, up);
    let size = bounds.size();
    let fits = ((frame.w - 16.0) / size.x.max(0.1)).min((frame.h - 16.0) / size.y.max(0.1));
    let scale = fits.min(frame.w / 0.95).max(20.0);
    let plan = Plan { scale, up, origin: bounds.middle(), frame };
    if with_clock {
        floorplan::draw(svg, &plan);
    } else {
        floorplan::bare(svg, &plan);
    }
    let prints = Prints::of(ink.body, scale);
    for foot in [Foot::Left, Foot::Right] {
        let (was, is) = (m.before.foot(foot), m.after.foot(foot));
        if (was.ball - is.ball).length() > 0.03 || (was.toe - is.toe).abs() > 1.0 {
            place(svg, &plan, was);
            prints.ghost(svg, foot);
            svg.end();
        }
    }
    for walked in m.steps.iter().flat_map(|s| &s.feet) {
        if let Some(points) = marks::path(walked, &plan) {
            path(svg, walked.foot, points);
        }
    }
    for foot in [Foot::Left, Foot::Right] {
        let pose = m.after.foot(foot);
        place(svg, &plan, pose).class("hc-print");
        prints.draw(svg, foot, pose.sole, Load::of(pose.sole, pose.share));
        svg.end();
        letter(svg, &plan, ink.body, &m.after, foot);
    }
    let tip = plan.at(nose(&m.after));
    let v = Plan::turned(direction(m.after.facing), up);
    svg.open("g").class("hc-faces-end");
    arrow(svg, tip, (v.x, -v.y), 4.5);
    svg.end();
    let turn = m.steps.iter().fold(Turn::NONE, |t, s| t + s.what.turn);
    if turn != Turn::NONE {
        let words = turn_words(turn);
        let at = (frame.x + frame.w - 24.0 - labels::breadth(&words, 11.0), frame.y + 12.0);
        dial(svg, turn, m.before.facing, at, &plan);
    }
}

/// The letter of a foot, on its outer side.
fn letter(svg: &mut Svg, plan: &Plan, body: &Body, stance: &Stance, foot: Foot) {
    let pose = stance.foot(foot);
    // On crossed feet the outer side is that away from the other foot.
    let away = pose.middle(body) - stance.foot(foot.other()).middle(body);
    let side = if foot == Foot::Left { -12.0 } else { 12.0 };
    let outward = direction(pose.toe + side);
    let way = if away.x * outward.x + away.y * outward.y < -0.02 { -1.0 } else { 1.0 };
    let size = (body.foot_breadth * plan.scale * 0.9).clamp(8.0, 16.0);
    let reach = body.foot_breadth * 0.62 + size * 0.45 / plan.scale;
    let (x, y) = plan.at(pose.middle(body) + outward * (way * reach));
    // A foot at the edge of the plan has its letter within it.
    let (f, half) = (plan.frame, size * 0.5);
    let (x, y) = (x.clamp(f.x + half, f.x + f.w - half), y.clamp(f.y + half, f.y + f.h - half));
    svg.open("text").class("hc-letter").num("x", x).num("y", y + size * 0.36).num("font-size", size);
    svg.attr("text-anchor", "middle").attr("font-weight", "bold").words(foot.letter()).end();
}
