//! What is told by pointing at steps that stand elsewhere: "Same as section 1", "= S1, other foot", "do the first
//! eight counts again".
//!
//! Such words have a target (a section, a range of counts), a word that says that it is danced again, before or
//! behind the target or neither, and what differs: the feet change places, or one of them leads. Everything else
//! tells the same steps once more, up to what is said to change.

mod targets;

use targets::MOST;

use super::classes::{LIKE, acts};
use super::labels::{placed, section_word};
use super::vocabulary::W;
use super::words::{Kind, Token};
use crate::dance::Foot;
use crate::text::{Among, among, begins_with};

/// How many small words may stand between a word of repeating and its target: "the same steps as those in section 1".
const NEAR: usize = 7;

/// Steps elsewhere: without sections and counts, the section before.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Target {
    /// The numbers of the first and the last section.
    pub sections: Option<(u32, u32)>,
    /// The first and the last count, of the section or, without one, of the dance; below zero from its end.
    pub range: Option<(i32, i32)>,
}

/// Words that stand for steps elsewhere.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Pointer {
    /// What they point at.
    pub target: Target,
    /// Whether the feet change places.
    pub mirrored: bool,
    /// The foot that leads, where it is said.
    pub lead: Option<Foot>,
    /// Whether the feet are said to be the same.
    pub same: bool,
    /// How many clauses tell the same steps once more.
    pub told: u32,
    /// Where those begin.
    pub telling: usize,
    /// One past the last token.
    pub to: usize,
    /// Whether something else is said to be danced at the end.
    pub changed: bool,
    /// The last count that is danced as it was, where it is said; below zero, how many at the end are not.
    pub until: Option<i32>,
}

/// The words between two signs.
struct Clause {
    from: usize,
    to: usize,
}

/// The steps that the words from one token on stand for, where they point at others.
#[must_use]
pub fn points(text: &str, t: &[Token], from: usize, limit: usize) -> Option<Pointer> {
    let words = Words { text, t };
    let limit = limit.min(t.len());
    // Most words point at nothing.
    if limit.saturating_sub(from) > LONGEST || !(from..limit).any(|k| words.names(k)) {
        return None;
    }
    let about = |t: &Token| matches!(t.kind, Kind::W(W::Wall | W::Tag | W::Restart | W::Option));
    if t[from..limit].iter().any(about) {
        return None;
    }
    let clauses = words.clauses(from, limit);
    let (target, at, end, behind) = words.target_of(from, limit, &clauses)?;
    let mut out = Pointer { target, telling: limit, to: limit, ..Pointer::default() };
    let mut toward = None;
    for c in &clauses {
        let held = c.from < end && at < c.to;
        if c.to <= at {
            if words.dances(c.from, c.to) {
                // "Walk R, L, shuffle (as section 1)": only behind all of them.
                if !behind {
                    return None;
                }
                out.told += 1;
            }
            continue;
        }
        let first = if held { end.min(c.to) } else { c.from };
        if held {
            out.until = out.until.or(words.up_to(first, c.to));
        }
        if held && words.dances(c.from, at.max(c.from)) {
            if !behind {
                return None;
            }
            out.told += 1;
        }
        if let Some(k) = words.change(first, c.to, held, out.told > 0) {
            let sentence = (k..limit)
                .find(|k| matches!(t[*k].kind, Kind::Sign('.' | '\n' | '!' | '?')))
                .unwrap_or(limit);
            // A turn comes to the steps as they are.
            out.changed = words.moves(k, c.to) || !words.dances_else(k, c.to);
            out.to = k;
            if out.changed {
                let (until, to) = words.kept(k, sentence);
                out.until = out.until.or(until);
                out.to = to;
            }
            words.differences(c.from, k, &mut out, &mut toward);
            break;
        }
        if words.tells(first, c.to) {
            out.told += 1;
            out.telling = out.telling.min(first);
            words.led(first, c.to, &mut out, true);
            if held {
                words.differences(c.from, at.max(c.from), &mut out, &mut toward);
            }
        } else {
            words.differences(c.from, c.to, &mut out, &mut toward);
        }
    }
    // Where the feet change places, the side says which way the steps go, not which foot begins.
    out.lead = out.lead.or(toward.filter(|_| !out.mirrored));
    Some(out)
}

