//! Weights, levels and the margin of the score, read from a small file.
//!
//! A line holds words between tabs or blanks; what follows `#` is a remark:
//!
//! ```text
//! version  0.1-provisional       the name of these weights
//! scale    five-names-0.1        the name of the levels' scale
//! weight   turn_total 1.9        points for the first notch or so, zero or more
//! level    beginner 14.5         the score from which this level or a higher one is the likelier
//! spread   4.2                   points over which one level passes into the next
//! margin   9.5                   points to either side that hold four in five of the labels
//! ```

use core::fmt;

use super::measure::{measure, measures};

/// The weights that come with this version; `cargo xtask calibrate` writes them.
const OWN: &str = include_str!("weights.tsv");

/// The five names of levels, the easiest first. They are the trade's names, and what each allows differs from
/// teacher to teacher.
pub const LEVELS: [&str; 5] = ["absolute beginner", "beginner", "improver", "intermediate", "advanced"];

/// Points for each measure, and how points become levels.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Weights {
    /// The name of these weights.
    pub version: String,
    /// The name of the levels' scale, empty where there are no levels.
    pub scale: String,
    /// Points for each step of a measure's curve, in the order of [`measures`]; zero for what is only reported.
    pub points: Vec<f64>,
    /// The scores at which each of the upper four levels, or a higher one, becomes the likelier; rising.
    pub borders: Option<[f64; 4]>,
    /// Points over which one level passes into the next.
    pub spread: f64,
    /// Points to either side that hold four in five of the labels.
    pub margin: f64,
}

impl Default for Weights {
    fn default() -> Self {
        Self::parse(OWN).unwrap_or_else(|_| Self::none())
    }
}

impl Weights {
    fn none() -> Self {
        let points = measures().map(|_| 0.0).collect();
        Self { version: String::new(), scale: String::new(), points, borders: None, spread: 5.0, margin: 0.0 }
    }

    /// Reads weights from a text of the form above. A measure that is not named has no weight. Without all four
    /// borders of levels there are no levels.
    ///
    /// # Errors
    ///
    /// Says in which line something is that cannot be meant: a measure that is not known or that is only
    /// reported, a weight below zero, levels out of order.
    pub fn parse(text: &str) -> Result<Self, WeightsError> {
        let mut weights = Self::none();
        "own weights".clone_into(&mut weights.version);
        let mut borders = [None; 4];
        for (index, line) in text.lines().enumerate() {
            let wrong = |what: String| WeightsError { line: index + 1, what };
            let line = line.split('#').next().unwrap_or_default().trim_start_matches('\u{feff}').trim();
            let Some((kind, rest)) = line.split_once(char::is_whitespace) else {
                if line.is_empty() {
                    continue;
                }
                return Err(wrong(format!("{line} stands alone")));
            };
            let rest = rest.trim();
            let (name, number) = rest.rsplit_once(char::is_whitespace).unwrap_or(("", rest));
            let (name, number) = (name.trim(), decimal(number));
            let no_number = || wrong(format!("{rest} does not end in a number"));
            match kind {
                "version" => rest.clone_into(&mut weights.version),
                "scale" => rest.clone_into(&mut weights.scale),
                "weight" => {
                    let number = number.ok_or_else(no_number)?;
                    let Some(known) = measure(name) else {
                        return Err(wrong(format!("there is no measure {name}")));
                    };
                    if known.scored.is_none() {
                        return Err(wrong(format!("{name} is only reported and takes no weight")));
                    }
                    if number < 0.0 {
                        return Err(wrong(format!("the weight of {name} is below zero")));
                    }
                    let place = measures().position(|m| m.name == name).unwrap_or(0);
                    weights.points[place] = number;
                }
                "level" => {
                    let number = number.ok_or_else(no_number)?;
                    match LEVELS.iter().skip(1).position(|level| *level == name) {
                        Some(place) => borders[place] = Some(number),
                        None => return Err(wrong(format!("there is no upper level {name}"))),
                    }
                }
                "spread" => weights.spread = number.filter(|n| *n > 0.0).ok_or_else(no_number)?,
                "margin" => weights.margin = number.filter(|n| *n >= 0.0).ok_or_else(no_number)?,
                other => return Err(wrong(format!("nothing is known of {other}"))),
            }
        }
        if let [Some(a), Some(b), Some(c), Some(d)] = borders {
            if !(a <= b && b <= c && c <= d) {
                let what = "the levels do not rise".to_owned();
                return Err(WeightsError { line: text.lines().count(), what });
            }
            weights.borders = Some([a, b, c, d]);
        }
        Ok(weights)
    }
}

