//! Which cells lie within a distance of marked ones.

use super::Grid;

/// More than any distance along a column, in cells.
const NONE: u16 = u16::MAX;

/// How far from a whole number of cells a distance may be and still count as that number: the rounding of its division.
const ROUNDING_CELLS: f64 = 1e-6;

/// How far each cell is from the nearest marked one of its column, in cells.
///
/// With that, a cell has a marked one within a distance just if some cell of its own row has one on its column within what
/// the right triangle leaves: the first half of an exact distance transform, which every distance asked for shares.
///
/// # Source
/// Distances along columns first, then along rows: T. Saito and J. Toriwaki, 1994 (from memory). That one distance asked for needs no
/// least of squares, only stretches of rows, is worked out here.
pub struct Marked {
    grid: Grid,
    along_column: Vec<u16>,
}

impl Marked {
    /// Measures along the columns.
    pub fn new(grid: &Grid, marked: &[bool]) -> Marked {
        let mut along_column: Vec<u16> = marked
            .iter()
            .map(|&marked| if marked { 0 } else { NONE })
            .collect();
        let columns = grid.columns;
        let one_further = |steps: &mut [u16], before: &[u16]| {
            for (step, before) in steps.iter_mut().zip(before) {
                *step = (*step).min(before.saturating_add(1));
            }
        };
        for row in 1..grid.rows {
            let (before, rest) = along_column.split_at_mut(row * columns);
            one_further(&mut rest[..columns], &before[(row - 1) * columns..]);
        }
        for row in (1..grid.rows).rev() {
            let (rest, before) = along_column.split_at_mut(row * columns);
            one_further(&mut rest[(row - 1) * columns..], &before[..columns]);
        }
        Marked {
            grid: *grid,
            along_column,
        }
    }

    /// Which cells' centres lie within `reach` of the centre of a marked cell.
    pub fn within(&self, reach: f64) -> Vec<bool> {
        let columns = self.grid.columns;
        let half_widths = self.half_widths(reach);
        let mut within = vec![false; self.along_column.len()];
        if half_widths.is_empty() {
            return within;
        }
        let rows = self.along_column.chunks_exact(columns);
        for (steps, within) in rows.zip(within.chunks_exact_mut(columns)) {
            // Where what is marked on the left reaches to, and from where on what is marked on the right does.
            let mut end = 0;
            for (column, (&step, within)) in steps.iter().zip(&mut *within).enumerate() {
                if let Some(&half) = half_widths.get(usize::from(step)) {
                    end = end.max(column + half + 1);
                }
                *within = column < end;
            }
            let mut start = columns;
            for (column, (&step, within)) in steps.iter().zip(within).enumerate().rev() {
                if let Some(&half) = half_widths.get(usize::from(step)) {
                    start = start.min(column.saturating_sub(half));
                }
                *within |= column >= start;
            }
        }
        within
    }

    /// How many columns to either side are within reach of a marked cell, by its distance along its column.
    fn half_widths(&self, reach: f64) -> Vec<usize> {
        let reach = reach / self.grid.cell + ROUNDING_CELLS;
        (0..self.grid.rows)
            .map(|step| reach * reach - (step * step) as f64)
            .take_while(|&half2| reach >= 0.0 && half2 >= 0.0)
            .map(|half2| half2.sqrt().min(self.grid.columns as f64) as usize)
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Point;

    #[test]
    fn agrees_with_trying_every_cell() {
        let grid = Grid {
            origin: Point::ORIGIN,
            cell: 0.1,
            columns: 23,
            rows: 17,
        };
        for seed in [1u64, 7, 99] {
            let mut state = seed;
            let marked: Vec<bool> = (0..grid.count())
                .map(|_| {
                    state = state
                        .wrapping_mul(6_364_136_223_846_793_005)
                        .wrapping_add(1_442_695_040_888_963_407);
                    state >> 60 == 0
                })
                .collect();
            let measured = Marked::new(&grid, &marked);
            for reach in [0.0, 0.05, 0.1, 0.15, 0.3, 0.42, 0.5, 0.77, 1.3, 9.0] {
                let found = measured.within(reach);
                for (index, &within) in found.iter().enumerate() {
                    let least = (0..grid.count())
                        .filter(|&other| marked[other])
                        .map(|other| grid.centre(index).distance(grid.centre(other)))
                        .fold(f64::INFINITY, f64::min);
                    assert_eq!(within, least <= reach + 1e-5, "{least} of {reach}");
                }
            }
        }
    }

    #[test]
    fn nothing_marked_is_infinitely_far() {
        let grid = Grid {
            origin: Point::ORIGIN,
            cell: 0.1,
            columns: 4,
            rows: 3,
        };
        let measured = Marked::new(&grid, &[false; 12]);
        for reach in [0.0, 1.0, 1e9, f64::INFINITY] {
            assert!(measured.within(reach).iter().all(|within| !within));
        }
        assert!(
            Marked::new(&grid, &[true; 12])
                .within(-0.1)
                .iter()
                .all(|within| !within)
        );
    }
}
