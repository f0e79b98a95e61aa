//! Lengths as the maker types them.

use super::{Length, System, Unit};

/// Why a typed length cannot be understood.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LengthError {
    /// Nothing was typed.
    #[error("No length is given. Write a number and a unit, such as “5 mm”.")]
    Empty,
    /// A number stands without a unit.
    #[error("“{0}” has no unit. Add mm, in, pt, lines, picas or ciceros.")]
    NoUnit(String),
    /// A unit that is not known.
    #[error("“{0}” is not a unit of length. Use mm, in, pt, lines, picas or ciceros.")]
    UnknownUnit(String),
    /// Something that should be a number.
    #[error("“{0}” is not a number. Write it like 5, 0.918 or 62 2/3.")]
    NotANumber(String),
    /// A number with a comma.
    #[error("“{0}” has a comma. Write decimals with a point, such as 0.918.")]
    Comma(String),
    /// The length is larger than any that can be meant.
    #[error("“{0}” is too large for a length.")]
    TooLarge(String),
}

/// Longer than any shop, in millimetres: beyond it a length is a slip of the pen.
const LONGEST_MM: f64 = 1e6;

impl Length {
    /// Reads a typed length: numbers with units, added up, such as `10 line`, `5 mm`, `30pt`, `0.918 in`, `2 picas 3 pt`,
    /// `62 2/3 pt`.
    ///
    /// Units, in one or many: mm, cm, in (or inch, ″), pt (or point) and line of the system, pica, cicero. A minus before the
    /// first number makes the whole negative; whether that is allowed is for the setting to say.
    ///
    /// # Errors
    /// A sentence that quotes what cannot be understood.
    pub fn parse(text: &str, system: System) -> Result<Length, LengthError> {
        let typed = text.trim();
        let (sign, body) = match typed.strip_prefix(['-', '\u{2212}']) {
            Some(rest) => (-1.0, rest),
            None => (1.0, typed),
        };
        let words = words(body);
        if words.is_empty() {
            return Err(LengthError::Empty);
        }
        let mut sum = 0.0;
        let mut rest = &words[..];
        // Each turn uses up at least one word.
        while !rest.is_empty() {
            let (number, after) = number(rest)?;
            let Some((&unit, after)) = after.split_first() else {
                return Err(LengthError::NoUnit(typed.to_owned()));
            };
            sum += number * millimetres(unit, system)?;
            rest = after;
        }
        if sum > LONGEST_MM {
            return Err(LengthError::TooLarge(typed.to_owned()));
        }
        Ok(Length::mm(sign * sum))
    }
}

/// Splits at blanks and between a number and the letters that follow it.
fn words(text: &str) -> Vec<&str> {
    let numeric = |c: char| c.is_ascii_digit() || matches!(c, '.' | '/' | ',');
    let mut found = Vec::new();
    for chunk in text.split_whitespace() {
        let mut start = 0;
        let mut was_numeric = None;
        for (place, character) in chunk.char_indices() {
            let is = numeric(character);
            if was_numeric.is_some_and(|was| was != is) {
                found.push(&chunk[start..place]);
                start = place;
            }
            was_numeric = Some(is);
        }
        found.push(&chunk[start..]);
    }
    found
}

/// The number at the head of the words: `5`, `0.918`, `2/3`, or a whole number and a fraction.
fn number<'w>(words: &'w [&'w str]) -> Result<(f64, &'w [&'w str]), LengthError> {
    let (&first, rest) = words
        .split_first()
        .ok_or_else(|| LengthError::NotANumber(String::new()))?;
    let whole = one_number(first)?;
    match rest.split_first() {
        Some((&next, after)) if next.contains('/') && !first.contains('/') => {
            Ok((whole + one_number(next)?, after))
        }
        Some(_) | None => Ok((whole, rest)),
    }
}

fn one_number(word: &str) -> Result<f64, LengthError> {
    let bad = || LengthError::NotANumber(word.to_owned());
    if word.contains(',') {
        return Err(LengthError::Comma(word.to_owned()));
    }
    let plain = |text: &str| {
        let number: f64 = text.parse().map_err(|_| bad())?;
        // The standard library also reads words such as "inf".
        if text.starts_with(|c: char| c.is_ascii_digit() || c == '.') && number.is_finite() {
            Ok(number)
        } else {
            Err(bad())
        }
    };
    match word.split_once('/') {
        None => plain(word),
        Some((above, below)) => {
            let (above, below) = (plain(above)?, plain(below)?);
            if below == 0.0 {
                Err(bad())
            } else {
                Ok(above / below)
            }
        }
    }
}

fn millimetres(unit: &str, system: System) -> Result<f64, LengthError> {
    const MM_PER_CM: f64 = 10.0;
    let of = |unit: Unit| Ok(unit.in_mm(system));
    match unit.to_lowercase().as_str() {
        "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => of(Unit::Millimetre),
        "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Ok(MM_PER_CM),
        "in" | "inch" | "inches" | "\"" | "″" => of(Unit::Inch),
        "pt" | "pts" | "point" | "points" => of(Unit::Point),
        "line" | "lines" => of(Unit::Line),
        "pica" | "picas" => of(Unit::Pica),
        "cicero" | "ciceros" => of(Unit::Cicero),
        _ => Err(LengthError::UnknownUnit(unit.to_owned())),
    }
}
