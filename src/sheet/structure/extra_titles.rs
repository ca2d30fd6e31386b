//! Titles of steps that are danced after some walls only, whatever they are called: "EXTRA, after 2 walls" above its
//! steps, "Break, 4 counts. It comes two times: when wall 3 is done and when wall 6 is done".

use super::told;
use super::wording::{begins_again, from_the_top, has};
use super::{Kind, Line, Token, Told, W};
use crate::sheet::labels::label;

/// Words that such a title has at most.
const TITLE: usize = 4;

/// Gives the first word of each such title the meaning that "tag" has.
pub(super) fn known(text: &str, lines: &mut [Line]) {
    let danced = |l: &Line| {
        matches!(l.told, Some(Told::Steps(_)))
            || l.told.is_none() && (l.stepful() || l.leading(text).is_some())
    };
    let section = |l: &Line| label(text, l).is_some_and(|l| l.certain && !l.part);
    // Nothing but titles and their rows stands behind the dance.
    let Some(body) = lines.iter().position(danced) else { return };
    for i in (body + 1..lines.len()).rev() {
        let line = &lines[i];
        if line.empty() {
            continue;
        }
        if section(line) {
            return;
        }
        let below = lines[i + 1..].iter().find(|l| !l.empty());
        if below.is_some_and(danced) && titled(text, line) {
            let line = &mut lines[i];
            line.tokens[line.first].kind = Kind::W(W::Tag);
            line.told = None;
        }
    }
}

/// Whether a line begins with a name and says after which repetitions it is danced.
fn titled(text: &str, line: &Line) -> bool {
    let t = &line.tokens[..];
    let known = |t: &Token| matches!(t.kind, Kind::W(W::Tag | W::Restart | W::End | W::Option | W::No));
    let free = matches!(line.told, None | Some(Told::Heading(_))) && line.leading(text).is_none();
    if !free || t.iter().any(known) || has(t, W::Before) || begins_again(text, t) || from_the_top(text, t) {
        return false;
    }
    let stops = |t: &Token| {
        matches!(
            t.kind,
            Kind::Sign(_) | Kind::Number(_) | Kind::W(W::After | W::At | W::On | W::While | W::For)
        )
    };
    let name = t[line.first..].iter().take_while(|t| !stops(t)).count();
    let feet = |t: &Token| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF));
    (1..=TITLE).contains(&name)
        && !t[line.first..line.first + name].iter().any(feet)
        && told::when_over(text, &t[line.first + name..])
}
