//! How well sheets are read and how well faults are found, over folders of sheets with their truth.
//!
//! Sheets and truth enter, numbers leave; the same every time. `cargo xtask accuracy` prints them and
//! `tests/accuracy.rs` fails when one of them falls.
#![allow(dead_code, reason = "the test prints nothing and the command asserts nothing")]

mod faults;
mod song;
#[path = "../truth/mod.rs"]
mod truth;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use halfcount::check::{Finding, Severity};
use halfcount::dance::PartKind;
use halfcount::text::apply;
use halfcount::trace::{Trace, trace};
use halfcount::{Options, Report, report};
use rayon::prelude::*;

use faults::{Fault, Kind, seeded};
use truth::{Truth, held};

/// A share: so many of so many.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(crate) struct Share {
    /// What came out right.
    pub right: usize,
    /// Out of how many.
    pub of: usize,
}

impl Share {
    fn add(&mut self, right: bool) {
        self.right += usize::from(right);
        self.of += 1;
    }

    fn join(&mut self, other: Self) {
        self.right += other.right;
        self.of += other.of;
    }

    /// In thousandths, rounded down.
    pub(crate) fn thousandths(self) -> usize {
        (self.right * 1000).checked_div(self.of).unwrap_or(1000)
    }
}

/// How a manner of writing is read.
#[derive(Debug, Clone, Default)]
pub(crate) struct Manner {
    /// Lines of steps in which every word was understood.
    pub lines: Share,
    /// Sections of sound sheets with every weight and facing right.
    pub sections: Share,
    /// Sound sheets with everything right.
    pub sheets: Share,
    /// Findings above a note in sound sheets.
    pub alarms: usize,
    /// Faults of faulty sheets that were found in the right section.
    pub faults: Share,
}

impl Manner {
    fn join(&mut self, other: &Self) {
        self.lines.join(other.lines);
        self.sections.join(other.sections);
        self.sheets.join(other.sheets);
        self.alarms += other.alarms;
        self.faults.join(other.faults);
    }
}

/// How the faults of one kind were found.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Found {
    /// Any finding above a note.
    pub any: Share,
    /// One in the right section.
    pub section: Share,
    /// One at the right count, or the one next to it.
    pub count: Share,
    /// The first mend of that finding makes the sheet what it was.
    pub mended: Share,
}

impl Found {
    fn join(&mut self, other: &Self) {
        self.any.join(other.any);
        self.section.join(other.section);
        self.count.join(other.count);
        self.mended.join(other.mended);
    }
}

/// All that was measured.
#[derive(Debug, Default)]
pub(crate) struct Measured {
    /// By manner of writing.
    pub manners: BTreeMap<String, Manner>,
    /// By kind of fault.
    pub faults: BTreeMap<Kind, Found>,
    /// Sheets that are not right, with what differs.
    pub wrong: Vec<(String, Vec<String>)>,
    /// Seeded faults that were not found or not mended, with what was said instead.
    pub missed: Vec<Missed>,
}

/// A seeded fault that was not found at its count or not mended by the first mend.
#[derive(Debug, Clone)]
pub(crate) struct Missed {
    /// What was done and what was said.
    pub told: String,
    /// The altered sheet.
    pub text: String,
}

impl Measured {
    /// All manners together.
    pub(crate) fn all(&self) -> Manner {
        let mut all = Manner::default();
        self.manners.values().for_each(|m| all.join(m));
        all
    }

    /// All kinds of faults together.
    pub(crate) fn all_faults(&self) -> Found {
        let mut all = Found::default();
        self.faults.values().for_each(|f| all.join(f));
        all
    }
}

/// One sheet with its truth.
struct Sheet {
    name: String,
    text: String,
    truth: Truth,
}

