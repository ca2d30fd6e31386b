//! Steps that a restart changes: "replace count 16 with a touch", "swap 7&8 for 7 step R forward, 8 step L
//! together".

use super::Reading;
use super::build::built;
use super::lattice::search;
use super::meaning::Own;
use super::omitted::{ended, left_out, without};
use super::start::Start;
use crate::dance::{Move, Section};
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, acts};
use crate::sheet::{Chunk, Mark, SectionText, Slots, counts_told, mark, rows};
use crate::text::{Span, is_among, lower};
use crate::time::{Metre, Ticks};

/// What a sheet says is danced instead: the positions and the words.
struct Change {
    ticks: Vec<Ticks>,
    chunks: Vec<(Vec<Ticks>, Vec<Token>)>,
}

/// Whether a token says something to do.
fn does(t: &Token) -> bool {
    match t.kind {
        Kind::Name(_) => true,
        Kind::W(w) => acts(w) || matches!(w, W::Side | W::Forward | W::Back | W::Behind | W::Across),
        _ => false,
    }
}

/// "Make count 8 a touch", "make it a touch": the count stands between the word and what is new.
fn makes(text: &str, t: &[Token], k: usize) -> bool {
    let small = |t: &&Token| matches!(t.kind, Kind::W(W::The | W::Count | W::Last));
    is_among(t[k].span.of(text), &["make"])
        && t[k + 1..].iter().find(|t| !small(t)).is_some_and(|t| matches!(t.kind, Kind::Number(_)))
        && t.get(k + 1).is_some_and(|t| small(&t) || matches!(t.kind, Kind::Number(_)))
}

fn changing(text: &str, t: &Token) -> bool {
    const WORDS: &[&str] = &[
        "swap",
        "instead",
        "replace",
        "replaced",
        "replacing",
        "substitute",
        "exchange",
        "modify",
        "altered",
        "alter",
        "becomes",
        "but",
    ];
    t.is(W::Change) || is_among(t.span.of(text), WORDS)
}

/// Whether a token hands over to the new steps.
fn hands_over(text: &str, t: &Token) -> bool {
    let word = t.span.of(text);
    t.is(W::To)
        || t.is(W::With)
        || t.is(W::For)
        || t.is(W::By)
        || is_among(word, &[":", "=", "into", "instead", "do", "dance", "as", ","])
}

/// "The last shuffle becomes walk R, walk L (7 8)": new steps whose counts stand in brackets behind them.
fn told_before(text: &str, t: &[Token], start: usize, counts: &Mark) -> Option<Vec<Token>> {
    let open = t
        .get(start..counts.from)?
        .iter()
        .rposition(|t| matches!(t.kind, Kind::Sign('(' | '[')))
        .map(|k| start + k)?;
    let closed = t[counts.to..].iter().find(|t| !matches!(t.kind, Kind::W(W::Count)))?;
    let inside = &t[open + 1..counts.from];
    if !matches!(closed.kind, Kind::Sign(')' | ']')) || inside.iter().any(does) {
        return None;
    }
    let gives = |t: &Token| {
        t.is(W::With)
            || t.is(W::To)
            || is_among(t.span.of(text), &["becomes", "become", "into", "do", "dance", "=", ":"])
    };
    let from = t[start..open].iter().rposition(gives).map(|k| start + k + 1)?;
    let words = t[from..open].to_vec();
    words.iter().any(does).then_some(words)
}

