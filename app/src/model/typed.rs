//! Lengths as the maker types them into a field that shows a unit.

use cam_core::measure::{Length, LengthError, System, Unit};

/// Quotients nearer than this to a sixth decimal are meant to be it: what is typed in lines must come back as typed.
const SAME_LINES: f64 = 1e-9;

/// Reads a typed length; a bare number is taken in the unit given.
///
/// # Errors
/// The sentence to show.
pub fn read_length(text: &str, unit: Unit, system: System) -> Result<Length, String> {
    match Length::parse(text, system) {
        Err(LengthError::NoUnit(_)) => {
            Length::parse(&format!("{text} {}", unit.symbol(false)), system)
        }
        other => other,
    }
    .map_err(|error| error.to_string())
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
}
