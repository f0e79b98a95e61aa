//! A raster of yes and no over a sort, for keeping account of what wood is left.
//!
//! One bit a cell, a row at a time in 64-bit words, so that testing or clearing a disc costs a few operations for each of its
//! rows. Everything outside the raster reads as no.

mod islands;
mod strip;
mod swath;

use kurbo::{Point, Rect, Vec2};

use strip::Strip;
pub(crate) use swath::{Chain, Swath};

/// The place and size of a raster's cells.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Frame {
    origin: Point,
    /// Side of a cell, mm.
    pub(crate) cell: f64,
    /// Cells to a millimetre.
    per_mm: f64,
    columns: usize,
    rows: usize,
}

/// The most cells along one side: beyond that the cells grow, so that memory stays bounded whatever the sort's size.
const MOST_CELLS: f64 = 8192.0;

impl Frame {
    /// A frame of cells of about this side that covers the rectangle.
    pub(crate) fn over(area: Rect, cell: f64) -> Frame {
        let longest = area.width().max(area.height()).max(cell);
        let cell = cell.max(longest / MOST_CELLS);
        let count = |length: f64| (length / cell).ceil().max(1.0) as usize;
        Frame {
            origin: area.origin(),
            cell,
            per_mm: 1.0 / cell,
            columns: count(area.width()),
            rows: count(area.height()),
        }
    }

    /// Half the diagonal of a cell: a disc covers a cell whole if it reaches this far beyond its middle.
    pub(crate) fn half_diagonal(self) -> f64 {
        self.cell * std::f64::consts::FRAC_1_SQRT_2
    }

    fn words(self) -> usize {
        self.columns.div_ceil(64)
    }

    /// The first row whose cells' middles are not below this height, kept within the frame (one beyond it at most).
    fn row_from(self, y: f64) -> usize {
        ceiling((y - self.origin.y) * self.per_mm - 0.5, self.rows)
    }

    fn column_from(self, x: f64) -> usize {
        ceiling((x - self.origin.x) * self.per_mm - 0.5, self.columns)
    }

    /// A place in cells from the middle of the first.
    fn in_cells(self, at: Point) -> Point {
        let from_corner = (at - self.origin) * self.per_mm;
        Point::new(from_corner.x - 0.5, from_corner.y - 0.5)
    }

    fn middle_y(self, row: usize) -> f64 {
        self.origin.y + (f64::from(row as u32) + 0.5) * self.cell
    }

    fn middle_x(self, column: usize) -> f64 {
        self.origin.x + (f64::from(column as u32) + 0.5) * self.cell
    }
}

/// The least whole number that is not less, between 0 and `most`, which is far below what 32 bits hold; 0 if it is none.
///
/// (The library's rounding is a call, and its conversion asks of each number whether there is such a whole one. A sum with 2^52 has no
/// places behind the point, so its last bits are the nearest whole number.)
pub(crate) fn ceiling(number: f64, most: usize) -> usize {
    let most = f64::from(most as u32);
    let from_nothing = if number > 0.0 { number } else { 0.0 };
    let within = if from_nothing < most {
        from_nothing
    } else {
        most
    };
    let sum = within + WHOLE;
    let nearest = sum.to_bits() as u32;
    let up = usize::from(sum - WHOLE < within);
    nearest as usize + up
}

/// 2^52: from here to its double, numbers of 64 bits are the whole ones.
const WHOLE: f64 = 4_503_599_627_370_496.0;

/// Rows to a band.
const BAND_ROWS: usize = 16;

/// A yes or no for every cell of a frame.
///
/// Cells are also seen in tiles, one word wide and a band of rows high. A tile that is not marked holds no yes, so that tests
/// in empty country cost next to nothing; a marked tile may hold none either, until [`Raster::refresh`].
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Raster {
    frame: Frame,
    bits: Vec<u64>,
    marked: Vec<bool>,
}

impl Raster {
    /// No everywhere.
    pub(crate) fn empty(frame: Frame) -> Raster {
        Raster {
            frame,
            bits: vec![0; frame.words() * frame.rows],
            marked: vec![false; frame.words() * frame.rows.div_ceil(BAND_ROWS)],
        }
    }

