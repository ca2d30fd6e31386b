//! Which of several readings of a sheet troubles least.
//!
//! Most sheets give a count mark and its words, line by line. Where that reading leaves much to explain, the same
//! text is put into that manner from another one (see [`Layout`]) and read again: a sheet proves its layout itself,
//! because its counts, its feet and its clocks only fit each other when it is read as it was meant.

use super::kept::Kept;
use super::{Reading, TroubleKind, headings, read_again, walls};
use crate::dance::Weight;
use crate::figures::lexicon;
use crate::sheet::{Layout, Sheet, SheetHead, Slots, counts_amid, headed, parse_as, parse_kept};

/// A reading that troubles no more than this is not questioned.
const BEARABLE: u32 = 100;

/// Bytes of the longest text that is tried in other manners; no sheet of one dance is so long.
const LONGEST_TRIED: usize = 1 << 15;

/// What it costs that a word for something to do is in no section: a reading is no better for what it leaves out.
const LEFT_OUT: u32 = 12;

/// Every layout that a text is tried in.
pub const LAYOUTS: [Layout; 3] = [Layout::Prose, Layout::Headed, Layout::Notes];

/// Reads a text in the usual manner, or, where that troubles, in the one that troubles least.
#[must_use]
pub fn understood(text: &str) -> (Sheet, Reading) {
    best_of(text, &[], None, true)
}

/// The same; what is to serve the reading of texts like it goes into `keep`.
pub(crate) fn understood_first<'t>(text: &'t str, keep: &mut Vec<Kept<'t>>) -> (Sheet, Reading) {
    best_of(text, &[], Some(keep), true)
}

