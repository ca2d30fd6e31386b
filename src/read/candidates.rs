//! What the words of a section may mean: the edges of the lattice.

use std::borrow::Cow;

use arrayvec::ArrayVec;

use super::costs;
use super::figure_words::figures_at;
use super::phrases::{Repeat, feet_list, repeat_at};
use crate::dance::{Action, Effect, Foot, Place, Reach, TurnWhen};
use crate::figures::FootPart;
use crate::figures::{
    Lexicon, Step, Taking, WeightSaid, Written, said_turn, usual_effect, weight_remark, written_met,
};
use crate::floor::{Heading, Turn};
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, acts};
use crate::text::{Span, lower};

/// Who acts, as far as the words say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Actor {
    /// This foot.
    Said(Foot),
    /// This foot, because it goes beside or across the other.
    Implied(Foot),
    /// Whichever foot is free.
    Free,
    /// Both feet.
    Both,
    /// No foot.
    Nobody,
}

/// A turn as far as the words say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum TurnSaid {
    /// None is written.
    None,
    /// Size and direction.
    Known(Turn),
    /// A size in 1/48 without direction.
    Size(i32),
    /// A direction without size.
    To(Foot),
}

impl TurnSaid {
    pub(super) fn of(w: &Written) -> Self {
        match (said_turn(w), w.turn) {
            (Some(t), _) => Self::Known(t),
            (None, Some(t)) => match (t.size, t.to) {
                (Some(size), _) => Self::Size(size),
                (None, Some(foot)) => Self::To(foot),
                (None, None) => Self::None,
            },
            (None, None) => Self::None,
        }
    }
}

/// What an action may do to the weight, with what each costs.
pub(super) type Effects = ArrayVec<(Effect, u32), 4>;

/// One written action.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Event {
    pub actor: Actor,
    pub action: Action,
    pub place: Place,
    pub reach: Reach,
    pub turn: TurnSaid,
    pub turn_when: TurnWhen,
    pub effects: Effects,
    pub lasts: Option<u32>,
    pub joined: bool,
    /// Only a place was written, no verb: "in", "out".
    pub bare: bool,
    /// The direction named, for hips and sways.
    pub side: Option<Foot>,
    /// The direction may as well be the foot: "step right forward".
    pub perhaps_foot: bool,
}

/// A figure by its name.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Named {
    pub figure: u16,
    pub lead: Option<Foot>,
    pub turn: TurnSaid,
    /// Its steps led by the right foot, with the endings that the words give it.
    pub steps: Cow<'static, [Step]>,
    pub counts: u32,
    pub turn_on: usize,
    /// Facing away, as in a half-turn shuffle to the other side, is danced too.
    pub own_turn: bool,
}

/// What an edge means.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Meaning {
    /// Nothing; the words are passed over.
    Skip,
    /// Words that are passed over although they speak of steps.
    Unread,
    /// A label for the steps that follow.
    Label(u16, Option<Foot>, TurnSaid),
    Event(Event),
    /// A turn that belongs to the step before or after it.
    Turning(TurnSaid),
    Figure(Named),
    /// A figure of the sheet's own: index, lead.
    Own(usize, Option<Foot>),
    Weight(WeightSaid),
    Clock(Heading),
    /// An order of feet.
    Feet(Vec<Foot>),
    Repeat(Repeat),
    /// The sign &.
    Half,
    /// "Two jazz boxes", "four walks": the same so many times.
    Several(u32, Box<Meaning>),
}

/// One way to read the words from a token on.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Edge {
    pub to: usize,
    pub cost: u32,
    pub meaning: Meaning,
    pub span: Span,
}

/// The end of the clause that token `i` stands in.
pub(super) fn clause_end(t: &[Token], i: usize, limit: usize) -> usize {
    let mut j = i;
    while j < limit {
        match t[j].kind {
            Kind::Sign(
                ',' | ';' | ':' | '(' | ')' | '[' | ']' | '!' | '\n' | '?' | '{' | '}' | '=' | '<' | '>'
                | '~' | '"' | '*',
            ) => break,
            Kind::Sign('.') if !abbreviation(t, j, limit) => break,
            Kind::Sign('-') if t[j].gap > 0 || t.get(j + 1).is_none_or(|n| n.gap > 0) => break,
            Kind::Sign('/') if t[j].gap > 0 => break,
            _ if j > i && t[j].gap == 2 && foot_column(t, j, limit) => break,
            _ => j += 1,
        }
    }
    j
}

