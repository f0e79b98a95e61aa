//! The job file: what was ordered and which programs cut it, open for anyone to check.
//!
//! Every make writes one `job.json` beside its programs. It holds enough to judge, without this program, whether they cut
//! the letters ordered: the outlines, where they lie, the cutters, the machine's limits and the hash of every program.
//! Lengths are millimetres. Plank coordinates: origin at the plank's lower-left corner seen from above with the printing face
//! up, x to the right, y away from the operator, z up and 0 at the printing face.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::workshop::Machine;

mod build;

pub(crate) use build::files_of_parts;
pub use build::{JobParts, job_file};

/// The word that tells a job file from other JSON.
pub const FORMAT: &str = "sortwright-job";

/// The version written by this program.
pub const VERSION: u32 = 1;

/// A made job, as written to `job.json`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobFile {
    /// [`FORMAT`].
    pub format: String,
    /// [`VERSION`].
    pub version: u32,
    /// The promise: no finished wall lies further inside the drawn letter than this.
    pub tolerance_mm: f64,
    /// The font files.
    pub fonts: Vec<JobFont>,
    /// Vector art that is not a font.
    #[serde(default)]
    pub art: Vec<JobArt>,
    /// Every glyph that is cut, so that the job can be checked without the font files.
    pub outlines: Vec<JobOutline>,
    /// The cutters used.
    pub cutters: Vec<JobCutter>,
    /// The planks.
    pub planks: Vec<JobPlank>,
    /// Every copy of every sort.
    pub sorts: Vec<JobSort>,
    /// How blocks come apart.
    pub separation: JobSeparation,
    /// Height of the wood that holds blocks to the plank, above the bed; `None` when a saw parts them.
    #[serde(default)]
    pub hold_mm: Option<f64>,
    /// What that wood is; of no meaning when a saw parts them.
    #[serde(default)]
    pub held_by: JobHold,
    /// The depth asked for by width of the ground; `None` where every floor is to have its sort's `relief_mm`.
    #[serde(default)]
    pub relief: Option<JobRelief>,
    /// Width left between blocks.
    pub lane_mm: f64,
    /// The programs, in the order of running.
    pub programs: Vec<JobProgram>,
    /// The machine's limits.
    pub machine: JobMachine,
    /// The ground that no cutter reaches.
    pub unreached: Vec<JobUnreached>,
    /// What the plates of letters in colours are to keep; `None` where no letter is in colours.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub register: Option<JobRegister>,
    /// Time at the machine.
    pub minutes: JobMinutes,
}

/// A font file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobFont {
    /// The id by which sorts name it.
    pub id: String,
    /// The file, relative to the commission file.
    pub file: String,
    /// SHA-256 of the file, lower-case hex.
    pub sha256: String,
    /// The font's place in a collection, else 0.
    pub index: u32,
    /// Variable axes: tag to value.
    pub variations: BTreeMap<String, f64>,
}

/// Vector art that is not a font; its coordinates are the file's own with y turned up.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobArt {
    /// The id by which sorts name it.
    pub id: String,
    /// The file, relative to the commission file; of a part that was cut from a letter, relative to the job file.
    pub file: String,
    /// SHA-256 of the file, lower-case hex.
    pub sha256: String,
    /// What is cut of it: SVG path data in the file's own coordinates, y up, filled by the nonzero rule.
    #[serde(default)]
    pub path: String,
}

/// The outline of a glyph.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobOutline {
    /// The font, by id.
    pub font: String,
    /// Index of the glyph in it.
    pub glyph: u16,
    /// The colour layer whose share of the glyph it is, as sorts name it; `None` for the whole glyph.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub layer: Option<String>,
    /// SVG path data in font units, y up, filled by the nonzero rule.
    pub path: String,
}

/// What the plates of letters in colours are to keep: all layers of a letter lie on blocks alike, in the same place of them.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobRegister {
    /// The plates in the order of printing.
    pub plates: Vec<JobPlate>,
    /// By how much each is spread under those printed after it, where they meet.
    pub trap_mm: f64,
    /// By how much the press may be out of register.
    pub misregister_mm: f64,
}

/// A plate: all blocks that are printed in one ink.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobPlate {
    /// Its name, which the layer of its sorts is.
    pub name: String,
    /// Its ink: `#` and six hexadecimal digits.
    pub ink: String,
}

