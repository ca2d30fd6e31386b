//! Steps told about a restart of which no words say that they are danced otherwise: "restart after 16; last two counts
//! there: back R, together L".

use super::exchanged::Change;
use super::otherwise::{Piece, Way, does, foot, of_dance, pieces};
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token};
use crate::sheet::{Mark, mark, rows};
use crate::time::Ticks;

/// What may be danced otherwise where no words say so outright: each row of steps that is told, on its own counts or on
/// the last ones before the restart.
pub(super) fn fitting(text: &str, t: &[Token], danced: u32, after: u32) -> Vec<Change> {
    let pieces = pieces(text, t);
    let place = |t: &Token| {
        matches!(t.kind, Kind::W(W::Back | W::Forward | W::Side | W::Together | W::Beside | W::Across))
    };
    let says = |p: &Piece| {
        let words = &t[p.from..p.to];
        let until =
            words.first().is_some_and(|t| matches!(t.kind, Kind::W(W::After | W::Before | W::To | W::Up)));
        (does(words) || words.iter().any(place) || words.iter().all(foot)) && !of_dance(text, words) && !until
    };
    let mut rows_of: Vec<Vec<Piece>> = Vec::new();
    for way in [Way::New, Way::Old] {
        let mut end = usize::MAX;
        for p in pieces.iter().filter(|p| p.way == way && says(p)) {
            match rows_of.last_mut().filter(|_| end < p.from && end + 3 >= p.from) {
                Some(row) => row.push(*p),
                None => rows_of.push(vec![*p]),
            }
            end = p.to;
        }
    }
    let (Ok(danced), Ok(after)) = (i32::try_from(danced), i32::try_from(after)) else { return Vec::new() };
    let mut out = Vec::new();
    for row in rows_of {
        let (from, to) = (row[0].from, row[row.len() - 1].to);
        // Counts may stand before the first word.
        let from = (from.saturating_sub(3)..from)
            .find(|k| mark(text, t, *k, to).is_some_and(|m| m.to <= from))
            .unwrap_or(from);
        let mut told =
            [counted(text, &t[from..to]), rows(text, &t[from..to])].into_iter().filter_map(|chunks| {
                let ticks: Vec<Ticks> = chunks.iter().flat_map(|(t, _)| t.iter().copied()).collect();
                (ticks.len() >= 2 && chunks.iter().all(|(_, words)| does(words))).then_some((ticks, chunks))
            });
        // Counts that are told end where the dance is left.
        if let Some((ticks, chunks)) = told.next() {
            let end = ticks.last().map_or(0, |t| t.count());
            let on = |from: i32| after % 4 != 0 && (1..=4).contains(&(end - from));
            if end == danced || end == after || on(after) || on(danced) {
                out.push(Change { ticks, chunks, local: false });
            }
            continue;
        }
        let shut = usize::from(t.get(to).is_some_and(|t| t.sign(')')));
        let steps = t[row[0].from..to + shut].to_vec();
        let parts = steps.split(|t| matches!(t.kind, Kind::Sign(',') | Kind::W(W::And)));
        let n = parts.filter(|c| does(c) || c.iter().any(place)).count();
        let n = i32::try_from(n).unwrap_or(0);
        if (1..=4).contains(&n) && n <= danced {
            let ticks: Vec<Ticks> = (danced - n + 1..=danced).map(Ticks::of_count).collect();
            out.push(Change { chunks: vec![(ticks.clone(), steps)], ticks, local: true });
        }
    }
    out
}

/// Steps each behind its count: "15. Step back R 16. Step L beside R".
fn counted(text: &str, t: &[Token]) -> Vec<(Vec<Ticks>, Vec<Token>)> {
    let mut out: Vec<(Vec<Ticks>, Vec<Token>)> = Vec::new();
    let mut k = 0;
    while k < t.len() {
        let last = out.last().and_then(|(ticks, _)| ticks.last()).map(|t| t.count());
        let fits = |m: &Mark| m.ticks[0].0 > 0 && last.map_or(k == 0, |n| m.first() == n + 1);
        if let Some(m) = mark(text, t, k, t.len()).filter(fits) {
            k = m.to;
            out.push((m.ticks, Vec::new()));
        } else {
            out.last_mut().into_iter().for_each(|(_, words)| words.push(t[k]));
            k += 1;
        }
    }
    out
}
