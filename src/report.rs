//! One door that does all: text in, dance and findings out.

use core::fmt;

use crate::body::Body;
use crate::check::{Finding, Fix, Severity, Sureness, Unread, check_kept, hidden};
use crate::dance::Dance;
use crate::read::{TroubleKind, understood_first};
use crate::text::{Edit, apply};

/// The longest text that is read, in bytes.
pub const LONGEST: usize = 1 << 20;

/// How to read and check.
#[derive(Debug, Clone, PartialEq, Default)]
#[non_exhaustive]
pub struct Options {
    /// Rules that are to say nothing.
    pub allow: Vec<String>,
    /// The body that dances, for what asks much of it.
    pub body: Body,
}

/// All that follows from one sheet.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Report {
    /// What is danced.
    pub dance: Dance,
    /// Findings in order of their place in the text.
    pub findings: Vec<Finding>,
    /// Words of step lines that were not understood.
    pub unread: Vec<Unread>,
    /// The body that the findings are about.
    pub body: Body,
}

/// Reads and checks one sheet.
///
/// # Errors
///
/// Only a text longer than [`LONGEST`] is refused; everything else is read as far as it can be.
pub fn report(text: &str, options: &Options) -> Result<Report, Error> {
    if text.len() > LONGEST {
        return Err(Error::TooLong { bytes: text.len() });
    }
    let plain = hidden(text);
    let mut kept = Vec::new();
    let (sheet, reading) = understood_first(&plain, &mut kept);
    let findings = check_kept(text, &sheet, &reading, &options.allow, &options.body, &kept);
    let unread = reading
        .troubles
        .iter()
        .filter(|t| t.kind == TroubleKind::Unread)
        .map(|t| Unread { span: t.span })
        .collect();
    Ok(Report { dance: reading.dance, findings, unread, body: options.body })
}

/// A sheet with its sure mends made.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Mended {
    /// The text after all mends.
    pub text: String,
    /// What was done, in the order in which it was done: the rule and the title of the mend.
    pub done: Vec<(&'static str, String)>,
}

/// Rounds of mending: one mend may make room for the next.
const ROUNDS: usize = 6;

/// Makes all mends of a sheet that are sure. By position, leaving out those that overlap; then the sheet is read
/// again, until nothing is left to do. Each mend was proven alone; where several at once leave more errors and
/// warnings than there were, only the first is made. The outcome never depends on the names of rules.
///
/// # Errors
///
/// As [`report`].
pub fn mended(text: &str, options: &Options) -> Result<Mended, Error> {
    let mut now = Mended { text: text.to_string(), done: Vec::new() };
    let mut found = report(text, options)?.findings;
    for _ in 0..ROUNDS {
        let mut fixes: Vec<(&'static str, &Fix)> = Vec::new();
        for f in &found {
            let Some(fix) = f.fixes.first().filter(|x| x.sureness == Sureness::Sure) else { continue };
            let meets = |a: &Edit, b: &Edit| a.span.start <= b.span.end && b.span.start <= a.span.end;
            let made = || fixes.iter().flat_map(|(_, x)| &x.edits);
            if !fix.edits.iter().any(|e| made().any(|d| meets(e, d))) {
                fixes.push((f.rule, fix));
            }
        }
        if fixes.is_empty() {
            break;
        }
        let made = |fixes: &[(&'static str, &Fix)]| {
            let edits: Vec<Edit> = fixes.iter().flat_map(|(_, x)| x.edits.iter().cloned()).collect();
            let text = apply(&now.text, &edits);
            report(&text, options).map(|report| (text, report.findings))
        };
        let (mut text, mut after) = made(&fixes)?;
        if fixes.len() > 1 && alarms(&after) > alarms(&found) {
            fixes.truncate(1);
            (text, after) = made(&fixes)?;
        }
        // Mends of notes may go in a circle; an alarm more than before is none.
        if alarms(&after) > alarms(&found) {
            break;
        }
        let done: Vec<_> = fixes.iter().map(|(rule, fix)| (*rule, fix.title.clone())).collect();
        now.done.extend(done);
        now.text = text;
        found = after;
    }
    Ok(now)
}

/// How many errors and warnings there are.
fn alarms(findings: &[Finding]) -> usize {
    findings.iter().filter(|f| f.severity > Severity::Note).count()
}

/// Why a call was refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Error {
    /// The text is longer than [`LONGEST`].
    TooLong {
        /// Its length in bytes.
        bytes: usize,
    },
    /// No plain words say the dance on the other foot.
    Unsayable,
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong { bytes } => write!(
                f,
                "the text is {bytes} bytes long and no sheet is longer than {LONGEST}; give each dance by itself"
            ),
            Self::Unsayable => f.write_str(
                "no words were found that read as this dance on the other foot, so nothing was written; \
                 see what `check` says of the sheet",
            ),
        }
    }
}

impl core::error::Error for Error {}
