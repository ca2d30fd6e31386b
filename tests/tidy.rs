//! The house rules that a compiler does not see.

use std::fs;
use std::path::{Path, PathBuf};

/// The rooms in the way of the data: each knows only those before it.
const ROOMS: &[&str] = &[
    "order",
    "letters",
    "text",
    "time",
    "floor",
    "body",
    "dance",
    "sheet",
    "figures",
    "read",
    "motion",
    "check",
    "difficulty",
    "draw",
    "call",
    "report",
    "trace",
    "tidy",
    "wasm",
];

/// Files beside the rules in `src/check` that are no rules themselves.
const NO_RULES: &[&str] =
    &["mod", "finding", "subject", "mend", "edits", "counting", "clocks", "flow", "strain"];

/// What only the command line may do: to print, and to touch clock, environment, disk and the like.
const WORLD: &[&str] = &[
    "println!",
    "eprintln!",
    "print!(",
    "eprint!(",
    "dbg!(",
    "std::io",
    "std::fs",
    "std::env",
    "std::time",
    "std::process",
    "std::net",
    "std::thread",
    "Instant::now",
    "SystemTime",
];

/// Where the seam should be sought, and found: past this a file holds only data.
const LONGEST_FILE: usize = 1000;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// All files under a folder, in order, without what is built or fetched.
fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut folders = vec![folder.to_path_buf()];
    while let Some(folder) = folders.pop() {
        let entries = fs::read_dir(&folder).into_iter().flatten().flatten();
        for path in entries.map(|entry| entry.path()) {
            let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
            if path.is_dir() {
                if !["target", ".git", "node_modules", "pkg", "dist"].contains(&name.as_str()) {
                    folders.push(path);
                }
            } else if name != ".git" {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

/// Rust files of the library: everything under `src` but the command line.
fn library() -> Vec<(PathBuf, String)> {
    let source = root().join("src");
    let keep = |path: &PathBuf| {
        let inside = path.strip_prefix(&source).unwrap_or(path);
        path.extension().is_some_and(|e| e == "rs")
            && !inside.starts_with("cli")
            && inside != Path::new("main.rs")
    };
    let read = |path: PathBuf| {
        let text = fs::read_to_string(&path).expect("a source file is UTF-8");
        (path, text)
    };
    let found: Vec<_> = files(&source).into_iter().filter(keep).map(read).collect();
    assert!(found.len() >= 10, "the library was found");
    found
}

/// The lines that run in the library, numbered from 1: no comments, and nothing of the tests at the end.
fn code(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let lines = text.lines().enumerate().map(|(index, line)| (index + 1, line));
    lines
        .take_while(|(_, line)| line.trim() != "#[cfg(test)]")
        .filter(|(_, line)| !line.trim_start().starts_with("//"))
}

/// The room of a file, if it is in one.
fn room(path: &Path) -> Option<usize> {
    let inside = path.strip_prefix(root().join("src")).ok()?;
    let first = inside.components().next()?.as_os_str().to_string_lossy().into_owned();
    let name = first.trim_end_matches(".rs");
    ROOMS.iter().position(|room| *room == name)
}

#[track_caller]
fn none(what: &str, found: &[String]) {
    assert!(found.is_empty(), "{what}:\n  {}", found.join("\n  "));
}

fn short(path: &Path) -> String {
    path.strip_prefix(root()).unwrap_or(path).display().to_string()
}

#[test]
fn each_room_knows_only_those_before_it() {
    let mut found = Vec::new();
    for (path, text) in library() {
        let name = short(&path);
        if name == "src/lib.rs" {
            continue;
        }
        let Some(own) = room(&path) else {
            found.push(format!("{name}: this room is missing in the order of rooms"));
            continue;
        };
        if path.ends_with("tests.rs") {
            continue;
        }
        for (number, line) in code(&text) {
            for after in line.split("crate::").skip(1) {
                let used: String = after.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
                if ROOMS.iter().position(|room| *room == used).is_some_and(|used| used > own) {
                    found.push(format!("{name}:{number}: {} does not know {used}", ROOMS[own]));
                }
            }
        }
    }
    none("use of a later room", &found);
}

#[test]
fn every_file_of_the_lexicon_is_embedded() {
    let folder = root().join("src/figures/lexicon");
    let code: String = library().into_iter().map(|(_, text)| text).collect();
    let files = files(&folder);
    assert!(!files.is_empty(), "the lexicon was found");
    let missing = |path: &PathBuf| {
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        (!code.contains(&format!("family!(\"{name}\")"))).then_some(name)
    };
    none("not embedded", &files.iter().filter_map(missing).collect::<Vec<_>>());
}

#[test]
fn every_rule_has_its_page_with_sheets_on_it() {
    let folder = root().join("src/check");
    let (mut rules, mut pages) = (Vec::new(), Vec::new());
    for path in files(&folder) {
        let stem = path.file_stem().unwrap_or_default().to_string_lossy().replace('_', "-");
        match path.extension().and_then(|e| e.to_str()) {
            Some("rs") if !NO_RULES.contains(&stem.as_str()) => rules.push(stem),
            Some("md") => pages.push((stem, fs::read_to_string(&path).expect("a page is UTF-8"))),
            _ => {}
        }
    }
    let mut found = Vec::new();
    for rule in &rules {
        let Some((_, page)) = pages.iter().find(|(page, _)| page == rule) else {
            found.push(format!("{rule}: no page"));
            continue;
        };
        // One sheet at least in which the rule speaks, and one in which it is silent.
        if page.matches("\n```").count() < 4 {
            found.push(format!("{rule}: the page needs a sheet with the fault and one without"));
        }
    }
    let lost = pages.iter().filter(|(page, _)| !rules.contains(page));
    found.extend(lost.map(|(page, _)| format!("{page}: a page without a rule")));
    none("rules and pages", &found);
}

#[test]
fn the_library_leaves_the_world_alone() {
    let mut found = Vec::new();
    for (path, text) in library() {
        for (number, line) in code(&text) {
            let touched = WORLD.iter().filter(|word| line.contains(**word));
            found.extend(touched.map(|word| format!("{}:{number}: {word}", short(&path))));
        }
    }
    none("left to the command line", &found);
}

#[test]
fn the_module_of_the_package_stays_small() {
    // Each of these costs kilobytes in WebAssembly: sorts for each kind of thing, the tables of all letters.
    let heavy = [".sort(", ".sort_", ".to_lowercase()", ".to_uppercase()"];
    let mut found = Vec::new();
    for (path, text) in library() {
        if path.ends_with("tests.rs") {
            continue;
        }
        for (number, line) in code(&text) {
            let used = heavy.iter().filter(|word| line.contains(**word));
            found.extend(used.map(|word| format!("{}:{number}: {word}", short(&path))));
        }
    }
    none("heavy where `order` and `letters` serve", &found);
}

#[test]
fn files_have_one_purpose_and_a_length_to_match() {
    let mut found = Vec::new();
    for folder in ["src", "tests", "benches", "xtask", "examples"] {
        for path in files(&root().join(folder)) {
            if path.extension().is_none_or(|e| e != "rs") {
                continue;
            }
            let lines = fs::read_to_string(&path).expect("a source file is UTF-8").lines().count();
            if lines > LONGEST_FILE {
                found.push(format!("{}: {lines} lines", short(&path)));
            }
        }
    }
    none("too long", &found);
    let lib = fs::read_to_string(root().join("src/lib.rs")).expect("the library has a first file");
    assert!(lib.lines().count() < 150, "src/lib.rs is a table of contents");
}

#[test]
fn nothing_names_a_machine_or_a_registry() {
    // Put together here, so that this file does not name them either.
    let words = [
        concat!("/wo", "rk/"),
        concat!("/ho", "me/"),
        concat!("/ro", "ot/"),
        concat!("/Us", "ers/"),
        concat!("crates", ".io"),
        concat!("npm", "js"),
        concat!("pypi", ".org"),
        concat!("deb", "ian.org"),
    ];
    let mut found = Vec::new();
    for path in files(root()) {
        let name = short(&path);
        // The lock file names its registry in every entry.
        if name == "Cargo.lock" {
            continue;
        }
        let Ok(text) = fs::read_to_string(&path) else {
            continue;
        };
        for (index, line) in text.lines().enumerate() {
            let named = words.iter().filter(|word| line.contains(**word));
            found.extend(named.map(|word| format!("{name}:{}: {word}", index + 1)));
        }
    }
    none("words that belong to one machine", &found);
}

#[test]
fn the_map_names_what_is_there() {
    let map = fs::read_to_string(root().join("DEVELOPERS.md")).expect("there is a map");
    let named = map.split('`').skip(1).step_by(2);
    let paths = named.filter(|word| {
        let inside = ["src/", "tests/", "benches/", "xtask/", "www/", "examples/", ".ci/"];
        inside.iter().any(|folder| word.starts_with(folder)) && !word.contains(['<', '*', ' '])
    });
    let lost = paths.filter(|path| !root().join(path).exists()).map(str::to_owned);
    none("the map names what is not there", &lost.collect::<Vec<_>>());
}
