//! Rows of steps for which nobody wrote counts: one step a count, and figures in their own rhythm. How people part and
//! join such steps is common practice; the rows are invented.

mod small;

use small::{said, weights};

/// A row of eight counts, what it must give, and its turn in 1/48, clockwise.
const ROWS: &[(&str, &str, i32)] = &[
    // Feet by themselves are steps, unless they tell those of the words before them.
    ("R, L, R triple fwd, L rock fwd, rec R, L coaster", "1R 2L 3R &L 4R 5L 6R 7L &R 8L", 0),
    ("R, L, R shuffle, L rock, R coaster cross, sway L", "1R 2L 3R &L 4R 5L 6R &L 7R 8L", 0),
    (
        "Walk walk, R L, right shuffle fwd, rock step L fwd (rec on R), coaster L",
        "1R 2L 3R &L 4R 5L 6R 7L &R 8L",
        0,
    ),
    ("Rocking chair, R, L, R, L, jazz box, R, L, R, L", "1R 2L 3R 4L 5R 6L 7R 8L", 0),
    // A plus among words joins them, and so does each of several dashes.
    ("WALK R + WALK L + R SHUFFLE FWD + ROCK FWD L + REC R + L COASTER", "1R 2L 3R &L 4R 5L 6R 7L &R 8L", 0),
    ("R VINE + TOUCH + L VINE w/ 1/4 L + BRUSH", "1R 2L 3R 4- 5L 6R 7L 8-", -12),
    (
        "RF fwd - LF fwd - RF triple fwd - LF rock fwd - RF recover - LF coaster (triple)",
        "1R 2L 3R &L 4R 5L 6R 7L &R 8L",
        0,
    ),
    // What is said once of several steps.
    ("2 x (step R fwd, pivot half left), sway R L R L", "1R 2L 3R 4L 5R 6L 7R 8L", -48),
    ("Sway R L R L, 2x (step R fwd, pivot half left)", "1R 2L 3R 4L 5R 6L 7R 8L", -48),
    ("Twice: step R fwd, pivot half left. Sway R L R L", "1R 2L 3R 4L 5R 6L 7R 8L", -48),
    ("Sway R L R L. Then twice: step R fwd, pivot half left", "1R 2L 3R 4L 5R 6L 7R 8L", -48),
    // What is written once more is not danced once more again.
    ("R fwd, HALF pivot left, again! R fwd, HALF pivot left, sway R L R L", "1R 2L 3R 4L 5R 6L 7R 8L", -48),
    ("R fwd, HALF pivot left, again, sway R L R L", "1R 2L 3R 4L 5R 6L 7R 8L", -48),
    // One step of a figure, told behind its name.
    (
        "R cross, L side point, L cross, R side point, R jazz box (last step L fwd)",
        "1R 2- 3L 4- 5R 6L 7R 8L",
        0,
    ),
    (
        "Cross R, point L to side, cross L, point R - both crosses in front - then jazz box, last step L forward, not together",
        "1R 2- 3L 4- 5R 6L 7R 8L",
        0,
    ),
    ("vine R (RLR) tch L > vine L (LRL, last one 1/4 left fwd) brush R", "1R 2L 3R 4- 5L 6R 7L 8-", -12),
    ("Walk R L R touch, vine left, last step turned 1/4 left, brush R", "1R 2L 3R 4- 5L 6R 7L 8-", -12),
    ("Walk R L R touch, vine left (quarter left on the third step), brush R", "1R 2L 3R 4- 5L 6R 7L 8-", -12),
    (
        "Walk R L R touch, vine left turning a quarter left into the third step, brush R",
        "1R 2L 3R 4- 5L 6R 7L 8-",
        -12,
    ),
    ("Walk R L R touch, vine L with 1/4 L on step 3, scuff R", "1R 2L 3R 4- 5L 6R 7L 8-", -12),
    ("vine right touch left vine left quarter left brush right", "1R 2L 3R 4- 5L 6R 7L 8-", -12),
    // Phone notes and slips of cards: nothing parts the steps, or a bar does.
    (
        "R side, L behind, R side, touch L | L side, R behind, 1/4 L on L fwd, brush R",
        "1R 2L 3R 4- 5L 6R 7L 8-",
        -12,
    ),
    (
        "cross right over point left side cross left over point right side jazz box right over left back right side left forward",
        "1R 2- 3L 4- 5R 6L 7R 8L",
        0,
    ),
    (
        "R jazz box cross R over L, step L back, step R side, step L beside R, walk R L R L",
        "1R 2L 3R 4L 5R 6L 7R 8L",
        0,
    ),
    (
        "cross R over + point L to the side, cross L over + point R to the side, jazz box with R over and the last step L forward",
        "1R 2- 3L 4- 5R 6L 7R 8L",
        0,
    ),
    (
        "vine R with touch, vine to the left where the third step is a quarter turn left, finished with a brush of the right",
        "1R 2L 3R 4- 5L 6R 7L 8-",
        -12,
    ),
    // What is told of each of several figures.
    (
        "two step-turns, right foot forward and half round to the left both times (to 6 o'clock, then to 12 o'clock again), and four sways, right left right left",
        "1R 2L 3R 4L 5R 6L 7R 8L",
        -48,
    ),
    (
        "Two half pivots to the left, stepping forward on R each time - first takes you to 6:00, second back to 12:00. Four sways: R, L, R, L",
        "1R 2L 3R 4L 5R 6L 7R 8L",
        -48,
    ),
    (
        "RF fwd - 1/2 L on LF (6h)\nRF fwd - 1/2 L on LF (12h)\n4 sways R L R L",
        "1R 2L 3R 4L 5R 6L 7R 8L",
        -48,
    ),
    // A clause that tells a step of the figure again, and one that only leads to a step.
    (
        "a right mambo forward, closing the right beside the left, and a left mambo back, closing the left beside the right, walk R L R L",
        "1R &L 2R 3L &R 4L 5R 6L 7R 8L",
        0,
    ),
    ("4 x (step R fwd, pivot 1/4 L) = full turn", "1R 2L 3R 4L 5R 6L 7R 8L", -48),
    ("2 x R Monterey 1/2 turns", "1- 2R 3- 4L 5- 6R 7- 8L", 48),
    (
        "RF step diagonally right forward, LF step diagonally left forward, RF step back to centre, LF step beside RF, walk R L R L",
        "1R 2L 3R 4L 5R 6L 7R 8L",
        0,
    ),
    (
        "Step R fwd, cross-lock L behind R, step R fwd, scuff L, step L fwd, slide R up and lock it behind L, step L fwd, scuff R",
        "1R 2L 3R 4- 5L 6R 7L 8-",
        0,
    ),
    (
        "Four quarter pivots to the left, stepping R forward each time and ending with weight on L",
        "1R 2L 3R 4L 5R 6L 7R 8L",
        -48,
    ),
];

#[test]
fn rows_without_counts_fill_eight() {
    let mut wrong = String::new();
    for (row, trace, turn) in ROWS {
        let told = said(&format!("A ROW\n8 counts\n\nSection 1\n{row}\n"), 0);
        if weights(&told.trace) != weights(trace) || told.turn != *turn {
            wrong.push_str(&format!("{row}\n    {} turning {}\n", told.trace, told.turn));
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}
