//! Click tracks and captions, read back by programs that know nothing of this one.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::{env, fs};

/// Reads MIDI files, from the Python package registry.
const MIDI: &str = "mido==1.3.3";
/// A strict reader of captions, from the JavaScript package registry.
const CAPTIONS: &str = "webvtt-parser@2.2.0";

fn run(root: &Path, program: &Path, words: &[&str]) -> Result<(), String> {
    let status = Command::new(program).args(words).current_dir(root).stdin(Stdio::null()).status();
    match status {
        Ok(status) if status.success() => Ok(()),
        Ok(_) => Err(format!("{} {} failed", program.display(), words.join(" "))),
        Err(error) => Err(format!("{} could not be started: {error}", program.display())),
    }
}

/// The folder with both readers, filled once.
fn readers(root: &Path) -> Result<(PathBuf, PathBuf), String> {
    let folder = root.join("target/outside");
    let python = folder.join(if cfg!(windows) { "Scripts/python.exe" } else { "bin/python" });
    let mark = folder.join("installed.txt");
    let wanted = format!("{MIDI}\n{CAPTIONS}");
    if fs::read_to_string(&mark).is_ok_and(|there| there == wanted) {
        println!("\n== outside readers: {MIDI}, {CAPTIONS} are there");
        return Ok((folder, python));
    }
    println!("\n== outside readers: installing {MIDI}, {CAPTIONS} under target");
    let place = folder.display().to_string();
    run(root, Path::new("python3"), &["-m", "venv", &place])
        .map_err(|_| "the outside readers need Python 3 with its venv module".to_owned())?;
    run(root, &python, &["-m", "pip", "install", "--quiet", "--disable-pip-version-check", MIDI])?;
    let npm = if cfg!(windows) { "npm.cmd" } else { "npm" };
    let words = ["install", "--silent", "--no-audit", "--no-fund", "--no-save", "--prefix", &place, CAPTIONS];
    run(root, Path::new(npm), &words).map_err(|_| "the outside readers need Node with npm".to_owned())?;
    fs::write(&mark, wanted).map_err(|error| format!("{}: {error}", mark.display()))?;
    Ok((folder, python))
}

/// A sheet, its tempo, its length in counts and in seconds.
const SONGS: [(&str, &str, u32, f64); 5] = [
    // Four minutes at tempi of which some are no whole number of microseconds a count.
    ("www/demo/lantern-on-pier-five.txt", "110", 440, 240.0),
    ("www/demo/ropewalk-reckoning.txt", "130", 520, 240.0),
    ("www/demo/tidewatchers-waltz.txt", "96", 384, 240.0),
    ("xtask/outside/ropewalk-odd.txt", "128", 512, 240.0),
    // 120 counts at 120, 60 at 100, 120 at 90: 60 + 36 + 80 seconds.
    ("www/demo/lantern-on-pier-five.txt", "120,100@121,90@181", 300, 176.0),
];

/// Counts before the first step in each of the songs.
const INTROS: [u32; 5] = [16, 32, 24, 8, 16];

/// Writes clicks and captions of some songs and has them read.
pub(crate) fn outside(root: &Path) -> Result<(), String> {
    let (folder, python) = readers(root)?;
    let program = root.join("target/debug").join(format!("halfcount{}", env::consts::EXE_SUFFIX));
    let place = folder.display().to_string();
    for (i, (sheet, bpm, counts, seconds)) in SONGS.iter().enumerate() {
        println!("   {sheet} at {bpm}");
        let steady = !bpm.contains(',');
        let length = format!("{counts}c");
        let file = |ending: &str| folder.join(format!("song-{i}.{ending}")).display().to_string();
        let (clicks, captions) = (file("mid"), file("vtt"));
        for (format, name) in [("midi", &clicks), ("webvtt", &captions)] {
            let words = ["call", "--format", format, "--bpm", bpm, "--length", &length, "--out", name, sheet];
            run(root, &program, &words)?;
        }
        let tempo = if steady { bpm } else { "-" };
        let [counts, seconds] = [counts.to_string(), seconds.to_string()];
        run(root, &python, &["xtask/outside/clicks.py", &clicks, tempo, &counts, &seconds])?;
        let intro = INTROS[i].to_string();
        let mut words = vec!["xtask/outside/captions.mjs", &place, &captions];
        if steady {
            words.extend([*bpm, intro.as_str()]);
        }
        run(root, Path::new("node"), &words)?;
    }
    Ok(())
}
