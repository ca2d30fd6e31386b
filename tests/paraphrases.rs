//! The same step in many hands: wordings that mean the same, and what all of them must be read as. The groups are
//! those of the trade reference, 1.11 (conventions of handbooks and teachers' notes; the examples are invented).

mod small;

use std::collections::BTreeSet;

use small::{said, weights};

/// One group: its name, the count mark of a wording without counts of its own, the weight and the turn that every
/// wording must give (a position without weight may be left out), and the wordings.
struct Group {
    name: &'static str,
    mark: &'static str,
    trace: &'static str,
    /// In 1/48, clockwise positive.
    turn: i32,
    wordings: &'static [&'static str],
}

const GROUPS: &[Group] = &[
    Group {
        name: "P1 half pivot",
        mark: "1-2",
        trace: "1R 2L",
        turn: -24,
        wordings: &[
            "1-2 Step right forward, pivot ½ turn left (weight to left) (6:00)",
            "1-2 RF fwd, ½ L stepping onto LF",
            "Step R, turn ½ over left shoulder",
            "Half pivot left, leading right",
            "1 2 Forward R; recover L with a half turn left",
            "Step turn",
        ],
    },
    Group {
        name: "a shuffle that turns half to the left",
        mark: "1&2",
        trace: "1R &L 2R",
        turn: -24,
        wordings: &[
            "½ turning shuffle left - R, L, R",
            "R L R turning 1/2 L",
            "RLR 1/2 L",
            "Shuffle R L R turning half left",
            "Triple step (R, L, R) making a half turn left",
            "Half turn shuffle to the left, right, left, right",
            "Shuffle right, left, right and turn another half to the left",
            "Half shuffle left rlr",
        ],
    },
    Group {
        name: "the end of a jazz box behind its name",
        mark: "1-4",
        trace: "1R 2L 3R 4L",
        turn: 0,
        wordings: &[
            "Right jazz box with L forward",
            "Right jazz box stepping left forward",
            "R jazz box ending with left forward",
            "Jazz box R with the left forward at the end",
        ],
    },
    Group {
        name: "the turn of a vine behind its name",
        mark: "1-4",
        trace: "1R 2L 3R 4-",
        turn: 12,
        wordings: &[
            "Vine right, 1/4 right, brush",
            "Vine right, but turn a quarter right on the third step, then brush",
            "Right vine with the last step turned 1/4 right and a left brush",
            "Vine right (1/4 turn right on 3rd step), brush L",
        ],
    },
    Group {
        name: "twice told before a figure",
        mark: "1&2, 3&4",
        trace: "1- &R 2L 3- &R 4L",
        turn: 0,
        wordings: &[
            "2x R kick ball change",
            "2 x kick ball change R",
            "Right kick & change, right kick & change",
        ],
    },
    Group {
        name: "the crossing foot told behind a name",
        mark: "1&2",
        trace: "1L &R 2L",
        turn: 0,
        wordings: &[
            "cross shuffle, L in front",
            "cross shuffle (L over R)",
            "cross shuffle L, left crossing in front of right",
        ],
    },
    Group {
        name: "a volta told by where it goes",
        mark: "1a2a3a4",
        trace: "1R aL 2R aL 3R aL 4R",
        turn: 0,
        wordings: &[
            "volta to the left, R over L",
            "volta going left, right crossing over left",
            "volta left (R over L)",
            "volta to the left (R crosses)",
        ],
    },
    Group {
        name: "what was put out comes back together",
        mark: "1-4",
        trace: "1- 2R 3- 4L",
        turn: 0,
        wordings: &[
            "R heel fwd, back together, L heel fwd, back together",
            "Point right to the side, back together, point left to the side, back together",
            "touch R toe fwd, R back together, touch L toe fwd, L back together",
        ],
    },
    Group {
        name: "a slow step that lasts as long as its bracket says",
        mark: "1-6",
        trace: "1L 2- 3- 4R 5- 6-",
        turn: 0,
        wordings: &["L fwd, drag R to it (2 beats), R back, drag L in (2 beats, no weight)"],
    },
    Group {
        name: "stomps that leave the weight on the other foot",
        mark: "1-2",
        trace: "1- 2-",
        turn: 0,
        wordings: &[
            "Stomp right next to left twice, leaving the weight on left",
            "Stomp right beside left twice (leave the weight on left)",
            "Stomp right beside left twice, but leave the weight on the left foot",
            "Stomp right twice, so that the weight stays left",
        ],
    },
    Group {
        name: "stomps that take the weight in turn",
        mark: "1-2",
        trace: "1R 2L",
        turn: 0,
        wordings: &[
            "stomp right, stomp left, weight on both of them one after the other",
            "stomp right, stomp left, weight on both in turn",
            "stomp right, stomp left (with weight on each)",
        ],
    },
    Group {
        name: "P2 coaster",
        mark: "3&4",
        trace: "1R &L 2R",
        turn: 0,
        wordings: &[
            "3&4 Right coaster step",
            "R back, L beside, R forward",
            "Step back on right, step left together, step forward right (3&4)",
            "Coaster R-L-R",
            "Back, together, forward",
        ],
    },
    Group {
        name: "P3 sailor",
        mark: "5&6",
        trace: "1R &L 2R",
        turn: 0,
        wordings: &[
            "Right sailor",
            "R sailor shuffle",
            "Cross R behind L, step L to L, step R to R",
            "5&6 Sweep R behind L & step L side, R in place",
            "Step right behind left, left small step left, right to right diagonal",
        ],
    },
    Group {
        name: "P4 grapevine with touch",
        mark: "1-4",
        trace: "1R 2L 3R 4-",
        turn: 0,
        wordings: &[
            "Vine right with touch",
            "Grapevine R, tap",
            "1-4 R side, L behind, R side, touch L next to R",
            "Side, cross behind, side, together (no weight)",
            "Step right to right (1), left behind (2), right to right (3), touch left (4)",
        ],
    },
    Group {
        name: "P4 vine with a vine after it",
        mark: "1-4",
        trace: "1R 2L 3R 4- 5L 6R 7L 8-",
        turn: 0,
        wordings: &["Vine R\n5-8 Vine L"],
    },
    Group {
        name: "P5 jazz box",
        mark: "5-8",
        trace: "1R 2L 3R 4L",
        turn: 0,
        wordings: &[
            "Jazz box right",
            "Right jazz square",
            "Cross R over L, back on L, R to side, L beside R",
            "Over, back, side, together",
            "5-8 R in front of L, L straight back, R opens to the side, L closes",
        ],
    },
    Group {
        name: "P6 shuffle",
        mark: "1&2",
        trace: "1R &L 2R",
        turn: 0,
        wordings: &[
            "Shuffle forward RLR",
            "Triple fwd R",
            "R shuffle",
            "Step R forward, L to R heel, R forward",
            "1&2 Step-together-step moving forward, right lead",
            "Cha-cha forward R-L-R",
        ],
    },
    Group {
        name: "a sign between two steps is the step that closes",
        mark: "1&2",
        trace: "1R &L 2R",
        turn: 0,
        wordings: &["R side & side", "Side&side R", "R fwd & fwd", "R back & back", "R back & fwd"],
    },
    Group {
        name: "a place with a foot behind it begins another step",
        mark: "1-4",
        trace: "1R 2L 3R 4L",
        turn: 0,
        wordings: &[
            "R side close L fwd R close L",
            "Step R, close L side R close L",
            "Rock R, recover L back R close L",
        ],
    },
    Group {
        name: "a way told once for the turn of the steps behind the name",
        mark: "1-4",
        trace: "1L 2R 3L 4R",
        turn: -12,
        wordings: &[
            "L jazz box 1/4 L (L over, R back 1/4, L side, R close)",
            "L jazz 1/4 left: cross L over R, step R back 1/4, step L side, step R beside L",
        ],
    },
    Group {
        name: "P7 chasse with a quarter",
        mark: "3&4",
        trace: "1R &L 2R",
        turn: 12,
        wordings: &[
            "Chasse ¼ right",
            "Side shuffle turning ¼ R (3:00)",
            "R to side, L together, ¼ turn right stepping R forward",
            "Side, close, quarter",
            "3&4 Triple to the right side making a quarter turn right on count 4",
        ],
    },
    Group {
        name: "P8 rock and recover",
        mark: "1-2",
        trace: "1R 2L",
        turn: 0,
        wordings: &[
            "Rock forward right, recover left",
            "Fwd rock",
            "Rock R fwd, replace weight on L",
            "Step forward on right, return to left",
            "R forward, L in place",
            "Rock/step R forward, back onto L",
            "Break forward R, recover",
        ],
    },
    Group {
        name: "P9 rocking chair",
        mark: "1-4",
        trace: "1R 2L 3R 4L",
        turn: 0,
        wordings: &[
            "Rocking chair R",
            "Rock fwd R, rec, rock back R, rec",
            "Forward, in place, back, in place",
            "Rock forward and back on right",
        ],
    },
    Group {
        name: "P10 mambo",
        mark: "1&2",
        trace: "1R &L 2R",
        turn: 0,
        wordings: &[
            "Mambo forward R",
            "R mambo step",
            "Rock R fwd, recover L, step R beside L",
            "Rock & together",
            "Forward & close",
        ],
    },
    Group {
        name: "P11 kick ball change",
        mark: "1&2",
        trace: "1- &R 2L",
        turn: 0,
        wordings: &[
            "R KBC",
            "Kick-ball-change R",
            "Kick R forward, step down on ball of R, step L in place",
            "Kick & step",
            "Low kick R, R beside L, change weight to L",
        ],
    },
    Group {
        name: "P12 toe strut",
        mark: "1-2",
        trace: "1- 2R",
        turn: 0,
        wordings: &[
            "R toe strut",
            "Toe strut forward",
            "RF strut",
            "Touch R toe fwd, drop heel",
            "Step on R toe, lower heel",
            "R toe, heel",
            "Place ball of R forward, heel down taking weight",
            "Touch R toe forward, put down R heel",
            "Touch R toe forward, put the heel down",
            "Touch R toe forward, set down the heel",
        ],
    },
    Group {
        name: "four counts out and in again (common practice)",
        mark: "1-4",
        trace: "1R 2L 3R 4L",
        turn: 0,
        wordings: &[
            "V-step R: out out in in",
            "out out in in (1-4)",
            "V step right (out, out, home, home)",
            "1-2 out out, 3-4 in in",
            "1 2 out out, 3 4 home home",
            "R out, L out, in, in",
        ],
    },
    Group {
        name: "out and in twice as fast",
        mark: "1&2&",
        trace: "1R &L 2R &L",
        turn: 0,
        wordings: &["out out in in", "R out, L out, R in, L in"],
    },
    Group {
        name: "three heel switches and a clap",
        mark: "1&2&3-4",
        trace: "1- &R 2- &L 3- 4-",
        turn: 0,
        wordings: &[
            "1&2&3 heel switches R L R, 4 clap",
            "heel switches R, L, R (1&2&3), clap (4)",
            "1&2&3 heel switch right left right 4 hold",
            "R heel switch, L heel switch, R heel, clap",
        ],
    },
    Group {
        name: "stomps of which a remark says that they take weight",
        mark: "1-4",
        trace: "1R 2- 3L 4-",
        turn: 0,
        wordings: &[
            "stomp R, clap, stomp L, clap (stomps take weight)",
            "stomp R, hold, stomp L, hold (stomps with wt)",
            "stomp right, clap, stomp left, clap (each stomp takes the weight)",
            "stomp R, hold, stomp L, hold (both stomps with weight)",
            "stomp R, clap, stomp L, clap - the stomps take weight",
        ],
    },
    Group {
        name: "P13 heel switches",
        mark: "1&2&",
        trace: "1- &R 2- &L",
        turn: 0,
        wordings: &[
            "Heel switches R & L &",
            "R heel forward, switch, L heel forward, switch",
            "Tap R heel, step together, tap L heel, step together (1&2&)",
            "Heel & heel &",
        ],
    },
    Group {
        name: "P14 Monterey",
        mark: "1-4",
        trace: "1- 2R 3- 4L",
        turn: 24,
        wordings: &[
            "½ Monterey right",
            "Point R to side, turn ½ right closing R to L, point L to side, close",
            "Touch R toe out; on ball of L make half turn R stepping R beside; touch L out; together",
        ],
    },
    Group {
        name: "P15 behind-side-cross",
        mark: "3&4",
        trace: "1R &L 2R",
        turn: 0,
        wordings: &[
            "Behind & cross",
            "R behind, L side, R over",
            "Sailor cross",
            "Syncopated weave left",
            "3&4 Step R in back of L, step L to left, cross R in front",
        ],
    },
    Group {
        name: "P16 rolling vine",
        mark: "1-4",
        trace: "1R 2L 3R 4-",
        turn: 48,
        wordings: &[
            "Rolling vine right",
            "Full turn right travelling right R, L, R, touch",
            "¼ right step fwd R, ½ right step back L, ¼ right step side R, touch",
            "Three-step turn to the right",
        ],
    },
    Group {
        name: "P17 side touch",
        mark: "1-2",
        trace: "1R 2-",
        turn: 0,
        wordings: &[
            "Step R, touch L",
            "Side touch R",
            "Step right to side, tap left beside right",
            "Step-touch R",
            "Side R, together L (no weight)",
        ],
    },
    Group {
        name: "P18 full turn forward",
        mark: "1-2",
        trace: "1R 2L",
        turn: -48,
        wordings: &[
            "Full turn L stepping R, L",
            "½ turn left stepping back R, ½ turn left stepping forward L",
            "Travelling full turn forward over left shoulder (easy option: walk R, L)",
        ],
    },
    Group {
        name: "P19 scissor",
        mark: "1-4",
        trace: "1R 2L 3R 4-",
        turn: 0,
        wordings: &[
            "R scissor step, hold",
            "Side R, close L, cross R over L, hold",
            "Step right to right, left next to right, right across left (clap)",
        ],
    },
    Group {
        name: "P20 unwind",
        mark: "1-2",
        trace: "2L",
        turn: -24,
        wordings: &[
            "Cross R over L, unwind ½ left (weight on L)",
            "Cross, unwind half",
            "Touch R across L, turn half left on balls of both feet",
        ],
    },
    Group {
        name: "P21 hip bumps",
        mark: "1-4",
        trace: "4L",
        turn: 0,
        wordings: &[
            "Bump hips RRLL",
            "Hips right twice, left twice",
            "Step R to side bumping hips R, R, L, L (weight ends L)",
        ],
    },
    Group {
        name: "P21 hips that carry the weight",
        mark: "1-4",
        trace: "1R 2L 3R 4L",
        turn: 0,
        wordings: &[
            "Sway R, L, R, L",
            "Four sways, right, left, right, left",
            "Swing hips to right, swing hips to left, swing hips to right, swing hips to left",
            "Swing your hips right, left, right, left",
        ],
    },
    Group {
        name: "walk round in a circle",
        mark: "1-4",
        trace: "1R 2L 3R 4L",
        turn: -48,
        wordings: &[
            "Walk around in a circle to the left, R L R L",
            "Walk in a circle to the left, R L R L, a quarter turn with each step",
            "Walk round in a circle, R, L, R, L, a quarter left on each step",
            "Walk a full circle to the left, R L R L, a quarter turn each step",
        ],
    },
    Group {
        name: "P22 hold with clap",
        mark: "4",
        trace: "1-",
        turn: 0,
        wordings: &[
            "Hold and clap",
            "Clap",
            "Hold (clap)",
            "Pause, clap",
            "Snap fingers",
            "Hold, click",
            "Stay there",
            "Stay put",
            "Do nothing",
            "Stand still",
        ],
    },
    Group {
        name: "P23 night-club basic",
        mark: "1-2&",
        trace: "1R 2L &R",
        turn: 0,
        wordings: &[
            "NC basic R",
            "Basic right",
            "Basic nightclub right 1-2&",
            "Large step R to side, rock L behind R, recover R",
            "1,2& R side, L close behind, R cross over L",
        ],
    },
    Group {
        name: "P24 half shuffle",
        mark: "1&2",
        trace: "1R &L 2R",
        turn: 24,
        wordings: &[
            "Shuffle ½ turn right R-L-R",
            "Triple half R",
            "¼ right R to side, close L, ¼ right R forward",
            "Turning shuffle over right shoulder (6:00)",
        ],
    },
    Group {
        name: "P25 vine with a quarter",
        mark: "1-4",
        trace: "1R 2L 3R 4-",
        turn: 12,
        wordings: &[
            "Vine R ¼ turn, brush",
            "Turning vine right with scuff",
            "R side, L behind, ¼ R, brush L",
            "Side, behind, turn, brush",
        ],
    },
    Group {
        name: "P26 a slow mambo",
        mark: "1-4",
        trace: "1R 2L 3R 4-",
        turn: 0,
        wordings: &[
            "Slow R mambo fwd, hold",
            "R mambo fwd slow, hold",
            "R mambo fwd (slow), hold",
            "Slow R coaster, hold",
        ],
    },
    Group {
        name: "P27 what is done on a step is no other step",
        mark: "1-4",
        trace: "1R 2L 3R 4-",
        turn: 0,
        wordings: &[
            "Fwd R L R, touch L and click your fingers on the touch",
            "Walk R L R, kick L and clap on the kick",
            "Vine R, touch L, clap each time",
        ],
    },
    Group {
        name: "P28 struts to all sides",
        mark: "1-4",
        trace: "1- 2R 3- 4L",
        turn: 0,
        wordings: &[
            "R strut across, L strut back",
            "R toe strut to the side, L toe strut across",
            "R strut fwd, L strut fwd (toe then heel)",
        ],
    },
    Group {
        name: "P29 a foot that comes in and takes the weight",
        mark: "1-4",
        trace: "1- 2R 3- 4L",
        turn: 0,
        wordings: &[
            "Point R to the right, bring it in and step on it, point L to the left, bring it in and stand on it",
            "Point the right toe to the right, bring it back and step on it, point the left toe to the left, bring it back \
             and step on it.",
        ],
    },
    Group {
        name: "P31 a circle of walks",
        mark: "1-4",
        trace: "1R 2L 3R 4L",
        turn: 48,
        wordings: &[
            "Walk a small circle to the right: right foot, left foot, right foot, left foot",
            "Walk in a circle to the right, R L R L",
            "Walk a full circle right: R, L, R, L",
        ],
    },
    Group {
        name: "P32 a circle of eight walks",
        mark: "1-8",
        trace: "1R 2L 3R 4L 5R 6L 7R 8L",
        turn: 0,
        wordings: &[
            "Walk one full circle to the left in eight steps, right, left, right, left, right, left, right, left, \
             one step to a count",
            "Walk a full circle to the left, eight steps, starting right",
            "Walk round in one full circle to the left with eight steps, beginning on the right, a step to each count",
            "Walk eight steps round in a circle to the left, right foot first",
            "Walk a whole circle anticlockwise in eight steps, R, L, R, L, R, L, R, L, one to a count",
        ],
    },
    Group {
        name: "P33 a V step told as out and forward",
        mark: "1-4",
        trace: "1R 2L 3R 4L",
        turn: 0,
        wordings: &[
            "R out fwd, L out fwd, R back to centre, L tog",
            "R fwd out, L fwd out, R back home, L home",
        ],
    },
    Group {
        name: "P30 hips that take the weight along",
        mark: "1-2",
        trace: "1R 2L",
        turn: 0,
        wordings: &["Hips R, L, changing weight each time", "Hips R L, shifting your weight"],
    },
];

