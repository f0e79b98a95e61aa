//! Limits of the parts of a workshop.

use bench::square::{FAR_OFF, Map};

use super::{Faults, LARGEST_MM, LEAST_MM};
use crate::workshop::{Cutter, CutterShape, Machine, Rates, Wood};

impl Faults {
    pub(super) fn machine(&mut self, place: &str, machine: &Machine) {
        const SPEEDS_MM_MIN: [f64; 2] = [1.0, 100_000.0];
        const ACCELERATIONS_MM_S2: [f64; 2] = [1.0, 50_000.0];
        const MOST_DEVIATION_MM: f64 = 1.0;
        const SPINDLES_RPM: [f64; 2] = [1.0, 200_000.0];
        let at = |key: &str| format!("{place}.{key}");
        for axis in 0..3 {
            let place = |key: &str| format!("{place}.{key}[{axis}]");
            self.number(
                &place("travel_mm"),
                machine.travel_mm[axis],
                [1.0, LARGEST_MM],
                "mm",
            );
            self.number(
                &place("rapid_mm_min"),
                machine.rapid_mm_min[axis],
                SPEEDS_MM_MIN,
                "mm/min",
            );
            self.number(
                &place("max_feed_mm_min"),
                machine.max_feed_mm_min[axis],
                SPEEDS_MM_MIN,
                "mm/min",
            );
            self.number(
                &place("acceleration_mm_s2"),
                machine.acceleration_mm_s2[axis],
                ACCELERATIONS_MM_S2,
                "mm/s²",
            );
        }
        self.number(
            &at("junction_deviation_mm"),
            machine.junction_deviation_mm,
            [0.0001, MOST_DEVIATION_MM],
            "mm",
        );
        let [slowest, fastest] = machine.spindle_rpm;
        self.number(
            &at("spindle_rpm[0]"),
            slowest,
            SPINDLES_RPM,
            "turns a minute",
        );
        self.number(
            &at("spindle_rpm[1]"),
            fastest,
            SPINDLES_RPM,
            "turns a minute",
        );
        if slowest > fastest {
            self.push(
                &at("spindle_rpm"),
                "the slowest speed comes first; turn the two about",
            );
        }
        self.number(
            &at("clear_height_mm"),
            machine.clear_height_mm,
            [0.5, 100.0],
            "mm",
        );
        // No lower than the height at which rapid moves end above the wood.
        self.number(
            &at("hop_height_mm"),
            machine.hop_height_mm,
            [0.5, 100.0],
            "mm",
        );
        if machine.hop_height_mm > machine.clear_height_mm {
            self.push(
                &at("hop_height_mm"),
                "it is more than the clear height; make it smaller, or the clear height larger",
            );
        }
        self.number(
            &at("holder_diameter_mm"),
            machine.holder_diameter_mm,
            [3.0, 100.0],
            "mm",
        );
        self.number(
            &at("change_minutes"),
            machine.change_minutes,
            [0.0, 240.0],
            "minutes",
        );
        self.number(
            "machine.minutes_factor",
            machine.minutes_factor,
            [0.25, 10.0],
            "times the estimate",
        );
        self.number(
            "machine.minutes_per_run",
            machine.minutes_per_run,
            [0.0, 240.0],
            "minutes",
        );
        if let Some(squareness) = &machine.squareness {
            self.squareness(squareness);
        }
        self.name(
            &at("dialect"),
            &machine.dialect,
            "the dialect of the controller, such as plain",
        );
    }

    fn squareness(&mut self, squareness: &Map) {
        let scales = [1.0 - FAR_OFF, 1.0 + FAR_OFF];
        let skew = FAR_OFF.to_degrees();
        self.number("machine.squareness.scale_x", squareness.scale_x, scales, "");
        self.number("machine.squareness.scale_y", squareness.scale_y, scales, "");
        self.number(
            "machine.squareness.skew_deg",
            squareness.skew_deg(),
            [-skew, skew],
            "degrees",
        );
    }

