//! The pages of teachers: the same three rows of eight counts under names, sums, lengths and hours in the ways in which
//! people lay them out. The habits are common practice; the dance is invented.

mod small;

use halfcount::dance::{Foot, PartKind, Weight};
use small::{said, weights};

const HEAD: &str = "GARDEN HOSE\nTest Author Q, 24 counts, 1 wall, beginner, R foot first\n\n";
const TRACE: &str =
    "1R 2L 3R 4- 5L 6R 7L 8- 9R 10L 11R &L 12R 13L 14R 15L &R 16L 17R 18L 19R 20L 21R 22L 23R 24L";

/// The rows without what stands around them, put into a page: `{a}`, `{b}`, `{c}`.
fn page(body: &str) -> String {
    let rows = [
        ("{a}", "vine R, touch L, vine L, touch R"),
        ("{b}", "rock R fwd, rec, R coaster, rock L fwd, rec, L coaster"),
        ("{c}", "R rocking chair, R jazz box"),
    ];
    let body = rows.iter().fold(body.to_string(), |body, (name, row)| body.replace(name, row));
    format!("{HEAD}{body}\nThe last one stays at home.\n")
}

#[track_caller]
fn check(body: &str) {
    let page = page(body);
    let said = said(&page, 0);
    assert_eq!(weights(&said.trace), weights(TRACE), "{page}");
    assert_eq!(said.report.dance.main_sections().count(), 3, "{page}");
    assert!(said.loud.is_empty(), "{page}{:?}", said.loud);
}

#[test]
fn sums_before_rows_number_them() {
    check("8    {a}\n16   {b}\n24   {c}");
    check("[8] {a}\n[16] {b}\n[24] {c}");
    check("(8) {a}\n(16) {b}\n(24) {c}");
    check("8: {a}\n16: {b}\n24: {c}");
    check("up to 8: {a}\nup to 16: {b}\nup to 24: {c}");
    check("8 -> {a}\n16 -> {b}\n24 -> {c}");
    check("8 cts: {a}\n16 cts: {b}\n24 cts: {c}");
    check("8    vine R, touch L,\n     vine L, touch R\n16   {b}\n24   {c}");
}

#[test]
fn numbers_between_signs_label_rows() {
    check("-1-  {a}\n-2-  {b}\n-3-  {c}");
    check("- 1 -  {a}\n- 2 -  {b}\n- 3 -  {c}");
    check("=1=  {a}\n=2=  {b}\n=3=  {c}");
    check("~1~  {a}\n~2~  {b}\n~3~  {c}");
    check("*1*  {a}\n*2*  {b}\n*3*  {c}");
    check("/1/  {a}\n/2/  {b}\n/3/  {c}");
}

/// What eight counts must give, written in other ways.
#[track_caller]
fn eight(body: &str, trace: &str) {
    let said = said(&format!("QUAY PEBBLES\nTest Author Q, 16 counts, 1 wall, R foot\n\n{body}\n"), 0);
    assert_eq!(weights(&said.trace), weights(trace), "{body}");
    assert_eq!(said.report.dance.main_sections().count(), 2, "{body}");
}

#[test]
fn a_full_stop_may_join_a_foot_to_what_it_does() {
    let trace = "1R 2L 3R 4- 5L 6R 7L 8- 9R 10L 11R 12- 13L 14R 15L 16-";
    eight(
        "I   r.side l.tog r.side l.tap+hip | l.side r.tog l.side r.tap+hip\nII  r.fwd l.fwd r.fwd l.tap | l.bk r.bk \
         l.bk r.tap",
        trace,
    );
    eight(
        "S1  R.side L.tog R.side L.touch, L.side R.tog L.side R.touch\nS2  R.fwd L.fwd R.fwd L.kick, L.back R.back \
         L.back R.touch",
        trace,
    );
}

