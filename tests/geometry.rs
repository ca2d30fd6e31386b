//! Where figures leave the feet, and which point of a foot stays where it is while the rest of it moves.
//!
//! Where a figure ends is common practice of the trade; positions are in metres, x to the right of a dancer who
//! faces 12:00 and y ahead.

mod common;

use common::{alone, figure, written};
use halfcount::body::Body;
use halfcount::dance::Foot;
use halfcount::floor::Point;
use halfcount::motion::{FootPose, Motion, Stance, direction, simulate};
use kurbo::Affine;

fn danced(name: &str) -> Motion {
    simulate(&alone(&figure(name)), &Body::default(), 1)
}

/// From the spot at the start to the spot at the end.
fn travel(name: &str) -> Point {
    let motion = danced(name);
    let start = motion.stretches.first().map_or(Point::ORIGIN, |s| s.spot);
    motion.spot - start
}

fn near(a: Point, b: Point) -> bool {
    (a - b).length() < 1e-9
}

/// A point of a foot at every sixth of a count between two ticks.
fn stays(motion: &Motion, foot: Foot, ticks: (i32, i32), point: impl Fn(&FootPose) -> Point) {
    let at = |tick: i32| point(motion.at(f64::from(tick)).foot(foot));
    for tick in (ticks.0..=ticks.1).step_by(4) {
        assert!(near(at(tick), at(ticks.0)), "tick {tick}: {:?} is not {:?}", at(tick), at(ticks.0));
    }
}

/// How a foot turns between two ticks, in 1/48 of a turn.
fn toe_turns(motion: &Motion, foot: Foot, ticks: (i32, i32)) -> f64 {
    let at = |tick: i32| motion.at(f64::from(tick)).foot(foot).toe;
    (ticks.0..=ticks.1).map(|tick| (at(tick) - at(ticks.0)).abs()).fold(0.0, f64::max)
}

#[test]
fn the_heel_of_a_toe_fan_and_the_ball_of_a_heel_fan_stay() {
    let body = Body::default();
    let row = figure("Toe fan");
    let motion = danced("Toe fan");
    let end = 24 * i32::try_from(row.counts).expect("few counts") + 24;
    let fanned = |m: &Motion| {
        *[Foot::Left, Foot::Right].iter().find(|f| toe_turns(m, **f, (0, end)) > 1.0).expect("a foot fans")
    };
    stays(&motion, fanned(&motion), (0, end), |f| f.heel(&body));
    let motion = danced("Heel fan");
    stays(&motion, fanned(&motion), (0, end), |f| f.ball);
}

#[test]
fn the_toe_stays_when_a_heel_drops() {
    let body = Body::default();
    // The toe comes down on count 1 and stays there until the heel is down on count 2.
    let motion = danced("Toe strut");
    let before = motion.at(24.0);
    let foot = if before.left.share > before.right.share { Foot::Right } else { Foot::Left };
    let foot = if before.foot(foot).lift > 0.0 { foot.other() } else { foot };
    stays(&motion, foot, (24, 48), |f| f.tip(&body));
    assert_eq!(motion.at(48.0).foot(foot).sole, halfcount::motion::Sole::Flat);
}

#[test]
fn the_ball_stays_in_a_pivot() {
    for name in ["Pivot 1/2", "Pivot 1/4", "Pivot 3/4"] {
        let motion = danced(name);
        let end = 24 * i32::try_from(motion.counts).expect("few counts");
        for foot in [Foot::Left, Foot::Right] {
            // Both feet are down from the step until the pivot is done.
            stays(&motion, foot, (24, end), |f| f.ball);
        }
        assert!(motion.facing != 0, "{name} turns");
    }
}

