//! Frames as one array of numbers, for whoever animates them.

use js_sys::{Array, Float64Array, Object, Reflect};
use wasm_bindgen::JsValue;

use crate::motion::FrameRow;
use crate::motion::Sole;
use crate::motion::frames::HEADER;

/// The soles in the order of their numbers.
const SOLES: [Sole; 6] = [Sole::Flat, Sole::Ball, Sole::Heel, Sole::Toe, Sole::Edge, Sole::Air];

fn sole(sole: Sole) -> f64 {
    let place = SOLES.iter().position(|s| *s == sole).unwrap_or(0);
    f64::from(u32::try_from(place).unwrap_or(0))
}

fn list<'a>(words: impl Iterator<Item = &'a str>) -> Array {
    words.map(JsValue::from).collect()
}

/// An object with the rows in `numbers`, their `columns` (those of the table), and what the numbers of parts
/// and soles stand for.
pub(super) fn numbers(rows: &[FrameRow], per_count: u32, file: &str) -> Object {
    let mut parts: Vec<&str> = Vec::new();
    let mut first = (0, 0);
    let mut numbers = Vec::with_capacity(rows.len() * 15);
    for (index, row) in (0_u32..).zip(rows) {
        let part = parts.iter().position(|p| *p == row.part).unwrap_or_else(|| {
            parts.push(&row.part);
            parts.len() - 1
        });
        // A section that begins anew counts from its own first count; the row's words say which that is.
        let whole = row.count.trim_end_matches(|c: char| !c.is_ascii_digit());
        if let Ok(count) = whole.parse::<u32>() {
            first = (count, index % per_count);
        }
        let count = f64::from(first.0) + f64::from(first.1) / f64::from(per_count);
        numbers.extend([
            f64::from(u32::try_from(part).unwrap_or(0)),
            f64::from(row.section),
            count,
            row.tick,
            row.facing,
            row.left_x,
            row.left_y,
            row.left_toe,
            sole(row.left_sole),
            row.left_weight,
            row.right_x,
            row.right_y,
            row.right_toe,
            sole(row.right_sole),
            row.right_weight,
        ]);
    }
    let object = Object::new();
    let set = |name: &str, value: JsValue| {
        // An ordinary object takes every property.
        let _ = Reflect::set(&object, &name.into(), &value);
    };
    set("file", file.into());
    set("columns", list(HEADER.split(',')).into());
    set("parts", list(parts.iter().copied()).into());
    set("soles", list(SOLES.iter().map(|s| s.word())).into());
    set("per_count", per_count.into());
    set("rows", u32::try_from(rows.len()).unwrap_or(u32::MAX).into());
    set("numbers", Float64Array::from(&*numbers).into());
    object
}
