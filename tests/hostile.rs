//! Hostile text: always an answer, in time and memory that the length of the text bounds.
//!
//! Work is counted in states of the search, sizes in bytes, so that a slow machine changes nothing.

use std::fs;
use std::path::Path;

use halfcount::call::{self, CallOptions, CaptionOptions, ClickOptions};
use halfcount::draw::{self, DrawOptions, Paper};
use halfcount::figures::lexicon;
use halfcount::tidy::{TidyOptions, tidy};
use halfcount::trace::trace;
use halfcount::{Error, LONGEST, Options, Report, read, report, sheet};

fn sheets() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sheets");
    let mut paths: Vec<_> = fs::read_dir(folder).expect("the folder").flatten().map(|e| e.path()).collect();
    paths.retain(|p| p.extension().is_some_and(|e| e == "txt"));
    paths.sort();
    assert!(paths.len() > 50, "the sheets of the tests are there");
    paths.iter().map(|p| fs::read_to_string(p).expect("a sheet is UTF-8")).collect()
}

fn read_all(text: &str) -> Report {
    report(text, &Options::default()).expect("a text of at most 1 MiB is read")
}

/// Everything that is made of a sheet; what comes out is bounded by the length of the text.
fn made(name: &str, text: &str) {
    let report = read_all(text);
    let dance = &report.dance;
    let options = DrawOptions::default();
    let song = call::song(dance, &CallOptions::default());
    let calls = call::calls(dance, &song);
    let sizes = [
        ("tidy", tidy(text, &TidyOptions::default()).expect("a short sheet").len()),
        ("drawing", draw::sheet(dance, text, &options).len()),
        ("page", draw::page(dance, text, Paper::A4, &options).len()),
        ("calls", call::page(dance, &song, &calls, &CallOptions::default()).len()),
        ("captions", call::captions(dance, &song, &calls, &CaptionOptions::default()).len()),
        ("clicks", call::click(dance, &song, &calls, &ClickOptions::default()).len()),
        ("lesson", call::lesson(dance).len()),
    ];
    for (what, size) in sizes {
        assert!(size < (1 << 22) + 4000 * text.len(), "{what} of {name}: {size} bytes");
    }
    assert!(song.end() <= call::LONGEST_SONG + 2000, "song of {name}: {} counts", song.end());
    assert!(!trace(&report, text, name).sections.is_empty() || dance.parts.iter().all(|p| p.counts() == 0));
}

#[test]
fn beginnings_and_sheets_without_a_line_are_read() {
    // All of it is tried by `fuzz sheet --every prefixes` and `--every lines`; here a few of each sheet.
    for (n, text) in sheets().iter().enumerate() {
        let borders: Vec<usize> = text.char_indices().map(|(at, _)| at).collect();
        for share in 1..4 {
            let at = borders[borders.len() * share / 4 + n % 7];
            read_all(&text[..at]);
        }
        let lines: Vec<&str> = text.split_inclusive('\n').collect();
        for share in 0..2 {
            let without = (lines.len() * share / 2 + n) % lines.len();
            read_all(&[&lines[..without], &lines[without + 1..]].concat().concat());
        }
    }
}

#[test]
fn a_million_of_one_sign_is_read() {
    let signs = [
        "a",
        "R",
        "1",
        "0",
        "&",
        "(",
        ")",
        "[",
        " ",
        "\n",
        "\t",
        "|",
        ".",
        "-",
        ",",
        "\"",
        ":",
        "/",
        "=",
        "\0",
        "\r",
        "é",
        "\u{301}",
        "\u{202e}",
        "\u{feff}",
        "\u{fffd}",
        "½",
        "\u{1f57a}",
    ];
    for sign in signs {
        let text = sign.repeat(1_000_000 / sign.len());
        assert!(text.len() <= LONGEST);
        let report = read_all(&text);
        assert!(report.findings.len() < 10_000, "{sign:?}: {} findings", report.findings.len());
    }
    let too_long = report(&"a".repeat(LONGEST + 1), &Options::default());
    assert_eq!(too_long, Err(Error::TooLong { bytes: LONGEST + 1 }));
}

