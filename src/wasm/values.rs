//! What calls give back, in the units of JavaScript. The words are those of the command line's JSON.

use serde::Serialize;

use super::units::Units;
use crate::Report;
use crate::check::{Finding, Severity};
use crate::motion::FrameRow;
use crate::text::{LineIndex, Span};
use crate::trace::{UnreadTrace, unread};

#[derive(Serialize)]
pub(super) struct Checked<'a> {
    file: &'a str,
    title: &'a str,
    errors: usize,
    warnings: usize,
    notes: usize,
    findings: Vec<Found<'a>>,
    unread: Vec<UnreadTrace>,
}

#[derive(Serialize)]
struct Found<'a> {
    rule: &'a str,
    severity: &'static str,
    part: &'a str,
    section: Option<u32>,
    count: Option<String>,
    line: u32,
    column: u32,
    start: u32,
    end: u32,
    message: &'a str,
    fixes: Vec<Mend<'a>>,
    related: Vec<Place<'a>>,
}

#[derive(Serialize)]
struct Mend<'a> {
    title: &'a str,
    sureness: &'static str,
    edits: Vec<Change<'a>>,
}

#[derive(Serialize)]
struct Change<'a> {
    start: u32,
    end: u32,
    text: &'a str,
}

#[derive(Serialize)]
struct Place<'a> {
    start: u32,
    end: u32,
    label: &'a str,
}

/// A report with its places in UTF-16.
pub(super) fn checked<'a>(report: &'a Report, text: &str, file: &'a str) -> Checked<'a> {
    let lines = LineIndex::new(text);
    let units = Units::new(text);
    let places = |span: Span| (units.at(span.start), units.at(span.end));
    let one = |f: &'a Finding| {
        let (line, column) = lines.place(text, f.span.start);
        let (start, end) = places(f.span);
        let fixes = f.fixes.iter().map(|fix| Mend {
            title: &fix.title,
            sureness: fix.sureness.word(),
            edits: fix
                .edits
                .iter()
                .map(|e| {
                    let (start, end) = places(e.span);
                    Change { start, end, text: &e.text }
                })
                .collect(),
        });
        let related = f.related.iter().map(|r| {
            let (start, end) = places(r.span);
            Place { start, end, label: &r.label }
        });
        Found {
            rule: f.rule,
            severity: f.severity.word(),
            part: &f.part,
            section: f.section,
            count: f.at.map(|at| at.to_string()),
            line,
            column,
            start,
            end,
            message: &f.message,
            fixes: fixes.collect(),
            related: related.collect(),
        }
    };
    let severe = |severity| report.findings.iter().filter(|f| f.severity == severity).count();
    Checked {
        file,
        title: &report.dance.head.title,
        errors: severe(Severity::Error),
        warnings: severe(Severity::Warning),
        notes: severe(Severity::Note),
        findings: report.findings.iter().map(one).collect(),
        unread: unread(&report.unread, text),
    }
}

#[derive(Serialize)]
pub(super) struct Framed<'a> {
    pub(super) file: &'a str,
    pub(super) frames: Vec<FrameRow>,
}
