//! The least machine time that a fount can take, worked out from its letters, cutters, depths and machine, never from paths.
//!
//! - **Layers.** No place is cut deeper at once than a cutter's step down, so it takes wanted depth ÷ step down layers, rounded up.
//! - **Walls.** What lies as near to a wall as the allowance of a cutter that gets there is left to finishing.
//! - **Clearing.** A cutter sweeps fresh wood at most as wide as its step over, so a layer of an area takes at least area ÷
//!   (step over × feed). Each place goes to whichever cutter that reaches it is quickest there. A cut that is wider than the
//!   step over at a feed lowered in proportion clears no faster.
//! - **Beside the blocks.** Walls are finished by the largest cutter that touches them, by rule. Where it reaches over the block's
//!   edge for that, the wood in its way there has to go as well, once where blocks share a lane.
//! - **Closed pieces.** A piece that no cutter gets to from the block's edge has to be plunged into: one disc comes free, and
//!   the way down takes its time.
//! - **Finishing.** Each stretch of wall is passed once by the largest cutter that touches it, at the feed or as fast as the
//!   machine can follow: its acceleration bounds the speed in curves, and how far it may round a corner that at corners. A run
//!   forward and one backward over the path give the least time exactly; the ends of a stretch may be passed at full speed.
//! - **Forced links.** One way down and one up for each cutter on each plank, and one up for each piece plunged into. Travel
//!   may be made while cutting, and counts as nothing; so do leads, overlaps and whatever else a planner chooses to do.
//!
//! # Source
//! Clearing by area: the usual counting argument for milling, as in E. M. Arkin, S. P. Fekete, J. S. B. Mitchell, "Approximation
//! algorithms for lawn mowing and milling", Computational Geometry 17, 2000. Speed at corners: a circle that touches both
//! directions and passes the corner at the tolerance. Evenly accelerated motion: any textbook of mechanics.

mod beside;
mod clearing;
mod finishing;

use cam_core::commission::Commission;
use cam_core::plank::Plank;
use cam_core::relief::Relief;
use cam_core::sort::Sort;
use cam_core::workshop::{Cutter, CutterShape, Machine, Workshop};
use kurbo::{BezPath, Rect};

use crate::referee::Area;

/// Part of a cutter's radius that may be left on walls for its finishing pass to take, however much the commission allows.
const MOST_ALLOWANCE: f64 = 0.25;

/// What one cutter can do. Lengths in mm, speeds in mm/s.
#[derive(Clone, Debug, PartialEq)]
pub struct Mill {
    /// Its radius.
    pub radius: f64,
    /// The widest cut.
    pub step_over: f64,
    /// The deepest layer.
    pub step_down: f64,
    /// The deepest it may go.
    pub depth: f64,
    /// Feed along a path.
    pub feed: f64,
    /// Feed straight down.
    pub plunge: f64,
    /// What its finishing pass may take off a wall that was left standing.
    pub allowance: f64,
}

impl Mill {
    /// A flat cutter of the workshop, as the commission uses it.
    pub fn new(cutter: &Cutter, commission: &Commission, machine: &Machine) -> Mill {
        const SECONDS_PER_MINUTE: f64 = 60.0;
        let [x, y, z] = machine.max_feed_mm_min;
        let depth = cutter.max_depth.in_mm().min(cutter.flute_length.in_mm());
        Mill {
            radius: cutter.radius_mm(),
            step_over: cutter.step_over.in_mm(),
            step_down: cutter.step_down.in_mm(),
            depth: depth.min(commission.cutting.relief.in_mm()),
            // A direction between the axes may be followed faster than either by √2 at most.
            feed: cutter.feed_mm_min.min(x.hypot(y)) / SECONDS_PER_MINUTE,
            plunge: cutter.plunge_mm_min.min(z) / SECONDS_PER_MINUTE,
            allowance: commission
                .cutting
                .allowance
                .in_mm()
                .min(cutter.radius_mm() * MOST_ALLOWANCE),
        }
    }

    fn layers(&self, depth: f64) -> f64 {
        (depth.min(self.depth) / self.step_down - 1e-9).ceil()
    }
}

