//! What a restart leaves out: "leave out the quarter turn", "without the last &".

use crate::dance::{Move, Section};
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token};
use crate::text::lower;
use crate::time::Ticks;

/// What is not danced.
#[derive(Clone, Copy)]
pub(super) enum LeftOut {
    /// A turn of this size in 1/48.
    Sized(i32),
    /// A turn of any size.
    Turn,
    /// What stands behind the last whole count.
    Half,
}

/// "Leave out", "omit", "without"
fn leaves_out(text: &str, t: &[Token], i: usize) -> bool {
    let word = lower(t[i].span.of(text));
    // "Leave out the turn", "leave the quarter turn out"
    let out = || {
        t[i + 1..t.len().min(i + 6)]
            .iter()
            .take_while(|x| !matches!(x.kind, Kind::Sign(_)))
            .any(|x| x.is(W::Out))
    };
    t[i].is(W::No)
        || matches!(word.as_str(), "leave" | "leaving") && out()
        || matches!(word.as_str(), "omit" | "omitting" | "skip" | "skipping")
}

/// "Leave out the quarter turn", "leave out the last &"
pub(super) fn left_out(text: &str, t: &[Token]) -> Option<LeftOut> {
    (0..t.len()).find_map(|i| {
        if !leaves_out(text, t, i) {
            return None;
        }
        let rest = &t[i + 1..t.len().min(i + 6)];
        let small =
            |t: &&Token| matches!(t.kind, Kind::W(W::Out | W::The | W::Last) | Kind::Sign('"' | '\''));
        let first = rest.iter().find(|t| !small(t))?;
        if first.is(W::And) && !first.span.of(text).starts_with(char::is_alphabetic) {
            return Some(LeftOut::Half);
        }
        let at = rest.iter().position(|x| x.is(W::Turn))?;
        let plain = |x: &Token| {
            matches!(
                x.kind,
                Kind::Fraction(_) | Kind::W(W::Out | W::The | W::Quarter | W::Half | W::Full | W::Make)
            )
        };
        let size = |x: &Token| match x.kind {
            Kind::Fraction(units) => Some(units),
            Kind::W(w) => crate::figures::turn_word(w),
            _ => None,
        };
        rest[..at]
            .iter()
            .all(plain)
            .then(|| rest[..at].iter().find_map(size).map_or(LeftOut::Turn, LeftOut::Sized))
    })
}

/// A section up to so many counts, without what is left out.
pub(super) fn without(mut section: Section, counts: u32, what: LeftOut) -> Option<Section> {
    let counts = i32::try_from(counts).ok()?;
    section.moves.retain(|m| m.at.count() <= counts);
    let turned = |m: &&mut Move| match what {
        LeftOut::Sized(n) => m.turn.0.abs() == n,
        _ => m.turn.0 != 0,
    };
    match what {
        LeftOut::Half => section.moves.retain(|m| m.at <= Ticks::of_count(counts)),
        _ => section.moves.iter_mut().rfind(turned)?.turn = crate::floor::Turn::NONE,
    }
    ended(&mut section);
    Some(section)
}

/// Sets where a section ends by its moves.
pub(super) fn ended(section: &mut Section) {
    section.weight_end = section.moves.last().map_or(section.weight_end, |m| m.after);
    section.facing_end = section.moves.iter().fold(section.facing_start, |h, m| h.turned(m.turn));
}
