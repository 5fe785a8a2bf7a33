//! What clap refuses, in one line; shared by the examples.

use clap::error::{ContextKind, ContextValue, ErrorKind};

/// One line naming the flag, the value and what is allowed.
pub(crate) fn one_line(error: &clap::Error) -> String {
    let text = |kind| match error.get(kind) {
        Some(ContextValue::String(text)) => Some(text.clone()),
        Some(ContextValue::Strings(texts)) => Some(texts.join(", ")),
        _ => None,
    };
    let flag = text(ContextKind::InvalidArg).map(|flag| {
        flag.split_whitespace()
            .next()
            .unwrap_or_default()
            .to_owned()
    });
    let value = text(ContextKind::InvalidValue);
    let reason = std::error::Error::source(error).map(ToString::to_string);
    let allowed = text(ContextKind::ValidValue).map(|values| format!("give one of {values}"));
    let hint = text(ContextKind::SuggestedArg).map(|hint| format!("; did you mean {hint}?"));
    let other = text(ContextKind::PriorArg);
    match (error.kind(), flag, value) {
        (ErrorKind::ArgumentConflict, Some(flag), _) => match other {
            Some(other) if other.split_whitespace().next() != Some(&flag) => {
                let other = other
                    .split_whitespace()
                    .next()
                    .unwrap_or_default()
                    .to_owned();
                format!("{flag} and {other} exclude one another")
            }
            _ => format!("{flag} is given twice"),
        },
        (ErrorKind::MissingRequiredArgument, Some(needed), _) => {
            format!("{needed} is needed with a flag that was given; --help lists the flags")
        }
        (_, Some(flag), Some(value)) if !value.is_empty() => {
            let reason = reason.or(allowed).unwrap_or_default();
            format!("{flag} \"{value}\": {reason}")
        }
        (ErrorKind::UnknownArgument, Some(flag), _) => {
            let hint = hint.unwrap_or_default();
            format!("{flag}: no such flag{hint}; --help lists the flags")
        }
        (_, Some(flag), _) => format!("{flag}: a value is missing"),
        _ => error
            .to_string()
            .lines()
            .next()
            .unwrap_or_default()
            .to_owned(),
    }
}
