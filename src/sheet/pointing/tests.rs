use super::*;
use crate::sheet::vocabulary::Vocabulary;
use crate::sheet::words::tokens;

/// What words point at: sections, counts, feet, clauses that tell it once more, and where something else begins.
#[track_caller]
fn check(words: &str, expected: &str) {
    let t = tokens(words, 0..words.len(), &Vocabulary::new());
    let said = points(words, &t, 0, t.len()).map_or("nothing".into(), |p| {
        let mut said: Vec<String> = Vec::new();
        said.extend(p.target.range.map(|(a, b)| format!("counts {a} to {b}")));
        let of = |(a, b)| if a == b { format!("S{a}") } else { format!("S{a} to S{b}") };
        said.extend(p.target.sections.map(of));
        said.extend((p.target == Target::default()).then(|| "before".into()));
        said.extend(p.mirrored.then(|| "mirrored".into()));
        said.extend(p.same.then(|| "same feet".into()));
        said.extend(p.lead.map(|f| if f == Foot::Left { "left".into() } else { "right".into() }));
        said.extend((p.told > 0).then(|| format!("told {}", p.told)));
        let end = || words[t[p.to].span.range().start..].trim();
        said.extend(p.until.map(|n| format!("to count {n}")));
        said.extend(p.changed.then(|| format!("else: {}", end())));
        said.join(", ")
    });
    assert_eq!(said, expected, "{words}");
}

#[test]
fn points_at_sections() {
    check("Same as section 1", "S1");
    check("= S2", "S2");
    check("As the first eight", "S1");
    check("Do the second section once more", "S2");
    check("Repeat sections 1 and 2", "S1 to S2");
    check("Repeat S1 & S2", "S1 to S2");
    check("Repeat the first two sections", "S1 to S2");
    check("As sections 1-2", "S1 to S2");
    check("Section 1 comes again", "S1");
    check("Section 3 is the same as section 1", "S1");
    check("The steps are those of section 1", "S1");
    check("Refer to section 1", "S1");
    check("Same as 2, other foot", "S2, mirrored");
    check("Repeat the previous section", "before");
    check("The same again", "before");
}

#[test]
fn points_at_sections_in_brackets() {
    check("repeat the vines (section 1)", "S1");
    check("repeat the jazz box (part 2)", "S2");
}

#[test]
fn points_at_counts() {
    check("Repeat the first 16 counts", "counts 1 to 16");
    check("Steps 1 through 8 again", "counts 1 to 8");
    check("Counts 1-8 again", "counts 1 to 8");
    check("Like 1 - 4 in section 2", "counts 1 to 4, S2");
    check("As [1-8]", "counts 1 to 8");
    check("As section 1, counts 5-8", "counts 5 to 8, S1");
    check("See section 2 (5-8)", "counts 5 to 8, S2");
    check("Repeat the last four counts of section 1", "counts -4 to -1, S1");
    check("For counts 17 to 24 the dancer repeats counts 1 to 8", "counts 1 to 8");
}

#[test]
fn knows_what_differs() {
    check("Repeat section 1 to the left", "S1, left");
    check("Section 1 mirrored, starting L", "S1, mirrored, left");
    check("Section 1 with left and right swapped", "S1, mirrored");
    check("Repeat the first eight, L instead of R", "S1, mirrored");
    check("As section 1, left foot leading", "S1, left");
    check("Repeat section 1 on the same feet", "S1, same feet");
}

#[test]
fn leaves_what_is_danced_otherwise() {
    check("As section 1 but end with a touch", "S1, else: but end with a touch");
    check("Repeat section 1, then stomp R", "S1, else: then stomp R");
    check(
        "As section 1, but touch L on the last count",
        "S1, to count -1, else: but touch L on the last count",
    );
    check("Repeat section 1; on count 8 touch L", "S1, to count 7, else: touch L");
    check("Same as section 2 turning 1/4 left", "S2");
    check("Repeat section 1 with the right foot rocking", "S1, right");
    check("As section 1, except 7&8: stomp L, hold", "S1, to count 6, else: : stomp L, hold");
    check("As section 1 up to count 6, then stomp L", "S1, to count 6, else: then stomp L");
}

#[test]
fn passes_over_what_is_told_again() {
    check("Walk R, L, stomp R, hold (as section 1)", "S1, told 3");
    check("Same as section 1: walk R, L, stomp R", "S1, told 2");
    check("Do section 1 again from \"walk R, L\" to the stomp, then carry on with section 4.", "S1, told 2");
}

#[test]
fn tells_other_words_apart() {
    check("Step R to side, touch L beside R", "nothing");
    check("Restart after section 2", "nothing");
    check("Repeat section 1 after wall 3", "nothing");
    check("Vine R, touch L, then repeat to the left", "nothing");
    check("Walk forward 1-4", "nothing");
}
