//! Findings in SARIF 2.1.0, the open format of editors and build servers for results of checks.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use halfcount::check::{Finding, Severity};
use halfcount::text::{LineIndex, Span};
use serde_json::{Value, json};

const SCHEMA: &str =
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/// What the log says about one sheet.
#[derive(Debug)]
pub(crate) struct Sheet {
    uri: String,
    /// Rules and results, in order.
    results: Vec<(&'static str, Value)>,
}

/// The results of one sheet.
pub(crate) fn sheet(name: &str, text: &str, findings: &[Finding]) -> Sheet {
    let uri = uri(name);
    let lines = LineIndex::new(text);
    let results = findings.iter().map(|f| (f.rule, result(&uri, text, &lines, f))).collect();
    Sheet { uri, results }
}

/// The whole log.
pub(crate) fn log(sheets: &[Sheet], all_read: bool) -> String {
    let names: BTreeSet<&str> = sheets.iter().flat_map(|s| &s.results).map(|r| r.0).collect();
    let names: Vec<&str> = names.into_iter().collect();
    let with_index = |(rule, result): &(&'static str, Value)| {
        let mut result = result.clone();
        result["ruleIndex"] = json!(names.binary_search(rule).unwrap_or(0));
        result
    };
    let results: Vec<Value> = sheets.iter().flat_map(|s| &s.results).map(with_index).collect();
    let rules: Vec<Value> = names.iter().map(|name| rule(name)).collect();
    let artifacts: Vec<Value> = sheets.iter().map(|s| json!({ "location": { "uri": s.uri } })).collect();
    let log = json!({
        "$schema": SCHEMA,
        "version": "2.1.0",
        "runs": [{
            "tool": { "driver": {
                "name": "halfcount",
                "semanticVersion": env!("CARGO_PKG_VERSION"),
                "rules": rules,
            } },
            "columnKind": "unicodeCodePoints",
            "invocations": [{ "executionSuccessful": all_read }],
            "artifacts": artifacts,
            "results": results,
        }],
    });
    format!("{log:#}\n")
}

/// A rule with its page: the first paragraph says what it finds.
fn rule(name: &str) -> Value {
    let page = halfcount::check::rules().iter().find(|r| r.name == name).map_or("", |r| r.page);
    let first = page.split("\n\n").nth(1).unwrap_or("").replace('\n', " ");
    if first.is_empty() {
        return json!({ "id": name });
    }
    json!({ "id": name, "shortDescription": { "text": first }, "help": { "text": page, "markdown": page } })
}

fn result(uri: &str, text: &str, lines: &LineIndex, finding: &Finding) -> Value {
    let location =
        |span: Span| json!({ "artifactLocation": { "uri": uri }, "region": region(text, lines, span) });
    let level = match finding.severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Note => "note",
    };
    let mut result = json!({
        "ruleId": finding.rule,
        "level": level,
        "message": { "text": finding.message },
        "locations": [{ "physicalLocation": location(finding.span) }],
        "properties": {
            "part": finding.part,
            "section": finding.section,
            "count": finding.at.map(|at| at.to_string()),
        },
    });
    if !finding.related.is_empty() {
        let one = |r: &halfcount::check::Related| json!({ "message": { "text": r.label }, "physicalLocation": location(r.span) });
        result["relatedLocations"] = finding.related.iter().map(one).collect();
    }
    if !finding.fixes.is_empty() {
        let one = |fix: &halfcount::check::Fix| {
            let edit = |e: &halfcount::text::Edit| {
                json!({
                    "deletedRegion": region(text, lines, e.span),
                    "insertedContent": { "text": e.text },
                })
            };
            let replacements: Vec<Value> = fix.edits.iter().map(edit).collect();
            json!({
                "description": { "text": fix.title },
                "artifactChanges": [{ "artifactLocation": { "uri": uri }, "replacements": replacements }],
                "properties": { "sureness": fix.sureness.word() },
            })
        };
        result["fixes"] = finding.fixes.iter().map(one).collect();
    }
    result
}

/// Lines and columns only: a sheet in an older encoding has other bytes than the text that was checked.
fn region(text: &str, lines: &LineIndex, span: Span) -> Value {
    let (start_line, start_column) = lines.place(text, span.start);
    let (end_line, end_column) = lines.place(text, span.end);
    json!({
        "startLine": start_line,
        "startColumn": start_column,
        "endLine": end_line,
        "endColumn": end_column,
    })
}

/// A file's name as a reference of RFC 3986: relative as it was given, or with a scheme where it is absolute.
fn uri(name: &str) -> String {
    let name = name.replace('\\', "/");
    let mut uri = String::new();
    if name.starts_with('/') {
        uri.push_str("file://");
    } else if name.as_bytes().get(1) == Some(&b':') {
        uri.push_str("file:///");
    }
    for byte in name.bytes() {
        let drive = byte == b':' && uri.starts_with("file:///");
        if byte.is_ascii_alphanumeric() || b"-._~/".contains(&byte) || drive {
            uri.push(char::from(byte));
        } else {
            // Writing to a string never fails.
            let _ = write!(uri, "%{byte:02X}");
        }
    }
    uri
}

#[cfg(test)]
mod tests {
    use super::*;
    use halfcount::check::{Fix, Sureness};
    use halfcount::text::Edit;

    #[test]
    fn names_become_references() {
        for (name, expected) in [
            ("sheets/tin roof.txt", "sheets/tin%20roof.txt"),
            ("/hall/é.txt", "file:///hall/%C3%A9.txt"),
            ("C:\\dances\\a.txt", "file:///C:/dances/a.txt"),
            ("-", "-"),
        ] {
            assert_eq!(uri(name), expected);
        }
    }

    #[test]
    fn a_finding_has_its_rule_place_and_mend() {
        let text = "½ turn\n3 step R";
        let span = Span::new(10, 16);
        let finding = Finding {
            rule: "weight-not-free",
            severity: Severity::Warning,
            span,
            part: "main".into(),
            section: Some(1),
            at: None,
            message: "The right foot has the weight already.".into(),
            related: Vec::new(),
            fixes: vec![Fix {
                title: "step on the left foot".into(),
                sureness: Sureness::Sure,
                edits: vec![Edit { span, text: "step L".into() }],
            }],
        };
        let written = log(&[sheet("a.txt", text, &[]), sheet("b.txt", text, &[finding])], true);
        let log: Value = serde_json::from_str(&written).expect("valid JSON");
        let run = &log["runs"][0];
        assert_eq!(run["artifacts"].as_array().map(Vec::len), Some(2));
        let result = &run["results"][0];
        assert_eq!(result["ruleId"], run["tool"]["driver"]["rules"][0]["id"]);
        let place = &result["locations"][0]["physicalLocation"];
        assert_eq!(place["artifactLocation"]["uri"], "b.txt");
        assert_eq!(
            place["region"],
            json!({ "startLine": 2, "startColumn": 3, "endLine": 2, "endColumn": 9 })
        );
        let replacement = &result["fixes"][0]["artifactChanges"][0]["replacements"][0];
        assert_eq!(replacement["insertedContent"]["text"], "step L");
    }
}
