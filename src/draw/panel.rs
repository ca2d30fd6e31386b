//! The panel of one section: its prints with their counts, the paths of the feet, where it begins and ends, in
//! a plan of the floor with the clock around it.

use crate::body::Body;
use crate::dance::Foot;
use crate::floor::Turn;
use crate::motion::{FootPose, Stance, direction};
use crate::text::Span;

use super::floorplan;
use super::footprint::Prints;
use super::labels::{self, Disc, Wanted, breadth};
use super::marks::{self, Mark};
use super::plan::{Bounds, Plan, Rect};
use super::ruler;
use super::scene::Scene;
use super::sentences::heading;
use super::svg::{Anchor, Data, Svg};
use super::tile::{Ink, Tile, put, tag};

/// Breadth of a panel on the paper.
pub(super) const WIDTH: f64 = 320.0;

/// Height of the tallest plan.
const TALLEST: f64 = 280.0;

/// Letters of the heading and of what stands under it, in units of the paper.
const HEADING: f64 = 14.0;
const SMALL: f64 = 11.5;

/// Size of the labels' letters.
const LABEL: f64 = 12.5;

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
    let small = plan(scene, &marks, ink, 0.0).scale * ink.body.foot_length < 24.0;
    overlaps > 2 || marks.len() > 10 || (small && marks.len() > 3)
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
    for mark in &marks {
        print(svg, mark, &plan, prints);
    }
    put_labels(svg, scene, &marks, &plan, ink);
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

/// Opens a group whose origin is the ball of a foot and whose up is its toe.
pub(super) fn place<'s>(svg: &'s mut Svg, plan: &Plan, pose: &FootPose) -> &'s mut Svg {
    let (x, y) = plan.at(pose.ball);
    let mut words = String::from("translate(");
    super::svg::number(&mut words, x);
    words.push(' ');
    super::svg::number(&mut words, y);
    words.push(')');
    let angle = plan.angle(pose.toe);
    if angle.abs() > 0.001 {
        words.push_str(" rotate(");
        super::svg::number(&mut words, angle);
        words.push(')');
    }
    svg.open("g").attr("transform", &words)
}

fn paths(svg: &mut Svg, scene: &Scene<'_>, plan: &Plan) {
    for walked in scene.steps.iter().flat_map(|s| &s.feet) {
        if let Some(points) = marks::path(walked, plan) {
            path(svg, walked.foot, points);
        }
    }
}

/// The path of a foot with an arrow in its middle: drawn through for the right foot, in strokes for the left.
pub(super) fn path(svg: &mut Svg, foot: Foot, [a, c, b]: [(f64, f64); 3]) {
    let mut data = Data::default();
    data.to('M', &[a.0, a.1]).to('Q', &[c.0, c.1, b.0, b.1]);
    svg.open("path").class("hc-path").attr("d", &data.0).line(1.1);
    if foot == Foot::Left {
        svg.attr("stroke-dasharray", "5 2.5");
    }
    svg.end();
    // The point of the curve at 0.58 of its way, and its direction there.
    let t = 0.58;
    let mix = |p: (f64, f64), q: (f64, f64)| (p.0 + (q.0 - p.0) * t, p.1 + (q.1 - p.1) * t);
    let (u, v) = (mix(a, c), mix(c, b));
    let tip = mix(u, v);
    let (dx, dy) = (v.0 - u.0, v.1 - u.1);
    let length = (dx * dx + dy * dy).sqrt();
    if length < 1e-6 {
        return;
    }
    arrow(svg, tip, (dx / length, dy / length), 3.2);
}

/// The head of an arrow.
pub(super) fn arrow(svg: &mut Svg, tip: (f64, f64), (dx, dy): (f64, f64), half: f64) {
    let back = (tip.0 - dx * half * 2.2, tip.1 - dy * half * 2.2);
    let mut data = Data::default();
    data.to('M', &[tip.0, tip.1])
        .to('L', &[back.0 - dy * half, back.1 + dx * half])
        .to('L', &[back.0 + dy * half, back.1 - dx * half])
        .close();
    svg.open("path").class("hc-arrow").attr("d", &data.0).attr("fill", "currentColor").end();
}

