//! The command line as a person calls it: exit statuses, formats, encodings, order and errors.

use std::fs;
use std::path::{Path, PathBuf};

use assert_cmd::Command;
use predicates::prelude::*;
use predicates::str::{contains, is_empty};

const SHEET: &str = "\
LAMP AT THE QUAY
Count: 8  Wall: 4  Level: Beginner

Section 1
1-4 Vine right: step R to side, L behind, R to side, touch L
5-8 Vine left 1/4 turn: step L to side, R behind, turn 1/4 left stepping L forward, touch R (9:00)
";

fn halfcount(words: &[&str]) -> Command {
    let mut command = Command::new(assert_cmd::cargo::cargo_bin!("halfcount"));
    command.args(words).env_remove("NO_COLOR");
    command
}

/// A folder of its own for a test, empty at the start.
fn folder(test: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(test);
    if folder.exists() {
        fs::remove_dir_all(&folder).expect("the folder of an earlier run can be removed");
    }
    fs::create_dir_all(&folder).expect("a folder can be made");
    folder
}

fn write(folder: &Path, name: &str, bytes: impl AsRef<[u8]>) -> String {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().expect("a file is in a folder")).expect("a folder can be made");
    fs::write(&path, bytes).expect("a file can be written");
    path.to_str().expect("a plain path").to_owned()
}

/// A wrong call: status 2, nothing on standard output, one line on standard error.
#[track_caller]
fn wrong(words: &[&str], sentence: &str) {
    let one_line = predicate::function(|text: &str| text.lines().count() == 1 && text.ends_with('\n'));
    halfcount(words).assert().code(2).stdout(is_empty()).stderr(contains(sentence).and(one_line));
}

#[test]
fn help_tells_what_to_type() {
    halfcount(&["--help"]).assert().success().stdout(contains("Examples:").and(contains("Exit status:")));
    for command in ["check", "trace", "frames", "score", "tidy", "figures"] {
        halfcount(&[command, "--help"])
            .assert()
            .success()
            .stdout(contains("Examples:").and(contains("halfcount")));
    }
    halfcount(&["--version"]).assert().success().stdout(contains(env!("CARGO_PKG_VERSION")));
}

#[test]
fn a_wrong_call_gets_one_line() {
    wrong(&[], "no command was given");
    wrong(&["chek"], "there is no command chek; check is meant, perhaps");
    wrong(&["check"], "SHEET is missing");
    wrong(&["check", "--formt", "json", "x.txt"], "there is no option --formt; --format is meant, perhaps");
    wrong(&["check", "--format", "xml", "x.txt"], "--format does not take xml: text, json, sarif");
    wrong(&["frames", "--per-count", "5", "x.txt"], "--per-count does not take 5: use 1, 2, 3");
    wrong(&["frames", "--walls", "0", "x.txt"], "--walls does not take 0");
    wrong(&["trace", "--out"], "--out needs a value");
    wrong(&["trace", "-", "-"], "only once");
}

#[test]
fn a_file_that_cannot_be_read_gets_one_line() {
    let here = folder("unreadable");
    let path = |name: &str| here.join(name).to_str().expect("a plain path").to_owned();
    wrong(&["trace", &path("none.txt")], "none.txt: there is no such file");
    fs::create_dir(here.join("hall")).expect("a folder can be made");
    write(&here, "hall/picture.png", "x");
    wrong(&["trace", &path("hall")], "hall: there is no sheet in this folder");
    let blank = write(&here, "blank.txt", "\u{feff} \r\n\n");
    wrong(&["trace", &blank], "blank.txt: the file is empty");
    let long = write(&here, "long.txt", "1 step R\n".repeat(120_000));
    wrong(&["trace", &long], "long.txt: over 1 MiB");
    let limit = write(&here, "limit.txt", " \n".repeat(1 << 19) + "x");
    wrong(&["trace", &limit], "limit.txt: over 1 MiB");
}

