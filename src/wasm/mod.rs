//! The door to JavaScript: functions named after the commands, text and options in, plain values out.
//!
//! The room knows no rule of dance. Whatever leaves is an ordinary object that JSON can carry, so nothing has
//! to be freed; places in the text count UTF-16 units, except in `trace`, which is the same line that the
//! command prints. The types that developers see stand in `pkg-template/types.d.ts` and are held against real
//! values by the package's tests.

mod body;
mod calling;
mod drawing;
mod error;
mod given;
mod numbers;
mod steps;
mod units;
mod values;

use serde::Serialize;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

pub use error::Refusal;
pub use units::Units;

use crate::difficulty::{self, ScoreOptions};
use crate::figures::{Shown, lexicon};
use crate::motion::{FrameRow, simulate};
use crate::tidy::TidyOptions;
use crate::{Options, Report};
use given::Given;

/// The file name that stands for a text from nowhere, as on the command line.
const NOWHERE: &str = "-";

/// The one way in which values leave: as `JSON.parse` would give them.
fn plain<T: Serialize>(value: &T) -> Result<JsValue, Refusal> {
    Ok(value.serialize(&serde_wasm_bindgen::Serializer::json_compatible())?)
}

fn report(text: &str, given: &Given) -> Result<Report, Refusal> {
    let options = Options { allow: given.strings("allow")?, body: body::body(given)? };
    Ok(crate::report(text, &options)?)
}

fn file(given: &Given) -> Result<String, Refusal> {
    Ok(given.string("file")?.unwrap_or_else(|| NOWHERE.to_owned()))
}

/// What cannot be danced as written, and how to mend it.
#[wasm_bindgen(skip_typescript)]
pub fn check(text: &JsValue, options: &JsValue) -> Result<JsValue, JsValue> {
    let text = given::text(text)?;
    let given = Given::read(options, &["file", "allow", "body"])?;
    let file = file(&given)?;
    let report = report(&text, &given)?;
    Ok(plain(&values::checked(&report, &text, &file))?)
}

/// Which foot takes the weight on each count, in the published form.
#[wasm_bindgen(skip_typescript)]
pub fn trace(text: &JsValue, options: &JsValue) -> Result<JsValue, JsValue> {
    let text = given::text(text)?;
    let given = Given::read(options, &["file", "body"])?;
    let file = file(&given)?;
    let report = report(&text, &given)?;
    Ok(plain(&crate::trace::trace(&report, &text, &file))?)
}

/// The rows of both feet, and how many of them a count has.
fn rows(text: &JsValue, given: &Given) -> Result<(Vec<FrameRow>, u32), Refusal> {
    let text = given::text(text)?;
    let grid = |n| n > 0 && n <= 24 && 24 % n == 0;
    let per_count = given.number("perCount", grid, "1, 2, 3, 4, 6, 8, 12 or 24")?.unwrap_or(2);
    let walls = given.number("walls", |n| (1..=64).contains(&n), "a whole number from 1 to 64")?;
    let report = report(&text, given)?;
    Ok((simulate(&report.dance, &report.body, walls.unwrap_or(1)).frames(per_count), per_count))
}

const FRAMES: &[&str] = &["file", "perCount", "walls", "body"];

/// Both feet at every half-count or on another grid.
#[wasm_bindgen(skip_typescript)]
pub fn frames(text: &JsValue, options: &JsValue) -> Result<JsValue, JsValue> {
    let given = Given::read(options, FRAMES)?;
    let (frames, _) = rows(text, &given)?;
    Ok(plain(&values::Framed { file: &file(&given)?, frames })?)
}

/// The same as one array of numbers.
#[wasm_bindgen(skip_typescript, js_name = frameNumbers)]
pub fn frame_numbers(text: &JsValue, options: &JsValue) -> Result<JsValue, JsValue> {
    let given = Given::read(options, FRAMES)?;
    let (frames, per_count) = rows(text, &given)?;
    Ok(numbers::numbers(&frames, per_count, &file(&given)?).into())
}

