//! What the signs of a drawing mean, drawn with the same prints.

use crate::body::Body;
use crate::dance::Foot;
use crate::floor::Turn;
use crate::motion::Sole;

use super::footprint::{Load, Prints};
use super::plan::{Plan, Rect};
use super::signs::{arrow, dial, path};
use super::svg::{Anchor, Svg};
use super::tile::Tile;

/// Size of the words.
const WORDS: f64 = 12.5;

/// The legend as a tile of the breadth of two panels.
pub(super) fn tile(body: &Body) -> Tile {
    let prints = Prints::of(body, 165.0);
    let samples = [
        (Foot::Left, Sole::Flat, Load::Carries, ["left foot", "has the weight"]),
        (Foot::Right, Sole::Flat, Load::Carries, ["right foot", "has the weight"]),
        (Foot::Right, Sole::Ball, Load::Carries, ["on the ball", "of the foot"]),
        (Foot::Right, Sole::Toe, Load::Free, ["touch with toe,", "no weight"]),
        (Foot::Left, Sole::Heel, Load::Free, ["heel,", "no weight"]),
        (Foot::Right, Sole::Air, Load::Lifted, ["in the air", "(kick, hitch)"]),
    ];
    let mut svg = Svg::default();
    let step = 108.0;
    let mut x = step / 2.0;
    for (foot, sole, load, words) in samples {
        let mut shift = String::from("translate(");
        super::svg::number(&mut shift, x);
        shift.push_str(" 34)");
        svg.open("g").class("hc-print").attr("transform", &shift);
        prints.draw(&mut svg, foot, sole, load);
        svg.end();
        svg.text("hc-words", (x, 80.0), WORDS, Anchor::Middle, words[0]);
        svg.text("hc-words", (x, 95.0), WORDS, Anchor::Middle, words[1]);
        x += step;
    }
    x = step / 2.0;
    let y = 128.0;
    path(&mut svg, Foot::Left, [(x - 34.0, y), (x, y), (x + 34.0, y)]);
    path(&mut svg, Foot::Right, [(x + step - 34.0, y), (x + step, y), (x + step + 34.0, y)]);
    let mut shift = String::from("translate(");
    super::svg::number(&mut shift, x + 2.0 * step);
    shift.push_str(" 122)");
    svg.open("g").attr("transform", &shift);
    Prints::of(body, 110.0).ghost(&mut svg, Foot::Left);
    svg.end();
    let plan =
        Plan { scale: 1.0, up: 0, origin: crate::floor::Point::ORIGIN, frame: Rect::new(0.0, 0.0, 1.0, 1.0) };
    dial(&mut svg, Turn(12), 0.0, (x + 3.0 * step - 14.0, y), &plan);
    let at = x + 4.0 * step;
    svg.open("g").class("hc-faces-start");
    svg.open("path").attr("d", &triangle(at, y + 8.0, 15.0, 7.5)).attr("fill", "white");
    svg.attr("stroke", "currentColor").num("stroke-width", 1.2).end().end();
    arrow(&mut svg, (at + step, y - 5.0), (0.0, -1.0), 4.5);
    let words = [
        ["path of the", "left foot"],
        ["path of the", "right foot"],
        ["where a foot", "was before"],
        ["turn on this", "count"],
        ["faces here", "at the start"],
        ["faces here", "at the end"],
    ];
    for (i, lines) in (0..).zip(words) {
        let here = x + f64::from(i) * step;
        svg.text("hc-words", (here, 160.0), WORDS, Anchor::Middle, lines[0]);
        svg.text("hc-words", (here, 175.0), WORDS, Anchor::Middle, lines[1]);
    }
    Tile { w: step * 6.0, h: 182.0, inner: svg.finish(), name: "What the signs mean".into() }
}

fn triangle(x: f64, base: f64, height: f64, half: f64) -> String {
    let mut data = super::svg::Data::default();
    data.to('M', &[x, base - height]).to('L', &[x + half, base]).to('L', &[x - half, base]).close();
    data.0
}
