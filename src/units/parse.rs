//! Reading quantities from text: `8 ft`, `8ft`, `115 mph`, `30 kN/m3`,
//! `6' 6"`, `2-3/8 in`, `6½ ft`.
//!
//! A number always needs its unit, except a pure number and the inches behind a
//! foot mark (`6'6`). Lengths may be written in feet and inches, and any number as
//! a mixed fraction, since that is how a tape is read. An abbreviation may end in a
//! point (`30 in.`). Nothing non-finite is accepted.

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
    /// A comma in the number: a decimal comma or a separator of thousands.
    Comma(Dimension),
    /// A nominal size of lumber (`4x4`) in place of a length.
    NominalSize(Dimension),
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
            Self::Comma(d) => {
                f.write_str(
                    "a comma in a number is not read, write 1.8 for 1,8 and 1234 for 1,234; ",
                )?;
                d
            }
            Self::NominalSize(d) => {
                f.write_str(
                    "this is a nominal size, write the actual one (a dressed 4x4 is 3.5 in, \
                     a 6x6 5.5 in); ",
                )?;
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
/// unit, a length in feet and inches too. A pure number needs no unit, nor do the
/// inches behind a foot mark. `8 FT` and `8 ft.` are read as `8 ft`.
///
/// # Errors
/// [`ParseQuantityError`] when the text is not a finite number with a unit of
/// the wanted dimension.
///
/// ```
/// use groundline::units::{parse, Length, Pressure, ft, inch, psf};
/// assert_eq!(parse::<Length>("2-3/8 in"), Ok(inch(2.375)));
/// assert_eq!(parse::<Length>("2⅜ in."), Ok(inch(2.375)));
/// assert_eq!(parse::<Length>("6'6"), Ok(ft(6.0) + inch(6.0)));
/// assert_eq!(parse::<Pressure>("20 psf"), Ok(psf(20.0)));
/// assert!(parse::<Length>("8").is_err());
/// assert!(parse::<Length>("8 psf").is_err());
/// assert!(parse::<Length>("1e999 ft").is_err());
/// assert!(parse::<Length>("1,8 m").is_err());
/// assert!(parse::<Length>("4x4").is_err());
/// ```
pub fn parse<Q: Measurable>(text: &str) -> Result<Q, ParseQuantityError> {
    let dimension = Q::DIMENSION;
    let (first, (unit, name), rest) = part(text.trim(), dimension)?;
    let mut si = first * unit.factor();
    if !rest.is_empty() {
        let is_feet = dimension == Dimension::Length && unit.symbol == "ft";
        let rest = rest.strip_prefix('-').unwrap_or(rest).trim_start();
        let (second, inches) = match part(rest, dimension) {
            Ok((second, (inches, _), "")) if is_feet && inches.symbol == "in" => {
                (second, inches.factor())
            }
            // Inches behind a foot mark need no unit.
            Err(ParseQuantityError::MissingUnit(_)) if is_feet && is_mark(name) => {
                let (second, _) = number(rest).ok_or(ParseQuantityError::NotANumber(dimension))?;
                let inch = dimension.unit("in").map_or(0.0254, UnitDef::factor);
                (second, inch)
            }
            Ok(_) => return Err(ParseQuantityError::MixedParts(dimension)),
            Err(why) => return Err(why),
        };
        si += second.copysign(first) * inches;
    }
    if si.is_finite() {
        Ok(Q::from_si(si))
    } else {
        Err(ParseQuantityError::NotFinite(dimension))
    }
}

/// Is the spelling of a unit a mark, as the foot mark, and not a word?
fn is_mark(name: &str) -> bool {
    !name.is_empty() && !name.contains(char::is_alphabetic)
}

/// The text behind the spelling of a unit, without the point of an abbreviation;
/// nothing where the point may as well begin a number (`6 ft.6 in`).
fn behind<'a>(rest: &'a str, name: &str) -> Option<&'a str> {
    let tail = rest.get(name.len()..)?;
    match tail.strip_prefix('.') {
        Some(after) if name.ends_with(|c: char| c.is_ascii_alphabetic()) => {
            (!after.starts_with(|c: char| c.is_ascii_digit())).then(|| after.trim_start())
        }
        _ => Some(tail.trim_start()),
    }
}