/// A cutter.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobCutter {
    /// Its id.
    pub id: String,
    /// The shape of its end.
    pub kind: JobCutterKind,
    /// The largest cutting diameter.
    pub diameter_mm: f64,
    /// Length of the cutting edges.
    pub flute_length_mm: f64,
    /// The deepest it may go below the face.
    pub max_depth_mm: f64,
    /// Conical cutters: diameter of the flat at the tip.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tip_diameter_mm: Option<f64>,
    /// Conical cutters: angle between opposite sides, degrees.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub included_angle_deg: Option<f64>,
    /// The fastest feed this cutter was given, mm/min.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub feed_mm_min: Option<f64>,
    /// The fastest feed straight down, mm/min.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub plunge_mm_min: Option<f64>,
    /// Depth of one layer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step_down_mm: Option<f64>,
    /// Width of one roughing cut.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step_over_mm: Option<f64>,
    /// How far it stands out of the collet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stick_out_mm: Option<f64>,
    /// Whether it can cut straight down.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub centre_cutting: Option<bool>,
    /// The spindle speed that it is run at.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spindle_rpm: Option<f64>,
}

/// Shape of a cutter's end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum JobCutterKind {
    /// Flat.
    Flat,
    /// Round.
    Ball,
    /// A cone.
    Conical,
}

/// A plank.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobPlank {
    /// Its id.
    pub id: String,
    /// Size in x.
    pub width_mm: f64,
    /// Size in y.
    pub length_mm: f64,
    /// Thickness: the underside is at z = minus this.
    pub height_to_paper_mm: f64,
    /// Where the programs' z = 0 lies.
    pub program_zero: JobZero,
    /// Where the programs' x = 0 and y = 0 lie, in plank coordinates.
    pub program_origin_mm: [f64; 2],
    /// The clamps that hold it, as upright boxes.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub clamps: Vec<JobClamp>,
    /// Places that no block may lie on: knots, glue lines.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub bad_places: Vec<JobBox>,
    /// The limits of the router that cuts it, where that is not the job's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub machine: Option<JobMachine>,
}

/// An upright box on a plank, seen from above.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobBox {
    /// Its lower left corner, in plank coordinates.
    pub at_mm: [f64; 2],
    /// Its size in x and y.
    pub size_mm: [f64; 2],
}

/// A clamp on a plank.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobClamp {
    /// Its lower left corner, in plank coordinates.
    pub at_mm: [f64; 2],
    /// Its size in x and y.
    pub size_mm: [f64; 2],
    /// How far it stands above the face.
    pub height_mm: f64,
}

/// Where the programs' z = 0 lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum JobZero {
    /// At the printing face, the top of the plank.
    Face,
    /// At the machine's bed, the plank's underside.
    Bed,
}

/// One copy of a sort.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobSort {
    /// Unique within the job.
    pub id: String,
    /// The plank it lies on, by id.
    pub plank: String,
    /// The font it is cut from, by id; `None` for art and plain blocks.
    pub font: Option<String>,
    /// Index of the glyph in the font.
    pub glyph: Option<u16>,
    /// The art it is cut from, by id; `None` for glyphs and plain blocks.
    #[serde(default)]
    pub art: Option<String>,
    /// What it prints.
    pub text: String,
    /// The colour layer's name: that of its plate in [`JobFile::register`].
    #[serde(default)]
    pub layer: Option<String>,
    /// Six numbers a to f: x' = a x + c y + e, y' = b x + d y + f takes the source's units (y up) to plank millimetres.
    pub source_to_plank: Option<[f64; 6]>,
    /// The finished block's outline seen from above, without the repeated last point.
    pub block_mm: Vec<[f64; 2]>,
    /// The steps cut from the block's corners.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub notches: Vec<JobNotch>,
    /// The body.
    pub body_mm: f64,
    /// The set width.
    pub set_mm: f64,
    /// Of art: height of the base line above the block's foot. A glyph's is where its units begin.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub baseline_mm: Option<f64>,
    /// Depth of the floor below the face asked for in open ground.
    pub relief_mm: f64,
    /// What of a letter it is, where the letter was cut apart.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part: Option<JobPart>,
}

