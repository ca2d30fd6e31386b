//! Words cut short and glued as people jot them on envelopes and cards, and the steps that they stand for.

mod small;

use small::{said, weights};

/// A line behind eight walks, with the weight on the left; what it must give; and its turn in 1/48.
const LINES: &[(&str, &str, i32)] = &[
    ("1&2 R xsh", "1R &L 2R", 0),
    ("1&2 R xshuf", "1R &L 2R", 0),
    ("1&2 R x/sh", "1R &L 2R", 0),
    ("1&2 xsh RLR", "1R &L 2R", 0),
    ("1&2 R sh fwd", "1R &L 2R", 0),
    ("1&2 R lksh fwd", "1R &L 2R", 0),
    ("1&2 R chas", "1R &L 2R", 0),
    ("1&2 R chas 1/4R (3)", "1R &L 2R", 12),
    ("1&2 R cha fwd", "1R &L 2R", 0),
    ("1&2 R coa", "1R &L 2R", 0),
    ("1&2 R sai", "1R &L 2R", 0),
    ("1&2 R mam fwd", "1R &L 2R", 0),
    ("1&2 R trip fwd", "1R &L 2R", 0),
    ("1&2 R kbx", "1- &R 2L", 0),
    ("1&2 R kbs", "1- &R 2L", 0),
    ("1-2& R dor", "1R 2L &R", 0),
    ("1-2& R wiz", "1R 2L &R", 0),
    ("1-4 R JB", "1R 2L 3R 4L", 0),
    ("1-4 R jb 1/4R", "1R 2L 3R 4L", 12),
    ("1-4 R rk ch", "1R 2L 3R 4L", 0),
    ("1-4 R char", "1R 2- 3L 4-", 0),
    ("1-4 R wv", "1R 2L 3R 4L", 0),
    ("1-4 R monty 1/2R", "1- 2R 3- 4L", 24),
    ("1-4 gvn R, tch", "1R 2L 3R 4-", 0),
    ("1-2 R HS", "1- 2R", 0),
    ("1-2 R toe str", "1- 2R", 0),
    ("1-4 R toe, R heel dn, L toe, L heel dn", "1- 2R 3- 4L", 0),
    ("1-2 R xov, L sd", "1R 2L", 0),
    ("1-2 R xbh, L sd", "1R 2L", 0),
    ("1-2 R xif, L sd", "1R 2L", 0),
    ("1-2 R sdrk, rec", "1R 2L", 0),
    ("1-2 R rkfwd rec", "1R 2L", 0),
    ("1-2 Rsd, Ltog", "1R 2L", 0),
    ("1-2 Rfwd, pivL 1/2 (6)", "1R 2L", -24),
    ("1-2 R pad 1/4L", "1R 2L", -12),
    ("1-2 R fwd 1/2 piv L", "1R 2L", -24),
    ("1-4 R fwd 1/4 piv L x2", "1R 2L 3R 4L", -24),
    ("1&2& heel sw R L", "1- &R 2- &L", 0),
    ("1-4 roll R full: RF 1/4R fwd, LF 1/2R bk, RF 1/4R sd, tch LF", "1R 2L 3R 4-", 48),
    ("1-4 R Vstep", "1R 2L 3R 4L", 0),
    ("1-8 Kstep", "1R 2- 3L 4- 5R 6- 7L 8-", 0),
    ("1-4 R jazz bx, tch L", "1R 2L 3R 4-", 0),
    ("1-4 R jazz box 1/4R scuff L", "1R 2L 3R 4-", 12),
    ("1-4 R jazz box with L tch", "1R 2L 3R 4-", 0),
    ("1-4 R jazz box, L fwd", "1R 2L 3R 4L", 0),
    ("1-4 R rumba fwd, tch L", "1R 2L 3R 4-", 0),
    ("1-4 R rumba bk: sd tog bk hld", "1R 2L 3R 4-", 0),
    ("1-4 R slo coas, hold", "1R 2L 3R 4-", 0),
];

#[test]
fn shorthand_reads_as_its_steps() {
    let mut misread = String::new();
    for (line, trace, turn) in LINES {
        let text = format!(
            "Pocket Lantern\n4w imp, Test Author Q, R foot\n\n1\n1-2 walk fwd R L\n3-4 walk bk R L\n\
             5-6 walk fwd R L\n7-8 walk bk R L\n\n2\n{line}\n"
        );
        let said = said(&text, 1);
        if weights(&said.trace) != weights(trace) || said.turn != *turn {
            misread += &format!("{line}: {} turn {}\n", said.trace, said.turn);
        }
    }
    assert!(misread.is_empty(), "{misread}");
}

/// A sheet of these lines below its head.
fn sheet(body: &str) -> small::Said {
    said(&format!("Pocket Lantern\n32c 4w imp, Test Author Q, R foot\n\n{body}"), 0)
}

#[test]
fn pairs_of_counts_stand_behind_labels() {
    let said = sheet("1)  12 R sd, L beh\n    3&4 R sh fwd\n    56 L rk fwd, rec\n    78 L bk, R tch\n");
    assert_eq!(weights(&said.trace), weights("1R 2L 3R &L 4R 5L 6R 7L 8-"));
}

#[test]
fn an_hour_behind_a_pivot_is_no_count() {
    let said = sheet("[1-8] 12 R fwd, piv 1/4R (3) | 3&4 R sh fwd | 56 L fwd, piv 1/2R (9) | 7&8 L sh fwd\n");
    assert_eq!(weights(&said.trace), weights("1R 2L 3R &L 4R 5L 6R 7L &R 8L"));
}

