//! The number of counts in the head is not the sum of the sections.

use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Subject};
use crate::dance::PartKind;
use crate::read::TroubleKind;
use crate::text::{Edit, Span};

pub(super) const NAME: &str = "total-differs";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    let Some((said, span)) = s.sheet.head.counts else { return };
    let dance = s.dance();
    let main: Vec<usize> =
        (0..dance.parts.len()).filter(|p| dance.parts[*p].kind == PartKind::Main).collect();
    let [part] = main[..] else { return phrased(s, &main, said, span, out) };
    let got: u32 = dance.parts[part].counts();
    if got == said || got == 0 || !dance.sequence.is_empty() {
        return;
    }
    // Words that were not understood can only hide counts of a section that is not as long as usual.
    let usual = dance.head.metre.section();
    let unread = s.troubles(|k| *k == TroubleKind::Unread).iter().any(|t| {
        let section = dance.parts[part].sections.get(t.section);
        t.part == part && section.is_none_or(|x| x.counts == 0 || x.counts % usual != 0)
    });
    // Several sections that do not even fill their bars are more likely not understood than miscounted.
    let beats = dance.head.metre.beats();
    let odd = dance.parts[part].sections.iter().filter(|x| x.counts % beats != 0).count() >= 2;
    let severity = if unread || odd { Severity::Note } else { Severity::Warning };
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

/// The number of counts of a phrased dance is the sum of its parts; some give that of one part or of the whole song.
fn phrased(s: &Subject<'_>, main: &[usize], said: u32, span: Span, out: &mut Vec<Draft>) {
    let dance = s.dance();
    let each: Vec<u32> = main.iter().map(|p| dance.parts[*p].counts()).collect();
    let sum: u32 = each.iter().sum();
    let song: u32 =
        dance.sequence.iter().filter_map(|p| dance.parts.get(*p)).map(crate::dance::Part::counts).sum();
    let unread = s.troubles(|k| *k == TroubleKind::Unread);
    let doubted = unread.iter().any(|t| {
        let section = dance.parts.get(t.part).and_then(|p| p.sections.get(t.section));
        main.contains(&t.part) && section.is_none_or(|x| x.counts != dance.head.metre.section())
    });
    // Parts of odd lengths are more likely not understood than miscounted.
    let odd = each.iter().any(|n| *n < 8 || n % dance.head.metre.beats() != 0);
    if odd || main.is_empty() || said == sum || said == song || each.contains(&said) || doubted {
        return;
    }
    let list: Vec<String> = each.iter().map(ToString::to_string).collect();
    let mut draft = Subject::whole(NAME, Severity::Warning, span).says(format!(
        "The head says {said} counts and the parts fill {sum} ({}); correct the number, or write what is missing.",
        list.join(" + ")
    ));
    let words = edits::words(s.text, span);
    let number = words.iter().map(|t| t.span).reduce(Span::join).unwrap_or(span);
    let edit = Edit { span: number, text: edits::number_like(number.of(s.text), sum) };
    draft.offer(8, false, format!("write {sum} counts"), vec![edit]);
    out.push(draft);
}
