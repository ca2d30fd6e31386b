//! The panel of one section: its prints with their counts, the paths of the feet, where it begins and ends, in
//! a plan of the floor with the clock around it.

use crate::dance::Foot;
use crate::floor::Turn;
use crate::motion::{FootPose, Stance};

use super::callouts;
use super::floorplan;
use super::footprint::Prints;
use super::labels;
use super::marks::{self, Mark};
use super::plan::{Bounds, Plan, Rect};
use super::ruler;
use super::scene::Scene;
use super::sentences::heading;
use super::signs::{path, place};
use super::svg::{Anchor, Svg};
use super::tile::{Ink, Tile, put};

/// Breadth of a panel on the paper.
pub(super) const WIDTH: f64 = 320.0;

/// Height of the tallest plan.
const TALLEST: f64 = 280.0;

/// Letters of the heading and of what stands under it, in units of the paper.
const HEADING: f64 = 14.0;
pub(super) const SMALL: f64 = 11.5;

/// Draws the panel of a scene: one plan, or one for each half of what is too crowded for one.
pub(super) fn panel(scene: &Scene<'_>, ink: &Ink<'_>) -> Tile {
    let mut svg = Svg::default();
    let mut h = head(&mut svg, scene);
    for piece in pieces(scene, ink) {
        put(&mut svg, &piece, (0.0, h));
        h += piece.h;
    }
    Tile { w: WIDTH, h, inner: svg.finish(), name: scene.heading() }
}

/// The plans of a scene, each with its own ruler, in order of time.
pub(super) fn pieces(scene: &Scene<'_>, ink: &Ink<'_>) -> Vec<Tile> {
    let mut pieces = Vec::new();
    cut(scene.clone(), ink, &mut pieces);
    let several = pieces.len() > 1;
    pieces.iter().map(|piece| self::piece(piece, ink, several)).collect()
}

fn piece(scene: &Scene<'_>, ink: &Ink<'_>, named: bool) -> Tile {
    let mut svg = Svg::default();
    let counts = scene.counts();
    let mut y = 0.0;
    if named {
        svg.open("text").class("hc-counts").num("x", 8.0).num("y", 16.0).num("font-size", SMALL);
        svg.attr("font-weight", "bold").words(&counts).end();
        y = 8.0;
    }
    y = plan_of(&mut svg, scene, ink, y + 15.0);
    ruler::draw(&mut svg, scene, Rect::new(8.0, y + 6.0, WIDTH - 16.0, 0.0));
    let h = y + 6.0 + ruler::height(scene) + 4.0;
    let name = if named { format!("{}, {}", scene.heading(), counts) } else { scene.heading() };
    Tile { w: WIDTH, h, inner: svg.finish(), name }
}

/// Cuts a scene in halves until each can be read.
fn cut<'d>(scene: Scene<'d>, ink: &Ink<'_>, out: &mut Vec<Scene<'d>>) {
    let counts = scene.last.saturating_sub(scene.first) + 1;
    let many = counts > 12;
    if counts < 4 || !(many || is_crowded(&scene, ink)) {
        out.push(scene);
        return;
    }
    for half in scene.cut(scene.first + counts.div_ceil(2) - 1) {
        cut(half, ink, out);
    }
}

/// Whether prints lie on each other so often, or would be so small, that two plans are easier to read.
fn is_crowded(scene: &Scene<'_>, ink: &Ink<'_>) -> bool {
    let marks = marks::marks(scene, ink.body);
    let near = 0.85 * ink.body.foot_breadth;
    let points = |m: &Mark| {
        let pose = m.drawn();
        [pose.tip(ink.body), pose.ball, pose.middle(ink.body), pose.heel(ink.body)]
    };
    let mut overlaps = 0;
    for (i, a) in marks.iter().enumerate() {
        for b in &marks[i + 1..] {
            let (p, q) = (points(a), points(b));
            overlaps += usize::from(p.iter().any(|p| q.iter().any(|q| (*p - *q).length() < near)));
        }
    }
    let small = plan(scene, &marks, ink, 0.0).scale * ink.body.foot_length < 28.0;
    overlaps > 2 || marks.len() > 10 || (small && marks.len() > 4)
}

