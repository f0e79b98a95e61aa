//! Lines and cubics through a followed line, within a tolerance.

use kurbo::{BezPath, CubicBez, ParamCurve, ParamCurveDeriv, PathEl, Point, Vec2};

use super::corners::{Corner, STEP, Sampled, corners};
use super::refine::{Ahead, refine};

/// A span is straight if no sample lies further from its chord than this part of the tolerance: what is left is for the corners at its ends. Found by
/// trial on scans of drawn letters, as what follows here.
const STRAIGHT: f64 = 0.8;
/// Straight spans shorter than this do not move the corners at their ends, in dots: those are told better by the fit of the blurred outline.
const LEADING: f64 = 26.0;
/// Samples on either side from which the heading at a place is taken: two dots and a half.
const HEADING: usize = 5;
/// How often the samples' places along a curve are bettered before it is halved.
const MOST_BETTERED: usize = 6;
/// Curves that miss by more than this many times the tolerance are halved at once.
const HOPELESS: f64 = 6.0;

/// A loop as fitted curves, in dots.
#[derive(Clone, Debug)]
pub(super) struct Fitted {
    pub path: BezPath,
    pub corners: Vec<Point>,
    /// The straight pieces between corners.
    pub lines: Vec<(Point, Point)>,
    /// The furthest that a curve lies from a sample that no blur has moved.
    pub furthest: f64,
}

/// What lies between two corners.
struct Span {
    /// Samples that the blur near corners has not moved.
    inner: Vec<Point>,
    is_straight: bool,
}

/// Fits a closed line of a scan.
pub(super) fn closed(line: &Sampled, tolerance: f64) -> Fitted {
    let mut corners = corners(line);
    if corners.is_empty() {
        return smooth(line, tolerance);
    }
    refine(line, &mut corners);
    let spans: Vec<Span> = (0..corners.len())
        .map(|place| span(line, &corners, place, tolerance))
        .collect();
    meet_straight(&mut corners, &spans);
    let mut fitted = Fitted {
        path: BezPath::new(),
        corners: corners.iter().map(|corner| corner.at).collect(),
        lines: Vec::new(),
        furthest: 0.0,
    };
    fitted.path.push(PathEl::MoveTo(corners[0].at));
    for (place, span) in spans.iter().enumerate() {
        let (from, to) = (corners[place].at, corners[(place + 1) % corners.len()].at);
        let off = furthest_from_chord(from, to, &span.inner);
        if let Some(Ahead::Whole(curve)) = corners[place].ahead {
            short(curve, &mut fitted);
        } else if span.is_straight && off <= tolerance {
            fitted.path.push(PathEl::LineTo(to));
            fitted.lines.push((from, to));
            fitted.furthest = fitted.furthest.max(off);
        } else {
            let mut points = vec![from];
            points.extend(&span.inner);
            points.push(to);
            let next = &corners[(place + 1) % corners.len()];
            let ahead = match corners[place].ahead {
                Some(Ahead::Heading(heading)) => heading,
                Some(Ahead::Whole(_)) | None => heading_at(&points, 0),
            };
            let back = next
                .back
                .unwrap_or_else(|| heading_at(&points, points.len() - 1));
            let headings = [ahead, back];
            cubics(&points, headings, tolerance, &mut fitted);
        }
    }
    fitted.path.push(PathEl::ClosePath);
    fitted
}

/// Adds a short piece between corners as it was fitted with them; a line where that does as well.
fn short(curve: CubicBez, fitted: &mut Fitted) {
    /// Curves this near to their chord, in dots, are lines: a scan tells no less. Common practice, no source.
    const FLAT: f64 = 0.1;
    if furthest_from_chord(curve.p0, curve.p3, &[curve.p1, curve.p2]) <= FLAT {
        fitted.path.push(PathEl::LineTo(curve.p3));
        fitted.lines.push((curve.p0, curve.p3));
    } else {
        fitted
            .path
            .push(PathEl::CurveTo(curve.p1, curve.p2, curve.p3));
    }
}

/// The span from one corner to the next.
fn span(line: &Sampled, corners: &[Corner], place: usize, tolerance: f64) -> Span {
    let (from, to) = (corners[place], corners[(place + 1) % corners.len()]);
    let count = line.points.len();
    let length = match (to.sample + count - from.sample) % count {
        0 => count,
        steps => steps,
    };
    let room = length.saturating_sub(1) / 2;
    let (first, last) = (from.rounded.min(room), length - to.rounded.min(room));
    let inner: Vec<Point> = (first..=last)
        .map(|steps| line.at((from.sample + steps) as i64))
        .collect();
    let is_straight = match line_through(&inner) {
        Some((_, _, off)) => off <= tolerance * STRAIGHT,
        None => true,
    };
    Span { inner, is_straight }
}

