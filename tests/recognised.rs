//! Figures that a writer spells out without naming them.

use halfcount::dance::{Effect, Foot, Move, Weight, Who};
use halfcount::figures::{Figure, lexicon};
use halfcount::floor::Turn;
use halfcount::read::recognise;
use halfcount::text::Span;
use halfcount::time::{Metre, Ticks};
use halfcount::trace::trace;
use halfcount::{Options, report};

/// The figures of a few lines of steps, as `trace` lists them.
fn figures(lines: &str) -> Vec<String> {
    let sheet = format!("QUAYSIDE LESSON\n4 walls\n\nSECTION 1\n{lines}\n");
    let report = report(&sheet, &Options::default()).expect("a small sheet");
    trace(&report, &sheet, "").figures
}

#[track_caller]
fn check(lines: &str, expected: &[&str]) {
    assert_eq!(figures(lines), expected, "{lines}");
}

#[test]
fn written_out_steps_are_known_by_their_figure() {
    check("1&2 Step right back, step left beside right, step right forward", &["Coaster step right"]);
    check("1&2 Step left behind right, step right to side, step left to side", &["Sailor step left"]);
    check(
        "1-4 Step right to side, step left behind right, step right to side, touch left beside right",
        &["Grapevine with touch right"],
    );
    check(
        "1-4 Cross right over left, step left back, step right to side, step left beside right",
        &["Jazz box, together right"],
    );
    check("1-2 Rock left to side, recover on right", &["Side rock left"]);
}

#[test]
fn a_turn_is_part_of_the_figure_or_told_with_it() {
    check("1-2 Step right forward, pivot 1/2 turn left", &["Pivot 1/2 right 1/2 left"]);
    check(
        "1&2 Step right to side, step left beside right, 1/4 turn right stepping right forward",
        &["Chasse 1/4 turn right 1/4 right"],
    );
}

#[test]
fn the_longest_figure_counts() {
    check(
        "1-4 Rock right forward, recover on left, rock right back, recover on left",
        &["Rocking chair right"],
    );
    check(
        "1-2 Rock right to side, recover on left\n3&4 Step right behind left, step left to side, cross right over left",
        &["Side rock, behind-side-cross right"],
    );
}

#[test]
fn several_figures_stand_in_their_order() {
    check(
        "1&2 Right shuffle forward\n3-4 Rock left forward, recover on right\n\
         5&6 Step left back, step right beside left, step left forward\n7-8 Walk right, left",
        &["Shuffle forward right", "Forward rock left", "Coaster step left", "Walk, walk right"],
    );
}

#[test]
fn steps_that_make_no_figure_stay_without_one() {
    check("1-2 Step right forward, hold\n3-4 Touch left forward, hold", &[]);
}

/// The moves of a figure as the lexicon has them.
fn moves(figure: &Figure, mirrored: bool) -> Vec<Move> {
    let mut weight = if mirrored { figure.start.mirrored() } else { figure.start };
    let mut out = Vec::new();
    for step in &figure.steps {
        let s = if mirrored { step.mirrored() } else { *step };
        let (after, _) = s.weigh(weight);
        out.push(Move {
            at: s.at,
            lasts: Ticks::COUNT,
            who: s.who,
            action: s.action,
            place: s.place,
            reach: s.reach,
            turn: s.turn,
            turn_when: s.turn_when,
            effect: s.effect,
            before: weight,
            after,
            broken: None,
            span: Span::default(),
            figure: None,
        });
        weight = after;
    }
    out
}

/// Every figure of more than one step is found in its own steps, on either foot: itself, or another entry of the
/// lexicon with just the same steps.
#[test]
fn every_figure_is_found_in_its_own_steps() {
    let mut lost = Vec::new();
    for figure in &lexicon().figures {
        let feet = figure.steps.iter().filter(|s| s.effect != Effect::None).count();
        if feet < 2 {
            continue;
        }
        for mirrored in [false, true] {
            // Waltz figures are looked for in three-four time only.
            let own = moves(figure, mirrored);
            let found = recognise(&own, Metre::Three).or_else(|| recognise(&own, Metre::Four));
            let right = found.is_some_and(|f| f.distance == 0);
            if !right {
                lost.push(format!("{} {}", figure.name, if mirrored { "left" } else { "right" }));
            }
        }
    }
    assert_eq!(lost, Vec::<String>::new());
}

/// The lead and the turn are those of the moves.
#[test]
fn lead_and_turn_are_those_of_the_moves() {
    let (_, pivot) = lexicon().find("pivot 1/2").expect("a figure of the lexicon");
    let left = recognise(&moves(pivot, true), Metre::Four).expect("its own steps");
    assert_eq!((left.name(), left.lead, left.turn), (pivot.name, Some(Foot::Left), Turn::HALF));
    let first = moves(pivot, true).first().map(|m| (m.who, m.after));
    assert_eq!(first, Some((Who::One(Foot::Left), Weight::On(Foot::Left))));
}
