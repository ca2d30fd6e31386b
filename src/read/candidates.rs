//! What the words of a section may mean: the edges of the lattice.

use arrayvec::ArrayVec;

use super::apart::{bare_feet, bracket, cut_in_two, own_at, place_led, told_again, whole_names};
use super::around::turn_size;
use super::clauses::{
    awaits, changed_end, changed_when, clause_end, ends_so, explains, explicitness, foot_word, half_beat,
    in_steps, leads_over, leads_with, led_in_turn, lets, pass_cost, restated, sentence_end, starts_again,
    styling, turn_to_face,
};
use super::costs;
use super::figure_words::{figures_at, stepped_pivot, turning_feet};
use super::lead_ins::{called_triple, leads_to, passed, written_again};
use super::manner::{circle, manner, swivelled};
use super::meaning::{Edge, Meaning, Own};
use super::phrases::{feet_list, feet_then_gesture, repeat_at};
use super::remarks::{says_when, shifts_weight, stood_on, telling};
use super::series;
use super::several::{
    landing, lasts_ahead, lasts_behind, names_steps, plural, several, standing, stomps_before, times_behind,
    walks_on, weightless, weighty,
};
use super::wordings::step_edges;
use crate::dance::{Action, Place, TurnWhen};
use crate::figures::{Lexicon, Taking, WeightSaid, Written, weight_remark, written_met};
use crate::floor::Heading;
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, acts};
use crate::text::{among, begins_with};

/// Takes nothing otherwise.
const PLAIN: Taking = Taking {
    side_is_direction: false,
    direction_is_step: false,
    side_is_other: false,
    side_is_turn: false,
    verb_last: false,
    foot_begins: false,
};

const TAKINGS: [Taking; 7] = [
    PLAIN,
    Taking { direction_is_step: true, ..PLAIN },
    Taking { side_is_direction: true, ..PLAIN },
    Taking { side_is_other: true, ..PLAIN },
    Taking { side_is_turn: true, ..PLAIN },
    Taking { verb_last: true, ..PLAIN },
    Taking { foot_begins: true, ..PLAIN },
];

