//! One door that does all: text in, dance and findings out.

use core::fmt;

use crate::check::{Finding, Unread, check, hidden};
use crate::dance::Dance;
use crate::figures::lexicon;
use crate::read::{TroubleKind, read};
use crate::sheet;

/// The longest text that is read, in bytes.
pub const LONGEST: usize = 1 << 20;

/// How to read and check.
#[derive(Debug, Clone, PartialEq, Default)]
#[non_exhaustive]
pub struct Options {
    /// Rules that are to say nothing.
    pub allow: Vec<String>,
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
    let sheet = sheet::parse(&plain, &lexicon().vocabulary);
    let reading = read(&plain, &sheet);
    let findings = check(text, &sheet, &reading, &options.allow);
    let unread = reading
        .troubles
        .iter()
        .filter(|t| t.kind == TroubleKind::Unread)
        .map(|t| Unread { span: t.span })
        .collect();
    Ok(Report { dance: reading.dance, findings, unread })
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
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong { bytes } => write!(
                f,
                "the text is {bytes} bytes long and no sheet is longer than {LONGEST}; give each dance by itself"
            ),
        }
    }
}

impl core::error::Error for Error {}
