//! Steps in the midst of sentences.

use super::super::{Kind, Token, W, acts};
use super::Item;
use super::phrases::Words;
use super::plain::plain;
use crate::text::among;

/// Words of a step besides its verb.
fn detail(t: &Token) -> bool {
    matches!(t.kind, Kind::Fraction(_) | Kind::Feet)
        || matches!(
            t.kind,
            Kind::W(
                W::R | W::L
                    | W::RF
                    | W::LF
                    | W::Forward
                    | W::Back
                    | W::Side
                    | W::Behind
                    | W::Beside
                    | W::Heel
                    | W::Toe
                    | W::Hip
                    | W::Knee
                    | W::Out
                    | W::Across
                    | W::Front
                    | W::Half
                    | W::Quarter
                    | W::Full
                    | W::Diagonal
                    | W::Home
                    | W::Clockwise
                    | W::Anticlockwise
                    | W::Weight
                    | W::Foot
                    | W::Feet
                    | W::Shift
            )
        )
}

/// Small words and signs that may stand between the words of steps.
fn glue(t: &Token) -> bool {
    matches!(t.kind, Kind::Number(_) | Kind::Times(_))
        || matches!(t.kind, Kind::Sign(c) if !matches!(c, '.' | '!' | '?' | ';' | '\n'))
        || matches!(
            t.kind,
            Kind::W(
                W::And
                    | W::Then
                    | W::With
                    | W::To
                    | W::On
                    | W::Of
                    | W::The
                    | W::It
                    | W::At
                    | W::By
                    | W::In
                    | W::For
                    | W::While
                    | W::From
                    | W::Make
                    | W::Take
                    | W::Twice
                    | W::Times
                    | W::Once
                    | W::More
                    | W::Again
                    | W::Both
                    | W::Two
                    | W::Three
                    | W::Four
                    | W::Up
                    | W::Down
                    | W::Place
                    | W::Slightly
                    | W::Long
                    | W::Small
                    | W::Shoulder
                    | W::Around
                    | W::Other
                    | W::Low
                    | W::Count
                    | W::Change
            )
        )
}

pub(super) fn verb(t: &Token) -> bool {
    matches!(t.kind, Kind::Name(_)) || matches!(t.kind, Kind::W(w) if acts(w))
}

pub(super) fn foot(t: &Token) -> bool {
    matches!(t.kind, Kind::Feet | Kind::W(W::R | W::L | W::RF | W::LF))
}

/// Whether a phrase of another kind begins at a token.
fn other(words: &Words, k: usize) -> bool {
    let t = &words.t[k];
    t.is(W::Tag)
        || t.is(W::Restart)
        || t.is(W::After) && !words.sign(k + 1, &[','])
        || matches!(t.kind, Kind::Clock(_))
        || words.walls(k).is_some()
        || words.onward(k).is_some()
        || words.length(k).is_some() && !(k > 0 && (k.saturating_sub(2)..k).any(|j| words.t[j].is(W::Hold)))
        || words.each(k).is_some()
        || words.left_out(k).is_some_and(|_| !t.is(W::Out))
        || words.sections(k).is_some()
        || words.facing(k).is_some_and(|_| !t.is(W::Back))
}

