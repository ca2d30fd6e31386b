//! What is said about a wrong call: one line each, in plain words.

use std::io;

use clap::error::{ContextKind, ContextValue, ErrorKind};

/// One sentence about arguments that were not understood, and where to look next.
pub(crate) fn call(error: &clap::Error) -> String {
    let text = |kind| match error.get(kind) {
        Some(ContextValue::String(one)) => Some(one.clone()),
        Some(ContextValue::Strings(many)) => many.first().cloned(),
        _ => None,
    };
    let bad = text(ContextKind::InvalidArg);
    let sentence = match (error.kind(), bad) {
        (ErrorKind::UnknownArgument, Some(option)) => {
            let near = text(ContextKind::SuggestedArg);
            format!("there is no option {option}{}", meant(near.as_deref()))
        }
        (ErrorKind::InvalidSubcommand, _) => {
            let word = text(ContextKind::InvalidSubcommand).unwrap_or_default();
            let near = text(ContextKind::SuggestedSubcommand);
            format!("there is no command {word}{}", meant(near.as_deref()))
        }
        (ErrorKind::InvalidValue | ErrorKind::ValueValidation, Some(option)) => {
            let value = text(ContextKind::InvalidValue).unwrap_or_default();
            let option = option.split(' ').next().unwrap_or_default().to_owned();
            let known = match error.get(ContextKind::ValidValue) {
                Some(ContextValue::Strings(known)) if !known.is_empty() => format!(": {}", known.join(", ")),
                _ => std::error::Error::source(error).map(|why| format!(": {why}")).unwrap_or_default(),
            };
            if value.is_empty() {
                format!("{option} needs a value{known}")
            } else {
                format!("{option} does not take {value}{known}")
            }
        }
        (ErrorKind::MissingRequiredArgument, Some(what)) => {
            format!("{} is missing", what.trim_matches(|c| matches!(c, '<' | '>' | '.')))
        }
        (ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand | ErrorKind::MissingSubcommand, _) => {
            "no command was given".to_owned()
        }
        (ErrorKind::ArgumentConflict, Some(option)) => {
            format!(
                "{} is given twice or does not go with the rest",
                option.split(' ').next().unwrap_or_default()
            )
        }
        _ => {
            let whole = error.to_string();
            let first = whole.split("\n\n").next().unwrap_or_default();
            let words: Vec<&str> = first.trim_start_matches("error:").split_whitespace().collect();
            words.join(" ")
        }
    };
    format!("{sentence}; see halfcount --help")
}

fn meant(near: Option<&str>) -> String {
    near.map(|near| format!("; {near} is meant, perhaps")).unwrap_or_default()
}

/// The usual troubles with files in plain words, without numbers of the operating system.
pub(crate) fn plain(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file or folder".to_owned(),
        io::ErrorKind::PermissionDenied => "you may not open it".to_owned(),
        io::ErrorKind::IsADirectory => "it is a folder".to_owned(),
        io::ErrorKind::StorageFull => "the disk is full".to_owned(),
        _ => {
            let text = error.to_string();
            text.split(" (os error").next().unwrap_or_default().to_owned()
        }
    }
}
