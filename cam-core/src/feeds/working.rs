//! How hard a cutter works as it is set: chip, speed, force and bending, and what of it is out of range.

use said::{Said, Value};

use super::first::first_change;
use super::sums::{self, Beam, CORE_OF_DIAMETER};
use super::tables;
use crate::finding::texts;
use crate::workshop::{Cutter, CutterShape, Wood};

/// The feed under which a cutter's edges rub rather than cut, mm/min; never more than its own feed.
pub(crate) fn least_feed_mm_min(cutter: &Cutter) -> f64 {
    sums::feed_mm_min(cutter.spindle_rpm, cutter.flutes, tables::LEAST_CHIP_MM)
        .min(cutter.feed_mm_min)
}

/// A cutter at work with given settings in a wood.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Working {
    /// What each edge takes a turn, mm.
    pub chip_load_mm: f64,
    /// The thickest place of the chip: less than the chip load in cuts narrower than half the diameter, mm.
    pub chip_mm: f64,
    /// Speed of the edge, m/min.
    pub surface_speed_m_min: f64,
    /// Force across the cutter, N, of all edges in the wood at once, with worn edges.
    pub force_n: f64,
    /// How far that bends the tip aside, mm; the collet and the machine give way as well.
    pub deflection_mm: f64,
    /// Power at the edges, W.
    pub power_w: f64,
}

/// Something out of range, for the maker.
#[derive(Clone, Debug, PartialEq)]
pub struct Trouble {
    /// What it is.
    pub kind: TroubleKind,
    /// What is out of range, in a sentence.
    pub text: Said,
    /// What to change first.
    pub remedy: Said,
}

/// Kinds of trouble.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum TroubleKind {
    /// The chip is so thin that the edge rubs.
    Rubbing,
    /// An edge takes more than is usual for a cutter of this size.
    ChipTooThick,
    /// The cutter bends too far aside.
    Bending,
    /// The edge runs so fast that the wood burns.
    TooFast,
    /// A layer deeper than is usual for a cutter of this size.
    TooDeep,
}

/// How many times the force of a sharp edge a worn one takes. Common practice, no source: one and a half to two and a half.
pub(super) const WORN: f64 = 2.0;

/// Parts by which the usual limits may be passed before it is worth a sentence: the limits themselves are no sharper. Common practice, no source.
const GRACE: f64 = 1.25;

/// The part of the allowance that bending may take: what roughing leaves on the wall is then never cut through, even with a worn
/// collet. Common practice, no source.
const BENDING_OF_ALLOWANCE: f64 = 0.25;

/// The least and the greatest bending that is asked for, mm, whatever the allowance: collet and spindle give way by 0.005 to 0.02 mm besides. Common
/// practice, no source.
const BENDING_MM: [f64; 2] = [0.01, 0.05];

/// How far a cutter may bend aside, mm: a quarter of the allowance, and 0.01 to 0.05 mm whatever that is.
pub fn most_deflection_mm(allowance_mm: f64) -> f64 {
    let [least, most] = BENDING_MM;
    (allowance_mm * BENDING_OF_ALLOWANCE).max(least).min(most)
}

/// Width of the cutter at the top of a layer of this depth, mm.
pub fn width_in_wood_mm(cutter: &Cutter, step_down_mm: f64) -> f64 {
    let diameter = cutter.diameter.in_mm();
    match cutter.shape {
        CutterShape::Flat => diameter,
        CutterShape::Ball => sums::ball_width_mm(diameter, step_down_mm),
        CutterShape::Conical {
            tip,
            included_angle_deg,
        } => sums::cone_width_mm(tip.in_mm(), included_angle_deg, step_down_mm).min(diameter),
    }
}

/// The thinnest tip that is reckoned with, mm: a cone ground to a point is no thinner after its first cut. Common practice, no source.
const THINNEST_TIP_MM: f64 = 0.05;

