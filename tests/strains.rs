//! What a body cannot do: nothing that is really danced may be called impossible.

mod common;

use std::fs;
use std::path::Path;

use halfcount::body::Body;
use halfcount::dance::Dance;
use halfcount::motion::limits::{Grade, strains};
use halfcount::motion::{floor_need, simulate, simulate_song};
use halfcount::{Options, report};

fn dance(text: &str) -> Dance {
    report(text, &Options::default()).expect("a short sheet").dance
}

fn impossible(name: &str, dance: &Dance) -> Vec<String> {
    let motion = simulate(dance, &Body::default(), 1);
    let all = strains(dance, &motion, dance.head.tempo);
    let hard = all.iter().filter(|s| s.grade == Grade::Impossible);
    hard.map(|s| format!("{name}: {:?} {:.2}", s.kind, s.amount)).collect()
}

#[test]
fn no_practice_sheet_is_impossible() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sheets");
    let mut seen = 0;
    let mut found = Vec::new();
    for path in fs::read_dir(folder).expect("sheets").flatten().map(|e| e.path()) {
        if path.extension().is_some_and(|e| e == "txt") {
            seen += 1;
            let text = fs::read_to_string(&path).expect("a sheet");
            found.extend(impossible(&path.display().to_string(), &dance(&text)));
        }
    }
    assert!(seen > 50, "the practice sheets were found");
    assert!(found.is_empty(), "{found:#?}");
}

/// All 263 figures of the trade's table, on either foot.
#[test]
fn no_figure_is_impossible() {
    let mut found = Vec::new();
    for row in common::rows() {
        found.extend(impossible(&row.name, &common::alone(&row)));
        found.extend(impossible(&row.name, &common::other_foot(&row)));
    }
    assert!(found.is_empty(), "{found:#?}");
}

fn travel(steps: &str) -> (f64, f64) {
    let dance = dance(&format!("Saltmarsh Stroll\nCount: 4 Wall: 1\n\n{steps}\n"));
    let body = Body::default();
    let need = floor_need(&dance, &simulate(&dance, &body, 1), &simulate_song(&dance, &body));
    assert!(need.high.x > need.low.x && need.high.y > need.low.y);
    (need.travel.x, need.travel.y)
}

/// A rocking chair ends where it began, a grapevine to the right goes right and not forward (Wikipedia,
/// "Grapevine (dance move)").
#[test]
fn floors_are_those_of_the_figures() {
    let (x, y) = travel("1-4 Rock R forward, recover L, rock R back, recover L");
    assert!(x.abs() < 1e-9 && y.abs() < 1e-9, "{x}, {y}");
    let (x, y) = travel("1-4 Step R to side, step L behind R, step R to side, touch L beside R");
    assert!(x > 0.5 && y.abs() < 1e-9, "{x}, {y}");
}

/// Where one time through turns by a quarter, four times bring the dancer home (identity G3).
#[test]
fn a_quarter_a_wall_comes_home() {
    let dance = dance(
        "Saltmarsh Stroll\nCount: 4 Wall: 4\n\n\
         1-2 Step R to side, step L behind R\n3-4 Turn 1/4 right stepping R forward, step L beside R\n",
    );
    let body = Body::default();
    let need = floor_need(&dance, &simulate(&dance, &body, 1), &simulate_song(&dance, &body));
    assert_eq!((need.turn.0, need.walls % 4), (12, 0));
    assert!(need.travel.length() > 0.3 && need.drift.length() < 1e-9, "{need:?}");
}

/// What asks much of a tall dancer asks more of a small one: bounds grow with the stature (check values, section 6).
#[test]
fn a_small_body_has_shorter_steps() {
    let body = |stature| Body::of_stature(stature);
    assert!((body(1.20).comfortable_step() - 0.492).abs() < 1e-9);
    let text = "Saltmarsh Stroll\nCount: 4 Wall: 1\n\n1-2 Long lunge R forward, recover L\n\
                3-4 Step R beside L, touch L beside R\n";
    let mut options = Options::default();
    options.body = body(2.10);
    // Steps are shares of the stature, so the same step is as hard for everybody, and is told in their metres.
    let tall = report(text, &options).expect("a short sheet").findings;
    options.body = body(1.20);
    let small = report(text, &options).expect("a short sheet").findings;
    let said = |f: &[halfcount::check::Finding]| {
        f.iter().find(|f| f.rule == "step-too-long").map(|f| f.message.clone()).unwrap_or_default()
    };
    assert!(
        said(&tall).contains("2.10 m") && said(&small).contains("1.20 m"),
        "{} {}",
        said(&tall),
        said(&small)
    );
    // A leg that is shorter than usual for the stature makes the feet no smaller, and each length can be set.
    let mut long_feet = body(1.70);
    long_feet.foot_length = 0.30;
    assert!((long_feet.ball_to_heel() - 0.219).abs() < 1e-9);
}
