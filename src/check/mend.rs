//! Mends: every change of the text is read again before it is offered.
//!
//! A mend is offered only when its finding is gone in the changed text, no new error or warning has come, and no
//! more words are left unread. Findings that vanish with it are its echoes: one cause, one finding.

use super::finding::{Finding, Fix, Related, Severity, Sureness};
use super::subject::{Draft, Place, Subject};
use crate::order::Ordered as _;
use crate::read::{Reading, TroubleKind};
use crate::text::{Edit, Span, apply};
use crate::time::Ticks;

/// A change that might help.
#[derive(Debug, Clone)]
pub(super) struct Candidate {
    /// The cheapest first.
    pub cost: u32,
    /// Something else in the sheet says so.
    pub sure: bool,
    /// What it does.
    pub title: String,
    /// The change.
    pub edits: Vec<Edit>,
    /// Where the fault is, if this is the right mend.
    pub place: Option<Place>,
}

/// What stays the same of a finding when the text is changed elsewhere.
type Identity = (&'static str, String, Option<u32>, Option<Ticks>);

/// What one look at a text gives.
#[derive(Debug)]
pub(super) struct Seen {
    alarms: Vec<Identity>,
    pub(super) unread: usize,
    /// What the reading costs.
    cost: u32,
}

/// Readings that may be spent on one sheet.
const READINGS: usize = 72;
/// Bytes that may be read again for one sheet, so that the work stays in proportion to its length.
const BYTES: usize = 600_000;
/// Readings that may be spent on one finding.
const EACH: usize = 14;
/// Mends offered for one finding.
const OFFERED: usize = 3;

fn identity(f: &Finding) -> Identity {
    (f.rule, f.part.clone(), f.section, f.at)
}

impl Seen {
    /// Notes the alarms of a text.
    pub(super) fn of(subject: &Subject<'_>, drafts: &[Draft]) -> Self {
        let alarms = drafts
            .iter()
            .filter(|d| d.finding.severity > Severity::Note)
            .map(|d| identity(&d.finding))
            .collect();
        Self { alarms, unread: unread(subject.reading), cost: subject.reading.cost }
    }

    /// Whether a finding is no new alarm.
    pub(super) fn knows(&self, draft: &Draft) -> bool {
        draft.finding.severity <= Severity::Note || self.alarms.contains(&identity(&draft.finding))
    }
}

/// How many stretches of words were not understood.
pub(super) fn unread(reading: &Reading) -> usize {
    reading.troubles.iter().filter(|t| t.kind == TroubleKind::Unread).count()
}

/// A mend that was proven.
#[derive(Debug)]
struct Proven {
    candidate: Candidate,
    /// Which look showed it.
    look: usize,
    /// How many alarms are left.
    left: usize,
    /// What the change and the reading after it cost: the slip that a writer made leaves nothing to be bent.
    cost: u32,
}

/// A changed text and what was seen in it.
type Look = (String, Option<Seen>);

/// The alarms that a mend leaves.
fn left<'l>(looks: &'l [Look], mend: &Proven) -> &'l [Identity] {
    looks.get(mend.look).and_then(|(_, seen)| seen.as_ref()).map_or(&[], |seen| &seen.alarms)
}