/// Moves corners between two straight spans to where the lines through all their samples meet.
fn meet_straight(corners: &mut [Corner], spans: &[Span]) {
    /// Lines that meet at less than this, in radians, do not tell where: what a line is off moves the meeting by four times as much.
    const LEAST_ANGLE: f64 = 0.25;
    let leads: Vec<Option<(Point, Vec2, f64)>> = spans
        .iter()
        .map(|span| {
            let is_leading = span.is_straight && span.inner.len() as f64 * STEP >= LEADING;
            if is_leading {
                line_through(&span.inner)
            } else {
                None
            }
        })
        .collect();
    for place in 0..corners.len() {
        let before = leads[(place + corners.len() - 1) % corners.len()];
        let (Some((a, along_a, _)), Some((b, along_b, _))) = (before, leads[place]) else {
            continue;
        };
        let sine = along_a.cross(along_b);
        if sine.abs() < LEAST_ANGLE.sin() {
            continue;
        }
        let meeting = a + along_a * ((b - a).cross(along_b) / sine);
        if meeting.distance(corners[place].at) <= corners[place].slack {
            corners[place].at = meeting;
        }
    }
}

/// The straight line with the least squares through points, its heading, and the furthest that a point lies from it; `None` of fewer than two
/// places. By distances square to the line, along the larger axis of the points' moments: textbook.
fn line_through(points: &[Point]) -> Option<(Point, Vec2, f64)> {
    if points.len() < 2 {
        return None;
    }
    let count = points.len() as f64;
    let mean = points.iter().map(|point| point.to_vec2()).sum::<Vec2>() / count;
    let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
    for point in points {
        let off = point.to_vec2() - mean;
        xx += off.x * off.x;
        xy += off.x * off.y;
        yy += off.y * off.y;
    }
    let heading = Vec2::from_angle(0.5 * (2.0 * xy).atan2(xx - yy));
    let ends = points[points.len() - 1] - points[0];
    let heading = if heading.dot(ends) < 0.0 {
        -heading
    } else {
        heading
    };
    let furthest = points
        .iter()
        .map(|point| (point.to_vec2() - mean).cross(heading).abs())
        .fold(0.0, f64::max);
    Some((mean.to_point(), heading, furthest))
}

fn furthest_from_chord(from: Point, to: Point, points: &[Point]) -> f64 {
    let chord = to - from;
    let length = chord.hypot();
    points
        .iter()
        .map(|&point| {
            if length > 0.0 {
                chord.cross(point - from).abs() / length
            } else {
                point.distance(from)
            }
        })
        .fold(0.0, f64::max)
}

/// A closed line without corners.
fn smooth(line: &Sampled, tolerance: f64) -> Fitted {
    let mut points = line.points.clone();
    points.push(line.points[0]);
    let last = line.points.len() as i64;
    let reach = (HEADING as i64).min(last / 8).max(1);
    let heading = unit(line.at(reach) - line.at(-reach));
    let mut fitted = Fitted {
        path: BezPath::new(),
        corners: Vec::new(),
        lines: Vec::new(),
        furthest: 0.0,
    };
    fitted.path.push(PathEl::MoveTo(points[0]));
    // Halved at once: one cubic that ends where it begins fits nothing.
    let half = points.len() / 2;
    let middle = heading_through(&points, half);
    cubics(&points[..=half], [heading, -middle], tolerance, &mut fitted);
    cubics(&points[half..], [middle, -heading], tolerance, &mut fitted);
    fitted.path.push(PathEl::ClosePath);
    fitted
}

/// The direction of a vector; none of one without length.
fn unit(vector: Vec2) -> Vec2 {
    let length = vector.hypot();
    if length > 0.0 {
        vector / length
    } else {
        Vec2::ZERO
    }
}

/// The heading at one end of a run of points, into it.
fn heading_at(points: &[Point], end: usize) -> Vec2 {
    let near = |steps: usize| {
        if end == 0 {
            points[steps.min(points.len() - 1)]
        } else {
            points[(points.len() - 1).saturating_sub(steps)]
        }
    };
    let (here, one, two) = (near(0), near(HEADING), near(2 * HEADING));
    let (d1, d2) = (one.distance(here), two.distance(here));
    if d1 <= 0.0 || d2 <= d1 {
        return unit(one - here);
    }
    // A parabola through three places, so that a bend does not turn the heading.
    let heading = ((one - here) * (d2 / d1) - (two - here) * (d1 / d2)) / (d2 - d1);
    unit(heading)
}

/// The heading at a place within a run of points.
fn heading_through(points: &[Point], place: usize) -> Vec2 {
    let reach = HEADING.min(place).min(points.len() - 1 - place);
    unit(points[place + reach] - points[place - reach])
}