fn sheets(folders: &[PathBuf]) -> Vec<Sheet> {
    let mut paths: Vec<PathBuf> = Vec::new();
    for folder in folders {
        let entries = fs::read_dir(folder).into_iter().flatten().flatten().map(|e| e.path());
        paths.extend(entries.filter(|p| p.extension().is_some_and(|e| e == "txt")));
    }
    paths.sort();
    let load = |path: PathBuf| {
        let truth = fs::read_to_string(path.with_extension("json")).ok()?;
        Some(Sheet {
            name: path.file_name()?.to_string_lossy().into_owned(),
            text: fs::read_to_string(&path).ok()?,
            truth: Truth::parse(&truth)?,
        })
    };
    paths.into_iter().filter_map(load).collect()
}

/// The manner of writing: the file's name up to its number.
fn manner(name: &str) -> String {
    name.split_once('-').map_or(name, |(manner, _)| manner).to_string()
}

fn loud(report: &Report) -> impl Iterator<Item = &Finding> {
    report.findings.iter().filter(|f| f.severity != Severity::Note)
}

fn read(text: &str) -> Option<(Report, Trace)> {
    let report = report(text, &Options::default()).ok()?;
    let traced = trace(&report, text, "");
    Some((report, traced))
}

/// At most so many places of each kind of fault are tried in each sheet.
const SITES: usize = 2;

/// Measures all sheets of some folders.
pub(crate) fn measure(folders: &[PathBuf]) -> Measured {
    let sheets = sheets(folders);
    let done: Vec<_> = sheets.par_iter().map(one).collect();
    let mut out = Measured::default();
    for (sheet, done) in sheets.iter().zip(done) {
        let Some((manner_of, differs, faults, missed)) = done else { continue };
        out.manners.entry(manner(&sheet.name)).or_default().join(&manner_of);
        if !differs.is_empty() {
            out.wrong.push((sheet.name.clone(), differs));
        }
        for (kind, found) in faults {
            out.faults.entry(kind).or_default().join(&found);
        }
        out.missed.extend(missed);
    }
    out
}

type One = (Manner, Vec<String>, BTreeMap<Kind, Found>, Vec<Missed>);

fn one(sheet: &Sheet) -> Option<One> {
    let (report, traced) = read(&sheet.text)?;
    let held = held(&sheet.truth, &traced);
    let mut m = Manner::default();
    lines(&sheet.text, &report, &mut m.lines);
    let (mut faults, mut missed) = (BTreeMap::new(), Vec::new());
    let mut differs = held.differs.clone();
    let alarms: Vec<_> = loud(&report).collect();
    if sheet.truth.sound {
        m.sections = Share { right: held.sections, of: sheet.truth.sections() };
        m.sheets.add(held.differs.is_empty());
        m.alarms = alarms.len();
        differs.extend(alarms.iter().map(|f| format!("{}: {}", f.rule, f.message)));
        if differs.is_empty() {
            (faults, missed) = seed(&sheet.name, &sheet.text, &report, &traced);
        }
    } else {
        let placed = alarms.iter().any(|f| sheet.truth.fault_section.is_none_or(|s| f.section == Some(s)));
        m.faults.add(placed);
        differs.clear();
        if !placed {
            let said: Vec<_> = alarms.iter().map(|f| format!("{} in {:?}", f.rule, f.section)).collect();
            differs.push(format!("fault in {:?} not found, but {said:?}", sheet.truth.fault_section));
        }
    }
    Some((m, differs, faults, missed))
}

/// Lines of steps, and those of them without words that were passed over.
fn lines(text: &str, report: &Report, share: &mut Share) {
    let mut at = 0_u32;
    let spans = report.dance.parts.iter().flat_map(|p| &p.sections).flat_map(|s| &s.moves).map(|m| m.span);
    let mut starts: Vec<u32> = spans.map(|s| s.start).collect();
    starts.sort_unstable();
    for line in text.split_inclusive('\n') {
        let end = at + u32::try_from(line.len()).unwrap_or(0);
        let inside = |start: u32| start >= at && start < end;
        let unread = report.unread.iter().any(|u| inside(u.span.start));
        if unread || starts.iter().any(|s| inside(*s)) {
            share.add(!unread);
        }
        at = end;
    }
}

