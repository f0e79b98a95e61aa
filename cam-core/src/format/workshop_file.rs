//! The workshop file, version 1. A key that is left out is what the starting workshop has, where its default is marked.

mod papers;

use bench::square::Map;
use serde::{Deserialize, Serialize};

use self::papers::FilePapers;
use super::FormatError;
use super::json::FileLength;
use super::limits::Fault;
use super::stock_file::FileStockPlank;
use super::table_file::FileTable;
use super::{WORKSHOP_FORMAT, WORKSHOP_VERSION};
use crate::measure::{Length, System};
use crate::workshop::{Cutter, CutterShape, Machine, Rates, Wood, Workshop};

/// Points in a workshop file, should anyone write them, are Anglo-American.
const SYSTEM: System = System::Pica;
/// What a cutter is when its keys are left out. Common practice, no source.
const FLUTES: u32 = 2;
const RAMP_DEG: f64 = 3.0;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WorkshopFile {
    format: String,
    version: u32,
    machine: FileMachine,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    more_machines: Vec<FileMachine>,
    #[serde(default)]
    cutters: Vec<FileCutter>,
    #[serde(default)]
    woods: Vec<FileWood>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    stock: Vec<FileStockPlank>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    tables: Vec<FileTable>,
    #[serde(default)]
    rates: FileRates,
    #[serde(default)]
    papers: FilePapers,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FileMachine {
    #[serde(default)]
    name: String,
    travel_mm: [f64; 3],
    rapid_mm_min: [f64; 3],
    max_feed_mm_min: [f64; 3],
    acceleration_mm_s2: [f64; 3],
    junction_deviation_mm: f64,
    spindle_rpm: [f64; 2],
    clear_height_mm: Option<f64>,
    hop_height_mm: Option<f64>,
    holder_diameter_mm: Option<f64>,
    change_minutes: Option<f64>,
    minutes_factor: Option<f64>,
    minutes_per_run: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    squareness: Option<FileSquareness>,
    dialect: Option<String>,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FileSquareness {
    scale_x: f64,
    scale_y: f64,
    skew_deg: f64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FileCutter {
    id: String,
    kind: FileCutterKind,
    diameter: FileLength,
    #[serde(skip_serializing_if = "Option::is_none")]
    tip_diameter: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    included_angle_deg: Option<f64>,
    flute_length: FileLength,
    max_depth: Option<FileLength>,
    stick_out: FileLength,
    shank_diameter: Option<FileLength>,
    modulus_gpa: Option<f64>,
    flutes: Option<u32>,
    centre_cutting: Option<bool>,
    step_down: FileLength,
    step_over: FileLength,
    feed_mm_min: f64,
    plunge_mm_min: f64,
    ramp_deg: Option<f64>,
    spindle_rpm: f64,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FileCutterKind {
    Flat,
    Ball,
    Conical,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FileWood {
    id: String,
    name: Option<String>,
    #[serde(default)]
    end_grain: bool,
    density_kg_m3: Option<f64>,
    hardness_n: Option<f64>,
    chip_load_factor: Option<f64>,
    cutting_force_n_mm2: Option<f64>,
    price_per_dm3: Option<f64>,
}

#[derive(Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FileRates {
    currency: Option<String>,
    machine_per_hour: Option<f64>,
    hand_per_hour: Option<f64>,
    corner_minutes: Option<f64>,
    ground_minutes_per_cm2: Option<f64>,
    fixing_minutes_per_plank: Option<f64>,
    sanding_minutes_per_plank: Option<f64>,
    sealing_minutes_per_plank: Option<f64>,
    parting_minutes_per_block: Option<f64>,
    packing_minutes: Option<f64>,
    packing_minutes_per_block: Option<f64>,
    breakage: Option<f64>,
    margin: Option<f64>,
}

impl WorkshopFile {
    pub(super) fn into_model(self) -> Result<Workshop, FormatError> {
        Ok(Workshop {
            machine: self.machine.into_model(),
            more_machines: self
                .more_machines
                .into_iter()
                .map(FileMachine::into_model)
                .collect(),
            cutters: self
                .cutters
                .into_iter()
                .enumerate()
                .map(|(place, cutter)| cutter.into_model(&format!("cutters[{place}]")))
                .collect::<Result<_, _>>()?,
            woods: self.woods.into_iter().map(FileWood::into_model).collect(),
            stock: self
                .stock
                .into_iter()
                .enumerate()
                .map(|(place, plank)| plank.into_model(&format!("stock[{place}]")))
                .collect::<Result<_, _>>()?,
            tables: self.tables.into_iter().map(FileTable::into_model).collect(),
            rates: self.rates.into_model(),
            papers: self.papers.into_model(),
        })
    }

    pub(super) fn of(workshop: &Workshop) -> WorkshopFile {
        WorkshopFile {
            format: WORKSHOP_FORMAT.to_owned(),
            version: WORKSHOP_VERSION,
            machine: FileMachine::of(&workshop.machine),
            more_machines: workshop.more_machines.iter().map(FileMachine::of).collect(),
            cutters: workshop.cutters.iter().map(FileCutter::of).collect(),
            woods: workshop.woods.iter().map(FileWood::of).collect(),
            stock: workshop.stock.iter().map(FileStockPlank::of).collect(),
            tables: workshop.tables.iter().map(FileTable::of).collect(),
            rates: FileRates::of(&workshop.rates),
            papers: FilePapers::of(&workshop.papers),
        }
    }
}

impl FileMachine {
    fn into_model(self) -> Machine {
        let starting = Machine::starting();
        let clear_height_mm = self.clear_height_mm.unwrap_or(starting.clear_height_mm);
        Machine {
            name: self.name,
            travel_mm: self.travel_mm,
            rapid_mm_min: self.rapid_mm_min,
            max_feed_mm_min: self.max_feed_mm_min,
            acceleration_mm_s2: self.acceleration_mm_s2,
            junction_deviation_mm: self.junction_deviation_mm,
            spindle_rpm: self.spindle_rpm,
            clear_height_mm,
            // A maker who has not been asked gets no rapid move lower than the one they know.
            hop_height_mm: self.hop_height_mm.unwrap_or(clear_height_mm),
            holder_diameter_mm: self
                .holder_diameter_mm
                .unwrap_or(starting.holder_diameter_mm),
            change_minutes: self.change_minutes.unwrap_or(starting.change_minutes),
            minutes_factor: self.minutes_factor.unwrap_or(starting.minutes_factor),
            minutes_per_run: self.minutes_per_run.unwrap_or(starting.minutes_per_run),
            squareness: self.squareness.map(FileSquareness::into_model),
            dialect: self.dialect.unwrap_or(starting.dialect),
        }
    }

    fn of(machine: &Machine) -> FileMachine {
        FileMachine {
            name: machine.name.clone(),
            travel_mm: machine.travel_mm,
            rapid_mm_min: machine.rapid_mm_min,
            max_feed_mm_min: machine.max_feed_mm_min,
            acceleration_mm_s2: machine.acceleration_mm_s2,
            junction_deviation_mm: machine.junction_deviation_mm,
            spindle_rpm: machine.spindle_rpm,
            clear_height_mm: Some(machine.clear_height_mm),
            hop_height_mm: Some(machine.hop_height_mm),
            holder_diameter_mm: Some(machine.holder_diameter_mm),
            change_minutes: Some(machine.change_minutes),
            minutes_factor: Some(machine.minutes_factor),
            minutes_per_run: Some(machine.minutes_per_run),
            squareness: machine.squareness.as_ref().map(FileSquareness::of),
            dialect: Some(machine.dialect.clone()),
        }
    }
}

impl FileSquareness {
    fn into_model(self) -> Map {
        Map {
            scale_x: self.scale_x,
            scale_y: self.scale_y,
            skew: self.skew_deg.to_radians(),
        }
    }

    fn of(map: &Map) -> FileSquareness {
        FileSquareness {
            scale_x: map.scale_x,
            scale_y: map.scale_y,
            skew_deg: map.skew_deg(),
        }
    }
}

impl FileCutter {
    pub(super) fn into_model(self, place: &str) -> Result<Cutter, FormatError> {
        let read =
            |length: &FileLength, key: &str| length.length(&format!("{place}.{key}"), SYSTEM);
        let flute_length = read(&self.flute_length, "flute_length")?;
        let diameter = read(&self.diameter, "diameter")?;
        Ok(Cutter {
            shape: self.shape(place)?,
            diameter,
            flute_length,
            max_depth: match &self.max_depth {
                Some(depth) => read(depth, "max_depth")?,
                None => flute_length,
            },
            stick_out: read(&self.stick_out, "stick_out")?,
            shank_diameter: match &self.shank_diameter {
                Some(shank) => read(shank, "shank_diameter")?,
                None => Cutter::usual_shank(diameter),
            },
            modulus_gpa: self.modulus_gpa.unwrap_or(Cutter::USUAL_MODULUS_GPA),
            flutes: self.flutes.unwrap_or(FLUTES),
            centre_cutting: self.centre_cutting.unwrap_or(false),
            step_down: read(&self.step_down, "step_down")?,
            step_over: read(&self.step_over, "step_over")?,
            feed_mm_min: self.feed_mm_min,
            plunge_mm_min: self.plunge_mm_min,
            ramp_deg: self.ramp_deg.unwrap_or(RAMP_DEG),
            spindle_rpm: self.spindle_rpm,
            id: self.id,
        })
    }

    fn shape(&self, place: &str) -> Result<CutterShape, FormatError> {
        let fault = |key: &str, text: &str| {
            Err(FormatError::Value(Fault::new(
                &format!("{place}.{key}"),
                text,
            )))
        };
        match (self.kind, &self.tip_diameter, self.included_angle_deg) {
            (FileCutterKind::Flat, None, None) => Ok(CutterShape::Flat),
            (FileCutterKind::Ball, None, None) => Ok(CutterShape::Ball),
            (FileCutterKind::Conical, Some(tip), Some(included_angle_deg)) => {
                Ok(CutterShape::Conical {
                    tip: tip.length(&format!("{place}.tip_diameter"), SYSTEM)?,
                    included_angle_deg,
                })
            }
            (FileCutterKind::Conical, None, _) => fault(
                "tip_diameter",
                "a conical cutter needs it; 0 mm for a sharp tip",
            ),
            (FileCutterKind::Conical, Some(_), None) => fault(
                "included_angle_deg",
                "a conical cutter needs it: the angle between opposite sides",
            ),
            (FileCutterKind::Flat | FileCutterKind::Ball, Some(_), _) => {
                fault("tip_diameter", "only a conical cutter has it; take it out")
            }
            (FileCutterKind::Flat | FileCutterKind::Ball, None, Some(_)) => fault(
                "included_angle_deg",
                "only a conical cutter has it; take it out",
            ),
        }
    }

    pub(super) fn of(cutter: &Cutter) -> FileCutter {
        let length = |length: Length| FileLength::of(length, SYSTEM);
        let (kind, tip_diameter, included_angle_deg) = match cutter.shape {
            CutterShape::Flat => (FileCutterKind::Flat, None, None),
            CutterShape::Ball => (FileCutterKind::Ball, None, None),
            CutterShape::Conical {
                tip,
                included_angle_deg,
            } => (
                FileCutterKind::Conical,
                Some(length(tip)),
                Some(included_angle_deg),
            ),
        };
        FileCutter {
            id: cutter.id.clone(),
            kind,
            diameter: length(cutter.diameter),
            tip_diameter,
            included_angle_deg,
            flute_length: length(cutter.flute_length),
            max_depth: Some(length(cutter.max_depth)),
            stick_out: length(cutter.stick_out),
            shank_diameter: Some(length(cutter.shank_diameter)),
            modulus_gpa: Some(cutter.modulus_gpa),
            flutes: Some(cutter.flutes),
            centre_cutting: Some(cutter.centre_cutting),
            step_down: length(cutter.step_down),
            step_over: length(cutter.step_over),
            feed_mm_min: cutter.feed_mm_min,
            plunge_mm_min: cutter.plunge_mm_min,
            ramp_deg: Some(cutter.ramp_deg),
            spindle_rpm: cutter.spindle_rpm,
        }
    }
}

impl FileWood {
    fn into_model(self) -> Wood {
        let density_kg_m3 = self.density_kg_m3.unwrap_or(Wood::USUAL_DENSITY_KG_M3);
        Wood {
            name: self.name.unwrap_or_else(|| self.id.clone()),
            id: self.id,
            end_grain: self.end_grain,
            density_kg_m3,
            hardness_n: self.hardness_n.unwrap_or(Wood::USUAL_HARDNESS_N),
            chip_load_factor: self.chip_load_factor.unwrap_or(1.0),
            cutting_force_n_mm2: self
                .cutting_force_n_mm2
                .unwrap_or_else(|| Wood::usual_cutting_force(density_kg_m3)),
            price_per_dm3: self.price_per_dm3.unwrap_or(Wood::USUAL_PRICE_PER_DM3),
        }
    }

    fn of(wood: &Wood) -> FileWood {
        FileWood {
            id: wood.id.clone(),
            name: Some(wood.name.clone()),
            end_grain: wood.end_grain,
            density_kg_m3: Some(wood.density_kg_m3),
            hardness_n: Some(wood.hardness_n),
            chip_load_factor: Some(wood.chip_load_factor),
            cutting_force_n_mm2: Some(wood.cutting_force_n_mm2),
            price_per_dm3: Some(wood.price_per_dm3),
        }
    }
}

impl FileRates {
    fn into_model(self) -> Rates {
        let starting = Rates::starting();
        Rates {
            currency: self.currency.unwrap_or(starting.currency),
            machine_per_hour: self.machine_per_hour.unwrap_or(starting.machine_per_hour),
            hand_per_hour: self.hand_per_hour.unwrap_or(starting.hand_per_hour),
            corner_minutes: self.corner_minutes.unwrap_or(starting.corner_minutes),
            ground_minutes_per_cm2: self
                .ground_minutes_per_cm2
                .unwrap_or(starting.ground_minutes_per_cm2),
            fixing_minutes_per_plank: self
                .fixing_minutes_per_plank
                .unwrap_or(starting.fixing_minutes_per_plank),
            sanding_minutes_per_plank: self
                .sanding_minutes_per_plank
                .unwrap_or(starting.sanding_minutes_per_plank),
            sealing_minutes_per_plank: self
                .sealing_minutes_per_plank
                .unwrap_or(starting.sealing_minutes_per_plank),
            parting_minutes_per_block: self
                .parting_minutes_per_block
                .unwrap_or(starting.parting_minutes_per_block),
            packing_minutes: self.packing_minutes.unwrap_or(starting.packing_minutes),
            packing_minutes_per_block: self
                .packing_minutes_per_block
                .unwrap_or(starting.packing_minutes_per_block),
            breakage: self.breakage.unwrap_or(starting.breakage),
            margin: self.margin.unwrap_or(starting.margin),
        }
    }

    fn of(rates: &Rates) -> FileRates {
        FileRates {
            currency: Some(rates.currency.clone()),
            machine_per_hour: Some(rates.machine_per_hour),
            hand_per_hour: Some(rates.hand_per_hour),
            corner_minutes: Some(rates.corner_minutes),
            ground_minutes_per_cm2: Some(rates.ground_minutes_per_cm2),
            fixing_minutes_per_plank: Some(rates.fixing_minutes_per_plank),
            sanding_minutes_per_plank: Some(rates.sanding_minutes_per_plank),
            sealing_minutes_per_plank: Some(rates.sealing_minutes_per_plank),
            parting_minutes_per_block: Some(rates.parting_minutes_per_block),
            packing_minutes: Some(rates.packing_minutes),
            packing_minutes_per_block: Some(rates.packing_minutes_per_block),
            breakage: Some(rates.breakage),
            margin: Some(rates.margin),
        }
    }
}
