//! What sheets say of tags and restarts, in many hands: one invented dance of 32 counts, and the words at its foot.

use halfcount::{Options, report};

const DANCE: &str = "GANGWAY GLOW\n32 counts, 4 walls, improver, by Test Author MM\nMusic: \"Gangway Glow\" by The \
Invented Gulls, 112 bpm\nStart on the right foot\n\n\
SECTION 1\n1-4 Walk forward R, L, R, kick L\n5-8 Walk back L, R, L, touch R\n\n\
SECTION 2\n1-4 Vine right, touch L\n5-8 Vine left, touch R\n\n\
SECTION 3\n1-2 Rock R forward, recover L\n3&4 Right coaster step\n5-6 Rock L forward, recover R\n7&8 Left coaster step\n\n\
SECTION 4\n1-4 Jazz box 1/4 turn right (3:00)\n5-8 Rocking chair right\n\n";

/// The restarts and the tags of the dance with these words at its foot: `w5 after 16`, `tag after 3: 4 counts`.
#[track_caller]
fn check(words: &str, expected: &[&str]) {
    check_at(DANCE, words, expected);
}

/// The same with a sign at the end of a line of the dance.
#[track_caller]
fn signed(line: &str, sign: &str, words: &str, expected: &[&str]) {
    check_at(&DANCE.replacen(line, &format!("{line} {sign}"), 1), words, expected);
}

#[track_caller]
fn check_at(dance: &str, words: &str, expected: &[&str]) {
    let report = report(&format!("{dance}{words}\n"), &Options::default()).expect("a small sheet");
    let dance = &report.dance;
    let mut got: Vec<String> =
        dance.restarts.iter().map(|r| format!("w{} after {}", r.wall, r.after_counts)).collect();
    got.extend(dance.tags.iter().map(|t| {
        let counts: u32 = dance.parts[t.part].sections.iter().map(|s| s.counts).sum();
        format!("tag after {}: {counts}", t.wall)
    }));
    assert_eq!(got, expected, "{words}");
    let loud: Vec<&str> = report
        .findings
        .iter()
        .filter(|f| f.severity != halfcount::check::Severity::Note)
        .map(|f| f.rule)
        .collect();
    assert!(loud.is_empty(), "{words}: {loud:?}");
}

#[test]
fn restarts_after_sections_and_counts() {
    let expected = &["w3 after 16"];
    check("Restart on wall 3 after 16 counts.", expected);
    check("RESTART: On wall 3 you dance only the first 2 sections. Begin again from the start.", expected);
    check("On the third wall do the first two sections only, then restart.", expected);
    check("wl3: #1-#2, then restart.", expected);
    check("RST w3 after #2", expected);
    check("Wall 3: stop after number 16 and start again with number 1.", expected);
    check("Restart: on wall 3 dance up to and including count 16 and go back to count 1.", expected);
    check("The restart: wall 3, dance counts 1 to 16, then it is back to count 1.", expected);
    check("Restart on wall 3 after count 16, from count 1 again.", expected);
    check("Restart, wall 3: do ONE and TWO, then go again.", expected);
    check("On wall 3 dance chunks 1 and 2 (16 counts) and restart.", expected);
    check("Restart on wall 3: paragraph 1 and paragraph 2 only.", expected);
    check("Restart on wall 3, 16 counts in.", expected);
    let expected = &["w3 after 24"];
    check(
        "Restart. On wall 3 dance 1, 2 and the first eight counts of 3 (24 counts in all), then begin again.",
        expected,
    );
    check("Restart on wall 3 after the first eight counts of section 3, 24 counts altogether.", expected);
}

#[test]
fn an_intro_beside_a_restart_in_the_head() {
    check("Restart on wall 3 after 16 counts. Start on the right foot, 32 counts in.", &["w3 after 16"]);
    check("32 counts, four walls, restart on wall 3 after 16 counts.", &["w3 after 16"]);
}

#[test]
fn a_tag_whose_steps_come_before_its_walls() {
    let expected = &["tag after 3: 4", "tag after 6: 4"];
    check(
        "The tag is sway right, left, right, left. You'll need it at the end of wall 3 and again at the end of wall 6.",
        expected,
    );
    check("The tag is a right rocking chair. It comes after wall 3 and after wall 6.", expected);
    check("Tag: sway right, left, right, left (1-4). Needed after walls 3 and 6.", expected);
}

