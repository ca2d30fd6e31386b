//! The bindings by themselves, in Node and, with `WASM_BINDGEN_USE_BROWSER=1`, in Chromium.
#![cfg(all(target_arch = "wasm32", feature = "wasm"))]

use halfcount::wasm::{check, figures, frame_numbers, tidy, trace};
use js_sys::{JSON, Object, Reflect};
use wasm_bindgen::JsValue;
use wasm_bindgen_test::wasm_bindgen_test;

const SHEET: &str =
    "Quayside Two\nCount: 4 Wall: 1\n1-2 Step R forward, touch L beside R\n3-4 Step L back, step L forward\n";

fn json(value: &JsValue) -> String {
    JSON::stringify(value).map(String::from).unwrap_or_default()
}

fn code(error: &JsValue) -> Option<String> {
    Reflect::get(error, &"code".into()).ok()?.as_string()
}

#[wasm_bindgen_test]
fn a_finding_says_where_it_is_in_utf_16() {
    let text = format!("💃 {SHEET}");
    let report = check(&text.as_str().into(), &JsValue::UNDEFINED).expect("a short sheet");
    let start = SHEET.find("step L forward").expect("the slip") + "💃 ".encode_utf16().count();
    assert!(json(&report).contains(&format!("\"start\":{start},")), "{}", json(&report));
}

#[wasm_bindgen_test]
fn a_trace_is_the_line_that_the_library_gives() {
    let report = halfcount::report(SHEET, &halfcount::Options::default()).expect("a short sheet");
    let inside = halfcount::trace::trace(&report, SHEET, "-");
    let outside = json(&trace(&SHEET.into(), &JsValue::NULL).expect("a short sheet"));
    assert!(outside.starts_with("{\"file\":\"-\",\"title\":\"Quayside Two\",\"counts\":4,"), "{outside}");
    assert!(outside.contains(&inside.sections[0].trace));
}

#[wasm_bindgen_test]
fn what_is_wrong_has_a_code() {
    let options = Object::new();
    Reflect::set(&options, &"alow".into(), &1.into()).expect("an object takes a property");
    for (result, want) in [
        (check(&3.into(), &JsValue::UNDEFINED), "text-not-a-string"),
        (check(&SHEET.into(), &options), "option-unknown"),
        (check(&"x".repeat(halfcount::LONGEST + 1).into(), &JsValue::UNDEFINED), "text-too-long"),
        (figures(&"no such figure".into()), "figure-unknown"),
        (frame_numbers(&SHEET.into(), &"x".into()), "options-not-an-object"),
    ] {
        assert_eq!(result.err().and_then(|error| code(&error)).as_deref(), Some(want));
    }
}

#[wasm_bindgen_test]
fn a_tidy_sheet_reads_as_the_same_dance() {
    let tidied = tidy(&SHEET.into(), &JsValue::UNDEFINED).expect("a short sheet");
    assert!(tidied.contains("Quayside Two"), "{tidied}");
}
