//! Dances for tests, made from the expansions of the trade's figures without any reader of sheets.
#![allow(dead_code, unreachable_pub)]

use halfcount::dance::{
    Action, Dance, Effect, FigureUse, Foot, Head, Move, Part, PartKind, Place, Reach, Section, TurnWhen,
    Weight, Who,
};
use halfcount::floor::{Heading, Turn};
use halfcount::text::Span;
use halfcount::time::Ticks;

/// A figure as a row of the trade's table.
#[derive(Debug, Clone)]
pub struct Row {
    pub name: String,
    pub counts: u32,
    pub start: Weight,
    pub moves: Vec<Move>,
}

/// Every row of `tests/data/figures.tsv`.
pub fn rows() -> Vec<Row> {
    let text = include_str!("../data/figures.tsv");
    let rows: Vec<Row> = text
        .lines()
        .skip(1)
        .map(|line| {
            let cells: Vec<&str> = line.split('\t').collect();
            let counts = cells[3].parse().expect("counts");
            let (start, moves) = parse(cells[5]);
            Row { name: cells[0].into(), counts, start, moves }
        })
        .collect();
    assert_eq!(rows.len(), 263, "the table has 263 figures");
    rows
}

/// One row by its name.
pub fn figure(name: &str) -> Row {
    rows().into_iter().find(|r| r.name == name).unwrap_or_else(|| panic!("no figure {name}"))
}

fn foot(word: &str) -> Option<Foot> {
    match word {
        "L" => Some(Foot::Left),
        "R" => Some(Foot::Right),
        _ => None,
    }
}

fn weight(word: &str) -> Weight {
    foot(word).map_or(Weight::Both, Weight::On)
}

fn turn(word: &str) -> Turn {
    let (size, way) = word.split_at(word.len() - 1);
    let units = match size.split_once('/') {
        Some((a, b)) => 48 * a.parse::<i32>().expect("turn") / b.parse::<i32>().expect("turn"),
        None => 48 * size.parse::<i32>().expect("turn"),
    };
    if way == "R" { Turn(units) } else { -Turn(units) }
}

/// Reads an expansion: `[L] 1 R step side +; 2 L touch close .`
pub fn parse(text: &str) -> (Weight, Vec<Move>) {
    let (start, events) = text.trim_start_matches('[').split_once(']').expect("start");
    let start = weight(start);
    let mut now = start;
    let mut last = 0;
    let mut moves: Vec<Move> = Vec::new();
    for event in events.split(';') {
        let words: Vec<&str> = event.split_whitespace().collect();
        let [count, who, action, place, mark, turned @ ..] = words.as_slice() else { panic!("{event}") };
        let at = match *count {
            "e" => last / 24 * 24 + 6,
            "&" => {
                let half = last / 24 * 24 + 12;
                // A second action of the same & shares its tick.
                if half < last { half + 24 } else { half }
            }
            "a" => last / 24 * 24 + 18,
            n => 24 * n.parse::<i32>().expect("count"),
        };
        last = at;
        let effect = match *mark {
            "+" => Effect::Takes,
            "." => Effect::Free,
            "=" => Effect::Shares,
            "*" => Effect::Keeps,
            _ => Effect::None,
        };
        let who = match *who {
            "B" => Who::Both,
            "-" => Who::Nobody,
            f => Who::One(foot(f).expect("foot")),
        };
        let after = match (effect, who) {
            (Effect::Takes, Who::One(f)) => Weight::On(f),
            (Effect::Shares, _) => Weight::Both,
            // A free foot lifted from shared weight leaves it on the other one.
            (Effect::Free, Who::One(f)) if now == Weight::Both => Weight::On(f.other()),
            _ => now,
        };
        moves.push(Move {
            at: Ticks(at),
            lasts: Ticks(24),
            who,
            action: Action::from_word(action).unwrap_or_else(|| panic!("{action}")),
            place: Place::from_word(place).unwrap_or_else(|| panic!("{place}")),
            reach: Reach::Usual,
            turn: turned.first().map_or(Turn::NONE, |t| turn(t.trim_start_matches('@'))),
            turn_when: TurnWhen::Before,
            effect,
            before: now,
            after,
            broken: None,
            span: Span::default(),
            figure: Some(0),
        });
        now = after;
    }
    for i in 0..moves.len() {
        let here = moves[i].at;
        if let Some(next) = moves[i..].iter().map(|m| m.at).find(|t| *t > here) {
            moves[i].lasts = next - here;
        }
    }
    (start, moves)
}

/// The same move on the other foot.
pub fn mirrored(m: &Move) -> Move {
    Move {
        who: m.who.mirrored(),
        place: m.place.mirrored(),
        turn: -m.turn,
        before: m.before.mirrored(),
        after: m.after.mirrored(),
        ..m.clone()
    }
}

/// A dance of one part with these sections.
pub fn dance(start: Weight, sections: Vec<(u32, Vec<Move>)>) -> Dance {
    let sections: Vec<Section> = sections
        .into_iter()
        .map(|(counts, moves)| Section {
            name: String::new(),
            counts,
            weight_start: moves.first().map_or(start, |m| m.before),
            weight_end: moves.last().map_or(start, |m| m.after),
            moves,
            figures: vec![FigureUse {
                name: String::new(),
                lead: None,
                turn: Turn::NONE,
                span: Span::default(),
                named: true,
            }],
            span: Span::default(),
            facing_start: Heading::FRONT,
            facing_end: Heading::FRONT,
        })
        .collect();
    let part = Part { name: "main".into(), kind: PartKind::Main, sections };
    Dance {
        head: Head { counts: part.counts(), ..Head::default() },
        parts: vec![part],
        sequence: Vec::new(),
        tags: Vec::new(),
        restarts: Vec::new(),
        ending: None,
        start,
        runs: Vec::new(),
    }
}

/// A dance of one figure.
pub fn alone(row: &Row) -> Dance {
    dance(row.start, vec![(row.counts, row.moves.clone())])
}

/// A dance of one figure on the other foot.
pub fn other_foot(row: &Row) -> Dance {
    dance(row.start.mirrored(), vec![(row.counts, row.moves.iter().map(mirrored).collect())])
}

/// A dance from an expansion.
pub fn written(counts: u32, text: &str) -> Dance {
    let (start, moves) = parse(text);
    dance(start, vec![(counts, moves)])
}
