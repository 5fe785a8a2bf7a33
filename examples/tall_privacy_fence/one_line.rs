//! Reading flags, refusing them in one line, printing an answer; shared by the
//! examples.

use clap::Parser;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use std::io::Write;
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

/// Reads the flags and prints what comes of them, or one line and code 2.
pub(crate) fn answered<F: Parser>(answer: impl FnOnce(&F) -> Result<String, String>) -> ExitCode {
    let flags = match F::try_parse() {
        Ok(flags) => flags,
        Err(error) if error.use_stderr() => return refuse(&one_line(&error)),
        Err(help) => {
            print!("{help}");
            return ExitCode::SUCCESS;
        }
    };
    match answer(&flags) {
        Ok(text) => {
            // A reader that closes early (`| head`) is no failure.
            let _ = std::io::stdout().write_all(text.as_bytes());
            ExitCode::SUCCESS
        }
        Err(message) => refuse(&message),
    }
}

fn refuse(message: &str) -> ExitCode {
    eprintln!("{message}");
    ExitCode::from(2)
}