/// Alters a sound sheet in every way of the list and looks at what is said.
fn seed(name: &str, text: &str, report: &Report, traced: &Trace) -> (BTreeMap<Kind, Found>, Vec<Missed>) {
    let mut out: BTreeMap<Kind, Found> = BTreeMap::new();
    let mut missed = Vec::new();
    for kind in Kind::ALL {
        let all = seeded(*kind, text, report);
        let n = all.len().min(SITES);
        for k in 0..n {
            // Evenly over the sheet.
            let fault = &all[(2 * k + 1) * all.len() / (2 * n)];
            let entry = out.entry(*kind).or_default();
            if let Some(told) = look(entry, text, fault, traced) {
                let told = format!("{name}, {}: {} {told}", kind.words(), fault.told);
                missed.push(Missed { told, text: apply(text, &fault.edits) });
            }
        }
    }
    (out, missed)
}

fn look(found: &mut Found, text: &str, fault: &Fault, before: &Trace) -> Option<String> {
    let altered = apply(text, &fault.edits);
    let (report, traced) = read(&altered)?;
    let all: Vec<_> = loud(&report).collect();
    // Sections are numbered through all parts of a phrased dance, each of which has a name of its own.
    let main = |name: &str| {
        report.dance.parts.iter().any(|p| p.kind == PartKind::Main && p.name == name) || name == "main"
    };
    let in_section = |f: &&&Finding| match fault.section {
        Some(section) => f.section == Some(section) && main(&f.part),
        None => true,
    };
    let there = all.iter().find(in_section);
    let near = |f: &&&Finding| match (fault.count, f.at) {
        (Some((first, last)), Some(at)) => (first..=last).contains(&at.count()),
        (None, _) => true,
        _ => false,
    };
    let at_count = all.iter().filter(in_section).find(near);
    found.any.add(!all.is_empty());
    found.section.add(there.is_some());
    found.count.add(at_count.is_some());
    let first = at_count.or(there).and_then(|f| f.fixes.first());
    let mended = first.is_some_and(|fix| {
        let again = apply(&altered, &fix.edits);
        read(&again).is_some_and(|(report, after)| {
            loud(&report).next().is_none() && (fault.words_lost || same(before, &after))
        })
    });
    found.mended.add(mended);
    if at_count.is_some() && mended {
        return None;
    }
    let said: Vec<String> = all
        .iter()
        .map(|f| {
            let at = f.at.map(|t| t.to_string()).unwrap_or_default();
            let fix = f.fixes.first().map_or("no mend", |f| f.title.as_str());
            format!("{} {}:{at} ({fix})", f.rule, f.section.unwrap_or(0))
        })
        .collect();
    let place = format!("{}:{}", fault.section.unwrap_or(0), fault.count.map_or(0, |(first, _)| first));
    Some(format!("at {place}, said {said:?}{}", beside(&altered, fault, before, &traced)))
}

/// The line with the fault, and how its section was read before and after, for a person.
fn beside(altered: &str, fault: &Fault, before: &Trace, after: &Trace) -> String {
    let mut out = String::new();
    if let Some(edit) = fault.edits.first() {
        let at = edit.span.start as usize;
        let from = altered[..at].rfind('\n').map_or(0, |n| n + 1);
        let to = altered[at..].find('\n').map_or(altered.len(), |n| at + n);
        out.push_str(&format!("\n      line   {}", &altered[from..to]));
    }
    let section = fault.section.and_then(|n| usize::try_from(n).ok()?.checked_sub(1));
    for (name, trace) in [("sound ", before), ("faulty", after)] {
        if let Some(s) = section.and_then(|n| trace.sections.get(n)) {
            out.push_str(&format!("\n      {name} {} | {} {}", s.trace, s.facing_end, s.weight_end));
        }
    }
    out
}

