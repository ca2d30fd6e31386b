//! Remarks about the weight: "(weight on left)", "no weight", "taking weight", "weight on both feet".

use crate::dance::Foot;
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token, acts};

/// What a remark says of the weight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WeightSaid {
    /// It is on this foot now.
    On(Foot),
    /// It is shared.
    Both,
    /// The foot that just moved has it.
    Taken,
    /// The foot that just moved has it not.
    NotTaken,
    /// It stays where it was.
    Kept,
}

/// "Both with the weight", "both of them with weight": each of the two steps took it.
fn each_takes(behind: &[Token]) -> bool {
    let takes = |t: &Token| matches!(t.kind, Kind::W(W::With | W::Take));
    match behind {
        [of, it, t, ..] if of.is(W::Of) && it.is(W::It) => takes(t),
        [t, ..] => takes(t),
        [] => false,
    }
}

/// "Weight on both in turn", "on both of them, one after the other": first the one, then the other. How many words tell
/// it.
fn in_turn(behind: &[Token]) -> Option<usize> {
    let clause = behind.iter().take(8).take_while(|t| matches!(t.kind, Kind::W(_) | Kind::Sign(',')));
    let at = |k: usize, w: W| behind.get(k).is_some_and(|t| t.is(w));
    let ends = |k: usize| match () {
        () if at(k, W::In) && at(k + 1, W::Turn) => Some(k + 2),
        () if at(k, W::After) && at(k + 1, W::Other) => Some(k + 2),
        () if at(k, W::After) && at(k + 2, W::Other) => Some(k + 3),
        () => None,
    };
    (0..clause.count()).find_map(ends)
}

/// Reads a remark about the weight that begins at token `from`, and says where it ends.
#[must_use]
pub fn weight_remark(tokens: &[Token], from: usize, limit: usize) -> Option<(WeightSaid, usize)> {
    // In "no weight" the second word alone would say the contrary.
    if from > 0 && tokens[from - 1].is(W::No) {
        return None;
    }
    let mut seen_weight = false;
    let mut no = false;
    let mut take = false;
    let mut keep = false;
    let mut both = false;
    let mut side = None;
    let mut end = from;
    let mut i = from;
    while i < limit && i < from + 12 {
        let Kind::W(w) = tokens[i].kind else {
            if tokens[i].sign('-') && tokens[i].gap <= 1 && i > from && !seen_weight {
                i += 1;
                continue;
            }
            // "the last stomp has your weight on it"
            if tokens[i].kind == Kind::Unknown && take && !seen_weight && tokens[i - 1].kind != Kind::Unknown
            {
                i += 1;
                continue;
            }
            // "weight on each stomp"
            let each = tokens[i].kind == Kind::Unknown
                && seen_weight
                && tokens[i - 1].is(W::On)
                && tokens.get(i + 1).is_some_and(|t| matches!(t.kind, Kind::W(w) if acts(w)));
            if each && side.is_none() && !no {
                return Some((WeightSaid::Taken, i + 2));
            }
            if tokens[i].kind == Kind::Unknown && seen_weight && side.is_none() && !both && i < from + 4 {
                i += 1;
                continue;
            }
            break;
        };
        match w {
            W::Weight => {
                if seen_weight {
                    break;
                }
                seen_weight = true;
            }
            W::WeightOnL | W::WeightOnR => {
                seen_weight = true;
                side = Some(if w == W::WeightOnL { Foot::Left } else { Foot::Right });
            }
            W::Last
                if !seen_weight
                    && tokens.get(i + 1).is_some_and(|t| matches!(t.kind, Kind::W(w) if acts(w))) =>
            {
                take = true;
                i += 1;
            }
            W::No => no = true,
            W::Take | W::With | W::Shift => take |= w != W::With || !seen_weight,
            W::Keep => keep = true,
            W::Both if tokens.get(i + 1).is_some_and(|t| matches!(t.kind, Kind::W(w) if acts(w))) => {
                // "weight on both stomps", "both stomps have weight"
                i += 1;
                take = true;
                while !seen_weight
                    && tokens.get(i + 1).is_some_and(|t| t.kind == Kind::Unknown)
                    && i < from + 3
                {
                    i += 1;
                }
            }
            W::Both
                if seen_weight
                    && tokens.get(i + 1).is_some_and(|t| t.is(W::Of))
                    && (i + 2..i + 5)
                        .any(|k| tokens.get(k).is_some_and(|t| matches!(t.kind, Kind::W(w) if acts(w)))) =>
            {
                // "weight on both of those stomps"
                let last = (i + 2..i + 5)
                    .find(|k| tokens.get(*k).is_some_and(|t| matches!(t.kind, Kind::W(w) if acts(w))));
                return Some((WeightSaid::Taken, last.unwrap_or(i + 2) + 1));
            }
            W::Both if !seen_weight && each_takes(&tokens[i + 1..]) => take = true,
            // "with weight both times"
            W::Both if seen_weight && tokens.get(i + 1).is_some_and(|t| t.is(W::Times)) => {
                return Some((WeightSaid::Taken, i + 2));
            }
            W::Both => {
                if let Some(behind) = in_turn(&tokens[i + 1..]).filter(|_| seen_weight) {
                    return Some((WeightSaid::Taken, i + 1 + behind));
                }
                both = true;
            }
            W::R | W::RF | W::L | W::LF
                if seen_weight
                    && side.is_none()
                    && tokens.get(i + 1).is_some_and(|t| t.sign(',') || t.sign('-'))
                    && tokens
                        .get(i + 2)
                        .is_some_and(|t| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF)))
                    && !tokens.get(i + 3).is_some_and(|t| matches!(t.kind, Kind::W(w) if acts(w))) =>
            {
                // "weight is R, L": an order of feet, not a place of the weight.
                return Some((WeightSaid::Kept, i + 3));
            }
            W::R | W::RF if seen_weight && side.is_none() => side = Some(Foot::Right),
            W::L | W::LF if seen_weight && side.is_none() => side = Some(Foot::Left),
            W::Heel | W::Toe if seen_weight && side.is_none() => {}
            // "weight over the right foot"
            W::Across if seen_weight && side.is_none() => {}
            W::End
            | W::The
            | W::On
            | W::To
            | W::Of
            | W::It
            | W::Full
            | W::Change
            | W::Foot
            | W::Feet
            | W::Make
            | W::In
            | W::For
            | W::Back
            | W::Forward
            | W::At => {
                if !seen_weight
                    && matches!(w, W::For | W::Back | W::Forward | W::In | W::At | W::Foot | W::Feet)
                {
                    break;
                }
                if seen_weight && matches!(w, W::Back | W::Forward | W::In) && side.is_some() {
                    break;
                }
            }
            W::And if i == from || !seen_weight => {}
            _ => break,
        }
        i += 1;
        if !matches!(w, W::The | W::Of | W::For | W::And | W::With) {
            end = i;
        }
    }
    if !seen_weight {
        return None;
    }
    let said = match (no, both, side) {
        (true, _, _) => WeightSaid::NotTaken,
        (_, true, _) => WeightSaid::Both,
        (_, _, Some(foot)) => WeightSaid::On(foot),
        _ if keep => WeightSaid::Kept,
        _ if take => WeightSaid::Taken,
        _ => WeightSaid::Taken,
    };
    Some((said, end))
}
