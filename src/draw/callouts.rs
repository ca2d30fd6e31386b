//! The labels of a plan: counts and letter of each print, the turn on it, and what a finger meets.

use crate::body::Body;
use crate::dance::Foot;
use crate::floor::Turn;
use crate::motion::direction;
use crate::text::Span;

use super::labels::{self, Disc, Wanted, breadth};
use super::marks::{Mark, Track};
use super::mats::Mat;
use super::plan::{Plan, Rect};
use super::scene::Scene;
use super::signs::turn_said;
use super::svg::{Data, Svg};
use super::tile::{Ink, tag};

/// Size of the labels' letters, and of the words beside them.
const LABEL: f64 = 12.5;
const WORDS: f64 = 11.0;

/// Where the labels of a plan stand.
#[derive(Debug)]
pub(super) struct Callouts {
    wanted: Vec<Wanted>,
    /// One for each mark, then those of the words below.
    places: Vec<Rect>,
    /// Words on the mats.
    words: Vec<&'static str>,
}

/// What the labels of a plan are about.
#[derive(Debug, Clone, Copy)]
pub(super) struct Shown<'s> {
    pub(super) marks: &'s [Mark],
    pub(super) tracks: &'s [Track],
    pub(super) start: Mat,
    pub(super) end: Mat,
}

/// Finds places for all labels within a frame, and rather within the core of the drawing.
pub(super) fn lay(shown: &Shown<'_>, plan: &Plan, core: Rect, ink: &Ink<'_>) -> Callouts {
    let r = ink.body.foot_breadth * plan.scale * 0.62;
    let mut discs = Vec::new();
    for pose in shown.marks.iter().map(Mark::drawn) {
        for p in [pose.ball, pose.middle(ink.body), pose.heel(ink.body), pose.tip(ink.body)] {
            discs.push(Disc { at: plan.at(p), r, weight: 30.0 });
        }
    }
    for track in shown.tracks {
        for (t, r) in [(0.1, 3.5), (0.3, 3.5), (0.5, 3.5), (0.7, 4.5), (0.9, 6.0)] {
            discs.push(Disc { at: plan.at(track.at(t)), r, weight: 5.0 });
        }
    }
    let radii = arc_radii(shown.marks, plan, ink.body);
    for (mark, r) in shown.marks.iter().zip(radii).filter(|(m, _)| m.turn != Turn::NONE) {
        discs.extend(arc_points(mark, r, plan).map(|at| Disc { at, r: 5.0, weight: 14.0 }));
    }
    for mat in [shown.start, shown.end] {
        let at = plan.at(mat.tip().toward(mat.behind(), 0.12));
        discs.push(Disc { at, r: 0.075 * plan.scale, weight: 30.0 });
    }
    let mut wanted: Vec<Wanted> = shown.marks.iter().map(|m| self::wanted(m, plan, ink.body)).collect();
    let both = shown.start.same(&shown.end);
    let words = if both { vec!["start + end"] } else { vec!["start", "end"] };
    for (word, mat) in words.iter().zip([shown.start, shown.end]) {
        let (at, tip) = (plan.at(mat.behind()), plan.at(mat.tip()));
        let (dx, dy) = (at.0 - tip.0, at.1 - tip.1);
        let length = (dx * dx + dy * dy).sqrt().max(1.0);
        let rather = (dx / length, dy / length);
        wanted.push(Wanted { at, w: breadth(word, WORDS * 0.9), h: 12.0, rather, clear: 1.0 });
    }
    let places = labels::place(&wanted, &discs, plan.frame, core);
    Callouts { wanted, places, words }
}

/// Radius of the arc of a turn about the ball of its foot.
pub(super) fn arc_radius(plan: &Plan, body: &Body) -> f64 {
    (body.foot_length * plan.scale * 0.42).max(10.0)
}

/// The radius of the arc of each mark's turn: turns about one point have arcs outside each other.
pub(super) fn arc_radii(marks: &[Mark], plan: &Plan, body: &Body) -> Vec<f64> {
    let turns = |m: &&Mark| m.turn != Turn::NONE;
    let outside = |i: usize| {
        let here = marks[i].drawn().ball;
        marks[..i].iter().filter(turns).filter(|m| (m.drawn().ball - here).length() < 0.08).count()
    };
    let step = |n: usize| 6.5 * f64::from(u32::try_from(n).unwrap_or(0));
    (0..marks.len()).map(|i| arc_radius(plan, body) + step(outside(i))).collect()
}