#[test]
fn walls_with_sections_of_their_own() {
    let expected = &["w2 after 8", "w5 after 16"];
    check("R/S: w2 after S1, w5 after S2", expected);
    check("Restarts: wall 2 after section 1, wall 5 after section 2", expected);
    check("RST: wall 2 (after sec 1) + wall 5 (after sec 2)", expected);
}

#[test]
fn walls_by_their_ordinals_one_after_the_other() {
    let expected = &["w3 after 16", "w6 after 16"];
    check("Restart: in the 3rd and in the 6th round after 16 counts", expected);
    check("In the third and on the sixth wall you begin again after 16 counts.", expected);
    check(
        "(In the 3rd and again in the 6th round break off after 16 counts and begin from the front)",
        expected,
    );
}

#[test]
fn counts_that_are_added_with_a_plus() {
    check("+4 after wall 3 (facing 9): rocking chair R", &["tag after 3: 4"]);
    check("+4 cts after w2 & w5: sway R, L, R, L", &["tag after 2: 4", "tag after 5: 4"]);
}

#[test]
fn restarts_whose_last_steps_are_changed() {
    let expected = &["w3 after 24"];
    check(
        "Restart on wall 3 after 24 counts: instead of the left coaster, 7 step L together, 8 touch R beside L.",
        expected,
    );
    check("w3: dance to ct 22, then instead of coaster: 7 step L tog, 8 touch R beside L. Rst.", expected);
    check(
        "The restart comes on the third wall. Dance the first and second sections as usual and the third as far as \
         count 6. In place of the coaster on 7 & 8, step the left foot together on 7 and touch the right foot beside \
         it on 8. Having danced twenty-four counts you start again from the beginning.",
        expected,
    );
    check(
        "RESTART: On wall 3 you dance only the first 3 sections. Change count 7-8 in section 3 to: step L beside R, \
         touch R beside L. Begin again from the start.",
        expected,
    );
}

#[test]
fn tags_and_how_long_they_are() {
    let expected = &["tag after 4: 4"];
    check("TAG after wall 4\n1-2 Sway R, sway L\n3-4 Like 1-2", expected);
    check(
        "TAG after wall 4\nHip sways R, L, R, L\n1-2 Swing hips to right, swing hips to left\n3-4 Do 1-2 once more",
        expected,
    );
    check("TAG after wall 4: sway R, sway L (1-2), repeat 1-2 (3-4)", expected);
    check("T: 4ct aft w4 -- R rkg ch", expected);
    check("There is a tag of 4 counts when the 4th wall ends (facing 12:00): 4 sways R L R L.", expected);
    check(
        "There is one tag, when you have danced it four times: four sways, right, left, right, left.",
        expected,
    );
    check(
        "Tag: once you have done the dance four times, sway right, left, right, left, a count each.",
        expected,
    );
}

#[test]
fn restarts_at_a_sign() {
    let line = "5-8 Vine left, touch R";
    let expected = &["w3 after 16"];
    signed(line, "*", "*   Third wall: start again from here.", expected);
    signed(line, "**", "** Wall 3: restart here", expected);
    signed(line, "(#)", "# Restart on wall 3", expected);
    signed(line, "##", "Restart ## on wall 3", expected);
    signed("1-2 Rock R forward, recover L", "^", "^ On wall 3 restart from here", &["w3 after 18"]);
}

#[test]
fn changed_steps_in_rows_of_their_own() {
    let expected = &["w3 after 24"];
    let rows = "5 6 Step L forward, turn 1/2 right onto R\n7 8 Stomp L, touch R";
    check(
        &format!(
            "Restart with step change: on wall 3 dance to count 4 of section 3, then replace counts 5-8 by\n{rows}"
        ),
        expected,
    );
    check(
        "RESTART WITH CHANGED STEPS\nOn wall 3 dance to count 6 of section 3 and then, in place of the coaster, do \
         this:\n7-8 step L together, touch R",
        expected,
    );
}

