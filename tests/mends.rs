//! The law of mends: what is offered removes its finding and brings none above a note.

mod measure;

use halfcount::check::{Finding, Severity};
use halfcount::text::apply;
use halfcount::{Options, report};
use rayon::prelude::*;

/// What stays the same of a finding when the text is changed elsewhere.
type Identity = (&'static str, String, Option<u32>, Option<i32>);

fn identity(f: &Finding) -> Identity {
    (f.rule, f.part.clone(), f.section, f.at.map(|t| t.0))
}

fn findings(text: &str) -> Vec<Finding> {
    report(text, &Options::default()).map(|r| r.findings).unwrap_or_default()
}

/// What is told above a note.
fn alarms(found: &[Finding]) -> Vec<&Finding> {
    found.iter().filter(|f| f.severity > Severity::Note).collect()
}

/// Every mend of a text that breaks the law, and how many were tried.
fn broken(name: &str, text: &str, wrong: &mut Vec<String>) -> usize {
    let mut tried = 0;
    let found = findings(text);
    let before = alarms(&found);
    for f in &found {
        let own = identity(f);
        for fix in &f.fixes {
            tried += 1;
            let then = findings(&apply(text, &fix.edits));
            let after = alarms(&then);
            let times = |all: &[&Finding], one: &Identity| all.iter().filter(|x| identity(x) == *one).count();
            let gone = f.severity == Severity::Note || times(&after, &own) < times(&before, &own);
            // A finding is told at the place of its best mend, which may be another one now.
            let told = |x: &Finding| before.iter().any(|b| b.rule == x.rule && b.message == x.message);
            let more = |x: &Finding| times(&after, &identity(x)) > times(&before, &identity(x));
            let new: Vec<_> = after.iter().filter(|x| more(x) && !told(x)).map(|x| identity(x)).collect();
            if !gone || !new.is_empty() {
                wrong.push(format!("{name}: {own:?} by “{}”: gone {gone}, new {new:?}", fix.title));
            }
        }
    }
    tried
}

#[test]
fn a_mend_removes_its_finding_and_brings_no_other() {
    let (mut wrong, mut tried) = (Vec::new(), 0);
    for (name, text) in measure::texts(&measure::own()) {
        tried += broken(&name, &text, &mut wrong);
    }
    assert!(tried > 40, "only {tried} mends were tried");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// One fault of each kind in every third sheet.
#[test]
fn a_mend_of_a_seeded_fault_brings_no_other() {
    let altered = measure::altered(&measure::own(), 3);
    let done: Vec<(usize, Vec<String>)> = altered
        .par_iter()
        .map(|(name, text)| {
            let mut wrong = Vec::new();
            (broken(name, text, &mut wrong), wrong)
        })
        .collect();
    let tried: usize = done.iter().map(|d| d.0).sum();
    let wrong: Vec<String> = done.into_iter().flat_map(|d| d.1).collect();
    assert!(tried > 300, "only {tried} mends were tried");
    assert!(wrong.is_empty(), "{} of {tried}\n{}", wrong.len(), wrong.join("\n"));
}

/// A scrap of a sheet on which a mend once brought another finding.
#[test]
fn a_mend_of_a_scrap_brings_no_other() {
    let mut wrong = Vec::new();
    let text = "6 1/4tog\n1-2 L  3-4 1/4f scuff L(9)\nRESTART wall5 6:00\n";
    broken("scrap", text, &mut wrong);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
