//! Regions grown, shrunk and swept: what lies within a distance of one, what lies so far inside it, and what it passes over when moved.
//!
//! Growing and shrinking are read from the diagram of a letter in its room, so their edges are lines and arcs that are exact before they
//! are made polygons; chords lie within a stated tolerance.

use i_overlay::core::overlay_rule::OverlayRule;
use kurbo::{BezPath, Point, Rect, Vec2};

use crate::arc_path::{ArcPath, ArcStep, Turn, fit, sweep};
use crate::boolean::{Contours, FillRule, difference, intersection};
use crate::diagram::{Diagram, DiagramError};
use crate::grid::snapped_ring;
use crate::offset::{OffsetLoop, OffsetPiece};
use crate::region::{Region, Ring};

/// Room beside what is grown or shrunk, in millimetres, so that no wall stands in the way.
const AIR_MM: f64 = 1.0;

/// All that lies within `distance` of a region, in millimetres: the region itself for a distance of nothing or less.
///
/// Outer corners become round. Chords of arcs lie within `tolerance`, inside the exact edge.
///
/// # Errors
/// The region is too wide, or no sound diagram of it can be made.
pub fn grown(region: &Region, distance: f64, tolerance: f64) -> Result<Region, DiagramError> {
    let Some(bounds) = region.bounding_box().filter(|_| distance > 0.0) else {
        return Ok(region.clone());
    };
    // The ground beyond the distance ends at that distance from the room's edge too, which lies outside of `whole`.
    let room = bounds.inflate(3.0 * distance + AIR_MM, 3.0 * distance + AIR_MM);
    let whole = bounds.inflate(distance + AIR_MM / 2.0, distance + AIR_MM / 2.0);
    let beyond = beyond(region, room, distance, tolerance)?;
    Ok(difference(&rectangle(whole), &beyond))
}

/// All of a region that lies at least `distance` inside its edge, in millimetres: the region itself for a distance of nothing or less.
///
/// Inner corners become round. Chords of arcs lie within `tolerance`.
///
/// # Errors
/// As [`grown`].
pub fn shrunk(region: &Region, distance: f64, tolerance: f64) -> Result<Region, DiagramError> {
    let Some(bounds) = region.bounding_box().filter(|_| distance > 0.0) else {
        return Ok(region.clone());
    };
    // The region is the ground within a plate; so is the lane about the plate, which is taken off again.
    let plate = bounds.inflate(AIR_MM, AIR_MM);
    let walls = difference(&rectangle(plate), region);
    let beyond = beyond(&walls, plate.inflate(AIR_MM, AIR_MM), distance, tolerance)?;
    Ok(intersection(&beyond, region))
}

/// All that a region passes over when it is moved by `by`, both places included.
pub fn swept(region: &Region, by: Vec2) -> Region {
    let mut contours = Contours::new(0);
    for ring in region.rings() {
        contours.add(&snapped_ring(ring));
        let moved: Ring = ring.iter().map(|&point| point + by).collect();
        contours.add(&snapped_ring(&moved));
        for (&from, &to) in ring.iter().zip(ring.iter().cycle().skip(1)) {
            // Whichever way the edge runs, the band is wound as what is filled.
            let band = if (to - from).cross(by) > 0.0 {
                [from, to, to + by, from + by]
            } else {
                [from, from + by, to + by, to]
            };
            contours.add(&snapped_ring(&band));
        }
    }
    contours.resolve(OverlayRule::Subject, FillRule::NonZero)
}

/// A region moved.
pub fn moved(region: &Region, by: Vec2) -> Region {
    let mut region = region.clone();
    for piece in &mut region.pieces {
        for ring in std::iter::once(&mut piece.outer).chain(&mut piece.counters) {
            for point in ring {
                *point += by;
            }
        }
    }
    region
}

