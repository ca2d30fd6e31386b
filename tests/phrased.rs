//! Phrased dances: the order of their parts in many hands, and the headings of parts.

use halfcount::{Options, Report, report};

const PARTS: &str = "PART A\n1-4 Vine right, touch L\n5-8 Side L, together R, turn 1/4 L stepping L forward (9:00), touch R\n\n\
PART B\n1-4 Rock R forward, recover L, rock R back, recover L\n5-8 Walk R, L, R, L\n\n\
TAG\n1-4 Sway R, L, R, L\n";

fn read(order: &str, parts: &str) -> Report {
    let head = "TWO QUAYS\nPhrased, 2 walls, improver, by Test Author PH\nStart on the right foot\n";
    report(&format!("{head}{order}\n\n{parts}"), &Options::default()).expect("a small sheet")
}

/// What is danced, one letter for each part and `t` for a tag.
fn played(report: &Report) -> String {
    let name = |part: usize| report.dance.parts[part].name.replace("tag", "t");
    report.dance.runs.iter().map(|r| name(r.part).replace(" 1", "")).collect::<Vec<_>>().join(" ")
}

#[track_caller]
fn check(order: &str, expected: &str) {
    let report = read(order, PARTS);
    assert_eq!(played(&report), expected, "{order}");
}

#[test]
fn the_order_of_the_parts() {
    check("Sequence: A A B, tag, A B", "A A B t A B");
    check("Order of the parts: A, A, B, tag, A, B", "A A B t A B");
    check("How it goes: A x2, B, tag 1, A, B", "A A B t A B");
    check("Sequence: A twice, B, tag, A and B", "A A B t A B");
    check("The parts come in this order:\n    A A B\n    Tag\n    A B", "A A B t A B");
    check("SEQUENCE\nA A B\nTag\nA B", "A A B t A B");
    check("The running order is: A, A again, then B, then the tag, then A, and B to finish.", "A A B t A B");
    check("You dance A, B, A again, then the tag, and two times B.", "A B A t B B");
}

#[test]
fn the_headings_of_parts() {
    let plain = played(&read("Sequence: A A B, tag, A B", PARTS));
    for heading in [
        "Part B (always danced facing 6:00)",
        "### B (first time facing 6:00)",
        "B(1-8) ROCKS AND WALKS",
        "B 1-8 ROCKS AND WALKS",
        "Part B (once with arms)\nB(1-8) Rocks and walks",
    ] {
        let parts = PARTS.replace("PART B", heading);
        let report = read("Sequence: A A B, tag, A B", &parts);
        assert_eq!(played(&report), plain, "{heading}");
        let sections: Vec<_> = report.dance.parts.iter().map(|p| p.sections.len()).collect();
        assert_eq!(sections, [1, 1, 1], "{heading}");
        if heading.contains("6:00") {
            let facing = report.dance.parts[1].sections[0].facing_end;
            assert_eq!(facing.to_string(), "6:00", "{heading}");
        }
    }
}

#[test]
fn the_lengths_of_the_parts_make_up_the_dance() {
    for lengths in [
        "16 counts (A 8 - B 8), tag 4",
        "A - 8 counts / B - 8 counts / Tag - 4 counts",
        "Part A has 8 counts, part B has 8 counts",
        "A = 8, B = 8",
    ] {
        let report = read(&format!("{lengths}\nSequence: A A B, tag, A B"), PARTS);
        assert_eq!(report.dance.head.counts, 16, "{lengths}");
    }
}
