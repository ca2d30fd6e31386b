//! The print of one foot: what of the sole is on the floor, and what it carries.
//!
//! Two things are told by form alone. *Ink* is what touches the floor: the whole sole, the ball, the tip of the
//! toe, the heel, an edge or nothing. The *outline* is the weight: drawn through where the foot has it, dashed
//! where it has none, dotted where the foot is in the air. The right foot's ink is solid, the left foot's is
//! hatched, and the two soles are mirror images.

use crate::body::Body;
use crate::dance::Foot;
use crate::motion::Sole;

use super::svg::{Data, Svg, number};

/// How much a foot carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Load {
    /// All the weight, or its share of it.
    Carries,
    /// None, but it is on the floor.
    Free,
    /// None, and it is in the air.
    Lifted,
}

impl Load {
    /// Of a foot with this sole and share of the weight.
    pub(super) fn of(sole: Sole, share: f64) -> Self {
        match () {
            () if share > 0.25 => Self::Carries,
            () if sole.is_down() => Self::Free,
            () => Self::Lifted,
        }
    }

    /// The dashes of the outline, in shares of its breadth; `None` for a line drawn through.
    pub(super) const fn dashes(self) -> Option<(f64, f64)> {
        match self {
            Self::Carries => None,
            Self::Free => Some((3.0, 2.0)),
            Self::Lifted => Some((0.1, 2.6)),
        }
    }
}

/// Corners of the sole of a right shoe, in lengths of the foot: x outward, y from the heel to the tip.
/// A smooth line is drawn within them.
const SOLE: [(f64, f64); 13] = [
    (0.0, -0.02),
    (0.135, -0.01),
    (0.15, 0.17),
    (0.095, 0.40),
    (0.205, 0.63),
    (0.20, 0.86),
    (0.05, 1.02),
    (-0.10, 1.03),
    (-0.18, 0.88),
    (-0.19, 0.66),
    (-0.055, 0.40),
    (-0.13, 0.17),
    (-0.13, -0.01),
];

/// Where ink begins and ends on the sole, from heel to tip.
fn inked(sole: Sole) -> &'static [(f64, f64)] {
    match sole {
        Sole::Flat | Sole::Edge => &[(0.0, 0.30), (0.42, 1.0)],
        Sole::Ball => &[(0.52, 1.0)],
        Sole::Toe => &[(0.80, 1.0)],
        Sole::Heel => &[(0.0, 0.30)],
        Sole::Air => &[],
    }
}

/// The edge of the sole at a height: how far inward and outward it reaches.
fn breadth(y: f64) -> (f64, f64) {
    // The corners of either side by height; the smooth line runs a little within them.
    const OUTER: [(f64, f64); 7] =
        [(0.0, 0.07), (0.05, 0.115), (0.17, 0.13), (0.40, 0.11), (0.63, 0.175), (0.86, 0.165), (1.0, 0.02)];
    const INNER: [(f64, f64); 7] =
        [(0.0, 0.06), (0.05, 0.105), (0.17, 0.115), (0.40, 0.075), (0.66, 0.165), (0.88, 0.155), (1.0, 0.09)];
    let at = |table: &[(f64, f64); 7]| {
        let mut found = 0.0;
        for pair in table.windows(2) {
            let [(a, u), (b, v)] = [pair[0], pair[1]];
            if y >= a && y <= b {
                found = u + (v - u) * (y - a) / (b - a);
            }
        }
        found
    };
    (at(&INNER), at(&OUTER))
}

/// How the prints of one drawing are drawn: the body's foot, and the size of a metre.
#[derive(Debug, Clone, Copy)]
pub(super) struct Prints {
    length: f64,
    /// Breadth of the drawn foot as a multiple of the shape's own.
    wide: f64,
    ball: f64,
    /// Breadth of the lines.
    line: f64,
}

impl Prints {
    /// For a body at so many units to a metre.
    pub(super) fn of(body: &Body, scale: f64) -> Self {
        let length = body.foot_length * scale;
        Self {
            length,
            wide: body.foot_breadth / body.foot_length / 0.352,
            ball: body.ball_share,
            line: (length / 24.0).clamp(0.9, 2.4),
        }
    }

