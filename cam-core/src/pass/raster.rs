//! A raster of yes and no over a sort, for keeping account of what wood is left.
//!
//! One bit a cell, a row at a time in 64-bit words, so that testing or clearing a disc costs a few operations for each of its
//! rows. Everything outside the raster reads as no.

use kurbo::{Point, Rect};

/// The place and size of a raster's cells.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Frame {
    origin: Point,
    /// Side of a cell, mm.
    pub(super) cell: f64,
    columns: usize,
    rows: usize,
}

/// The most cells along one side: beyond that the cells grow, so that memory stays bounded whatever the sort's size.
const MOST_CELLS: f64 = 8192.0;

impl Frame {
    /// A frame of cells of about this side that covers the rectangle.
    pub(super) fn over(area: Rect, cell: f64) -> Frame {
        let longest = area.width().max(area.height()).max(cell);
        let cell = cell.max(longest / MOST_CELLS);
        let count = |length: f64| (length / cell).ceil().max(1.0) as usize;
        Frame {
            origin: area.origin(),
            cell,
            columns: count(area.width()),
            rows: count(area.height()),
        }
    }

    /// Half the diagonal of a cell: a disc covers a cell whole if it reaches this far beyond its middle.
    pub(super) fn half_diagonal(self) -> f64 {
        self.cell * std::f64::consts::FRAC_1_SQRT_2
    }

    fn words(self) -> usize {
        self.columns.div_ceil(64)
    }

    /// The row whose cells' middles are at or above this height, kept within the frame (one beyond it at most).
    fn row_from(self, y: f64) -> usize {
        let row = ((y - self.origin.y) / self.cell - 0.5).ceil();
        row.clamp(0.0, self.rows as f64) as usize
    }

    fn column_from(self, x: f64) -> usize {
        let column = ((x - self.origin.x) / self.cell - 0.5).ceil();
        column.clamp(0.0, self.columns as f64) as usize
    }

    fn middle_y(self, row: usize) -> f64 {
        self.origin.y + (row as f64 + 0.5) * self.cell
    }

    fn middle_x(self, column: usize) -> f64 {
        self.origin.x + (column as f64 + 0.5) * self.cell
    }
}

/// A yes or no for every cell of a frame.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Raster {
    frame: Frame,
    bits: Vec<u64>,
}

impl Raster {
    /// No everywhere.
    pub(super) fn empty(frame: Frame) -> Raster {
        Raster {
            frame,
            bits: vec![0; frame.words() * frame.rows],
        }
    }

    pub(super) fn frame(&self) -> Frame {
        self.frame
    }

    /// Cells that are yes.
    pub(super) fn count(&self) -> usize {
        self.bits
            .iter()
            .map(|word| word.count_ones() as usize)
            .sum()
    }

    pub(super) fn is_empty(&self) -> bool {
        self.bits.iter().all(|&word| word == 0)
    }

    /// No wherever the other is yes.
    pub(super) fn remove(&mut self, other: &Raster) {
        for (word, taken) in self.bits.iter_mut().zip(&other.bits) {
            *word &= !taken;
        }
    }

    /// Yes wherever the other is yes.
    pub(super) fn add(&mut self, other: &Raster) {
        for (word, added) in self.bits.iter_mut().zip(&other.bits) {
            *word |= added;
        }
    }

    /// Yes where both are.
    pub(super) fn both(&self, other: &Raster) -> Raster {
        let bits = self.bits.iter().zip(&other.bits).map(|(a, b)| a & b);
        Raster {
            frame: self.frame,
            bits: bits.collect(),
        }
    }

    /// Middles of the cells that are yes, from below and left.
    pub(super) fn middles(&self) -> impl Iterator<Item = Point> {
        let (frame, words) = (self.frame, self.frame.words());
        self.bits
            .iter()
            .enumerate()
            .flat_map(move |(index, &word)| {
                let (row, first) = (index / words, index % words * 64);
                Ones(word)
                    .map(move |bit| Point::new(frame.middle_x(first + bit), frame.middle_y(row)))
            })
    }

