//! An order made otherwise: "lines=8, bill=4A".

use std::str::FromStr;

use crate::bill::{BillError, Proportions, Scheme, from_scheme};
use crate::commission::Commission;
use crate::measure::Length;

/// What is changed of an order, each by one word.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// Another size, in lines.
    Lines(f64),
    /// Another bill of the first face, by a scheme such as `4A 8a`; other faces and spaces stay.
    Bill(Scheme),
    /// Other cutters, by id.
    Cutters(Vec<String>),
    /// Another tolerance of walls.
    Tolerance(Length),
    /// Another wood, by id.
    Wood(String),
}

/// Why a change was not understood.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ChangeError {
    /// No such word.
    #[error(
        "“{0}” is no change that can be priced. Write one or more of lines=8, bill=4A 8a, cutters=flat-6+flat-3, tolerance=0.02 mm and wood=beech-end, with commas between."
    )]
    Unknown(String),
    /// The value does not fit the word.
    #[error("“{value}” cannot stand for {word}. Write it like {example}.")]
    Value {
        /// The word before the equals sign.
        word: &'static str,
        /// What was written.
        value: String,
        /// An example.
        example: &'static str,
    },
    /// The bill cannot be made.
    #[error(transparent)]
    Bill(#[from] BillError),
}

/// Reads changes, with commas between.
///
/// # Errors
/// A change that is not known, or whose value cannot be read.
pub fn changes(text: &str) -> Result<Vec<Change>, ChangeError> {
    text.split(',').map(|word| word.trim().parse()).collect()
}

impl FromStr for Change {
    type Err = ChangeError;

    fn from_str(text: &str) -> Result<Change, ChangeError> {
        let Some((word, value)) = text.split_once('=') else {
            return Err(ChangeError::Unknown(text.to_owned()));
        };
        let value = value.trim();
        let refused = |word, example| ChangeError::Value {
            word,
            value: value.to_owned(),
            example,
        };
        match word.trim() {
            "lines" => value
                .parse()
                .ok()
                .filter(|lines: &f64| lines.is_finite() && *lines > 0.0)
                .map(Change::Lines)
                .ok_or_else(|| refused("lines", "lines=8")),
            "bill" => value
                .parse()
                .map(Change::Bill)
                .map_err(|_| refused("bill", "bill=4A 8a")),
            "cutters" => {
                let ids: Vec<String> = value.split('+').map(|id| id.trim().to_owned()).collect();
                if ids.iter().any(String::is_empty) {
                    return Err(refused("cutters", "cutters=flat-6+flat-3"));
                }
                Ok(Change::Cutters(ids))
            }
            "tolerance" => value
                .strip_suffix("mm")
                .unwrap_or(value)
                .trim()
                .parse()
                .ok()
                .filter(|mm: &f64| mm.is_finite())
                .map(|mm| Change::Tolerance(Length::mm(mm)))
                .ok_or_else(|| refused("tolerance", "tolerance=0.02 mm")),
            "wood" => Ok(Change::Wood(value.to_owned())),
            _ => Err(ChangeError::Unknown(text.to_owned())),
        }
    }
}

/// The order with the changes made.
///
/// # Errors
/// A bill that cannot be made.
pub fn changed(commission: &Commission, changes: &[Change]) -> Result<Commission, ChangeError> {
    let mut changed = commission.clone();
    for change in changes {
        match change {
            Change::Lines(lines) => changed.lines = *lines,
            Change::Bill(scheme) => {
                let face = changed.faces.first().map(|face| face.id.clone());
                let face = face.unwrap_or_default();
                changed.bill.retain(|line| line.face != face);
                let table = Proportions::JobFount.table();
                changed.bill.extend(from_scheme(&face, *scheme, &table)?);
            }
            Change::Cutters(ids) => changed.cutting.cutters.clone_from(ids),
            Change::Tolerance(tolerance) => changed.cutting.tolerance = *tolerance,
            Change::Wood(wood) => changed.wood.clone_from(wood),
        }
    }
    Ok(changed)
}