fn find(text: &str, t: &[Token], after: u32, before: u32) -> Option<Change> {
    let in_place = |k: &usize| {
        t[*k].is(W::In)
            && t.get(k + 1).is_some_and(|x| x.is(W::Place))
            && t.get(k + 2).is_some_and(|x| x.is(W::Of))
    };
    let told = |k: &usize| changing(text, &t[*k]) || in_place(k) || makes(text, t, *k);
    let is_now = (0..t.len()).find_map(|k| is_now(text, t, k));
    let start = (0..t.len()).find(told);
    if start.is_none()
        && let Some(change) = goes_on(text, t, after, before)
    {
        return Some(change);
    }
    let start = start.or(is_now.map(|(k, _)| k)).or_else(|| (0..t.len()).find(|k| equals(text, t, *k)))?;
    let is_now = is_now.filter(|(k, _)| *k == start).map(|(_, to)| to);
    // The first count mark behind the word is what is replaced; one before it ("count 16: touch instead") too.
    let mut at = start;
    let mut replaced = None;
    while at < t.len() {
        if let Some(m) = mark(text, t, at, t.len())
            && m.ticks[0].0 > 0
            && !t.get(m.to).is_some_and(|x| x.is(W::OClock) || x.is(W::Wall))
            && !(at > 0 && (t[at - 1].is(W::Wall) || t[at - 1].is(W::Face)))
            && !section_number(text, t, at)
            && !told_reach(text, t, at)
        {
            replaced = Some(m);
            break;
        }
        at += 1;
    }
    // "On the very last count ..."
    let replaced = if let Some(m) = replaced {
        m
    } else if let Some(m) = named_before(text, t, start) {
        // "For 11-12 no dorothy but cross rock": the counts stand before the word.
        Mark { to: start + 1, ..m }
    } else if let Some((from, to, ticks)) = counts_told(text, &t[start..]) {
        // "But on seven and eight there is no shuffle"
        let span = t[start + from].span.join(t[start + to - 1].span);
        Mark { ticks, range: false, from: start + from, to: start + to, span }
    } else {
        let last = |k: &usize| {
            t[*k].is(W::Last) && t[*k + 1].is(W::Count)
                || matches!(t[*k].kind, Kind::W(W::At | W::The)) && t[*k + 1].is(W::End)
        };
        let k = (start..t.len().saturating_sub(1)).find(last)?;
        let count = i32::try_from(after).ok()?;
        Mark { ticks: vec![Ticks::of_count(count)], range: false, from: k, to: k + 2, span: t[k].span }
    };
    if let Some(change) = row(text, t, &replaced) {
        return Some(change);
    }
    if let Some(words) = told_before(text, t, start, &replaced) {
        return Some(Change { chunks: vec![(replaced.ticks.clone(), words)], ticks: replaced.ticks });
    }
    // "... step L beside R on count 20 instead of the touch": the new steps stand before the count.
    let instead = (replaced.to..t.len().saturating_sub(1))
        .find(|k| t[*k].span.of(text).eq_ignore_ascii_case("instead") && t[*k + 1].is(W::Of));
    if instead.is_some() {
        let words: Vec<Token> =
            t[start + 1..replaced.from].iter().copied().filter(|x| !x.is(W::On) && !x.is(W::Count)).collect();
        if words.iter().any(does) {
            return Some(Change { chunks: vec![(replaced.ticks.clone(), words)], ticks: replaced.ticks });
        }
    }
    // The new steps: behind the last word that hands over and is followed by something to do.
    let mut from = is_now.map(|to| (to, true));
    // "But on the last count step left beside right": they may follow at once.
    if t[start].span.of(text).eq_ignore_ascii_case("but") || makes(text, t, start) {
        let mut clause = t[replaced.to..].iter().take_while(|x| !hands_over(text, x));
        from = clause.any(does).then_some((replaced.to, true));
    }
    for i in replaced.to..t.len() {
        if is_now.is_some() || from == Some((replaced.to, true)) {
            break;
        }
        if from.is_some_and(|(from, _)| i > from && says_otherwise(text, t, from, i)) {
            break;
        }
        let weight = t[i].is(W::With) && t[i + 1..].iter().take(2).any(|x| x.is(W::Weight));
        if hands_over(text, &t[i]) && !weight && !aside(t, i) && t[i + 1..].iter().take(8).any(does) {
            // "Change 7&8 to 7-8: RF fwd, pivot": a row with counts of its own.
            let own = !t[i].sign(',')
                && mark(text, t, i + 1, t.len())
                    .is_some_and(|m| m.ticks.iter().all(|x| replaced.ticks.contains(x)));
            if own {
                from = Some((i + 1, true));
                break;
            }
            let strong = !t[i].sign(',');
            // A comma between new steps hands over nothing.
            if !strong && t[replaced.to..i].iter().any(does) {
                continue;
            }
            if strong || from.is_none() {
                from = Some((i + 1, strong));
            }
            // "from touch L to step L": the last one counts; "for 7 step R fwd, 8 step L" is a row of its own.
            if t[i].is(W::For) || t[i].is(W::With) {
                break;
            }
        }
        if t[i].sign('.') && from.is_some() {
            break;
        }
    }
    let (from, _) = from.unwrap_or((replaced.to, false));
    let mut end = from;
    while end < t.len()
        && !matches!(t[end].kind, Kind::Sign('.' | '!' | '\n') | Kind::W(W::Face | W::Restart | W::Again))
        && !(end > from && says_otherwise(text, t, from, end))
    {
        end += 1;
    }
    let words = undone(&t[from..end]);
    if !words.iter().any(does) {
        return None;
    }
    // "You step left forward on seven and clap on eight": counts of their own behind the new steps.
    let told = rows(text, words);
    // They may go on behind what is replaced: "stomp (15), hold (16)".
    let end = replaced.ticks[replaced.ticks.len() - 1];
    let fits = |x: &Ticks| replaced.ticks.contains(x) || *x > end && x.count() <= end.count() + 4;
    if !told.is_empty() && told.iter().all(|(ticks, words)| ticks.iter().all(fits) && !words.is_empty()) {
        let mut ticks = replaced.ticks;
        ticks.extend(told.iter().flat_map(|(t, _)| t).filter(|t| **t > end));
        return Some(Change { ticks, chunks: told });
    }
    // Counts of their own inside the new steps.
    let mut chunks: Vec<(Vec<Ticks>, Vec<Token>)> = Vec::new();
    let mut i = 0;
    let mut open: Vec<Token> = Vec::new();
    let mut ticks = replaced.ticks.clone();
    while i < words.len() {
        let opens = i == 0
            || matches!(
                words[i - 1].kind,
                Kind::Sign(',' | ';' | ':' | '(' | ')') | Kind::W(W::And | W::Count)
            );
        if opens
            && let Some(m) = mark(text, words, i, words.len())
            && (m.ticks.iter().all(|x| replaced.ticks.contains(x))
                || next_counts(words, &m, ticks.last()) && words[m.to..].iter().take(4).any(does))
        {
            if !open.is_empty() && open.iter().any(|x| matches!(x.kind, Kind::W(_) | Kind::Name(_))) {
                chunks.push((ticks, core::mem::take(&mut open)));
            }
            open.clear();
            ticks = m.ticks;
            i = m.to;
            continue;
        }
        open.push(words[i]);
        i += 1;
    }
    if open.iter().any(|x| matches!(x.kind, Kind::W(_) | Kind::Name(_))) {
        chunks.push((ticks, open));
    }
    let mut ticks = replaced.ticks;
    ticks.extend(chunks.iter().flat_map(|(t, _)| t).filter(|t| **t > end).copied().collect::<Vec<_>>());
    for (ticks, words) in &mut chunks {
        whole(ticks, words);
    }
    (!chunks.is_empty()).then_some(Change { ticks, chunks })
}

