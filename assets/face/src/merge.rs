//! Merging overlapping parts into one clean outline whose curves stay curves.
//!
//! The parts are flattened finely, merged by a polygon union, and every edge of the union is traced back to the line or
//! curve that it came from. Runs of edges become stretches of those curves again, and the places where two of them meet are
//! found exactly, on the curves and not on their chords.

use i_overlay::core::{
    fill_rule::FillRule,
    overlay::{ContourDirection, IntOverlayOptions, Overlay},
    overlay_rule::OverlayRule,
};
use i_overlay::i_float::int::point::IntPoint;
use kurbo::{BezPath, ParamCurve, ParamCurveDeriv, ParamCurveExtrema, PathSeg, Point, Vec2};

/// Grid steps per font unit in the union: fine enough that a crossing is known to a thousandth of a unit.
const STEPS_PER_UNIT: f64 = 1024.0;
/// Chords per curve in the union: a quarter circle of 700 units is then followed to about a third of a unit.
const CHORDS: usize = 32;
/// How far, in grid steps, an edge of the union may lie from the chord that it came from: the union rounds to its grid.
const NEAR: f64 = 6.0;
/// Stretches shorter than this, in font units, are leftovers of curves that nearly coincide; no part is drawn so short.
const SHORTEST: f64 = 7.0;
/// Newton steps to bring a meeting point from the chords onto the curves; it converges in three or four.
const NEWTON_STEPS: usize = 12;

type Contour = Vec<IntPoint<i32>>;

/// One chord of a flattened piece, with the stretch of the piece that it stands for.
struct Chord {
    piece: usize,
    from: f64,
    to: f64,
    start: IntPoint<i32>,
    end: IntPoint<i32>,
}

/// A stretch of one piece in the merged outline.
#[derive(Clone, Copy, Debug)]
struct Run {
    piece: usize,
    from: f64,
    to: f64,
}

/// The flattened parts: contours for the union, and where each chord came from.
#[derive(Default)]
struct Flattened {
    pieces: Vec<PathSeg>,
    chords: Vec<Chord>,
}

/// Merges `parts` by the nonzero rule and takes `cuts` away from them.
///
/// The outline that comes back has outer contours clockwise and counters counter-clockwise (y upward), whole-unit on-curve
/// points, a point at every extreme, and no overlaps.
pub fn merged(parts: &[BezPath], cuts: &[BezPath]) -> BezPath {
    combined(parts, cuts, OverlayRule::Difference)
}

/// The ground that `parts` and `within` have in common, as clean as [`merged`] makes it.
pub fn common(parts: &[BezPath], within: &[BezPath]) -> BezPath {
    combined(parts, within, OverlayRule::Intersect)
}

fn combined(parts: &[BezPath], others: &[BezPath], rule: OverlayRule) -> BezPath {
    let mut flat = Flattened::default();
    let subject: Vec<Contour> = parts.iter().flat_map(|part| flat.add(part)).collect();
    let clip: Vec<Contour> = others.iter().flat_map(|part| flat.add(part)).collect();
    let options = IntOverlayOptions {
        output_direction: ContourDirection::Clockwise,
        ..IntOverlayOptions::keep_all_points()
    };
    let mut overlay =
        Overlay::from_subj_and_clip_custom(&subject, &clip, options, Default::default());
    let shapes = overlay.overlay(rule, FillRule::NonZero);
    let mut contours: Vec<BezPath> = shapes
        .into_iter()
        .flatten()
        .filter_map(|contour| flat.curves_of(&contour))
        .collect();
    contours.sort_by_key(|contour| {
        contour.segments().next().map(|segment| {
            let start = segment.start();
            (start.x as i64, start.y as i64)
        })
    });
    contours.into_iter().flatten().collect()
}

impl Flattened {
    /// Flattens a part and remembers where its chords came from.
    fn add(&mut self, part: &BezPath) -> Vec<Contour> {
        let mut contours = Vec::new();
        for subpath in subpaths(part) {
            let mut contour = Contour::new();
            for segment in subpath.segments().flat_map(split_at_extremes) {
                self.add_piece(segment, &mut contour);
            }
            contours.push(contour);
        }
        contours
    }