/// Points along the arc of a mark's turn.
pub(super) fn arc_points(mark: &Mark, r: f64, plan: &Plan) -> impl Iterator<Item = (f64, f64)> {
    let turn = f64::from(mark.turn.0).clamp(-43.0, 43.0);
    let after = mark.from_facing + f64::from(mark.turn.0);
    let (plan, ball) = (*plan, mark.drawn().ball);
    (0..=6).map(move |step| {
        let way = direction(after - turn * f64::from(step) / 6.0);
        plan.at(ball + way * (r / plan.scale))
    })
}

impl Callouts {
    /// The rectangles of all labels.
    pub(super) fn places(&self) -> &[Rect] {
        &self.places
    }

    /// Moves all of them.
    pub(super) fn shift(&mut self, dx: f64, dy: f64) {
        for rect in &mut self.places {
            *rect = Rect::new(rect.x + dx, rect.y + dy, rect.w, rect.h);
        }
        for want in &mut self.wanted {
            want.at = (want.at.0 + dx, want.at.1 + dy);
        }
    }

    /// Draws them, with what a finger meets.
    pub(super) fn draw(&self, svg: &mut Svg, scene: &Scene<'_>, marks: &[Mark], plan: &Plan, ink: &Ink<'_>) {
        for (word, rect) in self.words.iter().zip(&self.places[marks.len()..]) {
            svg.open("text").class("hc-start-word").num("x", rect.x + rect.w / 2.0).num("y", rect.y + 10.0);
            svg.num("font-size", WORDS).attr("text-anchor", "middle").attr("font-style", "italic");
            svg.words(word).end();
        }
        // Leader lines first, so that no line runs over a label.
        for (want, rect) in self.wanted.iter().zip(&self.places).take(marks.len()) {
            let near = rect.nearest(want.at);
            let (dx, dy) = (near.0 - want.at.0, near.1 - want.at.1);
            let length = (dx * dx + dy * dy).sqrt();
            if length > want.clear + 4.0 {
                // It ends a little within the print.
                let inner = want.clear * 0.6 / length;
                let mut data = Data::default();
                data.to('M', &[want.at.0 + dx * inner, want.at.1 + dy * inner]).to('L', &[near.0, near.1]);
                svg.open("path").class("hc-rim").attr("d", &data.0);
                svg.attr("fill", "none").attr("stroke", "white").num("stroke-width", 2.6).end();
                svg.open("path").class("hc-leader").attr("d", &data.0).line(0.8).end();
            }
        }
        for (mark, rect) in marks.iter().zip(&self.places) {
            let steps = mark.steps.iter().filter_map(|i| scene.steps.get(*i));
            let span = steps.clone().map(|s| s.what.span).reduce(Span::join).unwrap_or_default();
            svg.open("g").class("hc-step");
            let counts: Vec<String> = steps.map(|s| s.at.to_string()).collect();
            tag(svg, scene, &counts.join(" "), span, ink);
            hit(svg, mark, rect, plan);
            label(svg, mark, *rect);
            svg.end();
        }
    }
}

fn wanted(mark: &Mark, plan: &Plan, body: &Body) -> Wanted {
    let pose = mark.drawn();
    let middle = pose.ball.toward(pose.middle(body), 0.5);
    let side = if mark.foot == Foot::Left { -12.0 } else { 12.0 };
    let out = Plan::turned(direction(pose.toe + side), plan.up);
    let turn = if mark.turn == Turn::NONE { 0.0 } else { breadth(&turn_said(mark.turn), WORDS * 0.86) + 4.0 };
    Wanted {
        at: plan.at(middle),
        w: breadth(&mark.label, LABEL) + 6.0 + turn,
        h: 17.0,
        rather: (out.x, -out.y),
        clear: body.foot_breadth * plan.scale * 0.6,
    }
}

/// A label: the counts and the letter of the foot, white on black for the right foot, and the turn beside it.
fn label(svg: &mut Svg, mark: &Mark, rect: Rect) {
    let solid = mark.foot == Foot::Right;
    let w = breadth(&mark.label, LABEL) + 6.0;
    if mark.turn != Turn::NONE {
        svg.open("rect").class("hc-label").num("x", rect.x).num("y", rect.y).num("width", rect.w);
        svg.num("height", rect.h).attr("fill", "white").attr("stroke", "currentColor");
        svg.num("stroke-width", 1.0).end();
    }
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
        svg.open("text").class("hc-turn-words").num("x", (rect.x + w).midpoint(rect.x + rect.w));
        svg.num("y", rect.y + 12.5).num("font-size", WORDS).attr("text-anchor", "middle");
        svg.words(&turn_said(mark.turn)).end();
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
