//! One thing said by many people: each file of `tests/wordings` holds a sheet with a hole, what the dance is, and the
//! wordings that were written for the hole by different hands. A plain wording stands first; its dance was worked out by
//! hand. Those that are still read otherwise have a list of their own, and leave it as soon as they are read.

use std::fs;
use std::path::Path;

use halfcount::check::Severity;
use halfcount::trace::{Trace, trace};
use halfcount::{Options, report};

/// What one file holds.
struct Slot {
    name: String,
    /// The sheet before and behind the hole.
    around: (String, String),
    /// The dance, as [`dance`] writes it.
    dance: String,
    read: Vec<String>,
    otherwise: Vec<String>,
}

impl Slot {
    fn of(path: &Path) -> Self {
        let text = fs::read_to_string(path).expect("a file of wordings");
        let name = path.file_stem().and_then(|s| s.to_str()).unwrap_or_default().to_owned();
        let mut parts = text.split("=====\n");
        let mut part = || parts.next().unwrap_or_default().to_owned();
        let (_, sheet, dance, read, otherwise) = (part(), part(), part(), part(), part());
        let (before, behind) = sheet.split_once("{{hole}}").expect("a hole");
        let wordings = |s: &str| -> Vec<String> {
            s.split("%%\n")
                .map(|w| w.trim_end_matches('\n').to_owned())
                .filter(|w| !w.trim().is_empty())
                .collect()
        };
        Self {
            around: (before.to_owned(), behind.trim_end().to_owned()),
            dance: dance.trim_end().to_owned(),
            read: wordings(&read),
            otherwise: wordings(&otherwise),
            name,
        }
    }

    /// What a wording makes of the sheet, and the findings above a note.
    fn with(&self, wording: &str) -> (String, Vec<&'static str>) {
        let text = format!("{}{wording}{}\n", self.around.0, self.around.1);
        let report = report(&text, &Options::default()).expect("a small sheet");
        let loud = report.findings.iter().filter(|f| f.severity != Severity::Note).map(|f| f.rule).collect();
        (dance(&trace(&report, &text, ""), self.dance.starts_with("in all")), loud)
    }
}

/// A dance in lines: its sections, or, where each writer divides it otherwise, all its weights in a row.
fn dance(t: &Trace, in_all: bool) -> String {
    let mut out: Vec<String> = Vec::new();
    if in_all {
        let mut before = 0;
        let mut row = String::from("in all");
        for s in &t.sections {
            for position in s.trace.split(' ') {
                let digits = position.len() - position.trim_start_matches(|c: char| c.is_ascii_digit()).len();
                let count =
                    position[..digits].parse::<u32>().map(|n| (n + before).to_string()).unwrap_or_default();
                row.push_str(&format!(" {count}{}", &position[digits..]));
            }
            before += s.counts;
        }
        out.push(row);
        out.extend(t.sections.last().map(|s| format!("ends facing {}", s.facing_end)));
    } else {
        out.extend(t.sections.iter().map(|s| format!("{}: {} to {}", s.counts, s.trace, s.facing_end)));
    }
    let clock = |c: &Option<String>| c.clone().unwrap_or_default();
    let tag = |g: &halfcount::trace::TagTrace| {
        format!("tag {}: {} from {} to {}", g.after_wall, g.trace, clock(&g.facing), clock(&g.facing_end))
    };
    let restart = |r: &halfcount::trace::RestartTrace| {
        let changed = r.changed_trace.as_ref().map(|c| format!(" with {c}")).unwrap_or_default();
        format!("restart {} after {}: {}{changed}", r.wall, r.after_counts, clock(&r.facing))
    };
    let mut tags: Vec<String> = t.tags.iter().map(tag).collect();
    tags.sort();
    let mut restarts: Vec<String> = t.restarts.iter().map(restart).collect();
    restarts.sort();
    out.append(&mut tags);
    out.append(&mut restarts);
    out.join("\n")
}

#[test]
fn many_wordings_of_one_thing_are_one_dance() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/wordings");
    let mut paths: Vec<_> =
        fs::read_dir(&folder).expect("the wordings").flatten().map(|e| e.path()).collect();
    paths.sort();
    assert!(paths.len() > 20, "the wordings are not there");
    let mut wrong = String::new();
    for slot in paths.iter().map(|p| Slot::of(p)) {
        for wording in &slot.read {
            let (got, loud) = slot.with(wording);
            if got != slot.dance || !loud.is_empty() {
                wrong.push_str(&format!("{}: misread\n{wording}\n{got}\n{loud:?}\n\n", slot.name));
            }
        }
        for wording in &slot.otherwise {
            if slot.with(wording) == (slot.dance.clone(), Vec::new()) {
                wrong.push_str(&format!(
                    "{}: now read, so put it into the upper list\n{wording}\n\n",
                    slot.name
                ));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}
