//! The shape that a turning cutter sweeps, and how wide it cuts at the face.
//!
//! # Source
//! Elementary geometry of cylinder, ball and cone; worked out anew, and not shared with what passes are planned by.

use geometry::arc_path::Turn;
use geometry::distance::WallIndex;
use kurbo::Point;
use reader::{ReadCourse, ReadMotion};

use super::motion;
use crate::job_file::{JobCutter, JobCutterKind};

/// In how many pieces a slope is looked at where the radius at the face does not change evenly along it.
const PIECES: u32 = 64;

/// A cutter as a solid of revolution, mm. Whatever it cuts below the face it cuts at least as wide at the face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Solid {
    /// The same radius all the way up.
    Flat {
        /// Half the diameter.
        radius: f64,
    },
    /// A half ball with a cylinder above it.
    Ball {
        /// Half the diameter.
        radius: f64,
    },
    /// A flat tip from which the radius grows evenly, up to a cylinder.
    Conical {
        /// Half the diameter of the tip.
        tip: f64,
        /// Growth of the radius for each millimetre of height.
        slope: f64,
        /// Half the largest diameter.
        radius: f64,
    },
}

impl Solid {
    /// The solid of a cutter; a cone without proper measures counts as the cylinder about it.
    pub fn of(cutter: &JobCutter) -> Solid {
        let radius = cutter.diameter_mm / 2.0;
        match cutter.kind {
            JobCutterKind::Flat => Solid::Flat { radius },
            JobCutterKind::Ball => Solid::Ball { radius },
            JobCutterKind::Conical => match (cutter.tip_diameter_mm, cutter.included_angle_deg) {
                (Some(tip), Some(angle)) if is_cone(tip, angle, cutter.diameter_mm) => {
                    Solid::Conical {
                        tip: tip / 2.0,
                        slope: (angle / 2.0).to_radians().tan(),
                        radius,
                    }
                }
                (_, _) => Solid::Flat { radius },
            },
        }
    }

    /// Half the width that it cuts at the face with its end at a depth below it; nothing where it stands above.
    pub fn radius_at(&self, depth: f64) -> f64 {
        match *self {
            Solid::Flat { radius } if depth >= 0.0 => radius,
            Solid::Ball { radius } if depth >= radius => radius,
            Solid::Ball { radius } if depth >= 0.0 => (depth * (2.0 * radius - depth)).sqrt(),
            Solid::Conical { tip, slope, radius } if depth >= 0.0 => {
                (tip + slope * depth).min(radius)
            }
            Solid::Flat { .. } | Solid::Ball { .. } | Solid::Conical { .. } => 0.0,
        }
    }

    /// Half the largest diameter.
    pub fn radius(&self) -> f64 {
        match *self {
            Solid::Flat { radius } | Solid::Ball { radius } | Solid::Conical { radius, .. } => {
                radius
            }
        }
    }

    /// What it takes from wood as deep as that, seen along its way, mm².
    pub fn area_across(&self, depth: f64) -> f64 {
        let depth = depth.max(0.0);
        match *self {
            Solid::Flat { radius } => 2.0 * radius * depth,
            Solid::Ball { radius } => {
                let ball = depth.min(radius);
                let below = radius - ball;
                let half_chord = (radius * radius - below * below).max(0.0).sqrt();
                let segment =
                    radius * radius * (below / radius).clamp(-1.0, 1.0).acos() - below * half_chord;
                segment + 2.0 * radius * (depth - ball)
            }
            Solid::Conical { tip, slope, radius } => {
                let cone = depth.min((radius - tip) / slope);
                (2.0 * tip + slope * cone) * cone + 2.0 * radius * (depth - cone)
            }
        }
    }

    /// How high its surface stands above its end at a distance from its axis; `None` beyond its radius.
    pub fn rise_at(&self, away: f64) -> Option<f64> {
        if away > self.radius() {
            return None;
        }
        Some(match *self {
            Solid::Flat { .. } => 0.0,
            Solid::Ball { radius } => radius - (radius * radius - away * away).max(0.0).sqrt(),
            Solid::Conical { tip, slope, .. } => (away - tip).max(0.0) / slope,
        })
    }

