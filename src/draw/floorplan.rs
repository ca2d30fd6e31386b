//! The sheet of floor that a drawing stands on: a frame with the hours of the clock on its edge, crosses of a
//! half-metre grid, and a bar for the scale, as on the sheet of a survey.

use crate::floor::Point;

use super::plan::{Plan, Rect};
use super::svg::{Anchor, Data, Svg};

/// Draws frame and grid.
pub(super) fn bare(svg: &mut Svg, plan: &Plan) {
    let f = plan.frame;
    svg.open("rect").class("hc-frame").num("x", f.x).num("y", f.y).num("width", f.w).num("height", f.h);
    svg.line(1.0).end();
    grid(svg, plan);
}

/// Draws frame, clock and grid.
pub(super) fn draw(svg: &mut Svg, plan: &Plan) {
    bare(svg, plan);
    let mut ticks = Data::default();
    for hour in 0..12 {
        let (x, y) = plan.rim(hour * 4);
        let (dx, dy) = plan.ray(hour * 4);
        let length = if hour % 3 == 0 { 5.0 } else { 3.0 };
        ticks.to('M', &[x, y]).to('L', &[x - dx * length, y - dy * length]);
    }
    svg.open("path").class("hc-hours").attr("d", &ticks.0).line(1.0).end();
    for hour in [0, 3, 6, 9] {
        let (x, y) = plan.rim(hour * 4);
        let (dx, dy) = plan.ray(hour * 4);
        let name = if hour == 0 { "12".to_owned() } else { hour.to_string() };
        let (at, anchor) = match () {
            () if dy < -0.5 => ((x, y - 4.0), Anchor::Middle),
            () if dy > 0.5 => ((x, y + 12.0), Anchor::Middle),
            () if dx > 0.0 => ((x + 4.0, y + 4.0), Anchor::Start),
            () => ((x - 4.0, y + 4.0), Anchor::End),
        };
        svg.text("hc-hour", at, 11.0, anchor, &name);
    }
}

/// Crosses each half metre, so that the eye can measure.
fn grid(svg: &mut Svg, plan: &Plan) {
    let step = 0.5 * plan.scale;
    if step < 12.0 {
        return;
    }
    let f = plan.frame;
    let (x0, y0) = plan.at(Point::ORIGIN);
    let mut data = Data::default();
    let first = |from: f64, zero: f64| zero + ((from + 6.0 - zero) / step).ceil() * step;
    let mut y = first(f.y, y0);
    while y < f.y + f.h - 6.0 {
        let mut x = first(f.x, x0);
        while x < f.x + f.w - 6.0 {
            data.to('M', &[x - 2.0, y]).to('h', &[4.0]).to('M', &[x, y - 2.0]).to('v', &[4.0]);
            x += step;
        }
        y += step;
    }
    if !data.0.is_empty() {
        svg.open("path").class("hc-grid").attr("d", &data.0).line(0.6).num("opacity", 0.45).end();
    }
}

/// A bar half a metre long, its left end at a point.
pub(super) fn scale_bar(svg: &mut Svg, at: (f64, f64), scale: f64) {
    let half = scale / 2.0;
    let mut data = Data::default();
    data.to('M', &[at.0, at.1 - 4.0]).to('v', &[4.0]).to('h', &[half]).to('v', &[-4.0]);
    svg.open("path").class("hc-scale").attr("d", &data.0).line(1.0).end();
    svg.text("hc-scale-words", (at.0 + half + 5.0, at.1), 9.0, Anchor::Start, "50 cm");
}

/// The mark of a facing on the frame: a triangle that points out of the room, hollow at the start and solid at
/// the end.
pub(super) fn facing(svg: &mut Svg, plan: &Plan, heading: i32, solid: bool) {
    // In a corner of the frame there is no room for its base, so the ray is followed in a smaller frame.
    let f = plan.frame;
    let inner = Plan { frame: Rect::new(f.x + 8.0, f.y + 8.0, f.w - 16.0, f.h - 16.0), ..*plan };
    let (x, y) = inner.rim(heading);
    let (dx, dy) = plan.ray(heading);
    let (x, y) = (x + dx * 8.0, y + dy * 8.0);
    let (tip, half) = if solid { (9.0, 4.5) } else { (15.0, 7.5) };
    let mut data = Data::default();
    // The base lies inside the frame, the tip on it.
    let base = (x - dx * tip, y - dy * tip);
    data.to('M', &[x, y])
        .to('L', &[base.0 - dy * half, base.1 + dx * half])
        .to('L', &[base.0 + dy * half, base.1 - dx * half])
        .close();
    svg.open("path").class(if solid { "hc-faces-end" } else { "hc-faces-start" }).attr("d", &data.0);
    if solid {
        svg.attr("fill", "currentColor");
    } else {
        svg.attr("fill", "white").attr("stroke", "currentColor").num("stroke-width", 1.2);
    }
    svg.end();
}