/// "7 step left forward, 8 touch right": whether a mark counts on behind the one before it.
fn next_counts(words: &[Token], m: &Mark, last: Option<&Ticks>) -> bool {
    let next = last.is_some_and(|l| m.ticks[0].0 == (l.count() + 1) * 24);
    next && words.get(m.to).is_some_and(|t| t.gap > 0 || matches!(t.kind, Kind::Sign(_)))
}

/// "Instead of the shuffle on 7&8, step left forward, touch right": as many steps as there are whole counts need no half
/// ones.
fn whole(ticks: &mut Vec<Ticks>, words: &[Token]) {
    let parts = words.split(|t| matches!(t.kind, Kind::Sign(',' | ';') | Kind::W(W::And | W::Then)));
    let steps = parts.filter(|c| c.iter().any(does)).count();
    let plain = |t: &&Ticks| t.within() == 0;
    if steps > 1 && ticks.iter().filter(plain).count() == steps {
        ticks.retain(|t| t.within() == 0);
    }
}

/// "Dance up to count 14, then step left forward (15), touch right (16)", "dance to count 7 of section 2, touch right
/// beside left on count 8": the steps that are danced before the restart. `before` counts are danced before the section.
fn goes_on(text: &str, t: &[Token], after: u32, before: u32) -> Option<Change> {
    let next = i32::try_from(after).ok()? + 1;
    let local = next - i32::try_from(before).ok()?;
    let reach = |k: &usize| told_reach(text, t, *k);
    let reached = (0..t.len()).find(reach).unwrap_or(t.len());
    let leads = |k: &usize| t[*k].is(W::Then) || t[*k].sign(',') && *k > reached;
    let told = t.get(reached).and_then(|t| match t.kind {
        Kind::Number(n) => i32::try_from(n + 1).ok(),
        _ => None,
    });
    // Where it says how all begins again, or what is left out instead.
    let over = |k: &usize| match t[*k].kind {
        Kind::Sign('.' | '!') | Kind::W(W::Restart | W::Again | W::Face) => true,
        Kind::Sign('(') => mark(text, t, k + 1, t.len()).is_none(),
        Kind::W(W::And | W::Then) | Kind::Sign(',') => t
            .get(k + 1)
            .is_some_and(|t| t.is(W::Restart) || is_among(t.span.of(text), &["start", "begin", "restart"])),
        _ => false,
    };
    (0..t.len()).filter(leads).find_map(|k| {
        let end = (k + 1..t.len()).find(over).unwrap_or(t.len());
        let words: Vec<Token> = t[k + 1..end].iter().filter(|t| !t.sign('\n')).copied().collect();
        let chunks = rows(text, &words);
        let ticks: Vec<Ticks> = chunks.iter().flat_map(|(t, _)| t.iter().copied()).collect();
        let fits = ticks.first().is_some_and(|t| [Some(next), Some(local), told].contains(&Some(t.count())))
            && chunks.iter().all(|(_, words)| words.iter().any(does));
        fits.then_some(Change { ticks, chunks })
    })
}

