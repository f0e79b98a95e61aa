//! The sums of milling: feed, surface speed, chips, force and bending.
//!
//! # Source
//! All are textbook geometry and mechanics, written from memory; the checks against worked figures stand in the project's outside
//! tests.

use std::f64::consts::PI;

/// The part of a cutter's diameter that is solid along the flutes, for bending. Common practice, no source.
pub const CORE_OF_DIAMETER: f64 = 0.8;

/// Feed in mm/min of edges that each take `chip_load_mm` a turn.
pub fn feed_mm_min(spindle_rpm: f64, flutes: u32, chip_load_mm: f64) -> f64 {
    spindle_rpm * f64::from(flutes) * chip_load_mm
}

/// What each edge takes a turn at a feed, mm.
pub fn chip_load_mm(feed_mm_min: f64, flutes: u32, spindle_rpm: f64) -> f64 {
    feed_mm_min / (spindle_rpm * f64::from(flutes))
}

/// Speed of the edge, m/min.
pub fn surface_speed_m_min(diameter_mm: f64, spindle_rpm: f64) -> f64 {
    PI * diameter_mm * spindle_rpm / 1000.0
}

/// By how much the feed may be raised, where a cut is narrower than half the diameter, for the thickest chip to be as thick as in a
/// cut of half the diameter. 1 for wider cuts, and for what is no width or no diameter.
pub fn thinning_factor(width_mm: f64, diameter_mm: f64) -> f64 {
    let share = width_mm / diameter_mm;
    if share > 0.0 && share < 0.5 {
        1.0 / (2.0 * (share - share * share).sqrt())
    } else {
        1.0
    }
}

/// Width of a cone at a height above its tip, mm.
pub fn cone_width_mm(tip_mm: f64, included_angle_deg: f64, height_mm: f64) -> f64 {
    tip_mm + 2.0 * height_mm * (included_angle_deg.to_radians() / 2.0).tan()
}

/// Width of a round end at a height above its lowest point, mm: the diameter from half of it upwards.
pub fn ball_width_mm(diameter_mm: f64, height_mm: f64) -> f64 {
    let height = height_mm.clamp(0.0, diameter_mm / 2.0);
    2.0 * (height * (diameter_mm - height)).sqrt()
}

/// Height of the ridge that a round end of this radius leaves between cuts this far apart, mm; the radius if they do not meet.
pub fn scallop_mm(radius_mm: f64, step_over_mm: f64) -> f64 {
    let half = (step_over_mm / 2.0).min(radius_mm);
    radius_mm - (radius_mm * radius_mm - half * half).sqrt()
}

/// How far apart cuts of a round end may lie for ridges of this height, mm.
pub fn step_over_for_scallop_mm(radius_mm: f64, scallop_mm: f64) -> f64 {
    let height = scallop_mm.clamp(0.0, radius_mm);
    2.0 * (height * (2.0 * radius_mm - height)).sqrt()
}

/// Force on one edge, N, from the chip's depth and thickness.
pub fn edge_force_n(cutting_force_n_mm2: f64, depth_mm: f64, chip_mm: f64) -> f64 {
    cutting_force_n_mm2 * depth_mm * chip_mm
}

/// Power at the edges, W.
pub fn power_w(cutting_force_n_mm2: f64, width_mm: f64, depth_mm: f64, feed_mm_min: f64) -> f64 {
    // N/mm² times mm³/s is N·mm/s, a thousandth of a watt.
    const SECONDS_PER_MINUTE: f64 = 60.0;
    cutting_force_n_mm2 * width_mm * depth_mm * feed_mm_min / SECONDS_PER_MINUTE / 1000.0
}

/// The most edges that are in the wood at once in a cut this wide; one at least.
pub fn edges_at_once(flutes: u32, width_mm: f64, diameter_mm: f64) -> u32 {
    let engaged = (1.0 - 2.0 * width_mm / diameter_mm).clamp(-1.0, 1.0).acos();
    let edges = engaged * f64::from(flutes) / (2.0 * PI);
    // Two edges on opposite sides are never both inside half a turn for longer than an instant.
    let edges = (edges - 1e-9).ceil().max(1.0);
    (edges as u32).min(flutes.max(1))
}

/// A round bar held at one end: fluted part first, shank above it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beam {
    /// Diameter at the tip, over the flutes' core, mm.
    pub tip_mm: f64,
    /// Diameter where the flutes end, over their core, mm.
    pub top_mm: f64,
    /// Length of the fluted part, mm.
    pub fluted_mm: f64,
    /// Diameter of the shank, mm.
    pub shank_mm: f64,
    /// From the tip to where it is held, mm.
    pub stick_out_mm: f64,
    /// Young's modulus, GPa.
    pub modulus_gpa: f64,
}

