//! What the blocks will print: an inked impression, right-reading, of what will really be cut.
//!
//! The face prints, and so does all ground that no cutter reaches, since it stays as high as the face: corners come out as
//! round as the cutters leave them.

use geometry::boolean;
use geometry::region::Region;
use kurbo::{Affine, Point};

use crate::sort::Sort;
use crate::space::FaceFromReading;
use crate::survey::Survey;

mod drawing;

pub use drawing::{Colour, DrawingError, Inks, to_png, to_svg};

/// What one sort prints, in reading space with the block's lower-left corner at 0, 0.
#[derive(Clone, Debug, PartialEq)]
pub struct Impression {
    /// The sort, by name.
    pub name: String,
    /// Width of the block (its set), mm.
    pub set_mm: f64,
    /// Height of the block (its body), mm.
    pub body_mm: f64,
    /// Height of the base line above the block's foot, mm.
    pub baseline_mm: f64,
    /// The block's outline, as read.
    pub block: Vec<Point>,
    /// What takes ink; empty for a space.
    pub inked: Region,
}

/// What one sort prints.
pub fn impression(sort: &Sort, survey: &Survey) -> Impression {
    let block = &sort.block;
    let standing = if block.plain {
        Region::default()
    } else {
        boolean::union(&sort.face, &survey.unreached)
    };
    // The mirror is its own inverse, and leaves the block from minus its set to 0.
    let reading_from_face =
        Affine::translate((block.set_mm, 0.0)) * FaceFromReading.affine().inverse();
    Impression {
        name: sort.name.clone(),
        set_mm: block.set_mm,
        body_mm: block.body_mm,
        baseline_mm: block.baseline_mm,
        block: turned(&block.outline, reading_from_face),
        inked: mirrored(&standing, reading_from_face),
    }
}

/// A region through a transform that mirrors: rings are turned about, so that they stay wound as regions are.
fn mirrored(region: &Region, transform: Affine) -> Region {
    let mut region = region.clone();
    for piece in &mut region.pieces {
        piece.outer = turned(&piece.outer, transform);
        for counter in &mut piece.counters {
            *counter = turned(counter, transform);
        }
    }
    region
}

/// A ring through a transform that mirrors.
fn turned(ring: &[Point], transform: Affine) -> Vec<Point> {
    ring.iter().rev().map(|&point| transform * point).collect()
}

/// Blocks set in lines, as they stand in the forme but right-reading.
#[derive(Clone, Debug, PartialEq)]
pub struct SetLines {
    /// Size across, margins included, mm.
    pub width_mm: f64,
    /// Size along, margins included, mm.
    pub height_mm: f64,
    /// The blocks in order.
    pub blocks: Vec<SetBlock>,
}

/// One block of set lines.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SetBlock {
    /// Index of its impression.
    pub impression: usize,
    /// Its lower-left corner; y up from the lower edge of the sheet.
    pub at: Point,
}

/// Sets blocks in lines, left to right and from the top down, block against block, on one base line per line.
///
/// `order` gives the impressions by index; `measure_mm` is the width that lines are broken at, and a block wider than that has
/// a line of its own. Blocks of larger bodies hang below or stand above the others, as furniture makes good in the forme.
pub fn set_lines(
    impressions: &[Impression],
    order: &[usize],
    measure_mm: f64,
    margin_mm: f64,
) -> SetLines {
    let mut lines: Vec<Line> = Vec::new();
    for (index, block) in order
        .iter()
        .filter_map(|&index| Some((index, impressions.get(index)?)))
    {
        match lines.last_mut() {
            Some(line) if line.width + block.set_mm <= measure_mm => line.add(index, block),
            Some(_) | None => {
                let mut line = Line::default();
                line.add(index, block);
                lines.push(line);
            }
        }
    }
    let widest = lines.iter().map(|line| line.width).fold(0.0, f64::max);
    let height: f64 = lines.iter().map(|line| line.above + line.below).sum();
    let mut set = SetLines {
        width_mm: widest + 2.0 * margin_mm,
        height_mm: height + 2.0 * margin_mm,
        blocks: Vec::new(),
    };
    let mut top = set.height_mm - margin_mm;
    for line in &lines {
        let base = top - line.above;
        for &(impression, x, baseline) in &line.blocks {
            set.blocks.push(SetBlock {
                impression,
                at: Point::new(margin_mm + x, base - baseline),
            });
        }
        top = base - line.below;
    }
    set
}

/// A line being set: its blocks with their x and base line, and how far they reach above and below the base line.
#[derive(Default)]
struct Line {
    blocks: Vec<(usize, f64, f64)>,
    width: f64,
    above: f64,
    below: f64,
}

impl Line {
    fn add(&mut self, index: usize, block: &Impression) {
        self.blocks.push((index, self.width, block.baseline_mm));
        self.width += block.set_mm;
        self.above = self.above.max(block.body_mm - block.baseline_mm);
        self.below = self.below.max(block.baseline_mm);
    }
}

#[cfg(test)]
mod tests;