/// Adds cubics through a run of points with these headings into it from either end.
///
/// # Source
/// P. J. Schneider, "An algorithm for automatically fitting digitized curves", in *Graphics Gems*, 1990; from memory, our own code.
fn cubics(points: &[Point], headings: [Vec2; 2], tolerance: f64, fitted: &mut Fitted) {
    // Runs still to be fitted, the next one last; each halving makes two shorter ones, so this ends.
    let mut runs = vec![(0, points.len() - 1, headings)];
    while let Some((first, last, headings)) = runs.pop() {
        let run = &points[first..=last];
        let (cubic, off, worst) = one_cubic(run, headings, tolerance);
        let is_good = off <= tolerance;
        if !is_good && run.len() <= 3 {
            // So short that lines from point to point serve.
            fitted
                .path
                .extend(run[1..].iter().map(|&point| PathEl::LineTo(point)));
            continue;
        }
        if is_good {
            fitted
                .path
                .push(PathEl::CurveTo(cubic.p1, cubic.p2, cubic.p3));
            fitted.furthest = fitted.furthest.max(off);
            continue;
        }
        let split = first + worst.clamp(1, run.len() - 2);
        let heading = heading_through(points, split);
        runs.push((split, last, [heading, headings[1]]));
        runs.push((first, split, [headings[0], -heading]));
    }
}

/// One cubic through a run, how far it misses at most, and at which point.
fn one_cubic(run: &[Point], headings: [Vec2; 2], tolerance: f64) -> (CubicBez, f64, usize) {
    let mut places = by_length(run);
    let mut best = best_cubic(run, &places, headings);
    let (mut off, mut worst) = miss(run, &places, &best);
    for _ in 0..MOST_BETTERED {
        if off <= tolerance || off > HOPELESS * tolerance {
            break;
        }
        better(run, &mut places, &best);
        let next = best_cubic(run, &places, headings);
        let (next_off, next_worst) = miss(run, &places, &next);
        if next_off >= off {
            break;
        }
        (best, off, worst) = (next, next_off, next_worst);
    }
    (best, off, worst)
}

/// Places along the run as parts of its length.
fn by_length(run: &[Point]) -> Vec<f64> {
    let mut passed = 0.0;
    let mut places = vec![0.0];
    for pair in run.windows(2) {
        passed += pair[0].distance(pair[1]);
        places.push(passed);
    }
    if passed > 0.0 {
        for place in &mut places {
            *place /= passed;
        }
    }
    places
}

/// The cubic with the least squares among those with these ends and headings, as the source of [`cubics`] has it.
fn best_cubic(run: &[Point], places: &[f64], headings: [Vec2; 2]) -> CubicBez {
    let (start, end) = (run[0], run[run.len() - 1]);
    let (mut a00, mut a01, mut a11, mut b0, mut b1) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for (&point, &t) in run.iter().zip(places) {
        let s = 1.0 - t;
        let (w0, w1, w2, w3) = (s * s * s, 3.0 * s * s * t, 3.0 * s * t * t, t * t * t);
        let (one, two) = (headings[0] * w1, headings[1] * w2);
        a00 += one.dot(one);
        a01 += one.dot(two);
        a11 += two.dot(two);
        let rest = point.to_vec2() - start.to_vec2() * (w0 + w1) - end.to_vec2() * (w2 + w3);
        b0 += rest.dot(one);
        b1 += rest.dot(two);
    }
    let determinant = a00 * a11 - a01 * a01;
    let chord = start.distance(end);
    let (mut one, mut two) = (0.0, 0.0);
    if determinant.abs() > 1e-12 {
        one = (b0 * a11 - b1 * a01) / determinant;
        two = (b1 * a00 - b0 * a01) / determinant;
    }
    // Handles that point back or vanish make loops and cusps; a third of the chord is always harmless.
    let least = 1e-3 * chord;
    if !(one > least && two > least && one.is_finite() && two.is_finite()) {
        (one, two) = (chord / 3.0, chord / 3.0);
    }
    CubicBez::new(
        start,
        start + headings[0] * one,
        end + headings[1] * two,
        end,
    )
}

/// How far the cubic misses the points at their places, and where most.
fn miss(run: &[Point], places: &[f64], cubic: &CubicBez) -> (f64, usize) {
    let mut worst = (0.0, run.len() / 2);
    for (number, (&point, &t)) in run.iter().zip(places).enumerate() {
        let off = cubic.eval(t).distance(point);
        if off > worst.0 {
            worst = (off, number);
        }
    }
    worst
}

/// Moves the places by one step of Newton's toward the nearest of the cubic, as the source of [`cubics`] has it.
fn better(run: &[Point], places: &mut [f64], cubic: &CubicBez) {
    let slope = cubic.deriv();
    let bend = slope.deriv();
    for (&point, t) in run.iter().zip(places) {
        let off = cubic.eval(*t) - point;
        let (d1, d2) = (slope.eval(*t).to_vec2(), bend.eval(*t).to_vec2());
        let steepness = d1.dot(d1) + off.dot(d2);
        if steepness.abs() > 1e-12 {
            *t = (*t - off.dot(d1) / steepness).clamp(0.0, 1.0);
        }
    }
}
