//! Which line speaks of a tag, a restart or an ending.

use super::added;
use super::wording::{begins_again, from_the_top, has, inline_start, names_wall};
use super::{Kind, Label, Reading, Token, Topic, W, acts};
use crate::sheet::numbers::value;
use crate::text::{among, lower};

/// So many lines below its sign a note is looked for.
const NOTE_NEAR: usize = 120;

/// "The third time through": a repetition is named.
pub(super) fn nth_time(t: &[Token]) -> bool {
    t.windows(2).any(|w| value(&w[0]).is_some() && w[1].is(W::Times))
}

impl Reading<'_> {
    pub(super) fn keyword(&self, i: usize) -> Option<Topic> {
        let line = &self.lines[i];
        if line.told.is_some() {
            return None;
        }
        let from =
            self.labels[i].as_ref().filter(|l| l.certain).map_or(line.first, |l| l.to.min(line.tokens.len()));
        let t = &line.tokens;
        let early = &t[from.min(t.len())..(from + 4).min(t.len())];
        if early.iter().take(3).any(|t| t.is(W::Tag)) && !has(early, W::No) {
            return Some(Topic::Tag);
        }
        if early.iter().take(3).any(|t| t.is(W::Restart)) && !has(early, W::No) {
            return Some(Topic::Restart);
        }
        if self.closing(t, from) {
            return Some(Topic::Ending);
        }
        // "R1: W2, after 32 counts restart" under steps with "(R1)": a sign of the writer's own, not a section.
        let sign = |l: &Label| match l.letter {
            Some('R') if l.number.is_some() => Some(Topic::Restart),
            Some('T') => Some(Topic::Tag),
            _ => None,
        };
        // So is "T (4)" where the order of the parts has a T.
        let ordered = || {
            let tags = |(line, order): (&crate::sheet::lines::Line, &bool)| {
                *order && line.tokens.iter().any(|t| t.span.of(self.text) == "T")
            };
            !self.order[i] && self.lines.iter().zip(&self.order).any(tags)
        };
        if let Some(topic) = self.labels[i].as_ref().and_then(sign)
            && (has(t, W::Wall) || topic == Topic::Tag && ordered())
        {
            return Some(topic);
        }
        if let Some(topic) = self.footnote(i) {
            return Some(topic);
        }
        if self.labels[i].as_ref().is_some_and(|l| l.certain) {
            return None;
        }
        if has(t, W::No) && (has(t, W::Tag) || has(t, W::Restart)) && !names_wall(t) {
            return None;
        }
        let wall = || {
            has(t, W::Wall)
                || (0..t.len()).any(|k| {
                    // "The third time", "round 2"; not "this time" or "start round again".
                    let is = |word: &str| t[k].span.of(self.text).eq_ignore_ascii_case(word);
                    (is("round") || is("time"))
                        && (k > 0 && value(&t[k - 1]).is_some()
                            || t.get(k + 1).is_some_and(|t| value(t).is_some()))
                })
        };
        // "the song has four spare beats after wall 3 and again after wall 6: sway R, ..."
        let spare = |k: usize| {
            t[k].is(W::Count)
                && k > 0
                && (t[k - 1].is(W::More)
                    || t[k - 1].span.is_among(self.text, among!["spare", "extra", "additional"])
                    || t.get(k + 1).is_some_and(|t| self.left_over(t))
                    || t.get(k + 1).is_some_and(|t| t.is(W::To))
                        && t.get(k + 2).is_some_and(|t| self.left_over(t)))
        };
        let around = has(t, W::After) || has(t, W::Before);
        if has(t, W::Wall) && around && !self.lead[i] && (0..t.len()).any(spare) {
            return Some(Topic::Tag);
        }
        // "EXTRA BIT (V-step, 4 counts) after wall 2, ... then start over"
        let more = |t: &Token| t.span.is_among(self.text, among!["extra", "extras", "bonus", "added"]);
        if (has(t, W::Tag) || early.iter().take(2).any(more) && around) && !self.lead[i] && wall() {
            return Some(Topic::Tag);
        }
        // "+6 after wall 3 (facing 6): basic fwd, basic bk"
        let plus = |k: usize| {
            t.get(k).is_some_and(|t| t.span.of(self.text) == "+")
                && matches!(t.get(k + 1).map(|t| t.kind), Some(Kind::Number(_)))
        };
        if plus(line.first) && has(t, W::Wall) && around && !self.lead[i] {
            return Some(Topic::Tag);
        }
        if !self.lead[i] && added::told(self.text, t) {
            return Some(Topic::Tag);
        }
        // "At the end of the 3rd wall stomp R, stomp L = 2 extra, then carry on from the top"
        let extra = t.iter().any(|t| t.span.of(self.text).eq_ignore_ascii_case("extra"));
        if extra && has(t, W::Wall) && has(t, W::End) && !has(t, W::Restart) && !self.lead[i] {
            return Some(Topic::Tag);
        }
        // "On the third wall do only part 1, with a clap on 8, and begin again": its counts are told of a wall.
        let of_wall = has(early, W::Wall)
            && early.iter().any(|t| value(t).is_some())
            && (has(t, W::Restart) || begins_again(self.text, t));
        // "EXTRA BIT (6) at the end of walls 2 and 4"
        if has(t, W::Wall)
            && (has(t, W::End) || early.iter().any(|t| t.is(W::After)))
            && !self.lead[i]
            && t.iter().any(|t| matches!(lower(t.span.of(self.text)).as_str(), "extra" | "add" | "added"))
        {
            return Some(Topic::Tag);
        }
        let again = !self.lead[i] && (!self.behind[i] || of_wall);
        if again && (has(t, W::Restart) || from_the_top(self.text, t)) && wall() {
            return Some(Topic::Restart);
        }
        // "After the 3rd wall (9 o'clock): sway R, L, R, L"
        let colon = t.iter().position(|t| t.sign(':'));
        let told = colon.is_some_and(|k| {
            has(&t[..k], W::Wall) && t[k..].iter().any(|t| matches!(t.kind, Kind::W(w) if acts(w)))
        });
        if told && !self.lead[i] && early.first().is_some_and(|t| t.is(W::After)) {
            return Some(Topic::Tag);
        }
        if self.added(i, early) {
            return Some(Topic::Tag);
        }
        if (has(t, W::Restart) || has(t, W::Tag)) && !self.lead[i] && !self.behind[i] {
            // A bare mark in the body: "*** RESTART ***".
            let topic = if has(t, W::Tag) { Topic::Tag } else { Topic::Restart };
            return Some(topic);
        }
        None
    }

    /// "Six beats left over", "six beats to fill": counts that the dance does not have.
    fn left_over(&self, t: &Token) -> bool {
        t.span.is_among(self.text, among!["spare", "extra", "over", "fill", "add", "kill", "bridge"])
    }

    /// "#2 wall 4: see below" among the steps and "#2 Wall 4 begins at 6:00. Dance sections 1 to 3 ..., restart" at the
    /// foot: the sign of a note and the note.
    fn footnote(&self, i: usize) -> Option<Topic> {
        let number = |i: usize| {
            let line = self.lines.get(i)?;
            let sign = line.first > 0 && line.tokens[line.first - 1].sign('#');
            let wall = line.tokens.iter().skip(line.first).take(4).any(|t| t.is(W::Wall));
            self.labels[i].as_ref().filter(|l| sign && wall && l.letter.is_none())?.number
        };
        let topic = |i: usize| {
            let t = &self.lines[i].tokens;
            if has(t, W::Restart) || begins_again(self.text, t) {
                Some(Topic::Restart)
            } else {
                has(t, W::Tag).then_some(Topic::Tag)
            }
        };
        let n = number(i)?;
        let mut same = (i + 1..self.lines.len()).take(NOTE_NEAR).filter(|k| number(*k) == Some(n));
        topic(i).or_else(|| same.find_map(topic))
    }

    /// "End of wall 3, facing 9:00: one V-step": steps that are told of the end of a wall are added there.
    fn added(&self, i: usize, early: &[Token]) -> bool {
        let t = &self.lines[i].tokens;
        let ends = early.iter().take(3).any(|t| matches!(t.kind, Kind::W(W::End | W::After)));
        let wall = t.iter().take(8).position(|t| t.is(W::Wall));
        let number = |k: usize| t.get(k).is_some_and(|t| value(t).is_some());
        let named = wall.is_some_and(|k| number(k + 1) || k > 0 && number(k - 1));
        ends && named
            && !self.lead[i]
            && !has(t, W::Restart)
            && !from_the_top(self.text, t)
            && inline_start(self.text, t).is_some()
    }

    /// "Ending:", "Big finish", "To end:", "Final wall", at the beginning of a line.
    fn closing(&self, t: &[Token], from: usize) -> bool {
        let leads = |t: &Token| {
            matches!(t.kind, Kind::W(W::The | W::To | W::For | W::Long | W::Option))
                || t.span.is_among(self.text, among!["grand", "suggested", "possible"])
        };
        let lead = t[from.min(t.len())..].iter().take(2).take_while(|t| leads(t)).count();
        let at = from + lead;
        let Some(first) = t.get(at) else { return false };
        let word = lower(first.span.of(self.text));
        if !first.is(W::End) && !matches!(word.as_str(), "final" | "fin" | "outro" | "coda") {
            return false;
        }
        // "To finish, on 1 step forward" goes on with the dance.
        let to = lead > 0 && t[from].is(W::To);
        match t.get(at + 1).map(|t| t.kind) {
            None => true,
            Some(Kind::Sign(':' | '(' | '-' | '.' | '*' | '!' | '=' | '_' | '[' | ']')) => true,
            Some(Kind::Sign(',')) => !to,
            // "End wall 3: tag" places something.
            Some(Kind::W(W::Wall)) => word != "end" || t.get(at + 2).is_none_or(|t| value(t).is_none()),
            Some(Kind::W(W::Option)) => true,
            _ => false,
        }
    }
}
