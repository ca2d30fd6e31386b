//! Text in, a [`Sheet`] out.
mod counts;
pub mod vocabulary;
pub mod words;
pub use counts::{Mark, mark};
