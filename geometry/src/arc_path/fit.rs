//! The fitting of few lines and arcs to a chain of many.
//!
//! Greedy: from the end of what is done, the longest line or arc that stays within the tolerance is taken, found by galloping
//! and bisection. Arcs pass through both end points of their stretch, so that one number, the bulge, tells them apart; every
//! point of the stretch allows an interval of bulges, and the middle of what all of them allow is tried.
//!
//! # Source
//! Worked out here. That the bulge is the tangent of a quarter of the arc's angle, with radius and centre by it: textbook trigonometry.

use kurbo::{Point, Vec2};

use super::{ArcPath, ArcStep, Turn, chords, rotate, sweep};
use crate::offset::OffsetPiece;

/// Part of the tolerance given to sampling the arcs of the chain.
const SAMPLING_PART: f64 = 0.05;
/// Part of the tolerance within which neighbouring samples are one.
const MERGING_PART: f64 = 0.05;
/// Part of the tolerance within which samples and chords must lie; with the two parts above it stays below 1.
const FITTING_PART: f64 = 0.85;
/// Part of the tolerance below which an arc's rise over its chord is not worth an arc.
const FLAT_PART: f64 = 0.1;
/// Radians: a sharper turn between neighbouring samples is a corner, and stays one.
const CORNER: f64 = 0.35;
/// The largest bulge (tangent of a quarter of the angle): a half turn.
const MOST_BULGE: f64 = 1.0;
/// Millimetres: a flatter arc is written as a line, if the line keeps within the tolerance.
const MOST_RADIUS: f64 = 2000.0;

/// Samples that the first step is tried over.
const FIRST_STRIDE: usize = 4;

/// Fits lines and arcs to a chain of pieces, each beginning where the one before ends.
///
/// The path starts and ends exactly where the chain does, is closed if the chain is, and stays everywhere within `tolerance`
/// of it, as the chain stays of the path; both are run in the same sense. Corners sharper than 20 degrees stay corners. Arcs
/// run through half a turn at most. An empty chain gives a path without steps at the origin.
pub fn fit(pieces: &[OffsetPiece], tolerance: f64) -> ArcPath {
    let points = samples(pieces, tolerance);
    let Some(&start) = points.first() else {
        return ArcPath::starting_at(Point::ORIGIN);
    };
    let mut path = ArcPath::starting_at(start);
    let chain = Chain::new(points, tolerance * FITTING_PART);
    let mut done = 0;
    let mut stride = FIRST_STRIDE;
    // Bound: every round gets at least one sample further.
    while done + 1 < chain.points.len() {
        let (next, step) = chain.longest(done, stride);
        path.steps.push(step);
        // Neighbouring steps are much alike, so the next is first tried as long as this one.
        stride = (next - done).max(FIRST_STRIDE);
        done = next;
    }
    path
}

/// Points on the chain: the ends of its pieces and points along its arcs, without the ones that add nothing.
fn samples(pieces: &[OffsetPiece], tolerance: f64) -> Vec<Point> {
    let Some(first) = pieces.first() else {
        return Vec::new();
    };
    let merged = (tolerance * MERGING_PART).max(0.0);
    let mut samples = vec![first.from];
    let mut add = |point: Point| {
        if samples
            .last()
            .is_none_or(|&last| last.distance(point) > merged)
        {
            samples.push(point);
        }
    };
    for piece in pieces {
        // A piece that ends where it starts is a point, not a circle: a corner never has ground all round it.
        if let Some(centre) = piece.centre.filter(|_| piece.from != piece.to) {
            let angle = sweep(piece.from, piece.to, centre, Turn::Right);
            let arm = piece.from - centre;
            let count = chords(angle, arm.hypot(), tolerance * SAMPLING_PART);
            for number in 1..count {
                let part = angle * number as f64 / count as f64;
                add(centre + rotate(arm, -part));
            }
        }
        add(piece.to);
    }
    // The end is kept exactly; what was merged into it is too near to matter.
    if let Some(last) = pieces.last() {
        if samples.len() > 1 && samples.last().is_some_and(|&end| end != last.to) {
            samples.pop();
        }
        if samples.last() != Some(&last.to) {
            samples.push(last.to);
        }
    }
    samples
}

/// For every sample the next one after it that is a corner or the end.
fn corners(samples: &[Point]) -> Vec<usize> {
    let mut next = vec![samples.len() - 1; samples.len()];
    for at in (1..samples.len().saturating_sub(1)).rev() {
        let (a, b) = (samples[at] - samples[at - 1], samples[at + 1] - samples[at]);
        let is_corner = a.cross(b).abs().atan2(a.dot(b)) > CORNER;
        next[at - 1] = if is_corner { at } else { next[at] };
    }
    next
}

/// What came of trying one step over a stretch of samples.
enum Tried {
    Keeps(ArcStep),
    /// It is no longer than the tolerance, which tells nothing about longer ones.
    TooShort,
    Strays,
}

/// Samples to be fitted, with what is asked of them again and again.
struct Chain {
    points: Vec<Point>,
    /// To the right of the direction from the sample before to the one after, as long as the tolerance; zero at the ends and
    /// where there is no such direction.
    rights: Vec<Vec2>,
    /// For every sample the next one after it that is a corner or the end.
    corners: Vec<usize>,
    /// How far samples and chords may lie from a step.
    within: f64,
}

impl Chain {
    fn new(points: Vec<Point>, within: f64) -> Chain {
        let mut rights = vec![Vec2::ZERO; points.len()];
        for at in 1..points.len().saturating_sub(1) {
            let along = points[at + 1] - points[at - 1];
            let length = along.hypot();
            if length > 0.0 {
                rights[at] = Vec2::new(along.y, -along.x) * (within / length);
            }
        }
        Chain {
            rights,
            corners: corners(&points),
            within,
            points,
        }
    }