    /// Finds out anew which tiles hold a yes.
    pub(crate) fn refresh(&mut self) {
        let words = self.frame.words();
        self.marked.fill(false);
        for (row, bits) in self.bits.chunks_exact(words).enumerate() {
            let band = row / BAND_ROWS * words;
            for (mark, &word) in self.marked[band..band + words].iter_mut().zip(bits) {
                *mark |= word != 0;
            }
        }
    }

    pub(crate) fn frame(&self) -> Frame {
        self.frame
    }

    /// Cells that are yes.
    pub(crate) fn count(&self) -> usize {
        self.bits
            .iter()
            .map(|word| word.count_ones() as usize)
            .sum()
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.bits.iter().all(|&word| word == 0)
    }

    /// No wherever the other is yes.
    pub(crate) fn remove(&mut self, other: &Raster) {
        for (word, taken) in self.bits.iter_mut().zip(&other.bits) {
            *word &= !taken;
        }
    }

    /// Yes wherever the other is yes.
    pub(crate) fn add(&mut self, other: &Raster) {
        for (word, added) in self.bits.iter_mut().zip(&other.bits) {
            *word |= added;
        }
        for (mark, &added) in self.marked.iter_mut().zip(&other.marked) {
            *mark |= added;
        }
    }

    /// Yes where both are.
    pub(crate) fn both(&self, other: &Raster) -> Raster {
        let bits = self.bits.iter().zip(&other.bits).map(|(a, b)| a & b);
        let mut both = Raster {
            frame: self.frame,
            bits: bits.collect(),
            marked: self.marked.clone(),
        };
        both.refresh();
        both
    }