/// Tries the candidates of all drafts; `look` reads a text and gives its alarms, or nothing where it finds one that
/// was not there before, or more that is not understood.
pub(super) fn mend(
    subject: &Subject<'_>,
    mut drafts: Vec<Draft>,
    look: impl Fn(&str, &Seen) -> Option<Seen>,
) -> Vec<Finding> {
    let before = Seen::of(subject, &drafts);
    // Findings with one cause often offer the same change.
    let mut looks: Vec<Look> = Vec::new();
    let mut budget = READINGS.min(BYTES / subject.text.len().max(1));
    let mut out: Vec<Told> = Vec::new();
    while !drafts.is_empty() {
        let mut draft = drafts.remove(0);
        let mut candidates = core::mem::take(&mut draft.candidates);
        candidates.retain(|c| !c.edits.is_empty());
        // A stable order: of equally cheap mends the one that was offered first.
        candidates.in_order_by_key(|c| c.cost);
        let mut finding = draft.finding;
        let own = identity(&finding);
        let note = finding.severity == Severity::Note;
        let mut proven: Vec<Proven> = Vec::new();
        for c in candidates.into_iter().take(EACH) {
            if budget == 0 {
                break;
            }
            budget -= 1;
            let changed = apply(subject.text, &c.edits);
            if changed == subject.text {
                continue;
            }
            let known = looks.iter().position(|(text, _)| *text == changed);
            let at = known.unwrap_or_else(|| {
                let seen = look(&changed, &before);
                looks.push((changed, seen));
                looks.len() - 1
            });
            let Some(after) = looks.get(at).and_then(|(_, seen)| seen.as_ref()) else { continue };
            let fewer = after.alarms.len() < before.alarms.len();
            let gone =
                note && after.alarms.len() <= before.alarms.len() || fewer && !after.alarms.contains(&own);
            let clean = after.alarms.iter().all(|a| before.alarms.contains(a));
            if gone && clean && after.unread <= before.unread {
                let cost = c.cost + after.cost;
                proven.push(Proven { candidate: c, look: at, left: after.alarms.len(), cost });
            }
        }
        // What removes more alarms comes first.
        proven.in_order_by_key(|p| (p.left, p.cost));
        if let Some(best) = proven.first() {
            absorb(subject, &mut finding, best, left(&looks, best), &mut drafts, &mut out);
        }
        out.push(Told { finding, mends: proven });
    }
    offer(out, &looks)
}

/// A finding with the mends that were proven for it.
#[derive(Debug)]
struct Told {
    finding: Finding,
    mends: Vec<Proven>,
}

/// Gives each finding the best of its mends. One that leaves an echo of another finding and takes that finding away
/// would bring what nobody was told of, and is left out.
fn offer(told: Vec<Told>, looks: &[Look]) -> Vec<Finding> {
    let said: Vec<Identity> = told.iter().map(|t| identity(&t.finding)).collect();
    let mut out = Vec::new();
    for Told { mut finding, mends } in told {
        let mut titles: Vec<&str> = Vec::new();
        let mut fixes = Vec::new();
        for p in mends.iter().filter(|p| left(looks, p).iter().all(|a| said.contains(a))) {
            if fixes.len() < OFFERED && !titles.contains(&p.candidate.title.as_str()) {
                titles.push(&p.candidate.title);
                fixes.push(fix(&p.candidate));
            }
        }
        finding.fixes = fixes;
        out.push(finding);
    }
    out.in_order_by(|a, b| (a.span, a.rule).cmp(&(b.span, b.rule)));
    out
}

/// Takes in the echoes of a finding, and moves it to the place where its mend is.
fn absorb(
    subject: &Subject<'_>,
    finding: &mut Finding,
    best: &Proven,
    left: &[Identity],
    drafts: &mut Vec<Draft>,
    out: &mut Vec<Told>,
) {
    let echo = |f: &Finding| f.severity > Severity::Note && !left.contains(&identity(f));
    let mut echoes: Vec<(Span, String)> = Vec::new();
    drafts.retain(|d| {
        let is = echo(&d.finding);
        if is {
            echoes.push((d.finding.span, d.finding.message.clone()));
        }
        !is
    });
    // An earlier finding that had no mend of its own is an echo as well.
    out.retain(|t| {
        let is = echo(&t.finding) && t.mends.is_empty();
        if is {
            echoes.push((t.finding.span, t.finding.message.clone()));
        }
        !is
    });
    for (span, label) in echoes {
        finding.related.push(Related { span, label });
    }
    if let Some(place) = best.candidate.place {
        finding.section = Some(subject.number(place));
        finding.part = subject.part_name(place.part);
        finding.at = place.at;
    }
}

fn fix(c: &Candidate) -> Fix {
    let mut edits = c.edits.clone();
    edits.in_order_by_key(|e| e.span);
    Fix { title: c.title.clone(), sureness: if c.sure { Sureness::Sure } else { Sureness::Choice }, edits }
}
