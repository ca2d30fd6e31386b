//! What must hold of a score whatever the weights are fitted to: more is never easier, left is as hard as right,
//! and what could not be read is never passed over.

#![allow(clippy::case_sensitive_file_extension_comparisons, reason = "names of our own sheets")]

mod common;

use std::fs;
use std::path::Path;
use std::sync::OnceLock;

use common::{dance, figure, mirrored, parse, written};
use halfcount::body::Body;
use halfcount::dance::{
    Action, Dance, Effect, Move, Part, PartKind, Place, Reach, Restart, Section, TagUse, TurnWhen, Weight,
    Who,
};
use halfcount::difficulty::{Other, Score, ScoreOptions, Weights, columns, measures, score};
use halfcount::floor::{Heading, Turn};
use halfcount::motion::simulate;
use halfcount::text::Span;
use halfcount::time::Ticks;

fn scored(dance: &Dance) -> Score {
    at(dance, None)
}

fn at(dance: &Dance, tempo: Option<u32>) -> Score {
    let mut options = ScoreOptions::default();
    options.tempo = tempo;
    score(dance, &simulate(dance, &Body::default(), 1), &options)
}

/// Points of a dance before they are brought into 0 to 100, so that nothing hides behind the upper end. No
/// measure that enters the score looks at the feet on the floor, so those of an empty dance will do.
fn points(dance: &Dance) -> f64 {
    let mut options = ScoreOptions::default();
    options.brief = true;
    let still = common::dance(Weight::On(halfcount::dance::Foot::Left), Vec::new());
    let nowhere = simulate(&still, &Body::default(), 1);
    score(dance, &nowhere, &options).measures.iter().map(|m| m.points).sum()
}

/// All practice sheets as they are read, and every figure of the trade's table.
fn dances() -> &'static [(String, Dance)] {
    static DANCES: OnceLock<Vec<(String, Dance)>> = OnceLock::new();
    DANCES.get_or_init(read_dances)
}

fn read_dances() -> Vec<(String, Dance)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sheets");
    let mut paths: Vec<_> =
        fs::read_dir(folder).expect("the sheets are there").flatten().map(|e| e.path()).collect();
    paths.retain(|p| p.extension().is_some_and(|e| e == "txt"));
    paths.sort();
    let mut found = Vec::new();
    for path in paths {
        let text = fs::read_to_string(&path).expect("a sheet is UTF-8");
        let report = halfcount::report(&text, &halfcount::Options::default()).expect("a short sheet");
        found.push((path.file_name().expect("a name").to_string_lossy().into_owned(), report.dance));
    }
    assert!(found.len() >= 21, "the practice sheets were found");
    found.extend(common::rows().iter().map(|row| (row.name.clone(), common::alone(row))));
    found
}

/// Places of moves in the main parts: part, section, move.
fn places(dance: &Dance) -> Vec<(usize, usize, usize)> {
    let mut found = Vec::new();
    for (p, part) in dance.parts.iter().enumerate().filter(|(_, p)| p.kind == PartKind::Main) {
        for (s, section) in part.sections.iter().enumerate() {
            found.extend((0..section.moves.len()).map(|m| (p, s, m)));
        }
    }
    found
}

#[track_caller]
fn not_easier(name: &str, what: &str, before: &Dance, after: &Dance) {
    let (a, b) = (points(before), points(after));
    let fallen = || -> Vec<&str> {
        let (a, b) = (scored(before).measures, scored(after).measures);
        a.iter().zip(&b).filter(|(a, b)| b.points < a.points - 1e-9).map(|(a, _)| a.name).collect()
    };
    assert!(b >= a - 1e-6, "{name}: {what} makes {a} points {b}, by {}", fallen().join(", "));
}

#[test]
fn a_turn_more_is_never_easier() {
    for (name, dance) in dances() {
        for (index, (p, s, m)) in places(dance).into_iter().enumerate() {
            let here = &dance.parts[p].sections[s].moves[m];
            if here.turn.0 != 0 || here.effect == Effect::None {
                continue;
            }
            // Every size and side in turn.
            let turn = Turn([12, -12, 24, -24, 6, -48][index % 6]);
            let mut more = dance.clone();
            more.parts[p].sections[s].moves[m].turn = turn;
            not_easier(name, &format!("{turn} on {}", here.at), dance, &more);
        }
    }
}

fn step(at: Ticks, before: Weight) -> Move {
    let foot = match before {
        Weight::On(foot) => foot.other(),
        Weight::Both => halfcount::dance::Foot::Right,
    };
    Move {
        at,
        lasts: Ticks(6),
        who: Who::One(foot),
        action: Action::Step,
        place: Place::Close,
        reach: Reach::Usual,
        turn: Turn::NONE,
        turn_when: TurnWhen::Before,
        effect: Effect::Takes,
        before,
        after: Weight::On(foot),
        broken: None,
        span: Span::default(),
        figure: None,
    }
}

