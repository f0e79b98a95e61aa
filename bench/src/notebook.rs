//! Notebooks: small texts of readings, written by hand or pasted from a measuring tool.
//!
//! The first line says what was measured: `bench height`, `moisture`, `square`, `lockup`, `minutes` or `losses`. Every other line
//! begins with a word that says what it holds, or holds numbers alone, which belong to the line before. `#` begins a remark.
//! A number may have its unit behind it (`mm`, `in`, `C`, `F`, `%`); without one, lengths are millimetres and temperatures Celsius. A
//! comma may stand for the decimal point, as some tools print it.

use std::fmt;

use serde::Serialize;

/// What was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// Heights of a plank while it is sanded.
    Height,
    /// Moisture of wood.
    Moisture,
    /// Squareness of the machine.
    Square,
    /// Blocks before they go into the forme.
    LockUp,
    /// Minutes that programs took.
    Minutes,
    /// Cutters broken, sorts rejected.
    Losses,
}

impl Kind {
    /// All kinds.
    pub const ALL: [Kind; 6] = [
        Kind::Height,
        Kind::Moisture,
        Kind::Square,
        Kind::LockUp,
        Kind::Minutes,
        Kind::Losses,
    ];

    /// The word in a notebook's first line.
    pub const fn word(self) -> &'static str {
        match self {
            Kind::Height => "height",
            Kind::Moisture => "moisture",
            Kind::Square => "square",
            Kind::LockUp => "lockup",
            Kind::Minutes => "minutes",
            Kind::Losses => "losses",
        }
    }

    /// The kind that a notebook's first line names.
    ///
    /// # Errors
    /// A text without such a line.
    pub fn of(text: &str) -> Result<Kind, NotebookError> {
        let Some(first) = lines(text).next() else {
            return Err(NotebookError::NoKind(1));
        };
        let mut words = first.text.split_whitespace();
        match (words.next(), words.next(), words.next()) {
            (Some("bench"), Some(word), None) => Kind::ALL
                .into_iter()
                .find(|kind| kind.word() == word)
                .ok_or(NotebookError::NoKind(first.number)),
            _ => Err(NotebookError::NoKind(first.number)),
        }
    }
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// Why a notebook cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotebookError {
    /// The first line does not say what was measured.
    #[error(
        "Line {0}: the first line has to say what was measured: bench height, moisture, square, lockup, minutes or losses."
    )]
    NoKind(usize),
    /// Another kind than was asked for.
    #[error("This notebook is of {found}, not of {wanted}. Choose another, or read it as {found}.")]
    OtherKind {
        /// What was asked for.
        wanted: Kind,
        /// What it is.
        found: Kind,
    },
    /// Something in a line.
    #[error("Line {line}: {what}")]
    Line {
        /// The line, from 1.
        line: usize,
        /// What is wrong, and what to do.
        what: String,
    },
    /// Something that the notebook has to hold and does not.
    #[error("{0}")]
    Missing(String),
}

/// The most lines of a notebook: far above what a person writes.
const MOST_LINES: usize = 20_000;

/// Numbers beyond this are slips of the pen.
const LARGEST: f64 = 1e6;

/// A line that holds something.
struct Line<'a> {
    number: usize,
    text: &'a str,
}

fn lines(text: &str) -> impl Iterator<Item = Line<'_>> {
    (1..)
        .zip(text.trim_start_matches('\u{feff}').lines())
        .map(|(number, line)| Line {
            number,
            text: line.split('#').next().unwrap_or_default().trim(),
        })
        .filter(|line| !line.text.is_empty())
}

/// A line of a notebook: what it holds, and the rest of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Entry<'a> {
    /// The line, from 1.
    pub line: usize,
    /// Its first word; empty where the line begins with a number.
    pub key: &'a str,
    /// What follows, word by word.
    pub words: Vec<&'a str>,
}

/// All lines after the first, of a notebook of this kind.
pub(crate) fn entries(text: &str, wanted: Kind) -> Result<Vec<Entry<'_>>, NotebookError> {
    let found = Kind::of(text)?;
    if found != wanted {
        return Err(NotebookError::OtherKind { wanted, found });
    }
    let mut entries = Vec::new();
    for line in lines(text).skip(1) {
        if entries.len() >= MOST_LINES {
            return Err(NotebookError::Line {
                line: line.number,
                what: format!("a notebook holds {MOST_LINES} lines at most. Begin another."),
            });
        }
        let mut words: Vec<&str> = line
            .text
            .split(|c: char| c.is_whitespace() || c == ';')
            .filter(|word| !word.is_empty())
            .collect();
        let begins_with_number = words.first().is_some_and(|word| quantity(word).is_some());
        let key = if begins_with_number || words.is_empty() {
            ""
        } else {
            words.remove(0)
        };
        entries.push(Entry {
            line: line.number,
            key,
            words,
        });
    }
    Ok(entries)
}

