//! Square cells over a rectangle: which of them lie inside an outline, and which near marked ones.

use kurbo::{Point, Rect, Vec2};

mod marked;

pub use marked::Marked;

/// How far a cell's centre lies from its corner, in cells.
pub const HALF_DIAGONAL: f64 = std::f64::consts::FRAC_1_SQRT_2;

/// Cells over a rectangle, numbered row by row from the lower left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grid {
    /// The lower left corner.
    pub origin: Point,
    /// Side of a cell.
    pub cell: f64,
    /// Cells across.
    pub columns: usize,
    /// Cells along.
    pub rows: usize,
}

impl Grid {
    /// Cells of this side that cover a rectangle; where there were more than `most` along one side, they are larger.
    pub fn over(area: Rect, cell: f64, most: f64) -> Grid {
        let cell = cell.max(area.width().max(area.height()) / most);
        Grid {
            origin: area.origin(),
            cell,
            columns: (area.width() / cell).ceil().clamp(1.0, most) as usize,
            rows: (area.height() / cell).ceil().clamp(1.0, most) as usize,
        }
    }

    /// How many cells there are.
    pub fn count(&self) -> usize {
        self.columns * self.rows
    }

    /// The centre of a cell by its number.
    #[inline]
    pub fn centre(&self, index: usize) -> Point {
        let (row, column) = (index / self.columns, index % self.columns);
        self.origin
            + Vec2::new(
                (column as f64 + 0.5) * self.cell,
                (row as f64 + 0.5) * self.cell,
            )
    }

    /// The number of the cell that holds a place, if one does.
    pub fn holding(&self, place: Point) -> Option<usize> {
        let at = place - self.origin;
        let (across, up) = (at.x / self.cell, at.y / self.cell);
        if !(across >= 0.0 && up >= 0.0) {
            return None;
        }
        let (column, row) = (across as usize, up as usize);
        (column < self.columns && row < self.rows).then(|| row * self.columns + column)
    }

    /// The y of a row's centres.
    #[inline]
    pub fn row_y(&self, row: usize) -> f64 {
        self.origin.y + (row as f64 + 0.5) * self.cell
    }

    /// The x of a column's centres.
    #[inline]
    pub fn column_x(&self, column: usize) -> f64 {
        self.origin.x + (column as f64 + 0.5) * self.cell
    }

    /// The rows whose centres lie between two heights.
    pub fn rows_between(&self, low: f64, high: f64) -> std::ops::Range<usize> {
        span(
            low - self.origin.y,
            high - self.origin.y,
            self.cell,
            self.rows,
        )
    }

    /// The columns whose centres lie between two places.
    #[inline]
    pub fn columns_between(&self, low: f64, high: f64) -> std::ops::Range<usize> {
        span(
            low - self.origin.x,
            high - self.origin.x,
            self.cell,
            self.columns,
        )
    }

    /// Marks every cell whose centre lies inside closed lines, by counting crossings (textbook).
    ///
    /// `marks` has one entry per cell, as for all marks of a grid.
    pub fn mark_inside(&self, edges: impl Iterator<Item = (Point, Point)>, marks: &mut [bool]) {
        let mut crossings: Vec<Vec<f64>> = vec![Vec::new(); self.rows];
        for (a, b) in edges {
            for row in self.rows_between(a.y.min(b.y), a.y.max(b.y)) {
                let y = self.row_y(row);
                if (a.y > y) != (b.y > y) {
                    crossings[row].push(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
                }
            }
        }
        for (marks, crossings) in marks.chunks_exact_mut(self.columns).zip(&mut crossings) {
            crossings.sort_by(f64::total_cmp);
            for pair in crossings.chunks_exact(2) {
                marks[self.columns_between(pair[0], pair[1])].fill(true);
            }
        }
    }

    /// Marks every cell that lines run through.
    ///
    /// A line that only clips a cell's corner by less than a quarter of its side may miss it.
    pub fn mark_along(&self, edges: impl Iterator<Item = (Point, Point)>, marks: &mut [bool]) {
        for (a, b) in edges {
            let parts = (a.distance(b) / (self.cell / 2.0)).ceil().max(1.0) as u32;
            for part in 0..=parts {
                let at = a.lerp(b, f64::from(part) / f64::from(parts));
                if let Some(cell) = self.holding(at) {
                    marks[cell] = true;
                }
            }
        }
    }
}

/// The cells of a row of `count` whose centres lie from `low` to `high`.
#[inline]
fn span(low: f64, high: f64, cell: f64, count: usize) -> std::ops::Range<usize> {
    let (low, high) = (low / cell - 0.5, high / cell - 0.5);
    // Whole numbers by cutting off: without the processor's newer instructions, rounding is a call.
    let whole = low as usize;
    let first = whole + usize::from(low > whole as f64);
    let end = if high >= 0.0 {
        (high as usize).saturating_add(1).min(count)
    } else {
        0
    };
    first.min(end)..end
}

/// The edges of a closed polygon.
pub fn edges(ring: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    ring.iter()
        .zip(ring.iter().cycle().skip(1))
        .map(|(&a, &b)| (a, b))
}
