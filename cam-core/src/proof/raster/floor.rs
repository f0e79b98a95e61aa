//! The floor that motions leave: cells and how deep they were cut.

use geometry::arc_path::Turn;
use geometry::cells::Grid;
use kurbo::{Point, Rect};
use reader::{ReadCourse, ReadMotion};

use crate::proof::motion;

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

    /// Lets a flat cutter pass. The whole course counts as cut to `depth`, so a slope is given its shallow end.
    pub fn cut(&mut self, read: &ReadMotion, radius: f64, depth: f64) {
        let radius = radius + EDGE_MM;
        let depth = depth as f32;
        match read.course {
            ReadCourse::Rapid | ReadCourse::Line { .. } => {
                self.cut_along_line(read.from.xy, read.to.xy, radius, depth);
            }
            ReadCourse::Arc {
                centre,
                turn,
                sweep,
                ..
            } => {
                self.cut_along_line(read.from.xy, read.from.xy, radius, depth);
                self.cut_along_line(read.to.xy, read.to.xy, radius, depth);
                let (start, end) = match turn {
                    Turn::Left => (read.from.xy, read.to.xy),
                    Turn::Right => (read.to.xy, read.from.xy),
                };
                // Fitted arcs may belong to circles far larger than the block, so only their own box is looked at.
                let swept = motion::extent(read).inflate(radius, radius);
                self.cut_in_sector(swept, centre, [start, end], sweep, radius, depth);
            }
        }
    }

    /// A disc drawn along a straight line: every row of it is one stretch.
    fn cut_along_line(&mut self, a: Point, b: Point, radius: f64, depth: f32) {
        let length = a.distance(b);
        let side = if length > 0.0 {
            kurbo::Vec2::new(a.y - b.y, b.x - a.x) * (radius / length)
        } else {
            kurbo::Vec2::ZERO
        };
        let rows = self
            .grid
            .rows_between(a.y.min(b.y) - radius, a.y.max(b.y) + radius);
        for row in rows {
            let y = self.grid.row_y(row);
            let (mut left, mut right) = (f64::INFINITY, f64::NEG_INFINITY);
            for end in [a, b] {
                let half2 = radius * radius - (y - end.y) * (y - end.y);
                if half2 >= 0.0 {
                    let half = half2.sqrt();
                    left = left.min(end.x - half);
                    right = right.max(end.x + half);
                }
            }
            for (p, q) in [(a + side, b + side), (a - side, b - side)] {
                if p.y != q.y && (p.y > y) != (q.y > y) {
                    let x = p.x + (y - p.y) / (q.y - p.y) * (q.x - p.x);
                    left = left.min(x);
                    right = right.max(x);
                }
            }
            self.deepen(row, left, right, depth);
        }
    }

    /// The band that a disc sweeps about a centre, from the direction of `start` counter-clockwise through `sweep`.
    fn cut_in_sector(
        &mut self,
        swept: Rect,
        centre: Point,
        [start, end]: [Point; 2],
        sweep: f64,
        radius: f64,
        depth: f32,
    ) {
        let turning = start.distance(centre);
        let outer2 = (turning + radius).powi(2);
        let inner2 = (turning - radius).max(0.0).powi(2);
        let (from, to) = (start - centre, end - centre);
        let whole = sweep >= std::f64::consts::TAU - 1e-9;
        let wide = sweep > std::f64::consts::PI;
        let columns = self.grid.columns_between(swept.x0, swept.x1);
        let first_x = self.grid.origin.x + (columns.start as f64 + 0.5) * self.grid.cell - centre.x;
        for row in self.grid.rows_between(swept.y0, swept.y1) {
            let y = self.grid.row_y(row) - centre.y;
            let first = row * self.grid.columns;
            let cells = &mut self.depth[first + columns.start..first + columns.end];
            for (offset, cell) in cells.iter_mut().enumerate() {
                let x = first_x + offset as f64 * self.grid.cell;
                let after_start = from.x * y - from.y * x >= 0.0;
                let before_end = x * to.y - y * to.x >= 0.0;
                let turned = if wide {
                    after_start | before_end
                } else {
                    after_start & before_end
                };
                let away2 = x * x + y * y;
                if (whole | turned) & (away2 >= inner2) & (away2 <= outer2) {
                    *cell = cell.max(depth);
                }
            }
        }
    }

    fn deepen(&mut self, row: usize, left: f64, right: f64, depth: f32) {
        let columns = self.grid.columns_between(left, right);
        let first = row * self.grid.columns;
        for cell in &mut self.depth[first + columns.start..first + columns.end] {
            *cell = cell.max(depth);
        }
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::TAU;

    use super::*;
    use crate::proof::tests::{arc, line};

    /// Cells differ from the exact distance only where it is within rounding of the radius.
    #[test]
    fn cuts_what_lies_within_the_radius() {
        let grid = Grid {
            origin: Point::new(-6.0, -5.0),
            cell: 0.1,
            columns: 120,
            rows: 100,
        };
        let at = Point::new;
        let courses = [
            line(at(-2.0, -1.0), at(2.0, 1.5)),
            line(at(-2.0, 1.0), at(2.0, 1.0)),
            line(at(0.3, -1.0), at(0.3, 2.0)),
            line(at(0.3, 0.4), at(0.3, 0.4)),
            line(at(-40.0, 0.0), at(40.0, 3.0)),
            arc(at(2.0, 0.0), at(0.0, 0.0), 1.0, Turn::Left),
            arc(at(2.0, 0.0), at(0.0, 0.0), 4.0, Turn::Left),
            arc(at(2.0, 0.0), at(0.0, 0.0), 2.5, Turn::Right),
            arc(at(0.5, 0.5), at(0.0, 0.0), 5.5, Turn::Right),
            arc(at(2.0, 1.0), at(0.0, 0.0), TAU, Turn::Left),
        ];
        for course in courses {
            for radius in [0.4, 1.5, 3.0] {
                let mut floor = Floor::uncut(grid);
                floor.cut(&course, radius, 2.0);
                for index in 0..grid.count() {
                    let distance = motion::distance(&course, grid.centre(index));
                    if (distance - radius - EDGE_MM).abs() > 1e-9 {
                        assert_eq!(
                            floor.depth(index) == 2.0,
                            distance < radius + EDGE_MM,
                            "{course:?}, radius {radius}, at {}",
                            grid.centre(index)
                        );
                    }
                }
            }
        }
    }
}