/// A unit that may follow a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Unit {
    Mm,
    Inch,
    Celsius,
    Fahrenheit,
    Percent,
    Degree,
}

fn unit(word: &str) -> Option<Unit> {
    match word {
        "mm" => Some(Unit::Mm),
        "in" | "\"" => Some(Unit::Inch),
        "C" | "°C" => Some(Unit::Celsius),
        "F" | "°F" => Some(Unit::Fahrenheit),
        "%" => Some(Unit::Percent),
        "deg" | "°" => Some(Unit::Degree),
        _ => None,
    }
}

/// A number, perhaps with its unit joined on.
fn quantity(word: &str) -> Option<(f64, Option<Unit>)> {
    let digits = word
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '+' | '-' | '−')))
        .unwrap_or(word.len());
    let (number, rest) = word.split_at(digits);
    let number: f64 = number.replace(',', ".").replace('−', "-").parse().ok()?;
    let unit = if rest.is_empty() {
        None
    } else {
        Some(unit(rest)?)
    };
    (number.abs() <= LARGEST).then_some((number, unit))
}

impl Entry<'_> {
    /// An error in this line.
    pub fn fault(&self, what: impl Into<String>) -> NotebookError {
        NotebookError::Line {
            line: self.line,
            what: what.into(),
        }
    }

    /// The error of a word that this kind of notebook does not know.
    pub fn unknown(&self, known: &str) -> NotebookError {
        if self.key.is_empty() {
            return self.fault(format!(
                "numbers alone belong to no line here. Begin the line with one of: {known}."
            ));
        }
        self.fault(format!(
            "“{}” is not known here. Begin the line with one of: {known}.",
            self.key
        ))
    }

    /// The numbers from a word on, with units.
    fn quantities(&self, from: usize) -> Result<Vec<(f64, Option<Unit>)>, NotebookError> {
        let mut found: Vec<(f64, Option<Unit>)> = Vec::new();
        for word in self.words.iter().skip(from) {
            match (quantity(word), unit(word), found.last_mut()) {
                (Some(quantity), ..) => found.push(quantity),
                (None, Some(unit), Some((_, open @ None))) => *open = Some(unit),
                (None, ..) => {
                    return Err(self.fault(format!(
                        "“{word}” is no number of at most a million, nor a unit that belongs here."
                    )));
                }
            }
        }
        Ok(found)
    }

    /// All lengths from a word on, mm; an inch is 25.4 mm by definition.
    pub fn lengths_from(&self, from: usize) -> Result<Vec<f64>, NotebookError> {
        self.quantities(from)?
            .into_iter()
            .map(|(number, unit)| match unit {
                None | Some(Unit::Mm) => Ok(number),
                Some(Unit::Inch) => Ok(number * 25.4),
                Some(Unit::Celsius | Unit::Fahrenheit | Unit::Percent | Unit::Degree) => {
                    Err(self.fault("lengths are in mm or in."))
                }
            })
            .collect()
    }

    /// Exactly so many lengths, mm; `what` names them.
    pub fn lengths<const N: usize>(&self, what: &str) -> Result<[f64; N], NotebookError> {
        let lengths = self.lengths_from(0)?;
        let count = lengths.len();
        lengths.try_into().map_err(|_| {
            self.fault(format!(
                "{what} {} wanted here; there are {count}.",
                needed(N)
            ))
        })
    }

    /// One length above 0, mm.
    pub fn size(&self, what: &str) -> Result<f64, NotebookError> {
        let [size] = self.lengths(what)?;
        if size > 0.0 {
            Ok(size)
        } else {
            Err(self.fault(format!("{what} has to be above 0.")))
        }
    }

    /// One number without a unit but per cent.
    pub fn percents(&self) -> Result<Vec<f64>, NotebookError> {
        self.quantities(0)?
            .into_iter()
            .map(|(number, unit)| match unit {
                None | Some(Unit::Percent) => Ok(number),
                Some(Unit::Mm | Unit::Inch | Unit::Celsius | Unit::Fahrenheit | Unit::Degree) => {
                    Err(self.fault("this is a number of per cent."))
                }
            })
            .collect()
    }

    /// Numbers without units.
    pub fn numbers_from(&self, from: usize) -> Result<Vec<f64>, NotebookError> {
        self.quantities(from)?
            .into_iter()
            .map(|(number, unit)| match unit {
                None => Ok(number),
                Some(_) => Err(self.fault("these numbers have no unit.")),
            })
            .collect()
    }

    /// Two scales and an angle in degrees.
    pub fn scales_and_degrees(&self) -> Result<[f64; 3], NotebookError> {
        match self.quantities(0)?.as_slice() {
            [(x, None), (y, None), (angle, None | Some(Unit::Degree))] => Ok([*x, *y, *angle]),
            _ => Err(self.fault(
                "the scale of x, the scale of y and the skew in degrees are wanted here, as the program says them.",
            )),
        }
    }

    /// A temperature (°C; degrees Fahrenheit by their definition) and a relative humidity (per cent).
    pub fn climate(&self) -> Result<[f64; 2], NotebookError> {
        match self.quantities(0)?.as_slice() {
            [
                (t, None | Some(Unit::Celsius)),
                (h, None | Some(Unit::Percent)),
            ] => Ok([*t, *h]),
            [(t, Some(Unit::Fahrenheit)), (h, None | Some(Unit::Percent))] => {
                Ok([(t - 32.0) / 1.8, *h])
            }
            _ => Err(self
                .fault("a temperature and a humidity are wanted here, such as: room 21 C 45 %.")),
        }
    }

    /// The words as one text.
    pub fn text(&self) -> String {
        self.words.join(" ")
    }
}