/// "Instead of the sailor: 7 touch R together, 8 hold": new steps behind a sign, each led by its count.
fn row(text: &str, t: &[Token], first: &Mark) -> Option<Change> {
    let opens = |k: usize| k > 0 && matches!(t[k - 1].kind, Kind::Sign(':' | ',' | ';' | '\n'));
    let over =
        |t: &Token| matches!(t.kind, Kind::Sign('.' | '!' | '(') | Kind::W(W::Restart | W::Again | W::Face));
    if !opens(first.from) {
        return None;
    }
    let end = (first.to..t.len()).find(|k| over(&t[*k])).unwrap_or(t.len());
    let mut marks = vec![first.clone()];
    for k in first.to..end {
        let last = marks.last().and_then(|m| m.ticks.last()).copied().unwrap_or_default();
        let next = if opens(k) { mark(text, t, k, end) } else { None };
        marks.extend(next.filter(|m| m.ticks[0] > last && m.first() <= last.count() + 1));
    }
    let words = |k: usize| t[marks[k].to..marks.get(k + 1).map_or(end, |m| m.from)].to_vec();
    let chunks: Vec<(Vec<Ticks>, Vec<Token>)> =
        marks.iter().enumerate().map(|(k, m)| (m.ticks.clone(), words(k))).collect();
    let full = chunks.len() >= 2 && chunks.iter().all(|(_, words)| words.iter().any(does));
    full.then(|| Change { ticks: chunks.iter().flat_map(|(t, _)| t.iter().copied()).collect(), chunks })
}

/// "touch right together instead of stepping it (7&8 = ...)": what stands behind the new steps tells the old ones, or
/// the whole row again.
fn says_otherwise(text: &str, t: &[Token], from: usize, at: usize) -> bool {
    let word = |k: usize, w: &str| t.get(k).is_some_and(|t| t.span.of(text).eq_ignore_ascii_case(w));
    let over = word(at, "instead")
        || word(at, "not") && t[at - 1].sign(',')
        || word(at, "rather") && word(at + 1, "than")
        || word(at, "in") && word(at + 1, "place") && word(at + 2, "of")
        || matches!(t[at].kind, Kind::Sign('(' | '['))
            && mark(text, t, at + 1, t.len())
                .is_some_and(|m| t.get(m.to).is_some_and(|t| matches!(t.kind, Kind::Sign('=' | ':'))));
    over && t[from..at].iter().any(does)
}

