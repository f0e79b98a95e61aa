//! Corners of a followed line.
//!
//! A corner shows as a turn that the line makes at once. A tight curve turns as much, but evenly; so the line on either side is carried on to the
//! place by a parabola fitted a little away from it, and only where the two come in at an angle there is a corner. It lies where they meet: the
//! scanner's blur has rounded it away, but not the sides.
//!
//! Lengths, angles and ratios below that name no source were found by trial: letters were drawn, blurred, spoiled with noise, turned and traced, and what
//! lost or misplaced the fewest corners was kept. The round trip in the tests holds them to letters that nothing was tried on.

use kurbo::{Point, Vec2};

use super::contour::Loop;
use super::field::Field;
use super::refine::{ALIKE, Ahead};

/// Step between samples of a line, in dots: smoothing leaves nothing finer.
pub(super) const STEP: f64 = 0.5;
/// Loops shorter than this have no sides to find corners by, in dots.
const SHORTEST: f64 = 24.0;
/// Half the length over which a turn is first looked for, in dots. Found by trial, as what follows.
const LOOK: f64 = 4.0;
/// Places nearer than this to one that turns more are part of its turn, in dots.
const APART: f64 = 3.0;
/// Turns below this are not looked at, in radians.
const LEAST_TURN: f64 = 0.38;
/// Two sides must come in at this angle at least, in radians: 24 degrees.
const LEAST_CORNER: f64 = 0.42;
/// Turns as sharp as this bound the sides of others before anything is known, in radians.
const SHARP: f64 = 0.9;
/// Half-lengths for telling a turn at once from an even one, in dots, and the least ratio: an even one has 0.36, a blurred corner 0.6 to 0.8.
const SHORT_LOOK: f64 = 2.5;
const LONG_LOOK: f64 = 7.0;
const LEAST_RATIO: f64 = 0.47;
/// How far from a corner the blur reaches along its sides, in dots, at a right angle and at most.
const ROUNDED: f64 = 2.25;
const MOST_ROUNDED: f64 = 8.0;
/// The length of side that a parabola is fitted to, in dots.
const SIDE: f64 = 7.0;
/// Sides shorter than this are taken for straight, in dots.
const STRAIGHT_SIDE: f64 = 4.0;
/// A corner may lie this far beyond the line that was followed, in dots; sharper ones are cut off more by blur.
const FURTHEST: f64 = 3.0;
const FURTHEST_SHARP: f64 = 9.0;

/// On a scan that is blurred by more than this, a standard deviation in dots, turns are looked for over longer stretches, at most so many times.
const ROUGH_BLUR: f64 = 1.5;
const MOST_GROWN: f64 = 2.0;
/// On such scans, what the blur has taken off is put back beside corners that turn by no more than this, in radians, from so many blurs away on.
const BLUNT: f64 = 1.25;
const NEAR: f64 = 0.6;

/// A loop at even steps.
#[derive(Clone, Debug)]
pub(super) struct Sampled {
    pub points: Vec<Point>,
    /// The step, about [`STEP`].
    pub step: f64,
    /// The blur, as a standard deviation in dots.
    pub blur: f64,
    /// How far noise moves it, as a standard deviation in dots.
    pub noise: f64,
}

/// Loops of a page at even steps, with what the scanner did to them.
pub(super) fn sampled(loops: &[Loop], ink: &Field) -> Vec<Sampled> {
    let mut lines: Vec<Sampled> = loops.iter().map(|ring| Sampled::of(ring)).collect();
    let blur = blur(&lines, ink);
    let noise = noise(&lines);
    for line in &mut lines {
        line.noise = noise;
        line.blur = blur;
    }
    lines
}