/// Draws one plan and gives the height at which it ends.
fn plan_of(svg: &mut Svg, scene: &Scene<'_>, ink: &Ink<'_>, top: f64) -> f64 {
    let marks = marks::marks(scene, ink.body);
    let plan = plan(scene, &marks, ink, top);
    floorplan::draw(svg, &plan);
    let prints = Prints::of(ink.body, plan.scale);
    floorplan::facing(svg, &plan, heading(scene.start.facing).units(), false);
    floorplan::facing(svg, &plan, heading(scene.end.facing).units(), true);
    ghosts(svg, scene, &plan, prints);
    paths(svg, scene, &plan);
    for (i, mark) in marks.iter().enumerate() {
        let ball = mark.drawn().ball;
        let near = marks[..i].iter().any(|m| (m.drawn().ball - ball).length() < ink.body.foot_length);
        print(svg, mark, &plan, prints, near);
    }
    callouts::draw(svg, scene, &marks, &plan, ink);
    let below = plan.frame.y + plan.frame.h + 16.0;
    floorplan::scale_bar(svg, (plan.frame.x + 2.0, below + 4.0), plan.scale);
    below + 4.0
}

/// The heading of a scene with the name that the sheet gives it.
pub(super) fn title(scene: &Scene<'_>) -> String {
    let name = scene.section.name.trim();
    if name.is_empty() { scene.heading() } else { format!("{}: {name}", scene.heading()) }
}

/// Heading, counts and facings; gives the height that they take.
fn head(svg: &mut Svg, scene: &Scene<'_>) -> f64 {
    let mut y = 0.0;
    for line in labels::lines(&title(scene), 37).iter().take(3) {
        y += HEADING * 1.2;
        svg.open("text").class("hc-heading").num("x", 8.0).num("y", y).num("font-size", HEADING);
        svg.attr("font-weight", "bold").words(line).end();
    }
    y += SMALL * 1.35;
    svg.text("hc-facing", (8.0, y), SMALL, Anchor::Start, &facts(scene));
    y + 4.0
}

/// Counts and facings in a line: `Counts 1 to 8, faces 12:00, ends facing 3:00`.
pub(super) fn facts(scene: &Scene<'_>) -> String {
    let (from, to) = (heading(scene.start.facing), heading(scene.end.facing));
    let faces = if from == to {
        format!("faces {from} throughout")
    } else {
        format!("faces {from}, ends facing {to}")
    };
    let turns = scene.steps.iter().any(|s| s.what.turn != Turn::NONE);
    let faces = if turns && from == to { format!("begins and ends facing {from}") } else { faces };
    format!("{}, {faces}", scene.counts())
}

/// Chooses the scale and the piece of floor.
fn plan(scene: &Scene<'_>, marks: &[Mark], ink: &Ink<'_>, top: f64) -> Plan {
    let up = ink.view.up(scene);
    let feet = |s: &Stance| [s.left, s.right];
    let ends = |f: FootPose| [f.heel(ink.body), f.tip(ink.body)];
    let all = feet(&scene.start).into_iter().chain(marks.iter().map(Mark::drawn)).chain(feet(&scene.end));
    let bounds = Bounds::of(all.flat_map(ends).map(|p| Plan::turned(p, up)));
    let size = bounds.size();
    let width = WIDTH - 44.0;
    // Room for labels all around.
    let (margin_x, margin_y) = (44.0, 34.0);
    let scale =
        ((width - 2.0 * margin_x) / size.x.max(0.1)).min((TALLEST - 2.0 * margin_y) / size.y.max(0.1));
    let scale = scale.clamp(30.0, 190.0);
    let height = (size.y * scale + 2.0 * margin_y).clamp(120.0, TALLEST);
    Plan { scale, up, origin: bounds.middle(), frame: Rect::new(22.0, top, width, height) }
}

/// The feet before the first step.
fn ghosts(svg: &mut Svg, scene: &Scene<'_>, plan: &Plan, prints: Prints) {
    svg.open("g").class("hc-start");
    for foot in [Foot::Left, Foot::Right] {
        let pose = scene.start.foot(foot);
        place(svg, plan, pose);
        prints.ghost(svg, foot);
        svg.end();
    }
    svg.end();
}

fn paths(svg: &mut Svg, scene: &Scene<'_>, plan: &Plan) {
    for walked in scene.steps.iter().flat_map(|s| &s.feet) {
        if let Some(points) = marks::path(walked, plan) {
            path(svg, walked.foot, points);
        }
    }
}

fn print(svg: &mut Svg, mark: &Mark, plan: &Plan, prints: Prints, over_another: bool) {
    place(svg, plan, &mark.drawn()).class("hc-print");
    if over_another {
        prints.halo(svg, mark.foot);
    }
    prints.draw(svg, mark.foot, mark.pose.sole, mark.load);
    svg.end();
}
