//! Hips that are bumped so many times or to these sides: each movement has one count, as it is common practice, and the
//! weight goes where the next step needs it (D61 of the project's vocabulary). The dance is invented.

use halfcount::check::Severity;
use halfcount::{Options, report};

const DANCE: &str =
    "Lamp\n8 counts, 1 wall\n\n1-4 Vine R, touch L\n5-8 Vine L, touch R\n\nTag after wall 3\n";

#[test]
fn each_movement_of_the_hips_that_is_counted_has_one_count() {
    let mut wrong = String::new();
    for words in [
        "Hip bumps x4",
        "Hip bumps x4 (1-4)",
        "1-4 Hip bumps x4",
        "1-4 4 hip bumps",
        "Four hip bumps R, L, R, L",
        "Bump hips R L R L",
        "Bump hips four times",
        "Hip bumps R, R, L, L",
        "Hip bumps R x2, L x2",
        "Hip bumps RRLL",
        "Hip bumps: right, right, left, left",
        "Sways x4",
        "Sway R, L, R, L",
    ] {
        let text = format!("{DANCE}{words}\n");
        let report = report(&text, &Options::default()).expect("a sheet of usual length");
        let tag = report.dance.parts.iter().find(|p| p.name.starts_with("tag"));
        let counts = tag.map_or(0, |p| p.sections.iter().map(|s| s.counts).sum());
        let loud: Vec<_> =
            report.findings.iter().filter(|f| f.severity > Severity::Note).map(|f| &f.message).collect();
        if counts != 4 || !loud.is_empty() {
            wrong += &format!("{words}: {counts} counts, {loud:?}\n");
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}