/// Whether a column of a table holds nothing but feet: "R L", "L -".
fn foot_column(t: &[Token], from: usize, limit: usize) -> bool {
    let mut feet = 0;
    for (k, token) in t[from..limit].iter().enumerate() {
        match token.kind {
            _ if k > 0 && token.gap == 2 => break,
            kind if foot_word(kind) => feet += 1,
            Kind::Sign('-' | ',' | '/') | Kind::W(W::And) => {}
            _ => return false,
        }
    }
    feet > 0
}

fn abbreviation(t: &[Token], j: usize, limit: usize) -> bool {
    j > 0
        && t[j].gap == 0
        && t[j - 1].span.range().len() <= 4
        && j + 1 < limit
        && t[j + 1].gap <= 1
        && !matches!(t[j + 1].kind, Kind::Sign(_))
        && matches!(t[j - 1].kind, Kind::W(_))
        && !matches!(
            t[j - 1].kind,
            Kind::W(
                W::R | W::L
                    | W::RF
                    | W::LF
                    | W::Hold
                    | W::Side
                    | W::Heel
                    | W::Toe
                    | W::Step
                    | W::Clap
                    | W::Home
                    | W::Walk
                    | W::Back
                    | W::Out
                    | W::In
            )
        )
}

fn sentence_end(t: &[Token], i: usize, limit: usize) -> usize {
    (i..limit)
        .find(|j| matches!(t[*j].kind, Kind::Sign('.' | '\n' | '!' | '?')) && !abbreviation(t, *j, limit))
        .unwrap_or(limit)
}

fn foot_word(k: Kind) -> bool {
    matches!(k, Kind::W(W::R | W::L | W::RF | W::LF | W::Feet | W::Both))
}

/// Words of the way that a step goes.
fn goes(k: Kind) -> bool {
    matches!(
        k,
        Kind::W(
            W::Forward
                | W::Back
                | W::Side
                | W::Behind
                | W::Across
                | W::Beside
                | W::Diagonal
                | W::Home
                | W::To
        )
    )
}

/// Words of chat.
fn remarks(word: &str) -> bool {
    let among = |words: &[&str]| words.iter().any(|w| word.eq_ignore_ascii_case(w));
    match word.len() {
        1 => among(&["i"]),
        2 => among(&["if"]),
        3 => among(&["see", "can"]),
        4 => among(&["free", "look", "will"]),
        5 => among(&["ready"]),
        6 => among(&["please", "people", "nobody", "should"]),
        7 => among(&["looking", "because"]),
        8 => among(&["remember"]),
        9 => among(&["everybody"]),
        _ => false,
    }
}

/// What it costs to pass over a stretch: much where it says which foot does what, little where it only chats.
fn explicitness(text: &str, t: &[Token]) -> u32 {
    // "no touch", "don't kick" says what is not danced.
    if t.first().is_some_and(|t| t.is(W::No)) {
        return costs::SKIP_PLAIN;
    }
    // "the right foot is free to walk off again" tells how one stands.
    let free = t.iter().position(|t| t.span.of(text).eq_ignore_ascii_case("free"));
    if free.is_some_and(|k| !t[..k].iter().any(|t| matches!(t.kind, Kind::W(w) if acts(w)))) {
        return costs::SKIP_PLAIN;
    }
    let (mut remarked, mut verb, mut place, mut foot) = (false, false, false, false);
    let (mut turn, mut size, mut weight) = (false, false, false);
    let (mut words, mut unknown, mut small) = (0, 0, 0);
    for token in t {
        match token.kind {
            Kind::Sign(_) => continue,
            Kind::Name(_) => verb = true,
            Kind::Fraction(_) => size = true,
            Kind::Unknown => unknown += 1,
            Kind::W(w) => {
                verb |= acts(w) && !matches!(w, W::Turn | W::Hold);
                foot |= foot_word(token.kind);
                match w {
                    W::Side
                    | W::Forward
                    | W::Back
                    | W::Behind
                    | W::Across
                    | W::Beside
                    | W::Heel
                    | W::Toe
                    | W::Home
                    | W::Out
                    | W::In
                    | W::Hold => place = true,
                    W::Turn => turn = true,
                    W::Quarter | W::Half | W::Full => size = true,
                    W::Weight | W::WeightOnL | W::WeightOnR => weight = true,
                    W::The | W::It | W::Make | W::While | W::No | W::Keep | W::At | W::For | W::Or => {
                        small += 1;
                    }
                    _ => {}
                }
            }
            _ => {}
        }
        words += 1;
        remarked = remarked || remarks(token.span.of(text));
    }
    let chat = remarked || unknown * 3 >= words || (unknown + small) * 2 >= words;
    match (verb, foot, place) {
        (true, true, _) | (false, true, true) if !chat => costs::SKIP_EXPLICIT,
        (_, true, _) if weight && !chat => costs::SKIP_EXPLICIT,
        (true, true, _) | (false, true, true) => costs::SKIP_CHAT,
        (true, false, _) if !chat => costs::SKIP_VAGUE,
        (false, false, true) if !chat => costs::SKIP_VAGUE - 8,
        (true, false, _) | (false, false, true) => costs::SKIP_VAGUE / 3,
        _ if turn && size => costs::SKIP_VAGUE,
        _ if turn => costs::SKIP_VAGUE / 3,
        _ => costs::SKIP_PLAIN,
    }
}

