//! The page: bundles it around the package, serves it, and tests it in a browser.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::{env, fs, thread};

use crate::{package, root, serve};

/// Where the page is put together.
fn folder() -> PathBuf {
    root().join("target/page")
}

/// Runs a program in a folder of the project.
fn run(program: &str, words: &[&str], place: &Path) -> Result<(), String> {
    println!("\n== {program} {}", words.join(" "));
    let status = Command::new(program).args(words).current_dir(place).stdin(Stdio::null()).status();
    match status {
        Ok(status) if status.success() => Ok(()),
        Ok(_) => Err(format!("{program} {} failed", words.join(" "))),
        Err(error) => {
            Err(format!("{program} could not be started: {error}; the page needs Node 20 or later"))
        }
    }
}

/// Installs what a folder's lock file names, unless that has been done.
fn packages(place: &Path) -> Result<(), String> {
    let lock = fs::read(place.join("package-lock.json")).map_err(|e| format!("{}: {e}", place.display()))?;
    let mark = place.join("node_modules/.installed-for");
    if fs::read(&mark).is_ok_and(|there| there == lock) {
        return Ok(());
    }
    run("npm", &["ci", "--no-audit", "--no-fund", "--loglevel=error"], place)?;
    fs::write(&mark, lock).map_err(|error| format!("{}: {error}", mark.display()))
}

/// Builds the module and the page around it; `weigh` fails on a page that is too heavy.
pub(crate) fn build(weigh: bool) -> Result<PathBuf, String> {
    package::lay(false)?;
    let www = root().join("www");
    packages(&www)?;
    let pkg = root().join("pkg/halfcount").display().to_string();
    let out = folder();
    let to_page = out.display().to_string();
    let mut words = vec!["build.mjs", &*pkg, &*to_page];
    if weigh {
        words.push("--weigh");
    }
    run("node", &words, &www)?;
    Ok(out)
}

/// Builds the page and serves it until the command is ended.
pub(crate) fn show() -> Result<(), String> {
    let out = build(false)?;
    let wanted = env::var("PORT").ok().and_then(|port| port.parse().ok()).unwrap_or(8088);
    let listener = serve::listen(wanted)?;
    let port = listener.local_addr().map_err(|error| error.to_string())?.port();
    println!("\nThe page is at http://localhost:{port}/ (end with Ctrl-C)");
    serve::serve(&listener, &out);
    Ok(())
}

/// Exercises the page in a real browser; `weigh` fails on a page that is too heavy as well.
pub(crate) fn test(weigh: bool) -> Result<(), String> {
    let out = build(weigh)?;
    package::browser()?;
    let tests = root().join("tests/page");
    packages(&tests)?;
    let listener = serve::listen(0)?;
    let port = listener.local_addr().map_err(|error| error.to_string())?.port();
    thread::spawn(move || serve::serve(&listener, &out));
    run("node", &["run.mjs", &format!("http://localhost:{port}/")], &tests)
}
