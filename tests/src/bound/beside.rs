//! Wood beside the blocks that no way round the letters leaves standing.

use cam_core::relief::Relief;
use kurbo::Rect;

use super::Mill;
use super::clearing::area_of;
use crate::referee::Area;

/// How far the middles of touching discs are taken to spread, mm, and by how much less than their radius those cover for it.
const SPREAD: f64 = 0.01;

/// What the largest cutter has to sweep beyond a block to pass along the walls that it touches there: its pass takes no more than
/// the allowance, so the rest has to go before.
///
/// `lane` is the way that it may leave the block by. Only walls beside open ground count, where the depth is the full one.
pub(super) fn beyond(letter: &Area, block: Rect, mill: &Mill, relief: &Relief, lane: f64) -> Area {
    let margin = 3.0 * mill.radius + relief.wide_width_mm;
    let plane = area_of(block.inflate(margin, margin));
    let ground = plane.without(letter);
    let centres = ground.grown(-mill.radius);
    let reach = lane - mill.radius;
    let touching = centres
        .without(&centres.grown(-SPREAD))
        .intersection(&area_of(block.inflate(reach, reach)))
        .intersection(&ground.opened(relief.wide_width_mm / 2.0));
    touching
        .grown(mill.radius - 2.0 * SPREAD)
        .intersection(&area_of(block.inflate(lane, lane)))
        .without(&area_of(block))
        .without(&letter.grown(mill.allowance))
}

/// The least seconds for each square millimetre of such wood.
pub(super) fn cost(mills: &[Mill], relief: &Relief) -> f64 {
    mills
        .iter()
        .map(|mill| mill.layers(relief.full_mm) / (mill.step_over * mill.feed))
        .reduce(f64::min)
        .unwrap_or(0.0)
}
