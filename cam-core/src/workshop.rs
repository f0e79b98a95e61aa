//! What the workshop owns: machine, cutters and woods.

mod starting;

use crate::measure::Length;

/// The workshop's machine, cutters and woods.
#[derive(Clone, Debug, PartialEq)]
pub struct Workshop {
    /// The router.
    pub machine: Machine,
    /// The cutters owned.
    pub cutters: Vec<Cutter>,
    /// The woods in stock.
    pub woods: Vec<Wood>,
}

impl Workshop {
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
    /// The dialect of its controller, by name.
    pub dialect: String,
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
}