#[test]
fn sections_stand_side_by_side() {
    let rows = "BLK 1                     BLK 2\n\
                1 2   R sd, L bh          1 2   R rk f, rec L\n\
                3&4   R sh fwd            3&4   R sh bk\n\
                5 6   L fwd, piv 1/2R     5 6   L rk bk, rec R\n\
                7&8   L sh fwd            7&8   L sh fwd\n";
    let trace = "1R 2L 3R &L 4R 5L 6R 7L &R 8L 9R 10L 11R &L 12R 13L 14R 15L &R 16L";
    assert_eq!(weights(&sheet(rows).trace), weights(trace));
    let barred = "BLK 1 | BLK 2\n1 2 R sd, L bh | 1 2 R rk f, rec L\n3&4 R sh fwd | 3&4 R sh bk\n\
                  5 6 L fwd, piv 1/2R | 5 6 L rk bk, rec R\n7&8 L sh fwd | 7&8 L sh fwd\n";
    assert_eq!(weights(&sheet(barred).trace), weights(trace));
}

#[test]
fn rows_that_lead_to_their_counts_may_lack_room_for_dots() {
    let said = sheet(
        "R LK BRUSH ............. 4\nL LK BRUSH ............. 4\n     .\nR SLO MAMBO FWD, HOLD .. 4\n\
         L SLO COAS, HOLD ....... 4\n     .\nR FWD PIV 1/4L, R X, HOLD  4   to 9\nL SCISSOR, HOLD ........ 4\n     .\n\
         R RUMBA BK: SD TOG BK HOLD 4\nL RUMBA FWD: SD TOG FWD HOLD 4\n",
    );
    let trace = "1R 2L 3R 4- 5L 6R 7L 8- 9R 10L 11R 12- 13L 14R 15L 16- 17R 18L 19R 20- 21L 22R 23L 24- 25R 26L 27R 28- 29L 30R 31L 32-";
    assert_eq!(weights(&said.trace), weights(trace));
    assert_eq!(said.turn, -12);
}

#[test]
fn counts_stand_behind_numerals_and_between_cells() {
    let rows = "I    1 RF sd\n     2 3 LF bk rk, rec\n     4&5 LF lk sh fwd\n     6 7 RF fwd rk, rec\n     8& RF bk, LF tog\n";
    assert_eq!(weights(&sheet(rows).trace), weights("1R 2L 3R 4L &R 5L 6R 7L 8R &L"));
    let cells = "#1 | R whisk 1a2 | L whisk 3a4 | RF fwd piv 1/2L 5 6 (6.00) | RF fwd piv 1/2L 7 8\n";
    assert_eq!(weights(&sheet(cells).trace), weights("1R aL 2R 3L aR 4L 5R 6L 7R 8L"));
    let swung = "1a2 R whisk\n3a4 L whisk\n5a6 R across, L side, R across\na7 L side, R across\na8 L side, R across\n";
    assert_eq!(weights(&sheet(swung).trace), weights("1R aL 2R 3L aR 4L 5R aL 6R aL 7R aL 8R"));
}

#[test]
fn twelve_in_brackets_behind_other_counts_is_an_hour() {
    let rows = "1 -----\n12& NC basic R\n34& NC basic L\n56& R sd, L bh, R sd\n78& L x, 1/2L R bk, L sd [6]\n2 -----\n\
                12& NC basic R\n34& NC basic L\n56& R sd, L bh, R sd\n78& L x, 1/2L R bk, L sd [12]\n";
    let said = sheet(rows);
    assert_eq!(said.report.dance.main_sections().count(), 2);
    assert_eq!(weights(&said.trace)[12..].len(), 12);
}

#[test]
fn numbers_behind_turns_are_hours_where_no_bracket_counts() {
    let rows = "[ 1 ] walks fwd R, L / R sh fwd / L rk fwd, rec R / L sh 1/2 L  (6)\n\
                [ 2 ] R rk fwd, rec L / R coas / L fwd, tch R bhd / R bk, kick L\n\
                [ 3 ] L bk, tog R / L sh fwd / R fwd, piv 1/2 L / R fwd, piv 1/4 L  (9)\n\
                [ 4 ] R x, L sd / R sailr / L x, R sd / L sailr 1/4 L  (6)\n";
    let said = sheet(rows);
    assert_eq!(said.report.dance.main_sections().map(|s| s.counts).collect::<Vec<_>>(), [8; 4]);
    assert_eq!(said.turn.rem_euclid(48), 24);
    let column = "A.  rk R fwd, rec, trip RLR 1/2R     1 2 3&4   (6)\n    rk L fwd, rec, coas LRL          5 6 7&8\n\
                  B.  heel sw R L                      1&2&\n    R fwd, piv 1/4L                  3 4       (3)\n    \
                  xsh RLR, sd rk L, rec            5&6 7 8\n";
    let trace = "1R 2L 3R &L 4R 5L 6R 7L &R 8L 9- &R 10- &L 11R 12L 13R &L 14R 15L 16R";
    assert_eq!(weights(&sheet(column).trace), weights(trace));
}

#[test]
fn a_tag_may_be_a_letter_in_the_order() {
    let said = sheet(
        "SEQ  A - B - A - T - B - A\n\nA (8)\n1 2 R sd, L tog\n3&4 R sh fwd\n5 6 L rk fwd, rec\n7&8 L coas\n\
         B (8)\n1-4 R rk chair\n5-8 R jazz bx\nT (4)  1-4 R rk chair\n",
    );
    let tags: Vec<_> = said.report.dance.parts.iter().filter(|p| p.name.starts_with("tag")).collect();
    assert_eq!(tags.len(), 1);
}
