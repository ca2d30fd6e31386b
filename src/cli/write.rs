//! Writing a sheet over itself without ever having only one copy in hand.
//!
//! The new text goes to a file of its own first; the old text is kept as NAME.before (or NAME.before-2 and so on,
//! because an earlier one is somebody's copy as well); then the new file takes the name.

use std::fs::{self, OpenOptions};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use super::{Failure, wrong};

/// Puts `text` in the place of the sheet `name`.
pub(crate) fn replace(name: &str, text: &str) -> Result<(), Failure> {
    let path = Path::new(name);
    try_replace(path, text)
        .map_err(|error| Failure::Call(format!("{name}: not written: {}", wrong::plain(&error))))
}

fn try_replace(path: &Path, text: &str) -> io::Result<()> {
    // A link is followed, so that the file and not the link is replaced.
    let path = fs::canonicalize(path)?;
    let (new, mut file) = fresh(&path, "mending")?;
    let written = file.write_all(text.as_bytes()).and_then(|()| file.sync_all());
    drop(file);
    let kept = written.and_then(|()| keep(&path)).and_then(|()| {
        fs::set_permissions(&new, fs::metadata(&path)?.permissions())?;
        fs::rename(&new, &path)
    });
    if kept.is_err() {
        // The half-written file is of no use; the sheet itself was not touched.
        let _ = fs::remove_file(&new);
    }
    kept
}

/// Keeps the old text beside the sheet.
fn keep(path: &Path) -> io::Result<()> {
    let old = fs::read(path)?;
    let (_, mut file) = fresh(path, "before")?;
    file.write_all(&old)?;
    file.sync_all()
}

/// A file beside the sheet that did not exist before.
fn fresh(path: &Path, ending: &str) -> io::Result<(PathBuf, fs::File)> {
    for n in 1..1000 {
        let mut name = path.as_os_str().to_owned();
        name.push(if n == 1 { format!(".{ending}") } else { format!(".{ending}-{n}") });
        let candidate = PathBuf::from(name);
        match OpenOptions::new().write(true).create_new(true).open(&candidate) {
            Ok(file) => return Ok((candidate, file)),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
            Err(error) => return Err(error),
        }
    }
    Err(io::Error::other("there are a thousand old copies beside it already"))
}
