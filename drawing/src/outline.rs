//! Outlines with the rule by which they are filled.

use geometry::region::{Region, RegionError, region_from_even_odd, region_from_outline};
use kurbo::{Affine, BezPath, PathEl, Rect, Shape};

use crate::work::Work;

/// By which rule an outline is filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FillRule {
    /// A place is inside where the outline winds about it.
    NonZero,
    /// A place is inside where the outline winds about it an odd number of times.
    EvenOdd,
}

/// Closed curves with their fill.
#[derive(Clone, Debug)]
pub struct Outline {
    /// The curves; each subpath is closed.
    pub path: BezPath,
    /// How they are filled.
    pub rule: FillRule,
}

impl Outline {
    /// An outline that fills nothing.
    pub fn empty() -> Outline {
        Outline {
            path: BezPath::new(),
            rule: FillRule::NonZero,
        }
    }

    /// Whether nothing is drawn.
    pub fn is_empty(&self) -> bool {
        self.path.is_empty()
    }

    /// The box of its curves; `None` if nothing is drawn.
    pub fn bounding_box(&self) -> Option<Rect> {
        (!self.path.is_empty()).then(|| self.path.bounding_box())
    }

    /// The same outline at another place or size.
    pub fn transformed(&self, transform: Affine) -> Outline {
        Outline {
            path: transform * self.path.clone(),
            rule: self.rule,
        }
    }

    /// The region it fills, its curves made polygons within `tolerance` millimetres.
    ///
    /// # Errors
    /// As [`region_from_outline`].
    pub fn region(&self, tolerance: f64) -> Result<Region, RegionError> {
        match self.rule {
            FillRule::NonZero => region_from_outline(&self.path, tolerance),
            FillRule::EvenOdd => region_from_even_odd(&self.path, tolerance),
        }
    }

    /// Curves that fill the same by the nonzero rule. An outline of that rule comes back as it is; another as polygons that lie within
    /// 1/300,000 of its larger side of it.
    ///
    /// # Errors
    /// As [`region_from_outline`].
    pub fn nonzero(&self) -> Result<BezPath, RegionError> {
        match self.rule {
            FillRule::NonZero => Ok(self.path.clone()),
            FillRule::EvenOdd => {
                let Some(bounds) = self.bounding_box() else {
                    return Ok(BezPath::new());
                };
                let work = Work::around(bounds);
                Ok(work.path_of(&work.region(self)?))
            }
        }
    }
}

/// The path of a region's rings.
pub(crate) fn path_of(region: &Region) -> BezPath {
    let mut path = BezPath::new();
    for ring in region.rings() {
        let mut points = ring.iter();
        let Some(&first) = points.next() else {
            continue;
        };
        path.push(PathEl::MoveTo(first));
        path.extend(points.map(|&point| PathEl::LineTo(point)));
        path.push(PathEl::ClosePath);
    }
    path
}
