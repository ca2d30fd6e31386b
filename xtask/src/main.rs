//! The project's own commands: `cargo xtask help` lists them.
//!
//! They need nothing but Rust's own tools, and fetch what is missing of these; `oracles` needs Python 3 besides,
//! `outside` and the page Node, the tests of the page Chromium. Packages are set up under `target` or beside the
//! lock file that names them.
#![allow(clippy::print_stdout, clippy::print_stderr, reason = "a command of the terminal")]

mod outside;
mod page;
mod serve;

use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode, Stdio};
use std::{env, fs, time::Instant};

const HELP: &str = "\
cargo xtask demo      check the demo dances, build the page and serve it on this machine
cargo xtask test      everything that must hold before a change lands
cargo xtask accuracy  how well sheets are read and faults are found, over tests/sheets or the folders given;
                      --every adds each miss, --record writes the figures into DEVELOPERS.md
cargo xtask package   the JavaScript package as one archive in pkg, with what it weighs
cargo xtask bench     how fast sheets are read, against parsing the same bytes as Markdown, songs planned, dances drawn
cargo xtask calibrate find the weights of the score from the labels and write the record; with --check only
                      compare; with --pairs FILE strengths from judgements which of two dances is harder
cargo xtask package-test, page-test
                      the package and the page in Node and in Chromium; page-test fails on a page that is too
                      heavy unless --any-weight is given
cargo xtask outside   have click tracks and captions read back by mido and webvtt-parser
cargo xtask oracles   hold statistics and rhythm measures against scipy, antropy and amads";

mod package;

fn main() -> ExitCode {
    let word = env::args().nth(1).unwrap_or_default();
    let done = match word.as_str() {
        "demo" => demo(),
        "test" => test(),
        "accuracy" => accuracy(&env::args().skip(2).collect::<Vec<_>>()),
        "calibrate" => calibrate(&env::args().skip(2).collect::<Vec<_>>()),
        "oracles" => oracles(),
        "outside" => readers(),
        "package" => package::package(),
        "package-test" => package::test(),
        "page-test" => page::test(!env::args().any(|word| word == "--any-weight")),
        "bench" => {
            step("bench", &["bench", "--bench", "reading", "--bench", "calling", "--bench", "drawing"], &[])
        }
        "" | "help" | "--help" | "-h" => {
            println!("{HELP}");
            Ok(())
        }
        other => Err(format!("there is no command {other}\n{HELP}")),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => {
            eprintln!("xtask: {sentence}");
            ExitCode::FAILURE
        }
    }
}

/// The project's folder.
fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().map(Path::to_path_buf).unwrap_or_default()
}

fn cargo() -> Command {
    let mut command = Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.current_dir(root()).stdin(Stdio::null());
    command
}

/// Runs cargo once under a heading. In CI the lock file must be right as it is committed.
fn step(title: &str, words: &[&str], settings: &[(&str, &str)]) -> Result<(), String> {
    println!("\n== {title}: cargo {}", words.join(" "));
    let started = Instant::now();
    let mut words = words.to_vec();
    if env::var_os("CI").is_some() && !["fmt", "deny"].contains(&words[0]) {
        // Everything after -- goes to another program.
        let place = words.iter().position(|w| *w == "--").unwrap_or(words.len());
        words.insert(place, "--locked");
    }
    let status = cargo().args(&words).envs(settings.iter().copied()).status();
    if status.map_err(|error| format!("cargo could not be started: {error}"))?.success() {
        println!("== {title}: done in {:.0} s", started.elapsed().as_secs_f64());
        Ok(())
    } else {
        Err(format!("{title} failed"))
    }
}

