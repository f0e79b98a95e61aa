//! Filled areas bounded by polygons: outer rings with counters.

use i_overlay::core::overlay_rule::OverlayRule;
use kurbo::{BezPath, PathEl, Point, Rect};
use lyon_geom::{CubicBezierSegment, QuadraticBezierSegment};

use crate::boolean::{Contours, FillRule};
use crate::cells::edges;
use crate::grid::{STEPS_PER_MM, snapped_ring};

/// The step of the grid that all points of regions made here lie on, in millimetres.
///
/// A tenth of a micrometre: a hundredth of the finest tolerance asked of a wall, and coarse enough for the diagram's exact
/// whole-number arithmetic.
pub const GRID: f64 = 1e-4;

/// The widest outline taken, in millimetres: wider than any block.
pub const WIDEST: f64 = 400.0;

/// The most points that an outline may have once its curves are made polygons.
pub const MOST_POINTS: usize = 200_000;

/// The coarsest and finest flattening taken, in millimetres; the finest is the grid's own step.
pub const TOLERANCES: [f64; 2] = [GRID, 1.0];

/// Rings that enclose less than this, in square millimetres, are dropped from outlines: a square of ten micrometres a side,
/// far smaller than any cutter, and in drawings only ever left over where curves overlap by accident.
pub const LEAST_AREA: f64 = 1e-4;

/// A closed polygon; the last point is not a repeat of the first.
pub type Ring = Vec<Point>;

/// One connected area: an outer ring and the counters cut from it.
///
/// The outer ring runs counter-clockwise, counters clockwise.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The outer boundary, counter-clockwise.
    pub outer: Ring,
    /// The holes, clockwise.
    pub counters: Vec<Ring>,
}

/// A filled area: disjoint pieces.
///
/// Guarantees kept by every function that makes one: rings have at least three points, do not cross themselves or one
/// another, may touch at single points only, and are wound as [`Piece`] says.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Region {
    /// The connected areas, in an order that depends on the input alone.
    pub pieces: Vec<Piece>,
}

/// Why an outline could not be made a region.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum RegionError {
    /// A coordinate is not a number, or is infinite.
    #[error("The outline has a point whose place is not a number.")]
    NotFinite,
    /// It is larger than any block.
    #[error(
        "The outline measures {0:.0} mm across; the most that can be worked is {WIDEST} mm. Check the size asked for."
    )]
    TooWide(f64),
    /// It has too many points.
    #[error(
        "The outline needs more than {MOST_POINTS} points; simplify the drawing, or allow a coarser tolerance."
    )]
    TooManyPoints,
    /// The tolerance is not within [`TOLERANCES`].
    #[error("Curves cannot be flattened within {0} mm; ask for 0.0001 mm to 1 mm.")]
    Tolerance(f64),
}

/// The region that an outline fills under the nonzero rule, its curves made polygons.
///
/// `outline` and `tolerance` are in millimetres. Open subpaths are closed. Chords lie within `tolerance` of the curves; points
/// are then rounded to [`GRID`]. Overlaps are merged whatever the winding of the drawing. Rings smaller than [`LEAST_AREA`]
/// are dropped. An outline without area gives the empty region.
///
/// # Errors
/// For coordinates that are not numbers, outlines wider than [`WIDEST`] or with more points than [`MOST_POINTS`], and
/// tolerances outside [`TOLERANCES`].
pub fn region_from_outline(outline: &BezPath, tolerance: f64) -> Result<Region, RegionError> {
    filled(outline, tolerance, FillRule::NonZero)
}

/// As [`region_from_outline`], but filled under the even-odd rule: what an odd number of subpaths enclose.
///
/// # Errors
/// As [`region_from_outline`].
pub fn region_from_even_odd(outline: &BezPath, tolerance: f64) -> Result<Region, RegionError> {
    filled(outline, tolerance, FillRule::EvenOdd)
}

fn filled(outline: &BezPath, tolerance: f64, rule: FillRule) -> Result<Region, RegionError> {
    if !(TOLERANCES[0]..=TOLERANCES[1]).contains(&tolerance) {
        return Err(RegionError::Tolerance(tolerance));
    }
    check_extent(outline)?;
    let rings = flattened(outline, tolerance)?;
    let mut contours = Contours::new(rings.iter().map(Vec::len).sum());
    for ring in &rings {
        contours.add(&snapped_ring(ring));
    }
    let mut region = contours.resolve(OverlayRule::Subject, rule);
    region.drop_smaller_than(LEAST_AREA);
    Ok(region)
}

fn check_extent(outline: &BezPath) -> Result<(), RegionError> {
    let mut extent: Option<Rect> = None;
    for &element in outline.elements() {
        let points: &[Point] = match &element {
            PathEl::MoveTo(a) | PathEl::LineTo(a) => &[*a],
            PathEl::QuadTo(a, b) => &[*a, *b],
            PathEl::CurveTo(a, b, c) => &[*a, *b, *c],
            PathEl::ClosePath => &[],
        };
        for &point in points {
            if !point.is_finite() {
                return Err(RegionError::NotFinite);
            }
            extent = Some(extent.map_or(Rect::from_points(point, point), |found| {
                found.union_pt(point)
            }));
        }
    }
    let Some(extent) = extent else { return Ok(()) };
    let across = extent.width().max(extent.height());
    if across > WIDEST {
        return Err(RegionError::TooWide(across));
    }
    // Beyond this the grid's whole numbers would no longer be exact; no block lies there either.
    let furthest = [extent.x0, extent.x1, extent.y0, extent.y1]
        .into_iter()
        .fold(0.0, |far: f64, value| far.max(value.abs()));
    if furthest > FURTHEST_MM {
        return Err(RegionError::TooWide(furthest));
    }
    Ok(())
}

