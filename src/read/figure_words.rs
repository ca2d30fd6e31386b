//! Names of figures in a sheet, with the lead, the turn and the ending that the words around them give.

use std::borrow::Cow;

use arrayvec::ArrayVec;

use super::around::{Around, feet_then_turn, modifiers, side, turn_size};
use super::costs;
use super::meaning::{Meaning, Named, TurnSaid};
use super::one_step::{one_step, with_step};
use super::series;
use super::told_steps::{
    closing_next, crosser_told, freed_next, recover_told, retold, spelled_out, spells, told_end,
};
use crate::dance::{Action, Effect, Foot, Place, Who};
use crate::figures::{Figure, Lexicon, NamePart, Step, name_word, usual_effect};
use crate::floor::Turn;
use crate::sheet::vocabulary::{W, Word};
use crate::sheet::words::{Kind, Token, acts};
use crate::text::{among, lower};
use crate::time::Ticks;

/// Adds the edges of all figures whose names begin at token `i`.
pub(super) fn figures_at(
    text: &str,
    t: &[Token],
    i: usize,
    clause: usize,
    limit: usize,
    lexicon: &'static Lexicon,
    push: &mut dyn FnMut(usize, u32, Meaning),
) {
    let mut words: ArrayVec<Word, 32> = ArrayVec::new();
    let mut around = Around::default();
    let mut last_turn = false;
    let mut j = i;
    let mut first = true;
    while j < clause.min(i + 16) && words.len() <= lexicon.longest() {
        match name_word(&t[j]) {
            NamePart::Stop => break,
            NamePart::Side => {
                let foot = side(t[j].kind);
                if last_turn && around.to.is_none() {
                    around.to = foot;
                } else if around.lead.is_none() {
                    around.lead = foot;
                } else if !(words.contains(&W::And.word()) && (j + 1 >= clause || t[j + 1].is(W::And))) {
                    // "heel R & heel L &" names both feet; elsewhere a second foot begins something else.
                    break;
                }
                last_turn = false;
            }
            NamePart::Turn => {
                if around.size.is_some() {
                    break;
                }
                around.size = turn_size(&t[j]);
                last_turn = true;
            }
            NamePart::Silent => {
                if t[j].is(W::With) && !words.is_empty() {
                    // Endings after "with" are read below, names such as "coaster with cross" here.
                    if !lexicon.named(&words).is_empty() {
                        offer(text, t, i, j, clause, limit, lexicon, &words, around, push);
                    }
                }
            }
            NamePart::Word(w) => {
                if first && t[j].is(W::And) {
                    break;
                }
                // No name goes on with a word that no name has.
                if !lexicon.in_names(w) {
                    break;
                }
                words.push(w);
                last_turn = t[j].is(W::Turn) && (last_turn || around.size.is_none());
            }
        }
        first = false;
        j += 1;
        // The name may end here; what follows is an ending, a turn or a foot.
        // "R out" is one step: "& out" names two only where no foot is said.
        let one_step = around.lead.is_some() && words[..] == [W::Out.word()];
        // "Jazz" is short for a jazz box, but not where the box stands behind it.
        let longer = matches!(t.get(j).map(|t| t.kind), Some(Kind::Name(noun)) if j < clause && {
            let whole: ArrayVec<Word, 33> = words.iter().copied().chain([noun]).collect();
            !lexicon.named(&whole).is_empty()
        });
        if !words.is_empty()
            && !one_step
            && !longer
            && (j >= clause || !matches!(name_word(&t[j]), NamePart::Silent))
        {
            offer(text, t, i, j, clause, limit, lexicon, &words, around, push);
        }
    }
}

/// What it costs that the side behind a turning figure is the way of its turn and not the foot that leads it.
const TURNED: u32 = 3;

/// What it costs that a name stands for the first steps of its figure only, whose last are told behind it.
const BEGUN: u32 = 14;

/// What a figure costs in its own quick rhythm where it is said to be slow.
const SLOW: u32 = 12;

