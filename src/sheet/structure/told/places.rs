//! Places in the dance and numbers of counts: "after 16 counts", "sections 1 and 2 only", "two extra beats".

use super::super::{Kind, W};
use super::Place;
use super::phrases::Words;
use crate::text::{Among, among};

const OMIT: &Among = among![
    "omit", "omits", "omitting", "skip", "skips", "skipping", "out", "drop", "drops", "miss", "missing",
    "cut", "without", "don't", "dont",
];

impl Words<'_> {
    /// A stretch of counts, "9-16", "1 to 24": its ends.
    fn range(&self, k: usize) -> Option<(u32, u32, usize)> {
        let (a, to) = self.cardinal(k)?;
        if !(self.sign(to, &['-']) || self.is(to, among!["to", "till", "until", "through"])) {
            return None;
        }
        let (b, to) = self.cardinal(to + 1)?;
        (a < b).then_some((a, b, to))
    }

    /// Sections that are named: "section 2", "S1, S2", "sections 1, 2 and 3", "the first two sections": the first, the
    /// last, and the end of the words.
    pub(super) fn sections(&self, k: usize) -> Option<(u32, u32, usize)> {
        if let Some((n, to)) = self.ordinal(k)
            && self.section(to)
        {
            return Some((n, n, to + 1));
        }
        if self.w(k, W::First)
            && let Some((n, to)) = self.cardinal(k + 1)
            && self.section(to)
        {
            return Some((1, n, to + 1));
        }
        if !self.section(k) {
            return None;
        }
        let number = |k: usize| {
            let k = k + usize::from(self.sign(k, &['.', '#']));
            let k = self.skip(k, among!["no", "nr", "number"]);
            self.cardinal(k).or_else(|| self.ordinal(k)).filter(|(n, _)| (1..=24).contains(n))
        };
        let (first, mut to) = number(k + 1)?;
        let mut last = first;
        loop {
            let mut at = to + usize::from(self.sign(to, &[',', '-', '/', '+', '&']));
            at = self.skip(at, among!["and", "&", "+", "to", "plus"]);
            if self.section(at) {
                at += 1;
            }
            let Some((n, end)) = number(at).filter(|_| at > to) else { break };
            if n != last + 1 && !(n > last && self.is(to, among!["to", "-"])) || self.counts(end) {
                break;
            }
            last = n;
            to = end;
        }
        Some((first, last, to))
    }

    /// Sections that are told to come next: "then section 3", "now do section 3 and the rest".
    pub(super) fn next_section(&self, k: usize) -> Option<(u32, usize)> {
        let (first, _, to) = self.sections(k)?;
        let led = self.led_by(k, 4, among!["then", "now", "on", "onto", "with", ">"])
            || k > 0 && self.sign(k - 1, &['>']);
        let to = to + usize::from(self.is(to, among!["and"]) && self.is(to + 1, among!["the"])) * 2;
        let to = self.skip(to, among!["rest", "etc", "as", "normal", "usual", "written", "onwards", "on"]);
        led.then_some((first, to))
    }

    /// What is left out: "omit counts 25-32", "leave out section 4", "don't do the last 8 counts".
    pub(super) fn left_out(&self, k: usize) -> Option<(Place, usize)> {
        if !self.is(k, OMIT) {
            return None;
        }
        let at = self.skip(k + 1, among!["the", "out", "do", "dance", "all", "of", "off"]);
        if let Some((first, _, to)) = self.sections(at) {
            return (first > 1).then_some((Place::Section(first - 1), to));
        }
        let last = usize::from(self.w(at, W::Last));
        let from = at + usize::from(self.counts(at)) + last;
        if last > 0 {
            if self.section(from) {
                return Some((Place::SectionsLeft(1), from + 1));
            }
            let (n, to) = self.cardinal(from)?;
            if self.section(to) {
                return Some((Place::SectionsLeft(n), to + 1));
            }
            return Some((Place::Left(n), to + usize::from(self.counts(to))));
        }
        let (a, _, to) = self.range(from)?;
        (a > 1).then_some((Place::Counts(a - 1), to + usize::from(self.counts(to))))
    }

    /// A place in the dance: "after 16 counts", "count 16", "the end of section 2", "between sections 2 and 3".
    pub(super) fn place(&self, k: usize) -> Option<(Place, usize)> {
        if let Some((first, last, to)) = self.sections(k) {
            let before = self.led_by(k, 4, among!["before"]);
            if before || self.led_by(k, 3, among!["between"]) {
                let n = if before { first.checked_sub(1).filter(|n| *n > 0)? } else { first };
                return Some((Place::Section(n), to));
            }
            return Some((Place::Section(last), to));
        }
        // "Count 16", "counts 1-16", "number 16"
        let led =
            self.counts(k) && self.t[k].gap > 0 || self.counts(k) && k == 0 || self.is(k, among!["number"]);
        if led {
            let k = k + 1;
            if let Some((a, b, to)) = self.range(k) {
                return (a == 1 && !self.sign(to, &['=', ':'])).then_some((Place::Counts(b), to));
            }
            let (n, to) = self.cardinal(k)?;
            let run = self.sign(to, &[',', '/', '&']) || self.is(to, among!["and", "&"]);
            let more = run && self.cardinal(to + 1).is_some();
            return (!more).then_some((Place::Count(n), to));
        }
        if let Some((a, b, to)) = self.range(k)
            && a == 1
            && self.counts(to)
        {
            return Some((Place::Counts(b), to + 1));
        }
        let (n, to) = self.cardinal(k)?;
        let to = to + usize::from(self.w(to, W::First));
        let led = self.led_by(
            k,
            4,
            among![
                "after",
                "aft",
                "to",
                "until",
                "till",
                "do",
                "dance",
                "danced",
                "dances",
                "first",
                "only",
                "stop",
                "stops",
                "following",
                "@",
                "just",
            ],
        );
        // "Restart after 16"
        if !self.counts(to) {
            let after = k > 0 && self.is(k - 1, among!["after", "aft", "dance"]);
            let ends = self.t.get(to).is_none_or(|t| {
                matches!(t.kind, Kind::Sign(_)) || matches!(t.kind, Kind::W(W::Face | W::And | W::Restart))
            });
            return (after && ends && n >= 4).then_some((Place::Counts(n), to));
        }
        let end = to + 1;
        let spare = k > 0 && self.is(k - 1, among!["for", "of", "add", "are"]);
        if self.w(end, W::Tag) || self.sign(to, &['-']) || spare {
            return None;
        }
        let inside = self.is(end, among!["in", "only"]) && !self.is(end + 1, among!["all", "total", "which"]);
        if led || inside {
            return Some((Place::Counts(n), end + usize::from(inside)));
        }
        None
    }

    /// So many counts: "4 counts", "two extra beats", "4-count", "2 more counts".
    pub(super) fn length(&self, k: usize) -> Option<(u32, bool, usize)> {
        let (n, to) = self.cardinal(k)?;
        let small = |k: usize| {
            self.is(
                k,
                among!["extra", "more", "additional", "spare", "added", "further", "other", "full", "whole"],
            ) || self.sign(k, &['-']) && self.t[k].gap == 0
        };
        let mut at = to;
        let mut extra = false;
        while small(at) {
            extra |= !self.sign(at, &['-']);
            at += 1;
        }
        if !self.counts(at) {
            return None;
        }
        at += 1;
        while self.is(at, among!["extra", "more", "longer", "additional", "spare"]) {
            extra = true;
            at += 1;
        }
        Some((n, extra, at))
    }

    /// "One count each", "1 ct per sway", "in all": what says no length of its own.
    pub(super) fn each(&self, k: usize) -> Option<usize> {
        let (_, to) = self.cardinal(k)?;
        let sum = |k: usize| self.is(k, among!["in", "all", "total", "altogether"]);
        if sum(to) && self.is(to + 1, among!["all", "total"]) {
            return Some(to + 2);
        }
        if !self.counts(to) {
            return None;
        }
        let at = to + 1 + usize::from(self.is(to + 1, among!["for", "to"]));
        if self.is(at, among!["each", "every", "apiece", "both"]) {
            return Some(at + 1);
        }
        if self.is(at, among!["per"]) {
            return Some(at + 2);
        }
        None
    }
}
