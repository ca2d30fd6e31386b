//! Writing a sheet over itself without ever having only one copy in hand.
//!
//! The new text goes to a file of its own first; the old text is kept as NAME.before (or NAME.before-2 and so on,
//! because an earlier one is somebody's copy as well); then the new file takes the name. Each step is on the disk
//! before the next one begins, so that the sheet survives a power cut between any two of them: the tests pull the
//! plug at every single one.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use super::{Failure, wrong};

/// Puts `text` in the place of the sheet `name`.
pub(crate) fn replace(name: &str, text: &str) -> Result<(), Failure> {
    // A link is followed, so that the file and not the link is replaced.
    let done = fs::canonicalize(name).and_then(|path| try_replace(&mut RealDisk, &path, text.as_bytes()));
    done.map_err(|error| Failure::Call(format!("{name}: not written: {}", wrong::plain(&error))))
}

/// What is asked of a disk. Nothing but these is done while a sheet is replaced.
trait Disk {
    /// Makes an empty file where there is none.
    fn create(&mut self, path: &Path) -> io::Result<()>;
    fn read(&mut self, path: &Path) -> io::Result<Vec<u8>>;
    /// Adds to the end of a file.
    fn append(&mut self, path: &Path, bytes: &[u8]) -> io::Result<()>;
    /// Comes back when the bytes of a file are on the disk.
    fn settle(&mut self, path: &Path) -> io::Result<()>;
    /// The same for the names in the folder of a file.
    fn settle_names(&mut self, path: &Path) -> io::Result<()>;
    /// Gives one file the permissions of another.
    fn permit(&mut self, path: &Path, like: &Path) -> io::Result<()>;
    /// Gives a file another name, in one go.
    fn rename(&mut self, from: &Path, to: &Path) -> io::Result<()>;
    fn remove(&mut self, path: &Path) -> io::Result<()>;
}

fn try_replace(disk: &mut impl Disk, path: &Path, text: &[u8]) -> io::Result<()> {
    let new = fresh(disk, path, "mending")?;
    let done = fill(disk, &new, text).and_then(|()| keep(disk, path)).and_then(|()| {
        disk.permit(&new, path)?;
        disk.rename(&new, path)
    });
    if done.is_err() {
        // The half-written file is of no use; the sheet itself was not touched.
        let _ = disk.remove(&new);
    }
    done?;
    disk.settle_names(path)
}

/// Keeps the old text beside the sheet.
fn keep(disk: &mut impl Disk, path: &Path) -> io::Result<()> {
    let old = disk.read(path)?;
    let kept = fresh(disk, path, "before")?;
    let done = fill(disk, &kept, &old).and_then(|()| disk.settle_names(path));
    if done.is_err() {
        let _ = disk.remove(&kept);
    }
    done
}

fn fill(disk: &mut impl Disk, path: &Path, bytes: &[u8]) -> io::Result<()> {
    disk.append(path, bytes)?;
    disk.settle(path)
}

/// A file beside the sheet that did not exist before.
fn fresh(disk: &mut impl Disk, path: &Path, ending: &str) -> io::Result<PathBuf> {
    for n in 1..1000 {
        let mut name = path.as_os_str().to_owned();
        name.push(if n == 1 { format!(".{ending}") } else { format!(".{ending}-{n}") });
        let candidate = PathBuf::from(name);
        match disk.create(&candidate) {
            Ok(()) => return Ok(candidate),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
            Err(error) => return Err(error),
        }
    }
    Err(io::Error::other("there are a thousand old copies beside it already"))
}

/// The disk of this machine.
struct RealDisk;

impl Disk for RealDisk {
    fn create(&mut self, path: &Path) -> io::Result<()> {
        OpenOptions::new().write(true).create_new(true).open(path).map(drop)
    }

    fn read(&mut self, path: &Path) -> io::Result<Vec<u8>> {
        fs::read(path)
    }

    fn append(&mut self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        OpenOptions::new().append(true).open(path)?.write_all(bytes)
    }

    fn settle(&mut self, path: &Path) -> io::Result<()> {
        OpenOptions::new().append(true).open(path)?.sync_all()
    }

    fn settle_names(&mut self, path: &Path) -> io::Result<()> {
        // Windows opens no folder as a file and keeps its names by itself.
        if cfg!(windows) {
            return Ok(());
        }
        File::open(path.parent().unwrap_or(Path::new(".")))?.sync_all()
    }

    fn permit(&mut self, path: &Path, like: &Path) -> io::Result<()> {
        fs::set_permissions(path, fs::metadata(like)?.permissions())
    }

    fn rename(&mut self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)
    }

    fn remove(&mut self, path: &Path) -> io::Result<()> {
        fs::remove_file(path)
    }
}

#[cfg(test)]
mod tests;
