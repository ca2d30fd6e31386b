//! Dance and motion in, SVG out: footprints on a plan of the floor.
//!
//! A drawing is a text: no page is needed, nothing is measured, and the same dance gives the same bytes. Looks
//! are presentation attributes and classes that begin with `hc-`, lines have the colour of the text around, and
//! what hides something else is white (`fill="white"`), which a page's style sheet may change. The room knows
//! nothing of findings, scores or how a sheet was read.

mod callouts;
mod floorplan;
mod footprint;
mod heading;
mod labels;
mod legend;
mod listing;
mod marks;
mod mats;
mod moment;
mod page;
mod panel;
mod plan;
mod ruler;
mod scene;
mod sentences;
mod signs;
mod spread;
mod svg;
mod tile;

use crate::body::Body;
use crate::dance::{Dance, PartKind};
use crate::motion::{Motion, simulate, simulate_song};
use crate::time::Ticks;

pub use page::{Paper, page, pages};
pub use plan::View;
pub use sentences::Sentence;
#[cfg(feature = "wasm")]
pub(crate) use sentences::{sentence, told};

use scene::Scene;
use spread::Spread;
use tile::{About, Ink, Tile, Width};

/// Between two panels, in units of the paper.
const GAP: f64 = 24.0;

/// How to draw.
#[derive(Debug, Clone, PartialEq, Default)]
#[non_exhaustive]
pub struct DrawOptions {
    /// The body that dances.
    pub body: Body,
    /// What stands at the top.
    pub view: View,
    /// Width of a drawing in CSS pixels; without one it fills what it stands in.
    pub width: Option<f64>,
    /// Set before each id, so that several drawings can stand on one page.
    pub prefix: String,
    /// Panels beside each other; none means one.
    pub columns: usize,
}

/// A drawing with the same content in words.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Picture {
    /// `Section 2`, `Tag 1`, `Count 12 of section 2`.
    pub title: String,
    /// The part that it shows.
    pub part: String,
    /// The section of that part, from 1.
    pub section: u32,
    /// The drawing.
    pub svg: String,
    /// Its content, a sentence for each step.
    pub sentences: Vec<Sentence>,
}

/// A dance in motion with the stretches that are drawn: each section once, as it is first danced.
struct Staged {
    motion: Motion,
    song: Option<Motion>,
}

impl Staged {
    fn of(dance: &Dance, body: &Body) -> Self {
        let more = dance.parts.iter().any(|p| p.kind != PartKind::Main)
            || dance.restarts.iter().any(|r| r.changed.is_some());
        let song = more.then(|| simulate_song(dance, body));
        Self { motion: simulate(dance, body, 1), song }
    }

    fn scenes<'d>(&'d self, dance: &'d Dance) -> Vec<Scene<'d>> {
        let all =
            |motion: &'d Motion| (0..motion.stretches.len()).filter_map(move |i| Scene::of(dance, motion, i));
        let mut scenes: Vec<_> = all(&self.motion).collect();
        let mut seen: Vec<(usize, usize, Option<usize>)> = Vec::new();
        for scene in self.song.iter().flat_map(all) {
            let s = scene.stretch;
            let key = (s.part, s.section, s.changed);
            let extra = s.changed.is_some() || scene.part.kind != PartKind::Main;
            if extra && !seen.contains(&key) {
                seen.push(key);
                scenes.push(scene);
            }
        }
        scenes
    }
}

/// A panel for each section of the dance, its tags and its ending.
///
/// `text` is the sheet that the dance was read from.
#[must_use]
pub fn panels(dance: &Dance, text: &str, options: &DrawOptions) -> Vec<Picture> {
    let staged = Staged::of(dance, &options.body);
    let ink = Ink { body: &options.body, view: options.view, text };
    let scenes = staged.scenes(dance);
    let spread = Spread::of(&scenes, &ink, panel::WIDTH, panel::WIDTH);
    let picture = |(i, scene): (usize, &Scene<'_>)| {
        let prefix = format!("{}{}-", options.prefix, i + 1);
        let plans = panel::plans(&spread.pieces[i], &ink, spread.scale, panel::WIDTH);
        let tile = panel::panel(scene, &plans, &ink, panel::WIDTH, panel::Beside::Ruler);
        picture(scene, tile, options, &prefix)
    };
    scenes.iter().enumerate().map(picture).collect()
}