    fn at(&self, foot: Foot, (x, y): (f64, f64)) -> (f64, f64) {
        let x = if foot == Foot::Left { -x } else { x };
        (x * self.wide * self.length, (self.ball - y) * self.length)
    }

    fn outline(&self, foot: Foot) -> String {
        let mut data = Data::default();
        let corner = |i: usize| self.at(foot, SOLE[i % SOLE.len()]);
        let half = |a: (f64, f64), b: (f64, f64)| (a.0.midpoint(b.0), a.1.midpoint(b.1));
        let first = half(corner(0), corner(1));
        data.to('M', &[first.0, first.1]);
        for i in 1..=SOLE.len() {
            let (c, e) = (corner(i), half(corner(i), corner(i + 1)));
            data.to('Q', &[c.0, c.1, e.0, e.1]);
        }
        data.close();
        data.0
    }

    /// One patch of ink: solid, or a hatching of lines across the foot.
    fn patch(&self, foot: Foot, load: Load, (from, to): (f64, f64), data: &mut Data) {
        let steps = 7;
        // Within a broken outline the ink keeps its distance, or the two would run together.
        let (share, inset) = if load == Load::Carries { (1.0, 0.0) } else { (0.74, 0.03) };
        let (from, to) = (from.max(inset), to.min(1.0 - inset * 1.6));
        let edge = |y: f64, outer: bool| {
            let (inner_reach, outer_reach) = breadth(y);
            self.at(foot, (share * if outer { outer_reach } else { -inner_reach }, y))
        };
        if foot == Foot::Left {
            let gap = (3.4 / self.length).max(0.075);
            let mut y = from + gap * 0.6;
            while y < to - gap * 0.3 {
                let (a, b) = (edge(y, false), edge(y, true));
                data.to('M', &[a.0, a.1]).to('L', &[b.0, b.1]);
                y += gap;
            }
            return;
        }
        let height = |i: i32| from + (to - from) * f64::from(i) / f64::from(steps);
        for i in 0..=steps {
            let p = edge(height(i), true);
            data.to(if i == 0 { 'M' } else { 'L' }, &[p.0, p.1]);
        }
        for i in (0..=steps).rev() {
            let p = edge(height(i), false);
            data.to('L', &[p.0, p.1]);
        }
        data.close();
    }

    /// Draws a print whose ball stands at the origin of the present frame and whose tip points up.
    pub(super) fn draw(&self, svg: &mut Svg, foot: Foot, sole: Sole, load: Load) {
        self.shape(svg, foot, load);
        let mut data = Data::default();
        for patch in inked(sole) {
            self.patch(foot, load, *patch, &mut data);
        }
        if data.0.is_empty() {
            return;
        }
        svg.open("path").class("hc-ink").attr("d", &data.0);
        if foot == Foot::Left {
            svg.line(self.line);
        } else {
            svg.attr("fill", "currentColor");
        }
        svg.end();
    }

    /// White around a print, so that it stands out from one beneath it.
    pub(super) fn halo(&self, svg: &mut Svg, foot: Foot) {
        svg.open("path").class("hc-paper").attr("d", &self.outline(foot)).attr("fill", "white");
        svg.attr("stroke", "white").num("stroke-width", self.line * 3.2).end();
    }

    /// Only the outline, fainter than a print: where a foot was before.
    pub(super) fn ghost(&self, svg: &mut Svg, foot: Foot) {
        svg.open("path")
            .class("hc-ghost")
            .attr("d", &self.outline(foot))
            .line(0.8)
            .num("opacity", 0.55)
            .end();
    }

    fn shape(&self, svg: &mut Svg, foot: Foot, load: Load) {
        let line = self.line * if load == Load::Carries { 1.25 } else { 1.0 };
        svg.open("path").class("hc-outline").attr("d", &self.outline(foot));
        svg.attr("fill", "white").attr("stroke", "currentColor").num("stroke-width", line);
        if let Some((drawn, left_out)) = load.dashes() {
            let mut text = String::new();
            number(&mut text, drawn * line);
            text.push(' ');
            number(&mut text, left_out * line);
            svg.attr("stroke-dasharray", &text);
            if load == Load::Lifted {
                svg.attr("stroke-linecap", "round");
            }
        }
        svg.end();
    }
}
