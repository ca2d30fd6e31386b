//! Small sheets in plain words, and what is said about them.

#![allow(dead_code, reason = "not every test looks at everything")]

mod traces;

#[allow(unused_imports, reason = "as above")]
pub(crate) use traces::weights;

use halfcount::check::Severity;
use halfcount::dance::{Effect, Move, Weight, Who};
use halfcount::time::Ticks;
use halfcount::{Options, Report, report};

/// What a small sheet says.
#[derive(Debug)]
pub(crate) struct Said {
    /// Weight changes and positions without one, from the first action on: `1R &L 2R 3-`.
    pub trace: String,
    /// Net turn in 1/48, clockwise positive.
    pub turn: i32,
    /// Weight at the end.
    pub ends: &'static str,
    /// Findings above a note, by rule.
    pub loud: Vec<&'static str>,
    /// All of it.
    pub report: Report,
}

/// Reads a sheet; `from` is the first section that is looked at.
pub(crate) fn said(text: &str, from: usize) -> Said {
    let report = report(text, &Options::default()).expect("a small sheet");
    let sections: Vec<_> = report.dance.main_sections().skip(from).collect();
    let mut before = 0;
    let mut moves: Vec<(Ticks, &Move)> = Vec::new();
    for s in &sections {
        moves.extend(s.moves.iter().map(|m| (m.at + Ticks::of_count(before), m)));
        before += i32::try_from(s.counts).expect("a small section");
    }
    let base = moves.first().map_or(0, |(at, _)| at.count() - 1).max(0);
    let mut entries: Vec<(Ticks, &'static str)> = Vec::new();
    for (at, m) in &moves {
        let at = Ticks(at.0 - base * 24);
        let letter = match (m.effect, m.who) {
            (Effect::Takes, Who::One(foot)) => foot.letter(),
            (Effect::Takes | Effect::Shares, _) => m.after.letter(),
            _ => "-",
        };
        match entries.last_mut() {
            Some((last, old)) if *last == at && *old == "-" => *old = letter,
            Some((last, _)) if *last == at && letter == "-" => {}
            _ => entries.push((at, letter)),
        }
    }
    let mut trace = String::new();
    for (at, letter) in entries {
        let sign = at.sign();
        if !trace.is_empty() {
            trace.push(' ');
        }
        if sign.is_empty() {
            trace.push_str(&at.count().to_string());
        } else {
            trace.push_str(sign);
        }
        trace.push_str(letter);
    }
    let turn = moves.iter().map(|(_, m)| m.turn.0).sum();
    let ends = moves.last().map_or(Weight::Both, |(_, m)| m.after).letter();
    let loud = report.findings.iter().filter(|f| f.severity != Severity::Note).map(|f| f.rule).collect();
    Said { trace, turn, ends, loud, report }
}
