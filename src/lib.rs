//! halfcount reads a line dance's step sheet as people write it, works out where each foot and the weight are
//! at every half-count, and says what cannot be danced as written and how to mend it.
//!
//! The rooms follow the way of the data, and each knows only those above it.

pub mod body;
pub mod call;
pub mod check;
pub mod dance;
pub mod difficulty;
pub mod draw;
pub mod figures;
pub mod floor;
pub mod letters;
pub mod motion;
pub mod order;
pub mod read;
mod report;
pub mod sheet;
pub mod text;
pub mod tidy;
pub mod time;
pub mod trace;
#[cfg(feature = "wasm")]
pub mod wasm;

pub use report::{Error, LONGEST, Mended, Options, Report, mended, report};

/// The code in the README runs.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
#[derive(Debug)]
pub struct Readme;