/// How hard a dance is, and of what the number is made.
#[wasm_bindgen(skip_typescript)]
pub fn score(text: &JsValue, options: &JsValue) -> Result<JsValue, JsValue> {
    let text = given::text(text)?;
    let given = Given::read(options, &["file", "bpm", "body"])?;
    let file = file(&given)?;
    let tempo = given.number("bpm", |n| (20..=400).contains(&n), "a whole number from 20 to 400")?;
    let report = report(&text, &given)?;
    let mut options = ScoreOptions { tempo, body: report.body, ..ScoreOptions::default() };
    let motion = simulate(&report.dance, &report.body, 1);
    options.unread = difficulty::unread(&report.findings, &report.unread);
    let score = difficulty::score(&report.dance, &motion, &options);
    let choices = difficulty::choices(&text, &options, score.tempo);
    Ok(plain(&difficulty::form(&score, &choices, &text, &report.dance.head.title, &file))?)
}

/// Footprints as SVG, or a page of them to print.
#[wasm_bindgen(skip_typescript)]
pub fn draw(text: &JsValue, options: &JsValue) -> Result<String, JsValue> {
    let text = given::text(text)?;
    let known = ["view", "count", "strip", "page", "columns", "width", "prefix", "body"];
    let given = Given::read(options, &known)?;
    let how = drawing::options(&given)?;
    Ok(drawing::draw(&text, &report(&text, &given)?, &given, &how)?)
}

/// A drawing for each section, with the same content in sentences.
#[wasm_bindgen(skip_typescript, js_name = drawSections)]
pub fn draw_sections(text: &JsValue, options: &JsValue) -> Result<JsValue, JsValue> {
    let text = given::text(text)?;
    let given = Given::read(options, &["view", "strip", "columns", "width", "prefix", "body"])?;
    let how = drawing::options(&given)?;
    let report = report(&text, &given)?;
    Ok(plain(&drawing::sections(&text, &report, given.flag("strip")?, &how))?)
}

/// What the teacher says and when, captions, a lesson plan, or the bytes of a click track.
#[wasm_bindgen(skip_typescript)]
pub fn call(text: &JsValue, options: &JsValue) -> Result<JsValue, JsValue> {
    let text = given::text(text)?;
    let given = Given::read(options, calling::KNOWN)?;
    let how = calling::How::read(&given)?;
    Ok(how.answer(&report(&text, &given)?.dance))
}

/// The sheet in one clean manner.
#[wasm_bindgen(skip_typescript)]
pub fn tidy(text: &JsValue, options: &JsValue) -> Result<String, JsValue> {
    let text = given::text(text)?;
    let given = Given::read(options, &["mirror"])?;
    let options = TidyOptions { mirror: given.flag("mirror")?, ..TidyOptions::default() };
    Ok(crate::tidy::tidy(&text, &options).map_err(Refusal::from)?)
}

/// All figures, or the one of a name.
#[wasm_bindgen(skip_typescript)]
pub fn figures(name: &JsValue) -> Result<JsValue, JsValue> {
    let lexicon = lexicon();
    if name.is_undefined() || name.is_null() {
        let all: Vec<Shown> = lexicon.figures.iter().map(Shown::of).collect();
        return Ok(plain(&all)?);
    }
    let name = name
        .as_string()
        .ok_or_else(|| Refusal::new("name-not-a-string", "a figure's name must be given as a string"))?;
    let Some((_, figure)) = lexicon.find(&name) else {
        let mut message = String::from("no figure is called ");
        message.push_str(&name);
        let near = lexicon.near(&name);
        if !near.is_empty() {
            message.push_str("; near it are: ");
            message.push_str(&near.join("; "));
        }
        return Err(Refusal::new("figure-unknown", message).into());
    };
    Ok(plain(&Shown::of(figure))?)
}
