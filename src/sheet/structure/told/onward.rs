//! Where the dance goes on behind what is added or left out: "carry on with section 3", "start again from the top".

use super::super::W;
use super::phrases::Words;
use super::walls::Walls;
use crate::text::{Among, among};

/// Where the dance goes on: from its beginning, or elsewhere.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Onward {
    /// From the top.
    Again,
    /// With this wall, or where it was left.
    On(Option<u32>),
}

/// Words that only go on and never begin anew.
const FIRM: &Among = among![
    "continue",
    "continues",
    "continuing",
    "cont",
    "resume",
    "resumes",
    "resuming",
    "proceed",
    "proceeds",
    "rejoin",
];

const ONWARD: &Among = among![
    "carry", "carries", "carrying", "pick", "picks", "picking", "go", "goes", "going", "off", "dance", "on",
    "return", "keep",
];

const STARTS: &Among = among![
    "start",
    "starts",
    "starting",
    "begin",
    "begins",
    "beginning",
    "commence",
    "go",
    "goes",
    "going",
    "return",
];

const ANEW: &Among = among![
    "start",
    "starts",
    "starting",
    "begin",
    "begins",
    "beginning",
    "commence",
    "recommence",
    "recommences",
    "go",
    "goes",
    "going",
    "take",
    "back",
    "return",
    "returns",
    "repeat",
    "dance",
    "come",
    "recommencing",
    "straight",
];

impl Words<'_> {
    /// "The top", "section 1", "count 1".
    pub(super) fn beginning(&self, k: usize) -> Option<usize> {
        let k = self.skip(k, among!["the"]);
        if self.is(k, among!["top", "beginning", "start"]) {
            return Some(k + 1);
        }
        if let Some((1, _, to)) = self.sections(k) {
            return Some(to);
        }
        let (n, to) = self.cardinal(k + usize::from(self.counts(k)))?;
        (n == 1).then_some(to)
    }

    /// Where the dance goes on.
    pub(super) fn onward(&self, k: usize) -> Option<(Onward, usize)> {
        let small = among![
            "on",
            "up",
            "straight",
            "back",
            "right",
            "directly",
            "with",
            "from",
            "at",
            "to",
            "into",
            "in",
            "the",
            "dance",
            "as",
            "normal",
            "normally",
            "usual",
            "again",
            "simply",
            "further",
            "along",
            "off",
            "you",
            "we",
            "rest",
            "of",
            "and",
            "dancing",
            "over",
            "it",
            "then",
            "w/",
            "w",
            "out",
            "do",
            "go",
            "all",
            "immediately",
            "a",
            "so",
            "your",
            "this",
            "doing",
            "starting",
            "beginning",
            "anew",
            "afresh",
        ];
        let anew = self.is(k, ANEW);
        let verb = self.is(k, FIRM) || self.is(k, ONWARD);
        // "Sections 1 and 2, then from the top"
        if self.is(k, among!["from"]) {
            let at = self.skip(k + 1, among!["the"]);
            return self.is(at, among!["top", "beginning"]).then_some((Onward::Again, at + 1));
        }
        if !anew && !verb {
            return None;
        }
        let mut at = k + 1;
        let (mut again, mut on, mut from) = (false, false, false);
        while self.is(at, small) {
            if self.is(at, among!["beginning", "starting"]) && from {
                break;
            }
            again |= self.is(at, among!["again", "over", "anew", "afresh"]);
            on |= self.is(at, among!["on", "up", "with", "into", "straight", "further", "off", "dancing"]);
            from = self.is(at, among!["from", "at", "to", "with", "the"])
                && (from || !self.is(at, among!["the"]));
            at += 1;
        }
        // "Start over the left shoulder" begins nothing.
        let firm = self.is(k, FIRM);
        let starts = self.is(k, STARTS);
        let dot = usize::from(self.is(k, among!["cont"]) && self.sign(k + 1, &['.']));
        if dot > 0 && at == k + 1 {
            at = self.skip(k + 2, small);
        }
        let top = self.is(at, among!["top", "beginning", "start", "outset"]);
        if top && (from || self.is(k, among!["repeat"])) && !firm {
            return Some((Onward::Again, at + 1));
        }
        let first = self.counts(at) || self.w(at, W::Count) || self.is(at, among!["number"]);
        let n = self.cardinal(at + usize::from(first));
        if let Some((1, to)) = n
            && from
            && !self.counts(to)
            && !self.repetition(to)
            && (anew || again)
        {
            return Some((Onward::Again, to));
        }
        if let Some((s, _, to)) = self.sections(at) {
            if s == 1 && (again || starts || anew && from) {
                return Some((Onward::Again, to));
            }
            if firm || on || starts {
                let tail = self.skip(
                    to,
                    among!["and", "the", "rest", "as", "written", "normal", "usual", "etc", "of", "dance"],
                );
                return Some((Onward::On(None), tail));
            }
        }
        if let Some((Walls { walls, .. }, to)) = self.walls(at)
            && (firm || on || starts)
        {
            return Some((
                Onward::On(walls.first().copied()),
                self.skip(to, among!["as", "usual", "normal"]),
            ));
        }
        if first
            && let Some((_, to)) = n
            && (firm || on)
        {
            return Some((Onward::On(None), to));
        }
        if again && anew {
            // "Begin the dance again with the right foot"
            return Some((Onward::Again, at));
        }
        (firm || on && self.is(k, among!["carry", "carries", "carrying", "go", "goes", "pick", "keep"]))
            .then_some((Onward::On(None), at))
    }
}
