//! Where answers go: standard output, or a file that is made when the first word is written to it.

use std::fs::{self, File};
use std::io::{self, BufWriter, IsTerminal as _, Write};
use std::path::{Path, PathBuf};

use super::{Failure, OutArgs, wrong};

/// A place for answers.
pub(crate) struct Out {
    file: Option<PathBuf>,
    writer: Option<Box<dyn Write>>,
}

impl Out {
    /// The place that was asked for. It may not be one of the sheets, so that no sheet is lost.
    pub(crate) fn open(args: &OutArgs, sheets: &[PathBuf]) -> Result<Self, Failure> {
        if let Some(file) = &args.file {
            let same = |sheet: &PathBuf| matches!((fs::canonicalize(sheet), fs::canonicalize(file)), (Ok(a), Ok(b)) if a == b);
            if sheets.iter().any(same) {
                return Err(Failure::Call(format!(
                    "{}: this is the sheet itself; give --out another name",
                    file.display()
                )));
            }
            if file.is_dir() {
                return Err(Failure::Call(format!(
                    "{}: --out needs a file and this is a folder",
                    file.display()
                )));
            }
        }
        Ok(Self { file: args.file.clone(), writer: None })
    }

    /// Whether colours are welcome: a terminal, and nobody said no.
    pub(crate) fn colours(&self) -> bool {
        let said = |name: &str| std::env::var_os(name).is_some_and(|v| !v.is_empty());
        let dumb = std::env::var_os("TERM").is_some_and(|t| t == "dumb");
        self.file.is_none() && io::stdout().is_terminal() && !said("NO_COLOR") && !dumb
    }

    /// Whether a person looks at the answer.
    pub(crate) fn is_terminal(&self) -> bool {
        self.file.is_none() && io::stdout().is_terminal()
    }

    /// Writes some of the answer.
    pub(crate) fn put(&mut self, text: &str) -> Result<(), Failure> {
        self.put_bytes(text.as_bytes())
    }

    /// The same for what is no text.
    pub(crate) fn put_bytes(&mut self, bytes: &[u8]) -> Result<(), Failure> {
        let file = self.file.clone();
        let writer = match &mut self.writer {
            Some(writer) => writer,
            empty => empty.insert(start(file.as_deref())?),
        };
        Ok(writer.write_all(bytes)?)
    }

    /// Sees to it that all of the answer has arrived.
    pub(crate) fn close(mut self) -> Result<(), Failure> {
        match &mut self.writer {
            Some(writer) => Ok(writer.flush()?),
            None => Ok(()),
        }
    }
}

fn start(file: Option<&Path>) -> Result<Box<dyn Write>, Failure> {
    let Some(file) = file else {
        return Ok(Box::new(BufWriter::new(io::stdout().lock())));
    };
    match File::create(file) {
        Ok(made) => Ok(Box::new(BufWriter::new(made))),
        Err(error) => Err(Failure::Call(format!("{}: {}", file.display(), wrong::plain(&error)))),
    }
}