#[test]
fn an_hour_stands_between_cells_of_counts() {
    let trace = "1R 2L 3R &L 4R 5L 6R 7L &R 8L 9R 10L 11R &L 12R 13L 14R 15L &R 16L";
    for gap in ["  ", " | ", " / "] {
        let row = ["1-2 R fwd, L fwd", "3&4 R sailor 1/4R (3)", "5-6 L fwd, R fwd", "7&8 L sailor 1/4L (12)"];
        let row = row.join(gap);
        eight(&format!("S1 | {row}\nS2 | {row}"), trace);
    }
    let trace = "1- &R 2L 3- &R 4L 5R 6L 7R 8L 9- &R 10L 11- &R 12L 13R 14L 15R 16L";
    let row = "KBC R (1&2), KBC R (3&4), stp R, pvt 1/2 L (6), stp R, pvt 1/2 L (12)";
    eight(&format!("1-8: {row}\n9-16: {row}"), trace);
}

#[test]
fn a_stroke_between_feet_is_a_cross_where_the_sheet_says_so() {
    for key in ["L/R = L across R, R/L = R across L", "R/L = right over left"] {
        eight(
            &format!(
                "[1]  1,2 R sd, L/R  3,4 R sd, tch L  5,6 L sd, R/L  7,8 L sd, tch R\n[2]  1,2 R sd, L/R  3,4 R sd, \
                 tch L  5,6 L sd, R/L  7,8 L sd, tch R\n\n{key}"
            ),
            "1R 2L 3R 4- 5L 6R 7L 8- 9R 10L 11R 12- 13L 14R 15L 16-",
        );
    }
}

#[test]
fn lengths_before_rows_part_them() {
    check("8   {a}\n8   {b}\n8   {c}");
    check("8: {a}\n8: {b}\n8: {c}");
    check("8 counts   {a}\n8 counts   {b}\n8 counts   {c}");
}

#[test]
fn two_rows_of_four_counts_are_a_section() {
    for body in [
        "4    R heel, tog, L heel, tog\n8    same again\n12   walk fwd R L R, kick L\n16   walk back L R L, touch R",
        "[4] R heel, tog, L heel, tog\n[8] same again\n[12] walk fwd R L R, kick L\n[16] walk back L R L, touch R",
    ] {
        let said = said(&format!("PIGEON POST\n16 counts, 1 wall, R foot\n\n{body}\n"), 0);
        let expected = weights("1- 2R 3- 4L 5- 6R 7- 8L 9R 10L 11R 12- 13L 14R 15L 16-");
        assert_eq!(weights(&said.trace), expected, "{body}");
        assert_eq!(said.report.dance.main_sections().count(), 2, "{body}");
    }
}

#[test]
fn all_that_on_the_other_side_says_it_again() {
    for again in [
        "All that on the left.",
        "Then the left one.",
        "Now the L one.",
        "The whole lot to the left.",
        "Same on the other foot.",
        "Everything on the other foot.",
    ] {
        let page = page(&format!("8   heel R, hook R, heel R, tog. {again}\n16   {{b}}\n24   {{c}}\n"));
        let trace = weights(&said(&page, 0).trace);
        assert_eq!(trace[..2].join(" "), "4R 8L", "{page}");
    }
}

#[test]
fn a_drag_fills_the_counts_behind_it() {
    for row in [
        "L fwd, drag R to it (2-3), R back, drag L to it (5-6)",
        "L fwd, drag R for two, R back, drag L for two",
    ] {
        let page = format!(
            "VELVET FERRY (waltz)\n12 counts, 1 wall, L foot\n\n1st six    {row}\n2nd six    L twinkle, R twinkle\n"
        );
        assert_eq!(weights(&said(&page, 0).trace)[..2].join(" "), "1L 4R", "{page}");
    }
}

#[test]
fn sums_and_lengths_end_rows() {
    check("{a}   8\n{b}   16\n{c}   24");
    check("{a} = 8\n{b} = 16\n{c} = 24");
    check("{a} (8)\n{b} (16)\n{c} (24)");
    check("{a}   8\n{b}   8\n{c}   8");
    check("{a} ... 8 counts\n{b} ... 8 counts\n{c} ... 8 counts");
}