/// One past the word that calls a figure slow: "slow mambo", "mambo forward slow", "coaster (slow)".
fn said_slow(t: &[Token], i: usize, end: usize, limit: usize) -> Option<usize> {
    let slow = |k: usize| t.get(k).filter(|_| k < limit).is_some_and(|t| t.is(W::Slow));
    let open = t.get(end).filter(|_| end < limit).is_some_and(|t| t.sign('('));
    if slow(end) {
        Some(end + 1)
    } else if open && slow(end + 1) && t.get(end + 2).is_some_and(|t| t.sign(')')) {
        Some(end + 3)
    } else {
        (i > 0 && t[i - 1].is(W::Slow) || (i..end).any(slow)).then_some(end)
    }
}

/// A figure with half-counts whose steps each take a whole one; nothing for others.
fn evened(named: &Named) -> Option<Named> {
    if named.steps.iter().all(|s| s.at.within() == 0) {
        return None;
    }
    let mut even = named.clone();
    let (mut count, mut last) = (0, None);
    for step in even.steps.to_mut() {
        count += i32::from(last != Some(step.at));
        last = Some(step.at);
        step.at = Ticks::of_count(count);
    }
    even.counts = u32::try_from(count).ok()?;
    Some(even)
}

/// Whether the next clause is nothing but the ending of a figure: "touch", "brush R", "hold", "scuff".
pub(super) fn ending_next(text: &str, t: &[Token], end: usize, limit: usize) -> bool {
    let mut j = end;
    while j < limit
        && matches!(t[j].kind, Kind::Sign(',' | '-') | Kind::W(W::And | W::Then | W::With | W::The | W::End))
    {
        j += 1;
    }
    // "K step, touch every time" tells how it goes.
    let each = t.get(j + 1).is_some_and(|t| t.span.is_among(text, among!["each", "every"]));
    j < limit
        && !each
        && matches!(
            t[j].kind,
            Kind::W(
                W::Touch
                    | W::Brush
                    | W::Scuff
                    | W::Hitch
                    | W::Kick
                    | W::Hook
                    | W::Flick
                    | W::Point
                    | W::Hold
                    | W::Clap
                    | W::Stomp
            )
        )
}

/// The colon behind words that only tell about a name: "rocking chair, four counts in all: rock forward".
fn aside(t: &[Token], end: usize, limit: usize) -> Option<usize> {
    let end = end + t[end..].iter().take_while(|t| matches!(t.kind, Kind::W(W::Foot | W::Side))).count();
    // "Jazz box without a turn: ...", "four stamps on the spot: ..."
    let no = t.get(end)?.is(W::No);
    if !no && !t[end].sign(',') && !matches!(t[end].kind, Kind::W(W::On | W::In | W::At)) {
        return None;
    }
    for (k, token) in t.iter().enumerate().take(limit.min(end + 9)).skip(end + 1) {
        match token.kind {
            Kind::Sign(':') => return Some(k),
            Kind::Sign(',' | '-') | Kind::Number(_) | Kind::Unknown => {}
            Kind::W(W::Turn) if no => {}
            Kind::W(w)
                if !acts(w)
                    && !matches!(
                        w,
                        W::R | W::L
                            | W::RF
                            | W::LF
                            | W::Forward
                            | W::Back
                            | W::Side
                            | W::Behind
                            | W::Across
                            | W::Beside
                            | W::Heel
                            | W::Toe
                            | W::Quarter
                            | W::Half
                    ) => {}
            _ => return None,
        }
    }
    None
}

/// Whether a figure is said to go to a side rather than to begin with a foot: "weave left", "volta left".
fn travels(word: &str) -> bool {
    word.starts_with("weav") || word.starts_with("volta")
}

