//! One moment of the dance: both feet as they stand, where they came from, and what is done in words.

use crate::body::Body;
use crate::dance::Foot;
use crate::floor::Turn;
use crate::motion::{Stance, direction};
use crate::order::Ordered as _;
use crate::text::Span;
use crate::time::Ticks;

use super::callouts::arc_radius;
use super::floorplan;
use super::footprint::{Load, Prints};
use super::labels;
use super::marks;
use super::mats::{Mat, Which};
use super::plan::{Bounds, Plan, Rect};
use super::scene::{Scene, Step, whole};
use super::sentences::{self, heading};
use super::signs::{path, place, turn_arc, turn_said};
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
        let feet = ends(&self.before).into_iter().chain(ends(&self.after));
        let points = feet.chain(Mat::under(&self.after, body).points());
        Bounds::of(points.map(|p| Plan::turned(p, up)))
    }
}

/// The frame that several moments share, so that a foot has one size in all of them.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stage {
    /// Breadth of the whole tile.
    width: f64,
    /// The floor within it.
    frame: Rect,
    /// Units of the paper to a metre.
    scale: f64,
    /// Whether it stands alone, with the clock around it.
    alone: bool,
}

impl Stage {
    /// For moments on tiles of a breadth: as large as the widest of them allows, and as high as the highest needs.
    pub(super) fn of(moments: &[Moment<'_, '_>], ink: &Ink<'_>, width: f64) -> Self {
        let alone = width > 200.0;
        let (edge, top) = if alone { (22.0, 38.0) } else { (3.0, 18.0) };
        let side = width - 2.0 * edge;
        let (mut x, mut y) = (0.1_f64, 0.1_f64);
        for m in moments {
            let size = m.bounds(ink.body, ink.view.up(m.scene)).size();
            (x, y) = (x.max(size.x), y.max(size.y));
        }
        let (room_x, room_y) = (side - 26.0, side * 1.25 - 16.0);
        let scale = (room_x / x).min(room_y / y).min(side / 0.6).max(8.0);
        let h = (y * scale + 16.0).max(side * 0.5);
        Self { width, frame: Rect::new(edge, top, side, h), scale, alone }
    }
}

/// A moment as a tile of its own: the count above, the words below.
pub(super) fn tile(m: &Moment<'_, '_>, ink: &Ink<'_>, stage: Stage) -> Tile {
    let mut svg = Svg::default();
    let Stage { width, frame, alone, .. } = stage;
    let (size, letters) = if alone { (14.0, 35) } else { (11.0, 24) };
    let edge = frame.x;
    svg.open("g").class("hc-step");
    tag(&mut svg, m.scene, &m.at.to_string(), m.span(), ink);
    hit(&mut svg, width, frame);
    svg.open("text").class("hc-count").num("x", edge).num("y", if alone { 18.0 } else { 14.0 });
    svg.num("font-size", size * 1.3).attr("font-weight", "bold").words(&m.at.to_string()).end();
    let facing = format!("faces {}", heading(m.after.facing));
    let right = (width - edge, if alone { 18.0 } else { 14.0 });
    svg.text("hc-facing", right, size, Anchor::End, &facing);
    plan(&mut svg, m, ink, stage);
    let mut y = frame.y + frame.h + if alone { 16.0 } else { 2.0 };
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

fn plan(svg: &mut Svg, m: &Moment<'_, '_>, ink: &Ink<'_>, stage: Stage) {
    let Stage { frame, scale, alone, .. } = stage;
    let up = ink.view.up(m.scene);
    let plan = Plan { scale, up, origin: m.bounds(ink.body, up).middle(), frame };
    let mat = Mat::under(&m.after, ink.body);
    mat.draw_start(svg, &plan);
    if alone {
        floorplan::draw(svg, &plan, &[]);
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
    for foot in [Foot::Left, Foot::Right] {
        let pose = m.after.foot(foot);
        place(svg, &plan, pose).class("hc-print");
        prints.draw(svg, foot, pose.sole, Load::of(pose.sole, pose.share));
        svg.end();
    }
    for walked in m.steps.iter().flat_map(|s| &s.feet) {
        if let Some(track) = marks::track(walked, ink.body) {
            path(svg, track.foot, track.curve.map(|p| plan.at(p)));
        }
    }
    mat.draw_arrow(svg, &plan, Which::End);
    let turning = turn(svg, m, &plan, ink.body);
    for foot in [Foot::Left, Foot::Right] {
        letter(svg, &plan, ink.body, &m.after, foot, turning == Some(foot));
    }
}

/// How far the body turns: an arc at the foot on which it turns, and the turn in words in a corner.
///
/// Gives the foot that it is drawn at.
fn turn(svg: &mut Svg, m: &Moment<'_, '_>, plan: &Plan, body: &Body) -> Option<Foot> {
    let turn = m.steps.iter().fold(Turn::NONE, |t, s| t + s.what.turn);
    if turn == Turn::NONE {
        return None;
    }
    let foot = if m.after.right.share > m.after.left.share { Foot::Right } else { Foot::Left };
    let (at, r) = (plan.at(m.after.foot(foot).ball), arc_radius(plan, body));
    turn_arc(svg, turn, m.after.facing - f64::from(turn.0), at, r, plan.up);
    let words = turn_said(turn);
    let w = labels::breadth(&words, 10.5) + 4.0;
    let f = plan.frame;
    svg.open("rect").class("hc-paper").num("x", f.x + f.w - w - 2.0).num("y", f.y + 2.0);
    svg.num("width", w).num("height", 15.0).attr("fill", "white").end();
    svg.open("text").class("hc-turn-words").num("x", f.x + f.w - 4.0).num("y", f.y + 13.5);
    svg.num("font-size", 11.5).attr("text-anchor", "end").attr("font-weight", "bold").words(&words).end();
    Some(foot)
}

/// The letter of a foot, on its outer side.
fn letter(svg: &mut Svg, plan: &Plan, body: &Body, stance: &Stance, foot: Foot, turns: bool) {
    let pose = stance.foot(foot);
    // On crossed feet the outer side is that away from the other foot.
    let away = pose.middle(body) - stance.foot(foot.other()).middle(body);
    let side = if foot == Foot::Left { -12.0 } else { 12.0 };
    let outward = direction(pose.toe + side);
    let way = if away.x * outward.x + away.y * outward.y < -0.02 { -1.0 } else { 1.0 };
    let clear = if turns { arc_radius(plan, body) / plan.scale } else { body.foot_breadth * 0.62 };
    let size = (body.foot_breadth * plan.scale * 0.9).clamp(8.0, 16.0);
    let reach = clear + size * 0.5 / plan.scale;
    let (x, y) = plan.at(pose.middle(body) + outward * (way * reach));
    // A foot at the edge of the plan has its letter within it.
    let (f, half) = (plan.frame, size * 0.5);
    let (x, y) = (x.clamp(f.x + half, f.x + f.w - half), y.clamp(f.y + half, f.y + f.h - half));
    svg.open("text").class("hc-letter").num("x", x).num("y", y + size * 0.36).num("font-size", size);
    svg.attr("text-anchor", "middle").attr("font-weight", "bold").words(foot.letter()).end();
}
