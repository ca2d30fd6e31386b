//! The sheet of floor that a drawing stands on: a frame with the hours of the clock on its edge, crosses of a
//! half-metre grid, and a bar for the scale, as on the sheet of a survey.

use crate::floor::{Heading, Point};

use super::labels::breadth;
use super::plan::{Plan, Rect};
use super::svg::{Anchor, Data, Svg};

/// Draws frame and grid.
pub(super) fn bare(svg: &mut Svg, plan: &Plan) {
    let f = plan.frame;
    svg.open("rect").class("hc-frame").num("x", f.x).num("y", f.y).num("width", f.w).num("height", f.h);
    svg.line(1.0).end();
    grid(svg, plan);
}

/// Draws frame, clock and grid; an hour has no number where a sign of a facing stands.
pub(super) fn draw(svg: &mut Svg, plan: &Plan, tabs: &[Tab]) {
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
        let here = Rect::about((at.0, at.1 - 4.0), 16.0, 12.0);
        if tabs.iter().all(|t| t.rect.common(&here) == 0.0) {
            svg.text("hc-hour", at, 11.0, anchor, &name);
        }
    }
    tabs.iter().for_each(|t| t.draw(svg));
}

/// The sign on the edge of a plan that says which way the dancer faces.
#[derive(Debug, Clone)]
pub(super) struct Tab {
    pub(super) rect: Rect,
    words: Vec<String>,
    solid: bool,
}

/// Room beside a frame without a sign, and with one.
pub(super) const BESIDE: (f64, f64) = (16.0, 39.0);
/// Room above and below a frame without a sign, and with one.
pub(super) const ABOVE: (f64, f64) = (15.0, 17.0);

/// Size of a sign's letters.
const TAB: f64 = 10.5;

/// Whether a ray from the middle leaves a frame at its left or right edge.
pub(super) fn leaves_aside(plan: &Plan, heading: i32) -> bool {
    let (x, _) = plan.rim(heading);
    (x - plan.frame.x).abs() < 0.01 || (x - plan.frame.x - plan.frame.w).abs() < 0.01
}

/// The signs of the facings at the start and at the end, outside the frame.
pub(super) fn tabs(plan: &Plan, start: Heading, end: Heading) -> Vec<Tab> {
    let mut tabs: Vec<Tab> = Vec::new();
    let signs = [("start", start, false, -1.0), ("end", end, true, 1.0)];
    for (word, heading, solid, side) in &signs {
        let (x, y) = plan.rim(heading.units());
        let (dx, dy) = plan.ray(heading.units());
        let f = plan.frame;
        let mut tab = if leaves_aside(plan, heading.units()) {
            let words = vec![(*word).to_owned(), heading.to_string()];
            let (w, h) = (36.0, 27.0);
            let left = if dx > 0.0 { f.x + f.w + 1.0 } else { f.x - 1.0 - w };
            let shift = if start == end { side * (h + 1.0) / 2.0 } else { 0.0 };
            Tab { rect: Rect::new(left, y - h / 2.0 + shift, w, h), words, solid: *solid }
        } else {
            let words = format!("{word} {heading}");
            let w = breadth(&words, TAB * 0.94) + 6.0;
            let top = if dy > 0.0 { f.y + f.h + 1.0 } else { f.y - 15.5 };
            let shift = if start == end { side * (w + 1.0) / 2.0 } else { 0.0 };
            Tab { rect: Rect::new(x - w / 2.0 + shift, top, w, 14.5), words: vec![words], solid: *solid }
        };
        // Two signs on one edge stand beside each other.
        if let Some(other) = tabs.first().filter(|t| t.rect.common(&tab.rect) > 0.0) {
            if leaves_aside(plan, heading.units()) {
                let up = other.rect.middle().1 > y;
                tab.rect.y =
                    if up { other.rect.y - tab.rect.h - 1.0 } else { other.rect.y + other.rect.h + 1.0 };
            } else {
                let left = other.rect.middle().0 > x;
                tab.rect.x =
                    if left { other.rect.x - tab.rect.w - 1.0 } else { other.rect.x + other.rect.w + 1.0 };
            }
        }
        tabs.push(tab);
    }
    tabs
}

impl Tab {
    pub(super) fn shift(&mut self, dx: f64, dy: f64) {
        self.rect.x += dx;
        self.rect.y += dy;
    }

    fn draw(&self, svg: &mut Svg) {
        let r = &self.rect;
        svg.open("g").class(if self.solid { "hc-faces-end" } else { "hc-faces-start" });
        svg.open("rect").num("x", r.x).num("y", r.y).num("width", r.w).num("height", r.h);
        svg.attr("fill", if self.solid { "currentColor" } else { "white" });
        svg.attr("stroke", "currentColor").num("stroke-width", 1.0).end();
        let mut y = r.y - 1.0;
        for line in &self.words {
            y += 12.0;
            svg.open("text").num("x", r.x + r.w / 2.0).num("y", y).num("font-size", TAB);
            svg.attr("text-anchor", "middle").attr("font-weight", "bold");
            if self.solid {
                svg.attr("fill", "white");
            }
            svg.words(line).end();
        }
        svg.end();
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
