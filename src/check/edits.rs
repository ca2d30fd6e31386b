//! Changes of words: another foot, a touch for a step, a step for a touch, another turn, another clock.

use crate::dance::Foot;
use crate::figures::lexicon;
use crate::floor::Turn;
use crate::letters::Letters as _;
use crate::order::Ordered as _;
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, tokens};
use crate::text::{Edit, Span};

/// The tokens of a stretch of the text.
pub(super) fn words(text: &str, span: Span) -> Vec<Token> {
    if span.of(text).is_empty() { Vec::new() } else { tokens(text, span.range(), &lexicon().vocabulary) }
}

/// A word in the letters of another: capitals stay capitals.
pub(super) fn like(model: &str, word: &str) -> String {
    let mut letters = model.chars().filter(|c| c.is_alphabetic());
    let first = letters.next();
    let second = letters.next();
    if second.is_some_and(char::is_uppercase) && first.is_some_and(char::is_uppercase) {
        return word.capital();
    }
    if first.is_some_and(char::is_uppercase) {
        let mut c = word.chars();
        return c
            .next()
            .map_or_else(String::new, |f| core::iter::once(crate::letters::capital(f)).chain(c).collect());
    }
    word.to_string()
}

/// The word for the other side, as the writer writes it.
fn other_side(word: &str) -> Option<String> {
    let lower = word.small();
    let other = match lower.as_str() {
        "r" => "l",
        "l" => "r",
        "right" => "left",
        "left" => "right",
        "rf" => "lf",
        "lf" => "rf",
        "rt" => "lt",
        "lt" => "rt",
        "rgt" => "lft",
        "lft" => "rgt",
        "right's" => "left's",
        "left's" => "right's",
        _ => return None,
    };
    Some(like(word, other))
}

fn is_side(t: &Token) -> bool {
    matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF))
}

fn swap(text: &str, t: &Token) -> Option<Edit> {
    Some(Edit { span: t.span, text: other_side(t.span.of(text))? })
}

/// Ways to name the other foot in some words: only the first side, all of them, the last.
pub(super) fn other_foot(text: &str, span: Span) -> Vec<Vec<Edit>> {
    let t = words(text, span);
    let sides: Vec<Edit> = t.iter().filter(|t| is_side(t)).filter_map(|t| swap(text, t)).collect();
    let mut out = Vec::new();
    if let Some(first) = sides.first() {
        out.push(vec![first.clone()]);
    }
    if sides.len() > 1 {
        out.push(sides.clone());
    }
    out
}

/// The other foot for each side in some words, one at a time.
pub(super) fn each_other_foot(text: &str, span: Span) -> Vec<Vec<Edit>> {
    words(text, span)
        .iter()
        .filter(|t| is_side(t))
        .filter_map(|t| Some(vec![swap(text, t)?]))
        .take(4)
        .collect()
}

/// The other side for every side in some words.
pub(super) fn all_sides(text: &str, span: Span) -> Vec<Edit> {
    words(text, span).iter().filter(|t| is_side(t)).filter_map(|t| swap(text, t)).collect()
}

/// Whether words do not fit together: a foot beside or over itself, or to the other foot's side.
pub(super) fn odd(text: &str, span: Span) -> bool {
    let t = words(text, span);
    let foot = |t: &Token| match t.kind {
        Kind::W(W::R | W::RF) => Some(Foot::Right),
        Kind::W(W::L | W::LF) => Some(Foot::Left),
        _ => None,
    };
    let sides: Vec<(usize, Foot)> = (0..t.len()).filter_map(|i| Some((i, foot(&t[i])?))).collect();
    let [(a, first), (b, second), ..] = sides[..] else { return false };
    let between = &t[a..b];
    let near = |w: W| between.iter().any(|t| t.is(w));
    if near(W::Beside) || near(W::Behind) || near(W::Across) || near(W::Front) || near(W::Together) {
        return first == second;
    }
    let sideways = t.iter().any(|t| t.is(W::Side)) || near(W::To);
    let close = t.iter().any(|t| matches!(t.kind, Kind::W(W::Close | W::Turn | W::Cross)));
    sideways && !close && first != second
}

fn form(word: &str, base: &str, s: &str, ing: &str, ed: &str) -> String {
    let lower = word.small();
    let chosen = if lower.ends_with("ing") {
        ing
    } else if lower.ends_with("ed") {
        ed
    } else if lower.len() > 2 && lower.ends_with('s') && !lower.ends_with("ss") && lower != "cross" {
        s
    } else {
        base
    };
    like(word, chosen)
}