    /// How far along a straight way, from where it comes nearest to a place `aside` of it, the cutter stands when it cuts deepest
    /// there, if the way is long enough; the way rises by `slope` for each millimetre. May lie beyond where it covers the place.
    pub fn balance(&self, slope: f64, aside: f64) -> f64 {
        if slope == 0.0 {
            return 0.0;
        }
        let back = -slope.signum();
        match *self {
            Solid::Flat { radius } => back * radius,
            Solid::Ball { radius } => {
                let chord2 = (radius * radius - aside * aside).max(0.0);
                -slope * (chord2 / (1.0 + slope * slope)).sqrt()
            }
            Solid::Conical {
                tip,
                slope: side,
                radius,
            } => {
                let steepness = (slope * side).abs();
                let on_tip = (tip * tip - aside * aside).max(0.0).sqrt();
                if steepness >= 1.0 {
                    return back * radius;
                }
                let on_side = aside * steepness / (1.0 - steepness * steepness).sqrt();
                back * if on_side.hypot(aside) >= tip {
                    on_side
                } else {
                    on_tip
                }
            }
        }
    }

    /// The same cutter, its radii larger by so much; smaller where that is negative.
    pub fn grown(&self, by: f64) -> Solid {
        let grown = |radius: f64| (radius + by).max(0.0);
        match *self {
            Solid::Flat { radius } => Solid::Flat {
                radius: grown(radius),
            },
            Solid::Ball { radius } => Solid::Ball {
                radius: grown(radius),
            },
            Solid::Conical { tip, slope, radius } => Solid::Conical {
                tip: grown(tip),
                slope,
                radius: grown(radius),
            },
        }
    }

    /// Numbers that tell one solid from another.
    pub fn likeness(&self) -> [u64; 3] {
        match *self {
            Solid::Flat { radius } => [0, radius.to_bits(), 0],
            Solid::Ball { radius } => [1, radius.to_bits(), 0],
            // The largest radius shows in no motion that the smaller parts do not show, but costs nothing to tell.
            Solid::Conical { tip, slope, radius } => {
                [2 ^ radius.to_bits(), tip.to_bits(), slope.to_bits()]
            }
        }
    }

    /// Whether it cuts as wide at any depth as at the face.
    pub fn is_flat(&self) -> bool {
        match self {
            Solid::Flat { .. } => true,
            Solid::Ball { .. } | Solid::Conical { .. } => false,
        }
    }

    /// The least distance by which a motion stays clear of walls at the face, or `cutoff` where it stays clear by more; negative
    /// where it cuts into them. Exact but for slopes of balls and sloping arcs of any but flat cutters, which count as a little
    /// wider than they are.
    pub fn clear(&self, walls: &WallIndex, read: &ReadMotion, cutoff: f64) -> f64 {
        self.pieces(read)
            .iter()
            .map(|piece| piece.clear(walls, cutoff))
            .fold(cutoff, f64::min)
    }

    /// The least distance from what a motion cuts at the face to a place; negative within it.
    pub fn clear_of_place(&self, read: &ReadMotion, place: Point) -> f64 {
        self.pieces(read)
            .iter()
            .map(|piece| piece.clear_of_place(read, place))
            .fold(f64::INFINITY, f64::min)
    }