/// The flat cutters that a commission names, from the largest to the smallest.
pub fn mills(commission: &Commission, workshop: &Workshop) -> Vec<Mill> {
    let mut mills: Vec<Mill> = commission
        .cutting
        .cutters
        .iter()
        .filter_map(|id| workshop.cutter(id))
        .filter(|cutter| cutter.shape == CutterShape::Flat)
        .map(|cutter| Mill::new(cutter, commission, &workshop.machine))
        .collect();
    mills.sort_by(|one, other| other.radius.total_cmp(&one.radius));
    mills
}

/// What the machine can do, in mm and s.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drive {
    /// Acceleration across and along, of the quicker axis.
    pub acceleration: f64,
    /// How far a corner may be rounded.
    pub deviation: f64,
    /// Speed and acceleration up and down.
    pub lift: [f64; 2],
    /// Height of long moves above the face.
    pub clear_height: f64,
}

impl Drive {
    /// The workshop's machine.
    pub fn new(machine: &Machine) -> Drive {
        let [x, y, z] = machine.acceleration_mm_s2;
        Drive {
            acceleration: x.max(y),
            deviation: machine.junction_deviation_mm,
            lift: [machine.rapid_mm_min[2] / 60.0, z],
            clear_height: machine.clear_height_mm,
        }
    }

    /// Least time straight up or down by a distance, from rest to rest.
    fn lifting(&self, distance: f64) -> f64 {
        let [speed, acceleration] = self.lift;
        if distance * acceleration >= speed * speed {
            distance / speed + speed / acceleration
        } else {
            2.0 * (distance / acceleration).sqrt()
        }
    }
}

/// The least times of one sort or of many, s.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Bound {
    /// Clearing ground, with the ways down into closed pieces.
    pub clearing: f64,
    /// Passing along walls.
    pub finishing: f64,
    /// Links that cannot be avoided.
    pub forced: f64,
}

impl Bound {
    /// All of it.
    pub fn whole(&self) -> f64 {
        self.clearing + self.finishing + self.forced
    }

    fn add(&mut self, other: Bound, times: f64) {
        self.clearing += other.clearing * times;
        self.finishing += other.finishing * times;
        self.forced += other.forced * times;
    }
}

/// The bound of one sort: its drawn letter in its block, both in mm.
pub fn of_letter(
    drawn: &BezPath,
    letter: &Area,
    block: Rect,
    mills: &[Mill],
    relief: &Relief,
    drive: &Drive,
) -> Bound {
    let cleared = clearing::least(letter, block, mills, relief);
    Bound {
        clearing: cleared.seconds,
        finishing: finishing::least(drawn, letter, mills, drive),
        forced: cleared
            .closed
            .iter()
            .map(|depth| drive.lifting(*depth))
            .sum(),
    }
}

/// The bound of a whole fount as it lies on its planks, changes of cutter and separation of the blocks left out.
pub fn of_fount(
    sorts: &[impl AsRef<Sort>],
    planks: &[Plank],
    commission: &Commission,
    workshop: &Workshop,
) -> Bound {
    let mills = mills(commission, workshop);
    let relief = Relief::of(&commission.cutting);
    let drive = Drive::new(&workshop.machine);
    let mut whole = Bound::default();
    let lane = commission.planks.lane.in_mm();
    let mut beyond: Vec<Area> = vec![Area::default(); sorts.len()];
    for (number, sort) in sorts.iter().map(AsRef::as_ref).enumerate() {
        let copies = planks
            .iter()
            .flat_map(|plank| &plank.places)
            .filter(|place| place.sort == number)
            .count();
        if sort.face.is_empty() || copies == 0 {
            continue;
        }
        let letter = Area::of(&sort.face);
        let bound = of_letter(
            &sort.outline,
            &letter,
            sort.block.rect(),
            &mills,
            &relief,
            &drive,
        );
        whole.add(bound, copies as f64);
        if let Some(largest) = mills.first() {
            beyond[number] = beside::beyond(&letter, sort.block.rect(), largest, &relief, lane);
        }
    }
    let cost = beside::cost(&mills, &relief);
    for plank in planks {
        let laid = plank
            .places
            .iter()
            .map(|place| beyond[place.sort].moved(place.at));
        whole.clearing += Area::of_all(laid).square_mm() * cost;
    }
    for mill in &mills {
        let depth = mill.depth.min(relief.least_mm);
        let way = drive.lifting(drive.clear_height) + drive.lifting(drive.clear_height + depth);
        whole.forced += way * planks.len() as f64;
    }
    whole
}

#[cfg(test)]
mod tests;
