//! Laws that hold for any text, and ways to spoil real sheets so that the laws are tried.
//!
//! A law takes a text and says in a sentence how it is broken, if it is. The same laws are tried by the plain
//! program of this crate and by its tests (a few seconds of the same). Random bytes seldom get past the first word;
//! sheets changed by words and lines do.

pub mod chance;
pub mod change;
pub mod corpus;
pub mod laws;
mod markup;
pub mod shrink;

pub use laws::{LAWS, Law};

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::{Mutex, Once, PoisonError};

/// What the last panic said and where it was.
static LAST: Mutex<String> = Mutex::new(String::new());

/// Tries a law on a text; a panic is a broken law as well.
///
/// # Errors
///
/// How the law is broken.
pub fn tried(law: &Law, text: &str) -> Result<(), String> {
    static QUIET: Once = Once::new();
    QUIET.call_once(|| {
        std::panic::set_hook(Box::new(|info| {
            let place = info.location().map(ToString::to_string).unwrap_or_default();
            let what = info.payload();
            let what = what.downcast_ref::<&str>().map(|s| (*s).to_owned());
            let what = what.or_else(|| info.payload().downcast_ref::<String>().cloned());
            *LAST.lock().unwrap_or_else(PoisonError::into_inner) =
                format!("panic at {place}: {}", what.unwrap_or_default());
        }));
    });
    catch_unwind(AssertUnwindSafe(|| (law.holds)(text)))
        .unwrap_or_else(|_| Err(LAST.lock().unwrap_or_else(PoisonError::into_inner).clone()))
}
