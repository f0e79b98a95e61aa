//! Union, intersection and difference of regions.
//!
//! Points are rounded to [`crate::region::GRID`] first; the operations themselves then work in whole numbers. Where a
//! crossing falls between grid points it is rounded too, so a result may differ from the exact one by a grid step along its
//! edge, never more.

use i_overlay::core::overlay::{IntOverlayOptions, Overlay, ShapeType};
use i_overlay::core::overlay_rule::OverlayRule;

pub(crate) use i_overlay::core::fill_rule::FillRule;

use crate::grid::{GridPoint, ring_of, snapped_ring};
use crate::region::{Piece, Region, Ring};

/// What lies in either region.
pub fn union(a: &Region, b: &Region) -> Region {
    combined(a, b, OverlayRule::Union)
}

/// What lies in both.
pub fn intersection(a: &Region, b: &Region) -> Region {
    combined(a, b, OverlayRule::Intersect)
}

/// What lies in `a` and not in `b`.
pub fn difference(a: &Region, b: &Region) -> Region {
    combined(a, b, OverlayRule::Difference)
}

/// What lies in one of them only.
pub fn symmetric_difference(a: &Region, b: &Region) -> Region {
    combined(a, b, OverlayRule::Xor)
}

/// What lies in any of the regions.
pub fn union_all(regions: &[Region]) -> Region {
    let mut contours = Contours::new(0);
    for ring in regions.iter().flat_map(Region::rings) {
        contours.add(&snapped_ring(ring));
    }
    contours.resolve(OverlayRule::Subject, FillRule::NonZero)
}

/// What lies in any of the polygons, whichever way they overlap. All of them run counter-clockwise.
pub fn union_of_rings(rings: &[Ring]) -> Region {
    let mut contours = Contours::new(rings.iter().map(Vec::len).sum());
    for ring in rings {
        contours.add(&snapped_ring(ring));
    }
    contours.resolve(OverlayRule::Subject, FillRule::NonZero)
}

fn combined(a: &Region, b: &Region, rule: OverlayRule) -> Region {
    let mut contours = Contours::new(0);
    for ring in a.rings() {
        contours.add(&snapped_ring(ring));
    }
    for ring in b.rings() {
        contours.add_clip(&snapped_ring(ring));
    }
    contours.resolve(rule, FillRule::NonZero)
}

/// Closed polygons on the grid, to be resolved into a region.
pub(crate) struct Contours {
    overlay: Overlay<i32>,
}

impl Contours {
    /// Room for about so many points.
    pub(crate) fn new(points: usize) -> Contours {
        // Corners that other rings touch must stay corners of both, or the diagram would meet a corner inside a segment.
        Contours {
            overlay: Overlay::new_custom(
                points,
                IntOverlayOptions::keep_output_points(),
                Default::default(),
            ),
        }
    }

    /// Adds a polygon to the subject.
    pub(crate) fn add(&mut self, ring: &[GridPoint]) {
        if ring.len() > 2 {
            self.overlay.add_contour(ring, ShapeType::Subject);
        }
    }

    /// Adds a polygon to what the subject is combined with.
    pub(crate) fn add_clip(&mut self, ring: &[GridPoint]) {
        if ring.len() > 2 {
            self.overlay.add_contour(ring, ShapeType::Clip);
        }
    }

    /// The region that comes of it.
    pub(crate) fn resolve(mut self, rule: OverlayRule, fill: FillRule) -> Region {
        let pieces = self
            .overlay
            .overlay(rule, fill)
            .into_iter()
            .filter_map(|shape| {
                let mut rings = shape
                    .iter()
                    .filter(|ring| ring.len() > 2)
                    .map(|ring| ring_of(ring));
                Some(Piece {
                    outer: rings.next()?,
                    counters: rings.collect(),
                })
            })
            .collect();
        Region { pieces }
    }
}

#[cfg(test)]
mod tests;
