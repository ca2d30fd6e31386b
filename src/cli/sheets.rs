//! From the arguments to the texts of sheets: folders, standard input, old encodings, and what goes wrong.
//!
//! A sheet that cannot be read costs one line on standard error and the exit status; the others are answered
//! all the same, in the order given.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use encoding_rs::{Encoding, WINDOWS_1252};
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use rayon::prelude::*;

use super::{Failure, say, wrong};

/// Endings of the names that make a file in a folder a sheet.
const SHEET_ENDINGS: [&str; 3] = ["txt", "md", "text"];

/// Sheets that are read before the first of them is answered: enough to keep every core at work, and few
/// enough that the answers of a large collection need little memory.
const AT_ONCE: usize = 256;

/// One sheet's text and what it is called.
#[derive(Debug)]
pub(crate) struct Sheet {
    /// The name as given, `-` for standard input.
    pub(crate) name: String,
    /// The text.
    pub(crate) text: String,
    /// What was done to read it, where it was not UTF-8.
    note: Option<String>,
}

impl Sheet {
    /// A sheet of this name with another text.
    pub(crate) fn of(name: &str, text: &str) -> Self {
        Self { name: name.to_owned(), text: text.to_owned(), note: None }
    }
}

/// Does `work` on every sheet in parallel and hands the results to `then` in the order given. Gives whether
/// every sheet could be read.
pub(crate) fn each<T: Send>(
    given: &[PathBuf],
    work: impl Fn(&Sheet) -> Result<T, String> + Sync,
    mut then: impl FnMut(T) -> Result<(), Failure>,
) -> Result<bool, Failure> {
    if given.iter().filter(|path| is_standard_input(path)).count() > 1 {
        return Err(Failure::Call("standard input (-) can be read only once".to_owned()));
    }
    let found = gather(given);
    let bar = progress(found.len());
    let mut all_read = true;
    for some in found.chunks(AT_ONCE) {
        let one = |source: &Result<PathBuf, String>| {
            let sheet = source.clone().and_then(|path| load(&path));
            let answer = sheet.and_then(|sheet| {
                let answer = work(&sheet).map_err(|why| format!("{}: {why}", shown(&sheet.name)))?;
                Ok((answer, sheet.note))
            });
            bar.inc(1);
            answer
        };
        let answers: Vec<Result<(T, Option<String>), String>> = some.par_iter().map(one).collect();
        bar.suspend(|| {
            for answer in answers {
                match answer {
                    Ok((answer, note)) => {
                        if let Some(note) = note {
                            say(&note);
                        }
                        then(answer)?;
                    }
                    Err(sentence) => {
                        all_read = false;
                        say(&sentence);
                    }
                }
            }
            Ok::<(), Failure>(())
        })?;
    }
    bar.finish_and_clear();
    Ok(all_read)
}

/// A bar on standard error where that is a terminal and there is more than one sheet to wait for.
fn progress(sheets: usize) -> ProgressBar {
    if sheets < 2 {
        return ProgressBar::hidden();
    }
    let bar = ProgressBar::with_draw_target(Some(sheets as u64), ProgressDrawTarget::stderr());
    if let Ok(style) = ProgressStyle::with_template("{bar:32} {pos} of {len} sheets") {
        bar.set_style(style);
    }
    bar
}

fn is_standard_input(path: &Path) -> bool {
    path.as_os_str() == "-"
}

fn shown(name: &str) -> &str {
    if name == "-" { "standard input" } else { name }
}

/// The files that the arguments stand for, or a sentence about what is wrong with one, in the order given.
fn gather(given: &[PathBuf]) -> Vec<Result<PathBuf, String>> {
    let mut found = Vec::new();
    for path in given {
        if is_standard_input(path) || !path.is_dir() {
            found.push(Ok(path.clone()));
            continue;
        }
        let before = found.len();
        walk(path, &mut found);
        if found.len() == before {
            found.push(Err(format!(
                "{}: there is no sheet in this folder; sheets end in .txt, .md or .text",
                path.display()
            )));
        }
    }
    found
}

