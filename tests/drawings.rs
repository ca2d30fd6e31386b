//! Drawings, measured by another library: every practice sheet, every shape, inside the paper and said in words.

use std::fs;
use std::path::{Path, PathBuf};

use halfcount::body::Body;
use halfcount::draw::{self, DrawOptions, Paper, Picture, View};
use halfcount::floor::{Heading, Point, Turn};
use halfcount::time::Ticks;
use halfcount::{Options, Report, report};
use kurbo::{Affine, BezPath, Rect, Shape, Vec2};
use roxmltree::{Document, Node};

fn sheets() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sheets");
    let files = fs::read_dir(folder).expect("practice sheets").flatten().map(|e| e.path());
    let mut found: Vec<_> = files.filter(|p| p.extension().is_some_and(|e| e == "txt")).collect();
    found.sort();
    assert!(found.len() > 50, "the practice sheets were found");
    found
}

fn read(text: &str) -> Report {
    report(text, &Options::default()).expect("a sheet of usual length")
}

fn number(node: &Node<'_, '_>, name: &str) -> f64 {
    node.attribute(name).map_or(0.0, |v| v.parse().expect("a number"))
}

fn whole(node: &Node<'_, '_>, name: &str) -> usize {
    node.attribute(name).expect("an offset").parse().expect("a whole number")
}

/// What the shape of a node covers, without the breadth of lines.
fn shape(node: &Node<'_, '_>) -> Option<BezPath> {
    let at = |name| number(node, name);
    match node.tag_name().name() {
        "path" => Some(BezPath::from_svg(node.attribute("d").expect("data")).expect("a path")),
        "rect" => {
            Some(Rect::new(at("x"), at("y"), at("x") + at("width"), at("y") + at("height")).to_path(0.1))
        }
        "circle" => Some(kurbo::Circle::new((at("cx"), at("cy")), at("r")).to_path(0.1)),
        "text" => {
            // Letters of a common face are half as wide as high on average; 0.56 leaves room for bold ones.
            let letters: f64 = node.text().unwrap_or_default().chars().map(|_| 0.56).sum();
            let w = letters * at("font-size");
            let x = match node.attribute("text-anchor") {
                Some("middle") => at("x") - w / 2.0,
                Some("end") => at("x") - w,
                _ => at("x"),
            };
            Some(Rect::new(x, at("y") - 0.75 * at("font-size"), x + w, at("y")).to_path(0.1))
        }
        _ => None,
    }
}

/// The boxes of a node and all in it.
fn extent(node: &Node<'_, '_>, frame: Affine, out: &mut Vec<(String, Rect)>) {
    let mut here = frame;
    for part in node.attribute("transform").unwrap_or_default().split(')') {
        let Some((name, numbers)) = part.trim().split_once('(') else { continue };
        let n: Vec<f64> = numbers.split(' ').map(|n| n.parse().expect("a number")).collect();
        here *= match name {
            "translate" => Affine::translate((n[0], n[1])),
            "rotate" => Affine::rotate(n[0].to_radians()),
            other => panic!("{other} is not used"),
        };
    }
    let class = node.attribute("class").unwrap_or_default();
    if let Some(path) = shape(node).filter(|_| class != "hc-hit") {
        out.push((class.into(), (here * path).bounding_box()));
    }
    for child in node.children().filter(Node::is_element) {
        extent(&child, here, out);
    }
}

fn check_picture(name: &str, picture: &Picture, text: &str) {
    let xml = Document::parse(&picture.svg).unwrap_or_else(|e| panic!("{name}: {e}"));
    let svg = xml.root_element();
    assert_eq!(svg.attribute("role"), Some("img"));
    assert!(svg.attribute("width").is_none() && svg.attribute("height").is_none());
    let named = svg.attribute("aria-labelledby").expect("a name");
    for id in named.split(' ') {
        let told = xml.descendants().find(|n| n.attribute("id") == Some(id)).expect("the named element");
        assert!(!told.text().unwrap_or_default().is_empty(), "{name}: {id} is empty");
    }
    for node in xml.descendants().filter(Node::is_element) {
        assert!(node.attribute("style").is_none() && node.tag_name().name() != "style", "{name}");
        assert!(node.attributes().all(|a| !a.name().starts_with("on")), "{name}");
    }
    let view: Vec<f64> =
        svg.attribute("viewBox").expect("a box").split(' ').map(|n| n.parse().expect("a number")).collect();
    let paper = Rect::new(-1.0, -1.0, view[2] + 1.0, view[3] + 1.0);
    let mut shapes = Vec::new();
    extent(&svg, Affine::IDENTITY, &mut shapes);
    for (class, shape) in shapes {
        assert!(paper.contains_rect(shape), "{name}, {}: {class} {shape:?} leaves {paper:?}", picture.title);
    }
    // Each step that moves a foot can be met, and points into the text.
    let units = text.encode_utf16().count();
    for node in xml.descendants().filter(|n| n.attribute("class") == Some("hc-step")) {
        assert_eq!(node.attribute("data-part"), Some(picture.part.as_str()));
        assert_eq!(node.attribute("data-section"), Some(picture.section.to_string().as_str()));
        assert!(!node.attribute("data-count").expect("counts").is_empty());
        let (a, b) = (whole(&node, "data-start"), whole(&node, "data-end"));
        assert!(a < b && b <= units, "{name}: {a} to {b} of {units}");
        assert!(node.children().any(|c| c.attribute("class") == Some("hc-hit")), "{name}");
    }
}

