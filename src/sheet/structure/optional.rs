//! What may be danced instead: easier, harder or styled steps under a section, told as a choice.

use super::wording::doing;
use super::{Kind, Reading, Token, W, acts};
use crate::sheet::counts::Mark;
use crate::text::{Among, among};

/// How far from the beginning of a line stands who may do something.
const NEAR: usize = 9;

/// How many lines back the last count is looked for.
const FAR: usize = 40;

/// How many lines may stand under such a heading.
const BELOW: usize = 8;

/// How many words the heading over such steps may have.
const SHORT: u32 = 8;

impl Reading<'_> {
    /// Whether a line only tells what may be danced instead of steps above it.
    pub(super) fn optional(&self, i: usize) -> bool {
        let line = &self.lines[i];
        let t = &line.tokens[line.first.min(line.tokens.len())..];
        let mark = if self.lead[i] { line.led(self.text) } else { None };
        let Some(m) = mark else { return choice(self.text, t) || self.under_choice(i, 1) };
        // "5-8 option: ..."; counts that are not danced yet are no choice.
        let rest = &line.tokens[m.to.min(line.tokens.len())..];
        let again = self.danced(i).is_some_and(|last| m.first() <= last);
        again && (announced(rest) || choice(self.text, rest)) || self.under_choice(i, m.first())
    }

    /// The last count of the lines above.
    fn danced(&self, i: usize) -> Option<i32> {
        (i.saturating_sub(FAR)..i)
            .rev()
            .find(|j| self.lead[*j])
            .and_then(|j| self.lines[j].led(self.text))
            .map(Mark::last)
    }

    /// Whether a line stands right under a line that says no more than that what comes is a choice: "EASY OPTION".
    fn under_choice(&self, i: usize, first: i32) -> bool {
        let numbered = self.labels[i].as_ref().is_some_and(|l| l.number.is_some() || l.letter.is_some());
        if numbered || self.lines[i].after_gap {
            return false;
        }
        for j in (i.saturating_sub(BELOW)..i).rev() {
            let line = &self.lines[j];
            let t = &line.tokens[line.first.min(line.tokens.len())..];
            let bare = line.words <= SHORT && t.iter().any(|t| t.is(W::Option)) && !doing(t);
            if bare && !self.lead[j] {
                // Counts that go on behind those above are danced.
                return self.danced(j).is_some_and(|last| first <= last);
            }
            if line.after_gap {
                return false;
            }
        }
        false
    }
}

/// "Option: ...", "or: ..." behind counts.
fn announced(t: &[Token]) -> bool {
    let colon = t.iter().take(4).position(|t| t.sign(':'));
    t.first().is_some_and(|t| t.is(W::Option) || t.is(W::Or)) && colon.is_some()
}

/// Whether words leave it to the dancer, before they tell steps: "Option: ...", "you may also ...", "advanced dancers
/// can try ...", "it is not obligatory: ...".
fn choice(text: &str, t: &[Token]) -> bool {
    let is = |k: usize, words: &Among| t.get(k).is_some_and(|t| t.span.is_among(text, words));
    let step = |t: &Token| match t.kind {
        Kind::Name(_) | Kind::Feet => true,
        Kind::W(w) => acts(w) && !matches!(w, W::Turn | W::Step) || matches!(w, W::R | W::L | W::RF | W::LF),
        _ => false,
    };
    let steps = t.iter().position(step).unwrap_or(t.len());
    // Up to a colon the words may name the steps that are replaced.
    let head = t.iter().position(|t| t.sign(':')).map_or(steps, |k| k.max(steps));
    let named = t[..head.min(steps + NEAR)].iter().position(|t| t.is(W::Option));
    if named.is_some_and(|k| k <= steps && k < NEAR) && !t.iter().any(|t| t.is(W::Wall)) {
        return true;
    }
    let free =
        among!["sometimes", "obligatory", "compulsory", "required", "necessary", "optional", "possible"];
    if (0..head.min(2 * NEAR)).any(|k| is(k, free)) {
        return true;
    }
    // "Or: ...", "feel free to ...", "for those who ..."
    let people = |to: usize| (0..to.min(steps)).any(|k| is(k, PEOPLE));
    if t.first().is_some_and(|t| t.is(W::Or))
        || is(0, among!["feel"]) && is(1, among!["free"])
        || t.first().is_some_and(|t| t.is(W::For)) && people(4)
    {
        return true;
    }
    // "If the pivots make you dizzy, you can leave them out."
    let sentence = t.iter().position(|t| matches!(t.kind, Kind::Sign('.' | ':'))).unwrap_or(t.len());
    let wished = people(4) && (0..steps.min(NEAR)).any(|k| is(k, OTHERWISE) && k > 0);
    if is(0, among!["if"]) && (wished || (0..sentence).any(|k| is(k, MODALS))) {
        return true;
    }
    // "You may", "who likes it faster can", "beginners could"
    let Some(modal) = (0..steps.min(NEAR)).find(|k| is(*k, MODALS)) else { return false };
    let count = (0..modal).any(|k| t[k].is(W::Count));
    let other = (0..t.len()).any(|k| is(k, OTHERWISE));
    (people(modal) || count) && (other || is(modal, among!["may", "might", "could"]))
}

/// Words that allow something.
const MODALS: &Among = among!["can", "may", "might", "could"];

/// Whom they allow it.
const PEOPLE: &Among = among![
    "anybody",
    "anyone",
    "beginners",
    "dancer",
    "dancers",
    "everybody",
    "everyone",
    "improvers",
    "one",
    "ones",
    "others",
    "people",
    "some",
    "they",
    "those",
    "turners",
    "we",
    "who",
    "whoever",
    "you",
];

/// What shows that it is something else than what is written.
const OTHERWISE: &Among = among![
    "also",
    "alternatively",
    "change",
    "feel",
    "if",
    "instead",
    "leave",
    "like",
    "likes",
    "place",
    "prefer",
    "prefers",
    "replace",
    "substitute",
    "swap",
    "try",
    "wish",
];

#[cfg(test)]
mod tests {
    use super::choice;
    use crate::sheet::vocabulary::Vocabulary;
    use crate::sheet::words::tokens;

    #[track_caller]
    fn check(words: &str, expected: bool) {
        assert_eq!(choice(words, &tokens(words, 0..words.len(), &Vocabulary::new())), expected, "{words}");
    }

    #[test]
    fn knows_what_is_left_to_the_dancer() {
        check("Option for 1-4: rock R forward, recover L", true);
        check("No-turn option: rock R forward, recover L", true);
        check("You may walk R, L instead", true);
        check("Advanced dancers can try a spiral on 1-4: step R forward (1)", true);
        check("If the pivots make you dizzy, you can leave them out", true);
        check("Counts 3-4 may be danced as two walks", true);
        check("Or: sway slowly R, L", true);
        check("For those who hate turns: walk R, L", true);
        check("Feel free to add a stomp", true);
        check("If you prefer, bump R, L", true);
        check("It is not obligatory: look right on 5", true);
        check("Step R to side, touch L beside R", false);
        check("Step R to side (you may clap)", false);
        check("Now you can walk R, L", false);
        check("Rock R, recover L, option: clap", false);
    }
}