/// All sheets under a folder, sorted by path. Hidden folders and links to folders are left out, so that a
/// link in a circle does no harm.
fn walk(top: &Path, found: &mut Vec<Result<PathBuf, String>>) {
    let mut sheets = Vec::new();
    let mut folders = vec![top.to_path_buf()];
    while let Some(folder) = folders.pop() {
        let entries = match fs::read_dir(&folder) {
            Ok(entries) => entries,
            Err(error) => {
                found.push(Err(format!("{}: {}", folder.display(), wrong::plain(&error))));
                continue;
            }
        };
        for entry in entries.flatten() {
            let path = entry.path();
            let hidden = entry.file_name().to_string_lossy().starts_with('.');
            let is_folder = entry.file_type().is_ok_and(|kind| kind.is_dir());
            if hidden {
                continue;
            }
            if is_folder {
                folders.push(path);
            } else if path.is_file() && is_sheet(&path) {
                sheets.push(path);
            }
        }
    }
    sheets.sort_by(|a, b| a.as_os_str().cmp(b.as_os_str()));
    found.extend(sheets.into_iter().map(Ok));
}

fn is_sheet(path: &Path) -> bool {
    let ending = path.extension().map(|e| e.to_string_lossy().to_lowercase());
    ending.is_some_and(|e| SHEET_ENDINGS.contains(&e.as_str()))
}

/// Reads one sheet, or says in a sentence why not.
fn load(path: &Path) -> Result<Sheet, String> {
    let name = path.to_string_lossy().into_owned();
    let wrong = |error: &io::Error| format!("{}: {}", shown(&name), wrong::plain(error));
    // One byte more than is allowed is enough to know that a file is too long, however long it is.
    let limit = halfcount::LONGEST as u64 + 1;
    let mut bytes = Vec::new();
    let read = if is_standard_input(path) {
        io::stdin().lock().take(limit).read_to_end(&mut bytes)
    } else {
        File::open(path).and_then(|file| file.take(limit).read_to_end(&mut bytes))
    };
    read.map_err(|error| wrong(&error))?;
    let (text, encoding) = decode(bytes);
    if text.len() > halfcount::LONGEST {
        let shown = shown(&name);
        return Err(format!("{shown}: over 1 MiB, and no sheet is that long; give each dance by itself"));
    }
    if text.chars().all(|c| c.is_whitespace() || c == '\u{feff}') {
        return Err(format!("{}: the file is empty, so there is nothing to dance", shown(&name)));
    }
    let note = encoding.map(|encoding| {
        format!("{}: not UTF-8, read as {encoding}; save it as UTF-8 to be sure of every sign", shown(&name))
    });
    Ok(Sheet { name, text, note })
}

/// The text of some bytes, and the name of their encoding where it is not UTF-8. A mark at the beginning
/// tells UTF-16; everything else that is not UTF-8 is most likely Windows-1252, which has no invalid bytes.
fn decode(bytes: Vec<u8>) -> (String, Option<&'static str>) {
    let bytes = match String::from_utf8(bytes) {
        Ok(text) => return (text, None),
        Err(error) => error.into_bytes(),
    };
    let encoding = Encoding::for_bom(&bytes).map_or(WINDOWS_1252, |(encoding, _)| encoding);
    let encoding = if encoding == encoding_rs::UTF_8 { WINDOWS_1252 } else { encoding };
    let (text, used, _) = encoding.decode(&bytes);
    let name = if used == WINDOWS_1252 { "Windows-1252" } else { used.name() };
    (text.into_owned(), Some(name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(bytes: &[u8], text: &str, encoding: Option<&str>) {
        assert_eq!(decode(bytes.to_vec()), (text.to_owned(), encoding));
    }

    #[test]
    fn old_encodings_are_read() {
        check("Chassé ½".as_bytes(), "Chassé ½", None);
        check(b"Chass\xe9 \xbd \x96 R", "Chassé ½ – R", Some("Windows-1252"));
        check(b"\xff\xfe1\0 \0R\0\xbd\0", "1 R½", Some("UTF-16LE"));
    }

    #[test]
    fn names_of_sheets_end_in_a_few_ways() {
        for (name, sheet) in [
            ("a.txt", true),
            ("a.TXT", true),
            ("a.md", true),
            ("a.text", true),
            ("a.json", false),
            ("txt", false),
        ] {
            assert_eq!(is_sheet(Path::new(name)), sheet, "{name}");
        }
    }
}
