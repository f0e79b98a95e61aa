//! What each cutter of the commission reaches on each sort: ground, corners, narrow ground, thin strokes.

use kurbo::Point;

use geometry::boolean::{intersection, union_all};
use geometry::diagram::{Diagram, DiagramError};
use geometry::reach::{Corner, Reach};
use geometry::region::{Region, Ring};

use crate::commission::{Commission, Cutting};
use crate::cone::Cone;
use crate::finding::Finding;
use crate::measure::Length;
use crate::sort::{Block, FLATTENING_MM, Sort};
use crate::workshop::{Cutter, CutterShape, Workshop};

mod narrow;
mod report;

/// What a cutter leaves no deeper than this along a wall, mm, is not reported: half the usual tolerance of a wall, and well
/// above what flattening leaves.
const LEAST_LEFT_MM: f64 = 0.005;

/// The survey of one sort.
#[derive(Clone, Debug, Default)]
pub struct Survey {
    /// One entry per cutter of the commission, from the largest to the smallest.
    pub cutters: Vec<CutterSurvey>,
    /// The background inside the block that no cutter reaches.
    pub unreached: Region,
    /// Area of that.
    pub unreached_mm2: f64,
    /// Every corner of the background that stays rounder than the tolerance with the whole set.
    pub corners: Vec<CornerReport>,
    /// Strokes thinner than the limit: the place, and the thickness there.
    pub thin_strokes: Vec<(Point, f64)>,
    /// Background narrower than the smallest cutter: the place, and the width there.
    pub narrow_ground: Vec<(Point, f64)>,
}

/// What one cutter reaches on a sort.
#[derive(Clone, Debug, Default)]
pub struct CutterSurvey {
    /// The cutter, by id.
    pub cutter: String,
    /// Background inside the block that it reaches.
    pub reached: Region,
    /// Area of that.
    pub reached_mm2: f64,
    /// Background inside the block that it leaves.
    pub left: Region,
    /// Area of that.
    pub left_mm2: f64,
    /// Corners of the background that it leaves rounder than the tolerance.
    pub corners: Vec<CornerReport>,
}

/// A corner of the background, in face space.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CornerReport {
    /// The drawn corner.
    pub at: Point,
    /// The angle of the background there, degrees.
    pub angle_deg: f64,
    /// From the drawn corner to the nearest wood that was reached, mm.
    pub gap_mm: f64,
    /// The diameter of the largest cutter that would satisfy the tolerance, mm.
    pub wanted_diameter_mm: f64,
}

/// Why a sort could not be surveyed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SurveyError {
    /// The ground around the letter could not be mapped.
    #[error("Sort {sort}: {fault}")]
    Ground {
        /// The sort's name.
        sort: String,
        /// What stood in the way.
        fault: DiagramError,
    },
    /// The lane between blocks is no width.
    #[error("The lane between blocks is {0} mm wide; give it a width above 0.")]
    Lane(f64),
}

/// The ground around a sort's face, in face space: the block grown by the lane on every side, less the letter.
///
/// Beyond the lane stands the next block, where the cutter must not go.
///
/// # Errors
/// Where the face comes to the far side of the lane, the lane has no width, or the ground cannot be mapped.
pub fn ground(sort: &Sort, lane: Length) -> Result<Diagram, SurveyError> {
    let lane = lane.in_mm();
    if !(lane > 0.0 && lane.is_finite()) {
        return Err(SurveyError::Lane(lane));
    }
    Diagram::build(&sort.face, &room(&sort.block, lane)).map_err(|fault| SurveyError::Ground {
        sort: sort.name.clone(),
        fault,
    })
}

/// The block's outline grown by the lane: everything within the lane's width of it, across and along.
fn room(block: &Block, lane: f64) -> Ring {
    let outline = &block.outline;
    let after = outline.iter().cycle().skip(1);
    let mut parts = vec![Region::from_ring(outline)];
    parts.extend(outline.iter().zip(after).map(|(&from, &to)| {
        let edge = kurbo::Rect::from_points(from, to).inflate(lane, lane);
        Region::from_ring(&[
            Point::new(edge.x0, edge.y0),
            Point::new(edge.x1, edge.y0),
            Point::new(edge.x1, edge.y1),
            Point::new(edge.x0, edge.y1),
        ])
    }));
    let grown = union_all(&parts);
    grown
        .pieces
        .into_iter()
        .next()
        .map(|piece| piece.outer)
        .unwrap_or_default()
}

