//! One dance whose restart changes its last steps, in the wordings of many writers, and a section that is another one on
//! the other foot. The habits are common practice among those who write for a class; the dances are invented.

mod small;

use halfcount::{Options, report};
use small::{said, weights};

const STEPS: &str = "\
Section 1
1-2 Walk forward R, L
3&4 R shuffle forward
5-6 Rock L forward, recover R
7&8 L coaster step

Section 2
1-2 Step R forward, pivot 1/2 L (6:00)
3&4 R shuffle forward
5-6 Step L forward, pivot 1/2 R (12:00)
7&8 L shuffle forward

Section 3
1-2 Rock R to side, recover L
3&4 R behind, L side, R across
5-6 Rock L to side, recover R
7&8 L behind, R side, L across

Section 4
1-2 Step R to side, touch L beside R
3-4 Step L to side, touch R beside L
5-6 Rock R back, recover L
7-8 Stomp R, stomp L
";

/// All of them break off the third repetition after 16 counts, with a step forward and a touch on 15 and 16.
const RESTARTS: &[&str] = &[
    "Restart: on wall 3 after 16 counts, with 7-8 changed to: step L forward, touch R beside L.",
    "RESTART wall 3: dance to count 14, then 15-16 = L forward, touch R beside L. Restart.",
    "Wall 3: dance up to count 14, then step L forward (15), touch R beside L (16). Start again.",
    "Restart on wall 3 after section 2. Instead of the shuffle on 7&8, step L forward, touch R beside L.",
    "On wall 3 dance sections 1 and 2, but on 7-8 don't shuffle, step L forward and touch R next to L. Then start again \
     from section 1.",
    "Restart in wall 3 after 16 counts: replace counts 15&16 with step L forward, touch R beside L.",
    "WALL 3: counts 7-8 of section 2 are step L forward and touch R, not a shuffle. Start again from section 1.",
    "* Restart wall 3 after 16 counts. Step change: 7 step L forward, 8 touch R beside L.",
    "Restart on wall 3 after 16 counts (replace the last L shuffle with step L forward, touch R).",
    "Restart after 16 counts of wall 3, changing counts 15 and 16 to step L forward, touch R beside L.",
    "The restart comes in the third wall at the end of the second section. In place of the shuffle on seven and eight, \
     step left forward on seven and touch right beside left on eight, and start again from the first section.",
    "Restart: W3 after section 2 (7-8: step L forward, touch R).",
    "Restart: the 3rd wall begins at 12:00. Dance 16 counts, but replace the 7&8 of section 2 by: 7 step L forward, 8 touch R \
     next to L.",
    "The third wall begins at 12:00. Dance the first two eights of it, but on the last two counts, instead of shuffling, step \
     the left foot forward and only touch the right beside it. Begin the dance again from the top.",
    "One restart, 3rd wall, at the end of section 2. They must not shuffle at the end there, they step L forward and touch R \
     beside it, otherwise the wrong foot is free.",
    "Restart with a change, wall 3: dance 16 counts only. In section 2 keep the step pivot on 5-6, but for 7&8 do instead: 7 \
     step L forward, 8 touch R beside L. Then start from section 1.",
    "Restart on wall 3 after 16 counts. This time the last shuffle is only: step L forward, touch R.",
    "Wall 3 only: do sections 1 and 2, finishing with step L, touch R instead of the shuffle, and restart.",
    "RESTART during wall 3: after 16 counts. Swap the shuffle for a step L & touch R.",
    "Restart W3 after 16 (end with step L fwd, touch R).",
    "Restart: wall 3, 16 counts; 7-8 then: L fwd, R touch.",
    "There's a restart on wall 3. Get to count 14, step left forward, touch right beside and go from the top.",
    "Wall 3, restart after 16 counts, but on seven and eight there is no shuffle, just step L forward and touch R.",
    "Restart on wall 3 after 16 counts: no shuffle at the end but step left, touch right.",
    "RESTART: On wall 3 dance to count 6 of section 2, then step L forward on count 7 and touch R beside L on count 8 \
     (leave out the shuffle) and start again.",
    "Restart on wall 3: dance up to count 6 of section 2, step L forward on 7, touch R beside L on 8, start again.",
];

