//! A workshop to begin with.
//!
//! All of it but the woods' figures is common practice for a light three-axis router, without a published source. The maker replaces it by
//! what the machine's manual and the cutters' makers state.

use super::{Cutter, CutterShape, Machine, PaperChoice, Rates, Wood, Workshop};
use crate::measure::Length;

impl Workshop {
    /// A light three-axis router, flat cutters from 6 to 0.8 mm, a long one for separation, a cone, four woods, and rates.
    pub fn starting() -> Workshop {
        Workshop {
            machine: Machine::starting(),
            more_machines: Vec::new(),
            cutters: starting_cutters(),
            woods: starting_woods(),
            stock: Vec::new(),
            tables: Vec::new(),
            rates: Rates::starting(),
            papers: PaperChoice::default(),
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
            hop_height_mm: 1.0,
            holder_diameter_mm: 30.0,
            change_minutes: 4.0,
            minutes_factor: 1.0,
            minutes_per_run: 0.0,
            squareness: None,
            dialect: "plain".to_owned(),
        }
    }
}

impl Rates {
    /// Round figures to begin with: 12 euro for an hour of the machine, 30 by hand, half a minute for a corner, ten minutes for
    /// a square centimetre of ground, some minutes for each plank, block and parcel, 3 % breakage, and a quarter of the price for
    /// margin. Common practice, no source.
    pub fn starting() -> Rates {
        Rates {
            currency: "euro".to_owned(),
            machine_per_hour: 12.0,
            hand_per_hour: 30.0,
            corner_minutes: 0.5,
            ground_minutes_per_cm2: 10.0,
            fixing_minutes_per_plank: 6.0,
            sanding_minutes_per_plank: 12.0,
            sealing_minutes_per_plank: 6.0,
            parting_minutes_per_block: 0.5,
            packing_minutes: 20.0,
            packing_minutes_per_block: 0.1,
            breakage: 0.03,
            margin: 0.25,
        }
    }
}

/// Young's modulus of carbide, GPa: 530 to 650 by grade; common practice, no source.
const CARBIDE_GPA: f64 = 600.0;

/// The thinnest shank that small cutters come with, mm: an eighth of an inch; common practice, no source.
const LEAST_SHANK_MM: f64 = 3.175;

impl Cutter {
    /// The shank that a cutter of this diameter usually has: as thick as the cutter, but not under an eighth of an inch.
    pub fn usual_shank(diameter: Length) -> Length {
        Length::mm(diameter.in_mm().max(LEAST_SHANK_MM))
    }

    /// Young's modulus of the carbide that cutters are usually made of, GPa.
    pub const USUAL_MODULUS_GPA: f64 = CARBIDE_GPA;
}

/// A flat cutter with two edges that can plunge. Step down is a quarter of the diameter at 6 mm, half of it at 3 mm, and about 0.4 of it below;
/// step over is 40 % of the diameter. Common practice, no source, as feeds, speeds and lengths.
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

/// Feeds come from a chip load of 0.009 mm per edge for the thinnest to 0.056 mm for 6 mm, in hard end grain; the long one takes less.
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
            shank_diameter: Cutter::usual_shank(Length::mm(self.diameter)),
            modulus_gpa: CARBIDE_GPA,
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
        shank_diameter: Length::mm(6.0),
        modulus_gpa: CARBIDE_GPA,
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

/// Specific gravity (oven-dry mass to volume at 12 % moisture), side hardness in newtons, and what an edge may take.
///
/// # Source
/// Gravity and hardness of maple, beech and cherry: Forest Products Laboratory, *Wood Handbook*, FPL-GTR-190 (2010), table 5-3a
/// (cherry's hardness and all of pear from memory). Chip-load factors: common practice, no source.
const WOODS: [(&str, &str, f64, f64, f64); 4] = [
    ("hard-maple-end", "Hard maple, end grain", 0.63, 6400.0, 1.0),
    ("beech-end", "Beech, end grain", 0.64, 5780.0, 1.0),
    ("cherry-end", "Cherry, end grain", 0.50, 4200.0, 1.2),
    ("pear-end", "Pear, end grain", 0.69, 7400.0, 0.9),
];

fn starting_woods() -> Vec<Wood> {
    WOODS
        .map(|(id, name, gravity, hardness_n, chip_load_factor)| {
            let density_kg_m3 = density_at_12_percent(gravity);
            Wood {
                id: id.to_owned(),
                name: name.to_owned(),
                end_grain: true,
                density_kg_m3,
                hardness_n,
                chip_load_factor,
                cutting_force_n_mm2: Wood::usual_cutting_force(density_kg_m3),
                price_per_dm3: Wood::USUAL_PRICE_PER_DM3,
            }
        })
        .to_vec()
}

/// Density in kg/m³ of wood with 12 % moisture, rounded to whole numbers: 1000 times its gravity, and the water's part.
///
/// # Source
/// *Wood Handbook*, FPL-GTR-190 (2010), equation 4-7 (from memory).
fn density_at_12_percent(gravity: f64) -> f64 {
    (1000.0 * gravity * 1.12).round()
}

impl Wood {
    /// Density of hard maple with 12 % moisture, kg/m³: 1000 · 0.63 · 1.12, as for the woods of the starting workshop.
    pub const USUAL_DENSITY_KG_M3: f64 = 706.0;
    /// Price of a cubic decimetre of planed hardwood on end, glued up for planks: common practice, no source.
    pub const USUAL_PRICE_PER_DM3: f64 = 15.0;
    /// Side hardness of hard maple, N: *Wood Handbook*, FPL-GTR-190 (2010), table 5-3a.
    pub const USUAL_HARDNESS_N: f64 = 6400.0;

    /// Specific cutting force at the side edges, N/mm², taken to grow as the density: 60 for hard maple, rounded to tenths.
    ///
    /// # Source
    /// Common practice, no source; hardwood across the grain is told to take 20 to 60 N/mm² (E. Kivimaa, *Cutting Force in
    /// Woodworking*, 1950, and P. Koch, *Wood Machining Processes*, 1964, both from memory).
    pub fn usual_cutting_force(density_kg_m3: f64) -> f64 {
        const MAPLE_N_MM2: f64 = 60.0;
        (MAPLE_N_MM2 * density_kg_m3 / Wood::USUAL_DENSITY_KG_M3 * 10.0).round() / 10.0
    }
}
