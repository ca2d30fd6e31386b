//! Numbers in brackets that are hours in the whole sheet: "pivot 1/2 L (6)", where no bracket tells counts.

use super::counts::mark;
use super::lines::Line;
use super::vocabulary::W;
use super::words::{Kind, Token};
use crate::floor::Heading;

/// Lines of steps without such a number that show that none is missing elsewhere.
const BARE: usize = 2;

/// Takes the lone numbers in the brackets of a sheet for hours, where each of them is one and stands behind a turn,
/// and lines of steps have none.
pub(super) fn hours(text: &str, lines: &mut [Line]) {
    for line in lines.iter_mut().filter(|l| l.told.is_none()) {
        behind_counts(text, &mut line.tokens);
    }
    let steps = |l: &Line| l.told.is_none() && l.verbs + l.bare_steps >= 1 && l.step_words >= 2;
    let mut found = 0;
    let mut bare = 0;
    // No line of steps is 9 or 12 counts long in a bar of four, and few are in one of three.
    let mut late = false;
    for line in lines.iter().filter(|l| steps(l)) {
        let t = &line.tokens;
        // "[ 3 ] R vine": the number of a section opens the line.
        let lone: Vec<usize> =
            (line.first + 2..t.len()).filter(|k| bracketed(t, *k) && !lasts(t, *k)).collect();
        if !lone.iter().all(|k| hour(t[*k].kind) && turned(t, *k)) {
            return;
        }
        // In the middle of a line no sum of its counts stands.
        let amid = |k: &&usize| t[**k + 2..].iter().any(|t| matches!(t.kind, Kind::W(_) | Kind::Name(_)));
        found += lone.len() + lone.iter().filter(amid).count();
        late |= lone.iter().any(|k| matches!(t[*k].kind, Kind::Number(9 | 12)));
        bare += usize::from(lone.is_empty());
    }
    if found < 2 || bare + usize::from(late) < BARE {
        return;
    }
    for line in lines.iter_mut().filter(|l| steps(l)) {
        for k in line.first + 2..line.tokens.len() {
            if let Kind::Number(n) = line.tokens[k].kind
                && bracketed(&line.tokens, k)
                && !lasts(&line.tokens, k)
            {
                line.tokens[k].kind = Kind::Clock(Heading::new(i32::try_from(n * 4).unwrap_or(0)));
            }
        }
    }
}

/// "R fwd, piv 1/4L     3 4     (3)": an hour in a column of its own behind that of the counts.
fn behind_counts(text: &str, t: &mut [Token]) {
    let Some(k) = t.len().checked_sub(2).filter(|k| bracketed(t, *k) && hour(t[*k].kind)) else { return };
    let open = k - 1;
    let counts = |from: usize| {
        from > 0
            && t[from].gap == 2
            && mark(text, t, from, open).is_some_and(|m| m.to == open && m.ticks.len() >= 2)
    };
    if t[open].gap == 2
        && (open.saturating_sub(8)..open).any(counts)
        && let Kind::Number(n) = t[k].kind
    {
        t[k].kind = Kind::Clock(Heading::new(i32::try_from(n * 4).unwrap_or(0)));
    }
}

/// Whether a number stands alone in brackets.
fn bracketed(t: &[Token], k: usize) -> bool {
    k > 0
        && matches!(t[k].kind, Kind::Number(_))
        && matches!(t[k - 1].kind, Kind::Sign('(' | '[' | '<' | '{'))
        && t.get(k + 1).is_some_and(|t| matches!(t.kind, Kind::Sign(')' | ']' | '>' | '}')))
}

fn hour(kind: Kind) -> bool {
    matches!(kind, Kind::Number(3 | 6 | 9 | 12))
}

/// "Drag R (2)": how long a movement lasts.
fn lasts(t: &[Token], k: usize) -> bool {
    let slow = |t: &Token| matches!(t.kind, Kind::W(W::Drag | W::Hold | W::Sweep | W::Slide));
    !hour(t[k].kind) && t[..k].iter().rev().take(4).any(slow)
}

fn turned(t: &[Token], k: usize) -> bool {
    let turn = |t: &Token| {
        matches!(t.kind, Kind::Fraction(_) | Kind::W(W::Quarter | W::Half | W::ThreeQuarter | W::Full))
    };
    t[..k].iter().any(turn)
}
