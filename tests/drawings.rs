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

/// Ids of a document, in order.
fn ids(xml: &Document<'_>) -> Vec<String> {
    xml.descendants().filter_map(|n| n.attribute("id").map(str::to_owned)).collect()
}

#[test]
fn several_drawings_make_one_valid_document() {
    let mut drawings = Vec::new();
    for (i, path) in sheets().iter().take(3).enumerate() {
        let text = fs::read_to_string(path).expect("a sheet");
        let mut options = DrawOptions::default();
        options.prefix = format!("{i}-");
        options.width = (i == 1).then_some(500.0);
        drawings.push(draw::sheet(&read(&text).dance, &text, &options));
    }
    let together = draw::below_each_other(&drawings, "all-");
    let xml = Document::parse(&together).expect("one document");
    let view = |n: &Node<'_, '_>| -> Vec<f64> {
        let words = n.attribute("viewBox").expect("a box");
        words.split(' ').map(|n| n.parse().expect("a number")).collect()
    };
    let whole = view(&xml.root_element());
    let parts: Vec<_> = xml
        .root_element()
        .children()
        .filter(|n| n.has_tag_name(("http://www.w3.org/2000/svg", "svg")))
        .collect();
    assert_eq!(parts.len(), 3);
    let mut below = 0.0;
    for part in &parts {
        let box_of = view(part);
        assert_eq!((number(part, "width"), number(part, "height")), (box_of[2], box_of[3]));
        assert!(number(part, "y") >= below && box_of[2] <= whole[2]);
        below = number(part, "y") + box_of[3];
    }
    assert!(below <= whole[3] + 0.01);
    let all = ids(&xml);
    let mut once = all.clone();
    once.sort();
    once.dedup();
    assert_eq!(all.len(), once.len());
    let alone = draw::below_each_other(&drawings[..1], "all-");
    assert_eq!(alone, drawings[0]);
}

/// Breadth of the widest print in a drawing: that of a foot.
fn print_sizes(svg: &str) -> Vec<f64> {
    let xml = Document::parse(svg).expect("a drawing");
    let outlines = xml.descendants().filter(|n| n.attribute("class") == Some("hc-outline"));
    outlines.filter_map(|n| shape(&n)).map(|p| (p.bounding_box().height() * 10.0).round()).collect()
}

#[test]
fn a_foot_has_one_size_in_all_plans_of_a_dance() {
    for path in sheets() {
        let text = fs::read_to_string(&path).expect("a sheet");
        let report = read(&text);
        let mut sizes: Vec<f64> = draw::panels(&report.dance, &text, &DrawOptions::default())
            .iter()
            .flat_map(|p| print_sizes(&p.svg))
            .collect();
        sizes.sort_by(f64::total_cmp);
        let (Some(least), Some(most)) = (sizes.first(), sizes.last()) else { continue };
        assert!(most - least <= 1.0, "{}: {least} to {most}", path.display());
        assert!(*least >= 150.0, "{}: a foot of {least} tenths of a unit is too small", path.display());
    }
}

/// No label lies on the arrow of a start or of an end, nor one label on another.
#[test]
fn labels_leave_arrows_and_each_other_alone() {
    let (mut labels, mut hidden, mut crowded) = (0, Vec::new(), Vec::new());
    for path in sheets() {
        let text = fs::read_to_string(&path).expect("a sheet");
        let report = read(&text);
        for picture in draw::panels(&report.dance, &text, &DrawOptions::default()) {
            let xml = Document::parse(&picture.svg).expect("a drawing");
            // Plans of one section stand in groups of their own, so that each has its own frame of numbers.
            let mut shapes = Vec::new();
            extent(&xml.root_element(), Affine::IDENTITY, &mut shapes);
            let of = |class: &str| -> Vec<Rect> {
                shapes.iter().filter(|(c, _)| c == class).map(|(_, r)| *r).collect()
            };
            let boxes = of("hc-label");
            labels += boxes.len();
            let words: Vec<Rect> = of("hc-label-solid").into_iter().chain(of("hc-label-open")).collect();
            for (i, a) in words.iter().enumerate() {
                let over = words[i + 1..].iter().map(|b| b.intersect(*a).area() / a.area().min(b.area()));
                if over.fold(0.0, f64::max) > 0.1 {
                    crowded.push(format!("{}, {}", path.display(), picture.title));
                }
            }
            for arrow in of("hc-start-arrow").iter().chain(&of("hc-end-arrow")) {
                let over: f64 = boxes.iter().map(|b| b.intersect(*arrow).area()).fold(0.0, f64::max);
                if over > 0.35 * arrow.area() {
                    hidden.push(format!("{}, {}", path.display(), picture.title));
                }
            }
        }
    }
    assert!(labels > 1000, "labels were found");
    assert!(hidden.is_empty(), "{hidden:#?}");
    assert!(crowded.is_empty(), "{crowded:#?}");
}

