//! Letters cut apart, in the commission file.

use serde::{Deserialize, Serialize};

use super::super::FormatError;
use super::super::json::FileLength;
use super::{FileBillLine, fault};
use crate::commission::{CutApart, CutLine, LineWay, MiddlePiece};
use crate::measure::System;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FileCutApart {
    /// The letter or drawing, named as a line of the bill names it.
    sort: FileBillLine,
    lines: Vec<FileCutLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    counts: Option<Vec<u32>>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FileCutLine {
    #[serde(skip_serializing_if = "Option::is_none")]
    upright: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    level: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    middle: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    count: Option<u32>,
}

impl FileCutApart {
    pub(super) fn into_model(
        self,
        place: usize,
        first_face: &str,
        system: System,
    ) -> Result<CutApart, FormatError> {
        let place = format!("cut_apart[{place}]");
        let (face, glyph) = self.sort.named(&format!("{place}.sort"), first_face)?;
        let lines = self.lines.into_iter().enumerate();
        let lines = lines
            .map(|(number, line)| line.into_model(&format!("{place}.lines[{number}]"), system));
        Ok(CutApart {
            face,
            glyph,
            lines: lines.collect::<Result<_, _>>()?,
            counts: self.counts,
        })
    }

    pub(super) fn of(cut: &CutApart, system: System) -> FileCutApart {
        FileCutApart {
            sort: FileBillLine::naming(&cut.face, &cut.glyph),
            lines: cut
                .lines
                .iter()
                .map(|line| FileCutLine::of(line, system))
                .collect(),
            counts: cut.counts.clone(),
        }
    }
}

impl FileCutLine {
    fn into_model(self, place: &str, system: System) -> Result<CutLine, FormatError> {
        let (way, at) = match (&self.upright, &self.level) {
            (Some(at), None) => (
                LineWay::Upright,
                at.length(&format!("{place}.upright"), system)?,
            ),
            (None, Some(at)) => (
                LineWay::Level,
                at.length(&format!("{place}.level"), system)?,
            ),
            (None, None) | (Some(_), Some(_)) => {
                return Err(fault(
                    place,
                    "say where the line lies by exactly one of “upright” and “level”",
                ));
            }
        };
        let middle = match (&self.middle, self.count) {
            (Some(length), count) => Some(MiddlePiece {
                length: length.length(&format!("{place}.middle"), system)?,
                count: count.unwrap_or(1),
            }),
            (None, None) => None,
            (None, Some(_)) => {
                return Err(fault(
                    &format!("{place}.count"),
                    "there is no middle piece to count; give its length as “middle”, or take the count out",
                ));
            }
        };
        Ok(CutLine { way, at, middle })
    }

    fn of(line: &CutLine, system: System) -> FileCutLine {
        let at = Some(FileLength::of(line.at, system));
        let (upright, level) = match line.way {
            LineWay::Upright => (at, None),
            LineWay::Level => (None, at),
        };
        FileCutLine {
            upright,
            level,
            middle: line
                .middle
                .map(|middle| FileLength::of(middle.length, system)),
            count: line.middle.map(|middle| middle.count),
        }
    }
}
