//! A machine that follows a program in small steps of time: a second opinion on how long programs take.
//!
//! It shares nothing with the estimate. It reads the program's words itself and, a fraction of a millisecond at a time, runs as
//! fast as it may at the place where it is: speeding up no faster than the axes can, and never so fast that it could not slow
//! down in time for a corner, an arc or a stop ahead, which it looks for afresh in every step.
//!
//! What it knows of machines:
//! - an axis speeds up and slows down evenly, by its own limit at most; on a straight way every axis takes its share, and on an
//!   arc, which turns through the axes, the slower of x and y holds all along;
//! - a corner may be passed at `√(a R)`, where a circle of radius `R = δ sin(θ/2) / (1 - sin(θ/2))` touches both ways and comes as
//!   near as `δ` to the corner, `θ` being the angle between them; `a` is what the axes have together in the direction of the turn
//!   (half axes of an ellipsoid);
//! - an arc of radius `r` may be run at `√(a r)`;
//! - dwells last, and pauses stop the machine without counting.

/// What the simulator knows of a machine. Triples are x, y, z; millimetres and seconds.
#[derive(Clone, Copy, Debug)]
pub struct Axes {
    /// Speed of rapids.
    pub rapid: [f64; 3],
    /// The fastest feeds.
    pub feed: [f64; 3],
    /// Acceleration.
    pub acceleration: [f64; 3],
    /// How near to a corner its rounding comes.
    pub deviation: f64,
}

/// Length of a step of time, s.
const STEP_S: f64 = 0.000_25;

/// Shorter ways are none, mm.
const NO_WAY: f64 = 1e-9;

type Three = [f64; 3];

/// A piece of way with the same limits all along.
struct Way {
    length: f64,
    fastest: f64,
    acceleration: f64,
    leaves: Three,
    arrives: Three,
    /// Whether the machine stops at its end.
    stops: bool,
    /// Dwell after it, s.
    dwell: f64,
}

/// Seconds that a program takes, pauses not counted.
///
/// Knows G0 to G4, G20, G21, G61.1, G64, absolute places and arcs by I and J: what the programs under test say.
///
/// # Panics
/// At a number that is none.
pub fn seconds(program: &str, axes: &Axes) -> f64 {
    let ways = ways(program, axes);
    let corners: Vec<f64> = (0..ways.len())
        .map(|index| match ways.get(index + 1) {
            Some(next) => corner(&ways[index], next, axes),
            None => 0.0,
        })
        .collect();
    run(&ways, &corners) + ways.iter().map(|way| way.dwell).sum::<f64>()
}

/// Follows the ways step by step.
fn run(ways: &[Way], corners: &[f64]) -> f64 {
    let (mut time, mut speed) = (0.0, 0.0_f64);
    let (mut index, mut along) = (0, 0.0);
    while let Some(way) = ways.get(index) {
        // So slow only at a stop, where it would creep for ever.
        let crawl = way.acceleration * STEP_S / 2.0;
        let wish = (speed + way.acceleration * STEP_S).min(way.fastest);
        let reached = along + (speed + wish) / 2.0 * STEP_S;
        let next = wish
            .min(allowed(ways, corners, index, reached, wish))
            .max(crawl);
        let mean = (speed + next) / 2.0;
        let left = way.length - along;
        if mean * STEP_S < left {
            time += STEP_S;
            along += mean * STEP_S;
            speed = next;
            continue;
        }
        // The rest of the way takes only a part of a step.
        time += left / mean.max(NO_WAY);
        speed = next.min(corners[index]);
        index += 1;
        along = 0.0;
    }
    time
}

