//! Which way a page should stand, by its long straight lines.

use super::fit::Fitted;

/// Lines shorter than this say little, in dots. Common practice, no source, as the others below.
const SHORTEST: f64 = 20.0;
/// A page lies crooked by at most this much, in degrees; lines that lean more are slanted on purpose.
const MOST_DEG: f64 = 8.0;
/// How finely directions are tried, and how far from one a line still speaks for it, in degrees.
const STEP_DEG: f64 = 0.05;
const NEAR_DEG: f64 = 0.6;
/// What part of the length of all nearly level or upright lines must agree.
const LEAST_PART: f64 = 0.4;

/// The turn in radians, counter-clockwise, that makes the most of the straight lines level or upright; `None` where none tell.
pub(super) fn turn(fitted: &[Fitted]) -> Option<f64> {
    let leaning: Vec<(f64, f64)> = fitted
        .iter()
        .flat_map(|ring| &ring.lines)
        .filter_map(|&(from, to)| {
            let along = to - from;
            let length = along.hypot();
            let lean = (along.atan2().to_degrees() + 45.0).rem_euclid(90.0) - 45.0;
            (length >= SHORTEST && lean.abs() <= MOST_DEG).then_some((lean, length))
        })
        .collect();
    let total: f64 = leaning.iter().map(|line| line.1).sum();
    if total <= 0.0 {
        return None;
    }
    let steps = (MOST_DEG / STEP_DEG) as i64;
    let speaking = |lean: f64| -> f64 {
        leaning
            .iter()
            .map(|&(other, length)| length * (1.0 - (other - lean).abs() / NEAR_DEG).max(0.0))
            .sum()
    };
    let best = (-steps..=steps)
        .map(|step| step as f64 * STEP_DEG)
        .max_by(|a, b| {
            speaking(*a)
                .total_cmp(&speaking(*b))
                .then(b.abs().total_cmp(&a.abs()))
        })?;
    // Long lines tell their direction better: an error at the ends turns them less.
    let (mut weight, mut sum) = (0.0, 0.0);
    let mut agreeing = 0.0;
    for &(lean, length) in leaning
        .iter()
        .filter(|line| (line.0 - best).abs() <= NEAR_DEG)
    {
        weight += length * length;
        sum += lean * length * length;
        agreeing += length;
    }
    (agreeing >= LEAST_PART * total && weight > 0.0).then(|| -(sum / weight).to_radians())
}