/// Whether two traces say the same of head, feet and facings.
fn same(a: &Trace, b: &Trace) -> bool {
    let sections = |t: &Trace| -> Vec<String> {
        t.sections
            .iter()
            .map(|s| format!("{} {} {}", truth::weights(&s.trace).join(" "), s.facing_end, s.weight_end))
            .collect()
    };
    (a.counts, a.walls) == (b.counts, b.walls)
        && sections(a) == sections(b)
        && a.restarts == b.restarts
        && a.tags == b.tags
}

/// The texts of a folder with their names.
pub(crate) fn texts(folder: &Path) -> Vec<(String, String)> {
    sheets(&[folder.to_path_buf()]).into_iter().map(|s| (s.name, s.text)).collect()
}

/// One fault of each kind in every so many sheets of a folder that are read without an alarm.
pub(crate) fn altered(folder: &Path, every: usize) -> Vec<(String, String)> {
    let mut out = Vec::new();
    for (name, text) in texts(folder).into_iter().step_by(every) {
        let Some((report, _)) = read(&text) else { continue };
        if loud(&report).next().is_some() {
            continue;
        }
        for kind in Kind::ALL {
            let all = seeded(*kind, &text, &report);
            if let Some(fault) = all.get(all.len() / 2) {
                out.push((format!("{name}, {}: {}", kind.words(), fault.told), apply(&text, &fault.edits)));
            }
        }
    }
    out
}

/// The folder of the project's own sheets.
pub(crate) fn own() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sheets")
}

fn percent(s: Share) -> String {
    if s.of == 0 {
        return "-".into();
    }
    let t = s.thousandths();
    format!("{}.{} % of {}", t / 10, t % 10, s.of)
}

/// The rows of the report: name, and the shares or numbers beside it.
pub(crate) fn rows(m: &Measured) -> Vec<(String, Vec<String>)> {
    let head =
        |name: &str, cells: &[&str]| (name.to_string(), cells.iter().map(ToString::to_string).collect());
    let mut out = vec![head(
        "manner",
        &["lines whole", "sections exact", "sheets exact", "false alarms", "faults placed"],
    )];
    let all = m.all();
    for (name, x) in m.manners.iter().map(|(n, x)| (n.as_str(), x)).chain([("all sheets", &all)]) {
        let alarms = x.alarms.to_string();
        let cells = [percent(x.lines), percent(x.sections), percent(x.sheets), alarms, percent(x.faults)];
        out.push((name.to_string(), cells.to_vec()));
    }
    out.push(head("", &[]));
    out.push(head("seeded fault", &["found", "right section", "right count", "first mend right"]));
    let all = m.all_faults();
    for (name, x) in m.faults.iter().map(|(k, x)| (k.words(), x)).chain([("all faults", &all)]) {
        let cells = [percent(x.any), percent(x.section), percent(x.count), percent(x.mended)];
        out.push((name.to_string(), cells.to_vec()));
    }
    out
}

/// The report for a person; `every` adds each miss.
pub(crate) fn print(m: &Measured, every: bool) -> String {
    let mut out = String::new();
    for (name, cells) in rows(m) {
        let mut line = format!("{name:<20}");
        for cell in cells {
            line.push_str(&cell);
            line.push_str(&" ".repeat(17_usize.saturating_sub(cell.len())));
        }
        out.push_str(line.trim_end());
        out.push('\n');
    }
    if every {
        for (name, differs) in &m.wrong {
            out.extend(["\n", name, "\n"]);
            for d in differs {
                out.extend(["    ", d, "\n"]);
            }
        }
        out.push('\n');
        for (n, d) in m.missed.iter().enumerate() {
            out.push_str(&format!("{n:03} {}\n", d.told));
        }
    }
    out
}
