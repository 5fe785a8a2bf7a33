//! Reads flags, refuses them in one line, prints an answer; shared by the examples.

use clap::Parser;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use std::io::{ErrorKind as IoError, Write};
use std::process::ExitCode;

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

/// Reads the flags and prints the answer, or one line and code 2.
pub(crate) fn answered<F: Parser>(answer: impl FnOnce(&F) -> Result<String, String>) -> ExitCode {
    answered_with_status(|flags| answer(flags).map(|text| (text, 0)))
}

/// As [`answered`], with the exit status that goes with the answer.
pub(crate) fn answered_with_status<F: Parser>(
    answer: impl FnOnce(&F) -> Result<(String, u8), String>,
) -> ExitCode {
    let flags = match F::try_parse() {
        Ok(flags) => flags,
        Err(error) if error.use_stderr() => return refuse(&one_line(&error)),
        Err(help) => return printed(&help.to_string(), 0),
    };
    match answer(&flags) {
        Ok((text, status)) => printed(&text, status),
        Err(message) => refuse(&message),
    }
}

/// Prints a text and returns the exit status that goes with it. A reader that
/// closes early (`| head`) is no failure; a disk that is full is one.
pub(crate) fn printed(text: &str, status: u8) -> ExitCode {
    let mut out = std::io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() != IoError::BrokenPipe => refuse(&error.to_string()),
        _ => ExitCode::from(status),
    }
}

/// Prints a message to standard error and returns code 2.
pub(crate) fn refuse(message: &str) -> ExitCode {
    // There may be no reader of the refusal either.
    let _ = writeln!(std::io::stderr(), "{message}");
    ExitCode::from(2)
}