/// The dance with a step on the half-count after a move, and everything after it on the other foot.
fn with_step(dance: &Dance, (p, s, m): (usize, usize, usize)) -> Option<Dance> {
    let mut more = dance.clone();
    let here = dance.parts[p].sections[s].moves[m].clone();
    let at = Ticks(here.at.count().max(1) * 24 + 12);
    let moves = &mut more.parts[p].sections[s].moves;
    if moves.iter().any(|other| other.at == at) || here.at.within() != 0 {
        return None;
    }
    let place = moves.partition_point(|other| other.at <= at);
    let before = moves[..place].last().map_or(dance.start, |last| last.after);
    moves.insert(place, step(at, before));
    let mut after = false;
    for (q, part) in more.parts.iter_mut().enumerate().filter(|(_, part)| part.kind == PartKind::Main) {
        for (t, section) in part.sections.iter_mut().enumerate() {
            for (n, other) in section.moves.iter_mut().enumerate() {
                if after {
                    *other = mirrored(other);
                }
                after |= (q, t, n) == (p, s, place);
            }
        }
    }
    Some(more)
}

#[test]
fn a_half_count_step_more_is_never_easier() {
    for (name, dance) in dances() {
        for place in places(dance) {
            if let Some(more) = with_step(dance, place) {
                let at = dance.parts[place.0].sections[place.1].moves[place.2].at;
                not_easier(name, &format!("a step more after section {} {at}", place.1 + 1), dance, &more);
            }
        }
    }
}

#[test]
fn a_ball_change_between_the_counts_is_never_easier() {
    for (name, dance) in dances() {
        for (p, s, m) in places(dance) {
            let mut more = dance.clone();
            let moves = &mut more.parts[p].sections[s].moves;
            let at = moves[m].at;
            let there = moves.iter().any(|other| other.at > at && other.at < at + Ticks::COUNT);
            if at.within() != 0 || at.0 < 24 || there {
                continue;
            }
            let place = moves.partition_point(|other| other.at <= at);
            let first = step(at + Ticks::HALF, moves[place - 1].after);
            let second = step(at + Ticks(18), first.after);
            moves.splice(place..place, [first, second]);
            not_easier(name, "a ball change more", dance, &more);
        }
    }
}

#[test]
fn a_faster_tempo_is_never_easier_and_twice_the_tempo_is_harder() {
    for (name, dance) in dances() {
        let mut before = 0.0;
        for tempo in [40, 60, 80, 96, 112, 128, 160, 200, 240] {
            let now: f64 = at(dance, Some(tempo)).measures.iter().map(|m| m.points).sum();
            assert!(now >= before - 1e-9, "{name} at {tempo}: {now} after {before}");
            before = now;
        }
        if name.ends_with(".txt") {
            let sum = |tempo| at(dance, Some(tempo)).measures.iter().map(|m| m.points).sum::<f64>();
            assert!(sum(200) > sum(100), "{name} at twice the tempo");
        }
    }
}

#[test]
fn a_tag_or_a_restart_more_is_never_easier() {
    for (name, dance) in dances() {
        let mut tagged = dance.clone();
        let tag = Section { counts: 4, ..dance.parts[0].sections[0].clone() };
        tagged.parts.push(Part { name: "tag 9".into(), kind: PartKind::Tag, sections: vec![tag] });
        let tag = TagUse {
            part: tagged.parts.len() - 1,
            wall: 2,
            after_counts: None,
            then_restart: false,
            stated: None,
            span: Span::default(),
        };
        tagged.tags.push(tag);
        not_easier(name, "a tag", dance, &tagged);
        let mut restarted = dance.clone();
        let restart =
            Restart { wall: 3, after_counts: 8, changed: None, stated: None, span: Span::default() };
        restarted.restarts.push(restart);
        not_easier(name, "a restart", dance, &restarted);
        assert!(points(&tagged) > points(dance) && points(&restarted) > points(dance), "{name}");
    }
}

fn other_foot(dance: &Dance) -> Dance {
    let mut other = dance.clone();
    other.start = dance.start.mirrored();
    for section in other.parts.iter_mut().flat_map(|p| &mut p.sections) {
        section.weight_start = section.weight_start.mirrored();
        section.weight_end = section.weight_end.mirrored();
        section.moves.iter_mut().for_each(|m| *m = mirrored(m));
    }
    other
}