/// Ways to say touch where the words say step.
pub(super) fn to_touch(text: &str, span: Span) -> Vec<Vec<Edit>> {
    let t = words(text, span);
    let mut out = Vec::new();
    let verb = t.iter().find(|t| {
        matches!(t.kind, Kind::W(W::Step | W::Walk | W::Close | W::Stomp | W::Slide | W::Drop | W::Ball))
    });
    if let Some(v) = verb {
        let word = v.span.of(text);
        let stays = v.is(W::Stomp);
        let new =
            if stays { format!("{word} up") } else { form(word, "touch", "touches", "touching", "touched") };
        out.push(vec![Edit { span: v.span, text: new }]);
    }
    if verb.is_none_or(|v| v.is(W::Close)) && !t.is_empty() {
        let first = t[0].span;
        let word = first.of(text);
        // "L together" becomes "touch L together", "Together" becomes "Touch together".
        let lead = like(word, "touch");
        let lead = if word.len() == 1 { "touch".to_string() } else { lead };
        let rest = if word.len() > 1 { word.small() } else { word.to_string() };
        out.push(vec![Edit { span: first, text: format!("{lead} {rest}") }]);
        if let Some(at) = t.iter().find(|t| matches!(t.kind, Kind::W(W::Together | W::Beside | W::Close))) {
            let word = at.span.of(text);
            out.push(vec![Edit { span: at.span, text: like(word, "touch") }]);
            let begin = Span { start: at.span.start, end: at.span.start };
            out.push(vec![Edit { span: begin, text: "touch ".to_string() }]);
        }
    }
    out
}

/// Ways to say touch where the words behind a step give it the weight as well: "close R and take weight on R".
pub(super) fn to_touch_weighted(text: &str, span: Span) -> Vec<Vec<Edit>> {
    let rest = text.get(span.end as usize..).unwrap_or("");
    let stop = rest.find(['.', ';', ',', '\n', '(', ')', '[']).unwrap_or(rest.len());
    let end = span.end as usize + stop;
    let behind = words(text, Span::new(span.end as usize, end));
    if !behind.iter().any(|t| t.is(W::Weight)) {
        return Vec::new();
    }
    let Some(from) = behind.iter().position(|t| {
        matches!(t.kind, Kind::W(W::And | W::With | W::Weight | W::Full)) || t.kind == Kind::Unknown
    }) else {
        return Vec::new();
    };
    let start = text[..behind[from].span.start as usize].trim_end().len();
    let gone = Edit { span: Span::new(start, text[..end].trim_end().len()), text: String::new() };
    let touch = to_touch(text, span).into_iter();
    touch.map(|edits| edits.into_iter().chain([gone.clone()]).collect()).collect()
}

/// Ways to say step where the words say touch, point, brush and the like, or hold.
pub(super) fn to_step(text: &str, span: Span, foot: Foot) -> Vec<Vec<Edit>> {
    let t = words(text, span);
    let mut out = Vec::new();
    let verb = t.iter().find(|t| {
        matches!(
            t.kind,
            Kind::W(
                W::Touch
                    | W::Point
                    | W::Brush
                    | W::Scuff
                    | W::Kick
                    | W::Hitch
                    | W::Hook
                    | W::Flick
                    | W::Dig
                    | W::Drag
                    | W::Slide
            )
        )
    });
    if let Some(v) = verb {
        let word = v.span.of(text);
        out.push(vec![Edit { span: v.span, text: form(word, "step", "steps", "stepping", "stepped") }]);
    }
    if let Some(up) = t.iter().find(|t| t.is(W::Up)) {
        let before = Span { start: up.span.start.saturating_sub(1), end: up.span.end };
        out.push(vec![Edit { span: before, text: String::new() }]);
    }
    if let Some(c) = t.iter().find(|t| t.is(W::Clap)) {
        let word = c.span.of(text);
        let step = format!("{} {} together and {}", like(word, "step"), foot.letter(), word.small());
        out.push(vec![Edit { span: c.span, text: step }]);
    }
    if let Some(h) = t.iter().find(|t| t.is(W::Hold)) {
        let word = h.span.of(text);
        out.push(vec![Edit {
            span: h.span,
            text: format!("{} {} together", like(word, "step"), foot.letter()),
        }]);
    }
    if verb.is_none()
        && let Some(h) = t.iter().find(|t| matches!(t.kind, Kind::W(W::Heel | W::Toe)))
    {
        out.push(vec![Edit { span: h.span, text: like(h.span.of(text), "step") }]);
    }
    out
}