/// How far from the origin an outline may lie, in millimetres.
const FURTHEST_MM: f64 = 10_000.0;

/// The subpaths as polygons within `tolerance`, by the library `lyon_geom`.
fn flattened(outline: &BezPath, tolerance: f64) -> Result<Vec<Ring>, RegionError> {
    let lyon = |point: Point| lyon_geom::point(point.x, point.y);
    let mut rings: Vec<Ring> = Vec::new();
    let mut ring: Ring = Vec::new();
    let mut at = Point::ZERO;
    let mut start = Point::ZERO;
    let mut count = 0_usize;
    for &element in outline.elements() {
        let before = ring.len();
        match element {
            PathEl::MoveTo(to) => {
                rings.push(std::mem::replace(&mut ring, vec![to]));
                start = to;
                at = to;
            }
            PathEl::LineTo(to) => {
                ring.push(to);
                at = to;
            }
            PathEl::QuadTo(control, to) => {
                let curve = QuadraticBezierSegment {
                    from: lyon(at),
                    ctrl: lyon(control),
                    to: lyon(to),
                };
                curve.for_each_flattened(tolerance, &mut |line| {
                    ring.push(Point::new(line.to.x, line.to.y));
                });
                at = to;
            }
            PathEl::CurveTo(control1, control2, to) => {
                let curve = CubicBezierSegment {
                    from: lyon(at),
                    ctrl1: lyon(control1),
                    ctrl2: lyon(control2),
                    to: lyon(to),
                };
                curve.for_each_flattened(tolerance, &mut |line| {
                    ring.push(Point::new(line.to.x, line.to.y));
                });
                at = to;
            }
            PathEl::ClosePath => {
                rings.push(std::mem::replace(&mut ring, vec![start]));
                at = start;
            }
        }
        count += ring.len().saturating_sub(before);
        if count > MOST_POINTS {
            return Err(RegionError::TooManyPoints);
        }
    }
    rings.push(ring);
    rings.retain(|ring| ring.len() > 2);
    Ok(rings)
}

impl Region {
    /// All rings, each outer ring followed by its counters.
    pub fn rings(&self) -> impl Iterator<Item = &Ring> {
        self.pieces
            .iter()
            .flat_map(|piece| std::iter::once(&piece.outer).chain(&piece.counters))
    }

    /// The bounding box, or `None` of an empty region.
    pub fn bounding_box(&self) -> Option<Rect> {
        let mut points = self.pieces.iter().flat_map(|piece| &piece.outer);
        let first = *points.next()?;
        Some(
            points.fold(Rect::from_points(first, first), |found, &point| {
                found.union_pt(point)
            }),
        )
    }

    /// Whether there is nothing in it.
    pub fn is_empty(&self) -> bool {
        self.pieces.is_empty()
    }

    /// The area, in square millimetres.
    pub fn area(&self) -> f64 {
        self.rings().map(|ring| signed_area(ring)).sum()
    }

    /// The length of all edges, in millimetres.
    pub fn perimeter(&self) -> f64 {
        self.rings()
            .flat_map(|ring| edges(ring))
            .map(|(from, to)| from.distance(to))
            .sum()
    }

    /// Whether a place lies in it; on the very edge either answer may come.
    pub fn contains(&self, place: Point) -> bool {
        self.rings().map(|ring| winding(ring, place)).sum::<i32>() != 0
    }

    /// The region of one polygon, whichever way it is wound; rounded to [`GRID`], crossings resolved by the nonzero rule.
    pub fn from_ring(ring: &[Point]) -> Region {
        let mut contours = Contours::new(ring.len());
        contours.add(&snapped_ring(ring));
        contours.resolve(OverlayRule::Subject, FillRule::NonZero)
    }

    /// Drops pieces and counters of less than `area`, in square millimetres.
    pub fn drop_smaller_than(&mut self, area: f64) {
        self.pieces.retain_mut(|piece| {
            piece
                .counters
                .retain(|counter| signed_area(counter).abs() >= area);
            signed_area(&piece.outer) >= area
        });
    }
}

/// The area inside a ring, positive where it runs counter-clockwise (half the sum of cross products: textbook).
pub fn signed_area(ring: &[Point]) -> f64 {
    // Taken from the first point, so that little is lost far from the origin.
    let Some(&base) = ring.first() else {
        return 0.0;
    };
    ring.windows(2)
        .map(|pair| (pair[0] - base).cross(pair[1] - base))
        .sum::<f64>()
        / 2.0
}

/// How often a ring winds about a place, counter-clockwise, by crossings of a level line (textbook).
pub fn winding(ring: &[Point], place: Point) -> i32 {
    let mut turns = 0;
    let Some(&last) = ring.last() else { return 0 };
    let mut from = last;
    for &to in ring {
        if (from.y <= place.y) != (to.y <= place.y) {
            let side = (to - from).cross(place - from);
            if from.y <= place.y && side > 0.0 {
                turns += 1;
            } else if from.y > place.y && side < 0.0 {
                turns -= 1;
            }
        }
        from = to;
    }
    turns
}

/// Millimetres to whole grid steps and back, for callers that must lie on the grid.
pub fn on_grid(place: Point) -> Point {
    Point::new(
        (place.x * STEPS_PER_MM).round() / STEPS_PER_MM,
        (place.y * STEPS_PER_MM).round() / STEPS_PER_MM,
    )
}

#[cfg(test)]
mod tests;
