//! The simulated cut of a whole plank: how high its surface stands in each cell once programs have run.
//!
//! Heights are reckoned at the middles of cells, exactly as a turning cutter of any shape leaves them ([`lowest()`]). Bands of rows
//! are worked through side by side, each from the first motion to the last.

use std::collections::BTreeMap;
use std::ops::Range;

use geometry::cells::Grid;
use kurbo::{Point, Rect};
use rayon::prelude::*;
use thiserror::Error;

use super::motion;
use super::runs::{self, Run};
use super::solid::Solid;
use crate::job_file::{JobFile, JobPlank};
use crate::progress::{Progress, Stopped};
use reader::{ReadMotion, Replay};

mod footprint;
mod lowest;
mod taken;

pub use footprint::{Footprint, stretches};
pub use lowest::lowest;
pub use taken::{Taken, Wood, taken};

/// Rows that are worked through together: few enough to stay near the processor, many enough that motions are not looked at too
/// often.
pub const BAND_ROWS: usize = 64;

/// The most cells along one side of a map: 16 million in all take 64 MB.
pub const MOST_CELLS: f64 = 4_000.0;

/// Heights over a plank.
#[derive(Clone, Debug, PartialEq)]
pub struct HeightMap {
    /// The cells, over the plank, in plank millimetres.
    pub grid: Grid,
    /// Height of each cell's middle above the face, mm: 0 where no cutter came, minus the plank's thickness where it was cut
    /// through.
    pub heights: Vec<f32>,
}

/// Why there is no map.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum HeightMapError {
    /// The work was stopped.
    #[error(transparent)]
    Stopped(#[from] Stopped),
    /// No such plank.
    #[error("The job has no plank {0}. Choose one that its job file names.")]
    NoPlank(String),
    /// A program that is missing or cannot be read.
    #[error("The program {file} {why}, so what it cuts is not known. Make the job again.")]
    NotRead {
        /// The program.
        file: String,
        /// What is the matter.
        why: String,
    },
    /// A cell without a size.
    #[error("Cells of {0} mm make no map. Give a size between 0.01 and 10 mm.")]
    Cell(String),
}

/// Reckons how high a plank stands once all its programs have run in order.
///
/// `cell_mm` is the side of a cell, 0.01 to 10 mm; cells are larger where there would be more than 4,000 along a side.
///
/// # Errors
/// When the plank is not the job's, a program of it cannot be read, the cell has no size, or the work was stopped.
pub fn height_map(
    job: &JobFile,
    programs: &BTreeMap<String, String>,
    plank_id: &str,
    cell_mm: f64,
    progress: &Progress,
) -> Result<HeightMap, HeightMapError> {
    let (plank, programs) = read_plank(job, programs, plank_id, cell_mm)?;
    let runs: Vec<&Run> = programs.iter().flat_map(|program| &program.runs).collect();
    progress.check()?;
    let grid = plank_grid(plank, cell_mm);
    let mut heights = vec![0.0_f32; grid.count()];
    let bands = by_band(&grid, &runs, |_| true);
    heights
        .par_chunks_mut(grid.columns * BAND_ROWS)
        .zip(&bands)
        .enumerate()
        .try_for_each(|(band, (heights, passing))| {
            progress.check()?;
            let rows = band_rows(&grid, band);
            for &(run, swept) in passing {
                let run = runs[run as usize];
                let (number, _) = run.swept[swept as usize];
                let read = &run.motions[number as usize];
                let footprint = run.footprint(number);
                cut(&grid, rows.clone(), heights, (&run.solid, read, &footprint));
            }
            Ok::<(), Stopped>(())
        })?;
    let bed = -plank.height_to_paper_mm as f32;
    for height in &mut heights {
        *height = height.max(bed);
    }
    Ok(HeightMap { grid, heights })
}

/// A program of one plank, read and laid on it.
pub struct PlankProgram<'a> {
    /// What its text does.
    pub replay: Replay,
    /// What its cutters do, which is all of its motions.
    pub runs: Vec<Run<'a>>,
}