/// The steps that begin at token `k`, whether they only explain or point, and where they end.
pub(super) fn run(words: &Words, k: usize, before: &[Item]) -> Option<(Vec<Token>, bool, usize)> {
    let t = words.t;
    // Counts before the first step: "1-2 stomp R", "(1) sway right", "4 sways", "2 x pivot".
    let mut lead = k;
    while t.get(lead).is_some_and(|t| matches!(t.kind, Kind::Number(_) | Kind::Times(_)) || t.sign('&'))
        || lead > k
            && (words.sign(lead, &['-', ',', ')', ':', '=', '/'])
                || words.is(lead, among!["x", "to", "and", "more", "extra", "additional"]))
        || lead == k
            && (words.sign(k, &['('])
                || words.is(k, among!["on", "two", "four", "three", "eight", "counts", "count", "ct", "cts"]))
    {
        lead += 1;
    }
    let first = t.get(lead)?;
    let begins = verb(first) || detail(first) && !matches!(first.kind, Kind::W(W::Weight | W::Home));
    if !begins {
        // "(1) you step": no more than small words between.
        if lead > k
            && words.is(lead, among!["the", "you", "your"])
            && t.get(lead + 1).is_some_and(|t| verb(t) || detail(t))
        {
            lead += 1;
        } else {
            return None;
        }
    }
    let points = pointing(words, k);
    let mut last = None;
    let mut depth = 0;
    let mut unknown = 0;
    let mut at = lead;
    while let Some(token) = t.get(at) {
        // "Sway right as you step to the side" is one movement.
        let anew = words.is(at, among!["you", "we"])
            && !(words.w(at - 1, W::While) && words.t.get(at + 1).is_some_and(verb));
        if at > lead && other(words, at) || last.is_some() && anew {
            break;
        }
        if points && last.is_some() && (matches!(token.kind, Kind::Sign(_)) || token.is(W::On)) {
            break;
        }
        match token.kind {
            // "LF to side; RF behind LF; LF in place"
            Kind::Sign(';') if depth == 0 && t.get(at + 1).is_some_and(|t| verb(t) || foot(t)) => {}
            Kind::Sign('.' | '!' | '?' | ';' | '\n') if !words.shortened(at) => break,
            Kind::Sign('(' | '[') => depth += 1,
            Kind::Sign(')' | ']') => {
                if depth == 0 {
                    break;
                }
                depth -= 1;
                // A bracket behind steps belongs to them.
                if last.is_some() && unknown == 0 {
                    last = Some(at + 1);
                }
            }
            _ => {}
        }
        if verb(token) || detail(token) {
            unknown = 0;
            last = Some(at + 1);
        } else if !glue(token) && !words.sign(at, &['.']) {
            unknown += 1;
            if unknown > 2 {
                break;
            }
        } else if unknown == 0 && matches!(token.kind, Kind::Times(_) | Kind::W(W::Twice)) {
            last = Some(at + 1);
        }
        at += 1;
    }
    let mut end = last?;
    // Counts and turns of number behind the last step: "(4)", "[1-4]", "two times", "once more".
    let mut tail = end;
    while let Some(token) = t.get(tail).filter(|_| !points) {
        let counts = matches!(
            token.kind,
            Kind::Number(_)
                | Kind::Times(_)
                | Kind::Sign('(' | '[' | ')' | ']' | '-' | ',' | '&' | '/' | '=')
        ) || matches!(
            token.kind,
            Kind::W(
                W::Two
                    | W::Twice
                    | W::Times
                    | W::Once
                    | W::More
                    | W::And
                    | W::Again
                    | W::On
                    | W::For
                    | W::Count
            )
        );
        let held = (tail.saturating_sub(2)..tail).any(|j| t[j].is(W::Hold));
        if !(counts || words.cardinal(tail).is_some())
            || words.length(tail).is_some() && !held
            || words.walls(tail).is_some()
            || words.each(tail).is_some()
        {
            break;
        }
        tail += 1;
        let closes = matches!(
            token.kind,
            Kind::Number(_) | Kind::Times(_) | Kind::Sign(')' | ']') | Kind::W(W::Times | W::Twice | W::More)
        ) || token.is(W::Count) && words.cardinal(tail - 2).is_some();
        if closes {
            end = tail;
        }
    }
    // "Side touch x2 = step R to R, touch L beside": a name, and what it is.
    let named = (lead + 1..end).rfind(|j| {
        let (name, what) = (&t[lead..*j], &t[*j..end]);
        words.sign(*j, &['=']) && !name.iter().any(foot) && what.iter().any(verb)
            || words.sign(*j, &[':'])
                && name.iter().any(|t| matches!(t.kind, Kind::Name(_)))
                && what.iter().filter(|t| verb(t)).count() >= 2
                && what.iter().any(foot)
    });
    let k = named.map_or(k, |j| j + 1);
    let lead = lead.max(k);
    let mut tokens = t[k..end].to_vec();
    if lead > k && tokens.first().is_some_and(|t| t.is(W::Count)) {
        tokens.remove(0);
    }
    tokens.retain(|t| !t.sign('='));
    // A bracket that opens before the run stays outside.
    if tokens.first().is_some_and(|t| t.sign('(')) && !tokens[1..].iter().any(|t| t.sign(')')) {
        tokens.remove(0);
    }
    // "..., stepping forward on the right each time": the last clause explains the figure before it.
    let comma = (lead + 1..end).rfind(|j| words.sign(*j, &[',']));
    if let Some(comma) = comma
        && comma + 1 < end
        // "changing weight each time" tells what they do to the weight.
        && !t[comma + 1..end].iter().any(|t| t.is(W::Weight))
        && (end..end + 2)
            .chain(comma..end)
            .any(|j| words.is(j, among!["each", "both", "every"]) && words.is(j + 1, among!["time", "times"]))
        && (t[comma + 1].span.of(words.text).to_ascii_lowercase().ends_with("ing")
            || !t[comma + 1..end].iter().any(verb))
    {
        tokens.truncate(tokens.len().saturating_sub(end - comma));
    }
    let told = &t[lead..end];
    let verbs = told.iter().filter(|t| verb(t)).count();
    let feet = told.iter().filter(|t| foot(t)).count();
    let danced = before.iter().any(|i| matches!(i, Item::Steps(_, false)));
    // "R back, L beside R" goes on with "L forward, R beside L", and explains "twinkle".
    let named = before.iter().any(|i| matches!(i, Item::Steps(t, false) if t.iter().any(verb)));
    // "At this point" is a place.
    if t[lead].is(W::Point)
        && lead > 0
        && words.is(lead - 1, among!["this", "that", "which", "the"])
        && bare_word(t, lead, end)
    {
        return None;
    }
    // "The singer holds the note": a verb by itself, behind something that does it.
    let bare = bare_word(t, lead, end);
    let subject = k > 0 && matches!(t[k - 1].kind, Kind::Unknown)
        || k > 1 && words.is(k - 2, among!["the", "a", "our"]) && !verb(&t[k - 1]);
    // "At the close of the wall", "you pause the dance"
    let object = words.is(end, among!["the"]) && words.is(end + 1, among!["dance", "music", "song", "note"]);
    let noun = bare && (object || words.is(end, among!["of"]));
    if noun || bare && subject && lead == k && !matches!(told[0].kind, Kind::Name(_)) {
        return None;
    }
    if verbs == 0 && !(feet >= 2 || feet == 1 && danced) {
        return None;
    }
    // "Until count 16 (brush R)", "(step down onto each)": what stands in brackets only explains.
    let inside = bracketed(words, k);
    let explains =
        points || explaining(words, lead, end, verbs, (danced, named)) || inside && (!danced || feet == 0);
    // "4 sways R L R L": their number is told by the feet.
    let more = usize::from(words.is(k + 1, among!["more", "extra", "additional"]));
    if t.get(k + 1 + more).is_some_and(verb)
        && words
            .cardinal(k)
            .is_some_and(|(n, _)| told.iter().map(|t| feet_of(words, t)).sum::<u32>() == n && n > 1)
    {
        tokens.remove(0);
        tokens.drain(..more);
    }
    plain(words.text, &mut tokens);
    Some((tokens, explains, end))
}

