//! Signs that several drawings share: where a foot stands, its path, the head of an arrow, the dial of a turn.

use crate::dance::Foot;
use crate::floor::Turn;
use crate::motion::{FootPose, direction};

use super::plan::Plan;
use super::svg::{Data, Svg, number};

/// Opens a group whose origin is the ball of a foot and whose up is its toe.
pub(super) fn place<'s>(svg: &'s mut Svg, plan: &Plan, pose: &FootPose) -> &'s mut Svg {
    let (x, y) = plan.at(pose.ball);
    let mut words = String::from("translate(");
    number(&mut words, x);
    words.push(' ');
    number(&mut words, y);
    words.push(')');
    let angle = plan.angle(pose.toe);
    if angle.abs() > 0.001 {
        words.push_str(" rotate(");
        number(&mut words, angle);
        words.push(')');
    }
    svg.open("g").attr("transform", &words)
}

/// The path of a foot with an arrow at its end: drawn through for the right foot, in strokes for the left. A
/// rim of paper keeps it apart from what it crosses.
pub(super) fn path(svg: &mut Svg, foot: Foot, [a, c, b]: [(f64, f64); 3]) {
    let (dx, dy) = (b.0 - c.0, b.1 - c.1);
    let length = (dx * dx + dy * dy).sqrt();
    let (dx, dy) = if length < 1e-6 { (b.0 - a.0, b.1 - a.1) } else { (dx, dy) };
    let length = (dx * dx + dy * dy).sqrt().max(1e-6);
    let way = (dx / length, dy / length);
    // The line ends within the head of the arrow.
    let end = (b.0 - way.0 * 4.0, b.1 - way.1 * 4.0);
    let mut data = Data::default();
    data.to('M', &[a.0, a.1]).to('Q', &[c.0, c.1, end.0, end.1]);
    svg.open("path").class("hc-rim").attr("d", &data.0);
    svg.attr("fill", "none").attr("stroke", "white").num("stroke-width", 4.2).end();
    svg.open("path").class("hc-path").attr("d", &data.0).line(1.5);
    if foot == Foot::Left {
        svg.attr("stroke-dasharray", "4.5 2.5");
    }
    svg.end();
    arrow(svg, b, way, 3.6);
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

/// Letters of a turn on its dial.
pub(super) fn turn_words(turn: Turn) -> String {
    let text = turn.to_string();
    text.trim_end_matches([' ', 'R', 'L']).to_owned()
}

/// A turn in words: `1/4 left`.
pub(super) fn turn_said(turn: Turn) -> String {
    format!("{} {}", turn_words(turn), if turn.0 < 0 { "left" } else { "right" })
}

/// How far the body turns: an arc about a point from the old facing to the new one, as on the plan.
pub(super) fn turn_arc(svg: &mut Svg, turn: Turn, from_facing: f64, at: (f64, f64), r: f64, up: i32) {
    let turn = f64::from(turn.0);
    let shown = turn.clamp(-43.0, 43.0);
    let point = |units: f64| {
        let v = Plan::turned(direction(units), up);
        (at.0 + v.x * r, at.1 - v.y * r)
    };
    let way = if turn > 0.0 { 1.0 } else { -1.0 };
    // The arc ends within the head of the arrow, whose tip shows the new facing.
    let head = way * (8.5 / r * 48.0 / core::f64::consts::TAU).min(shown.abs() * 0.9);
    let start = point(from_facing + turn - shown);
    let end = point(from_facing + turn - head * 0.6);
    let large = if (shown - head * 0.6).abs() > 24.0 { 1.0 } else { 0.0 };
    let mut data = Data::default();
    data.to('M', &[start.0, start.1]).to('A', &[r, r, 0.0, large, way.max(0.0), end.0, end.1]);
    svg.open("g").class("hc-turn");
    svg.open("path").class("hc-rim").attr("d", &data.0);
    svg.attr("fill", "none").attr("stroke", "white").num("stroke-width", 5.0).end();
    svg.open("path").attr("d", &data.0).line(2.4).end();
    let tip = point(from_facing + turn);
    let v = Plan::turned(direction(from_facing + turn - head * 0.45), up);
    arrow(svg, tip, (v.y * way, v.x * way), 4.0);
    svg.end();
}
