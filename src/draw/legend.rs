//! What the signs of a drawing mean, drawn with the same prints.

use crate::body::Body;
use crate::dance::Foot;
use crate::floor::Turn;
use crate::motion::Sole;

use super::footprint::{Load, Prints};
use super::signs::{path, turn_arc};
use super::svg::{Anchor, Data, Svg, number};
use super::tile::Tile;

/// Size of the words, and of the cell of one sign.
const WORDS: f64 = 11.5;
const CELL: (f64, f64) = (94.0, 92.0);

/// A sign of the drawings.
#[derive(Debug, Clone, Copy)]
enum Sign {
    Print(Foot, Sole, Load),
    Label(Foot),
    Before,
    Way(Foot),
    Turn,
    Start,
    End,
}

/// All signs with two lines of words each.
const SIGNS: [(Sign, [&str; 2]); 14] = [
    (Sign::Print(Foot::Left, Sole::Flat, Load::Carries), ["left foot,", "with the weight"]),
    (Sign::Print(Foot::Right, Sole::Flat, Load::Carries), ["right foot,", "with the weight"]),
    (Sign::Print(Foot::Right, Sole::Ball, Load::Carries), ["on the ball", "of the foot"]),
    (Sign::Print(Foot::Right, Sole::Toe, Load::Free), ["touch with toe,", "no weight"]),
    (Sign::Print(Foot::Left, Sole::Heel, Load::Free), ["touch with heel,", "no weight"]),
    (Sign::Print(Foot::Right, Sole::Air, Load::Lifted), ["in the air", "(kick, hitch)"]),
    (Sign::Label(Foot::Left), ["count and foot:", "left, 2, 2& and 4"]),
    (Sign::Label(Foot::Right), ["count and foot:", "right, 1 and 3"]),
    (Sign::Way(Foot::Left), ["way of the", "left foot"]),
    (Sign::Way(Foot::Right), ["way of the", "right foot"]),
    (Sign::Turn, ["turn, here a", "quarter left"]),
    (Sign::Before, ["where a foot", "was before"]),
    (Sign::Start, ["start, and the", "way you face"]),
    (Sign::End, ["end, and the", "way you face"]),
];

/// The legend as a tile of a breadth.
pub(super) fn tile(body: &Body, breadth: f64, heading: bool) -> Tile {
    let mut svg = Svg::default();
    let name = "How to read the prints";
    let top = if heading { 24.0 } else { 0.0 };
    if heading {
        svg.open("text").class("hc-heading").num("x", 8.0).num("y", 17.0).num("font-size", 14.0);
        svg.attr("font-weight", "bold").words(name).end();
    }
    let across = (breadth / CELL.0).floor().clamp(1.0, 7.0);
    let step = (breadth / across).min(CELL.0 * 1.3);
    let (mut x, mut y) = (step / 2.0, top);
    for (sign, words) in SIGNS {
        if x > breadth {
            (x, y) = (step / 2.0, y + CELL.1);
        }
        svg.open("g").class("hc-sign");
        draw(&mut svg, sign, body, (x, y + 32.0));
        for (line, at) in words.iter().zip([73.0, 86.0]) {
            svg.text("hc-words", (x, y + at), WORDS, Anchor::Middle, line);
        }
        svg.end();
        x += step;
    }
    Tile { w: breadth, h: y + CELL.1, inner: svg.finish(), name: name.into() }
}

/// Draws a sign about a point.
fn draw(svg: &mut Svg, sign: Sign, body: &Body, (x, y): (f64, f64)) {
    let prints = Prints::of(body, 165.0);
    match sign {
        Sign::Print(foot, sole, load) => {
            group(svg, (x, y - 10.0));
            prints.draw(svg, foot, sole, load);
            svg.end();
        }
        Sign::Before => {
            group(svg, (x, y - 10.0));
            prints.ghost(svg, Foot::Left);
            svg.end();
        }
        Sign::Label(foot) => {
            let solid = foot == Foot::Right;
            let words = if solid { "1,3R" } else { "2,2&,4L" };
            let w = super::labels::breadth(words, 12.5) + 6.0;
            svg.open("rect").class("hc-label").num("x", x - w / 2.0).num("y", y - 2.0).num("width", w);
            svg.num("height", 17.0).attr("fill", if solid { "currentColor" } else { "white" });
            svg.attr("stroke", "currentColor").num("stroke-width", 1.0).end();
            svg.open("text").class(if solid { "hc-label-solid" } else { "hc-label-open" });
            svg.num("x", x).num("y", y + 11.0).num("font-size", 12.5).attr("text-anchor", "middle");
            svg.attr("font-weight", "bold");
            if solid {
                svg.attr("fill", "white");
            }
            svg.words(words).end();
        }
        Sign::Way(foot) => path(svg, foot, [(x - 34.0, y + 16.0), (x, y - 14.0), (x + 34.0, y + 16.0)]),
        Sign::Turn => {
            group(svg, (x, y - 8.0));
            prints.ghost(svg, Foot::Left);
            svg.end();
            turn_arc(svg, Turn(-12), 0.0, (x, y - 8.0), 19.0, 0);
        }
        Sign::Start => {
            svg.open("rect").class("hc-start-mat").num("x", x - 17.0).num("y", y - 4.0).num("width", 34.0);
            svg.num("height", 30.0).attr("fill", "currentColor").num("opacity", 0.13).end();
            svg.open("path").class("hc-start-arrow").attr("d", &triangle(x, y - 4.0)).attr("fill", "white");
            svg.attr("stroke", "currentColor").num("stroke-width", 1.4).end();
        }
        Sign::End => {
            svg.open("rect").class("hc-end-mat").num("x", x - 17.0).num("y", y - 4.0).num("width", 34.0);
            svg.num("height", 30.0).line(1.0).attr("stroke-dasharray", "1.5 2").end();
            svg.open("path").class("hc-end-arrow").attr("d", &triangle(x, y - 4.0));
            svg.attr("fill", "currentColor").end();
        }
    }
}

/// A group whose origin is a point.
fn group(svg: &mut Svg, (x, y): (f64, f64)) {
    let mut shift = String::from("translate(");
    number(&mut shift, x);
    shift.push(' ');
    number(&mut shift, y);
    shift.push(')');
    svg.open("g").class("hc-print").attr("transform", &shift);
}

fn triangle(x: f64, base: f64) -> String {
    let mut data = Data::default();
    data.to('M', &[x, base - 15.0]).to('L', &[x + 11.0, base]).to('L', &[x - 11.0, base]).close();
    data.0
}
