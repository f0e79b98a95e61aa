//! Drawings made truly symmetric.
//!
//! The axis is where the ink and its mirror image agree best. Both halves are averaged before anything is followed, so neither of them rules, and what
//! is fitted on the one side is then mirrored to the other, point by point.

use kurbo::{
    Affine, BezPath, CubicBez, ParamCurve, ParamCurveExtrema, PathEl, PathSeg, Point, Vec2,
};

use super::field::Field;
use super::fit::{Fitted, closed};
use super::{InDots, ScanError, Watch, contour, stop_point, without_spots};

/// How far the axis may lean, in degrees, and how far from the middle of the ink it may lie, in parts of its width. Common practice, no source,
/// as the others below.
const MOST_LEAN_DEG: f64 = 8.0;
const MOST_SHIFT: f64 = 0.08;
/// Dots that are compared while the axis is looked for: first roughly, then in earnest.
const ROUGH_DOTS: usize = 2_000;
const FINE_DOTS: usize = 20_000;
/// More than this part of the ink without a counterpart is no symmetric drawing.
const MOST_UNLIKE: f64 = 0.15;
/// A corner this near to the axis lies on it, in dots.
const ON_AXIS: f64 = 1.0;
/// What is left of a segment at the axis and is smaller than this is a stub, in dots: less than a curve may miss the ink by.
const STUB: f64 = 0.3;
/// A curve that crosses the axis within this angle of square to it crosses it smoothly, in radians.
const SQUARE: f64 = 0.3;

/// A line through a place.
#[derive(Clone, Copy, Debug)]
struct Axis {
    through: Point,
    along: Vec2,
}

impl Axis {
    /// Takes places by their distance to the right of the axis and along it to dots.
    fn dots_from_axis(&self) -> Affine {
        let across = -super::to_left(self.along);
        Affine::new([
            across.x,
            across.y,
            self.along.x,
            self.along.y,
            self.through.x,
            self.through.y,
        ])
    }

    fn mirrored(&self, place: Point) -> Point {
        let off = place - self.through;
        self.through + self.along * (2.0 * off.dot(self.along)) - off
    }
}

/// Traces a drawing with its halves made alike.
///
/// # Errors
/// Nothing is printed, the halves differ too much, or the work was stopped.
pub(super) fn symmetric(
    ink: &Field,
    is_level: bool,
    least: f64,
    tolerance: f64,
    watch: &dyn Watch,
) -> Result<InDots, ScanError> {
    watch.begin("Finding the axis", 0);
    let dots = inked(ink);
    let (axis, unlike) = find(ink, &dots, is_level, watch)?;
    if unlike > MOST_UNLIKE {
        return Err(ScanError::NotSymmetric(unlike * 100.0));
    }
    let (alike, axis_column) = averaged(ink, &axis, &dots);
    stop_point(watch)?;
    let (loops, spots) = without_spots(contour::loops(&alike, watch)?, least)?;
    watch.begin("Fitting curves", loops.len());
    let dots_from_axis = axis.dots_from_axis();
    let to_axis = Vec2::new(-axis_column, -(alike.height as f64) / 2.0);
    let mut fitted = Vec::new();
    for line in super::corners::sampled(&loops, &alike) {
        stop_point(watch)?;
        watch.advance();
        for half in mirrored(closed(&line.moved(to_axis), tolerance)) {
            fitted.push(half.placed(dots_from_axis));
        }
    }
    let upright = if is_level {
        Vec2::new(-1.0, 0.0)
    } else {
        Vec2::new(0.0, 1.0)
    };
    Ok(InDots {
        fitted,
        spots,
        notes: vec![format!(
            "The halves were made mirror images; {:.1} % of the ink had no counterpart.",
            unlike * 100.0
        )],
        turn: Some(super::corners::angle(axis.along, upright)),
    })
}

/// Middles of dots that are more ink than paper.
fn inked(ink: &Field) -> Vec<Point> {
    let mut dots = Vec::new();
    for y in 0..ink.height {
        for x in 0..ink.width {
            if ink.values[y * ink.width + x] >= 0.5 {
                dots.push(Point::new(x as f64 + 0.5, y as f64 + 0.5));
            }
        }
    }
    dots
}

/// Every n-th, so that about `most` are left.
fn thinned(dots: &[Point], most: usize) -> Vec<Point> {
    dots.iter()
        .step_by(dots.len().div_ceil(most).max(1))
        .copied()
        .collect()
}

