//! Nearest distance from places and paths to an outline, for checking whatever was made by other means.
//!
//! This is the judge: it knows nothing of diagrams or offsets, and reckons from the outline's own segments alone.

use kurbo::{Point, Rect};

use crate::arc_path::Turn;
use crate::region::Ring;

mod measure;

use measure::{Arc, Line};

pub use measure::clear_of_place;

/// Cells of the index per segment: about so many keeps both the empty cells and the full ones few.
const CELLS_PER_SEGMENT: f64 = 2.0;

/// The most cells along one side of the index.
const MOST_CELLS: usize = 512;

/// An index over the segments of rings that answers distances quickly.
///
/// Places that are not numbers count as touching: their distance is 0.
#[derive(Clone, Debug)]
pub struct WallIndex {
    lines: Vec<Line>,
    /// Lower left corner of the first cell.
    origin: Point,
    cell: f64,
    columns: usize,
    rows: usize,
    /// Segments by cell, row by row, as ranges of `by_cell`.
    cell_starts: Vec<u32>,
    by_cell: Vec<u32>,
    /// Segments by row, for telling inside from outside.
    row_starts: Vec<u32>,
    by_row: Vec<u32>,
}

impl WallIndex {
    /// Indexes the segments of closed rings (a region's, or several regions').
    pub fn new<'a>(rings: impl IntoIterator<Item = &'a Ring>) -> WallIndex {
        let mut lines = Vec::new();
        for ring in rings {
            for (index, &from) in ring.iter().enumerate() {
                let to = ring[(index + 1) % ring.len()];
                if from.is_finite() && to.is_finite() {
                    lines.push(Line::new(from, to));
                }
            }
        }
        let bounds = lines
            .iter()
            .map(Line::bounds)
            .reduce(|all, one| all.union(one))
            .unwrap_or(Rect::ZERO);
        let wanted = (lines.len() as f64 * CELLS_PER_SEGMENT).max(1.0);
        let longest = bounds.width().max(bounds.height());
        let cell = (bounds.area() / wanted)
            .sqrt()
            .max(longest / MOST_CELLS as f64)
            .max(f64::MIN_POSITIVE);
        let count = |length: f64| ((length / cell).ceil() as usize).clamp(1, MOST_CELLS);
        let mut index = WallIndex {
            origin: bounds.origin(),
            cell,
            columns: count(bounds.width()),
            rows: count(bounds.height()),
            lines,
            cell_starts: Vec::new(),
            by_cell: Vec::new(),
            row_starts: Vec::new(),
            by_row: Vec::new(),
        };
        index.fill();
        index
    }

    fn fill(&mut self) {
        let mut in_cells: Vec<(u32, u32)> = Vec::new();
        let mut in_rows: Vec<(u32, u32)> = Vec::new();
        for (number, line) in self.lines.iter().enumerate() {
            let bounds = line.bounds();
            for row in self.row(bounds.y0)..=self.row(bounds.y1) {
                in_rows.push((row as u32, number as u32));
                // A little more than the row itself, so that rounding leaves no segment out.
                let low = self.origin.y + (row as f64 - 0.01) * self.cell;
                let (x0, x1) = line.across(low, low + 1.02 * self.cell);
                for column in self.column(x0)..=self.column(x1) {
                    in_cells.push(((row * self.columns + column) as u32, number as u32));
                }
            }
        }
        (self.cell_starts, self.by_cell) = grouped(in_cells, self.rows * self.columns);
        (self.row_starts, self.by_row) = grouped(in_rows, self.rows);
    }

    fn column(&self, x: f64) -> usize {
        (((x - self.origin.x) / self.cell) as usize).min(self.columns - 1)
    }

    fn row(&self, y: f64) -> usize {
        (((y - self.origin.y) / self.cell) as usize).min(self.rows - 1)
    }

    fn in_cell(&self, column: usize, row: usize) -> impl Iterator<Item = &Line> {
        let cell = row * self.columns + column;
        let range = self.cell_starts[cell] as usize..self.cell_starts[cell + 1] as usize;
        self.by_cell[range]
            .iter()
            .map(|&number| &self.lines[number as usize])
    }

    /// The distance from a place to the nearest segment; infinite where there is none.
    pub fn nearest(&self, place: Point) -> f64 {
        self.nearest_within(place, f64::INFINITY)
    }

    /// The distance from a place to the nearest segment, or `cutoff` where none is nearer.
    pub fn nearest_within(&self, place: Point, cutoff: f64) -> f64 {
        self.least_square(place, cutoff * cutoff, 0.0).sqrt()
    }

    /// Whether a segment is nearer to a place than `distance`. Places that are not finite count as on a wall.
    pub fn comes_within(&self, place: Point, distance: f64) -> bool {
        let square = distance * distance;
        distance > 0.0 && self.least_square(place, square, square) < square
    }

    /// The least squared distance from a place to a segment, or `cutoff` where none is less; or any that is less than `enough`.
    fn least_square(&self, place: Point, cutoff: f64, enough: f64) -> f64 {
        if !place.is_finite() {
            return 0.0;
        }
        let mut best = cutoff;
        let (column, row) = (self.column(place.x), self.row(place.y));
        // Squares of cells around the place, ever wider, until nothing outside them can be nearer.
        for reach in 0..self.columns.max(self.rows) {
            let (left, right) = (
                column.saturating_sub(reach),
                (column + reach).min(self.columns - 1),
            );
            let (low, high) = (row.saturating_sub(reach), (row + reach).min(self.rows - 1));
            for y in low..=high {
                let whole = y + reach == row || y == row + reach;
                let step = if whole { 1 } else { (2 * reach).max(1) };
                let mut x = column as isize - reach as isize;
                while x <= right as isize {
                    if x >= left as isize {
                        for line in self.in_cell(x as usize, y) {
                            best = best.min(line.squared_distance(place));
                        }
                        if best < enough {
                            return best;
                        }
                    }
                    x += step as isize;
                }
            }
            let beyond = self.distance_beyond(place, [left, right, low, high]);
            if best <= beyond * beyond {
                break;
            }
        }
        best
    }

    /// The least distance from a place to cells outside a block of them.
    fn distance_beyond(&self, place: Point, [left, right, low, high]: [usize; 4]) -> f64 {
        let edge = |count: usize| count as f64 * self.cell;
        let mut least = f64::INFINITY;
        if left > 0 {
            least = least.min(place.x - (self.origin.x + edge(left)));
        }
        if right + 1 < self.columns {
            least = least.min(self.origin.x + edge(right + 1) - place.x);
        }
        if low > 0 {
            least = least.min(place.y - (self.origin.y + edge(low)));
        }
        if high + 1 < self.rows {
            least = least.min(self.origin.y + edge(high + 1) - place.y);
        }
        least.max(0.0)
    }

    /// The least distance from the straight line between two places to any segment, or `cutoff` where none is nearer.
    ///
    /// 0 where they cross or touch.
    pub fn nearest_to_line(&self, from: Point, to: Point, cutoff: f64) -> f64 {
        if !from.is_finite() || !to.is_finite() {
            return 0.0;
        }
        let line = Line::new(from, to);
        let best = self.nearest_within(from, cutoff);
        self.least(
            best,
            line.bounds(),
            |centre| line.squared_distance(centre).sqrt(),
            |wall| wall.distance_to_line(&line),
        )
    }

    /// The least distance by which a disc that moves straight from one place to another, its radius changing evenly from the
    /// first of `radii` to the second, stays clear of every segment, or `cutoff` where it stays clear by more.
    ///
    /// Negative where it comes into a segment: by how much at the worst place, or minus the radius where its centre crosses one.
    pub fn clear_of_taper(&self, from: Point, to: Point, radii: [f64; 2], cutoff: f64) -> f64 {
        let widest = radii[0].max(radii[1]);
        if !from.is_finite() || !to.is_finite() || !widest.is_finite() {
            return f64::NEG_INFINITY;
        }
        if self.lines.is_empty() {
            return cutoff;
        }
        let line = Line::new(from, to);
        let half_diagonal = self.cell * std::f64::consts::FRAC_1_SQRT_2;
        let reach = (widest + cutoff).max(0.0);
        let area = line.bounds().inflate(reach, reach);
        let mut best = cutoff;
        for row in self.row(area.y0)..=self.row(area.y1) {
            for column in self.column(area.x0)..=self.column(area.x1) {
                let cell = row * self.columns + column;
                if self.cell_starts[cell] == self.cell_starts[cell + 1] {
                    continue;
                }
                let middle = Point::new(
                    self.origin.x + (column as f64 + 0.5) * self.cell,
                    self.origin.y + (row as f64 + 0.5) * self.cell,
                );
                let away = line.squared_distance(middle).sqrt() - 1.001 * half_diagonal;
                if away > best + widest {
                    continue;
                }
                for wall in self.in_cell(column, row) {
                    best = best.min(wall.clear_of_taper(&line, radii));
                }
            }
        }
        best
    }

    /// The least distance from an arc to any segment, or `cutoff` where none is nearer.
    ///
    /// The arc runs from `start` about `centre` to `to`; it is a full circle if they are the same. Its radius is the distance
    /// from centre to start. 0 where they cross or touch.
    pub fn nearest_to_arc(
        &self,
        start: Point,
        to: Point,
        centre: Point,
        turn: Turn,
        cutoff: f64,
    ) -> f64 {
        if !start.is_finite() || !to.is_finite() || !centre.is_finite() {
            return 0.0;
        }
        let arc = Arc::new(start, to, centre, turn);
        let best = self.nearest_within(start, cutoff);
        self.least(
            best,
            arc.bounds(),
            |place| arc.distance(place),
            |wall| arc.distance_to_line(wall),
        )
    }

    /// The least of a distance over the segments in cells that can hold a nearer one than `best`.
    fn least(
        &self,
        mut best: f64,
        bounds: Rect,
        to_place: impl Fn(Point) -> f64,
        to_wall: impl Fn(&Line) -> f64,
    ) -> f64 {
        if self.lines.is_empty() {
            return best;
        }
        let half_diagonal = self.cell * std::f64::consts::FRAC_1_SQRT_2;
        let area = bounds.inflate(best, best);
        for row in self.row(area.y0)..=self.row(area.y1) {
            for column in self.column(area.x0)..=self.column(area.x1) {
                let cell = row * self.columns + column;
                if self.cell_starts[cell] == self.cell_starts[cell + 1] {
                    continue;
                }
                let middle = Point::new(
                    self.origin.x + (column as f64 + 0.5) * self.cell,
                    self.origin.y + (row as f64 + 0.5) * self.cell,
                );
                if to_place(middle) - 1.001 * half_diagonal > best {
                    continue;
                }
                for wall in self.in_cell(column, row) {
                    best = best.min(to_wall(wall));
                }
            }
        }
        best
    }

    /// Whether a place lies inside the rings by the nonzero rule; on a segment either answer may come.
    pub fn contains(&self, place: Point) -> bool {
        let above = self.origin.y + self.rows as f64 * self.cell;
        if !(place.is_finite() && place.y >= self.origin.y && place.y <= above) {
            return false;
        }
        let row = self.row(place.y);
        let range = self.row_starts[row] as usize..self.row_starts[row + 1] as usize;
        let turns: i32 = self.by_row[range]
            .iter()
            .map(|&number| self.lines[number as usize].winding(place))
            .sum();
        turns != 0
    }
}

/// Pairs of group and item as one list in order of groups, with where each group starts.
fn grouped(mut pairs: Vec<(u32, u32)>, groups: usize) -> (Vec<u32>, Vec<u32>) {
    pairs.sort_unstable();
    let mut starts = vec![0_u32; groups + 1];
    for &(group, _) in &pairs {
        starts[group as usize + 1] += 1;
    }
    for group in 0..groups {
        starts[group + 1] += starts[group];
    }
    (starts, pairs.into_iter().map(|(_, item)| item).collect())
}

#[cfg(test)]
mod tests;
