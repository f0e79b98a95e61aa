//! The way of a cutter in short steps.

use std::ops::Range;

use geometry::arc_path::sweep;
use kurbo::{Point, Vec2};

use crate::pass::Purpose;
use crate::toolpath::{Course, Motion, Place3, Toolpath};

/// Length of a step, in radii, and its bounds, mm: what lies between two discs so near to one another is less than a hundredth of a
/// millimetre wide.
const STEP_RADII: f64 = 1.0 / 15.0;
const STEP_MM: [f64; 2] = [0.05, 0.25];

/// Less than this a motion does not go down, mm.
const LEVEL_MM: f64 = 1e-6;

/// A place where the cutter stands.
#[derive(Clone, Copy, Debug)]
pub(super) struct Step {
    /// In the raster's directions ([`askew`]).
    pub(super) at: Point,
    /// Depth of its end below the face, mm.
    pub(super) depth: f64,
    /// Whether the step before stood at least as deep, so that what that covered need not be looked at again.
    pub(super) goes_on: bool,
}

/// What a motion's feed follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Rule {
    /// It stays as it is: the cutter goes down, or cuts a notch.
    Kept,
    /// It falls where more is taken than the set width.
    SetWidth,
    /// It rises where less is taken than a slot.
    Slot,
}

/// The steps of one motion.
#[derive(Clone, Debug)]
pub(super) struct Fed {
    /// The number of the motion.
    pub(super) motion: usize,
    /// Its steps by number.
    pub(super) steps: Range<usize>,
    /// Length of each, mm.
    pub(super) length: f64,
    /// Its feed, mm/min.
    pub(super) feed: f64,
    /// What its feed follows.
    pub(super) rule: Rule,
    /// Whether it follows on the one before in this list.
    pub(super) follows: bool,
}

/// A cutter's way through the wood of a plank.
#[derive(Clone, Debug)]
pub(super) struct Way {
    pub(super) radius: f64,
    pub(super) steps: Vec<Step>,
    pub(super) fed: Vec<Fed>,
}

impl Way {
    /// The parts of a toolpath below the face.
    pub(super) fn of(toolpath: &Toolpath, radius: f64) -> Way {
        let spacing = (radius * STEP_RADII).clamp(STEP_MM[0], STEP_MM[1]);
        let mut way = Way {
            radius,
            steps: Vec::new(),
            fed: Vec::new(),
        };
        let mut in_wood = false;
        for (number, pair) in toolpath.motions.windows(2).enumerate() {
            let (from, motion) = (pair[0].to, &pair[1]);
            let Some(feed) = fed_in_wood(from, motion) else {
                in_wood = false;
                continue;
            };
            if !in_wood {
                way.steps.push(Step {
                    at: askew(from.xy),
                    depth: -from.z,
                    goes_on: false,
                });
            }
            way.add(from, motion, number + 1, spacing, feed, in_wood);
            in_wood = true;
        }
        way
    }

    fn add(
        &mut self,
        from: Place3,
        motion: &Motion,
        number: usize,
        spacing: f64,
        feed: f64,
        follows: bool,
    ) {
        let length = length(from, motion);
        // Bound: motions lie on a plank, and steps are no shorter than a twentieth of a millimetre.
        let count = (length / spacing).ceil().max(1.0) as usize;
        let first = self.steps.len();
        let mut before = -from.z;
        for step in 1..=count {
            let place = place(from, motion, step as f64 / count as f64);
            let depth = -place.z;
            self.steps.push(Step {
                at: askew(place.xy),
                depth,
                goes_on: before >= depth,
            });
            before = depth;
        }
        self.fed.push(Fed {
            motion: number,
            steps: first..self.steps.len(),
            length: length / count as f64,
            feed,
            rule: rule(from, motion),
            follows,
        });
    }
}

/// Cosine and sine of the angle at which the raster lies to the plank, 21 degrees.
const ASKEW: [f64; 2] = [0.933_580_426_497_2, 0.358_367_949_545_3];

/// A place in the raster's own directions. Walls are mostly upright or level, and along rows of cells a sliver beside one would be told a
/// cell too wide or too narrow all along; across them that evens out.
fn askew(at: Point) -> Point {
    let [cos, sin] = ASKEW;
    Point::new(at.x * cos - at.y * sin, at.x * sin + at.y * cos)
}

/// The feed of a motion that goes below the face; `None` of any other. Cones leave no more than grooves, and are not told here.
fn fed_in_wood(from: Place3, motion: &Motion) -> Option<f64> {
    let feed = match motion.course {
        Course::Rapid => return None,
        Course::Line { feed_mm_min } | Course::Arc { feed_mm_min, .. } => feed_mm_min,
    };
    (from.z.min(motion.to.z) < 0.0).then_some(feed)
}

fn rule(from: Place3, motion: &Motion) -> Rule {
    if motion.to.z < from.z - LEVEL_MM {
        return Rule::Kept;
    }
    match motion.purpose {
        Some(Purpose::Roughing | Purpose::Rest | Purpose::Finishing) => Rule::SetWidth,
        Some(Purpose::Separation) => Rule::Slot,
        Some(Purpose::Corners | Purpose::Notches) | None => Rule::Kept,
    }
}

fn length(from: Place3, motion: &Motion) -> f64 {
    let flat = match motion.course {
        Course::Rapid | Course::Line { .. } => from.xy.distance(motion.to.xy),
        Course::Arc { centre, turn, .. } => {
            from.xy.distance(centre) * sweep(from.xy, motion.to.xy, centre, turn)
        }
    };
    flat.hypot(motion.to.z - from.z)
}

/// Where a motion is after a part of its way.
pub(super) fn place(from: Place3, motion: &Motion, part: f64) -> Place3 {
    if part >= 1.0 {
        return motion.to;
    }
    let xy = match motion.course {
        Course::Rapid | Course::Line { .. } => from.xy.lerp(motion.to.xy, part),
        Course::Arc { centre, turn, .. } => {
            let angle = turn.sign() * sweep(from.xy, motion.to.xy, centre, turn) * part;
            let (arm, (sin, cos)) = (from.xy - centre, angle.sin_cos());
            centre + Vec2::new(arm.x * cos - arm.y * sin, arm.x * sin + arm.y * cos)
        }
    };
    Place3 {
        xy,
        z: from.z + (motion.to.z - from.z) * part,
    }
}
