//! Conical cutters as corners are sharpened with them: how wide they cut at the face, by how deep the tip is.

use crate::commission::{Commission, Cutting};
use crate::workshop::{Cutter, CutterShape, Workshop};

/// A conical cutter's shape, all in mm.
///
/// # Source
/// Elementary: at a height h above a tip of width t, a cone of angle a is t + 2·h·tan(a/2) wide.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cone {
    /// Half the diameter of the flat at the tip.
    pub tip_radius: f64,
    /// Growth of the radius for each millimetre of height: the tangent of half the included angle.
    pub slope: f64,
    /// How deep the tip may go below the face: no deeper than the full relief, the cutter's own limit, its flutes, or where the
    /// cone is as wide as the cutter.
    pub deepest: f64,
}

impl Cone {
    /// The shape of a conical cutter in a commission's work; `None` for another cutter, or one whose measures make no cone.
    pub fn of(cutter: &Cutter, cutting: &Cutting) -> Option<Cone> {
        let CutterShape::Conical {
            tip,
            included_angle_deg,
        } = cutter.shape
        else {
            return None;
        };
        let tip_radius = tip.in_mm() / 2.0;
        let slope = (included_angle_deg / 2.0).to_radians().tan();
        let deepest = cutting
            .relief
            .in_mm()
            .min(cutter.max_depth.in_mm())
            .min(cutter.flute_length.in_mm())
            .min((cutter.radius_mm() - tip_radius) / slope);
        let proper = slope > 0.0 && slope.is_finite() && tip_radius >= 0.0 && deepest > 0.0;
        proper.then_some(Cone {
            tip_radius,
            slope,
            deepest,
        })
    }

    /// The commission's conical cutters, each once, from the bluntest tip to the finest; those that the workshop does not have
    /// are left out.
    pub fn of_commission<'w>(
        commission: &Commission,
        workshop: &'w Workshop,
    ) -> Vec<(&'w Cutter, Cone)> {
        let mut found: Vec<(&Cutter, Cone)> = Vec::new();
        for id in &commission.cutting.cutters {
            if let Some(cutter) = workshop.cutter(id)
                && let Some(cone) = Cone::of(cutter, &commission.cutting)
                && found.iter().all(|(known, _)| known.id != *id)
            {
                found.push((cutter, cone));
            }
        }
        found.sort_by(|(a, one), (b, other)| {
            other
                .tip_radius
                .total_cmp(&one.tip_radius)
                .then_with(|| a.id.cmp(&b.id))
        });
        found
    }

    /// How wide it cuts at the face with its tip at a depth: half the width.
    pub fn radius_at(&self, depth: f64) -> f64 {
        self.tip_radius + self.slope * depth
    }

    /// The depth of the tip at which it cuts so wide at the face; negative where even the tip is wider.
    pub fn depth_for(&self, radius: f64) -> f64 {
        (radius - self.tip_radius) / self.slope
    }

    /// Whether it can cut everything that a disc of this radius leaves: at its deepest it must be as wide at the face.
    ///
    /// Where it is not, ground would be left standing between its cut and the wall, and it is not used at all.
    pub fn follows(&self, radius: f64) -> bool {
        self.radius_at(self.deepest) >= radius + MOUTH_MM && self.tip_radius < radius
    }
}

/// How much wider than the smallest flat cutter the ground is where a cone comes down, mm: so much that it stands free of what
/// that cutter's walls keep off the drawn line.
pub const MOUTH_MM: f64 = 0.02;