fn bare_word(t: &[Token], from: usize, end: usize) -> bool {
    t[from..end].iter().filter(|t| verb(t) || detail(t)).count() == 1
}

/// Whether token `k` stands in a bracket.
fn bracketed(words: &Words, k: usize) -> bool {
    let depth = |k: usize| match words.t[k].kind {
        Kind::Sign('(' | '[') => 1,
        Kind::Sign(')' | ']') => -1,
        _ => 0,
    };
    let counts = words.t[k + 1..]
        .iter()
        .take_while(|t| !t.sign(')'))
        .all(|t| matches!(t.kind, Kind::Number(_) | Kind::Sign(_)) || t.is(W::And));
    (0..k).map(depth).sum::<i32>() > 0 || words.sign(k, &['(', '[']) && !counts
}

/// How many feet a token names.
fn feet_of(words: &Words, t: &Token) -> u32 {
    match t.kind {
        Kind::Feet => {
            u32::try_from(t.span.of(words.text).chars().filter(|c| c.is_alphabetic()).count()).unwrap_or(0)
        }
        _ => u32::from(foot(t)),
    }
}

/// "After the brush", "into the crosses", "free for the walk": steps of the dance that words point at.
fn pointing(words: &Words, k: usize) -> bool {
    let article = k > 0 && words.is(k - 1, among!["the", "your", "a", "that"]);
    let at = k - usize::from(article);
    let led = at > 0
        && words.is(
            at - 1,
            among![
                "after",
                "for",
                "into",
                "of",
                "before",
                "following",
                "including",
                "incl",
                "from",
                "until",
                "till",
                "when",
                "once",
                "done",
                "to",
                "the",
                "your",
                "do",
                "dance",
                "through",
            ],
        );
    let article = article && !(words.is(k - 1, among!["a"]) && words.is(at - 1, among!["do", "dance"]));
    led && (article
        || words.is(at.saturating_sub(1), among!["after", "following", "including", "incl", "of"]))
}

/// "Stepping forward on the right each time", "(R fwd)", "forward and back": words that only explain the steps before.
fn explaining(words: &Words, from: usize, end: usize, verbs: usize, (danced, named): (bool, bool)) -> bool {
    let time = (end..end + 3).any(|k| words.is(k, among!["each", "both", "every"]))
        || (from..end).any(|k| {
            words.is(k, among!["each", "both", "every"]) && words.is(k + 1, among!["time", "times"])
        });
    if words.t[from..end].iter().any(|t| t.is(W::Weight)) {
        return false;
    }
    let participle = words.t[from].span.of(words.text).to_ascii_lowercase().ends_with("ing");
    danced
        && (time && (participle || verbs == 0)
            || named && verbs == 0 && !words.t[from..end].iter().any(|t| t.kind == Kind::Feet))
}