/// One number, its unit with the spelling of it, and the trimmed text behind them.
fn part(
    text: &str,
    dimension: Dimension,
) -> Result<(f64, (&'static UnitDef, &'static str), &str), ParseQuantityError> {
    let (number, rest) = number(text).ok_or(ParseQuantityError::NotANumber(dimension))?;
    let rest = rest.trim_start();
    let digit_after = |marks: &[char]| {
        rest.strip_prefix(marks)
            .is_some_and(|tail| tail.trim_start().starts_with(|c: char| c.is_ascii_digit()))
    };
    if digit_after(&[',']) {
        return Err(ParseQuantityError::Comma(dimension));
    }
    if dimension == Dimension::Length && digit_after(&['x', 'X', '\u{d7}']) {
        return Err(ParseQuantityError::NominalSize(dimension));
    }
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
                    && behind(rest, name).is_some_and(|tail| {
                        let inches = tail.strip_prefix('-').unwrap_or(tail).trim_start();
                        tail.is_empty()
                            || (dimension == Dimension::Length
                                && inches.starts_with(|c: char| {
                                    c.is_ascii_digit() || c == '.' || vulgar(c).is_some()
                                }))
                    })
            })
            .max_by_key(|(_, name)| name.len())
    };
    let best = longest(|head, name| head == name).or_else(|| longest(str::eq_ignore_ascii_case));
    match best {
        Some((unit, name)) => Ok((number, (unit, name), behind(rest, name).unwrap_or(""))),
        None if rest.is_empty() => Err(ParseQuantityError::MissingUnit(dimension)),
        None => Err(ParseQuantityError::UnknownUnit(dimension)),
    }
}

/// A leading decimal, fraction or mixed fraction, and the text behind it.
fn number(text: &str) -> Option<(f64, &str)> {
    // A vulgar fraction alone: `½`.
    let unsigned = text.strip_prefix(['+', '-']).unwrap_or(text);
    if let Some((fraction, rest)) = leading_vulgar(unsigned) {
        let sign = if text.starts_with('-') { -1.0 } else { 1.0 };
        return Some((fraction * sign, rest));
    }
    let (whole, rest) = decimal(text)?;
    if let Some(after) = rest.strip_prefix(SLASHES) {
        let (below, rest) = digits(after)?;
        return (below > 0.0).then_some((whole / below, rest));
    }
    // A mixed fraction: `3½`, `3 1/2` or `3-1/2`.
    let tail = rest.strip_prefix(['-', ' ']);
    if whole.fract() == 0.0
        && let Some((fraction, rest)) = leading_vulgar(tail.unwrap_or(rest))
    {
        return Some((whole + fraction.copysign(whole), rest));
    }
    if let Some(tail) = tail
        && whole.fract() == 0.0
        && let Some((above, after)) = digits(tail)
        && let Some((below, rest)) = after.strip_prefix(SLASHES).and_then(digits)
        && below > 0.0
    {
        let fraction = (above / below).copysign(whole);
        return Some((whole + fraction, rest));
    }
    Some((whole, rest))
}

/// The slash of a keyboard and that of a typeset fraction.
const SLASHES: [char; 2] = ['/', '\u{2044}'];

/// The value of a fraction that is one character.
fn vulgar(c: char) -> Option<f64> {
    let (above, below) = match c {
        '½' => (1.0, 2.0),
        '⅓' => (1.0, 3.0),
        '⅔' => (2.0, 3.0),
        '¼' => (1.0, 4.0),
        '¾' => (3.0, 4.0),
        '⅕' => (1.0, 5.0),
        '⅖' => (2.0, 5.0),
        '⅗' => (3.0, 5.0),
        '⅘' => (4.0, 5.0),
        '⅙' => (1.0, 6.0),
        '⅚' => (5.0, 6.0),
        '⅐' => (1.0, 7.0),
        '⅛' => (1.0, 8.0),
        '⅜' => (3.0, 8.0),
        '⅝' => (5.0, 8.0),
        '⅞' => (7.0, 8.0),
        '⅑' => (1.0, 9.0),
        '⅒' => (1.0, 10.0),
        _ => return None,
    };
    Some(above / below)
}

/// A leading fraction of one character, and the text behind it.
fn leading_vulgar(text: &str) -> Option<(f64, &str)> {
    let mut rest = text.chars();
    let value = vulgar(rest.next()?)?;
    Some((value, rest.as_str()))
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
