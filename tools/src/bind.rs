//! Makes the glue between the compiled module and JavaScript: `bind MODULE FOLDER`.
//!
//! It writes `halfcount-glue.js` and `halfcount.wasm`. Names inside the module serve nobody who uses it, and
//! are left out.
#![allow(clippy::print_stderr, reason = "a command of the terminal")]

use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::{env, fs};

use wasm_bindgen_cli_support::Bindgen;

fn main() -> ExitCode {
    let words: Vec<PathBuf> = env::args_os().skip(1).map(PathBuf::from).collect();
    let [module, folder] = words.as_slice() else {
        eprintln!("bind needs the module and the folder to write to");
        return ExitCode::FAILURE;
    };
    match bind(module, folder) {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("{}: {why}", module.display());
            ExitCode::FAILURE
        }
    }
}

fn bind(module: &Path, folder: &Path) -> Result<(), String> {
    let mut generator = Bindgen::new();
    generator.input_path(module).out_name("halfcount");
    generator
        .remove_name_section(env::var_os("KEEP_NAMES").is_none())
        .remove_producers_section(true)
        .typescript(false);
    generator.web(true).map_err(|error| error.to_string())?.omit_default_module_path(true);
    generator.reset_state_function(true);
    let mut output = generator.generate_output().map_err(|error| format!("{error:#}"))?;
    let write = |name: &str, bytes: &[u8]| {
        let path = folder.join(name);
        fs::write(&path, bytes).map_err(|error| format!("{}: {error}", path.display()))
    };
    write("halfcount-glue.js", output.js().as_bytes())?;
    write("halfcount.wasm", &output.wasm_mut().emit_wasm())
}
