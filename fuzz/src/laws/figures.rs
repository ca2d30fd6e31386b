//! The language of figures: what the lexicon takes as steps.

use std::fmt::Write as _;

use halfcount::dance::{Action, Effect, Foot, Weight, Who};
use halfcount::figures::{Step, counts, lexicon, steps};

use super::{must, report};

pub(super) fn holds(text: &str) -> Result<(), String> {
    // A name, known or not, is looked up and compared with all names.
    if let Some((_, figure)) = lexicon().find(text) {
        must(!figure.name.is_empty(), || "name: a figure without one was found".to_owned())?;
    }
    let near = lexicon().near(text);
    must(near.len() <= 4, || format!("near: {} names", near.len()))?;
    let read = match steps(text, &lexicon().vocabulary) {
        Ok(read) => read,
        Err(piece) => {
            let inside = text.contains(piece);
            return must(inside, || format!("piece: {piece} is not in the text"));
        }
    };
    let other: Vec<Step> = read.iter().map(|s| s.mirrored()).collect();
    let back: Vec<Step> = other.iter().map(|s| s.mirrored()).collect();
    must(back == read, || "mirror: twice is another figure".to_owned())?;
    must(counts(&read) == counts(&other), || "mirror: other counts".to_owned())?;
    for start in [Weight::On(Foot::Left), Weight::On(Foot::Right), Weight::Both] {
        let (a, ok) = weigh(&read, start);
        let (b, other_ok) = weigh(&other, start.mirrored());
        must(a.mirrored() == b && ok == other_ok, || format!("mirror: weight {a:?} and {b:?}"))?;
    }
    written(text, &read)
}

fn weigh(steps: &[Step], start: Weight) -> (Weight, bool) {
    steps.iter().fold((start, true), |(w, ok), s| {
        let (after, allowed) = s.weigh(w);
        (after, ok && allowed)
    })
}

/// A sheet with these steps, one a line, has the same feet on the same counts; told only of steps that can be
/// danced from the weight on the left foot by one foot at a time, on counts that rise and leave none out.
fn written(text: &str, read: &[Step]) -> Result<(), String> {
    let rises = read.windows(2).all(|w| w[0].at < w[1].at);
    let counted = counts(read);
    let first = read.first().is_some_and(|s| s.at.0 == 24);
    let fills = (1..=counted).all(|n| read.iter().any(|s| s.at.count() == i32::try_from(n).unwrap_or(0)));
    let start = Weight::On(Foot::Left);
    // What both feet do can begin with the weight on both: the reader may choose.
    let both = read.iter().any(|s| {
        let feet = matches!(s.action, Action::Split | Action::Swivel | Action::Bounce | Action::Swivet);
        s.who == Who::Both || (s.who == Who::Nobody && (feet || s.action == Action::Applejack))
    });
    // Two remarks belong to the language of figures alone.
    let own = text.contains("(shared)") || text.contains("(kept)");
    // In a sheet "1a" alone means a step on 1 and one on the a after it.
    let parts = read.iter().any(|s| s.at.within() != 0);
    // Whose foot takes the weight is for the reader to find where the step does not say it.
    let nobody = read.iter().any(|s| s.who == Who::Nobody && s.effect == Effect::Takes);
    if both
        || own
        || parts
        || nobody
        || !rises
        || !first
        || !fills
        || counted > 16
        || !weigh(read, start).1
        || text.contains(['\n', '\r'])
    {
        return Ok(());
    }
    let mut sheet = format!("Lamp Walk\n{counted} counts, 1 wall\n\n");
    for piece in text.split([',', ';']) {
        // Behind a number with a wide gap stands a section.
        let words: Vec<&str> = piece.split_whitespace().collect();
        let _ = writeln!(sheet, "{}", words.join(" "));
    }
    let report = report(&sheet)?;
    // A sheet takes a word that is mistyped for the one that was meant; a lexicon does not.
    if report.findings.iter().any(|f| f.rule == "misspelt") {
        return Ok(());
    }
    let wanted: Vec<String> = taken(start, read.iter().map(|s| (s.at.0, s.weigh(start).0, s)));
    let dance = &report.dance;
    let moves: Vec<_> = dance.parts.iter().take(1).flat_map(|p| &p.sections).flat_map(|s| &s.moves).collect();
    let got: Vec<String> = moves
        .iter()
        .filter(|m| m.after != m.before)
        .map(|m| format!("{}{}", m.at, m.after.letter()))
        .collect();
    must(got == wanted, || format!("sheet: {} became {}", wanted.join(" "), got.join(" ")))
}

/// Ticks on which the weight changes, and to where.
fn taken<'s>(start: Weight, steps: impl Iterator<Item = (i32, Weight, &'s Step)>) -> Vec<String> {
    let mut now = start;
    let mut out = Vec::new();
    for (_, _, step) in steps {
        let (after, _) = step.weigh(now);
        if after != now {
            out.push(format!("{}{}", step.at, after.letter()));
        }
        now = after;
    }
    out
}
