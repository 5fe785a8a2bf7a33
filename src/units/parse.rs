//! Reading quantities from text: `8 ft`, `8ft`, `115 mph`, `30 kN/m3`,
//! `6' 6"`, `2-3/8 in`.
//!
//! A number always needs its unit (a pure number excepted). Lengths may be
//! written in feet and inches, and any number as a mixed fraction, since that
//! is how a tape is read. Nothing non-finite is accepted.

use super::{Dimension, Measurable, UnitDef};
use core::fmt;

/// Why a text is not a quantity of the wanted dimension.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum ParseQuantityError {
    /// No number where one was expected.
    NotANumber(Dimension),
    /// A number without a unit.
    MissingUnit(Dimension),
    /// A unit that this dimension does not have.
    UnknownUnit(Dimension),
    /// Several parts that are not feet and inches.
    MixedParts(Dimension),
    /// A value too large to hold.
    NotFinite(Dimension),
}

impl fmt::Display for ParseQuantityError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let dimension = match *self {
            Self::NotANumber(d) => {
                f.write_str("it does not start with a number; ")?;
                d
            }
            Self::MissingUnit(d) => {
                f.write_str("the unit is missing; ")?;
                d
            }
            Self::UnknownUnit(d) => {
                f.write_str("the unit is not one of this quantity; ")?;
                d
            }
            Self::MixedParts(d) => {
                f.write_str("only feet and inches may be combined; ")?;
                d
            }
            Self::NotFinite(d) => {
                f.write_str("the number is too large; ")?;
                d
            }
        };
        let word = dimension.word();
        let article = if word.starts_with('a') { "an" } else { "a" };
        if dimension == Dimension::Ratio {
            return f.write_str("give a pure number or a percentage");
        }
        write!(f, "give {article} {word}")?;
        let mut separator = " in ";
        for unit in dimension.units().iter().filter(|u| !u.symbol.is_empty()) {
            write!(f, "{separator}{}", unit.symbol)?;
            separator = ", ";
        }
        Ok(())
    }
}

impl core::error::Error for ParseQuantityError {}

/// Reads a quantity from text: a decimal, a fraction or a mixed fraction and its
/// unit, a length in feet and inches too. A pure number needs no unit. `8 FT` is
/// read as `8 ft`.
///
/// # Errors
/// [`ParseQuantityError`] when the text is not a finite number with a unit of
/// the wanted dimension.
///
/// ```
/// use groundline::units::{parse, Length, Pressure, ft, inch, psf};
/// assert_eq!(parse::<Length>("2-3/8 in"), Ok(inch(2.375)));
/// assert_eq!(parse::<Pressure>("20 psf"), Ok(psf(20.0)));
/// assert!(parse::<Length>("8").is_err());
/// assert!(parse::<Length>("8 psf").is_err());
/// assert!(parse::<Length>("1e999 ft").is_err());
/// ```
pub fn parse<Q: Measurable>(text: &str) -> Result<Q, ParseQuantityError> {
    let dimension = Q::DIMENSION;
    let (first, unit, rest) = part(text.trim(), dimension)?;
    let mut si = first * unit.factor();
    if !rest.is_empty() {
        let is_feet = dimension == Dimension::Length && unit.symbol == "ft";
        let rest = rest.strip_prefix('-').unwrap_or(rest).trim_start();
        let (second, inches, rest) = part(rest, dimension)?;
        if !is_feet || inches.symbol != "in" || !rest.is_empty() {
            return Err(ParseQuantityError::MixedParts(dimension));
        }
        si += second.copysign(first) * inches.factor();
    }
    if si.is_finite() {
        Ok(Q::from_si(si))
    } else {
        Err(ParseQuantityError::NotFinite(dimension))
    }
}

/// One number with its unit, and the trimmed text behind it.
fn part(
    text: &str,
    dimension: Dimension,
) -> Result<(f64, &'static UnitDef, &str), ParseQuantityError> {
    let (number, rest) = number(text).ok_or(ParseQuantityError::NotANumber(dimension))?;
    let rest = rest.trim_start();
    // The longest spelling that fits wins, so `ft2` is not read as `ft`; what
    // follows must be the end or the start of an inches part. Case counts only
    // where it must (`8 FT` is read).
    let longest = |fits: fn(&str, &str) -> bool| {
        dimension
            .units()
            .iter()
            .flat_map(|unit| {
                core::iter::once(unit.symbol)
                    .chain(unit.aliases.iter().copied())
                    .map(move |name| (unit, name))
            })
            .filter(|(_, name)| {
                rest.get(..name.len()).is_some_and(|head| fits(head, name))
                    && rest.get(name.len()..).is_some_and(|tail| {
                        let tail = tail.trim_start();
                        let inches = tail.strip_prefix('-').unwrap_or(tail).trim_start();
                        tail.is_empty()
                            || (dimension == Dimension::Length
                                && inches.starts_with(|c: char| c.is_ascii_digit() || c == '.'))
                    })
            })
            .max_by_key(|(_, name)| name.len())
    };
    let best = longest(|head, name| head == name).or_else(|| longest(str::eq_ignore_ascii_case));
    match best {
        Some((unit, name)) => Ok((number, unit, rest[name.len()..].trim_start())),
        None if rest.is_empty() => Err(ParseQuantityError::MissingUnit(dimension)),
        None => Err(ParseQuantityError::UnknownUnit(dimension)),
    }
}

/// A leading decimal, fraction or mixed fraction, and the text behind it.
fn number(text: &str) -> Option<(f64, &str)> {
    let (whole, rest) = decimal(text)?;
    if let Some(after) = rest.strip_prefix('/') {
        let (below, rest) = digits(after)?;
        return (below > 0.0).then_some((whole / below, rest));
    }
    // A mixed fraction: `3 1/2` or `3-1/2`.
    if let Some(tail) = rest.strip_prefix(['-', ' '])
        && whole.fract() == 0.0
        && let Some((above, after)) = digits(tail)
        && let Some((below, rest)) = after.strip_prefix('/').and_then(digits)
        && below > 0.0
    {
        let fraction = (above / below).copysign(whole);
        return Some((whole + fraction, rest));
    }
    Some((whole, rest))
}

/// An unsigned integer.
fn digits(text: &str) -> Option<(f64, &str)> {
    let end = text
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(text.len());
    let value = text[..end].parse().ok()?;
    Some((value, &text[end..]))
}

/// A signed decimal with optional exponent.
fn decimal(text: &str) -> Option<(f64, &str)> {
    let bytes = text.as_bytes();
    let mut end = usize::from(matches!(bytes.first(), Some(b'+' | b'-')));
    let count = |from: usize| {
        bytes[from..]
            .iter()
            .take_while(|b| b.is_ascii_digit())
            .count()
    };
    end += count(end);
    if bytes.get(end) == Some(&b'.') {
        end += 1;
        end += count(end);
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let sign = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        let power = count((end + 1 + sign).min(bytes.len()));
        if power > 0 {
            end += 1 + sign + power;
        }
    }
    let value = text[..end].parse().ok()?;
    Some((value, &text[end..]))
}