    fn add_piece(&mut self, segment: PathSeg, contour: &mut Contour) {
        let piece = self.pieces.len();
        self.pieces.push(segment);
        let count = if matches!(segment, PathSeg::Line(_)) {
            1
        } else {
            CHORDS
        };
        for step in 0..count {
            let (from, to) = (step as f64 / count as f64, (step + 1) as f64 / count as f64);
            let (start, end) = (on_grid(segment.eval(from)), on_grid(segment.eval(to)));
            if start != end {
                contour.push(start);
                self.chords.push(Chord {
                    piece,
                    from,
                    to,
                    start,
                    end,
                });
            }
        }
    }

    /// Traces a contour of the union back to curves; nothing if it is only a rounding leftover.
    fn curves_of(&self, contour: &[IntPoint<i32>]) -> Option<BezPath> {
        let runs = self.runs_of(contour);
        if runs.len() < 2 {
            return None;
        }
        let joints: Vec<(Point, f64, f64)> = (0..runs.len())
            .map(|i| self.joint(runs[i], runs[(i + 1) % runs.len()]))
            .collect();
        let mut segments = Vec::new();
        for (i, run) in runs.iter().enumerate() {
            let before = joints[(i + runs.len() - 1) % runs.len()];
            let after = joints[i];
            let segment = stretch(self.pieces[run.piece], before.2, after.1);
            segments.push(moved_to(segment, before.0, after.0));
        }
        let segments = without_needless_points(segments);
        if segments.len() < 2 {
            return None;
        }
        let mut path = BezPath::from_path_segments(segments.into_iter());
        path.close_path();
        Some(path)
    }

    fn runs_of(&self, contour: &[IntPoint<i32>]) -> Vec<Run> {
        let mut runs: Vec<Run> = Vec::new();
        for (i, &start) in contour.iter().enumerate() {
            let end = contour[(i + 1) % contour.len()];
            let Some(edge) = self.source_of(start, end, runs.last()) else {
                continue;
            };
            match runs.last_mut() {
                Some(last) if follows(last, &edge) => last.to = edge.to,
                _ => runs.push(edge),
            }
        }
        if runs.len() > 1
            && let Some(&last) = runs.last()
            && follows(&last, &runs[0])
        {
            runs[0].from = last.from;
            runs.pop();
        }
        runs.retain(|run| {
            let piece = self.pieces[run.piece];
            piece.eval(run.from).distance(piece.eval(run.to)) > SHORTEST
        });
        runs
    }

    /// The chord that an edge of the union lies on; the piece of the run before it is preferred where two coincide.
    fn source_of(
        &self,
        start: IntPoint<i32>,
        end: IntPoint<i32>,
        last: Option<&Run>,
    ) -> Option<Run> {
        let mut best: Option<(f64, Run)> = None;
        for chord in &self.chords {
            let (Some((near_start, at_start)), Some((near_end, at_end))) =
                (chord.locate(start), chord.locate(end))
            else {
                continue;
            };
            let run = Run {
                piece: chord.piece,
                from: at_start,
                to: at_end,
            };
            let preferred = last.is_some_and(|last| follows(last, &run));
            let distance = near_start.max(near_end) - if preferred { NEAR } else { 0.0 };
            if best.is_none_or(|(least, _)| distance < least) {
                best = Some((distance, run));
            }
        }
        best.map(|(_, run)| run)
    }

    /// Where two runs meet: the point, and where it lies on each of them.
    fn joint(&self, run: Run, next: Run) -> (Point, f64, f64) {
        let (a, b) = (self.pieces[run.piece], self.pieces[next.piece]);
        let (mut s, mut t) = (run.to, next.from);
        let guess = a.eval(s).midpoint(b.eval(t));
        for _ in 0..NEWTON_STEPS {
            let gap = b.eval(t) - a.eval(s);
            let (da, db) = (direction(a, s), direction(b, t));
            let det = da.cross(-db);
            if gap.hypot() < 1e-9 || det.abs() < 1e-6 {
                break;
            }
            s += gap.cross(-db) / det;
            t += da.cross(gap) / det;
        }
        let met = a.eval(s).midpoint(b.eval(t));
        let settled = a.eval(s).distance(b.eval(t)) < 0.01 && met.distance(guess) < SHORTEST;
        if settled && (-0.05..=1.05).contains(&s) && (-0.05..=1.05).contains(&t) {
            (met.round(), s.clamp(0.0, 1.0), t.clamp(0.0, 1.0))
        } else {
            (guess.round(), run.to, next.from)
        }
    }
}

