//! The size at which overlaps are worked out.
//!
//! A drawing may be of any size, from a stamp in inches to a poster; what is cut of it is at most a block. Overlaps are worked out on a
//! drawing brought to one size, on the grid of the plane mathematics, and taken back: so their accuracy is a part of the drawing's size.

use geometry::region::{Region, RegionError, region_from_even_odd, region_from_outline};
use kurbo::{Affine, BezPath, Rect, Shape};

use crate::outline::{FillRule, Outline, path_of};

/// The larger side of a drawing while overlaps are worked out, in millimetres: nearly the widest that regions take.
const WORK_MM: f64 = 300.0;
/// How far chords may lie from curves at that size, in millimetres: 1/300,000 of the drawing.
pub(crate) const FLATTENING_MM: f64 = 0.001;

/// The way to that size and back.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Work {
    to: Affine,
    back: Affine,
    /// How many millimetres of work one unit of the drawing is.
    scale: f64,
}

impl Work {
    /// For drawings that fill `bounds`.
    pub(crate) fn around(bounds: Rect) -> Work {
        let side = bounds.width().max(bounds.height());
        let scale = if side > 0.0 && side.is_finite() {
            WORK_MM / side
        } else {
            1.0
        };
        let to = Affine::scale(scale) * Affine::translate(-bounds.center().to_vec2());
        let back = Affine::translate(bounds.center().to_vec2()) * Affine::scale(1.0 / scale);
        Work { to, back, scale }
    }

    /// How far chords may lie from curves, in units of the drawing.
    pub(crate) fn tolerance(&self) -> f64 {
        FLATTENING_MM / self.scale
    }

    /// What an outline fills, at the size of work.
    pub(crate) fn region(&self, outline: &Outline) -> Result<Region, RegionError> {
        let path = self.to * &outline.path;
        match outline.rule {
            FillRule::NonZero => region_from_outline(&path, FLATTENING_MM),
            FillRule::EvenOdd => region_from_even_odd(&path, FLATTENING_MM),
        }
    }

    /// The region of a rectangle.
    pub(crate) fn rect(&self, rect: Rect) -> Region {
        let corners = self.to.transform_rect_bbox(rect).to_path(FLATTENING_MM);
        region_from_outline(&corners, FLATTENING_MM).unwrap_or_default()
    }

    /// A region's curves, in the drawing's own size.
    pub(crate) fn path_of(&self, region: &Region) -> BezPath {
        self.back * path_of(region)
    }
}