/// All panels in one document.
#[must_use]
pub fn sheet(dance: &Dance, text: &str, options: &DrawOptions) -> String {
    let staged = Staged::of(dance, &options.body);
    let ink = Ink { body: &options.body, view: options.view, text };
    let scenes = staged.scenes(dance);
    let columns = options.columns.clamp(1, scenes.len().max(1));
    // Plans too wide for a column may take two, where there are two.
    let widest = if columns > 1 { 2.0 * panel::WIDTH + GAP } else { panel::WIDTH };
    let spread = Spread::of(&scenes, &ink, panel::WIDTH, widest);
    let plans: Vec<Vec<Tile>> =
        spread.pieces.iter().map(|p| panel::plans(p, &ink, spread.scale, widest)).collect();
    let wide = panel::wide(&plans, widest, columns);
    let tile = |((scene, plans), wide): ((&Scene<'_>, &Vec<Tile>), &bool)| {
        panel::panel(scene, plans, &ink, if *wide { widest } else { panel::WIDTH }, panel::Beside::Words)
    };
    let mut tiles = vec![heading::tile(dance, widest)];
    tiles.extend(scenes.iter().zip(&plans).zip(&wide).map(tile));
    tiles.push(legend::tile(&options.body, widest, true));
    document(dance, &scenes, &tiles, options, columns)
}

/// A strip of small drawings for each section, for beginners: one for each count, and one for each half-count
/// (or other moment between counts) on which something is done.
#[must_use]
pub fn strips(dance: &Dance, text: &str, options: &DrawOptions) -> Vec<Picture> {
    let staged = Staged::of(dance, &options.body);
    let ink = Ink { body: &options.body, view: options.view, text };
    let scenes = staged.scenes(dance);
    let tiles = strip_tiles(&scenes, &ink, options);
    let picture = |(i, (scene, tile)): (usize, (&Scene<'_>, Tile))| {
        picture(scene, tile, options, &format!("{}{}-", options.prefix, i + 1))
    };
    scenes.iter().zip(tiles).enumerate().map(picture).collect()
}

/// All strips in one document.
#[must_use]
pub fn strip_sheet(dance: &Dance, text: &str, options: &DrawOptions) -> String {
    let staged = Staged::of(dance, &options.body);
    let ink = Ink { body: &options.body, view: options.view, text };
    let scenes = staged.scenes(dance);
    let strips = strip_tiles(&scenes, &ink, options);
    let widest = strips.iter().map(|t| t.w).fold(panel::WIDTH, f64::max);
    let mut tiles = vec![heading::tile(dance, widest)];
    tiles.extend(strips);
    document(dance, &scenes, &tiles, options, 1)
}

/// The strips of all scenes, each on one scale.
fn strip_tiles(scenes: &[Scene<'_>], ink: &Ink<'_>, options: &DrawOptions) -> Vec<Tile> {
    let moments: Vec<Vec<moment::Moment<'_, '_>>> = scenes.iter().map(moment::moments).collect();
    let strip = |(scene, moments): (&Scene<'_>, &Vec<moment::Moment<'_, '_>>)| {
        let stage = moment::Stage::of(moments, ink, STRIP);
        let tiles: Vec<Tile> = moments.iter().map(|m| moment::tile(m, ink, stage)).collect();
        tile::grid(&panel::title(scene), &tiles, options.columns.max(2), 12.0)
    };
    scenes.iter().zip(&moments).map(strip).collect()
}

/// Breadth of one small drawing of a strip: two stand beside each other on a phone.
const STRIP: f64 = 154.0;

/// A single moment, by the running count of the dance: 1 is its first count, 24 ticks.
///
/// `None` where the dance does not reach that moment.
#[must_use]
pub fn moment(dance: &Dance, text: &str, at: Ticks, options: &DrawOptions) -> Option<Picture> {
    let staged = Staged::of(dance, &options.body);
    let ink = Ink { body: &options.body, view: options.view, text };
    let index = staged.motion.stretches.iter().position(|s| {
        let first = scene::whole(s.before);
        at.count().max(1) > first && at.count().max(1) <= first + scene::whole(s.counts)
    })?;
    let scene = Scene::of(dance, &staged.motion, index)?;
    let shift = (scene::whole(scene.stretch.before) - scene::whole(scene.stretch.skipped)) * 24;
    let moment = moment::moment(&scene, Ticks(at.0 - shift));
    let tile = moment::tile(&moment, &ink, moment::Stage::of(&[moment], &ink, panel::WIDTH));
    let sentences = moment.sentences();
    let said: Vec<&str> = sentences.iter().map(|s| s.sentence.as_str()).collect();
    let description = if said.is_empty() { "Nothing moves.".to_owned() } else { said.join(" ") };
    let about = About {
        title: &tile.name,
        description: &description,
        prefix: &options.prefix,
        width: options.width.map(Width::Pixels),
    };
    let svg = tile::single(&tile, about);
    Some(Picture {
        title: tile.name,
        part: scene.part.name.clone(),
        section: tile::section(&scene),
        svg,
        sentences,
    })
}

/// Several drawings made by this room, one below the other in one document. Their ids must differ: give each
/// its own [`DrawOptions::prefix`].
#[must_use]
pub fn below_each_other(drawings: &[String], prefix: &str) -> String {
    tile::below_each_other(drawings, GAP, prefix)
}

fn document(
    dance: &Dance,
    scenes: &[Scene<'_>],
    tiles: &[Tile],
    options: &DrawOptions,
    columns: usize,
) -> String {
    let title = format!("Footprints of {}", name(dance));
    let description: Vec<String> = scenes.iter().map(describe).collect();
    let about = About {
        title: &title,
        description: &description.join(" "),
        prefix: &options.prefix,
        width: options.width.map(Width::Pixels),
    };
    let column = if columns > 1 { panel::WIDTH } else { tiles.iter().map(|t| t.w).fold(1.0, f64::max) };
    tile::document(tiles, columns, GAP, column, about)
}

fn name(dance: &Dance) -> &str {
    if dance.head.title.is_empty() { "a dance without a title" } else { &dance.head.title }
}

/// A scene in words: what it is called and what happens in it.
fn describe(scene: &Scene<'_>) -> String {
    let mut words = format!("{}.", scene.heading());
    for sentence in sentences::sentences(scene) {
        words.push(' ');
        words.push_str(&sentence.sentence);
    }
    words
}

fn picture(scene: &Scene<'_>, tile: Tile, options: &DrawOptions, prefix: &str) -> Picture {
    let about = About {
        title: &tile.name,
        description: &describe(scene),
        prefix,
        width: options.width.map(Width::Pixels),
    };
    let svg = tile::single(&tile, about);
    Picture {
        title: tile.name,
        part: scene.part.name.clone(),
        section: tile::section(scene),
        svg,
        sentences: sentences::sentences(scene),
    }
}