/// The fastest from which everything ahead can be met by slowing down.
fn allowed(ways: &[Way], corners: &[f64], index: usize, along: f64, wish: f64) -> f64 {
    let mut least = f64::INFINITY;
    // Half the square of the speed that slowing down all the way so far takes off.
    let mut taken = 0.0;
    let mut from = along;
    for (way, corner) in ways[index..].iter().zip(&corners[index..]) {
        taken += way.acceleration * (way.length - from).max(0.0);
        from = 0.0;
        least = least.min(corner * corner + 2.0 * taken);
        if 2.0 * taken > wish * wish {
            break;
        }
    }
    least.sqrt()
}

/// The fastest past the corner between two ways.
fn corner(before: &Way, after: &Way, axes: &Axes) -> f64 {
    if before.stops {
        return 0.0;
    }
    let most = before.fastest.min(after.fastest);
    let along = dot(before.arrives, after.leaves);
    // The angle between the ways: 180° where they go straight on.
    let between = (-along).clamp(-1.0, 1.0).acos();
    let sine = (between / 2.0).sin();
    if 1.0 - sine < 1e-12 {
        return most;
    }
    let radius = axes.deviation * sine / (1.0 - sine);
    let turn: Three = std::array::from_fn(|axis| after.leaves[axis] - before.arrives[axis]);
    let size = dot(turn, turn).sqrt();
    let ellipsoid: f64 = (0..3)
        .map(|axis| (turn[axis] / size / axes.acceleration[axis]).powi(2))
        .sum();
    most.min((radius / ellipsoid.sqrt()).sqrt())
}

fn dot(a: Three, b: Three) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

/// The limit along a direction.
fn share(limits: Three, direction: Three) -> f64 {
    (0..3)
        .filter(|&axis| direction[axis].abs() > 1e-12)
        .map(|axis| limits[axis] / direction[axis].abs())
        .fold(f64::INFINITY, f64::min)
}

/// The words of a program turned into ways.
fn ways(program: &str, axes: &Axes) -> Vec<Way> {
    let mut ways: Vec<Way> = Vec::new();
    let mut here: Three = [0.0; 3];
    let (mut motion, mut feed, mut unit, mut exact) = (0, 0.0, 1.0, false);
    for line in program.lines() {
        let words = words(line);
        let mut to = here;
        let (mut arm, mut moves, mut dwell) = ([0.0; 2], false, false);
        let mut pause = 0.0;
        for &(letter, value) in &words {
            match (letter, value) {
                ('G', 0.0..=3.0) => motion = value as u8,
                ('G', 4.0) => dwell = true,
                ('G', 20.0) => unit = 25.4,
                ('G', 21.0) => unit = 1.0,
                ('G', 61.1) => exact = true,
                ('G', 64.0) => exact = false,
                ('M', 0.0 | 1.0 | 60.0 | 6.0) => stop(&mut ways, 0.0),
                ('M', 2.0 | 30.0) => return ways,
                ('F', _) => feed = value * unit / 60.0,
                ('P', _) => pause = value,
                _ => {}
            }
        }
        for &(letter, value) in &words {
            let axis = match letter {
                'X' => 0,
                'Y' => 1,
                'Z' => 2,
                'I' | 'J' => {
                    arm[usize::from(letter == 'J')] = value * unit;
                    continue;
                }
                _ => continue,
            };
            to[axis] = value * unit;
            moves = true;
        }
        if dwell {
            stop(&mut ways, pause);
        }
        if moves {
            ways.extend(way(here, to, arm, (motion, feed, exact), axes));
            here = to;
        }
    }
    ways
}

fn stop(ways: &mut [Way], dwell: f64) {
    if let Some(last) = ways.last_mut() {
        last.stops = true;
        last.dwell += dwell;
    }
}

