//! Outlines with the rule by which they are filled.

use geometry::boolean::symmetric_difference;
use geometry::region::{
    Region, RegionError, Ring, region_from_even_odd, region_from_outline, signed_area, winding,
};
use kurbo::{Affine, BezPath, PathEl, Rect, Shape};

use crate::work::{FLATTENING_MM, Work};

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

    /// Curves that fill the same by the nonzero rule. An outline of that rule comes back as it is; of another the subpaths are turned so that
    /// holes run the other way, and where they cross, polygons come back that lie within 1/300,000 of its larger side of it.
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
                let region = work.region(self)?;
                Ok(match self.wound_by_nesting(&work, &region)? {
                    Some(path) => path,
                    None => work.path_of(&region),
                })
            }
        }
    }

    /// The subpaths turned so that each runs counter-clockwise if it lies in an even number of others, and clockwise if in an odd one; `None`
    /// if that does not fill the region, because they cross.
    fn wound_by_nesting(
        &self,
        work: &Work,
        region: &Region,
    ) -> Result<Option<BezPath>, RegionError> {
        let subpaths = subpaths(&self.path);
        if subpaths.len() > MOST_NESTED {
            return Ok(None);
        }
        let rings: Vec<Ring> = subpaths
            .iter()
            .map(|path| polygon(path, work.tolerance()))
            .collect();
        let mut path = BezPath::new();
        for (place, subpath) in subpaths.iter().enumerate() {
            let Some(&start) = rings[place].first() else {
                continue;
            };
            let around = rings
                .iter()
                .enumerate()
                .filter(|&(other, ring)| other != place && winding(ring, start) != 0);
            let is_hole = around.count() % 2 == 1;
            let is_clockwise = signed_area(&rings[place]) < 0.0;
            path.extend(if is_hole == is_clockwise {
                subpath.clone()
            } else {
                subpath.reverse_subpaths()
            });
        }
        let turned = Outline {
            path,
            rule: FillRule::NonZero,
        };
        let off = symmetric_difference(&work.region(&turned)?, region).area();
        // Chords of a curve that runs the other way lie elsewhere, by no more than their tolerance.
        let length: f64 = region
            .rings()
            .map(|ring| {
                ring.windows(2)
                    .map(|pair| pair[0].distance(pair[1]))
                    .sum::<f64>()
            })
            .sum();
        Ok((off <= 2.0 * FLATTENING_MM * (1.0 + length)).then_some(turned.path))
    }
}

/// More subpaths than this are not compared each with each.
const MOST_NESTED: usize = 300;

/// Each subpath by itself.
pub(crate) fn subpaths(path: &BezPath) -> Vec<BezPath> {
    let mut found: Vec<BezPath> = Vec::new();
    for &element in path.elements() {
        match (element, found.last_mut()) {
            (PathEl::MoveTo(_), _) | (_, None) => found.push(BezPath::from_vec(vec![element])),
            (_, Some(last)) => last.push(element),
        }
    }
    found.retain(|path| path.elements().len() > 1);
    found
}

fn polygon(path: &BezPath, tolerance: f64) -> Ring {
    let mut ring = Ring::new();
    kurbo::flatten(path.iter(), tolerance, |element| {
        ring.extend(element.end_point());
    });
    ring
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