impl Chord {
    /// How far a grid point lies from this chord and where on the piece it is; nothing if it is not on it.
    fn locate(&self, point: IntPoint<i32>) -> Option<(f64, f64)> {
        let far =
            |at: i32, a: i32, b: i32| at < a.min(b) - NEAR as i32 || at > a.max(b) + NEAR as i32;
        if far(point.x, self.start.x, self.end.x) || far(point.y, self.start.y, self.end.y) {
            return None;
        }
        let vector = |p: IntPoint<i32>| Vec2::new(f64::from(p.x), f64::from(p.y));
        let (along, from_start) = (
            vector(self.end) - vector(self.start),
            vector(point) - vector(self.start),
        );
        let length = along.hypot();
        let distance = (along.cross(from_start) / length).abs();
        let place = along.dot(from_start) / length;
        if distance > NEAR || place < -NEAR || place > length + NEAR {
            return None;
        }
        let fraction = (place / length).clamp(0.0, 1.0);
        Some((distance, self.from + (self.to - self.from) * fraction))
    }
}

/// Whether an edge carries on where a run ended, in the same sense.
fn follows(run: &Run, edge: &Run) -> bool {
    run.piece == edge.piece
        && (run.to - edge.from).abs() < 2e-3
        && (run.to - run.from) * (edge.to - edge.from) > 0.0
}

fn on_grid(point: Point) -> IntPoint<i32> {
    IntPoint::new(
        (point.x * STEPS_PER_UNIT).round() as i32,
        (point.y * STEPS_PER_UNIT).round() as i32,
    )
}

fn direction(segment: PathSeg, t: f64) -> Vec2 {
    match segment {
        PathSeg::Line(line) => line.p1 - line.p0,
        PathSeg::Quad(quad) => quad.deriv().eval(t).to_vec2(),
        PathSeg::Cubic(cubic) => cubic.deriv().eval(t).to_vec2(),
    }
}

/// The stretch of a segment between two parameters, run backward when they fall.
fn stretch(segment: PathSeg, from: f64, to: f64) -> PathSeg {
    if from <= to {
        segment.subsegment(from..to)
    } else {
        segment.subsegment(to..from).reverse()
    }
}

/// The segment with its ends moved to these points and its handles moved with them.
fn moved_to(segment: PathSeg, start: Point, end: Point) -> PathSeg {
    match segment {
        PathSeg::Line(_) => PathSeg::Line(kurbo::Line::new(start, end)),
        PathSeg::Quad(quad) => PathSeg::Quad(kurbo::QuadBez::new(start, quad.p1, end)),
        PathSeg::Cubic(cubic) => PathSeg::Cubic(kurbo::CubicBez::new(
            start,
            cubic.p1 + (start - cubic.p0),
            cubic.p2 + (end - cubic.p3),
            end,
        )),
    }
}

/// Splits a curve where it is horizontal or vertical, so that every extreme is a point of the outline.
fn split_at_extremes(segment: PathSeg) -> Vec<PathSeg> {
    let mut cuts = vec![0.0];
    cuts.extend(
        segment
            .extrema()
            .into_iter()
            .filter(|&t| t > 0.01 && t < 0.99),
    );
    cuts.push(1.0);
    cuts.windows(2)
        .map(|pair| segment.subsegment(pair[0]..pair[1]))
        .collect()
}

