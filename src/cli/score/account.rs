//! The account of a score in words.

use std::fmt::Write as _;

use halfcount::difficulty::number::decimal;
use halfcount::difficulty::{BLIND, Score, Taken, measure};

use super::Scored;

/// Width of the bars, in characters for the longest.
const BAR: f64 = 24.0;

/// What a teacher wants to know; with `all`, everything.
pub(super) fn account(scored: &Scored, all: bool) -> String {
    let score = scored.score;
    let title = if scored.title.is_empty() { scored.file } else { scored.title };
    let mut page = format!("{title} ({})\n", scored.file);
    page += &head(score);
    page += &made_of(score);
    page += &hardest(scored);
    page += &otherwise(scored);
    if all {
        page += &measures(scored);
        page += &profile(scored);
    }
    let _ = write!(page, "\nNot seen: {}.\n", BLIND.join("; "));
    page += "Provisional: the weights come from few and invented labels; a number to plan and argue with. The \
             teacher in the room decides.\n";
    page
}

fn points(value: f64) -> String {
    decimal(value, 1)
}

/// The score, its range, the levels and the tempo.
fn head(score: &Score) -> String {
    let mut text = String::new();
    let (low, high) = (decimal(score.low, 0), decimal(score.high, 0));
    match (score.total, &score.bounds) {
        (Some(total), _) => {
            let _ = write!(
                text,
                "  score    {} of 100, between {low} and {high} in four of five cases",
                points(total)
            );
            if let Some(level) = score.level {
                let _ = write!(text, ": {level}");
            }
            text.push('\n');
        }
        (None, bounds) => {
            let why = bounds.as_deref().unwrap_or_default();
            let _ = writeln!(text, "  bounds   {low} to {high} of 100. {why}");
        }
    }
    if !score.chances.is_empty() {
        let chance =
            |c: &halfcount::difficulty::Chance| format!("{} {} %", c.level, decimal(c.chance * 100.0, 0));
        let chances: Vec<String> = score.chances.iter().filter(|c| c.chance >= 0.005).map(chance).collect();
        let _ = writeln!(text, "  level    {} (scale {})", chances.join(", "), score.scale);
    }
    let said = if score.tempo_given { "" } else { ", a default because the sheet gives none" };
    let _ = writeln!(text, "  tempo    {} beats a minute{said}", score.tempo);
    let _ = writeln!(text, "  weights  {}", score.weights);
    text
}

fn made_of(score: &Score) -> String {
    let mut text = String::from("\nMade of\n");
    for share in &score.shares {
        let bar = "#".repeat(stroke(share.share * BAR));
        let percent = decimal(share.share * 100.0, 0);
        let _ =
            writeln!(text, "  {:<8} {:>5}  {percent:>3} %  {bar}", share.family.word(), points(share.points));
    }
    let mut top: Vec<&Taken> = score.measures.iter().filter(|t| t.points >= 0.05).collect();
    top.sort_by(|a, b| b.points.total_cmp(&a.points));
    let named: Vec<String> = top
        .iter()
        .take(4)
        .map(|t| {
            format!(
                "{} {} {} ({} points)",
                t.name.replace('_', " "),
                decimal(t.value, 2),
                t.unit,
                points(t.points)
            )
        })
        .collect();
    if !named.is_empty() {
        let _ = writeln!(text, "  most of it: {}", named.join("; "));
    }
    text
}

/// The length of a bar.
fn stroke(length: f64) -> usize {
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "at most a bar's length")]
    let whole = length.clamp(0.0, 200.0).round() as usize;
    whole
}

fn hardest(scored: &Scored) -> String {
    let Some(hardest) = &scored.score.hardest else { return String::new() };
    let mut text = format!(
        "\nHardest eight counts: {} to {}, {} points\n",
        place(&scored.sections, hardest.from),
        place(&scored.sections, hardest.to),
        points(hardest.points)
    );
    for span in &hardest.words {
        let words: Vec<&str> = span.of(scored.text).split_whitespace().collect();
        let _ = writeln!(text, "  \"{}\"", words.join(" "));
    }
    text
}

/// A running count as a teacher names it: section and count.
fn place(sections: &[u32], count: u32) -> String {
    let mut before = 0;
    for (index, counts) in sections.iter().enumerate() {
        if count <= before + counts {
            return format!("section {} count {}", index + 1, count - before);
        }
        before += counts;
    }
    format!("count {count}")
}

fn otherwise(scored: &Scored) -> String {
    let score = scored.score;
    let mut text = String::new();
    if score.others.is_empty() && scored.easier.is_empty() {
        return text;
    }
    text.push_str("\nDanced otherwise\n");
    for (other, value) in &score.others {
        let _ = writeln!(text, "  {:>5}  {}", points(*value), other.title());
    }
    for easier in scored.easier {
        match easier.score {
            Some(value) => {
                let _ = writeln!(
                    text,
                    "  {:>5}  with the sheet's easier option \"{}\"",
                    points(value),
                    easier.words
                );
            }
            None => {
                let _ = writeln!(text, "      ?  the easier option could not be read: \"{}\"", easier.words);
            }
        }
    }
    text
}

fn measures(scored: &Scored) -> String {
    let mut text = String::from("\nEvery measure\n  value       points   measure\n");
    for taken in &scored.score.measures {
        let value = decimal(taken.value, 3);
        let how = match measure(taken.name).and_then(|m| m.scored) {
            Some(s) => format!(
                "{} a notch of {} above {}{}",
                decimal(taken.weight, 2),
                decimal(s.notch, 2),
                decimal(s.floor, 2),
                if s.straight { "" } else { ", each further one less" }
            ),
            None => "only reported".to_owned(),
        };
        let points = if taken.steps.is_some() { decimal(taken.points, 2) } else { "-".to_owned() };
        let _ = writeln!(text, "  {value:>10}  {points:>6}  {} ({}): {how}", taken.name, taken.unit);
    }
    if let Some(borders) = scored.weights.borders {
        let borders = borders.map(|b| decimal(b, 1)).join(", ");
        let _ = writeln!(text, "  Levels pass into each other at {borders} points.");
    }
    text
}

fn profile(scored: &Scored) -> String {
    let score = scored.score;
    let mut text = format!(
        "\nPoints of each count ({} more are in no single place: length, memory, tags)\n",
        points(score.unplaced)
    );
    let most = score.profile.iter().copied().fold(0.0, f64::max);
    for (value, count) in score.profile.iter().zip(1_u32..) {
        let bar = if most > 0.0 { "#".repeat(stroke(value / most * BAR)) } else { String::new() };
        let line = format!("  {:<22} {:>5}  {bar}", place(&scored.sections, count), decimal(*value, 2));
        text += line.trim_end();
        text.push('\n');
    }
    text
}