/// The same pivot by another library: heel and tip go round the ball.
#[test]
fn a_pivot_is_a_rotation_about_the_ball() {
    let body = Body::default();
    let motion = danced("Pivot 1/2");
    for foot in [Foot::Left, Foot::Right] {
        let (a, b) = (motion.at(24.0), motion.end());
        let (a, b) = (a.foot(foot), b.foot(foot));
        let turn = Affine::rotate_about((-7.5 * (b.toe - a.toe)).to_radians(), (a.ball.x, a.ball.y));
        for (p, q) in [(a.heel(&body), b.heel(&body)), (a.tip(&body), b.tip(&body))] {
            let r = turn * kurbo::Point::new(p.x, p.y);
            assert!((r.x - q.x).abs() < 1e-9 && (r.y - q.y).abs() < 1e-9, "{foot:?}: {r:?} is not {q:?}");
        }
    }
}

/// Out and home again: the figure leaves the dancer exactly where it found him.
#[test]
fn boxes_and_rocking_chairs_end_where_they_began() {
    for name in ["Rocking chair", "Syncopated rocking chair", "Ballroom box", "K-step"] {
        let end = travel(name);
        assert!(end.length() < 1e-9, "{name} ends at {end:?}");
    }
    let box_step = written(
        8,
        "[L] 1 R step side +; 2 L step close +; 3 R step fwd +; 4 L touch close .; \
         5 L step side +; 6 R step close +; 7 L step back +; 8 R touch close .",
    );
    let end = simulate(&box_step, &Body::default(), 1).spot;
    assert!(end.length() < 1e-9, "{end:?}");
}

/// To the side of the leading foot, and neither ahead nor back (Wikipedia, "Grapevine (dance move)").
#[test]
fn vines_and_weaves_go_sideways() {
    for name in ["Grapevine with touch", "Vine of three", "Vine, together", "Extended vine"] {
        let end = travel(name);
        assert!(end.x > 0.5 && end.y.abs() < 1e-9, "{name} ends at {end:?}");
    }
    for name in ["Weave of four, cross first", "Weave of four, behind first", "Weave of eight"] {
        let end = travel(name);
        assert!(end.x.abs() > 0.5 && end.y.abs() < 0.05, "{name} ends at {end:?}");
    }
}

/// A jazz box goes round a small square and closes where it began; with a last step forward the closing foot
/// stands ahead of the other one instead.
#[test]
fn a_jazz_box_closes() {
    let closed = travel("Jazz box, together");
    assert!(closed.length() < 1e-9, "{closed:?}");
    let end = danced("Jazz box, forward").end();
    let ahead = end.left.ball.y - end.right.ball.y;
    assert!(ahead > 0.2 && uncrossed(&end) > 0.0, "{end:?}");
}

/// The supporting foot turns on its ball and the other one closes to it, so a Monterey stays on its spot.
#[test]
fn a_monterey_stays_on_its_spot() {
    for (name, turned) in [("Monterey 1/2", 24), ("Monterey 1/4", 12)] {
        let motion = danced(name);
        assert_eq!(motion.facing.abs(), turned, "{name}");
        assert!(travel(name).length() < 0.30, "{name}: {:?}", travel(name));
        assert!(uncrossed(&motion.end()) > 0.0, "{name}: {:?}", motion.end());
    }
}

/// How far the right foot is to the right of the left one, seen by the dancer.
fn uncrossed(s: &Stance) -> f64 {
    let aside = direction(s.facing + 12.0);
    let from = s.right.ball - s.left.ball;
    from.x * aside.x + from.y * aside.y
}

#[test]
fn unwinding_uncrosses_the_legs() {
    for name in ["Unwind 1/2 from behind", "Cross unwind 1/2"] {
        let motion = danced(name);
        assert!(uncrossed(&motion.at(24.0)) < 0.0, "{name}: crossed on count 1");
        assert!(uncrossed(&motion.end()) > 0.0, "{name}: {:?}", motion.end());
        // Balls of both feet stay on the floor where they are.
        let end = 24 * i32::try_from(motion.counts).expect("few counts");
        for foot in [Foot::Left, Foot::Right] {
            let gone = motion.at(f64::from(end)).foot(foot).ball - motion.at(24.0).foot(foot).ball;
            assert!(gone.length() < 0.25, "{name}: {foot:?} goes {gone:?}");
        }
    }
    let motion = danced("Cross unwind full");
    assert_eq!(motion.facing.abs(), 48);
    assert!(uncrossed(&motion.end()) > 0.0, "{:?}", motion.end());
}