impl Beam {
    /// How far the tip moves under a force across it, mm. The collet and the machine give way as well; that comes on top.
    ///
    /// The integral of x²/(E I) along the bar with I = π d⁴/64; d is even along the shank, and along the flutes grows evenly from
    /// tip to top, which has the closed form l³ / (3 tip · top³).
    pub fn deflection_mm(&self, force_n: f64) -> f64 {
        let fluted = self.fluted_mm.min(self.stick_out_mm);
        // Flutes that end inside the collet: the held end is that part of the way from tip to top.
        let share = if self.fluted_mm > 0.0 {
            fluted / self.fluted_mm
        } else {
            0.0
        };
        let top = self.tip_mm + (self.top_mm - self.tip_mm) * share;
        let in_flutes = fluted.powi(3) / (self.tip_mm * top.powi(3));
        let in_shank = (self.stick_out_mm.powi(3) - fluted.powi(3)) / self.shank_mm.powi(4);
        let modulus_n_mm2 = self.modulus_gpa * 1000.0;
        64.0 / PI * force_n / (3.0 * modulus_n_mm2) * (in_flutes + in_shank)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fed_edge_and_its_chip_are_the_same_sum_turned_about() {
        for flutes in 1..5 {
            let feed = feed_mm_min(17_500.0, flutes, 0.033);
            assert!((chip_load_mm(feed, flutes, 17_500.0) - 0.033).abs() < 1e-15);
        }
    }

    #[test]
    fn thinning_meets_the_thickness_of_the_chip_by_geometry() {
        // The chip is thickest where the edge leaves the wood: sin of the engaged angle times the feed of the edge.
        for share in [0.01_f64, 0.05, 0.2, 0.4, 0.49] {
            let engaged: f64 = (1.0 - 2.0 * share).acos();
            assert!((thinning_factor(share * 3.0, 3.0) * engaged.sin() - 1.0).abs() < 1e-12);
        }
        for (width, diameter) in [(1.5, 3.0), (3.0, 3.0), (0.0, 3.0), (1.0, 0.0), (-1.0, 3.0)] {
            assert_eq!(thinning_factor(width, diameter), 1.0);
        }
    }

    #[test]
    fn ridges_and_steps_are_inverse() {
        for step in [0.01, 0.1, 0.5, 2.0] {
            let ridge = scallop_mm(1.5, step);
            assert!((step_over_for_scallop_mm(1.5, ridge) - step).abs() < 1e-9);
            assert!((ball_width_mm(3.0, ridge) - step).abs() < 1e-9);
        }
        assert_eq!(scallop_mm(1.0, 5.0), 1.0);
    }

    #[test]
    fn edges_in_the_wood_at_once() {
        assert_eq!(edges_at_once(2, 3.0, 3.0), 1);
        assert_eq!(edges_at_once(3, 3.0, 3.0), 2);
        assert_eq!(edges_at_once(4, 1.5, 3.0), 1);
        assert_eq!(edges_at_once(1, 0.1, 3.0), 1);
        assert_eq!(edges_at_once(16, 3.0, 3.0), 8);
    }

    /// The closed form of a tapered bar against the integral added up in small steps.
    #[test]
    fn a_tapered_bar_bends_as_its_integral_says() {
        let beam = Beam {
            tip_mm: 0.2,
            top_mm: 4.8,
            fluted_mm: 5.0,
            shank_mm: 6.0,
            stick_out_mm: 18.0,
            modulus_gpa: 600.0,
        };
        let steps = 2_000_000;
        let step = beam.stick_out_mm / f64::from(steps);
        let sum: f64 = (0..steps)
            .map(|number| {
                let x = (f64::from(number) + 0.5) * step;
                let d = if x < beam.fluted_mm {
                    beam.tip_mm + (beam.top_mm - beam.tip_mm) * x / beam.fluted_mm
                } else {
                    beam.shank_mm
                };
                x * x / (600_000.0 * PI * d.powi(4) / 64.0) * step
            })
            .sum();
        let bends = beam.deflection_mm(7.0);
        assert!((bends - 7.0 * sum).abs() < 1e-6 * bends, "{bends} {sum}");
    }

    #[test]
    fn flutes_longer_than_the_stick_out_are_held_where_the_collet_is() {
        let long = Beam {
            tip_mm: 1.0,
            top_mm: 3.0,
            fluted_mm: 20.0,
            shank_mm: 3.0,
            stick_out_mm: 10.0,
            modulus_gpa: 600.0,
        };
        let cut = Beam {
            top_mm: 2.0,
            fluted_mm: 10.0,
            ..long
        };
        assert!((long.deflection_mm(5.0) - cut.deflection_mm(5.0)).abs() < 1e-15);
    }
}
