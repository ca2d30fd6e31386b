//! Mends: read again, the finding is gone and none has come.

use std::collections::BTreeSet;

use halfcount::check::{Finding, Severity};
use halfcount::text::{Edit, Span, apply};
use halfcount::{Options, Report};

use super::{must, report};

/// What stays the same of a finding when the text is changed elsewhere.
fn identity(f: &Finding) -> String {
    let at = f.at.map(|t| t.to_string()).unwrap_or_default();
    format!("{} in {} {} {at}", f.rule, f.part, f.section.unwrap_or(0))
}

fn alarms(report: &Report) -> impl Iterator<Item = &Finding> {
    report.findings.iter().filter(|f| f.severity > Severity::Note)
}

/// Everything that was said before, where it stands in the mended text: of each finding its identity and what it
/// says, and of those that another one took in what they said and where.
struct Known {
    said: BTreeSet<String>,
    at: BTreeSet<(&'static str, Span)>,
    taken_in: BTreeSet<Span>,
}

impl Known {
    fn of(report: &Report, edits: &[Edit]) -> Self {
        let related = || report.findings.iter().flat_map(|f| &f.related);
        let own = report.findings.iter().flat_map(|f| [identity(f), f.message.clone()]);
        Self {
            said: own.chain(related().map(|r| r.label.clone())).collect(),
            at: report.findings.iter().map(|f| (f.rule, moved(f.span, edits))).collect(),
            taken_in: related().map(|r| moved(r.span, edits)).collect(),
        }
    }

    fn holds(&self, f: &Finding) -> bool {
        self.said.contains(&identity(f))
            || self.said.contains(&f.message)
            || self.at.contains(&(f.rule, f.span))
            || self.taken_in.contains(&f.span)
    }
}

/// Where a stretch of the text stands once the edits before and in it are made.
fn moved(span: Span, edits: &[Edit]) -> Span {
    let shift = |end: u32, inside: bool| {
        let before = edits.iter().filter(|e| e.span.end < end || (inside && e.span.end == end));
        let (more, less) = before.fold((0, 0), |(m, l), e| (m + e.text.len(), l + e.span.range().len()));
        (end as usize + more).saturating_sub(less)
    };
    Span::new(shift(span.start, false), shift(span.end, true))
}

pub(super) fn holds(text: &str) -> Result<(), String> {
    let before = report(text)?;
    for f in &before.findings {
        // The first one is the best; the others may leave what this one takes in.
        let Some(fix) = f.fixes.first() else { continue };
        let known = Known::of(&before, &fix.edits);
        let changed = apply(text, &fix.edits);
        must(changed != text, || format!("mend: {} changes nothing ({})", f.rule, fix.title))?;
        let after = report(&changed)?;
        let there = alarms(&after).any(|a| identity(a) == identity(f)) && f.severity > Severity::Note;
        must(!there, || format!("still: {} is there ({})", identity(f), fix.title))?;
        let new = alarms(&after).find(|a| !known.holds(a));
        must(new.is_none(), || {
            format!("more: {} ({}: {})", new.map(identity).unwrap_or_default(), identity(f), fix.title)
        })?;
        must(after.unread.len() <= before.unread.len(), || {
            format!("unread: {} became {} ({})", before.unread.len(), after.unread.len(), fix.title)
        })?;
    }
    let mended = halfcount::mended(text, &Options::default()).map_err(|error| error.to_string())?;
    let (was, left) = (alarms(&before).count(), alarms(&report(&mended.text)?).count());
    must(left <= was, || format!("all: {was} alarms became {left} after {:?}", mended.done))
}
