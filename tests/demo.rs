//! The demo dances, against what was worked out by hand when they were written.

use std::fs;
use std::path::Path;

use halfcount::check::Severity;
use halfcount::trace::Trace;

fn file(name: &str) -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name)).expect("a text in UTF-8")
}

fn read(text: &str, name: &str) -> Trace {
    let report = halfcount::report(text, &halfcount::Options::default()).expect("a short sheet");
    halfcount::trace::trace(&report, text, name)
}

fn demo(name: &str) -> Trace {
    read(&file(&format!("www/demo/{name}")), name)
}

/// The weight-taking positions of each section with the clock at its end. Positions without weight may be
/// written or left out.
#[track_caller]
fn check(trace: &Trace, sections: &[(&str, &str)]) {
    let found: Vec<(String, &str)> =
        trace.sections.iter().map(|s| (weights(&s.trace), s.facing_end.as_str())).collect();
    let expected: Vec<(String, &str)> = sections.iter().map(|s| (weights(s.0), s.1)).collect();
    assert_eq!(found, expected, "{}", trace.file);
}

fn weights(trace: &str) -> String {
    let mut out = String::new();
    let mut count = "0";
    for word in trace.split(' ') {
        let (position, foot) = word.split_at(word.len() - 1);
        if position.starts_with(|c: char| c.is_ascii_digit()) {
            count = position;
        }
        if foot != "-" {
            let sign = position.trim_start_matches(|c: char| c.is_ascii_digit());
            out.extend([count, sign, foot, " "]);
        }
    }
    out
}

#[track_caller]
fn sound(trace: &Trace) {
    let loud: Vec<&str> = trace.findings.iter().filter(|f| f.severity != "note").map(|f| f.rule).collect();
    assert_eq!(loud, Vec::<&str>::new(), "{}", trace.file);
    assert_eq!(trace.unread, Vec::new(), "{}", trace.file);
}

#[test]
fn the_beginner_dance_turns_a_quarter() {
    let trace = demo("lantern-on-pier-five.txt");
    sound(&trace);
    assert_eq!((trace.counts, trace.walls, trace.start_foot, trace.beats_per_bar), (32, 4, Some("R"), 4));
    check(
        &trace,
        &[
            ("1R 2L 3R 4- 5L 6R 7L 8-", "12:00"),
            ("1R 2L 3R 4- 5L 6R 7L 8-", "12:00"),
            ("1R 2- 3L 4- 5R 6- 7L 8-", "12:00"),
            ("1R 2L 3R 4L 5R 6L 7R 8L", "3:00"),
        ],
    );
}

#[test]
fn its_copy_with_a_slip_has_one_error_where_the_slip_is() {
    let trace = demo("lantern-on-pier-five-with-a-slip.txt");
    let loud: Vec<_> = trace.findings.iter().filter(|f| f.severity != Severity::Note.word()).collect();
    assert_eq!(loud.len(), 1, "one cause, one finding: {loud:?}");
    assert_eq!((loud[0].severity, loud[0].section, loud[0].count.as_deref()), ("error", Some(1), Some("6")));
}

#[test]
fn the_slip_is_mended_to_the_dance_that_was_meant() {
    let slipped = file("www/demo/lantern-on-pier-five-with-a-slip.txt");
    let report = halfcount::report(&slipped, &halfcount::Options::default()).expect("a short sheet");
    let fixes = report.findings.iter().flat_map(|finding| &finding.fixes);
    let mended: Vec<_> = fixes.map(|fix| halfcount::text::apply(&slipped, &fix.edits)).collect();
    let meant = file("www/demo/lantern-on-pier-five.txt");
    assert_eq!(mended, [meant.replacen('\n', " (as first typed)\n", 1)]);
}

#[test]
fn the_waltz_has_six_counts_a_section() {
    let trace = demo("tidewatchers-waltz.txt");
    sound(&trace);
    assert_eq!((trace.counts, trace.walls, trace.start_foot, trace.beats_per_bar), (48, 2, Some("L"), 3));
    let basic = "1L 2R 3L 4R 5L 6R";
    check(
        &trace,
        &[
            (basic, "12:00"),
            (basic, "12:00"),
            ("1L 2- 3- 4R 5- 6-", "12:00"),
            (basic, "6:00"),
            ("1L 2R 3L 4R 5- 6-", "6:00"),
            ("1L 2- 3- 4R 5L 6R", "6:00"),
            ("1L 2- 3- 4R 5L 6R", "6:00"),
            (basic, "6:00"),
        ],
    );
}

#[test]
fn the_intermediate_dance_has_a_restart_and_a_tag() {
    let trace = demo("ropewalk-reckoning.txt");
    sound(&trace);
    assert_eq!((trace.counts, trace.walls, trace.start_foot, trace.beats_per_bar), (32, 4, Some("R"), 4));
    let two_shuffles = "1R 2L 3R &L 4R 5L 6R 7L &R 8L";
    check(
        &trace,
        &[
            (two_shuffles, "12:00"),
            (two_shuffles, "3:00"),
            (two_shuffles, "12:00"),
            ("1R 2L 3R 4L 5- &R 6L 7R 8L", "9:00"),
        ],
    );
    // Walls begin at 12:00, 9:00 and 6:00; the third is broken off after a quarter right, at 9:00. From there
    // walls four to six turn three quarters left, so the tag faces the front.
    let restart = &trace.restarts[0];
    assert_eq!((restart.wall, restart.after_counts, restart.facing.as_deref()), (3, 16, Some("9:00")));
    let tag = &trace.tags[0];
    assert_eq!((tag.after_wall, tag.counts, tag.facing.as_deref()), (6, 4, Some("12:00")));
    assert_eq!(weights(&tag.trace), weights("1R 2L 3R 4L"));
}

#[test]
fn the_sheet_of_the_readme_reads_as_it_says() {
    let readme = file("README.md");
    let block = |kind: &str| {
        let after = readme.split_once(&format!("```{kind}\n")).expect("a block of this kind").1;
        after.split_once("```").expect("an end of the block").0
    };
    let sheet = block("text");
    let trace = read(sheet, "README.md");
    sound(&trace);
    let section = &trace.sections[0];
    let heart = format!(
        r#"{{"counts":{},"trace":"{}","facing_end":"{}","weight_end":"{}"}}"#,
        section.counts, section.trace, section.facing_end, section.weight_end
    );
    assert_eq!(block("json").trim(), heart);

    // The slip that the page speaks of.
    let slipped = sheet.replace("step L beside R (3:00)", "step R beside L (3:00)");
    assert_ne!(slipped, sheet);
    let loud = |f: &&halfcount::trace::FindingTrace| f.severity == "error" && f.count.as_deref() == Some("8");
    assert_eq!(read(&slipped, "README.md").findings.iter().filter(loud).count(), 1);
}
