//! The least time that a cutter can take to clear all the ground it reaches, without planning it.

use super::Job;
use super::choice::is_flat;
use super::hand::ByHand;
use crate::relief::Relief;
use crate::workshop::Cutter;

/// Seconds below which no flat cutter can clear, alone, what it reaches on all copies; nothing for other cutters.
///
/// Ground that a disc reaches is at least as wide as the disc, so the depth wanted there is at least the one for that width. Of
/// the ground so known, no length of path clears more than the cutter's width in one layer (or the allowance at both sides of a
/// full depth, when it finishes), and no cut is fed faster than the cutter's feed.
pub(super) fn least_seconds_alone(
    job: &Job<'_>,
    cutters: &[&Cutter],
    depths: &[f64],
    by_hand: &ByHand,
) -> Vec<f64> {
    const SECONDS_PER_MINUTE: f64 = 60.0;
    let cutting = &job.commission.cutting;
    let relief = Relief::of(cutting);
    (0..cutters.len())
        .map(|number| {
            let cutter = cutters[number];
            if !is_flat(cutter) {
                return 0.0;
            }
            let mut volume_mm3 = 0.0;
            let mut reached_before = 0.0;
            for (place, larger) in cutters.iter().enumerate().take(number + 1) {
                let reached = by_hand
                    .get(&vec![place])
                    .map_or(0.0, |left| left.reached_mm2);
                let wanted = relief.depth_at_width(larger.diameter.in_mm());
                let more: f64 = reached - reached_before;
                volume_mm3 += more.max(0.0) * wanted.min(depths[number]);
                reached_before = reached_before.max(reached);
            }
            let in_a_layer = cutter.diameter.in_mm() * cutter.step_down.in_mm();
            let finishing = 2.0 * cutting.allowance.in_mm() * depths[number];
            let cleared_per_mm = in_a_layer.max(finishing);
            volume_mm3 / cleared_per_mm / cutter.feed_mm_min * SECONDS_PER_MINUTE
        })
        .collect()
}
