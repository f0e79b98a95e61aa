//! What the workshop owns and charges: machines, cutters, woods, planks and rates.

mod papers;
mod starting;
mod stock;

use bench::square::Map;

use crate::bill::OwnTable;
use crate::measure::Length;

pub use papers::{PageSize, PaperChoice};
pub use stock::{BadPlace, Grain, Reserved, StockPlank};

/// The workshop's machines, cutters, woods, planks and rates.
#[derive(Clone, Debug, PartialEq)]
pub struct Workshop {
    /// The router, or the first of several.
    pub machine: Machine,
    /// The other routers.
    pub more_machines: Vec<Machine>,
    /// The cutters owned.
    pub cutters: Vec<Cutter>,
    /// The woods in stock.
    pub woods: Vec<Wood>,
    /// The planks in stock.
    pub stock: Vec<StockPlank>,
    /// The maker's own tables of proportions.
    pub tables: Vec<OwnTable>,
    /// What an hour costs, and how long handwork takes.
    pub rates: Rates,
    /// How papers look.
    pub papers: PaperChoice,
}

impl Workshop {
    /// All routers, the first first.
    pub fn machines(&self) -> impl Iterator<Item = &Machine> {
        std::iter::once(&self.machine).chain(&self.more_machines)
    }

    /// The workshop as one of its routers sees it: with that as its only machine.
    pub fn at(&self, machine: &Machine) -> Workshop {
        Workshop {
            machine: machine.clone(),
            more_machines: Vec::new(),
            ..self.clone()
        }
    }

    /// A cutter by its id.
    pub fn cutter(&self, id: &str) -> Option<&Cutter> {
        self.cutters.iter().find(|cutter| cutter.id == id)
    }

    /// A wood by its id.
    pub fn wood(&self, id: &str) -> Option<&Wood> {
        self.woods.iter().find(|wood| wood.id == id)
    }
}

/// A three-axis router. Triples are x, y, z.
#[derive(Clone, Debug, PartialEq)]
pub struct Machine {
    /// What the maker calls it.
    pub name: String,
    /// Room to move, mm.
    pub travel_mm: [f64; 3],
    /// Speed of rapid moves, mm/min.
    pub rapid_mm_min: [f64; 3],
    /// The fastest feed, mm/min.
    pub max_feed_mm_min: [f64; 3],
    /// Acceleration, mm/s².
    pub acceleration_mm_s2: [f64; 3],
    /// How far the controller may round a corner, mm.
    pub junction_deviation_mm: f64,
    /// Slowest and fastest spindle speed, turns a minute.
    pub spindle_rpm: [f64; 2],
    /// Height above the face for rapid moves, mm.
    pub clear_height_mm: f64,
    /// Height above the face for short rapid moves from cut to cut within a plank, where nothing stands higher than the wood;
    /// never more than the clear height, mm.
    pub hop_height_mm: f64,
    /// Diameter of the nut that closes the collet, mm.
    pub holder_diameter_mm: f64,
    /// Time for a change of cutter, with setting its height, minutes.
    pub change_minutes: f64,
    /// How many times its estimate a program takes: found from logged minutes, else 1.
    pub minutes_factor: f64,
    /// What each run of a program takes besides, minutes: found from logged minutes, else 0.
    pub minutes_per_run: f64,
    /// What it does to places, as measured on a test block: programs are corrected for it. `None` where it is taken to be square and true.
    pub squareness: Option<Map>,
    /// The dialect of its controller, by name.
    pub dialect: String,
}

impl Machine {
    /// What programs really take, as far as logged minutes tell: from their estimates, s, and how many times a program is run.
    pub fn real_seconds(&self, estimated_s: f64, runs: u32) -> f64 {
        estimated_s * self.minutes_factor + f64::from(runs) * self.minutes_per_run * 60.0
    }
}