/// What one token costs to pass over by itself.
fn pass_cost(k: Kind) -> u32 {
    match k {
        Kind::Sign(_) => 0,
        Kind::W(w) => match w {
            W::The
            | W::Then
            | W::Of
            | W::It
            | W::Make
            | W::And
            | W::With
            | W::To
            | W::On
            | W::At
            | W::By
            | W::For
            | W::While
            | W::Slightly
            | W::Low
            | W::Or
            | W::Slow
            | W::Quick => 1,
            _ if acts(w) || w == W::Repeat => 120,
            W::R | W::L | W::RF | W::LF => costs::FOOT_BENT,
            W::Forward | W::Back | W::Side | W::Behind | W::Across | W::Beside | W::Heel | W::Toe => 110,
            _ => 12,
        },
        Kind::Name(_) => 120,
        Kind::Unknown => costs::UNKNOWN,
        Kind::Fraction(_) | Kind::Feet => 60,
        Kind::Number(_) | Kind::Times(_) => 14,
        Kind::Clock(_) => costs::CLOCK + 8,
    }
}

const TAKINGS: [Taking; 6] = [
    Taking {
        side_is_direction: false,
        direction_is_step: false,
        side_is_other: false,
        side_is_turn: false,
        verb_last: false,
    },
    Taking {
        side_is_direction: false,
        direction_is_step: true,
        side_is_other: false,
        side_is_turn: false,
        verb_last: false,
    },
    Taking {
        side_is_direction: true,
        direction_is_step: false,
        side_is_other: false,
        side_is_turn: false,
        verb_last: false,
    },
    Taking {
        side_is_direction: false,
        direction_is_step: false,
        side_is_other: true,
        side_is_turn: false,
        verb_last: false,
    },
    Taking {
        side_is_direction: false,
        direction_is_step: false,
        side_is_other: false,
        side_is_turn: true,
        verb_last: false,
    },
    Taking {
        side_is_direction: false,
        direction_is_step: false,
        side_is_other: false,
        side_is_turn: false,
        verb_last: true,
    },
];

