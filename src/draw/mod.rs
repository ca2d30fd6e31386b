//! Dance and motion in, SVG out: footprints on a plan of the floor.
//!
//! A drawing is a text: no page is needed, nothing is measured, and the same dance gives the same bytes. Looks
//! are presentation attributes and classes that begin with `hc-`, lines have the colour of the text around, and
//! what hides something else is white (`fill="white"`), which a page's style sheet may change. The room knows
//! nothing of findings, scores or how a sheet was read.

mod callouts;
mod floorplan;
mod footprint;
mod labels;
mod legend;
mod marks;
mod moment;
mod page;
mod panel;
mod plan;
mod ruler;
mod scene;
mod sentences;
mod signs;
mod svg;
mod tile;

use crate::body::Body;
use crate::dance::{Dance, PartKind};
use crate::motion::{Motion, simulate, simulate_song};
use crate::time::Ticks;

pub use page::{Paper, page};
pub use plan::View;
pub use sentences::Sentence;
#[cfg(feature = "wasm")]
pub(crate) use sentences::{sentence, told};

use scene::Scene;
use tile::{About, Ink, Tile};

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
    let picture = |(i, scene): (usize, &Scene<'_>)| {
        let prefix = format!("{}{}-", options.prefix, i + 1);
        picture(scene, panel::panel(scene, &ink), options, &prefix)
    };
    scenes.iter().enumerate().map(picture).collect()
}

/// All panels in one document.
#[must_use]
pub fn sheet(dance: &Dance, text: &str, options: &DrawOptions) -> String {
    let staged = Staged::of(dance, &options.body);
    let ink = Ink { body: &options.body, view: options.view, text };
    let scenes = staged.scenes(dance);
    let tiles: Vec<Tile> = scenes.iter().map(|s| panel::panel(s, &ink)).collect();
    document(dance, &scenes, &tiles, options, options.columns.max(1))
}

/// A strip of small drawings for each section, for beginners: one for each count, and one for each half-count
/// (or other moment between counts) on which something is done.
#[must_use]
pub fn strips(dance: &Dance, text: &str, options: &DrawOptions) -> Vec<Picture> {
    let staged = Staged::of(dance, &options.body);
    let ink = Ink { body: &options.body, view: options.view, text };
    let scenes = staged.scenes(dance);
    let strip = |(i, scene): (usize, &Scene<'_>)| {
        let prefix = format!("{}{}-", options.prefix, i + 1);
        picture(scene, strip(scene, &ink, options), options, &prefix)
    };
    scenes.iter().enumerate().map(strip).collect()
}

/// All strips in one document.
#[must_use]
pub fn strip_sheet(dance: &Dance, text: &str, options: &DrawOptions) -> String {
    let staged = Staged::of(dance, &options.body);
    let ink = Ink { body: &options.body, view: options.view, text };
    let scenes = staged.scenes(dance);
    let tiles: Vec<Tile> = scenes.iter().map(|s| strip(s, &ink, options)).collect();
    document(dance, &scenes, &tiles, options, 1)
}

fn strip(scene: &Scene<'_>, ink: &Ink<'_>, options: &DrawOptions) -> Tile {
    let tiles: Vec<Tile> =
        moment::moments(scene).iter().map(|m| moment::tile(m, ink, STRIP, false)).collect();
    tile::grid(&panel::title(scene), &tiles, options.columns.max(2), 12.0)
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
    let tile = moment::tile(&moment, &ink, panel::WIDTH, true);
    let sentences = moment.sentences();
    let said: Vec<&str> = sentences.iter().map(|s| s.sentence.as_str()).collect();
    let description = if said.is_empty() { "Nothing moves.".to_owned() } else { said.join(" ") };
    let about =
        About { title: &tile.name, description: &description, prefix: &options.prefix, width: options.width };
    let svg = tile::document(core::slice::from_ref(&tile), 1, 0.0, about);
    Some(Picture {
        title: tile.name,
        part: scene.part.name.clone(),
        section: tile::section(&scene),
        svg,
        sentences,
    })
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
        width: options.width,
    };
    tile::document(tiles, columns, 24.0, about)
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
    let about = About { title: &tile.name, description: &describe(scene), prefix, width: options.width };
    let svg = tile::document(core::slice::from_ref(&tile), 1, 0.0, about);
    Picture {
        title: tile.name,
        part: scene.part.name.clone(),
        section: tile::section(scene),
        svg,
        sentences: sentences::sentences(scene),
    }
}