#[test]
fn names_stand_in_a_column_before_rows() {
    check("VINES     {a}\nROCKS     {b}\nBOX       {c}");
    check("first bit    {a}\nrocky bit    {b}\nend bit      {c}");
    check("VINES     vine R, touch L,\n          vine L, touch R\nROCKS     {b}\nBOX       {c}");
    check(
        "Vines     vine R, touch L\n          vine L, touch R            8\nRocks     {b}     8\nBox       {c}     8\n          \
         both feet stay on the floor here",
    );
    check(
        "top    1    R side\n       2    L behind\n       3 4  R side, touch L\n       5    L side\n       6 7  R behind, L \
         side\n       8    touch R\nmid    1 2  rock R fwd, rec\n       3&4  R coaster\n       5 6  rock L fwd, rec\n       \
         7&8  L coaster\nlast   1 2 3 4  R rocking chair\n       5 6 7 8  R jazz box",
    );
    check("a   {a}\nb   {b}\nc   {c}");
}

#[test]
fn remarks_beside_rows_are_not_danced() {
    check("8    {a}\n     both feet stay on the floor here\n16   {b}\n24   {c}");
    check(
        "8    {a}\n16   {b}\n     no turners: just walk R L\n24   {c}\n     last year this had a sailor in [16]",
    );
    check("VINES     {a}\n          ^ L stays light, it starts the next one\nROCKS     {b}\nBOX       {c}");
}

/// A page with the words about a tag above or below its rows.
#[track_caller]
fn tagged(words: &str, walls: &[u32]) {
    let rows = "8    {a}\n16   {b}\n24   {c}\n";
    for body in [format!("{words}\n\n{rows}"), format!("{rows}\n{words}\n")] {
        let page = page(&body);
        let said = said(&page, 0);
        let tags: Vec<_> = said.report.dance.tags.iter().map(|t| t.wall).collect();
        assert_eq!(tags, walls, "{page}");
        let steps: Vec<_> = said
            .report
            .dance
            .parts
            .iter()
            .filter(|p| p.kind == PartKind::Tag)
            .flat_map(|p| &p.sections)
            .flat_map(|s| &s.moves)
            .map(|m| (m.at.count(), m.after))
            .collect();
        let on = Weight::On;
        let sways = [(1, on(Foot::Right)), (2, on(Foot::Left)), (3, on(Foot::Right)), (4, on(Foot::Left))];
        assert_eq!(steps, sways, "{page}");
        assert!(said.loud.is_empty(), "{page}{:?}", said.loud);
    }
}

#[test]
fn the_steps_of_a_tag_belong_to_it_above_and_below_the_rows() {
    tagged("TAG (end of wall 2, front):\n sway R L R L", &[2]);
    tagged("tag comes twice, after wall 2 and after wall 4\n   = sway R L R L (4), then carry on", &[2, 4]);
    tagged(
        "Tag first, they always forget it:\n   after wall 2, facing 12:00: sway R, L, R, L. Only once.",
        &[2],
    );
    tagged("EXTRA BIT (4 counts) after wall 2\nR out, L out, R in, L in", &[2]);
    tagged("TAG 4, wall 2, front wall\n- sway R L\n- sway R L", &[2]);
    tagged("4 extra counts after wall 2: sway R, L, R, L.", &[2]);
    tagged("!! TAG !!  end of wall 2, you are back at the front: sway R, L, R, L and start again.", &[2]);
    tagged("After the 2nd wall there's a 4 count tag. Sway R L R L. Shout it out!", &[2]);
    tagged(
        "Note to me - TWO tags of 4 counts: end of wall 2 and end of wall 4\n    hips R, L, R, L, changing weight each \
         time. Then straight in.",
        &[2, 4],
    );
}

#[test]
fn without_counts_the_sign_closes_the_foot_that_touched() {
    let row = |row: &str| {
        weights(&said(&format!("{HEAD}8   {row}\n16   {{b}}\n24   {{c}}\n"), 0).trace)[..8].join(" ")
    };
    for sign in ["&", "+"] {
        let heels =
            format!("R heel {sign} L heel {sign} step R fwd, 1/4 pivot L, R cross shuffle, side rock L, rec");
        assert_eq!(row(&heels), "1&R 2&L 3R 4L 5R 5&L 6R 7L");
    }
    assert_eq!(
        row("touch R side & touch L side & walk R, walk L, R rocking chair"),
        "1&R 2&L 3R 4L 5R 6L 7R 8L"
    );
}

