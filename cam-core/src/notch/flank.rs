//! How deep one side of a block can be cut, seam by seam.

use geometry::profile::Profile;

use super::{End, Side};
use crate::measure::{Length, System};
use crate::sort::Sort;

/// The least wood that holds a block together beside or below a notch, mm. Common practice, no source.
const NECK_MM: f64 = 6.0;

/// How much more than the cutter's radius a bevel takes off, mm, so that it clears the fillet whatever rounding does.
const BEVEL_SPARE_MM: f64 = 0.1;

/// The narrowest notch, beyond its bevel, in radii of the cutter: in a narrower one the cutter, standing against the wall, could not cut
/// the bevel from its upper end. It is 1 - cos 45°, and a little.
const BESIDE_BEVEL_RADII: f64 = 0.3;

/// Lengths that differ by less are one, mm.
const SAME_MM: f64 = 1e-6;

/// What every notch of a fount has in common, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sizes {
    /// The least wood between a notch and the face, across and along.
    pub wall_mm: f64,
    /// Room between the steps of a pair.
    pub clearance_mm: f64,
    /// Radius of the cutter.
    pub radius_mm: f64,
}

impl Sizes {
    /// How much of an outer corner is cut off, along either side.
    pub fn bevel_mm(&self) -> f64 {
        self.radius_mm + BEVEL_SPARE_MM
    }

    /// The narrowest notch that the cutter makes.
    pub fn least_width_mm(&self) -> f64 {
        self.bevel_mm() + BESIDE_BEVEL_RADII * self.radius_mm
    }

    /// How much wider than its whole steps a notch is cut.
    pub fn wider_mm(&self, side: Side) -> f64 {
        match side {
            Side::Left => self.clearance_mm,
            Side::Right => 0.0,
        }
    }

    /// How much higher than its whole steps a notch is cut.
    pub fn higher_mm(&self) -> f64 {
        self.clearance_mm / 2.0
    }

    /// The lane that cutting a bevel takes: the cutter stands beside the block's edge there.
    pub fn least_lane_mm(&self) -> f64 {
        self.radius_mm * (1.0 + std::f64::consts::FRAC_1_SQRT_2)
    }
}

/// One side of a letter on its block, turned so that the side faces right: the block's edge is at x = 0, the face left of it. Heights
/// are from the foot of the plain body.
#[derive(Clone, Debug)]
pub struct Flank {
    side: Side,
    face: Profile,
    foot_mm: f64,
    head_mm: f64,
    set_mm: f64,
}

impl Flank {
    /// A side of a sort; the profile is that of its face, in face space.
    pub fn of(sort: &Sort, profile: &Profile, side: Side, system: System) -> Flank {
        let block = &sort.block;
        let below = Length::points_of(block.extended_pt[0], system).in_mm();
        let face = match side {
            // The mirror has put the right side, as printed, to the left, at x = 0.
            Side::Right => profile.mirrored(true, false).shifted(0.0, -below),
            Side::Left => profile.shifted(-block.set_mm, -below),
        };
        Flank {
            side,
            face,
            foot_mm: -below,
            head_mm: block.body_mm - below,
            set_mm: block.set_mm,
        }
    }

    /// The widest notch, mm, that can be cut from this side at one end down (or up) to a seam; 0 if none can.
    ///
    /// Between the notch, its bevel included, and the face the wall is kept, across and along. Beside and below the notch a neck
    /// of 6 mm remains, also when the other side is cut as deep.
    pub fn deepest_mm(&self, end: End, seam_mm: f64, sizes: &Sizes) -> f64 {
        match end {
            End::Head => Upright {
                face: &self.face,
                foot_mm: self.foot_mm,
                head_mm: self.head_mm,
            }
            .deepest_mm(seam_mm, self, sizes),
            End::Foot => Upright {
                face: &self.face.mirrored(false, true),
                foot_mm: -self.head_mm,
                head_mm: -self.foot_mm,
            }
            .deepest_mm(-seam_mm, self, sizes),
        }
    }

    /// Heights of the block's foot and head, mm.
    pub fn ends_mm(&self) -> [f64; 2] {
        [self.foot_mm, self.head_mm]
    }
}

/// A flank turned so that the notch is at its upper end.
struct Upright<'f> {
    face: &'f Profile,
    foot_mm: f64,
    head_mm: f64,
}

impl Upright<'_> {
    fn deepest_mm(&self, seam: f64, flank: &Flank, sizes: &Sizes) -> f64 {
        let (wall, bevel) = (sizes.wall_mm, sizes.bevel_mm());
        let wider = sizes.wider_mm(flank.side);
        let floor = seam - sizes.higher_mm();
        let high_enough = self.head_mm - floor >= sizes.least_width_mm() - SAME_MM;
        let held = floor - self.foot_mm >= NECK_MM - SAME_MM;
        if !(high_enough && held) {
            return 0.0;
        }
        // Along the bevel x + y is constant; the wall beside it moves that line by itself both ways.
        let line = floor - bevel - 2.0 * wall;
        let beside_bevel = self.face.rightmost(floor - bevel - wall, floor - wall, 1.0);
        if beside_bevel.is_some_and(|furthest| furthest > line + SAME_MM) {
            return 0.0;
        }
        let to_face = self
            .face
            .rightmost(floor - wall, self.head_mm, 0.0)
            .map_or(f64::INFINITY, |furthest| -furthest - wall);
        let to_neck = (flank.set_mm - NECK_MM) / 2.0;
        let deepest = to_face.min(to_neck) - wider;
        if deepest < sizes.least_width_mm() - SAME_MM {
            return 0.0;
        }
        deepest + SAME_MM
    }
}
