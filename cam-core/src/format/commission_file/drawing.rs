//! Drawings that are not fonts, in the commission file.

use serde::{Deserialize, Serialize};

use super::super::FormatError;
use super::super::json::FileLength;
use super::{FilePermission, fault, or_default};
use crate::commission::{DrawingSize, Extent, NamedDrawing};
use crate::measure::{Length, System};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FileDrawing {
    id: String,
    file: String,
    #[serde(default)]
    sha256: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    layer: Option<String>,
    #[serde(default)]
    extent: FileExtent,
    #[serde(skip_serializing_if = "Option::is_none")]
    height: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    width: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    body: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    foot: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    set: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    left: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    side: Option<FileLength>,
    join_gap: Option<FileLength>,
    #[serde(default)]
    permission: FilePermission,
}

#[derive(Clone, Copy, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FileExtent {
    #[default]
    Drawing,
    Page,
}

impl FileDrawing {
    pub(super) fn into_model(
        self,
        place: usize,
        system: System,
    ) -> Result<NamedDrawing, FormatError> {
        let at = |key: &str| format!("drawings[{place}].{key}");
        let length =
            |length: &Option<FileLength>, key: &str| -> Result<Option<Length>, FormatError> {
                let length = length.as_ref();
                length
                    .map(|length| length.length(&at(key), system))
                    .transpose()
            };
        let size = match (
            length(&self.height, "height")?,
            length(&self.width, "width")?,
        ) {
            (None, None) => DrawingSize::AsDrawn,
            (Some(height), None) => DrawingSize::Height(height),
            (None, Some(width)) => DrawingSize::Width(width),
            (Some(_), Some(_)) => {
                return Err(fault(
                    &at("width"),
                    "the height is given as well; give one of them, since a drawing keeps its proportions",
                ));
            }
        };
        let starting = NamedDrawing::starting(&self.id, &self.file);
        Ok(NamedDrawing {
            extent: match self.extent {
                FileExtent::Drawing => Extent::Drawing,
                FileExtent::Page => Extent::Page,
            },
            size,
            body: length(&self.body, "body")?,
            foot: length(&self.foot, "foot")?,
            set: length(&self.set, "set")?,
            left: length(&self.left, "left")?,
            side: length(&self.side, "side")?,
            join_gap: or_default(
                self.join_gap.as_ref(),
                &at("join_gap"),
                system,
                starting.join_gap,
            )?,
            sha256: self.sha256,
            layer: self.layer,
            permission: self.permission.into_model(),
            ..starting
        })
    }

    pub(super) fn of(drawing: &NamedDrawing, system: System) -> FileDrawing {
        let length = |length: Length| FileLength::of(length, system);
        let (height, width) = match drawing.size {
            DrawingSize::AsDrawn => (None, None),
            DrawingSize::Height(height) => (Some(length(height)), None),
            DrawingSize::Width(width) => (None, Some(length(width))),
        };
        FileDrawing {
            id: drawing.id.clone(),
            file: drawing.file.clone(),
            sha256: drawing.sha256.clone(),
            layer: drawing.layer.clone(),
            extent: match drawing.extent {
                Extent::Drawing => FileExtent::Drawing,
                Extent::Page => FileExtent::Page,
            },
            height,
            width,
            body: drawing.body.map(length),
            foot: drawing.foot.map(length),
            set: drawing.set.map(length),
            left: drawing.left.map(length),
            side: drawing.side.map(length),
            join_gap: Some(length(drawing.join_gap)),
            permission: FilePermission::of(&drawing.permission),
        }
    }
}