#[allow(clippy::too_many_arguments, reason = "all that the words around a name may say")]
fn offer(
    text: &str,
    t: &[Token],
    i: usize,
    j: usize,
    clause: usize,
    limit: usize,
    lexicon: &'static Lexicon,
    words: &[Word],
    around: Around,
    push: &mut dyn FnMut(usize, u32, Meaning),
) {
    let hits = lexicon.named(words);
    if hits.is_empty() {
        return;
    }
    // A name inside a longer one is not offered where the longer one goes on with its own noun.
    let (after, end) = modifiers(text, t, j, clause, limit, around);
    let ended = ending_next(text, t, end, limit);
    let slow = said_slow(t, i, end, limit);
    let closed = closing_next(text, t, end, limit).or_else(|| freed_next(t, end, limit));
    let crosser = crosser_told(t, end, limit).or_else(|| crosser_told(t, j, limit));
    // "jazz box, R over L, last step L forward"
    let told = one_step(text, t, end, limit).or_else(|| one_step(text, t, crosser?.1, limit));
    let recovers = recover_told(t, end, limit);
    for hit in hits {
        let figure = &lexicon.figures[usize::from(hit.figure)];
        for (to, row) in series::told(text, t, j, limit, hit.figure, around.lead, lexicon) {
            push(to, 0, Meaning::Figure(row));
        }
        let fits = match (hit.turn, after.size) {
            (None, _) => 0,
            (Some(a), Some(b)) if a == b => 0,
            (Some(_), Some(_)) => 5,
            (Some(_), None) => continue,
        };
        // "Vine right, touch": the touch is the ending of the three steps, not a fifth count.
        let ends_itself =
            figure.steps.last().is_some_and(|s| s.effect == Effect::Free || s.effect == Effect::None);
        let shorter = hits.iter().any(|h| {
            let other = &lexicon.figures[usize::from(h.figure)];
            other.counts() + 1 == figure.counts() && other.steps.len() + 1 == figure.steps.len()
        });
        let longer = hits.iter().any(|h| {
            let other = &lexicon.figures[usize::from(h.figure)];
            other.counts() == figure.counts() + 1 && other.steps.len() == figure.steps.len() + 1
        });
        let unlikely = match (ended, ends_itself, longer && !ends_itself) {
            (true, true, _) => {
                if !shorter && figure.steps.len() >= 3 {
                    let mut named = named(hit.figure, figure, after);
                    named.steps.to_mut().pop();
                    named.counts = crate::figures::counts(&named.steps);
                    push(end, fits + if hit.unlikely { 14 } else { 0 }, Meaning::Figure(named));
                }
                10
            }
            (true, _, true) => 0,
            _ if hit.unlikely => 14,
            _ => 0,
        };
        let mut cost = fits + unlikely + 1;
        if let Some(to) = slow
            && let Some(even) = evened(&named(hit.figure, figure, after))
        {
            push(to, cost, Meaning::Figure(even));
            cost += SLOW;
        }
        // "Right heel switch": a switch in the singular is that of its foot.
        if after.lead.is_some()
            && figure.steps.len() == 4
            && t[i..j].iter().any(|t| t.span.is_among(text, among!["switch"]))
        {
            push(end, cost + 2, Meaning::Figure(named_steps(hit.figure, figure, after, 2)));
        }
        if let Some(begun) = begun(figure, after, limit < t.len()) {
            push(end, cost + BEGUN, Meaning::Figure(named_steps(hit.figure, figure, after, begun)));
        }
        if let Some(closing) = closed {
            told_end(hit.figure, figure, after, closing, cost + 2, &mut |m, c| push(end, c, m));
        }
        if hit.turn.is_none() && after.size.is_some() && figure.turn() == Turn::NONE {
            cost += 1;
        }
        // "Half pivot left", "paddle left": the side is the turn's direction, and the lead follows from it.
        let pivots = figure.steps.iter().any(|s| {
            matches!(
                s.action,
                Action::Pivot
                    | Action::Paddle
                    | Action::Unwind
                    | Action::Spiral
                    | Action::Spin
                    | Action::Turn
            )
        });
        // So does that of a circle, which turns with each step.
        let circles = figure.steps.len() >= 3 && figure.steps.iter().all(|s| s.turn != Turn::NONE);
        if (pivots || circles)
            && around.lead.is_none()
            && after.to.is_none()
            && after.lead.is_some()
            && !t[i..end].iter().any(|t| matches!(t.kind, Kind::W(W::RF | W::LF | W::Foot)))
        {
            let turned = Around { lead: None, to: after.lead, ..after };
            push(end, cost, Meaning::Figure(named(hit.figure, figure, turned)));
            cost += 8;
        }
        // "Half-turning shuffle left": behind a share of a turn the side may be the way of the turn.
        if !pivots
            && !circles
            && around.size.is_some()
            && around.lead.is_none()
            && after.to.is_none()
            && after.lead.is_some()
            && !t[j..end].iter().any(|t| matches!(t.kind, Kind::W(W::RF | W::LF | W::Foot | W::On)))
        {
            let turned = Around { lead: None, to: after.lead, ..after };
            push(end, cost + TURNED, Meaning::Figure(named(hit.figure, figure, turned)));
        }
        // "Weave left" goes to the left: where it begins across or behind, the right foot leads it.
        let crosses = figure.steps.first().is_some_and(|s| matches!(s.place, Place::Cross | Place::Behind));
        if crosses
            && let Some(lead) = after.lead
            && t[i..j].iter().any(|t| travels(&lower(t.span.of(text))))
        {
            let other = Around { lead: Some(lead.other()), ..after };
            push(end, cost + 2, Meaning::Figure(named(hit.figure, figure, other)));
        }
        // "Volta to the left, R over L" tells which foot crosses, and so which one leads.
        if let Some((foot, to)) = crosser
            && let Some(step) = figure
                .steps
                .iter()
                .find(|s| matches!(s.place, Place::Cross | Place::Behind | Place::LockBehind))
        {
            let lead = if step.who == Who::One(Foot::Right) { foot } else { foot.other() };
            if crosses || after.lead.is_none_or(|l| l == lead) {
                let told = Around { lead: Some(lead), ..after };
                push(to, cost + costs::CROSSER, Meaning::Figure(named(hit.figure, figure, told)));
            }
        }
        if let Some(told) = told
            && let Some(named) = with_step(hit.figure, figure, after, told)
        {
            // "Vine left, last step 1/4 left, touch": the touch is the ending of the three steps here, too.
            let unlikely = match (ending_next(text, t, told.to, limit), ends_itself) {
                (true, true) => 10,
                (false, _) if hit.unlikely => 14,
                _ => 0,
            };
            push(told.to, fits + unlikely + 1, Meaning::Figure(named));
        }
        if let Some((foot, to)) = recovers
            && let Some(Step { action: Action::Recover, who: Who::One(who), .. }) = figure.steps.last()
        {
            let lead = foot.map(|f| if f == *who { Foot::Right } else { Foot::Left });
            if lead.is_none() || after.lead.is_none_or(|l| Some(l) == lead) {
                let told = Around { lead: after.lead.or(lead), ..after };
                push(to, cost, Meaning::Figure(named(hit.figure, figure, told)));
            }
        }
        let named = named(hit.figure, figure, after);
        for from in [end, j] {
            // The first foot may be the one that the words around the name took for its lead.
            let from = if from == j && around.lead.is_some() && j > i && side(t[j - 1].kind).is_some() {
                j - 1
            } else {
                from
            };
            if let Some((to, lead, place)) = retold(t, from, limit, &named) {
                let mut told = Named { lead: Some(lead), ..named.clone() };
                if let Some(last) = told.steps.to_mut().last_mut() {
                    last.place = place;
                }
                push(to, cost, Meaning::Figure(told));
                break;
            }
        }
        let label_end = aside(t, end, limit).unwrap_or(end);
        let next = t.get(label_end).filter(|_| label_end < limit).map(|t| t.kind);
        // A label is followed by steps, not by a clock, an order of feet or nothing. Where the colon ends the
        // words of a count mark, the steps stand under the next one.
        let ends = matches!(next, Some(Kind::Sign(':'))) && label_end + 1 == limit;
        let until = if ends { t.len().min(limit + 16) } else { limit };
        let following = t.get(label_end + 1..until).unwrap_or(&[]);
        // "Shuffle back: right, left, right. Rock ...": the next sentence tells something else.
        let colon = matches!(next, Some(Kind::Sign(':')));
        let stop = following.iter().position(|t| t.sign('.')).filter(|k| colon && *k > 0);
        let following = stop.map_or(following, |k| &following[..k]);
        let steps = following.iter().any(|t| {
            matches!(t.kind, Kind::Name(_))
                || matches!(t.kind, Kind::W(w) if acts(w) || matches!(w, W::Side | W::Back | W::Forward | W::Behind | W::Heel | W::Toe | W::Out))
        });
        // "Full turn (easier: walk, walk)" tells what else may be danced, not what it is made of.
        let option = following.iter().take(3).any(|t| t.is(W::Option) || t.is(W::Or));
        // "Rolling vine right (full turn: R, L, R)" only tells what it is.
        let told = |t: &Token| {
            matches!(t.kind, Kind::Name(_))
                || matches!(t.kind, Kind::W(w) if acts(w) && w != W::Turn)
                || matches!(
                    t.kind,
                    Kind::W(W::Side | W::Back | W::Forward | W::Behind | W::Heel | W::Toe | W::Out)
                )
        };
        let inside = following.iter().take_while(|t| !t.sign(')') && !t.sign(']')).any(told);
        let bracket = matches!(next, Some(Kind::Sign('(' | '[')));
        let steps = steps && (inside || !bracket);
        let steps = steps && !(option && matches!(next, Some(Kind::Sign('(' | '['))));
        let parted = matches!(next, Some(Kind::Sign('-'))) && dashes(t, i, limit) > 1;
        let colon = steps && !parted && matches!(next, Some(Kind::Sign(':' | '(' | '-' | '=' | '[')));
        // "Toe strut (toe, heel)" tells without a foot what the name means, too.
        let meant = bracket
            && !following.iter().take_while(|t| !t.sign(')') && !t.sign(']')).any(|t| side(t.kind).is_some());
        // "Rumba box. Side R, together, ...": a name as a sentence of its own may be a title.
        let title = matches!(next, Some(Kind::Sign('.' | '\n')))
            && (i == 0 || matches!(t[i - 1].kind, Kind::Sign('\n' | '.' | '!' | '"')));
        if !steps {
            push(end, cost, Meaning::Figure(named));
            continue;
        }
        let spelled = matches!(next, Some(Kind::Sign(',' | '.'))) && spells(t, label_end + 1, limit, &named);
        let label = match (colon, title) {
            (true, _) => 0,
            _ if spelled => costs::TOLD_AGAIN / 2,
            (_, true) => costs::TITLE,
            _ => costs::LABEL + 20,
        };
        let turn = named.turn;
        let rest = t.get(label_end..).unwrap_or(&[]);
        let stop = rest.iter().position(|t| matches!(t.kind, Kind::Sign('.' | '\n'))).unwrap_or(rest.len());
        let turned = rest[..stop].iter().any(|t| {
            matches!(t.kind, Kind::Fraction(_))
                || t.sign('°')
                || matches!(t.kind, Kind::W(W::Quarter | W::Half | W::Full))
        });
        let turn = if turned { TurnSaid::None } else { turn };
        if colon && let Some(to) = spelled_out(t, label_end + 1, limit, &named) {
            push(to, cost + costs::SPELLED_OUT, Meaning::Figure(named.clone()));
        }
        let again = if colon && !meant || spelled { costs::LABEL } else { 0 };
        push(end, cost + again, Meaning::Figure(named));
        let to = if colon { label_end } else { end };
        push(to, label + cost, Meaning::Label(hit.figure, after.lead, turn));
    }
}

