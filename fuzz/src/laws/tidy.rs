//! Tidying: prints and reads again as the same dance.

use halfcount::Error;
use halfcount::tidy::{TidyOptions, mirrored, tidy};

use super::{differ, must, report, same};

pub(super) fn holds(text: &str) -> Result<(), String> {
    let clean = |text: &str, options: &TidyOptions| tidy(text, options).map_err(|error| error.to_string());
    let usual = TidyOptions::default();
    let before = report(text)?;
    let once = clean(text, &usual)?;
    same("tidy", &before, &report(&once)?)?;
    let twice = clean(&once, &usual)?;
    must(once == twice, || format!("twice: {}", differ(&once, &twice)))?;
    let mut mirror = TidyOptions::default();
    mirror.mirror = true;
    let other = match tidy(text, &mirror) {
        // Said in plain words, or not at all.
        Err(Error::Unsayable) => return Ok(()),
        other => other.map_err(|error| error.to_string())?,
    };
    let mut wanted = before;
    wanted.dance = mirrored(&wanted.dance);
    same("mirrored", &wanted, &report(&other)?)
}
