//! The last steps of all: what they are, on which wall and after how many counts they come in.
//!
//! Endings are told loosely ("turn to the front and pose"), and none is danced more than once. One whose steps
//! cannot be read whole stays a remark, so that no guess about it is ever played or drawn.

use super::Reading;
use super::build::built;
use super::extras::{after, other, reached};
use super::lattice::search;
use super::meaning::Own;
use super::start::Start;
use super::trouble::{Trouble, TroubleKind};
use crate::dance::{EndingUse, Part, PartKind, Weight};
use crate::floor::Heading;
use crate::sheet::{Mention, Sheet, Topic};
use crate::time::Metre;

/// Reads the ending of a sheet, where it has one.
pub(super) fn ending(text: &str, sheet: &Sheet, metre: Metre, own: &[Own], reading: &mut Reading) {
    let Some(part) = sheet.parts.iter().find(|p| p.kind == PartKind::Ending) else { return };
    let spoken = || sheet.mentions.iter().filter(|m| m.topic == Topic::Ending);
    let said: Vec<&Mention> = part.mention.iter().chain(spoken()).collect();
    let wall = said.iter().find_map(|m| m.walls.last().copied());
    let total = reading.dance.parts.first().map_or(0, Part::counts);
    let after_counts = said.iter().find_map(|m| after(reading, m)).filter(|n| *n < total);
    // A wall that is only told by its clock is found in the song; the walls repeat, so the first one will do.
    let stated = said.iter().find_map(|m| m.facings.first().map(|f| f.0));
    let known = wall.or_else(|| {
        let begins = |run: &&crate::dance::Run| run.tag.is_none() && run.from == 0;
        let all = reading.dance.runs.iter().filter(begins);
        stated.and_then(|clock| all.filter(|r| r.facing == clock).map(|r| r.wall).next())
    });
    let (facing, weight) = match known {
        Some(wall) => reached(reading, wall, after_counts),
        None => (Heading::FRONT, reached(reading, 1, after_counts).1),
    };
    let weights = vec![(weight, 0), (other(weight), 30), (Weight::Both, 45)];
    let start = Start::beside(weights, facing, metre);
    let (troubles, labels, clocks) = (reading.troubles.len(), reading.labels.len(), reading.clocks.len());
    let index = reading.dance.parts.len();
    let way = search(text, &part.sections, &start, own);
    let (sections, _) = built(text, &part.sections, &way, &start, index, own, reading);
    let moves = || sections.iter().flat_map(|s| &s.moves);
    let odd = |t: &Trouble| {
        !matches!(t.kind, TroubleKind::ClockHeld { .. } | TroubleKind::Clock { .. } | TroubleKind::Empty(_))
    };
    let whole = moves().next().is_some()
        && moves().all(|m| m.broken.is_none())
        && !reading.troubles[troubles..].iter().any(odd);
    reading.troubles.truncate(troubles);
    reading.clocks.truncate(clocks);
    if !whole {
        reading.labels.truncate(labels);
        return;
    }
    reading.dance.parts.push(Part { name: part.name.clone(), kind: PartKind::Ending, sections });
    reading.dance.ending = Some(EndingUse { part: index, wall, after_counts, stated, span: part.span });
}
