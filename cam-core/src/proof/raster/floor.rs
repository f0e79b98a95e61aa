//! The floor that motions leave: cells and how deep they were cut.

use geometry::cells::Grid;
use reader::ReadMotion;

use crate::proof::heights::{Footprint, stretches};

/// How far beyond its radius a cutter is taken to cut, mm: the rounding of a program's places.
const EDGE_MM: f64 = 0.001;

/// Depth of each cell, mm below the face.
#[derive(Clone)]
pub struct Floor {
    grid: Grid,
    depth: Vec<f32>,
}

impl Floor {
    /// Wood not cut yet.
    pub fn uncut(grid: Grid) -> Floor {
        Floor {
            grid,
            depth: vec![0.0; grid.count()],
        }
    }

    /// Depth of a cell by its number.
    pub fn depth(&self, index: usize) -> f32 {
        self.depth[index]
    }

    /// Lets a flat cutter pass. The whole course counts as cut to `depth`, so a slope is given its shallow end. Where it `goes_on` from a
    /// course cut as deep, the place where it begins is not gone over again.
    pub fn cut(&mut self, read: &ReadMotion, radius: f64, depth: f64, goes_on: bool) {
        let depth = depth as f32;
        let columns = self.grid.columns;
        let footprint = Footprint::of(read, radius + EDGE_MM).going_on(goes_on);
        stretches(
            &self.grid,
            0..self.grid.rows,
            &footprint,
            &mut |row, covered| {
                let first = row * columns;
                for cell in &mut self.depth[first + covered.start..first + covered.end] {
                    *cell = cell.max(depth);
                }
            },
        );
    }
}
