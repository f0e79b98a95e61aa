//! JSON with errors that name the place, and lengths as text or as millimetres.

use std::fmt;

use serde::de::{DeserializeOwned, Deserializer, Error, Visitor};
use serde::{Deserialize, Serialize, Serializer};

use super::FormatError;
use super::limits::Fault;
use crate::measure::{Length, System};

/// The longest file that is read, in bytes: far above the largest bill, and little enough to be held in memory many times over.
const LONGEST_FILE: usize = 16 * 1024 * 1024;

/// What every file begins with.
#[derive(Deserialize)]
struct Header {
    format: Option<serde_json::Value>,
    version: Option<u32>,
}

/// Checks that the file is of the kind wanted and of a version that is known.
pub(super) fn check_header(
    json: &str,
    wanted: &'static str,
    format: &'static str,
    known: u32,
) -> Result<(), FormatError> {
    if json.len() > LONGEST_FILE {
        return Err(FormatError::TooLong { wanted });
    }
    let header: Header = read(json)?;
    let found = match header.format {
        Some(serde_json::Value::String(word)) if word == format => None,
        Some(serde_json::Value::String(word)) => Some(format!("“{word}”")),
        Some(_) => Some("not a word".to_owned()),
        None => Some("missing".to_owned()),
    };
    if let Some(found) = found {
        return Err(FormatError::OtherFormat {
            wanted,
            format,
            found,
        });
    }
    match header.version {
        Some(found) if found > known => Err(FormatError::TooNew {
            wanted,
            found,
            known,
        }),
        Some(0) | None => Err(FormatError::Value(Fault::new(
            "version",
            format!("a version is missing; write \"version\": {known}"),
        ))),
        Some(_) => Ok(()),
    }
}

/// Reads a structure; whatever is wrong is told with path, line and column.
pub(super) fn read<T: DeserializeOwned>(json: &str) -> Result<T, FormatError> {
    let mut reader = serde_json::Deserializer::from_str(json);
    let value = serde_path_to_error::deserialize(&mut reader)
        .map_err(|error| complaint(&place(error.path()), error.inner()))?;
    reader.end().map_err(|error| complaint("", &error))?;
    Ok(value)
}

/// The path without the mark for "the whole file" and without parts that are not known.
fn place(path: &serde_path_to_error::Path) -> String {
    let place = path.to_string();
    if place == "." || place == "?" {
        String::new()
    } else {
        place.trim_end_matches(".?").to_owned()
    }
}

fn complaint(place: &str, error: &serde_json::Error) -> FormatError {
    let text = error.to_string();
    // The library ends its sentences with the place, which is told apart here.
    let why = text.rsplit_once(" at line ").map_or(&*text, |(why, _)| why);
    FormatError::Json {
        place: place.to_owned(),
        line: error.line(),
        column: error.column(),
        why: in_plain_words(why),
    }
}

/// The library speaks of its own types; the maker knows numbers and words.
fn in_plain_words(why: &str) -> String {
    const WORDS: [(&str, &str); 13] = [
        (
            "recursion limit exceeded",
            "brackets are nested too deeply here",
        ),
        ("expected f64", "expected a number"),
        ("expected u32", "expected a whole number of 0 or more"),
        ("expected a string", "expected a text in quotes"),
        ("expected a borrowed string", "expected a text in quotes"),
        ("expected a sequence", "expected a list in square brackets"),
        ("expected a map", "expected an object in braces"),
        ("expected struct", "expected an object in braces:"),
        ("invalid type: map", "found an object"),
        ("invalid type: sequence", "found a list"),
        ("invalid type: ", "found "),
        ("invalid value: ", "found "),
        ("unknown field", "unknown key"),
    ];
    let mut words = why.replace("missing field", "missing key");
    for (theirs, ours) in WORDS {
        words = words.replace(theirs, ours);
    }
    words
}

/// Writes a structure, indented, with a line end.
pub(super) fn write<T: Serialize>(value: &T) -> String {
    // Writing structures of text and numbers into memory cannot fail; the keys are all text.
    let mut text = serde_json::to_string_pretty(value).unwrap_or_default();
    text.push('\n');
    text
}

/// A length in a file: a text with units (`"6 pt"`), or a plain number of millimetres.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum FileLength {
    Millimetres(f64),
    Typed(String),
}

impl FileLength {
    /// As written to files.
    pub(super) fn of(length: Length, system: System) -> FileLength {
        FileLength::Typed(length.exact(system))
    }

    /// The length; `place` is its path in the file.
    pub(super) fn length(&self, place: &str, system: System) -> Result<Length, FormatError> {
        match self {
            FileLength::Millimetres(mm) => Ok(Length::mm(*mm)),
            FileLength::Typed(text) => Length::parse(text, system).map_err(|error| {
                FormatError::Value(Fault::new(place, error.to_string().trim_end_matches('.')))
            }),
        }
    }
}

impl Serialize for FileLength {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            FileLength::Millimetres(mm) => serializer.serialize_f64(*mm),
            FileLength::Typed(text) => serializer.serialize_str(text),
        }
    }
}

impl<'de> Deserialize<'de> for FileLength {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<FileLength, D::Error> {
        deserializer.deserialize_any(LengthVisitor)
    }
}

struct LengthVisitor;

impl Visitor<'_> for LengthVisitor {
    type Value = FileLength;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "a length such as \"6 pt\", or a number of millimetres")
    }

    fn visit_f64<E: Error>(self, mm: f64) -> Result<FileLength, E> {
        Ok(FileLength::Millimetres(mm))
    }

    fn visit_u64<E: Error>(self, mm: u64) -> Result<FileLength, E> {
        Ok(FileLength::Millimetres(mm as f64))
    }

    fn visit_i64<E: Error>(self, mm: i64) -> Result<FileLength, E> {
        Ok(FileLength::Millimetres(mm as f64))
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<FileLength, E> {
        Ok(FileLength::Typed(text.to_owned()))
    }
}