    /// Middles of the cells that are yes, from below and left.
    pub(crate) fn middles(&self) -> impl Iterator<Item = Point> {
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

    /// Keeps the cells that are yes for which `keep` says so of their middle.
    pub(crate) fn retain(&mut self, mut keep: impl FnMut(Point) -> bool) {
        let (frame, words) = (self.frame, self.frame.words());
        for (index, word) in self.bits.iter_mut().enumerate() {
            let (row, first) = (index / words, index % words * 64);
            for bit in Ones(*word) {
                if !keep(Point::new(frame.middle_x(first + bit), frame.middle_y(row))) {
                    *word &= !(1 << bit);
                }
            }
        }
    }

    /// Whether the cell at a place is yes.
    pub(crate) fn at(&self, place: Point) -> bool {
        let column = (place.x - self.frame.origin.x) / self.frame.cell;
        let row = (place.y - self.frame.origin.y) / self.frame.cell;
        if !(column >= 0.0 && row >= 0.0) {
            return false;
        }
        let (column, row) = (column as usize, row as usize);
        column < self.frame.columns
            && row < self.frame.rows
            && self.bits[row * self.frame.words() + column / 64] >> (column % 64) & 1 == 1
    }

    /// Whether any cell with its middle in the disc is yes.
    pub(crate) fn any_in_disc(&self, centre: Point, radius: f64) -> bool {
        self.any_near_line(centre, centre, radius)
    }

    /// Whether any cell with its middle within `radius` of a line is yes.
    pub(crate) fn any_near_line(&self, a: Point, b: Point, radius: f64) -> bool {
        let (frame, words) = (self.frame, self.frame.words());
        let first = frame.column_from(a.x.min(b.x) - radius) / 64;
        let end = frame.column_from(a.x.max(b.x) + radius).div_ceil(64);
        let strip = Strip::new(frame, a, b, radius);
        let (mut row, last) = strip.rows();
        while row < last {
            let band = row / BAND_ROWS;
            let next = ((band + 1) * BAND_ROWS).min(last);
            let marks = &self.marked[band * words..(band + 1) * words];
            if first < end && marks[first..end].contains(&true) {
                for row in row..next {
                    let bits = &self.bits[row * words..(row + 1) * words];
                    let (from, to) = strip.columns(row);
                    if spans(from, to).any(|(word, mask)| bits[word] & mask != 0) {
                        return true;
                    }
                }
            }
            row = next;
        }
        false
    }

    /// Cells that are yes with their middles in the disc.
    pub(crate) fn count_in_disc(&self, centre: Point, radius: f64) -> usize {
        let (frame, words) = (self.frame, self.frame.words());
        let first = frame.row_from(centre.y - radius);
        let end = frame.row_from(centre.y + radius);
        let squared = radius * radius;
        let mut count = 0;
        for row in first..end {
            let away = frame.middle_y(row) - centre.y;
            let half = (squared - away * away).max(0.0).sqrt();
            let from = frame.column_from(centre.x - half);
            let to = frame.column_from(centre.x + half);
            let bits = &self.bits[row * words..(row + 1) * words];
            for (word, mask) in spans(from, to) {
                let met = bits[word] & mask;
                if met != 0 {
                    count += met.count_ones() as usize;
                }
            }
        }
        count
    }

    /// The middle of the cells that are yes with their middles in the disc.
    pub(crate) fn middle_in_disc(&self, centre: Point, radius: f64) -> Option<Point> {
        let (frame, words) = (self.frame, self.frame.words());
        let squared = radius * radius;
        let (mut count, mut sum) = (0.0, Vec2::ZERO);
        for row in frame.row_from(centre.y - radius)..frame.row_from(centre.y + radius) {
            let y = frame.middle_y(row);
            let half = (squared - (y - centre.y).powi(2)).max(0.0).sqrt();
            let from = frame.column_from(centre.x - half);
            let to = frame.column_from(centre.x + half);
            for (word, mask) in spans(from, to) {
                for bit in Ones(self.bits[row * words + word] & mask) {
                    sum += Vec2::new(frame.middle_x(word * 64 + bit), y);
                    count += 1.0;
                }
            }
        }
        (count > 0.0).then(|| (sum / count).to_point())
    }

    /// Clears every cell with its middle within `radius` of a line, and says how many of them were yes.
    pub(crate) fn take(&mut self, a: Point, b: Point, radius: f64) -> usize {
        let (frame, words) = (self.frame, self.frame.words());
        let strip = Strip::new(frame, a, b, radius);
        let (first, end) = strip.rows();
        let mut count = 0;
        for row in first..end {
            let (from, to) = strip.columns(row);
            let bits = &mut self.bits[row * words..(row + 1) * words];
            for (word, mask) in spans(from, to) {
                let met = bits[word] & mask;
                if met != 0 {
                    count += met.count_ones() as usize;
                    bits[word] &= !mask;
                }
            }
        }
        count
    }

    /// Sets every cell with its middle within `radius` of a chain of points.
    pub(crate) fn set_near(&mut self, points: &[Point], radius: f64) {
        self.set(&Swath::new(self.frame, points, radius));
    }

    /// Clears every cell with its middle within `radius` of a chain of points.
    pub(crate) fn clear_near(&mut self, points: &[Point], radius: f64) {
        self.clear(&Swath::new(self.frame, points, radius));
    }

    /// Sets the cells of a swath over the same frame.
    pub(crate) fn set(&mut self, swath: &Swath) {
        let words = self.frame.words();
        for (row, at, set) in swath.rows() {
            let at = at..at + set.len();
            let band = row / BAND_ROWS * words;
            let marks = &mut self.marked[band..band + words][at.clone()];
            let bits = &mut self.bits[row * words..(row + 1) * words][at];
            for ((word, mark), set) in bits.iter_mut().zip(marks).zip(set) {
                *word |= set;
                *mark |= *set != 0;
            }
        }
    }

    /// Clears the cells of a swath over the same frame.
    pub(crate) fn clear(&mut self, swath: &Swath) {
        let words = self.frame.words();
        for (row, at, cleared) in swath.rows() {
            let bits = &mut self.bits[row * words..(row + 1) * words][at..at + cleared.len()];
            for (word, cleared) in bits.iter_mut().zip(cleared) {
                *word &= !cleared;
            }
        }
    }

    /// Sets every cell whose middle lies inside an odd number of the rings.
    pub(crate) fn set_inside(&mut self, rings: &[Vec<Point>]) {
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
        self.refresh();
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
