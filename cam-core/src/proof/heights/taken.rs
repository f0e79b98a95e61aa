//! What each motion takes off: the wood is cut cell by cell in the order of running, and measured as it goes.

use std::ops::Range;

use geometry::cells::Grid;
use kurbo::Rect;
use rayon::prelude::*;

use super::{Footprint, MOST_CELLS, band_rows, by_band, lowest, stretches};
use crate::progress::{Progress, Stopped};
use crate::proof::bench::overlaps;
use crate::proof::motion;
use crate::proof::runs::Run;

/// Cells that are added up side by side, so that the processor can take them together.
const LANES: usize = 16;

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
    let measured = bands
        .par_iter()
        .enumerate()
        .map(|(band, passing)| {
            progress.check()?;
            let rows = band_rows(&grid, band);
            let mut heights = vec![0.0_f32; grid.columns * rows.len()];
            let taken: Vec<Taken> = passing
                .iter()
                .map(|&(run, swept)| {
                    let (of, layer) = (runs[run as usize], layers[run as usize]);
                    let limits = [-wood.thickness as f32, layer as f32];
                    take(
                        &grid,
                        rows.clone(),
                        &mut heights,
                        (of, swept as usize),
                        limits,
                    )
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

/// Lets one of a run's swept motions take off what stands in its way in a band; `limits` are the height of the bed and the depth of a layer.
fn take(
    grid: &Grid,
    rows: Range<usize>,
    heights: &mut [f32],
    (run, swept): (&Run, usize),
    [bed, layer]: [f32; 2],
) -> Taken {
    let read = &run.motions[run.swept[swept].0 as usize];
    let first_row = rows.start;
    let (deepest, shallowest) = motion::depths(read);
    let low = (-deepest as f32).max(bed);
    let level = deepest == shallowest || !motion::moves_across(read);
    let (mut sum, mut deep) = (0.0_f64, 0_u32);
    let footprint = Footprint::of(read, run.widest(read)).going_on(run.goes_on(swept));
    stretches(grid, rows, &footprint, &mut |row, columns| {
        let start = (row - first_row) * grid.columns;
        let cells = &mut heights[start + columns.start..start + columns.end];
        if level && run.solid.is_flat() {
            let (height, over) = lower(cells, low, layer);
            sum += height;
            deep += over;
            return;
        }
        for (column, height) in columns.zip(cells) {
            // What is as low as the motion ever goes stays as it is.
            if *height > low {
                let place = grid.centre(row * grid.columns + column);
                if let Some(found) = lowest(&run.solid, read, place) {
                    let found = (found as f32).max(bed);
                    let taken = (*height - found).max(0.0);
                    sum += f64::from(taken);
                    deep += u32::from(taken > layer);
                    *height = height.min(found);
                }
            }
        }
    });
    let cell2 = grid.cell * grid.cell;
    Taken {
        volume: sum * cell2,
        deep: f64::from(deep) * cell2,
    }
}

/// Lowers cells to a height; tells by how much in all, and how many by more than a layer.
fn lower(cells: &mut [f32], low: f32, layer: f32) -> (f64, u32) {
    let mut sums = [0.0_f32; LANES];
    let mut counts = [0_u32; LANES];
    let one = |height: &mut f32, sum: &mut f32, count: &mut u32| {
        let taken = (*height - low).max(0.0);
        *sum += taken;
        *count += u32::from(taken > layer);
        *height = height.min(low);
    };
    let mut chunks = cells.chunks_exact_mut(LANES);
    for chunk in &mut chunks {
        for ((height, sum), count) in chunk.iter_mut().zip(&mut sums).zip(&mut counts) {
            one(height, sum, count);
        }
    }
    for ((height, sum), count) in chunks
        .into_remainder()
        .iter_mut()
        .zip(&mut sums)
        .zip(&mut counts)
    {
        one(height, sum, count);
    }
    (
        sums.iter().map(|sum| f64::from(*sum)).sum(),
        counts.iter().sum(),
    )
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::*;
    use crate::proof::runs;
    use crate::proof::tests::Workpiece;

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
