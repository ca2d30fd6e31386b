//! A drawing before it has a place, and the document that holds one or several.

use core::fmt::Write as _;

use crate::body::Body;
use crate::text::{Span, utf16};

use super::labels::lines;
use super::plan::View;
use super::scene::Scene;
use super::svg::{Svg, number};

/// What all drawings of one sheet share.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ink<'a> {
    pub(super) body: &'a Body,
    pub(super) view: View,
    /// The sheet's text, to turn bytes into the UTF-16 offsets that a page counts in.
    pub(super) text: &'a str,
}

impl Ink<'_> {
    fn offset(&self, byte: u32) -> u32 {
        if self.text.is_ascii() { byte } else { utf16(self.text, byte) }
    }
}

/// A drawing of a known size.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Tile {
    pub(super) w: f64,
    pub(super) h: f64,
    /// Its markup, from (0, 0) on.
    pub(super) inner: String,
    pub(super) name: String,
}

/// Says of a drawn step where it is in the dance and in the text.
pub(super) fn tag(svg: &mut Svg, scene: &Scene<'_>, counts: &str, span: Span, ink: &Ink<'_>) {
    svg.attr("data-part", &scene.part.name).whole("data-section", section(scene)).attr("data-count", counts);
    svg.whole("data-start", ink.offset(span.start)).whole("data-end", ink.offset(span.end));
}

/// The section of its part, from 1.
pub(super) fn section(scene: &Scene<'_>) -> u32 {
    u32::try_from(scene.stretch.section + 1).unwrap_or(u32::MAX)
}

/// What a document says about itself.
#[derive(Debug, Clone, Copy)]
pub(super) struct About<'a> {
    pub(super) title: &'a str,
    pub(super) description: &'a str,
    /// Set before each id.
    pub(super) prefix: &'a str,
    /// Width, where the caller wants one.
    pub(super) width: Option<Width>,
}

/// How wide a drawing is to be shown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Width {
    /// In CSS pixels.
    Pixels(f64),
    /// On paper.
    Millimetres(f64),
}

/// Where tiles stand in so many columns, and the size that they take. Each stands in the column that is
/// shortest so far, and what is broader than a column takes two or more.
fn places(tiles: &[Tile], columns: usize, gap: f64, column: f64) -> (Vec<(f64, f64)>, f64, f64) {
    let columns = columns.clamp(1, tiles.len().max(1));
    let mut bottoms = vec![0.0_f64; columns];
    let mut places = Vec::with_capacity(tiles.len());
    let mut right = 1.0_f64;
    for tile in tiles {
        let mut span = 1;
        let mut breadth = column;
        while breadth + 0.01 < tile.w && span < columns {
            span += 1;
            breadth += column + gap;
        }
        let depth = |first: usize| bottoms[first..first + span].iter().copied().fold(0.0, f64::max);
        let mut first = 0;
        for other in 1..=columns - span {
            if depth(other) < depth(first) - 0.01 {
                first = other;
            }
        }
        let (x, y) = (f64::from(u32::try_from(first).unwrap_or(0)) * (column + gap), depth(first));
        places.push((x, y));
        right = right.max(x + tile.w.max(column));
        bottoms[first..first + span].fill(y + tile.h + gap);
    }
    let foot = bottoms.iter().map(|b| b - gap).fold(1.0, f64::max);
    (places, right, foot)
}

/// Where tiles of one breadth stand row by row in so many columns, and the size that they take.
fn rows(tiles: &[Tile], columns: usize, gap: f64) -> (Vec<(f64, f64)>, f64, f64) {
    let columns = columns.clamp(1, tiles.len().max(1));
    let width = tiles.iter().map(|t| t.w).fold(1.0, f64::max);
    let mut places = Vec::with_capacity(tiles.len());
    let (mut top, mut bottom, mut right) = (0.0, 0.0_f64, 1.0_f64);
    for row in tiles.chunks(columns) {
        let mut x = 0.0;
        for tile in row {
            places.push((x, top));
            right = right.max(x + width);
            x += width + gap;
            bottom = bottom.max(top + tile.h);
        }
        top = bottom + gap;
    }
    (places, right, bottom.max(1.0))
}

/// Tiles in rows of a breadth, one after the other.
pub(super) fn flow(tiles: &[Tile], breadth: f64, gap: f64) -> Tile {
    if let [only] = tiles {
        return only.clone();
    }
    let mut svg = Svg::default();
    let (mut x, mut y, mut row, mut right) = (0.0, 0.0, 0.0_f64, 0.0_f64);
    for tile in tiles {
        if x > 0.0 && x + tile.w > breadth {
            (x, y, row) = (0.0, y + row + gap, 0.0);
        }
        put(&mut svg, tile, (x, y));
        right = right.max(x + tile.w);
        row = row.max(tile.h);
        x += tile.w + gap;
    }
    let name = tiles.first().map_or_else(String::new, |t| t.name.clone());
    Tile { w: right, h: y + row, inner: svg.finish(), name }
}

