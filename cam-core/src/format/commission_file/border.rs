//! Borders, in the commission file.

use serde::{Deserialize, Serialize};

use super::super::FormatError;
use super::super::json::FileLength;
use super::or_default;
use crate::commission::{Border, Measured};
use crate::measure::System;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FileBorder {
    id: String,
    corners: Vec<String>,
    running: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    sides: Vec<String>,
    width: FileLength,
    height: FileLength,
    #[serde(default)]
    measured: FileMeasured,
    #[serde(default = "one")]
    count: u32,
    tolerance: Option<FileLength>,
}

#[derive(Clone, Copy, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FileMeasured {
    #[default]
    Outside,
    Inside,
}

const fn one() -> u32 {
    1
}

impl FileBorder {
    pub(super) fn into_model(self, place: usize, system: System) -> Result<Border, FormatError> {
        let at = |key: &str| format!("borders[{place}].{key}");
        Ok(Border {
            width: self.width.length(&at("width"), system)?,
            height: self.height.length(&at("height"), system)?,
            measured: match self.measured {
                FileMeasured::Outside => Measured::Outside,
                FileMeasured::Inside => Measured::Inside,
            },
            tolerance: or_default(
                self.tolerance.as_ref(),
                &at("tolerance"),
                system,
                Border::starting_tolerance(),
            )?,
            id: self.id,
            corners: self.corners,
            running: self.running,
            sides: self.sides,
            count: self.count,
        })
    }

    pub(super) fn of(border: &Border, system: System) -> FileBorder {
        FileBorder {
            id: border.id.clone(),
            corners: border.corners.clone(),
            running: border.running.clone(),
            sides: border.sides.clone(),
            width: FileLength::of(border.width, system),
            height: FileLength::of(border.height, system),
            measured: match border.measured {
                Measured::Outside => FileMeasured::Outside,
                Measured::Inside => FileMeasured::Inside,
            },
            count: border.count,
            tolerance: Some(FileLength::of(border.tolerance, system)),
        }
    }
}