/// Adds all readings of the words that begin at token `i` of a chunk that ends at `limit`.
pub(super) fn edges(
    text: &str,
    t: &[Token],
    i: usize,
    limit: usize,
    lexicon: &'static Lexicon,
    own: &[Own],
    out: &mut Vec<Edge>,
) {
    let known = out.len();
    let token = t[i];
    let span_to = |to: usize| token.span.join(t[to.max(i + 1) - 1].span);
    let mut push =
        |to: usize, cost: u32, meaning: Meaning| out.push(Edge { to, cost, meaning, span: span_to(to) });
    match token.kind {
        Kind::Sign(_) => {
            // Words joined by a hyphen are rather one figure than several steps.
            let joined =
                token.sign('-') && token.gap == 0 && i > 0 && t.get(i + 1).is_some_and(|n| n.gap == 0);
            push(i + 1, if joined { 2 } else { 0 }, Meaning::Skip);
            if matches!(token.kind, Kind::Sign('(' | '[')) {
                bracket(text, t, i, limit, &mut push);
                if let Some(to) = called_triple(text, t, i, limit) {
                    push(to, 1, Meaning::Skip);
                }
            }
            return;
        }
        Kind::Clock(h) => {
            let extra = usize::from(t.get(i + 1).is_some_and(|t| t.is(W::OClock) && i + 1 < limit));
            push(i + 1 + extra, 0, Meaning::Clock(h));
            // "twice (3:00, 9:00)": the first is passed on the way to the other.
            push(i + 1, if passed(t, i + extra, limit) { 1 } else { costs::CLOCK + 8 }, Meaning::Skip);
            return;
        }
        Kind::Number(n @ 1..=12) if t.get(i + 1).is_some_and(|t| t.is(W::OClock)) && i + 1 < limit => {
            push(i + 2, 0, Meaning::Clock(Heading::new(i32::try_from(n * 4).unwrap_or(0))));
            return;
        }
        Kind::W(W::And) => {
            push(i + 1, 1, Meaning::Skip);
            // Among words a plus joins, as "and" does; an ampersand rather counts.
            // "Vine R & touch", "& quarter left" goes on with what takes no weight.
            let light = t.get(i + 1).is_some_and(|t| {
                matches!(
                    t.kind,
                    Kind::Fraction(_) | Kind::W(W::Touch | W::Brush | W::Scuff | W::Quarter | W::Half)
                )
            });
            let counts = token.span.of(text).starts_with('&') && !light;
            push(i + 1, if counts { 0 } else { 6 }, Meaning::Half);
        }
        _ => {}
    }
    let clause = clause_end(t, i, limit);
    // "Three walks forward from the right foot" names the foot of the first.
    let clause = (i + 1..clause).find(|k| leads_with(text, t, *k, clause).is_some()).unwrap_or(clause);
    if let Some(to) = lets(text, t, i, clause) {
        push(to, 1, Meaning::Skip);
        // By itself it is all that is done on its counts.
        if i == 0 || !t[i - 1].sign(',') && !t[i - 1].is(W::And) {
            let hold = Written { action: Some(Action::Hold), end: to, ..Written::default() };
            step_edges(&hold, false, 2, None, &mut push);
        }
        return;
    }
    if let Some(to) = awaits(text, t, i, clause) {
        push(to, 1, Meaning::Skip);
        return;
    }
    if let Some(to) = circle(text, t, i, clause) {
        push(to, 0, Meaning::Skip);
        return;
    }
    if let Some(n) = several(t, i, clause) {
        // "4 sways R L R L": the order of the feet says how many.
        let listed =
            t.get(i + 2).filter(|_| i + 2 < limit && weighty(t[i + 1].kind) && plural(text, &t[i + 1]));
        let feet = listed.and_then(|_| feet_list(text, t, i + 2, limit));
        if feet.is_some_and(|(feet, _)| u32::try_from(feet.len()) == Ok(n)) {
            push(i + 1, 0, Meaning::Skip);
            return;
        }
        let mut each = Vec::new();
        edges(text, t, i + 1, limit, lexicon, own, &mut each);
        for e in each {
            // "Four sways" are four, though "sways" by itself is a figure of two.
            let single = e.to == i + 2 && matches!(e.meaning, Meaning::Figure(_)) && weighty(t[i + 1].kind);
            let steps =
                matches!(e.meaning, Meaning::Event(_) | Meaning::Figure(_) | Meaning::Own(..)) && !single;
            // "2x kick ball change" needs no plural.
            let many = matches!(token.kind, Kind::Times(_)) || t[i + 1..e.to].iter().any(|t| plural(text, t));
            if let Meaning::Figure(named) = &e.meaning
                && many
                && let Some(row) = series::several(n, named, lexicon)
            {
                push(e.to, e.cost, Meaning::Figure(row));
                continue;
            }
            if steps && many {
                push(e.to, e.cost, Meaning::Several(n, Box::new(e.meaning)));
            }
        }
    }
    // A remark about the weight.
    if says_when(text, t, i, clause) {
        push(clause, 1, Meaning::Skip);
    }
    if let Some(to) = stood_on(text, t, i, clause) {
        push(to, 1, Meaning::Weight(WeightSaid::Taken));
    }
    if let Some((said, to)) = weight_remark(t, i, clause.max(i + 1)) {
        push(to, 0, Meaning::Weight(said));
    }
    if let Some(to) = written_again(text, t, i, limit) {
        push(to, 0, Meaning::Skip);
    }
    if let Some((repeat, to, cost)) = repeat_at(text, t, i, clause, limit) {
        push(to, cost, Meaning::Repeat(repeat));
    }
    if let Some((foot, place, to)) = telling(text, t, i, clause.max(i)) {
        push(to, 0, Meaning::Tells(foot, place));
    }
    if let Some((feet, to)) = feet_then_gesture(text, t, i, limit) {
        push(to, 2, Meaning::Feet(feet));
    }
    let begins = i == 0 || matches!(t[i - 1].kind, Kind::Sign(_) | Kind::W(W::And | W::Then));
    // "R L R turning 1/2 L": three steps that turn are a shuffle, where their counts are those of one.
    let shuffles = begins && turning_feet(text, t, i, clause, limit, lexicon, &mut push);
    if let Some((feet, to)) = feet_list(text, t, i, limit) {
        if led_in_turn(text, t, i) == Some(feet.len()) {
            push(to, 0, Meaning::Skip);
        }
        push(to, if shuffles { costs::BARE_FEET } else { 0 }, Meaning::Feet(feet));
    }
    // "right, left, right", "left, together, left, touch": feet alone, where their counts ask for steps.
    if begins && let Some((n, foot, to)) = bare_feet(text, t, i, clause, limit) {
        let beside = |k: usize| {
            t.get(k).is_some_and(|t| matches!(t.kind, Kind::W(W::Together | W::Close | W::Beside | W::Touch)))
        };
        let place =
            if n == 1 && (beside(to + 1) || i > 1 && beside(i - 2)) { Place::Side } else { Place::InPlace };
        let foot = if n == 1 { foot } else { None };
        let step =
            Written { action: Some(Action::Step), place: Some(place), foot, end: to, ..Written::default() };
        step_edges(&step, false, costs::BARE_FEET, None, &mut |to, cost, meaning| {
            let many = if n == 1 { meaning } else { Meaning::Several(n, Box::new(meaning)) };
            push(to, cost, many);
        });
    }
    // "facing 6:00", "to face the back wall"
    if token.is(W::Face) {
        push(i + 1, 0, Meaning::Skip);
    }
    if let Some(to) = styling(t, i, clause) {
        push(to, 1, Meaning::Skip);
    }
    if let Some(to) = half_beat(t, i, limit) {
        push(to, 0, Meaning::Skip);
    }
    if let Some(to) = called_triple(text, t, i, limit) {
        push(to, 1, Meaning::Skip);
    }
    if let Some(to) = leads_with(text, t, i, clause) {
        push(to, 1, Meaning::Skip);
    }
    if let Some(to) = changed_when(text, t, i, clause) {
        push(to, 0, Meaning::Skip);
    }
    if let Some(to) = changed_end(text, t, i, clause) {
        push(to, 0, Meaning::Weight(WeightSaid::NotTaken));
    }
    if let Some(to) = restated(text, t, i, clause) {
        push(to, 0, Meaning::Skip);
    }
    if let Some(to) = ends_so(t, i, clause) {
        push(to, 0, Meaning::Skip);
    }
    if let Some(to) = in_steps(t, i, limit) {
        push(to, 0, Meaning::Skip);
    }
    if let Some(to) = leads_over(t, i, clause) {
        push(to, 2, Meaning::Skip);
    }
    if let Some(to) = manner(text, t, i, clause) {
        push(to, 1, Meaning::Skip);
    }
    if let Some(side) = swivelled(t, i, clause) {
        step_edges(&side, false, 1, None, &mut push);
    }
    if let Some(to) = starts_again(text, t, i, limit) {
        push(to, 1, Meaning::Skip);
    }
    if let Some((heading, to)) = turn_to_face(text, t, i, limit) {
        push(to, 0, Meaning::TurnTo(heading));
    }
    if let Some(to) = explains(text, t, i, limit) {
        push(to, 1, Meaning::Skip);
    }
    // Nothing else is danced of these words.
    if let Some(to) = leads_to(t, i, clause) {
        push(to, 1, Meaning::Skip);
        return;
    }
    // "4 x (step, pivot 1/4 L) = full turn"
    let sums = |t: &Token| {
        matches!(
            t.kind,
            Kind::Fraction(_) | Kind::W(W::Full | W::Half | W::Quarter | W::Turn | W::The | W::R | W::L)
        )
    };
    if i > 0 && t[i - 1].sign('=') && clause > i && t[i..clause].iter().all(sums) {
        push(clause, 0, Meaning::Skip);
    }
    // "... takes you back to 9:00"
    if token.is(W::Back)
        && t.get(i + 1).is_some_and(|t| matches!(t.kind, Kind::W(W::To | W::At)))
        && t.get(i + 2).is_some_and(|t| i + 2 < limit && matches!(t.kind, Kind::Clock(_)))
    {
        push(i + 2, 0, Meaning::Skip);
    }
    // Written steps.
    // "switch": the foot that is out comes home.
    if matches!(token.kind, Kind::Name(_)) && clause == i + 1 && begins_with(token.span.of(text), "switch") {
        let home = Written {
            action: Some(Action::Step),
            place: Some(Place::Close),
            end: i + 1,
            ..Written::default()
        };
        step_edges(&home, false, 2, None, &mut push);
    }
    // "change weight to LF": the foot beside takes it.
    if token.is(W::Change) && t.get(i + 1).filter(|_| i + 1 < limit).is_some_and(|t| t.is(W::Weight)) {
        let shift = Written { action: Some(Action::Shift), end: i + 1, ..Written::default() };
        step_edges(&shift, false, 2, None, &mut push);
    }
    // "small jump forward, landing right then left" is a step of each foot.
    if let Some((to, foot)) = landing(text, t, clause, limit)
        && let (Some(w), _) = written_met(text, t, i, clause, Taking::default())
        && w.action == Some(Action::Jump)
        && w.end == clause
    {
        let step = Written { action: Some(Action::Step), foot: Some(foot), both: false, end: to, ..w };
        step_edges(&step, false, 0, None, &mut push);
    }
    // "on ball of L make half turn R": the foot that stands.
    if token.is(W::On)
        && let Some(to) = standing(t, i, clause)
    {
        push(to, 0, Meaning::Skip);
    }
    // "side, behind, turn": a quarter, stepping forward.
    if token.is(W::Turn) && clause == i + 1 {
        let quarter = Written {
            action: Some(Action::Step),
            place: Some(Place::Forward),
            turn: Some(crate::figures::WrittenTurn { size: Some(12), to: None }),
            end: i + 1,
            ..Written::default()
        };
        step_edges(&quarter, false, 12, None, &mut push);
    }
    // "Close the eight with a left sailor", "finish the section with a coaster step"
    if matches!(token.kind, Kind::W(W::Close | W::End))
        && let Some(with) = (i + 1..clause.min(i + 5)).find(|k| t[*k].is(W::With))
        && t[i + 1..with].iter().any(|t| matches!(t.kind, Kind::W(W::Eight | W::Section | W::Set | W::Count)))
    {
        push(with + 1, 1, Meaning::Skip);
    }
    // "2nd we make a kick ball change", "first, right forward": the order in which things are told.
    if matches!(token.kind, Kind::W(W::First | W::Second | W::ThirdTh | W::Third | W::Fourth | W::Last))
        && (i == 0 || matches!(t[i - 1].kind, Kind::Sign(_)))
        && t.get(i + 1).filter(|_| i + 1 < limit).is_some_and(|t| {
            t.sign(',') || t.span.is_among(text, among!["we", "you", "comes", "a", "the", "do", "make"])
        })
    {
        push(i + 1, 1, Meaning::Skip);
    }
    // "Another half turn left"
    if token.kind == Kind::Unknown
        && token.span.is_among(text, among!["another"])
        && t.get(i + 1).filter(|_| i + 1 < limit).is_some_and(|t| turn_size(t).is_some())
    {
        push(i + 1, 1, Meaning::Skip);
    }
    // "Walk a vine to the right", "step a box": the verb only does the figure.
    if matches!(token.kind, Kind::W(W::Walk | W::Step | W::Take))
        && t.get(i + 1)
            .filter(|_| i + 1 < limit)
            .is_some_and(|t| t.span.is_among(text, among!["a", "the", "another"]))
        && t[i + 2..limit.max(i + 2)].iter().take(2).any(|t| matches!(t.kind, Kind::Name(_)))
    {
        push(i + 2, 2, Meaning::Skip);
    }
    // "feet apart", "feet together": how one stands, not a step.
    if token.is(W::Feet)
        && i + 1 < limit
        && t.get(i + 1)
            .is_some_and(|t| matches!(t.kind, Kind::W(W::Out | W::Together | W::In | W::Shoulder | W::Small)))
    {
        push(i + 2, 1, Meaning::Skip);
    }
    // "come back with ..." goes nowhere by itself.
    if token.kind == Kind::Unknown
        && begins_with(token.span.of(text), "com")
        && t.get(i + 1).is_some_and(|t| t.is(W::Back))
        && i + 1 < limit
    {
        push(i + 2, 3, Meaning::Skip);
    }
    // "the back wall", "home wall": where one looks, not a step.
    if matches!(token.kind, Kind::W(W::Back | W::Front | W::Side | W::Home))
        && t.get(i + 1).is_some_and(|t| t.is(W::Wall))
        && i + 1 < limit
    {
        push(i + 2, 0, Meaning::Skip);
    }
    // "(over 2 beats)" tells how long it lasts.
    if token.is(W::Across)
        && i + 2 < limit
        && matches!(t[i + 1].kind, Kind::Number(_))
        && t[i + 2].is(W::Count)
    {
        push(i + 3, 0, Meaning::Skip);
    }
    // "The last clap leaves the weight on left" tells of a step that was danced.
    if token.is(W::The)
        && t.get(i + 1).is_some_and(|t| t.is(W::Last))
        && let Some(n) = t[i..clause].iter().position(|t| t.is(W::Weight))
    {
        push(i + n, 4, Meaning::Skip);
    }
    // A bare direction in the middle of chat is no step.
    let amid = i > 0
        && matches!(
            t[i - 1].kind,
            Kind::Unknown | Kind::W(W::The | W::It | W::Make | W::Wall | W::At | W::From)
        );
    // "Tap right heel forward" is one step: its way does not begin another.
    let of_part = i > 0 && matches!(t[i - 1].kind, Kind::W(W::Heel | W::Toe | W::Foot));
    let cut = cut_in_two(t, i) && !place_led(t, i, clause);
    let colon =
        t.get(clause).is_some_and(|t| t.sign(':')) && clause < limit && names_steps(&t[clause + 1..limit]);
    if colon {
        push(clause, 8, Meaning::Skip);
    }
    // "Cross right over left, unwind": crossed feet share the weight.
    let ahead = match t.get(clause).map(|t| t.kind) {
        Some(Kind::Sign(',' | ';' | '-')) => t[clause + 1..limit.max(clause + 1)]
            .iter()
            .find(|t| !matches!(t.kind, Kind::W(W::And | W::Then | W::Slow)))
            .and_then(|t| if let Kind::W(w) = t.kind { Some(w) } else { None }),
        _ => None,
    };
    let mut seen: ArrayVec<Written, 7> = ArrayVec::new();
    let mut ways = Taking::default();
    for (n, taking) in TAKINGS.iter().enumerate() {
        if n > 0 && !ways.meets(*taking) {
            continue;
        }
        let (w, met) = written_met(text, t, i, clause.max(i + 1), *taking);
        if n == 0 {
            ways = met;
        }
        let Some(w) = w else { continue };
        if seen.contains(&w) {
            continue;
        }
        let penalty = if n == 0 { 0 } else { [0, 2, 9, 64, 5, 1, 1][n] } + w.skipped * costs::UNKNOWN;
        let bare = w.action.is_none() && w.foot.is_none() && w.part.is_none();
        // "Jump back: step right back, step left beside" only names the steps behind the colon.
        let names = w.end == clause && colon;
        // "R shuffle": the foot is the figure's.
        let of_name = w.action.is_none()
            && w.place.is_none()
            && w.part.is_none()
            && w.end < clause
            && matches!(t[w.end].kind, Kind::Name(_));
        let more = [
            (bare && amid, 16),
            (bare && of_part, 40),
            (of_name, costs::FOOT_OF_NAME),
            (names, 30),
            (cut, costs::FOOT_BENT),
        ];
        let more: u32 = more.iter().filter(|m| m.0).map(|m| m.1).sum();
        if let Some((n, to)) = times_behind(text, t, i, &w, clause, limit) {
            // "Walk back three", "walk forward for three counts": so many walks.
            let mut each = None;
            let once = Written {
                lasts: None,
                turn: w.turn.filter(|turn| turn.size != Some(48)),
                end: to,
                ..w.clone()
            };
            step_edges(&once, taking.side_is_direction, penalty + more, ahead, &mut |to, cost, meaning| {
                if matches!(meaning, Meaning::Event(_)) {
                    each.get_or_insert((to, cost, meaning));
                }
            });
            if let Some((to, cost, meaning)) = each {
                push(to, cost, Meaning::Several(n, Box::new(meaning)));
            }
        }
        // "1-4 Walk forward": as many walks as there are counts.
        if n == 0 && walks_on(text, t, i, &w, clause, limit) {
            let mut each = None;
            step_edges(&w, taking.side_is_direction, penalty + more, ahead, &mut |to, cost, meaning| {
                if matches!(meaning, Meaning::Event(_)) {
                    each.get_or_insert((to, cost, meaning));
                }
            });
            for n in 2..=4 {
                if let Some((to, cost, meaning)) = each.clone() {
                    push(to, cost + costs::WALKS_ON, Meaning::Several(n, Box::new(meaning)));
                }
            }
        }
        // "Kick slowly forward, it needs two counts"
        if n == 0 && w.lasts.is_none() {
            let behind = (w.end == clause).then(|| lasts_behind(text, t, clause, limit, &w)).flatten();
            let told = behind.or_else(|| lasts_ahead(text, t, i).map(|n| (n, w.end)));
            if let Some((n, end)) = told {
                let slow = Written { lasts: Some(n), end, ..w.clone() };
                step_edges(&slow, taking.side_is_direction, penalty + more, ahead, &mut push);
            }
        }
        // "Stomp twice without putting weight on it": all of them.
        let w = Written {
            up: w.up
                || w.action == Some(Action::Stomp) && weightless(text, &t[w.end..limit.max(w.end)], w.foot),
            ..w
        };
        // "Hips R, L, changing weight each time" are sways.
        let shifted = w.action == Some(Action::Bump) && shifts_weight(&t[i..limit.max(i)]);
        let w = Written { action: if shifted { Some(Action::Sway) } else { w.action }, ..w };
        if w.action == Some(Action::Drop) && stomps_before(t, i) {
            // "Stomp right, drop the heel three times": the weight may come last.
            let free = Written { action: Some(Action::Bounce), ..w.clone() };
            step_edges(&free, taking.side_is_direction, penalty + more + 2, ahead, &mut push);
        }
        step_edges(&w, taking.side_is_direction, penalty + more, ahead, &mut push);
        // "R forward 1/2 L", "step 1/4 L" are short for a step and a pivot, where they fill two counts.
        if n == 0
            && (w.end == clause || t[w.end].gap == 2)
            && matches!(
                (w.action, w.place, w.part),
                (None, Some(Place::Forward), None) | (Some(Action::Step), None | Some(Place::Forward), None)
            )
            && let Some(crate::figures::WrittenTurn { size: Some(12..), to: Some(to) }) = w.turn
            && w.turn_when == TurnWhen::After
            && let Some(pivot) = stepped_pivot(lexicon, w.foot, w.turn.and_then(|t| t.size), to)
        {
            push(w.end, penalty + more + costs::PIVOT_UNSAID, Meaning::Figure(pivot));
        }
        seen.push(w);
    }
    if let Some(k) = (i + 2..clause).find(|k| place_led(t, *k, clause))
        && let (Some(w), _) = written_met(text, t, i, k, PLAIN)
        && w.end == k
        && !seen.contains(&w)
    {
        step_edges(&w, false, 2, None, &mut push);
    }
    figures_at(text, t, i, clause, limit, lexicon, &mut push);
    whole_names(t, clause, &mut out[known..]);
    let mut push =
        |to: usize, cost: u32, meaning: Meaning| out.push(Edge { to, cost, meaning, span: span_to(to) });
    for (n, figure) in own.iter().enumerate() {
        if let Some((lead, to)) = own_at(text, t, i, clause, figure) {
            push(to, 0, Meaning::Own(n, lead));
        }
    }
    // Passing over.
    if clause > i && token.kind != Kind::Feet {
        let c = &t[i..clause];
        let words = u32::try_from(c.len()).unwrap_or(u32::MAX);
        let base = explicitness(text, c);
        // "finish together" tells how the steps before it end; "finish with four sways" dances them.
        let danced = |t: &Token| match t.kind {
            Kind::Name(_) => true,
            Kind::W(w) => acts(w) && !matches!(w, W::Together | W::Close | W::Turn),
            _ => false,
        };
        let base = if token.is(W::End) && !c.iter().any(danced) { base.min(6) } else { base };
        // What is to be repeated is said outright.
        let outright = token.is(W::Repeat)
            && c.iter()
                .any(|t| matches!(t.kind, Kind::Number(_) | Kind::W(W::Other | W::Same | W::R | W::L)));
        let base = if outright { base.max(costs::NOT_FREE * 2) } else { base };
        // An order of feet is told as a whole, or each of them is a step.
        let order = clause == i + 1 && feet_list(text, t, i, limit).is_some();
        let base = if order { base.max(costs::SKIP_FOOT) } else { base };
        // So is a row of feet: "L R" in "walk back L L R".
        let row = c.iter().all(|t| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF)));
        let base = if row && words > 1 { base.max(costs::SKIP_FOOT * words.min(8)) } else { base };
        // "Recover R" says which foot has the weight.
        let recovers = row && i > 0 && t[i - 1].is(W::Recover);
        let base = if recovers { base.max(costs::SKIP_GESTURE) } else { base };
        let unread = base > costs::SKIP_PLAIN + 2;
        push(clause, base + words.min(12), if unread { Meaning::Unread } else { Meaning::Skip });
        if let Some(n) = c.iter().position(|t| matches!(t.kind, Kind::Clock(_))).filter(|n| *n > 0) {
            // The clock behind words that are passed over is still read.
            let base = explicitness(text, &c[..n]);
            let cost = base + u32::try_from(n).unwrap_or(u32::MAX).min(12);
            let unread = base > costs::SKIP_PLAIN + 2;
            push(i + n, cost, if unread { Meaning::Unread } else { Meaning::Skip });
        }
        let begins = i == 0 || matches!(t[i - 1].kind, Kind::Sign('.' | '\n' | '!' | '?' | ')'));
        let end = sentence_end(t, i, limit);
        if begins && end > clause {
            let mut cost = 0;
            let mut worst = 0;
            let mut j = i;
            while j < end {
                let k = clause_end(t, j, end);
                if k > j {
                    let e = explicitness(text, &t[j..k]);
                    worst = worst.max(e);
                    cost += if e == costs::SKIP_EXPLICIT { e } else { 3 };
                }
                j = k.max(j) + 1;
            }
            if told_again(t, i, end) {
                push(end, costs::TOLD_AGAIN, Meaning::Skip);
            }
            push(
                end,
                cost + if worst == costs::SKIP_EXPLICIT { 0 } else { worst },
                if worst > costs::SKIP_PLAIN { Meaning::Unread } else { Meaning::Skip },
            );
        }
    }
    // "Lift the right foot forward" without its verb would be a step.
    let lifts = token.is(W::Lift)
        && (i + 1..limit).map(|k| t[k].kind).find(|k| *k != Kind::W(W::The)).is_some_and(foot_word);
    // "(weight on L)" says what the step before it was.
    let placed = token.is(W::Weight) && {
        let small = |t: &&Token| matches!(t.kind, Kind::W(W::On | W::To | W::The | W::Keep | W::End));
        let on = (i + 1..limit).find(|k| !small(&&t[*k]));
        on.is_some_and(|k| foot_word(t[k].kind))
    };
    let cost = match (lifts, placed) {
        (true, _) => costs::FOOT_BENT,
        (_, true) => costs::NOT_FREE,
        _ => pass_cost(token.kind),
    };
    push(i + 1, cost, if cost >= 60 { Meaning::Unread } else { Meaning::Skip });
}
