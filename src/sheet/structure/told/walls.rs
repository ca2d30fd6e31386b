//! Repetitions of the dance by their numbers: "after walls 2 and 5", "the third time through", "before wall 3".

use super::super::{Kind, W};
use super::phrases::Words;
use crate::text::{Among, among};

/// Repetitions that words name, and whether what is told comes before the first of them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Walls {
    pub walls: Vec<u32>,
    /// "After wall 2", "between walls 2 and 3", "before wall 3": what is told comes when the repetition is over.
    pub over: bool,
}

/// Words that tell that a repetition is over.
const OVER: &Among = among![
    "danced",
    "done",
    "through",
    "gone",
    "been",
    "after",
    "aft",
    "finished",
    "completed",
    "end",
    "ends",
    "ending",
    "close",
    "finish",
    "finishing",
    "behind",
];

/// Words that count the repetitions, or other things.
const TIMES: &Among = among!["time", "times", "through"];

impl Words<'_> {
    /// Repetitions that are named from token `k` on.
    pub(super) fn walls(&self, k: usize) -> Option<(Walls, usize)> {
        // Signs, turns and hours begin no wall.
        if matches!(self.t.get(k)?.kind, Kind::Sign(_) | Kind::Fraction(_) | Kind::Feet | Kind::Clock(_)) {
            return None;
        }
        let over = || self.led_by(k, 6, OVER);
        let made = |walls: Vec<u32>, to: usize| {
            let between = self.led_by(k, 3, among!["between"]);
            let before = self.led_by(k, 4, among!["before", "between"]);
            // "When wall four is finished", "wall 2 to the end", "wall 5 ends", "wall 2: at the end add ..."
            let from = to + usize::from(self.sign(to, &[':', ',']));
            let small =
                among!["is", "are", "has", "have", "been", "was", "to", "at", "the", "all", "way", "right"];
            let behind = self.skip(from, small);
            let done = among![
                "finished",
                "done",
                "over",
                "complete",
                "completed",
                "end",
                "ends",
                "finishes",
                "through",
                "followed",
                "ready",
                "finish",
            ];
            let finished = behind <= to + 4 && self.is(behind, done) && !self.is(behind + 1, among!["of"]);
            let over = before || over() || finished;
            let walls = if between { walls[..1].to_vec() } else { walls };
            let sooner = before && !between;
            let walls = walls.into_iter().map(|n| n - u32::from(sooner && n > 1)).collect();
            Some((Walls { walls, over }, to))
        };
        // "Wall 2", "walls no. 2, 5 and 6", "W2 & W5"
        let glued = self.is(k, among!["w"]) && self.t.get(k + 1).is_some_and(|t| t.gap == 0);
        if self.repetition(k) && !self.is(k, TIMES) || glued {
            let from = self.numbered(k + 1);
            if let Some((walls, to)) = self.wall_list(from) {
                return made(walls, to);
            }
        }
        // "The 3rd and the 6th wall", "the third time through"
        let mut walls = Vec::new();
        let mut at = k;
        while let Some((n, to)) = self.ordinal(at) {
            walls.push(n);
            at = self.skip(
                to,
                among![
                    "and", "&", "+", "the", "after", "on", "in", "at", "again", "of", "end", "also", "once"
                ],
            );
            if self.sign(at, &[',', '/']) {
                at = self.skip(at + 1, among!["and", "the"]);
            }
            // "The first time and the second time" count the extras, where walls were named.
            let through = self.is(to + 1, among!["through", "around", "round"]);
            if self.repetition(to) && (through || !self.named || !self.is(to, TIMES)) {
                let to = self.skip(to + 1, among!["through", "around", "round"]);
                // "... and again at the end of the fifth"
                let next = self.skip(to, among!["and", "again", "at", "the", "end", "of", "after"]);
                let noun = |k: usize| {
                    self.t.get(k).is_some_and(|t| {
                        matches!(
                            t.kind,
                            Kind::W(W::Count | W::Section | W::Set | W::Step | W::Wall | W::Times)
                        )
                    })
                };
                return match self.ordinal(next).filter(|(_, end)| self.is(to, among!["and"]) && !noun(*end)) {
                    Some((n, end)) => {
                        walls.push(n);
                        made(walls, end)
                    }
                    None => made(walls, to),
                };
            }
        }
        // "After two walls", "when you have danced it three times", "3x the dance"
        if let Some((n @ 1..=32, to)) = self.cardinal(k)
            && self.repetition(to)
            && over()
            && !(k > 0 && self.is(k - 1, among!["to", "has", "on", "in", "of", "into"]))
            && (n > 1 || !self.is(to, TIMES))
        {
            return made(vec![n], self.skip(to + 1, among!["through", "around", "round"]));
        }
        if self.w(k, W::Twice) && over() {
            return made(vec![2], k + 1);
        }
        if let Some(Kind::Times(n)) = self.t.get(k).map(|t| t.kind)
            && self.is(k + 1, among!["dance", "danced", "walls", "wall"])
        {
            return made(vec![n], k + 2);
        }
        None
    }

    /// Where the number of a wall stands: "wall no. 2", "wall # 2", "wall (2)".
    fn numbered(&self, k: usize) -> usize {
        let to = self.skip(k, among!["no", "nr", "number", "num", "nos"]);
        let to = to + usize::from(to > k && self.sign(to, &['.']));
        to + usize::from(self.sign(to, &['#', ':', '(', '-']))
    }

    /// Numbers of walls: "2", "2, 5 & 6", "2 and again on wall 5", "Three".
    fn wall_list(&self, from: usize) -> Option<(Vec<u32>, usize)> {
        let one =
            |k: usize| self.cardinal(k).or_else(|| self.ordinal(k)).filter(|(n, _)| (1..=64).contains(n));
        let (n, mut to) = one(from)?;
        if self.w(to, W::OClock) || self.section(to) || self.counts(to) {
            return None;
        }
        let mut walls = vec![n];
        loop {
            let mut at = to;
            at += usize::from(self.sign(at, &[',', '/', ';', '+', '&']));
            at = self.skip(at, among!["and", "&", "+", "or", "again", "the"]);
            if self.repetition(at) || self.is(at, among!["w"]) {
                at = self.numbered(at + 1);
            }
            let Some((n, end)) = one(at).filter(|_| at > to) else { break };
            // "Wall 3, 16 counts", "wall 2, 6 o'clock"
            let more = self.w(end, W::More) || self.is(end, among!["extra"]);
            let gap = self.t[at].gap == 0 && self.sign(at - 1, &['.', '-']);
            if self.counts(end)
                || self.w(end, W::OClock)
                || self.section(end)
                || self.sign(end, &['-'])
                || more
                || gap
                || walls.last().is_none_or(|last| n <= *last)
                || !self.line_ends(end)
                    && matches!(self.t.get(end).map(|t| t.kind), Some(Kind::W(w)) if super::super::acts(w))
                || matches!(self.t.get(end).map(|t| t.kind), Some(Kind::Times(_) | Kind::Clock(_)))
            {
                break;
            }
            walls.push(n);
            to = end;
        }
        Some((walls, to))
    }

    /// Whether a line of the text ends before token `k`.
    fn line_ends(&self, k: usize) -> bool {
        let (Some(before), Some(here)) = (self.t.get(k.wrapping_sub(1)), self.t.get(k)) else { return true };
        let between = before.span.end as usize..here.span.start as usize;
        self.text.get(between).is_some_and(|gap| gap.contains('\n'))
    }

    /// "... and again after the fifth", "and 5 (9:00)": one more repetition, where one was named.
    pub(super) fn another(&self, k: usize) -> Option<(Walls, usize)> {
        if !(self.is(k, among!["and", "&", "+", "again", "once", "then"]) || self.sign(k, &[',', '/'])) {
            return None;
        }
        let at = self.skip(
            k + 1,
            among![
                "and", "again", "once", "more", "after", "on", "in", "during", "at", "the", "end", "of",
                "for", "then",
            ],
        );
        let (n, to) = self.ordinal(at).or_else(|| self.cardinal(at)).filter(|(n, _)| (1..=64).contains(n))?;
        let ends = self.t.get(to).is_none_or(|t| {
            matches!(t.kind, Kind::Sign(c) if c != '-' && c != ':' || t.gap > 0 && c == '-')
                || matches!(t.kind, Kind::W(W::Face | W::At | W::After | W::While))
        });
        ends.then_some((Walls { walls: vec![n], over: false }, to))
    }
}