#[test]
fn a_hand_out_has_all_that_a_dancer_needs_at_home() {
    for path in sheets() {
        let text = fs::read_to_string(&path).expect("a sheet");
        let report = read(&text);
        let page = draw::page(&report.dance, &text, Paper::Letter, &DrawOptions::default());
        let scenes = page.matches("<div class=\"section\">").count();
        assert!(scenes >= report.dance.main_sections().count(), "{}", path.display());
        let mut wanted = vec!["How to read the prints", "Before you dance", "doctor", "the teacher", "<h1>"];
        if report.dance.main_sections().any(|s| !s.moves.is_empty()) {
            wanted.extend(["The floor it needs", "hc-label", "class=\"steps\""]);
        }
        for words in wanted {
            assert!(page.contains(words), "{}: {words} is missing", path.display());
        }
        assert!(!page.contains(" style="), "{}", path.display());
    }
}

#[test]
fn several_hand_outs_make_one_document() {
    let texts: Vec<String> =
        sheets().iter().take(3).map(|p| fs::read_to_string(p).expect("a sheet")).collect();
    let reports: Vec<Report> = texts.iter().map(|t| read(t)).collect();
    let dances: Vec<_> = reports.iter().zip(&texts).map(|(r, t)| (&r.dance, t.as_str())).collect();
    let page = draw::pages(&dances, Paper::A4, &DrawOptions::default());
    for (words, times) in [("<html", 1), ("</html>", 1), ("<body", 1), ("<h1>", 3), ("Before you dance", 3)] {
        assert_eq!(page.matches(words).count(), times, "{words}");
    }
    let mut ids: Vec<&str> = page.split(" id=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
    let all = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert!(all > 6 && ids.len() == all);
}

/// A page counts text in UTF-16, and a wave is two of its units and four bytes.
#[test]
fn offsets_count_as_a_page_does() {
    let text = "\u{1f30a} Tide\nCount: 4 Wall: 1\n\n1-2 Step R forward \u{2013} touch L beside R\n\
                3-4 Step L back, touch R beside L\n";
    let picture = draw::panels(&read(text).dance, text, &DrawOptions::default()).remove(0);
    let xml = Document::parse(&picture.svg).expect("a drawing");
    let units: Vec<u16> = text.encode_utf16().collect();
    let bytes: Vec<&str> =
        picture.sentences.iter().map(|s| &text[s.start as usize..s.end as usize]).collect();
    let mut steps = 0;
    for node in xml.descendants().filter(|n| n.attribute("class") == Some("hc-step")) {
        let (a, b) = (whole(&node, "data-start"), whole(&node, "data-end"));
        let words = String::from_utf16(&units[a..b]).expect("whole letters");
        assert!(bytes.contains(&words.as_str()), "{words:?} is none of {bytes:?}");
        steps += 1;
    }
    assert_eq!(steps, 4);
}

// Common practice: the foot that was put on its heel grinds, and a figure's hyphenated name is no part's letter.
#[test]
fn a_grind_goes_on_with_the_heel_before_it_and_headings_keep_their_names() {
    let text = "Lamp\nCount: 16  Wall: 4\n\nPart 1 (heels)\n1 Dig R heel forward with weight on it and grind\n\
                2 Step L back\n3-4 Step R heel forward and grind 1/4 right, step L back\n5-6 Rock R back, recover L\n\
                7-8 Walk R, L\n\nK-STEP\n1-8 K-step R\n";
    let dance = read(text).dance;
    let names: Vec<_> = dance.parts[0].sections.iter().map(|s| s.name.trim()).collect();
    assert_eq!(names, ["heels", "K-STEP"]);
    let pictures = draw::panels(&dance, text, &DrawOptions::default());
    let grinds = pictures[0].sentences.iter().filter(|s| s.words.starts_with("grind"));
    let feet: Vec<_> = grinds.map(|s| s.words.contains("heel of R")).collect();
    assert_eq!(feet, [true, true]);
}
