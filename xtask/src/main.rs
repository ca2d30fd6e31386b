//! The project's own commands: `cargo xtask help` lists them.
//!
//! They need nothing but Rust's own tools, and fetch what is missing of these.
#![allow(clippy::print_stdout, clippy::print_stderr, reason = "a command of the terminal")]

use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode, Stdio};
use std::{env, fs, time::Instant};

const HELP: &str = "\
cargo xtask demo      check the demo dances and show them count by count
cargo xtask test      everything that must hold before a change lands
cargo xtask accuracy  how well sheets are read and faults are found, over tests/sheets or the folders given;
                      --every adds each miss, --record writes the figures into DEVELOPERS.md
cargo xtask bench     how fast sheets are read, against parsing the same bytes as Markdown";

fn main() -> ExitCode {
    let word = env::args().nth(1).unwrap_or_default();
    let done = match word.as_str() {
        "demo" => demo(),
        "test" => test(),
        "accuracy" => accuracy(&env::args().skip(2).collect::<Vec<_>>()),
        "bench" => step("bench", &["bench", "--bench", "reading"], &[]),
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
    if env::var_os("CI").is_some() && words[0] != "fmt" {
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
    println!("\nAll steps passed.");
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

/// Checks each demo dance as a teacher would, and shows what is danced. A finding is no failure here: one of
/// the dances has a slip in it on purpose.
fn demo() -> Result<(), String> {
    let folder = root().join("www/demo");
    let entries = fs::read_dir(&folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    let mut dances: Vec<PathBuf> = entries.flatten().map(|e| e.path()).collect();
    dances.retain(|path| path.extension().is_some_and(|e| e == "txt"));
    dances.sort();
    let build = ["build", "--features", "cli", "--bin", "halfcount", "--example", "walk_through"];
    step("build", &build, &[])?;
    for dance in &dances {
        let dance = dance.strip_prefix(root()).unwrap_or(dance).display().to_string();
        println!("\n== {dance}");
        let show = ["run", "--quiet", "--features", "cli", "--example", "walk_through", "--", &dance];
        let shown = cargo().args(show).status().map_err(|error| error.to_string())?;
        let check = ["run", "--quiet", "--features", "cli", "--bin", "halfcount", "--", "check", &dance];
        let checked = cargo().args(check).status().map_err(|error| error.to_string())?;
        if !shown.success() || !matches!(checked.code(), Some(0 | 1)) {
            return Err(format!("{dance} could not be shown"));
        }
    }
    println!("\nThe same by hand: cargo run --features cli -- check www/demo");
    Ok(())
}
