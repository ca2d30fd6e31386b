//! One small dance in many tables: whatever the layout, it is the same dance.

use std::fmt::Write as _;

/// The counts of a section, running and from 1, the foot, what it does, where, the turn, the clock, the call.
type Row = [&'static str; 8];

const FIRST: [Row; 9] = [
    ["1", "1", "R", "step", "to right side", "", "", "side"],
    ["2", "2", "L", "step", "behind R", "", "", "behind"],
    ["3", "3", "R", "step", "to right side", "", "", "cha"],
    ["&", "&", "L", "step", "beside R", "", "", "cha"],
    ["4", "4", "R", "step", "to right side", "", "", "cha"],
    ["5", "5", "L", "rock", "over R", "", "", "cross"],
    ["6", "6", "R", "recover", "in place", "", "", "back"],
    ["7", "7", "L", "step", "forward", "1/4 L", "9", "turn"],
    ["8", "8", "R", "scuff", "forward", "", "9", "scuff"],
];

const SECOND: [Row; 9] = [
    ["1", "9", "R", "step", "forward", "", "", "step"],
    ["2", "10", "L", "pivot", "", "1/2 L", "3", "half"],
    ["3", "11", "R", "step", "forward", "", "", "shuf"],
    ["&", "&", "L", "step", "beside R", "", "", "fle"],
    ["4", "12", "R", "step", "forward", "", "", "go"],
    ["5", "13", "L", "rock", "forward", "", "", "rock"],
    ["6", "14", "R", "recover", "in place", "", "", "back"],
    ["7", "15", "L", "step", "back", "", "", "back"],
    ["8", "16", "R", "touch", "beside L", "", "3", "touch"],
];

/// A cell by the letter of its column: the eight of a row, `A` action and place, `X` action, place and turn, `F` the
/// foot in a word, `Q` the call in quotation marks, `W` the clock in full, `D` and `I` the foot in French and Spanish.
fn cell(row: &Row, column: char) -> String {
    let spaced =
        |cells: &[&str]| cells.iter().filter(|c| !c.is_empty()).copied().collect::<Vec<_>>().join(" ");
    let foot = |right: &str, left: &str| (if row[2] == "R" { right } else { left }).to_string();
    match column {
        'c' => row[0].into(),
        'r' => row[1].into(),
        'f' => row[2].into(),
        'a' => row[3].into(),
        'p' => row[4].into(),
        't' => row[5].into(),
        'w' => row[6].into(),
        'q' => row[7].into(),
        'A' => spaced(&[row[3], row[4]]),
        'X' => spaced(&[row[3], row[4], row[5]]),
        'F' => foot("right", "left"),
        'D' => foot("D", "G"),
        'I' => foot("D", "I"),
        'Q' => format!("\"{}\"", row[7]),
        'W' if row[6].is_empty() => String::new(),
        _ => format!("{}:00", row[6]),
    }
}

fn rows(columns: &str, sections: &[&[Row]]) -> Vec<Vec<String>> {
    let all = sections.iter().flat_map(|s| s.iter());
    all.map(|r| columns.chars().map(|c| cell(r, c)).collect()).collect()
}

fn both(columns: &str) -> Vec<Vec<String>> {
    rows(columns, &[&FIRST, &SECOND])
}

/// Rows with signs between their cells.
fn joined(heads: &str, rows: &[Vec<String>], sign: &str) -> String {
    let mut out = heads.split(", ").filter(|h| !h.is_empty()).collect::<Vec<_>>().join(sign);
    for row in rows {
        let _ = write!(out, "\n{}", row.join(sign));
    }
    out.trim_start_matches('\n').to_string()
}

/// A table of Markdown.
fn barred(heads: &str, rows: &[Vec<String>]) -> String {
    let heads: Vec<&str> = heads.split(", ").collect();
    let mut out = format!("| {} |\n|{}", heads.join(" | "), "---|".repeat(heads.len()));
    for row in rows {
        let _ = write!(out, "\n| {} |", row.join(" | "));
    }
    out
}

/// Columns that stand under each other, parted by blanks.
fn wide(heads: &str, rows: &[Vec<String>]) -> String {
    let heads: Vec<String> = heads.split(", ").filter(|h| !h.is_empty()).map(String::from).collect();
    let all: Vec<&Vec<String>> = (!heads.is_empty()).then_some(&heads).into_iter().chain(rows).collect();
    let width = |i: usize| all.iter().map(|r| r[i].chars().count()).max().unwrap_or(0) + 3;
    let mut out = String::new();
    for row in &all {
        let cells: Vec<String> =
            row.iter().enumerate().map(|(i, c)| format!("{c:<width$}", width = width(i))).collect();
        let line = cells.concat();
        let _ = writeln!(out, "{}", line.trim_end());
    }
    out
}

/// Cells as they come from a page, one under the other.
fn stacked(heads: &str, rows: &[Vec<String>], empty: &str) -> String {
    let cells = rows.iter().flatten().map(|c| if c.is_empty() { empty } else { c.as_str() });
    let heads = heads.split(", ").filter(|h| !h.is_empty());
    heads.chain(cells.filter(|c| !c.is_empty())).collect::<Vec<_>>().join("\n")
}

#[track_caller]
fn check(table: &str) {
    let text = format!(
        "Pontoon Practice\nTest Author ZZ\n16 counts, 4 walls, beginner\nMusic: Pontoon (The Sample Set)\n\
         Start after 16, right foot\n\n{table}\n\nBegin again.\n"
    );
    let report = halfcount::report(&text, &halfcount::Options::default()).expect("a short sheet");
    let trace = halfcount::trace::trace(&report, &text, "table");
    let json = serde_json::to_value(&trace).expect("plain values");
    let of = |k: &str| -> Vec<String> {
        let sections = json["sections"].as_array().expect("sections").iter();
        sections.map(|s| s[k].as_str().unwrap_or_default().to_string()).collect()
    };
    let weights: Vec<String> = of("trace")
        .iter()
        .map(|t| t.split(' ').filter(|w| !w.ends_with('-')).collect::<Vec<_>>().join(" "))
        .collect();
    let steps = "1R 2L 3R &L 4R 5L 6R 7L";
    assert_eq!(weights, [steps, steps], "{table}");
    assert_eq!(of("facing_end"), ["9:00", "3:00"], "{table}");
    let loud = json["findings"].as_array().expect("findings").iter().filter(|f| f["severity"] != "note");
    assert_eq!(loud.count(), 0, "{table}\n{}", json["findings"]);
}

#[test]
fn columns_in_any_order_under_their_heads() {
    check(&barred("Count, Foot, Step, Turn, Facing", &both("cfAtw")));
    check(&barred("Turn, Face, Step, Foot, Beat", &both("tWAfr")));
    check(&joined("Say, Ct, Ft, Do, Where, Turn, Look", &both("qcfaptw"), " | "));
    check(&joined("count, cue, foot, action, facing", &both("cqfXW"), "\t"));
    check(&joined("Count, Action, Foot, Direction, Rotation", &both("cafpt"), "\t"));
    check(&joined("count, foot, action, direction, turn, wall", &both("cfaptw"), ","));
    check(&barred("Count, Which foot, Movement, Where, Turn by, Clock", &both("cFaptw")));
    check(&wide("Count, Foot, Step, Turn, Facing", &both("cfAtw")));
    check(&wide("BEAT, CALL, FOOT, WHAT YOU DO, WALL", &both("rqfXw")));
    check(&barred("Count, Foot, Step, Turn", &both("cfAt")).replace('|', "│"));
}

#[test]
fn heads_of_neighbours() {
    check(&joined("Takt, Fuß, Schritt, Richtung, Drehung, Wand", &both("cfaptw"), ";"));
    check(&joined("tel, voet, stap, richting, draai, muur", &both("cfaptw"), "\t"));
    check(&barred("Temps, Pied, Pas, Direction, Tour, Mur", &both("cDaptw")));
    check(&joined("cuenta, pie, movimiento, dirección, giro", &both("cIapt"), ";"));
}

#[test]
fn tables_without_heads() {
    check(&joined("", &both("cfAtw"), "\t"));
    check(&joined("", &both("cQfAt"), "\t"));
    check(&joined("", &both("cfAt"), ","));
    check(&wide("", &both("cfAtw")));
    for sign in [" - ", " / ", " · ", ": "] {
        check(&joined("", &both("rfX"), sign));
    }
}

#[test]
fn cells_of_a_page_one_under_the_other() {
    check(&stacked("Count, Foot, Step, Turn, Facing", &both("cfAtw"), "-"));
    check(&stacked("Step, Foot, Turn, Facing, Count", &both("AftWc"), "-"));
    check(&stacked("Count, Foot, Step, Turn", &both("cfAt"), ""));
    check(&stacked("", &both("cfX"), ""));
    let headed = |n: u32, s: &[Row]| format!("Section {n}\n{}", stacked("", &rows("cfAt", &[s]), "-"));
    check(&format!(
        "Beats\nWhich foot\nWhat to do\nRotation\n\n{}\n\n{}",
        headed(1, &FIRST),
        headed(2, &SECOND)
    ));
}

#[test]
fn sections_in_rows_columns_and_tables_of_their_own() {
    let heads = "Part, Count, Foot, Step, Turn";
    let part = |name: &str, s: &[Row]| -> Vec<Vec<String>> {
        let mut rows = rows("cfAt", &[s]);
        rows.iter_mut().for_each(|r| r.insert(0, name.into()));
        rows
    };
    check(&joined(heads, &[part("A", &FIRST), part("B", &SECOND)].concat(), "\t"));
    let mut once = [part("1", &FIRST), part("2", &SECOND)].concat();
    for k in (0..18).filter(|k| k % 9 != 0) {
        once[k][0].clear();
    }
    check(&barred(heads, &once));
    let titled = |name: &str, s: &[Row]| {
        let mut rows = rows("cfAtw", &[s]);
        rows.insert(
            0,
            vec![format!("**{name}**"), String::new(), String::new(), String::new(), String::new()],
        );
        rows
    };
    let heads = "Count, Foot, Step, Turn, Faces";
    check(&barred(
        heads,
        &[titled("Section 1: side, cha cha", &FIRST), titled("Section 2: step", &SECOND)].concat(),
    ));
    check(&barred(heads, &[titled("SIDE, CHA CHA", &FIRST), titled("STEP TURN", &SECOND)].concat()));
    let heads = "Count, Foot, Step, Turn";
    let own = |s: &[Row]| joined(heads, &rows("cfAt", &[s]), "\t");
    check(&format!("Section 1\n{}\n\nSection 2\n{}", own(&FIRST), own(&SECOND)));
    let beside = |s: &[Row], k: usize| cell(&s[k], 'f') + " " + &cell(&s[k], 'X');
    let rows: Vec<Vec<String>> =
        (0..9).map(|k| vec![FIRST[k][0].into(), beside(&FIRST, k), beside(&SECOND, k)]).collect();
    check(&barred("Count, Section 1, Section 2", &rows));
    check(&joined("Beat, 1-8, 9-16", &rows, "\t"));
}

#[test]
fn counts_from_left_to_right() {
    let across = |columns: &str, labels: &[&str], s: &[Row], sign: &str| -> String {
        let line = |(c, label): (char, &&str)| {
            let cells: Vec<String> = s.iter().map(|r| cell(r, c)).collect();
            format!("{label}{sign}{}", cells.join(sign))
        };
        columns.chars().zip(labels).map(line).collect::<Vec<_>>().join("\n")
    };
    let heads = ["Count", "Foot", "Step", "Turn"];
    check(&format!("{}\n\n{}", across("cfAt", &heads, &FIRST, "\t"), across("cfAt", &heads, &SECOND, "\t")));
    check(&format!(
        "{}\n\n{}",
        across("rfAt", &heads, &FIRST, " | "),
        across("rfAt", &heads, &SECOND, " | ")
    ));
    let steps =
        |s: &[Row]| s.iter().map(|r| cell(r, 'f') + " " + &cell(r, 'X')).collect::<Vec<_>>().join(" | ");
    check(&format!(
        "Section | 1 | 2 | 3 | & | 4 | 5 | 6 | 7 | 8\n1 | {}\n2 | {}",
        steps(&FIRST),
        steps(&SECOND)
    ));
    // Where one looks stands behind the last count.
    for end in ["At end", "Face"] {
        check(&format!(
            "Row | 1 | 2 | 3 | & | 4 | 5 | 6 | 7 | 8 | {end}\n1 | {} | 9\n2 | {} | 3",
            steps(&FIRST),
            steps(&SECOND)
        ));
    }
}

#[test]
fn a_column_for_each_foot() {
    let of = |r: &Row, foot: &str| if r[2] == foot { cell(r, 'X') } else { String::new() };
    let rows: Vec<Vec<String>> =
        FIRST.iter().chain(&SECOND).map(|r| vec![r[0].into(), of(r, "L"), of(r, "R"), r[6].into()]).collect();
    check(&barred("Count, Left foot, Right foot, Wall", &rows));
    check(&wide("COUNT, LEFT, RIGHT, FACE", &rows));
}

#[test]
fn several_counts_in_a_cell_with_several_feet() {
    let rows = |shift: i32| -> Vec<Vec<String>> {
        let n = |k: i32| (k + shift).to_string();
        let table = [
            ["1-2".to_string(), "R L".into(), "step to right side, step behind R".into(), String::new()],
            ["3&4".into(), "R L R".into(), "chassé right".into(), String::new()],
            ["5-6".into(), "L R".into(), "rock over R, recover".into(), String::new()],
            ["7-8".into(), "L R".into(), "step forward, scuff forward".into(), "1/4 L on 7 (9:00)".into()],
            [format!("{}-{}", n(1), n(2)), "R L".into(), "step forward, pivot".into(), "1/2 L (3:00)".into()],
            [format!("{}&{}", n(3), n(4)), "R L R".into(), "shuffle forward".into(), String::new()],
            [format!("{}-{}", n(5), n(6)), "L R".into(), "rock forward, recover".into(), String::new()],
            [format!("{}-{}", n(7), n(8)), "L R".into(), "step back, touch beside L".into(), String::new()],
        ];
        table.into_iter().map(Vec::from).collect()
    };
    check(&barred("Counts, Feet, Steps, Turn", &rows(0)));
    check(&barred("Counts, Feet, Steps, Turn", &rows(8)));
    let turned: Vec<Vec<String>> =
        rows(0).into_iter().map(|r| vec![r[3].clone(), r[2].clone(), r[1].clone(), r[0].clone()]).collect();
    check(&joined("turn, movement, feet, beats", &turned, "\t"));
}

#[test]
fn words_that_go_on_in_the_next_row() {
    check(
        "| Count | Step | Wall |\n|---|---|---|\n| 1-2 | Step R to right side, | |\n| | step L behind R | |\n\
         | 3&4 | Chassé right R L R | |\n| 5-6 | Cross rock L over R, | |\n| | recover R | |\n\
         | 7-8 | 1/4 L step L forward, | 9 |\n| | scuff R forward | 9 |\n| 1-2 | Step R forward, | |\n\
         | | pivot 1/2 L (weight on L) | 3 |\n| 3&4 | Shuffle forward R L R | |\n\
         | 5-6 | Rock L forward<br>recover R | |\n| 7-8 | Step L back<br/>touch R beside L | 3 |",
    );
}