/// How much edges are blurred, as the standard deviation of the bell curve in dots, by how steeply the ink rises across lines; 0 of none.
///
/// # Source
/// The slope of a straight edge that a bell curve blurs is its rise over the curve's deviation and the root of two pi: textbook. What is read between
/// dots and over one dot is smoothed by that, by a quarter of a square dot in all.
fn blur(lines: &[Sampled], ink: &Field) -> f64 {
    /// The slope is that over one dot, half of it on either side.
    const HALF: f64 = 0.5;
    const BY_READING: f64 = 0.25;
    /// So far on either side of an edge there is bare paper and full ink, in dots, or nearly; thin strokes are not asked.
    const FULL: f64 = 5.0;
    /// Paper and ink are evened out before; a rise that differs more is that of thin strokes. Found by trial.
    const RISES: [f64; 2] = [0.8, 1.25];
    /// Samples on either side from which the heading is taken: two dots. Found by trial.
    const HEADING: i64 = 4;
    let rise = |reach: f64| {
        let mut rises: Vec<f32> = Vec::new();
        for line in lines {
            for place in 0..line.points.len() as i64 {
                let along = line.at(place + HEADING) - line.at(place - HEADING);
                let length = along.hypot();
                if length > 0.0 {
                    let inward = super::to_left(along) * (reach / length);
                    let (inside, outside) = (line.at(place) + inward, line.at(place) - inward);
                    rises.push(ink.between(inside.x, inside.y) - ink.between(outside.x, outside.y));
                }
            }
        }
        let middle = rises.len() / 2;
        if rises.is_empty() {
            return 0.0;
        }
        f64::from(*rises.select_nth_unstable_by(middle, f32::total_cmp).1)
    };
    let slope = rise(HALF) / rise(FULL).clamp(RISES[0], RISES[1]);
    if slope > 0.0 {
        let square = 1.0 / (slope * slope * std::f64::consts::TAU);
        (square - BY_READING).max(0.0).sqrt()
    } else {
        0.0
    }
}

/// How far noise moves lines, as a standard deviation in dots: third differences over places so far apart that their noise is not alike. What has corners is
/// left out by taking the middle one of all.
///
/// # Source
/// A third difference of what is alone has twenty times its variance, and the middle size of a bell curve's values is 0.6745 of its deviation: textbook.
fn noise(lines: &[Sampled]) -> f64 {
    /// Even where there is no noise, dots and steps leave as much.
    const LEAST: f64 = 0.02;
    const MIDDLE: f64 = 0.6745;
    let mut differences: Vec<f64> = Vec::new();
    for line in lines {
        let apart = line.samples(ALIKE).max(1);
        for place in 0..line.points.len() as i64 {
            let at = |step: i64| line.at(place + step * apart);
            let along = at(2) - at(1);
            let third = (at(3) - at(0)) - along * 3.0;
            let length = along.hypot();
            if length > 0.0 {
                differences.push((third.cross(along) / length).abs());
            }
        }
    }
    if differences.is_empty() {
        return LEAST;
    }
    let middle = differences.len() / 2;
    let (_, third, _) = differences.select_nth_unstable_by(middle, f64::total_cmp);
    (*third / MIDDLE / 20.0_f64.sqrt()).max(LEAST)
}

/// A corner of a sampled loop.
#[derive(Clone, Copy, Debug)]
pub(super) struct Corner {
    /// The sample nearest to it.
    pub sample: usize,
    pub at: Point,
    /// Samples on either side that the blur has moved.
    pub rounded: usize,
    /// How far it may be moved when its sides are better known, in dots.
    pub slack: f64,
    /// What is known of the outline on either side; headings run away from the corner.
    pub back: Option<Vec2>,
    pub ahead: Option<Ahead>,
}

impl Sampled {
    /// A loop's points at even steps along it.
    fn of(ring: &[Point]) -> Sampled {
        let length: f64 = (0..ring.len())
            .map(|place| ring[place].distance(ring[(place + 1) % ring.len()]))
            .sum();
        let count = ((length / STEP).round() as usize).max(8);
        let step = length / count as f64;
        let mut points = Vec::with_capacity(count);
        let mut passed = 0.0;
        for place in 0..ring.len() {
            let (from, to) = (ring[place], ring[(place + 1) % ring.len()]);
            let piece = from.distance(to);
            while points.len() < count && points.len() as f64 * step <= passed + piece {
                let part = if piece > 0.0 {
                    (points.len() as f64 * step - passed) / piece
                } else {
                    0.0
                };
                points.push(from.lerp(to, part.clamp(0.0, 1.0)));
            }
            passed += piece;
        }
        while points.len() < count {
            points.push(ring.first().copied().unwrap_or_default());
        }
        Sampled {
            points,
            step,
            blur: 0.0,
            noise: 0.0,
        }
    }