/// How many steps of a figure the first two of its counts hold, where its words may stand beside those only: "vine left
/// (5,6), 1/4 turn left on L (7), scuff (8)".
fn begun(figure: &Figure, after: Around, more: bool) -> Option<usize> {
    let even =
        figure.steps.iter().zip(1..).all(|(s, n)| s.at == Ticks::of_count(n) && s.effect == Effect::Takes);
    let plain = after.size.is_none() && after.ending.is_none() && figure.turn() == Turn::NONE;
    (more && even && plain && figure.steps.len() == 3).then_some(2)
}

/// The first steps of a figure.
fn named_steps(id: u16, figure: &'static Figure, after: Around, steps: usize) -> Named {
    let mut named = named(id, figure, after);
    named.steps.to_mut().truncate(steps);
    named.counts = crate::figures::counts(&named.steps);
    named
}

/// How many dashes with a blank at each side stand in the sentence of a token; more than one of them part steps.
fn dashes(t: &[Token], i: usize, limit: usize) -> usize {
    let stop = |t: &Token| matches!(t.kind, Kind::Sign('.' | ';' | '\n'));
    let from = t[..i].iter().rposition(stop).map_or(0, |k| k + 1);
    let to = t[i..limit].iter().position(stop).map_or(limit, |k| i + k);
    t[from..to].windows(2).filter(|w| w[0].sign('-') && w[0].gap > 0 && w[1].gap > 0).count()
}

