//! What is usual: chip loads, layers and widths by the size of the cutter.
//!
//! # Source
//! Common practice on light machines in hard wood on end, no source, unless something else is said.

use crate::workshop::{Cutter, CutterShape, Wood};

/// Diameter, and the least and the most that an edge takes there a turn, mm.
const CHIP_LOADS_MM: [(f64, [f64; 2]); 4] = [
    (0.8, [0.010, 0.020]),
    (1.6, [0.015, 0.030]),
    (3.2, [0.030, 0.080]),
    (6.35, [0.060, 0.150]),
];

/// An edge that takes less rubs and burns, mm.
pub const LEAST_CHIP_MM: f64 = 0.005;

/// Edges running faster than this burn hard wood, m/min.
pub const MOST_SURFACE_M_MIN: f64 = 600.0;

/// The deepest layer of a light machine, mm, whatever the cutter (an eighth of an inch: a hand router's manual, from memory).
pub const DEEPEST_LAYER_MM: f64 = 3.2;

/// Layers in parts of the diameter: of thin cutters, and of the others.
const LAYER_OF_THIN: f64 = 0.35;
const LAYER_OF_DIAMETER: f64 = 0.5;
/// Cutters below this are thin, mm.
pub const THIN_MM: f64 = 2.0;

/// Width of a roughing cut in parts of the diameter; 0.4 to 0.5 is usual.
pub const WIDTH_OF_DIAMETER: f64 = 0.45;

/// Height of the ridges that a round end may leave on the floor, mm: far below anything that takes ink.
pub const RIDGE_MM: f64 = 0.05;

/// The least width of a cut of a pointed cutter, mm.
pub const LEAST_WIDTH_MM: f64 = 0.1;

/// The least and the most that an edge of a cutter this wide takes in a wood, mm.
///
/// Between the sizes of the table in proportion; below the smallest as the width, above the largest no more.
pub fn chip_load_range_mm(width_mm: f64, wood: &Wood) -> [f64; 2] {
    let [(smallest, at_smallest), .., (_, at_largest)] = CHIP_LOADS_MM;
    let range = if width_mm < smallest {
        at_smallest.map(|load| load * (width_mm / smallest).max(0.0))
    } else {
        CHIP_LOADS_MM
            .windows(2)
            .find(|pair| width_mm < pair[1].0)
            .map_or(at_largest, |pair| {
                let share = (width_mm - pair[0].0) / (pair[1].0 - pair[0].0);
                [0, 1].map(|end| pair[0].1[end] + share * (pair[1].1[end] - pair[0].1[end]))
            })
    };
    range.map(|load| load * wood.chip_load_factor)
}

/// What remains of the chip load in layers deeper than the cutter is wide: all at one width, 0.775 at two, 0.55 at three and beyond.
///
/// # Source
/// A feed-and-speed page for wood: 20 to 25 % less at two widths, 40 to 50 % less at three (from memory).
pub fn depth_factor(step_down_mm: f64, width_mm: f64) -> f64 {
    const LOSS_PER_WIDTH: f64 = 0.225;
    let widths = (step_down_mm / width_mm.max(1e-6)).clamp(1.0, 3.0);
    1.0 - LOSS_PER_WIDTH * (widths - 1.0)
}

/// The deepest layer that is usual, before any other limit, mm.
pub fn step_down_mm(cutter: &Cutter) -> f64 {
    let diameter = cutter.diameter.in_mm();
    let part = if diameter < THIN_MM {
        LAYER_OF_THIN
    } else {
        LAYER_OF_DIAMETER
    };
    match cutter.shape {
        CutterShape::Flat | CutterShape::Ball => (diameter * part).min(DEEPEST_LAYER_MM),
        // A cone cuts with its tip, where it is thin.
        CutterShape::Conical { .. } => (diameter * LAYER_OF_THIN).min(DEEPEST_LAYER_MM),
    }
}

/// Plunge feed in parts of the feed: in wood on end, with the grain across, and where the cutter has no edge at its middle. Common
/// practice, no source: a quarter to a half.
pub fn plunge_share(cutter: &Cutter, wood: &Wood) -> f64 {
    match (cutter.centre_cutting, wood.end_grain) {
        (false, _) => 0.25,
        (true, true) => 0.3,
        (true, false) => 0.4,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::workshop::Workshop;

    #[test]
    fn chip_loads_meet_the_table_and_never_fall_with_size() {
        let workshop = Workshop::starting();
        let wood = workshop.wood("hard-maple-end").expect("maple");
        for (width, range) in CHIP_LOADS_MM {
            let [least, most] = chip_load_range_mm(width, wood);
            assert!((least - range[0]).abs() < 1e-12 && (most - range[1]).abs() < 1e-12);
        }
        let mut before = [0.0; 2];
        for tenths in 0..150 {
            let now = chip_load_range_mm(f64::from(tenths) / 10.0, wood);
            assert!(now[0] >= before[0] && now[1] >= before[1] && now[0] <= now[1]);
            before = now;
        }
        assert_eq!(chip_load_range_mm(20.0, wood), [0.060, 0.150]);
    }

    #[test]
    fn deep_layers_take_thinner_chips() {
        assert_eq!(depth_factor(0.5, 3.0), 1.0);
        assert_eq!(depth_factor(6.0, 3.0), 0.775);
        assert_eq!(depth_factor(9.0, 3.0), 0.55);
        assert_eq!(depth_factor(90.0, 3.0), 0.55);
    }
}
