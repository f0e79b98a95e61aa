//! Rules for notches in the commission file.

use serde::{Deserialize, Serialize};

use super::super::FormatError;
use super::super::json::FileLength;
use super::or_default;
use crate::commission::NotchRules;
use crate::measure::System;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FileNotches {
    #[serde(default)]
    pairs: Vec<String>,
    least_wall: Option<FileLength>,
    step: Option<FileLength>,
    clearance: Option<FileLength>,
    kinds: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cutter: Option<String>,
}

impl FileNotches {
    pub(super) fn into_model(self, system: System) -> Result<NotchRules, FormatError> {
        let starting = NotchRules::starting(system);
        let read = |length: &Option<FileLength>, place: &str, default| {
            or_default(length.as_ref(), place, system, default)
        };
        Ok(NotchRules {
            pairs: self.pairs,
            least_wall: read(&self.least_wall, "notches.least_wall", starting.least_wall)?,
            step: read(&self.step, "notches.step", starting.step)?,
            clearance: read(&self.clearance, "notches.clearance", starting.clearance)?,
            kinds: self.kinds.unwrap_or(starting.kinds),
            cutter: self.cutter,
        })
    }

    pub(super) fn of(rules: &NotchRules, system: System) -> FileNotches {
        FileNotches {
            pairs: rules.pairs.clone(),
            least_wall: Some(FileLength::of(rules.least_wall, system)),
            step: Some(FileLength::of(rules.step, system)),
            clearance: Some(FileLength::of(rules.clearance, system)),
            kinds: Some(rules.kinds),
            cutter: rules.cutter.clone(),
        }
    }
}
