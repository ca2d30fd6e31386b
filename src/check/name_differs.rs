//! A figure is named and the steps written out for it are those of another figure.

use super::subject::{Draft, Subject};

pub(super) const NAME: &str = "name-differs";

pub(super) fn run(_: &Subject<'_>, _: &mut Vec<Draft>) {}
