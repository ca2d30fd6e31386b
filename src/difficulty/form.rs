//! The fixed JSON form of a score, which the command line and the JavaScript package give alike.

use serde::{Serialize, Serializer};

use super::number::rounded;
use super::{BLIND, Choice, Score, measure};
use crate::text::{LineIndex, Span};

/// A number of four decimals at most, whole ones without a point, as JavaScript writes them.
#[derive(Debug, Clone, Copy)]
pub struct Number(pub f64);

impl Serialize for Number {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let value = rounded(self.0, 4);
        #[allow(clippy::cast_possible_truncation, reason = "whole numbers of this size are exact")]
        let whole = value as i64;
        #[allow(clippy::cast_precision_loss, clippy::float_cmp, reason = "asks whether it is whole")]
        if whole as f64 == value { serializer.serialize_i64(whole) } else { serializer.serialize_f64(value) }
    }
}

/// A score in the fixed form.
#[derive(Debug, Serialize)]
pub struct ScoreForm<'a> {
    file: &'a str,
    title: &'a str,
    provisional: bool,
    weights: &'a str,
    scale: &'a str,
    tempo: u32,
    tempo_given: bool,
    score: Option<Number>,
    low: Number,
    high: Number,
    bounds: Option<&'a str>,
    level: Option<&'static str>,
    chances: Vec<ChanceJson>,
    parts: Vec<PartJson>,
    measures: Vec<MeasureJson>,
    profile: Vec<Number>,
    unplaced: Number,
    hardest: Option<HardestJson<'a>>,
    others: Vec<OtherJson>,
    easier: Vec<EasierJson<'a>>,
    blind: &'static [&'static str],
}

#[derive(Debug, Serialize)]
struct ChanceJson {
    level: &'static str,
    chance: Number,
}

#[derive(Debug, Serialize)]
struct PartJson {
    part: &'static str,
    points: Number,
    share: Number,
}

#[derive(Debug, Serialize)]
struct MeasureJson {
    name: &'static str,
    part: &'static str,
    unit: &'static str,
    value: Number,
    scored: bool,
    floor: Option<Number>,
    notch: Option<Number>,
    curve: Option<&'static str>,
    weight: Option<Number>,
    points: Option<Number>,
}

#[derive(Debug, Serialize)]
struct HardestJson<'a> {
    from: u32,
    to: u32,
    points: Number,
    words: Vec<WordsJson<'a>>,
}

#[derive(Debug, Serialize)]
struct WordsJson<'a> {
    line: u32,
    column: u32,
    start: u32,
    end: u32,
    text: &'a str,
}

#[derive(Debug, Serialize)]
struct OtherJson {
    how: String,
    score: Number,
}

#[derive(Debug, Serialize)]
struct EasierJson<'a> {
    words: &'a str,
    score: Option<Number>,
}

/// The fixed form of a score, with what is said in `text` quoted. The places are bytes of it.
#[must_use]
pub fn form<'a>(
    score: &'a Score,
    choices: &'a [Choice],
    text: &'a str,
    title: &'a str,
    file: &'a str,
) -> ScoreForm<'a> {
    let lines = LineIndex::new(text);
    let words = |span: &Span| {
        let (line, column) = lines.place(text, span.start);
        WordsJson { line, column, start: span.start, end: span.end, text: span.of(text) }
    };
    let measures = score.measures.iter().map(|taken| {
        let known = measure(taken.name).and_then(|m| m.scored);
        MeasureJson {
            name: taken.name,
            part: taken.family.word(),
            unit: taken.unit,
            value: Number(taken.value),
            scored: known.is_some(),
            floor: known.map(|s| Number(s.floor)),
            notch: known.map(|s| Number(s.notch)),
            curve: known.map(|s| s.curve()),
            weight: known.map(|_| Number(taken.weight)),
            points: known.map(|_| Number(taken.points)),
        }
    });
    ScoreForm {
        file,
        title,
        provisional: true,
        weights: &score.weights,
        scale: &score.scale,
        tempo: score.tempo,
        tempo_given: score.tempo_given,
        score: score.total.map(Number),
        low: Number(score.low),
        high: Number(score.high),
        bounds: score.bounds.as_deref(),
        level: score.level,
        chances: score
            .chances
            .iter()
            .map(|c| ChanceJson { level: c.level, chance: Number(c.chance) })
            .collect(),
        parts: score
            .shares
            .iter()
            .map(|s| PartJson { part: s.family.word(), points: Number(s.points), share: Number(s.share) })
            .collect(),
        measures: measures.collect(),
        profile: score.profile.iter().map(|p| Number(*p)).collect(),
        unplaced: Number(score.unplaced),
        hardest: score.hardest.as_ref().map(|h| HardestJson {
            from: h.from,
            to: h.to,
            points: Number(h.points),
            words: h.words.iter().map(words).collect(),
        }),
        others: score
            .others
            .iter()
            .map(|(other, score)| OtherJson { how: other.title(), score: Number(*score) })
            .collect(),
        easier: choices.iter().map(|e| EasierJson { words: &e.words, score: e.score.map(Number) }).collect(),
        blind: BLIND,
    }
}
