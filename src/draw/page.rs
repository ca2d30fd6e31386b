//! The hand-out: a page to print with everything that a dancer needs at home.
//!
//! It is a document of the web, because paper sizes, page breaks and real text are what such documents do well;
//! the drawings in it are the same SVG as everywhere. It fetches nothing and runs nothing.

use core::fmt::Write as _;

use crate::dance::{Dance, Effect, Foot, Move, PartKind, Who};
use crate::figures::lexicon;

use super::scene::Scene;
use super::spread::Spread;
use super::svg::escape;
use super::tile::{About, Ink, Tile, Width, single};
use super::{DrawOptions, Staged, legend, name, panel, sentences};

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

/// Looks of the page. Sizes are in points, so that paper is what they are made for; on a narrow screen there is
/// one column.
const LOOKS: &str = "\
body{font:11pt/1.35 sans-serif;color:#000;background:#fff;margin:0 auto;padding:4mm;max-width:190mm}\
h1{font-size:20pt;line-height:1.15;margin:0 0 1mm}\
h2{font-size:13pt;margin:5mm 0 1.5mm;border-bottom:.4mm solid;break-after:avoid}\
p{margin:0 0 1.5mm}\
.facts{display:flex;flex-wrap:wrap;gap:0 6mm;margin:0;padding:0;list-style:none}\
.figures{margin:0;padding:0;list-style:none;columns:2;column-gap:8mm}\
.figures li{break-inside:avoid;margin:0 0 1mm}\
.section{break-inside:avoid;margin:0 0 4mm}\
.section h3{font-size:12pt;margin:3mm 0 0}\
.plans{display:flex;flex-wrap:wrap;gap:2mm 6mm;align-items:flex-start}\
.plans svg{display:block;flex:none;max-width:100%;height:auto}\
.legend svg{display:block;width:100%;height:auto}\
.words{flex:1 1 58mm}\
.calls{font-style:italic;margin:1mm 0}\
.steps{margin:1mm 0 0;padding:0;list-style:none;columns:52mm;column-gap:4mm;line-height:1.3}\
.steps li{padding-left:14.5mm;text-indent:-14.5mm;margin:.6mm 0;break-inside:avoid}\
.steps b{display:inline-block;width:8mm;text-indent:0}\
.steps i{display:inline-block;width:4mm;margin-right:2mm;text-indent:0;text-align:center;font:bold 9pt sans-serif;\
border:.3mm solid}\
.steps i.right{background:#000;color:#fff;border-color:#000;print-color-adjust:exact;-webkit-print-color-adjust:exact}\
.steps i.free{background:none;color:#000;border-style:dashed}\
.steps i.none{border-color:transparent}\
.legend,.cautions,.figures-box{break-inside:avoid}\
.cautions p{font-size:10pt}\
@media screen and (max-width:560px){.figures,.steps{columns:1}}\
@media print{body{padding:0;max-width:none}}";

/// Cautions for whoever practises from the page. They follow from what is known about soles, floors, turns and
/// falls (check values, section 17) and promise nothing.
const CAUTIONS: [&str; 5] = [
    "This page was worked out on paper. It knows neither you nor your shoes nor your floor, and it cannot tell \
     you that a step is right for your body.",
    "Begin with a few minutes of gentle movement and let the evening end just as gently.",
    "In a turn, stand over the ball of the foot and take the foot round with you: if the foot sticks while you go \
     on, the knee is twisted. Clinging soles, and floors that are sticky, wet, rough or sloping, make that likelier; \
     a smooth sole on a clean, even floor is kinder. Mark stomps and jumps softly or leave them out, above all on \
     concrete. If turning makes you dizzy, look at one fixed spot, turn less, or walk it.",
    "Speak with a doctor or a physiotherapist first if you are pregnant, unsteady, have fallen lately, or have \
     trouble with heart, joints, balance or eyes. Keep a chair or a wall within reach and take the easier step.",
    "In the hall its own rules hold, and the teacher in the room decides what is right for the class.",
];

/// Millimetres of the paper to a unit of a drawing, and the breadth of both papers within their margins, less a
/// little for letter paper, and of a plan that leaves room for words beside it, in units.
const UNIT: f64 = 0.27;
const BREADTH: f64 = 184.0 / UNIT;
const BESIDE_WORDS: f64 = 122.0 / UNIT;