/// Sheets that ask for much with few words.
const GREEDY: &[(&str, &str)] = &[
    ("a range without end", "A\n32 counts, 4 walls\n\n1-999999999 vine right\n"),
    (
        "a section without end",
        "A\n\nSection 1 (1-999999999)\n1-4 vine right\n\nSection 2 (999999999)\nvine left\n",
    ),
    (
        "counts and walls without end",
        "A\nCount: 4294967295 Wall: 4294967295 Intro: 4294967295\n\n1-4 vine right\n",
    ),
    ("a tempo without end", "A\nMusic: B (4294967295 bpm), intro 999999999 counts\n\n1-4 vine right\n"),
    (
        "a million quarters",
        "A\n\n1 step R turning 1000000/4 left\n2 turn 1000000 times 1/4 right on L\n3 999999999/4 turn R\n",
    ),
    ("turns that add up", "A\n\n1-4 full turn x999999999, 360000000 degrees left\n5-8 repeat x 999999999\n"),
    (
        "repeated without end",
        "A\n\n1-4 vine right\n5-8 repeat 1-4 999999999 times\nrepeat sections 1-999999999\nx 4294967295\n",
    ),
    (
        "a tag on every wall",
        "A\n4 counts, 4 walls\n\n1-4 vine right, touch\n\nTag after wall 999999999, 4 counts: sway R L R L\nRestart on wall 999999999 after 999999999 counts\n",
    ),
    (
        "a long song",
        "A\nSequence: A A B A999 B999999999 A A\n\nPart A\n1-4 vine right\n\nPart B\n1-4 vine left\n",
    ),
    (
        "numbers that are none",
        "A\n\n99999999999999999999 step R\n-1 step L\n1.5 step R\n1e9 step L\n0 hold\n",
    ),
    ("nothing", ""),
    ("a title", "A"),
    (
        "signs",
        "\0\u{feff}\u{202e}\u{301}\u{301}\u{301}1\u{301} ste\u{301}p R\u{200f}\n\u{2028}2 step L\0\0\n",
    ),
];

#[test]
fn sheets_that_ask_for_much_are_answered() {
    for (name, text) in GREEDY {
        made(name, text);
    }
}

#[test]
fn deep_brackets_and_many_sections_are_answered() {
    let deep = |open: &str, close: &str| {
        format!("A\n\n1-4 {}vine right{}\n", open.repeat(1_000), close.repeat(1_000))
    };
    for (open, close) in
        [("(", ")"), ("[", "]"), ("{", "}"), ("\"", "\""), ("<b>", "</b>"), ("*", "*"), ("(1 ", ")")]
    {
        read_all(&deep(open, close));
    }
    let many = |times: usize, block: &str| {
        let numbered: Vec<String> = (1..=times).map(|n| block.replace('#', &n.to_string())).collect();
        numbered.concat()
    };
    let report = read_all(&many(10_000, "Section #\n1-4 vine R, touch\n5-8 vine L, touch\n\n"));
    assert!(report.dance.main_sections().count() >= 9_999, "{}", report.dance.main_sections().count());
    let tags = many(500, "Tag # after wall #: 4 counts\n1-4 sway R L R L\n\n");
    read_all(&format!("A\n8 counts, 4 walls\n\n1-8 vine R, touch, vine L, touch\n\n{tags}"));
    let own = many(500, "Harbour step#: 1 step R forward, 2 touch L behind\n");
    read_all(&format!("{own}\n1-2 Harbour step1\n"));
}

#[test]
fn ten_times_the_hostile_text_is_ten_times_the_work() {
    let work = |text: &str| {
        let sheet = sheet::parse(text, &lexicon().vocabulary);
        read::read(text, &sheet).work
    };
    let units = [
        "1 step R (999)\n",
        "R(999) ",
        "1&2&3&4& RLRL ",
        "((1-2 step R ",
        "Section 9\n",
        "Section 1\n1-8 repeat section 1\n",
        "repeat 1-4 x99\n",
        "tag after wall 9\n1-4 sway R L R L\n\n",
        "restart on wall 3 after 16 counts\n",
        "Harbour step: 1 step R, 2 touch L\nHarbour step\n",
        "1/4 1/4 1/4 turn turn ",
        "step or touch or kick or ",
        "R\u{301}\u{202e} ",
        "1;2;3;4;\n",
        "| 1 | step R | L |\n",
        "3:00 9:00 ",
    ];
    for unit in units {
        let (short, long) = (work(&unit.repeat(60)), work(&unit.repeat(600)));
        assert!(long <= short * 11 + 20_000, "{unit:?}: {short} states became {long}");
    }
}