    pub(super) fn moved(mut self, by: Vec2) -> Sampled {
        for point in &mut self.points {
            *point += by;
        }
        self
    }

    pub(super) fn at(&self, place: i64) -> Point {
        self.points[place.rem_euclid(self.points.len() as i64) as usize]
    }

    /// Whether blur and noise hide what a clean scan shows.
    fn is_rough(&self) -> bool {
        self.blur > ROUGH_BLUR
    }

    /// How many times longer than on a clean scan the stretches are over which turns are looked for.
    fn grown(&self) -> f64 {
        (self.blur / ROUGH_BLUR).clamp(1.0, MOST_GROWN)
    }

    fn samples(&self, dots: f64) -> i64 {
        (dots / self.step).round() as i64
    }

    /// The turn at a sample over the length at which turns are first looked for.
    pub(super) fn turn_over_look(&self, place: i64) -> f64 {
        self.turn(place, LOOK * self.grown())
    }

    /// The turn at a sample between chords of `look` dots on either side, in radians.
    fn turn(&self, place: i64, look: f64) -> f64 {
        let reach = self.samples(look).max(1);
        let here = self.at(place);
        angle(here - self.at(place - reach), self.at(place + reach) - here)
    }
}

/// The angle from one direction to another, in radians, counter-clockwise.
pub(super) fn angle(from: Vec2, to: Vec2) -> f64 {
    from.cross(to).atan2(from.dot(to))
}

/// One side of a place: a parabola in the distance from it.
#[derive(Clone, Copy, Debug)]
struct Side {
    start: Vec2,
    along: Vec2,
    bend: Vec2,
}

impl Side {
    fn at(&self, distance: f64) -> Vec2 {
        self.start + self.along * distance + self.bend * distance * distance
    }

    fn heading(&self, distance: f64) -> Vec2 {
        self.along + self.bend * (2.0 * distance)
    }
}

/// The corners of a loop, in its order.
pub(super) fn corners(line: &Sampled) -> Vec<Corner> {
    let count = line.points.len() as i64;
    if line.step * (count as f64) < SHORTEST {
        return Vec::new();
    }
    let candidates = candidates(line);
    let sharp: Vec<i64> = candidates
        .iter()
        .filter(|(_, turn)| turn.abs() >= SHARP / line.grown())
        .map(|&(place, _)| place)
        .collect();
    let first: Vec<i64> = candidates
        .iter()
        .map(|&(place, _)| place)
        .filter(|&place| corner_at(line, place, &sharp).is_some())
        .collect();
    first
        .iter()
        .filter_map(|&place| corner_at(line, place, &first))
        .collect()
}

/// Places that turn more than any within [`APART`], in order.
fn candidates(line: &Sampled) -> Vec<(i64, f64)> {
    let count = line.points.len() as i64;
    let turns: Vec<f64> = (0..count).map(|place| line.turn_over_look(place)).collect();
    let apart = line.samples(APART * line.grown());
    (0..count)
        .filter(|&place| {
            let turn = turns[place as usize].abs();
            turn >= LEAST_TURN
                && (-apart..=apart).all(|shift| {
                    let other = turns[(place + shift).rem_euclid(count) as usize].abs();
                    // Of equal ones the first counts.
                    other < turn || (other == turn && shift >= 0)
                })
        })
        .map(|place| (place, turns[place as usize]))
        .collect()
}

