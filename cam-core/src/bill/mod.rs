//! Bills of letters: pasted lists, texts to be set, the trade's schemes, spaces, and what can be set from a bill.

mod case;
mod language;
mod list;
mod parts;
mod scheme;
mod spacing;
mod table;
mod text;

pub use case::{Case, Checked, Needed};
pub use language::Language;
pub use list::{Entry, from_list, read_entries, to_list};
pub use parts::FountPart;
pub use scheme::{Scheme, from_scheme};
pub use spacing::{Filled, SpaceKind, Spacing, for_fount, for_text, unit_pt};
pub use table::{OwnTable, Part, Proportions, Table, Totals};
pub use text::{Need, from_text, lines_of};

use crate::commission::{BillLine, GlyphChoice};

/// Why a bill cannot be made.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum BillError {
    /// Nothing is ordered.
    #[error("The bill is empty. Write letters with their counts, such as A 3, B 2.")]
    Empty,
    /// An entry without a count.
    #[error("“{0}” has no count. Write the letter, a blank and the count, such as A 3.")]
    NoCount(String),
    /// An entry without a letter.
    #[error(
        "“{0}” names no letter. Write the letter, a blank and the count; put a comma or semicolon to be cut in quotes, such as \",\" 6."
    )]
    NoLetter(String),
    /// A count that cannot be meant.
    #[error("“{0}” asks for more than {most} of one sort. Lower the count.", most = MOST_OF_ONE)]
    TooMany(String),
    /// An entry of a table of proportions without a count.
    #[error(
        "“{0}” has no count that can be meant. Write the letter and its count without a blank, such as A15."
    )]
    NoWeight(String),
    /// A letter that a table of proportions has twice.
    #[error("“{0}” stands in the table twice. Leave one of them.")]
    Twice(String),
    /// A scheme that is not understood.
    #[error(
        "“{0}” is no scheme. Write the counts of A and a, such as 4A 8a; figures=3, points=6 and ligatures=8 set those apart."
    )]
    NoScheme(String),
    /// Proportions that are not known.
    #[error(
        "There are no proportions called “{0}”. Name one of: job, wood, book, {known}.",
        known = languages()
    )]
    UnknownProportions(String),
    /// A fount whose totals are not printed.
    #[error("Wood letter is printed for founts of {known} alone, not for {0}A. Choose one of these, or other proportions.", known = printed_founts())]
    NoTotals(u32),
    /// A quotation mark that is not closed.
    #[error("“{0}” opens a quotation mark that is never closed.")]
    OpenQuote(String),
    /// Letters that the font does not have.
    #[error("The font has no {}. Leave them out of the text, or choose another font.", listed(.0))]
    NotInFont(Vec<char>),
}

/// The most of one sort that a bill may ask for.
pub const MOST_OF_ONE: u32 = 10_000;

fn listed(characters: &[char]) -> String {
    characters
        .iter()
        .map(|&character| crate::sort::character_in_words(character))
        .collect::<Vec<_>>()
        .join(", ")
}

fn languages() -> String {
    let names = Language::ALL.map(|language| language.name().split(',').next().unwrap_or_default());
    names.join(", ")
}

fn printed_founts() -> String {
    let totals = Proportions::WoodLetter.table().totals;
    let names: Vec<String> = totals
        .iter()
        .map(|totals| format!("{}A", totals.a))
        .collect();
    names.join(", ")
}

/// A letter, or several as their ligature.
fn line_of(face: &str, letters: &str, count: u32) -> BillLine {
    BillLine {
        face: face.to_owned(),
        glyph: list::by_text(letters),
        count,
    }
}

fn plain(face: &str, character: char, count: u32) -> BillLine {
    BillLine {
        face: face.to_owned(),
        glyph: GlyphChoice::Character {
            character,
            features: Vec::new(),
        },
        count,
    }
}

#[cfg(test)]
mod tests;
