//! The floor that motions leave: cells and how deep they were cut.

use geometry::cells::Grid;

use crate::proof::heights::{Footprint, stretches};

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

    /// Lets a flat cutter cut what it covers down to `depth`.
    pub fn cut(&mut self, covers: &Footprint, depth: f64) {
        let depth = depth as f32;
        let columns = self.grid.columns;
        stretches(
            &self.grid,
            0..self.grid.rows,
            covers,
            &mut |row, covered| {
                let first = row * columns;
                for cell in &mut self.depth[first + covered.start..first + covered.end] {
                    *cell = cell.max(depth);
                }
            },
        );
    }
}
