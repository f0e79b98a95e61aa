//! Founts by scheme: so many A, and the other letters in the trade's proportions.

use super::table::{Part, Table};
use super::{BillError, MOST_OF_ONE, plain};
use crate::commission::BillLine;

/// How many of the leading letter of each part of a fount; 0 leaves the part out.
///
/// `5A 10a` is `capitals: 5, lower_case: 10`. Figures and points follow the capitals of a whole fount: `figures: 5` gives as many
/// as belong to a fount of 5 A.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Scheme {
    /// Of capital A; the ampersand follows.
    pub capitals: u32,
    /// Of lower-case a.
    pub lower_case: u32,
    /// Figures for a fount of so many A.
    pub figures: u32,
    /// Points for a fount of so many A.
    pub points: u32,
}

/// The bill of a scheme after a table: of each letter `max(1, ceil(n × w / w_A))`, where `w` is its count in the table.
///
/// Letters that the table gives no count are left out.
///
/// # Errors
/// The scheme is empty, or asks for more of a letter than a bill may.
///
/// # Source
/// That founts of other sizes scale with the table: A. F. Collins, *Handicraft for Boys*, 1918 (an 8A fount has twice the capitals
/// of a 4A fount). Rounding up, and at least one of each: common practice, no source.
pub fn from_scheme(face: &str, scheme: Scheme, table: &Table) -> Result<Vec<BillLine>, BillError> {
    let parts = [
        (&table.capitals, scheme.capitals),
        (&table.lower_case, scheme.lower_case),
        (&table.figures, scheme.figures),
        (&table.points, scheme.points),
    ];
    let mut lines = Vec::new();
    for (part, wanted) in parts.into_iter().filter(|(_, wanted)| *wanted > 0) {
        for &(character, weight) in part.weights() {
            lines.push(plain(
                face,
                character,
                count(part, character, weight, wanted)?,
            ));
        }
    }
    if lines.is_empty() {
        return Err(BillError::Empty);
    }
    Ok(lines)
}

fn count(part: &Part, character: char, weight: u32, wanted: u32) -> Result<u32, BillError> {
    let count = u64::from(wanted) * u64::from(weight);
    let count = count.div_ceil(u64::from(part.leading())).max(1);
    u32::try_from(count)
        .ok()
        .filter(|&count| count <= MOST_OF_ONE)
        .ok_or_else(|| BillError::TooMany(character.to_string()))
}
