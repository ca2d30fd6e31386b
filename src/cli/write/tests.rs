//! The plug is pulled at every step of replacing a sheet, and the sheet is still there.

use std::collections::BTreeMap;

use super::*;

const OLD: &[u8] = b"Quay Walk\n1-4 vine R\n";
const NEW: &[u8] = b"Quay Walk\n1-4 Vine right, touch left\n";

/// A file: what programs see of it, and what is on the disk.
#[derive(Debug, Clone, Default)]
struct Held {
    seen: Vec<u8>,
    settled: Vec<u8>,
}

/// A disk in memory that stops after so many steps, for good.
#[derive(Debug, Clone, Default)]
struct Falling {
    files: Vec<Held>,
    /// Names as programs see them, and as they are on the disk.
    names: BTreeMap<PathBuf, usize>,
    settled: BTreeMap<PathBuf, usize>,
    left: usize,
    taken: usize,
}

impl Falling {
    /// A disk with the old sheet, and copies of it from earlier.
    fn with(copies: usize, left: usize) -> Self {
        let mut disk = Self { left, ..Self::default() };
        let copy = |n| if n == 1 { "/quay.txt.before".into() } else { format!("/quay.txt.before-{n}") };
        let names = std::iter::once("/quay.txt".to_owned()).chain((1..=copies).map(copy));
        for name in names {
            disk.files.push(Held { seen: OLD.to_vec(), settled: OLD.to_vec() });
            disk.names.insert(name.into(), disk.files.len() - 1);
        }
        disk.settled = disk.names.clone();
        disk
    }

    fn step(&mut self) -> io::Result<()> {
        self.taken += 1;
        if self.taken > self.left { Err(io::Error::other("the power is gone")) } else { Ok(()) }
    }

    fn file(&mut self, path: &Path) -> io::Result<&mut Held> {
        let at = *self.names.get(path).ok_or(io::ErrorKind::NotFound)?;
        self.files.get_mut(at).ok_or_else(|| io::ErrorKind::NotFound.into())
    }

    /// All files by their names: after the program was killed, or after the machine lost its power. Then only what
    /// was settled is sure; of the names, those that were not settled may be on the disk or not.
    fn after(&self, power: bool, names: &BTreeMap<PathBuf, usize>) -> BTreeMap<PathBuf, Vec<u8>> {
        let bytes = |at: usize| {
            let held = &self.files[at];
            if power { held.settled.clone() } else { held.seen.clone() }
        };
        names.iter().map(|(name, at)| (name.clone(), bytes(*at))).collect()
    }
}

impl Disk for Falling {
    fn create(&mut self, path: &Path) -> io::Result<()> {
        self.step()?;
        if self.names.contains_key(path) {
            return Err(io::ErrorKind::AlreadyExists.into());
        }
        self.files.push(Held::default());
        self.names.insert(path.to_owned(), self.files.len() - 1);
        Ok(())
    }

    fn read(&mut self, path: &Path) -> io::Result<Vec<u8>> {
        self.step()?;
        Ok(self.file(path)?.seen.clone())
    }

    fn append(&mut self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        // Bytes arrive one after the other, so the plug can be pulled between any two of them.
        for byte in bytes {
            self.step()?;
            self.file(path)?.seen.push(*byte);
        }
        Ok(())
    }

    fn settle(&mut self, path: &Path) -> io::Result<()> {
        self.step()?;
        let held = self.file(path)?;
        held.settled.clone_from(&held.seen);
        Ok(())
    }

    fn settle_names(&mut self, _: &Path) -> io::Result<()> {
        self.step()?;
        self.settled.clone_from(&self.names);
        Ok(())
    }

    fn permit(&mut self, path: &Path, like: &Path) -> io::Result<()> {
        self.step()?;
        self.file(path)?;
        self.file(like).map(drop)
    }

    fn rename(&mut self, from: &Path, to: &Path) -> io::Result<()> {
        self.step()?;
        let at = self.names.remove(from).ok_or(io::ErrorKind::NotFound)?;
        self.names.insert(to.to_owned(), at);
        Ok(())
    }

    fn remove(&mut self, path: &Path) -> io::Result<()> {
        self.step()?;
        self.names.remove(path).map(drop).ok_or_else(|| io::ErrorKind::NotFound.into())
    }
}

#[test]
fn a_sheet_survives_whenever_the_plug_is_pulled() {
    let sheet = Path::new("/quay.txt");
    for copies in [0, 2] {
        let mut whole = Falling::with(copies, usize::MAX);
        try_replace(&mut whole, sheet, NEW).expect("nothing stops it");
        assert!(whole.taken > NEW.len() + OLD.len(), "every byte is a step");
        for steps in 0..=whole.taken {
            let mut disk = Falling::with(copies, steps);
            let done = try_replace(&mut disk, sheet, NEW);
            assert_eq!(done.is_ok(), steps >= whole.taken, "{steps} steps");
            for (power, names) in [(false, &disk.names), (true, &disk.names), (true, &disk.settled)] {
                let files = disk.after(power, names);
                let kept: Vec<_> = files.values().filter(|bytes| *bytes == OLD).collect();
                assert!(kept.len() > copies, "the old text is lost after {steps} steps: {files:?}");
                let now = files.get(sheet).map(Vec::as_slice);
                assert!(now == Some(OLD) || now == Some(NEW), "half a sheet after {steps} steps: {now:?}");
                if done.is_ok() {
                    assert_eq!(now, Some(NEW), "what was told to be written is written");
                }
            }
        }
    }
}

#[test]
fn a_full_disk_leaves_the_sheet_and_nothing_else() {
    /// A disk on which only removing still works after a number of steps.
    struct Full(Falling);
    impl Disk for Full {
        fn create(&mut self, path: &Path) -> io::Result<()> {
            self.0.create(path)
        }
        fn read(&mut self, path: &Path) -> io::Result<Vec<u8>> {
            self.0.read(path)
        }
        fn append(&mut self, path: &Path, bytes: &[u8]) -> io::Result<()> {
            self.0.append(path, bytes)
        }
        fn settle(&mut self, path: &Path) -> io::Result<()> {
            self.0.settle(path)
        }
        fn settle_names(&mut self, path: &Path) -> io::Result<()> {
            self.0.settle_names(path)
        }
        fn permit(&mut self, path: &Path, like: &Path) -> io::Result<()> {
            self.0.permit(path, like)
        }
        fn rename(&mut self, from: &Path, to: &Path) -> io::Result<()> {
            self.0.rename(from, to)
        }
        fn remove(&mut self, path: &Path) -> io::Result<()> {
            self.0.left = usize::MAX;
            self.0.remove(path)
        }
    }
    // Somewhere in the new text, and somewhere in the copy of the old one.
    for steps in [1 + NEW.len() / 2, NEW.len() + 4 + OLD.len() / 2] {
        let mut disk = Full(Falling::with(0, steps));
        try_replace(&mut disk, Path::new("/quay.txt"), NEW).expect_err("the disk is full");
        let files = disk.0.after(false, &disk.0.names);
        assert_eq!(files, BTreeMap::from([(PathBuf::from("/quay.txt"), OLD.to_vec())]), "{steps} steps");
    }
}
