//! The geometry kernel against the libraries that do the same.

use std::hint::black_box;

use boostvoronoi::prelude::{Builder, SourceCategory};
use cavalier_contours::polyline::{PlineSourceMut, Polyline};
use cavalier_contours::shape_algorithms::{Shape, ShapeOffsetOptions};
use clipper2::{EndType, FillRule, JoinType, Path, Paths, PointScaler};
use geometry::diagram::Diagram;
use geometry::region::Ring;

use crate::Row;
use crate::clock::{least_of_both, shown, spent};
use crate::inputs::{Lettered, plank, sorts, whole_segments};

/// Radii of the four cutters, mm.
const RADII_MM: [f64; 4] = [3.0, 1.5, 0.75, 0.4];
/// First curve of a family, and the step to each next one, mm.
const FAMILY_MM: [f64; 2] = [3.0, 2.4];
/// Curves of a family.
const LEVELS: usize = 9;
/// Step between contour passes, in radii.
const PASS_STEP: f64 = 0.8;
/// Passes end here at the latest.
const MOST_PASSES: usize = 200;
/// Runs of the rows that take too long for criterion's ten samples.
const LONG_RUNS: usize = 3;

/// Clipper2 on integers of 0.1 µm.
#[derive(Clone, Copy, Debug, Default, Hash, PartialEq)]
pub struct Grid;

impl PointScaler for Grid {
    const MULTIPLIER: f64 = 1e4;
}

fn built(of: &Lettered) -> Diagram {
    Diagram::build(&of.letter, &of.room).expect("the letter lies in its room")
}

/// Added to all coordinates for the library: its quick tests are relative to them, and pass more often away from 0.
const SHIFT: i32 = 1 << 21;

/// The diagram of all segments, centre lines with clearance on both sides of the wall; the library's with the clearance of
/// each of its vertices.
pub fn medial_axis() -> Row {
    let plank = plank();
    let segments: Vec<Vec<[i32; 4]>> = plank
        .iter()
        .map(|of| whole_segments(&of.ground(), SHIFT))
        .collect();
    let count: usize = segments.iter().map(Vec::len).sum();
    let [project, library] = least_of_both(
        "medial axis with clearance, 65 sorts",
        &mut || {
            for of in &plank {
                let diagram = built(of);
                black_box((diagram.ground_axis(), diagram.letter_axis()));
            }
        },
        &mut || {
            segments.iter().for_each(|lines| {
                black_box(clearances(lines));
            })
        },
    );
    println!("{count} segments");
    Row {
        what: "medial axis with clearance, 65-sort plank",
        against: "the Rust port of Boost.Polygon's diagram".to_owned(),
        project: shown(project),
        other: shown(library),
        ratio: project.as_secs_f64() / library.as_secs_f64(),
        goal: "1, then 0.5",
    }
}

/// The library's diagram, and the clearance of every vertex by the site of a cell that it bounds.
fn clearances(lines: &[[i32; 4]]) -> Vec<f64> {
    let diagram = Builder::<i32>::default()
        .with_segments(lines.iter())
        .and_then(Builder::build)
        .expect("the library takes plain segments");
    let vertices = diagram.vertices();
    let mut clearances = vec![0.0; vertices.len()];
    for edge in diagram.edges() {
        let (Some(vertex), Ok(cell)) = (edge.vertex0(), edge.cell()) else {
            continue;
        };
        let cell = &diagram.cells()[cell.usize()];
        let (source, category) = cell.source_index_2();
        let [ax, ay, bx, by] = lines[source.usize()].map(f64::from);
        let at = &vertices[vertex.usize()];
        let (x, y) = (at.x() - ax, at.y() - ay);
        let (dx, dy) = (bx - ax, by - ay);
        clearances[vertex.usize()] = match category {
            SourceCategory::Segment => (dx * y - dy * x).abs() / dx.hypot(dy),
            SourceCategory::SegmentStart | SourceCategory::SinglePoint => x.hypot(y),
            SourceCategory::SegmentEnd => (x - dx).hypot(y - dy),
        };
    }
    clearances
}

