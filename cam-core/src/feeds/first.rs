//! What to change first on a cutter that bends too far, and how far it moves the wall.

use said::{Said, Value};

use super::sums;
use super::tables;
use super::working::{WORN, beam, edges_in_wood, most_deflection_mm, width_in_wood_mm, working};
use crate::commission::{Commission, Separation};
use crate::finding::{Finding, Severity, Subject, texts};
use crate::measure::Length;
use crate::workshop::{Cutter, Wood, Workshop};

use super::working::{TroubleKind, troubles};

/// The shank that shows below the collet at least, mm: flutes are never clamped (common practice, no source).
const SHANK_BELOW_COLLET_MM: f64 = 1.0;

/// Layers and feeds are not lowered below this part: time would be better spent with another cutter. Common practice, no source.
const LEAST_PART: f64 = 0.25;

/// How far the wall moves in finishing, mm: the bending under the force of a cut as wide as the allowance and as deep as the cutter may go
/// (or the relief, if that is less).
///
/// # Source
/// As [`working`](super::working): mechanics; the force from memory, ± 50 %.
pub fn wall_moves_mm(cutter: &Cutter, wood: &Wood, allowance_mm: f64, relief_mm: f64) -> f64 {
    let depth = cutter.max_depth.in_mm().min(relief_mm);
    let width = width_in_wood_mm(cutter, depth);
    let load = sums::chip_load_mm(cutter.feed_mm_min, cutter.flutes, cutter.spindle_rpm);
    let chip = load / sums::thinning_factor(allowance_mm.min(width), width);
    let force = sums::edge_force_n(wood.cutting_force_n_mm2 * WORN, depth, chip)
        * edges_in_wood(cutter, allowance_mm, width);
    beam(cutter).deflection_mm(force)
}

/// The one change that brings a cutter's bending within what is allowed, the least costly first: letting it stand out less costs nothing,
/// thinner layers and slower feeds cost time. Where no single one is enough, all are named.
pub(super) fn first_change(cutter: &Cutter, wood: &Wood, allowance_mm: f64) -> Said {
    let most = most_deflection_mm(allowance_mm);
    let bends = |changed: &Cutter| working(changed, wood).deflection_mm;
    let mm = |value: f64| Value::plain_mm(value, 3);
    let least = (cutter.flute_length.in_mm() + SHANK_BELOW_COLLET_MM)
        .max(cutter.max_depth.in_mm())
        .min(cutter.stick_out.in_mm());
    let shorter = Cutter {
        stick_out: Length::mm(least),
        ..cutter.clone()
    };
    if bends(&shorter) <= most {
        return texts::bends_stand_out_remedy(mm(least), mm(bends(&shorter)));
    }
    let part = most / bends(cutter);
    if part >= LEAST_PART {
        let layer = cutter.step_down.in_mm() * part;
        return texts::bends_layers_remedy(mm(rounded_down(layer)), mm(most));
    }
    let [least_chip, _] = tables::chip_load_range_mm(width_in_wood_mm(cutter, 0.0), wood);
    texts::bends_all_remedy(mm(least), mm(least_chip.max(tables::LEAST_CHIP_MM)))
}

/// To a twentieth of a millimetre, or a hundredth below half of one.
fn rounded_down(layer_mm: f64) -> f64 {
    let per_mm = if layer_mm >= 0.5 { 20.0 } else { 100.0 };
    (layer_mm * per_mm).floor() / per_mm
}

/// Warnings before cutting: each cutter of the commission whose settings are out of range, or that bends by more than a part of the allowance.
pub fn warnings(commission: &Commission, workshop: &Workshop) -> Vec<Finding> {
    let Some(wood) = workshop.wood(&commission.wood) else {
        return Vec::new();
    };
    let cutting = &commission.cutting;
    let mut ids = cutting.cutters.clone();
    match &commission.planks.separation {
        Separation::Router { cutter, .. } => ids.push(cutter.clone()),
        Separation::Saw => {}
    }
    ids.sort();
    ids.dedup();
    let allowance_mm = cutting.allowance.in_mm();
    ids.iter()
        .filter_map(|id| workshop.cutter(id))
        .flat_map(|cutter| {
            troubles(cutter, wood, allowance_mm)
                .into_iter()
                .map(|trouble| Finding {
                    severity: Severity::Warning,
                    subject: Subject::Cutter(cutter.id.clone()),
                    kind: word(trouble.kind),
                    text: trouble.text,
                    remedy: trouble.remedy,
                })
        })
        .collect()
}

/// The stable word of a trouble.
const fn word(kind: TroubleKind) -> &'static str {
    match kind {
        TroubleKind::Rubbing => "cutter-rubs",
        TroubleKind::ChipTooThick => "cutter-chip-thick",
        TroubleKind::Bending => "cutter-bends",
        TroubleKind::TooFast => "cutter-too-fast",
        TroubleKind::TooDeep => "cutter-layer-deep",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALLOWANCE_MM: f64 = 0.2;

    fn shop() -> Workshop {
        Workshop::starting()
    }

    fn changed(id: &str, change: impl Fn(&mut Cutter)) -> (Cutter, Workshop) {
        let mut shop = shop();
        let cutter = shop
            .cutters
            .iter_mut()
            .find(|cutter| cutter.id == id)
            .expect("a starting cutter");
        change(cutter);
        (cutter.clone(), shop)
    }

    #[test]
    fn a_cutter_that_stands_out_far_is_to_stand_out_less() {
        let (cutter, shop) = changed("flat-3", |cutter| cutter.stick_out = Length::mm(60.0));
        let told = first_change(&cutter, &shop.woods[0], ALLOWANCE_MM);
        assert!(told.starts_with("Let it stand out less first"), "{told}");
    }

    #[test]
    fn a_short_cutter_in_deep_layers_is_to_cut_thinner_ones() {
        let (cutter, shop) = changed("flat-1.5", |cutter| {
            cutter.stick_out = Length::mm(cutter.flute_length.in_mm());
            cutter.step_down = Length::mm(cutter.step_down.in_mm() * 4.0);
            cutter.modulus_gpa = 210.0;
        });
        let wood = &shop.woods[0];
        let bends = working(&cutter, wood).deflection_mm;
        assert!(bends > most_deflection_mm(0.0), "{bends}");
        let told = first_change(&cutter, wood, 0.0);
        assert!(told.starts_with("Cut thinner layers first"), "{told}");
    }

    #[test]
    fn the_commissions_cutters_are_warned_of_before_cutting() {
        let (_, shop) = changed("flat-3", |cutter| cutter.stick_out = Length::mm(80.0));
        let face = crate::commission::Face {
            id: "main".to_owned(),
            file: "face.ttf".to_owned(),
            sha256: String::new(),
            index: 0,
            variations: Default::default(),
            permission: Default::default(),
        };
        let commission = Commission::starting("Trial", crate::measure::System::Pica, 10.0, face);
        let told = warnings(&commission, &shop);
        assert!(
            told.iter().any(|finding| finding.kind == "cutter-bends"
                && finding.subject == Subject::Cutter("flat-3".to_owned())),
            "{told:?}"
        );
        assert_eq!(warnings(&commission, &self::shop()), []);
    }

    #[test]
    fn walls_move_less_under_less() {
        let shop = shop();
        for cutter in &shop.cutters {
            let wood = &shop.woods[0];
            let moves = |allowance, relief| wall_moves_mm(cutter, wood, allowance, relief);
            assert!(moves(0.1, 3.0) <= moves(0.2, 3.0) && moves(0.2, 1.0) <= moves(0.2, 3.0));
            assert!(moves(0.2, 3.0).is_finite());
        }
    }
}
