//! Steps told in whole sentences, as leaflets and hand-outs tell them: what they must be read as. The ways of saying it
//! are common practice among teachers; the sentences are invented.

mod small;

use small::said;

/// Weight changes (a position without one may be left out), where the dancer looks at the end, and the words.
const SAID: &[(&str, &str, &str)] = &[
    (
        "1R 2L",
        "6:00",
        "1 Step right to the side turning a quarter left, 2 step left forward turning the other quarter",
    ),
    (
        "1R 2L",
        "6:00",
        "1 Turn a quarter right stepping right forward, 2 step left to the side turning the other quarter to the right",
    ),
    ("1- 2R", "12:00", "1-2 Touch right heel forward and bring the foot home with the weight"),
    ("1- &R 2L 3- &R 4L", "12:00", "1&2 and 3&4 Two right kick-ball-changes"),
    ("1- &R 2L 3- &R 4L", "12:00", "Two right kick-ball-changes (1&2, 3&4)"),
    ("1- &R 2L 3- &R 4L", "12:00", "1-4 Two kick ball changes with the right"),
    ("1R 2L 3R 4L", "12:00", "1-4 Two right pivot halves"),
    ("1R &L 2R 3L &R 4L", "12:00", "1&2 and 3&4 Two shuffles forward"),
    ("1R &L 2R 3L &R 4L", "12:00", "1 & 2 and 3 & 4 Shuffle right, shuffle left"),
    ("1R &L 2R 3L &R 4L", "12:00", "1 and 2, 3 and 4 Shuffle right, shuffle left"),
    ("1- 2R", "12:00", "1-2 Touch your right heel forward and bring it home, taking the weight"),
    ("1R &L 2R", "12:00", "1&2 a right coaster step takes us back, together and forward"),
    ("1R &L 2R", "12:00", "1&2 A right coaster step: back, together and forward"),
    ("1R 2L", "12:00", "1-2 Step right to the side, bring the left next to the right with the weight"),
    ("1R 2L 3R 4L", "12:00", "step right to the side and sway right, left, right, left (1-4)"),
    (
        "1R 2L",
        "12:00",
        "1-2 change weight to RF with hip to the right, change weight to LF with hip to the left",
    ),
    ("1R 2L 3R", "12:00", "1-3 sway hips to r - hips l - hips r"),
    ("1R 2L 3R 4L", "12:00", "1-4 Sway hips right, hips left, hips right, hips left"),
    (
        "1R 2L 3R 4L",
        "12:00",
        "1-4 Step right to right side swaying the hips right, hips left, hips right, hips left",
    ),
    ("1R 2L 3R 4-", "12:00", "1-4 Walk forward right left right kick left"),
    ("1R 2L 3R 4-", "12:00", "1-4 Walk back right left right touch left"),
    ("1R 2L 3R 4-", "12:00", "1-4 Three walks forward, right, left, right, and a kick with the left"),
    ("1R 2L 3R 4-", "12:00", "1-4 Walk three steps forward, starting with the right, and kick the left foot"),
    (
        "1R 2L 3R 4- 5L 6R 7L 8-",
        "12:00",
        "A grapevine each way, with a touch. Step right to the right side (1), step left behind right (2), step right to the right side (3), touch left beside right (4). Step left to the left side (5), step right behind left (6), step left to the left side (7), touch right beside left (8).",
    ),
    ("1R 2L 3R 4- 5L 6R 7L 8-", "12:00", "1-8 A grapevine to each side, with touches"),
    ("1R 2L 3R 4- 5L 6R 7L 8-", "12:00", "1-8 A grapevine each way with a touch"),
    (
        "1R 2L 3R 4L",
        "6:00",
        "1-2 Step right forward and turn half to the left so that the weight comes onto the left foot\n3-4 Stomp right, stomp left",
    ),
    ("1R 2L", "12:00", "1-2 Rock your weight forward onto the right foot and then back onto the left foot"),
    (
        "1R 2L",
        "12:00",
        "1-2 Put the right foot to the side with weight and let the left foot follow, taking the weight",
    ),
    ("1R 2L 3R 4-", "12:00", "1-4 Go to the right: step, close, step and touch"),
    ("1R 2L 3R 4-", "12:00", "1-4 To the right we go side, behind, side, and the left foot touches"),
    (
        "1- 2R 3- 4L",
        "12:00",
        "1-4 The right toe goes forward and the heel comes down, then the left toe goes forward and the heel comes down",
    ),
    (
        "1- 2R 3- 4L",
        "12:00",
        "1-4 Place the right toe forward and lower the heel, place the left toe forward and lower the heel",
    ),
    ("1R &L 2R", "12:00", "1&2 Take three quick steps forward, right, left and right"),
    ("1R &L 2R", "12:00", "1&2 Step to the right, bring the left foot to the right, step to the right again"),
    (
        "1R 2L",
        "9:00",
        "1-2 Step forward with the right foot and swing round a quarter to the left onto the left foot",
    ),
    (
        "1R 2L",
        "9:00",
        "1-2 Step forward on the right and turn to face 9 o'clock, putting your weight on the left",
    ),
    (
        "1R 2L 3R 4L",
        "3:00",
        "1-4 The right foot crosses over the left, the left steps back, the right steps to the side as you turn a quarter right, and the left joins it",
    ),
    ("1R 2L 3R 4L", "12:00", "1-4 Sway to the right, then to the left, then to the right and to the left"),
    ("1R 2L 3R 4L", "12:00", "1-4 Shift your weight to the right, to the left, to the right and to the left"),
    (
        "1R 2L 3R 4L",
        "12:00",
        "1-4 Stomp the right foot, stomp the left foot, then stamp right and left once more",
    ),
    ("1- 2- 3R 4-", "12:00", "1-4 Clap twice, step right to the side, and hold for one count"),
    (
        "1- 2R 3- 4L",
        "12:00",
        "1-4 Point the right toe out to the right and bring it back beside the left, taking weight; then point the left toe out to the left and bring it back beside the right, taking weight",
    ),
    ("1- 2- 3- 4-", "12:00", "1-4 Point right to the side, hold, point it forward, hold"),
    (
        "1R 2L 3R 4L",
        "12:00",
        "1-4 Step forward on the right and back on the left, then step back on the right and forward on the left",
    ),
    (
        "1R 2L 3R 4L",
        "12:00",
        "1-4 Rock forward onto the right, back onto the left, rock back onto the right, forward onto the left",
    ),
    (
        "1- &R 2L",
        "12:00",
        "1&2 Kick the right foot forward, put it down beside the left on the ball and step on the left",
    ),
    ("1R &L 2R 3L &R 4L", "12:00", "1&2 Shuffle to the right, 3&4 shuffle to the left"),
    (
        "1R 2L 3R 4-",
        "6:00",
        "1-3 Walk round half a turn to the left with three steps, right, left, right\n4 touch left beside right",
    ),
    (
        "1R 2L 3R 4L",
        "6:00",
        "1-4 Walk half a circle to the left with four steps, right, left, right, left, to end facing 6 o'clock",
    ),
    (
        "1R 2L &R 3L 4R &L 5R 6L 7R 8L",
        "12:00",
        "Dorothy right (1-2&), so right diagonally forward, lock left behind, right diagonally forward. Dorothy left (3-4&), left diagonally forward, lock right behind, left diagonally forward. Walk right, left, right, left (5-8).",
    ),
    (
        "1R 2L &R 3L 4R &L 5R 6L 7R 8L",
        "12:00",
        "Dorothy right (1, 2 &): step, lock, step to the right diagonal. Dorothy left (3, 4 &): step, lock, step to the left diagonal. Walk right, left, right, left (5-8).",
    ),
    (
        "1R &L 2R 3L &R 4L 5R 6L 7R 8L",
        "12:00",
        "Right coaster step (1&2), stepping back on right, left beside right, right forward. Left coaster step (3&4), stepping back on left, right beside left, left forward. Walk right, left, right, left (5-8).",
    ),
    (
        "1R aL 2R 3L aR 4L 5R aL 6R 7L aR 8L",
        "12:00",
        "A whisk to the right (1a2), i.e. right to the side, ball of left behind right, right in place, and a whisk to the left (3a4), left to the side, ball of right behind left, left in place. A whisk right (5a6) and a whisk left (7a8).",
    ),
    (
        "1R &L 2R 3L &R 4L 5R 6L 7R 8L",
        "12:00",
        "Do a right lock step forward on 1 & 2, that is right forward, left locked behind, right forward. Do a left lock step forward on 3 & 4, that is left forward, right locked behind, left forward. Walk right, left, right, left on 5, 6, 7, 8.",
    ),
    (
        "1R 2L &R 3L 4R &L 5R 6L &R 7L 8R &L",
        "6:00",
        "1 is a big step to the right. 2 & rock left behind right, recover right. 3 is a big step to the left. 4 & rock right behind left, recover left. 5 right forward, 6 & left forward, pivot half right. 7 left forward, and 8 & right across, left to the side.",
    ),
    (
        "1R 2L 3R &L 4R 5L 6R 7L 8-",
        "12:00",
        "1 walk right, 2 walk left, 3 rock right out to the side, & recover left, 4 cross right over left. Then 5 left to the side, 6 right behind, 7 left to the side, 8 touch right beside left.",
    ),
    (
        "1R 2L 3R 4- 5L 6R 7L 8R",
        "12:00",
        "Walk forward on 1, 2 and 3 with right, left, right, and kick the left foot on 4. Walk back on 5, 6, 7 and 8 with left, right, left, right.",
    ),
    (
        "1R 2L 3R",
        "12:00",
        "Rock right forward on 1. Sway to the left on 2, stepping the left foot to the side, and sway back to the right foot on 3.",
    ),
    (
        "1R 2L 3R 4L",
        "12:00",
        "1-4 Finish with four sways, right, left, right, left, so that the right is ready for the grapevine",
    ),
    (
        "1R 2L 3R 4L",
        "12:00",
        "We go sideways next. 1-4 Step right to the side, left behind, right to the side, left across",
    ),
    (
        "1R 2L 3R 4L 5- 6R 7- 8L",
        "12:00",
        "Step the right foot to the side, close the left to it, step the right to the side again and close the left again. Then the right heel goes out in front and the right foot comes back home with your weight, and the left heel goes out in front and the left foot comes back home with your weight.",
    ),
    (
        "1- 2R 3- 4L",
        "12:00",
        "1-4 Right heel out in front and back home taking the weight, left heel out in front and back home taking the weight",
    ),
    (
        "1L 2R 3L 4- 5R 6L 7R 8-",
        "3:00",
        "You make a grapevine to the left, left to the side, right behind, left to the side, and touch the right beside it. Then a grapevine to the right, right to the side, left behind, and on the third step you turn a quarter to the right as the right foot goes forward, and you brush the left foot past it.",
    ),
    (
        "1- 2R 3- 4L 5- 6R 7- 8L",
        "12:00",
        "Right toe touches forward, right foot steps back, left toe touches back, left foot steps forward. And all that once more, same feet.",
    ),
    (
        "1R 2L &R 3L 4R &L 5R 6L 7R 8L",
        "12:00",
        "Dorothy right on 1, 2 &, that is right diagonally forward, lock left behind, right diagonally forward. Dorothy left on 3, 4 &, that is left diagonally forward, lock right behind, left diagonally forward. Walk right, left, right, left on 5, 6, 7, 8.",
    ),
    (
        "1- &R 2- &L 3R 4L",
        "12:00",
        "R heel & L heel & (1&2&, feet come back in the middle on the &s), rock R fwd, recover L (3-4)",
    ),
    (
        "1R 2L 3R 4L 5R 6L 7R 8L",
        "9:00",
        "like section 1, but turn a quarter to the left as the left foot goes back",
    ),
    ("1R 2L 3R 4L 5R 6L 7R 8L", "9:00", "Repeat the first section with a quarter turn left on the last step"),
    (
        "1R 2L 3R 4L 5R 6L 7R 8L",
        "9:00",
        "the same as section one, but turning a quarter left as you step back",
    ),
    ("1R 2L 3R 4L 5R 6L 7R 8L", "12:00", "exactly as the first section"),
    ("1R 2L 3R 4L 5R 6L 7R 8-", "12:00", "as section 1, but finish with a touch"),
    (
        "1R 2L 3R 4L 5R 6L 7R 8L",
        "12:00",
        "Walk right, left on 1 and 2, right, left on 3 and 4. Walk right, left on 5 and 6, right, left on 7 and 8.",
    ),
    (
        "1R 2L 3R 4- 5L 6R 7L 8-",
        "12:00",
        "Step to the right with the right foot on the first beat, bring the left foot up to it on the second, step to the right again on the third and touch the left toe beside the right on the fourth. Beats five to eight are the same to the left.",
    ),
    (
        "1R 2L 3R 4- 5L 6R 7L 8-",
        "12:00",
        "Walk forward on 1, 2 and 3, beginning with the right foot, and kick the left foot on 4. Walk backward on 5, 6 and 7, beginning with the left, and touch the right toe on 8.",
    ),
    (
        "1R 2L 3R 4- 5L 6R 7L 8-",
        "12:00",
        "Three walks forward from the right foot (1, 2, 3) and a kick (4). Three walks back from the left foot (5, 6, 7) and a touch (8).",
    ),
    (
        "1R 2L 3R 4L 5R 6L 7R 8L",
        "12:00",
        "Four walks forward starting right (1-4), four walks back starting right (5-8).",
    ),
    ("1R 2L 3R 4L", "12:00", "1-4 Walk forward right foot first"),
    ("1R 2L 3R 4-", "12:00", "1-4 right, together, right, touch"),
    ("1R 2L 3R 4-", "12:00", "1-4 right left right, kick left"),
    (
        "1- 2R 3- 4L",
        "12:00",
        "Heel switches next: right heel forward on 1, home on 2, left heel forward on 3, home on 4.",
    ),
];