#[test]
fn a_bad_sheet_does_not_keep_the_others_back() {
    let here = folder("others");
    let good = write(&here, "good.txt", SHEET);
    let bad = write(&here, "bad.txt", "");
    let two = predicate::function(|text: &str| text.lines().count() == 2);
    for command in ["check", "trace"] {
        halfcount(&[command, &good, &bad, &good]).assert().code(2).stderr(contains("bad.txt"));
    }
    halfcount(&["trace", &good, &bad, &good]).assert().code(2).stdout(two);
}

#[test]
fn many_sheets_are_answered_in_the_order_given() {
    let here = folder("order");
    let mut names = Vec::new();
    for n in (0..40).rev() {
        names.push(write(
            &here,
            &format!("sheet-{n:02}.txt"),
            SHEET.replace("QUAY", &"QUAY ".repeat(n % 7 + 1)),
        ));
    }
    let words: Vec<&str> = std::iter::once("trace").chain(names.iter().map(String::as_str)).collect();
    assert_eq!(files(&words), names);
}

#[test]
fn a_folder_means_all_sheets_under_it_in_order() {
    let here = folder("folder");
    let mut expected = Vec::new();
    for name in ["a.txt", "b/a.md", "b/c/z.text", "b.TXT"] {
        expected.push(write(&here, name, SHEET));
    }
    for name in [".hidden.txt", ".git/a.txt", "notes.json", "txt"] {
        write(&here, name, "no sheet");
    }
    expected.sort();
    let top = here.to_str().expect("a plain path").to_owned();
    let mut twice = expected.clone();
    twice.extend(expected);
    assert_eq!(files(&["trace", &top, &top]), twice);
}

/// The `file` of each line that `trace` prints.
#[track_caller]
fn files(words: &[&str]) -> Vec<String> {
    let answer = halfcount(words).assert().success().stderr(is_empty());
    let text = String::from_utf8(answer.get_output().stdout.clone()).expect("UTF-8");
    let file = |line: &str| {
        let value: serde_json::Value = serde_json::from_str(line).expect("each line is JSON");
        value["file"].as_str().expect("a name").to_owned()
    };
    text.lines().map(file).collect()
}

