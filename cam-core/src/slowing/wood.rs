//! The wood of a plank in cells, and what each step of a cutter takes off it.

use std::ops::Range;

use geometry::cells::Grid;
use kurbo::{Point, Rect};
use rayon::prelude::*;

use super::steps::{Step, Way};

/// Side of a cell, mm: half a millimetre of the width that a large cutter is set to is then told within two hundredths, and of a small one,
/// slivers beside walls too.
const CELL_MM: f64 = 0.05;

/// The most cells along one side of a plank: a bound for memory.
const MOST_CELLS: f64 = 12_000.0;

/// Rows that are cut by themselves, so that several processors can take part.
const BAND_ROWS: usize = 192;

/// Depths are whole steps, so many to the deepest place: as many as numbers of 16 bits tell, of which a processor takes most at once.
const STEPS: f64 = 60_000.0;

/// What each step of each way takes off, mm³. The ways follow one another.
pub(super) fn taken(ways: &[Way]) -> Vec<Vec<f64>> {
    let mut volumes: Vec<Vec<f64>> = ways.iter().map(|way| vec![0.0; way.steps.len()]).collect();
    let Some(area) = ways
        .iter()
        .filter_map(area)
        .reduce(|one, other| one.union(other))
    else {
        return volumes;
    };
    let grid = Grid::over(area, CELL_MM, MOST_CELLS);
    let steps = ways.iter().flat_map(|way| &way.steps);
    let deepest = steps.map(|step| step.depth).fold(0.0, f64::max);
    let unit = deepest / STEPS;
    let bands: Vec<Range<usize>> = (0..grid.rows)
        .step_by(BAND_ROWS)
        .map(|first| first..(first + BAND_ROWS).min(grid.rows))
        .collect();
    let of_bands: Vec<Vec<Found>> = bands
        .into_par_iter()
        .map(|rows| Band::new(&grid, rows, unit).run(ways))
        .collect();
    let volume = unit * grid.cell * grid.cell;
    for found in of_bands.into_iter().flatten() {
        volumes[found.way as usize][found.step as usize] += f64::from(found.taken) * volume;
    }
    volumes
}

fn area(way: &Way) -> Option<Rect> {
    let places = way
        .steps
        .iter()
        .map(|step| Rect::from_points(step.at, step.at));
    let area = places.reduce(|one, other| one.union(other))?;
    Some(area.inflate(way.radius, way.radius))
}

/// What a step took off the cells of a band, in steps of depth.
struct Found {
    way: u32,
    step: u32,
    taken: f32,
}

/// Some rows of the wood.
struct Band<'a> {
    grid: &'a Grid,
    rows: Range<usize>,
    /// How deep each cell is cut.
    depths: Vec<u16>,
    unit: f64,
}

impl<'a> Band<'a> {
    fn new(grid: &'a Grid, rows: Range<usize>, unit: f64) -> Band<'a> {
        Band {
            depths: vec![0; grid.columns * rows.len()],
            grid,
            rows,
            unit,
        }
    }

    fn run(mut self, ways: &[Way]) -> Vec<Found> {
        let (low, high) = (
            self.grid.row_y(self.rows.start),
            self.grid.row_y(self.rows.end.max(1) - 1),
        );
        let mut found = Vec::new();
        for (number, way) in ways.iter().enumerate() {
            let (low, high) = (low - way.radius, high + way.radius);
            let mut before = Point::ORIGIN;
            for (step_number, step) in way.steps.iter().enumerate() {
                if step.at.y >= low && step.at.y <= high {
                    let known = step.goes_on.then_some(before);
                    let taken = self.stand(step, way.radius, known);
                    if taken > 0 {
                        found.push(Found {
                            way: number as u32,
                            step: step_number as u32,
                            taken: taken as f32,
                        });
                    }
                }
                before = step.at;
            }
        }
        found
    }

    /// Lowers the cells under a cutter; those of its place before, if it stood there as deep, are as low already.
    fn stand(&mut self, step: &Step, radius: f64, before: Option<Point>) -> u64 {
        if step.depth <= 0.0 {
            return 0;
        }
        let depth = (step.depth / self.unit).round() as u16;
        let (grid, squared) = (self.grid, radius * radius);
        let rows = grid.rows_between(step.at.y - radius, step.at.y + radius);
        let rows = rows.start.max(self.rows.start)..rows.end.min(self.rows.end);
        let mut taken = 0;
        for row in rows {
            let y = grid.row_y(row);
            let chord = |middle: Point| {
                let away = y - middle.y;
                let half = (squared - away * away).max(0.0).sqrt();
                grid.columns_between(middle.x - half, middle.x + half)
            };
            let covered = chord(step.at);
            let start = (row - self.rows.start) * grid.columns;
            let cells = &mut self.depths[start..start + grid.columns];
            match before {
                Some(before) if (y - before.y).abs() < radius => {
                    let known = chord(before);
                    let left = covered.start..covered.end.min(known.start);
                    let right = covered.start.max(known.end)..covered.end;
                    taken += lower(cells, left, depth) + lower(cells, right, depth);
                }
                Some(_) | None => taken += lower(cells, covered, depth),
            }
        }
        taken
    }
}

/// Lowers cells to a depth; by how much in all.
fn lower(cells: &mut [u16], which: Range<usize>, depth: u16) -> u64 {
    if which.start >= which.end {
        return 0;
    }
    let mut sum = 0;
    for cell in &mut cells[which] {
        sum += u64::from(depth.saturating_sub(*cell));
        *cell = (*cell).max(depth);
    }
    sum
}
