//! The practice sheets in `tests/sheets` against what each of them truly says, worked out by hand.
//!
//! `cargo xtask accuracy` shows what differs, sheet by sheet.
#![allow(clippy::print_stdout, reason = "the differences are read by a person")]

use std::fs;
use std::path::Path;

use serde_json::Value;

/// Sound sheets that must be read exactly, of all that are there. Raise it with every step forward.
const EXACT_AT_LEAST: usize = 165;
/// Faulty sheets whose fault must be found where it is.
const FOUND_AT_LEAST: usize = 45;
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
struct Held {
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
        let truth: Value = serde_json::from_str(&truth).expect("a truth file is JSON");
        let name = truth["file"].as_str().expect("a truth file names its sheet");
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

fn hold(truth: &Value, text: &str, name: &str) -> Held {
    for field in truth.as_object().expect("an object").keys() {
        assert!(KNOWN.contains(&field.as_str()), "{name}: nothing is known of the field {field}");
    }
    let report = halfcount::report(text, &halfcount::Options::default()).expect("a short sheet");
    let traced = halfcount::trace::trace(&report, text, name);
    let told = serde_json::to_value(&traced).expect("a plain value");
    let sound = truth["valid"] == true;
    let mut differs = Vec::new();

    for field in ["counts", "walls", "start_foot", "beats_per_bar"] {
        same(&mut differs, field, &told[field], &truth[field]);
    }
    let sections = [list(&told["sections"]), list(&truth["sections"])];
    if sections[0].len() != sections[1].len() {
        differs.push(format!("{} sections, not {}", sections[0].len(), sections[1].len()));
    }
    for (index, (told, truth)) in sections[0].iter().zip(sections[1]).enumerate() {
        let place = format!("section {}", index + 1);
        entry(&mut differs, &place, told, truth, &["counts", "trace", "facing_end", "weight_end"]);
    }
    for (kind, key, fields) in [
        ("tags", "after_wall", &["counts", "trace", "facing", "facing_end", "weight_end"][..]),
        ("restarts", "wall", &["after_counts", "facing", "changed_trace"][..]),
    ] {
        for truth in list(&truth[kind]) {
            let place = format!("{kind} at wall {}", truth[key]);
            match list(&told[kind]).iter().find(|told| told[key] == truth[key]) {
                Some(told) => entry(&mut differs, &place, told, truth, fields),
                None => differs.push(format!("{place}: missing")),
            }
        }
        if list(&told[kind]).len() != list(&truth[kind]).len() {
            differs.push(format!("{} {kind}, not {}", list(&told[kind]).len(), list(&truth[kind]).len()));
        }
    }

    let loud: Vec<_> = traced.findings.iter().filter(|f| f.severity != "note").collect();
    let place = truth["fault"]["where"].as_str().unwrap_or_default();
    let section = place
        .split_once("section ")
        .map(|(_, after)| after.chars().take_while(char::is_ascii_digit).collect::<String>());
    let placed = loud.iter().any(|f| match &section {
        Some(section) => f.section.is_some_and(|s| s.to_string() == *section),
        None => true,
    });
    let say = |f: &&halfcount::trace::FindingTrace| format!("{} in line {}: {}", f.rule, f.line, f.message);
    Held { sound, differs, loud: loud.iter().map(say).collect(), placed }
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

/// Compares the fields that the truth knows.
fn entry(differs: &mut Vec<String>, place: &str, told: &Value, truth: &Value, fields: &[&str]) {
    for field in fields.iter().filter(|field| !truth[**field].is_null()) {
        let place = format!("{place}, {field}");
        if field.ends_with("trace") {
            let [told, truth] = [told, truth].map(|t| t[*field].as_str().unwrap_or_default());
            if weights(told) != weights(truth) {
                differs.push(format!("{place}: {told}, not {truth}"));
            }
        } else {
            same(differs, &place, &told[*field], &truth[*field]);
        }
    }
}

fn same(differs: &mut Vec<String>, place: &str, told: &Value, truth: &Value) {
    if told != truth {
        differs.push(format!("{place}: {told}, not {truth}"));
    }
}

/// Only positions that take weight count; the others may be written or left out.
fn weights(trace: &str) -> Vec<String> {
    let mut count = String::from("0");
    let mut out = Vec::new();
    for word in trace.split_whitespace() {
        let (position, foot) = word.split_at(word.len() - 1);
        let sign = position.trim_start_matches(|c: char| c.is_ascii_digit());
        if sign.len() < position.len() {
            position[..position.len() - sign.len()].clone_into(&mut count);
        }
        if foot != "-" {
            out.push(format!("{count}{sign}{foot}"));
        }
    }
    out
}