/// Puts a tile at a place.
pub(super) fn put(svg: &mut Svg, tile: &Tile, (x, y): (f64, f64)) {
    let mut shift = String::from("translate(");
    number(&mut shift, x);
    shift.push(' ');
    number(&mut shift, y);
    shift.push(')');
    svg.open("g").class("hc-panel").attr("transform", &shift).raw(&tile.inner).end().feed();
}

/// Tiles joined to one, with a heading.
pub(super) fn grid(heading: &str, tiles: &[Tile], columns: usize, gap: f64) -> Tile {
    let (places, w, h) = rows(tiles, columns, gap);
    let mut svg = Svg::default();
    let mut top = 0.0;
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "letters on a line of a panel"
    )]
    let letters = (w / 8.6) as usize;
    for line in lines(heading, letters).iter().take(3) {
        top += 17.0;
        svg.open("text").class("hc-heading").num("x", 3.0).num("y", top).num("font-size", 14.0);
        svg.attr("font-weight", "bold").words(line).end();
    }
    top += 8.0;
    for (tile, (x, y)) in tiles.iter().zip(places) {
        put(&mut svg, tile, (x, y + top));
    }
    Tile { w, h: h + top, inner: svg.finish(), name: heading.to_owned() }
}

/// A document of one tile.
pub(super) fn single(tile: &Tile, about: About<'_>) -> String {
    document(core::slice::from_ref(tile), 1, 0.0, tile.w, about)
}

/// A document of tiles in so many columns of a breadth.
pub(super) fn document(tiles: &[Tile], columns: usize, gap: f64, column: f64, about: About<'_>) -> String {
    let (places, w, h) = places(tiles, columns, gap, column);
    let mut svg = Svg::default();
    let mut view_box = String::from("0 0 ");
    number(&mut view_box, w);
    view_box.push(' ');
    number(&mut view_box, h);
    svg.open("svg").attr("xmlns", "http://www.w3.org/2000/svg").class("halfcount").attr("viewBox", &view_box);
    match about.width {
        Some(Width::Pixels(css)) => {
            svg.num("width", css).num("height", css * h / w);
        }
        Some(Width::Millimetres(mm)) => {
            for (name, size) in [("width", mm), ("height", mm * h / w)] {
                let mut words = String::new();
                number(&mut words, size);
                words.push_str("mm");
                svg.attr(name, &words);
            }
        }
        None => {}
    }
    svg.attr("role", "img");
    let (title_id, desc_id) = (format!("{}title", about.prefix), format!("{}desc", about.prefix));
    let mut named = title_id.clone();
    let _ = write!(named, " {desc_id}");
    svg.attr("aria-labelledby", &named);
    svg.attr("font-family", "sans-serif").attr("fill", "currentColor").feed();
    svg.open("title").attr("id", &title_id).words(about.title).end().feed();
    svg.open("desc").attr("id", &desc_id).words(about.description).end().feed();
    match tiles {
        [only] => {
            svg.raw(&only.inner);
        }
        _ => tiles.iter().zip(places).for_each(|(tile, at)| put(&mut svg, tile, at)),
    }
    svg.finish() + "\n"
}

/// Documents of this room in one document, one below the other.
pub(super) fn below_each_other(documents: &[String], gap: f64, prefix: &str) -> String {
    if let [only] = documents {
        return only.clone();
    }
    let mut inner = Svg::default();
    let (mut w, mut y) = (1.0_f64, 0.0);
    for document in documents {
        let Some((own_w, own_h)) = size(document) else { continue };
        // A document within another one is placed by attributes of its own.
        let rest = document.trim_end().strip_prefix("<svg").unwrap_or_default();
        let (mut root, content) = rest.split_once('>').unwrap_or_default();
        inner.raw("<svg");
        for (name, value) in [("y", y), ("width", own_w), ("height", own_h)] {
            let mut words = format!(" {name}=\"");
            number(&mut words, value);
            words.push('"');
            inner.raw(&words);
        }
        // A breadth that the caller wanted for it alone gives way.
        let mut kept = String::new();
        while let Some((before, after)) =
            root.split_once(" width=\"").or_else(|| root.split_once(" height=\""))
        {
            kept.push_str(before);
            root = after.split_once('"').map_or("", |(_, after)| after);
        }
        kept.push_str(root);
        inner.raw(&kept).raw(">").raw(content).feed();
        w = w.max(own_w);
        y += own_h + gap;
    }
    let tile = Tile { w, h: (y - gap).max(1.0), inner: inner.finish(), name: String::new() };
    let description = "Each drawing has its own title and description.";
    single(&tile, About { title: "Footprints of several dances", description, prefix, width: None })
}

/// Breadth and height of a document, from its view box.
fn size(document: &str) -> Option<(f64, f64)> {
    let (_, rest) = document.split_once("viewBox=\"0 0 ")?;
    let (numbers, _) = rest.split_once('"')?;
    let (w, h) = numbers.split_once(' ')?;
    Some((w.parse().ok()?, h.parse().ok()?))
}
