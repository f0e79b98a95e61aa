//! What each motion takes off: the wood is cut cell by cell in the order of running, and measured as it goes.

use std::ops::Range;

use geometry::cells::Grid;
use kurbo::{Point, Rect};
use rayon::prelude::*;
use reader::ReadMotion;

use super::{Footprint, MOST_CELLS, band_rows, by_band, is_level, lowest, stretches};
use crate::progress::{Progress, Stopped};
use crate::proof::bench::overlaps;
use crate::proof::motion;
use crate::proof::runs::Run;

/// Cells that are lowered side by side, so that the processor can take them together.
const LANES: usize = 16;

/// Heights are whole steps, so many to the plank's thickness: 0.8 µm of type's height, and few enough for numbers of 16 bits, of which
/// a processor takes most at once.
const STEPS: f64 = 30_000.0;

/// Thinnest plank that is told apart in steps, mm: a bound for hostile job files.
const THINNEST_MM: f64 = 1e-3;

/// What a motion took off.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Taken {
    /// Wood, mm³.
    pub volume: f64,
    /// The part of its way, seen from above, on which more was taken at once than one layer of its cutter, mm².
    pub deep: f64,
}

/// The wood of a part of a plank before anything is cut.
#[derive(Clone, Copy, Debug)]
pub struct Wood {
    /// The part.
    pub area: Rect,
    /// The plank's thickness, mm.
    pub thickness: f64,
    /// Side of a cell, mm.
    pub cell: f64,
}

/// Runs programs through wood and tells, for each run and each of its [`Run::swept`] motions, what it took off within the area.
/// `layers` is what each run's cutter may take at once, mm.
///
/// Sums of cells: a strip of half a millimetre of length and width is told within a tenth.
pub fn taken(
    wood: &Wood,
    runs: &[&Run],
    layers: &[f64],
    progress: &Progress,
) -> Result<Vec<Vec<Taken>>, Stopped> {
    let grid = Grid::over(wood.area, wood.cell, MOST_CELLS);
    let bands = by_band(&grid, runs, |swept| overlaps(swept, wood.area));
    let step = wood.thickness.max(THINNEST_MM) / STEPS;
    let measured = bands
        .par_iter()
        .enumerate()
        .map(|(band, passing)| {
            progress.check()?;
            let rows = band_rows(&grid, band);
            let mut cells = Cells {
                grid: &grid,
                heights: vec![0; grid.columns * rows.len()],
                rows,
                step,
            };
            let taken: Vec<Taken> = passing
                .iter()
                .map(|&(run, swept)| {
                    let (run, layer) = (runs[run as usize], layers[run as usize]);
                    cells.take(run, run.swept[swept as usize].0, layer)
                })
                .collect();
            Ok(taken)
        })
        .collect::<Result<Vec<Vec<Taken>>, Stopped>>()?;
    let mut all: Vec<Vec<Taken>> = runs
        .iter()
        .map(|run| vec![Taken::default(); run.swept.len()])
        .collect();
    for (&(run, swept), taken) in bands.iter().flatten().zip(measured.iter().flatten()) {
        let sum = &mut all[run as usize][swept as usize];
        sum.volume += taken.volume;
        sum.deep += taken.deep;
    }
    Ok(all)
}

/// The wood of a band of rows.
struct Cells<'a> {
    grid: &'a Grid,
    rows: Range<usize>,
    /// Height of each cell, in steps above the face.
    heights: Vec<i16>,
    /// Height of a step, mm.
    step: f64,
}

/// What was taken off cells: steps of height in all, and how many cells lost more than a layer at once.
#[derive(Clone, Copy, Default)]
struct Sum {
    steps: i64,
    deep: u32,
}

impl Sum {
    fn add(&mut self, other: Sum) {
        self.steps += other.steps;
        self.deep += other.deep;
    }
}

impl Cells<'_> {
    /// Lets a motion of a run take off what stands in its way; `layer` is what its cutter may take at once, mm.
    fn take(&mut self, run: &Run, number: u32, layer: f64) -> Taken {
        let read = &run.motions[number as usize];
        let layer = (layer / self.step) as i16;
        let low = in_steps(-motion::depths(read).0, self.step);
        let footprint = run.footprint(number);
        let mut sum = Sum::default();
        if is_level(&run.solid, read) {
            self.level(&footprint, low, layer, &mut sum);
        } else {
            if run.solid.is_flat() {
                // All that it stands over where it is lowest is cut there.
                let lowest = if read.to.z <= read.from.z {
                    read.to
                } else {
                    read.from
                };
                let standing = Footprint::standing(lowest.xy, run.radius);
                self.level(&standing, low, layer, &mut sum);
            }
            self.slope(&footprint, (run, read), low, layer, &mut sum);
        }
        let cell2 = self.grid.cell * self.grid.cell;
        Taken {
            volume: sum.steps as f64 * self.step * cell2,
            deep: f64::from(sum.deep) * cell2,
        }
    }

    fn level(&mut self, footprint: &Footprint, low: i16, layer: i16, sum: &mut Sum) {
        self.along(footprint, |_, _, cells| sum.add(lower(cells, low, layer)));
    }

    fn slope(
        &mut self,
        footprint: &Footprint,
        (run, read): (&Run, &ReadMotion),
        low: i16,
        layer: i16,
        sum: &mut Sum,
    ) {
        let (grid, step) = (self.grid, self.step);
        self.along(footprint, |row, covered, cells| {
            let y = grid.row_y(row);
            for (column, height) in covered.zip(cells) {
                // What is as low as the motion ever goes stays as it is.
                if *height > low {
                    let place = Point::new(grid.column_x(column), y);
                    if let Some(found) = lowest(&run.solid, read, place) {
                        let found = in_steps(found, step);
                        let taken = height.saturating_sub(found).max(0);
                        sum.steps += i64::from(taken);
                        sum.deep += u32::from(taken > layer);
                        *height = (*height).min(found);
                    }
                }
            }
        });
    }

    /// Hands over the stretches of cells that a footprint covers, each with its row and columns.
    fn along(
        &mut self,
        footprint: &Footprint,
        mut with: impl FnMut(usize, Range<usize>, &mut [i16]),
    ) {
        let (columns, first) = (self.grid.columns, self.rows.start);
        let heights = &mut self.heights;
        stretches(
            self.grid,
            self.rows.clone(),
            footprint,
            &mut |row, covered| {
                let start = (row - first) * columns;
                let cells = start + covered.start..start + covered.end;
                with(row, covered, &mut heights[cells]);
            },
        );
    }
}