/// The same in three beats to the bar, begun with the left foot.
const WALTZED: &[(&str, &str, &str)] = &[
    ("1L 2R 3L", "12:00", "1-3 Waltz forward with the left"),
    (
        "1L 2R 3L 4R 5L 6R",
        "12:00",
        "Waltz forward with the left: left forward, right beside, left in place. Waltz back with the right: right back, left beside, right in place.",
    ),
    (
        "1L 2R 3L 4R 5L 6R",
        "12:00",
        "Waltz forward starting with the left foot, then waltz back starting with the right.",
    ),
    (
        "1L 2R 3L 4R 5L 6R",
        "6:00",
        "Waltz forward on the left making half a turn left, waltz back on the right.",
    ),
    (
        "1L 2- 3- 4R 5- 6-",
        "12:00",
        "1-3 Step left forward, sweep right round from back to front for two counts.\n4-6 Cross right over left and sweep left from back to front",
    ),
    (
        "1L 2- 4R",
        "12:00",
        "1-3 Step left forward and kick the right leg slowly forward, it needs two counts\n4-6 Step right back, touch left beside right, hold",
    ),
    (
        "1L 2- 4R",
        "12:00",
        "Step forward with the left foot and, for the two beats that remain of the bar, kick the right foot slowly. Step back with the right foot, touch the left beside it, and hold for a beat.",
    ),
    (
        "1L 2R 3L 4R 5L 6R",
        "9:00",
        "1-6 Step forward with left and turn by it 1/4 to the left, close right to left, left in place. Step right back, close left, close right",
    ),
];

