//! Areas side by side, and spread under one another where they meet.

use geometry::boolean::{difference, intersection, union, union_all};
use geometry::grown::{grown, without_slivers};
use geometry::region::Region;

use super::{ColourError, SAME_MM2, SLIVER_MM, WORK_MM};
use crate::commission::{Plate, PlateSource};

/// What each plate prints alone or in front: areas that others in front of them knock out, without slivers. A plate that is overprinted stays
/// whole.
///
/// # Errors
/// An area cannot be worked on.
pub fn side_by_side(plates: &[Plate], areas: &[Region]) -> Result<Vec<Region>, ColourError> {
    (0..areas.len())
        .map(|place| {
            let area = &areas[place];
            if plates[place].overprinted {
                return Ok(area.clone());
            }
            let before: Vec<Region> = (0..areas.len())
                .filter(|&other| is_in_front(plates, other, place))
                .map(|other| areas[other].clone())
                .collect();
            let kept = difference(area, &union_all(&before));
            let is_touched = (kept.area() - area.area()).abs() > SAME_MM2;
            let is_made = matches!(plates[place].source, PlateSource::Shadow { .. });
            if is_touched || is_made {
                Ok(without_slivers(&kept, SLIVER_MM, WORK_MM)?)
            } else {
                Ok(kept)
            }
        })
        .collect()
}

/// Whether one plate lies in front of another: a line within the letter does, whatever the order of printing; else what is printed later.
fn is_in_front(plates: &[Plate], one: usize, other: usize) -> bool {
    let rank = |place: usize| match plates[place].source {
        PlateSource::Inline { .. } => 1,
        PlateSource::Letter
        | PlateSource::Face(_)
        | PlateSource::FontColour(_)
        | PlateSource::Outline { .. }
        | PlateSource::Shadow { .. } => 0,
    };
    (rank(one), one) > (rank(other), other)
}

/// Each area spread by the trap under the plates that are printed after it, where they meet.
///
/// What is added lies within the areas of those plates, so nothing is spread past the outside of the whole letter, nor over paper that
/// is to stay bare. What is overprinted lies beneath already.
///
/// # Errors
/// An area cannot be worked on.
pub fn trapped(
    plates: &[Plate],
    areas: &[Region],
    trap_mm: f64,
) -> Result<Vec<Region>, ColourError> {
    (0..areas.len())
        .map(|place| {
            let own = &areas[place];
            let after = union_all(&areas[place + 1..]);
            if trap_mm <= 0.0 || plates[place].overprinted || own.is_empty() || after.is_empty() {
                return Ok(own.clone());
            }
            let under = intersection(&grown(own, trap_mm, WORK_MM)?, &after);
            if under.area() < SAME_MM2 {
                return Ok(own.clone());
            }
            Ok(touching(union(own, &under), own))
        })
        .collect()
}

/// The pieces of a spread area that hold some of the area itself: where paper lies between, nothing is spread across it.
fn touching(spread: Region, own: &Region) -> Region {
    let pieces = spread.pieces.into_iter().filter(|piece| {
        let alone = Region {
            pieces: vec![piece.clone()],
        };
        intersection(&alone, own).area() > SAME_MM2
    });
    Region {
        pieces: pieces.collect(),
    }
}