/// The same for a text like one that was read before, with what its reading in each layout kept; in the usual manner
/// alone where no other one came near it.
pub(crate) fn understood_again(text: &str, before: &[Kept<'_>], unrivalled: bool) -> (Sheet, Reading) {
    best_of(text, before, None, !unrivalled)
}

fn best_of<'t>(
    text: &'t str,
    before: &[Kept<'_>],
    mut keep: Option<&mut Vec<Kept<'t>>>,
    any: bool,
) -> (Sheet, Reading) {
    let vocabulary = &lexicon().vocabulary;
    let nothing = Kept::default();
    let mut look = |n: usize, sheet: &Sheet, bound: u32| {
        let mut kept = Kept::default();
        let before = before.get(n).unwrap_or(&nothing);
        let reading = read_again(text, sheet, bound, before, keep.as_ref().map(|_| &mut kept));
        if let Some(keep) = &mut keep
            && reading.cost < u32::MAX
        {
            keep.resize_with(n, Kept::default);
            keep.push(kept);
        }
        reading
    };
    let (sheet, lines) = parse_kept(text, vocabulary);
    let mut lines = Some(lines);
    let reading = look(0, &sheet, u32::MAX);
    let strained = strain(&sheet, &reading);
    let mut least = strained + LEFT_OUT * sheet.left_out;
    let mut best = (sheet, reading);
    if !any || strained <= BEARABLE || text.len() > LONGEST_TRIED {
        return best;
    }
    let usual = least;
    let mut rivalled = false;
    if let Some(sheet) = headings::danced(&best.0, &best.1) {
        let reading = look(1, &sheet, least);
        let strain = strain(&sheet, &reading) + LEFT_OUT * sheet.left_out;
        if reading.cost < u32::MAX && strain < least {
            least = strain;
            best = (sheet, reading);
            rivalled = true;
        }
    }
    let head = best.0.head.clone();
    let layouts = if least <= BEARABLE { &[][..] } else { &LAYOUTS };
    for (n, layout) in layouts.iter().enumerate() {
        let other = match layout {
            // The same lines, put together otherwise.
            Layout::Headed => lines.take().map(|lines| headed(text, lines)),
            _ => parse_as(text, vocabulary, *layout),
        };
        let Some(mut sheet) = other else { continue };
        keep_head(&mut sheet.head, &head);
        if sheet.sequence.is_empty() {
            sheet.sequence.clone_from(&best.0.sequence);
        }
        if sheet == best.0 {
            continue;
        }
        // A reading strains no less than it costs, so one that is not clearly better, or not better at all where
        // none was before, is not read to its end.
        let clearly = u32::try_from((u64::from(least) * 3).saturating_sub(1) / 4).unwrap_or(u32::MAX);
        let most = if rivalled { clearly } else { usual.saturating_sub(1) };
        let Some(most) = most.checked_sub(LEFT_OUT * sheet.left_out) else { continue };
        let reading = look(n + 2, &sheet, most);
        if reading.cost == u32::MAX {
            continue;
        }
        let strain = strain(&sheet, &reading) + LEFT_OUT * sheet.left_out;
        rivalled |= strain < usual;
        // The usual manner is left only for one that is clearly better.
        if u64::from(strain) * 4 < u64::from(least) * 3 {
            least = strain;
            best = (sheet, reading);
        }
    }
    best.1.unrivalled = !rivalled;
    best
}

/// A head says what it says in any manner: no reading is better for not seeing it.
fn keep_head(head: &mut SheetHead, usual: &SheetHead) {
    head.counts = head.counts.or(usual.counts);
    head.walls = head.walls.or(usual.walls);
    head.lead = head.lead.or(usual.lead);
    head.tempo = head.tempo.or(usual.tempo);
    head.intro = head.intro.or(usual.intro);
    head.waltz |= usual.waltz;
    if head.level.is_empty() {
        head.level.clone_from(&usual.level);
    }
    for (span, known) in
        [(&mut head.title, usual.title), (&mut head.author, usual.author), (&mut head.music, usual.music)]
    {
        if span.is_empty() {
            *span = known;
        }
    }
}

/// How much of a reading does not fit: what its cheapest way costs, and what the head and the sections say against it.
#[must_use]
pub fn strain(sheet: &Sheet, reading: &Reading) -> u32 {
    let dance = &reading.dance;
    let sections: Vec<_> = dance.main_sections().collect();
    if sections.iter().all(|s| s.moves.is_empty()) {
        return u32::MAX / 2;
    }
    let mut sum = reading.cost;
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX / 4096).min(4096);
    // A section that says how long it is, or a dance that says it, and is not.
    let total: u32 = sections.iter().map(|s| s.counts).sum();
    if sheet.head.counts.is_some_and(|(n, _)| n != total) {
        sum += 400;
    }
    let beats = dance.head.metre.beats();
    sum += 60 * count(sections.iter().filter(|s| s.counts % beats != 0).count());
    sum += 80 * count(sections.iter().filter(|s| s.moves.is_empty()).count());
    // Nobody teaches so much in one go: the rows of the page were not seen.
    sum += 110 * count(sections.iter().filter(|s| s.counts >= 3 * dance.head.metre.section()).count());
    // Counts in the midst of words that are read without them.
    let open = sheet.parts.iter().flat_map(|p| &p.sections).flat_map(|s| {
        let free = s.chunks.iter().filter(|c| c.slots == Slots::Free);
        free.map(|c| counts_amid(&s.tokens[c.from..c.to]))
    });
    sum += 60 * count(open.sum());
    // Words of the first counts were lost on the way.
    let late = |s: &&crate::dance::Section| s.moves.first().is_some_and(|m| m.at.count() > 1);
    sum += 60 * count(dance.parts.iter().flat_map(|p| &p.sections).filter(late).count());
    if dance.sequence.is_empty() {
        let turn = dance.parts.iter().fold(crate::floor::Turn::NONE, |t, p| t + p.turn());
        if sheet.head.walls.is_some_and(|(n, _)| n != walls(turn.0)) {
            sum += 120;
        }
        let end = sections.last().map(|s| s.weight_end);
        if matches!((end, dance.start), (Some(Weight::On(a)), Weight::On(b)) if a != b) {
            sum += 60;
        }
    }
    for t in &reading.troubles {
        sum += match &t.kind {
            TroubleKind::TwoOnOne => 60,
            TroubleKind::Empty(at) => 20 * count(at.len()),
            TroubleKind::Total { .. } | TroubleKind::FeetOrder | TroubleKind::Repeat { .. } => 60,
            TroubleKind::Clock { .. } | TroubleKind::WeightElsewhere { .. } => 40,
            TroubleKind::ClockHeld { .. } | TroubleKind::Restart { .. } => 0,
            TroubleKind::Unread => 6,
        };
    }
    sum
}
