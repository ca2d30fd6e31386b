//! One move in plain words, such that the grammar of written steps reads the same move from them.
//!
//! Several wordings are tried, the most natural first, and each is read again; so a word that the grammar takes
//! otherwise never gets into a sheet.

use crate::dance::{Action, Effect, Foot, Move, Place, Reach, TurnWhen, Weight, Who};
use crate::figures::{Taking, lexicon, usual_effect, written};
use crate::floor::Turn;
use crate::sheet::words::tokens;

/// A turn as a writer says it: `1/4 turn left`.
fn turn_words(turn: Turn) -> String {
    let side = if turn.0 > 0 { "right" } else { "left" };
    let size = turn.0.unsigned_abs();
    let (whole, rest) = (size / 48, size % 48);
    let mut out = String::new();
    if whole == 1 && rest == 0 {
        out.push_str("full");
    } else {
        if whole > 0 {
            out.push_str(&whole.to_string());
        }
        if rest > 0 {
            let (mut a, mut b) = (rest, 48);
            while b != 0 {
                (a, b) = (b, a % b);
            }
            if whole > 0 {
                out.push(' ');
            }
            out.push_str(&(rest / a).to_string());
            out.push('/');
            out.push_str(&(48 / a).to_string());
        }
    }
    out.push_str(" turn ");
    out.push_str(side);
    out
}

/// The verb of an action and its form in `-ing`.
fn verb(action: Action) -> (&'static str, &'static str) {
    use Action as A;
    match action {
        A::Step => ("step", "stepping"),
        A::Rock => ("rock", "rocking"),
        A::Recover => ("recover", "recovering"),
        A::Ball => ("step on ball of", "stepping on ball of"),
        A::Press => ("press", "pressing"),
        A::Lunge => ("lunge", "lunging"),
        A::Sway => ("sway", "swaying"),
        A::Stomp => ("stomp", "stomping"),
        A::Drop => ("drop", "dropping"),
        A::Grind => ("grind", "grinding"),
        A::Skate => ("skate", "skating"),
        A::Slide => ("slide", "sliding"),
        A::Shift => ("shift weight to", "shifting weight to"),
        A::Pivot => ("pivot", "pivoting"),
        A::Paddle => ("paddle", "paddling"),
        A::Touch | A::Toe => ("touch", "touching"),
        A::Point => ("point", "pointing"),
        A::Heel => ("touch", "touching"),
        A::Kick => ("kick", "kicking"),
        A::Flick => ("flick", "flicking"),
        A::Hook => ("hook", "hooking"),
        A::Hitch => ("hitch", "hitching"),
        A::Brush => ("brush", "brushing"),
        A::Scuff => ("scuff", "scuffing"),
        A::Drag => ("drag", "dragging"),
        A::Sweep => ("sweep", "sweeping"),
        A::Fan => ("fan", "fanning"),
        A::KneePop => ("pop", "popping"),
        A::Bounce => ("bounce", "bouncing"),
        A::Bump => ("bump hips", "bumping hips"),
        A::Roll => ("roll hips", "rolling hips"),
        A::Jump => ("jump", "jumping"),
        A::Swivel => ("swivel", "swivelling"),
        A::Split => ("split", "splitting"),
        A::Applejack => ("applejack", "applejack"),
        A::Swivet => ("swivet", "swivet"),
        A::Hop => ("hop", "hopping"),
        A::Scoot => ("scoot", "scooting"),
        A::Spin => ("spin", "spinning"),
        A::Spiral => ("spiral", "spiralling"),
        A::Turn => ("turn", "turning"),
        A::Unwind => ("unwind", "unwinding"),
        A::Body => ("body", "body"),
        A::Hips => ("hips", "hips"),
        A::Clap => ("clap", "clapping"),
        A::Hold => ("hold", "holding"),
    }
}

