//! Values that other programs compute as well, a line each: what, the input, the value. `oracles.py` holds them
//! against scipy, antropy and amads.

use std::fmt::Write as _;

use halfcount::difficulty::number::{exp, ln, log2};
use halfcount::difficulty::sequence::{entropy, lz76};
use halfcount::difficulty::syncopation::{gap_variability, keith, note_to_beat, off_beatness};

use super::stats::{spearman, tau_b, tau_c};

/// A generator that always begins alike (xorshift64 of Marsaglia 2003).
struct Numbers(u64);

impl Numbers {
    fn below(&mut self, n: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) % n
    }

    fn real(&mut self, n: u64) -> f64 {
        f64::from(u32::try_from(self.below(n)).unwrap_or(0))
    }
}

/// All values.
pub(crate) fn values() -> String {
    let mut page = String::new();
    let mut numbers = Numbers(0x5a17_3a25_8b1d_e001);
    let mut line = |what: &str, input: &str, value: f64| {
        // Writing to a string never fails.
        let _ = writeln!(page, "{what}\t{input}\t{value:.17e}");
    };
    for _ in 0..200 {
        let n = 4 + numbers.below(26);
        let a: Vec<f64> = (0..n).map(|_| numbers.real(12)).collect();
        let b: Vec<f64> = (0..n).map(|_| numbers.real(5)).collect();
        let input = format!("{};{}", list(&a), list(&b));
        line("spearman", &input, spearman(&a, &b));
        line("tau_b", &input, tau_b(&a, &b));
        line("tau_c", &input, tau_c(&a, &b));
    }
    for _ in 0..200 {
        let (n, kinds) = (1 + numbers.below(64), 2 + numbers.below(4));
        let text: Vec<f64> = (0..n).map(|_| numbers.real(kinds)).collect();
        let symbols: Vec<i32> = text.iter().map(|v| i32::from(*v > 0.5) + i32::from(*v > 1.5)).collect();
        let shown: Vec<f64> = symbols.iter().map(|v| f64::from(*v)).collect();
        line("lz76", &list(&shown), f64::from(lz76(&symbols)));
        let often: Vec<f64> = (0..kinds).map(|_| 1.0 + numbers.real(20)).collect();
        line("entropy", &list(&often), entropy(often.iter().copied()));
    }
    for pattern in 1..1_u32 << 16 {
        // Every so many, so that all sizes come up.
        if pattern % 97 != 0 && pattern.count_ones() < 15 {
            continue;
        }
        let notes: Vec<bool> = (0..16).map(|slot| pattern >> slot & 1 == 1).collect();
        let shown: String = notes.iter().map(|n| if *n { '1' } else { '0' }).collect();
        line("off_beatness", &shown, f64::from(off_beatness(&notes)));
        line("keith", &shown, f64::from(keith(&notes)));
        line("note_to_beat", &shown, note_to_beat(&notes, 4));
        line("gap_variability", &shown, gap_variability(&notes, true));
    }
    for _ in 0..200 {
        let x = (1.0 + numbers.real(1 << 20)) / (1.0 + numbers.real(1 << 10));
        line("ln", &format!("{x:.17e}"), ln(x));
        line("log2", &format!("{x:.17e}"), log2(x));
        let y = (numbers.real(1 << 20) - 524_288.0) / 4096.0;
        line("exp", &format!("{y:.17e}"), exp(y));
    }
    page
}

fn list(values: &[f64]) -> String {
    values.iter().map(|v| format!("{v:.0}")).collect::<Vec<_>>().join(",")
}