/// A height in steps, not below the bed.
fn in_steps(height_mm: f64, step: f64) -> i16 {
    (height_mm / step).round().clamp(-STEPS, 0.0) as i16
}

/// Lowers cells to a height, as far as they stand above it. Cells that were lowered already give nothing more.
fn lower(cells: &mut [i16], low: i16, layer: i16) -> Sum {
    // A row has 4,000 cells at the most, of 30,000 steps, so no sum runs over.
    let (mut sums, mut counts) = ([0_i32; LANES], [0_i16; LANES]);
    let mut together = |cells: &mut [i16]| {
        for ((height, sum), count) in cells.iter_mut().zip(&mut sums).zip(&mut counts) {
            let taken = height.saturating_sub(low).max(0);
            *sum = sum.wrapping_add(i32::from(taken));
            *count = count.wrapping_add(i16::from(taken > layer));
            *height = (*height).min(low);
        }
    };
    let mut chunks = cells.chunks_exact_mut(LANES);
    for chunk in &mut chunks {
        together(chunk);
    }
    if !chunks.into_remainder().is_empty() {
        // The last ones once more with those before them: quicker than one by one.
        let last = cells.len().saturating_sub(LANES);
        together(&mut cells[last..]);
    }
    Sum {
        steps: i64::from(sums.into_iter().fold(0, i32::wrapping_add)),
        deep: u32::from(counts.into_iter().fold(0, i16::wrapping_add).unsigned_abs()),
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::*;
    use crate::proof::runs;
    use crate::proof::tests::Workpiece;

    #[test]
    fn cells_are_lowered_once_and_counted_if_by_more_than_a_layer() {
        for count in [0, 1, 7, 15, 16, 17, 31, 32, 33, 100] {
            let mut cells: Vec<i16> = (0..count).map(|at| -(at % 5) * 100).collect();
            let before = cells.clone();
            let sum = lower(&mut cells, -250, 100);
            let taken = before.iter().map(|height| (height + 250).max(0));
            assert_eq!(sum.steps, taken.clone().map(i64::from).sum::<i64>());
            assert_eq!(
                sum.deep as usize,
                taken.filter(|taken| *taken > 100).count()
            );
            assert!(
                cells
                    .iter()
                    .zip(&before)
                    .all(|(now, before)| *now == (*before).min(-250))
            );
            let again = lower(&mut cells, -250, 100);
            assert_eq!((again.steps, again.deep), (0, 0));
        }
    }

    /// Nothing is taken twice, whatever the order and however the area is cut: all that the runs take is what is missing at the end.
    #[test]
    fn sums_to_what_is_missing_at_the_end() {
        let piece = Workpiece::sound();
        let read = runs::read_all(&piece.job, &piece.programs, |_| true);
        let laid = runs::lay(&piece.job, &read);
        let laid: Vec<&Run> = laid.iter().collect();
        let plank = &piece.job.planks[0];
        let wood = Wood {
            area: Rect::new(0.0, 0.0, plank.width_mm, plank.length_mm),
            thickness: plank.height_to_paper_mm,
            cell: 0.1,
        };
        let progress = Progress::new();
        let all = taken(&wood, &laid, &[1.0, 3.0], &progress).expect("nobody stops the work");
        let sum: f64 = all.iter().flatten().map(|taken| taken.volume).sum();
        let map = super::super::height_map(&piece.job, &piece.programs, "plank-1", 0.1, &progress)
            .expect("the job is sound");
        let missing: f64 = map.heights.iter().map(|height| -f64::from(*height)).sum();
        assert!((sum - missing * 0.01).abs() < 1e-3 * sum, "{sum} {missing}");
        // No layer about the blocks is deeper than it should be; of the faces' cuts, only those along the walls take more than one.
        assert!(all[1].iter().all(|taken| taken.deep == 0.0));
        let narrow: f64 = all[0].iter().map(|taken| taken.deep).sum();
        assert!((2.0..30.0).contains(&narrow), "{narrow}");
        let one = taken(&wood, &laid[..1], &[0.5], &progress).expect("nobody stops the work");
        assert!(one[0].iter().any(|taken| taken.deep > 1.0));
        let by_file: BTreeMap<&str, f64> = laid
            .iter()
            .zip(&all)
            .map(|(run, all)| (run.file, all.iter().map(|taken| taken.volume).sum()))
            .collect();
        assert!(
            by_file.values().all(|volume| *volume > 100.0),
            "{by_file:?}"
        );
    }
}