fn test() -> Result<(), String> {
    components(&["rustfmt", "clippy"])?;
    step("format", &["fmt", "--all", "--check"], &[])?;
    let strict: &[&str] =
        &["clippy", "--workspace", "--all-targets", "--all-features", "--", "-D", "warnings"];
    step("lints", strict, &[])?;
    step("lints of the bare library", &["clippy", "--lib", "--", "-D", "warnings"], &[])?;
    step(
        "tests",
        &["test", "--workspace", "--all-features", "--lib", "--bins", "--tests", "--examples"],
        &[],
    )?;
    step("tests of the bare library", &["test", "--lib", "--tests"], &[])?;
    step("tests in the documentation", &["test", "--workspace", "--all-features", "--doc"], &[])?;
    let strict = [("RUSTDOCFLAGS", "-D warnings")];
    step("documentation", &["doc", "--workspace", "--all-features", "--no-deps"], &strict)?;
    supply()?;
    oracles()?;
    readers()?;
    // The module and its browser want programs that not every machine may fetch; where they are, all is tested.
    match package::ready() {
        Ok(()) => {
            package::test()?;
            // What the page weighs is the business of its own command.
            page::test(false)?;
        }
        Err(why) => println!("\n== package and page: left out, since {why}"),
    }
    println!("\nAll steps passed.");
    Ok(())
}

/// Licences and sources of everything that is built in, after `deny.toml`. Building the program that looks takes
/// longer than all else here, so that it is asked only where somebody has installed it.
fn supply() -> Result<(), String> {
    let there = cargo().args(["deny", "--version"]).stdout(Stdio::null()).stderr(Stdio::null()).status();
    if there.is_ok_and(|status| status.success()) {
        return step("supply", &["deny", "check", "bans", "licenses", "sources"], &[]);
    }
    println!("\n== supply: left out, since cargo-deny is not installed; RELEASING.md asks for it");
    Ok(())
}

/// Measures how well sheets are read; the figures that stand in the map are those of the project's own sheets.
fn accuracy(words: &[String]) -> Result<(), String> {
    let mut run = vec!["run", "--quiet", "--release", "--features", "cli", "--example", "accuracy", "--"];
    run.extend(words.iter().map(String::as_str).filter(|w| *w != "--record"));
    // The folders given are those of the caller, so only the program is built at the root.
    let root = root();
    let mut command = Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.args(&run[..1]).arg("--manifest-path").arg(root.join("Cargo.toml")).args(&run[1..]);
    let done = command.stdin(Stdio::null()).stderr(Stdio::inherit()).output();
    let done = done.map_err(|error| format!("cargo could not be started: {error}"))?;
    let report = String::from_utf8_lossy(&done.stdout).into_owned();
    if !done.status.success() {
        return Err("the measuring failed".into());
    }
    print!("{report}");
    if words.iter().any(|w| w == "--record") {
        let path = root.join("DEVELOPERS.md");
        let map = fs::read_to_string(&path).map_err(|error| format!("{}: {error}", path.display()))?;
        let (before, rest) = map.split_once("```text\nmanner").ok_or("the map has no report to replace")?;
        let (_, after) = rest.split_once("```").ok_or("the report in the map has no end")?;
        let map = format!("{before}```text\n{report}```{after}");
        fs::write(&path, map).map_err(|error| format!("{}: {error}", path.display()))?;
    }
    Ok(())
}

/// Hands its words on to the calibration; a file is meant from where the caller stands.
fn calibrate(words: &[String]) -> Result<(), String> {
    let mut command = cargo();
    command.args(["run", "--quiet", "--package", "calibration", "--"]);
    for word in words {
        let path = Path::new(word);
        let here = env::current_dir().unwrap_or_default().join(path);
        if path.is_relative() && here.is_file() {
            command.arg(here)
        } else {
            command.arg(word)
        };
    }
    let status = command.status().map_err(|error| format!("cargo could not be started: {error}"))?;
    if status.success() { Ok(()) } else { Err("calibrate failed".to_owned()) }
}

/// Has what the program writes for players read back by other programs.
fn readers() -> Result<(), String> {
    step("build", &["build", "--features", "cli", "--bin", "halfcount"], &[])?;
    outside::outside(&root())
}

/// What other programs must agree with, and in which version.
const ORACLES: [&str; 4] = ["scipy==1.17.1", "antropy==0.2.3", "amads==1.4.0", "jsonschema==4.26.0"];

