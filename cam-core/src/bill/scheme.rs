//! Founts by scheme: so many A, and the other letters in the trade's proportions.

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

/// Letters with their counts in a fount of 15 A and 30 a.
///
/// # Source
/// A. A. Stewart, *Type: a primer*, Typographic Technical Series No. 1, 1918, p. 11: scheme of a job fount, 15A 30a.
const CAPITALS: &str =
    "A15 B6 C10 D8 E18 F7 G7 H8 I15 J5 K5 L10 M8 N15 O15 P8 Q3 R15 S15 T15 U8 V5 W6 X3 Y6 Z3 &6";
const LOWER_CASE: &str = "a30 b12 c16 d18 e40 f12 g12 h20 i30 j8 k8 l20 m16 n30 o30 p12 q6 r30 s30 t30 u16 v8 w12 x6 y12 z6";
const FIGURES: &str = "15 24 34 44 54 64 74 84 95 06";
const POINTS: &str = ".31 ,31 :6 ;6 -9 ’13 !9 ?8 (6 )6";
/// Counts of the leading letters in those tables.
const A: u32 = 15;
const LOWER_A: u32 = 30;

/// The bill of a scheme: of each letter `max(1, ceil(n × w / w_A))`, where `w` is its count in the trade's table.
///
/// # Errors
/// The scheme is empty, or asks for more of a letter than a bill may.
///
/// # Source
/// The table as stated above; that founts of other sizes scale with it: A. F. Collins, *Handicraft for Boys*, 1918 (an 8A fount has
/// twice the capitals of a 4A fount). Rounding up, and at least one of each: common practice, no source.
pub fn from_scheme(face: &str, scheme: Scheme) -> Result<Vec<BillLine>, BillError> {
    let parts = [
        (CAPITALS, scheme.capitals, A),
        (LOWER_CASE, scheme.lower_case, LOWER_A),
        (FIGURES, scheme.figures, A),
        (POINTS, scheme.points, A),
    ];
    let mut lines = Vec::new();
    for (table, wanted, leading) in parts {
        if wanted == 0 {
            continue;
        }
        for (character, weight) in weights(table) {
            let count = u64::from(wanted) * u64::from(weight);
            let count = count.div_ceil(u64::from(leading)).max(1);
            let count = u32::try_from(count)
                .ok()
                .filter(|&count| count <= MOST_OF_ONE)
                .ok_or_else(|| BillError::TooMany(character.to_string()))?;
            lines.push(plain(face, character, count));
        }
    }
    if lines.is_empty() {
        return Err(BillError::Empty);
    }
    Ok(lines)
}

/// The entries of a table: a character and its count, without a blank between.
fn weights(table: &str) -> impl Iterator<Item = (char, u32)> + '_ {
    table.split_whitespace().filter_map(|entry| {
        let character = entry.chars().next()?;
        let weight = entry.get(character.len_utf8()..)?.parse().ok()?;
        Some((character, weight))
    })
}
