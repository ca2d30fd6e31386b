//! A foot steps or touches while it carries all the weight.

use super::edits;
use super::finding::Severity;
use super::subject::{Danced, Draft, Place, Subject};
use crate::dance::{Action, Broken, Effect, Foot, Move, Place as Spot, Who};
use crate::read::TroubleKind;
use crate::text::Span;

pub(super) const NAME: &str = "weight-not-free";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    let repeats = s.troubles(|k| matches!(k, TroubleKind::Repeat { .. } | TroubleKind::TwoOnOne));
    for part in 0..s.dance().parts.len() {
        let moves = s.moves(part);
        let mut last: Option<usize> = None;
        for (j, d) in moves.iter().enumerate() {
            if d.m.broken != Some(Broken::NotFree) || repeats.iter().any(|t| t.span == d.m.span) {
                continue;
            }
            // One swapped foot clashes with the step before it and with the one after it.
            if last.is_some_and(|l| j - l <= 2)
                && let Some(draft) = out.last_mut()
            {
                last = Some(j);
                draft.finding.related.push(super::finding::Related {
                    span: d.m.span,
                    label: "this does not fit either".to_string(),
                });
                continue;
            }
            last = Some(j);
            if let Some(draft) = one(s, part, &moves, j) {
                out.push(draft);
            }
        }
    }
}

fn one(s: &Subject<'_>, part: usize, moves: &[Danced<'_>], at: usize) -> Option<Draft> {
    let d = &moves[at];
    let Who::One(foot) = d.m.who else { return None };
    let place = Place { part, section: d.section, at: Some(d.m.at) };
    let does = does(d.m.action);
    if d.m.effect == Effect::Keeps {
        let mut draft = s.at(NAME, Severity::Error, d.m.span, place).says(format!(
            "“{}” needs the weight on the {} foot, and the weight is on the {} foot there; name the other foot, or put the weight there first.",
            s.quote(d.m.span),
            foot.word(),
            foot.other().word(),
        ));
        for edits in edits::other_foot(s.text, d.m.span) {
            draft.offer_at(place, 14, format!("use the {} foot", foot.other().word()), edits);
        }
        return Some(draft);
    }
    let took = (0..at).rev().find(|i| moves[*i].m.takes() == Some(foot));
    let before = took.map(|i| &moves[i]);
    let mut severity = Severity::Error;
    if let Some(b) = before
        && b.m.span.end <= d.m.span.start
        && s.unread_step_between(b.m.span.end, d.m.span.start)
    {
        // Words between the two were not understood: they may well free the foot.
        severity = Severity::Note;
    }
    let message = match before {
        Some(b) => {
            let from = Place { part, section: b.section, at: Some(b.m.at) };
            let when = if b.section == d.section {
                format!("on count {}", b.m.at)
            } else {
                format!("on {}", s.say(from))
            };
            format!(
                "“{}”: the {} foot took the weight {when}, so it cannot {does} on count {}; touch instead of stepping before it, step with the other foot in between, or use the {} foot here.",
                s.quote(d.m.span),
                foot.word(),
                d.m.at,
                foot.other().word(),
            )
        }
        None => format!(
            "“{}”: the {} foot carries all the weight and cannot {does} on count {}; use the {} foot, or free this one first.",
            s.quote(d.m.span),
            foot.word(),
            d.m.at,
            foot.other().word(),
        ),
    };
    let mut draft = s.at(NAME, severity, d.m.span, place).says(message);
    if let Some(b) = before {
        draft = draft.with(b.m.span, &format!("here the {} foot took the weight", foot.word()));
    }
    offers(s, &mut draft, part, moves, took, at, foot);
    Some(draft)
}

fn does(action: Action) -> &'static str {
    match action {
        Action::Touch | Action::Toe | Action::Point | Action::Heel => "touch",
        Action::Kick => "kick",
        Action::Hitch | Action::Hook | Action::Flick => "be lifted",
        Action::Brush | Action::Scuff | Action::Sweep | Action::Drag => "move",
        _ => "step",
    }
}