/// The corner at a place, if its sides come in at an angle; `others` bound them.
fn corner_at(line: &Sampled, place: i64, others: &[i64]) -> Option<Corner> {
    let long = LONG_LOOK * line.grown();
    let even = line.turn(place, long).abs();
    let short = line.turn(place, SHORT_LOOK * line.grown()).abs();
    // A long look past a neighbouring corner, or to where the blur has rounded it, says nothing.
    let is_alone = distance_to_other(line, place, others) > long + ROUNDED;
    if is_alone && short < LEAST_RATIO * even {
        return None;
    }
    let mut rounded = ROUNDED;
    let mut found = None;
    let mut taken_off = None;
    // The first round tells the angle, and the angle how far the blur reaches and what it has taken off.
    for _ in 0..if line.is_rough() { 3 } else { 2 } {
        let back = side(line, place, -1, rounded, others, taken_off)?;
        let ahead = side(line, place, 1, rounded, others, taken_off)?;
        let (at, [from_back, from_ahead]) = meeting(&back, &ahead, line.at(place));
        let turned = angle(-back.heading(from_back), ahead.heading(from_ahead));
        let turn = turned.abs();
        if turn < LEAST_CORNER {
            return None;
        }
        let inside = (std::f64::consts::PI - turn).clamp(0.1, std::f64::consts::FRAC_PI_2);
        let slack = (FURTHEST / inside.sin()).min(FURTHEST_SHARP);
        let here = line.at(place);
        let kept = if at.distance(here) <= slack { at } else { here };
        found = Some(Corner {
            sample: place.rem_euclid(line.points.len() as i64) as usize,
            at: kept,
            rounded: line.samples(rounded).max(1) as usize,
            slack,
            back: None,
            ahead: None,
        });
        let is_put_back = line.is_rough() && turn <= BLUNT;
        taken_off = is_put_back.then_some(turned);
        rounded = if is_put_back {
            NEAR * line.blur
        } else {
            (ROUNDED / inside.sin()).min(MOST_ROUNDED)
        };
    }
    found
}

/// From a place to the nearest of the others, along the line, in dots.
fn distance_to_other(line: &Sampled, place: i64, others: &[i64]) -> f64 {
    [-1, 1]
        .into_iter()
        .map(|way| room(line, place, way, others))
        .fold(f64::INFINITY, f64::min)
}

/// How far the line runs from a place one way before it comes to another of the places, in dots.
fn room(line: &Sampled, place: i64, way: i64, others: &[i64]) -> f64 {
    let count = line.points.len() as i64;
    let next = others
        .iter()
        .map(|&other| ((other - place) * way).rem_euclid(count))
        .filter(|&steps| steps > 0)
        .min()
        .unwrap_or(count);
    next as f64 * line.step
}

/// The parabola of one side, from `rounded` dots away on; `None` where there is no side to fit. `taken_off` is the corner's turn if what the blur
/// has taken off is to be put back.
fn side(
    line: &Sampled,
    place: i64,
    way: i64,
    rounded: f64,
    others: &[i64],
    taken_off: Option<f64>,
) -> Option<Side> {
    let room = room(line, place, way, others);
    // The other end of a short side is rounded as well.
    let most = room - ROUNDED;
    let from = rounded.min(most / 2.0).max(line.step);
    let to = (from + SIDE).min(most);
    let (first, last) = (line.samples(from), line.samples(to));
    if last - first < 2 {
        return None;
    }
    let places: Vec<(f64, Point)> = (first..=last)
        .map(|steps| {
            let distance = steps as f64 * line.step;
            let sample = place + way * steps;
            let off = taken_off.map_or(Vec2::ZERO, |turn| unrounded(line, sample, distance, turn));
            (distance, line.at(sample) + off)
        })
        .collect();
    fitted(&places, to - from >= STRAIGHT_SIDE)
}

/// What the blur has taken off at a sample, this far from a corner with this turn.
///
/// # Source
/// A kink smoothed by a bell curve of deviation σ lies off both of its sides by its rise times σ (φ(x) − x Φ(−x)) at x deviations from it: textbook
/// integration by parts; exact for blunt corners, and within a fifth at a turn of 70 degrees.
fn unrounded(line: &Sampled, sample: i64, distance: f64, turn: f64) -> Vec2 {
    /// Samples on either side from which the heading is taken.
    const HEADING: i64 = 4;
    let along = line.at(sample + HEADING) - line.at(sample - HEADING);
    let length = along.hypot();
    if length <= 0.0 || line.blur <= 0.0 {
        return Vec2::ZERO;
    }
    let x = distance / line.blur;
    let bell = (-0.5 * x * x).exp() / std::f64::consts::TAU.sqrt();
    let rise = 2.0 * (turn / 2.0).tan();
    let off = rise * line.blur * (bell - x * beyond(x, bell));
    // Outward: to the right of the way where it turns left.
    Vec2::new(along.y, -along.x) / length * off
}