#[test]
fn tags_before_the_next_wall() {
    let expected = &["tag after 4: 4"];
    check("There are four beats to fill before wall 5:\n1-4 Sway R, L, R, L", expected);
    check("Tag: before you start the fifth wall, sway right, left, right, left.", expected);
    check("Tag before wall 5\n1-4 Sway R, L, R, L", expected);
}

#[test]
fn tags_in_ordinary_words() {
    check(
        "One small extra: after the fourth time through the band takes a breath of four counts. Sway right, left, \
         right, left, one sway to a count, and start from the top.",
        &["tag after 4: 4"],
    );
    check(
        "Remember the extra bit: when wall four is finished and we are facing the front again, there are 4 counts of \
         balance. Sway right, left, right, left. Then section one.",
        &["tag after 4: 4"],
    );
    check("Between walls 3 and 4 there are four beats to fill: sway R, L, R, L.", &["tag after 3: 4"]);
    check(
        "Bridge: after the 2nd and after the 4th wall comes 4 counts extra:\n1-4 Hips sway R, L, R, L",
        &["tag after 2: 4", "tag after 4: 4"],
    );
}

#[test]
fn tags_that_dance_a_stretch_again() {
    check("Tag: at the end of wall 2 repeat the last 8 counts.", &["tag after 2: 8"]);
    check("Tag after wall 3: dance section 1 again", &["tag after 3: 8"]);
    check("Tag (8 counts) at the end of wall 4: repeat counts 25-32", &["tag after 4: 8"]);
    check("After wall 3 do the last eight again and carry on from the beginning.", &["tag after 3: 8"]);
    check("after W2 (at 6): 1-8 once more, then from top.", &["tag after 2: 8"]);
    check(
        "After wall 3 finish, dance Section 4 one more time, then wall 4 begin, same direction.",
        &["tag after 3: 8"],
    );
    check("After wall 2 repeat the first two sections, then start wall 3.", &["tag after 2: 16"]);
}

#[test]
fn restarts_with_short_places_and_steps_left_out() {
    check("One restart, wall 4, after 2️⃣, then from the top.", &["w4 after 16"]);
    check(
        "There is one restart. On the third wall dance the first 28 counts, but leave the quarter turn out of the \
         jazz box (counts 1-4), and begin again from there.",
        &["w3 after 28"],
    );
}

#[test]
fn walls_of_a_tag_below_its_steps() {
    let expected = &["tag after 2: 4", "tag after 5: 4"];
    check("TAG 4c: R side sway R, sway L, sway R, sway L\nW2 facing 6, W5 facing 3", expected);
    check("TAG (4 counts): sway R, L, R, L\nW2 & W5", expected);
    check("TAG\n1-4 Sway R, L, R, L\nWalls 2 and 5, facing 6 and 3", expected);
    check("TAG 4 cts\nsway R, L, R, L\nwall 2 at the back, wall 5 at 3 o'clock", expected);
}

#[test]
fn ends_of_several_walls() {
    let expected = &["tag after 2: 4", "tag after 5: 4"];
    check("TAG (end W2, end W5): sway R, L, R, L", expected);
    check("Tag x2: end wall 2, end wall 5\n1-4 sway R, L, R, L", expected);
    check("TAG (end of wall 2, end of wall 5): sway R, L, R, L", expected);
}

#[test]
fn counts_that_are_extra() {
    let expected = &["tag after 3: 4"];
    let steps = "stomp R, stomp L, clap, clap";
    check(&format!("At the end of wall 3 {steps} = 4 extra, then carry on from the top."), expected);
    check(
        &format!("There is one gap: at the end of the 3rd wall do {steps} = 4 extra, then from the top."),
        expected,
    );
    check(&format!("There are 4 extra at the end of wall 3: {steps}, then start from the top."), expected);
}

#[test]
fn a_restart_in_two_letters() {
    let expected = &["w3 after 16"];
    check("R/S W3 after 16", expected);
    check("R/S: W3 aft 16 cts", expected);
    check("wall 3: R/S after 16", expected);
    signed("5-8 Vine left, touch R", "\n(R/S W3)", "", expected);
}

