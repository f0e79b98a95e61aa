//! The simulated cut of a plank against a second geometry library, over two of its blocks.
//!
//! # Source
//! Crate `clipper2-rust`, the Rust port of the Clipper2 library: discs swept along open lines, and their unions. The lines come from
//! the programs' text by the parser of the crate `gcode`, arcs as chords. At several heights a cell of the map is lower just where
//! the library's area covers its middle; where the two differ, the middle lies on the area's edge, within the accuracy of both.

use cam_core::job_file::JobFile;
use cam_core::make::{JOB_FILE, make};
use cam_core::progress::Progress;
use cam_core::proof::{HeightMap, height_map};
use geometry::cells::edges;
use kurbo::{Line, ParamCurveNearest, Point, Rect, Vec2};
use sortwright::files::open::open_commission;
use testkit::referee::{ARC_TOLERANCE_MM, Area};
use testkit::repository::top;
use testkit::told::{PLACE_MM, Told, told};

/// Side of a cell, in millimetres.
const CELL_MM: f64 = 0.1;

/// How far chords may lie from the arcs, in millimetres.
const CHORD_MM: f64 = 0.0002;

/// How far two right answers may lie apart along an edge, in millimetres: chords of both, the parser's single precision.
const EDGE_MM: f64 = CHORD_MM + ARC_TOLERANCE_MM + 2.0 * PLACE_MM;

/// Heights below the face at which the plank is looked at, in millimetres: between layers.
const HEIGHTS_MM: [f64; 3] = [-0.71, -1.43, -2.93];

/// Lines that the library sweeps at a time: its time grows with the square of their crossings.
const AT_A_TIME: usize = 16;

/// Places along each of several motions, with their heights.
type Courses = Vec<Vec<(Point, f64)>>;

/// The places along a motion, with their heights; `None` for one that stays above the face.
fn course(told: &Told) -> Option<Vec<(Point, f64)>> {
    if told.from[2].min(told.to[2]) >= 0.0 {
        return None;
    }
    let (start, end) = (told.start(), told.end());
    let Some(centre) = told.centre else {
        return Some(vec![(start, told.from[2]), (end, told.to[2])]);
    };
    let arm = start - centre;
    let other = end - centre;
    let turned = arm.cross(other).atan2(arm.dot(other));
    let turned = if told.code == 3 { turned } else { -turned };
    // Coming back to where it starts is a whole turn.
    let sweep = turned.rem_euclid(std::f64::consts::TAU);
    let sweep = if start.distance(end) < PLACE_MM {
        std::f64::consts::TAU
    } else {
        sweep
    };
    let parts = (sweep * (arm.hypot() / (8.0 * CHORD_MM)).sqrt())
        .ceil()
        .max(1.0) as u32;
    let signed = if told.code == 3 { sweep } else { -sweep };
    Some(
        (0..=parts)
            .map(|part| {
                let share = f64::from(part) / f64::from(parts);
                let (sin, cos) = (signed * share).sin_cos();
                let turned = Vec2::new(arm.x * cos - arm.y * sin, arm.x * sin + arm.y * cos);
                let height = told.from[2] + (told.to[2] - told.from[2]) * share;
                (centre + turned, height)
            })
            .collect(),
    )
}

/// The parts of courses below a height, as lines.
fn below(courses: &[Vec<(Point, f64)>], height: f64) -> Vec<Vec<Point>> {
    let mut lines = Vec::new();
    for course in courses {
        let mut line: Vec<Point> = Vec::new();
        for pair in course.windows(2) {
            let [(a, from), (b, to)] = [pair[0], pair[1]];
            let at = |part: f64| a.lerp(b, part);
            let meets = (height - from) / (to - from);
            let (start, end) = match (from < height, to < height) {
                (true, true) => (a, b),
                (true, false) => (a, at(meets)),
                (false, true) => (at(meets), b),
                (false, false) => continue,
            };
            if line.last() != Some(&start) {
                if line.len() > 1 {
                    lines.push(std::mem::take(&mut line));
                }
                line = vec![start];
            }
            line.push(end);
        }
        if line.len() > 1 {
            lines.push(line);
        }
    }
    lines
}