#[test]
fn a_rhythm_may_be_told_once_for_all_sections() {
    let check = |told: &str| {
        let page = format!(
            "SLOW BOAT\nnight club, 16 counts, 1 wall, right foot first\n\n{told}\n\nA\nbasic R. basic L. side R, L behind, side \
             R. cross rock L, rec, side L\n\nB\nbasic R. basic L. then sways R L R L, one a count, 5 6 7 8\n"
        );
        let trace = said(&page, 0).trace;
        let expected = "1R 2L 2&R 3L 4R 4&L 5R 6L 6&R 7L 8R 8&L 9R 10L 10&R 11L 12R 12&L 13R 14L 15R 16L";
        assert_eq!(weights(&trace).join(" "), expected, "{page}");
    };
    check("everything is 1 2& 3 4& 5 6& 7 8& until I say sways");
    check("Count it 1 2& 3 4& 5 6& 7 8& all the way through.");
    check("Rhythm: 1 2& 3 4& 5 6& 7 8&");
    check("(all of it slow quick quick)");
    check("every bar is slow-quick-quick, so I leave the numbers out");
    check("Timing: slow, quick, quick throughout");
    check("Timing is always 1 2&, 3 4&, 5 6&, 7 8&");
    check("(counts are 1 2 & 3 4 & 5 6 & 7 8 & throughout)");
}

#[test]
fn hours_stand_apart_behind_rows() {
    let turning = |a: &str, b: &str, c: &str| {
        let first = "vine R, touch L, vine L 1/4 L, touch R";
        let said = said(&page(&format!("8   {first}{a}\n16   {{b}}{b}\n24   {{c}} with 1/4 R{c}")), 0);
        let facings: Vec<_> = said.report.dance.main_sections().map(|s| s.facing_end.to_string()).collect();
        (facings.join(" "), said.loud)
    };
    for (a, b, c) in [
        ("    9", "    9", "    12"),
        (" -> 9", " -> 9", " -> 12"),
        (" = 9", " = 9", " = 12"),
        ("    9 (not 3!)", "    9", "    12"),
        ("    9:00", "    9:00", "    12:00"),
    ] {
        let (facings, loud) = turning(a, b, c);
        assert_eq!(facings, "9:00 9:00 12:00", "{a}");
        assert!(loud.is_empty(), "{a} {loud:?}");
    }
}

#[test]
fn titles_of_figures_may_part_a_section() {
    let half = |title: &str, from: u32, steps: [&str; 4]| {
        let rows: Vec<String> = (from..).zip(steps).map(|(n, s)| format!("{n} {s}")).collect();
        format!("{title}\n{}\n", rows.join("\n"))
    };
    let vine = |a: &str, b: &str| {
        [
            format!("Step {a} to side"),
            format!("Step {b} behind"),
            format!("Step {a} to side"),
            format!("Touch {b}"),
        ]
    };
    let (right, left) = (vine("R", "L"), vine("L", "R"));
    let right = half("GRAPEVINE RIGHT", 1, right.each_ref().map(String::as_str));
    let left = half("GRAPEVINE LEFT", 5, left.each_ref().map(String::as_str));
    let chair = half("ROCKING CHAIR", 1, ["Rock R forward", "Recover L", "Rock R back", "Recover L"]);
    let sways = half("SWAYS", 5, ["Sway R", "Sway L", "Sway R", "Sway L"]);
    let said =
        said(&format!("HARBOUR LAMPS\n16 counts, 1 wall, beginner\n\n{right}{left}\n{chair}{sways}"), 0);
    assert_eq!(said.report.dance.main_sections().map(|s| s.counts).collect::<Vec<_>>(), [8, 8]);
    assert_eq!(weights(&said.trace), weights("1R 2L 3R 4- 5L 6R 7L 8- 9R 10L 11R 12L 13R 14L 15R 16L"));
    assert_eq!(said.loud, Vec::<&str>::new());
}

