//! Distance from every cell to the nearest marked one.

use super::Grid;

/// Distance in mm from each cell's centre to the centre of the nearest marked cell; infinite where none is marked.
///
/// # Source
/// P. Felzenszwalb, D. Huttenlocher, "Distance Transforms of Sampled Functions", Theory of Computing 8 (2012), section 2:
/// the lower envelope of parabolas, along columns and then along rows. Exact but for rounding to single precision.
pub fn to_marked(grid: &Grid, marked: &[bool]) -> Vec<f32> {
    let (columns, rows) = (grid.columns, grid.rows);
    let mut squares = along_columns(columns, rows, marked);
    let mut envelope = Envelope::default();
    let mut row = vec![0.0f32; columns];
    for line in squares.chunks_exact_mut(columns) {
        row.copy_from_slice(line);
        envelope.lower(&row, line);
    }
    let cell = grid.cell as f32;
    for square in &mut squares {
        *square = square.sqrt() * cell;
    }
    squares
}

/// Squared distance, in cells, to the nearest marked cell of the same column.
fn along_columns(columns: usize, rows: usize, marked: &[bool]) -> Vec<f32> {
    let mut steps = vec![f32::INFINITY; columns * rows];
    let mut above = vec![f32::INFINITY; columns];
    let mut sweep = |row: usize, steps: &mut [f32]| {
        for (column, above) in above.iter_mut().enumerate() {
            let index = row * columns + column;
            *above = if marked[index] { 0.0 } else { *above + 1.0 };
            steps[index] = steps[index].min(*above);
        }
    };
    for row in 0..rows {
        sweep(row, &mut steps);
    }
    for row in (0..rows).rev() {
        sweep(row, &mut steps);
    }
    for step in &mut steps {
        *step *= *step;
    }
    steps
}

/// The lower envelope of the parabolas over one row; kept so that rows allocate nothing.
#[derive(Default)]
struct Envelope {
    /// Where each parabola of the envelope has its foot.
    feet: Vec<usize>,
    /// From where on it is the lowest.
    starts: Vec<f64>,
}

impl Envelope {
    /// For each x the least of `(x - foot)² + heights[foot]` over all feet.
    fn lower(&mut self, heights: &[f32], out: &mut [f32]) {
        self.feet.clear();
        self.starts.clear();
        for (foot, &height) in heights.iter().enumerate() {
            if height.is_finite() {
                self.add(heights, foot);
            }
        }
        let mut current = 0;
        for (x, out) in out.iter_mut().enumerate() {
            while current + 1 < self.feet.len() && self.starts[current + 1] <= x as f64 {
                current += 1;
            }
            *out = match self.feet.get(current) {
                Some(&foot) => {
                    let away = x as f32 - foot as f32;
                    away * away + heights[foot]
                }
                None => f32::INFINITY,
            };
        }
    }

    fn add(&mut self, heights: &[f32], foot: usize) {
        let lift = |at: usize| f64::from(heights[at]) + (at * at) as f64;
        while let (Some(&last), Some(&start)) = (self.feet.last(), self.starts.last()) {
            let meet = (lift(foot) - lift(last)) / (2.0 * (foot - last) as f64);
            if meet > start {
                self.feet.push(foot);
                self.starts.push(meet);
                return;
            }
            self.feet.pop();
            self.starts.pop();
        }
        self.feet.push(foot);
        self.starts.push(f64::NEG_INFINITY);
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
            let found = to_marked(&grid, &marked);
            for (index, &distance) in found.iter().enumerate() {
                let least = (0..grid.count())
                    .filter(|&other| marked[other])
                    .map(|other| grid.centre(index).distance(grid.centre(other)))
                    .fold(f64::INFINITY, f64::min);
                assert!((f64::from(distance) - least).abs() < 1e-5);
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
        assert!(
            to_marked(&grid, &[false; 12])
                .iter()
                .all(|d| d.is_infinite())
        );
    }
}
