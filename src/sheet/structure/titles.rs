//! Names of figures as titles over parts of a section: "GRAPEVINE RIGHT" over counts 1 to 4 and "GRAPEVINE LEFT" over 5
//! to 8, where the next title begins with count 1 again.

use super::Build;
use crate::sheet::{SectionText, Slots};

/// The longest section that is put together so, in counts.
const LONGEST: i32 = 8;

impl Build<'_, '_> {
    /// Puts what stands under such titles into one section.
    pub(super) fn titles(&mut self) {
        for part in &mut self.parts {
            let marks: Vec<Option<(i32, i32)>> = part.sections.iter().map(counted).collect();
            let begins = marks.iter().flatten().filter(|(first, _)| *first == 1).count();
            if begins < 2 {
                continue;
            }
            let mut out: Vec<SectionText> = Vec::with_capacity(part.sections.len());
            let mut end = 0;
            for (section, marks) in part.sections.drain(..).zip(marks) {
                let goes_on = section.number.is_none() && section.counts.is_none() && section.first.is_none();
                match (out.last_mut(), marks) {
                    (Some(before), Some((first, last)))
                        if goes_on && end > 0 && first == end + 1 && last <= LONGEST =>
                    {
                        join(before, section);
                        end = last;
                    }
                    (_, marks) => {
                        end = marks.filter(|(first, _)| *first == 1).map_or(0, |(_, last)| last);
                        out.push(section);
                    }
                }
            }
            part.sections = out;
        }
    }
}

/// The first and the last count of a section whose chunks all have counts.
fn counted(s: &SectionText) -> Option<(i32, i32)> {
    let mut found: Option<(i32, i32)> = None;
    for c in &s.chunks {
        let Slots::At { ticks, .. } = &c.slots else { return None };
        let (first, last) = (ticks.iter().find(|t| t.0 > 0)?.count(), ticks.last()?.count());
        found = Some(found.map_or((first, last), |(a, b)| (a.min(first), b.max(last))));
    }
    found
}

/// Adds the words of a section to the one before it.
fn join(before: &mut SectionText, mut section: SectionText) {
    let shift = before.tokens.len();
    before.tokens.append(&mut section.tokens);
    before.chunks.extend(section.chunks.into_iter().map(|mut c| {
        c.from += shift;
        c.to += shift;
        c
    }));
    before.span = before.span.join(section.span);
    before.notes.append(&mut section.notes);
}
