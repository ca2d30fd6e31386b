//! The panel of one section: its prints with their counts, the paths of the feet, where it begins and ends, in
//! a plan of the floor with the clock around it.

use crate::floor::Turn;

use super::callouts::{self, Callouts, Shown};
use super::floorplan::{self, ABOVE, BESIDE, Tab};
use super::footprint::Prints;
use super::labels;
use super::listing;
use super::marks::{self, Mark, Track};
use super::mats::{Mat, Which};
use super::plan::{Plan, Rect};
use super::ruler;
use super::scene::Scene;
use super::sentences::heading;
use super::signs::{path, place, turn_arc};
use super::spread;
use super::svg::{Anchor, Svg};
use super::tile::{Ink, Tile, flow, put};

/// Breadth of a panel on the paper.
pub(super) const WIDTH: f64 = 320.0;

/// Letters of the heading and of what stands under it, in units of the paper.
const HEADING: f64 = 14.0;
pub(super) const SMALL: f64 = 11.5;

/// What stands with the plans of a section.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Beside {
    /// The ruler of counts: the steps are told elsewhere.
    Ruler,
    /// All steps in words.
    Words,
}

/// Whether plans need the breadth of two columns: one is too broad, or all stand beside each other there.
fn needs_two(plans: &[Tile], room: f64) -> bool {
    let all: f64 = plans.iter().map(|p| p.w + 6.0).sum();
    plans.iter().any(|p| p.w > WIDTH) || (all > WIDTH && all <= room)
}

/// Which sections take two columns: those that need them, and those that would stand alone in a row before one.
pub(super) fn wide(plans: &[Vec<Tile>], room: f64, columns: usize) -> Vec<bool> {
    let mut wide: Vec<bool> = plans.iter().map(|p| columns > 1 && needs_two(p, room)).collect();
    if columns == 2 {
        let mut run = 0;
        for i in 0..wide.len() {
            run = if wide[i] { 0 } else { run + 1 };
            let last = wide.get(i + 1).is_none_or(|next| *next);
            if last && run % 2 == 1 {
                wide[i] = true;
                run = 0;
            }
        }
    }
    wide
}

/// Draws the panel of a scene around its plans, on paper of a breadth.
pub(super) fn panel(scene: &Scene<'_>, plans: &[Tile], ink: &Ink<'_>, w: f64, beside: Beside) -> Tile {
    let plans = flow(plans, w, 6.0);
    // Signs on both sides can make a plan broader than its scale foresaw.
    let w = w.max(plans.w);
    let mut svg = Svg::default();
    let mut h = head(&mut svg, scene, w);
    put(&mut svg, &plans, (0.0, h));
    let aside = w - plans.w - 10.0;
    match beside {
        Beside::Ruler => {
            h += plans.h + 4.0;
            ruler::draw(&mut svg, scene, Rect::new(8.0, h, w.min(WIDTH) - 16.0, 0.0));
            h += ruler::height(scene);
        }
        Beside::Words
            if aside >= listing::NARROWEST && listing::height(scene, aside, plans.h) < plans.h + 60.0 =>
        {
            let list = listing::draw(&mut svg, scene, ink, (plans.w + 10.0, h), (aside, plans.h));
            h += plans.h.max(list);
        }
        Beside::Words => {
            h += plans.h + 4.0;
            h += listing::draw(&mut svg, scene, ink, (8.0, h), (w - 8.0, 0.0));
        }
    }
    Tile { w, h: h + 4.0, inner: svg.finish(), name: scene.heading() }
}

