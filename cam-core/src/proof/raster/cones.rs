//! Which cones a job can ask to follow what its flat cutters leave.

use crate::job_file::JobCutter;
use crate::proof::solid::Solid;

/// How much wider than needed a cone must be at its deepest before the walls are asked of it, mm.
const SURELY_MM: f64 = 0.05;

/// The radii of the tips of the cones that surely follow: at their deepest they are as wide at the face as what the cutter
/// before leaves, the smallest flat one first.
pub fn following(cutters: &[&JobCutter], relief: f64) -> Vec<f64> {
    let mut flat: Vec<f64> = Vec::new();
    let mut cones: Vec<(f64, f64)> = Vec::new();
    for cutter in cutters {
        let solid = Solid::of(cutter);
        match solid {
            Solid::Flat { radius } => flat.push(radius),
            Solid::Conical { tip, .. } => {
                let deepest = relief.min(cutter.max_depth_mm).min(cutter.flute_length_mm);
                cones.push((tip, solid.radius_at(deepest)));
            }
            Solid::Ball { .. } => {}
        }
    }
    let Some(mut before) = flat.into_iter().reduce(f64::min) else {
        return Vec::new();
    };
    cones.sort_by(|one, other| other.0.total_cmp(&one.0));
    let mut tips = Vec::new();
    for (tip, widest) in cones {
        if tip < before && widest >= before + SURELY_MM {
            tips.push(tip);
            before = tip;
        }
    }
    tips
}