/// Whether words, all of them, say no more than how what is pointed at differs: "starting with the left foot".
#[must_use]
pub fn differs(text: &str, t: &[Token], from: usize) -> bool {
    let words = Words { text, t };
    let mut out = Pointer::default();
    let mut toward = None;
    for c in words.clauses(from, t.len()) {
        if words.dances(c.from, c.to) {
            return false;
        }
        words.differences(c.from, c.to, &mut out, &mut toward);
    }
    out.mirrored || out.same || out.lead.is_some() || toward.is_some()
}

/// Words that point at others are fewer than this.
const LONGEST: usize = 240;

/// How words begin that let the feet change places.
const SWAPS: &[&str] = &["mirror", "symmetr", "revers", "swap", "opposit", "inver", "spiegel"];

/// Words that open what is danced otherwise.
const CHANGES: &Among = among![
    "adding",
    "but",
    "change",
    "changing",
    "except",
    "instead",
    "omit",
    "omitting",
    "only",
    "plus",
    "replace",
    "replacing",
    "turning",
    "until",
];

/// Words that liken, beside "as" and "like".
const LIKENING: &Among = among![
    "copy",
    "copies",
    "dancing",
    "did",
    "equal",
    "equals",
    "exactly",
    "identical",
    "identically",
    "mirrors",
    "refer",
    "refers",
    "replay",
    "see",
    "those",
    "again",
];

/// Words for all that was danced before, and for the way in which it is danced again.
const ALL: &Among = among![
    "above",
    "all",
    "but",
    "direction",
    "everything",
    "image",
    "in",
    "leg",
    "lot",
    "only",
    "pattern",
    "sequence",
    "steps",
    "that",
    "these",
    "thing",
    "this",
    "time",
    "way",
];

struct Words<'a> {
    text: &'a str,
    t: &'a [Token],
}