/// A step forward and a pivot of this size.
pub(super) fn stepped_pivot(
    lexicon: &'static Lexicon,
    lead: Option<Foot>,
    size: Option<i32>,
    to: Foot,
) -> Option<Named> {
    let id = lexicon.named(&[W::Step.word(), W::Pivot.word()]).first()?.figure;
    let around = Around { lead, size, to: Some(to), ..Around::default() };
    Some(named(id, &lexicon.figures[usize::from(id)], around))
}

/// Adds the shuffles that the feet at token `i` are, where the words behind them tell a turn: "R L R turning 1/2 L".
/// Whether there are such words.
pub(super) fn turning_feet(
    text: &str,
    t: &[Token],
    i: usize,
    clause: usize,
    limit: usize,
    lexicon: &'static Lexicon,
    push: &mut dyn FnMut(usize, u32, Meaning),
) -> bool {
    let feet = side(t[i].kind).is_some() || t[i].kind == Kind::Feet;
    if feet
        && feet_then_turn(text, t, i, limit).is_some()
        && let Some((shuffle, _)) = lexicon.vocabulary.get("shuffle")
    {
        let mut shuffles = |to, cost, meaning| push(to, cost + 1, meaning);
        offer(text, t, i, i, clause, limit, lexicon, &[shuffle], Around::default(), &mut shuffles);
        return true;
    }
    false
}