#[test]
fn the_mirror_image_is_exactly_as_hard() {
    for (name, dance) in dances() {
        let (one, other) = (scored(dance), scored(&other_foot(dance)));
        assert_eq!(one.total, other.total, "{name}");
        assert_eq!(one.profile, other.profile, "{name}");
        for (a, b) in one.measures.iter().zip(&other.measures) {
            assert!((a.value - b.value).abs() <= 1e-6, "{name}, {}: {} and {}", a.name, a.value, b.value);
        }
    }
}

#[test]
fn a_dance_of_walks_is_the_easiest() {
    let (start, walk) = parse("[L] 1 R step fwd +; 2 L step fwd +; 3 R step fwd +; 4 L step fwd +");
    let section = || {
        let again = walk.iter().map(|m| Move { at: m.at + Ticks::of_count(4), ..m.clone() });
        (8, walk.iter().cloned().chain(again).collect::<Vec<_>>())
    };
    let walks = dance(start, vec![section(), section(), section(), section()]);
    let easiest = at(&walks, Some(112));
    let measure = |s: &Score, name: &str| s.measures.iter().find(|m| m.name == name).map_or(0.0, |m| m.value);
    for (name, dance) in dances().iter().filter(|d| d.0.ends_with(".txt")) {
        let other = at(dance, Some(112));
        // A dance of half the length may be shorter than easy.
        if measure(&other, "counts") >= 32.0 {
            assert!(other.total > easiest.total || other.total.is_none(), "{name} is no harder than walking");
        }
    }
    for row in common::rows() {
        // The figure repeated to the same length.
        let times = 32 / row.counts.max(1);
        let sections = (0..times).map(|_| (row.counts, row.moves.clone())).collect();
        let made = dance(row.start, sections);
        if measure(&scored(&made), "counts") >= 32.0 {
            let sum: f64 = at(&made, Some(112)).measures.iter().map(|m| m.points).sum();
            let least: f64 = easiest.measures.iter().map(|m| m.points).sum();
            // Fewer steps than walking are slower, and no figure with a step a count is easier.
            if measure(&at(&made, Some(112)), "changes_mean") >= measure(&easiest, "changes_mean") {
                assert!(sum >= least - 1e-9, "{}: {sum} and walks {least}", row.name);
            }
        }
    }
    assert!(easiest.total.expect("a whole dance") < 12.0);
    assert_eq!(easiest.level, Some("absolute beginner"));
}

#[test]
fn points_add_up_and_none_is_below_zero() {
    for (name, dance) in dances() {
        let score = scored(dance);
        let all: f64 = score.measures.iter().map(|m| m.points).sum();
        assert!((all - points(dance)).abs() < 1e-12, "{name}: no scored measure looks at the floor");
        let shares: f64 = score.shares.iter().map(|s| s.points).sum();
        let placed: f64 = score.profile.iter().sum();
        assert!((all - shares).abs() < 1e-9 && (all - placed - score.unplaced).abs() < 1e-6, "{name}");
        assert!(score.measures.iter().all(|m| m.points >= 0.0 && m.weight >= 0.0), "{name}");
        assert!(score.low <= score.high && score.low >= 0.0 && score.high <= 100.0, "{name}");
        if let Some(total) = score.total {
            assert!((total - all.min(100.0)).abs() < 0.006, "{name}");
            assert!(score.low <= total && total <= score.high, "{name}");
        }
    }
}

#[test]
fn measures_are_worked_by_hand() {
    // A rolling vine right and a touch: three turns of a quarter, a half and a quarter, then a touch.
    let made = written(
        4,
        "[L] 1 R step side + @1/4R; 2 L step back + @1/2R; 3 R step side + @1/4R; 4 L touch close .",
    );
    let score = at(&made, Some(120));
    let value = |name: &str| score.measures.iter().find(|m| m.name == name).expect(name).value;
    let near = |name: &str, want: f64| assert!((value(name) - want).abs() < 1e-6, "{name}: {}", value(name));
    near("turn_total", 8.0); // four quarters in four counts
    near("turn_peak", 360.0); // R3: a half turn in a count at 120
    near("turns_on_one_foot", 2.0);
    near("turns_going_back", 2.0);
    near("turn_reversals", 0.0);
    near("changes_mean", 1.5);
    near("changes_peak", 2.0);
    near("weightless", 2.0);
    near("walls", 1.0);
    near("counts", 4.0);
    near("length", 0.0);
    // A chassé and a rock: D12 of the handbook, three changes in two counts.
    let shuffle = figure("Chasse");
    let score = at(&common::alone(&shuffle), Some(120));
    let value = |name: &str| score.measures.iter().find(|m| m.name == name).expect(name).value;
    assert!((value("halves") - 4.0).abs() < 1e-6 && (value("changes_peak") - 3.0).abs() < 1e-6);
    assert!(value("syncopation").abs() < 1e-9, "a shuffle is fast and not syncopated (S11)");
}