/// All readings of the words that begin at token `i` of a chunk that ends at `limit`.
pub(super) fn edges(
    text: &str,
    t: &[Token],
    i: usize,
    limit: usize,
    lexicon: &'static Lexicon,
    own: &[Own],
    out: &mut Vec<Edge>,
) {
    out.clear();
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
            }
            return;
        }
        Kind::Clock(h) => {
            let extra = usize::from(t.get(i + 1).is_some_and(|t| t.is(W::OClock) && i + 1 < limit));
            push(i + 1 + extra, 0, Meaning::Clock(h));
            push(i + 1, costs::CLOCK + 8, Meaning::Skip);
            return;
        }
        Kind::Number(n @ 1..=12) if t.get(i + 1).is_some_and(|t| t.is(W::OClock)) && i + 1 < limit => {
            push(i + 2, 0, Meaning::Clock(Heading::new(i32::try_from(n * 4).unwrap_or(0))));
            return;
        }
        Kind::W(W::And) => {
            push(i + 1, 1, Meaning::Skip);
            let sign = matches!(token.span.of(text), "&" | "+") || token.span.of(text).starts_with('&');
            push(i + 1, if sign { 0 } else { 6 }, Meaning::Half);
        }
        _ => {}
    }
    let clause = clause_end(t, i, limit);
    if let Some(n) = several(t, i, clause) {
        let mut each = Vec::new();
        edges(text, t, i + 1, limit, lexicon, own, &mut each);
        for e in each {
            let steps = matches!(e.meaning, Meaning::Event(_) | Meaning::Figure(_) | Meaning::Own(..));
            if steps && t[i + 1..e.to].iter().any(|t| plural(text, t)) {
                push(e.to, e.cost, Meaning::Several(n, Box::new(e.meaning)));
            }
        }
    }
    // A remark about the weight.
    if let Some((said, to)) = weight_remark(t, i, clause.max(i + 1)) {
        push(to, 0, Meaning::Weight(said));
    }
    if let Some((repeat, to, cost)) = repeat_at(text, t, i, clause, limit) {
        push(to, cost, Meaning::Repeat(repeat));
    }
    if let Some((feet, to)) = feet_list(text, t, i, limit) {
        push(to, 0, Meaning::Feet(feet));
    }
    // "facing 6:00", "to face the back wall"
    if token.is(W::Face) {
        push(i + 1, 0, Meaning::Skip);
    }
    // Written steps.
    // "switch": the foot that is out comes home.
    if matches!(token.kind, Kind::Name(_))
        && clause == i + 1
        && lower(token.span.of(text)).starts_with("switch")
    {
        let home = Written {
            action: Some(Action::Step),
            place: Some(Place::Close),
            end: i + 1,
            ..Written::default()
        };
        step_edges(&home, false, 2, None, &mut push);
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
        && lower(token.span.of(text)).starts_with("com")
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
    // "Step R back" is one step: cut in two, another foot would go back.
    let cut = goes(token.kind)
        && i > 1
        && foot_word(t[i - 1].kind)
        && matches!(t[i - 2].kind, Kind::W(w) if acts(w));
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
    let mut seen: ArrayVec<Written, 6> = ArrayVec::new();
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
        let penalty = if n == 0 { 0 } else { [0, 2, 9, 64, 5, 1][n] } + w.skipped * costs::UNKNOWN;
        let bare = w.action.is_none() && w.foot.is_none() && w.part.is_none();
        // "Jump back: step right back, step left beside" only names the steps behind the colon.
        let names = w.end == clause && colon;
        let more = [(bare && amid, 16), (bare && of_part, 40), (names, 30), (cut, costs::FOOT_BENT)];
        let more: u32 = more.iter().filter(|m| m.0).map(|m| m.1).sum();
        if let Some((n, to)) = times_behind(t, i, &w, clause) {
            // "Walk back three", "walk forward for three counts": so many walks.
            let mut each = None;
            let once = Written { lasts: None, end: to, ..w.clone() };
            step_edges(&once, taking.side_is_direction, penalty + more, ahead, &mut |to, cost, meaning| {
                if matches!(meaning, Meaning::Event(_)) {
                    each.get_or_insert((to, cost, meaning));
                }
            });
            if let Some((to, cost, meaning)) = each {
                push(to, cost, Meaning::Several(n, Box::new(meaning)));
            }
        }
        if w.action == Some(Action::Drop) && stomps_before(t, i) {
            // "Stomp right, drop the heel three times": the weight may come last.
            let free = Written { action: Some(Action::Bounce), ..w.clone() };
            step_edges(&free, taking.side_is_direction, penalty + more + 2, ahead, &mut push);
        }
        step_edges(&w, taking.side_is_direction, penalty + more, ahead, &mut push);
        seen.push(w);
    }
    figures_at(text, t, i, clause, limit, lexicon, &mut push);
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
        // "finish together" tells how the steps before it end.
        let base = if token.is(W::End) { base.min(6) } else { base };
        // What is to be repeated is said outright.
        let outright = token.is(W::Repeat)
            && c.iter()
                .any(|t| matches!(t.kind, Kind::Number(_) | Kind::W(W::Other | W::Same | W::R | W::L)));
        let base = if outright { base.max(costs::NOT_FREE * 2) } else { base };
        let unread = base > costs::SKIP_PLAIN + 2;
        push(clause, base + words.min(12), if unread { Meaning::Unread } else { Meaning::Skip });
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
            push(
                end,
                cost + if worst == costs::SKIP_EXPLICIT { 0 } else { worst },
                if worst > costs::SKIP_PLAIN { Meaning::Unread } else { Meaning::Skip },
            );
        }
    }
    let cost = pass_cost(token.kind);
    push(i + 1, cost, if cost >= 60 { Meaning::Unread } else { Meaning::Skip });
}

