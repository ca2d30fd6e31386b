//! Lays the lexicon out without the lines that only its tests read: what an entry must give, what reads as it, and
//! remarks.

use std::path::{Path, PathBuf};
use std::{env, fs, io};

const FOLDER: &str = "src/figures/lexicon";

fn main() -> io::Result<()> {
    println!("cargo::rerun-if-changed={FOLDER}");
    println!("cargo::rerun-if-changed=build.rs");
    let out = PathBuf::from(env::var_os("OUT_DIR").unwrap_or_default());
    for entry in fs::read_dir(Path::new(FOLDER))? {
        let path = entry?.path();
        let text = fs::read_to_string(&path)?;
        let kept = text.lines().filter(|line| {
            let field = line.trim().split(' ').next().unwrap_or("");
            !matches!(field, "" | "gives" | "reads" | "reads-not") && !field.starts_with('#')
        });
        let kept: String = kept.flat_map(|line| [line.trim(), "\n"]).collect();
        fs::write(out.join(path.file_name().unwrap_or_default()), kept)?;
    }
    Ok(())
}
