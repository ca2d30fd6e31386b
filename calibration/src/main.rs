//! Where the weights of the score come from, and studies of one's own.
//!
//! `calibrate` writes `src/difficulty/weights.tsv` and `calibration/record.md` from `calibration/labels.tsv`;
//! `--check` says whether they are as a run would write them; `--pairs FILE` fits strengths to judgements which
//! of two dances is harder; `--oracles` prints values that other programs compute as well.
#![allow(clippy::print_stdout, clippy::print_stderr, reason = "a command of the terminal")]

mod agreement;
mod fit;
mod labels;
mod oracles;
mod pairs;
mod record;
mod stats;

use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::{env, fs};

fn main() -> ExitCode {
    let words: Vec<String> = env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let done = match words.as_slice() {
        [] => run(false),
        ["--check"] => run(true),
        ["--pairs", file] => judgements(Path::new(file)),
        ["--oracles"] => {
            print!("{}", oracles::values());
            Ok(())
        }
        _ => Err("use no words, --check, --pairs FILE or --oracles".to_owned()),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => {
            eprintln!("calibrate: {sentence}");
            ExitCode::FAILURE
        }
    }
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().map(Path::to_path_buf).unwrap_or_default()
}

fn run(check: bool) -> Result<(), String> {
    let root = root();
    let labelled = labels::labelled(&root.join("calibration/labels.tsv"), &root.join("tests/sheets"))?;
    let outcome = record::calibrate(&labelled);
    for (name, text) in
        [("src/difficulty/weights.tsv", &outcome.weights), ("calibration/record.md", &outcome.record)]
    {
        let path = root.join(name);
        if check {
            let there = fs::read_to_string(&path).unwrap_or_default();
            if there != *text {
                return Err(format!("{name} is not what a run writes; run cargo xtask calibrate"));
            }
        } else {
            fs::write(&path, text).map_err(|error| format!("{name}: {error}"))?;
            println!("{name} written");
        }
    }
    if !check {
        println!("\n{}", outcome.record);
    }
    Ok(())
}

/// Strengths from a table of judgements. Where a dance's name is a file beside the table, its score is shown too.
fn judgements(file: &Path) -> Result<(), String> {
    let say = |error: &dyn std::fmt::Display| format!("{}: {error}", file.display());
    let text = fs::read_to_string(file).map_err(|error| say(&error))?;
    let judgements = pairs::Judgements::parse(&text).map_err(|error| say(&error))?;
    if judgements.all.is_empty() {
        return Err(say(&"there is no judgement in it"));
    }
    let beside = file.parent().unwrap_or(Path::new("."));
    let score = |name: &str| {
        let text = fs::read_to_string(beside.join(name)).ok()?;
        let (measures, _) = labels::measured(&text).ok()?;
        Some(measures.iter().map(|m| m.points).sum::<f64>().clamp(0.0, 100.0))
    };
    print!("{}", pairs::page(&judgements, score));
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_labels_are_those_of_the_marks_and_the_truth_files() {
        let root = root();
        let labels = fs::read_to_string(root.join("calibration/labels.tsv")).expect("there are labels");
        let marks = fs::read_to_string(root.join("tests/data/marks.tsv")).expect("there are marks");
        let rows: Vec<Vec<&str>> = labels.lines().skip(1).map(|l| l.split('\t').collect()).collect();
        assert!(rows.len() >= 21, "the labelled sheets were found");
        for row in &rows {
            let truth = root.join("tests/sheets").join(row[0].replace(".txt", ".json"));
            let truth = fs::read_to_string(truth).expect("each sheet has its truth");
            assert!(truth.contains(&format!("\"level\": \"{}\"", row[2])), "{}", row[0]);
            let mark = format!("{}\t{}\t{}", row[0], row[3], row[4]);
            assert_eq!(!row[3].is_empty(), marks.lines().any(|line| line == mark), "{}", row[0]);
        }
        assert_eq!(rows.iter().filter(|r| !r[3].is_empty()).count(), marks.lines().count() - 1);
    }

    #[test]
    fn two_runs_write_the_same() {
        let root = root();
        // The marked sheets alone, so that the test does not last.
        let labelled = labels::labelled(&root.join("calibration/labels.tsv"), &root.join("tests/sheets"));
        let mut labelled = labelled.expect("labels");
        labelled.retain(|l| l.case.trust >= 1.0);
        let [a, b] = [0, 1].map(|_| record::calibrate(&labelled));
        assert_eq!((a.weights, a.record), (b.weights, b.record));
    }
}
