//! Words with what stands before them, and the small phrases of which others are made.

use super::super::{Kind, Token, W};
use crate::floor::Heading;
use crate::sheet::beside::{begins, wall_named};
use crate::sheet::counts::counts_behind;
use crate::sheet::head::number;
use crate::sheet::mentions::{section_word, wall_word};
use crate::sheet::numbers::{ordinal, value};
use crate::text::{Among, among};

/// Tokens with the text that they stand in.
#[derive(Clone, Copy)]
pub(super) struct Words<'t> {
    pub text: &'t str,
    pub t: &'t [Token],
    /// Where the phrase before ends: words before it say nothing of this one.
    pub since: usize,
    /// Whether repetitions were named before.
    pub named: bool,
}

impl Words<'_> {
    pub(super) fn is(&self, k: usize, words: &Among) -> bool {
        self.t.get(k).is_some_and(|t| t.span.is_among(self.text, words))
    }

    pub(super) fn w(&self, k: usize, w: W) -> bool {
        self.t.get(k).is_some_and(|t| t.is(w))
    }

    pub(super) fn sign(&self, k: usize, signs: &[char]) -> bool {
        matches!(self.t.get(k).map(|t| t.kind), Some(Kind::Sign(c)) if signs.contains(&c))
    }

    /// A number in digits or words, and where it ends.
    pub(super) fn cardinal(&self, k: usize) -> Option<(u32, usize)> {
        let t = self.t.get(k)?;
        if t.is(W::The) && self.is(k, among!["one"]) {
            return Some((1, k + 1));
        }
        if !matches!(t.kind, Kind::Number(_) | Kind::W(_)) || ordinal(t) {
            return None;
        }
        number(self.t, k).map(|(n, len)| (n, k + len))
    }

    /// "Third", "3rd", "3.", "3e", and where it ends.
    pub(super) fn ordinal(&self, k: usize) -> Option<(u32, usize)> {
        let t = self.t.get(k)?;
        if ordinal(t) {
            return value(t).map(|n| (n, k + 1));
        }
        let Kind::Number(n @ 1..=64) = t.kind else { return None };
        let ends = among!["e", "er", "re", "eme", "ème", "de", "ste", "te", "th", "st", "nd", "rd", "ª"];
        let next = self.t.get(k + 1)?;
        let glued =
            next.gap == 0 && (matches!(next.kind, Kind::Sign('.' | '°' | 'ª')) || self.is(k + 1, ends));
        glued.then_some((n, k + 2))
    }

    /// A word for a repetition of the dance.
    pub(super) fn repetition(&self, k: usize) -> bool {
        self.t
            .get(k)
            .is_some_and(|t| t.is(W::Wall) || wall_word(self.text, t) && !self.is(k, among!["w", "go"]))
    }

    pub(super) fn counts(&self, k: usize) -> bool {
        self.t.get(k).is_some_and(|t| {
            counts_behind(self.text, t)
                || self.is(k, among!["c"]) && (k + 1 == self.t.len() || self.sign(k + 1, &['.', ')', ',']))
        })
    }

    pub(super) fn section(&self, k: usize) -> bool {
        self.t.get(k).is_some_and(|t| {
            // "S2", "S.2"
            let numbered = |n: &Token| matches!(n.kind, Kind::Number(_)) && n.gap == 0 || n.sign('.');
            section_word(self.text, t)
                && (t.span.range().len() > 1 || self.t.get(k + 1).is_some_and(numbered))
        })
    }

    /// Small words that lead to a name: "at the end of the".
    pub(super) fn article(&self, k: usize) -> bool {
        self.is(k, among!["the", "a", "of", "your", "our", "this", "that"])
    }

    pub(super) fn skip(&self, mut k: usize, words: &Among) -> usize {
        while self.is(k, words) {
            k += 1;
        }
        k
    }

    /// The words before `k`, nearest first, up to a sign that parts sentences.
    pub(super) fn led_by(&self, k: usize, far: usize, words: &Among) -> bool {
        (k.saturating_sub(far).max(self.since)..k)
            .rev()
            .take_while(|j| !self.sign(*j, &['.', '!', '?', '\n', ';', ':', '(', ')', ',']))
            .any(|j| self.is(j, words))
    }

    /// The clock or wall that one faces, and where its words end.
    pub(super) fn facing(&self, k: usize) -> Option<(Heading, usize)> {
        let t = self.t.get(k)?;
        if let Kind::Clock(h) = t.kind {
            return Some((h, k + 1));
        }
        if let Kind::Number(n @ 1..=12) = t.kind {
            let hours = self.w(k + 1, W::OClock)
                || self
                    .t
                    .get(k + 1)
                    .is_some_and(|t| t.gap == 0 && t.span.of(self.text).eq_ignore_ascii_case("h"));
            let minutes = self.sign(k + 1, &['.'])
                && self.t.get(k + 2).is_some_and(|t| t.gap == 0 && t.span.of(self.text) == "00");
            let h = Heading::new(i32::try_from(n * 4).ok()?);
            if hours {
                return Some((h, k + 2));
            }
            if minutes {
                return Some((h, k + 3));
            }
            let face = |j: usize| self.w(j, W::Face) || self.is(j, among!["fcg"]);
            let led = k > 0
                && (face(k - 1) || self.sign(k - 1, &['@']) || k > 1 && self.article(k - 1) && face(k - 2));
            if led && n % 3 == 0 && !self.counts(k + 1) {
                return Some((h, k + 1));
            }
        }
        if let Some(found) = wall_named(self.text, self.t, k) {
            return Some(found);
        }
        // "The back of the hall", "facing front"
        let side = match t.kind {
            Kind::W(W::Back) => 24,
            Kind::W(W::Front) => 0,
            _ => return None,
        };
        let hall =
            self.w(k + 1, W::Of) && self.is(k + 2, among!["the"]) && self.is(k + 3, among!["hall", "room"]);
        let led = k > 0 && self.w(k - 1, W::Face);
        let the =
            k > 1 && self.is(k - 1, among!["the"]) && (self.is(k - 2, among!["at", "to", "facing", "in"]));
        let ends = self.t.get(k + 1).is_none_or(|t| matches!(t.kind, Kind::Sign(_)) || t.is(W::And));
        if hall {
            return Some((Heading::new(side), k + 4));
        }
        ((led || the) && ends).then_some((Heading::new(side), k + 1))
    }

    /// Whether word `k` says that something begins.
    pub(super) fn begins(&self, k: usize) -> bool {
        begins(self.text, &self.t[k])
    }
}
