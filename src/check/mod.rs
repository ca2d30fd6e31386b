//! Dance and motion in, findings out.

mod finding;

pub use finding::{Finding, Fix, Related, Severity, Sureness, Unread};
