//! The dance takes the dancers far from where they began.

use super::finding::Severity;
use super::strain::round;
use super::subject::{Draft, Subject};
use crate::floor::Point;
use crate::motion::roam;

pub(super) const NAME: &str = "moves-far";

/// Metres from the starting spot that a small hall does not have. A choice of this project.
const FAR: f64 = 4.0;

/// Metres a wall below which dancers make up for it without thinking. A choice of this project.
const TELLS: f64 = 1.0;

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    let motion = s.motion();
    // Eight repetitions cannot get farther than eight times the farthest of one.
    let reach = motion.stretches.iter().map(|x| x.spot.length()).fold(motion.spot.length(), f64::max);
    if motion.moments.is_empty() || reach * 16.0 < FAR {
        return;
    }
    let travel = motion.travel();
    if travel.length() < TELLS {
        return;
    }
    let need = roam(s.dance(), &motion.body);
    if need.farthest < FAR {
        return;
    }
    let mut message = match along(travel) {
        Some(way) => format!("This dance moves {way} each wall"),
        None => "This dance moves about".to_owned(),
    };
    let drift = need.drift.length();
    if drift >= FAR / 2.0 {
        message.push_str(&format!(" and is {} from its start after {} walls", metres(drift), need.walls));
    } else {
        message.push_str(&format!(
            " and takes the class up to {} from its start before it comes back",
            metres(need.farthest)
        ));
    }
    message.push_str("; see that the hall has the room, or take smaller steps.");
    out.push(Subject::whole(NAME, Severity::Note, s.sheet.head.title).says(message));
}

/// "1.2 m to the right and 0.8 m back", for what is at least a foot's length.
fn along(travel: Point) -> Option<String> {
    let mut ways = Vec::new();
    for (size, more, less) in [(travel.x, "to the right", "to the left"), (travel.y, "forward", "back")] {
        if size.abs() >= 0.26 {
            ways.push(format!("{} {}", metres(size.abs()), if size > 0.0 { more } else { less }));
        }
    }
    (!ways.is_empty()).then(|| ways.join(" and "))
}

/// Metres with one decimal: feet are not placed more exactly than that.
fn metres(value: f64) -> String {
    let tenths = round(value * 10.0);
    format!("{}.{} m", tenths / 10, tenths % 10)
}
