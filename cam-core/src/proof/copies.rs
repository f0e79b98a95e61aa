//! The letters and blocks that the job file orders, laid on their planks.

use std::collections::BTreeMap;

use geometry::distance::WallIndex;
use geometry::region::{Region, region_from_outline};
use kurbo::{Affine, BezPath, Point, Rect, Vec2};
use rayon::prelude::*;
use said::Said;

use super::raster::{self, Ground, Wanted};
use super::report;
use crate::finding::{Finding, Subject, texts};
use crate::job_file::{JobCutter, JobCutterKind, JobFile, JobSort};
use crate::progress::{Progress, Stopped};

/// How far chords may lie from the drawn curves, mm: a twentieth of the usual tolerance.
const FLATTENING_MM: f64 = 0.0005;

/// Lengths that differ by less than this are one when copies of a sort are told apart, mm.
const SAME_MM: f64 = 1e-5;

/// A drawn letter, in millimetres, mirrored, with the shift of its copy taken off.
pub struct Shape {
    /// The letter.
    pub letter: Region,
    /// Its edge.
    pub walls: WallIndex,
}

/// One copy of a sort.
pub struct Copy<'a> {
    /// Its entry in the job file.
    pub sort: &'a JobSort,
    /// Index of the plank.
    pub plank: usize,
    /// Index into [`Stock::shapes`]; `None` for a plain block.
    pub shape: Option<usize>,
    /// Index into [`Stock::grounds`].
    pub ground: usize,
    /// What was taken off: a place on the plank less this is a place in the shape's and the ground's own space.
    pub shift: Vec2,
    /// The block's outline on the plank.
    pub block: Vec<Point>,
    /// The bounding box of the block grown by the lane: the room in which cutters may work for it.
    pub room: Rect,
}

/// Everything ordered. Copies that are alike share their shape and ground.
pub struct Stock<'a> {
    /// Distinct letters.
    pub shapes: Vec<Shape>,
    /// Distinct grounds: what must be cleared, and which places of the wall must be cut.
    pub grounds: Vec<Ground>,
    /// The copies, in the order of the job file; those that make no sense are left out and are in `faults`.
    pub copies: Vec<Copy<'a>>,
    /// What makes no sense in the job file.
    pub faults: Vec<Finding>,
}

/// A sort's shape: font, glyph and the transform without its shift, by its bits.
type ShapeKey<'a> = (SourceKey<'a>, [u64; 4]);

/// A glyph of a font, or a colour layer of it, or a drawing.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum SourceKey<'a> {
    Glyph(&'a str, u16, Option<&'a str>),
    Art(&'a str),
}

/// A sort's ground: shape, block in the shape's space in steps of [`SAME_MM`], relief by its bits.
type GroundKey = (Option<usize>, Vec<(i64, i64)>, u64);

/// A ground still to be worked out.
struct GroundPlan {
    shape: Option<usize>,
    block: Vec<Point>,
    relief: f64,
}

/// Works out shapes, grounds and copies. `cutters` are those that clear ground anywhere in the job.
pub fn lay<'a>(
    job: &'a JobFile,
    cutters: &[&JobCutter],
    progress: &Progress,
) -> Result<Stock<'a>, Stopped> {
    let mut plans: BTreeMap<ShapeKey, (usize, BezPath)> = BTreeMap::new();
    let mut grounds: BTreeMap<GroundKey, usize> = BTreeMap::new();
    let mut ground_plans = Vec::new();
    let mut copies = Vec::new();
    let mut faults = Vec::new();
    for sort in &job.sorts {
        match place(job, sort, &mut plans) {
            Ok((plank, shape, shift, block)) => {
                let own_block: Vec<Point> = block.iter().map(|&corner| corner - shift).collect();
                let key = (
                    shape,
                    own_block.iter().map(|&corner| steps(corner)).collect(),
                    sort.relief_mm.to_bits(),
                );
                let ground = *grounds.entry(key).or_insert_with(|| {
                    ground_plans.push(GroundPlan {
                        shape,
                        block: own_block,
                        relief: sort.relief_mm,
                    });
                    ground_plans.len() - 1
                });
                let room = bounds(&block).inflate(job.lane_mm, job.lane_mm);
                copies.push(Copy {
                    sort,
                    plank,
                    shape,
                    ground,
                    shift,
                    block,
                    room,
                });
            }
            Err(text) => faults.push(report::stop(
                Subject::Sort(sort.id.clone()),
                "job-sort-unclear",
                text,
                texts::sort_unclear_remedy(),
            )),
        }
    }
    let shapes = shapes(plans, progress)?;
    let flat: Vec<&JobCutter> = cutters
        .iter()
        .copied()
        .filter(|cutter| cutter.kind == JobCutterKind::Flat)
        .collect();
    progress.extend(ground_plans.len());
    let grounds = ground_plans
        .par_iter()
        .map(|plan| {
            progress.check()?;
            let shape = plan.shape.map(|index| &shapes[index]);
            let ground = raster::ground(
                shape,
                &plan.block,
                &Wanted::new(plan.relief, job.relief),
                job.lane_mm,
                &flat,
                &raster::following(cutters, plan.relief),
            );
            progress.advance();
            Ok(ground)
        })
        .collect::<Result<Vec<Ground>, Stopped>>()?;
    Ok(Stock {
        shapes,
        grounds,
        copies,
        faults,
    })
}