/// Reads the programs of a plank, in the order of running, for cells of a size.
///
/// # Errors
/// As [`height_map`].
pub fn read_plank<'a>(
    job: &'a JobFile,
    texts: &'a BTreeMap<String, String>,
    plank_id: &str,
    cell_mm: f64,
) -> Result<(&'a JobPlank, Vec<PlankProgram<'a>>), HeightMapError> {
    if !(0.01..=10.0).contains(&cell_mm) {
        return Err(HeightMapError::Cell(cell_mm.to_string()));
    }
    let plank = job
        .planks
        .iter()
        .find(|plank| plank.id == plank_id)
        .ok_or_else(|| HeightMapError::NoPlank(plank_id.to_owned()))?;
    let mut laid = Vec::new();
    for program in runs::read_all(job, texts, |entry| entry.plank == plank_id) {
        let not_read = |why: String| HeightMapError::NotRead {
            file: program.entry.file.clone(),
            why,
        };
        let runs = runs::lay_one(job, &program);
        let replay = match program.replay {
            None => return Err(not_read("is missing".to_owned())),
            Some(Err(error)) => return Err(not_read(format!("cannot be read ({error})"))),
            Some(Ok(replay)) => replay,
        };
        let motions: usize = runs.iter().map(|run| run.motions.len()).sum();
        if motions < replay.motions.len() {
            let why = "is cut with cutters that the job file does not name";
            return Err(not_read(why.to_owned()));
        }
        laid.push(PlankProgram { replay, runs });
    }
    Ok((plank, laid))
}

/// Cells over a plank.
pub fn plank_grid(plank: &JobPlank, cell_mm: f64) -> Grid {
    let area = Rect::new(0.0, 0.0, plank.width_mm, plank.length_mm);
    Grid::over(area, cell_mm, MOST_CELLS)
}

/// The rows of a band.
fn band_rows(grid: &Grid, band: usize) -> Range<usize> {
    let first = band * BAND_ROWS;
    first..(first + BAND_ROWS).min(grid.rows)
}

/// The motions of runs below the face whose swept boxes are wanted, by number of run and place in [`Run::swept`], that come over each
/// band of rows, in order.
fn by_band(grid: &Grid, runs: &[&Run], wanted: impl Fn(Rect) -> bool) -> Vec<Vec<(u32, u32)>> {
    let mut bands = vec![Vec::new(); grid.rows.div_ceil(BAND_ROWS)];
    for (run_number, run) in (0..).zip(runs) {
        for (index, &(_, swept)) in (0..).zip(&run.swept) {
            let rows = grid.rows_between(swept.y0, swept.y1);
            if !rows.is_empty() && wanted(swept) {
                for band in &mut bands[rows.start / BAND_ROWS..=(rows.end - 1) / BAND_ROWS] {
                    band.push((run_number, index));
                }
            }
        }
    }
    bands
}

/// Lets a cutter pass over the rows of a band; `heights` are those of the band alone. Only what lies in the footprint is lowered.
pub fn cut(
    grid: &Grid,
    rows: Range<usize>,
    heights: &mut [f32],
    (solid, read, footprint): (&Solid, &ReadMotion, &Footprint),
) {
    let first_row = rows.start;
    let (deepest, _) = motion::depths(read);
    let level = is_level(solid, read);
    let low = -deepest as f32;
    stretches(grid, rows, footprint, &mut |row, columns| {
        let start = (row - first_row) * grid.columns;
        let cells = &mut heights[start + columns.start..start + columns.end];
        if level {
            for height in cells {
                if *height > low {
                    *height = low;
                }
            }
            return;
        }
        let y = grid.row_y(row);
        for (column, height) in columns.zip(cells) {
            // What is as low as the motion ever goes stays as it is.
            if *height > low {
                let place = Point::new(grid.column_x(column), y);
                if let Some(found) = lowest(solid, read, place) {
                    *height = height.min(found as f32);
                }
            }
        }
    });
}

/// Whether a motion leaves everything that it passes over at one height.
fn is_level(solid: &Solid, read: &ReadMotion) -> bool {
    let (deepest, shallowest) = motion::depths(read);
    solid.is_flat() && (deepest == shallowest || !motion::moves_across(read))
}