    /// The longest line or arc from a sample, not beyond the next corner: the sample it reaches, and the step.
    ///
    /// `stride` samples are tried first, then twice as many for as long as they keep; then bisection.
    fn longest(&self, from: usize, mut stride: usize) -> (usize, ArcStep) {
        let last = self.corners[from];
        let mut best = None;
        // The furthest sample that did not stray, and the nearest one that did.
        let mut kept = from + 1;
        let mut strayed = last + 1;
        while kept < last {
            let tried = (from + stride).min(last);
            match self.step_over(from, tried) {
                Tried::Keeps(step) => best = Some((tried, step)),
                Tried::TooShort => {}
                Tried::Strays => {
                    strayed = tried;
                    break;
                }
            }
            kept = tried;
            stride *= 2;
        }
        while kept + 1 < strayed && strayed <= last {
            let tried = kept + (strayed - kept) / 2;
            match self.step_over(from, tried) {
                Tried::Keeps(step) => best = Some((tried, step)),
                Tried::TooShort => {}
                Tried::Strays => {
                    strayed = tried;
                    continue;
                }
            }
            kept = tried;
        }
        best.unwrap_or_else(|| {
            let reached = if self.stay_near(from, kept) {
                kept
            } else {
                from + 1
            };
            let to = self.points[reached];
            (reached, ArcStep::Line { to })
        })
    }

    /// Whether samples do not end where they start, and none is further than the tolerance from the start.
    fn stay_near(&self, from: usize, last: usize) -> bool {
        let start = self.points[from];
        let near = |point: &Point| point.distance(start) <= self.within;
        self.points[last] != start && self.points[from..=last].iter().all(near)
    }

    /// One line or arc over samples that keeps within the tolerance of all of them and of their chords.
    fn step_over(&self, from: usize, last: usize) -> Tried {
        let (start, to) = (self.points[from], self.points[last]);
        let chord = to - start;
        let length = chord.hypot();
        if length <= self.within {
            return Tried::TooShort;
        }
        let Some(bulge) = self.allowed_bulge(from, last) else {
            return Tried::Strays;
        };
        let line = || {
            if self.line_keeps(from, last) {
                Tried::Keeps(ArcStep::Line { to })
            } else {
                Tried::Strays
            }
        };
        let radius = length * (1.0 + bulge * bulge) / (4.0 * bulge.abs());
        if bulge.abs() * length / 2.0 < self.within * FLAT_PART || radius > MOST_RADIUS {
            return line();
        }
        let left = Vec2::new(-chord.y, chord.x);
        let centre = start.midpoint(to) + left * ((1.0 - bulge * bulge) / (4.0 * bulge));
        let turn = if bulge > 0.0 { Turn::Left } else { Turn::Right };
        if self.arc_keeps(from, last, centre, turn) {
            Tried::Keeps(ArcStep::Arc { to, centre, turn })
        } else {
            line()
        }
    }

    /// The middle of the bulges that all inner samples allow; positive turns left.
    fn allowed_bulge(&self, from: usize, last: usize) -> Option<f64> {
        let (start, to) = (self.points[from], self.points[last]);
        let bulge_through = |point: Point| {
            let (a, b) = (point - start, to - point);
            let (across, along) = (a.cross(b), a.dot(b));
            let beside = (across * across + along * along).sqrt() + along;
            if beside > 0.0 {
                across / beside
            } else {
                across.signum() * f64::INFINITY
            }
        };
        let (mut least, mut most) = (-MOST_BULGE, MOST_BULGE);
        for index in from + 1..last {
            let right = self.rights[index];
            if right == Vec2::ZERO {
                return None;
            }
            least = least.max(bulge_through(self.points[index] - right));
            most = most.min(bulge_through(self.points[index] + right));
            if least > most || !least.is_finite() || !most.is_finite() {
                return None;
            }
        }
        Some((least + most) / 2.0)
    }

    /// Whether the straight line keeps within the tolerance, and the samples go forward along it.
    fn line_keeps(&self, from: usize, last: usize) -> bool {
        let samples = &self.points[from..=last];
        let chord = samples[samples.len() - 1] - samples[0];
        let length = chord.hypot();
        let direction = chord / length;
        let mut progress = 0.0;
        samples.iter().skip(1).all(|&point| {
            let arm = point - samples[0];
            let along = direction.dot(arm);
            let forward = along >= progress && along <= length * (1.0 + 1e-12);
            progress = along;
            forward && direction.cross(arm).abs() <= self.within
        })
    }

    /// Whether the arc keeps within the tolerance of samples and chords, and the samples go forward along it.
    ///
    /// The distance from the centre is a convex function along a chord, so it is largest at an end and least at the foot of
    /// the perpendicular, if that lies on the chord: three checks are exact. Squares are compared, which takes no roots.
    fn arc_keeps(&self, from: usize, last: usize, centre: Point, turn: Turn) -> bool {
        let samples = &self.points[from..=last];
        let radius = samples[0].distance(centre);
        let nearest = (radius - self.within).max(0.0).powi(2);
        let furthest = (radius + self.within).powi(2);
        samples.windows(2).all(|pair| {
            let (a, b) = (pair[0] - centre, pair[1] - centre);
            let chord = b - a;
            let far = b.hypot2();
            let across = a.cross(b);
            if far < nearest || far > furthest || turn.sign() * across < 0.0 {
                return false;
            }
            let foot_inside = a.dot(chord) < 0.0 && b.dot(chord) > 0.0;
            !foot_inside || across * across >= nearest * chord.hypot2()
        })
    }
}

#[cfg(test)]
mod tests;