/// A part of a letter that was cut apart. It is art of its own, in a file beside the programs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobPart {
    /// The whole letter, by name.
    pub of: String,
    /// What the whole letter prints.
    pub text: String,
    /// Where the part's lower left corner lies on the whole letter's block, as printed; `None` for a piece that goes between parts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_mm: Option<[f64; 2]>,
    /// Set and body of the whole letter's block.
    pub of_mm: [f64; 2],
}

/// A step cut from a corner of a block.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobNotch {
    /// The corner of the block's box, seen from above, that is cut away, in plank coordinates.
    pub corner_mm: [f64; 2],
    /// Width and height of the step as it is cut.
    pub size_mm: [f64; 2],
    /// How much of the outer corner beside the step is cut off at 45°, along either side.
    pub bevel_mm: f64,
    /// Width and length, in points of the commission's system, of the spacing material that fills it.
    pub filled_by_pt: [f64; 2],
}

/// The depth of the floor by local width: the diameter of the largest disc inside the ground that holds a place, where ground
/// goes on beyond the block.
///
/// `least_mm` up to `narrow_width_mm`, from there rising evenly to `full_mm` at `wide_width_mm`, and `full_mm` beyond.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobRelief {
    /// Depth in narrow ground.
    pub least_mm: f64,
    /// Depth in open ground.
    pub full_mm: f64,
    /// Ground up to this width is narrow.
    pub narrow_width_mm: f64,
    /// Ground from this width on is open.
    pub wide_width_mm: f64,
}

/// How blocks come apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum JobSeparation {
    /// A program cuts them out.
    Router,
    /// A cutting list does.
    Saw,
}

/// What holds blocks to the plank while a router cuts them out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum JobHold {
    /// Bridges here and there; between them the outline is cut through.
    #[default]
    Tabs,
    /// A skin at the bottom, all round.
    Skin,
}

/// A program.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobProgram {
    /// The file, relative to the job file.
    pub file: String,
    /// SHA-256 of the file, lower-case hex.
    pub sha256: String,
    /// The plank it cuts, by id.
    pub plank: String,
    /// The cutter it starts with, by id.
    pub cutter: String,
    /// What it does with that cutter.
    pub role: JobRole,
    /// Moving and dwelling time, seconds, without changes of cutter.
    pub estimate_s: f64,
    /// The cutter and role after each pause, in order; empty when the program has one cutter.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub changes: Vec<JobChange>,
}

/// What a program does after a pause.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobChange {
    /// The cutter, by id.
    pub cutter: String,
    /// What it does.
    pub role: JobRole,
}

/// What a program does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum JobRole {
    /// Clears open ground.
    Roughing,
    /// Cuts walls alone.
    Finishing,
    /// Clears what larger cutters could not.
    Rest,
    /// Sharpens corners.
    Corners,
    /// Cuts notches.
    Notches,
    /// Cuts blocks out of the plank.
    Separation,
}

impl JobRole {
    /// The word in the file.
    pub const fn word(self) -> &'static str {
        match self {
            JobRole::Roughing => "roughing",
            JobRole::Finishing => "finishing",
            JobRole::Rest => "rest",
            JobRole::Corners => "corners",
            JobRole::Notches => "notches",
            JobRole::Separation => "separation",
        }
    }
}

/// The machine's limits. Triples are x, y, z.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobMachine {
    /// Speed of rapid moves.
    pub rapid_mm_min: [f64; 3],
    /// The fastest feed.
    pub max_feed_mm_min: [f64; 3],
    /// Acceleration.
    pub acceleration_mm_s2: [f64; 3],
    /// How far the controller may round a corner.
    pub junction_deviation_mm: f64,
    /// Slowest and fastest spindle speed.
    pub spindle_rpm: [f64; 2],
    /// Room to move.
    pub travel_mm: [f64; 3],
    /// Diameter of the collet nut.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub holder_diameter_mm: Option<f64>,
    /// What it does to places. The programs ask for such places that the cutter goes where plank coordinates say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub squareness: Option<JobSquareness>,
}

/// What a machine does to places, for which its programs are corrected: asked for x, y of a program, it goes to
/// `scale_x · x + scale_y · sin(skew) · y` and `scale_y · cos(skew) · y`, counted from the program's zero.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobSquareness {
    /// Millimetres moved along x for each that is asked for.
    pub scale_x: f64,
    /// The same along y.
    pub scale_y: f64,
    /// By how much the angle between the axes is less than a right one, degrees: positive where y leans toward +x.
    pub skew_deg: f64,
}