fn print(svg: &mut Svg, mark: &Mark, plan: &Plan, prints: Prints) {
    place(svg, plan, &mark.drawn()).class("hc-print");
    prints.draw(svg, mark.foot, mark.pose.sole, mark.load);
    svg.end();
}

/// Where the labels stand, and what they say.
fn put_labels(svg: &mut Svg, scene: &Scene<'_>, marks: &[Mark], plan: &Plan, ink: &Ink<'_>) {
    let r = ink.body.foot_breadth * plan.scale * 0.62;
    let mut discs = Vec::new();
    let feet = [scene.start.left, scene.start.right];
    for (pose, weight) in marks.iter().map(|m| (m.drawn(), 30.0)).chain(feet.into_iter().map(|f| (f, 7.0))) {
        for p in [pose.ball, pose.middle(ink.body), pose.heel(ink.body), pose.tip(ink.body)] {
            discs.push(Disc { at: plan.at(p), r, weight });
        }
    }
    for walked in scene.steps.iter().flat_map(|s| &s.feet) {
        if let Some([a, c, b]) = marks::path(walked, plan) {
            for t in [0.2, 0.35, 0.5, 0.65, 0.8] {
                let mix =
                    |p: f64, q: f64, s: f64| p * (1.0 - t) * (1.0 - t) + 2.0 * q * t * (1.0 - t) + s * t * t;
                discs.push(Disc { at: (mix(a.0, c.0, b.0), mix(a.1, c.1, b.1)), r: 3.5, weight: 3.0 });
            }
        }
    }
    let wanted: Vec<Wanted> = marks.iter().map(|m| wanted(m, plan, ink.body)).collect();
    let inner = Rect::new(plan.frame.x + 2.0, plan.frame.y + 2.0, plan.frame.w - 4.0, plan.frame.h - 4.0);
    let places = labels::place(&wanted, &discs, inner);
    // Leader lines first, so that no line runs over a label.
    for ((mark, want), rect) in marks.iter().zip(&wanted).zip(&places) {
        let _ = mark;
        let near = rect.nearest(want.at);
        let (dx, dy) = (near.0 - want.at.0, near.1 - want.at.1);
        if (dx * dx + dy * dy).sqrt() > want.clear + 5.0 {
            let mut data = Data::default();
            data.to('M', &[want.at.0, want.at.1]).to('L', &[near.0, near.1]);
            svg.open("path").class("hc-leader").attr("d", &data.0).line(0.7).end();
        }
    }
    for (mark, rect) in marks.iter().zip(&places) {
        let steps = mark.steps.iter().filter_map(|i| scene.steps.get(*i));
        let span = steps.clone().map(|s| s.what.span).reduce(Span::join).unwrap_or_default();
        svg.open("g").class("hc-step");
        let counts: Vec<String> = steps.map(|s| s.at.to_string()).collect();
        tag(svg, scene, &counts.join(" "), span, ink);
        hit(svg, mark, rect, plan);
        label(svg, mark, *rect, plan);
        svg.end();
    }
}

fn wanted(mark: &Mark, plan: &Plan, body: &Body) -> Wanted {
    let pose = mark.drawn();
    let middle = pose.ball.toward(pose.middle(body), 0.5);
    let side = if mark.foot == Foot::Left { -12.0 } else { 12.0 };
    let out = Plan::turned(direction(pose.toe + side), plan.up);
    let dial = if mark.turn == Turn::NONE { 0.0 } else { dial_width(mark) };
    Wanted {
        at: plan.at(middle),
        w: breadth(&mark.label, LABEL) + 6.0 + dial,
        h: 17.0,
        rather: (out.x, -out.y),
        clear: body.foot_breadth * plan.scale * 0.62,
    }
}

/// Letters of a turn on its dial.
pub(super) fn turn_words(turn: Turn) -> String {
    let text = turn.to_string();
    text.trim_end_matches([' ', 'R', 'L']).to_owned()
}