/// Wordings that are still misread. Each must be misread, so that the list shrinks with every step forward.
const KNOWN_MISREAD: &[&str] = &["Touch R across L, turn half left on balls of both feet"];

/// The wording in a sheet: four walks before it, so that the weight is on the left.
fn sheet(group: &Group, wording: &str) -> String {
    let counted = wording.starts_with(|c: char| c.is_ascii_digit())
        || ["(1)", "(1&2&)", "(3&4)", "1-2&"].iter().any(|mark| wording.contains(mark));
    let line = if counted { wording.to_string() } else { format!("{} {wording}", group.mark) };
    format!(
        "QUAYSIDE PARADE\nWalls: 4, start on the right foot\n\n\
         SECTION 1: WALKS\n1-2 Walk forward right, left\n3-4 Walk back right, left\n5-6 Walk forward right, left\n\
         7-8 Walk back right, left (12:00)\n\nSECTION 2\n{line}\n"
    )
}

/// Weight on one foot: wordings of a group may share it or not in between.
fn on_one_foot(trace: &str) -> Vec<String> {
    weights(trace).into_iter().filter(|at| !at.ends_with('B')).collect()
}

#[test]
fn every_wording_reads_as_its_group() {
    let mut misread = BTreeSet::new();
    let mut told = String::new();
    for group in GROUPS {
        for wording in group.wordings {
            let said = said(&sheet(group, wording), 1);
            if on_one_foot(&said.trace) != on_one_foot(group.trace) || said.turn != group.turn {
                misread.insert(*wording);
                let got = format!("{}: \"{wording}\"\n    {} turn {}\n", group.name, said.trace, said.turn);
                told.push_str(&got);
            }
        }
    }
    let known: BTreeSet<_> = KNOWN_MISREAD.iter().copied().collect();
    assert!(misread == known, "misread now and not before, or read now and still in the list:\n{told}");
}
