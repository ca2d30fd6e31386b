//! The ruler of counts under a plan: when each foot acts, drawn as a scale.
//!
//! A box stands for an action, with the letter of its foot: solid for the right foot, open for the left one,
//! its line drawn through where the foot takes the weight and dashed where it does not.

use crate::dance::{Effect, Foot, Move, Weight, Who};
use crate::time::Ticks;

use super::plan::Rect;
use super::scene::{Scene, Step, whole};
use super::svg::{Anchor, Data, Svg};

/// Counts on one line of the ruler.
const ROW: i32 = 8;

/// Height of a box.
const BOX: f64 = 15.0;

/// Height of one line.
const HEIGHT: f64 = 38.0;

/// The height that the ruler of a scene needs.
pub(super) fn height(scene: &Scene<'_>) -> f64 {
    let rows = (whole(scene.last) - whole(scene.first) + ROW) / ROW;
    f64::from(rows.clamp(1, 64)) * (HEIGHT + upper(scene))
}

/// Room for a second row of boxes, where both feet act on one moment by themselves.
fn upper(scene: &Scene<'_>) -> f64 {
    let both = scene.steps.windows(2).any(|s| s[0].at == s[1].at && s[0].what.who != s[1].what.who);
    if both { BOX + 2.0 } else { 0.0 }
}

/// Draws it into a rectangle.
pub(super) fn draw(svg: &mut Svg, scene: &Scene<'_>, place: Rect) {
    let first = whole(scene.first);
    let counts = (whole(scene.last) - first + 1).max(1);
    let rows = ((counts + ROW - 1) / ROW).clamp(1, 64);
    let quarters = scene.steps.iter().any(|s| s.at.0.rem_euclid(12) != 0);
    let per_row = counts.clamp(1, ROW);
    // Few counts do not fill the line, or boxes would stand far from their counts.
    // What comes before the first count stands before it.
    let early = scene.steps.iter().map(|s| f64::from(first) - f64::from(s.at.0) / 24.0).fold(0.0, f64::max);
    let cell = (place.w / (f64::from(per_row) + early)).min(60.0);
    let start = place.x + early * cell;
    let upper = upper(scene);
    svg.open("g").class("hc-ruler");
    for row in 0..rows {
        let from = first + row * ROW;
        let to = (from + ROW - 1).min(first + counts - 1);
        let line = place.y + f64::from(row) * (HEIGHT + upper) + upper + 19.0;
        let x = |at: Ticks| start + (f64::from(at.0) / 24.0 - f64::from(from)) * cell + 11.0;
        let mut ticks = Data::default();
        ticks.to('M', &[place.x, line]).to('h', &[(f64::from(to - from + 1) + early) * cell]);
        for count in from..=to {
            let here = x(Ticks::of_count(count));
            ticks.to('M', &[here, line]).to('v', &[4.0]);
            ticks.to('M', &[here + cell / 2.0, line]).to('v', &[2.0]);
            svg.text("hc-count", (here, line + 15.0), 11.0, Anchor::Middle, &count.to_string());
        }
        svg.open("path").class("hc-scale").attr("d", &ticks.0).line(1.0).end();
        for (i, step) in scene.steps.iter().enumerate() {
            // A foot that does two things at once has one box, that of the last; the other foot's stands above.
            let same = |s: &&Step<'_>| s.at == step.at;
            let who = step.what.who;
            if scene.steps[i + 1..].iter().take_while(same).any(|s| s.what.who == who) {
                continue;
            }
            let second = scene.steps[..i].iter().rev().take_while(same).any(|s| s.what.who != who);
            let count = step.at.0.div_euclid(24).max(first);
            if count < from || count > to {
                continue;
            }
            let here = x(step.at);
            let half = if quarters { (cell / 8.0).min(7.0) } else { (cell / 4.0 - 0.6).min(7.5) };
            action(svg, step.what, (here, line - 9.0 - if second { BOX + 2.0 } else { 0.0 }), half);
            if step.at.0.rem_euclid(24) != 0 {
                svg.text("hc-count", (here, line + 12.0), 9.0, Anchor::Middle, step.at.sign());
            }
        }
    }
    svg.end();
}

/// The box of one action about a point.
pub(super) fn action(svg: &mut Svg, what: &Move, at: (f64, f64), half: f64) {
    let (effect, after) = (what.effect, what.after);
    let (letter, solid) = match what.who {
        Who::One(Foot::Left) => ("L", false),
        Who::One(Foot::Right) => ("R", true),
        Who::Both if after == Weight::Both => ("B", false),
        Who::Both => ("B", true),
        Who::Nobody => {
            let mut dash = Data::default();
            dash.to('M', &[at.0 - 3.5, at.1]).to('h', &[7.0]);
            svg.open("path").class("hc-hold").attr("d", &dash.0).line(1.6).end();
            return;
        }
    };
    let carries = matches!(effect, Effect::Takes | Effect::Shares | Effect::Keeps);
    svg.open("rect").class("hc-action");
    svg.num("x", at.0 - half).num("y", at.1 - 7.5).num("width", half * 2.0).num("height", 15.0);
    svg.attr("fill", if solid && carries { "currentColor" } else { "none" });
    svg.attr("stroke", "currentColor").num("stroke-width", if carries { 1.4 } else { 1.0 });
    if !carries {
        svg.attr("stroke-dasharray", "2.4 1.8");
    }
    svg.end();
    let size = (half * 1.7).clamp(6.0, 11.5);
    svg.open("text").class(if solid && carries { "hc-letter-solid" } else { "hc-letter" });
    svg.num("x", at.0).num("y", at.1 + size * 0.36).num("font-size", size).attr("text-anchor", "middle");
    svg.attr("font-weight", "bold");
    if solid && carries {
        svg.attr("fill", "white");
    }
    svg.words(letter).end();
}
