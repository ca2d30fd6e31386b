//! Both feet on a grid of moments, as a table.

use core::fmt::Write as _;

use crate::time::Ticks;

use super::pose::{FootPose, Sole};
use super::{Motion, degrees};

/// The header line of the table.
pub const HEADER: &str = "part,section,count,tick,facing,left_x,left_y,left_toe,left_sole,left_weight,\
                          right_x,right_y,right_toe,right_sole,right_weight";

/// One moment of a dance. Numbers have four decimals at most.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[non_exhaustive]
pub struct FrameRow {
    /// Name of the part: `main`, `A`, `tag 1`.
    pub part: String,
    /// Section of the part, from 1.
    pub section: u32,
    /// Count within the section, written out: `3`, `3&`.
    pub count: String,
    /// 24 times the running count.
    #[cfg_attr(feature = "serde", serde(serialize_with = "number"))]
    pub tick: f64,
    /// Facing in degrees clockwise from 12:00.
    #[cfg_attr(feature = "serde", serde(serialize_with = "number"))]
    pub facing: f64,
    /// Ball of the left foot toward 3:00, in metres.
    #[cfg_attr(feature = "serde", serde(serialize_with = "number"))]
    pub left_x: f64,
    /// Ball of the left foot toward 12:00, in metres.
    #[cfg_attr(feature = "serde", serde(serialize_with = "number"))]
    pub left_y: f64,
    /// Toe of the left foot in degrees clockwise from 12:00.
    #[cfg_attr(feature = "serde", serde(serialize_with = "number"))]
    pub left_toe: f64,
    /// What of the left foot is on the floor.
    pub left_sole: Sole,
    /// Share of the weight on the left foot.
    #[cfg_attr(feature = "serde", serde(serialize_with = "number"))]
    pub left_weight: f64,
    /// Ball of the right foot toward 3:00, in metres.
    #[cfg_attr(feature = "serde", serde(serialize_with = "number"))]
    pub right_x: f64,
    /// Ball of the right foot toward 12:00, in metres.
    #[cfg_attr(feature = "serde", serde(serialize_with = "number"))]
    pub right_y: f64,
    /// Toe of the right foot in degrees clockwise from 12:00.
    #[cfg_attr(feature = "serde", serde(serialize_with = "number"))]
    pub right_toe: f64,
    /// What of the right foot is on the floor.
    pub right_sole: Sole,
    /// Share of the weight on the right foot.
    #[cfg_attr(feature = "serde", serde(serialize_with = "number"))]
    pub right_weight: f64,
}

/// Whole numbers are written without a decimal point, as JavaScript does.
#[cfg(feature = "serde")]
#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde asks for this form")]
fn number<S: serde::Serializer>(value: &f64, serializer: S) -> Result<S::Ok, S::Error> {
    // Rounded to four decimals, so a whole number is one exactly.
    #[allow(clippy::cast_possible_truncation, reason = "positions of one dance")]
    let whole = *value as i64;
    #[allow(clippy::cast_precision_loss, clippy::float_cmp, reason = "asks whether it is whole")]
    if whole as f64 == *value { serializer.serialize_i64(whole) } else { serializer.serialize_f64(*value) }
}

/// Four decimals, and no minus before a zero.
fn rounded(value: f64) -> f64 {
    (value * 1e4).round() / 1e4 + 0.0
}

/// An angle of four decimals that stays below a whole turn.
fn angle(units: f64) -> f64 {
    let turned = rounded(degrees(units));
    if turned >= 360.0 { 0.0 } else { turned }
}

impl Motion {
    /// The rows of a grid with so many moments to the count (one at least), from the position before the first
    /// step to the end of the last count.
    #[must_use]
    pub fn frames(&self, per_count: u32) -> Vec<FrameRow> {
        let per_count = per_count.max(1);
        let rows = (self.counts.saturating_add(1)).saturating_mul(per_count);
        (0..rows).map(|row| self.row(row / per_count, row % per_count, per_count)).collect()
    }

    fn row(&self, count: u32, step: u32, per_count: u32) -> FrameRow {
        let within = 24.0 * f64::from(step) / f64::from(per_count);
        let tick = f64::from(count) * 24.0 + within;
        let stance = self.at(tick);
        let stretch = self.stretch_of(count);
        let (before, skipped) = stretch.map_or((0, 0), |s| (s.before, s.skipped));
        // Count 0 stands before the first section's own counts, whatever that section leaves out.
        let own = if count == 0 { 0 } else { count - before + skipped };
        let sign = Ticks(i32::try_from(24 * step / per_count).unwrap_or(0)).sign();
        let sign = if step > 0 && sign.is_empty() { "e" } else { sign };
        let (left, right) = (Cells::of(&stance.left), Cells::of(&stance.right));
        let share = rounded(stance.left.share);
        FrameRow {
            part: stretch.map_or_else(|| "main".into(), |s| s.name.clone()),
            section: stretch.map_or(1, |s| u32::try_from(s.section + 1).unwrap_or(u32::MAX)),
            count: format!("{own}{sign}"),
            tick: rounded(tick),
            facing: angle(stance.facing),
            left_x: left.x,
            left_y: left.y,
            left_toe: left.toe,
            left_sole: stance.left.sole,
            left_weight: share,
            right_x: right.x,
            right_y: right.y,
            right_toe: right.toe,
            right_sole: stance.right.sole,
            right_weight: rounded(1.0 - share),
        }
    }
}

struct Cells {
    x: f64,
    y: f64,
    toe: f64,
}

impl Cells {
    fn of(foot: &FootPose) -> Self {
        Self { x: rounded(foot.ball.x), y: rounded(foot.ball.y), toe: angle(foot.toe) }
    }
}

/// The table of rows with its header line, each line ended by a line feed.
#[must_use]
pub fn csv(rows: &[FrameRow]) -> String {
    let mut out = String::with_capacity(100 * (rows.len() + 1));
    out.push_str(HEADER);
    out.push('\n');
    for row in rows {
        field(&mut out, &row.part);
        let _ = write!(out, ",{},{},{},{}", row.section, row.count, row.tick, row.facing);
        for (x, y, toe, sole, weight) in [
            (row.left_x, row.left_y, row.left_toe, row.left_sole, row.left_weight),
            (row.right_x, row.right_y, row.right_toe, row.right_sole, row.right_weight),
        ] {
            let _ = write!(out, ",{x},{y},{toe},{},{weight}", sole.word());
        }
        out.push('\n');
    }
    out
}

/// A text that holds a comma or a quotation mark stands in quotation marks (RFC 4180).
fn field(out: &mut String, text: &str) {
    if text.contains([',', '"', '\n', '\r']) {
        out.push('"');
        out.push_str(&text.replace('"', "\"\""));
        out.push('"');
    } else {
        out.push_str(text);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_have_no_minus_zero_and_four_decimals() {
        for (value, want) in [(-0.000_01, "0"), (0.123_456, "0.1235"), (-1.5, "-1.5"), (24.0, "24")] {
            assert_eq!(rounded(value).to_string(), want);
        }
        assert_eq!(angle(47.999_999_99).to_string(), "0");
        assert_eq!(angle(-6.0).to_string(), "315");
    }

    #[test]
    fn awkward_names_are_quoted() {
        let mut out = String::new();
        field(&mut out, "tag 1, \"slow\"");
        assert_eq!(out, "\"tag 1, \"\"slow\"\"\"");
    }
}
