//! The number of counts in the head is not the sum of the sections.

use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Subject};
use crate::dance::PartKind;
use crate::read::TroubleKind;
use crate::text::Edit;

pub(super) const NAME: &str = "total-differs";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    let Some((said, span)) = s.sheet.head.counts else { return };
    let dance = s.dance();
    let main: Vec<usize> =
        (0..dance.parts.len()).filter(|p| dance.parts[*p].kind == PartKind::Main).collect();
    let [part] = main[..] else { return };
    let got: u32 = dance.parts[part].counts();
    if got == said || got == 0 || !dance.sequence.is_empty() {
        return;
    }
    // Words that were not understood can only hide counts of a section that is not as long as usual.
    let usual = dance.head.metre.section();
    let unread = s.troubles(|k| *k == TroubleKind::Unread).iter().any(|t| {
        t.part == part && dance.parts[part].sections.get(t.section).is_none_or(|x| x.counts != usual)
    });
    let severity = if unread { Severity::Note } else { Severity::Warning };
    let list: Vec<String> = dance.parts[part].sections.iter().map(|x| x.counts.to_string()).collect();
    let sum =
        if list.len() > 1 && list.len() <= 16 { format!(" ({})", list.join(" + ")) } else { String::new() };
    let mut draft = Subject::whole(NAME, severity, span).says(format!(
        "The head says {said} counts and the steps fill {got}{sum}; correct the number, or write what is missing."
    ));
    let whole = dance.parts[part].sections.iter().all(|x| x.counts == dance.head.metre.section());
    let words = edits::words(s.text, span);
    let first = words.first().map_or(span, |t| t.span);
    let last = words.last().map_or(span, |t| t.span);
    let number = first.join(last);
    let edit = Edit { span: number, text: edits::number_like(number.of(s.text), got) };
    draft.offer(8, whole, format!("write {got} counts"), vec![edit]);
    out.push(draft);
}
