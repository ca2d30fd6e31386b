//! Dance and motion in, SVG out: footprints on a plan of the floor.
//!
//! A drawing is a text: no page is needed, nothing is measured, and the same dance gives the same bytes. Looks
//! are presentation attributes and classes that begin with `hc-`, lines have the colour of the text around, and
//! what hides something else is white (`fill="white"`), which a page's style sheet may change. The room knows
//! nothing of findings, scores or how a sheet was read.

mod floorplan;
mod footprint;
mod labels;
mod marks;
mod panel;
mod plan;
mod ruler;
mod scene;
mod sentences;
mod svg;
mod tile;

use crate::body::Body;
use crate::dance::{Dance, PartKind};
use crate::motion::{Motion, simulate, simulate_song};

pub use plan::View;
pub use sentences::Sentence;

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
    let title = format!("Footprints of {}", name(dance));
    let description: Vec<String> = scenes.iter().map(describe).collect();
    let about = About {
        title: &title,
        description: &description.join(" "),
        prefix: &options.prefix,
        width: options.width,
    };
    tile::document(&tiles, options.columns.max(1), 24.0, about)
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