/// The part of a bell curve beyond a place at or above its middle, where the curve is `bell` high; to a ten-millionth.
///
/// # Source
/// M. Abramowitz and I. Stegun, *Handbook of Mathematical Functions*, 1964, 26.2.17 (from memory).
fn beyond(x: f64, bell: f64) -> f64 {
    const P: f64 = 0.231_641_9;
    const B: [f64; 5] = [
        0.319_381_530,
        -0.356_563_782,
        1.781_477_937,
        -1.821_255_978,
        1.330_274_429,
    ];
    let t = 1.0 / (1.0 + P * x);
    bell * B.iter().rev().fold(0.0, |sum, b| (sum + b) * t)
}

/// The parabola, or the straight line, with the least squares, by Cramer's rule (textbook).
fn fitted(places: &[(f64, Point)], is_bent: bool) -> Option<Side> {
    let count = places.len() as f64;
    let mean = places.iter().map(|place| place.0).sum::<f64>() / count;
    // Sums of powers about the mean keep the equations well apart.
    let mut powers = [0.0; 5];
    let mut moments = [Vec2::ZERO; 3];
    for &(distance, point) in places {
        let shifted = distance - mean;
        let mut power = 1.0;
        for (number, sum) in powers.iter_mut().enumerate() {
            *sum += power;
            if let Some(moment) = moments.get_mut(number) {
                *moment += point.to_vec2() * power;
            }
            power *= shifted;
        }
    }
    let [s0, s1, s2, s3, s4] = powers;
    let (c0, c1, c2) = if is_bent {
        let rows = [[s0, s1, s2], [s1, s2, s3], [s2, s3, s4]];
        let determinant = determinant(rows);
        if determinant.abs() < f64::EPSILON {
            return None;
        }
        let solved = |column: usize| {
            let by = |part: fn(Vec2) -> f64| {
                let mut replaced = rows;
                for (row, moment) in moments.iter().enumerate() {
                    replaced[row][column] = part(*moment);
                }
                self::determinant(replaced) / determinant
            };
            Vec2::new(by(|moment| moment.x), by(|moment| moment.y))
        };
        (solved(0), solved(1), solved(2))
    } else {
        let determinant = s0 * s2 - s1 * s1;
        if determinant.abs() < f64::EPSILON {
            return None;
        }
        (
            (moments[0] * s2 - moments[1] * s1) / determinant,
            (moments[1] * s0 - moments[0] * s1) / determinant,
            Vec2::ZERO,
        )
    };
    // Back from the mean to the place itself.
    let side = Side {
        start: c0 - c1 * mean + c2 * (mean * mean),
        along: c1 - c2 * (2.0 * mean),
        bend: c2,
    };
    (side.along.hypot() > 0.1).then_some(side)
}

fn determinant(m: [[f64; 3]; 3]) -> f64 {
    m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1])
        - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
        + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0])
}

/// Where two sides meet, with the distance along each (below 0 where they are carried on); `otherwise` where they do not.
fn meeting(back: &Side, ahead: &Side, otherwise: Point) -> (Point, [f64; 2]) {
    let (mut a, mut b) = (0.0, 0.0);
    for _ in 0..8 {
        let apart = back.at(a) - ahead.at(b);
        let (da, db) = (back.heading(a), -ahead.heading(b));
        let determinant = da.cross(db);
        if determinant.abs() < 1e-6 {
            return (otherwise, [0.0, 0.0]);
        }
        a = (a - apart.cross(db) / determinant).clamp(-FURTHEST_SHARP, FURTHEST_SHARP);
        b = (b - da.cross(apart) / determinant).clamp(-FURTHEST_SHARP, FURTHEST_SHARP);
    }
    if (back.at(a) - ahead.at(b)).hypot() < 0.01 {
        (back.at(a).to_point(), [a, b])
    } else {
        (otherwise, [0.0, 0.0])
    }
}