/// The plans of a scene in order of time.
pub(super) fn plans(pieces: &[Scene<'_>], ink: &Ink<'_>, scale: f64, room: f64) -> Vec<Tile> {
    let last = pieces.len().saturating_sub(1);
    let plan = |(i, piece)| {
        let has = Has { caption: last > 0, scale: i == last };
        plan_of(piece, ink, scale, room, has)
    };
    pieces.iter().enumerate().map(plan).collect()
}

/// Everything on one plan, with its place.
struct Sketch {
    marks: Vec<Mark>,
    tracks: Vec<Track>,
    start: Mat,
    end: Mat,
    plan: Plan,
    callouts: Callouts,
    tabs: Vec<Tab>,
    /// The whole paper of the plan with what stands around its frame.
    paper: (f64, f64),
}

/// What one plan of several has.
#[derive(Debug, Clone, Copy)]
struct Has {
    caption: bool,
    scale: bool,
}

/// Draws one plan as small as its prints and labels allow.
fn plan_of(scene: &Scene<'_>, ink: &Ink<'_>, scale: f64, room: f64, has: Has) -> Tile {
    let named = has.caption;
    let sketch = sketch(scene, ink, scale, room, has);
    let Sketch { marks, tracks, start, end, plan, callouts, tabs, paper } = &sketch;
    let mut svg = Svg::default();
    let counts = scene.counts();
    if named {
        svg.open("text").class("hc-counts").num("x", plan.frame.x).num("y", 11.0).num("font-size", SMALL);
        svg.attr("font-weight", "bold").words(&counts).end();
    }
    start.draw_start(&mut svg, plan);
    floorplan::draw(&mut svg, plan, tabs);
    let both = start.same(end);
    if !both {
        end.draw_end(&mut svg, plan);
    }
    let prints = Prints::of(ink.body, plan.scale);
    ghosts(&mut svg, scene, plan, prints);
    for (i, mark) in marks.iter().enumerate() {
        let ball = mark.drawn().ball;
        let near = marks[..i].iter().any(|m| (m.drawn().ball - ball).length() < ink.body.foot_length);
        print(&mut svg, mark, plan, prints, near);
    }
    for track in tracks {
        path(&mut svg, track.foot, track.curve.map(|p| plan.at(p)));
    }
    start.draw_arrow(&mut svg, plan, if both { Which::Both } else { Which::Start });
    if !both {
        end.draw_arrow(&mut svg, plan, Which::End);
    }
    for (mark, r) in marks.iter().zip(callouts::arc_radii(marks, plan, ink.body)) {
        if mark.turn != Turn::NONE {
            turn_arc(&mut svg, mark.turn, mark.from_facing, plan.at(mark.drawn().ball), r, plan.up);
        }
    }
    callouts.draw(&mut svg, scene, marks, plan, ink);
    if has.scale {
        floorplan::scale_bar(&mut svg, (plan.frame.x + 1.0, paper.1 - 2.0), plan.scale);
    }
    let name = if named { format!("{}, {counts}", scene.heading()) } else { scene.heading() };
    Tile { w: paper.0, h: paper.1, inner: svg.finish(), name }
}

fn sketch(scene: &Scene<'_>, ink: &Ink<'_>, scale: f64, room: f64, has: Has) -> Sketch {
    let top = if has.caption { 15.0 } else { 0.0 };
    let marks = marks::marks(scene, ink.body);
    let tracks = marks::tracks(scene, &marks, ink.body);
    let (start, end) = (Mat::under(&scene.start, ink.body), Mat::under(&scene.end, ink.body));
    let bounds = spread::bounds(scene, &marks, ink);
    let size = bounds.size();
    let (w, h) = (size.x * scale, size.y * scale);
    // Labels first find their places in a frame with plenty of room, which is then drawn in around them.
    let widest = (room - 2.0 * BESIDE.1 - 4.0).max(60.0);
    let loose = Rect::about((0.0, 0.0), (w + 190.0).min(widest.max(w + 8.0)), h + 150.0);
    let up = ink.view.up(scene);
    let mut plan = Plan { scale, up, origin: bounds.middle(), frame: loose };
    let core = Rect::about((0.0, 0.0), w + 10.0, h + 10.0);
    let shown = Shown { marks: &marks, tracks: &tracks, start, end };
    let mut callouts = callouts::lay(&shown, &plan, core, ink);
    let mut tight = core;
    let radii = callouts::arc_radii(&marks, &plan, ink.body);
    let turned = marks.iter().zip(&radii).filter(|(m, _)| m.turn != Turn::NONE);
    let arcs =
        turned.flat_map(|(m, r)| callouts::arc_points(m, *r, &plan)).map(|p| Rect::about(p, 10.0, 10.0));
    let along = tracks.iter().flat_map(|t| (0..=8).map(|i| t.at(f64::from(i) / 8.0)));
    let ways: Vec<Rect> = along.map(|p| Rect::about(plan.at(p), 2.0, 2.0)).collect();
    for rect in callouts.places().iter().copied().chain(arcs).chain(ways) {
        tight = tight.joined(&Rect::new(rect.x - 4.0, rect.y - 4.0, rect.w + 8.0, rect.h + 8.0));
    }
    let wanting = (72.0 - tight.w).max(0.0);
    let tight = Rect::new(tight.x - wanting / 2.0, tight.y, tight.w + wanting, tight.h);
    // The frame stands where its signs leave room.
    let (from, to) = (heading(scene.start.facing), heading(scene.end.facing));
    plan = plan.reframed(tight, (0.0, 0.0));
    let signs = floorplan::tabs(&plan, from, to);
    let out = |low: fn(&Rect, &Rect) -> f64, least: f64| {
        signs.iter().map(|t| low(&t.rect, &plan.frame)).fold(least, f64::max)
    };
    let left = out(|t, f| f.x - t.x + 1.5, BESIDE.0);
    let right = out(|t, f| t.x + t.w - f.x - f.w + 1.5, BESIDE.0);
    let above = out(|t, f| f.y - t.y + 1.5, ABOVE.0);
    let below = out(|t, f| t.y + t.h - f.y - f.h + 1.5, ABOVE.0) + if has.scale { 14.0 } else { 0.0 };
    let framed = Rect::new(0.0, 0.0, tight.w, tight.h);
    let (dx, dy) = (left - tight.x, above + top - tight.y);
    callouts.shift(dx, dy);
    // The signs move with the frame: laid anew, one at a corner could go round it.
    let before = (plan.frame.x, plan.frame.y);
    let plan = plan.reframed(framed, (left, above + top));
    let mut tabs = signs;
    tabs.iter_mut().for_each(|t| t.shift(plan.frame.x - before.0, plan.frame.y - before.1));
    let paper = (left + tight.w + right, top + above + tight.h + below);
    Sketch { marks, tracks, start, end, plan, callouts, tabs, paper }
}

/// The heading of a scene with the name that the sheet gives it.
pub(super) fn title(scene: &Scene<'_>) -> String {
    let name = scene.section.name.trim();
    if name.is_empty() { scene.heading() } else { format!("{}: {name}", scene.heading()) }
}

/// Heading, counts and facings; gives the height that they take.
fn head(svg: &mut Svg, scene: &Scene<'_>, w: f64) -> f64 {
    let mut y = 0.0;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "letters on a line are few")]
    let letters = (w / 8.6) as usize;
    for line in labels::lines(&title(scene), letters).iter().take(3) {
        y += HEADING * 1.2;
        svg.open("text").class("hc-heading").num("x", 8.0).num("y", y).num("font-size", HEADING);
        svg.attr("font-weight", "bold").words(line).end();
    }
    y += SMALL * 1.35;
    svg.text("hc-facing", (8.0, y), SMALL, Anchor::Start, &facts(scene));
    y + 6.0
}