#[test]
fn the_map_of_a_demonstration_is_what_a_second_library_sweeps() {
    let path = top().join("demo-projects/ferry-notice/commission.json");
    let opened = open_commission(&path, None).unwrap_or_else(|error| panic!("{error}"));
    let made = make(
        &opened.commission,
        &opened.workshop,
        &opened.fonts,
        &Progress::new(),
    )
    .unwrap_or_else(|error| panic!("{error}"));
    let paper = made
        .papers
        .iter()
        .find(|paper| paper.path == JOB_FILE)
        .expect("every make writes a job file");
    let job = JobFile::from_json(&String::from_utf8_lossy(&paper.bytes)).expect("it reads back");
    let plank = &job.planks[0];
    let texts = made
        .programs
        .iter()
        .map(|program| (program.file.clone(), program.text.clone()))
        .collect();
    let map = height_map(&job, &texts, &plank.id, CELL_MM, &Progress::new())
        .unwrap_or_else(|error| panic!("{error}"));
    let courses: Vec<(f64, Courses)> = job
        .programs
        .iter()
        .filter(|program| program.plank == plank.id)
        .map(|program| {
            let cutter = job.cutter(&program.cutter).expect("the job names it");
            let (motions, _) = told(&texts[&program.file]);
            let courses = motions.iter().filter_map(course).collect();
            (cutter.diameter_mm / 2.0, courses)
        })
        .collect();
    assert!(courses.len() >= 4);
    let mut looked_at = 0;
    for sort in &job.sorts {
        if !["S-1", "R-1"].contains(&sort.id.as_str()) {
            continue;
        }
        let corners: Vec<Point> = sort
            .block_mm
            .iter()
            .map(|&[x, y]| Point::new(x, y))
            .collect();
        let block = Rect::from_points(corners[0], corners[2]);
        for height in HEIGHTS_MM {
            compare(&map, &courses, block, height);
            looked_at += 1;
        }
    }
    assert_eq!(looked_at, 2 * HEIGHTS_MM.len());
}

/// Holds the cells of a block against what is swept there below a height.
fn compare(map: &HeightMap, courses: &[(f64, Courses)], block: Rect, height: f64) {
    let mut area = Area::default();
    for (radius, courses) in courses {
        let room = block.inflate(*radius, *radius);
        let near: Courses = courses
            .iter()
            .filter(|course| crosses(course, room))
            .cloned()
            .collect();
        for lines in below(&near, height).chunks(AT_A_TIME) {
            area = area.joined(&Area::swept(lines.iter().map(Vec::as_slice), *radius));
        }
    }
    let rings = area.rings();
    let mut covered = vec![false; map.grid.count()];
    map.grid
        .mark_inside(rings.iter().flat_map(|ring| edges(ring)), &mut covered);
    let own = |cell: &usize| f64::from(map.heights[*cell]) < height;
    let inside = |cell: &usize| block.contains(map.grid.centre(*cell));
    assert!(
        (0..map.grid.count()).filter(inside).any(|cell| own(&cell)),
        "{height}: nothing is cut so deep"
    );
    for cell in (0..map.grid.count()).filter(inside) {
        if own(&cell) != covered[cell] {
            let centre = map.grid.centre(cell);
            let off = distance_to_edges(&rings, centre);
            assert!(
                off <= EDGE_MM,
                "{height}: the cell at {centre:?} differs, {off:.4} mm from the library's edge"
            );
        }
    }
}

/// How far a place lies from the nearest edge of some rings, in millimetres.
fn distance_to_edges(rings: &[Vec<Point>], place: Point) -> f64 {
    let edges = rings.iter().flat_map(|ring| edges(ring));
    let distances = edges.map(|(a, b)| Line::new(a, b).nearest(place, 1e-9).distance_sq);
    distances.fold(f64::INFINITY, f64::min).sqrt()
}

/// Whether the box of a course meets another.
fn crosses(course: &[(Point, f64)], room: Rect) -> bool {
    let first = Rect::from_points(course[0].0, course[0].0);
    let of = course
        .iter()
        .fold(first, |found, (at, _)| found.union_pt(*at));
    of.x0 < room.x1 && room.x0 < of.x1 && of.y0 < room.y1 && room.y0 < of.y1
}
