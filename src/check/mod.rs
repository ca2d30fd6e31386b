//! Dance and sheet in, findings out: what cannot be danced as written, and how to mend it.
//!
//! Each rule has a file with one function and a page beside it; the page is its test. A rule says what is wrong
//! and which changes of the words might help; whether they do is found out by reading the changed sheet again
//! (`mend.rs`). A remark in the sheet keeps a rule quiet (`silences_nothing.rs`). Knows nothing of drawing or scores.

mod clock_differs;
mod clocks;
mod close_without_weight;
mod count_missing;
mod count_twice;
mod count_without_step;
mod counting;
mod counts_unclear;
mod edits;
mod end_on_wrong_foot;
mod feet_differ;
mod feet_overlap;
mod finding;
mod flow;
mod hips_turned;
mod legs_crossed;
mod mend;
mod misspelt;
mod moves_far;
mod name_differs;
mod not_understood;
mod pivot_wrong_way;
mod repeat_on_wrong_foot;
mod restart_counts_differ;
mod restart_facing_differs;
mod restart_on_wrong_foot;
mod silences_nothing;
mod start_foot_differs;
mod step_too_long;
mod strain;
mod subject;
mod support_too_long;
mod tag_facing_differs;
mod tag_on_wrong_foot;
mod total_differs;
mod turn_differs;
mod turn_too_fast;
mod two_on_one_count;
mod walls_differ;
mod weight_not_free;
mod wrong_length;

pub use finding::{Finding, Fix, Related, Severity, Sureness, Unread};
pub use silences_nothing::hidden;

use std::borrow::Cow;

use crate::body::Body;
use crate::read::{Kept, Reading, understood_again};
use crate::sheet::Sheet;
use mend::{Seen, mend, unread};
use subject::{Draft, Floor, Subject};

/// A rule.
#[derive(Clone, Copy)]
pub struct Rule {
    /// Its name, kebab-case and stable: `allow` with this name keeps it quiet.
    pub name: &'static str,
    /// Its page: what it finds, why it matters to a dancer, examples. Empty in WebAssembly.
    pub page: &'static str,
    run: fn(&Subject<'_>, &mut Vec<Draft>),
}

impl core::fmt::Debug for Rule {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name)
    }
}

// The pages are for the command line and the documentation; the module of the package goes without them.
#[cfg(not(target_arch = "wasm32"))]
macro_rules! page {
    ($page:literal) => {
        include_str!($page)
    };
}
#[cfg(target_arch = "wasm32")]
macro_rules! page {
    ($page:literal) => {
        ""
    };
}

macro_rules! rules {
    ($($module:ident $page:literal)*) => {
        const RULES: &[Rule] = &[$(Rule { name: $module::NAME, page: page!($page), run: $module::run },)*];
    };
}

// The order in which mends are looked for: the first of several findings with one cause keeps it.
rules! {
    two_on_one_count "two-on-one-count.md"
    count_twice "count-twice.md"
    count_missing "count-missing.md"
    count_without_step "count-without-step.md"
    wrong_length "wrong-length.md"
    repeat_on_wrong_foot "repeat-on-wrong-foot.md"
    weight_not_free "weight-not-free.md"
    feet_differ "feet-differ.md"
    end_on_wrong_foot "end-on-wrong-foot.md"
    tag_on_wrong_foot "tag-on-wrong-foot.md"
    restart_counts_differ "restart-counts-differ.md"
    restart_on_wrong_foot "restart-on-wrong-foot.md"
    pivot_wrong_way "pivot-wrong-way.md"
    turn_differs "turn-differs.md"
    clock_differs "clock-differs.md"
    tag_facing_differs "tag-facing-differs.md"
    restart_facing_differs "restart-facing-differs.md"
    walls_differ "walls-differ.md"
    total_differs "total-differs.md"
    start_foot_differs "start-foot-differs.md"
    name_differs "name-differs.md"
    close_without_weight "close-without-weight.md"
    step_too_long "step-too-long.md"
    feet_overlap "feet-overlap.md"
    legs_crossed "legs-crossed.md"
    hips_turned "hips-turned.md"
    turn_too_fast "turn-too-fast.md"
    support_too_long "support-too-long.md"
    moves_far "moves-far.md"
    misspelt "misspelt.md"
    not_understood "not-understood.md"
    counts_unclear "counts-unclear.md"
    silences_nothing "silences-nothing.md"
}

/// Every rule.
#[must_use]
pub fn rules() -> &'static [Rule] {
    RULES
}

/// Checks a sheet that was read; `allow` names rules that are to say nothing.
///
/// `text` is the sheet as written; it is read without the remarks that keep a rule quiet (see [`hidden`]).
#[must_use]
pub fn check(text: &str, sheet: &Sheet, reading: &Reading, allow: &[String], body: &Body) -> Vec<Finding> {
    check_kept(text, sheet, reading, allow, body, &[])
}

/// The same with what the reading kept for others like it.
pub(crate) fn check_kept(
    text: &str,
    sheet: &Sheet,
    reading: &Reading,
    allow: &[String],
    body: &Body,
    kept: &[Kept<'_>],
) -> Vec<Finding> {
    let floor = Floor::of(body);
    let subject = Subject { text, sheet, reading, floor: &floor };
    let drafts = drafts(&subject, allow, |_| true).unwrap_or_default();
    if drafts.is_empty() {
        return Vec::new();
    }
    let look = |changed: &str, before: &Seen, usual: bool| {
        let plain = hidden(changed);
        let (sheet, reading) = understood_again(&plain, kept, usual);
        if unread(&reading) > before.unread {
            return None;
        }
        let floor = Floor::of(body);
        let subject = Subject { text: changed, sheet: &sheet, reading: &reading, floor: &floor };
        // What a remark keeps quiet is known only when all is said.
        let remarks = matches!(plain, Cow::Owned(_));
        let harmless = |d: &Draft| {
            remarks
                || d.finding.rule == not_understood::NAME
                || allow.iter().any(|a| a == d.finding.rule)
                || before.knows(d)
        };
        let drafts = self::drafts(&subject, allow, |new| new.iter().all(harmless))?;
        Some(Seen::of(&subject, &drafts))
    };
    // Most changes fail in the usual manner already; one that does not is read as anybody will read it.
    let mut found = mend(&subject, drafts, |changed, before| {
        let usual = reading.unrivalled.then(|| look(changed, before, true));
        if matches!(usual, Some(None)) { None } else { look(changed, before, false) }
    });
    counts_unclear::gather(&subject, allow, &mut found);
    found
}

/// What the rules say, without what is allowed; `None` where what one of them says is not welcome.
fn drafts(subject: &Subject<'_>, allow: &[String], welcome: impl Fn(&[Draft]) -> bool) -> Option<Vec<Draft>> {
    let mut out = Vec::new();
    for rule in RULES {
        let before = out.len();
        (rule.run)(subject, &mut out);
        if !welcome(&out[before..]) {
            return None;
        }
    }
    // Words that are only misspelt need no second remark.
    let misspelt: Vec<_> =
        out.iter().filter(|d| d.finding.rule == misspelt::NAME).map(|d| d.finding.span).collect();
    out.retain(|d| {
        d.finding.rule != not_understood::NAME || !misspelt.iter().any(|m| d.finding.span.contains(*m))
    });
    silences_nothing::silence(subject.text, &mut out, allow);
    Some(out)
}