    /// A motion's part at and below the face, in pieces along which the radius at the face changes evenly, or is taken as the
    /// larger of its ends.
    fn pieces(&self, read: &ReadMotion) -> Vec<Piece> {
        let (from, to) = (-read.from.z, -read.to.z);
        let level = from == to;
        let mut breaks = vec![0.0, 1.0];
        let mut at_depth = |depth: f64| {
            let part = (depth - from) / (to - from);
            if part > 0.0 && part < 1.0 {
                breaks.push(part);
            }
        };
        if !level {
            at_depth(0.0);
            match *self {
                Solid::Flat { .. } => {}
                Solid::Conical { tip, slope, radius } => at_depth((radius - tip) / slope),
                Solid::Ball { radius } => (1..=PIECES).for_each(|piece| {
                    // Evenly by the radius rather than by the depth, which it grows with ever less.
                    let part = f64::from(piece) / f64::from(PIECES);
                    at_depth(radius * part * part);
                }),
            }
        }
        let is_arc = matches!(read.course, ReadCourse::Arc { .. });
        if is_arc && !level && !self.is_flat() {
            breaks.extend((1..PIECES).map(|piece| f64::from(piece) / f64::from(PIECES)));
        }
        breaks.sort_by(f64::total_cmp);
        breaks.dedup();
        let depth = |part: f64| from + (to - from) * part;
        breaks
            .windows(2)
            .filter(|parts| depth(f64::midpoint(parts[0], parts[1])) >= 0.0)
            .map(|parts| {
                // Breaks lie on the depths that they were set at but for rounding.
                let radii = [parts[0], parts[1]].map(|part| self.radius_at(depth(part).max(0.0)));
                let widest = radii[0].max(radii[1]);
                let even = match self {
                    Solid::Flat { .. } => true,
                    Solid::Conical { .. } => !is_arc,
                    Solid::Ball { .. } => false,
                };
                let ends = [read.xy_at(parts[0]), read.xy_at(parts[1])];
                Piece {
                    ends,
                    radii: if even { radii } else { [widest; 2] },
                    about: match read.course {
                        ReadCourse::Arc { centre, turn, .. } => Some((centre, turn)),
                        ReadCourse::Rapid | ReadCourse::Line { .. } => None,
                    },
                    whole: parts[0] == 0.0 && parts[1] == 1.0,
                }
            })
            .collect()
    }
}

/// Whether a tip, an included angle and a diameter make a cone.
pub fn is_cone(tip_mm: f64, included_angle_deg: f64, diameter_mm: f64) -> bool {
    (0.0..diameter_mm).contains(&tip_mm) && included_angle_deg > 0.0 && included_angle_deg < 180.0
}

/// A part of a motion.
struct Piece {
    ends: [Point; 2],
    /// At the face, at both ends; the same for arcs.
    radii: [f64; 2],
    /// Centre and sense of an arc.
    about: Option<(Point, Turn)>,
    /// Whether it is the whole motion, which for an arc that ends where it starts is a full circle.
    whole: bool,
}

impl Piece {
    fn clear(&self, walls: &WallIndex, cutoff: f64) -> f64 {
        let [from, to] = self.ends;
        match self.about {
            None => walls.clear_of_taper(from, to, self.radii, cutoff),
            Some(_) if from == to && !self.whole => {
                walls.clear_of_taper(from, to, self.radii, cutoff)
            }
            Some((centre, turn)) => {
                let radius = self.radii[0];
                walls.nearest_to_arc(from, to, centre, turn, cutoff + radius) - radius
            }
        }
    }

    fn clear_of_place(&self, read: &ReadMotion, place: Point) -> f64 {
        let [from, to] = self.ends;
        match self.about {
            Some(_) if self.whole => motion::distance(read, place) - self.radii[0],
            // Parts of a sloping arc are short, so their ends tell.
            Some(_) | None => geometry::distance::clear_of_place(from, to, self.radii, place),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Strip by strip: as wide as the cutter is at each height.
    #[test]
    fn what_is_seen_along_the_way_is_the_sum_of_its_widths() {
        const STRIPS: u32 = 20_000;
        let solids = [
            Solid::Flat { radius: 1.5 },
            Solid::Ball { radius: 1.5 },
            Solid::Conical {
                tip: 0.1,
                slope: 0.6,
                radius: 1.5,
            },
        ];
        for solid in solids {
            for depth in [0.0, 0.4, 1.5, 4.0] {
                let strip = depth / f64::from(STRIPS);
                let sum: f64 = (0..STRIPS)
                    .map(|number| 2.0 * solid.radius_at((f64::from(number) + 0.5) * strip) * strip)
                    .sum();
                let area = solid.area_across(depth);
                assert!((area - sum).abs() < 1e-4, "{solid:?} {depth}: {area} {sum}");
            }
        }
    }
}