fn offers(
    s: &Subject<'_>,
    draft: &mut Draft,
    part: usize,
    moves: &[Danced<'_>],
    i: Option<usize>,
    j: usize,
    foot: Foot,
) {
    let place = |k: usize| Place { part, section: moves[k].section, at: Some(moves[k].m.at) };
    // With an & lost one of the steps has no moment of its own, and is lost with it.
    if let Some((mark, ticks)) = s.mark_at(moves[j].m.span.start)
        && ticks.iter().all(|t| t.within() == 0)
    {
        for (cost, edits) in super::two_on_one_count::halves(s.text, mark).into_iter().take(1) {
            let title = format!("count “{}”", crate::text::apply_to(s.text, mark, &edits));
            draft.offer_at(place(j), cost + 7, title, edits);
        }
    }
    let from = i.map_or(0, |i| i + 1);
    // A gesture or hold of the other foot between the two was meant as a step.
    for (k, d) in moves.iter().enumerate().take(j).skip(from) {
        let m = d.m;
        let other = m.who == Who::One(foot.other()) && m.effect == Effect::Free;
        let hold = m.action == Action::Hold;
        if !other && !hold {
            continue;
        }
        let cost = match m.action {
            Action::Touch => 10,
            Action::Hold => 30,
            _ => 18,
        };
        for edits in edits::to_step(s.text, m.span, foot.other()) {
            draft.offer_at(place(k), cost, format!("step instead of “{}”", s.quote(m.span)), edits);
        }
    }
    if let Some(i) = i {
        let m = moves[i].m;
        // A step that closes is the likeliest to be a touch.
        let closing = matches!(m.place, Spot::Close | Spot::Home | Spot::Third | Spot::In | Spot::InPlace);
        let cost = if closing { 11 } else { 16 };
        for edits in edits::to_touch(s.text, m.span) {
            draft.offer_at(place(i), cost, format!("touch instead of stepping on count {}", m.at), edits);
        }
        if m.figure.is_none() {
            other_foot(s, draft, m, place(i), 22);
        }
    }
    // A touch of the foot that has the weight was meant as a step, after one that was read too lightly.
    if moves[j].m.effect == Effect::Free {
        for edits in edits::to_step(s.text, moves[j].m.span, foot) {
            draft.offer_at(place(j), 14, format!("step instead of “{}”", s.quote(moves[j].m.span)), edits);
        }
    }
    other_foot(s, draft, moves[j].m, place(j), 20);
    mirrored(s, draft, moves[j].m, place(j));
}

/// All the words that share a count mark on the other foot, where a repeat goes to the other side.
fn mirrored(s: &Subject<'_>, draft: &mut Draft, m: &Move, place: Place) {
    let Some(words) = s.chunk_at(m.span.start) else { return };
    let edits = edits::all_sides(s.text, words);
    let count =
        s.mark_at(m.span.start).map_or_else(String::new, |(mark, _)| format!(" on {}", s.quote(mark)));
    if edits.len() > 1 {
        draft.offer_at(place, 24, format!("begin with the other foot{count}"), edits);
    }
}

/// The other foot for a move: likelier where its words do not fit together as they stand.
fn other_foot(s: &Subject<'_>, draft: &mut Draft, m: &Move, place: Place, cost: u32) {
    let Who::One(foot) = m.who else { return };
    let title = format!("use the {} foot on count {}", foot.other().word(), m.at);
    for edits in edits::other_foot(s.text, m.span) {
        let before = edits::odd(s.text, m.span);
        let changed = crate::text::apply_to(s.text, m.span, &edits);
        let after = edits::odd(&changed, Span::new(0, changed.len()));
        let cost = match (before, after) {
            (true, false) => cost - 9,
            (false, true) => cost + 8,
            _ => cost,
        };
        draft.offer_at(place, cost, title.clone(), edits);
    }
}

#[cfg(test)]
mod tests {
    use crate::report::{Options, report};

    #[test]
    fn a_foot_that_is_named_twice_is_not_read_as_the_other_one() {
        for (line, count) in [
            ("walk forward R R L, kick R, walk back R L R, touch L", 2),
            ("walk forward R L R, kick L, walk back L L R, touch L", 6),
            ("skate left, skate left, skate right, skate left, vine R, touch L", 2),
            ("vine left, touch, vine left, touch", 5),
            ("rock R forward, recover, rock L back, recover, walk R L R L", 6),
        ] {
            let text = format!("HARBOUR LAMPS\n8 counts, 1 wall, beginner\n\nSection 1\n{line}\n");
            let report = report(&text, &Options::default()).expect("a short sheet");
            let found = report.findings.iter().filter(|f| f.rule == super::NAME);
            let at: Vec<_> = found.filter_map(|f| f.at).map(crate::time::Ticks::count).collect();
            assert!(at.first().is_some_and(|n| (count - 1..=count + 1).contains(n)), "{line}: {at:?}");
        }
    }
}