/// The foot that lands first, told behind a comma: "..., landing right then left".
fn landing(text: &str, t: &[Token], clause: usize, limit: usize) -> Option<(usize, Foot)> {
    let at = clause + 1;
    if at + 1 >= limit || !matches!(t[clause].kind, Kind::Sign(',' | '(')) {
        return None;
    }
    let said = lower(t[at].span.of(text)).starts_with("land");
    let at = at + usize::from(said);
    let foot = match t[at].kind {
        Kind::W(W::R | W::RF) => Foot::Right,
        Kind::W(W::L | W::LF) => Foot::Left,
        _ => return None,
    };
    said.then_some((at + 1, foot))
}

/// The number of walks that stands behind them, and where it ends.
fn times_behind(t: &[Token], i: usize, w: &Written, clause: usize) -> Option<(u32, usize)> {
    let walks = w.action == Some(Action::Step) && t[i..w.end].iter().any(|t| t.is(W::Walk) || t.is(W::Run));
    if !walks {
        return None;
    }
    if let Some(n @ 2..=8) = w.lasts {
        return Some((n, w.end));
    }
    let n = match t.get(w.end).filter(|_| w.end < clause)?.kind {
        Kind::Number(n) => n,
        Kind::W(word) if !matches!(word, W::Twice | W::Thrice) => crate::figures::number_word(word)?,
        _ => return None,
    };
    let steps = t.get(w.end + 1).filter(|_| w.end + 1 < clause).is_some_and(|t| t.is(W::Step));
    let to = w.end + 1 + usize::from(steps);
    ((2..=8).contains(&n) && to == clause).then_some((n, to))
}

/// Whether a stomp stands a few words before, in the same sentence.
fn stomps_before(t: &[Token], i: usize) -> bool {
    t[i.saturating_sub(10)..i]
        .iter()
        .rev()
        .take_while(|t| !matches!(t.kind, Kind::Sign('.' | '\n' | ';')))
        .any(|t| t.is(W::Stomp))
}

/// The number before words that may stand for several steps: "two", "4".
fn several(t: &[Token], i: usize, clause: usize) -> Option<u32> {
    let n = match t[i].kind {
        Kind::Number(n) => n,
        Kind::Times(n) => n,
        Kind::W(w) if !matches!(w, W::Twice | W::Thrice | W::Second | W::ThirdTh | W::Third) => {
            crate::figures::number_word(w)?
        }
        _ => return None,
    };
    ((2..=8).contains(&n) && i + 1 < clause && !matches!(t[i + 1].kind, Kind::Sign(_))).then_some(n)
}

/// Whether a step or a name stands in the plural: "walks", "boxes", "sailors".
fn plural(text: &str, t: &Token) -> bool {
    let acting = match t.kind {
        Kind::Name(_) => true,
        Kind::W(w) => acts(w) || matches!(w, W::Turn),
        _ => false,
    };
    let word = t.span.of(text).as_bytes();
    let ends = |n: usize| word.len().checked_sub(n).map(|at| word[at].to_ascii_lowercase());
    acting && ends(1) == Some(b's') && ends(2) != Some(b's')
}

/// "on ball of left" in front of a turn: where it ends.
fn standing(t: &[Token], i: usize, clause: usize) -> Option<usize> {
    let mut j = i + 1;
    let mut ball = false;
    while j < clause {
        match t[j].kind {
            Kind::W(W::Ball) => ball = true,
            Kind::W(W::The | W::Of | W::Both | W::Feet | W::Foot | W::R | W::L | W::RF | W::LF) => {}
            Kind::W(W::Make | W::Turn | W::Quarter | W::Half | W::Full) | Kind::Fraction(_) if ball => {
                return Some(j);
            }
            _ => return None,
        }
        j += 1;
    }
    None
}

