//! The hand-out: a page to print with everything that a dancer needs at home.
//!
//! It is a document of the web, because paper sizes, page breaks and real text are what such documents do well;
//! the drawings in it are the same SVG as everywhere. It fetches nothing and runs nothing.

mod head;
mod looks;

use core::fmt::Write as _;

use crate::dance::{Dance, Effect, Foot, Move, Who};
use crate::figures::lexicon;
use crate::motion::simulate_song;

pub(super) use head::capital;

use super::scene::Scene;
use super::spread::Spread;
use super::svg::escape;
use super::tile::{About, Ink, Tile, Width, single};
use super::{DrawOptions, Staged, legend, name, panel, sentences};

use looks::{CAUTIONS, LOOKS};

/// The paper of a hand-out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Paper {
    /// 210 mm by 297 mm (ISO 216).
    #[default]
    A4,
    /// 8.5 inches by 11 inches.
    Letter,
}

impl Paper {
    const fn word(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "letter",
        }
    }
}

/// Millimetres of the paper to a unit of a drawing, and the breadth of both papers within their margins, less a
/// little for letter paper, and of a plan that leaves room for words beside it, in units.
const UNIT: f64 = 0.27;
const BREADTH: f64 = 184.0 / UNIT;
const BESIDE_WORDS: f64 = 122.0 / UNIT;

/// The hand-out of a dance.
#[must_use]
pub fn page(dance: &Dance, text: &str, paper: Paper, options: &DrawOptions) -> String {
    pages(&[(dance, text)], paper, options)
}

/// The hand-outs of several dances in one document, each beginning on a page of its own.
///
/// Each dance stands with the text that it was read from.
#[must_use]
pub fn pages(dances: &[(&Dance, &str)], paper: Paper, options: &DrawOptions) -> String {
    let mut out = String::new();
    out.push_str("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    out.push_str("<meta name=\"viewport\" content=\"width=device-width\">\n");
    let names: Vec<&str> = dances.iter().map(|(dance, _)| name(dance)).collect();
    element(&mut out, "title", &names.join(", "));
    let _ =
        write!(out, "<style>@page{{size:{};margin:12mm}}{LOOKS}</style>\n</head>\n<body>\n", paper.word());
    for (i, (dance, text)) in dances.iter().enumerate() {
        let mut options = options.clone();
        if dances.len() > 1 {
            let _ = write!(options.prefix, "{}-", i + 1);
        }
        one(&mut out, dance, text, &options);
    }
    out.push_str("</body>\n</html>\n");
    out
}

/// The hand-out of one of the dances.
fn one(out: &mut String, dance: &Dance, text: &str, options: &DrawOptions) {
    let staged = Staged::of(dance, &options.body);
    let ink = Ink { body: &options.body, view: options.view, text };
    let scenes = staged.scenes(dance);
    out.reserve(scenes.len() * 24_000);
    out.push_str("<div class=\"dance\">\n");
    head::head(out, dance);
    head::know_first(out, dance);
    element(out, "h2", "The dance");
    out.push_str("<div class=\"sections\">\n");
    let spread = Spread::of(&scenes, &ink, BESIDE_WORDS, BREADTH);
    for (i, (scene, pieces)) in scenes.iter().zip(&spread.pieces).enumerate() {
        section(out, scene, &panel::plans(pieces, &ink, spread.scale, BREADTH), options, i);
    }
    out.push_str("</div>\n");
    out.push_str("<div class=\"legend\">\n");
    element(out, "h2", "How to read the prints");
    let key = legend::tile(&options.body, BREADTH, false);
    let description = "Solid prints are the right foot, hatched prints the left foot. An outline drawn through \
                       means weight, a dashed one no weight, a dotted one a foot in the air. What of the sole is \
                       inked touches the floor.";
    let prefix = format!("{}key-", options.prefix);
    let about = About { title: &key.name, description, prefix: &prefix, width: None };
    out.push_str(&single(&key, about));
    out.push_str(
        "<p>The floor is seen from above; 12 is the wall that the dance begins with. Beside each plan the steps \
         are listed: a dark letter is the right foot, a light one the left foot, a dashed one takes no \
         weight.</p>\n</div>\n",
    );
    match &staged.song {
        Some(song) => head::floor(out, dance, &staged.motion, song),
        None => head::floor(out, dance, &staged.motion, &simulate_song(dance, &options.body)),
    }
    out.push_str("<div class=\"cautions\">\n");
    element(out, "h2", "Before you dance");
    for caution in CAUTIONS {
        element(out, "p", caution);
    }
    out.push_str("</div>\n</div>\n");
}

/// An element with words in it.
fn element(out: &mut String, tag: &str, words: &str) {
    let _ = write!(out, "<{tag}>");
    escape(out, words);
    let name = tag.split(' ').next().unwrap_or(tag);
    let _ = writeln!(out, "</{name}>");
}

fn section(out: &mut String, scene: &Scene<'_>, tiles: &[Tile], options: &DrawOptions, index: usize) {
    out.push_str("<div class=\"section\">\n");
    element(out, "h3", &panel::title(scene));
    element(out, "p", &panel::facts(scene));
    let said = sentences::sentences(scene);
    out.push_str("<div class=\"plans\">\n");
    for (number, tile) in tiles.iter().enumerate() {
        let prefix = format!("{}{}-{}-", options.prefix, index + 1, number + 1);
        let about = About {
            title: &tile.name,
            description: "The steps are listed with the drawing.",
            prefix: &prefix,
            width: Some(Width::Millimetres(tile.w * UNIT)),
        };
        out.push_str(&single(tile, about));
    }
    out.push_str("<div class=\"words\">\n");
    calls(out, scene);
    out.push_str("<ul class=\"steps\">\n");
    for (sentence, step) in said.iter().zip(&scene.steps) {
        out.push_str("<li><b>");
        escape(out, &sentence.count);
        out.push_str("</b>");
        sign(out, step.what);
        escape(out, &sentence.words);
        out.push_str("</li>\n");
    }
    out.push_str("</ul>\n</div>\n</div>\n</div>\n");
}

/// The letter of the foot that acts, with a class for its look.
fn sign(out: &mut String, what: &Move) {
    let (letter, foot) = match what.who {
        Who::One(Foot::Left) => ("L", "left"),
        Who::One(Foot::Right) => ("R", "right"),
        Who::Both => ("B", "left"),
        Who::Nobody => ("", "none"),
    };
    let free = if matches!(what.effect, Effect::Free | Effect::None) { " free" } else { "" };
    let _ = write!(out, "<i class=\"{foot}{free}\">{letter}</i>");
}

/// What the teacher calls for the figures of a section.
fn calls(out: &mut String, scene: &Scene<'_>) {
    let mut words: Vec<String> = Vec::new();
    for figure in &scene.section.figures {
        let Some((_, entry)) = lexicon().find(&figure.name) else { continue };
        if entry.call.is_empty() {
            continue;
        }
        let lead = figure.lead.map_or(String::new(), |f| format!("{}: ", f.letter()));
        words.push(format!("{lead}{}", entry.call));
    }
    if !words.is_empty() {
        out.push_str("<p class=\"calls\">Calls: ");
        escape(out, &words.join("; "));
        out.push_str("</p>\n");
    }
}