/// "Don't rock back, step left beside right": behind what is not danced stands what is.
fn undone(words: &[Token]) -> &[Token] {
    let first = words.iter().position(|t| !matches!(t.kind, Kind::Sign(_)));
    if !first.is_some_and(|k| words[k].is(W::No)) {
        return words;
    }
    let cut = words.iter().position(|t| matches!(t.kind, Kind::Sign(',' | ';')));
    cut.map(|k| &words[k + 1..]).filter(|rest| rest.iter().any(does)).unwrap_or(words)
}

/// "31-32 = L forward, touch R": counts that are told anew.
fn equals(text: &str, t: &[Token], k: usize) -> bool {
    let opens = k == 0
        || matches!(
            t[k - 1].kind,
            Kind::Sign(',' | '.' | ';' | ':' | '(') | Kind::W(W::Then | W::And | W::Count)
        );
    opens
        && mark(text, t, k, t.len()).is_some_and(|m| {
            m.ticks.len() >= 2
                && t.get(m.to).is_some_and(|t| matches!(t.kind, Kind::Sign('=' | ':')))
                && t[m.to..].iter().take(6).any(does)
        })
}

/// "The last count of line 4 is touch R, not together": the token of the count, and where the new step begins.
fn is_now(text: &str, t: &[Token], k: usize) -> Option<(usize, usize)> {
    if !(t[k].is(W::Count) || t[k].is(W::Last)) {
        return None;
    }
    let ends = |t: &Token| matches!(t.kind, Kind::Sign('.' | '!' | '\n' | ','));
    let clause = t[k..].iter().position(ends).map_or(t.len(), |n| k + n);
    let is = |t: &Token| matches!(lower(t.span.of(text)).as_str(), "is" | "are");
    let to = (k..clause).find(|i| is(&t[*i]))? + 1;
    let not = t.get(clause).is_some_and(|t| t.sign(',')) && t.get(clause + 1).is_some_and(|t| t.is(W::No));
    (not && t[to..clause].iter().any(does)).then_some((k, to))
}

/// "to side", "to the L", "next to R": a way, not the word before something new.
fn aside(t: &[Token], k: usize) -> bool {
    let side = |t: &Token| matches!(t.kind, Kind::W(W::Side | W::R | W::L | W::Diagonal));
    let way = t[k + 1..].iter().skip_while(|t| t.is(W::The)).skip_while(|t| side(t));
    // "Next to R"
    if t[k].is(W::To) && k > 0 && matches!(t[k - 1].kind, Kind::W(W::Beside | W::Close)) {
        return true;
    }
    let over = way.clone().next().is_none_or(|t| matches!(t.kind, Kind::Sign(_) | Kind::Clock(_)));
    t[k].is(W::To) && over && way.count() < t.len() - k - 1
}

/// "Dance to count 6 and then ...", "up to count 4": how far one dances, not what is danced otherwise.
fn told_reach(text: &str, t: &[Token], at: usize) -> bool {
    let Some(k) = at.checked_sub(1).filter(|k| t[*k].is(W::Count)).and_then(|k| k.checked_sub(1)) else {
        return false;
    };
    matches!(t[k].kind, Kind::W(W::To | W::Up | W::While))
        || matches!(&*lower(t[k].span.of(text)), "until" | "till" | "through")
}

/// Whether the number at a token is that of a section: "S2 7&8".
fn section_number(text: &str, t: &[Token], at: usize) -> bool {
    let before = at.checked_sub(1).map(|k| &t[k]);
    matches!(t[at].kind, Kind::Number(_))
        && before.is_some_and(|b| {
            b.is(W::Section)
                || b.is(W::Set)
                || b.span.of(text).eq_ignore_ascii_case("line")
                || b.span.of(text).eq_ignore_ascii_case("s") && t[at].gap == 0
        })
}

/// The last count mark before a word of change in the same sentence, behind "for", "on", "with" or "count".
fn named_before(text: &str, t: &[Token], start: usize) -> Option<Mark> {
    let from =
        t[..start].iter().rposition(|t| matches!(t.kind, Kind::Sign('.' | '!' | '\n'))).map_or(0, |k| k + 1);
    (from + 1..start)
        .rev()
        .filter(|k| matches!(t[k - 1].kind, Kind::W(W::For | W::On | W::Count | W::With)))
        .find_map(|k| mark(text, t, k, start).filter(|m| m.ticks[0].0 > 0))
}

