//! Borders: units that are set round a frame, and whether they join.
//!
//! A border's corner stands at the upper left as it is drawn and is turned by quarters for the other corners; its running pieces stand along the
//! head and are turned for the other sides. [`frame`] sets them, from the sorts as drawn or from what finished programs will print; [`sheet`]
//! shows a frame in ink.

mod fill;
mod findings;
mod frame;
mod joins;
mod sheet;

use std::collections::BTreeMap;

use kurbo::Point;

use crate::proof::impression::Fount;
use crate::sort::Sort;

pub use fill::{Fill, fill};
pub use findings::{findings, join_findings};
pub use frame::{BorderError, Frame, Join, Side, SideOf, Unit, frame};
pub use joins::{Meeting, Misfit, Shape, meeting};
pub use sheet::{PAPER_MM, sheet};

/// The shapes of sorts as they are drawn, by name.
pub fn shapes_as_drawn<'a>(sorts: impl IntoIterator<Item = &'a Sort>) -> BTreeMap<String, Shape> {
    let sorts = sorts.into_iter();
    let shapes = sorts.map(|sort| {
        let mut inked = sort.face.clone();
        // The face is mirrored; rings turn about with it.
        let as_printed = |ring: &mut Vec<Point>| {
            ring.reverse();
            for point in ring {
                point.x = sort.block.set_mm - point.x;
            }
        };
        for piece in &mut inked.pieces {
            as_printed(&mut piece.outer);
            piece.counters.iter_mut().for_each(as_printed);
        }
        let shape = Shape {
            set_mm: sort.block.set_mm,
            body_mm: sort.block.body_mm,
            inked,
        };
        (sort.name.clone(), shape)
    });
    shapes.collect()
}

/// The shapes that finished programs will print, by the names of the sorts.
pub fn shapes_as_cut(fount: &Fount) -> BTreeMap<String, Shape> {
    let shapes = fount.impressions.iter().map(|one| {
        let shape = Shape {
            set_mm: one.set_mm,
            body_mm: one.body_mm,
            inked: one.inked.clone(),
        };
        (one.name.clone(), shape)
    });
    shapes.collect()
}

#[cfg(test)]
mod tests;
