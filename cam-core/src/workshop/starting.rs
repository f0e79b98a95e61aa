//! A workshop to begin with.
//!
//! All of it is common practice for a light three-axis router, without a published source. The maker replaces it by what the
//! machine's manual and the cutters' makers state.

use super::{Cutter, CutterShape, Machine, Wood, Workshop};
use crate::measure::Length;

impl Workshop {
    /// A light three-axis router, flat cutters from 6 to 0.8 mm, a long one for separation, a cone, and four woods.
    pub fn starting() -> Workshop {
        Workshop {
            machine: Machine::starting(),
            cutters: starting_cutters(),
            woods: starting_woods(),
        }
    }
}

impl Machine {
    /// A light three-axis router without a tool changer.
    pub fn starting() -> Machine {
        Machine {
            name: "Light three-axis router".to_owned(),
            travel_mm: [600.0, 400.0, 90.0],
            rapid_mm_min: [3000.0, 3000.0, 1500.0],
            max_feed_mm_min: [2500.0, 2500.0, 800.0],
            acceleration_mm_s2: [300.0, 300.0, 200.0],
            junction_deviation_mm: 0.02,
            spindle_rpm: [8_000.0, 24_000.0],
            clear_height_mm: 5.0,
            dialect: "plain".to_owned(),
        }
    }
}

/// A flat cutter with two edges that can plunge. Step down is half the diameter of the larger ones and less of the thin ones; step
/// over is 40 % of the diameter.
struct Flat {
    id: &'static str,
    diameter: f64,
    flute_length: f64,
    max_depth: f64,
    stick_out: f64,
    step_down: f64,
    feed: f64,
    plunge: f64,
    spindle: f64,
}

const STEP_OVER: f64 = 0.4;
const RAMP_DEG: f64 = 3.0;
const FLUTES: u32 = 2;

/// Feeds come from a chip load of 0.01 mm per edge for the thinnest to 0.06 mm for 6 mm, in hard end grain.
const FLATS: [Flat; 6] = [
    Flat {
        id: "flat-6",
        diameter: 6.0,
        flute_length: 22.0,
        max_depth: 20.0,
        stick_out: 28.0,
        step_down: 1.5,
        feed: 1800.0,
        plunge: 500.0,
        spindle: 16_000.0,
    },
    Flat {
        id: "flat-6-long",
        diameter: 6.0,
        flute_length: 32.0,
        max_depth: 30.0,
        stick_out: 38.0,
        step_down: 1.5,
        feed: 1500.0,
        plunge: 400.0,
        spindle: 16_000.0,
    },
    Flat {
        id: "flat-3",
        diameter: 3.0,
        flute_length: 12.0,
        max_depth: 10.0,
        stick_out: 18.0,
        step_down: 1.5,
        feed: 1200.0,
        plunge: 400.0,
        spindle: 18_000.0,
    },
    Flat {
        id: "flat-1.5",
        diameter: 1.5,
        flute_length: 6.0,
        max_depth: 5.0,
        stick_out: 12.0,
        step_down: 0.6,
        feed: 700.0,
        plunge: 250.0,
        spindle: 20_000.0,
    },
    Flat {
        id: "flat-1",
        diameter: 1.0,
        flute_length: 4.0,
        max_depth: 3.5,
        stick_out: 10.0,
        step_down: 0.4,
        feed: 500.0,
        plunge: 200.0,
        spindle: 22_000.0,
    },
    Flat {
        id: "flat-0.8",
        diameter: 0.8,
        flute_length: 4.0,
        max_depth: 3.2,
        stick_out: 10.0,
        step_down: 0.3,
        feed: 450.0,
        plunge: 150.0,
        spindle: 24_000.0,
    },
];

fn starting_cutters() -> Vec<Cutter> {
    FLATS.iter().map(Flat::cutter).chain([cone()]).collect()
}

impl Flat {
    fn cutter(&self) -> Cutter {
        Cutter {
            id: self.id.to_owned(),
            shape: CutterShape::Flat,
            diameter: Length::mm(self.diameter),
            flute_length: Length::mm(self.flute_length),
            max_depth: Length::mm(self.max_depth),
            stick_out: Length::mm(self.stick_out),
            flutes: FLUTES,
            centre_cutting: true,
            step_down: Length::mm(self.step_down),
            step_over: Length::mm(self.diameter * STEP_OVER),
            feed_mm_min: self.feed,
            plunge_mm_min: self.plunge,
            ramp_deg: RAMP_DEG,
            spindle_rpm: self.spindle,
        }
    }
}

fn cone() -> Cutter {
    Cutter {
        id: "cone-60".to_owned(),
        shape: CutterShape::Conical {
            tip: Length::mm(0.2),
            included_angle_deg: 60.0,
        },
        diameter: Length::mm(6.0),
        flute_length: Length::mm(5.0),
        max_depth: Length::mm(4.0),
        stick_out: Length::mm(18.0),
        flutes: FLUTES,
        centre_cutting: true,
        step_down: Length::mm(0.5),
        step_over: Length::mm(0.2),
        feed_mm_min: 700.0,
        plunge_mm_min: 250.0,
        ramp_deg: RAMP_DEG,
        spindle_rpm: 20_000.0,
    }
}

fn starting_woods() -> Vec<Wood> {
    [
        ("hard-maple-end", "Hard maple, end grain"),
        ("beech-end", "Beech, end grain"),
        ("cherry-end", "Cherry, end grain"),
        ("pear-end", "Pear, end grain"),
    ]
    .map(|(id, name)| Wood {
        id: id.to_owned(),
        name: name.to_owned(),
        end_grain: true,
    })
    .to_vec()
}