/// A cutter and how it is run.
#[derive(Clone, Debug, PartialEq)]
pub struct Cutter {
    /// Short id, such as `flat-3`.
    pub id: String,
    /// Shape of the cutting part.
    pub shape: CutterShape,
    /// The largest cutting diameter.
    pub diameter: Length,
    /// Length of the cutting edges.
    pub flute_length: Length,
    /// The deepest it may go below the face; never more than the flute length.
    pub max_depth: Length,
    /// How far it stands out of the collet.
    pub stick_out: Length,
    /// Diameter of the shank above the flutes.
    pub shank_diameter: Length,
    /// Young's modulus of what it is made of, GPa: about 600 for carbide, 210 for high-speed steel (textbook figures, from memory).
    pub modulus_gpa: f64,
    /// Number of cutting edges.
    pub flutes: u32,
    /// Whether it can cut straight down.
    pub centre_cutting: bool,
    /// Depth of one layer.
    pub step_down: Length,
    /// Width of one roughing cut.
    pub step_over: Length,
    /// Feed along the path, mm/min.
    pub feed_mm_min: f64,
    /// Feed straight down, mm/min.
    pub plunge_mm_min: f64,
    /// Slope of ramps and helices, degrees.
    pub ramp_deg: f64,
    /// Spindle speed, turns a minute.
    pub spindle_rpm: f64,
}

impl Cutter {
    /// Half the diameter, in millimetres.
    pub fn radius_mm(&self) -> f64 {
        self.diameter.in_mm() / 2.0
    }
}

/// Shape of a cutter's cutting part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CutterShape {
    /// A flat end.
    Flat,
    /// A round end.
    Ball,
    /// A cone.
    Conical {
        /// Diameter of the flat at the tip.
        tip: Length,
        /// The angle between opposite sides, degrees.
        included_angle_deg: f64,
    },
}

/// A wood.
#[derive(Clone, Debug, PartialEq)]
pub struct Wood {
    /// Short id, such as `hard-maple-end`.
    pub id: String,
    /// What the maker calls it.
    pub name: String,
    /// Whether the face is end grain.
    pub end_grain: bool,
    /// Density as cut, kg/m³.
    pub density_kg_m3: f64,
    /// Side hardness (ball half sunk into the side of the grain, as the *Wood Handbook* defines it; from memory), N.
    pub hardness_n: f64,
    /// What a cutter's edge may take in this wood, in parts of what it takes in hard maple on end.
    pub chip_load_factor: f64,
    /// Force of an edge at its side divided by the chip's cross-section, N/mm².
    pub cutting_force_n_mm2: f64,
    /// What a cubic decimetre of it costs, planed for planks.
    pub price_per_dm3: f64,
}

/// What an hour costs, and how long handwork takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Rates {
    /// The currency, as a word: "euro".
    pub currency: String,
    /// An hour of the machine, changes of cutter included.
    pub machine_per_hour: f64,
    /// An hour of work by hand.
    pub hand_per_hour: f64,
    /// Minutes for a corner cut out with the knife.
    pub corner_minutes: f64,
    /// Minutes for a square centimetre of ground that no cutter reaches, cleared by hand.
    pub ground_minutes_per_cm2: f64,
    /// Minutes for fixing a plank on the machine and setting zero.
    pub fixing_minutes_per_plank: f64,
    /// Minutes for sanding a plank to height.
    pub sanding_minutes_per_plank: f64,
    /// Minutes for sealing a plank.
    pub sealing_minutes_per_plank: f64,
    /// Minutes for sawing a block off, or breaking it out, and easing its edges.
    pub parting_minutes_per_block: f64,
    /// Minutes for a parcel, whatever is in it.
    pub packing_minutes: f64,
    /// Minutes for each block in it.
    pub packing_minutes_per_block: f64,
    /// What part of the work has to be done again for blocks that break or are rejected.
    pub breakage: f64,
    /// What part of a price is more than the costs.
    pub margin: f64,
}
