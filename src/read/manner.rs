//! Words that tell how something is done that others tell to do: small steps, soft knees, a clap on each touch.

use super::around::side;
use super::clauses::foot_word;
use crate::dance::{Action, Foot, Place};
use crate::figures::Written;
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, acts};
use crate::text::among;

/// "K-step, small steps please", "clap when you touch", "Roll a full turn": what is told by no foot of its own. Where
/// such words end.
pub(super) fn manner(text: &str, t: &[Token], i: usize, clause: usize) -> Option<usize> {
    let c = t.get(i..clause).filter(|c| !c.is_empty())?;
    // "Roll a full turn left: L, R, L" turns on the feet, not in the hips.
    let the = usize::from(c.get(1).is_some_and(|t| t.is(W::The)));
    let whole = |t: &Token| matches!(t.kind, Kind::W(W::Full) | Kind::Fraction(36..));
    if c[0].is(W::Roll) && c.get(1 + the).is_some_and(whole) {
        return Some(i + 1 + the);
    }
    let told =
        |t: &Token| foot_word(t.kind) || matches!(t.kind, Kind::Name(_) | Kind::Feet | Kind::Fraction(_));
    if i == 0 || c.iter().any(told) {
        return None;
    }
    // "Knees soft!", "soft knees": how one stands.
    let still =
        |t: &Token| t.is(W::Knee) || matches!(t.kind, Kind::Unknown | Kind::W(W::The | W::Low | W::Slightly));
    let knees = c.len() >= 2 && c.iter().any(|t| t.is(W::Knee)) && c.iter().all(still);
    let size = c[0].is(W::Small) || c[0].is(W::Long);
    let steps = c.get(1).is_some_and(|t| t.is(W::Step) && t.span.of(text).eq_ignore_ascii_case("steps"));
    // "with a clap on each touch": what it goes with is danced already.
    let each = |t: &Token| t.is(W::Both) || t.span.is_among(text, among!["each", "every", "both", "all"]);
    let clap = c.iter().take(3).position(|t| t.is(W::Clap));
    let with = clap.is_some_and(|k| c[k + 1..].iter().take(3).any(|t| each(t) || t.is(W::While)));
    let on = matches!(c[0].kind, Kind::W(W::On | W::At)) && c.get(1).is_some_and(each) && c.len() <= 4;
    // "One step to a count": how fast one goes.
    let paced = |t: &Token| t.is(W::Step) || t.is(W::To);
    let pace = c.len() <= 5 && c[0].is(W::The) && c[c.len() - 1].is(W::Count) && c.get(1).is_some_and(paced);
    (knees || size && steps || with || on || pace).then_some(clause)
}

/// "Walk round in a small circle to the left", "walk R L R L in a circle": the way of steps that are told, no circle of
/// the hips. Where such words end.
pub(super) fn circle(text: &str, t: &[Token], i: usize, clause: usize) -> Option<usize> {
    let walk = i > 0 && matches!(t[i - 1].kind, Kind::W(W::Walk | W::Run));
    let led = matches!(t.get(i)?.kind, Kind::W(W::In | W::Around | W::Once))
        || walk && matches!(t[i].kind, Kind::W(W::The | W::Full))
        || t[i].span.is_among(text, among!["all"]);
    let at = (i..clause.min(i + 8)).find(|k| t[*k].is(W::Roll)).filter(|_| led)?;
    let walked = t[..i].iter().rev().take(24).take_while(|t| !matches!(t.kind, Kind::Sign('.' | ';' | '\n')));
    let small = |t: &Token| {
        matches!(
            t.kind,
            Kind::Unknown | Kind::W(W::In | W::Around | W::The | W::Small | W::Full | W::Long | W::Once)
        )
    };
    let walks = |t: &Token| matches!(t.kind, Kind::Name(_) | Kind::W(W::Walk | W::Run | W::Step));
    if !t[at].span.is_among(text, among!["circle"])
        || !t[i..at].iter().all(small)
        || !walked.clone().any(walks)
    {
        return None;
    }
    let is = |k: usize, w: W| k < clause && t.get(k).is_some_and(|t| t.is(w));
    let to = at + 1;
    let more = if is(to, W::To) && is(to + 1, W::The) { 2 } else { 0 };
    let side = t.get(to + more).filter(|_| to + more < clause).is_some_and(|t| side(t.kind).is_some());
    let way = is(to, W::Clockwise) || is(to, W::Anticlockwise);
    Some(to + if side { more + 1 } else { usize::from(way) })
}

/// "Swivel heels right, centre, right": a side by itself goes on with both feet.
pub(super) fn swivelled(t: &[Token], i: usize, clause: usize) -> Option<Written> {
    let foot = side(t[i].kind).filter(|_| clause == i + 1)?;
    let sentence =
        t[..i].iter().rev().take(24).take_while(|t| !matches!(t.kind, Kind::Sign('.' | '\n' | '!' | '?')));
    let verb = |t: &&Token| matches!(t.kind, Kind::Name(_)) || matches!(t.kind, Kind::W(w) if acts(w));
    let swivels = sentence.clone().find(verb).is_some_and(|t| t.is(W::Swivel));
    swivels.then(|| Written {
        action: Some(Action::Swivel),
        place: Some(if foot == Foot::Left { Place::HeelsLeft } else { Place::HeelsRight }),
        both: true,
        end: i + 1,
        ..Written::default()
    })
}
