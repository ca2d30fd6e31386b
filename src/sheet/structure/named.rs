//! What stands beside the name of a part or a section: its counts, its bars, where it faces.

use super::super::beside::wall_named;
use super::wording::{doing, has};
use super::{Kind, W};
use crate::floor::Heading;

/// One past a bracket behind a label that tells its counts or chats, and the signs after it.
pub(super) fn bracket_end(t: &[super::Token], from: usize) -> Option<usize> {
    if !matches!(t.get(from)?.kind, Kind::Sign('(' | '[')) {
        return None;
    }
    let close = (from + 1..t.len().min(from + 16)).find(|i| matches!(t[*i].kind, Kind::Sign(')' | ']')))?;
    // "(8)", "(8 counts)"; "[1&2] R shuffle" counts a step.
    let number = matches!(t[from + 1].kind, Kind::Number(_)) && close == from + 2
        || t[from + 1..close].iter().any(|t| t.is(W::Count));
    let said = t[from + 1..close].iter().filter(|t| matches!(t.kind, Kind::Unknown | Kind::W(_))).count();
    if doing(&t[from + 1..close]) || !(number || said >= 3) {
        return None;
    }
    let signs =
        t[close + 1..].iter().take_while(|t| matches!(t.kind, Kind::Sign('.' | ':' | '-' | ','))).count();
    Some(close + 1 + signs)
}

/// One past a name in quotes behind a label, before the steps: `part 2 "wipe the bench"   side rock R, ...`.
pub(super) fn quoted_end(t: &[super::Token], from: usize) -> Option<usize> {
    let quote = |t: &super::Token| matches!(t.kind, Kind::Sign('"' | '\''));
    if !quote(t.get(from)?) {
        return None;
    }
    let close = (from + 1..t.len().min(from + 10)).find(|k| quote(&t[*k]))?;
    let signs =
        t[close + 1..].iter().take_while(|t| matches!(t.kind, Kind::Sign(':' | '-' | ',' | '='))).count();
    let to = close + 1 + signs;
    doing(t.get(to..)?).then_some(to)
}

/// "Bars 1-4", "Bars 5 to 6": how many they are.
pub(super) fn bars_named(text: &str, t: &[super::Token], at: usize) -> Option<i32> {
    let word = t.get(at)?.span.of(text);
    let number = |k: usize| if let Kind::Number(n) = t.get(k)?.kind { i32::try_from(n).ok() } else { None };
    let joined = |t: &super::Token| t.sign('-') || t.is(W::To) || t.is(W::And);
    if !["bars", "measures"].iter().any(|w| word.eq_ignore_ascii_case(w)) || !joined(t.get(at + 2)?) {
        return None;
    }
    Some(number(at + 3)? - number(at + 1)? + 1).filter(|n| (2..=8).contains(n))
}

/// "The first time part B is danced to 6:00", "Part B starts at 12:00": which part, and where it faces.
pub(super) fn part_faces(text: &str, t: &[super::Token]) -> Option<(String, Heading)> {
    let k = (0..t.len()).find(|k| t[*k].is(W::Set))?;
    let name = t.get(k + 1)?.span.of(text);
    (name.len() == 1).then(|| name.to_string()).zip(first_faces(text, &t[k..]))
}

/// "(first time 6:00, second time 12:00)", "you are at the front wall the first time": where the words about a part say
/// that it begins.
pub(super) fn first_faces(text: &str, t: &[super::Token]) -> Option<Heading> {
    let faces = |t: &[super::Token]| {
        (0..t.len()).find_map(|i| match t[i].kind {
            Kind::Clock(h) => Some(h),
            Kind::Number(n @ (3 | 6 | 9 | 12)) if t.get(i + 1).is_some_and(|t| t.is(W::OClock)) => {
                Some(Heading::new(i32::try_from(n * 4).unwrap_or(0)))
            }
            _ => wall_named(text, t, i).map(|(h, _)| h),
        })
    };
    let begins = |t: &[super::Token]| {
        let said =
            t.iter().any(|t| matches!(t.kind, Kind::W(W::Make | W::Face | W::First | W::Times | W::Once)));
        said && !has(t, W::End)
    };
    // "(begins and ends on the same wall; first time 6:00)"
    let mut clauses = t.split(|t| matches!(t.kind, Kind::Sign(';' | ',' | '.')));
    let told = clauses.find_map(|c| faces(c).filter(|_| begins(c)));
    told.or_else(|| faces(t).filter(|_| begins(t)))
}

/// Whether the words behind the name of a part tell steps, not only how often and where it is danced.
pub(super) fn tells_steps(t: &[super::Token]) -> bool {
    let foot = |t: &super::Token| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF) | Kind::Name(_));
    let acts = t.iter().filter(|t| matches!(t.kind, Kind::W(w) if super::acts(w) && w != W::Turn)).count();
    doing(t) && (t.iter().any(foot) || acts >= 1)
}

/// One past a sentence behind a label that only announces what the next ones tell with their feet: "The next eight are
/// rocks and walks. Rock the right foot ..."
pub(super) fn announced_end(text: &str, t: &[super::Token], from: usize) -> Option<usize> {
    let verb = t.get(from)?.span.of(text);
    if !["are", "is", "has", "have", "consists", "consist"].iter().any(|w| verb.eq_ignore_ascii_case(w)) {
        return None;
    }
    let foot = |t: &super::Token| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF));
    let stop = from + t[from..].iter().position(|t| matches!(t.kind, Kind::Sign('.' | '!')))?;
    let told = t[stop..].iter().filter(|t| foot(t)).count() >= 2;
    (told && !t[from..stop].iter().any(foot)).then_some(stop + 1)
}
