//! Founts by scheme: so many A, and the other letters in the trade's proportions.

use std::str::FromStr;

use super::table::{Part, Table, Totals};
use super::{BillError, MOST_OF_ONE, line_of};
use crate::commission::BillLine;

/// How many of the leading letter of each part of a fount; 0 leaves the part out.
///
/// `5A 10a` is `capitals: 5, lower_case: 10`. Figures and points follow the capitals of a whole fount: `figures: 5` gives as many
/// as belong to a fount of 5 A; ligatures follow the lower-case.
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
    /// Ligatures for a fount of so many a.
    pub ligatures: u32,
}

impl FromStr for Scheme {
    type Err = BillError;

    /// Reads `5A 10a`: capitals with their figures and points, and lower-case; `figures=3`, `points=0` and `ligatures=10` set those
    /// parts apart.
    fn from_str(text: &str) -> Result<Scheme, BillError> {
        let refused = || BillError::NoScheme(text.trim().to_owned());
        let mut scheme = Scheme::default();
        let mut apart = Vec::new();
        for word in text.split_whitespace() {
            let count = |digits: &str| digits.parse::<u32>().map_err(|_| refused());
            if let Some((part, digits)) = word.split_once('=') {
                apart.push((part, count(digits)?));
            } else if let Some(digits) = word.strip_suffix('A') {
                scheme.capitals = count(digits)?;
                scheme.figures = scheme.capitals;
                scheme.points = scheme.capitals;
            } else if let Some(digits) = word.strip_suffix('a') {
                scheme.lower_case = count(digits)?;
            } else {
                return Err(refused());
            }
        }
        for (part, count) in apart {
            match part {
                "figures" => scheme.figures = count,
                "points" => scheme.points = count,
                "ligatures" => scheme.ligatures = count,
                _ => return Err(refused()),
            }
        }
        if scheme == Scheme::default() {
            return Err(refused());
        }
        Ok(scheme)
    }
}

/// The bill of a scheme after a table: of each letter `max(1, ceil(n × w / w_A))`, where `w` is its count in the table.
///
/// Letters that the table gives no count are left out. Where a table has printed totals, capitals, ampersand and points come to the
/// one for that many A, and lower-case and figures to theirs, whatever their own numbers are; ligatures follow the rule above.
///
/// # Errors
/// The scheme is empty, asks for more of a letter than a bill may, or for a fount whose totals are not printed.
///
/// # Source
/// That founts of other sizes scale with the table: A. F. Collins, *Handicraft for Boys*, 1918 (an 8A fount has twice the capitals
/// of a 4A fount). Rounding up, and at least one of each: common practice, no source.
pub fn from_scheme(face: &str, scheme: Scheme, table: &Table) -> Result<Vec<BillLine>, BillError> {
    if !table.totals.is_empty() && scheme != Scheme::default() {
        return by_totals(face, scheme, table);
    }
    let parts = [
        (&table.capitals, scheme.capitals),
        (&table.lower_case, scheme.lower_case),
        (&table.ligatures, scheme.ligatures),
        (&table.figures, scheme.figures),
        (&table.points, scheme.points),
    ];
    let mut lines = Vec::new();
    for (part, wanted) in parts.into_iter().filter(|(_, wanted)| *wanted > 0) {
        lines.extend(scaled(face, part, wanted)?);
    }
    if lines.is_empty() {
        return Err(BillError::Empty);
    }
    Ok(lines)
}

fn scaled(face: &str, part: &Part, wanted: u32) -> Result<Vec<BillLine>, BillError> {
    let line = |(letters, weight): &(String, u32)| {
        let count = count(part, letters, *weight, wanted)?;
        Ok(line_of(face, letters, count))
    };
    part.weights().iter().map(line).collect()
}

fn count(part: &Part, letters: &str, weight: u32, wanted: u32) -> Result<u32, BillError> {
    let count = u64::from(wanted) * u64::from(weight);
    let count = count.div_ceil(u64::from(part.leading())).max(1);
    u32::try_from(count)
        .ok()
        .filter(|&count| count <= MOST_OF_ONE)
        .ok_or_else(|| BillError::TooMany(letters.to_owned()))
}

/// The bill of a fount whose totals are printed.
fn by_totals(face: &str, scheme: Scheme, table: &Table) -> Result<Vec<BillLine>, BillError> {
    let a = [scheme.capitals, scheme.points, scheme.figures];
    let a = a.into_iter().find(|&count| count > 0).unwrap_or_default();
    let totals: &Totals = table
        .totals
        .iter()
        .find(|totals| totals.a == a)
        .ok_or(BillError::NoTotals(a))?;
    let mut lines = Vec::new();
    if scheme.capitals > 0 {
        let both = [table.capitals.weights(), table.points.weights()].concat();
        lines.extend(shared_out(
            face,
            &both,
            Some(("A", totals.a)),
            totals.capitals_and_points,
        ));
    }
    if scheme.lower_case > 0 {
        let letters = table.lower_case.weights();
        lines.extend(shared_out(face, letters, None, totals.lower_case));
    }
    if scheme.ligatures > 0 {
        lines.extend(scaled(face, &table.ligatures, scheme.ligatures)?);
    }
    if scheme.figures > 0 {
        lines.extend(shared_out(
            face,
            table.figures.weights(),
            None,
            totals.figures,
        ));
    }
    if lines.is_empty() {
        return Err(BillError::Empty);
    }
    Ok(lines)
}

/// Shares a total out among letters in proportion to their weights, at least one of each: one by one, each to the letter that has
/// least for its weight (the method of odd numbers, A. Sainte-Laguë, 1910, from memory). The leading letter's count is given.
fn shared_out(
    face: &str,
    weights: &[(String, u32)],
    leading: Option<(&str, u32)>,
    total: u32,
) -> Vec<BillLine> {
    let is_leading = |letters: &str| leading.is_some_and(|(leading, _)| leading == letters);
    let mut counts: Vec<u32> = weights
        .iter()
        .map(|(letters, _)| match leading {
            Some((known, count)) if known == letters => count,
            Some(_) | None => 1,
        })
        .collect();
    let given: u32 = counts.iter().sum();
    for _ in given..total {
        // The least of (2 count + 1) / weight, compared without dividing.
        let next = (0..weights.len())
            .filter(|&place| !is_leading(&weights[place].0))
            .min_by(|&one, &other| {
                let side = |count: u32, weight: u32| u64::from(2 * count + 1) * u64::from(weight);
                side(counts[one], weights[other].1).cmp(&side(counts[other], weights[one].1))
            });
        match next {
            Some(place) => counts[place] += 1,
            None => break,
        }
    }
    weights
        .iter()
        .zip(counts)
        .map(|((letters, _), count)| line_of(face, letters, count))
        .collect()
}
