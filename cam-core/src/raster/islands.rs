//! Pieces of a raster that hang together.

use kurbo::Point;

use super::{Ones, Raster};
use crate::forest::Forest;

/// Neighbouring cells of one row that are yes: the first and the last.
#[derive(Clone, Copy)]
struct Run {
    row: usize,
    first: usize,
    last: usize,
}

impl Raster {
    /// The pieces of yes that hang together by sides or corners and are no wider and no higher than this, mm: of each the middles of its
    /// cells at the ends of every row.
    pub(crate) fn islands(&self, widest: f64) -> Vec<Vec<Point>> {
        let runs = self.runs();
        let mut forest = Forest::default();
        let mut below = 0;
        for (number, run) in runs.iter().enumerate() {
            forest.add();
            while runs[below].row + 1 < run.row {
                below += 1;
            }
            let touching = runs[below..number]
                .iter()
                .enumerate()
                .take_while(|(_, other)| other.row < run.row)
                .filter(|(_, other)| {
                    other.row + 1 == run.row
                        && other.first <= run.last + 1
                        && run.first <= other.last + 1
                });
            for (before, _) in touching {
                forest.unite(number, below + before);
            }
        }
        let mut found: Vec<Vec<Run>> = vec![Vec::new(); runs.len()];
        for (number, &run) in runs.iter().enumerate() {
            found[forest.root(number)].push(run);
        }
        let small = found
            .into_iter()
            .filter(|island| self.is_small(island, widest));
        small.map(|island| self.ends(&island)).collect()
    }

    /// All runs, row by row and from left to right.
    fn runs(&self) -> Vec<Run> {
        let words = self.frame.words();
        let mut runs: Vec<Run> = Vec::new();
        for (row, bits) in self.bits.chunks_exact(words).enumerate() {
            for (index, &word) in bits.iter().enumerate().filter(|(_, word)| **word != 0) {
                for bit in Ones(word) {
                    let column = index * 64 + bit;
                    match runs.last_mut() {
                        Some(run) if run.row == row && run.last + 1 == column => run.last = column,
                        Some(_) | None => runs.push(Run {
                            row,
                            first: column,
                            last: column,
                        }),
                    }
                }
            }
        }
        runs
    }

    fn is_small(&self, island: &[Run], widest: f64) -> bool {
        let (Some(lowest), Some(highest)) = (island.first(), island.last()) else {
            return false;
        };
        let left = island.iter().map(|run| run.first).min().unwrap_or(0);
        let right = island.iter().map(|run| run.last).max().unwrap_or(0);
        let cells = (highest.row - lowest.row).max(right - left) + 1;
        cells as f64 * self.frame.cell <= widest
    }

    fn ends(&self, island: &[Run]) -> Vec<Point> {
        let frame = self.frame;
        let ends = island.iter().flat_map(|run| {
            let y = frame.middle_y(run.row);
            [run.first, run.last].map(|column| Point::new(frame.middle_x(column), y))
        });
        ends.collect()
    }
}

#[cfg(test)]
mod tests {
    use kurbo::Rect;

    use super::*;
    use crate::raster::Frame;

    /// Two discs joined by a line hang together; a third lies by itself, and so does a lone cell.
    #[test]
    fn what_hangs_together_is_one_island() {
        let mut raster = Raster::empty(Frame::over(Rect::new(0.0, 0.0, 20.0, 9.0), 0.07));
        let [left, right, alone] = [(2.0, 2.0), (6.0, 5.0), (12.0, 3.0)].map(Point::from);
        raster.set_near(&[left, right], 0.1);
        raster.set_near(&[left], 1.0);
        raster.set_near(&[alone], 1.5);
        raster.set_near(&[Point::new(16.0, 8.0)], 0.04);
        let boxes = |widest: f64| {
            let islands = raster.islands(widest).into_iter();
            let around = islands.map(|ends| {
                let points = ends.iter().map(|&end| Rect::from_points(end, end));
                points.reduce(|one, other| one.union(other))
            });
            around.flatten().collect::<Vec<Rect>>()
        };
        assert_eq!(boxes(10.0).len(), 3);
        let small = boxes(3.1);
        assert_eq!(small.len(), 2);
        assert!((small[0].width() - 3.0).abs() < 0.15, "{small:?}");
        assert!(small[0].center().distance(alone) < 0.1, "{small:?}");
        assert_eq!(boxes(0.07).len(), 1);
        assert_eq!(boxes(0.05), []);
    }

    /// Cells that only touch at their corners hang together as well.
    #[test]
    fn a_slanting_line_one_cell_wide_is_one_island() {
        let mut raster = Raster::empty(Frame::over(Rect::new(0.0, 0.0, 9.0, 9.0), 1.0));
        for cell in 0..9 {
            let middle = f64::from(cell) + 0.5;
            raster.set_near(&[Point::new(middle, middle)], 0.1);
            raster.set_near(&[Point::new(8.5 - f64::from(cell), middle)], 0.1);
        }
        assert_eq!(raster.islands(9.0).len(), 1);
        assert_eq!(raster.islands(8.0).len(), 0);
    }
}