impl Words<'_> {
    fn word(&self, k: usize) -> &str {
        self.t.get(k).map_or("", |t| t.span.of(self.text))
    }

    fn among(&self, k: usize, words: &Among) -> bool {
        self.t.get(k).is_some_and(|t| t.span.is_among(self.text, words))
    }

    fn is(&self, k: usize, w: W) -> bool {
        self.t.get(k).is_some_and(|t| t.is(w))
    }

    fn foot(&self, k: usize) -> Option<Foot> {
        match self.t.get(k)?.kind {
            Kind::W(W::R | W::RF) => Some(Foot::Right),
            Kind::W(W::L | W::LF) => Some(Foot::Left),
            _ => None,
        }
    }

    /// Whether a token may be a part of a target.
    fn names(&self, k: usize) -> bool {
        match self.t[k].kind {
            Kind::Number(_) => true,
            Kind::W(W::Again | W::Same | W::Repeat) => true,
            Kind::Sign(_) | Kind::Feet | Kind::Fraction(_) => false,
            _ => placed(self.text, &self.t[k]).is_some() || section_word(self.text, &self.t[k]),
        }
    }

    /// The clauses between signs; a dash or a stroke between two words without a blank is no end.
    fn clauses(&self, from: usize, limit: usize) -> Vec<Clause> {
        let mut out = Vec::new();
        let mut start = from;
        for k in from..=limit {
            let ends = k == limit
                || match self.t[k].kind {
                    Kind::Sign('-' | '/') => {
                        let glued = self.t[k].gap == 0 && self.t.get(k + 1).is_some_and(|n| n.gap == 0);
                        !glued && self.joined(k).is_none()
                    }
                    Kind::Sign('\'' | '#' | '°') => false,
                    // "As [1-8]"
                    Kind::Sign('(' | '[') => self.counts(k).is_none(),
                    Kind::Sign(')' | ']') => {
                        !(k >= from + 4 && self.counts(k - 4).is_some_and(|(_, to)| to == k + 1))
                    }
                    // "Sec. 1", "no. 2"
                    Kind::Sign('.') => {
                        !(k > from
                            && self.word(k - 1).len() <= 4
                            && matches!(self.t.get(k + 1).map(|t| t.kind), Some(Kind::Number(_))))
                    }
                    Kind::Sign(_) => true,
                    _ => false,
                };
            if ends {
                if k > start {
                    out.push(Clause { from: start, to: k });
                }
                start = k + 1;
            }
        }
        out
    }

    /// The target that is danced again: where it begins and ends, and whether it only tells what was said before it.
    fn target_of(
        &self,
        from: usize,
        limit: usize,
        clauses: &[Clause],
    ) -> Option<(Target, usize, usize, bool)> {
        let found = |k: usize| self.target(k).filter(|(_, end)| *end <= limit).map(|(x, end)| (x, k, end));
        // Right behind a word that says so.
        for k in from..limit {
            if !self.says_before(k) {
                continue;
            }
            let (start, end) = clauses.iter().find(|c| c.to > k).map_or((k, limit), |c| (c.from, c.to));
            // "Arms as in section 2" is about something else.
            let likens = !matches!(self.t[k].kind, Kind::W(W::Repeat | W::Make | W::Other));
            let else_said = |k: usize| {
                self.t[k].kind == Kind::Unknown
                    && !self.swaps(k)
                    && ![ALL, LIKE, LIKENING].iter().any(|w| self.among(k, w))
            };
            if likens && !self.is(k, W::Same) && (start..k).any(else_said) {
                continue;
            }
            // "Walk R, L, shuffle (as section 1)"
            let behind = likens && !(start..k).any(else_said);
            for at in k + 1..end.min(k + 1 + NEAR) {
                let bare = || self.bare_number(k, at).map(|(n, end)| (n, at, end));
                if let Some((target, at, end)) = found(at).or_else(bare) {
                    return Some((target, at, end, behind && target.range.is_none()));
                }
                if self.does(at) {
                    break;
                }
            }
            // "Repeat the vines (section 1)": the bracket says where they stand.
            let bracket = clauses.iter().find(|c| c.from == end + 1 && self.t[end].sign('('));
            if self.is(k, W::Repeat)
                && let Some(c) = bracket
                && let Some((target, at, end)) = (c.from..c.to.min(c.from + NEAR)).find_map(found)
                && target.sections.is_some()
                && end == c.to
            {
                return Some((target, at, end, true));
            }
        }
        // Before it, or with nothing else said.
        let Some((target, at, end)) = (from..limit).find_map(found) else {
            return self.all_before(from, limit).then_some((Target::default(), from, from, false));
        };
        let is = self.among(end, among!["is", "are"]);
        if is && let Some(other) = (end + 1..limit.min(end + 1 + NEAR)).find_map(found) {
            // "Section 2 is section 1 on the other foot"
            return Some((other.0, other.1, other.2, false));
        }
        let sentence = (at..limit).find(|k| matches!(self.t[*k].kind, Kind::Sign('.' | '\n' | '!' | '?')));
        let said = (from..sentence.unwrap_or(limit)).any(|k| self.says_behind(k));
        let sided = |c: &Clause| {
            let held = (c.from..c.to).contains(&at);
            let k = if held { end } else { c.from };
            let bracket = c.from > 0 && matches!(self.t[c.from - 1].kind, Kind::Sign('(' | '['));
            bracket || !self.dances(k, c.to) && (c.to == k || differs(self.text, &self.t[..c.to], k))
        };
        let only =
            target.sections.is_some() && at <= from + 2 && clauses.iter().all(|c| c.to <= at || sided(c));
        (said || only).then_some((target, at, end, false))
    }

    /// Whether words say no more than that all before them is danced again: "the same to the left".
    fn all_before(&self, from: usize, limit: usize) -> bool {
        let mut again = false;
        let small = (from..limit).all(|k| {
            again =
                again || matches!(self.t[k].kind, Kind::W(W::Same | W::Again | W::Repeat)) || self.swaps(k);
            match self.t[k].kind {
                Kind::Sign(_)
                | Kind::W(
                    W::The
                    | W::It
                    | W::Make
                    | W::And
                    | W::Then
                    | W::Of
                    | W::With
                    | W::On
                    | W::To
                    | W::Foot
                    | W::Feet
                    | W::Side
                    | W::First
                    | W::Once
                    | W::Times
                    | W::More
                    | W::Again
                    | W::Same
                    | W::Repeat
                    | W::Other
                    | W::Footwork
                    | W::R
                    | W::L
                    | W::RF
                    | W::LF
                    | W::Full,
                ) => true,
                _ => self.swaps(k) || self.among(k, ALL),
            }
        });
        small && again
    }

    /// Whether a word says that what comes behind it is danced again.
    fn says_before(&self, k: usize) -> bool {
        match self.t[k].kind {
            Kind::W(W::Repeat | W::Same) => true,
            Kind::W(W::Make) => self.among(k, among!["do", "does", "doing", "dance", "danced", "use"]),
            Kind::W(W::Other) => self.mirrors(k),
            Kind::Sign(c) => c == '=',
            Kind::Number(_) | Kind::Feet | Kind::Fraction(_) => false,
            // "It is section 1"
            _ if self.among(k, among!["is"]) => self.target(k + 1).is_some(),
            _ => self.among(k, LIKE) || self.among(k, LIKENING),
        }
    }

    /// Whether a word says that what stands before it is danced again.
    fn says_behind(&self, k: usize) -> bool {
        match self.t[k].kind {
            Kind::W(W::Again) => true,
            Kind::W(W::More) => k > 0 && self.t[k - 1].is(W::Once),
            Kind::W(W::Times) => k > 0 && (matches!(self.t[k - 1].kind, Kind::W(W::Second | W::More))),
            Kind::W(W::Other) => self.mirrors(k),
            Kind::W(W::Repeat | W::Same) => true,
            _ => {
                self.swaps(k) || self.among(k, among!["identical", "identically", "comes", "come", "returns"])
            }
        }
    }

    /// Whether a token is something to do that stands elsewhere in no words of pointing.
    fn does(&self, k: usize) -> bool {
        match self.t[k].kind {
            Kind::Name(_) | Kind::Feet | Kind::Fraction(_) => true,
            Kind::W(w) => {
                acts(w) && w != W::Step
                    || matches!(w, W::Hip | W::Quarter | W::Half)
                    || self.foot(k).is_some()
            }
            _ => false,
        }
    }

    /// Whether a clause tells steps or turns.
    fn dances(&self, from: usize, to: usize) -> bool {
        self.moves(from, to) || (from..to).any(|k| matches!(self.t[k].kind, Kind::Fraction(_)))
    }

    /// Whether a clause tells steps.
    fn moves(&self, from: usize, to: usize) -> bool {
        (from..to).any(|k| match self.t[k].kind {
            Kind::Name(_) | Kind::Feet => true,
            Kind::W(w) => {
                acts(w) && w != W::Step && w != W::Turn
                    || w == W::Step
                        && k + 1 < to
                        && (self.foot(k + 1).is_some() || k > from && self.foot(k - 1).is_some())
            }
            _ => false,
        })
    }

    /// Where words of a clause begin to say what is danced otherwise: "but end with a touch", "then stomp"; behind
    /// the clause of the target only at its beginning. Counts of their own say so as well: "7-8 step, hold".
    fn change(&self, from: usize, to: usize, held: bool, told: bool) -> Option<usize> {
        let contrasts = |k: usize| self.among(k, CHANGES);
        let opens = |k: usize| matches!(self.t[k].kind, Kind::W(W::Then | W::With | W::End)) || contrasts(k);
        let ends = if held { to } else { to.min(from + 2) };
        // "Except counts 7-8: step, hold", "only the end is different"
        let names = |k: usize| {
            (k..to)
                .any(|k| self.count_told(k).is_some() || matches!(self.t[k].kind, Kind::W(W::End | W::Last)))
        };
        let opening = |k: &usize| opens(*k) && self.dances_else(*k, to) || contrasts(*k) && names(*k);
        (from..ends).find(opening).or_else(|| {
            let counted = !held && !told && self.count_told(from).is_some();
            counted.then_some(from)
        })
    }

    /// A count behind the first, or the first of a row of them, and one past them: "7-8", "7&8", "on count 8".
    fn count_told(&self, k: usize) -> Option<(i32, usize)> {
        let on = usize::from(matches!(self.t.get(k)?.kind, Kind::W(W::On | W::At)));
        let named = usize::from(self.is(k + on, W::Count));
        let at = k + on + named;
        let Kind::Number(n @ 2..=MOST) = self.t.get(at)?.kind else { return None };
        let half = self.is(at + 1, W::And) && self.t[at + 1].gap == 0;
        let to = if self.joined(at + 1).is_some() || half { at + 3 } else { at + 1 };
        (on + named > 0 || to > at + 1).then_some((i32::try_from(n).ok()?, to.min(self.t.len())))
    }

    /// What is danced as it was before words that change something: up to which count, and where the new steps begin.
    fn kept(&self, from: usize, to: usize) -> (Option<i32>, usize) {
        for k in from..to {
            if let Some((n, end)) = self.count_told(k) {
                // "Touch on count 8" tells it behind the step.
                return (Some(n - 1), if self.dances(from, k) { from } else { end });
            }
            if self.is(k, W::Last) && self.is(k + 1, W::Count) {
                return (Some(-1), from);
            }
        }
        (None, from)
    }

    /// The count up to which it is danced: "as section 1 up to count 6".
    fn up_to(&self, from: usize, to: usize) -> Option<i32> {
        let k = (from..to.min(from + 4))
            .find(|k| self.is(*k, W::To) || self.among(*k, among!["until", "till"]))?;
        match self.t.get(k + 1 + usize::from(self.is(k + 1, W::Count)))?.kind {
            Kind::Number(n) => i32::try_from(n).ok(),
            _ => None,
        }
    }

    /// Whether words behind such an opening tell something to do, rather than how: "with the right foot rocking".
    fn dances_else(&self, from: usize, to: usize) -> bool {
        let turns =
            |k: usize| matches!(self.t[k].kind, Kind::Fraction(_) | Kind::W(W::Quarter | W::Half | W::Turn));
        if (from..to).any(turns) {
            return true;
        }
        self.tells(from, to)
    }

    /// Whether a clause tells steps, rather than how they are danced: "with the right foot rocking".
    fn tells(&self, from: usize, to: usize) -> bool {
        let with = (from..to).any(|k| self.is(k, W::With)) && (from..to).any(|k| self.foot(k).is_some());
        let how = with && self.word(to - 1).ends_with("ing");
        self.dances(from, if how { to - 1 } else { to })
    }

    /// Whether a word says that the feet change places.
    fn swaps(&self, k: usize) -> bool {
        let word = self.word(k);
        word.starts_with(['m', 's', 'r', 'o', 'i', 'M', 'S', 'R', 'O', 'I'])
            && SWAPS.iter().any(|w| begins_with(word, w))
    }

    /// Whether "other" at a token speaks of feet or sides.
    fn mirrors(&self, k: usize) -> bool {
        let noun = |k: usize| {
            matches!(self.t.get(k).map(|t| t.kind), Some(Kind::W(W::Foot | W::Feet | W::Side | W::Footwork)))
                || self.among(k, among!["way", "leg", "legs", "direction", "hand"])
        };
        self.swaps(k) || self.is(k, W::Other) && (noun(k + 1) || noun(k + 2))
    }

    /// What a clause says of the feet.
    fn differences(&self, from: usize, to: usize, out: &mut Pointer, toward: &mut Option<Foot>) {
        let sides: Vec<(usize, Foot)> = (from..to).filter_map(|k| Some((k, self.foot(k)?))).collect();
        out.mirrored |= (from..to).any(|k| self.mirrors(k));
        let same = (from..to).any(|k| self.is(k, W::Same))
            && (from..to).any(|k| self.is(k, W::Feet) || self.is(k, W::Foot));
        out.same |= same;
        // "Right is left and left is right", "left instead of right", "L/R"
        if sides.iter().any(|s| s.1 == Foot::Right) && sides.iter().any(|s| s.1 == Foot::Left) {
            out.mirrored = true;
            return;
        }
        self.led(from, to, out, false);
        if let Some((k, foot)) = sides.first()
            && toward.is_none()
            && out.told == 0
        {
            let way = (from..*k)
                .rev()
                .take(2)
                .any(|k| self.is(k, W::To) || self.among(k, among!["going", "moving"]));
            let alone = sides.len() == 1 && to - from <= 3;
            if way || alone || self.is(k + 1, W::Side) {
                *toward = Some(*foot);
            }
        }
    }

    /// The foot that is said to lead: "starting L", "left foot first", "with the right"; among steps only outright.
    fn led(&self, from: usize, to: usize, out: &mut Pointer, outright: bool) {
        for k in from..to {
            let Some(foot) = self.foot(k) else { continue };
            let noun = usize::from(self.is(k + 1, W::Foot) || self.is(k + 1, W::Feet));
            let leads =
                |k: usize| ["start", "begin", "lead", "commenc"].iter().any(|w| begins_with(self.word(k), w));
            let behind = k + 1 + noun;
            let first = behind < to && (self.is(behind, W::First) || leads(behind));
            let small = |k: &usize| matches!(self.t[*k].kind, Kind::W(W::The | W::On | W::With | W::To));
            let before = (from..k)
                .rev()
                .find(|k| !small(k) || self.is(*k, W::With) && !outright || self.is(*k, W::On) && !outright);
            let said = before.is_some_and(|k| leads(k) || self.is(k, W::With) || self.is(k, W::On));
            if (first || said) && out.lead.is_none() {
                out.lead = Some(foot);
            }
        }
    }
}

#[cfg(test)]
mod tests;
