//! Letters in colours: from one drawing, its companions or a font's own colours to what each plate prints.
//!
//! Every plate first has an **area** ([`areas`]): what it would print by itself. Areas are then laid out side by side ([`side_by_side`]): what
//! lies in front knocks out what lies behind it, unless that is to be overprinted. A line made within the letter lies in front of the letter whatever
//! the order; all else lies in the order of printing. At last each area is spread under the plates that are printed after it, where they meet ([`trapped`]),
//! and never past them, so that no plate leaves the whole letter.
//!
//! All is in reading space, in millimetres. Edges that are made, not drawn, are exact lines and arcs of the geometry crate; drawn curves are taken
//! as chords within [`WORK_MM`], and the result is fitted with lines and arcs within as much again. A plate that nothing knocks out and nothing is added to keeps the
//! drawn curves.

mod areas;
mod parting;
#[cfg(test)]
mod tests;

use geometry::boolean::{symmetric_difference, union_all};
use geometry::diagram::DiagramError;
use geometry::grown::drawn;
use geometry::region::{Region, RegionError, region_from_outline};
use kurbo::BezPath;

use crate::commission::{ColourRules, Plate};

pub use areas::{Source, areas};
pub use parting::{side_by_side, trapped};

/// How far chords may lie from drawn curves, and fitted lines and arcs from what was reckoned, mm: half of what faces are flattened by.
pub const WORK_MM: f64 = 0.0005;

/// Slivers that are nowhere wider fall away, mm: two drawings that are meant to meet do not quite, and no cutter leaves so thin a wall standing.
pub const SLIVER_MM: f64 = 0.02;

/// What differs by less is the same, mm².
const SAME_MM2: f64 = 1e-5;

/// Why a letter cannot be parted into colours.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ColourError {
    /// An outline could not be made an area.
    #[error(transparent)]
    Region(#[from] RegionError),
    /// An area could not be grown or shrunk.
    #[error("Its edge cannot be followed at a distance. {0}")]
    Diagram(#[from] DiagramError),
}

/// What one plate prints of a letter.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// The plate, by its place in the order of printing.
    pub plate: usize,
    /// What it prints, as curves in reading space; empty if that is nothing.
    pub outline: BezPath,
}

/// What each plate prints of a letter, in the order of printing, and the whole letter as curves.
///
/// # Errors
/// The drawing cannot be worked on.
pub fn layers(
    plates: &[Plate],
    rules: &ColourRules,
    source: &Source,
) -> Result<(Vec<Layer>, BezPath), ColourError> {
    let areas = areas(plates, source)?;
    let apart = side_by_side(plates, &areas)?;
    let printed = trapped(plates, &apart, rules.trap.in_mm())?;
    let whole = union_all(&printed);
    let layers = plates
        .iter()
        .zip(&printed)
        .enumerate()
        .map(|(place, (plate, region))| {
            Ok(Layer {
                plate: place,
                outline: outline(source.drawn(&plate.source), region)?,
            })
        })
        .collect::<Result<_, ColourError>>()?;
    Ok((layers, drawn(&whole, WORK_MM)))
}

/// A plate's face as curves: the drawn ones if it prints all of them and no more, else lines and arcs.
fn outline(as_drawn: Option<&BezPath>, region: &Region) -> Result<BezPath, ColourError> {
    if let Some(path) = as_drawn {
        let whole = region_from_outline(path, WORK_MM)?;
        if !region.is_empty() && symmetric_difference(&whole, region).area() < SAME_MM2 {
            return Ok(path.clone());
        }
    }
    Ok(drawn(region, WORK_MM))
}
