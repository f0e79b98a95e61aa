//! Feeds that follow the load: finished toolpaths are carried out on a raster of the plank's wood, in the order of running, and
//! wherever a cutter takes more than it is set to take it is fed slower; where one that cuts blocks out meets less than a slot, faster.
//!
//! Passes are planned to keep the set width; what is left over (corners that close in from two sides, what a larger cutter left,
//! cuts that came in another order than they were planned, ways at depth) is known only once the whole way is. Motions are parted where
//! their feed changes; no motion moves.

mod feeds;
mod steps;
mod wood;

use crate::feeds::least_feed_mm_min;
use crate::toolpath::Toolpath;
use crate::workshop::{Cutter, CutterShape};

use feeds::Limits;
use steps::Way;

/// The least feed, as part of the cutter's, however much it takes.
const LEAST_FEED: f64 = 0.25;

/// What one cutter does on a plank.
pub(crate) struct Run<'a> {
    /// The cutter.
    pub(crate) cutter: &'a Cutter,
    /// Its motions.
    pub(crate) toolpath: &'a mut Toolpath,
}

/// Lowers the feeds of flat cutters around letters to what they are set to take of the wood that the ones before them leave, and
/// raises those of cutting blocks out where a lane is mostly cut already, as by the block beside it; `runs` are those of one plank, in the
/// order of running.
///
/// Blocks are cut out at a feed for slots. What takes less is fed so that no more chips come away in a time than in a slot, and no
/// faster than the cutter's own feed. Where a cutter goes down its feed stays, for entries have limits of their own; so does that of
/// notches, which are slots all along.
pub(crate) fn keep_the_load(runs: &mut [Run<'_>]) {
    let mut flat: Vec<&mut Run<'_>> = runs
        .iter_mut()
        .filter(|run| run.cutter.shape == CutterShape::Flat)
        .collect();
    let ways: Vec<Way> = flat
        .iter()
        .map(|run| Way::of(run.toolpath, run.cutter.radius_mm()))
        .collect();
    let taken = wood::taken(&ways);
    for ((run, way), taken) in flat.iter_mut().zip(&ways).zip(&taken) {
        let limits = limits(run.cutter);
        run.toolpath.motions = feeds::followed(&run.toolpath.motions, way, taken, &limits);
    }
}

fn limits(cutter: &Cutter) -> Limits {
    let feed = cutter.feed_mm_min;
    Limits {
        set_mm2: cutter.step_over.in_mm() * cutter.step_down.in_mm(),
        slot_mm2: cutter.diameter.in_mm() * cutter.step_down.in_mm(),
        feed_mm_min: feed,
        least_mm_min: least_feed_mm_min(cutter).max(feed * LEAST_FEED),
    }
}

#[cfg(test)]
mod tests;