/// Whether steps stand here, told with their feet.
fn names_steps(t: &[Token]) -> bool {
    t.iter().any(|t| matches!(t.kind, Kind::W(w) if acts(w))) && t.iter().any(|t| foot_word(t.kind))
}

/// A figure that the sheet defines, led by the right foot.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Own {
    /// Words of its name.
    pub name: Vec<String>,
    pub steps: Vec<Step>,
    pub counts: u32,
}

/// The name of a sheet's own figure at a token: its lead and where it ends.
fn own_at(text: &str, t: &[Token], i: usize, clause: usize, own: &Own) -> Option<(Option<Foot>, usize)> {
    let mut lead = None;
    let mut n = 0;
    let mut end = None;
    for (j, token) in t.iter().enumerate().take(clause).skip(i) {
        match token.kind {
            Kind::W(W::R | W::RF) if lead.is_none() => lead = Some(Foot::Right),
            Kind::W(W::L | W::LF) if lead.is_none() => lead = Some(Foot::Left),
            Kind::W(W::The | W::To) | Kind::Sign('-') => continue,
            _ if n < own.name.len() && lower(token.span.of(text)) == own.name[n] => {
                n += 1;
            }
            _ => break,
        }
        if n == own.name.len() {
            end = Some(j + 1);
        }
    }
    end.map(|to| (lead, to))
}

/// A remark in brackets may be passed over more easily than one in the line.
fn bracket(text: &str, t: &[Token], i: usize, limit: usize, push: &mut impl FnMut(usize, u32, Meaning)) {
    let close = (i + 1..limit).find(|j| matches!(t[*j].kind, Kind::Sign(')' | ']')));
    let Some(close) = close else { return };
    let inner = &t[i + 1..close];
    let option = inner.iter().any(|t| t.is(W::Option) || t.is(W::Or));
    let cost = match explicitness(text, inner) {
        _ if option => 0,
        costs::SKIP_EXPLICIT => 36,
        costs::SKIP_PLAIN => 2,
        _ => 14,
    };
    // Clocks and remarks about the weight are worth reading.
    if inner.iter().any(|t| matches!(t.kind, Kind::Clock(_)) || t.is(W::Weight)) {
        push(close + 1, cost + costs::CLOCK + 8, Meaning::Unread);
    } else {
        push(close + 1, cost, Meaning::Skip);
    }
}