/// What is left of a region without the slivers that are nowhere wider than `width`, in millimetres; whatever is wider keeps its corners
/// of 40 degrees and more.
///
/// # Errors
/// As [`grown`].
pub fn without_slivers(
    region: &Region,
    width: f64,
    tolerance: f64,
) -> Result<Region, DiagramError> {
    /// In half widths: how far what is kept reaches from where the region is wider. A corner of 40 degrees reaches 2.9.
    const REACH: f64 = 3.0;
    let half = width / 2.0;
    let wide = shrunk(region, half, tolerance)?;
    let near = grown(&wide, half * REACH, tolerance)?;
    Ok(intersection(region, &near))
}

/// A region's edge as lines and arcs, none further than `tolerance` from it, drawn as curves.
pub fn drawn(region: &Region, tolerance: f64) -> BezPath {
    let mut path = BezPath::new();
    for ring in region.rings() {
        let after = ring.iter().cycle().skip(1);
        let pieces: Vec<OffsetPiece> = ring
            .iter()
            .zip(after)
            .enumerate()
            .map(|(index, (&from, &to))| OffsetPiece {
                from,
                to,
                site: crate::diagram::Site {
                    wall: crate::diagram::Wall::Letter,
                    ring: 0,
                    index: index as u32,
                    kind: crate::diagram::SiteKind::Segment,
                },
                centre: None,
            })
            .collect();
        add(&mut path, &fit(&pieces, tolerance));
    }
    path
}

/// Adds a closed path as curves: an arc is as many cubics as keep within a nanometre of it, by the library `kurbo`.
fn add(path: &mut BezPath, arcs: &ArcPath) {
    /// Accuracy of arcs as cubics, in millimetres: far below the grid.
    const ACCURACY_MM: f64 = 1e-6;
    path.move_to(arcs.start);
    for (from, step) in arcs.from_and_steps() {
        match *step {
            ArcStep::Line { to } => path.line_to(to),
            ArcStep::Arc { to, centre, turn } => {
                let arm = from - centre;
                let arc = kurbo::Arc {
                    center: centre,
                    radii: Vec2::new(arm.hypot(), arm.hypot()),
                    start_angle: arm.angle(),
                    sweep_angle: sweep(from, to, centre, turn) * turn.sign(),
                    x_rotation: 0.0,
                };
                let mut curves: Vec<[Point; 3]> = Vec::new();
                arc.to_cubic_beziers(ACCURACY_MM, |a, b, end| curves.push([a, b, end]));
                // The last curve ends where the step does, to the last digit.
                if let Some(last) = curves.last_mut() {
                    last[2] = to;
                }
                for [a, b, end] in curves {
                    path.curve_to(a, b, end);
                }
            }
        }
    }
    path.close_path();
}

fn rectangle(rect: Rect) -> Region {
    let Rect { x0, y0, x1, y1 } = rect;
    let corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(Point::from);
    Region::from_ring(&corners)
}

/// The ground in a room that lies further than `distance` from every wall.
fn beyond(
    letter: &Region,
    room: Rect,
    distance: f64,
    tolerance: f64,
) -> Result<Region, DiagramError> {
    let Rect { x0, y0, x1, y1 } = room;
    let room: Ring = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
        .map(Point::from)
        .to_vec();
    let diagram = Diagram::build(letter, &room)?;
    let mut contours = Contours::new(0);
    for found in diagram.offset(distance) {
        contours.add(&snapped_ring(&points_of(&found, tolerance)));
    }
    Ok(contours.resolve(OverlayRule::Subject, FillRule::NonZero))
}

/// Points along a parallel curve, its arcs as chords within `tolerance`.
fn points_of(found: &OffsetLoop, tolerance: f64) -> Ring {
    let Some(first) = found.pieces.first() else {
        return Ring::new();
    };
    let path = ArcPath {
        start: first.from,
        steps: found
            .pieces
            .iter()
            .map(|piece| match piece.centre {
                None => ArcStep::Line { to: piece.to },
                Some(centre) => ArcStep::Arc {
                    to: piece.to,
                    centre,
                    turn: Turn::Right,
                },
            })
            .collect(),
    };
    path.points(tolerance)
}

#[cfg(test)]
mod tests;
