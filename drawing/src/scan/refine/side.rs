//! How long a side of a corner runs straight, or evenly bent.

use kurbo::{Point, Vec2};

use super::super::corners::{Corner, Sampled, angle};
use super::super::solve::solved;
use super::ALIKE;

/// Lengths that are tried, in dots: each longer than the one before by about two fifths, which halves what noise leaves unsure of a bend. Found by trial.
const LENGTHS: [f64; 7] = [5.0, 7.0, 10.0, 14.0, 19.0, 26.0, 36.0];
/// A side begins so many blurs from its corner when its shape is looked for, and ends so many before the next: at two blurs a corner's rounding is a
/// fiftieth of what it is at the corner (the formula stands with `unrounded`).
const AWAY: f64 = 2.0;
/// A further term of the curve is needed if it lessens the sum of squares by more than this, in variances of the noise: 95 of 100, the 95 % point of
/// chi-square with one degree of freedom (textbook tables).
const NEEDED: f64 = 3.84;
/// What is left may be so many deviations more than noise leaves: chance alone passes it about once in a hundred.
const SPREADS: f64 = 3.0;

/// A side as it is begun with.
pub(super) struct Side {
    /// Its direction at the corner, away from it, in radians.
    pub heading: f64,
    /// What it bends by, to the left as seen from the corner, in parts of a circle's radius of one dot.
    pub bend: f64,
    pub is_bent: bool,
    /// How far from the corner its samples are used, in dots.
    pub reach: f64,
}

/// A side's shape: over the length, and as straight or bent, as tells best where it comes from, among those that no further term betters.
///
/// # Source
/// The test of a further term is that of a variance ratio with a known variance (R. A. Fisher, 1925): textbook.
pub(super) fn side(
    line: &Sampled,
    corner: &Corner,
    way: i64,
    room: f64,
    longest: f64,
) -> Option<Side> {
    let away = (AWAY * line.blur).min(room / 3.0);
    let most = (room - AWAY * line.blur).max(2.0 * room / 3.0);
    let spread = line.noise * line.noise * ALIKE / line.step;
    let mut best: Option<(f64, Side)> = None;
    // Straight, or bent: what does not fit a stretch fits no longer one.
    let mut is_fitting = [false, true, true];
    for length in LENGTHS.into_iter().filter(|length| *length <= longest) {
        let to = (away + length).min(most);
        let points: Vec<Point> = steps(line, away, to)
            .map(|step| line.at(corner.sample as i64 + way * step))
            .collect();
        if points.len() < 5 {
            continue;
        }
        let Some(curves) = Curves::of(&points, corner.at) else {
            continue;
        };
        for degree in [1, 2] {
            let further = curves.squares[degree] - curves.squares[degree + 1];
            let alone = points.len() as f64 * line.step / ALIKE;
            let left = curves.squares[degree] / spread;
            is_fitting[degree] &=
                further <= NEEDED * spread && left <= alone + SPREADS * (2.0 * alone).sqrt();
            // Something has to be begun with.
            let is_last = best.is_none() && degree == 2;
            let unsure = curves.unsure[degree];
            let is_better = best.as_ref().is_none_or(|(other, _)| unsure < *other);
            if (is_fitting[degree] && is_better) || is_last {
                best = Some((unsure, curves.side(degree, to)));
            }
        }
        if to >= most {
            break;
        }
    }
    best.map(|(_, side)| side)
}

fn steps(line: &Sampled, from: f64, to: f64) -> std::ops::RangeInclusive<i64> {
    (from / line.step).ceil() as i64..=(to / line.step).floor() as i64
}

/// Polynomials of degree 0 to 3 through points, in a frame that begins at the corner and runs along them.
struct Curves {
    along: Vec2,
    /// By degree: the terms, the sum of squares that is left, and the variance at the corner for one of a sample.
    terms: [Vec<f64>; 4],
    squares: [f64; 4],
    unsure: [f64; 4],
}

impl Curves {
    fn of(points: &[Point], corner: Point) -> Option<Curves> {
        let (first, last) = (points.first()?, points.last()?);
        let length = first.distance(*last);
        if length <= 0.0 {
            return None;
        }
        let along = (*last - *first) / length;
        let placed: Vec<[f64; 2]> = points
            .iter()
            .map(|&point| {
                let off = point - corner;
                [off.dot(along) / length, along.cross(off)]
            })
            .collect();
        let mut curves = Curves {
            along,
            terms: Default::default(),
            squares: [0.0; 4],
            unsure: [f64::INFINITY; 4],
        };
        for degree in 1..4 {
            let many = degree + 1;
            let mut normal = vec![vec![0.0; many]; many];
            let mut right = vec![0.0; many];
            for [x, y] in &placed {
                for a in 0..many {
                    right[a] += y * x.powi(a as i32);
                    for (b, sum) in normal[a].iter_mut().enumerate() {
                        *sum += x.powi((a + b) as i32);
                    }
                }
            }
            let mut unit = vec![0.0; many];
            unit[0] = 1.0;
            curves.unsure[degree] = solved(normal.clone(), unit)?[0];
            let terms = solved(normal, right)?;
            curves.squares[degree] = placed
                .iter()
                .map(|[x, y]| {
                    let at: f64 = terms.iter().rev().fold(0.0, |sum, term| sum * x + term);
                    (y - at) * (y - at)
                })
                .sum();
            // From parts of the length to dots.
            curves.terms[degree] = terms
                .iter()
                .enumerate()
                .map(|(power, term)| term / length.powi(power as i32))
                .collect();
        }
        Some(curves)
    }

    /// The side of a degree at the corner; its bend is a curve's y″ / (1 + y′²)^(3/2): textbook.
    fn side(&self, degree: usize, reach: f64) -> Side {
        let terms = &self.terms[degree];
        let slope = terms[1];
        let is_bent = degree > 1;
        let bend = if is_bent {
            2.0 * terms[2] / (1.0 + slope * slope).powf(1.5)
        } else {
            0.0
        };
        Side {
            heading: angle(Vec2::new(1.0, 0.0), self.along) + slope.atan(),
            bend,
            is_bent,
            reach,
        }
    }
}