/// Where to, seen from the foot that moves.
fn places(place: Place, foot: Option<Foot>) -> Vec<String> {
    use Place as P;
    let own = foot.map_or("right", Foot::word);
    let other = foot.map_or("left", |f| f.other().word());
    let of_both = foot.is_none();
    let plain = |words: &[&str]| words.iter().map(|w| (*w).to_string()).collect::<Vec<_>>();
    match place {
        P::Forward => plain(&["forward"]),
        P::Back => plain(&["back"]),
        P::Side => vec![format!("to {own} side"), "to side".into(), "side".into()],
        P::DiagonalForward => {
            vec![
                format!("to {own} diagonal"),
                format!("to forward {own} diagonal"),
                "diagonal forward".into(),
            ]
        }
        P::DiagonalBack => {
            vec![format!("back to {own} diagonal"), format!("to back {own} diagonal"), "diagonal back".into()]
        }
        P::DiagonalAcross => vec![format!("to {other} diagonal"), "across".into()],
        P::Cross if of_both => plain(&["across"]),
        P::Cross => vec![format!("across {other}"), format!("over {other}"), "across".into()],
        P::Behind => vec![format!("behind {other}"), "behind".into()],
        P::LockBehind => vec![format!("lock behind {other}"), "lock behind".into()],
        P::LockFront => vec![format!("lock across {other}"), "lock in front".into()],
        P::Third => vec!["behind third".into()],
        P::Close if of_both => plain(&["together", "in"]),
        P::Close => vec![format!("beside {other}"), "together".into()],
        P::InPlace => plain(&["in place", ""]),
        P::Home => plain(&["home", "to centre"]),
        P::Out => plain(&["out", "apart"]),
        P::In => plain(&["in", ""]),
        P::Right | P::HeelsRight | P::ToesRight => plain(&["right", "to right", "to the right"]),
        P::Left | P::HeelsLeft | P::ToesLeft => plain(&["left", "to left", "to the left"]),
        P::HeelsOut | P::ToesOut => plain(&["out", "apart"]),
        P::HeelsIn | P::ToesIn => plain(&["in", "together"]),
        P::HeelsCentre | P::ToesCentre => plain(&["to centre", "home"]),
        P::Up => plain(&["", "up"]),
        P::Down => plain(&["down", ""]),
        P::Circle | P::Still | P::Hands => plain(&[""]),
    }
}

/// Heel or toe, where the action is one of a part of the foot.
fn part(m: &Move, raised_heel: bool) -> &'static str {
    use Place as P;
    match m.action {
        Action::Heel => "heel",
        Action::Toe => "toe",
        Action::Drop if raised_heel => "heel",
        Action::Drop => "toe",
        Action::Grind => "heel",
        _ => match m.place {
            P::HeelsOut | P::HeelsIn | P::HeelsRight | P::HeelsLeft | P::HeelsCentre => "heel",
            P::ToesOut | P::ToesIn | P::ToesRight | P::ToesLeft | P::ToesCentre => "toe",
            _ => "",
        },
    }
}

/// The wordings of a move, without a remark about the weight.
fn wordings(m: &Move, joined: bool, raised_heel: bool) -> Vec<String> {
    let foot = match m.who {
        Who::One(foot) => Some(foot),
        _ => None,
    };
    let (plain, ing) = verb(m.action);
    let part = part(m, raised_heel);
    let who = match m.who {
        Who::One(foot) if part.is_empty() => foot.word().to_string(),
        Who::One(foot) => format!("{} {part}", foot.word()),
        Who::Both if part.is_empty() => "both feet".into(),
        Who::Both => format!("{part}s"),
        Who::Nobody => String::new(),
    };
    let reach = match m.reach {
        Reach::Long => "long ",
        Reach::Small => "small ",
        Reach::Usual => "",
    };
    let mut out = Vec::new();
    if m.action == Action::Turn && m.turn != Turn::NONE {
        if let Some(foot) = foot {
            out.push(format!("{} on {}", turn_words(m.turn), foot.word()));
        }
        out.push(turn_words(m.turn));
    }
    let turn = (m.turn != Turn::NONE).then(|| turn_words(m.turn));
    for place in places(m.place, foot) {
        let mut forms: Vec<String> = Vec::new();
        let place = if place.is_empty() { place } else { format!(" {place}") };
        match (m.action, m.place) {
            (Action::Step | Action::Ball, Place::Cross) if foot.is_some() && m.action == Action::Step => {
                let to = place.replacen(" across", " over", 1);
                forms.push(format!("cross {who}{to}"));
            }
            (Action::Step, Place::LockBehind | Place::LockFront) => {
                forms.push(format!("lock {who}{}", place.replacen(" lock", "", 1)));
            }
            (Action::Recover, Place::InPlace) => forms.push(format!("recover on {who}")),
            (Action::Shift, _) => forms.push(format!("shift weight to {who}")),
            (Action::Sway, Place::InPlace | Place::Side) => {
                forms.push(format!("sway {who}{place}"));
                forms.push(format!("sway {who}"));
            }
            (Action::Hold | Action::Clap, _) => {
                forms.push(if joined { format!("with {plain}") } else { plain.into() });
            }
            (Action::Pivot | Action::Paddle, _) if turn.is_some() => {
                let turn = turn.clone().unwrap_or_default();
                forms.push(format!("{plain} {turn} onto {who}"));
                forms.push(format!("{plain} {turn}"));
            }
            (Action::Unwind | Action::Spin | Action::Spiral, _) if turn.is_some() => {
                let turn = turn.clone().unwrap_or_default();
                forms.push(format!("{plain} {turn} on {who}"));
                forms.push(format!("{plain} {turn}"));
            }
            (Action::Bump, _) if foot.is_none() => forms.push(format!("bump hips{place}")),
            (Action::Bump, _) => forms.push(format!("{who} bump hips{place}")),
            (Action::Roll, _) => forms.push("roll hips".into()),
            (Action::Hips, _) => forms.push(format!("hips{place}")),
            (Action::Body, _) => forms.push(format!("body{place}")),
            (Action::KneePop, _) => forms.push(format!("pop {who} knee{place}")),
            (Action::Applejack | Action::Swivet, _) => {
                forms.push(format!("{who} {plain}{place}"));
                forms.push(format!("{plain} {who}{place}"));
            }
            _ => {}
        }
        if joined && matches!(m.action, Action::Hips | Action::Body | Action::Bump | Action::Roll) {
            forms.insert(0, format!("with {plain} {who}{place}"));
        } else if joined {
            forms.insert(0, format!("{ing} {who}{place}"));
        }
        let usual = format!("{reach}{plain} {who}{place}").replace("  ", " ");
        forms.push(usual);
        forms.push(format!("{who} {plain}{place}"));
        if m.action == Action::Heel || m.action == Action::Toe || m.action == Action::Ball {
            forms.push(format!("{who}{place}"));
        }
        for form in forms {
            let form = form.split_whitespace().collect::<Vec<_>>().join(" ");
            let form =
                if reach.is_empty() || form.starts_with(reach) { form } else { format!("{reach}{form}") };
            let Some(turn) = &turn else {
                out.push(form);
                continue;
            };
            if form.contains(turn.as_str()) {
                out.push(form);
            } else if m.turn_when == TurnWhen::Before {
                let after = form.replacen(reach, "", 1).replacen(plain, &format!("{ing} {reach}"), 1);
                out.push(format!("{turn} {}", after.replace("  ", " ")));
                out.push(format!("{turn} {form}"));
                out.push(format!("{form} {turn}"));
            } else {
                out.push(format!("{form} turning {}", turn.replace(" turn", "")));
                out.push(format!("{form} {turn}"));
            }
        }
    }
    out
}