/// Joins lines that run on in one direction and drops segments that rounding has left without length.
fn without_needless_points(segments: Vec<PathSeg>) -> Vec<PathSeg> {
    let mut kept: Vec<PathSeg> = Vec::new();
    for segment in segments {
        if segment.start() == segment.end() {
            continue;
        }
        if let (Some(PathSeg::Line(last)), PathSeg::Line(line)) = (kept.last_mut(), segment)
            && run_on(*last, line)
        {
            last.p1 = line.p1;
        } else {
            kept.push(segment);
        }
    }
    if kept.len() > 2
        && let Some(&PathSeg::Line(last)) = kept.last()
        && let Some(PathSeg::Line(first)) = kept.first_mut()
        && run_on(last, *first)
    {
        first.p0 = last.p0;
        kept.pop();
    }
    kept
}

/// Whether the point between two lines lies on the line from the first's start to the second's end, to 0.4 units.
fn run_on(first: kurbo::Line, second: kurbo::Line) -> bool {
    let whole = second.p1 - first.p0;
    let ahead = (first.p1 - first.p0).dot(second.p1 - second.p0) > 0.0;
    ahead && (whole.cross(first.p1 - first.p0) / whole.hypot()).abs() < 0.4
}

/// The closed subpaths of a path, each as a path of its own.
pub fn subpaths(path: &BezPath) -> Vec<BezPath> {
    let mut found: Vec<BezPath> = Vec::new();
    for element in path.elements() {
        if matches!(element, kurbo::PathEl::MoveTo(_)) {
            found.push(BezPath::new());
        }
        if let Some(last) = found.last_mut() {
            last.push(*element);
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pen::{ellipse, inked, rectangle};
    use kurbo::Shape;

    /// Two circles of radius 300 whose centres lie 300 apart: the lens they share is r²(2π/3 − √3/2).
    #[test]
    fn circles_merge_into_two_arcs() {
        let (r, k) = (300.0_f64, 0.552_284_75);
        let circles = [
            inked(ellipse(0.0, 0.0, r, r, k)),
            inked(ellipse(r, 0.0, r, r, k)),
        ];
        let lens = r * r * (2.0 * std::f64::consts::PI / 3.0 - 3.0_f64.sqrt() / 2.0);
        let both = 2.0 * std::f64::consts::PI * r * r - lens;
        let merged = merged(&circles, &[]);
        assert!(
            (-merged.area() - both).abs() < 0.002 * both,
            "{} against {both}",
            -merged.area()
        );
        // Three quarters of each circle and two twelfths more of each, all of them curves.
        assert_eq!(merged.segments().count(), 8);
        assert!(
            merged
                .segments()
                .all(|segment| matches!(segment, PathSeg::Cubic(_)))
        );
        assert!((-common(&circles[..1], &circles[1..]).area() - lens).abs() < 0.005 * lens);
    }

    #[test]
    fn a_crossing_is_found_on_the_curve() {
        let circle = inked(ellipse(0.0, 0.0, 500.0, 500.0, 0.552_284_75));
        let bar = inked(rectangle(-800.0, -300.0, 800.0, 300.0));
        let merged = merged(&[circle, bar], &[]);
        // The circle crosses the line y = 300 at x = 400, by Pythagoras.
        let met = merged
            .segments()
            .any(|segment| segment.start().distance(Point::new(400.0, 300.0)) < 1.0);
        assert!(met, "{}", merged.to_svg());
    }

    #[test]
    fn parts_that_share_an_edge_become_one() {
        let halves = [
            inked(rectangle(0.0, 0.0, 100.0, 50.0)),
            inked(rectangle(0.0, 50.0, 100.0, 120.0)),
        ];
        let merged = merged(&halves, &[]);
        assert_eq!(merged.segments().count(), 4);
        assert!((-merged.area() - 12_000.0).abs() < 1e-9);
    }

    #[test]
    fn a_cut_leaves_a_counter_that_runs_the_other_way() {
        let merged = merged(
            &[inked(rectangle(0.0, 0.0, 100.0, 100.0))],
            &[inked(rectangle(20.0, 20.0, 80.0, 80.0))],
        );
        let areas: Vec<f64> = subpaths(&merged).iter().map(Shape::area).collect();
        assert_eq!(areas, [-10_000.0, 3_600.0]);
    }

    #[test]
    fn nothing_merges_to_nothing() {
        assert!(merged(&[], &[]).elements().is_empty());
    }
}
