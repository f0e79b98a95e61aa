//! Bills of letters: pasted lists, texts to be set, and the trade's schemes.

mod language;
mod list;
mod scheme;
mod table;
mod text;

pub use language::Language;
pub use list::{from_list, to_list};
pub use scheme::{Scheme, from_scheme};
pub use table::{Part, Proportions, Table};
pub use text::{Need, from_text};

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
    Twice(char),
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
