//! Where a body stands: a mat of floor under both feet with an arrow ahead of it, light at the start and
//! framed at the end.

use crate::body::Body;
use crate::floor::Point;
use crate::motion::{Stance, direction};

use super::plan::Plan;
use super::svg::{Data, Svg};

/// The mat under both feet.
#[derive(Debug, Clone, Copy)]
pub(super) struct Mat {
    facing: f64,
    /// Its corners: behind left, behind right, before right, before left.
    corners: [Point; 4],
}

/// From the front edge of a mat to the tip of its arrow, in metres.
const NOSE: f64 = 0.07;

impl Mat {
    /// Under a body.
    pub(super) fn under(stance: &Stance, body: &Body) -> Self {
        let (ahead, aside) = (direction(stance.facing), direction(stance.facing + 12.0));
        let along = |p: Point, v: Point| p.x * v.x + p.y * v.y;
        let feet = [stance.left, stance.right];
        let points: Vec<Point> = feet.iter().flat_map(|f| [f.heel(body), f.ball, f.tip(body)]).collect();
        let least = |v: Point| points.iter().map(|p| along(*p, v)).fold(f64::INFINITY, f64::min);
        let most = |v: Point| points.iter().map(|p| along(*p, v)).fold(f64::NEG_INFINITY, f64::max);
        let side = 0.62 * body.foot_breadth;
        let (back, front) = (least(ahead) - 0.02, most(ahead) + 0.02);
        let (left, right) = (least(aside) - side, most(aside) + side);
        let at = |x: f64, y: f64| aside * x + ahead * y;
        let corners = [at(left, back), at(right, back), at(right, front), at(left, front)];
        Self { facing: stance.facing, corners }
    }

    /// The corners and the tip of the arrow.
    pub(super) fn points(&self) -> [Point; 5] {
        let [a, b, c, d] = self.corners;
        [a, b, c, d, self.tip()]
    }

    /// The middle of the edge behind.
    pub(super) fn behind(&self) -> Point {
        self.corners[0].toward(self.corners[1], 0.5)
    }

    /// The tip of the arrow.
    pub(super) fn tip(&self) -> Point {
        self.corners[3].toward(self.corners[2], 0.5) + direction(self.facing) * NOSE
    }

    /// Whether two mats lie on each other and face the same way.
    pub(super) fn same(&self, other: &Self) -> bool {
        let near = self.corners.iter().zip(&other.corners).all(|(a, b)| (*a - *b).length() < 0.12);
        let turned = (self.facing - other.facing).rem_euclid(48.0);
        near && turned.min(48.0 - turned) < 0.5
    }

    fn outline(&self, plan: &Plan) -> String {
        let mut data = Data::default();
        for (i, corner) in self.corners.iter().enumerate() {
            let (x, y) = plan.at(*corner);
            data.to(if i == 0 { 'M' } else { 'L' }, &[x, y]);
        }
        data.close();
        data.0
    }

    /// The light mat of the start.
    pub(super) fn draw_start(&self, svg: &mut Svg, plan: &Plan) {
        svg.open("path").class("hc-start-mat").attr("d", &self.outline(plan)).attr("fill", "currentColor");
        svg.num("opacity", 0.13).end();
    }

    /// The frame of the end.
    pub(super) fn draw_end(&self, svg: &mut Svg, plan: &Plan) {
        svg.open("path").class("hc-end-mat").attr("d", &self.outline(plan)).line(1.0);
        svg.attr("stroke-dasharray", "1.5 2").end();
    }

    /// The arrow ahead of it: open at the start, solid at the end, solid within open where it is both.
    pub(super) fn draw_arrow(&self, svg: &mut Svg, plan: &Plan, which: Which) {
        let (class, size) = match which {
            Which::Start => ("hc-start-arrow", 1.0),
            Which::End => ("hc-end-arrow", 1.0),
            Which::Both => {
                self.draw_arrow(svg, plan, Which::Start);
                ("hc-end-arrow", 0.5)
            }
        };
        let (ahead, aside) = (direction(self.facing), direction(self.facing + 12.0));
        let long = NOSE * size;
        let tip = self.tip() - ahead * (NOSE * 0.9 * (1.0 - size));
        let foot = tip - ahead * long;
        let half = aside * (long * 0.8);
        let mut data = Data::default();
        for (i, corner) in [tip, foot + half, foot - half].into_iter().enumerate() {
            let (x, y) = plan.at(corner);
            data.to(if i == 0 { 'M' } else { 'L' }, &[x, y]);
        }
        data.close();
        svg.open("path").class(class).attr("d", &data.0);
        svg.attr("fill", if which == Which::Start { "white" } else { "currentColor" });
        svg.attr("stroke", "currentColor").num("stroke-width", 1.4).attr("stroke-linejoin", "round").end();
    }
}

/// Whose arrow it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Which {
    Start,
    End,
    Both,
}
