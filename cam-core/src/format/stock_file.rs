//! Planks in stock in the workshop file.

use serde::{Deserialize, Serialize};

use super::FormatError;
use super::clamps::FileClamp;
use super::json::FileLength;
use crate::measure::{Length, System};
use crate::workshop::{BadPlace, Grain, Reserved, StockPlank};

/// Points in a workshop file, should anyone write them, are Anglo-American.
const SYSTEM: System = System::Pica;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FileStockPlank {
    id: String,
    wood: String,
    count: Option<u32>,
    width: FileLength,
    length: FileLength,
    #[serde(skip_serializing_if = "Option::is_none")]
    height: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    grain: Option<FileGrain>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    bad_places: Vec<FileBadPlace>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    reserved: Option<FileReserved>,
    #[serde(skip_serializing_if = "Option::is_none")]
    clamps: Option<Vec<FileClamp>>,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FileGrain {
    End,
    Across,
    Along,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FileBadPlace {
    x: FileLength,
    y: FileLength,
    width: FileLength,
    length: FileLength,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    what: String,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FileReserved {
    #[serde(skip_serializing_if = "Option::is_none")]
    left: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    right: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    near: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    far: Option<FileLength>,
}

impl FileStockPlank {
    pub(super) fn into_model(self, place: &str) -> Result<StockPlank, FormatError> {
        let read =
            |length: &FileLength, key: &str| length.length(&format!("{place}.{key}"), SYSTEM);
        let reserved = |reserved: &FileReserved| {
            let read = |length: &Option<FileLength>, key: &str| {
                length.as_ref().map_or(Ok(Length::default()), |length| {
                    length.length(&format!("{place}.reserved.{key}"), SYSTEM)
                })
            };
            Ok::<Reserved, FormatError>(Reserved {
                left: read(&reserved.left, "left")?,
                right: read(&reserved.right, "right")?,
                near: read(&reserved.near, "near")?,
                far: read(&reserved.far, "far")?,
            })
        };
        let bad_place = |(number, bad): (usize, &FileBadPlace)| {
            let read = |length: &FileLength, key: &str| {
                length.length(&format!("{place}.bad_places[{number}].{key}"), SYSTEM)
            };
            Ok::<BadPlace, FormatError>(BadPlace {
                x: read(&bad.x, "x")?,
                y: read(&bad.y, "y")?,
                width: read(&bad.width, "width")?,
                length: read(&bad.length, "length")?,
                what: bad.what.clone(),
            })
        };
        Ok(StockPlank {
            count: self.count.unwrap_or(1),
            width: read(&self.width, "width")?,
            length: read(&self.length, "length")?,
            height: match &self.height {
                Some(height) => Some(read(height, "height")?),
                None => None,
            },
            grain: self.grain.map(|grain| match grain {
                FileGrain::End => Grain::End,
                FileGrain::Across => Grain::Across,
                FileGrain::Along => Grain::Along,
            }),
            bad_places: self
                .bad_places
                .iter()
                .enumerate()
                .map(bad_place)
                .collect::<Result<_, _>>()?,
            reserved: match &self.reserved {
                Some(told) => reserved(told)?,
                None => Reserved::default(),
            },
            clamps: match &self.clamps {
                Some(clamps) => Some(
                    clamps
                        .iter()
                        .enumerate()
                        .map(|(number, clamp)| {
                            clamp.model(&format!("{place}.clamps[{number}]"), SYSTEM)
                        })
                        .collect::<Result<_, _>>()?,
                ),
                None => None,
            },
            id: self.id,
            wood: self.wood,
        })
    }

    pub(super) fn of(plank: &StockPlank) -> FileStockPlank {
        let length = |length: Length| FileLength::of(length, SYSTEM);
        let some = |reserved: Length| (reserved.in_mm() != 0.0).then(|| length(reserved));
        let reserved = FileReserved {
            left: some(plank.reserved.left),
            right: some(plank.reserved.right),
            near: some(plank.reserved.near),
            far: some(plank.reserved.far),
        };
        FileStockPlank {
            id: plank.id.clone(),
            wood: plank.wood.clone(),
            count: Some(plank.count),
            width: length(plank.width),
            length: length(plank.length),
            height: plank.height.map(length),
            grain: plank.grain.map(|grain| match grain {
                Grain::End => FileGrain::End,
                Grain::Across => FileGrain::Across,
                Grain::Along => FileGrain::Along,
            }),
            bad_places: plank
                .bad_places
                .iter()
                .map(|bad| FileBadPlace {
                    x: length(bad.x),
                    y: length(bad.y),
                    width: length(bad.width),
                    length: length(bad.length),
                    what: bad.what.clone(),
                })
                .collect(),
            reserved: (plank.reserved != Reserved::default()).then_some(reserved),
            clamps: plank.clamps.as_ref().map(|clamps| {
                clamps
                    .iter()
                    .map(|clamp| FileClamp::of(clamp, SYSTEM))
                    .collect()
            }),
        }
    }
}