fn needed(count: usize) -> String {
    if count == 1 {
        "is".to_owned()
    } else {
        format!("are {count}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_units_and_remarks() {
        let text = "\u{feff}# my bench\nbench height\nwanted 0.918 in # to paper\n 10 20,5 1in\n";
        let entries = entries(text, Kind::Height).unwrap();
        assert_eq!(entries.len(), 2);
        assert!((entries[0].size("the height").unwrap() - 23.3172).abs() < 1e-9);
        assert_eq!(entries[1].key, "");
        assert_eq!(
            entries[1].lengths::<3>("x, y and height").unwrap(),
            [10.0, 20.5, 25.4]
        );
        assert_eq!(entries[1].line, 4);
    }

    #[test]
    fn errors_name_the_line() {
        for (text, line) in [
            ("", 1),
            ("height\n", 1),
            ("\n\nbench weight\n", 3),
            ("bench height extra\n", 1),
        ] {
            assert_eq!(Kind::of(text), Err(NotebookError::NoKind(line)), "{text:?}");
        }
        let text = "bench square\n\nsides 12 x\nsides 1 2 3\nroom 20 mm 3";
        let entries = entries(text, Kind::Square).unwrap();
        let first = entries[0]
            .lengths::<2>("two sides")
            .unwrap_err()
            .to_string();
        assert!(first.starts_with("Line 3: “x”"), "{first}");
        let second = entries[1]
            .lengths::<2>("two sides")
            .unwrap_err()
            .to_string();
        assert_eq!(second, "Line 4: two sides are 2 wanted here; there are 3.");
        assert!(entries[2].climate().is_err());
    }

    #[test]
    fn another_kind_is_said() {
        let error = super::entries("bench moisture\n", Kind::Height).unwrap_err();
        assert_eq!(
            error.to_string(),
            "This notebook is of moisture, not of height. Choose another, or read it as moisture."
        );
    }

    #[test]
    fn climates_in_either_degree() {
        let text = "bench moisture\nroom 70 F 50 %\nroom 21 45\n";
        let entries = entries(text, Kind::Moisture).unwrap();
        let [t, h] = entries[0].climate().unwrap();
        assert!((t - 21.111).abs() < 1e-3 && h == 50.0);
        assert_eq!(entries[1].climate().unwrap(), [21.0, 45.0]);
    }

    #[test]
    fn huge_and_odd_numbers_are_refused() {
        for word in [
            "1e9",
            "9999999999",
            "nan",
            "inf",
            "--3",
            ".",
            "1.2.3",
            "5 kg",
        ] {
            let text = format!("bench height\nwanted {word}\n");
            let entries = entries(&text, Kind::Height).unwrap();
            assert!(entries[0].size("the height").is_err(), "{word}");
        }
    }
}