/// The axis about which the ink is most like its mirror image, and what part of the ink is not.
fn find(
    ink: &Field,
    dots: &[Point],
    is_level: bool,
    watch: &dyn Watch,
) -> Result<(Axis, f64), ScanError> {
    if dots.is_empty() {
        return Err(ScanError::Nothing);
    }
    let count = dots.len() as f64;
    let middle = (dots.iter().map(|dot| dot.to_vec2()).sum::<Vec2>() / count).to_point();
    let upright = if is_level {
        Vec2::new(-1.0, 0.0)
    } else {
        Vec2::new(0.0, 1.0)
    };
    let axis = |[lean, shift]: [f64; 2]| {
        let along = Affine::rotate(lean) * upright.to_point();
        let along = along.to_vec2();
        Axis {
            through: middle - super::to_left(along) * shift,
            along,
        }
    };
    let unlike = |dots: &[Point], at: [f64; 2]| -> f64 {
        let axis = axis(at);
        let missing: f64 = dots
            .iter()
            .map(|&dot| {
                let there = axis.mirrored(dot);
                1.0 - f64::from(ink.between(there.x, there.y).clamp(0.0, 1.0))
            })
            .sum();
        missing / dots.len() as f64
    };
    let spread = dots
        .iter()
        .map(|dot| (*dot - middle).cross(upright).abs())
        .fold(1.0, f64::max);
    let (most_lean, most_shift) = (MOST_LEAN_DEG.to_radians(), spread * MOST_SHIFT);
    let rough = thinned(dots, ROUGH_DOTS);
    let mut best = ([0.0, 0.0], f64::INFINITY);
    const TRIES: i64 = 10;
    for lean in -TRIES..=TRIES {
        stop_point(watch)?;
        for shift in -TRIES..=TRIES {
            let at = [
                most_lean * lean as f64 / TRIES as f64,
                most_shift * shift as f64 / TRIES as f64,
            ];
            let found = unlike(&rough, at);
            if found < best.1 {
                best = (at, found);
            }
        }
    }
    let fine = thinned(dots, FINE_DOTS);
    best.1 = unlike(&fine, best.0);
    let mut steps = [most_lean / TRIES as f64, most_shift / TRIES as f64];
    /// Each round halves the steps: from half a degree to a thousandth.
    const ROUNDS: usize = 12;
    for _ in 0..ROUNDS {
        stop_point(watch)?;
        for (turn, shift) in [
            (1.0, 0.0),
            (-1.0, 0.0),
            (0.0, 1.0),
            (0.0, -1.0),
            (1.0, 1.0),
            (-1.0, -1.0),
            (1.0, -1.0),
            (-1.0, 1.0),
        ] {
            let at = [best.0[0] + turn * steps[0], best.0[1] + shift * steps[1]];
            let found = unlike(&fine, at);
            if found < best.1 {
                best = (at, found);
            }
        }
        steps = steps.map(|step| step / 2.0);
    }
    Ok((axis(best.0), best.1))
}

/// The ink averaged with its mirror image, on dots laid along the axis, and the place of the axis between its columns.
fn averaged(ink: &Field, axis: &Axis, dots: &[Point]) -> (Field, f64) {
    /// Bare paper around the ink, in dots.
    const AROUND: f64 = 6.0;
    let reach = |by: fn(Vec2, Vec2) -> f64| {
        dots.iter()
            .map(|&dot| by(dot - axis.through, axis.along).abs())
            .fold(0.0, f64::max)
            + AROUND
    };
    let half_width = reach(|off, along| off.cross(along)).ceil() as usize;
    let half_height = reach(|off, along| off.dot(along)).ceil() as usize;
    let dots_from_axis = axis.dots_from_axis();
    let (width, height) = (2 * half_width, 2 * half_height);
    let mut values = vec![0.0; width * height];
    for row in 0..height {
        let along = row as f64 + 0.5 - half_height as f64;
        for column in 0..half_width {
            let across = column as f64 + 0.5;
            let of = |across: f64| {
                let place = dots_from_axis * Point::new(across, along);
                ink.between(place.x, place.y)
            };
            let mean = (of(across) + of(-across)) / 2.0;
            values[row * width + half_width + column] = mean;
            values[row * width + half_width - 1 - column] = mean;
        }
    }
    let field = Field {
        width,
        height,
        values,
    };
    (field, half_width as f64)
}