/// Holds our values against those of independent programs, in a Python environment of their own.
fn oracles() -> Result<(), String> {
    let folder = root().join("target/oracles");
    let python = folder.join(if cfg!(windows) { "Scripts/python.exe" } else { "bin/python" });
    let mark = folder.join("installed.txt");
    let wanted = ORACLES.join("\n");
    let plain = |program: &Path, words: &[&str]| -> Result<(), String> {
        let status = Command::new(program).args(words).current_dir(root()).stdin(Stdio::null()).status();
        match status {
            Ok(status) if status.success() => Ok(()),
            _ => Err(format!("{} {} failed", program.display(), words.join(" "))),
        }
    };
    if fs::read_to_string(&mark).is_ok_and(|there| there == wanted) {
        println!("\n== oracles: {} are there", ORACLES.join(", "));
    } else {
        println!("\n== oracles: installing {} under target", ORACLES.join(", "));
        let place = folder.display().to_string();
        plain(Path::new("python3"), &["-m", "venv", &place])
            .map_err(|_| "oracles need Python 3 with its venv module".to_owned())?;
        let mut words = vec!["-m", "pip", "install", "--quiet", "--disable-pip-version-check"];
        words.extend(ORACLES);
        plain(&python, &words)?;
        fs::write(&mark, wanted).map_err(|error| format!("{}: {error}", mark.display()))?;
    }
    step("build", &["build", "--features", "cli", "--bin", "halfcount"], &[])?;
    let values = cargo().args(["run", "--quiet", "--package", "calibration", "--", "--oracles"]).output();
    let values = values.map_err(|error| format!("cargo could not be started: {error}"))?;
    if !values.status.success() {
        return Err("the values for the oracles could not be made".to_owned());
    }
    let file = folder.join("values.tsv");
    fs::write(&file, values.stdout).map_err(|error| format!("{}: {error}", file.display()))?;
    let target = root().join("target/debug").join(format!("halfcount{}", env::consts::EXE_SUFFIX));
    let [file, target] = [file, target].map(|path| path.display().to_string());
    plain(&python, &["calibration/oracles.py", &file, &target])
}

/// Fetches the parts of the toolchain that are missing.
fn components(names: &[&str]) -> Result<(), String> {
    for name in names {
        let word = if *name == "rustfmt" { "fmt" } else { name };
        let there = cargo().args([word, "--version"]).stdout(Stdio::null()).stderr(Stdio::null()).status();
        if there.is_ok_and(|status| status.success()) {
            continue;
        }
        println!("== {name} is missing: rustup component add {name}");
        let added = Command::new("rustup").args(["component", "add", name]).stdin(Stdio::null()).status();
        if !added.is_ok_and(|status| status.success()) {
            return Err(format!("{name} is missing and rustup could not add it"));
        }
    }
    Ok(())
}

/// Checks each demo dance as a teacher would, and serves the page. A finding is no failure here: one of
/// the dances has a slip in it on purpose.
fn demo() -> Result<(), String> {
    let folder = root().join("www/demo");
    let entries = fs::read_dir(&folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    let mut dances: Vec<PathBuf> = entries.flatten().map(|e| e.path()).collect();
    dances.retain(|path| path.extension().is_some_and(|e| e == "txt"));
    dances.sort();
    step("build", &["build", "--features", "cli", "--bin", "halfcount"], &[])?;
    for dance in &dances {
        let dance = dance.strip_prefix(root()).unwrap_or(dance).display().to_string();
        println!("\n== {dance}");
        let check = ["run", "--quiet", "--features", "cli", "--bin", "halfcount", "--", "check", &dance];
        let checked = cargo().args(check).status().map_err(|error| error.to_string())?;
        if !matches!(checked.code(), Some(0 | 1)) {
            return Err(format!("{dance} could not be checked"));
        }
    }
    println!("\nThe same by hand: cargo run --features cli -- check www/demo");
    page::show()
}