/// The figure with what stands around its name.
pub(super) fn named(id: u16, figure: &'static Figure, a: Around) -> Named {
    let mut steps = Cow::Borrowed(&figure.steps[..]);
    if let Some((action, place)) = a.ending {
        end_with(steps.to_mut(), figure, action, place);
    }
    let own_turn = figure.turn() != Turn::NONE;
    let turn = match (a.size, a.to) {
        (Some(size), Some(Foot::Right)) => TurnSaid::Known(Turn(size)),
        (Some(size), Some(Foot::Left)) => TurnSaid::Known(Turn(-size)),
        (Some(size), None) => TurnSaid::Size(size),
        (None, Some(to)) => TurnSaid::To(to),
        _ => TurnSaid::None,
    };
    Named {
        figure: id,
        lead: a.lead.or(a.toward),
        turn,
        counts: crate::figures::counts(&steps).max(figure.counts()),
        turn_on: figure.turn_on,
        own_turn,
        steps,
    }
}

/// Puts another ending on a figure: instead of its last action, or on the count after it.
fn end_with(steps: &mut Vec<Step>, figure: &Figure, action: Action, place: Place) {
    let Some(last) = steps.last().copied() else { return };
    let gesture = last.effect != Effect::Takes;
    let even = figure.counts().is_multiple_of(2) && last.at.within() == 0;
    let effect = usual_effect(action);
    if gesture || even {
        if let Some(step) = steps.last_mut() {
            step.action = action;
            step.place = place;
            step.effect = effect;
        }
    } else {
        let who = match last.who {
            Who::One(foot) => Who::One(foot.other()),
            other => other,
        };
        let who = if effect == Effect::None { Who::Nobody } else { who };
        steps.push(Step {
            at: Ticks::of_count(last.at.count() + 1),
            who,
            action,
            place,
            effect,
            turn: Turn::NONE,
            ..last
        });
    }
}