/// All of them break off the third repetition after 26 counts, where a touch of the left foot becomes a step.
const STEPPED: &[&str] = &[
    "Restart, wall 3, after 26 counts (section 4, count 2): do not touch L, step it beside R with weight.",
    "Restart on wall 3 after 26 counts: step L next to R instead of touching.",
    "There is one restart, in wall 3 after 26 counts; the touch of the left foot is then a step.",
    "Restart after 26 counts on wall 3. Change the touch into a close (weight on L).",
    "Restart on wall 3 after 26 counts - put weight on the L foot instead of the touch.",
    "Restart wall 3 after 26 counts (close L with weight, no touch).",
    "Restart wall 3 after 26 counts, L together (weight) instead of touch.",
    "Restart on wall 3 after 26 counts. They must not touch the L at the end there, they STEP it beside the R.",
    "Restart on wall 3 after 26 counts, but on the very last count, instead of touching the left foot, step on it beside the \
     right.",
    "Restart on wall 3 after 26 counts. N.B. last touch = step.",
    "Restart on wall 3 after 26 counts. Make the last touch a step.",
    "Wall 3, after 26 counts: start over. Take the weight on L on count 26.",
    "On wall 3 the dance restarts after 26 counts, here the touch L has to be a step L.",
    "Restart wall 3 after 26 counts with a step change: count 2 = step L beside R.",
    "In the third wall after 26 counts we restart. The touch is not danced, put the left foot down instead.",
    "Restart wall 3 after 26 counts: 2 becomes L together.",
    "Restart wall 3 after 26 counts, closing with the left (weight) instead of touching.",
    "Restart on wall 3 after 26 counts (weight on L).",
];

#[test]
fn a_restart_that_changes_steps_in_many_wordings() {
    let want = |restarts: &[&'static str], from: i32, want: &'static str| {
        restarts.iter().map(|r| (*r, from, want)).collect::<Vec<_>>()
    };
    let shuffled = want(RESTARTS, 7, "wall 3 after 16: 7L 8L");
    let stepped = want(STEPPED, 1, "wall 3 after 26: 1R 2L");
    let mut told = String::new();
    for (restart, from, want) in shuffled.into_iter().chain(stepped) {
        let text = format!(
            "LAMPLIGHT LEDGER\n32 count, 1 wall, improver, start on the right foot\n\n{STEPS}\n{restart}\n"
        );
        let report = report(&text, &Options::default()).expect("a small sheet");
        let found: Vec<String> = report
            .dance
            .restarts
            .iter()
            .map(|r| {
                let last = r.changed.as_ref().map(|s| {
                    let took = s.moves.iter().filter(|m| m.at.count() >= from);
                    took.map(|m| format!("{}{}{}", m.at.count(), m.at.sign(), m.after.letter()))
                        .collect::<Vec<_>>()
                        .join(" ")
                });
                format!("wall {} after {}: {}", r.wall, r.after_counts, last.unwrap_or_default())
            })
            .collect();
        if found != [want] {
            told.push_str(&format!("{restart}\n    {found:?}\n"));
        }
        for f in report.findings.iter().filter(|f| f.severity != halfcount::check::Severity::Note) {
            told.push_str(&format!("{restart}\n    {}: {}\n", f.rule, f.message));
        }
    }
    assert!(told.is_empty(), "{told}");
}

const FIRST: &str =
    "walk forward R, walk L, walk R, kick L, walk back L, walk back R, step L to side, step R beside L";

/// The second section of a dance whose first one ends with the weight on the right foot.
const AGAIN: &[&str] = &[
    "All of that again but left first.",
    "Same again, left foot first.",
    "The same as 1 on the other foot.",
    "Same as 1, other foot.",
    "Section 1 again, starting with the left.",
    "Repeat section 1 starting with the left foot.",
    "Repeat the first section on the other foot.",
    "All of it again, leading with the left.",
    "As section 1, but on the left.",
    "The whole lot again on the left.",
    "Line 1 on the other foot.",
    "Mirror of section 1.",
];

#[test]
fn a_section_that_is_another_one_on_the_other_foot() {
    let mut told = String::new();
    let heads = [("Section 1: ", "Section 2: "), ("1. ", "2. "), ("First 8: ", "Second 8: "), ("1 ", "2 ")];
    for again in AGAIN {
        for (one, two) in heads {
            let text = format!(
                "LEDGER OF LAMPS\n16 counts, start on the right foot\n\n{one}{FIRST}.\n{two}{again}\n"
            );
            let said = said(&text, 0);
            let want = "1R 2L 3R 4- 5L 6R 7L 8R 9L 10R 11L 12- 13R 14L 15R 16L";
            if weights(&said.trace) != weights(want)
                || said.report.findings.iter().any(|f| f.rule == "total-differs")
            {
                told.push_str(&format!("{two}{again}\n    {}\n", said.trace));
            }
        }
    }
    assert!(told.is_empty(), "{told}");
}