#[test]
fn counts_that_one_waits_for() {
    let expected = &["w3 after 16"];
    check(
        "Wait for 32 counts and begin. There is one restart, on the third wall, after section 2.",
        expected,
    );
    check("There is one restart, on wall 3, after 16 counts. Wait 8 counts for the song.", expected);
}

#[test]
fn bridges_in_sentences_of_all_kinds() {
    let expected = &["tag after 3: 2"];
    check(
        "During the 3rd wall only: after the first 16 counts stomp right, stomp left (taking weight on each), then pick \
         up the dance at Section 3. You are facing the back wall when this happens.",
        expected,
    );
    check("Wall 3: S1, S2, stomp R, stomp L (2 extra counts, take weight each time), S3, S4.", expected);
    check(
        "on wall 3 after section 2 you add stomp right stomp left both with weight 2 counts then carry on from section \
         3 you are at the back wall",
        expected,
    );
    check(
        "The music has two extra beats in the middle of the third repetition. We fill them between Section 2 and \
         Section 3 with a stomp on R and a stomp on L, weight on each. No restart here, just carry straight on into \
         Section 3. Facing 6:00.",
        expected,
    );
    check(
        "Third wall: Please add 2 counts after Section 2.\n1 Stomp right foot (weight on right)\n2 Stomp left foot \
         (weight on left)\nAnd continue to Section 3. Facing 6:00.",
        expected,
    );
}

#[test]
fn what_only_talks_is_no_step_of_a_bridge() {
    let expected = &["tag after 3: 2"];
    check(
        "During wall 3 you pause the dance after section 2 to stomp right, stomp left. The dance then continues with the \
         rocks.",
        expected,
    );
    check(
        "Remember the 2 extra stomps (R, L, both with weight) in wall 3, after section 2! Then you carry on as if nothing \
         had happened.",
        expected,
    );
    check("3rd wall: dance sections 1 & 2, stomp R (1), stomp L (2), dance sections 3 & 4", expected);
}

#[test]
fn tags_told_to_people() {
    let expected = &["tag after 2: 4", "tag after 5: 4"];
    check(
        "Don't forget the tag!! Once you've done the whole dance twice you'll be facing the back wall, and there you do \
         4 more sways, R L R L, 1 count each. Exactly the same 4 sways again after the fifth time through, when you'll \
         be facing 3:00.",
        expected,
    );
    check(
        "When you have danced wall 2 to the end (6:00), sway R, sway L, sway R, sway L on counts 1-4 before going on to \
         wall 3. When you have danced wall 5 to the end (3:00), do the same before going on to wall 6.",
        expected,
    );
    check(
        "The music has a small gap after the second wall and again after the fifth. We fill it by swaying four times, \
         right, left, right, left, one count per sway. After that begin the dance again with the right foot.",
        expected,
    );
    check(
        "ADD 4 COUNTS AFTER WALLS 2 & 5:\n(1) SWAY RIGHT, (2) SWAY LEFT, (3) SWAY RIGHT, (4) SWAY LEFT",
        expected,
    );
    check(
        "When wall 2 ends you'll hear the drums on their own for four beats - sway R, L, R, L with them. The same thing \
         happens when wall 5 ends.",
        expected,
    );
    check("T A G\nWhen: after wall 2, after wall 5\nWhat: sways R, L, R, L\nCounts: 1, 2, 3, 4", expected);
    let expected = &["tag after 3: 8"];
    check("8-count Tag, end of 3rd wall @ 9:00 --> R Rocking Chair + 2x Pivot 1/2 L (R fwd)", expected);
    check(
        "TAG: 8 COUNTS, AFTER WALL 3 (9:00)\nROCKING CHAIR, 2 X STEP 1/2 PIVOT LEFT\n1 - 4 ROCK FWD RF, RECOVER LF, ROCK \
         BACK RF, RECOVER LF\n5 - 8 RF STEP FWD, 1/2 TURN LEFT, RF STEP FWD, 1/2 TURN LEFT (WEIGHT LF)",
        expected,
    );
}

