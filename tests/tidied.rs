//! A tidy sheet reads as the same dance, a mirrored one as the dance on the other foot, and tidying twice changes
//! nothing more.

use std::fs;
use std::path::Path;

use halfcount::tidy::{TidyOptions, mirrored, tidy};
use halfcount::trace::{Trace, trace};
use halfcount::{Options, Report, report};

/// All sheets of the project with their names, and those of a folder named in `SHEETS`.
fn sheets() -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut out = Vec::new();
    let more = std::env::var("SHEETS").ok();
    for folder in ["tests/sheets", "www/demo"].into_iter().chain(more.as_deref()) {
        for entry in fs::read_dir(root.join(folder)).expect("the folder is there").flatten() {
            if entry.path().extension().is_some_and(|e| e == "txt") {
                let name = entry.file_name().to_string_lossy().into_owned();
                out.push((name, fs::read_to_string(entry.path()).expect("a sheet is UTF-8")));
            }
        }
    }
    out.sort();
    assert!(out.len() > 20, "there are sheets");
    out
}

fn read(text: &str) -> Report {
    report(text, &Options::default()).expect("a short sheet")
}

/// What must not change: everything in the trace that does not speak of the text itself.
fn told(report: &Report) -> String {
    let Trace { title, counts, walls, level, start_foot, beats_per_bar, sections, tags, restarts, .. } =
        trace(report, "", "");
    let of_sections: Vec<String> = sections
        .iter()
        .map(|s| format!("{} {} {} {}", s.counts, s.trace, s.facing_end, s.weight_end))
        .collect();
    format!(
        "{title}\n{counts} {walls} {level} {start_foot:?} {beats_per_bar}\n{}\n{tags:#?}\n{restarts:#?}",
        of_sections.join("\n")
    )
}

#[test]
fn a_tidy_sheet_reads_as_the_same_dance() {
    let mut wrong = Vec::new();
    for (name, text) in sheets() {
        let clean = tidy(&text, &TidyOptions::default()).expect("a short sheet");
        let (before, after) = (read(&text), read(&clean));
        if told(&before) != told(&after) {
            wrong.push(name);
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}

#[test]
fn tidying_twice_is_tidying_once() {
    let mut wrong = Vec::new();
    for (name, text) in sheets() {
        let once = tidy(&text, &TidyOptions::default()).expect("a short sheet");
        let twice = tidy(&once, &TidyOptions::default()).expect("a short sheet");
        if once != twice {
            let line = once.lines().zip(twice.lines()).find(|(a, b)| a != b);
            wrong.push(format!("\n{name}: {line:?}"));
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}

#[test]
fn a_mirrored_sheet_reads_as_the_dance_on_the_other_foot() {
    let mut mirror = TidyOptions::default();
    mirror.mirror = true;
    let mut wrong = Vec::new();
    for (name, text) in sheets() {
        let other = tidy(&text, &mirror).expect("a short sheet");
        let mut before = read(&text);
        before.dance = mirrored(&before.dance);
        let after = read(&other);
        if told(&before) != told(&after) {
            wrong.push(name.clone());
        }
        let back = tidy(&other, &mirror).expect("a short sheet");
        let clean = tidy(&text, &TidyOptions::default()).expect("a short sheet");
        if back != clean {
            let line = back.lines().zip(clean.lines()).find(|(a, b)| a != b);
            wrong.push(format!("\n{name}, mirrored twice: {line:?}"));
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}
