//! Tables: which columns hold steps, which hold facings, and which hold words to call.

use crate::letters::Letters as _;

use core::ops::Range;

/// A cell of a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Cell {
    /// Bytes of the line.
    pub range: Range<usize>,
    /// Whether it gives a facing, so that a bare number is a clock.
    pub facing: bool,
}

/// What the columns of the table are for, as its header said.
#[derive(Debug, Clone, Default)]
pub(super) struct Columns {
    roles: Vec<Role>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Role {
    Text,
    Facing,
    Call,
}

fn split(raw: &str, bar: char) -> Vec<Range<usize>> {
    let mut out = Vec::new();
    let mut at = 0;
    for (i, c) in raw.char_indices() {
        if c == bar {
            out.push(at..i);
            at = i + c.len_utf8();
        }
    }
    out.push(at..raw.len());
    out
}

impl Columns {
    /// The cells of a line that are worth reading. A header line sets what the columns are for.
    pub(super) fn cells(&mut self, raw: &str) -> Vec<Cell> {
        let bar = if raw.contains('|') { '|' } else { '\t' };
        let parts = split(raw, bar);
        if parts.len() < 2 {
            return vec![Cell { range: 0..raw.len(), facing: false }];
        }
        let roles: Vec<Role> = parts.iter().map(|r| role(&raw[r.clone()])).collect();
        let header = parts.iter().filter(|r| heads(&raw[(*r).clone()])).count() >= 2;
        if header {
            self.roles = roles;
            return Vec::new();
        }
        let mut out = Vec::new();
        for (i, range) in parts.into_iter().enumerate() {
            match self.roles.get(i) {
                Some(Role::Call) => {}
                Some(Role::Facing) => out.push(Cell { range, facing: true }),
                _ => out.push(Cell { range, facing: false }),
            }
        }
        out
    }
}

fn words(cell: &str) -> String {
    cell.trim_matches(|c: char| !c.is_alphanumeric()).small()
}

fn role(cell: &str) -> Role {
    match words(cell).as_str() {
        "call" | "calls" | "cue" | "cues" | "say" | "shout" | "called" | "i say" | "words" | "remarks"
        | "remark" | "comment" | "comments" | "hint" | "hints" | "cue words" | "teacher says"
        | "what i say" => Role::Call,
        "face" | "facing" | "clock" | "wall" | "direction" | "dir" | "faces" | "you face" | "looking at"
        | "turn to" => Role::Facing,
        _ => Role::Text,
    }
}

/// Whether a cell is the head of a column of steps.
fn heads(cell: &str) -> bool {
    let w = words(cell);
    role(cell) != Role::Text
        || matches!(
            w.as_str(),
            "count"
                | "counts"
                | "ct"
                | "cts"
                | "beat"
                | "beats"
                | "foot"
                | "feet"
                | "step"
                | "steps"
                | "what"
                | "what to do"
                | "what you do"
                | "movement"
                | "action"
                | "figure"
                | "description"
                | "no"
                | "nr"
                | "#"
                | "weight"
                | "do this"
        )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_column_of_calls_is_left_out() {
        let mut c = Columns::default();
        assert!(c.cells("| Beats | What you do | Face | Call |").is_empty());
        let line = "| 1-2 | Walk R, L | 12 | walk walk |";
        let kept: Vec<&str> = c.cells(line).into_iter().map(|cell| line[cell.range].trim()).collect();
        assert_eq!(kept, ["", "1-2", "Walk R, L", "12", ""]);
    }
}