#[test]
fn every_practice_sheet_is_drawn_within_its_paper() {
    for path in sheets() {
        let text = fs::read_to_string(&path).expect("a sheet");
        let name = path.file_name().expect("a name").to_string_lossy().into_owned();
        let report = read(&text);
        let mut options = DrawOptions::default();
        for view in [View::Room, View::Dancer, View::Teacher] {
            options.view = view;
            let pictures = draw::panels(&report.dance, &text, &options);
            assert!(pictures.len() >= report.dance.main_sections().count(), "{name}");
            for (picture, section) in pictures.iter().zip(report.dance.main_sections()) {
                assert_eq!(picture.sentences.len(), section.moves.len(), "{name}, {}", picture.title);
            }
            pictures.iter().for_each(|picture| check_picture(&name, picture, &text));
        }
        for picture in draw::strips(&report.dance, &text, &options) {
            check_picture(&name, &picture, &text);
        }
        let page = || draw::page(&report.dance, &text, Paper::A4, &options);
        assert_eq!(page(), page(), "{name}");
    }
}

#[test]
fn a_moment_is_found_by_its_running_count() {
    let text = fs::read_to_string(&sheets()[0]).expect("a sheet");
    let report = read(&text);
    let options = DrawOptions::default();
    let counts = i32::try_from(report.dance.head.counts).expect("few counts");
    for count in 1..=counts {
        let picture = draw::moment(&report.dance, &text, Ticks::of_count(count), &options);
        check_picture("a moment", &picture.expect("a count of the dance"), &text);
    }
    assert!(draw::moment(&report.dance, &text, Ticks::of_count(counts + 1), &options).is_none());
}

#[test]
fn ids_have_the_callers_prefix_and_are_unique_on_a_page() {
    let text = fs::read_to_string(&sheets()[0]).expect("a sheet");
    let mut options = DrawOptions::default();
    options.prefix = "hall-".into();
    let pictures = draw::panels(&read(&text).dance, &text, &options);
    let mut ids = Vec::new();
    for picture in &pictures {
        let xml = Document::parse(&picture.svg).expect("a drawing");
        ids.extend(xml.descendants().filter_map(|n| n.attribute("id").map(str::to_owned)));
    }
    let all = ids.len();
    assert!(all >= 2 * pictures.len() && ids.iter().all(|id| id.starts_with("hall-")));
    ids.sort();
    ids.dedup();
    assert_eq!(ids.len(), all);
}

/// A turn of +t units is a rotation by -7.5 t degrees where y points up (check values, section 2).
#[test]
fn turns_agree_with_another_library() {
    for units in -96..=96 {
        let (p, c) = (Point::new(0.3, -1.7), Point::new(0.1, 0.4));
        let ours = p.turned_about(c, Turn(units));
        let turn = Affine::rotate_about((-7.5 * f64::from(units)).to_radians(), (c.x, c.y));
        let theirs = turn * kurbo::Point::new(p.x, p.y);
        assert!((ours.x - theirs.x).abs() < 1e-9 && (ours.y - theirs.y).abs() < 1e-9, "{units}");
        let v = Vec2::from_angle((90.0 - 7.5 * f64::from(units)).to_radians());
        let h = Heading::new(units).vector();
        assert!((h.x - v.x).abs() < 1e-9 && (h.y - v.y).abs() < 1e-9, "{units}");
    }
}

#[test]
fn words_of_a_sheet_cannot_break_the_markup() {
    let text = "<b onload=\"x\">& \u{7}Tide</b>\nCount: 4 Wall: 1\n\nSection 1: </svg><script>\n\
                1-2 Step R forward, touch L beside R\n3-4 Step L back, touch R beside L\n";
    let report = read(text);
    let options = DrawOptions::default();
    for picture in draw::panels(&report.dance, text, &options) {
        check_picture("hostile", &picture, text);
    }
    let page = draw::page(&report.dance, text, Paper::Letter, &options);
    assert!(!page.contains("<script") && !page.contains("<b onload"), "{page}");
    assert!(page.contains("size:letter"));
}

#[test]
fn a_small_body_is_drawn_too() {
    let text = fs::read_to_string(&sheets()[0]).expect("a sheet");
    let report = read(&text);
    let mut options = DrawOptions::default();
    options.body = Body::of_stature(1.20);
    for picture in draw::panels(&report.dance, &text, &options) {
        check_picture("a child", &picture, &text);
    }
}