impl JobMachine {
    /// The machine as the model of time takes it: what a program's time does not hang on is left empty.
    pub fn limits(&self) -> Machine {
        Machine {
            name: String::new(),
            travel_mm: self.travel_mm,
            rapid_mm_min: self.rapid_mm_min,
            max_feed_mm_min: self.max_feed_mm_min,
            acceleration_mm_s2: self.acceleration_mm_s2,
            junction_deviation_mm: self.junction_deviation_mm,
            spindle_rpm: self.spindle_rpm,
            clear_height_mm: 0.0,
            hop_height_mm: 0.0,
            holder_diameter_mm: 0.0,
            change_minutes: 0.0,
            minutes_factor: 1.0,
            minutes_per_run: 0.0,
            squareness: None,
            dialect: String::new(),
        }
    }
}

/// The ground of one sort that no cutter of the job reaches.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobUnreached {
    /// The sort, by id.
    pub sort: String,
    /// Its area inside the block.
    pub area_mm2: f64,
    /// The corners that stay round.
    pub corners: Vec<JobCorner>,
}

/// A corner that stays round.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobCorner {
    /// The drawn corner, in plank coordinates.
    pub at_mm: [f64; 2],
    /// The angle of the background there, degrees.
    pub angle_deg: f64,
    /// From the drawn corner to the nearest wood that is reached.
    pub gap_mm: f64,
}

/// Time at the machine, minutes, without changes of cutter.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobMinutes {
    /// The whole job.
    pub machine: f64,
    /// Each plank, in the order of [`JobFile::planks`].
    pub planks: Vec<f64>,
}

/// Why a job file could not be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum JobFileError {
    /// Not JSON, or a key is missing or of the wrong kind.
    #[error("The job file is damaged at line {line}, column {column}: {why}. Make the job again.")]
    Damaged {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What was wrong there.
        why: String,
    },
    /// JSON of something else.
    #[error(
        "This is not a job file: its format says \"{0}\". Choose the folder that a make wrote."
    )]
    OtherFormat(String),
    /// Written by a later program.
    #[error(
        "This job file is of version {0}, and this program reads version 1. Use the program that wrote it, or make the job again."
    )]
    OtherVersion(u64),
}

/// The two keys that tell whether the rest can be read.
#[derive(Deserialize)]
struct Head {
    #[serde(default)]
    format: String,
    #[serde(default)]
    version: u64,
}

impl JobFile {
    /// The file's text: JSON, indented, ending in a line feed; the same job gives the same bytes.
    pub fn to_json(&self) -> String {
        let mut text = serde_json::to_string_pretty(self)
            .expect("the job file has string keys alone and no type that refuses to be written");
        text.push('\n');
        text
    }

    /// Reads a file's text.
    ///
    /// # Errors
    /// When it is not JSON, not a job file, of another version, or a key is missing or of the wrong kind.
    pub fn from_json(text: &str) -> Result<JobFile, JobFileError> {
        let head: Head = serde_json::from_str(text).map_err(damaged)?;
        if head.format != FORMAT {
            return Err(JobFileError::OtherFormat(head.format));
        }
        if head.version != u64::from(VERSION) {
            return Err(JobFileError::OtherVersion(head.version));
        }
        serde_json::from_str(text).map_err(damaged)
    }

    /// The limits of the machine that cuts a plank, by the plank's place in the list.
    pub fn machine_of(&self, plank: usize) -> &JobMachine {
        self.planks
            .get(plank)
            .and_then(|plank| plank.machine.as_ref())
            .unwrap_or(&self.machine)
    }

    /// A cutter by its id.
    pub fn cutter(&self, id: &str) -> Option<&JobCutter> {
        self.cutters.iter().find(|cutter| cutter.id == id)
    }
}

/// Says where a file is damaged; the place is given apart, so it is taken off the library's sentence.
fn damaged(error: serde_json::Error) -> JobFileError {
    let place = format!(" at line {} column {}", error.line(), error.column());
    JobFileError::Damaged {
        line: error.line(),
        column: error.column(),
        why: error.to_string().replace(&place, ""),
    }
}

#[cfg(test)]
pub(crate) mod tests;
