//! Songs with known answers, and every small song by brute force.

use super::search::{Piece, Value};
use super::*;
use crate::floor::Turn;

/// The ways of one repetition that is danced over and over.
fn grid(length: u32, cuts: &[(u32, u32)], tags: &[(u32, u32)]) -> Vec<Vec<Piece>> {
    vec![part(length, cuts, tags)]
}

fn part(length: u32, cuts: &[(u32, u32)], tags: &[(u32, u32)]) -> Vec<Piece> {
    Places { length, cuts: cuts.to_vec(), tags: tags.to_vec(), refused: Vec::new() }.pieces()
}

/// All songs one by one: for each number of changes the least value.
fn by_hand(turns: &[Vec<Piece>], phrases: &[u32]) -> Vec<(usize, Value)> {
    let mut borders = Vec::new();
    let mut end = 0;
    for p in phrases {
        end += p;
        borders.push(end);
    }
    borders.pop();
    let most = borders.len() * 2;
    let mut best: Vec<Option<Value>> = vec![None; most + 1];
    let mut open = vec![(0_u32, 0_usize, 0_usize, Value::default())];
    while let Some((at, turn, changes, value)) = open.pop() {
        for piece in &turns[turn] {
            let (to, then) = (at + piece.length, changes + piece.changes());
            if then > most || (to >= end && piece.changes() > 0) {
                continue;
            }
            let inside = borders.iter().filter(|b| **b > at && **b < to).count();
            let missed = Value { missed: u32::try_from(inside).expect("few"), ..Value::default() };
            let value = value.plus(piece.value).plus(missed);
            if to < end {
                open.push((to, (turn + 1) % turns.len(), then, value));
            } else if best[then].is_none_or(|old| value < old) {
                best[then] = Some(value);
            }
        }
    }
    let mut front: Vec<(usize, Value)> = Vec::new();
    for (changes, value) in best.into_iter().enumerate() {
        let Some(value) = value else { continue };
        if front.last().is_none_or(|(_, last)| value.missed < last.missed) {
            front.push((changes, value));
        }
    }
    front
}

#[track_caller]
fn same_as_by_hand(turns: &[Vec<Piece>], phrases: &[u32]) {
    let (fits, _) = search(turns, phrases);
    let found: Vec<(usize, Value)> = fits
        .iter()
        .map(|f| (f.changes.len(), Value { missed: f.missed, rough: f.rough, counts: f.counts }))
        .collect();
    assert_eq!(found, by_hand(turns, phrases), "{phrases:?}");
    for fit in &fits {
        assert_eq!(replayed(turns, phrases, &fit.changes), fit.missed, "{phrases:?} {fit:?}");
    }
}

/// Phrases missed when a song is danced with these changes.
fn replayed(turns: &[Vec<Piece>], phrases: &[u32], changes: &[Change]) -> u32 {
    let end: u32 = phrases.iter().sum();
    let mut starts = Vec::new();
    let (mut at, mut wall) = (0, 1);
    while at < end {
        starts.push(at);
        let mut counts = turns[(wall as usize - 1) % turns.len()][0].length;
        for change in changes {
            match change {
                Change::Restart { wall: w, after } if *w == wall => counts = *after,
                Change::Tag { wall: w, counts: more } if *w == wall => counts += more,
                _ => {}
            }
        }
        at += counts;
        wall += 1;
    }
    let mut border = 0;
    let mut missed = 0;
    for phrase in &phrases[..phrases.len() - 1] {
        border += phrase;
        missed += u32::from(!starts.contains(&border));
    }
    missed
}

#[test]
fn the_search_agrees_with_every_small_song() {
    // Numbers without a pattern from a fixed rule, so that every run sees the same songs.
    let mut seed = 7_u32;
    let mut next = |n: u32| {
        seed = seed.wrapping_mul(1_103_515_245).wrapping_add(12_345);
        (seed >> 16) % n
    };
    for _ in 0..400 {
        let length = 4 + next(5);
        let cuts: Vec<(u32, u32)> =
            (2..length).filter(|_| next(2) == 0).map(|after| (after, after % 4)).collect();
        let tags: Vec<(u32, u32)> = [(1, 1), (2, 0)].into_iter().filter(|_| next(2) == 0).collect();
        let phrases: Vec<u32> = (0..=next(4)).map(|_| 1 + next(8)).collect();
        same_as_by_hand(&grid(length, &cuts, &tags), &phrases);
    }
}

