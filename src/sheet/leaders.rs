//! What stands at the right edge of lines: the number that dots lead to, and the hour behind it.

use super::lines::{Line, weigh};
use super::vocabulary::W;
use super::words::{Kind, Token};
use crate::floor::Heading;
use crate::text::Span;

/// How many lines of a sheet must lead the eye to their numbers with dots, so that the others do without.
const LEADERS: usize = 3;

/// Puts dots before the number that ends a line without them, where those of other lines lead to such numbers: the words
/// of some are so long that no dot finds room.
pub(super) fn leaders(lines: &mut [Line]) {
    let small = |t: &Token| matches!(t.kind, Kind::Number(1..=8));
    // One past the number; where one looks may stand behind it.
    let end = |l: &Line| {
        let clock = l.tokens.last().is_some_and(|t| matches!(t.kind, Kind::Clock(_)));
        l.tokens.len()
            - if clock {
                1 + usize::from(l.tokens.iter().rev().nth(1).is_some_and(|t| t.is(W::To)))
            } else {
                0
            }
    };
    let led = |l: &Line| {
        let n = end(l);
        l.told.is_none() && n >= 4 && small(&l.tokens[n - 1]) && (2..=3).all(|k| l.tokens[n - k].sign('.'))
    };
    if lines.iter().filter(|l| led(l)).count() < LEADERS {
        return;
    }
    for line in lines {
        let n = end(line);
        let word = |t: &Token| {
            matches!(t.kind, Kind::W(W::Hold | W::Clap) | Kind::Name(_) | Kind::Fraction(_))
                || weigh(t.kind).0
        };
        if line.told.is_none()
            && n >= 3
            && line.step_words >= 2
            && small(&line.tokens[n - 1])
            && line.tokens[n - 1].gap > 0
            && word(&line.tokens[n - 2])
            && !matches!(line.tokens[line.first].kind, Kind::Number(_))
        {
            let at = line.tokens[n - 1].span.start as usize;
            let dot = Token { kind: Kind::Sign('.'), span: Span::new(at, at), gap: 1 };
            line.tokens.splice(n - 1..n - 1, [dot, dot]);
        }
    }
}

/// "... 4   to 9": an hour at the end of a line, a wide gap behind its counts.
pub(super) fn faces_behind(t: &mut [Token]) {
    if let [.., to, hour] = t
        && to.gap == 2
        && matches!(to.kind, Kind::W(W::To | W::Face | W::At))
        && let Kind::Number(n @ (3 | 6 | 9 | 12)) = hour.kind
    {
        hour.kind = Kind::Clock(Heading::new(i32::try_from(n * 4).unwrap_or(0)));
    }
}