#[test]
fn unread_words_give_bounds_and_a_sentence() {
    let text =
        "Quayside Four\nCount: 8 Wall: 1\n1-4 Walk forward R, L, R, L\n5-8 Zorble the quux R, flimp L\n";
    let report = halfcount::report(text, &halfcount::Options::default()).expect("a short sheet");
    let mut options = ScoreOptions::default();
    options.unread = vec![Span { start: 55, end: 80 }];
    let motion = simulate(&report.dance, &Body::default(), 1);
    let found = score(&report.dance, &motion, &options);
    assert_eq!((found.total, found.level), (None, None));
    assert!(found.chances.is_empty() && found.high > found.low);
    assert!(found.bounds.expect("a sentence").ends_with('.'));
    // The same where a count has nothing written at all.
    let gap = written(4, "[L] 1 R step side +; 2 L step close +");
    let found = scored(&gap);
    assert_eq!(found.total, None);
    assert!(found.bounds.expect("a sentence").starts_with("Nothing could be read for 2 counts"));
    let empty = dance(Weight::On(halfcount::dance::Foot::Left), Vec::new());
    let found = scored(&empty);
    assert_eq!((found.total, found.low, found.high), (None, 0.0, 100.0));
}

#[test]
fn bounds_hold_what_was_read() {
    for (name, dance) in dances() {
        let Some(section) = dance.main_sections().find(|s| s.span.end > s.span.start) else { continue };
        let mut options = ScoreOptions::default();
        options.unread = vec![Span { start: section.span.start, end: section.span.start + 1 }];
        let motion = simulate(dance, &Body::default(), 1);
        let (whole, found) = (scored(dance), score(dance, &motion, &options));
        assert!(found.low <= whole.low && found.high >= whole.high, "{name}");
    }
}

#[test]
fn a_missing_tempo_is_said_and_widens_the_range() {
    let made = written(
        4,
        "[L] 1 R step side +; & L step close +; 2 R step side +; 3 L rock back +; 4 R recover place +",
    );
    let (without, with) = (scored(&made), at(&made, Some(112)));
    assert!(!without.tempo_given && without.tempo == 112 && with.tempo_given);
    assert_eq!(without.total, with.total);
    assert!(without.high - without.low > with.high - with.low - 1e-9);
    let tempos = without.others.iter().filter(|(other, _)| matches!(other, Other::Tempo(_))).count();
    assert_eq!(tempos, 2);
}

#[test]
fn own_weights_change_the_score_and_may_have_no_levels() {
    let made = written(
        4,
        "[L] 1 R step side + @1/4R; 2 L step back + @1/2R; 3 R step side + @1/4R; 4 L touch close .",
    );
    let mut options = ScoreOptions::default();
    options.weights =
        Weights::parse("version mine\nweight turn_total 3\nweight halves 9").expect("good weights");
    let found = score(&made, &simulate(&made, &Body::default(), 1), &options);
    // 8 quarters in 8 counts are 16/3 notches of 1.5: 3 * 2 (sqrt(19/3) - 1) = 9.10.
    assert_eq!(found.total, Some(9.1));
    assert_eq!((found.level, found.scale.as_str(), found.weights.as_str()), (None, "", "mine"));
}

#[test]
fn every_column_is_in_the_dictionary_once() {
    let columns = columns(&Weights::default());
    let mut names: Vec<&str> = columns.iter().map(|c| c.name).collect();
    assert_eq!(&names[..5], ["file", "score", "level", "low", "high"]);
    assert_eq!(names.len(), 5 + measures().count());
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), columns.len());
    for column in &columns {
        assert!(!column.says.is_empty() && column.says.ends_with('.') && !column.unit.is_empty());
    }
    for measure in measures() {
        assert!(!measure.source.is_empty() && !measure.range.is_empty(), "{}", measure.name);
        assert!(
            measure.scored.is_some() || measure.says.contains("eport") || measure.says.contains("enters"),
            "{}",
            measure.name
        );
    }
}

#[test]
fn facings_do_not_matter() {
    for (name, dance) in dances().iter().take(12) {
        let motion = halfcount::motion::simulate_facing(dance, &Body::default(), 1, Heading::new(24));
        let other = score(dance, &motion, &ScoreOptions::default());
        assert_eq!(scored(dance).total, other.total, "{name}");
    }
}
