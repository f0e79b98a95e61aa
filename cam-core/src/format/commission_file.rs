//! The commission file, version 1. A key that is left out is what [`Commission::starting`] and its like begin with, where its default is marked.

mod bill;
mod block;
mod border;
mod colours;
mod cut_apart;
mod cutting;
mod drawing;
mod notches;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

pub(super) use self::bill::FileBillLine;
use self::bill::{bill_of, file_bill};
use self::block::{FileBlock, FileFit};
use self::border::FileBorder;
use self::colours::FileColours;
use self::cut_apart::FileCutApart;
use self::cutting::{FileCutting, FilePlanks};
use self::drawing::FileDrawing;
use self::notches::FileNotches;
use super::FormatError;
use super::json::FileLength;
use super::limits::Fault;
use super::record_file::RecordFile;
use super::{COMMISSION_FORMAT, COMMISSION_VERSION};
use crate::commission::{Commission, Face, Fit, Permission, SpaceLine};
use crate::measure::{Length, System};

/// The id of a face that the file does not name.
const ONLY_FACE: &str = "main";

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CommissionFile {
    format: String,
    version: u32,
    #[serde(default)]
    title: String,
    #[serde(default)]
    reference: String,
    #[serde(default)]
    customer: Vec<String>,
    #[serde(default)]
    date: String,
    system: Option<FileSystem>,
    lines: f64,
    height_to_paper: Option<FileLength>,
    wood: Option<String>,
    #[serde(default)]
    faces: Vec<FileFace>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    drawings: Vec<FileDrawing>,
    fit: Option<FileFit>,
    #[serde(default)]
    block: FileBlock,
    #[serde(skip_serializing_if = "Option::is_none")]
    notches: Option<FileNotches>,
    #[serde(skip_serializing_if = "Option::is_none")]
    colours: Option<FileColours>,
    #[serde(default)]
    bill: Vec<FileBillLine>,
    #[serde(default)]
    spaces: Vec<FileSpace>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    cut_apart: Vec<FileCutApart>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    borders: Vec<FileBorder>,
    #[serde(default)]
    cutting: FileCutting,
    #[serde(default)]
    planks: FilePlanks,
    #[serde(skip_serializing_if = "Option::is_none")]
    replaces: Option<RecordFile>,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FileSystem {
    Pica,
    Didot,
    DidotRounded,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FileFace {
    id: Option<String>,
    file: String,
    #[serde(default)]
    sha256: String,
    #[serde(default)]
    index: u32,
    #[serde(default)]
    axes: BTreeMap<String, f64>,
    #[serde(default)]
    permission: FilePermission,
}

#[derive(Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FilePermission {
    #[serde(default)]
    by: String,
    #[serde(default)]
    on: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    founts: Option<u32>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FileSpace {
    set: FileLength,
    count: u32,
}

fn fault(place: &str, text: &str) -> FormatError {
    FormatError::Value(Fault::new(place, text))
}

/// A length of the file, or what it is when the key is left out.
fn or_default(
    length: Option<&FileLength>,
    place: &str,
    system: System,
    default: Length,
) -> Result<Length, FormatError> {
    length.map_or(Ok(default), |length| length.length(place, system))
}

impl CommissionFile {
    pub(super) fn into_model(self) -> Result<Commission, FormatError> {
        let system = match self.system {
            Some(FileSystem::Pica) | None => System::Pica,
            Some(FileSystem::Didot) => System::Didot,
            Some(FileSystem::DidotRounded) => System::DidotRounded,
        };
        let faces: Vec<Face> = self.faces.into_iter().map(FileFace::into_model).collect();
        let first_face = faces.first().map_or(ONLY_FACE, |face| &face.id).to_owned();
        Ok(Commission {
            title: self.title,
            reference: self.reference,
            customer: self.customer,
            date: self.date,
            system,
            lines: self.lines,
            height_to_paper: or_default(
                self.height_to_paper.as_ref(),
                "height_to_paper",
                system,
                Commission::starting_height(),
            )?,
            wood: self.wood.unwrap_or_else(Commission::starting_wood),
            fit: match self.fit {
                Some(fit) => fit.into_model(system)?,
                None => Fit::starting(system, self.lines),
            },
            block: self.block.into_model(system)?,
            notches: self
                .notches
                .map(|notches| notches.into_model(system))
                .transpose()?,
            colours: self
                .colours
                .map(|colours| colours.into_model(system))
                .transpose()?,
            bill: bill_of(&self.bill, &first_face)?,
            spaces: self
                .spaces
                .iter()
                .enumerate()
                .map(|(place, space)| {
                    Ok(SpaceLine {
                        set: space.set.length(&format!("spaces[{place}].set"), system)?,
                        count: space.count,
                    })
                })
                .collect::<Result<_, FormatError>>()?,
            cut_apart: self
                .cut_apart
                .into_iter()
                .enumerate()
                .map(|(place, cut)| cut.into_model(place, &first_face, system))
                .collect::<Result<_, _>>()?,
            borders: self
                .borders
                .into_iter()
                .enumerate()
                .map(|(place, border)| border.into_model(place, system))
                .collect::<Result<_, _>>()?,
            cutting: self.cutting.into_model(system)?,
            planks: self.planks.into_model(system)?,
            replaces: match self.replaces {
                Some(record) => Some(Box::new(record.into_model("replaces.")?)),
                None => None,
            },
            drawings: self
                .drawings
                .into_iter()
                .enumerate()
                .map(|(place, drawing)| drawing.into_model(place, system))
                .collect::<Result<_, _>>()?,
            faces,
        })
    }

    pub(super) fn of(commission: &Commission) -> CommissionFile {
        let system = commission.system;
        let length = |length: Length| FileLength::of(length, system);
        CommissionFile {
            format: COMMISSION_FORMAT.to_owned(),
            version: COMMISSION_VERSION,
            title: commission.title.clone(),
            reference: commission.reference.clone(),
            customer: commission.customer.clone(),
            date: commission.date.clone(),
            system: Some(match system {
                System::Pica => FileSystem::Pica,
                System::Didot => FileSystem::Didot,
                System::DidotRounded => FileSystem::DidotRounded,
            }),
            lines: commission.lines,
            height_to_paper: Some(length(commission.height_to_paper)),
            wood: Some(commission.wood.clone()),
            faces: commission.faces.iter().map(FileFace::of).collect(),
            drawings: commission
                .drawings
                .iter()
                .map(|drawing| FileDrawing::of(drawing, system))
                .collect(),
            fit: Some(FileFit::of(commission.fit, system)),
            block: FileBlock::of(&commission.block, system),
            notches: commission
                .notches
                .as_ref()
                .map(|notches| FileNotches::of(notches, system)),
            colours: commission
                .colours
                .as_ref()
                .map(|colours| FileColours::of(colours, system)),
            bill: file_bill(commission),
            spaces: commission
                .spaces
                .iter()
                .map(|space| FileSpace {
                    set: length(space.set),
                    count: space.count,
                })
                .collect(),
            cut_apart: commission
                .cut_apart
                .iter()
                .map(|cut| FileCutApart::of(cut, system))
                .collect(),
            borders: commission
                .borders
                .iter()
                .map(|border| FileBorder::of(border, system))
                .collect(),
            cutting: FileCutting::of(&commission.cutting, system),
            planks: FilePlanks::of(&commission.planks, system),
            replaces: commission.replaces.as_deref().map(RecordFile::of),
        }
    }
}

impl FileFace {
    fn into_model(self) -> Face {
        Face {
            id: self.id.unwrap_or_else(|| ONLY_FACE.to_owned()),
            file: self.file,
            sha256: self.sha256,
            index: self.index,
            variations: self.axes,
            permission: self.permission.into_model(),
        }
    }

    fn of(face: &Face) -> FileFace {
        FileFace {
            id: Some(face.id.clone()),
            file: face.file.clone(),
            sha256: face.sha256.clone(),
            index: face.index,
            axes: face.variations.clone(),
            permission: FilePermission::of(&face.permission),
        }
    }
}

impl FilePermission {
    fn into_model(self) -> Permission {
        Permission {
            by: self.by,
            on: self.on,
            founts: self.founts,
        }
    }

    fn of(permission: &Permission) -> FilePermission {
        FilePermission {
            by: permission.by.clone(),
            on: permission.on.clone(),
            founts: permission.founts,
        }
    }
}
