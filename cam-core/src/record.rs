//! What is kept of a fount that was made, so that the very same sorts can be made again.

use kurbo::{BezPath, PathEl, Point};

use crate::commission::{BillLine, Commission, GlyphChoice, Separation};
use crate::sort::Sort;
use crate::workshop::{Cutter, Workshop};

/// A fount as it was made: what was ordered, the cutters it was cut with, and what came of each sort.
#[derive(Clone, Debug, PartialEq)]
pub struct Record {
    /// The commission as it was made. It replaces nothing itself.
    pub commission: Commission,
    /// The cutters that it names, as the workshop had them.
    pub cutters: Vec<Cutter>,
    /// Its sorts, spaces last.
    pub sorts: Vec<MadeSort>,
}

/// A sort as it was made.
///
/// Everything is in face space, in millimetres rounded to a nanometre, with the block's lower-left corner at 0, 0.
#[derive(Clone, Debug, PartialEq)]
pub struct MadeSort {
    /// Its name in the commission.
    pub name: String,
    /// Its face and how the glyph was chosen; `None` for a space.
    pub source: Option<(String, GlyphChoice)>,
    /// Of a letter in colours: the name of the plate that it is for.
    pub plate: Option<String>,
    /// How many were made.
    pub count: u32,
    /// The set.
    pub set_mm: f64,
    /// The body.
    pub body_mm: f64,
    /// Height of the base line above the block's lower edge.
    pub baseline_mm: f64,
    /// The block's outline.
    pub block: Vec<Point>,
    /// The face; empty for a space.
    pub outline: BezPath,
}

impl MadeSort {
    fn of(sort: &Sort) -> MadeSort {
        let source = sort.source.as_ref();
        MadeSort {
            name: sort.name.clone(),
            source: source.map(|source| (source.face.clone(), source.choice.clone())),
            plate: sort.plate.as_ref().map(|plate| plate.name.clone()),
            count: sort.count,
            set_mm: to_nanometre(sort.block.set_mm),
            body_mm: to_nanometre(sort.block.body_mm),
            baseline_mm: to_nanometre(sort.block.baseline_mm),
            block: sort.block.outline.iter().copied().map(rounded).collect(),
            outline: sort.outline.iter().map(rounded_element).collect(),
        }
    }

    /// Of a letter in colours: the name of its letter, without that of the plate.
    pub fn letter(&self) -> Option<&str> {
        let plate = self.plate.as_ref()?;
        self.name.strip_suffix(&format!(" ({plate})"))
    }

    /// The line of a bill that orders so many of it; `None` for a space.
    pub fn ordered(&self, count: u32) -> Option<BillLine> {
        let (face, glyph) = self.source.clone()?;
        Some(BillLine { face, glyph, count })
    }
}

impl Record {
    /// The record of a fount whose sorts are drawn up. What is itself a replacement keeps the record of the first making.
    pub fn of<'a>(
        commission: &Commission,
        workshop: &Workshop,
        sorts: impl IntoIterator<Item = &'a Sort>,
    ) -> Record {
        if let Some(first) = &commission.replaces {
            return (**first).clone();
        }
        let separation = match &commission.planks.separation {
            Separation::Router { cutter, .. } => Some(cutter),
            Separation::Saw => None,
        };
        let mut ids: Vec<&String> = commission
            .cutting
            .cutters
            .iter()
            .chain(separation)
            .collect();
        ids.sort_unstable();
        ids.dedup();
        let cutters = ids.into_iter().filter_map(|id| workshop.cutter(id));
        Record {
            commission: commission.clone(),
            cutters: cutters.cloned().collect(),
            sorts: sorts.into_iter().map(MadeSort::of).collect(),
        }
    }

    /// A sort by its name.
    pub fn sort(&self, name: &str) -> Option<&MadeSort> {
        self.sorts.iter().find(|sort| sort.name == name)
    }
}

/// To a nanometre, without a minus before zero: finer than anything cut, and short to write.
pub(crate) fn to_nanometre(mm: f64) -> f64 {
    (mm * 1e6).round() / 1e6 + 0.0
}

fn rounded(point: Point) -> Point {
    Point::new(to_nanometre(point.x), to_nanometre(point.y))
}

fn rounded_element(element: PathEl) -> PathEl {
    match element {
        PathEl::MoveTo(p) => PathEl::MoveTo(rounded(p)),
        PathEl::LineTo(p) => PathEl::LineTo(rounded(p)),
        PathEl::QuadTo(a, p) => PathEl::QuadTo(rounded(a), rounded(p)),
        PathEl::CurveTo(a, b, p) => PathEl::CurveTo(rounded(a), rounded(b), rounded(p)),
        PathEl::ClosePath => PathEl::ClosePath,
    }
}
