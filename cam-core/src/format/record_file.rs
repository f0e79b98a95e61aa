//! The record of a fount that was made: a file beside the programs, and a part of a commission that replaces sorts.

use kurbo::{BezPath, ParamCurveExtrema, PathSeg, Point, Rect};
use serde::{Deserialize, Serialize};

use super::commission_file::{CommissionFile, FileBillLine};
use super::limits::{Fault, commission_faults};
use super::workshop_file::FileCutter;
use super::{FormatError, RECORD_FORMAT, RECORD_VERSION};
use crate::commission::BillLine;
use crate::record::{MadeSort, Record};

/// Coordinates of blocks and faces are no larger, mm.
const LARGEST_MM: f64 = 10_000.0;
/// The most sorts of a record.
const MOST_SORTS: usize = 10_000;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RecordFile {
    format: String,
    version: u32,
    commission: Box<CommissionFile>,
    cutters: Vec<FileCutter>,
    sorts: Vec<FileSort>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FileSort {
    name: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    source: Option<FileBillLine>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    plate: Option<String>,
    count: u32,
    set_mm: f64,
    body_mm: f64,
    base_line_mm: f64,
    /// Corners of the block, x and y one after the other.
    block_mm: Vec<f64>,
    /// SVG path data, y up.
    outline: String,
}

impl RecordFile {
    /// `place` is its path in the file, empty for a file of its own.
    pub(super) fn into_model(self, place: &str) -> Result<Record, FormatError> {
        let at = |key: &str| format!("{place}{key}");
        let commission = self.commission.into_model()?;
        if let Some(fault) = commission_faults(&commission).into_iter().next() {
            let inside = at(&format!("commission.{}", fault.place));
            return Err(FormatError::Value(Fault::new(&inside, fault.text)));
        }
        if commission.replaces.is_some() {
            return Err(FormatError::Value(Fault::new(
                &at("commission.replaces"),
                "what is replaced replaces nothing itself; take it out",
            )));
        }
        if self.sorts.len() > MOST_SORTS {
            return Err(FormatError::Value(Fault::new(
                &at("sorts"),
                format!(
                    "it has {} entries; at most {MOST_SORTS} are read",
                    self.sorts.len()
                ),
            )));
        }
        let cutters = self.cutters.into_iter().enumerate();
        let cutters = cutters.map(|(n, cutter)| cutter.into_model(&at(&format!("cutters[{n}]"))));
        let sorts = self.sorts.into_iter().enumerate();
        let sorts = sorts.map(|(n, sort)| sort.into_model(&at(&format!("sorts[{n}]"))));
        Ok(Record {
            cutters: cutters.collect::<Result<_, FormatError>>()?,
            sorts: sorts.collect::<Result<_, FormatError>>()?,
            commission,
        })
    }

    pub(super) fn of(record: &Record) -> RecordFile {
        RecordFile {
            format: RECORD_FORMAT.to_owned(),
            version: RECORD_VERSION,
            commission: Box::new(CommissionFile::of(&record.commission)),
            cutters: record.cutters.iter().map(FileCutter::of).collect(),
            sorts: record.sorts.iter().map(FileSort::of).collect(),
        }
    }
}

/// Whether a segment's points are places in a shop.
fn lies_within(segment: &PathSeg) -> bool {
    let Rect { x0, y0, x1, y1 } = segment.bounding_box();
    [x0, y0, x1, y1]
        .iter()
        .all(|mm| (-LARGEST_MM..=LARGEST_MM).contains(mm))
}

impl FileSort {
    fn into_model(self, place: &str) -> Result<MadeSort, FormatError> {
        let refused =
            |key: &str, text: &str| FormatError::Value(Fault::new(&format!("{place}.{key}"), text));
        let sizes = [self.set_mm, self.body_mm, self.base_line_mm];
        let in_bounds = |mm: &f64| (-LARGEST_MM..=LARGEST_MM).contains(mm);
        let (corners, odd) = self.block_mm.as_chunks::<2>();
        if !odd.is_empty() || !sizes.iter().chain(&self.block_mm).all(in_bounds) {
            return Err(refused(
                "block_mm",
                "it holds no block; take the record out and make the fount again",
            ));
        }
        // The library passes over what it does not understand, so what was read has to be what is written.
        let outline = BezPath::from_svg(&self.outline)
            .ok()
            .filter(|path| {
                path.to_svg() == self.outline
                    && path.segments().all(|segment| lies_within(&segment))
            })
            .ok_or_else(|| {
                refused(
                    "outline",
                    "it is no path that can be read; take the record out and make the fount again",
                )
            })?;
        let source = match self.source {
            Some(line) => {
                let line = line.into_line(place)?;
                Some((line.face, line.glyph))
            }
            None => None,
        };
        Ok(MadeSort {
            name: self.name,
            source,
            plate: self.plate,
            count: self.count,
            set_mm: self.set_mm,
            body_mm: self.body_mm,
            baseline_mm: self.base_line_mm,
            block: corners.iter().map(|&[x, y]| Point::new(x, y)).collect(),
            outline,
        })
    }

    fn of(sort: &MadeSort) -> FileSort {
        let source = sort.source.as_ref().map(|(face, glyph)| {
            let line = BillLine {
                face: face.clone(),
                glyph: glyph.clone(),
                count: sort.count,
            };
            FileBillLine::of(&line, Some(face.clone()))
        });
        FileSort {
            name: sort.name.clone(),
            source,
            plate: sort.plate.clone(),
            count: sort.count,
            set_mm: sort.set_mm,
            body_mm: sort.body_mm,
            base_line_mm: sort.baseline_mm,
            block_mm: sort
                .block
                .iter()
                .flat_map(|corner| [corner.x, corner.y])
                .collect(),
            outline: sort.outline.to_svg(),
        }
    }
}
