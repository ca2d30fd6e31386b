//! The lexicon against the trade's own table of figures, foot by foot.
//!
//! `tests/data/figures.tsv` gives each figure's source beside its expansion.

use halfcount::dance::{Weight, Who};
use halfcount::figures::{Step, lexicon};

fn formal(start: Weight, steps: &[Step]) -> String {
    let mut out = format!("[{}]", start.letter());
    for (i, s) in steps.iter().enumerate() {
        let count = if s.at.within() == 0 { s.at.count().to_string() } else { s.at.sign().to_string() };
        let who = match s.who {
            Who::One(foot) => foot.letter(),
            Who::Both => "B",
            Who::Nobody => "-",
        };
        let sep = if i == 0 { " " } else { "; " };
        out += &format!("{sep}{count} {who} {} {} {}", s.action.word(), s.place.word(), s.effect.sign());
        if s.turn.0 != 0 {
            let turn = s.turn.to_string();
            let turn = if s.turn.0.abs() == 60 { turn.replace("1 1/4", "5/4") } else { turn };
            out += &format!(" @{}", turn.replace(' ', ""));
        }
    }
    out
}

#[test]
fn every_figure_has_the_steps_of_the_table() {
    let table = include_str!("data/figures.tsv");
    let mut rows = 0;
    for row in table.lines().skip(1) {
        let cells: Vec<&str> = row.split('\t').collect();
        let (_, figure) =
            lexicon().find(cells[0]).unwrap_or_else(|| panic!("{} is not in the lexicon", cells[0]));
        assert_eq!(figure.name, cells[0]);
        assert_eq!(formal(figure.start, &figure.steps), cells[5], "{}", cells[0]);
        for synonym in cells[1].split(';').map(str::trim) {
            let plain = synonym.split('(').next().unwrap_or("").trim();
            assert!(
                plain.is_empty() || synonym.contains(',') || lexicon().find(plain).is_some(),
                "{synonym} names nothing"
            );
        }
        rows += 1;
    }
    assert_eq!(rows, 263);
}
