//! Signs that several drawings share: where a foot stands, its path, the head of an arrow, the dial of a turn.

use crate::dance::Foot;
use crate::floor::Turn;
use crate::motion::{FootPose, direction};

use super::labels::breadth;
use super::plan::Plan;
use super::svg::{Anchor, Data, Svg, number};

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

/// Letters of a turn on its dial.
pub(super) fn turn_words(turn: Turn) -> String {
    let text = turn.to_string();
    text.trim_end_matches([' ', 'R', 'L']).to_owned()
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
