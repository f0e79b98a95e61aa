//! What a disc covers on its way along chains of lines, worked out once for several rasters.

use kurbo::Point;

use super::strip::Strip;
use super::{Frame, spans};

/// The cells of a frame with their middles within a radius of chains of points.
pub(crate) struct Swath {
    first_row: usize,
    first_word: usize,
    /// Words of each row, from the first.
    words: usize,
    bits: Vec<u64>,
}

/// A chain of points with the radius of the disc that moves along it.
pub(crate) type Chain = (Vec<Point>, f64);

impl Swath {
    /// What discs cover along some chains.
    pub(crate) fn of(frame: Frame, chains: &[Chain]) -> Swath {
        let places = chains
            .iter()
            .map(|(points, radius)| (points.as_slice(), *radius));
        let mut swath = Swath::over(frame, places);
        for (points, radius) in chains {
            swath.add(frame, points, *radius);
        }
        swath
    }

    /// What a disc covers along a chain of points.
    pub(crate) fn new(frame: Frame, points: &[Point], radius: f64) -> Swath {
        let mut swath = Swath::over(frame, std::iter::once((points, radius)));
        swath.add(frame, points, radius);
        swath
    }

    /// Nothing yet, with room for these.
    fn over<'c>(frame: Frame, chains: impl Iterator<Item = (&'c [Point], f64)>) -> Swath {
        let mut rows = frame.rows..0;
        let mut columns = frame.columns..0;
        for (points, radius) in chains {
            for at in points {
                rows.start = rows.start.min(frame.row_from(at.y - radius));
                rows.end = rows.end.max(frame.row_from(at.y + radius));
                columns.start = columns.start.min(frame.column_from(at.x - radius));
                columns.end = columns.end.max(frame.column_from(at.x + radius));
            }
        }
        let first_word = columns.start / 64;
        let words = columns.end.div_ceil(64).saturating_sub(first_word);
        let rows = rows.start..rows.end.max(rows.start);
        Swath {
            first_row: rows.start,
            first_word,
            words,
            bits: vec![0; rows.len() * words],
        }
    }

    fn add(&mut self, frame: Frame, points: &[Point], radius: f64) {
        if let [only] = points {
            self.add_line(frame, *only, *only, radius);
        }
        for pair in points.windows(2) {
            self.add_line(frame, pair[0], pair[1], radius);
        }
    }

    fn add_line(&mut self, frame: Frame, a: Point, b: Point, radius: f64) {
        let strip = Strip::new(frame, a, b, radius);
        let (first, end) = strip.rows();
        for row in first..end {
            let (from, to) = strip.columns(row);
            let start = (row - self.first_row) * self.words;
            let bits = &mut self.bits[start..start + self.words];
            for (word, mask) in spans(from, to) {
                bits[word - self.first_word] |= mask;
            }
        }
    }

    /// The rows that it covers something of: number, first word, words.
    pub(super) fn rows(&self) -> impl Iterator<Item = (usize, usize, &[u64])> {
        // Without any words there are no rows either.
        let rows = self.bits.chunks_exact(self.words.max(1)).enumerate();
        rows.map(|(offset, row)| (self.first_row + offset, self.first_word, row))
    }
}