/// The hand-out of a dance.
#[must_use]
pub fn page(dance: &Dance, text: &str, paper: Paper, options: &DrawOptions) -> String {
    let staged = Staged::of(dance, &options.body);
    let ink = Ink { body: &options.body, view: options.view, text };
    let scenes = staged.scenes(dance);
    let mut out = String::with_capacity(scenes.len() * 24_000);
    out.push_str("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    out.push_str("<meta name=\"viewport\" content=\"width=device-width\">\n");
    element(&mut out, "title", name(dance));
    let _ =
        write!(out, "<style>@page{{size:{};margin:12mm}}{LOOKS}</style>\n</head>\n<body>\n", paper.word());
    head(&mut out, dance);
    know_first(&mut out, dance);
    element(&mut out, "h2", "The dance");
    out.push_str("<div class=\"sections\">\n");
    let spread = Spread::of(&scenes, &ink, BESIDE_WORDS, BREADTH);
    for (i, (scene, pieces)) in scenes.iter().zip(&spread.pieces).enumerate() {
        section(&mut out, scene, &panel::plans(pieces, &ink, spread.scale, BREADTH), options, i);
    }
    out.push_str("</div>\n");
    out.push_str("<div class=\"legend\">\n");
    element(&mut out, "h2", "How to read the prints");
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
    out.push_str("<div class=\"cautions\">\n");
    element(&mut out, "h2", "Before you dance");
    for caution in CAUTIONS {
        element(&mut out, "p", caution);
    }
    out.push_str("</div>\n</body>\n</html>\n");
    out
}

/// An element with words in it.
fn element(out: &mut String, tag: &str, words: &str) {
    let _ = write!(out, "<{tag}>");
    escape(out, words);
    let name = tag.split(' ').next().unwrap_or(tag);
    let _ = writeln!(out, "</{name}>");
}

fn head(out: &mut String, dance: &Dance) {
    let h = &dance.head;
    element(out, "h1", name(dance));
    out.push_str("<ul class=\"facts\">\n");
    let mut facts = vec![format!("{} counts", h.counts)];
    facts.push(if h.walls == 1 { "1 wall".into() } else { format!("{} walls", h.walls) });
    if !h.level.is_empty() {
        facts.push(h.level.clone());
    }
    if let Some(foot) = h.start_foot {
        facts.push(format!("starts with the {} foot", foot.word()));
    }
    if let Some(tempo) = h.tempo {
        facts.push(format!("{tempo} beats a minute"));
    }
    if let Some(intro) = h.intro {
        facts.push(format!("{intro} counts of music before the first step"));
    }
    for (label, words) in [("by", &h.author), ("Music:", &h.music)] {
        let words = words.trim();
        if !words.is_empty() {
            facts.push(format!("{label} {words}"));
        }
    }
    for fact in facts {
        element(out, "li", &fact);
    }
    out.push_str("</ul>\n");
    song(out, dance);
}

/// Tags and restarts, in the order of the song.
fn song(out: &mut String, dance: &Dance) {
    for (index, part) in dance.parts.iter().enumerate() {
        let mut whens: Vec<String> = Vec::new();
        for tag in dance.tags.iter().filter(|t| t.part == index) {
            whens.push(match tag.after_counts {
                Some(counts) => format!("in wall {} after {counts} counts", tag.wall),
                None => format!("after wall {}", tag.wall),
            });
        }
        if !whens.is_empty() {
            let name = if part.kind == PartKind::Ending { "Ending" } else { &part.name };
            let words = format!("{}, {} counts: {}.", capital(name), part.counts(), whens.join(", "));
            element(out, "p", &words);
        }
    }
    for restart in &dance.restarts {
        let changed = if restart.changed.is_some() { " with changed steps, see below" } else { "" };
        let words =
            format!("Restart in wall {} after {} counts{changed}.", restart.wall, restart.after_counts);
        element(out, "p", &words);
    }
}

/// With a capital letter.
pub(super) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(|c| crate::letters::capital(c).to_string()).unwrap_or_default();
    first + letters.as_str()
}

/// The figures that a class must know, each once, with what is called for it.
fn know_first(out: &mut String, dance: &Dance) {
    let mut seen: Vec<&str> = Vec::new();
    let uses = dance.parts.iter().flat_map(|p| &p.sections).flat_map(|s| &s.figures);
    for figure in uses {
        if !seen.contains(&figure.name.as_str()) {
            seen.push(&figure.name);
        }
    }
    if seen.is_empty() {
        return;
    }
    out.push_str("<div class=\"figures-box\">\n");
    element(out, "h2", "Figures to know first");
    out.push_str("<ul class=\"figures\">\n");
    for name in seen {
        out.push_str("<li><b>");
        escape(out, name);
        out.push_str("</b>");
        if let Some((_, figure)) = lexicon().find(name)
            && !figure.call.is_empty()
        {
            out.push_str(": ");
            escape(out, figure.call);
        }
        out.push_str("</li>\n");
    }
    out.push_str("</ul>\n</div>\n");
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