    /// Whether the cell at a place is yes.
    pub(super) fn at(&self, place: Point) -> bool {
        let column = ((place.x - self.frame.origin.x) / self.frame.cell).floor();
        let row = ((place.y - self.frame.origin.y) / self.frame.cell).floor();
        if column < 0.0 || row < 0.0 {
            return false;
        }
        let (column, row) = (column as usize, row as usize);
        column < self.frame.columns
            && row < self.frame.rows
            && self.bits[row * self.frame.words() + column / 64] >> (column % 64) & 1 == 1
    }

    /// Whether any cell with its middle in the disc is yes.
    pub(super) fn any_in_disc(&self, centre: Point, radius: f64) -> bool {
        self.any_near_line(centre, centre, radius)
    }

    /// Whether any cell with its middle within `radius` of a line is yes.
    pub(super) fn any_near_line(&self, a: Point, b: Point, radius: f64) -> bool {
        let words = self.frame.words();
        strip(self.frame, a, b, radius).any(|(row, from, to)| {
            let row = &self.bits[row * words..(row + 1) * words];
            spans(from, to).any(|(word, mask)| row[word] & mask != 0)
        })
    }

    /// Sets every cell with its middle within `radius` of a chain of points.
    pub(super) fn set_near(&mut self, points: &[Point], radius: f64) {
        self.near(points, radius, |word, mask| *word |= mask);
    }

    /// Clears every cell with its middle within `radius` of a chain of points.
    pub(super) fn clear_near(&mut self, points: &[Point], radius: f64) {
        self.near(points, radius, |word, mask| *word &= !mask);
    }

    fn near(&mut self, points: &[Point], radius: f64, change: impl Fn(&mut u64, u64)) {
        let words = self.frame.words();
        let mut stroke = |a: Point, b: Point| {
            for (row, from, to) in strip(self.frame, a, b, radius) {
                let row = &mut self.bits[row * words..(row + 1) * words];
                for (word, mask) in spans(from, to) {
                    change(&mut row[word], mask);
                }
            }
        };
        if let [only] = points {
            stroke(*only, *only);
        }
        for pair in points.windows(2) {
            stroke(pair[0], pair[1]);
        }
    }

    /// Sets every cell whose middle lies inside an odd number of the rings.
    pub(super) fn set_inside(&mut self, rings: &[Vec<Point>]) {
        let mut crossings: Vec<Vec<f64>> = vec![Vec::new(); self.frame.rows];
        for ring in rings {
            for (index, &a) in ring.iter().enumerate() {
                let b = ring[(index + 1) % ring.len()];
                let (low, high) = if a.y <= b.y { (a, b) } else { (b, a) };
                let (first, end) = (self.frame.row_from(low.y), self.frame.row_from(high.y));
                for (row, at) in (first..end).zip(&mut crossings[first..end]) {
                    let part = (self.frame.middle_y(row) - low.y) / (high.y - low.y);
                    at.push(low.x + (high.x - low.x) * part);
                }
            }
        }
        let words = self.frame.words();
        for (row, mut at) in crossings.into_iter().enumerate() {
            at.sort_by(f64::total_cmp);
            for pair in at.chunks_exact(2) {
                let (from, to) = (
                    self.frame.column_from(pair[0]),
                    self.frame.column_from(pair[1]),
                );
                for (word, mask) in spans(from, to) {
                    self.bits[row * words + word] |= mask;
                }
            }
        }
    }
}

/// The set bits of a word, from the lowest.
struct Ones(u64);

impl Iterator for Ones {
    type Item = usize;

    fn next(&mut self) -> Option<usize> {
        if self.0 == 0 {
            return None;
        }
        let bit = self.0.trailing_zeros() as usize;
        self.0 &= self.0 - 1;
        Some(bit)
    }
}

