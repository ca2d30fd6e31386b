//! Scores as a table, and the dictionary of its columns.

use std::fmt::Write as _;

use halfcount::difficulty::number::decimal;
use halfcount::difficulty::{Column, Score, Weights, columns};
use serde::Serialize;

use super::super::Failure;
use super::Format;
use halfcount::difficulty::Number;

/// Decimals of a measure in the table.
const PLACES: usize = 6;

/// The header line.
pub(super) fn header() -> String {
    let names: Vec<&str> = columns(&Weights::default()).iter().map(|c| c.name).collect();
    names.join(",") + "\n"
}

/// The row of one sheet.
pub(super) fn row(file: &str, score: &Score) -> String {
    let total = score.total.map(|total| decimal(total, 2)).unwrap_or_default();
    let level = score.level.unwrap_or_default();
    let mut row =
        format!("{},{total},{level},{},{}", cell(file), decimal(score.low, 2), decimal(score.high, 2));
    for measure in &score.measures {
        // Writing to a string never fails.
        let _ = write!(row, ",{}", decimal(measure.value, PLACES));
    }
    row + "\n"
}

/// A cell after RFC 4180: in quotes where it holds a comma, a quote or a line's end.
fn cell(text: &str) -> String {
    if text.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_owned()
    }
}

#[derive(Debug, Serialize)]
struct ColumnJson<'a> {
    name: &'a str,
    family: &'a str,
    unit: &'a str,
    range: &'a str,
    says: &'a str,
    source: &'a str,
    floor: Option<Number>,
    notch: Option<Number>,
    curve: Option<&'a str>,
    weight: Option<Number>,
}

/// The data dictionary.
pub(super) fn dictionary(format: Format, weights: &Weights) -> Result<String, Failure> {
    let columns = columns(weights);
    match format {
        Format::Csv => {
            let mut page = "name,family,unit,range,floor,notch,curve,weight,says,source\n".to_owned();
            for c in &columns {
                let number = |n: Option<f64>| n.map(|n| decimal(n, 4)).unwrap_or_default();
                let cells = [
                    cell(c.name),
                    cell(c.family),
                    cell(c.unit),
                    cell(&c.range),
                    number(c.floor),
                    number(c.notch),
                    c.curve.unwrap_or_default().to_owned(),
                    number(c.weight),
                    cell(c.says),
                    cell(c.source),
                ];
                page += &(cells.join(",") + "\n");
            }
            Ok(page)
        }
        Format::Json => {
            let all: Vec<ColumnJson> = columns.iter().map(json).collect();
            let page = serde_json::to_string_pretty(&all);
            page.map(|page| page + "\n").map_err(|error| Failure::Call(error.to_string()))
        }
        Format::Text => Ok(columns.iter().map(text).collect()),
    }
}

fn json(column: &Column) -> ColumnJson<'_> {
    ColumnJson {
        name: column.name,
        family: column.family,
        unit: column.unit,
        range: &column.range,
        says: column.says,
        source: column.source,
        floor: column.floor.map(Number),
        notch: column.notch.map(Number),
        curve: column.curve,
        weight: column.weight.map(Number),
    }
}

fn text(column: &Column) -> String {
    let mut entry = format!("{} ({}), in {}", column.name, column.family, column.unit);
    if !column.range.is_empty() {
        let _ = write!(entry, "; usual: {}", column.range);
    }
    let _ = write!(entry, "\n  {}\n", column.says);
    if let (Some(floor), Some(notch), Some(weight)) = (column.floor, column.notch, column.weight) {
        let further = match column.curve {
            Some("line") => "as many for each further one",
            _ => "less for each further one: weight * 2 (sqrt(1 + notches) - 1)",
        };
        let [floor, notch, weight] = [floor, notch, weight].map(|n| decimal(n, 4));
        let _ = writeln!(
            entry,
            "  Scored: about {weight} points for the first {notch} above {floor}, {further}."
        );
    }
    if !column.source.is_empty() {
        let _ = writeln!(entry, "  Source: {}.", column.source);
    }
    entry
}
