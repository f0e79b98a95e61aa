//! A new commission, fitted to the workshop that is there.

use cam_core::commission::{Commission, Face, Hold, PlankRules, Separation};
use cam_core::measure::{Length, System};
use cam_core::workshop::{Cutter, CutterShape, Workshop};

/// Size of a new commission, lines: a common poster size.
const LINES: f64 = 10.0;

/// A new commission for a face. Its bill is empty.
///
/// What it begins with is said by [`Commission::starting`]; where the workshop does not own those cutters, its own flat ones take their place.
pub fn new_commission(face: Face, system: System, workshop: &Workshop) -> Commission {
    let title = std::path::Path::new(&face.file)
        .file_stem()
        .map_or_else(String::new, |stem| stem.to_string_lossy().into_owned());
    let mut commission = Commission::starting(&title, system, LINES, face);
    if workshop.wood(&commission.wood).is_none()
        && let Some(wood) = workshop.woods.first()
    {
        commission.wood.clone_from(&wood.id);
    }
    let owned = |id: &String| workshop.cutter(id).is_some();
    let height = commission.height_to_paper;
    if !commission.cutting.cutters.iter().all(owned) {
        commission.cutting.cutters = flat_cutters(workshop, height);
    }
    let missing = match &commission.planks.separation {
        Separation::Router { cutter, .. } => !owned(cutter),
        Separation::Saw => false,
    };
    if missing {
        commission.planks.separation = separation(workshop, height);
        let by_router = commission.planks.separation != Separation::Saw;
        commission.planks.lane = PlankRules::starting_lane(by_router);
    }
    commission
}

/// The flat cutters for faces. One that reaches through the plank is for cutting blocks out, unless there is no other.
fn flat_cutters(workshop: &Workshop, height: Length) -> Vec<String> {
    let flat = workshop
        .cutters
        .iter()
        .filter(|cutter| cutter.shape == CutterShape::Flat);
    let (long, short): (Vec<&Cutter>, Vec<&Cutter>) =
        flat.partition(|cutter| cutter.max_depth.in_mm() >= height.in_mm());
    let faces = if short.is_empty() { long } else { short };
    faces.iter().map(|cutter| cutter.id.clone()).collect()
}

/// By router if the workshop has a cutter that reaches through the plank, else by saw.
fn separation(workshop: &Workshop, height: Length) -> Separation {
    let through = workshop.cutters.iter().find(|cutter| {
        cutter.shape == CutterShape::Flat && cutter.max_depth.in_mm() >= height.in_mm()
    });
    match through {
        Some(cutter) => Separation::Router {
            cutter: cutter.id.clone(),
            hold: Hold::starting(),
        },
        None => Separation::Saw,
    }
}

#[cfg(test)]
mod tests {
    use super::super::document::tests::commission;
    use super::*;

    #[test]
    fn a_new_commission_asks_only_for_what_the_workshop_owns() {
        let face = commission().faces[0].clone();
        let mut workshop = Workshop::starting();
        let usual = new_commission(face.clone(), System::Pica, &workshop);
        assert_eq!(usual.cutting, cam_core::commission::Cutting::starting());
        assert_eq!(usual.title, "face");
        assert!(usual.bill.is_empty());
        workshop.cutters.retain(|cutter| cutter.id == "flat-3");
        let poor = new_commission(face, System::Pica, &workshop);
        assert_eq!(poor.cutting.cutters, ["flat-3"]);
        assert_eq!(poor.planks.separation, Separation::Saw);
    }
}