/// Weights that cannot be meant.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct WeightsError {
    /// The line, from 1.
    pub line: usize,
    /// What is wrong.
    pub what: String,
}

impl fmt::Display for WeightsError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}: {}", self.line, self.what)
    }
}

impl core::error::Error for WeightsError {}

/// A number with or without a decimal point. The standard library's reader of numbers takes eighteen kilobytes of
/// tables to be right for numbers of any length; up to fifteen digits one exact division is right as well.
fn decimal(word: &str) -> Option<f64> {
    let (minus, digits) = word.strip_prefix('-').map_or((false, word), |rest| (true, rest));
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let number = whole.len() + part.len();
    if number == 0 || number > 15 || !whole.bytes().chain(part.bytes()).all(|b| b.is_ascii_digit()) {
        return None;
    }
    let mut value = 0.0;
    let mut divisor = 1.0;
    for digit in whole.bytes() {
        value = value * 10.0 + f64::from(digit - b'0');
    }
    for digit in part.bytes() {
        value = value * 10.0 + f64::from(digit - b'0');
        divisor *= 10.0;
    }
    Some(if minus { -value } else { value } / divisor)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn decimals_are_read_to_the_last_bit() {
        for word in ["0", "4.361", "-2.5", "0.1", "10.6", "123456789.012345", ".5", "7.", "0.00000000000001"]
        {
            assert_eq!(decimal(word).map(f64::to_bits), word.parse::<f64>().ok().map(f64::to_bits), "{word}");
        }
        for word in ["", ".", "-", "1e5", "NaN", "inf", "1.2.3", "+1", "1234567890.1234567"] {
            assert_eq!(decimal(word), None, "{word}");
        }
    }

    #[test]
    fn the_own_weights_are_whole() {
        let own = Weights::parse(OWN).expect("they can be read");
        assert!(own.borders.is_some() && own.margin > 0.0 && own.points.iter().sum::<f64>() > 0.0);
        for (known, points) in measures().zip(&own.points) {
            assert!(*points >= 0.0 && (known.scored.is_some() || *points == 0.0), "{}", known.name);
        }
    }

    #[test]
    fn a_half_count_step_weighs_more_than_what_it_may_take_away() {
        // A step put between two others sends all that follows to the other side. One turn and one step may then
        // no longer go against the one before, and the dance must not become easier by that.
        let own = Weights::default();
        let notch = |name: &str| {
            let place = measures().position(|m| m.name == name).expect("it is known");
            let scored = measures().nth(place).and_then(|m| m.scored).expect("it is scored");
            own.points[place] / scored.notch
        };
        assert!(notch("halves") >= notch("turn_reversals") + notch("sharp_changes"));
    }

    #[track_caller]
    fn refused(text: &str, sentence: &str) {
        assert_eq!(Weights::parse(text).expect_err(text).to_string(), sentence);
    }

    #[test]
    fn what_cannot_be_meant_is_refused() {
        refused("weight\tlength\t-1", "line 1: the weight of length is below zero");
        refused("# own\nweight wings 1", "line 2: there is no measure wings");
        refused("weight walls 1", "line 1: walls is only reported and takes no weight");
        refused("weight length much", "line 1: length much does not end in a number");
        refused("level expert 3", "line 1: there is no upper level expert");
        refused(
            "level beginner 9\nlevel improver 8\nlevel intermediate 7\nlevel advanced 6",
            "line 4: the levels do not rise",
        );
    }

    #[test]
    fn levels_may_be_left_out() {
        let own = Weights::parse("weight length 2.5\n").expect("a short file");
        assert_eq!((own.borders, own.points.iter().sum::<f64>()), (None, 2.5));
    }
}
