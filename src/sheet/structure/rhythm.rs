//! A rhythm that is told once for all sections: "everything is 1 2& 3 4& 5 6& 7 8& until the sways".

use core::cell::OnceCell;

use super::{Build, Chunk, Kind, PartKind, Role, Slots, Token, W};
use crate::sheet::SectionText;
use crate::sheet::counts::mark;
use crate::text::{Among, Span, among, lower};
use crate::time::Ticks;

/// Words that tell a rhythm of all.
const ALL: &Among = among![
    "everything",
    "all",
    "always",
    "every",
    "each",
    "rhythm",
    "timing",
    "throughout",
    "count",
    "counts"
];

/// "All of it slow, quick, quick" in a night-club dance: 1 2&, 3 4&, 5 6&, 7 8&. A rumba's slow takes two counts.
fn slow_quick_quick(t: &[Token], club: impl FnOnce() -> bool) -> Option<(Vec<Ticks>, Span)> {
    let words: Vec<&Token> = t.iter().filter(|t| !matches!(t.kind, Kind::Sign(',' | '-'))).collect();
    let three = |w: &[&Token]| w[0].is(W::Slow) && w[1].is(W::Quick) && w[2].is(W::Quick);
    let at = words.windows(3).position(three)?;
    let beats = [1, 3, 5, 7].map(Ticks::of_count);
    let ticks = beats.iter().flat_map(|t| [*t, Ticks(t.0 + 24), Ticks(t.0 + 36)]).collect();
    club().then(|| (ticks, words[at].span))
}

/// The counts of eight that a line tells of all sections, half-counts among them.
fn told(text: &str, t: &[Token], club: impl FnOnce() -> bool) -> Option<(Vec<Ticks>, Span)> {
    if !t.iter().any(|t| t.span.is_among(text, ALL)) {
        return None;
    }
    if let Some(quick) = slow_quick_quick(t, club) {
        return Some(quick);
    }
    let at = t.iter().position(|t| t.kind == Kind::Number(1))?;
    let mut m = mark(text, t, at, t.len())?;
    // "1 2 3&4 5 6 7&8": blanks part them.
    while let Some(more) = mark(text, t, m.to, t.len()).filter(|more| more.first() == m.last() + 1) {
        m.ticks.extend(more.ticks);
        m.to = more.to;
        m.span = m.span.join(more.span);
    }
    let halves = m.ticks.iter().filter(|t| t.within() != 0).count();
    (m.first() == 1 && m.last() == 8 && halves >= 2 && !m.range).then_some((m.ticks, m.span))
}

impl Build<'_, '_> {
    /// Gives the sections without counts of their own the rhythm that is told of all.
    pub(super) fn rhythm(&mut self, roles: &[Role]) {
        let text = self.r.text;
        // Looked for once, however many lines speak of slow and quick.
        let named = OnceCell::new();
        let club = || {
            *named.get_or_init(|| {
                let text = lower(text);
                ["nightclub", "night-club", "night club"].iter().any(|name| text.contains(name))
            })
        };
        let said = |(line, role): (&super::Line, &Role)| {
            let beside = matches!(role, Role::Note | Role::Head) && line.told.is_none();
            beside.then(|| told(text, &line.tokens, club)).flatten()
        };
        let Some((ticks, span)) = self.r.lines.iter().zip(roles).find_map(said) else { return };
        for part in self.parts.iter_mut().filter(|p| p.kind == PartKind::Main) {
            for section in &mut part.sections {
                if !section.chunks.is_empty() && section.chunks.iter().all(|c| c.slots == Slots::Free) {
                    put(section, &ticks, span);
                }
            }
        }
    }
}

/// Puts the words of a section on the counts of a rhythm; its last sentence may tell its own: "sways R L R L, 5 6 7 8".
fn put(section: &mut SectionText, ticks: &[Ticks], mark: Span) {
    let t = &section.tokens;
    let end = section.chunks.last().map_or(0, |c| c.to);
    let number = |k: usize| if let Kind::Number(n) = t[k].kind { i32::try_from(n).ok() } else { None };
    let mut from = end;
    while from > 1 && number(from - 1).is_some_and(|n| from == end || number(from) == Some(n + 1)) {
        from -= 1;
    }
    let first = number(from.min(t.len().saturating_sub(1))).filter(|n| end - from >= 2 && *n > 1);
    let stop = t[..from].iter().rposition(|t| t.sign('.')).filter(|_| first.is_some());
    let chunk = |ticks: Vec<Ticks>, from: usize, to: usize| Chunk {
        slots: Slots::At { ticks, range: false },
        mark,
        from,
        to,
    };
    section.chunks = match (first, stop) {
        (Some(first), Some(stop)) => {
            let before = ticks.iter().copied().filter(|t| t.count() < first).collect();
            let own = (first..).zip(from..end).map(|(n, _)| Ticks::of_count(n)).collect();
            vec![chunk(before, 0, stop), chunk(own, stop, from)]
        }
        _ => vec![chunk(ticks.to_vec(), 0, end)],
    };
}
