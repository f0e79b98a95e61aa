//! The letters that a text needs.

use std::collections::{BTreeMap, BTreeSet};

use unicode_normalization::UnicodeNormalization;

use super::{BillError, FountPart, MOST_OF_ONE, plain};
use crate::commission::BillLine;

/// How much of a text must be set at one time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Need {
    /// One line at a time: of each letter, the most that any one line needs.
    AnyLine,
    /// All lines at once: the sum.
    AllLines,
}

/// The bill for a text to be set, part by part as founts are laid, the ampersand after the capitals, else in the order of the
/// characters' codes. Blanks are not letters: order spaces for them.
///
/// `has` says whether the font has a character.
///
/// # Errors
/// The text has no letters, or letters that the font does not have; they are all named.
pub fn from_text(
    face: &str,
    text: &str,
    need: Need,
    has: impl Fn(char) -> bool,
) -> Result<Vec<BillLine>, BillError> {
    let mut needed: BTreeMap<char, u32> = BTreeMap::new();
    for line in lines_of(text) {
        let mut in_line: BTreeMap<char, u32> = BTreeMap::new();
        for character in line.chars().filter(|&character| is_letter(character)) {
            let count = in_line.entry(character).or_default();
            *count = count.saturating_add(1);
        }
        for (character, count) in in_line {
            let total = needed.entry(character).or_default();
            *total = match need {
                Need::AnyLine => count.max(*total),
                Need::AllLines => total.saturating_add(count),
            };
        }
    }
    let missing: BTreeSet<char> = needed
        .keys()
        .copied()
        .filter(|&character| !has(character))
        .collect();
    if !missing.is_empty() {
        return Err(BillError::NotInFont(missing.into_iter().collect()));
    }
    if needed.is_empty() {
        return Err(BillError::Empty);
    }
    let mut bill = needed
        .into_iter()
        .map(|(character, count)| {
            if count > MOST_OF_ONE {
                Err(BillError::TooMany(character.to_string()))
            } else {
                Ok((character, plain(face, character, count)))
            }
        })
        .collect::<Result<Vec<_>, BillError>>()?;
    bill.sort_by_key(|(character, line)| (FountPart::of(&line.glyph), *character == '&'));
    Ok(bill.into_iter().map(|(_, line)| line).collect())
}

fn is_letter(character: char) -> bool {
    !character.is_whitespace() && !character.is_control()
}

/// The lines of a text as they are set: marks joined to their letters where there is such a character (é for e and an acute), and
/// without what shows nothing: joiners, soft hyphens, marks of direction.
///
/// # Source
/// Unicode Standard Annex 15, normalization form C; the Unicode Character Database, property Default_Ignorable_Code_Point, for the
/// characters below U+FFFF that texts have.
pub fn lines_of(text: &str) -> Vec<String> {
    let shows = |character: &char| {
        !matches!(
            character,
            '\u{ad}' | '\u{34f}' | '\u{61c}' | '\u{180b}'..='\u{180f}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}'
                | '\u{2060}'..='\u{206f}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}'
        )
    };
    text.lines()
        .map(|line| line.nfc().filter(shows).collect())
        .collect()
}