impl Fitted {
    fn placed(mut self, place: Affine) -> Fitted {
        self.path = place * self.path;
        self.corners
            .iter_mut()
            .for_each(|corner| *corner = place * *corner);
        self.lines
            .iter_mut()
            .for_each(|line| *line = (place * line.0, place * line.1));
        self
    }
}

/// The left half of a fitted loop with its mirror image; nothing of a loop that lies to the right, which is the image of another.
fn mirrored(loop_: Fitted) -> Vec<Fitted> {
    let over = Affine::FLIP_X;
    let path = on_axis(&loop_);
    let segments: Vec<PathSeg> = path.segments().collect();
    let (runs, is_whole) = left_runs(&segments);
    let corners: Vec<Point> = loop_
        .corners
        .iter()
        .filter(|corner| corner.x < ON_AXIS)
        .map(|corner| {
            if corner.x > -ON_AXIS {
                Point::new(0.0, corner.y)
            } else {
                *corner
            }
        })
        .flat_map(|corner| [corner, over * corner])
        .collect();
    let with = |path: BezPath| Fitted {
        path,
        corners: Vec::new(),
        lines: loop_.lines.clone(),
        furthest: loop_.furthest,
    };
    let mut halves = Vec::new();
    for run in runs {
        if is_whole {
            let image = path_of(&run, true);
            halves.push(with(image.clone()));
            // A mirror image runs the other way round; turned about, ink stays on its left.
            halves.push(with((over * image).reverse_subpaths()));
        } else {
            let half = path_of(&run, false);
            let image = (over * half.clone()).reverse_subpaths();
            let mut whole = half;
            whole.extend(image.elements()[1..].iter().copied());
            whole.push(PathEl::ClosePath);
            halves.push(with(whole));
        }
    }
    if let Some(first) = halves.first_mut() {
        first.corners = corners;
    }
    halves
}

/// The path with corners near the axis put on it.
fn on_axis(fitted: &Fitted) -> BezPath {
    let snapped = |point: Point| {
        let is_corner = point.x.abs() < ON_AXIS
            && fitted
                .corners
                .iter()
                .any(|corner| corner.distance(point) < 1e-9);
        if is_corner {
            Point::new(0.0, point.y)
        } else {
            point
        }
    };
    fitted
        .path
        .elements()
        .iter()
        .map(|&element| match element {
            PathEl::MoveTo(to) => PathEl::MoveTo(snapped(to)),
            PathEl::LineTo(to) => PathEl::LineTo(snapped(to)),
            PathEl::QuadTo(a, to) => PathEl::QuadTo(a, snapped(to)),
            PathEl::CurveTo(a, b, to) => PathEl::CurveTo(a, b, snapped(to)),
            PathEl::ClosePath => PathEl::ClosePath,
        })
        .collect()
}

/// The runs of a closed path that lie left of the axis, cut where it crosses; or the whole path if it lies there whole.
fn left_runs(segments: &[PathSeg]) -> (Vec<Vec<PathSeg>>, bool) {
    let cut: Vec<PathSeg> = segments
        .iter()
        .flat_map(|&segment| cut_at_axis(segment))
        .collect();
    let is_left = |segment: &PathSeg| segment.eval(0.5).x < 0.0;
    let Some(first_right) = cut.iter().position(|segment| !is_left(segment)) else {
        return (vec![cut], true);
    };
    let mut runs: Vec<Vec<PathSeg>> = Vec::new();
    let mut run: Vec<PathSeg> = Vec::new();
    for step in 0..cut.len() {
        let segment = cut[(first_right + step) % cut.len()];
        if is_left(&segment) {
            run.push(segment);
        } else if !run.is_empty() {
            runs.push(std::mem::take(&mut run));
        }
    }
    if !run.is_empty() {
        runs.push(run);
    }
    let runs = runs.into_iter().map(without_stubs).map(squared).collect();
    (runs, false)
}

/// The run without what of a segment is left at its ends where the axis cuts hardly anything off: mirrored, it would be a barb.
fn without_stubs(mut run: Vec<PathSeg>) -> Vec<PathSeg> {
    let is_stub = |segment: Option<&PathSeg>| {
        segment.is_some_and(|segment| {
            let bounds = segment.bounding_box();
            bounds.width().max(bounds.height()) < STUB
        })
    };
    while run.len() > 1 && is_stub(run.first()) {
        run.remove(0);
    }
    while run.len() > 1 && is_stub(run.last()) {
        run.pop();
    }
    run
}

