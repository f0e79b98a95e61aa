//! The cells that a passing cutter covers, as stretches of rows.

use std::ops::Range;

use geometry::arc_path::Turn;
use geometry::cells::Grid;
use kurbo::{Point, Vec2};

use crate::proof::motion;
use reader::{ReadCourse, ReadMotion};

/// Tells every stretch of cells, among these rows, whose centres lie within a radius of a motion; some cells may be told twice.
pub fn stretches(
    grid: &Grid,
    rows: Range<usize>,
    read: &ReadMotion,
    radius: f64,
    tell: &mut impl FnMut(usize, Range<usize>),
) {
    let mut within = Within { grid, rows, tell };
    match read.course {
        ReadCourse::Rapid | ReadCourse::Line { .. } => {
            within.along_line(read.from.xy, read.to.xy, radius);
        }
        ReadCourse::Arc {
            centre,
            turn,
            sweep,
            ..
        } => {
            within.along_line(read.from.xy, read.from.xy, radius);
            within.along_line(read.to.xy, read.to.xy, radius);
            let (start, end) = match turn {
                Turn::Left => (read.from.xy, read.to.xy),
                Turn::Right => (read.to.xy, read.from.xy),
            };
            // Fitted arcs may belong to circles far larger than the block, so only their own box is looked at.
            let swept = motion::extent(read);
            let heights = [swept.y0 - radius, swept.y1 + radius];
            within.band(heights, centre, [start, end], sweep, radius);
        }
    }
}

struct Within<'a, T: FnMut(usize, Range<usize>)> {
    grid: &'a Grid,
    rows: Range<usize>,
    tell: &'a mut T,
}

impl<T: FnMut(usize, Range<usize>)> Within<'_, T> {
    fn rows_between(&self, low: f64, high: f64) -> Range<usize> {
        let found = self.grid.rows_between(low, high);
        let start = found.start.max(self.rows.start);
        start..found.end.min(self.rows.end).max(start)
    }

    fn say(&mut self, row: usize, left: f64, right: f64) {
        if left <= right {
            let columns = self.grid.columns_between(left, right);
            if !columns.is_empty() {
                (self.tell)(row, columns);
            }
        }
    }

    /// A disc drawn along a straight line: every row of it is one stretch.
    fn along_line(&mut self, a: Point, b: Point, radius: f64) {
        let length = a.distance(b);
        let side = if length > 0.0 {
            Vec2::new(a.y - b.y, b.x - a.x) * (radius / length)
        } else {
            Vec2::ZERO
        };
        for row in self.rows_between(a.y.min(b.y) - radius, a.y.max(b.y) + radius) {
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
            self.say(row, left, right);
        }
    }

    /// The band that a disc sweeps about a centre, from the direction of `start` counter-clockwise through `sweep`: in each row
    /// what lies between two circles, on the right side of two rays.
    fn band(
        &mut self,
        [low, high]: [f64; 2],
        centre: Point,
        [start, end]: [Point; 2],
        sweep: f64,
        radius: f64,
    ) {
        let turning = start.distance(centre);
        let (outer, inner) = (turning + radius, (turning - radius).max(0.0));
        let (from, to) = (start - centre, end - centre);
        let whole = sweep >= std::f64::consts::TAU - 1e-9;
        let wide = sweep > std::f64::consts::PI;
        for row in self.rows_between(low, high) {
            let y = self.grid.row_y(row) - centre.y;
            let half_outer2 = outer * outer - y * y;
            if half_outer2 < 0.0 {
                continue;
            }
            let half_outer = half_outer2.sqrt();
            let half_inner = (inner * inner - y * y).max(0.0).sqrt();
            // After the start: from.x y − from.y x ≥ 0. Before the end: x to.y − y to.x ≥ 0.
            let after = left_of(from.y, from.x * y);
            let before = left_of(-to.y, -to.x * y);
            let parts: [[f64; 2]; 2] = [[-half_outer, -half_inner], [half_inner, half_outer]];
            for part in parts {
                if whole {
                    self.say(row, centre.x + part[0], centre.x + part[1]);
                } else if wide {
                    for kept in [after, before] {
                        let [left, right] = both(part, kept);
                        self.say(row, centre.x + left, centre.x + right);
                    }
                } else {
                    let [left, right] = both(both(part, after), before);
                    self.say(row, centre.x + left, centre.x + right);
                }
            }
        }
    }
}

/// Where `slope` · x is at most `most`.
fn left_of(slope: f64, most: f64) -> [f64; 2] {
    if slope > 0.0 {
        [f64::NEG_INFINITY, most / slope]
    } else if slope < 0.0 {
        [most / slope, f64::INFINITY]
    } else if most >= 0.0 {
        [f64::NEG_INFINITY, f64::INFINITY]
    } else {
        [f64::INFINITY, f64::NEG_INFINITY]
    }
}

/// What two stretches have in common; turned round if that is nothing.
fn both(one: [f64; 2], other: [f64; 2]) -> [f64; 2] {
    [one[0].max(other[0]), one[1].min(other[1])]
}