/// The edges of one written step; `side` says that a side in it was taken for the direction, `ahead` is the verb
/// of the next clause.
fn step_edges(
    w: &Written,
    side: bool,
    penalty: u32,
    ahead: Option<W>,
    push: &mut impl FnMut(usize, u32, Meaning),
) {
    if w.only_foot() {
        if let Some(foot) = w.foot {
            push(w.end, penalty, Meaning::Feet(vec![foot]));
        }
        return;
    }
    let turn = TurnSaid::of(w);
    if w.only_turn() {
        if turn == TurnSaid::None {
            return;
        }
        push(w.end, penalty + 2, Meaning::Turning(turn));
        if matches!(turn, TurnSaid::To(_)) {
            return;
        }
        // On a count of its own: a pivot onto the other foot, or a turn on the spot.
        let foot = w.onto.or(w.foot);
        let pivot = Event {
            actor: foot.map_or(Actor::Free, Actor::Said),
            action: Action::Pivot,
            place: Place::InPlace,
            reach: Reach::Usual,
            turn,
            turn_when: TurnWhen::Before,
            effects: few![(Effect::Takes, 0)],
            lasts: w.lasts,
            joined: false,
            bare: false,
            side: None,
            perhaps_foot: false,
        };
        push(w.end, penalty + 5, Meaning::Event(pivot.clone()));
        // "Turn half left on balls of both feet" untwists.
        push(
            w.end,
            penalty + if w.both { 8 } else { 30 },
            Meaning::Event(Event {
                actor: Actor::Free,
                action: Action::Turn,
                effects: few![(Effect::Keeps, 0)],
                ..pivot
            }),
        );
        return;
    }
    if w.both && w.action.is_none() && w.part.is_none() {
        // "forward both" says nothing that one could dance.
        return;
    }
    let Some((action, place)) = w.meaning() else { return };
    let crossed = action == Action::Step && matches!(place, Place::Cross | Place::Behind);
    let effects = if crossed && ahead == Some(W::Unwind) {
        few![(Effect::Shares, 0), (Effect::Takes, 6)]
    } else if action == Action::Stomp && matches!(ahead, Some(W::Drop | W::Bounce)) {
        few![(Effect::Free, 0), (Effect::Takes, 4)]
    } else {
        effects(w, action, place)
    };
    let actor = if w.both {
        Actor::Both
    } else if matches!(action, Action::Clap | Action::Hold | Action::Body | Action::Hips) {
        Actor::Nobody
    } else if let Some(foot) = w.foot.or(w.onto) {
        Actor::Said(foot)
    } else if action == Action::Sway && w.side.is_some() {
        Actor::Said(w.side.unwrap_or(Foot::Right))
    } else if matches!(
        action,
        Action::Swivel
            | Action::Split
            | Action::Bounce
            | Action::Applejack
            | Action::Swivet
            | Action::Jump
            | Action::Roll
    ) || (action == Action::Bump && w.foot.is_none())
    {
        Actor::Both
    } else if let Some(other) = w.beside {
        Actor::Implied(other.other())
    } else {
        Actor::Free
    };
    let event = Event {
        actor,
        action,
        place,
        reach: w.reach,
        turn,
        turn_when: w.turn_when,
        effects,
        lasts: w.lasts,
        joined: w.joined,
        bare: w.action.is_none() && w.foot.is_none() && w.part.is_none(),
        side: w.side,
        perhaps_foot: side,
    };
    if action == Action::Step && matches!(w.part, Some(FootPart::Toe | FootPart::Heel)) {
        // "Step on R toe, lower heel" is a strut.
        let toe = Event { action: Action::Toe, effects: few![(Effect::Free, 0)], ..event.clone() };
        push(w.end, penalty + 4, Meaning::Event(toe));
    }
    if matches!(action, Action::Heel | Action::Toe) && w.place.is_none() && w.foot.is_none() {
        // "toe, heel": the second half of a strut.
        let drop = Event {
            action: Action::Drop,
            place: Place::InPlace,
            effects: few![(Effect::Takes, 0)],
            ..event.clone()
        };
        push(w.end, penalty + 1, Meaning::Event(drop));
        push(w.end, penalty + 4, Meaning::Event(event));
        return;
    }
    if w.action.is_none() && w.place == Some(Place::Back) && w.foot.is_some() {
        // "back onto L" after a rock gives the weight back.
        let recover = Event { action: Action::Recover, place: Place::InPlace, ..event.clone() };
        push(w.end, penalty + 7, Meaning::Event(recover));
    }
    push(w.end, penalty + 1, Meaning::Event(event));
}

/// What the action may do to the weight, the likeliest first.
fn effects(w: &Written, action: Action, place: Place) -> Effects {
    let usual = usual_effect(action);
    match action {
        Action::Stomp if w.up => few![(Effect::Free, 0)],
        Action::Stomp => few![(Effect::Takes, 0), (Effect::Free, costs::WITHOUT_WEIGHT - 5)],
        Action::Slide => few![(Effect::Takes, 2), (Effect::Free, 0)],
        Action::Step if w.closing && place == Place::Close => {
            few![(Effect::Takes, 0), (Effect::Free, costs::WITHOUT_WEIGHT)]
        }
        Action::Step if w.action.is_none() && matches!(place, Place::Cross | Place::Behind) => {
            few![(Effect::Takes, 0), (Effect::Free, costs::WITHOUT_WEIGHT + 15)]
        }
        Action::Bump => few![(Effect::Shares, 0), (Effect::Takes, 3)],
        Action::Ball => few![(Effect::Takes, 0), (Effect::Free, 14)],
        Action::Sweep if matches!(place, Place::Behind | Place::Cross) => {
            few![(Effect::Free, 0), (Effect::Takes, 6)]
        }
        Action::Unwind => few![(Effect::Takes, 0), (Effect::Keeps, 8)],
        Action::Roll => few![(Effect::Keeps, 0), (Effect::Takes, 6)],
        _ => few![(usual, 0)],
    }
}
