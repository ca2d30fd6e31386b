use super::super::vocabulary::Vocabulary;
use super::super::words::tokens;
use super::*;

#[track_caller]
fn check(text: &str, expected: &[&str]) {
    let t = tokens(text, 0..text.len(), &Vocabulary::new());
    let found: Vec<&str> =
        spoken(text, &t).iter().map(|s| t[s.from].span.join(t[s.to - 1].span).of(text)).collect();
    assert_eq!(found, expected, "{text}");
}

#[test]
fn counts_stand_anywhere_in_a_sentence() {
    check("step right to the side on one, put the left behind it on two", &["on one", "on two"]);
    check("Walk right, left, right on one, two, three, and kick on four", &["on one, two, three", "on four"]);
    check("Rock forward (one), recover (two)", &["(one)", "(two)"]);
    check("Rock, step, one, two. Cross, side, cross, three-and-four.", &["one, two", "three-and-four"]);
    check("touch it, that's one, two. Kick, three, four.", &["that's one, two", "three, four"]);
    check("On counts three and four you walk.", &["On counts three and four"]);
    check("1-2 we walk, 3&4 it is a mambo", &["1-2", "3&4"]);
    check("The RF crosses on 1 over the LF, on 2 we step back", &["on 1", "on 2"]);
    check("1 walk right. Then 2 rock left, & recover right, 3 cross left", &["1", "2", "&", "3"]);
    check("1 right forward, 2 half a turn left stepping left back", &["1", "2"]);
    check("1 step right, then 2 walks", &["1"]);
    check(
        "step on the first beat, close on the second, step on the third",
        &["on the first beat", "on the second", "on the third"],
    );
    check("heel out on 1, bring it home on &, heel out on 2", &["on 1", "on &", "on 2"]);
    check("close on 8, the step that ends it is count one of the next wall", &["on 8"]);
    check("with two quarter turns and four walls, for 16 counts", &[]);
    check("step on 1, hold 2, step on 3", &["on 1", "2", "on 3"]);
    check("step on 1 and wait for 2, step on 3", &["on 1", "for 2", "on 3"]);
    check("right on 6, close on the & before 7, side on 7", &["on 6", "on the & before 7", "on 7"]);
    check("right on 6, close on the \"and\" after 6, side on 7", &["on 6", "on the \"and\" after 6", "on 7"]);
    check("1-2 rock. Three-and-four is a shuffle.", &["1-2", "Three-and-four"]);
    check("so 1 2 is a rock then 3 and 4 you shuffle", &["1 2", "3 and 4"]);
    check("1-2 rock, 3-4 half a turn left", &["1-2", "3-4"]);
    check("A turning section, this one. On 1 step", &["On 1"]);
}