/// Counts and facings in a line: `Counts 1 to 8, faces 12:00, ends facing 3:00`.
pub(super) fn facts(scene: &Scene<'_>) -> String {
    let (from, to) = (heading(scene.start.facing), heading(scene.end.facing));
    let faces = if from == to {
        format!("faces {from} throughout")
    } else {
        format!("faces {from}, ends facing {to}")
    };
    let turns = scene.steps.iter().any(|s| s.what.turn != Turn::NONE);
    let faces = if turns && from == to { format!("begins and ends facing {from}") } else { faces };
    format!("{}, {faces}", scene.counts())
}

/// The feet before the first step.
fn ghosts(svg: &mut Svg, scene: &Scene<'_>, plan: &Plan, prints: Prints) {
    svg.open("g").class("hc-start");
    for foot in [crate::dance::Foot::Left, crate::dance::Foot::Right] {
        let pose = scene.start.foot(foot);
        place(svg, plan, pose);
        prints.ghost(svg, foot);
        svg.end();
    }
    svg.end();
}

fn print(svg: &mut Svg, mark: &Mark, plan: &Plan, prints: Prints, over_another: bool) {
    place(svg, plan, &mark.drawn()).class("hc-print");
    if over_another {
        prints.halo(svg, mark.foot);
    }
    prints.draw(svg, mark.foot, mark.pose.sole, mark.load);
    svg.end();
}
