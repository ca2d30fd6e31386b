//! The labels of a plan: counts and letter of each print, the turn on it, and what a finger meets.

use crate::body::Body;
use crate::dance::Foot;
use crate::floor::Turn;
use crate::motion::direction;
use crate::text::Span;

use super::labels::{self, Disc, Wanted, breadth};
use super::marks::{self, Mark};
use super::panel::SMALL;
use super::plan::{Plan, Rect};
use super::scene::Scene;
use super::sentences::heading;
use super::signs::{dial, turn_words};
use super::svg::{Data, Svg};
use super::tile::{Ink, tag};

/// Stands beside the feet before the first step.
const START: &str = "start";

/// Size of the labels' letters.
const LABEL: f64 = 12.5;

/// Where the labels stand, and what they say.
pub(super) fn draw(svg: &mut Svg, scene: &Scene<'_>, marks: &[Mark], plan: &Plan, ink: &Ink<'_>) {
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
    for facing in [scene.start.facing, scene.end.facing] {
        let (x, y) = plan.rim(heading(facing).units());
        let (dx, dy) = plan.ray(heading(facing).units());
        discs.push(Disc { at: (x - dx * 8.0, y - dy * 8.0), r: 9.0, weight: 25.0 });
    }
    let mut wanted: Vec<Wanted> = marks.iter().map(|m| wanted(m, plan, ink.body)).collect();
    let start = scene.start.left.middle(ink.body).toward(scene.start.right.middle(ink.body), 0.5);
    let (w, h) = (breadth(START, SMALL - 1.0), 12.0);
    wanted.push(Wanted { at: plan.at(start), w, h, rather: (0.0, 1.0), clear: 0.14 * plan.scale });
    let inner = Rect::new(plan.frame.x + 2.0, plan.frame.y + 2.0, plan.frame.w - 4.0, plan.frame.h - 4.0);
    let places = labels::place(&wanted, &discs, inner);
    if let Some(rect) = places.last() {
        let at = (rect.x + rect.w / 2.0, rect.y + 10.0);
        svg.open("text").class("hc-start-word").num("x", at.0).num("y", at.1).num("font-size", SMALL - 1.0);
        svg.attr("text-anchor", "middle").attr("font-style", "italic").words(START).end();
    }
    // Leader lines first, so that no line runs over a label.
    for (want, rect) in wanted.iter().zip(&places).take(marks.len()) {
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