fn dial_width(mark: &Mark) -> f64 {
    20.0 + breadth(&turn_words(mark.turn), 11.0)
}

/// A label: the counts and the letter of the foot, white on black for the right foot, and the turn beside it.
fn label(svg: &mut Svg, mark: &Mark, rect: Rect, plan: &Plan) {
    let solid = mark.foot == Foot::Right;
    let w = breadth(&mark.label, LABEL) + 6.0;
    svg.open("rect")
        .class("hc-label")
        .num("x", rect.x)
        .num("y", rect.y)
        .num("width", w)
        .num("height", rect.h);
    svg.attr("fill", if solid { "currentColor" } else { "white" });
    svg.attr("stroke", "currentColor").num("stroke-width", 1.0).end();
    svg.open("text").class(if solid { "hc-label-solid" } else { "hc-label-open" });
    svg.num("x", rect.x + w / 2.0).num("y", rect.y + 13.0).num("font-size", LABEL);
    svg.attr("text-anchor", "middle").attr("font-weight", "bold");
    if solid {
        svg.attr("fill", "white");
    }
    svg.words(&mark.label).end();
    if mark.turn != Turn::NONE {
        dial(svg, mark.turn, mark.from_facing, (rect.x + w + 10.0, rect.y + rect.h / 2.0), plan);
    }
}

/// How far the body turns: an arc from the old facing to the new one, as on a plan of the floor, and its share
/// of a whole turn.
pub(super) fn dial(svg: &mut Svg, turn: Turn, from_facing: f64, at: (f64, f64), plan: &Plan) {
    let r = 7.0;
    let words = turn_words(turn);
    svg.open("g").class("hc-turn");
    svg.open("rect").class("hc-paper").num("x", at.0 - 9.5).num("y", at.1 - 8.5);
    svg.num("width", 20.0 + breadth(&words, 11.0)).num("height", 17.0).attr("fill", "white").end();
    svg.open("circle").num("cx", at.0).num("cy", at.1).num("r", r).line(0.5).end();
    let turn = turn.0;
    let shown = f64::from(turn.clamp(-44, 44));
    let point = |units: f64| {
        let v = Plan::turned(direction(units), plan.up);
        (at.0 + v.x * r, at.1 - v.y * r)
    };
    let start = point(from_facing + f64::from(turn) - shown);
    let end = point(from_facing + f64::from(turn));
    let large = if shown.abs() > 24.0 { 1.0 } else { 0.0 };
    let sweep = if turn > 0 { 1.0 } else { 0.0 };
    let mut data = Data::default();
    data.to('M', &[start.0, start.1]).to('A', &[r, r, 0.0, large, sweep, end.0, end.1]);
    svg.open("path").attr("d", &data.0).line(2.2).end();
    // The head of the arrow lies along the circle.
    let v = Plan::turned(direction(from_facing + f64::from(turn)), plan.up);
    let way = if turn > 0 { 1.0 } else { -1.0 };
    let (dx, dy) = (v.y * way, v.x * way);
    arrow(svg, (end.0 + dx * 4.0, end.1 + dy * 4.0), (dx, dy), 3.0);
    svg.text("hc-turn-words", (at.0 + 10.5, at.1 + 4.0), 11.0, Anchor::Start, &words);
    svg.end();
}

/// An unseen shape over a print and its label that a finger can meet: 44 units at least where there is room.
fn hit(svg: &mut Svg, mark: &Mark, rect: &Rect, plan: &Plan) {
    let pose = mark.drawn();
    let (x, y) = plan.at(pose.ball + direction(pose.toe) * -0.05);
    svg.open("circle").class("hc-hit").num("cx", x).num("cy", y).num("r", 22.0);
    svg.attr("fill", "none").attr("pointer-events", "all").end();
    svg.open("rect").class("hc-hit").num("x", rect.x - 4.0).num("y", rect.y - 6.0);
    svg.num("width", rect.w + 8.0).num("height", rect.h + 12.0);
    svg.attr("fill", "none").attr("pointer-events", "all").end();
}
