//! Lists as people paste them: `A 3, B 2, & 1`.

use super::{BillError, MOST_OF_ONE};
use crate::commission::{BillLine, GlyphChoice};

/// The feature that several letters are joined by.
const LIGATURES: &str = "liga";

/// Reads a list of letters with counts: `A 3, B 2, & 1`, with commas, semicolons or new lines between the entries.
///
/// Each entry is what to cut and how many. One character is that character; several are the ligature of that text (`ffi 2`); a
/// name after a slash is the glyph of that name (`/ampersand.alt 1`). Commas, semicolons, blanks and slashes to be cut stand in
/// quotation marks (`"," 6`), the quotation mark itself is doubled there. `A3`, `A: 3` and `A = 3` are understood too.
///
/// # Errors
/// A sentence that quotes the entry that cannot be understood.
pub fn from_list(face: &str, text: &str) -> Result<Vec<BillLine>, BillError> {
    let lines = read_entries(text)?.into_iter().map(|entry| {
        let glyph = match (entry.what.strip_prefix('/'), entry.quoted) {
            (Some(name), false) if !name.is_empty() => GlyphChoice::Name(name.to_owned()),
            (Some(_) | None, _) => by_text(&entry.what),
        };
        BillLine {
            face: face.to_owned(),
            glyph,
            count: entry.count,
        }
    });
    Ok(lines.collect())
}

/// An entry of a list, before it is said what its words mean.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// What is ordered: a letter, letters, or a name.
    pub what: String,
    /// Whether it stood in quotation marks.
    pub quoted: bool,
    /// How many.
    pub count: u32,
}

/// The entries of a list as [`from_list`] takes it, in their order.
///
/// # Errors
/// A sentence that quotes the entry that cannot be understood.
pub fn read_entries(text: &str) -> Result<Vec<Entry>, BillError> {
    let found = entries(text)?;
    if found.is_empty() {
        return Err(BillError::Empty);
    }
    found
        .into_iter()
        .map(|entry| read_entry(entry.trim()))
        .collect()
}

/// Splits at separators outside quotation marks; empty entries do not count.
fn entries(text: &str) -> Result<Vec<&str>, BillError> {
    let mut found = Vec::new();
    let mut start = 0;
    let mut quoted = false;
    for (place, character) in text.char_indices() {
        match character {
            '"' => quoted = !quoted,
            ',' | ';' | '\n' if !quoted => {
                found.push(&text[start..place]);
                start = place + character.len_utf8();
            }
            _ => {}
        }
    }
    if quoted {
        return Err(BillError::OpenQuote(text[start..].trim().to_owned()));
    }
    found.push(&text[start..]);
    found.retain(|entry| !entry.trim().is_empty());
    Ok(found)
}

fn read_entry(entry: &str) -> Result<Entry, BillError> {
    let before = entry.trim_end_matches(|c: char| c.is_ascii_digit());
    let digits = &entry[before.len()..];
    if digits.is_empty() {
        return Err(BillError::NoCount(entry.to_owned()));
    }
    let count: u32 = digits
        .parse()
        .ok()
        .filter(|&count| count <= MOST_OF_ONE)
        .ok_or_else(|| BillError::TooMany(entry.to_owned()))?;
    let letter = without_sign(before.trim_end());
    if letter.is_empty() {
        return Err(BillError::NoLetter(entry.to_owned()));
    }
    let (what, quoted) = unquoted(letter);
    Ok(Entry {
        what,
        quoted,
        count,
    })
}

/// Drops a colon or equals sign between letter and count, but not one that is itself the letter.
fn without_sign(letter: &str) -> &str {
    match letter.strip_suffix([':', '=']) {
        Some(rest) if !rest.trim().is_empty() => rest.trim_end(),
        Some(_) | None => letter,
    }
}

fn unquoted(letter: &str) -> (String, bool) {
    let inner = letter
        .strip_prefix('"')
        .and_then(|rest| rest.strip_suffix('"'))
        .filter(|inner| !inner.is_empty());
    match inner {
        Some(inner) => (inner.replace("\"\"", "\""), true),
        None => (letter.to_owned(), false),
    }
}

pub(super) fn by_text(text: &str) -> GlyphChoice {
    let mut characters = text.chars();
    match (characters.next(), characters.next()) {
        (Some(character), None) => GlyphChoice::Character {
            character,
            features: Vec::new(),
        },
        _ => GlyphChoice::Ligature {
            text: text.to_owned(),
            features: vec![LIGATURES.to_owned()],
        },
    }
}

/// Writes one line of a bill as an entry that [`from_list`] reads as the same line; `None` if a list cannot say it (a glyph by
/// index, a character under features, a drawing).
pub fn to_list(line: &BillLine) -> Option<String> {
    let what = match &line.glyph {
        GlyphChoice::Character {
            character,
            features,
        } if features.is_empty() => quoted(&character.to_string()),
        GlyphChoice::Ligature { text, features } if features == &[LIGATURES] => quoted(text),
        GlyphChoice::Name(name) => format!("/{name}"),
        GlyphChoice::Character { .. }
        | GlyphChoice::Ligature { .. }
        | GlyphChoice::Index(_)
        | GlyphChoice::Drawing => {
            return None;
        }
    };
    let entry = format!("{what} {}", line.count);
    let same = from_list(&line.face, &entry).is_ok_and(|read| read == [line.clone()]);
    same.then_some(entry)
}

fn quoted(text: &str) -> String {
    let needs =
        |c: char| matches!(c, ',' | ';' | '"' | '/') || c.is_whitespace() || c.is_ascii_digit();
    // A figure alone is plain enough: 1 4 is four of figure 1.
    if text.chars().any(needs) && !(text.len() == 1 && text.as_bytes()[0].is_ascii_digit()) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_owned()
    }
}