/// Ways to turn the other way in some words: the side next to a share of a turn, or any.
pub(super) fn other_turn(text: &str, span: Span) -> Vec<Vec<Edit>> {
    let t = words(text, span);
    let turning = |t: &Token| {
        matches!(
            t.kind,
            Kind::Fraction(_)
                | Kind::W(
                    W::Turn
                        | W::Pivot
                        | W::Quarter
                        | W::Half
                        | W::Full
                        | W::Eighth
                        | W::ThreeQuarter
                        | W::Spin
                        | W::Unwind
                        | W::Paddle
                        | W::Degrees
                )
        )
    };
    let mut near: Vec<(usize, usize)> = Vec::new();
    for (i, token) in t.iter().enumerate().filter(|(_, t)| is_side(t)) {
        let _ = token;
        let distance = (0..t.len()).filter(|j| turning(&t[*j])).map(|j| {
            // Sides are written behind the share of the turn more often than before it.
            if j < i { (i - j) * 2 } else { (j - i) * 2 + 1 }
        });
        near.push((distance.min().unwrap_or(99), i));
    }
    near.in_order();
    let mut out: Vec<Vec<Edit>> =
        near.iter().filter_map(|(_, i)| Some(vec![swap(text, &t[*i])?])).take(3).collect();
    for token in &t {
        let word = token.span.of(text);
        let other = match token.kind {
            Kind::W(W::Clockwise) if word.len() <= 3 => "ccw",
            Kind::W(W::Clockwise) => "anticlockwise",
            Kind::W(W::Anticlockwise) if word.len() <= 3 => "cw",
            Kind::W(W::Anticlockwise) => "clockwise",
            _ => continue,
        };
        out.push(vec![Edit { span: token.span, text: like(word, other) }]);
    }
    out
}

/// Ways to write another size of turn.
pub(super) fn other_size(text: &str, span: Span, units: i32) -> Vec<Vec<Edit>> {
    let size = units.abs();
    let named = |word: &str| -> Option<String> {
        if word.contains(['½', '¼', '¾', '⅛', '⅜', '⅝', '⅞']) {
            return Some(
                match size {
                    6 => "⅛",
                    12 => "¼",
                    18 => "⅜",
                    24 => "½",
                    30 => "⅝",
                    36 => "¾",
                    42 => "⅞",
                    _ => return None,
                }
                .to_string(),
            );
        }
        if word.contains('/') {
            let shown = Turn(size).to_string();
            return Some(shown.trim_end_matches(" R").to_string()).filter(|s| s.contains('/'));
        }
        let plain = match size {
            6 => "eighth",
            12 => "quarter",
            24 => "half",
            48 => "full",
            _ => return None,
        };
        Some(like(word, plain))
    };
    let shares = words(text, span);
    let share = |t: &&Token| {
        matches!(
            t.kind,
            Kind::Fraction(_) | Kind::W(W::Quarter | W::Half | W::Full | W::Eighth | W::ThreeQuarter)
        )
    };
    shares
        .iter()
        .filter(share)
        .filter_map(|t| Some(vec![Edit { span: t.span, text: named(t.span.of(text))? }]))
        .take(3)
        .collect()
}

/// A clock as the writer writes clocks.
pub(super) fn clock_like(text: &str, span: Span, wanted: crate::floor::Heading) -> Option<Edit> {
    let word = span.of(text);
    let shown = wanted.to_string();
    let (hour, minutes) = shown.split_once(':')?;
    let from = word.find(|c: char| c.is_ascii_digit())?;
    let rest = &word[from..];
    let to = rest
        .char_indices()
        .take_while(|(i, c)| {
            c.is_ascii_digit()
                || (matches!(c, ':' | '.' | 'h')
                    && rest[i + c.len_utf8()..].starts_with(|c: char| c.is_ascii_digit()))
        })
        .map(|(i, c)| i + c.len_utf8())
        .last()?;
    let old = &rest[..to];
    let new = match old.chars().find(|c| matches!(c, ':' | '.' | 'h')) {
        Some(sign) => format!("{hour}{sign}{minutes}"),
        None if minutes == "00" => hour.to_string(),
        None => shown.clone(),
    };
    let start = span.start as usize + from;
    Some(Edit { span: Span::new(start, start + to), text: new })
}

/// A whole number in the manner of the writer: digits stay digits, words words.
pub(super) fn number_like(word: &str, n: u32) -> String {
    if word.starts_with(|c: char| c.is_ascii_digit()) {
        return n.to_string();
    }
    let plain = match n {
        1 => "one",
        2 => "two",
        3 => "three",
        4 => "four",
        5 => "five",
        6 => "six",
        8 => "eight",
        12 => "twelve",
        16 => "sixteen",
        24 => "twenty-four",
        32 => "thirty-two",
        48 => "forty-eight",
        64 => "sixty-four",
        _ => return n.to_string(),
    };
    like(word, plain)
}