/// Only what takes weight counts.
fn weights(trace: &str) -> Vec<String> {
    let mut count = "";
    let mut out = Vec::new();
    for word in trace.split_whitespace() {
        let (position, foot) = word.split_at(word.len() - 1);
        if position.starts_with(|c: char| c.is_ascii_digit()) {
            count = position;
        }
        if foot != "-" {
            let sign = position.trim_start_matches(|c: char| c.is_ascii_digit());
            out.push(format!("{count}{sign}{foot}"));
        }
    }
    out
}

fn hold(head: &str, phrases: &[(&str, &str, &str)]) {
    let mut misread = String::new();
    for (trace, facing, words) in phrases {
        let said = said(&format!("{head}\n\nSECTION 2\n{words}\n"), 1);
        let end = said.report.dance.main_sections().last().map(|s| s.facing_end.to_string());
        let sections = said.report.dance.main_sections().count();
        let broken = said.loud.iter().any(|rule| ["weight-not-free", "two-on-one-count"].contains(rule));
        if weights(&said.trace) != weights(trace)
            || end.as_deref() != Some(*facing)
            || sections != 2
            || broken
        {
            misread += &format!("{words}\n    {}, facing {end:?}, {:?}\n", said.trace, said.loud);
        }
    }
    assert!(misread.is_empty(), "misread:\n{misread}");
}

#[test]
fn sentences_read_as_their_steps() {
    let walks = "1-2 Walk forward right, left\n3-4 Walk back right, left\n5-6 Walk forward right, left\n7-8 Walk back right, left";
    hold(
        &format!("QUAYSIDE PARADE\nWalls: 4, start on the right foot\n\nSECTION 1: WALKS\n{walks} (12:00)"),
        SAID,
    );
}

#[test]
fn sentences_in_waltz_read_as_their_steps() {
    let basics =
        "1-3 Step left forward, close right, close left\n4-6 Step right back, close left, close right";
    hold(
        &format!(
            "QUAYSIDE WALTZ\nA waltz. Walls: 4, start on the left foot\n\nSECTION 1: BASICS\n{basics} (12:00)"
        ),
        WALTZED,
    );
}
