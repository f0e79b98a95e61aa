//! Where walls and corners end up, by the nearest motion to each place of the drawn letter.

use geometry::distance::WallIndex;
use kurbo::{
    BezPath, ParamCurve, ParamCurveArclen, ParamCurveDeriv, PathSeg, Point, Rect, Shape, Vec2,
};

use super::{Cut, Plank};

/// A place on a drawn wall and how far from it the nearest cut comes.
#[derive(Clone, Copy, Debug)]
pub struct WallPlace {
    /// The place.
    pub at: Point,
    /// The direction into the ground.
    pub outward: Vec2,
    /// From the place to the wood that is left, at the face; negative where the letter is cut.
    pub gap: f64,
}

/// A drawn corner of the ground and how far from its point the nearest cut comes at the face.
#[derive(Clone, Copy, Debug)]
pub struct CornerCut {
    /// The drawn point.
    pub at: Point,
    /// The unit direction into the ground, midway between the walls.
    pub inward: Vec2,
    /// The angle of the ground there, degrees.
    pub angle_deg: f64,
    /// From the point to the nearest ground that is cut at the face.
    pub gap: f64,
}

/// Length of the parts into which motions with changing depth are cut, mm.
const SLOPING_PART: f64 = 0.02;

/// Cuts below the face near some letter, each with how far from its axis it cuts at the face and what it lies within.
struct Near {
    cuts: Vec<(Cut, f64, Rect)>,
}

impl Near {
    /// All cuts that go at least `least` deep within reach of a window; each with how far from its axis it cuts at the face.
    fn of(plank: &Plank, window: Rect, least: f64) -> Near {
        let mut cuts = Vec::new();
        for cut in &plank.cuts {
            let form = &plank.cutters[cut.cutter].form;
            let near = cut
                .bounds()
                .inflate(form.radius, form.radius)
                .overlaps(window);
            if !near || cut.depth[0].max(cut.depth[1]) < least || cut.feed.is_none() {
                continue;
            }
            if (cut.depth[0] - cut.depth[1]).abs() < 1e-9 || form.slope.is_infinite() {
                let depth = cut.depth[0].min(cut.depth[1]);
                // A flat cutter cuts its whole width however deep it stands, so the part below the face counts.
                if depth >= least {
                    cuts.push((*cut, form.reach_at(depth), cut.bounds()));
                    continue;
                }
            }
            let parts = (cut.length() / SLOPING_PART).ceil().max(1.0) as usize;
            for part in 0..parts {
                let (from, above) = cut.at(part as f64 / parts as f64);
                let (to, below) = cut.at((part + 1) as f64 / parts as f64);
                if above.max(below) < least {
                    continue;
                }
                // Of a part that comes up to the face, as far as it is below.
                let below_face = |here: (Point, f64), there: (Point, f64)| {
                    if here.1 >= least {
                        return here;
                    }
                    let below = (least - there.1) / (here.1 - there.1);
                    (there.0.lerp(here.0, below), least)
                };
                let ends = [(from, above), (to, below)];
                let [start, end] = [below_face(ends[0], ends[1]), below_face(ends[1], ends[0])];
                let depth = [start.1, end.1];
                let piece = Cut {
                    from: start.0,
                    to: end.0,
                    depth,
                    arc: None,
                    ..*cut
                };
                cuts.push((piece, form.reach_at(depth[0].min(depth[1])), piece.bounds()));
            }
        }
        Near { cuts }
    }

    /// From a place to the nearest ground that is cut; negative inside it.
    fn gap(&self, place: Point) -> f64 {
        let mut nearest = f64::INFINITY;
        for (cut, reach, bounds) in &self.cuts {
            let around = bounds.inflate(reach + nearest, reach + nearest);
            if nearest.is_infinite() || around.contains(place) {
                nearest = nearest.min(cut.distance(place) - reach);
            }
        }
        nearest
    }
}

/// Places every `spacing` mm along the drawn letter, with the gap that cuts at least `least_depth` deep leave.
pub fn walls(
    plank: &Plank,
    drawn: &BezPath,
    letter: &WallIndex,
    spacing: f64,
    least_depth: f64,
) -> Vec<WallPlace> {
    let near = Near::of(plank, drawn.bounding_box().inflate(1.0, 1.0), least_depth);
    let mut places = Vec::new();
    for segment in drawn.segments() {
        let count = (segment.arclen(1e-3) / spacing).ceil() as usize;
        for number in 0..count {
            let t = (number as f64 + 0.5) / count as f64;
            let at = segment.eval(t);
            let along = direction(&segment, t);
            let left = Vec2::new(-along.y, along.x);
            // Where both sides are letter, another contour covers the place.
            let is_ground = |way: Vec2| !letter.contains(at + way * 0.005);
            let Some(outward) = [left, -left].into_iter().find(|&way| is_ground(way)) else {
                continue;
            };
            places.push(WallPlace {
                at,
                outward,
                gap: near.gap(at),
            });
        }
    }
    places
}

/// The drawn corners of the ground between two angles in degrees, and what is cut of them.
pub fn corners(
    plank: &Plank,
    drawn: &BezPath,
    letter: &WallIndex,
    between_deg: [f64; 2],
) -> Vec<CornerCut> {
    let near = Near::of(plank, drawn.bounding_box().inflate(1.0, 1.0), 1e-6);
    let mut found = Vec::new();
    for contour in contours(drawn) {
        for (number, segment) in contour.iter().enumerate() {
            let next = &contour[(number + 1) % contour.len()];
            let (into, out) = (direction(segment, 1.0), direction(next, 0.0));
            let turn = into.cross(out).atan2(into.dot(out));
            // The side to which the path turns is the corner's inside: ground if it is a corner of the ground.
            let bisector = out - into;
            if bisector.hypot() < 1e-6 {
                continue;
            }
            let inside = segment.end() + bisector * (0.01 / bisector.hypot());
            let angle_deg = 180.0 - turn.abs().to_degrees();
            let asked = (between_deg[0]..=between_deg[1]).contains(&angle_deg);
            if asked && !letter.contains(inside) && letter.nearest(segment.end()) < 0.002 {
                found.push(CornerCut {
                    at: segment.end(),
                    inward: bisector / bisector.hypot(),
                    angle_deg,
                    gap: near.gap(segment.end()),
                });
            }
        }
    }
    found
}

fn contours(drawn: &BezPath) -> Vec<Vec<PathSeg>> {
    let mut found: Vec<Vec<PathSeg>> = Vec::new();
    let mut end = None;
    for segment in drawn.segments() {
        if segment.start().distance(segment.end()) > 1e-6 {
            match found.last_mut() {
                Some(contour) if end == Some(segment.start()) => contour.push(segment),
                Some(_) | None => found.push(vec![segment]),
            }
        }
        end = Some(segment.end());
    }
    found
}

/// The unit direction along a segment; where a handle lies on its end, the direction a little further in.
fn direction(segment: &PathSeg, t: f64) -> Vec2 {
    let inner = if t < 0.5 { t + 1e-3 } else { t - 1e-3 };
    let along = [t, inner]
        .into_iter()
        .map(|t| match segment {
            PathSeg::Line(line) => line.p1 - line.p0,
            PathSeg::Quad(quad) => quad.deriv().eval(t).to_vec2(),
            PathSeg::Cubic(cubic) => cubic.deriv().eval(t).to_vec2(),
        })
        .find(|along| along.hypot() > 1e-9)
        .unwrap_or(segment.end() - segment.start());
    along / along.hypot().max(1e-12)
}