/// Rows with the columns from and to (not included) whose middles are within `radius` of the line from `a` to `b`.
fn strip(
    frame: Frame,
    a: Point,
    b: Point,
    radius: f64,
) -> impl Iterator<Item = (usize, usize, usize)> {
    let rows = if radius >= 0.0 {
        frame.row_from(a.y.min(b.y) - radius)..frame.row_from(a.y.max(b.y) + radius)
    } else {
        0..0
    };
    let line = b - a;
    let length = line.hypot();
    // Corners of the rectangle between the two discs; none where the line is a point.
    let side = if length > 1e-12 {
        Some(kurbo::Vec2::new(-line.y, line.x) * (radius / length))
    } else {
        None
    };
    rows.filter_map(move |row| {
        let y = frame.middle_y(row);
        let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
        for end in [a, b] {
            let half = radius * radius - (y - end.y) * (y - end.y);
            if half >= 0.0 {
                let half = half.sqrt();
                least = least.min(end.x - half);
                most = most.max(end.x + half);
            }
        }
        if let Some(side) = side {
            for (from, to) in [(a + side, b + side), (a - side, b - side)] {
                if (from.y - y) * (to.y - y) <= 0.0 && from.y != to.y {
                    let x = from.x + (to.x - from.x) * ((y - from.y) / (to.y - from.y));
                    least = least.min(x);
                    most = most.max(x);
                }
            }
        }
        if least > most {
            return None;
        }
        let (from, to) = (frame.column_from(least), frame.column_from(most));
        (from < to).then_some((row, from, to))
    })
}

/// The words and masks of the columns from `from` to `to`, the last not included.
fn spans(from: usize, to: usize) -> impl Iterator<Item = (usize, u64)> {
    let words = if from < to {
        from / 64..to.div_ceil(64)
    } else {
        0..0
    };
    words.map(move |word| {
        let (first, end) = (from.max(word * 64) % 64, to.min(word * 64 + 64) - word * 64);
        let upper = if end == 64 { u64::MAX } else { (1 << end) - 1 };
        (word, upper & (u64::MAX << first))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn frame() -> Frame {
        Frame::over(Rect::new(-1.0, -2.0, 20.0, 9.0), 0.07)
    }

    fn line_distance(point: Point, a: Point, b: Point) -> f64 {
        let (arm, line) = (point - a, b - a);
        let part = if line.hypot2() > 0.0 {
            (arm.dot(line) / line.hypot2()).clamp(0.0, 1.0)
        } else {
            0.0
        };
        (arm - line * part).hypot()
    }

    #[test]
    fn a_stroke_sets_just_the_cells_whose_middles_are_near_enough() {
        for (a, b, radius) in [
            ((3.0, 2.0), (11.0, 5.5), 1.3),
            ((3.0, 2.0), (3.0, 2.0), 0.8),
            ((0.0, 0.0), (17.0, 0.0), 0.4),
            ((15.0, 8.0), (15.0, -1.0), 2.0),
            ((-5.0, -5.0), (2.0, 1.0), 3.0),
        ] {
            let (a, b) = (Point::from(a), Point::from(b));
            let mut raster = Raster::empty(frame());
            raster.set_near(&[a, b], radius);
            let mut all = Raster::empty(frame());
            all.set_inside(&[vec![
                Point::new(-9.0, -9.0),
                Point::new(99.0, -9.0),
                Point::new(99.0, 99.0),
                Point::new(-9.0, 99.0),
            ]]);
            for middle in all.middles() {
                let distance = line_distance(middle, a, b);
                if (distance - radius).abs() > 1e-9 {
                    assert_eq!(raster.at(middle), distance < radius, "{middle:?}");
                }
            }
            assert!(raster.any_near_line(a, b, radius));
            raster.clear_near(&[a, b], radius);
            assert!(raster.is_empty());
        }
    }

    #[test]
    fn the_inside_of_rings_has_their_area_less_the_hole() {
        let square = |from: f64, to: f64| {
            vec![
                Point::new(from, from),
                Point::new(to, from),
                Point::new(to, to),
                Point::new(from, to),
            ]
        };
        let mut raster = Raster::empty(frame());
        raster.set_inside(&[square(0.0, 7.0), square(2.0, 4.0)]);
        let area = raster.count() as f64 * frame().cell * frame().cell;
        assert!((area - 45.0).abs() < 1.0, "{area}");
        assert!(raster.at(Point::new(1.0, 1.0)));
        assert!(!raster.at(Point::new(3.0, 3.0)));
        assert!(!raster.at(Point::new(-50.0, 3.0)));
    }

    #[test]
    fn what_lies_outside_the_raster_is_no() {
        let mut raster = Raster::empty(frame());
        raster.set_near(&[Point::new(100.0, 100.0)], 5.0);
        assert!(raster.is_empty());
        assert!(!raster.any_in_disc(Point::new(100.0, 100.0), 5.0));
    }
}
