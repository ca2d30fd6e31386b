//! What a sheet truly says, worked out by hand, and what differs from it.
#![allow(dead_code, reason = "not every test looks at everything")]

#[path = "../small/traces.rs"]
mod traces;

use halfcount::trace::Trace;
use serde_json::Value;

pub(crate) use traces::weights;

/// A truth file.
pub(crate) struct Truth {
    /// All its fields.
    pub value: Value,
    /// Whether the sheet has no fault.
    pub sound: bool,
    /// The section of its one fault, where it has one and it is in a section.
    pub fault_section: Option<u32>,
}

impl Truth {
    pub(crate) fn parse(text: &str) -> Option<Self> {
        let value: Value = serde_json::from_str(text).ok()?;
        let place = value["fault"]["where"].as_str().unwrap_or_default();
        let digits = place.split_once("section ").map(|(_, after)| after);
        let digits = digits.map(|a| a.chars().take_while(char::is_ascii_digit).collect::<String>());
        let fault_section = digits.and_then(|d| d.parse().ok());
        Some(Self { sound: value["valid"] == true, fault_section, value })
    }

    pub(crate) fn sections(&self) -> usize {
        list(&self.value["sections"]).len()
    }
}

/// What holds of a reading.
pub(crate) struct Held {
    /// Sections with every weight, facing and count right.
    pub sections: usize,
    /// What is not.
    pub differs: Vec<String>,
}

/// Holds a reading against the truth.
pub(crate) fn held(truth: &Truth, traced: &Trace) -> Held {
    let told = serde_json::to_value(traced).unwrap_or_default();
    let truth = &truth.value;
    let mut differs = Vec::new();
    for field in ["counts", "walls", "start_foot", "beats_per_bar"] {
        same(&mut differs, field, &told[field], &truth[field]);
    }
    let (mine, own) = (list(&told["sections"]), list(&truth["sections"]));
    if mine.len() != own.len() {
        differs.push(format!("{} sections, not {}", mine.len(), own.len()));
    }
    let mut sections = 0;
    for (index, (told, truth)) in mine.iter().zip(own).enumerate() {
        let before = differs.len();
        let place = format!("section {}", index + 1);
        entry(&mut differs, &place, told, truth, &["counts", "trace", "facing_end", "weight_end"]);
        sections += usize::from(differs.len() == before);
    }
    for (kind, key, fields) in [
        ("tags", "after_wall", &["counts", "trace", "facing", "facing_end", "weight_end"][..]),
        ("restarts", "wall", &["after_counts", "facing", "changed_trace"][..]),
    ] {
        for truth in list(&truth[kind]) {
            let place = format!("{kind} at wall {}", truth[key]);
            match list(&told[kind]).iter().find(|told| told[key] == truth[key]) {
                Some(told) => entry(&mut differs, &place, told, truth, fields),
                None => differs.push(format!("{place}: missing")),
            }
        }
        if list(&told[kind]).len() != list(&truth[kind]).len() {
            differs.push(format!("{} {kind}, not {}", list(&told[kind]).len(), list(&truth[kind]).len()));
        }
    }
    Held { sections, differs }
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

/// Compares the fields that the truth knows.
fn entry(differs: &mut Vec<String>, place: &str, told: &Value, truth: &Value, fields: &[&str]) {
    for field in fields.iter().filter(|field| !truth[**field].is_null()) {
        let place = format!("{place}, {field}");
        if field.ends_with("trace") {
            let [told, truth] = [told, truth].map(|t| t[*field].as_str().unwrap_or_default());
            if weights(told) != weights(truth) {
                differs.push(format!("{place}: {told}, not {truth}"));
            }
        } else {
            same(differs, &place, &told[*field], &truth[*field]);
        }
    }
}

fn same(differs: &mut Vec<String>, place: &str, told: &Value, truth: &Value) {
    if told != truth {
        differs.push(format!("{place}: {told}, not {truth}"));
    }
}
