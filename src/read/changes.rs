//! Steps that a restart changes.