/// The way of one line.
fn way(from: Three, to: Three, arm: [f64; 2], how: (u8, f64, bool), axes: &Axes) -> Option<Way> {
    let (motion, feed, stops) = how;
    let rise = to[2] - from[2];
    if motion < 2 {
        let whole: Three = std::array::from_fn(|axis| to[axis] - from[axis]);
        let length = dot(whole, whole).sqrt();
        if length < NO_WAY {
            return None;
        }
        let direction = whole.map(|part| part / length);
        let fastest = if motion == 0 {
            share(axes.rapid, direction)
        } else {
            feed.min(share(axes.feed, direction))
        };
        return Some(Way {
            length,
            fastest,
            acceleration: share(axes.acceleration, direction),
            leaves: direction,
            arrives: direction,
            stops,
            dwell: 0.0,
        });
    }
    let centre = [from[0] + arm[0], from[1] + arm[1]];
    let radius = arm[0].hypot(arm[1]);
    let clockwise = motion == 2;
    let angle = |place: Three| (place[1] - centre[1]).atan2(place[0] - centre[0]);
    let turned = if clockwise {
        angle(from) - angle(to)
    } else {
        angle(to) - angle(from)
    };
    let full = std::f64::consts::TAU;
    let mut turned = turned.rem_euclid(full);
    if (to[0] - from[0]).hypot(to[1] - from[1]) < 1e-9 {
        turned = full;
    }
    let flat = radius * turned;
    let length = flat.hypot(rise);
    let (level, upright) = (flat / length, rise / length);
    let tangent = |place: Three| {
        let (sine, cosine) = angle(place).sin_cos();
        let sense = if clockwise { -level } else { level };
        [-sine * sense, cosine * sense, upright]
    };
    let slower = |limits: Three| {
        let [x, y, z] = limits;
        (x.min(y) / level.max(1e-12)).min(if upright == 0.0 {
            f64::INFINITY
        } else {
            z / upright.abs()
        })
    };
    let [x, y, _] = axes.acceleration;
    let round = (x.min(y) * radius).sqrt() / level.max(1e-12);
    Some(Way {
        length,
        fastest: feed.min(slower(axes.feed)).min(round),
        acceleration: slower(axes.acceleration),
        leaves: tangent(from),
        arrives: tangent(to),
        stops,
        dwell: 0.0,
    })
}

/// The words of a line without its comments.
fn words(line: &str) -> Vec<(char, f64)> {
    let mut words = Vec::new();
    let (mut comment, mut letter, mut number) = (false, ' ', String::new());
    let line = line.split(';').next().unwrap_or_default();
    for sign in line.chars().chain(std::iter::once(' ')) {
        match sign {
            '(' => comment = true,
            ')' => comment = false,
            _ if comment => {}
            '0'..='9' | '.' | '-' | '+' => number.push(sign),
            _ => {
                if !number.is_empty() {
                    let value = number.parse().expect("a number of the program");
                    words.push((letter, value));
                    number.clear();
                }
                letter = sign.to_ascii_uppercase();
            }
        }
    }
    words
}

#[cfg(test)]
mod tests {
    use super::*;

    const AXES: Axes = Axes {
        rapid: [30.0; 3],
        feed: [30.0; 3],
        acceleration: [200.0; 3],
        deviation: 0.01,
    };

    #[track_caller]
    fn check(program: &str, expected: f64) {
        let found = seconds(program, &AXES);
        assert!(
            (found / expected - 1.0).abs() < 4e-3,
            "{found} s, not {expected} s"
        );
    }

    /// Closed forms: d/v + v/a; 2 √(d/a); a rectangle of 40 × 20 mm; an arc at √(a r).
    #[test]
    fn what_can_be_worked_out_by_hand() {
        check("G1 X100 F9000", 100.0 / 30.0 + 30.0 / 200.0);
        check("G1 X1 F9000", 2.0 * (1.0_f64 / 200.0).sqrt());
        check("G1 X40 F9000\nG1 Y20\nG1 X0\nG1 Y0", 4.536_49);
        check(
            "G3 X0 Y0 I2 J0 F9000",
            4.0 * std::f64::consts::PI / 20.0 + 0.1,
        );
        check(
            "G1 X100 F9000\nG4 P2\nG1 X200",
            2.0 * (100.0 / 30.0 + 0.15) + 2.0,
        );
    }
}