/// Where a sort lies and what shape it has; the shape is entered among the plans.
fn place<'a>(
    job: &'a JobFile,
    sort: &'a JobSort,
    plans: &mut BTreeMap<ShapeKey<'a>, (usize, BezPath)>,
) -> Result<(usize, Option<usize>, Vec2, Vec<Point>), Said> {
    let id = &sort.id;
    let plank = job
        .planks
        .iter()
        .position(|plank| plank.id == sort.plank)
        .ok_or_else(|| texts::sort_on_no_plank(id, &sort.plank))?;
    let block: Vec<Point> = sort
        .block_mm
        .iter()
        .map(|&[x, y]| Point::new(x, y))
        .collect();
    if block.len() < 3 || !block.iter().all(|corner| corner.is_finite()) {
        return Err(texts::sort_without_outline(id));
    }
    if !(sort.relief_mm.is_finite() && sort.relief_mm > 0.0) {
        return Err(texts::sort_without_floor(id));
    }
    let source = match (&sort.font, sort.glyph, &sort.art) {
        (Some(font), Some(glyph), None) => SourceKey::Glyph(font, glyph, sort.layer.as_deref()),
        (None, None, Some(art)) => SourceKey::Art(art),
        (None, None, None) if sort.source_to_plank.is_none() => {
            return Ok((plank, None, bounds(&block).origin().to_vec2(), block));
        }
        _ => return Err(texts::sort_of_nothing(id)),
    };
    let Some(coefficients) = sort.source_to_plank else {
        return Err(texts::sort_without_place(id));
    };
    let affine = Affine::new(coefficients);
    if !affine.is_finite() || affine.determinant() >= 0.0 {
        return Err(texts::sort_not_mirrored(id));
    }
    let [a, b, c, d, e, f] = coefficients;
    let key = (source, [a, b, c, d].map(f64::to_bits));
    let next = plans.len();
    let index = match plans.get(&key) {
        Some((index, _)) => *index,
        None => {
            let data = path_data(job, id, source)?;
            let path = BezPath::from_svg(data)
                .map_err(|why| texts::sort_unreadable(id, why.to_string()))?;
            plans.insert(key, (next, Affine::new([a, b, c, d, 0.0, 0.0]) * path));
            next
        }
    };
    Ok((plank, Some(index), Vec2::new(e, f), block))
}

/// The outline of what a sort is cut from, as path data.
fn path_data<'a>(job: &'a JobFile, sort: &str, source: SourceKey) -> Result<&'a str, Said> {
    match source {
        SourceKey::Glyph(font, glyph, layer) => job
            .outlines
            .iter()
            .filter(|outline| outline.font == font && outline.glyph == glyph)
            .find(|outline| outline.layer.as_deref() == layer)
            .map(|outline| outline.path.as_str())
            .ok_or_else(|| texts::sort_without_glyph(sort, glyph, font)),
        SourceKey::Art(id) => job
            .art
            .iter()
            .find(|art| art.id == id && !art.path.is_empty())
            .map(|art| art.path.as_str())
            .ok_or_else(|| texts::sort_without_drawing(sort, id)),
    }
}

/// Letters from outlines, in the order of their numbers.
fn shapes(
    plans: BTreeMap<ShapeKey, (usize, BezPath)>,
    progress: &Progress,
) -> Result<Vec<Shape>, Stopped> {
    let mut paths: Vec<(usize, BezPath)> = plans.into_values().collect();
    paths.sort_by_key(|(index, _)| *index);
    paths
        .par_iter()
        .map(|(_, path)| {
            progress.check()?;
            // An outline too broken to be a region is an empty letter: then everything must be cleared, and programs that
            // spare the letter are refused.
            let letter = region_from_outline(path, FLATTENING_MM).unwrap_or_default();
            let walls = WallIndex::new(letter.rings());
            Ok(Shape { letter, walls })
        })
        .collect()
}

/// A place in steps of [`SAME_MM`].
fn steps(place: Point) -> (i64, i64) {
    (
        (place.x / SAME_MM).round() as i64,
        (place.y / SAME_MM).round() as i64,
    )
}

/// The bounding box of a polygon; `Rect::ZERO` of none.
pub fn bounds(polygon: &[Point]) -> Rect {
    let Some(&first) = polygon.first() else {
        return Rect::ZERO;
    };
    polygon
        .iter()
        .fold(Rect::from_points(first, first), |found, &corner| {
            found.union_pt(corner)
        })
}
