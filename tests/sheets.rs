//! The practice sheets in `tests/sheets` against what each of them truly says, worked out by hand.
//!
//! `cargo xtask accuracy` shows what differs, sheet by sheet.
#![allow(clippy::print_stdout, reason = "the differences are read by a person")]

mod truth;

use std::fs;
use std::path::Path;

use truth::{Truth, held};

/// Sound sheets that must be read exactly, of all that are there. Raise it with every step forward.
const EXACT_AT_LEAST: usize = 305;
/// Faulty sheets whose fault must be found where it is.
const FOUND_AT_LEAST: usize = 66;
/// False alarms, all of them on sheets that are misread. Lower it with every step forward.
const ALARMS: usize = 0;

/// Fields of a truth file that are compared or known to be hints. An unknown one fails, so that no truth is
/// passed over in silence.
const KNOWN: &[&str] = &[
    "file",
    "valid",
    "fault",
    "counts",
    "walls",
    "level",
    "start_foot",
    "beats_per_bar",
    "sections",
    "tags",
    "restarts",
    "figures",
];

/// What was found about one sheet.
struct Found {
    sound: bool,
    /// What differs from the truth.
    differs: Vec<String>,
    /// Findings above a note: false alarms where the sheet is sound.
    loud: Vec<String>,
    /// Whether the one fault of a faulty sheet was found where it is.
    placed: bool,
}

#[test]
fn practice_sheets_say_what_they_truly_say() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sheets");
    let entries = fs::read_dir(&folder).expect("the practice sheets are there").flatten();
    let mut truths: Vec<_> =
        entries.map(|e| e.path()).filter(|p| p.extension().is_some_and(|e| e == "json")).collect();
    truths.sort();
    assert!(!truths.is_empty(), "there are truth files");

    let (mut sound, mut exact, mut alarms, mut faulty, mut placed, mut echoes) = (0, 0, 0, 0, 0, 0);
    for path in &truths {
        let truth = fs::read_to_string(path).expect("a truth file is UTF-8");
        let truth = Truth::parse(&truth).expect("a truth file is JSON");
        let name = truth.value["file"].as_str().expect("a truth file names its sheet");
        let text = fs::read_to_string(folder.join(name)).expect("a sheet is UTF-8");
        let held = hold(&truth, &text, name);
        if held.sound {
            sound += 1;
            exact += usize::from(held.differs.is_empty());
            alarms += held.loud.len();
        } else {
            faulty += 1;
            placed += usize::from(held.placed);
            echoes += held.loud.len().saturating_sub(1);
        }
        let wrong = if held.sound { !held.differs.is_empty() || !held.loud.is_empty() } else { !held.placed };
        if wrong {
            println!("{name}");
            for line in held.differs.iter().chain(&held.loud) {
                println!("    {line}");
            }
        }
    }
    println!("{exact} of {sound} sound sheets exact, {alarms} false alarms");
    println!("{placed} of {faulty} faults found where they are, {echoes} echoes");
    assert_eq!(alarms, ALARMS, "a sound sheet gives no finding above a note");
    assert!(exact >= EXACT_AT_LEAST, "{exact} sheets exact, not {EXACT_AT_LEAST}");
    assert!(placed >= FOUND_AT_LEAST, "{placed} faults found, not {FOUND_AT_LEAST}");
}

fn hold(truth: &Truth, text: &str, name: &str) -> Found {
    for field in truth.value.as_object().expect("an object").keys() {
        assert!(KNOWN.contains(&field.as_str()), "{name}: nothing is known of the field {field}");
    }
    let report = halfcount::report(text, &halfcount::Options::default()).expect("a short sheet");
    let traced = halfcount::trace::trace(&report, text, name);
    let differs = held(truth, &traced).differs;
    let loud: Vec<_> = traced.findings.iter().filter(|f| f.severity != "note").collect();
    let placed = loud.iter().any(|f| truth.fault_section.is_none_or(|section| f.section == Some(section)));
    let say = |f: &&halfcount::trace::FindingTrace| format!("{} in line {}: {}", f.rule, f.line, f.message);
    Found { sound: truth.sound, differs, loud: loud.iter().map(say).collect(), placed }
}
