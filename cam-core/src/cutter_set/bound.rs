//! The least time that a cutter can take to clear all the ground it reaches, without planning it.

use super::Job;
use super::choice::is_flat;
use super::hand::ByHand;
use crate::relief::Relief;
use crate::workshop::Cutter;

/// No length of roughing path clears more than this part of the cutter's width at its feed, or else this part more than the set
/// width of a cut: wider cuts are fed slower.
const WIDEST_FAST: f64 = 0.6;
const OVER_SET_WIDTH: f64 = 1.15;

/// Part of the radius that is left on walls at most.
const MOST_ALLOWANCE: f64 = 0.25;

/// Seconds below which no flat cutter can clear, alone, what it reaches on all copies; nothing for other cutters.
///
/// Ground that a disc reaches is at least as wide as the disc, so the depth wanted there is at least the one for that width. What
/// lies along the walls may be taken at full depth when they are finished, and is not counted.
pub(super) fn least_seconds_alone(
    job: &Job<'_>,
    cutters: &[&Cutter],
    depths: &[f64],
    by_hand: &ByHand,
) -> Vec<f64> {
    const SECONDS_PER_MINUTE: f64 = 60.0;
    let cutting = &job.commission.cutting;
    let relief = Relief::of(cutting);
    let walls_mm: f64 = job
        .sorts
        .iter()
        .map(|sort| sort.face.perimeter() * f64::from(sort.count))
        .sum();
    let alone = |(number, &cutter): (usize, &&Cutter)| {
        if !is_flat(cutter) {
            return 0.0;
        }
        let mut volume_mm3 = 0.0;
        let mut reached_before = 0.0;
        for (place, larger) in cutters.iter().enumerate().take(number + 1) {
            let left = by_hand.get(&vec![place]);
            let reached = left.map_or(0.0, |left| left.reached_mm2);
            let wanted = relief.depth_at_width(larger.diameter.in_mm());
            let more: f64 = reached - reached_before;
            volume_mm3 += more.max(0.0) * wanted.min(depths[number]);
            reached_before = reached_before.max(reached);
        }
        let allowance = cutting
            .allowance
            .in_mm()
            .min(cutter.radius_mm() * MOST_ALLOWANCE);
        let by_finishing = walls_mm * allowance * depths[number];
        let set_width = cutter.step_over.in_mm() * OVER_SET_WIDTH;
        let widest = set_width.max(cutter.diameter.in_mm() * WIDEST_FAST);
        let cleared_per_mm = widest * cutter.step_down.in_mm();
        let path_mm = (volume_mm3 - by_finishing).max(0.0) / cleared_per_mm;
        path_mm / cutter.feed_mm_min * SECONDS_PER_MINUTE
    };
    cutters.iter().enumerate().map(alone).collect()
}