/// Nine parallel curves, the diagram included; the library's each from the walls. Each from the one before would be quicker
/// for it, but on some of these letters it does not come to an end.
pub fn family() -> Row {
    let plank = plank();
    let shapes: Vec<Shape<f64>> = plank.iter().map(|of| shape(&of.ground())).collect();
    let levels = |level: usize| FAMILY_MM[0] + FAMILY_MM[1] * level as f64;
    let (mut ours, mut theirs) = (0.0, 0.0);
    let [project, library] = least_of_both(
        "nine-level offset family, 65 sorts",
        &mut || {
            ours = 0.0;
            for of in &plank {
                let diagram = built(of);
                for level in 0..LEVELS {
                    let loops = diagram.offset(levels(level));
                    ours += loops
                        .iter()
                        .map(|found| found.pieces.len() as f64)
                        .sum::<f64>();
                    black_box(loops);
                }
            }
        },
        &mut || {
            theirs = 0.0;
            let options = ShapeOffsetOptions::new();
            for shape in &shapes {
                for level in 0..LEVELS {
                    let found = black_box(shape.parallel_offset(levels(level), &options));
                    theirs += (found.ccw_plines.len() + found.cw_plines.len()) as f64;
                }
            }
        },
    );
    println!("{ours} pieces here; {theirs} curves of the library");
    Row {
        what: "nine-level offset family, diagram included",
        against: "cavalier_contours, each level from the walls".to_owned(),
        project: shown(project),
        other: shown(library),
        ratio: project.as_secs_f64() / library.as_secs_f64(),
        goal: "1, then 0.5",
    }
}

fn shape(ground: &[Ring]) -> Shape<f64> {
    Shape::from_plines(ground.iter().map(|ring| {
        let mut polyline = Polyline::new_closed();
        ring.iter().for_each(|at| polyline.add(at.x, at.y, 0.0));
        polyline
    }))
}

fn paths(ground: &[Ring]) -> Paths<Grid> {
    let of_ring = |ring: &Ring| -> Path<Grid> {
        Path::from(ring.iter().map(|at| (at.x, at.y)).collect::<Vec<_>>())
    };
    Paths::new(ground.iter().map(of_ring).collect())
}

fn inflated(paths: &Paths<Grid>, by: f64) -> Paths<Grid> {
    paths.inflate(by, JoinType::Round, EndType::Polygon, 2.0)
}

/// Ground that each of four cutters reaches, and what it leaves.
pub fn reach() -> Row {
    let sorts = sorts();
    let grounds: Vec<Paths<Grid>> = sorts.iter().map(|of| paths(&of.ground())).collect();
    let [project, library] = least_of_both(
        "reach of four cutters, 240 sorts",
        &mut || {
            for of in &sorts {
                let diagram = built(of);
                for radius in RADII_MM {
                    black_box(diagram.reach(radius));
                }
            }
        },
        &mut || {
            for ground in &grounds {
                for radius in RADII_MM {
                    let opened = inflated(&inflated(ground, -radius), radius);
                    let left = ground
                        .to_clipper_subject()
                        .add_clip(opened)
                        .difference(FillRule::NonZero);
                    black_box(left.expect("the library takes plain rings"));
                }
            }
        },
    );
    Row {
        what: "reach of four cutters (erode, dilate, rest), 240 sorts",
        against: "Clipper2".to_owned(),
        project: shown(project),
        other: shown(library),
        ratio: project.as_secs_f64() / library.as_secs_f64(),
        goal: "0.6",
    }
}

/// Reach, all contour passes of all cutters, centre lines and corners; the library makes the passes alone.
pub fn passes() -> Row {
    let sorts = sorts();
    let grounds: Vec<Paths<Grid>> = sorts.iter().map(|of| paths(&of.ground())).collect();
    let distances =
        |radius: f64| (0..MOST_PASSES).map(move |pass| radius * (1.0 + PASS_STEP * pass as f64));
    let mut best = [std::time::Duration::MAX; 2];
    for _ in 0..LONG_RUNS {
        let project = spent(|| {
            for of in &sorts {
                let diagram = built(of);
                for radius in RADII_MM {
                    black_box(diagram.reach(radius));
                    for distance in distances(radius) {
                        let loops = diagram.offset(distance);
                        if loops.is_empty() {
                            break;
                        }
                        black_box(loops);
                    }
                }
                black_box((
                    diagram.ground_axis(),
                    diagram.letter_axis(),
                    diagram.corners(0.2),
                ));
            }
        });
        let library = spent(|| {
            for ground in &grounds {
                for radius in RADII_MM {
                    for distance in distances(radius) {
                        let pass = inflated(ground, -distance);
                        if pass.is_empty() {
                            break;
                        }
                        black_box(pass);
                    }
                }
            }
        });
        best = [best[0].min(project), best[1].min(library)];
    }
    let [project, library] = best;
    Row {
        what: "the same with all contour passes, centre lines and corners",
        against: "Clipper2 making the passes alone".to_owned(),
        project: shown(project),
        other: shown(library),
        ratio: project.as_secs_f64() / library.as_secs_f64(),
        goal: "0.12",
    }
}