/// The cutter as a bar held in the collet.
pub fn beam(cutter: &Cutter) -> Beam {
    let top_mm = cutter.diameter.in_mm() * CORE_OF_DIAMETER;
    let tip_mm = match cutter.shape {
        CutterShape::Flat | CutterShape::Ball => top_mm,
        CutterShape::Conical { tip, .. } => tip.in_mm().max(THINNEST_TIP_MM) * CORE_OF_DIAMETER,
    };
    Beam {
        tip_mm,
        top_mm,
        fluted_mm: cutter.flute_length.in_mm(),
        shank_mm: cutter.shank_diameter.in_mm(),
        stick_out_mm: cutter.stick_out.in_mm(),
        modulus_gpa: cutter.modulus_gpa,
    }
}

/// Edges in the wood at once in a cut of this width.
pub(super) fn edges_in_wood(cutter: &Cutter, engaged_mm: f64, width_mm: f64) -> f64 {
    f64::from(sums::edges_at_once(
        cutter.flutes,
        engaged_mm.min(width_mm),
        width_mm,
    ))
}

/// How hard a cutter works with the settings that it has.
pub fn working(cutter: &Cutter, wood: &Wood) -> Working {
    let depth = cutter.step_down.in_mm();
    let width = width_in_wood_mm(cutter, depth);
    let engaged = cutter.step_over.in_mm().min(width);
    let chip_load_mm = sums::chip_load_mm(cutter.feed_mm_min, cutter.flutes, cutter.spindle_rpm);
    let chip_mm = chip_load_mm / sums::thinning_factor(engaged, width);
    let edges = edges_in_wood(cutter, engaged, width);
    let force = wood.cutting_force_n_mm2 * WORN;
    let force_n = sums::edge_force_n(force, depth, chip_mm) * edges;
    Working {
        chip_load_mm,
        chip_mm,
        surface_speed_m_min: sums::surface_speed_m_min(width, cutter.spindle_rpm),
        force_n,
        deflection_mm: beam(cutter).deflection_mm(force_n),
        power_w: sums::power_w(force, engaged, depth, cutter.feed_mm_min),
    }
}

/// What is out of range with the settings that a cutter has; `allowance_mm` is what roughing leaves on walls.
pub fn troubles(cutter: &Cutter, wood: &Wood, allowance_mm: f64) -> Vec<Trouble> {
    let now = working(cutter, wood);
    let depth = cutter.step_down.in_mm();
    let width = width_in_wood_mm(cutter, depth);
    let [_, most_chip] = tables::chip_load_range_mm(width, wood);
    let most_bend = most_deflection_mm(allowance_mm);
    let most_depth = tables::step_down_mm(cutter);
    let mm = Value::plain_mm;
    let found = [
        (
            now.chip_mm < tables::LEAST_CHIP_MM,
            TroubleKind::Rubbing,
            texts::cutter_rubs(mm(now.chip_mm, 4)),
        ),
        (
            now.chip_mm > most_chip * GRACE,
            TroubleKind::ChipTooThick,
            texts::chip_thick(mm(now.chip_mm, 3), mm(most_chip, 3), &wood.name),
        ),
        (
            now.deflection_mm > most_bend,
            TroubleKind::Bending,
            texts::cutter_bends(mm(now.deflection_mm, 3), mm(most_bend, 3)),
        ),
        (
            now.surface_speed_m_min > tables::MOST_SURFACE_M_MIN * GRACE,
            TroubleKind::TooFast,
            texts::cutter_too_fast(Value::plain(now.surface_speed_m_min, 0)),
        ),
        (
            depth > most_depth * GRACE,
            TroubleKind::TooDeep,
            texts::layer_deep(mm(depth, 2), mm(most_depth, 2)),
        ),
    ];
    found
        .into_iter()
        .filter(|(is_out, ..)| *is_out)
        .map(|(_, kind, text)| Trouble {
            kind,
            text,
            remedy: match kind {
                TroubleKind::Bending => first_change(cutter, wood, allowance_mm),
                TroubleKind::Rubbing => texts::cutter_rubs_remedy(),
                TroubleKind::ChipTooThick => texts::chip_thick_remedy(),
                TroubleKind::TooFast => texts::cutter_too_fast_remedy(),
                TroubleKind::TooDeep => texts::layer_deep_remedy(),
            },
        })
        .collect()
}