/// The last section before a restart as it is danced then, where the words about it change its steps, and the counts
/// that are danced before the restart with them.
pub(super) fn changed(
    text: &str,
    tokens: &[Token],
    after: u32,
    metre: Metre,
    own: &[Own],
    reading: &mut Reading,
) -> Option<(Section, u32)> {
    let (section, before) = section_at(reading, after)?;
    if let Some(what) = left_out(text, tokens) {
        return Some((without(section, after - before, what)?, after));
    }
    let own_labels = |l: &&super::trouble::Labelled| {
        let sections = reading.dance.parts.first().map(|p| &p.sections);
        l.part == 0 && sections.and_then(|s| s.get(l.section)).is_some_and(|s| s.span == section.span)
    };
    let labels: Vec<_> = reading.labels.iter().filter(own_labels).cloned().collect();
    let named = || super::swaps::swapped(text, tokens, &section, &labels, after - before);
    let found = find(text, tokens, after, before);
    let by_name = found.is_none();
    let by_words = || {
        named().map(|(ticks, words)| {
            let mut new = ticks.clone();
            whole(&mut new, &words);
            Change { chunks: vec![(new, words)], ticks }
        })
    };
    let change = found.or_else(by_words)?;
    let start_count = i32::try_from(before).ok()?;
    let counts = i32::try_from(section.counts).ok()?;
    let last = change.ticks.last()?.count();
    // Counts of the whole dance, or of the section.
    let shift = if by_name {
        0
    } else if last > counts || (last > start_count && start_count > 0 && last == i32::try_from(after).ok()?) {
        start_count
    } else {
        0
    };
    let local = |t: &Ticks| Ticks(t.0 - shift * 24);
    let ticks: Vec<Ticks> = change.ticks.iter().map(local).collect();
    let first = *ticks.first()?;
    let end = *ticks.last()?;
    let (kept, rest): (Vec<Move>, Vec<Move>) = section.moves.iter().cloned().partition(|m| m.at < first);
    let tail: Vec<Move> = rest.into_iter().filter(|m| m.at > end && m.at.count() > end.count()).collect();
    let weight = kept.last().map_or(section.weight_start, |m| m.after);
    let facing = kept.iter().fold(section.facing_start, |h, m| h.turned(m.turn));
    let mut words = SectionText { span: section.span, ..SectionText::default() };
    for (t, w) in &change.chunks {
        let from = words.tokens.len();
        words.tokens.extend_from_slice(w);
        let slots = Slots::At { ticks: t.iter().map(local).collect(), range: false };
        words.chunks.push(Chunk { slots, mark: Span::default(), from, to: words.tokens.len() });
    }
    let start = Start::beside(vec![(weight, 0)], facing, metre);
    let texts = [words];
    let way = search(text, &texts, &start, own);
    // What is odd about a change is odd about its words only.
    let troubles = reading.troubles.len();
    let labels = reading.labels.len();
    let (mut new, _) = built(text, &texts, &way, &start, 0, own, reading);
    reading.troubles.truncate(troubles);
    reading.labels.truncate(labels);
    let new = new.pop()?;
    if new.moves.is_empty() {
        return None;
    }
    let mut out = section.clone();
    out.moves = kept;
    out.moves.extend(new.moves.into_iter().map(|m| Move { figure: None, ..m }));
    out.moves.extend(tail);
    // "Dance up to count 14, then stomp (15), hold (16)": the new steps are danced before the restart.
    let told = change.chunks.iter().filter_map(|(t, _)| t.last()).map(|t| local(t).count()).max();
    let told = told.and_then(|n| u32::try_from(n).ok()).filter(|n| *n <= section.counts);
    let after = after.max(before + told.unwrap_or(0));
    // Only what is danced before the restart.
    let danced = i32::try_from(after.saturating_sub(before)).unwrap_or(i32::MAX);
    out.moves.retain(|m| m.at.count() <= danced);
    ended(&mut out);
    Some((out, after))
}

/// The section in which so many counts end, and the counts before it.
fn section_at(reading: &Reading, after: u32) -> Option<(Section, u32)> {
    let mut before = 0;
    for s in &reading.dance.parts.first()?.sections {
        if before + s.counts >= after {
            return Some((s.clone(), before));
        }
        before += s.counts;
    }
    None
}