/// How well words read as a move: lower is better.
fn misread(words: &str, m: &Move) -> Option<u32> {
    let lexicon = lexicon();
    let t = tokens(words, 0..words.len(), &lexicon.vocabulary);
    let w = written(words, &t, 0, t.len(), Taking::default())?;
    if w.end != t.len() || w.skipped > 0 {
        return None;
    }
    let (action, place) = w.meaning()?;
    let foot_right = match m.who {
        Who::One(foot) => w.foot == Some(foot) || (w.foot.is_none() && w.onto == Some(foot)),
        Who::Both => {
            w.both || matches!(action, Action::Bump | Action::Roll | Action::Jump) && w.foot.is_none()
        }
        Who::Nobody => w.foot.is_none() && !w.both,
    };
    let turn = w.turn.map_or(0, |t| match (t.size, t.to) {
        (Some(n), Some(Foot::Right)) => n,
        (Some(n), Some(Foot::Left)) => -n,
        _ => i32::MAX,
    });
    let own_turn = turn == m.turn.0;
    let effect = usual_effect(action) == usual_effect(m.action);
    let mut cost = 0;
    cost += u32::from(!foot_right) * 8;
    cost += u32::from(!own_turn) * 16;
    cost += u32::from(!effect) * 8;
    cost += u32::from(action != m.action) * 4;
    cost += u32::from(place != m.place) * 2;
    cost += u32::from(w.reach != m.reach);
    cost += u32::from(own_turn && turn != 0 && w.turn_when != m.turn_when);
    Some(cost)
}

/// A move in words. `joined` says that it is done at the moment of the move before it, `raised_heel` that a drop
/// brings down a heel.
pub(super) fn words(m: &Move, joined: bool, raised_heel: bool) -> String {
    let mut best: Option<(u32, String)> = None;
    let all = wordings(m, joined, raised_heel);
    for form in &all {
        let Some(cost) = misread(form, m) else { continue };
        if best.as_ref().is_none_or(|(c, _)| cost < *c) {
            best = Some((cost, form.clone()));
        }
        if cost == 0 {
            break;
        }
    }
    let mut out = best.map_or_else(|| all.into_iter().next().unwrap_or_default(), |(_, form)| form);
    if let Some(remark) = remark(m) {
        out.push_str(" (");
        out.push_str(&remark);
        out.push(')');
    }
    out
}

/// What must be said of the weight, because the verb alone says otherwise.
fn remark(m: &Move) -> Option<String> {
    if m.effect == usual_effect(m.action) {
        // What keeps the weight says where, unless it can be on one foot only.
        return None;
    }
    Some(match (m.effect, m.after, m.who) {
        (Effect::Takes, Weight::On(foot), _) => format!("weight on {}", foot.word()),
        (Effect::Shares, ..) | (Effect::Takes, Weight::Both, _) => "weight on both feet".into(),
        (Effect::Free, ..) => "no weight".into(),
        (Effect::Keeps, Weight::On(foot), Who::One(own)) if foot != own => "no weight".into(),
        (Effect::Keeps, Weight::On(foot), _) => format!("weight stays on {}", foot.word()),
        _ => return None,
    })
}