#[test]
fn the_search_agrees_with_every_small_song_in_parts() {
    for (a, b, c) in [(4, 6, 5), (8, 3, 3), (5, 5, 2)] {
        let turns = [part(a, &[(2, 1), (3, 0)], &[(1, 1)]), part(b, &[(2, 0)], &[]), part(c, &[], &[(2, 0)])];
        for phrases in [&[7, 9, 4][..], &[4, 4, 4, 4], &[10, 3, 6], &[5, 11, 5], &[9, 9]] {
            same_as_by_hand(&turns, phrases);
        }
    }
}

#[test]
fn a_part_that_is_too_long_for_its_phrase_is_broken_off() {
    // A 32, A 32, B 16 in turn, and the second verse of the song is half as long.
    let a = part(32, &[(8, 0), (16, 0), (24, 0)], &[]);
    let b = part(16, &[(8, 0)], &[]);
    let (fits, _) = search(&[a.clone(), a, b], &[32, 16, 16, 32, 32, 16]);
    assert_eq!(fits.last().map(|f| f.changes.clone()), Some(vec![Change::Restart { wall: 2, after: 16 }]));
    assert_eq!(fits.last().map(|f| f.missed), Some(0));
}

#[test]
fn a_short_phrase_asks_for_one_restart() {
    // 32 counts danced to 32 64 32 16 64 32: the fifth repetition meets a phrase of 16.
    let pieces = grid(32, &[(8, 0), (16, 0), (24, 0)], &[(4, 0), (8, 0), (16, 0)]);
    let (fits, _) = search(&pieces, &[32, 64, 32, 16, 64, 32]);
    let plain = &fits[0];
    assert_eq!((plain.changes.len(), plain.missed), (0, 2));
    assert_eq!(fits[1].changes, [Change::Restart { wall: 5, after: 16 }]);
    assert_eq!((fits[1].missed, fits[1].rough, fits[1].counts), (0, 0, 16));
    assert_eq!(fits.len(), 2);
}

#[test]
fn four_counts_too_many_ask_for_one_tag() {
    let pieces = grid(32, &[(8, 0), (16, 0), (24, 0)], &[(4, 0), (8, 0)]);
    let (fits, _) = search(&pieces, &[64, 36, 64, 32]);
    assert_eq!(fits.last().map(|f| f.changes.clone()), Some(vec![Change::Tag { wall: 3, counts: 4 }]));
}

#[test]
fn music_in_whole_repetitions_needs_nothing() {
    let pieces = grid(32, &[(16, 0)], &[(4, 0)]);
    let (fits, _) = search(&pieces, &[32, 64, 32, 96]);
    assert_eq!(fits.len(), 1);
    assert_eq!((fits[0].changes.len(), fits[0].missed), (0, 0));
}

#[test]
fn where_no_restart_is_allowed_a_tag_stands_in() {
    let (fits, _) = search(&grid(32, &[], &[(16, 0)]), &[32, 64, 32, 16, 64, 32]);
    // The phrase of 16 is danced through; 16 more counts reach the next but one.
    assert_eq!(fits.last().map(|f| (f.changes.len(), f.missed)), Some((1, 1)));
}

#[test]
fn of_two_restarts_the_one_at_a_section_end_is_taken() {
    // Two short repetitions of 12 and 20 or 16 and 16 fill the same 32 counts.
    let pieces = grid(40, &[(12, 1), (16, 0), (20, 2)], &[]);
    let (fits, _) = search(&pieces, &[32, 40]);
    let last = fits.last().expect("a fit");
    assert_eq!(
        last.changes,
        [Change::Restart { wall: 1, after: 16 }, Change::Restart { wall: 2, after: 16 }]
    );
}

#[test]
fn states_are_few() {
    // 300 counts of music, a restart possible on every count: the state is count and changes, no more.
    let cuts: Vec<(u32, u32)> = (1..32).map(|after| (after, after % 4)).collect();
    let phrases = [32, 44, 32, 20, 64, 28, 48, 32];
    assert_eq!(phrases.iter().sum::<u32>(), 300);
    let (fits, states) = search(&grid(32, &cuts, &[(2, 1), (4, 0), (8, 0)]), &phrases);
    assert_eq!(fits.last().map(|f| f.missed), Some(0));
    assert!(states <= 300 * (2 * phrases.len() - 1), "{states}");
}

#[test]
fn walls_are_those_that_the_turns_reach() {
    let unit = |turns: &[i32]| between_walls(turns.iter().map(|t| Turn(*t)));
    assert_eq!(unit(&[12]), 12, "a quarter leads to four walls");
    assert_eq!(unit(&[-36]), 12);
    assert_eq!(unit(&[24]), 24, "a half leads to two");
    assert_eq!(unit(&[0]), 48, "and none to one");
    assert_eq!(unit(&[24, 0]), 24, "part A turns a half, part B not");
    assert_eq!(unit(&[24, 12]), 12);
}
