//! A figure is named and the steps written out for it are those of another figure.

use super::edits;
use super::finding::Severity;
use super::subject::{Draft, Place, Subject};
use crate::dance::{Action, Effect, Foot, Move, Place as Spot, Who};
use crate::figures::{Figure, Step, lexicon};
use crate::letters::Letters as _;
use crate::read::Labelled;
use crate::sheet::vocabulary::W;
use crate::sheet::words::Kind;
use crate::text::Edit;

pub(super) const NAME: &str = "name-differs";

pub(super) fn run(s: &Subject<'_>, out: &mut Vec<Draft>) {
    for label in &s.reading.labels {
        let sections = &s.dance().parts[label.part].sections;
        let divided = s.part_text(label.part).is_none_or(|p| p.divided);
        let all: Vec<(usize, &Move)> = if divided {
            let Some(section) = sections.get(label.section) else { continue };
            section.moves.iter().map(|m| (label.section, m)).collect()
        } else {
            sections.iter().enumerate().flat_map(|(i, x)| x.moves.iter().map(move |m| (i, m))).collect()
        };
        let Some(moves) = all.get(label.moves.0..label.moves.1.min(all.len())) else { continue };
        if let Some(draft) = one(s, label, moves) {
            out.push(draft);
        }
    }
}

fn one(s: &Subject<'_>, label: &Labelled, moves: &[(usize, &Move)]) -> Option<Draft> {
    let named = lexicon().figures.get(usize::from(label.figure))?;
    let n = named.steps.len();
    if n < 3 || moves.len() < n || too_wide(named.name) {
        return None;
    }
    let form: Option<&'static str> = varies(named.name);
    let steps: Vec<&Move> = moves[..n].iter().map(|m| m.1).collect();
    // Moves that share the words of one name were not written out.
    let named_only = steps.windows(2).any(|w| w[0].span == w[1].span);
    if named_only || steps.iter().any(|m| m.broken.is_some()) {
        return None;
    }
    let own = family(named.name);
    let lead = steps.iter().find_map(|m| match m.who {
        Who::One(f) => Some(f),
        _ => None,
    })?;
    let like = |f: &&Figure| f.steps.len() == n && family(f.name) == own;
    if lexicon().figures.iter().filter(like).any(|f| clashes(f, &steps, lead, false) == 0) {
        return None;
    }
    // Of a figure with several forms each may be meant, a shorter or longer one too.
    // A weave is a longer grapevine.
    let keys: &[&str] = match &form {
        Some("vine" | "weave") => &["vine", "weave", "behind"],
        Some(key) => core::slice::from_ref(key),
        None => &[],
    };
    let a_form = |f: &&Figure| keys.iter().any(|key| f.name.small().contains(key));
    let danced = |f: &Figure| {
        let all: Vec<&Move> = moves.iter().map(|m| m.1).take(f.steps.len()).collect();
        all.len() == f.steps.len() && clashes(f, &all, lead, false) == 0
    };
    if lexicon().figures.iter().filter(a_form).any(danced) {
        return None;
    }
    let clashing = clashes(named, &steps, lead, false);
    let other = lexicon()
        .figures
        .iter()
        .filter(|f| !a_form(f))
        .find(|f| f.steps.len() == n && family(f.name) != own && clashes(f, &steps, lead, true) == 0);
    // No form that the lexicon has is none at all: only steps that are plainly another figure tell.
    let plain = other.is_some_and(|f| distinct(f.name));
    let known = form.is_none() || plain && clashing * 2 >= n;
    if clashing == 0 || !known || (other.is_none() && clashing * 2 < n) {
        return None;
    }
    let (first, last) = (moves.first()?, moves.get(n - 1)?);
    let place = Place { part: label.part, section: first.0, at: Some(first.1.at) };
    let made = match other {
        Some(f) => format!("and the steps beside it make {} {}", article(f.name), f.name.small()),
        None => "and the steps beside it are not those of this figure".to_string(),
    };
    let mut draft = s
        .at(NAME, Severity::Warning, label.span, place)
        .says(format!(
            "“{}” is the name, {made}; the steps win, so correct the name, or the steps.",
            s.quote(label.span)
        ))
        .with(first.1.span.join(last.1.span), "the steps as written");
    if let Some(f) = other {
        draft.offer(
            8,
            false,
            format!("call it {} {}", article(f.name), f.name.small()),
            renamed(s.text, label, f.name),
        );
    }
    // One foot named wrongly in a figure that is named rightly.
    let mirrored = named.first_foot().is_some_and(|f| f != label.lead.unwrap_or(lead));
    for (step, (section, m)) in named.steps.iter().zip(moves) {
        let step = if mirrored { step.mirrored() } else { *step };
        if let (Who::One(foot), Who::One(now)) = (step.who, m.who)
            && foot != now
        {
            let at = Place { part: label.part, section: *section, at: Some(m.at) };
            for edits in edits::other_foot(s.text, m.span) {
                draft.offer_at(at, 6, format!("use the {} foot on count {}", foot.word(), m.at), edits);
            }
        }
    }
    Some(draft)
}

fn article(name: &str) -> &'static str {
    if name.small().starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" }
}

