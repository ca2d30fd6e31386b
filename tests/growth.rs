//! The work of reading grows with the length of the text and with nothing else. Counted in steps of the search,
//! not in seconds, so that a slow machine changes nothing.

use std::fs;
use std::path::Path;

use halfcount::figures::lexicon;
use halfcount::{read, sheet};

fn work(text: &str) -> u64 {
    let sheet = sheet::parse(text, &lexicon().vocabulary);
    read::read(text, &sheet).work
}

/// The sheets of the tests in a fixed order.
fn sheets() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sheets");
    let mut paths: Vec<_> = fs::read_dir(folder)
        .into_iter()
        .flatten()
        .flatten()
        .map(|e| e.path())
        .filter(|p| p.extension().is_some_and(|e| e == "txt"))
        .collect();
    paths.sort();
    assert!(paths.len() > 50, "the sheets of the tests are there");
    paths.iter().filter_map(|p| fs::read_to_string(p).ok()).collect()
}

#[test]
fn ten_and_a_hundred_times_the_text_is_as_much_more_work() {
    // Many copies first: what follows another sheet is read as more of it, and costs more than a sheet alone. How
    // far back a beginning tells differs from sheet to sheet; behind twenty of them the cost of one holds.
    let copies = |sheet: &str, n: usize| work(&vec![sheet; n].join("\n\n"));
    for (i, sheet) in sheets().iter().step_by(12).enumerate() {
        let (one, ten) = (copies(sheet, 20), copies(sheet, 200));
        assert!(ten <= one * 11, "ten times over: {one} steps of work became {ten}");
        if i == 0 {
            let (one, hundred) = (copies(sheet, 10), copies(sheet, 1000));
            assert!(hundred <= one * 110, "a hundred times over: {one} steps of work became {hundred}");
        }
    }
}

#[test]
fn twice_a_long_text_is_twice_the_work() {
    let texts = sheets();
    // Ten sheets in a row, ten times and twenty times over; the first of them is cheaper than the others, since
    // few readings are alive at the beginning of a text.
    for ten in texts.chunks(10) {
        let once = ten.join("\n\n");
        let (ten, twenty) = ([once.as_str(); 10].join("\n\n"), [once.as_str(); 20].join("\n\n"));
        let (ten, twenty) = (work(&ten), work(&twenty));
        assert!(twenty * 10 <= ten * 21, "{ten} steps of work became {twenty}");
    }
}

#[test]
fn the_work_for_a_word_is_bounded() {
    // A row of readings for every word, and no more than so many steps from each of them.
    for word in [
        "R ",
        "step R, ",
        "& ",
        "touch ",
        "1/4 ",
        "repeat ",
        "RLR ",
        "(",
        "vine ",
        "hip bump, ",
        "x2 ",
        "weight ",
    ] {
        let (short, long) = (word.repeat(200), word.repeat(2000));
        let text = |words: &str| format!("A dance\n32 counts, 4 walls\n\n1-8 {words}\n");
        let (short, long) = (work(&text(&short)), work(&text(&long)));
        assert!(long <= short * 11 + 1000, "{word}: {short} steps of work became {long}");
        assert!(long <= 2000 * 2000, "{word}: {long} steps of work for 2000 words");
    }
}