#[test]
fn the_last_counts_of_a_range_may_be_told_again_behind_their_words() {
    let text = "TIDE\n6 counts, 1 wall, waltz 3/4, start on the left foot\n\n\
                1-3 Big step L to side, drag R to L (2-3)\n4-6 Step R to side, step L beside R, step R in place\n";
    assert_eq!(weights(&said(text, 0).trace), weights("1L 2- 3- 4R 5L 6R"));
}

#[test]
fn a_section_of_lines_like_headings_is_danced() {
    let around = |section: &str| {
        let walks = "1-2 Walk forward R, L\n3&4 R shuffle forward\n5-6 Rock L forward, recover R\n7&8 L coaster step\n";
        format!(
            "HARBOUR LAMPS\n24 counts, 1 wall\n\nSection 1\n{walks}\nSection 2\n{section}\nSection 3\n{walks}"
        )
    };
    let boxes = "RUMBA BOX FORWARD, STARTING RIGHT\nR SIDE - TOGETHER - R FWD - HOLD\nL SIDE - TOGETHER - L BACK - HOLD\n";
    let turns = "Two right Monterey half turns, the first ending at 6:00, the second at 12:00.\n";
    for (section, trace) in [(boxes, "1R 2L 3R 4- 5L 6R 7L 8-"), (turns, "1- 2R 3- 4L 5- 6R 7- 8L")] {
        let said = said(&around(section), 1);
        assert_eq!(weights(&said.trace)[..weights(trace).len()], weights(trace)[..], "{section}");
    }
}

#[test]
fn counts_in_words_lead_their_steps() {
    let trace = "1R 2L &R 3L 4R &L 5R 6L 7- 8-";
    let rows = [
        "one - long step with the right to the right side\ntwo - rock left behind right\nand - recover onto right\nthree - long step with the left to the left side\nfour - rock right behind left\nand - recover onto left\nfive - step right to the right side and sway right\nsix - sway left onto the left foot\nseven and eight - hold",
        "One: right foot takes a long step to the right. Two: left foot rocks behind the right. And: recover onto the right foot.\nThree: left foot takes a long step to the left. Four: right foot rocks behind the left. And: recover onto the left foot.\nFive: sway right. Six: sway left.\nSeven and eight: hold.",
        "(1) Step right to the right side, (2) rock left behind right, (&) recover onto right.\n(3) Step left to the left side, (4) rock right behind left, (&) recover onto left.\n(5) Sway right, (6) sway left, (7) hold, (8) hold.",
        "Step right to the right side (1), rock left behind right (2), recover onto right (&).\nStep left to the left side (3), rock right behind left (4), recover onto left (&).\nSway right (5), sway left (6), hold (7-8).",
    ];
    for rows in rows {
        let said = said(&format!("HARBOUR LAMPS\n8 counts, 1 wall\n\n[one to eight]\n{rows}\n"), 0);
        assert_eq!(weights(&said.trace), weights(trace), "{rows}\n{}", said.trace);
        assert_eq!(said.loud, Vec::<&str>::new(), "{rows}");
    }
}

#[test]
fn a_heading_is_danced_where_the_lines_below_it_are_half_a_section() {
    let text = "HARBOUR LAMPS\n16 counts, 1 wall\n\n\
                S1  L fwd, pivot 1/2 R, L shuffle fwd .......... 6:00\n    R side rock, recover, R behind-side-cross\n\
                S2  L side, R touch, R side, L touch\n    L fwd, pivot 1/2 R (12:00), walk L, walk R\n";
    let said = said(text, 0);
    assert_eq!(weights(&said.trace), weights("1L 2R 3L &R 4L 5R 6L 7R &L 8R 9L 10- 11R 12- 13L 14R 15L 16R"));
    assert_eq!(said.loud, Vec::<&str>::new());
}