/// The label with another name; the side that it gives stays.
fn renamed(text: &str, label: &Labelled, name: &str) -> Vec<Edit> {
    let t = edits::words(text, label.span);
    let side = |k: Kind| matches!(k, Kind::W(W::R | W::L | W::RF | W::LF | W::Foot | W::The));
    let from = t.iter().position(|t| !side(t.kind)).unwrap_or(0);
    let to = t.iter().rposition(|t| !side(t.kind)).unwrap_or(0);
    let (Some(a), Some(b)) = (t.get(from), t.get(to)) else { return Vec::new() };
    let span = a.span.join(b.span);
    vec![Edit { span, text: edits::like(a.span.of(text), &name.small()) }]
}

/// Names that no steps have by chance, as "side, together, side, touch" does.
fn distinct(name: &str) -> bool {
    const DISTINCT: &[&str] = &[
        "coaster",
        "sailor",
        "rocking chair",
        "lock step",
        "mambo",
        "scissor",
        "grapevine",
        "jazz box",
        "charleston",
        "strut",
        "monterey",
    ];
    let name = name.small();
    DISTINCT.iter().any(|w| name.contains(w))
}

/// Names so wide that almost anything is one of them.
fn too_wide(name: &str) -> bool {
    const WIDE: &[&str] = &["basic", "lindy", "roll", "step", "walk", "night", "unwind", "swivel", "k-step"];
    let name = name.small();
    varies(&name).is_some() && WIDE.iter().any(|w| name.contains(w))
}

/// Figures of which the trade has several forms (figures, section 4): what is common to the names of all forms.
fn varies(name: &str) -> Option<&'static str> {
    const MANY: &[&str] = &[
        "vine",
        "weave",
        "jazz",
        "box",
        "charleston",
        "twinkle",
        "balance",
        "botafogo",
        "lindy",
        "anchor",
        "apple",
        "camel",
        "vaudeville",
        "night",
        "sugar",
        "basic",
        "monterey",
        "unwind",
        "swivel",
        "samba",
        "diamond",
        "volta",
        "cuban",
        "heel grind",
        "roll",
        "step",
        "walk",
        "k-step",
    ];
    const SURE: &[&str] = &["coaster", "sailor", "kick ball", "rocking chair", "lock step"];
    let name = name.small();
    if SURE.iter().any(|w| name.contains(w)) {
        return None;
    }
    MANY.iter().find(|w| name.contains(**w)).copied()
}

/// Figures that are forms of one another.
fn family(name: &str) -> String {
    let name = name.small();
    let groups: &[(&str, &[&str])] = &[
        ("coaster", &["coaster"]),
        ("sailor", &["sailor"]),
        ("lock", &["lock"]),
        ("kick ball", &["kick ball", "kick-ball"]),
        ("chair", &["rocking chair"]),
        ("mambo", &["mambo"]),
        ("triple", &["shuffle", "chasse", "triple", "cha", "polka", "anchor"]),
        ("scissor", &["scissor"]),
        ("strut", &["strut"]),
        ("rock", &["rock"]),
    ];
    for (key, words) in groups {
        if words.iter().any(|w| name.contains(w)) {
            return (*key).to_string();
        }
    }
    name
}

/// In how many steps a figure and some moves do not agree. `strict` asks for the very same places.
fn clashes(f: &Figure, moves: &[&Move], lead: Foot, strict: bool) -> usize {
    let mirrored = f.first_foot().is_some_and(|first| first != lead);
    let start = |at: crate::time::Ticks, first: crate::time::Ticks| at.0 - first.0;
    let mut n = 0;
    for (step, m) in f.steps.iter().zip(moves) {
        let step = if mirrored { step.mirrored() } else { *step };
        let weight = |e: Effect| e == Effect::Takes;
        let when = strict && start(step.at, f.steps[0].at) != start(m.at, moves[0].at);
        if step.who != m.who || weight(step.effect) != weight(m.effect) || when || !meets(&step, m, strict) {
            n += 1;
        }
    }
    n
}

/// Whether the place of a step is that of a move, as loosely as teachers speak.
fn meets(step: &Step, m: &Move, strict: bool) -> bool {
    let still = |a: Action| {
        matches!(a, Action::Recover | Action::Pivot | Action::Drop | Action::Shift | Action::Hold)
    };
    if still(step.action) != still(m.action) && strict {
        return false;
    }
    if still(m.action) || still(step.action) {
        return true;
    }
    if m.turn.0 != 0 || step.turn.0 != 0 {
        return !strict;
    }
    if step.place == m.place {
        return true;
    }
    if strict {
        return false;
    }
    let groups: &[&[Spot]] = &[
        &[Spot::Forward, Spot::DiagonalForward, Spot::DiagonalAcross],
        &[Spot::Back, Spot::DiagonalBack],
        &[Spot::Side, Spot::Out, Spot::DiagonalForward, Spot::DiagonalBack],
        &[Spot::Close, Spot::InPlace, Spot::Home, Spot::In, Spot::Third, Spot::Still],
        &[Spot::Cross, Spot::LockFront, Spot::DiagonalAcross],
        &[Spot::Behind, Spot::LockBehind, Spot::Third],
        // A step whose place was left out is put in front or on its place.
        &[Spot::InPlace, Spot::Forward, Spot::Side],
    ];
    groups.iter().any(|g| g.contains(&step.place) && g.contains(&m.place))
}
