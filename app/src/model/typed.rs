//! Lengths as the maker types them into a field that shows a unit.

use cam_core::measure::{Length, LengthError, System, Unit};

/// Quotients nearer than this to a sixth decimal are meant to be it: what is typed in lines must come back as typed.
const SAME_LINES: f64 = 1e-9;

/// Signs that take away: the keyboard's and the printer's.
const MINUS: [char; 2] = ['-', '\u{2212}'];

/// The terms of a sum, each with whether it is taken away. A sign at the head belongs to the first term; two signs in a row leave a
/// term empty, which its reader refuses.
fn terms(text: &str) -> Vec<(bool, &str)> {
    let mut found = Vec::new();
    let mut rest = text.trim();
    let mut away = false;
    if let Some(after) = rest.strip_prefix(MINUS) {
        (away, rest) = (true, after);
    }
    // Each turn takes a sign away.
    while let Some(at) = rest.find(|sign: char| sign == '+' || MINUS.contains(&sign)) {
        let (term, after) = rest.split_at(at);
        found.push((away, term.trim()));
        let sign = after.chars().next().unwrap_or('+');
        away = sign != '+';
        rest = &after[sign.len_utf8()..];
    }
    found.push((away, rest.trim()));
    found
}

/// Reads a typed length; a bare number is taken in the unit given. Lengths may be added up and taken away from one another, whatever
/// their units: `30 pt + 2 mm`.
///
/// # Errors
/// The sentence to show.
pub fn read_length(text: &str, unit: Unit, system: System) -> Result<Length, String> {
    let mut sum = 0.0;
    for (away, term) in terms(text) {
        let length = match Length::parse(term, system) {
            Err(LengthError::NoUnit(_)) => {
                Length::parse(&format!("{term} {}", unit.symbol(false)), system)
            }
            other => other,
        };
        let mm = length.map_err(|error| error.to_string())?.in_mm();
        sum += if away { -mm } else { mm };
    }
    Ok(Length::mm(sum))
}

/// Reads a typed number, or a sum of them; behind each may stand the unit given.
///
/// # Errors
/// The sentence to show.
pub fn read_number(text: &str, unit: &str) -> Result<f64, String> {
    let mut sum = 0.0;
    for (away, term) in terms(text) {
        let bare = term.strip_suffix(unit).unwrap_or(term).trim();
        let number = bare.parse().ok().filter(|number: &f64| number.is_finite());
        let number = number.ok_or_else(|| format!("“{term}” is not a number."))?;
        sum += if away { -number } else { number };
    }
    Ok(sum)
}

/// Reads how many.
///
/// # Errors
/// The sentence to show.
pub fn read_count(text: &str) -> Result<u32, String> {
    text.trim()
        .parse()
        .map_err(|_| format!("“{}” is not a whole number.", text.trim()))
}

/// Reads a size in lines, which may be typed in any unit; a bare number is lines.
///
/// # Errors
/// The sentence to show.
pub fn read_lines(text: &str, system: System) -> Result<f64, String> {
    let lines = read_length(text, Unit::Line, system)?.in_unit(Unit::Line, system);
    let rounded = (lines * 1e6).round() / 1e6;
    Ok(if (rounded - lines).abs() < SAME_LINES {
        rounded
    } else {
        lines
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bare_numbers_take_the_unit_that_is_shown() {
        let mm = |text, unit| read_length(text, unit, System::Pica).map(Length::in_mm);
        assert_eq!(mm("5", Unit::Millimetre), Ok(5.0));
        assert_eq!(mm("5 mm", Unit::Inch), Ok(5.0));
        assert_eq!(mm("0.918", Unit::Inch), Ok(Length::inches(0.918).in_mm()));
        assert!(mm("ten", Unit::Line).is_err());
        assert!(mm("", Unit::Line).is_err());
    }

    #[test]
    fn lines_come_back_as_typed() {
        for system in System::ALL {
            for lines in [0.5, 4.0, 6.0, 8.0, 10.0, 12.25, 15.0, 72.0] {
                assert_eq!(read_lines(&format!("{lines}"), system), Ok(lines));
                assert_eq!(read_lines(&format!("{lines} lines"), system), Ok(lines));
            }
        }
        let half = read_lines("42.175176 mm", System::Pica).unwrap();
        assert!((half - 10.0).abs() < 1e-6);
    }

    #[test]
    fn sums_are_taken_in_any_units() {
        let mm = |text| read_length(text, Unit::Millimetre, System::Pica).map(Length::in_mm);
        let near = |text, wanted: f64| {
            let found = mm(text).unwrap();
            assert!((found - wanted).abs() < 1e-9, "{text}: {found}");
        };
        near("30 pt + 2 mm", 30.0 * 0.3514598 + 2.0);
        near("10 line", 120.0 * 0.3514598);
        near("1 in - 5.4", 20.0);
        near("2 + 3", 5.0);
        near(
            "62 2/3 pt − 1 mm",
            62.0 * 0.3514598 + 2.0 / 3.0 * 0.3514598 - 1.0,
        );
        near("-3", -3.0);
        for wrong in ["2 +", "+ 2", "2 ++ 3", "2 + ten", "-"] {
            assert!(mm(wrong).is_err(), "{wrong}");
        }
        assert_eq!(read_number("600 mm/min + 50", "mm/min"), Ok(650.0));
        assert_eq!(read_number("1e3", "mm"), Ok(1000.0));
        assert!(read_number("fast", "mm").is_err());
        assert_eq!(read_count(" 3 "), Ok(3));
        assert!(read_count("2.5").is_err());
    }
}