#[test]
fn a_tag_and_a_restart_in_one_breath() {
    let expected = &["w5 after 24", "tag after 2: 4"];
    check(
        "There is one restart and one tag. The restart comes in the 5th wall: you begin it at the front, do sections 1, \
         2 and 3, and then begin the dance again at 12:00. The tag comes earlier, when you have finished the 2nd wall \
         and are looking at the back wall (6:00): step to the right with the right foot, touch left beside it, step to \
         the left with the left foot, touch right beside it (4 counts), then carry on with wall 3.",
        expected,
    );
    check(
        "Sequence: 32, 32, Tag, 32, 32, 24 (Restart), then 32 to the end\nTag at 6:00, 4 counts: R side, touch L beside \
         R, L side, touch R beside L\nRestart at 12:00",
        expected,
    );
    check(
        "after wall 2 at 6:00 do 4 count tag step right to side touch left together step left to side touch right \
         together\nwall 5 restart after 24 counts at 12:00",
        expected,
    );
    check(
        "T: end of 2nd wall (6h): 1 R side 2 L touch next to R 3 L side 4 R touch next to L\nR: 5th wall, after 24 c. \
         (12h)",
        expected,
    );
}

#[test]
fn restarts_by_what_is_left_out() {
    let expected = &["w3 after 16", "w6 after 16"];
    check("**Restart** W3 & W6: omit S3 + S4", expected);
    check("Sequence: 32 - 32 - 16 (Restart) - 32 - 32 - 16 (Restart) - then 32 to the end", expected);
    check("Third wall: only sections 1 and 2, then from the top. Sixth wall: the same.", expected);
    check("On walls 3 and 6 don't do the last 16 counts, you restart there.", expected);
    check(
        "RESTART\nWhen: walls 3 and 6\nWhere: after 16 counts, R foot is free\nWhat: begin again with section 1",
        expected,
    );
}

#[test]
fn the_end_of_the_song_changes_no_wall() {
    check(
        "To finish at the front: 9th repetition, dance 24 counts, then\n1-2 Cross R over L, step L back\nand bow.",
        &[],
    );
    check(
        "One last thing: the track finishes while you are doing section 3 for the ninth time. When you have rocked \
         (counts 5-6), turn a quarter right as you step right to the side and take a bow. Dance over!",
        &[],
    );
}

#[test]
fn steps_under_a_title_that_says_after_which_walls() {
    let rows = "1-2 Sway R, sway L\n3-4 Sway R, sway L";
    let once = ["tag after 2: 4"];
    for title in [
        "EXTRA after 2 walls, once only",
        "Interlude: danced when you have finished wall 2",
        "Four extra beats - at the end of the 2nd wall",
        "Break, 4 counts. It comes one time: when wall 2 is ready",
        "SWAYS. Only after the 2nd wall.",
    ] {
        check(&format!("{title}\n{rows}"), &once);
    }
    let twice = ["tag after 2: 4", "tag after 4: 4"];
    check(&format!("The Bit In Between (end of wall 2 and end of wall 4)\n{rows}"), &twice);
    check("Breakdown (4) - after walls 2 and 4\nsway R (1), sway L (2), sway R (3), sway L (4)", &twice);
}

#[test]
fn tags_that_dance_a_section_by_its_numeral() {
    let roman = (1..=4).rev().fold(DANCE.to_string(), |dance, n: usize| {
        dance.replace(&format!("SECTION {n}"), &format!("{}.", ["I", "II", "III", "IV"][n - 1]))
    });
    for words in [
        "Tag after wall 2: repeat part III",
        "Tag: after the 2nd wall do II again, then from the top",
        "Additional steps (tag): one time, after second wall. Repeat part II and dance from beginning",
    ] {
        check_at(&roman, words, &["tag after 2: 8"]);
    }
}

#[test]
fn tags_of_steps_without_verbs() {
    let once = ["tag after 2: 4"];
    for steps in [
        "R to side, L beside R\nR back, L beside R",
        "R to side; L beside R; R back; L beside R.",
        "RF to side; LF beside RF.\nRF back; LF beside RF.",
    ] {
        check(&format!("Tag after wall 2\n{steps}"), &once);
        check(&format!("Four extra counts are needed at the end of the second wall:\n{steps}"), &once);
    }
}
