//! Logarithm, exponential and the writing of numbers, from `+ - * /` alone.
//!
//! The platform's own functions differ in the last bit between native code and WebAssembly. These are sums of
//! the usual series after the usual reduction of the argument, so every machine gives the same bytes.

use core::f64::consts::{FRAC_1_SQRT_2, LN_2};

/// Upper part of ln 2, with zeros at its end so that small multiples of it are exact.
const LN_2_HIGH: f64 = 0.693_147_180_369_123_8;
/// What [`LN_2_HIGH`] lacks.
const LN_2_LOW: f64 = 1.908_214_929_270_587_7e-10;

/// The natural logarithm; minus infinity for zero, not a number below it.
#[must_use]
pub fn ln(x: f64) -> f64 {
    if x == 0.0 {
        return f64::NEG_INFINITY;
    }
    if x.is_nan() || x < 0.0 {
        return f64::NAN;
    }
    if x.is_infinite() {
        return x;
    }
    // Numbers below the normal range are brought into it first.
    let (scaled, shift) = if x < f64::MIN_POSITIVE { (x * 18_014_398_509_481_984.0, -54) } else { (x, 0) };
    let bits = scaled.to_bits();
    let mut power = i32::try_from((bits >> 52) & 0x7ff).unwrap_or(0) - 1022 + shift;
    let mut part = f64::from_bits((bits & 0x000f_ffff_ffff_ffff) | (1022 << 52));
    if part < FRAC_1_SQRT_2 {
        part *= 2.0;
        power -= 1;
    }
    let s = (part - 1.0) / (part + 1.0);
    let square = s * s;
    // 2 artanh(s) = 2 (s + s^3/3 + s^5/5 + ...), and |s| is at most 0.172.
    let mut sum = 0.0;
    for odd in (1..=12).rev() {
        sum = square * (sum + 1.0 / f64::from(2 * odd + 1));
    }
    let k = f64::from(power);
    k * LN_2_HIGH + (2.0 * s * (1.0 + sum) + k * LN_2_LOW)
}

/// The logarithm to the base of two.
#[must_use]
pub fn log2(x: f64) -> f64 {
    ln(x) / LN_2
}

/// The exponential function.
#[must_use]
pub fn exp(x: f64) -> f64 {
    if x.is_nan() {
        return x;
    }
    if x > 709.0 {
        return f64::INFINITY;
    }
    if x < -708.0 {
        return 0.0;
    }
    let k = (x / LN_2).round();
    let rest = (x - k * LN_2_HIGH) - k * LN_2_LOW;
    let mut sum = 1.0;
    for n in (1..=16).rev() {
        sum = 1.0 + rest / f64::from(n) * sum;
    }
    #[allow(clippy::cast_possible_truncation, reason = "k is between -1022 and 1023")]
    let power = u64::try_from(k as i64 + 1023).unwrap_or(0);
    sum * f64::from_bits(power << 52)
}

/// 1 / (1 + e^-x).
#[must_use]
pub fn logistic(x: f64) -> f64 {
    1.0 / (1.0 + exp(-x))
}

/// Rounded to so many decimals, and no minus before a zero.
#[must_use]
pub fn rounded(value: f64, places: i32) -> f64 {
    let mut scale = 1.0;
    for _ in 0..places {
        scale *= 10.0;
    }
    (value * scale).round() / scale + 0.0
}

/// With so many decimals at most, without zeros at the end.
#[must_use]
pub fn decimal(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

#[cfg(test)]
#[allow(clippy::disallowed_methods, reason = "the platform's functions are what ours are held against")]
mod tests {
    use super::*;

    #[track_caller]
    fn near(got: f64, want: f64) {
        assert!((got - want).abs() <= 4e-16 * want.abs().max(1.0), "{got} is not {want}");
    }

    #[test]
    fn logarithms_and_powers_agree_with_the_platform() {
        for i in 1..20_000 {
            let x = f64::from(i) * 0.0037;
            near(ln(x), x.ln());
            let y = f64::from(i - 10_000) * 0.003;
            let (got, want) = (exp(y), y.exp());
            assert!((got - want).abs() <= 1e-15 * want, "exp({y}): {got} is not {want}");
        }
        for power in -1070..1020 {
            near(ln(exp(1.0).powi(power / 4)), f64::from(power / 4));
        }
        near(ln(f64::MIN_POSITIVE / 1024.0), (f64::MIN_POSITIVE / 1024.0).ln());
    }

    #[test]
    fn the_edges_are_kept() {
        assert!(ln(-1.0).is_nan() && ln(f64::NAN).is_nan() && exp(f64::NAN).is_nan());
        assert_eq!((ln(0.0), ln(f64::INFINITY)), (f64::NEG_INFINITY, f64::INFINITY));
        assert_eq!((exp(0.0), exp(-1e9), exp(1e9)), (1.0, 0.0, f64::INFINITY));
        assert_eq!((ln(1.0), logistic(0.0)), (0.0, 0.5));
    }

    #[test]
    fn numbers_are_written_short() {
        for (value, places, want) in
            [(2.0, 2, "2"), (-0.001, 2, "0"), (0.126, 2, "0.13"), (1200.0, 0, "1200"), (10.50, 1, "10.5")]
        {
            assert_eq!(decimal(value, places), want);
        }
        assert!(rounded(-0.000_000_1, 3).is_sign_positive());
    }
}
