//! A tidy sheet reads as the same dance, a mirrored one as the dance on the other foot, and tidying twice changes
//! nothing more.

use std::fs;
use std::path::Path;
use std::sync::OnceLock;

use halfcount::tidy::{TidyOptions, mirrored, tidy};
use halfcount::trace::{Trace, trace};
use halfcount::{Options, Report, report};

/// All sheets of the project with their names, and those of a folder named in `SHEETS`.
fn sheets() -> &'static [Held] {
    static SHEETS: OnceLock<Vec<Held>> = OnceLock::new();
    SHEETS.get_or_init(|| {
        let held = |(name, text): (String, String)| {
            let clean = clean(&text);
            Held { before: read(&text), name, text, clean }
        };
        texts().into_iter().map(held).collect()
    })
}

fn read_sheets() -> impl Iterator<Item = &'static Held> {
    sheets().iter().filter(|s| !UNSAID.contains(&s.name.as_str()) && !REWORDED.contains(&s.name.as_str()))
}

/// A sheet, what it says and how it looks tidy.
struct Held {
    name: String,
    text: String,
    before: Report,
    clean: String,
}

/// Sheets that read as the same dance after tidying, in other words each time: a turn is told with a gesture of the
/// body or the foot that stands beside a step.
const REWORDED: &[&str] = &["form-08.txt", "prose-11.txt"];

/// Sheets that come back as they were written, since no plain words say them: several steps on one count, a restart
/// whose changed steps are those that they change, a heel grind told twice, a heading of two names, a head in a
/// paragraph that speaks of a tag. Each of them
/// must come back so, so that the list shrinks.
const UNSAID: &[&str] = &["notes-71.txt", "prose-86.txt", "terse-101.txt", "terse-202.txt"];

fn clean(text: &str) -> String {
    tidy(text, &TidyOptions::default()).expect("a short sheet")
}

fn texts() -> Vec<(String, String)> {
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
    let dance = &report.dance;
    let ending = dance.ending.as_ref().map(|e| {
        let moves = dance.parts[e.part].sections.iter().flat_map(|s| &s.moves);
        let weights: Vec<_> = moves.map(|m| (m.at, m.who, m.after, m.turn)).collect();
        (e.wall, e.after_counts, e.stated, weights)
    });
    format!(
        "{title}\n{counts} {walls} {level} {start_foot:?} {beats_per_bar}\n{}\n{tags:#?}\n{restarts:#?}\n{ending:?}",
        of_sections.join("\n")
    )
}

#[test]
fn a_tidy_sheet_reads_as_the_same_dance() {
    let wrong: Vec<_> = sheets().iter().filter(|s| told(&s.before) != told(&read(&s.clean))).collect();
    let wrong: Vec<_> = wrong.iter().map(|s| s.name.as_str()).collect();
    assert_eq!(wrong, [""; 0]);
    let kept: Vec<_> = sheets().iter().filter(|s| s.clean == s.text).map(|s| s.name.as_str()).collect();
    assert_eq!(kept, UNSAID);
}

#[test]
fn tidying_twice_is_tidying_once() {
    let mut wrong = String::new();
    for sheet in read_sheets() {
        let twice = clean(&sheet.clean);
        if sheet.clean != twice {
            differ(&mut wrong, &sheet.name, &sheet.clean, &twice);
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

#[test]
fn a_mirrored_sheet_reads_as_the_dance_on_the_other_foot() {
    let mut mirror = TidyOptions::default();
    mirror.mirror = true;
    let mut wrong = String::new();
    for (index, sheet) in read_sheets().enumerate() {
        let other = tidy(&sheet.text, &mirror).expect("a short sheet");
        let mut before = sheet.before.clone();
        before.dance = mirrored(&before.dance);
        if told(&before) != told(&read(&other)) {
            wrong.push_str(&sheet.name);
            wrong.push('\n');
        }
        // Twice mirrored is the sheet itself; a third of the sheets will do.
        if index % 3 != 0 {
            continue;
        }
        let back = tidy(&other, &mirror).expect("a short sheet");
        if back != sheet.clean {
            differ(&mut wrong, &sheet.name, &back, &sheet.clean);
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

/// The first line that differs.
fn differ(out: &mut String, name: &str, a: &str, b: &str) {
    let (a, b) = a.lines().zip(b.lines()).find(|(a, b)| a != b).unwrap_or(("longer", "or shorter"));
    out.push_str(&[name, "\n    ", a, "\n    ", b, "\n"].concat());
}

/// A short section may be headed by its counts and a name that says what to do.
#[test]
fn a_short_section_under_a_name_that_tells_steps() {
    let text = "Trial\n12 counts, 1 wall, right foot\n\nSection 1 (1-8): Walks\n1-4 Walk R, L, R, touch L\n5-8 Walk back L, R, L, \
                touch R\n\nSection 2 (9-12): Sway twice\n9-12 Sway R, sway L, sway R, sway L\n";
    let tidy = clean(text);
    assert!(tidy.contains("SECTION 2 (9-12): Sway twice\n"), "{tidy}");
    assert_eq!(clean(&tidy), tidy);
}

#[test]
fn remarks_are_kept() {
    let sheet = "\
CRAB POT PARADE
16 counts, 2 walls, beginner. A dance for the harbour fair.
(allow walls-differ)

Section 1: walks
1-2 Walk R, walk L
Mind the wet boards here.
3&4 Shuffle fwd R
5-6 Rock L fwd, rec R (allow turn-differs)
7&8 L coaster step

Section 2: vine
1-4 Vine R, touch
5-8 Vine L with 1/4 L, brush R (9:00)

Bow to the band.
";
    let clean = clean(sheet);
    for kept in ["harbour fair", "(allow walls-differ)", "Mind the wet boards", "Bow to the band"] {
        assert!(clean.contains(kept), "{kept} is missing in\n{clean}");
    }
    let rock = clean.lines().find(|l| l.contains("(allow turn-differs)")).expect("the line's remark is kept");
    assert!(rock.contains("rock left forward"), "{rock}");
}