    pub(super) fn cutter(&mut self, place: &str, cutter: &Cutter) {
        const DIAMETERS_MM: [f64; 2] = [0.05, 50.0];
        const LENGTHS_MM: [f64; 2] = [0.05, 200.0];
        const FEEDS_MM_MIN: [f64; 2] = [1.0, 100_000.0];
        let at = |key: &str| format!("{place}.{key}");
        let diameter_mm = cutter.diameter.in_mm();
        self.length(&at("diameter"), cutter.diameter, DIAMETERS_MM);
        if let CutterShape::Conical {
            tip,
            included_angle_deg,
        } = cutter.shape
        {
            self.length(&at("tip_diameter"), tip, [0.0, diameter_mm]);
            self.number(
                &at("included_angle_deg"),
                included_angle_deg,
                [1.0, 179.0],
                "degrees",
            );
        }
        self.length(&at("flute_length"), cutter.flute_length, LENGTHS_MM);
        self.length(
            &at("max_depth"),
            cutter.max_depth,
            [LEAST_MM, LENGTHS_MM[1]],
        );
        self.not_more(
            &at("max_depth"),
            cutter.max_depth,
            "the flutes",
            cutter.flute_length,
        );
        self.length(&at("stick_out"), cutter.stick_out, LENGTHS_MM);
        self.not_more(
            &at("max_depth"),
            cutter.max_depth,
            "the stick-out",
            cutter.stick_out,
        );
        self.length(&at("shank_diameter"), cutter.shank_diameter, DIAMETERS_MM);
        // From aluminium to diamond: outside, another unit was meant.
        self.number(
            &at("modulus_gpa"),
            cutter.modulus_gpa,
            [50.0, 1200.0],
            "GPa",
        );
        if !(1..=16).contains(&cutter.flutes) {
            self.push(
                &at("flutes"),
                format!(
                    "found {}; give the number of cutting edges, 1 to 16",
                    cutter.flutes
                ),
            );
        }
        self.length(
            &at("step_down"),
            cutter.step_down,
            [LEAST_MM, LENGTHS_MM[1]],
        );
        self.not_more(
            &at("step_down"),
            cutter.step_down,
            "the flutes",
            cutter.flute_length,
        );
        self.length(
            &at("step_over"),
            cutter.step_over,
            [LEAST_MM, DIAMETERS_MM[1]],
        );
        self.not_more(
            &at("step_over"),
            cutter.step_over,
            "the diameter",
            cutter.diameter,
        );
        self.number(
            &at("feed_mm_min"),
            cutter.feed_mm_min,
            FEEDS_MM_MIN,
            "mm/min",
        );
        self.number(
            &at("plunge_mm_min"),
            cutter.plunge_mm_min,
            FEEDS_MM_MIN,
            "mm/min",
        );
        self.number(&at("ramp_deg"), cutter.ramp_deg, [0.1, 45.0], "degrees");
        self.number(
            &at("spindle_rpm"),
            cutter.spindle_rpm,
            [1.0, 200_000.0],
            "turns a minute",
        );
    }

    pub(super) fn wood(&mut self, place: &str, wood: &Wood) {
        // From balsa to lignum vitae, with room.
        const DENSITIES_KG_M3: [f64; 2] = [50.0, 2000.0];
        const HARDNESSES_N: [f64; 2] = [50.0, 50_000.0];
        const FACTORS: [f64; 2] = [0.1, 5.0];
        const FORCES_N_MM2: [f64; 2] = [1.0, 500.0];
        const PRICES: [f64; 2] = [0.0, 1e9];
        let at = |key: &str| format!("{place}.{key}");
        self.number(
            &at("density_kg_m3"),
            wood.density_kg_m3,
            DENSITIES_KG_M3,
            "kg/m³",
        );
        self.number(&at("hardness_n"), wood.hardness_n, HARDNESSES_N, "N");
        self.number(
            &at("chip_load_factor"),
            wood.chip_load_factor,
            FACTORS,
            "times what hard maple on end takes",
        );
        self.number(
            &at("cutting_force_n_mm2"),
            wood.cutting_force_n_mm2,
            FORCES_N_MM2,
            "N/mm²",
        );
        self.number(
            &at("price_per_dm3"),
            wood.price_per_dm3,
            PRICES,
            "for a cubic decimetre",
        );
    }

    pub(super) fn rates(&mut self, rates: &Rates) {
        const PER_HOUR: [f64; 2] = [0.0, 1e9];
        const CORNER_MINUTES: [f64; 2] = [0.0, 240.0];
        const GROUND_MINUTES: [f64; 2] = [0.0, 10_000.0];
        const HAND_MINUTES: [f64; 2] = [0.0, 10_000.0];
        const BREAKAGE: [f64; 2] = [0.0, 10.0];
        const MARGIN: [f64; 2] = [0.0, 0.95];
        self.name("rates.currency", &rates.currency, "the currency by a word");
        self.number(
            "rates.machine_per_hour",
            rates.machine_per_hour,
            PER_HOUR,
            "an hour",
        );
        self.number(
            "rates.hand_per_hour",
            rates.hand_per_hour,
            PER_HOUR,
            "an hour",
        );
        self.number(
            "rates.corner_minutes",
            rates.corner_minutes,
            CORNER_MINUTES,
            "minutes",
        );
        self.number(
            "rates.ground_minutes_per_cm2",
            rates.ground_minutes_per_cm2,
            GROUND_MINUTES,
            "minutes",
        );
        self.number(
            "rates.fixing_minutes_per_plank",
            rates.fixing_minutes_per_plank,
            HAND_MINUTES,
            "minutes",
        );
        self.number(
            "rates.sanding_minutes_per_plank",
            rates.sanding_minutes_per_plank,
            HAND_MINUTES,
            "minutes",
        );
        self.number(
            "rates.sealing_minutes_per_plank",
            rates.sealing_minutes_per_plank,
            HAND_MINUTES,
            "minutes",
        );
        self.number(
            "rates.parting_minutes_per_block",
            rates.parting_minutes_per_block,
            HAND_MINUTES,
            "minutes",
        );
        self.number(
            "rates.packing_minutes",
            rates.packing_minutes,
            HAND_MINUTES,
            "minutes",
        );
        self.number(
            "rates.packing_minutes_per_block",
            rates.packing_minutes_per_block,
            HAND_MINUTES,
            "minutes",
        );
        self.number(
            "rates.breakage",
            rates.breakage,
            BREAKAGE,
            "as a part of the work",
        );
        self.number(
            "rates.margin",
            rates.margin,
            MARGIN,
            "as a part of the price",
        );
    }
}