/// Surveys a sort: what each flat or conical cutter of the commission reaches at the face inside the block and what it leaves, what no cutter reaches,
/// the corners that stay rounder than the commission's tolerance, and strokes and ground that are too thin or too narrow.
///
/// `ground` is the sort's own, from [`ground`]. Cutters that the workshop does not have are left out with a finding of severity
/// stop; cutters with a round end are left out. A cone reaches at the face what a disc as wide as its tip does, if it is wide
/// enough at its full depth for what the cutter before it leaves; else it is left out too. Where a cutter fits a place exactly it counts as reaching it, within what
/// flattening the curves may have moved a wall. Ground left no deeper than 0.005 mm along a wall is not counted. With no flat
/// cutter at all, nothing is reached.
pub fn survey(
    sort: &Sort,
    ground: &Diagram,
    commission: &Commission,
    workshop: &Workshop,
) -> (Survey, Vec<Finding>) {
    let mut findings = Vec::new();
    let flat = flat_cutters(commission, workshop, &mut findings);
    let cutting = &commission.cutting;
    let cutters = reaching(&flat, commission, workshop);
    let block = Region::from_ring(&sort.block.outline);
    let corners = ground.corners(cutting.corner_tolerance.in_mm());
    let mut survey = Survey::default();
    let mut narrow = narrow::Narrow::default();
    for cutter in &cutters {
        let radius = cutter.asked_for();
        let reach = ground.reach(radius);
        let made = surveyed(cutter, &reach, &corners, &block, cutting);
        survey.unreached = made.left.clone();
        survey.unreached_mm2 = made.left_mm2;
        survey.corners = made.corners.clone();
        survey.cutters.push(made);
        narrow = narrow::Narrow::of(ground, &reach, radius, &block);
    }
    if cutters.is_empty() {
        let all = geometry::boolean::difference(&block, ground.letter());
        survey.unreached_mm2 = all.area();
        survey.unreached = all;
    }
    survey.narrow_ground = narrow.places;
    survey.thin_strokes = narrow::thin_strokes(ground, cutting.least_stroke.in_mm());
    findings.extend(report::findings(sort, &survey, &cutters, &flat, cutting));
    (survey, findings)
}

/// A cutter with the radius of the disc that it reaches with at the face.
struct Reaching<'a> {
    cutter: &'a Cutter,
    radius: f64,
}

impl Reaching<'_> {
    /// The radius with which its reach is asked for: ground drawn exactly as wide as the cutter counts as reached.
    fn asked_for(&self) -> f64 {
        (self.radius - FLATTENING_MM).max(FLATTENING_MM)
    }
}

/// The flat cutters, and after them the conical ones that can follow what is left, from the bluntest tip to the finest.
fn reaching<'a>(
    flat: &[&'a Cutter],
    commission: &Commission,
    workshop: &'a Workshop,
) -> Vec<Reaching<'a>> {
    let mut found: Vec<Reaching> = flat
        .iter()
        .map(|&cutter| Reaching {
            cutter,
            radius: cutter.radius_mm(),
        })
        .collect();
    for (cutter, cone) in Cone::of_commission(commission, workshop) {
        let before = found.last().map_or(0.0, |last| last.radius);
        if cone.follows(before) {
            found.push(Reaching {
                cutter,
                radius: cone.tip_radius,
            });
        }
    }
    found
}

/// The commission's flat cutters, from the largest to the smallest.
fn flat_cutters<'a>(
    commission: &Commission,
    workshop: &'a Workshop,
    findings: &mut Vec<Finding>,
) -> Vec<&'a Cutter> {
    let mut cutters = Vec::new();
    for id in &commission.cutting.cutters {
        let Some(cutter) = workshop.cutter(id) else {
            findings.push(report::unknown_cutter(id));
            continue;
        };
        match cutter.shape {
            CutterShape::Flat => cutters.push(cutter),
            CutterShape::Ball | CutterShape::Conical { .. } => {}
        }
    }
    cutters.sort_by(|one, other| {
        let by_size = other.radius_mm().total_cmp(&one.radius_mm());
        by_size.then_with(|| one.id.cmp(&other.id))
    });
    cutters
}

fn surveyed(
    by: &Reaching,
    reach: &Reach,
    corners: &[Corner],
    block: &Region,
    cutting: &Cutting,
) -> CutterSurvey {
    let reached = intersection(&reach.reached, block);
    let deep: Vec<Region> = reach
        .left
        .iter()
        .filter(|left| left.depth > LEAST_LEFT_MM)
        .map(|left| left.region.clone())
        .collect();
    let left = intersection(&union_all(&deep), block);
    CutterSurvey {
        cutter: by.cutter.id.clone(),
        reached_mm2: reached.area(),
        reached,
        left_mm2: left.area(),
        left,
        corners: rounder_corners(by, reach, corners, cutting),
    }
}

/// The corners that a cutter comes to, but not within the tolerance. Where it does not come at all, ground is left instead.
fn rounder_corners(
    by: &Reaching,
    reach: &Reach,
    corners: &[Corner],
    cutting: &Cutting,
) -> Vec<CornerReport> {
    corners
        .iter()
        .filter(|corner| corner.largest_radius < by.radius)
        .filter_map(|corner| {
            let gap_mm = reach.gap(corner.at, by.asked_for())?;
            (gap_mm > cutting.corner_tolerance.in_mm()).then(|| CornerReport {
                at: corner.at,
                angle_deg: corner.angle.to_degrees(),
                gap_mm,
                wanted_diameter_mm: 2.0 * corner.largest_radius,
            })
        })
        .collect()
}

#[cfg(test)]
mod tests;
