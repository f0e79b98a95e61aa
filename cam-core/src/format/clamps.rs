//! Clamps, as commissions and planks in stock have them.

use serde::{Deserialize, Serialize};

use super::FormatError;
use super::json::FileLength;
use crate::commission::Clamp;
use crate::measure::{Length, System};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FileClamp {
    x: FileLength,
    y: FileLength,
    width: FileLength,
    length: FileLength,
    height: FileLength,
}

impl FileClamp {
    /// The clamp at a place of the file, such as `planks.clamps[0]`.
    pub(super) fn model(&self, place: &str, system: System) -> Result<Clamp, FormatError> {
        let read =
            |length: &FileLength, key: &str| length.length(&format!("{place}.{key}"), system);
        Ok(Clamp {
            x: read(&self.x, "x")?,
            y: read(&self.y, "y")?,
            width: read(&self.width, "width")?,
            length: read(&self.length, "length")?,
            height: read(&self.height, "height")?,
        })
    }

    pub(super) fn of(clamp: &Clamp, system: System) -> FileClamp {
        let length = |length: Length| FileLength::of(length, system);
        FileClamp {
            x: length(clamp.x),
            y: length(clamp.y),
            width: length(clamp.width),
            length: length(clamp.length),
            height: length(clamp.height),
        }
    }
}
