//! The pages of the rules are their tests: each sheet has the findings that stand under it, and mended it has
//! none of this rule.

use std::fs;
use std::path::Path;

use halfcount::check::{Finding, Severity, rules};
use halfcount::text::apply;
use halfcount::{Options, report};

/// Fenced blocks of a page: what they are, and their text.
fn blocks(page: &str) -> Vec<(&str, String)> {
    let mut out: Vec<(&str, String)> = Vec::new();
    let mut open = false;
    for line in page.lines() {
        if let Some(kind) = line.strip_prefix("```") {
            if !open {
                out.push((kind, String::new()));
            }
            open = !open;
        } else if open && let Some(last) = out.last_mut() {
            last.1.push_str(line);
            last.1.push('\n');
        }
    }
    out
}

fn line(f: &Finding) -> String {
    let mut place = Vec::new();
    if f.part != "main" {
        place.push(f.part.clone());
    }
    place.extend(f.section.map(|n| format!("section {n}")));
    place.extend(f.at.map(|at| format!("count {at}")));
    let place = if place.is_empty() { String::new() } else { format!(" ({})", place.join(", ")) };
    format!("{} {}{place}: {}\n", f.severity.word(), f.rule, f.message)
}

fn findings(sheet: &str) -> Vec<Finding> {
    report(sheet, &Options::default()).expect("a short sheet is read").findings
}

/// What a body finds hard: a consequence of a fault more often than not, and told as a note.
const OF_THE_BODY: &[&str] = &["feet-overlap", "hips-turned", "legs-crossed", "moves-far"];

/// The findings for the page of a rule, with the notes of the body on their own pages only.
fn findings_for(rule: &str, sheet: &str) -> Vec<Finding> {
    let mut found = findings(sheet);
    found.retain(|f| f.rule == rule || f.severity > Severity::Note || !OF_THE_BODY.contains(&f.rule));
    found
}

#[test]
fn every_sheet_of_every_page_has_its_findings() {
    let mut wrong = Vec::new();
    for rule in rules() {
        let all = blocks(rule.page);
        let mut spoke = 0;
        let mut silent = 0;
        let mut sheet = String::new();
        for (i, (kind, text)) in all.iter().enumerate() {
            match *kind {
                "sheet" => {
                    sheet.clone_from(text);
                    let expected = all.get(i + 1).filter(|b| b.0 == "findings").map_or("", |b| b.1.as_str());
                    let got: String = findings_for(rule.name, &sheet).iter().map(line).collect();
                    if got != expected {
                        wrong.push(format!("{}: sheet {i}\n{got}instead of\n{expected}", rule.name));
                    }
                    if expected.contains(rule.name) { spoke += 1 } else { silent += 1 }
                }
                "mended" => {
                    let found = findings(&sheet);
                    let own = found.iter().find(|f| f.rule == rule.name);
                    let fix = own.and_then(|f| f.fixes.first());
                    let got = fix.map_or(String::new(), |x| apply(&sheet, &x.edits));
                    if got != *text {
                        wrong.push(format!("{}: mended\n{got}instead of\n{text}", rule.name));
                    }
                    if findings(&got).iter().any(|f| f.rule == rule.name && f.severity > Severity::Note) {
                        wrong.push(format!("{}: the mend does not help", rule.name));
                    }
                }
                _ => {}
            }
        }
        if spoke == 0 || silent == 0 {
            wrong.push(format!("{}: speaks in {spoke} sheets, is silent in {silent}", rule.name));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

#[test]
fn rules_have_names_of_their_own() {
    let mut names: Vec<&str> = rules().iter().map(|r| r.name).collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), rules().len());
    for rule in rules() {
        assert!(rule.page.starts_with(&format!("# {}\n", rule.name)), "{}", rule.name);
        assert!(rule.name.chars().all(|c| c.is_ascii_lowercase() || c == '-'), "{}", rule.name);
    }
}

/// A fix removes its finding, adds no error or warning, and its edits are sorted and apart.
#[test]
fn every_mend_of_every_sheet_helps() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sheets");
    let mut paths: Vec<_> =
        fs::read_dir(folder).expect("there are sheets").flatten().map(|e| e.path()).collect();
    paths.retain(|p| p.extension().is_some_and(|e| e == "txt"));
    paths.sort();
    let mut mends = 0;
    for path in paths {
        let text = String::from_utf8_lossy(&fs::read(&path).expect("a sheet")).into_owned();
        let before = findings(&text);
        let alarm = |f: &&Finding| f.severity > Severity::Note;
        for f in &before {
            assert!(text.get(f.span.range()).is_some(), "{}: the span of {}", path.display(), f.rule);
            for fix in &f.fixes {
                mends += 1;
                assert!(fix.edits.windows(2).all(|w| w[0].span.end <= w[1].span.start), "{}", path.display());
                let after = findings(&apply(&text, &fix.edits));
                let same = |x: &&Finding| (x.rule, x.section, x.at) == (f.rule, f.section, f.at);
                let gone = !after.iter().filter(alarm).any(|x| same(&x));
                assert!(gone, "{}: {} by {}", path.display(), f.rule, fix.title);
            }
        }
    }
    assert!(mends > 0);
}
