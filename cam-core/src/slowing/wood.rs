//! The wood of a plank in cells, and what each step of a cutter takes off it.

use std::ops::Range;

use geometry::cells::Grid;
use kurbo::{Point, Rect};
use rayon::prelude::*;

use super::steps::{Step, Way};
use crate::raster::ceiling;

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
    /// In each row what the cutter has covered last since it went on, never going deeper: that is as low already.
    known: Vec<Range<usize>>,
    unit: f64,
}

impl<'a> Band<'a> {
    fn new(grid: &'a Grid, rows: Range<usize>, unit: f64) -> Band<'a> {
        Band {
            depths: vec![0; grid.columns * rows.len() + AT_ONCE],
            known: vec![0..0; rows.len()],
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
            let mut goes_on = false;
            for (step_number, step) in way.steps.iter().enumerate() {
                goes_on &= step.goes_on;
                if step.at.y >= low && step.at.y <= high {
                    if !goes_on {
                        self.known.fill(0..0);
                    }
                    goes_on = true;
                    let taken = self.stand(step, way.radius);
                    if taken > 0 {
                        found.push(Found {
                            way: number as u32,
                            step: step_number as u32,
                            taken: taken as f32,
                        });
                    }
                }
            }
        }
        found
    }

    /// Lowers the cells under a cutter.
    fn stand(&mut self, step: &Step, radius: f64) -> u64 {
        if step.depth <= 0.0 {
            return 0;
        }
        let depth = (step.depth / self.unit).round() as u16;
        let grid = self.grid;
        let rows = grid.rows_between(step.at.y - radius, step.at.y + radius);
        let rows = rows.start.max(self.rows.start)..rows.end.min(self.rows.end);
        let disc = Disc::new(grid, step.at, radius);
        let mut taken = 0;
        for row in rows {
            let covered = disc.columns(row);
            let own = row - self.rows.start;
            let cells = &mut self.depths[own * grid.columns..];
            let known = std::mem::replace(&mut self.known[own], covered.clone());
            if known.is_empty() {
                taken += lower(cells, covered, depth);
                continue;
            }
            let left = covered.start..covered.end.min(known.start);
            let right = covered.start.max(known.end)..covered.end;
            taken += lower(cells, left, depth) + lower(cells, right, depth);
        }
        taken
    }
}

/// A disc on the cells, measured in cells from the middle of the first: nothing is divided row by row.
struct Disc {
    x: f64,
    y: f64,
    squared: f64,
    columns: usize,
}

impl Disc {
    fn new(grid: &Grid, middle: Point, radius: f64) -> Disc {
        let at = (middle - grid.origin) / grid.cell;
        Disc {
            x: at.x - 0.5,
            y: at.y - 0.5,
            squared: (radius / grid.cell).powi(2),
            columns: grid.columns,
        }
    }

    /// The cells of a row whose middles it covers.
    fn columns(&self, row: usize) -> Range<usize> {
        let away = f64::from(row as u32) - self.y;
        let left = self.squared - away * away;
        if left < 0.0 {
            return 0..0;
        }
        let half = left.sqrt();
        ceiling(self.x - half, self.columns)..ceiling(self.x + half, self.columns)
    }
}

/// Lowers cells to a depth; by how much in all. Behind the last of them so many more have to lie as are lowered at once; they stay.
#[inline]
fn lower(cells: &mut [u16], which: Range<usize>, depth: u16) -> u64 {
    let mut sum = 0;
    let mut first = which.start;
    while first < which.end {
        let Some(at_once) = cells[first..].first_chunk_mut::<AT_ONCE>() else {
            break;
        };
        let among = &AMONG[(which.end - first).min(AT_ONCE)];
        let mut lowered = 0;
        for (cell, among) in at_once.iter_mut().zip(among) {
            let by = (depth & among).saturating_sub(*cell);
            *cell = cell.saturating_add(by);
            lowered = u32::wrapping_add(lowered, u32::from(by));
        }
        sum += u64::from(lowered);
        first += AT_ONCE;
    }
    sum
}

/// Cells that are lowered at once, without asking of each whether it is among them: mostly they are fewer.
const AT_ONCE: usize = 8;

/// For each number of cells, all bits of those among them.
const AMONG: [[u16; AT_ONCE]; AT_ONCE + 1] = {
    let mut among = [[0; AT_ONCE]; AT_ONCE + 1];
    let mut count = 0;
    while count <= AT_ONCE {
        let mut cell = 0;
        while cell < count {
            among[count][cell] = u16::MAX;
            cell += 1;
        }
        count += 1;
    }
    among
};
