//! Markup in a sheet stays words in everything that is written out.

use halfcount::call::{self, CallOptions, CaptionOptions};
use halfcount::draw::{self, DrawOptions, Paper};
use halfcount::time::Ticks;
use halfcount::{Options, report};

/// A sheet with markup in its title, author, music, heading, a figure of its own, a remark and a step.
const SHEET: &str = "\
Lamp <script>alert(1)</script>\"><img src=x onerror=alert(2)> --> & ]]>
Choreographed by <b onclick=\"x\">Test Author</b> & Co
Music: <i>Lamp</i> --> & \"Quay\" (112 bpm)
8 counts, 4 walls

Section 1: <svg onload=alert(3)> & '</style>'
1-4 Vine right <u>slowly</u>, touch L --> & hold
5-8 <harbour> vine left 1/4 turn left, touch R (9:00)
Mind the <br> wet & boards -->
";

/// Elements that a sheet may not bring into a drawing or a page.
const FOREIGN: &[&str] = &["script", "img", "b onclick", "i>Lamp", "u>", "br", "harbour", "svg onload"];

fn dance() -> halfcount::dance::Dance {
    report(SHEET, &Options::default()).expect("a short sheet").dance
}

#[track_caller]
fn no_markup(what: &str, written: &str) {
    for foreign in FOREIGN {
        assert!(!written.contains(&format!("<{foreign}")), "{what} holds <{foreign}");
    }
}

#[test]
fn drawings_hold_titles_as_words() {
    let (dance, options) = (dance(), DrawOptions::default());
    let mut drawings = vec![
        ("sheet", draw::sheet(&dance, SHEET, &options)),
        ("strips", draw::strip_sheet(&dance, SHEET, &options)),
        ("moment", draw::moment(&dance, SHEET, Ticks(24), &options).expect("count 1").svg),
    ];
    drawings.extend(draw::panels(&dance, SHEET, &options).into_iter().map(|p| ("panel", p.svg)));
    for (what, svg) in &drawings {
        no_markup(what, svg);
        let document = roxmltree::Document::parse(svg).expect("a drawing is well-formed");
        let acts = document.descendants().flat_map(|n| n.attributes()).any(|a| a.name().starts_with("on"));
        assert!(!acts, "{what} acts on events");
    }
    let document = roxmltree::Document::parse(&drawings[0].1).expect("well-formed");
    let words: Vec<&str> = document.descendants().filter_map(|n| n.text()).collect();
    assert!(
        words.iter().any(|w| w.contains("<script>alert(1)</script>")),
        "the title is there as words: {words:?}"
    );
}

#[test]
fn a_prefix_for_ids_is_no_way_out() {
    let mut options = DrawOptions::default();
    options.prefix = "\"><script>alert(1)</script>".into();
    let svg = draw::sheet(&dance(), SHEET, &options);
    no_markup("prefix", &svg);
    roxmltree::Document::parse(&svg).expect("a drawing is well-formed");
}

#[test]
fn hand_outs_hold_titles_as_words() {
    let page = draw::page(&dance(), SHEET, Paper::A4, &DrawOptions::default());
    no_markup("page", &page);
    assert_eq!(page.matches("</style>").count(), 1, "the style is not closed from within");
    assert!(page.contains("&lt;script&gt;alert(1)&lt;/script&gt;"), "the title is there as words");
}

#[test]
fn captions_hold_titles_as_words() {
    let dance = dance();
    let song = call::song(&dance, &CallOptions::default());
    let calls = call::calls(&dance, &song);
    let captions = call::captions(&dance, &song, &calls, &CaptionOptions::default());
    for block in captions.split("\n\n").skip(1).filter(|b| !b.is_empty()) {
        let times = block.lines().filter(|line| line.contains("-->")).count();
        let wanted = usize::from(!block.starts_with("NOTE"));
        assert_eq!(times, wanted, "{block}");
        let words = block.lines().skip(2).collect::<Vec<_>>().join("\n");
        for tag in words.split('<').skip(1) {
            assert!(tag.starts_with(|c: char| c.is_ascii_digit()), "a moment, no markup: {block}");
        }
    }
}
