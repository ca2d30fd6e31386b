//! The figures of the accuracy report stand in `DEVELOPERS.md`, and none of them may fall.
//!
//! `cargo xtask accuracy` prints them, `cargo xtask accuracy --record` writes them down.

mod measure;

use std::fs;
use std::path::Path;

/// A figure as it stands in a cell: `97.3 % of 120` or a plain number of false alarms.
fn figure(cell: &str) -> Option<f64> {
    cell.split_whitespace().next()?.parse().ok()
}

#[test]
fn no_recorded_figure_falls() {
    let map = Path::new(env!("CARGO_MANIFEST_DIR")).join("DEVELOPERS.md");
    let map = fs::read_to_string(map).expect("the map is there");
    let block = map.split_once("```text\nmanner").and_then(|(_, after)| after.split_once("```"));
    let block = block.expect("the report stands in the map").0;

    let measured = measure::measure(&[measure::own()]);
    let rows = measure::rows(&measured);
    let mut fallen = Vec::new();
    let mut held = 0;
    for line in block.lines().skip(1).filter(|l| !l.is_empty() && !l.starts_with("seeded")) {
        // Cells are apart by two blanks or more.
        let cells: Vec<&str> = line.split("  ").map(str::trim).filter(|c| !c.is_empty()).collect();
        let (name, recorded) = cells.split_first().expect("a row has a name");
        let Some((_, now)) = rows.iter().find(|(n, _)| n == name) else {
            fallen.push(format!("{name}: nothing is measured any more"));
            continue;
        };
        for (index, (recorded, now)) in recorded.iter().zip(now).enumerate() {
            let (Some(before), Some(after)) = (figure(recorded), figure(now)) else { continue };
            // False alarms are the one figure that may only fall.
            let alarms = !recorded.contains('%');
            held += 1;
            if (alarms && after > before) || (!alarms && after < before) {
                fallen.push(format!("{name}, column {}: {now}, recorded {recorded}", index + 1));
            }
        }
    }
    assert!(held > 40, "only {held} figures are recorded");
    assert!(fallen.is_empty(), "{}", fallen.join("\n"));
}