#[test]
fn standard_input_is_a_sheet() {
    let answer = contains(r#"{"file":"-","#);
    halfcount(&["trace", "-"]).write_stdin(SHEET).assert().success().stdout(answer);
    halfcount(&["check", "-"])
        .write_stdin(" ")
        .assert()
        .code(2)
        .stderr(contains("standard input: the file is empty"));
}

#[test]
fn an_old_encoding_is_read_with_a_note() {
    let here = folder("encodings");
    let old = write(&here, "old.txt", b"Chass\xe9 at the Quay\n1-2 Turn \xbd right stepping R L\n");
    let note = contains("old.txt: not UTF-8, read as Windows-1252");
    halfcount(&["trace", &old]).assert().success().stderr(note).stdout(contains("\"file\""));
    let marked = write(&here, "marked.txt", format!("\u{feff}{}", SHEET.replace('\n', "\r\n")));
    halfcount(&["trace", &marked]).assert().success().stderr(is_empty());
}

#[test]
fn the_answer_goes_to_a_file() {
    let here = folder("out");
    let sheet = write(&here, "sheet.txt", SHEET);
    let out = here.join("answer.jsonl").to_str().expect("a plain path").to_owned();
    halfcount(&["trace", &sheet, "--out", &out]).assert().success().stdout(is_empty());
    let expected = halfcount(&["trace", &sheet]).assert().get_output().stdout.clone();
    assert_eq!(fs::read(&out).expect("the answer"), expected);

    wrong(&["trace", &sheet, "--out", &sheet], "this is the sheet itself");
    assert_eq!(fs::read_to_string(&sheet).expect("the sheet is still there"), SHEET);
    let lost = here.join("none/answer.jsonl").to_str().expect("a plain path").to_owned();
    wrong(&["trace", &sheet, "--out", &lost], "answer.jsonl: there is no such file or folder");
    wrong(&["trace", &sheet, "--out", here.to_str().expect("a plain path")], "this is a folder");
}

#[test]
fn findings_come_in_three_formats() {
    let here = folder("formats");
    let sheet = write(&here, "sheet.txt", SHEET);
    halfcount(&["check", &sheet]).assert().success().stdout(contains("1 sheet read: "));

    let answer = halfcount(&["check", "--format", "json", &sheet, &sheet]).assert().success();
    let list: serde_json::Value = serde_json::from_slice(&answer.get_output().stdout).expect("JSON");
    let list = list.as_array().expect("an array");
    assert_eq!(list.len(), 2);
    for (field, is_right) in [
        ("file", list[0]["file"] == sheet.as_str()),
        ("errors", list[0]["errors"] == 0),
        ("findings", list[0]["findings"].is_array()),
        ("unread", list[0]["unread"].is_array()),
    ] {
        assert!(is_right, "{field} in {}", list[0]);
    }

    let answer = halfcount(&["check", "--format", "sarif", &sheet]).assert().success();
    let log: serde_json::Value = serde_json::from_slice(&answer.get_output().stdout).expect("JSON");
    assert_eq!(log["version"], "2.1.0");
    assert_eq!(log["runs"][0]["tool"]["driver"]["name"], "halfcount");
    assert!(log["runs"][0]["results"].is_array());
}

#[test]
fn frames_begin_with_the_published_header() {
    let here = folder("frames");
    let sheet = write(&here, "sheet.txt", SHEET);
    let header = "part,section,count,tick,facing,left_x,left_y,left_toe,left_sole,left_weight,\
        right_x,right_y,right_toe,right_sole,right_weight\n";
    halfcount(&["frames", &sheet]).assert().success().stdout(predicate::str::starts_with(header));
    let json = predicate::function(|text: &str| serde_json::from_str::<serde_json::Value>(text).is_ok());
    halfcount(&["frames", "--format", "json", &sheet]).assert().success().stdout(json);
}

#[test]
fn the_body_of_the_dancer_is_taken_or_refused_in_a_line() {
    let here = folder("body");
    let sheet = write(&here, "sheet.txt", SHEET);
    let width = |words: &[&str]| -> f64 {
        let answer = halfcount(&[&["trace", &*sheet], words].concat()).assert().success();
        let line: serde_json::Value = serde_json::from_slice(&answer.get_output().stdout).expect("JSON");
        line["floor"]["width_cm"].as_f64().expect("a number")
            + line["floor"]["depth_cm"].as_f64().expect("a number")
    };
    // Drillis and Contini (1966): lengths are shares of the stature, so that who is taller needs more floor.
    let (short, tall) = (width(&["--stature", "150"]), width(&["--stature", "190"]));
    assert!((tall / short - 190.0 / 150.0).abs() < 0.03, "{short} and {tall}");
    assert!(width(&["--foot-length", "34"]) > width(&[]) + 5.0, "toes and heels reach further");
    assert!(width(&["--hip-breadth", "42"]) > width(&[]) + 5.0, "feet that step apart stand wider");
    for command in ["check", "trace", "frames", "score", "draw"] {
        wrong(&[command, "--leg-length", "9", &sheet], "--leg-length does not take 9");
        wrong(&[command, "--stature", "90", &sheet], "--stature does not take 90");
    }
}

#[test]
fn figures_are_listed_and_shown() {
    halfcount(&["figures"]).assert().success().stdout(contains("Lindy").and(contains("1&2 3 4")));
    // Common practice: a jazz box has four steps in four counts.
    let jazz_box = || contains("R cross").and(contains("4 (1 2 3 4)"));
    for words in [&["figures", "jazz box"][..], &["figures", "Jazz", "Box"]] {
        halfcount(words).assert().success().stdout(jazz_box());
    }
    let answer = halfcount(&["figures", "--format", "json"]).assert().success();
    let list: serde_json::Value = serde_json::from_slice(&answer.get_output().stdout).expect("JSON");
    let list = list.as_array().expect("an array");
    assert!(list.len() >= 263 && list.iter().all(|f| f["steps"].as_array().is_some_and(|s| !s.is_empty())));
    wrong(&["figures", "sailr step"], "no figure is called sailr step; near it are: Sailor step");
}

#[test]
fn a_score_tells_its_range_its_parts_and_that_it_is_provisional() {
    let folder = folder("score-text");
    let sheet = write(&folder, "lamp.txt", SHEET);
    let parts = contains("of 100, between").and(contains("Made of")).and(contains("Hardest eight counts"));
    halfcount(&["score", &sheet])
        .assert()
        .success()
        .stdout(parts.and(contains("a default because the sheet gives none")).and(contains("Provisional:")));
    halfcount(&["score", "--explain", "--bpm", "100", &sheet])
        .assert()
        .success()
        .stdout(contains("Every measure").and(contains("turn_total")).and(contains("tempo    100 beats")));
    wrong(&["score", "--bpm", "9", &sheet], "--bpm does not take 9");
}

#[test]
fn scores_are_a_table_with_a_dictionary() {
    let folder = folder("score-csv");
    let sheet = write(&folder, "lamp, second.txt", SHEET);
    let unread = write(&folder, "odd.txt", SHEET.replace("5-8 Vine", "5-6 Zorble quux\n7-8 Vine"));
    let table = halfcount(&["score", "--format", "csv", &sheet, &unread]).output().expect("it runs").stdout;
    let table = String::from_utf8(table).expect("UTF-8");
    let rows: Vec<&str> = table.lines().collect();
    assert!(rows[0].starts_with("file,score,level,low,high,counts,length,"), "{}", rows[0]);
    assert!(rows[1].starts_with('"') && rows[1].contains("lamp, second.txt\","), "{}", rows[1]);
    let columns = rows[0].split(',').count();
    assert_eq!(rows[1].split(',').count(), columns + 1, "one comma is in the file's name");
    let cells: Vec<&str> = rows[2].split(',').collect();
    assert_eq!((cells.len(), cells[1], cells[2]), (columns, "", ""), "bounds and no score");
    assert!(cells[3].parse::<f64>().expect("a bound") < cells[4].parse().expect("a bound"));
    let book = halfcount(&["score", "--dictionary", "--format", "csv"]).output().expect("it runs").stdout;
    let book = String::from_utf8(book).expect("UTF-8");
    let names: Vec<&str> = book.lines().skip(1).filter_map(|line| line.split(',').next()).collect();
    assert_eq!(names.join(","), rows[0], "a line of the dictionary for each column");
    halfcount(&["score", "--dictionary"])
        .assert()
        .success()
        .stdout(contains("changes_mean (pace), in a second"));
}

#[test]
fn a_score_is_an_object_of_the_published_form() {
    let folder = folder("score-json");
    let sheet = write(&folder, "lamp.txt", SHEET);
    let line = halfcount(&["score", "--format", "json", &sheet]).output().expect("it runs").stdout;
    let told: serde_json::Value = serde_json::from_slice(&line).expect("one object");
    let schema = halfcount(&["score", "--schema"]).output().expect("it runs").stdout;
    let schema: serde_json::Value = serde_json::from_slice(&schema).expect("a schema");
    let keys = |value: &serde_json::Value| value.as_object().map(|o| o.keys().cloned().collect::<Vec<_>>());
    assert_eq!(keys(&told), keys(&schema["properties"]));
    assert_eq!(told["provisional"], true);
    assert_eq!(told["profile"].as_array().map(Vec::len), Some(8));
    let again = halfcount(&["score", "--format", "json", &sheet]).output().expect("it runs").stdout;
    assert_eq!(line, again, "same input, same bytes");
}

#[test]
fn weights_of_ones_own_are_taken_or_refused_in_a_line() {
    let folder = folder("score-weights");
    let sheet = write(&folder, "lamp.txt", SHEET);
    let own = write(&folder, "own.tsv", "version\tours\nweight\tturn_total\t10\n");
    halfcount(&["score", "--weights", &own, &sheet]).assert().success().stdout(contains("weights  ours"));
    let bad = write(&folder, "bad.tsv", "weight\tturn_total\t-1\n");
    wrong(&["score", "--weights", &bad, &sheet], "line 1: the weight of turn_total is below zero");
    wrong(&["score", "--weights", "nowhere.tsv", &sheet], "nowhere.tsv: there is no such file");
    wrong(&["score"], "SHEET is missing");
}

#[test]
fn the_easier_option_of_a_sheet_is_scored() {
    let folder = folder("score-easier");
    let option = "Easier option: counts 5-8 walk back L, R, L, touch R instead of the vine.\n";
    let sheet = write(&folder, "lamp.txt", format!("{SHEET}{option}"));
    halfcount(&["score", &sheet]).assert().success().stdout(contains("with the sheet's easier option"));
}

/// A sheet whose last clock is wrong by itself: the mend is sure.
const WRONG_TOTAL: &str = "Saltmarsh Stroll\n32 counts, 1 wall, beginner, starts on the right foot\n\nSection 1\n1-2 Step R to side, step L beside R\n3-4 Step R to side, touch L beside R\n5-6 Step L to side, step R beside L\n7-8 Step L to side, touch R beside L\n";

#[test]
fn sure_mends_are_written_and_the_old_text_is_kept() {
    let folder = std::env::temp_dir().join(format!("halfcount-fix-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let sheet = folder.join("stroll.txt");
    std::fs::write(&sheet, WRONG_TOTAL).expect("a sheet");
    let run = |words: &[&str]| {
        let mut call = assert_cmd::Command::cargo_bin("halfcount").expect("the binary");
        call.arg("check").args(words).arg(&sheet).assert()
    };
    run(&["--fix"]).code(0);
    assert_eq!(std::fs::read_to_string(&sheet).expect("the sheet"), WRONG_TOTAL);
    run(&["--fix", "--write"]).code(0);
    let mended = std::fs::read_to_string(&sheet).expect("the sheet");
    assert!(mended.contains("8 counts, 1 wall"), "{mended}");
    let before = folder.join("stroll.txt.before");
    assert_eq!(std::fs::read_to_string(&before).expect("the old text"), WRONG_TOTAL);
    run(&["--write"]).code(2);
    run(&["--allow", "no-such-rule"]).code(2);
    run(&["--allow", "total-differs"]).code(0);
    let files = std::fs::read_dir(&folder).expect("the folder").count();
    assert_eq!(files, 2, "no other file is left");
    std::fs::remove_dir_all(&folder).expect("the folder goes");
}

#[test]
fn tidy_prints_a_clean_sheet_and_one_on_the_other_foot() {
    let folder = folder("tidy");
    let text = "Quay Walk\n8 counts, 1 wall\n\n1-4 vine R w/ touch\n5-8 vine L w/ touch\n";
    let sheet = write(&folder, "quay.txt", text);
    halfcount(&["tidy", &sheet])
        .assert()
        .success()
        .stdout(contains("5-8     Left grapevine with touch: step left to left side"));
    halfcount(&["tidy", "--mirror", &sheet]).assert().success().stdout(
        contains("Begin with the weight on the right foot")
            .and(contains("1-4     Left grapevine with touch: step left to left side")),
    );
    wrong(&["tidy", &sheet, "--out", &sheet], "give --out another name");
}

#[test]
fn a_song_is_called_captioned_and_clicked() {
    let folder = folder("call");
    let sheet = write(&folder, "lamp.txt", SHEET);
    halfcount(&["call", "--bpm", "100", &sheet]).assert().success().stdout(contains("1 vine right"));
    halfcount(&["call", "--plan", &sheet]).assert().success().stdout(contains("KNOW FIRST"));
    halfcount(&["call", "--format", "webvtt", &sheet])
        .assert()
        .success()
        .stdout(predicate::str::starts_with("WEBVTT\n\n"));
    let clicks = folder.join("clicks.mid");
    let name = clicks.to_str().expect("a plain path");
    halfcount(&["call", "--format", "midi", "--out", name, &sheet]).assert().success().stdout(is_empty());
    assert!(fs::read(&clicks).expect("a file was written").starts_with(b"MThd"));
    halfcount(&["call", "--length", "64c", "--phrases", "16 8 32", &sheet])
        .assert()
        .success()
        .stdout(contains("AGAINST THE MUSIC"));
    wrong(&["call", "--bpm", "1000", &sheet], "20 to 400");
    wrong(&["call", "--phrases", "0", &sheet], "1 to 1000");
    wrong(&["call", "--format", "midi", &sheet, &sheet], "one sheet at a time");
}