/// A segment in parts between its crossings of the axis, which then lie on it exactly.
fn cut_at_axis(segment: PathSeg) -> Vec<PathSeg> {
    const ENDS: f64 = 1e-6;
    let mut cuts: Vec<f64> = match segment {
        PathSeg::Line(line) => {
            let (a, b) = (line.p0.x, line.p1.x);
            if a != b {
                vec![a / (a - b)]
            } else {
                Vec::new()
            }
        }
        PathSeg::Quad(quad) => roots(quad.raise()),
        PathSeg::Cubic(cubic) => roots(cubic),
    };
    cuts.retain(|&t| t > ENDS && t < 1.0 - ENDS);
    cuts.sort_by(f64::total_cmp);
    let mut parts = Vec::new();
    let mut from = 0.0;
    for t in cuts.into_iter().chain([1.0]) {
        let mut part = segment.subsegment(from..t);
        if from > 0.0 {
            move_end(&mut part, true);
        }
        if t < 1.0 {
            move_end(&mut part, false);
        }
        parts.push(part);
        from = t;
    }
    parts
}

/// Where a cubic's x is 0, by the library `kurbo`.
fn roots(cubic: CubicBez) -> Vec<f64> {
    let (a, b, c, d) = (cubic.p0.x, cubic.p1.x, cubic.p2.x, cubic.p3.x);
    kurbo::common::solve_cubic(
        a,
        3.0 * (b - a),
        3.0 * (a - 2.0 * b + c),
        d - a + 3.0 * (b - c),
    )
    .to_vec()
}

fn move_end(segment: &mut PathSeg, is_start: bool) {
    let end = match (segment, is_start) {
        (PathSeg::Line(line), true) => &mut line.p0,
        (PathSeg::Line(line), false) => &mut line.p1,
        (PathSeg::Quad(quad), true) => &mut quad.p0,
        (PathSeg::Quad(quad), false) => &mut quad.p2,
        (PathSeg::Cubic(cubic), true) => &mut cubic.p0,
        (PathSeg::Cubic(cubic), false) => &mut cubic.p3,
    };
    end.x = 0.0;
}

/// The run with its ends on the axis, and square to it where it is nearly so: then both halves run into each other smoothly.
fn squared(mut run: Vec<PathSeg>) -> Vec<PathSeg> {
    let square = |end: Point, handle: &mut Point| {
        let off = *handle - end;
        if off.y.abs() < off.x.abs() * SQUARE.tan() {
            handle.y = end.y;
        }
    };
    if let Some(first) = run.first_mut() {
        move_end(first, true);
        if let PathSeg::Cubic(cubic) = first {
            square(cubic.p0, &mut cubic.p1);
        }
    }
    if let Some(last) = run.last_mut() {
        move_end(last, false);
        if let PathSeg::Cubic(cubic) = last {
            square(cubic.p3, &mut cubic.p2);
        }
    }
    run
}

fn path_of(run: &[PathSeg], is_closed: bool) -> BezPath {
    let mut path = BezPath::from_path_segments(run.iter().copied());
    if is_closed {
        path.push(PathEl::ClosePath);
    }
    path
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A segment that the axis cuts just before its end leaves no barb there; a larger piece stays.
    #[test]
    fn stubs_at_the_axis_are_dropped() {
        let line = |from: (f64, f64), to: (f64, f64)| {
            PathSeg::Line(kurbo::Line::new(Point::from(from), Point::from(to)))
        };
        for (over, pieces) in [(0.2, 2), (0.6, 3)] {
            let loop_ = [
                line((9.0, 0.0), (9.0, 20.0)),
                line((9.0, 20.0), (-over, 20.0 + over)),
                line((-over, 20.0 + over), (-9.0, 20.0)),
                line((-9.0, 20.0), (-9.0, 0.0)),
                line((-9.0, 0.0), (9.0, 0.0)),
            ];
            let (runs, is_whole) = left_runs(&loop_);
            assert!(!is_whole);
            assert_eq!(runs.len(), 1);
            assert_eq!(runs[0].len(), pieces + 1, "{:?}", runs[0]);
            let start = runs[0][0].start();
            assert_eq!(start.x, 0.0);
            assert!((start.y - 20.0).abs() <= 2.0 * over);
        }
    }
}
