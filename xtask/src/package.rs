//! `cargo xtask package`: the JavaScript package as one archive in `pkg`, with what it weighs.

use std::path::Path;
use std::process::{Command, Stdio};
use std::{env, fs};

use crate::{cargo, root, step};

const TARGET: &str = "wasm32-unknown-unknown";

/// Builds the archive.
pub(crate) fn package() -> Result<(), String> {
    lay(true)
}

/// Lays the files of the package into `pkg/halfcount` and packs them; `weigh` fails on one that is too heavy.
pub(crate) fn lay(weigh: bool) -> Result<(), String> {
    let folder = root().join("pkg/halfcount");
    target()?;
    node_modules()?;
    // A panic is a fault of ours that no sheet reaches. Saying where it happened costs a tenth of the module, so
    // it ends at once with WebAssembly's own trap, which the loader turns into an error with a code. Rust can do
    // so only with its own library built anew, and lets the stable compiler do that only when asked like this.
    let build = [
        "rustc",
        "--lib",
        "--target",
        TARGET,
        "--profile",
        "wasm",
        "--features",
        "wasm",
        "--crate-type",
        "cdylib",
        "-Zbuild-std=std,panic_abort",
        "-Zbuild-std-features=optimize_for_size",
    ];
    let mut flags =
        ["-Zunstable-options", "-Cpanic=immediate-abort", "-Zlocation-detail=none", "-Zfmt-debug=none"]
            .map(str::to_owned)
            .to_vec();
    // Places on this machine's disk serve nobody, and the module would carry them.
    let home = env::var("CARGO_HOME").or_else(|_| env::var("HOME").map(|home| format!("{home}/.cargo")));
    let hide = |from: &str, to: &str| format!("--remap-path-prefix={from}={to}");
    flags
        .extend([hide(&home.unwrap_or_default(), "cargo"), hide(&root().display().to_string(), "halfcount")]);
    // The flags stand in one variable, apart by a character that no path holds.
    let settings = [("CARGO_ENCODED_RUSTFLAGS", &*flags.join("\u{1f}")), ("RUSTC_BOOTSTRAP", "1")];
    step("module", &build, &settings)?;
    if folder.exists() {
        fs::remove_dir_all(&folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    }
    fs::create_dir_all(&folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    let module = target_folder()?.join(TARGET).join("wasm/halfcount.wasm");
    let (module, out) = (module.display().to_string(), folder.display().to_string());
    step("glue", &["run", "--quiet", "--package", "tools", "--bin", "bind", "--", &module, &out], &[])?;
    let words = ["finish.mjs", &*out, "--any-weight"];
    node("finish", if weigh { &words[..2] } else { &words })
}

/// Where cargo puts what it builds.
fn target_folder() -> Result<std::path::PathBuf, String> {
    let asked = cargo().args(["metadata", "--format-version", "1", "--no-deps"]).output();
    let text = String::from_utf8_lossy(&asked.map_err(|error| error.to_string())?.stdout).into_owned();
    let found = text.split("\"target_directory\":\"").nth(1).and_then(|rest| rest.split('"').next());
    found.map(Into::into).ok_or_else(|| "cargo does not say where it builds".to_owned())
}

/// Fetches what is missing of Rust for WebAssembly: its library, and the source of it.
pub(crate) fn target() -> Result<(), String> {
    let ask = |what: &[&str]| {
        let asked = Command::new("rustc").args(what).output();
        let asked = asked.map_err(|error| format!("rustc could not be started: {error}"))?;
        Ok::<_, String>(String::from_utf8_lossy(&asked.stdout).trim().to_owned())
    };
    if !Path::new(&ask(&["--print", "target-libdir", "--target", TARGET])?).is_dir() {
        run("Rust for WebAssembly", Command::new("rustup").args(["target", "add", TARGET]))?;
    }
    if !Path::new(&ask(&["--print", "sysroot"])?).join("lib/rustlib/src/rust/library/std").is_dir() {
        run("the source of Rust's library", Command::new("rustup").args(["component", "add", "rust-src"]))?;
    }
    Ok(())
}

/// Installs what the tests of the package need, once for each state of their lock file.
pub(crate) fn node_modules() -> Result<(), String> {
    let folder = root().join("tests/package");
    let (lock, stamp) = (folder.join("package-lock.json"), folder.join("node_modules/.installed"));
    let wanted = fs::read(&lock).map_err(|error| format!("{}: {error}", lock.display()))?;
    if fs::read(&stamp).is_ok_and(|have| have == wanted) {
        return Ok(());
    }
    if !there("npm") {
        apt(&["nodejs", "npm"])?;
    }
    run("npm ci", Command::new("npm").args(["ci", "--no-audit", "--no-fund"]).current_dir(&folder))?;
    fs::write(&stamp, wanted).map_err(|error| format!("{}: {error}", stamp.display()))
}

/// Installs Chromium where no browser is found; the tests ask for it by `CHROMIUM` or its usual names.
pub(crate) fn browser() -> Result<(), String> {
    if (env::var_os("CHROMIUM").is_some() || there("chromium")) && there("chromedriver") {
        return Ok(());
    }
    apt(&["chromium", "chromium-driver"])
}

/// Fetches whatever the tests of the package need beside Cargo and Node, and says what cannot be had.
pub(crate) fn ready() -> Result<(), String> {
    target()?;
    node_modules()?;
    browser()
}

/// The tests of the packed archive. What it weighs is the business of `package`.
pub(crate) fn test() -> Result<(), String> {
    lay(false)?;
    browser()?;
    step("program for comparison", &["build", "--features", "cli", "--bin", "halfcount"], &[])?;
    node("tests of the archive", &["--test", "--test-concurrency=1", "tests/"])?;
    let bindings =
        ["test", "--profile", "wasm-test", "--target", TARGET, "--features", "wasm", "--test", "wasm"];
    step("bindings in Node", &bindings, &[("RUST_BACKTRACE", "0")])?;
    let browser = [("RUST_BACKTRACE", "0"), ("WASM_BINDGEN_USE_BROWSER", "1")];
    step("bindings in Chromium", &bindings, &browser)
}

fn node(title: &str, words: &[&str]) -> Result<(), String> {
    println!("\n== {title}: node {}", words.join(" "));
    let mut command = Command::new("node");
    run(title, command.args(words).current_dir(root().join("tests/package")))
}

fn there(program: &str) -> bool {
    let asked = Command::new(program).arg("--version").stdout(Stdio::null()).stderr(Stdio::null()).status();
    asked.is_ok_and(|status| status.success())
}

fn apt(names: &[&str]) -> Result<(), String> {
    let quiet = [("DEBIAN_FRONTEND", "noninteractive")];
    run("apt-get update", Command::new("apt-get").args(["update", "-q"]).envs(quiet))?;
    let install = ["install", "-y", "-q", "--no-install-recommends"];
    run(&names.join(", "), Command::new("apt-get").args(install).args(names).envs(quiet))
}

fn run(title: &str, command: &mut Command) -> Result<(), String> {
    let status = command.stdin(Stdio::null()).status();
    match status {
        Ok(status) if status.success() => Ok(()),
        Ok(_) => Err(format!("{title} failed")),
        Err(error) => Err(format!("{title}: {error}")),
    }
}
