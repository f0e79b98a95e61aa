//! Cutting, planks and separation in the commission file.

use serde::{Deserialize, Serialize};

use super::super::FormatError;
use super::super::clamps::FileClamp;
use super::super::json::FileLength;
use super::{fault, or_default};
use crate::commission::{
    Cutting, Direction, GrainWanted, Hold, Pin, PlankRules, ProgramFiles, Roughing, RowsOf,
    Separation,
};
use crate::measure::{Length, System};

#[derive(Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FileCutting {
    cutters: Option<Vec<String>>,
    tolerance: Option<FileLength>,
    relief: Option<FileLength>,
    least_relief: Option<FileLength>,
    narrow_width: Option<FileLength>,
    wide_width: Option<FileLength>,
    roughing: Option<FileRoughing>,
    allowance: Option<FileLength>,
    corner_tolerance: Option<FileLength>,
    direction: Option<FileDirection>,
    least_stroke: Option<FileLength>,
    files: Option<FileFiles>,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FileRoughing {
    Quicker,
    Steady,
    Contours,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FileDirection {
    Climb,
    Conventional,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FileFiles {
    PerCutter,
    WithPauses,
}

#[derive(Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FilePlanks {
    width: Option<FileLength>,
    length: Option<FileLength>,
    margin: Option<FileLength>,
    lane: Option<FileLength>,
    separation: Option<FileSeparation>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    clamps: Vec<FileClamp>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    stock: Vec<String>,
    grain: Option<FileGrainWanted>,
    rows: Option<FileRows>,
    #[serde(skip_serializing_if = "Option::is_none")]
    kerf: Option<FileLength>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pins: Vec<FilePin>,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FileGrainWanted {
    Any,
    AlongLine,
    UpBody,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FileRows {
    OneBody,
    Mixed,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FilePin {
    block: String,
    plank: String,
    x: FileLength,
    y: FileLength,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FileSeparation {
    by: FileSeparationBy,
    #[serde(skip_serializing_if = "Option::is_none")]
    cutter: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    tabs: Option<FileTabs>,
    #[serde(skip_serializing_if = "Option::is_none")]
    skin: Option<FileLength>,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FileSeparationBy {
    Router,
    Saw,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FileTabs {
    width: FileLength,
    height: FileLength,
}

impl FileCutting {
    pub(super) fn into_model(self, system: System) -> Result<Cutting, FormatError> {
        let starting = Cutting::starting();
        let read = |length: &Option<FileLength>, key: &str, default: Length| {
            or_default(length.as_ref(), &format!("cutting.{key}"), system, default)
        };
        Ok(Cutting {
            cutters: self.cutters.unwrap_or(starting.cutters),
            tolerance: read(&self.tolerance, "tolerance", starting.tolerance)?,
            relief: read(&self.relief, "relief", starting.relief)?,
            least_relief: read(&self.least_relief, "least_relief", starting.least_relief)?,
            narrow_width: read(&self.narrow_width, "narrow_width", starting.narrow_width)?,
            wide_width: read(&self.wide_width, "wide_width", starting.wide_width)?,
            roughing: match self.roughing {
                Some(FileRoughing::Quicker) => Roughing::Quicker,
                Some(FileRoughing::Steady) => Roughing::Steady,
                Some(FileRoughing::Contours) => Roughing::Contours,
                None => starting.roughing,
            },
            allowance: read(&self.allowance, "allowance", starting.allowance)?,
            corner_tolerance: read(
                &self.corner_tolerance,
                "corner_tolerance",
                starting.corner_tolerance,
            )?,
            direction: match self.direction {
                Some(FileDirection::Climb) => Direction::Climb,
                Some(FileDirection::Conventional) => Direction::Conventional,
                None => starting.direction,
            },
            least_stroke: read(&self.least_stroke, "least_stroke", starting.least_stroke)?,
            files: match self.files {
                Some(FileFiles::PerCutter) => ProgramFiles::PerCutter,
                Some(FileFiles::WithPauses) => ProgramFiles::WithPauses,
                None => starting.files,
            },
        })
    }

    pub(super) fn of(cutting: &Cutting, system: System) -> FileCutting {
        let length = |length: Length| Some(FileLength::of(length, system));
        FileCutting {
            cutters: Some(cutting.cutters.clone()),
            tolerance: length(cutting.tolerance),
            relief: length(cutting.relief),
            least_relief: length(cutting.least_relief),
            narrow_width: length(cutting.narrow_width),
            wide_width: length(cutting.wide_width),
            roughing: Some(match cutting.roughing {
                Roughing::Quicker => FileRoughing::Quicker,
                Roughing::Steady => FileRoughing::Steady,
                Roughing::Contours => FileRoughing::Contours,
            }),
            allowance: length(cutting.allowance),
            corner_tolerance: length(cutting.corner_tolerance),
            direction: Some(match cutting.direction {
                Direction::Climb => FileDirection::Climb,
                Direction::Conventional => FileDirection::Conventional,
            }),
            least_stroke: length(cutting.least_stroke),
            files: Some(match cutting.files {
                ProgramFiles::PerCutter => FileFiles::PerCutter,
                ProgramFiles::WithPauses => FileFiles::WithPauses,
            }),
        }
    }
}

impl FilePlanks {
    pub(super) fn into_model(self, system: System) -> Result<PlankRules, FormatError> {
        let starting = PlankRules::starting();
        let read = |length: &Option<FileLength>, key: &str, default: Length| {
            or_default(length.as_ref(), &format!("planks.{key}"), system, default)
        };
        let separation = match &self.separation {
            Some(separation) => separation.model(system)?,
            None => starting.separation,
        };
        let lane = PlankRules::starting_lane(matches!(separation, Separation::Router { .. }));
        Ok(PlankRules {
            width: read(&self.width, "width", starting.width)?,
            length: read(&self.length, "length", starting.length)?,
            margin: read(&self.margin, "margin", starting.margin)?,
            lane: read(&self.lane, "lane", lane)?,
            separation,
            clamps: (0..)
                .zip(&self.clamps)
                .map(|(number, clamp)| clamp.model(&format!("planks.clamps[{number}]"), system))
                .collect::<Result<_, FormatError>>()?,
            stock: self.stock,
            grain: match self.grain {
                Some(FileGrainWanted::Any) => GrainWanted::Any,
                Some(FileGrainWanted::AlongLine) => GrainWanted::AlongLine,
                Some(FileGrainWanted::UpBody) => GrainWanted::UpBody,
                None => starting.grain,
            },
            rows: match self.rows {
                Some(FileRows::OneBody) => RowsOf::OneBody,
                Some(FileRows::Mixed) => RowsOf::Mixed,
                None => starting.rows,
            },
            kerf: match &self.kerf {
                Some(kerf) => Some(kerf.length("planks.kerf", system)?),
                None => None,
            },
            pins: (0..)
                .zip(&self.pins)
                .map(|(number, pin)| pin.model(number, system))
                .collect::<Result<_, FormatError>>()?,
        })
    }

    pub(super) fn of(rules: &PlankRules, system: System) -> FilePlanks {
        let length = |length: Length| Some(FileLength::of(length, system));
        FilePlanks {
            width: length(rules.width),
            length: length(rules.length),
            margin: length(rules.margin),
            lane: length(rules.lane),
            separation: Some(FileSeparation::of(&rules.separation, system)),
            clamps: rules
                .clamps
                .iter()
                .map(|clamp| FileClamp::of(clamp, system))
                .collect(),
            stock: rules.stock.clone(),
            grain: Some(match rules.grain {
                GrainWanted::Any => FileGrainWanted::Any,
                GrainWanted::AlongLine => FileGrainWanted::AlongLine,
                GrainWanted::UpBody => FileGrainWanted::UpBody,
            }),
            rows: Some(match rules.rows {
                RowsOf::OneBody => FileRows::OneBody,
                RowsOf::Mixed => FileRows::Mixed,
            }),
            kerf: rules.kerf.map(|kerf| FileLength::of(kerf, system)),
            pins: rules
                .pins
                .iter()
                .map(|pin| FilePin {
                    block: pin.block.clone(),
                    plank: pin.plank.clone(),
                    x: FileLength::of(pin.x, system),
                    y: FileLength::of(pin.y, system),
                })
                .collect(),
        }
    }
}

impl FilePin {
    fn model(&self, number: usize, system: System) -> Result<Pin, FormatError> {
        let read = |length: &FileLength, key: &str| {
            length.length(&format!("planks.pins[{number}].{key}"), system)
        };
        Ok(Pin {
            block: self.block.clone(),
            plank: self.plank.clone(),
            x: read(&self.x, "x")?,
            y: read(&self.y, "y")?,
        })
    }
}

impl FileSeparation {
    pub(super) fn model(&self, system: System) -> Result<Separation, FormatError> {
        match self.by {
            FileSeparationBy::Router => Ok(Separation::Router {
                cutter: self.cutter.clone().ok_or_else(|| {
                    fault(
                        "planks.separation.cutter",
                        "name the cutter that cuts the blocks out",
                    )
                })?,
                hold: self.hold(system)?,
            }),
            FileSeparationBy::Saw => {
                let idle = [
                    (self.cutter.is_some(), "cutter"),
                    (self.tabs.is_some(), "tabs"),
                    (self.skin.is_some(), "skin"),
                ];
                match idle.into_iter().find(|(present, _)| *present) {
                    Some((_, key)) => Err(fault(
                        &format!("planks.separation.{key}"),
                        "a saw does not use it; take it out",
                    )),
                    None => Ok(Separation::Saw),
                }
            }
        }
    }

    fn hold(&self, system: System) -> Result<Hold, FormatError> {
        match (&self.tabs, &self.skin) {
            (None, None) => Ok(Hold::starting()),
            (Some(tabs), None) => Ok(Hold::Tabs {
                width: tabs.width.length("planks.separation.tabs.width", system)?,
                height: tabs
                    .height
                    .length("planks.separation.tabs.height", system)?,
            }),
            (None, Some(skin)) => Ok(Hold::Skin(skin.length("planks.separation.skin", system)?)),
            (Some(_), Some(_)) => Err(fault(
                "planks.separation",
                "blocks are held by “tabs” or by a “skin”, not by both; take one out",
            )),
        }
    }

    pub(super) fn of(separation: &Separation, system: System) -> FileSeparation {
        let length = |length: Length| FileLength::of(length, system);
        match separation {
            Separation::Saw => FileSeparation {
                by: FileSeparationBy::Saw,
                cutter: None,
                tabs: None,
                skin: None,
            },
            Separation::Router { cutter, hold } => {
                let (tabs, skin) = match *hold {
                    Hold::Tabs { width, height } => (
                        Some(FileTabs {
                            width: length(width),
                            height: length(height),
                        }),
                        None,
                    ),
                    Hold::Skin(skin) => (None, Some(length(skin))),
                };
                FileSeparation {
                    by: FileSeparationBy::Router,
                    cutter: Some(cutter.clone()),
                    tabs,
                    skin,
                }
            }
        }
    }
}
