//! One dance as leaflets lay it out: every kind of heading with every place of the counts, in lines and in paragraphs.
//! The habits are common practice among those who write for a class; the dance is invented.

mod small;

use small::said;

/// A section: what it is called, and its rows of counts and words.
type Section = (&'static str, &'static [(&'static str, &'static str)]);

const DANCE: [Section; 4] = [
    (
        "Walks, mambo, walks, coaster step",
        &[
            ("1-2", "Walk forward on the right foot, walk forward on the left foot"),
            ("3&4", "Rock right forward, recover onto left, step right beside left"),
            ("5-6", "Walk back on the left foot, walk back on the right foot"),
            ("7&8", "Step left back, step right beside left, step left forward"),
        ],
    ),
    (
        "Side, behind, chasse with a quarter turn, half pivot, shuffle",
        &[
            ("1-2", "Step right to the right side, step left behind right"),
            (
                "3&4",
                "Step right to the right side, step left beside right, turn a quarter right and step right forward \
                 (3 o'clock)",
            ),
            ("5-6", "Step left forward, pivot half a turn right (9 o'clock)"),
            ("7&8", "Shuffle forward left, right, left"),
        ],
    ),
    (
        "Side touches, points",
        &[
            (
                "1-4",
                "Step right to the right side, touch left beside right and clap, step left to the left side, touch \
                 right beside left and clap",
            ),
            ("5-6", "Point right toe to the right side, step right beside left"),
            ("7-8", "Point left toe to the left side, step left beside right"),
        ],
    ),
    (
        "Jazz box with a cross, side rock, stomps",
        &[
            ("1-2", "Cross right over left, step left back"),
            ("3-4", "Step right to the right side, cross left over right"),
            ("5-6", "Rock right to the right side, recover onto left"),
            ("7-8", "Stomp right beside left, stomp left in place"),
        ],
    ),
];

const TRACE: &str = "1R 2L 3R &L 4R 5L 6R 7L &R 8L 9R 10L 11R &L 12R 13L 14R 15L &R 16L 17R 18- 19L 20- 21- 22R 23- \
                     24L 25R 26L 27R 28L 29R 30L 31R 32L";

/// Headings; `#` stands for the number of the section, `@` for its first and last counts, `*` for its name.
const HEADINGS: [&str; 10] = [
    "Section #: *",
    "#. *",
    "Part #. *",
    "Steps @: *",
    "[@] *",
    "@: *",
    "*",
    "*** * ***",
    "Block # - *",
    "(#) *",
];

/// Where counts stand; `#` stands for them as 1-2 and 3&4, `@` for them in words or with commas, `*` for the steps.
const ROWS: [&str; 14] = [
    "#  *",
    "#: *",
    "(#) *",
    "[#] *",
    "Counts #: *",
    "* Counts #: *",
    "- #: *",
    "On counts @ *",
    "Counts @: *",
    "* (#)",
    "* [#]",
    "*, counts #",
    "* (counts @)",
    "* ........ #",
];

/// "1 and 2", "1 to 4", "3 & 4".
fn told(counts: &str) -> String {
    match counts.split_once('-') {
        Some((a, b)) if a.parse::<u32>().ok().map(|n| n + 1) == b.parse().ok() => format!("{a} and {b}"),
        _ => counts.replace('-', " to ").replace('&', " & "),
    }
}

/// Lines that are broken where the next word would go past the width.
fn wrapped(text: &str, width: usize) -> String {
    let mut out = String::new();
    let mut at = 0;
    for word in text.split_whitespace() {
        if at > 0 && at + 1 + word.len() > width {
            out.push('\n');
            at = 0;
        } else if at > 0 {
            out.push(' ');
            at += 1;
        }
        out.push_str(word);
        at += word.len();
    }
    out
}

fn sheet(heading: &str, row: &str, paragraphs: bool) -> String {
    let mut out = String::from(
        "Corridor of Lamps\n\n32 counts, four walls, improver, by Test Author HH\nMusic: \"Corridor of Lamps\" by the \
         Unlit Few. Wait 16 counts, right foot first.\n",
    );
    for (i, (name, rows)) in DANCE.iter().enumerate() {
        let number = (i + 1).to_string();
        let range = format!("{}-{}", i * 8 + 1, i * 8 + 8);
        // A star of the layout itself is followed by another one or by a blank and no name.
        let heading = match heading {
            "*** * ***" => format!("*** {name} ***"),
            other => other.replace('*', name).replace('#', &number).replace('@', &range),
        };
        let rows: Vec<String> = rows
            .iter()
            .map(|(counts, steps)| {
                let (front, back) = row.rsplit_once('*').expect("a row has its steps");
                let put = |s: &str| s.replace('#', counts).replace('@', &told(counts));
                format!("{}{steps}{}", put(front), put(back))
            })
            .collect();
        let body = if paragraphs { wrapped(&(rows.join(". ") + "."), 90) } else { rows.join("\n") };
        out += &format!("\n{heading}\n{body}\n");
    }
    out
}

fn weights(trace: &str) -> Vec<&str> {
    trace.split_whitespace().filter(|w| !w.ends_with('-')).collect()
}

#[test]
fn every_heading_goes_with_every_row() {
    let mut misread = String::new();
    for heading in HEADINGS {
        for row in ROWS {
            for paragraphs in [false, true] {
                // Bullets and dots begin and end lines, not sentences.
                if paragraphs && (row.starts_with(['-', '*']) && row.len() > 8 || row.contains("....")) {
                    continue;
                }
                let said = said(&sheet(heading, row, paragraphs), 0);
                let sections = said.report.dance.main_sections().count();
                if weights(&said.trace) != weights(TRACE)
                    || said.turn != 36
                    || sections != 4
                    || !said.loud.is_empty()
                {
                    misread +=
                        &format!("{heading:?} {row:?} {paragraphs}: {sections} sections, {}\n", said.trace);
                }
            }
        }
    }
    assert!(misread.is_empty(), "misread:\n{misread}");
}
