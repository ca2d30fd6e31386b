//! The lexicon of figures and the grammar of a written step.
//!
//! Knows words and the rules of weight; knows nothing of sheets, metres or findings. Figures are data: the
//! files under `lexicon/` are read with the same grammar as the steps that people write in a sheet.

mod entry;
mod grammar;
mod lookup;
mod remark;
mod shown;
mod step;
mod written;

pub use entry::{Figure, Lead, Mistake};
pub use grammar::{Taking, written, written_met};
pub use lookup::{Hit, Lexicon, NamePart, lexicon, name_word};
pub use remark::{WeightSaid, weight_remark};
pub use shown::{Shown, ShownStep};
pub use step::{Step, counts, said_turn, steps};
pub use written::{FootPart, Written, WrittenTurn, number_word, turn_word, usual_effect, usual_place, verb};