#[test]
fn lengths_and_letters_before_rows_divide_a_sheet() {
    let rows = [
        "8 > heel strut fwd R / heel strut fwd L / rocking chair R\n8 > vine R + touch / rolling vine L + touch\n8 > heel strut fwd R / heel strut fwd L / rocking chair R",
        "a. Struts, in 8\n   Heel strut fwd R, heel strut fwd L, rocking chair R.\nb. Vines, in 8\n   Vine R & touch L. Rolling vine L & touch R.\nc. Struts again, in 8\n   Heel strut fwd R, heel strut fwd L, rocking chair R.",
        "row 1\nHeel strut fwd R, heel strut fwd L, rocking chair R\nrow 2\nVine R, touch L, rolling vine L, touch R\nrow 3\nHeel strut fwd R, heel strut fwd L, rocking chair R",
    ];
    for rows in rows {
        let said = said(&format!("HARBOUR LAMPS\n24 counts, 1 wall\n\n{rows}\n"), 0);
        let counts: Vec<_> = said.report.dance.main_sections().map(|s| s.counts).collect();
        assert_eq!(counts, [8, 8, 8], "{rows}");
        assert_eq!(
            weights(&said.trace)[..12],
            weights("1- 2R 3- 4L 5R 6L 7R 8L 9R 10L 11R 12- 13L 14R 15L 16-")[..],
            "{rows}"
        );
        assert_eq!(said.loud, Vec::<&str>::new(), "{rows}");
    }
}

#[test]
fn a_foot_that_took_the_weight_outright_is_not_free() {
    for words in ["L together, weight on L", "L close (wt L)", "L beside R (weight left)"] {
        let said = said(
            &format!("HARBOUR LAMPS\n4 counts\n\nSection 1\n1-2 R side, {words}\n3&4 chasse L R L\n"),
            0,
        );
        assert!(said.loud.contains(&"weight-not-free"), "{words}: {}", said.trace);
    }
}

#[test]
fn counts_that_begin_again_in_a_tag_go_on() {
    let text = "HARBOUR LAMPS\nA waltz of 6 counts, 1 wall, start on the left foot\n\n\
                1-3 Step L fwd, step R beside L, step L in place\n4-6 Step R back, step L beside R, step R in place\n\n\
                TAG, danced at the end of the second and of the fourth wall:\n\
                1 Step L to the left side and sway left\n2-3 Let the sway finish\n\
                1 Sway right onto the right foot\n2-3 Let the sway finish\n";
    let report = halfcount::report(text, &halfcount::Options::default()).expect("a small sheet");
    let walls: Vec<_> = report.dance.tags.iter().map(|t| t.wall).collect();
    assert_eq!(walls, [2, 4]);
    let tag = &report.dance.parts[1].sections;
    assert_eq!(tag.iter().map(|s| s.counts).sum::<u32>(), 6);
}

#[test]
fn letters_list_the_sections_before_a_restart() {
    let steps = "1-2 Walk R, L\n3-4 Walk R, L\n5-6 Rock R fwd, recover L\n7-8 Rock R back, recover L\n";
    for words in [
        "Wall 4 (starts 12:00): A, B, then restart.",
        "Restart: wall 4 after B",
        "Restart on wall 4 at the end of B",
        "On wall 4 dance A and B and begin again",
        "On wall 4 leave out C, that is 16 counts, and begin again",
    ] {
        let text =
            format!("HARBOUR LAMPS\n24 counts, 1 wall\n\nA\n{steps}\nB\n{steps}\nC\n{steps}\n{words}\n");
        let report = halfcount::report(&text, &halfcount::Options::default()).expect("a small sheet");
        let told: Vec<_> = report.dance.restarts.iter().map(|r| (r.wall, r.after_counts)).collect();
        assert_eq!(told, [(4, 16)], "{words}");
    }
}

#[test]
fn counts_stand_between_angles_and_hours_behind_arrows() {
    let text = "HARBOUR LAMPS\n16 counts, 4 walls\n\n\
                P1  <1&2> R shuf fwd <3&4> L shuf fwd <5 6> R rk fwd, rec L <7&8> R shuf 1/2 R ^6\n\
                P2  <1&2> L shuf fwd <3&4> R shuf fwd <5 6> L fwd, piv 1/4 R \u{2192}9 <7 8> L X, clap\n";
    let said = said(text, 0);
    assert_eq!(
        weights(&said.trace),
        weights("1R &L 2R 3L &R 4L 5R 6L 7R &L 8R 9L &R 10L 11R &L 12R 13L 14R 15L 16-")
    );
    assert_eq!(said.loud, Vec::<&str>::new());
}
